//! Notes as they hang beside the mixer: short lines, small letters, sums, types of flour, times without a word.

use super::told::gives;
use super::{draft, holds, sound};

/// What a note of one line below a short list becomes.
fn told(line: &str) -> String {
    sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n\n{line}\n")).text
}

/// How times are written at the bench. Common practice, no source.
#[test]
fn a_time_is_whole() {
    gives(
        told,
        &[
            ("Simmer 1hr 15.", "simmer: tend 1 h 15 min"),
            ("Prove for 2 h 30 at 27 C.", "prove: wait 2 h 30 min, at 27 C"),
            ("Bake 1h30 at 150 C.", "bake: tend 1 h 30 min, using oven at 150 C"),
            ("Prove 1:15 h.", "prove: wait 1 h 15 min"),
            ("Prove 2:00 h", "prove: wait 2 h"),
            ("Rest an hour and 20 minutes.", "rest: wait 1 h 20 min"),
            ("Bake 16' @ 175 C.", "bake: tend 16 min, using oven at 175 C"),
            (
                "Bake 20 min at 240C then an hour at 180C.",
                "second bake: tend 1 h, using oven at 180 C, straight after bake",
            ),
            ("Braise 2 hours 30 minutes at 160C.", "braise: tend 2 h 30 min"),
            ("Retard 12-16 h at 4C.", "retard: wait 12-16 h, at 4 C"),
            // When, and not how long; inside, and not in the oven.
            ("Prove 2 h 28 °C", "prove: wait 2 h, at 28 C"),
            ("Mix 1h30 before folding", "mix: hands 1 h 30 min"),
            ("Simmer 1hr 15 to reduce", "simmer: tend 1 h 15 min"),
            ("Mix the dough well. Do not cut for 1 h after baking.", "note Mix the dough well."),
            ("Mix to 24 C. Prove 2 h at 27 C.", "prove: wait 2 h, at 27 C"),
            ("Freeze 20 min between sheets.", "freeze: wait 20 min"),
            ("Bake 220 C @ 20 min.", "bake: tend 20 min, using oven at 220 C"),
            ("Bulk 3 h. After an hour, fold.", "bulk: wait 3 h"),
            ("Mix the '00' flour in, 5 min.", "mix: hands 5 min"),
            ("Bake to an internal temperature of 94 C, 30 min.", "bake: tend 30 min, using oven\n"),
            ("Fold 4 times, every 30 min.", "note Fold 4 times, every 30 min."),
            ("4 folds, 30 min apart", "note 4 folds, 30 min apart"),
            // What is reached is said in another clause than the heat, the cold by itself is a rest, and rests between are no work.
            ("bulk till +50%, ~4h @ 25C", "bulk: wait 4 h, at 25 C"),
            ("shape, fridge overnight 12-16h", "chill: wait 12-16 h, at 4 C"),
            ("Shape, fridge 12 h", "chill: wait 12 h, at 4 C"),
            ("Ready in 2 h", "note Ready in 2 h"),
            ("Roll in butter, 3 letter folds w/ 30 min rests", "note Roll in butter"),
            ("Turn 3 times, 20 min rest between", "note Turn 3 times"),
            // A dash behind the number of something begins a time, and no range goes from the one to the other.
            ("Bake gas 4 - 25 mins", "bake: tend 25 min"),
            ("Knead, step 1 - 10 min", "knead: hands 10 min"),
            ("Mix speed 2 - 6 min", "mix: hands 6 min"),
            ("Bake on shelf 2 \u{2013} 25 mins", "bake: tend 25 min"),
            ("Rise 2 - 3 h", "rise: wait 2-3 h"),
            ("200C fan 20 mins", "bake: tend 20 min, using oven at 200 C"),
            ("Bake 35 min 180 (fan 160)", "bake: tend 35 min, using oven"),
            ("bake 240 falling to 210, 40 min total. core 96C", "bake: tend 40 min, using oven\n"),
        ],
    );
}

#[test]
fn a_sum_goes_into_nothing() {
    for line in [
        "TOTAL 1670 g",
        "Total flour 18 kg",
        "Dough weight: 1670 g",
        "Hydration 65%",
        "flour total 18kg",
        "Scale: 100g",
        "Total for 2 loaves 1670 g",
        "Hydration: about 65 %",
        "Hydration is 65 %",
        "Weight of each piece: 835 g",
        "Total for this batch: 1670 g",
    ] {
        let text = told(line);
        let listed = text.lines().filter(|line| !line.contains('#') && line.contains("..")).count();
        assert_eq!(listed, 2, "{line}\n{text}");
        assert!(text.contains(line.trim_end_matches("g")), "{line}\n{text}");
    }
}

