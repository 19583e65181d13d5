//! Food that is hot in a day's plan: it goes from the heat into the hot cupboard or the chiller, load by load, and where it cannot the plan
//! says so. Kitchens and recipes are made up; what is said of time and heat is the FDA Food Code's 3-501.14 (cooling) and 3-501.16
//! (holding), the half hour before a hot cupboard common practice, no source.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/hot_days.rs"]
mod hot_days;
#[path = "plan/sheet.rs"]
mod sheet;

use hot_days::{BAGELS, CHILLI, FISH, KITCHEN, STEW};
use serde_json::Value;
use sheet::{files, json, miche, refused};

fn day(name: &str, make: &str, recipe: &str, kitchen: &str) -> String {
    let day = format!("day Canteen\nuse \"kitchen.miche\"\nready 2027-05-12 14:00\nmake {make} of \"food.miche\"\n");
    files(name, &[("day.miche", &day), ("kitchen.miche", kitchen), ("food.miche", recipe)])
}

/// The times of each load of a step.
fn of(plan: &Value, step: &str) -> Vec<(i64, i64)> {
    let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
    let number = |task: &Value, edge: &str| task[edge].as_i64().unwrap();
    tasks.map(|task| (number(task, "start_minute"), number(task, "end_minute"))).collect()
}

fn cautions(plan: &Value) -> Vec<(&str, &str)> {
    let all = plan["cautions"].as_array().unwrap().iter();
    all.map(|caution| (caution["check"].as_str().unwrap(), caution["text"].as_str().unwrap())).collect()
}

/// Two kettles of stew out of one kettle: each is fried and simmered without a pause, and goes into the hot cupboard as it comes.
#[test]
fn each_load_of_a_stew_goes_from_the_kettle_into_the_hot_cupboard() {
    let plan = json(&[&day("stew", "300", STEW, KITCHEN)]);
    let (fry, simmer, hold) = (of(&plan, "fry"), of(&plan, "simmer"), of(&plan, "hold"));
    assert_eq!((fry.len(), simmer.len(), hold.len()), (2, 2, 2), "{plan:#}");
    for ((fry, simmer), hold) in fry.iter().zip(&simmer).zip(&hold) {
        assert_eq!(fry.1, simmer.0);
        assert!(hold.0 - simmer.1 <= 30, "{simmer:?} {hold:?}");
    }
    assert_eq!(cautions(&plan), []);
}

/// Three kettles cannot all be in the cupboard for an hour and a half at most until they are served together: that is so, and is said.
#[test]
fn what_may_be_held_for_so_long_is_not_held_longer_in_loads() {
    let said = refused(&[&day("stew-480", "480", STEW, KITCHEN)], 1);
    assert!(said.contains("no-plan") && said.contains("hold"), "{said}");
}

/// What comes out of the fryer six by six is held six by six.
#[test]
fn fried_fish_is_held_as_it_comes_out_of_the_fat() {
    let plan = json(&[&day("fish", "60", FISH, KITCHEN)]);
    let (fry, hold) = (of(&plan, "fry"), of(&plan, "hold"));
    assert_eq!((fry.len(), hold.len()), (10, 10));
    let mut out: Vec<i64> = fry.iter().map(|load| load.1).collect();
    let mut into: Vec<i64> = hold.iter().map(|load| load.0).collect();
    out.sort_unstable();
    into.sort_unstable();
    assert!(out.iter().zip(&into).all(|(out, into)| into - out <= 30), "{out:?} {into:?}");
    assert_eq!(cautions(&plan), []);
}

/// One chiller that is too small for a kettle: the last third stands hot for three hours, which nobody may overlook.
#[test]
fn what_stands_hot_before_the_chiller_is_cautioned() {
    let plan = json(&[&day("chilli", "34 kg", CHILLI, KITCHEN)]);
    let cautions = cautions(&plan);
    assert!(
        cautions
            .iter()
            .any(|(check, text)| *check == "slow-cooling" && text.contains("3 h") && text.contains("blast 3 of 3")),
        "{cautions:?}"
    );
    let more = KITCHEN.replace("blast chiller x 1", "blast chiller x 3");
    let plan = json(&[&day("chilli-3", "34 kg", CHILLI, &more)]);
    assert_eq!(self::cautions(&plan), []);
}

