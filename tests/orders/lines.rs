//! What a line says of what it takes: strained out, from store, leaves, before a step.

use super::{Bench, files, json, line, one, part, said, steps};
use serde_json::Value;

/// 8 kg of water and 40 g of salt stay in, the bones and the leaves come out: 6030 g are three quarters of 8040 g.
const STOCK: &str = "recipe Pier stock\nuse \"larder.miche\"\nmakes 6.03 kg, loss 25 %\nshin bone .... 5 kg, strained out\n\
    water .... 8 kg\nsalt .... 40 g\nbay leaf .... 4, strained out\nboil: tend 3 h, using hob\n    \
    Boil {shin bone}, {water}, {salt} and {bay leaf}; strain.\n    until it tastes of it\n";
const LARDER: &str = "ingredient shin bone\ncosts 2 per kg\ncontains celery\n\ningredient bay leaf\ncontains nothing\n\n\
    ingredient salt\ncosts 1 per kg\n\ningredient flour\ncosts 1 per kg\n";
const SOUP: &str = "recipe Keel soup\nmakes 10 bowls\nuse \"stock.miche\"\npart soup\nper piece\nPier stock .... 201 g\n\
    heat: tend 10 min, using hob\n    Heat {Pier stock}.\n    until hot\n";

fn stock() -> Bench {
    files(&[("stock.miche", STOCK), ("larder.miche", LARDER), ("soup.miche", SOUP)])
}

#[test]
fn what_is_strained_out_goes_in_and_is_not_in_what_is_made() {
    let bench = stock();
    let problems = said(&bench, &["check", "stock.miche"]);
    assert!(!problems.contains("yield-does-not-add-up") && !problems.contains("no-weight"), "{problems}");
    let card = json(&bench, &["card", "stock.miche"]);
    let pot = part(&card, "Pier stock");
    assert_eq!(pot["makes"]["grams"], 6030);
    assert_eq!(pot["makes"]["actual_loss_percent"], 25);
    let bones = line(&card, "Pier stock", "shin bone");
    assert_eq!((&bones["strained_out"], &bones["grams"]), (&Value::from(true), &Value::from(5000)));
    assert!(said(&bench, &["card", "stock.miche", "--format", "text"]).contains("shin bone, strained out"));
    // It is bought and paid for, and its allergens stay behind.
    assert_eq!(one(&json(&bench, &["list", "stock.miche"])["buy"], "ingredient", "shin bone")["grams"], 5000.0);
    let cost = json(&bench, &["cost", "stock.miche"]);
    assert_eq!(cost["costs"][0]["total"], 10.04);
    assert!(card["allergens"].as_array().unwrap().contains(&Value::from("celery")), "{}", card["allergens"]);
}

/// Of a third of the batch everything is a third; nothing of the bones weighs on the label.
#[test]
fn strained_out_scales_and_weighs_on_no_label() {
    let bench = stock();
    let card = json(&bench, &["card", "stock.miche", "--times", "1/3"]);
    assert_eq!(part(&card, "Pier stock")["makes"]["grams"], 2010);
    let label = said(&bench, &["label", "stock.miche", "--format", "text"]);
    assert!(label.to_lowercase().contains("celery"), "{label}");
    let label = json(&bench, &["label", "stock.miche"]);
    let text = label.to_string();
    assert!(text.contains("shin bone") && !text.contains("5000"), "{text}");
    assert_eq!(label["labels"][0]["net_g"], 6030.0);
}

/// 10 bowls of 201 g take a third of the stock, bones and all, from another file.
#[test]
fn strained_out_holds_for_a_part_of_another_recipe() {
    let bench = stock();
    let card = json(&bench, &["card", "soup.miche"]);
    let bones = line(&card, "Pier stock", "shin bone")["grams"].as_f64().unwrap();
    assert!((bones - 5000.0 / 3.0).abs() < 1e-6, "{bones}");
    assert_eq!(part(&card, "Pier stock")["makes"]["grams"], 2010);
    assert!(card["allergens"].as_array().unwrap().contains(&Value::from("celery")));
    // Percentages and a yield: what stays in is what makes the yield, and the base may be strained out itself.
    let bench = Bench::with(
        "tea.miche",
        "recipe Keeper's tea\npercent of water\nwater .... 100 %\ntea leaf .... 2 %, strained out\nsugar .... 5 %\nmakes 2.1 kg\n\
         brew: hands 5 min\n    Brew {water}, {tea leaf} and {sugar}.\n    until dark\n",
    );
    let card = json(&bench, &["card", "tea.miche"]);
    assert_eq!(line(&card, "Keeper's tea", "water")["grams"], 2000);
    assert_eq!(line(&card, "Keeper's tea", "tea leaf")["grams"], 40);
}

