//! By the piece, fat that weighs as much as the bought pastry or bread that it is spread on or folded into, with all that lies in it.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Said;
use crate::model::cooking::{beginnings, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, LineAmount, Part};
use crate::text::diagnostic::Diagnostic;

/// What is bought and filled or spread, by the beginnings of words.
const CASES: &Beginnings = &Beginnings::of(&[
    "pastry", "filo", "phyllo", "bread", "toast", "roll|", "bun|", "tortilla", "wrap|", "pitta", "pita|", "cracker",
    "oatcake", "muffin", "bagel", "brioche", "baguette", "dough", "crumpet",
]);

/// More of it than four fifths of all else. Common practice, no source: filo is brushed with a third of its weight, bread is spread with a sixth.
const MOST: Number = Number::constant(4, 5);

pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    let is_case = |line: &Ingredient| line.kind == Kind::Bread || line.name.has_word_beginning(CASES);
    let is_fat = |line: &Ingredient| line.kind == Kind::Fat && line.stays_in() && !line.is_to_fry_in();
    let mass = |line: &Ingredient| match &line.amount {
        LineAmount::Said(said) => said.first().and_then(Said::mass),
        _ => None,
    };
    if !part.lines.iter().any(is_case) || some_says(part, beginnings!["fry", "fried", "confit", "poach"]) {
        return None;
    }
    let fat = part.lines.iter().filter(|line| is_fat(line)).max_by_key(|line| mass(line))?;
    let rest: Option<Vec<Mass>> = part.lines.iter().filter(|line| !is_fat(line) && line.stays_in()).map(mass).collect();
    let (own, rest) = (mass(fat)?, Mass::sum(rest?).ok()?);
    (own > rest.times(MOST).ok()?).then(|| {
        let message =
            format!("{} of {} on {} of all else in a piece", show::mass_plain(own), fat.name, show::mass_plain(rest));
        Diagnostic::advice(CHECK.name, fat.amount_span, message)
            .help("in a part by the piece, amounts are for one piece; look whether a digit has slipped")
    })
}
