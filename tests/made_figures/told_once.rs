//! Figures that are told in two places, or in two units, are one figure.

use super::Bench;

const BUNS: &str = "recipe Buns\nmakes COUNT\nstrong white flour .. 1 kg\nwater .. 600 g\nsalt .. 20 g\ninstant yeast .. 10 g\n\
    mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nbake: tend 12 min, using oven at HEAT\n\
    \x20   until gold\n";

/// A dozen is twelve.
#[test]
fn dozens_are_counted() {
    for (count, pieces, noun) in
        [("3 dozen buns", 36, "buns"), ("2 1/2 dozen buns", 30, "buns"), ("1 dozen", 12, "pieces")]
    {
        let bench = Bench::of(&[("a.miche", &BUNS.replace("COUNT", count).replace("HEAT", "220 C"))]);
        let card = bench.json(&["card", "a.miche"]);
        assert_eq!(card["makes"]["pieces"], pieces, "{count}: {:#}", card["makes"]);
        let (_, text, _) = bench.run(&["card", "--format", "text", "a.miche"]);
        assert!(text.contains(&format!("{pieces} {noun}")), "{count}: {text}");
        // Twice as many are not twenty-four times as many.
        let twice = bench.json(&["card", "--pieces", &(2 * pieces).to_string(), "a.miche"]);
        assert_eq!(twice["parts"][0]["lines"][0]["grams"], 2000, "{count}");
    }
    // A log counts as a head does.
    let bench = Bench::of(&[
        ("a.miche", &BUNS.replace("COUNT", "36 buns").replace("HEAT", "220 C")),
        ("log.miche", "bakes of \"a.miche\"\nbake 2026-11-02, 2 dozen buns\n"),
    ]);
    let (_, log, problems) = bench.run(&["bakes", "log.miche"]);
    assert!(log.contains("24 ") && !log.contains("2 pieces"), "{log}{problems}");
    let part = BUNS.replace("COUNT", "1/5 dozen buns").replace("HEAT", "220 C");
    let (code, told, problems) = Bench::of(&[("a.miche", &part)]).run(&["check", "a.miche"]);
    assert!(code != 0 && format!("{told}{problems}").contains("impossible-number"), "{told}{problems}");
}

/// 425 °F are 218.3 °C, and an oven is set to 220 °C for them: a diff tells them by what was written.
#[test]
fn a_diff_prints_no_thirds_of_a_degree() {
    let heat = |heat: &str| BUNS.replace("COUNT", "24 buns").replace("HEAT", heat);
    let (old, new) = (heat("425 F"), heat("220 C"));
    let bench = Bench::of(&[("old.miche", &old), ("new.miche", &new)]);
    let (_, diff, _) = bench.run(&["diff", "old.miche", "new.miche"]);
    assert!(diff.contains("425 °F") && diff.contains("220 °C") && !diff.contains("218.333"), "{diff}");
    let with = |heat: &str| old.replace("mix:", &format!("desired temperature {heat}\nmix:"));
    let bench = Bench::of(&[("old.miche", &with("78 F")), ("new.miche", &with("25.5 C"))]);
    let (_, diff, _) = bench.run(&["diff", "old.miche", "new.miche"]);
    assert!(diff.contains("25.6 °C") && !diff.contains("25.55"), "{diff}");
}

/// What is meant to be left over and what is left besides: 1140 g made, 1080 g taken, 30 g meant.
#[test]
fn what_is_spare_is_told_apart_from_what_is_left() {
    let text = |spare: &str| {
        format!(
            "recipe Tarts\nmakes 10 tarts\npart cream\nbutter .. 1140 g\n{spare}\nbeat: hands 5 min\n    Beat {{butter}}.\npart tarts\nper piece\n\
             cream .. 108 g\nfill: hands 20 s, each\n    Fill with {{cream}}.\n"
        )
    };
    let card = |spare: &str| Bench::of(&[("a.miche", &text(spare))]).run(&["card", "--format", "text", "a.miche"]).1;
    assert!(card("spare 30 g").contains("1080 g used, 30 g spare, 30 g left"), "{}", card("spare 30 g"));
    assert!(card("spare 60 g").contains("1080 g used, 60 g spare\n"), "{}", card("spare 60 g"));
}

