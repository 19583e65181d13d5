//! Words of heat: what cooks, what is hot and what only warms, in one table for all who ask. Common practice, no source.
//!
//! Checks and cautions count as cooked only what surely is. A label that says how food is sold asks the other way round: what may be
//! cooked is not called raw, and what may be warmed has lost nobody knows how much.

use crate::model::lowered::Beginnings;

/// What a word of heat says of the step in which it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// A verb of cooking, for all who ask, wherever it stands in the step.
    Cooks,
    /// A verb of cooking, for all who ask, where the step is called so or a sentence begins with it: who brushes with barbecue sauce or
    /// lets steam into the oven cooks nothing.
    CooksAsVerb,
    /// A verb that cooks for a label; a check does not count on it, since it may be done to jars or to a crust, or only melt butter.
    MayCook,
    /// Equipment that is hot when it is used, for all who ask.
    Hot,
    /// Equipment that is hot for a label; a check does not count on it, since things are mixed, weighed and proved in it too.
    MayBeHot,
    /// A verb that warms, so that a label cannot tell what is lost: nothing raw is taken away.
    Warms,
    /// Equipment that stands on a fire or is only filled, as [`Says::Warms`]: a loaf pan, a pot of paste.
    MayStandOnFire,
    /// A verb or equipment that dries, as [`Says::Warms`], however warm: smoke and dry air take water at any temperature.
    Dries,
}

/// By what a word begins, for each of what it may say.
#[rustfmt::skip]
pub const TABLE: [(Says, &Beginnings); 8] = [
    (Says::Cooks, COOKS),
    (Says::CooksAsVerb, COOKS_AS_VERB),
    (Says::MayCook, MAY_COOK),
    (Says::Hot, HOT),
    (Says::MayBeHot, MAY_BE_HOT),
    (Says::Warms, WARMS),
    (Says::MayStandOnFire, MAY_STAND_ON_FIRE),
    (Says::Dries, DRIES),
];

/// [`Says::Cooks`].
#[rustfmt::skip]
pub const COOKS: &Beginnings = &Beginnings::of(&[
    "bak", "boil", "simmer", "fry", "fried", "roast", "poach", "toast", "grill", "scald", "carameli", "cook", "sear", "brais", "stew", "saut",
    "blanch", "sweat",
]);

/// [`Says::CooksAsVerb`].
#[rustfmt::skip]
pub const COOKS_AS_VERB: &Beginnings = &Beginnings::of(&[
    "barbecu", "braai", "broil", "chargrill", "deep-fr", "pan-fr", "pasteuri", "shallow-fr", "steam", "stir-fr",
]);

/// [`Says::MayCook`].
pub const MAY_COOK: &Beginnings = &Beginnings::of(&["microwav", "scorch", "sous", "steril"]);

/// [`Says::Hot`].
#[rustfmt::skip]
pub const HOT: &Beginnings = &Beginnings::of(&[
    "airfryer", "barbecue", "boiler", "bratt", "burner", "cooker", "fryer", "griddle", "grill", "hob", "hotplate", "kettle", "oven", "plancha",
    "salamander", "steamer", "stove", "tandoor", "toaster", "waffle", "wok",
]);

/// [`Says::MayBeHot`].
pub const MAY_BE_HOT: &Beginnings = &Beginnings::of(&["iron", "microwave", "saucepan", "skillet"]);

/// [`Says::Warms`].
pub const WARMS: &Beginnings =
    &Beginnings::of(&["flamb", "heat", "infus", "melt", "reduc", "render", "temper", "torch", "warm"]);

/// [`Says::MayStandOnFire`].
pub const MAY_STAND_ON_FIRE: &Beginnings = &Beginnings::of(&["pan", "pot"]);

/// [`Says::Dries`].
pub const DRIES: &Beginnings = &Beginnings::of(&["bain", "blowtorch", "dehydrat", "dryer", "smok", "torch"]);
