//! Lists of numbers without units, a unit that is said once for all of them, and formulas that are told and never listed. Notes of our own.

use super::{holds, sound};

/// Nobody guesses grams: a number without a unit is marked; where the notes say once what all are in, it is read so.
#[test]
fn a_number_has_the_unit_that_the_notes_say_and_no_other() {
    let told = "\n\nMix 10 min. Rise 1 h.\n";
    let list = "Poolish: flour 250, water 250, yeast 1\nDough: flour 750, water 400, salt 20, yeast 5";
    let bare = sound(&format!("Rye rolls\n\n{list}{told}"));
    holds(&bare, &["part poolish", "part dough", "flour .. 250", "salt .. 20"]);
    assert!(bare.text.matches("no unit is said").count() >= 6 && !bare.text.contains("250 g"), "{}", bare.text);
    for once in ["All in grams", "amounts g", "All weights in grams unless stated."] {
        let made = sound(&format!("Rye rolls\n{once}\n\n{list}{told}"));
        holds(&made, &["part poolish", "part dough", "flour .. 250 g", "salt .. 20 g", "yeast .. 5 g"]);
        assert!(
            made.text.contains(&format!("read of each number without a unit: {}", once.trim_end_matches('.')))
                && !made.text.contains("no unit"),
            "{}",
            made.text
        );
    }
    let titled = sound("Country loaf (all weights in g)\n\nFlour 900\nWater 700, warm\nLeaven 200\nSalt 20\n");
    holds(&titled, &["recipe Country loaf", "flour .. 900 g", "water .. 700 g, warm", "leaven .. 200 g"]);
    let biga = sound(
        "Focaccia\n\nBiga (g): flour 300; water 150; yeast 1\nDough (g): biga all; flour 700; water 600; salt 22\n",
    );
    holds(&biga, &["part biga", "part dough", "biga .. all", "flour .. 700 g", "water .. 150 g"]);
    let kilos = sound("Baguette in kg\n\nflour 10\nwater 6.8\nsalt 0.2\n");
    holds(&kilos, &["recipe Baguette", "flour .. 10 kg", "salt .. 0.2 kg"]);
    let row = sound("Focaccia\namounts g\n\nflour 1000 water 800 salt 25\n\nMix 10 min.\n");
    holds(&row, &["flour .. 1000 g", "water .. 800 g", "salt .. 25 g"]);
    // A unit behind each, and one of a single line.
    let own = sound("Rolls (g)\n\nFlour (kg): 1.5\nWater: 900 g\nsalt 30\n");
    holds(&own, &["flour .. 1.5 kg", "water .. 900 g", "salt .. 30 g"]);
}

/// Two eggs among grams are no two grams of egg, and somebody is asked.
#[test]
fn what_comes_in_pieces_is_counted_beside_grams() {
    let brioche =
        sound("Brioche. Quantities are in grams unless stated.\n\n500 strong flour\n6 eggs\n10 salt\n2 tbsp milk\n");
    holds(&brioche, &["recipe Brioche", "strong flour .. 500 g", "eggs .. 6", "salt .. 10 g", "milk .. 2 tbsp"]);
    assert!(
        brioche.text.contains("# look (numbers without a unit are read so, and as pieces: eggs 6)"),
        "{}",
        brioche.text
    );
    let table = sound("Loaf\n\n| Ingredient | g |\n|---|---|\n| Flour | 900 |\n| Eggs | 2 |\n| Egg yolk | 60 |\n");
    holds(&table, &["flour .. 900 g", "eggs .. 2", "egg yolk .. 60 g"]);
    assert!(table.text.contains("these are read as pieces): Eggs 2"), "{}", table.text);
}

