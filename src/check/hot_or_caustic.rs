//! `hot-or-caustic`: lye, boiling sugar and deep fat without a word of caution.

use super::{Check, Family, Run, Subject};
use crate::check::caution::{self, Danger};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "hot-or-caustic",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "work with lye, boiling sugar or deep fat in a recipe that carries no caution for it",
    why: "Lye burns skin and blinds; sugar at 150 °C sticks while it burns; hot fat catches fire and boils over with water. \
          Who reads the card at the bench may do it for the first time. A `caution` line in the part or the head says what \
          to wear and what to keep away. The program's own general caution prints on the card in any case. This is general \
          advice: the law on work safety and licensed practice go before it.",
    bad: "recipe Ring doughnuts\nflour .... 500 g\nwater .... 300 g\nfrying oil .... as needed, aside\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\nfry: hands 20 min, using hob at 180 C\n    Deep-fry in {frying oil}.\n    until gold\n",
    good: "recipe Ring doughnuts\nflour .... 500 g\nwater .... 300 g\nfrying oil .... as needed, aside\n\
           caution Hot fat: dry the rings, never leave it alone, keep the lid at hand and no water near.\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\nfry: hands 20 min, using hob at 180 C\n    Deep-fry in {frying oil}.\n    until gold\n",
    sources: &["common practice, no source; work-safety law of the place"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        for danger in [Danger::Lye, Danger::HotSugar, Danger::DeepFat] {
            let Some(span) = caution::danger_in(part, danger) else { continue };
            if caution::is_said(subject.recipe, part, danger.words()) {
                continue;
            }
            let message = format!("`{}` works with {}, and no `caution` says so", part.name, danger.noun());
            diagnostics.push(
                Diagnostic::advice(CHECK.name, span, message).help(format!("add a line to the part: `caution {}`", danger.example())),
            );
        }
    }
}
