//! A day of rolls in a small kitchen and its log, for the tests of `--now`.

#![allow(dead_code, clippy::unwrap_used, reason = "each test binary uses a part of it")]

use crate::sheet::{self, json};
use serde_json::Value;

/// One of everything, open all day.
pub const KITCHEN: &str = "kitchen Quay\noven x 1\nmixer x 1\ncooks 1\nopen 00:00-24:00\n";

/// Mix 12, rise 60, shape 24, prove 45 and up to 75, bake 16 and again 16: from 06:07 for 09:00.
pub const ROLLS: &str = "recipe Pier rolls\nmakes 48 rolls\nuse \"kitchen.miche\"\nplain flour .... 100 %\nwater .... 62 %\n\
    salt .... 2 %\ndried yeast .... 1 %\ndivide 48 x 80 g, loss 2 %\nmix: hands 12 min, using mixer\n\
    rise: wait 1 h, at 25 C\nshape: hands 30 s, each, may stand 5 min\nprove: wait 45 min, at 28 C, up to 75 min\n\
    bake: tend 16 min, using oven at 220 C, 24 at a time\n    until gold\n";

/// Writes a day with its log and plans the rest of it.
pub fn files(name: &str, log: &str) -> (String, String) {
    let day = "day Saturday\nuse \"kitchen.miche\"\nready 2027-04-17 09:00\nmake 48 of \"rolls.miche\"\n";
    let all = [("day.miche", day), ("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN), ("rolls.bakes", log)];
    let day = sheet::files(name, &all);
    let log = day.replace("day.miche", "rolls.bakes");
    (day, log)
}

/// The rest of that day as JSON.
pub fn rest(name: &str, now: &str, log: &str) -> Value {
    let (day, log) = files(name, log);
    json(&[&day, "--now", now, "--bakes", &log])
}

/// A load of a step in a plan.
pub fn task(plan: &Value, step: &str, load: i64) -> Value {
    let tasks = plan["tasks"].as_array().unwrap().iter();
    tasks.clone().find(|task| task["step"] == step && task["load"] == load).unwrap().clone()
}
