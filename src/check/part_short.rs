//! `part-short`: the other parts use more of a part than is made.

use super::dough::mass_of;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "part-short",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a part that makes less than the other parts use, or of which more is taken drained than went in solid",
    why: "Running out of filling at the eighteenth of twenty-four buns cannot be mended at the bench. What a part makes \
          (after its loss), less what is meant to be spare, must cover what the others take. What is taken `drained` of a pickle comes out of \
          its vegetables and not of its brine: of 500 g of cucumber in 575 g of brine there is half a kilogram.",
    bad: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 300 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
          part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    good: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 420 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
           part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        diagnostics.extend(more_solid_than_there_is(subject, (id, part, solved)));
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

/// Words by which what a line takes of a part is without the liquid that it lies in.
const DRAINED: &Beginnings = &Beginnings::of(&[
    "drained",
    "strained",
    "without its liquid",
    "without liquid",
    "without the liquid",
    "lifted out",
]);

/// What is taken drained of a pickle, where that is more than what of it is not poured in: the jar holds enough, but half of it is brine. A generous
/// tenth is what it may take up. Common practice, no source.
fn more_solid_than_there_is(
    subject: &Subject<'_>,
    (id, part, solved): (PartId, &Part, &SolvedPart),
) -> Option<Diagnostic> {
    let is_drained = |line: &Ingredient| line.is_prepared(DRAINED);
    let taken = subject.recipe.users(id).filter_map(|(user, at)| {
        let line = subject.recipe.part(user)?.lines.get(at).filter(|line| is_drained(line))?;
        Some((line.span, subject.formula.part(user)?.lines.get(at)?.mass?))
    });
    let taken: Vec<(Span, Mass)> = taken.collect();
    let (span, _) = taken.first()?;
    let drained = Mass::sum(taken.iter().map(|(_, mass)| *mass)).ok()?;
    let solid = mass_of(part, solved, is_solid)?;
    let poured = mass_of(part, solved, |line| line.kind.is_liquid() || line.kind == Kind::Brine)?;
    let most = solid.times(Number::constant(11, 10)).ok()?;
    // Where little is poured in, it is taken up, as soaked beans do.
    if drained <= most || solid <= Mass::ZERO || poured < solid.times(Number::constant(1, 4)).ok()? || has_pulses(part)
    {
        return None;
    }
    let (drained, solid) = (show::mass_plain(drained), show::mass_plain(solid));
    Some(
        Diagnostic::advice(
            CHECK.name,
            *span,
            format!("{drained} of `{}` are taken without their liquid, and {solid} went in solid", part.name),
        )
        .also(making_span(part), "the rest of it is what it lies in")
        .help("make more of it, or take less"),
    )
}

/// What dissolves is poured in as well.
pub(super) fn is_solid(line: &Ingredient) -> bool {
    !line.kind.is_liquid()
        && !line.kind.is_sweet()
        && !matches!(line.kind, Kind::Salt | Kind::Spice | Kind::Ice | Kind::Brine)
}

/// Whether something goes in dry that takes up two times its weight.
fn has_pulses(part: &Part) -> bool {
    part.lines.iter().any(|line| matches!(line.kind, Kind::Pulse | Kind::Grain | Kind::Other))
}

/// Whether the pieces do not come out even, which `pieces-mismatch` says more plainly.
pub(super) fn counts_differ(part: &Part, solved: &SolvedPart) -> bool {
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
