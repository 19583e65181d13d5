//! What the lines of kitchens, larders and days say.

use super::{Name, Quantity};
use crate::text::source::Span;
use jiff::civil::{Time, Weekday};

/// A figure of a larder block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the names are the facts
pub enum FactKind {
    Water,
    Fat,
    Salt,
    Sugar,
    Protein,
    Carbohydrate,
    Fibre,
    Acid,
    Yield,
}

/// A property of a larder block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flag {
    /// `counts as flour`
    CountsAsFlour,
    /// `not flour`
    NotFlour,
    /// `raw flour`
    RawFlour,
    /// `raw egg`
    RawEgg,
    /// `ready to eat`
    ReadyToEat,
    /// `not vegan`
    NotVegan,
    /// `not vegetarian`
    NotVegetarian,
    /// `bought by the litre`
    BoughtByTheLitre,
    /// `bought by the piece`
    BoughtByThePiece,
    /// `bought by weight`
    BoughtByWeight,
}

/// From when to when somebody works; one that ends no later than it begins ends on the next day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Shift {
    /// When it begins.
    pub from: Time,
    /// When it ends; a day's end is its last second.
    pub to: Time,
}

/// What stands behind a cook's hours, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum CookClause {
    /// `on Tue-Sat and Mon`: the days, each stretch by its first and last.
    On(Vec<(Weekday, Weekday)>),
    /// `rests 30 min`
    Rests(Quantity),
    /// `longest 9 h`
    Longest(Quantity),
    /// Something that is none of these; it was reported.
    Broken,
}

/// What stands behind `oven x 1`, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum EquipmentClause {
    /// `holds 8 kg`, `holds 12 pieces`
    Holds(Quantity),
    /// `friction 12 C`: how much the mixing warms a dough
    Friction(Quantity),
    /// `heating 20 min`: time from one temperature to another
    Heating(Quantity),
    /// `agrees within 10 C`: how far two temperatures may differ and still share it
    Agrees(Quantity),
    /// Something that was reported.
    Broken,
}

/// A moment of the calendar as written, checked to exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Moment {
    /// Date and time of the clock on the wall.
    pub when: jiff::civil::DateTime,
    /// Where.
    pub span: Span,
}

/// What stands behind `make 20 of "…"`, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum MakeClause {
    /// `choose hand`, `choose mixing = hand`
    Choose(Name, Option<Name>),
    /// `ready 2026-12-05 13:00`
    Ready(Moment),
    /// Something that was reported.
    Broken,
}
