//! How much of the water is ice, when it must be colder than it comes from the tap.
//!
//! Ice *replaces* water. By the handbook: ice = water × (tap − wanted) / (tap + 80), degrees Celsius; 80 because a gram of ice
//! takes up in melting what cools 80 g of water by one degree (144 BTU a pound, Baking Business, seen; the form of
//! the formula W. Gisslen, Professional Baking, from memory; derivation checked). It cools the water alone; [`balance`]
//! counts the heat of everything in the bowl.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;

/// What melting ice takes up, in degrees of its own weight of water: 334 / 4.18, as handbooks round it.
pub const LATENT_DEGREES: Number = Number::whole(80);

/// The share of the water that is ice, by the handbook; nothing when the tap is cold enough.
///
/// # Errors
/// When a figure leaves the range of exact numbers, or the tap is as cold as −80 °C.
pub fn handbook(water: Mass, tap: Temperature, wanted: Temperature) -> Result<Mass, Overflow> {
    let colder = tap.celsius().minus(wanted.celsius())?;
    if !colder.is_positive() {
        return Ok(Mass::ZERO);
    }
    water.times(colder.over(tap.celsius().plus(LATENT_DEGREES)?)?)
}

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

/// What everything in the bowl asks of the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Balance {
    /// How warm all of the water would have to be.
    pub water: Temperature,
    /// How much of it is ice, when the rest comes from the tap; nothing when the tap is cold enough.
    pub ice: Mass,
}

/// The balance of heat: what goes in, and the mixing, leaves a dough of the desired temperature.
///
/// # Errors
/// When there is no water, or a figure leaves the range of exact numbers.
pub fn balance(
    others: &[Warm],
    water: Mass,
    tap: Temperature,
    desired: Temperature,
    warming: Number,
) -> Result<Balance, Overflow> {
    let of_water = water.value().times(super::heat::WATER)?;
    let mut whole = of_water;
    let mut brought = Number::ZERO;
    for one in others {
        let capacity = one.mass.value().times(one.heat)?;
        whole = whole.plus(capacity)?;
        brought = brought.plus(capacity.times(one.at.celsius())?)?;
    }
    // What the water must bring, so that with the warming of the mixer the whole comes to the desired temperature.
    let needed = whole.times(desired.celsius().minus(warming)?)?.minus(brought)?;
    let degrees = needed.over(of_water)?;
    let too_much = of_water.times(tap.celsius())?.minus(needed)?;
    let per_gram = super::heat::WATER.times(tap.celsius())?.plus(super::heat::MELTING)?;
    let ice = if too_much.is_positive() { Mass::new(too_much.over(per_gram)?) } else { Mass::ZERO };
    Ok(Balance { water: Temperature::from_celsius(degrees), ice })
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
            let ice = handbook(Mass::new(Number::whole(1000)), f(tap), f(wanted)).expect("small").value();
            let off = ice.minus(Number::whole(thousandths)).expect("small").size();
            let allowed = Number::constant(3 * i128::from(thousandths), 100);
            assert!(off <= allowed, "{tap} to {wanted}: {} against {thousandths}", ice.decimal(1));
        }
    }

    /// 40 kg of water from 20 °C to 10 °C: 4.00 kg of ice when it replaces water. An article (D. Argyriou, 'A Simple
    /// Calculation', seen) prints 4.4 kg, which is what has to be *added*.
    #[test]
    fn ice_replaces_water() {
        let ice = handbook(Mass::new(Number::whole(40_000)), c(20), c(10)).expect("small");
        assert_eq!(ice, Mass::new(Number::whole(4000)));
    }

    /// Water alone in the bowl: the balance is the handbook's, but for 334 / 4.18 = 79.9 in place of 80.
    #[test]
    fn the_balance_of_water_alone_is_the_handbook() {
        let water = Mass::new(Number::whole(1000));
        let exact = balance(&[], water, c(20), c(10), Number::ZERO).expect("small");
        assert_eq!(exact.water, c(10));
        assert_eq!(exact.ice.value().decimal(1), "100.1");
        assert_eq!(handbook(water, c(20), c(10)).expect("small").value().decimal(1), "100");
    }

    /// Baking Business (seen): 350 lb of ice in place of water at 32 °F take up 50 400 BTU. By the balance the same ice
    /// would cool 350 lb of dough of water's heat by 144 °F.
    #[test]
    fn latent_heat_as_printed() {
        let pound = Number::constant(45_359_237, 100_000);
        let btu = super::super::heat::MELTING
            .times(pound)
            .expect("small")
            .over(Number::constant(105_505_585, 100_000))
            .expect("small");
        let off = btu.minus(Number::whole(144)).expect("small").size();
        assert!(off < Number::ONE, "{}", btu.decimal(2));
    }

    #[test]
    fn a_cold_tap_needs_no_ice() {
        assert_eq!(handbook(Mass::new(Number::whole(1000)), c(8), c(12)), Ok(Mass::ZERO));
    }

    proptest::proptest! {
        /// So many times the batch: the same temperature, so many times the ice.
        #[test]
        fn the_size_of_the_batch_leaves_the_temperature(
            flour in 100..5000_i64, water in 100..3000_i64, warm in 15..40_i64, tap in 1..30_i64, times in 1..50_i64
        ) {
            let at = |factor: i64| {
                let mass = |grams: i64| Mass::new(Number::whole(grams * factor));
                let others = [Warm { mass: mass(flour), heat: Number::constant(19, 10), at: c(warm) }];
                balance(&others, mass(water), c(tap), c(24), Number::whole(3)).expect("small")
            };
            let (once, many) = (at(1), at(times));
            proptest::prop_assert_eq!(once.water, many.water);
            proptest::prop_assert_eq!(once.ice.times(Number::whole(times)), Ok(many.ice));
        }

        /// With the ice in place of water, the heat comes out even.
        #[test]
        fn the_balance_is_even(flour in 100..5000_i64, water in 100..3000_i64, warm in 15..40_i64, tap in 1..30_i64) {
            let mass = |grams: i64| Mass::new(Number::whole(grams));
            let heat = Number::constant(19, 10);
            let others = [Warm { mass: mass(flour), heat, at: c(warm) }];
            let found = balance(&others, mass(water), c(tap), c(24), Number::whole(3)).expect("small");
            let n = |value: Result<Number, Overflow>| value.expect("small");
            let of_water = super::super::heat::WATER;
            if found.ice > Mass::ZERO {
                let liquid = n(n(Number::whole(water).minus(found.ice.value())).times(n(of_water.times(Number::whole(tap)))));
                let melting = n(found.ice.value().times(super::super::heat::MELTING));
                let brought = n(n(liquid.minus(melting)).plus(n(Number::whole(flour * warm).times(heat))));
                let whole = n(n(Number::whole(flour).times(heat)).plus(n(Number::whole(water).times(of_water))));
                proptest::prop_assert_eq!(brought, n(whole.times(Number::whole(21))));
            }
        }
    }
}
