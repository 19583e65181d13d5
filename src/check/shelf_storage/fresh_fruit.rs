//! Fresh fruit that goes raw into a cream, a ganache or onto a cake: mould is on it within days, whatever chocolate or cream lies around it. Common
//! practice, no source.

use super::unheated::Sought;
use crate::check::dough::{mass_of, mille};
use crate::check::kept::{is_culture, is_sour};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::cooking::{beginnings, dries_through, surely_does};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::Step;
use crate::solve::formula::{Formula, SolvedPart};

/// So long a fruit tart may be said to keep before it is asked about here.
pub(super) const DAYS: Duration = Duration::days(7);

/// Fruit that is not as it grew: dried, candied, boiled with sugar, or its peel alone; and what nobody eats raw, or keeps whole in its shell.
#[rustfmt::skip]
const NOT_FRESH: &Beginnings = &Beginnings::of(&[
    "dried", "dry|", "semi-dried", "freeze-dried", "candied", "glacé", "glace", "crystallised", "crystallized", "confit", "preserved", "brandied", "soaked", "jam|", "marmalade",
    "preserve", "conserve", "compote", "compôte", "curd", "powder", "zest", "peel|", "rind", "pectin", "raisin", "sultana", "currants|", "prune", "date|", "dates|", "paste",
    "butter", "jelly", "syrup", "tinned", "canned", "bottled", "cooked", "baked", "poached", "stewed", "roasted", "flakes", "desiccated", "chips", "crisps", "olive",
    "concentrate", "extract", "cordial", "cocktail", "maraschino", "pickled", "salted", "fermented", "coconut", "leather",
]);

/// Whether it is fresh fruit, juicy by what a larder says.
fn is_fresh(line: &Ingredient) -> bool {
    let said = || line.preparation.as_deref().map(str::to_lowercase).unwrap_or_default();
    let is_juicy = || {
        let water = line.facts().and_then(|facts| facts.contents.water);
        water.is_none_or(|water| water >= mille(600))
    };
    line.kind == Kind::Fruit
        && line.stays_in()
        && !line.name.has_word_beginning(NOT_FRESH)
        && !NOT_FRESH.begin_in(&said())
        && is_juicy()
}

/// Whether so much raw fruit lies in or on a part that it is mouldy with it: a sixteenth of it and more.
pub(in crate::check) fn holds_fresh_fruit(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    // Nearly nothing has fruit in it at all.
    let lists = |part: &Part| part.lines.iter().any(|line| line.kind == Kind::Fruit);
    if !crate::check::dough::inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).any(lists) {
        return false;
    }
    let total = formula.part(id).map(|solved| solved.composition.total);
    total
        .and_then(|total| raw_fruit(recipe, formula, id)?.as_share_of(total).ok())
        .is_some_and(|share| share >= mille(60))
}

/// How much fruit is in a part that nothing heats, dries, freezes, ferments or keeps after it went in.
fn raw_fruit(recipe: &Recipe, formula: &Formula, id: PartId) -> Option<Mass> {
    let changes = |step: &Step| dries_through(step) || surely_does(step, beginnings!["ferment", "dehydrat"]);
    let keeps = |id: PartId, part: &Part| {
        part.steps.iter().any(changes) || part.lines.iter().any(is_culture) || is_sour(recipe, formula, id)
    };
    let is = |whole: (&Part, &SolvedPart), line: &Ingredient| is_fresh(line) && is_heaped(whole) == Some(false);
    Sought { is: &is, keeps: &keeps }.unheated_in(recipe, formula, id)
}

/// Whether sugar or strong drink is heaped on the fruit of a part: it draws its water and keeps it.
fn is_heaped((part, solved): (&Part, &SolvedPart)) -> Option<bool> {
    let fruit = mass_of(part, solved, is_fresh)?;
    let keeps = mass_of(part, solved, |line| line.kind.is_sweet() || line.kind == Kind::Spirit)?;
    Some(keeps >= fruit.times(Number::constant(3, 5)).ok()?)
}
