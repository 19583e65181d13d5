//! All bench sums of a recipe, gathered for print.

use super::{makeup, ripeness};
use crate::make::mix;
use crate::measure::number::Overflow;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

mod levains;
mod mixes;
mod on_card;
pub mod pans;
mod preserves;
mod unpoured;
mod yeasts;

use super::tables::{Asked, Sums, Version};
pub use on_card::{OnCard, RoomWater, Rooms, on_card};

/// Works out all sums of a recipe. `versions` are all its choices, the chosen one among them.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn sums(recipe: &Recipe, formula: &Formula, versions: &[Version<'_>], asked: &Asked) -> Result<Sums, Overflow> {
    let mut all = Sums {
        recipe: recipe.name.to_string(),
        sections: Vec::new(),
        cautions: Vec::new(),
        impossible: Vec::new(),
        asked_in_vain: Vec::new(),
    };
    for (id, _) in formula.made(recipe) {
        if let Some(mix) = mix::mix(recipe, formula, id, &asked.today)? {
            mixes::section(recipe, formula, &mix, asked, &mut all)?;
        } else {
            unpoured::section(recipe, formula, id, asked, &mut all)?;
        }
    }
    yeasts::section(recipe, formula, asked.units, &mut all)?;
    if let Some(levain) = &asked.levain {
        levains::section(recipe, formula, levain, asked.units, &mut all)?;
    }
    ripeness::section(versions, asked, &mut all)?;
    pans::section(recipe, formula, asked, &mut all)?;
    makeup::section(recipe, formula, asked.units, &mut all)?;
    preserves::sections(recipe, formula, &mut all)?;
    Ok(all)
}