/// More chillers are offered only where none of it then stands hot: three for seven loads are no mend.
#[test]
fn no_mend_lets_hot_food_stand() {
    let said = refused(&[&day("chilli-100", "100 kg", CHILLI, KITCHEN)], 1);
    assert!(said.contains("no-plan") && said.contains("the `blast chiller` is needed 10 h 30 min"), "{said}");
    assert!(said.contains("would let hot food stand"), "{said}");
    assert!(!said.contains("blast chiller x 2`") && !said.contains("blast chiller x 3`"), "{said}");
}

/// Six at a time in one pot: four loads one after the other, on the hob on which it was brought to the boil.
#[test]
fn bagels_are_boiled_in_the_pot_that_boils() {
    let plan = json(&[&day("bagels", "24", BAGELS, KITCHEN)]);
    let mut boil = of(&plan, "boil");
    boil.sort_unstable();
    assert_eq!(boil.len(), 4);
    assert!(boil.windows(2).all(|pair| pair[0].1 <= pair[1].0), "{boil:?}");
    let unit = |step: &str| -> Vec<Value> {
        let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
        tasks.map(|task| task["unit"].clone()).collect()
    };
    let hob = unit("heat");
    assert!(unit("boil").iter().all(|one| *one == hob[0]), "{plan:#}");
}

/// Eighty pies with cooked beef are made up before the oven has taken the first sixteen: of what stands for hours the row says so, and of what
/// is made up as it is baked nothing is said. FDA Food Code 3-501.19, four hours out of the cold at most (from memory); two are told.
#[test]
fn what_is_made_up_of_cooked_meat_and_stands_before_the_oven_is_cautioned() {
    let pies = "recipe Pies\nmakes 80 pies\nuse \"kitchen.miche\"\npart filling\nbeef shin .... 8 kg\nbeef stock .... 4 kg\nmakes 8.4 kg, loss 30 %\n\
        keeps 3 days, chilled\nboil: tend 1 h, using hob\n    Simmer {beef shin} in {beef stock}.\n    until tender\n\
        chill: wait 90 min, using blast chiller at 3 C\npart pies\nper piece\nplain flour .... 60 g\nlard .... 30 g\nfilling .... 100 g\n\
        rub: hands 10 min\n    Rub {lard} into {plain flour}.\nline: hands 10 s, each\nfill: hands 20 s, each\n    Fill with {filling}.\n\
        bake: tend 40 min, using oven at 200 C, 16 at a time\n    until {75 C} in the middle\n";
    let kitchen = "kitchen Canteen\noven x 1\nhob x 2\nblast chiller x 1\ncooks 2\nopen 05:00-14:30\n";
    let plan = json(&[&day("pies", "80", pies, kitchen)]);
    let said: Vec<(&str, &str)> = cautions(&plan).into_iter().filter(|one| one.0 == "left-warm").collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].1.contains("what fill of pies made") && said[0].1.contains("before bake 5 of 5"), "{said:?}");
    let by_load = pies
        .replace("line: hands 10 s, each", "line: hands 10 s, each, 16 at a time")
        .replace("fill: hands 20 s, each", "fill: hands 20 s, each, 16 at a time");
    let plan = json(&[&day("pies-by-load", "80", &by_load, kitchen)]);
    assert!(cautions(&plan).iter().all(|one| one.0 != "left-warm"), "{:?}", cautions(&plan));
}

