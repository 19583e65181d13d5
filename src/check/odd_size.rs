//! `odd-size`: a sheet ten times as long as it is wide.

use super::{Check, Family, Run};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::show::{self, Units};
use crate::language::syntax::{Content, Piece, Quantity, Tree};
use crate::measure::value::{Said, Value};
use crate::language::evaluate::evaluate;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-size",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a size such as `{40 cm} by {30 mm}` whose one side is ten times the other or more",
    why: "A dough is rolled to 40 cm by 30 cm; 40 cm by 30 mm is a strap. One of the two has the wrong unit. Where it is meant \
          so, `# allow odd-size: reason` above the line keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nroll: hands 10 min\n    Mix {flour} and {water}, and roll to {40 cm} by {30 mm}.\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nroll: hands 10 min\n    Mix {flour} and {water}, and roll to {40 cm} by {30 cm}.\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    for line in &tree.lines {
        let (Content::Prose(pieces) | Content::Until(pieces)) = &line.content else { continue };
        for three in pieces.windows(3) {
            let [Piece::Measure(one), Piece::Text(between), Piece::Measure(other)] = three else { continue };
            if ["by", "x", "×"].contains(&between.trim()) {
                diagnostics.extend(uneven(one, other));
            }
        }
    }
}

fn uneven(one: &[Quantity], other: &[Quantity]) -> Option<Diagnostic> {
    let length = |quantities: &[Quantity]| -> Option<(Said, crate::measure::quantity::Length)> {
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
