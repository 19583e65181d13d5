//! `late-preheat`: heating the oven when it is needed already.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::{beginnings, is_hot, says, words_of};
use crate::model::step::Step;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "late-preheat",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "preheating that comes in or after the step that needs the oven hot",
    why: "A deck oven takes an hour to come to heat, a home oven twenty minutes; the proved dough does not wait. Put the \
          preheating into a step of its own before the one that bakes, `preheat: wait 30 min, using oven at 220 C, during \
          prove`, or leave it out where the oven is hot all day.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
          bake: tend 15 min, using oven at 220 C\n    Preheat the oven and bake.\n    until gold\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}. Preheat the oven.\n    \
           until smooth\nbake: tend 15 min, using oven at 220 C\n    until gold\n",
    sources: &["common practice, no source: house style sheets of several publishers put the preheating first"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let Some((first, needs)) = part.steps.iter().enumerate().find(|(_, step)| is_hot(step) && !is_preheating(step))
        else {
            continue;
        };
        for (at, step) in part.steps.iter().enumerate().skip(first) {
            // A step of its own may stand anywhere in the file when its order says when it happens.
            if !preheats(step) || !step.order.is_empty() {
                continue;
            }
            let message = if at == first {
                format!("`{}` preheats while it is already under way", step.name)
            } else {
                format!("`{}` preheats after `{}` has needed the heat", step.name, needs.name)
            };
            let mut problem = Diagnostic::warning(CHECK.name, step.name.span, message)
                .help("say it in a step before, early enough for the oven to come to heat");
            if at != first {
                problem = problem.also(needs.name.span, "needs it hot");
            }
            diagnostics.push(problem);
            break;
        }
    }
}

fn preheats(step: &Step) -> bool {
    let words = words_of(step);
    // What is preheated was heated before.
    let acts = || {
        words
            .split(|c: char| !(c.is_alphanumeric() || c == '-'))
            .any(|word| ["preheat", "preheating", "pre-heat"].contains(&word))
    };
    says(step, beginnings!["preheat", "pre-heat"]) && acts()
        || says(step, beginnings!["oven"])
            && ["heat the oven", "turn on the oven", "switch on the oven", "light the oven"]
                .iter()
                .any(|said| words.contains(said))
}

/// A step that is nothing but the preheating.
fn is_preheating(step: &Step) -> bool {
    step.name.has_word_beginning(beginnings!["preheat", "pre-heat", "heat", "fire"])
}
