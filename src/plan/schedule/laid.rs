//! The rows of a plan, what it makes, and who rests when, from the times of its tasks.

use super::super::ask::Hours;
use super::super::problem::{Minute, Stand, Window};
use super::super::solve::Plan;
use super::super::tasks::{Task, Tasks};
use super::super::which::Which;
use super::{Light, Made, Rest, Row};
use crate::make::batch::BatchPart;
use crate::make::loads;
use crate::make::work::Work;
use crate::measure::show::Units;
use crate::model::alive::STAND;
use crate::model::heat;
use crate::model::kitchen::{Capacity, Kitchen};
use crate::model::slab;
use crate::model::step::{Loads, StepKind, StepRef};
use crate::model::words::mere_prose_on;
use std::collections::HashMap;

/// What a plan is laid out from.
pub(super) struct Laying<'a> {
    pub(super) work: &'a Work,
    pub(super) kitchen: &'a Kitchen,
    pub(super) tasks: &'a Tasks,
    pub(super) solved: &'a Plan,
    /// The ends of the tasks, rests that may go on drawn out.
    pub(super) ends: &'a [Minute],
    /// The minute at which the plan starts.
    pub(super) first: Minute,
}

impl Laying<'_> {
    /// The loads, by their start.
    pub(super) fn rows(&self, which: &Which, units: Units) -> Vec<Row> {
        let Laying { work, kitchen, tasks, solved, ends, first } = *self;
        let mut rows: Vec<(usize, Row)> = Vec::with_capacity(tasks.list.len());
        for (at, task) in tasks.list.iter().enumerate() {
            let (Some(start), Some(end)) = (solved.starts.get(at), ends.get(at)) else { continue };
            rows.extend(row((work, kitchen), task, (start - first, end - first), units).map(|row| {
                let unit = tasks.holder(at).and_then(|holder| solved.units.get(holder).copied().flatten());
                let people = solved.cooks.get(at).cloned().unwrap_or_default();
                let last_taken = last_taken(work, tasks, solved, at).filter(|last| last > end).map(|last| last - first);
                let which = which.part(BatchPart { batch: task.batch, part: task.step.part }, task.turn);
                let is_put_away = |at: usize| {
                    let goes_on = solved.starts.get(at).zip(task.most_minutes).map(|(start, most)| start + most);
                    let limit = goes_on.unwrap_or(*end + STAND);
                    takers(tasks, solved, at).any(|taken| taken > limit)
                };
                let into_cold = tasks.into_cold(at).is_some() && is_put_away(at);
                let last_taken = last_taken.filter(|_| !into_cold);
                (at, Row { task: at, unit, people, last_taken, into_cold, which, ..row })
            }));
        }
        let mut bundles: HashMap<(usize, StepRef), i64> = HashMap::new();
        for (_, row) in &rows {
            let most = bundles.entry((row.batch, row.at)).or_default();
            *most = row.bundle.unwrap_or(0).max(*most);
        }
        for (_, row) in &mut rows {
            row.bundles = bundles.get(&(row.batch, row.at)).copied().unwrap_or(0);
        }
        rows.sort_by_key(|(at, row)| (row.start, row.end, *at));
        rows.into_iter().map(|(_, row)| row).collect()
    }

    /// What is made, and when it is ready.
    pub(super) fn made(&self, which: &Which, dues: &[Option<Minute>]) -> Vec<Made> {
        let made = self.work.orders.iter().enumerate().map(|(at, order)| {
            let finals = self.tasks.finals.get(at).map_or(&[][..], Vec::as_slice);
            let ready = finals.iter().filter_map(|task| self.ends.get(*task)).max().copied().unwrap_or(self.first);
            Made {
                recipe: order.recipe.name.to_string(),
                which: which.order(at),
                wanted: order.wanted(),
                ready: ready - self.first,
                due: dues.get(at).copied().flatten().map(|due| due - self.first),
            }
        });
        made.collect()
    }

    /// Who rests when, beside their work.
    pub(super) fn rests(&self, hours: &Hours, span: Minute, work: (&[Row], &[Light])) -> Vec<Rest> {
        let first = self.first;
        let rests = self.solved.rests.iter();
        let rests = rests.map(|(person, start, end)| Rest { person: *person, start: start - first, end: end - first });
        let shift_of = |rest: &Rest| {
            let person = usize::try_from(rest.person).ok().and_then(|who| hours.people.get(who.checked_sub(1)?))?;
            let shifts = person.shifts.iter().map(|shift| shift.window);
            let shifts = shifts.map(|one| Window { opens: one.opens - first, closes: one.closes - first });
            let mut shifts = shifts;
            shifts.find(|shift| shift.opens <= rest.start && rest.start < shift.closes)
        };
        // What lies before the plan is no part of it.
        let rests = rests.filter(|rest| rest.start >= 0 && rest.start < span);
        rests.filter(|rest| is_between_work(rest, shift_of(rest), work)).collect()
    }
}

