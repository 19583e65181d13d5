//! All formulas of a recipe: those of the recipes that it uses, then its own, until what is left out of it is settled too.

use super::composition::Others;
use super::left_out::{self, LeftOut};
use super::settle::Solver;
use super::{Formula, SolvedPart, balance, composition, cycle, heated, same_amounts, uses};
use crate::language::evaluate::too_large;
use crate::measure::number::Overflow;
use crate::measure::quantity::{Count, Mass};
use crate::model::flow;
use crate::model::recipe::{HeadMakes, PartId, Recipe};
use crate::text::diagnostic::Diagnostic;

pub(super) fn solve(recipe: &Recipe, others: Others<'_>, diagnostics: &mut Vec<Diagnostic>) -> Formula {
    // The list holds all that any of them uses; each is solved once, as soon as those that it uses are.
    let mut known: Vec<(&Recipe, Formula)> = Vec::with_capacity(recipe.used.len());
    let mut left: Vec<&Recipe> = recipe.used.iter().map(|used| used.recipe.as_ref()).collect();
    while !left.is_empty() {
        let is_known = |one: &Recipe| known.iter().any(|(recipe, _)| recipe.is_same(one));
        let next = left.iter().rposition(|one| one.used.iter().all(|used| is_known(&used.recipe))).unwrap_or(0);
        let one = left.remove(next);
        let formula = solve_with(one, &known, &[], &mut Vec::new());
        known.push((one, formula));
    }
    let before = diagnostics.len();
    let formula = solve_with(recipe, &known, others, diagnostics);
    let found = diagnostics.get(before..).unwrap_or_default();
    debug_assert!(
        others.is_empty() || is_as_by_itself(recipe, &known, &formula, found),
        "the amounts of `{}` are not what they are by themselves",
        recipe.name
    );
    formula
}

/// `known` holds the formulas of the used recipes as they stand in their own files.
fn solve_with(
    recipe: &Recipe,
    known: &[(&Recipe, Formula)],
    others: Others<'_>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Formula {
    let mut found = Vec::new();
    if let Ok(Some(formula)) = same_amounts::of(recipe, others, &mut found) {
        diagnostics.append(&mut found);
        return formula;
    }
    let own = |used: &crate::model::recipe::UsedRecipe| {
        known.iter().find(|(recipe, _)| recipe.is_same(&used.recipe)).map(|(_, formula)| formula)
    };
    let used: Vec<Option<&Formula>> = recipe.used.iter().map(own).collect();
    if cycle::report(recipe, diagnostics) {
        return Formula { parts: vec![SolvedPart::default(); recipe.parts.len()].into(), pieces: pieces_of(recipe) };
    }
    // How large a part is goes by how it is used, and how much of it is there before its last steps by what goes into it.
    let mut left_out = LeftOut::default();
    let mut rounds = if left_out::is_any(recipe) { recipe.parts.len().min(MOST_ROUNDS) } else { 0 };
    loop {
        let mut found = Vec::new();
        let (formula, next) = solve_once(recipe, &used, others, &left_out, &mut found);
        if rounds == 0 || next == left_out {
            diagnostics.append(&mut found);
            return formula;
        }
        left_out = next;
        rounds -= 1;
    }
}

/// Whether a formula and what is wrong with it are the same when nothing was worked out before.
fn is_as_by_itself(recipe: &Recipe, known: &[(&Recipe, Formula)], formula: &Formula, found: &[Diagnostic]) -> bool {
    let mut alone = Vec::new();
    solve_with(recipe, known, &[], &mut alone) == *formula && alone == found
}

/// Uses before a last step lie in one another at most so deep.
const MOST_ROUNDS: usize = 20;

/// The formula when it is known what is left out, and what is left out then.
fn solve_once(
    recipe: &Recipe,
    used: &[Option<&Formula>],
    others: Others<'_>,
    left_out: &LeftOut,
    diagnostics: &mut Vec<Diagnostic>,
) -> (Formula, LeftOut) {
    let mut formula =
        Formula { parts: vec![SolvedPart::default(); recipe.parts.len()].into(), pieces: pieces_of(recipe) };
    ovens(recipe, used, &mut formula);
    let settled = vec![false; recipe.parts.len()];
    let made = flow::made_without(recipe, |id, line| left_out.is_out(id, line));
    let known = vec![false; recipe.parts.len()];
    let mut solver =
        Solver { recipe, used, others, formula: &mut formula, settled, known, made, left_out, diagnostics };
    solver.run();
    let settled = std::mem::take(&mut solver.settled);
    let known = std::mem::take(&mut solver.known);
    let made = std::mem::take(&mut solver.made);
    for (solved, settled) in formula.parts.iter_mut().zip(settled) {
        solved.is_settled = settled;
    }
    let next = finish(recipe, &mut formula, (&made, &known), others, diagnostics);
    let next = next.unwrap_or_else(|Overflow| {
        diagnostics.push(too_large(recipe.name.span));
        left_out.clone()
    });
    (formula, next)
}

/// What the ovens of the used recipes leave of the parts that are drawn from them. Where that is beyond all numbers, the dough is too, which
/// is reported.
fn ovens(recipe: &Recipe, used: &[Option<&Formula>], formula: &mut Formula) {
    for ((_, part), slot) in recipe.parts().zip(&mut formula.parts) {
        let there =
            part.foreign.and_then(|at| Some((recipe.used.get(at.recipe)?, *used.get(at.recipe)?.as_ref()?, at.part)));
        slot.oven = there.and_then(|(used, formula, id)| heated::left_by_oven(&used.recipe, formula, id, None).ok()?);
    }
}

/// The recipe's pieces: what the head says, else what its final part is divided into.
fn pieces_of(recipe: &Recipe) -> Option<Count> {
    if let Some(HeadMakes::Pieces { count, .. }) = &recipe.makes {
        return Some(*count);
    }
    let divided = |id: PartId| recipe.part(id).and_then(|part| part.divide).map(|divide| divide.count);
    // Where there are several sorts, all of them are what is made.
    let sorted = || recipe.own_parts().find(|(_, part)| !part.sorts.is_empty()).and_then(|(id, _)| divided(id));
    recipe.final_part().and_then(divided).or_else(sorted)
}

/// How the steps draw on the lines, what is left out, balance and composition.
fn finish(
    recipe: &Recipe,
    formula: &mut Formula,
    (made, known): (&[bool], &[bool]),
    others: Others<'_>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Result<LeftOut, Overflow> {
    for (id, _) in recipe.parts().filter(|(id, _)| known.get(id.0) != Some(&true)) {
        let draws = uses::of(recipe, formula, id, diagnostics)?;
        if let Some(solved) = formula.parts.get_mut(id.0) {
            solved.draws = draws.into();
        }
    }
    let left_out = if left_out::is_any(recipe) { left_out::apply(recipe, formula, made)? } else { LeftOut::default() };
    for (id, part) in recipe.parts() {
        let balance = balance::of(recipe, formula, id)?;
        if let Some(solved) = formula.parts.get_mut(id.0) {
            solved.balance = balance;
            let is_something = part.foreign.is_none() || solved.makes.is_some_and(|mass| mass > Mass::ZERO);
            solved.is_made = is_something && made.get(id.0) == Some(&true);
        }
    }
    composition::fill(recipe, formula, others)?;
    Ok(left_out)
}
