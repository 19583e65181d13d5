//! What floury hands read: one figure for one thing, in figures that somebody weighs or counts.

use super::Bench;

const KITCHEN: &str = "kitchen Back room\nscale 5 g\nfine scale 0.1 g, up to 500 g\nmixer x 1\noven x 1\n";

/// The table says 221 g a piece; 220 g, as a scale of 5 g shows it, would be another figure on the same card. 1 tsp is 1 tsp.
#[test]
fn a_step_takes_for_a_piece_what_the_table_has() {
    let flats = "recipe Flats\nmakes 6 flats\nuse \"kitchen.miche\"\nmeasures metric\npart dough\nstrong white flour .... 850 g\nwater .... 480 g\n\
        salt .... 17 g\nmix: hands 9 min, using mixer\n    Mix {strong white flour}, {water} and {salt}.\n    until smooth\n\
        part flats\nper piece\ndough .... 221 g\nolive oil .... 1 tsp, aside\nroll: hands 40 s, each\n    Roll {dough} thin; brush with {olive oil}.\n";
    let bench = Bench::of(&[("kitchen.miche", KITCHEN), ("a.miche", flats)]);
    let (_, card, problems) = bench.run(&["card", "a.miche"]);
    assert!(card.contains("| dough | 221 g | 1326 g |"), "{card}{problems}");
    assert!(card.contains("Roll dough (221 g each) thin; brush with olive oil (1 tsp each)."), "{card}");
}

/// 291 + 200 g are 10 1/4 and 7.05 oz on a scale in ounces; 5.5 g are 0.2 oz and 1.1 g 0.04: 17.54 oz, though no scale shows it, since
/// whoever adds up the column comes to that.
#[test]
fn a_sum_in_ounces_is_that_of_its_column() {
    let plain = "recipe Plain\nmakes 8 pieces\nstrong white flour .... 291 g\nwater .... 200 g\nsalt .... 5.5 g\ninstant yeast .... 1.1 g\n\
        divide 8 x 61 g, loss 2 %\nmix: hands 5 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n";
    let bench = Bench::of(&[("a.miche", plain)]);
    let (_, card, problems) = bench.run(&["card", "a.miche", "--units", "us"]);
    assert!(card.contains("**1 lb 1.54 oz**"), "{card}{problems}");
    let (_, card, _) = bench.run(&["card", "a.miche", "--units", "both"]);
    assert!(card.contains("**497.6 g (1 lb 1.54 oz)**"), "{card}");
}

/// Loaves of 450 g grow cold as loaves, not as the 4.5 kg of which they were cut: by the ball of 450 g from 25 °C to 10 °C in 4 °C, in less than
/// three hours.
#[test]
fn a_piece_of_a_sort_grows_cold_as_a_piece() {
    let loaves = "recipe Loaves\nmakes 8 loaves\npart dough\nstrong white flour .... 100 %\nwater .... 65 %\nsalt .... 2 %\ninstant yeast .... 0.4 %\n\
        divide 6 x 450 g small and 2 x 900 g large, loss 2 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n\
        \x20   until smooth\nrise: wait 60 min, at 25 C\npart small loaves\nper small\ndough .... 1 piece\nprove: wait 10 h, at 4 C\n    Lay {dough} in a basket.\n\
        bake: tend 30 min, using oven at 230 C\n    until brown\npart large loaves\nper large\ndough .... 1 piece\nprove: wait 10 h, at 4 C\n    \
        Lay {dough} in a basket.\nbake: tend 45 min, using oven at 230 C\n    until brown\n";
    let bench = Bench::of(&[("a.miche", loaves)]);
    let (_, sums, problems) = bench.run(&["sums", "a.miche"]);
    assert!(sums.contains("prove: 450 g of dough falls to 10 °C"), "{sums}{problems}");
}

