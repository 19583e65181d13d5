//! `loose-step`: a step that can never begin, or that leads to nothing.

use super::{Check, Family, Run, Subject};
use crate::measure::show;
use crate::model::alive::Alive;
use crate::model::flow::{self, Numbered};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepRef, Timing};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "loose-step",
    severity: Severity::Error,
    family: Family::Steps,
    looks_for: "steps whose orders run in a ring, so that none can begin, and steps that no later step waits for",
    why: "A step follows the one above it unless it says otherwise. If `fold` is after `bake` and `bake` after `fold`, \
          neither can begin. And if `rise` and `shape` both come after `mix`, nothing waits for the rise: the plan may shape \
          while the dough still rises. Say `after` the step that is really waited for, or leave the order out.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min, after shape\n    Mix {flour} and {water}.\n    until smooth\n\
          rise: wait 1 h\nshape: hands 10 min\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           rise: wait 1 h\nshape: hands 10 min, after rise\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    // Where no step says what it follows, each follows the one above.
    if recipe.parts().all(|(_, part)| part.steps.iter().all(|step| step.order.is_empty())) {
        return;
    }
    let numbers = Numbered::of(recipe);
    let mut is_tied = vec![false; numbers.count()];
    if waits_above(recipe) {
        tie_above(recipe, &numbers, &mut is_tied);
        return dead_ends(subject, &numbers, &is_tied, diagnostics);
    }
    let waits = flow::waits(recipe, &numbers);
    let rings = rings(&with_parts(recipe, &numbers, &waits));
    for number in rings.iter().chain(&waits).flatten() {
        if let Some(tied) = is_tied.get_mut(*number) {
            *tied = true;
        }
    }
    for ring in &rings {
        let ring: Vec<StepRef> = ring.iter().filter_map(|number| numbers.step(*number)).collect();
        diagnostics.extend(ring_problem(recipe, &ring));
    }
    dead_ends(subject, &numbers, &is_tied, diagnostics);
}

/// Whether all steps wait only for what stands above them, in their parts or in parts above: they wait in no ring.
fn waits_above(recipe: &Recipe) -> bool {
    let is_above = |here: StepRef, order: &Timing| {
        let other = order.other();
        !matches!(order, Timing::Before(_)) && (other.part, other.step) < (here.part, here.step)
    };
    recipe.parts().all(|(id, part)| {
        let orders =
            |(at, step): (usize, &Step)| step.order.iter().all(|order| is_above(StepRef { part: id, step: at }, order));
        part.lines.iter().filter_map(Ingredient::part).all(|other| other < id)
            && part.steps.iter().enumerate().all(orders)
    })
}

/// Notes the steps for which another waits, where all wait for what stands above; as [`flow::waits`] has them.
fn tie_above(recipe: &Recipe, numbers: &Numbered, is_tied: &mut [bool]) {
    let mut tie = |part: PartId, step: usize| {
        let number = numbers.number(StepRef { part, step });
        number.and_then(|number| is_tied.get_mut(number)).into_iter().for_each(|tied| *tied = true);
    };
    for (id, part) in recipe.parts() {
        for (at, step) in part.steps.iter().enumerate() {
            step.order.iter().for_each(|order| tie(order.other().part, order.other().step));
            if step.order.is_empty() {
                flow::above(part, at).into_iter().for_each(|above| tie(id, above));
            }
        }
    }
}

/// Tells the steps for which no other waits, and which are not the last.
fn dead_ends(subject: &Subject<'_>, numbers: &Numbered, is_tied: &[bool], diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        // From here on all steps stand beside others.
        let only_beside = part.steps.iter().rposition(|step| !flow::is_beside(step)).map_or(0, |last| last + 1);
        for (at, step) in part.steps.iter().enumerate() {
            let is_tied = numbers.number(StepRef { part: id, step: at }).and_then(|here| is_tied.get(here));
            if is_tied == Some(&false) && is_dead_end(part, step, at, only_beside) {
                diagnostics.push(dead_end(part, step, at));
            }
        }
    }
}

/// What each step waits for, with what the first step of a part waits for besides: all that the parts make which it holds.
fn with_parts(recipe: &Recipe, numbers: &Numbered, waits: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut all = waits.to_vec();
    let alive = std::cell::OnceCell::new();
    for (id, part) in recipe.parts().filter(|(_, part)| !part.steps.is_empty()) {
        let first = StepRef { part: id, step: flow::first_taker(part) };
        let Some(first) = numbers.number(first).and_then(|first| all.get_mut(first)) else { continue };
        let is_here = |other: &PartId| {
            let of = |line: &&Ingredient| line.part() == Some(*other);
            part.lines.iter().find(of).is_some_and(|line| !line.from_store && line.before.is_none())
        };
        let lives = |other: PartId| alive.get_or_init(|| Alive::of(recipe)).at_end(other);
        let taken = flow::taken(recipe, id, flow::first_taker(part), lives).into_iter().map(|taken| taken.part);
        let held = taken.filter(is_here).filter_map(|other| Some((other, recipe.part(other)?)));
        let made = held.flat_map(|(other, made)| {
            flow::sinks(made, other).into_iter().map(move |step| StepRef { part: other, step })
        });
        first.extend(made.filter_map(|step| numbers.number(step)));
    }
    all
}

