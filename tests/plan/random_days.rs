//! Days made up by chance: a kitchen, a few recipes and a day that orders them, as files, with every rule of the language that
//! a plan must keep.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use miche::check::work_out;
use miche::edge::loader::Loader;
use miche::make;
use miche::make::order::Order;
use miche::make::work::Work;
use miche::model::kitchen::Kitchen;
use miche::plan::ask::{self, Hours};
use miche::plan::clock::Clock;
use miche::plan::problem::{Minute, Problem};
use miche::plan::shifts::Staff;
use miche::plan::tasks::{self, Tasks};
use miche::solve::resolve::day::{DayOrder, day as read_day};
use miche::text::diagnostic::Severity;
use std::sync::Arc;

/// The day on which all is wanted.
pub const DAY: Date = jiff::civil::date(2027, 4, 17);

/// Files by name; the day is the last.
pub type Files = Vec<(String, String)>;

/// Numbers that look random and are the same for the same seed.
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Chance {
        let mut chance = Chance(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
        for _ in 0..8 {
            chance.below(2);
        }
        chance
    }

    /// From 0 to less than so many.
    pub fn below(&mut self, many: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % many
    }

    fn between(&mut self, least: u64, most: u64) -> u64 {
        least + self.below(most - least + 1)
    }

    fn once_in(&mut self, many: u64) -> bool {
        self.below(many) == 0
    }

    fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[usize::try_from(self.below(all.len() as u64)).unwrap()]
    }
}

/// A day of that number, small enough for a general-purpose solver or of a usual size.
pub fn day(seed: u64, small: bool) -> Files {
    let mut chance = Chance::new(seed);
    let (kitchen, ready) = kitchen(&mut chance);
    let mut files = vec![("kitchen.miche".to_owned(), kitchen)];
    let recipes = if small { chance.between(1, 2) } else { chance.between(2, 6) };
    let mut orders = String::new();
    let dough = chance.once_in(3);
    if dough {
        files.push(("dough.miche".to_owned(), shared_dough(&mut chance)));
    }
    for at in 0..recipes {
        let pieces = chance.between(2, if small { 24 } else { 48 });
        let text = match chance.below(4) {
            0 => biscuits(&mut chance, at, pieces),
            1 => filled(&mut chance, at, pieces),
            2 if dough => of_dough(&mut chance, at, pieces),
            _ => loaves(&mut chance, at, pieces),
        };
        files.push((format!("r{at}.miche"), text));
        let own = if chance.once_in(4) { format!(", ready {}", chance.one_of(&ready)) } else { String::new() };
        orders.push_str(&format!("make {pieces} of \"r{at}.miche\"{own}\n"));
    }
    // Chances of their own, so that all other days stay as they were: a mixer that takes the doughs in several bowls.
    let mut bowl = Chance::new(seed ^ 0x000B_0015);
    if seed >= 60_000 && bowl.once_in(4) {
        let holds = bowl.one_of(&["4 kg", "8 kg", "11 kg"]);
        files[0].1 = files[0].1.replace("mixer x 1\n", &format!("mixer x 1, holds {holds}\n"));
    }
    let mut again = Chance::new(seed ^ 0x00C0_FFEE);
    if again.once_in(4) {
        let (at, pieces) = (again.below(recipes), again.between(2, if small { 24 } else { 48 }));
        orders.push_str(&format!("make {pieces} of \"r{at}.miche\", ready {}\n", again.one_of(&ready)));
    }
    let day = format!("day Pier {seed}\nuse \"kitchen.miche\"\nready {}\n{orders}", chance.one_of(&ready));
    files.push(("day.miche".to_owned(), day));
    files
}

/// A kitchen, and times for which something may be wanted there.
fn kitchen(chance: &mut Chance) -> (String, Vec<&'static str>) {
    let mut text = "kitchen Pier\n".to_owned();
    let heating = chance.one_of(&["", "", ", heating 20 min", ", heating 45 min, agrees within 10 C"]);
    let holds = chance.one_of(&["", ", holds 24 pieces", ", holds 12 pieces"]);
    text.push_str(&format!("oven x {}{holds}{heating}\n", chance.between(1, 2)));
    text.push_str(&format!("retarder x {}\nmixer x 1\nhob x 2\n", chance.between(1, 3)));
    text.push_str(&format!("prover x {}{}\n", chance.between(1, 2), chance.one_of(&["", ", holds 40 pieces"])));
    let early = vec!["2027-04-17 05:30", "2027-04-17 06:30", "2027-04-17 09:00"];
    let late = vec!["2027-04-17 11:00", "2027-04-17 14:00", "2027-04-17 16:30"];
    let ready = match chance.below(6) {
        0 => {
            text.push_str(&format!("cooks {}\nopen 05:00-14:30\n", chance.between(1, 3)));
            vec!["2027-04-17 11:00", "2027-04-17 14:00"]
        }
        1 => {
            text.push_str(&format!(
                "cooks {}\nopen 04:00-20:00\nlongest {} h\n",
                chance.between(1, 2),
                chance.between(5, 9)
            ));
            late
        }
        2 => {
            text.push_str("cook Mara 22:00-06:00, rests 30 min\ncook Jon 05:00-13:00, on Tue-Sat, rests 45 min\n");
            early
        }
        3 => {
            text.push_str(
                "cook Mara 21:00-05:00, rests 30 min\ncook Jon 00:00-08:00\ncook Tilda 04:00-11:00, rests 30 min\n",
            );
            text.push_str("open 21:00-11:00\n");
            early
        }
        4 => {
            text.push_str("cook Mara 06:00-15:00, rests 1 h, longest 8 h\ncook Jon 12:00-18:00\n");
            late
        }
        _ => {
            text.push_str("cook Mara 23:00-07:30, rests 30 min\nopen 22:00-14:00\n");
            vec!["2027-04-17 05:30", "2027-04-17 07:00"]
        }
    };
    (text, ready)
}

