//! What each act of the work presupposes, in one table: bagels are boiled before they bake, a paste is piped before it bakes, ice cream is
//! churned when it has cooled. Common practice, no source.
//!
//! A row is broken where the act stands above what it presupposes, and nothing of that stands above the act.

mod acts;
mod here;
mod more_acts;

use self::acts::{
    bakes_here, bakes_last, bakes_pieces, beats, boils_pieces, boils_what_is_poured, bulk, chills_between, chills_hot,
    chills_raw, churns, cooks_first, cooks_then_chills, cools, cools_batter, cools_down, cools_to_pour, divides,
    drains, ferments_on, fills, finishes, folds_flour, hardens, heats_nothing, heats_on, heats_pieces, heats_raw,
    makes_pieces, mixes_in, pipes, pours_hot, proves, rests_cold, ripens, rises, rises_in_bulk, rolls_up, sets, shapes,
    shapes_raw, skins, stands_on, stood_cool, strews_pieces, takes_dough, takes_first_flour, takes_leaven,
    takes_raising, takes_salt, takes_several, tops_cold, whisks_white, works, works_by_hand,
};
use self::here::Here;
use self::more_acts::{
    bakes_blind, closes_up, fills_case, folds_all, grinds, hangs, ices, lines_tins, locks_in, steams_pieces, turns,
    turns_sour, whips_white,
};
use super::problem;
use crate::model::cooking::{beginnings, called};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::Timing;
use crate::text::diagnostic::Diagnostic;

/// Whether a step is such an act.
type Is = fn(Here<'_>) -> bool;

/// How far below the act stands what it presupposes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Below {
    /// Right below it: further down it may be another thing of the same name.
    Next,
    /// Anywhere.
    Anywhere,
    /// Anywhere, also where the act is done once more below.
    EvenIfAgain,
    /// Anywhere below the last such act, whatever stands above it.
    AfterTheLast,
}

/// An act, and what is done before it.
struct Row {
    act: Is,
    needs: Is,
    below: Below,
    why: &'static str,
}

const fn row(act: Is, needs: Is, below: Below, why: &'static str) -> Row {
    Row { act, needs, below, why }
}

use Below::{AfterTheLast, Anywhere, EvenIfAgain, Next};

const ROWS: &[Row] = &[
    // Doughs and pastes.
    row(bakes_pieces, boils_pieces, Anywhere, "what is boiled and baked is boiled first"),
    row(boils_pieces, works, AfterTheLast, "what was boiled does not rise any more"),
    row(heats_raw, shapes_raw, Anywhere, "pieces are made before the heat"),
    row(heats_pieces, takes_raising, AfterTheLast, "what raises a dough or a batter goes in before the heat"),
    row(divides, mixes_in, Next, "a dough is mixed before it is made into pieces"),
    row(rises, takes_leaven, EvenIfAgain, "nothing has gone in yet that makes it rise"),
    row(bulk, takes_salt, Next, "the whole dough rises when all has gone in"),
    row(shapes, rises_in_bulk, Anywhere, "the whole dough rises before it is shaped"),
    row(proves, rolls_up, Next, "pieces prove when they are made"),
    row(strews_pieces, makes_pieces, Next, "pieces are made before anything is put on them"),
    row(works_by_hand, takes_dough, Next, "nothing was taken before it"),
    row(heats_nothing, takes_several, Next, "nothing was taken before it"),
    row(chills_between, takes_first_flour, Next, "a dough is mixed before it is chilled"),
    row(folds_flour, whisks_white, Next, "white that is whisked is folded in after that"),
    row(bakes_here, skins, Anywhere, "a skin forms before the heat"),
    row(skins, pipes, Next, "a skin forms on what was piped"),
    row(bakes_here, rests_cold, Next, "a pastry rests in the cold before it bakes"),
    row(cools_batter, bakes_last, Next, "what was mixed cold does not cool, and nothing cools after the oven"),
    row(turns, locks_in, Anywhere, "butter is locked in before the first turn"),
    row(bakes_blind, lines_tins, Anywhere, "a tin is lined before its case bakes"),
    row(fills_case, bakes_blind, Next, "a case bakes empty before it is filled"),
    row(ices, bakes_here, Next, "it goes on when it is baked"),
    row(hangs, bakes_here, Next, "it hangs when it is baked"),
    row(steams_pieces, proves, Next, "pieces prove before the steam"),
    row(proves, closes_up, Next, "pieces prove when they are made"),
    row(turns_sour, grinds, Next, "what soaked is ground before it turns sour"),
    row(folds_all, whips_white, Next, "what is whipped is folded in after that"),
    // What is put on when it is cold, and what is poured hot.
    row(tops_cold, cools, Next, "it would melt on what is hot"),
    row(cools_to_pour, pours_hot, Next, "it says that it goes on hot"),
    row(pours_hot, boils_what_is_poured, Anywhere, "it says that it goes on hot"),
    row(fills, cooks_first, Anywhere, "what is filled in is cooked before"),
    row(finishes, heats_on, Next, "what finishes it comes last"),
    // Creams, ices and what stands.
    row(cools, cooks_then_chills, Next, "nothing cools between the heat and the cold"),
    row(chills_hot, cools_down, Next, "it goes into the cold hot"),
    row(churns, ripens, Next, "a mix is cold before it is churned"),
    row(hardens, churns, Anywhere, "ice cream is churned before it is hard"),
    row(sets, beats, Next, "what has set is beaten no more"),
    row(stood_cool, cools, Next, "what stood there is not hot"),
    row(chills_raw, ferments_on, Next, "what is to ferment is not chilled before"),
    row(drains, stands_on, Next, "it drains when it has stood"),
];

