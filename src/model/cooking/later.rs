//! Whether what goes in at a step is cooked then or later, in its part or in one that takes it up.

use super::act::{Behind, acts};
use super::heat_words::{COOKING_VERBS, WARMS};
use super::{cooks_through, first_draw, has_word_beginning, in_lower_case};
use crate::model::flow::DEEPEST;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, Target, Words};
use crate::text::quick::QuickMap;
use std::cell::OnceCell;

/// Whether what is drawn in a step is cooked then or later, in its part or in one that takes it up. What was found out once
/// is kept, since many ways may lead through the same part.
pub struct Later<'r> {
    recipe: &'r Recipe,
    known: QuickMap<(PartId, usize, Option<Target>), Option<bool>>,
    /// Which parts go into the recipe's own, asked for only where something of another file is looked at.
    goes_in: OnceCell<Vec<bool>>,
}

impl<'r> Later<'r> {
    /// For a recipe.
    pub fn of(recipe: &'r Recipe) -> Later<'r> {
        Later { recipe, known: QuickMap::default(), goes_in: OnceCell::new() }
    }

    /// The recipe that it asks.
    pub fn recipe(&self) -> &'r Recipe {
        self.recipe
    }

    /// The lines that draw on a part, of what is made here: what another file makes of its own part, and nobody takes, is none of it.
    pub fn users(&self, id: PartId) -> impl Iterator<Item = (PartId, usize)> {
        let is_foreign = |user: PartId| self.recipe.part(user).is_some_and(|part| part.foreign.is_some());
        let goes_in = move |user: PartId| {
            !is_foreign(user) || self.goes_in.get_or_init(|| go_into_own(self.recipe)).get(user.0) == Some(&true)
        };
        self.recipe.users(id).filter(move |(user, _)| goes_in(*user))
    }

    /// The step of a part in which something is drawn first; the first step when none draws it.
    fn goes_in(&self, id: PartId, target: Target) -> usize {
        self.recipe.part(id).and_then(|part| first_draw(part, target)).unwrap_or(0)
    }

    /// Whether something drawn in the step of that place is cooked then or later.
    ///
    /// `None` when that cannot be told, because a part on the way has no steps.
    pub fn is_cooked(&mut self, id: PartId, from_step: usize) -> Option<bool> {
        self.look((id, from_step, None), 0)
    }

    /// Whether one line of a part is cooked in a step or later: not by a step that is about other things, `Toast {buns}`.
    pub fn is_line_cooked(&mut self, id: PartId, from_step: usize, line: usize) -> Option<bool> {
        self.look((id, from_step, Some(Target::Line(line))), 0)
    }

    fn look(&mut self, place: (PartId, usize, Option<Target>), depth: usize) -> Option<bool> {
        if let Some(known) = self.known.get(&place) {
            return *known;
        }
        // Parts cannot draw on themselves, but a ring that was reported must not hang.
        if depth > DEEPEST {
            return None;
        }
        let found = self.find(place, depth);
        self.known.insert(place, found);
        found
    }

    fn find(&mut self, (id, from_step, target): (PartId, usize, Option<Target>), depth: usize) -> Option<bool> {
        let recipe = self.recipe;
        let part = recipe.part(id)?;
        if part.steps.is_empty() {
            return None;
        }
        let cooks_it =
            |step: &Step| cooks_through(step) && !target.is_some_and(|target| is_about_others(part, step, target));
        if part.steps.iter().skip(from_step).any(cooks_it) {
            return Some(true);
        }
        if let Some(total) = part.from {
            let step = self.goes_in(total, Target::Preferment(id));
            return self.look((total, step, Some(Target::Preferment(id))), depth + 1);
        }
        let mut all = true;
        let mut used = false;
        let users: Vec<(PartId, usize)> = self.users(id).collect();
        for (user, line) in users {
            used = true;
            let step = self.goes_in(user, Target::Line(line));
            all &= self.look((user, step, Some(Target::Line(line))), depth + 1)?;
        }
        Some(used && all)
    }
}

/// Which parts are the recipe's own, or go into one of them. One flag for each part.
fn go_into_own(recipe: &Recipe) -> Vec<bool> {
    let mut found = vec![false; recipe.parts.len()];
    let mut open: Vec<PartId> = recipe.own_parts().map(|(id, _)| id).collect();
    while let Some(id) = open.pop() {
        let Some(slot) = found.get_mut(id.0).filter(|slot| !**slot) else { continue };
        *slot = true;
        open.extend(recipe.part(id).map_or(&[][..], |part| &part.lines).iter().filter_map(Ingredient::part));
        open.extend(recipe.preferments(id).map(|(other, _)| other));
    }
    found
}

/// What is warmed with nothing in it.
const VESSELS: &[&str] = &["plate", "bowl", "jar", "bottle", "dish", "glass", "lid", "platter"];

/// Whether a step cooks other things than what a target stands for: its name says so, `toast buns`, `warm plates`, or it takes others and each
/// of its verbs of cooking stands right before one of them. What takes it, or heats without a word of what, heats all that is there.
pub fn is_about_others(part: &Part, step: &Step, target: Target) -> bool {
    let mut takes = step.words.iter().filter_map(|word| match word {
        Words::Use { target: Some(found), .. } => Some(*found),
        _ => None,
    });
    if takes.any(|found| found == target) {
        return false;
    }
    let name = step.name.key.as_str();
    let object = name
        .split_once(' ')
        .filter(|(verb, _)| [COOKING_VERBS, WARMS].into_iter().any(|verbs| has_word_beginning(verb, verbs)));
    let last_word = |at: usize| part.lines.get(at).and_then(|line| line.name.key.as_str().rsplit(' ').next());
    let is_line = |object: &str, at: usize| last_word(at).is_some_and(|word| has_word_beginning(object, [word]));
    let is_target = |object: &str| matches!(target, Target::Line(at) if is_line(object, at));
    let named = object.is_some_and(|(_, object)| {
        let is_other = (0..part.lines.len()).any(|at| is_line(object, at));
        !is_target(object) && (is_other || has_word_beginning(object, VESSELS))
    });
    named || *step.asked.cooks_what_it_takes.get_or_init(|| each_act_is_of_braces(step))
}

/// Words that may stand between a verb and what it is done to.
const BETWEEN: &[&str] =
    &["the", "all", "half", "of", "its", "their", "these", "those", "some", "then", "rest", "both"];

fn each_act_is_of_braces(step: &Step) -> bool {
    let mut of_braces = 0;
    let is_use = |word: &&Words| matches!(word, Words::Use { .. });
    let mut left = step.words.iter().filter(is_use).count();
    let mut rest = in_lower_case(step).take(step.words.len()).peekable();
    while let Some((word, text)) = rest.next() {
        let Words::Text(_) = word else {
            left = left.saturating_sub(usize::from(is_use(&word)));
            continue;
        };
        let is_before_braces = matches!(rest.peek(), Some((Words::Use { .. }, _)));
        let behind = if left > 0 { Behind::Takes } else { Behind::Words };
        for behind in acts(text, COOKING_VERBS, behind) {
            if !is_before_braces || !behind.is_some_and(|behind| behind.iter().all(|word| BETWEEN.contains(word))) {
                return false;
            }
            of_braces += 1;
        }
    }
    of_braces > 0
}
