//! When to do what: steps become tasks, tasks a schedule.

pub mod tasks;
