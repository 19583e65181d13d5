//! `part-left-over`: much more of a part is made than is used.

use super::part_short::{counts_differ, making_span, uses};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::show;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "part-left-over",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a part that makes over 15 % more than the other parts use",
    why: "A little more than is needed is prudent; a fifth too much is waste, or a sign that an amount was changed in one \
          place only. What is meant to be left over is said with `spare 60 g`.",
    bad: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 600 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
          part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    good: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 600 g\nspare 200 g\ncook: tend 20 min\n    Simmer {plums}.\n    \
           until thick\npart buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// More than this share of what is used is too much.
const ALLOWED: Number = Number::constant(15, 100);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let balance = &solved.balance;
        let (Some(makes), Some(used), Some(left)) = (balance.makes, balance.used, balance.left) else { continue };
        if !used.value().is_positive()
            || left.ratio(used).is_ok_and(|share| share <= ALLOWED)
            || counts_differ(part, solved)
        {
            continue;
        }
        // Of many times as much nobody reads a percentage.
        let share = match left.ratio(used) {
            Ok(times) if times >= Number::whole(10) => format!("{} times what is used", times.decimal(0)),
            _ => left.as_share_of(used).map(show::percent).unwrap_or_default().to_string(),
        };
        let message = format!(
            "`{}` makes {}, but only {} are used: {} left over ({share})",
            part.name,
            show::mass_plain(makes),
            show::mass_plain(used),
            show::mass_plain(left)
        );
        let mut problem = Diagnostic::warning(CHECK.name, making_span(part), message)
            .label(format!("makes {}", show::mass_plain(makes)))
            .help(format!("make less, or write `spare {} g` if that is meant", left.value().decimal(0)));
        for (span, text) in uses(subject, id) {
            problem = problem.also(span, text);
        }
        diagnostics.push(problem);
    }
}
