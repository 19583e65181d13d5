//! The run sheet from the outside: what it says to do, in every format, and that no word of it breaks on a terminal.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/sheet.rs"]
mod sheet;

use serde_json::Value;
use sheet::{files, json, miche};

const KITCHEN: &str = "kitchen Quay\noven x 1\nmixer x 1, holds 4 kg\ncooks 1\nopen 00:00-24:00\n";

/// 70 rolls of a dough that the mixer holds half of, baked 24 at a time.
const ROLLS: &str = "recipe Pier rolls\nmakes 70 rolls\nuse \"kitchen.miche\"\nplain flour .... 100 %\nwater .... 60 %\n\
    salt .... 2 %\nsesame .... 1 %\nbutter for the trays .... 40 g, aside\ndivide 70 x 60 g, loss 2 %\n\
    mix: hands 12 min, using mixer\n    All but the sesame.\nrest: wait 20 min\nshape: hands 20 s, each\n    Roll in {sesame}.\n\
    bake: tend 15 min, using oven at 220 C, 24 at a time\n    until gold\n";

fn text(arguments: &[&str], format: &str) -> String {
    let mut all = arguments.to_vec();
    all.extend(["--format", format]);
    let output = miche(&all);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn tasks<'a>(plan: &'a Value, step: &str) -> Vec<&'a Value> {
    plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step).collect()
}

