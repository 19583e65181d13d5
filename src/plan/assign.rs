//! Who does what, and on which unit, once it is settled when.

use super::dense::Dense;
use super::diary::Diary;
use super::heats::NOT_LEFT_LIT;
use super::occupancy::told_apart;
use super::problem::{Edge, Holding, Kind, Label, Minute, Person, Point, Problem, Rule, Shift, Window};
use super::share_out::{Work, people, shared_out};

/// The order in which tasks are looked at: by start, then by number.
fn in_order(starts: &[Minute], tasks: impl Iterator<Item = usize>) -> Vec<usize> {
    let mut order: Vec<usize> = tasks.collect();
    order.sort_by_key(|task| (starts.get(*task).copied().unwrap_or(0), *task));
    order
}

/// The unit of each task, counted from 1, `None` where it holds nothing. `chosen` are the units that were chosen for
/// equipment whose units are told apart; all units are numbered as they first come into use.
pub fn units(problem: &Problem, starts: &[Minute], ends: &[Minute], chosen: &[usize]) -> Vec<Option<u32>> {
    let mut units: Vec<Option<u32>> = vec![None; problem.tasks.len()];
    for (kind, equipment) in problem.equipment.iter().enumerate() {
        let holds = |task: &usize| {
            problem.tasks.get(*task).and_then(|task| task.holds).is_some_and(|holds| holds.equipment == kind)
        };
        let order = in_order(starts, (0..problem.tasks.len()).filter(holds));
        // When each unit is free again, and what is in it till then.
        let mut free_from: Vec<(Minute, Option<Label>)> = Vec::new();
        let mut seen: Vec<usize> = Vec::new();
        for task in order {
            let (Some(start), Some(end)) = (starts.get(task), ends.get(task)) else { continue };
            let at = if told_apart(equipment) {
                let choice = chosen.get(task).copied().unwrap_or(0);
                seen.iter().position(|other| *other == choice).unwrap_or_else(|| {
                    seen.push(choice);
                    seen.len() - 1
                })
            } else {
                let (goes_in, comes_out) = whose(problem, task);
                // What goes on in such a unit stays in the one in which it is.
                let is_its_own = |then: Option<Label>| {
                    let loads = then.zip(goes_in);
                    loads.is_some_and(|(one, other)| {
                        (one.recipe, one.part, one.load) == (other.recipe, other.part, other.load)
                    })
                };
                let free = || free_from.iter().enumerate().filter(|(_, (free, _))| *free <= *start);
                let own = free().find(|(_, (free, then))| *free == *start && is_its_own(*then));
                let at = own.or_else(|| free().next()).map(|(at, _)| at);
                match at.and_then(|at| Some((at, free_from.get_mut(at)?))) {
                    Some((at, slot)) => {
                        *slot = (*end, comes_out);
                        at
                    }
                    None if start == end => 0,
                    None => {
                        free_from.push((*end, comes_out));
                        free_from.len() - 1
                    }
                }
            };
            if let Some(unit) = units.get_mut(task) {
                *unit = u32::try_from(at + 1).ok();
            }
        }
    }
    units
}

/// Which load of which step goes into a unit with a task, and which comes out of it: where it is held on for several, the first and the last
/// of them.
fn whose(problem: &Problem, task: usize) -> (Option<Label>, Option<Label>) {
    let label = |task: usize| problem.tasks.get(task).map(|task| task.label);
    let held = || problem.lags.iter().filter(|lag| lag.rule == Rule::Held && lag.to.task == task);
    let first = held().find(|lag| lag.to == Point::start(task)).map_or(task, |lag| lag.from.task);
    let last =
        held().rfind(|lag| lag.to == Point::end(task) && lag.from.edge == Edge::End).map_or(first, |lag| lag.from.task);
    (label(first), label(last))
}

