//! The words of a label: the list of ingredients with what stands out in it, quantities, dates, the columns of the table.

use super::serving_sizes;
use crate::figures::label::additives;
use crate::figures::label::leaves;
use crate::figures::label::rounding;
use crate::figures::label::{Item, Label, Pack, Quantity, Serving, Strength};
use crate::measure::net_quantity;
use crate::measure::noun::{counted, is_one_or_several, singular};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Volume};
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::model::kind::Kind;
use crate::model::nutrient::Nutrient;
use crate::model::species::Said;
use crate::out::block::{Phrase, Tone};
use crate::solve::formula::serving::count_and_noun;
use jiff::ToSpan;

/// The list of ingredients. In the European Union the words that name allergens stand out, and where none does, the law's own word in
/// brackets (Article 21(1)(b)).
pub(super) fn ingredients(label: &Label) -> Vec<Phrase> {
    let mut runs = vec![Phrase::plain("Ingredients: ")];
    list(&label.ingredients, label.law, &mut runs);
    runs.push(Phrase::plain("."));
    runs
}

/// The words of the list that name allergens, each once.
pub(super) fn standing_words(label: &Label) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for run in ingredients(label).into_iter().filter(|run| run.tone == Tone::Strong) {
        let word = run.text.to_lowercase();
        if !found.contains(&word) {
            found.push(word);
        }
    }
    found
}

/// Words without what stands out.
pub(super) fn plain(runs: &[Phrase]) -> String {
    runs.iter().map(|run| run.text.as_str()).collect()
}

fn list(items: &[Item], law: Law, runs: &mut Vec<Phrase>) {
    for (at, item) in items.iter().enumerate() {
        if at > 0 {
            runs.push(Phrase::plain(", "));
        }
        if !item.inner.is_empty() {
            runs.push(Phrase::plain(format!("{} (", item.name)));
            list(&item.inner, law, runs);
            runs.push(Phrase::plain(")"));
            continue;
        }
        let mut text = item.listed(law).to_owned();
        if let Some(consists) = item.facts.as_ref().and_then(|facts| facts.consists.as_ref()) {
            // `consists of raising agents (…)`: the name of the pack, then what is in it.
            text = match law {
                Law::Us => format!("{text} ({})", additives::by_name(consists)),
                Law::Eu => format!("{text} ({consists})"),
            };
        }
        match law {
            Law::Us => runs.push(Phrase::plain(with_sulfites(text, item))),
            Law::Eu => standing_out(&text, &item.said(law), runs),
        }
    }
}

/// A name with the sulfites that are in it: 21 CFR 101.100(a)(4) and 130.9 (seen) want them declared from 10 mg in a kilogram of the food on,
/// those of a dried fruit in it too, and nobody has measured that there are fewer.
fn with_sulfites(text: String, item: &Item) -> String {
    let holds = item.facts.as_ref().is_some_and(|facts| facts.allergens.iter().any(|word| is_sulfite(word)));
    if holds && !is_sulfite(&text) { format!("{text} (sulfites)") } else { text }
}

fn is_sulfite(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["sulphit", "sulfit", "sulphur dioxide", "sulfur dioxide"].iter().any(|word| lower.contains(word))
}

/// A name in which the words that name allergens stand out; those that it does not name stand behind it.
fn standing_out(text: &str, allergens: &[Said], runs: &mut Vec<Phrase>) {
    let mut places: Vec<std::ops::Range<usize>> = Vec::new();
    let mut unnamed: Vec<&str> = Vec::new();
    for said in allergens {
        match said.named_in(text) {
            Some(place) => places.push(place),
            None => unnamed.push(said.shown()),
        }
    }
    places.sort_by_key(|place| (place.start, place.end));
    let mut done = 0;
    for place in places.into_iter().filter(|place| place.start < place.end) {
        if place.start < done {
            continue;
        }
        push(runs, |text| Phrase::plain(text), text.get(done..place.start));
        push(runs, |text| Phrase::strong(text), text.get(place.clone()));
        done = place.end;
    }
    push(runs, |text| Phrase::plain(text), text.get(done..));
    for (at, word) in unnamed.iter().enumerate() {
        runs.push(Phrase::plain(if at == 0 { " (" } else { ", " }));
        runs.push(Phrase::strong(word));
    }
    if !unnamed.is_empty() {
        runs.push(Phrase::plain(")"));
    }
}

