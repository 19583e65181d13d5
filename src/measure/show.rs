//! How quantities are written for people: the one place where quantities become printed figures.

use crate::measure::number::Number;
use crate::measure::quantity::{Length, Mass, Proportion, Volume};
use crate::measure::shown::{Digits, Shown};
use crate::measure::sizes::OUNCE;
use crate::measure::smaller_measures;
use crate::measure::temperature::{Dial, Temperature};
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};

pub use crate::measure::show_time::{duration, duration_range, offset};

/// Which units a reader wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Units {
    /// Grams, degrees Celsius, centimetres.
    #[default]
    Metric,
    /// Pounds and ounces, degrees Fahrenheit, inches.
    Us,
    /// Metric with US behind it.
    Both,
}

/// Groups digits from ten thousand on with a thin space, as figures are set in print.
pub(super) fn grouped(digits: &str) -> String {
    let (sign, digits) = digits.strip_prefix('-').map_or(("", digits), |rest| ("-", rest));
    let (whole, fraction) = digits.split_once('.').map_or((digits, None), |(whole, rest)| (whole, Some(rest)));
    if whole.len() < 5 {
        return format!("{sign}{digits}");
    }
    let mut out = String::from(sign);
    for (at, digit) in whole.chars().enumerate() {
        if at > 0 && (whole.len() - at).is_multiple_of(3) {
            out.push('\u{2009}');
        }
        out.push(digit);
    }
    if let Some(fraction) = fraction {
        out.push('.');
        out.push_str(fraction);
    }
    out
}

/// A number with as many digits as help at its size.
pub fn number(value: Number) -> String {
    let size = value.size();
    let places = if size < Number::whole(10) {
        2
    } else if size < Number::whole(1000) {
        1
    } else {
        0
    };
    grouped(&value.decimal(places))
}

/// A figure in one system, or in both: the reader's first, the other behind it.
pub(super) fn in_systems(units: Units, metric: impl Fn() -> Shown, us: impl Fn() -> Shown) -> Shown {
    match units {
        Units::Metric => metric(),
        Units::Us => us(),
        Units::Both => metric().also(us()),
    }
}

/// A mass for messages: grams, and kilograms from 10 kg on.
pub fn mass_plain(mass: Mass) -> Shown {
    let grams = mass.value();
    if grams.size() < Number::whole(10_000) {
        return Shown::new(number(grams), "g");
    }
    match grams.over(Number::whole(1000)) {
        Ok(kilograms) => Shown::new(grouped(&kilograms.decimal(2)), "kg"),
        Err(_) => Shown::new(number(grams), "g"),
    }
}

/// A mass that is not weighed out, in the reader's units.
pub fn mass(mass: Mass, units: Units) -> Shown {
    match units {
        Units::Us => with_grams(mass_us(mass), mass),
        _ => in_systems(units, || mass_plain(mass), || mass_us(mass)),
    }
}

/// So little is weighed in grams by whoever weighs in ounces: scales for it step by tenths and hundredths of a gram, and none by thousandths of
/// an ounce (common practice, no source).
const IN_GRAMS_TOO: Number = Number::constant(1, 20);

/// Ounces, and where they are next to nothing the grams beside them.
fn with_grams(ounces: Shown, mass: Mass) -> Shown {
    let least = IN_GRAMS_TOO.times(OUNCE).unwrap_or(Number::ONE);
    if mass.value().is_zero() || mass.value().size() >= least {
        return ounces;
    }
    let steps = [10, 100, 1000, 10_000].map(|parts| Number::constant(1, parts));
    let grams = rounded_to_within(mass.value(), &steps, TOO_FAR);
    ounces.also(Shown::new(grams.decimal(decimals_needed(grams)), "g"))
}

/// In which metric unit a weighed mass is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeighedIn {
    /// By itself: in kilograms from [`KILOGRAMS`] on.
    Alone,
    /// In a column in grams, however heavy.
    Grams,
    /// In a column in kilograms with three decimals, however light. What has parts of a gram stays in grams.
    Kilograms,
}

