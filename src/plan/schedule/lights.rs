//! What is lit when: equipment that must be hot, before its first load of a day and whenever another heat is wanted; and what is put out since nobody
//! needs it for long.

use super::{Light, Turned};
use crate::make::work::Work;
use crate::measure::show::Units;
use crate::model::heat;
use crate::model::kitchen::Kitchen;
use crate::plan::ask::{self, Hours};
use crate::plan::heats::{AT_HOME, NOT_LEFT_LIT};
use crate::plan::problem::{Equipment, Holding, Minute, Person, Window};
use crate::plan::solve::Plan;
use crate::plan::tasks::{Task, Tasks};

/// How long it takes from one heat to another at home, about: in less it is not there when the next load goes in. Common practice, no source.
const TURNED_AT_HOME: Minute = 15;

/// A load in a unit.
struct Load<'a> {
    start: Minute,
    end: Minute,
    /// The first and the last task of the load.
    tasks: (&'a Task, &'a Task),
    /// The number of the first.
    first: usize,
    holds: Holding,
}

/// Everything that is lit in a plan, by its start, in minutes of the problem.
pub(super) fn of(
    work: &Work,
    tasks: &Tasks,
    kitchen: &Kitchen,
    hours: &Hours,
    solved: &Plan,
    (ends, units): (&[Minute], Units),
) -> Vec<Light> {
    let problem = ask::problem(tasks, kitchen, hours);
    let mut lights = Vec::new();
    for (number, equipment) in problem.equipment.iter().enumerate() {
        let name = kitchen.equipment.get(number).map(|equipment| equipment.name.to_string()).unwrap_or_default();
        let is_at_home = kitchen.span.is_none() && hours.cold && name == "oven";
        let heating = if is_at_home && equipment.heating == 0 { AT_HOME } else { equipment.heating };
        if heating == 0 {
            continue;
        }
        let equipment = &Equipment { heating, ..equipment.clone() };
        for unit in 1..=equipment.count {
            let holder = |at: &usize| {
                let holds = problem.tasks.get(*at)?.holds?;
                let here = holds.equipment == number && solved.units.get(*at).copied().flatten() == Some(unit);
                here.then_some(holds)
            };
            let load = |at: usize| {
                let (start, end) = (*solved.starts.get(at)?, *solved.ends.get(at)?);
                let inside = match at.checked_sub(tasks.list.len()) {
                    Some(hold) => &tasks.holds.get(hold)?.tasks[..],
                    None => std::slice::from_ref(&at),
                };
                let task = |at: Option<&usize>| tasks.list.get(*at?);
                let both = (task(inside.first())?, task(inside.last())?);
                let end = end.max(inside.last().and_then(|at| ends.get(*at)).copied().unwrap_or(end));
                let first = *inside.first()?;
                (end > start).then_some(Load { start, end, tasks: both, first, holds: holder(&at)? })
            };
            let all = 0..problem.tasks.len();
            let mut loads: Vec<Load<'_>> = all.filter(|at| holder(at).is_some()).filter_map(load).collect();
            loads.sort_by_key(|load| (load.start, load.end));
            for light in of_unit(&loads, equipment, hours, is_at_home) {
                // As the step says it that it is lit for.
                let task = light.load.tasks.0;
                let part = work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
                let step = part.and_then(|part| part.steps.get(task.step.step));
                lights.push(Light {
                    equipment: name.clone(),
                    unit: (equipment.count > 1).then_some(unit),
                    units: equipment.count,
                    temperature: step
                        .and_then(|step| heat::first_heat(step, units))
                        .filter(|_| light.turned != Turned::Off),
                    start: light.start,
                    end: light.end,
                    turned: light.turned,
                    first: light.load.first,
                    meanwhile: is_at_home
                        && matches!(light.turned, Turned::Up | Turned::Down)
                        && light.end - light.start < TURNED_AT_HOME,
                    people: Vec::new(),
                });
            }
        }
    }
    lights.sort_by_key(|light| (light.start, light.equipment.clone(), light.unit));
    see_to(&mut lights, hours, kitchen, solved);
    lights
}

/// Says who sees to what is lit, or turned: to what is done alike in one minute the same, to what is done otherwise another, if somebody else is free.
fn see_to(lights: &mut [Light], hours: &Hours, kitchen: &Kitchen, solved: &Plan) {
    for at in 0..lights.len() {
        let (sooner, later) = lights.split_at_mut(at);
        let Some(light) = later.first_mut() else { continue };
        let at_once: Vec<&Light> = sooner.iter().rev().take_while(|one| one.start == light.start).collect();
        let is_alike = |one: &&&Light| {
            (&one.equipment, one.turned, &one.temperature) == (&light.equipment, light.turned, &light.temperature)
        };
        let alike = at_once.iter().find(is_alike).map(|one| one.people.clone());
        let busy: Vec<u32> = at_once.iter().flat_map(|one| one.people.iter().copied()).collect();
        light.people = alike.unwrap_or_else(|| by_whom(hours, kitchen, solved, (light.start, &busy)));
    }
}

