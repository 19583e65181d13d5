//! The weigh-out strip: a line to tick for everything that goes into the bowl, and what the scale shows when it is in.

use crate::figures::card::{LineCard, PartCard, PrefermentColumn};
use crate::measure::quantity::Mass;
use crate::measure::shown::Shown;
use crate::out::report::seen;

/// What a column says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::out) enum Kind {
    /// What one piece takes.
    Each,
    /// The whole formula, where preferments take a share of it.
    InAll,
    /// What a preferment takes.
    Preferment,
    /// What is put on the scale.
    Weigh,
    /// What the scale then shows.
    Shows,
    /// The share of the base.
    Share,
}

/// A column: its head and a figure for every row, that of the total last where there is a total.
pub(in crate::out) struct Column {
    pub(in crate::out) kind: Kind,
    pub(in crate::out) title: String,
    pub(in crate::out) cells: Vec<Shown>,
}

/// A row's name and what stands quietly behind it.
pub(in crate::out) struct Row {
    pub(in crate::out) name: String,
    pub(in crate::out) how: Vec<String>,
    pub(in crate::out) tick: bool,
    pub(in crate::out) aside: bool,
    /// Where its share of the bowl begins and how long it is, of 1.
    pub(in crate::out) stair: Option<(f64, f64)>,
}

/// The strip of a part.
pub(in crate::out) struct Strip {
    /// Whether preferments take a share of the formula.
    pub(in crate::out) split: bool,
    pub(in crate::out) has_total: bool,
    /// The lines, then the preferments.
    pub(in crate::out) rows: Vec<Row>,
    pub(in crate::out) columns: Vec<Column>,
}

impl Strip {
    /// Nothing for a part without ingredients.
    pub(in crate::out) fn of(part: &PartCard) -> Option<Strip> {
        if part.lines.is_empty() {
            return None;
        }
        let split = !part.preferments.is_empty();
        let stairs = stairs(part);
        let weigh = |line: &LineCard| if split { line.final_mix_shown.clone() } else { line.shown.clone() };
        let lines = part.lines.iter().enumerate().map(|(at, line)| Row {
            name: seen(&line.ingredient),
            how: how(part, at, line).into_iter().chain(at_once(part, at, line)).collect(),
            tick: !weigh(line).is_empty(),
            aside: line.aside,
            stair: None,
        });
        // Beside what one load takes of it stands that share, and not that it is all of it.
        let of_a_load = part.load.as_ref().map(|load| format!("1/{} of it", load.loads));
        let is_shared =
            |one: &PrefermentColumn| part.load.as_ref().is_some_and(|load| !load.of_preferment(one.id).0.is_empty());
        let preferments = part.preferments.iter().map(|one| Row {
            name: seen(&one.name),
            how: match of_a_load.as_ref().filter(|_| is_shared(one)) {
                Some(share) => one.kept().into_iter().chain([share.clone()]).collect(),
                None => vec![one.kept().unwrap_or_else(|| "all of it".to_owned())],
            },
            tick: true,
            aside: false,
            stair: None,
        });
        let rows = part
            .in_order(lines, preferments)
            .into_iter()
            .zip(stairs)
            .map(|(row, stair)| Row { stair, ..row })
            .collect();
        let has_total = !part.total_shown.is_empty();
        Some(Strip { split, has_total, rows, columns: columns(part, split, has_total, weigh) })
    }

    /// Whether a weight is in kilograms, which take more room than grams.
    pub(in crate::out) fn has_kilograms(&self) -> bool {
        let weights = self.columns.iter().filter(|column| !matches!(column.kind, Kind::Preferment | Kind::Share));
        weights.flat_map(|column| &column.cells).any(|cell| cell.is_in("kg"))
    }
}

