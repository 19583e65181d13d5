//! What is of its day and what of the evening before: rests at the shorter end of their range, a dough for each time, and what is made ahead.
//! All kitchens and recipes here are made up.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/sheet.rs"]
mod sheet;

use serde_json::Value;
use sheet::{files, json, miche};

const KITCHEN: &str = "kitchen Slip\noven x 1, heating 20 min, agrees within 10 C\nhob x 2\nfridge x 1, holds 80 pieces\nmixer x 1\n\
    cook Aud 06:00-14:00\ncook Bo 10:00-18:00\nopen 06:00-18:00\n";

/// From mixing to the last roll that has cooled: 12 + 60 + 15 + 50 + 14 + 14 + 20 = 185 minutes, with the short ends 170.
const ROLLS: &str = "recipe Slip rolls\nmakes 60 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 100 %\nwater .... 62 %\nsalt .... 2 %\n\
    instant yeast .... 1 %\ndivide 60 x 57 g\nmix: hands 12 min, using mixer\nrise: wait 50-60 min, at 25 C, up to 80 min\n\
    shape: hands 15 s, each\nprove: wait 45-50 min, at 28 C, up to 75 min\n\
    bake: tend 12-14 min, using oven at 215 C, 30 at a time\n    until gold\ncool: wait 20 min, 30 at a time\n";

fn planned(name: &str, made: &[(&str, &str)], options: &[&str]) -> Value {
    let mut all = made.to_vec();
    if !made.iter().any(|(name, _)| *name == "kitchen.miche") {
        all.push(("kitchen.miche", KITCHEN));
    }
    let day = files(name, &all);
    let mut asked = vec![day.as_str(), "--zone", "UTC"];
    asked.extend(options);
    json(&asked)
}

fn ready(plan: &Value) -> Vec<&str> {
    plan["makes"].as_array().unwrap().iter().map(|made| made["ready"].as_str().unwrap()).collect()
}

/// Start and end of each load of a step.
fn times(plan: &Value, step: &str) -> Vec<(String, String)> {
    let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
    let text = |task: &Value, edge: &str| task[edge].as_str().unwrap().to_owned();
    tasks.map(|task| (text(task, "start"), text(task, "end"))).collect()
}

/// From opening at 06:00 there are 180 minutes: five less than the long ends take, and ten more than the short ones. Nobody bakes at 15:00 for
/// the next morning then. At 08:40 not even the short ones are enough.
#[test]
fn a_rest_takes_its_shorter_time_before_bread_is_of_the_day_before() {
    let day =
        |at: &str| format!("day Slip\nuse \"kitchen.miche\"\nready 2027-12-04 {at}\nmake 60 of \"rolls.miche\"\n");
    let plan = planned("short", &[("day.miche", &day("09:00")), ("rolls.miche", ROLLS)], &[]);
    assert_eq!(ready(&plan), ["2027-12-04T09:00"]);
    let short: i64 = plan["shorter"].as_array().unwrap().iter().map(minutes_less).sum();
    assert_eq!(short, 5, "{}", plan["shorter"]);
    let day = day("08:40");
    let all = [("day.miche", day.as_str()), ("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)];
    let day = files("too-short", &all);
    let output = miche(&[&day, "--zone", "UTC", "--format", "text"]);
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("ready-days-early"), "{said}");
    // With the short ends, which a plan may take: 170 minutes from opening.
    let said = said.split_whitespace().collect::<Vec<&str>>().join(" ");
    assert!(said.contains("they can be ready at 08:50 on Saturday at the soonest"), "{said}");
}

fn minutes_less(rest: &Value) -> i64 {
    rest["longest_minutes"].as_i64().unwrap() - rest["minutes"].as_i64().unwrap()
}

const BAGELS: &str = "recipe Slip bagels\nmakes 60 bagels\nuse \"kitchen.miche\"\nstrong white flour .... 100 %\nwater .... 56 %\nsalt .... 2 %\n\
    instant yeast .... 0.5 %\ndivide 60 x 95 g\nmix: hands 12 min, using mixer\nrest: wait 20 min, at 22 C, up to 40 min\n\
    shape: hands 25 s, each\nretard: wait 10-12 h, using fridge at 4 C, up to 20 h\n\
    bake: tend 18 min, using oven at 230 C, 30 at a time\n    until gold\ncool: wait 20 min, 30 at a time\n";

/// Those for 06:10 cannot be baked after the opening at 06:00, those for 11:00 can: of one dough both would be baked on the day before.
#[test]
fn one_dough_drags_no_bread_to_the_day_before() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 11:00\nmake 30 of \"bagels.miche\"\n\
        make 30 of \"bagels.miche\", ready 2027-06-12 06:10\n";
    let plan = planned("drags", &[("day.miche", day), ("bagels.miche", BAGELS)], &[]);
    let ready = ready(&plan);
    assert_eq!(ready[0], "2027-06-12T11:00", "{ready:?}");
    assert!(ready[1] < "2027-06-12", "{ready:?}");
}

