//! `part-left-over`: much more of a part is made than is used.

use super::dough::mass_of;
use super::part_short::{counts_differ, making_span, uses};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, PartId};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "part-left-over",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a part that makes over 15 % more than the other parts use",
    why: "A little more than is needed is prudent; a fifth too much is waste, or a sign that an amount was changed in one \
          place only. Of what is taken `drained` the liquor is left. What is meant to be left over is said with `spare 60 g`.",
    bad: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 600 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
          part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    good: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 600 g\nspare 200 g\ncook: tend 20 min\n    Simmer {plums}.\n    \
           until thick\npart buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// More than this share of what is used is too much.
const ALLOWED: Number = Number::constant(15, 100);

/// Whether all that take a part lift it out of its liquor, `drained`, and no more is left than what there is of that: pickles, poached pears.
fn is_lifted_out(subject: &Subject<'_>, id: PartId, (left, used): (Mass, Mass)) -> bool {
    let Some((part, solved)) = subject.recipe.part(id).zip(subject.formula.part(id)) else { return false };
    let lines = || subject.recipe.users(id).filter_map(|(user, line)| subject.recipe.part(user)?.lines.get(line));
    let is_liquor = |line: &Ingredient| {
        line.kind.is_liquid()
            || matches!(line.kind, Kind::Sugar | Kind::Syrup | Kind::Salt | Kind::Brine | Kind::Spice)
            || line.part().is_some()
    };
    // A jar holds somewhat more than is lifted out of it.
    let over = || used.share(Proportion::new(ALLOWED));
    let liquor = || {
        mass_of(part, solved, is_liquor)
            .is_some_and(|liquor| over().and_then(|over| liquor.plus(over)).is_ok_and(|most| left <= most))
    };
    lines().next().is_some() && lines().all(Ingredient::is_lifted_out) && liquor()
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let balance = &solved.balance;
        let (Some(makes), Some(used), Some(left)) = (balance.makes, balance.used, balance.left) else { continue };
        if !used.value().is_positive()
            || left.ratio(used).is_ok_and(|share| share <= ALLOWED)
            || counts_differ(part, solved)
            || is_lifted_out(subject, id, (left, used))
        {
            continue;
        }
        // Of many times as much nobody reads a percentage.
        let share = match left.ratio(used) {
            Ok(times) if times >= Number::whole(10) => format!("{} times what is used", times.decimal(0)),
            _ => left.as_share_of(used).map(show::percent).unwrap_or_default().to_string(),
        };
        let to_spare = part.spare.and_then(|(spare, _)| left.plus(spare).ok()).unwrap_or(left);
        let spare =
            part.spare.map_or(String::new(), |(mass, _)| format!(" and {} are to be spare", show::mass_plain(mass)));
        let message = format!(
            "`{}` makes {}, but only {} are used{spare}: {} left over ({share})",
            part.name,
            show::mass_plain(makes),
            show::mass_plain(used),
            show::mass_plain(left)
        );
        let mut problem = Diagnostic::warning(CHECK.name, making_span(part), message)
            .label(format!("makes {}", show::mass_plain(makes)))
            .help(format!("make less, or write `spare {} g` if that is meant", to_spare.value().decimal(0)));
        for (span, text) in uses(subject, id) {
            problem = problem.also(span, text);
        }
        diagnostics.push(problem);
    }
}
