//! A label, laid out: what stands on it, and below it what it lacks.

mod checklist;
pub(super) mod json;
mod report;
mod said;
mod serving_sizes;
mod sheet;

pub use json::json;
pub use report::report;
pub use sheet::sticker;

use super::block::{Block, Frame, Heading, Phrase, Table, Text, words};
use crate::figures::label::table::{self, Gap, TRACE};
use crate::figures::label::{Label, Loss};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::model::species;

/// What stands under every label.
const CAUTION: &str = "Calculated from the formula and the larder, not analysed. Bought ingredients have ingredients, allergens and \
traces of their own: take them from the pack. Have a label checked under the law of the place where you sell.";

/// The page of a label.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn page(label: &Label, units: Units) -> Result<Vec<Block>, Overflow> {
    let law = match label.law {
        Law::Eu => "European Union",
        Law::Us => "United States",
    };
    let mut blocks = vec![Heading::block(1, format!("{}: label ({law})", label.name))];
    if let Some(name) = &label.sale.sold_as {
        blocks.push(Block::Text(Text::of(vec![Phrase::strong(name)])));
    }
    blocks.extend(said::of_sweeteners(label)?.into_iter().map(words));
    blocks.push(Block::Text(Text::of(said::ingredients(label))));
    // In the European Union the list itself says it, and beside a list no statement is made (Article 21).
    if label.law == Law::Us && !label.contains.is_empty() {
        blocks.push(Block::Text(Text::of(vec![
            Phrase::strong("Contains"),
            Phrase::plain(format!(": {}.", label.contains.join(", "))),
        ])));
    }
    if !label.unknown.is_empty() {
        let unknown = show::list(&label.unknown);
        let whose = if label.unknown.len() == 1 { "its" } else { "their" };
        blocks.push(words(format!("The larder does not know {unknown}: {whose} allergens are not in this list.")));
    }
    for (name, word) in &label.without_species {
        let which = species::wanted(label.law, word);
        blocks.push(words(format!(
            "{name} holds {word}, and the law wants to know {which}: say it in your larder behind `contains`."
        )));
    }
    for quantity in &label.quantities {
        let text = said::quantity(label, quantity)?;
        blocks.push(words(format!("Quantity: {text} (weight as used, on the weight as sold).")));
    }
    // In the United States both systems stand on a label (15 USC 1453, from memory); elsewhere grams do, and ounces for who reads them.
    let units = if label.law == Law::Us || units != Units::Metric { Units::Both } else { Units::Metric };
    blocks.push(words(net(label, units)?));
    blocks.extend(
        said::facts(label)
            .into_iter()
            .map(|(what, text)| Block::Text(Text::of(vec![Phrase::strong(what), Phrase::plain(format!(": {text}"))]))),
    );
    blocks.push(Heading::block(
        2,
        if label.law == Law::Us { "Nutrition facts, calculated" } else { "Nutrition, calculated" },
    ));
    blocks.extend(said::serving(label)?.map(words));
    blocks.extend(said::why_whole(label).map(words));
    blocks.push(nutrition(label, units)?);
    blocks.extend(gaps(label, units)?);
    blocks.extend(checklist::lacks(&checklist::of(label, units)?).map(words));
    blocks.push(words(CAUTION));
    Ok(blocks)
}

