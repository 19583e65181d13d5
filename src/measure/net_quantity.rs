//! A net quantity: what a label promises, and so never more than there is.

use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Volume};
use crate::measure::show::{self, Units, in_ounces, in_systems, mass_plain};
use crate::measure::shown::{Digits, Shown};
use crate::measure::sizes::{FLUID_OUNCE, OUNCE};

/// A net quantity in the reader's units: never above what there is, since that is what a label promises. Ounces below a pound go by
/// tenths, below one by hundredths, from a pound on by quarters.
pub fn shown(mass: Mass, units: Units) -> Shown {
    let down = |value: Number, step: Number| value.over(step).and_then(|count| count.floor().times(step)).ok();
    let metric = || {
        let grams = mass.value();
        let steps = [(10, (1, 100)), (1000, (1, 10)), (10_000, (1, 1))];
        let step = steps.into_iter().find(|(below, _)| grams < Number::whole(*below)).map_or((10, 1), |(_, step)| step);
        let whole = down(grams, Number::constant(step.0, step.1));
        mass_plain(whole.map_or(mass, Mass::new))
    };
    let us = || {
        let ounces = mass.value().over(OUNCE).ok()?;
        let step = match ounces {
            _ if ounces < Number::ONE => Number::constant(1, 100),
            _ if ounces < Number::whole(16) => Number::constant(1, 10),
            _ => Number::constant(1, 4),
        };
        down(ounces, step).map(in_ounces)
    };
    in_systems(units, metric, || us().unwrap_or_else(|| mass_plain(mass)))
}

/// What somebody says that a serving weighs, which is no promise: ounces to the nearest tenth beside the grams, so that 56 g are 2 oz.
pub fn nearest(mass: Mass, units: Units) -> Shown {
    let us = || {
        let tenths = mass.value().over(OUNCE).and_then(|ounces| ounces.rounded_to(Number::constant(1, 10)));
        tenths.map_or_else(|_| mass_plain(mass), in_ounces)
    };
    in_systems(units, || mass_plain(mass), us)
}

/// A net quantity by volume in the reader's units, likewise: millilitres below a litre whole, below ten by tenths, from ten litres on by
/// tens; US fluid ounces by tenths, from a pint on pints and fluid ounces, from a quart on quarts, as 15 USC 1453(a)(2) wants the largest
/// whole unit (from memory).
pub fn shown_volume(volume: Volume, units: Units) -> Shown {
    let metric = || {
        let millilitres = volume.value();
        let step = match millilitres {
            few if few < Number::whole(10) => Number::constant(1, 10),
            some if some < Number::whole(10_000) => Number::ONE,
            _ => Number::whole(10),
        };
        let whole = millilitres.over(step).and_then(|count| count.floor().times(step));
        let whole = whole.unwrap_or(millilitres);
        let litres = whole.over(Number::whole(1000)).ok().filter(|litres| *litres >= Number::ONE);
        litres.map_or_else(|| show::volume(Volume::new(whole)), |litres| Shown::new(litres.decimal(3), "l"))
    };
    let us = || {
        let tenth = Number::constant(1, 10);
        let ounces =
            volume.value().over(FLUID_OUNCE).and_then(|ounces| ounces.over(tenth)?.floor().times(tenth)).ok()?;
        let larger = [(32, "qt"), (16, "pt")].into_iter().find(|(size, _)| ounces >= Number::whole(*size));
        let Some((size, unit)) = larger else { return Some(Shown::new(ounces.decimal(1), "fl oz")) };
        let count = ounces.over(Number::whole(size)).ok()?.floor();
        let rest = ounces.minus(count.times(Number::whole(size)).ok()?).ok()?;
        let mut terms = vec![Digits::new(count.decimal(0), unit)];
        if rest.is_positive() {
            terms.push(Digits::new(rest.decimal(1), "fl oz"));
        }
        Some(Shown { terms, ..Shown::default() })
    };
    in_systems(units, metric, || us().unwrap_or_else(|| show::volume(volume)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 160 g are 5.644 oz, 68.8 g 2.427, 960 g 33.863 (2 lb 1.863), 20 g 0.7055 (1 oz = 28.349523125 g): 5 3/4 oz and 2 1/2 oz are not in
    /// the pack.
    #[test]
    fn no_more_is_promised_than_there_is() {
        let shown = |over, under| shown(Mass::new(Number::constant(over, under)), Units::Both).to_string();
        assert_eq!(shown(160, 1), "160 g (5.6 oz)");
        assert_eq!(shown(688, 10), "68.8 g (2.4 oz)");
        assert_eq!(shown(960, 1), "960 g (2 lb 1 3/4 oz)");
        assert_eq!(shown(20, 1), "20 g (0.7 oz)");
        assert_eq!(shown(8096, 100), "80.9 g (2.8 oz)");
        assert_eq!(shown(161_968, 100), "1619 g (3 lb 9 oz)");
        assert_eq!(shown(12_349_999, 1000), "12.34 kg (27 lb 3 1/2 oz)");
    }

    /// 56 g are 1.975 oz, 110 g 3.88, 410 g 14.46.
    #[test]
    fn a_serving_is_no_promise() {
        let shown = |grams| nearest(Mass::new(Number::whole(grams)), Units::Both).to_string();
        assert_eq!([shown(56), shown(110), shown(410)], ["56 g (2 oz)", "110 g (3.9 oz)", "410 g (14 1/2 oz)"]);
    }

    /// A US fluid ounce is 29.5735295625 ml (NIST Handbook 44, Appendix C): 330 ml are 11.158, 500 ml 16.907 (1 pt 0.907), 750 ml 25.36
    /// (1 pt 9.36), 1000 ml 33.814 (1 qt 1.814), 1500 ml 50.72 (1 qt 18.72).
    #[test]
    fn no_more_is_poured_than_there_is() {
        let shown = |over, under| shown_volume(Volume::new(Number::constant(over, under)), Units::Both).to_string();
        assert_eq!(shown(330, 1), "330 ml (11.1 fl oz)");
        assert_eq!(shown(3309, 10), "330 ml (11.1 fl oz)");
        assert_eq!(shown(500, 1), "500 ml (1 pt 0.9 fl oz)");
        assert_eq!(shown(750, 1), "750 ml (1 pt 9.3 fl oz)");
        assert_eq!(shown(1000, 1), "1 l (1 qt 1.8 fl oz)");
        assert_eq!(shown(1500, 1), "1.5 l (1 qt 18.7 fl oz)");
        assert_eq!(shown(946_352_946, 1_000_000), "946 ml (1 qt)");
        assert_eq!(shown(12_349, 1), "12.34 l (13 qt 1.5 fl oz)");
    }
}
