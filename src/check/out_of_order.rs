//! `out-of-order`: ingredients that are not listed in the order in which the steps use them.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::model::cooking::{cooks, first_draws};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::Target;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "out-of-order",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "ingredients that are not listed in the order in which the steps use them",
    why: "Who weighs out from the top of the list sets the bowls in the order in which they are needed, and a missing bowl \
          shows. In a part by percentage the flour comes first by custom, so such parts are left alone; so are ingredients \
          set aside for dusting and greasing, and the order within one step.",
    bad: "recipe Pea soup\nonion .... 300 g\nwater .... 2 l\ncarrot .... 300 g\nsweat: hands 10 min\n    Sweat {onion} and {carrot}.\n    \
          until soft\nsimmer: tend 30 min\n    Add {water} and simmer.\n    until tender\n",
    good: "recipe Pea soup\nonion .... 300 g\ncarrot .... 300 g\nwater .... 2 l\nsweat: hands 10 min\n    Sweat {onion} and {carrot}.\n    \
           until soft\nsimmer: tend 30 min\n    Add {water} and simmer.\n    until tender\n",
    sources: &[
        "Virginia Cooperative Extension FST-155NP, How to Write a Recipe; Minnesota Department of Education, standardized \
         recipes: ingredients in the order of use",
    ],
    run: Run::Parts(run),
};

/// Whether a step boils what is poured with salt, sugar and spices: a brine, a syrup.
fn is_boiled_liquid(part: &Part, at: usize) -> bool {
    let dissolves = |line: &Ingredient| {
        line.kind.is_poured()
            || line.kind.is_sweet()
            || matches!(line.kind, Kind::Salt | Kind::Spice)
            || line.kind == Kind::Vinegar
            || line.strained_out
    };
    let draws = first_draws(part);
    let mut drawn =
        part.lines.iter().enumerate().filter(|(line, _)| draws.get(&Target::Line(*line)) == Some(&at)).peekable();
    drawn.peek().is_some() && part.steps.get(at).is_some_and(cooks) && drawn.all(|(_, line)| dissolves(line))
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.whole_parts() {
        if part.from.is_some() || part.lines.iter().any(is_percentage) {
            continue;
        }
        // Where the steps are in the wrong order, the list is not.
        if super::heated_empty::finished_first(subject.recipe, part).is_some() {
            continue;
        }
        // Flour stands first in a bakers' formula, as what 100 % is of, whatever is swollen or rubbed before it goes in.
        // The piece that everything is done to is there before all of it, whatever step names it.
        let is_the_piece = |line: &Ingredient| part.per_piece && line.part().is_some() && line.is_in_pieces();
        let used =
            part.lines.iter().enumerate().filter(|(_, line)| !(line.aside || is_the_piece(line) || line.is_flour));
        let draws = first_draws(part);
        let used = used.filter_map(|(at, line)| Some((line, draws.get(&Target::Line(at)).copied()?)));
        let used: Vec<_> = used.collect();
        // From each line on, the earliest step in which something is used.
        let mut earliest: Vec<usize> = used
            .iter()
            .rev()
            .scan(usize::MAX, |earliest, (_, step)| {
                *earliest = (*step).min(*earliest);
                Some(*earliest)
            })
            .collect();
        earliest.reverse();
        // The first line that stands above one that is needed in an earlier step; one piece of advice a part is enough.
        let Some(((line, step), _)) = used.iter().zip(&earliest).find(|((_, step), earliest)| *earliest < step) else {
            continue;
        };
        let Some((other, other_step)) = used.iter().rfind(|(_, other)| other < step) else { continue };
        // What is pickled or poached stands first in every book, and goes into what was boiled for it.
        let is_first = part.lines.first().is_some_and(|first| std::ptr::eq(first, *line));
        if is_first && line.part().is_none() && is_boiled_liquid(part, *other_step) {
            continue;
        }
        let (Some(step), Some(other_step)) = (part.steps.get(*step), part.steps.get(*other_step)) else { continue };
        let message = format!(
            "`{}` is listed before `{}`, but `{}` comes after `{}`",
            line.name, other.name, step.name, other_step.name
        );
        diagnostics.push(
            Diagnostic::advice(CHECK.name, line.name.span, message)
                .label(format!("first used in `{}`", step.name))
                .also(other.name.span, format!("used before it, in `{}`", other_step.name))
                .help(format!("move `{}` below `{}`", line.name, other.name)),
        );
    }
}
