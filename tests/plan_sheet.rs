//! The run sheet from the outside: what it says to do, in every format, and that no word of it breaks on a terminal.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan_sheet/left_lit.rs"]
mod left_lit;
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

/// A pickle that steeps for 12 h in the cold, up to 7 days, and keeps 6 days: 6 days from when it is ready at the soonest, and not
/// twelve and a half. A sponge that rises warm goes on first, and then keeps.
#[test]
fn what_rests_in_the_cold_is_kept_from_the_soonest_end() {
    let of = |rest: &str| {
        format!(
            "recipe Lantern salad\nuse \"kitchen.miche\"\npart pickle\nred onion .... 400 g\ncider vinegar .... 200 g\n\
             makes 600 g\nkeeps 6 days, chilled\nslice: hands 10 min\n    Slice {{red onion}} into {{cider vinegar}}.\n{rest}\n\
             part salad\npickle .... 600 g\nlettuce .... 500 g\ntoss: hands 5 min\n    Toss {{pickle}} with {{lettuce}}.\n"
        )
    };
    let kitchen = KITCHEN;
    let earliest = |name: &str, rest: &str| {
        let file = files(name, &[("salad.miche", &of(rest)), ("kitchen.miche", kitchen)]);
        let plan = json(&[&file]);
        let toss = tasks(&plan, "toss")[0]["start_minute"].as_i64().unwrap();
        toss - plan["kept"][0]["earliest_minute"].as_i64().unwrap()
    };
    assert_eq!(earliest("cold", "steep: wait 12 h, at 4 C, up to 7 days"), 6 * 1440);
    assert_eq!(earliest("warm", "steep: wait 12 h, at 20 C, up to 1 day"), 6 * 1440 + 720);
}

/// Six share the shaping: one line on the sheet, a row for each in the JSON and on the sheet of one person.
#[test]
fn shared_work_is_one_line() {
    let kitchen = KITCHEN.replace("cooks 1", "cooks 6");
    let rolls = ROLLS.replace("shape: hands 20 s, each", "shape: hands 1 min, each, shared by 6");
    let file = files("shared", &[("rolls.miche", &rolls), ("kitchen.miche", &kitchen)]);
    let plan = json(&[&file]);
    assert_eq!(tasks(&plan, "shape").len(), 6);
    let said = text(&[&file], "markdown");
    let shaping: Vec<&str> = said.lines().filter(|line| line.contains("| shape")).collect();
    assert_eq!(shaping.len(), 1, "{said}");
    assert!(shaping[0].contains("P1+P2+P3+P4+P5+P6 | shape |"), "{shaping:?}");
    assert!(shaping[0].contains("70 pieces of 60 g") && shaping[0].contains("26 g sesame"), "{shaping:?}");
    let own = text(&[&file, "--by", "person"], "markdown");
    assert_eq!(own.lines().filter(|line| line.contains("| shape")).count(), 6, "{own}");
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
        divide 10 x 150 g, loss 6.25 %\nmix: hands 10 min, using mixer\n\
        bake: tend 5 h, using oven at 120 C, within 20 min after mix\n    until set\n";
    // Before the rolls it would have to be mixed five hours sooner, since it is in the one oven at once and for so long.
    let day = "day Saturday\nuse \"kitchen.miche\"\nready 2027-04-17 15:00\nmake 10 of \"rolls.miche\", ready 2027-04-17 09:00\n\
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
    let day = day.replace("ready 2027-04-17 15:00", "ready 2027-04-17 07:00");
    let file = files(
        "gluten-first",
        &[("day.miche", &day), ("rolls.miche", wheat), ("rounds.miche", free), ("kitchen.miche", KITCHEN)],
    );
    assert_eq!(json(&[&file])["cautions"], Value::Array(Vec::new()));
    assert!(!text(&[&file], "markdown").contains("gluten"));
}

