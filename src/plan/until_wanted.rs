//! What is handed over straight out of equipment stays in it until it is wanted, or until something else needs the room.

use super::occupancy::told_apart;
use super::problem::{Kind, Minute, Problem};

/// When, and in which unit, each task is in its equipment.
struct InUse<'a> {
    problem: &'a Problem,
    starts: &'a [Minute],
    ends: &'a [Minute],
    chosen: &'a [usize],
}

/// When each task is taken out of its equipment: a rest that finishes an order no sooner than that is wanted, as far as it may go on and nothing
/// else is in the way of it. `chosen` are the units that were chosen for equipment whose units are told apart.
pub fn until_wanted(problem: &Problem, (starts, ends): (&[Minute], &[Minute]), chosen: &[usize]) -> Vec<Minute> {
    let mut ends = ends.to_vec();
    for due in &problem.dues {
        let goes_on = |task: &&usize| {
            let of = problem.tasks.get(**task);
            of.is_some_and(|task| task.kind == Kind::Wait && task.holds.is_some() && task.longest > task.shortest)
        };
        for task in due.tasks.iter().filter(goes_on) {
            let most = problem.tasks.get(*task).map_or(0, |task| task.longest);
            let wanted = starts.get(*task).map(|start| due.minute.min(start + most));
            let until = InUse { problem, starts, ends: &ends, chosen }.room_until(*task, wanted);
            if let (Some(until), Some(end)) = (until, ends.get_mut(*task)) {
                *end = (*end).max(until);
            }
        }
    }
    ends
}

impl InUse<'_> {
    /// Until when, and no later than it is wanted, there is room for a task in its unit.
    fn room_until(&self, task: usize, wanted: Option<Minute>) -> Option<Minute> {
        let (end, wanted) = (*self.ends.get(task)?, wanted?);
        let mine = self.problem.tasks.get(task)?.holds?;
        let equipment = self.problem.equipment.get(mine.equipment)?;
        let is_apart = told_apart(equipment);
        let others = self.problem.tasks.iter().enumerate().filter_map(|(other, of)| {
            let holds = of.holds.filter(|holds| holds.equipment == mine.equipment && other != task)?;
            let is_here = !is_apart || self.chosen.get(other) == self.chosen.get(task);
            let (start, end) = (*self.starts.get(other)?, *self.ends.get(other)?);
            (is_here && start < end).then_some((start, end, holds))
        });
        let near = wanted + equipment.heating;
        let others: Vec<_> = others.filter(|(start, until, _)| *start < near && end < *until).collect();
        // There is least room at the end, or when something comes in after it.
        let mut moments: Vec<Minute> = others.iter().map(|(start, ..)| (*start).max(end)).collect();
        moments.sort_unstable();
        let is_full = |moment: &Minute| {
            let inside = || others.iter().filter(|(start, until, _)| start <= moment && moment < until);
            match (is_apart, equipment.shared) {
                (false, _) => inside().count() >= usize::try_from(equipment.count).unwrap_or(usize::MAX),
                (true, None) => inside().next().is_some(),
                (true, Some(takes)) => {
                    let filled: i64 = inside().map(|(.., holds)| holds.size).sum();
                    filled + mine.size > takes || inside().any(|(.., holds)| !equipment.alike(mine, *holds))
                }
            }
        };
        let full = moments.into_iter().find(is_full).unwrap_or(wanted);
        // What is to be heated for the next is empty by then.
        let unlike = others.iter().filter(|(.., holds)| !equipment.agree(mine.leaves, holds.setting));
        let heated = unlike.map(|(start, ..)| start - equipment.heating).min().unwrap_or(wanted);
        Some(full.min(heated).min(wanted))
    }
}
