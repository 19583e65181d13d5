//! miche: a compiler for formulas that bakers write.

// Named by what pest generates without its `std` feature. That feature guards the stack at every step, which costs a quarter
// of the time of parsing, against recursion that the grammar of one line does not have.
extern crate alloc;

pub mod allergen;
pub mod allowance;
pub mod batch;
pub mod bench;
pub mod card;
pub mod caution;
pub mod check;
pub mod cli;
pub mod compare;
pub mod cooking;
pub mod cost;
pub mod day_batch;
pub mod diagnostic;
pub mod editor;
pub mod emit;
pub mod formula;
pub mod history;
pub mod kitchen;
pub mod label;
pub mod larder;
pub mod list;
pub mod loader;
pub mod loads;
pub mod mend;
pub mod merge;
pub mod notes;
pub mod number;
pub mod pan;
pub mod parse;
pub mod plan;
pub mod project;
pub mod prose;
pub mod quantity;
pub mod recipe;
pub mod report;
pub mod resolve;
pub mod show;
pub mod source;
pub mod step;
pub mod stock;
pub mod syntax;
pub mod temperature;
pub mod tidy;
pub mod timeline;
pub mod unit;
pub mod value;
pub mod weigh;