fn oven(chance: &mut Chance, pieces: u64) -> String {
    let heat = chance.one_of(&[180, 185, 200, 220, 230, 250]);
    let falls = if chance.once_in(6) { format!(" then {} C after 10 min", heat - 40) } else { String::new() };
    let load = match chance.below(3) {
        0 if pieces > 6 => ", 12 at a time",
        _ => "",
    };
    let minutes = chance.between(15, 45);
    let after = match chance.below(6) {
        0 => format!("\ndry: tend {} min, using oven at {} C, straight after bake", chance.between(5, 10), heat - 40),
        1 => "\nglaze: hands 5 s, each, within 20 min after bake".to_owned(),
        2 => format!("\ncool: wait {} min", chance.between(3, 9) * 10),
        _ => String::new(),
    };
    format!("bake: tend {minutes} min, using oven at {heat} C{falls}{load}\n    until gold{after}\n")
}

fn shape(chance: &mut Chance) -> String {
    let shared = chance.one_of(&["", "", ", shared by 2"]);
    let stand = chance.one_of(&["", "", ", may stand 20 min"]);
    format!("hands {} s, each{shared}{stand}", chance.between(2, 5) * 10)
}

fn prove(chance: &mut Chance) -> String {
    match chance.below(4) {
        0 => format!(
            "retard: wait {} h, using retarder at 4 C, up to {} h\n",
            chance.between(6, 9),
            chance.between(10, 18)
        ),
        1 => format!("prove: wait {} min, using prover at 27 C, up to 80 min\n", chance.between(40, 60)),
        2 => format!("prove: wait {} min, at 26 C, up to {} min\n", chance.between(40, 60), chance.between(60, 100)),
        _ => format!("prove: wait {} min, at 26 C\n", chance.between(40, 60)),
    }
}

fn loaves(chance: &mut Chance, at: u64, pieces: u64) -> String {
    let mut text = format!(
        "recipe Loaf {at}\nmakes {pieces} loaves\nuse \"kitchen.miche\"\npart dough {at}\nstrong white flour .... 100 %\n\
         water .... 66 %\nsalt .... 2 %\nfresh yeast .... 1 %\ndivide {pieces} x 400 g, loss 1 %\n"
    );
    let mixer = chance.one_of(&["", ", using mixer", ", people 1"]);
    text.push_str(&format!(
        "mix: hands {} min{mixer}\n    Mix {{strong white flour}}, {{water}}, {{salt}} and {{fresh yeast}}.\n    until smooth\n",
        chance.between(6, 15)
    ));
    let up_to = chance.one_of(&["", ", up to 2 h 30 min"]);
    let bulk = chance.between(5, 9) * 10;
    text.push_str(&format!("bulk: wait {bulk} min, at 25 C{up_to}\n"));
    let folds = chance.once_in(3);
    if folds {
        text.push_str("fold: hands 3 min, 20 and 40 min into bulk\n");
    }
    text.push_str(&format!("shape: {}{}\n", shape(chance), if folds { ", after bulk" } else { "" }));
    text.push_str(&prove(chance));
    if chance.once_in(5) {
        text.push_str("heat up: tend 20 min, using oven at 230 C, before bake\n");
    }
    text.push_str(&oven(chance, pieces));
    text
}

fn biscuits(chance: &mut Chance, at: u64, pieces: u64) -> String {
    let chill = match chance.below(3) {
        0 => "chill: wait 1 h, using retarder at 4 C, up to 12 h\n",
        1 => "chill: wait 1 h, at 4 C, up to 20 h\n",
        _ => "",
    };
    format!(
        "recipe Biscuit {at}\nmakes {pieces} biscuits\nuse \"kitchen.miche\"\nplain flour .... 100 %\nbutter .... 60 %\n\
         sugar .... 30 %\nsalt .... 1 %\ndivide {pieces} x 25 g, loss 3 %\n\
         rub: hands {} min{}\n    Rub {{butter}} into {{plain flour}}, {{sugar}} and {{salt}}.\n    until like crumbs\n\
         {chill}cut: hands {} s, each\n{}",
        chance.between(6, 15),
        chance.one_of(&["", ", using mixer"]),
        chance.between(1, 3) * 10,
        oven(chance, pieces),
    )
}

