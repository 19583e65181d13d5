//! Why there is no plan, in kitchen words, with places, figures, and what to change.

mod all_limits;
mod alone;
mod cooling;
mod cycle;
mod day;
mod early;
mod equipment;
mod gluten;
mod hot;
mod in_the_cold;
mod keeping;
mod leave_out;
mod long_days;
mod longer_shifts;
mod meets;
mod mend;
mod offer;
mod out_of_cold;
mod relax;
mod ripe;
mod several;
mod standing;

pub use alone::alone_too_long;
pub use cooling::cools_alone;
pub use early::{Early, ready_days_early};
pub use gluten::{Contact, gluten_after_wheat, without_gluten_first};
pub use hot::stands_hot;
pub use out_of_cold::stands_out_of_the_cold;

use super::ask::Hours;
use super::clock::Clock;
use super::fault::Fault;
use super::problem::{Minute, Problem};
use super::shifts;
use super::solve::Infeasible;
use super::tasks::{Task, Tasks};
use crate::language::parse::nearest;
use crate::make::work::Work;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::kitchen::Kitchen;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};

/// Makes of a whole problem what is left of it.
pub type Rest<'a> = dyn Fn(&Tasks, &Problem) -> Option<Problem> + 'a;

/// A problem that cannot be planned, with what it was made from.
pub struct Case<'a> {
    /// What is made.
    pub work: &'a Work,
    /// The tasks; the problem's first ones are these.
    pub tasks: &'a Tasks,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Due times and opening hours.
    pub hours: &'a Hours,
    /// What the planner was given.
    pub problem: &'a Problem,
    /// The clock, if there is a time.
    pub clock: Option<&'a Clock>,
    /// What is left of a whole problem, where some of the day is done.
    pub rest: Option<&'a Rest<'a>>,
    /// Says when enough has been tried.
    pub stop: &'a dyn Fn() -> bool,
    /// Whether only what is ready on the day on which it is wanted helps.
    pub fresh: bool,
    /// Whether what helps lets no hot food stand.
    pub hot: bool,
}

/// A batch that is too large to be reckoned with.
pub fn too_large(work: &Work) -> Diagnostic {
    Diagnostic::error("no-plan", place(work), "a batch of that size leaves the range of exact numbers")
        .help("ask for less")
}

fn place(work: &Work) -> Span {
    let first = work.orders.first();
    let said = first.and_then(|order| order.span.or(Some(order.recipe.name.span)));
    said.unwrap_or(Span::new(SourceId(0), 0, 0))
}

/// Steps that use what the kitchen does not have, of the tasks that are still to be done: a mixer that broke was there before.
pub fn missing_equipment(
    work: &Work,
    tasks: &Tasks,
    kitchen: &Kitchen,
    is_left: impl Fn(usize) -> bool,
) -> Vec<Diagnostic> {
    let mut problems: Vec<Diagnostic> = Vec::new();
    for (_, task) in tasks.list.iter().enumerate().filter(|(at, _)| is_left(*at)) {
        let Some(name) = task.equipment.as_ref().filter(|name| kitchen.find(name).is_none()) else { continue };
        let known: Vec<&str> = kitchen.equipment.iter().map(|equipment| equipment.name.key.as_str()).collect();
        let message =
            format!("there is no `{name}` in {}, so `{}` cannot be planned", called(kitchen), step(work, task));
        let problem = Diagnostic::error("no-such-equipment", name.span, message);
        let problem = match nearest(name.key.as_str(), known.iter().copied()) {
            Some(near) => problem.help(format!("did you mean `{near}`?")),
            None => problem.help(format!("add `{name} x 1` to a kitchen file that is used")),
        };
        problems.push(with_kitchen(problem, kitchen));
    }
    crate::text::diagnostic::sort_and_dedup(&mut problems);
    problems
}

/// Tasks that are still to be done and cannot be, because there is no such equipment, and all that comes after them.
pub fn lost(tasks: &Tasks, kitchen: &Kitchen, problem: &Problem, is_left: &dyn Fn(usize) -> bool) -> Vec<usize> {
    let is_without = |at: &usize| {
        let name = tasks.list.get(*at).and_then(|task| task.equipment.as_ref());
        is_left(*at) && name.is_some_and(|name| kitchen.find(name).is_none())
    };
    let mut lost: Vec<usize> = (0..tasks.list.len()).filter(is_without).collect();
    let mut at = 0;
    while let Some(task) = lost.get(at).copied() {
        let after = problem.lags.iter().filter(|lag| lag.from.task == task && lag.least >= 0);
        for next in after.map(|lag| lag.to.task).filter(|next| *next < tasks.list.len() && is_left(*next)) {
            if !lost.contains(&next) {
                lost.push(next);
            }
        }
        at += 1;
    }
    lost
}

fn called(kitchen: &Kitchen) -> String {
    if kitchen.span.is_none() { "the home kitchen that is assumed".to_owned() } else { format!("`{}`", kitchen.name) }
}

fn with_kitchen(problem: Diagnostic, kitchen: &Kitchen) -> Diagnostic {
    match kitchen.span {
        Some(span) => problem.also(span, "this kitchen"),
        None => problem,
    }
}

