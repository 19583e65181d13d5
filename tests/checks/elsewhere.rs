//! What is drawn of another file, and what lies in a part of its own, is asked as if all stood in one: FDA Food Code 3-401.11 (poultry, raw egg) and
//! 3-501.16 (cold holding) know of no files (from memory); that dough wants an oven is common practice, no source.

use super::{problems_of, told};

const MIX: &str = "=== mix.miche ===\nrecipe House mix\n\npart raw mix\nchicken breast .... 1000 g, minced\negg .... 100 g\nsalt .... 12 g\nkeeps 1 day, chilled\n\
                   caution It is raw: cook it through.\nmix: hands 5 min\n    Mix {chicken breast}, {egg} and {salt}.\n\npart dough\nstrong white flour .... 500 g\n\
                   water .... 300 g\nsalt .... 9 g\ninstant yeast .... 5 g\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    \
                   until smooth\nrise: wait 1 h, at 26 C\n\npart custard\nwhole milk .... 1000 g\negg yolk .... 200 g\ncaster sugar .... 200 g\ncornflour .... 80 g\n\
                   cook: tend 8 min, using hob\n    Cook {whole milk}, {egg yolk}, {caster sugar} and {cornflour}.\n    until it boils\n";

/// A dish of one piece a part that draws on the other file.
fn dish(lines: &str, steps: &str) -> String {
    format!("recipe Cups\nmakes 12 cups\nuse \"mix.miche\"\n\npart cups\nper piece\n{lines}\n\n{steps}\n{MIX}")
}

fn has(text: &str, check: &str, words: &str) -> bool {
    problems_of(text).iter().any(|problem| problem.check == check && problem.message.contains(words))
}

#[test]
fn what_nothing_cooks_is_told_in_the_dish_that_eats_it() {
    let laid = dish(
        "raw mix .... 90 g\nladyfingers .... 20 g",
        "layer: hands 20 s, each\n    Layer {raw mix} with {ladyfingers}.",
    );
    assert!(has(&laid, "raw-meat", "`chicken breast`"), "{}", told(&problems_of(&laid)));
    assert!(has(&laid, "raw-flour-or-egg", "`egg`"), "{}", told(&problems_of(&laid)));
    // It is told on the line of this file.
    let at = laid.find("raw mix ....").expect("it is there");
    let problems = problems_of(&laid);
    let problem = problems.iter().find(|problem| problem.check == "raw-meat").expect("it is told");
    assert_eq!(problem.span.start as usize, at);
    let baked = |sign: &str| {
        dish(
            "raw mix .... 90 g\ndough .... 50 g",
            &format!(
                "wrap: hands 20 s, each\n    Wrap {{raw mix}} in {{dough}}.\nprove: wait 30 min, at 26 C\n    until puffy\nbake: tend 25 min, using oven at 210 C\n    \
                 until {sign}"
            ),
        )
    };
    assert!(has(&baked("brown"), "raw-meat", "goes raw into the oven"), "{}", told(&problems_of(&baked("brown"))));
    assert!(!has(&baked("{95 C} inside"), "raw-meat", ""), "{}", told(&problems_of(&baked("{95 C} inside"))));
    // Of what is not taken nobody eats.
    let custard = dish(
        "custard .... 100 g\nladyfingers .... 20 g",
        "layer: hands 20 s, each\n    Layer {custard} with {ladyfingers}.",
    );
    assert!(
        !has(&custard, "raw-meat", "") && !has(&custard, "raw-flour-or-egg", ""),
        "{}",
        told(&problems_of(&custard))
    );
}

#[test]
fn a_dough_of_another_file_wants_an_oven_too() {
    let steps = "shape: hands 20 s, each\n    Round {dough}.\nprove: wait 40 min, at 26 C\n    until puffy";
    let never = dish("dough .... 80 g", steps);
    assert!(has(&never, "no-bake", ""), "{}", told(&problems_of(&never)));
    let baked = dish("dough .... 80 g", &format!("{steps}\nbake: tend 15 min, using oven at 220 C\n    until gold"));
    assert!(!has(&baked, "no-bake", ""), "{}", told(&problems_of(&baked)));
}

