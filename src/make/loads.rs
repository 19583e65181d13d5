//! How a step is cut into loads: by what it says, and by what the equipment holds.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::model::bowl::is_out_of_the_bowl;
use crate::model::cooking::{Beginnings, called, cooks_by_head, is_hot};
use crate::model::flow::is_free;
use crate::model::kitchen::{Capacity, Kitchen};
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::model::slab::whole_at;
use crate::model::step::{Loads, Step, StepKind, StepRef, Target, Timing};
use crate::solve::formula::{Formula, SolvedPart};
use std::ops::RangeInclusive;

/// The most loads of a step. Nothing goes through them one by one, so that what each piece takes is counted for a year's pieces too.
const MOST: i64 = 1_000_000_000;

/// The pieces that a part is handled in: what it is divided into, else the recipe's.
pub fn pieces_of(part: &Part, solved: &SolvedPart, formula: &Formula) -> Option<Number> {
    let by_recipe = part.per_piece && part.sort.is_none() && part.foreign.is_none();
    let own = if by_recipe { formula.pieces } else { solved.pieces.or(formula.pieces) };
    own.map(crate::measure::quantity::Count::value)
}

/// How much of a part is still there at a step, of 1: what is used before it is not.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn reach(recipe: &Recipe, id: PartId, solved: &SolvedPart, step_at: usize) -> Result<Number, Overflow> {
    recipe.part(id).map_or(Ok(Number::ONE), |part| solved.reach(part, id, step_at))
}

/// As [`pieces_of`], at a step: without those that are used before it.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn pieces_at(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step_at: usize,
) -> Result<Option<Number>, Overflow> {
    let pieces = recipe.part(id).and_then(|part| pieces_of(part, solved, formula));
    let reach = reach(recipe, id, solved, step_at)?;
    pieces.map(|pieces| counted(pieces.times(reach)?)).transpose()
}

/// A count that is whole but for what the weights were rounded by: nobody cuts 15.97 pieces.
fn counted(pieces: Number) -> Result<Number, Overflow> {
    let whole = pieces.rounded_to(Number::ONE)?;
    let apart = pieces.minus(whole)?.size();
    Ok(if whole > Number::ONE && apart <= Number::constant(1, 20) { whole } else { pieces })
}

/// How many pieces are through when so many of the loads are: said loads are full until the last, others as equal as whole
/// pieces can be, the larger ones first.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn through(pieces: Number, size: Option<Number>, done: Number, loads: i64) -> Result<Number, Overflow> {
    let dealt = match size {
        Some(size) => size.times(done)?,
        None => pieces.times(done)?.over(Number::whole(loads.max(1)))?,
    };
    let whole = if pieces.to_whole().is_some() { dealt.ceil() } else { dealt };
    Ok(whole.min(pieces))
}

/// Whether a step is cut into loads by pieces, and not by the weight that its equipment holds.
pub fn is_by_pieces(step: &Step, kitchen: &Kitchen) -> bool {
    step.loads != Loads::Once || matches!(capacity(step, kitchen), Some(Capacity::Pieces(_)))
}

/// Pieces up to this weight lie by many more on a tray than what a unit is said to hold of other things: sixty meringues where two dozen
/// loaves stand. Common practice, no source.
const SMALL: Mass = Mass::new(Number::whole(60));

/// Whether as many pieces as a step says are a load of equipment that is said to hold so many: no more than that, or what is baked and
/// small.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn fits(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step: &Step,
    (size, holds): (Number, Number),
) -> Result<bool, Overflow> {
    if size <= holds || !is_hot(step) {
        return Ok(size <= holds);
    }
    let each = match solved.each {
        None => formula.per_piece(recipe, id)?,
        each => each,
    };
    Ok(each.is_some_and(|each| each <= SMALL))
}

