//! What is made once, and of what: what is in the store and nothing takes, doughs of several options, preferments that one leaves out.

use super::day::DOUGHNUTS;
use super::{files, json, line, one, said, steps};
use serde_json::Value;

/// A fridge of which nothing is taken is told, with the reason; what is taken, or of which there is enough besides, is not.
#[test]
fn a_store_that_nothing_takes_is_told() {
    let told = |lines: &str| {
        let mut lines = lines.to_owned();
        lines.push_str("store 2 kg of jam of \"other.miche\", made 2027-04-10\n");
        let day = format!("day Market\nready 2027-04-20 09:00\n{lines}");
        let other = DOUGHNUTS.replace("recipe Doughnuts", "recipe Berliners");
        let bench = files(&[("doughnuts.miche", DOUGHNUTS), ("other.miche", &other), ("day.miche", &day)]);
        let problems = said(&bench, &["check", "day.miche"]);
        let first = problems.split("warning[").nth(1).unwrap_or_default().to_owned();
        assert_eq!(problems.matches("warning[never-used]").count(), first.matches("never-used]").count(), "{problems}");
        problems
    };
    // Right days: some of it is taken; the second line is more than is needed.
    let both = "make 24 of \"doughnuts.miche\"\nmake 24 of \"other.miche\"\n";
    for right in ["", "store 2 kg of jam of \"doughnuts.miche\"\n", "store 3 of \"doughnuts.miche\"\n"] {
        let problems = told(&format!("{both}{right}"));
        assert!(!problems.contains("never-used") && !problems.contains("past-keeps"), "{problems}");
    }
    let enough = "store 1 kg of jam of \"doughnuts.miche\"\nstore 1 kg of jam of \"doughnuts.miche\"\n";
    assert!(!told(&format!("{both}{enough}")).contains("never-used"));
    // Nothing is made of the other doughnuts.
    let problems = told("make 24 of \"doughnuts.miche\"\n");
    assert!(problems.contains("warning[never-used]: nothing that is made on this day takes `jam`"), "{problems}");
    assert!(problems.contains("day.miche:4:1"), "{problems}");
    // A jam in pieces, and less than one doughnut.
    let problems = told(&format!("{both}store 3 of jam of \"doughnuts.miche\"\n"));
    assert!(problems.contains("what so many pieces of it weigh is not known"), "{problems}");
    let problems = told(&format!("{both}store 100 g of doughnuts of \"doughnuts.miche\"\n"));
    assert!(problems.contains("taken in whole pieces, and this is less than one"), "{problems}");
    // Fresh for the first order, which takes none of it, and past for the one that would.
    let late = "make 24 of \"other.miche\", ready 2027-04-12 09:00\nmake 24 of \"doughnuts.miche\", ready 2027-05-12 09:00\n\
        store 1 kg of jam of \"doughnuts.miche\", made 2027-04-10\n";
    let problems = told(late);
    assert!(problems.contains("warning[past-keeps]") && problems.contains("by 2027-05-12"), "{problems}");
}

/// Buns with one dough under either finish, whose own dough is another one by hand.
const WAYS: &str = "recipe Buns\nmakes 12 buns\nchoose mixing: machine or hand\nchoose finish: sugar or seed\npart dough\n\
    plain flour .... 600 g\nwater .... 300 g\ninstant yeast .... 6 g [machine]\ninstant yeast .... 4 g [hand]\n\
    divide 12 x 75 g\nmix: hands 10 min\n    Mix {plain flour}, {water} and {instant yeast}.\n    until even\n\
    part buns\nper piece\ndough .... 1 piece\nsugar .... 2 g [sugar]\nsesame .... 2 g [seed]\nshape: hands 20 s, each\n    \
    Shape {dough}.\nstrew: hands 2 min [sugar]\n    Strew {sugar} on them.\nstrew: hands 2 min [seed]\n    Strew {sesame} on them.\n\
    bake: tend 15 min\n    until gold\n";

