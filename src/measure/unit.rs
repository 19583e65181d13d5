//! Units as they are written, and their exact sizes.
//!
//! Factors are definitions, so they are exact. Sources: SI Brochure, 9th edition (metric prefixes);
//! international yard and pound agreement of 1959 (lb, oz, in); NIST Special Publication 811 as carried
//! by GNU units 2.22 (US customary volumes); UK Weights and Measures Act gallon of 4.54609 l (imperial volumes).

use crate::measure::number::Number;
use crate::measure::sizes::{FLUID_OUNCE, IMPERIAL_FLUID_OUNCE, OUNCE, POUND, QUART, imperial_gallons, us_gallons};

/// Which country's cup and spoon a file means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measures {
    /// US customary: a cup of 236.5882365 ml.
    Us,
    /// Metric kitchen measures: a cup of 250 ml, a tablespoon of 15 ml, a teaspoon of 5 ml.
    Metric,
    /// Imperial: a cup of 10 imperial fluid ounces, a tablespoon of 5/8 of one.
    Imperial,
}

impl Measures {
    /// Reads the word in a `measures` line.
    pub fn from_word(word: &str) -> Option<Measures> {
        match word.to_ascii_lowercase().as_str() {
            "us" => Some(Measures::Us),
            "metric" => Some(Measures::Metric),
            "imperial" => Some(Measures::Imperial),
            _ => None,
        }
    }

    /// The word as `tidy` writes it.
    pub fn word(self) -> &'static str {
        match self {
            Measures::Us => "US",
            Measures::Metric => "metric",
            Measures::Imperial => "imperial",
        }
    }
}

/// What kind of thing a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Grams.
    Mass,
    /// Millilitres.
    Volume,
    /// Pieces.
    Count,
    /// Millimetres.
    Length,
    /// Seconds.
    Time,
    /// Degrees.
    Temperature,
    /// Share of something.
    Proportion,
}

impl Dimension {
    /// What a baker calls it, with an article.
    pub fn noun(self) -> &'static str {
        match self {
            Dimension::Mass => "a weight",
            Dimension::Volume => "a volume",
            Dimension::Count => "a number of pieces",
            Dimension::Length => "a length",
            Dimension::Time => "a time",
            Dimension::Temperature => "a temperature",
            Dimension::Proportion => "a percentage",
        }
    }
}

/// A unit word of the language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the names are the units
pub enum Unit {
    Milligram,
    Gram,
    Kilogram,
    Ounce,
    Pound,
    Millilitre,
    Centilitre,
    Decilitre,
    Litre,
    Teaspoon,
    Tablespoon,
    Cup,
    FluidOunce,
    Pint,
    Quart,
    Gallon,
    Piece,
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Second,
    Minute,
    Hour,
    Day,
    Week,
    Celsius,
    Fahrenheit,
    Percent,
}

/// Every spelling that is read, the one that `tidy` writes first.
const SPELLINGS: &[(Unit, &[&str])] = &[
    (Unit::Milligram, &["mg"]),
    (Unit::Gram, &["g"]),
    (Unit::Kilogram, &["kg"]),
    (Unit::Ounce, &["oz"]),
    (Unit::Pound, &["lb"]),
    (Unit::Millilitre, &["ml"]),
    (Unit::Centilitre, &["cl"]),
    (Unit::Decilitre, &["dl"]),
    (Unit::Litre, &["l"]),
    (Unit::Teaspoon, &["tsp"]),
    (Unit::Tablespoon, &["tbsp"]),
    (Unit::Cup, &["cup", "cups"]),
    (Unit::FluidOunce, &["fl oz"]),
    (Unit::Pint, &["pt"]),
    (Unit::Quart, &["qt"]),
    (Unit::Gallon, &["gal"]),
    (Unit::Piece, &["piece", "pieces"]),
    (Unit::Millimetre, &["mm"]),
    (Unit::Centimetre, &["cm"]),
    (Unit::Metre, &["m"]),
    (Unit::Inch, &["in"]),
    (Unit::Second, &["s"]),
    (Unit::Minute, &["min"]),
    (Unit::Hour, &["h"]),
    (Unit::Day, &["day", "days"]),
    (Unit::Week, &["week", "weeks"]),
    (Unit::Celsius, &["C", "°C"]),
    (Unit::Fahrenheit, &["F", "°F"]),
    (Unit::Percent, &["%"]),
];

