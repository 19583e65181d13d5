//! Whom a batch is made for, what it takes from the store, and what it leaves over.

use super::{Figure, grams};
use crate::figures::card::{FromStoreCard, MadeForCard};
use crate::make::store::Left;
use crate::measure::shown::Shown;
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
pub(super) struct WireMadeFor<'a> {
    /// The recipe's title.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// In grams.
    grams: Figure,
    /// How much, as it is printed.
    shown: &'a Shown,
    /// For when, where one dough is for several times.
    #[serde(skip_serializing_if = "Option::is_none")]
    ready: Option<&'a str>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireFromStore<'a> {
    /// What it is.
    what: &'a str,
    /// The recipe's title.
    recipe: Option<&'a str>,
    /// In grams.
    grams: Option<Figure>,
    /// How many pieces that is, where it is in pieces.
    pieces: Option<Figure>,
    /// As it is printed.
    shown: &'a Shown,
    /// The day on which it was made, `2027-04-10`.
    made: Option<String>,
    /// Which part takes it.
    into: &'a str,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireLeftOver<'a> {
    /// What it is.
    what: &'a str,
    /// Of what it is left.
    of: &'a str,
    /// The name of the part.
    part: &'a str,
    /// In grams.
    grams: Option<Figure>,
}

pub(super) fn made_for(one: &MadeForCard) -> WireMadeFor<'_> {
    WireMadeFor {
        recipe: &one.recipe,
        part: &one.part,
        grams: grams(one.mass),
        shown: &one.shown,
        ready: one.ready_shown.as_deref(),
    }
}

pub(super) fn from_store(one: &FromStoreCard) -> WireFromStore<'_> {
    WireFromStore {
        what: &one.taken.what,
        recipe: one.taken.of.as_deref(),
        grams: one.taken.mass.map(grams),
        pieces: one.taken.pieces.map(Figure),
        shown: &one.shown,
        made: one.taken.made.map(|made| made.to_string()),
        into: &one.taken.into,
    }
}

pub(super) fn left_over(one: &Left) -> WireLeftOver<'_> {
    WireLeftOver { what: &one.what, of: &one.of, part: &one.part, grams: one.mass.map(grams) }
}