fn net(label: &Label, units: Units) -> Result<String, Overflow> {
    let pack = label.pack.filter(|pack| pack.pieces.is_some_and(|pieces| pieces.value() > Number::ONE));
    let what = if label.promise.density.is_some() { "Net quantity" } else { "Net weight" };
    let shown = |mass: Mass| -> Result<String, Overflow> {
        Ok(match said::net_and_drained(label, mass, units)? {
            (net, Some(drained)) => format!("{net} (drained {drained})"),
            (net, None) => net,
        })
    };
    let net = match (label.each, pack) {
        (Some(each), Some(pack)) => format!(
            "{what}: {} the pack of {}, {} a piece",
            shown(pack.net)?,
            pack.pieces.map_or(String::new(), |pieces| pieces.value().decimal(0)),
            shown(each)?
        ),
        (Some(each), None) => format!("{what}: {} a piece, {} the batch", shown(each)?, shown(label.net)?),
        (None, _) => format!("{what} of the batch: {}", shown(label.net)?),
    };
    let loss = match label.loss {
        Loss::OvenNotSaid => {
            let what = if label.is_dough { "of the dough" } else { "as it goes into the oven" };
            format!(
                ". That is the weight {what}: nobody says what the oven takes. Weigh a piece before and after, and say it behind \
                 `makes`, `bake loss 12 %`, or with --bake-loss"
            )
        }
        // What was weighed on a sieve is no guess.
        Loss::CookingNotSaid if label.promise.is_weighed_drained => String::new(),
        Loss::CookingNotSaid => ". That is the weight as mixed: nobody says what cooking takes of it".to_owned(),
        Loss::Unheated => ", as it is mixed: no step heats it".to_owned(),
        Loss::InParts => ", as it is put together: what its parts say that they lose is taken off".to_owned(),
        Loss::Making(loss) => format!(", after a loss of {} in the making", show::percent(loss)),
        Loss::Baked(loss) if loss.value().is_zero() => ", with nothing lost in baking".to_owned(),
        Loss::Baked(loss) if label.baked < Proportion::WHOLE => format!(
            ", after a bake loss of {} of what is baked, {} of it: what goes in afterwards loses nothing",
            show::percent(loss),
            show::percent(label.baked)
        ),
        Loss::Baked(loss) => format!(", after a bake loss of {}", show::percent(loss)),
    };
    let boiled = match label.boiled_away.as_slice() {
        [] => String::new(),
        parts => format!(
            " What boiling takes of {} nobody says, and it is not off: weigh it, and write `makes 700 g, loss 20 %` into the part",
            show::list(parts)
        ),
    };
    let stop = if boiled.is_empty() { "" } else { "." };
    Ok(format!("{net}{loss}.{boiled}{stop}"))
}

/// How weights become volumes here.
fn volume_by(label: &Label) -> Result<String, Overflow> {
    let grams = label.hundred()?.times(Number::whole(10))?;
    Ok(format!("Volumes are those of what weighs {} a litre, as the file says.", show::mass_plain(grams)))
}

/// The table of the label's law.
fn nutrition(label: &Label, units: Units) -> Result<Block, Overflow> {
    let columns = said::columns(label, units)?;
    let mut head = vec![String::new()];
    for column in &columns {
        head.push(column.head.clone());
        if column.with_daily {
            head.push("% daily value".to_owned());
        }
    }
    let mut rows = Vec::new();
    for row in table::rows(label)? {
        let mut cells = vec![format!("{}{}", "\u{2003}".repeat(row.depth.saturating_sub(1)), row.name)];
        for column in &columns {
            cells.push(row.shown(label, column.factor)?);
            if column.with_daily {
                cells.push(row.share_of_day(label, column.factor)?);
            }
        }
        rows.push(cells);
    }
    Ok(Table::figures(head, rows, Frame::Sheet))
}

/// Why figures are not exact.
const WHY_AT_LEAST: &str = "That is why it says `at least` or `not known`, where they could change a figure.";

/// What the table lacks.
fn gaps(label: &Label, units: Units) -> Result<Vec<Block>, Overflow> {
    let mut gaps = Vec::new();
    if label.is_table_of_drained() {
        gaps.push(words(
            "In the United States the table is of what is left when the liquid is poured off (21 CFR 101.9(b)(9)): what passes between the two \
             nobody can reckon. Have it analysed.",
        ));
        return Ok(gaps);
    }
    if label.promise.medium.is_some() {
        gaps.push(words("The table is of all that is in the pack, with its liquid."));
    }
    if label.promise.density.is_some() {
        gaps.push(words(volume_by(label)?));
    }
    let lacks = Lacks::of(label, units)?;
    gaps.extend(lacks.told(label)?.into_iter().map(words));
    let fried_in = label.nutrition.fried_in();
    if !fried_in.is_empty() {
        gaps.push(words(format!(
            "Nobody says how much of {} stays in what is fried: that is why it says `at least`. Weigh the fat before and after, and write what a \
             piece takes up as an ingredient of it; of yeast doughnuts that is about a tenth of their weight (common practice, no source).",
            show::list(&fried_in)
        )));
    }
    if label.ferments {
        gaps.push(words(
            "A ferment lives on sugar: how much of it is left nobody can reckon, and so carbohydrate and sugars are not known, and the energy is \
             that of what went in. Have it analysed; what yeast made of it, alcohol, too.",
        ));
    }
    let is_told = |name: &&String| lacks.unweighed.contains(name) || fried_in.contains(name);
    let aside: Vec<&String> = label.nutrition.uncounted.iter().filter(|name| !is_told(name)).collect();
    if !aside.is_empty() {
        let names = show::list(&aside);
        gaps.push(words(format!("Not counted, for it is set aside or has no weight: {names}.")));
    }
    if label.alcohol().is_positive() {
        gaps.push(words("Alcohol is counted as it was put in: what leaves in the oven is not taken off."));
    }
    Ok(gaps)
}