fn push(runs: &mut Vec<Phrase>, how: impl Fn(&str) -> Phrase, text: Option<&str>) {
    if let Some(text) = text.filter(|text| !text.is_empty()) {
        runs.push(how(text));
    }
}

/// `plums 22 %`.
pub(super) fn quantity(label: &Label, quantity: &Quantity) -> Result<String, Overflow> {
    let share = quantity.share.percent()?;
    // What the law of jams says of it too is cut down as there: two figures of one thing would stand on one label.
    let share = if label.is_fruit_of_a_jam(&quantity.name)? { share.floor() } else { share };
    Ok(if share > Number::whole(100) {
        format!("made with {} g of {} for each 100 g", share.decimal(0), quantity.name)
    } else {
        format!("{} {} %", quantity.name, share.decimal(if share < Number::whole(10) { 1 } else { 0 }))
    })
}

/// What the European Union wants beside the name of foods with sweeteners (Regulation (EU) 1169/2011, Annex III, 2.1, 2.2 and 2.4).
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub(super) fn of_sweeteners(label: &Label) -> Result<Vec<String>, Overflow> {
    let sweeteners = leaves(&label.ingredients).into_iter().filter(|item| item.class() == Some("sweetener")).count();
    if label.law != Law::Eu || sweeteners == 0 {
        return Ok(Vec::new());
    }
    let sum = |nutrient| label.nutrition.sum(nutrient).map_or(Number::ZERO, |sum| sum.amount);
    let plural = if sweeteners == 1 { "" } else { "s" };
    let sugars = if sum(Nutrient::AddedSugars).is_positive() { "sugars and " } else { "" };
    let mut said = vec![format!("With {sugars}sweetener{plural}.")];
    if sum(Nutrient::Polyols).times(Number::whole(10))? > label.net.value() {
        said.push("Excessive consumption may produce laxative effects.".to_owned());
    }
    Ok(said)
}

/// What the law wants to know of servings in the United States and nobody says: 21 CFR 101.9(b) and 101.12(b).
pub(super) fn unsaid_serving(label: &Label) -> Option<String> {
    let pack = label.pack.filter(|_| label.law == Law::Us)?;
    let hundred = Mass::new(Number::whole(100));
    let grams = pack.serving.value().decimal(0);
    if let Ok(Some(volume)) = label.volume(pack.serving) {
        return unsaid_drink(label, pack.by, volume);
    }
    // Of a food that the table names the amount is known, and what is asked fits it.
    if matches!(pack.by, Serving::Hundred | Serving::Piece)
        && let Some(asked) = serving_sizes::asked(label, pack)
    {
        return asked;
    }
    match pack.by {
        Serving::Said => household(label).ok()?.is_none().then(|| {
            format!("what {grams} g are by a measure of the household (`serving {grams} g, 1 slice`, or `1/2 cup`: 21 CFR 101.9(b)(5))")
        }),
        Serving::Whole => None,
        Serving::OfLoaf => Some(
            "how thick a slice of 2 oz is, which are taken for a loaf that is not sliced; of a sliced one the slices nearest to 50 g \
             (`serving 48 g`)"
                .to_owned(),
        ),
        Serving::Hundred => Some("what a serving is (`serving 55 g`, by 21 CFR 101.12(b))".to_owned()),
        // A bagel is one serving by itself, of 110 g (21 CFR 101.12(b), table 2 of 2016; from memory).
        Serving::Piece if label.is_dough && label.name.to_lowercase().contains("bagel") => {
            (pack.serving >= Mass::new(Number::whole(220)))
                .then(|| format!("whether {grams} g are one serving: 21 CFR 101.12(b) counts with 110 g of bagels (`serving 110 g`)"))
        }
        Serving::Piece if label.is_dough => (pack.serving >= hundred).then(|| {
            format!(
                "whether {grams} g are one serving: 21 CFR 101.12(b) counts with 50 g of bread and rolls, 55 g of buns and croissants \
                 (`serving 55 g`)"
            )
        }),
        // Half of what biscuits and sweets are served by, and less: several make a serving, 101.9(b)(2)(i)(A).
        Serving::Piece if pack.serving <= Mass::new(Number::whole(15)) => Some(format!(
            "how many pieces of {} are one serving: 21 CFR 101.12(b) counts with 30 g of biscuits and sweets, 15 g of hard ones (`serving 30 g`)",
            show::mass_plain(pack.serving)
        )),
        // Twice what the heaviest of cakes is served by.
        Serving::Piece => (pack.serving >= Mass::new(Number::whole(250))).then(|| {
            // A cake is what holds flour and is no dough.
            let has_flour = leaves(&label.ingredients).iter().any(|item| item.kind() == Kind::Flour);
            // Table 2, from memory. Which of them it is nobody here knows, and the amount of another food would make a wrong table.
            let kinds = match has_flour {
                true => "of cake 55 to 125 g by how heavy it is, of quiche, pizza and filled breads 140 g",
                false => "of soup 245 g, of what a cup measures 1 cup",
            };
            format!("whether {grams} g are one serving: 21 CFR 101.12(b) has an amount for each kind of food, {kinds} (`serving … g`)")
        }),
    }
}

