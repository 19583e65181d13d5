//! A card cut up by station: what each does, what comes in from where, and where it goes.

use super::{Card, LineCard, PartCard, StepCard, UseCard};
use crate::measure::shown::Shown;

/// What one station does of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Station<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its stretches of work, in the order of the card.
    pub works: Vec<Work<'a>>,
}

/// Steps of one part that follow one another at one station.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Work<'a> {
    /// The part.
    pub part: &'a PartCard,
    /// The steps with their numbers in the part.
    pub steps: Vec<(usize, &'a StepCard)>,
    /// The part with only the lines that are weighed here; `None` when nothing is.
    pub weighs: Option<PartCard>,
    /// What comes in.
    pub comes_in: Vec<Handover>,
    /// What goes out.
    pub goes_out: Vec<Handover>,
}

/// Something that goes from one station to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handover {
    /// What: the part.
    pub what: String,
    /// How much, as printed; empty for all of it.
    pub amount: Shown,
    /// The other station; `None` when the recipe ends here.
    pub station: Option<String>,
    /// The step there.
    pub step: String,
}

/// Cuts a card up by station, in the order in which the stations first appear.
pub fn stations(card: &Card) -> Vec<Station<'_>> {
    let mut stations: Vec<Station<'_>> = Vec::new();
    for part in &card.parts {
        for (first, steps) in stretches(part) {
            let Some(name) = steps.first().map(|step| step.station.as_str()) else { continue };
            let work = work(card, part, first, steps);
            match stations.iter_mut().find(|station| same(station.name, name)) {
                Some(station) => station.works.push(work),
                None => stations.push(Station { name, works: vec![work] }),
            }
        }
    }
    stations
}

/// Station names are names like any other: case does not matter.
fn same(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

/// Runs of steps at one station, each with the place of its first step.
fn stretches(part: &PartCard) -> Vec<(usize, &[StepCard])> {
    let mut at = 0;
    part.steps
        .chunk_by(|one, next| same(&one.station, &next.station))
        .map(|steps| {
            let first = at;
            at += steps.len();
            (first, steps)
        })
        .collect()
}

fn work<'a>(card: &'a Card, part: &'a PartCard, first: usize, steps: &'a [StepCard]) -> Work<'a> {
    let end = first + steps.len();
    Work {
        part,
        steps: steps.iter().enumerate().map(|(at, step)| (first + at + 1, step)).collect(),
        weighs: weighs(card, part, first, steps),
        comes_in: comes_in(card, part, first, steps),
        goes_out: goes_out(card, part, end),
    }
}

fn comes_in(card: &Card, part: &PartCard, first: usize, steps: &[StepCard]) -> Vec<Handover> {
    let mut all = Vec::new();
    if let Some(before) = first.checked_sub(1).and_then(|at| part.steps.get(at)) {
        all.push(Handover {
            what: part.name.clone(),
            amount: Shown::default(),
            station: Some(before.station.clone()),
            step: before.name.clone(),
        });
    }
    for (name, amount) in parts_taken(part, first, steps) {
        let made = card.parts.iter().find(|other| same(&other.name, &name));
        let last = made.and_then(|made| made.steps.last());
        all.push(Handover {
            what: name,
            amount,
            station: last.map(|step| step.station.clone()),
            step: last.map(|step| step.name.clone()).unwrap_or_default(),
        });
    }
    all
}

/// The parts that these steps take, with their printed amounts. A part that no step names is taken by the first.
fn parts_taken(part: &PartCard, first: usize, steps: &[StepCard]) -> Vec<(String, Shown)> {
    let mut taken: Vec<(String, Shown)> = Vec::new();
    for one in steps.iter().flat_map(|step| &step.uses).filter(|one| one.is_part) {
        if !taken.iter().any(|(name, _)| same(name, &one.ingredient)) {
            taken.push((one.ingredient.clone(), one.shown.clone()));
        }
    }
    if first == 0 {
        let lines = part.lines.iter().filter(|line| line.is_part).map(|line| (&line.ingredient, &line.final_mix_shown));
        let preferments = part.preferments.iter().map(|column| (&column.name, &column.total_shown));
        for (name, amount) in lines.chain(preferments) {
            if !is_used(part, name) && !amount.is_empty() {
                taken.push((name.clone(), amount.clone()));
            }
        }
    }
    taken
}