fn columns(part: &PartCard, split: bool, has_total: bool, weigh: impl Fn(&LineCard) -> Shown) -> Vec<Column> {
    let none = || vec![Shown::default(); part.preferments.len()];
    let column = |kind, title: &str, of_line: &dyn Fn(usize, &LineCard) -> Shown, own: Vec<Shown>, total: Shown| {
        let of_lines = part.lines.iter().enumerate().map(|(at, line)| of_line(at, line));
        let mut cells: Vec<Shown> = part.in_order(of_lines, own);
        if has_total {
            cells.push(total);
        }
        Column { kind, title: seen(&title), cells }
    };
    let mut columns = Vec::new();
    if part.per_piece {
        columns.push(column(Kind::Each, "each", &|_, line| line.each_shown.clone(), none(), Shown::default()));
    }
    if split {
        columns.push(column(Kind::InAll, "in all", &|_, line| line.shown.clone(), none(), part.total_shown.clone()));
        for (at, one) in part.preferments.iter().enumerate() {
            let mut own = none();
            if let Some(own) = own.get_mut(at) {
                own.clone_from(&one.total_shown);
            }
            let cell = |line: usize, _: &LineCard| one.cells.get(line).cloned().unwrap_or_default();
            columns.push(column(Kind::Preferment, &one.name, &cell, own, Shown::default()));
        }
    }
    let (title, total) = match (split, part.per_piece) {
        (true, _) => ("final mix", &part.final_mix_shown),
        (false, true) => ("in all", &part.total_shown),
        (false, false) => ("weigh", &part.total_shown),
    };
    let own: Vec<Shown> = part.preferments.iter().map(|one| one.total_shown.clone()).collect();
    if let Some(load) = &part.load {
        let or = |one: Shown, whole: Shown| if one.is_empty() { whole } else { one };
        let of_line = |at: usize, line: &LineCard| or(load.lines.get(at).cloned().unwrap_or_default(), weigh(line));
        let mine = part.preferments.iter().map(|one| or(load.of_preferment(one.id).0, one.total_shown.clone()));
        columns.push(column(Kind::Weigh, &load.title(), &of_line, mine.collect(), load.total.clone()));
        if load.running.iter().any(|shows| !shows.is_empty()) {
            let shows = |at: usize, _: &LineCard| load.running.get(at).cloned().unwrap_or_default();
            let mine = part.preferments.iter().map(|one| load.of_preferment(one.id).1).collect();
            columns.push(column(Kind::Shows, "scale shows", &shows, mine, Shown::default()));
        }
        let all = format!("all {} loads", load.loads);
        columns.push(column(Kind::InAll, &all, &|_, line| weigh(line), own, total.clone()));
    } else {
        columns.push(column(Kind::Weigh, title, &|_, line| weigh(line), own, total.clone()));
    }
    if part.load.is_none() && part.lines.iter().any(|line| !line.running.is_empty()) {
        let own = part.preferments.iter().map(|one| one.running.clone()).collect();
        columns.push(column(Kind::Shows, "scale shows", &|_, line| line.running.clone(), own, Shown::default()));
    }
    if part.lines.iter().any(|line| !line.percent_shown.is_empty()) {
        let title = match part.base_name.as_deref() {
            None | Some("flour") => "%".to_owned(),
            Some(base) => format!("% of {base}"),
        };
        let total = part.percent_total_shown.clone();
        columns.push(column(Kind::Share, &title, &|_, line| line.percent_shown.clone(), none(), total));
    }
    columns
}

/// What goes in once for all loads says so.
fn at_once(part: &PartCard, at: usize, line: &LineCard) -> Option<String> {
    let load = part.load.as_ref()?;
    let is_in_loads = load.lines.get(at).is_some_and(|shown| !shown.is_empty());
    // What preferments take whole goes into none.
    let goes_in = !line.aside && line.weighed.is_some() && !line.final_mix_shown.is_empty();
    (goes_in && !is_in_loads).then(|| "for all loads".to_owned())
}

/// Measure, temperature, preparation and the like.
fn how(part: &PartCard, at: usize, line: &LineCard) -> Vec<String> {
    let clauses = [
        part.measure_in_words(at),
        line.temperature_shown.as_ref().map(|at| format!("at {at}")),
        line.preparation.clone(),
    ];
    clauses.iter().flatten().chain(&line.remarks()).map(seen).collect()
}

/// Where each line's share of the bowl begins and how long it is, of 1; in the order of the rows.
fn stairs(part: &PartCard) -> Vec<Option<(f64, f64)>> {
    let in_bowl = |line: &LineCard| if line.aside { None } else { line.final_mix };
    let own = part.preferments.iter().map(|column| column.total);
    let masses: Vec<Option<Mass>> = part.in_order(part.lines.iter().map(in_bowl), own);
    let total: f64 = masses.iter().flatten().map(|mass| mass.value().to_f64()).sum();
    let mut start = 0.0;
    masses
        .iter()
        .map(|mass| {
            let length = mass.filter(|_| total > 0.0)?.value().to_f64() / total;
            let from = start;
            start += length;
            (length > 0.0).then_some((from, length))
        })
        .collect()
}
