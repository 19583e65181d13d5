//! The program's own cautions for the cards: which recipes carry which, in which words, from which source.
//!
//! Figures: FDA Food Code 3-501.14 (cooling: 57 °C to 21 °C in 2 h, to 5 °C in 6 h in all), 3-501.17 (7 days, the day of
//! preparation counted), 3-501.16 (hot holding at 57 °C, from memory), 21 CFR 114.3 (pH 4.6).

#![allow(clippy::expect_used, clippy::panic)]

use miche::check::caution::{Caution, for_recipe};
use miche::check::{check_file, find, work_out};
use miche::edge::loader::{Loader, find_files};
use miche::model::recipe::Selection;
use std::{fs, path::Path};

/// The cautions of a text; `None` when no recipe can be made of it.
fn cautions_if_any(text: &str, place: &Path) -> Option<Vec<Caution>> {
    let mut loader = Loader::new();
    let source = loader.take_text("recipe", text.to_owned(), place);
    let project = loader.into_project();
    let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new())?;
    Some(for_recipe(&recipe, &formula, miche::measure::show::Units::Metric))
}

fn cautions(text: &str, place: &Path) -> Vec<Caution> {
    cautions_if_any(text, place).expect("a recipe")
}

fn of(text: &str) -> Vec<Caution> {
    cautions(text, Path::new("./recipe.miche"))
}

fn says(cautions: &[Caution], check: &str, words: &[&str]) {
    let caution = cautions.iter().find(|caution| caution.check == check);
    let text = &caution.unwrap_or_else(|| panic!("no caution of {check}: {cautions:#?}")).text;
    for word in words {
        assert!(text.contains(word), "`{word}` is missing: {text}");
    }
}

#[test]
fn every_caution_names_its_source_and_defers_to_the_law() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seen = 0;
    for folder in ["examples", "tests/right", "tests/wrong"] {
        for path in find_files(&root.join(folder)).expect("files") {
            let text = fs::read_to_string(&path).expect("UTF-8");
            if !text.lines().any(|line| line.starts_with("recipe ")) {
                continue;
            }
            // Of some wrong files no recipe can be made.
            let found = cautions_if_any(&text, &path);
            assert!(found.is_some() || folder == "tests/wrong", "{}", path.display());
            for caution in found.into_iter().flatten() {
                seen += 1;
                assert!(find(caution.check).is_some(), "{}", caution.check);
                assert!(!caution.source.is_empty());
                assert!(caution.text.contains("local food law"), "{}", caution.text);
            }
        }
    }
    assert!(seen > 100, "{seen} cautions");
}

#[test]
fn a_bread_carries_raw_flour_and_its_allergens_and_no_more() {
    let list =
        of("recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n\
                   bake: tend 15 min, using oven at 220 C\n    until gold\n");
    let checks: Vec<&str> = list.iter().map(|caution| caution.check).collect();
    assert_eq!(checks, ["hidden-allergen", "raw-flour-or-egg"]);
    says(&list, "hidden-allergen", &["US law: wheat", "EU law: cereals containing gluten"]);
    says(&list, "raw-flour-or-egg", &["Raw flour", "before it is baked"]);
}

