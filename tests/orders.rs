//! What is ordered, and what of it is made: strained out, from the store, left over, before the last steps, sorts, stock. Every
//! expected figure is worked by hand from the files beside it, and cards, list, plan and cost say the same.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "orders/apart.rs"]
mod apart;
#[allow(dead_code)]
#[path = "wrong_use/bench.rs"]
mod bench;
#[path = "orders/day.rs"]
mod day;
#[path = "orders/left_out.rs"]
mod left_out;
#[path = "orders/lines.rs"]
mod lines;
#[path = "orders/once.rs"]
mod once;

use bench::{Bench, FINE};
use serde_json::Value;

/// A folder with these files.
fn files(all: &[(&str, &str)]) -> Bench {
    let bench = Bench::new();
    all.iter().for_each(|(name, text)| bench.write(name, text));
    bench
}

fn json(bench: &Bench, arguments: &[&str]) -> Value {
    let answer = bench.run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(answer.code, Some(FINE), "{}", answer.err);
    serde_json::from_str(&answer.out).unwrap()
}

/// All the program says to some arguments, problems included.
fn said(bench: &Bench, arguments: &[&str]) -> String {
    let answer = bench.run(arguments);
    answer.out + &answer.err
}

/// The one of a list whose key has that value.
fn one<'a>(list: &'a Value, key: &str, value: &str) -> &'a Value {
    let all = list.as_array().unwrap_or_else(|| panic!("no list in which {key} is {value}"));
    all.iter().find(|one| one[key] == value).unwrap_or_else(|| panic!("nothing has {value} as its {key}: {list}"))
}

fn part<'a>(card: &'a Value, name: &str) -> &'a Value {
    one(&card["parts"], "name", name)
}

fn line<'a>(card: &'a Value, of: &str, name: &str) -> &'a Value {
    one(&part(card, of)["lines"], "ingredient", name)
}

/// The names of the steps of a plan, by their start.
fn steps(plan: &Value) -> Vec<String> {
    plan["tasks"].as_array().unwrap().iter().map(|task| task["step"].as_str().unwrap().to_owned()).collect()
}
