//! The history of a formula: the chart, and the table under it.

pub(super) mod chart;
pub(super) mod json;

pub use json::render as json;

use super::block::{Block, Column, Frame, Heading, Phrase, Row as Line, Side, Table};
use super::page::Page;
use crate::figures::history::{History, KeyFigures, Row, State};
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::solve::formula::OnFlour;

/// The page.
pub fn page(history: &History) -> Page {
    let mut remarks = vec![counted(history)];
    let parts = parts(history);
    if !parts.is_empty() {
        remarks.push(format!("figures of {}", parts.join(", ")));
    }
    let mut blocks = vec![Heading::block(1, title(history)), Block::Remarks(remarks)];
    blocks.extend(chart::render(history).map(Block::Picture));
    let column = |side| move |head: &str| Column { head: head.to_owned(), side };
    let columns = ["date", "revision"].into_iter().map(column(Side::Left));
    // Without a log there is no column for it.
    let is_baked = history.rows.iter().any(|row| !row.bakes.is_empty());
    let baked = is_baked.then(|| column(Side::Left)("bakes"));
    let columns = columns.chain(FIGURES.into_iter().map(column(Side::Right))).chain(baked);
    let columns = columns.chain([column(Side::Left)("subject")]);
    let rows = history.rows.iter().map(|row| line(row, is_baked)).collect();
    blocks.extend([Block::Gap, Block::Table(Table { columns: columns.collect(), rows, frame: Frame::Log })]);
    Page { title: format!("History: {}", title(history)), below: 1, blocks }
}

fn line(row: &Row, is_baked: bool) -> Line {
    let mut cells = vec![date(row).to_owned(), row.short.clone()];
    cells.extend(row.figures().map(cells_of).unwrap_or_default());
    cells.extend(is_baked.then(|| baked(row)));
    cells.push(subject(row));
    Line { instead: instead(row), ..Line::of(cells.into_iter().map(Phrase::plain)) }
}

/// What was baked of it: `3, crumb 3 3 4 of 5`.
fn baked(row: &Row) -> String {
    let mut judged: Vec<(String, Vec<String>, String)> = Vec::new();
    for (name, mark, of) in row.bakes.iter().flat_map(|bake| &bake.judged) {
        let (mark, of) = (show::number(*mark), show::number(*of));
        match judged.iter_mut().find(|(known, _, highest)| known == name && *highest == of) {
            Some((_, marks, _)) => marks.push(mark),
            None => judged.push((name.clone(), vec![mark], of)),
        }
    }
    let judged = judged.iter().map(|(name, marks, of)| format!("{name} {} of {of}", marks.join(" ")));
    let count = (!row.bakes.is_empty()).then(|| row.bakes.len().to_string());
    count.into_iter().chain(judged).collect::<Vec<String>>().join(", ")
}

/// What stands over the figures.
const FIGURES: [&str; 6] = ["hydration", "salt", "yeast", "piece", "dough", "time"];

/// A revision's figures as printed, in the order of [`FIGURES`]; empty where there is none.
fn cells_of(figures: &KeyFigures) -> [String; 6] {
    let percent =
        |one: OnFlour| one.share.percent().ok().map(|value| Shown::new(value.decimal(1), "%").bound(one.bound()));
    let mass =
        |mass: Option<crate::measure::quantity::Mass>| mass.map(show::mass_plain).unwrap_or_default().to_string();
    // A leaven that nobody describes is flour under salt and yeast too.
    let about = if figures.hydration.is_some_and(|one| one.is_about) { "about" } else { "" };
    let yeasts: Vec<String> =
        figures.yeast.iter().map(|(name, share)| format!("{} {}", show::percent(*share), form(name))).collect();
    [
        figures.hydration.and_then(percent).unwrap_or_default().to_string(),
        figures.salt.map(|salt| show::percent(salt).bound(about)).unwrap_or_default().to_string(),
        yeasts.join(" + "),
        mass(figures.piece),
        mass(figures.total),
        figures.minutes.map(|minutes| show::duration(Duration::minutes(minutes))).unwrap_or_default().to_string(),
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

/// The subject, the name that the file had, and the aims that it missed.
fn subject(row: &Row) -> String {
    let missed = row.figures().map_or(&[][..], |figures| &figures.aims_missed);
    let missed = if missed.is_empty() { String::new() } else { format!(" (misses {})", missed.join(", ")) };
    match &row.then_called {
        Some(name) => format!("{} (then {name}){missed}", row.subject),
        None => format!("{}{missed}", row.subject),
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
