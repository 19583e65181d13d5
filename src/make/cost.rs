//! What a batch costs: each ingredient at its price, by what is bought of it.

mod by_sort;

use crate::language::syntax::Key;
use crate::make::have::bought;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::show;
use crate::model::larder::{Facts, Larder};
use crate::model::recipe::{Ingredient, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use crate::text::quick::{QuickMap, QuickSet};
pub use by_sort::SortCost;
use jiff::civil::Date;
use std::collections::HashMap;

/// An ingredient's cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineCost {
    /// What.
    pub name: String,
    /// Its larder entry, by which names that mean the same are put together; else its name.
    pub entry: Key,
    /// How much is bought: what goes in over its edible share. `None` when it has no weight.
    pub bought: Option<Mass>,
    /// Its cost; `None` without a price or a weight.
    pub cost: Option<Number>,
    /// What the larder says it costs, for each gram.
    pub per_gram: Option<Number>,
    /// Of which day that price is, if the larder says.
    pub priced_on: Option<Date>,
}

/// From when on a price is old.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ageing {
    /// The day that counts as today.
    pub on: Date,
    /// How many days a price stays good.
    pub good_for_days: i64,
}

impl Ageing {
    /// How many days old a price is, when that is more than it stays good.
    fn age(self, priced_on: Date) -> Option<i64> {
        let days = priced_on.duration_until(self.on).as_hours() / 24;
        (days > self.good_for_days).then_some(days)
    }
}

/// A price that is old.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OldPrice {
    /// Of what.
    pub name: String,
    /// Of which day.
    pub priced_on: Date,
    /// How many days ago that was.
    pub days: i64,
}

/// A part's cost, without the parts in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartCost {
    /// Its name.
    pub name: String,
    /// Of a preferment, the part in whose cost its ingredients are, but for what is made of it besides: this is the cost of that alone.
    pub beyond: Option<String>,
    /// The sum of its own ingredients.
    pub cost: Number,
    /// Whether an ingredient of it has no price or no weight, so that it costs more.
    pub is_least: bool,
    /// Whether one of them costs something.
    pub is_priced: bool,
    /// Whether it has ingredients of its own, and is not only put together of other parts.
    pub has_own: bool,
}

/// The cost of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cost {
    /// The recipe's name.
    pub recipe: String,
    /// The name of the money, if the larder says one.
    pub currency: Option<String>,
    /// The parts that are made.
    pub parts: Vec<PartCost>,
    /// The ingredients, over all parts, dearest first.
    pub lines: Vec<LineCost>,
    /// The sum of what has a price.
    pub total: Number,
    /// How many pieces; `None` where there are several sorts of them.
    pub pieces: Option<Count>,
    /// What a piece of each sort costs, where there are several.
    pub sorts: Vec<SortCost>,
    /// Ingredients without a price or a weight: the total is then a lower bound.
    pub missing: Vec<String>,
    /// The parts that went into it and are not in the cost: made for several in a batch of their own, or taken from the store. What a
    /// piece costs is a lower bound, then.
    pub elsewhere: Vec<String>,
    /// Minutes in which somebody works, people counted one by one.
    pub hands_minutes: i64,
}

impl Cost {
    /// Whether something costs something, and nothing that is weighed lacks a price.
    pub fn is_known(&self) -> bool {
        let lacks_price = |line: &LineCost| line.cost.is_none() && line.bought.is_some();
        self.total.is_positive() && !self.lines.iter().any(lacks_price)
    }

    /// Whether it costs more than the sums say.
    pub fn is_least(&self) -> bool {
        !self.missing.is_empty() || !self.elsewhere.is_empty()
    }

    /// Notes a part that went into it and is not in the cost.
    pub fn note_elsewhere(&mut self, part: &str, mass: Option<Mass>) {
        if !self.elsewhere.iter().any(|known| Key::new(known) == Key::new(part)) {
            self.elsewhere.push(match mass {
                Some(mass) => format!("{} of {part}", show::mass_plain(mass)),
                None => part.to_owned(),
            });
        }
    }

    /// The cost of one piece.
    pub fn each(&self) -> Result<Option<Number>, Overflow> {
        let pieces = self.pieces.filter(|pieces| pieces.value().is_positive());
        pieces.map(|pieces| self.total.over(pieces.value())).transpose()
    }