#[test]
fn cooked_and_chilled_food_carries_the_food_code() {
    let list =
        of("recipe Pea pot\npeas .... 1 kg\nwater .... 2 l\nkeeps 3 days, chilled\nboil: tend 40 min, using hob\n    \
                   Boil {peas} in {water}.\n    until soft\ncool: wait 1 h\nchill: wait 3 h, at 4 C\n\
                   hold: tend 30 min, using hob at 70 C\n");
    says(&list, "slow-cooling", &["57 °C to 21 °C within 2 hours", "5 °C within 6 hours in all"]);
    says(&list, "kept-too-long", &["5 °C or below", "7 days", "the day it is made counted"]);
    says(&list, "held-too-cool", &["57 °C"]);
    // Yoghurt sets warm: who cools it as the Food Code says has none.
    let yoghurt = of(
        "recipe Yoghurt\nwhole milk .... 1 kg\nyoghurt .... 30 g\nheat: tend 15 min, using hob\n    Heat {whole milk} to {85 C}.\n\
         cool: wait 45 min\n    until {43 C}\nstir: hands 1 min\n    Stir in {yoghurt}.\nripen: wait 6 h, at 42 C\n    until set\n\
         chill: wait 6 h, at 4 C\n",
    );
    assert!(yoghurt.iter().all(|caution| caution.check != "slow-cooling"), "{yoghurt:#?}");
    // A spoon of it at the end of a curry or a soup, and yoghurt that is chilled at once, sour nothing.
    for (body, sour) in [("chicken thigh", "yoghurt"), ("leek", "buttermilk"), ("whole milk", "yoghurt")] {
        let stirred = of(&format!(
            "recipe Supper\nkeeps 3 days, chilled\n{body} .... 1 kg\nwater .... 100 g\n{sour} .... 150 g\ncook: tend 40 min, using hob\n    \
             Boil {{{body}}} in {{water}}.\n    until {{75 C}} in the middle\nfinish: hands 2 min\n    Stir in {{{sour}}}.\nchill: wait 4 h, at 4 C\n"
        ));
        says(&stirred, "slow-cooling", &["57 °C to 21 °C within 2 hours"]);
    }
}

#[test]
fn preserves_lye_sugar_and_fat_carry_theirs() {
    let jam = of(
        "recipe Plum jam\nplums .... 1 kg\nsugar .... 500 g\ncook: tend 30 min, using hob\n    Boil {plums} and {sugar}.\n    until thick\n",
    );
    says(&jam, "shelf-storage", &["not tested for storage on a shelf", "pH 4.6"]);
    let filling =
        of("recipe P\npart jamaican filling\nonion .... 500 g\nfry: tend 9 min, using hob\n    Fry {onion}.\n");
    assert!(!filling.iter().any(|caution| caution.check == "shelf-storage"), "no jam: {filling:#?}");
    let lye = of(
        "recipe Lye sticks\nflour .... 500 g\nlye .... as needed, aside\ndip: hands 5 min\n    Dip {flour} into {lye}.\n",
    );
    says(&lye, "hot-or-caustic", &["goggles and gloves", "never water to lye"]);
    let caramel = of("recipe Caramel\nsugar .... 300 g\nmelt: hands 8 min, using hob\n    Caramelise {sugar}.\n");
    says(&caramel, "hot-or-caustic", &["Boiling sugar", "running water"]);
    let rings = of(
        "recipe Rings\nflour .... 500 g\nfrying oil .... as needed, aside\nfry: hands 9 min, using fryer at 175 C\n    Fry {flour} in {frying oil}.\n",
    );
    says(&rings, "hot-or-caustic", &["lid, never with water"]);
}

#[test]
fn a_brine_is_told_by_what_it_is_and_not_by_a_word() {
    let is_preserve = |ingredient: &str| {
        let list = of(&format!(
            "recipe Slipway salad\n{ingredient} .... 200 g\ncucumber .... 300 g\nmix: hands 5 min\n    Mix {{{ingredient}}} and \
             {{cucumber}}.\n"
        ));
        list.iter().any(|caution| caution.check == "shelf-storage")
    };
    assert!(is_preserve("caper brine"));
    assert!(!is_preserve("brined cheese"), "kept in brine by who sells it");
}

#[test]
fn a_salad_of_apples_carries_none() {
    let list = of(
        "recipe Apple salad\napple .... 500 g\nlemon juice .... 20 g\ncut: hands 10 min\n    Slice {apple}; toss in {lemon juice}.\n",
    );
    assert_eq!(list, []);
}

/// What is wrong with the first of some files, as `check: message`.
fn problems(files: &[(&str, &str)]) -> Vec<String> {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("written");
    }
    let mut loader = Loader::new();
    let source = loader.load(&folder.path().join(files.first().expect("a file").0)).expect("read");
    let project = loader.into_project();
    check_file(&project, source).iter().map(|problem| format!("{}: {}", problem.check, problem.message)).collect()
}

fn count_of(problems: &[String], check: &str) -> usize {
    problems.iter().filter(|problem| problem.starts_with(&format!("{check}: "))).count()
}

const SOUP: &str = "peas .... 2 kg\nwater .... 4 kg\nKEEPS\ncook: tend 40 min, using kettle\n    Boil {peas} in {water}.\n    \
                    until soft\nCOOL\nchill: wait 3 h, at 4 C\n";

