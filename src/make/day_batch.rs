//! A day's batches: every recipe scaled to its order, and a part that several recipes draw on made once for all of them.

use crate::language::syntax::Moment;
use crate::make::batch::{self, Impossible, Limit, Target};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::recipe::{PartId, Recipe, Selection};
use crate::solve::formula::{Formula, SolvedPart};
use crate::solve::resolve::day::{Day, DayOrder, Wanted};
use crate::text::source::SourceId;
use std::sync::Arc;

/// One batch.
#[derive(Debug, Clone)]
pub struct Batch {
    /// What is made.
    pub recipe: Arc<Recipe>,
    /// At the size in which it is made.
    pub formula: Formula,
    /// How many times the recipe as written.
    pub factor: Number,
    /// What runs out first, for a batch made of what there is.
    pub limit: Option<Limit>,
    /// For when, if it is an order with a time.
    pub ready: Option<Moment>,
    /// For a batch that others draw on: which, and how much each takes.
    pub made_for: Vec<MadeFor>,
}

/// Who takes how much of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeFor {
    /// The recipe that draws on it, or the recipe itself where it is also ordered.
    pub recipe: String,
    /// Which part of the batch.
    pub part: String,
    /// How much.
    pub mass: Mass,
}

/// A part of a used recipe as one order needs it.
struct Need<'a> {
    order: usize,
    /// The part's number in the order's own recipe.
    here: PartId,
    /// Where it is written.
    origin: &'a Arc<Recipe>,
    /// Its number there.
    there: PartId,
    solved: SolvedPart,
}

/// The batches of a day: shared ones first, then the orders in the day's order.
///
/// `work_out` gives the recipe and formula of an order, as written.
///
/// # Errors
/// When an order cannot be made in that size.
pub fn batches(day: &Day, work_out: impl Fn(&DayOrder) -> Option<(Recipe, Formula)>) -> Result<Vec<Batch>, Impossible> {
    let mut orders = Vec::with_capacity(day.orders.len());
    for order in &day.orders {
        let Some((mut recipe, formula)) = work_out(order) else { continue };
        // The day is made in one kitchen, whatever the recipes were written for.
        if day.kitchen.span.is_some() {
            recipe.kitchen = Arc::clone(&day.kitchen);
        }
        orders.push(ordered(order, recipe, &formula)?);
    }
    share(orders).map_err(Impossible::from)
}

fn ordered(order: &DayOrder, recipe: Recipe, formula: &Formula) -> Result<Batch, Impossible> {
    let target = match order.wanted {
        Wanted::Pieces(count) => Target::Pieces(count.value()),
        Wanted::Mass(mass) => Target::Total(mass),
    };
    let (factor, limit) = batch::factor(&recipe, formula, &target)
        .map_err(|impossible| Impossible { why: format!("{}: {}", recipe.name, impossible.why), ..impossible })?;
    let formula = formula.times(factor)?;
    Ok(Batch { recipe: Arc::new(recipe), formula, factor, limit, ready: order.ready, made_for: Vec::new() })
}

