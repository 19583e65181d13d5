//! Temperatures in the words of a step: its prose and its sign, and what the names above it say of them.

use super::{CHECK, outside};
use crate::check::usual_times::degrees;
use crate::language::syntax::{Piece, StepClause, StepLine};
use crate::measure::number::Number;
use crate::measure::show;
use crate::measure::temperature::{Dial, Temperature};
use crate::model::cooking::cold_words::COOLED;
use crate::model::cooking::has_word_beginning;
use crate::model::lowered::{Beginnings, beginnings};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use crate::text::word_begins::has_letters;

/// The names above a line, in lower case.
pub(super) struct Names<'t> {
    pub recipe: &'t str,
    pub part: &'t str,
}

impl Names<'_> {
    /// A part that has a name of its own is what it says; else the recipe is.
    fn own(&self) -> &str {
        if self.part.is_empty() { self.recipe } else { self.part }
    }

    pub fn of_jam(&self) -> bool {
        (has_word_beginning(self.own(), ["jam|", "jams|", "marmalade", "confiture", "preserve", "membrillo"])
            || ["quince paste", "fruit paste", "quince cheese", "damson cheese"]
                .iter()
                .any(|paste| self.own().contains(paste)))
            && !has_word_beginning(self.own(), ["doughnut", "donut", "tart", "roll", "sponge"])
    }

    pub fn is_of_garlic(&self) -> bool {
        [self.recipe, self.part].iter().any(|name| has_word_beginning(name, ["garlic"]))
    }

    /// Done in a bath at 100 to 120 °C, whatever is said below.
    pub fn of_terrine(&self) -> bool {
        [self.recipe, self.part].iter().any(|name| {
            has_word_beginning(
                name,
                ["terrine", "pâté", "pate", "parfait", "rillette", "confit", "meringue", "pavlova"],
            )
        })
    }
}

/// A jam is done at 103 to 106 °C, less with much pectin; at 112 and more it is candy. Common practice, no source.
pub(super) fn jam_done_at(
    step: &StepLine,
    pieces: &[Piece],
    is_cue: bool,
    of_jam: impl Fn() -> bool,
) -> Option<Diagnostic> {
    if !is_cue || !step.name.has_word_beginning(beginnings!["boil", "cook", "simmer", "reduc"]) || !of_jam() {
        return None;
    }
    let says_cool =
        pieces.iter().any(|piece| matches!(piece, Piece::Text(text) if COOLED.begin_in(&text.to_lowercase())));
    pieces.iter().find_map(|piece| match piece {
        // A syrup of two thirds of sugar boils at 104 °C, and high in the mountains at 98.
        Piece::Measure(said) if !says_cool => outside(said, "a jam is done", 97, 112, step.name.span),
        _ => None,
    })
}

/// Words by which the middle of what lies in a pot is measured, and not what it boils in.
const INSIDE: &Beginnings = &Beginnings::of(&["inside", "middle", "core", "centre", "center"]);

