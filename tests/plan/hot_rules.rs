//! What is hot does not stand, what goes straight on does so with each of its loads, and what was heated in one pot is in that one.

use super::{Done, Planned, draws, steps};
use miche::model::recipe::{Part, Refers};
use miche::model::step::{Loads, Step, StepKind, Target, Timing};
use miche::plan::explain::stands_hot;

fn degrees(step: &Step) -> Option<f64> {
    step.temperature.map(|(low, _)| low.celsius().to_f64())
}

fn is_cooked(step: &Step) -> bool {
    let place = step.equipment.as_ref().map(ToString::to_string).unwrap_or_default();
    let pots = ["kettle", "hob", "fryer"].iter().any(|pot| place.contains(pot));
    step.kind == StepKind::Tend
        && (pots || degrees(step).is_some_and(|degrees| degrees >= 63.0) && !place.contains("oven"))
}

/// What comes hot out of a pot is in the hot cupboard after half an hour and in the chiller after an hour, each load by itself; where it
/// cannot be, the plan says so.
pub fn taken_hot(planned: &Planned<'_>, part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for pair in steps.windows(2) {
        let [made, rest] = pair else { continue };
        let most = match degrees(rest.step) {
            Some(degrees) if degrees >= 57.0 => 30,
            Some(degrees) if degrees <= 8.0 => 60,
            _ => continue,
        };
        if !is_cooked(made.step) || rest.step.kind != StepKind::Wait || !rest.step.order.is_empty() {
            continue;
        }
        let is_told = || {
            let mut told = stands_hot(planned.schedule, planned.work).into_iter();
            told.any(|told| planned.schedule.rows[told.row].step == rest.step.name.to_string())
        };
        for ((begins, _), share) in rest.loads.iter().zip(&rest.shares) {
            let ended = made.holding(*share).map(|load| load.1).min().unwrap_or(*begins);
            if begins - ended > most && !is_told() {
                let stands = begins - ended;
                wrong.push(format!("what is hot of `{}` stands {stands} min before `{}`", part.name, rest.step.name));
            }
        }
    }
}

/// What is half cooked and goes straight on in the same pot does so load by load.
pub fn straight_on(id: usize, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for then in steps {
        let before = then.step.order.iter().find_map(|order| match order {
            Timing::StraightAfter(other) if other.part.0 == id => steps.get(other.step),
            _ => None,
        });
        let Some(before) = before.filter(|before| is_cooked(before.step)) else { continue };
        let same = before.step.equipment.as_ref().zip(then.step.equipment.as_ref());
        let once = before.step.loads == Loads::Once && then.step.loads == Loads::Once;
        if !once || !same.is_some_and(|(one, other)| one.same(other)) {
            continue;
        }
        for ((begins, _), share) in then.loads.iter().zip(&then.shares) {
            if before.holding(*share).any(|load| load.1 != *begins) {
                wrong.push(format!(
                    "`{}` at {begins} does not come straight after `{}`",
                    then.step.name, before.step.name
                ));
            }
        }
    }
}

/// What was brought to its heat in a pot is in that pot: of what is cooked in it no more loads are in at once than there are pots.
pub fn in_its_pot(planned: &Planned<'_>, order: usize, part: &Part, here: &[Done<'_>], wrong: &mut Vec<String>) {
    for (at, line) in part.lines.iter().enumerate() {
        let Refers::Part(other) = line.refers else { continue };
        let is_bath = line.aside || line.strained_out;
        let heated = steps(planned, order, other.0);
        let Some(pots) = heated.last().filter(|last| is_bath && is_cooked(last.step)) else { continue };
        for done in here.iter().filter(|done| draws(done.step, Target::Line(at))) {
            let same = done.step.equipment.as_ref().zip(pots.step.equipment.as_ref());
            if !same.is_some_and(|(one, other)| one.same(other)) {
                continue;
            }
            for (begins, _) in &done.loads {
                let inside = done.loads.iter().filter(|load| load.0 <= *begins && *begins < load.1).count();
                if inside > pots.loads.len() {
                    wrong.push(format!(
                        "{inside} loads of `{}` in {} pots at {begins}",
                        done.step.name,
                        pots.loads.len()
                    ));
                }
            }
        }
    }
}

/// `straight after` with the same kind of equipment stays in the same unit.
pub fn same_unit(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    let unit = |at: usize| planned.tasks.holder(at).and_then(|holder| planned.plan.units[holder]);
    for (at, task) in planned.tasks.list.iter().enumerate() {
        let Some(name) = &task.equipment else { continue };
        let part = &planned.work.batches[task.batch].recipe.parts[task.step.part.0];
        let before = part.steps[task.step.step].order.iter().find_map(|order| match order {
            Timing::StraightAfter(other) if other.part == task.step.part => Some(other.step),
            _ => None,
        });
        let Some(before) = before else { continue };
        let from = planned.tasks.list.iter().enumerate().find(|(_, other)| {
            (other.batch, other.step.part, other.step.step) == (task.batch, task.step.part, before)
                && other.equipment.as_ref().is_some_and(|other| other.same(name))
                && (other.load, other.loads) == (task.load, task.loads)
        });
        if let Some((from, _)) = from
            && unit(from) != unit(at)
        {
            wrong.push(format!("task {at} goes from {name} {:?} to {:?}", unit(from), unit(at)));
        }
    }
}
