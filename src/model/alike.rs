//! Which parts of two recipes are the same thing to make, by whatever numbers the recipes know them.

use crate::model::noted::Noted;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{StepRef, Target, Timing, Words};
use std::collections::HashSet;

impl Recipe {
    /// The number of the part that is the same thing to make as a part of another recipe: of one file, where no choice that was taken
    /// otherwise touches the part, what it draws on, what is taken out of it, or a step that its own steps name. A part that only
    /// holds under an option stands in one of the two and moves the numbers of those below it.
    pub fn makes_alike(&self, other: &Recipe, there: PartId) -> Option<PartId> {
        if self.is_same(other) {
            return Some(there);
        }
        if self.source != other.source {
            return None;
        }
        let here = self.place_of(other, there)?;
        let (mut open, mut seen) = (vec![there], HashSet::new());
        while let Some(id) = open.pop() {
            if !seen.insert(id) {
                continue;
            }
            let mine = self.place_of(other, id)?;
            let (own, part) = (self.part(mine)?, other.part(id)?);
            let moved = |id: PartId| self.place_of(other, id).unwrap_or(PartId(usize::MAX));
            if own != part && *own != (Part { foreign: own.foreign, ..part.clone().numbered(moved) }) {
                return None;
            }
            if !self.preferments(mine).map(|(id, _)| id).eq(other.preferments(id).map(|(id, _)| moved(id))) {
                return None;
            }
            // A preferment is made with what it is taken out of.
            open.extend(other.preferments(id).map(|(id, _)| id).chain(part.from));
            open.extend(part.lines.iter().filter_map(Ingredient::part));
            open.extend(part.steps.iter().flat_map(|step| &step.order).map(|order| order.other().part));
        }
        Some(here)
    }

    /// The number of the part that is called as one of another recipe of the same file.
    fn place_of(&self, other: &Recipe, there: PartId) -> Option<PartId> {
        let part = other.part(there)?;
        if part.foreign.is_none() {
            return self.own_parts().find(|(_, own)| own.name.same(&part.name)).map(|(id, _)| id);
        }
        let (origin, at) = other.origin(there)?;
        let is_it = |(own, here): (&Recipe, PartId)| own.makes_alike(origin, at) == Some(here);
        let foreign = self.parts().filter(|(_, own)| own.foreign.is_some()).map(|(id, _)| id);
        foreign
            .filter(|id| self.part(*id).is_some_and(|own| own.name.same(&part.name)))
            .find(|id| self.origin(*id).is_some_and(is_it))
    }
}

impl Part {
    /// Whether it is the same as another but for its steps.
    pub(crate) fn is_same_but_for_steps(&self, other: &Part) -> bool {
        // Each field is named, so that none is forgotten that is added.
        let Part {
            name,
            foreign,
            from,
            base,
            per_piece,
            sort,
            divide,
            sorts,
            makes,
            keeps,
            spare,
            desired_temperature,
            desired_said,
            pan,
            lines,
            steps: _,
            texts,
            pictures,
            aims,
            broken,
            said: _,
            draws: _,
            divided_when_done: _,
        } = self;
        *lines == other.lines
            && *name == other.name
            && *foreign == other.foreign
            && *from == other.from
            && *base == other.base
            && *per_piece == other.per_piece
            && *sort == other.sort
            && *divide == other.divide
            && *sorts == other.sorts
            && *makes == other.makes
            && *keeps == other.keeps
            && *spare == other.spare
            && *desired_temperature == other.desired_temperature
            && *desired_said == other.desired_said
            && *pan == other.pan
            && *texts == other.texts
            && *pictures == other.pictures
            && *aims == other.aims
            && *broken == other.broken
    }

    /// The same part, pointing to where other parts stand in another recipe.
    pub(crate) fn numbered(mut self, here: impl Fn(PartId) -> PartId) -> Part {
        let step_here = |step: StepRef| StepRef { part: here(step.part), ..step };
        self.from = self.from.map(&here);
        self.draws = Noted::default();
        for line in self.lines.iter_mut() {
            if let Refers::Part(other) = &mut line.refers {
                *other = here(*other);
            }
            line.before = line.before.map(&step_here);
        }
        for step in &mut self.steps {
            for order in &mut step.order {
                *order = match *order {
                    Timing::During(other) => Timing::During(step_here(other)),
                    Timing::Into(other) => Timing::Into(step_here(other)),
                    Timing::Before(other) => Timing::Before(step_here(other)),
                    Timing::After(other) => Timing::After(step_here(other)),
                    Timing::StraightAfter(other) => Timing::StraightAfter(step_here(other)),
                    Timing::Within(time, other) => Timing::Within(time, step_here(other)),
                };
            }
            let is_of_preferment =
                |word: &Words| matches!(word, Words::Use { target: Some(Target::Preferment(_)), .. });
            if !step.words.iter().any(is_of_preferment) {
                continue;
            }
            for word in &mut step.words {
                if let Words::Use { target: Some(Target::Preferment(other)), .. } = word {
                    *other = here(*other);
                }
            }
        }
        self
    }
}