/// A dough that was made by hand is none that is made by machine; what does not touch the dough is one.
#[test]
fn a_store_made_under_other_options_is_told() {
    let told = |choose: &str| {
        let day = format!(
            "day D\nready 2027-04-20 09:00\nmake 24 of \"buns.miche\", choose hand\nstore 450 g of dough of \"buns.miche\"{choose}\n"
        );
        said(&files(&[("buns.miche", WAYS), ("day.miche", &day)]), &["check", "day.miche"])
    };
    let problems = told("");
    assert!(problems.contains("warning[never-used]: the orders take a `dough` that is made with `hand`"), "{problems}");
    assert!(problems.contains("`choose hand`"), "{problems}");
    for right in [", choose hand", ", choose hand, choose seed"] {
        assert!(!told(right).contains("never-used"), "{right}");
    }
}

/// 24 buns are made, not 48: the dough that both orders share is in no pieces of theirs, and the lists say which order is which.
#[test]
fn a_shared_dough_is_no_pieces_of_its_own() {
    let day = "day D\nready 2027-04-20 09:00\nmake 12 of \"buns.miche\"\nmake 12 of \"buns.miche\", choose seed\n";
    let bench = files(&[("buns.miche", WAYS), ("day.miche", day)]);
    let list = json(&bench, &["list", "day.miche"]);
    let head: Vec<(&str, &str)> = list["batches"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| (one["recipe"].as_str().unwrap(), one["makes"].as_str().unwrap()))
        .collect();
    assert_eq!(head, [("Buns", "1800 g of dough"), ("Buns (sugar)", "12 buns"), ("Buns (seed)", "12 buns")]);
    let sugar = one(&list["weigh"], "ingredient", "sugar");
    assert_eq!(sugar["portions"][0]["recipe"], "Buns (sugar)");
    let cards = json(&bench, &["card", "day.miche"]);
    let makes: Vec<(&Value, &Value)> =
        cards.as_array().unwrap().iter().map(|card| (&card["makes"]["pieces"], &card["makes"]["grams"])).collect();
    assert_eq!(makes[0], (&Value::Null, &1800.into()));
    assert_eq!((makes[1].0, makes[2].0), (&12.into(), &12.into()));
    // What a piece of dough costs is no price of a bun.
    let cost = said(&bench, &["cost", "day.miche"]);
    assert_eq!(cost.matches("one of 12 pieces").count(), 2, "{cost}");
    assert!(!cost.contains("one of 24 pieces"), "{cost}");
}

/// A glaze that only holds under one option stands above the dough and moves its number; 24 buns of one dough all the same.
#[test]
fn a_part_of_one_option_above_the_dough_keeps_the_dough_one() {
    let glaze = "part glaze [glaze]\nsugar .... 40 g\nwater .... 20 g\nboil: hands 5 min\n    Boil {sugar} and {water}.\n    until clear\n";
    let buns = "recipe Buns\nmakes 12 buns\nchoose finish: glaze or plain\n".to_owned()
        + glaze
        + "part sponge, from dough\nplain flour .... 30 %\nwater .... 30 %\nstir: hands 2 min\n    Stir {plain flour} and {water}.\n\
           ripen: wait 2 h\n    until domed\n\
           part dough\nplain flour .... 600 g\nwater .... 300 g\ninstant yeast .... 6 g\ndivide 12 x 75 g\nmix: hands 10 min\n    \
           Mix {sponge}, {plain flour}, {water} and {instant yeast}.\n    until even\npart buns\nper piece\ndough .... 1 piece\n\
           glaze .... 5 g [glaze]\nshape: hands 20 s, each\n    Shape {dough}.\nbake: tend 15 min\n    until gold\n\
           brush: hands 3 min [glaze]\n    Brush with {glaze}.\n";
    let day = "day D\nready 2027-04-20 09:00\nmake 12 of \"buns.miche\"\nmake 12 of \"buns.miche\", choose plain\n";
    let store = format!("{day}store 450 g of dough of \"buns.miche\", choose plain\n");
    let bench = files(&[("buns.miche", &buns), ("day.miche", day), ("store.miche", &store)]);
    let plan = json(&bench, &["plan", "day.miche"]);
    let made = steps(&plan);
    let count = |step: &str| made.iter().filter(|one| *one == step).count();
    assert_eq!((count("mix"), count("stir"), count("boil")), (1, 1, 1), "{made:?}");
    let list = json(&bench, &["list", "day.miche"]);
    let flour = one(&list["weigh"], "ingredient", "plain flour");
    let weighed: Vec<f64> =
        flour["portions"].as_array().unwrap().iter().map(|one| one["grams"].as_f64().unwrap()).collect();
    // Of 1200 g 30 % go into the sponge.
    let mut sorted = weighed.clone();
    sorted.sort_by(f64::total_cmp);
    assert_eq!(sorted, [360.0, 840.0], "{list}");
    // What is in the store of the one is the dough of the other: 1350 g are lacking of 1800 g.
    let list = json(&bench, &["list", "store.miche"]);
    assert_eq!(one(&list["store"], "what", "dough")["grams"], 450.0);
    assert!(!said(&bench, &["check", "store.miche"]).contains("never-used"));
}