const CREAM: &str = "recipe Slip cups\nmakes 16 cups\nuse \"kitchen.miche\"\ncream .... 1 kg\ncaster sugar .... 100 g\ndivide 16 x 68 g\n\
    whip: hands 10 min, using mixer\nfill: hands 60 s, each\nset: wait 4 h, at 4 C, up to 1 day\n";

/// What sets in the cold and may stand there for a day is made the evening before, no sooner than a day before it is wanted, and is ready when
/// it is. With `up to 14 h` it cannot have been set since closing at 18:00, and is made on the day.
#[test]
fn what_ends_in_a_rest_that_may_go_on_is_made_ahead() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 16:00\nmake 16 of \"cups.miche\"\n";
    let plan = planned("cups", &[("day.miche", day), ("cups.miche", CREAM)], &["--ahead"]);
    assert_eq!(ready(&plan), ["2027-06-12T16:00"]);
    let (start, end) = times(&plan, "set")[0].clone();
    assert!(start.as_str() >= "2027-06-11T16:00" && start.as_str() <= "2027-06-11T18:00", "{start}");
    assert_eq!(end, "2027-06-12T16:00");
    let short = CREAM.replace("up to 1 day", "up to 14 h");
    let plan = planned("cups-short", &[("day.miche", day), ("cups.miche", &short)], &["--ahead"]);
    assert!(times(&plan, "whip")[0].0.starts_with("2027-06-12"), "{}", plan["tasks"]);
}

const GRANOLA: &str = "recipe Slip granola\nmakes 4 kg\nuse \"kitchen.miche\"\nbest before 30 days\nrolled oats .... 3 kg\nhoney .... 1 kg\n\
    mix: hands 10 min\nbake: tend 35 min, using oven at 150 C\n    until golden\nstir: hands 3 min, 15 min into bake\n\
    cool: wait 1 h, after bake\npack: hands 15 min\n";

/// What is good for a month on its label is finished on the day before. Bread that is good for four days is not.
#[test]
fn what_is_sold_with_a_long_date_is_made_ahead() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 10:00\nmake 4 kg of \"granola.miche\"\n";
    let plan = planned("granola", &[("day.miche", day), ("granola.miche", GRANOLA)], &["--ahead"]);
    assert!(times(&plan, "pack")[0].1.starts_with("2027-06-11"), "{}", plan["tasks"]);
    // It cools from the oven on.
    assert_eq!(times(&plan, "cool")[0].0, times(&plan, "bake")[0].1);
    let bread = GRANOLA.replace("best before 30 days", "best before 4 days");
    let plan = planned("bread", &[("day.miche", day), ("granola.miche", &bread)], &["--ahead"]);
    assert!(times(&plan, "pack")[0].1.starts_with("2027-06-12"), "{}", plan["tasks"]);
}

const TWICE: &str = "recipe Slip pots\nmakes 60 pots\nuse \"kitchen.miche\"\nmilk .... 2.7 kg\negg .... 900 g\ndivide 60 x 60 g\n\
    pour: hands 8 min, 30 at a time\nbake: tend 30 min, using oven at 150 C, 30 at a time\n    until set\ncool: wait 20 min, 30 at a time\n";

