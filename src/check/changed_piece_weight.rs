//! `changed-piece-weight`: a piece weight in the prose that is not the one of the formula.

use super::{Check, Family, Run, Subject};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::recipe::{LineAmount, Part, Recipe, Refers};
use crate::measure::show;
use crate::text::source::Span;
use crate::model::step::{Step, Words};
use crate::measure::value::Value;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "changed-piece-weight",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a piece weight in the prose that differs from what `divide` says",
    why: "The batch is worked out for pieces of 78 g. If the bench is told to scale at 82 g, the dough ends two pieces early. \
          Both have to change together.",
    bad: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\ndivide 10 x 79 g, loss 1 %\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\nshape: hands 1 min, each\n    Round into pieces of {82 g}.\n",
    good: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\ndivide 10 x 79 g, loss 1 %\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\nshape: hands 1 min, each\n    Round into pieces of {79 g}.\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

/// What stands before a piece weight.
const BEFORE: &[&str] = &[
    "pieces of", "piece of", "pieces at", "portions of", "balls of", "rounds of", "buns of", "rolls of", "loaves of", "scale at",
    "scale to", "scaled at", "scaled to", "weighing", "divide into", "cut at", "ladle", "portion", "spoon",
];
/// What stands before one that can be nothing else, however far from it.
const SURELY: &[&str] = &["scale at", "scale to", "scaled at", "scaled to"];
/// What stands behind one.
const BEHIND: &[&str] = &["piece", "pieces", "each", "portions", "balls", "rounds"];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let Some((each, span)) = piece_weight(subject.recipe, part) else { continue };
        for step in &part.steps {
            for (said, at, surely) in spoken(step) {
                diagnostics.extend(differs(step, (said, at, surely), each, span));
            }
        }
    }
}

/// What one piece of a part weighs: by its own `divide`, else by that of the part it takes piece by piece.
fn piece_weight(recipe: &Recipe, part: &Part) -> Option<(Mass, Span)> {
    if let Some(divide) = part.divide {
        return Some((divide.each, divide.span));
    }
    let by_piece = part.lines.iter().filter(|line| {
        matches!(&line.amount, LineAmount::Said(said) if said.first().is_some_and(|said| matches!(said.value, Value::Count(_))))
    });
    let mut divides = by_piece.filter_map(|line| match line.refers {
        Refers::Part(other) => recipe.part(other)?.divide,
        Refers::Pantry(_) => None,
    });
    let divide = divides.next()?;
    // With two kinds of pieces nobody can tell which is meant.
    divides.next().is_none().then_some((divide.each, divide.span))
}

/// The masses in a step's prose that are said of pieces, and whether they can be nothing else.
fn spoken(step: &Step) -> Vec<(Mass, Span, bool)> {
    let mut list = Vec::new();
    for (at, word) in step.words.iter().enumerate() {
        let Words::Measure(said) = word else { continue };
        let Some(first) = said.first() else { continue };
        let Value::Mass(mass) = first.value else { continue };
        let text = |at: Option<usize>| match at.and_then(|at| step.words.get(at)) {
            Some(Words::Text(text)) => text.to_lowercase(),
            _ => String::new(),
        };
        let before = text(at.checked_sub(1)).split_whitespace().collect::<Vec<_>>().join(" ");
        let behind = text(at.checked_add(1));
        let next = behind.split_whitespace().next().unwrap_or("").trim_matches(|c: char| !c.is_alphanumeric());
        if BEFORE.iter().any(|said| before.ends_with(said)) || BEHIND.contains(&next) {
            list.push((mass, first.span, SURELY.iter().any(|said| before.ends_with(said))));
        }
    }
    list
}

fn differs(step: &Step, (said, at, surely): (Mass, Span, bool), each: Mass, span: Span) -> Option<Diagnostic> {
    let ratio = said.ratio(each).ok()?;
    let apart = ratio.minus(Number::ONE).ok()?.size();
    let far = Number::whole(if surely { 5 } else { 2 });
    let near = ratio <= far && Number::ONE.over(far).is_ok_and(|least| ratio >= least);
    // Two whole grams are not the rounding of each other; ounces may be.
    let rounded = !(said.value().is_whole() && each.value().is_whole()) && apart <= Number::constant(1, 100);
    // Somewhat far from it, something else is weighed: a first rough cut, or a portion of filling. A hundred times it is
    // another unit.
    let wrong_unit = ratio >= Number::whole(100) || ratio <= Number::constant(1, 100);
    if said == each || rounded || !(near || wrong_unit) {
        return None;
    }
    let message = format!(
        "`{}` says pieces of {}, but the formula is divided into pieces of {}",
        step.name,
        show::mass_plain(said),
        show::mass_plain(each)
    );
    Some(
        Diagnostic::warning(CHECK.name, at, message)
            .also(span, format!("{} each", show::mass_plain(each)))
            .help("make the two weights the same"),
    )
}