/// A mass on a card. It was rounded for a scale already; it is printed with the digits that it then needs.
pub fn mass_weighed(mass: Mass, units: Units, unit: WeighedIn) -> Shown {
    match units {
        Units::Metric => grams_weighed(mass, unit),
        Units::Us => with_grams(ounces_weighed(mass), mass),
        Units::Both => grams_weighed(mass, unit).also(mass_us(mass)),
    }
}

/// A mass on a card in both systems, each rounded for a scale already.
pub fn mass_weighed_twice(mass: Mass, ounces: Mass, unit: WeighedIn) -> Shown {
    grams_weighed(mass, unit).also(ounces_weighed(ounces))
}

/// A mass that is not weighed out, and behind it what a scale in ounces shows of it.
pub fn mass_and_ounces(mass: Mass, ounces: Mass) -> Shown {
    mass_plain(mass).also(ounces_weighed(ounces))
}

/// From here on a batch is weighed in kilograms.
pub const KILOGRAMS: Mass = Mass::new(Number::whole(10_000));

/// Whether a weighed mass has no parts of a gram, so that it can stand in a column in kilograms.
pub fn is_in_whole_grams(mass: Mass) -> bool {
    mass.value().is_whole()
}

fn grams_weighed(mass: Mass, unit: WeighedIn) -> Shown {
    let grams = mass.value();
    let places = decimals_needed(grams);
    let is_heavy = match unit {
        WeighedIn::Alone => grams.size() >= KILOGRAMS.value(),
        WeighedIn::Grams => false,
        // What a fine scale shows to a part of a gram is read in grams there.
        WeighedIn::Kilograms => places == 0 || grams.size() >= KILOGRAMS.value(),
    };
    match grams.over(Number::whole(1000)) {
        Ok(kilograms) if is_heavy => Shown::new(grouped(&kilograms.decimal_fixed(3 + places)), "kg"),
        _ => Shown::new(grouped(&grams.decimal_fixed(places)), "g"),
    }
}

/// How many decimals a number has, five at most.
fn decimals_needed(number: Number) -> u32 {
    let is_whole_at = |places: &u32| number.times(Number::whole(10_i64.pow(*places))).is_ok_and(Number::is_whole);
    (0..5).find(is_whole_at).unwrap_or(5)
}

/// Rounding beyond this would say something else: then a finer step is taken.
pub const TOO_FAR: Number = Number::constant(5, 100);

/// A number to the first of these steps that moves it by no more than that, else to the last.
fn rounded_to_within(value: Number, steps: &[Number], too_far: Number) -> Number {
    let mut last = value;
    for step in steps {
        let Ok(rounded) = value.rounded_to(*step) else { return value };
        last = rounded;
        let moved = rounded.minus(value).and_then(|by| by.size().over(value.size()));
        if value.is_zero() || moved.is_ok_and(|moved| moved <= too_far) {
            break;
        }
    }
    last
}

/// Pounds and ounces as bakers write them: ounces to a quarter, below an ounce to a twentieth; finer where that would move
/// the amount by more than a twentieth.
///
/// The quarter is the rounding scale of TM 10-412 (2003), card A No. 1(2).
pub fn mass_us(mass: Mass) -> Shown {
    mass_us_within(mass, TOO_FAR)
}

/// As [`mass_us`], where rounding moves it no further than that.
pub fn mass_us_within(mass: Mass, too_far: Number) -> Shown {
    let Ok(ounces) = mass.value().over(OUNCE) else { return mass_plain(mass) };
    let steps = [(1, 4), (1, 20), (1, 100), (1, 1000), (1, 10_000)].map(|(one, many)| Number::constant(one, many));
    let from = usize::from(ounces.size() < Number::ONE);
    in_ounces(rounded_to_within(ounces, steps.get(from..).unwrap_or(&steps), too_far))
}

/// A mass that was rounded for a scale in ounces: quarters where it is quarters, else the decimals it has.
fn ounces_weighed(mass: Mass) -> Shown {
    mass.value().over(OUNCE).map_or_else(|_| mass_plain(mass), in_ounces)
}

pub(super) fn in_ounces(ounces: Number) -> Shown {
    let in_quarters = ounces.times(Number::whole(4)).is_ok_and(Number::is_whole);
    if in_quarters && ounces.size() >= Number::ONE {
        pounds_and_ounces(ounces, fractions)
    } else {
        pounds_and_ounces(ounces, |rest| rest.decimal(decimals_needed(rest)))
    }
}

