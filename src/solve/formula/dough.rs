//! Of which parts shares on flour mean something: of what is mixed with flour, and not of what is put together of it.

use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Part, PartId, Recipe, Refers, Sort};

impl Formula {
    /// Whether water, salt, sugar and fat on the flour of a part say anything to anybody: it is no filled bun, no cake with its cream,
    /// and no slab of butter with dust on it.
    pub fn is_mix(&self, recipe: &Recipe, id: PartId) -> bool {
        let (Some(part), Some(solved)) = (recipe.part(id), self.part(id)) else { return false };
        let floury = solved
            .goes_in
            .is_none_or(|total| solved.composition.flour.times(Number::whole(20)).is_ok_and(|flour| flour >= total));
        let put_together = part.lines.iter().any(|line| match line.refers {
            Refers::Part(other) => self.is_baked(recipe, other),
            Refers::Pantry(_) => false,
        });
        // A dough with what is put on it: no flour goes in that is not in the dough already.
        let own_flour = part.lines.iter().any(|line| line.is_flour && line.part().is_none() && !line.aside);
        let topped = !own_flour && part.lines.iter().any(|line| line.part().is_some());
        !part.per_piece && floury && !put_together && !topped
    }

    /// Whether a part with flour has been baked when another takes it.
    fn is_baked(&self, recipe: &Recipe, id: PartId) -> bool {
        let flour = self.part(id).is_some_and(|solved| solved.composition.flour > Mass::ZERO);
        let steps = recipe.part(id).map_or(&[][..], |part| &part.steps);
        flour && steps.iter().any(|step| step.name.has_word_beginning(beginnings!["bak"]))
    }
}

impl SolvedPart {
    /// What a piece of one of its sorts weighs: as it is written, a little more or less where all of an ingredient is used up in
    /// whole pieces. How much of the part is made says nothing of it: some of what is divided may come from the store.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn each_of(&self, sort: &Sort) -> Result<Mass, Overflow> {
        self.heavier.map_or(Ok(sort.each), |heavier| sort.each.times(heavier))
    }

    /// What all pieces of all its sorts weigh together.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn of_all_sorts(&self, part: &Part) -> Result<Mass, Overflow> {
        let mut all = Mass::ZERO;
        for (sort, count) in part.sorts.iter().zip(&self.sorts) {
            all = all.plus(self.each_of(sort)?.times(count.value())?)?;
        }
        Ok(all)
    }
}
