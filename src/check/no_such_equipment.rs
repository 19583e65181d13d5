//! `no-such-equipment`: a step uses what the kitchen does not have.

use super::{Check, Family, Run, Subject};
use crate::language::parse::nearest;
use crate::measure::show;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-such-equipment",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "a step that uses equipment which the kitchen does not have",
    why: "A plan can only book what is there. Use the word that the kitchen file uses, or add the equipment to it: \
          `prover x 1`. Where a recipe uses no kitchen, only words that are near to what a home kitchen has are reported.",
    bad: "recipe Rolls\nuse \"kitchen.miche\"\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min, using mixr\n    Mix {flour} and {water}.\n    until smooth\n=== kitchen.miche ===\nkitchen Small kitchen\nmixer x 1\noven x 1\n",
    good: "recipe Rolls\nuse \"kitchen.miche\"\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min, using mixer\n    Mix {flour} and {water}.\n    until smooth\n=== kitchen.miche ===\nkitchen Small kitchen\nmixer x 1\noven x 1\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let kitchen = &subject.recipe.kitchen;
    for (_, part, _) in subject.own_parts() {
        for step in &part.steps {
            let Some(name) = step.equipment.as_ref().filter(|name| kitchen.find(name).is_none()) else { continue };
            let known: Vec<&str> = kitchen.equipment.iter().map(|equipment| equipment.name.key.as_str()).collect();
            let assumed = kitchen.span.is_none();
            let which =
                if assumed { "the home kitchen that is assumed".to_owned() } else { format!("`{}`", kitchen.name) };
            let message = format!("there is no `{name}` in {which}");
            let near = nearest(name.key.as_str(), known.iter().copied());
            // A slip of the pen is one in any kitchen; what else an unknown kitchen has, nobody knows.
            if assumed && near.is_none() {
                continue;
            }
            let mut problem = match near {
                Some(near) => Diagnostic::warning(CHECK.name, name.span, message).meant(name.span, near),
                None => {
                    let has = if known.is_empty() { "nothing".to_owned() } else { show::list(&known) };
                    Diagnostic::warning(CHECK.name, name.span, message)
                        .help(format!("it has {has}; add `{name} x 1` to a kitchen file that this recipe uses"))
                }
            };
            if let Some(span) = kitchen.span {
                problem = problem.also(span, "this kitchen");
            }
            diagnostics.push(problem);
        }
    }
}