/// Both are there from 10:00, and there are two times eight minutes of work: one of them does both.
#[test]
fn nobody_comes_for_some_minutes_that_another_has_time_for() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 12:30\nmake 60 of \"pots.miche\"\n";
    let plan = planned("pots", &[("day.miche", day), ("pots.miche", TWICE)], &[]);
    let hands = plan["tasks"].as_array().unwrap().iter().filter(|task| task["kind"] == "hands");
    let people: Vec<&Value> = hands.map(|task| &task["cooks"]).collect();
    assert!(people.len() == 2 && people[0] == people[1], "{people:?}");
}

/// Eighteen loaves in each of two retarders, baked by twelve: those of the first leave it with the first and the second load.
#[test]
fn a_rest_in_two_units_is_emptied_one_after_the_other() {
    let kitchen = KITCHEN.replace("fridge x 1, holds 80 pieces", "retarder x 2, holds 18 pieces");
    let loaves = BAGELS
        .replace("60 bagels", "36 bagels")
        .replace("60 x 95 g", "36 x 95 g")
        .replace("using fridge", "using retarder")
        .replace("30 at a time", "12 at a time");
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 09:00\nmake 36 of \"bagels.miche\"\n";
    let made = [("day.miche", day), ("bagels.miche", &loaves), ("kitchen.miche", &kitchen)];
    let plan = planned("two-units", &made, &[]);
    let bakes: Vec<i64> = of(&plan, "bake").iter().map(|task| task["start_minute"].as_i64().unwrap()).collect();
    let taken: Vec<(i64, i64)> = of(&plan, "retard")
        .iter()
        .map(|task| {
            let end = task["end_minute"].as_i64().unwrap();
            (end, task["last_taken_minute"].as_i64().unwrap_or(end))
        })
        .collect();
    assert_eq!(taken, [(bakes[0], bakes[1]), (bakes[1], bakes[2])]);
}

fn of<'a>(plan: &'a Value, step: &str) -> Vec<&'a Value> {
    plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step).collect()
}

const CAKES: &str = "recipe Slip cakes\nmakes 20 cakes\nuse \"kitchen.miche\"\n\npart glaze\nraspberry puree .... 700 g\ncaster sugar .... 700 g\n\
    keeps 1 week, chilled\nboil: tend 10 min, using hob\n    until it coats a spoon\nset: wait 6 h, at 4 C\n\npart cakes\nper piece\n\
    cream .... 80 g\nglaze .... 60 g\nbuild: hands 60 s, each, before unmould\n    Pour {cream} into the moulds.\n\
    freeze: wait 4 h, using fridge at -35 C, up to 2 days\n    until hard\nunmould: hands 20 s, each, after freeze\n\
    glaze: hands 30 s, each\n    Pour {glaze}.\nthaw: wait 5 h, at 4 C, up to 1 day\n";

/// What was frozen meanwhile does not stand between `build` and `unmould`, and the glaze waits in the cold: cakes for 13:00 are taken out of the
/// freezer so that they have thawed by then, and glazed at once.
#[test]
fn what_is_frozen_stays_so_as_long_as_it_may() {
    let kitchen = KITCHEN.replace("fridge x 1, holds 80 pieces", "fridge x 1");
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 13:00\nmake 20 of \"cakes.miche\"\n";
    let made = [("day.miche", day), ("cakes.miche", CAKES), ("kitchen.miche", &kitchen)];
    let plan = planned("cakes", &made, &[]);
    let (unmould, glaze) = (times(&plan, "unmould")[0].clone(), times(&plan, "glaze")[0].clone());
    assert_eq!((unmould.1.as_str(), glaze.1.as_str()), ("2027-06-12T07:50", "2027-06-12T08:00"), "{}", plan["tasks"]);
}

