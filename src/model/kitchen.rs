//! The kitchen: what equipment there is, who works, when it is open, and what the scale can show.

use crate::language::parse::nearest;
use crate::language::syntax::{Name, Shift};
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Duration, MINUTES_A_DAY, Mass};
use crate::measure::temperature::TemperatureDifference;
use crate::model::lowered::Beginnings;
use crate::text::source::Span;
use jiff::civil::{Time, Weekday};
use std::sync::Arc;

/// A length of time in whole minutes.
type Minute = i64;

/// How much fits into a piece of equipment at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Capacity {
    /// So much dough.
    Mass(Mass),
    /// So many pieces.
    Pieces(Count),
}

/// One kind of equipment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Equipment {
    /// What it is called in `using`.
    pub name: Name,
    /// How many there are.
    pub count: u32,
    /// How much one holds.
    pub holds: Option<Capacity>,
    /// How much mixing in it warms a dough.
    pub friction: Option<TemperatureDifference>,
    /// How long it takes from one temperature to another.
    pub heating: Option<Duration>,
    /// How far two temperatures may differ for loads to share it.
    pub agrees: Option<TemperatureDifference>,
}

/// No mixer warms a dough by more, °C. Common practice, no source.
pub const MOST_FRICTION: Number = Number::whole(40);

/// So many things stand in a fridge of which nobody said how much it holds: as many as can be said of any equipment.
const ROOM_FOR_ALL: u32 = 1000;

/// How the names of places begin in which all sorts of things stand side by side and wait. Common practice, no source.
const STORED_IN: &Beginnings = &Beginnings::of(&[
    "fridge",
    "refrigerator",
    "freezer",
    "coldroom",
    "coolroom",
    "larder",
    "pantry",
    "cellar",
    "cupboard",
]);

/// How those of machines begin that are cold as well and are filled with one thing. Common practice, no source.
const MACHINE: &Beginnings = &Beginnings::of(&["retard", "prov", "blast", "batch"]);

/// How those begin in which several things stand side by side where somebody said how much they hold: beside the places above what proves,
/// cools or keeps hot. Common practice, no source.
const STANDS_BESIDE: &Beginnings =
    &Beginnings::of(&["retard", "prov", "proof", "cool", "chill", "cabinet", "walk", "hot", "warm", "heated", "bain"]);

/// How those of what cools or freezes one thing at a time begin. Common practice, no source.
const ONE_AT_A_TIME: &Beginnings = &Beginnings::of(&["blast", "batch"]);

impl Equipment {
    /// How much may stand in it side by side, where it is a place in which things wait and that is said by weight: a fridge of 20 kg takes
    /// three doughs of two. A mixer or a kettle of 20 kg is filled with one.
    pub fn stands_by_weight(&self) -> Option<Mass> {
        let Some(Capacity::Mass(most)) = self.holds else { return None };
        let is_place = self.name.has_word_beginning(STORED_IN) || self.name.has_word_beginning(STANDS_BESIDE);
        (is_place && !self.name.has_word_beginning(ONE_AT_A_TIME)).then_some(most)
    }

    /// Whether things would stand in it side by side if somebody said by weight how much it holds, and nobody said how much: it takes one load.
    pub fn could_hold_more(&self) -> bool {
        let is_place = self.name.has_word_beginning(STORED_IN) || self.name.has_word_beginning(STANDS_BESIDE);
        self.holds.is_none() && is_place && !self.has_room_for_all() && !self.name.has_word_beginning(ONE_AT_A_TIME)
    }

    /// Whether it is a place in which all sorts of things stand and wait, and nobody said how much it holds: a fridge has room for two
    /// dishes, and whose is full says so.
    pub fn has_room_for_all(&self) -> bool {
        self.holds.is_none() && self.name.has_word_beginning(STORED_IN) && !self.name.has_word_beginning(MACHINE)
    }
}

/// A scale: the smallest step it shows and the most it carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scale {
    /// The smallest step.
    pub step: Mass,
    /// The most it carries.
    pub up_to: Option<Mass>,
}

/// The longest that somebody whose hours are not said works in a day, in minutes, unless `longest` is said. Law and contracts
/// go first; common practice, no source.
pub const LONGEST_DAY: Minute = 600;

/// A shift longer than this has a rest in it, and nobody works longer than this without one, in minutes: German law on
/// working hours (ArbZG, section 4), from memory.
pub const REST_AFTER: Minute = 360;

/// How long somebody is away between two days of work at least, in minutes: Directive 2003/88/EC, article 3, from memory.
pub const AWAY: Minute = 660;

