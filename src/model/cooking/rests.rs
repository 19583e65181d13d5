//! What a step is called in which a dough or a jar stands, in one list each for all who ask.

use crate::model::lowered::Beginnings;

/// The rise of a whole dough.
pub const RISES: &Beginnings = &Beginnings::of(&["rise", "rising", "bulk"]);

/// The prove of pieces.
pub const PROVES: &Beginnings = &Beginnings::of(&["prove", "proving", "proof"]);

/// All in which something living works in a dough, a preferment included.
pub const WORKS: &Beginnings =
    &Beginnings::of(&["rise", "rising", "bulk", "prove", "proving", "proof", "ferment", "ripen", "retard"]);

/// What ferments without being a dough.
pub const FERMENTS: &Beginnings = &Beginnings::of(&["ferment", "culture", "incubat", "bubbl", "sour"]);

/// What is done in an oven, a microwave or a pot that are not on: whole words, since mixed grill is no mix. Common practice, no source.
pub const WITHOUT_HEAT: &[&str] = &[
    "rise",
    "rising",
    "bulk",
    "prove",
    "proving",
    "proof",
    "proofing",
    "ferment",
    "fermenting",
    "fermentation",
    "ripen",
    "ripening",
    "rest",
    "resting",
    "stand",
    "soak",
    "soaking",
    "cool",
    "cooling",
    "chill",
    "chilling",
    "thaw",
    "thawing",
    "defrost",
    "defrosting",
    "autolyse",
    "marinate",
    "marinating",
    "mix",
    "mixing",
    "knead",
    "kneading",
    "weigh",
    "weighing",
    "scale",
    "shape",
    "shaping",
    "divide",
    "store",
];
