//! What is in something that is sold: its ingredients by weight, compound ones with theirs.

use super::runs_off::{is_rinsed_off, loses_whey};
use super::went_in::as_it_goes_in;
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::allergen::Law;
use crate::model::cooking::{is_fried_in, loses_water};
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::medium;
use crate::model::nutrient::{Nutrient, held};
use crate::model::recipe::{Ingredient, PartId, Recipe, Refers};
use crate::model::species::{self, Said};
use crate::solve::formula::Formula;
use std::collections::HashMap;
use std::sync::Arc;
use together::Together;

mod together;

/// The classes by which the European Union wants an additive listed, before its own name (Regulation (EU) 1169/2011, Annex VII, Part C).
/// The United States want its common or usual name (21 CFR 101.4(a)(1)).
const CLASSES: &[&str] = &[
    "acid",
    "acidity regulator",
    "anti-caking agent",
    "antioxidant",
    "colour",
    "emulsifier",
    "firming agent",
    "flavour enhancer",
    "flour treatment agent",
    "gelling agent",
    "glazing agent",
    "humectant",
    "preservative",
    "raising agent",
    "stabiliser",
    "sweetener",
    "thickener",
];

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
    /// The lines of it that are set aside, to grease with or to dust, as they are written.
    pub aside_as: Vec<String>,
    /// Fat that something is fried in: some of it stays, and nobody says how much.
    pub fried_in: bool,
    /// Whether it was in a pot that is poured off whole, a part strained out: nothing is made of it, as a cordial is of rhubarb.
    pub of_bath: bool,
    /// What went in and was strained out again: nobody knows how much of its fat, protein and salt stays behind.
    pub went_in: Option<Mass>,
    /// What a compound ingredient consists of.
    pub inner: Vec<Item>,
}

impl Item {
    /// What stands in a line, so much of it: `butter for the tins` is butter.
    pub(super) fn of_line(line: &Ingredient, mass: Option<Mass>, facts: Option<Arc<Facts>>) -> Item {
        let name = line.name.text.split(" for ").next().unwrap_or_default().trim().to_owned();
        Item {
            name,
            mass,
            facts,
            aside: line.aside,
            strained_out: false,
            aside_as: if line.aside { vec![line.name.to_string()] } else { Vec::new() },
            went_in: None,
            fried_in: false,
            of_bath: false,
            inner: Vec::new(),
        }
    }

    /// Its larder entry, by whatever name it was written; else its name.
    pub(super) fn entry(&self) -> Key {
        Key::new(self.facts.as_ref().map_or(&self.name, |facts| &facts.name))
    }

    /// The item as something that is strained out again: nothing of its weight is sold.
    fn strained(self) -> Item {
        let inner = self.inner.into_iter().map(Item::strained).collect();
        Item { mass: None, went_in: self.mass.or(self.went_in), strained_out: true, inner, ..self }
    }

    /// So many times as much of it, and of what is in it.
    fn shrink(&mut self, left: Number) -> Result<(), Overflow> {
        self.mass = self.mass.map(|mass| mass.times(left)).transpose()?;
        self.went_in = self.went_in.map(|mass| mass.times(left)).transpose()?;
        self.inner.iter_mut().try_for_each(|item| item.shrink(left))
    }

    /// What it is: as the larder says, else by its name.
    pub fn kind(&self) -> Kind {
        let by_name = || Kind::of_name(&self.name.to_lowercase());
        self.facts.as_ref().and_then(|facts| facts.kind).unwrap_or_else(by_name)
    }

    /// Whether it is water.
    pub fn is_water(&self) -> bool {
        self.facts.as_ref().is_some_and(|facts| facts.contents.water == Some(Proportion::WHOLE))
    }

    /// The allergens of this one ingredient that the law lists, as the larder names them; the grain stands for its gluten.
    pub fn allergens(&self, law: Law) -> Vec<&str> {
        let all = self.facts.as_ref().map_or(&[][..], |facts| &facts.allergens);
        let listed: Vec<&str> = all.iter().map(String::as_str).filter(|name| !law.words([*name]).is_empty()).collect();
        let grain = listed.iter().any(|name| *name != "gluten" && Law::Eu.is(name, "cereals containing gluten"));
        listed.into_iter().filter(|name| *name != "gluten" || !grain).collect()
    }

