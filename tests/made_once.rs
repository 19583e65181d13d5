//! What is made for a day is worked out once: cards, list, plan and cost say the same of every part, to the gram, and together
//! they make what each order needs by itself.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::work_out;
use miche::edge::loader::Loader;
use miche::figures::card::{Card, of_batch};
use miche::figures::{cost, list};
use miche::make::batch::BatchPart;
use miche::make::order::Order;
use miche::make::work::Work;
use miche::make::{day, loads};
use miche::measure::number::Number;
use miche::measure::quantity::Mass;
use miche::measure::show::Units;
use miche::model::recipe::{Recipe, Refers};
use miche::model::step::Loads;
use miche::plan::tasks;
use miche::solve::formula::Formula;
use miche::solve::resolve::day::{self as days, DayOrder};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;

/// The orders of the file `day.miche` among these files.
fn orders_of(files: &[(String, String)]) -> Vec<Order> {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    orders_in(&folder.path().join("day.miche"))
}

fn orders_in(path: &Path) -> Vec<Order> {
    let mut loader = Loader::new();
    let source = loader.load(path).unwrap();
    let project = loader.into_project();
    let mut problems = Vec::new();
    let day = days::day(&project, source, &mut problems).unwrap();
    assert!(problems.is_empty(), "{problems:?}");
    let work = |line: &DayOrder| {
        let mut problems = Vec::new();
        let found = work_out(&project, line.recipe, &line.selection, &mut problems);
        assert!(problems.is_empty(), "{problems:?}");
        found
    };
    day::orders(&day, work).unwrap()
}

fn cards(work: &Work) -> Vec<Card> {
    work.batches.iter().map(|batch| of_batch(batch, Units::Metric).unwrap()).collect()
}

fn grams(value: i64) -> Mass {
    Mass::new(Number::whole(value))
}