/// 900 g of trimmed leeks at a yield of 70 % are 1286 g of leeks: the bench card says what is fetched for them, as the reader's page does.
#[test]
fn the_bench_card_says_what_is_bought_for_what_is_peeled() {
    let text = "recipe Soup\nmakes 4 bowls\nleek .. 900 g, yield 70 %, sliced\nwater .. 1 kg\nboil: tend 20 min, using hob\n    Boil {leek} in {water}.\n\
        \x20   until soft\n";
    let bench = Bench::of(&[("a.miche", text)]);
    for format in ["text", "markdown", "html"] {
        let (_, card, _) = bench.run(&["card", "--format", format, "a.miche"]);
        let card = card.replace('\u{a0}', " ");
        assert!(card.contains("1.3 kg as bought"), "{format}");
    }
}

/// 36 × 3.35 oz: a quarter of an ounce would be 3 % less. 3.35 oz of dough that lose 11 % are 2.98 oz.
#[test]
fn sums_in_ounces_are_as_fine_as_the_card() {
    let text = "recipe Rolls\nmakes 36 rolls, bake loss 11 %\nstrong white flour .. 73.2 oz\nwater .. 45.3 oz\nsalt .. 1.4 oz\ndried yeast .. 0.77 oz\n\
        divide 36 x 3.35 oz\nmix: hands 10 min\n    Mix.\n    until smooth\n";
    let bench = Bench::of(&[("a.miche", text)]);
    let (_, sums, _) = bench.run(&["sums", "--units", "us", "--format", "text", "a.miche"]);
    for (row, figure) in [("a piece before baking", "3.35 oz"), ("a piece when baked", "2.98 oz")] {
        assert!(sums.lines().any(|line| line.contains(row) && line.contains(figure)), "{row}: {sums}");
    }
}

/// A figure of which some is not known is the least: 90 g of puree may bring the water that lacks, and yogurt of 200 % more than a dough
/// holds (USDA SR28, plain yogurt of whole milk: 87.9 % water).
#[test]
fn the_least_is_only_held_against_the_most() {
    let text = |water: &str, more: &str| {
        format!(
            "recipe Flatbread\nmakes 10 breads\nstrong white flour .. 1 kg\nwater .. {water}\n{more}\nsalt .. 20 g\ninstant yeast .. 10 g\n\
             mix: hands 10 min\n    Mix.\n    until smooth\nrise: wait 60 min, at 25 C\n    until doubled\nbake: tend 8 min, using oven at 250 C\n"
        )
    };
    let told = |water: &str, more: &str| {
        let (_, told, problems) = Bench::of(&[("a.miche", &text(water, more))]).run(&["check", "a.miche"]);
        format!("{told}{problems}").contains("water on its flour")
    };
    assert!(!told("370 g", "rock samphire puree .. 90 g"));
    assert!(told("370 g", "caraway .. 9 g"));
    assert!(told("250 g", "rock samphire puree .. 90 g"));
    // What is poured by eye may be anything.
    assert!(!told("250 g", "levain .. as needed") && told("250 g", "caraway .. to taste"));
    assert!(told("200 g", "yogurt .. 2 kg"));
    assert!(!told("200 g", "yogurt .. 800 g"));
}

/// An amount said twice agrees doubled as it does by itself: 6 tablespoons of rum of 15 ml are 84.6 g by the larder.
#[test]
fn what_agrees_does_so_doubled() {
    let check = |said: &str| {
        let text = format!(
            "recipe Punch\nmakes 4 cups\nmeasures metric\ndark rum .. {said}\nstir: hands 1 min\n    Stir {{dark rum}}.\n"
        );
        let (_, told, problems) = Bench::of(&[("a.miche", &text)]).run(&["check", "a.miche"]);
        format!("{told}{problems}")
    };
    assert!(!check("90 g = 6 tbsp").contains("two-amounts-disagree"));
    assert!(!check("180 g = 12 tbsp").contains("two-amounts-disagree"), "{}", check("180 g = 12 tbsp"));
    assert!(check("220 g = 12 tbsp").contains("two-amounts-disagree"));
}

