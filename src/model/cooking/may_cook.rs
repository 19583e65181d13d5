//! What may be cooked, warmed or lighter after a step, asked the way of those who must not promise too much: a label, a weight.

use super::heat_words::{
    COOKS, COOKS_AS_VERB, DRIES, MAY_BE_HOT, MAY_COOK, MAY_STAND_ON_FIRE, TAKES_LITTLE, TAKES_OF_WEIGHT,
    TAKES_OF_WEIGHT_IN, WARMS,
};
use super::{
    COOKING, beginnings, called, cooks_through, does, has_word_beginning, hottest, is_long_bath, is_without_heat, uses,
    words_of,
};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::step::{Step, StepKind, Words};

/// What goes into an oven to be warm or clean, and not to be baked: its step is called so.
const VESSELS: &Beginnings = &Beginnings::of(&["bottle", "bowl", "glass", "jar", "lid", "plate", "platter"]);

/// What is done to vessels that are still empty.
const READIES: &Beginnings = &Beginnings::of(&["clean", "dry", "heat", "preheat", "steril", "warm"]);

/// Whether a step cooks what is in it, vessels that are warmed empty aside.
pub fn may_cook(step: &Step) -> bool {
    let is_hotter = || hottest(step).is_some_and(|hottest| hottest.celsius() >= COOKING);
    let may_cook = || uses(step, MAY_BE_HOT) || does(step, MAY_COOK) || does(step, COOKS_AS_VERB);
    !is_of_empty_vessels(step)
        && (cooks_through(step) || is_long_bath(step) || is_hotter() || (is_not_cool(step) && may_cook()))
}

/// Whether heat or dry air may take something of what is in it.
pub fn may_warm(step: &Step) -> bool {
    let dries = || called(step, DRIES) || uses(step, DRIES);
    let warms = || is_not_cool(step) && (does(step, WARMS) || uses(step, MAY_STAND_ON_FIRE));
    // Fat and chocolate lose nothing when they melt.
    let melts = called(step, beginnings!["melt"]) && takes_only_fat(step);
    !is_of_empty_vessels(step) && !melts && (may_cook(step) || dries() || warms())
}

/// Whether all that a step takes is fat or chocolate.
pub fn takes_only_fat(step: &Step) -> bool {
    let mut taken = step.words.iter().filter_map(|word| match word {
        Words::Use { name, .. } => Some(Kind::of_name(name.key.as_str())),
        _ => None,
    });
    let is_fat = |kind: Kind| matches!(kind, Kind::Fat | Kind::Chocolate);
    taken.next().is_some_and(is_fat) && taken.all(is_fat)
}

/// Whether nothing says that it stands below what cooks: at a low temperature, or only waiting in a warm place.
fn is_not_cool(step: &Step) -> bool {
    step.temperature.is_none() && !is_without_heat(step) && (step.kind != StepKind::Wait || step.equipment.is_some())
}

/// Whether a step warms vessels in which there is nothing yet: in an oven, and by no word of cooking.
pub fn is_of_empty_vessels(step: &Step) -> bool {
    let draws = step.words.iter().any(|word| matches!(word, Words::Use { .. }));
    let in_an_oven = step.equipment.is_none() || uses(step, beginnings!["oven"]);
    let is_bare = called(step, READIES) && !called(step, COOKS) && !called(step, beginnings!["steam", "fill"]);
    called(step, VESSELS) && is_bare && in_an_oven && !draws && !has_word_beginning(words_of(step), ["fill"])
}

/// What a step takes of the weight of what is in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// As baking does: in an oven, on a grill, in fat, in steam.
    AsBaking,
    /// As all cooking does: in a pot.
    AsCooking,
    /// Nothing that a recipe would say as its loss.
    Nothing,
}

/// What a step takes of the weight. Of a verb in its name and of its equipment it is enough that one tells, unless it stands below what
/// cooks.
pub fn takes_of_the_weight(step: &Step) -> Takes {
    let is_cool = step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() < COOKING);
    let takes_little = called(step, TAKES_LITTLE) && !called(step, TAKES_OF_WEIGHT);
    if is_cool || takes_little || is_without_heat(step) || !may_cook(step) {
        Takes::Nothing
    } else if called(step, TAKES_OF_WEIGHT) || uses(step, TAKES_OF_WEIGHT_IN) {
        Takes::AsBaking
    } else {
        Takes::AsCooking
    }
}
