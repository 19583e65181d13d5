//! What the lines of kitchens, larders and days say.

use super::{Name, Quantity, WrittenNumber};
use crate::text::source::{Span, Spanned};
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
    Saturates,
    TransFat,
    AddedSugar,
    Polyols,
    Alcohol,
}

impl FactKind {
    /// Every one with the words that begin its line.
    const WORDS: [(FactKind, &'static str); 14] = [
        (FactKind::Water, "water"),
        (FactKind::Fat, "fat"),
        (FactKind::Salt, "salt"),
        (FactKind::Sugar, "sugar"),
        (FactKind::Protein, "protein"),
        (FactKind::Carbohydrate, "carbohydrate"),
        (FactKind::Fibre, "fibre"),
        (FactKind::Acid, "acid"),
        (FactKind::Yield, "yield"),
        (FactKind::Saturates, "saturates"),
        (FactKind::TransFat, "trans fat"),
        (FactKind::AddedSugar, "added sugar"),
        (FactKind::Polyols, "polyols"),
        (FactKind::Alcohol, "alcohol"),
    ];

    /// The words that begin its line.
    pub fn word(self) -> &'static str {
        FactKind::WORDS.iter().find(|(kind, _)| *kind == self).map_or("", |(_, word)| word)
    }

    /// What a line that begins so says.
    pub(crate) fn from_word(word: &str) -> Option<FactKind> {
        FactKind::WORDS.iter().find(|(_, known)| *known == word).map(|(kind, _)| *kind)
    }
}

/// What is so little in a food that it is given in milligrams, vitamin D in micrograms, in 100 g.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the names are the traces
pub enum TraceKind {
    Cholesterol,
    VitaminD,
    Calcium,
    Iron,
    Potassium,
}

impl TraceKind {
    /// All of them, in the order of a label.
    pub const ALL: [TraceKind; 5] =
        [TraceKind::Cholesterol, TraceKind::VitaminD, TraceKind::Calcium, TraceKind::Iron, TraceKind::Potassium];

    /// The words that begin its line.
    pub fn word(self) -> &'static str {
        match self {
            TraceKind::Cholesterol => "cholesterol",
            TraceKind::VitaminD => "vitamin D",
            TraceKind::Calcium => "calcium",
            TraceKind::Iron => "iron",
            TraceKind::Potassium => "potassium",
        }
    }

    /// Its unit, as it is written.
    pub fn unit(self) -> &'static str {
        if self == TraceKind::VitaminD { "ug" } else { "mg" }
    }
}

/// What a recipe, a kitchen or a day says for its label in so many words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SaleField {
    /// `sold as`: the name of the food that the law asks for
    SoldAs,
    /// `store`: how to keep it
    Store,
    /// `batch`: the lot
    Batch,
    /// `business`: whose it is, with the address
    Business,
    /// `may contain`: allergens of which traces may have come in
    MayContain,
    /// `origin`: where it comes from
    Origin,
    /// `directions`: what a buyer does with it before it is eaten
    Directions,
}

impl SaleField {
    /// All of them.
    pub const ALL: [SaleField; 7] = [
        SaleField::SoldAs,
        SaleField::Store,
        SaleField::Batch,
        SaleField::Business,
        SaleField::MayContain,
        SaleField::Origin,
        SaleField::Directions,
    ];

    /// The words that begin its line.
    pub fn word(self) -> &'static str {
        match self {
            SaleField::SoldAs => "sold as",
            SaleField::Store => "store",
            SaleField::Batch => "batch",
            SaleField::Business => "business",
            SaleField::MayContain => "may contain",
            SaleField::Origin => "origin",
            SaleField::Directions => "directions",
        }
    }
}

/// What is left on a sieve of what is sold in a liquid.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Drained {
    /// `320 g of 550 g`: what was left, of what went onto the sieve
    Weighed(Quantity, Quantity),
    /// `58 %`: of the net weight
    Share(Quantity),
    /// `as packed`: as much as went in solid
    AsPacked,
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
    /// `compound`: it is made of several things, and its pack says of which
    Compound,
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

/// How much a `make` line asks for.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum WantedAmount {
    /// `40`, `4 kg`
    Quantity(Quantity),
    /// `30 small and 12 large`
    Sorts(Vec<(WrittenNumber, Name)>),
}

/// What stands behind `store 3 kg of "…"`, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum StoreClause {
    /// `choose hand`, `choose mixing = hand`
    Choose(Name, Option<Name>),
    /// `made 2027-04-10`
    Made(Spanned<jiff::civil::Date>),
    /// Something that was reported.
    Broken,
}