/// How many loads a step takes, each of which lasts the step's time; none where nothing gets so far.
///
/// # Errors
/// When a number leaves the range of exact numbers, or there are more loads than anybody has.
pub fn count(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step_at: usize,
    kitchen: &Kitchen,
) -> Result<i64, Overflow> {
    let Some(part) = recipe.part(id) else { return Ok(1) };
    let Some(step) = part.steps.get(step_at) else { return Ok(1) };
    if reach(recipe, id, solved, step_at)?.is_zero() {
        return Ok(0);
    }
    let own = own_count((recipe, id), (solved, formula), (part, step_at), kitchen)?;
    // What is half cooked and goes straight on in the same pot is done in as many loads as that: a pot holds only one of them.
    let is_half_cooked = step.loads == Loads::Once && step.kind != StepKind::Wait && cooks_by_head(step);
    let here = StepRef { part: id, step: step_at };
    let goes_on = |later: &Step| {
        later.loads == Loads::Once
            && later.order.iter().any(|order| matches!(order, Timing::StraightAfter(other) if *other == here))
            && step.equipment.as_ref().zip(later.equipment.as_ref()).is_some_and(|(one, other)| one.same(other))
    };
    let mut most = own;
    if is_half_cooked {
        for (later, _) in part.steps.iter().enumerate().filter(|(_, later)| goes_on(later)) {
            most = own_count((recipe, id), (solved, formula), (part, later), kitchen)?.max(most);
        }
    }
    most.to_whole().filter(|loads| *loads <= MOST).ok_or(Overflow)
}

/// How many loads a step takes by itself.
fn own_count(
    (recipe, id): (&Recipe, PartId),
    (solved, formula): (&SolvedPart, &Formula),
    (part, step_at): (&Part, usize),
    kitchen: &Kitchen,
) -> Result<Number, Overflow> {
    let Some(step) = part.steps.get(step_at) else { return Ok(Number::ONE) };
    let pieces = pieces_at((recipe, id), solved, formula, step_at)?;
    let said = match (step.loads, pieces) {
        (Loads::Once, _) | (_, None) => Number::ONE,
        (Loads::Each, Some(pieces)) => pieces.ceil(),
        (Loads::Of(size) | Loads::EachOf(size), Some(pieces)) => pieces.over(size)?.ceil(),
    };
    let fits = match capacity(step, kitchen) {
        Some(Capacity::Pieces(most)) => match (step.loads, pieces) {
            // Said loads already are pieces; only larger ones than fit are cut again.
            (Loads::Of(size) | Loads::EachOf(size), _)
                if fits((recipe, id), solved, formula, step, (size, most.value()))? =>
            {
                Number::ONE
            }
            (Loads::Each, _) | (_, None) => Number::ONE,
            // What is not in pieces yet, or never will be, is not counted in them: bones on two trays are not 80 portions.
            (Loads::Once, Some(_)) if !in_pieces(recipe, id) => Number::ONE,
            (_, Some(pieces)) => {
                let by_pieces = pieces.over(most.value())?.ceil();
                // Until it is cut it is one slab, and of twice as much there are two.
                match whole_at(recipe, id, step_at).filter(|_| step.loads == Loads::Once) {
                    Some(slab) if slab > Count::ZERO => by_pieces.min(pieces.over(slab.value())?.ceil()),
                    _ => by_pieces,
                }
            }
        },
        Some(Capacity::Mass(_)) if step.loads == Loads::Once => {
            let own = by_weight((recipe, id), solved, step_at, kitchen)?;
            // What is put together in loads stays in them until the last of it is in.
            if own > Number::ONE && mixing_steps(part, solved).contains(&step_at) {
                most_by_weight((recipe, id), (part, solved), kitchen)?.max(own)
            } else {
                own
            }
        }
        None if lies_in_loads((recipe, id), (part, solved), step_at, kitchen)? => {
            most_by_weight((recipe, id), (part, solved), kitchen)?
        }
        _ => Number::ONE,
    };
    Ok(said.max(fits).max(Number::ONE))
}

/// In how many loads a part is put together: as many as the step has that is cut by weight into the most of them.
fn most_by_weight(
    of: (&Recipe, PartId),
    (part, solved): (&Part, &SolvedPart),
    kitchen: &Kitchen,
) -> Result<Number, Overflow> {
    let mut most = Number::ONE;
    for at in mixing_steps(part, solved) {
        most = by_weight(of, solved, at, kitchen)?.max(most);
    }
    Ok(most)
}

