//! Days made up by chance of which there is no plan: everything that the message offers is done to the files, and there is a plan
//! then, or, where the message says that more stands in the way, another reason. The figure that is offered is the least that is
//! enough.
//!
//! `MENDED_DAYS=60` looks at so many days without a plan at least, not at a dozen, `MENDED_FIRST=9000` begins with another number.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/apply.rs"]
mod apply;
#[path = "plan/random_days.rs"]
mod random_days;

use apply::{Mended, apply};
use miche::make::work::Work;
use miche::plan::doughs;
use miche::plan::explain::Case;
use miche::plan::fresh::on_the_day;
use miche::plan::limit::Limit;
use miche::plan::problem::Minute;
use miche::plan::solve::{self, Infeasible};
use random_days::{Asked, Chance, Files, clock};
use rayon::prelude::*;

/// How long before the last due time work may begin, in minutes.
const REACH: Minute = 2 * 1440;

/// Steps of search that one day may cost, and those that the message allows itself for one figure.
const STEPS: u64 = 60_000;
const STEPS_OF_FIGURE: u64 = 4_000;

/// Reads a day; `earliest` is when work may begin.
fn asked(files: &Files, earliest: Option<Minute>) -> Result<Asked, String> {
    let begins = |last: Minute| earliest.unwrap_or(last - REACH);
    random_days::asked(files, begins, |orders, kitchen| doughs::work(orders, kitchen).unwrap())
}

/// As [`asked`], with a dough for each line.
fn each_alone(files: &Files, earliest: Minute) -> Result<Asked, String> {
    random_days::asked(
        files,
        |_| earliest,
        |orders, _| {
            let all: Vec<usize> = (0..orders.len()).collect();
            Work::apart(orders, &all).unwrap()
        },
    )
}

/// A day of that number with something that may be too much.
fn tight(seed: u64) -> Files {
    let mut files = random_days::day(seed, !seed.is_multiple_of(3));
    let mut chance = Chance::new(seed ^ 0x5EED);
    let which = chance.below(6);
    for (name, text) in &mut files {
        let changed = match (which, name.as_str()) {
            (0, "kitchen.miche") => text.replace("oven x 2", "oven x 1"),
            (1, "kitchen.miche") => text.replace("prover x 2", "prover x 1").replace("retarder x 3", "retarder x 1"),
            (2, "day.miche") => {
                text.replace(" 16:30", " 10:30").replace(" 14:00", " 07:30").replace(" 09:00", " 05:00")
            }
            (3, "kitchen.miche" | "day.miche") => continue,
            (3, _) => text.replace(", up to ", ", at 24 C, until "),
            (4, "kitchen.miche" | "day.miche") => continue,
            (4, _) => {
                text.replace(" s, each, shared by 2", " s, each").replace("using oven", "4 at a time, using oven")
            }
            _ => continue,
        };
        *text = changed;
    }
    if which == 3 {
        // A rest goes on no longer than is said.
        for (_, text) in &mut files {
            *text = text.lines().map(|line| format!("{}\n", without_until(line))).collect();
        }
    }
    files
}

/// A line without a clause that begins with `at 24 C, until`.
fn without_until(line: &str) -> String {
    match line.split_once(", at 24 C, until ") {
        Some((head, tail)) => {
            let rest = tail.split_once(',').map(|(_, rest)| format!(",{rest}")).unwrap_or_default();
            format!("{head}{rest}")
        }
        None => line.to_owned(),
    }
}

fn is_possible(asked: &Asked, steps: u64) -> bool {
    solve::possible(&asked.problem, &Limit::steps(steps)) == Some(true)
}

/// Whether there is a plan whose bread is of its day: a figure is the least that gives such a one, as long as there is any.
fn is_possible_fresh(asked: &Asked, steps: u64) -> bool {
    let problem = on_the_day(&asked.problem, &asked.tasks, &asked.hours, &clock(), |_| true);
    solve::possible(&problem, &Limit::steps(steps)) == Some(true)
}