fn soup(keeps: &str, cool: &str) -> String {
    format!("recipe Pea soup\n{}", SOUP.replace("KEEPS", keeps).replace("COOL", cool))
}

/// FDA Food Code 3-501.14: cold is what is kept cold, in whichever words; and a range may take its longer end.
#[test]
fn cooling_is_judged_by_temperature_and_by_the_long_end() {
    for (keeps, cool, slow) in [
        ("keeps 2 days, chilled", "cool: wait 4 h", 1),
        ("keeps 2 days, at 4 C", "cool: wait 4 h", 1),
        ("keeps 2 days, at 40 F", "cool: wait 4 h", 1),
        ("keeps 2 weeks, at -18 C", "cool: wait 4 h", 1),
        ("keeps 2 days, chilled", "cool: wait 1-5 h", 1),
        ("keeps 2 days, at 4 C", "cool: wait 1 h, up to 6 h", 1),
        ("keeps 2 days, at 4 C", "cool: wait 1-2 h", 0),
        ("keeps 2 days, at 18 C", "cool: wait 4 h", 0),
    ] {
        let found = problems(&[("a.miche", &soup(keeps, cool))]);
        assert_eq!(count_of(&found, "slow-cooling"), slow, "{keeps}, {cool}: {found:#?}");
    }
}

/// FDA Food Code 3-501.17: seven days at 5 °C or below; the date is marked on what is kept longer than a day.
#[test]
fn the_date_mark_and_the_days_go_by_temperature() {
    says(&of(&soup("keeps 2 days, at 4 C", "cool: wait 1 h")), "kept-too-long", &["Write the date on", "7 days"]);
    for (keeps, long) in [
        ("keeps 6 days, at 4 C", 0),
        ("keeps 9 days, at 4 C", 1),
        ("keeps 6 days, at 8 C", 1),
        ("keeps 3 days, at 8 C", 0),
        ("keeps 9 days, frozen", 0),
        ("keeps 9 days, at -18 C", 0),
    ] {
        let found = problems(&[("a.miche", &soup(keeps, "cool: wait 1 h"))]);
        assert_eq!(count_of(&found, "kept-too-long"), long, "{keeps}: {found:#?}");
    }
    // What stands in the cold for days before it is kept is as old as that already; some hours are of the day it is made.
    for (rest, long) in [("steep: wait 12 h, at 4 C, up to 5 days", 1), ("steep: wait 12 h, at 4 C", 0)] {
        let found = problems(&[("a.miche", &soup("keeps 6 days, at 4 C", &format!("cool: wait 1 h\n{rest}")))]);
        assert_eq!(count_of(&found, "kept-too-long"), long, "{rest}: {found:#?}");
    }
}

fn with(title: &str, ingredient: &str) -> Vec<String> {
    let text = format!("recipe {title}\nrice flour .... 500 g\n{ingredient} .... 50 g\nwater .... 300 g\n");
    problems(&[("a.miche", &text)])
}

#[test]
fn a_claim_is_held_against_what_is_in_it() {
    for (title, ingredient) in [
        ("Vegan slab", "honey"),
        ("Vegan slab", "lard"),
        ("Vegan slab", "gelatine"),
        ("Vegan slab", "chicken stock"),
        ("Vegan slab", "stock"),
        ("Vegan slab", "Worcestershire sauce"),
        ("Vegan slab", "minced beef"),
        ("Vegan slab", "butter"),
        ("Vegetarian slab", "lard"),
        ("Vegetarian slab", "anchovies"),
        ("Slab without gluten", "bread flour"),
        ("Slab without egg and nuts", "walnuts"),
        ("GF slab", "rye flour"),
        ("Gluten-free slab", "malt vinegar"),
        ("Fish-free slab", "Worcestershire sauce"),
        ("Sulphite-free slab", "white wine"),
        ("Slab free from milk", "whey"),
    ] {
        let found = with(title, ingredient);
        // Wheat and its gluten are two.
        assert!((1..=2).contains(&count_of(&found, "hidden-allergen")), "{title} with {ingredient}: {found:#?}");
    }
    for (title, ingredient) in [
        ("Vegan slab", "golden syrup"),
        ("Vegetarian slab", "honey"),
        ("Gluten-free slab", "buckwheat flour"),
        ("Slab without egg", "butter"),
        ("Egg slab", "egg"),
        ("Fish-free slab", "chicken stock"),
    ] {
        let found = with(title, ingredient);
        assert_eq!(count_of(&found, "hidden-allergen"), 0, "{title} with {ingredient}: {found:#?}");
    }
}