fn pounds_and_ounces(ounces: Number, digits: impl Fn(Number) -> String) -> Shown {
    let sixteen = Number::whole(16);
    let pounds = ounces.over(sixteen).map_or(Number::ZERO, Number::floor);
    let rest = pounds.times(sixteen).and_then(|whole| ounces.minus(whole)).unwrap_or(ounces);
    let mut terms = Vec::new();
    if !pounds.is_zero() {
        terms.push(Digits::new(grouped(&pounds.decimal(0)), "lb"));
    }
    if pounds.is_zero() || !rest.is_zero() {
        terms.push(Digits::new(digits(rest), "oz"));
    }
    Shown { terms, ..Shown::default() }
}

/// A number with its fraction down to sixty-fourths, as a ruler has them: `9 7/8`; else with decimals.
pub(super) fn fractions(value: Number) -> String {
    let whole = value.floor();
    let rest = value.minus(whole).unwrap_or(Number::ZERO);
    let fraction = match rest.parts() {
        (0, _) => return whole.decimal(0),
        (over, under @ (2 | 4 | 8 | 16 | 32 | 64)) => format!("{over}/{under}"),
        _ => return value.decimal(2),
    };
    if whole.is_zero() { fraction } else { format!("{} {fraction}", whole.decimal(0)) }
}

/// A share in percent with at most two decimals; small shares keep their digits.
pub fn percent(share: Proportion) -> Shown {
    share.percent().map_or_else(|_| Shown::words("?"), |value| Shown::new(percent_digits(value), "%"))
}

/// The digits of a percentage.
pub fn percent_digits(value: Number) -> String {
    if value.size() < Number::constant(1, 10) { value.decimal(3) } else { value.decimal(2) }
}

/// A temperature as an oven's dial or a thermometer shows it: from 100 °C on Fahrenheit goes by five degrees, and so does Celsius of what
/// was said in Fahrenheit, 175 °C for 350 °F. Below, what was said in tenths of a degree Celsius stays that, and the rest goes by half
/// degrees, about as far as one degree Fahrenheit goes.
pub fn temperature(value: Temperature, units: Units) -> Shown {
    temperature_on(value, units, Dial::Oven)
}

/// A temperature as its dial shows it.
pub fn temperature_on(value: Temperature, units: Units, dial: Dial) -> Shown {
    let celsius = || {
        let degrees = value.celsius();
        // What was said in Celsius has tenths at most, and ninths what was said in Fahrenheit.
        let is_said = degrees.times(Number::whole(10)).is_ok_and(Number::is_whole);
        let step = match dial {
            Dial::Oven if degrees > Number::whole(100) && !is_said => Number::whole(5),
            _ if is_said => Number::constant(1, 10),
            _ if degrees > Number::whole(100) => Number::ONE,
            _ => Number::constant(1, 2),
        };
        Shown::new(degrees.rounded_to(step).unwrap_or(degrees).decimal(1), "°C")
    };
    in_systems(units, celsius, || fahrenheit(value, dial))
}

/// A temperature range.
pub fn temperature_range(low: Temperature, high: Option<Temperature>, units: Units) -> Shown {
    high.map_or_else(|| temperature(low, units), |high| temperature(low, units).to(temperature(high, units)))
}

fn fahrenheit(value: Temperature, dial: Dial) -> Shown {
    let Ok(degrees) = value.fahrenheit() else { return Shown::new(value.celsius().decimal(1), "°C") };
    // Water boils at 212 °F and not at 210.
    let by_fives = dial == Dial::Oven && value.celsius() > Number::whole(100);
    Shown::new(rounded(degrees, if by_fives { Number::whole(5) } else { Number::ONE }), "°F")
}

fn rounded(value: Number, step: Number) -> String {
    value.rounded_to(step).unwrap_or(value).decimal(0)
}

