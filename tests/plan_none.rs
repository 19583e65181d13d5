//! Days that cannot be: the message names the step, the minutes and what would give way, and what it offers is enough.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/sheet.rs"]
mod sheet;

use sheet::{files, miche, refused};

const KITCHEN: &str = "kitchen Quay\noven x 1\nmixer x 1, holds 12 kg\nretarder x 1\ncooks 1\nopen 04:00-14:00\n";

/// Mix 12, rise 60, shape 24, prove 45, bake 16: 157 minutes.
const ROLLS: &str = "recipe Pier rolls\nmakes 48 rolls\nuse \"kitchen.miche\"\nplain flour .... 100 %\nwater .... 62 %\n\
    salt .... 2 %\ndried yeast .... 1 %\ndivide 48 x 80 g, loss 2 %\nmix: hands 12 min, using mixer\n\
    \x20   Mix {plain flour}, {water}, {salt} and {dried yeast}.\nrise: wait 1 h, at 25 C\nshape: hands 30 s, each\n\
    prove: wait 45 min, at 28 C\nbake: tend 16 min, using oven at 220 C, 48 at a time\n    until gold\n";

const FRITTERS: &str = "recipe Fritters\nmakes 20 fritters\nuse \"kitchen.miche\"\n\npart batter\nplain flour .... 500 g\n\
    milk .... 600 g, not flour\nkeeps 30 min\nwhisk: hands 10 min\n    Whisk {plain flour} and {milk}.\n\npart filling\n\
    apple .... 1 kg\ncook: tend 1 h\n    Cook {apple}.\n    until soft\n\npart fritters\nbatter .... 1100 g\n\
    filling .... 1000 g\nwarm: wait 50 min\n    {filling} and {half of batter} stand.\nfry: hands 20 min\n    Fry {rest of batter}.\n    until gold\n";

/// What is said of a day that makes so many rolls, with files changed.
struct Day {
    lines: String,
    from: Option<&'static str>,
    rolls: String,
    kitchen: String,
}

impl Day {
    fn of(lines: &[&str]) -> Day {
        let lines = lines.iter().map(|line| format!("{line}\n")).collect();
        Day { lines, from: None, rolls: ROLLS.to_owned(), kitchen: KITCHEN.to_owned() }
    }

    fn rolls() -> Day {
        Day::of(&["make 48 of \"rolls.miche\""])
    }

    fn from(self, time: &'static str) -> Day {
        Day { from: Some(time), ..self }
    }

    fn rolls_with(self, from: &str, to: &str) -> Day {
        assert!(self.rolls.contains(from), "{from}");
        Day { rolls: self.rolls.replace(from, to), ..self }
    }

    fn kitchen_with(self, from: &str, to: &str) -> Day {
        assert!(self.kitchen.contains(from), "{from}");
        Day { kitchen: self.kitchen.replace(from, to), ..self }
    }

    fn write(&self, name: &str) -> Vec<String> {
        let day = format!("day Saturday\nuse \"kitchen.miche\"\nready 2027-04-17 09:00\n{}", self.lines);
        let buns = self.rolls.replace("Pier rolls", "Quay buns").replace("12 min, using", "40 min, using");
        let all = [
            ("day.miche", day.as_str()),
            ("rolls.miche", &self.rolls),
            ("buns.miche", &buns),
            ("fritters.miche", FRITTERS),
            ("kitchen.miche", &self.kitchen),
        ];
        let mut arguments = vec![files(name, &all)];
        if let Some(from) = self.from {
            arguments.extend(["--from".to_owned(), format!("2027-04-17 {from}")]);
        }
        arguments
    }

    /// The words of the refusal, without the drawing of the places.
    fn says(&self, name: &str) -> String {
        self.says_within(name, "200000 steps")
    }

    /// The same, with so long a search for a plan before that.
    fn says_within(&self, name: &str, limit: &str) -> String {
        let mut arguments = self.write(name);
        arguments.extend(["--limit".to_owned(), limit.to_owned()]);
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let text = refused(&arguments, 1);
        text.split_whitespace().filter(|word| !["│", "|"].contains(word)).collect::<Vec<&str>>().join(" ")
    }

