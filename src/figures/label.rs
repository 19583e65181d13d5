//! The label of a batch: ingredient list, allergens, quantities, net weight and nutrition, by the law of the place.
//!
//! Calculated from the formula and the larder, not analysed. Rules, from memory of the texts: Regulation (EU) 1169/2011,
//! Articles 18, 21 and 22 with Annexes VII and VIII; 21 CFR 101.4 and FALCPA 2004 with the FASTER Act 2021.

pub mod nutrition;
pub mod rounding;

use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::model::allergen::Law;
use crate::model::larder::Facts;
use crate::model::recipe::{PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use nutrition::Nutrition;
use std::sync::Arc;

/// One entry of the ingredient list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// Its name, as the formula gives it.
    pub name: String,
    /// Its weight in what is made, as used at mixing; `None` when it is put in to taste or its weight is not known.
    pub mass: Option<Mass>,
    /// What the larder knows.
    pub facts: Option<Arc<Facts>>,
    /// Dusting or greasing: listed, but not counted in the nutrition.
    pub aside: bool,
    /// Strained out again: listed for what it leaves behind, allergens first of all, and without a weight.
    pub strained_out: bool,
    /// What a compound ingredient consists of.
    pub inner: Vec<Item>,
}

impl Item {
    /// Its larder entry, by whatever name it was written; else its name.
    fn entry(&self) -> Key {
        Key::new(self.facts.as_ref().map_or(&self.name, |facts| &facts.name))
    }

    /// The item as something that is strained out again: nothing of its weight is sold.
    fn strained(self) -> Item {
        let inner = self.inner.into_iter().map(Item::strained).collect();
        Item { mass: None, strained_out: true, inner, ..self }
    }

    fn is_water(&self) -> bool {
        self.facts.as_ref().is_some_and(|facts| facts.contents.water == Some(Proportion::WHOLE))
    }

    /// The allergens of this one ingredient that the law lists, as the larder names them; the grain stands for its gluten.
    pub fn allergens(&self, law: Law) -> Vec<&str> {
        let all = self.facts.as_ref().map_or(&[][..], |facts| &facts.allergens);
        let listed: Vec<&str> = all.iter().map(String::as_str).filter(|name| !law.words([*name]).is_empty()).collect();
        let grain = listed.iter().any(|name| *name != "gluten" && Law::Eu.is(name, "cereals containing gluten"));
        listed.into_iter().filter(|name| *name != "gluten" || !grain).collect()
    }
}

/// The share of a named ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quantity {
    /// What.
    pub name: String,
    /// Its weight as used, on the weight of what is sold. Over 100 % where water has left.
    pub share: Proportion,
}

/// The label of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The recipe's name.
    pub name: String,
    /// By whose law.
    pub law: Law,
    /// In descending order of weight; what has no weight stands last.
    pub ingredients: Vec<Item>,
    /// The allergens in the law's words, in its order.
    pub contains: Vec<String>,
    /// Ingredients whose allergens the larder does not know.
    pub unknown: Vec<String>,
    /// Shares of the ingredients that the name of the food names, or that were asked for.
    pub quantities: Vec<Quantity>,
    /// What the batch weighs as sold.
    pub net: Mass,
    /// What was lost in baking; `None` when nobody says, and `net` is then the weight before the oven.
    pub bake_loss: Option<Proportion>,
    /// Whether what is made is two fifths flour and more.
    pub is_dough: bool,
    /// How many pieces.
    pub pieces: Option<Count>,
    /// The weight of one.
    pub each: Option<Mass>,
    /// Energy and nutrients of the batch.
    pub nutrition: Nutrition,
}

impl Label {
    /// What the ingredients of these names weigh together.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn weight_of(&self, names: &[String]) -> Result<Mass, Overflow> {
        let named = leaves(&self.ingredients).into_iter().filter(|item| names.contains(&item.name));
        Mass::sum(named.filter_map(|item| item.mass))
    }
}