/// A part of another file is looked into as well.
#[test]
fn a_claim_reaches_into_other_files() {
    let main = "recipe Vegan buns\nuse \"glaze.miche\"\npart buns\nrice flour .... 500 g\nglaze .... 50 g\n";
    let glaze = "recipe Glaze\npart glaze\nhoney .... 100 g\nwater .... 20 g\n";
    let found = problems(&[("a.miche", main), ("glaze.miche", glaze)]);
    assert!(found.iter().any(|problem| problem.contains("honey") && problem.contains("vegan")), "{found:#?}");
}

#[test]
fn known_food_with_a_preparation_before_it_is_that_food() {
    for (ingredient, allergen) in [
        ("roasted peanuts", "peanuts"),
        ("toasted walnuts", "tree nuts"),
        ("wholegrain mustard", "mustard"),
        ("white miso", "soybeans"),
        ("black sesame seeds", "sesame"),
    ] {
        says(
            &of(&format!("recipe Slab\nrice flour .... 500 g\n{ingredient} .... 50 g\n")),
            "hidden-allergen",
            &[allergen],
        );
    }
    // Mustard from Dijon is in the larder and has its allergens on the card; what tarragon mustard is of nobody says.
    for ingredient in ["smoky peanuts", "tarragon mustard", "candied walnuts", "peanut sauce", "cooked pearl barley"] {
        let found = with("Slab", ingredient);
        assert_eq!(count_of(&found, "hidden-allergen"), 1, "{ingredient}: {found:#?}");
    }
    for ingredient in ["vegan cheese", "oyster mushrooms", "gluten-free bread", "moon dust", "butternut squash"] {
        assert_eq!(count_of(&with("Slab", ingredient), "hidden-allergen"), 0, "{ingredient}");
    }
}

/// A word that no law lists would be on no label and nobody would be warned.
#[test]
fn allergen_words_are_of_the_law_or_an_error() {
    let larder = |word: &str| problems(&[("a.miche", &format!("ingredient relish\ncontains {word}\n"))]);
    for word in [
        "dairy",
        "cheese",
        "cream",
        "whey",
        "anchovy",
        "cod",
        "prawns",
        "groundnuts",
        "malt",
        "semolina",
        "SO2",
        "shellfish",
        "triticale",
        "nothing",
    ] {
        assert!(larder(word).is_empty(), "{word}: {:#?}", larder(word));
    }
    for word in ["mustart", "moon dust", "nutmeg", "milk, love", "nothing, milk"] {
        assert_eq!(count_of(&larder(word), "unknown-allergen"), 1, "{word}: {:#?}", larder(word));
    }
}

/// A larder can say what a thing is, and a word that is no kind is told.
#[test]
fn a_larder_says_what_a_thing_is() {
    let recipe = "recipe Loaf\nuse \"l.miche\"\nbread flour .... 1 kg\nwater .... 65 %\nquarry grit .... 9 %\ninstant yeast .... 1 %\n";
    let kinds =
        |kind: &str| problems(&[("a.miche", recipe), ("l.miche", &format!("ingredient quarry grit\nis {kind}\n"))]);
    assert!(kinds("salt").iter().any(|problem| problem.contains("unusual for salt")), "{:#?}", kinds("salt"));
    assert_eq!(count_of(&kinds("seed"), "odd-percent"), 0, "{:#?}", kinds("seed"));
    let wrong = problems(&[("l.miche", "ingredient quarry grit\nis sallt\n")]);
    assert_eq!(count_of(&wrong, "unknown-name"), 1, "{wrong:#?}");
    let flakes = "recipe Loaf\nbread flour .... 1 kg\nwater .... 65 %\nsea salt .... 9 %\nnutritional yeast .... 6 %\ninstant yeast .... 1 %\n";
    let found = problems(&[("a.miche", flakes)]);
    let odd: Vec<&String> = found.iter().filter(|problem| problem.starts_with("odd-percent")).collect();
    assert!(odd.len() == 1 && odd.iter().all(|problem| problem.contains("unusual for salt")), "{odd:#?}");
}

