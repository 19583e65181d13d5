//! Steps to tasks: one task a load, with what it holds and what must come before it.

use crate::card::station_of;
use crate::formula::Formula;
use crate::loads;
use crate::number::{Number, Overflow};
use crate::quantity::{Duration, Mass};
use crate::recipe::{Part, PartId, Recipe};
use crate::step::{Loads, Order, Step, StepKind, StepRef, Target, Words};
use crate::syntax::Name;
use crate::temperature::Temperature;
use std::collections::HashMap;

/// Loads of one step beyond this number are put together: nobody plans the three-hundredth bun by itself.
const MOST_LOADS: i64 = 12;

/// One load of one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// Which step.
    pub step: StepRef,
    /// Which load, from 1.
    pub load: i64,
    /// How many loads the step has.
    pub loads: i64,
    /// Who is busy.
    pub kind: StepKind,
    /// How long: the longer end of a range, in whole minutes.
    pub minutes: i64,
    /// How long a rest may be stretched to, in whole minutes.
    pub most_minutes: Option<i64>,
    /// Hands needed at once.
    pub people: u32,
    /// The equipment it holds.
    pub equipment: Option<Name>,
    /// How hot that is.
    pub temperature: Option<Temperature>,
    /// Pieces in the load, where they are known.
    pub pieces: Option<Number>,
    /// Whose card it is on.
    pub station: String,
}

/// What one task demands of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bond {
    /// It starts when the other has ended, or later.
    After,
    /// It starts when the other has ended, and at most so many minutes later.
    AfterWithin(i64),
    /// It runs while the other runs.
    During,
}

/// A demand of one task on an earlier one: indices into [`Tasks::list`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    /// The task that comes first.
    pub first: usize,
    /// The task that follows.
    pub then: usize,
    /// How.
    pub bond: Bond,
}

/// All tasks of a recipe and how they hang together.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tasks {
    /// The tasks, part by part in the order in which they can be made.
    pub list: Vec<Task>,
    /// The links between them; acyclic unless the file orders steps in a ring.
    pub links: Vec<Link>,
}

/// The tasks of everything a recipe makes.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn of(recipe: &Recipe, formula: &Formula) -> Result<Tasks, Overflow> {
    let mut tasks = Tasks::default();
    let mut by_step: HashMap<StepRef, Vec<usize>> = HashMap::new();
    for (id, part) in recipe.parts() {
        let Some(solved) = formula.part(id).filter(|part| part.is_made) else { continue };
        for (at, step) in part.steps.iter().enumerate() {
            let reference = StepRef { part: id, step: at };
            let loads = loads::count(part, solved, formula, step, &recipe.kitchen)?;
            let pieces = loads::pieces_of(part, solved, formula);
            for task in loads_of(recipe, reference, step, loads, pieces)? {
                by_step.entry(reference).or_default().push(tasks.list.len());
                tasks.list.push(task);
            }
        }
    }
    for (id, part) in recipe.parts() {
        if formula.part(id).is_some_and(|part| part.is_made) {
            link_part(recipe, id, part, &by_step, &mut tasks);
        }
    }
    Ok(tasks)
}

/// The loads of a step. Work on single pieces is one stretch: hands go from piece to piece without a break.
fn loads_of(
    recipe: &Recipe,
    reference: StepRef,
    step: &Step,
    loads: i64,
    pieces: Option<Number>,
) -> Result<Vec<Task>, Overflow> {
    let together = matches!(step.loads, Loads::Each) || loads > MOST_LOADS;
    let (count, times) = if together { (1, loads) } else { (loads, 1) };
    let minutes = minutes(step.time.1, times)?;
    let most_minutes = step.up_to.map(minutes_of).transpose()?;
    let per_load = match (step.loads, pieces) {
        (Loads::Of(size), _) if !together => Some(size),
        (_, Some(pieces)) => Some(pieces.over(Number::whole(count))?),
        _ => None,
    };
    Ok((1..=count)
        .map(|load| Task {
            step: reference,
            load,
            loads: count,
            kind: step.kind,
            minutes,
            most_minutes,
            people: if step.kind == StepKind::Wait { 0 } else { step.people },
            equipment: step.equipment.clone(),
            temperature: step.temperature.map(|(at, _)| at),
            pieces: per_load,
            station: station_of(recipe, reference.part, step),
        })
        .collect())
}

fn minutes(time: Duration, times: i64) -> Result<i64, Overflow> {
    minutes_of(time.times(Number::whole(times))?)
}

fn minutes_of(time: Duration) -> Result<i64, Overflow> {
    time.whole_minutes().ok_or(Overflow)
}