/// What is asked of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// By whose law.
    pub law: Law,
    /// What the oven takes of the weight; without it the recipe's own figure counts.
    pub bake_loss: Option<Proportion>,
    /// Ingredients whose quantity is to be said besides those in the name.
    pub quantities: Vec<String>,
}

/// Why a label cannot be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoLabel(pub String);

impl From<Overflow> for NoLabel {
    fn from(_: Overflow) -> NoLabel {
        NoLabel("a batch of that size leaves the range of exact numbers".to_owned())
    }
}

/// Makes the label of a batch; `formula` is the batch's.
///
/// # Errors
/// When what the batch makes has no known weight, or a quantity is asked of something that is not in it.
pub fn of(recipe: &Recipe, formula: &Formula, wanted: &Wanted) -> Result<Label, NoLabel> {
    let unweighed = || NoLabel(format!("what {} makes has no known weight, so it has no label", recipe.name));
    let id = recipe.final_part().ok_or_else(unweighed)?;
    let solved = formula.part(id).ok_or_else(unweighed)?;
    let made = solved.makes.or(solved.stays);
    one((recipe, formula), wanted, Sold { id, name: recipe.name.to_string(), made, pieces: formula.pieces })
}

/// The labels of a batch: one, or one for each sort of its pieces.
///
/// # Errors
/// As [`of`].
pub fn all(recipe: &Recipe, formula: &Formula, wanted: &Wanted) -> Result<Vec<Label>, NoLabel> {
    let mut sold: Vec<Sold> = Vec::new();
    for (id, part) in recipe.own_parts().filter(|(id, _)| recipe.users(*id).next().is_none()) {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        if let Some(sort) = &part.sort {
            let name = format!("{}, {sort}", recipe.name);
            sold.push(Sold { id, name, made: solved.makes.or(solved.stays), pieces: solved.pieces });
        }
        for (sort, count) in part.sorts.iter().zip(&solved.sorts).filter(|(_, count)| count.value().is_positive()) {
            let made = Some(sort.each.times(count.value())?);
            sold.push(Sold { id, name: format!("{}, {}", recipe.name, sort.name), made, pieces: Some(*count) });
        }
    }
    if sold.is_empty() {
        return of(recipe, formula, wanted).map(|label| vec![label]);
    }
    sold.into_iter().map(|sold| one((recipe, formula), wanted, sold)).collect()
}

/// What is sold under one label.
struct Sold {
    id: PartId,
    name: String,
    made: Option<Mass>,
    pieces: Option<Count>,
}

fn one((recipe, formula): (&Recipe, &Formula), wanted: &Wanted, sold: Sold) -> Result<Label, NoLabel> {
    let unweighed = || NoLabel(format!("what {} makes has no known weight, so it has no label", recipe.name));
    let Sold { id, name, made, pieces } = sold;
    let made = made.filter(|mass| *mass > Mass::ZERO).ok_or_else(unweighed)?;
    let bake_loss = wanted.bake_loss.or(recipe.bake_loss);
    let net = made.share(bake_loss.unwrap_or(Proportion::ZERO).rest()?)?;
    if net <= Mass::ZERO {
        return Err(NoLabel("a bake loss of 100 % leaves nothing to label".to_owned()));
    }
    let list = items(recipe, formula, id, made, 0)?;
    let unknown = of_unknown_allergens(&list);
    let quantities = quantities(recipe, &list, net, &wanted.quantities)?;
    let nutrition = Nutrition::of(&list)?;
    let contains = contains(&list, wanted.law);
    let ingredients = in_order(with_water(list, net, wanted.law)?);
    let pieces = pieces.filter(|pieces| pieces.value().is_positive());
    let each = pieces.map(|pieces| net.over(pieces.value())).transpose()?;
    let law = wanted.law;
    let is_dough = is_dough(formula, id)?;
    Ok(Label {
        name,
        law,
        ingredients,
        contains,
        unknown,
        quantities,
        net,
        bake_loss,
        is_dough,
        pieces,
        each,
        nutrition,
    })
}

