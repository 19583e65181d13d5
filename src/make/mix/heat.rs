//! How much heat things hold: specific heats from what they consist of.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::model::larder::Facts;

/// Water, joules per gram and degree (4.18, any handbook of physics).
pub const WATER: Number = Number::constant(209, 50);
/// What a gram of ice takes up in melting, joules (334; 144 BTU a pound, Baking Business, seen).
pub const MELTING: Number = Number::whole(334);
/// Fat: 1.98 (Choi and Okos, 1986, at 20 °C; from memory).
pub const FAT: Number = Number::constant(99, 50);
/// Other solids: 1.55, carbohydrate (Choi and Okos, 1986; from memory).
pub const SOLIDS: Number = Number::constant(31, 20);

/// Flour holds 13.4 % of water when the larder does not say (USDA SR26 20083 bread flour).
const FLOUR_WATER: Number = Number::constant(134, 1000);

/// The specific heat of an ingredient. What the larder does not know counts as dry solids, flour as bread flour.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn of(facts: Option<&Facts>, is_flour: bool) -> Result<Number, Overflow> {
    let share = |share: Option<Proportion>| share.map(Proportion::value);
    let unknown = if is_flour { FLOUR_WATER } else { Number::ZERO };
    let water = share(facts.and_then(|facts| facts.contents.water)).unwrap_or(unknown);
    let fat = share(facts.and_then(|facts| facts.contents.fat)).unwrap_or(Number::ZERO);
    of_shares(water, fat)
}

/// The specific heat of something with those shares of water and fat.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn of_shares(water: Number, fat: Number) -> Result<Number, Overflow> {
    let rest = Number::ONE.minus(water)?.minus(fat)?;
    WATER.times(water)?.plus(FAT.times(fat)?)?.plus(SOLIDS.times(rest)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bread flour by this: 1.90 J/(g K). Bakers' handbooks print 0.42 to 0.45 BTU/(lb °F), 1.76 to 1.88 (from memory).
    #[test]
    fn flour_as_the_handbooks_have_it() {
        let flour = of(None, true).expect("small");
        assert!(flour > Number::constant(176, 100) && flour < Number::constant(195, 100), "{}", flour.decimal(3));
    }

    /// White pan bread dough: about 2.8 J/(g K) (C. Rask, Journal of Food Engineering 9 (1989) 167-193: title seen, value from memory).
    #[test]
    fn dough_as_reviewed() {
        // 100 flour with 13.4 % of water, 62 water, 2 salt.
        let water = Number::constant(754, 1640);
        let dough = of_shares(water, Number::constant(1, 100)).expect("small");
        assert!(dough > Number::constant(25, 10) && dough < Number::constant(30, 10), "{}", dough.decimal(3));
    }
}
