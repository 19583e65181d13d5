//! `two-amounts-disagree`: the same amount said twice, and not the same.
//!
//! Weights against weights and volumes are compared while a line is bound; percentages can only be compared once the
//! base is known, which is done here.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Overflow;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::{Said, Value};
use crate::model::recipe::{Ingredient, LineAmount};
use crate::solve::resolve::{compare, corrected, disagreement, weigh};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "two-amounts-disagree",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "`225 g = 8 oz`, `1 cup = 240 g`, `190 C = 375 F` or `680 g = 68 %` where the two sides are not the same amount",
    why: "Readers use one side or the other; both must bake the same bread. Within the rounding that the digits imply, and \
          1 % beyond it, they agree; up to 3 % beyond it is a warning; more is an error. Decimals imply rounding at their last \
          digit, and whole grams, millilitres and per cents are taken as rounded to the whole; `2 lb` or `1 kg` are taken as \
          exact. Against ounces, cups and inches without decimals a metric figure is taken as rounded for the kitchen, as in \
          `30 g = 1 oz`, `240 ml = 1 cup`, `2 cm = 3/4 in`; the tables of British cookbooks, in which an ounce is 25 g, `100 g = 4 oz` and `125 g = 4 oz`, agree. Where a cup or a piece becomes a weight through the larder, its figure \
          is an average, and what is further apart is a warning too. Oven temperatures agree within half a mark of the dial \
          (10 °C, 25 °F), and where cookbooks print them side by side, `170 C = 325 F`. Eggs may weigh a fifth more or less. The first amount is the one computed with.",
    bad: "recipe Loaf\nflour .... 500 g = 1 lb\n",
    good: "recipe Loaf\nflour .... 454 g = 1 lb\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &[
        "international yard and pound agreement of 1959",
        "USDA National Nutrient Database for Standard Reference, Release 28: household weights",
        "a cup of flour sifted, spooned or dipped, 113 to 142 g: R. L. Beranbaum's figures in the table of GNU units 2.22",
        "rounding for the kitchen: common practice, no source",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.own_parts() {
        let Some(base) = solved.base.filter(|base| *base > Mass::ZERO) else { continue };
        for line in &part.lines {
            let LineAmount::Said(said) = &line.amount else { continue };
            // Where a weight is written it is what is computed with, and cups and pieces are compared with that elsewhere.
            let is_weighed = said.iter().any(|said| said.mass().is_some());
            let counts = |said: &&Said| !is_weighed || matches!(said.value, Value::Mass(_) | Value::Proportion(_));
            let compared: Vec<&Said> = said.iter().filter(counts).collect();
            let Some((first, others)) = compared.split_first() else { continue };
            for other in others {
                if let Ok(Some(problem)) = compare_with_share(line, base, first, other) {
                    diagnostics.push(problem);
                }
            }
        }
    }
}

/// Compares a mass with a percentage; anything else was compared before.
fn compare_with_share(
    line: &Ingredient,
    base: Mass,
    first: &Said,
    other: &Said,
) -> Result<Option<Diagnostic>, Overflow> {
    let one_is_share = matches!(first.value, Value::Proportion(_)) != matches!(other.value, Value::Proportion(_));
    if !one_is_share {
        return Ok(None);
    }
    let in_base = |said: &Said| -> Result<Option<(Mass, crate::measure::number::Number)>, Overflow> {
        match said.value {
            Value::Proportion(share) => Ok(Some((base.share(share)?, base.value().times(said.slack)?))),
            value => match weigh(value, line.facts()).transpose()? {
                Some(mass) if matches!(value, Value::Mass(_)) => Ok(Some((mass, said.slack))),
                Some(mass) => Ok(Some((mass, crate::measure::number::Number::ZERO))),
                None => Ok(None),
            },
        }
    };
    let (Some((a, slack_a)), Some((b, slack_b))) = (in_base(first)?, in_base(other)?) else { return Ok(None) };
    let (agreement, apart) = compare(a.value(), b.value(), slack_a.plus(slack_b)?)?;
    let weighed = |said: &Said| matches!(said.value, Value::Mass(_) | Value::Proportion(_));
    let agreement = if weighed(first) && weighed(other) { agreement } else { agreement.by_average() };
    let text = |said: &Said, mass: Mass| match said.value {
        Value::Proportion(_) => {
            format!("{} of {} ({})", show::said_plain(said), show::mass_plain(base), show::mass_plain(mass))
        }
        _ => {
            let percent = mass
                .as_share_of(base)
                .map_or_else(|_| String::new(), |share: Proportion| format!(" ({})", show::percent(share)));
            format!("{}{percent}", show::said_plain(said))
        }
    };
    let Some(problem) = disagreement((agreement, apart), (first, other), || (text(first, a), text(other, b))) else {
        return Ok(None);
    };
    let meant = match other.value {
        Value::Proportion(_) => Some(Value::Proportion(a.as_share_of(base)?)),
        Value::Mass(_) => Some(Value::Mass(a)),
        _ => None,
    };
    let instead = match first.value {
        Value::Proportion(_) => Some(Value::Proportion(b.as_share_of(base)?)),
        Value::Mass(_) => Some(Value::Mass(b)),
        _ => None,
    };
    Ok(Some(corrected(problem, (other, meant), (first, instead))))
}
