//! What each law asks of a label, and how this one answers: it stands there, nobody says it, or it is not asked of this food.
//!
//! European Union: Regulation (EU) 1169/2011, Article 9(1), point by point, with the lot of Directive 2011/91/EU. United States: 21 CFR
//! 101.3 to 101.9, and 21 USC 343(w) for allergens.

use super::said;
use crate::check::is_eaten_as_said;
use crate::figures::label::table::{self, Gap};
use crate::figures::label::{Item, Label, Loss, Strength, leaves};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::model::kind::Kind;
use crate::model::medium::Medium;

/// How a label answers what the law asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    /// It stands there.
    OnLabel,
    /// It is wanted, and the file does not say it.
    NotSaid,
    /// The law does not ask it of this food.
    NotAsked,
}

impl Standing {
    /// For a table.
    pub(super) fn words(self) -> &'static str {
        match self {
            Standing::OnLabel => "on the label",
            Standing::NotSaid => "not said",
            Standing::NotAsked => "not asked for",
        }
    }

    /// For a program.
    pub(super) fn key(self) -> &'static str {
        match self {
            Standing::OnLabel => "on_label",
            Standing::NotSaid => "not_said",
            Standing::NotAsked => "not_asked",
        }
    }
}

/// One thing that the law asks for.
#[derive(Debug, Clone)]
pub(super) struct Asked {
    /// Where the law asks for it.
    pub(super) rule: &'static str,
    /// What it is.
    pub(super) what: &'static str,
    pub(super) standing: Standing,
    /// What stands there, what is lacking, or why it is not asked for.
    pub(super) words: String,
    /// What is lacking is told by the page in a sentence of its own.
    pub(super) has_own_sentence: bool,
}

/// What is lacking or else what stands there.
struct Answer(Standing, String, bool);

fn there(words: impl Into<String>) -> Answer {
    Answer(Standing::OnLabel, words.into(), false)
}

fn lacking(words: impl Into<String>) -> Answer {
    Answer(Standing::NotSaid, words.into(), false)
}

/// Lacking, and told by the page elsewhere.
fn told(words: impl Into<String>) -> Answer {
    Answer(Standing::NotSaid, words.into(), true)
}

fn not_asked(words: impl Into<String>) -> Answer {
    Answer(Standing::NotAsked, words.into(), false)
}

/// What the label's law asks for, in its order.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub(super) fn of(label: &Label, units: Units) -> Result<Vec<Asked>, Overflow> {
    let row = |rule, what, answer: Answer| {
        let Answer(standing, words, has_own_sentence) = answer;
        Asked { rule, what, standing, words, has_own_sentence }
    };
    if label.law == Law::Us {
        let mut asked = vec![
            row("21 CFR 101.3", "statement of identity", name(label)),
            row("21 CFR 101.7", "net quantity", net(label)?),
            row("21 CFR 101.4", "ingredients", ingredients(label)),
            row("21 USC 343(w)", "allergens", allergens(label)),
            row("21 CFR 101.9(b)", "serving", serving(label)?),
            row("21 CFR 101.9(c)", "nutrition facts", nutrition(label, units)?),
            row("21 CFR 101.5", "business", business(label)),
            row("FDA, 62 FR 8248", "storage", storage(label)),
            row("19 USC 1304", "origin", origin(label)?),
            row("common practice", "directions", directions(label)),
            row("21 CFR 101.7(a)", "food or drink", food_or_drink(label)?),
        ];
        // Of anything else the law of drinks asks nothing.
        asked.extend(us_alcohol(label).map(|answer| row("27 CFR 4, 5, 7 and 16", "alcohol", answer)));
        return Ok(asked);
    }
    Ok(vec![
        row("Article 9(1)(a)", "name of the food", name(label)),
        row("Article 9(1)(b)", "ingredients", ingredients(label)),
        row("Article 9(1)(c)", "allergens", allergens(label)),
        row("Article 9(1)(d)", "quantities of ingredients", quantities(label)?),
        row("Article 9(1)(e)", "net quantity", net(label)?),
        row("Article 9(1)(f)", "date", date(label)),
        row("Article 9(1)(g)", "storage", storage(label)),
        row("Article 9(1)(h)", "business", business(label)),
        row("Article 9(1)(i)", "origin", origin(label)?),
        row("Article 9(1)(j)", "instructions for use", directions(label)),
        row("Article 9(1)(k)", "alcohol", alcohol(label)?),
        row("Article 9(1)(l)", "nutrition", nutrition(label, units)?),
        row("Directive 2011/91/EU", "lot", lot(label)),
        row("Articles 23(1) and 32(2)", "food or drink", food_or_drink(label)?),
    ])
}