/// A fryer, or a kettle for bagels, that takes half an hour to be hot is not hot empty: the fat and the water are in it when it is lit.
#[test]
fn what_is_fried_in_is_in_the_fryer_when_that_is_lit() {
    let kitchen = "kitchen Canteen\nfryer x 1, heating 25 min\nkettle x 1, heating 30 min\noven x 1, heating 20 min\ncooks 2\nopen 07:30-14:30\n";
    let fried = "recipe Rings\nmakes 24 rings\nuse \"kitchen.miche\"\nbest before 1 day\nper piece\nplain flour .... 30 g\nwater .... 20 g\nrapeseed oil .... 120 g, aside\n\
        mix: hands 10 min\n    Mix {plain flour} and {water}.\nfry: tend 4 min, using fryer at 180 C, 6 at a time\n    Fry in {rapeseed oil}.\n    until gold\n";
    let boiled = "recipe Knots\nmakes 24 knots\nuse \"kitchen.miche\"\nbest before 1 day\npart bath\nwater .... 10 kg\nmalt syrup .... 150 g\npart knots\nper piece\n\
        plain flour .... 60 g\nwater .... 30 g\nbath .... all, strained out\nmix: hands 10 min\n    Mix {plain flour} and {water}.\n\
        boil: hands 2 min, using kettle at 98 C, 8 at a time\n    Boil in {bath}.\nbake: tend 16 min, using oven at 230 C\n";
    for (name, recipe, step, what, grams) in
        [("rings", fried, "fry", "rapeseed oil", 2880.0), ("knots", boiled, "boil", "bath", 10150.0)]
    {
        let plan = json(&[&day(name, "24", recipe, kitchen)]);
        let heating = plan["heating"].as_array().unwrap();
        let filled: Vec<&Value> = heating.iter().filter(|light| light.get("amounts").is_some()).collect();
        assert_eq!(filled.len(), 1, "{heating:?}");
        let amount = &filled[0]["amounts"][0];
        assert_eq!((amount["ingredient"].as_str(), amount["grams"].as_f64()), (Some(what), Some(grams)), "{amount}");
        for load in plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step) {
            let amounts = load["amounts"].as_array().unwrap().iter();
            assert!(amounts.filter(|one| one["ingredient"] == what).all(|one| one["grams"].is_null()), "{load}");
        }
    }
}

/// A hundred and twenty parcels out of an oven that takes thirty, each held from its oven until two o'clock.
const PARCELS: &str = "recipe Parcels\nmakes 120 parcels\nuse \"kitchen.miche\"\nplain flour .... 4 kg\nwater .... 2 kg\ndivide 120 x 50 g\n\
    mix: hands 10 min\n    Mix {plain flour} and {water}.\nfold: hands 5 s, each\nbake: tend 25 min, using oven at 190 C, 30 at a time\n    until gold\n\
    hold: wait 10 min, using hot box at 65 C, up to 2 h\n";

/// Where each load of a step is, from when to when: the unit, the start, the end.
fn places(plan: &Value, step: &str) -> Vec<(i64, i64, i64)> {
    let tasks = plan["tasks"].as_array().unwrap().iter().filter(|task| task["step"] == step);
    tasks
        .map(|task| ["unit", "start_minute", "end_minute"].map(|key| task[key].as_i64().unwrap()))
        .map(|[a, b, c]| (a, b, c))
        .collect()
}

/// What is handed over out of a hot box is in it until it is wanted: no box holds two loads at once, and a load is taken out sooner only where
/// the next one has no other place. WORK.md, 'equipment is held as long as something is in it'.
#[test]
fn what_is_held_hot_until_it_is_wanted_keeps_its_place() {
    let kitchen = "kitchen Canteen\noven x 1\nhob x 2\nhot box x 4\ncooks 2\nopen 07:30-14:30\n";
    let stew = "recipe Stew\nmakes 60 portions\nuse \"kitchen.miche\"\npotato .... 8 kg\nwater .... 6 kg\ndivide 60 x 230 g, loss 1.5 %\n\
        simmer: tend 60 min, using hob\n    Simmer {potato} in {water}.\n    until soft\nhold: wait 10 min, using hot box at 65 C, up to 2 h\n";
    for with_stew in [false, true] {
        let more = if with_stew { "make 60 of \"stew.miche\"\n" } else { "" };
        let day = format!(
            "day Canteen\nuse \"kitchen.miche\"\nready 2027-05-12 14:00\nmake 120 of \"parcels.miche\"\n{more}"
        );
        let all = [("day.miche", &*day), ("kitchen.miche", kitchen), ("parcels.miche", PARCELS), ("stew.miche", stew)];
        let plan = json(&[&files(&format!("parcels-{with_stew}"), &all)]);
        let hold = places(&plan, "hold");
        assert_eq!(hold.len(), 4 + usize::from(with_stew), "{plan:#}");
        for (at, one) in hold.iter().enumerate() {
            let mut beside = hold.iter().skip(at + 1).filter(|other| other.0 == one.0);
            assert!(beside.all(|other| one.2 <= other.1 || other.2 <= one.1), "{hold:?}");
        }
        let wanted = plan["span_minutes"].as_i64().unwrap();
        let sooner = hold.iter().filter(|load| load.2 < wanted).count();
        assert_eq!(sooner, usize::from(with_stew), "{hold:?}");
    }
}