/// A filling of another recipe is boiled once for two times, as far as it keeps.
#[test]
fn a_filling_of_another_recipe_is_made_once_for_two_times() {
    let filling = "recipe Plum filling\nkeeps KEPT, chilled\nplum .... 1 kg\nsugar .... 100 g\nboil: tend 30 min\n    \
        Boil {plum} and {sugar}.\n    until thick\n";
    let tarts = "recipe Tarts\nmakes 12 tarts\nuse \"filling.miche\"\npart dough\nplain flour .... 600 g\nwater .... 300 g\n\
        divide 12 x 75 g\nmix: hands 10 min\n    Mix {plain flour} and {water}.\n    until even\npart tarts\nper piece\n\
        dough .... 1 piece\nPlum filling .... 30 g\nshape: hands 20 s, each\n    Shape {dough}.\nfill: hands 2 min\n    Spoon in {Plum filling}.\n\
        bake: tend 15 min\n    until gold\n";
    let day = "day D\nready 2027-04-20 10:00\nmake 12 of \"tarts.miche\"\nmake 12 of \"tarts.miche\", ready 2027-04-20 17:00\n";
    for (keeps, times) in [("5 days", 1), ("1 h", 2)] {
        let filling = filling.replace("KEPT", keeps);
        let bench = files(&[("filling.miche", &filling), ("tarts.miche", tarts), ("day.miche", day)]);
        let made = steps(&json(&bench, &["plan", "day.miche", "--zone", "UTC"]));
        assert_eq!(made.iter().filter(|step| *step == "boil").count(), times, "{keeps}: {made:?}");
    }
}

/// Under one way the sponge is drawn, under the other it is not: then it is neither made nor planned, all the flour goes into the
/// dough, and it is told. What no way draws was forgotten, and stays as it is written.
#[test]
fn a_preferment_that_an_option_leaves_out_is_not_made() {
    let bread = "recipe Bread\nmakes 10 loaves\nchoose way: sponge or straight\npart poolish, from dough\nplain flour .... 30 %\n\
        water .... 30 %\ninstant yeast .... 0.1 %\nstir: hands 5 min\n    Stir {plain flour}, {water} and {instant yeast}.\n    until even\n\
        ripen: wait 10 h, at 18 C, up to 13 h\n    until domed\npart dough\nplain flour .... 5 kg = 100 %\nwater .... 65 %\nsalt .... 2 %\n\
        instant yeast .... 1 %\ndivide 10 x 820 g, loss 2.4 %\nmix: hands 10 min [sponge]\n    \
        Mix {poolish}, {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nmix: hands 12 min [straight]\n    \
        Mix {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 80 min\nbake: tend 30 min\n    until brown\n";
    let forgotten = bread.replace("Mix {poolish}, ", "Mix ");
    let day = "day D\nmake 10 of \"bread.miche\", choose straight\nmake 10 of \"bread.miche\"\n";
    let bench = files(&[("bread.miche", bread), ("forgotten.miche", &forgotten), ("day.miche", day)]);
    let problems = said(&bench, &["check", "bread.miche"]);
    assert!(problems.contains("no step takes `poolish`, so it is not made"), "{problems}");
    assert!(problems.contains("(with straight)") && problems.matches("[never-used]").count() == 1, "{problems}");
    let straight = ["--choose", "straight"];
    let card = json(&bench, &[&["card", "bread.miche"][..], &straight].concat());
    assert_eq!(card["parts"].as_array().unwrap().len(), 1);
    assert_eq!(line(&card, "dough", "plain flour")["grams"], 5000);
    assert_eq!(steps(&json(&bench, &[&["plan", "bread.miche"][..], &straight].concat())), ["mix", "rise", "bake"]);
    let list = json(&bench, &[&["list", "bread.miche"][..], &straight].concat());
    let flour = one(&list["weigh"], "ingredient", "plain flour");
    assert_eq!((&flour["grams"], flour["portions"].as_array().unwrap().len()), (&5000.0.into(), 1));
    // Of the two loaves of a day only one has a poolish, of its own size.
    let list = json(&bench, &["list", "day.miche"]);
    let flour = one(&list["weigh"], "ingredient", "plain flour");
    let of_poolish: Vec<&Value> =
        flour["portions"].as_array().unwrap().iter().filter(|one| one["part"] == "poolish").collect();
    assert_eq!((of_poolish.len(), &of_poolish[0]["grams"], &flour["grams"]), (1, &1500.0.into(), &10000.0.into()));
    let problems = said(&bench, &["check", "forgotten.miche"]);
    assert!(problems.contains("[never-used]: no step takes `poolish`\n"), "{problems}");
    assert_eq!(json(&bench, &["card", "forgotten.miche"])["parts"].as_array().unwrap().len(), 2);
}

