//! `odd-size`: a sheet ten times as long as it is wide.

use super::{Check, Family, Run};
use crate::language::evaluate::evaluate;
use crate::language::syntax::{Content, PanKind, Piece, Quantity, Tree, WrittenPan};
use crate::measure::number::Number;
use crate::measure::quantity::Length;
use crate::measure::show::{self, Units};
use crate::measure::value::{Said, Value};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-size",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a size such as `{40 cm} by {30 mm}` whose one side is ten times the other or more, and tins, pots and rings of less than 3 or more than 45 cm (a `round` in the head 55)",
    why: "A dough is rolled to 40 cm by 30 cm; 40 cm by 30 mm is a strap. One of the two has the wrong unit. Where it is meant \
          so, `# allow odd-size: reason` above the line keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nroll: hands 10 min\n    Mix {flour} and {water}, and roll to {40 cm} by {30 mm}.\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nroll: hands 10 min\n    Mix {flour} and {water}, and roll to {40 cm} by {30 cm}.\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    for line in &tree.lines {
        if let Content::Makes { pan: Some(pan), .. } = &line.content {
            diagnostics.extend(odd_round(pan));
        }
        let (Content::Prose(pieces) | Content::Until(pieces)) = &line.content else { continue };
        for three in pieces.windows(3) {
            let [Piece::Measure(one), Piece::Text(between), Piece::Measure(other)] = three else { continue };
            if ["by", "x", "×"].contains(&between.trim()) {
                diagnostics.extend(uneven(one, other));
            }
        }
        for two in pieces.windows(2) {
            if let [Piece::Text(before), Piece::Measure(size)] = two {
                diagnostics.extend(odd_tin(before, size));
            }
        }
    }
}

/// What is filled and holds one piece, by the last words before its size: `tins of {8 cm}`.
const TINS: &[&str] = &[
    "tin of",
    "tins of",
    "pot of",
    "pots of",
    "ring of",
    "rings of",
    "basin of",
    "basins of",
    "mould of",
    "moulds of",
    "ramekins of",
    "dish of",
    "dishes of",
    "cases of",
];
/// From and to how many millimetres these are wide.
const TIN: (i64, i64) = (30, 450);

/// A tin of 1 cm, or of half a metre.
fn odd_tin(before: &str, size: &[Quantity]) -> Option<Diagnostic> {
    let words = before.trim_end().to_lowercase();
    TINS.iter().any(|tin| words.ends_with(tin)).then_some(())?;
    odd_width(&evaluate(size.first()?, None, &mut Vec::new())?, TIN.1)
}

/// So many millimetres are the widest of pizzas.
const ROUND: i64 = 550;

/// A round tin in the head that is wider: no cake of it bakes through.
fn odd_round(pan: &WrittenPan) -> Option<Diagnostic> {
    let first = pan.measures.first().filter(|_| pan.kind == PanKind::Round)?;
    odd_width(&evaluate(first, None, &mut Vec::new())?, ROUND)
}

fn odd_width(said: &Said, most: i64) -> Option<Diagnostic> {
    let Value::Length(length) = said.value else { return None };
    let (low, high) = (Length::new(Number::whole(TIN.0)), Length::new(Number::whole(most)));
    if length >= low && length <= high {
        return None;
    }
    let (low, high) = (show::length(low, Units::Metric), show::length(high, Units::Metric));
    let message =
        format!("{} is unusual for what is filled: common are {low} to {high}", show::length(length, Units::Metric));
    Some(
        Diagnostic::advice(CHECK.name, said.span, message)
            .help("look whether a digit has slipped, and whether the unit is right, mm, cm or in"),
    )
}

fn uneven(one: &[Quantity], other: &[Quantity]) -> Option<Diagnostic> {
    let length = |quantities: &[Quantity]| -> Option<(Said, Length)> {
        let said = evaluate(quantities.first()?, None, &mut Vec::new())?;
        match said.value {
            Value::Length(length) if length.value().is_positive() => Some((said, length)),
            _ => None,
        }
    };
    let ((one, a), (other, b)) = (length(one)?, length(other)?);
    let times = a.max(b).ratio(a.min(b)).ok()?;
    if times < Number::whole(10) {
        return None;
    }
    let message = format!(
        "{} by {}: one side is {} times the other",
        show::length(a, Units::Metric),
        show::length(b, Units::Metric),
        times.decimal(0)
    );
    Some(
        Diagnostic::advice(CHECK.name, other.span, message)
            .also(one.span, "the other side")
            .help("look whether both are meant in the same unit"),
    )
}
