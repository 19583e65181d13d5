//! `aim-missed`: a figure that is not what the recipe says it is to be.

use super::{Check, Family, Run, Subject};
use crate::aims::{self, Held, Verdict, shown, shown_aim};
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::model::aim::{AimUnit, Figure};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "aim-missed",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a figure that is not what an `aim` line says it is to be, under any choice",
    why: "An aim is to a formula what a test is to a program: whoever changes an amount hears at once that the mix has lost its fat \
          or the loaf its price. The message has the figure, how far it is off, and what brings most of it; `miche aim` works out \
          the least change that meets all aims, and `miche aim --write` makes it. A single value is met within what its digits \
          leave open, a range and a bound exactly.",
    bad: "recipe Buns\nmakes 20 buns\naim hydration 66-68 %\naim salt 1.8-2.1 %\nstrong white flour .... 1 kg\nwater .... 600 g\nsalt .... 20 g\ninstant yeast .... 10 g\n",
    good: "recipe Buns\nmakes 20 buns\naim hydration 66-68 %\naim salt 1.8-2.1 %\nstrong white flour .... 1 kg\nwater .... 670 g\nsalt .... 20 g\ninstant yeast .... 10 g\n\
           mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    sources: &["the aims are the recipe's own; the figures are those of `miche sums`, `label` and `cost`"],
    run: Run::Recipe(run),
};

/// So many of what brings most of a figure are told.
const TOLD: usize = 3;

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for held in aims::held(subject.recipe, subject.formula) {
        if held.verdict == Verdict::Missed {
            diagnostics.extend(problem(subject, &held).ok());
        }
    }
}

fn problem(subject: &Subject<'_>, held: &Held<'_>) -> Result<Diagnostic, Overflow> {
    let (recipe, formula, aim) = (subject.recipe, subject.formula, held.aim);
    let Some(reading) = &held.reading else { return Err(Overflow) };
    let (value, off) = (reading.value()?, aims::distance(aim, reading)?);
    let whose = match (held.place.whole, recipe.part(held.place.part)) {
        (false, Some(part)) if part.name.key != recipe.name.key => format!(" of `{}`", part.name),
        _ => String::new(),
    };
    let apart = match &aim.unit {
        AimUnit::Percent => format!("{} points", shown(&AimUnit::Percent, off.size()).trim_end_matches(" %")),
        unit => shown(unit, off.size()),
    };
    let side = if off.is_negative() { "too little" } else { "too much" };
    let message = format!(
        "{}{whose} is {}{}, wanted {}: {apart} {side}",
        held.aim.figure.word(),
        shown(&aim.unit, value),
        held.of_words(),
        shown_aim(aim),
    );
    let mut problem = Diagnostic::error(CHECK.name, aim.span, message).label(shown(&aim.unit, value));
    let mut brings = held.brings(recipe, formula);
    // A pinch of it tells nobody anything.
    let most = brings.first().map_or(Number::ZERO, |(_, amount)| *amount);
    brings.retain(|(_, amount)| amount.times(Number::whole(50)).is_ok_and(|amount| amount > most));
    let most: Vec<String> = brings
        .iter()
        .take(TOLD)
        .map(|(name, amount)| format!("{name} {}", brought(&aim.figure, &aim.unit, *amount)))
        .collect();
    let by_piece = matches!(aim.figure, Figure::Weight | Figure::BakedWeight)
        && recipe.part(held.place.part).is_some_and(|part| part.divide.is_some() || part.makes.is_some());
    let help = if by_piece {
        "the weight is the one that `divide` or `makes` says: change that line".to_owned()
    } else if aim.figure.is_of_steps() {
        format!("the longest: {}", most.join(", "))
    } else if most.is_empty() {
        "nothing in it brings any; put something in, or take the aim out".to_owned()
    } else {
        format!("most of it is {}; `miche aim` works out the least change that meets every aim", most.join(", "))
    };
    problem = problem.help(help);
    // The line that brings most, where it stands in this file.
    if let Some((name, amount)) = brings.first().filter(|_| !by_piece) {
        let key = Key::new(name);
        let mut lines = recipe.own_parts().flat_map(|(_, part)| &part.lines);
        if let Some(line) = lines.find(|line| line.name.key == key && line.span.source == recipe.source) {
            problem = problem.also(line.span, format!("brings {}", brought(&aim.figure, &aim.unit, *amount)));
        }
    }
    Ok(problem)
}

/// How much of a figure something brings to the whole batch.
fn brought(figure: &Figure, unit: &AimUnit, amount: Number) -> String {
    match (figure, unit) {
        (Figure::Energy | Figure::Cost | Figure::Time | Figure::Hands, unit) => shown(unit, amount),
        _ => crate::measure::show::mass_plain(crate::measure::quantity::Mass::new(amount)).to_string(),
    }
}