/// 300 g of yolk leave 570 g of white; the meringue takes 400 g of it, and 170 g remain.
const CURD: &str = "recipe Buoy curd\nmakes 1 bowl\negg yolk .... 300 g, leaves egg white 190 %\nsugar .... 200 g\n\
    whisk: hands 10 min\n    Whisk {egg yolk} with {sugar}.\n    until pale\n";
const MERINGUE: &str = "recipe Foam\nmakes 40 kisses\negg white .... 400 g, from store\nsugar .... 800 g\n\
    whip: hands 15 min, using mixer\n    Whip {egg white} and {sugar}.\n    until stiff\n";
const EGGS: &str = "day Egg day\nmake 1 of \"curd.miche\"\nmake 40 of \"foam.miche\"\n";

#[test]
fn what_is_left_over_is_named_and_may_be_taken() {
    let bench = files(&[("curd.miche", CURD), ("foam.miche", MERINGUE), ("day.miche", EGGS)]);
    let card = json(&bench, &["card", "curd.miche"]);
    assert_eq!(line(&card, "Buoy curd", "egg yolk")["leaves"]["grams"], 570);
    let list = json(&bench, &["list", "day.miche"]);
    let white = one(&list["left_over"], "what", "egg white");
    assert_eq!(
        (&white["grams"], &white["taken_g"], &white["remains_g"]),
        (&570.0.into(), &400.0.into(), &170.0.into())
    );
    let taken = one(&list["store"], "what", "egg white");
    assert_eq!((&taken["grams"], &taken["left_here_g"]), (&400.0.into(), &400.0.into()));
    // It is weighed out and not bought.
    assert_eq!(one(&list["weigh"], "ingredient", "egg white")["grams"], 400.0);
    assert!(list["buy"].as_array().unwrap().iter().all(|item| item["ingredient"] != "egg white"), "{list}");
    for format in ["text", "markdown", "html"] {
        let text = said(&bench, &["list", "day.miche", "--format", format]);
        assert!(text.to_lowercase().contains("left over") && text.contains("170"), "{format}: {text}");
    }
    // By itself a third of the curd leaves a third.
    let list = json(&bench, &["list", "curd.miche", "--times", "3"]);
    assert_eq!(one(&list["left_over"], "what", "egg white")["remains_g"], 1710.0);
}

/// The jam was made before: it is no part of this plan, list or cost, and the list says how much to take.
const DOUGHNUTS: &str = "recipe Doughnuts\nmakes 12 doughnuts\nuse \"larder.miche\"\npart jam\nkeeps 20 days\nplum .... 1 kg\n\
    sugar .... 600 g\nmakes 1.2 kg, loss 25 %\nboil: tend 40 min, using hob\n    Boil {plum} and {sugar}.\n    until it sets\n\
    part dough\nflour .... 1 kg\nwater .... 500 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until even\n\
    part doughnuts\nper piece\ndough .... 125 g\njam .... 40 g, from store\nfill: hands 20 s, each\n    \
    Fill {dough} with {jam}.\n    until full\n";

#[test]
fn what_is_from_the_store_is_taken_and_not_made() {
    let bench = files(&[("doughnuts.miche", DOUGHNUTS), ("larder.miche", LARDER)]);
    let problems = said(&bench, &["check", "doughnuts.miche"]);
    assert!(!problems.contains("part-left-over") && !problems.contains("never-used"), "{problems}");
    let card = json(&bench, &["card", "doughnuts.miche"]);
    assert!(card["parts"].as_array().unwrap().iter().all(|part| part["name"] != "jam"), "{card}");
    assert_eq!(line(&card, "doughnuts", "jam")["from_store"], true);
    let list = json(&bench, &["list", "doughnuts.miche", "--times", "1/3"]);
    assert_eq!(one(&list["store"], "what", "jam")["grams"], 160.0);
    assert!(list["buy"].as_array().unwrap().iter().all(|item| item["ingredient"] != "plum"), "{list}");
    assert_eq!(json(&bench, &["cost", "doughnuts.miche"])["costs"][0]["total"], 1.0);
    assert!(!steps(&json(&bench, &["plan", "doughnuts.miche"])).contains(&"boil".to_owned()));
    let text = said(&bench, &["card", "doughnuts.miche", "--format", "text"]);
    assert!(text.contains("jam, from store"), "{text}");
}

