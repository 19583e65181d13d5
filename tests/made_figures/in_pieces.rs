//! Pieces that come out whole, and what is counted at another size.

use super::{Bench, line, part};

const BUNS: &str = "recipe Buns\nmakes 4 buns\nstrong white flour .... 330 g\nwater .... 215 g\nsalt .... 7 g\ninstant yeast .... 3 g\ndivide 4 x 137.5 g, loss 0.9 %\n\
                    mix: hands 12 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nshape: hands 1 min, each\n";

/// 549 g of dough that is divided into pieces of 137.5 g are four of 137.25, and not 3.99; 520 g are 3.78, and no whole number is near.
#[test]
fn a_weight_a_hair_from_whole_pieces_is_whole_pieces() {
    let tray = |grams: i64| {
        format!(
            "recipe Tray\nuse \"buns.miche\"\npart tray\nBuns .... {grams} g\nbutter .... 51 g\nput: hands 5 min\n    Put {{Buns}} on {{butter}}.\n"
        )
    };
    let divided = |grams: i64, units: &str| {
        let bench = Bench::of(&[("buns.miche", BUNS), ("tray.miche", &tray(grams))]);
        bench.run(&["card", "tray.miche", "--units", units]).1
    };
    assert!(divided(549, "metric").contains("divide 4 × 137.3 g"), "{}", divided(549, "metric"));
    assert!(divided(549, "us").contains("divide 4 × 4.85 oz"), "{}", divided(549, "us"));
    assert!(divided(520, "metric").contains("divide 3.78 × 137.5 g"), "{}", divided(520, "metric"));
}

/// Four pieces of 4.85 oz (137.495 g, ounce of 28.349523125 g) are 549.98 g, printed as 550 g: who asks for 550 g gets them.
#[test]
fn a_total_as_good_as_whole_pieces_is_made() {
    let buns = BUNS.replace("137.5 g", "4.85 oz");
    let bench = Bench::of(&[("buns.miche", &buns)]);
    let (code, text, problem) = bench.run(&["card", "buns.miche", "--total", "550 g"]);
    assert!(code == 0 && text.contains("**4 buns**"), "{text}{problem}");
    let (code, _, problem) = bench.run(&["card", "buns.miche", "--total", "555 g"]);
    assert!(code == 2 && problem.contains("pieces stay whole"), "{problem}");
}

/// Common practice, no source: nobody counts 5.07 bay leaves. 3 × 1.69 = 5.07 are 5, 2 × 1.69 = 3.38 onions 3 1/2; a half stays one, and what
/// is written stays what it is.
#[test]
fn what_is_counted_is_counted_as_it_is_cut() {
    let stew = "recipe Stew\nbrown lentils .... 500 g\nwater .... 1500 g\nsalt .... 12 g\nbay leaf .... 3\nonion .... 2\nstar anise .... 1\nboil: tend 40 min, using hob\n    \
                Boil {brown lentils}, {water}, {salt}, {bay leaf}, {onion} and {star anise}.\n    until soft\n";
    let bench = Bench::of(&[("stew.miche", stew)]);
    let card = |times: &str| bench.json(&["card", "stew.miche", "--times", times]);
    let of =
        |times: &str, name: &str, key: &str| line(part(&card(times), "Stew"), name)[key].as_str().unwrap().to_owned();
    assert_eq!([of("1.69", "bay leaf", "shown"), of("1.69", "onion", "measure")], ["5", "3½"]);
    assert_eq!([of("1/2", "bay leaf", "shown"), of("1/3", "star anise", "shown")], ["1½", "⅓"]);
    let (_, text, _) = bench.run(&["card", "stew.miche", "--times", "1.69"]);
    assert!(text.contains("5 bay leaves") && !text.contains("5.07"), "{text}");
    let (_, text, _) = bench.run(&["card", "stew.miche", "--times", "1.69", "--for", "reader"]);
    assert!(text.contains("5 bay leaves") && !text.contains("5.07"), "{text}");
}

/// A levain of 1200 g with 120 g of its own to spare is made 1.1 times, and so takes 220 g of what is taken out of it first: of 270 g with 50
/// to spare 220 are used.
#[test]
fn what_is_left_of_a_preferment_takes_of_the_one_before_it() {
    let chain = "recipe Rye\npart first, from levain\nrye flour .... 100 g\nwater .... 100 g\nspare 50 g\npart levain, from dough\nrye flour .... 600 g\nwater .... 600 g\n\
                 spare 120 g\npart dough\nrye flour .... 2 kg\nstrong white flour .... 3 kg\nwater .... 3.5 kg\nsalt .... 100 g\n";
    let bench = Bench::of(&[("rye.miche", chain)]);
    let (_, text, problem) = bench.run(&["card", "rye.miche"]);
    assert!(text.contains("makes 270 g, 220 g used, 50 g spare"), "{text}{problem}");
    assert!(text.contains("makes 1320 g, 1200 g used, 120 g spare"), "{text}");
}