/// It is for who works on with the part, and says nothing to who eats the dish.
#[test]
fn a_caution_to_cook_it_answers_for_no_dish_in_which_it_is_raw() {
    let one = |caution: &str| {
        format!(
            "recipe Cups\nmakes 12 cups\n\npart mix\nchicken breast .... 1000 g, minced\nsalt .... 12 g\n{caution}mix: hands 5 min\n    Mix {{chicken breast}} and {{salt}}.\n\n\
             part cups\nper piece\nmix .... 90 g\nladyfingers .... 20 g\n\nlayer: hands 20 s, each\n    Layer {{mix}} with {{ladyfingers}}.\n"
        )
    };
    assert!(has(&one(""), "raw-meat", ""));
    assert!(has(&one("caution It is raw: cook it through.\n"), "raw-meat", ""));
    assert!(!has(&one("caution Served raw: not for children and pregnant women.\n"), "raw-meat", ""));
}

#[test]
fn what_spoils_in_a_part_of_its_own_spoils_on_the_shelf() {
    let slices = |keeps: &str, cream: &str| {
        format!(
            "recipe Cream slices\nmakes 12 portions\n\npart cream\n{cream}\n\npart slices\ncream .... all\nladyfingers .... 350 g\nkeeps {keeps}\n\nlayer: hands 12 min\n    Layer \
             {{cream}} with {{ladyfingers}}.\n"
        )
    };
    let cream = "mascarpone .... 750 g\nwhipping cream .... 300 g\n\nwhip: hands 5 min\n    Whip {mascarpone} and {whipping cream}.";
    let salad = "cooked chicken .... 750 g\nmayonnaise .... 300 g\n\nmix: hands 5 min\n    Mix {cooked chicken} and {mayonnaise}.";
    let boiled = "whole milk .... 700 g\negg yolk .... 140 g\ncaster sugar .... 140 g\ncornflour .... 60 g\n\ncook: tend 8 min, using hob\n    Cook {whole milk}, {egg yolk}, \
                  {caster sugar} and {cornflour}.\n    until it boils";
    let jam = "raspberry .... 500 g\ncaster sugar .... 900 g\n\nboil: tend 12 min, using hob\n    Boil {raspberry} and {caster sugar} to {105 C}.";
    let ganache = "dark chocolate .... 700 g\nwhipping cream .... 350 g, hot\n\nmelt: hands 5 min\n    Pour {whipping cream} on {dark chocolate}.";
    for spoils in [cream, salad, boiled] {
        for warm in ["5 days, at 20 C", "5 days"] {
            let text = slices(warm, spoils);
            assert!(has(&text, "shelf-storage", "slices"), "{warm}: {spoils}\n{}", told(&problems_of(&text)));
        }
        let text = slices("2 days, chilled", spoils);
        assert!(!has(&text, "shelf-storage", ""), "{spoils}\n{}", told(&problems_of(&text)));
    }
    for keeps in [jam, ganache] {
        let text = slices("2 days, at 18 C", keeps);
        assert!(!has(&text, "shelf-storage", ""), "{keeps}\n{}", told(&problems_of(&text)));
    }
}

/// What may stand in is held against what the title says, by what is in it: a larder's entry, or a part.
#[test]
fn what_may_stand_in_breaks_a_claim() {
    let cups = |stands_in: &str| {
        format!(
            "recipe Egg-free cups\nmakes 12 cups\n\npart cups\nper piece\npotato .... 20 g, instead: {stands_in} 20 g, richer\n\nbake: tend 20 min, using oven at 200 C\n    \
             Bake {{potato}}.\n    until brown\n"
        )
    };
    assert!(has(&cups("mayonnaise"), "hidden-allergen", "egg"), "{}", told(&problems_of(&cups("mayonnaise"))));
    assert!(!has(&cups("sweet potato"), "hidden-allergen", ""), "{}", told(&problems_of(&cups("sweet potato"))));
}
