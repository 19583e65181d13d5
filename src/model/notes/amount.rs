//! Amounts as people write them: `500g`, `1 1/2 tsp`, `½ cup`, `2-3 tbsp`, `a pinch`.

/// A number, or two of a range.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Figure {
    /// As the language writes it.
    pub(super) shown: String,
    /// The other end of a range.
    pub(super) most: Option<String>,
    /// What was guessed in reading it.
    pub(super) look: Option<&'static str>,
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

const VULGAR: &str = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞";

/// Number words that stand for a figure.
const NUMBERS: [(&str, &str); 13] = [
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
    ("half", "1/2"),
];

/// Reads a number or a range at the start of a text; gives what follows.
pub(super) fn figure(text: &str) -> Option<(Figure, &str)> {
    let (shown, mut look, rest) = number(text)?;
    let after = rest.trim_start();
    let dash = ["-", "–", "—", "to ", "or "].into_iter().find_map(|dash| after.strip_prefix(dash));
    if let Some((most, more, rest)) = dash.and_then(|rest| number(rest.trim_start())) {
        look = look.or(more);
        return Some((Figure { shown, most: Some(most), look }, rest));
    }
    Some((Figure { shown, most: None, look }, rest))
}

fn number(text: &str) -> Option<(String, Option<&'static str>, &str)> {
    let text = text.trim_start();
    let first = text.chars().next()?;
    if VULGAR.contains(first) {
        return Some((first.to_string(), None, text.get(first.len_utf8()..)?));
    }
    let (whole, rest) = digits(text);
    if whole.is_empty() {
        let word_end = text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len());
        let word = text.get(..word_end)?.to_lowercase();
        let known = NUMBERS.iter().find(|(name, _)| *name == word)?;
        let rest = text.get(word_end..)?;
        let rest = rest.strip_prefix(" a ").or_else(|| rest.strip_prefix(" an ")).unwrap_or(rest);
        return Some((known.1.to_owned(), None, rest));
    }
    for (mark, look) in [('.', None), (',', Some("a decimal comma is read as a point"))] {
        if let Some(behind) = rest.strip_prefix(mark) {
            let (decimals, rest) = digits(behind);
            if decimals.is_empty() {
                continue;
            }
            // 1,000 g is a thousand, and 1,5 kg one and a half.
            if mark == ',' && decimals.len() == 3 && !whole.starts_with('0') {
                return Some((format!("{whole}{decimals}"), Some("the comma is read as one between thousands"), rest));
            }
            return Some((format!("{whole}.{decimals}"), look, rest));
        }
    }
    for slash in ['/', '⁄'] {
        if let Some(below) = rest.strip_prefix(slash) {
            let (below, rest) = digits(below);
            if !below.is_empty() {
                return Some((format!("{whole}/{below}"), None, rest));
            }
        }
    }
    let after = rest.trim_start_matches([' ', '\u{A0}']);
    let after = after.strip_prefix("and ").filter(|rest| rest.starts_with(|c: char| c.is_numeric())).unwrap_or(after);
    if let Some(vulgar) = after.chars().next().filter(|c| VULGAR.contains(*c)) {
        return Some((format!("{whole}{vulgar}"), None, after.get(vulgar.len_utf8()..)?));
    }
    let (above, behind) = digits(after);
    if !above.is_empty() && after.len() < rest.len() {
        let below = behind.strip_prefix('/').or_else(|| behind.strip_prefix('⁄'));
        if let Some((below, rest)) = below.map(digits).filter(|(below, _)| !below.is_empty()) {
            return Some((format!("{whole} {above}/{below}"), None, rest));
        }
    }
    Some((whole.to_owned(), None, rest))
}

fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()))
}

/// Reads a unit at the start of a text; gives what follows.
pub(super) fn unit(text: &str) -> Option<(Unit, &str, &str)> {
    let text = text.trim_start();
    if let Some(rest) = text.strip_prefix('%') {
        return Some((Unit::Known("%"), "%", rest));
    }
    let lower = text.to_lowercase();
    for fluid in ["fl oz", "fl. oz", "fluid ounces", "fluid ounce", "floz"] {
        if lower.starts_with(fluid) {
            let rest = text.get(fluid.len()..)?;
            if !rest.starts_with(char::is_alphabetic) {
                return Some((Unit::Spoon("fl oz"), text.get(..fluid.len())?, rest));
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

fn of_word(word: &str) -> Option<Unit> {
    Some(match word {
        "g" | "gr" | "gm" | "gms" | "gram" | "grams" | "gramme" | "grammes" => Unit::Known("g"),
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => Unit::Known("kg"),
        "mg" | "milligram" | "milligrams" => Unit::Known("mg"),
        "oz" | "ounce" | "ounces" => Unit::Known("oz"),
        "lb" | "lbs" | "pound" | "pounds" => Unit::Known("lb"),
        "ml" | "mls" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => Unit::Known("ml"),
        "cl" | "centilitre" | "centilitres" => Unit::Known("cl"),
        "dl" | "decilitre" | "decilitres" | "deciliter" | "deciliters" => Unit::Known("dl"),
        "l" | "litre" | "litres" | "liter" | "liters" => Unit::Known("l"),
        "tsp" | "tsps" | "teaspoon" | "teaspoons" | "t" => Unit::Spoon("tsp"),
        "tbsp" | "tbsps" | "tbs" | "tb" | "tablespoon" | "tablespoons" => Unit::Spoon("tbsp"),
        "cup" | "cups" => Unit::Spoon("cup"),
        "pt" | "pint" | "pints" => Unit::Spoon("pt"),
        "qt" | "quart" | "quarts" => Unit::Spoon("qt"),
        "gal" | "gallon" | "gallons" => Unit::Spoon("gal"),
        "clove" | "cloves" | "sprig" | "sprigs" | "slice" | "slices" | "leaf" | "leaves" | "piece" | "pieces" => {
            Unit::Counted
        }
        "pinch" | "pinches" | "dash" | "dashes" | "handful" | "handfuls" | "bunch" | "bunches" | "knob" | "knobs"
        | "drop" | "drops" | "drizzle" | "splash" | "glug" | "packet" | "packets" | "pack" | "packs" | "package"
        | "packages" | "sachet" | "sachets" | "can" | "cans" | "tin" | "tins" | "jar" | "jars" | "bottle"
        | "bottles" | "stick" | "sticks" | "bag" | "bags" | "box" | "boxes" | "scoop" | "scoops" | "spoonful"
        | "spoonfuls" | "dollop" | "glass" | "glasses" | "mug" | "mugs" | "bit" | "cube" | "cubes" | "few"
        | "little" => Unit::Loose,
        "c" | "f" | "min" | "mins" | "minute" | "minutes" | "h" | "hr" | "hrs" | "hour" | "hours" | "day" | "days"
        | "s" | "sec" | "secs" | "second" | "seconds" | "week" | "weeks" | "cm" | "mm" | "m" | "inch" | "inches" => {
            Unit::Other
        }
        _ => return None,
    })
}