    fn is_possible(&self, name: &str) -> bool {
        let mut arguments = self.write(name);
        arguments.extend(["--limit".to_owned(), "200000 steps".to_owned()]);
        miche(&arguments.iter().map(String::as_str).collect::<Vec<&str>>()).status.success()
    }
}

/// The words of the refusal of a day in a file.
fn said(day: &str) -> String {
    let text = refused(&[day, "--zone", "UTC"], 1);
    text.split_whitespace().filter(|word| *word != "│").collect::<Vec<&str>>().join(" ")
}

#[track_caller]
fn has(text: &str, all: &[&str]) {
    for one in all {
        assert!(text.contains(one), "`{one}` is not in: {text}");
    }
}

/// 157 minutes in 120.
#[test]
fn too_little_time_says_by_how_much_and_which_clock() {
    let day = Day::rolls().from("07:00");
    has(&day.says("short"), &["37 min too much", "begin 37 min sooner, at 06:23", "be ready 37 min later, at 09:37"]);
    assert!(day.from("06:23").is_possible("short-mended"), "what is offered is enough");
}

/// Six loads of 16 minutes behind one prove: the last stands 80 minutes.
#[test]
fn an_oven_too_small_names_the_step_and_the_minutes() {
    let day = Day::rolls().rolls_with("48 at a time", "8 at a time");
    has(&day.says("oven"), &["`bake` 6 of 6 would begin 1 h 20 min after `prove` ended", "`up to 2 h 5 min`"]);
    assert!(day.rolls_with("at 28 C", "at 28 C, up to 125 min").is_possible("oven-mended"));
}

/// The same behind a rest of 70 minutes: one length is offered for it, the one that is enough, and not a second that is rounded
/// and speaks of who is there.
#[test]
fn one_rest_is_offered_one_length() {
    let day = Day::rolls().rolls_with("48 at a time", "8 at a time").rolls_with("wait 45 min", "wait 70 min");
    let text = day.says("one-length");
    has(&text, &["`bake` 6 of 6 would begin 1 h 20 min after `prove` ended", "let `prove` go on: `up to 2 h 30 min`"]);
    assert_eq!(text.matches("let `prove` go on").count(), 1, "{text}");
    assert!(day.rolls_with("at 28 C", "at 28 C, up to 150 min").is_possible("one-length-mended"));
}

/// That the oven is needed for so long is no reason by itself: what may not wait so long is told beside it.
#[test]
fn an_oven_that_is_too_small_says_what_cannot_wait() {
    let rolls = "recipe Rolls\nmakes 30 rolls\nstrong white flour .... 1.5 kg\nwater .... 63 %\nsalt .... 2 %\ninstant yeast .... 1 %\n\
        divide 30 x 80 g, loss 3.6 %\nmix: hands 12 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
        rise: wait 60 min, at 25 C\nprove: wait 45-55 min, at 27 C\nbake: tend 15-17 min, using oven at 220 C, 15 at a time\n    until gold\n";
    let path = files("cannot-wait", &[("rolls.miche", rolls)]);
    let text = refused(&[&path], 1);
    has(
        &text,
        &["the `oven` is needed 34 min in all for `bake`; `bake` comes at most 10 min after `prove`", "7 min too much"],
    );
}

#[test]
fn opening_too_late_says_when_to_open() {
    let day = Day::rolls().kitchen_with("04:00-14:00", "08:00-14:00").from("05:00");
    has(&day.says("open"), &["opening hours, 08:00-14:00", "open at 06:00", "1 h 37 min later, at 10:37 on Saturday"]);
    assert!(day.kitchen_with("08:00", "06:00").is_possible("open-mended"));
}