/// Two cooks by name, an oven that must be lit and heated again, a rest in the longer shift.
const NIGHT: &str = "kitchen Night quay\noven x 1, heating 40 min, agrees within 10 C\nmixer x 1\nprover x 1\n\
    cook Asta 02:00-08:30, rests 30 min\ncook Birk 04:00-10:00\n";

fn night(name: &str) -> String {
    night_until(name, "10:00")
}

/// As [`night`], with the tart at another time.
fn night_until(name: &str, ready: &str) -> String {
    let rolls = "recipe Night rolls\nmakes 60 rolls\nuse \"kitchen.miche\"\nplain flour .... 100 %\nwater .... 60 %\nsalt .... 2 %\n\
        dried yeast .... 1 %\ndivide 60 x 60 g, loss 2 %\nmix: hands 12 min, using mixer\n    \
        Mix {plain flour}, {water}, {salt} and {dried yeast}.\n    until smooth\nrise: wait 40 min\nshape: hands 20 s, each\n\
        prove: wait 40 min, using prover at 28 C, up to 90 min\n\
        bake: tend 15 min, using oven at 220 C, 20 at a time\n    until gold\n";
    let tart = "recipe Night tart\nmakes 4 tarts\nuse \"kitchen.miche\"\nplain flour .... 100 %\nbutter .... 60 %\n\
        divide 4 x 400 g, loss 2 %\nrub: hands 15 min\n    Rub {butter} into {plain flour}.\n    until even\n\
        bake: tend 30 min, using oven at 170 C\n    until set\n";
    let day = format!(
        "day Night\nuse \"kitchen.miche\"\nready 2027-04-17 {ready}\nmake 60 of \"rolls.miche\", ready 2027-04-17 05:00\n\
         make 4 of \"tart.miche\"\n"
    );
    files(name, &[("day.miche", &day), ("rolls.miche", rolls), ("tart.miche", tart), ("kitchen.miche", NIGHT)])
}

/// By hand: the rolls are baked until 05:00, so before 04:00 whoever works is Asta; the tart is baked from 09:30 on by Birk,
/// who alone is there after 08:30, in an oven that is put out meanwhile and lit at 08:50.
#[test]
fn people_by_name_what_is_lit_and_who_rests_stand_on_the_sheet() {
    let file = night("names");
    let plan = json(&[&file]);
    assert_eq!(plan["names"], serde_json::json!(["Asta", "Birk"]));
    let minute = |text: &Value| text.as_str().unwrap().split_once('T').unwrap().1.to_owned();
    for task in plan["tasks"].as_array().unwrap().iter().filter(|task| task["kind"] == "hands") {
        let who = if task["recipe"] == "Night tart" { "Birk" } else { "Asta" };
        if task["start"].as_str() < Some("2027-04-17T04:00") || who == "Birk" {
            assert_eq!(task["names"], serde_json::json!([who]), "{task}");
        }
    }
    let heating = plan["heating"].as_array().unwrap();
    assert_eq!(heating.len(), 2, "{heating:?}");
    let first = tasks(&plan, "bake").iter().map(|task| minute(&task["start"])).min().unwrap();
    assert_eq!((&heating[0]["again"], minute(&heating[0]["hot"])), (&Value::Bool(false), first));
    // It stood empty and hot from 05:00 to 08:50, at 220 °C and later at 170 °C: so long nobody leaves an oven lit. Found by readers of plans.
    assert_eq!((&heating[1]["again"], minute(&heating[1]["start"])), (&Value::Bool(false), "08:50".to_owned()));
    assert_eq!(heating[1]["names"], serde_json::json!(["Birk"]));
    // Asta has a rest in the plan, 05:00 to 05:30, behind all that she does: who is done rests anyway, and on the sheet it is no row. A head
    // baker found it to be the last thing on the sheets of three who had gone home.
    assert_eq!(plan["rests"], serde_json::json!([]));
    for (format, lit, again) in [
        // Lighting is a moment, and the row says when it is hot: a head baker read `04:00–04:40` as forty minutes of somebody's time.
        (
            "markdown",
            "| light | oven | to 220 °C; hot at 0",
            "| 08:50 | Birk | light | oven | to 170 °C; hot at 09:30 |",
        ),
        (
            "html",
            "<td>light</td><td>oven</td><td>to 220 °C; hot at 0",
            "<td>light</td><td>oven</td><td>to 170 °C; hot at 09:30</td>",
        ),
    ] {
        let said = text(&[&file], format).replace(['\u{a0}', '\u{202f}'], " ");
        assert!(said.contains(lit) && said.contains(again), "{format}: {said}");
        assert!(said.contains("put out") && !said.contains("turn down"), "{format}: {said}");
    }
    let drawn = text(&[&file], "html").replace(['\u{a0}', '\u{202f}'], " ");
    for title in ["<title>light to 220 °C</title>", "<title>light to 170 °C</title>", ">Asta<", ">Birk<"] {
        assert!(drawn.contains(title), "{title}: {drawn}");
    }
    let by_person = text(&[&file, "--by", "person"], "markdown");
    let (asta, birk) = by_person.split_once("## Birk").or_else(|| by_person.split_once("## BIRK")).unwrap();
    assert!(!asta.contains("| rest |") && !birk.contains("| rest |"), "{by_person}");
    assert!(birk.contains("| light |") && birk.contains("| rub |") && !asta.contains("| rub |"), "{by_person}");
}