/// The cooks of each task, counted from 1. Whoever worked at a part goes on with it if they are free, else whoever of those who are
/// there has worked least in their shift. `chosen` are the people
/// who were chosen where it matters who does what.
pub fn cooks(problem: &Problem, starts: &[Minute], ends: &[Minute], chosen: &Dense<Vec<usize>>) -> Vec<Vec<u32>> {
    if problem.people.is_empty() {
        return alike(problem, starts, ends);
    }
    let works = works(problem, starts, ends);
    let found = shared_out(&problem.people, &works, true).or_else(|| people(&problem.people, &works));
    let found = found.map(|found| few(&problem.people, &works, found));
    let who = found.unwrap_or_else(|| chosen.iter().cloned().collect());
    let mut cooks: Vec<Vec<u32>> = vec![Vec::new(); problem.tasks.len()];
    for (slot, who) in cooks.iter_mut().zip(who) {
        *slot = who.into_iter().filter_map(|who| u32::try_from(who + 1).ok()).collect();
        slot.sort_unstable();
    }
    cooks
}

/// Nobody comes for work of no more than so many minutes in a shift that those can do who are there anyway. Common practice, no source.
const HARDLY_WORTH_IT: Minute = 30;

/// The same work with nobody who has hardly any in a shift, where the others can do it as well.
fn few(people: &[Person], works: &[Work], mut found: Vec<Vec<usize>>) -> Vec<Vec<usize>> {
    let mut there = people.to_vec();
    for (who, person) in people.iter().enumerate() {
        for (number, shift) in person.shifts.iter().enumerate() {
            let here = |work: &Work| shift.window.opens <= work.start && work.end <= shift.window.closes;
            let mine = works.iter().zip(&found).filter(|(work, by)| by.contains(&who) && here(work));
            let minutes: Minute = mine.map(|(work, _)| work.end - work.start).sum();
            if !(1..=HARDLY_WORTH_IT).contains(&minutes) {
                continue;
            }
            let mut without = there.clone();
            let slot = without.get_mut(who).and_then(|person| person.shifts.get_mut(number));
            if let Some(shift) = slot {
                shift.window.closes = shift.window.opens;
                shift.rest = 0;
            }
            if let Some(other) = shared_out(&without, works, true) {
                (there, found) = (without, other);
            }
        }
    }
    found
}

/// Whether the people there are can do what is to be done at these times.
pub fn can(problem: &Problem, starts: &[Minute], ends: &[Minute]) -> bool {
    problem.people.is_empty() || who(problem, starts, ends).is_some()
}

/// Who of the people there are works at each task, counted from 0, when everything is done at these times; `None` if they cannot, or
/// that was not found.
pub fn who(problem: &Problem, starts: &[Minute], ends: &[Minute]) -> Option<Vec<Vec<usize>>> {
    people(&problem.people, &works(problem, starts, ends))
}

