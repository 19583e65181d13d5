//! `shelf-storage`: moist food kept at room temperature.

use crate::model::lowered::Beginnings;
use super::dough::{inside, mass_of, mille};
use super::left_warm::is_kept;
use super::{Check, Family, Run, Subject};
use crate::check::caution;
use crate::model::cooking::{bakes, beginnings, is_brine, says};
use crate::model::kind::Kind;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::recipe::{Keeps, KeptAt, Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};
use crate::measure::show;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "shelf-storage",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "preserves, pickles, fillings and other moist food kept for days without refrigeration",
    why: "What keeps on a shelf is decided by its acid, its sugar and its heating, and that is tested, not guessed: a pH of \
          4.6 or below, or water too bound for bacteria. A recipe that has not been tested belongs into the refrigerator. \
          Breads, biscuits and other dry food baked in an oven are left alone; garlic in oil, a quiche, a custard and a pot of beans are not, whatever they \
          were cooked in: in oil, shut off from air, what makes botulism grows. This is general advice: local food law and \
          licensed practice go before it.",
    bad: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 3 weeks, at 20 C\ncook: tend 10 min, using hob\n    \
          Simmer {carrot} in {vinegar}.\n    until just tender\n",
    good: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 5 days, chilled\ncook: tend 10 min, using hob\n    \
           Simmer {carrot} in {vinegar}.\n    until just tender\n",
    sources: &[
        "21 CFR 114.3: acidified foods, finished equilibrium pH of 4.6 or below; refrigerated foods are excluded",
        "CDC and FDA on garlic in oil: refrigerated, and for days only (from memory)",
        "FDA Food Code 3-501.16: cold holding at 5 °C or below; 3-501.19: four hours without it (from memory)",
    ],
    run: Run::Parts(run),
};

/// Food whose name says that it is moist.
const MOIST: &Beginnings = &Beginnings::of(&[
    "jam", "preserve", "pickl", "chutney", "relish", "curd", "sauce", "syrup", "compote", "filling", "custard", "cream",
    "spread", "vinegar", "brine", "marinad", "soup", "stock", "stew", "puree", "purée", "paste", "confit", "garlic",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let (recipe, formula) = (subject.recipe, subject.formula);
        let is_moist = || is_moist(part, formula.part(id)) || is_moist_from_the_oven(recipe, formula, id);
        let Some(keeps) = part.keeps.filter(|keeps| (is_shelf(keeps) || is_on_the_bench(keeps, part)) && is_moist()) else { continue };
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

/// Whether a part that was cooked moist in an oven is kept where it is warm; what is told by its name is no matter.
pub(crate) fn stands_on_shelf(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let kept = recipe.part(id).and_then(|part| part.keeps);
    kept.is_some_and(|keeps| is_shelf(&keeps)) && is_moist_from_the_oven(recipe, formula, id)
}

/// Honey boiled for a stock dough is no syrup any more.
fn is_sweet_dough(solved: &SolvedPart) -> bool {
    let composition = &solved.composition;
    let share = |mass: Mass, least: i64| mass.as_share_of(composition.total).is_ok_and(|share| share >= mille(least));
    share(composition.flour, 300) && share(composition.sugar, 150)
}

fn is_moist(part: &Part, solved: Option<&SolvedPart>) -> bool {
    let named = part.name.has_word(MOIST) || part.lines.iter().any(|line| line.kind == Kind::Vinegar || is_brine(line));
    let simmered = part.steps.iter().any(|step| says(step, beginnings!["simmer", "boil", "pickl", "brine"]));
    (named || simmered) && !part.steps.iter().any(bakes) && !solved.is_some_and(is_sweet_dough)
}

/// What cannot be dry, whatever it was cooked in: a pot of vegetables, meat or beans in oil or water, a filling of egg and cream.
fn is_moist_from_the_oven(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id) else { return false };
    let dries = |part: &Part| part.steps.iter().any(|step| says(step, beginnings!["dry", "dried", "dehydrat", "crisp", "crunch", "smoke"]));
    let is_moist = |part: &Part, solved: &SolvedPart| {
        let of = |is: &dyn Fn(Kind) -> bool, least: i64| {
            let mass = mass_of(part, solved, |line| is(line.kind) && !line.name.has_word(beginnings!["dried", "powder", "powdered"]));
            mass.is_some_and(|mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least)))
        };
        let body = |kind: Kind| kind.is_flesh() || matches!(kind, Kind::Vegetable | Kind::Pulse | Kind::Milk | Kind::Dairy);
        let wet = solved.composition.water.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(150));
        // In a pot water and oil weigh most of it.
        let in_pot = |kind: Kind| body(kind) || kind.is_poured() || kind == Kind::Fat;
        of(&body, 150) && of(&in_pot, 400) && wet && !of(&|kind| kind == Kind::Nut, 200) && !is_kept(part, solved) && !dries(part)
    };
    let inner = inside(recipe, id).into_iter();
    let mut solved = inner.filter_map(|inner| recipe.part(inner).zip(formula.part(inner)));
    part.steps.iter().any(bakes) && !dries(part) && solved.any(|(part, solved)| is_moist(part, solved))
}
