//! What each act of the work presupposes, in one table: bagels are boiled before they bake, a paste is piped before it bakes, ice cream is
//! churned when it has cooled. Common practice, no source.
//!
//! A row is broken where the act stands above what it presupposes, and nothing of that stands above the act.

mod acts;
mod here;
mod look;
mod more_acts;

use self::acts::{
    BOILING, CUTTING, DRAINING, FILLING, MIXING, SHAPING, SHAPING_RAW, TOPPING, bakes_here, bakes_last, bakes_pieces,
    beats, boils_pieces, boils_what_is_poured, bulk, chills_between, chills_hot, chills_raw, churns, cooks_first,
    cooks_then_chills, cools, cools_batter, cools_down, cools_to_pour, divides, drains, ferments_on, fills, finishes,
    folds_flour, hardens, heats_nothing, heats_on, heats_pieces, heats_raw, makes_pieces, mixes_in, pipes, pours_hot,
    proves, rests_cold, ripens, rises, rises_in_bulk, rolls_up, sets, shapes, shapes_raw, skins, stands_on, stood_cool,
    strews_pieces, takes_dough, takes_first_flour, takes_leaven, takes_raising, takes_salt, takes_several, tops_cold,
    whisks_white, works, works_by_hand,
};
use self::here::{Here, verbs};
use self::look::{
    ANY, BAKES, BUSY, COLD, HANDS, HEATS, Look, NOT_COLD, OF_DOUGH, RAISED, TAKES, TAKES_NOTHING, WAITS, begins,
};
use self::more_acts::{
    bakes_blind, closes_up, fills_case, folds_all, grinds, hangs, ices, lines_tins, locks_in, steams_pieces, turns,
    turns_sour, whips_white,
};
use super::problem;
use crate::model::cold::is_cold;
use crate::model::cooking::{beginnings, called};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{StepKind, Timing};
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
    /// What the first look shows of each such act.
    look: Look,
    act: Is,
    /// The same of what it presupposes.
    needs_look: Look,
    needs: Is,
    below: Below,
    why: &'static str,
}

const fn row(look: &[Look], act: Is, (needs_look, needs): (&[Look], Is), below: Below, why: &'static str) -> Row {
    Row { look: Look::all(look), act, needs_look: Look::all(needs_look), needs, below, why }
}

use Below::{AfterTheLast, Anywhere, EvenIfAgain, Next};

