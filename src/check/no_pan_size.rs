//! `no-pan-size`: a batter poured into a tin of unknown size.

use super::dough::{is_called_batter, is_griddled};
use super::{Check, Family, Run, Subject};
use crate::measure::noun;
use crate::measure::unit::{Dimension, Unit};
use crate::model::cooking::{bakes, words_of};
use crate::model::recipe::Part;
use crate::model::step::{Step, Words};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_without_hyphens;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-pan-size",
    severity: Severity::Advice,
    family: Family::Kitchen,
    looks_for: "a batter that goes into a tin, a mould or a tray whose size is never given",
    why: "A batter is as deep as its tin is small: the same kilo is done in 25 minutes in a tray and raw in the middle in a \
          loaf tin. Give the size where the tin is filled: `a tin of {23 cm} by {13 cm}`, or its volume.",
    bad: "recipe Tray cake\nflour .... 500 g\nmilk .... 400 g\nmix: hands 10 min\n    Whisk {flour} and {milk} to a batter and pour it into a tin.\n    \
          until smooth\nbake: tend 30 min, using oven at 180 C\n    until springy\n",
    good: "recipe Tray cake\nflour .... 500 g\nmilk .... 400 g\nmix: hands 10 min\n    Whisk {flour} and {milk} to a batter and pour it into a tin \
           of {30 cm} by {20 cm}.\n    until smooth\nbake: tend 30 min, using oven at 180 C\n    until springy\n",
    sources: &[
        "4-H check sheet for recipes written in standard form; Minnesota Department of Education: number and size of pans",
    ],
    run: Run::Recipe(run),
};

/// What a batter is filled into, one of them.
const VESSELS: &[&str] = &["tin", "mould", "mold", "tray", "pan", "dish", "ring", "bundt", "ramekin", "springform"];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let users = subject.recipe.users(id).filter_map(|(user, _)| subject.recipe.part(user));
        let parts: Vec<&Part> = std::iter::once(part).chain(users).collect();
        let steps = || parts.iter().flat_map(|part| &part.steps);
        // `makes 24 squares, tin …` says it for all.
        if subject.recipe.pan.is_some() || parts.iter().any(|part| part.pan.is_some()) {
            continue;
        }
        if !is_called_batter(part) || is_griddled(part) || !steps().any(bakes) || steps().any(says_size) {
            continue;
        }
        let Some(fills) = steps().find(|step| names_vessel(step)) else { continue };
        diagnostics.push(
            Diagnostic::advice(
                CHECK.name,
                fills.name.span,
                format!("the batter of `{}` goes into a tin of unknown size", part.name),
            )
            .help("say its size where it is filled: `a tin of {23 cm} by {13 cm}`"),
        );
    }
}

fn names_vessel(step: &Step) -> bool {
    let is_vessel = |word: &str| VESSELS.iter().any(|one| noun::is_one_or_several(word, one));
    words_without_hyphens(words_of(step)).any(is_vessel)
}

/// A length, a volume, or digits before a unit of them or before the holes of a tin: `23cm`, `9-inch`, `23x33cm`, `12-hole`.
fn says_size(step: &Step) -> bool {
    let is_of_size = |dimension| matches!(dimension, Dimension::Length | Dimension::Volume);
    let is_unit = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric());
        ["inch", "inches", "hole", "holes"].contains(&word)
            || Unit::from_word(word).is_some_and(|unit| {
                unit.dimension() == Dimension::Length || matches!(unit, Unit::Litre | Unit::Millilitre)
            })
    };
    let ends_in_digit = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
    let glued = |word: &str| {
        let word = word.trim_end_matches(|c: char| !c.is_alphanumeric());
        let figure = word.trim_end_matches(char::is_alphabetic);
        ends_in_digit(figure) && word.strip_prefix(figure).is_some_and(is_unit)
    };
    step.words.iter().any(|word| match word {
        Words::Measure(said) => said.iter().any(|said| is_of_size(said.value.dimension())),
        Words::Text(text) => {
            let words: Vec<&str> = text.split([' ', '-', '\n']).collect();
            let parted = |pair: &[&str]| matches!(pair, [number, unit] if ends_in_digit(number) && is_unit(unit));
            words.iter().any(|word| glued(word)) || words.windows(2).any(parted)
        }
        Words::Use { .. } => false,
    })
}
