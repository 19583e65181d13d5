//! What a head baker would do otherwise with two ovens: give each its own heat, and let no dough prove to its limit for bread that is some
//! minutes fresher. All kitchens and recipes here are made up, or those of the examples.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "examples/copy.rs"]
mod copy;
#[path = "plan/sheet.rs"]
mod sheet;

use serde_json::Value;
use sheet::{files, folder, json, miche};

/// The tasks of a step of a recipe: when they begin and when they end.
fn of(plan: &Value, recipe: &str, step: &str) -> Vec<(i64, i64)> {
    let tasks = plan["tasks"].as_array().unwrap().iter();
    let minute = |task: &Value, edge: &str| task[edge].as_i64().unwrap();
    let here = tasks.filter(|task| task["recipe"] == recipe && task["step"] == step);
    here.map(|task| (minute(task, "start_minute"), minute(task, "end_minute"))).collect()
}

/// Rolls at 220 °C, baguettes at 245 °C, tins at 220 °C, croissants and biscuits in two ovens: a head baker bakes the rolls in one of
/// them and the baguettes in the other, so that both are out for six, and heats five or six times. Common practice, no source; worked out by
/// hand on this very night.
#[test]
fn each_oven_has_its_own_heat() {
    let night = folder("own_heat");
    copy::into(&night);
    let day = night.join("five-orders.miche");
    let text = "day Quay night\nuse \"night-bakehouse.miche\"\nuse \"larder.miche\"\nready 2027-04-17 09:30\n\
        make 100 of \"harbour-rolls.miche\", ready 2027-04-17 06:00\nmake 20 of \"quay-baguettes.miche\", ready 2027-04-17 06:00\n\
        make 12 small and 6 large of \"quay-tin-bread.miche\"\nmake 32 of \"harbour-croissants.miche\"\n\
        make 80 of \"shore-biscuits.miche\", ready 2027-04-17 06:00\n";
    std::fs::write(&day, text).unwrap();
    let plan = json(&[day.to_str().unwrap(), "--limit", "0 steps"]);
    for made in plan["makes"].as_array().unwrap().iter().filter(|made| made["recipe"] != "Shore biscuits") {
        let (ready, due) = (made["ready"].as_str().unwrap(), made["due"].as_str().unwrap());
        let late = [ready, due].map(|time| {
            let (hours, minutes) = time.split_once('T').unwrap().1.split_once(':').unwrap();
            hours.parse::<i64>().unwrap() * 60 + minutes.parse::<i64>().unwrap()
        });
        // The tins leave their oven to the croissants, the others are warm.
        let early = if made["recipe"] == "Quay tin bread" { 60 } else { 5 };
        assert!(late[1] - late[0] <= early, "{made}");
    }
    let lit = plan["heating"].as_array().unwrap();
    assert!(lit.len() <= 6, "{lit:?}");
}

/// The example's whole night: rolls and baguettes cool by six, each heat in an oven of its own, and seven heatings with both first ones,
/// where ovens that change their heat together need ten. Worked out by hand: one oven after the rye at 170, 220 and 195 °C, the other at 235
/// to 245 and at 195 °C; the tins after the rolls, since the shop opens at half past nine. Common practice, no source.
#[test]
fn the_example_night_is_a_head_bakers() {
    let plan = json(&["examples/fleet-in.miche", "--zone", "UTC", "--limit", "0 steps"]);
    for made in plan["makes"].as_array().unwrap() {
        let recipe = made["recipe"].as_str().unwrap();
        let by = match recipe {
            "Harbour rolls" | "Quay baguettes" => "2027-04-17T06:00",
            "Rhubarb crumb buns" => "2027-04-17T09:30",
            _ => continue,
        };
        assert!(made["ready"].as_str().unwrap().starts_with(by), "{made}");
    }
    let rolls = of(&plan, "Harbour rolls", "bake").iter().map(|load| load.1).max().unwrap();
    let tins = of(&plan, "Quay tin bread", "bake").iter().map(|load| load.0).min().unwrap();
    assert!(rolls <= tins, "{rolls} {tins}");
    let lit = plan["heating"].as_array().unwrap();
    assert!(lit.len() <= 8, "{lit:?}");
}