/// What `larder` as a file beside it leaves unknown of a recipe's allergens, and what it makes known.
fn found_with(ingredient: &str, larder: &str) -> miche::model::contains::Allergenic {
    let folder = tempfile::tempdir().expect("a folder");
    let text = format!("recipe Slab\nuse \"l.miche\"\n{ingredient} .... 1 kg\nwater .... 300 g\n");
    fs::write(folder.path().join("l.miche"), larder).expect("written");
    fs::write(folder.path().join("a.miche"), text).expect("written");
    let mut loader = Loader::new();
    let source = loader.load(&folder.path().join("a.miche")).expect("read");
    let project = loader.into_project();
    let (recipe, _) = work_out(&project, source, &Selection::new(), &mut Vec::new()).expect("a recipe");
    miche::model::contains::of_parts(&recipe, recipe.parts().map(|(id, _)| id), |_, _| false)
}

#[test]
fn a_price_alone_does_not_tell_what_is_in_it() {
    let priced = "ingredient frangipane mix\ncosts 4.20 per kg\n";
    assert_eq!(found_with("frangipane mix", priced).unknown, ["frangipane mix"]);
    for line in ["water 20 %", "section baking", "is nut", "yield 90 %"] {
        let block = format!("ingredient frangipane mix\n{line}\n");
        assert_eq!(found_with("frangipane mix", &block).unknown, ["frangipane mix"], "{line}");
    }
    assert!(found_with("frangipane mix", &format!("{priced}contains nothing\n")).unknown.is_empty());
    let known = found_with("frangipane mix", &format!("{priced}contains almonds\n"));
    assert!(known.unknown.is_empty() && known.known == ["almonds"], "{known:?}");
    // The larder below knows what is in butter, whatever it costs.
    assert!(found_with("unsalted butter", "ingredient butter\ncosts 9 per kg\n").unknown.is_empty());
}

/// FDA Food Code 3-401.11 (63 °C fish and whole cuts, 68 °C minced, 74 °C poultry, as South Dakota's rule 44:02:07:28 has it) and 3-501.14:
/// raw meat is told of on the card, and what is baked with meat in it and chilled is cooled like other food.
#[test]
fn raw_meat_is_told_and_a_meat_pie_is_cooled() {
    let pie = "recipe Pies\nmakes 4 pies\nplain flour .... 400 g\nlard .... 140 g\nwater .... 160 g\nminced pork .... 600 g\nkeeps 3 days, chilled\nmix: hands 20 min\n    \
               Mix {plain flour}, {lard} and {water}; fill with {minced pork}.\nbake: tend 60 min, using oven at 180 C\n    until {75 C} inside\ncool: wait 90 min\n\
               chill: wait 4 h, at 4 C\n";
    says(&of(pie), "raw-meat", &["63 °C", "68 °C", "74 °C", "apart"]);
    says(&of(pie), "slow-cooling", &["57 °C", "21 °C"]);
    let ham = pie.replace("minced pork", "cooked ham");
    assert!(of(&ham).iter().all(|caution| caution.check != "raw-meat"), "{:#?}", of(&ham));
    let fruit = pie.replace("minced pork", "apple");
    assert!(of(&fruit).iter().all(|caution| !["raw-meat", "slow-cooling"].contains(&caution.check)));
}

/// How often a check speaks in a recipe of one file.
fn told(text: &str, check: &str) -> usize {
    count_of(&problems(&[("a.miche", text)]), check)
}

