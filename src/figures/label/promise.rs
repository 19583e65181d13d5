//! What a label promises: a weight, a volume of what is poured, what is left without its liquid, and how strong a drink is.

use super::heat::Loss;
use super::items::{Item, leaves};
use super::{Label, NoLabel};
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Density, Mass, Proportion, Volume};
use crate::measure::show;
use crate::model::allergen::Law;
use crate::model::cooking::may_cook::may_warm;
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{called, has_word_beginning, loses_water};
use crate::model::kind::Kind;
use crate::model::medium::{self, Medium};
use crate::model::nutrient::Nutrient;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::sale::{Drained, Sale, Serving, Size};
use crate::model::step::StepKind;
use crate::solve::formula::serving::weighs_otherwise;

/// Grams of a millilitre of alcohol at 20 °C: 789.24 kg/m³, OIML R 22, International alcoholometric tables (from memory).
const ALCOHOL: Number = Number::constant(78_924, 100_000);

/// From this share by volume on a drink says its strength: Article 9(1)(k), `more than 1,2 % by volume`, as a public print of the
/// Regulation has it (prenku.de, seen).
const STRONG: Proportion = Proportion::new(Number::constant(12, 1000));

/// By what it is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Promise {
    /// How heavy a volume of it is, of what is sold by volume.
    pub density: Option<Density>,
    /// The liquid in which it is sold.
    pub medium: Option<Medium>,
    /// Which share of it went in solid, where it is sold in a liquid.
    pub solid: Option<Proportion>,
    /// Which share of it is left on a sieve, as somebody says.
    pub drained: Option<Proportion>,
    /// Whether somebody weighed what is left on the sieve, and what it weighed with its liquid.
    pub is_weighed_drained: bool,
    /// Whether its name is that of a drink.
    pub is_called_a_drink: bool,
    /// How much alcohol is in it by volume, of what is sold so and holds any.
    pub strength: Option<Strength>,
}

/// How strong a drink is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strength {
    /// So much alcohol by volume, as it went in: nothing heats or ferments it.
    Of(Proportion),
    /// Heat takes some, a ferment makes some, or what was strained out took some along: it has to be measured.
    ToMeasure,
}

impl Strength {
    /// Whether a label has to say it.
    pub fn is_said(self) -> bool {
        match self {
            Strength::Of(share) => share > STRONG,
            Strength::ToMeasure => true,
        }
    }
}

/// What is promised of something that weighs `net` as sold, of those ingredients.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub(super) fn of(
    (recipe, id): (&Recipe, PartId),
    sale: &Sale,
    (list, net, loss): (&[Item], Mass, Loss),
) -> Result<Promise, Overflow> {
    let within: Vec<&Part> = recipe.within(id).into_iter().filter_map(|id| recipe.part(id)).collect();
    let medium = medium::of(recipe, &within);
    let solid = match medium.is_some() || sale.drained.is_some() {
        true => Some(solid(list)?.as_share_of(net)?).filter(|share| *share > Proportion::ZERO),
        false => None,
    };
    let drained = match sale.drained {
        Some(Drained::Share(share)) => Some(share),
        Some(Drained::AsPacked) => solid.filter(|share| *share < Proportion::WHOLE),
        None => None,
    };
    let strength = match sale.density {
        Some(density) => strength(&within, list, density.volume(net)?, loss)?,
        None => None,
    };
    let is_called_a_drink = medium::is_called_a_drink(recipe);
    let is_weighed_drained = matches!(sale.drained, Some(Drained::Share(_)));
    Ok(Promise { density: sale.density, medium, solid, drained, is_weighed_drained, is_called_a_drink, strength })
}

/// Whether what a part makes is sold in a liquid, as far as names and lines tell.
pub(super) fn is_in_liquid(recipe: &Recipe, id: PartId) -> bool {
    medium::of(recipe, &recipe.within(id).into_iter().filter_map(|id| recipe.part(id)).collect::<Vec<_>>()).is_some()
}

