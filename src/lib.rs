//! miche: a compiler for formulas that bakers write.

pub mod check;
pub mod cli;
pub mod diagnostic;
pub mod formula;
pub mod kitchen;
pub mod larder;
pub mod loader;
pub mod number;
pub mod parse;
pub mod project;
pub mod quantity;
pub mod recipe;
pub mod report;
pub mod resolve;
pub mod show;
pub mod source;
pub mod step;
pub mod syntax;
pub mod temperature;
pub mod unit;
pub mod value;