const PIES: &str = "recipe Slip pies\nmakes 40 pies\nuse \"kitchen.miche\"\n\npart mince\nminced beef .... 5 kg\nbeef stock .... 1 kg\n\
    keeps 1 day, chilled\nsimmer: tend 45 min, using hob\n    until thick\n\npart pies\nper piece\nmince .... 100 g\npuff pastry .... 80 g\n\
    fill: hands 15 s, each\n    Fill {puff pastry} with {mince}.\nbake: tend 30 min, using oven at 200 C\n    until 75 C in the middle\n";

/// Mince that is made on the day before is hot when it is over: somebody is there an hour later, who cools it and puts it away (at 21 °C after two
/// hours: FDA Food Code 3-501.14). Where it simmers until everybody goes, that is said.
#[test]
fn what_is_hot_is_not_left_when_everybody_goes() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 09:00\nmake 40 of \"pies.miche\"\n";
    let plan = planned("pies", &[("day.miche", day), ("pies.miche", PIES)], &["--ahead"]);
    let end = times(&plan, "simmer")[0].1.clone();
    assert!(end.starts_with("2027-06-11") && end.as_str() <= "2027-06-11T17:00", "{end}");
    assert_eq!(plan["cautions"], Value::Array(Vec::new()));
    let long = PIES.replace("tend 45 min", "tend 11 h 30 min");
    let plan = planned("pies-long", &[("day.miche", day), ("pies.miche", &long)], &["--ahead"]);
    assert!(plan["cautions"].to_string().contains("nobody is there to cool it"), "{}", plan["cautions"]);
}

const CHOUX: &str = "recipe Slip choux\nmakes 40 choux\nuse \"kitchen.miche\"\n\npart paste\nplain flour .... 300 g\nwater .... 500 g\nmakes 800 g\n\
    beat: hands 10 min\n    Beat {plain flour} and {water}.\n\npart cream\ncream .... 600 g\nkeeps 1 day, chilled\n\
    whip: hands 6 min, using mixer\n    Whip {cream}.\n\npart choux\nper piece\npaste .... 20 g\ncream .... 15 g\n\
    pipe: hands 12 s, each\n    Pipe {paste}.\nbake: tend 32 min, using oven at 180 C\n    until dry\ncool: wait 40 min\n\
    fill: hands 20 s, each\n    Fill with {cream}.\n";

/// Piped, baked and cooled: the cream that fills them is whipped just before that, and may be so late. Where nobody says what is filled in, the
/// first step takes all there is, as ever; and so it does where it says nothing of what it works on: dough is shaped before it proves.
#[test]
fn what_a_later_step_names_is_made_for_that() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 14:00\nmake 40 of \"choux.miche\"\n";
    let plan = planned("choux", &[("day.miche", day), ("choux.miche", CHOUX)], &[]);
    let fill = times(&plan, "fill")[0].0.clone();
    assert_eq!(times(&plan, "whip")[0].1, fill);
    let kept = plan["kept"].as_array().unwrap().iter().find(|kept| kept["part"] == "cream").unwrap();
    assert_eq!(kept["latest"], fill.as_str());
    for (name, silent) in [
        ("choux-silent", CHOUX.replace("    Fill with {cream}.\n", "")),
        ("choux-at-rest", CHOUX.replace("pipe: hands 12 s, each\n    Pipe {paste}.", "rest: wait 10 min")),
    ] {
        let plan = planned(name, &[("day.miche", day), ("choux.miche", &silent)], &[]);
        let first = if name == "choux-silent" { "pipe" } else { "rest" };
        assert!(times(&plan, "whip")[0].1 <= times(&plan, first)[0].0, "{name}: {}", plan["tasks"]);
    }
}

const PUDDINGS: &str = "recipe Slip puddings\nmakes 40 puddings\nuse \"kitchen.miche\"\nplain flour .... 2 kg\nmilk .... 2 kg\n\
    divide 40 x 98 g, loss 2 %\nmix: hands 10 min, using mixer\nbake: tend 40 min, using oven at 200 C, 20 at a time\n    until set\n\
    serve: hands 5 min\n";