/// Three loads one after the other: what proves longest is taken up 30 minutes after what is taken up first.
#[test]
fn a_rest_says_until_when_the_last_of_it_goes_on() {
    let file = night("last-taken");
    let plan = json(&[&file]);
    let prove = tasks(&plan, "prove")[0];
    assert_eq!(prove["last_taken_minute"].as_i64().unwrap() - prove["end_minute"].as_i64().unwrap(), 30, "{prove}");
    let bakes: Vec<i64> = tasks(&plan, "bake")
        .iter()
        .filter(|task| task["recipe"] == "Night rolls")
        .map(|task| task["start_minute"].as_i64().unwrap())
        .collect();
    assert_eq!(prove["last_taken_minute"].as_i64(), bakes.iter().copied().max());
    assert!(text(&[&file], "markdown").contains("the last of it until 04:45"));
    // What is taken up at once has no such word.
    assert!(tasks(&plan, "rise")[0].get("last_taken_minute").is_none());
}

/// 300 g of yolk leave 570 g of white, of which the foam takes 400 g: it is whipped after the eggs were parted, although
/// it is wanted as early as the custard.
#[test]
fn what_is_left_over_is_taken_after_it_was_left() {
    let custard = "recipe Custard\nuse \"kitchen.miche\"\npart custard\nmilk .... 1 l\negg yolk .... 300 g, leaves egg white 190 %\n\
        infuse: wait 2 h\n    {milk} stands.\nboil: tend 12 min\n    Boil with {egg yolk}.\n    until thick\n";
    let foam = "recipe Foam\nuse \"kitchen.miche\"\npart foam\negg white .... 400 g, from store\ncaster sugar .... 400 g\n\
        weigh: hands 4 min\n    {caster sugar}.\nwhip: hands 12 min\n    Whip {egg white}.\n    until stiff\n";
    let day = "day Eggs\nuse \"kitchen.miche\"\nready 2027-04-17 12:00\nmake 700 g of \"foam.miche\"\nmake 1.3 kg of \"custard.miche\"\n";
    let file = files(
        "left-over",
        &[("day.miche", day), ("custard.miche", custard), ("foam.miche", foam), ("kitchen.miche", KITCHEN)],
    );
    let plan = json(&[&file]);
    let (boil, whip) = (tasks(&plan, "boil")[0], tasks(&plan, "whip")[0]);
    assert!(whip["start_minute"].as_i64() >= boil["end_minute"].as_i64(), "{boil} {whip}");
    assert_eq!(plan["left_over"][0]["what"], "egg white");
    // Where the white is another one, nothing waits.
    let other = foam.replace("egg white", "aquafaba");
    let file = files(
        "left-over-not",
        &[("day.miche", day), ("custard.miche", custard), ("foam.miche", &other), ("kitchen.miche", KITCHEN)],
    );
    let plan = json(&[&file]);
    assert!(tasks(&plan, "whip")[0]["start_minute"].as_i64() < tasks(&plan, "boil")[0]["end_minute"].as_i64());
}