/// The same of what is poured: 21 CFR 101.12(b) has 360 ml of most drinks, 240 ml of milk and juice (from memory).
fn unsaid_drink(label: &Label, by: Serving, volume: Volume) -> Option<String> {
    let millilitres = volume.value().floor().decimal(0);
    match by {
        Serving::Whole => None,
        Serving::Said => household(label).ok()?.is_none().then(|| {
            format!(
                "what {millilitres} ml are by a measure of the household (`serving {millilitres} ml, 1 cup`: 21 CFR 101.9(b)(5))"
            )
        }),
        Serving::Piece if volume <= Volume::new(Number::whole(360)) => None,
        Serving::Piece | Serving::OfLoaf | Serving::Hundred => Some(format!(
            "whether {millilitres} ml are a serving: 21 CFR 101.12(b) has 360 ml of most drinks, 240 ml of milk and juice (`serving 240 ml, 1 cup`)"
        )),
    }
}

/// Date, storage, directions, traces, origin, lot and business, as far as they are said, each with the words of the law.
pub(super) fn facts(label: &Label) -> Vec<(&'static str, String)> {
    let mut facts = Vec::new();
    if let Some(good) = &label.sale.good_for {
        let days = good.time.whole_days().unwrap_or(0);
        let what = if good.use_by.is_some() { "Use by" } else { "Best before" };
        let until = label.made.and_then(|made| made.checked_add(days.days()).ok());
        facts.push((
            what,
            match until {
                // Day, month and year in this order, not coded (Annex X, 1).
                Some(date) => date.strftime("%-d %B %Y").to_string(),
                None => {
                    let plural = if days == 1 { "" } else { "s" };
                    format!("{days} day{plural} from the day on which it is made")
                }
            },
        ));
    }
    if let Ok(Some(fruit)) = label.fruit_of_a_jam() {
        facts.push(("Prepared with", format!("{} g of fruit per 100 g", fruit.decimal(0))));
    }
    facts.extend(strength(label).map(|text| ("Alcohol", text)));
    let of = |text: &Option<String>| text.clone();
    facts.extend(of(&label.sale.store).map(|text| ("Store", text)));
    facts.extend(of(&label.sale.directions).map(|text| ("Directions", text)));
    facts.extend(of(&label.sale.may_contain).map(|text| ("May contain", text)));
    facts.extend(of(&label.sale.origin).map(|text| ("Origin", text)));
    facts.extend(of(&label.sale.batch).map(|text| ("Lot", text)));
    let business = if label.law == Law::Us { "Manufactured by" } else { "Business" };
    facts.extend(of(&label.sale.business).map(|text| (business, text)));
    facts
}

