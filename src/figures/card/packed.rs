//! How an ingredient is prepared, at the size of a batch: `2 packets` behind a weight are two of that weight alone.

use crate::measure::loose::{Loose, loose};
use crate::measure::noun::{agreeing, several};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show::count_of;
use crate::measure::value::Said;
use crate::model::counted::is_cut;
use crate::model::recipe::Ingredient;

/// What stands behind an amount: packets, tins and cubes as many as such a weight is, and not said where that is none that anybody has.
pub(super) fn preparation(line: &Ingredient, mass: Option<Mass>) -> Option<String> {
    // Braces are of the prose; here they are none that a card prints.
    let words = line.preparation.as_deref()?.replace(['{', '}'], "");
    let said = line.said().first().and_then(Said::mass).filter(|said| *said > Mass::ZERO);
    let times = mass.zip(said).and_then(|(mass, said)| mass.ratio(said).ok());
    let Some(times) = times.filter(|times| *times != Number::ONE) else { return Some(words) };
    let clauses = words.split(", ").filter_map(|clause| match packed(clause) {
        Some((count, of)) => {
            let count = count.times(times).ok().filter(|count| is_cut(*count))?;
            let one = agreeing(Number::ONE, of);
            Some(format!("{} {}", count_of(count), several(count, &one)))
        }
        None => Some(clause.to_owned()),
    });
    Some(clauses.collect::<Vec<String>>().join(", ")).filter(|words| !words.is_empty())
}

/// So many of what something is sold in: `2 packets`.
fn packed(clause: &str) -> Option<(Number, &str)> {
    let (count, of) = clause.split_once(' ')?;
    let (above, below) = count.split_once('/').unwrap_or((count, "1"));
    let (above, below): (i64, i64) = (above.parse().ok()?, below.parse().ok()?);
    let count = Number::whole(above).over(Number::whole(below)).ok().filter(|count| count.is_positive())?;
    (loose(&of.to_lowercase()) == Some(Loose::Container)).then_some((count, of))
}