#[test]
fn what_keeps_too_short_says_how_long_it_has_to() {
    let day = Day::of(&["make 20 of \"fritters.miche\""]);
    has(&day.says("keeps"), &["`fry` uses what `whisk` finishes, which keeps 30 min", "`keeps 50 min`"]);
}

#[test]
fn straight_after_and_within_say_what_to_write() {
    let day = Day::rolls()
        .rolls_with("bake: tend 16 min", "glaze: hands 2 min\nbake: tend 16 min, straight after prove, after glaze");
    has(&day.says("straight"), &["`bake` comes straight after `prove`", "`within 2 min`"]);
    let day = Day::rolls().rolls_with("bake: tend 16 min", "bake: tend 16 min, after prove, within 1 h after mix");
    has(&day.says("within"), &["come to 2 h 9 min: 1 h 9 min too much", "`within 2 h 9 min`"]);
    assert!(day.rolls_with("within 1 h", "within 129 min").is_possible("within-mended"));
}

/// A rest of ten hours ends when nobody is there; it could go on until the kitchen opens.
#[test]
fn a_rest_that_ends_at_night_is_let_go_on() {
    let day = Day::rolls().rolls_with("rise: wait 1 h, at 25 C", "rise: wait 1 h, at 25 C\nchill: wait 10 h, at 4 C");
    has(&day.says("night"), &["opening hours", "let `chill` go on until somebody is there: `up to "]);
    assert!(day.rolls_with("at 4 C", "at 4 C, up to 18 h").is_possible("night-mended"));
}

/// 300 rolls one by one are two and a half hours: the first stands too long.
#[test]
fn shaping_for_too_long_says_what_is_too_long() {
    let day = Day::of(&["make 300 of \"rolls.miche\""]).rolls_with("48 at a time", "300 at a time");
    let day = day.rolls_with("at 28 C", "at 28 C, up to 50 min");
    // It was said to be the first step that they prove 3 h 5 min instead of 50, which is enough and no mend where fewer can be made.
    let text = day.says("first");
    has(&text, &["for the first piece's sake", "`shape` (2 h 30 min)", "make 30 of the 300 rolls"]);
    assert!(!text.contains("3 h 5 min"), "{text}");
    assert!(Day { lines: day.lines.replace("300", "30"), ..day }.is_possible("first-mended"));
}

/// Ten hours of shaping in five: nothing by itself is enough, and the message says so.
#[test]
fn where_more_than_one_thing_stands_in_the_way_that_is_said() {
    let day = Day::of(&["make 300 of \"rolls.miche\""])
        .rolls_with("30 s, each", "2 min, each")
        .rolls_with("48 at a time", "300 at a time");
    has(&day.from("04:00").says("much"), &["`shape` (10 h)", "too much", "let two share `shape`", "`cooks 2`"]);
}

#[test]
fn a_cook_who_comes_too_late_or_leaves_too_early_is_named() {
    let day = Day::rolls().kitchen_with("cooks 1\n", "cook Mara 07:30-12:00\n").from("00:00");
    has(&day.says("late"), &["hours of those who work", "let Mara come at 06:00"]);
    assert!(day.kitchen_with("07:30", "06:00").is_possible("late-mended"));
}

#[test]
fn two_people_at_once_and_equipment_that_is_not_there_are_told_by_step() {
    let day = Day::rolls().rolls_with("30 s, each", "30 s, each, people 2");
    has(&day.says("two"), &["`shape` needs 2 people at once, but `Quay` has 1"]);
    let day = Day::rolls().kitchen_with("oven x 1\n", "");
    has(&day.says("none"), &["there is no `oven` in `Quay`, so `bake` cannot be planned", "add `oven x 1`"]);
    let day = Day::rolls().rolls_with("30 s, each", "15 min, each");
    has(&day.says("stretch"), &["`shape` takes 12 h at a stretch, but `Quay` is open 10 h a day"]);
}

