//! One dough for several times: made at once, and from a rest on apart, with its own sorts and what goes into it.

use super::day::mixes;
use super::{files, json, line, one, part, said, steps};
use serde_json::Value;

/// Forty for six in the morning and thirty for eleven, from the bowl to the oven in one part: the dough is mixed and shaped once, rests
/// in the cold, and is baked in its time.
const NIGHT_ROLLS: &str = "recipe Night rolls\nmakes 60 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 3 kg\nwater .... 64 %\n\
    salt .... 2 %\nfresh yeast .... 1 %\ndivide 60 x 82 g, loss 1.8 %\nmix: hands 12 min, using mixer\n    \
    Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\nshape: hands 15 s, each\n\
    retard: wait 8 h, using retarder at 4 C, up to 20 h\nbake: tend 16 min, using oven at 225 C, 20 at a time\n    until gold\n\
    cool: wait 20 min\n";
const NIGHT_KITCHEN: &str =
    "kitchen Galley\nmixer x 1, holds 30 kg\noven x 1\nretarder x 1\ncooks 2\nopen 00:00-24:00\n";

fn night_rolls(recipe: &str, times: [&str; 2]) -> super::Bench {
    let day = format!(
        "day Two times\nuse \"kitchen.miche\"\nmake 40 of \"rolls.miche\", ready {}\nmake 30 of \"rolls.miche\", ready {}\n",
        times[0], times[1]
    );
    files(&[("rolls.miche", recipe), ("kitchen.miche", NIGHT_KITCHEN), ("day.miche", &day)])
}

#[test]
fn a_dough_of_one_part_is_made_once_for_two_times() {
    let bench = night_rolls(NIGHT_ROLLS, ["2027-04-20 06:00", "2027-04-20 11:00"]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    // 40 in loads of 20, then 30 of which the last ten are a load of their own.
    assert_eq!(steps(&plan), ["mix", "shape", "retard", "bake", "bake", "cool", "bake", "bake", "cool"]);
    let tasks = plan["tasks"].as_array().unwrap();
    let bakes: Vec<&Value> = tasks.iter().filter(|task| task["step"] == "bake").collect();
    let pieces: Vec<f64> = bakes.iter().map(|task| task["pieces"].as_f64().unwrap()).collect();
    assert_eq!(pieces, [20.0, 20.0, 20.0, 10.0]);
    assert_eq!(bakes.iter().map(|task| &task["loads"]).collect::<Vec<_>>(), [4, 4, 4, 4]);
    let made = plan["makes"].as_array().unwrap();
    let ready: Vec<&str> = made.iter().map(|made| made["ready"].as_str().unwrap()).collect();
    assert!(ready[0].contains("06:00") && ready[1].contains("11:00"), "{ready:?}");
    let cards = json(&bench, &["card", "day.miche"]);
    assert_eq!(cards.as_array().unwrap().len(), 1);
    assert_eq!(cards[0]["makes"]["pieces"], 70);
    let bake = one(&cards[0]["parts"][0]["steps"], "name", "bake");
    assert_eq!(bake["loads"], 4);
    let for_whom = cards[0]["made_for"].as_array().unwrap();
    assert_eq!(for_whom[1]["ready"], "2027-04-20 11:00");
    assert_eq!((&for_whom[0]["grams"], &for_whom[1]["grams"]), (&3280.into(), &2460.into()));
    let list = json(&bench, &["list", "day.miche"]);
    // 70 x 82 g ÷ 0.982 ÷ 1.67 of flour, written as 3 kg for 60.
    assert_eq!(one(&list["weigh"], "ingredient", "strong white flour")["grams"], 3500.0);
}

/// Twenty small ones and forty large ones of one dough, which are baked for different times: each time has its own sort.
#[test]
fn two_sorts_of_one_dough_go_on_apart() {
    let shaped_late = NIGHT_ROLLS
        .replace("shape: hands 15 s, each\n", "")
        .replace("bake: tend", "shape: hands 15 s, each, may stand 20 min\nbake: tend");
    for (recipe, order) in [
        (NIGHT_ROLLS, ["mix", "shape", "retard", "bake", "cool", "bake", "bake", "cool"]),
        (&shaped_late, ["mix", "retard", "shape", "bake", "cool", "shape", "bake", "bake"]),
    ] {
        let recipe =
            recipe.replace("divide 60 x 82 g, loss 1.8 %", "divide 20 x 70 g small and 40 x 90 g large, loss 0.2 %");
        let day = "day Two times\nuse \"kitchen.miche\"\nmake 20 small of \"rolls.miche\", ready 2027-04-20 06:00\n\
            make 40 large of \"rolls.miche\", ready 2027-04-20 11:00\n";
        let bench = files(&[("rolls.miche", &recipe), ("kitchen.miche", NIGHT_KITCHEN), ("day.miche", day)]);
        let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
        assert_eq!(steps(&plan)[..order.len()], order);
        let bakes = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == "bake");
        let pieces: Vec<f64> = bakes.map(|task| task["pieces"].as_f64().unwrap()).collect();
        assert_eq!(pieces, [20.0, 20.0, 20.0]);
        let cards = json(&bench, &["card", "day.miche"]);
        assert_eq!(cards.as_array().unwrap().len(), 1);
        let for_whom: Vec<f64> =
            cards[0]["made_for"].as_array().unwrap().iter().map(|one| one["grams"].as_f64().unwrap()).collect();
        assert_eq!(for_whom, [1400.0, 3600.0]);
        let list = json(&bench, &["list", "day.miche"]);
        assert_eq!(one(&list["weigh"], "ingredient", "strong white flour")["grams"], 3000.0);
        let sheet = said(&bench, &["plan", "day.miche", "--zone", "UTC", "--format", "markdown"]);
        if recipe.contains("may stand") {
            assert!(sheet.contains("| 20 × 70 g small |") && sheet.contains("| 40 × 90 g large |"), "{sheet}");
        } else {
            assert!(sheet.contains("20 × 70 g small and 40 × 90 g large"), "{sheet}");
        }
    }
}