/// So many rings are told: one order too many in a long recipe closes thousands.
const MOST_RINGS: usize = 20;
/// Of the steps of a ring so many are named.
const MOST_NAMED: usize = 12;

/// How far a step was looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Looked {
    NotYet,
    OnPath,
    Done,
}

/// Rings of steps that wait for each other, each once, by their numbers.
fn rings(waits: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut looked = vec![Looked::NotYet; waits.len()];
    let mut rings = Vec::new();
    let mut path: Vec<(usize, usize)> = Vec::new();
    for start in 0..waits.len() {
        if let Some(start_looked) = looked.get_mut(start).filter(|looked| **looked == Looked::NotYet) {
            *start_looked = Looked::OnPath;
            path.push((start, 0));
        }
        while let Some((here, next)) = path.last_mut() {
            let Some(before) = waits.get(*here).and_then(|list| list.get(*next)).copied() else {
                looked.get_mut(*here).into_iter().for_each(|looked| *looked = Looked::Done);
                path.pop();
                continue;
            };
            *next += 1;
            match looked.get_mut(before) {
                Some(looked @ Looked::NotYet) => {
                    *looked = Looked::OnPath;
                    path.push((before, 0));
                }
                Some(Looked::OnPath) if rings.len() < MOST_RINGS => {
                    rings.push(path.iter().map(|(step, _)| *step).skip_while(|step| *step != before).collect());
                }
                _ => {}
            }
        }
    }
    rings
}

fn step_of(recipe: &Recipe, at: StepRef) -> Option<&Step> {
    recipe.part(at.part)?.steps.get(at.step)
}

fn ring_problem(recipe: &Recipe, ring: &[StepRef]) -> Option<Diagnostic> {
    // A ring within a used recipe is reported when that file is checked.
    if ring.iter().all(|at| recipe.part(at.part).is_none_or(|part| part.foreign.is_some())) {
        return None;
    }
    let steps: Vec<&Step> = ring.iter().filter_map(|at| step_of(recipe, *at)).collect();
    let ordered = steps.iter().find(|step| !step.order.is_empty()).or(steps.first())?;
    let mut names: Vec<String> = steps.iter().take(MOST_NAMED).map(|step| format!("`{}`", step.name)).collect();
    if steps.len() > MOST_NAMED {
        names.push(format!("{} more", steps.len() - MOST_NAMED));
    }
    let message = if names.len() == 1 {
        format!("{} waits for itself", show::list(&names))
    } else {
        format!("{} wait for each other, so none of them can begin", show::list(&names))
    };
    let several = ring.iter().any(|at| ring.first().is_some_and(|first| first.part != at.part));
    let help = if several {
        "take one of the orders out, or give what comes later a part of its own: the first step of a part waits for all the parts that it holds"
    } else {
        "take one of the orders out; a step follows the one above it without being told"
    };
    let mut problem = Diagnostic::error(CHECK.name, ordered.span, message).help(help);
    for step in steps.iter().filter(|step| step.span != ordered.span).take(MOST_NAMED) {
        problem = problem.also(step.name.span, "waits too");
    }
    Some(problem)
}

/// Whether a step that no step waits for is not the last of its part, and others wait for something else instead.
/// From `only_beside` on all steps stand beside others.
fn is_dead_end(part: &Part, step: &Step, at: usize, only_beside: usize) -> bool {
    let is_last = at + 1 == part.steps.len();
    let beside = flow::is_beside(step);
    let next_beside = part.steps.get(at + 1).is_some_and(flow::is_beside);
    // Steps that stand beside another (`during`) end when they end; so may one that only others run beside.
    let last_of_beside = next_beside && at + 1 >= only_beside;
    !is_last && !beside && !last_of_beside
}

fn dead_end(part: &Part, step: &Step, at: usize) -> Diagnostic {
    let mut problem = Diagnostic::warning(
        CHECK.name,
        step.name.span,
        format!("nothing waits for `{}`: no later step of `{}` comes after it", step.name, part.name),
    );
    if let Some(next) = part.steps.get(at + 1) {
        problem = problem.also(next.span, "goes by another order");
    }
    problem.help(format!("write `after {}` where its result is needed", step.name))
}