/// The rye of that night may stay in the retarder until five, keeps for days and is wanted at half past nine: nobody lights two ovens for it two
/// hours before they are needed. Worked out by hand (a strict file with `wait 11 h 40 min` has it in the ovens at 00:40, and lit at midnight): both
/// are lit after midnight, the first biscuits find theirs as soon as it has fallen to their heat. Common practice, no source.
#[test]
fn no_oven_burns_empty_for_what_waits_in_the_cold() {
    let plan = json(&["examples/fleet-in.miche", "--zone", "UTC", "--limit", "0 steps"]);
    let rye = of(&plan, "Pier rye", "bake");
    let biscuits = of(&plan, "Shore biscuits", "bake").iter().map(|load| load.0).min().unwrap();
    let out = rye.iter().map(|load| load.1).max().unwrap();
    // 40 minutes from one heat to the other.
    assert!((out + 40..=out + 60).contains(&biscuits), "{rye:?}, biscuits {biscuits}");
    let lit = plan["heating"].as_array().unwrap();
    let first = lit.iter().filter_map(|light| light["start"].as_str()).min().unwrap();
    assert!(first >= "2027-04-17T00:00", "{first}");
}

const LOAF: &str = "makes 12 loaves\nuse \"kitchen.miche\"\nstrong white flour .... 6 kg\nwater .... 70 %\nsalt .... 2 %\n\
    instant yeast .... 0.3 %\ndivide 12 x 850 g, loss 1.2 %\nmix: hands 10 min, using mixer\n    until smooth\n\
    bulk: wait 2 h, at 24 C, up to 2 h 20 min\nfold: hands 6 min, 30 and 60 and 90 min into bulk\n    Fold.\n\
    shape: hands 1 min, each, after bulk\n    Shape.\nprove: wait 60 min, at 24 C, up to 80 min\n\
    bake: tend 40 min, using oven at 240 C, 12 at a time\n    until dark\ncool: wait 30 min\n";

/// `up to` is a net for a late oven: of three doughs that one pair of hands folds and shapes one after the other only the third waits, for
/// the oven. The second has one of its own, goes in after its hour, and is ready some minutes sooner. Common practice, no source.
#[test]
fn no_dough_proves_longer_beside_an_empty_oven() {
    let loaf = |name: &str| format!("recipe Wheat {name}\n{LOAF}");
    let (first, second, third) = (loaf("A"), loaf("B"), loaf("C"));
    let day = "day Bread\nuse \"kitchen.miche\"\nready 2027-05-08 10:30\nmake 12 of \"a.miche\"\nmake 12 of \"b.miche\"\n\
        make 12 of \"c.miche\"\n";
    let kitchen = "kitchen Alone\noven x 2\nmixer x 2\ncook Anna 02:00-12:00, rests 30 min\n";
    let texts = [("day.miche", day), ("kitchen.miche", kitchen), ("a.miche", &first), ("b.miche", &second)];
    let day = files("net", &[&texts[..], &[("c.miche", &third)]].concat());
    let plan = json(&[&day, "--limit", "20000 steps"]);
    let bakes: Vec<(i64, i64)> =
        ["A", "B", "C"].iter().flat_map(|name| of(&plan, &format!("Wheat {name}"), "bake")).collect();
    for name in ["A", "B", "C"] {
        let recipe = format!("Wheat {name}");
        let ((_, shaped), (begins, _)) = (of(&plan, &recipe, "shape")[0], of(&plan, &recipe, "bake")[0]);
        let in_ovens = |minute: i64| bakes.iter().filter(|bake| bake.0 <= minute && minute < bake.1).count();
        let free = (shaped + 60..begins).find(|minute| in_ovens(*minute) < 2 && in_ovens(*minute + 39) < 2);
        assert_eq!(free, None, "{recipe} is shaped at {shaped} and baked at {begins}");
    }
}

const ROLLS: &str = "recipe Rolls\nmakes 24 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 1200 g\nwater .... 65 %\n\
    salt .... 2 %\ninstant yeast .... 1 %\ndivide 24 x 82 g, loss 2 %\nmix: hands 12 min, using mixer\n    until smooth\n\
    rise: wait 60 min, at 25 C\nshape: hands 15 s, each\n    Shape.\nprove: wait 45-50 min, at 27 C, up to 75 min\n\
    bake: tend 15-16 min, using oven at 220 C, 24 at a time\n    until gold\ncool: wait 30 min\n";

