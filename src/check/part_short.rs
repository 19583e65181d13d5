//! `part-short`: the other parts use more of a part than is made.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::solve::formula::pieces_in_liquid::{Pieces, pieces_of};
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
          its vegetables and not of its brine: of 500 g of cucumber in 575 g of brine there is half a kilogram. What is drawn drained of another \
          recipe is made until its pieces suffice.",
    bad: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 300 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
          part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    good: "recipe Buns\nmakes 10 buns\npart jam\nplums .... 420 g\ncook: tend 20 min\n    Simmer {plums}.\n    until thick\n\
           part buns\nper piece\njam .... 40 g\nfill: hands 1 min, each\n    Fill with {jam}.\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part) in subject.recipe.parts().filter(|(_, part)| part.foreign.is_some() && part.from.is_none()) {
        diagnostics.extend(drawn_and_not_known(subject, id, part));
    }
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

/// How much more a piece may weigh than it did: it takes some of its liquid up. Common practice, no source.
const TAKEN_UP: Number = Number::constant(11, 10);

/// What is taken drained of a pickle, where that is more than its pieces: the jar holds enough, but half of it is brine. What is drawn of another
/// recipe is made as large as its pieces want, where it is known what they are.
fn more_solid_than_there_is(
    subject: &Subject<'_>,
    (id, part, solved): (PartId, &Part, &SolvedPart),
) -> Option<Diagnostic> {
    let taken = taken_drained(subject, id);
    let (span, _) = *taken.first()?;
    let drained = Mass::sum(taken.iter().map(|(_, mass)| *mass)).ok()?;
    let Pieces::Share(share) = pieces_of(subject.recipe, subject.formula, id).ok()? else { return None };
    let makes = solved.makes?;
    let pieces = makes.share(share).ok()?;
    if drained <= pieces.times(TAKEN_UP).ok()? {
        return None;
    }
    let (wants, taken) = (drained.over(share.value()).ok()?, show::mass_plain(drained));
    let whole = |mass: Mass| Mass::new(mass.value().ceil());
    let (makes, wants) = (show::mass_plain(makes), show::mass_plain(whole(wants)));
    let solid = show::mass_plain(pieces);
    Some(
        Diagnostic::advice(
            CHECK.name,
            span,
            format!("{taken} of `{}` are taken without their liquid, and {solid} went in solid", part.name),
        )
        .also(making_span(part), format!("makes {makes}; the rest of it is what the pieces lie in"))
        .help(format!("make {wants} of it instead of {makes}, or take no more than {solid}")),
    )
}

/// What is taken drained of another recipe's part of which nobody knows how much is pieces: it is made by its whole weight.
fn drawn_and_not_known(subject: &Subject<'_>, id: PartId, part: &Part) -> Option<Diagnostic> {
    let taken = taken_drained(subject, id);
    let (span, _) = *taken.first()?;
    let drained = show::mass_plain(Mass::sum(taken.iter().map(|(_, mass)| *mass)).ok()?);
    if pieces_of(subject.recipe, subject.formula, id).ok()? != Pieces::Unknown {
        return None;
    }
    Some(
        Diagnostic::advice(
            CHECK.name,
            span,
            format!("{drained} of `{}` are taken without their liquid, and {drained} are made of it with that", part.name),
        )
        .help(
            "some of it takes up nobody knows how much: drain it as a step of its own recipe, weigh what is left, and say so there, \
             the liquid `strained out` and `makes 600 g`",
        ),
    )
}

/// Where this recipe takes a part without its liquid, and how much.
fn taken_drained(subject: &Subject<'_>, id: PartId) -> Vec<(Span, Mass)> {
    let users = subject.recipe.users(id).filter_map(|(user, at)| {
        let line = subject.recipe.part(user).filter(|part| part.foreign.is_none())?.lines.get(at)?;
        Some((line.span, subject.formula.part(user)?.lines.get(at)?.mass.filter(|_| line.is_lifted_out())?))
    });
    users.collect()
}

/// What dissolves is poured in as well.
pub(super) fn is_solid(line: &Ingredient) -> bool {
    !line.kind.is_liquid()
        && !line.kind.is_sweet()
        && !matches!(line.kind, Kind::Salt | Kind::Spice | Kind::Ice | Kind::Brine)
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
