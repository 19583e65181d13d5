//! An independent check of a plan against the recipes themselves: what every baker knows, looked at from scratch. It
//! reads steps and starts and ends, and none of what the planner was told about them.

use miche::make::batch::BatchPart;
use miche::make::work::Work;
use miche::model::kitchen::Kitchen;
use miche::model::recipe::{Part, Recipe, Refers};
use miche::model::step::{Step, StepKind, Target, Timing, Words};
use miche::plan::solve::Plan;
use miche::plan::tasks::{Task, Tasks};

/// What a test knows of what was planned.
pub struct Planned<'a> {
    /// What is made.
    pub work: &'a Work,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// The tasks.
    pub tasks: &'a Tasks,
    /// The plan.
    pub plan: &'a Plan,
}

/// One step with all its loads.
struct Done<'a> {
    order: usize,
    part: &'a Part,
    step: &'a Step,
    /// Start and end of each load.
    loads: Vec<(i64, i64)>,
}

impl Done<'_> {
    fn begins(&self) -> i64 {
        self.loads.iter().map(|load| load.0).min().unwrap_or(0)
    }

    fn ends(&self) -> i64 {
        self.loads.iter().map(|load| load.1).max().unwrap_or(0)
    }

    fn is_free(&self) -> bool {
        let beside = |order: &Timing| matches!(order, Timing::During(_) | Timing::Into(_) | Timing::Before(_));
        let takes = self.step.words.iter().any(|word| matches!(word, Words::Use { .. }));
        let heats = self.step.name.text.to_lowercase().contains("heat") && !takes;
        self.step.order.iter().any(beside) || heats
    }
}

/// Everything in a plan that a baker would not do; empty when it keeps every rule.
pub fn broken(planned: &Planned<'_>) -> Vec<String> {
    let mut wrong = Vec::new();
    for order in 0..planned.work.batches.len() {
        let recipe = &*planned.work.batches[order].recipe;
        for (id, part) in recipe.parts() {
            let steps = steps(planned, order, id.0);
            if steps.is_empty() {
                continue;
            }
            takes_after(planned, order, recipe, id.0, &steps, &mut wrong);
            alive_goes_on(recipe, id.0, part, &steps, &mut wrong);
            folds(recipe, id.0, &steps, &mut wrong);
        }
    }
    held(planned, &mut wrong);
    wrong
}

fn time(task: usize, planned: &Planned<'_>) -> (i64, i64) {
    (planned.plan.starts[task], planned.plan.ends[task])
}

fn steps<'a>(planned: &Planned<'a>, order: usize, part_at: usize) -> Vec<Done<'a>> {
    let recipe: &'a Recipe = &planned.work.batches[order].recipe;
    let part = &recipe.parts[part_at];
    let here = |task: &Task, step: usize| task.batch == order && task.step.part.0 == part_at && task.step.step == step;
    let all = part.steps.iter().enumerate().map(|(at, step)| {
        let tasks = planned.tasks.list.iter().enumerate().filter(|(_, task)| here(task, at));
        Done { order, part, step, loads: tasks.map(|(task, _)| time(task, planned)).collect() }
    });
    let all: Vec<Done<'a>> = all.collect();
    if all.iter().any(|done| done.loads.is_empty()) { Vec::new() } else { all }
}

fn draws(step: &Step, wanted: Target) -> bool {
    step.words.iter().any(|word| matches!(word, Words::Use { target: Some(target), .. } if *target == wanted))
}

