//! `pieces-mismatch`: pieces made against pieces used.

use super::{Check, Family, Run, Subject};
use crate::measure::noun::counted;
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Mass};
use crate::measure::show::{self, Units};
use crate::measure::value::Value;
use crate::model::cooking::{beginnings, called, says};
use crate::model::recipe::{HeadMakes, Ingredient, LineAmount, Part, PartId, Refers, Sort};
use crate::model::step::Step;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "pieces-mismatch",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a number of pieces made that is not the number used or promised",
    why: "If the dough is divided into 22 and the recipe makes 24 buns, two plates stay empty. The pieces of the last part \
          are the recipe's pieces; pieces of other parts are used up one by one.",
    bad: "recipe Buns\nmakes 24 buns\nflour .... 1 kg\nwater .... 60 %\ndivide 22 x 72 g, loss 1 %\n",
    good: "recipe Buns\nmakes 22 buns\nflour .... 1 kg\nwater .... 60 %\ndivide 22 x 72 g, loss 1 %\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let final_part = recipe.final_part();
    for (id, part, solved) in subject.own_parts() {
        undivided(subject, (id, part), diagnostics);
        diagnostics.extend(super::off_a_piece::problems(subject, CHECK.name, (id, part)));
        if part.per_piece && subject.formula.pieces.is_none() {
            diagnostics.push(
                Diagnostic::error(
                    CHECK.name,
                    part.name.span,
                    format!("`{}` is by the piece, but the recipe has no pieces", part.name),
                )
                .help("write `makes 24 buns` into the head of the recipe"),
            );
        }
        let Some(divide) = part.divide else { continue };
        let made = divide.count;
        // Tiers of one cake are pieces of different sizes, and all of them go into it.
        let goes_into_one = || {
            let of_sort = |user: PartId| recipe.part(user).is_some_and(|user| user.sort.is_some());
            let mut sorts = recipe.users(id).map(|(user, _)| user).filter(|user| of_sort(*user)).peekable();
            sorts.peek().is_some() && sorts.all(|user| recipe.is_drawn_on(user))
        };
        let is_what_is_made = final_part == Some(id) || (!part.sorts.is_empty() && !goes_into_one());
        if let (Some(HeadMakes::Pieces { count, noun, span }), true) = (&recipe.makes, is_what_is_made)
            && made != *count
        {
            let message = format!(
                "`{}` is divided into {}, but the recipe makes {}",
                part.name,
                show::pieces(made.value()),
                counted(count.value(), &noun.text)
            );
            diagnostics.push(
                Diagnostic::error(CHECK.name, divide.span, message)
                    .also(*span, counted(count.value(), &noun.text))
                    .help("make the two numbers the same"),
            );
        }
        // A sort that nothing takes is told as such.
        let is_taken = |sort: &Sort| {
            recipe.users(id).any(|(user, _)| {
                recipe.part(user).is_some_and(|part| part.sort.as_ref().is_some_and(|name| name.same(&sort.name)))
            })
        };
        if !part.sorts.iter().all(is_taken) {
            continue;
        }
        if let Some(used) = solved.balance.pieces_used.filter(|used| *used != made) {
            let message = format!(
                "`{}` is divided into {}, but {} {} used",
                part.name,
                show::pieces(made.value()),
                show::count_of(used.value()),
                if used.value() == Number::ONE { "is" } else { "are" }
            );
            let mut problem = Diagnostic::error(CHECK.name, divide.span, message)
                .label(show::pieces(made.value()).to_string())
                .help("change the number of pieces, or how many the others take");
            for (user, at) in recipe.users(id) {
                if let Some(line) = recipe.part(user).and_then(|part| part.lines.get(at)) {
                    problem = problem.also(line.span, "taken here");
                }
            }
            diagnostics.push(problem);
        }
    }
}

/// Pieces that are taken before the step that cuts them.
fn before_cutting(other: &Part, line: &Ingredient) -> Option<Diagnostic> {
    let before = line.before?.step;
    // A dough is scaled before it is shaped, whatever that step is called; a sheet is none until it is cut.
    let cuts = |step: &Step| called(step, beginnings!["cut", "slic"]);
    let has_pieces = |step: &Step| {
        step.loads.is_by_piece() || says(step, beginnings!["scale", "divide", "weigh", "portion", "cut", "piece"])
    };
    let first = other.steps.iter().position(cuts).filter(|first| *first >= before)?;
    if other.steps.iter().take(before).any(has_pieces) {
        return None;
    }
    let step = other.steps.get(first)?;
    let message = format!("pieces of `{}` are taken before `{}`, the step that makes them", other.name, step.name);
    let help = "take them behind that step, or take a weight here";
    Some(Diagnostic::warning(CHECK.name, line.amount_span, message).also(step.name.span, "cut here").help(help))
}

/// Pieces of a part that says nothing of pieces.
fn undivided(subject: &Subject<'_>, (id, part): (PartId, &Part), diagnostics: &mut Vec<Diagnostic>) {
    for line in &part.lines {
        let (Refers::Part(of), LineAmount::Said(said)) = (&line.refers, &line.amount) else { continue };
        let Some(Value::Count(count)) = said.first().map(|said| said.value) else { continue };
        let Some(other) = subject.recipe.part(*of) else { continue };
        if !other.sorts.is_empty() && part.sort.is_none() {
            let sorts: Vec<String> = other.sorts.iter().map(|sort| sort.name.to_string()).collect();
            let message =
                format!("a piece of `{}` is one of {}, and here is not said which", other.name, show::list(&sorts));
            let help = format!(
                "write `per {}` into this part, or take a weight",
                sorts.first().map_or("small", String::as_str)
            );
            diagnostics.push(
                Diagnostic::error(CHECK.name, line.amount_span, message).also(other.name.span, "this part").help(help),
            );
        }
        if other.divide.is_some() {
            diagnostics.extend(before_cutting(other, line));
            continue;
        }
        let verb = if count.value() == Number::ONE { "is" } else { "are" };
        let message = format!(
            "{} of `{}` {verb} taken, but it is not divided into pieces",
            show::pieces(count.value()),
            other.name
        );
        diagnostics.push(
            Diagnostic::error(CHECK.name, line.amount_span, message).also(other.name.span, "this part").help(
                match as_divided(subject, (id, part), (*of, count)) {
                    Some(divide) => format!("write `{divide}` into that part, or take a weight of it here"),
                    None => "write into that part how many pieces it is divided into, or take a weight of it here"
                        .to_owned(),
                },
            ),
        );
    }
}

/// `divide 12 x 60 g`: all of another part in as many pieces as are taken of it. `None` where that is no whole number of them, or a piece
/// weighs what is no tenth of a gram.
fn as_divided(subject: &Subject<'_>, (id, part): (PartId, &Part), (of, taken): (PartId, Count)) -> Option<String> {
    let times = match part.per_piece {
        true => subject.formula.pieces_for(part, id)?.value(),
        false => Number::ONE,
    };
    let pieces = taken.value().times(times).ok().filter(|pieces| pieces.is_whole() && !pieces.is_zero())?;
    let each = subject.formula.part(of)?.makes?.over(pieces).ok()?;
    let is_round = each.value().times(Number::whole(10)).is_ok_and(Number::is_whole) && each > Mass::ZERO;
    is_round.then(|| format!("divide {} x {}", show::count_of(pieces), show::mass(each, Units::Metric)))
}
