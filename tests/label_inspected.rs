//! Labels as an inspector reads them, beside the texts of both laws: what stands in the list, what is a serving, what has to be said. Each test
//! names its rule. Of Regulation (EU) 1169/2011 Annexes I and XIV were seen, of 21 CFR 101.9(c)(8)(iii), (d)(7)(ii), (d)(8) and 101.12(b) what
//! public programs and manuals of labelling quote; the others are from memory.

#![allow(clippy::expect_used, clippy::panic)]

#[path = "examples/one_file.rs"]
mod one_file;

use serde_json::Value;
use std::fs;
use std::process::Command;

fn run(recipe: &str, arguments: &[&str]) -> (bool, String) {
    let arguments = [&["label", "a.miche"], arguments].concat();
    one_file::alone(recipe, &arguments, false)
}

fn page(recipe: &str, arguments: &[&str]) -> String {
    let (fine, text) = run(recipe, &[&["--format", "markdown"], arguments].concat());
    assert!(fine, "{text}");
    text
}

fn list(page: &str) -> &str {
    page.lines().find(|line| line.starts_with("Ingredients")).expect("a list")
}

const POT: &str = "recipe Pea pot\npart soaked peas\nsplit peas .... 1 kg\nwater .... 1.5 kg\nsoak: wait 10 h, at 4 C\n    Soak {split peas} in {water}.\n\n\
                   part pot\nsoaked peas .... all\nonion .... 300 g\nsalt .... 10 g\n";

/// Regulation (EU) 1169/2011, Article 18(1): the list has the ingredients. A part that is one ingredient in water is that ingredient, and the
/// one compound that a food consists of is the food: `mix (…)` names nothing.
#[test]
fn what_is_one_ingredient_or_the_whole_is_no_compound() {
    let pot = page(POT, &[]);
    assert_eq!(list(&pot), "Ingredients: water, split peas, onion, salt.");
    let ice = "recipe Ice cream\npart mix\nwhole milk .... 500 g\ncaster sugar .... 100 g\nheat: tend 10 min, using hob at 85 C\n    Heat {whole \
               milk} and {caster sugar}.\n\npart ice cream\nmix .... all\nchurn: tend 40 min\n    Churn {mix}.\n";
    assert_eq!(list(&page(ice, &[])), "Ingredients: whole **milk**, caster sugar.");
    // What is filled stays what it is called.
    let bun = "recipe Buns\npart filling\nrhubarb .... 400 g\ncaster sugar .... 80 g\n\npart buns\nplain flour .... 300 g\nfilling .... all\n";
    assert!(list(&page(bun, &[])).contains("filling (rhubarb, caster sugar)"));
}

/// Annex VII, Part C: an additive stands by its class and its name or number; 21 CFR 101.4(a)(1): by its common or usual name.
#[test]
fn an_additive_is_named_as_each_law_names_it() {
    let scones =
        "recipe Scones\nplain flour .... 500 g\nbaking soda .... 10 g\ncitric acid .... 2 g\nxanthan gum .... 3 g\n";
    let (eu, us) = (page(scones, &[]), page(scones, &["--law", "us"]));
    assert!(
        list(&eu).contains("raising agent (sodium carbonates), thickener (xanthan gum), acid (citric acid)"),
        "{eu}"
    );
    assert!(list(&us).contains("baking soda, xanthan gum, citric acid"), "{us}");
}

/// Annex III, 2.1, 2.2 and 2.4: `with sweetener(s)`, `with sugar(s) and sweetener(s)`, and above 10 % of polyols that much of it is laxative.
#[test]
fn sweeteners_are_said_beside_the_name() {
    let cake = |polyol: &str, sugar: &str| {
        page(&format!("recipe Cake\nplain flour .... 500 g\nxylitol .... {polyol} g\n{sugar}"), &[])
    };
    let little = cake("20", "");
    assert!(little.contains("With sweetener.") && !little.contains("laxative"), "{little}");
    let much = cake("200", "caster sugar .... 50 g\n");
    assert!(much.contains("With sugars and sweetener.") && much.contains("may produce laxative effects"), "{much}");
    let none = page("recipe Cake\nplain flour .... 500 g\ncaster sugar .... 50 g\n", &[]);
    assert!(!none.contains("sweetener"), "{none}");
}

