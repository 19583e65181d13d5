//! What stands when it was baked, and a dough that waits for weeks to be: dense rye that is cut after a day, stollen and honey cakes that ripen,
//! honey dough that lies. Common practice, no source.

use crate::check::usual_times::{DAY, HOUR, MINUTE, Usual};
use crate::language::syntax::{Content, Line, StepKind, StepLine};
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::lowered::{Beginnings, beginnings};

/// What is done to it is called so, whatever it is.
const STANDS: &Beginnings = &Beginnings::of(&[
    "rest", "stand", "ripen", "age", "ageing", "mature", "store", "keep", "mellow", "season", "lie|", "lies|",
]);

/// How long a step stands, where something stands that was baked, or a dough that yeast does not raise.
pub(super) fn usual(step: &StepLine, (part, at): (&[Line], usize), baked_above: bool) -> Option<Usual> {
    let stands = || step.name.has_word_beginning(STANDS);
    let cools = || step.name.has_word_beginning(beginnings!["cool"]);
    if step.kind.value != StepKind::Wait
        || !(stands() || cools())
        || step.name.has_word_beginning(PROVES)
        || step.name.has_word_beginning(RISES)
    {
        return None;
    }
    let here = part.iter().take(at).any(is_bake);
    let baked = here || baked_above && !lists(part, RAISED);
    if baked && cools() {
        return lists(part, beginnings!["rye"]).then_some(("bread of rye cools and settles", 5 * MINUTE, 2 * DAY));
    }
    if baked && stands() {
        return Some(("what was baked stands", 3 * MINUTE, 400 * DAY));
    }
    let lies = stands() && lists(part, beginnings!["honey", "syrup", "treacle", "molasses"]) && lists(part, FLOUR);
    (lies && !lists(part, PERISHES)).then_some(("a dough of honey lies", HOUR, 200 * DAY))
}

const FLOUR: &Beginnings = &Beginnings::of(&["flour", "rye"]);
/// What makes a dough rise, or is one.
const RAISED: &Beginnings = &Beginnings::of(&["yeast", "starter", "levain", "leaven", "sour|", "flour"]);
/// What keeps no dough of honey from spoiling, or raises it meanwhile.
const PERISHES: &Beginnings =
    &Beginnings::of(&["yeast", "starter", "levain", "leaven", "sour|", "milk", "egg", "cream"]);

/// Whether a line is a step that bakes.
pub(super) fn is_bake(line: &Line) -> bool {
    matches!(&line.content, Content::Step(step) if step.kind.value != StepKind::Wait && step.name.has_word_beginning(beginnings!["bake|", "baking|"]))
}

/// Whether a part lists something whose name has such a word.
fn lists(part: &[Line], words: &Beginnings) -> bool {
    part.iter().any(|line| matches!(&line.content, Content::Ingredient(line) if line.name.has_word_beginning(words)))
}