const ROWS: &[Row] = &[
    // Doughs and pastes.
    row(
        &[BAKES],
        bakes_pieces,
        (&[BUSY, begins(BOILING.letters)], boils_pieces),
        Anywhere,
        "what is boiled and baked is boiled first",
    ),
    row(
        &[BUSY, begins(BOILING.letters)],
        boils_pieces,
        (&[WAITS, RAISED], works),
        AfterTheLast,
        "what was boiled does not rise any more",
    ),
    row(
        &[HEATS, OF_DOUGH],
        heats_raw,
        (&[HANDS, begins(SHAPING_RAW.letters)], shapes_raw),
        Anywhere,
        "pieces are made before the heat",
    ),
    row(
        &[HEATS, OF_DOUGH],
        heats_pieces,
        (&[HANDS, TAKES, begins(MIXING.letters)], takes_raising),
        AfterTheLast,
        "what raises a dough or a batter goes in before the heat",
    ),
    row(
        &[HANDS, TAKES_NOTHING, OF_DOUGH, begins(SHAPING.letters | CUTTING.letters)],
        divides,
        (&[BUSY, TAKES, begins(MIXING.letters)], mixes_in),
        Next,
        "a dough is mixed before it is made into pieces",
    ),
    row(&[WAITS], rises, (&[], takes_leaven), EvenIfAgain, "nothing has gone in yet that makes it rise"),
    row(
        &[WAITS],
        bulk,
        (&[TAKES, begins(MIXING.letters)], takes_salt),
        Next,
        "the whole dough rises when all has gone in",
    ),
    row(
        &[HANDS, TAKES_NOTHING, RAISED, begins(SHAPING.letters)],
        shapes,
        (&[WAITS], rises_in_bulk),
        Anywhere,
        "the whole dough rises before it is shaped",
    ),
    row(
        &[WAITS],
        proves,
        (&[HANDS, begins(verbs!["roll", "cut", "divide"].letters)], rolls_up),
        Next,
        "pieces prove when they are made",
    ),
    row(
        &[HANDS],
        strews_pieces,
        (&[HANDS, begins(SHAPING.letters | CUTTING.letters)], makes_pieces),
        Next,
        "pieces are made before anything is put on them",
    ),
    row(&[HANDS, TAKES_NOTHING], works_by_hand, (&[HANDS], takes_dough), Next, "nothing was taken before it"),
    row(&[HEATS, TAKES_NOTHING], heats_nothing, (&[HANDS], takes_several), Next, "nothing was taken before it"),
    row(
        &[WAITS, COLD],
        chills_between,
        (&[HANDS, TAKES], takes_first_flour),
        Next,
        "a dough is mixed before it is chilled",
    ),
    row(
        &[HANDS, TAKES, begins(verbs!["fold", "sift"].letters)],
        folds_flour,
        (&[begins(verbs!["whisk", "whip", "beat"].letters)], whisks_white),
        Next,
        "white that is whisked is folded in after that",
    ),
    row(&[BAKES], bakes_here, (&[WAITS, NOT_COLD], skins), Anywhere, "a skin forms before the heat"),
    row(
        &[WAITS, NOT_COLD],
        skins,
        (&[HANDS, begins(verbs!["pipe"].letters)], pipes),
        Next,
        "a skin forms on what was piped",
    ),
    row(
        &[BAKES],
        bakes_here,
        (&[WAITS, COLD, OF_DOUGH, begins(verbs!["rest"].letters)], rests_cold),
        Next,
        "a pastry rests in the cold before it bakes",
    ),
    row(
        &[WAITS, NOT_COLD],
        cools_batter,
        (&[BAKES, TAKES_NOTHING], bakes_last),
        Next,
        "what was mixed cold does not cool, and nothing cools after the oven",
    ),
    row(
        &[HANDS, TAKES_NOTHING],
        turns,
        (&[HANDS, TAKES, begins(verbs!["lock", "enclose", "laminate"].letters)], locks_in),
        Anywhere,
        "butter is locked in before the first turn",
    ),
    row(
        &[HEATS],
        bakes_blind,
        (&[HANDS, TAKES, begins(verbs!["line"].letters)], lines_tins),
        Anywhere,
        "a tin is lined before its case bakes",
    ),
    row(
        &[HANDS, TAKES, begins(verbs!["fill", "pour"].letters)],
        fills_case,
        (&[HEATS], bakes_blind),
        Next,
        "a case bakes empty before it is filled",
    ),
    row(
        &[HANDS, begins(verbs!["ice", "frost", "glaze", "drizzle"].letters)],
        ices,
        (&[BAKES], bakes_here),
        Next,
        "it goes on when it is baked",
    ),
    row(&[WAITS, OF_DOUGH, RAISED], hangs, (&[BAKES], bakes_here), Next, "it hangs when it is baked"),
    row(
        &[HEATS, begins(verbs!["steam"].letters)],
        steams_pieces,
        (&[WAITS], proves),
        Next,
        "pieces prove before the steam",
    ),
    row(&[WAITS], proves, (&[HANDS], closes_up), Next, "pieces prove when they are made"),
    row(
        &[WAITS, begins(verbs!["ferment", "sour"].letters)],
        turns_sour,
        (&[BUSY, begins(verbs!["grind", "blend", "mill"].letters)], grinds),
        Next,
        "what soaked is ground before it turns sour",
    ),
    row(
        &[HANDS, TAKES_NOTHING, begins(verbs!["fold"].letters)],
        folds_all,
        (&[HANDS, begins(verbs!["whip", "whisk", "beat"].letters)], whips_white),
        Next,
        "what is whipped is folded in after that",
    ),
    // What is put on when it is cold, and what is poured hot.
    row(&[HANDS, begins(TOPPING.letters)], tops_cold, (&[NOT_COLD], cools), Next, "it would melt on what is hot"),
    row(&[WAITS, NOT_COLD], cools_to_pour, (&[HANDS], pours_hot), Next, "it says that it goes on hot"),
    row(&[HANDS], pours_hot, (&[HEATS, TAKES], boils_what_is_poured), Anywhere, "it says that it goes on hot"),
    row(
        &[HANDS, TAKES_NOTHING, begins(FILLING.letters)],
        fills,
        (&[HEATS, TAKES], cooks_first),
        Anywhere,
        "what is filled in is cooked before",
    ),
    row(
        &[TAKES, begins(verbs!["finish", "garnish"].letters)],
        finishes,
        (&[HEATS, begins(verbs!["simmer", "boil", "cook", "stew", "braise"].letters)], heats_on),
        Next,
        "what finishes it comes last",
    ),
    // Creams, ices and what stands.
    row(&[NOT_COLD], cools, (&[HEATS], cooks_then_chills), Next, "nothing cools between the heat and the cold"),
    row(&[WAITS, COLD], chills_hot, (&[NOT_COLD], cools_down), Next, "it goes into the cold hot"),
    row(&[], churns, (&[WAITS, COLD], ripens), Next, "a mix is cold before it is churned"),
    row(&[WAITS], hardens, (&[], churns), Anywhere, "ice cream is churned before it is hard"),
    row(
        &[WAITS, begins(verbs!["set"].letters)],
        sets,
        (&[HANDS, begins(verbs!["beat", "stir", "pour", "spread"].letters)], beats),
        Next,
        "what has set is beaten no more",
    ),
    row(&[WAITS, NOT_COLD], stood_cool, (&[NOT_COLD], cools), Next, "what stood there is not hot"),
    row(
        &[WAITS, COLD],
        chills_raw,
        (&[WAITS, NOT_COLD, begins(verbs!["ferment"].letters)], ferments_on),
        Next,
        "what is to ferment is not chilled before",
    ),
    row(
        &[HANDS, TAKES_NOTHING, begins(DRAINING.letters)],
        drains,
        (&[WAITS, begins(verbs!["stand", "soak", "brine", "steep", "salt", "cure"].letters)], stands_on),
        Next,
        "it drains when it has stood",
    ),
];

