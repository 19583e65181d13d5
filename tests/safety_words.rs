//! Words that only begin like a word that makes food safe: each of them once kept a check of safety silent, or a denied word did. Findings of a
//! review; the formulas are invented. What is safe is common practice: FDA Food Code 3-501.16, 3-501.19 and 3-401.11 (from memory).

#![allow(clippy::expect_used, clippy::panic)]

#[path = "examples/one_file.rs"]
mod one_file;

use one_file::said;

fn check(text: &str) -> String {
    said(text, &["check", "a.miche"])
}

fn tartare(directions: &str) -> String {
    let lines = "beef mince .... 400 g\ncapers .... 30 g\nsalt .... 6 g\nmix: hands 10 min\n    Mix {beef mince}, {capers} and {salt}.\n    until even\n";
    format!("recipe Beef tartare\nmakes 4 pots\ndirections {directions}\n{lines}")
}

#[test]
fn only_directions_to_cook_make_raw_meat_the_buyers() {
    for raw in [
        "Serve cold.",
        "Serve cold, with toast.",
        "Serve with roast potatoes.",
        "Serve on grilled bread.",
        "Do not cook.",
        "Do not bake, fry or grill.",
    ] {
        assert!(check(&tartare(raw)).contains("raw-meat"), "{raw}");
    }
    for cooked in [
        "Fry for 4 min on each side.",
        "Shape, then grill until done.",
        "Cook thoroughly before eating.",
        "Thaw before cooking.",
    ] {
        assert!(!check(&tartare(cooked)).contains("raw-meat"), "{cooked}: {}", check(&tartare(cooked)));
    }
}

fn cookie_dough(directions: &str) -> String {
    let lines = "plain flour .... 300 g\nbutter .... 150 g\nsugar .... 150 g\nsalt .... 3 g\nmix: hands 10 min\n    \
                 Mix {plain flour}, {butter}, {sugar} and {salt}.\n    until even\n";
    format!("recipe Cookie dough\nmakes 4 tubs\ndirections {directions}\n{lines}")
}

#[test]
fn only_directions_to_heat_make_raw_flour_a_dough_to_bake() {
    for raw in [
        "Eat straight from the tub.",
        "Eat this cookie dough straight from the tub.",
        "Serve cold, with panna cotta.",
        "Spoon onto pancakes.",
        "Eat as it is. Do not bake.",
        "Eat cold. Keep away from heat.",
        "Eat with a spoon, no oven needed.",
    ] {
        assert!(check(&cookie_dough(raw)).contains("raw-flour-or-egg"), "{raw}: {}", check(&cookie_dough(raw)));
    }
    for heated in [
        "Spoon onto a tray and bake for 12 min.",
        "12 min in the oven at 180 °C, then serve.",
        "Heat until gold and serve.",
    ] {
        assert!(
            !check(&cookie_dough(heated)).contains("raw-flour-or-egg"),
            "{heated}: {}",
            check(&cookie_dough(heated))
        );
    }
}

/// Of what dries: nitrite lowers how much salt that wants, and keeps nothing that only lies in its cure.
fn cured(line: &str) -> String {
    format!(
        "recipe Dried salmon\nsalmon .... 1 kg\nsalt .... 20 g\n{line}\ndry: wait 40 h, at 20 C\n    Rub {{salmon}} with {{salt}} and {{{}}}.\n    until firm\n",
        line.split(" ....").next().expect("a name")
    )
}

#[test]
fn what_is_pink_is_no_curing_salt() {
    for other in [
        "pink peppercorns .... 5 g",
        "pink grapefruit .... 50 g",
        "Himalayan pink salt .... 2 g",
        "pink salt .... 2 g",
        "nitrite-free salt .... 2 g",
        "instant coffee .... 2 g",
    ] {
        assert!(check(&cured(other)).contains("left-warm"), "{other}: {}", check(&cured(other)));
    }
    for curing in [
        "curing salt .... 2.5 g",
        "nitrite salt .... 20 g",
        "saltpetre .... 0.3 g",
        "saltpeter .... 0.3 g",
        "prague powder .... 2.4 g",
        "cure no. 1 .... 2.4 g",
    ] {
        assert!(!check(&cured(curing)).contains("left-warm"), "{curing}: {}", check(&cured(curing)));
    }
}

