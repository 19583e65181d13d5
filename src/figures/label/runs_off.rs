//! What runs off and takes something along of what went in, nobody knows how much: whey, and the water in which salted vegetables are rinsed.

use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{beginnings, first_draws, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Target, Words};
use crate::solve::formula::Formula;
use crate::solve::formula::leaves::{Counted, leaves};

/// What is lost at least where whey runs off: less sticks to the bowl.
const LEAST: Number = Number::constant(3, 20);

/// Whether a part loses whey: its milk may be its own, or that of a part in it, yoghurt that was set here, however the loss is said.
pub(super) fn loses_whey(recipe: &Recipe, formula: &Formula, (id, part): (PartId, &Part)) -> bool {
    let said = [part.makes.and_then(|makes| makes.loss), part.divide.and_then(|divide| divide.loss)];
    let loses = said.into_iter().flatten().any(|loss| loss.value() >= LEAST);
    let drains = |step: &Step| says(step, beginnings!["drain", "strain", "whey", "cloth", "muslin", "hang", "curd"]);
    loses && part.steps.iter().any(drains) && is_of_milk(recipe, formula, (id, part))
}

fn is_of_milk(recipe: &Recipe, formula: &Formula, (id, part): (PartId, &Part)) -> bool {
    let is_milk = |line: &Ingredient| matches!(line.kind, Kind::Milk | Kind::Dairy);
    if part.lines.iter().any(|line| is_milk(line) && line.part().is_none()) {
        return true;
    }
    let half = || {
        let all = leaves(recipe, formula, id, Counted::GoesIn).ok()?;
        let mass = |is: &dyn Fn(&Ingredient) -> bool| {
            Mass::sum(all.iter().filter(|leaf| is(leaf.line)).map(|leaf| leaf.mass)).ok()
        };
        mass(&is_milk)?.as_share_of(mass(&|_| true)?).ok()
    };
    part.lines.iter().any(|line| line.part().is_some())
        && half().is_some_and(|share| share >= Proportion::new(Number::constant(1, 2)))
}

/// So long meat or fish lies in the salt of a dry cure at least. Common practice, no source.
const CURES: Duration = Duration::new(Number::whole(6 * 3600));

/// Whether a line is salt that goes onto vegetables or fruit, and a later step rinses them, or the salt or sugar of a dry cure that is taken off
/// meat or fish again: a third of it and less stays. Common practice, no source.
pub(super) fn is_rinsed_off(part: &Part, at: usize) -> bool {
    let line = |at: usize| part.lines.get(at);
    if !line(at).is_some_and(|line| matches!(line.kind, Kind::Salt | Kind::Sugar)) {
        return false;
    }
    if is_cured_off(part, at) {
        return true;
    }
    if !line(at).is_some_and(|line| line.kind == Kind::Salt) {
        return false;
    }
    let Some(first) = first_draws(part).get(&Target::Line(at)).copied() else { return false };
    let beside: Vec<usize> = part.steps.get(first).into_iter().flat_map(Step::lines_taken).collect();
    let any = |is: &dyn Fn(&Ingredient) -> bool| beside.iter().filter_map(|at| line(*at)).any(is);
    let is_on_food = any(&|line| matches!(line.kind, Kind::Vegetable | Kind::Fruit)) && !any(&|line| line.is_flour);
    // `Rinse {capers}` rinses those.
    let rinses = |step: &Step| {
        let mut taken = step.lines_taken().peekable();
        let of_them = taken.peek().is_none() || taken.any(|at| beside.contains(&at));
        of_them && says(step, beginnings!["rinse", "wash off", "wash the salt"])
    };
    // In the same step it is rinsed behind the salt: `rinse {cucumber}, strew with {salt}` washes nothing off.
    let is_salt = |word: &Words| matches!(word, Words::Use { target: Some(Target::Line(found)), .. } if *found == at);
    let rinsed_behind = |step: &Step| {
        let behind = step.words.iter().skip_while(|word| !is_salt(word));
        behind
            .filter_map(|word| if let Words::Text(text) = word { Some(text) } else { None })
            .any(|text| has_word_beginning(&text.to_lowercase(), ["rinse", "rinsed"]))
    };
    is_on_food && (part.steps.get(first).is_some_and(rinsed_behind) || part.steps.iter().skip(first + 1).any(rinses))
}

/// Whether a line lies on meat or fish for hours and is then scraped, wiped or brushed off, or runs off as brine.
fn is_cured_off(part: &Part, at: usize) -> bool {
    let Some(first) = first_draws(part).get(&Target::Line(at)).copied() else { return false };
    let mut beside = part.steps.get(first).into_iter().flat_map(Step::lines_taken).filter_map(|at| part.lines.get(at));
    if !beside.any(is_flesh) {
        return false;
    }
    let later = || part.steps.iter().enumerate().skip(first + 1);
    let Some((cured, _)) = later().find(|(_, step)| step.kind == StepKind::Wait && step.time.1 >= CURES) else {
        return false;
    };
    let mut after = later().filter(|(at, _)| *at > cured).map(|(_, step)| step);
    after.any(|step| says(step, beginnings!["rinse", "wash off", "scrape", "brush off", "wipe", "pour off"]))
}
