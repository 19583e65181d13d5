//! Spoons and cups.

use crate::measure::number::Number;
use crate::measure::quantity::Volume;
use crate::measure::show::{self, TOO_FAR, count_of};
use crate::measure::shown::{Digits, Shown};
use crate::measure::unit::{Measures, Unit};
use crate::measure::value::{Said, Value};

/// A volume in US cups or spoons, to fractions that there are measures for: quarters and thirds of a cup, halves of a
/// tablespoon, quarters of a teaspoon. Nothing where these are more than a twentieth away.
pub fn kitchen_measure(volume: Volume) -> Option<Shown> {
    measure_of(volume, Measures::Us, Cups::Used)
}

/// So much of something in the spoons or cups that it was said in, at another size than it was said in; where that makes dozens of spoons
/// or parts that no measure has, in larger or smaller ones of the same country: in Britain fluid ounces, unless it was said in cups.
pub fn at_size(said: &Said, amount: Value) -> Option<Shown> {
    let own = show::measured(said, amount)?;
    let (Value::Volume(volume), false) = (amount, amount == said.value) else { return Some(own) };
    let countries = [Measures::Us, Measures::Metric, Measures::Imperial];
    let whose = countries.into_iter().find(|whose| said.unit.and_then(|unit| unit.size(Some(*whose))) == said.size)?;
    let size_of = |unit: Unit| unit.size(Some(whose)).unwrap_or(Number::ONE);
    let spoons = said.unit.is_some_and(|unit| matches!(unit, Unit::Teaspoon | Unit::Tablespoon));
    let most = if said.unit == Some(Unit::Teaspoon) { MOST_TEASPOONS } else { MOST_SPOONS };
    let many = spoons && said.size.and_then(|size| volume.value().over(size).ok()).is_some_and(|count| count > most);
    let count = said.size.and_then(|size| volume.value().over(size).ok());
    let is_in = |parts: &[i64]| {
        let whole =
            |many: &i64| count.is_some_and(|count| count.times(Number::whole(*many)).is_ok_and(Number::is_whole));
        parts.iter().any(whole)
    };
    let is_there = match said.unit {
        Some(Unit::Teaspoon | Unit::Pint) => is_in(&[4]),
        // Half a quart is a pint; there is no third of one.
        Some(Unit::Tablespoon | Unit::Quart | Unit::Gallon) => is_in(&[2]),
        Some(Unit::Cup) => is_in(&[4, 3]),
        _ => true,
    };
    let no_measure = !is_there || own.terms.iter().any(|term| term.digits.contains('.'));
    if volume.value() < size_of(Unit::Teaspoon).over(Number::whole(8)).ok()? {
        return Some(Shown::words("a pinch"));
    }
    if !many && !no_measure {
        return Some(own);
    }
    let in_spoons = || measure_of(volume, whose, Cups::Unknown);
    let other = match (whose, said.unit == Some(Unit::Cup)) {
        (_, true) => measure_of(volume, whose, Cups::Used),
        (Measures::Us, false) if volume.value() > LARGE => quarts_and_cups(volume),
        (Measures::Imperial, false) if spoons => in_spoons().or_else(|| pints_and_ounces(volume)),
        (Measures::Imperial, false) => pints_and_ounces(volume).or_else(in_spoons),
        (_, false) => measure_of(volume, whose, Cups::Used),
    };
    let other = other.or_else(|| nearest_spoon(volume, whose).filter(|_| spoons && !is_there));
    Some(other.unwrap_or(own))
}

/// More of one spoon than this are told in a larger measure.
const MOST_SPOONS: Number = Number::whole(8);

/// More teaspoons than this are told in tablespoons, of which each is three, with the rest beside them: nobody counts 6½ of them.
const MOST_TEASPOONS: Number = Number::whole(4);

/// Whether a kitchen measures by the cup.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Cups {
    Used,
    Unknown,
}

/// A quarter, as a step.
const QUARTER: Number = Number::constant(1, 4);
/// A half, as a step.
const HALF: Number = Number::constant(1, 2);

