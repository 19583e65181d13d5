//! How much of what is made was in the heat that takes of its weight: what is filled, glazed or strewn afterwards loses nothing there.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::cooking::{Beginnings, bakes, called, first_draws};
use crate::model::flow::heats_empty;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::model::step::{Step, Target, Timing};
use crate::solve::formula::Formula;

/// Equipment in which pieces lose of their weight, beside ovens.
const HEATS: &Beginnings = &Beginnings::of(&["fryer", "griddle", "grill", "steamer", "waffle", "plancha", "tandoor"]);

/// Verbs of it.
const VERBS: &Beginnings = &Beginnings::of(&["bak", "fry", "fried", "griddl", "grill", "steam"]);

/// What an oven does beside baking: its step is called so.
const BESIDE: &Beginnings = &Beginnings::of(&["toast", "warm", "reheat", "preheat", "steril", "glaz", "brown"]);

/// What the heat takes of all that is made, when it takes so much of what was in it: of a bun that is filled after it was baked less.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn loss_of_all(recipe: &Recipe, formula: &Formula, id: PartId, loss: Proportion) -> Result<Proportion, Overflow> {
    let share = share(recipe, formula, id)?;
    loss.value().times(share.value()).map(Proportion::new)
}

/// Which share of a part's weight was in the heat: all of it where no step says otherwise.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn share(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Proportion, Overflow> {
    let all = Looked { recipe, formula, all: false };
    // What a part says that it loses by itself, as roasted onions do, the head does not say again; but where nothing else is heated.
    for looked in [all, Looked { all: true, ..all }] {
        let share = looked.share(id, None, 0)?;
        if share.is_positive() {
            return Ok(Proportion::new(share));
        }
    }
    Ok(Proportion::WHOLE)
}

#[derive(Clone, Copy)]
struct Looked<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    /// Also parts that say their own loss.
    all: bool,
}

impl Looked<'_> {
    /// The share of a part, of its steps before `until`.
    fn share(&self, id: PartId, until: Option<usize>, depth: usize) -> Result<Number, Overflow> {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Ok(Number::ZERO) };
        let says_own = part.makes.is_some_and(|makes| makes.loss.is_some());
        // A ring of parts was reported; it must not hang here.
        if depth > self.recipe.parts.len() || (depth > 0 && says_own && !self.all) {
            return Ok(Number::ZERO);
        }
        let done = part.steps.get(..until.unwrap_or(part.steps.len())).unwrap_or(&part.steps);
        let last = done.iter().rposition(takes_of_the_weight);
        let drawn = first_draws(part);
        let (mut all, mut heated) = (Mass::ZERO, Mass::ZERO);
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            let Some(mass) = amount.mass.filter(|_| line.stays_in() && !amount.left_out) else { continue };
            let inner = line.part();
            // A preferment's lines already stand in the total formula.
            if inner.and_then(|inner| self.recipe.part(inner)).is_some_and(|inner| inner.from == Some(id)) {
                continue;
            }
            all = all.plus(mass)?;
            let is_in = |last: usize| drawn.get(&Target::Line(at)).is_none_or(|step| is_by(part, id, *step, last));
            if last.is_some_and(is_in) {
                heated = heated.plus(mass)?;
            } else if let Refers::Part(inner) = line.refers {
                let until = line.before.filter(|before| before.part == inner).map(|before| before.step);
                heated = heated.plus(mass.times(self.share(inner, until, depth + 1)?)?)?;
            }
        }
        if all > Mass::ZERO { heated.ratio(all) } else { Ok(Number::ZERO) }
    }
}

/// Whether a step is done by the time another one of its part is: above it, or beside it or before it by its own words.
fn is_by(part: &Part, id: PartId, step: usize, last: usize) -> bool {
    let said = |order: &Timing| {
        matches!(order, Timing::During(_) | Timing::Into(_) | Timing::Before(_))
            && order.other().part == id
            && order.other().step <= last
    };
    step <= last || part.steps.get(step).is_some_and(|step| step.order.iter().any(said))
}

fn takes_of_the_weight(step: &Step) -> bool {
    let uses = |step: &Step| step.equipment.as_ref().is_some_and(|name| name.has_word(HEATS));
    let is_heat = bakes(step) || uses(step) || (step.temperature.is_none() && called(step, VERBS));
    is_heat && !heats_empty(step) && (!called(step, BESIDE) || called(step, VERBS))
}
