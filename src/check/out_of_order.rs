//! `out-of-order`: ingredients that are not listed in the order in which the steps use them.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::model::cooking::first_draw;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::model::step::Target;

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
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.whole_parts() {
        if part.from.is_some() || part.lines.iter().any(is_percentage) {
            continue;
        }
        let used = part.lines.iter().enumerate().filter(|(_, line)| !line.aside);
        let used = used.filter_map(|(at, line)| Some((line, first_draw(part, Target::Line(at))?)));
        let used: Vec<_> = used.collect();
        // The first line that stands above one that is needed in an earlier step; one piece of advice a part is enough.
        let late = used.iter().enumerate().find_map(|(at, (line, step))| {
            let mut below = used.iter().skip(at + 1).filter(|(_, other)| other < step);
            below.next_back().map(|(other, other_step)| (line, *step, other, *other_step))
        });
        let Some((line, step, other, other_step)) = late else { continue };
        let (Some(step), Some(other_step)) = (part.steps.get(step), part.steps.get(other_step)) else { continue };
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