/// When people rest: those who work in a shift with a rest, counted from 1, from when to when. Where there is a choice, nobody rests
/// while something goes into an oven or comes out and nobody else is there, or all others are in the middle of work.
pub fn rests(
    problem: &Problem,
    (starts, ends): (&[Minute], &[Minute]),
    units: &[Option<u32>],
    cooks: &[Vec<u32>],
) -> Vec<(u32, Minute, Minute)> {
    let mut rests: Vec<(u32, Minute, Minute)> = Vec::new();
    let tended =
        (0..problem.tasks.len()).filter(|task| problem.tasks.get(*task).is_some_and(|task| task.kind == Kind::Tend));
    let tended: Vec<Window> = tended
        .filter_map(|task| Some(Window { opens: *starts.get(task)?, closes: *ends.get(task)? }))
        .filter(|window| window.opens < window.closes)
        .collect();
    // To light something is somebody's work too.
    let lit = lit(problem, (starts, ends), units);
    let moments: Vec<Minute> = tended.iter().flat_map(|window| [window.opens, window.closes]).chain(lit).collect();
    let on_the_heat = Window::joined(tended);
    for (number, person) in (1..).zip(&problem.people) {
        let mut diary = Diary::default();
        let mine = cooks.iter().enumerate().filter(|(_, who)| who.contains(&number));
        let times = mine.filter_map(|(task, _)| Some((*starts.get(task)?, *ends.get(task)?)));
        let times: Vec<(Minute, Minute)> = times.collect();
        for (start, end) in &times {
            diary.take(*start, *end);
        }
        for shift in person.shifts.iter().filter(|shift| shift.rest > 0) {
            let here = |(start, end): &(Minute, Minute)| *start >= shift.window.opens && *end <= shift.window.closes;
            if !times.iter().any(here) {
                continue;
            }
            let resting = |who: u32, at: Minute| rests.iter().any(|rest| rest.0 == who && rest.1 < at && at < rest.2);
            let is_there = |person: &Person, at: Minute| {
                let here = |shift: &Shift| shift.window.opens <= at && at <= shift.window.closes;
                person.shifts.is_empty() || person.shifts.iter().any(here)
            };
            let others = |at: Minute| {
                (1..).zip(&problem.people).any(|(who, one)| who != number && is_there(one, at) && !resting(who, at))
            };
            // Who could turn to it is not in the middle of work that is not left.
            let amid = |who: u32, at: Minute| {
                let mut unbroken = problem.unbroken.iter().map(|one| one.task);
                unbroken.any(|task| {
                    cooks.get(task).is_some_and(|by| by.contains(&who))
                        && starts.get(task).is_some_and(|start| *start < at)
                        && ends.get(task).is_some_and(|end| at < *end)
                })
            };
            let others_are_free = |at: Minute| {
                let mut all = (1..).zip(&problem.people);
                all.any(|(who, one)| who != number && is_there(one, at) && !resting(who, at) && !amid(who, at))
            };
            let inside = |start: Minute| moments.iter().filter(move |at| start < **at && **at < start + shift.rest);
            let alone = |start: Minute| inside(start).filter(|at| !others(**at)).count();
            let unseen = |start: Minute| inside(start).filter(|at| !others_are_free(**at)).count();
            // Before the first work of a shift and after its last, a rest is none; that comes after whoever is alone with the ovens.
            let first = times.iter().filter(|time| here(time)).map(|(_, end)| *end).min();
            let last = times.iter().filter(|time| here(time)).map(|(start, _)| *start).max();
            let is_between = |start: Minute| {
                first.is_none_or(|first| first <= start) && last.is_none_or(|last| start + shift.rest <= last)
            };
            // Who has to stay in reach of what is on the heat rests badly.
            let mut alone_so_far = vec![0];
            for at in shift.window.opens..shift.window.closes {
                let is_hot = on_the_heat.iter().any(|window| window.opens <= at && at < window.closes);
                let before = alone_so_far.last().copied().unwrap_or(0);
                alone_so_far.push(before + usize::from(is_hot && !others(at)));
            }
            let so_far = |at: Minute| {
                let minutes = usize::try_from(at - shift.window.opens).ok();
                minutes.and_then(|minutes| alone_so_far.get(minutes)).copied().unwrap_or(0)
            };
            let in_reach = |start: Minute| so_far(start + shift.rest).saturating_sub(so_far(start));
            let against =
                |start: Minute| (2 * alone(start) + usize::from(!is_between(start)), unseen(start), in_reach(start));
            if let Some(start) = diary.rest_where(*shift, against) {
                rests.push((number, start, start + shift.rest));
            }
        }
    }
    rests.sort_by_key(|(who, start, _)| (*start, *who));
    rests
}

