//! The text of a file as a tree: grammar, parser, written amounts, tidying, merging, prose.

pub mod merge;
pub mod notes;
pub mod parse;
pub mod prose;
pub mod syntax;
pub mod tidy;
pub mod value;