/// Two kilograms of the laminated dough are sold as they are; the rest is shaped and baked.
const LAMINATED: &str = "recipe Layers\npart laminated dough\nflour .... 2 kg\nwater .... 1 kg\nbutter .... 1 kg\n\
    divide 40 x 98 g, loss 2 %\nmix: hands 10 min\n    Mix {flour}, {water} and {butter}.\n    until even\n\
    roll: hands 20 min\n    Roll and fold.\n    until layered\nheat: tend 30 min, using oven at 210 C, before bake\n\
    shape: hands 30 s, each, after roll\n    Shape.\n    until curved\nbake: tend 18 min, using oven at 210 C\n    until gold\n";
const TARTS: &str = "recipe Plum slices\nmakes 10 slices\nuse \"layers.miche\"\npart slices\nper piece\n\
    laminated dough .... 98 g, before shape\nplum .... 50 g\nlay: hands 20 s, each\n    Lay {plum} on {laminated dough}.\n    until covered\n";
const BOTH: &str = "recipe Both ways\nmakes 10 plates\nuse \"layers.miche\"\npart slices\nlaminated dough .... 980 g, before shape\n\
    lay: hands 5 min\n    Lay out {laminated dough}.\n    until even\npart plates\nper piece\nslices .... 98 g\nlaminated dough .... 294 g\n\
    put: hands 10 s, each\n    Put {slices} beside {laminated dough}.\n    until full\n";

#[test]
fn before_a_step_its_last_steps_are_not_done() {
    let bench = files(&[("layers.miche", LAMINATED), ("tarts.miche", TARTS), ("both.miche", BOTH)]);
    let plan = steps(&json(&bench, &["plan", "tarts.miche"]));
    assert_eq!(plan, ["mix", "roll", "lay"], "neither shaped nor baked, nor is an oven heated for it");
    let card = json(&bench, &["card", "tarts.miche"]);
    let names: Vec<&Value> =
        part(&card, "laminated dough")["steps"].as_array().unwrap().iter().map(|step| &step["name"]).collect();
    assert_eq!(names, ["mix", "roll"]);
    assert_eq!(line(&card, "slices", "laminated dough")["before"], "shape");
    assert_eq!(part(&card, "laminated dough")["divide"]["pieces"], 10);
    // Of 3920 g a quarter is taken before: 30 of 40 pieces are shaped, and a card says as many as a plan.
    let card = json(&bench, &["card", "both.miche"]);
    let dough = part(&card, "laminated dough");
    assert_eq!(one(&dough["steps"], "name", "shape")["loads"], 30);
    let plan = json(&bench, &["plan", "both.miche"]);
    let shape = one(&plan["tasks"], "step", "shape");
    let minutes = shape["end_minute"].as_i64().unwrap() - shape["start_minute"].as_i64().unwrap();
    assert_eq!(minutes, 15);
}

#[test]
fn what_cannot_be_bound_is_told() {
    let bench = files(&[
        ("layers.miche", LAMINATED),
        ("a.miche", &TARTS.replace("before shape", "before shap")),
        ("b.miche", &TARTS.replace("before shape", "before mix")),
        ("c.miche", &CURD.replace("190 %", "0 %")),
    ]);
    let near = said(&bench, &["check", "a.miche"]);
    assert!(near.contains("unknown-step") && near.contains("`shape`"), "{near}");
    let first = said(&bench, &["check", "b.miche"]);
    assert!(first.contains("unknown-step") && first.contains("nothing is done"), "{first}");
    let nothing = said(&bench, &["check", "c.miche"]);
    assert!(nothing.contains("impossible-number"), "{nothing}");
}

