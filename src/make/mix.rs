//! A mix: what a recipe and its kitchen say of the heat in the bowl, and how warm its liquids must be.

pub mod balance;
pub mod cold;
pub mod handbook;
pub mod heat;
pub mod left_at;
pub mod pour;

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::temperature::{Temperature, TemperatureDifference};
use crate::model::bowl::in_the_mix;
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::temperatures;
use crate::solve::formula::Formula;
use crate::solve::formula::fed::{IN_FLOUR, flour_in, is_fed};
use balance::Warm;
use handbook::Figures;

/// The day's figures, as far as they were given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Today {
    /// The room.
    pub room: Option<Temperature>,
    /// The flour; as warm as the room when nothing is said.
    pub flour: Option<Temperature>,
    /// The preferment; as warm as its last place when nothing is said.
    pub preferment: Option<Temperature>,
    /// The water as it comes from the tap; 15 °C when nothing is said.
    pub tap: Option<Temperature>,
    /// The mixer's friction, in place of the kitchen's.
    pub friction: Option<TemperatureDifference>,
}

/// Water from the tap when nothing is said (assumed).
pub const TAP: Temperature = Temperature::from_celsius(Number::whole(15));

/// A mix whose water can be reckoned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mix {
    /// Its part.
    pub part: PartId,
    /// What the dough is to have.
    pub desired: Temperature,
    /// What is poured, in the order of the formula.
    pub liquids: Vec<Liquid>,
    /// All that goes into the bowl.
    pub total: Mass,
    /// The preferment, when there is one.
    pub preferment: Option<Preferment>,
    /// The friction, and whose.
    pub friction: Option<(TemperatureDifference, Friction)>,
}

/// Something that is poured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Liquid {
    /// Its name.
    pub name: String,
    /// How much.
    pub mass: Mass,
    /// Its specific heat, joules per gram and degree.
    pub heat: Number,
    /// Whether ice can stand for it.
    pub is_water: bool,
    /// How warm its line says it goes in: `at 30 C`; milk that is `cold` comes from the refrigerator.
    pub at: Option<Temperature>,
}

/// What ferments before the mix.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preferment {
    /// Its name; `levain and poolish` of two.
    pub name: String,
    /// How much goes in of each, and how warm its last place is.
    pub places: Vec<(Mass, Option<Temperature>)>,
    /// How much of it goes in; all of them, where there are several.
    pub mass: Mass,
}

impl Preferment {
    /// How warm it is by its last place, of several the mean by their weights; what says nothing is as warm as the room.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn at(&self, room: Temperature) -> Result<Temperature, Overflow> {
        let mut sum = Number::ZERO;
        for (mass, place) in &self.places {
            sum = sum.plus(mass.value().times(place.unwrap_or(room).celsius())?)?;
        }
        if self.mass <= Mass::ZERO {
            return Ok(self.places.iter().find_map(|(_, place)| *place).unwrap_or(room));
        }
        sum.over(self.mass.value()).map(Temperature::from_celsius)
    }

    /// The same where all of them say it; `None` where one does not.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn place(&self) -> Result<Option<Temperature>, Overflow> {
        let first = self.places.first().and_then(|(_, place)| *place);
        match first.filter(|_| self.places.iter().all(|(_, place)| place.is_some())) {
            Some(any) => self.at(any).map(Some),
            None => Ok(None),
        }
    }

    /// `is`, or `are` of several.
    pub fn verb(&self) -> &'static str {
        if self.places.len() > 1 { "are" } else { "is" }
    }
}

/// Where a friction comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Friction {
    /// The equipment of the kitchen file.
    Kitchen(String),
    /// Mixed by hand: none is counted.
    Hand,
    /// Said for the day.
    Said,
}

/// Whether a line is poured: water, milk and their like.
pub fn is_liquid(line: &Ingredient) -> bool {
    line.kind.is_poured() && !line.aside
}

/// What a line that is `cold` or `chilled` counts with (FDA Food Code 3-501.16: 5 °C and below).
const CHILLED: Temperature = Temperature::from_celsius(Number::whole(5));

/// Reads the mix of a part; `None` when it desires no temperature or nothing is poured.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn mix(recipe: &Recipe, formula: &Formula, id: PartId, today: &Today) -> Result<Option<Mix>, Overflow> {
    match recipe.part(id).and_then(|part| part.desired_temperature) {
        Some(desired) => mix_at(recipe, formula, id, desired, today),
        None => Ok(None),
    }
}