    /// The same in the words in which the law wants them said.
    pub fn said(&self, law: Law) -> Vec<Said> {
        species::said(law, self.facts.as_ref().map_or(&[][..], |facts| &facts.allergens).iter().map(String::as_str))
    }

    /// How it stands in a list of ingredients: as its larder entry says it is listed, in the United States an additive by its name alone;
    /// water and egg by their plain names, for `warm water` and `large eggs` are no ingredients of their own; else as the formula names it.
    pub fn listed(&self, law: Law) -> &str {
        let Some(facts) = &self.facts else { return &self.name };
        match facts.kind {
            _ if law == Law::Us && self.class().is_some() => &self.name,
            _ if facts.listed.is_some() => facts.listed.as_deref().unwrap_or(&self.name),
            Some(Kind::Ice) if self.is_water() => "water",
            Some(Kind::Water | Kind::Egg) => &facts.name,
            _ => &self.name,
        }
    }

    /// The class of an additive: `sweetener` of `sweetener (polyols)`.
    pub fn class(&self) -> Option<&'static str> {
        let (class, _) = self.facts.as_ref()?.listed.as_deref()?.split_once(" (")?;
        CLASSES.iter().find(|known| known.eq_ignore_ascii_case(class)).copied()
    }
}

/// What has no name of its own beside its one ingredient: a block of butter is butter, peas in their water are peas and water.
fn is_one_ingredient(inner: &[Item]) -> bool {
    inner.iter().filter(|item| !item.is_water()).count() <= 1
}

/// A list of one compound ingredient is the list of that: of ice cream that is its mix, frozen, nobody wants to read `mix`.
pub(super) fn opened(mut list: Vec<Item>) -> Vec<Item> {
    while let [only] = list.as_mut_slice()
        && !only.inner.is_empty()
    {
        list = std::mem::take(&mut only.inner);
    }
    list
}

/// What is in `mass` of a part, same names put together.
///
/// What a dough loses when it is divided is dough; what a part that says `makes` loses has left as water until there is none, unless it
/// says `of everything`, and so has what is boiled away from what is filled into jars.
pub fn items(recipe: &Recipe, formula: &Formula, id: PartId, mass: Mass) -> Result<Vec<Item>, Overflow> {
    let mut lists = Lists { recipe, formula, known: HashMap::new() };
    lists.of(id, mass, 0)
}

/// So deep do brackets stand within brackets: what lies deeper is opened, for nobody reads on.
const DEEPEST: usize = 3;

/// The lists of the parts of a batch.
struct Lists<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    /// What is in so much of a part that lies so deep that all in it is opened: parts may lie in parts by the thousand.
    known: HashMap<PartId, (Mass, Vec<Item>)>,
}

impl Lists<'_> {
    /// What is in so much of a part that lies so deep.
    fn of(&mut self, id: PartId, mass: Mass, depth: usize) -> Result<Vec<Item>, Overflow> {
        let is_kept = depth >= DEEPEST && mass > Mass::ZERO;
        if let Some((of, list)) = self.known.get(&id).filter(|_| is_kept) {
            let mut list = list.clone();
            let times = mass.ratio(*of)?;
            list.iter_mut().try_for_each(|item| item.shrink(times))?;
            return Ok(list);
        }
        let list = items_of(self, id, mass, depth)?;
        if is_kept {
            self.known.insert(id, (mass, list.clone()));
        }
        Ok(list)
    }
}

