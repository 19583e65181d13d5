//! Places to write in by hand: when a step was done and how warm it was, how warm the dough came out, and the batch's record.

use crate::figures::card::{Card, StepCard};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::out::report::seen;

/// A rule to write on, between words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::out) struct Blank {
    /// What is to be written.
    pub(in crate::out) before: String,
    /// How much goes there.
    pub(in crate::out) room: Room,
    /// The unit of what is written, or what was asked for.
    pub(in crate::out) after: String,
}

/// How much is written into a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::out) enum Room {
    /// Some digits.
    Digits,
    /// A time, a name, a number of a lot.
    Words,
}

impl Room {
    /// How long the rule is at least, in parts of the card's measure.
    pub(in crate::out) fn least(self) -> f64 {
        match self {
            Room::Digits => 2.6,
            Room::Words => 3.6,
        }
    }
}

fn blank(before: &str, room: Room, after: impl Into<String>) -> Blank {
    Blank { before: before.to_owned(), room, after: after.into() }
}

/// The unit that a temperature is read in.
fn degrees(shown: &Shown) -> &'static str {
    shown.terms.last().map_or("", |term| term.unit)
}

/// What is written to a step: how warm it was, where a temperature is aimed at, and when it was done.
pub(in crate::out) fn of_step(step: &StepCard) -> Vec<Blank> {
    let heat = step.temperature_shown.as_ref().map(|at| blank("", Room::Digits, degrees(at)));
    heat.into_iter().chain([blank("done at", Room::Words, "")]).collect()
}

/// How warm a dough came out that is to have a temperature.
pub(in crate::out) fn of_dough(aimed_at: &Shown) -> Blank {
    blank("measured", Room::Digits, degrees(aimed_at))
}

/// What a kitchen's records ask of a batch.
pub(in crate::out) fn of_batch(card: &Card) -> Vec<Blank> {
    let made = card.makes.as_ref().map(|makes| {
        let asked = makes.pieces.map_or_else(|| seen(&makes.shown), show::count_of);
        blank("made", Room::Digits, format!("of {asked}"))
    });
    let begins = [blank("lot", Room::Words, ""), blank("initials", Room::Words, ""), blank("begun", Room::Words, "")];
    begins.into_iter().chain(made).collect()
}