/// A piece is taken before anybody has cut it.
#[test]
fn pieces_are_not_taken_before_they_are_cut() {
    let text = |before: &str| {
        format!(
            "recipe Slices\nmakes 10 slices\npart sheet\nplain flour .. 500 g\nwater .. 250 g\nbutter .. 250 g\ndivide 10 x 90 g, loss 10 %\n\
             mix: hands 10 min\n    Mix {{plain flour}} and {{water}}; fold in {{butter}}.\n    until layered\ncut: hands 10 min\n    Cut.\nchill: wait 1 h, at 4 C\n\
             part slices\nper piece\nsheet .. 1 piece, before {before}\nplum .. 20 g\nlay: hands 20 s, each\n    Lay {{plum}} on {{sheet}}.\n"
        )
    };
    let told = |before: &str| {
        let (_, told, problems) = Bench::of(&[("a.miche", &text(before))]).run(&["check", "a.miche"]);
        format!("{told}{problems}")
    };
    assert!(told("cut").contains("taken before `cut`"), "{}", told("cut"));
    assert!(!told("chill").contains("taken before"), "{}", told("chill"));
}

/// 300 g of salt in a brine that is poured away: some of it is in the chicken, and nobody can say that an aim is met without it. The label says
/// `not known` of it too.
#[test]
fn an_aim_is_not_met_by_what_a_brine_leaves_behind() {
    let text = |salt: &str, aim: &str| {
        format!(
            "recipe Roast chicken\nmakes 8 portions\n{aim}\nchicken .. 3.2 kg, whole\nwater .. 5 l, strained out\nsalt .. {salt}\n\
             brine: wait 10 h, at 4 C\n    Lay {{chicken}} in {{water}} with {{salt}}; drain.\nroast: tend 80-90 min, using oven at 190 C\n    Roast.\n\
             \x20   until {{75 C}} in the thigh\n"
        )
    };
    let told = |salt: &str, aim: &str| {
        let (_, told, problems) = Bench::of(&[("a.miche", &text(salt, aim))]).run(&["check", "a.miche"]);
        format!("{told}{problems}").contains("[aim-")
    };
    assert!(told("300 g, strained out", "aim salt at most 0.3 % of total"));
    assert!(
        told("300 g, strained out", "aim energy at most 200 kcal per 100 g")
            == told("1 g", "aim energy at most 200 kcal per 100 g")
    );
    assert!(!told("1 g", "aim salt at most 0.3 % of total"));
}

const SHEET: &str = "recipe Sheet sponge\nmakes 12 squares\npart sponge\nplain flour .. 300 g\ncaster sugar .. 300 g\negg .. 300 g\nbutter .. 200 g\n\
    makes 1000 g, loss 9 %, sheet 40 cm x 30 cm\nmix: hands 10 min\n    Whisk.\n    until thick\nbake: tend 22 min, using oven at 180 C\n\
    \x20   until springy\npart squares\nper piece\nsponge .. 80 g\ncut: hands 10 s, each\n    Cut {sponge}.\n";

/// A part's sheet of 40 cm by 30 cm holds 1000 g of sponge: half as much again in length and a third in width twice that; for thirty squares
/// 2400 g of it are two and a half sheets.
#[test]
fn the_tin_of_a_part_is_told() {
    let bench = Bench::of(&[("a.miche", SHEET), ("thin.miche", &SHEET.replace("40 cm x 30 cm", "40 m x 30 m"))]);
    let (_, sums, problems) = bench.run(&["sums", "a.miche", "--format", "text", "--tin", "sheet 60 cm x 40 cm"]);
    let row = |what: &str| sums.lines().find(|line| line.contains(what)).unwrap_or_default();
    assert!(row("what sponge makes in a sheet of 60 cm").ends_with("2000 g"), "{sums}{problems}");
    for format in ["text", "markdown", "html"] {
        let (_, card, _) = bench.run(&["card", "--format", format, "--pieces", "30", "a.miche"]);
        assert!(card.replace('\u{a0}', " ").contains("sheet of 40 cm × 30 cm, 2.5 of them"), "{format}");
    }
    let (_, told, problems) = bench.run(&["check", "thin.miche"]);
    assert!(format!("{told}{problems}").contains("tin-fill"), "{told}{problems}");
}

