//! What the log of bakes says: a row a bake, what they say together, and the drawing.

mod chart;
pub mod csv;
pub mod json;
pub mod sheet;

use super::block::{Block, Column, Frame, Heading, Look, Phrase, Row as Line, Side, Table, Text, words};
use super::comparison::sentences;
use super::page::Page;
use crate::figures::bakes::measurement::{Kind, Measured};
use crate::figures::bakes::statistics::FEWEST;
use crate::figures::bakes::{Figure, Otherwise, Row, Says, Told};
use crate::measure::noun::agreeing;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use rayon::prelude::*;

/// The page; `remarks` say where the formulas come from. Only a page that is looked at has a drawing.
pub fn page(told: &Told, remarks: &[String], others: &[String], is_looked_at: bool) -> Page {
    let title = format!("Bakes of {}", told.recipe);
    let mut blocks = vec![Heading::looking(1, &title, Look::Underlined)];
    let bakes = told.rows.len();
    let counted = if bakes == 1 { "1 bake".to_owned() } else { format!("{bakes} bakes, the newest first") };
    blocks.push(words(counted));
    blocks.extend(remarks.iter().map(Text::fact));
    blocks.push(Block::Gap);
    if !told.figures.is_empty() {
        blocks.push(Heading::looking(2, "What the bakes say", Look::Dashed));
        blocks.push(together(&told.figures, &told.recipe));
        blocks.extend(remarks_of(told).into_iter().chain(others.iter().cloned()).map(Text::fact));
        blocks.push(Block::Gap);
    }
    if is_looked_at {
        blocks.extend(chart::render(told).into_iter().map(Block::Picture));
    }
    blocks.push(Heading::looking(2, "Bake by bake", Look::Dashed));
    let rows = told.rows.par_iter().map(|row| Block::Section(one_bake(row, &told.recipe)));
    for row in rows.collect::<Vec<Block>>() {
        blocks.extend([row, Block::Gap]);
    }
    Page { title, below: 1, blocks }
}

/// `2027-03-02 05:30`
pub(in crate::out) fn moment(row: &Row, between: &str) -> String {
    let date = row.moment.date();
    if row.is_timed { format!("{date}{between}{}", row.moment.time().strftime("%H:%M")) } else { date.to_string() }
}

/// The version's name.
pub(in crate::out) fn version(row: &Row) -> &str {
    row.revision.as_deref().unwrap_or("as it is")
}

/// How many pieces, or how many times the recipe.
fn size(row: &Row) -> String {
    match row.pieces {
        Some(pieces) => format!("{} {}", show::number(pieces), agreeing(pieces, "pieces")),
        None => format!("× {}", show::number(row.times)),
    }
}

fn one_bake(row: &Row, recipe: &str) -> Vec<Block> {
    let mut head = vec![moment(row, " "), version(row).to_owned(), size(row)];
    head.extend(row.choices.iter().map(|(_, option)| option.clone()));
    if !row.by.is_empty() {
        head.push(format!("by {}", row.by));
    }
    let mut facts: Vec<Vec<Phrase>> = Vec::new();
    let mut fact =
        |what: &str, said: String| facts.push(vec![Phrase::amount(what), Phrase::plain(format!(": {said}"))]);
    for changed in row.changed.as_ref().map(sentences).unwrap_or_default() {
        fact("changed", changed);
    }
    for otherwise in &row.otherwise {
        fact("otherwise", went_in(otherwise));
    }
    for measured in &row.measured {
        fact(&name_of(measured, recipe), beside(measured));
    }
    for judged in &row.judged {
        let words = if judged.words.is_empty() { String::new() } else { format!(", {}", judged.words) };
        fact(&judged.name, format!("{} of {}{words}", show::number(judged.mark), show::number(judged.of)));
    }
    for note in &row.notes {
        fact("note", note.clone());
    }
    if let Some((verdict, words)) = &row.verdict {
        let words = if words.is_empty() { String::new() } else { format!(", {words}") };
        fact("verdict", format!("{}{words}", verdict.word()));
    }
    vec![Heading::block(3, head.join(", ")), Block::Bullets(facts)]
}

fn went_in(otherwise: &Otherwise) -> String {
    let mass = |grams: Number| show::mass_plain(Mass::new(grams)).to_string();
    let mut said = otherwise.name.clone();
    if let Some((really, usual)) = otherwise.mass {
        let formula =
            if usual == Number::ZERO { "not in the formula".to_owned() } else { format!("formula {}", mass(usual)) };
        said = format!("{said} {} ({formula})", mass(really));
    }
    if let Some(celsius) = otherwise.celsius {
        said = format!("{said} at {} °C", celsius.decimal(1));
    }
    said
}