/// Temperatures in the prose and the cue of a step: what is baked is not done at 36 °C, and what is held hot is not cold.
pub(super) fn said_in_step(
    step: &StepLine,
    pieces: &[Piece],
    is_cue: bool,
    line: Span,
    has_flesh: &dyn Fn() -> bool,
) -> Option<Diagnostic> {
    // Of nearly all steps no piece is a temperature, and nothing else is looked for.
    let is_said = |piece: &Piece| match piece {
        Piece::Measure(said) => degrees(said).is_some(),
        Piece::Text(text) => bare_temperature(text).is_some(),
        Piece::Use(..) => false,
    };
    if !pieces.iter().any(is_said) {
        return None;
    }
    let at = step.clauses.iter().find_map(|clause| match &clause.value {
        StepClause::Using(_, at, _) | StepClause::At(at) => degrees(at),
        _ => None,
    });
    let hot = at.filter(|at| *at >= Number::whole(100));
    let freezes =
        step.name.has_word_beginning(beginnings!["freez", "frozen", "churn"]) || at.is_some_and(|at| at < Number::ZERO);
    let boils = at.is_none()
        && step.name.has_word_beginning(beginnings!["boil"])
        && !pieces.iter().any(|piece| matches!(piece, Piece::Text(text) if COOLED.begin_in(&text.to_lowercase())));
    let is_inside =
        || pieces.iter().any(|piece| matches!(piece, Piece::Text(text) if INSIDE.begin_in(&text.to_lowercase())));
    let (what, low, high) = match (hot, at) {
        // What is measured is the middle of the chicken in it.
        _ if boils && is_cue && (is_inside() || has_flesh()) => ("what boils is done in the middle", 50, 190),
        _ if boils && is_cue => ("what boils is", 80, 190),
        _ if !is_cue && goes_into_hot_jars(pieces) => ("what is closed in hot jars is filled", 70, 130),
        (Some(_), _) if is_cue => ("what is baked is done in the middle", 50, 400),
        (None, Some(at)) if is_cue && at >= Number::whole(55) => ("what is kept hot stands", 50, 400),
        _ if !freezes => ("what is not to freeze stands", -5, 400),
        _ => return None,
    };
    pieces.iter().find_map(|piece| match piece {
        Piece::Measure(said) => outside(said, what, low, high, step.name.span),
        Piece::Text(text) => {
            let (celsius, written) = bare_temperature(text)?;
            let odd = celsius < Number::whole(low) || celsius > Number::whole(high);
            let plain =
                show::temperature_on(Temperature::from_celsius(celsius), show::Units::Metric, Dial::Thermometer);
            let both = if written.ends_with('C') { written } else { format!("{written} ({plain})") };
            odd.then(|| {
                Diagnostic::advice(CHECK.name, line, format!("{both} is unusual here: {what} from {low} to {high} °C"))
                    .also(step.name.span, "in this step")
                    .help("look whether the unit is right, C or F, and whether a digit is missing")
            })
        }
        Piece::Use(..) => None,
    })
}

/// Whether something is filled into jars or bottles that are hot, and that are closed: it is as hot as they are. Common practice, no source.
fn goes_into_hot_jars(pieces: &[Piece]) -> bool {
    // Next to no text has any of these.
    let is_of_jars = |text: &str| {
        memchr::memchr2(b'j', b'J', text.as_bytes()).is_some()
            || has_letters(text, b"bott")
            || has_letters(text, b"ster")
    };
    if !pieces.iter().any(|piece| matches!(piece, Piece::Text(text) if is_of_jars(text))) {
        return false;
    }
    let mut text = String::new();
    for piece in pieces {
        match piece {
            Piece::Text(words) => text.push_str(&words.to_lowercase()),
            Piece::Use(..) | Piece::Measure(_) => text.push(' '),
        }
    }
    let hot = ["hot jar", "hot clean jar", "hot, clean jar", "hot bottle", "hot sterili", "warm jar"]
        .iter()
        .any(|said| text.contains(said));
    hot && has_word_beginning(&text, ["fill", "pot", "pour", "ladle"])
        && !has_word_beginning(&text, ["cool", "warm the", "heat the"])
}

fn has_digit(text: &str) -> bool {
    // To the end, which is done for many bytes at once.
    text.bytes().fold(false, |found, byte| found | byte.is_ascii_digit())
}

/// The first temperature in words without braces, in degrees Celsius, and as it is written.
fn bare_temperature(text: &str) -> Option<(Number, String)> {
    if !has_digit(text) {
        return None;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).find_map(|two| {
        let [number, unit] = two else { return None };
        let number: i64 = number.parse().ok()?;
        let celsius = match unit.trim_end_matches(|c: char| c.is_ascii_punctuation()) {
            "C" | "°C" => Number::whole(number),
            "F" | "°F" => Temperature::from_fahrenheit(Number::whole(number)).ok()?.celsius(),
            _ => return None,
        };
        Some((celsius, format!("{number} {}", unit.trim_end_matches(|c: char| c.is_ascii_punctuation()))))
    })
}