/// What is said of a day without a plan; `None` of one with a plan.
fn told(asked: &Asked) -> Option<Vec<(String, String)>> {
    // Where there is any plan, the best one is not looked for: that was most of the work here.
    if is_possible(asked, STEPS) {
        return None;
    }
    let why = solve::plan(&asked.problem, &Limit::steps(STEPS)).err()?;
    if why == Infeasible::Unknown {
        return None;
    }
    let clock = clock();
    let Asked { work, kitchen, tasks, hours, problem } = asked;
    let case = Case {
        work,
        tasks,
        kitchen,
        hours,
        problem,
        clock: Some(&clock),
        rest: None,
        stop: &|| false,
        fresh: true,
        hot: true,
    };
    let problems = case.explain(&why).into_iter();
    Some(problems.map(|problem| (problem.message, problem.help.unwrap_or_default())).collect())
}

/// What somebody cannot do as it stands: no figure, and no claim that it is enough.
fn is_vague(way: &str) -> bool {
    way.starts_with("make less, make it in two days") || way.starts_with("these cannot all hold")
}

#[derive(Default)]
struct Looked {
    wrong: Vec<String>,
    offered: usize,
    without: usize,
}

fn look(seed: u64) -> Looked {
    let files = tight(seed);
    let mut looked = Looked::default();
    let day = match asked(&files, None) {
        Ok(day) => day,
        Err(_) => return looked,
    };
    let Some(told_of) = told(&day) else { return looked };
    looked.without = 1;
    let earliest = day.hours.earliest.unwrap();
    for (message, help) in &told_of {
        let alone = message.contains("even with nothing else to make");
        let more = help.contains("that is not all, but first ");
        for way in help.replace("that is not all, but first ", "").replace("for it alone: ", "").split("; or ") {
            if is_vague(way) || way == "leave it out" || message.contains("needs") && way.starts_with("give it") {
                continue;
            }
            looked.offered += 1;
            let of = message.split_once(", even with").and_then(|(order, _)| order.split('`').nth(1));
            let tried = |way: &str| {
                let Mended { files, sooner } = apply(&files, way, of)?;
                // What is offered in several doughs is made in as many.
                if way.contains(" doughs, ") || way.contains(" batches, ") {
                    each_alone(&files, earliest - sooner)
                } else {
                    asked(&files, Some(earliest - sooner))
                }
            };
            let mended = match tried(way) {
                Ok(mended) => mended,
                Err(why) => {
                    looked.wrong.push(format!("{seed}: cannot be done: {way}\n{why}\n{message}"));
                    continue;
                }
            };
            let is_another = || told(&mended).is_none_or(|next| next.iter().all(|(next, _)| next != message));
            if !is_possible(&mended, STEPS) && !((alone || more) && is_another()) {
                looked.wrong.push(format!("{seed}: not enough: {way}\n    {message}\n    {help}"));
            }
            let less = apply::a_minute_less(way).filter(|_| !alone && !more).and_then(|less| tried(&less).ok());
            let is_early = way.contains("(then it is ready");
            let is_enough = |less: &Asked| {
                if is_early { is_possible(less, STEPS_OF_FIGURE) } else { is_possible_fresh(less, STEPS_OF_FIGURE) }
            };
            if less.is_some_and(|less| is_enough(&less)) {
                looked.wrong.push(format!("{seed}: a minute less is enough: {way}\n    {message}"));
            }
        }
    }
    looked
}

fn number(name: &str, otherwise: usize) -> usize {
    std::env::var(name).ok().and_then(|number| number.parse().ok()).unwrap_or(otherwise)
}

#[test]
fn what_is_offered_is_enough() {
    let (first, wanted) = (number("MENDED_FIRST", 0), number("MENDED_DAYS", 12));
    let mut all = Looked::default();
    let mut next = first as u64;
    while all.without < wanted {
        let looked: Vec<Looked> = (next..next + 16).into_par_iter().map(look).collect();
        next += 16;
        for one in looked {
            one.wrong.iter().for_each(|wrong| println!("{wrong}"));
            all.without += one.without;
            all.offered += one.offered;
            all.wrong.extend(one.wrong);
        }
        assert!(next < first as u64 + 40 * wanted as u64, "too few days without a plan: {}", all.without);
    }
    println!("{} days without a plan, {} mends offered", all.without, all.offered);
    assert!(all.wrong.is_empty(), "{} of {}:\n{}", all.wrong.len(), all.offered, all.wrong.join("\n"));
    assert!(all.offered > 2 * all.without, "{} for {}", all.offered, all.without);
}
