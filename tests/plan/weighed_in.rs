//! What stands in a place that holds so much by weight, in a plan: never more than that in one of them.

use super::{Planned, time};
use miche::measure::quantity::Mass;
use miche::model::kitchen::Capacity;
use miche::model::step::StepKind;

/// The words of places in which things stand side by side.
const PLACES: [&str; 7] = ["fridge", "freezer", "retarder", "prover", "coldroom", "cold room", "cupboard"];

/// No place holds more than it may, minute by minute.
pub fn no_more_than_it_holds(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    for equipment in &planned.kitchen.equipment {
        let name = equipment.name.to_string();
        let Some(Capacity::Mass(most)) = equipment.holds.filter(|_| PLACES.iter().any(|place| name.ends_with(place)))
        else {
            continue;
        };
        // What rests there, from when to when and in which of them: until it is taken out, where it goes on until then.
        let mut inside: Vec<((i64, i64), Option<u32>, Mass)> = Vec::new();
        for (at, task) in planned.tasks.list.iter().enumerate() {
            let is_here = task.equipment.as_ref().is_some_and(|name| name.same(&equipment.name));
            let Some(mass) = task.weight.filter(|_| is_here && task.kind == StepKind::Wait) else { continue };
            let holder = planned.tasks.holder(at).unwrap_or(at);
            let (starts, ends) = time(at, planned);
            inside.push(((starts, ends.max(time(holder, planned).1)), planned.plan.units[holder], mass));
        }
        for ((starts, _), unit, _) in &inside {
            let here =
                inside.iter().filter(|((from, until), other, _)| other == unit && from <= starts && starts < until);
            let masses: Vec<Mass> = here.map(|(_, _, mass)| *mass).collect();
            let all = Mass::sum(masses.iter().copied()).unwrap();
            // One load that is more than it holds is told by a check.
            if masses.len() > 1 && all > most {
                wrong.push(format!("{all:?} in {name} {unit:?} at {starts}, which holds {most:?}"));
            }
        }
    }
}
