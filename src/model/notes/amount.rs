//! Figures and units as people write them: `500`, `1 1/2`, `½`, `2-3`, `g`, `Tbsp.`.

use crate::measure::loose::{Loose, loose};
use crate::measure::number::Number;

/// Stands for a comma of which all of the notes say that it stands before decimals (`separators`).
pub(super) const DECIMAL: char = '\u{66B}';
/// Stands for a point of which they say that it stands between thousands.
pub(super) const THOUSANDS: char = '\u{66C}';

/// A number, or two of a range.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Figure {
    /// As the language writes it.
    pub(super) shown: String,
    /// Its value; `None` beyond what is computed with.
    pub(super) value: Option<Number>,
    /// The other end of a range.
    pub(super) most: Option<String>,
    /// What was guessed in reading it.
    pub(super) look: Option<&'static str>,
}

impl Figure {
    fn whole(shown: &str) -> Figure {
        Figure { shown: shown.to_owned(), value: shown.parse().ok().map(Number::whole), most: None, look: None }
    }

    fn fraction(shown: String, whole: &str, (above, below): (&str, &str)) -> Figure {
        let whole = if whole.is_empty() { Some(0) } else { whole.parse().ok() };
        let fraction = || Number::fraction(above.parse().ok()?, below.parse().ok()?);
        let value = whole.and_then(|whole| Number::whole(whole).plus(fraction()?).ok());
        Figure { shown, value, most: None, look: None }
    }