/// What takes a part takes all the steps after it with it.
fn takes_after(
    planned: &Planned<'_>,
    order: usize,
    recipe: &Recipe,
    at: usize,
    steps: &[Done<'_>],
    wrong: &mut Vec<String>,
) {
    let part = &recipe.parts[at];
    let preferments: Vec<usize> =
        (0..recipe.parts.len()).filter(|other| recipe.parts[*other].from.is_some_and(|from| from.0 == at)).collect();
    let first = steps.iter().position(|done| !done.is_free()).unwrap_or(0);
    for (number, line) in part.lines.iter().enumerate() {
        let Refers::Part(other) = line.refers else { continue };
        // A starter that a preferment takes up goes in with the preferment.
        let taken_ahead = preferments
            .iter()
            .any(|preferment| recipe.parts[*preferment].lines.iter().any(|line| line.refers == Refers::Part(other)));
        if taken_ahead && !steps.iter().any(|done| draws(done.step, Target::Line(number))) {
            continue;
        }
        let Some(place) = planned.work.made_in(BatchPart { batch: order, part: other }) else { continue };
        let made = self::steps(planned, place.batch, place.part.0);
        let Some(ready) = made.iter().filter(|done| !done.is_free()).map(Done::ends).max() else { continue };
        for done in steps.iter().skip(first).filter(|done| !done.is_free()) {
            if done.begins() < ready {
                wrong.push(format!(
                    "`{}` of `{}` begins at {}, before `{}` is made at {ready}",
                    done.step.name,
                    done.part.name,
                    done.begins(),
                    recipe.parts[other.0].name
                ));
            }
        }
    }
}

/// Whether something alive is in a part when a step ends, by names alone.
fn alive(recipe: &Recipe, at: usize, step: usize, depth: usize) -> bool {
    let part = &recipe.parts[at];
    if depth > 20 {
        return false;
    }
    let living = |line: usize| match part.lines[line].refers {
        Refers::Part(other) => {
            let last = recipe.parts[other.0].steps.len().checked_sub(1);
            last.is_some_and(|last| alive(recipe, other.0, last, depth + 1))
        }
        Refers::Pantry(_) => {
            let name = part.lines[line].name.text.to_lowercase();
            ["yeast", "levain", "starter", "sourdough"].iter().any(|word| name.contains(word))
        }
    };
    let hot = |step: &Step| {
        let equipment = step.equipment.as_ref().map(|name| name.text.to_lowercase()).unwrap_or_default();
        equipment.contains("oven") || equipment.contains("hob") || equipment.contains("fryer")
    };
    let named_late = |line: usize| part.steps.iter().skip(step + 1).any(|later| draws(later, Target::Line(line)));
    let in_it = |line: usize| living(line) && !named_late(line);
    (0..part.lines.len()).any(in_it) && !part.steps.iter().take(step + 1).any(hot)
}

/// In a live part a step begins as the one before it ends, or as soon as what it made may stand.
fn alive_goes_on(recipe: &Recipe, at: usize, part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for (number, pair) in steps.windows(2).enumerate() {
        let [before, then] = pair else { continue };
        if !alive(recipe, at, number, 0) || before.is_free() || !then.step.order.is_empty() {
            continue;
        }
        let stand = before.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
        let slack = before.step.kind == StepKind::Wait && before.step.up_to.is_some();
        for (load, (begins, _)) in then.loads.iter().enumerate() {
            let same = before.loads.len() == then.loads.len();
            let (began, ended) = if same { before.loads[load] } else { (before.begins(), before.ends()) };
            let most = before.step.up_to.and_then(|time| time.whole_minutes()).unwrap_or(0);
            let stands = begins - ended;
            if (slack && begins - began > most) || (!slack && stands > stand) {
                wrong.push(format!(
                    "`{}` of `{}` ends at {ended} and `{}` begins at {begins}: alive, it stands {stands} min",
                    before.step.name, part.name, then.step.name
                ));
            }
        }
        let last =
            before.loads.windows(2).all(|pair| before.step.kind != StepKind::Hands || pair[1].0 - pair[0].1 <= stand);
        if !last {
            wrong.push(format!(
                "the loads of `{}` of `{}` are not made one after the other",
                before.step.name, part.name
            ));
        }
    }
}

/// Folds lie where they are said.
fn folds(recipe: &Recipe, at: usize, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for done in steps {
        let Some(Timing::Into(outer)) = done.step.order.iter().find(|order| matches!(order, Timing::Into(_))) else {
            continue;
        };
        if outer.part.0 != at {
            continue;
        }
        let bulk = &steps[outer.step];
        let moments: Vec<i64> = done.step.moments.iter().filter_map(|moment| moment.whole_minutes()).collect();
        let said = bulk.loads.iter().flat_map(|load| moments.iter().map(move |moment| load.0 + moment));
        let mut said: Vec<i64> = said.collect();
        said.sort_unstable();
        if said.len() != done.loads.len() {
            wrong.push(format!("`{}` is done {} times, not {}", done.step.name, done.loads.len(), said.len()));
        }
        let mut loads = done.loads.clone();
        loads.sort_unstable();
        for (moment, load) in said.iter().zip(loads) {
            if load.0 < *moment || load.0 > moment + 10 || load.1 > bulk.ends() {
                wrong.push(format!(
                    "`{}` of `{}` is at {}, not {moment}",
                    done.step.name, recipe.parts[at].name, load.0
                ));
            }
        }
    }
}

/// A unit is held as long as something is in it: from the start of a rest in it until what comes next begins. Looked at
/// minute by minute, for equipment that takes one load.
fn held(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    for equipment in planned.kitchen.equipment.iter().filter(|equipment| equipment.holds.is_none()) {
        let mut stretches: Vec<(i64, i64)> = Vec::new();
        for order in 0..planned.work.batches.len() {
            for (id, _) in planned.work.batches[order].recipe.parts() {
                let steps = steps(planned, order, id.0);
                for (at, done) in steps.iter().enumerate() {
                    if !done.step.equipment.as_ref().is_some_and(|name| name.same(&equipment.name)) {
                        continue;
                    }
                    let next = steps.get(at + 1).filter(|next| next.step.order.is_empty());
                    let rests = done.step.kind == StepKind::Wait && done.step.up_to.is_some();
                    let straight = steps.get(at + 1).is_some_and(|next| {
                        next.step.order.iter().any(|order| matches!(order, Timing::StraightAfter(_)))
                    });
                    for (load, (starts, ends)) in done.loads.iter().enumerate() {
                        let until = next.filter(|_| rests).map(|next| match next.loads.len() == done.loads.len() {
                            true => next.loads[load].0,
                            false => next.loads.iter().map(|load| load.0).max().unwrap_or(*ends),
                        });
                        if !straight {
                            stretches.push((*starts, until.unwrap_or(*ends).max(*ends)));
                        }
                    }
                    let _ = done.order;
                }
            }
        }
        for (starts, _) in &stretches {
            let inside = stretches.iter().filter(|other| other.0 <= *starts && *starts < other.1).count();
            if inside > equipment.count as usize {
                wrong.push(format!("{inside} loads in {} x {} at {starts}", equipment.name, equipment.count));
            }
        }
    }
}
