//! Words of cold, in one list for all who ask. Common practice, no source.

use crate::model::lowered::Beginnings;

/// By how a word begins, the surest first: a refrigerator, a freezer, and what is cool enough that nothing stands there in the warm.
const WORDS: [&str; 7] = ["chill", "cold", "fridge", "refrigerat", "freez", "cellar", "ice"];

/// It is in a refrigerator, or as cold.
pub const FRIDGE: &Beginnings = &Beginnings::of(WORDS.split_at(4).0);

/// It is in a refrigerator or a freezer: food is kept there.
pub const COLD: &Beginnings = &Beginnings::of(WORDS.split_at(5).0);

/// It is not in the warm. A cellar or a bowl of ice keeps nothing for days.
pub const NOT_WARM: &Beginnings = &Beginnings::of(&WORDS);