/// What is in `mass` of a part, same names put together.
///
/// What a dough loses when it is divided is dough; what a part that says `makes` loses has left as water, unless it says
/// `of everything`.
fn items(recipe: &Recipe, formula: &Formula, id: PartId, mass: Mass, depth: usize) -> Result<Vec<Item>, Overflow> {
    let mut list: Vec<Item> = Vec::new();
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(list) };
    // A ring of parts was reported; it must not hang here.
    if depth > recipe.parts.len() {
        return Ok(list);
    }
    let is_alike = part.divide.is_some() || part.makes.is_some_and(|made| made.alike);
    let whole = if is_alike { solved.stays.or(solved.makes) } else { solved.makes.or(solved.stays) };
    let factor = match whole.filter(|whole| *whole > Mass::ZERO) {
        Some(whole) => mass.ratio(whole)?,
        None => Number::ONE,
    };
    for (line, amount) in part.lines.iter().zip(&solved.lines) {
        let mass = amount.mass.map(|mass| mass.times(factor)).transpose()?;
        match &line.refers {
            // A preferment's lines already stand in the total formula.
            Refers::Part(other) if recipe.part(*other).is_some_and(|other| other.from == Some(id)) => {}
            Refers::Part(other) => {
                let mut inner = items(recipe, formula, *other, mass.unwrap_or(Mass::ZERO), depth + 1)?;
                inner.iter_mut().for_each(|item| item.aside |= line.aside);
                if line.strained_out {
                    inner = inner.into_iter().map(Item::strained).collect();
                }
                let mass = mass.filter(|_| !line.strained_out);
                if is_dough(formula, *other)? {
                    for item in inner {
                        put(&mut list, item)?;
                    }
                } else {
                    let inner = in_order(inner);
                    let name = line.name.to_string();
                    let (aside, strained_out) = (line.aside, line.strained_out);
                    put(&mut list, Item { name, mass, facts: None, aside, strained_out, inner })?;
                }
            }
            Refers::Pantry(facts) => {
                let name = line.name.text.split(" for ").next().unwrap_or_default().trim().to_owned();
                let (aside, strained_out) = (line.aside, false);
                let item = Item { name, mass, facts: facts.clone(), aside, strained_out, inner: Vec::new() };
                match line.strained_out {
                    // Water that is poured off is in nothing.
                    true if item.is_water() => {}
                    true => put(&mut list, item.strained())?,
                    false => put(&mut list, item)?,
                }
            }
        }
    }
    Ok(list)
}

/// Whether a part is a dough, a batter or a leaven: its name is none that a buyer knows an ingredient by.
///
/// A compound ingredient may stand under its own name where law or custom knows it (Annex VII, Part E); listing what is in
/// it one by one is always allowed. So what is two fifths flour is opened.
fn is_dough(formula: &Formula, id: PartId) -> Result<bool, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(false) };
    let flour = solved.composition.flour.times(Number::whole(5))?;
    Ok(flour > Mass::ZERO && flour >= solved.composition.total.times(Number::whole(2))?)
}

/// Puts an item to those that are the same by the larder, or else by name. Of several names the larder's own is kept.
fn put(list: &mut Vec<Item>, item: Item) -> Result<(), Overflow> {
    let key = item.entry();
    let same = |known: &&mut Item| {
        let alike = (known.inner.is_empty(), known.aside, known.strained_out)
            == (item.inner.is_empty(), item.aside, item.strained_out);
        known.entry() == key && alike
    };
    let Some(known) = list.iter_mut().find(same) else {
        list.push(item);
        return Ok(());
    };
    if Key::new(&item.name) == key {
        known.name = item.name;
    }
    known.mass = match (known.mass, item.mass) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    };
    for inner in item.inner {
        put(&mut known.inner, inner)?;
    }
    Ok(())
}

/// Heaviest first; of equals the one that the formula names first.
fn in_order(mut list: Vec<Item>) -> Vec<Item> {
    list.sort_by_key(|item| std::cmp::Reverse(item.mass));
    list
}

