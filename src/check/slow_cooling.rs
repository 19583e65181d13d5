//! `slow-cooling`: cooked food that stands too long before it is chilled.

use super::kept::{is_safe, is_soured_from};
use super::kept_too_long::keeps_by_itself;
use super::promise;
use super::statement::{self, COOLING, SOUR};
use super::{Check, Family, Run, Subject};
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::cooking::{bakes, time_before_cold_or};
use crate::model::flow::reached;
use crate::model::recipe::{Ingredient, PartId};
use crate::model::spoils::{Body, body};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "slow-cooling",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "cooked food that is kept chilled, or sold so by its label, and stands for more than two hours before it comes into the cold",
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

/// Whether what a part makes is sold from the cold, by itself or in what takes it up, and spoils: by what is said for the label.
fn is_sold_cold(subject: &Subject<'_>, id: PartId) -> bool {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let Some(part) = recipe.part(id) else { return false };
    let is_body = |line: &Ingredient| line.stays_in() && body(line).is_some_and(|body| body != Body::Grain);
    if recipe.sale.good_for.is_none() || !part.lines.iter().any(is_body) {
        return false;
    }
    let users = reached(id, |here| recipe.users(here).map(|(user, _)| user).collect::<Vec<PartId>>());
    let mut ends = users.into_iter().filter_map(|end| promise::on_label(recipe, end, recipe.part(end)?));
    let is_cold = ends.any(|promise| !promise.is_warm());
    is_cold && !is_safe(recipe, formula, id, part.steps.len())
}

/// From 57 °C to 21 °C.
const FIRST_STAGE: Duration = Duration::new(crate::measure::number::Number::whole(2 * 3600));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.own_parts() {
        let chilled = part.keeps.is_some_and(|keeps| keeps.how.is_cold()) || is_sold_cold(subject, id);
        // Jam cools as it likes: sugar keeps it.
        if !chilled || part.steps.iter().any(bakes) || keeps_by_itself(part, solved) {
            continue;
        }
        let Some((time, at)) = time_before_cold_or(part, chilled).filter(|(time, _)| *time > FIRST_STAGE) else {
            continue;
        };
        if statement::states(subject.recipe, part, COOLING) || statement::states(subject.recipe, part, SOUR) {
            continue;
        }
        let Some(step) = part.steps.get(at) else { continue };
        if is_soured_from(part, at) {
            continue;
        }
        let message = format!(
            "`{}` stands for {} after cooking before it is chilled; 2 h is the limit to 21 °C",
            part.name,
            show::duration(time)
        );
        diagnostics.push(
            Diagnostic::advice(CHECK.name, step.time_span, message)
                .help("spread it shallow or cool it in ice, and chill it within 2 h; local food law goes before this"),
        );
    }
}
