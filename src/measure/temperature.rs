//! Temperatures and temperature differences, which convert differently: a difference has no offset.

use crate::measure::number::{Number, Overflow};

/// What a temperature is read on, which says how finely it is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Dial {
    /// The dial of an oven: by five degrees Fahrenheit above the boiling point.
    #[default]
    Oven,
    /// A thermometer in sugar or fat, of which every degree counts.
    Thermometer,
}

/// How hot something is, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Temperature(Number);

/// How much hotter one thing is than another, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TemperatureDifference(Number);

/// 9/5: Fahrenheit degrees to one Celsius degree.
const FAHRENHEIT_PER_CELSIUS: Number = Number::constant(9, 5);
/// The Fahrenheit reading at 0 °C.
const FAHRENHEIT_AT_ZERO: Number = Number::whole(32);

impl Temperature {
    /// From degrees Celsius.
    pub const fn from_celsius(degrees: Number) -> Temperature {
        Temperature(degrees)
    }

    /// From degrees Fahrenheit.
    pub fn from_fahrenheit(degrees: Number) -> Result<Temperature, Overflow> {
        degrees.minus(FAHRENHEIT_AT_ZERO)?.over(FAHRENHEIT_PER_CELSIUS).map(Temperature)
    }

    /// In degrees Celsius.
    pub const fn celsius(self) -> Number {
        self.0
    }

    /// In degrees Fahrenheit.
    pub fn fahrenheit(self) -> Result<Number, Overflow> {
        self.0.times(FAHRENHEIT_PER_CELSIUS)?.plus(FAHRENHEIT_AT_ZERO)
    }

    /// How much hotter this is than the other.
    pub fn minus(self, other: Temperature) -> Result<TemperatureDifference, Overflow> {
        self.0.minus(other.0).map(TemperatureDifference)
    }
}

impl TemperatureDifference {
    /// From Celsius degrees.
    pub const fn from_celsius(degrees: Number) -> TemperatureDifference {
        TemperatureDifference(degrees)
    }

    /// From Fahrenheit degrees.
    pub fn from_fahrenheit(degrees: Number) -> Result<TemperatureDifference, Overflow> {
        degrees.over(FAHRENHEIT_PER_CELSIUS).map(TemperatureDifference)
    }

    /// In Celsius degrees.
    pub const fn celsius(self) -> Number {
        self.0
    }

    /// In Fahrenheit degrees.
    pub fn fahrenheit(self) -> Result<Number, Overflow> {
        self.0.times(FAHRENHEIT_PER_CELSIUS)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// GNU units 2.22: 350 F = 176.6667 C; 24 C = 75.2 F; -18 C = -0.4 F.
    #[test]
    fn readings_have_an_offset() {
        let hot = Temperature::from_fahrenheit(Number::whole(350)).expect("in range");
        assert_eq!(hot.celsius().decimal(4), "176.6667");
        let dough = Temperature::from_celsius(Number::whole(24)).fahrenheit().expect("in range");
        assert_eq!(dough.decimal(2), "75.2");
        let frozen = Temperature::from_celsius(Number::whole(-18)).fahrenheit().expect("in range");
        assert_eq!(frozen.decimal(2), "-0.4");
    }

    /// Differences scale by 5/9 only (worked example D1f of the outside checks: 35 F of friction = 19.444 C).
    #[test]
    fn differences_have_none() {
        let friction = TemperatureDifference::from_fahrenheit(Number::whole(35)).expect("in range");
        assert_eq!(friction.celsius().decimal(3), "19.444");
    }
}
