//! Random kitchen-like problems against a general-purpose solver whose results are kept in
//! `data/plan-reference.json`, made by `scripts/plan_reference.py`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/problems.rs"]
mod problems;
#[path = "plan/verify.rs"]
mod verify;

use miche::plan::limit::Limit;
use miche::plan::solve::{Infeasible, plan};

#[test]
fn every_measure_is_the_reference_solvers() {
    let mut seen = [0, 0];
    for (at, (problem, reference)) in problems::all().into_iter().enumerate() {
        match plan(&problem, &Limit::default()) {
            Ok(plan) => {
                assert_eq!(verify::broken(&problem, &plan), Vec::<String>::new(), "{at}");
                let ours =
                    [("span", plan.score.span), ("standing", plan.score.standing), ("spells", plan.score.spells)];
                for (measure, ours) in ours {
                    // What the reference solver did not prove within its time is null.
                    assert!(reference[measure].as_i64().is_none_or(|theirs| theirs == ours), "{at} {measure} {ours}");
                }
                assert!(plan.proven(), "{at}");
                seen[1] += 1;
            }
            Err(why) => {
                assert_eq!((why, &reference["status"]), (Infeasible::Impossible, &"infeasible".into()), "{at}");
                seen[0] += 1;
            }
        }
    }
    assert!(seen[0] > 5 && seen[1] > 80, "{seen:?}");
}