fn items_of(lists: &mut Lists<'_>, id: PartId, mass: Mass, depth: usize) -> Result<Vec<Item>, Overflow> {
    let (recipe, formula) = (lists.recipe, lists.formula);
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(Vec::new()) };
    // A ring of parts was reported; it must not hang here.
    if depth > recipe.parts.len() {
        return Ok(Vec::new());
    }
    let mut list = Together::default();
    let is_alike = (part.divide.is_some() || part.makes.is_some()) && !loses_water(part);
    let makes = solved.makes_before_oven()?;
    let whole = if is_alike { solved.stays.or(makes) } else { makes.or(solved.stays) };
    let factor = match whole.filter(|whole| *whole > Mass::ZERO) {
        Some(whole) => mass.over(solved.oven.unwrap_or(Number::ONE))?.ratio(whole)?,
        None => Number::ONE,
    };
    let lines = part.lines.iter().zip(&solved.lines).enumerate();
    for (at, (line, amount)) in lines.filter(|(_, (_, amount))| !amount.left_out) {
        let mass = amount.mass.map(|mass| mass.times(factor)).transpose()?;
        match &line.refers {
            // A preferment's lines already stand in the total formula.
            Refers::Part(other) if recipe.part(*other).is_some_and(|other| other.from == Some(id)) => {}
            Refers::Part(other) => {
                let mut inner = lists.of(*other, mass.unwrap_or(Mass::ZERO), depth + 1)?;
                inner.iter_mut().for_each(|item| item.aside |= line.aside);
                let made = formula.part(*other).and_then(|part| part.makes);
                if let (true, Some(mass), Some(taken), Some(made)) = (line.is_lifted_out(), mass, amount.mass, made) {
                    inner = drained(inner, mass, taken.as_share_of(made)?)?;
                }
                // Of a pot in which something is poached no buyer knows the name: what it may leave stands by itself, and its water nowhere.
                if line.strained_out {
                    inner.retain(|item| !item.is_water());
                    inner = inner.into_iter().map(|item| Item { of_bath: true, ..item.strained() }).collect();
                }
                let is_opened = depth >= DEEPEST
                    || line.strained_out
                    || inner.len() == 1
                    || (!line.aside && is_one_ingredient(&inner))
                    || is_of_the_bench(line);
                if is_opened || is_dough(recipe, formula, *other)? {
                    for item in inner {
                        list.put(item)?;
                    }
                } else {
                    let item = Item {
                        name: line.name.to_string(),
                        aside_as: Vec::new(),
                        inner: in_order(inner),
                        ..Item::of_line(line, mass, None)
                    };
                    list.put(item)?;
                }
            }
            Refers::Pantry(facts) => {
                let facts = as_it_goes_in(recipe, line, facts.as_ref());
                let item = Item { fried_in: is_fried_in(part, at), ..Item::of_line(line, mass, facts) };
                match line.strained_out || is_rinsed_off(part, at) {
                    // Water that is poured off is in nothing.
                    true if item.is_water() => {}
                    true => list.put(item.strained())?,
                    false => list.put(item)?,
                }
            }
        }
    }
    let list = list.items();
    let list = if whole.is_some() { dried(list, mass)? } else { list };
    // Whey takes milk sugar, salt and some protein along, and nobody knows how much.
    Ok(if loses_whey(recipe, formula, (id, part)) { list.into_iter().map(Item::strained).collect() } else { list })
}

/// So much more than they weighed pieces weigh at most that lay in a liquid and took it up. Common practice, no source.
const SWOLLEN: Number = Number::constant(6, 5);

/// What is taken drained of what lies in a liquid, a share of what there is: its pieces are what is weighed, as far as there are so many. What they
/// took up of the liquid nobody can reckon.
fn drained(list: Vec<Item>, weighs: Mass, share: Proportion) -> Result<Vec<Item>, Overflow> {
    let is_piece = |item: &Item| item.inner.is_empty() && !item.strained_out && medium::is_solid(item.kind());
    let pieces = Mass::sum(list.iter().filter(|item| is_piece(item)).filter_map(|item| item.mass))?;
    // The list is of so much as is taken: of all that was made there are so many more.
    let there_are = pieces.times(SWOLLEN)?;
    if !pieces.value().is_positive() || weighs.share(share)? > there_are {
        return Ok(list);
    }
    let times = weighs.ratio(pieces)?;
    let mut left = Vec::with_capacity(list.len());
    for mut item in list {
        if is_piece(&item) {
            item.shrink(times)?;
            left.push(item);
        } else if !item.is_water() {
            left.push(item.strained());
        }
    }
    Ok(left)
}

