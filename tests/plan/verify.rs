//! An independent check of plans: every rule of a problem looked at from scratch. Shares no code with the planner but
//! the plain data of `Problem` and `Plan`.

#![allow(dead_code, reason = "each test binary uses a part of it")]

use miche::plan::problem::{Edge, Kind, Minute, Point, Problem, Rule, Shift, Stand};
use miche::plan::solve::Plan;

/// Everything that is wrong with a plan; empty when it keeps every rule.
pub fn broken(problem: &Problem, plan: &Plan) -> Vec<String> {
    let mut wrong = Vec::new();
    let count = problem.tasks.len();
    if [plan.starts.len(), plan.ends.len(), plan.units.len(), plan.cooks.len()] != [count; 4] {
        return vec!["a plan must have every task once".to_owned()];
    }
    tasks(problem, plan, &mut wrong);
    lags(problem, plan, &mut wrong);
    cooks(problem, plan, &mut wrong);
    people(problem, plan, &mut wrong);
    equipment(problem, plan, &mut wrong);
    moments(problem, plan, &mut wrong);
    if measure(problem, plan) != [plan.score.span, plan.score.standing, plan.score.spells] {
        wrong.push(format!("measured {:?}, but the plan says {:?}", measure(problem, plan), plan.score));
    }
    // What is half done or hot beyond an hour, and what grows stale beyond four.
    let long = problem.long.iter().map(|stand| (stood(problem, plan, *stand) - 60).max(0));
    let stale = problem.stale.iter().map(|stand| (stood(problem, plan, *stand) - 240).max(0));
    let weighed = 2 * plan.score.span + long.chain(stale).sum::<Minute>() + in_two_places(problem, plan);
    if weighed != plan.score.weighed {
        wrong.push(format!("weighed {weighed}, but the plan says {:?}", plan.score));
    }
    if plan.least > plan.score {
        wrong.push(format!("the bound {:?} is above the score {:?}", plan.least, plan.score));
    }
    wrong
}

fn at(plan: &Plan, point: Point) -> Minute {
    match point.edge {
        Edge::Start => plan.starts[point.task],
        Edge::End => plan.ends[point.task],
    }
}

fn tasks(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (task, what) in problem.tasks.iter().enumerate() {
        let (start, end) = (plan.starts[task], plan.ends[task]);
        if end - start < what.shortest || end - start > what.longest {
            wrong.push(format!("task {task} takes {} instead of {}..{}", end - start, what.shortest, what.longest));
        }
        if problem.earliest.is_some_and(|earliest| start < earliest) {
            wrong.push(format!("task {task} starts at {start}, too early"));
        }
        if problem.dues.is_empty() && start < problem.earliest.unwrap_or(0) {
            wrong.push(format!("task {task} starts at {start}, before zero"));
        }
        let inside = problem.open.iter().any(|open| open.opens <= start && end <= open.closes);
        if what.kind != Kind::Wait && !problem.open.is_empty() && !inside {
            wrong.push(format!("task {task} needs somebody from {start} to {end}, outside opening hours"));
        }
        if plan.units[task].is_some() != what.holds.is_some() {
            wrong.push(format!("task {task} has unit {:?}", plan.units[task]));
        }
    }
}

fn lags(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (number, lag) in problem.lags.iter().enumerate() {
        let between = at(plan, lag.to) - at(plan, lag.from);
        if between < lag.least || lag.most.is_some_and(|most| between > most) {
            wrong.push(format!("lag {number} is {between}, not {}..{:?}", lag.least, lag.most));
        }
    }
    for due in &problem.dues {
        for task in &due.tasks {
            if plan.ends[*task] > due.minute {
                wrong.push(format!("task {task} ends at {}, due at {}", plan.ends[*task], due.minute));
            }
        }
    }
    for (one, a) in problem.tasks.iter().enumerate() {
        for (other, b) in problem.tasks.iter().enumerate() {
            let same = (a.label.recipe, a.label.part, a.label.step) == (b.label.recipe, b.label.part, b.label.step);
            if same && (a.label.load, one) < (b.label.load, other) && plan.starts[one] > plan.starts[other] {
                wrong.push(format!("load {one} starts after load {other} of the same step"));
            }
        }
    }
}