/// A fold of 30 minutes at 170 of 180.
#[test]
fn work_that_does_not_fit_into_a_bulk_says_how_long_that_has_to_be() {
    let day = Day::rolls()
        .rolls_with("rise: wait 1 h, at 25 C", "bulk: wait 3 h, at 25 C\nfold: hands 30 min, 170 min into bulk");
    has(&day.says("fold"), &["20 min too much", "let `bulk` last 20 min longer; or do `fold` 20 min sooner"]);
    assert!(day.rolls_with("wait 3 h", "wait 200 min").is_possible("fold-mended"));
}

/// Two recipes with steps of one name: whose they are is said, and whose time is too short.
#[test]
fn steps_of_one_name_are_told_with_their_recipe() {
    let day = Day::of(&["make 48 of \"rolls.miche\"", "make 48 of \"buns.miche\""]).from("06:00");
    let text = day.says("names");
    has(&text, &["for 48 rolls of `Quay buns`", "`Quay buns` is wanted at 09:00", "`mix` (40 min)", "5 min too much"]);
}

/// Two orders alike, for which one oven is too little: one of them gives way. It has room for 48 rolls at a time.
#[test]
fn an_order_that_stands_there_twice_gives_way() {
    let day = Day::of(&["make 48 of \"rolls.miche\"", "make 48 of \"rolls.miche\""]);
    let text = day.says("twice");
    has(
        &text,
        &[
            "without this one there is a plan",
            "leave out one of the orders for 48 rolls of `Pier rolls`, which are alike",
        ],
    );
    assert_eq!(text.matches("leave out").count(), 1, "{text}");
    assert!(Day::rolls().is_possible("twice-mended"));
}

/// From 05:52 on the rolls are baked at 08:41 at the soonest and by 09:00, the buns by 09:05: 16 minutes each in one oven, which is
/// free before and after. Of the rolls as many as are shaped in 8 minutes less are ready 8 minutes sooner: 16 of them less.
#[test]
fn what_meets_in_an_oven_is_named_and_what_gives_way() {
    let orders = ["make 48 of \"rolls.miche\"", "make 48 of \"buns.miche\", ready 2027-04-17 09:05"];
    let late = "make 48 of \"rolls.miche\", ready 2027-04-17 12:00";
    // Both mix for 40 minutes here: 185 minutes in all.
    let all = |lines: &[&str]| {
        let day = Day::of(lines).kitchen_with("cooks 1", "cooks 3").kitchen_with("mixer x 1", "mixer x 3");
        day.rolls_with(", 48 at a time", "").rolls_with("12 min, using", "40 min, using").from("05:52")
    };
    let text = all(&[orders[0], orders[1], late]).says("meets");
    has(
        &text,
        &[
            "`bake` of `Pier rolls` and `bake` of `Quay buns` would need the `oven` at once, at 08:49 on Saturday",
            "leave out the 48 rolls of `Pier rolls` for 09:00 on Saturday",
            "leave out 48 rolls of `Quay buns`",
            "begin 8 min sooner, at 05:44",
            "make 32 of the 48 rolls of `Pier rolls`",
        ],
    );
    assert!(all(&["make 32 of \"rolls.miche\"", orders[1], late]).is_possible("meets-mended"));
}

/// What cannot be made even by itself is told by itself, and that the rest can be made without it.
#[test]
fn an_order_that_is_impossible_by_itself_is_told_by_itself() {
    let day = Day::of(&["make 20 of \"fritters.miche\"", "make 48 of \"rolls.miche\""]);
    let text = day.says("alone");
    has(
        &text,
        &["no plan for 20 fritters of `Fritters`, even with nothing else to make", "(`keeps 50 min`); or leave it out"],
    );
    assert!(!text.contains("Pier rolls"), "{text}");
}

