//! Mixes made up by chance, against what a general-purpose solver of linear programs finds of them
//! (`tests/scripts/aim_reference.py`, scipy's HiGHS; the version stands in the table).

use crate::bench::bench;
use miche::aims::change::{Outcome, Wish};
use serde_json::Value;

const TABLE: &str = include_str!("../data/aim-systems.json");

fn figure(value: &Value) -> Option<String> {
    value.as_f64().map(|value| format!("{value}"))
}

/// The recipe and the larder of a system.
fn written(system: &Value) -> (String, String) {
    let (mut recipe, mut larder) = (String::from("recipe System\nuse \"larder.miche\"\npart mix\n"), String::new());
    for aim in system["aims"].as_array().expect("aims") {
        let name = aim["figure"].as_str().expect("a name");
        let amount = match (figure(&aim["low"]), figure(&aim["high"])) {
            // A value is aimed at exactly, and met within its digits when it is rounded.
            (Some(low), Some(high)) if low == high => format!("{:.1} %", aim["low"].as_f64().expect("a number")),
            (Some(low), Some(high)) => format!("{low}-{high} %"),
            (Some(low), None) => format!("at least {low} %"),
            (None, Some(high)) => format!("at most {high} %"),
            (None, None) => continue,
        };
        recipe.push_str(&format!("aim {name} {amount} of total\n"));
    }
    for food in system["foods"].as_array().expect("foods") {
        let name = food["name"].as_str().expect("a name");
        recipe.push_str(&format!("{name} .... {} g\n", food["grams"]));
        larder.push_str(&format!("ingredient {name}\nis other\ncontains nothing\n"));
        for fact in ["fat", "sugar", "protein", "water"] {
            larder.push_str(&format!("{fact} {} %\n", food[fact]));
        }
        larder.push('\n');
    }
    (recipe, larder)
}

#[test]
fn random_systems_are_solved_as_a_general_purpose_solver_solves_them() {
    let table: Value = serde_json::from_str(TABLE).expect("JSON");
    let (mut solved, mut impossible) = (0, 0);
    for (number, system) in table["systems"].as_array().expect("systems").iter().enumerate() {
        let (recipe, larder) = written(system);
        let bench = bench(&recipe, &larder);
        let others: Vec<&String> = bench.errors.iter().filter(|error| !error.starts_with("aim-missed")).collect();
        assert!(others.is_empty(), "{number}: {others:?}\n{recipe}");
        let free = bench.free(&[]);
        assert_eq!(free.len(), bench.lines.len(), "{number}: every line may change");
        let outcome = bench.solve(&free, Wish::LeastChange);
        match (system["least"].as_f64(), outcome) {
            (Some(least), Outcome::Found(answer)) => {
                let sum: f64 = answer.exact.iter().map(|times| (times.to_f64() - 1.0).abs()).sum();
                assert!(
                    (sum - least).abs() < 1e-4 * (1.0 + least),
                    "{number}: {sum} and not {least}\n{recipe}{larder}"
                );
                solved += 1;
            }
            (Some(least), Outcome::Met) => assert!(least < 1e-9, "{number}: {least}"),
            // The table takes every value exactly.
            (None, Outcome::Found(answer)) if answer.within_digits => {}
            (None, Outcome::Contradiction(found)) => {
                assert!(!found.aims.is_empty(), "{number}");
                impossible += 1;
            }
            (least, outcome) => panic!("{number}: {least:?} against {outcome:?}\n{recipe}{larder}"),
        }
    }
    assert!(solved > 100 && impossible > 20, "{solved} solved, {impossible} impossible");
}

/// Each set that is said to contradict itself does, and without any one of its aims it does not.
#[test]
fn a_contradiction_is_the_smallest_there_is() {
    let table: Value = serde_json::from_str(TABLE).expect("JSON");
    let mut looked = 0;
    for (number, system) in table["systems"].as_array().expect("systems").iter().enumerate() {
        if !system["least"].is_null() {
            continue;
        }
        let (recipe, larder) = written(system);
        let bench = bench(&recipe, &larder);
        let Outcome::Contradiction(found) = bench.solve(&bench.free(&[]), Wish::LeastChange) else { continue };
        let all = system["aims"].as_array().expect("aims");
        let set: Vec<usize> = found.aims.iter().map(|(_, aim, _)| *aim).collect();
        for left_out in &set {
            let mut fewer = system.clone();
            let kept = set.iter().filter(|aim| *aim != left_out).map(|aim| all[*aim].clone()).collect();
            fewer["aims"] = Value::Array(kept);
            let (recipe, larder) = written(&fewer);
            let bench = crate::bench::bench(&recipe, &larder);
            let outcome = bench.solve(&bench.free(&[]), Wish::LeastChange);
            assert!(
                !matches!(outcome, Outcome::Contradiction(_)),
                "{number} without {left_out}: {outcome:?}\n{recipe}"
            );
            looked += 1;
        }
    }
    assert!(looked > 20, "{looked} looked at");
}