/// One oven: the first twenty are out forty minutes before the others, and all are served together.
#[test]
fn what_is_eaten_hot_says_how_long_it_stands() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 12:00\nmake 40 of \"puddings.miche\"\n";
    let all = [("day.miche", day), ("puddings.miche", PUDDINGS), ("kitchen.miche", KITCHEN)];
    let file = files("puddings", &all);
    let plan = json(&[&file, "--zone", "UTC"]);
    let stands: Vec<&Value> = of(&plan, "bake").iter().map(|task| &task["stands_hot_minutes"]).collect();
    assert_eq!(stands, [&Value::from(40), &Value::Null], "{}", plan["tasks"]);
    let text = String::from_utf8(miche(&[&file, "--zone", "UTC", "--format", "markdown"]).stdout).unwrap();
    assert!(text.replace('\u{a0}', " ").contains("then stands 40 min without heat"), "{text}");
    // Half an hour is nothing, and what is left to cool is not eaten hot.
    for other in [
        PUDDINGS.replace("tend 40 min", "tend 30 min"),
        PUDDINGS.replace("serve: hands", "cool: wait 10 min\nserve: hands"),
    ] {
        let plan = planned("puddings-other", &[("day.miche", day), ("puddings.miche", &other)], &[]);
        assert!(of(&plan, "bake").iter().all(|task| task["stands_hot_minutes"].is_null()), "{}", plan["tasks"]);
    }
}

const BUNS: &str = "recipe Slip buns\nmakes 60 buns\nuse \"kitchen.miche\"\nstrong white flour .... 100 %\nwater .... 56 %\nsalt .... 2 %\n\
    instant yeast .... 1 %\ndivide 60 x 60 g\nmix: hands 20 min, using mixer\nrise: wait 60 min, at 25 C, up to 2 h\n\
    chill: wait 60 min, using fridge at 4 C, up to 14 h\nround: hands 12 s, each\nprove: wait 70 min, at 27 C, up to 90 min\n\
    bake: tend 13 min, using oven at 200 C, 30 at a time\n    until gold\ncool: wait 20 min, 30 at a time\n";

/// From opening at 06:00 it takes 20 + 60 + 60 + 6 + 70 + 13 + 20 = 249 minutes, to 10:09: those for 10:00 are of the evening before, in the
/// fridge from closing at 18:00 until 08:00 at most. Those for 15:30 would be made of that dough over five hours too soon, and have their own.
#[test]
fn one_dough_makes_no_bread_hours_old() {
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 10:00\nmake 30 of \"buns.miche\"\n\
        make 30 of \"buns.miche\", ready 2027-06-12 15:30\n";
    let plan = planned("hours-old", &[("day.miche", day), ("buns.miche", BUNS)], &[]);
    assert_eq!(ready(&plan)[1], "2027-06-12T15:30", "{}", plan["makes"]);
    assert_eq!(of(&plan, "mix").len(), 2);
}

/// A later load of one step is hot no sooner than its oven can be after the opening either: from 12:00 it takes 20 min, and 13 loads of 16 min are
/// through at 15:48; on the day of delivery four are by 13:54; nothing is lit at 11:40.
#[test]
fn no_oven_is_lit_before_anybody_is_there() {
    let kitchen = "kitchen Slip\noven x 1, heating 20 min, agrees within 5 C\nmixer x 1\ncooks 1\nopen 12:00-16:00\n";
    let biscuits = "recipe Slip biscuits\nmakes 400 biscuits\nuse \"kitchen.miche\"\nbutter .... 2.4 kg, soft\nicing sugar .... 1.2 kg\n\
        plain flour .... 3.6 kg\negg .... 600 g\ndivide 400 x 19 g, loss 2.5 %\nkeeps 3 weeks\ncream: hands 10 min, using mixer\n\
        pipe: hands 3 s, each\nchill: wait 1 h, at 4 C, up to 3 days\nbake: tend 16 min, using oven at 170 C, 20 at a time\n    until gold\n\
        cool: wait 30 min, 20 at a time\n";
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-02-20 14:00\nmake 400 of \"biscuits.miche\"\n";
    let plan =
        planned("biscuits", &[("day.miche", day), ("biscuits.miche", biscuits), ("kitchen.miche", kitchen)], &[]);
    let lights: Vec<&str> =
        plan["heating"].as_array().unwrap().iter().map(|light| light["start"].as_str().unwrap()).collect();
    assert!(lights.len() >= 3, "{lights:?}");
    assert!(lights.iter().all(|light| ("T12:00".."T16:00").contains(&&light[10..16])), "{lights:?}");
    let bakes = times(&plan, "bake");
    assert!(bakes.iter().all(|(start, _)| &start[10..16] >= "T12:20"), "{bakes:?}");
}

