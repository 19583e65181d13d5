//! What one piece weighs: where a part is divided, and where a step speaks of it.

use crate::measure::quantity::Mass;
use crate::measure::value::Value;
use crate::model::recipe::{Divide, LineAmount, PartId, Recipe, Refers};
use crate::model::step::Words;
use crate::text::source::Span;

/// What stands before a piece weight.
const BEFORE: &[&str] = &[
    "pieces of",
    "piece of",
    "pieces at",
    "portions of",
    "balls of",
    "rounds of",
    "buns of",
    "rolls of",
    "loaves of",
    "scale at",
    "scale to",
    "scaled at",
    "scaled to",
    "round at",
    "round up at",
    "shape at",
    "mould at",
    "weighing",
    "divide into",
    "cut at",
    "balls at",
    "ladle",
    "portion",
    "spoon",
];
/// What stands before one that can be nothing else, however far from it.
const SURELY: &[&str] =
    &["scale at", "scale to", "scaled at", "scaled to", "round at", "round up at", "shape at", "mould at"];
/// What stands behind one.
const BEHIND: &[&str] = &["piece", "pieces", "each", "portions", "balls", "rounds"];

/// A mass in a step's words that is said of pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spoken {
    /// Its place among the words.
    pub word: usize,
    /// The mass.
    pub mass: Mass,
    /// Where it stands.
    pub span: Span,
    /// Whether it can be nothing else, however far it is from what a piece weighs.
    pub surely: bool,
}

/// The part whose pieces a part's steps speak of, and how it is divided: by its own `divide`, else by that of the part that it takes
/// piece by piece; nothing where those are two.
pub fn divided(recipe: &Recipe, id: PartId) -> Option<(PartId, Divide)> {
    let part = recipe.part(id)?;
    if let Some(divide) = part.divide {
        return Some((id, divide));
    }
    let by_piece = part.lines.iter().filter(|line| {
        matches!(&line.amount, LineAmount::Said(said) if said.first().is_some_and(|said| matches!(said.value, Value::Count(_))))
    });
    let mut divides = by_piece.filter_map(|line| match line.refers {
        Refers::Part(other) => Some((other, recipe.part(other)?.divide?)),
        Refers::Pantry(_) => None,
    });
    let divide = divides.next()?;
    // With two kinds of pieces nobody can tell which is meant.
    divides.next().is_none().then_some(divide)
}

/// The masses among a step's words that are said of pieces.
pub fn spoken(words: &[Words]) -> Vec<Spoken> {
    let mut list = Vec::new();
    for (at, word) in words.iter().enumerate() {
        let Words::Measure(said) = word else { continue };
        let Some(first) = said.first() else { continue };
        let Value::Mass(mass) = first.value else { continue };
        let text = |at: Option<usize>| match at.and_then(|at| words.get(at)) {
            Some(Words::Text(text)) => text.to_lowercase(),
            _ => String::new(),
        };
        let before = text(at.checked_sub(1)).split_whitespace().collect::<Vec<_>>().join(" ");
        let behind = text(at.checked_add(1));
        let next = behind.split_whitespace().next().unwrap_or("").trim_matches(|c: char| !c.is_alphanumeric());
        if BEFORE.iter().any(|said| before.ends_with(said)) || BEHIND.contains(&next) {
            let surely = SURELY.iter().any(|said| before.ends_with(said));
            list.push(Spoken { word: at, mass, span: first.span, surely });
        }
    }
    list
}