/// Jam goes into the dough when it is shaped, for each time what it needs; it is cooked once. What keeps for eleven hours would last
/// through the night to the first time and not to the later one: then everything is made twice.
#[test]
fn what_goes_into_a_dough_that_goes_on_apart_is_made_once_with_it() {
    let filled = NIGHT_ROLLS
        .replace("strong white flour .... 3 kg", "part jam\nkeeps 4 days, chilled\nplum .... 500 g\ncaster sugar .... 200 g\n\
            cook: tend 20 min\n    Cook {plum} and {caster sugar}.\n    until thick\npart rolls\njam .... all\nstrong white flour .... 3 kg")
        .replace("divide 60 x 82 g, loss 1.8 %", "divide 60 x 95 g, loss 0.2 %")
        .replace("shape: hands 15 s, each\n", "")
        .replace("bake: tend", "shape: hands 15 s, each, may stand 20 min\n    Shape round {jam}.\nbake: tend");
    let bench = night_rolls(&filled, ["2027-04-20 06:00", "2027-04-20 11:00"]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    let made = steps(&plan);
    let often = |step: &str| made.iter().filter(|made| *made == step).count();
    assert_eq!((often("cook"), often("mix"), often("retard"), often("shape")), (1, 1, 1, 2), "{made:?}");
    let cards = json(&bench, &["card", "day.miche"]);
    assert_eq!(cards.as_array().unwrap().len(), 1);
    // Seventy rolls are 7/6 of what is written.
    let jam = line(&cards[0], "rolls", "jam")["grams"].as_f64().unwrap();
    assert!((jam - 700.0 * 7.0 / 6.0).abs() < 1e-6, "{jam}");
    let shapes = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == "shape");
    let jams: f64 = shapes.map(|task| one(&task["amounts"], "ingredient", "jam")["grams"].as_f64().unwrap()).sum();
    assert!((jams - jam).abs() < 1e-6, "{jams}");
    // Each with a dough of its own they lie in the cold side by side.
    let apart = |recipe: &str| {
        let bench = night_rolls(recipe, ["2027-04-20 06:00", "2027-04-20 11:00"]);
        bench.write("kitchen.miche", NIGHT_KITCHEN.replace("retarder x 1", "retarder x 2"));
        json(&bench, &["plan", "day.miche", "--zone", "UTC"])
    };
    assert_eq!(mixes(&apart(&filled.replace("keeps 4 days, chilled", "keeps 11 h"))), 2);
    // Without a rest that may go on the rolls are made for each time, and the jam still once.
    let plan = apart(&filled.replace(", up to 20 h", ""));
    assert_eq!((mixes(&plan), steps(&plan).iter().filter(|step| *step == "cook").count()), (2, 1));
}

