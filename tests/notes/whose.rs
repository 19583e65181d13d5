//! Whose a time, a heat, an amount or a country's measure is: what two readers of notes found given to the wrong thing.
//!
//! The notes are of our own making, after those in which it was found; how people write so is common practice, no source.

use super::told::{gives, gives_but};
use super::{holds, sound};
use miche::model::notes::{Form, read};

/// What a note of one line below a short list becomes.
fn told(line: &str) -> String {
    sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n4 eggs\n\n{line}\n")).text
}

#[test]
fn a_heat_is_that_of_its_own_sentence_and_act() {
    gives_but(
        told,
        &[
            ("Add the eggs when 60C, pipe, bake 20 min at 190.", "bake: tend 20 min, using oven\n", "oven at 60"),
            ("Eggs in when 60C. Pipe, bake 20' at 190.", "bake: tend 20 min, using oven\n", "oven at 60"),
            ("Salt, leave 3 hours. Rinse. Bring back to 80C, jar.", "rest: wait 3 h\n", "at 80 C\n"),
            ("Whisk the whites, coat, 150c 25m.", "bake: tend 25 min, using oven at 150 C", "whisk: hands"),
            ("Roll 6mm. 175C top/bottom heat, 12-14 mins.", "bake: tend 12-14 min, using oven at 175 C", "heat: hands"),
            ("Preheat the oven to 200C. Roast for 45 minutes.", "roast: tend 45 min, using oven at 200 C", "preheat:"),
            ("Bake 20 min at 220C, cool to 30C.", "bake: tend 20 min, using oven at 220 C", "at 30 C"),
            ("Whisk 12 mins til 40C.", "whisk: hands 12 min\n", "wait"),
        ],
    );
    // What was not taken is asked about.
    let asked = "# look (C or F is not said";
    gives(
        told,
        &[
            ("Bake 180fan for 22 mins.", asked),
            ("bake 240 falling to 210, 40 min total", asked),
            ("Add the eggs when 60C, pipe, bake 20 min at 190.", asked),
            ("Salt, leave 3 hours. Rinse. Bring back to 80C, jar.", "80 C seems to be said of something else"),
        ],
    );
    assert!(told("Bulk 3h @ 24, shape, retard 12h @ 4").matches("C or F is not said").count() == 2);
}

#[test]
fn a_time_is_never_that_of_a_later_sentence() {
    gives_but(
        told,
        &[
            ("Almonds on top. 35-40 mins @ 170. Cool in tin.", "bake: tend 35-40 min, using oven\n", "cool: wait"),
            ("Gas 7, 12-15 mins.", "bake: tend 12-15 min, using oven\n", "gas: hands"),
            (
                "Bake 30 min at gas 6 then 1 1/2 hr at gas 3. Cool.",
                "second bake: tend 1 1/2 h, using oven, straight after bake",
                "cool: wait",
            ),
            ("1 hr at 75F then shape", "note 1 hr at {75 F} then shape", "shape: hands"),
            ("fold every 30 min for 2 h", "note fold every 30 min for 2 h", "fold: hands"),
            (
                "Bake 15 min, turn, 15 min more.",
                "second bake: tend 15 min, using oven, straight after bake",
                "turn: hands",
            ),
            (
                "Bake 10 minutes at 250C, reduce to 200C for 35 minutes.",
                "second bake: tend 35 min, using oven at 200 C, straight after bake",
                "reduce: tend",
            ),
            ("Whites to peaks; fold. A ladle each, 4-5 min.", "note Whites to peaks", "fold: hands"),
            ("Rest 20 min twice.", "note Rest 20 min twice.", "rest: wait 20 min"),
            ("Rest the dough 2-8 wks at 10 C. Roll. 175C, 12 mins.", "rest: wait 2-8 weeks, at 10 C", "roll: hands"),
        ],
    );
    assert!(told("Gas 7, 12-15 mins.").contains("how hot is gas 7?"));
}

#[test]
fn a_time_in_words_is_whole() {
    gives(
        told,
        &[
            ("Rest one and a half hours.", "rest: wait 1.5 h"),
            ("Rest two to three hours.", "rest: wait 2-3 h"),
            ("Rest a couple of hours.", "rest: wait 2 h"),
            ("Bake for twenty minutes at 200 C.", "bake: tend 20 min, using oven at 200 C"),
            ("Rest two and three quarters hours.", "rest: wait 2.75 h"),
        ],
    );
    assert!(told("Rest a couple of hours.").contains("a couple is read as 2"));
}

#[test]
fn a_recipe_in_one_line_has_its_amounts_before_its_things() {
    let made = sound(
        "Quay ketchup. 3kg ripe plums, 350 g onions, 2 red peppers, 200ml malt vinegar, 25 g salt, 6 cloves. Simmer veg 1hr, \
         sieve, reduce 90 min. Bottle.\n",
    );
    holds(
        &made,
        &[
            "recipe Quay ketchup",
            "plums .. 3 kg, ripe",
            "onions .. 350 g",
            "red peppers .. 2",
            "malt vinegar .. 200 ml",
            "salt .. 25 g",
            "cloves .. 6",
            "simmer: tend 1 h",
            "reduce: tend 90 min",
        ],
    );
    holds(
        &sound("Quay sauce: 3kg plums, 350 g onions, 25 g salt\n"),
        &["recipe Quay sauce", "plums .. 3 kg", "salt .. 25 g"],
    );
}