/// Words that people write for a unit of the language, for 'did you mean'.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("gram", "g"),
    ("grams", "g"),
    ("grs", "g"),
    ("gms", "g"),
    ("gr", "g"),
    ("gm", "g"),
    ("kilo", "kg"),
    ("kilos", "kg"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("kgs", "kg"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("ozs", "oz"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("lbs", "lb"),
    ("millilitre", "ml"),
    ("millilitres", "ml"),
    ("milliliter", "ml"),
    ("milliliters", "ml"),
    ("mls", "ml"),
    ("litre", "l"),
    ("litres", "l"),
    ("liter", "l"),
    ("liters", "l"),
    ("ltr", "l"),
    ("teaspoon", "tsp"),
    ("teaspoons", "tsp"),
    ("tsps", "tsp"),
    ("tablespoon", "tbsp"),
    ("tablespoons", "tbsp"),
    ("tbsps", "tbsp"),
    ("tbs", "tbsp"),
    ("tblsp", "tbsp"),
    ("tbls", "tbsp"),
    ("pint", "pt"),
    ("pints", "pt"),
    ("quart", "qt"),
    ("quarts", "qt"),
    ("gallon", "gal"),
    ("gallons", "gal"),
    ("minute", "min"),
    ("minutes", "min"),
    ("mins", "min"),
    ("hour", "h"),
    ("hours", "h"),
    ("hr", "h"),
    ("hrs", "h"),
    ("second", "s"),
    ("seconds", "s"),
    ("sec", "s"),
    ("secs", "s"),
    ("d", "days"),
    ("inch", "in"),
    ("inches", "in"),
    ("percent", "%"),
    ("pct", "%"),
    ("pc", "pieces"),
    ("pcs", "pieces"),
    ("celsius", "C"),
    ("fahrenheit", "F"),
];

impl Unit {
    /// Whether it belongs to ounces, cups and inches: what a metric figure is converted from or into.
    pub fn is_customary(self) -> bool {
        matches!(
            self,
            Unit::Ounce
                | Unit::Pound
                | Unit::Teaspoon
                | Unit::Tablespoon
                | Unit::Cup
                | Unit::FluidOunce
                | Unit::Pint
                | Unit::Quart
                | Unit::Gallon
                | Unit::Inch
        )
    }

    /// Reads a unit word. Case does not matter (`G`, `ML`), runs of spaces in `fl oz` neither.
    pub fn from_word(word: &str) -> Option<Unit> {
        let mut folded = [0_u8; 8];
        let mut used = 0;
        for byte in word.bytes().filter(|byte| !matches!(byte, b' ' | b'\t')) {
            *folded.get_mut(used)? = byte.to_ascii_lowercase();
            used += 1;
        }
        match folded.get(..used)? {
            b"g" => Some(Unit::Gram),
            b"kg" => Some(Unit::Kilogram),
            b"mg" => Some(Unit::Milligram),
            b"oz" => Some(Unit::Ounce),
            b"lb" => Some(Unit::Pound),
            b"ml" => Some(Unit::Millilitre),
            b"cl" => Some(Unit::Centilitre),
            b"dl" => Some(Unit::Decilitre),
            b"l" => Some(Unit::Litre),
            b"tsp" => Some(Unit::Teaspoon),
            b"tbsp" => Some(Unit::Tablespoon),
            b"cup" | b"cups" => Some(Unit::Cup),
            b"floz" => Some(Unit::FluidOunce),
            b"pt" => Some(Unit::Pint),
            b"qt" => Some(Unit::Quart),
            b"gal" => Some(Unit::Gallon),
            b"piece" | b"pieces" => Some(Unit::Piece),
            b"mm" => Some(Unit::Millimetre),
            b"cm" => Some(Unit::Centimetre),
            b"m" => Some(Unit::Metre),
            b"in" => Some(Unit::Inch),
            b"s" => Some(Unit::Second),
            b"min" => Some(Unit::Minute),
            b"h" => Some(Unit::Hour),
            b"day" | b"days" => Some(Unit::Day),
            b"week" | b"weeks" => Some(Unit::Week),
            b"c" | b"\xc2\xb0c" => Some(Unit::Celsius),
            b"f" | b"\xc2\xb0f" => Some(Unit::Fahrenheit),
            b"%" => Some(Unit::Percent),
            _ => None,
        }
    }

    /// The unit that a word which is not one probably stands for, as it must be written.
    pub fn meant_by(word: &str) -> Option<&'static str> {
        let folded = word.to_ascii_lowercase();
        if let Some((_, unit)) = OTHER_WORDS.iter().find(|(other, _)| *other == folded) {
            return Some(unit);
        }
        if folded.len() < 3 {
            return None;
        }
        let spellings = SPELLINGS.iter().flat_map(|(_, words)| words.iter().copied());
        spellings.filter(|spelling| spelling.len() >= 3).find(|spelling| is_one_slip(spelling, &folded))
    }

    /// Whether a word that is no unit may be one all the same, badly spelt: `minits` is two slips from `minutes`.
    pub fn is_nearly_one(word: &str) -> bool {
        let folded = word.to_ascii_lowercase();
        let most = if folded.len() < 6 { 1 } else { 2 };
        let known =
            SPELLINGS.iter().flat_map(|(_, words)| words.iter()).chain(OTHER_WORDS.iter().map(|(word, _)| word));
        known.filter(|known| known.len() >= 3).any(|known| strsim::osa_distance(known, &folded) <= most)
    }

    /// Which readers it is written for: `Some(true)` for those of US measures, `Some(false)` for those of metric ones,
    /// `None` for what both read: times, pieces, shares.
    pub fn is_us(self) -> Option<bool> {
        match self {
            Unit::Fahrenheit => Some(true),
            Unit::Celsius => Some(false),
            Unit::Inch | Unit::Ounce | Unit::Pound => Some(true),
            unit if unit.is_kitchen_measure() => Some(true),
            unit => match unit.dimension() {
                Dimension::Mass | Dimension::Volume | Dimension::Length => Some(false),
                _ => None,
            },
        }
    }

    /// A spoon, a cup and the like, whose size differs between countries.
    pub fn is_kitchen_measure(self) -> bool {
        self.dimension() == Dimension::Volume && self.size(None).is_none()
    }

    /// The spelling that `tidy` writes; `one` picks `day` over `days`.
    pub fn word(self, one: bool) -> &'static str {
        match (self, one) {
            (Unit::Piece, false) => "pieces",
            (Unit::Day, false) => "days",
            (Unit::Week, false) => "weeks",
            (Unit::Cup, false) => "cups",
            _ => SPELLINGS
                .iter()
                .find(|(unit, _)| *unit == self)
                .and_then(|(_, words)| words.first())
                .copied()
                .unwrap_or(""),
        }
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Unit::Milligram | Unit::Gram | Unit::Kilogram | Unit::Ounce | Unit::Pound => Dimension::Mass,
            Unit::Millilitre | Unit::Centilitre | Unit::Decilitre | Unit::Litre => Dimension::Volume,
            Unit::Teaspoon | Unit::Tablespoon | Unit::Cup => Dimension::Volume,
            Unit::FluidOunce | Unit::Pint | Unit::Quart | Unit::Gallon => Dimension::Volume,
            Unit::Piece => Dimension::Count,
            Unit::Millimetre | Unit::Centimetre | Unit::Metre | Unit::Inch => Dimension::Length,
            Unit::Second | Unit::Minute | Unit::Hour | Unit::Day | Unit::Week => Dimension::Time,
            Unit::Celsius | Unit::Fahrenheit => Dimension::Temperature,
            Unit::Percent => Dimension::Proportion,
        }
    }

    /// Whether its size depends on the country.
    pub fn depends_on_country(self) -> bool {
        matches!(
            self,
            Unit::Teaspoon | Unit::Tablespoon | Unit::Cup | Unit::FluidOunce | Unit::Pint | Unit::Quart | Unit::Gallon
        )
    }

    /// Its size in the dimension's own unit (g, ml, piece, mm, s, or 1 for a whole).
    ///
    /// `None` for a temperature, which has an offset, and for a unit whose country is not known or has no such unit
    /// (there is no metric gallon).
    pub fn size(self, measures: Option<Measures>) -> Option<Number> {
        Some(match self {
            Unit::Milligram => Number::constant(1, 1000),
            Unit::Gram | Unit::Millilitre | Unit::Piece | Unit::Millimetre | Unit::Second => Number::ONE,
            Unit::Kilogram | Unit::Litre | Unit::Metre => Number::whole(1000),
            Unit::Pound => POUND,
            Unit::Ounce => OUNCE,
            Unit::Centilitre | Unit::Centimetre => Number::whole(10),
            Unit::Decilitre => Number::whole(100),
            // 25.4 mm (1959 agreement).
            Unit::Inch => Number::constant(127, 5),
            Unit::Minute => Number::whole(60),
            Unit::Hour => Number::whole(3600),
            Unit::Day => Number::whole(86_400),
            Unit::Week => Number::whole(604_800),
            Unit::Percent => Number::constant(1, 100),
            Unit::Celsius | Unit::Fahrenheit => return None,
            Unit::Teaspoon
            | Unit::Tablespoon
            | Unit::Cup
            | Unit::FluidOunce
            | Unit::Pint
            | Unit::Quart
            | Unit::Gallon => return self.size_in(measures?),
        })
    }

    /// Millilitres of a unit whose size depends on the country.
    fn size_in(self, measures: Measures) -> Option<Number> {
        Some(match (measures, self) {
            (Measures::Us, Unit::Gallon) => const { us_gallons(1, 1) },
            (Measures::Us, Unit::Quart) => QUART,
            (Measures::Us, Unit::Pint) => const { us_gallons(1, 8) },
            (Measures::Us, Unit::Cup) => const { us_gallons(1, 16) },
            (Measures::Us, Unit::FluidOunce) => FLUID_OUNCE,
            (Measures::Us, Unit::Tablespoon) => const { us_gallons(1, 256) },
            (Measures::Us, Unit::Teaspoon) => const { us_gallons(1, 768) },
            // Metric kitchen measures: 250, 15 and 5 ml.
            (Measures::Metric, Unit::Cup) => Number::whole(250),
            (Measures::Metric, Unit::Tablespoon) => Number::whole(15),
            (Measures::Metric, Unit::Teaspoon) => Number::whole(5),
            (Measures::Imperial, Unit::Gallon) => const { imperial_gallons(1, 1) },
            (Measures::Imperial, Unit::Quart) => const { imperial_gallons(1, 4) },
            (Measures::Imperial, Unit::Pint) => const { imperial_gallons(1, 8) },
            (Measures::Imperial, Unit::FluidOunce) => IMPERIAL_FLUID_OUNCE,
            // Old kitchen measures: half a pint to the cup, 5/8 fl oz to the tablespoon, 5/24 to the teaspoon.
            (Measures::Imperial, Unit::Cup) => const { imperial_gallons(1, 16) },
            (Measures::Imperial, Unit::Tablespoon) => const { imperial_gallons(1, 256) },
            (Measures::Imperial, Unit::Teaspoon) => const { imperial_gallons(1, 768) },
            _ => return None,
        })
    }
}

