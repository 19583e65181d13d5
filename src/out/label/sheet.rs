//! A label as it is stuck on: only what a buyer reads.

use super::said;
use crate::figures::label::Label;
use crate::figures::label::table;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::out::block::Phrase;
use crate::out::sticker::Sticker;
use crate::out::sticker::facts::{Facts, FactsRow};
use crate::text::capital::capital;

/// Millimetres of a small `x`: Regulation (EU) 1169/2011, Article 13(2), and (3) where the largest side of a pack is under 80 cm²
/// (labellingtraining.food.gov.uk, module 6, seen); a sixteenth of an inch, 21 CFR 101.2(c) (quoted in the notes of a public label checker,
/// seen).
const EU_X: f64 = 1.2;
const EU_SMALL_X: f64 = 0.9;
const US_X: f64 = 25.4 / 16.0;

/// `total fat` as the table of the United States has it, `Total Fat`.
fn in_capitals(name: &str) -> String {
    name.split(' ').map(capital).collect::<Vec<String>>().join(" ")
}

/// What is printed of a label.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn sticker(label: &Label, is_small_pack: bool, copies: Option<usize>) -> Result<Sticker, Overflow> {
    let net = label.pack.map_or(label.net, |pack| pack.net);
    let units = if label.law == Law::Us { Units::Both } else { Units::Metric };
    let statements = said::of_sweeteners(label)?;
    let mut paragraphs: Vec<Vec<Phrase>> =
        statements.into_iter().map(|statement| vec![Phrase::plain(statement)]).collect();
    paragraphs.push(said::ingredients(label));
    if label.law == Law::Us && !label.contains.is_empty() {
        paragraphs.push(vec![Phrase::strong("Contains: "), Phrase::plain(format!("{}.", label.contains.join(", ")))]);
    }
    // What is not known is said on the label too: nobody sticks it on by mistake.
    if !label.unknown.is_empty() {
        let unknown = show::list(&label.unknown);
        paragraphs.push(vec![Phrase::strong(format!("ALLERGENS NOT KNOWN OF {unknown}."))]);
    }
    for (name, word) in &label.without_species {
        paragraphs.push(vec![Phrase::strong(format!("NOT SAID WHICH: {word} in {name}."))]);
    }
    let mut quantities = Vec::new();
    for quantity in &label.quantities {
        quantities.push(said::quantity(label, quantity)?);
    }
    if !quantities.is_empty() {
        let mut text = quantities.join(", ");
        if let Some(first) = text.get(..1).map(str::to_uppercase) {
            text.replace_range(..1, &first);
        }
        paragraphs.push(vec![Phrase::plain(format!("{text}."))]);
    }
    for (what, text) in said::facts(label) {
        let dot = if text.ends_with('.') { "" } else { "." };
        paragraphs.push(vec![Phrase::strong(format!("{what}: ")), Phrase::plain(format!("{text}{dot}"))]);
    }
    let mut rows = Vec::new();
    let mut head = Vec::new();
    // A buyer wants 100 g; grams alone, for there is little room.
    if let (Law::Eu, Some(column)) = (label.law, said::columns(label, Units::Metric)?.first()) {
        head = vec!["Nutrition".to_owned(), column.head.clone()];
        for row in table::rows(label)? {
            let name = format!("{}{}", "\u{2003}".repeat(row.depth), row.name);
            rows.push(vec![name, row.shown(label, column.factor)?]);
        }
    }
    let title = label.sale.sold_as.clone().unwrap_or_else(|| label.name.clone());
    let x_height = match (label.law, is_small_pack) {
        (Law::Us, _) => US_X,
        (Law::Eu, false) => EU_X,
        (Law::Eu, true) => EU_SMALL_X,
    };
    let (net_shown, drained) = said::net_and_drained(label, net, units)?;
    let is_us = label.law == Law::Us;
    let is_volume = label.promise.density.is_some();
    let net_shown = match drained {
        Some(drained) => format!("{net_shown}, drained {drained}"),
        None => net_shown,
    };
    Ok(Sticker {
        title,
        // 21 CFR 101.7(j)(3).
        net: match (is_us, is_volume) {
            (true, false) => format!("Net Wt {net_shown}"),
            (true, true) => format!("Net {net_shown}"),
            (false, _) => net_shown,
        },
        net_height: net_height(label, net)?,
        net_by_panel: is_us,
        paragraphs,
        facts: if is_us { Some(facts(label)?) } else { None },
        head,
        rows,
        x_height,
        is_small: is_small_pack,
        copies: copies.or_else(|| packs(label)),
    })
}

/// The nutrition facts of the United States.
fn facts(label: &Label) -> Result<Facts, Overflow> {
    let columns = said::columns(label, Units::Metric)?;
    let columns: Vec<&said::Column> = columns.iter().filter(|column| column.with_daily).collect();
    let mut rows = Vec::new();
    for row in table::rows(label)? {
        // 21 CFR 101.9(c)(6)(iii): of added sugars the amount stands within the name.
        let is_within = row.name == "added sugars";
        let name = match columns.first() {
            Some(first) if is_within => format!("Includes {} Added Sugars", row.shown(label, first.factor)?),
            _ => in_capitals(row.name),
        };
        let mut cells = Vec::with_capacity(columns.len());
        for (at, column) in columns.iter().enumerate() {
            let amount = if is_within && at == 0 { String::new() } else { row.shown(label, column.factor)? };
            cells.push((amount, row.share_of_day(label, column.factor)?));
        }
        rows.push(FactsRow { name, depth: row.depth, cells });
    }
    let (servings, serving_size) = said::serving_parts(label)?.unwrap_or_default();
    // The grams stand beside the size of the serving already.
    let name = |column: &&said::Column| capital(column.head.split(',').next().unwrap_or_default());
    Ok(Facts { servings, serving_size, columns: columns.iter().map(name).collect(), rows })
}

/// As many labels as the batch has packs.
fn packs(label: &Label) -> Option<usize> {
    let in_it = label.pack?.pieces?;
    let packs = label.pieces?.value().over(in_it.value()).ok()?.floor().to_whole()?;
    usize::try_from(packs).ok().filter(|packs| *packs > 0)
}

/// How high the figures of a net quantity are, in millimetres: Directive 76/211/EEC, Annex I, 3.1 (as a public label checker quotes it, seen): to
/// 50 g or ml 2, to 200 3, to 1000 4, above 6. In the United States by the side that is looked at; a sixteenth of an inch at the least (101.7(i); 16 CFR 500.21(b)(1),
/// which says the same of other goods, was seen).
fn net_height(label: &Label, net: Mass) -> Result<f64, Overflow> {
    // Of what is poured by millilitres.
    let nominal = label.volume(net)?.map_or(net.value(), |volume| volume.value());
    let to = |most: i64| nominal <= Number::whole(most);
    Ok(match label.law {
        Law::Us => US_X,
        Law::Eu if to(50) => 2.0,
        Law::Eu if to(200) => 3.0,
        Law::Eu if to(1000) => 4.0,
        Law::Eu => 6.0,
    })
}