/// Annex X, 2(c): a `use by` is followed by how to keep it; Article 25: what needs the cold says so.
#[test]
fn what_is_kept_cold_says_how() {
    let curd = "recipe Curd\nuse by 2 days, raw egg\negg .... 300 g\ncaster sugar .... 200 g\n";
    assert!(page(curd, &[]).contains("how to keep it"));
    assert!(!page(&curd.replace("use by", "store Below 5 °C.\nuse by"), &[]).contains("how to keep it"));
    let plain = "recipe Buns\nbest before 3 days\nplain flour .... 300 g\nwater .... 180 g\nkeeps 2 days, chilled\n";
    assert!(page(plain, &[]).contains("how to keep it"));
    assert!(!page(&plain.replace("chilled", "at 18 C"), &[]).contains("how to keep it"));
}

/// 21 CFR 101.9(b)(2) and 101.12(b): a serving of bread is by 50 g, of a loaf that is not sliced 2 oz (56 g); nobody eats a loaf at once.
#[test]
fn a_loaf_is_not_one_serving() {
    let loaf = "recipe Loaf\nmakes 2 loaves, bake loss 10 %\nstrong white flour .... 1 kg\nwater .... 640 g\nsalt .... 20 g\ndivide 2 x 830 g\n";
    let shown = page(loaf, &["--law", "us"]);
    assert!(shown.contains("about 13 servings per container. Serving size: 2 oz (56 g)."), "{shown}");
    assert!(shown.contains("how thick a slice"), "{shown}");
    let of_file = page(&loaf.replace("strong", "serving 50 g\nstrong"), &["--law", "us"]);
    assert!(of_file.contains("Serving size: 50 g.") && !of_file.contains("how thick"), "{of_file}");
    let (fine, why) = run(&loaf.replace("strong", "serving 0 g\nstrong"), &[]);
    assert!(!fine && why.contains("impossible-number"), "{why}");
    let sliced = page(loaf, &["--law", "us", "--serving", "48 g"]);
    assert!(sliced.contains("Serving size: 48 g.") && !sliced.contains("how thick"), "{sliced}");
    let roll = page(&loaf.replace("2 loaves", "20 rolls").replace("2 x 830", "20 x 83"), &["--law", "us"]);
    assert!(roll.contains("Serving size: 1 roll (75 g).") && !roll.contains("one serving"), "{roll}");
    let bun = page(&loaf.replace("2 loaves", "10 buns").replace("2 x 830", "10 x 166"), &["--law", "us"]);
    assert!(bun.contains("whether 149 g are one serving"), "{bun}");
}

/// 21 CFR 101.9(b)(5) and (7), by the FDA's Guidelines for Determining Metric Equivalents of Household Measures (seen): cup, spoon, piece,
/// slice, a fraction such as 1/4 pizza, jar or tray, with the grams behind it. 600 g in eight are 75 g; what nobody can say is asked for.
#[test]
fn a_serving_is_told_by_a_measure_of_the_household() {
    let said = |makes: &str, serving: &str, grams: &str| {
        let cake = format!("recipe Thing\nmakes {makes}\n{serving}whole milk .... {grams}\n");
        let shown = page(&cake, &["--law", "us"]);
        let size = shown.split("Serving size: ").nth(1).and_then(|rest| rest.split(".\n").next()).unwrap_or_default();
        (size.to_owned(), shown.contains("by a measure of the household"))
    };
    let told = |makes: &str, serving: &str, grams: &str| said(makes, serving, grams).0;
    assert_eq!(told("4 jars", "", "800 g"), "1 jar (200 g)");
    assert_eq!(told("4 brioches", "", "200 g"), "1 brioche (50 g)");
    assert_eq!(told("4 people", "", "800 g"), "1 portion (200 g)");
    assert_eq!(told("1 cake", "serving 75 g\n", "600 g"), "1/8 cake (75 g)");
    assert_eq!(told("1 cake", "serving 80 g, 1 slice\n", "600 g"), "1 slice (80 g)");
    assert_eq!(told("2 pies", "serving 100 g\n", "400 g"), "1/2 pie (100 g)");
    // 7 parts are none that 101.9(b)(2) knows, and 95 g are not 2 % of an eighth of 600 g.
    assert_eq!(said("1 cake", "serving 95 g\n", "665 g"), ("95 g".to_owned(), true));
    assert!(!said("1 cake", "serving 95 g, 1 slice\n", "665 g").1);
    // Of bread no slice is made up; 2 rolls of 25 g are 50 g.
    let rolls = "recipe Rolls\nmakes 40 rolls\nserving 50 g\nstrong white flour .... 600 g\nwater .... 400 g\n";
    let shown = page(rolls, &["--law", "us", "--pack", "6"]);
    assert!(shown.contains("3 servings per container. Serving size: 2 rolls (50 g)."), "{shown}");
    let loaf = page(&rolls.replace("40 rolls", "1 loaf"), &["--law", "us"]);
    assert!(
        loaf.contains("Serving size: 50 g.") && loaf.contains("what 50 g are by a measure of the household"),
        "{loaf}"
    );
    let asked = page(rolls, &["--law", "us", "--serving", "25 g, 1 small roll"]);
    assert!(asked.contains("Serving size: 1 small roll (25 g)."), "{asked}");
}