/// A dough of another file is made at the size that is taken of it, and what its braces say in grams grows with it: 60 g of 200 g
/// there are 120 g of 400 g here, and as many cups and pieces.
#[test]
fn an_amount_in_braces_grows_with_a_dough_of_another_file() {
    let base = "recipe Base\nmeasures metric\npart dough\nstrong white flour .... 1 kg\negg .... 4\nmilk .... 2 cup\nbutter .... 200 g\n\
                mix: hands 10 min\n    Mix {300 g of strong white flour}, {1 of egg}, {1 cup of milk} and {60 g of butter}.\n    \
                until smooth\nadd: hands 5 min\n    Add {rest of strong white flour}, {rest of egg}, {rest of milk} and {rest of butter}.\n    \
                until smooth\n";
    let plates =
        "recipe Plates\nuse \"base.miche\"\npart plates\ndough .... 3432 g\nlay: hands 5 min\n    Lay {dough} out.\n";
    let bench = files(&[("plates.miche", plates), ("base.miche", base)]);
    let there = json(&bench, &["card", "base.miche"]);
    let weighs = part(&there, "dough")["total_g"].as_f64().unwrap();
    let card = json(&bench, &["card", "plates.miche"]);
    let times = 3432.0 / weighs;
    let used = |card: &Value, step: usize| {
        let uses = part(card, "dough")["steps"][step]["uses"].as_array().unwrap().clone();
        uses.iter().map(|one| one["grams"].as_f64().unwrap()).collect::<Vec<f64>>()
    };
    for step in [0, 1] {
        let (here, there) = (used(&card, step), used(&there, step));
        assert_eq!(here.len(), there.len());
        for (here, there) in here.iter().zip(&there) {
            assert!((here - there * times).abs() < 1e-6 * here, "{here} for {there} x {times}");
        }
    }
}

/// A dough that is alive and says nothing of how long it keeps is told after a day, a sponge after a week; what goes into two things names both.
#[test]
fn what_is_old_and_says_nothing_of_how_long_it_keeps_is_told() {
    let buns = "recipe Buns\nmakes 12 buns\n\npart dough\nstrong white flour .... 1 kg\nwater .... 600 g\nfresh yeast .... 20 g\ndivide 24 x 65 g, loss 3 %\n\
                mix: hands 10 min\n    Mix {strong white flour}, {water} and {fresh yeast}.\n    until smooth\nrise: wait 1 h\n    until doubled\n\n\
                part plain\nper piece\ndough .... 1 piece\n\npart sweet\nper piece\ndough .... 1 piece\n";
    let day = |made: &str| {
        format!(
            "day D\nready 2026-12-05 09:00\nmake 12 of \"buns.miche\"\nstore 6 of dough of \"buns.miche\", made {made}\n"
        )
    };
    let bench = files(&[("buns.miche", buns), ("old.miche", &day("2026-11-10")), ("new.miche", &day("2026-12-04"))]);
    assert!(said(&bench, &["check", "old.miche"]).contains("is alive, and says nothing of how long it keeps"));
    assert!(!said(&bench, &["check", "new.miche"]).contains("past-keeps"));
    assert!(said(&bench, &["list", "new.miche", "--format", "text"]).contains("plain and sweet"));
}

/// Of 6 kg that are there of a dough that is handed over in two sizes nobody knows which loaves they are: nothing is taken, and all 24 are made.
#[test]
fn sorts_that_are_handed_over_come_from_no_store_by_weight() {
    let loaves = "recipe Loaves\nstrong white flour .... 10 kg\nwater .... 62 %\ndivide 12 x 450 g small and 12 x 900 g large\n\
                  mix: hands 5 min\n    Mix {strong white flour} and {water}.\n    until smooth\n";
    let day = "day D\nmake 12 small and 12 large of \"loaves.miche\"\nstore 6 kg of \"loaves.miche\"\n";
    let bench = files(&[("loaves.miche", loaves), ("day.miche", day)]);
    assert!(said(&bench, &["check", "day.miche"]).contains("which of them are there is not said"));
    assert!(said(&bench, &["card", "day.miche", "--format", "text"]).contains("12 × 450 g small and 12 × 900 g large"));
}
