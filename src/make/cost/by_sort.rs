//! What one piece of each sort costs, where several sizes or fillings are made of one dough.

use super::PartCost;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::model::flow::DEEPEST;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use std::collections::HashMap;

/// The pieces of one sort.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SortCost {
    /// What the sort is called.
    pub sort: String,
    /// How many there are.
    pub pieces: Count,
    /// What one costs.
    pub each: Number,
}

/// What a piece of each sort costs, given what each part's own ingredients cost. Empty where there are no sorts, and where they are
/// not made in this batch from end to end.
///
/// What is made of a part pays for all of it, by weight: also for what is lost or left over.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn of(
    recipe: &Recipe,
    formula: &Formula,
    own: &HashMap<PartId, &PartCost>,
) -> Result<Vec<SortCost>, Overflow> {
    let Some((dough, part)) = recipe.own_parts().find(|(_, part)| !part.sorts.is_empty()) else {
        return Ok(Vec::new());
    };
    let is_made = |id: PartId| formula.is_made(id);
    let counts = formula.part(dough).map_or(&[][..], |part| &part.sorts);
    let wanted: Vec<_> = part.sorts.iter().zip(counts).filter(|(_, count)| count.value().is_positive()).collect();
    if !is_made(dough) || wanted.is_empty() {
        return Ok(Vec::new());
    }
    let of_sort = |part: &Part, sort| part.sort.as_ref().is_some_and(|of| of.same(sort));
    let mut shares = Shares { recipe, formula, own, used: HashMap::new(), whole: HashMap::new() };
    shares.count_uses()?;
    let mut all = Vec::with_capacity(wanted.len());
    for (sort, count) in wanted {
        let mut whole = Number::ZERO;
        let parts: Vec<PartId> =
            recipe.own_parts().filter(|(_, part)| of_sort(part, &sort.name)).map(|(id, _)| id).collect();
        if parts.is_empty() || parts.iter().any(|id| !is_made(*id)) {
            return Ok(Vec::new());
        }
        // What goes into another part of the same sort is paid for there.
        for id in parts.iter().filter(|id| !recipe.users(**id).any(|(user, _)| parts.contains(&user))) {
            let Some(cost) = shares.whole(*id, 0)? else { return Ok(Vec::new()) };
            whole = whole.plus(cost)?;
        }
        all.push(SortCost { sort: sort.name.to_string(), pieces: *count, each: whole.over(count.value())? });
    }
    Ok(all)
}

/// How the cost of each part is shared by those who take it.
struct Shares<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    own: &'a HashMap<PartId, &'a PartCost>,
    /// How much of each part is taken in all.
    used: HashMap<PartId, Mass>,
    /// What parts cost with all that is in them.
    whole: HashMap<PartId, Number>,
}

impl Shares<'_> {
    fn add(&mut self, id: PartId, mass: Mass) -> Result<(), Overflow> {
        let slot = self.used.entry(id).or_insert(Mass::ZERO);
        *slot = slot.plus(mass)?;
        Ok(())
    }

    fn count_uses(&mut self) -> Result<(), Overflow> {
        for (id, _) in self.formula.made(self.recipe) {
            for (inner, mass) in self.takes(id) {
                self.add(inner, mass)?;
            }
        }
        Ok(())
    }

    /// What a part takes of others that are made here; of what is taken out of a total formula, the total formula says it.
    fn takes(&self, id: PartId) -> Vec<(PartId, Mass)> {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Vec::new() };
        let lines = part.lines.iter().zip(&solved.lines).filter(|(line, _)| part.from.is_none() && !line.from_store);
        lines
            .filter_map(|(line, amount)| match line.refers {
                Refers::Part(inner) => Some((inner, amount.mass?)),
                Refers::Pantry(_) => None,
            })
            .filter(|(inner, _)| self.formula.is_made(*inner))
            .collect()
    }

    /// What so much of a part costs; `None` where parts lie too deep in one another.
    fn of(&mut self, id: PartId, mass: Mass, depth: usize) -> Result<Option<Number>, Overflow> {
        let Some(whole) = self.whole(id, depth)? else { return Ok(None) };
        let used = self.used.get(&id).copied().filter(|used| *used > Mass::ZERO);
        used.map_or(Ok(Some(whole)), |used| whole.times(mass.ratio(used)?).map(Some))
    }

    /// What a part costs with all that is in it.
    fn whole(&mut self, id: PartId, depth: usize) -> Result<Option<Number>, Overflow> {
        if let Some(known) = self.whole.get(&id) {
            return Ok(Some(*known));
        }
        if depth > DEEPEST {
            return Ok(None);
        }
        let preferments = self.recipe.preferments(id).map(|(preferment, _)| preferment);
        let mut sum = Number::ZERO;
        for own in preferments.chain([id]).filter_map(|id| self.own.get(&id)) {
            sum = sum.plus(own.cost)?;
        }
        for (inner, mass) in self.takes(id) {
            let Some(cost) = self.of(inner, mass, depth + 1)? else { return Ok(None) };
            sum = sum.plus(cost)?;
        }
        self.whole.insert(id, sum);
        Ok(Some(sum))
    }
}