/// Whether a task is under way at a moment.
fn runs(plan: &Plan, task: usize, moment: Minute) -> bool {
    plan.starts[task] <= moment && moment < plan.ends[task]
}

fn cooks(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (task, what) in problem.tasks.iter().enumerate() {
        let who = &plan.cooks[task];
        let distinct: std::collections::BTreeSet<_> = who.iter().collect();
        if who.len() != what.cooks as usize || distinct.len() != who.len() {
            wrong.push(format!("task {task} needs {} cooks and has {who:?}", what.cooks));
        }
        if who.iter().any(|cook| *cook == 0 || *cook > problem.cooks) {
            wrong.push(format!("task {task} has a cook that is not there: {who:?}"));
        }
        for other in 0..problem.tasks.len() {
            let both = runs(plan, other, plan.starts[task]) && runs(plan, task, plan.starts[task]);
            if other != task && both && who.iter().any(|cook| plan.cooks[other].contains(cook)) {
                wrong.push(format!("a cook is at tasks {task} and {other} at once"));
            }
        }
        let busy: u32 = (0..problem.tasks.len())
            .filter(|other| runs(plan, *other, plan.starts[task]))
            .map(|other| problem.tasks[other].cooks)
            .sum();
        if busy > problem.cooks {
            wrong.push(format!("{busy} cooks at work when task {task} starts"));
        }
    }
}

/// People are there when they work, rest once in a long shift, and have a day of no more than they may work.
fn people(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (number, person) in (1_u32..).zip(&problem.people) {
        let mine = (0..problem.tasks.len()).filter(|task| plan.cooks[*task].contains(&number));
        let mut work: Vec<(Minute, Minute)> = mine.map(|task| (plan.starts[task], plan.ends[task])).collect();
        work.sort_unstable();
        for shift in &person.shifts {
            let (from, until) = (shift.window.opens, shift.window.closes);
            let here: Vec<_> = work.iter().filter(|work| from <= work.0 && work.1 <= until).collect();
            let (Some(first), Some(last)) = (here.first(), here.iter().map(|work| work.1).max()) else { continue };
            if last - first.0 > person.longest {
                wrong.push(format!("{number} works from {} to {last}, longer than {}", first.0, person.longest));
            }
            let rests: Vec<_> =
                plan.rests.iter().filter(|rest| rest.0 == number && from <= rest.1 && rest.2 <= until).collect();
            if shift.rest == 0 {
                continue;
            }
            let [rest] = rests[..] else {
                wrong.push(format!("{number} has {} rests in the shift from {from}", rests.len()));
                continue;
            };
            if rest.2 - rest.1 != shift.rest || here.iter().any(|work| work.0 < rest.2 && rest.1 < work.1) {
                wrong.push(format!("{number} works while resting at {}", rest.1));
            }
            let usual = until - from <= 12 * 60 + shift.rest;
            if usual && (rest.1 - from > 6 * 60 || until - rest.2 > 6 * 60) {
                wrong.push(format!("{number} rests at {} in a shift from {from} to {until}", rest.1));
            }
        }
        let inside = |work: &(Minute, Minute)| {
            person.shifts.iter().any(|shift| shift.window.opens <= work.0 && work.1 <= shift.window.closes)
        };
        if let Some(out) = work.iter().find(|work| !person.shifts.is_empty() && !inside(work)) {
            wrong.push(format!("{number} works from {} to {}, outside their shifts", out.0, out.1));
        }
        if person.shifts.is_empty() {
            let mut day: Option<(Minute, Minute)> = None;
            for (from, until) in work.into_iter().filter(|work| work.0 < work.1) {
                let is_closed_between =
                    |last: Minute| problem.open.windows(2).any(|pair| last <= pair[0].closes && pair[1].opens <= from);
                day = match day {
                    Some((first, last)) if from - last < person.away && !is_closed_between(last) => {
                        Some((first, last.max(until)))
                    }
                    _ => Some((from, until)),
                };
                if day.is_some_and(|day| day.1 - day.0 > person.longest) {
                    wrong.push(format!("{number} has a day of work of {day:?}"));
                }
            }
        }
    }
}

