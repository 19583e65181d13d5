//! `not-all-used`: the steps leave some of an ingredient.

use super::used_up::{by_target, stock};
use super::{Check, Family, Run, Subject};
use crate::measure::number::{self, Number};
use crate::measure::show;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "not-all-used",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "an ingredient of which the steps take only some",
    why: "What is weighed out and never goes in stands on the bench at the end and nobody knows whether it was forgotten. \
          Take the last of it with `{rest of x}`.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {400 g of flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {400 g of flour} and {water}; add {rest of flour}.\n    \
           until smooth\n",
    sources: &["Savvy Diner recipe standardization (British Columbia): measurements for any food added at any step"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.written_parts().filter(|(_, part, _)| !part.broken) {
        for draws in by_target(solved).chunk_by(|(one, _), (other, _)| one == other) {
            let drawn = || draws.iter().map(|(_, draw)| *draw);
            let takes_rest = drawn().any(|draw| draw.is_rest);
            let unknown = drawn().any(|draw| draw.drawn.share.is_none());
            if takes_rest || unknown {
                continue;
            }
            let Ok(taken) = number::sum(drawn().filter_map(|draw| draw.drawn.share)) else { continue };
            let Ok(left) = Number::ONE.minus(taken) else { continue };
            if left <= Number::constant(1, 1000) {
                continue;
            }
            let Some((_, last)) = draws.last() else { continue };
            let (name, there_is, span) = stock(subject.recipe, subject.formula, part, solved, last.target);
            let message = match (there_is, there_is.and_then(|mass| mass.times(left).ok())) {
                (Some(all), Some(left)) => {
                    format!("{} of {name} are left: {} are listed", show::mass_plain(left), show::mass_plain(all))
                }
                _ => format!("some of {name} is left"),
            };
            diagnostics.push(
                Diagnostic::warning(CHECK.name, last.name.span, message)
                    .label("the last that is taken")
                    .also(span, "listed here")
                    .help(format!("take `{{rest of {name}}}` in a later step, or list less")),
            );
        }
    }
}
