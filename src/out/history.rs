//! The history of a formula in every format.

pub mod chart;
pub mod html;
pub mod json;
pub mod markdown;
pub mod text;

use crate::figures::history::{History, KeyFigures, Row, State};
use crate::measure::quantity::{Duration, Proportion};
use crate::measure::show;

/// What stands over the figures.
const FIGURES: [&str; 6] = ["hydration", "salt", "yeast", "piece", "dough", "time"];

/// A revision's figures as printed, in the order of [`FIGURES`]; empty where there is none.
fn cells(figures: &KeyFigures) -> [String; 6] {
    let percent = |share: Option<Proportion>| {
        share.and_then(|share| share.percent().ok()).map(|value| format!("{} %", value.decimal(1)))
    };
    let mass = |mass: Option<crate::measure::quantity::Mass>| mass.map(show::mass_plain).unwrap_or_default();
    let yeasts: Vec<String> =
        figures.yeast.iter().map(|(name, share)| format!("{} {}", show::percent(*share), form(name))).collect();
    [
        percent(figures.hydration).unwrap_or_default(),
        figures.salt.map(show::percent).unwrap_or_default(),
        yeasts.join(" + "),
        mass(figures.piece),
        mass(figures.total),
        figures.minutes.map(|minutes| show::duration(Duration::minutes(minutes))).unwrap_or_default(),
    ]
    .map(|cell| cell.trim().to_owned())
}

/// `fresh` of `fresh yeast`: the column says that it is yeast.
fn form(name: &str) -> &str {
    name.strip_suffix("yeast").unwrap_or(name).trim()
}

/// What stands instead of figures.
fn instead(row: &Row) -> Option<String> {
    match &row.state {
        State::Known(_) => None,
        State::Unclear(why) => Some(format!("cannot be worked out: {why}")),
        State::Gone => Some("the file is not there".to_owned()),
    }
}

/// The subject, and the name that the file had.
fn subject(row: &Row) -> String {
    match &row.then_called {
        Some(name) => format!("{} (then {name})", row.subject),
        None => row.subject.clone(),
    }
}

/// The date, or a word for what has none.
fn date(row: &Row) -> &str {
    if row.commit.is_none() { "now" } else { &row.date }
}

/// How many revisions there were and how many of them are told.
fn counted(history: &History) -> String {
    let told = history.rows.iter().filter(|row| row.commit.is_some()).count();
    let revisions =
        if history.revisions == 1 { "1 revision".to_owned() } else { format!("{} revisions", history.revisions) };
    let changed = if told == 1 { "1 changed".to_owned() } else { format!("{told} changed") };
    format!("{revisions}, of which {changed} what the formula means; the newest first")
}

/// The parts that the figures are of, newest first, each once.
fn parts(history: &History) -> Vec<&str> {
    let mut parts: Vec<&str> = Vec::new();
    for figures in history.rows.iter().filter_map(Row::figures) {
        if !figures.part.is_empty() && !parts.contains(&figures.part.as_str()) {
            parts.push(&figures.part);
        }
    }
    parts
}

/// The recipe's name, or the file's when no revision could be read.
fn title(history: &History) -> &str {
    if history.recipe.is_empty() { &history.file } else { &history.recipe }
}