/// A piece of a dough in two sizes weighs one or the other, and not what they weigh on average.
#[test]
fn pieces_of_several_sizes_are_said_by_size() {
    let tins = "recipe Tins\nmakes 18 loaves\nuse \"kitchen.miche\"\npart dough\nplain flour .... 100 %\nwater .... 60 %\n\
        salt .... 2 %\ndivide 12 x 450 g small and 6 x 900 g large, loss 2 %\nmix: hands 10 min, using mixer\n    \
        {plain flour}, {water}, {salt}.\n    until smooth\nscale: hands 15 s, each\n\
        part small loaves\nper small\ndough .... 1 piece\nbake: tend 28 min, using oven at 220 C\n    Bake {dough}.\n    until gold\n\
        part large loaves\nper large\ndough .... 1 piece\nbake: tend 38 min, using oven at 220 C\n    Bake {dough}.\n    until gold\n";
    let kitchen = KITCHEN.replace(", holds 4 kg", "");
    let file = files("sizes", &[("tins.miche", tins), ("kitchen.miche", &kitchen)]);
    let said = text(&[&file], "markdown");
    assert!(said.contains("12 × 450 g small and 6 × 900 g large") && !said.contains("600 g"), "{said}");
}

/// The night's example, read for the bread that is wanted fresh: it leaves the oven with little more than an hour to spare,
/// though six heats share two ovens. Common practice, no source.
#[test]
fn bread_for_the_quay_is_fresh() {
    let day = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/fleet-in.miche");
    let plan = json(&[day, "--limit", "12000 steps"]);
    let minute = |text: &Value| {
        let at: jiff::civil::DateTime = text.as_str().unwrap().parse().unwrap();
        at.duration_since(jiff::civil::DateTime::default()).as_secs() / 60
    };
    let stands = |recipe: &str| {
        let made = plan["makes"].as_array().unwrap().iter().find(|made| made["recipe"] == recipe).unwrap();
        minute(&made["due"]) - minute(&made["ready"])
    };
    for recipe in ["Harbour rolls", "Quay baguettes"] {
        assert!(stands(recipe) <= 75, "{recipe} stand {} min", stands(recipe));
    }
}

/// A kitchen and a dish with an oven step after work.
fn dish(name: &str, kitchen: &str, steps: &str) -> String {
    format!(
        "recipe {name}\nmakes 8 portions\nuse \"{kitchen}\"\npotato .... 1.6 kg\nbutter .... 300 g\nsalt .... 20 g\n\
         ready: hands 1 min\n    {{potato}}, {{butter}} and {{salt}} stand ready.\n{steps}"
    )
}