/// When it is asked, a card says of each part how long ahead it can be made.
#[test]
fn a_card_says_how_long_ahead_a_part_can_be_made() {
    let tarts = "recipe Jam tarts\nmakes 12 tarts\npart jam\nkeeps 4 days, chilled\nplum .... 480 g\ncook: tend 20 min\n    Cook {plum}.\n    \
        until thick\npart tarts\nper piece\njam .... 40 g\npuff pastry .... 50 g\nlay: hands 10 s, each\n    Lay {jam} on {puff pastry}.\n    \
        until even\n";
    let bench = files(&[("tarts.miche", tarts)]);
    let card = json(&bench, &["card", "tarts.miche", "--ahead"]);
    let ahead = &part(&card, "jam")["ahead"];
    assert_eq!((ahead["minutes"].as_i64(), ahead["kept"].as_str()), (Some(4 * 1440), Some("chilled")), "{card}");
    assert!(part(&card, "tarts").get("ahead").is_none());
    assert!(part(&json(&bench, &["card", "tarts.miche"]), "jam").get("ahead").is_none());
    for format in ["text", "markdown", "html"] {
        let words = "can be made up to 4 days ahead, kept chilled";
        let said_by = |more: &[&str]| said(&bench, &[&["card", "tarts.miche", "--format", format][..], more].concat());
        let (with, without) = (said_by(&["--ahead"]).replace('\u{a0}', " "), said_by(&[]).replace('\u{a0}', " "));
        assert!(with.contains(words) && !without.contains(words), "{format}: {with}");
    }
    let reader = said(&bench, &["card", "tarts.miche", "--for", "reader", "--ahead"]);
    assert!(reader.contains("--ahead marks the cards of the bench"), "{reader}");
}

/// Orders for one time are baked together, whichever line says the time; one without a time is wanted with the last.
#[test]
fn what_is_wanted_at_one_time_goes_on_together() {
    let day = "day Two times\nuse \"kitchen.miche\"\nmake 40 of \"rolls.miche\", ready 2027-04-20 06:00\n\
        make 30 of \"rolls.miche\", ready 2027-04-20 11:00\nmake 5 of \"rolls.miche\"\n\
        make 5 of \"rolls.miche\", ready 2027-04-20 11:00\n";
    let bench = files(&[("rolls.miche", NIGHT_ROLLS), ("kitchen.miche", NIGHT_KITCHEN), ("day.miche", day)]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    let bakes = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == "bake");
    let pieces: Vec<f64> = bakes.map(|task| task["pieces"].as_f64().unwrap()).collect();
    assert_eq!(pieces, [20.0, 20.0, 20.0, 20.0]);
    let bench = night_rolls(NIGHT_ROLLS, ["2027-04-20 06:00", "2027-04-20 06:00"]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    assert_eq!(plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == "cool").count(), 1);
}

/// What cannot wait so long, or is for another day, is a dough of its own; what keeps is made in one go.
#[test]
fn what_cannot_wait_is_made_twice() {
    let mixes = |recipe: &str, times: [&str; 2]| {
        mixes(&json(&night_rolls(recipe, times), &["plan", "day.miche", "--zone", "UTC"]))
    };
    assert_eq!(mixes(NIGHT_ROLLS, ["2027-04-20 06:00", "2027-04-20 19:00"]), 2);
    assert_eq!(mixes(NIGHT_ROLLS, ["2027-04-20 18:00", "2027-04-21 04:00"]), 2);
    let tight = NIGHT_ROLLS.replace(", up to 20 h", "").replace(", 20 at a time", "");
    assert_eq!(mixes(&tight, ["2027-04-20 06:00", "2027-04-20 11:00"]), 2);
    let keeps = NIGHT_ROLLS.replace("divide 60", "keeps 2 days\ndivide 60");
    let bench = night_rolls(&keeps, ["2027-04-20 06:00", "2027-04-20 11:00"]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    assert_eq!(steps(&plan), ["mix", "shape", "retard", "bake", "bake", "bake", "bake", "cool"]);
}