    /// So many, without article or sign: an amount of which only a word stands there, as in `a cup`.
    pub(super) fn one() -> Figure {
        Figure::whole("1")
    }
}

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    /// One the language has.
    Known(&'static str),
    /// One that differs between countries.
    Spoon(&'static str),
    /// Cloves, sprigs: counted.
    Counted,
    /// Pinches, packets: no weight is said.
    Loose,
    /// Times, temperatures, lengths: no amount of an ingredient.
    Other,
}

pub(super) const VULGAR: &[(char, &str, &str)] = &[
    ('½', "1", "2"),
    ('⅓', "1", "3"),
    ('⅔', "2", "3"),
    ('¼', "1", "4"),
    ('¾', "3", "4"),
    ('⅕', "1", "5"),
    ('⅖', "2", "5"),
    ('⅗', "3", "5"),
    ('⅘', "4", "5"),
    ('⅙', "1", "6"),
    ('⅚', "5", "6"),
    ('⅛', "1", "8"),
    ('⅜', "3", "8"),
    ('⅝', "5", "8"),
    ('⅞', "7", "8"),
];

/// Number words that stand for a figure.
const NUMBERS: &[(&str, &str)] = &[
    ("one", "1"),
    ("two", "2"),
    ("three", "3"),
    ("four", "4"),
    ("five", "5"),
    ("six", "6"),
    ("seven", "7"),
    ("eight", "8"),
    ("nine", "9"),
    ("ten", "10"),
    ("eleven", "11"),
    ("twelve", "12"),
];
/// Why a mark stands at a figure with three places.
pub(super) const IN_THOUSANDS: &str = "three places behind the point: was it one between thousands?";
/// Why a mark stands at a whole and a share with a dash between that has blanks around it.
const HALF_OR_RANGE: &str = "the dash is read as one between a whole and its share: is it a range?";
/// Words for a share of one, longest first.
const SHARES: &[(&str, &str, &str)] = &[
    ("three quarters", "3", "4"),
    ("three-quarters", "3", "4"),
    ("a quarter", "1", "4"),
    ("a half", "1", "2"),
    ("quarter", "1", "4"),
    ("half", "1", "2"),
    ("halber", "1", "2"),
    ("halbes", "1", "2"),
    ("halbe", "1", "2"),
    ("medio", "1", "2"),
    ("media", "1", "2"),
    ("mezzo", "1", "2"),
    ("mezza", "1", "2"),
];

/// Reads a number or a range at the start of a text; gives what follows.
pub(super) fn figure(text: &str) -> Option<(Figure, &str)> {
    let (low, rest) = number(text)?;
    let behind_low = rest;
    let after = rest.trim_start();
    let dash = ["-", "–", "—", "to ", "or "].into_iter().find_map(|dash| after.strip_prefix(dash));
    if let Some((high, rest)) = dash.and_then(|rest| number(rest.trim_start())) {
        // `1-1/2` is one and a half.
        let fraction = high.shown.split_once('/').filter(|(above, _)| !above.contains(' '));
        if let Some(fraction) = fraction
            && after.starts_with(['-', '–'])
            && low.shown.chars().all(|c| c.is_ascii_digit())
        {
            let figure = Figure::fraction(format!("{} {}", low.shown, high.shown), &low.shown, fraction);
            let look = after.starts_with(['-', '\u{2013}']).then_some(()).filter(|()| behind_low.starts_with(' '));
            return Some((Figure { look: look.map(|()| HALF_OR_RANGE), ..figure }, rest));
        }
        // `rye flour 1150 - 300 g` has a type of flour, and no range.
        let goes_up = low.value.zip(high.value).is_none_or(|(low, high)| low < high);
        if !goes_up {
            return Some((low, behind_low));
        }
        let look = low.look.or(high.look);
        return Some((Figure { most: Some(high.shown), look, ..low }, rest));
    }
    Some((low, rest))
}

fn number(text: &str) -> Option<(Figure, &str)> {
    let text = text.trim_start();
    let first = text.chars().next()?;
    if let Some((_, above, below)) = VULGAR.iter().find(|(vulgar, ..)| *vulgar == first) {
        let rest = text.get(first.len_utf8()..)?;
        return Some((Figure::fraction(first.to_string(), "", (above, below)), rest));
    }
    let (whole, rest) = digits(text);
    if whole.is_empty() && !(text.starts_with('.') && text.get(1..)?.starts_with(|c: char| c.is_ascii_digit())) {
        return in_words(text);
    }
    // A point of which all of the notes say that it stands between thousands.
    if let Some(behind) = rest.strip_prefix(THOUSANDS) {
        let (three, rest) = digits(behind);
        let look = Some("the point is read as one between thousands");
        let whole = format!("{whole}{three}");
        let Some(behind) = rest.strip_prefix(DECIMAL) else {
            return Some((Figure { look, ..Figure::whole(&whole) }, rest));
        };
        let (decimals, rest) = digits(behind);
        return Some((Figure { look, ..decimal(&whole, decimals) }, rest));
    }
    for mark in ['.', ',', DECIMAL] {
        let Some(behind) = rest.strip_prefix(mark) else { continue };
        let (decimals, rest) = digits(behind);
        if decimals.is_empty() {
            continue;
        }
        let in_thousands = decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
        // 1,000 g is a thousand, and 1,5 kg one and a half.
        if mark == ',' && in_thousands {
            let look = Some("the comma is read as one between thousands");
            return Some((Figure { look, ..Figure::whole(&format!("{whole}{decimals}")) }, rest));
        }
        let look = match mark {
            ',' | DECIMAL => Some("a decimal comma is read as a point"),
            _ => in_thousands.then_some(IN_THOUSANDS),
        };
        return Some((Figure { look, ..decimal(whole, decimals) }, rest));
    }
    for slash in ['/', '⁄'] {
        if let Some(below) = rest.strip_prefix(slash) {
            let (below, rest) = digits(below);
            if !below.is_empty() {
                return Some((Figure::fraction(format!("{whole}/{below}"), "", (whole, below)), rest));
            }
        }
    }
    let after = rest.trim_start_matches([' ', '\u{A0}']);
    for and in ["and a ", "and ", "& ", ""] {
        let Some(after) = after.strip_prefix(and) else { continue };
        if let Some((vulgar, above, below)) = VULGAR.iter().find(|(vulgar, ..)| after.starts_with(*vulgar)) {
            let rest = after.get(vulgar.len_utf8()..)?;
            return Some((Figure::fraction(format!("{whole}{vulgar}"), whole, (above, below)), rest));
        }
        if let Some(rest) = after.strip_prefix("half").filter(|_| and == "and a ") {
            return Some((Figure::fraction(format!("{whole} 1/2"), whole, ("1", "2")), rest));
        }
        let (above, behind) = digits(after);
        let below = behind.strip_prefix('/').or_else(|| behind.strip_prefix('⁄'));
        if !above.is_empty()
            && after.len() < rest.len()
            && let Some((below, rest)) = below.map(digits).filter(|(below, _)| !below.is_empty())
        {
            return Some((Figure::fraction(format!("{whole} {above}/{below}"), whole, (above, below)), rest));
        }
    }
    Some((Figure::whole(whole), rest))
}

/// So many wholes and decimals.
fn decimal(whole: &str, decimals: &str) -> Figure {
    let tens = u32::try_from(decimals.len()).ok().and_then(|places| 10_i64.checked_pow(places));
    let (above, below) = (format!("{whole}{decimals}"), tens.map(|tens| tens.to_string()).unwrap_or_default());
    Figure::fraction(format!("{whole}.{decimals}"), "", (&above, &below))
}

/// `two`, `half`, `three quarters`, `one and a half`.
fn in_words(text: &str) -> Option<(Figure, &str)> {
    let lower = text.to_lowercase();
    let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '-');
    // Only where small letters are as long as those that were written can places be told from them.
    if lower.len() != text.len() {
        return None;
    }
    for (words, above, below) in SHARES {
        if let Some(rest) = lower.strip_prefix(words).filter(|rest| ends(rest)) {
            let rest = text.get(text.len() - rest.len()..)?;
            let rest = rest
                .strip_prefix(" of")
                .filter(|rest| rest.starts_with(" a ") || rest.starts_with(" an "))
                .unwrap_or(rest);
            // The space stays: it parts the figure from what follows.
            let rest = [" a", " an"]
                .into_iter()
                .find_map(|word| rest.strip_prefix(word).filter(|rest| rest.starts_with(' ')))
                .unwrap_or(rest);
            return Some((Figure::fraction(format!("{above}/{below}"), "", (above, below)), rest));
        }
    }
    let (word, shown) = NUMBERS.iter().find(|(word, _)| lower.strip_prefix(word).is_some_and(ends))?;
    let rest = text.get(word.len()..)?;
    if let Some(rest) = rest.strip_prefix(" and a half") {
        return Some((Figure::fraction(format!("{shown} 1/2"), shown, ("1", "2")), rest));
    }
    Some((Figure::whole(shown), rest))
}

fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()))
}

/// Reads a unit at the start of a text; gives what follows.
pub(super) fn unit(text: &str) -> Option<(Unit, &str, &str)> {
    let text = text.trim_start();
    let text = text.strip_prefix('-').filter(|behind| behind.starts_with(char::is_alphabetic)).unwrap_or(text);
    if let Some(rest) = text.strip_prefix('%') {
        return Some((Unit::Known("%"), "%", rest));
    }
    let lower = text.to_lowercase();
    for fluid in ["fl oz", "fl. oz", "fluid ounces", "fluid ounce", "floz"] {
        if lower.starts_with(fluid) {
            let rest = text.get(fluid.len()..)?;
            if !rest.starts_with(char::is_alphabetic) {
                return Some((Unit::Spoon("fl oz"), text.get(..fluid.len())?, rest.strip_prefix('.').unwrap_or(rest)));
            }
        }
    }
    // A French spoon: `1 c. à s.` is none of cups.
    for (spoon, unit) in FRENCH {
        if let Some(rest) = lower.strip_prefix(spoon).filter(|_| lower.len() == text.len()) {
            let length = text.len() - rest.len();
            let rest = text.get(length..)?;
            if !rest.starts_with(char::is_alphabetic) {
                return Some((Unit::Spoon(unit), text.get(..length)?, rest.strip_prefix('.').unwrap_or(rest)));
            }
        }
    }
    let start = text.len() - text.trim_start_matches(['°', 'º']).len();
    let end = text.get(start..)?.find(|c: char| !c.is_alphabetic()).map_or(text.len(), |end| end + start);
    let word = text.get(start..end)?;
    let rest = text.get(end..)?;
    let unit = if word == "T" { Unit::Spoon("tbsp") } else { of_word(&word.to_lowercase())? };
    let rest = if start == 0 { rest.strip_prefix('.').unwrap_or(rest) } else { rest };
    Some((unit, word, rest))
}

