//! What remains of what there was, when as much as possible was made of it.

use crate::formula::Formula;
use crate::number::Overflow;
use crate::quantity::Mass;
use crate::recipe::{Recipe, Refers};
use crate::syntax::{Key, Name};

/// One ingredient of the stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remains {
    /// What.
    pub name: String,
    /// How much there was.
    pub had: Mass,
    /// How much the batch takes, in all its parts.
    pub used: Mass,
    /// How much is left.
    pub left: Mass,
}

/// What remains of each ingredient of `stock`; `formula` is the batch's.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn remains(recipe: &Recipe, formula: &Formula, stock: &[(Name, Mass)]) -> Result<Vec<Remains>, Overflow> {
    let mut all = Vec::with_capacity(stock.len());
    for (name, had) in stock {
        let used = used(recipe, formula, &name.key)?;
        all.push(Remains { name: name.to_string(), had: *had, used, left: had.minus(used)? });
    }
    Ok(all)
}

fn used(recipe: &Recipe, formula: &Formula, key: &Key) -> Result<Mass, Overflow> {
    let mut used = Mass::ZERO;
    // A preferment's ingredients are those of its total formula.
    for (id, part) in recipe.parts().filter(|(_, part)| part.from.is_none()) {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            if line.name.key == *key && matches!(line.refers, Refers::Pantry(_)) {
                used = used.plus(amount.mass.unwrap_or(Mass::ZERO))?;
            }
        }
    }
    Ok(used)
}