fn measure_of(volume: Volume, whose: Measures, cups: Cups) -> Option<Shown> {
    let count_in = |unit: Unit| volume.value().over(unit.size(Some(whose))?).ok();
    let one = |count: Number, unit: Unit| Some(Shown::new(count_of(count), unit.word(count <= Number::ONE)));
    if cups == Cups::Used {
        let count = count_in(Unit::Cup)?;
        let rounded = nearest_of(count, &[QUARTER, Number::constant(1, 3)])?;
        if rounded >= QUARTER && moved(rounded, count)? <= TOO_FAR {
            return one(rounded, Unit::Cup);
        }
        // Nobody counts to thirty-four spoons, nor to fourteen.
        if count > HALF {
            return cups_and_spoons(volume, whose);
        }
    }
    let spoons = count_in(Unit::Tablespoon)?;
    let rounded = spoons.rounded_to(HALF).ok()?;
    // A tablespoon less than one is a matter of teaspoons; of more than eight there are cups or ounces.
    if rounded >= Number::ONE && rounded <= MOST_SPOONS && moved(rounded, spoons)? <= TOO_FAR {
        return one(rounded, Unit::Tablespoon);
    }
    let count = count_in(Unit::Teaspoon)?;
    let rounded = count.rounded_to(QUARTER).ok()?;
    // A teaspoon goes down to its quarter.
    let far = if count < Number::ONE { Number::constant(3, 20) } else { TOO_FAR };
    if rounded.is_positive() && rounded <= MOST_TEASPOONS && moved(rounded, count)? <= far {
        return one(rounded, Unit::Teaspoon);
    }
    let is_between = spoons > Number::ONE && spoons < MOST_SPOONS;
    if is_between { with_teaspoons(volume, whose, cups) } else { None }
}

/// By what part of itself a count is moved where it is rounded to this.
fn moved(rounded: Number, count: Number) -> Option<Number> {
    rounded.minus(count).and_then(|by| by.size().over(count)).ok()
}

/// A quarter of a cup or whole tablespoons, and quarters of a teaspoon beside them: `¼ cup ¾ tsp`.
fn with_teaspoons(volume: Volume, whose: Measures, cups: Cups) -> Option<Shown> {
    let quarter_cup = Unit::Cup.size(Some(whose))?.times(QUARTER).ok()?;
    let has_cup = cups == Cups::Used && volume.value() >= quarter_cup;
    let (unit, step) = if has_cup { (Unit::Cup, QUARTER) } else { (Unit::Tablespoon, Number::ONE) };
    let size = unit.size(Some(whose))?;
    let below = volume.value().over(size).ok()?.over(step).ok()?.floor().times(step).ok()?;
    let rest = volume.value().minus(below.times(size).ok()?).ok()?;
    let rest = rest.over(Unit::Teaspoon.size(Some(whose))?).ok()?.rounded_to(QUARTER).ok()?;
    Some(in_terms([(below, unit), (rest, Unit::Teaspoon)]))
}

/// A measure and a smaller one beside it, where there is any of that.
fn in_terms(terms: [(Number, Unit); 2]) -> Shown {
    let terms = terms.into_iter().filter(|(count, _)| count.is_positive());
    let terms = terms.map(|(count, unit)| Digits::new(count_of(count), unit.word(count <= Number::ONE)));
    Shown { terms: terms.collect(), ..Shown::default() }
}

/// Imperial fluid ounces, to what is less than a twentieth; of more than a pint, which is twenty, quarters of a pint and ounces.
/// Nothing where that is more than a twentieth away.
fn pints_and_ounces(volume: Volume) -> Option<Shown> {
    let size_of = |unit: Unit| unit.size(Some(Measures::Imperial));
    let count = volume.value().over(size_of(Unit::FluidOunce)?).ok()?;
    if count > Number::whole(20) {
        let ounces = count.rounded_to(Number::ONE).ok()?;
        let pints = ounces.over(Number::whole(5)).ok()?.floor().times(QUARTER).ok()?;
        let rest = ounces.minus(pints.times(Number::whole(20)).ok()?).ok()?;
        return Some(in_terms([(pints, Unit::Pint), (rest, Unit::FluidOunce)]));
    }
    let step = match count {
        few if few < Number::whole(5) => QUARTER,
        some if some < Number::whole(10) => HALF,
        _ => Number::ONE,
    };
    let rounded = count.rounded_to(step).ok()?;
    let is_right = rounded >= Number::ONE && moved(rounded, count)? <= TOO_FAR;
    is_right.then(|| in_terms([(rounded, Unit::FluidOunce), (Number::ZERO, Unit::FluidOunce)]))
}

