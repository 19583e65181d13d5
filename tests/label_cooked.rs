//! Labels of what is cooked in parts, boiled down, fried and pickled: what stays raw, what stays in, and what its name names.

#![allow(clippy::expect_used, clippy::panic)]

use std::fs;
use std::process::Command;

fn run(recipe: &str, arguments: &[&str]) -> (bool, String) {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args([&["label", "a.miche", "--format", "markdown"], arguments].concat())
        .current_dir(folder.path())
        .output()
        .expect("it runs");
    let fine = output.status.success();
    let all = if fine { output.stdout } else { [output.stdout, output.stderr].concat() };
    (fine, String::from_utf8(all).expect("UTF-8"))
}

fn page(recipe: &str, arguments: &[&str]) -> String {
    let (fine, text) = run(recipe, arguments);
    assert!(fine, "{text}");
    text
}

fn list(page: &str) -> &str {
    page.lines().find(|line| line.starts_with("Ingredients")).expect("a list")
}

/// A figure of the first column of the table, as it is printed.
fn row<'a>(page: &'a str, name: &str) -> &'a str {
    let line = page.lines().find(|line| line.starts_with('|') && line.contains(name)).expect("a row");
    line.split('|').nth(2).expect("a cell").trim()
}

/// Regulation (EU) 1169/2011, Articles 9(1)(j) and 27: how it is used, where one could hardly use it rightly without being told. What is cooked
/// in one part leaves raw what another adds: meat, fish, egg, flour and rice alike.
#[test]
fn what_one_part_cooks_leaves_raw_what_another_adds() {
    let of = |raw: &str, how: &str| {
        page(
            &format!(
                "recipe Plate\nmakes 4 plates\n\npart sauce\ntomato .... 400 g\nonion .... 100 g\nstew: tend 20 min, using hob\n    Stew {{tomato}} with {{onion}}.\n\n\
                 part plate\nsauce .... all\n{raw} .... 300 g\n{how}: hands 5 min\n    Mix {{{raw}}} with {{sauce}}.\n"
            ),
            &[],
        )
    };
    for raw in ["minced beef", "salmon", "egg", "plain flour", "long-grain rice", "split peas", "prawns"] {
        let (cold, hot) = (of(raw, "fold"), of(raw, "simmer"));
        assert!(cold.contains(&format!("raw {raw}")), "{raw}: {cold}");
        assert!(!hot.contains(&format!("raw {raw}")), "{raw}: {hot}");
    }
    // What is strewn on when it is roasted is raw.
    let roast = "recipe Roast\nmakes 4 plates\nchicken breast .... 800 g\nplain flour .... 40 g\nroast: tend 60 min, using oven at 180 C\n    Roast {chicken \
                 breast}, dusted with {30 g of plain flour}.\ncarve: hands 5 min\n    Carve.\n";
    let said = page(roast, &[]);
    assert!(!said.contains("holds raw"), "{said}");
    let strewn = page(&roast.replace("Carve.", "Carve; strew {rest of plain flour}."), &[]);
    assert!(strewn.contains("raw plain flour") && !strewn.contains("raw chicken"), "{strewn}");
}

/// A custard that is stirred until it has 28 °C is raw egg (the slip of 82); milk that is scalded and left until it has 28 °C is scalded. Common
/// practice, no source; FDA Food Code 3-401.11 has nothing below 54 °C (from memory).
#[test]
fn what_is_done_at_blood_heat_is_not_cooked() {
    let of = |words: &str, until: &str| {
        let recipe = format!(
            "recipe Cold cream\nmakes 8 pots\nwhole milk .... 500 g\negg yolk .... 100 g\ncaster sugar .... 90 g\ncook: tend 12 min, using hob\n    {words}\n    until {until}\n"
        );
        page(&recipe, &[]).contains("raw egg yolk")
    };
    let stir = "Stir {whole milk}, {egg yolk} and {caster sugar} over the heat.";
    assert!(of(stir, "{28 C}") && !of(stir, "{82 C}") && !of(stir, "it coats a spoon"));
    assert!(!of("Boil {whole milk}, {egg yolk} and {caster sugar}; leave.", "{28 C}"));
}

