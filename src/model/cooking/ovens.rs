//! What is baked in or on: known by its name, by what is done in it and by how hot it is, in one place for all who ask.
//!
//! A bakehouse calls its ovens deck, stone, combi or by a name of their own. Whatever bakes and is nothing else that is hot, is one. Common
//! practice, no source.

use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::model::lowered::{Beginnings, beginnings};

/// Ovens by their names.
const OVENS: &Beginnings = &Beginnings::of(&["oven", "tandoor", "tandir", "tannur"]);

/// Names of ovens that are names of other things as well: where it is so hot, they are.
const MAY_BE_OVENS: &Beginnings =
    &Beginnings::of(&["deck", "stone|", "hearth", "combi", "kiln", "convection", "baking steel", "rotary", "tunnel"]);
const OVEN_HEAT: Number = Number::whole(120);

/// What is hot, or holds a dough, and is no oven whatever is done in it.
#[rustfmt::skip]
const NO_OVENS: &Beginnings = &Beginnings::of(&[
    "hob", "stove", "burner", "induction", "fire|", "kettle", "pan|", "pans|", "pot|", "pots|", "saucepan", "skillet", "wok", "copper", "bratt", "casserole",
    "griddle", "girdle", "bakestone", "bake stone", "comal", "plancha", "tawa", "tava", "mitad", "mogogo", "saj|", "hot plate", "hotplate", "crepe", "crêpe", "iron",
    "grill", "barbecue", "broiler", "salamander", "smoker", "toaster", "fryer", "steamer", "boiler", "cooker", "microwave", "bain", "bath", "press|",
    "mixer", "mould", "mold", "machine", "prov", "proof", "retard", "fridge", "refrigerator", "freezer", "chiller", "cupboard", "dehydrat", "dryer", "torch", "blowtorch", "gun",
]);

/// Verbs of what is done in an oven.
const BAKES: &Beginnings = &Beginnings::of(&["bake|", "bakes|", "baking|", "prebake", "roast|", "roasting|"]);

/// Whether something that a step uses is an oven: by its name, by its name and its heat, or because the step bakes in it and it is nothing else.
pub fn is_oven(step: &Name, equipment: &Name, celsius: Option<Number>) -> bool {
    let is_hot = || celsius.is_some_and(|celsius| celsius >= OVEN_HEAT);
    equipment.has_word_beginning(OVENS)
        || !equipment.has_word_beginning(NO_OVENS)
            && (is_baking(step) || equipment.has_word_beginning(MAY_BE_OVENS) && is_hot())
}

/// Whether something is an oven of clay, of stone or for pizza, by its name, which gets hotter than one of sheet iron: how long anything may be in it
/// is another question.
pub fn is_fierce(equipment: &Name) -> bool {
    equipment.has_word_beginning(beginnings!["tandoor", "tandir", "tannur", "stone", "pizza", "wood", "brick", "clay"])
}

/// Whether a step is called after what is done in an oven.
pub fn is_baking(step: &Name) -> bool {
    step.has_word_beginning(BAKES)
}

/// Whether something is a plate of iron, a grill or a stone on a fire: what is flat is done on it in minutes.
pub fn is_plate(equipment: &Name) -> bool {
    equipment.has_word_beginning(super::heat_words::GRIDDLES) || equipment.has_word_beginning(beginnings!["grill"])
}