/// The strength of a drink, to a tenth and at 20 °C: Annex XII with Article 9(1)(k); in the United States as it is put for spirits.
fn strength(label: &Label) -> Option<String> {
    let Some(Strength::Of(share)) = label.promise.strength.filter(|strength| strength.is_said()) else { return None };
    let share = share.percent().ok()?.decimal(1);
    // 27 CFR 5.65 (from memory).
    Some(if label.law == Law::Us { format!("{share} % alc/vol") } else { format!("{share} % vol") })
}

/// A slice of a cake is a half to a sixth of it, or such a share cut in two or three: 21 CFR 101.9(b)(2)(ii), from memory.
const SLICES: [i64; 17] = [2, 3, 4, 5, 6, 8, 9, 10, 12, 15, 16, 18, 20, 24, 27, 30, 32];

/// A serving by a measure of the household: 21 CFR 101.9(b)(5) and (7), by the FDA's Guidelines for Determining Metric Equivalents of
/// Household Measures (seen), wants the piece, slice, fraction, jar or tray beside the grams. Somebody says it, or it is a piece, several, or
/// of a whole cake a slice; of bread no slice is made up (101.12(b): what is not sliced is served by 2 oz).
///
/// # Errors
/// When a figure leaves the range of exact numbers.
fn household(label: &Label) -> Result<Option<String>, Overflow> {
    let is_whole = label.pack.is_some_and(|pack| pack.by == Serving::Whole);
    if let Some(words) = label.serving_words.as_ref().filter(|_| !is_whole) {
        return Ok(if is_another_share(label, words)? { None } else { Some(words.clone()) });
    }
    let Some((pack, each)) = label.pack.zip(label.each) else {
        return Ok(is_whole.then(|| "1 container".to_owned()));
    };
    // Nobody is eaten.
    let noun = match label.noun.as_deref() {
        Some("people" | "persons" | "guests" | "covers" | "eaters") => "portions",
        noun => noun.unwrap_or("pieces"),
    };
    let ratio = match pack.by {
        Serving::Piece => Number::ONE,
        Serving::Said | Serving::Whole => pack.serving.ratio(each)?,
        Serving::OfLoaf | Serving::Hundred => return Ok(None),
    };
    // The grams are those of the measure: two parts in a hundred are within what a household weighs.
    let is_near = |count: Number| -> Result<bool, Overflow> {
        Ok(ratio.over(count)?.minus(Number::ONE)?.size() <= Number::constant(1, 50))
    };
    let whole = ratio.rounded_to(Number::ONE)?;
    if whole >= Number::ONE && is_near(whole)? {
        return Ok(Some(counted(whole, noun)));
    }
    for parts in SLICES {
        let slice = Number::ONE.over(Number::whole(parts))?;
        if !label.is_dough && is_near(slice)? {
            let one = counted(Number::ONE, noun);
            return Ok(Some(format!("1/{parts} {}", one.strip_prefix("1 ").unwrap_or(&one))));
        }
    }
    Ok(None)
}

/// Whether what is said of a serving, `1/12 pudding`, is another share of a piece than its grams: a label with 150 g and a twelfth of 1600 g
/// contradicts itself. Grams of a measure are rounded to 5 g at most (101.9(b)(5), from memory).
fn is_another_share(label: &Label, words: &str) -> Result<bool, Overflow> {
    let (Some(pack), Some(each), Some(piece)) = (label.pack, label.each, label.noun.as_deref()) else {
        return Ok(false);
    };
    let of_pieces = count_and_noun(words).filter(|(_, noun, _)| is_one_or_several(noun, &singular(piece)));
    let Some((count, ..)) = of_pieces else { return Ok(false) };
    let meant = each.times(count)?;
    Ok(meant.ratio(pack.serving)?.minus(Number::ONE)?.size() > Number::constant(1, 20))
}

/// Servings and their size, in the United States.
pub(super) fn serving(label: &Label) -> Result<Option<String>, Overflow> {
    let parts = serving_parts(label)?;
    Ok(parts.map(|(servings, size)| format!("{servings}. Serving size: {size}.")))
}