/// By hand: with the cake in the oven after the roast the day takes 4 h 5 min, and it stands stirred for 2 h; before the roast it takes
/// 15 min more, and nothing stands. 60 minutes beyond an hour weigh as much as 30 of the day.
#[test]
fn what_is_half_done_does_not_stand_for_hours_to_save_minutes() {
    let kitchen = "kitchen Quay\noven x 1\ncooks 1\nopen 06:00-20:00\n";
    let roast = "season: hands 19 min\nroast: tend 2 h, using oven at 200 C\n    until done\nbaste: hands 2 h, during roast\n\
                 carve: hands 40 min, within 10 min after roast\n";
    let planned = |name: &str, slice: &str| {
        let gratin = dish("Potato cake", "kitchen.miche", slice);
        let roast = dish("Roast", "kitchen.miche", roast);
        let day = "day Sunday\nuse \"kitchen.miche\"\nready 2027-04-18 13:00\nmake 8 of \"gratin.miche\"\n\
                   make 8 of \"roast.miche\"\n";
        let all = [("day.miche", day), ("gratin.miche", &gratin), ("roast.miche", &roast), ("kitchen.miche", kitchen)];
        json(&[&files(name, &all)])
    };
    let stands = |plan: &Value| {
        let (slice, bake) = (tasks(plan, "slice")[0], tasks(plan, "bake")[0]);
        bake["start_minute"].as_i64().unwrap() - slice["end_minute"].as_i64().unwrap()
    };
    let plan = planned(
        "stirred",
        "slice: hands 39 min\nbake: tend 1 h, using oven at 200 C\n    until gold\ncool: wait 5 min\n",
    );
    assert_eq!((plan["span_minutes"].as_i64(), stands(&plan)), (Some(260), 0), "{plan:#}");
    assert_eq!((&plan["optimal"], &plan["shortest"]), (&Value::Bool(true), &Value::Bool(false)));
    assert_eq!(plan["proven"], serde_json::json!(["span", "standing", "spells"]));
    // Where the file says that it may stand, the day is as short as it can be.
    let may =
        "slice: hands 39 min, may stand 3 h\nbake: tend 1 h, using oven at 200 C\n    until gold\ncool: wait 5 min\n";
    let plan = planned("stirred-stands", may);
    assert_eq!((plan["span_minutes"].as_i64(), stands(&plan)), (Some(245), 140), "{plan:#}");
    assert_eq!(plan["shortest"], true);
}

/// Of a cake at 250 °C and one at 180 that keep either may be first, and the last at 250 is handed over hot: in whatever order they
/// are named, the oven changes its heat once.
#[test]
fn an_oven_is_not_heated_again_for_nothing() {
    let kitchen = "kitchen Quay\noven x 1, heating 30 min\ncooks 1\nopen 04:00-20:00\n";
    let cake = |name: &str, heat: u32, keeps: &str| {
        let steps = format!("rub: hands 1 h\nbake: tend 20 min, using oven at {heat} C\n    until gold\n");
        dish(name, "kitchen.miche", &steps).replace("ready: hands 1 min", &format!("{keeps}ready: hands 1 min"))
    };
    for (one, other) in [(250, 180), (180, 250)] {
        let kept = "keeps 3 days\n";
        let all = [cake("Ada cake", one, kept), cake("Bea cake", other, kept), cake("Cleo cake", one, "")];
        for order in ["abc", "bac", "cba"] {
            let made: String = order.chars().map(|name| format!("make 8 of \"{name}.miche\"\n")).collect();
            let day = format!("day Sunday\nuse \"kitchen.miche\"\nready 2027-04-18 13:00\n{made}");
            let [a, b, c] = &all;
            let written = [
                ("day.miche", day.as_str()),
                ("a.miche", a),
                ("b.miche", b),
                ("c.miche", c),
                ("kitchen.miche", kitchen),
            ];
            let plan = json(&[&files(&format!("again-{one}-{order}"), &written)]);
            let again = plan["heating"].as_array().unwrap().iter().filter(|light| light["again"] == true).count();
            assert_eq!(again, 1, "{order}: {:#}", plan["heating"]);
        }
    }
}