/// By weight: the box takes three loads of a kilogram and a half, and the first of four comes out when the last goes in.
#[test]
fn a_hot_box_takes_what_it_holds_by_weight() {
    let kitchen = "kitchen Canteen\noven x 1\nhot box x 1, holds 5 kg\ncooks 2\nopen 07:30-14:30\n";
    let plan = json(&[&day("parcels-weight", "120", PARCELS, kitchen)]);
    let hold = places(&plan, "hold");
    assert_eq!(hold.len(), 4, "{plan:#}");
    for (_, start, _) in &hold {
        let inside = hold.iter().filter(|(_, from, until)| from <= start && start < until).count();
        assert!(inside <= 3, "{hold:?}");
    }
    assert_eq!(cautions(&plan), []);
}

/// What comes out of the blast chillers goes into the fridge as it does: the first half does not stand until the second is chilled.
#[test]
fn what_was_chilled_goes_into_the_fridge_load_by_load() {
    let kitchen = "kitchen Canteen\nkettle x 1, holds 60 kg\nblast chiller x 2, holds 12 kg\nfridge x 1\ncooks 2\nopen 07:30-14:30\n";
    let soup = "recipe Soup\nmakes 38 kg, loss 5 %\nuse \"kitchen.miche\"\ncarrot .... 20 kg, sliced\nwater .... 20 kg\nkeeps 3 days, chilled\n\
        boil: tend 45 min, using kettle\n    Boil {carrot} in {water}.\n    until tender\nchill: wait 60 min, using blast chiller at 3 C\n\
        store: wait 30 min, using fridge at 3 C, up to 3 days\n";
    let plan = json(&[&day("soup-stored", "38 kg", soup, kitchen)]);
    let (chill, store) = (of(&plan, "chill"), of(&plan, "store"));
    assert_eq!((chill.len(), store.len()), (4, 4), "{plan:#}");
    for (chill, store) in chill.iter().zip(&store) {
        assert_eq!(chill.1, store.0, "{plan:#}");
    }
}

/// Nor does the first half of an ice cream stand on the table while the second is frozen.
#[test]
fn ice_cream_goes_into_the_freezer_load_by_load() {
    let kitchen =
        "kitchen Canteen\nbatch freezer x 1, holds 3 kg\nfreezer x 1\nfridge x 1\ncooks 1\nopen 07:30-14:30\n";
    let ice = "recipe Ice\nmakes 4 kg\nuse \"kitchen.miche\"\nwhole milk .... 2.5 kg\ncream .... 800 g\ncaster sugar .... 700 g\nkeeps 14 days, frozen\n\
        blend: hands 10 min\n    Blend {whole milk}, {cream} and {caster sugar}.\n\
        churn: tend 25 min, using batch freezer at -6 C\n    until firm\nharden: wait 3 h, using freezer at -18 C, up to 5 days\n";
    let plan = json(&[&day("ice", "4 kg", ice, kitchen)]);
    let (churn, harden) = (of(&plan, "churn"), of(&plan, "harden"));
    assert_eq!((churn.len(), harden.len()), (2, 2), "{plan:#}");
    assert!(churn.iter().zip(&harden).all(|(churn, harden)| churn.1 == harden.0), "{plan:#}");
}

/// Forty kilograms of fat are no two fryers of eight: what is filled in once is told, whatever goes through it.
#[test]
fn fat_that_no_fryer_holds_is_told() {
    let said = |fat: &str, name: &str| {
        let fish = FISH.replace(
            "fry: tend 7 min, using fryer at 180 C, 6 at a time\n",
            "fry: tend 7 min, using fryer at 180 C, 6 at a time\n    Fry in {rapeseed oil}.\n",
        );
        let fish = fish.replace("divide 60", &format!("rapeseed oil .... {fat}, aside\ndivide 60"));
        let kitchen = KITCHEN.replace("fryer x 2, holds 6 pieces", "fryer x 2, holds 8 kg");
        String::from_utf8_lossy(&miche(&[&day(name, "60", &fish, &kitchen)]).stderr).into_owned()
    };
    let over = said("40 kg", "fat-over");
    assert!(over.contains("`fry` fills in 40 kg of `rapeseed oil`, but 2 of `fryer` hold 16 kg"), "{over}");
    let fits = said("16 kg", "fat-fits");
    assert!(!fits.contains("fills in"), "{fits}");
}

