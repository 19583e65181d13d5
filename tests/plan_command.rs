//! `miche plan` from the outside: the example day, what it does with bad input, and what must hold for every plan.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/sheet.rs"]
mod sheet;

use serde_json::Value;
use sheet::{Kitchen, broken, files, follows, json, miche, refused};

const DAY: &str = "examples/market-day.miche";

fn bakehouse() -> Kitchen {
    Kitchen {
        equipment: vec![("oven", 1), ("hob", 4), ("mixer", 1), ("prover", 2)],
        cooks: 2,
        open: Some((4 * 60 + 30, 17 * 60 + 30)),
    }
}

/// A roll with everything that a plan has to do with.
const ROLLS: &str = "recipe Rolls\nmakes 24 rolls\nuse \"kitchen.miche\"\nflour .... 1 kg\nwater .... 60 %\n\
    divide 24 x 60 g, loss 10 %\nmix: hands 12 min, using mixer\nrise: wait 45 min\nshape: hands 1 min, each\n\
    prove: wait 40-50 min\nbake: tend 15 min, using oven at 220 C, 12 at a time\n    until gold\n";
const KITCHEN: &str = "kitchen Small\noven x 1\nmixer x 1\ncooks 1\nopen 06:00-18:00\n";

fn small() -> Kitchen {
    Kitchen { equipment: vec![("oven", 1), ("mixer", 1)], cooks: 1, open: Some((360, 1080)) }
}

#[test]
fn the_example_day_is_proven_best_and_keeps_every_rule() {
    let plan = json(&[DAY, "--limit", "100000 steps"]);
    assert_eq!(broken(&plan, &bakehouse()), Vec::<String>::new());
    assert_eq!(plan["optimal"], Value::Bool(true));
    assert_eq!(plan["proven"][0], "span");
    assert_eq!(plan["ready"], "2027-04-17T10:30");
    // Less would stand about with the sticks at 06:20, and the oven burn empty for 66 minutes before the rolls: they follow them, and nobody bakes otherwise, and the plan
    // says that it is for that. Common practice, no source.
    assert_eq!(plan["quietest"], Value::Bool(false));
    let bakes = |recipe: &str, edge: &str| -> Vec<i64> {
        let tasks = plan["tasks"].as_array().unwrap().iter();
        let of = tasks.filter(|task| task["recipe"] == recipe && task["step"] == "bake");
        of.map(|task| task[edge].as_i64().unwrap()).collect()
    };
    assert_eq!(bakes("Harbour rolls", "end_minute").iter().max(), bakes("Seed sticks", "start_minute").iter().min());
    let said = String::from_utf8(miche(&[DAY, "--limit", "100000 steps"]).stdout).unwrap();
    assert!(said.contains("Where less stands about, what is lit burns empty for longer."), "{said}");
    // Nobody comes on Friday for three minutes that the other has hands for.
    let tasks = plan["tasks"].as_array().unwrap().iter();
    let on_friday = tasks.filter(|task| task["start"].as_str().unwrap().starts_with("2027-04-16"));
    let mut people: Vec<&Value> = on_friday.flat_map(|task| task["people"].as_array().unwrap()).collect();
    people.dedup();
    assert_eq!(people.len(), 1, "{people:?}");
    // The mother dough is made once, for the rolls and the sticks together.
    let mixes = plan["tasks"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|task| task["recipe"] == "Mother dough" && task["step"] == "mix");
    assert_eq!(mixes.count(), 1);
    for first in [("Harbour rolls", "mix"), ("sticks", "cut")] {
        assert!(follows(&plan, ("Mother dough", "chill"), first), "{first:?}");
    }
    for made in plan["makes"].as_array().unwrap() {
        assert!(made["ready"].as_str() <= made["due"].as_str(), "{made}");
    }
    assert_eq!(plan["makes"][0]["due"], "2027-04-17T09:00");
}