/// A night bakehouse: what is alive and made at the end of the shift.
fn night() -> Day {
    let day =
        Day::rolls().kitchen_with("cooks 1\nopen 04:00-14:00", "cook Mara 22:00-06:00, rests 30 min\nopen 22:00-06:00");
    let sponge = "part sponge\nplain flour .... 1 kg\nwater .... 700 g\ndried yeast .... 2 g\nkeeps 1 day, chilled\n\
        stir: hands 5 min\n    Stir {plain flour}, {water} and {dried yeast}.\nripen: wait 10 h, at 20 C, up to 12 h\n    until domed\n\
        part dough\nsponge .... 300 g\n";
    day.rolls_with("plain flour .... 100 %", &format!("{sponge}plain flour .... 100 %"))
}

/// A sponge of ten to twelve hours that is stirred by 06:00 is ripe by 18:00, when nobody is there to put it into the fridge before 22:00.
#[test]
fn a_sponge_that_is_ripe_while_nobody_is_there_is_named() {
    let day = Day::of(&["make 48 of \"rolls.miche\", ready 2027-04-17 05:30"]);
    let day = Day { lines: day.lines, ..night() };
    let text = day.says("fridge");
    let all = [
        "`ripen` may go on for 12 h, until 18:00 on Friday",
        "nobody is there by then to put `sponge` into the cold",
        "let `ripen` go on until somebody is there: `up to 16 h`",
    ];
    has(&text, &all);
    assert!(day.rolls_with("up to 12 h", "up to 16 h").is_possible("fridge-mended"));
}

/// Rests that are over at noon, one of which would be taken up at ten in the evening: the rest and its minutes are named.
#[test]
fn a_rest_that_is_over_while_nobody_is_there_is_named() {
    let orders = Day::of(&["make 48 of \"rolls.miche\", ready 2027-04-17 05:30"]);
    let kitchen = |day: Day| {
        Day { lines: orders.lines.clone(), ..day }
            .kitchen_with("cooks 1\nopen 04:00-14:00", "cook Mara 22:00-06:00, rests 30 min\nopen 22:00-06:00")
    };
    let day = kitchen(Day::rolls().rolls_with("prove: wait 45 min, at 28 C", "prove: wait 14 h, at 20 C"));
    has(
        &day.says("over"),
        &["`prove` takes 14 h, and nobody is there when it is over", "let `prove` go on until somebody is there"],
    );
    // Of seven hours that was offered too, until the next night, before opening an hour and a half sooner was tried: that ruins no dough.
    let day = kitchen(Day::rolls().rolls_with("prove: wait 45 min, at 28 C", "prove: wait 7 h, at 20 C"));
    let text = day.says("over-sooner");
    has(&text, &["`prove` takes 7 h, and nobody is there when it is over", "let Mara come at 20:30, and open then"]);
    assert!(!text.contains("go on until somebody"), "{text}");
    // In a retarder, whose twelve hours are not enough: a day has 24 hours for it, whoever is there.
    let day =
        kitchen(Day::rolls().rolls_with("prove: wait 45 min, at 28 C", "retard: wait 10 h, using retarder at 5 C"));
    let day = day.rolls_with("48 at a time", "12 at a time");
    let text = day.says("retarder");
    has(&text, &["`bake` 4 of 4 would begin ", "after `retard` ended", "let `retard` go on: `up to "]);
    assert!(!text.contains("a day has"), "{text}");
}

/// Which step lies outside of the hours, and when; what most of the work is; what needs the oven.
#[test]
fn what_does_not_fit_is_named_with_its_minutes() {
    let day = Day::rolls().kitchen_with("04:00-14:00", "08:00-14:00").from("05:00");
    has(&day.says("hours"), &["opening hours, 08:00-14:00: `mix` would begin at 0"]);
    let day = Day::rolls().kitchen_with("cooks 1\n", "cook Mara 07:30-12:00\n").from("00:00");
    has(&day.says("shift"), &["hours of those who work: `mix` would begin at 0"]);
}