/// Rolls that are ready more than an hour before they are wanted, since the only baker has to go by then, prove for as long as is written.
#[test]
fn what_is_ready_too_soon_proves_as_written() {
    let day = "day Early\nuse \"kitchen.miche\"\nready 2027-05-08 15:00\nmake 24 of \"rolls.miche\", ready 2027-05-08 08:00\n\
        make 24 of \"rolls.miche\", ready 2027-05-08 15:00\n";
    let kitchen = "kitchen Short day\noven x 1, heating 30 min\nmixer x 1\ncooks 1\nlongest 6 h\nopen 04:00-20:00\n";
    let day = files("early", &[("day.miche", day), ("kitchen.miche", kitchen), ("rolls.miche", ROLLS)]);
    let plan = json(&[&day, "--limit", "20000 steps"]);
    let (shaped, baked) = (of(&plan, "Rolls", "shape"), of(&plan, "Rolls", "bake"));
    for ((_, shaped), (begins, _)) in shaped.iter().zip(&baked) {
        assert_eq!(begins - shaped, 50);
    }
}

/// Sixteen of each, by twelves: the last four of both would fit into the fryer together, and fish is not fried with apple.
#[test]
fn two_dishes_do_not_swim_in_one_fat() {
    let kitchen = "kitchen Quay\nfryer x 1, holds 24 pieces, heating 10 min\nbowl x 2\ncooks 3\nopen 04:00-14:00\n";
    let dish = |name: &str, what: &str| {
        format!(
            "recipe {name}\nmakes 16 pieces\nuse \"kitchen.miche\"\nplain flour .... 400 g\nwhole milk .... 400 g\n{what} .... 400 g\n\
             divide 16 x 72 g, loss 4 %\nstir: hands 10 min\nfry: tend 5 min, using fryer at 175 C, 12 at a time\n    until gold\n"
        )
    };
    let (fish, apple) = (dish("Fish bites", "cod fillet"), dish("Fritters", "apple"));
    let day = "day Quay\nuse \"kitchen.miche\"\nready 2027-06-12 10:00\nmake 16 of \"fish.miche\"\nmake 16 of \"apple.miche\"\n";
    let made = [("day.miche", day), ("kitchen.miche", kitchen), ("fish.miche", &fish), ("apple.miche", &apple)];
    let plan = json(&[&files("one-fat", &made), "--zone", "UTC"]);
    let (fish, apple) = (of(&plan, "Fish bites", "fry"), of(&plan, "Fritters", "fry"));
    assert_eq!((fish.len(), apple.len()), (2, 2));
    for (start, end) in &fish {
        assert!(apple.iter().all(|(from, until)| until <= start || end <= from), "{fish:?} {apple:?}");
    }
}

/// At home a joint goes into the oven in the minute in which the bread is out, 70 °C less hot: it cannot be there by then, and the sheet does not say
/// that it is. With a quarter of an hour between them it says when. Common practice, no source.
#[test]
fn an_oven_at_home_is_at_no_other_heat_in_no_time() {
    let joint = "recipe Joint\nmakes 6 portions\nlamb shoulder .... 2 kg\nroast: tend 3 h, using oven at 160 C\n    Roast {lamb shoulder}.\n    until it falls from the bone\n";
    let pies = "recipe Small pies\nmakes 6 pies\nplain flour .... 300 g\nbutter .... 150 g\nwater .... 60 g\nkeeps 2 days\n\
        mix: hands 10 min\n    Rub {butter} into {plain flour}, bind with {water}.\n    until it holds together\n\
        bake: tend 40 min, using oven at 230 C\n    until brown\n";
    let rows = |name: &str, ready: &str| {
        let day = format!(
            "day Dinner\nready 2027-05-15 19:30\nmake 6 of \"pies.miche\", ready 2027-05-15 {ready}\nmake 6 of \"joint.miche\"\n"
        );
        let day = files(name, &[("day.miche", &*day), ("joint.miche", joint), ("pies.miche", pies)]);
        let text = String::from_utf8(miche(&[&day, "--format", "markdown"]).stdout).unwrap().replace('\u{a0}', " ");
        text.lines().filter(|line| line.contains("turn down")).map(str::to_owned).collect::<Vec<String>>()
    };
    let at_once = rows("no-time", "16:30");
    assert!(at_once.len() == 1 && at_once[0].contains("to 160 °C; the next goes in meanwhile"), "{at_once:?}");
    let later = rows("some-time", "16:15");
    assert!(later.len() == 1 && later[0].contains("to 160 °C; there at 16:30"), "{later:?}");
}