/// Annex VII, Part A, 1: added water counts as what is left of it in what is sold, also in brackets. 300 g of water on 100 g of plums boil down
/// to 30 g.
#[test]
fn water_in_brackets_is_what_is_left_of_it() {
    let cake = "recipe Buns\nmakes 4 buns, bake loss 10 %\n\npart filling\nwater .... 300 g\nplum .... 100 g\ncaster sugar .... 120 g\nmakes 250 g, loss 52 %\nboil: tend 30 min, \
                using hob\n    Boil {water}, {plum} and {caster sugar}.\n\npart buns\nplain flour .... 500 g\nwhole milk .... 300 g\nfilling .... all\nbake: tend \
                20 min, using oven at 200 C\n    Bake {plain flour}, {whole milk} and {filling}.\n";
    let of = |grams: &str, loss: &str, bake: &str| {
        let recipe = cake.replace("makes 250 g, loss 52 %", &format!("makes {grams} g, loss {loss} %"));
        page(&recipe.replace("bake loss 10 %", &format!("bake loss {bake} %")), &[])
    };
    for (grams, loss, bake, wanted) in [
        // 30 g of water, and the oven takes more.
        ("250", "52", "10", "filling (caster sugar, plum)"),
        // Of 200 g 188 are left, more than the sugar.
        ("420", "19.2", "1", "filling (water, caster sugar, plum)"),
        // Of 90 g 79 are left, 7 % of what is sold.
        ("310", "40.4", "1", "filling (caster sugar, plum, water)"),
        // The oven takes 122 of 200 g, or all of them.
        ("420", "19.2", "10", "filling (caster sugar, plum, water)"),
        ("420", "19.2", "20", "filling (caster sugar, plum)"),
    ] {
        let page = of(grams, loss, bake);
        assert!(list(&page).contains(wanted), "{grams} g, {bake} %: {}", list(&page));
    }
    assert!(list(&page(cake, &["--law", "us"])).contains("filling (water, caster sugar, plum)"));
}

/// Jam is filled by the jar, and what it lost is water all the same: (1800 + 0.0992 x 2000) / 2720 is 73.5 % of sugar (USDA SR26 09279: plums hold
/// 9.92 g of sugars in 100 g), whether the file says `divide` or `makes`. A dough that is divided loses dough.
#[test]
fn what_boils_away_from_jars_is_water() {
    let jam = |made: &str| {
        page(
            &format!(
                "recipe Plum jam\nmakes 8 jars\n\npart jam\nplum .... 2000 g\ncaster sugar .... 1800 g\n{made}\nboil: tend 40 min, using hob\n    Boil {{plum}} and {{caster \
                 sugar}}.\njar: hands 30 s\n    Fill.\n"
            ),
            &[],
        )
    };
    let (divided, made) = (jam("divide 8 x 340 g, loss 28.5 %"), jam("makes 2720 g, loss 28.5 %"));
    assert_eq!((row(&divided, "of which sugars"), row(&made, "of which sugars")), ("73 g", "73 g"), "{divided}");
    assert_eq!(row(&divided, "energy"), row(&made, "energy"));
    let dough = page(
        "recipe Rolls\nmakes 10 rolls\nplain flour .... 600 g\nwater .... 400 g\ndivide 10 x 90 g, loss 10 %\nmix: hands 9 min\n    Mix all.\n",
        &[],
    );
    // 600 g of flour of 76.3 % carbohydrate less 2.7 % fibre and 0.99 % protein by factor, in 1000 g and not in 900.
    assert!(row(&dough, "carbohydrate").starts_with("43") || row(&dough, "carbohydrate").starts_with("44"), "{dough}");
}

/// What is fried takes up fat, and nobody reads off a recipe how much: the rows that hold any say `at least`. What a tin is greased with is next
/// to nothing, and what is written as an ingredient is counted.
#[test]
fn fat_that_is_fried_in_stays_in_by_an_open_weight() {
    let of = |line: &str, step: &str| {
        page(
            &format!(
                "recipe Rings\nmakes 10 rings\nplain flour .... 500 g\nwhole milk .... 300 g\n{line}\nmix: hands 9 min\n    Mix {{plain flour}} and {{whole \
                 milk}}.\n{step}\n"
            ),
            &[],
        )
    };
    let fry = "fry: tend 4 min, using fryer at 175 C\n    Fry in {sunflower oil}.\n    until brown";
    let fried = of("sunflower oil .... 1.5 kg, aside", fry);
    for name in ["energy", "| fat", "of which saturates"] {
        assert!(row(&fried, name).starts_with("at least"), "{name}: {fried}");
    }
    assert!(
        !row(&fried, "protein").contains("at least") && fried.contains("how much of sunflower oil stays"),
        "{fried}"
    );
    let counted = of("sunflower oil .... 60 g", fry);
    assert!(!row(&counted, "| fat").contains("at least"), "{counted}");
    let greased = of(
        "sunflower oil .... 10 g, aside",
        "bake: tend 20 min, using oven at 200 C\n    Grease with {sunflower oil}; bake.",
    );
    assert!(!row(&greased, "| fat").contains("at least"), "{greased}");
}