/// A length: centimetres, or inches to a quarter, finer as a ruler has it where that would move it by more than a sixteenth: 6 mm are
/// 1/4 in.
pub fn length(value: Length, units: Units) -> Shown {
    let metric = || {
        if value.value().size() < Number::whole(10) {
            Shown::new(value.value().decimal(1), "mm")
        } else {
            value
                .over(Number::whole(10))
                .map_or_else(|_| Shown::words("?"), |cm| Shown::new(cm.value().decimal(1), "cm"))
        }
    };
    let us = || {
        let Ok(inches) = value.value().over(Number::constant(127, 5)) else { return metric() };
        let steps =
            [(1, 4), (1, 8), (1, 16), (1, 32), (1, 64), (1, 100)].map(|(one, many)| Number::constant(one, many));
        // What was written in inches is in eighths or finer already and stays what it is.
        let is_eighths = inches.times(Number::whole(8)).is_ok_and(Number::is_whole);
        let inches = if is_eighths { inches } else { rounded_to_within(inches, &steps, Number::constant(1, 16)) };
        Shown::new(fractions(inches), "in")
    };
    in_systems(units, metric, us)
}

/// A volume: millilitres, litres from one litre on.
pub fn volume(value: Volume) -> Shown {
    let millilitres = value.value();
    let in_millilitres = || Shown::new(number(millilitres), "ml");
    if millilitres.size() < Number::whole(1000) {
        return in_millilitres();
    }
    let litres = millilitres.over(Number::whole(1000));
    litres.map_or_else(|_| in_millilitres(), |litres| Shown::new(grouped(&litres.decimal(2)), "l"))
}

/// Any value, in the unit its dimension is counted in.
pub fn value_plain(value: Value) -> Shown {
    match value {
        Value::Mass(mass) => mass_plain(mass),
        Value::Volume(value) => volume(value),
        Value::Count(count) => Shown::new(count_of(count.value()), ""),
        Value::Length(value) => length(value, Units::Metric),
        Value::Time(time) => duration(time),
        Value::Temperature(value) => temperature_on(value, Units::Metric, Dial::Thermometer),
        Value::Proportion(share) => percent(share),
    }
}

/// A number of pieces: whole, or with kitchen fractions.
pub fn count_of(value: Number) -> String {
    let whole = value.floor();
    let rest = value.minus(whole).unwrap_or(Number::ZERO);
    let fraction = match rest.parts() {
        (0, _) => return grouped(&value.decimal(0)),
        (1, 2) => "½",
        (1, 3) => "⅓",
        (2, 3) => "⅔",
        (1, 4) => "¼",
        (3, 4) => "¾",
        (1, 8) => "⅛",
        (3, 8) => "⅜",
        (5, 8) => "⅝",
        (7, 8) => "⅞",
        _ => return number(value),
    };
    if whole.is_zero() { fraction.to_owned() } else { format!("{}{fraction}", grouped(&whole.decimal(0))) }
}

/// Pieces of something: `1 piece`, `2½ pieces`.
pub fn pieces(count: Number) -> Shown {
    let is_one = count.is_positive() && count <= Number::ONE;
    Shown::new(count_of(count), if is_one { "piece" } else { "pieces" })
}

/// What was said, in the unit it was said in.
pub fn said_plain(said: &Said) -> Shown {
    let Some(unit) = said.unit else { return Shown::new(count_of(said.value.number()), "") };
    if let (Value::Mass(mass), Unit::Pound | Unit::Ounce, true) = (said.value, unit, said.whole) {
        return mass_us(mass);
    }
    in_unit(said.value, unit).or_else(|| measured(said, said.value)).unwrap_or_else(|| value_plain(said.value))
}

/// What was said, both ends of a range, in the unit it was said in.
pub fn said(said: &Said) -> Shown {
    match said.upper {
        // Inches in eighths, as a ruler has them: 9.875 in are 9 7/8 in and not 9.88 in.
        None if said.unit == Some(Unit::Inch)
            && said.value.number().over(Number::constant(127, 40)).is_ok_and(Number::is_whole) =>
        {
            match said.value {
                Value::Length(value) => length(value, Units::Us),
                _ => said_plain(said),
            }
        }
        Some(high) => said_plain(said).to(said_plain(&Said { value: high, ..*said })),
        None => said_plain(said),
    }
}

