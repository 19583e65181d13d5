//! `odd-aim`: an aim that is said twice, or that so much meets that it holds nothing.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::model::aim::{Aim, AimUnit};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-aim",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "two aims of one part for the same figure, and an aim whose upper end is four times the lower or more",
    why: "Of `aim hydration 66-68 %` a slipped point makes 66-680 %, which every dough meets: the aim is there and holds nothing. And of two \
          aims for one figure the one that somebody changes is not always the one that counts; write one, `aim salt 1.8-2.1 %`. Where it is \
          meant so, `# allow odd-aim: reason` above the line keeps it quiet.",
    bad: "recipe Buns\nmakes 20 buns\naim hydration 66-680 %\nstrong white flour .... 1 kg\nwater .... 670 g\nsalt .... 20 g\ninstant yeast .... 10 \
          g\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    good: "recipe Buns\nmakes 20 buns\naim hydration 66-68 %\nstrong white flour .... 1 kg\nwater .... 670 g\nsalt .... 20 g\ninstant yeast .... 10 \
           g\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// So many times the lower end, the upper one is no bound. Of a trace, such as saffron, a range may be wide.
const WIDE: Number = Number::whole(4);
const TRACE: Number = Number::ONE;

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let groups = std::iter::once(&recipe.aims).chain(recipe.own_parts().map(|(_, part)| &part.aims));
    for aims in groups {
        for (at, aim) in aims.iter().enumerate() {
            diagnostics.extend(aims.iter().take(at).find(|first| is_same(first, aim)).map(|first| twice(first, aim)));
            diagnostics.extend(wide(aim));
        }
    }
}

/// Whether two aims bound the same figure: one from below and one from above are one range in two lines.
fn is_same(one: &Aim, other: &Aim) -> bool {
    let same = one.figure == other.figure && one.of == other.of && one.unit == other.unit;
    same && (one.low.is_some() && other.low.is_some() || one.high.is_some() && other.high.is_some())
}

fn twice(first: &Aim, aim: &Aim) -> Diagnostic {
    Diagnostic::advice(CHECK.name, aim.span, format!("a second aim for {} here", aim.figure.word()))
        .also(first.span, "the first")
        .help("take one of the two out")
}

fn wide(aim: &Aim) -> Option<Diagnostic> {
    let (low, high) = (aim.low?, aim.high?);
    let counted = matches!(aim.unit, AimUnit::Percent | AimUnit::Grams);
    if !counted || low < TRACE || high < low.times(WIDE).ok()? {
        return None;
    }
    let message =
        format!("so wide an aim holds nothing: its upper end is {} times the lower", high.over(low).ok()?.decimal(1));
    Some(
        Diagnostic::advice(CHECK.name, aim.amount_span, message)
            .help("look whether a point or a digit has slipped; a bound is `at least` or `at most`"),
    )
}
