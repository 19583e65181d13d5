//! What a batch costs: each ingredient at its price, by what is bought of it.

use crate::formula::Formula;
use crate::number::{Number, Overflow};
use crate::quantity::{Count, Mass, Proportion};
use crate::recipe::{Recipe, Refers};
use crate::syntax::Key;

/// An ingredient's cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineCost {
    /// What.
    pub name: String,
    /// How much is bought: what goes in over its edible share. `None` when it has no weight.
    pub bought: Option<Mass>,
    /// Its cost; `None` without a price or a weight.
    pub cost: Option<Number>,
}

/// A part's cost, without the parts in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartCost {
    /// Its name.
    pub name: String,
    /// The sum of its own ingredients.
    pub cost: Number,
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
    /// How many pieces.
    pub pieces: Option<Count>,
    /// Ingredients without a price or a weight: the total is then a lower bound.
    pub missing: Vec<String>,
    /// Minutes in which somebody works.
    pub hands_minutes: i64,
}

impl Cost {
    /// The cost of one piece.
    pub fn each(&self) -> Result<Option<Number>, Overflow> {
        let pieces = self.pieces.filter(|pieces| pieces.value().is_positive());
        pieces.map(|pieces| self.total.over(pieces.value())).transpose()
    }

    /// Which share of the total a line is; `None` when nothing has a price.
    pub fn share(&self, line: &LineCost) -> Option<Proportion> {
        line.cost?.over(self.total).ok().map(Proportion::new)
    }
}

/// Why a cost cannot be worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoCost(pub String);

impl From<Overflow> for NoCost {
    fn from(_: Overflow) -> NoCost {
        NoCost("a batch of that size leaves the range of exact numbers".to_owned())
    }
}

/// Works out what a batch costs; `formula` is the batch's. Water without a price costs nothing.
///
/// # Errors
/// When prices are in different moneys.
pub fn of(recipe: &Recipe, formula: &Formula) -> Result<Cost, NoCost> {
    let mut cost = Cost {
        recipe: recipe.name.to_string(),
        currency: None,
        parts: Vec::new(),
        lines: Vec::new(),
        total: Number::ZERO,
        pieces: formula.pieces,
        missing: Vec::new(),
        hands_minutes: crate::timeline::of(recipe, formula)?.hands_minutes,
    };
    // A preferment's ingredients are those of its total formula.
    for (id, part) in recipe.parts().filter(|(_, part)| part.from.is_none()) {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        let mut own = Number::ZERO;
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let Refers::Pantry(facts) = &line.refers else { continue };
            let edible = line.edible.filter(|share| share.value().is_positive()).unwrap_or(Proportion::WHOLE);
            let bought = amount.mass.map(|mass| mass.over(edible.value())).transpose()?;
            let price = facts.as_ref().and_then(|facts| facts.price.as_ref());
            if let Some(said) = price.and_then(|price| price.currency.as_ref()) {
                match &cost.currency {
                    Some(known) if !known.eq_ignore_ascii_case(said) => {
                        return Err(NoCost(format!(
                            "{} is priced in {said} and what stands before it in {known}; give all prices in one money",
                            line.name
                        )));
                    }
                    _ => cost.currency = Some(said.clone()),
                }
            }
            let is_water = facts.as_ref().is_some_and(|facts| facts.water == Some(Proportion::WHOLE));
            let per_gram = price.map(|price| price.per_gram).or(is_water.then_some(Number::ZERO));
            let one = match (per_gram, bought) {
                (Some(per_gram), Some(bought)) => Some(bought.value().times(per_gram)?),
                _ => None,
            };
            own = own.plus(one.unwrap_or(Number::ZERO))?;
            add(&mut cost, &line.name.text, bought, one)?;
        }
        cost.total = cost.total.plus(own)?;
        cost.parts.push(PartCost { name: part.name.to_string(), cost: own });
    }
    cost.lines.sort_by_key(|line| std::cmp::Reverse(line.cost));
    Ok(cost)
}

fn add(cost: &mut Cost, name: &str, bought: Option<Mass>, one: Option<Number>) -> Result<(), Overflow> {
    let key = Key::new(name);
    if one.is_none() && !cost.missing.iter().any(|known| Key::new(known) == key) {
        cost.missing.push(name.to_owned());
    }
    let Some(known) = cost.lines.iter_mut().find(|line| Key::new(&line.name) == key) else {
        cost.lines.push(LineCost { name: name.to_owned(), bought, cost: one });
        return Ok(());
    };
    known.bought = match (known.bought, bought) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    };
    known.cost = match (known.cost, one) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    };
    Ok(())
}