/// 21 CFR 101.100(a)(4) (as a translated guide of the FDA's rules quotes it, seen) and 130.9 (edition of 2006, seen): sulfites are declared from 10 mg in
/// a kilogram on, those of an ingredient too. They are none of the nine of FALCPA, and so were in no American list at all.
#[test]
fn sulfites_are_declared_in_the_united_states() {
    let loaf = "recipe Fruit loaf\nstrong white flour .... 500 g\nwhole milk .... 300 g\ndried apricots .... 200 g\nwhite wine .... 20 g\nraisins .... 50 g\n";
    let shown = page(loaf, &["--law", "us"]);
    let list = list(&shown);
    assert!(list.contains("dried apricots (sulfites)") && list.contains("white wine (sulfites)"), "{list}");
    assert!(list.contains("whole milk, ") && !list.contains("flour (sulfites)"), "{list}");
    assert!(shown.contains("**Contains**: milk, wheat."), "{shown}");
}

/// What rounds to the same without it is not said to be lacking: the vegetables of a pot have no trans fat to speak of.
#[test]
fn figures_that_nothing_waits_for_are_not_missed() {
    let pot = page(POT, &["--law", "us"]);
    assert!(!pot.contains("lacks figures"), "{pot}");
}

/// Article 22(1)(a): the quantity of what the name of the food names, also within a word; and not of what is only meant for that.
#[test]
fn a_name_names_within_its_words() {
    let quantity = |title: &str, line: &str| {
        let page = page(&format!("recipe {title}\nplain flour .... 300 g\n{line} .... 200 g\n"), &[]);
        page.contains("Quantity: ")
    };
    assert!(quantity("Tide oatcakes", "oatmeal"), "oatcakes");
    assert!(quantity("Cheesecake", "cream cheese"));
    assert!(quantity("Beefburger", "minced beef"));
    assert!(!quantity("Pancakes", "butter"));
    assert!(!quantity("Plum jam", "jam sugar"), "sugar to make jam with is no jam");
    assert!(quantity("Jam tarts", "raspberry jam"));
}

/// 21 CFR 101.9(c)(6)(iii), (d)(9), 101.7(i) and (j)(3): what stands on a label of the United States that is stuck on, and the type of its net
/// weight by the side that is looked at.
#[test]
fn an_american_label_to_stick_on_is_whole() {
    let rolls = "recipe Rolls\nmakes 4 rolls\nbusiness Skerrow\nstrong white flour .... 400 g\nwater .... 240 g\ncaster sugar .... 40 g\ndivide 4 x 168 g\n";
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), rolls).expect("a file");
    let mut sizes = Vec::new();
    for sheet in ["1 x 1", "1 x 2, sheet 150 x 300"] {
        let arguments = ["label", "a.miche", "--law", "us", "--sheet", sheet, "-o", "l.html"];
        let output = Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder.path()).output();
        let output = output.expect("it runs");
        assert!(output.status.success(), "{output:?}");
        let text = fs::read_to_string(folder.path().join("l.html")).expect("written");
        for words in [
            "Nutrition Facts",
            "Net Wt 168 g",
            "Includes 10 g Added Sugars",
            "Total Fat",
            "% Daily Value (DV) tells you",
        ] {
            assert!(text.contains(words), "{words}");
        }
        let before = text.find("<b>Net Wt").and_then(|at| text.get(..at)).expect("a net weight");
        let size = before.rsplit("font-size:").next().and_then(|rest| rest.split("pt").next()).expect("a size");
        sizes.push(size.parse::<f64>().expect("a number"));
    }
    // 88 square inches and 29: 3/16 inch both; the letters, by the small ones, are as high at the least.
    assert!(sizes.iter().all(|size| *size * 0.6 / 72.0 >= 3.0 / 16.0), "{sizes:?}");
}

