//! What a printed sheet holds and how it is laid out, for HTML and PDF alike: each of them only draws.

pub(in crate::out) mod by_hand;
pub(in crate::out) mod column;
pub(in crate::out) mod facts;
mod paper;
pub(in crate::out) mod strip;
pub(in crate::out) mod timeline;

pub use paper::{Orientation, Paper};

use crate::figures::card::{Card, Handover, StepCard};
use crate::measure::show;
use crate::model::step::StepKind;
use crate::out::block::Phrase;
use crate::out::report::seen;

/// How cards are set and what their foot says of where they come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The paper to print on.
    pub paper: Paper,
    /// Which way round.
    pub orientation: Orientation,
    /// What stands on one sheet.
    pub by: By,
    /// Whether type is small and no timeline drawn, so that a dish stands on a sheet or two.
    pub compact: bool,
    /// The day of printing, as it is shown.
    pub printed: String,
    /// The recipe's revision in git, as it is shown.
    pub revision: Option<String>,
}

impl Sheet {
    /// The size that all type is measured in, in points.
    pub(in crate::out) fn type_size(&self) -> f64 {
        let full = self.paper.type_size();
        if self.compact { (full * COMPACT).max(LEAST_COMPACT.min(full)) } else { full }
    }
}

/// How large compact type is: on A4 the figures of the strip are then 13 pt, which is read in the hand.
const COMPACT: f64 = 0.74;

/// The least that compact type is, in points: on small paper another sheet is better than figures that nobody reads over a bowl
/// (common practice, no source).
const LEAST_COMPACT: f64 = 7.0;

/// What stands on one sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// The whole recipe.
    Recipe,
    /// One part.
    Part,
    /// What one station does.
    Station,
}

/// What the foot of a card says, so that an old card can be recognised.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::out) struct Foot {
    pub(in crate::out) title: String,
    pub(in crate::out) facts: Vec<String>,
}

impl Foot {
    pub(in crate::out) fn new(card: &Card, title: &str, sheet: &Sheet) -> Foot {
        let mut facts = Vec::new();
        facts.extend(card.makes.as_ref().map(|makes| seen(&makes.shown)));
        facts.push(format!("{} × the recipe", show::number(card.factor)));
        facts.extend(card.choices.iter().map(|(choice, option)| seen(&format!("{choice}: {option}"))));
        facts.extend(Foot::plain(title, sheet).facts);
        Foot { title: seen(&title), facts }
    }

    /// The foot of a sheet that is not of one recipe.
    pub(in crate::out) fn plain(title: &str, sheet: &Sheet) -> Foot {
        let mut facts = vec![seen(&format!("printed {}", sheet.printed))];
        facts.extend(sheet.revision.as_ref().map(|revision| format!("revision {}", seen(revision))));
        Foot { title: seen(&title), facts }
    }
}

/// Who is busy, in words.
pub(in crate::out) fn doing(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Hands => "hands",
        StepKind::Tend => "stay in reach",
        StepKind::Wait => "wait",
    }
}

/// What stands small below a step's time: who is busy, loads, how long in all; `with_start` also when it begins, for a station
/// that does not see the others' steps.
pub(in crate::out) fn below_time(step: &StepCard, with_start: bool) -> String {
    let mut words = vec![doing(step.kind).to_owned()];
    if step.people > 1 {
        words.push(format!("{} people", step.people));
    }
    if !step.loads_shown.is_empty() {
        words.push(seen(&step.loads_shown));
    }
    if !step.whole_time_shown.is_empty() {
        words.push(format!("{} together", step.whole_time_shown.unbroken()));
    }
    words.extend(step.up_to_shown.as_ref().map(|up_to| format!("up to {}", up_to.unbroken())));
    let start = step.starts.filter(|_| with_start);
    words.extend(start.map(|minutes| format!("{} after start", timeline::clock(minutes))));
    words.join(", ")
}

/// What stands behind the name of a step: with what it is done, and when beside other steps.
pub(in crate::out) fn beside_name(step: &StepCard) -> Vec<String> {
    step.equipment.iter().chain(&step.order_shown).map(seen).collect()
}

/// The recipes that draw on a batch.
pub(in crate::out) fn made_for_names(card: &Card) -> String {
    let mut names: Vec<&str> = Vec::new();
    for one in card.made_for.iter().filter(|one| one.recipe != card.title) {
        if !names.contains(&one.recipe.as_str()) {
            names.push(&one.recipe);
        }
    }
    show::list(&names)
}

/// The allergens of a day's cards, each once.
pub(in crate::out) fn allergens_of(cards: &[Card]) -> Vec<&str> {
    let mut allergens: Vec<&str> = cards.iter().flat_map(|card| &card.allergens).map(String::as_str).collect();
    allergens.sort_unstable();
    allergens.dedup();
    allergens
}

/// Who takes how much of a batch that several recipes draw on.
pub(in crate::out) fn made_for(card: &Card) -> Vec<Vec<Phrase>> {
    let row = |one: &crate::figures::card::MadeForCard| {
        let mut runs = vec![Phrase::strong(&one.recipe), Phrase::plain(", "), Phrase::amount(&one.shown)];
        if card.parts.len() > 1 {
            runs.push(Phrase::plain(format!(" {}", one.part)));
        }
        runs.extend(one.ready_shown.as_ref().map(|ready| Phrase::plain(format!(" for {ready}"))));
        runs
    };
    card.made_for.iter().map(row).collect()
}

/// What a batch takes from the store.
pub(in crate::out) fn from_store(card: &Card) -> Vec<Vec<Phrase>> {
    let row = |one: &crate::figures::card::FromStoreCard| {
        let made = one.taken.made.map(|made| format!(", made {made}")).unwrap_or_default();
        let into = &one.taken.into;
        let what = &one.taken.what;
        let is_itself = what == into || what.strip_suffix(into).is_some_and(|noun| noun.ends_with(" of "));
        let goes = if is_itself { String::new() } else { format!(" for {into}") };
        vec![
            Phrase::strong(what),
            Phrase::plain(", "),
            Phrase::amount(&one.shown),
            Phrase::plain(format!("{goes}{made}")),
        ]
    };
    card.from_store.iter().map(row).collect()
}

/// What is handed over to or from another sheet than `here`: `filling, 1260 g, from hob after cook`. What stays on one sheet is not: its
/// table and its steps say where it goes.
pub(in crate::out) fn handovers(card: &Card, comes_in: bool, all: &[Handover], here: &str) -> Vec<Vec<Phrase>> {
    let (way, link) = if comes_in { ("from", "after") } else { ("to", "for") };
    let row = |one: &Handover| {
        let mut runs = vec![Phrase::strong(&one.what)];
        if !one.amount.is_empty() {
            runs.extend([Phrase::plain(", "), Phrase::amount(&one.amount)]);
        }
        match (&one.station, &card.makes) {
            (Some(station), _) => {
                runs.extend([Phrase::plain(format!(", {way} ")), Phrase::strong(station)]);
                if !one.step.is_empty() {
                    runs.push(Phrase::plain(format!(", {link} {}", one.step)));
                }
            }
            (None, _) if comes_in => {}
            (None, Some(makes)) => runs.extend([Phrase::plain(", done: "), Phrase::strong(&makes.shown)]),
            (None, None) => runs.push(Phrase::plain(", done")),
        }
        runs
    };
    let is_elsewhere =
        |one: &&Handover| one.station.as_ref().is_none_or(|station| station.to_lowercase() != here.to_lowercase());
    all.iter().filter(is_elsewhere).map(row).collect()
}
