//! A net quantity: what a label promises, and so never more than there is.

use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show::{OUNCE, Units, in_ounces, in_systems, mass_plain};
use crate::measure::shown::Shown;

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
}