/// As [`mix`], of a part that desires a temperature and into which nothing is poured.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn unpoured(recipe: &Recipe, formula: &Formula, id: PartId, today: &Today) -> Result<Option<Mix>, Overflow> {
    let Some(desired) = recipe.part(id).and_then(|part| part.desired_temperature) else { return Ok(None) };
    let mix = with_or_without_liquids(recipe, formula, id, desired, today)?;
    Ok(mix.filter(|mix| mix.liquids.is_empty() && mix.total > Mass::ZERO))
}

/// Reads the mix of a part whose dough has this temperature, or is to have it; `None` when nothing is poured.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn mix_at(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    desired: Temperature,
    today: &Today,
) -> Result<Option<Mix>, Overflow> {
    let mix = with_or_without_liquids(recipe, formula, id, desired, today)?;
    Ok(mix.filter(|mix| !mix.liquids.is_empty()))
}

fn with_or_without_liquids(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    desired: Temperature,
    today: &Today,
) -> Result<Option<Mix>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(None) };
    let mut mix = Mix {
        part: id,
        desired,
        liquids: Vec::new(),
        total: Mass::ZERO,
        preferment: None,
        friction: today.friction.map(|friction| (friction, Friction::Said)).or_else(|| friction(recipe, part)),
    };
    let in_it = in_the_mix(part);
    for ((line, amount), is_in) in part.lines.iter().zip(&solved.lines).zip(&in_it) {
        let Some(mass) = amount.final_mix.filter(|mass| *is_in && !line.aside && *mass > Mass::ZERO) else { continue };
        mix.total = mix.total.plus(mass)?;
        if is_liquid(line) {
            let is_water = line.kind == Kind::Water;
            let chilled = (!is_water && is_cold(line)).then_some(CHILLED);
            let heat =
                if is_water { heat::WATER } else { heat::of(line.facts(), false, line.temperature.or(chilled))? };
            let at = line.temperature.or(chilled);
            mix.liquids.push(Liquid { name: line.name.to_string(), mass, heat, is_water, at });
        }
    }
    for (taken_out, _) in recipe.preferments(id) {
        mix.total = mix.total.plus(formula.part(taken_out).and_then(|part| part.goes_in).unwrap_or(Mass::ZERO))?;
    }
    mix.preferment = preferment(recipe, formula, (id, part, &in_it), mix.total)?;
    Ok(Some(mix))
}

/// Whether a line says that it goes in cold.
fn is_cold(line: &Ingredient) -> bool {
    line.preparation.as_deref().is_some_and(|words| has_word_beginning(words, ["cold", "chilled"]))
}

/// A kept leaven that is less than this part of its dough is a seed and no preferment (our own rule, half of what the handbook's fourth would be;
/// common practice is to leave small seeds out of the sum, no source).
const SEED: Number = Number::whole(8);

/// What ferments before the mix: the parts taken out of the formula, and among its lines the parts that hold flour and leavens that are bought or
/// kept. What is laminated in, or strewn on when the dough has risen, is none, however much flour is in it.
fn preferment(
    recipe: &Recipe,
    formula: &Formula,
    (id, part, in_it): (PartId, &Part, &[bool]),
    total: Mass,
) -> Result<Option<Preferment>, Overflow> {
    let mut found = Preferment { name: String::new(), places: Vec::new(), mass: Mass::ZERO };
    let mut names: Vec<String> = Vec::new();
    let mut is_seed = true;
    let mut add = |name: String, mass: Mass, place: Option<Temperature>| -> Result<(), Overflow> {
        names.push(name);
        found.places.push((mass, place));
        found.mass = found.mass.plus(mass)?;
        Ok(())
    };
    for (other, preferment) in recipe.preferments(id) {
        let mass = formula.part(other).and_then(|part| part.goes_in).unwrap_or(Mass::ZERO);
        is_seed = false;
        add(preferment.name.to_string(), mass, place(preferment))?;
    }
    let amounts = formula.part(id).map(|part| part.lines.as_slice()).unwrap_or_default();
    for ((line, amount), is_in) in part.lines.iter().zip(amounts).zip(in_it) {
        let mass = amount.final_mix.unwrap_or(Mass::ZERO);
        // A kept leaven of which a preferment takes all is in that.
        let is_kept = is_fed(line) && mass > Mass::ZERO;
        let other = flour_part(recipe, formula, line);
        if *is_in && !line.aside && (other.is_some() || is_kept) {
            let said = line.temperature.or_else(|| is_cold(line).then_some(CHILLED));
            let name = other.map_or_else(|| line.name.to_string(), |part| part.name.to_string());
            is_seed &= other.is_none();
            add(name, mass, said.or_else(|| place(other?)))?;
        }
    }
    found.name = show::list(&names);
    let is_one = !(names.is_empty() || is_seed && found.mass.times(SEED)? < total);
    Ok(is_one.then_some(found))
}

