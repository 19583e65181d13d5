//! A day's parts of which some is in the store, or some is taken before the last steps: what is made, used and left of them.

use super::{Bench, part};
use serde_json::Value;

const JELLY: &str = "recipe Jelly glasses\nmakes 10 glasses\npart jelly\napple juice .. 1.1 kg\ngelatine .. 20 g\nSPARE\nkeeps 3 days, chilled\n\
    warm: tend 10 min, using hob\n    Warm {apple juice} and {gelatine}.\n    until dissolved\npart glasses\nper piece\njelly .. 100 g\n\
    fill: hands 20 s, each\n    Fill with {jelly}.\n";

fn day(jelly: &str) -> Bench {
    let day = "day Jelly day\nready 2027-03-14 15:00\nmake 10 of \"jelly.miche\"\nstore 500 g of jelly of \"jelly.miche\", made 2027-03-13\n";
    Bench::of(&[("jelly.miche", jelly), ("day.miche", day)])
}

fn balance(cards: &Value, name: &str) -> (f64, f64, f64) {
    let all = cards.as_array().unwrap().iter();
    let one = all.flat_map(|card| card["parts"].as_array().unwrap()).find(|part| part["name"] == name).unwrap();
    let figure = |key: &str| (one["balance"][key].as_f64().unwrap() * 100.0).round() / 100.0;
    (figure("makes_g"), figure("used_g"), figure("left_g"))
}

/// The glasses take 1000 g, of which 500 g are there: what is made is used, but for what is meant to be left over.
#[test]
fn what_tops_up_a_store_is_used() {
    let bench = day(&JELLY.replace("SPARE\n", ""));
    assert_eq!(balance(&bench.json(&["card", "day.miche"]), "jelly"), (500.0, 500.0, 0.0));
    let bench = day(&JELLY.replace("SPARE", "spare 100 g"));
    assert_eq!(balance(&bench.json(&["card", "day.miche"]), "jelly"), (600.0, 500.0, 100.0));
    // Half of it is there: the cost says how much it leaves out.
    let (_, cost, _) = bench.run(&["cost", "--format", "text", "day.miche"]);
    assert!(cost.contains("comes from the store: 500 g of jelly."), "{cost}");
}

const DOUGH: &str = "recipe Base dough\nmakes 2 kg\npart base dough\nstrong white flour .. 1.2 kg\nwater .. 750 g\nsalt .. 24 g\n\
    instant yeast .. 10 g\negg .. 40 g, beaten\nmakes 2 kg, loss 1.2 % of everything\nkeeps 1 day, chilled\nmix: hands 10 min, using mixer\n\
    \x20   Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nchill: wait 8 h, at 4 C, up to 20 h\n\
    brush: hands 1 min\n    Brush with {egg}.\n";
const RINGS: &str = "recipe Onion rings\nmakes 12 rings\nuse \"dough.miche\"\npart rings\nper piece\nbase dough .. 90 g, before brush\n\
    onion .. 20 g\nshape: hands 20 s, each\n    Shape {base dough} with {onion}.\n";
const KNOTS: &str = "recipe Egg knots\nmakes 10 knots\nuse \"dough.miche\"\npart knots\npercent of base dough\nbase dough .. 1 kg\n\
    caraway .. 2 %\ndivide 10 x 100 g, loss 2 %\nshape: hands 20 s, each\n    Knot {base dough} with {caraway}.\n";

fn shared(store: &str) -> Bench {
    let day =
        format!("day Friday\nready 2027-03-14 15:00\nmake 24 of \"rings.miche\"\nmake 30 of \"knots.miche\"\n{store}");
    Bench::of(&[("dough.miche", DOUGH), ("rings.miche", RINGS), ("knots.miche", KNOTS), ("day.miche", &day)])
}