/// Two dishes stand in one fridge of which nobody says how much it holds, as in every kitchen; one that holds one of them is waited for.
#[test]
fn a_fridge_that_says_nothing_has_room_for_all() {
    let kitchen = |fridge: &str| format!("kitchen Flat\nfridge x 1{fridge}\ncooks 1\n");
    let dish = |name: &str, hours: i64| {
        format!(
            "recipe {name}\nmakes 8 bowls\nuse \"kitchen.miche\"\nwhite cabbage .... 1 kg\nsalt .... 15 g\nmix: hands 15 min\n    \
             Mix {{white cabbage}} and {{salt}}.\nset: wait {hours} h, using fridge at 4 C, up to 2 days\n"
        )
    };
    let day = "day Flat\nuse \"kitchen.miche\"\nready 2027-06-12 19:30\nmake 8 of \"a.miche\"\nmake 8 of \"b.miche\", ready 2027-06-12 21:00\n";
    let (a, b) = (dish("Pickled cabbage", 4), dish("Cabbage salad", 3));
    let begins = |name: &str, fridge: &str| {
        let made = [("day.miche", day), ("a.miche", &a), ("b.miche", &b), ("kitchen.miche", &kitchen(fridge))];
        planned(name, &made, &[])["start"].as_str().unwrap().to_owned()
    };
    // 19:30 less four hours and a quarter; and with one place the cabbage has to be out when the salad goes in at 18:00.
    assert_eq!(begins("fridge", ""), "2027-06-12T15:15");
    assert!(begins("fridge-of-one", ", holds 8 pieces").as_str() <= "2027-06-12T13:45");
}

/// The last minute of a range is not worth that somebody comes thirteen hours sooner: mixed at 22:00, when the kitchen opens, the rolls prove 99 of
/// 90 to 100 minutes and are ready at 04:00: 18 + 45 + 120 + 32 + 99 + 2 x 13 + 20 = 360.
#[test]
fn no_night_is_begun_sooner_for_a_minute_of_a_range() {
    let kitchen = "kitchen Slip\noven x 1, holds 48 pieces, heating 20 min\nprover x 2\nmixer x 1\ncook Ada 22:00-06:00\ncook Cy 05:00-10:00\nopen 22:00-10:00\n";
    let rolls = "recipe Slip rolls\nmakes 96 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 3 kg\nwhole milk .... 60 %\nsalt .... 1.8 %\n\
        instant yeast .... 1.4 %\ndivide 96 x 50 g\nmix: hands 18 min, using mixer\nrise: wait 45 min, at 24 C, up to 60 min\n\
        chill: wait 2 h, at 4 C, up to 16 h\nshape: hands 20 s, each\nprove: wait 90-100 min, at 27 C, up to 3 h\n\
        bake: tend 13 min, using oven at 195 C, 48 at a time\n    until gold\ncool: wait 20 min\n";
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 04:00\nmake 96 of \"rolls.miche\"\n";
    let plan = planned("minute", &[("day.miche", day), ("rolls.miche", rolls), ("kitchen.miche", kitchen)], &[]);
    assert_eq!(plan["span_minutes"], 360, "{}", plan["shorter"]);
    assert_eq!(plan["shorter"][0]["minutes"], 99);
    // What is saved has to be hours: two minutes later the whole range is taken.
    let later = day.replace("04:00", "04:02");
    let plan =
        planned("minute-later", &[("day.miche", &later), ("rolls.miche", rolls), ("kitchen.miche", kitchen)], &[]);
    assert_eq!((plan["span_minutes"].as_i64(), plan["shorter"].is_null()), (Some(361), true), "{}", plan["shorter"]);
}