/// The nearest of the measures that there are by these steps.
fn nearest_of(count: Number, steps: &[Number]) -> Option<Number> {
    let off = |rounded: &Number| rounded.minus(count).map_or(count, Number::size);
    steps.iter().filter_map(|step| count.rounded_to(*step).ok()).min_by_key(off)
}

/// Cups down to the quarter, and tablespoons beside them, of which sixteen are a cup: `2 cups 2 tbsp`. Below a cup to the half spoon, so that
/// from half a cup on it is never more than a thirtieth off.
fn cups_and_spoons(volume: Volume, whose: Measures) -> Option<Shown> {
    let (cup, spoon) = (Unit::Cup.size(Some(whose))?, Unit::Tablespoon.size(Some(whose))?);
    let below = volume.value().over(cup).ok()?.over(QUARTER).ok()?.floor().times(QUARTER).ok()?;
    let step = if volume.value() < cup { HALF } else { Number::ONE };
    let rest = volume.value().minus(below.times(cup).ok()?).ok()?.over(spoon).ok()?.rounded_to(step).ok()?;
    // Four spoons are the next quarter of a cup.
    let is_next = rest.times(spoon).ok()? >= cup.times(QUARTER).ok()?;
    let (cups, rest) = if is_next { (below.plus(QUARTER).ok()?, Number::ZERO) } else { (below, rest) };
    Some(in_terms([(cups, Unit::Cup), (rest, Unit::Tablespoon)]))
}

/// More than this is counted in quarts and no longer in cups: two of them, in millilitres.
pub const LARGE: Number = Number::whole(1893);

/// Any volume as it is measured in the US: in cups and spoons, the nearest quarter of a teaspoon where there is nothing nearer, or the two it lies
/// between where both are a fifth off, a pinch below half of that, and much of it in quarts and cups. Nothing for nothing.
pub fn customary(volume: Volume) -> Option<Shown> {
    if !volume.value().is_positive() {
        return None;
    }
    if volume.value() > LARGE {
        return quarts_and_cups(volume);
    }
    kitchen_measure(volume).or_else(|| nearest_spoon(volume, Measures::Us))
}

/// The nearest quarter of a teaspoon, or the two that it lies between where both are a fifth off, and a pinch below half of one.
fn nearest_spoon(volume: Volume, whose: Measures) -> Option<Shown> {
    let count = volume.value().over(Unit::Teaspoon.size(Some(whose))?).ok()?;
    if count < Number::constant(1, 8) {
        return Some(Shown::words("a pinch"));
    }
    let eighth = Number::constant(1, 8);
    if moved(eighth, count)? <= Number::constant(3, 20) {
        return Some(Shown::new(count_of(eighth), Unit::Teaspoon.word(true)));
    }
    let rounded = count.rounded_to(QUARTER).ok()?;
    let spoon = |digits: String| Shown::new(digits, Unit::Teaspoon.word(rounded <= Number::ONE));
    // Between two spoons that are far apart the cook takes what lies between: 3/8 are neither a quarter nor a half.
    if moved(rounded, count)? > Number::constant(1, 5) {
        let below = count.over(QUARTER).ok()?.floor().times(QUARTER).ok()?;
        let low = if below.is_positive() { count_of(below) } else { "⅛".to_owned() };
        return Some(spoon(low).to(spoon(count_of(below.plus(QUARTER).ok()?))));
    }
    Some(spoon(count_of(rounded)))
}