/// Takes parts that several batches draw on out of them and makes them once.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn share(mut orders: Vec<Batch>) -> Result<Vec<Batch>, Overflow> {
    let recipes: Vec<Arc<Recipe>> = orders.iter().map(|order| Arc::clone(&order.recipe)).collect();
    let mut needs = Vec::new();
    for (at, (order, recipe)) in orders.iter().zip(&recipes).enumerate() {
        for (here, part) in recipe.parts() {
            let Some(solved) = order.formula.part(here).filter(|solved| solved.is_made) else { continue };
            let (origin, there) = if part.foreign.is_some() { origin(recipe, here) } else { (recipe, here) };
            needs.push(Need { order: at, here, origin, there, solved: solved.clone() });
        }
    }
    let mut shared = Vec::new();
    let mut taken_whole: Vec<usize> = Vec::new();
    for group in groups(&needs) {
        let draws_on = |need: &&Need<'_>| !is_own(need, &recipes);
        let drawing: usize = count_orders(group.iter().copied().filter(draws_on));
        let ordered: Vec<usize> = distinct(group.iter().copied().filter(|need| is_own(need, &recipes)));
        // An order that nobody else draws on, or a part that only one order needs, stays where it is.
        if drawing == 0 || drawing + ordered.len() < 2 {
            continue;
        }
        shared.push(made_once(&group, &orders, &recipes)?);
        for need in group.iter().filter(|need| draws_on(need)) {
            let slot = orders.get_mut(need.order).and_then(|order| order.formula.parts.get_mut(need.here.0));
            if let Some(slot) = slot {
                slot.is_made = false;
            }
        }
        taken_whole.extend(ordered);
    }
    let left = orders.into_iter().enumerate().filter(|(at, _)| !taken_whole.contains(at)).map(|(_, order)| order);
    Ok(shared.into_iter().chain(left).collect())
}

/// Whether a need is an order's own part, not one that it draws on.
fn is_own(need: &Need<'_>, recipes: &[Arc<Recipe>]) -> bool {
    recipes.get(need.order).is_some_and(|recipe| Arc::ptr_eq(recipe, need.origin))
}

fn distinct<'a, 'n: 'a>(needs: impl Iterator<Item = &'a Need<'n>>) -> Vec<usize> {
    let mut orders: Vec<usize> = needs.map(|need| need.order).collect();
    orders.sort_unstable();
    orders.dedup();
    orders
}

fn count_orders<'a, 'n: 'a>(needs: impl Iterator<Item = &'a Need<'n>>) -> usize {
    distinct(needs).len()
}

/// Where a part is written: through recipes that use recipes.
fn origin(recipe: &Arc<Recipe>, id: PartId) -> (&Arc<Recipe>, PartId) {
    let foreign = recipe.part(id).and_then(|part| part.foreign);
    match foreign.and_then(|foreign| Some((recipe.used.get(foreign.recipe)?, foreign.part))) {
        Some((used, part)) => origin(&used.recipe, part),
        None => (recipe, id),
    }
}

