//! What goes into one bowl with the rest of a part, and what of it is in the mix whose temperature a baker desires.

use crate::model::cooking::rests::WORKS;
use crate::model::cooking::{Beginnings, beginnings, called, first_draws};
use crate::model::flow::first_taker;
use crate::model::recipe::{Part, PartId};
use crate::model::step::{Loads, Step, StepKind, Target};

/// Beginnings of the names of steps in which a dough is out of its bowl.
const OUT_OF_THE_BOWL: &Beginnings = &Beginnings::of(&[
    "divide", "portion", "shape", "round", "mould", "roll", "laminat", "lock", "enclose", "prove", "proof", "proving",
    "bake", "baking", "brush", "glaz", "paint", "egg wash", "strew", "sprinkle", "dust", "pipe", "deposit",
]);

/// Words by which it is too, and which begin others: a panade and a panna cotta are stirred, a topping is weighed.
const OUT_AS_A_WORD: &[&str] = &["pan", "panning", "top", "tops"];

/// Whether by its name a dough is out of its bowl in a step.
pub fn is_out_of_the_bowl(step: &Step) -> bool {
    called(step, OUT_OF_THE_BOWL)
        || step.name.may_have_word_beginning(beginnings!["pan", "top"]) && has_one_of(step, OUT_AS_A_WORD)
}

fn has_one_of(step: &Step, words: &[&str]) -> bool {
    step.name.key.as_str().split(|letter: char| !letter.is_alphanumeric()).any(|word| words.contains(&word))
}

/// Whether something is fried in a step: what goes in there goes into hot fat, and what goes in later is put by a scale again.
fn fries(step: &Step) -> bool {
    step.name.may_have_word_beginning(beginnings!["fry"]) && has_one_of(step, &["fry", "frying"])
}

/// Which lines of a part go into the bowl with the others: not what is put on its pieces, nor what the dough is laminated with, nor what
/// it is fried in, unless the frying is where the part begins.
pub fn into_the_bowl(part: &Part) -> Vec<bool> {
    into_the_bowl_before(part, out_of_the_bowl(part))
}

/// The first step in which a dough is out of its bowl.
fn out_of_the_bowl(part: &Part) -> Option<usize> {
    part.steps.iter().position(|step| step.loads != Loads::Once || is_out_of_the_bowl(step))
}

fn into_the_bowl_before(part: &Part, out: Option<usize>) -> Vec<bool> {
    let begins = first_taker(part);
    let is_in = |first: usize| {
        let fried = first > begins && part.steps.get(first).is_some_and(fries);
        out.is_none_or(|out| first < out) && !fried
    };
    let draws = first_draws(part);
    let first = |at: usize| draws.get(&Target::Line(at)).copied();
    (0..part.lines.len()).map(|at| first(at).is_none_or(is_in)).collect()
}

/// Words by which a dough is kneaded on, by the beginnings of names of steps: the mix ends with that, whatever rests before.
const MIXES: &Beginnings = &Beginnings::of(&["knead", "mix", "work in"]);

/// Which lines of a part are in the mix when it ends: what goes into the bowl, but nothing that goes in only when the dough has begun to
/// work, butter that is folded in after the rise. Flour and what is poured are mixed whenever they go in, after a sponge in the same bowl too;
/// what is brushed or dusted on later says nothing of when that was.
pub fn in_the_mix(part: &Part) -> Vec<bool> {
    let draws = first_draws(part);
    let first = |at: usize| draws.get(&Target::Line(at)).copied();
    let out = out_of_the_bowl(part);
    let mut all = into_the_bowl_before(part, out);
    let is_base = |at: &usize| {
        all.get(*at).is_some_and(|is_in| *is_in)
            && part.lines.get(*at).is_some_and(|line| line.is_flour || line.kind.is_poured())
    };
    let last = (0..part.lines.len()).filter(is_base).filter_map(first).max();
    let kneads = |step: &Step| step.kind == StepKind::Hands && called(step, MIXES);
    let is_mixed_on = |from: usize| part.steps.iter().take(out.unwrap_or(part.steps.len())).skip(from + 1).any(kneads);
    let works = |(at, step): (usize, &Step)| {
        let rises = step.kind == StepKind::Wait && called(step, WORKS);
        (rises && last.is_none_or(|last| at > last) && !is_mixed_on(at)).then_some(at)
    };
    let ends = part.steps.iter().enumerate().find_map(works);
    for (at, is_in) in all.iter_mut().enumerate() {
        let in_time = first(at).is_none_or(|first| ends.is_none_or(|ends| first < ends));
        *is_in &= in_time && part.lines.get(at).is_none_or(|line| !line.strained_out);
    }
    all
}

/// Before which line a preferment goes into the bowl: before the first that only a later step takes, else behind all of them.
pub fn preferment_before(part: &Part, preferment: PartId) -> usize {
    let draws = first_draws(part);
    let step = draws.get(&Target::Preferment(preferment)).copied();
    let is_later = |at: &usize| step.zip(draws.get(&Target::Line(*at))).is_some_and(|(step, first)| *first > step);
    (0..part.lines.len()).find(is_later).unwrap_or(part.lines.len())
}
