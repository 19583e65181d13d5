//! What was left without an amount, so that nothing that a file lists can vanish without a word.

use super::Formula;
use crate::model::recipe::{LineAmount, PartId, Recipe, Refers};
use crate::text::source::Span;

/// An amount that could not be found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsettled {
    /// The line.
    pub span: Span,
    /// What is missing, in a sentence.
    pub why: String,
}

/// Every line of the recipe's own parts that has neither a weight nor a volume nor a number, and is not meant to have none; and
/// every line that takes of a part of another file of which nothing can be made.
pub fn of(recipe: &Recipe, formula: &Formula) -> Vec<Unsettled> {
    let mut all = Vec::new();
    for (id, part) in recipe.parts().filter(|(_, part)| part.foreign.is_none()) {
        let lines = formula.part(id).map_or(&[][..], |solved| &solved.lines);
        for (at, line) in part.lines.iter().enumerate() {
            if matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded) {
                continue;
            }
            let has_amount = lines.get(at).is_some_and(|line| line.mass.is_some() || line.natural.is_some());
            let why = match line.refers {
                Refers::Part(other) if !is_made(recipe, formula, other) => {
                    format!("how much `{}` makes is not known, so what goes into it cannot be worked out", line.name)
                }
                _ if !has_amount => format!("how much `{}` goes into `{}` cannot be worked out", line.name, part.name),
                _ => continue,
            };
            all.push(Unsettled { span: line.amount_span, why });
        }
    }
    all
}

/// Whether a part that others draw on has amounts; one of this recipe is looked at line by line.
fn is_made(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id).filter(|part| part.foreign.is_some()) else { return true };
    formula
        .part(id)
        .is_some_and(|solved| solved.is_settled && (part.lines.is_empty() || solved.lines.len() == part.lines.len()))
}
