//! What a head baker does otherwise than a plan did: which end of a range gives way, what goes into the oven together, what is offered for a day
//! that cannot be. The files are invented; the minutes are worked out by hand.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/day_now.rs"]
mod day_now;
#[path = "plan/sheet.rs"]
mod sheet;

use day_now::ROLLS;
use serde_json::Value;
use sheet::{files, json, miche, refused};

/// The minutes at which the loads of a step begin and end.
fn of(plan: &Value, step: &str) -> Vec<(i64, i64)> {
    let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
    tasks.map(|task| (task["start_minute"].as_i64().unwrap(), task["end_minute"].as_i64().unwrap())).collect()
}

fn text(arguments: &[&str]) -> String {
    let output = miche(arguments);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Begun three minutes late: with `14-16 min` for each of two loads the rolls come out at their sign and are in time, which is said.
#[test]
fn a_bake_takes_its_shorter_time_before_anything_is_late() {
    let (day, log) =
        day_now::files("short-bake", "bakes of \"rolls.miche\"\nbake 2027-04-17 06:10\nmix: 06:10-06:22\n");
    let rolls = ROLLS.replace("bake: tend 16 min", "bake: tend 14-16 min");
    std::fs::write(day.replace("day.miche", "rolls.miche"), rolls).unwrap();
    let plan = json(&[&day, "--now", "06:40", "--bakes", &log]);
    assert_eq!(plan["late"], Value::Array(Vec::new()), "{plan:#}");
    let bakes = of(&plan, "bake");
    assert!(bakes.iter().all(|(begins, ends)| ends - begins == 14), "{bakes:?}");
    let said = text(&[&day, "--now", "06:40", "--bakes", &log, "--format", "markdown"]);
    assert!(
        said.contains("takes 14 min here, which its range allows: with 16 min orders would be 3 min later in all"),
        "{said}"
    );
    // Where nothing is late they have their longer time.
    let early = "bakes of \"rolls.miche\"\nbake 2027-04-17 06:00\nmix: 06:00-06:12\n";
    std::fs::write(&log, early).unwrap();
    let plan = json(&[&day, "--now", "06:40", "--bakes", &log]);
    assert!(of(&plan, "bake").iter().all(|(begins, ends)| ends - begins == 16));
}

/// One oven of two is left: rolls that may stand 20 min after the wash go in as three loads of 18 min, the last of them 36 min after it. Before a
/// running day has no plan at all that is broken, by 16 min, and told.
#[test]
fn a_limit_to_come_is_broken_by_a_little_before_all_is_given_up() {
    let (day, log) = day_now::files("wash", "bakes of \"rolls.miche\"\nbake 2027-04-17 06:00\nmix: 06:00-06:12\n");
    let rolls = ROLLS.replace(
        "bake: tend 16 min, using oven at 220 C, 24",
        "wash: hands 4 min, may stand 20 min\nbake: tend 18 min, using oven at 220 C, 16",
    );
    std::fs::write(day.replace("day.miche", "rolls.miche"), rolls).unwrap();
    refused(&[&day], 1);
    let said = text(&[&day, "--now", "06:40", "--bakes", &log, "--format", "markdown"]);
    assert!(said.contains("Cannot be kept, by 16 min: bake 3 of 3 of Pier rolls"), "{said}");
    assert!(!said.contains("bake 2 of 3 of Pier rolls is to begin"), "{said}");
}

const KITCHEN: &str = "kitchen Wharf\noven x 2\nmixer x 1\nretarder x 1, holds 60 pieces\ncook Olu 22:00-06:00\n\
    cook Rosa 04:00-12:30\nopen 22:00-13:00\n";

/// Ninety rolls, for which a retarder of 60 has no room.
const WHARF: &str = "recipe Wharf rolls\nmakes 90 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 100 %\nwater .... 58 %\nsalt .... 2 %\n\
    instant yeast .... 0.5 %\ndivide 90 x 85 g, loss 2 %\nmix: hands 12 min, using mixer\n    \
    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nshape: hands 10 s, each\n\
    retard: wait 8-12 h, using retarder at 4 C, up to 18 h\nprove: wait 90-100 min, at 28 C, up to 140 min\n\
    bake: tend 20 min, using oven at 220 C, 45 at a time\n    until gold\n";

/// Wanted at noon, mixed at 22:00 at the soonest on the night: of 8-12 h in the cold and 90-100 min in the warm the hours in the cold give way.
#[test]
fn hours_in_the_cold_give_way_before_minutes_in_the_warm() {
    let day = "day Wharf\nuse \"kitchen.miche\"\nmake 30 of \"rolls.miche\", ready 2027-05-20 12:00\n";
    let day = files("cold-first", &[("day.miche", day), ("rolls.miche", WHARF), ("kitchen.miche", KITCHEN)]);
    let plan = json(&[&day]);
    let (retard, prove) = (of(&plan, "retard")[0], of(&plan, "prove")[0]);
    assert!(prove.1 - prove.0 >= 100 && (480..720).contains(&(retard.1 - retard.0)), "{retard:?} {prove:?}");
    let shorter = plan["shorter"].as_array().unwrap();
    assert!(shorter.iter().all(|rest| rest["step"] == "retard") && shorter.len() == 1, "{shorter:?}");
}

/// Ninety for half past seven: sixty of them can be so, and thirty later; who phones says that, and not that all are late.
#[test]
fn as_many_as_can_be_are_in_time() {
    let day = "day Wharf\nuse \"kitchen.miche\"\nmake 90 of \"rolls.miche\", ready 2027-05-20 07:30\n";
    let day = files("in-time", &[("day.miche", day), ("rolls.miche", WHARF), ("kitchen.miche", KITCHEN)]);
    let said = refused(&[&day], 1);
    assert!(said.contains("in 2 doughs, the second 45 min later: 60 ready at 07:30 and 30 ready at 08:15"), "{said}");
    assert!(said.contains("90 pieces, and it holds 60") && !said.contains("would begin"), "{said}");
}

/// One cook from two o'clock: 24 loaves for 07:30 lie in the cold for less than an hour longer than they may, before a levain ripens past its
/// sixteen or a dough bulks for an hour more; and it is said who comes when.
#[test]
fn a_rest_in_the_cold_goes_on_before_one_in_the_warm() {
    let kitchen = "kitchen Ferry Steps\noven x 1, holds 12 pieces, heating 45 min\nmixer x 1\nretarder x 1, holds 24 pieces\n\
        cook Nell 02:00-11:00, rests 30 min\nopen 02:00-11:00\n";
    let loaf = "recipe Country loaf\nmakes 24 loaves\nuse \"kitchen.miche\"\n\npart levain\nripe starter .... 150 g\n\
        strong white flour .... 1 kg\nwater .... 1 kg\nfeed: hands 5 min\nripen: wait 8-10 h, at 22 C, up to 16 h\n    until domed\n\n\
        part dough\nlevain .... 2.1 kg\nstrong white flour .... 9 kg\nwater .... 5.8 kg\nsalt .... 200 g\n\
        divide 24 x 700 g, loss 1.8 %\nmix: hands 12 min, using mixer\n    Mix {levain}, {water}, {strong white flour} and {salt}.\n    \
        until smooth\nbulk: wait 3 h, at 25 C\nshape: hands 45 s, each, after bulk\n\
        retard: wait 10-14 h, using retarder at 4 C, up to 20 h\nbake: tend 40-42 min, using oven at 240 C, 12 at a time\n    until dark\n\
        cool: wait 1 h, 12 at a time\n";
    let day = "day Ferry Steps\nuse \"kitchen.miche\"\nmake 24 of \"loaf.miche\", ready 2027-02-16 07:30\n";
    let day = files("cold-goes-on", &[("day.miche", day), ("loaf.miche", loaf), ("kitchen.miche", kitchen)]);
    let said = refused(&[&day], 1);
    assert!(said.contains("let `retard` go on"), "{said}");
    assert!(!said.contains("let `ripen`") && !said.contains("let `bulk`"), "{said}");
    assert!(
        said.contains("since somebody comes at 02:00, and when it can be hot, at 02:45, `retard` has gone on for longer than its 20 h"),
        "{said}"
    );
}

/// Four large loaves and three small ones of one dough, in an oven that falls from 250 to 200 °C: both go in at one minute, the small ones come out
/// first.
#[test]
fn two_sorts_go_into_a_falling_oven_together() {
    let kitchen =
        "kitchen Course\ndeck oven x 1, holds 24 pieces, heating 40 min\nmixer x 1\ncooks 2\nopen 06:00-21:00\n";
    let sort = |sort: &str, minutes: u32| {
        format!(
            "\npart {sort} loaves\nper {sort}\ndough .... 1 piece\nprove: wait 60-75 min, at 28 C, up to 90 min\n    until small cracks show\n\
             bake: tend {minutes} min, using deck oven at 250 C then 200 C after 12 min\n    Bake {{dough}}.\n    until brown\n"
        )
    };
    let recipe = format!(
        "recipe Two sizes\nmakes 7 loaves\nuse \"kitchen.miche\"\n\npart dough\nstrong white flour .... 100 %\nwater .... 65 %\nsalt .... 2 %\n\
         instant yeast .... 1 %\ndivide 4 x 1050 g large and 3 x 620 g small, loss 2 %\nmix: hands 10 min, using mixer\n    \
         Mix {{strong white flour}}, {{water}}, {{salt}} and {{instant yeast}}.\n    until smooth\nrise: wait 60 min, at 25 C\n    \
         until doubled\nshape: hands 40 s, each\n{}{}",
        sort("large", 45),
        sort("small", 35)
    );
    let file = files("two-sorts", &[("sizes.miche", &recipe), ("kitchen.miche", kitchen)]);
    let plan = json(&[&file, "--ready", "2026-12-05 15:00"]);
    let mut bakes = of(&plan, "bake");
    bakes.sort_by_key(|(_, ends)| *ends);
    assert_eq!(bakes[0].0, bakes[1].0, "{bakes:?}");
    assert_eq!(bakes.iter().map(|(begins, ends)| ends - begins).collect::<Vec<i64>>(), [35, 45]);
    assert_eq!(plan["heating"].as_array().unwrap().len(), 1, "{plan:#}");
    // So it is while the day runs, and where one of them went in alone the other follows when it is out.
    let log = "bakes of \"sizes.miche\"\nbake 2026-12-05 11:35, 7 loaves\nmix: 11:35-11:55\nrise: 11:55-12:55\nshape: 12:55-13:00\n";
    let bakes = file.replace("sizes.miche", "sizes.bakes");
    for (more, now) in [("", "14:05"), ("bake of large loaves: 14:10-\n", "14:20")] {
        std::fs::write(&bakes, format!("{log}{more}")).unwrap();
        let plan = json(&[&file, "--ready", "2026-12-05 15:00", "--now", now, "--bakes", &bakes]);
        let begins: Vec<i64> = of(&plan, "bake").iter().map(|(begins, _)| *begins).collect();
        assert_eq!(begins[0] == begins[1], more.is_empty(), "{begins:?}");
    }
}

/// Two doughs, since one would go into no fewer mixers, an hour and a half apart: one poolish is stirred for both, and is within its hours for
/// both. Doughs five hours apart have each its own.
#[test]
fn one_poolish_serves_two_doughs_of_a_night() {
    let kitchen = "kitchen Mill\noven x 2\nmixer x 1, holds 5 kg\ncooks 2\nopen 00:00-24:00\n";
    let bread = "recipe Night bread\nmakes 10 loaves\nuse \"kitchen.miche\"\n\npart poolish, from dough\nstrong white flour .... 30 %\nwater .... 30 %\n\
        instant yeast .... 0.05 %\nstir: hands 5 min\nripen: wait 11-13 h, at 21 C, up to 15 h\n    until it begins to sink\n\n\
        part dough\nstrong white flour .... 100 %\nwater .... 68 %\nsalt .... 2 %\ninstant yeast .... 0.4 %\ndivide 10 x 400 g, loss 1.5 %\n\
        mix: hands 12 min, using mixer\n    Mix {poolish}, {water}, {strong white flour}, {instant yeast} and {salt}.\n    until smooth\n\
        bulk: wait 90 min, at 24 C\nshape: hands 30 s, each\nprove: wait 50-60 min, at 24 C, up to 80 min\n\
        bake: tend 24 min, using oven at 245 C\n    until brown\n";
    let plan = |name: &str, first: &str| {
        let day = format!(
            "day Mill\nuse \"kitchen.miche\"\nmake 10 of \"bread.miche\", ready 2027-03-12 {first}\n\
             make 10 of \"bread.miche\", ready 2027-03-12 07:30\n"
        );
        json(&[&files(name, &[("day.miche", &day), ("bread.miche", bread), ("kitchen.miche", kitchen)])])
    };
    let near = plan("one-poolish", "06:00");
    let (stirred, mixed) = (of(&near, "stir"), of(&near, "mix"));
    assert_eq!((stirred.len(), mixed.len()), (1, 2), "{near:#}");
    for (begins, _) in &mixed {
        assert!((11 * 60..=15 * 60).contains(&(begins - stirred[0].1)), "{stirred:?} {mixed:?}");
    }
    assert_eq!(of(&plan("two-poolishes", "02:30"), "stir").len(), 2);
    // Who stirred two all the same has mixed two doughs.
    let log = "bakes of \"bread.miche\"\nbake 2027-03-11 13:30\nstir: 13:30-13:35\nmix: 02:49-03:01\n\n\
        bake 2027-03-11 13:50\nstir: 13:50-13:55\nmix: 04:19-04:31\n";
    let day = "day Mill\nuse \"kitchen.miche\"\nmake 10 of \"bread.miche\", ready 2027-03-12 06:00\n\
        make 10 of \"bread.miche\", ready 2027-03-12 07:30\n";
    let all = [("day.miche", day), ("bread.miche", bread), ("kitchen.miche", kitchen), ("bread.bakes", log)];
    let day = files("stirred-twice", &all);
    let plan = json(&[&day, "--now", "2027-03-12 04:40", "--bakes", &day.replace("day.miche", "bread.bakes")]);
    let mixed = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == "mix");
    assert!(mixed.clone().count() == 2 && mixed.into_iter().all(|task| task["state"] == "done"), "{plan:#}");
}