fn name(label: &Label) -> Answer {
    there(label.sale.sold_as.clone().unwrap_or_else(|| label.name.clone()))
}

fn ingredients(label: &Label) -> Answer {
    let mut lacks = Vec::new();
    let compounds = said::without_lists(label);
    if !compounds.is_empty() {
        let names = show::list(&compounds);
        lacks.push(format!("what is in {names} (their packs say it: `consists of …` in your larder)"));
    }
    let unnamed = said::unnamed_oils(label);
    if !unnamed.is_empty() {
        lacks.push(format!("of which plant {} is (write `vegetable oil (rapeseed)`)", show::list(&unnamed)));
    }
    let fried_in: Vec<&str> = leaves(&label.ingredients)
        .into_iter()
        .filter(|item| item.fried_in && (item.aside || item.strained_out))
        .map(|item| item.name.as_str())
        .collect();
    if !fried_in.is_empty() {
        lacks.push(format!(
            "how much of {} stays in it, by which its place in the list hangs (it stands where a tenth of the weight would)",
            show::list(&fried_in)
        ));
    }
    if lacks.is_empty() { there(said::plain(&said::ingredients(label))) } else { lacking(lacks.join("; ")) }
}

fn allergens(label: &Label) -> Answer {
    if !label.unknown.is_empty() {
        return told(format!("the allergens of {}", show::list(&label.unknown)));
    }
    if !label.without_species.is_empty() {
        let of: Vec<String> = label.without_species.iter().map(|(name, word)| format!("{word} in {name}")).collect();
        return told(format!("which: {}", show::list(&of)));
    }
    // In the European Union they stand out in the list, and in the United States there is a statement.
    let found: Vec<String> = match label.law {
        Law::Us => label.contains.clone(),
        Law::Eu => said::standing_words(label),
    };
    if found.is_empty() { not_asked("nothing that the law lists is in it") } else { there(found.join(", ")) }
}

fn quantities(label: &Label) -> Result<Answer, Overflow> {
    let all: Result<Vec<String>, Overflow> = label.quantities.iter().map(|one| said::quantity(label, one)).collect();
    let all = all?;
    Ok(match (all.is_empty(), label.flavours.is_empty()) {
        (false, _) => there(all.join(", ")),
        (true, true) => not_asked("its name names none of its ingredients whose quantity is asked for"),
        (true, false) => not_asked(format!(
            "of {}, which its name names, under 2 % is in it, and of a flavouring in such small quantities none is asked for",
            show::list(&label.flavours)
        )),
    })
}

fn net(label: &Label) -> Result<Answer, Overflow> {
    if let Some(lacking) = drained(label)? {
        return Ok(lacking);
    }
    if label.promise.is_called_a_drink && label.promise.density.is_none() && !label.is_dough {
        let rule = if label.law == Law::Us { "21 CFR 101.7(a)" } else { "Article 23(1)(a)" };
        return Ok(lacking(format!(
            "its volume, for a drink is sold by volume ({rule}): weigh a litre of it, `weighs 1.04 kg per l`"
        )));
    }
    if matches!(label.loss, Loss::OvenNotSaid | Loss::CookingNotSaid) || !label.boiled_away.is_empty() {
        return Ok(told("what the heat takes of the weight"));
    }
    let net = label.pack.map_or(label.net, |pack| pack.net);
    let units = if label.law == Law::Us { Units::Both } else { Units::Metric };
    Ok(there(match said::net_and_drained(label, net, units)? {
        (net, Some(drained)) => format!("{net}, drained {drained}"),
        (net, None) => net,
    }))
}

/// What lies in a liquid and says nothing of what is left without it: Annex IX, 5; in the United States the net weight is that of what is
/// left, where the liquid is usually poured off.
fn drained(label: &Label) -> Result<Option<Answer>, Overflow> {
    let wanted = label.promise.medium.is_some_and(|medium| label.law == Law::Eu || medium == Medium::PouredOff);
    if !wanted || label.promise.drained.is_some() {
        return Ok(None);
    }
    let rule = if label.law == Law::Us { "FDA, A Food Labeling Guide" } else { "Annex IX, 5" };
    let net = label.pack.map_or(label.net, |pack| pack.net);
    let solid = match label.promise.solid {
        Some(solid) => format!(
            "; {} went in solid, and what lies in a liquid takes some up or gives some off",
            show::mass_plain(net.share(solid)?)
        ),
        None => String::new(),
    };
    Ok(Some(lacking(format!(
        "what is left of it on a sieve, beside the weight with its liquid ({rule}): weigh it, `drained 320 g of 550 g`, or `drained as packed` where neither goes into the other{solid}"
    ))))
}

