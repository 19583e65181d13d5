//! What of a formula touches a figure that is measured: while none of it changes, bakes of older versions count.
//!
//! A claim is no cause: to write another loss into a formula does not change what the oven takes, so what was measured before
//! still counts. The time of a step is both: it is what is done, and a step of another time is another step.

use super::claims::{find, mix_step};
use super::measurement::Kind;
use crate::model::kind::Kind as Ingredient;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::Formula;
use std::fmt::Write;

/// Everything that touches a figure, in one text; `None` where the formula has no such step.
pub fn of(recipe: &Recipe, formula: &Formula, kind: Kind, part: &str, step: &str) -> Option<String> {
    let (id, at) = find(recipe, part, step)?;
    let part = recipe.part(id)?;
    let step = part.steps.get(at)?;
    let mut all = String::new();
    match kind {
        Kind::Time => {
            all.push_str(&done(step));
            // How long a dough takes to rise hangs on its leaven and on how warm it is.
            if step.kind == StepKind::Wait {
                all.push_str(&lines(part, id, formula, |line| line.is_leaven()));
                let _ = write!(all, "{:?}", part.desired_temperature);
            }
        }
        Kind::LeftAt | Kind::Friction => {
            let mix = mix_step(recipe, part).and_then(|at| part.steps.get(at)).unwrap_or(step);
            all.push_str(&done(mix));
            all.push_str(&done(step));
            if kind == Kind::LeftAt {
                let warm: Vec<_> = part.lines.iter().map(|line| (line.name.key.as_str(), line.temperature)).collect();
                let _ = write!(all, "{warm:?}{:?}", part.desired_temperature);
            }
        }
        Kind::Loss | Kind::Each => {
            all.push_str(&done(step));
            let solved = formula.part(id)?;
            let _ = write!(all, "{:?}{:?}", solved.each, recipe.pan.map(|pan| pan.pan));
            // A wetter dough loses more.
            all.push_str(&lines(part, id, formula, |line| line.is_flour || line.kind.is_poured()));
        }
        Kind::Pieces => {
            let solved = formula.part(id)?;
            let _ = write!(all, "{:?}{:?}", solved.pieces, solved.each);
        }
        Kind::All => {
            all.push_str(&done(step));
            all.push_str(&lines(part, id, formula, |_| true));
            let _ = write!(all, "{:?}", formula.part(id)?.base);
        }
    }
    Some(all)
}

/// Where a figure's part and step stand in the recipe, to bring figures into the order of the work.
pub fn place(recipe: &Recipe, part: &str, step: &str) -> (usize, usize) {
    find(recipe, part, step).map_or((usize::MAX, 0), |(id, at)| (id.0, at))
}

/// What is done in a step: all of its line but how long it may stand and who does it.
fn done(step: &Step) -> String {
    let equipment = step.equipment.as_ref().map(|name| name.key.as_str());
    format!(
        "{:?}{:?}{:?}{equipment:?}{:?}{:?}{:?}",
        step.kind, step.time, step.loads, step.temperature, step.later, step.up_to
    )
}

/// Some lines of a part, as shares of its base or as they weigh.
fn lines(
    part: &Part,
    id: PartId,
    formula: &Formula,
    which: impl Fn(&crate::model::recipe::Ingredient) -> bool,
) -> String {
    let mut all = String::new();
    let solved = formula.part(id).map(|part| part.lines.as_slice()).unwrap_or_default();
    for (line, amount) in part.lines.iter().zip(solved).filter(|(line, _)| which(line)) {
        let _ = match amount.percent {
            Some(share) => write!(all, "{}{share:?}", line.name.key.as_str()),
            None => write!(all, "{}{:?}", line.name.key.as_str(), amount.mass),
        };
    }
    all
}

/// Whether an ingredient raises a dough, or is a part that does.
trait Leaven {
    fn is_leaven(&self) -> bool;
}

impl Leaven for crate::model::recipe::Ingredient {
    fn is_leaven(&self) -> bool {
        matches!(self.kind, Ingredient::Yeast(_)) || matches!(self.refers, crate::model::recipe::Refers::Part(_))
    }
}
