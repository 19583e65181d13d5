//! What is churned and frozen: how much sugar and salt all that lies in it holds. Common practice, no source.

use super::Subject;
use super::dough::mille;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::beginnings;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::solve::formula::leaves::{Counted, leaves};

/// With less sugar than this it freezes to ice, with more not at all; with more salt nobody eats it, and it stays soft. In thousandths.
const LEAST_SUGAR: i64 = 60;
const MOST_SUGAR: i64 = 450;
const MOST_SALT: i64 = 8;

/// The first line of what a part churns, or of a part that it takes, of which there is too much or too little.
pub(super) fn run<'p>(subject: &Subject<'p>, id: PartId, part: &Part) -> Option<(&'p Ingredient, String)> {
    let churns = part.steps.iter().any(|step| step.name.has_word_beginning(beginnings!["churn"]));
    // Butter is churned too.
    let cream = |line: &Ingredient| line.kind.is_sweet() || line.part().is_some();
    if !churns || !part.lines.iter().any(cream) {
        return None;
    }
    let all = leaves(subject.recipe, subject.formula, id, Counted::GoesIn).ok()?;
    let whole = Mass::sum(all.iter().map(|leaf| leaf.mass)).ok().filter(|whole| *whole > Mass::ZERO)?;
    let salt = all.iter().filter(|leaf| leaf.line.kind == Kind::Salt);
    let salty = Mass::sum(salt.clone().map(|leaf| leaf.mass)).ok()?;
    if salty.as_share_of(whole).is_ok_and(|share| share > mille(MOST_SALT)) {
        let line = salt.max_by_key(|leaf| leaf.mass)?.line;
        return Some((line, told(salty, "salt", whole, "half a gram to a hundred is much")));
    }
    // The sugar of milk sweetens and softens little.
    let sugar = all.iter().map(|leaf| {
        let known = leaf.line.facts().and_then(|facts| facts.contents.sugar);
        match leaf.line.kind {
            Kind::Milk | Kind::Dairy if known.is_some_and(|share| share <= mille(150)) => Some(Mass::ZERO),
            Kind::Water | Kind::Ice | Kind::Salt | Kind::Egg | Kind::Spice | Kind::Fat | Kind::Thickener => {
                Some(Mass::ZERO)
            }
            _ => leaf.mass.share(known?).ok(),
        }
    });
    let sugar = Mass::sum(sugar.collect::<Option<Vec<Mass>>>()?).ok()?;
    let share = sugar.as_share_of(whole).ok()?;
    let line = all.iter().filter(|leaf| leaf.line.kind.is_sweet()).max_by_key(|leaf| leaf.mass)?.line;
    let is_odd = share < mille(LEAST_SUGAR) || share > mille(MOST_SUGAR);
    is_odd.then(|| {
        (line, told(sugar, "sugar", whole, "with less than a tenth it freezes to ice, and with half not at all"))
    })
}

fn told(mass: Mass, what: &str, whole: Mass, why: &str) -> String {
    let share = mass.as_share_of(whole).map_or_else(|_| String::new(), |share| format!(" ({})", show::percent(share)));
    format!("{} of {what} in {} that are churned{share}: {why}", show::mass_plain(mass), show::mass_plain(whole))
}