/// 21 CFR 101.9(d)(8), the regulation's own examples: vitamin D 2 mcg 10 %, calcium 260 mg 20 %, iron 8 mg 45 %, potassium 235 mg 6 %.
#[test]
fn daily_values_round_as_the_regulation_prints_them() {
    use miche::figures::label::rounding::us_daily_trace;
    use miche::measure::number::Number;
    for (amount, of, wanted) in [(2, 20, "10"), (260, 1300, "20"), (8, 18, "45"), (235, 4700, "6")] {
        let percent = Number::fraction(amount * 100, of).expect("not over nothing");
        assert_eq!(us_daily_trace(percent).as_deref(), Ok(wanted), "{amount} of {of}");
    }
}

/// One that is not known is told of in the singular.
#[test]
fn one_ingredient_has_its_allergens() {
    let page = page("recipe Buns\nplain flour .... 300 g\nsea campion tops .... 20 g\n", &[]);
    assert!(page.contains("does not know sea campion tops: its allergens"), "{page}");
    let _: Value =
        serde_json::from_str(&run("recipe Buns\nplain flour .... 300 g\n", &["--format", "json"]).1).expect("JSON");
}

/// Article 36(3)(a): what may have come in without being meant. Said by the recipe and its kitchen, both stand there; what is in it anyway
/// does not; a word of no law is an error.
#[test]
fn traces_are_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let of = |recipe: &str, command: &str| {
        fs::write(folder.path().join("k.miche"), "kitchen Quay\noven x 1\nmay contain nuts, sesame\n").expect("a file");
        fs::write(folder.path().join("a.miche"), recipe).expect("a file");
        let args: &[&str] = match command {
            "reader" => &["card", "a.miche", "--for", "reader"],
            "card" => &["card", "a.miche"],
            command => &[command, "a.miche"],
        };
        let run = Command::new(env!("CARGO_BIN_EXE_miche")).args(args).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    let buns = "recipe Buns\nuse \"k.miche\"\nmay contain mustard, Sesame\nplain flour .... 300 g\nwater .... 180 g\n";
    let plain = of(buns, "label");
    assert!(plain.contains("**May contain**: mustard, Sesame, nuts"), "{plain}");
    let seeded = of(&format!("{buns}sesame seeds .... 20 g\n"), "label");
    assert!(seeded.contains("**May contain**: mustard, nuts"), "{seeded}");
    // Cards and readers are told too, by the same words.
    for (args, wanted) in [("card", "mustard, Sesame, nuts"), ("reader", "mustard, Sesame, nuts")] {
        let shown = of(buns, args);
        assert!(shown.contains(&format!("May contain traces of {wanted}")), "{args}: {shown}");
        let shown = of(&format!("{buns}sesame seeds .... 20 g\n"), args);
        assert!(shown.contains("May contain traces of mustard, nuts."), "{args}: {shown}");
    }
    let wrong = of(&buns.replace("mustard", "mustart"), "check");
    assert!(wrong.contains("unknown-allergen") && wrong.contains("`mustart`"), "{wrong}");
}