/// A unit that is lit for a load.
struct Lit<'a> {
    load: &'a Load<'a>,
    start: Minute,
    end: Minute,
    turned: Turned,
}

fn of_unit<'a>(loads: &'a [Load<'a>], equipment: &Equipment, hours: &Hours, is_at_home: bool) -> Vec<Lit<'a>> {
    let mut lit = Vec::new();
    // Since when nothing is in it, and the heat at which it was left.
    let mut before: Option<(Minute, Option<i32>)> = None;
    for load in loads {
        let left = before.filter(|(since, _)| !closed_between(hours, *since, load.start));
        let lit_at = load.start - equipment.heating;
        let is_left = |(since, _): &(Minute, Option<i32>)| lit_at - since >= NOT_LEFT_LIT;
        if let Some((since, _)) = left.filter(is_left)
            && !load.tasks.0.heats
            && is_there(hours, since)
            && is_there(hours, lit_at)
        {
            lit.push(Lit { load, start: since, end: since, turned: Turned::Off });
            lit.push(Lit { load, start: lit_at, end: load.start, turned: Turned::On });
            before = Some((load.end, load.holds.leaves));
            continue;
        }
        let hot = left.is_some_and(|(_, heat)| equipment.agree(heat, load.holds.setting));
        if !hot && !load.tasks.0.heats {
            let down = left.and_then(|(_, heat)| heat.zip(load.holds.setting)).is_some_and(|(heat, to)| to < heat);
            // At home nothing waits for it: it is turned up or down as soon as what was in it is out.
            let start = left.filter(|_| is_at_home).map_or(lit_at, |(since, _)| since.clamp(lit_at, load.start));
            // What is to be less hot is turned down when the last load is out: nobody leaves an empty oven at its heat.
            let is_done = |since: &Minute| down && !is_at_home && is_there(hours, *since);
            let (start, end) = match left.map(|(since, _)| since).filter(is_done) {
                Some(since) => (since, since + equipment.heating),
                None => (start, load.start),
            };
            let turned = match left {
                None => Turned::On,
                Some(_) if down => Turned::Down,
                Some(_) => Turned::Up,
            };
            lit.push(Lit { load, start, end, turned });
        }
        let since = before.map_or(load.end, |(since, _)| since.max(load.end));
        before = Some((since, load.holds.leaves.or(before.and_then(|(_, heat)| heat))));
    }
    lit
}

/// Whether somebody is there at a moment.
fn is_there(hours: &Hours, at: Minute) -> bool {
    let holds = |window: &Window| window.opens <= at && at < window.closes;
    let is_open = hours.open.is_empty() || hours.open.iter().any(holds);
    let is_in = |who: &Person| who.shifts.is_empty() || who.shifts.iter().any(|shift| holds(&shift.window));
    is_open && (hours.people.is_empty() || hours.people.iter().any(is_in))
}

/// Whether nobody is there at some time between two moments: what was hot is put out.
fn closed_between(hours: &Hours, from: Minute, until: Minute) -> bool {
    !hours.open.is_empty() && !hours.open.iter().any(|open| open.opens <= from && until <= open.closes)
}

/// Who lights something: somebody who is there and has their hands free, best not those who are busy at other ovens, else whoever is there.
fn by_whom(hours: &Hours, kitchen: &Kitchen, solved: &Plan, (at, busy): (Minute, &[u32])) -> Vec<u32> {
    let there = |person: u32| {
        let who = usize::try_from(person).ok().and_then(|number| hours.people.get(number.checked_sub(1)?));
        who.is_none_or(|who| {
            who.shifts.is_empty() || who.shifts.iter().any(|shift| shift.window.opens <= at && at < shift.window.closes)
        })
    };
    let at_work = |person: u32| {
        let during = solved.cooks.iter().enumerate().filter(|(_, who)| who.contains(&person));
        during.into_iter().any(|(task, _)| {
            let (start, end) = (solved.starts.get(task), solved.ends.get(task));
            start.is_some_and(|start| *start <= at) && end.is_some_and(|end| at < *end)
        })
    };
    let rests = |person: u32| solved.rests.iter().any(|(who, start, end)| *who == person && *start <= at && at < *end);
    let all = || (1..=kitchen.cooks).filter(|person| there(*person));
    let free = || all().filter(|person| !at_work(*person) && !rests(*person));
    let other = free().find(|person| !busy.contains(person));
    other
        .or_else(|| free().next())
        .or_else(|| all().find(|person| !rests(*person)))
        .or_else(|| all().next())
        .into_iter()
        .collect()
}
