//! Job-shop instances with published optima, written as days: the plan must be as short as the optimum and proven.
//!
//! The instances are Muth and Thompson 1963 (ft06) and Lawrence 1984 (la01, la04, la05); their files were written by
//! `tests/scripts/jobshop_to_miche.py`, which names the papers in each.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "plan/sheet.rs"]
mod sheet;

use serde_json::Value;

#[test]
fn job_shops_reach_the_published_optimum_and_say_that_it_is_proven() {
    let optima = std::fs::read_to_string(sheet::root().join("tests/data/jobshop/optima.txt")).unwrap();
    let machines = ["machine a", "machine b", "machine c", "machine d", "machine e", "machine f"];
    let mut seen = 0;
    for line in optima.lines() {
        let mut words = line.split_whitespace();
        let (name, optimum) = (words.next().unwrap(), words.next().unwrap().parse::<i64>().unwrap());
        let day = format!("tests/data/jobshop/{name}/day.miche");
        let plan = sheet::json(&[&day, "--limit", "20000 steps"]);
        assert_eq!(plan["span_minutes"], optimum, "{name}");
        assert_eq!(plan["optimal"], Value::Bool(true), "{name}");
        let kitchen =
            sheet::Kitchen { equipment: machines.iter().map(|machine| (*machine, 1)).collect(), cooks: 1, open: None };
        assert_eq!(sheet::broken(&plan, &kitchen), Vec::<String>::new(), "{name}");
        let jobs = std::fs::read_dir(sheet::root().join(format!("tests/data/jobshop/{name}"))).unwrap().count() - 2;
        for job in 1..=jobs {
            let part = format!("Job {job}");
            let text =
                std::fs::read_to_string(sheet::root().join(format!("tests/data/jobshop/{name}/job-{job}.miche")));
            let steps = text.unwrap().lines().filter(|line| line.starts_with("operation")).count();
            for step in 1..steps {
                let (first, then) = (format!("operation {step}"), format!("operation {}", step + 1));
                assert!(sheet::follows(&plan, (&part, &first), (&part, &then)), "{name} {part} {then}");
            }
        }
        seen += 1;
    }
    assert_eq!(seen, 4);
}
