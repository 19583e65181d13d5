//! When to do what: steps become tasks, tasks a problem, a problem the best plan, the plan a schedule.

// The planner numbers its tasks, moments and equipment itself, and `fault` refuses a problem in which a number points at
// nothing; its tables (`dense`) are therefore looked up by index. Nothing that a user wrote is an index.
pub mod ask;
#[allow(clippy::indexing_slicing)]
mod assign;
pub mod batches;
#[allow(clippy::indexing_slicing)]
mod builder;
pub mod clock;
mod dense;
#[allow(clippy::indexing_slicing)]
mod engine;
pub mod explain;
pub mod fault;
#[allow(clippy::indexing_slicing)]
mod first;
pub mod limit;
#[allow(clippy::indexing_slicing)]
mod model;
#[allow(clippy::indexing_slicing)]
mod network;
#[allow(clippy::indexing_slicing)]
mod occupancy;
pub mod problem;
pub mod schedule;
#[allow(clippy::indexing_slicing)]
pub mod score;
#[allow(clippy::indexing_slicing)]
mod settle;
pub mod solve;
pub mod tasks;