/// The part that a line is, if it holds flour.
fn flour_part<'a>(recipe: &'a Recipe, formula: &Formula, line: &Ingredient) -> Option<&'a Part> {
    match line.refers {
        Refers::Part(other) if formula.part(other)?.composition.flour > Mass::ZERO => recipe.part(other),
        _ => None,
    }
}

/// How warm the last place of a part is. Where it cools last, it is as warm as the step says that it becomes, or else as the room.
fn place(part: &Part) -> Option<Temperature> {
    let last = part
        .steps
        .iter()
        .rev()
        .find(|step| step.temperature.is_some() || step.name.has_word_beginning(beginnings!["cool"]))?;
    match last.temperature {
        Some((low, _)) => Some(low),
        None => temperatures(last.cue.iter().chain(&last.words)).next().map(|(_, (low, _))| low),
    }
}

/// The friction of the equipment that the part is mixed in: the first of its steps that holds something with a friction. A
/// part whose first step by hands holds no equipment is mixed by hand.
pub fn friction(recipe: &Recipe, part: &Part) -> Option<(TemperatureDifference, Friction)> {
    let with = part.steps.iter().find_map(|step| {
        let equipment = recipe.kitchen.find(step.equipment.as_ref()?)?;
        Some((equipment.friction?, Friction::Kitchen(equipment.name.to_string())))
    });
    let is_mixer =
        |name: &crate::language::syntax::Name| name.has_word_beginning(beginnings!["mixer", "spiral", "planetary"]);
    let in_a_mixer = part.steps.iter().any(|step| step.equipment.as_ref().is_some_and(is_mixer));
    with.or_else(|| {
        (!in_a_mixer && !part.steps.is_empty())
            .then_some((TemperatureDifference::from_celsius(Number::ZERO), Friction::Hand))
    })
}

impl Mix {
    /// The figures of the handbook's sum, for a room and a flour; `None` when the friction is not known.
    pub fn figures(&self, room: Temperature, flour: Temperature, today: &Today) -> Option<Figures> {
        let at = |found: &Preferment| today.preferment.map_or_else(|| found.at(room), Ok);
        let preferment = self.preferment.as_ref().map(at).transpose().ok()?;
        let (friction, _) = self.friction.as_ref()?;
        Some(Figures { desired: self.desired, room, flour, preferment, friction: *friction })
    }

    /// Whether the recipe says itself how warm every liquid goes in.
    pub fn is_written(&self) -> bool {
        self.liquids.iter().all(|liquid| liquid.at.is_some())
    }

    /// The liquids whose temperature is looked for: those that the recipe says none of; all, where it says all.
    pub fn asked(&self) -> impl Iterator<Item = &Liquid> {
        let is_written = self.is_written();
        self.liquids.iter().filter(move |liquid| is_written || liquid.at.is_none())
    }

    /// The others: those that go in as warm as it is written.
    pub fn settled(&self) -> impl Iterator<Item = &Liquid> {
        let is_written = self.is_written();
        self.liquids.iter().filter(move |liquid| !is_written && liquid.at.is_some())
    }

    /// The names of those that are looked for: `water`, `whole milk and water`.
    pub fn names(&self) -> String {
        show::list(&self.asked().map(|liquid| liquid.name.as_str()).collect::<Vec<_>>())
    }

    /// The water among those that are looked for, which ice can stand for.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn water(&self) -> Result<Mass, Overflow> {
        Mass::sum(self.asked().filter(|liquid| liquid.is_water).map(|liquid| liquid.mass))
    }

    /// How warm all that is poured is as it is written, mass by mass; `None` where something says nothing.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn written(&self) -> Result<Option<Temperature>, Overflow> {
        warmth(&self.liquids)
    }
}

/// How warm what is poured is together, mass by mass; `None` where something says nothing.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn warmth(liquids: &[Liquid]) -> Result<Option<Temperature>, Overflow> {
    let (mut mass, mut warmth) = (Mass::ZERO, Number::ZERO);
    for liquid in liquids {
        let Some(at) = liquid.at else { return Ok(None) };
        mass = mass.plus(liquid.mass)?;
        warmth = warmth.plus(liquid.mass.value().times(at.celsius())?)?;
    }
    warmth.over(mass.value()).map(|mean| Some(Temperature::from_celsius(mean)))
}

