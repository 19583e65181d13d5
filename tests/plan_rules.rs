//! Every example, planned from zero and by the clock, against the independent verifier: no resource over capacity, no
//! rule broken, no hands after closing.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/kitchen_rules.rs"]
mod kitchen_rules;
#[path = "plan/verify.rs"]
mod verify;

use jiff::tz::TimeZone;
use miche::check::work_out;
use miche::edge::loader::Loader;
use miche::language::syntax::FileKind;
use miche::make;
use miche::make::order::Order;
use miche::make::work::Work;
use miche::measure::show::Units;
use miche::model::kitchen::Kitchen;
use miche::model::recipe::Selection;
use miche::plan::ask::{self, Hours};
use miche::plan::clock::Clock;
use miche::plan::limit::Limit;
use miche::plan::schedule::{Schedule, Setting};
use miche::plan::shifts::Staff;
use miche::plan::{solve, tasks};
use miche::solve::resolve::day::{DayOrder, day};
use miche::text::source::SourceId;
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn examples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// The orders of an example and its kitchen; nothing for larders and kitchens, and for what cannot be worked out.
fn orders(path: &Path) -> Option<(Vec<Order>, Arc<Kitchen>)> {
    let mut loader = Loader::new();
    let source = loader.load(path).ok()?;
    let project = loader.into_project();
    match project.file(source)?.tree.kind {
        FileKind::Kitchen | FileKind::Bakes | FileKind::Book => None,
        FileKind::Recipe => {
            let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new())?;
            let kitchen = recipe.kitchen.clone();
            Some((vec![Order::of(recipe, formula)], kitchen))
        }
        FileKind::Day => {
            let day = day(&project, source, &mut Vec::new())?;
            let work = |line: &DayOrder| work_out(&project, line.recipe, &line.selection, &mut Vec::new());
            Some((make::day::orders(&day, work).ok()?, day.kitchen.clone()))
        }
    }
}

/// The day by whose clock is planned, from its midnight on.
const DAY: jiff::civil::Date = jiff::civil::date(2027, 4, 17);

fn clock() -> Clock {
    Clock::around(TimeZone::UTC, DAY).unwrap()
}

/// Opening hours of three weeks before the end of a shift.
fn hours(kitchen: &Kitchen, orders: usize) -> Hours {
    let due = clock().minute(DAY.to_datetime(kitchen.closes)).unwrap();
    let earliest = due - 21 * 1440;
    let Staff { open, people } = Staff::by_the_clock(kitchen, &clock(), earliest, due);
    Hours { open, people, cold: true, dues: vec![Some(due); orders], earliest: Some(earliest) }
}

/// The hours of a plan that counts from zero.
fn from_zero(kitchen: &Kitchen) -> Hours {
    let Staff { open, people } = Staff::without_clock(kitchen);
    Hours { open, people, cold: true, ..Hours::default() }
}

/// Plans some orders as they are and by the clock, and looks at each plan twice: whether it keeps what the planner was
/// told, and whether it keeps what a baker knows. Gives how many plans there were.
fn check(name: &Path, orders: Vec<Order>, kitchen: &Kitchen, steps: u64) -> usize {
    let count = orders.len();
    let work = Work::of(orders).unwrap();
    let tasks = tasks::of(&work, kitchen).unwrap();
    let mut plans = 0;
    for (hours, clock) in [(from_zero(kitchen), None), (hours(kitchen, count), Some(clock()))] {
        let problem = ask::problem(&tasks, kitchen, &hours);
        let found = [solve::quickly(&problem), solve::plan(&problem, &Limit::steps(steps))];
        for (at, plan) in found.iter().enumerate() {
            let Ok(plan) = plan else { continue };
            assert_eq!(verify::broken(&problem, plan), Vec::<String>::new(), "{} {at}", name.display());
            let day = clock.as_ref().map(|_| DAY);
            let setting = Setting { title: "", kitchen, hours: &hours, clock: clock.clone(), units: Units::Metric };
            let schedule = Schedule::of(setting, &work, &tasks, plan);
            let planned =
                kitchen_rules::Planned { work: &work, kitchen, tasks: &tasks, plan, day, schedule: &schedule };
            assert_eq!(kitchen_rules::broken(&planned), Vec::<String>::new(), "{} {at}", name.display());
            plans += 1;
        }
        if let [Ok(first), Ok(better)] = &found {
            // What rests on so that no oven burns empty is no worse plan.
            assert!(better.searched() <= first.score, "{}", name.display());
        }
    }
    plans
}

