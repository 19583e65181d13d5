//! `too-few-cooks`: a step needs more people than work in the kitchen.

use super::{Check, Family, Run, Subject};
use crate::model::step::StepKind;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "too-few-cooks",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "a step that needs more people at once than the kitchen has",
    why: "`people 3` in a kitchen with `cooks 2` can never be planned. Where a recipe uses no kitchen, one person is assumed.",
    bad: "recipe Rolls\nflour .... 5 kg\nwater .... 3 kg\nmix: hands 10 min, people 2\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 5 kg\nwater .... 3 kg\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let kitchen = &subject.recipe.kitchen;
    for (_, part, _) in subject.own_parts() {
        for step in part.steps.iter().filter(|step| step.people > kitchen.cooks && step.kind != StepKind::Wait) {
            let which = if kitchen.span.is_none() {
                "the home kitchen that is assumed".to_owned()
            } else {
                format!("`{}`", kitchen.name)
            };
            let message =
                format!("`{}` needs {} people at once, but {which} has {}", step.name, step.people, kitchen.cooks);
            let mut problem = Diagnostic::warning(CHECK.name, step.span, message)
                .help("give it more time and fewer people, or say `cooks` in a kitchen file that this recipe uses");
            if let Some(span) = kitchen.span {
                problem = problem.also(span, "this kitchen");
            }
            diagnostics.push(problem);
        }
    }
}