/// One apple is 182 g edible of 90 %, so 202.2 g on the shelf, whatever a recipe cuts off it: 17 are 3438 g, of which at a yield of 80 % 2750 g go
/// in; and for 2600 g that go in, 3250 g, 17 are bought and not 15.
#[test]
fn an_apple_is_the_same_apple_at_another_yield() {
    let pie = "recipe Pies\nmakes 13 pies\napple .... 2.6 kg, yield 80 %\nbutter .... 100 g\nstew: tend 20 min, using hob\n    Stew {apple} in {butter}.\n    until soft\n";
    let bench = Bench::of(&[("pie.miche", pie)]);
    let (_, list, problem) = bench.run(&["list", "pie.miche"]);
    assert!(list.contains("17 pieces"), "{list}{problem}");
    let stew = pie.replace("makes 13 pies\n", "");
    let bench = Bench::of(&[("pie.miche", &stew)]);
    let (_, card, problem) = bench.run(&["card", "pie.miche", "--have", "apple=17"]);
    assert!(card.contains("2750 g") || card.contains("2751 g"), "{card}{problem}");
}

/// Three bay leaves and two star anise weigh nothing that anybody weighs, and so does the sachet that they make: it is taken without a weight, no line
/// says that it makes 0 g, and nothing is out of proportion.
#[test]
fn a_sachet_of_leaves_is_taken_without_a_weight() {
    let stew = "recipe Stew pots\nmakes 10 pots\npart sachet\nbay leaf .... 3\nstar anise .... 2\ntie: hands 3 min\n    Tie {bay leaf} and {star anise}.\npart stew\n\
                brown lentils .... 500 g\nwater .... 1500 g\nsalt .... 12 g\nsachet .... all\nboil: tend 40 min, using hob\n    Boil {brown lentils}, {water}, {salt} and {sachet}.\n    \
                until soft\n";
    let bench = Bench::of(&[("stew.miche", stew)]);
    let (code, text, problem) = bench.run(&["check", "stew.miche"]);
    assert!(code == 0 && !format!("{text}{problem}").contains("out-of-proportion"), "{text}{problem}");
    let (_, text, problem) = bench.run(&["card", "stew.miche", "--for", "reader"]);
    assert!(text.contains("12 g salt and sachet."), "{text}{problem}");
    let (_, text, problem) = bench.run(&["card", "stew.miche"]);
    assert!(
        text.contains("12 g salt and sachet.") && !text.contains(" 0 g") && text.contains("2012 g"),
        "{text}{problem}"
    );
}

/// 13.8 kg of buns of 137.5 g are 100.36 for one tray, and 27.6 kg 200.73 for two: 100 and 201 whole ones, at each size by themselves, and no
/// half of 201.
#[test]
fn whole_pieces_are_made_at_each_size() {
    let tray = "recipe Tray\nmakes 2 trays\nuse \"buns.miche\"\npart tray\nBuns .... 27.6 kg\nbutter .... 51 g\nput: hands 5 min\n    Put {Buns} on {butter}.\n";
    let bench = Bench::of(&[("buns.miche", BUNS), ("tray.miche", tray)]);
    for (trays, divided) in [("2", "divide 201 × 137.3 g"), ("1", "divide 100 × 138 g"), ("3", "divide 301 × 137.5 g")]
    {
        let (_, text, problem) = bench.run(&["card", "tray.miche", "--pieces", trays]);
        assert!(text.contains(divided), "{trays}: {text}{problem}");
    }
}

/// A sour of 630 g goes into a dough and 100 g of it into crackers besides: 730 g are made, and with 30 g to spare 760.
#[test]
fn what_another_part_takes_of_a_preferment_is_made_too() {
    let two = "recipe Two\npart levain, from dough\nrye flour .... 300 g\nwater .... 300 g\nrye starter .... 30 g\nSPAREripen: wait 8 h, at 24 C\n    \
               Stir {rye flour}, {water} and {rye starter}.\n    until domed\npart dough\nrye flour .... 1000 g\nstrong white flour .... 1000 g\n\
               water .... 1400 g\nrye starter .... 30 g\nsalt .... 40 g\nmix: hands 5 min\n    Mix {rye flour}, {strong white flour}, {water}, {levain} \
               and {salt}.\n    until smooth\npart crackers\nlevain .... 100 g\nplain flour .... 50 g\nsalt .... 2 g\nmix: hands 5 min\n    Mix {levain}, \
               {plain flour} and {salt}.\n    until smooth\npart board\ndough .... all\ncrackers .... all\nserve: hands 1 min\n    Put {dough} by {crackers}.\n";
    for (spare, times, words) in [
        ("", "1", "makes 730 g, 730 g used"),
        ("spare 30 g\n", "1", "makes 760 g, 730 g used, 30 g spare"),
        ("spare 30 g\n", "2", "makes 1520 g, 1460 g used, 60 g spare"),
    ] {
        let bench = Bench::of(&[("two.miche", &two.replace("SPARE", spare))]);
        let (_, text, problem) = bench.run(&["card", "two.miche", "--times", times]);
        assert!(text.contains(words), "{spare}{times}: {text}{problem}");
        assert!(!problem.contains("left over"), "{problem}");
    }
    let bench = Bench::of(&[("two.miche", &two.replace("SPARE", ""))]);
    // 700 g of rye flour in the dough, 300 g in its levain, and 300 × 100/630 = 47.6 g in the hundred grams for the crackers.
    let (_, list, problem) = bench.run(&["list", "two.miche"]);
    assert!(list.contains("1048 g") || list.contains("1047.6 g"), "{list}{problem}");
}