fn step(work: &Work, task: &Task) -> String {
    let batch = work.batches.get(task.batch);
    let part = batch.and_then(|batch| batch.recipe.part(task.step.part));
    part.and_then(|part| part.steps.get(task.step.step)).map(|step| step.name.to_string()).unwrap_or_default()
}

fn time(minutes: Minute) -> String {
    show::duration(Duration::minutes(minutes)).to_string()
}

impl Case<'_> {
    /// A step as it is told, in quotation marks: with its part where another part has a step of that name, and with its recipe
    /// where another recipe has such a part.
    fn named(&self, task: &Task) -> String {
        let name = step(self.work, task);
        let of = |task: &Task| {
            let recipe = &self.work.batches.get(task.batch)?.recipe;
            let (origin, _) = recipe.origin(task.step.part)?;
            Some((recipe.part(task.step.part)?.name.to_string(), origin.name.to_string()))
        };
        let own = of(task);
        let others = self.tasks.list.iter().filter(|other| {
            (other.batch, other.step.part) != (task.batch, task.step.part) && step(self.work, other) == name
        });
        let others: Vec<(String, String)> = others.filter_map(of).collect();
        match own {
            Some((part, recipe)) if others.iter().any(|(other, _)| *other == part) => {
                format!("`{name}` of `{part}` of `{recipe}`")
            }
            Some((part, _)) if !others.is_empty() => format!("`{name}` of `{part}`"),
            _ => format!("`{name}`"),
        }
    }

    /// What stands in the way, and what would help.
    pub fn explain(&self, why: &Infeasible) -> Vec<Diagnostic> {
        match why {
            Infeasible::Faults(faults) => {
                let mut problems: Vec<Diagnostic> = faults.iter().map(|fault| self.fault(fault)).collect();
                crate::text::diagnostic::sort_and_dedup(&mut problems);
                problems
            }
            Infeasible::Impossible | Infeasible::Unknown => {
                let alone = self.alone();
                if alone.is_empty() { vec![self.together(why)] } else { alone }
            }
        }
    }

    fn fault(&self, fault: &Fault) -> Diagnostic {
        let at = |task: &usize| self.tasks.list.get(*task);
        let name = |task: &usize| at(task).map(|task| step(self.work, task)).unwrap_or_default();
        let error = |check, task: &usize, message: String| {
            Diagnostic::error(check, at(task).map_or(place(self.work), |task| task.span), message)
        };
        match fault {
            Fault::LongerThanOpen { open: there, .. } | Fault::LongerThanShift { longest: there, .. }
                if *there <= shifts::NEVER && !self.kitchen.named.is_empty() =>
            {
                let said = self.kitchen.span.unwrap_or(place(self.work));
                let message = format!("nobody who is named is ever there while {} is open", called(self.kitchen));
                Diagnostic::error("no-plan", said, message)
                    .help("say `open` for as long as somebody works, or let a `cook` come while it is open")
            }
            Fault::TooFewCooks { task, needs, has } => {
                let message =
                    format!("`{}` needs {needs} people at once, but {} has {has}", name(task), called(self.kitchen));
                let problem = error("too-few-cooks", task, message)
                    .help("give it more time and fewer people, or more `cooks` to the kitchen");
                with_kitchen(problem, self.kitchen)
            }
            Fault::NoUnit { task, equipment } | Fault::TooLarge { task, equipment, .. } => {
                let equipment = self.kitchen.equipment.get(*equipment);
                let equipment = equipment.map(|equipment| equipment.name.to_string()).unwrap_or_default();
                let message =
                    format!("`{}` uses `{equipment}`, of which {} has none", name(task), called(self.kitchen));
                let problem = error("no-such-equipment", task, message).help(format!("write `{equipment} x 1`"));
                with_kitchen(problem, self.kitchen)
            }
            Fault::LongerThanOpen { task, minutes, open } => {
                let message = format!(
                    "`{}` takes {} at a stretch, but {} is open {} a day",
                    name(task),
                    time(*minutes),
                    called(self.kitchen),
                    time(*open)
                );
                let problem = error("no-plan", task, message).help(
                    "open longer, make a smaller batch, or cut the step in two; what needs nobody in reach is a `wait`",
                );
                with_kitchen(problem, self.kitchen)
            }
            Fault::LongerThanShift { task, minutes, longest } => {
                let message = format!(
                    "`{}` takes {} at a stretch, and nobody who could do it works longer than {}",
                    name(task),
                    time(*minutes),
                    time(*longest)
                );
                let problem = error("no-plan", task, message).help(
                    "share it (`shared by 2`), cut the step in two, make a smaller batch, or give a cook longer hours",
                );
                with_kitchen(problem, self.kitchen)
            }
            Fault::BadTime { task: Some(task) } => {
                error("no-plan", task, format!("`{}` takes longer than can be planned", name(task)))
                    .help("ask for less")
            }
            Fault::BadTime { task: None }
            | Fault::BadCapacity { .. }
            | Fault::Dangling
            | Fault::BadHours
            | Fault::DrawnOutWork { .. } => {
                Diagnostic::error("no-plan", place(self.work), "the times are too far apart to be planned")
                    .help("name a nearer day")
            }
        }
    }
}
