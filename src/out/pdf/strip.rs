//! The weigh-out strip: a line to tick for everything that goes into the bowl, and what the scale shows when it is in.

use super::frame::{BLACK, Flow, SOFT};
use super::paragraph::Words;
use super::table::{Figures, Row, Table, set};
use super::tags::Node;
use super::{Press, plain};
use crate::figures::card::{LineCard, PartCard};
use crate::out::html::strip::stairs;

/// The strip of a part; nothing for a part without ingredients.
pub(super) fn strip(press: &mut Press<'_>, part: &PartCard, parent: Node) -> Vec<Flow> {
    if part.lines.is_empty() {
        return Vec::new();
    }
    let em = press.em;
    let split = !part.preferments.is_empty();
    let stairs = stairs(part);
    let weigh = |line: &LineCard| if split { line.final_mix_shown.clone() } else { line.shown.clone() };
    let mut rows = Vec::new();
    for (at, line) in part.lines.iter().enumerate() {
        rows.push(Row {
            name: name(line, em),
            tick: !weigh(line).is_empty(),
            stair: stairs.get(at).copied().flatten(),
        });
    }
    for (at, one) in part.preferments.iter().enumerate() {
        let words = vec![Words::new(plain(&one.name), em * 1.25).bold(), Words::new(", all of it", em * 1.1).ink(SOFT)];
        rows.push(Row { name: words, tick: true, stair: stairs.get(part.lines.len() + at).copied().flatten() });
    }
    let has_total = !part.total_shown.is_empty();
    let table = Table {
        summary: format!("What goes into {}, line by line, and what the scale shows.", plain(&part.name)),
        name_title: "what goes in".to_owned(),
        rows,
        total: has_total.then(|| "total".to_owned()),
        columns: columns(part, split, has_total, weigh),
        ruled: false,
    };
    set(press, &table, parent)
}

fn columns(part: &PartCard, split: bool, has_total: bool, weigh: impl Fn(&LineCard) -> String) -> Vec<Figures> {
    let lines = || part.lines.iter();
    let of = |title: &str, mut cells: Vec<String>, of_preferments: Vec<String>, total: String, size: f32| {
        cells.extend(of_preferments);
        if has_total {
            cells.push(total);
        }
        let cells = cells.iter().map(|cell| plain(cell)).collect();
        Figures { title: plain(title), cells, size, bold: false, ink: BLACK, shaded: false }
    };
    let none = || vec![String::new(); part.preferments.len()];
    let mut columns = Vec::new();
    if part.per_piece {
        columns.push(of("each", lines().map(|line| line.each_shown.clone()).collect(), none(), String::new(), 1.15));
    }
    if split {
        let cells = lines().map(|line| line.shown.clone()).collect();
        columns.push(of("in all", cells, none(), part.total_shown.clone(), 1.0));
        for (at, one) in part.preferments.iter().enumerate() {
            let cells = (0..part.lines.len()).map(|line| one.cells.get(line).cloned().unwrap_or_default()).collect();
            let mut own = none();
            if let Some(own) = own.get_mut(at) {
                own.clone_from(&one.total_shown);
            }
            columns.push(of(&one.name, cells, own, String::new(), 1.0));
        }
    }
    let title = match (split, part.per_piece) {
        (true, _) => "final mix",
        (false, true) => "in all",
        (false, false) => "weigh",
    };
    let own = part.preferments.iter().map(|one| one.total_shown.clone()).collect();
    let total = if split { part.final_mix_shown.clone() } else { part.total_shown.clone() };
    let size = if split { 1.5 } else { 1.75 };
    columns.push(Figures { bold: true, ..of(title, lines().map(weigh).collect(), own, total, size) });
    if lines().any(|line| !line.running.is_empty()) {
        let own = part.preferments.iter().map(|one| one.running.clone()).collect();
        let cells = lines().map(|line| line.running.clone()).collect();
        let size = if split { 1.0 } else { 1.15 };
        columns.push(Figures { shaded: true, ..of("scale shows", cells, own, String::new(), size) });
    }
    if lines().any(|line| !line.percent_shown.is_empty()) {
        let base = part.base_name.as_deref().unwrap_or("");
        let title = if base == "flour" || base.is_empty() { "%".to_owned() } else { format!("% of {base}") };
        let cells = lines().map(|line| line.percent_shown.clone()).collect();
        let made = of(&title, cells, none(), part.percent_total_shown.clone(), 0.95);
        columns.push(Figures { ink: SOFT, ..made });
    }
    columns
}

/// The name, and quiet behind it temperature, preparation and the like.
fn name(line: &LineCard, em: f32) -> Vec<Words> {
    let mut words = vec![Words::new(plain(&line.ingredient), em * 1.25).bold()];
    let clauses = [
        line.measure.clone().filter(|measure| *measure != line.shown),
        line.temperature_shown.as_ref().map(|at| format!("at {at}")),
        line.preparation.clone(),
        line.optional.then(|| "optional".to_owned()),
        line.aside.then(|| "set aside".to_owned()),
    ];
    for clause in clauses.iter().flatten() {
        words.push(Words::new(format!(", {}", plain(clause)), em * 1.1).ink(SOFT));
    }
    words
}
