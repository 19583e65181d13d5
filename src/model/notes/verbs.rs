//! The verbs of notes: what is done, and who is busy with it.

/// Verbs of work that runs by itself but is watched.
#[rustfmt::skip]
pub(super) const TENDED: [&str; 18] = [
    "bake", "baked", "baking", "roast", "simmer", "boil", "fry", "deep-fry", "cook", "toast", "steam", "grill", "braise", "stew", "poach",
    "blanch", "reduce", "griddle",
];
/// Verbs of work that needs nobody.
#[rustfmt::skip]
pub(super) const WAITED: [&str; 24] = [
    "rest", "rise", "prove", "proof", "chill", "cool", "ferment", "ripen", "soak", "refrigerate", "steep", "infuse", "freeze", "double",
    "stand", "retard", "autolyse", "bulk", "relax", "cure", "marinate", "macerate", "thaw", "defrost",
];
/// Verbs that say of themselves only that nobody is needed.
pub(super) const LEFT: [&str; 4] = ["leave", "let", "set", "cover"];
/// Verbs with which what is done with a dough and its parts begins.
#[rustfmt::skip]
pub(super) const TOLD: [&str; 32] = [
    "divide", "scale", "shape", "mix", "knead", "bake", "prove", "proof", "ferment", "chill", "whisk", "whip", "fold", "roll", "stir",
    "pour", "bring", "preheat", "combine", "rub", "beat", "rest", "cool", "refrigerate", "cover", "leave", "portion", "drain", "heat",
    "simmer", "boil", "fry",
];

/// More verbs, of what is done within a step.
pub(super) const ADDED: [&str; 13] =
    ["add", "sweat", "sear", "brown", "soften", "melt", "turn", "pulse", "blend", "spread", "brush", "knock", "lower"];
/// More first words of what is done, some of which name a thing elsewhere: `a warm place`.
#[rustfmt::skip]
pub(super) const BEGUN: [&str; 35] = [
    "autolyse", "bulk", "retard", "braise", "stew", "soak", "marinate", "macerate", "steam", "roast", "toast", "grill", "strain",
    "reduce", "press", "dust", "glaze", "fill", "assemble", "score", "dip", "sprinkle", "top", "melt", "warm", "dissolve", "transfer",
    "place", "put", "turn", "tip", "cut", "sift", "spread", "form",
];

/// Whether a word tells what is done.
pub(super) fn is_verb(word: &str) -> bool {
    [&TOLD[..], &TENDED, &WAITED, &LEFT, &ADDED].iter().any(|verbs| verbs.contains(&word))
}