/// `within 5 min after bake` is of each load: buns of three loads are glazed three times, none later than five minutes after it was out.
#[test]
fn what_follows_within_minutes_goes_load_by_load() {
    let buns = "recipe Slip buns\nmakes 36 buns\nuse \"kitchen.miche\"\nstrong white flour .... 2 kg\nwater .... 1.2 kg\nsalt .... 36 g\n\
        instant yeast .... 20 g\ndivide 36 x 88 g\nmix: hands 12 min, using mixer\nrise: wait 60 min, at 25 C, up to 2 h\n\
        shape: hands 15 s, each\nprove: wait 45 min, at 27 C, up to 80 min\nbake: tend 15 min, using oven at 200 C, 12 at a time\n    until gold\n\
        glaze: hands 4 s, each, within 5 min after bake\n";
    let day = "day Slip\nuse \"kitchen.miche\"\nready 2027-06-12 12:00\nmake 36 of \"buns.miche\"\n";
    let plan = planned("glazed", &[("day.miche", day), ("buns.miche", buns)], &[]);
    let (bakes, glazed) = (times(&plan, "bake"), times(&plan, "glaze"));
    assert_eq!((bakes.len(), glazed.len()), (3, 3), "{glazed:?}");
    let at = |text: &str| text.parse::<jiff::civil::DateTime>().unwrap();
    for (bake, glaze) in bakes.iter().zip(&glazed) {
        let minutes = at(&bake.1).until(at(&glaze.0)).unwrap().total(jiff::Unit::Minute).unwrap();
        assert!((0.0..=5.0).contains(&minutes), "{bake:?} {glaze:?}");
    }
}

/// Two bakers of a night, of whom one is there until 08:00; rolls that rest in the cold for eight hours at least.
const NIGHT: &str = "kitchen North\noven x 2, holds 20 pieces, heating 45 min, agrees within 10 C\nmixer x 1, holds 25 kg\n\
    retarder x 2, holds 80 pieces\nprover x 2\ncook Ada 22:00-06:00, on Mon-Fri\ncook Ben 00:00-08:10, on Tue-Sat\nopen 22:00-10:00\n";

const COLD_ROLLS: &str = "recipe North rolls\nmakes 120 rolls\nuse \"kitchen.miche\"\nstrong white flour .... 5 kg\nwater .... 3 kg\n\
    salt .... 100 g\nfresh yeast .... 120 g\ndivide 120 x 67 g\nmix: hands 10 min, using mixer\nrise: wait 40 min, at 25 C, up to 60 min\n\
    shape: hands 12 s, each, shared by 2\nchill: wait 8-10 h, using retarder at 4 C, up to 20 h, 40 at a time\n\
    prove: wait 30 min, using prover at 28 C, up to 45 min, 40 at a time\n\
    bake: tend 15 min, using oven at 225 C, 20 at a time\n    until gold\ncool: wait 20 min\n";

/// Tuesday after days of rest: nobody mixes before Monday 22:00. Eighty for 06:00 cannot be of Tuesday (22:00 + 10 + 40 + 8 + 480 + 30 + 15 + 20 is
/// 08:03 for the first of them), forty for 08:05 can, in a dough of their own: the others do not take them along to Saturday. And what is said to
/// be the soonest is a time for which the plan has them on their day.
#[test]
fn one_dough_takes_no_bread_of_its_day_to_the_days_before() {
    let plan = |name: &str, later: &str| {
        let day = format!(
            "day North\nuse \"kitchen.miche\"\nready 2027-04-20 06:00\nmake 80 of \"rolls.miche\"\nmake 40 of \"rolls.miche\", ready 2027-04-20 {later}\n"
        );
        planned(
            name,
            &[("day.miche", &day), ("rolls.miche", COLD_ROLLS), ("kitchen.miche", NIGHT)],
            &["--limit", "4000 steps"],
        )
    };
    let at = plan("alone", "08:05");
    assert_eq!(ready(&at)[1], "2027-04-20T08:05");
    assert_eq!(times(&at, "mix").len(), 2);
    let early = plan("too-early", "07:45");
    assert!(ready(&early)[1] < "2027-04-18", "{:?}", ready(&early));
    let cautions = early["cautions"].to_string();
    assert!(cautions.contains("40 rolls of North rolls") && cautions.contains("at 08:03 on Tuesday"), "{cautions}");
    assert_eq!(ready(&plan("soonest", "08:03"))[1], "2027-04-20T08:03");
}