/// An amount in the spoons or cups that something was said in, with kitchen fractions: `1½ cups`.
pub fn measured(said: &Said, amount: Value) -> Option<Shown> {
    let (Value::Volume(_), Some(unit), Some(size)) = (amount, said.unit, said.size) else { return None };
    if !unit.is_kitchen_measure() {
        return None;
    }
    let terms = smaller_measures::terms(amount.number().over(size).ok()?, unit, size).into_iter();
    let terms = terms.map(|(count, unit)| Digits::new(count_of(count), unit.word(count <= Number::ONE)));
    Some(Shown { terms: terms.collect(), ..Shown::default() })
}

/// A value in a unit whose size does not depend on the country; `None` for the others.
fn in_unit(value: Value, unit: Unit) -> Option<Shown> {
    match value {
        Value::Temperature(temperature) if unit == Unit::Fahrenheit => {
            Some(Shown::new(temperature.fahrenheit().ok()?.decimal(1), "°F"))
        }
        Value::Temperature(temperature) => Some(Shown::new(temperature.celsius().decimal(1), "°C")),
        Value::Time(time) => Some(duration(time)),
        _ => {
            let count = value.number().over(unit.size(None)?).ok()?;
            Some(Shown::new(number(count), unit.word(count == Number::ONE)))
        }
    }
}

/// A joined list: `a, b and c`.
pub fn list<T: AsRef<str>>(words: &[T]) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(value: i64) -> Mass {
        Mass::new(Number::whole(value))
    }

    #[test]
    fn masses_read_as_bakers_write_them() {
        assert_eq!(mass_plain(grams(1900)).to_string(), "1900 g");
        assert_eq!(mass_plain(grams(12_500)).to_string(), "12.5 kg");
        assert_eq!(mass_weighed(grams(12_345), Units::Metric, WeighedIn::Alone).to_string(), "12.345 kg");
    }

    /// TM 10-412 (2003), card A No. 1(2): 4.35 lb = 4 lb 5.60 oz, rounded to 4 lb 5 1/2 oz.
    #[test]
    fn pounds_and_ounces_go_by_quarters() {
        let pounds = Number::constant(435, 100).times(Number::whole(16)).and_then(|n| n.times(OUNCE)).expect("small");
        assert_eq!(mass_us(Mass::new(pounds)).to_string(), "4 lb 5 1/2 oz");
    }

    /// 3.5 g are 0.1235 oz (1 oz = 28.349523125 g, international pound): a tenth would be a fifth less.
    #[test]
    fn no_reader_is_told_something_else() {
        assert_eq!(mass_us(Mass::new(Number::constant(7, 2))).to_string(), "0.12 oz");
        assert_eq!(mass_us(grams(31)).to_string(), "1.1 oz");
        // Yeast of 0.034 g: 0.0012 oz are on no scale.
        let little = |thousandths| Mass::new(Number::constant(thousandths, 1000));
        assert_eq!(mass(little(34), Units::Us).to_string(), "0.0012 oz (0.034 g)");
        assert_eq!(mass(little(900), Units::Us).to_string(), "0.032 oz (0.9 g)");
        // 0.0529 oz: 0.05 would be 5.5 % less, more than the twentieth to which ounces are rounded.
        assert_eq!(mass(little(1500), Units::Us).to_string(), "0.053 oz");
        assert_eq!(length(Length::new(Number::constant(250_825, 1000)), Units::Us).to_string(), "9 7/8 in");
        assert_eq!(length(Length::new(Number::whole(20)), Units::Us).to_string(), "3/4 in");
        // 6 mm are 0.236 in, 4 mm 0.157 and 3 mm 0.118, and no ruler shows that.
        let inches = |millimetres| length(Length::new(Number::whole(millimetres)), Units::Us).to_string();
        assert_eq!([6, 4, 3].map(inches), ["1/4 in", "5/32 in", "1/8 in"]);
        let boils = Temperature::from_celsius(Number::whole(100));
        assert_eq!(temperature(boils, Units::Us).to_string(), "212 °F");
    }

    #[test]
    fn a_column_of_a_heavy_batch_is_in_kilograms() {
        let shown = |grams| mass_weighed(grams, Units::Metric, WeighedIn::Kilograms).to_string();
        assert_eq!(shown(grams(9970)), "9.970 kg");
        assert_eq!(shown(grams(13_570)), "13.570 kg");
        assert_eq!(shown(Mass::new(Number::constant(47, 20))), "2.35 g");
    }
}