/// Worked by hand: 50 rolls of 100 take half of 50 % of 4 kg, 1000 g; 40 sticks take 50 g each, 2000 g.
#[test]
fn what_two_recipes_draw_on_is_made_once() {
    let orders = orders_in(&Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/market-day.miche"));
    let cards = cards(&Work::of(orders).unwrap());
    let titles: Vec<&str> = cards.iter().map(|card| card.title.as_str()).collect();
    assert_eq!(titles, ["Mother dough", "Harbour rolls", "Seed sticks", "Rhubarb crumb buns"]);
    let dough = &cards[0];
    let takes: Vec<String> = dough.made_for.iter().map(|one| format!("{}: {}", one.recipe, one.shown)).collect();
    assert_eq!(takes, ["Harbour rolls: 1000 g", "Seed sticks: 2000 g"]);
    // 2 kg as written, 3 kg made.
    assert_eq!(dough.factor, Number::fraction(3, 2).unwrap());
    assert_eq!(dough.parts[0].lines[0].mass, Some(grams(1800)));
    assert!(cards[1..].iter().all(|card| card.parts.iter().all(|part| part.name != "Mother dough")));
    let sticks = cards.iter().find(|card| card.title == "Seed sticks").unwrap();
    for allergen in ["wheat", "gluten", "sesame"] {
        assert!(sticks.allergens.iter().any(|known| known == allergen), "{allergen} is missing");
    }
}

const MOTHER: &str = "recipe Tide dough\nchoose way: slow or fast\npart tide dough\nplain flour .. 1 kg\nwater .. 600 g\n\
    salt .. 20 g [slow]\nsalt .. 30 g [fast]\nmix: hands 10 min\n    Mix.\n    until even\n";
const PIER: &str = "recipe Pier rolls\nmakes 10 rolls\nuse \"mother.miche\"\npart rolls\ntide dough .. 810 g\nmix: hands 5 min\n    \
    Shape {tide dough}.\n    until round\n";
const BUOY: &str = "recipe Buoy base\nuse \"mother.miche\"\npart base\ntide dough .. 324 g\nbutter .. 76 g\nfold: hands 5 min\n    \
    Fold {butter} into {tide dough}.\n    until even\n";
const KEEL: &str = "recipe Keel tarts\nmakes 8 tarts\nuse \"buoy.miche\"\nuse \"mother.miche\"\npart tarts\nbase .. 400 g\n\
    tide dough .. 162 g\nfill: hands 5 min\n    Line with {base}, cover with {tide dough}.\n    until closed\n";
/// What is strewn on at the end is chosen, and the dough is the same.
const WHARF: &str = "recipe Wharf buns\nmakes 10 buns\nchoose finish: sesame or poppy\npart dough\nplain flour .. 100 %\n\
    water .. 60 %\ndivide 10 x 80 g\nmix: hands 10 min\n    Mix.\n    until even\npart buns\nper piece\ndough .. 1 piece\n\
    sesame .. 2 g [sesame]\npoppy seeds .. 2 g [poppy]\nroll: hands 5 min\n    Roll {dough}.\n    until coated\n";

fn small_day(lines: &str) -> Work {
    let file = |name: &str, text: &str| (format!("{name}.miche"), text.to_owned());
    let day = file("day", &format!("day Quay\n{lines}\n"));
    let all =
        [day, file("mother", MOTHER), file("pier", PIER), file("buoy", BUOY), file("keel", KEEL), file("wharf", WHARF)];
    Work::of(orders_of(&all)).unwrap()
}

/// How often a part of that name is made, and how much of it in all.
fn made(work: &Work, name: &str) -> (usize, Mass) {
    let all: Vec<Mass> = work
        .made()
        .into_iter()
        .filter_map(|at| {
            let batch = &work.batches[at.batch];
            (batch.recipe.part(at.part)?.name.text.as_ref() == name).then(|| batch.formula.part(at.part)?.makes)?
        })
        .collect();
    (all.len(), Mass::sum(all).unwrap())
}

/// How many mixes a plan has of it.
fn planned(work: &Work, name: &str) -> usize {
    let tasks = tasks::of(work, &work.orders[0].recipe.kitchen).unwrap();
    let of =
        |task: &&tasks::Task| work.batches[task.batch].recipe.part(task.step.part).unwrap().name.text.as_ref() == name;
    tasks.list.iter().filter(of).count()
}

/// 3240 g are ordered, the rolls take 810 g of it: one mix of 4050 g, on the card and in the plan.
#[test]
fn a_dough_that_is_ordered_and_drawn_on_is_mixed_once() {
    let work = small_day("make 10 of \"pier.miche\"\nmake 3240 g of \"mother.miche\"");
    assert_eq!(made(&work, "tide dough"), (1, grams(4050)));
    assert_eq!(planned(&work, "tide dough"), 1);
    assert_eq!(work.ends_of(1), [BatchPart { batch: 0, part: miche::model::recipe::PartId(0) }]);
}

/// Two ways to make the dough are two doughs, and none of them is lost in the plan: 810 g and 810 g.
#[test]
fn two_choices_are_two_doughs() {
    let work = small_day("make 10 of \"pier.miche\"\nmake 810 g of \"mother.miche\", choose fast");
    assert_eq!(made(&work, "tide dough"), (2, grams(1620)));
    assert_eq!(planned(&work, "tide dough"), 2);
}

/// By hand: 30 pieces of 80 g are one dough of 2400 g, for 10 buns of one kind and 20 of the other. Of 1 kg in the store, under
/// whatever choice, 12 whole pieces are taken.
#[test]
fn what_no_choice_touches_is_one_dough() {
    let day = "make 10 of \"wharf.miche\"\nmake 20 of \"wharf.miche\", choose poppy";
    let work = small_day(day);
    assert_eq!((made(&work, "dough"), made(&work, "buns")), ((1, grams(2400)), (2, grams(2460))));
    assert_eq!(planned(&work, "dough"), 1);
    let cards = cards(&work);
    assert_eq!(cards.iter().map(|card| card.choices.len()).collect::<Vec<usize>>(), [0, 1, 1]);
    let takes: Vec<String> = cards[0].made_for.iter().map(|one| format!("{} {}", one.shown, one.recipe)).collect();
    assert_eq!(takes, ["800 g Wharf buns (sesame)", "1600 g Wharf buns (poppy)"]);
    let work = small_day(&format!("{day}\nstore 1 kg of dough of \"wharf.miche\", choose poppy"));
    assert_eq!(made(&work, "dough"), (1, grams(2400 - 12 * 80)));
}

/// Worked by hand: 162 g for the tarts and 324 g for the base in them are one mix of 486 g.
#[test]
fn what_is_drawn_on_in_two_ways_is_made_once() {
    let work = small_day("make 8 of \"keel.miche\"");
    assert_eq!(made(&work, "tide dough"), (1, grams(486)));
    assert_eq!(planned(&work, "tide dough"), 1);
    let card = &cards(&work)[0];
    assert_eq!(card.parts.iter().filter(|part| part.name == "tide dough").count(), 1);
}

/// The base is made for two orders, the dough in it for all three: 486 g, 324 g × ½ and 810 g.
#[test]
fn what_is_shared_may_draw_on_what_is_shared() {
    let work = small_day("make 8 of \"keel.miche\"\nmake 200 g of \"buoy.miche\"\nmake 10 of \"pier.miche\"");
    assert_eq!(made(&work, "base"), (1, grams(600)));
    assert_eq!(made(&work, "tide dough"), (1, grams(486 + 162 + 810)));
    let titles: Vec<String> = work.batches.iter().map(|batch| batch.recipe.name.to_string()).collect();
    assert_eq!(titles, ["Tide dough", "Buoy base", "Keel tarts", "Pier rolls"]);
    let takes: Vec<(&str, Mass)> = work.batches[0].made_for.iter().map(|one| (one.recipe.as_str(), one.mass)).collect();
    assert_eq!(takes, [("Buoy base", grams(486)), ("Keel tarts", grams(162)), ("Pier rolls", grams(810))]);
}

/// Two orders of one recipe for one time are one dough and one card of 30 rolls, as wanted by both; at another time, or chosen
/// otherwise, it is another dough.
#[test]
fn the_same_for_the_same_time_is_made_once() {
    let work = small_day("make 10 of \"pier.miche\"\nmake 20 of \"pier.miche\"");
    assert_eq!(made(&work, "rolls"), (1, grams(2430)));
    assert_eq!(planned(&work, "rolls"), 1);
    let cards = cards(&work);
    let rolls = cards.iter().find(|card| card.title == "Pier rolls").unwrap();
    assert_eq!(rolls.makes.as_ref().unwrap().pieces, Some(Number::whole(30)));
    assert_eq!((work.ends_of(0), work.orders.len()), (work.ends_of(1), 2));
    let work = small_day(
        "make 10 of \"pier.miche\", ready 2027-04-17 06:00\nmake 20 of \"pier.miche\", ready 2027-04-17 11:00",
    );
    assert_eq!(made(&work, "rolls"), (2, grams(2430)));
    let work = small_day("make 810 g of \"mother.miche\"\nmake 810 g of \"mother.miche\", choose fast");
    assert_eq!(made(&work, "tide dough"), (2, grams(1620)));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// 4050 g are needed by two orders together; whatever there is of it is taken, and card, list, plan and cost hold the rest.
    #[test]
    fn what_is_in_the_store_is_not_made(there in 1_i64..6000) {
        let work = small_day(&format!(
            "make 10 of \"pier.miche\"\nmake 3240 g of \"mother.miche\"\nstore {there} g of tide dough of \"mother.miche\""
        ));
        let lacking = (4050 - there).max(0);
        prop_assert_eq!(made(&work, "tide dough").1, grams(lacking));
        let taken: Vec<Mass> = work.batches.iter().flat_map(|batch| &batch.from_store).map(|one| one.mass.unwrap()).collect();
        prop_assert_eq!(Mass::sum(taken).unwrap(), grams(there.min(4050)));
        prop_assert_eq!(planned(&work, "tide dough"), usize::from(lacking > 0));
        // 1620 g of dough have 1 kg of flour.
        let flour = grams(lacking).times(Number::fraction(1000, 1620).unwrap()).unwrap();
        let list = list::of(&cards(&work), Units::Metric).unwrap();
        let listed = list.weigh.iter().find(|one| one.name == "plain flour").map_or(Mass::ZERO, |one| one.mass.unwrap());
        prop_assert_eq!(listed, flour);
        let on_cards = cards(&work);
        let shown = on_cards.iter().flat_map(|card| &card.from_store).filter_map(|one| one.taken.mass);
        prop_assert_eq!(Mass::sum(shown).unwrap(), grams(there.min(4050)));
    }
}

/// A recipe for a random day.
#[derive(Debug, Clone)]
struct Made {
    /// Percent of water, per mille of salt.
    water: u32,
    salt: u32,
    /// Percent of the flour in a preferment; none at 0.
    fermented: u32,
    /// Whether it has a choice.
    chooses: bool,
    /// Whether its pieces are filled, in a part by the piece.
    filled: bool,
    /// Whether those are of two sizes.
    sorted: bool,
    /// Whether it takes yolks, which leave whites, or whites from the store.
    eggs: Eggs,
    /// What it draws on, of the recipes before it, and how much of it, in grams.
    draws: Vec<(prop::sample::Index, u32)>,
    pieces: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Eggs {
    None,
    Yolks,
    Whites,
}

fn made_one() -> impl Strategy<Value = Made> {
    let draws = prop::collection::vec((any::<prop::sample::Index>(), 1_u32..900), 0..3);
    let eggs = prop_oneof![Just(Eggs::None), Just(Eggs::Yolks), Just(Eggs::Whites)];
    let kinds = (any::<bool>(), any::<bool>(), any::<bool>(), eggs);
    (50_u32..90, 10_u32..30, prop_oneof![Just(0_u32), 5_u32..40], kinds, draws, 1_u32..30).prop_map(
        |(water, salt, fermented, (chooses, filled, sorted, eggs), draws, pieces)| Made {
            water,
            salt,
            fermented,
            chooses,
            filled,
            sorted: filled && sorted,
            eggs,
            draws,
            pieces,
        },
    )
}

/// An order: which recipe, whether by the piece, how many batches of a piece or how many grams, and whether not as usual.
type Asked = (prop::sample::Index, bool, u32, bool);

/// What there is already: so many grams of the dough of which recipe.
type There = (prop::sample::Index, u32);

fn random_day() -> impl Strategy<Value = (Vec<Made>, Vec<Asked>, Vec<There>)> {
    let asked = (any::<prop::sample::Index>(), any::<bool>(), 1_u32..4000, any::<bool>());
    let there = (any::<prop::sample::Index>(), 1_u32..2000);
    (prop::collection::vec(made_one(), 1..6), prop::collection::vec(asked, 1..7), prop::collection::vec(there, 0..3))
}

fn written(recipes: &[Made], asked: &[Asked], there: &[There]) -> Vec<(String, String)> {
    let mut files = Vec::new();
    for (at, made) in recipes.iter().enumerate() {
        let mut text = format!("recipe R{at}\nuse \"larder.miche\"\n");
        if made.filled {
            text.push_str(&format!("makes {} buns\n", made.all_pieces()));
        }
        if made.chooses {
            text.push_str("choose way: slow or fast\n");
        }
        let mut drawn: Vec<(usize, u32)> = Vec::new();
        for (index, grams) in made.draws.iter().filter(|_| at > 0) {
            let other = index.index(at);
            if !drawn.iter().any(|(known, _)| *known == other) {
                drawn.push((other, *grams));
            }
        }
        for (other, _) in &drawn {
            text.push_str(&format!("use \"r{other}.miche\"\n"));
        }
        if made.fermented > 0 {
            text.push_str(&format!(
                "part poolish {at}, from dough {at}\nplain flour .. {0} %\nwater .. {0} %\nstir: hands 2 min\n    Stir.\n    until even\n",
                made.fermented.min(made.water)
            ));
        }
        // Of a dough that is divided up as much is made as the pieces take.
        let flour = if made.filled { "100 %" } else { "700 g" };
        text.push_str(&format!("part dough {at}\nplain flour .. {flour}\nwater .. {} %\n", made.water));
        let salt = f64::from(made.salt) / 10.0;
        match made.chooses {
            true => text.push_str(&format!("salt .. {salt} % [slow]\nsalt .. 4 % [fast]\n")),
            false => text.push_str(&format!("salt .. {salt} %\n")),
        }
        for (other, grams) in drawn.iter().filter(|_| !made.filled) {
            text.push_str(&format!("dough {other} .. {grams} g\n"));
        }
        text.push_str(match made.eggs {
            Eggs::None => "",
            Eggs::Yolks => "egg yolk .. 6 %, leaves egg white 190 %\n",
            Eggs::Whites => "egg white .. 7 %, from store\n",
        });
        if made.sorted {
            text.push_str(&format!("divide {} x 50 g small and {} x 90 g large\n", made.pieces, made.pieces + 2));
        }
        text.push_str("mix: hands 10 min, using mixer\n    Mix.\n    until even\nrise: wait 1 h\n    until light\n");
        let sorts: &[&str] = if made.sorted { &["small", "large"] } else { &["piece"] };
        for sort in sorts.iter().filter(|_| made.filled) {
            let each = if made.sorted { "1 piece".to_owned() } else { format!("{} g", made.pieces + 20) };
            text.push_str(&format!("part {sort} buns {at}\nper {sort}\ndough {at} .. {each}\nbutter .. 3 g\n"));
            for (other, grams) in drawn.iter().filter(|_| *sort != "large") {
                text.push_str(&format!("dough {other} .. {} g\n", grams / 10 + 1));
            }
            text.push_str("fill: hands 20 s, each\n    Fill.\n    until full\nbake: tend 10 min, using oven, 7 at a time\n    until gold\n");
        }
        files.push((format!("r{at}.miche"), text));
    }
    let mut day = "day D\nuse \"larder.miche\"\n".to_owned();
    for (index, by_piece, amount, other_way) in asked {
        let at = index.index(recipes.len());
        let made = &recipes[at];
        let amount = if made.filled && *by_piece { format!("{}", amount % 90 + 1) } else { format!("{amount} g") };
        // By weight a recipe in pieces would rarely come out whole.
        let amount = match (made.filled, made.sorted, *by_piece) {
            (true, true, true) => {
                let small: u32 = amount.parse().unwrap();
                format!("{small} small and {} large", 1 + small / 3)
            }
            (true, _, false) => format!("{}", made.all_pieces() * 2),
            _ => amount,
        };
        let choice = if made.chooses && *other_way { ", choose fast" } else { "" };
        day.push_str(&format!("make {amount} of \"r{at}.miche\"{choice}\n"));
    }
    for (index, grams) in there {
        let at = index.index(recipes.len());
        day.push_str(&format!("store {grams} g of dough {at} of \"r{at}.miche\"\n"));
    }
    files.push(("day.miche".to_owned(), day));
    let price = |name: &str| format!("ingredient {name}\ncosts 1 per kg\n");
    let all: String = ["plain flour", "water", "salt", "butter", "egg yolk"].map(price).concat();
    let kitchen = "kitchen K\nmixer x 2, holds 3 kg\noven x 1, holds 20 pieces\n";
    files.push(("larder.miche".to_owned(), format!("{kitchen}{all}")));
    files
}

impl Made {
    /// The pieces of all sizes.
    fn all_pieces(&self) -> u32 {
        if self.sorted { 2 * self.pieces + 2 } else { self.pieces }
    }
}

type Amounts = BTreeMap<String, Mass>;

fn add(amounts: &mut Amounts, name: &str, mass: Mass) {
    let slot = amounts.entry(name.to_owned()).or_insert(Mass::ZERO);
    *slot = slot.plus(mass).unwrap();
}

/// What goes into each part that is made, by the recipe, the choices and the part in which it is written.
fn by_part(all: &mut Amounts, recipe: &Recipe, formula: &Formula) {
    for (id, part) in recipe.parts() {
        let solved = formula.part(id).unwrap();
        if solved.is_made {
            let (origin, _) = recipe.origin(id).unwrap();
            let choices: Vec<String> = origin.selection.iter().map(|(_, option)| option.as_str().to_owned()).collect();
            add(all, &format!("{} {} {}", origin.name, part.name, choices.join(" ")), solved.goes_in.unwrap());
        }
    }
}

/// What is bought, over all parts; what a preferment takes stands on its dough.
fn by_ingredient(all: &mut Amounts, recipe: &Recipe, formula: &Formula) {
    for (id, part) in recipe.parts().filter(|(_, part)| part.from.is_none()) {
        let solved = formula.part(id).unwrap();
        for (line, amount) in part.lines.iter().zip(&solved.lines).filter(|_| solved.is_made) {
            if matches!(line.refers, Refers::Pantry(_)) && !line.from_store {
                add(all, &line.name.text, amount.mass.unwrap());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn cards_list_plan_and_cost_say_the_same((recipes, asked, there) in random_day()) {
        let orders = orders_of(&written(&recipes, &asked, &there));
        // Each order by itself.
        let (mut parts_apart, mut bought_apart) = (Amounts::new(), Amounts::new());
        for order in &orders {
            by_part(&mut parts_apart, &order.recipe, order.made());
            by_ingredient(&mut bought_apart, &order.recipe, order.made());
        }
        let work = Work::of(orders).unwrap();
        let (mut parts, mut bought) = (Amounts::new(), Amounts::new());
        for batch in &work.batches {
            by_part(&mut parts, &batch.recipe, &batch.formula);
            by_ingredient(&mut bought, &batch.recipe, &batch.formula);
        }
        prop_assert_eq!(&parts, &parts_apart);
        prop_assert_eq!(&bought, &bought_apart);
        // The list is of the cards, and the cards are of the batches.
        let cards = cards(&work);
        let list = list::of(&cards, Units::Metric).unwrap();
        let mut listed: Amounts = list.weigh.iter().map(|one| (one.name.clone(), one.mass.unwrap())).collect();
        // What comes from the store is weighed out and not bought.
        let weighed = listed.remove("egg white").unwrap_or(Mass::ZERO);
        prop_assert_eq!(&listed, &bought);
        let whites = work.batches.iter().flat_map(|batch| &batch.from_store).filter(|one| !one.is_part);
        prop_assert_eq!(Mass::sum(whites.map(|one| one.mass.unwrap())).unwrap(), weighed);
        // At one a kilogram a part costs what is bought for it.
        for (batch, card) in work.batches.iter().zip(&cards) {
            let cost = cost::of(&batch.recipe, &batch.formula, None).unwrap();
            let mut costs = cost.parts.iter();
            for id in batch.made_parts() {
                let part = batch.recipe.part(id).unwrap();
                let shown = card.parts.iter().find(|shown| shown.id == id).unwrap();
                prop_assert_eq!(shown.total, batch.formula.part(id).unwrap().goes_in);
                if part.from.is_none() {
                    let own = shown.lines.iter().filter(|line| line.part.is_none() && !line.from_store).map(|line| line.mass.unwrap());
                    let grams = costs.next().unwrap().cost.times(Number::whole(1000)).unwrap();
                    prop_assert_eq!(Mass::sum(own).unwrap(), Mass::new(grams));
                }
            }
            prop_assert!(costs.next().is_none());
        }
        // Every step of every part that is made is in the plan, once, with the loads of its card.
        let kitchen = work.orders[0].recipe.kitchen.clone();
        let tasks = tasks::of(&work, &kitchen).unwrap();
        let mut seen = 0;
        for (number, (batch, card)) in work.batches.iter().zip(&cards).enumerate() {
            for shown in &card.parts {
                let part = batch.recipe.part(shown.id).unwrap();
                for (at, (step, on_card)) in part.steps.iter().zip(&shown.steps).enumerate() {
                    let of = |task: &&tasks::Task| task.batch == number && task.step.part == shown.id && task.step.step == at;
                    let planned = tasks.list.iter().filter(of).count();
                    let solved = batch.formula.part(shown.id).unwrap();
                    let counted = loads::count((&batch.recipe, shown.id), solved, &batch.formula, at, &kitchen).unwrap();
                    prop_assert_eq!(counted, on_card.loads);
                    let expected = if step.loads == Loads::Each { 1 } else { counted.min(24) };
                    prop_assert_eq!(i64::try_from(planned).unwrap(), expected);
                    seen += planned;
                }
            }
        }
        prop_assert_eq!(seen, tasks.list.len());
        // What somebody takes of a batch is all that it makes, where none of it is in the store.
        for batch in work.batches.iter().filter(|batch| there.is_empty() && batch.orders.len() > 1) {
            let taken = Mass::sum(batch.made_for.iter().map(|one| one.mass)).unwrap();
            let inside = |id| batch.recipe.users(id).any(|(user, _)| batch.formula.part(user).unwrap().is_made)
                || batch.recipe.part(id).unwrap().from.is_some();
            let made = Mass::sum(batch.made_parts().filter(|id| !inside(*id)).map(|id| batch.formula.part(id).unwrap().makes.unwrap()));
            prop_assert_eq!(taken, made.unwrap());
        }
    }
}
