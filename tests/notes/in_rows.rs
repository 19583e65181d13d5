//! Lists in rows, columns and in one line, and figures that have to stay with what they are of. Common practice, no source.

use super::{holds, sound};

/// One reading of the comma for all of the notes: beside `62,5` a `12,500 kg` is no twelve tonnes.
#[test]
fn commas_are_read_in_one_way() {
    for (notes, wanted) in [
        (
            "Rolls\nIngredient\t%\tkg\nbread flour\t100,0\t12,500\nwater\t62,5\t7,813\nbutter\t8,0\t1,000\n",
            &["bread flour .. 12.500 kg = 100.0 %", "water .. 7.813 kg = 62.5 %", "butter .. 1.000 kg = 8.0 %"][..],
        ),
        (
            "Rolls\nbread flour 1,250 kg\nwater 0,800 kg\nyeast 12,5 g\n",
            &["bread flour .. 1.250 kg", "yeast .. 12.5 g"],
        ),
        // In English notes, and where nothing else is said, it stands between thousands as before.
        ("Rolls\nflour 1,250 g\nsalt 22.5 g\n", &["flour .. 1250 g", "salt .. 22.5 g"]),
        ("Rolls\nflour 1,250 g\nyeast 7,5 g\n", &["flour .. 1250 g", "yeast .. 7.5 g"]),
        ("Brot\n1.000 g Mehl\n620 g Wasser\n1,5 l Milch\n20 g Salz\n", &["mehl .. 1000 g", "milch .. 1.5 l"]),
    ] {
        let made = sound(notes);
        holds(&made, wanted);
        // The words of the notes stand as they were written.
        assert!(!made.text.contains(['\u{66B}', '\u{66C}']), "{}", made.text);
    }
    assert!(sound("Rolls\nbread flour 1,250 kg\nyeast 12,5 g\n").text.contains("): bread flour 1,250 kg"));
}

/// A weight in brackets stays with the amount that it says again.
#[test]
fn a_weight_stays_with_its_own_amount() {
    for (notes, wanted) in [
        (
            "Topping\nrice flour 1 cup (160 g); water 3/4 cup + 1 tbsp (190 g); sugar 1 tbsp (12 g)\n",
            &["water .. 3/4 cup 1 tbsp = 190 g", "sugar .. 1 tbsp = 12 g"][..],
        ),
        (
            "Loaf\n3 cups (430g) flour, 1/4 tsp yeast (1g), 1 1/2 cups + 1 tbsp (345g) water\n",
            &["yeast .. 1/4 tsp = 1 g", "water .. 1 1/2 cups 1 tbsp = 345 g"],
        ),
        (
            "Biscuits\nbrown sugar \u{be} c packed (160 g)\nbutter 1 c / 2 sticks / 226 g\neggs 2 lg (100 g)\n",
            &[
                "brown sugar .. 3/4 cup = 160 g, packed",
                "butter .. 1 cup = 226 g, 2 sticks",
                "eggs .. 100 g = 2, large",
            ],
        ),
        // A sachet of dry yeast is 7 g, a cube of fresh yeast 42 g: half of one is what the notes say.
        (
            "Loaf\n500 g flour\n1/2 sachet yeast (3.5 g)\n2 tins beans (800 g)\n2 tins peas (400 g each)\n\
             3 sachets (7 g) dry yeast\n",
            &[
                "yeast .. 3.5 g, 1/2 sachet",
                "beans .. 800 g, 2 tins",
                "peas .. 800 g, 2 tins",
                "dry yeast .. 21 g, 3 sachets",
            ],
        ),
        ("Buns\nFlour: 1kg; Milk: 450g; Salt: 18g\n", &["flour .. 1 kg", "milk .. 450 g", "salt .. 18 g"]),
        (
            "Muffins\n250g flour, 2 tsp oil, 1/2 tsp each salt and sugar, 7g yeast\n",
            &["oil .. 2 tsp", "salt .. 1/2 tsp", "sugar .. 1/2 tsp", "yeast .. 7 g"],
        ),
    ] {
        holds(&sound(notes), wanted);
    }
}