/// Spoons are quarters of a teaspoon and halves of a tablespoon at every size: 1 tbsp for nine is 1⅓ tsp for four. By the larder's densities 2 g
/// of salt lie between a quarter and a half of a teaspoon, and what goes onto one piece by the spoon is told so.
#[test]
fn spoons_are_those_that_there_are() {
    let text = "recipe Buns\nmakes 9 buns\nmeasures US\nplain flour .. 400 g\nwater .. 250 g\ninstant yeast .. 1 tbsp\nsalt .. 2 tsp\n\
        mix: hands 5 min\n    Mix.\npart glazed\nper piece\nhoney .. 1/4 tsp\ndrip: hands 2 s, each\n    Drip {honey}.\n";
    let bench = Bench::of(&[("a.miche", text)]);
    let (_, card, _) = bench.run(&["card", "--pieces", "4", "--format", "text", "a.miche"]);
    assert!(card.contains("instant yeast (1¼ tsp)") && !card.contains("0.44 tbsp"), "{card}");
    let (_, card, _) = bench.run(&["card", "--pieces", "3", "--format", "text", "a.miche"]);
    assert!(card.contains("salt (¾ tsp)"), "{card}");
    let (_, card, _) = bench.run(&["card", "--format", "text", "a.miche"]);
    assert!(card.lines().any(|line| line.contains("honey") && line.contains("¼ tsp")), "{card}");
    let salt =
        "recipe Dip\nmakes 2 bowls\nyogurt .. 300 g\nsalt .. 2 g\nstir: hands 1 min\n    Stir {yogurt} and {salt}.\n";
    let bench = Bench::of(&[("a.miche", salt)]);
    let (_, card, _) = bench.run(&["card", "--units", "us", "--format", "text", "a.miche"]);
    assert!(card.contains("salt (¼–½ tsp)"), "{card}");
}

/// A weight is what is computed with: 420 g are 100 % of 420 g, whatever three cups of flour weigh.
#[test]
fn a_weight_is_what_a_percentage_is_held_against() {
    let told = |said: &str| {
        let text = format!(
            "recipe Scones\nmakes 12 scones\nmeasures US\nplain flour .. {said}\nwhole milk .. 65 %\nstir: hands 1 min\n    Stir {{plain flour}} and {{whole milk}}.\n"
        );
        let (_, told, problems) = Bench::of(&[("a.miche", &text)]).run(&["check", "a.miche"]);
        format!("{told}{problems}").contains("two-amounts-disagree")
    };
    assert!(!told("3 cups = 420 g = 100 %") && !told("420 g = 3 cups = 100 %"));
    assert!(told("3 cups = 420 g = 90 %"));
}

