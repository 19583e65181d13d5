//! The balance of heat: what everything in the bowl brings, mass by mass, and what the liquids must bring to it.

use super::cold::{Chillable, Cooling};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;

/// One thing that goes into the bowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Warm {
    /// How much.
    pub mass: Mass,
    /// Its specific heat, joules per gram and degree.
    pub heat: Number,
    /// How warm.
    pub at: Temperature,
}

/// The heat of what goes into the bowl besides the liquids that are looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Balance {
    /// What all of it holds, joules per degree.
    whole: Number,
    /// What it brings, joules from 0 °C on.
    brought: Number,
    /// By how many degrees the mixing warms the dough.
    warming: Number,
    /// The liquids that are looked for, joules per degree.
    liquids: Chillable,
}

impl Balance {
    /// Of these things, with liquids that hold so much.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn of(others: &[Warm], liquids: Chillable, warming: Number) -> Result<Balance, Overflow> {
        let (mut whole, mut brought) = (Number::ZERO, Number::ZERO);
        for one in others {
            let capacity = one.mass.value().times(one.heat)?;
            whole = whole.plus(capacity)?;
            brought = brought.plus(capacity.times(one.at.celsius())?)?;
        }
        Ok(Balance { whole: whole.plus(liquids.capacity()?)?, brought, warming, liquids })
    }

    /// How warm the liquids must be for a dough of that temperature.
    ///
    /// # Errors
    /// When there are no liquids, or a figure leaves the range of exact numbers.
    pub fn water(&self, desired: Temperature) -> Result<Temperature, Overflow> {
        let needed = self.whole.times(desired.celsius().minus(self.warming)?)?.minus(self.brought)?;
        needed.over(self.liquids.capacity()?).map(Temperature::from_celsius)
    }

    /// How warm the dough comes out, when the liquids have that temperature.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn dough(&self, water: Temperature) -> Result<Temperature, Overflow> {
        let of_liquids = self.liquids.capacity()?.times(water.celsius())?;
        let mean = self.brought.plus(of_liquids)?.over(self.whole)?;
        mean.plus(self.warming).map(Temperature::from_celsius)
    }

    /// What makes the liquids that cold.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn cooling(&self, tap: Temperature, wanted: Temperature) -> Result<Cooling, Overflow> {
        self.liquids.cooling(tap, wanted)
    }
}

#[cfg(test)]
mod tests {
    use super::super::heat;
    use super::*;

    fn liquids(water: i64) -> Chillable {
        Chillable::by_heat(grams(water), Number::ZERO)
    }

    fn c(degrees: i64) -> Temperature {
        Temperature::from_celsius(Number::whole(degrees))
    }

    fn grams(mass: i64) -> Mass {
        Mass::new(Number::whole(mass))
    }

    fn ice(found: Cooling) -> Mass {
        match found {
            Cooling::Ice { ice, .. } | Cooling::OutOfReach { ice } => ice,
            Cooling::Tap | Cooling::Chilled { .. } => Mass::ZERO,
        }
    }

    /// Water alone in the bowl: the balance is the handbook's, but for 334 / 4.18 = 79.9 in place of 80.
    #[test]
    fn the_balance_of_water_alone_is_the_handbook() {
        let balance = Balance::of(&[], liquids(1000), Number::ZERO).expect("small");
        let wanted = balance.water(c(10)).expect("small");
        assert_eq!(wanted, c(10));
        assert_eq!(ice(balance.cooling(c(20), wanted).expect("small")).value().decimal(1), "100.1");
    }

    /// Baking Business (seen): 350 lb of ice in place of water at 32 °F take up 50 400 BTU. By the balance the same ice
    /// would cool 350 lb of dough of water's heat by 144 °F.
    #[test]
    fn latent_heat_as_printed() {
        let pound = Number::constant(45_359_237, 100_000);
        let joules = heat::MELTING.times(pound).expect("small");
        let btu = joules.over(Number::constant(105_505_585, 100_000)).expect("small");
        let off = btu.minus(Number::whole(144)).expect("small").size();
        assert!(off < Number::ONE, "{}", btu.decimal(2));
    }

    proptest::proptest! {
        /// So many times the batch: the same temperature, so many times the ice.
        #[test]
        fn the_size_of_the_batch_leaves_the_temperature(
            flour in 100..5000_i64, water in 100..3000_i64, warm in 15..40_i64, tap in 1..30_i64, times in 1..50_i64
        ) {
            let at = |factor: i64| {
                let others = [Warm { mass: grams(flour * factor), heat: Number::constant(19, 10), at: c(warm) }];
                let balance = Balance::of(&others, liquids(water * factor), Number::whole(3)).expect("small");
                let wanted = balance.water(c(24)).expect("small");
                (wanted, ice(balance.cooling(c(tap), wanted).expect("small")))
            };
            let (once, many) = (at(1), at(times));
            proptest::prop_assert_eq!(once.0, many.0);
            proptest::prop_assert_eq!(once.1.times(Number::whole(times)), Ok(many.1));
        }

        /// With the ice in place of water, the heat comes out even.
        #[test]
        fn the_balance_is_even(flour in 100..5000_i64, water in 100..3000_i64, warm in 15..40_i64, tap in 1..30_i64) {
            let heat = Number::constant(19, 10);
            let others = [Warm { mass: grams(flour), heat, at: c(warm) }];
            let balance = Balance::of(&others, liquids(water), Number::whole(3)).expect("small");
            let wanted = balance.water(c(24)).expect("small");
            proptest::prop_assert_eq!(balance.dough(wanted), Ok(c(24)));
            let n = |value: Result<Number, Overflow>| value.expect("small");
            let ice = ice(balance.cooling(c(tap), wanted).expect("small"));
            if ice > Mass::ZERO {
                let liquid = n(n(Number::whole(water).minus(ice.value())).times(n(heat::WATER.times(Number::whole(tap)))));
                let melting = n(ice.value().times(heat::MELTING));
                let brought = n(n(liquid.minus(melting)).plus(n(Number::whole(flour * warm).times(heat))));
                let whole = n(n(Number::whole(flour).times(heat)).plus(n(Number::whole(water).times(heat::WATER))));
                proptest::prop_assert_eq!(brought, n(whole.times(Number::whole(21))));
            }
        }
    }
}
