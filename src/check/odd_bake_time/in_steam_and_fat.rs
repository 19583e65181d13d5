//! Pieces of dough that are steamed or fried for far too short or too long, or boiled for too long before they are baked.

use super::{CHECK, grams, minutes};
use crate::check::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::ovens::is_oven;
use crate::model::cooking::raw_flesh::{is_minced, is_raw};
use crate::model::cooking::{bakes, beginnings, called, cooks, frying, says};
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Frying, Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// What is steamed and weighs so much is raw in the middle before so long.
const STEAMED: i64 = 30;
const STEAMED_AFTER: Duration = Duration::new(Number::whole(5 * 60));
const PUDDING: i64 = 400;
const PUDDING_AFTER: Duration = Duration::new(Number::whole(40 * 60));
/// A bun of yeast dough up to so many grams is done in the steam long before.
const BUN: i64 = 150;
const BUN_IS_WET: Duration = Duration::new(Number::whole(45 * 60));

/// Pieces of dough from so many grams to so many that swim in hot fat: brown and done within minutes.
const FRIED: (i64, i64) = (25, 150);
const RAW_IN_FAT: Duration = Duration::new(Number::whole(25));
const BLACK_IN_FAT: Duration = Duration::new(Number::whole(12 * 60));
const HOT_FAT: Number = Number::whole(150);

/// Buns that nothing else cooks, out of the steamer after two minutes or two hours; doughnuts that fry for twenty.
pub(super) fn problem(subject: &Subject<'_>, (id, part): (PartId, &Part), piece: Mass) -> Option<Diagnostic> {
    steamed(subject, (id, part), piece)
        .or_else(|| fried(subject, (id, part), piece))
        .or_else(|| boiled(subject, (id, part)))
        .or_else(|| minced(subject, part, piece))
}

/// What is boiled before it is baked only sets its skin. Common practice, no source: from half a minute to two, a load.
const BOILED: Duration = Duration::new(Number::whole(6 * 60));

/// Bagels that poach for 20 minutes.
fn boiled(subject: &Subject<'_>, (id, part): (PartId, &Part)) -> Option<Diagnostic> {
    let boils = |step: &Step| step.kind != StepKind::Wait && called(step, beginnings!["poach", "boil", "simmer"]);
    let at = part.steps.iter().position(boils)?;
    let step = part.steps.get(at).filter(|step| step.time.0 > BOILED)?;
    // Without loads it may be the time of all of them.
    let by_piece = step.loads.size().is_some() || step.loads.is_by_piece();
    let baked_next = part.steps.iter().skip(at + 1).any(|step| step.kind != StepKind::Wait && bakes(step));
    // What boils here may be its bath.
    let of_dough =
        step.lines_taken().filter_map(|line| part.lines.get(line)?.part()).any(|made| subject.leavened().has(made));
    if !by_piece || !baked_next || !of_dough || !subject.leavened().has(id) {
        return None;
    }
    let message = format!(
        "pieces of dough are boiled for {} before they are baked: common practice is {} at most",
        show::duration_range(step.time.0, step.time.1),
        show::duration(BOILED)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit or the unit of the time has slipped; it is the time of one load"),
    )
}

/// So heavy a piece of minced meat is cold in its middle before so long in a pan. Common practice, no source: a burger of 150 g takes 8 minutes and more.
const BURGER: i64 = 90;
const BURGER_IS_RAW: Duration = Duration::new(Number::whole(3 * 60));
/// What is said to be so hot in the middle is done.
const DONE: Number = Number::whole(60);

