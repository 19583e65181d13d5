//! `part-short`: the other parts use more of a part than is made.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::recipe::{Part, PartId};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "part-short",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a part that makes less than the other parts use",
    why: "Running out of filling at the eighteenth of twenty-four buns cannot be mended at the bench. What a part makes \
          (after its loss), less what is meant to be spare, must cover what the others take.",
    bad: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 300 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
          part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    good: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 420 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
           part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let balance = &solved.balance;
        let (Some(makes), Some(used), Some(left)) = (balance.makes, balance.used, balance.left) else { continue };
        if !is_short(left, used) || counts_differ(part, solved) {
            continue;
        }
        let Ok(short) = Mass::ZERO.minus(left) else { continue };
        let spare =
            part.spare.map_or(String::new(), |(mass, _)| format!(" and {} are to be spare", show::mass_plain(mass)));
        let message = format!(
            "`{}` makes {}, but {} are used{spare}: {} short",
            part.name,
            show::mass_plain(makes),
            show::mass_plain(used),
            show::mass_plain(short)
        );
        let mut problem = Diagnostic::error(CHECK.name, making_span(part), message)
            .label(format!("makes {}", show::mass_plain(makes)))
            .help(format!("make at least {}, or use less", show::mass_plain(makes.plus(short).unwrap_or(makes))));
        for (span, text) in uses(subject, id) {
            problem = problem.also(span, text);
        }
        diagnostics.push(problem);
    }
}

/// Whether the pieces do not come out even, which `pieces-mismatch` says more plainly.
pub(super) fn counts_differ(part: &Part, solved: &crate::solve::formula::SolvedPart) -> bool {
    part.divide.is_some_and(|divide| solved.balance.pieces_used.is_some_and(|used| used != divide.count))
}

/// Short by more than a thousandth: what rounding of piece weights can explain is not a shortage.
fn is_short(left: Mass, used: Mass) -> bool {
    let allowed = used.times(Number::constant(1, 1000)).unwrap_or(Mass::ZERO);
    left.value().is_negative() && left.value().size() > allowed.value()
}

/// The line that says what a part makes, else its name.
pub(super) fn making_span(part: &Part) -> crate::text::source::Span {
    let divide = part.divide.map(|divide| divide.span);
    divide.or(part.makes.map(|makes| makes.span)).unwrap_or(part.name.span)
}

/// Where the other parts take a part, and how much.
pub(super) fn uses(subject: &Subject<'_>, id: PartId) -> Vec<(crate::text::source::Span, String)> {
    let users = subject.recipe.users(id);
    users
        .filter_map(|(user, at)| {
            let line = subject.recipe.part(user).filter(|part| part.from.is_none())?.lines.get(at)?;
            let mass = subject.formula.part(user)?.lines.get(at)?.mass?;
            Some((line.span, format!("takes {}", show::mass_plain(mass))))
        })
        .collect()
}