/// 13 × 1/10 egg are 1.3: the card and the list say 1¼, as it is cut.
#[test]
fn a_list_counts_as_the_card_does() {
    let buns = "recipe Buns\nmakes 13 buns\npart dough\nstrong white flour .... 500 g\nwater .... 300 g\nmix: hands 9 min\n    \
        Mix {strong white flour} and {water}.\n    until smooth\npart buns\nper piece\ndough .... 61 g\negg .... 1/10, beaten\nbrush: hands 5 s, each\n    \
        Brush {dough} with {egg}.\nbake: tend 15 min, using oven at 210 C\n    until gold\n";
    let bench = Bench::of(&[("a.miche", buns)]);
    let (_, card, _) = bench.run(&["card", "a.miche"]);
    let (_, list, problems) = bench.run(&["list", "a.miche"]);
    assert!(card.contains("egg (1¼ in all)"), "{card}");
    assert!(list.contains("1¼ pieces") && !list.contains("1.3 pieces"), "{list}{problems}");
}

/// 1 tsp of salt of 6 g, of which a sixth is 1 g or 0.035 oz: three readings stand in one pair of brackets. 40 g of water, 8.1 teaspoons of
/// 4.93 g, are 2 tablespoons and 2 teaspoons.
#[test]
fn a_reader_has_no_brackets_in_brackets() {
    let cream = "recipe Cream\nmeasures US\nheavy cream .... 6 cups\nsalt .... 1 tsp\nwater .... 240 g\nwhip: hands 5 min\n    Whip {heavy cream}, {water} and {salt}.\n";
    let bench = Bench::of(&[("a.miche", cream)]);
    for units in ["us", "both"] {
        let (_, page, problems) =
            bench.run(&["card", "a.miche", "--for", "reader", "--units", units, "--times", "1/6"]);
        assert!(page.contains("2 tbsp 2 tsp"), "{page}{problems}");
        let rows: Vec<&str> = page.lines().filter(|line| line.starts_with("- ")).collect();
        assert!(!rows.is_empty() && !rows.iter().any(|row| row.contains("))") || row.contains(") (")), "{page}");
    }
}

/// 57 g are 2.01 oz: a scale in ounces shows 2, 0.53 % less, and nobody is told that it does not show 2 oz. 61 g are 2.15 oz, 0.08 % less.
#[test]
fn a_piece_that_the_scale_shows_is_not_said_to_be_hidden() {
    let rolls = |each: &str| {
        format!(
            "recipe Rolls\nmakes 8 rolls\nstrong white flour .... 100 %\nwater .... 62 %\nsalt .... 2 %\ndivide 8 x {each}\n\
            mix: hands 5 min\n    Mix {{strong white flour}}, {{water}} and {{salt}}.\n    until smooth\n"
        )
    };
    for (each, said, told) in [("57 g", "divide 8 × 2 oz", true), ("61 g", "divide 8 × 2.15 oz", false)] {
        let bench = Bench::of(&[("a.miche", &rolls(each))]);
        let (_, card, problems) = bench.run(&["card", "a.miche", "--units", "us"]);
        assert!(card.contains(said) && !card.contains("is not shown in steps"), "{card}{problems}");
        assert_eq!(card.contains("a piece: rounded by 0.53 %"), told, "{card}");
    }
}

/// Of a formula in load by load no load takes all of a preferment, and what the preferment takes whole goes into none: 300 g of levain in three
/// loads are a third each.
#[test]
fn a_load_takes_its_share_of_a_preferment() {
    let kitchen = "kitchen Back room\nscale 1 g\nmixer x 1, holds 1 kg\noven x 1\n";
    let loaves = "recipe Loaves\nmakes 3 loaves\nuse \"kitchen.miche\"\npart levain, from dough\nrye flour .... all\nwater .... 150 g\n\
        stir: hands 3 min\n    Stir {rye flour} and {water}.\n    until even\npart dough\nstrong white flour .... 1350 g\nrye flour .... 150 g\n\
        water .... 975 g\nsalt .... 30 g\nmix: hands 9 min, using mixer\n    Mix {strong white flour}, {water}, {levain} and {salt}.\n    until smooth\n";
    let bench = Bench::of(&[("kitchen.miche", kitchen), ("a.miche", loaves)]);
    let (_, page, problems) = bench.run(&["card", "a.miche", "--format", "html"]);
    assert!(page.contains("1\u{2044}3 of it"), "{problems}{page}");
    assert!(!page.contains("all of it") && !page.contains("for all loads"), "{page}");
}