/// The first act that stands above what it presupposes.
pub(super) fn before_its_time(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    let here = |at: usize| part.steps.get(at).map(|step| Here { recipe, part, at, step });
    let in_place = |at: &usize| part.steps.get(*at).is_some_and(|step| step.order.is_empty());
    let places: Vec<usize> = (0..part.steps.len()).filter(in_place).collect();
    if places.len() < 2 {
        return None;
    }
    ROWS.iter().find_map(|row| {
        let does = |is: Is, at: usize| here(at).is_some_and(is);
        let is_act = |at: &usize| does(row.act, *at);
        let first = match row.below {
            AfterTheLast => places.iter().rposition(is_act)?,
            _ => places.iter().position(is_act)?,
        };
        let act = *places.get(first)?;
        // What follows another step by its own words counts as done.
        let was_done = || row.below != AfterTheLast && (0..act).any(|at| does(row.needs, at));
        if was_done() || does(row.needs, act) {
            return None;
        }
        let below = places.get(first + 1..)?;
        let reach = if row.below == Next { below.get(..1)? } else { below };
        let needs = *reach.iter().find(|at| does(row.needs, **at))?;
        // Done again where it belongs, it was another one that stood above.
        if row.below != EvenIfAgain && (needs + 1..part.steps.len()).any(|at| does(row.act, at)) {
            return None;
        }
        let (early, late) = (part.steps.get(act)?, part.steps.get(needs)?);
        let message = format!("`{}` comes before `{}`: {}", early.name, late.name, row.why);
        Some(problem(early, late, message, "should come first", &format!("move it below `{}`", late.name)))
    })
}

/// A step that is written below the one that it comes before, and takes something for it.
pub(super) fn below_what_it_precedes(id: PartId, part: &Part) -> Option<Diagnostic> {
    part.steps.iter().enumerate().find_map(|(at, step)| {
        let before = |order: &Timing| match order {
            Timing::Before(other) if other.part == id && other.step < at => Some(other.step),
            _ => None,
        };
        let above = step.order.iter().find_map(before).filter(|_| step.order.len() == 1)?;
        let is_of_dough = step.lines_taken().next().is_some() || called(step, beginnings!["autolyse"]);
        let other = part.steps.get(above).filter(|_| is_of_dough)?;
        let message = format!("`{}` is written below `{}`, which it comes before", step.name, other.name);
        Some(problem(
            step,
            other,
            message,
            "comes later",
            &format!("move it above `{}`: a card prints the steps as they stand", other.name),
        ))
    })
}