/// The ingredients for want of whose figures the table may be other than it is; what rounds to the same without them is not lacking.
#[derive(Default)]
struct Lacks {
    /// The larder has no figures of them.
    missing: Vec<String>,
    /// The rows that lack theirs, where those are a few.
    only: Vec<String>,
    /// They were strained out, and left nobody knows what.
    left_behind: Vec<String>,
    /// Nobody says how much of them goes in.
    unweighed: Vec<String>,
}

impl Lacks {
    fn of(label: &Label, units: Units) -> Result<Lacks, Overflow> {
        let mut lacks = Lacks::default();
        let columns = said::columns(label, units)?;
        let rows = table::rows(label)?;
        for (row, figure) in rows.iter().flat_map(|row| row.figures.iter().map(move |figure| (row, figure))) {
            let open: Result<Vec<Gap>, Overflow> =
                columns.iter().map(|column| figure.gap(label, column.factor)).collect();
            if open?.iter().all(|gap| *gap == Gap::None) {
                continue;
            }
            if !figure.missing.is_empty() {
                once(&mut lacks.only, &row.name.to_owned());
            }
            for name in &figure.missing {
                let is_strained = label.nutrition.strained_out.contains(name);
                once(if is_strained { &mut lacks.left_behind } else { &mut lacks.missing }, name);
            }
            figure.unweighed.names.iter().for_each(|name| once(&mut lacks.unweighed, name));
        }
        // Of which rows it is said is worth a word where most of them have it all.
        if lacks.only.len() * 2 > rows.len() {
            lacks.only.clear();
        }
        Ok(lacks)
    }

    /// A sentence for each reason.
    fn told(&self, label: &Label) -> Result<Vec<String>, Overflow> {
        let mut told = Vec::new();
        if !self.missing.is_empty() {
            let share = label.weight_of(&self.missing)?.as_share_of(label.net)?;
            let names = show::list(&self.missing);
            // What was boiled down or baked weighed more when it went in.
            let weight = match share.min(Proportion::WHOLE).percent()?.decimal(1) {
                none if none == "0" => "under 0.1".to_owned(),
                weight => weight,
            };
            let so = if label.law == Law::Eu && share <= TRACE {
                "That little is within what is tolerated of all but salt."
            } else {
                WHY_AT_LEAST
            };
            let sums = match self.only.as_slice() {
                [] => "the sums".to_owned(),
                some => {
                    let rows: Vec<&str> = some.iter().map(|row| row.strip_prefix("of which ").unwrap_or(row)).collect();
                    format!("the sums of {}", show::list(&rows))
                }
            };
            told.push(format!(
                "The larder lacks figures of {names}, {weight} % of the weight as sold: they are not in {sums}. {so}"
            ));
        }
        if !self.left_behind.is_empty() {
            let leaves = match self.left_behind.as_slice() {
                [one] => format!("{one} leaves behind when it is"),
                several => format!("{} leave behind when they are", show::list(several)),
            };
            told.push(format!("What {leaves} strained out nobody can reckon. {WHY_AT_LEAST}"));
        }
        if !self.unweighed.is_empty() {
            let weighed = if self.unweighed.len() == 1 { "it" } else { "them" };
            told.push(format!(
                "Of {} nobody says how much goes in. {WHY_AT_LEAST} Write how many grams of {weighed} there are.",
                show::list(&self.unweighed)
            ));
        }
        Ok(told)
    }
}

/// Adds a name that is not there yet.
fn once(names: &mut Vec<String>, name: &String) {
    if !names.contains(name) {
        names.push(name.clone());
    }
}
