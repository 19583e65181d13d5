//! How warm what comes in has to be: as warm as what it stands in for was to be.

use super::makeup::water_in;
use super::{Came, Comer};
use crate::language::syntax::{IngredientClause, IngredientLine};
use crate::measure::number::Number;
use crate::model::kind::Kind;
use crate::model::recipe::Ingredient;

/// Writes the temperature of the line that goes out behind what is poured in its place, or says that it is to be said there.
///
/// `rows`: the new lines, and of which of those that came each is.
pub(super) fn keep(
    (text, written, line): (&str, &IngredientLine, &Ingredient),
    (came, comers): (&[Came], &[Comer]),
    (rows, of): (&mut [String], &[usize]),
    remarks: &mut Vec<String>,
) {
    let Some(warmth) = warmth(text, written) else { return };
    let poured = poured(came, comers);
    let row = poured.and_then(|poured| of.iter().position(|of| *of == poured)).and_then(|row| rows.get_mut(row));
    match row {
        Some(row) => row.push_str(&format!(", {warmth}")),
        None => {
            let what = poured.and_then(|poured| came.get(poured));
            let what = what.map_or_else(|| "what comes in its place".to_owned(), |one| format!("`{}`", one.name));
            remarks.push(format!("`{}` was {warmth}: say how warm {what} is to be.", line.name));
        }
    }
}

/// The clause of a line that says how warm it is, in its own words.
fn warmth<'t>(text: &'t str, written: &IngredientLine) -> Option<&'t str> {
    let clause = written.clauses.iter().find(|clause| matches!(clause.value, IngredientClause::At(_)))?;
    text.get(clause.span.start as usize..clause.span.end as usize)
}

/// Which of those that came is poured in the place of what went out, and so has its temperature: the only one, else the one that brings
/// most of the water.
fn poured(came: &[Came], comers: &[Comer]) -> Option<usize> {
    let water = |one: &Came| {
        let comer = comers.iter().find(|comer| comer.name == one.name)?;
        let share = water_in(&comer.makeup);
        let is_wet = share >= Number::constant(1, 2);
        one.mass.times(share).ok().filter(|_| is_wet)
    };
    if came.len() == 1 {
        return Some(0);
    }
    let wet = came.iter().enumerate().filter_map(|(at, one)| Some((at, water(one)?)));
    wet.max_by_key(|(_, water)| *water).map(|(at, _)| at)
}

/// How the line that goes out was prepared, where one thing of its kind takes its place: butter for a pastry is as cold whichever it is.
pub(super) fn prepared(line: &Ingredient, kind: Kind, comers: usize) -> String {
    let how = line.preparation.as_ref().filter(|_| comers == 1 && line.kind == kind);
    how.map_or_else(String::new, |how| format!(", {how}"))
}
