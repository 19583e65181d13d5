//! What each target does with one text. `tests/fuzz_targets.rs` runs them over all seeds, so that they build and hold.

pub mod aims;
pub mod bakes;
pub mod book;
pub mod cards;
pub mod day;
pub mod editor;
pub mod formula;
pub mod larder;
pub mod parse;
pub mod published;
pub mod tidy;
