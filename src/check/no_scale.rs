//! `no-scale`: nothing fixes how much of a part is made.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::model::recipe::LineAmount;
use crate::solve::formula::linear;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-scale",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a part given only in percent, with nothing that says how much of it is made",
    why: "Percentages give proportions, not amounts. One of these fixes the size: a weight on a line of the base, \
          `divide 24 x 78 g`, `makes 2 kg`, or another part that takes a weight of it.",
    bad: "recipe Loaf\nflour .... 100 %\nwater .... 65 %\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &[],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let Some(first) = part.lines.iter().find(|line| is_percentage(line)) else { continue };
        // Without a base there is another problem already; a preferment takes its size from its dough.
        let Some((base, _)) = &part.base else { continue };
        if part.from.is_some() || solved.base.is_some() {
            continue;
        }
        // A base that is not listed, or whose percentages leave nothing for its weights, is reported as that.
        let in_base: Vec<_> = part.lines.iter().filter(|line| linear::in_base(base, line)).collect();
        if in_base.is_empty() || in_base.iter().any(|line| !is_percentage(line) && line.amount != LineAmount::All) {
            continue;
        }
        // No figure can be found either when a weight that is needed is not known, which `no-weight` reports.
        if part.divide.is_some() || part.makes.is_some() {
            continue;
        }
        let takes_all = part.lines.iter().any(|line| line.amount == LineAmount::All);
        let users: Vec<_> = subject.recipe.users(id).collect();
        let help = if takes_all && users.is_empty() {
            "give the flour a weight, or say `divide` or `makes`; `all` of a part fixes nothing while that part has no size"
        } else if users.is_empty() {
            "give one line of the base a weight (`strong white flour .... 1 kg`), or write `divide 24 x 78 g` or `makes 2 kg`"
        } else {
            "the parts that use it do not say how much either: give one of them a weight, or this part a `makes` line"
        };
        let mut problem =
            Diagnostic::error(CHECK.name, part.name.span, format!("nothing says how much of `{}` is made", part.name))
                .also(first.amount_span, "a percentage only")
                .help(help);
        for (user, at) in users {
            if let Some(line) = subject.recipe.part(user).and_then(|part| part.lines.get(at)) {
                problem = problem.also(line.span, "draws on it without saying how much");
            }
        }
        diagnostics.push(problem);
    }
}