/// Somebody who works here, by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cook {
    /// What they are called.
    pub name: Name,
    /// From when to when, if that is said; hours that end no later than they begin end on the next day.
    pub hours: Option<Shift>,
    /// The days on which their hours begin; empty: every day.
    pub days: Vec<Weekday>,
    /// How long they rest once in a shift of over six hours.
    pub rests: Option<Duration>,
    /// The longest they work in a day, from their first piece of work to the end of their last, if that is said.
    pub longest: Option<Duration>,
}

impl Cook {
    /// Whether they come on that day.
    pub fn comes_on(&self, day: Weekday) -> bool {
        self.days.is_empty() || self.days.contains(&day)
    }
}

/// How long a shift lasts, in minutes.
pub fn lasts(shift: Shift) -> Minute {
    let minute = |at: Time| Minute::from(at.hour()) * 60 + Minute::from(at.minute()) + Minute::from(at.second() > 0);
    match (minute(shift.to) - minute(shift.from)).rem_euclid(MINUTES_A_DAY) {
        0 => MINUTES_A_DAY,
        minutes => minutes,
    }
}

/// A kitchen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kitchen {
    /// What it is called.
    pub name: String,
    /// Where it was described; `None` for the built-in home kitchen.
    pub span: Option<Span>,
    /// Whose it is, with the address, for the labels of what is made in it.
    pub business: Option<String>,
    /// Allergens of which traces may come into what is made in it.
    pub may_contain: Option<String>,
    /// What there is to work with.
    pub equipment: Vec<Equipment>,
    /// How many people work at once; of those with names, all.
    pub cooks: u32,
    /// Who they are, if the kitchen names them.
    pub named: Vec<Cook>,
    /// The longest that anybody works in a day, from the first piece of work to the end of the last, if that is said.
    pub longest: Option<Duration>,
    /// When work can begin.
    pub opens: Time,
    /// When work must end; no later than `opens`: on the next day.
    pub closes: Time,
    /// The scale for everything.
    pub scale: Scale,
    /// The scale for small amounts.
    pub fine_scale: Option<Scale>,
}

impl Kitchen {
    /// The longest that the cook of that number works in a day; of one with hours that say nothing else, their hours.
    pub fn longest_day(&self, cook: Option<&Cook>) -> Minute {
        let said = cook.and_then(|cook| cook.longest).or(self.longest).and_then(Duration::whole_minutes);
        said.unwrap_or_else(|| cook.and_then(|cook| cook.hours).map_or(LONGEST_DAY, lasts))
    }

    /// How long it is open on a day, in minutes.
    pub fn open_for(&self) -> Minute {
        lasts(Shift { from: self.opens, to: self.closes })
    }

    /// The longest that anybody here works without a pause, in minutes: as long as the kitchen is open and they are there, and no
    /// longer than up to their rest.
    pub fn longest_stretch(&self) -> Minute {
        let open = self.open_for();
        let of = |cook: &Cook| {
            let there = cook.hours.map_or(open, lasts).min(open);
            let rests = cook.rests.is_some() && there > REST_AFTER;
            let there = if rests { there.min(REST_AFTER) } else { there };
            self.longest_day(Some(cook)).min(there)
        };
        let at_home = self.span.is_none() && self.longest.is_none();
        let nameless = if at_home { open } else { self.longest_day(None).min(open) };
        self.named.iter().map(of).max().unwrap_or(nameless)
    }

    /// A kitchen that is assumed has one of whatever else its recipes work with, a waffle iron as well as an oven, and room for all that
    /// stands and waits in a fridge or a cupboard. What is but a slip from the name of what it has is that; a kitchen that was described
    /// has what it says. `used` are the names of equipment, and whether nobody works there.
    #[must_use]
    pub fn with_assumed<'n>(self: &Arc<Kitchen>, used: impl IntoIterator<Item = (&'n Name, bool)>) -> Arc<Kitchen> {
        let mut kitchen = Arc::clone(self);
        if self.span.is_some() {
            return kitchen;
        }
        for (name, waits) in used {
            let is_slip =
                || nearest(name.key.as_str(), self.equipment.iter().map(|one| one.name.key.as_str())).is_some();
            let count = if waits { ROOM_FOR_ALL } else { 1 };
            match kitchen.equipment.iter().position(|one| one.name.same(name)) {
                // It stands in there at one step, and in another somebody works at it.
                Some(at) if at >= self.equipment.len() => {
                    if let Some(one) = Arc::make_mut(&mut kitchen).equipment.get_mut(at) {
                        one.count = one.count.max(count);
                    }
                }
                None if !is_slip() => {
                    let name = name.clone();
                    let assumed = Equipment { name, count, holds: None, friction: None, heating: None, agrees: None };
                    Arc::make_mut(&mut kitchen).equipment.push(assumed);
                }
                _ => {}
            }
        }
        kitchen
    }

    /// The equipment of that name.
    pub fn find(&self, name: &Name) -> Option<&Equipment> {
        self.equipment.iter().find(|equipment| equipment.name.same(name))
    }
}