/// The rings take 2160 g before the egg and the knots 3000 g with it. Of 900 g in the store 1260 g are left to make for the rings: with the
/// egg, 2024 g of which are 1984 g without, 4260 g come out in all.
#[test]
fn what_is_there_replaces_what_is_taken_before_the_last_steps() {
    for (store, wanted) in [("", 5160.0), ("store 900 g of base dough of \"dough.miche\", made 2027-03-13\n", 4260.0)] {
        let cards = shared(store).json(&["card", "day.miche"]);
        let dough = part(&cards[0], "base dough");
        let all: f64 = dough["lines"].as_array().unwrap().iter().map(|line| line["grams"].as_f64().unwrap()).sum();
        // Of 2024 g that go in 2000 g come out; the egg is 60 g, for the knots alone.
        assert!((all * 2000.0 / 2024.0 - wanted).abs() < 0.5, "{store}: {} g for {wanted} g", all * 2000.0 / 2024.0);
        let (_, card, _) = shared(store).run(&["card", "--format", "text", "day.miche"]);
        assert!(card.contains("Brush with 60 g egg."), "{card}");
        let before = if store.is_empty() { "after 2160 g are taken out" } else { "after 1260 g are taken out" };
        assert!(card.contains(before), "{card}");
    }
}

/// 48 shells are twice the 24 that are written, whatever paste is there for them.
#[test]
fn a_day_is_so_many_times_the_recipe_as_it_has_pieces() {
    let shells = "recipe Shells\nmakes 24 shells\npart paste\nplain flour .. 400 g\nbutter .. 60 %\nsugar .. 20 %\ndivide 24 x 30 g\n\
        mix: hands 5 min\n    Rub {butter} into {plain flour} and {sugar}.\npart shells\nper piece\npaste .. 1 piece\ncream .. 20 g\n\
        fill: hands 10 s, each\n    Fill {paste} with {cream}.\n";
    let day = "day Friday\nready 2027-03-14 15:00\nmake 48 of \"shells.miche\"\nstore 20 of paste of \"shells.miche\", made 2027-03-13\n";
    let bench = Bench::of(&[("shells.miche", shells), ("day.miche", day)]);
    let cards = bench.json(&["card", "day.miche"]);
    assert_eq!(cards[0]["factor"], 2, "{:#}", cards[0]["factor"]);
}

/// A weight of dough that is no whole number of loaves names the weights that are.
#[test]
fn a_weight_that_is_no_whole_number_of_pieces_names_those_that_are() {
    let loaf = "recipe Loaf\nmakes 4 loaves\npart dough\nstrong white flour .. 2 kg\nwater .. 1.26 kg\nsalt .. 40 g\ninstant yeast .. 20 g\n\
        divide 4 x 815 g, loss 1.8 %\nmix: hands 12 min\n    Mix.\n    until smooth\nshape: hands 40 s, each\n";
    let day = "day Friday\nready 2027-03-14 15:00\nmake 3 kg of dough of \"loaf.miche\"\n";
    let (_, told, problems) = Bench::of(&[("loaf.miche", loaf), ("day.miche", day)]).run(&["card", "day.miche"]);
    let told = format!("{told}{problems}");
    assert!(told.contains("ask for 2445 g (3 pieces) or 3260 g (4 pieces)"), "{told}");
    // Of it rolls are made by weight before anybody shapes it: nothing is divided, and 90 g bake for 18 minutes.
    let rolls = "recipe Rolls\nmakes 12 rolls\nuse \"loaf.miche\"\npart rolls\nper piece\ndough .. 90 g, before shape\nlinseed .. 4 g\n\
        roll: hands 30 s, each\n    Roll {dough} in {linseed}.\nprove: wait 45 min, at 27 C\n    until puffy\n\
        bake: tend 18 min, using oven at 220 C, 12 at a time\n    until brown\n";
    let bench = Bench::of(&[("loaf.miche", loaf), ("rolls.miche", rolls)]);
    let (_, card, _) = bench.run(&["card", "--format", "text", "rolls.miche"]);
    assert!(!card.contains("divide") && card.contains("makes 1080 g"), "{card}");
    let (_, told, problems) = bench.run(&["check", "rolls.miche"]);
    assert!(!format!("{told}{problems}").contains("odd-bake-time"), "{told}{problems}");
}
