//! What meets in equipment of which there is too little: which loads want it at once, and when.

use super::super::problem::{Holding, Minute, Problem};
use super::mend::Apart;
use super::{Case, time};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::plan::tasks::Task;

/// A load in some equipment, in a plan with one piece more of it.
struct Load<'a> {
    start: Minute,
    end: Minute,
    unit: u32,
    task: &'a Task,
}

impl Case<'_> {
    /// Why there is too little of some equipment, by a plan with one piece more of it: that it is needed for longer than there is, heating
    /// included, or
    /// which loads would be in it at once.
    pub(super) fn too_little(&self, with_more: &Apart, number: usize) -> String {
        let roomier = &with_more.problem;
        // Its tasks are its own: with more of it one dough may be made where there are two.
        let there = Case { work: &with_more.work, tasks: &with_more.tasks, ..*self };
        let name = self.kitchen.equipment.get(number).map(|one| one.name.to_string()).unwrap_or_default();
        let count = self.kitchen.equipment.get(number).map_or(1, |one| one.count);
        let holds = |at: &usize| {
            roomier.tasks.get(*at).is_some_and(|task| task.holds.is_some_and(|holds| holds.equipment == number))
        };
        let held = || (0..roomier.tasks.len()).filter(holds);
        // Of what several loads share a load needs as much as it fills.
        let takes = roomier.equipment.get(number).and_then(|one| one.shared).unwrap_or(1).max(1);
        let fills = |at: usize| {
            let task = roomier.tasks.get(at)?;
            Some(task.shortest * task.holds.map_or(1, |holds| if takes > 1 { holds.size } else { 1 }))
        };
        let needed: Minute = (held().filter_map(fills).sum::<Minute>() + takes - 1) / takes;
        let steps = held().filter_map(|at| there.held_by(at)).map(|task| there.named(task));
        let steps: std::collections::BTreeSet<String> = steps.collect();
        let for_what = match (steps.first(), steps.len()) {
            (Some(step), 1) => format!(" for {step}"),
            (Some(step), many) if many > 1 => format!(" for {step} and {} more", many - 1),
            _ => String::new(),
        };
        let again = self.heated_again(roomier, number, &held().collect::<Vec<usize>>());
        let with_heating = match again {
            0 => String::new(),
            again => format!(", and {} of that to heat it again between loads", time(again)),
        };
        let in_all = format!("the `{name}` is needed {} in all{for_what}{with_heating}", time(needed + again));
        let Some(plan) = self.quickly(roomier) else { return in_all };
        let load = |at: usize| {
            let (start, end) = (*plan.starts.get(at)?, *plan.ends.get(at)?);
            Some(Load { start, end, unit: plan.units.get(at).copied().flatten()?, task: there.held_by(at)? })
        };
        let mut loads: Vec<Load<'_>> = held().filter_map(load).filter(|load| load.start < load.end).collect();
        loads.sort_by_key(|load| (load.start, load.end));
        let (Some(first), Some(last)) = (loads.first().map(|load| load.start), loads.iter().map(|load| load.end).max())
        else {
            return in_all;
        };
        // When they would be in it says that plan alone, and no other need have it so: the minutes are what there is too little of.
        // Of what several loads share it is how much goes in.
        if takes == 1 && needed + again > (last - first) * Minute::from(count) {
            return in_all;
        }
        there.at_once((&name, count, number), &loads).unwrap_or(in_all)
    }

    /// For how long what there is of some equipment has to be heated again at least, where no load finds the heat that it wants.
    fn heated_again(&self, roomier: &Problem, number: usize, held: &[usize]) -> Minute {
        let Some(equipment) = roomier.equipment.get(number) else { return 0 };
        let holds: Vec<Holding> = held.iter().filter_map(|at| roomier.tasks.get(*at)?.holds).collect();
        let is_unlike = |(at, one): (usize, &Holding)| {
            let mut others = holds.iter().enumerate().filter(|(other, _)| *other != at);
            others.all(|(_, other)| !equipment.agree(one.leaves, other.setting))
        };
        if !holds.iter().enumerate().all(is_unlike) {
            return 0;
        }
        let units = self.kitchen.equipment.get(number).map_or(1, |one| one.count);
        let times = u32::try_from(holds.len()).unwrap_or(u32::MAX).saturating_sub(units);
        equipment.heating * Minute::from(times)
    }

    /// The first moment at which loads are in more pieces of it than there are.
    fn at_once(&self, (name, count, number): (&str, u32, usize), loads: &[Load<'_>]) -> Option<String> {
        loads.iter().find_map(|late| {
            let mut units: Vec<u32> = Vec::new();
            let mut there: Vec<String> = Vec::new();
            let by_weight = self.kitchen.equipment.get(number).is_some_and(|one| one.stands_by_weight().is_some());
            let fills = |task: &Task| if by_weight { task.weight.map(Mass::value) } else { task.pieces };
            let mut filled = Some(Number::ZERO);
            let now = |load: &&Load<'_>| load.start <= late.start && late.start < load.end;
            for load in loads.iter().filter(now) {
                filled = filled.zip(fills(load.task)).and_then(|(sum, more)| sum.plus(more).ok());
                if !units.contains(&load.unit) {
                    units.push(load.unit);
                    there.push(self.of_recipe(load.task));
                }
            }
            let many = u32::try_from(units.len()).is_ok_and(|units| units > count);
            let last = there.pop().filter(|_| many)?;
            let at = self.wall(late.start).map(|at| format!(", at {at}")).unwrap_or_default();
            let have =
                if count == 1 { format!("the `{name}`") } else { format!("`{name}`, of which there are {count},") };
            // How full it would be is the reason where it takes so many pieces, or so much.
            let takes = self.problem.equipment.get(number).and_then(|equipment| equipment.shared);
            let is_over =
                |(takes, filled): &(i64, Number)| *filled > Number::whole(takes.saturating_mul(i64::from(count)));
            let full = takes.zip(filled).filter(is_over).map(|(takes, filled)| {
                let one = if count == 1 { "it" } else { "one" };
                let grams = |grams: Number| show::mass_plain(Mass::new(grams));
                match by_weight {
                    true => format!(": {}, and {one} holds {}", grams(filled), grams(Number::whole(takes))),
                    false => format!(": {} pieces, and {one} holds {takes}", show::count_of(filled)),
                }
            });
            let said = format!("{} and {last} would need {have} at once{at}", there.join(", "));
            Some(format!("{said}{}", full.unwrap_or_default()))
        })
    }

    /// The task that holds a unit, or the first of those that stay in it.
    fn held_by(&self, at: usize) -> Option<&Task> {
        match at.checked_sub(self.tasks.list.len()) {
            Some(hold) => self.tasks.list.get(*self.tasks.holds.get(hold)?.tasks.first()?),
            None => self.tasks.list.get(at),
        }
    }

    /// A step with its recipe: `bake` of `Pier rolls`, and which load of how many; with its part where another part of the recipe has such a step.
    fn of_recipe(&self, task: &Task) -> String {
        let batch = self.work.batches.get(task.batch);
        let recipe =
            batch.and_then(|batch| batch.recipe.origin(task.step.part)).map(|(origin, _)| origin.name.to_string());
        let load = if task.loads > 1 { format!(" {} of {}", task.load, task.loads) } else { String::new() };
        let is_said_twice = |other: &Task| {
            other.batch == task.batch
                && other.step.part != task.step.part
                && super::step(self.work, other) == super::step(self.work, task)
        };
        let part = batch.and_then(|batch| batch.recipe.part(task.step.part)).map(|part| part.name.to_string());
        let part = part.filter(|_| self.tasks.list.iter().any(is_said_twice));
        let part = part.map(|part| format!(" of `{part}`")).unwrap_or_default();
        match recipe {
            Some(recipe) => format!("`{}`{load}{part} of `{recipe}`", super::step(self.work, task)),
            None => format!("{}{load}", self.named(task)),
        }
    }
}