/// FDA Food Code 3-501.16 and 3-501.19 (from memory): what keeps food is told by how much of it there is, and a caution by what it states.
#[test]
fn a_speck_and_a_word_keep_nothing() {
    let pot = |keeper: &str, caution: &str| {
        format!(
            "recipe Pot\nrice .... 1 kg\nwater .... 1 kg\n{keeper}{caution}boil: tend 20 min, using hob\n    Boil {{rice}} in {{water}}.\n    until soft\n\
             stand: wait 12 h, at 21 C\n    Stir in what is left.\n"
        )
    };
    assert_eq!(told(&pot("", ""), "left-warm"), 1);
    for speck in ["rice vinegar .... 5 g\n", "dark chocolate .... 1 g\n", "buttermilk .... 10 g\n"] {
        assert_eq!(told(&pot(speck, ""), "left-warm"), 1, "{speck}");
    }
    assert_eq!(told(&pot("white wine vinegar .... 400 g\n", ""), "left-warm"), 0);
    for (caution, count) in [
        ("Discard the skin.", 1),
        ("Serve with pheasant.", 1),
        ("Refrigerate leftovers.", 1),
        ("Finished pH 4.2 or below.", 0),
        ("Discard what is left after 4 hours.", 0),
    ] {
        assert_eq!(told(&pot("", &format!("caution {caution}\n")), "left-warm"), count, "{caution}");
    }
    // Two stands after one another are one.
    let twice = pot("", "").replace(
        "stand: wait 12 h, at 21 C",
        "stand: wait 3 h, at 21 C\nturn: hands 2 min\nstand again: wait 3 h, at 21 C",
    );
    assert_eq!(told(&twice, "left-warm"), 1);
    assert_eq!(told(&twice.replace("turn: hands 2 min", "chill: wait 2 h, at 4 C"), "left-warm"), 0);
}

/// Regulation (EU) 1169/2011, Article 24; FDA Food Code 3-501.17; CDC and FDA on garlic in oil; USDA, Complete Guide to Home Canning (all from
/// memory): a date for the label is a promise, oil and honey keep nothing, and boiling water keeps only what is sour.
#[test]
fn what_is_sold_and_what_is_shut_off_from_air_is_looked_at() {
    let custard = |head: &str| {
        format!(
            "recipe Custard\nmakes 10 pots\n{head}whole milk .... 900 g\negg yolk .... 200 g\ncaster sugar .... 150 g\ndivide 10 x 120 g, loss 4 %\n\
             bake: tend 45 min, using oven at 140 C\n    Bake {{whole milk}}, {{egg yolk}} and {{caster sugar}}.\n    until {{80 C}} in the middle\n"
        )
    };
    for (head, shelf, long) in [
        ("", 0, 0),
        ("best before 1 day\n", 0, 0),
        ("best before 5 days\nstore Cool and dry.\n", 1, 0),
        ("best before 5 days\nstore Below 5 °C.\n", 0, 0),
        ("use by 30 days, milk\nstore Below 5 °C.\n", 0, 1),
        ("use by 30 days, milk\nstore At -18 °C.\n", 0, 0),
    ] {
        let text = custard(head);
        assert_eq!((told(&text, "shelf-storage"), told(&text, "kept-too-long")), (shelf, long), "{head}");
    }
    // Milk that is boiled thick for a bread is no custard.
    let bread = "recipe Milk loaf\nmakes 1 loaf\nbest before 3 days\nstore Cool and dry.\npart paste\nwhole milk .... 200 g\nflour .... 30 g\ncook: tend 5 min\n    \
                 Boil {whole milk} with {flour}.\n    until thick\npart dough\nflour .... 500 g\nwater .... 150 g\npaste .... all\nsalt .... 10 g\ninstant yeast .... 5 g\n\
                 mix: hands 9 min\n    Mix {flour}, {water}, {paste}, {salt} and {instant yeast}.\n    until smooth\nbake: tend 40 min, using oven at 200 C\n    until brown\n";
    assert_eq!(told(bread, "shelf-storage"), 0);
    let oil = |garlic: &str, stands: &str| {
        format!(
            "recipe Cloves\n{garlic}olive oil .... 400 g\nstand: wait {stands}\n    Cover what is there with {{olive oil}}.\n"
        )
    };
    assert_eq!(told(&oil("garlic .... 20 g\n", "2 days, at 20 C"), "shelf-storage"), 1);
    assert_eq!(told(&oil("garlic .... 20 g, dried\n", "2 days, at 20 C"), "shelf-storage"), 0);
    assert_eq!(told(&oil("garlic .... 20 g\n", "2 days, at 4 C"), "shelf-storage"), 0);
    assert_eq!(told(&oil("garlic .... 20 g\nred wine vinegar .... 2 g\n", "2 days, at 20 C"), "shelf-storage"), 1);
    let jar = |acid: &str, heat: &str| {
        format!(
            "recipe Beans\ngreen beans .... 1 kg\nwater .... 600 g\n{acid}can: tend 30 min, using hob at {heat}\n    Fill jars with {{green beans}} and {{water}}; \
             boil them closed.\n    until the time is up\n"
        )
    };
    assert_eq!(told(&jar("", "100 C"), "shelf-storage"), 1);
    assert_eq!(told(&jar("white wine vinegar .... 500 g\n", "100 C"), "shelf-storage"), 0);
    assert_eq!(told(&jar("", "118 C"), "shelf-storage"), 0);
}

