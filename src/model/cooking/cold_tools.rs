//! Tools and places that heat nothing: a step that is called `cook` and stands in a mixer, a bowl or a refrigerator cooks nothing by its name. Common
//! practice, no source.

use super::{COOKING, hottest, says, uses};
use crate::model::lowered::Beginnings;
use crate::model::step::Step;

/// What mixes, cuts, presses or chills, by the beginnings of words.
#[rustfmt::skip]
const COLD_TOOLS: &Beginnings = &Beginnings::of(&[
    "mixer", "processor", "blender", "grinder", "mincer", "sheeter", "fridge", "refrigerator", "freezer", "chiller", "whisk", "grater", "mandolin", "slicer",
    "churn", "ice cream machine", "mortar", "bowl|", "bowls|", "mixing bowl", "board", "knife", "table|", "bench|", "worktop", "counter", "sieve", "colander", "jar|", "jars|", "tub|",
]);
/// With one of these it heats what is in it: a mixer with a heated bowl, a bowl over steam, a warming table.
#[rustfmt::skip]
const HEATED: &Beginnings = &Beginnings::of(&[
    "thermo", "thermal", "heat", "cook", "induction", "hot", "warm", "steam", "double", "bain", "copper", "jacket", "fire", "ember", "stove", "hob", "oven",
]);

/// What a bowl may stand over.
#[rustfmt::skip]
const OVER_HEAT: &Beginnings = &Beginnings::of(&[
    "bain", "double boiler", "water bath", "over heat", "over the heat", "hot water", "simmering water", "over steam", "microwav",
]);

/// Whether a step uses a tool that heats nothing, and says of no heat below it. What its own words cook is another question.
pub(super) fn heats_nothing(step: &Step) -> bool {
    uses(step, COLD_TOOLS)
        && !uses(step, HEATED)
        && !says(step, OVER_HEAT)
        && hottest(step).is_none_or(|hottest| hottest.celsius() < COOKING)
}