/// From 12 minutes of mixing to the end of an hour of slicing: ten hours and more, where nobody's hours are said and a day has ten.
#[test]
fn a_day_of_work_that_is_too_long_is_named_with_its_steps() {
    let day = Day::rolls()
        .rolls_with("rise: wait 1 h", "rise: wait 7 h 30 min")
        .rolls_with("    until gold\n", "    until gold\nslice: hands 1 h\n");
    let day = Day { lines: "make 48 of \"rolls.miche\", ready 2027-04-17 20:00\n".to_owned(), ..day };
    let day = day.kitchen_with("04:00-14:00", "04:00-20:00");
    let text = day.says_within("long-day", "2000 steps");
    has(
        &text,
        &["from `mix` to `slice` it is 10 h 7 min, and nobody works longer than 10 h a day", "(`longest 10 h 15 min`)"],
    );
    assert!(day.kitchen_with("cooks 1", "cooks 1\nlongest 615 min").is_possible("long-day-mended"));
}

/// A dough that is shaped at the end of a night stands twenty hours in the retarder before anybody is there: no second pair of hands helps.
#[test]
fn a_first_piece_that_waits_for_the_night_is_no_matter_of_hands() {
    let day =
        Day::rolls().kitchen_with("cooks 1\nopen 04:00-14:00", "cook Mara 22:00-06:00, rests 30 min\nopen 22:00-06:00");
    let day = day.rolls_with("rise: wait 1 h", "rise: wait 3 h");
    let day = day.rolls_with("prove: wait 45 min, at 28 C", "retard: wait 8 h, using retarder at 5 C, up to 12 h");
    let day = Day { lines: "make 48 of \"rolls.miche\", ready 2027-04-17 05:00\n".to_owned(), ..day };
    let text = day.says("first-night");
    assert!(text.contains("let `retard` go on ") && !text.contains("shared by"), "{text}");
}

/// A plan takes the shorter end of a range before there is none, so that is what is too much: 12 + 50 + 24 + 40 + 16 = 142 minutes in 140, and not
/// 157. Found by a head baker.
#[test]
fn what_is_too_much_counts_the_shorter_ends() {
    let day = Day::rolls().rolls_with("wait 1 h", "wait 50-60 min").rolls_with("wait 45 min", "wait 40-45 min");
    let day = day.from("06:40");
    has(
        &day.says("shorter-ends"),
        &["2 min too much", "begin 2 min sooner, at 06:38", "be ready 2 min later, at 09:02"],
    );
    assert!(day.from("06:38").is_possible("shorter-ends-mended"));
}

/// Four loads of one dough in the same night: one retarder more is not enough, and the least number that is, is offered.
#[test]
fn as_many_retarders_as_are_enough_are_offered() {
    let day = Day::rolls().rolls_with(
        "prove: wait 45 min, at 28 C",
        "retard: wait 16 h, using retarder at 4 C, up to 20 h, 12 at a time",
    );
    has(&day.says("retarders"), &["`retarder x 4`"]);
    let mended = day.kitchen_with("retarder x 1", "retarder x 4");
    assert!(mended.is_possible("retarders-mended"));
    assert!(!mended.kitchen_with("retarder x 4", "retarder x 3").is_possible("retarders-three"));
}