/// Quarts, and beside them cups to the nearest quarter or third, of which four are a quart: `3 qt ⅔ cup`.
fn quarts_and_cups(volume: Volume) -> Option<Shown> {
    let four = Number::whole(4);
    let count = volume.value().over(Unit::Cup.size(Some(Measures::Us))?).ok()?;
    let cups = nearest_of(count, &[Number::constant(1, 4), Number::constant(1, 3)])?;
    let quarts = cups.over(four).ok()?.floor();
    let rest = cups.minus(quarts.times(four).ok()?).ok()?;
    Some(in_terms([(quarts, Unit::Quart), (rest, Unit::Cup)]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::source::{SourceId, Span};

    /// 1 US cup is 236.588 ml, a tablespoon a sixteenth of it, a teaspoon a third of that (NIST SP 811 as GNU units has it).
    #[test]
    fn volumes_go_into_the_measures_there_are() {
        let shown = |millilitres| kitchen_measure(Volume::new(Number::whole(millilitres))).map(|one| one.to_string());
        assert_eq!(shown(240).as_deref(), Some("1 cup"));
        assert_eq!(shown(158).as_deref(), Some("⅔ cup"));
        assert_eq!(shown(355).as_deref(), Some("1½ cups"));
        assert_eq!(shown(15).as_deref(), Some("1 tbsp"));
        // 790 ml are 3.339 cups, a third and no quarter over three; 385 ml are 1.627, nearer 1 2/3 than 1 1/2.
        assert_eq!(shown(790).as_deref(), Some("3⅓ cups"));
        assert_eq!(shown(385).as_deref(), Some("1⅔ cups"));
        // 503 ml are 2.126 cups: two and two spoons of 14.8 ml, and not 34 spoons.
        assert_eq!(shown(503).as_deref(), Some("2 cups 2 tbsp"));
        // 210 ml are 0.888 cups, 14.2 spoons: three quarters and two.
        assert_eq!(shown(210).as_deref(), Some("¾ cup 2 tbsp"));
        assert_eq!(shown(5).as_deref(), Some("1 tsp"));
        assert_eq!(kitchen_measure(Volume::ZERO), None);
        let poured = |millilitres| customary(Volume::new(Number::whole(millilitres))).map(|one| one.to_string());
        assert_eq!(poured(80).as_deref(), Some("⅓ cup"));
        // 3 l are 12.68 US cups, 3 quarts and 0.68 of a cup; 3.75 l are 15.85, and the nearest measure to 3.85 of a cup is 3 3/4.
        assert_eq!(poured(3000).as_deref(), Some("3 qt ⅔ cup"));
        assert_eq!(poured(3750).as_deref(), Some("3 qt 3¾ cups"));
        assert_eq!(poured(3785).as_deref(), Some("4 qt"));
        assert_eq!(poured(1900).as_deref(), Some("2 qt"));
    }

    /// In tablespoons of the US: 8 1/2 are no half cup, which is 5.9 % less, and 4 1/4 are neither 4 nor 4 1/2 to a twentieth.
    #[test]
    fn no_measure_is_more_than_a_twentieth_off() {
        let spoon = Unit::Tablespoon.size(Some(Measures::Us)).expect("a size");
        let volume = |over, under| Volume::new(spoon.times(Number::constant(over, under)).expect("small"));
        let shown = |over, under| kitchen_measure(volume(over, under)).expect("a measure").to_string();
        assert_eq!(shown(17, 2), "½ cup ½ tbsp");
        assert_eq!(shown(19, 2), "½ cup 1½ tbsp");
        assert_eq!(shown(27, 2), "¾ cup 1½ tbsp");
        assert_eq!(shown(17, 4), "¼ cup ¾ tsp");
        assert_eq!(shown(15, 4), "3 tbsp 2¼ tsp");
        // 4 and 6 1/2 teaspoons, of which three are a tablespoon, and a third of half a cup, which is 8.
        assert_eq!(shown(4, 3), "4 tsp");
        assert_eq!(shown(13, 6), "2 tbsp ½ tsp");
        assert_eq!(shown(8, 3), "2 tbsp 2 tsp");
        assert_eq!(shown(4, 1), "¼ cup");
        for part in 100_i128..6400 {
            let part_of = |times: i128| Number::fraction(times * part, 100).expect("not zero");
            let volume = Volume::new(spoon.times(part_of(1)).expect("small"));
            let Some(shown) = kitchen_measure(volume) else { continue };
            let size = |unit: &str| match unit {
                "cup" | "cups" => Number::whole(48),
                "tbsp" => Number::whole(3),
                _ => Number::ONE,
            };
            let told = shown.terms.iter().map(|term| counted(&term.digits).times(size(term.unit)).expect("small"));
            let told = told.fold(Number::ZERO, |sum, one| sum.plus(one).expect("small"));
            let exact = part_of(3);
            assert!(moved(told, exact).expect("small") <= TOO_FAR, "{part} hundredths of a spoon: {shown}");
            let most = |term: &Digits| term.unit != "tsp" || counted(&term.digits) <= MOST_TEASPOONS;
            assert!(shown.terms.iter().all(most), "{part} hundredths of a spoon: {shown}");
        }
    }

    fn counted(digits: &str) -> Number {
        let part = |one: char| match one {
            '¼' => Number::constant(1, 4),
            '⅓' => Number::constant(1, 3),
            '½' => Number::constant(1, 2),
            '⅔' => Number::constant(2, 3),
            '¾' => Number::constant(3, 4),
            _ => Number::ZERO,
        };
        let whole: String = digits.chars().filter(char::is_ascii_digit).collect();
        let parts = digits.chars().map(part).find(|one| one.is_positive()).unwrap_or(Number::ZERO);
        Number::whole(whole.parse().unwrap_or(0)).plus(parts).expect("small")
    }

    /// 0.3 and 0.1 of a teaspoon of 4.93 ml: the nearest quarter, and less than half of one.
    #[test]
    fn who_reads_us_units_gets_no_millilitres() {
        let hundredths = |count| Volume::new(Number::fraction(count, 100).expect("not zero"));
        let poured = |count| customary(hundredths(count)).map(|one| one.to_string());
        assert_eq!(poured(148).as_deref(), Some("¼ tsp"));
        assert_eq!(poured(104).as_deref(), Some("¼ tsp"));
        assert_eq!(poured(49).as_deref(), Some("a pinch"));
        assert_eq!(poured(542).as_deref(), Some("1 tsp"));
        assert_eq!(poured(0), None);
        // 3/8 and 3/16 of 4.929 ml: a quarter is a third too little, a half a third too much.
        assert_eq!(poured(185).as_deref(), Some("¼–½ tsp"));
        assert_eq!(poured(92).as_deref(), Some("⅛–¼ tsp"));
    }

    /// An imperial pint is 20 fl oz, its quarter 5 (UK gallon of 4.54609 l); no British kitchen has a cup of half of it.
    #[test]
    fn who_writes_pints_gets_fluid_ounces() {
        let at = |unit: Unit, over, under| {
            let size = unit.size(Some(Measures::Imperial)).expect("a size");
            let said = Said {
                value: Value::Volume(Volume::new(size)),
                upper: None,
                slack: Number::ZERO,
                unit: Some(unit),
                size: Some(size),
                whole: true,
                span: Span::new(SourceId(0), 0, 0),
            };
            let volume = Volume::new(size.times(Number::constant(over, under)).expect("small"));
            at_size(&said, Value::Volume(volume)).expect("a measure").to_string()
        };
        assert_eq!(at(Unit::Pint, 3, 10), "6 fl oz");
        assert_eq!(at(Unit::Pint, 23, 10), "2¼ pt 1 fl oz");
        assert_eq!(at(Unit::Tablespoon, 12, 1), "7½ fl oz");
        assert_eq!(at(Unit::Tablespoon, 4, 1), "4 tbsp");
        assert_eq!(at(Unit::Cup, 23, 10), "2⅓ cups");
    }
}