/// A block with the price of the yeast that calls it a leaven does not make flour of it: 250 g of water on 250 g of flour are 100 %.
#[test]
fn yeast_is_no_flour() {
    let larder = "ingredient instant yeast\nis leaven\nwater 5 %\ncontains nothing\ncosts 12 EUR per kg, on 2026-11-01\nsource invented\n";
    let batter = "recipe Batter\nuse \"larder.miche\"\nstrong white flour .... 250 g\nwater .... 250 g\ninstant yeast .... 10 g\n";
    let bench = Bench::of(&[("larder.miche", larder), ("a.miche", batter)]);
    let card = bench.json(&["card", "a.miche"]);
    let hydration = card["parts"][0]["hydration_percent"].as_f64().unwrap();
    // 0.5 g of water in the yeast is 0.2 %.
    assert!((100.0..=100.3).contains(&hydration), "{hydration}");
}

/// Of a base of 3.2 kg with 300 ml of oil, 3 tbsp of salt and 6 bay leaves 400 g are drawn, an eighth: 37.5 ml, 3/8 tbsp or 1.1 tsp, and
/// 3/4 of a leaf; of a third of the pies a third of that. The reader's page had a third of all of it.
#[test]
fn a_reader_has_so_much_as_is_drawn() {
    let base = "recipe Onion base\nmakes 3.2 kg\nmeasures metric\nonion .... 2870 g\nolive oil .... 300 ml = 276 g\nsalt .... 54 g = 3 tbsp\nbay leaf .... 6, strained out\n\
        cook: tend 50 min, using hob\n    Cook {onion}, {olive oil}, {salt} and {bay leaf}.\n    until soft\n";
    let pies = "recipe Pies\nmakes 3 pies\nuse \"base.miche\"\npart pies\nper piece\npuff pastry .... 90 g\nOnion base .... 133 g\nfill: hands 30 s, each\n    \
        Fill {puff pastry} with {Onion base}.\nbake: tend 25 min, using oven at 200 C\n    until gold\n";
    let bench = Bench::of(&[("base.miche", base), ("a.miche", pies)]);
    let page = |times: &str| bench.run(&["card", "a.miche", "--for", "reader", "--times", times]).1;
    // 399 of 3200 g: 37.4 ml; of a third 12.5 ml.
    assert!(page("1").contains("37.4 ml") || page("1").contains("37.41 ml"), "{}", page("1"));
    assert!(!page("1").contains("300 ml") && !page("1").contains("3 tbsp"), "{}", page("1"));
    assert!(page("1/3").contains("12.47 ml") || page("1/3").contains("12.5 ml"), "{}", page("1/3"));
}

/// Ginger is printed to a thousandth of an ounce, and so is the sum of what is printed: 17 3/4, 11 1/4, 0.35, 0.12 and 0.032 oz.
#[test]
fn a_sum_in_ounces_is_that_of_the_printed_lines() {
    let rolls = "recipe Plain rolls\nmeasures US\nstrong white flour .. 500 g\nwater .. 320 g\nsalt .. 10 g\ninstant yeast .. 3.5 g\n\
        ground ginger .. 0.9 g\n";
    let bench = Bench::of(&[("rolls.miche", rolls)]);
    let (_, text, _) = bench.run(&["card", "rolls.miche", "--format", "markdown", "--units", "us"]);
    assert!(text.contains("| **1 lb 13.502 oz** |"), "{text}");
}