    /// The prices that are old, the oldest first. A price without a date has no age.
    pub fn old_prices(&self, ageing: Ageing) -> Vec<OldPrice> {
        let old = |line: &LineCost| {
            let priced_on = line.priced_on?;
            let days = ageing.age(priced_on)?;
            Some(OldPrice { name: line.name.clone(), priced_on, days })
        };
        let mut all: Vec<OldPrice> = self.lines.iter().filter_map(old).collect();
        all.sort_by_key(|price| price.priced_on);
        all
    }

    /// Which share of the total a line is; `None` when nothing has a price.
    pub fn share(&self, line: &LineCost) -> Option<Proportion> {
        line.cost?.over(self.total).ok().map(Proportion::new)
    }
}

/// What several batches cost together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TotalCost {
    /// The name of the money, if the larders say one.
    pub currency: Option<String>,
    /// The sum of what has a price.
    pub total: Number,
    /// Whether something has no price or no weight, so that the sum is the least that it costs.
    pub is_least: bool,
    /// Minutes in which somebody works, people counted one by one.
    pub hands_minutes: i64,
}

/// What batches cost together; `None` for a single one, and where they are priced in different moneys, which do not add up.
pub fn together(costs: &[Cost]) -> Option<TotalCost> {
    let mut sum = TotalCost { currency: None, total: Number::ZERO, is_least: false, hands_minutes: 0 };
    for cost in costs.get(1..).filter(|others| !others.is_empty()).and(Some(costs))? {
        match (&sum.currency, &cost.currency) {
            (Some(known), Some(said)) if !known.eq_ignore_ascii_case(said) => return None,
            (None, Some(said)) => sum.currency = Some(said.clone()),
            _ => {}
        }
        sum.total = sum.total.plus(cost.total).ok()?;
        sum.is_least |= !cost.missing.is_empty();
        sum.hands_minutes += cost.hands_minutes;
    }
    Some(sum)
}

/// Why a cost cannot be worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoCost(pub String);

impl From<Overflow> for NoCost {
    fn from(_: Overflow) -> NoCost {
        NoCost("a batch of that size leaves the range of exact numbers".to_owned())
    }
}

/// Works out what a batch costs that takes so many minutes of work; `formula` is the batch's, and `day` the larder of the day in which it
/// is made, which has the prices of what the recipe's own larders give none. Water without a price costs nothing.
///
/// # Errors
/// When prices are in different moneys.
pub fn of(recipe: &Recipe, formula: &Formula, hands_minutes: i64, day: Option<&Larder>) -> Result<Cost, NoCost> {
    let mut cost = Cost {
        recipe: recipe.name.to_string(),
        currency: None,
        parts: Vec::new(),
        lines: Vec::new(),
        total: Number::ZERO,
        // Of several sizes no piece costs what another does, and a dough that is made for others, or some of it, is in no pieces yet.
        pieces: formula
            .pieces
            .filter(|_| formula.hands_over(recipe) && recipe.own_parts().all(|(_, part)| part.sorts.is_empty()))
            .filter(|_| formula.parts.iter().all(|part| part.early.is_empty())),
        sorts: Vec::new(),
        missing: Vec::new(),
        elsewhere: made_elsewhere(recipe, formula),
        hands_minutes,
    };
    let mut made: Vec<PartId> = Vec::new();
    let mut known = Known::default();
    // A preferment's ingredients are those of its total formula, but for what is left over of it.
    for (id, part) in recipe.parts() {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        let Some(amounts) = solved.bought(part)? else { continue };
        let (mut own, mut is_least, mut is_priced, mut has_own) = (Number::ZERO, false, false, false);
        let left_out = solved.lines.iter().map(|line| line.left_out || line.filled_before);
        for ((line, amount), _) in part.lines.iter().zip(amounts).zip(left_out).filter(|(_, left_out)| !left_out) {
            let Refers::Pantry(facts) = &line.refers else { continue };
            // What comes from the store was paid for when it came there.
            if line.from_store {
                continue;
            }
            let has_price = facts.as_ref().is_some_and(|facts| facts.price.is_some());
            let of_day = day.filter(|_| !has_price).and_then(|larder| larder.find(&line.name.key));
            let priced = of_day.filter(|facts| facts.price.is_some()).or_else(|| facts.clone());
            let line = line_cost(line, priced.as_deref(), amount, &mut cost.currency)?;
            has_own = true;
            own = own.plus(line.cost.unwrap_or(Number::ZERO))?;
            is_least |= line.cost.is_none();
            is_priced |= line.cost.is_some_and(|cost| cost.is_positive());
            add(&mut cost, &mut known, line)?;
        }
        cost.total = cost.total.plus(own)?;
        let beyond = part.from.and_then(|from| recipe.part(from)).map(|from| from.name.to_string());
        cost.parts.push(PartCost { name: part.name.to_string(), beyond, cost: own, is_least, is_priced, has_own });
        made.push(id);
    }
    let own: HashMap<PartId, &PartCost> = made.into_iter().zip(&cost.parts).collect();
    // Shares whose digits are too many to be exact are left out; the whole is right without them.
    cost.sorts = by_sort::of(recipe, formula, &own).unwrap_or_default();
    cost.lines.sort_by_key(|line| std::cmp::Reverse(line.cost));
    Ok(cost)
}

