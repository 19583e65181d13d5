//! Amounts that stand in what is told, and lists that stand behind a name: nothing listed is taken for them, and none is lost unmarked.
//! Notes of our own.

use super::told::{gives, gives_but};
use super::{draft, holds, sound};

/// The egg and the pinch of salt of a glaze are not the salt of the dough, and the butter that is served with it is none of the dough's.
#[test]
fn what_is_told_with_an_amount_is_none_of_what_is_listed() {
    let loaf = sound(
        "Plaited loaf\n500 g bread flour\n250 g milk\n9 g salt\n10 g fresh yeast\n60 g butter\nKnead 12 min. Rise 1 h.\n\
         Plait, prove 45 min. Glaze with 1 egg and a pinch of salt, bake 30 min at 180C.\nServe with 20 g butter.\n",
    );
    assert!(loaf.text.contains("a pinch of salt, bake 30 min") && !loaf.text.contains("{salt}"), "{}", loaf.text);
    let mark = "amounts stand in these words and in no list";
    assert_eq!(loaf.text.matches(mark).count(), 2, "{}", loaf.text);
    let told = |line: &str| sound(&format!("Relish\n\n1 kg plums\n250 ml vinegar\n60 g sugar\n\n{line}\n")).text;
    gives_but(
        told,
        &[
            ("Boil plums in 100 ml vinegar 20 min", "in 100 ml vinegar", "{vinegar}"),
            ("Melt a knob of sugar 5 min", "a knob of sugar", "{sugar}"),
            // As much as is listed is what is listed.
            ("Boil the plums with 60 g sugar 20 min", "Boil the {plums} with {sugar} 20 min", mark),
            ("Boil the plums with 250 ml of the vinegar 20 min", "250 ml of the vinegar", "{vinegar}"),
            ("Boil the plums with the sugar 20 min at 105 C", "{plums} with the {sugar}", mark),
            ("Divide into 2 jars, rest 3 h", "2 jars", mark),
        ],
    );
}

/// A list behind a name is a part wherever it stands, with a dash or a colon, and what is done stands behind it.
#[test]
fn a_list_behind_a_name_is_a_part_in_what_is_told_too() {
    let soup = sound(
        "Goulash soup\n1.5 kg beef shin, cubed\n1 kg onions\n2 l water\n30 g salt\n\nSimmer 3 h.\nDumplings: 500 g flour, 250 ml milk, \
         20 g fresh yeast, 1 egg, 10g salt; rises 1 h.\nBoil 20 min.\n",
    );
    holds(&soup, &["part dumplings", "flour .. 500 g", "egg .. 1", "salt .. 10 g", "rise: wait 1 h"]);
    let braid = sound(
        "Braid\n900 g flour\n430 g milk\nFilling - 250 g ground poppy, 250 ml milk, 100 g sugar, 50 g butter -> cook 8 min, cool\n",
    );
    holds(&braid, &["part filling", "milk .. 250 ml", "butter .. 50 g", "cook: tend 8 min"]);
    let pie = sound(
        "Steak pie\nBeef stock: 2kg bones, 3L water, 1 onion, 1 carrot, 5 g thyme \u{2192} reduce to 1.5 L\nPastry: 500g plain flour, 250g butter\n\
         Top: 500g tomatoes, 2 courgettes, 10 g rosemary, 30g oil\nTo finish: 100 g cheese, 12 cherry tomatoes\n",
    );
    holds(
        &pie,
        &[
            "part beef stock",
            "water .. 3 l",
            "onion .. 1",
            "part top",
            "courgettes .. 2",
            "rosemary .. 10 g",
            "cheese .. 100 g",
            "cherry tomatoes .. 12",
        ],
    );
    let jam = sound("Layer cake\n375 g flour\nFilling: jar of raspberry jam; 600 ml whipping cream\n");
    holds(&jam, &["part filling", "raspberry jam .. as needed, jar", "whipping cream .. 600 ml"]);
}

/// What is made above goes in whole, and the list goes on below it.
#[test]
fn all_of_a_levain_goes_in() {
    let focaccia = sound(
        "Focaccia\n\nLevain 9pm: 50g starter + 100 g flour + 100 g water\nDough 8am\n- 800 g bread flour\n- 640ml water\n- all levain\n- 20g salt\n- 45 g oil\n",
    );
    let dough = focaccia.text.split("\npart dough").nth(1).unwrap_or_else(|| panic!("{}", focaccia.text));
    for line in ["levain ..", "salt ..", "oil .."] {
        assert!(dough.contains(line), "{line}\n{}", focaccia.text);
    }
    assert!(!dough.contains("\npart "), "{}", focaccia.text);
    let flour = draft("Loaf\n\nall purpose flour 500 g\n", None, "x");
    assert!(!flour.text.contains(".. all"), "{}", flour.text);
}

#[test]
fn a_rest_is_never_as_hot_as_an_oven() {
    let told = |line: &str| sound(&format!("Quay tray\n\n1 kg flour\n650 g water\n\n{line}\n")).text;
    gives_but(
        told,
        &[
            ("prove 3h at 26, dimple, top, 230C for 22-25", "prove: wait 3 h\n", "wait 3 h, at 230"),
            ("Prove 2 h at 27 C", "prove: wait 2 h, at 27 C", "seems to be said"),
        ],
    );
    gives(told, &[("feeds 6", "makes 6 portions")]);
}

#[test]
fn what_is_open_is_marked() {
    let made = sound(
        "Chicken pie for 6\n1.2 kg chicken thighs\n60 g marg/butter\nPoach thighs in 1.5 l water with 1 onion 40 min.\n",
    );
    for mark in ["which of the two goes in?", "amounts stand in these words and in no list", "this became the name"] {
        assert!(made.text.contains(mark), "{mark}\n{}", made.text);
    }
    let jar = sound("Cake\n\n500 g flour\ncherries, 1 jar (680g, drained 350g)\n").text;
    assert!(!jar.contains("350g)") || jar.contains("(680g"), "{jar}");
}
