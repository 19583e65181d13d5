//! The temperature of the water for a dough of the desired temperature, by the handbook.
//!
//! water = n × desired − (room + flour + friction), n = 3; with a preferment n = 4 and its temperature taken off too.
//! T. Lehmann, PMQ, spring 2003, and Pizza Today, June 2018, p. 29 (seen); the factor of four: San Francisco Baking
//! Institute, Artisan I hand-out (seen as quoted).

use crate::measure::number::{Number, Overflow};
use crate::measure::temperature::{Temperature, TemperatureDifference};

/// The figures that the sum is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    /// What the dough is to have when the mix ends.
    pub desired: Temperature,
    /// The room.
    pub room: Temperature,
    /// The flour.
    pub flour: Temperature,
    /// The preferment, when there is one.
    pub preferment: Option<Temperature>,
    /// The mixer's friction, as the handbook counts it: the sum of the factors that the mixing stands for.
    pub friction: TemperatureDifference,
}

impl Figures {
    /// How many temperatures the dough is the mean of.
    pub fn factors(&self) -> Number {
        Number::whole(if self.preferment.is_some() { 4 } else { 3 })
    }

    /// The temperature of the water.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn water(&self) -> Result<Temperature, Overflow> {
        let mut degrees = self.desired.celsius().times(self.factors())?;
        degrees = degrees.minus(self.room.celsius())?.minus(self.flour.celsius())?.minus(self.friction.celsius())?;
        if let Some(preferment) = self.preferment {
            degrees = degrees.minus(preferment.celsius())?;
        }
        Ok(Temperature::from_celsius(degrees))
    }

    /// By how many degrees the mixing itself warms the dough, as the handbook's mean has it.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn warming(&self) -> Result<Number, Overflow> {
        self.friction.celsius().over(self.factors())
    }

    /// The temperature of the dough, when the water has that temperature: the same mean, turned round.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn dough(&self, water: Temperature) -> Result<Temperature, Overflow> {
        let mut degrees = water.celsius().plus(self.room.celsius())?.plus(self.flour.celsius())?;
        degrees = degrees.plus(self.friction.celsius())?;
        if let Some(preferment) = self.preferment {
            degrees = degrees.plus(preferment.celsius())?;
        }
        degrees.over(self.factors()).map(Temperature::from_celsius)
    }
}

/// The friction of a mixer, from a dough that was measured: the same sum turned round.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn friction(
    dough: Temperature,
    room: Temperature,
    flour: Temperature,
    water: Temperature,
    preferment: Option<Temperature>,
) -> Result<TemperatureDifference, Overflow> {
    let factors = Number::whole(if preferment.is_some() { 4 } else { 3 });
    let mut degrees = dough.celsius().times(factors)?;
    for other in [Some(room), Some(flour), Some(water), preferment].into_iter().flatten() {
        degrees = degrees.minus(other.celsius())?;
    }
    Ok(TemperatureDifference::from_celsius(degrees))
}

/// What can be said of a water temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Water can have it.
    Fine,
    /// It would boil.
    Boils,
    /// Yeast dies in it: above 110 °F (TM 10-412, 2003, card D-G-2, seen).
    KillsYeast,
    /// Below freezing: only with ice.
    Frozen,
}

/// Whether water can have that temperature.
pub fn verdict(water: Temperature) -> Verdict {
    let degrees = water.celsius();
    if degrees >= Number::whole(100) {
        Verdict::Boils
    } else if degrees > Number::constant(130, 3) {
        Verdict::KillsYeast
    } else if degrees.is_negative() {
        Verdict::Frozen
    } else {
        Verdict::Fine
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn f(degrees: i64) -> Temperature {
        Temperature::from_fahrenheit(Number::whole(degrees)).expect("small")
    }

    fn f_difference(degrees: i64) -> TemperatureDifference {
        TemperatureDifference::from_fahrenheit(Number::whole(degrees)).expect("small")
    }

    fn figures(desired: i64, room: i64, flour: i64, friction: i64, preferment: Option<i64>) -> Figures {
        Figures {
            desired: f(desired),
            room: f(room),
            flour: f(flour),
            preferment: preferment.map(f),
            friction: f_difference(friction),
        }
    }

    /// Lehmann, Pizza Today, June 2018, p. 29 (seen): 80 °F desired, flour 65, room 75, friction 35: water at 65 °F.
    /// In Celsius 26.667, 18.333, 23.889 and 19.444 give 18.333: the same sum, since every factor has the same offset but one.
    #[test]
    fn three_factors_as_printed() {
        let water = figures(80, 75, 65, 35, None).water().expect("small");
        assert_eq!(water, f(65));
        assert_eq!(water.celsius().decimal(3), "18.333");
    }

    /// A how-to article quoted on a baking forum (seen): 78 °F desired, flour 60, room 70, friction 16 (eight minutes at two): water at 88 °F.
    #[test]
    fn three_factors_of_a_second_print() {
        assert_eq!(figures(78, 70, 60, 16, None).water(), Ok(f(88)));
    }

    /// 'A Treatise on Baking' (seen): 78 °F, shop 85, flour 67: water at 82 °F, friction not counted.
    #[test]
    fn without_friction() {
        assert_eq!(figures(78, 85, 67, 0, None).water(), Ok(f(82)));
    }

    /// Four factors: the formula is published (San Francisco Baking Institute, Artisan I), the numbers are our own: 304 − 234 = 70 °F.
    #[test]
    fn four_factors() {
        assert_eq!(figures(76, 70, 68, 24, Some(72)).water(), Ok(f(70)));
    }

    /// Lehmann, PMQ, spring 2003 (seen): friction = 3 × dough − (room + flour + water); the first example turned round.
    #[test]
    fn friction_is_the_sum_turned_round() {
        assert_eq!(friction(f(80), f(75), f(65), f(65), None), Ok(f_difference(35)));
        assert_eq!(friction(f(76), f(70), f(68), f(70), Some(f(72))), Ok(f_difference(24)));
    }

    #[test]
    fn verdicts_at_their_limits() {
        let at = |degrees: i64| verdict(Temperature::from_celsius(Number::whole(degrees)));
        assert_eq!(at(-1), Verdict::Frozen);
        assert_eq!(at(0), Verdict::Fine);
        assert_eq!(at(43), Verdict::Fine);
        assert_eq!(at(44), Verdict::KillsYeast);
        assert_eq!(at(100), Verdict::Boils);
    }
}