#[test]
fn a_part_is_taken_in_many_words_and_no_second_one_begins() {
    for line in [
        "the sour",
        "half the sour",
        "remaining sour",
        "sour from above",
        "sour (keep 40 g back)",
        "all sour",
        "all sour less 30 g",
    ] {
        let text = sound(&format!(
            "Rye bread\n\nSour:\n200 g rye flour\n200 g water\n\nMain dough:\n{line}\n500 g flour\n14 g salt\n"
        ))
        .text;
        assert_eq!(text.matches("\npart ").count(), 2, "{line}\n{text}");
        let taken = text.lines().find(|row| row.starts_with("sour .") && row.contains(" all")).unwrap_or_default();
        assert!(taken.contains("# look") && text.contains("flour ......................... 500 g"), "{line}\n{text}");
        assert_eq!(
            text.contains("but this takes all of"),
            line.contains(['4', '3']) || line.contains("half") || line.contains("rem"),
            "{line}\n{text}"
        );
    }
    let dated = sound("Rye\n\nSOUR day 1, 18:00\n300 g rye flour\n300 g water\n\nDOUGH\nall sour\n450 g flour\n");
    holds(&dated, &["part sour", "part dough", "sour .. all"]);
}

#[test]
fn what_is_not_sure_is_marked() {
    for (line, wanted) in [
        ("ground beef 80/20 500 g", "ground beef .. 500 g, 80/20"),
        ("salt 1 tsp heaped", "salt .. 1 tsp, heaped"),
        ("1 - 1/2 cups sugar", "sugar .. 1 1/2 cups"),
        ("480 ml water + milk half-half", "water .. 480 ml, + milk half-half"),
        ("flour 500 100%", "flour .. 100 % = 500"),
        ("bread flour 100% 1000", "bread flour .. 100 % = 1000"),
        ("50/50 icing sugar & cornflour, 100 g", "50/50 icing sugar & cornflour .. 100 g"),
    ] {
        let made = sound(&format!("Quay cake\n\n50 g butter\n{line}\n40 g nuts\n"));
        holds(&made, &[wanted]);
        let begins = wanted.split(" ..").next().unwrap_or_default();
        let row = made.text.lines().find(|row| row.starts_with(begins)).unwrap_or_default();
        assert!(row.contains("# look"), "{line}\n{}", made.text);
    }
    let salted = sound("Kraut\n1.8 kg cabbage\nsea salt 90g (5%)\n1 tbsp rice flour\n").text;
    assert!(salted.contains("90 g, 5 %") && salted.contains("# look (5 % of what?)"), "{salted}");
    let stock = sound("Stock\nVeg scraps: 300 leek, 300 carrot, 200 celeriac\nsalt 200 g\n").text;
    assert!(stock.contains("# look (figures stand in these words") && stock.contains("note Veg scraps"), "{stock}");
}

#[test]
fn what_is_sure_is_not_cut() {
    let list = |line: &str| sound(&format!("Quay cake\n\n1 kg flour\n{line}\n40 g nuts\n"));
    holds(&list("water @ 30C 300 g"), &["water .. 300 g, at 30 C"]);
    holds(&list("1 c. à s. oil"), &["oil .. 1 tbsp"]);
    holds(
        &list("1 cup plus 2 tablespoons (270 ml) whole milk"),
        &["whole milk .. 1 cup 2 tbsp = 270 ml", "measures US"],
    );
    holds(&sound("Quay bread\n\nflour,1000,g\nwater,650,g\nsalt,20,g\n"), &["flour .. 1000 g", "salt .. 20 g"]);
}

#[test]
fn the_country_is_told_by_its_oven_too() {
    let scones = sound("Scones\n8 oz flour\n1/4 pt milk\nBake at gas 7, 12-15 mins.\n");
    holds(&scones, &["measures imperial"]);
    // A grill that burns gas is American as well.
    let grilled = sound("Flatbread\n8 oz flour\n1/4 pt milk\nGrill 5 min on a gas grill.\n");
    holds(&grilled, &["measures US"]);
}

#[test]
fn what_ripens_does_not_keep() {
    let kraut = |line: &str| sound(&format!("Kraut\n\n1 kg cabbage\n20 g salt\n\nMix 5 min. {line}\n")).text;
    assert!(!kraut("Best after 2 weeks, good for 3 months.").contains("keeps 2 weeks"));
    assert!(!kraut("Keep 6 weeks before eating.").contains("\nkeeps"));
    assert!(kraut("Keeps 3 wks.").contains("keeps 3 weeks"));
}

#[test]
fn a_title_says_more_than_a_name() {
    holds(&sound("Samosas, makes 16\n\n250 g flour\n80 ml water\n"), &["recipe Samosas", "makes 16 pieces"]);
    holds(&sound("Oat caramel - 1 jar\n\n200 g sugar\n250 ml cream\n"), &["recipe Oat caramel", "makes 1 jar"]);
    holds(
        &sound("Apple butter, US style\n5 lbs apples\n2 cups cider\n"),
        &["recipe Apple butter US style", "apples .. 5 lb"],
    );
    holds(&sound("5 seed bread\n\n500 g flour\n300 g water\n"), &["recipe 5 seed bread"]);
    let served = sound(
        "# Quay pie\n**Serves:** 6-8 | **Prep:** 40 mins\n### Ingredients\n- 900g potatoes\n- 200 g feta\n### Method\n1. Bake 30 minutes.\n",
    );
    holds(&served, &["makes 6 portions"]);
    assert!(served.text.contains("# look (the smaller figure is taken"), "{}", served.text);
}

#[test]
fn a_page_with_a_cup_and_spoons_more_is_of_its_own_country() {
    let data = r#"{"@type":"Recipe","name":"Quay ring","recipeIngredient":["3 1/4 cups (405 g) bread flour","1 cup plus 2 tablespoons (270 ml) whole milk"]}"#;
    let made = read(data, Form::Data, None, "x").expect("a recipe");
    holds(&made, &["measures US", "whole milk .. 1 cup 2 tbsp = 270 ml"]);
}