fn date(label: &Label) -> Answer {
    match (&label.sale.good_for, label.made) {
        (None, _) if label.is_kept_cold => {
            lacking("how long it is good (`best before 3 days`, or `use by 2 days, REASON` for what soon spoils)")
        }
        (None, _) => lacking("how long it is good (`best before 3 days`)"),
        (Some(_), None) => lacking("the day on which it is made (--made), for the date"),
        (Some(_), Some(_)) => there(fact(label, |what| matches!(what, "Best before" | "Use by"))),
    }
}

/// What stands on the label of one kind.
fn fact(label: &Label, is_it: impl Fn(&str) -> bool) -> String {
    said::facts(label).into_iter().find(|(what, _)| is_it(what)).map(|(_, text)| text).unwrap_or_default()
}

/// A date is its own lot where it says day and month (Directive 2011/91/EU, Article 5).
fn lot(label: &Label) -> Answer {
    match (&label.sale.batch, &label.sale.good_for, label.made) {
        (Some(lot), ..) => there(lot.clone()),
        (None, Some(_), Some(_)) => there("the date stands for it"),
        _ => lacking("the lot (`batch L2311`)"),
    }
}

/// Annex X, 2(c): a `use by` is followed by how to keep it; what keeps in the cold does so only there (Articles 9(1)(g) and 25).
fn storage(label: &Label) -> Answer {
    if let Some(store) = &label.sale.store {
        return there(store.clone());
    }
    let is_perishable = label.sale.good_for.as_ref().is_some_and(|good| good.use_by.is_some()) || label.is_kept_cold;
    if !is_perishable {
        return not_asked("nothing says that it spoils soon or keeps in the cold only");
    }
    let below = if label.law == Law::Us { "40 °F" } else { "5 °C" };
    lacking(format!("how to keep it (`store Below {below}.`)"))
}

fn business(label: &Label) -> Answer {
    match &label.sale.business {
        // What is imported names who made it abroad.
        Some(business) if label.law == Law::Us && label.sale.origin.is_none() && !has_zip_code(business) => {
            lacking("the state and ZIP code of the business, behind its street and city (`business …, IL 62704`)")
        }
        Some(business) => there(business.clone()),
        None => lacking("name and address of the business (`business …`)"),
    }
}

/// Whether an address ends as 21 CFR 101.5(d) wants it, with a state and a ZIP code of five digits, or five and four.
fn has_zip_code(business: &str) -> bool {
    let words: Vec<&str> = business.split([' ', ',']).filter(|word| !word.is_empty()).collect();
    let is_zip = |word: &str| {
        let (five, four) = word.split_once('-').unwrap_or((word, "0000"));
        five.len() == 5 && four.len() == 4 && (five.chars().chain(four.chars())).all(|digit| digit.is_ascii_digit())
    };
    let is_state = |word: &str| word.len() >= 2 && word.chars().all(|letter| letter.is_alphabetic() || letter == '.');
    words.iter().zip(words.iter().skip(1)).any(|(state, zip)| is_state(state) && is_zip(zip))
}

/// Words of three letters that tell no ingredient from another.
const SMALL_WORDS: &[&str] = &["and", "big", "dry", "fat", "for", "low", "oil", "old", "raw", "red", "the"];

/// Article 26(2)(a), as a public review of specifications asks it (seen): where a buyer would else think that it comes from elsewhere; (3): of the main ingredient, over half of it, where that
/// comes from elsewhere than the food is said to (Regulation (EU) 2018/775, seen). In the United States what is imported says so.
fn origin(label: &Label) -> Result<Answer, Overflow> {
    let Some(origin) = &label.sale.origin else {
        return Ok(match label.place_in_name {
            Some(place) if label.law == Law::Eu => lacking(format!(
                "where it comes from, for its name says `{place}` (`origin …`; a customary name that only says how it is made needs none)"
            )),
            _ if label.law == Law::Us => not_asked("asked of what is imported (`origin …`)"),
            _ => not_asked("its name speaks of no country"),
        });
    };
    if label.law == Law::Eu {
        let half = label.net.value().over(Number::whole(2))?;
        let spoken = origin.to_lowercase();
        // `rye`, and not in `dryer`; what has no meaning of its own names nothing.
        let is_spoken_of = |word: &str| match word.chars().count() {
            0..=2 => false,
            3 => !SMALL_WORDS.contains(&word) && spoken.split(|c: char| !c.is_alphanumeric()).any(|one| one == word),
            _ => spoken.contains(word),
        };
        for item in leaves(&label.ingredients) {
            let is_main = !item.is_water() && item.mass.is_some_and(|mass| mass.value() > half);
            let allergens = item.said(label.law);
            let mut words = item.name.split_whitespace().chain(allergens.iter().map(|said| said.shown()));
            if is_main && !words.any(|word| is_spoken_of(&word.to_lowercase())) {
                return Ok(lacking(format!(
                    "where {} comes from, which is over half of it (`origin {origin}, {} from …`)",
                    item.name, item.name
                )));
            }
        }
    }
    Ok(there(origin.clone()))
}

