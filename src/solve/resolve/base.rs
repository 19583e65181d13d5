//! What 100 % is where no line says it.

use super::agree::weigh;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::value::Said;
use crate::model::recipe::{Base, Ingredient};

/// All flour, where some is listed and it is more than what thickens a filling: of 40 g of semolina poppy seeds are 750 %, which nobody reads.
/// Where a line is a percentage, or so much of another part, nobody knows yet how much it is, and flour it is.
pub(super) fn unsaid(lines: &[Ingredient]) -> Option<Base> {
    let has_flour = lines.iter().any(|line| line.is_flour && !line.aside);
    (has_flour && !only_thickens(lines)).then_some(Base::Flour)
}

/// Whether flour is less than a tenth of what is said as weights. Common practice, no source.
fn only_thickens(lines: &[Ingredient]) -> bool {
    // A stick of cinnamon, an egg or a spoon that is counted beside them makes flour a smaller share yet.
    let is_beside = |line: &&Ingredient| {
        let is_share = |said: &Said| said.mass().is_some() || said.proportion().is_some();
        !line.is_flour && line.part().is_none() && !line.said().iter().any(is_share)
    };
    let weights = lines.iter().filter(|line| !line.aside && !is_beside(line));
    // Half a cup of flour that thickens beside a pound of meat is a weight that the larder knows.
    let weight = |line: &Ingredient| {
        let first = line.said().first()?;
        let by_measure = || weigh(first.value, line.facts()).and_then(Result::ok).filter(|_| line.is_flour);
        first.mass().or_else(by_measure)
    };
    let weights: Option<Vec<(bool, Mass)>> = weights.map(|line| Some((line.is_flour, weight(line)?))).collect();
    let Some(weights) = weights else { return false };
    let sum = |all: &[(bool, Mass)], flour: bool| Mass::sum(all.iter().filter(|one| one.0 || !flour).map(|one| one.1));
    let (Ok(flour), Ok(all)) = (sum(&weights, true), sum(&weights, false)) else { return false };
    flour.times(Number::whole(10)).is_ok_and(|tenfold| tenfold < all)
}
