//! The text of a file as a tree: grammar, parser, amounts, tidying, mending, merging, prose.

pub mod bakes;
pub mod evaluate;
pub mod for_each;
pub(crate) mod in_words;
pub mod mend;
pub mod merge;
pub mod near;
pub mod no_name;
pub mod parse;
pub mod prose;
pub mod syntax;
pub mod tidy;