/// What is in a unit is in it until it is taken out: as long as its task runs, and what finishes an order, straight out of a rest that may go
/// on, no longer than until it is wanted.
fn equipment(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (number, task) in problem.tasks.iter().enumerate() {
        let dues = problem.dues.iter().filter(|due| due.tasks.contains(&number)).map(|due| due.minute);
        let most = dues.max().map_or(plan.ends[number], |due| due.min(plan.starts[number] + task.longest));
        if !(plan.ends[number]..=most.max(plan.ends[number])).contains(&plan.taken_out[number]) {
            wrong.push(format!("task {number} is taken out at {}", plan.taken_out[number]));
        }
    }
    for (kind, equipment) in problem.equipment.iter().enumerate() {
        let holding: Vec<usize> = (0..problem.tasks.len())
            .filter(|task| problem.tasks[*task].holds.is_some_and(|holds| holds.equipment == kind))
            .collect();
        for one in &holding {
            let unit = plan.units[*one];
            if unit.is_none_or(|unit| unit == 0 || unit > equipment.count) {
                wrong.push(format!("task {one} is in unit {unit:?} of {}", equipment.count));
            }
            let Some(mine) = problem.tasks[*one].holds else { continue };
            let mut load = 0;
            for other in holding.iter().filter(|other| plan.units[**other] == unit) {
                let Some(theirs) = problem.tasks[*other].holds else { continue };
                let moment = plan.starts[*one];
                let together = plan.starts[*other] <= moment && moment < plan.taken_out[*other];
                if together && plan.taken_out[*one] > plan.starts[*one] {
                    load += theirs.size;
                    if one != other && equipment.shared.is_none() {
                        wrong.push(format!("tasks {one} and {other} in one unit at once"));
                    }
                }
                let alike = |a: Option<i32>, b: Option<i32>| match (a, b) {
                    (Some(a), Some(b)) => (a - b).abs() <= equipment.tolerance,
                    _ => true,
                };
                let real = |task: usize| plan.taken_out[task] > plan.starts[task];
                if one == other || !real(*one) || !real(*other) {
                    continue;
                }
                // Loads in one oven at once want the same heat, and so none that falls; after another, what that leaves.
                if together
                    && !(alike(mine.setting, theirs.setting)
                        && alike(mine.setting, mine.leaves)
                        && alike(theirs.setting, theirs.leaves))
                {
                    wrong.push(format!("tasks {one} and {other} are in one unit at different settings"));
                }
                let apart = plan.starts[*other] - plan.taken_out[*one];
                if together && mine.dish != theirs.dish {
                    wrong.push(format!("tasks {one} and {other} of two dishes are in one unit at once"));
                }
                if apart >= 0 && !alike(mine.leaves, theirs.setting) && apart < equipment.heating {
                    wrong.push(format!("task {other} comes {apart} min after {one} at another setting"));
                }
            }
            if equipment.shared.is_some_and(|takes| load > takes) {
                wrong.push(format!("unit {unit:?} holds {load} when task {one} starts"));
            }
        }
    }
}

/// What is done at a moment of something else is late only where it could not be done sooner: nobody was free, or the rules forbid it.
fn moments(problem: &Problem, plan: &Plan, wrong: &mut Vec<String>) {
    for (inner, late) in late(problem, plan) {
        let lasts = plan.ends[inner] - plan.starts[inner];
        let sooner = (plan.starts[inner] - late..plan.starts[inner]).find(|start| {
            let mut moved = plan.clone();
            (moved.starts[inner], moved.ends[inner]) = (*start, start + lasts);
            keeps_lags(problem, &moved, inner) && free_hands(problem, plan, inner, (*start, start + lasts))
        });
        if let Some(sooner) = sooner {
            wrong.push(format!("task {inner} is {late} min past its moment, and could start at {sooner}"));
        }
    }
}

/// By how many minutes each thing that is done at a moment of another is late.
fn late(problem: &Problem, plan: &Plan) -> Vec<(usize, Minute)> {
    let into = problem.lags.iter().filter(|lag| lag.rule == Rule::Into && lag.to.edge == Edge::Start);
    let late = into.map(|lag| (lag.to.task, at(plan, lag.to) - at(plan, lag.from) - lag.least));
    late.filter(|(_, late)| *late > 0).collect()
}