/// What a figure is of: `time of mix`, `loss at bake of filling`. The part that is called like the recipe is not named.
fn name(kind: Kind, part: &str, step: &str, recipe: &str) -> String {
    let (step, part) = if part == recipe { (step.to_owned(), "dough") } else { (format!("{step} of {part}"), part) };
    match kind {
        Kind::Time => format!("time of {step}"),
        Kind::LeftAt => format!("{part} at the end of {step}"),
        Kind::Friction => format!("friction of {step}"),
        Kind::All => format!("all of {part} after {step}"),
        Kind::Pieces => format!("pieces after {step}"),
        Kind::Each => format!("a piece after {step}"),
        Kind::Loss => format!("loss at {step}"),
    }
}

fn name_of(measured: &Measured, recipe: &str) -> String {
    let load = measured.load.map_or_else(String::new, |load| format!(", load {load}"));
    format!("{}{load}", name(measured.kind, &measured.part, &measured.step, recipe))
}

fn beside(measured: &Measured) -> String {
    let shown = shown(measured.kind, measured.value);
    match measured.expected {
        Some(expected) => format!("{shown} (formula {})", self::shown(measured.kind, expected)),
        None => shown,
    }
}

/// A figure with its unit; times of one piece are shorter than minutes.
fn shown(kind: Kind, value: Number) -> String {
    shown_in(kind, value, is_short(kind, value))
}

/// Whether a time is one of seconds.
fn is_short(kind: Kind, value: Number) -> bool {
    kind == Kind::Time && value < Number::whole(2) && value.is_positive()
}

fn shown_in(kind: Kind, value: Number, is_short: bool) -> String {
    match kind {
        Kind::Time if is_short => {
            format!("{} s", value.times(Number::whole(60)).unwrap_or(value).decimal(1))
        }
        Kind::Pieces => show::number(value.rounded_to(Number::constant(1, 10)).unwrap_or(value)),
        _ => format!("{} {}", value.decimal(1), kind.unit()),
    }
}

/// What the bakes say together, as a table.
fn together(figures: &[Figure], recipe: &str) -> Block {
    let left = |head: &str| Column { head: head.to_owned(), side: Side::Left };
    let right = |head: &str| Column { head: head.to_owned(), side: Side::Right };
    let columns = vec![
        left("figure"),
        right("n"),
        right("mean"),
        right("± apart"),
        right("95 % interval"),
        right("middle one"),
        right("nine in ten"),
        right("formula"),
        left("says"),
    ];
    let rows = figures.iter().map(|figure| {
        let options = figure.choices.iter().map(|(_, option)| option.as_str()).collect::<Vec<_>>().join(", ");
        let options = if options.is_empty() { options } else { format!(" [{options}]") };
        let spread = &figure.spread;
        // Mean and spread are read side by side, so they have one unit.
        let is_short = spread.mean.is_some_and(|mean| is_short(figure.kind, mean));
        let shown = |value: Number| shown_in(figure.kind, value, is_short);
        let one = |value: Option<Number>| value.map(shown).unwrap_or_default();
        // Nobody reads a mean off one measurement.
        let several = |text: String| if spread.count < 2 { String::new() } else { text };
        let interval = spread
            .interval
            .filter(|_| spread.count >= FEWEST)
            .map(|(low, high)| format!("{} to {}", shown(low), shown(high)));
        let is_time = figure.kind == Kind::Time;
        let formula = figure
            .formula
            .map(|(low, high)| if low == high { shown(low) } else { format!("{} to {}", shown(low), shown(high)) });
        let says = match figure.says {
            Some(Says::Differs) => Phrase::strong(Says::Differs.word()),
            Some(says) => Phrase::plain(says.word()),
            None => Phrase::plain(""),
        };
        let cells = [
            format!("{}{options}", name(figure.kind, &figure.part, &figure.step, recipe)),
            spread.count.to_string(),
            several(one(spread.mean)),
            several(one(spread.sd)),
            interval.unwrap_or_default(),
            if is_time { several(one(spread.median)) } else { String::new() },
            if is_time { several(one(spread.nine_in_ten)) } else { String::new() },
            formula.unwrap_or_default(),
        ];
        Line::of(cells.into_iter().map(Phrase::plain).chain([says]))
    });
    Block::Table(Table { columns, rows: rows.collect(), frame: Frame::Read })
}

/// How the table is to be read.
fn remarks_of(told: &Told) -> Vec<String> {
    let mut remarks = vec![
        "± apart: standard deviation. 95 % interval: of the mean, Student. The one that nine in ten keep: quantile 0.9, between \
         two measurements in proportion. Loads count each; a step that is done piece by piece counts a piece."
            .to_owned(),
    ];
    let outdated: Vec<String> = told
        .figures
        .iter()
        .filter(|figure| figure.outdated > 0)
        .map(|figure| format!("{} ({})", name(figure.kind, &figure.part, &figure.step, &told.recipe), figure.outdated))
        .collect();
    remarks.push(if outdated.is_empty() {
        "Bakes of every version count: no change since touches what was measured.".to_owned()
    } else {
        format!(
            "Bakes of older versions count as long as no change since touches the figure; left out are, of {}.",
            show::list(&outdated)
        )
    });
    remarks
}
