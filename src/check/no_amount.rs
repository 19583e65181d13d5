//! `no-amount`: nothing at all of something, or as much as needed of what a dish is made of.

use super::dough::is_dough;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, LineAmount, Part, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-amount",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a line with an amount of zero; the only flour of a part, a leaven, flesh, dough or a vegetable `to taste` or `as needed`; the salt of a \
                raised dough so",
    why: "Salt, herbs and sugar are seasoned with, and flour for the board is taken as needed. What the dish is made of has an amount, \
          or nothing can be bought, weighed or scaled. Mostly two amounts were swapped, or a digit is gone. What is `aside` or \
          `optional` is left alone, and so are garlic, herbs and the like. It is advice: if it is meant so, \
          `# allow no-amount: reason` above the line keeps it quiet.",
    bad: "recipe Leek pot\nleek .... to taste\nwater .... 2 l\nsalt .... 20 g\nboil: tend 20 min, using hob\n    Boil {leek} in {water} with \
          {salt}.\n    until soft\n",
    good: "recipe Leek pot\nleek .... 1 kg\nwater .... 2 l\nsalt .... to taste\nboil: tend 20 min, using hob\n    Boil {leek} in {water} with \
           {salt}.\n    until soft\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// Who kneads a dough cannot taste its way to the salt, and the salt that is strewn on it is `aside`.
fn is_salt_of_dough(part: &Part, line: &Ingredient) -> bool {
    let weighed =
        |other: &Ingredient| other.kind == Kind::Salt && matches!(other.amount, LineAmount::Said(_) | LineAmount::All);
    line.kind == Kind::Salt
        && !line.aside
        && !line.optional
        && part.divide.is_some()
        && !part.per_piece
        && !part.lines.iter().any(weighed)
}

/// Vegetables with which one seasons.
const SEASONS: &Beginnings = &Beginnings::of(&[
    "garlic",
    "chilli",
    "chili",
    "ginger",
    "horseradish",
    "shallot",
    "onion",
    "chive",
    "herb",
    "parsley",
    "cress",
    "radish",
    "pepper",
    "leaf",
    "leaves",
    "caper",
    "olive",
    "pickle",
    "gherkin",
    "jalape",
    "wasabi",
    "mint",
    "basil",
    "dill",
    "coriander",
    "garnish",
    "salad",
    "greens",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let dough = || subject.fermented().has(id) && is_dough(part, solved);
        let is_body = |line: &Ingredient| is_body(subject, part, line) || (is_salt_of_dough(part, line) && dough());
        for line in &part.lines {
            let what = match &line.amount {
                LineAmount::Said(said) if said.iter().any(|said| said.value.number() == Number::ZERO) => {
                    "nothing at all"
                }
                LineAmount::ToTaste if is_body(line) => "no amount, only `to taste`",
                LineAmount::AsNeeded if is_body(line) => "no amount, only `as needed`",
                // What is left of it is a share of what is taken.
                LineAmount::ToTaste | LineAmount::AsNeeded if line.leaves.is_some() => {
                    "no amount, and something is to be left,"
                }
                _ => continue,
            };
            diagnostics.push(
                Diagnostic::advice(
                    CHECK.name,
                    line.amount_span,
                    format!("there is {what} of {} in `{}`", line.name, part.name),
                )
                .help("look whether two amounts are swapped or a digit is missing; what only garnishes is `aside`"),
            );
        }
    }
}

/// Whether it is something of which a dish is made, and not a seasoning or flour for the board.
fn is_body(subject: &Subject<'_>, part: &Part, line: &Ingredient) -> bool {
    // Nobody strews baking soda over anything.
    if matches!(line.kind, Kind::Soda | Kind::BakingPowder | Kind::Yeast(_)) && line.amount == LineAmount::ToTaste {
        return true;
    }
    if line.aside || line.optional || line.strained_out {
        return false;
    }
    if let Refers::Part(of) = line.refers {
        let of_flour = subject.formula.part(of).is_some_and(|part| part.composition.flour > Mass::ZERO);
        return of_flour || subject.recipe.part(of).is_some_and(|part| part.divide.is_some());
    }
    let other_flour =
        || part.lines.iter().any(|line| line.is_flour && matches!(line.amount, LineAmount::Said(_) | LineAmount::All));
    match line.kind {
        Kind::Flour => !other_flour() && part.lines.len() > 2,
        Kind::Vegetable => !line.name.has_word_beginning(SEASONS),
        kind => kind.is_flesh() || kind.raises() || matches!(kind, Kind::Bread | Kind::Pulse),
    }
}
