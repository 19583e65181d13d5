//! Words round an amount that leave it open or say it without a figure: `about`, `the rest of the`, `half a pound`.

use super::measure::{Measure, measure};
use super::words;
use crate::language::syntax::Key;
use crate::measure::loose::{ABOUT, ABOUT_SIGNS};
use crate::model::larder::Larder;
use std::borrow::Cow;

/// A line in which nothing stands between the name and its figure, and the word that stood there: `water ~ 150 ml`, `flour about 200 g`.
pub(super) fn without_about(text: &str) -> (String, Option<String>) {
    let words: Vec<&str> = text.split(' ').collect();
    let found = words.windows(3).position(|three| match three {
        [name, about, figure] => {
            (name.ends_with(char::is_alphabetic) || name.ends_with(','))
                && (about.strip_prefix(ABOUT_SIGNS) == Some("") || ABOUT.contains(&about.to_lowercase().as_str()))
                && figure.starts_with(char::is_numeric)
        }
        _ => false,
    });
    match found {
        Some(at) => {
            let kept = words.iter().enumerate().filter(|(place, _)| *place != at + 1).map(|(_, word)| *word);
            (kept.collect::<Vec<&str>>().join(" "), words.get(at + 1).map(|word| (*word).to_owned()))
        }
        None => (text.to_owned(), None),
    }
}

/// What is said behind a name of which the amount is not sure.
const NOT_SURE: [&str; 6] = ["give or take", "or so", "or thereabouts", "if needed", "if it is needed", "if necessary"];

/// A line with a comma before what says at its end that its amount is not sure, so that it is no part of the name: `1 pint milk or so`.
pub(super) fn with_doubt_apart(text: &str) -> Cow<'_, str> {
    let parted = NOT_SURE.iter().find_map(|words| {
        let (before, end) = text.split_at_checked(text.len().checked_sub(words.len())?)?;
        let before = before.strip_suffix(' ').filter(|before| !before.ends_with([',', '(']))?;
        end.eq_ignore_ascii_case(words).then(|| Cow::Owned(format!("{before}, {end}")))
    });
    parted.unwrap_or(Cow::Borrowed(text))
}

/// What is left of something that is listed above: `rest of the water`, and its name.
pub(super) fn rest_of(name: &str) -> Option<&str> {
    ["rest of the ", "rest of ", "remainder of the ", "remaining "].into_iter().find_map(|words| {
        name.get(..words.len()).filter(|start| start.eq_ignore_ascii_case(words)).and_then(|_| name.get(words.len()..))
    })
}

/// Why words behind a comma may be another ingredient, and not how the one before is prepared: `breadcrumbs, pepper`.
pub(super) fn another(words: &str, name: &str) -> Option<String> {
    let larder = Larder::new();
    let known = |name: &str| larder.find(&Key::new(name)).is_some();
    let plain = words.split_whitespace().count() <= 3 && !words.contains(char::is_numeric) && !name.contains(words);
    // `chocolate, dark` is dark chocolate.
    let sort = known(&format!("{words} {name}")) || known(&format!("{name} {words}"));
    (plain && !sort && known(words)).then(|| format!("`{words}` may be an ingredient of its own: give it a line"))
}

/// `butter - half a pound`, `milk: a pint`: a name, and an amount in words.
pub(super) fn said_in_words(text: &str) -> Option<(Measure, &str)> {
    let joints = [" - ", " \u{2013} ", " \u{2014} ", ": "];
    let (name, said) = joints.iter().find_map(|joint| text.rsplit_once(joint))?;
    let said = said
        .trim()
        .trim_end_matches('.')
        .replace("half a ", "half ")
        .replace("half an ", "half ")
        .replace("a quarter of a ", "quarter ");
    let (mut amount, rest) = measure(&said)?;
    let is_name = name.split_whitespace().count() <= 4
        && !name.contains(char::is_numeric)
        && name.starts_with(char::is_alphabetic);
    let whole = rest.trim().is_empty() && amount.is_quantity();
    amount.look.push("the amount is said in words".to_owned());
    (whole && is_name).then_some((amount, name.trim()))
}

/// Measures in words, in small letters.
#[rustfmt::skip]
const MEASURES: &[&str] = &[
    "gram", "grams", "kilo", "kilos", "kilogram", "kilograms", "ounce", "ounces", "pound", "pounds", "pint", "pints", "litre", "litres",
    "liter", "liters", "cup", "cups", "cupful", "cupfuls", "tablespoon", "tablespoons", "teaspoon", "teaspoons", "spoonful", "spoonfuls",
];
/// The last words of numbers that are written out.
#[rustfmt::skip]
const NUMBERS: &[&str] = &[
    "half", "quarter", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "fifteen",
    "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety", "hundred", "thousand", "few", "couple",
];

