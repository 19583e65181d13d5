//! `held-too-cool`: food kept warm below the temperature of hot holding.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::{beginnings, says};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::show;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "held-too-cool",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "a step that holds or keeps food warm below 57 °C",
    why: "Food that is kept hot for serving stands at 57 °C or above; below, what survived the cooking grows again. Some \
          countries ask for more (63 °C in the United Kingdom, from memory). This is general advice: local food law and \
          licensed practice go before it.",
    bad: "recipe Pea soup\npeas .... 2 kg\nwater .... 4 l\ncook: tend 40 min, using kettle\n    Boil {peas} in {water}.\n    \
          until soft\nhold: tend 1 h, using kettle at 50 C\n",
    good: "recipe Pea soup\npeas .... 2 kg\nwater .... 4 l\ncook: tend 40 min, using kettle\n    Boil {peas} in {water}.\n    \
           until soft\nhold: tend 1 h, using kettle at 70 C\n",
    sources: &["FDA Food Code 3-501.16, hot holding (from memory); TM 10-412 (2003) card A No. 32: 140 °F"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        for step in &part.steps {
            let Some((low, _)) = step.temperature else { continue };
            let holds = step.name.has_word(beginnings!["hold", "keep"]);
            // Below 21 °C it is being cooled, not held, unless something hot holds it: 63 °F for 63 °C.
            let hot = says(step, beginnings!["hot", "warm"])
                || step.equipment.as_ref().is_some_and(|name| name.has_word(beginnings!["hob", "kettle", "oven", "bain", "warmer"]));
            let least = if hot { 8 } else { 21 };
            if holds && low.celsius() > Number::whole(least) && low.celsius() < Number::whole(57) {
                let message = format!("`{}` keeps food at {}; hot food is held at 57 °C or above", step.name, show::temperature(low, show::Units::Metric));
                diagnostics.push(
                    Diagnostic::advice(CHECK.name, step.name.span, message)
                        .help("hold it hotter, or chill it; local food law goes before this"),
                );
            }
        }
    }
}