/// What looks like a sum, a part or a verb, and is an ingredient.
#[test]
fn an_ingredient_stays_one() {
    for (line, wanted) in [
        ("Total fat milk 200 g", "total fat milk .. 200 g"),
        ("Glaze for the top 50 g", "glaze for the top .. 50 g"),
        ("Top up milk 20 g", "top up milk .. 20 g"),
        ("Cut peel 100 g", "cut peel .. 100 g"),
        ("Extra virgin olive oil 50 g", "extra virgin olive oil .. 50 g"),
        ("extra-virgin olive oil: 50 g", "extra-virgin olive oil .. 50 g"),
        ("Topping: 50 g sesame seeds", "part topping"),
    ] {
        let made = sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n{line}\n"));
        let wanted_start = wanted.split(" ..").next().unwrap_or_default();
        assert!(made.text.contains(wanted_start), "{line}\n{}", made.text);
        if wanted.contains("..") {
            holds(&made, &[wanted]);
        }
    }
    for line in
        ["Note: 500 g flour is 4 cups", "Variation: 100 g walnuts", "If dry: 20 g water", "NB: 200 g sugar is too much"]
    {
        let text = told(line);
        assert_eq!(text.matches("\npart ").count(), 0, "{line}\n{text}");
    }
    // Percentages want the flour that only a sum says.
    assert!(sound("Quay loaf\n\nTotal flour 1000 g\nwater 65 %\nsalt 2 %\n").text.contains("\nflour .."));
}

#[test]
fn what_is_made_is_a_number_and_what_each_weighs() {
    for (line, wanted) in [
        ("Yield: 45 loaves @ 800 g", &["makes 45 loaves", "divide 45 x 800 g"][..]),
        ("Makes two 800 g loaves", &["makes 2 loaves"]),
        ("Yield: 2 loaves of 815 g", &["makes 2 loaves", "divide 2 x 815 g"]),
        ("Makes 2 loaves", &["makes 2 loaves"]),
    ] {
        holds(&sound(&format!("Quay loaf\n{line}\n\n1 kg flour\n650 g water\n")), wanted);
    }
    let titled = |title: &str| sound(&format!("{title}\n\n1 kg flour\n650 g water\n"));
    holds(&titled("SPELT TIN LOAF - 2 x 820g"), &["recipe SPELT TIN LOAF", "makes 2 pieces", "divide 2 x 820 g"]);
    holds(&titled("Mill bread, 40 pcs"), &["recipe Mill bread", "makes 40 pieces"]);
    holds(&titled("Tin rolls x 24"), &["recipe Tin rolls", "makes 24 rolls"]);
    holds(&titled("Seal buns (makes 24 buns)"), &["recipe Seal buns", "makes 24 buns"]);
    // A figure in a name is none of pieces.
    for name in ["T65 baguettes", "Christmas 2025 biscuits", "Seal loaf 80/20 bread", "Ferry cake for 6 people"] {
        let made = titled(name);
        assert_eq!(made.name, name, "{}", made.text);
        assert!(!made.text.contains("\nmakes"), "{}", made.text);
    }
    holds(&titled("Baguette 28.11."), &["recipe Baguette 28.11"]);
    holds(
        &sound("Quay loaf\n\n1 kg flour\n650 g water\n\nShape 14 rolls of 115 g and prove 40 min.\n"),
        &["divide 14 x 115 g"],
    );
}

#[test]
fn what_brackets_behind_a_heading_say_is_not_lost() {
    let made = sound("Quay loaf\n\nIngredients (makes 12)\n1 kg flour\n650 g water\n\nMethod (40 min)\nMix 5 min.\n");
    holds(&made, &["makes 12 pieces"]);
    assert!(made.text.contains("40 min"), "{}", made.text);
}

/// The language asks how many there are where an amount is for one: no clause of the file may say it.
#[test]
fn so_much_for_each_is_asked() {
    for line in ["Brush with oil - 15 g each", "Oil 15 g per piece", "Honey 5 g per bun", "Jam, 15 g a piece"] {
        let text = told(line);
        assert!(text.contains("so much for each: for how many?") || text.contains("# look"), "{line}\n{text}");
    }
}

