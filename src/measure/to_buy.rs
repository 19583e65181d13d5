//! What is bought: rounded up to what can be asked for in a shop, by weight or by volume.

use super::number::Number;
use super::quantity::{Mass, Volume};
use super::show::{self, Units, fractions, grouped, in_systems};
use super::shown::Shown;
use super::sizes::{FLUID_OUNCE, OUNCE};

/// A mass to buy: rounded up to what can be asked for in a shop, the coarser the more it is.
pub fn mass_to_buy(mass: Mass, units: Units) -> Shown {
    in_systems(units, || grams_to_buy(mass), || ounces_to_buy(mass))
}

/// Up to the next gram, 5 g, 10 g, 50 g or 100 g.
fn grams_to_buy(mass: Mass) -> Shown {
    in_thousands(mass.value(), "g", "kg")
}

/// So many of a small unit, up to the next 1, 5, 10, 50 or 100; from a thousand on in the unit that is a thousand of them.
fn in_thousands(small: Number, unit: &'static str, thousand: &'static str) -> Shown {
    let steps = [(10, 1), (100, 5), (1000, 10), (10_000, 50)];
    let step = steps.iter().find(|(below, _)| small < Number::whole(*below)).map_or(100, |(_, step)| *step);
    let up = rounded_up(small, Number::whole(step));
    match up.over(Number::whole(1000)) {
        Ok(thousands) if up >= Number::whole(1000) => Shown::new(grouped(&thousands.decimal(2)), thousand),
        _ => Shown::new(grouped(&up.decimal(0)), unit),
    }
}

/// A volume to buy, likewise: bottles and cartons say litres, in the US fluid ounces and quarts.
pub fn volume_to_buy(volume: Volume, units: Units) -> Shown {
    in_systems(units, || in_thousands(volume.value(), "ml", "l"), || fluid_ounces_to_buy(volume))
}

/// Up to the next half of a fluid ounce, from a quart on to the next quarter of a quart.
fn fluid_ounces_to_buy(volume: Volume) -> Shown {
    let Ok(ounces) = volume.value().over(FLUID_OUNCE) else { return show::volume(volume) };
    let quart = Number::whole(32);
    if ounces < quart {
        return Shown::new(fractions(rounded_up(ounces, Number::constant(1, 2))), "fl oz");
    }
    let quarts = ounces.over(quart).map(|quarts| rounded_up(quarts, Number::constant(1, 4)));
    quarts.map_or_else(|_| show::volume(volume), |quarts| Shown::new(fractions(quarts), "qt"))
}

/// Up to the next quarter ounce, from a pound on to the next ounce.
fn ounces_to_buy(mass: Mass) -> Shown {
    let Ok(ounces) = mass.value().over(OUNCE) else { return show::mass_plain(mass) };
    let step = if ounces < Number::whole(16) { Number::constant(1, 4) } else { Number::ONE };
    let up = rounded_up(ounces, step).times(OUNCE);
    up.map_or_else(|_| show::mass_plain(mass), |grams| show::mass_us(Mass::new(grams)))
}

fn rounded_up(value: Number, step: Number) -> Number {
    value.over(step).and_then(|steps| steps.ceil().times(step)).unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(value: i64) -> Mass {
        Mass::new(Number::whole(value))
    }

    #[test]
    fn what_is_bought_is_never_too_little() {
        assert_eq!(mass_to_buy(Mass::new(Number::constant(243, 10)), Units::Metric).to_string(), "25 g");
        assert_eq!(mass_to_buy(grams(162), Units::Metric).to_string(), "170 g");
        assert_eq!(mass_to_buy(grams(1867), Units::Metric).to_string(), "1.9 kg");
        assert_eq!(mass_to_buy(grams(12_340), Units::Metric).to_string(), "12.4 kg");
        // 454 g are a hair more than a pound.
        assert_eq!(mass_to_buy(grams(454), Units::Us).to_string(), "1 lb 1 oz");
    }

    /// Worked by hand; a US quart is 946.35 ml.
    #[test]
    fn bottles_are_bought_by_the_litre() {
        let millilitres = |value: i64| Volume::new(Number::whole(value));
        assert_eq!(volume_to_buy(millilitres(347), Units::Metric).to_string(), "350 ml");
        assert_eq!(volume_to_buy(millilitres(1234), Units::Metric).to_string(), "1.25 l");
        assert_eq!(volume_to_buy(millilitres(100), Units::Us).to_string(), "3 1/2 fl oz");
        assert_eq!(volume_to_buy(millilitres(1000), Units::Us).to_string(), "1 1/4 qt");
    }
}