/// Words at the end of the name of a part that a baker knows, and no buyer.
const OF_THE_BENCH: &[&str] = &[
    "batter", "block", "bomb", "choux", "dough", "finish", "mix", "mixture", "roux", "scald", "sheet", "slab",
    "soaker", "tier",
];

/// Whether a part is called as nobody calls an ingredient.
fn is_of_the_bench(line: &Ingredient) -> bool {
    line.name.key.as_str().split(' ').next_back().is_some_and(|last| OF_THE_BENCH.contains(&last))
}

/// What is in so much of it when all its water has left and it still weighs more: of everything else there is then so much less, alike.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub(super) fn dried(mut list: Vec<Item>, comes_out: Mass) -> Result<Vec<Item>, Overflow> {
    let mut dry = Mass::ZERO;
    for item in leaves(&list).into_iter().filter(|item| !item.aside && !item.strained_out) {
        if let Some(mass) = item.mass {
            dry = dry.plus(mass.times(dry_share(item)?)?)?;
        }
    }
    if dry > comes_out {
        let left = comes_out.ratio(dry)?;
        list.iter_mut().try_for_each(|item| item.shrink(left))?;
    }
    Ok(list)
}

/// What a gram of it holds that is no water, as far as the larder knows.
fn dry_share(item: &Item) -> Result<Number, Overflow> {
    let facts = item.facts.as_deref();
    match facts.and_then(|facts| facts.contents.water) {
        Some(water) => water.rest().map(Proportion::value),
        None => {
            let dry = [
                Nutrient::Fat,
                Nutrient::AvailableCarbohydrate,
                Nutrient::Fibre,
                Nutrient::GrossProtein,
                Nutrient::Salt,
            ];
            dry.into_iter().try_fold(Number::ZERO, |sum, nutrient| sum.plus(held(facts, nutrient)?.least))
        }
    }
}

/// Whether a part is a dough, a batter or a leaven: its name is none that a buyer knows an ingredient by.
///
/// A compound ingredient may stand under its own name where law or custom knows it (Annex VII, Part E); listing what is in
/// it one by one is always allowed. So what is two fifths flour is opened.
///
/// Flour of rice and starch count here, though no percentage is reckoned on them: a loaf without gluten is bread.
pub(super) fn is_dough(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<bool, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(false) };
    let is_other = |line: &Ingredient| {
        line.stays_in() && !line.is_flour && line.part().is_none() && matches!(line.kind, Kind::Flour | Kind::Starch)
    };
    let others = part.lines.iter().zip(&solved.lines).filter(|(line, _)| is_other(line));
    let flour = others.filter_map(|(_, amount)| amount.mass).try_fold(solved.composition.flour, Mass::plus)?;
    let flour = flour.times(Number::whole(5))?;
    Ok(flour > Mass::ZERO && flour >= solved.composition.total.times(Number::whole(2))?)
}

/// The doughs that a part takes up, by their names, and how much of each.
pub(super) fn opened_doughs(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Vec<(String, Mass)>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(Vec::new()) };
    let mut all = Vec::new();
    // What is mixed with flour is a preferment or a soaker, and nothing that stands beside it.
    if part.lines.iter().any(|line| line.is_flour && line.stays_in()) {
        return Ok(all);
    }
    for (line, amount) in part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()) {
        if let (Some(inner), Some(mass)) = (line.part(), amount.mass)
            && is_dough(recipe, formula, inner)?
        {
            all.push((line.name.to_string(), mass));
        }
    }
    Ok(all)
}

/// Of what is fried a tenth of its weight is fat that it took up, as far as nobody says more: by that its place in a list is found. Common
/// practice of yeast doughnuts, no source.
const TAKEN_UP: Proportion = Proportion::new(Number::constant(1, 10));