/// A preferment goes into the dough: whole, by its weight, or where nobody says it.
#[test]
fn what_is_made_for_a_dough_goes_into_it_once() {
    let poolish = "Quay loaf\n\nPoolish:\n500 g flour\n500 g water\n1 g yeast\nRipen 12 h at 20 C.\n\nDough:\n";
    let rest = "1500 g flour\n850 g water\n36 g salt\nMix 6 min.\n";
    for line in ["poolish (all)\n", "all the poolish\n", "poolish\n", "1001 g poolish\n", ""] {
        let text = sound(&format!("{poolish}{line}{rest}")).text;
        let dough = text.split("\npart dough\n").nth(1).unwrap_or_default();
        assert_eq!(dough.matches("poolish ..").count(), 1, "{line}\n{text}");
        assert_eq!(text.matches("\npart ").count(), 2, "{line}\n{text}");
    }
    // Of two parts with flour it goes into the larger one, wherever that stands.
    let crumble = "Quay tart\n\nPoolish:\n100 g flour\n100 g water\n\nCrumble:\n80 g flour\n60 g butter\n\nDough:\n500 g flour\n300 g water\n";
    let text = sound(crumble).text;
    assert!(text.split("\npart dough\n").nth(1).is_some_and(|dough| dough.starts_with("poolish ..")), "{text}");
    // A filling stays beside the dough.
    let filled = "Quay rolls\n\nFilling:\n200 g jam\n\nDough:\n500 g flour\n300 g water\n";
    holds(&sound(filled), &["part quay rolls", "filling .. all", "dough .. all"]);
}

#[test]
fn the_type_of_a_flour_is_no_second_amount() {
    for (line, wanted) in [
        ("620 g rye flour 997", "rye flour 997 .. 620 g"),
        ("flour 550 1 kg", "flour 550 .. 1 kg"),
        ("flour 550 100 g", "flour 550 .. 100 g"),
        ("500 g farina 00", "farina 00 .. 500 g"),
    ] {
        holds(&sound(&format!("Quay loaf\n\n{line}\n650 g water\n")), &[wanted]);
    }
}

#[test]
fn small_letters_and_numbers_begin_a_line_each() {
    for method in
        ["mix 8 min\nbulk 60 min\nbake 20 min at 220 C", "1. mix 8 min\n2. bulk 60 min\n3. bake 20 min at 220 C"]
    {
        let made = sound(&format!("Buns\n\n1 kg flour\n600 g water\n\n{method}\n"));
        holds(&made, &["mix: hands 8 min", "bulk: wait 60 min", "bake: tend 20 min, using oven at 220 C"]);
        assert!(!made.text.contains("2."), "{}", made.text);
    }
    let torn = "Buns\n\n1 kg flour\n600 g water\n\nBake 40 min. Do not\ncut for 1 h after baking.\n";
    assert!(!sound(torn).text.contains(": hands 1 h"), "{}", sound(torn).text);
    // A paragraph that a page has broken stays one.
    let broken = "Buns\n\n1 kg flour\n600 g water\n\nCover the bowl with a damp cloth, put it on the shelf and\nleave it there for 60 min.\n";
    assert!(sound(broken).text.contains("cloth, put it on the shelf and leave it"), "{}", sound(broken).text);
}

/// How long something keeps is said for the place where it is kept first, and is never work.
#[test]
fn how_long_it_keeps_is_no_step() {
    for (line, wanted) in [
        ("Keeps 3 days in fridge, freezes 3 months.", "keeps 3 days, chilled"),
        ("Keeps 3 days in the fridge or 3 months in the freezer.", "keeps 3 days, chilled"),
        ("Eat within 5 days.", "keeps 5 days"),
        ("Shelf life 2 days.", "keeps 2 days"),
        ("Use within 2 days of baking.", "keeps 2 days"),
    ] {
        let text = told(line);
        assert!(text.contains(wanted) && !text.contains(": wait") && !text.contains(": tend"), "{line}\n{text}");
    }
}

