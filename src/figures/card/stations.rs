//! A card cut up by station: what each does, what comes in from where, and where it goes.

use super::{Card, LineCard, PartCard, StepCard, UseCard};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::recipe::PartId;
use crate::model::step::{StepKind, Target};
use std::collections::HashMap;

/// What one station does of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Station<'a> {
    /// Its name.
    pub name: &'a str,
    /// The places that have no sheet of their own and whose step stands on this one: `oven`.
    pub with: Vec<&'a str>,
    /// Its stretches of work, in the order of the card.
    pub works: Vec<Stay<'a>>,
}

impl Station<'_> {
    /// What stands below the recipe's name: `Station: bench, with oven and prover`.
    pub fn title(&self) -> String {
        match self.with.is_empty() {
            true => format!("Station: {}", self.name),
            false => format!("Station: {}, with {}", self.name, show::list(&self.with)),
        }
    }
}

/// Steps of one part that follow one another at one station.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stay<'a> {
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
    let places = Places::of(card);
    let mut stations: Vec<Station<'_>> = Vec::new();
    for part in &card.parts {
        for (first, steps) in places.stretches(part) {
            let Some(name) = steps.first().map(|step| places.sheet(part, step)) else { continue };
            let work = work(&places, card, part, first, steps);
            let at = stations.iter().position(|station| same(station.name, name)).unwrap_or(stations.len());
            if at == stations.len() {
                stations.push(Station { name, with: Vec::new(), works: Vec::new() });
            }
            let Some(station) = stations.get_mut(at) else { continue };
            station.works.push(work);
            for own in steps.iter().map(|step| place(part, step)) {
                if !same(own, name) && !station.with.iter().any(|known| same(known, own)) {
                    station.with.push(own);
                }
            }
        }
    }
    stations
}

/// Where a step is done that names neither a station nor equipment. It is counted to its part, but a part is no place to pin a
/// sheet up at.
const BENCH: &str = "bench";

/// The place where a step is done.
fn place<'a>(part: &PartCard, step: &'a StepCard) -> &'a str {
    if step.equipment.is_none() && same(&step.station, &part.name) { BENCH } else { &step.station }
}

/// Station names are names like any other: case does not matter.
fn same(one: &str, other: &str) -> bool {
    key(one) == key(other)
}

fn key(name: &str) -> String {
    name.to_lowercase()
}

/// On whose sheet each place stands. A place at which only one thing is done has none of its own, unless hands work there at what is
/// weighed out for it: nobody walks to a prover to read one line. Its step stands on the sheet of the place before it, or else after it.
struct Places<'a> {
    /// The places that stand on another's sheet, by their names in small letters.
    on: HashMap<String, &'a str>,
}