/// What lies in the liquid and is none of it. What dissolves, and what flavours a brine that is made by itself, is the liquid's.
fn solid(list: &[Item]) -> Result<Mass, Overflow> {
    let is_poured = |item: &Item| {
        has_word_beginning(&item.name.to_lowercase(), ["brine", "syrup"])
            || item.kind().is_liquid()
            || item.kind() == Kind::Syrup
    };
    let in_it = list.iter().filter(|item| !item.aside && !item.strained_out && !is_poured(item));
    let is_solid = |leaf: &&Item| {
        (medium::is_solid(leaf.kind()) || leaf.kind() == Kind::Other) && !leaf.aside && !leaf.strained_out
    };
    let mut sum = Mass::ZERO;
    for item in in_it {
        let leaves = leaves(std::slice::from_ref(item));
        // A cheese whose whey has run off weighs what its part makes.
        let weighs = match item.mass.filter(|_| leaves.iter().all(|leaf| leaf.mass.is_none())) {
            Some(mass) => mass,
            None => Mass::sum(leaves.into_iter().filter(is_solid).filter_map(|leaf| leaf.mass))?,
        };
        sum = sum.plus(weighs)?;
    }
    Ok(sum)
}

/// Whether what a part makes ferments and is no dough: a step is called so, as a culture or souring, or yeast or a leaven is in it, and no flour. What a dough loses of
/// its sugar is a small part of what it holds.
pub(super) fn ferments(recipe: &Recipe, id: PartId) -> bool {
    is_fermented(&recipe.within(id).into_iter().filter_map(|id| recipe.part(id)).collect::<Vec<_>>())
}

fn is_fermented(within: &[&Part]) -> bool {
    let is_of_flour = |part: &Part| part.lines.iter().any(|line| line.is_any_flour());
    let ferments = |part: &Part| {
        part.steps.iter().any(|step| step.kind != StepKind::Hands && called(step, FERMENTS))
            || part.lines.iter().any(|line| line.kind.ferments() && line.stays_in())
    };
    // A paste of a spoonful of flour is rubbed into cabbage that ferments: what is weighed by the flour is a dough, and a preferment of one.
    let is_called_so = |part: &Part| {
        let rests = part.steps.iter().any(|step| step.kind == StepKind::Wait && called(step, FERMENTS));
        part.base.is_none() && part.from.is_none() && rests
    };
    within.iter().any(|part| (!is_of_flour(part) && ferments(part)) || is_called_so(part))
}

/// How much alcohol is in that volume, if any may be.
fn strength(within: &[&Part], list: &[Item], volume: Volume, loss: Loss) -> Result<Option<Strength>, Overflow> {
    let mut grams = Number::ZERO;
    // What stays on a funnel is a share of everything; what boils away is not.
    let boils_down = |part: &&Part| loses_water(part) && part.makes.is_some_and(|makes| makes.loss.is_some());
    let is_heated = |part: &&Part| part.steps.iter().any(may_warm);
    let is_as_it_went_in = match loss {
        Loss::Unheated => true,
        Loss::Making(_) => !within.iter().any(|part| boils_down(part) || is_heated(part)),
        _ => false,
    };
    let mut may_differ = !is_as_it_went_in;
    for item in leaves(list) {
        let alcohol = item.facts.as_ref().and_then(|facts| facts.contents.alcohol);
        may_differ |= item.went_in.is_some() || (item.kind() == Kind::Spirit && alcohol.is_none());
        if let (Some(mass), Some(alcohol)) = (item.mass, alcohol) {
            grams = grams.plus(mass.share(alcohol)?.value())?;
        }
    }
    if is_fermented(within) || (may_differ && grams.is_positive()) {
        return Ok(Some(Strength::ToMeasure));
    }
    let share = grams.over(ALCOHOL)?.over(volume.value())?;
    Ok(Some(Strength::Of(Proportion::new(share))).filter(|_| share.is_positive()))
}

/// What a serving weighs; by volume only where somebody says what a volume weighs.
///
/// # Errors
/// A sentence, when nobody does.
pub(super) fn weight_of(serving: &Serving, density: Option<Density>) -> Result<Mass, NoLabel> {
    match (serving.size, density) {
        (Size::Mass(mass), _) => Ok(mass),
        (Size::Volume(volume), Some(density)) => Ok(volume.weight(density)?),
        (Size::Volume(volume), None) => {
            let volume = show::volume(volume);
            Err(NoLabel(format!(
                "a serving of {volume} of what nobody knows the weight of: weigh a litre of it, and write `weighs 1.04 kg per l` into the head"
            )))
        }
    }
}

/// Looks whether a serving weighs what the pieces weigh that it is said to be: `serving 140 g, 1/8 pie`.
///
/// # Errors
/// A sentence, where both cannot be true.
pub(super) fn agrees(serving: &Serving, said: Mass, each: Mass, noun: &str) -> Result<(), NoLabel> {
    let Some(weighs) = weighs_otherwise(serving, said, each, noun)? else { return Ok(()) };
    let words = serving.words.as_deref().unwrap_or_default();
    let [said, weighs, each] = [said, weighs, each].map(show::mass_plain);
    Err(NoLabel(format!(
        "a serving of {said} is said to be {words}, and {words} weighs {weighs}, of {each} for one: correct the one or the other"
    )))
}