/// The pack of what was bought says `may contain`, and so does what it goes into (Article 36(3)(a)); where a kitchen stands in the same file, a line behind a
/// blank one is the kitchen's, for everything.
#[test]
fn traces_of_an_ingredient_are_those_of_what_it_goes_into() {
    let folder = tempfile::tempdir().expect("a folder");
    let label = |larder: &str, recipe: &str| {
        fs::write(folder.path().join("l.miche"), larder).expect("a file");
        fs::write(folder.path().join("a.miche"), format!("recipe Pots\nmakes 1 kg\nuse \"l.miche\"\n{recipe}"))
            .expect("a file");
        let run =
            Command::new(env!("CARGO_BIN_EXE_miche")).args(["label", "a.miche"]).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    let paste = "ingredient lighthouse paste\ncontains almond\nmay contain peanuts, sesame\n";
    let (with, without) = ("lighthouse paste .... 900 g\ncaster sugar .... 100 g\n", "caster sugar .... 1 kg\n");
    assert!(label(paste, with).contains("**May contain**: peanuts, sesame"), "{}", label(paste, with));
    assert!(!label(paste, without).contains("May contain"), "{}", label(paste, without));
    let kitchen = format!("kitchen Quay\noven x 1\n\n{paste}");
    assert!(!label(&kitchen, without).contains("May contain"), "{}", label(&kitchen, without));
    let of_kitchen = format!("kitchen Quay\noven x 1\nmay contain mustard\n\n{paste}");
    assert!(label(&of_kitchen, without).contains("**May contain**: mustard"), "{}", label(&of_kitchen, without));
    assert!(label(&of_kitchen, with).contains("mustard, peanuts, sesame"), "{}", label(&of_kitchen, with));
}

/// Annex I, 7 and 8: sugars are carbohydrate. In tables carbohydrate is what is left of 100, and may come out as less: of no entry of the larder.
#[test]
fn sugars_are_never_more_than_carbohydrate() {
    use miche::model::nutrient::{Nutrient, held};
    let mut faults = Vec::new();
    for facts in miche::model::larder::brought_entries() {
        let of = |nutrient| held(Some(&facts), nutrient).expect("in range");
        let (all, sugars) = (of(Nutrient::AvailableCarbohydrate), of(Nutrient::Sugars));
        if all.is_known && sugars.is_known && sugars.least > all.least {
            faults.push(format!("{}: {} of {}", facts.name, sugars.least.decimal(4), all.least.decimal(4)));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// 21 CFR 101.4(a)(1) and (b)(16), from memory: leavening is named, and nobody in the United States knows an E number. Annex VII, Part C:
/// in the European Union the number will do.
#[test]
fn what_baking_powder_consists_of_is_named_as_each_law_names_it() {
    let scones = "recipe Scones\nplain flour .... 500 g\nwater .... 200 g\nbaking powder .... 20 g\n";
    let us = page(scones, &["--law", "us"]);
    assert!(
        list(&us).contains("baking powder (leavening (sodium acid pyrophosphate, sodium bicarbonate), starch)"),
        "{us}"
    );
    assert!(list(&page(scones, &[])).contains("baking powder (raising agents (E 450, E 500), starch)"));
}

/// 21 CFR 101.105 and Directive 76/211/EEC (both from memory): no more is promised than there is. 80 g are 2.82 oz and 110.5 g 3.898 oz.
/// Something good for one day is that for a day.
#[test]
fn the_net_weight_is_never_more_than_there_is() {
    let rolls = "recipe Rolls\nmakes 12 rolls, bake loss 15 %\nbest before 1 day\nbread flour .... 1 kg\nwater .... 560 g\ndivide 12 x 130 g\n";
    let us = page(rolls, &["--law", "us"]);
    assert!(us.contains("Net weight: 110.5 g (3.8 oz) a piece, 1326 g (2 lb 14 3/4 oz) the batch"), "{us}");
    assert!(us.contains("1 day from the day on which it is made"), "{us}");
}

/// Annex XV and Article 33 of Regulation (EU) 1169/2011 know 100 g and the piece; a serving is a matter of 21 CFR 101.9(b), and there
/// several small pieces are one. 50 g are three pieces of 21.8 g.
#[test]
fn a_serving_of_several_pieces_wants_a_pack_in_the_united_states_only() {
    let twists =
        "recipe Twists\nmakes 40 twists\nserving 50 g\nplain flour .... 500 g\nwater .... 372 g\ndivide 40 x 21.8 g\n";
    assert!(page(twists, &[]).contains("per piece (21.8 g)"));
    let (fine, said) = run(twists, &["--law", "us"]);
    assert!(!fine && said.contains("a serving of 50 g is more than the 21.8 g that are sold together"), "{said}");
    assert!(said.contains("`--pack 3`"), "{said}");
    // Six of them are 130.8 g, more than two servings; three are 65.4 g, less than two, and so one (101.9(b)(6)).
    assert!(page(twists, &["--law", "us", "--pack", "6"]).contains("Serving size: 50 g"));
    assert!(page(twists, &["--law", "us", "--pack", "3"]).contains("Serving size: 3 twists (65 g)"));
}

/// What the file says is lost before it is portioned is in the net weight, and is said: in the head, and of what is ladled out of a kettle.
/// 500 g less 2 % are 490 g; 1087 g less 8 % are 1000 g.
#[test]
fn what_is_lost_in_the_making_is_said() {
    let ice = "recipe Ice\nmakes 490 g, loss 2 % of everything\nwhole milk .... 400 g\ncaster sugar .... 100 g\n";
    let ice = page(ice, &[]);
    assert!(ice.contains("Net weight of the batch: 490 g, after a loss of 2 % in the making."), "{ice}");
    let pot = "recipe Pot\nmakes 4 bowls\nwater .... 787 g\npotato .... 300 g\ndivide 4 x 250 g, loss 8 %\nboil: tend 30 min, using hob\n    \
               Boil {potato} in {water}.\n    until soft\n";
    let pot = page(pot, &[]);
    assert!(pot.contains("Net weight: 250 g a piece, 1000 g the batch, after a loss of 8 % in the making."), "{pot}");
    // Of a dough that is what stays on the bench, and what the oven takes is another thing.
    let dough = "recipe Rolls\nmakes 4 rolls\nbread flour .... 600 g\nwater .... 400 g\ndivide 4 x 245 g, loss 2 %\n";
    assert!(page(dough, &[]).contains("nobody says what the oven takes"));
}

/// Of a rich dough less than two fifths are flour, and of a custard nothing: what is lost in dividing them is not what the oven takes.
#[test]
fn what_is_divided_and_baked_is_not_sold_at_its_weight_before() {
    let rich = "recipe Rich loaves\nmakes 2 loaves\nstrong white flour .... 350 g\nbutter .... 250 g\negg .... 250 g\ncaster sugar .... 150 g\ninstant yeast .... 5 g\n\
                divide 2 x 490 g, loss 2.5 %\nmix: hands 15 min\n    Mix all.\nbake: tend 40 min, using oven at 170 C\n    until brown\n";
    let said = page(rich, &[]);
    assert!(said.contains("as it goes into the oven: nobody says what the oven takes"), "{said}");
    assert!(page(rich, &["--bake-loss", "10 %"]).contains("after a bake loss of 10 %"));
    let ladled = rich.replace("bake: tend 40 min, using oven at 170 C", "cook: tend 40 min, using hob");
    assert!(page(&ladled, &[]).contains("after a loss of 2.5 % in the making"));
}

const MIX: &str = "recipe Pancake mix\nmakes 10 bags\nplain flour .... 1 kg\ncaster sugar .... 100 g\nskimmed milk powder .... 80 g\nsalt .... 20 g\n\
divide 10 x 120 g\nmix: hands 5 min\n    Mix {plain flour}, {caster sugar}, {skimmed milk powder} and {salt}.\nfill: hands 10 s, each\n    Fill into bags.\n";

/// What never sees heat loses nothing to it: a dry mix, a dough for others, a pickle, whipped cream. A kettle's bowls and a jam's jars are
/// warmed in an oven and not baked. A flour that is sold raw has to say what is done with it (Article 9(1)(j)), and a bag of mix is no loaf.
#[test]
fn what_no_step_heats_is_sold_as_it_is_mixed() {
    let mix = page(MIX, &[]);
    assert!(mix.contains("the batch, as it is mixed: no step heats it.") && !mix.contains("oven takes"), "{mix}");
    assert!(mix.contains("how it is cooked, for it holds raw plain flour"), "{mix}");
    let said =
        page(&MIX.replace("makes 10 bags\n", "makes 10 bags\ndirections Whisk with 200 ml of milk and fry.\n"), &[]);
    assert!(
        said.contains("**Directions**: Whisk with 200 ml of milk and fry.") && !said.contains("how it is cooked"),
        "{said}"
    );
    let heavy = MIX.replace("10 bags", "4 bags").replace("10 x 120 g", "4 x 300 g");
    let american = page(&heavy, &["--law", "us"]);
    assert!(!american.contains("thick a slice") && american.contains("Serving size: 1 bag (300 g)"), "{american}");
    assert!(american.contains("whether 300 g are one serving"), "{american}");

    let dough = "recipe Dough for others\nmakes 2 kg\nbread flour .... 1.2 kg\nwater .... 65 %\nsalt .... 2 %\nmix: hands 9 min\n    Mix all.\n";
    let dough = page(dough, &[]);
    assert!(dough.contains("no step heats it") && dough.contains("for it holds raw bread flour"), "{dough}");

    let pickle = "recipe Pickled radishes\nmakes 4 jars\nradishes .... 800 g\nvinegar .... 150 g\nwater .... 40 g\nsalt .... 10 g\ndivide 4 x 250 g\n\
                  pack: hands 20 min\n    Pack {radishes} into jars with {vinegar}, {water} and {salt}.\nwarm jars: wait 15 min, using oven at 120 C, before pack\n    until dry\n";
    let pickle = page(pickle, &[]);
    assert!(pickle.contains("no step heats it") && !pickle.contains("how it is cooked"), "{pickle}");
    let cream = "recipe Whipped cream\nmakes 1 kg\nheavy cream .... 950 g\nicing sugar .... 50 g\nwhip: hands 5 min\n    Whip all.\n";
    assert!(page(cream, &[]).contains("no step heats it"));
    // A syrup is boiled, and what that takes is somebody's to say.
    let syrup = "recipe Syrup\nmakes 4 bottles\ncaster sugar .... 500 g\nwater .... 500 g\ndivide 4 x 250 g\nboil: tend 5 min, using hob\n    Boil.\n    until clear\n\
                 warm bottles: wait 15 min, using oven at 120 C\n    until hot\n";
    let syrup = page(syrup, &[]);
    assert!(syrup.contains("nobody says what cooking takes") && !syrup.contains("oven takes"), "{syrup}");
    // Yeast of which no figure of water is known wets no mix, and a list of ingredients without steps may be one.
    let dry = "recipe Bread mix\nmakes 5 bags\nbread flour .... 2.4 kg\nsalt .... 48 g\ninstant yeast .... 24 g\ndivide 5 x 490 g, loss 0.9 %\n";
    let dry = page(dry, &[]);
    assert!(!dry.contains("oven takes") && dry.contains("for it holds raw bread flour"), "{dry}");
    // Of a dough that is fried the loss in dividing is not what frying takes.
    let fried = "recipe Doughnuts\nmakes 10 doughnuts\nbread flour .... 500 g\nwhole milk .... 310 g\negg .... 100 g\nsalt .... 8 g\ndivide 10 x 90 g, loss 2 %\n\
                 mix: hands 9 min\n    Mix all.\nfry: tend 4 min, using fryer at 180 C\n    until brown\n";
    let fried = page(fried, &[]);
    assert!(fried.contains("nobody says what cooking takes") && !fried.contains("loss of 2 %"), "{fried}");
    // What is baked in jars is baked.
    let baked = "recipe Jar cakes\nmakes 4 cakes\nplain flour .... 300 g\negg .... 300 g\nbutter .... 200 g\ncaster sugar .... 200 g\ndivide 4 x 250 g\n\
                 mix: hands 9 min\n    Mix all.\nbake jars: tend 30 min, using oven at 170 C\n    until brown\n";
    assert!(page(baked, &[]).contains("what the oven takes"));
}

/// Regulation (EU) 1169/2011, Articles 9(1)(i) and 26(2)(a) and (3): where it comes from is said where its name speaks of a country, and of
/// what is over half of it where that comes from elsewhere.
#[test]
fn where_it_comes_from_is_said() {
    let bread = "recipe Scottish morning rolls\nmakes 4 rolls, bake loss 10 %\nbread flour .... 400 g\nwater .... 240 g\ndivide 4 x 160 g\n";
    let open = page(bread, &[]);
    assert!(open.contains("where it comes from, for its name says") && open.contains("scottish"), "{open}");
    assert!(!page(bread, &["--law", "us"]).contains("where it comes from"));
    let of =
        |text: &str| page(&bread.replace(", bake loss 10 %\n", &format!(", bake loss 10 %\norigin {text}\n")), &[]);
    let said = of("Scotland");
    assert!(
        said.contains("**Origin**: Scotland")
            && said.contains("where bread flour comes from, which is over half of it"),
        "{said}"
    );
    let whole = of("Scotland, of wheat from Canada");
    assert!(
        whole.contains("**Origin**: Scotland, of wheat from Canada") && !whole.contains("over half of it"),
        "{whole}"
    );
    assert!(!page(&bread.replace("Scottish", "Harbour"), &[]).contains("where it comes from"));
    let (fine, twice) = run(&bread.replace("makes", "origin Here\norigin There\nmakes"), &[]);
    assert!(!fine && twice.contains("`origin` is said twice"), "{twice}");
}

/// 21 CFR 101.9(b)(6), as a public label program quotes it (seen): what is sold together and is less than twice the reference amount is one
/// serving; from twice to three times there is a column of each, (b)(12)(i).
#[test]
fn less_than_two_servings_are_one() {
    let of = |grams: u32, arguments: &[&str]| {
        let flour = 12 * grams - 580;
        let recipe = format!(
            "recipe Rolls\nmakes 12 rolls, bake loss 10 %\nserving 50 g, 1/2 roll\nbread flour .... {flour} g\nwater .... 560 g\nsalt .... 20 g\ndivide 12 x {grams} g\n"
        );
        page(&recipe, arguments)
    };
    let us = ["--law", "us"];
    let one = of(100, &us);
    assert!(one.contains("1 serving per container. Serving size: 1 roll (90 g)."), "{one}");
    assert!(one.contains("less than two of the servings that are said") && !one.contains("per container, "), "{one}");
    let two = of(108, &["--law", "us", "--pack", "2"]);
    assert!(two.contains("about 4 servings per container. Serving size: 1/2 roll (50 g)."), "{two}");
    // Half of a roll of 90 g is no 50 g: what contradicts itself is asked for.
    let other = of(100, &["--law", "us", "--pack", "2"]);
    assert!(other.contains("about 3.5 servings per container. Serving size: 50 g."), "{other}");
    assert!(other.contains("what 50 g are by a measure of the household"), "{other}");
    // 100 g are 200 %, and 99 are not.
    let (under, over) = (of(110, &us), of(112, &us));
    assert!(under.contains("Serving size: 1 roll (99 g)"), "{under}");
    assert!(over.contains("2 servings per container") && over.contains("per container, "), "{over}");
    assert!(!of(100, &[]).contains("less than two of the servings"));
}

/// One of `4 dozen cookies` is a dozen cookies, and one of `4 boxes of buns` a box.
#[test]
fn one_of_several_is_called_rightly() {
    let of = |noun: &str| {
        let recipe = format!(
            "recipe Sweets\nmakes 4 {noun}, bake loss 10 %\nplain flour .... 400 g\nbutter .... 240 g\ndivide 4 x 160 g\n"
        );
        page(&recipe, &["--law", "us"])
    };
    for (noun, one) in [
        ("trays of cookies", "1 tray of cookies (144 g)"),
        ("boxes of buns", "1 box of buns (144 g)"),
        ("rolls", "1 roll (144 g)"),
    ] {
        let shown = of(noun);
        assert!(shown.contains(&format!("Serving size: {one}")), "{shown}");
    }
}

/// What a bath leaves behind and what a bench is dusted with is listed once, where the same goes in by weight. Common practice, no source;
/// both laws ask for each ingredient once, by its weight (Annex VII, Part A; 21 CFR 101.4(a)(1)).
#[test]
fn no_ingredient_is_listed_twice() {
    let bath = "part malt bath\nwater .... 2 kg\nbarley malt syrup .... 40 g\nboil up: tend 15 min, using hob\n\
        part rings\ndough .... all\nmalt bath .... all, strained out\nbake: tend 18 min, using oven at 230 C\n";
    let dough = "part dough\nstrong white flour .... 400 g\nwater .... 224 g\nbarley malt syrup .... 12 g\nsalt .... 8 g\n\
        strong white flour for dusting .... 20 g, aside\ndivide 6 x 105 g, loss 2.2 %\nmix: hands 12 min\n";
    for law in ["eu", "us"] {
        let text = page(&format!("recipe Weir rings\nmakes 6 rings, bake loss 10 %\n{dough}{bath}"), &["--law", law]);
        let line = list(&text).to_lowercase();
        assert_eq!((line.matches("malt syrup").count(), line.matches("flour").count()), (1, 1), "{law}: {line}");
    }
}