/// Bottles that burst: common practice, no source. Full jam: Directive 2001/113/EC, 60 % soluble dry matter (from memory).
#[test]
fn bottles_burst_and_a_full_jam_is_in_no_hurry() {
    let fizz = of(
        "recipe Fizz\nwater .... 2 l\nsugar .... 200 g\ninstant yeast .... 1 g\nstir: wait 1 day, at 20 C\n    Stir {sugar} and {instant yeast} into {water}.\n\
                   fill: hands 5 min\n    Fill into bottles.\n",
    );
    says(&fizz, "hot-or-caustic", &["bottles may burst"]);
    let jam = |sugar: &str| {
        of(&format!(
            "recipe Plum jam\nplums .... 500 g\nsugar .... {sugar}\nmakes 900 g\nkeeps 5 weeks, chilled\ncook: tend 30 min, using hob\n    Boil {{plums}} and \
             {{sugar}}.\n    until thick\ncool: wait 3 h\n"
        ))
    };
    let checks = |list: &[Caution]| list.iter().map(|caution| caution.check).collect::<Vec<_>>();
    assert!(checks(&jam("200 g")).contains(&"slow-cooling") && checks(&jam("200 g")).contains(&"shelf-storage"));
    let full = checks(&jam("600 g"));
    assert!(!full.contains(&"slow-cooling") && !full.contains(&"shelf-storage"), "{full:?}");
    let pudding = of(
        "recipe Pudding\nmilk .... 600 g\ncornflour .... 45 g\ncook: tend 6 min, using hob\n    Whisk {cornflour} into {milk}; boil.\n    until thick\n",
    );
    assert!(!checks(&pudding).contains(&"raw-flour-or-egg"), "{pudding:#?}");
}

/// Common practice, no source: what is past the date of its label is not handed over.
#[test]
fn a_store_is_past_the_date_of_its_label() {
    let buns = "recipe Buns\nmakes 12 buns\nbest before 2 days\nflour .... 500 g\nwater .... 300 g\nsalt .... 9 g\ninstant yeast .... 5 g\nbake: tend 20 min, using oven at 200 C\n    \
                Bake {flour}, {water}, {salt} and {instant yeast}.\n    until brown\n";
    for (made, count) in [("2026-12-03", 0), ("2026-11-10", 1)] {
        let day = format!(
            "day Buns\nready 2026-12-05 09:00\nmake 24 of \"buns.miche\"\nstore 6 of \"buns.miche\", made {made}\n"
        );
        assert_eq!(count_of(&problems(&[("day.miche", &day), ("buns.miche", buns)]), "past-keeps"), count, "{made}");
    }
}

/// Common practice, no source: a pickle that is sour keeps for weeks in the cold; what only has a little vinegar in it does not.
#[test]
fn a_sour_pickle_keeps_for_weeks_in_the_cold() {
    let jar = |vinegar: &str, more: &str| {
        format!(
            "recipe Turnips\nturnip .... 1 kg\nwater .... 300 g\nwhite wine vinegar .... {vinegar}\n{more}keeps 30 days, chilled\nboil: tend 8 min, using hob\n    \
             Boil {{turnip}} in {{water}} and {{white wine vinegar}}.\n    until tender\n"
        )
    };
    assert_eq!(told(&jar("400 g", ""), "kept-too-long"), 0);
    assert_eq!(told(&jar("20 g", ""), "kept-too-long"), 1);
    assert_eq!(told(&jar("400 g", "chicken thigh .... 300 g\n"), "kept-too-long"), 1);
}