/// A burger that is hot in the middle after a minute.
fn minced(subject: &Subject<'_>, part: &Part, piece: Mass) -> Option<Diagnostic> {
    let mut hot = part.steps.iter().filter(|step| step.kind != StepKind::Wait && cooks(step));
    let step = hot.next().filter(|_| hot.next().is_none())?;
    if piece < grams(BURGER)
        || step.time.1 >= BURGER_IS_RAW
        || !step.name.has_word_beginning(beginnings!["fry", "grill", "griddle", "bake", "cook", "sear"])
        || step.hottest_said().is_none_or(|said| said.celsius() < DONE)
    {
        return None;
    }
    let made = part.lines.iter().filter_map(|line| subject.recipe.part(line.part()?));
    let is_minced = |line: &Ingredient| {
        let said = line.preparation.as_ref().map(|said| said.to_lowercase());
        is_raw(line) && is_minced(line.name.key.as_str(), said.as_deref())
    };
    let cooked = |made: &Part| made.steps.iter().any(cooks);
    let is_raw_mince = part.lines.iter().any(is_minced)
        || made.into_iter().any(|made| !cooked(made) && made.lines.iter().any(is_minced));
    if !is_raw_mince {
        return None;
    }
    let message = format!(
        "pieces of {} with raw mince are in the pan for {}: that warms no middle",
        show::mass_plain(piece),
        show::duration(step.time.1)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit or the unit of the time has slipped; burgers fry for 8 minutes and more"),
    )
}

fn steamed(subject: &Subject<'_>, (id, part): (PartId, &Part), piece: Mass) -> Option<Diagnostic> {
    let mut hot = part.steps.iter().filter(|step| step.kind != StepKind::Wait && cooks(step));
    let step = hot.next().filter(|step| step.name.has_word_beginning(beginnings!["steam"]))?;
    let in_oven = step.equipment.as_ref().is_some_and(|name| is_oven(&step.name, name, None));
    // A pudding in its basin takes hours.
    let least = if piece >= grams(PUDDING) { PUDDING_AFTER } else { STEAMED_AFTER };
    let short = step.time.1 < least;
    let is_bun = piece <= grams(BUN) && subject.fermented().has(id);
    let long = is_bun && step.time.0 > BUN_IS_WET;
    if hot.next().is_some() || in_oven || piece < grams(STEAMED) || !(short || long) {
        return None;
    }
    let (time, usual) = match short {
        true => (step.time.1, format!("{} at least", show::duration(least))),
        false => (step.time.0, format!("{} at most", show::duration(BUN_IS_WET))),
    };
    let message =
        format!("pieces of {} steam for {}: common practice is {usual}", show::mass_plain(piece), show::duration(time));
    let help = match short {
        true => "look whether a digit of the time has slipped; what is raw in it is not cooked through",
        false => "look whether a digit of the time has slipped",
    };
    Some(Diagnostic::advice(CHECK.name, step.time_span, message).help(help))
}

fn fried(subject: &Subject<'_>, (id, part): (PartId, &Part), piece: Mass) -> Option<Diagnostic> {
    let (from, to) = FRIED;
    let by_load = |step: &Step| step.loads.size().is_some() || step.loads.is_by_piece();
    let is_fried = |step: &&Step| {
        step.kind != StepKind::Wait
            && frying(step) != Frying::Unsaid
            && by_load(step)
            && step.temperature.is_some_and(|(low, _)| low.celsius() >= HOT_FAT)
            && step.name.has_word_beginning(beginnings!["fry", "deep-fry", "deep fry"])
    };
    let step = part.steps.iter().find(is_fried)?;
    let again = part.steps.iter().filter(is_fried).count() > 1 || says(step, beginnings!["batter", "again", "second"]);
    let short = step.time.1 < RAW_IN_FAT;
    // What no fat does, whatever the piece, is `odd-time`.
    if step.time.0 < Duration::new(Number::whole(10)) || step.time.1 > minutes(20) {
        return None;
    }
    if again
        || piece < grams(from)
        || piece > grams(to)
        || !subject.fermented().has(id)
        || !(short || step.time.0 > BLACK_IN_FAT)
    {
        return None;
    }
    let message = format!(
        "pieces of {} fry for {}: common practice is {} to {}",
        show::mass_plain(piece),
        show::duration(if short { step.time.1 } else { step.time.0 }),
        show::duration(RAW_IN_FAT),
        show::duration(minutes(12))
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit or the unit of the time has slipped"),
    )
}