fn is_used(part: &PartCard, name: &str) -> bool {
    part.steps.iter().flat_map(|step| &step.uses).any(|one| same(&one.ingredient, name))
}

fn goes_out(card: &Card, part: &PartCard, end: usize) -> Vec<Handover> {
    let hand = |station: Option<String>, step: String, amount: Shown| Handover {
        what: part.name.clone(),
        amount,
        station,
        step,
    };
    if let Some(next) = part.steps.get(end) {
        return vec![hand(Some(next.station.clone()), next.name.clone(), Shown::default())];
    }
    let mut all = Vec::new();
    for user in card.parts.iter().filter(|user| user.name != part.name) {
        for (first, steps) in stretches(user) {
            for (name, amount) in parts_taken(user, first, steps) {
                if same(&name, &part.name) {
                    let taker = steps.iter().find(|step| step.uses.iter().any(|one| same(&one.ingredient, &name)));
                    let step = taker.or(steps.first());
                    all.extend(step.map(|step| hand(Some(step.station.clone()), step.name.clone(), amount)));
                }
            }
        }
    }
    if all.is_empty() {
        all.push(hand(None, String::new(), Shown::default()));
    }
    all
}

/// The part as it is weighed at one station: all of it where all is taken there, else the lines that are.
fn weighs(card: &Card, part: &PartCard, first: usize, steps: &[StepCard]) -> Option<PartCard> {
    let here = |name: &str| steps.iter().flat_map(|step| &step.uses).find(|one| same(&one.ingredient, name));
    let takes = |name: &str| here(name).is_some() || (first == 0 && !is_used(part, name));
    let weighed = |line: &&LineCard| !line.final_mix_shown.is_empty();
    let all_here = part.lines.iter().filter(weighed).all(|line| {
        let elsewhere = part.steps.iter().enumerate().any(|(at, step)| {
            (at < first || at >= first + steps.len())
                && step.uses.iter().any(|one| same(&one.ingredient, &line.ingredient))
        });
        takes(&line.ingredient) && !elsewhere
    });
    if all_here && !part.lines.is_empty() {
        return Some(part.clone());
    }
    let mut lines: Vec<LineCard> = Vec::new();
    for line in part.lines.iter().filter(weighed) {
        // What comes from another station is weighed there, or is a piece that needs no weighing.
        let is_handed = line.is_part && card.parts.iter().any(|other| same(&other.name, &line.ingredient));
        if takes(&line.ingredient) && !is_handed {
            lines.push(line_here(line, here(&line.ingredient)));
        }
    }
    if lines.is_empty() {
        return None;
    }
    Some(PartCard {
        lines,
        preferments: Vec::new(),
        total_shown: Shown::default(),
        final_mix_shown: Shown::default(),
        percent_total_shown: Shown::default(),
        ..part.clone()
    })
}

/// A line with what is taken of it here. The scale's running figure is left out: the bowl does not start empty.
fn line_here(line: &LineCard, taken: Option<&UseCard>) -> LineCard {
    let shown = taken.map(|taken| taken.shown.clone()).filter(|shown| !shown.is_empty());
    let is_all = taken.is_none_or(|taken| taken.mass == line.final_mix);
    LineCard {
        shown: if is_all {
            line.final_mix_shown.clone()
        } else {
            shown.unwrap_or_else(|| line.final_mix_shown.clone())
        },
        each_shown: if is_all { line.each_shown.clone() } else { Shown::default() },
        percent_shown: if is_all { line.percent_shown.clone() } else { Shown::default() },
        running: Shown::default(),
        final_mix: if is_all { line.final_mix } else { taken.and_then(|taken| taken.mass) },
        ..line.clone()
    }
}