/// Fruit that goes in whole is bought as it is, nine oranges of 180 g for 1.6 kg; peeled they are thirteen (USDA SR28: an orange of 131 g
/// without its peel, refuse 27 %). A whole onion is peeled all the same.
#[test]
fn whole_fruit_is_bought_as_it_is() {
    let list = |line: &str| {
        let text = format!(
            "recipe Cake\nmakes 4 cakes\n{line}\nsugar .. 1 kg\nboil: tend 2 h, using hob\n    Boil.\n    until soft\n"
        );
        Bench::of(&[("a.miche", &text)]).run(&["list", "--format", "markdown", "a.miche"]).1
    };
    assert!(
        list("orange .. 1.6 kg, whole").contains("| orange | 1.6 kg | 9 pieces |"),
        "{}",
        list("orange .. 1.6 kg, whole")
    );
    assert!(
        list("orange .. 1.6 kg, peeled, whole").contains("13 pieces"),
        "{}",
        list("orange .. 1.6 kg, peeled, whole")
    );
    assert!(
        list("lemon .. 300 g, unpeeled").contains("| lemon | 300 g | 3 pieces |"),
        "{}",
        list("lemon .. 300 g, unpeeled")
    );
    assert_eq!(list("onion .. 300 g, whole").replace("whole", "sliced"), list("onion .. 300 g, sliced"));
    // What is denied, or said of the zest, is not whole; nobody eats the peel of a banana or a mango, and apples are cored.
    for (said, plain) in [
        ("orange .. 2, not whole", "orange .. 2"),
        ("orange .. 2, zest of whole fruit", "orange .. 2"),
        ("lemon .. 2, juice of a whole", "lemon .. 2"),
        ("banana .. 3, whole", "banana .. 3"),
        ("mango .. 2, whole", "mango .. 2"),
        ("avocado .. 2, unpeeled", "avocado .. 2"),
    ] {
        let weight = |line: &str| {
            let text =
                format!("recipe Cake\nmakes 4 cakes\n{line}\nboil: tend 2 h, using hob\n    Boil.\n    until soft\n");
            Bench::of(&[("a.miche", &text)]).json(&["card", "a.miche"])["parts"][0]["lines"][0]["grams"].clone()
        };
        assert_eq!(weight(said), weight(plain), "{said}");
    }
    // Two whole oranges go in with their peel: 131 g / 0.73 each.
    let card = |line: &str| {
        let text =
            format!("recipe Cake\nmakes 4 cakes\n{line}\nboil: tend 2 h, using hob\n    Boil.\n    until soft\n");
        Bench::of(&[("a.miche", &text)]).json(&["card", "a.miche"])["parts"][0]["lines"][0]["grams"].as_f64().unwrap()
    };
    assert!((card("orange .. 2, whole") - 2.0 * 131.0 / 0.73).abs() < 0.5, "{}", card("orange .. 2, whole"));
}

/// A doughnut takes up a tenth of its weight in fat: where no fat is listed that it is fried in, the label's fat is the least and a check asks.
#[test]
fn what_is_fried_in_fat_that_nobody_lists_is_asked_for() {
    let text = |fat: &str, fry: &str| {
        format!(
            "recipe Doughnuts\nmakes 10 doughnuts\nplain flour .. 500 g\nwater .. 250 g\nbutter .. 50 g\nsalt .. 9 g\ninstant yeast .. 8 g\n{fat}\
             mix: hands 10 min\n    Mix.\n    until smooth\n{fry}\n    Fry until gold.\ncaution Hot fat.\n"
        )
    };
    let fryer = "fry: tend 6 min, using fryer at 180 C, 5 at a time";
    let bench = |fat: &str, fry: &str| Bench::of(&[("a.miche", &text(fat, fry))]);
    let asks = |fat: &str, fry: &str| {
        let (_, told, problems) = bench(fat, fry).run(&["check", "a.miche"]);
        format!("{told}{problems}").contains("no fat for it is listed")
    };
    let open = |fat: &str, fry: &str| {
        let (_, label, _) = bench(fat, fry).run(&["label", "--format", "markdown", "a.miche"]);
        label.lines().any(|line| line.starts_with("| fat |") && line.contains("at least"))
    };
    assert!(asks("", fryer) && open("", fryer));
    let oil = "sunflower oil .. 5 l, strained out\n";
    let drawn = "fry: tend 6 min, using fryer at 180 C, 5 at a time\n    Heat {sunflower oil}.";
    assert!(!asks(oil, drawn) && !asks(oil, fryer) && open(oil, drawn));
    let (air, pot) =
        ("fry: tend 4 min, using air fryer at 180 C", "fry: tend 4 min, using hob\n    Fry in deep fat at {180 C}.");
    assert!(!asks("", air) && !open("", air) && asks("", pot) && open("", pot));
    let oven = "bake: tend 20 min, using oven at 180 C";
    assert!(!asks("", oven) && !open("", oven));
}

/// What one way bakes another leaves raw, and its pieces are eaten as they are; a dough that is sold frozen is baked by who buys it.
#[test]
fn what_another_option_leaves_raw_is_told() {
    let told = |raw: &str| {
        let text = format!(
            "recipe Fingers\nmakes 24 fingers\nchoose kind: baked or {raw}\nplain flour .. 300 g\nbutter .. 200 g, cold\ncaster sugar .. 100 g\n\
             rub: hands 8 min\n    Rub {{butter}} into {{plain flour}} and {{caster sugar}}.\n    until like crumbs\n\
             bake: tend 30 min, using oven at 160 C [baked]\n    until pale gold\nchill: wait 2 h, at 4 C [{raw}]\n    until firm\n"
        );
        let (_, told, problems) = Bench::of(&[("a.miche", &text)]).run(&["check", "a.miche"]);
        format!("{told}{problems}").contains("raw-flour-or-egg")
    };
    assert!(told("chilled"));
    assert!(!told("frozen"));
}