/// One recipe for two times that are too far apart for one dough: the list tells which flour is whose.
#[test]
fn a_dough_that_is_mixed_twice_stands_on_the_list_with_its_time() {
    let recipe = "recipe Buns\nmakes 40 buns\nchoose finish: sugar or seed\nplain flour .... 2 kg\nwater .... 1.2 kg\ninstant yeast .... 20 g\n\
        sugar .... 10 g, aside [sugar]\nsesame .... 10 g, aside [seed]\n\
        divide 40 x 79 g\nmix: hands 10 min\n    Mix {plain flour}, {water} and {instant yeast}.\n    until smooth\n\
        prove: wait 50 min, at 27 C\nbake: tend 15 min, using oven at 220 C\n    until gold\n";
    let told = |second: &str| {
        let day =
            format!("day D\nready 2027-04-16 08:00\nmake 40 of \"buns.miche\"\nmake 40 of \"buns.miche\"{second}\n");
        let list = json(&files(&[("buns.miche", recipe), ("day.miche", &day)]), &["list", "day.miche"]);
        let flour = list["weigh"].as_array().unwrap().iter().find(|one| one["ingredient"] == "plain flour").unwrap();
        let names = |of: &Value| -> Vec<String> {
            of.as_array().unwrap().iter().map(|one| one["recipe"].as_str().unwrap().to_owned()).collect()
        };
        assert_eq!(names(&flour["portions"]), names(&list["batches"]));
        names(&list["batches"])
    };
    assert_eq!(told(", ready 2027-04-16 15:30"), ["Buns (for 08:00)", "Buns (for 15:30)"]);
    assert_eq!(told(", ready 2027-04-17 08:00"), ["Buns (for 2027-04-16 08:00)", "Buns (for 2027-04-17 08:00)"]);
    // Other options tell them apart by themselves.
    assert_eq!(told(", choose seed, ready 2027-04-16 15:30"), ["Buns (sugar)", "Buns (seed)"]);
}

/// What is made once for both times is for neither alone on the list; each dish still is for its own.
#[test]
fn a_part_that_is_made_once_for_two_times_is_listed_without_one() {
    let tart = "recipe Plum tarts\nmakes 12 tarts, bake loss 10 %\npart pastry\nplain flour .... 600 g\nbutter .... 300 g\nwater .... 150 g\n\
        divide 12 x 85 g, loss 2.9 %\nrub: hands 10 min\n    Rub {butter} into {plain flour}; bind with {water}.\n    until it holds\n\
        part tarts\nper piece\npastry .... 1 piece\nplum .... 70 g\nfill: hands 20 s, each\n    Fill {pastry} with {plum}.\n\
        bake: tend 25 min, using oven at 190 C\n    until gold\n";
    let day = "day Tarts twice\nmake 12 of \"tart.miche\", ready 2027-05-12 09:00\nmake 24 of \"tart.miche\", ready 2027-05-12 15:00\n";
    let list = json(&files(&[("tart.miche", tart), ("day.miche", day)]), &["list", "day.miche"]);
    let flour = one(&list["weigh"], "ingredient", "plain flour");
    let whole = flour["portions"].as_array().unwrap();
    assert_eq!((whole.len(), &whole[0]["recipe"]), (1, &"Plum tarts".into()), "{flour}");
}

