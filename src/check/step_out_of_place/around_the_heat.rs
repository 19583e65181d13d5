//! What is done after the last heat and belongs before it, and the other way round.

use super::{COOLS, CUTS, MIXES, OUT_OF_THE_OVEN, Order, SHAPES, called_in_place, in_place, problem, takes};
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{Beginnings, bakes, beginnings, called, cooks, cooks_by_head, cools, says, words_of};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::Diagnostic;
/// Where dough is laid that is still raw, by words in a step's prose.
const ON_TRAYS: &[&str] = &[
    "lined tray",
    "lined tin",
    "on a tray",
    "on trays",
    "on to trays",
    "onto trays",
    "baking sheet",
    "into a tin",
    "in a tin",
    "into tins",
    "in their tins",
    "into the tin",
    "baskets",
    "on paper",
    "the pastry over",
    "the dough",
    "the batter",
];

/// With these, beside [`OUT_OF_THE_OVEN`], it is taken out, turned out, or finished.
const TAKEN_OUT: &Beginnings = &Beginnings::of(&[
    "turn out", "tip out", "take out", "lift", "from the", "off the", "hot", "glaz", "ic", "dust", "pack", "wrap",
    "sugar",
]);

fn is_out(step: &Step) -> bool {
    says(step, OUT_OF_THE_OVEN) || says(step, TAKEN_OUT)
}