/// Whose work in a shift is over within so many minutes of its beginning has room to rest before it or after it, and needs no row
/// that says when. Common practice, no source.
const SOON_OVER: Minute = 60;

/// Whether what somebody does in the shift in which they rest takes longer than that, from its first minute to its last, and some of it
/// comes before the rest and some after: who has not begun yet, or is done, rests anyway. To light something is work too, and so is what
/// is tended: it goes in and comes out by the hands of somebody who is there.
fn is_between_work(rest: &Rest, shift: Option<Window>, (rows, lights): (&[Row], &[Light])) -> bool {
    let mine = |row: &&Row| row.people.contains(&rest.person) || row.kind == StepKind::Tend;
    let work = rows.iter().filter(mine).map(|row| (row.start, row.end)).filter(|(start, end)| start < end);
    let lit = lights.iter().filter(|light| light.people.contains(&rest.person)).map(|light| (light.start, light.start));
    let here =
        |(start, end): &(Minute, Minute)| shift.is_none_or(|shift| shift.opens <= *start && *end <= shift.closes);
    let times: Vec<(Minute, Minute)> = work.chain(lit).filter(here).collect();
    let (first, last) = (times.iter().map(|time| time.0).min(), times.iter().map(|time| time.1).max());
    first.zip(last).is_some_and(|(first, last)| last - first > SOON_OVER && first < rest.start && rest.end <= last)
}

/// The ends of the tasks, a rest that may go on lasting until the first thing that takes it up; what is handed over straight out of one, until
/// it is wanted.
pub(super) fn stretched(tasks: &Tasks, solved: &Plan, dues: &[Option<Minute>]) -> Vec<Minute> {
    let mut ends: Vec<Minute> = solved.ends.iter().take(tasks.list.len()).copied().collect();
    for (at, task) in tasks.list.iter().enumerate() {
        let (Some(most), Some(start)) = (task.most_minutes, solved.starts.get(at)) else { continue };
        if let (Some(next), Some(end)) = (takers(tasks, solved, at).min(), ends.get_mut(at)) {
            let put_away = tasks.into_cold(at).and_then(|moment| solved.starts.get(moment)).copied();
            let last = start + most;
            *end = (*end).max(if next > last { put_away.map_or(last, |at| at.min(last)) } else { next });
        }
    }
    for (order, due) in dues.iter().enumerate() {
        for at in tasks.finals.get(order).into_iter().flatten() {
            if let (Some(due), Some(end)) = (due, ends.get_mut(*at)) {
                *end = tasks.handed_over(*at, (&solved.starts, *end), *due);
                *end = solved.taken_out.get(*at).map_or(*end, |out| (*end).max(*out));
            }
        }
    }
    ends
}