/// A brine that says what it boils down to, poured over cold, leaves nothing to be said of what cooking takes.
#[test]
fn what_a_cooked_part_says_is_said() {
    let pickle = "recipe Pickled cucumbers\nmakes 4 jars\n\npart brine\nvinegar .... 800 g\nwater .... 700 g\nsalt .... 80 g\nmakes 1.5 kg, loss 5 %\nboil: tend 5 min, using \
                  hob\n    Boil {vinegar}, {water} and {salt}.\n\npart jars\ncucumber .... 2 kg\nbrine .... 1.5 kg\npack: hands 20 min\n    Pack {cucumber}; pour {brine} over.\n";
    let said = page(pickle, &[]);
    assert!(!said.contains("nobody says what cooking takes") && said.contains("as it is put together"), "{said}");
    let open =
        page(&pickle.replace("makes 1.5 kg, loss 5 %\n", "").replace("brine .... 1.5 kg", "brine .... all"), &[]);
    assert!(open.contains("nobody says what cooking takes"), "{open}");
    // What has no weight is named; a few leaves weigh next to nothing, and count as that.
    let with = |line: &str| run(&pickle.replace("cucumber .... 2 kg", &format!("cucumber .... 2 kg\n{line}")), &[]);
    let (fine, why) = with("stock cube .... 4");
    assert!(!fine && why.contains("`stock cube`") && why.contains("one weighs"), "{why}");
    assert!(with("bay leaf .... 4").0);
}

/// Directive 76/211/EEC: one piece has one weight on a label. 106 g less 9 % are 96.46 g.
#[test]
fn a_piece_has_one_weight() {
    let bun = page(
        "recipe Buns\nmakes 10 buns, bake loss 9 %\nplain flour .... 660 g\nwater .... 400 g\ndivide 10 x 106 g\n",
        &[],
    );
    assert!(bun.contains("Net weight: 96.4 g a piece") && bun.contains("per piece (96.4 g)"), "{bun}");
}

/// Article 22(1)(a): what the name names. Bread in `bread ice cream` is an ingredient, and cream in `ice cream` is none; of a sourdough the spoonful
/// that it began with is not what the name speaks of; a sort has a name, too.
#[test]
fn a_name_names_what_is_in_it_and_not_what_it_is() {
    let ice = |title: &str| {
        page(
            &format!(
                "recipe {title}\nmakes 1.5 kg\nwhole milk .... 700 g\ndouble cream .... 400 g\nbrown bread .... 250 g\ncaster sugar .... 150 g\nchurn: tend 40 min\n    Churn all.\n"
            ),
            &[],
        )
    };
    let bread = ice("Brown bread ice cream");
    assert!(bread.contains("Quantity: brown bread 17 %") && !bread.contains("Quantity: double cream"), "{bread}");
    assert!(!ice("Brown bread").contains("Quantity: brown bread"));
    assert!(ice("Double cream mousse").contains("Quantity: double cream 27 %"));
    let flour = page("recipe Bread rolls\nmakes 10 rolls\nbread flour .... 600 g\nwater .... 400 g\n", &[]);
    assert!(!flour.contains("Quantity:"), "{flour}");

    let loaf = "recipe Sourdough\nmakes 2 loaves, bake loss 12 %\n\npart levain, from dough\nstrong white flour .... 20 %\nwater .... 20 %\nsourdough starter .... 2 %\n\n\
                part dough\nstrong white flour .... 1 kg\nwater .... 70 %\nsalt .... 2 %\nsourdough starter .... 2 %\ndivide 2 x 870 g\n";
    assert!(!page(loaf, &[]).contains("Quantity:"), "{}", page(loaf, &[]));
    let crackers = "recipe Sourdough crackers\nmakes 20 crackers\nsourdough starter .... 400 g\nplain flour .... 300 g\nbutter .... 80 g\n";
    assert!(page(crackers, &[]).contains("Quantity: sourdough starter 51 %"), "{}", page(crackers, &[]));
}