/// Of something that keeps by itself for hours: boiled potatoes do not (FDA Food Code 1-201.10, a plant food that is heat-treated; from memory).
fn left(line: &str) -> String {
    let name = line.split(" ....").next().expect("a name");
    format!(
        "recipe Roots\nbeetroot .... 1 kg\n{line}\nboil: tend 30 min, using hob\n    Boil {{beetroot}} with {{{name}}}.\n    until soft\nstand: wait 8 h, at 25 C\n"
    )
}

#[test]
fn milk_and_eggs_spoil_whatever_they_stand_in() {
    for spoils in [
        "milk .... 500 g",
        "milk .... 500 g, pasteurised",
        "milk .... 500 g, in a hard plastic jug",
        "milk .... 500 g, with dried herbs",
        "cream cheese .... 500 g",
        "egg .... 300 g",
        "egg .... 300 g, hard-boiled",
    ] {
        assert!(check(&left(spoils)).contains("left-warm"), "{spoils}: {}", check(&left(spoils)));
    }
    for keeps in ["milk powder .... 50 g", "milk .... 50 g, dried", "parmesan .... 100 g", "cheddar .... 100 g"] {
        assert!(!check(&left(keeps)).contains("left-warm"), "{keeps}: {}", check(&left(keeps)));
    }
}

fn thawed(name: &str) -> String {
    format!(
        "recipe Thawed\n{name} .... 1 kg, frozen\nsalt .... 9 g\nthaw: wait 10 h, at 22 C\n    Thaw {{{name}}}.\nfry: tend 12 min, using hob\n    Fry with {{salt}}.\n    until {{75 C}} inside\n"
    )
}

#[test]
fn meat_keeps_by_what_was_done_to_it_and_not_by_a_word_like_that() {
    // Fish that is smoked is as moist as any, and is thawed in the cold (FDA Food Code 1-201.10 and 3-501.13, from memory).
    for raw in ["low fat beef mince", "salt and pepper squid", "minced beef", "smoked salmon"] {
        assert!(check(&thawed(raw)).contains("left-warm"), "{raw}: {}", check(&thawed(raw)));
    }
    for kept in ["salt cod", "salted beef"] {
        assert!(!check(&thawed(kept)).contains("left-warm"), "{kept}: {}", check(&thawed(kept)));
    }
}

fn dipped(words: &str) -> String {
    format!(
        "recipe Bread\nplain flour .... 1 kg\nwater .... 600 g\nsalt .... 20 g\nmix: hands 10 min\n    Mix {{plain flour}}, {{water}} and {{salt}}.\ndip: hands 5 min\n    {words}\nbake: tend 20 min, using oven at 230 C\n    until brown\n"
    )
}

#[test]
fn what_is_avoided_is_not_there() {
    let cold = |cue: &str| {
        format!(
            "recipe Salad\ncabbage .... 1 kg\nsalt .... 9 g\nmix: hands 10 min\n    Mix {{cabbage}} and {{salt}}.\n    until {cue}\n"
        )
    };
    for (text, told, check_name) in [
        (dipped("Dip in lye."), true, "hot-or-caustic"),
        (dipped("Dip in soda, never lye."), false, "hot-or-caustic"),
        (dipped("Dip in soda; avoid lye."), false, "hot-or-caustic"),
        (dipped("Dip in soda, don't use lye."), false, "hot-or-caustic"),
        (cold("gold"), true, "sign-without-heat"),
        (cold("soft, not brown"), false, "sign-without-heat"),
        (cold("gold, with notches"), true, "sign-without-heat"),
    ] {
        assert_eq!(check(&text).contains(check_name), told, "{text}: {}", check(&text));
    }
}
