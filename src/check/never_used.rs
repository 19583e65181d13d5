//! `never-used`: an ingredient that no step takes, a part that no part uses, a store that no order takes.

use super::{Check, Family, Run, Subject};
use crate::measure::quantity::Mass;
use crate::model::step::Target;
use crate::solve::resolve::nothing_above;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickSet;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "never-used",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "an ingredient that no step takes, a part that no other part uses, or a `store` line of a day that no order takes",
    why: "Everything listed is used somewhere, down to the flour for dusting. An ingredient that no step takes was forgotten \
          in the method or in the list; a part that nothing uses is made for nobody. What a day has in \
          its store and nothing takes is forgotten in the fridge, or what was to be made of it is made afresh.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nsalt .... 10 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nsalt .... 10 g\nmix: hands 10 min\n    Mix {flour}, {water} and {salt}.\n    \
           until smooth\n",
    sources: &["Virginia Cooperative Extension FST-155NP, How to Write a Recipe (seen through a copy)"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let final_part = recipe.final_part();
    for (id, part, solved) in subject.own_parts() {
        let unused = !recipe.is_drawn_on(id) && part.from.is_none() && !part.broken && part.sort.is_none();
        let is_empty = part.lines.is_empty() && part.steps.is_empty() && part.name.span == recipe.name.span;
        if unused && is_empty && final_part != Some(id) && final_part.is_some() {
            diagnostics.push(nothing_above(part.name.span));
        } else if unused && final_part != Some(id) && final_part.is_some() {
            diagnostics.push(
                Diagnostic::warning(CHECK.name, part.name.span, format!("no other part uses `{}`", part.name)).help(
                    "list it as an ingredient where it goes, by its name; the last part is what the recipe makes",
                ),
            );
        }
        if part.from.is_some() && !drawn(subject, Target::Preferment(id)) {
            let message = format!("no step takes `{}`", part.name);
            diagnostics.push(
                Diagnostic::warning(CHECK.name, part.name.span, message)
                    .help(format!("take it where it goes into the mix, `{{{}}}`", part.name)),
            );
        }
        // A formula without a method is a formula sheet; there is nothing to compare with.
        if part.steps.is_empty() || part.broken {
            continue;
        }
        let drawn: QuickSet<Target> = solved.draws.iter().map(|draw| draw.target).collect();
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            let taken_out = amount.mass.is_some_and(|mass| mass > Mass::ZERO)
                && amount.final_mix.is_some_and(|left| left <= Mass::ZERO);
            if !drawn.contains(&Target::Line(at)) && !taken_out {
                diagnostics.push(
                    Diagnostic::warning(CHECK.name, line.span, format!("no step takes `{}`", line.name))
                        .label("listed and never used")
                        .help(format!("write `{{{}}}` in the step where it goes in, or take the line out", line.name)),
                );
            }
        }
    }
}

/// Whether a step of any part draws on a preferment; in a part without steps there is nobody to.
fn drawn(subject: &Subject<'_>, target: Target) -> bool {
    let Target::Preferment(id) = target else { return true };
    let from = subject.recipe.part(id).and_then(|part| part.from);
    let Some(total) = from.and_then(|from| subject.recipe.part(from).zip(subject.formula.part(from))) else {
        return true;
    };
    total.0.steps.is_empty() || total.1.draws.iter().any(|draw| draw.target == target)
}