/// Common practice and USDA SR28 14415: a cream liqueur holds milk; a coffee liqueur does not.
#[test]
fn a_cream_liqueur_holds_milk() {
    let cake =
        |liqueur: &str| page(&format!("recipe Cake\nmakes 1 cake\nplain flour .... 500 g\n{liqueur} .... 50 g\n"), &[]);
    assert!(cake("cream of coffee liqueur").contains("**milk**"), "{}", cake("cream of coffee liqueur"));
    assert!(!cake("coffee liqueur").contains("**milk**"));
}

/// Article 9(1)(k) asks the strength of drinks only; of what is called flour or meat nobody asks whether there is alcohol in it, though no larder
/// knows it.
#[test]
fn what_is_no_spirit_holds_no_alcohol() {
    let of = |name: &str| {
        let recipe = format!("recipe Cake\nmakes 1 cake\nplain flour .... 500 g\n{name} .... 50 g\n");
        page(&recipe, &["--report"]).contains(&format!("whether there is any in {name}"))
    };
    assert!(!of("oldmill wheat flour") && of("harbour dram"));
}

/// A pot through which pieces go is poured off: no buyer knows its name, and what clings of it stands last; of its lye no quantity is said.
/// Common practice, no source.
#[test]
fn a_pot_that_is_poured_off_stands_last() {
    let of = |pot: &str, used: &str| {
        page(
            &format!(
                "recipe Lye knots\nmakes 10 knots\n\npart dough\nstrong white flour .... 600 g\nwater .... 330 g\nsalt .... 12 g\ndivide 10 x 94 g\n\
                 mix: hands 10 min\n    Mix {{strong white flour}}, {{water}} and {{salt}}.\n\npart pot\nwater .... 4000 g\n{pot}\n\
                 heat: tend 20 min, using hob\n    Bring {{{used}}} and {{water}} to the boil.\n\npart knots\nper piece\ndough .... 1 piece\n\
                 pot .... 400 g, strained out\npoach: tend 1 min, using hob\n    Poach {{dough}} in {{pot}}.\nbake: tend 16 min, using oven at 240 C\n    until gold\n"
            ),
            &[],
        )
    };
    for (pot, used, last) in [
        ("whole milk .... 1000 g", "whole milk", "milk"),
        ("malt syrup .... 60 g", "malt syrup", "malt syrup"),
        ("lye .... 120 g", "lye", "sodium hydroxide"),
    ] {
        let text = of(pot, used);
        let list = text.lines().find(|line| line.starts_with("Ingredients: ")).unwrap_or_else(|| panic!("{text}"));
        assert!(!list.contains("pot (") && list.starts_with("Ingredients: strong white flour"), "{list}");
        assert!(list.rsplit(", ").next().is_some_and(|end| end.contains(last)), "{list}");
        assert!(!text.contains("Quantity: lye"), "{text}");
    }
}

/// A part that is called as its fruit: 1000 g of pear and 100 g of sugar are cooked to 800 g, all of it goes into 1400 g of tarts. By hand 1000 / 1400
/// is 71 %, where the part added to its own fruit would be 129 %. And seeds are a kind as nuts are (Article 22(1)(a), from memory).
#[test]
fn a_quantity_counts_nothing_twice() {
    let tarts = "recipe Pear tarts\nmakes 10 tarts\npart pear\npear .... 1000 g\ncaster sugar .... 100 g\nmakes 800 g, loss 27.3 %\n\
                 cook: tend 20 min, using hob\n    Cook {pear} with {caster sugar}.\npart tarts\nper piece\npuff pastry .... 60 g\npear .... 80 g\n\
                 fill: hands 30 s, each\n    Fill {puff pastry} with {pear}.\nbake: tend 20 min, using oven at 200 C\n    until gold\n";
    let text = page(tarts, &[]);
    assert!(text.contains("Quantity: pear 71 %"), "{text}");
    let loaf = "recipe Loaf with seeds\nmakes 1 loaf\nstrong white flour .... 500 g\nwater .... 350 g\nflaxseed .... 50 g\nsunflower seeds .... 100 g\n";
    let text = page(loaf, &[]);
    assert!(
        text.contains("Quantity: ") && text.contains("flaxseed 5 %") && text.contains("sunflower seeds 10 %"),
        "{text}"
    );
}