/// When something is lit, or lit again.
fn lit(problem: &Problem, (starts, ends): (&[Minute], &[Minute]), units: &[Option<u32>]) -> Vec<Minute> {
    let mut loads: Vec<(usize, Option<u32>, Minute, Minute, Holding)> = Vec::new();
    for (at, task) in problem.tasks.iter().enumerate() {
        let times = starts.get(at).zip(ends.get(at)).filter(|(start, end)| start < end);
        if let (Some(holds), Some((start, end))) = (task.holds, times) {
            loads.push((holds.equipment, units.get(at).copied().flatten(), *start, *end, holds));
        }
    }
    loads.sort_by_key(|(kind, unit, start, ..)| (*kind, *unit, *start));
    let mut lit = Vec::new();
    let mut before: Option<(usize, Option<u32>, Minute, Holding)> = None;
    for (kind, unit, start, end, holds) in loads {
        let Some(equipment) = problem.equipment.get(kind).filter(|equipment| equipment.heating > 0) else { continue };
        let last = before.filter(|(other, of, ..)| (*other, *of) == (kind, unit));
        let is_hot = last.is_some_and(|(_, _, until, left)| {
            equipment.agree(left.leaves, holds.setting) && start - until < equipment.heating + NOT_LEFT_LIT
        });
        if !is_hot {
            lit.push(start - equipment.heating);
        }
        let until = last.map_or(end, |(_, _, until, _)| until.max(end));
        before = Some((kind, unit, until, holds));
    }
    lit
}

fn works(problem: &Problem, starts: &[Minute], ends: &[Minute]) -> Vec<Work> {
    let times = starts.iter().zip(ends);
    let works = problem.tasks.iter().zip(times);
    works.map(|(task, (start, end))| Work { start: *start, end: *end, cooks: task.cooks, label: task.label }).collect()
}

/// The cooks of each task where only their number counts.
fn alike(problem: &Problem, starts: &[Minute], ends: &[Minute]) -> Vec<Vec<u32>> {
    let mut cooks: Vec<Vec<u32>> = vec![Vec::new(); problem.tasks.len()];
    let most: u32 = problem.tasks.iter().map(|task| task.cooks).fold(0, u32::saturating_add).min(problem.cooks);
    let people = usize::try_from(most).unwrap_or(0);
    let mut free_from: Dense<Minute> = Dense::filled(people, Minute::MIN);
    let mut last: Dense<Option<Label>> = Dense::filled(people, None);
    let working = |task: &usize| problem.tasks.get(*task).is_some_and(|task| task.cooks > 0);
    let order = in_order(starts, (0..problem.tasks.len()).filter(working));
    for (place, at) in order.iter().copied().enumerate() {
        let (Some(task), Some(start), Some(end)) = (problem.tasks.get(at), starts.get(at), ends.get(at)) else {
            continue;
        };
        // Whoever worked at what somebody else takes up at the same minute stays with that.
        let others = order.iter().skip(place + 1).take_while(|other| starts.get(**other) == Some(start));
        let others: Vec<Label> = others.filter_map(|other| Some(problem.tasks.get(*other)?.label)).collect();
        let mut free: Vec<usize> = (0..people).filter(|cook| free_from[*cook] <= *start || start == end).collect();
        let same = |label: Label| (label.recipe, label.part) == (task.label.recipe, task.label.part);
        let is_awaited = |of: Label| others.iter().any(|other| (other.recipe, other.part) == (of.recipe, of.part));
        free.sort_by_key(|cook| {
            let is_same = last[*cook].is_some_and(same);
            (!is_same, !is_same && last[*cook].is_some_and(is_awaited), *cook)
        });
        free.truncate(usize::try_from(task.cooks).unwrap_or(0));
        for cook in &free {
            free_from[*cook] = free_from[*cook].max(*end);
            last[*cook] = Some(task.label);
        }
        let mut numbers: Vec<u32> = free.iter().filter_map(|cook| u32::try_from(cook + 1).ok()).collect();
        numbers.sort_unstable();
        if let Some(slot) = cooks.get_mut(at) {
            *slot = numbers;
        }
    }
    cooks
}
