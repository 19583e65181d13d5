//! What is still in one at a step, since it is cut into its pieces only later: oat squares, a tray of brownies. Common practice, no source.

use super::cooking::{beginnings, called, cooks, words_of};
use super::made::HeadMakes;
use super::recipe::{Part, PartId, Recipe};
use super::step::{Step, StepKind};
use crate::measure::quantity::Count;
use crate::text::words::words_without_hyphens;

/// How many pieces as written a part is cut into after its last heat, where it is one slab or sheet at this step.
pub fn whole_at(recipe: &Recipe, id: PartId, step_at: usize) -> Option<Count> {
    let (part, HeadMakes::Pieces { count, noun, .. }) = (recipe.part(id)?, recipe.makes.as_ref()?) else { return None };
    if recipe.final_part() != Some(id) || part.per_piece || part.sort.is_some() || takes_pieces(recipe, part) {
        return None;
    }
    let noun = noun.key.as_str().split(' ').next_back()?;
    let cut = part.steps.iter().position(|step| cuts_into(step, noun))?;
    let is_cooked = part.steps.iter().take(cut).any(cooks);
    let is_whole = !part.steps.iter().take(cut).any(makes_pieces);
    (step_at < cut && is_cooked && is_whole && !part.steps.iter().skip(cut).any(cooks)).then_some(*count)
}

fn takes_pieces(recipe: &Recipe, part: &Part) -> bool {
    let divided = |id: PartId| recipe.part(id).is_some_and(|inner| inner.divide.is_some());
    part.lines.iter().any(|line| line.part().is_some_and(divided))
}

/// `Cut into 24 squares.`: pieces are what it is cut into. `Slice the loaves.` cuts pieces that are there.
fn cuts_into(step: &Step, noun: &str) -> bool {
    if step.kind != StepKind::Hands || !called(step, beginnings!["cut", "slic", "portion", "divid"]) {
        return false;
    }
    let words: Vec<&str> = words_without_hyphens(words_of(step)).collect();
    let is_noun =
        |word: &str| word == noun || word.strip_suffix('s') == Some(noun) || noun.strip_suffix('s') == Some(word);
    let into = words.iter().position(|word| *word == "into" || *word == "in");
    words.iter().enumerate().any(|(at, word)| {
        let counted = at.checked_sub(1).and_then(|before| words.get(before));
        is_noun(word)
            && (into.is_some_and(|into| into < at)
                || counted.is_some_and(|before| before.chars().all(|letter| letter.is_ascii_digit())))
    })
}

/// Whether pieces are made here, or there are tins, cups and moulds for each.
fn makes_pieces(step: &Step) -> bool {
    step.loads.is_by_piece()
        || step.loads.size().is_some()
        || step.kind == StepKind::Hands
            && called(
                step,
                beginnings![
                    "cut", "slic", "portion", "divid", "scale", "shap", "mould", "mold", "round", "ball", "plait",
                    "braid", "preshap", "pip", "scoop", "drop", "stamp", "form"
                ],
            )
}