/// A line of a preferment stays at what is nearest too: 201.96 g of flour on a scale of 5 g are 200, and so is the water.
#[test]
fn a_preferment_is_rounded_to_what_is_nearest() {
    let kitchen = "kitchen K5\nscale 5 g\n";
    let text = "recipe Loaf\nmakes 3 loaves\nuse \"k5.miche\"\npart poolish, from dough\nstrong white flour .. 33 %\nwater .. 33 %\n\
        stir: hands 3 min\n    Stir.\npart dough\nstrong white flour .. 612 g\nwater .. 69 %\nsalt .. 10 g\ndivide 3 x 345 g\n\
        mix: hands 10 min\n    Mix.\n";
    let bench = Bench::of(&[("a.miche", text), ("k5.miche", kitchen)]);
    let (_, card, problems) = bench.run(&["card", "--format", "text", "a.miche"]);
    let row = |what: &str| card.lines().find(|line| line.trim_start().starts_with(what)).unwrap_or_default().to_owned();
    assert!(row("strong white flour").contains("200 g") && row("water").contains("200 g"), "{card}{problems}");
    assert!(!card.contains("205 g") && card.contains("610 g"), "{card}");
}

/// A dozen and a stick say what they are.
#[test]
fn dozens_and_sticks_of_an_ingredient_are_answered() {
    let help = |line: &str| {
        let text = format!("recipe Cake\nmakes 2 cakes\n{line}\n");
        let (_, told, problems) = Bench::of(&[("a.miche", &text)]).run(&["check", "a.miche"]);
        format!("{told}{problems}")
    };
    assert!(help("egg .. 2 dozen").contains("`24` for two dozen"), "{}", help("egg .. 2 dozen"));
    assert!(help("butter .. 1 stick").contains("`4 oz` or `113 g`"), "{}", help("butter .. 1 stick"));
}

/// Yeast that grew for ten hours in a sponge is more by the mix: the sums say that they do not count that, and name no other weight for it.
#[test]
fn what_a_sponge_has_fermented_is_said_not_to_be_counted() {
    let text = "recipe Loaf\nmakes 8 loaves\nchoose way: direct or sponge\npart sponge, from dough [sponge]\nstrong white flour .. 30 %\nwater .. 20 %\n\
        fresh yeast .. 0.5 %\nstir: hands 4 min\n    Stir.\nripen: wait 10 h, at 18 C\n    until domed\npart dough\nstrong white flour .. 3 kg\n\
        water .. 62 %\nsalt .. 2 %\nfresh yeast .. 3 % [direct]\nfresh yeast .. 1.5 % [sponge]\nmix: hands 12 min\n    Mix.\n    until smooth\n\
        rise: wait 60 min, at 25 C\n    until doubled\nbake: tend 36 min, using oven at 225 C\n    until hollow\n";
    let bench = Bench::of(&[("a.miche", text)]);
    let (_, sums, problems) = bench.run(&["sums", "--format", "markdown", "a.miche"]);
    assert!(sums.contains("has fermented before the mix is not counted"), "{sums}{problems}");
    assert!(!sums.contains("would be as far as"), "{sums}");
    let direct = text.replace("part sponge, from dough [sponge]\nstrong white flour .. 30 %\nwater .. 20 %\nfresh yeast .. 0.5 %\nstir: hands 4 min\n    Stir.\nripen: wait 10 h, at 18 C\n    until domed\n", "");
    let bench = Bench::of(&[("a.miche", &direct)]);
    let (_, sums, problems) = bench.run(&["sums", "--format", "markdown", "a.miche"]);
    assert!(sums.contains("would be as far as") && !sums.contains("before the mix is not counted"), "{sums}{problems}");
}
