//! `slow-cooling`: cooked food that stands too long before it is chilled.

use super::kept::is_culture;
use super::kept_too_long::keeps_by_itself;
use super::statement::{self, COOLING};
use super::{Check, Family, Run, Subject};
use crate::model::cooking::{bakes, time_before_cold};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::quantity::Duration;
use crate::measure::show;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "slow-cooling",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "cooked food that is kept chilled and stands for more than two hours before it comes into the cold",
    why: "Between 57 °C and 21 °C bacteria grow fastest. The FDA Food Code wants cooked food from 57 °C to 21 °C within two \
          hours, and from 57 °C to 5 °C within six hours in all; a fast first stage leaves more of the six for the second. \
          Spread it shallow, use an ice bath, divide it. What is baked in an oven, and jam with 55 % sugar and more, is left alone. This is general advice: \
          local food law and licensed practice go before it.",
    bad: "recipe Pea soup\npeas .... 2 kg\nwater .... 4 l\nkeeps 2 days, chilled\ncook: tend 40 min, using kettle\n    \
          Boil {peas} in {water}.\n    until soft\ncool: wait 4 h\nchill: wait 3 h, at 4 C\n",
    good: "recipe Pea soup\npeas .... 2 kg\nwater .... 4 l\nkeeps 2 days, chilled\ncook: tend 40 min, using kettle\n    \
           Boil {peas} in {water}.\n    until soft\ncool: wait 90 min\nchill: wait 3 h, at 4 C\n",
    sources: &["FDA Food Code 3-501.14, cooling"],
    run: Run::Parts(run),
};

/// From 57 °C to 21 °C.
const FIRST_STAGE: Duration = Duration::new(crate::measure::number::Number::whole(2 * 3600));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.own_parts() {
        let chilled = part.keeps.is_some_and(|keeps| keeps.is_cold());
        // Jam cools as it likes: sugar keeps it.
        if !chilled || part.steps.iter().any(bakes) || keeps_by_itself(part, solved) {
            continue;
        }
        let Some((time, at)) = time_before_cold(part).filter(|(time, _)| *time > FIRST_STAGE) else { continue };
        if statement::states(subject.recipe, part, COOLING) {
            continue;
        }
        let Some(step) = part.steps.get(at) else { continue };
        // Yoghurt sets warm: a culture that is stirred in after the heat sours it before anything else grows.
        let turns = |line: usize| part.lines.get(line).is_some_and(is_culture);
        if part.steps.iter().skip(at).any(|step| step.lines_taken().any(turns)) {
            continue;
        }
        let message =
            format!("`{}` stands for {} after cooking before it is chilled; 2 h is the limit to 21 °C", part.name, show::duration(time));
        diagnostics.push(
            Diagnostic::advice(CHECK.name, step.time_span, message)
                .help("spread it shallow or cool it in ice, and chill it within 2 h; local food law goes before this"),
        );
    }
}
