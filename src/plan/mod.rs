//! When to do what: steps become tasks, tasks a problem, a problem the best plan, the plan a schedule.

pub mod ask;
mod assign;
mod bounds;
mod builder;
pub mod catch_up;
pub mod clock;
mod dense;
mod diary;
mod engine;
pub mod explain;
pub mod fault;
mod first;
pub mod limit;
pub mod logged;
mod network;
mod occupancy;
pub mod problem;
pub mod running;
pub mod schedule;
pub mod score;
mod settle;
pub mod shifts;
pub mod solve;
mod standard_form;
pub mod tasks;
