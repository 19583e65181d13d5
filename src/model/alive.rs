//! What is alive: from the moment a leaven goes in until it is baked or frozen, a part does not wait.

use crate::model::cold::is_freezer;
use crate::model::cooking::cooks_by_head;
use crate::model::flow;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepRef, Target};
use std::collections::HashMap;

/// Minutes that what is alive may stand between two steps unless the first of them says otherwise. Common practice, no
/// source: the time to clear the bench and fetch the next thing.
pub const STAND: i64 = 10;

/// After which steps of a recipe what they made is alive.
#[derive(Debug, Clone, Default)]
pub struct Alive {
    parts: HashMap<PartId, Vec<bool>>,
}

impl Alive {
    /// Looks through a recipe.
    pub fn of(recipe: &Recipe) -> Alive {
        let mut alive = Alive::default();
        for (id, _) in recipe.parts() {
            alive.look(recipe, id, 0);
        }
        alive
    }

    /// Whether what a step made is alive when it ends.
    pub fn after(&self, step: StepRef) -> bool {
        self.parts.get(&step.part).and_then(|steps| steps.get(step.step)).copied().unwrap_or(false)
    }

    /// Whether a part is alive when it is made. A part without steps is as alive as what goes into it.
    pub fn at_end(&self, part: PartId) -> bool {
        self.parts.get(&part).and_then(|steps| steps.last()).copied().unwrap_or(false)
    }

    /// Whether a part that another holds is alive when it is taken up there, before its last steps or after them.
    fn when_used(&self, recipe: &Recipe, user: &Part, target: Target, id: PartId) -> bool {
        let line = match target {
            Target::Line(at) => user.lines.get(at),
            Target::Preferment(_) => None,
        };
        let Some((before, part)) = line.and_then(|line| line.before).zip(recipe.part(id)) else {
            return self.at_end(id);
        };
        let last = flow::sinks_without(part, id, &flow::left_out(part, id, before.step)).last().copied();
        last.is_some_and(|step| self.after(StepRef { part: id, step }))
    }

    fn look(&mut self, recipe: &Recipe, id: PartId, depth: usize) {
        let Some(part) = recipe.part(id) else { return };
        if self.parts.contains_key(&id) || depth > flow::DEEPEST {
            return;
        }
        // A ring of parts was reported; it must not hang.
        self.parts.insert(id, vec![false; part.steps.len() + 1]);
        let held = flow::held(recipe, id);
        for (_, other) in &held {
            self.look(recipe, *other, depth + 1);
        }
        let living = held.iter().filter(|(target, other)| self.when_used(recipe, part, *target, *other));
        let living: Vec<Target> = living.map(|(at, _)| *at).collect();
        let leavens = part.lines.iter().enumerate().filter(|(_, line)| is_leaven(line));
        let living: Vec<Target> = leavens.map(|(at, _)| Target::Line(at)).chain(living).collect();
        let named = |target: &Target| part.steps.iter().any(|step| flow::draws(step, *target));
        let first = flow::first_taker(part);
        let mut alive = false;
        let mut steps = Vec::with_capacity(part.steps.len() + 1);
        for (at, step) in part.steps.iter().enumerate() {
            // What no step names goes in at the beginning.
            let takes = |target: &Target| flow::draws(step, *target) || (at == first && !named(target));
            let begins = living.iter().any(takes);
            if flow::is_free(step) && !begins {
                steps.push(false);
                continue;
            }
            alive = (alive || begins) && !cooks_by_head(step);
            steps.push(alive && !freezes(step));
        }
        let last = flow::sinks(part, id).last().and_then(|at| steps.get(*at)).copied();
        steps.push(last.unwrap_or(!living.is_empty()));
        self.parts.insert(id, steps);
    }
}

/// Whether an ingredient from the larder or the shelf brings something alive with it.
pub fn is_leaven(line: &Ingredient) -> bool {
    matches!(line.refers, Refers::Pantry(_)) && line.kind.ferments()
}

fn freezes(step: &Step) -> bool {
    match step.temperature {
        Some((low, _)) => is_freezer(low),
        None => {
            let equipment = step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(beginnings!["freez"]));
            equipment || step.name.has_word_beginning(beginnings!["freez"])
        }
    }
}