#[test]
fn a_verb_is_no_food() {
    let made = sound(
        "Cake\n\n200 g butter\n200 g sugar\n200 g flour\ndouble cream to serve\n\nCream butter and sugar for 5 min.\nFlour the tin.\n",
    );
    assert!(
        made.text.contains("Cream {butter} and {sugar}") && made.text.contains("note Flour the tin"),
        "{}",
        made.text
    );
}

/// What a share in brackets is: what something holds, where it is sold by that, else how much of it goes in.
#[test]
fn a_share_in_brackets() {
    holds(
        &sound("Quay buns\n\n500 g butter (84%)\n200 g chocolate (55%)\n10 g salt (2%)\n500 g flour\n"),
        &["butter .. 500 g, of 84 %", "chocolate .. 200 g, of 55 %", "salt .. 10 g = 2 %"],
    );
}

#[test]
fn the_unit_over_a_column_holds_below() {
    let made = sound("Spelt rolls\n\nIngredient\t%\tg\nBread flour\t80\t16000\nWater\t68\t13600\n");
    holds(&made, &["bread flour .. 16000 g = 80 %", "water .. 13600 g = 68 %"]);
    // What has no unit stands beside nothing that it could be read with, and a line of figures is no head.
    let ratio = sound("Rolls\n\nItem\tRatio\tg\nWater\t65\t650\nFlour\t100\t1000\n");
    holds(&ratio, &["water .. 650 g, 65", "flour .. 1000 g, 100"]);
    let numbered = sound("Rolls\n\nNo | Item | g\n1 | Flour | 1000\n2 | Water | 650\n");
    holds(&numbered, &["flour .. 1000 g, 1", "water .. 650 g, 2"]);
    let none = draft("Pots\n\nScale | pieces of 85 g\nBake | 18\n", None, "x");
    assert!(none.text.contains("85 g") && !none.text.contains("18 g"), "{}", none.text);
    // Two columns of grams are two batches, and no amount twice.
    let two = draft("Rolls\n\n| flour | 1 kg | 5 kg |\n| water | 650 g | 3.25 kg |\n", None, "x");
    holds(&two, &["flour .. 1 kg", "water .. 650 g"]);
    assert!(two.text.contains("5 kg stands beside it"), "{}", two.text);
}

#[test]
fn amounts_among_words_are_marked() {
    let made = sound("Bagels\n\nYou need 1 kg of strong flour, 560 g water, 20 g salt.\n");
    // Where there is no list, each amount is picked out and marked.
    holds(&made, &["strong flour .. 1 kg", "water .. 560 g", "salt .. 20 g"]);
    assert_eq!(made.text.matches("# look (picked out of the words below)").count(), 3, "{}", made.text);
    let made =
        sound("Croissants\n\nFor the dough: 2 kg flour, 1000 g water, 40 g salt\nFor the filling: 500 g butter\n");
    holds(&made, &["part dough", "flour .. 2 kg", "salt .. 40 g", "part filling", "butter .. 500 g"]);
}

/// A figure that the language would not take stays in the words; and the word for what it is is no name.
#[test]
fn what_would_not_be_read_stays_in_the_words() {
    for figure in
        ["00 cm", "5-05 cm", "20-10 cm", "1.2.3 cm", "5..6 cm", "99999999999999999999 cm", "0220 C", "300-200 C"]
    {
        let text = told(&format!("Shape to {{{figure}}}, or {figure}."));
        assert!(text.contains(&format!("Shape to \\{{{figure}\\}}, or {figure}.")), "{text}");
    }
    for title in ["recipe Slipway rolls", "Recipe: Slipway rolls", "RECIPE FOR Slipway rolls", "Slipway rolls"] {
        let made = sound(&format!("{title}\n\n1 kg flour\n650 g water\n"));
        holds(&made, &["recipe Slipway rolls"]);
    }
    for title in ["Recipe", "Recipe 65", "Recipes of the quay"] {
        let made = sound(&format!("{title}\n\n1 kg flour\n650 g water\n"));
        assert_eq!(made.name, title, "{}", made.text);
    }
}

