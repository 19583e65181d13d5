//! What a batch makes: pieces of the recipe, or only parts of it that go into others or into the store.

use super::Maker;
use crate::measure::noun::counted;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::flow;
use crate::model::recipe::{HeadMakes, PartId};

/// What a batch makes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Makes {
    /// How many.
    pub pieces: Option<Number>,
    /// Of what.
    pub noun: Option<String>,
    /// What it weighs.
    pub mass: Option<Mass>,
    /// As printed: `24 buns`.
    pub shown: Shown,
}

impl Maker<'_> {
    /// What the batch makes; `None` where the recipe does not say.
    pub(super) fn makes(&self) -> Option<Makes> {
        if !self.formula.hands_over(self.recipe) {
            return Some(self.makes_parts());
        }
        let is_made = |id: &PartId| self.formula.is_made(*id);
        let last = || flow::ends(self.recipe).filter(is_made).last();
        let final_part = self.recipe.final_part().filter(is_made).or_else(last).or_else(|| self.recipe.final_part());
        let is_of_sort = final_part.and_then(|id| self.recipe.part(id)).is_some_and(|part| part.sort.is_some());
        // What others take of a dough before its last steps is handed to them, and comes to no pieces here.
        let stays = final_part.and_then(|id| self.reaches_end(id)).unwrap_or(Number::ONE);
        let of_stays = |mass: Mass| mass.times(stays).ok();
        let mass = match final_part.and_then(|id| self.formula.part(id)) {
            Some(_) if is_of_sort => self.formula.makes(self.recipe),
            solved => solved.and_then(|part| part.makes).and_then(of_stays),
        };
        let pieces = self.formula.pieces.and_then(|pieces| pieces.value().times(stays).ok());
        let noun = match &self.recipe.makes {
            Some(HeadMakes::Pieces { noun, .. }) => Some(noun.to_string()),
            _ => None,
        };
        let shown = match (pieces, &self.recipe.makes) {
            (Some(pieces), _) => {
                noun.as_ref().map_or_else(|| show::pieces(pieces), |noun| Shown::words(counted(pieces, noun)))
            }
            (None, _) => match mass {
                Some(mass) => show::mass_plain(mass),
                None => return None,
            },
        };
        Some(Makes { pieces, noun, mass, shown })
    }

    /// How much of a part comes to its last step, of 1: what others take of a dough before that does not.
    pub(super) fn reaches_end(&self, id: PartId) -> Option<Number> {
        let (part, solved) = (self.recipe.part(id)?, self.formula.part(id)?);
        solved.reach(part, id, part.steps.len().checked_sub(1)?).ok()
    }

    /// What is made of parts that go into other batches, or into the store: `2520 g of dough and 1300 g of filling`.
    fn makes_parts(&self) -> Makes {
        let is_made = |id: &PartId| self.formula.is_made(*id);
        let own = self.recipe.own_parts().filter(|(id, part)| is_made(id) && part.from.is_none());
        let ends = own.filter(|(id, _)| !self.recipe.users(*id).any(|(user, _)| is_made(&user)));
        let ends: Vec<(Option<Mass>, String)> = ends
            .map(|(id, part)| (self.formula.part(id).and_then(|solved| solved.makes), part.name.to_string()))
            .collect();
        let told = ends.iter().map(|(mass, name)| match mass {
            Some(mass) => format!("{} of {name}", show::mass_plain(*mass)),
            None => name.clone(),
        });
        let shown = Shown::words(show::list(&told.collect::<Vec<String>>()));
        let mass = match ends.as_slice() {
            [(mass, _)] => *mass,
            _ => None,
        };
        Makes { pieces: None, noun: None, mass, shown }
    }
}
