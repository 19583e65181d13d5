//! What a part is made of in the end: its own ingredients and those of the parts in it, each with how much of it is there.

use super::{Formula, composition};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};

/// An ingredient in a part, or in a part of it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Leaf<'r> {
    /// The line that brings it.
    pub line: &'r Ingredient,
    /// How much of it is there.
    pub mass: Mass,
}

/// What is counted of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Counted {
    /// What goes in and stays in.
    GoesIn,
    /// What of that is in what comes out, of everything but water.
    ComesOut,
    /// All that is paid for, also what is strewn, strained out or lost.
    Paid,
}

impl Counted {
    fn has(self, line: &Ingredient) -> bool {
        self == Counted::Paid || line.stays_in()
    }
}

/// The lines of a part and of the parts in it, each with how much of it a whole batch of the part holds.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(crate) fn leaves<'r>(
    recipe: &'r Recipe,
    formula: &Formula,
    id: PartId,
    counted: Counted,
) -> Result<Vec<Leaf<'r>>, Overflow> {
    let mut times = vec![Number::ZERO; recipe.parts.len()];
    let all = Number::ONE;
    let first = if counted == Counted::ComesOut { kept(recipe, formula, id)? } else { all };
    if let Some(slot) = times.get_mut(id.0) {
        *slot = first;
    }
    let mut found = Vec::new();
    // A part before those in it, so that what is drawn on in two ways is walked once.
    for id in above_to_below(recipe, id) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        let share = times.get(id.0).copied().unwrap_or(Number::ZERO);
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let Some(mass) = amount.mass.filter(|_| counted.has(line)) else { continue };
            let mass = mass.times(share)?;
            match line.refers {
                Refers::Pantry(_) => found.push(Leaf { line, mass }),
                // A preferment's lines stand in the total formula already.
                Refers::Part(other) if recipe.part(other).is_some_and(|inner| inner.from == Some(id)) => {}
                Refers::Part(other) => {
                    let taken = taken(recipe, formula, other, mass, counted)?;
                    if let Some(slot) = times.get_mut(other.0) {
                        *slot = slot.plus(taken)?;
                    }
                }
            }
        }
    }
    Ok(found)
}

/// How many batches of a part so much of it is, counted by what stays of its ingredients or by what is paid for them.
fn taken(recipe: &Recipe, formula: &Formula, id: PartId, mass: Mass, counted: Counted) -> Result<Number, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(Number::ZERO) };
    let whole =
        if counted == Counted::Paid { solved.makes.unwrap_or(solved.comes_out.total) } else { solved.comes_out.total };
    if whole <= Mass::ZERO {
        return Ok(Number::ZERO);
    }
    let batches = mass.ratio(whole)?;
    if counted == Counted::Paid { Ok(batches) } else { batches.times(kept(recipe, formula, id)?) }
}

fn kept(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Number, Overflow> {
    match (recipe.part(id), formula.part(id)) {
        (Some(part), Some(solved)) => composition::kept(part, solved, solved.composition),
        _ => Ok(Number::ONE),
    }
}

/// A part and all that it draws on, each before what stands in it. Rings were reported and end here.
fn above_to_below(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    let inside = |part: &Part| -> Vec<PartId> {
        let drawn = part.lines.iter().filter_map(Ingredient::part);
        drawn.collect()
    };
    let (mut done, mut seen) = (Vec::new(), vec![false; recipe.parts.len()]);
    // Each part waits on the stack with what is left to go through in it.
    let mut open: Vec<(PartId, Vec<PartId>)> = Vec::new();
    let mut next = Some(id);
    loop {
        if let Some(id) = next.take()
            && let Some(slot) = seen.get_mut(id.0)
            && !std::mem::replace(slot, true)
        {
            open.push((id, recipe.part(id).map(inside).unwrap_or_default()));
        }
        let Some((id, left)) = open.last_mut() else { break };
        match left.pop() {
            Some(other) => next = Some(other),
            None => {
                done.push(*id);
                open.pop();
            }
        }
    }
    done.reverse();
    done
}