/// In the European Union added water counts as what is left of it in what is sold, and up to 5 % need not be listed
/// (Annex VII, Part A, 1). In the United States it stands as it was put in.
fn with_water(mut list: Vec<Item>, net: Mass, law: Law) -> Result<Vec<Item>, Overflow> {
    if law == Law::Us {
        return Ok(list);
    }
    let others = Mass::sum(list.iter().filter(|item| !item.is_water()).filter_map(|item| item.mass))?;
    let left = net.minus(others)?;
    let free = net.share(Proportion::new(Number::constant(1, 20)))?;
    let Some(at) = list.iter().position(Item::is_water) else { return Ok(list) };
    if left <= free {
        list.retain(|item| !item.is_water());
    } else if let Some(water) = list.get_mut(at) {
        water.mass = Some(left);
        let mut seen = false;
        list.retain(|item| !item.is_water() || !std::mem::replace(&mut seen, true));
    }
    Ok(list)
}

fn leaves(list: &[Item]) -> Vec<&Item> {
    list.iter().flat_map(|item| if item.inner.is_empty() { vec![item] } else { leaves(&item.inner) }).collect()
}

fn of_unknown_allergens(list: &[Item]) -> Vec<String> {
    let mut names: Vec<String> = leaves(list)
        .into_iter()
        .filter(|item| !item.facts.as_ref().is_some_and(|facts| facts.knows_allergens))
        .map(|item| item.name.clone())
        .collect();
    names.sort();
    names.dedup();
    names
}

/// The law's words; in the United States with the names of the nuts, fish and shellfish, which 21 USC 343(w) asks for.
fn contains(list: &[Item], law: Law) -> Vec<String> {
    let leaves = leaves(list);
    let all = leaves.iter().flat_map(|item| item.allergens(law));
    let named = |word: &str| -> Vec<String> {
        let with = leaves.iter().filter(|item| item.allergens(law).iter().any(|name| law.is(name, word)));
        with.map(|item| item.name.clone()).collect()
    };
    let words = law.words(all);
    let of_kinds = ["tree nuts", "fish", "crustacean shellfish", "nuts"];
    let shown = words.into_iter().map(|word| {
        if of_kinds.contains(&word) { format!("{word} ({})", named(word).join(", ")) } else { word.to_owned() }
    });
    shown.collect()
}

/// Shares of what the name of the food names (Article 22) and of what was asked for.
fn quantities(recipe: &Recipe, list: &[Item], net: Mass, asked: &[String]) -> Result<Vec<Quantity>, NoLabel> {
    let mut weights: Vec<(String, Mass)> = Vec::new();
    let compounds = list.iter().filter(|item| !item.inner.is_empty());
    for item in compounds.chain(leaves(list)) {
        let Some(mass) = item.mass.filter(|mass| *mass > Mass::ZERO) else { continue };
        match weights.iter_mut().find(|(name, _)| Key::new(name) == Key::new(&item.name)) {
            Some((_, known)) => *known = known.plus(mass)?,
            None => weights.push((item.name.clone(), mass)),
        }
    }
    for name in asked {
        if !weights.iter().any(|(known, _)| Key::new(known) == Key::new(name)) {
            let known = weights.iter().map(|(name, _)| name.as_str());
            let near = crate::language::parse::nearest(name, known);
            let near = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            return Err(NoLabel(format!("--quantity {name}: nothing of that name is weighed into it{near}")));
        }
    }
    let title: Vec<String> = recipe.name.text.split_whitespace().map(stem).collect();
    let mut quantities = Vec::new();
    for (name, mass) in weights {
        let is_named = name.split_whitespace().all(|word| title.contains(&stem(word)));
        if is_named || asked.iter().any(|one| Key::new(one) == Key::new(&name)) {
            quantities.push(Quantity { share: mass.as_share_of(net)?, name });
        }
    }
    Ok(quantities)
}

/// `plums` and `Plum` are the same word.
fn stem(word: &str) -> String {
    let word = word.to_lowercase();
    word.strip_suffix('s').map_or_else(|| word.clone(), str::to_owned)
}
