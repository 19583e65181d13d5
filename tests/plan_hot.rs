//! Food that is hot in a day's plan: it goes from the heat into the hot cupboard or the chiller, load by load, and where it cannot the plan
//! says so. Kitchens and recipes are made up; what is said of time and heat is the FDA Food Code's 3-501.14 (cooling) and 3-501.16
//! (holding), the half hour before a hot cupboard common practice, no source.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/hot_days.rs"]
mod hot_days;
#[path = "plan/sheet.rs"]
mod sheet;

use hot_days::{BAGELS, CHILLI, FISH, KITCHEN, STEW};
use serde_json::Value;
use sheet::{files, json, refused};

fn day(name: &str, make: &str, recipe: &str, kitchen: &str) -> String {
    let day = format!("day Canteen\nuse \"kitchen.miche\"\nready 2027-05-12 14:00\nmake {make} of \"food.miche\"\n");
    files(name, &[("day.miche", &day), ("kitchen.miche", kitchen), ("food.miche", recipe)])
}

/// The times of each load of a step.
fn of(plan: &Value, step: &str) -> Vec<(i64, i64)> {
    let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
    let number = |task: &Value, edge: &str| task[edge].as_i64().unwrap();
    tasks.map(|task| (number(task, "start_minute"), number(task, "end_minute"))).collect()
}

fn cautions(plan: &Value) -> Vec<(&str, &str)> {
    let all = plan["cautions"].as_array().unwrap().iter();
    all.map(|caution| (caution["check"].as_str().unwrap(), caution["text"].as_str().unwrap())).collect()
}

/// Two kettles of stew out of one kettle: each is fried and simmered without a pause, and goes into the hot cupboard as it comes.
#[test]
fn each_load_of_a_stew_goes_from_the_kettle_into_the_hot_cupboard() {
    let plan = json(&[&day("stew", "300", STEW, KITCHEN)]);
    let (fry, simmer, hold) = (of(&plan, "fry"), of(&plan, "simmer"), of(&plan, "hold"));
    assert_eq!((fry.len(), simmer.len(), hold.len()), (2, 2, 2), "{plan:#}");
    for ((fry, simmer), hold) in fry.iter().zip(&simmer).zip(&hold) {
        assert_eq!(fry.1, simmer.0);
        assert!(hold.0 - simmer.1 <= 30, "{simmer:?} {hold:?}");
    }
    assert_eq!(cautions(&plan), []);
}

/// Three kettles cannot all be in the cupboard for an hour and a half at most until they are served together: that is so, and is said.
#[test]
fn what_may_be_held_for_so_long_is_not_held_longer_in_loads() {
    let said = refused(&[&day("stew-480", "480", STEW, KITCHEN)], 1);
    assert!(said.contains("no-plan") && said.contains("hold"), "{said}");
}

/// What comes out of the fryer six by six is held six by six.
#[test]
fn fried_fish_is_held_as_it_comes_out_of_the_fat() {
    let plan = json(&[&day("fish", "60", FISH, KITCHEN)]);
    let (fry, hold) = (of(&plan, "fry"), of(&plan, "hold"));
    assert_eq!((fry.len(), hold.len()), (10, 10));
    let mut out: Vec<i64> = fry.iter().map(|load| load.1).collect();
    let mut into: Vec<i64> = hold.iter().map(|load| load.0).collect();
    out.sort_unstable();
    into.sort_unstable();
    assert!(out.iter().zip(&into).all(|(out, into)| into - out <= 30), "{out:?} {into:?}");
    assert_eq!(cautions(&plan), []);
}

/// One chiller that is too small for a kettle: the last third stands hot for three hours, which nobody may overlook.
#[test]
fn what_stands_hot_before_the_chiller_is_cautioned() {
    let plan = json(&[&day("chilli", "34 kg", CHILLI, KITCHEN)]);
    let cautions = cautions(&plan);
    assert!(
        cautions
            .iter()
            .any(|(check, text)| *check == "slow-cooling" && text.contains("3 h") && text.contains("blast 3 of 3")),
        "{cautions:?}"
    );
    let more = KITCHEN.replace("blast chiller x 1", "blast chiller x 3");
    let plan = json(&[&day("chilli-3", "34 kg", CHILLI, &more)]);
    assert_eq!(self::cautions(&plan), []);
}

/// More chillers are offered only where none of it then stands hot: three for seven loads are no mend.
#[test]
fn no_mend_lets_hot_food_stand() {
    let said = refused(&[&day("chilli-100", "100 kg", CHILLI, KITCHEN)], 1);
    assert!(said.contains("no-plan") && said.contains("the `blast chiller` is needed 10 h 30 min"), "{said}");
    assert!(said.contains("would let hot food stand"), "{said}");
    assert!(!said.contains("blast chiller x 2`") && !said.contains("blast chiller x 3`"), "{said}");
}

/// Six at a time in one pot: four loads one after the other, on the hob on which it was brought to the boil.
#[test]
fn bagels_are_boiled_in_the_pot_that_boils() {
    let plan = json(&[&day("bagels", "24", BAGELS, KITCHEN)]);
    let mut boil = of(&plan, "boil");
    boil.sort_unstable();
    assert_eq!(boil.len(), 4);
    assert!(boil.windows(2).all(|pair| pair[0].1 <= pair[1].0), "{boil:?}");
    let unit = |step: &str| -> Vec<Value> {
        let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
        tasks.map(|task| task["unit"].clone()).collect()
    };
    let hob = unit("heat");
    assert!(unit("boil").iter().all(|one| *one == hob[0]), "{plan:#}");
}