/// How many servings are in it, and what one is.
pub(super) fn serving_parts(label: &Label) -> Result<Option<(String, String)>, Overflow> {
    let (Law::Us, Some(pack)) = (label.law, label.pack) else { return Ok(None) };
    let serving = eaten_serving(label, pack)?;
    let (servings, is_about) = rounding::us_servings(label.eaten(pack.net)?.ratio(serving)?)?;
    let about = if is_about { "about " } else { "" };
    let size = match label.volume(pack.serving)? {
        // A bottle holds what is promised of it, and so much is poured.
        Some(volume) if volume.value() >= Number::whole(10) => format!("{} mL", volume.value().floor().decimal(0)),
        Some(volume) => format!("{} mL", rounding::us_serving_grams(volume.value())?),
        None => format!("{} g", rounding::us_serving_grams(serving.value())?),
    };
    let size = match (household(label)?, pack.by) {
        (Some(words), _) => format!("{words} ({size})"),
        (None, Serving::OfLoaf) => format!("2 oz ({size})"),
        (None, _) => size,
    };
    let plural = if servings == "1" { "" } else { "s" };
    Ok(Some((format!("{about}{servings} serving{plural} per container"), size)))
}

/// What is eaten of a serving: what somebody says is one is that already (21 CFR 101.9(b)(9), from memory).
fn eaten_serving(label: &Label, pack: Pack) -> Result<Mass, Overflow> {
    match pack.by {
        Serving::Said => Ok(pack.serving),
        _ => label.eaten(pack.serving),
    }
}

/// Why a serving is not what the file says.
pub(super) fn why_whole(label: &Label) -> Option<&'static str> {
    label.pack.filter(|pack| pack.by == Serving::Whole).map(|_| {
        "What is sold together is less than two of the servings that are said, and so it is one (21 CFR 101.9(b)(6))."
    })
}

/// A net quantity of so much of it: by volume of what is sold so, else by weight, and never more than there is.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub(super) fn net_quantity(label: &Label, mass: Mass, units: Units) -> Result<String, Overflow> {
    Ok(match label.volume(mass)? {
        Some(volume) => net_quantity::shown_volume(volume, units).to_string(),
        None => net_quantity::shown(mass, units).to_string(),
    })
}

/// What is promised of so much of it in the words of the label: `Net weight` or `Net quantity`, and what is left without the liquid.
/// In the United States what is usually poured off is none of the net weight (FDA, A Food Labeling Guide, `excludes any liquid or juice
/// in which the food may be packed, unless the liquid is usually consumed`, seen).
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub(super) fn net_and_drained(label: &Label, mass: Mass, units: Units) -> Result<(String, Option<String>), Overflow> {
    let drained = label.drained(mass)?.map(|drained| net_quantity::shown(drained, units).to_string());
    match drained {
        Some(drained) if label.is_table_of_drained() => Ok((format!("{drained} drained"), None)),
        drained => Ok((net_quantity(label, mass, units)?, drained)),
    }
}

/// A column of the table: what it is of, as so many times the batch.
pub(super) struct Column {
    pub(super) head: String,
    pub(super) factor: Number,
    /// Whether the shares of the daily values stand beside it.
    pub(super) with_daily: bool,
}

