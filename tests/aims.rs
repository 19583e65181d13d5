//! Aims: published worked examples, random systems against a general-purpose solver, what is written into files, and hostile aims.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "aims/bench.rs"]
mod bench;
#[path = "aims/blends.rs"]
mod blends;
#[path = "aims/command.rs"]
mod command;
#[path = "aims/errors.rs"]
mod errors;
#[path = "aims/kept.rs"]
mod kept;
#[path = "aims/published.rs"]
mod published;
#[path = "aims/raised.rs"]
mod raised;
#[path = "aims/swap_options.rs"]
mod swap_options;
#[path = "aims/systems.rs"]
mod systems;
