//! `shelf-storage`: moist food kept at room temperature.

use super::{Check, Family, Run, Subject};
use crate::check::caution;
use crate::model::cooking::{bakes, beginnings, has_word, is_brine, says};
use crate::model::kind::Kind;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::model::recipe::{Keeps, KeptAt, Part};
use crate::measure::show;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "shelf-storage",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "preserves, pickles, fillings and other moist food kept for days without refrigeration",
    why: "What keeps on a shelf is decided by its acid, its sugar and its heating, and that is tested, not guessed: a pH of \
          4.6 or below, or water too bound for bacteria. A recipe that has not been tested belongs into the refrigerator. \
          Breads, biscuits and other food baked in an oven are left alone. This is general advice: local food law and \
          licensed practice go before it.",
    bad: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 3 weeks, at 20 C\ncook: tend 10 min, using hob\n    \
          Simmer {carrot} in {vinegar}.\n    until just tender\n",
    good: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 5 days, chilled\ncook: tend 10 min, using hob\n    \
           Simmer {carrot} in {vinegar}.\n    until just tender\n",
    sources: &[
        "21 CFR 114.3: acidified foods, finished equilibrium pH of 4.6 or below; refrigerated foods are excluded",
        "FDA Food Code 3-501.16: cold holding at 5 °C or below; 3-501.19: four hours without it (from memory)",
    ],
    run: Run::Parts(run),
};

/// Food whose name says that it is moist.
const MOIST: &[&str] = &[
    "jam", "preserve", "pickl", "chutney", "relish", "curd", "sauce", "syrup", "compote", "filling", "custard", "cream",
    "spread", "vinegar", "brine", "marinad", "soup", "stock", "stew", "puree", "purée", "paste", "confit", "garlic",
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let Some(keeps) = part.keeps.filter(|keeps| is_moist(part) && (is_shelf(keeps) || is_on_the_bench(keeps, part))) else { continue };
        if caution::is_said(subject.recipe, part, &["ph", "acid", "tested", "shelf", "chill", "refrigerat", "steril", "canned", "canning"]) {
            continue;
        }
        let where_kept = match keeps.how {
            KeptAt::At(temperature) => format!("at {}", show::temperature(temperature, show::Units::Metric)),
            _ => "and not said to be chilled".to_owned(),
        };
        let message = format!("`{}` is kept for {} {where_kept}", part.name, show::duration(keeps.time));
        diagnostics.push(
            Diagnostic::advice(CHECK.name, keeps.span, message)
                .label("nothing says that it was tested for the shelf")
                .help(
                    "write `, chilled` behind the time, or follow a tested process for shelf storage and say so in a `caution` \
                     line; local food law goes before this",
                ),
        );
    }
}

/// Kept out of the cold for more than a day.
fn is_shelf(keeps: &Keeps) -> bool {
    let warm = match keeps.how {
        KeptAt::At(temperature) => temperature.celsius() > Number::whole(8),
        KeptAt::Unsaid => true,
        KeptAt::Chilled | KeptAt::Frozen => false,
    };
    warm && keeps.time > Duration::minutes(24 * 60)
}

/// Custard, cream or a meat filling that stands in a warm place for more than four hours.
fn is_on_the_bench(keeps: &Keeps, part: &Part) -> bool {
    let warm = match keeps.how {
        KeptAt::At(temperature) => temperature.celsius() > Number::whole(8),
        KeptAt::Unsaid => true,
        KeptAt::Chilled | KeptAt::Frozen => false,
    };
    let spoils = |kind: Kind| kind.is_flesh() || matches!(kind, Kind::Milk | Kind::Egg | Kind::Dairy);
    warm && keeps.time > Duration::minutes(4 * 60) && part.lines.iter().any(|line| spoils(line.kind))
}

fn is_moist(part: &Part) -> bool {
    let named = has_word(part.name.key.as_str(), MOIST) || part.lines.iter().any(|line| line.kind == Kind::Vinegar || is_brine(line));
    let simmered = part.steps.iter().any(|step| says(step, beginnings!["simmer", "boil", "pickl", "brine"]));
    (named || simmered) && !part.steps.iter().any(bakes)
}
