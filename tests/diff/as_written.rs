//! Where a batch grew as a whole, what did not grow with it is told as it stands in both versions, and never in between.

use super::{LOAF, diff, facts, lines, printed};
use serde_json::Value;

const SOUR: &str = "recipe Rye loaf\nmakes 10 loaves\n\npart poolish, from dough\nspare 50 g\nrye flour ..... 30 %\nwater ..... 30 %\n\n\
                    part dough\nrye flour ..... 100 %\nwater ..... 70 %\nsalt ..... 2 %\ndivide 10 x 500 g, loss 1 %\n";

fn figures<'v>(comparison: &'v Value, part: &str) -> Vec<&'v Value> {
    let parts = comparison["parts"].as_array().into_iter().flatten().filter(|one| one["name"] == part);
    parts.flat_map(|part| part["figures"].as_array().into_iter().flatten()).collect()
}

fn figure<'v>(comparison: &'v Value, part: &str, name: &str) -> Option<&'v Value> {
    figures(comparison, part).into_iter().find(|figure| figure["figure"] == name)
}

#[test]
fn a_batch_rescaled_throughout_is_one_fact() {
    let doubled = LOAF.replace("1000 g", "2000 g").replace("makes 2", "makes 4").replace("divide 2", "divide 4");
    let changes = diff(LOAF, &doubled);
    assert_eq!(lines(&changes), [], "{changes:#}");
    assert_eq!(facts(&changes, "steps", "step"), [], "{changes:#}");
    let said = printed(LOAF, &doubled, "text");
    assert!(said.contains("2 times"), "{said}");
    assert!(!said.contains("wheat flour"), "{said}");
}

/// Nobody changed what is left over, how many pieces there are or what they weigh.
#[test]
fn a_loss_changes_neither_what_is_left_over_nor_the_pieces() {
    let found = diff(SOUR, &SOUR.replace("loss 1 %", "loss 5 %"));
    for (part, name) in [("poolish", "spare"), ("dough", "pieces"), ("dough", "makes"), ("dough", "piece weight")] {
        assert_eq!(figure(&found, part, name), None, "{found}");
    }
    assert!(figure(&found, "dough", "stated loss").is_some(), "{found}");
    let plain = SOUR.replace("spare 50 g\n", "");
    let found = diff(&plain, &plain.replace("loss 1 %", "loss 5 %"));
    for (part, name) in [("dough", "pieces"), ("dough", "makes"), ("dough", "piece weight")] {
        assert_eq!(figure(&found, part, name), None, "{found}");
    }
    // 1.001 times is not once.
    let told = printed(&plain, &plain.replace("loss 1 %", "loss 1.1 %"), "text");
    assert!(told.contains("every amount is 1.001 times"), "{told}");
}

#[test]
fn pieces_of_another_weight_are_as_many() {
    let plain = SOUR.replace("spare 50 g\n", "");
    let found = diff(&plain, &plain.replace("x 500 g", "x 505 g"));
    assert_eq!(figure(&found, "dough", "pieces"), None, "{found}");
    let weight = figure(&found, "dough", "piece weight").expect("told");
    assert_eq!((weight["old"].as_f64(), weight["new"].as_f64()), (Some(500.0), Some(505.0)), "{found}");
}

/// What is mixed is more than what goes into the dough, as the card has it: so is what changes with what is left over.
#[test]
fn more_to_be_left_over_is_more_to_be_mixed() {
    let found = diff(SOUR, &SOUR.replace("spare 50 g", "spare 500 g"));
    let total = figure(&found, "poolish", "total").expect("told");
    let grams = |side: &str| total[side].as_f64().expect("a number");
    assert!((grams("new") - grams("old") - 450.0).abs() < 0.01, "{found}");
    assert_eq!(figure(&found, "dough", "total"), None, "{found}");
}

#[test]
fn a_step_of_another_name_is_renamed() {
    let cold = "recipe Dough\nflour ..... 1 kg\nwater ..... 650 g\nmix: hands 10 min\n    Mix {flour} and {water}.\nchill: wait 8 h, at 4 C\n";
    let told = printed(cold, &cold.replace("chill:", "retard:"), "text");
    assert!(told.contains("renamed") && !told.contains("reworded"), "{told}");
}
