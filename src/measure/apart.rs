//! How far apart what is said and what follows from it may be.

use super::number::Number;

/// So far apart two figures of one thing are rounded alike: by a hundredth (common practice, no source).
pub const ROUNDED: Number = Number::constant(1, 100);

/// So far apart one of them may still be meant loosely; further apart one of them is wrong: by three hundredths (common practice, no source).
pub const LOOSE: Number = Number::constant(3, 100);