/// A bake in two halves is one of both; what is fetched at a moment takes no time. The bake was 10 min, and the butter an hour's work.
#[test]
fn halves_are_added_up_and_moments_are_no_work() {
    for (line, wanted) in [
        ("Bake 12+10 min at 220C.", "bake: tend 22 min, using oven at 220 C"),
        ("Bake 15 + 5 min at 160 C.", "bake: tend 20 min, using oven at 160 C"),
        ("Take the water out of the fridge an hour before mixing.", "note Take the water"),
        ("Rest 30 min before shaping.", "rest: wait 30 min"),
        ("Keep warm for 1 h before serving.", ": wait 1 h"),
    ] {
        let text = told(line);
        assert!(text.contains(wanted) || wanted.starts_with(':') && text.contains("1 h"), "{line}\n{text}");
    }
    assert!(!told("Take the butter out an hour before mixing.").contains("hands 1 h"));
}

/// Batches side by side have each their unit above them; the head is nothing that goes in.
#[test]
fn a_table_of_batches_has_a_head() {
    let text = sound("Rye sticks\n\nItem | Batch 1 g | Batch 2 g\nRye flour | 500 | 1000\nWater | 400 | 800\n").text;
    assert!(text.contains("rye flour ..................... 500 g"), "{text}");
    assert!(!text.contains("item ..."), "{text}");
}

/// Nothing is translated, and it is said: no step is made of words that are not understood, each figure is in a mark, and no English word
/// is put for a name because its letters are near. `sale` is Italian for salt, and `rye` no slip of `lye`.
#[test]
fn notes_in_another_language_stay_notes() {
    for (notes, language, salt) in [
        (
            "Pane\n\n500 g di farina 00\n350 g di acqua\n12 g sale\n\nImpastare per 10 minuti.\nInfornare a 220 C per 20 min.\n",
            "Italian",
            "sale",
        ),
        (
            "Brot\n\nZutaten:\n700 g Roggenmehl\n500 g Wasser\n22 g Salz\n\nZubereitung:\nKneten 10 Min. Backen 45 Min. bei 240 C.\n",
            "German",
            "salz",
        ),
        (
            "Pain\n\n900 g farine T65\n680 g eau\n20 g sel\n\nP\u{e9}trir 10 minutes. Cuire 40 minutes.\n",
            "French",
            "sel",
        ),
    ] {
        let text = sound(notes).text;
        assert!(text.contains(&format!("these notes seem to be in {language}")), "{text}");
        assert!(text.contains("is this salt?") && !text.contains("is this ale?"), "{text}");
        assert!(!text.contains(": hands") && !text.contains(": tend"), "{text}");
        assert!(text.contains(&format!("{language} and are not understood")), "{text}");
        assert!(text.lines().any(|line| line.starts_with(&format!("{salt} .."))), "{text}");
        for figure in ["10", "2"] {
            let marked = text.lines().any(|line| line.contains(figure));
            assert!(marked, "{figure}: {text}");
        }
    }
    let english = sound("Rye\n\n500 g rye\n350 g water\n5 g rye malt\n20 g seeds\n").text;
    assert!(!english.contains("is this") && !english.contains("seem to be"), "{english}");
}

/// Each stage of a sour is a part with its rest and takes the one before it, whether the notes say so or not; where they do not, a mark says it.
#[test]
fn stages_of_a_sour_are_a_chain() {
    let blocks = "Coast rye\n\nStage 1 - freshening, 6 h at 26 C\n50 g starter\n100 g rye flour\n150 g water\n\nStage 2 - 8 h at 24 C\nall of stage 1\n300 g rye flour\n\
                  200 g water\n\nDough\nall of stage 2\n1000 g wheat flour\n500 g water\n30 g salt\n\nMix 10 min. Bake 50 min at 220 C.\n";
    let text = sound(blocks).text;
    for line in ["part stage 1", "rest: wait 6 h, at 26 C", "part stage 2", "rest: wait 8 h, at 24 C", "part dough"] {
        assert!(text.lines().any(|own| own == line), "{line}: {text}");
    }
    assert!(
        text.contains("stage 1 ....................... all") && text.contains("stage 2 ....................... all"),
        "{text}"
    );
    let lines = "Coast rye\nStage 1 (5-6 h at 26 C): rye 20 g, water 30 g, starter 4 g\nStage 2, 15 h at 24 C: rye 100, water 60\nDough: rye 600 g, wheat 400 g, water 480 g\n";
    let text = sound(lines).text;
    assert!(text.contains("rest: wait 5-6 h, at 26 C") && text.contains("part stage 2"), "{text}");
    for stage in ["stage 1 ....................... all", "stage 2 ....................... all"] {
        let line = text.lines().find(|line| line.starts_with(stage)).unwrap_or_else(|| panic!("{stage}: {text}"));
        assert!(line.contains("nothing says where this stage goes"), "{line}");
    }
}