/// Of six leaves of gelatine nine tenths are 5.4: five would set 7 % softer, 5 1/2 is 2 % more. Two packets at 14 g are five at 35 g, and at
/// 20 g none that anybody has.
#[test]
fn what_can_be_cut_is_cut_to_the_nearest_quarter() {
    let jelly = "recipe Jelly\nwater .... 1000 g\ngelatine leaf .... 6\ntin of tomatoes .... 3\ninstant yeast .... 14 g, 2 packets\n\
                 boil: tend 12 min, using hob\n    Boil {water}, {gelatine leaf}, {tin of tomatoes} and {instant yeast}.\n    until thick\n";
    let bench = Bench::of(&[("jelly.miche", jelly)]);
    let card = |times: &str| bench.json(&["card", "jelly.miche", "--times", times]);
    let of = |times: &str, name: &str, key: &str| line(part(&card(times), "Jelly"), name)[key].clone();
    assert_eq!(of("0.9", "gelatine leaf", "shown"), "5½");
    assert_eq!(of("0.9", "tin of tomatoes", "shown"), "2¾");
    assert_eq!(of("2.5", "instant yeast", "preparation"), "5 packets");
    assert_eq!(of("1/2", "instant yeast", "preparation"), "1 packet");
    assert!(of("10/7", "instant yeast", "preparation").is_null());
}

/// Squares are cut out of what was baked in one: an oven that holds 12 pieces bakes it at once, and of twice as much there are two.
#[test]
fn until_it_is_cut_a_slab_is_one() {
    let slab = "recipe Oat squares\nmakes 24 squares\nuse \"k.miche\"\nbutter .... 300 g\ngolden syrup .... 250 g\nrolled oats .... 600 g\n\
                melt: tend 5 min, using hob\n    Melt {butter} with {golden syrup}; stir in {rolled oats} and press into a lined tin.\n    until even\n\
                bake: tend 25 min, using oven at 170 C\n    until golden\ncool: wait 1 h, at 20 C\ncut: hands 10 min\n    Cut into 24 squares.\n";
    let kitchen = "kitchen Small\noven x 1, holds 12 pieces\nhob x 2\n";
    let loads = |text: &str, more: &[&str]| {
        let bench = Bench::of(&[("slab.miche", text), ("k.miche", kitchen)]);
        let card = bench.json(&[&["card", "slab.miche"], more].concat());
        let steps = card["parts"][0]["steps"].as_array().unwrap().clone();
        let bake = steps.iter().find(|step| step["name"] == "bake").unwrap();
        bake["loads"].as_i64().unwrap_or(1)
    };
    assert_eq!(loads(slab, &[]), 1);
    assert_eq!(loads(slab, &["--pieces", "48"]), 2);
    assert_eq!(loads(slab, &["--pieces", "12"]), 1);
    // What is cut before it is baked is baked in pieces, and what is sliced afterwards was in pieces before.
    let before = slab.replace("bake: ", "portion: hands 5 min\n    Portion into 24 squares.\nbake: ");
    assert_eq!(loads(&before, &[]), 2);
    let bench = Bench::of(&[("slab.miche", slab), ("k.miche", kitchen)]);
    let (_, plan, _) = bench.run(&["plan", "slab.miche"]);
    assert!(!plan.contains("12 pieces") && !plan.contains("1 of 2"), "{plan}");
}