/// Ready at 02:29 for 07:30 with ten hours in the cold, since nobody is there before 20:00 to mix later: with some nine of the eight to ten
/// that are said they are ready within four hours of their time.
#[test]
fn a_rest_takes_its_shorter_time_before_bread_is_hours_old() {
    let kitchen = "kitchen Hall\noven x 1, holds 30 pieces, heating 20 min\nmixer x 1\nretarder x 1\ncook Ida 20:00-10:00\nopen 20:00-10:00\n";
    let batons = "recipe Batons\nmakes 30 batons\nuse \"kitchen.miche\"\nstrong white flour .... 6 kg\nwater .... 4 kg\nsalt .... 120 g\n\
        instant yeast .... 20 g\ndivide 30 x 330 g\nmix: hands 15 min, using mixer\nrise: wait 60 min, at 25 C, up to 75 min\n\
        shape: hands 20 s, each\nretard: wait 8-13 h, using retarder at 4 C, up to 14 h\n\
        bake: tend 25 min, using oven at 235 C\n    until dark\ncool: wait 40 min\n";
    let day = "day Hall\nuse \"kitchen.miche\"\nready 2027-05-13 09:30\nmake 30 of \"batons.miche\"\n";
    let plan = planned("hours-old", &[("day.miche", day), ("batons.miche", batons), ("kitchen.miche", kitchen)], &[]);
    let least = "2027-05-13T05:30";
    assert!(ready(&plan)[0] >= least, "{:?} {}", ready(&plan), plan["shorter"]);
}

/// Four hundred biscuits are twenty loads of sixteen minutes, in an oven that somebody is at for four hours a day: baked on several days, which three
/// weeks of `keeps` allow, they cannot all wait for one `cool`. That each load cools by itself is offered, and is a plan.
#[test]
fn loads_of_several_days_are_offered_to_cool_each_by_itself() {
    let kitchen =
        "kitchen Tea room\noven x 1, heating 20 min, agrees within 5 C\nmixer x 1\ncooks 1\nopen 12:00-16:00\n";
    let biscuits = "recipe Tea biscuits\nmakes 200 biscuits\nuse \"kitchen.miche\"\nbutter .... 1.2 kg\nicing sugar .... 600 g\n\
        plain flour .... 1.8 kg\negg .... 300 g\ndivide 200 x 19 g, loss 2.5 %\nkeeps 3 weeks\ncream: hands 10 min, using mixer\n\
        pipe: hands 3 s, each\nchill: wait 1 h, at 4 C, up to 3 days\nbake: tend 16 min, using oven at 170 C, 20 at a time\n    until gold\n\
        cool: wait 30 min\n";
    let day = "day Tea\nuse \"kitchen.miche\"\nready 2027-02-20 14:00\nmake 400 of \"biscuits.miche\"\n";
    let run = |name: &str, biscuits: &str| {
        let day = files(name, &[("day.miche", day), ("biscuits.miche", biscuits), ("kitchen.miche", kitchen)]);
        miche(&[&day, "--zone", "UTC", "--format", "text"])
    };
    let refused = run("one-cool", biscuits);
    let said = String::from_utf8_lossy(&refused.stderr);
    let said = said.split_whitespace().filter(|word| *word != "│").collect::<Vec<&str>>().join(" ");
    assert!(said.contains("let each load go on by itself: `, 20 at a time` behind `cool`"), "{said}");
    let by_load = biscuits.replace("cool: wait 30 min", "cool: wait 30 min, 20 at a time");
    assert!(run("cool-by-load", &by_load).status.success());
}