/// A dough of a file of its own, for rolls at eight and at half past nine: its card says how much is for when, in every form, and so do
/// the list and the plan. A dough that is all for one time says none.
#[test]
fn what_is_made_once_for_two_times_says_for_when() {
    let dough = "recipe White dough\nmakes 20 kg\npart white dough\nstrong white flour .... 100 %\nwater .... 64 %\nsalt .... 2 %\n\
        fresh yeast .... 1 %\nmakes 20 kg, loss 1 %\nmix: hands 10 min\n    \
        Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\nbulk: wait 50 min, at 25 C, up to 3 h\n";
    let rolls = "recipe Quay rolls\nmakes 24 rolls\nuse \"dough.miche\"\nwhite dough .... 100 %\npercent of white dough\n\
        divide 24 x 75 g, loss 1 %\nscale: hands 20 s, each\n    Scale {white dough}.\nprove: wait 40 min, at 26 C\n\
        bake: tend 15 min\n    until gold\n";
    // At 09:00 one dough would make both of the day before, and the second could have a fresh one.
    let bench = |second: &str| {
        let day = format!(
            "day Two times\nready 2027-04-17 10:00\nmake 24 of \"rolls.miche\"\nmake 36 of \"rolls.miche\"{second}\n"
        );
        files(&[("dough.miche", dough), ("rolls.miche", rolls), ("day.miche", &day)])
    };
    let later = bench(", ready 2027-04-17 11:30");
    let cards = json(&later, &["card", "day.miche"]);
    let for_whom = cards[0]["made_for"].as_array().unwrap();
    let ready: Vec<&str> = for_whom.iter().map(|one| one["ready"].as_str().unwrap()).collect();
    assert_eq!(ready, ["2027-04-17 10:00", "2027-04-17 11:30"]);
    let text =
        said(&later, &["card", "day.miche", "--format", "text"]).split_whitespace().collect::<Vec<_>>().join(" ");
    let both = "1818 g for Quay rolls at 2027-04-17 10:00 and 2727 g for Quay rolls at 2027-04-17 11:30";
    assert!(text.contains(both), "{text}");
    let html = said(&later, &["card", "day.miche", "--format", "html"]);
    assert!(html.contains(" for 2027-04-17 10:00") && html.contains(" for 2027-04-17 11:30"), "{html}");
    let list = json(&later, &["list", "day.miche"]);
    let batches: Vec<&str> =
        list["batches"].as_array().unwrap().iter().map(|one| one["recipe"].as_str().unwrap()).collect();
    assert_eq!(batches, ["White dough", "Quay rolls (for 10:00)", "Quay rolls (for 11:30)"]);
    let plan = json(&later, &["plan", "day.miche", "--zone", "UTC"]);
    assert_eq!(steps(&plan).iter().filter(|step| *step == "mix").count(), 1);
    let cards = json(&bench(""), &["card", "day.miche"]);
    assert!(cards[0]["made_for"].as_array().unwrap().iter().all(|one| one["ready"].is_null()), "{cards}");
}

