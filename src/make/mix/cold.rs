//! How liquids become colder than they come from the tap: what is not water from the refrigerator first, then ice.
//!
//! Ice *replaces* water. By the handbook: ice = water × (tap − wanted) / (tap + 80), degrees Celsius; 80 because a gram of ice
//! takes up in melting what cools 80 g of water by one degree (144 BTU a pound, Baking Business, seen; the form of
//! the formula W. Gisslen, Professional Baking, from memory; derivation checked).

use super::heat;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;

/// What melting ice takes up, in degrees of its own weight of water: 334 / 4.18, as handbooks round it.
const LATENT_DEGREES: Number = Number::whole(80);

/// What comes from the refrigerator (FDA Food Code 3-501.16: 5 °C and below; 4 °C is what its dial is set to, common practice).
const REFRIGERATOR: Temperature = Temperature::from_celsius(Number::whole(4));

/// Liquids by the heat that they hold: in joules, or as the handbook has it in grams of water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chillable {
    /// Water, in grams: ice can stand for it.
    pub water: Number,
    /// What a gram of it holds for each degree.
    pub per_gram: Number,
    /// What the other liquids hold for each degree. They take no ice, but stand in the refrigerator.
    pub others: Number,
    /// What a gram of ice takes up in melting.
    pub melting: Number,
}

/// What makes liquids as cold as they are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cooling {
    /// Nothing: they are to be as warm as the tap or warmer.
    Tap,
    /// What is not water comes that cold from the refrigerator, the water from the tap.
    Chilled {
        /// How cold.
        others: Temperature,
    },
    /// So much of the water is ice, and the rest comes from the tap; what is not water from the refrigerator.
    Ice {
        /// The ice.
        ice: Mass,
    },
    /// Not even with all the water as ice.
    OutOfReach {
        /// The ice that it would take.
        ice: Mass,
    },
}

impl Chillable {
    /// Liquids as the handbook counts them: a gram of any is a gram of water.
    pub const fn by_the_handbook(water: Mass, others: Mass) -> Chillable {
        Chillable { water: water.value(), per_gram: Number::ONE, others: others.value(), melting: LATENT_DEGREES }
    }

    /// Liquids in joules; `others` hold so much for each degree.
    pub const fn by_heat(water: Mass, others: Number) -> Chillable {
        Chillable { water: water.value(), per_gram: heat::WATER, others, melting: heat::MELTING }
    }

    /// What all of them hold for each degree.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn capacity(&self) -> Result<Number, Overflow> {
        self.water.times(self.per_gram)?.plus(self.others)
    }

    /// What it takes to have them at `wanted`, when the tap gives `tap`.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers, or the tap is as cold as −80 °C.
    pub fn cooling(&self, tap: Temperature, wanted: Temperature) -> Result<Cooling, Overflow> {
        if wanted >= tap {
            return Ok(Cooling::Tap);
        }
        let needed = self.capacity()?.times(wanted.celsius())?;
        let of_tap = self.water.times(self.per_gram)?.times(tap.celsius())?;
        let mut others = Number::ZERO;
        if self.others.is_positive() {
            let at = Temperature::from_celsius(needed.minus(of_tap)?.over(self.others)?);
            if at >= REFRIGERATOR {
                return Ok(Cooling::Chilled { others: at });
            }
            others = self.others.times(REFRIGERATOR.min(tap).celsius())?;
        }
        let too_warm = of_tap.plus(others)?.minus(needed)?;
        let ice = Mass::new(too_warm.over(self.per_gram.times(tap.celsius())?.plus(self.melting)?)?);
        Ok(if ice.value() > self.water { Cooling::OutOfReach { ice } } else { Cooling::Ice { ice } })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn f(degrees: i64) -> Temperature {
        Temperature::from_fahrenheit(Number::whole(degrees)).expect("small")
    }

    fn c(degrees: i64) -> Temperature {
        Temperature::from_celsius(Number::whole(degrees))
    }

    fn of(water: i64, others: i64, tap: Temperature, wanted: Temperature) -> Cooling {
        let grams = |mass: i64| Mass::new(Number::whole(mass));
        Chillable::by_the_handbook(grams(water), grams(others)).cooling(tap, wanted).expect("small")
    }

    /// 'Ice Temperature Table' of a trade supplier (seen): pounds of ice to a pound of water; tolerance 3 %. The row
    /// 50 → 35 °F of that table (0.087, by the formula 0.0926) is off by 6 % and is left out.
    #[test]
    fn the_printed_table() {
        let printed = [
            (60, 50, 57),
            (60, 40, 115),
            (70, 50, 109),
            (70, 40, 163),
            (80, 60, 103),
            (80, 40, 206),
            (50, 40, 61),
            (80, 70, 52),
        ];
        for (tap, wanted, thousandths) in printed {
            let Cooling::Ice { ice } = of(1000, 0, f(tap), f(wanted)) else { panic!("{tap} to {wanted} °F: no ice") };
            let off = ice.value().minus(Number::whole(thousandths)).expect("small").size();
            let allowed = Number::constant(3 * i128::from(thousandths), 100);
            assert!(off <= allowed, "{tap} to {wanted}: {} against {thousandths}", ice.value().decimal(1));
        }
    }

    /// 40 kg of water from 20 °C to 10 °C: 4.00 kg of ice when it replaces water. An article (D. Argyriou, 'A Simple
    /// Calculation', seen) prints 4.4 kg, which is what has to be *added*.
    #[test]
    fn ice_replaces_water() {
        assert_eq!(of(40_000, 0, c(20), c(10)), Cooling::Ice { ice: Mass::new(Number::whole(4000)) });
    }

    #[test]
    fn a_cold_tap_needs_no_ice() {
        assert_eq!(of(1000, 0, c(8), c(12)), Cooling::Tap);
    }

    /// Worked by hand. Half milk, half water, at 10 °C from a tap of 15: milk at 5 °C does it. At 5 °C: milk at 4 °C brings 4000,
    /// the tap 15 000, wanted are 10 000: 9000 / (15 + 80) = 94.7 g of ice. Milk alone at 2 °C cannot be.
    #[test]
    fn milk_comes_from_the_refrigerator_before_ice_is_taken() {
        assert_eq!(of(1000, 1000, c(15), c(10)), Cooling::Chilled { others: c(5) });
        let Cooling::Ice { ice } = of(1000, 1000, c(15), c(5)) else { panic!("no ice") };
        assert_eq!(ice.value().decimal(1), "94.7");
        assert_eq!(of(0, 1000, c(15), c(7)), Cooling::Chilled { others: c(7) });
        assert!(matches!(of(0, 1000, c(15), c(2)), Cooling::OutOfReach { .. }));
    }
}
