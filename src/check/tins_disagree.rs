//! `tins-disagree`: a tin of one size in `makes` and of another in the steps.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::pan::Pan;
use crate::measure::quantity::Length;
use crate::measure::show::{self, Units};
use crate::measure::value::{Said, Value};
use crate::model::step::{Step, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "tins-disagree",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "a tin whose sides in `makes` are not those that the steps say",
    why: "Dough for one tin goes into another. The size in `makes` is what is scaled by; the size in the steps is what is read at \
          the bench. Both come from one tin.",
    bad: "recipe Tin loaf\nmakes 1 loaf, tin 32 cm x 13 cm x 7 cm\nflour .... 500 g\nwater .... 65 %\ndivide 1 x 825 g\nmix: hands 10 min\n    \
          Mix {flour} and {water} and lay the dough in a tin of {23 cm} by {13 cm}.\n    until smooth\n",
    good: "recipe Tin loaf\nmakes 1 loaf, tin 23 cm x 13 cm x 7 cm\nflour .... 500 g\nwater .... 65 %\ndivide 1 x 825 g\nmix: hands 10 min\n    \
           Mix {flour} and {water} and lay the dough in a tin of {23 cm} by {13 cm}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let Some(baked_in) = part.pan.or(subject.recipe.pan) else { continue };
        if let Pan::Round(across, _) = baked_in.pan {
            let odd = part.steps.iter().flat_map(rounds).filter(|(_, other)| is_another(across, *other));
            diagnostics.extend(odd.map(|(said, other)| {
                let shown = |length: Length| show::length(length, Units::Metric);
                let message = format!("a tin of {} here, and of {} in `makes`", shown(other), shown(across));
                Diagnostic::warning(CHECK.name, said.span, message)
                    .also(baked_in.span, "the tin that is scaled by")
                    .help("write the same tin in both places")
            }));
        }
        let (Pan::Tin(long, wide, _) | Pan::Sheet(long, wide)) = baked_in.pan else { continue };
        for step in &part.steps {
            for (one, a, other, b) in sides(step) {
                let same = (a.min(b), a.max(b)) == (long.min(wide), long.max(wide));
                if same {
                    continue;
                }
                let by = |a: Length, b: Length| {
                    format!("{} by {}", show::length(a, Units::Metric), show::length(b, Units::Metric))
                };
                let message = format!("a tin of {} here, and of {} in `makes`", by(a, b), by(long, wide));
                diagnostics.push(
                    Diagnostic::warning(CHECK.name, one.span.to(other.span), message)
                        .also(baked_in.span, "the tin that is scaled by")
                        .help("write the same tin in both places"),
                );
            }
        }
    }
}

/// Whether one round tin is half as wide again as the other: a sponge is baked a little wider than its ring, and cut out.
fn is_another(one: Length, other: Length) -> bool {
    let (small, large) = (one.min(other).value(), one.max(other).value());
    large
        .times(Number::whole(2))
        .is_ok_and(|double| small.times(Number::whole(3)).is_ok_and(|threefold| double > threefold))
}

/// Single lengths in a step's words that stand right after a tin: `a tin of {20 cm}`, and no `{23 cm} by {13 cm}`.
fn rounds(step: &Step) -> Vec<(Said, Length)> {
    let mut found = Vec::new();
    for (at, two) in step.words.windows(2).enumerate() {
        let [Words::Text(before), Words::Measure(said)] = two else { continue };
        let mut last_words = before.split_whitespace().rev().take(2);
        let is_tin =
            |word: &str| ["tin", "tins", "ring", "rings"].contains(&word.trim_matches(|c: char| !c.is_alphanumeric()));
        let goes_on = match step.words.get(at + 2) {
            Some(Words::Text(behind)) => ["by", "x", "×"].iter().any(|joint| behind.trim() == *joint),
            _ => false,
        };
        if let Some(said) = said.first().filter(|_| last_words.any(is_tin) && !goes_on)
            && let Value::Length(length) = said.value
        {
            found.push((*said, length));
        }
    }
    found
}

/// Pairs of lengths in a step's words that stand right after a tin: `a tin of {23 cm} by {13 cm}`.
fn sides(step: &Step) -> impl Iterator<Item = (Said, Length, Said, Length)> + '_ {
    step.words.windows(4).filter_map(|four| {
        let [Words::Text(before), Words::Measure(one), Words::Text(between), Words::Measure(other)] = four else {
            return None;
        };
        let last_words: Vec<&str> = before.split_whitespace().rev().take(2).collect();
        let of_tin =
            last_words.iter().any(|word| ["tin", "tins"].contains(&word.trim_matches(|c: char| !c.is_alphanumeric())));
        if !of_tin || !["by", "x", "×"].contains(&between.trim()) {
            return None;
        }
        let length = |said: &[Said]| match said.first() {
            Some(said) => match said.value {
                Value::Length(length) => Some((*said, length)),
                _ => None,
            },
            None => None,
        };
        let ((one, a), (other, b)) = (length(one)?, length(other)?);
        Some((one, a, other, b))
    })
}