/// Whether a text says an amount in words alone: `two hundred and fifty grams of oats`, `a pound of flour`.
pub(super) fn holds_in_words(text: &str) -> bool {
    let words: Vec<String> = words::all_of(text).collect();
    let is_number = |word: &String| {
        NUMBERS.contains(&word.as_str()) || word.contains('-') && word.split('-').all(|part| NUMBERS.contains(&part))
    };
    words.windows(3).any(|three| match three {
        [one, two, measure] if MEASURES.contains(&measure.as_str()) => {
            is_number(two) || is_number(one) && ["a", "an", "of", "and"].contains(&two.as_str())
        }
        [article, measure, of] => {
            ["a", "an"].contains(&article.as_str()) && MEASURES.contains(&measure.as_str()) && of == "of"
        }
        _ => false,
    })
}

/// How a spoon is filled, cut short, and Italian for what needs no figure.
const FULL: [(&str, &str); 12] = [
    (" gestr. TL ", " level TL "),
    (" gestr. EL ", " level EL "),
    (" geh. TL ", " heaped TL "),
    (" geh. EL ", " heaped EL "),
    (" lv tsp ", " level tsp "),
    (" lv tbsp ", " level tbsp "),
    (" lvl tsp ", " level tsp "),
    (" lvl tbsp ", " level tbsp "),
    (" hpd tsp ", " heaped tsp "),
    (" hpd tbsp ", " heaped tbsp "),
    (" q.b.", " to taste"),
    ("q.b. ", "to taste "),
];

/// `butter 50 g @ 18 °C`: the sign before a temperature is a word.
pub(super) fn at_heat(line: &str) -> String {
    let is_heat = |behind: &str| {
        let digits = behind.trim_start().trim_start_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
        digits.len() < behind.trim_start().len()
            && digits
                .trim_start()
                .strip_prefix(['\u{b0}', '\u{ba}', 'C', 'F'])
                .is_some_and(|rest| !rest.starts_with(char::is_lowercase))
    };
    match line.split_once(" @ ") {
        Some((before, behind)) if is_heat(behind) => format!("{before} at {behind}"),
        _ => line.to_owned(),
    }
}

/// A line with short words in full that are no names: `o/n` is the night, a baker's dozen thirteen.
pub(super) fn in_full(line: &str) -> String {
    let lower = line.to_ascii_lowercase();
    let night = lower.match_indices("o/n").map(|(at, _)| at).find(|at| {
        let beside = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
        beside(line.get(..*at).and_then(|before| before.chars().next_back()))
            && beside(line.get(at + 3..).and_then(|behind| behind.chars().next()))
    });
    let mut line = line.to_owned();
    if let Some(at) = night {
        line.replace_range(at..at + 3, "overnight");
    }
    for (short, full) in FULL {
        if line.contains(short) {
            line = line.replace(short, full);
        }
    }
    line.replace("a baker's dozen", "13").replace("a baker\u{2019}s dozen", "13")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ways in which people write; our own lines.
    #[test]
    fn words_round_an_amount() {
        for (line, kept, about) in [
            ("water ~ 150 ml", "water 150 ml", Some("~")),
            ("butter approx 50 g", "butter 50 g", Some("approx")),
            ("flour about 200 g", "flour 200 g", Some("about")),
            ("about 200 g flour", "about 200 g flour", None),
            ("seeds, about 100g", "seeds, 100g", Some("about")),
            ("stir about 10 min", "stir 10 min", Some("about")),
        ] {
            let (found, word) = without_about(line);
            assert_eq!((found.as_str(), word.as_deref()), (kept, about), "{line}");
        }
        for (line, wanted) in [
            ("two hundred and fifty grams of oats", true),
            ("so a pound of flour", true),
            ("half a pint of milk and an egg", true),
            ("Bake until it is brown", false),
            ("the grams are what counts", false),
        ] {
            assert_eq!(holds_in_words(line), wanted, "{line}");
        }
        assert_eq!(in_full("Prove 1h, fridge O/N 4C"), "Prove 1h, fridge overnight 4C");
        for (line, parted) in [
            ("1 pint milk or so", "1 pint milk, or so"),
            ("3/4 pint buttermilk give or take", "3/4 pint buttermilk, give or take"),
            ("600 g water, give or take", "600 g water, give or take"),
            ("50 g butter or oil", "50 g butter or oil"),
        ] {
            assert_eq!(with_doubt_apart(line), parted);
        }
        assert!(another("pepper", "breadcrumbs").is_some() && another("dark", "chocolate").is_none());
    }
}