/// What is printed adds up, in grams and in ounces: made less used is left.
#[test]
fn made_less_used_is_left_as_printed() {
    for (plums, used) in [(407, 101), (421, 137), (435, 211), (449, 250), (401, 333)] {
        let text = format!(
            "recipe Jam buns\nmakes 10 buns\npart jam\nplums .... {plums} g\nsugar .... {} g\ncook: tend 20 min, using hob\n    Simmer {{plums}} and {{sugar}}.\n    \
             until thick\npart buns\nbread flour .... 300 g\nwater .... 180 g\njam .... {used} g\nfill: hands 1 min\n    Fill {{bread flour}} with {{water}} and {{jam}}.\n",
            plums / 3
        );
        let bench = Bench::of(&[("it.miche", &text)]);
        let (_, card, _) = bench.run(&["card", "it.miche", "--units", "us"]);
        let row = card.lines().find(|row| row.contains(" used, ")).unwrap().trim_start_matches("- makes ");
        let mut figures =
            row.split(", ").map(|one| twentieths(one.trim_end_matches(" used").trim_end_matches(" left")));
        let (made, used, left) = (figures.next().unwrap(), figures.next().unwrap(), figures.next().unwrap());
        assert_eq!(made, used + left, "{row}");
    }
}

/// `1 lb 11 3/4 oz` in twentieths of an ounce.
fn twentieths(text: &str) -> i64 {
    let (pounds, ounces) =
        text.split_once(" lb").map_or((0, text), |(pounds, rest)| (pounds.parse::<i64>().unwrap(), rest));
    let words: Vec<&str> = ounces.split_whitespace().filter(|word| *word != "oz").collect();
    let of = |word: &str| match word.split_once('/') {
        Some((top, bottom)) => top.parse::<f64>().unwrap() / bottom.parse::<f64>().unwrap(),
        None => word.parse::<f64>().unwrap(),
    };
    #[allow(clippy::cast_possible_truncation)]
    let ounces = (words.iter().map(|word| of(word)).sum::<f64>() * 20.0).round() as i64;
    pounds * 320 + ounces
}

/// 5 loads of 845 g are not 4215 g: the last takes 835 g.
#[test]
fn the_loads_of_what_was_made_add_up_to_it() {
    let text = "recipe Big sour\nmakes 60 loaves\nuse \"k.miche\"\npart dough\nbread flour .... 30 kg\nwater .... 68 %\nsalt .... 2 %\ndivide 60 x 835 g, loss 2 %\n\
                mix: tend 12 min, using mixer\n    Mix {poolish}, {bread flour}, {water} and {salt}.\n    until smooth\n\
                part poolish, from dough\nbread flour .... 6.5 %\nwater .... 7.55 %\nmix: tend 5 min, using mixer\n    Mix {bread flour} and {water}.\n    until even\n";
    let bench = Bench::of(&[("it.miche", text), ("k.miche", "kitchen Small\nmixer x 1, holds 12 kg\nscale 5 g\n")]);
    let (_, card, _) = bench.run(&["card", "it.miche"]);
    assert!(card.contains("4.215 kg") && card.contains("0.845 kg"), "{card}");
    assert!(card.contains("of poolish the last of the 5 loads takes 0.835 kg"), "{card}");
}

/// A bun of 80 g of dough, 3 g of egg and 1.5 g of seeds weighs 84.5 x 0.9 = 76.05 g when it is baked: ten burgers with 70 g of it take 9.2.
#[test]
fn a_weight_that_is_nearly_one_baked_piece_is_told() {
    let buns = "recipe Butter buns\nmakes 20 buns, bake loss 10 %\npart dough\nbread flour .... 1 kg\nwater .... 65 %\nsalt .... 2 %\ninstant yeast .... 1 %\n\
                divide 20 x 80 g\nmix: hands 10 min\n    Mix {bread flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
                part buns\nper piece\ndough .... 1 piece\negg .... 3 g\nsesame seeds .... 1.5 g\nwash: hands 8 s, each\n    Brush {dough} with {egg}, strew with \
                {sesame seeds}.\nbake: tend 14 min, using oven at 200 C\n    until gold\n";
    let said = |taken: &str| {
        let burgers = format!(
            "recipe Burgers\nmakes 10 burgers\nuse \"buns.miche\"\npart burgers\nper piece\nbuns .... {taken}\ncheddar .... 20 g\nbuild: hands 40 s, each\n    \
             Split {{buns}}; lay in {{cheddar}}.\n"
        );
        let (_, text, problems) =
            Bench::of(&[("buns.miche", buns), ("it.miche", &burgers)]).run(&["check", "it.miche"]);
        text + &problems
    };
    assert!(
        said("70 g").contains("70 g of `buns` for one, and one of them weighs 76.1 g: 10 pieces take 9.2 of them"),
        "{}",
        said("70 g")
    );
    assert!(said("760 g").contains("10 pieces take 99.9 of them"), "{}", said("760 g"));
    // As it is weighed, half of one, and crumbs of it.
    for right in ["76 g", "75 g", "38 g", "152 g", "8 g"] {
        assert!(!said(right).contains("of them"), "{right}: {}", said(right));
    }
}