/// Whether hands work at a step on what came in loads out of a step above it: each lies in a bowl of its own, and what is folded in goes into
/// each, until a rest, an oven, a tub or the cutting of pieces takes them together.
fn lies_in_loads(
    of: (&Recipe, PartId),
    (part, solved): (&Part, &SolvedPart),
    step_at: usize,
    kitchen: &Kitchen,
) -> Result<bool, Overflow> {
    // Only what holds so much by weight cuts into loads, and that is equipment; in most parts there is none above.
    let has_equipment = part.steps.iter().take(step_at).any(|step| step.equipment.is_some());
    let is_such = has_equipment && part.steps.get(step_at).is_some_and(keeps_loads_apart);
    if part.per_piece || !is_such || !mixing_steps(part, solved).contains(&step_at) {
        return Ok(false);
    }
    let goes_on = |step: &Step| keeps_loads_apart(step) || is_free(step);
    // It stands in loads also while nothing is added, if later something is; else it is taken together as soon as somebody likes to.
    let is_put_in_at = |at: usize| solved.draws.iter().any(|draw| draw.step == at && is_put_in(part, draw.target));
    let mut from_here = part.steps.iter().enumerate().skip(step_at).take_while(|(_, step)| goes_on(step));
    if !from_here.any(|(at, _)| is_put_in_at(at)) {
        return Ok(false);
    }
    match part.steps.iter().enumerate().take(step_at).rev().find(|(_, step)| !goes_on(step)) {
        Some((at, _)) => Ok(by_weight(of, solved, at, kitchen)? > Number::ONE),
        None => Ok(false),
    }
}

/// Whether it is put into the others, and not set aside for the bench or the tins.
fn is_put_in(part: &Part, target: Target) -> bool {
    match target {
        Target::Line(at) => part.lines.get(at).is_some_and(|line| !line.aside),
        Target::Preferment(_) => true,
    }
}

/// Whether what a step works on stays in the bowls in which it came.
fn keeps_loads_apart(step: &Step) -> bool {
    step.kind == StepKind::Hands
        && step.loads == Loads::Once
        && step.equipment.is_none()
        && !is_free(step)
        && !is_out_of_the_bowl(step)
        && !called(step, TAKES_TOGETHER)
}

/// Beginnings of the names of steps in which all of it comes together, or into tins. Common practice, no source.
const TAKES_TOGETHER: &Beginnings = &Beginnings::of(&[
    "tip", "turn", "combine", "join", "fill", "press", "line", "spread", "layer", "assembl", "pour", "scale",
]);

/// How many pieces fill the equipment of a step that is hot: what is baked `60 at a time` fills its oven, whatever that holds of other
/// things. Nothing where no number is said, or where it does not fit.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn fills(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step: &Step,
    kitchen: &Kitchen,
) -> Result<Option<Number>, Overflow> {
    let Some(size) = step.loads.size().filter(|_| is_hot(step)) else { return Ok(None) };
    let fits = match capacity(step, kitchen) {
        Some(Capacity::Pieces(most)) => fits((recipe, id), solved, formula, step, (size, most.value()))?,
        _ => true,
    };
    Ok(fits.then_some(size))
}

/// How many loads of a step are done one after the other: as many as there is equipment for go side by side.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn turns(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step_at: usize,
) -> Result<Number, Overflow> {
    let count = count((recipe, id), solved, formula, step_at, &recipe.kitchen)?;
    let step = recipe.part(id).and_then(|part| part.steps.get(step_at));
    let equipment = step.and_then(|step| recipe.kitchen.find(step.equipment.as_ref()?));
    let side_by_side = equipment.map_or(1, |equipment| i64::from(equipment.count)).max(1);
    Ok(Number::whole(((count + side_by_side - 1) / side_by_side).max(1)))
}

/// Whether a time that is said of all the turns of a step is nearer to that of one of them: `bake: 16 min` of two loads of 15 min.
/// Which was meant, nobody can tell.
pub fn is_of_one_load(step: &Step, minutes: Number, turns: Number) -> bool {
    let nearer = || {
        let (low, high) = (step.time.0.in_minutes().ok()?, step.time.1.in_minutes().ok()?);
        // By ratio: minutes / low is less than (high * turns) / minutes.
        Some(minutes.times(minutes).ok()? < low.times(high).ok()?.times(turns).ok()?)
    };
    turns > Number::ONE && nearer().unwrap_or(false)
}