impl Label {
    /// The volume of so much of it, where it is sold by volume.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn volume(&self, mass: Mass) -> Result<Option<Volume>, Overflow> {
        self.promise.density.map(|density| density.volume(mass)).transpose()
    }

    /// What 100 g of it weigh, or 100 ml where it is sold by volume: what the table is of.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn hundred(&self) -> Result<Mass, Overflow> {
        hundred(self.promise.density)
    }

    /// What is left on a sieve of so much of it.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn drained(&self, mass: Mass) -> Result<Option<Mass>, Overflow> {
        self.promise.drained.map(|share| mass.share(share)).transpose()
    }

    /// Whether the table would be of what is left on a sieve, which no sum tells: in the United States of what lies in a liquid that is not
    /// eaten (21 CFR 101.9(b)(9), from memory; that it goes by what is `customarily consumed` a petition to the FDA of June 2015 quotes, seen).
    pub fn is_table_of_drained(&self) -> bool {
        self.law == Law::Us && self.promise.medium == Some(Medium::PouredOff)
    }

    /// Grams of fruit in 100 g of what is called jam, jelly or marmalade, in whole grams and no more than there are: Directive 2001/113/EC,
    /// Article 2(3), wants `prepared with … g of fruit per 100 g` (from memory).
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn fruit_of_a_jam(&self) -> Result<Option<Number>, Overflow> {
        let Some((_, fruit)) = self.of_a_jam()? else { return Ok(None) };
        Ok(Some(fruit.ratio(self.net)?.times(Number::whole(100))?.floor()))
    }

    /// Whether an ingredient is of what is counted as the fruit of a jam.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn is_fruit_of_a_jam(&self, name: &str) -> Result<bool, Overflow> {
        let Some((kind, _)) = self.of_a_jam()? else { return Ok(false) };
        let name = Key::new(name);
        let is_it = |item: &&Item| item.kind() == kind && !item.aside && Key::new(&item.name) == name;
        Ok(leaves(&self.ingredients).iter().any(is_it))
    }

    /// What is the fruit of what is called jam, jelly or marmalade, and how much: without fruit, vegetables, which the directive takes for it.
    fn of_a_jam(&self) -> Result<Option<(Kind, Mass)>, Overflow> {
        let title = format!("{} {}", self.name, self.sale.sold_as.as_deref().unwrap_or_default()).to_lowercase();
        let is_called =
            title.split(|c: char| !c.is_alphabetic()).any(|word| ["jam", "jelly", "marmalade"].contains(&word));
        if self.law != Law::Eu || !is_called {
            return Ok(None);
        }
        let leaves = leaves(&self.ingredients);
        let of = |kinds: &[Kind]| {
            let of = leaves.iter().filter(|item| kinds.contains(&item.kind()) && !item.aside);
            Mass::sum(of.filter_map(|item| item.mass.or(item.went_in)))
        };
        let (fruit, sugar) = (of(&[Kind::Fruit])?, of(&[Kind::Sugar, Kind::Syrup])?);
        let (kind, fruit) =
            if fruit > Mass::ZERO { (Kind::Fruit, fruit) } else { (Kind::Vegetable, of(&[Kind::Vegetable])?) };
        // Jam in a roll is another thing.
        let is_jam = of(&[Kind::Flour])? == Mass::ZERO
            && sugar.times(Number::whole(5))? > self.net
            && fruit.times(Number::whole(5))? > self.net;
        Ok(is_jam.then_some((kind, fruit)))
    }

    /// So much of what is eaten: of what lies in a liquid that is not, what is left on a sieve, where the table is of that.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn eaten(&self, mass: Mass) -> Result<Mass, Overflow> {
        let drained = if self.is_table_of_drained() { self.drained(mass)? } else { None };
        Ok(drained.unwrap_or(mass))
    }

    /// Alcohol that went in, in grams.
    pub fn alcohol(&self) -> Number {
        self.nutrition.sum(Nutrient::Alcohol).map_or(Number::ZERO, |sum| sum.amount)
    }
}

/// What 100 g weigh, or 100 ml of that density.
pub(super) fn hundred(density: Option<Density>) -> Result<Mass, Overflow> {
    let hundred = Number::whole(100);
    density.map_or(Ok(Mass::new(hundred)), |density| Volume::new(hundred).weight(density))
}
