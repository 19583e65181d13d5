//! Tasks and a kitchen to the planner's problem.

use super::anyway;
use super::problem::{
    Due, Equipment, GROWS_STALE, Holding, Kind, Label, Lag, Minute, Person, Point, Problem, Rule, Stand, Standing,
    Task, Window,
};
use super::tasks::{self, Hold, Tasks};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::temperature::Temperature;
use crate::model::kitchen::{Capacity, Kitchen};
use crate::model::lowered::Beginnings;
use crate::model::step::StepKind;

/// The longest pause within a spell of work: time to wash the hands and fetch the next thing. Common practice,
/// no source.
const PAUSE: Minute = 10;

/// Nothing is held longer than a month, whatever it may go on.
const LONGEST_HELD: Minute = 31 * 1440;

/// The same of what is handed over hot: it is eaten so, or not. Common practice, no source.
const GROWS_COLD: u32 = 12;

/// The same of what keeps: biscuits are as good tomorrow. Common practice, no source.
const KEEPS: u32 = 1;

/// Words that begin the name of equipment in which what is in it at once touches: fish and apple fritters are not fried in one fat together.
/// Common practice, no source.
const ONE_DISH: &Beginnings = &Beginnings::of(&["fryer", "pot", "kettle", "cauldron", "mixer", "bowl", "blender"]);

/// How long what keeps so long may be ready before it is wanted without growing stale: an eighth of that, when it keeps for two days or
/// more, and six hours at most: biscuits are baked in the night in which an oven is at their heat. Common practice, no source.
fn ready_beside_others(keeps: Minute) -> Minute {
    if keeps < 2 * 1440 { 0 } else { (keeps / 8).min(360) }
}

/// When things are wanted and when there is somebody to make them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Hours {
    /// When the kitchen is open; empty: always.
    pub open: Vec<Window>,
    /// Who works, one after the other; empty: as many as the kitchen says, who are alike.
    pub people: Vec<Person>,
    /// Whether what must be hot is cold before somebody lights it; a card, which is not about a day, does not ask.
    pub cold: bool,
    /// For each order, when it has to be ready.
    pub dues: Vec<Option<Minute>>,
    /// Nothing starts before.
    pub earliest: Option<Minute>,
}

/// The planner's problem; equipment that the kitchen does not have binds nothing. The first tasks are those of `tasks`.
pub fn problem(tasks: &Tasks, kitchen: &Kitchen, hours: &Hours) -> Problem {
    let mut problem = Problem {
        tasks: tasks.list.iter().map(|one| task(one, kitchen)).collect(),
        lags: tasks.lags.clone(),
        equipment: kitchen.equipment.iter().map(equipment).collect(),
        cooks: kitchen.cooks,
        people: hours.people.clone(),
        open: hours.open.clone(),
        earliest: hours.earliest,
        dues: Vec::new(),
        standing: tasks.standing.iter().filter(|standing| standing.weight > 0).copied().collect(),
        long: tasks.long.clone(),
        stale: Vec::new(),
        again: true,
        begun: true,
        pause: PAUSE,
        unbroken: tasks.unbroken.clone(),
        heated: Vec::new(),
        warm: tasks.warm.clone(),
    };
    for hold in &tasks.holds {
        held_on(&mut problem, hold);
    }
    for one in &tasks.into_cold {
        let number = problem.tasks.len();
        let (from, to) = (Point::end(one.rest), Point::start(number));
        problem.tasks.push(moment(1, number));
        problem.lags.push(Lag { from, to, least: 0, most: Some(one.room), rule: Rule::Attended });
    }
    let drawn_out = |task: &Task| task.longest > task.shortest;
    for at in (0..tasks.list.len()).filter(|at| problem.tasks.get(*at).is_some_and(drawn_out)) {
        problem.standing.push(Standing { stand: Stand::DrawnOut { rest: at }, weight: 1, free: 0 });
    }
    let ends = tasks.keeps.iter().zip(&tasks.hot);
    for ((finals, due), (keeps, hot)) in tasks.finals.iter().zip(&hours.dues).zip(ends) {
        let Some(minute) = due.filter(|_| !finals.is_empty()) else { continue };
        let number = problem.dues.len();
        let all = match (keeps, hot) {
            (Some(_), _) => KEEPS,
            (None, true) => GROWS_COLD,
            (None, false) => GROWS_STALE,
        };
        let weight = (all / u32::try_from(finals.len()).unwrap_or(u32::MAX)).max(1);
        let free = keeps.map_or(0, ready_beside_others);
        for made in finals {
            problem.standing.push(Standing { stand: Stand::Ready { made: *made, due: number }, weight, free });
        }
        // What is handed over hot, or does not keep, is not ready for hours, although the day were shorter: its first load neither.
        if let Some(first) = first_load(tasks, finals) {
            let ready = Stand::Ready { made: first, due: number };
            match all {
                GROWS_COLD => problem.long.push(ready),
                GROWS_STALE => problem.stale.push(ready),
                _ => {}
            }
        }
        problem.dues.push(Due { tasks: finals.clone(), minute });
    }
    if hours.cold {
        for at in 0..tasks.list.len() {
            light(&mut problem, tasks, at);
        }
    }
    if let Some(night) = shortest_night(&hours.open) {
        for (made, used) in &tasks.same_day {
            let lag = Lag { most: Some(night - 1), rule: Rule::Overnight, ..Lag::after(*made, *used) };
            problem.lags.push(lag);
        }
        for task in &tasks.starts_attended {
            attend(&mut problem, Point::start(*task));
        }
        for task in &tasks.ends_attended {
            attend(&mut problem, Point::end(*task));
        }
    }
    anyway::rest_as_written(&mut problem, &tasks.warm);
    problem
}

