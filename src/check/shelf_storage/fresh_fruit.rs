//! Fresh fruit that goes raw into a cream, a ganache or onto a cake: mould is on it within days, whatever chocolate or cream lies around it. Common
//! practice, no source.

use crate::check::dough::mille;
use crate::check::kept::{is_culture, is_sour};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::cold::is_freezer;
use crate::model::cooking::{beginnings, called, cooks, dries_through, first_draws, surely_does};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, Target};
use crate::solve::formula::Formula;
use std::collections::HashMap;

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
        .and_then(|total| raw_fruit(recipe, formula, id, &mut HashMap::new())?.as_share_of(total).ok())
        .is_some_and(|share| share >= mille(60))
}

/// How much fruit is in a part that nothing heats, dries, freezes, ferments or keeps after it went in. Parts that were asked already are `known`.
fn raw_fruit(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    known: &mut HashMap<PartId, Option<Mass>>,
) -> Option<Mass> {
    if let Some(known) = known.get(&id) {
        return *known;
    }
    // A ring of parts was reported; until a part is looked through there is nothing in it.
    known.insert(id, None);
    let (part, solved) = (recipe.part(id)?, formula.part(id)?);
    let is_frozen = |step: &Step| step.temperature.is_some_and(|(low, _)| is_freezer(low));
    let changes = |step: &Step| {
        called(step, beginnings!["freez", "churn", "harden"])
            || is_frozen(step)
            || dries_through(step)
            || surely_does(step, beginnings!["ferment", "dehydrat"])
    };
    let lines = || part.lines.iter().zip(&solved.lines);
    let of = |is: &dyn Fn(&Ingredient) -> bool| {
        Mass::sum(lines().filter(|(line, _)| line.stays_in() && is(line)).filter_map(|(_, amount)| amount.mass)).ok()
    };
    let fruit = of(&is_fresh)?;
    // Sugar that is heaped on fruit draws its water and keeps it, and so does strong drink.
    let keeps = of(&|line| line.kind.is_sweet() || line.kind == Kind::Spirit)?;
    let is_heaped = keeps >= fruit.times(Number::constant(3, 5)).ok()?;
    if part.steps.iter().any(changes) || part.lines.iter().any(is_culture) || is_sour(recipe, formula, id) {
        return None;
    }
    let draws = first_draws(part);
    let is_raw = |at: usize| {
        let first = draws.get(&Target::Line(at)).copied().unwrap_or(0);
        !part.steps.iter().skip(first).any(cooks)
    };
    let mut all = Mass::ZERO;
    for (at, (line, amount)) in lines().enumerate() {
        let Some(mass) = amount.mass.filter(|_| line.stays_in() && is_raw(at)) else { continue };
        let found = match line.part() {
            Some(inner) => {
                let whole = formula.part(inner).map_or(Mass::ZERO, |inner| inner.comes_out.total);
                raw_fruit(recipe, formula, inner, known)
                    .and_then(|fruit| mass.share(fruit.as_share_of(whole).ok()?).ok())
            }
            None => (is_fresh(line) && !is_heaped).then_some(mass),
        };
        all = all.plus(found.unwrap_or(Mass::ZERO)).ok()?;
    }
    known.insert(id, Some(all));
    Some(all)
}
