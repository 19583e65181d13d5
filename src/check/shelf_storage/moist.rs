//! What holds so much that is moist that it is mouldy within days, whatever was baked or steamed around it. Common practice, no source: a loaf is mouldy
//! after a week, and a filling of vegetables, cheese or custard before.

use super::{is_low_acid, is_of_fruit};
use crate::check::dough::{inside, mille};
use crate::check::kept::{is_kept_on_a_shelf, is_sour};
use crate::measure::quantity::{Duration, Mass};
use crate::model::cooking::{bakes, beginnings, called, cooks, dries_through};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::spoils::{Body, body};
use crate::model::step::Step;
use crate::solve::formula::leaves::{Counted, Leaf, leaves};
use crate::solve::formula::{Formula, SolvedPart};

/// So long moist food may be said to stand where it is warm before it is asked about here: what spoils sooner is asked elsewhere.
const DAYS: Duration = Duration::days(4);
/// What is sour with egg or cream in it is asked later: mould grows on it, and what is in it turns rancid.
const SOUR_DAYS: Duration = Duration::days(14);

/// Whether a part is so moist that it does not keep so long out of the cold.
pub(super) fn spoils_within(recipe: &Recipe, formula: &Formula, id: PartId, time: Duration) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    if time <= DAYS
        || part.steps.is_empty()
        || part.steps.iter().any(dries_through)
        || [&part.name, &recipe.name]
            .iter()
            .any(|name| name.has_word_beginning(beginnings!["dried", "crisp|", "crisps|", "jerky"]))
        || is_kept_on_a_shelf(recipe, formula, id, part.steps.len()) && !is_sour(recipe, formula, id)
    {
        return false;
    }
    is_steamed_dough(recipe, formula, id)
        || is_wet_dish(recipe, formula, id, solved)
        || is_filled(recipe, formula, id, time)
}

/// Whether a part is filled or topped with so much of what spoils that the whole does, and nothing sour, salt or dry keeps it.
pub(crate) fn holds_a_moist_filling(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id) else { return false };
    !part.steps.iter().any(dries_through)
        && !is_kept_on_a_shelf(recipe, formula, id, part.steps.len())
        && is_filled(recipe, formula, id, DAYS)
}

/// Whether so much of a mass is there, in thousandths of another.
fn is_much(mass: Mass, of: Mass, least: i64) -> bool {
    mass.as_share_of(of).is_ok_and(|share| share >= mille(least))
}

/// A dough that is boiled or steamed and baked by nothing: pasta, dumplings, buns. Puddings of much sugar and fruit keep for months.
fn is_steamed_dough(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let parts: Vec<&Part> = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).collect();
    let is_floury = || is_much(solved.composition.flour, solved.composition.total, 200);
    let wets = |step: &Step| called(step, beginnings!["boil", "steam", "poach", "simmer"]) && cooks(step);
    let dry = |step: &Step| bakes(step) || called(step, beginnings!["fry", "dry", "toast", "griddle"]);
    is_floury()
        && part.steps.iter().rev().find(|step| cooks(step)).is_some_and(wets)
        && !parts.iter().flat_map(|part| &part.steps).any(dry)
        && !is_much(solved.composition.sugar, solved.composition.total, 180)
}

/// A dish of hardly any flour that is mostly water and neither sweet nor sour.
fn is_wet_dish(recipe: &Recipe, formula: &Formula, id: PartId, solved: &SolvedPart) -> bool {
    let (made, all) = (&solved.comes_out, &solved.composition);
    let feeds = |line: &Ingredient| {
        body(line).is_some()
            || matches!(line.kind, Kind::Thickener | Kind::Starch)
            || line.name.has_word_beginning(beginnings!["coconut"])
    };
    let has_body = || {
        inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).flat_map(|part| &part.lines).any(feeds)
    };
    is_much(made.water, made.total, 450)
        && !is_much(made.sugar, made.total, 350)
        && !is_much(all.flour, all.total, 150)
        && is_made(recipe, id)
        && has_body()
        && !is_of_fruit(recipe, id)
        && !is_sour(recipe, formula, id)
}

/// Whether it is cooked or set somewhere: a list of amounts says nothing.
fn is_made(recipe: &Recipe, id: PartId) -> bool {
    let parts = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    parts.flat_map(|part| &part.steps).any(|step| cooks(step) || step.temperature.is_some())
}

/// A twelfth and more of what is put together is cheese, cream, custard, meat or vegetables that lie in no dough.
fn is_filled(recipe: &Recipe, formula: &Formula, id: PartId, time: Duration) -> bool {
    let Ok(all) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let Ok(whole) = Mass::sum(all.iter().map(|leaf| leaf.mass)) else { return false };
    let holds = |inner: PartId| {
        let (part, solved) = recipe.part(inner).zip(formula.part(inner))?;
        if is_crumb(part, solved)
            || is_kept_on_a_shelf(recipe, formula, inner, part.steps.len()) && !is_sour(recipe, formula, inner)
        {
            return None;
        }
        let here: Vec<&Leaf<'_>> =
            all.iter().filter(|leaf| part.lines.iter().any(|line| std::ptr::eq(line, leaf.line))).collect();
        let mass = |is: &dyn Fn(&Ingredient) -> bool| {
            Mass::sum(here.iter().filter(|leaf| is(leaf.line)).map(|leaf| leaf.mass)).unwrap_or(Mass::ZERO)
        };
        let is_milky = |line: &Ingredient| body(line) == Some(Body::Milk) && is_moist(line);
        // Egg sets what milk or cream is in; beaten with sugar and nuts alone it is a cake.
        let is_custard = is_much(mass(&is_milky), mass(&|_| true), 150);
        let is_wet = |line: &Ingredient| match body(line) {
            Some(Body::Flesh) => true,
            Some(Body::Milk) => is_milky(line),
            Some(Body::Vegetable | Body::Pulse) => is_low_acid(line) && is_moist(line),
            Some(Body::Egg) => is_custard,
            _ => false,
        };
        // Sour custards last somewhat longer, and what vinegar keeps is no matter of days.
        let is_sour = is_sour(recipe, formula, inner) && (!is_custard || time <= SOUR_DAYS);
        (!is_sour).then(|| mass(&is_wet))
    };
    let wet = Mass::sum(inside(recipe, id).into_iter().filter_map(holds));
    wet.is_ok_and(|wet| is_much(wet, whole, 85))
}

/// Whether a part is a dough, a batter or another body that bakes dry: of flour, nuts or starch for a good deal.
fn is_crumb(part: &Part, solved: &SolvedPart) -> bool {
    let is_meal = |line: &Ingredient| {
        line.is_any_flour() || matches!(line.kind, Kind::Nut | Kind::Starch | Kind::Grain | Kind::Seed)
    };
    // What lies on a dough is no dough.
    let meal = super::mass_of(part, solved, is_meal).unwrap_or(Mass::ZERO);
    is_much(meal, solved.composition.total, 150)
}

/// Whether a larder says of it that it is moist, or nothing.
fn is_moist(line: &Ingredient) -> bool {
    let water = line.facts().and_then(|facts| facts.contents.water);
    water.is_none_or(|water| water >= mille(420))
}