/// Everything in the bowl but the liquids that are looked for, with its heat: flour as warm as the flour, a preferment as the
/// preferment, another part as its last place, a line with a temperature as it says, one that is `cold` or `chilled` at 5 °C, the rest
/// as warm as the room.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn others(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    figures: &Figures,
    today: &Today,
) -> Result<Vec<Warm>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(mix.part), formula.part(mix.part)) else { return Ok(Vec::new()) };
    let settled = mix.settled().filter_map(|one| Some(Warm { mass: one.mass, heat: one.heat, at: one.at? }));
    let mut all: Vec<Warm> = settled.collect();
    for ((line, amount), is_in) in part.lines.iter().zip(&solved.lines).zip(in_the_mix(part)) {
        let Some(mass) = amount.final_mix.filter(|_| is_in && !line.aside && !is_liquid(line)) else { continue };
        let at = goes_in_at(recipe, formula, line, figures, today);
        let heat = match line.refers {
            Refers::Part(other) => of_part(formula, other, at)?,
            Refers::Pantry(_) => of_pantry(line, at)?,
        };
        all.push(Warm { mass, heat, at });
    }
    for (other, preferment) in recipe.preferments(mix.part) {
        let Some(mass) = formula.part(other).and_then(|part| part.goes_in) else { continue };
        let at = today.preferment.or_else(|| place(preferment)).unwrap_or(figures.room);
        all.push(Warm { mass, heat: of_part(formula, other, at)?, at });
    }
    Ok(all)
}

/// How warm a line goes in.
fn goes_in_at(recipe: &Recipe, formula: &Formula, line: &Ingredient, figures: &Figures, today: &Today) -> Temperature {
    let is_preferment = is_fed(line) || flour_part(recipe, formula, line).is_some();
    if let Some(of_today) = today.preferment.filter(|_| is_preferment) {
        return of_today;
    }
    let usual = || match line.refers {
        Refers::Part(other) => recipe.part(other).and_then(place).unwrap_or(figures.room),
        Refers::Pantry(_) if line.is_flour => figures.flour,
        Refers::Pantry(_) if is_cold(line) => CHILLED,
        Refers::Pantry(_) => figures.room,
    };
    line.temperature.unwrap_or_else(usual)
}

/// The parts that go into the bowl besides a preferment, a porridge or a soaker, with a warmth of their own: that of their line or of their
/// last place. The others are as warm as the room.
pub fn parts_taken<'a>(
    recipe: &'a Recipe,
    formula: &Formula,
    mix: &Mix,
) -> impl Iterator<Item = (&'a str, Temperature)> {
    let lines = recipe.part(mix.part).into_iter().flat_map(|part| part.lines.iter().zip(in_the_mix(part)));
    let others = lines.filter(|(line, is_in)| {
        *is_in && !line.aside && !is_liquid(line) && flour_part(recipe, formula, line).is_none()
    });
    others.filter_map(|(line, _)| {
        let part = recipe.part(line.part()?)?;
        Some((&*line.name.text, line.temperature.or_else(|| place(part))?))
    })
}

/// The specific heat of an ingredient at a temperature; a kept leaven holds the water that it was fed with, and that of its flour.
fn of_pantry(line: &Ingredient, at: Temperature) -> Result<Number, Overflow> {
    let facts = line.facts();
    let is_said = facts.is_some_and(|facts| facts.contents.water.is_some());
    match flour_in(&line.name.key, line.kind, facts)?.filter(|_| !is_said && is_fed(line)) {
        Some(flour) => {
            let water = flour.rest()?.value().plus(flour.value().times(IN_FLOUR)?)?;
            let fat = facts.and_then(|facts| facts.contents.fat).map_or(Number::ZERO, Proportion::value);
            heat::of_shares(water, fat, Some(at))
        }
        None => heat::of(facts, line.is_flour, Some(at)),
    }
}

/// The specific heat of a part at a temperature, from what it consists of; its flour holds water of its own.
fn of_part(formula: &Formula, id: PartId, at: Temperature) -> Result<Number, Overflow> {
    let Some(makeup) = formula.part(id).map(|part| part.comes_out).filter(|makeup| makeup.total > Mass::ZERO) else {
        return heat::of_solids(Some(at));
    };
    let in_flour = makeup.all_flour()?.times(IN_FLOUR)?;
    let water = makeup.water.plus(in_flour)?.ratio(makeup.total)?;
    heat::of_shares(water, makeup.fat.ratio(makeup.total)?, Some(at))
}
