//! `used-up`: the steps take more of an ingredient than there is.

use super::{Check, Family, Run, Subject};
use crate::measure::number::{self, Number};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::recipe::{Part, Recipe};
use crate::model::step::Target;
use crate::solve::formula::{Draw, SolvedPart};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickMap;
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "used-up",
    severity: Severity::Error,
    family: Family::Steps,
    looks_for: "steps that take more of an ingredient than the list holds, and preferments that take more than their dough has",
    why: "What the steps take must be on the bench. `{x}` takes all of x; after `{300 g of x}` the others take `{rest of x}`. \
          A second `{x}` would take it again: mention it without braces.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
          shape: hands 5 min\n    Dust the board with {20 g of flour}.\n",
    good: "recipe Rolls\nflour .... 520 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {500 g of flour} and {water}.\n    until smooth\n\
           shape: hands 5 min\n    Dust the board with {rest of flour}.\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

/// The draws of a part, those on one thing side by side, in order of first use; each with the place of the first draw on the same thing.
pub(super) fn by_target(solved: &SolvedPart) -> Vec<(usize, &Draw)> {
    let draws = &solved.draws;
    let mut firsts: QuickMap<Target, usize> = QuickMap::default();
    let mut first_of = |at: usize, draw: &Draw| {
        if draws.len() <= FEW {
            return draws.iter().position(|other| other.target == draw.target).unwrap_or(at);
        }
        *firsts.entry(draw.target).or_insert(at)
    };
    let mut all: Vec<(usize, &Draw)> = draws.iter().enumerate().map(|(at, draw)| (first_of(at, draw), draw)).collect();
    all.sort_by_key(|(first, _)| *first);
    all
}

/// So many draws are looked through sooner than they are hashed.
const FEW: usize = 16;

/// What a target is called, how much there is of it, and where it is listed.
pub(super) fn stock(
    recipe: &Recipe,
    formula: &crate::solve::formula::Formula,
    part: &Part,
    solved: &SolvedPart,
    target: Target,
) -> (String, Option<Mass>, Span) {
    match target {
        Target::Line(at) => {
            let line = part.lines.get(at);
            let name = line.map_or_else(String::new, |line| line.name.to_string());
            let mass = solved.lines.get(at).and_then(|line| line.final_mix);
            (name, mass, line.map_or(part.name.span, |line| line.span))
        }
        Target::Preferment(id) => {
            let name = recipe.part(id).map_or_else(String::new, |part| part.name.to_string());
            let span = recipe.part(id).map_or(part.name.span, |part| part.name.span);
            (name, formula.part(id).and_then(|part| part.goes_in), span)
        }
    }
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.written_parts() {
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            if let Some(problem) = taken_by_preferments(part, line, amount) {
                diagnostics.push(problem);
            }
        }
        diagnostics.extend(solved.draws.iter().find_map(|draw| draws_nothing(part, solved, draw)));
        for draws in by_target(solved).chunk_by(|(one, _), (other, _)| one == other) {
            if let Some(problem) = overdrawn(subject, part, solved, draws) {
                diagnostics.push(problem);
            }
        }
    }
}

fn overdrawn(subject: &Subject<'_>, part: &Part, solved: &SolvedPart, draws: &[(usize, &Draw)]) -> Option<Diagnostic> {
    let drawn = || draws.iter().map(|(_, draw)| *draw);
    let fixed = drawn().filter(|draw| !draw.is_rest);
    let taken = number::sum(fixed.filter_map(|draw| draw.drawn.share)).ok()?;
    let rests = drawn().filter(|draw| draw.is_rest).count();
    // Rounded shares (`1/3` written as 33 %) may come to a hair over the whole.
    let over = taken.minus(Number::ONE).ok()?;
    let nothing_left = rests > 0 && !over.is_negative();
    let too_much = over > Number::constant(1, 1000);
    if !too_much && !nothing_left && rests < 2 {
        return None;
    }
    let (_, last) = draws.last()?;
    let (name, there_is, span) = stock(subject.recipe, subject.formula, part, solved, last.target);
    let amount_of = |share: Number| there_is.and_then(|mass| mass.times(share).ok()).map(show::mass_plain);
    let message = if too_much {
        match (amount_of(taken), there_is) {
            (Some(taken), Some(there_is)) => {
                format!("the steps take {taken} of {name}, but there are {}", show::mass_plain(there_is))
            }
            _ => format!("the steps take more of {name} than there is"),
        }
    } else if rests > 1 {
        format!("the rest of {name} is taken {rests} times")
    } else {
        format!("nothing is left of {name} for `rest of`")
    };
    let first_all = drawn().find(|draw| draw.drawn.share == Some(Number::ONE) && !draw.is_rest);
    let help = match first_all {
        Some(_) if draws.len() > 1 => {
            format!(
                "`{{{name}}}` takes all of it; take shares, `{{half of {name}}}` and `{{rest of {name}}}`, or mention it without braces"
            )
        }
        _ => format!("take less, or list more of {name}"),
    };
    let mut problem = Diagnostic::error(CHECK.name, last.name.span, message).help(help);
    for draw in drawn().filter(|draw| draw.name.span != last.name.span) {
        let text = match draw.drawn.share.and_then(amount_of) {
            Some(amount) if !draw.is_rest => format!("takes {amount}"),
            _ => "taken here".to_owned(),
        };
        problem = problem.also(draw.name.span, text);
    }
    Some(problem.also(
        span,
        there_is.map_or_else(|| "listed here".to_owned(), |mass| format!("{} listed", show::mass_plain(mass))),
    ))
}

/// A step that asks for salt of which the preferments have taken all: the card would say 0 g.
fn draws_nothing(part: &Part, solved: &SolvedPart, draw: &Draw) -> Option<Diagnostic> {
    let Target::Line(at) = draw.target else { return None };
    let (line, amount) = (part.lines.get(at)?, solved.lines.get(at)?);
    let is_gone = amount.final_mix == Some(Mass::ZERO) && amount.mass.is_some_and(|mass| mass > Mass::ZERO);
    is_gone.then(|| {
        let message = format!("nothing is left of {} for this step: preferments take all {} of it", line.name, show::mass_plain(amount.mass.unwrap_or(Mass::ZERO)));
        Diagnostic::warning(CHECK.name, draw.name.span, message)
            .also(line.span, "listed here")
            .help("take less of it in a preferment, or leave it out of this step; look whether one of the figures has slipped")
    })
}

/// A preferment that takes more than the total formula has.
fn taken_by_preferments(
    part: &Part,
    line: &crate::model::recipe::Ingredient,
    amount: &crate::solve::formula::SolvedLine,
) -> Option<Diagnostic> {
    let (mass, left) = (amount.mass?, amount.final_mix?);
    if !left.value().is_negative() {
        return None;
    }
    let taken = mass.minus(left).ok()?;
    let message = format!(
        "preferments take {} of {}, but `{}` holds {} of it",
        show::mass_plain(taken),
        line.name,
        part.name,
        show::mass_plain(mass)
    );
    Some(
        Diagnostic::error(CHECK.name, line.span, message)
            .help("a preferment is taken out of the total formula: take less there, or put more here"),
    )
}
