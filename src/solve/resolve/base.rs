//! What 100 % is where no line says it.

use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::recipe::{Base, Ingredient};

/// All flour, where some is listed and it is more than what thickens a filling: of 40 g of semolina poppy seeds are 750 %, which nobody reads.
/// Where a line is no plain weight, a percentage or so many eggs, nobody knows yet how much it is, and flour it is.
pub(super) fn unsaid(lines: &[Ingredient]) -> Option<Base> {
    let has_flour = lines.iter().any(|line| line.is_flour && !line.aside);
    (has_flour && !only_thickens(lines)).then_some(Base::Flour)
}

/// Whether flour is less than a tenth of what is all said as weights. Common practice, no source.
fn only_thickens(lines: &[Ingredient]) -> bool {
    let weights = lines.iter().filter(|line| !line.aside);
    let weights: Option<Vec<(bool, Mass)>> =
        weights.map(|line| Some((line.is_flour, line.said().first()?.mass()?))).collect();
    let Some(weights) = weights else { return false };
    let sum = |all: &[(bool, Mass)], flour: bool| Mass::sum(all.iter().filter(|one| one.0 || !flour).map(|one| one.1));
    let (Ok(flour), Ok(all)) = (sum(&weights, true), sum(&weights, false)) else { return false };
    flour.times(Number::whole(10)).is_ok_and(|tenfold| tenfold < all)
}
