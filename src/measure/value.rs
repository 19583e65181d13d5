//! Amounts as they are understood: a quantity with its dimension, and how far its digits leave it open.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Duration, Length, Mass, Proportion, Volume};
use crate::measure::temperature::Temperature;
use crate::measure::unit::{Dimension, Unit};
use crate::text::source::Span;

/// An exact quantity of any dimension.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the variants are the dimensions
pub enum Value {
    Mass(Mass),
    Volume(Volume),
    Count(Count),
    Length(Length),
    Time(Duration),
    Temperature(Temperature),
    Proportion(Proportion),
}

impl Value {
    /// Whether so much, written in this unit, is measured out in halves, quarters and eighths and not in decimals.
    pub fn goes_by_parts(self, unit: Option<Unit>) -> bool {
        matches!(unit, Some(Unit::Cup | Unit::Teaspoon | Unit::Tablespoon)) || matches!(self, Value::Count(_))
    }

    /// So many times this. A temperature does not grow with the batch.
    pub fn times(self, factor: Number) -> Result<Value, Overflow> {
        Ok(match self {
            Value::Mass(mass) => Value::Mass(mass.times(factor)?),
            Value::Volume(volume) => Value::Volume(volume.times(factor)?),
            Value::Count(count) => Value::Count(count.times(factor)?),
            Value::Length(length) => Value::Length(length.times(factor)?),
            Value::Time(time) => Value::Time(time.times(factor)?),
            Value::Proportion(share) => Value::Proportion(share.times(factor)?),
            Value::Temperature(temperature) => Value::Temperature(temperature),
        })
    }

    /// Both together; `None` where they measure different things, or degrees, which do not add up.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn plus(self, other: Value) -> Result<Option<Value>, Overflow> {
        Ok(match (self, other) {
            (Value::Mass(one), Value::Mass(other)) => Some(Value::Mass(one.plus(other)?)),
            (Value::Volume(one), Value::Volume(other)) => Some(Value::Volume(one.plus(other)?)),
            (Value::Count(one), Value::Count(other)) => Some(Value::Count(one.plus(other)?)),
            (Value::Length(one), Value::Length(other)) => Some(Value::Length(one.plus(other)?)),
            (Value::Time(one), Value::Time(other)) => Some(Value::Time(one.plus(other)?)),
            (Value::Proportion(one), Value::Proportion(other)) => Some(Value::Proportion(one.plus(other)?)),
            _ => None,
        })
    }

    /// The number in the dimension's own unit.
    pub fn number(self) -> Number {
        match self {
            Value::Mass(mass) => mass.value(),
            Value::Volume(volume) => volume.value(),
            Value::Count(count) => count.value(),
            Value::Length(length) => length.value(),
            Value::Time(time) => time.value(),
            Value::Temperature(temperature) => temperature.celsius(),
            Value::Proportion(share) => share.value(),
        }
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Value::Mass(_) => Dimension::Mass,
            Value::Volume(_) => Dimension::Volume,
            Value::Count(_) => Dimension::Count,
            Value::Length(_) => Dimension::Length,
            Value::Time(_) => Dimension::Time,
            Value::Temperature(_) => Dimension::Temperature,
            Value::Proportion(_) => Dimension::Proportion,
        }
    }
}

/// A quantity that was said: its value, how far its digits leave it open, and the unit it was said in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Said {
    /// The value; the lower end of a range.
    pub value: Value,
    /// The upper end, when a range was said.
    pub upper: Option<Value>,
    /// How far the value may be off by the rounding its digits imply, in the dimension's own unit.
    pub slack: Number,
    /// The unit of the first term; `None` for a bare number.
    pub unit: Option<Unit>,
    /// How much one of that unit is in the dimension's own unit, as this file counts it; `None` for a bare number and for
    /// temperatures.
    pub size: Option<Number>,
    /// Whether all its digits are whole, so that it claims no rounding.
    pub whole: bool,
    /// Where.
    pub span: Span,
}

impl Said {
    /// The larger end of a range, or the value.
    pub fn most(&self) -> Value {
        self.upper.unwrap_or(self.value)
    }

    /// The mass, if it is one.
    pub fn mass(&self) -> Option<Mass> {
        if let Value::Mass(mass) = self.value { Some(mass) } else { None }
    }

    /// The share, if it is one.
    pub fn proportion(&self) -> Option<Proportion> {
        if let Value::Proportion(share) = self.value { Some(share) } else { None }
    }

    /// The temperature, if it is one.
    pub fn temperature(&self) -> Option<Temperature> {
        if let Value::Temperature(temperature) = self.value { Some(temperature) } else { None }
    }

    /// The temperatures, if it is one: from and to.
    pub fn temperatures(&self) -> Option<(Temperature, Temperature)> {
        match (self.value, self.most()) {
            (Value::Temperature(low), Value::Temperature(high)) => Some((low, high)),
            _ => None,
        }
    }

    /// The time, if it is one: from and to.
    pub fn times(&self) -> Option<(Duration, Duration)> {
        match (self.value, self.most()) {
            (Value::Time(low), Value::Time(high)) => Some((low, high)),
            _ => None,
        }
    }
}

/// A value that stands alone, and whether it is a bare number: `800` of butter is no 800 sticks of it, `800 pieces` may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// The value.
    pub value: Value,
    /// Whether it is a number without any unit.
    pub is_bare: bool,
}

impl From<Said> for Told {
    fn from(said: Said) -> Told {
        Told { value: said.value, is_bare: said.unit.is_none() }
    }
}

impl From<Value> for Told {
    fn from(value: Value) -> Told {
        Told { value, is_bare: false }
    }
}
