//! What is shown, as values: cards, lists, labels, costs, sums, comparisons, history.

pub mod aimed;
pub mod bakes;
pub mod book;
pub mod card;
pub mod compare;
pub mod cost;
pub mod history;
pub mod label;
pub mod list;
pub mod reader;
pub mod run_sheet;
pub mod sums;
pub mod swap;
