//! The life of a dough from the step in which its leaven goes in to the oven, stretch by stretch.

use super::estimate::{Course, Model, Stretch, course};
use super::tables::Asked;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Duration, Mass, Proportion};
use crate::measure::temperature::Temperature;
use crate::model::cooking::{first_draw, has_word_beginning, is_hot};
use crate::model::kind::{Kind, YeastForm};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Loads, Step, Target, Timing};
use crate::model::yeast::convert;
use crate::solve::formula::{Formula, SolvedPart};

/// A room when nothing is said (assumed).
const ROOM: Temperature = Temperature::from_celsius(Number::whole(22));
/// A dough after mixing when nothing is desired (assumed).
const DOUGH: Temperature = Temperature::from_celsius(Number::whole(25));

/// The life of a dough, from its mix to the oven.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Life {
    /// What leavens it, as it is called.
    pub leaven: String,
    /// Whether that is a levain.
    pub is_levain: bool,
    /// How much on flour: instant yeast or what does the same; of a levain the share of flour that is prefermented.
    pub amount: Proportion,
    /// Of a yeast: its line in the formula, and what it weighs in the batch.
    pub weighed: Option<(String, Mass)>,
    /// How warm it leaves the mix.
    pub starts_at: Temperature,
    /// Step by step: the name and the stretch.
    pub stretches: Vec<(String, Stretch)>,
}

impl Life {
    /// Whether another has the same leaven for the same time, within a fiftieth: no choice to speak of.
    pub fn is_as_long_as(&self, other: &Life) -> bool {
        let (mine, others) = (self.courses().0.hours_at_25, other.courses().0.hours_at_25);
        let apart = mine.minus(others).and_then(|apart| apart.size().times(Number::whole(50)));
        self.leaven == other.leaven && self.amount == other.amount && apart.is_ok_and(|apart| apart <= mine)
    }

    /// By the growth model, and by the rule of thumb.
    pub fn courses(&self) -> (Course, Course) {
        let stretches: Vec<Stretch> = self.stretches.iter().map(|(_, stretch)| *stretch).collect();
        let model = if self.is_levain { Model::SourdoughYeast } else { Model::BakersYeast };
        let by = |model| course(model, self.starts_at, &stretches);
        (by(model), by(Model::TenthPerDegree))
    }
}

/// Follows a recipe's dough through its parts; `None` when nothing leavens it or its amount is not known.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn life(recipe: &Recipe, formula: &Formula, asked: &Asked) -> Result<Option<Life>, Overflow> {
    let mut ids: Vec<(bool, PartId)> = recipe.parts().map(|(id, part)| (part.foreign.is_some(), id)).collect();
    ids.sort();
    // Of a dough that is put into another with a leaven of its own, it is the other that is baked.
    let is_taken_up = |id: PartId| {
        let takers = recipe.users(id).filter_map(|(user, _)| Some((user, recipe.part(user)?)));
        let mut leavened = takers.map(|(user, part)| leaven(recipe, formula, user, part));
        leavened.any(|found| found.is_ok_and(|found| found.is_some()))
    };
    ids.sort_by_cached_key(|(foreign, id)| (*foreign, is_taken_up(*id)));
    for (_, id) in ids {
        let Some(part) = recipe.part(id).filter(|part| part.from.is_none()) else { continue };
        if formula.is_made(id)
            && let Some(found) = leaven(recipe, formula, id, part)?
        {
            let starts_at = part.desired_temperature.unwrap_or(DOUGH);
            let stretches = stretches(recipe, formula, id, found.goes_in, asked)?;
            let Leaven { name: leaven, is_levain, amount, weighed, .. } = found;
            let life = Life { leaven, is_levain, amount, weighed, starts_at, stretches };
            return Ok((!life.stretches.is_empty()).then_some(life));
        }
    }
    Ok(None)
}

/// What leavens a part.
struct Leaven {
    name: String,
    is_levain: bool,
    amount: Proportion,
    weighed: Option<(String, Mass)>,
    /// The step in which it goes in.
    goes_in: usize,
}

