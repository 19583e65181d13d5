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
    part: &'a str,
    grams: Figure,
    shown: &'a Shown,
    /// For when, where one dough is for several times.
    #[serde(skip_serializing_if = "Option::is_none")]
    ready: Option<&'a str>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireFromStore<'a> {
    what: &'a str,
    /// The recipe's title.
    recipe: Option<&'a str>,
    grams: Option<Figure>,
    /// How many pieces that is, where it is in pieces.
    pieces: Option<Figure>,
    shown: &'a Shown,
    made: Option<String>,
    into: &'a str,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireLeftOver<'a> {
    what: &'a str,
    of: &'a str,
    part: &'a str,
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
