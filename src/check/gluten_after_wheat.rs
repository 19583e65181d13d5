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
    bad: "recipe Gluten-free batter\nbuckwheat flour .... 500 g\n\nmix: hands 10 min, using mixer\n    Beat {buckwheat flour}.\n    until smooth\n",
    good: "recipe Gluten-free batter\nbuckwheat flour .... 500 g\n\nmix: hands 10 min\n    Beat {buckwheat flour} in its own bowl.\n    until smooth\n",
    sources: &[
        "Regulation (EU) 828/2014 and 21 CFR 101.91: 20 mg/kg (from memory)",
        "what is done about it in the bakehouse: common practice, no source",
    ],
    run: Run::Planning,
};