fn leaven(recipe: &Recipe, formula: &Formula, id: PartId, part: &Part) -> Result<Option<Leaven>, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(None) };
    for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
        let (Some(form), Some(mass), Some(base)) = (line.kind.yeast_form(), amount.mass, solved.base) else {
            continue;
        };
        // What another part brings along is flour of the dough as well: that of a sponge which is taken whole.
        let base = base.max(solved.composition.flour);
        if base > Mass::ZERO && mass > Mass::ZERO {
            return Ok(Some(Leaven {
                name: form.word().to_owned(),
                is_levain: false,
                amount: convert(mass, form, YeastForm::InstantDry)?.as_share_of(base)?,
                weighed: Some((line.name.to_string(), mass)),
                goes_in: first_draw(part, Target::Line(at)).unwrap_or(0),
            }));
        }
    }
    // A part is no ingredient; but a preferment that is called so, or holds a leaven, is one.
    let is_levain = |part: &Part| {
        Kind::of_name(part.name.key.as_str()) == Kind::Leaven || part.lines.iter().any(|line| line.kind == Kind::Leaven)
    };
    let taken = recipe.preferments(id).find(|(_, preferment)| is_levain(preferment));
    if let (Some((preferment, levain)), Some(share)) = (taken, solved.prefermented) {
        return Ok(Some(Leaven {
            name: levain.name.to_string(),
            is_levain: true,
            amount: share,
            weighed: None,
            goes_in: first_draw(part, Target::Preferment(preferment)).unwrap_or(0),
        }));
    }
    Ok(None)
}

/// From the step where the leaven goes in to the oven, through the parts that take the dough up.
fn stretches(
    recipe: &Recipe,
    formula: &Formula,
    first: PartId,
    from: usize,
    asked: &Asked,
) -> Result<Vec<(String, Stretch)>, Overflow> {
    let mut all = Vec::new();
    let (mut id, mut from) = (first, from);
    let mut piece = formula.part(id).and_then(|part| part.goes_in).unwrap_or(Mass::ZERO);
    let mut in_pieces = false;
    for _ in 0..=recipe.parts.len() {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { break };
        for (at, step) in part.steps.iter().enumerate().skip(from) {
            // What is all taken before a step goes on where it is taken to.
            if solved.reach(part, id, at)?.is_zero() {
                continue;
            }
            if step.order.iter().any(|order| matches!(order, Timing::During(_))) {
                continue;
            }
            if is_hot(step) {
                return Ok(all);
            }
            in_pieces |=
                step.loads.is_by_piece() || has_word_beginning(step.name.key.as_str(), ["divide", "shape", "scale"]);
            if let (true, Some(each)) = (in_pieces, a_piece(part, solved)?) {
                piece = each;
            }
            let stretch = Stretch { time: time_of(step, formula.pieces, asked)?, place: place_of(step, asked), piece };
            all.push((step.name.to_string(), stretch));
        }
        if let Some(each) = a_piece(part, solved)? {
            piece = each;
        }
        let Some((user, line)) = recipe.users(id).find(|(user, _)| formula.is_made(*user)) else {
            break;
        };
        // A piece of one sort goes on as what it weighs.
        let taken = formula.part(user).and_then(|part| part.lines.get(line)?.each);
        if let Some(each) = taken.filter(|each| *each > Mass::ZERO) {
            (piece, in_pieces) = (each, true);
        }
        from = recipe.part(user).and_then(|part| first_draw(part, Target::Line(line))).unwrap_or(0);
        id = user;
    }
    // Without an oven step the end is not known.
    Ok(all)
}

/// What a piece of a part weighs; of several sorts, on average.
fn a_piece(part: &Part, solved: &SolvedPart) -> Result<Option<Mass>, Overflow> {
    match solved.pieces.filter(|pieces| pieces.value().is_positive() && !part.sorts.is_empty()) {
        Some(pieces) => solved.of_all_sorts(part)?.over(pieces.value()).map(Some),
        None => Ok(solved.each),
    }
}

fn time_of(step: &Step, pieces: Option<Count>, asked: &Asked) -> Result<Duration, Overflow> {
    if let Some((_, time)) = asked.rests.iter().find(|(name, _)| *name == step.name.key.as_str()) {
        return Ok(*time);
    }
    let middle = step.time.0.plus(step.time.1)?.over(Number::whole(2))?;
    match (step.loads, pieces) {
        (Loads::Each, Some(pieces)) => middle.times(pieces.value()),
        (Loads::EachOf(size), Some(pieces)) => middle.times(size.min(pieces.value())),
        _ => Ok(middle),
    }
}

fn place_of(step: &Step, asked: &Asked) -> Temperature {
    if let Some((_, place)) = asked.places.iter().find(|(name, _)| *name == step.name.key.as_str()) {
        return *place;
    }
    step.temperature.map_or(asked.today.room.unwrap_or(ROOM), |(low, _)| low)
}