/// What prose weighs becomes lines, marked; the words stay, and what is said again stays in them alone.
#[test]
fn a_formula_that_is_told_is_picked_out_of_its_words() {
    let loaf = sound(
        "White tin loaf\n\nMix 500 g of strong flour with 350 g water and 10 g salt, add 5 g dried yeast and knead for 10 minutes. Leave \
         to rise for 1 hour, then knead in 30 g of soft butter. Shape and put in a tin. Prove 45 min. Bake for 35 min at 220 C.\n",
    );
    holds(
        &loaf,
        &[
            "recipe White tin loaf",
            "strong flour .. 500 g",
            "water .. 350 g",
            "salt .. 10 g",
            "dried yeast .. 5 g",
            "butter .. 30 g, soft",
        ],
    );
    assert_eq!(loaf.text.matches("picked out of the words below").count(), 5, "{}", loaf.text);
    holds(&loaf, &["rise: wait 1 h", "prove: wait 45 min", "bake: tend 35 min, using oven at 220 C"]);
    assert!(loaf.text.contains("Mix {strong flour} with {water} and {salt}, add {dried yeast}"), "{}", loaf.text);
    let short = sound(
        "Shortbread\n\nRub 200g butter into 300g flour with 100g sugar. Bake 40 minutes at 160 C. Dust with a tablespoon of sugar.\n",
    );
    holds(&short, &["butter .. 200 g", "flour .. 300 g", "sugar .. 100 g"]);
    assert!(short.text.contains("amounts stand in these words and in no list"), "{}", short.text);
    // A list is the formula: beside one nothing is picked out.
    let listed = sound("Shortbread\n\n300 g flour\n200 g butter\n\nRub in, with 100 g sugar. Bake 40 min at 160 C.\n");
    assert!(
        !listed.text.contains("sugar ..") && listed.text.contains("amounts stand in these words"),
        "{}",
        listed.text
    );
    // Weights of what is made, and of what it is baked in, are of nothing that goes in.
    let shaped =
        sound("Loaf\n\nDivide the dough into 2 pieces of 500 g, put each in a 900 g tin and bake 40 min at 220 C.\n");
    assert!(!shaped.text.contains(" .. ") && !shaped.text.contains("picked"), "{}", shaped.text);
}

/// An amount behind its name is one, too: of what is listed only where it is as much.
#[test]
fn an_amount_behind_its_name_in_what_is_told_is_marked() {
    let mark = "amounts stand in these words and in no list";
    let told =
        |line: &str| sound(&format!("Danish\n\nStrong flour 500g\nMilk 140g\nButter 40g\nSugar 60g\n\n{line}\n")).text;
    let roll = told("Roll-in butter 280g. Give 3 single turns, 30 min in the fridge between each.");
    assert!(roll.contains(mark) && !roll.contains("{butter}") && roll.contains("butter 280g"), "{roll}");
    assert!(told("Sprinkle with cinnamon 5g and rest 30 min.").contains(mark));
    assert!(told("Brush with egg 1 and rest 5 min.").contains(mark));
    let all = told("Mix in sugar 60g and rest 30 min.");
    assert!(all.contains("{sugar}") && !all.contains(mark), "{all}");
}

/// What is called like a thing that goes in heads a part where the list below has that thing; and `Assembly` heads what takes the parts.
#[test]
fn a_heading_may_be_called_like_what_goes_in() {
    let tarts = sound(
        "Tarts\nPastry\nplain flour 300 g\nbutter 150 g\nwater 70 g\nRub in 10 min.\n\nCherries\n500 g cherries\n80 g sugar\nStew 10 min till soft.\n\n\
         Assembly\npastry\ncherries\n",
    );
    holds(
        &tarts,
        &[
            "part pastry",
            "part cherries mix",
            "cherries .. 500 g",
            "sugar .. 80 g",
            "part assembly",
            "pastry .. all",
            "cherries mix .. all",
        ],
    );
    assert!(!tarts.text.contains("second cherries"), "{}", tarts.text);
}

/// A name that two lines of the file would share stays whole.
#[test]
fn no_name_is_broken_between_two_lines() {
    let buns = sound(
        "Buns\n\n500 g plain flour\n80 g caster sugar\n10 g salt\n\nMix the plain flour thoroughly in the large bowl of the mixer together with all of the \
         caster sugar and the salt 10 min.\n",
    );
    assert!(buns.text.contains("{caster sugar}") && !buns.text.contains("caster {"), "{}", buns.text);
}