/// French spoons as they are written in full and cut short, longest first.
#[rustfmt::skip]
const FRENCH: [(&str, &str); 20] = [
    ("cuiller\u{e9}es \u{e0} soupe", "tbsp"), ("cuiller\u{e9}e \u{e0} soupe", "tbsp"), ("cuiller\u{e9}es \u{e0} caf\u{e9}", "tsp"),
    ("cuiller\u{e9}e \u{e0} caf\u{e9}", "tsp"), ("c.\u{e0}.s", "tbsp"), ("c.\u{e0}.c", "tsp"),
    ("cuillères à soupe", "tbsp"), ("cuillère à soupe", "tbsp"), ("cuillères à café", "tsp"), ("cuillère à café", "tsp"),
    ("c. à soupe", "tbsp"), ("c. à café", "tsp"), ("c à soupe", "tbsp"), ("c à café", "tsp"), ("c. à s", "tbsp"), ("c. à c", "tsp"),
    ("c à s", "tbsp"), ("c à c", "tsp"), ("càs", "tbsp"), ("càc", "tsp"),
];

/// Pounds of the Continent, which no language of formulas has: half a kilo.
pub(super) const HALF_KILO: Unit = Unit::Known("half kg");

/// Ten grams, as they are bought in the middle of Europe: no language of formulas has them.
pub(super) const DECAGRAM: Unit = Unit::Known("10 g");

/// Whether a word, in small letters, is a unit.
pub(super) fn is_unit(word: &str) -> bool {
    of_word(word).is_some()
}

fn of_word(word: &str) -> Option<Unit> {
    Some(match word {
        "pfund" | "pfd" | "livre" | "livres" => HALF_KILO,
        "percent" | "percentage" | "pct" => Unit::Known("%"),
        "g" | "gr" | "grs" | "grm" | "grms" | "gm" | "gms" | "gram" | "grams" | "gramme" | "grammes" | "gramm"
        | "grammi" | "gramos" => Unit::Known("g"),
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => Unit::Known("kg"),
        "mg" | "milligram" | "milligrams" => Unit::Known("mg"),
        "oz" | "ozs" | "ounce" | "ounces" => Unit::Known("oz"),
        "lb" | "lbs" | "pound" | "pounds" => Unit::Known("lb"),
        "ml" | "mls" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => Unit::Known("ml"),
        "cl" | "centilitre" | "centilitres" => Unit::Known("cl"),
        "dag" | "dkg" | "deka" => DECAGRAM,
        "dl" | "decilitre" | "decilitres" | "deciliter" | "deciliters" => Unit::Known("dl"),
        "l" | "litre" | "litres" | "liter" | "liters" | "ltr" | "ltrs" | "litro" | "litri" | "litros" => {
            Unit::Known("l")
        }
        "tsp" | "tsps" | "teaspoon" | "teaspoons" | "teaspoonful" | "teaspoonfuls" | "t" | "tl" | "tsk"
        | "teel\u{f6}ffel" | "cucchiaino" | "cucchiaini" | "cucharadita" | "cucharaditas" | "cdta" | "cdtas" => {
            Unit::Spoon("tsp")
        }
        "tbsp" | "tbsps" | "tblsp" | "tblsps" | "tbs" | "tbl" | "tbls" | "tb" | "tablespoon" | "tablespoons"
        | "tablespoonful" | "tablespoonfuls" | "el" | "msk" | "essl\u{f6}ffel" | "cucchiaio" | "cucchiai"
        | "cucharada" | "cucharadas" | "cda" | "cdas" => Unit::Spoon("tbsp"),
        "cup" | "cups" | "cupful" | "cupfuls" => Unit::Spoon("cup"),
        "pt" | "pts" | "pint" | "pints" => Unit::Spoon("pt"),
        "qt" | "qts" | "quart" | "quarts" => Unit::Spoon("qt"),
        "gal" | "gallon" | "gallons" => Unit::Spoon("gal"),
        "c" | "f" | "min" | "mins" | "minute" | "minutes" | "h" | "hr" | "hrs" | "hour" | "hours" | "day" | "days"
        | "s" | "sec" | "secs" | "second" | "seconds" | "week" | "weeks" | "month" | "months" | "night" | "nights"
        | "cm" | "mm" | "m" | "inch" | "inches" | "degrees" | "deg" => Unit::Other,
        _ => {
            return loose(word).map(|loose| match loose {
                Loose::Piece => Unit::Counted,
                Loose::Hand | Loose::Container => Unit::Loose,
            });
        }
    })
}

/// What an amount is sold in. A weight beside it is the weight of one.
pub(super) fn is_container(word: &str) -> bool {
    loose(word) == Some(Loose::Container)
}
