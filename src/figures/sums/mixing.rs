//! What a recipe and its kitchen say of a mix: its water, its preferment, its friction.

use super::heat;
use super::ice::Warm;
use super::water::Figures;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::temperature::{Temperature, TemperatureDifference};
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::solve::formula::Formula;

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
    /// What is poured: `water`, `whole milk and water`.
    pub liquids: Vec<String>,
    /// The mass of the lines that are water, which ice can stand for.
    pub water: Mass,
    /// All that is poured.
    pub poured: Mass,
    /// The preferment, and how warm its last place is.
    pub preferment: Option<(String, Option<Temperature>)>,
    /// The friction, and whose.
    pub friction: Option<(TemperatureDifference, Friction)>,
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

/// Whether a line is water itself.
pub fn is_water(line: &Ingredient) -> bool {
    line.kind == Kind::Water && !line.aside
}

/// Reads the mix of a part; `None` when it desires no temperature or nothing is poured.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn mix(recipe: &Recipe, formula: &Formula, id: PartId, today: &Today) -> Result<Option<Mix>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(None) };
    let Some(desired) = part.desired_temperature else { return Ok(None) };
    let mut mix = Mix {
        part: id,
        desired,
        liquids: Vec::new(),
        water: Mass::ZERO,
        poured: Mass::ZERO,
        preferment: preferment(recipe, formula, id, part),
        friction: today.friction.map(|friction| (friction, Friction::Said)).or_else(|| friction(recipe, part)),
    };
    for (line, amount) in part.lines.iter().zip(&solved.lines) {
        let Some(mass) = amount.final_mix.filter(|mass| is_liquid(line) && *mass > Mass::ZERO) else { continue };
        mix.liquids.push(line.name.to_string());
        mix.poured = mix.poured.plus(mass)?;
        if is_water(line) {
            mix.water = mix.water.plus(mass)?;
        }
    }
    Ok((!mix.liquids.is_empty()).then_some(mix))
}

/// What ferments before the mix: a part taken out of the formula, or one among its lines that holds flour.
fn preferment(recipe: &Recipe, formula: &Formula, id: PartId, part: &Part) -> Option<(String, Option<Temperature>)> {
    let taken_out = recipe.preferments(id).map(|(_, preferment)| preferment).next();
    let among = || {
        part.lines.iter().find_map(|line| match line.refers {
            Refers::Part(other) if formula.part(other)?.composition.flour > Mass::ZERO => recipe.part(other),
            _ => None,
        })
    };
    let preferment = taken_out.or_else(among)?;
    let place = preferment.steps.iter().rev().find_map(|step| step.temperature).map(|(low, _)| low);
    Some((preferment.name.to_string(), place))
}

/// The friction of the equipment that the part is mixed in: the first of its steps that holds something with a friction. A
/// part whose first step by hands holds no equipment is mixed by hand.
fn friction(recipe: &Recipe, part: &Part) -> Option<(TemperatureDifference, Friction)> {
    let with = part.steps.iter().find_map(|step| {
        let equipment = recipe.kitchen.find(step.equipment.as_ref()?)?;
        Some((equipment.friction?, Friction::Kitchen(equipment.name.to_string())))
    });
    let is_mixer =
        |name: &crate::language::syntax::Name| has_word(name.key.as_str(), &["mixer", "spiral", "planetary"]);
    let in_a_mixer = part.steps.iter().any(|step| step.equipment.as_ref().is_some_and(is_mixer));
    with.or_else(|| {
        (!in_a_mixer && !part.steps.is_empty())
            .then_some((TemperatureDifference::from_celsius(Number::ZERO), Friction::Hand))
    })
}

impl Mix {
    /// The figures of the sum, for a room and a flour; `None` when the friction is not known.
    pub fn figures(&self, room: Temperature, flour: Temperature, today: &Today) -> Option<Figures> {
        let preferment = self.preferment.as_ref().map(|(_, place)| today.preferment.or(*place).unwrap_or(room));
        let (friction, _) = self.friction.as_ref()?;
        Some(Figures { desired: self.desired, room, flour, preferment, friction: *friction })
    }
}

/// Everything in the bowl but what is poured, with its heat: flour as warm as the flour, a preferment as the preferment, a line
/// with a temperature as it says, one that is `cold` or `chilled` at 5 °C, the rest as warm as the room.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn others(recipe: &Recipe, formula: &Formula, id: PartId, figures: &Figures) -> Result<Vec<Warm>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(Vec::new()) };
    let mut all = Vec::new();
    for (line, amount) in part.lines.iter().zip(&solved.lines) {
        let Some(mass) = amount.final_mix.filter(|_| !line.aside && !is_liquid(line)) else { continue };
        let cold = line.preparation.as_deref().is_some_and(|words| has_word(words, &["cold", "chilled"]));
        let usual = match line.refers {
            Refers::Part(_) => figures.preferment.unwrap_or(figures.room),
            Refers::Pantry(_) if line.is_flour => figures.flour,
            Refers::Pantry(_) if cold => Temperature::from_celsius(Number::whole(5)),
            Refers::Pantry(_) => figures.room,
        };
        let heat = match line.refers {
            Refers::Part(other) => of_part(formula, other)?,
            Refers::Pantry(_) => heat::of(line.facts(), line.is_flour)?,
        };
        all.push(Warm { mass, heat, at: line.temperature.unwrap_or(usual) });
    }
    for (preferment, _) in recipe.preferments(id) {
        let Some(mass) = formula.part(preferment).and_then(|part| part.goes_in) else { continue };
        all.push(Warm { mass, heat: of_part(formula, preferment)?, at: figures.preferment.unwrap_or(figures.room) });
    }
    Ok(all)
}

/// The specific heat of a part, from what it consists of; its flour holds 13.4 % of water (USDA SR26 20083).
fn of_part(formula: &Formula, id: PartId) -> Result<Number, Overflow> {
    let Some(makeup) = formula.part(id).map(|part| part.comes_out).filter(|makeup| makeup.total > Mass::ZERO) else {
        return Ok(heat::SOLIDS);
    };
    let in_flour = makeup.flour.times(Number::constant(134, 1000))?;
    let water = makeup.water.plus(in_flour)?.ratio(makeup.total)?;
    heat::of_shares(water, makeup.fat.ratio(makeup.total)?)
}