/// Whether the lags of a task and the order of its loads are kept.
fn keeps_lags(problem: &Problem, plan: &Plan, task: usize) -> bool {
    let lags = problem.lags.iter().filter(|lag| lag.from.task == task || lag.to.task == task).all(|lag| {
        let between = at(plan, lag.to) - at(plan, lag.from);
        between >= lag.least && lag.most.is_none_or(|most| between <= most)
    });
    let label = |at: usize| problem.tasks[at].label;
    let in_order = (0..problem.tasks.len())
        .filter(|other| label(*other).same_step(label(task)))
        .all(|other| (label(other).load < label(task).load) <= (plan.starts[other] <= plan.starts[task]));
    lags && in_order
}

/// What it weighs that somebody would have to be in two places: at each minute at which something that is tended goes in or comes out, and
/// everybody who is there is in the middle of work that is not left. Each person is looked at by themselves.
fn in_two_places(problem: &Problem, plan: &Plan) -> i64 {
    let tended = (0..problem.tasks.len()).filter(|task| {
        let task = &problem.tasks[*task];
        task.kind == Kind::Tend && task.longest > 0
    });
    let minutes: std::collections::BTreeSet<Minute> =
        tended.flat_map(|task| [plan.starts[task], plan.ends[task]]).collect();
    let mut weighs = 0;
    for minute in minutes {
        let there = |who: &u32| {
            let shifts = problem.people.get(*who as usize - 1).map_or(&[][..], |person| &person.shifts[..]);
            let here = |shift: &&Shift| (shift.window.opens..=shift.window.closes).contains(&minute);
            shifts.is_empty() || shifts.iter().find(here).is_some()
        };
        let amid = |who: u32| {
            let mut theirs = problem.unbroken.iter().filter(|one| plan.cooks[one.task].contains(&who));
            theirs.find(|one| plan.starts[one.task] < minute && minute < plan.ends[one.task]).map(|one| one.weight)
        };
        let amid: Vec<Option<i64>> = (1..=problem.cooks).filter(there).map(amid).collect();
        let least = amid.iter().copied().collect::<Option<Vec<i64>>>();
        weighs += least.and_then(|weights| weights.into_iter().min()).unwrap_or(0);
    }
    weighs
}

/// Whether as many people as a task needs are there, at nothing else and not resting, all through a time.
fn free_hands(problem: &Problem, plan: &Plan, task: usize, (from, until): (Minute, Minute)) -> bool {
    let open = problem.open.is_empty() || problem.open.iter().any(|open| open.opens <= from && until <= open.closes);
    let busy = |who: u32| {
        let at_work = (0..problem.tasks.len())
            .filter(|other| *other != task && plan.cooks[*other].contains(&who))
            .any(|other| plan.starts[other] < until && from < plan.ends[other]);
        at_work || plan.rests.iter().any(|rest| rest.0 == who && rest.1 < until && from < rest.2)
    };
    let there = |who: u32| {
        let person = problem.people.get(who as usize - 1);
        person.is_none_or(|person| {
            let day = |from: Minute, until: Minute| until - from <= person.longest;
            let mine = (0..problem.tasks.len()).filter(|other| plan.cooks[*other].contains(&who));
            let mut work: Vec<(Minute, Minute)> = mine.map(|at| (plan.starts[at], plan.ends[at])).collect();
            work.push((from, until));
            match person.shifts.iter().find(|shift| shift.window.opens <= from && until <= shift.window.closes) {
                Some(shift) => {
                    let (opens, closes) = (shift.window.opens, shift.window.closes);
                    let here = || work.iter().filter(|work| opens <= work.0 && work.1 <= closes);
                    day(here().map(|work| work.0).min().unwrap(), here().map(|work| work.1).max().unwrap())
                }
                None if person.shifts.is_empty() => work.iter().all(|one| {
                    let near = |other: &&(Minute, Minute)| (other.0 - one.0).abs() < 1440;
                    let near = || work.iter().filter(near);
                    day(near().map(|work| work.0).min().unwrap(), near().map(|work| work.1).max().unwrap())
                }),
                None => false,
            }
        })
    };
    let free = (1..=problem.cooks).filter(|who| there(*who) && !busy(*who)).count();
    open && free >= problem.tasks[task].cooks as usize
}