#[test]
fn every_example_keeps_every_rule() {
    let mut seen = 0;
    for path in examples() {
        let Some((orders, kitchen)) = orders(&path) else { continue };
        // A day of ten recipes is looked at for its rules and not for the last minute.
        let steps = if orders.len() > 4 { 1_000 } else { 20_000 };
        // From zero there are no times at which its breads are wanted, and all at once they would wait for the oven.
        let plans = check(&path, orders, &kitchen, steps);
        assert!(plans == 4 || steps == 1_000 && plans >= 2, "{} {plans}", path.display());
        seen += 1;
    }
    assert!(seen >= 10, "{seen}");
}

/// Small days of our own, each of which was planned wrongly once: `expect` says whether there is a plan.
#[test]
fn small_days_keep_every_rule() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan/days");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    let mut seen = 0;
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        let Some((orders, kitchen)) = orders(&path) else { continue };
        let plans = check(&path, orders, &kitchen, 20_000);
        assert_eq!(plans > 0, !text.contains("# no plan"), "{}", path.display());
        seen += 1;
    }
    assert!(seen >= 8, "{seen}");
}

/// Whatever lies below the folder `PLAN_FILES`, if that is given: each file that can be worked out and planned.
#[test]
fn files_from_elsewhere_keep_every_rule() {
    let Ok(folder) = std::env::var("PLAN_FILES") else { return };
    let walk = ignore::WalkBuilder::new(folder).standard_filters(false).build();
    let paths = walk.filter_map(Result::ok).map(|entry| entry.into_path());
    let (mut seen, mut planned) = (0, 0);
    for path in paths.filter(|path| path.extension().is_some_and(|ending| ending == "miche")) {
        let Some((orders, kitchen)) = orders(&path).filter(|(orders, _)| !orders.is_empty()) else { continue };
        seen += 1;
        planned += usize::from(check(&path, orders, &kitchen, 4_000) > 0);
    }
    println!("{planned} of {seen} files have a plan");
    assert!(planned > 0);
}

/// A hundred recipes in one day: a plan within the time of a first plan, best or not.
#[test]
fn a_hundred_recipes_have_a_plan_at_once() {
    // Twenty copies of the folder, so that each is another recipe: nothing is made once for all of them.
    let folder = tempfile::tempdir().unwrap();
    let mut loader = Loader::new();
    let names = ["harbour-rolls", "seed-sticks", "rhubarb-crumb-buns", "quay-baguettes", "shore-biscuits"];
    let mut sources = Vec::new();
    for copy in 0..20 {
        let place = folder.path().join(copy.to_string());
        std::fs::create_dir(&place).unwrap();
        for example in examples().into_iter().filter(|example| example.is_file()) {
            std::fs::copy(&example, place.join(example.file_name().unwrap())).unwrap();
        }
        sources.extend(names.iter().map(|name| loader.load(&place.join(format!("{name}.miche"))).unwrap()));
    }
    let project = loader.into_project();
    let work = |source: &SourceId| work_out(&project, *source, &Selection::new(), &mut Vec::new()).unwrap();
    let all: Vec<Order> = sources.iter().map(work).map(|(recipe, formula)| Order::of(recipe, formula)).collect();
    // One oven would not do: of each mother dough some must be baked while it is good, and what is alive does not wait.
    let mut kitchen = Kitchen::clone(&all[0].recipe.kitchen);
    kitchen.cooks = 12;
    for equipment in &mut kitchen.equipment {
        equipment.count *= 24;
    }
    let tasks = tasks::of(&Work::of(all).unwrap(), &kitchen).unwrap();
    assert!(tasks.list.len() > 1000);
    let problem = ask::problem(&tasks, &kitchen, &Hours::default());
    let plan = solve::plan(&problem, &Limit::steps(50_000)).unwrap();
    assert_eq!(verify::broken(&problem, &plan), Vec::<String>::new());
}