/// By hand: 70 x 60 g are 4200 g, over 0.98 go in 4285.71 g at 163 %: 2629.27 g of flour, 1577.56 g of water, 52.59 g of
/// salt; half of each in a load.
#[test]
fn a_load_says_what_goes_into_it() {
    let file = files("loads", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let plan = json(&[&file]);
    let mixes = tasks(&plan, "mix");
    assert_eq!(mixes.len(), 2);
    for mix in mixes {
        let amounts = mix["amounts"].as_array().unwrap();
        let of =
            |name: &str| amounts.iter().find(|amount| amount["ingredient"] == name).cloned().unwrap_or(Value::Null);
        let grams = |name: &str| of(name)["grams"].as_f64().unwrap_or(0.0);
        assert!((grams("plain flour") - 1314.636).abs() < 0.01, "{amounts:?}");
        assert!((grams("water") - 788.782).abs() < 0.01, "{amounts:?}");
        assert_eq!(of("plain flour")["shown"], "1315 g");
        assert_eq!((of("sesame"), of("butter for the trays")), (Value::Null, Value::Null), "elsewhere: {amounts:?}");
        assert_eq!(mix["pieces"], Value::Null, "dough is not in pieces yet");
    }
    let shape = tasks(&plan, "shape");
    assert_eq!(shape[0]["amounts"][0]["ingredient"], "sesame");
    assert_eq!(shape[0]["pieces"], 70);
    let said = text(&[&file], "text");
    assert!(said.contains("70 pieces of 60 g"), "{said}");
    assert!(said.contains("mix 1 of 2") && said.contains("1315 g plain flour, 789 g water, 26 g salt"), "{said}");
}

/// 70 rolls at 24 to the oven are 24, 24 and 22; a mixer's halves are equal whatever they weigh.
#[test]
fn the_last_load_is_of_what_is_left() {
    let file = files("last", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let pieces = |plan: &Value| -> Vec<i64> {
        tasks(plan, "bake").iter().map(|task| task["pieces"].as_i64().unwrap()).collect()
    };
    assert_eq!(pieces(&json(&[&file])), [24, 24, 22]);
    assert_eq!(pieces(&json(&[&file, "--pieces", "50"])), [24, 24, 2]);
    assert_eq!(pieces(&json(&[&file, "--pieces", "24"])), [24]);
    // What the oven holds at once, dealt as equally as whole pieces can be.
    let held = ROLLS.replace(", 24 at a time", "");
    let kitchen = KITCHEN.replace("oven x 1", "oven x 1, holds 30 pieces");
    let file = files("dealt", &[("rolls.miche", &held), ("kitchen.miche", &kitchen)]);
    assert_eq!(pieces(&json(&[&file])), [24, 23, 23]);
}

#[test]
fn amounts_stand_in_every_format() {
    let file = files("formats", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let ready = [file.as_str(), "--ready", "2027-04-17 09:00"];
    for format in ["text", "markdown", "html"] {
        let said = text(&ready, format).split_whitespace().collect::<Vec<&str>>().join(" ");
        assert!(said.contains("1315 g plain flour, 789 g water"), "{format}: {said}");
        assert!(said.contains("24 pieces") && said.contains("22 pieces"), "{format}: {said}");
    }
    let calendar = text(&ready, "ics").replace("\r\n ", "");
    assert!(calendar.contains("Takes: 1315 g plain flour\\, 789 g water"), "{calendar}");
}

/// In ounces the loads are in ounces too, and the oven is in degrees Fahrenheit.
#[test]
fn amounts_are_in_the_units_that_are_asked_for() {
    let file = files("us", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let said = text(&[&file, "--units", "us"], "markdown");
    assert!(said.contains("oz") && said.contains("°F") && !said.contains(" kg") && !said.contains(" g "), "{said}");
}

#[test]
fn sheets_by_person_and_by_equipment_are_pages_too() {
    let file = files("by", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let page = |by: &str| text(&[&file, "--ready", "2027-04-17 09:00", "--by", by], "html");
    let equipment = page("equipment");
    assert!(equipment.contains("<h2>oven</h2>") && equipment.contains("<h2>mixer</h2>"), "{equipment}");
    let oven = equipment.split("<h2>oven</h2>").nth(1).unwrap();
    assert_eq!(oven.matches("<td>bake ").count(), 3, "{oven}");
    assert!(!oven.contains("<td>mix"), "{oven}");
    assert!(page("person").contains("<h2>Person 1</h2>"));
    // Numbers are those of the drawing: the first bake is the fifth thing done.
    assert!(oven.contains("<td>5</td>"), "{oven}");
}

/// What is no longer than the screen is wide keeps its words whole, at any width; the last column goes on below itself.
#[test]
fn no_word_breaks_on_a_narrow_terminal() {
    let file = files("narrow", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    for columns in ["80", "60", "40"] {
        let command = format!(
            "stty cols {columns} rows 40; '{}' plan --format text --color never --zone UTC --ready '2027-04-17 09:00' '{file}' 2>/dev/null",
            env!("CARGO_BIN_EXE_miche")
        );
        let output = std::process::Command::new("script")
            .args(["-qec", &command, "/dev/null"])
            .stdin(std::process::Stdio::null())
            .output()
            .expect("`script`, which comes with util-linux");
        let said = String::from_utf8(output.stdout).unwrap();
        let width: usize = columns.parse().unwrap();
        assert!(said.contains("Proven best"), "{said}");
        for line in said.lines() {
            assert!(line.trim_end().chars().count() <= width, "wider than {width}: {line}\n{said}");
        }
    }
}

/// A caution is on the paper that hangs in the kitchen, and not only on the screen of whoever printed it.
#[test]
fn what_is_made_without_gluten_after_wheat_is_said_on_the_plan() {
    let wheat = "recipe Rolls\nmakes 10 rolls\nuse \"kitchen.miche\"\nplain flour .... 1 kg\nwater .... 60 %\n\
        divide 10 x 150 g, loss 6.25 %\nmix: hands 10 min, using mixer\nbake: tend 15 min, using oven at 220 C\n    until gold\n";
    let free = "recipe Rice rounds\nmakes 10 rounds\nuse \"kitchen.miche\"\nrice flour .... 1 kg\nwater .... 60 %\n\
        divide 10 x 150 g, loss 6.25 %\nmix: hands 10 min, using mixer\nbake: tend 15 min, using oven at 220 C\n    until set\n";
    let day = "day Saturday\nuse \"kitchen.miche\"\nready 2027-04-17 12:00\nmake 10 of \"rolls.miche\", ready 2027-04-17 09:00\n\
        make 10 of \"rounds.miche\"\n";
    let file = files(
        "gluten",
        &[("day.miche", day), ("rolls.miche", wheat), ("rounds.miche", free), ("kitchen.miche", KITCHEN)],
    );
    for format in ["text", "markdown", "html", "json", "ics"] {
        let said = text(&[&file], format).replace("\r\n ", "").replace("\\,", ",");
        let flat = said.split_whitespace().collect::<Vec<&str>>().join(" ");
        assert!(
            flat.contains("mix of Rice rounds, which has no gluten in it, goes into the mixer"),
            "{format}: {said}"
        );
        assert!(flat.contains("clean the machine between the two"), "{format}: {said}");
    }
    let plan = json(&[&file]);
    assert_eq!(plan["cautions"][0]["check"], "gluten-after-wheat");
    assert_eq!(plan["cautions"][0]["recipe"], "Rice rounds");
    // The other way round nothing is said.
    let day = day.replace("ready 2027-04-17 12:00", "ready 2027-04-17 07:00");
    let file = files(
        "gluten-first",
        &[("day.miche", &day), ("rolls.miche", wheat), ("rounds.miche", free), ("kitchen.miche", KITCHEN)],
    );
    assert_eq!(json(&[&file])["cautions"], Value::Array(Vec::new()));
    assert!(!text(&[&file], "markdown").contains("gluten"));
}