fn filled(chance: &mut Chance, at: u64, pieces: u64) -> String {
    let keeps = chance.one_of(&["", "keeps 6 h, chilled\n", "keeps 2 days, chilled\n"]);
    let prepares = if chance.once_in(3) { "line tins: hands 5 min, before bake\n" } else { "" };
    format!(
        "recipe Bun {at}\nmakes {pieces} buns\nuse \"kitchen.miche\"\npart custard {at}\nwhole milk .... 78 %\nplain flour .... 7 %\n\
         sugar .... 15 %\npercent of total\n{keeps}\
         cook: tend {} min, using hob\n    Cook {{whole milk}}, {{plain flour}} and {{sugar}}.\n    until thick\n\
         cool: wait {} min, at 4 C{}\n\
         part paste {at}\nstrong white flour .... 100 %\nwhole milk .... 60 %\nfresh yeast .... 3 %\nsalt .... 2 %\n\
         divide {pieces} x 60 g, loss 1 %\n\
         mix: hands {} min, using mixer\n    Mix {{strong white flour}}, {{whole milk}}, {{fresh yeast}} and {{salt}}.\n    until smooth\n\
         rise: wait {} min, at 25 C\nshape: {}\n\
         part buns {at}\nper piece\npaste {at} .... 1 piece\ncustard {at} .... 20 g\n{}\
         fill: hands 10 s, each\n    Fill {{paste {at}}} with {{custard {at}}}.\n    until full\n{prepares}{}",
        chance.between(10, 25),
        chance.between(4, 9) * 10,
        chance.one_of(&["", ", up to 8 h"]),
        chance.between(6, 12),
        chance.between(4, 8) * 10,
        shape(chance),
        if chance.once_in(2) { "prove: wait 40 min, at 26 C, up to 70 min\n" } else { "" },
        oven(chance, pieces),
    )
}

fn shared_dough(chance: &mut Chance) -> String {
    format!(
        "recipe White dough\nmakes 20 kg\nuse \"kitchen.miche\"\npart white dough\nstrong white flour .... 100 %\nwater .... 64 %\n\
         salt .... 2 %\nfresh yeast .... 2 %\nmakes 20 kg, loss 1 %\n\
         mix: hands {} min, using mixer\n    Mix {{strong white flour}}, {{water}}, {{salt}} and {{fresh yeast}}.\n    until smooth\n\
         bulk: wait {} min, at 25 C, up to {} min\n",
        chance.between(8, 14),
        chance.between(4, 6) * 10,
        chance.between(9, 16) * 10,
    )
}

fn of_dough(chance: &mut Chance, at: u64, pieces: u64) -> String {
    format!(
        "recipe Roll {at}\nmakes {pieces} rolls\nuse \"kitchen.miche\"\nuse \"dough.miche\"\nwhite dough .... 100 %\n\
         percent of white dough\ndivide {pieces} x 75 g, loss 1 %\nscale: {}\n    Scale {{white dough}}.\n{}{}",
        shape(chance),
        prove(chance),
        oven(chance, pieces),
    )
}

/// A day that was read, and what is asked of the planner.
pub struct Asked {
    pub work: Work,
    pub kitchen: Arc<Kitchen>,
    pub tasks: Tasks,
    pub hours: Hours,
    pub problem: Problem,
}

pub fn clock() -> Clock {
    Clock::around(TimeZone::UTC, DAY).unwrap()
}

/// Reads a day; `begins` says from the last due time when work may begin, and `divide` makes work of its orders. What is wrong with the
/// files otherwise.
pub fn asked(
    files: &Files,
    begins: impl FnOnce(Minute) -> Minute,
    divide: impl FnOnce(Vec<Order>, &Kitchen) -> Work,
) -> Result<Asked, String> {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let mut loader = Loader::new();
    let source = loader.load(&folder.path().join("day.miche")).unwrap();
    let project = loader.into_project();
    let mut problems = Vec::new();
    let read = read_day(&project, source, &mut problems).unwrap();
    let work = |line: &DayOrder| work_out(&project, line.recipe, &line.selection, &mut Vec::new());
    let orders = make::day::orders(&read, work);
    let errors: Vec<_> = problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
    let (true, Ok(orders)) = (errors.is_empty(), orders) else { return Err(format!("{errors:#?} in {files:#?}")) };
    let due = |when: Option<miche::language::syntax::Moment>| when.map(|when| clock().minute(when.when).unwrap());
    let dues: Vec<_> = orders.iter().map(|order| due(order.ready)).collect();
    let last = dues.iter().flatten().copied().max().unwrap();
    let kitchen = read.kitchen.clone();
    let work = divide(orders, &kitchen);
    let tasks = tasks::of(&work, &kitchen).unwrap();
    let earliest = begins(last);
    let Staff { open, people } = Staff::by_the_clock(&kitchen, &clock(), earliest, last);
    let hours = Hours { open, people, cold: true, dues, earliest: Some(earliest) };
    let problem = ask::problem(&tasks, &kitchen, &hours);
    Ok(Asked { work, kitchen, tasks, hours, problem })
}
