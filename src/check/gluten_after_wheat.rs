//! `gluten-after-wheat`: what is made without gluten goes into a mixer straight after a dough that has it.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a plan is made.
pub(super) const CHECK: Check = Check {
    name: "gluten-after-wheat",
    severity: Severity::Warning,
    family: Family::Safety,
    looks_for: "a plan that puts what is made without gluten into a mixer straight after a dough with gluten",
    why: "What stays in a bowl is enough to hurt: food that is called free of gluten has 20 mg in a kilogram at most. Make it first, \
          with tools of its own, or clean the machine in between and write that as a step with the machine in use. `miche plan` \
          says it; `miche check` does not plan. This is general advice: the law where the food is sold goes before it.",
    bad: "day Two orders\nmake 500 g of \"rolls.miche\", ready 2027-01-10 10:00\nmake 500 g of \"batter.miche\", ready 2027-01-10 18:00\n=== rolls.miche ===\nrecipe Rolls\nmakes 500 g\nflour .... 500 g\nmix: hands 10 min, using mixer\n    Beat {flour}.\n    until smooth\n=== batter.miche ===\nrecipe Gluten-free batter\nmakes 500 g\nbuckwheat flour .... 500 g\nmix: hands 10 min, using mixer\n    Beat {buckwheat flour}.\n    until smooth\n",
    good: "day Two orders\nmake 500 g of \"rolls.miche\", ready 2027-01-10 10:00\nmake 500 g of \"batter.miche\", ready 2027-01-10 18:00\n=== rolls.miche ===\nrecipe Rolls\nmakes 500 g\nflour .... 500 g\nmix: hands 10 min, using mixer\n    Beat {flour}.\n    until smooth\n=== batter.miche ===\nrecipe Gluten-free batter\nmakes 500 g\nbuckwheat flour .... 500 g\nmix: hands 10 min\n    Beat {buckwheat flour} in a bowl of its own.\n    until smooth\n",
    sources: &[
        "Regulation (EU) 828/2014 and 21 CFR 101.91: 20 mg/kg (from memory)",
        "what is done about it in the bakehouse: common practice, no source",
    ],
    run: Run::Command("miche plan example.miche"),
};