/// An oven that holds 24 rolls holds 4 loaves where the recipe says so: loads follow one another, and half a load fills half of it.
#[test]
fn what_is_baked_four_at_a_time_fills_its_oven() {
    let kitchen = "kitchen Quay\noven x 1, holds 24 pieces\ncooks 2\nopen 06:00-20:00\n";
    let cake = |name: &str, pieces: u32, at_a_time: &str| {
        format!(
            "recipe {name}\nmakes {pieces} cakes\nuse \"kitchen.miche\"\nplain flour .... 100 %\nbutter .... 50 %\n\
             divide {pieces} x 200 g, loss 1 %\nrub: hands 20 min\n    Rub {{butter}} into {{plain flour}}.\n\
             bake: tend 50 min, using oven at 180 C{at_a_time}\n    until gold\n"
        )
    };
    let large = cake("Large cake", 12, ", 4 at a time");
    let path = files("four", &[("large.miche", &large), ("kitchen.miche", kitchen)]);
    assert_eq!(json(&[&path])["span_minutes"], 170, "20 min, and three loads of 50");
    let (two, small) = (cake("Two cakes", 2, ", 4 at a time"), cake("Small cake", 12, ""));
    let day = "day Sunday\nuse \"kitchen.miche\"\nready 2027-04-18 13:00\nmake 2 of \"two.miche\"\n\
               make 12 of \"small.miche\"\n";
    let all = [("day.miche", day), ("two.miche", &two), ("small.miche", &small), ("kitchen.miche", kitchen)];
    let plan = json(&[&files("half", &all)]);
    assert_eq!(plan["span_minutes"], 70, "two of four and twelve of 24 are in it at once");
}

/// 500 g of poolish, with 0.6 g of yeast, go into a dough: who takes all of it weighs nothing to a tenth of a gram.
#[test]
fn who_takes_all_of_a_part_is_told_so() {
    let loaf = "recipe Loaf\nmakes 2 loaves\nuse \"kitchen.miche\"\npart poolish\nplain flour .... 250 g\nwater .... 250 g\n\
                dried yeast .... 0.6 g\nstir: hands 3 min\n    Stir.\nripen: wait 12 h, up to 15 h\npart dough\n\
                poolish .... all\nplain flour .... 500 g\nwater .... 250 g\nsalt .... 15 g\nmix: hands 10 min\n    \
                Mix {poolish} with {plain flour}, {water} and {salt}.\n    until smooth\n\
                bake: tend 40 min, using oven at 230 C\n    until brown\n";
    let kitchen = format!("{KITCHEN}fine scale 0.1 g, up to 200 g\n");
    let said = text(&[&files("all", &[("loaf.miche", loaf), ("kitchen.miche", &kitchen)])], "markdown");
    assert!(said.contains("all the poolish (501 g), 500 g plain flour"), "{said}");
}

/// Six minutes in a shift of six and a half hours leave room to rest before and after; two times six, three hours apart, have a
/// rest between or beside them.
#[test]
fn who_works_for_minutes_has_no_row_for_a_rest() {
    let kitchen = "kitchen Night quay\noven x 1\ncook Asta 02:00-08:30, rests 30 min\n";
    let glaze = dish("Glaze", "kitchen.miche", "").replace("hands 1 min", "hands 6 min");
    let rests = |name: &str, more: &str| {
        let day =
            format!("day Night\nuse \"kitchen.miche\"\nready 2027-04-17 07:00\nmake 8 of \"glaze.miche\"\n{more}");
        let path = files(name, &[("day.miche", &day), ("glaze.miche", &glaze), ("kitchen.miche", kitchen)]);
        json(&[&path])["rests"].as_array().unwrap().len()
    };
    assert_eq!(rests("minutes", ""), 0);
    assert_eq!(rests("apart", "make 8 of \"glaze.miche\", ready 2027-04-17 04:00\n"), 1);
}

/// A mixer's two lines and an oven's three stand on one page; what is long begins on one of its own.
#[test]
fn short_sheets_share_a_page() {
    let file = files("pages", &[("rolls.miche", ROLLS), ("kitchen.miche", KITCHEN)]);
    let pages = |pieces: &str| {
        let said = text(&[&file, "--pieces", pieces, "--by", "equipment"], "html");
        said.split("<body").nth(1).unwrap().matches("class=\"next\"").count()
    };
    assert_eq!((pages("70"), pages("240")), (1, 2));
}
