//! How a step is cut into loads: by what it says, and by what the equipment holds.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::kitchen::{Capacity, Kitchen};
use crate::model::recipe::Part;
use crate::model::step::{Loads, Step};
use crate::solve::formula::{Formula, SolvedPart};

/// The most loads that are counted one by one; more than a day of one-second loads is a mistake.
const MOST: i64 = 100_000;

/// The pieces that a part is handled in: what it is divided into, else the recipe's.
pub fn pieces_of(part: &Part, solved: &SolvedPart, formula: &Formula) -> Option<Number> {
    let own = if part.per_piece { formula.pieces } else { solved.pieces.or(formula.pieces) };
    own.map(crate::measure::quantity::Count::value)
}

/// How many loads a step takes, each of which lasts the step's time.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn count(
    part: &Part,
    solved: &SolvedPart,
    formula: &Formula,
    step: &Step,
    kitchen: &Kitchen,
) -> Result<i64, Overflow> {
    let pieces = pieces_of(part, solved, formula);
    let said = match (step.loads, pieces) {
        (Loads::Once, _) | (_, None) => Number::ONE,
        (Loads::Each, Some(pieces)) => pieces.ceil(),
        (Loads::Of(size), Some(pieces)) => pieces.over(size)?.ceil(),
    };
    let holds = step.equipment.as_ref().and_then(|name| kitchen.find(name)).and_then(|equipment| equipment.holds);
    let fits = match holds {
        Some(Capacity::Pieces(most)) => match (step.loads, pieces) {
            // Said loads already are pieces; only larger ones than fit are cut again.
            (Loads::Of(size), _) if size <= most.value() => Number::ONE,
            (Loads::Each, _) | (_, None) => Number::ONE,
            (_, Some(pieces)) => pieces.over(most.value())?.ceil(),
        },
        Some(Capacity::Mass(most)) if step.loads == Loads::Once => mass_in(solved).ratio(most)?.ceil().max(Number::ONE),
        _ => Number::ONE,
    };
    Ok(said.max(fits).max(Number::ONE).to_whole().unwrap_or(MOST).min(MOST))
}

/// What lies in the bowl: everything that goes into the part.
fn mass_in(solved: &SolvedPart) -> Mass {
    solved.goes_in.unwrap_or(Mass::ZERO)
}