/// What keeps for a week is boiled beside other work, and not by itself as late as it can cool: somebody mixes at 20:30 and
/// would else come back for it at 21:52. What keeps for hours is made as late as it can be. Common practice, no source.
#[test]
fn what_keeps_is_made_beside_other_work() {
    let kitchen =
        "kitchen Quay\noven x 1\nhob x 1\nmixer x 1\nretarder x 1\ncook Ann 17:00-22:00\ncook Ben 03:00-11:00\n";
    let recipe = "recipe Pickle rolls\nmakes 24 rolls\nuse \"kitchen.miche\"\npart pickle\nwhite wine vinegar .... 300 g\n\
        caster sugar .... 180 g\nkeeps 1 week, chilled\nboil: tend 8 min, using hob\n    until it boils\ncool: wait 6 h\n\
        part dough\nstrong white flour .... 1 kg\nwater .... 62 %\nsalt .... 2 %\ninstant yeast .... 1 %\n\
        mix: hands 12 min, using mixer\n    until smooth\nshape: hands 10 s, each\n\
        retard: wait 8 h, using retarder at 5 C, up to 14 h\n    until firm\npart rolls\ndough .... 1650 g\npickle .... 480 g\n\
        fill: hands 20 s, each\n    Put {pickle} into {dough}.\nbake: tend 16 min, using oven at 220 C\n    until gold\n";
    for (keeps, from_work) in [("1 week", 0..=10), ("7 h", 40..=120)] {
        let recipe = recipe.replace("keeps 1 week", &format!("keeps {keeps}"));
        let day = "day Quay\nuse \"kitchen.miche\"\nready 2027-04-17 05:30\nmake 24 of \"rolls.miche\"\n";
        let name = format!("pickle-{}", keeps.replace(' ', "-"));
        let day = files(&name, &[("day.miche", day), ("kitchen.miche", kitchen), ("rolls.miche", &recipe)]);
        let plan = json(&[&day, "--zone", "UTC"]);
        let time = |step: &str, edge: &str| {
            let tasks = plan["tasks"].as_array().unwrap();
            tasks.iter().find(|task| task["step"] == step).unwrap()[edge].as_i64().unwrap()
        };
        let boil = time("boil", "start_minute");
        let away = (boil - time("shape", "end_minute")).max(time("mix", "start_minute") - boil).max(0);
        assert!(from_work.contains(&away), "{keeps}: {away}");
        assert!(time("boil", "end_minute") <= time("fill", "start_minute") - 360);
        assert_eq!(plan["proven"], serde_json::json!(["span", "standing", "spells"]));
    }
}

/// A sponge that ripens on the bench and keeps in the fridge is put there by somebody who is there when it has ripened, and before
/// it has for too long; one that is taken up by then needs nobody. Common practice, no source.
#[test]
fn somebody_puts_a_ripe_sponge_into_the_fridge() {
    let kitchen = "kitchen Quay\noven x 1\nmixer x 1\ncooks 1\nopen 04:00-13:00\n";
    let recipe = "recipe Sponge rolls\nmakes 24 rolls\nuse \"kitchen.miche\"\npart sponge\nstrong white flour .... 400 g\n\
        water .... 400 g\ninstant yeast .... 2 g\nkeeps 2 days, chilled\nstir: hands 4 min\n    until even\n\
        ripen: wait 3 h, at 21 C, up to 5 h\n    until full of bubbles\npart dough\nstrong white flour .... 600 g\nwater .... 220 g\n\
        salt .... 20 g\nsponge .... 800 g\ndivide 24 x 66 g, loss 3 %\nmix: hands 12 min, using mixer\n    until smooth\n\
        rise: wait 45 min, at 25 C\nshape: hands 10 s, each\nprove: wait 40 min, at 26 C\n\
        bake: tend 16 min, using oven at 220 C, 24 at a time\n    until gold\ncool: wait 20 min\n";
    for (ready, of_the_day_before) in [("07:00", true), ("12:30", false)] {
        let day = format!("day Quay\nuse \"kitchen.miche\"\nready 2027-04-17 {ready}\nmake 24 of \"rolls.miche\"\n");
        let name = format!("sponge-{of_the_day_before}");
        let day = files(&name, &[("day.miche", &day), ("kitchen.miche", kitchen), ("rolls.miche", recipe)]);
        let plan = json(&[&day, "--zone", "UTC"]);
        let tasks = plan["tasks"].as_array().unwrap();
        let ripen = tasks.iter().find(|task| task["step"] == "ripen").unwrap();
        let (start, end) = (ripen["start"].as_str().unwrap(), ripen["end"].as_str().unwrap());
        let date = if of_the_day_before { "2027-04-16" } else { "2027-04-17" };
        assert!(start.starts_with(date) && end.starts_with(date), "{ripen}");
        assert!(&end[11..] <= "13:00", "{ripen}");
        let minutes = ripen["end_minute"].as_i64().unwrap() - ripen["start_minute"].as_i64().unwrap();
        assert!((180..=300).contains(&minutes), "{ripen}");
        let sheet = String::from_utf8(miche(&[&day, "--zone", "UTC"]).stdout).unwrap();
        assert_eq!(sheet.contains("until full of bubbles; then into the cold"), of_the_day_before, "{sheet}");
    }
}