/// For how many minutes something stands.
fn stood(problem: &Problem, plan: &Plan, stand: Stand) -> Minute {
    match stand {
        Stand::Between { made, used } => plan.starts[used] - plan.ends[made],
        Stand::DrawnOut { rest } => plan.ends[rest] - plan.starts[rest] - problem.tasks[rest].shortest,
        Stand::Ready { made, due } => problem.dues[due].minute - plan.ends[made],
    }
}

/// A load of a unit: when it begins, its task, when it ends, how hot it begins and how hot it ends.
type Load = (Minute, usize, Minute, Option<i32>, Option<i32>);

/// The minutes for which units are heated again.
fn heated_again(problem: &Problem, plan: &Plan) -> Minute {
    let mut again = 0;
    for (kind, equipment) in problem.equipment.iter().enumerate().filter(|_| problem.again) {
        for unit in 1..=equipment.count {
            let mut loads: Vec<Load> = Vec::new();
            for (task, what) in problem.tasks.iter().enumerate() {
                let Some(holds) = what.holds.filter(|holds| holds.equipment == kind && holds.setting.is_some()) else {
                    continue;
                };
                if plan.units[task] == Some(unit) && plan.ends[task] > plan.starts[task] {
                    loads.push((plan.starts[task], task, plan.ends[task], holds.setting, holds.leaves));
                }
            }
            loads.sort_unstable();
            for pair in loads.windows(2) {
                let ((_, _, end, _, leaves), (start, _, _, setting, _)) = (pair[0], pair[1]);
                let unlike = leaves.zip(setting).is_some_and(|(one, two)| (one - two).abs() > equipment.tolerance);
                let closed = problem
                    .open
                    .windows(2)
                    .any(|pair| pair[0].closes < pair[1].opens && end < pair[1].opens && start > pair[0].closes);
                again += if unlike && !closed { equipment.heating } else { 0 };
            }
        }
    }
    again
}

/// The three measures, worked out minute by minute and pair by pair.
pub fn measure(problem: &Problem, plan: &Plan) -> [i64; 3] {
    let count = problem.tasks.len();
    let first = plan.starts.iter().min().copied().unwrap_or(0);
    let last = plan.ends.iter().max().copied().unwrap_or(0);
    let span = match problem.dues.iter().map(|due| due.minute).max() {
        _ if count == 0 => 0,
        Some(due) => due - first,
        None => last - problem.earliest.unwrap_or(0),
    };
    let standing = problem.standing.iter();
    let standing = standing.map(|one| (stood(problem, plan, one.stand) - one.free).max(0) * i64::from(one.weight));
    let standing = standing.sum::<i64>();
    let past_its_moment = late(problem, plan).iter().map(|(_, late)| late).sum::<Minute>();
    let standing = standing + 20 * past_its_moment + 3 * heated_again(problem, plan);
    // Spells by joining whatever overlaps, touches or nearly touches.
    let work: Vec<(i64, i64)> = (0..count)
        .filter_map(|task| match problem.tasks[task].kind {
            Kind::Hands => Some((plan.starts[task], plan.ends[task])),
            Kind::Tend if problem.begun && problem.tasks[task].longest > 0 => {
                Some((plan.starts[task], plan.starts[task]))
            }
            Kind::Tend | Kind::Wait => None,
        })
        .collect();
    let mut spell: Vec<usize> = (0..work.len()).collect();
    for a in 0..work.len() {
        for b in 0..work.len() {
            let (one, other) = (work[a], work[b]);
            let near = one.0 <= other.1 + problem.pause && other.0 <= one.1 + problem.pause;
            if near && spell[a] != spell[b] {
                let (from, to) = (spell[a], spell[b]);
                spell.iter_mut().filter(|spell| **spell == from).for_each(|spell| *spell = to);
            }
        }
    }
    let spells: std::collections::BTreeSet<usize> = spell.into_iter().collect();
    [span, standing, spells.len() as i64]
}