/// Needs of parts that are written in the same recipe with the same choices, in the order in which they first appear.
fn groups<'n, 'a>(needs: &'n [Need<'a>]) -> Vec<Vec<&'n Need<'a>>> {
    let mut groups: Vec<((SourceId, &Selection), Vec<&Need<'a>>)> = Vec::new();
    for need in needs {
        let key = (need.origin.source, &need.origin.selection);
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, group)) => group.push(need),
            None => groups.push((key, vec![need])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// The batch that serves all of a group: every part at the sum of what is needed of it.
fn made_once(group: &[&Need<'_>], orders: &[Batch], recipes: &[Arc<Recipe>]) -> Result<Batch, Overflow> {
    // An order of the recipe itself brings kitchen and ready time; else it is the recipe as the first user sees it.
    let own = group.iter().find(|need| is_own(need, recipes));
    let first = own.or(group.first()).ok_or(Overflow)?;
    let mut recipe = Recipe::clone(first.origin);
    if let Some(user) = recipes.get(first.order) {
        recipe.kitchen = Arc::clone(&user.kitchen);
    }
    let written = Formula::of(&recipe, &mut Vec::new());
    let mut formula = written.clone();
    let mut factor = None;
    for (id, part) in recipe.parts() {
        let Some(original) = written.part(id) else { continue };
        let needed = Mass::sum(group.iter().filter(|need| need.there == id).filter_map(|need| need.solved.makes))?;
        let times = match original.makes {
            Some(makes) if makes > Mass::ZERO => needed.ratio(makes)?,
            _ => Number::ZERO,
        };
        let one = Formula { parts: vec![original.clone()], pieces: None }.times(times)?;
        if let (Some(slot), Some(mut scaled)) = (formula.parts.get_mut(id.0), one.parts.into_iter().next()) {
            scaled.is_made = times.is_positive();
            *slot = scaled;
        }
        if part.from.is_none() && times.is_positive() && (factor.is_none() || recipe.final_part() == Some(id)) {
            factor = Some(times);
        }
    }
    let factor = factor.unwrap_or(Number::ONE);
    formula.pieces = written.pieces.map(|pieces| pieces.times(factor)).transpose()?;
    let mut made_for = Vec::new();
    for need in group {
        let part = recipe.part(need.there);
        let (Some(user), Some(part), Some(mass)) = (recipes.get(need.order), part, need.solved.makes) else { continue };
        // A part inside the shared recipe is not handed out; what is handed out is what the users' own lines take.
        let is_handed = is_own(need, recipes) && recipe.final_part() == Some(need.there)
            || !is_own(need, recipes) && is_drawn_directly(user, need.here);
        if is_handed {
            made_for.push(MadeFor { recipe: user.name.to_string(), part: part.name.to_string(), mass });
        }
    }
    let ready = own.and_then(|need| orders.get(need.order)).and_then(|order| order.ready);
    Ok(Batch { recipe: Arc::new(recipe), formula, factor, limit: None, ready, made_for })
}

/// Whether one of the recipe's own parts draws on that part of a used recipe.
fn is_drawn_directly(recipe: &Recipe, id: PartId) -> bool {
    let is_own = |user: PartId| recipe.part(user).is_some_and(|part| part.foreign.is_none());
    recipe.users(id).any(|(user, _)| is_own(user))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::work_out;
    use crate::edge::loader::Loader;
    use crate::figures::card::{Card, of_batch};
    use crate::measure::show::Units;
    use crate::solve::resolve::day::day;
    use std::path::Path;

    fn cards(path: &str) -> Vec<Card> {
        let mut loader = Loader::new();
        let source = loader.load(&Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).expect("the example is there");
        let project = loader.into_project();
        let day = day(&project, source, &mut Vec::new()).expect("it is a day");
        let made = batches(&day, |order| work_out(&project, order.recipe, &order.selection, &mut Vec::new()));
        let made = made.expect("it can be made");
        made.iter().map(|batch| of_batch(batch, Units::Metric).expect("in range")).collect()
    }

    /// Worked by hand: 50 rolls of 100 take half of 50 % of 4 kg, 1000 g; 40 sticks take 50 g each, 2000 g.
    #[test]
    fn what_two_recipes_draw_on_is_made_once() {
        let cards = cards("examples/market-day.miche");
        let titles: Vec<&str> = cards.iter().map(|card| card.title.as_str()).collect();
        assert_eq!(titles, ["Mother dough", "Harbour rolls", "Seed sticks", "Rhubarb crumb buns"]);
        let dough = &cards[0];
        let takes: Vec<String> = dough.made_for.iter().map(|one| format!("{}: {}", one.recipe, one.shown)).collect();
        assert_eq!(takes, ["Harbour rolls: 1000 g", "Seed sticks: 2000 g"]);
        // 2 kg as written, 3 kg made.
        assert_eq!(dough.factor, Number::constant(3, 2));
        let flour = dough.parts[0].lines[0].mass.expect("a weight");
        assert_eq!(flour, Mass::new(Number::whole(1800)));
        assert!(cards[1..].iter().all(|card| card.parts.iter().all(|part| part.name != "Mother dough")));
    }

    #[test]
    fn allergens_of_what_is_made_elsewhere_stay_on_the_card() {
        let cards = cards("examples/market-day.miche");
        let sticks = cards.iter().find(|card| card.title == "Seed sticks").expect("they are made");
        for allergen in ["wheat", "gluten", "sesame"] {
            assert!(sticks.allergens.iter().any(|known| known == allergen), "{allergen} is missing");
        }
    }
}