/// Sheets saved with semicolons, columns in any order, two lists beside each other, weights in both systems beside a share.
#[test]
fn rows_may_have_any_columns() {
    for (notes, wanted) in [
        ("Rolls\nItem;Qty;Unit\nWheat flour;2,5;kg\nWater;1,6;l\n", &["wheat flour .. 2.5 kg", "water .. 1.6 l"][..]),
        ("Rolls\nQty,Unit,Item\n2.5,kg,Wheat flour\n60,g,Salt\n", &["wheat flour .. 2.5 kg", "salt .. 60 g"]),
        (
            "Buns\n500 g flour          60 g butter\n10 g salt\t1 egg\n",
            &["flour .. 500 g", "butter .. 60 g", "egg .. 1"],
        ),
        (
            "Buns\n| Ingredient | Metric | US | % |\n| Bread flour | 900 g | 2 lb | 100 |\n| Milk | 500 g | 1 lb 1.6 oz | 55.5 |\n",
            &["bread flour .. 900 g = 2 lb = 100 %", "milk .. 500 g = 1 lb 1.6 oz = 55.5 %"],
        ),
        (
            "English muffins: bread flour 100%, milk 68%, instant yeast 1.2%. 16 @ 95g. Mix 8 min.\n",
            &[
                "recipe English muffins",
                "bread flour .. 100 %",
                "instant yeast .. 1.2 %",
                "divide 16 x 95 g",
                "mix: hands 8 min",
            ],
        ),
    ] {
        holds(&sound(notes), wanted);
    }
}

/// What makes it another ingredient may stand behind it; what was done to it does not.
#[test]
fn words_behind_a_name_may_be_of_it() {
    holds(
        &sound(
            "Buns\nYeast (fresh): 35g\nFlour (rye) 200 g\nMilk, skimmed 100 g\nbutter, melted 50 g\ncream, whipped 80 g\n\
             walnuts, chopped 40 g\n",
        ),
        &[
            "fresh yeast .. 35 g",
            "rye flour .. 200 g",
            "skimmed milk .. 100 g",
            "butter .. 50 g, melted",
            "cream .. 80 g, whipped",
            "walnuts .. 40 g, chopped",
        ],
    );
}

/// Stages that name each other by their number, with their rest behind them, and the dough that takes the last.
#[test]
fn stages_take_each_other_by_number() {
    let made = sound(
        "Rye\nStage 1: 20 g rye, 30 g water - 6h at 26C\nStage 2: all of stage 1, 120 g rye, 100 g water; 8 h 24C\n\
         Stage 3: stage 2 + 350 g rye + 350 g water\nFinal dough\nstage 3 (all)\n500 g rye\n350 g water\n",
    );
    holds(
        &made,
        &["stage 1 .. all", "stage 2 .. all", "stage 3 .. all", "rest: wait 6 h, at 26 C", "rest: wait 8 h, at 24 C"],
    );
    let dough = made.text.split("part final dough").nth(1).unwrap_or_default();
    assert!(dough.contains("500 g") && dough.contains("stage 3") && !made.text.contains("second rye"), "{}", made.text);
}

/// What stands above a letter is no recipe's name.
#[test]
fn a_letter_is_about_its_subject() {
    let made = sound("From: Anne\nTo: me\nSubject: Re: knots\n\n550 g flour\n(a) 300 g milk\n(b) 7 g salt\n");
    holds(&made, &["recipe knots", "milk .. 300 g", "salt .. 7 g"]);
}

#[test]
fn headings_need_no_sign() {
    let notes = "Quay slices\n16 slices\n\nPastry\n250 g plain flour\n125 g butter\n\nSponge\n4 eggs\n120 g caster sugar\n\n\
        ## Condiment (keeps 2 weeks)\n200 g gherkins\n\nGrandmother's Crumb\n100 g oats\n\n**Finish (300 g)**\n90 g jam\n\n\
        Method\nMix flour and butter for 3 minutes.\nfridge overnight\n";
    let draft = sound(notes);
    holds(
        &draft,
        &[
            "makes 16 slices",
            "part pastry",
            "part sponge",
            "part condiment",
            "keeps 2 weeks",
            "part grandmother's Crumb",
            "part finish",
            "chill: wait 8-12 h, at 4 C",
        ],
    );
    assert!(draft.text.contains("# look (said in the heading): **Finish (300 g)**"), "{}", draft.text);
    assert!(draft.text.contains("overnight is read as 8 to 12 h, the fridge as 4 C"), "{}", draft.text);
}
