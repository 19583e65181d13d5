//! From a tree to a recipe, and from a recipe to its amounts, every one of them exact.

pub mod formula;
pub mod resolve;