/// The parts that those made here draw on and that are not made here, and ingredients that come from the store. A preferment's ingredients
/// stand in the dough it is from.
fn made_elsewhere(recipe: &Recipe, formula: &Formula) -> Vec<String> {
    let is_made = |id: PartId| formula.is_made(id);
    let mut names: Vec<String> = Vec::new();
    for (id, part) in recipe.parts().filter(|(id, _)| is_made(*id)) {
        let amounts = formula.part(id).map_or(&[][..], |solved| &solved.lines);
        for (line, _) in part.lines.iter().zip(amounts).filter(|(_, amount)| !amount.left_out) {
            let name = match &line.refers {
                Refers::Part(other) => {
                    let drawn = recipe.part(*other).filter(|drawn| drawn.from != Some(id) && !is_made(*other));
                    drawn.map(|drawn| drawn.name.to_string())
                }
                Refers::Pantry(_) => line.from_store.then(|| line.name.to_string()),
            };
            let Some(name) = name else { continue };
            if !names.contains(&name) {
                names.push(name);
            }
        }
    }
    names
}

/// What so much of an ingredient costs, in the money of all lines before it.
fn line_cost(
    line: &Ingredient,
    facts: Option<&Facts>,
    amount: Option<Mass>,
    currency: &mut Option<String>,
) -> Result<LineCost, NoCost> {
    let bought = amount.map(|mass| bought(line, mass)).transpose()?;
    let price = facts.and_then(|facts| facts.price.as_ref());
    if let Some(said) = price.and_then(|price| price.currency.as_ref()) {
        if let Some(known) = currency.as_ref().filter(|known| !known.eq_ignore_ascii_case(said)) {
            return Err(NoCost(format!(
                "{} is priced in {said} and what stands before it in {known}; give all prices in one money",
                line.name
            )));
        }
        *currency = Some(said.clone());
    }
    let per_gram = facts.and_then(Facts::price_of_a_gram);
    let cost = match (paid_for_a_gram(facts), bought) {
        (Some(per_gram), Some(bought)) => Some(bought.value().times(per_gram)?),
        _ => None,
    };
    let name = line.name.text.split(" for ").next().unwrap_or_default().trim().to_owned();
    Ok(LineCost { name, entry: line.entry(), bought, cost, per_gram, priced_on: price.and_then(|price| price.on) })
}

/// What a gram as it is bought costs; water without a price costs nothing.
pub(crate) fn paid_for_a_gram(facts: Option<&Facts>) -> Option<Number> {
    let is_water = facts.is_some_and(|facts| facts.contents.water == Some(Proportion::WHOLE));
    facts.and_then(Facts::price_of_a_gram).or(is_water.then_some(Number::ZERO))
}

/// What is in a cost by its name: there may be thousands of lines.
#[derive(Default)]
struct Known {
    /// The places of its lines by their entries.
    lines: QuickMap<Key, usize>,
    missing: QuickSet<Key>,
}

fn add(cost: &mut Cost, known: &mut Known, line: LineCost) -> Result<(), Overflow> {
    if line.cost.is_none() && known.missing.insert(Key::new(&line.name)) {
        cost.missing.push(line.name.clone());
    }
    let Some(known) = known.lines.get(&line.entry).and_then(|at| cost.lines.get_mut(*at)) else {
        known.lines.insert(line.entry.clone(), cost.lines.len());
        cost.lines.push(line);
        return Ok(());
    };
    if Key::new(&line.name) == line.entry {
        known.name = line.name;
    }
    known.bought = match (known.bought, line.bought) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    };
    known.cost = match (known.cost, line.cost) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    };
    Ok(())
}