#[test]
fn every_single_recipe_of_the_examples_has_a_plan_without_a_clock() {
    for entry in std::fs::read_dir(sheet::root().join("examples")).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        if !text.lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        let plan = json(&[path.to_str().unwrap(), "--limit", "100000 steps"]);
        let kitchen = if text.contains("school-kitchen.miche") {
            Kitchen { equipment: vec![("kettle", 2), ("oven", 2), ("hob", 6), ("mixer", 1)], cooks: 3, open: None }
        } else if text.contains("night-bakehouse.miche") {
            let equipment = vec![("oven", 2), ("hob", 4), ("mixer", 1), ("prover", 3), ("retarder", 2)];
            Kitchen { equipment, cooks: 3, open: None }
        } else if text.contains("bakehouse.miche") {
            Kitchen { open: None, ..bakehouse() }
        } else {
            Kitchen { equipment: vec![("oven", 1), ("hob", 4), ("mixer", 1)], cooks: 1, open: None }
        };
        assert_eq!(broken(&plan, &kitchen), Vec::<String>::new(), "{}", path.display());
        assert_eq!(plan["start"], Value::Null);
    }
}

#[test]
fn the_same_input_gives_the_same_plan() {
    let file = files("same", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    for format in ["json", "markdown", "html", "ics", "text"] {
        let once = miche(&[&file, "--ready", "2026-12-05 15:00", "--format", format]);
        let again = miche(&[&file, "--ready", "2026-12-05 15:00", "--format", format]);
        assert!(once.status.success(), "{}", String::from_utf8_lossy(&once.stderr));
        assert!(!once.stdout.is_empty());
        assert_eq!(once.stdout, again.stdout, "{format}");
    }
}

#[test]
fn a_day_later_everything_is_a_day_later() {
    let file = files("shift", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let one = json(&[&file, "--ready", "2026-12-05 15:00"]);
    let other = json(&[&file, "--ready", "2026-12-06 15:00"]);
    assert_eq!(broken(&one, &small()), Vec::<String>::new());
    let minutes = |plan: &Value| -> Vec<(String, i64, i64)> {
        let tasks = plan["tasks"].as_array().unwrap().iter();
        tasks
            .map(|task| {
                (task["step"].to_string(), task["start_minute"].as_i64().unwrap(), task["end_minute"].as_i64().unwrap())
            })
            .collect()
    };
    assert_eq!(minutes(&one), minutes(&other));
    assert_eq!(one["start"].as_str().unwrap().replace("2026-12-05", "2026-12-06"), other["start"].as_str().unwrap());
}

#[test]
fn more_to_work_with_never_takes_longer() {
    let span = |kitchen: &str, name: &str| {
        let file = files(name, &[("rolls.miche", ROLLS), ("kitchen.miche", kitchen)]);
        json(&[&file, "--pieces", "48"])["span_minutes"].as_i64().unwrap()
    };
    let now = span(KITCHEN, "more-0");
    let ovens = span(&KITCHEN.replace("oven x 1", "oven x 2"), "more-1");
    let cooks = span(&KITCHEN.replace("cooks 1", "cooks 2"), "more-2");
    // Four loads of a quarter of an hour, one after the other or two by two.
    assert_eq!(now - ovens, 30);
    assert!(cooks <= now);
}

/// Mix 12, rise 45, shape 24, prove 50, bake 2 x 15: 161 minutes by hand, the longer end of the range planned with.
#[test]
fn a_plan_by_hand() {
    let file = files("hand", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let plan = json(&[&file, "--ready", "2026-12-05 15:00"]);
    assert_eq!(plan["span_minutes"], 161);
    assert_eq!(plan["start"], "2026-12-05T12:19");
    assert_eq!(plan["hands_minutes"], 36);
    assert_eq!(plan["optimal"], Value::Bool(true));
}

#[test]
fn a_rest_that_may_go_on_spans_the_night_and_another_does_not() {
    let chill = "recipe Buns\nmakes 12 buns\nuse \"kitchen.miche\"\nflour .... 1 kg\nwater .... 60 %\ndivide 12 x 120 g, loss 10 %\n\
        mix: hands 10 min\nchill: wait 10 h, at 4 C, up to 2 days\nshape: hands 20 min\nbake: tend 20 min, using oven at 200 C\n    until gold\n";
    let kitchen = "kitchen Small\noven x 1\ncooks 1\nopen 06:00-14:00\n";
    let file = files("night", &[("buns.miche", chill), ("kitchen.miche", kitchen)]);
    let plan = json(&[&file, "--ready", "2026-12-05 09:00"]);
    // The latest start that leaves ten hours: the day before, at closing time.
    assert_eq!(plan["start"], "2026-12-04T13:50");
    let without = chill.replace(", up to 2 days", "");
    let file = files("no-night", &[("buns.miche", &without), ("kitchen.miche", kitchen)]);
    let text = refused(&[&file, "--ready", "2026-12-05 09:00"], 1);
    assert!(text.contains("no-plan"), "{text}");
    assert!(text.contains("up to") || text.contains("open at"), "{text}");
}

#[test]
fn what_cannot_be_planned_is_refused_with_its_place() {
    let with =
        |name: &str, recipe: &str, kitchen: &str| files(name, &[("rolls.miche", recipe), ("kitchen.miche", kitchen)]);
    let ready = ["--ready", "2026-12-05 15:00"];
    let run = |file: &str| refused(&[file, ready[0], ready[1]], 1);

    let ring = ROLLS.replace("mix: hands 12 min, using mixer", "mix: hands 12 min, using mixer, after shape");
    let text = run(&with("ring", &ring, KITCHEN));
    assert!(text.contains("loose-step") && text.contains("rolls.miche:7"), "{text}");

    let long = ROLLS.replace("shape: hands 1 min, each", "shape: hands 1 h, each");
    let text = run(&with("long", &long, KITCHEN));
    assert!(text.contains("takes 1 day at a stretch") && text.contains("rolls.miche:9"), "{text}");

    let text = run(&with("missing", ROLLS, "kitchen Small\noven x 1\n"));
    assert!(text.contains("there is no `mixer`") && text.contains("rolls.miche:7"), "{text}");

    let many = ROLLS.replace("mix: hands 12 min", "mix: hands 12 min, people 3");
    let text = run(&with("many", &many, KITCHEN));
    assert!(text.contains("needs 3 people at once") && text.contains("rolls.miche:7"), "{text}");

    let file = with("full", ROLLS, "kitchen Small\noven x 1\nmixer x 1\nopen 12:30-18:00\n");
    let text = refused(&[&file, ready[0], ready[1], "--from", "2026-12-05 09:00"], 1);
    assert!(text.contains("open at 12:00"), "{text}");
}

/// Mix 12, rise 45, shape 24, prove 50, bake 30: the bake cannot come within an hour of the mix, nor all of it be made in two.
#[test]
fn what_contradicts_itself_is_named_with_its_times() {
    let with = |name: &str, recipe: &str| files(name, &[("rolls.miche", recipe), ("kitchen.miche", KITCHEN)]);
    let hurried = ROLLS.replace("bake: tend 15 min", "bake: tend 15 min, after prove, within 1 h after mix");
    let text = refused(&[&with("hurried", &hurried), "--ready", "2026-12-05 15:00"], 1);
    let flat = text.split_whitespace().filter(|word| *word != "|").collect::<Vec<&str>>().join(" ");
    assert!(flat.contains("`bake` comes at most 1 h after `mix`"), "{text}");
    assert!(flat.contains("`rise` (45 min)") && flat.contains("`prove` (40 min)"), "{text}");
    // Rise 45, shape 24 and the shorter end of prove, 40, lie between, where an hour is left: a plan takes that end where it has to.
    assert!(flat.contains("come to 1 h 49 min: 49 min too much") && text.contains("11 │ bake"), "{text}");
    assert!(flat.contains("leave more time between `mix` and `bake`"), "{text}");

    let late = ["--ready", "2026-12-05 15:00", "--from", "2026-12-05 13:00"];
    let text = refused(&[&with("late", ROLLS), late[0], late[1], late[2], late[3]], 1);
    let flat = text.split_whitespace().filter(|word| *word != "|").collect::<Vec<&str>>().join(" ");
    assert!(flat.contains("`Rolls` is wanted at 15:00 on Saturday"), "{text}");
    assert!(flat.contains("nothing starts before 13:00 on Saturday"), "{text}");
    assert!(flat.contains("31 min too much"), "151 minutes in 120, with the shorter end of prove: {text}");
    assert!(!flat.contains("oven x 2"), "no other kitchen helps: {text}");
}

#[test]
fn an_oven_too_few_is_named_with_figures() {
    let cakes = "recipe Cakes\nmakes 4 cakes\nuse \"kitchen.miche\"\nflour .... 1 kg\nmilk .... 60 %, not flour\n\
        divide 4 x 360 g, loss 10 %\nmix: hands 10 min\nbake: tend 1 h, using oven at 180 C, 1 at a time\n    until brown\n";
    let file = files(
        "oven",
        &[("cakes.miche", cakes), ("kitchen.miche", "kitchen Small\noven x 1\ncooks 1\nopen 10:00-18:00\n")],
    );
    let text = refused(&[&file, "--ready", "2026-12-05 13:00", "--from", "2026-12-05 09:00"], 1);
    assert!(text.contains("oven") && text.contains("4 h"), "{text}");
    assert!(text.contains("oven x 2"), "{text}");
}

#[test]
fn clocks_that_jump_are_reckoned_with() {
    let file = files(
        "zone",
        &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN.replace("06:00-18:00", "00:00-24:00").as_str())],
    );
    // In Oslo the clocks go from 02:00 to 03:00 on 28 March 2027.
    let text = refused(&[&file, "--zone", "Europe/Oslo", "--ready", "2027-03-28 02:30"], 2);
    assert!(text.contains("put forward"), "{text}");
    let plan = json(&[&file, "--zone", "Europe/Oslo", "--ready", "2027-03-28 04:00"]);
    // 161 minutes before four is 01:19 by a clock that does not jump, and 00:19 by one that does.
    assert_eq!(plan["start"], "2027-03-28T00:19");
    let text = refused(&[&file, "--zone", "Moon/Crater", "--ready", "2027-03-28 04:00"], 2);
    assert!(text.contains("no such time zone"), "{text}");
}

#[test]
fn wrong_use_is_refused() {
    let file = files("use", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    refused(&[&file, "--ready", "tomorrow"], 2);
    refused(&[&file, "--limit", "soon"], 2);
    refused(&[&file, "--format", "ics"], 2);
    refused(&[&file, "--what-if", "butter 2"], 2);
    refused(&[&file, "--ready", "2026-12-05 15:00", "--from", "2026-12-05 15:00"], 2);
    refused(&["examples/larder.miche"], 2);
}

#[test]
fn another_oven_is_said_to_help() {
    let file = files("what-if", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let output = miche(&[&file, "--what-if", "oven x 2", "--what-if", "cooks 2", "--format", "markdown"]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("With `oven x 2` it would take 2 h 26 min, 15 min less"), "{text}");
    assert!(text.contains("With `cooks 2` it would take 2 h 41 min all the same"), "{text}");
}

/// RFC 5545: lines end in CR LF and have at most 75 octets; every event has a UID and a stamp.
#[test]
fn the_calendar_is_one_by_the_book() {
    let file = files("calendar", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let output = miche(&[&file, "--ready", "2026-12-05 15:00", "--format", "ics"]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"), "{text}");
    assert!(text.split("\r\n").all(|line| line.len() <= 75 && !line.contains('\n')), "{text}");
    let count = |what: &str| text.matches(what).count();
    assert_eq!(count("BEGIN:VEVENT"), 6);
    assert_eq!(count("\r\nUID:"), 6);
    assert_eq!(count("\r\nDTSTAMP:"), 6);
    assert_eq!(count("BEGIN:VALARM"), 2, "an alarm at each start of hands-on work");
    assert!(text.contains("DTSTART:20261205T121900Z"), "{text}");
}

#[test]
fn nothing_raw_reaches_the_page() {
    let recipe = ROLLS.replace("recipe Rolls", "recipe <b>Rolls</b>").replace("mix: hands", "mi<i>x: hands");
    let file = files("raw", &[("rolls.miche", &recipe), ("kitchen.miche", KITCHEN)]);
    let output = miche(&[&file, "--format", "html"]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("&lt;b&gt;Rolls") && !text.contains("<b>") && !text.contains("<i>"), "{text}");
}

#[test]
fn what_is_ready_on_an_earlier_day_is_said_to_be() {
    // Two hours and more of work cannot be done between opening at six and a quarter past.
    let file = files("early", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let said = |ready: &str| {
        let output = miche(&[&file, "--ready", ready]);
        assert!(output.status.success());
        String::from_utf8(output.stderr).unwrap()
    };
    let early = said("2026-12-05 06:15");
    assert!(early.contains("ready-days-early"), "{early}");
    // Two hours and 31 minutes after opening at six: where it has to be, a plan takes the shorter time of `40-50 min`.
    assert!(early.contains("on the day itself they can be ready at 08:31 on Saturday"), "{early}");
    assert!(!said("2026-12-05 15:00").contains("ready-days-early"));
}

/// A hundred recipes in one small kitchen: an answer comes in seconds, and says what there is too little of.
#[test]
fn a_hundred_recipes_are_answered_in_seconds() {
    let lines = |count: usize, oven: &str| {
        let makes: String = (0..count)
            .map(|at| format!("make {} of \"rolls{at}.miche\", ready 2026-12-05 {:02}:00\n", 12 + at, 9 + at % 8))
            .collect();
        let day = format!("day Hundred\nuse \"kitchen.miche\"\nready 2026-12-05 17:30\n{makes}");
        let kitchen =
            KITCHEN.replace("oven x 1", oven).replace("mixer x 1", "mixer x 20").replace("cooks 1", "cooks 30");
        // The same recipe at the same time would be one dough.
        let recipes: Vec<(String, String)> = (0..count)
            .map(|at| (format!("rolls{at}.miche"), ROLLS.replace("recipe Rolls", &format!("recipe Rolls {at}"))))
            .collect();
        let mut all = vec![("day.miche", day.as_str()), ("kitchen.miche", kitchen.as_str())];
        all.extend(recipes.iter().map(|(name, text)| (name.as_str(), text.as_str())));
        files("hundred", &all)
    };
    let started = std::time::Instant::now();
    let text = refused(&[&lines(100, "oven x 1"), "--from", "2026-12-05 06:00"], 1);
    assert!(text.contains("`oven` is needed"), "{text}");
    let plan = json(&[&lines(100, "oven x 60"), "--limit", "1000 steps"]);
    assert_eq!(plan["makes"].as_array().unwrap().len(), 100);
    let kitchen = Kitchen { equipment: vec![("oven", 60), ("mixer", 20)], cooks: 30, open: Some((360, 1080)) };
    assert_eq!(broken(&plan, &kitchen), Vec::<String>::new());
    // Generous: the tests run unoptimised, beside others.
    assert!(started.elapsed().as_secs() < 120, "{:?}", started.elapsed());
}

/// Ten flatbreads of 1 min each, topped by fours: 4, 4 and 2 minutes of hands, and the oven has the first four while the next
/// are topped. (Common practice, no source.)
#[test]
fn pieces_are_done_one_by_one_in_loads() {
    let text = "recipe Flatbreads\nmakes 10 breads\nstrong flour .... 1 kg\nwater .... 60 %\ndivide 10 x 150 g, loss 6.25 %\n\
        mix: hands 10 min\n    Mix {strong flour} and {water}.\n    until smooth\nrise: wait 60 min, up to 3 h\n\
        shape: hands 1 min, each, 4 at a time, may stand 1 h\n\
        bake: tend 8 min, using oven at 250 C, 4 at a time\n    until gold\n";
    let file = files("each-by-fours", &[("flatbreads.miche", text)]);
    let plan = json(&[&file, "--limit", "100000 steps"]);
    let of = |step: &str| {
        let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
        tasks
            .map(|task| (task["start_minute"].as_i64().unwrap(), task["end_minute"].as_i64().unwrap()))
            .collect::<Vec<_>>()
    };
    let (shaped, baked) = (of("shape"), of("bake"));
    assert_eq!(shaped.iter().map(|(start, end)| end - start).collect::<Vec<_>>(), [4, 4, 2], "{plan:#}");
    assert!(shaped.iter().zip(&baked).all(|(shape, bake)| shape.1 <= bake.0), "{plan:#}");
    assert!(baked[0].0 < shaped[2].1, "the oven waits for the last of them: {plan:#}");
}

/// What is folded while it rests is folded at its moment where somebody is free, and rests on after that, through the night too: the
/// fold of a cold dough does not stand. Common practice, no source.
#[test]
fn a_fold_is_at_its_moment_and_the_dough_rests_on() {
    let kitchen = "kitchen Quay\noven x 1\nmixer x 1\ncooks 1\nopen 05:00-15:00\n";
    let recipe = "recipe Cold loaf\nmakes 20 loaves\nuse \"kitchen.miche\"\nstrong white flour .... 10 kg\nwater .... 68 %\nsalt .... 2 %\n\
        instant yeast .... 0.3 %\ndivide 20 x 820 g, loss 3 %\nmix: hands 12 min, using mixer\n    until smooth\nbulk: REST\n\
        fold: hands 3 min, 30 and 60 min into bulk, may stand 12 min\nshape: hands 60 s, each\nprove: wait 50 min, at 26 C, up to 80 min\n\
        bake: tend 50 min, using oven at 230 C\n    until brown\n";
    for (rest, nights) in [("wait 12 h, at 8 C, up to 20 h", 1), ("wait 3 h, at 24 C", 0)] {
        let day = "day Quay\nuse \"kitchen.miche\"\nready 2027-04-17 14:00\nmake 20 of \"loaf.miche\"\n";
        let recipe = recipe.replace("REST", rest);
        let name = format!("fold-{nights}");
        let day = files(&name, &[("day.miche", day), ("kitchen.miche", kitchen), ("loaf.miche", &recipe)]);
        let plan = json(&[&day, "--zone", "UTC"]);
        let at = |step: &str, edge: &str| -> Vec<i64> {
            let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
            tasks.map(|task| task[edge].as_i64().unwrap()).collect()
        };
        let begun = at("bulk", "start_minute")[0];
        assert_eq!(at("fold", "start_minute"), [begun + 30, begun + 60], "{rest}");
        assert_eq!(at("shape", "start_minute"), at("bulk", "end_minute"), "{rest}");
        assert_eq!(at("shape", "start_minute")[0] - begun > 720, nights == 1, "{rest}");
    }
}

/// What is alive goes on at once where that costs nothing: also in a plan that was not looked for, and before a rest that may go on.
#[test]
fn what_is_alive_is_not_left_standing_for_nothing() {
    let ways = ["--choose", "overnight", "--ready", "2027-04-17 11:00", "--zone", "UTC", "--limit", "0 steps"];
    let loaf = sheet::root().join("examples/harbour-levain-loaf.miche");
    let plan = json(&[&[loaf.to_str().unwrap()][..], &ways].concat());
    let of_dough = |task: &&Value| task["part"] == "dough" && task["kind"] != "tend";
    let dough: Vec<&Value> = plan["tasks"].as_array().unwrap().iter().filter(of_dough).collect();
    let names = ["mix", "first rise", "fold", "second rise", "cut", "bench rest", "shape", "proof"];
    let at = |step: &str, edge: &str| {
        let task = dough.iter().find(|task| task["step"] == step).unwrap();
        task[edge].as_i64().unwrap()
    };
    for pair in names.windows(2) {
        assert_eq!(at(pair[0], "end_minute"), at(pair[1], "start_minute"), "{pair:?}");
    }
}