/// Whether one letter too many, too few or wrong, or two that are swapped, make one word of another: their distance (optimal string
/// alignment) is one. Nearly all words are told apart by their lengths and ends.
fn is_one_slip(one: &str, other: &str) -> bool {
    if !(one.is_ascii() && other.is_ascii()) {
        return strsim::osa_distance(one, other) == 1;
    }
    let alike = one.bytes().zip(other.bytes()).take_while(|(one, other)| one == other).count();
    let rest = |word: &'_ str| word.len() - alike;
    let least = rest(one).min(rest(other));
    let ends = one.bytes().rev().zip(other.bytes().rev()).take(least).take_while(|(one, other)| one == other).count();
    let middle = |word: &'_ str| word.len() - alike - ends;
    match (middle(one), middle(other)) {
        (0, 1) | (1, 0) | (1, 1) => true,
        (2, 2) => one.bytes().skip(alike).take(2).eq(other.bytes().skip(alike).take(2).rev()),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_slip_is_a_distance_of_one() {
        let words = [
            "", "a", "g", "gram", "grams", "garm", "gran", "gramm", "rgam", "mragg", "aa", "aaa", "abab", "baba",
            "litre", "liter", "µg", "°c",
        ];
        for one in words {
            for other in words {
                assert_eq!(is_one_slip(one, other), strsim::osa_distance(one, other) == 1, "{one} {other}");
            }
        }
    }

    #[test]
    fn every_spelling_is_read_back() {
        for (unit, words) in SPELLINGS {
            for word in *words {
                assert_eq!(Unit::from_word(word), Some(*unit), "{word}");
            }
            assert_eq!(Unit::from_word(unit.word(true)), Some(*unit));
            assert_eq!(Unit::from_word(unit.word(false)), Some(*unit));
        }
        for (other, unit) in OTHER_WORDS {
            assert_eq!(Unit::from_word(other), None, "{other}");
            assert!(Unit::from_word(unit).is_some(), "{unit}");
        }
    }

    /// NIST 'Metric Household' page, SP 430 material: 1 cup = 16 tbsp = 48 tsp = 8 fl oz = 1/2 liquid pint; 1 quart = 4 cups.
    #[test]
    fn us_kitchen_measures_stand_in_the_printed_ratios() {
        let size = |unit: Unit| unit.size(Some(Measures::Us)).expect("a US unit");
        let times = |unit: Unit, n: i64| size(unit).times(Number::whole(n)).expect("small");
        assert_eq!(times(Unit::Tablespoon, 16), size(Unit::Cup));
        assert_eq!(times(Unit::Teaspoon, 48), size(Unit::Cup));
        assert_eq!(times(Unit::FluidOunce, 8), size(Unit::Cup));
        assert_eq!(times(Unit::Cup, 2), size(Unit::Pint));
        assert_eq!(times(Unit::Cup, 4), size(Unit::Quart));
        assert_eq!(times(Unit::Quart, 4), size(Unit::Gallon));
    }
}