/// Article 27: where one could hardly use the food rightly without them; raw flour is not eaten.
fn directions(label: &Label) -> Answer {
    match (&label.sale.directions, label.to_cook.as_slice()) {
        // To eat it with a spoon makes nothing of it done.
        (Some(said), raw)
            if is_eaten_as_said(&said.to_lowercase())
                && !raw.is_empty()
                && !is_egg_alone(label, raw)
                && !is_fish_alone(label, raw) =>
        {
            lacking(format!(
                "how it is cooked, for it holds raw {}, and `directions` say only how it is eaten (`directions {}`)",
                show::list(raw),
                how_to_cook(label, raw)
            ))
        }
        (Some(directions), _) => there(directions.clone()),
        (None, []) => not_asked("nothing in it is known to be left raw"),
        // Of egg alone: mayonnaise is not cooked, and whoever eats it wants to know.
        (None, raw) if is_egg_alone(label, raw) => {
            lacking(format!("what is done with the raw {} in it (`directions Made with raw egg.`)", show::list(raw)))
        }
        (None, raw) if is_fish_alone(label, raw) => lacking(format!(
            "whether it is eaten as it is, for it holds raw {}: parasites die in the cold, -20 °C for 24 h (Regulation (EC) 853/2004, Annex III, Section VIII, from memory) \
             (`directions Eat as it is; frozen before it was cured.`)",
            show::list(raw)
        )),
        (None, raw) => lacking(format!(
            "how it is cooked, for it holds raw {} (`directions {}`)",
            show::list(raw),
            how_to_cook(label, raw)
        )),
    }
}

/// How that is said, by what is raw: gold outside is no cooked sausage, and of flesh a buyer wants to know how hot it is inside (FDA Food Code
/// 3-401.11: poultry, and what is stuffed, 74 °C; from memory).
fn how_to_cook(label: &Label, raw: &[String]) -> &'static str {
    let leaves = leaves(&label.ingredients);
    match leaves.iter().any(|item| raw.contains(&item.name) && item.kind().is_flesh()) {
        true => "Cook until 74 °C inside.",
        false => "Bake at 200 °C until golden.",
    }
}

fn is_fish_alone(label: &Label, raw: &[String]) -> bool {
    let leaves = leaves(&label.ingredients);
    let mut all = leaves.iter().filter(|item| raw.contains(&item.name));
    all.all(|item| matches!(item.kind(), Kind::Fish | Kind::Shellfish))
}

fn is_egg_alone(label: &Label, raw: &[String]) -> bool {
    leaves(&label.ingredients).iter().filter(|item| raw.contains(&item.name)).all(|item| item.kind() == Kind::Egg)
}

/// A drink of half a percent of alcohol and more is the TTB's and not the FDA's: 27 CFR 4 (wine), 5 (spirits), 7 (beer), 16 (warning). From memory.
fn us_alcohol(label: &Label) -> Option<Answer> {
    let strength = label.promise.strength.filter(|strength| strength.is_said())?;
    let measured = if strength == Strength::ToMeasure { ", how strong it is (measured)" } else { "" };
    Some(lacking(format!(
        "what the law of the TTB wants of drinks with alcohol{measured}: the strength, the Government Health Warning and its approval of the label; a table of \
         nutrition facts is not asked of most of them (27 CFR 4, 5, 7 and 16)"
    )))
}

