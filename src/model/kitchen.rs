//! The kitchen: what equipment there is, who works, when it is open, and what the scale can show.

use crate::language::syntax::Name;
use crate::measure::quantity::{Count, Duration, Mass};
use crate::measure::temperature::TemperatureDifference;
use crate::text::source::Span;
use jiff::civil::Time;

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

/// A scale: the smallest step it shows and the most it carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scale {
    /// The smallest step.
    pub step: Mass,
    /// The most it carries.
    pub up_to: Option<Mass>,
}

/// A kitchen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kitchen {
    /// What it is called.
    pub name: String,
    /// Where it was described; `None` for the built-in home kitchen.
    pub span: Option<Span>,
    /// What there is to work with.
    pub equipment: Vec<Equipment>,
    /// How many people work at once.
    pub cooks: u32,
    /// When work can begin.
    pub opens: Time,
    /// When work must end.
    pub closes: Time,
    /// The scale for everything.
    pub scale: Scale,
    /// The scale for small amounts.
    pub fine_scale: Option<Scale>,
}

impl Kitchen {
    /// The equipment of that name.
    pub fn find(&self, name: &Name) -> Option<&Equipment> {
        self.equipment.iter().find(|equipment| equipment.name.same(name))
    }
}