/// Heaviest first, by what went in of what is strained out again; of equals the one that the formula names first. What is set aside, to dust with or to dip in, comes last: next to
/// nothing of it is sold, and what is less than 2 % may stand behind the others (Annex VII, Part A, 6; 21 CFR 101.4(a)(2)). Of a bath of fat
/// what is taken up is in it, and the bath is not.
pub(super) fn in_order(mut list: Vec<Item>) -> Vec<Item> {
    let whole = Mass::sum(list.iter().filter(|item| !item.aside).filter_map(|item| item.mass));
    let taken_up = whole.and_then(|whole| whole.share(TAKEN_UP)).ok();
    let weighs = |item: &Item| {
        // Of a bath a trace clings: nobody eats what was weighed into it.
        if item.strained_out && item.mass.is_none() && (item.of_bath || matches!(item.kind(), Kind::Lye | Kind::Soda)) {
            return Some(Mass::ZERO);
        }
        let all = item.mass.or(item.went_in);
        match taken_up.filter(|_| item.fried_in && (item.aside || item.strained_out)) {
            Some(taken_up) => Some(all.map_or(taken_up, |all| all.min(taken_up))),
            None => all,
        }
    };
    list.sort_by_key(|item| (item.aside && !item.fried_in, std::cmp::Reverse(weighs(item))));
    list
}

/// In the European Union added water counts as what is left of it in what is sold, also within what stands in brackets, and up to 5 % of
/// it all need not be listed (Annex VII, Part A, 1). In the United States it stands as it was put in.
pub(super) fn with_water(mut list: Vec<Item>, net: Mass, law: Law) -> Result<Vec<Item>, Overflow> {
    if law == Law::Us {
        return Ok(list);
    }
    settle_water(&mut list, net)?;
    let water =
        |list: &[Item]| Mass::sum(leaves(list).into_iter().filter(|item| item.is_water()).filter_map(|item| item.mass));
    let all = Mass::sum(list.iter().filter(|item| !item.aside).filter_map(|item| item.mass))?;
    let (added, too_much) = (water(&list)?, all.minus(net)?);
    // What the oven takes of a syrup that was folded in, too.
    if added > Mass::ZERO && too_much > Mass::ZERO {
        let left = added.minus(too_much)?.max(Mass::ZERO);
        keep_of_water(&mut list, left.ratio(added)?)?;
    }
    let added = water(&list)?;
    if added <= net.share(Proportion::new(Number::constant(1, 20)))? {
        without_water(&mut list);
    }
    Ok(list)
}

/// Leaves of the water of a list what the rest of it weighs less than the whole, and so in each compound in it; where nothing is left it
/// goes.
fn settle_water(list: &mut Vec<Item>, whole: Mass) -> Result<(), Overflow> {
    // What something is boiled in is not added to it.
    list.retain(|item| !(item.is_water() && item.aside));
    for item in list.iter_mut().filter(|item| !item.inner.is_empty()) {
        if let Some(mass) = item.mass {
            settle_water(&mut item.inner, mass)?;
            item.inner = in_order(std::mem::take(&mut item.inner));
        }
    }
    let others = Mass::sum(list.iter().filter(|item| !item.is_water() && !item.aside).filter_map(|item| item.mass))?;
    let left = whole.minus(others)?;
    let Some(at) = list.iter().position(Item::is_water) else { return Ok(()) };
    if left <= Mass::ZERO {
        list.retain(|item| !item.is_water());
    } else if let Some(water) = list.get_mut(at) {
        water.mass = Some(left);
        let mut seen = false;
        list.retain(|item| !item.is_water() || !std::mem::replace(&mut seen, true));
    }
    Ok(())
}

/// Keeps so much of the water of a list and of what is in it.
fn keep_of_water(list: &mut [Item], share: Number) -> Result<(), Overflow> {
    for item in list.iter_mut() {
        if item.is_water() {
            item.mass = item.mass.map(|mass| mass.times(share)).transpose()?;
        }
        keep_of_water(&mut item.inner, share)?;
        item.inner = in_order(std::mem::take(&mut item.inner));
    }
    Ok(())
}

/// Takes the water out of a list and out of what is in it.
fn without_water(list: &mut Vec<Item>) {
    list.iter_mut().for_each(|item| without_water(&mut item.inner));
    list.retain(|item| !item.is_water());
}

/// The ingredients themselves, those of compound ones in their place.
pub fn leaves(list: &[Item]) -> Vec<&Item> {
    list.iter().flat_map(|item| if item.inner.is_empty() { vec![item] } else { leaves(&item.inner) }).collect()
}