fn alcohol(label: &Label) -> Result<Answer, Overflow> {
    let grams = label.alcohol();
    match label.promise.strength.filter(|strength| strength.is_said()) {
        Some(Strength::Of(_)) => return Ok(there(fact(label, |what| what == "Alcohol"))),
        Some(Strength::ToMeasure) => {
            return Ok(lacking(
                "how strong it is, if that is more than 1.2 % by volume: heat, a ferment and what is strained out change it, so it is measured",
            ));
        }
        None => {}
    }
    let asked = "asked of drinks of more than 1.2 % by volume only";
    // What the larder does not know, and a spirit without its figure, may hold some; what is called flour, meat or fruit is none of it.
    let is_open = |item: &&Item| match &item.facts {
        Some(facts) => facts.kind == Some(Kind::Spirit) && facts.contents.alcohol.is_none(),
        None => matches!(item.kind(), Kind::Other | Kind::Spirit),
    };
    let open: Vec<&str> =
        leaves(&label.ingredients).into_iter().filter(is_open).map(|item| item.name.as_str()).collect();
    let open = if open.is_empty() {
        String::new()
    } else {
        format!("; whether there is any in {} is not known", show::list(&open))
    };
    if !grams.is_positive() {
        return Ok(not_asked(if open.is_empty() {
            "there is none in it".to_owned()
        } else {
            format!("{asked}{open}")
        }));
    }
    let in_100_g = grams.times(Number::whole(100))?.over(label.net.value())?;
    // 1.2 % by volume of water are 0.95 g in 100 g.
    let may_be_asked = !label.is_dough && in_100_g > Number::constant(95, 100);
    let drink = if may_be_asked { ", and nobody says whether this is one" } else { "" };
    Ok(not_asked(format!("{asked}{drink}; {} g in 100 g went in here{open}", in_100_g.decimal(1))))
}

/// Which points hang on whether it is poured: Articles 9(1)(k), 23(1)(a) and 32(2), and 21 CFR 101.7(a), from memory.
fn food_or_drink(label: &Label) -> Result<Answer, Overflow> {
    if label.promise.density.is_some() {
        return Ok(there(match label.law {
            Law::Eu => "sold by volume: the net quantity is in millilitres, and the table is of 100 ml",
            Law::Us => "sold by volume: the net quantity is in fluid ounces and millilitres, and so is a serving",
        }));
    }
    let poured = leaves(&label.ingredients).into_iter().filter(|item| !item.aside && item.kind().is_liquid());
    let poured = Mass::sum(poured.filter_map(|item| item.mass))?;
    let is_mostly_poured = poured.value().times(Number::whole(2))? > label.net.value();
    if label.is_dough || !is_mostly_poured {
        return Ok(not_asked("taken for a food that is sold by weight"));
    }
    Ok(not_asked(match label.law {
        Law::Eu => {
            "taken for a food that is sold by weight; of what is poured the net quantity is a volume, the table is of 100 ml, and of a drink of \
             more than 1.2 % by volume the strength is said: it is, where the head has what a volume weighs, `weighs 1.04 kg per l`"
        }
        Law::Us => {
            "taken for a food that is sold by weight; of what is poured the net quantity is a volume, and so is a serving: they are, where the \
             head has what a volume weighs, `weighs 1.04 kg per l`"
        }
    }))
}

fn serving(label: &Label) -> Result<Answer, Overflow> {
    Ok(match said::unsaid_serving(label) {
        Some(open) => lacking(open),
        None => there(said::serving(label)?.unwrap_or_default()),
    })
}

fn nutrition(label: &Label, units: Units) -> Result<Answer, Overflow> {
    if label.is_table_of_drained() {
        return Ok(told("the figures of what is left when its liquid is poured off"));
    }
    let columns = said::columns(label, units)?;
    let rows = table::rows(label)?;
    for (row, column) in rows.iter().flat_map(|row| columns.iter().map(move |column| (row, column))) {
        for figure in &row.figures {
            if matches!(figure.gap(label, column.factor)?, Gap::Small | Gap::Large) {
                let (left, missing): (Vec<String>, Vec<String>) = figure
                    .missing
                    .iter()
                    .chain(&figure.fried_in)
                    .cloned()
                    .partition(|name| label.nutrition.strained_out.contains(name));
                let said = |what: &str, of: &[String]| (!of.is_empty()).then(|| format!("{what} {}", show::list(of)));
                if figure.is_eaten {
                    return Ok(told("how much sugar a ferment leaves"));
                }
                let lacks = [
                    said("the figures of", &missing),
                    said("what is left behind by", &left),
                    said("the weight of", &figure.unweighed.names),
                ];
                return Ok(told(show::list(&lacks.into_iter().flatten().collect::<Vec<_>>())));
            }
        }
    }
    Ok(there(rows.iter().map(|row| row.name).collect::<Vec<_>>().join(", ")))
}

/// What is wanted on the label, is not said, and is told nowhere else on the page.
pub(super) fn lacks(asked: &[Asked]) -> Option<String> {
    let open = asked.iter().filter(|one| one.standing == Standing::NotSaid && !one.has_own_sentence);
    let open: Vec<&str> = open.map(|one| one.words.as_str()).collect();
    (!open.is_empty()).then(|| format!("Not said yet, and wanted on a label: {}.", open.join("; ")))
}