/// A dough with a sponge that is ordered by itself and drawn on by another recipe, whose parts have other numbers: the sponge goes into it
/// once, and all of it.
#[test]
fn a_preferment_of_a_shared_dough_goes_in_once() {
    let loaves = "recipe Skerry loaves\nmakes 6 loaves\npart starter, from sponge\nstrong white flour .... 10 %\nwater .... 10 %\n\
        instant yeast .... 0.01 %\nstir: hands 2 min\n    Stir {strong white flour}, {water} and {instant yeast}.\n    until even\n\
        ripen: wait 10 h, at 20 C, up to 14 h\n    until domed\npart sponge, from dough\nstrong white flour .... 30 %\nwater .... 30 %\n\
        instant yeast .... 0.15 %\nmix: hands 3 min\n    Mix {starter}, {strong white flour}, {water} and {instant yeast}.\n    until even\n\
        ripen: wait 3 h, at 24 C, up to 4 h\n    until domed\npart dough\nstrong white flour .... 3 kg = 100 %\nwater .... 62 %\nsalt .... 2 %\n\
        instant yeast .... 0.5 %\ndivide 6 x 812 g, loss 1.3 %\nknead: hands 10 min\n    Knead {sponge}, {strong white flour}, {water}, {salt} and \
        {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C, up to 2 h\n    until doubled\n";
    let flats = "recipe Skerry flats\nmakes 12 flats\nuse \"loaves.miche\"\npart flats\nper piece\ndough .... 100 g\ncheddar .... 20 g\n\
        press: hands 20 s, each\n    Press {dough} flat and strew {cheddar}.\n    until thin\n";
    let day = "day Skerry\nmake 12 of \"flats.miche\", ready 2026-12-05 11:00\nmake 6 of \"loaves.miche\", ready 2026-12-05 11:00\n";
    let bench = files(&[("loaves.miche", loaves), ("flats.miche", flats), ("day.miche", day)]);
    let plan = json(&bench, &["plan", "day.miche", "--zone", "UTC"]);
    let tasks = plan["tasks"].as_array().unwrap();
    for (step, preferment) in [("mix", "starter"), ("knead", "sponge")] {
        let of_it: Vec<&Value> = tasks.iter().filter(|task| task["step"] == step).collect();
        assert_eq!(of_it.len(), 1, "the dough is made once: {plan}");
        let goes_in = of_it[0]["amounts"].as_array().unwrap().iter().filter(|one| one["ingredient"] == preferment);
        assert_eq!(goes_in.count(), 1, "{step}: {}", of_it[0]);
    }
    let text =
        said(&bench, &["plan", "day.miche", "--format", "text"]).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("all the sponge ("), "{text}");
}

/// What a line takes from the store stands in the same file, and another part below it. By hand: 8 small buns take 80 g of jam, 32 g are there;
/// 48 g come of 64 g, a quarter boiled off, of which 40 g are plum. Where there is enough, nothing of it is made.
#[test]
fn what_lacks_of_a_part_of_the_same_file_is_made_of_sorts_too() {
    let buns = "recipe Quay buns\nmakes 12 buns\npart dough\nplain flour .... 100 %\nwater .... 60 %\nsalt .... 2 %\nfresh yeast .... 3 %\n\
        divide 8 x 60 g small and 4 x 110 g large, loss 2 %\nmix: hands 10 min\n    until smooth\npart small buns\nper small\n\
        dough .... 1 piece\njam .... 10 g, from store\nround: hands 12 s, each\n    Round {dough}, fill with {jam}.\n\
        bake: tend 13 min, using oven at 200 C\n    until gold\npart large buns\nper large\ndough .... 1 piece\n\
        bake: tend 20 min, using oven at 190 C\n    Bake {dough}.\n    until gold\npart pulp\nplum .... 1 kg\nblend: hands 5 min\n    Blend {plum}.\n    until even\n\
        part jam\npulp .... all\nsugar .... 600 g\nmakes 1.2 kg, loss 25 %\nkeeps 3 weeks, chilled\nboil: tend 40 min\n    \
        Boil {pulp} with {sugar}.\n    until {105 C}\n";
    let day = |made: &str, store: &str| {
        format!(
            "day One\nready 2027-06-12 10:00\nmake {made} of \"buns.miche\"\nstore {store} of jam of \"buns.miche\", made 2027-06-10\n"
        )
    };
    let bench = files(&[("buns.miche", buns), ("day.miche", &day("8 small", "32 g"))]);
    let plan = json(&bench, &["plan", "day.miche"]);
    let grams = |step: &str, name: &str| {
        one(&one(&plan["tasks"], "step", step)["amounts"], "ingredient", name)["grams"].clone()
    };
    assert_eq!((grams("blend", "plum"), grams("boil", "sugar")), (40.into(), 24.into()), "{plan}");
    assert_eq!(one(&plan["from_store"], "what", "jam")["grams"], 32);
    let list = said(&bench, &["list", "day.miche"]);
    assert!(list.contains("40 g") && list.contains("plum"), "{list}");
    for (made, store) in [("8 small", "1 kg"), ("12", "1 kg")] {
        bench.write("day.miche", day(made, store));
        let made = steps(&json(&bench, &["plan", "day.miche"]));
        assert!(!made.iter().any(|step| step == "boil" || step == "blend"), "{made:?}");
    }
}