/// How much of all that goes through a step is meant by a line that speaks of one of its loads, of 1; nothing where there is no such
/// load. All of it is meant where no load is said, and of what is done piece by piece, of which a load is whatever was done at once.
/// The first load of a step that the formula does not cut into loads is none: an oven may be filled otherwise on a day, and how,
/// nobody says.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn share(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    formula: &Formula,
    step_at: usize,
    load: Option<i64>,
) -> Result<Option<Number>, Overflow> {
    let Some(step) = recipe.part(id).and_then(|part| part.steps.get(step_at)) else { return Ok(None) };
    let Some(load) = load.filter(|_| step.loads != Loads::Each) else { return Ok(Some(Number::ONE)) };
    let loads = count((recipe, id), solved, formula, step_at, &recipe.kitchen)?;
    let is_cut = loads > 1 || step.loads != Loads::Once || capacity(step, &recipe.kitchen).is_some();
    if !is_cut || !(1..=loads).contains(&load) {
        return Ok(None);
    }
    let pieces = pieces_at((recipe, id), solved, formula, step_at)?.filter(|pieces| pieces.is_positive());
    let Some(pieces) = pieces.filter(|_| is_by_pieces(step, &recipe.kitchen)) else {
        return Number::ONE.over(Number::whole(loads)).map(Some);
    };
    // Loads that are larger than fits are cut again, into as equal ones as can be.
    let said = step
        .loads
        .size()
        .filter(|size| pieces.over(*size).is_ok_and(|loads_said| loads_said.ceil() == Number::whole(loads)));
    let done = |loads_done: i64| through(pieces, said, Number::whole(loads_done), loads);
    done(load)?.minus(done(load - 1)?)?.over(pieces).map(Some)
}

/// The steps in which something is put in, those after the last of them left out: a dough that rests in two tubs was weighed
/// before.
pub fn mixing_steps(part: &Part, solved: &SolvedPart) -> RangeInclusive<usize> {
    let last = solved.draws.iter().map(|draw| draw.step).max().unwrap_or(0);
    0..=last.min(part.steps.len().saturating_sub(1))
}

/// How often the equipment of a step has to be filled by weight; once where it holds pieces or anything.
fn by_weight(
    (recipe, id): (&Recipe, PartId),
    solved: &SolvedPart,
    step_at: usize,
    kitchen: &Kitchen,
) -> Result<Number, Overflow> {
    let Some((part, step)) = recipe.part(id).and_then(|part| Some((part, part.steps.get(step_at)?))) else {
        return Ok(Number::ONE);
    };
    match (step.loads, capacity(step, kitchen)) {
        (Loads::Once, Some(Capacity::Mass(most))) => {
            let inside = weight_in((recipe, id), (part, solved), step_at)?;
            Ok(inside.ratio(most)?.ceil().max(Number::ONE))
        }
        _ => Ok(Number::ONE),
    }
}

/// How much a step of a part works on, all its loads together.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn weight_at((recipe, id): (&Recipe, PartId), solved: &SolvedPart, step_at: usize) -> Result<Mass, Overflow> {
    recipe.part(id).map_or(Ok(Mass::ZERO), |part| weight_in((recipe, id), (part, solved), step_at))
}

fn weight_in(
    (recipe, id): (&Recipe, PartId),
    (part, solved): (&Part, &SolvedPart),
    step_at: usize,
) -> Result<Mass, Overflow> {
    mass_in(part, solved, step_at)?.times(reach(recipe, id, solved, step_at)?)
}

/// How much the equipment of a step holds.
fn capacity(step: &Step, kitchen: &Kitchen) -> Option<Capacity> {
    step.equipment.as_ref().and_then(|name| kitchen.find(name)).and_then(|equipment| equipment.holds)
}

/// Whether a part is handled in pieces: it is divided, is written for one piece, takes another in pieces, or is what the
/// recipe is about.
pub fn in_pieces(recipe: &Recipe, id: PartId) -> bool {
    let Some(part) = recipe.part(id) else { return false };
    let takes_pieces = part.lines.iter().any(|line| match line.refers {
        Refers::Part(other) => recipe.part(other).is_some_and(|part| part.divide.is_some()),
        Refers::Pantry(_) => false,
    });
    part.divide.is_some() || part.per_piece || takes_pieces || recipe.final_part() == Some(id)
}

/// What is in the equipment at a step: what this step and those before it took, and once something of it was cooked no
/// more than what the part comes to.
fn mass_in(part: &Part, solved: &SolvedPart, step_at: usize) -> Result<Mass, Overflow> {
    let all = solved.goes_in.unwrap_or(Mass::ZERO);
    let later = solved.draws.iter().filter(|draw| draw.step > step_at).filter_map(|draw| draw.drawn.mass);
    let now = all.minus(Mass::sum(later)?)?;
    let cooked = part.steps.iter().take(step_at).any(cooks_by_head);
    Ok(match solved.makes {
        Some(makes) if cooked && makes < now => makes,
        _ => now.max(Mass::ZERO),
    })
}
