//! `sign-without-heat`: a step without any heat that is done when something is brown.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::{Beginnings, beginnings, called, cooks, has_word_beginning, may_say, says};
use crate::model::step::{Step, StepKind, Words};
use crate::text::denied::is_denied;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_without_hyphens;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "sign-without-heat",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a step by hand, or a rest, that is done when something is gold, brown or hollow, or a skewer comes out clean",
    why: "Nothing browns on a bench. The head of the baking step was lost, and its sign hangs on the step above it: the plan ends before \
          the oven is lit. Write the head again, `bake: tend 15 min, using oven at 220 C`, or say with what the step is heated.",
    bad: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until \
          smooth\nshape: hands 10 min\n    until gold all over\n",
    good: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until \
           smooth\nshape: hands 10 min\nbake: tend 15 min, using oven at 220 C\n    until gold all over\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

/// What is seen of things that were in an oven or a pan.
const BROWNED: &[&str] = &["gold", "brown", "mahogany", "chestnut", "skewer", "hollow", "blister", "charred"];
/// The same, to be asked of a whole step at once.
const SEEN: &Beginnings = &Beginnings::of(BROWNED);
/// Where brown things are worked on when they are cold.
const AFTERWARDS: &Beginnings = &Beginnings::of(&[
    "cool", "dry", "smok", "age", "cur", "hang", "glaz", "oxid", "malt", "soak", "caramel", "torch", "dye", "colour",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let has_sign = |step: &&Step| !step.cue.is_empty() && may_say(step, SEEN);
        for step in part.steps.iter().filter(has_sign).filter(|step| is_cold(step)) {
            let cue = step.cue.iter().filter_map(|word| match word {
                Words::Text(text) => Some(text.as_str()),
                _ => None,
            });
            let cue = cue.collect::<String>().to_lowercase();
            if !has_word_beginning(&cue, BROWNED) {
                continue;
            }
            let words: Vec<&str> = words_without_hyphens(&cue).collect();
            let Some(sign) = BROWNED
                .iter()
                .find(|sign| has_word_beginning(&cue, [**sign]))
                .filter(|_| !is_denied(&words, words.len(), words.len(), &["before"]))
            else {
                continue;
            };
            diagnostics.push(
                Diagnostic::warning(
                    CHECK.name,
                    step.name.span,
                    format!("`{}` is done when something is `{sign}`, and it has no heat", step.name),
                )
                .label("nothing is heated here")
                .help("write the head of the step that bakes above its sign, `bake: tend 15 min, using oven at 220 C`"),
            );
        }
    }
}

fn is_cold(step: &Step) -> bool {
    let is_flamed = || {
        says(
            step,
            beginnings!["blowlamp", "blow lamp", "blowtorch", "blow torch", "torch", "flame", "burner", "salamander"],
        )
    };
    step.kind != StepKind::Tend && step.equipment.is_none() && !cooks(step) && !called(step, AFTERWARDS) && !is_flamed()
}