/// Rolls for eight and for three: nobody leaves the oven lit between them for six hours, and nobody who reads the sheet has to think of it.
#[test]
fn an_oven_that_nobody_needs_for_hours_is_put_out() {
    let day = "day Twice\nuse \"kitchen.miche\"\nready 2027-05-08 15:00\nmake 24 of \"rolls.miche\", ready 2027-05-08 08:00\n\
        make 24 of \"rolls.miche\", ready 2027-05-08 15:00\n";
    let kitchen = "kitchen All day\noven x 1, heating 30 min\nmixer x 1\ncooks 2\nopen 04:00-20:00\n";
    let day = files("put-out", &[("day.miche", day), ("kitchen.miche", kitchen), ("rolls.miche", ROLLS)]);
    let plan = json(&[&day]);
    let baked = of(&plan, "Rolls", "bake");
    let [(first, out), (second, _)] = baked[..] else { panic!("{baked:?}") };
    let lit = plan["heating"].as_array().unwrap().iter();
    let lit: Vec<i64> = lit.map(|light| light["start_minute"].as_i64().unwrap()).collect();
    assert_eq!(lit, [first - 30, second - 30]);
    let text = String::from_utf8(miche(&[&day, "--format", "markdown"]).stdout).unwrap();
    let done: Vec<&str> = text.lines().filter(|line| line.contains("| oven |")).collect();
    let [light, off, again] = done[..] else { panic!("{done:?}") };
    assert!(light.contains("light") && off.contains("put out") && again.contains("light"), "{done:?} after {out}");
}

/// Butter that is worked during a rest in the cold, and firm for an hour at most: the rest goes on until the next morning, and so it is worked then,
/// although the shortest rest was over while nobody was there.
#[test]
fn what_is_done_during_a_rest_may_be_done_while_that_goes_on() {
    let crescents = "recipe Crescents\nmakes 16 crescents\nuse \"kitchen.miche\"\npart dough\nstrong white flour .... 560 g\nwater .... 50 %\n\
        salt .... 2 %\ninstant yeast .... 1 %\nmakes 850 g, loss 1 %\nmix: hands 10 min, using mixer\n    until even\n\
        chill: wait 8 h, at 4 C, up to 18 h\npart butter block\nbutter .... 270 g, cold\nbeat out: hands 8 min, during chill of dough\n    Beat {butter}.\n\
        firm: wait 30 min, at 6 C, up to 1 h\npart sheet\ndough .... all\nbutter block .... all\ndivide 16 x 66 g, loss 6 %\n\
        enclose: hands 8 min\n    Fold {butter block} into {dough}.\nshape: hands 20 s, each\nprove: wait 2 h, at 26 C, up to 3 h\n\
        bake: tend 18 min, using oven at 195 C\n    until brown\n";
    let day = "day Crescents\nuse \"kitchen.miche\"\nready 2027-05-08 10:00\nmake 16 of \"crescents.miche\"\n";
    let kitchen = "kitchen Days\noven x 1, heating 30 min\nmixer x 1\ncooks 1\nopen 05:00-18:00\n";
    let day = files("during", &[("day.miche", day), ("kitchen.miche", kitchen), ("crescents.miche", crescents)]);
    let plan = json(&[&day]);
    let (beaten, chilled) = (of(&plan, "Crescents", "beat out")[0], of(&plan, "Crescents", "chill")[0]);
    let enclosed = of(&plan, "Crescents", "enclose")[0];
    assert!(chilled.0 + 8 * 60 < beaten.0 && beaten.1 + 30 <= enclosed.0, "{chilled:?} {beaten:?} {enclosed:?}");
}