/// When what a task made is taken up, by all that takes it. Shares of one piece of work that follow each other take it up when the first of
/// them does.
fn takers<'a>(tasks: &'a Tasks, solved: &'a Plan, at: usize) -> impl Iterator<Item = Minute> + 'a {
    let begins = move |used: usize| {
        let share = tasks.list.get(used).filter(|task| task.bundle.is_some());
        let Some(share) = share else { return solved.starts.get(used).copied() };
        let of = |task: &Task| {
            (task.batch, task.step, task.turn, task.bundle) == (share.batch, share.step, share.turn, share.bundle)
        };
        let all = tasks.list.iter().zip(&solved.starts).filter(|(task, _)| of(task));
        all.map(|(_, start)| *start).min()
    };
    // Of a rest in several units the loads that take of it, where that is known.
    let is_parted = tasks.taken_of.iter().any(|(rest, _)| *rest == at);
    let of_units =
        tasks.taken_of.iter().filter(move |(rest, _)| *rest == at).filter_map(move |(_, used)| begins(*used));
    let all = tasks.standing.iter().filter(move |_| !is_parted).filter_map(move |standing| match standing.stand {
        Stand::Between { made, used } if made == at => begins(used),
        _ => None,
    });
    of_units.chain(all)
}

/// When the last of a rest that may go on is taken up: what keeps is taken as long as it does.
fn last_taken(work: &Work, tasks: &Tasks, solved: &Plan, at: usize) -> Option<Minute> {
    let task = tasks.list.get(at)?;
    let (most, last) = (task.most_minutes?, takers(tasks, solved, at).max()?);
    let part = work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
    let keeps = part.is_some_and(|part| part.keeps.is_some());
    Some(if keeps { last } else { last.min(solved.starts.get(at)? + most) })
}

fn row(
    (work, kitchen): (&Work, &Kitchen),
    task: &Task,
    (start, end): (Minute, Minute),
    shown_in: Units,
) -> Option<Row> {
    let batch = work.batches.get(task.batch)?;
    let part = batch.recipe.part(task.step.part)?;
    let step = part.steps.get(task.step.step)?;
    let (origin, _) = batch.recipe.origin(task.step.part)?;
    let recipe = origin.name.to_string();
    let units = task.equipment.as_ref().and_then(|name| kitchen.find(name)).map_or(1, |equipment| equipment.count);
    let is_slab = || slab::whole_at(&batch.recipe, task.step.part, task.step.step).is_some();
    let in_pieces = || loads::in_pieces(&batch.recipe, task.step.part) && !is_slab();
    let by_pieces = loads::is_by_pieces(step, kitchen) && in_pieces();
    let counted = by_pieces || step.loads != Loads::Once;
    let holds = task.equipment.as_ref().and_then(|name| kitchen.find(name)).and_then(|equipment| equipment.holds);
    let at_once = match (step.loads, holds) {
        (Loads::Of(size), _) => Some(size),
        (Loads::Once, Some(Capacity::Pieces(most))) => Some(most.value()),
        _ => None,
    };
    let pieces = task.pieces.filter(|_| counted);
    Some(Row {
        task: 0,
        batch: task.batch,
        at: task.step,
        recipe,
        part: part.name.to_string(),
        which: String::new(),
        step: step.name.to_string(),
        load: task.load,
        loads: task.loads,
        turn: task.turn,
        bundle: task.bundle,
        bundles: 0,
        kind: task.kind,
        start,
        end,
        soonest_end: start + task.least_minutes,
        last_taken: None,
        into_cold: false,
        stands_hot: None,
        equipment: task.equipment.as_ref().map(ToString::to_string),
        unit: None,
        units,
        cooks: task.people,
        people: Vec::new(),
        temperature: heat::heat(step, shown_in),
        pieces,
        at_a_time: at_once.filter(|size| pieces.is_some_and(|pieces| pieces > *size)),
        share: task.share,
        cue: mere_prose_on(&step.cue, shown_in, heat::dial(step)).plain().replace('\n', " ").trim().to_owned(),
    })
}