/// Mixing, rising, shaping and proving after the last heat.
pub(super) fn after_the_bake(Order { part, baked, .. }: Order<'_>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    let rest = || part.steps.iter().skip(last + 1);
    let late = rest().filter(|step| step.order.is_empty());
    let late = late
        .filter(|step| {
            [MIXES, RISES, PROVES, SHAPES].iter().any(|words| called(step, words))
                || called(step, beginnings!["score", "slash", "rub", "enclose", "roll out"])
        })
        .find(|step| !called(step, beginnings!["cool", "ic", "glaz", "cream", "syrup", "fill", "topping"]))?;
    let message = format!("`{}` comes after `{}`, and nothing is baked after it", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

/// Dough that is laid on trays, or pieces that are pressed, stretched and set out, when nothing is baked any more.
pub(super) fn laid_out_after_the_bake(Order { part, baked, .. }: Order<'_>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    // Once something was filled, spread or poured on what is baked, the rest is finishing: sesame sticks to the cream.
    let finished = |at: usize, step: &Step| {
        let between = part.steps.get(last + 1..at).unwrap_or_default();
        let is_put_on =
            |step: &Step| step.kind == StepKind::Hands && takes_toppings(part, step) && !takes_egg(part, step);
        takes_toppings(part, step) && between.iter().any(is_put_on)
    };
    let raw = |(at, step): (usize, &Step)| {
        let words = words_of(step);
        if says(step, beginnings!["brush"]) && takes_egg(part, step) {
            return true;
        }
        // Seeds stick to what is wet.
        if called(step, beginnings!["dip", "press", "strew", "coat"])
            && takes_kind(part, step, Kind::Seed)
            && !is_out(step)
            && !finished(at, step)
        {
            return true;
        }
        let names = called(
            step,
            beginnings![
                "stretch", "set out", "lay", "line", "press", "dock", "prick", "stamp", "flatten", "laminat",
                "egg wash", "eggwash", "tin"
            ],
        );
        // What lies on bread that was toasted or baked goes on when it is out of the oven.
        let laid_on = || called(step, beginnings!["lay"]) && takes_toppings(part, step);
        !is_out(step) && (names && !laid_on() && !finished(at, step) || ON_TRAYS.iter().any(|raw| words.contains(raw)))
    };
    let rest = part.steps.iter().enumerate().skip(last + 1);
    let is_open = |step: &Step| step.kind == StepKind::Hands && step.order.is_empty();
    let (_, late) = rest.into_iter().find(|(at, step)| is_open(step) && raw((*at, step)))?;
    let message = format!("`{}` comes after `{}`, and nothing is baked after it", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

/// The last step in an oven, where no heat comes after it.
pub(super) fn last_bake(part: &Part) -> Option<(usize, &Step)> {
    let heated = |step: &Step| step.kind != StepKind::Wait && (called(step, beginnings!["bake"]) || bakes(step));
    let (last, bake) = in_place(part).filter(|(_, step)| heated(step)).last()?;
    // What is named in a step may be baking powder; only its head says that it cooks.
    (!part.steps.iter().skip(last + 1).any(cooks_by_head)).then_some((last, bake))
}

/// A rest to cool that stands right before the only heat of its part.
pub(super) fn cools_before_the_bake(Order { recipe, part, .. }: Order<'_>) -> Option<Diagnostic> {
    let (at, cool) = called_in_place(part, COOLS).find(|(_, step)| cools(step))?;
    let bake = part
        .steps
        .get(at + 1)
        .filter(|step| called(step, beginnings!["bake"]) && step.order.is_empty() && cooks(step))?;
    let proved = at.checked_sub(1).and_then(|before| part.steps.get(before)).is_some_and(|step| called(step, PROVES));
    // Pieces of a dough that is raw so far have nothing to cool.
    let is_raw = || {
        let made = part.lines.iter().filter_map(|line| recipe.part(line.part()?));
        let mut doughs = made.filter(|made| made.lines.iter().any(|line| line.is_flour && line.stays_in())).peekable();
        part.per_piece && doughs.peek().is_some() && doughs.all(|made| !made.steps.iter().any(bakes))
    };
    let by_head = part.steps.iter().take(at).any(cooks_by_head);
    let hot = if is_raw() {
        by_head
    } else {
        part.steps.iter().take(at).any(cooks) || !(takes_by_loads(cool, bake) || proved)
    };
    if hot || part.steps.iter().skip(at + 2).any(|step| called(step, COOLS)) {
        return None;
    }
    let message = format!("`{}` comes before `{}`, and nothing cools after it", cool.name, bake.name);
    Some(problem(cool, bake, message, "baked here", &format!("move it below `{}`", bake.name)))
}

/// Whether two steps take the same loads, or both all at once: what comes out of the oven is what cools.
fn takes_by_loads(cool: &Step, bake: &Step) -> bool {
    cool.loads == bake.loads
}

/// What is baked by the piece was cut, piped or shaped to pieces before; bars and slices are cut afterwards and baked in one.
pub(super) fn pieces_baked_before_cut(Order { part, baked, .. }: Order<'_>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    let by_piece = bake.loads.size().is_some() && part.divide.is_some();
    let names = beginnings!["cut", "pipe", "stamp", "portion", "divide", "roll", "sheet"];
    let shapes = |step: &Step| {
        let words = words_of(step);
        step.kind == StepKind::Hands
            && called(step, names)
            && (says(step, beginnings!["round", "tray", "cutter", "scale", "rest"]) || words.contains("# thick"))
    };
    let late = part.steps.iter().skip(last + 1).find(|step| {
        step.order.is_empty()
            && shapes(step)
            && !says(step, beginnings!["cool", "warm", "slice", "ic", "cream", "sugar"])
    })?;
    if !by_piece
        || part.steps.iter().take(last).any(|step| called(step, CUTS) || called(step, names))
            && !words_of(late).contains("# thick")
    {
        return None;
    }
    let message = format!("`{}` comes after `{}`, which bakes by the piece", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

pub(super) fn served_before_cooked(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let (at, serve) = called_in_place(part, beginnings!["serve"]).next()?;
    let cook = part.steps.iter().skip(at + 1).find(|step| cooks(step) && step.order.is_empty())?;
    let message = format!("`{}` comes before `{}`", serve.name, cook.name);
    Some(problem(serve, cook, message, "cooked here", &format!("move it below `{}`", cook.name)))
}

/// Holding hot what is cooked only later.
pub(super) fn held_before_cooked(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let (at, hold) = called_in_place(part, beginnings!["hold"]).find(|(_, step)| cooks(step))?;
    let cook = part.steps.iter().skip(at + 1).find(|step| {
        let simmers = called(step, beginnings!["simmer", "boil", "cook", "stew", "braise", "roast", "fry", "season"]);
        simmers && (cooks(step) || step.equipment.is_some() || takes(step)) && step.order.is_empty()
    })?;
    let message = format!("`{}` comes before `{}`: what is held is done", hold.name, cook.name);
    Some(problem(hold, cook, message, "worked on here", &format!("move it below `{}`", cook.name)))
}

/// Whether a step takes something and nothing of it is a dough, or flour.
fn takes_toppings(part: &Part, step: &Step) -> bool {
    let mut taken = step.lines_taken().filter_map(|at| part.lines.get(at)).peekable();
    let is_dough = |line: &Ingredient| {
        line.is_any_flour() || line.name.has_word_beginning(beginnings!["dough", "pastry", "paste", "batter"])
    };
    taken.peek().is_some() && !taken.any(is_dough)
}

fn takes_egg(part: &Part, step: &Step) -> bool {
    takes_kind(part, step, Kind::Egg)
}

fn takes_kind(part: &Part, step: &Step, kind: Kind) -> bool {
    step.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| line.kind == kind))
}