/// A bath of so much a piece is one bath: it is heated in one pot, and all that is boiled goes through that pot.
#[test]
fn a_bath_by_the_piece_stays_in_its_pot() {
    let by_piece = BAGELS.replace(
        "part bagels\nkettle .... all, strained out\ndough .... all\nsesame seeds .... 120 g\ndivide 24 x 102 g\n",
        "part bagels\nper piece\nkettle .... 255 g, strained out\ndough .... 1 piece\nsesame seeds .... 5 g\n",
    );
    assert_ne!(by_piece, BAGELS);
    let plan = json(&[&day("bagels-by-piece", "24", &by_piece, KITCHEN)]);
    let (heat, boil) = (places(&plan, "heat"), places(&plan, "boil"));
    assert_eq!((heat.len(), boil.len()), (1, 4), "{plan:#}");
    assert!(boil.iter().all(|load| load.0 == heat[0].0), "{heat:?} {boil:?}");
    assert!(boil.windows(2).all(|pair| pair[0].2 <= pair[1].1), "{boil:?}");
}

/// Three boxes of which nobody says how much they hold, and four loads: as many go in as there are boxes, and the first comes out when the last
/// goes in. Nothing stands on the bench for hours before all of it is held in one box.
#[test]
fn three_hot_boxes_take_four_loads_by_turns() {
    let kitchen = "kitchen Canteen\noven x 1\nhob x 2\nhot box x 3\ncooks 2\nopen 07:30-14:30\n";
    let plan = json(&[&day("parcels-turns", "120", PARCELS, kitchen)]);
    let (bake, hold) = (of(&plan, "bake"), places(&plan, "hold"));
    assert_eq!(hold.len(), 4, "{plan:#}");
    let mut into: Vec<i64> = hold.iter().map(|load| load.1).collect();
    into.sort_unstable();
    assert!(bake.iter().zip(&into).all(|(bake, into)| into - bake.1 <= 30), "{bake:?} {hold:?}");
    for (at, one) in hold.iter().enumerate() {
        let mut beside = hold.iter().skip(at + 1).filter(|other| other.0 == one.0);
        assert!(beside.all(|other| one.2 <= other.1 || other.2 <= one.1), "{hold:?}");
    }
    assert_eq!(cautions(&plan), []);
}

/// What is tended in a hot cupboard, `up to` some time, is held there until it is wanted: it goes in at once, and keeps its place.
#[test]
fn what_is_tended_where_it_is_hot_keeps_its_place() {
    let kitchen = "kitchen Canteen\nkettle x 1\nhot cupboard x 1, holds 60 kg\ncooks 2\nopen 07:30-14:30\n";
    let soup = "recipe Soup\nmakes 20 kg\nuse \"kitchen.miche\"\npotato .... 12 kg, diced\nwater .... 8 kg\n\
        simmer: tend 40 min, using kettle\n    Simmer {potato} in {water}.\n    until soft\n\
        blend: hands 10 min\nhold: tend 30 min, using hot cupboard at 75 C, up to 2 h\n";
    let plan = json(&[&day("soup-held", "20 kg", soup, kitchen)]);
    let (blend, hold) = (of(&plan, "blend"), of(&plan, "hold"));
    assert_eq!(blend[0].1, hold[0].0, "{plan:#}");
    let wanted = plan["span_minutes"].as_i64().unwrap();
    assert_eq!(hold[0].1, wanted, "{plan:#}");
}

/// Ice cream goes from its machine into the freezer as it comes, whatever the machine is called and however cold.
#[test]
fn ice_cream_of_any_machine_goes_into_the_freezer_load_by_load() {
    let kitchen = "kitchen Canteen\nice cream machine x 1, holds 3 kg\nfreezer x 1\ncooks 1\nopen 07:30-14:30\n";
    let ice = "recipe Ice\nmakes 4 kg\nuse \"kitchen.miche\"\nwhole milk .... 2.5 kg\ncream .... 800 g\ncaster sugar .... 700 g\nkeeps 14 days, frozen\n\
        blend: hands 10 min\n    Blend {whole milk}, {cream} and {caster sugar}.\n\
        churn: tend 25 min, using ice cream machine\n    until firm\nharden: wait 3 h, using freezer at -18 C, up to 5 days\n";
    let plan = json(&[&day("ice-machine", "4 kg", ice, kitchen)]);
    let (churn, harden) = (of(&plan, "churn"), of(&plan, "harden"));
    assert_eq!((churn.len(), harden.len()), (2, 2), "{plan:#}");
    assert!(churn.iter().zip(&harden).all(|(churn, harden)| churn.1 == harden.0), "{plan:#}");
}

