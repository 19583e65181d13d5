//! `held-too-cool`: food kept warm below the temperature of hot holding.

use super::kept::is_culture;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::cooking::cold_words::{NOT_WARM, says_cold};
use crate::model::cooking::{beginnings, cooks, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::Ingredient;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "held-too-cool",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "a step that holds or keeps food warm below 57 °C, or lets what is cooked stand so",
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

/// What is held so for an hour or more counts, whatever the step is called.
const LONG: Duration = Duration::new(Number::whole(3600));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        for (at, step) in part.steps.iter().enumerate() {
            let Some((low, _)) = step.temperature else { continue };
            // `hot-hold` is one word.
            let is_called = |words: &[&str]| {
                step.name.key.as_str().split([' ', '-']).any(|word| words.iter().any(|begin| word.starts_with(begin)))
            };
            let holds = is_called(&["hold", "keep"]);
            let stands = is_called(&["stand", "serve", "rest"]) && step.time.1 >= LONG;
            if !(holds || stands) || low.celsius() >= Number::whole(57) {
                continue;
            }
            let was_cooked = part.steps.iter().take(at).any(cooks);
            let is_cold_place = says_cold(step, NOT_WARM);
            let by_equipment = step.equipment.as_ref().is_some_and(|name| {
                has_word_beginning(
                    name.key.as_str(),
                    ["hob", "kettle", "oven", "bain", "warmer", "hot|", "hotplate", "heated"],
                )
            });
            // Below 21 °C it is being cooled, not held, unless something hot holds it: 63 °F for 63 °C.
            let hot = !is_cold_place && (says(step, beginnings!["hot", "warm"]) || by_equipment);
            // What was cooked and stands warm for an hour is held, too.
            let is_held = holds || low.celsius() > Number::whole(40) && hot && was_cooked;
            let least = if hot { 8 } else { 21 };
            // Tempered chocolate and what a culture sours are no hot food.
            let sours = |line: &Ingredient| is_culture(line) && !was_cooked;
            let is_else =
                || part.lines.iter().any(|line| line.stays_in() && (line.kind == Kind::Chocolate || sours(line)));
            if is_held && low.celsius() > Number::whole(least) && !is_else() {
                let message = format!(
                    "`{}` keeps food at {}; hot food is held at 57 °C or above",
                    step.name,
                    show::temperature(low, show::Units::Metric)
                );
                diagnostics.push(
                    Diagnostic::advice(CHECK.name, step.name.span, message)
                        .help("hold it hotter, or chill it; local food law goes before this"),
                );
            }
        }
    }
}