/// What one piece weighs is no ingredient: with the number of pieces it divides the dough, and without it is asked.
#[test]
fn what_one_weighs_is_no_ingredient() {
    let notes = |makes: &str, each: &str| format!("Tin bread\n{makes}\n1 kg flour\n650 g water\n20 g salt\n{each}\n");
    for each in ["840 g per tin", "840 g each", "840 g a loaf"] {
        let text = sound(&notes("makes 2\n", each)).text;
        assert!(text.contains("divide 2 x 840 g") && !text.contains(".. 840 g"), "{text}");
        let text = sound(&notes("", each)).text;
        assert!(
            text.contains("840 g") && !text.contains(".. 840 g") && text.contains("how many there are is not said"),
            "{text}"
        );
    }
    let text = sound(&notes("makes 18\n", "18 pcs à 92 g")).text;
    assert!(text.contains("divide 18 x 92 g"), "{text}");
}

/// Zest and juice of several fruit are each of their own, what is held back is flour, and what is fried in is none of the dough.
#[test]
fn what_stands_behind_an_amount_is_no_ingredient_of_its_own() {
    let text =
        sound("Buns\n500 g flour, 50 g held back\nzest of 1 orange and 2 lemons\n3 l oil to fry\n2 l lard (frying)\n")
            .text;
    assert!(text.contains("orange zest ................... as needed, of 1 orange"), "{text}");
    assert!(text.contains("lemon zest .................... as needed, of 2 lemons"), "{text}");
    assert!(
        text.contains("flour ......................... 500 g, 50 g held back") && !text.contains("\nheld back"),
        "{text}"
    );
    assert!(text.contains("oil ........................... 3 l, to fry, aside"), "{text}");
    assert!(text.contains("lard .......................... 2 l, for frying, aside"), "{text}");
}

/// What begins with the sign by which something is done is a sign in the file too, which begins with a small letter: found by fuzzing.
#[test]
fn a_step_that_begins_with_until_is_tidy() {
    let text = sound("Quay loaf\n\n1 kg flour\n650 g water\n\nuntil smooth wait 60 min at 24 C and rest 5 min\n").text;
    assert!(text.contains("\n    until smooth wait 60 min at {24 C}\n"), "{text}");
    assert_eq!(miche::language::tidy::tidy(&text, None).as_deref(), Ok(text.as_str()));
}

/// A heading with its list on its own line ends with it, in the most usual form of a bread note; a line drawn round a name makes it a heading;
/// a head of shares and a batch is no ingredient. Common practice, no source.
#[test]
fn a_heading_with_its_list_ends_with_its_line() {
    let below = "500 g rye flour\n350 g milk\n10 g salt\n";
    for (head, part, own) in [
        ("Poolish: 100 g flour, 100 g water, 1 g yeast\n\n", "part poolish", 3),
        ("Tangzhong: 25g flour + 125g water -> 65C\n", "part tangzhong", 2),
        ("Topping: 50 g sesame seeds\n\n", "part topping", 1),
    ] {
        let text = sound(&format!("Seed loaf\n\n{head}{below}\nMix 5 min.\n")).text;
        let of_part = text.split("\npart ").find(|of| format!("part {of}").starts_with(part)).unwrap_or_default();
        let lines = of_part.lines().filter(|line| line.contains(" ....") && !line.contains(" all")).count();
        assert_eq!(lines, own, "{part}: {text}");
        assert!(text.contains("\nmilk .......................... 350 g"), "{text}");
    }
    // One more line without a gap may still be of it; what was guessed is marked.
    let text = sound(&format!("Seed loaf\n\nSoaker: 100 g seeds, 150 g water\n{below}")).text;
    assert!(text.contains("read as of the dough, and not of `soaker`"), "{text}");
    let text = sound("Steamed buns\n500 g flour\n250 g water\n-- filling --\n400 g pork mince\n").text;
    assert!(text.contains("part filling\n") && !text.contains("as needed"), "{text}");
    let text =
        draft("Baguette       %       10kg\nFlour     100     10.000\nWater      68      6.800\n", None, "x").text;
    assert!(text.contains("recipe Baguette\n") && text.contains("10.000 kg = 100 %"), "{text}");
}