/// The first act that stands above what it presupposes.
pub(super) fn before_its_time(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    let steps = part.steps.as_slice();
    let in_place = |here: &Here<'_>| here.step.order.is_empty();
    let all: Vec<Here<'_>> = steps.iter().enumerate().map(|(at, step)| Here { recipe, part, at, step }).collect();
    all.iter().filter(|here| in_place(here)).nth(1)?;
    let of_part = all.first().map_or(ANY, |first| Look::at_part(*first));
    let places = all.iter().filter(|here| in_place(here)).map(|here| (here.at, Look::at(*here, of_part)));
    let places: Vec<(usize, Look)> = places.collect();
    // Most rows ask for what no step of the part shows, of the act or of what it presupposes.
    let shown = places.iter().fold(ANY, |shown, (_, look)| shown.and(*look));
    let may_be = |row: &&Row| shown.may_be(row.look) && shown.may_be(row.needs_look);
    ROWS.iter().filter(may_be).find_map(|row| {
        let does = |is: Is, at: usize| all.get(at).copied().is_some_and(is);
        let is_act = |(at, look): &(usize, Look)| {
            let may_be = look.may_be(row.look);
            debug_assert!(may_be || !does(row.act, *at), "an act does not show: {}", row.why);
            may_be && does(row.act, *at)
        };
        let is_needed = |(at, look): &(usize, Look)| {
            let may_be = look.may_be(row.needs_look);
            debug_assert!(may_be || !does(row.needs, *at), "what an act needs does not show: {}", row.why);
            may_be && does(row.needs, *at)
        };
        // Only what shows an act above what shows its need is looked at.
        let may_act = places.iter().position(|(_, look)| look.may_be(row.look))?;
        places.get(may_act + 1..)?.iter().find(|(_, look)| look.may_be(row.needs_look))?;
        let first = match row.below {
            AfterTheLast => places.iter().rposition(is_act)?,
            _ => places.iter().position(is_act)?,
        };
        let (act, _) = *places.get(first)?;
        let below = places.get(first + 1..)?;
        let reach = if row.below == Next { below.get(..1)? } else { below };
        let (needs, _) = *reach.iter().find(|place| is_needed(place))?;
        // What follows another step by its own words counts as done.
        let was_done = || row.below != AfterTheLast && (0..act).any(|at| does(row.needs, at));
        if was_done() || does(row.needs, act) {
            return None;
        }
        // Done again where it belongs, it was another one that stood above.
        if row.below != EvenIfAgain && (needs + 1..steps.len()).any(|at| does(row.act, at)) {
            return None;
        }
        let (early, late) = (steps.get(act)?, steps.get(needs)?);
        let message = format!("`{}` comes before `{}`: {}", early.name, late.name, row.why);
        // A rest that is called too cool for what follows may stand where it belongs, and its degrees are wrong.
        let is_rest = early.kind == StepKind::Wait && early.temperature.is_some_and(|(low, _)| !is_cold(low));
        let is_by_degrees = is_rest && called(late, beginnings!["cool"]);
        let help = match is_by_degrees {
            true => {
                format!("look whether its temperature has slipped; where it has not, move it below `{}`", late.name)
            }
            false => format!("move it below `{}`", late.name),
        };
        Some(problem(early, late, message, "should come first", &help))
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