/// Closed on Sunday and Monday, bread for Tuesday 10:00: shaped on Saturday by 17:00 at the latest, hot at 05:00 on Tuesday; the second load is in
/// 40 min of baking and an hour of heating later. What helps is the rest in the cold that goes on, and who is away is said; not a levain that ripens
/// for eleven hours in the warm, with which bread would be of Saturday.
#[test]
fn over_days_of_rest_the_cold_rest_is_offered_and_who_is_away_said() {
    let kitchen = "kitchen Ash\ndeck oven x 1, holds 16 pieces, heating 60 min, agrees within 10 C\nmixer x 1, holds 25 kg\n\
        retarder x 1, holds 32 pieces\ncook Ash 04:00-12:00, rests 30 min, on Tue-Sat\ncook Elm 09:00-17:00, rests 30 min, on Tue-Sat\n\
        open 04:00-17:00\n";
    let stage = |name: &str, flour: &str, of: &str| {
        format!(
            "part {name}\nstrong white flour .... {flour}\nwater .... 100 %\n{of} .... 50 %\nfeed: hands 5 min\n    \
             Stir {{strong white flour}}, {{water}} and {{{of}}}.\nripen: wait 4-5 h, at 26 C, up to 7 h\n\n"
        )
    };
    let (first, second) = (stage("first", "210 g", "starter"), stage("second", "1.02 kg", "first"));
    let dough = "part dough\nstrong white flour .... 100 %\nwater .... 70 %\nsecond .... 20 %\nsalt .... 2.1 %\ndivide 32 x 750 g, loss 1.5 %\n\
        mix: hands 12 min, using mixer\n    Mix {strong white flour}, {water}, {second} and {salt}.\nbulk: wait 3 h, at 25 C, up to 4 h\n\
        fold: hands 4 min, 45 and 90 min into bulk\nshape: hands 45 s, each, shared by 2, may stand 20 min\n\
        retard: wait 10-12 h, using retarder at 5 C, up to 36 h\nbake: tend 40 min, using deck oven at 250 C then 220 C after 15 min, 16 at a time\n\
        \x20   until dark\ncool: wait 60 min\n";
    let loaves = format!("recipe Ash sourdough\nmakes 32 loaves\nuse \"kitchen.miche\"\n\n{first}{second}{dough}");
    let day = |rest: &str| {
        let day = "day Tuesday\nuse \"kitchen.miche\"\nready 2027-06-15 10:00\nmake 32 of \"loaves.miche\"\n";
        let loaves = loaves.replace("up to 36 h", rest);
        files("ash", &[("day.miche", day), ("loaves.miche", &loaves), ("kitchen.miche", kitchen)])
    };
    let text = said(&day("up to 36 h"));
    let away = "`bake` cannot come within 36 h of `retard`: that is 25 h 40 min too short, and nobody is there from 17:00 on Saturday to 04:00 on Tuesday";
    has(&text, &[away, "let `retard` go on 25 h 40 min longer: `up to 2 days 13 h 40 min`"]);
    assert!(miche(&[&day("up to 3700 min"), "--zone", "UTC"]).status.success());
    refused(&[&day("up to 3699 min"), "--zone", "UTC"], 1);
}

/// A day of buns that one person makes in eight hours and bakes by the dozen.
fn wharf(name: &str, lines: &str) -> String {
    let kitchen = "kitchen Wharf\noven x 1, heating 20 min, agrees within 10 C\nmixer x 1\ncook Uli 06:00-14:00\nopen 06:00-14:00\n";
    let buns = "recipe Wharf buns\nmakes 36 buns\nuse \"kitchen.miche\"\nstrong white flour .... 2 kg\nwater .... 60 %\nsalt .... 1.8 %\n\
        instant yeast .... 1.4 %\ndivide 36 x 88 g\nmix: hands 12 min, using mixer\nrise: wait 60 min, at 25 C, up to 90 min\n\
        shape: hands 15 s, each\nprove: wait 45 min, at 27 C, up to 80 min\nbake: tend 15 min, using oven at 200 C, 12 at a time\n    until gold\n";
    let day = format!("day Wharf\nuse \"kitchen.miche\"\nready 2027-06-14 11:00\n{lines}");
    files(name, &[("day.miche", &day), ("buns.miche", buns), ("kitchen.miche", kitchen)])
}

/// What is too much for one dough is offered in several, one ready so long before the next, and that is a plan; a prove of nights is not.
#[test]
fn a_large_order_is_offered_in_several_doughs() {
    let text = said(&wharf("wharf", "make 72 of \"buns.miche\"\n"));
    has(&text, &["make the 72 buns of `Wharf buns` in 2 doughs, 36 ready at 10:", "36 ready at 11:00 on Monday"]);
    let first = text.split("36 ready at ").nth(1).unwrap().split(' ').next().unwrap();
    let lines = format!("make 36 of \"buns.miche\", ready 2027-06-14 {first}\nmake 36 of \"buns.miche\"\n");
    assert!(miche(&[&wharf("wharf-two", &lines), "--zone", "UTC"]).status.success(), "{first}");
    // 144 of them for 09:00: no plan either way, and no bun rests the night at 27 °C.
    let many = wharf("wharf-many", "make 144 of \"buns.miche\", ready 2027-06-14 09:00\n");
    let text = said(&many);
    assert!(!text.contains("another dough of it"), "{text}");
}