/// The columns: in the European Union 100 g and a piece; in the United States a serving, and the container where there are 2 to 3
/// servings in it (101.9(b)(12)(i), by nutrifactshub.com, Dual-Column Labeling, seen; there it is two to three times the reference amount, which the
/// serving stands for), or a piece where it is two to three servings (101.9(b)(2)(i)(D), as a public label program quotes it of the eCFR, seen).
pub(super) fn columns(label: &Label, units: Units) -> Result<Vec<Column>, Overflow> {
    let hundred = label.hundred()?.ratio(label.net)?;
    let mut columns = Vec::new();
    if let (Law::Us, Some(pack)) = (label.law, label.pack) {
        let factor = pack.serving.ratio(label.net)?;
        // What is the whole of a piece has its net weight, and what somebody says is a serving weighs what they say.
        let is_piece = matches!(pack.by, Serving::Piece | Serving::Whole);
        let serving = eaten_serving(label, pack)?;
        let weighs = match label.volume(serving)? {
            None if !is_piece => net_quantity::nearest(serving, units).to_string(),
            _ => net_quantity(label, serving, units)?,
        };
        columns.push(Column { head: format!("per serving, {weighs}"), factor, with_daily: true });
        let is_dual = |mass: Mass| -> Result<bool, Overflow> {
            let servings = mass.ratio(pack.serving)?;
            Ok(servings >= Number::whole(2) && servings <= Number::whole(3))
        };
        let each = label.each.filter(|each| *each < pack.net);
        if is_dual(pack.net)? {
            let factor = pack.net.ratio(label.net)?;
            let head = format!("per container, {}", net_quantity(label, pack.net, units)?);
            columns.push(Column { head, factor, with_daily: true });
        } else if let Some(each) = each
            && is_dual(each)?
        {
            let one = counted(Number::ONE, label.noun.as_deref().unwrap_or("pieces"));
            let head = format!("per {}, {}", one.strip_prefix("1 ").unwrap_or(&one), net_quantity(label, each, units)?);
            columns.push(Column { head, factor: each.ratio(label.net)?, with_daily: true });
        }
    }
    // Article 32(2): `expressed per 100 g or per 100 ml` (prenku.de, Regulation 1169/2011, seen).
    let head = if label.promise.density.is_some() { "per 100 ml" } else { "per 100 g" };
    columns.push(Column { head: head.to_owned(), factor: hundred, with_daily: false });
    let piece = label.each.zip(label.pieces);
    if let Some((each, pieces)) = piece.filter(|_| label.law == Law::Eu) {
        let head = match units {
            Units::Metric => format!("per piece ({})", net_quantity(label, each, units)?),
            _ => format!("per piece, {}", net_quantity(label, each, units)?),
        };
        columns.push(Column { head, factor: Number::ONE.over(pieces.value())?, with_daily: false });
    }
    Ok(columns)
}

/// Compound ingredients of which nobody says what is in them. A mixture of spices or herbs that is less than 2 % of what is sold needs no
/// list of its own (Annex VII, Part E, 2(b); of the directive before it the Scottish SSI 2004/472, regulation 7, has `a mixture of spices or herbs
/// or both and constitutes less than 2 per cent of the finished product`, legislation.gov.uk, seen), its allergens all the same.
pub(super) fn without_lists(label: &Label) -> Vec<String> {
    let is_little = |item: &Item| {
        let is_spice = item.facts.as_ref().is_some_and(|facts| facts.kind == Some(Kind::Spice));
        let fifty = item.mass.and_then(|mass| mass.times(Number::whole(50)).ok());
        label.law == Law::Eu && is_spice && fifty.is_some_and(|fifty| fifty < label.net)
    };
    let of = leaves(&label.ingredients);
    let lacking = of
        .into_iter()
        .filter(|item| item.facts.as_ref().is_some_and(|facts| facts.flags.compound && facts.consists.is_none()))
        .filter(|item| !is_little(item));
    each_once(lacking.map(|item| item.name.clone()))
}

/// Names of which each is told once, in their order: what goes into two parts is one thing to look up.
fn each_once(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut all = Vec::new();
    names.for_each(|name| super::once(&mut all, &name));
    all
}

/// Oils and fats of which the plant is to be named (Annex VII, Part A, 8 and 9; `the oils must then be specified`, the FSA's guidance of May 2022
/// by bfff.co.uk, seen).
pub(super) fn unnamed_oils(label: &Label) -> Vec<String> {
    let of = leaves(&label.ingredients);
    let unnamed = of.into_iter().filter(|item| {
        let entry = item.facts.as_ref().map_or("", |facts| facts.name.as_str());
        let is_said = item.facts.as_ref().is_some_and(|facts| facts.listed.is_some() || facts.consists.is_some());
        matches!(entry, "vegetable oil" | "vegetable shortening") && !is_said
    });
    each_once(unnamed.map(|item| item.name.clone()))
}
