//! What there is to make something of: said as a weight, or as what the larder can turn into one.

use crate::language::parse::nearest;
use crate::language::syntax::{Key, Name};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::{Told, Value};
use crate::model::counted::most_pieces;
use crate::model::larder::{Facts, is_called, kind_of};
use crate::model::recipe::{Ingredient, Recipe, Refers};
use crate::solve::resolve::weigh;
use std::sync::Arc;

/// Something there is, and how much of it.
pub type There = (Name, Told);

/// What cannot be turned into a weight: what is wrong, and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoWeight {
    /// In bakers' words.
    pub why: String,
    /// What to do instead.
    pub help: String,
}

impl std::fmt::Display for NoWeight {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(to, "{}; {}", self.why, self.help)
    }
}

/// What each of them weighs as it was bought, by what the recipe knows of it; what stands twice is added up.
///
/// # Errors
/// When the larder cannot say what an amount weighs: which one.
pub fn weighed(recipe: &Recipe, there_is: &[There]) -> Result<Vec<(Name, Mass)>, NoWeight> {
    let mut all: Vec<(Name, Mass)> = Vec::with_capacity(there_is.len());
    for (name, value) in there_is {
        let facts = known(recipe, &name.key);
        let lacks = |lacks| if facts.is_some() { lacks } else { slip(recipe, name).unwrap_or(lacks) };
        let mass = weigh_bought(name, *value, facts.as_deref()).map_err(lacks)?;
        match all.iter_mut().find(|(known, _)| recipe.larder.is_called(&known.key, &name.key)) {
            Some((_, known)) => *known = known.plus(mass).map_err(|_| too_large(name))?,
            None => all.push((name.clone(), mass)),
        }
    }
    Ok(all)
}

/// What so much of something weighs.
///
/// # Errors
/// When the larder cannot say what it weighs, or it is a bare number of what is weighed and not counted, as `no-unit` has it on a line.
pub fn weigh_one(name: &Name, told: Told, facts: Option<&Facts>) -> Result<Mass, NoWeight> {
    let value = told.value;
    if let (true, Value::Count(count)) = (told.is_bare, value)
        && count.value() > most_pieces(&name.key, kind_of(&name.key, facts), facts)
    {
        return Err(no_unit(name, count.value()));
    }
    weigh(value, facts).ok_or_else(|| no_weight(name, value))?.map_err(|_| too_large(name))
}

/// What is bought so that so much of a line goes in: with what is peeled or cut off.
///
/// # Errors
/// When it leaves the range of exact numbers.
pub fn bought(line: &Ingredient, goes_in: Mass) -> Result<Mass, Overflow> {
    goes_in.over(line.edible.filter(|share| share.value().is_positive()).unwrap_or(Proportion::WHOLE).value())
}

/// What so much of something weighs as it was bought, peel and stones with it. What one piece weighs is its edible part by the larder, and it is
/// the same piece whatever a recipe cuts off it; a weight or a volume is that of what stands on the shelf.
///
/// # Errors
/// As [`weigh_one`].
pub fn weigh_bought(name: &Name, told: Told, facts: Option<&Facts>) -> Result<Mass, NoWeight> {
    let mass = weigh_one(name, told, facts)?;
    let edible = facts.and_then(|facts| facts.edible);
    match (told.value, edible.filter(|share| share.value().is_positive())) {
        (Value::Count(_), Some(edible)) => mass.over(edible.value()).map_err(|_| too_large(name)),
        _ => Ok(mass),
    }
}

/// What is known of it: by the recipe's line of that name, also in the recipes that it uses, else by its larder.
fn known(recipe: &Recipe, key: &Key) -> Option<Arc<Facts>> {
    let mut lines = recipe.parts().flat_map(|(_, part)| &part.lines).filter(|line| is_called(&line.name.key, key));
    let line = lines.find_map(|line| match &line.refers {
        Refers::Pantry(Some(facts)) => Some(facts.clone()),
        _ => None,
    });
    line.or_else(|| recipe.larder.find(key))
}

/// A name that the recipe does not have, near to one that it has, is more likely a slip than something that nobody weighed yet.
fn slip(recipe: &Recipe, name: &Name) -> Option<NoWeight> {
    let lines = || recipe.parts().flat_map(|(_, part)| &part.lines);
    if lines().any(|line| is_called(&line.name.key, &name.key)) {
        return None;
    }
    let names = lines().filter(|line| matches!(line.refers, Refers::Pantry(_))).map(|line| line.name.key.as_str());
    let near = nearest(name.key.as_str(), names)?;
    Some(NoWeight { why: format!("the recipe takes no `{name}`"), help: format!("did you mean `{near}`?") })
}

fn too_large(name: &Name) -> NoWeight {
    NoWeight { why: format!("so much {name} leaves the range of exact numbers"), help: "give less".to_owned() }
}

/// What a bare number of something that nobody counts needs.
fn no_unit(name: &Name, number: Number) -> NoWeight {
    let number = number.decimal(3);
    NoWeight {
        why: format!("{name}, {number}: a number without a unit is a number of pieces, and this is weighed"),
        help: format!("{number} what? Write `{name}={number} g`, or `{name}={number} pieces` where pieces are meant"),
    }
}

fn no_weight(name: &Name, value: Value) -> NoWeight {
    let (lacks, line) = match value {
        Value::Count(_) => ("what one weighs is not known", "one weighs 50 g"),
        Value::Volume(_) => ("its density is not known", "weighs 0.92 kg per l"),
        _ => ("that is no amount of an ingredient", "one weighs 50 g"),
    };
    NoWeight {
        why: format!("{name}, {}: {lacks}", show::value_plain(value)),
        help: format!("give a weight, `{name}=2 kg`, or write `{line}` below `ingredient {name}` in a larder file"),
    }
}