/// What is in the store is no reason to offer nothing: of 48 with nine there fewer are offered, or several doughs, the nine with the first of them;
/// and of two orders for one time one is offered sooner.
#[test]
fn what_is_offered_counts_what_is_in_the_store_and_takes_one_order_sooner() {
    let store = "store 6 of \"buns.miche\", made 2027-06-14\n";
    let text = said(&wharf("stored", &format!("make 78 of \"buns.miche\"\n{store}")));
    has(&text, &["make the 78 buns of `Wharf buns` in 2 doughs, 42 ready at 10:", "36 ready at 11:00 on Monday"]);
    let first = text.split("42 ready at ").nth(1).unwrap().split(' ').next().unwrap();
    let lines = format!("make 42 of \"buns.miche\", ready 2027-06-14 {first}\nmake 36 of \"buns.miche\"\n{store}");
    assert!(miche(&[&wharf("stored-two", &lines), "--zone", "UTC"]).status.success(), "{first}");
    let text = said(&wharf("together", "make 36 of \"buns.miche\"\nmake 36 of \"buns.miche\"\n"));
    let sooner = text.split("want the 36 buns of `Wharf buns` ").nth(1).unwrap_or_else(|| panic!("{text}"));
    let at = sooner.split(", at ").nth(1).unwrap().split(' ').next().unwrap();
    let lines = format!("make 36 of \"buns.miche\", ready 2027-06-14 {at}\nmake 36 of \"buns.miche\"\n");
    assert!(miche(&[&wharf("one-sooner", &lines), "--zone", "UTC"]).status.success(), "{at}");
    // At nine neither is ready: in two doughs they are as much later as is said.
    let text = said(&wharf("later", "make 72 of \"buns.miche\", ready 2027-06-14 09:00\n"));
    let later = text.split("in 2 doughs, ").nth(1).unwrap_or_else(|| panic!("{text}"));
    let at = |which: usize| later.split(" ready at ").nth(which).unwrap().split(' ').next().unwrap();
    let (one, two) = (at(1), at(2));
    assert!(later.contains(" later: 36 ready at") && one < two && two > "09:00", "{later}");
    let lines = format!(
        "make 36 of \"buns.miche\", ready 2027-06-14 {one}\nmake 36 of \"buns.miche\", ready 2027-06-14 {two}\n"
    );
    assert!(miche(&[&wharf("later-two", &lines), "--zone", "UTC"]).status.success(), "{later}");
}

/// A hundred and twenty pieces for eight hours do not go into a retarder of eighty: that is said, and not for how long it would be needed.
#[test]
fn what_does_not_go_in_at_once_is_counted_in_pieces() {
    let kitchen = "kitchen Quay\noven x 2\nmixer x 1\nprover x 1, holds 80 pieces\ncooks 2\nopen 04:00-14:00\n";
    let rolls = ROLLS.replace("48 rolls", "120 rolls").replace("divide 48", "divide 120");
    let rolls = rolls.replace("shape: hands 30 s, each", "shape: hands 6 s, each");
    let rolls = rolls
        .replace("prove: wait 45 min", "prove: wait 45 min, using prover")
        .replace("48 at a time", "120 at a time");
    let day = "day Quay\nuse \"kitchen.miche\"\nready 2027-06-14 09:00\nmake 120 of \"rolls.miche\"\n";
    let day = files("pieces", &[("day.miche", day), ("rolls.miche", &rolls), ("kitchen.miche", kitchen)]);
    let text = said(&day);
    has(&text, &["at once", "120 pieces, and it holds 80"]);
    assert!(!text.contains("in all"), "{text}");
}