/// Of the tasks that finish an order the first load of the step that comes last.
fn first_load(tasks: &Tasks, finals: &[usize]) -> Option<usize> {
    let label = |at: usize| tasks.list.get(at).map(|task| task.label);
    let last = label(*finals.last()?)?;
    finals.iter().copied().find(|at| label(*at).is_some_and(|one| one.same_step(last)))
}

/// Gives the unit of some tasks to a task of its own that lasts as long as it is held; tasks that hold nothing where the
/// kitchen has no such equipment stay as they are.
fn held_on(problem: &mut Problem, hold: &Hold) {
    let number = problem.tasks.len();
    let of = |at: &usize| problem.tasks.get(*at);
    let tasks: Vec<&Task> = hold.tasks.iter().filter_map(of).collect();
    let (one, other) = (tasks.first().and_then(|task| task.holds), tasks.last().and_then(|task| task.holds));
    let (Some(holds), Some(Holding { leaves, .. })) = (one, other) else {
        // Every hold has its number, also one of equipment that the kitchen does not have.
        let label = Label { recipe: 2, part: number, step: 0, load: 0 };
        problem.tasks.push(Task { label, kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None });
        return;
    };
    let sizes = tasks.iter().filter_map(|task| task.holds).map(|holds| holds.size);
    let minutes = tasks.iter().map(|task| task.shortest);
    let (size, shortest) = match hold.side_by_side {
        true => (sizes.sum(), minutes.max().unwrap_or(0)),
        false => (sizes.max().unwrap_or(holds.size), minutes.sum()),
    };
    let label = Label { recipe: 2, part: number, step: 0, load: 0 };
    let holds = Some(Holding { leaves, size, ..holds });
    let task = Task { label, kind: Kind::Wait, shortest, longest: LONGEST_HELD.max(shortest), cooks: 0, holds };
    let lag = |from, to, most| Lag { from, to, least: 0, most, rule: Rule::Held };
    if let Some(first) = hold.tasks.first() {
        problem.lags.push(lag(Point::start(*first), Point::start(number), Some(0)));
    }
    for beside in hold.tasks.iter().skip(1).filter(|_| hold.side_by_side) {
        problem.lags.push(lag(Point::start(*beside), Point::start(number), Some(0)));
    }
    for until in &hold.until {
        problem.lags.push(lag(*until, Point::end(number), (hold.until.len() == 1).then_some(0)));
    }
    for at in &hold.tasks {
        if let Some(task) = problem.tasks.get_mut(*at) {
            task.holds = None;
            task.longest = task.shortest;
        }
    }
    problem.tasks.push(task);
}

/// What must be hot is lit before its first load, while somebody is there; a step that heats is that by itself.
fn light(problem: &mut Problem, tasks: &Tasks, at: usize) {
    let Some(task) = tasks.list.get(at).filter(|task| !task.heats) else { return };
    let holder = tasks.holder(at).unwrap_or(at);
    // What goes on in the unit in which it is was lit for before.
    let goes_on = tasks.holds.iter().any(|hold| hold.tasks.iter().skip(1).any(|later| *later == at));
    let holds = problem.tasks.get(holder).and_then(|task| task.holds).filter(|_| !goes_on);
    let Some(heating) = holds.and_then(|holds| problem.equipment.get(holds.equipment)).map(|one| one.heating) else {
        return;
    };
    if heating == 0 || task.minutes == 0 {
        return;
    }
    problem.heated.push((at, heating));
    if !task.leads {
        return;
    }
    let number = problem.tasks.len();
    problem.tasks.push(moment(3, number));
    let (from, to) = (Point::start(number), Point::start(at));
    problem.lags.push(Lag { from, to, least: heating, most: Some(heating), rule: Rule::Lit });
}