impl<'a> Places<'a> {
    fn of(card: &'a Card) -> Places<'a> {
        let mut steps: HashMap<String, Vec<(&'a PartCard, usize)>> = HashMap::new();
        for part in &card.parts {
            for (at, step) in part.steps.iter().enumerate() {
                steps.entry(key(place(part, step))).or_default().push((part, at));
            }
        }
        let is_small = |name: &str| match steps.get(&key(name)).map(Vec::as_slice) {
            Some([(part, at)]) => part.steps.get(*at).is_some_and(|step| !is_weighed_at(part, step)),
            _ => false,
        };
        let mut on = HashMap::new();
        for (name, all) in &steps {
            let [(part, at)] = all.as_slice() else { continue };
            if !is_small(name) {
                continue;
            }
            // The nearest place before it in its part that has a sheet, else the nearest after it.
            let (before, after) = part.steps.split_at_checked(*at).unwrap_or_default();
            let mut near = before.iter().rev().chain(after).map(|step| place(part, step));
            if let Some(home) = near.find(|other| !is_small(other)) {
                on.insert(name.clone(), home);
            }
        }
        Places { on }
    }

    /// The sheet on which a step stands.
    fn sheet(&self, part: &PartCard, step: &'a StepCard) -> &'a str {
        let own = place(part, step);
        self.on.get(&key(own)).copied().unwrap_or(own)
    }

    /// Runs of steps on one sheet, each with the place of its first step.
    fn stretches(&self, part: &'a PartCard) -> Vec<(usize, &'a [StepCard])> {
        let mut at = 0;
        part.steps
            .chunk_by(|one, next| same(self.sheet(part, one), self.sheet(part, next)))
            .map(|steps| {
                let first = at;
                at += steps.len();
                (first, steps)
            })
            .collect()
    }
}

/// Whether hands put together what was weighed out for it.
fn is_weighed_at(part: &PartCard, step: &StepCard) -> bool {
    let weighed = step.uses.iter().filter(|one| one.mass.is_some() && one.part.is_none()).count();
    let takes_all = part.steps.len() == 1 && part.lines.len() > 1;
    step.kind == StepKind::Hands && (weighed > 1 || takes_all)
}

fn work<'a>(places: &Places<'a>, card: &'a Card, part: &'a PartCard, first: usize, steps: &'a [StepCard]) -> Stay<'a> {
    let end = first + steps.len();
    Stay {
        part,
        steps: steps.iter().enumerate().map(|(at, step)| (first + at + 1, step)).collect(),
        weighs: weighs(card, part, first, steps),
        comes_in: comes_in(places, card, part, (first, steps)),
        goes_out: goes_out(places, card, part, end),
    }
}

fn comes_in<'a>(
    places: &Places<'a>,
    card: &'a Card,
    part: &'a PartCard,
    (first, steps): (usize, &[StepCard]),
) -> Vec<Handover> {
    let mut all = Vec::new();
    if let Some(before) = first.checked_sub(1).and_then(|at| part.steps.get(at)) {
        all.push(Handover {
            what: part.name.clone(),
            amount: Shown::default(),
            station: Some(places.sheet(part, before).to_owned()),
            step: before.name.clone(),
        });
    }
    for taken in parts_taken(part, first, steps) {
        let made = card.parts.iter().find(|other| other.id == taken.part);
        let last = made.and_then(|made| made.steps.last());
        all.push(Handover {
            what: taken.name,
            amount: taken.amount,
            station: made.zip(last).map(|(made, step)| places.sheet(made, step).to_owned()),
            step: last.map(|step| step.name.clone()).unwrap_or_default(),
        });
    }
    all
}

/// A part that some steps take.
struct Taken {
    part: PartId,
    target: Target,
    /// As it is called there.
    name: String,
    /// As printed.
    amount: Shown,
}

/// The parts that these steps take. A part that no step names is taken by the first.
fn parts_taken(part: &PartCard, first: usize, steps: &[StepCard]) -> Vec<Taken> {
    let mut taken: Vec<Taken> = Vec::new();
    for one in steps.iter().flat_map(|step| &step.uses) {
        let Some(of) = one.part.filter(|_| !taken.iter().any(|known| known.target == one.target)) else { continue };
        taken.push(Taken { part: of, target: one.target, name: one.ingredient.clone(), amount: one.shown.clone() });
    }
    if first == 0 {
        let lines = part
            .lines
            .iter()
            .enumerate()
            .filter_map(|(at, line)| Some((line.part?, Target::Line(at), &line.ingredient, &line.final_mix_shown)));
        let preferments =
            part.preferments.iter().map(|one| (one.id, Target::Preferment(one.id), &one.name, &one.total_shown));
        for (of, target, name, amount) in lines.chain(preferments) {
            if !is_used(part, target) && !amount.is_empty() {
                taken.push(Taken { part: of, target, name: name.clone(), amount: amount.clone() });
            }
        }
    }
    taken
}

fn is_used(part: &PartCard, target: Target) -> bool {
    part.steps.iter().flat_map(|step| &step.uses).any(|one| one.target == target)
}

fn goes_out<'a>(places: &Places<'a>, card: &'a Card, part: &'a PartCard, end: usize) -> Vec<Handover> {
    let hand = |station: Option<String>, step: String, amount: Shown| Handover {
        what: part.name.clone(),
        amount,
        station,
        step,
    };
    if let Some(next) = part.steps.get(end) {
        return vec![hand(Some(places.sheet(part, next).to_owned()), next.name.clone(), Shown::default())];
    }
    let mut all = Vec::new();
    for user in card.parts.iter().filter(|user| user.id != part.id) {
        for (first, steps) in places.stretches(user) {
            for taken in parts_taken(user, first, steps).into_iter().filter(|taken| taken.part == part.id) {
                let takes = |step: &&StepCard| step.uses.iter().any(|one| one.target == taken.target);
                let step = steps.iter().find(takes).or(steps.first());
                let hand_on = |step: &'a StepCard| {
                    hand(Some(places.sheet(user, step).to_owned()), step.name.clone(), taken.amount.clone())
                };
                all.extend(step.map(hand_on));
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
    let here = |target: Target| steps.iter().flat_map(|step| &step.uses).find(|one| one.target == target);
    let takes = |target: Target| here(target).is_some() || (first == 0 && !is_used(part, target));
    let weighed = || {
        let lines = part.lines.iter().enumerate().map(|(at, line)| (Target::Line(at), line));
        lines.filter(|(_, line)| !line.final_mix_shown.is_empty())
    };
    let all_here = weighed().all(|(target, _)| {
        let elsewhere = part.steps.iter().enumerate().any(|(at, step)| {
            (at < first || at >= first + steps.len()) && step.uses.iter().any(|one| one.target == target)
        });
        takes(target) && !elsewhere
    });
    if all_here && !part.lines.is_empty() {
        return Some(part.clone());
    }
    let mut lines: Vec<LineCard> = Vec::new();
    for (target, line) in weighed() {
        // What comes from another station is weighed there, or is a piece that needs no weighing.
        let is_handed = line.part.is_some_and(|of| card.parts.iter().any(|other| other.id == of));
        if takes(target) && !is_handed {
            lines.push(line_here(line, here(target)));
        }
    }
    if lines.is_empty() {
        return None;
    }
    Some(PartCard {
        lines,
        preferments: Vec::new(),
        load: None,
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
        measure: line.final_mix_measure.clone().filter(|_| is_all),
        final_mix_measure: line.final_mix_measure.clone().filter(|_| is_all),
        final_mix: if is_all { line.final_mix } else { taken.and_then(|taken| taken.mass) },
        ..line.clone()
    }
}