/// Doughnuts that drain before they are filled are cool then: nobody keeps them hot.
#[test]
fn what_drains_before_it_is_filled_does_not_stand_hot() {
    let kitchen = "kitchen Canteen\nfryer x 1\ncooks 1\nopen 07:30-14:30\n";
    let rings = |drain: &str| {
        format!(
            "recipe Rings\nmakes 24 rings\nuse \"kitchen.miche\"\nstrong white flour .... 800 g\nwater .... 500 g\ninstant yeast .... 10 g\n\
             jam .... 300 g, aside\ndivide 24 x 54 g, loss 1 %\nmix: hands 10 min\n    Mix {{strong white flour}}, {{water}} and {{instant yeast}}.\n\
             rise: wait 60 min, at 25 C\ncut: hands 10 s, each\nprove: wait 40 min, at 27 C, up to 80 min\n\
             fry: tend 5 min, using fryer at 175 C, 6 at a time\n    until brown\n{drain}fill: hands 12 s, each\n    Fill with {{jam}}.\n"
        )
    };
    let plan = json(&[&day("rings", "24", &rings("drain: wait 10 min, 6 at a time\n"), kitchen)]);
    let stand = |plan: &Value| {
        plan["tasks"].as_array().unwrap().iter().filter(|task| !task["stands_hot_minutes"].is_null()).count()
    };
    assert_eq!(stand(&plan), 0, "{plan:#}");
}

/// Rings fried for ten and for two: the fryer is filled once, for the first of them, with as much as the larger order takes. List, cost, card and
/// plan have it once; the label of the second has it none the less.
#[test]
fn a_fryer_is_filled_once_a_day() {
    let kitchen = "kitchen Canteen\nfryer x 1, holds 12 pieces\ncooks 1\nopen 05:00-16:00\n";
    let rings = "recipe Rings\nmakes 24 rings\nuse \"kitchen.miche\"\ncaution Deep fat: never leave it.\nstrong white flour .... 800 g\n\
        water .... 500 g\ninstant yeast .... 10 g\nsunflower oil .... 4 kg, aside\ndivide 24 x 54 g, loss 1 %\nmix: hands 10 min\n    \
        Mix {strong white flour}, {water} and {instant yeast}.\nrise: wait 60 min, at 25 C\ncut: hands 10 s, each\n\
        prove: wait 40 min, at 27 C, up to 80 min\nfry: tend 5 min, using fryer at 175 C, 12 at a time\n    Fry in {sunflower oil}.\n    until brown\n";
    let at = |name: &str, first: &str, second: &str| {
        let day = format!(
            "day Canteen\nuse \"kitchen.miche\"\nmake 24 of \"rings.miche\", ready {first}\nmake 48 of \"rings.miche\", ready {second}\n"
        );
        files(name, &[("day.miche", &day), ("kitchen.miche", kitchen), ("rings.miche", rings)])
    };
    let out = |command: &str, day: &str| {
        let arguments = [command, day, "--color", "never"];
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).output().unwrap();
        String::from_utf8(output.stdout).unwrap().replace('\u{a0}', " ")
    };
    let day = at("bath", "2027-05-12 10:00", "2027-05-12 14:00");
    let list = out("list", &day);
    // 48 rings take 8 kg as it is written.
    assert!(list.contains("| sunflower oil | 8000 g | Rings (for 10:00), Rings | 8000 g |"), "{list}");
    assert!(!list.contains("(for 14:00), Rings | 8000 g |"), "{list}");
    let plan = json(&[&day]);
    let fried: Vec<&Value> = plan["tasks"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|task| task["step"] == "fry")
        .map(|task| &task["amounts"])
        .collect();
    let filled = |amounts: &&&Value| {
        amounts.as_array().unwrap().iter().any(|one| one["ingredient"] == "sunflower oil" && one["grams"].is_number())
    };
    assert_eq!(fried.iter().filter(filled).count(), 1, "{fried:?}");
    let cards = out("card", &day);
    assert!(cards.contains("| filled in before |") && cards.contains("Fry in sunflower oil."), "{cards}");
    assert_eq!(out("label", &day).matches("sunflower oil, ").count().min(2), 2);
    // On another day it is filled anew.
    let days = at("baths", "2027-05-12 10:00", "2027-05-13 14:00");
    let list = out("list", &days);
    assert!(list.contains("12.000 kg"), "{list}");
}
