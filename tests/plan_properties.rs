//! What holds of every plan, tried on the problems of the reference file: more to work with never makes a plan worse,
//! a day later everything is a day later, and whether there is a plan can be asked without making one.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/problems.rs"]
mod problems;
#[path = "plan/verify.rs"]
mod verify;

use miche::plan::limit::Limit;
use miche::plan::problem::{Due, Kind, Label, Lag, Problem, Task};
use miche::plan::solve::{Cause, Infeasible, Plan, contradiction, plan, possible};

/// The problems of the reference file with at most so many tasks.
fn problems(most: usize) -> impl Iterator<Item = Problem> {
    problems::all().into_iter().map(|(problem, _)| problem).filter(move |problem| problem.tasks.len() <= most)
}

#[test]
fn more_to_work_with_never_makes_a_plan_worse() {
    let mut compared = 0;
    for problem in problems(24) {
        let Ok(before) = plan(&problem, &Limit::default()) else { continue };
        let mut richer = vec![Problem { cooks: problem.cooks + 1, ..problem.clone() }];
        for equipment in 0..problem.equipment.len() {
            let mut more = problem.clone();
            more.equipment[equipment].count += 1;
            richer.push(more);
        }
        for more in richer {
            let after = plan(&more, &Limit::default()).unwrap();
            assert_eq!(verify::broken(&more, &after), Vec::<String>::new());
            // What rests on so that no oven burns empty is put off after the search: what the search found is compared.
            let is_known = |plan: &Plan| plan.proven() || plan.is_quietest_but_for_an_oven();
            assert!(is_known(&before) && is_known(&after));
            let (before, after) = (before.searched(), after.searched());
            assert!(after <= before, "{before:?} {after:?}");
            compared += 1;
        }
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn a_day_later_everything_is_a_day_later() {
    let mut compared = 0;
    for problem in problems(32) {
        let mut later = problem.clone();
        let by = 1440;
        later.earliest = later.earliest.map(|earliest| earliest + by);
        later.dues.iter_mut().for_each(|due| due.minute += by);
        for window in &mut later.open {
            (window.opens, window.closes) = (window.opens + by, window.closes + by);
        }
        if later.dues.is_empty() && later.earliest.is_none() {
            continue;
        }
        match (plan(&problem, &Limit::default()), plan(&later, &Limit::default())) {
            (Ok(one), Ok(other)) => {
                let moved: Vec<i64> = one.starts.iter().map(|start| start + by).collect();
                assert_eq!(other.starts, moved);
                assert_eq!((other.units, other.cooks, other.steps), (one.units, one.cooks, one.steps));
                compared += 1;
            }
            (one, other) => assert_eq!(one.is_ok(), other.is_ok()),
        }
    }
    assert!(compared > 40, "{compared}");
}

#[test]
fn whether_there_is_a_plan_is_known() {
    let mut seen = [0, 0];
    for (problem, reference) in problems::all() {
        let expected = reference["status"] == "optimal";
        assert_eq!(possible(&problem, &Limit::default()), Some(expected));
        seen[usize::from(expected)] += 1;
    }
    assert!(seen.iter().all(|count| *count > 5), "{seen:?}");
}

#[test]
fn the_same_problem_has_the_same_plan() {
    for problem in problems(40).take(20) {
        assert_eq!(plan(&problem, &Limit::default()), plan(&problem, &Limit::default()));
    }
}

#[test]
fn times_that_contradict_each_other_are_named() {
    let task = |step, minutes| Task {
        label: Label { step, ..Label::default() },
        kind: Kind::Wait,
        shortest: minutes,
        longest: minutes,
        cooks: 0,
        holds: None,
    };
    let mut problem = Problem {
        tasks: vec![task(0, 30), task(1, 60), task(2, 20)],
        lags: vec![Lag::after(0, 1), Lag::after(1, 2), Lag::within(0, 2, 45)],
        ..Problem::default()
    };
    // The second step takes 60 minutes, but the third may come only 45 after the first.
    let (causes, by) = contradiction(&problem).unwrap();
    assert_eq!(by, 15);
    assert!(causes.contains(&Cause::Lag(2)) && causes.contains(&Cause::Duration(1)), "{causes:?}");
    assert_eq!(plan(&problem, &Limit::default()), Err(Infeasible::Impossible));
    problem.lags.pop();
    assert_eq!(plan(&problem, &Limit::default()).unwrap().score.span, 110);
    problem.dues = vec![Due { tasks: vec![2], minute: 500 }];
    problem.earliest = Some(400);
    assert_eq!(contradiction(&problem).unwrap().1, 10);
    problem.earliest = Some(390);
    assert_eq!(plan(&problem, &Limit::default()).unwrap().starts, [390, 420, 480]);
    problem.lags.push(Lag::after(2, 0));
    assert!(contradiction(&problem).is_some());
}