/// The shortest time between closing and opening.
fn shortest_night(open: &[Window]) -> Option<Minute> {
    let nights = open.windows(2).filter_map(|pair| match pair {
        [before, after] => Some(after.opens - before.closes),
        _ => None,
    });
    nights.min()
}

/// A moment of somebody's who is there.
fn moment(recipe: usize, number: usize) -> Task {
    let label = Label { recipe, part: number, step: 0, load: 0 };
    Task { label, kind: Kind::Tend, shortest: 0, longest: 0, cooks: 0, holds: None }
}

/// Puts a moment of attention at one end of a rest.
fn attend(problem: &mut Problem, at: Point) {
    let number = problem.tasks.len();
    let known = problem.lags.iter().any(|lag| lag.rule == Rule::Attended && lag.from == at && lag.most == Some(0));
    if known {
        return;
    }
    problem.tasks.push(moment(1, number));
    problem.lags.push(Lag { from: at, to: Point::start(number), least: 0, most: Some(0), rule: Rule::Attended });
}

fn task(one: &tasks::Task, kitchen: &Kitchen) -> Task {
    let holds = one.equipment.as_ref().and_then(|name| holding(one, name, kitchen));
    // Only a rest that holds something must be known to last: elsewhere what comes next says how long it was.
    let longest = match (one.kind, holds, one.most_minutes) {
        (StepKind::Wait, Some(_), Some(most)) => most,
        _ => one.minutes,
    };
    Task {
        label: one.label,
        kind: match one.kind {
            StepKind::Hands => Kind::Hands,
            StepKind::Tend => Kind::Tend,
            StepKind::Wait => Kind::Wait,
        },
        shortest: one.minutes,
        longest,
        cooks: one.people,
        holds,
    }
}

fn holding(one: &tasks::Task, name: &Name, kitchen: &Kitchen) -> Option<Holding> {
    let equipment = kitchen.equipment.iter().position(|equipment| equipment.name.same(name))?;
    let there = kitchen.equipment.get(equipment)?;
    // What stands where there is room for all is in nobody's way.
    if one.kind == StepKind::Wait && there.has_room_for_all() {
        return None;
    }
    let takes = shared(there);
    let fills = match there.stands_by_weight() {
        Some(_) => one.weight.filter(|_| one.kind == StepKind::Wait).map(Mass::value),
        None => one.pieces.and_then(|pieces| places(pieces, one.full, takes)),
    };
    let fills = fills.and_then(|fills| fills.ceil().to_whole());
    let size = match (takes, fills) {
        // What is not counted in pieces, or weighed, fills the whole unit.
        (Some(takes), Some(fills)) if (1..=takes).contains(&fills) => fills,
        (Some(takes), _) => takes,
        (None, _) => 1,
    };
    let tenths = |at: Option<Temperature>| at.and_then(|at| tenths(at.celsius()));
    let dish = name.has_word_beginning(ONE_DISH).then_some(one.batch);
    Some(Holding { equipment, setting: tenths(one.temperature), leaves: tenths(one.leaves), size, dish })
}

/// How many places some pieces take of all that there are in a unit: where so many of them fill it, as many as make it full, for
/// a unit that holds 24 rolls may hold 6 loaves or 60 meringues.
fn places(pieces: Number, full: Option<Number>, takes: Option<i64>) -> Option<Number> {
    match (full, takes.map(Number::whole)) {
        (Some(full), Some(takes)) => pieces.times(takes).and_then(|places| places.over(full)).ok(),
        _ => Some(pieces),
    }
}

fn shared(equipment: &crate::model::kitchen::Equipment) -> Option<i64> {
    match equipment.holds? {
        Capacity::Pieces(count) => count.value().to_whole().filter(|count| *count > 0),
        // In grams.
        Capacity::Mass(_) => equipment.stands_by_weight()?.value().to_whole().filter(|grams| *grams > 0),
    }
}

fn equipment(one: &crate::model::kitchen::Equipment) -> Equipment {
    let said = one.agrees.and_then(|agrees| tenths(agrees.celsius())).unwrap_or(0);
    Equipment {
        count: one.count,
        shared: shared(one),
        tolerance: said.max(Equipment::USUAL_TOLERANCE),
        heating: one.heating.and_then(Duration::whole_minutes).unwrap_or(0),
    }
}

/// Tenths of a degree.
fn tenths(degrees: Number) -> Option<i32> {
    let tenths = degrees.times(Number::whole(10)).ok()?.rounded_to(Number::ONE).ok()?;
    i32::try_from(tenths.to_whole()?).ok()
}
