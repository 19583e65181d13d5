//! Raising agents for one another: by how much gas they give, and not by what they consist of.

use super::{Comer, kind_of, too_large};
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::Ingredient;

/// The soda that raises as much as a gram of baking powder: a quarter of a teaspoon for a teaspoon, which weigh as much (common practice, no source).
/// Powder has to give 12 % of gas at least and soda gives 44.01 / 84.01 = 52.4 % (molar masses), so that it is 0.23 or more.
const SODA_IN_POWDER: Number = Number::constant(1, 4);

/// The cream of tartar that a gram of soda takes up: KHC4H4O6 188.18 g on NaHCO3 84.01 g (molar masses).
const TARTAR_ON_SODA: Number = Number::constant(18_818, 8_401);

/// The same as a gram of soda, in soda; `None` where nobody knows how much it gives.
fn as_soda(kind: Kind) -> Option<Number> {
    match kind {
        Kind::Soda => Some(Number::ONE),
        Kind::BakingPowder => Some(SODA_IN_POWDER),
        _ => None,
    }
}

fn is_tartar(comer: &Comer) -> bool {
    comer.name.to_lowercase().ends_with("cream of tartar")
}

/// Finds how much comes in for a raising agent that does not live, or of one; `false` where none has to do with it.
///
/// # Errors
/// A sentence that says why nobody can tell.
pub(super) fn fill(old: &Ingredient, comers: &mut [Comer], remarks: &mut Vec<String>) -> Result<bool, String> {
    let kinds: Vec<Kind> = comers.iter().map(|comer| kind_of(&comer.name, &comer.facts)).collect();
    if !old.kind.is_chemical_raising() {
        let raising = comers.iter().zip(&kinds).find(|(_, kind)| kind.is_chemical_raising());
        return match raising.filter(|_| old.kind.raises()) {
            Some((comer, _)) => {
                Err(format!("`{}` lives and `{}` does not: no amount of it raises as well", old.name, comer.name))
            }
            None => Ok(false),
        };
    }
    let unknown = |name: &str| format!("nobody knows how much gas `{name}` gives here: no amount can be worked out");
    let from = as_soda(old.kind).ok_or_else(|| unknown(&old.name.text))?;
    let raising: Vec<usize> = (0..kinds.len()).filter(|at| kinds.get(*at).is_some_and(|kind| kind.raises())).collect();
    let gives = |at: &usize| kinds.get(*at).copied().and_then(as_soda);
    let mut gas = raising.iter().copied().filter(|at| gives(at).is_some());
    let (Some(first), None) = (gas.next(), gas.next()) else {
        let names: Vec<&str> = comers.iter().map(|comer| comer.name.as_str()).collect();
        return Err(format!(
            "name one thing that raises in place of `{}`: of {} that is not one",
            old.name,
            show::list(&names)
        ));
    };
    let to = gives(&first).unwrap_or(Number::ONE);
    let share = from.over(to).map_err(too_large)?;
    let has_acid = comers.iter().any(is_tartar);
    let is_soda = kinds.get(first) == Some(&Kind::Soda);
    let mut besides = Vec::new();
    for (at, comer) in comers.iter_mut().enumerate() {
        if at == first {
            comer.share = share;
        } else if is_tartar(comer) && is_soda && old.kind == Kind::BakingPowder {
            comer.share = share.times(TARTAR_ON_SODA).map_err(too_large)?;
        } else if raising.contains(&at) {
            return Err(unknown(&comer.name));
        } else {
            besides.push(comer.name.clone());
        }
    }
    remarks.push("Raising agents are counted by the gas they give, and not by weight: soda gives four times as much as baking powder.".to_owned());
    if !besides.is_empty() {
        let names = show::list(&besides);
        remarks.push(format!("How much of {names} goes with it is no sum: none is taken."));
    }
    match old.kind {
        Kind::BakingPowder if is_soda && !has_acid => remarks.push(
            "Soda raises only with something sour, buttermilk, yoghurt, brown sugar, and tastes of soap without it; baking powder brought its own acid."
                .to_owned(),
        ),
        Kind::Soda if !is_soda => remarks.push(
            "Baking powder brings its own acid: what is sour in the recipe for the soda stays sour, and it browns less.".to_owned(),
        ),
        _ => {}
    }
    Ok(true)
}