/// Links the steps of a part to each other and to the parts they take.
fn link_part(recipe: &Recipe, id: PartId, part: &Part, by_step: &HashMap<StepRef, Vec<usize>>, tasks: &mut Tasks) {
    let tasks_of = |step: StepRef| by_step.get(&step).map_or(&[][..], Vec::as_slice);
    for (at, step) in part.steps.iter().enumerate() {
        let here = StepRef { part: id, step: at };
        let mine = tasks_of(here);
        // Loads of one step follow one another.
        for pair in mine.windows(2) {
            if let [first, then] = pair {
                tasks.links.push(Link { first: *first, then: *then, bond: Bond::After });
            }
        }
        for order in &step.order {
            let bond = match order {
                Order::During(_) => Bond::During,
                Order::After(_) => Bond::After,
                Order::StraightAfter(_) => Bond::AfterWithin(0),
                Order::Within(time, _) => time.whole_minutes().map_or(Bond::After, Bond::AfterWithin),
            };
            connect(tasks, tasks_of(order.other()), mine, bond);
        }
        let ordered = !step.order.is_empty();
        if let (false, Some(before)) = (ordered, before(id, part, at)) {
            connect(tasks, tasks_of(StepRef { part: id, step: before }), mine, Bond::After);
        }
        for taken in taken(recipe, id, part, step, at) {
            let Some(last) = recipe.part(taken).and_then(|part| last_step(taken, part)) else { continue };
            connect_ends(tasks, tasks_of(StepRef { part: taken, step: last }), mine);
        }
    }
}

/// The step that a step follows when it says no order: the one above it that is not done alongside another of the part.
fn before(id: PartId, part: &Part, at: usize) -> Option<usize> {
    (0..at).rev().find(|other| part.steps.get(*other).is_some_and(|step| !runs_alongside(id, step)))
}

/// Whether a step is done while another step of its own part runs.
fn runs_alongside(id: PartId, step: &Step) -> bool {
    step.order.iter().any(|order| matches!(order, Order::During(other) if other.part == id))
}

/// The last step of a part in the file's order that is not done alongside another.
fn last_step(id: PartId, part: &Part) -> Option<usize> {
    before(id, part, part.steps.len()).or(part.steps.len().checked_sub(1))
}

/// Loads of equal number flow load by load; otherwise the whole step before must have ended.
fn connect(tasks: &mut Tasks, first: &[usize], then: &[usize], bond: Bond) {
    if first.len() == then.len() && bond != Bond::During {
        for (first, then) in first.iter().zip(then) {
            tasks.links.push(Link { first: *first, then: *then, bond });
        }
        return;
    }
    match bond {
        Bond::During => {
            // Within the whole stretch of the other: after its first load starts, before its last ends.
            for then in then {
                tasks.links.extend(first.iter().take(1).map(|first| Link { first: *first, then: *then, bond }));
            }
        }
        _ => {
            if let (Some(last), Some(next)) = (first.last(), then.first()) {
                tasks.links.push(Link { first: *last, then: *next, bond });
            }
        }
    }
}

fn connect_ends(tasks: &mut Tasks, first: &[usize], then: &[usize]) {
    if let (Some(last), Some(next)) = (first.last(), then.first()) {
        tasks.links.push(Link { first: *last, then: *next, bond: Bond::After });
    }
}

/// The parts that a step takes. A part whose line no step takes is needed when the part begins.
fn taken(recipe: &Recipe, id: PartId, part: &Part, step: &Step, at: usize) -> Vec<PartId> {
    let mut taken = Vec::new();
    let named = |step: &Step, target: Target| {
        step.words.iter().any(|word| matches!(word, Words::Use { target: Some(named), .. } if *named == target))
    };
    let mut need = |target: Target, other: PartId| {
        let named_somewhere = part.steps.iter().any(|step| named(step, target));
        if named(step, target) || (!named_somewhere && at == 0) {
            taken.push(other);
        }
    };
    for (line_at, line) in part.lines.iter().enumerate() {
        if let crate::recipe::Refers::Part(other) = line.refers {
            need(Target::Line(line_at), other);
        }
    }
    for (preferment, _) in recipe.preferments(id) {
        need(Target::Preferment(preferment), preferment);
    }
    taken
}

/// The mass that a task handles, for equipment that holds a mass.
pub fn mass_of(formula: &Formula, task: &Task) -> Option<Mass> {
    let whole = formula.part(task.step.part)?.goes_in?;
    whole.over(Number::whole(task.loads)).ok()
}
