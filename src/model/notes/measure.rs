//! An amount as it stands on a line: a figure with its unit, how the spoon is filled, and how sure the writer was of it.

use super::amount::{self, Figure, Unit};
use crate::measure::loose::{ABOUT, ABOUT_SIGNS, FILLED};
use crate::measure::number::Number;

/// What is put before a figure that is not meant to the gram, beside [`ABOUT`].
#[rustfmt::skip]
const NOT_QUITE: [&str; 18] = [
    "some", "up to", "at least", "at most", "max.", "max", "min.", "just under", "just over", "nearly", "almost", "a good", "a scant",
    "a generous", "scant", "generous", "good", "another",
];

/// Whether a word for how a spoon is filled leaves open how much it is: `heaped`, and not `level`.
pub(super) fn leaves_open(word: &str) -> bool {
    FILLED.iter().any(|(filled, open)| *open && *filled == word)
}

/// An amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Measure {
    /// Its figures with their units, as the language writes them; of what it has no unit for, the figure alone.
    pub(super) shown: String,
    /// The value of a single figure.
    pub(super) value: Option<Number>,
    /// Its unit; a compound's last.
    pub(super) unit: Option<Unit>,
    /// The unit as it was written.
    pub(super) word: String,
    /// How it is filled: `heaped`, `level`.
    pub(super) filled: Option<&'static str>,
    /// What was guessed.
    pub(super) look: Vec<String>,
    /// Whether a figure stands there, and not only an article or a word.
    pub(super) has_figure: bool,
}

impl Measure {
    /// The unit's word in the language, of a weight, a volume or a share.
    pub(super) fn known(&self) -> Option<&'static str> {
        match self.unit {
            Some(Unit::Known(word) | Unit::Spoon(word)) => Some(word),
            _ => None,
        }
    }

    /// Whether it is a weight.
    pub(super) fn is_mass(&self) -> bool {
        matches!(self.known(), Some("g" | "kg" | "mg" | "oz" | "lb"))
    }

    /// Whether it is a weight in grams or kilograms.
    pub(super) fn is_metric(&self) -> bool {
        matches!(self.known(), Some("g" | "kg" | "mg"))
    }

    /// Whether both are grams or kilograms and not as many: `500 g (1 kg)` is another batch.
    pub(super) fn is_other_weight(&self, other: &Measure) -> bool {
        let grams = |one: &Measure| match one.known() {
            Some("g") => one.value,
            Some("kg") => one.value.and_then(|value| value.times(Number::whole(1000)).ok()),
            _ => None,
        };
        matches!((grams(self), grams(other)), (Some(one), Some(two)) if one != two)
    }

    /// Whether it says how much there is: a weight or a volume, no share and no number of pieces.
    pub(super) fn is_quantity(&self) -> bool {
        self.known().is_some_and(|word| word != "%")
    }

    /// Whether so many packs are not whole ones: `1/2 sachet`.
    pub(super) fn is_part(&self) -> bool {
        self.value.is_some_and(|many| many.to_whole().is_none())
    }

    /// The words of a loose measure, `2 small bunches`.
    pub(super) fn words(&self) -> String {
        let figure = self.has_figure.then_some(self.shown.as_str());
        let words = [figure, self.filled, Some(self.word.as_str())];
        words.into_iter().flatten().collect::<Vec<&str>>().join(" ").to_lowercase()
    }
}

/// Reads an amount at the start of a text; gives what follows.
pub(super) fn measure(text: &str) -> Option<(Measure, &str)> {
    let text = text.trim_start();
    let lower = text.to_lowercase();
    let sign = text.get(..text.chars().next().map_or(0, char::len_utf8)).filter(|sign| sign.starts_with(ABOUT_SIGNS));
    let mut words = ABOUT.into_iter().chain(NOT_QUITE);
    let about = sign.or_else(|| words.find(|word| lower.strip_prefix(word).is_some_and(|rest| rest.starts_with(' '))));
    let behind = about.map_or(text, |word| text.get(word.len()..).unwrap_or(text).trim_start());
    match exact(behind) {
        // `a good pinch`: what was taken for a doubt is how it is filled.
        Some((measure, _)) if about.is_some() && measure.unit == Some(Unit::Loose) => exact(text),
        Some((mut measure, rest)) => {
            // The word alone before a spoon says how it is filled.
            let fills = about.and_then(|word| FILLED.iter().find(|(filled, _)| word.ends_with(filled)));
            match (about, fills) {
                (Some(_), Some((filled, _))) if matches!(measure.unit, Some(Unit::Spoon(_))) => {
                    measure.filled = Some(filled);
                    measure.look.push(format!("how much is a {filled} one?"));
                }
                (Some(word), _) => measure.look.push(format!("the notes say `{word}`")),
                (None, _) => {}
            }
            Some((measure, rest))
        }
        None => exact(text),
    }
}

/// Whether a weight or a volume stands somewhere in a text.
pub(super) fn holds_amount(text: &str) -> bool {
    let figures = text.match_indices(char::is_numeric).filter_map(|(at, _)| {
        let before = text.get(..at)?.chars().next_back();
        before.is_none_or(|before| !before.is_alphanumeric()).then(|| text.get(at..)).flatten()
    });
    figures.filter_map(exact).any(|(amount, _)| amount.is_quantity())
}

fn exact(text: &str) -> Option<(Measure, &str)> {
    let (figure, behind, has_figure) = counted(text)?;
    let mut measure = Measure {
        shown: figure.shown.clone(),
        value: figure.value,
        unit: None,
        word: String::new(),
        filled: None,
        look: figure.look.map(str::to_owned).into_iter().collect(),
        has_figure,
    };
    if figure.most.is_some() {
        measure.look.push("the smaller figure is taken".to_owned());
    }
    if let Some(rest) = dozen(&mut measure, behind) {
        return Some((measure, rest));
    }
    let (filled, behind) = filled(behind);
    let Some((unit, word, mut rest)) =
        amount::unit(behind).filter(|(.., rest)| !rest.starts_with(char::is_alphanumeric))
    else {
        return if filled.is_some() { None } else { thousands(measure, text, behind) };
    };
    measure.unit = Some(unit);
    measure.word = word.to_owned();
    half_kilos(&mut measure);
    // `a few drops`: one loose measure of another.
    if unit == Unit::Loose
        && ["few", "couple"].contains(&word.to_lowercase().as_str())
        && let Some((Unit::Loose | Unit::Counted, more, after)) =
            amount::unit(rest.trim_start().trim_start_matches("of "))
    {
        measure.word = format!("{word} {more}");
        rest = after;
    }
    if let Some((filled, open)) = filled {
        // `2 large slices`, `1 small bunch` are no clearer or darker than without the word.
        if *open && matches!(unit, Unit::Spoon(_) | Unit::Known(_)) {
            measure.look.push(format!("how much is a {filled} one?"));
        }
        measure.filled = Some(filled);
    }
    // `2 c flour` are cups; degrees have no name behind them, and nobody takes a hundred cups: `250C dutch oven`.
    let names = rest.strip_prefix(' ').is_some_and(|rest| rest.starts_with(|c: char| c.is_alphabetic() || c == '('));
    // Of three quarters there are no degrees, and neither are there of what is said again in other units: `1 c / 226 g`.
    let again = rest.trim_start().starts_with(['/', '=', '+']);
    let names =
        names || is_small(figure.value) && (again || figure.shown.contains(|c: char| !c.is_ascii_digit() && c != '.'));
    if unit == Unit::Other && word.eq_ignore_ascii_case("c") && names && figure.most.is_none() && is_few(figure.value) {
        measure.unit = Some(Unit::Spoon("cup"));
        measure.look.push("`c` is read as cup".to_owned());
    }
    // `0.8 t` of water may be tonnes, and so may `12 t`.
    if word == "t" && figure.value.is_none_or(|many| many > Number::whole(4) || figure.shown.contains('.')) {
        measure.look.push("`t` is read as a teaspoon".to_owned());
    }
    if let Some(word) = measure.known().filter(|_| unit != amount::HALF_KILO && unit != amount::DECAGRAM) {
        measure.shown = format!("{} {word}", figure.shown);
        // Nobody weighs two thousand kilograms: `2.000 kg` is as a scale shows it.
        if matches!(word, "kg" | "l") {
            measure.look.retain(|why| why != amount::IN_THOUSANDS);
        }
        // `1 kilo and a half of sugar`.
        let half = rest.strip_prefix(" and a half").filter(|rest| !rest.starts_with(char::is_alphanumeric));
        if let Some((behind, more)) = half.zip(measure.value.and_then(|value| value.plus(Number::constant(1, 2)).ok()))
        {
            measure.value = Some(more);
            measure.shown = format!("{} {word}", more.decimal(3));
            rest = behind;
        }
        rest = more_terms(&mut measure, rest);
        rest = second_end(&mut measure, rest);
        if let Some(behind) = rest.strip_prefix('+') {
            measure.look.push("the notes say `+`".to_owned());
            rest = behind;
        }
    }
    Some((measure, rest))
}

/// Pounds of the Continent are half kilos: `2 Pfund Mehl` are 1000 g; and a dag is ten grams.
fn half_kilos(measure: &mut Measure) {
    let one = match measure.unit {
        Some(amount::HALF_KILO) => 500,
        Some(amount::DECAGRAM) => 10,
        _ => return,
    };
    let grams = measure.value.and_then(|many| many.times(Number::whole(one)).ok());
    measure.look.push(format!("a {} is taken for {one} g", measure.word));
    measure.unit = Some(Unit::Known("g"));
    measure.value = grams;
    measure.shown = grams.map_or_else(|| format!("{} g", measure.shown), |grams| format!("{} g", grams.decimal(3)));
}

/// Whether so many cups may go into something.
fn is_few(cups: Option<Number>) -> bool {
    cups.is_none_or(|cups| cups < Number::whole(100))
}

/// Whether so many cups are in a recipe of a household.
fn is_small(cups: Option<Number>) -> bool {
    cups.is_some_and(|cups| cups <= Number::whole(12))
}

/// A figure, or the article before a measure.
fn counted(text: &str) -> Option<(Figure, &str, bool)> {
    if let Some((figure, rest)) = amount::figure(text) {
        return Some((figure, rest, true));
    }
    let lower = text.to_lowercase();
    let article = ["a ", "an ", "un ", "une ", "una ", "ein ", "eine ", "einen "]
        .into_iter()
        .find(|article| lower.starts_with(article));
    let rest = text.get(article.map_or(0, str::len)..)?;
    let dozen = article.is_some()
        && ["dozen", "half dozen", "half a dozen"].iter().any(|word| {
            rest.to_lowercase().strip_prefix(word).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
        });
    if dozen {
        return Some((Figure::one(), rest, false));
    }
    let (filled, behind) = filled(rest);
    let (unit, word, after) = amount::unit(behind)?;
    let ends = after.is_empty() || after.starts_with([' ', ',', ';', '(', ')']);
    let is_one = match unit {
        Unit::Known(_) | Unit::Spoon(_) => article.is_some() && word.len() > 1,
        Unit::Loose => {
            let lower = word.to_lowercase();
            // `jar of jam`, and no `tin loaf`.
            let pack = amount::is_container(&lower) && after.starts_with(" of ");
            article.is_some() || filled.is_some() || pack || HAND.contains(&lower.as_str())
        }
        Unit::Counted | Unit::Other => false,
    };
    (ends && is_one).then(|| (Figure::one(), rest, false))
}

/// Loose measures that stand without an article too: `pinch of salt`.
const HAND: &[&str] = &[
    "pinch", "pinches", "dash", "handful", "knob", "drop", "drops", "splash", "few", "little", "drizzle", "glug",
    "dollop",
];

/// How the measure that follows is filled.
fn filled(text: &str) -> (Option<&'static (&'static str, bool)>, &str) {
    let trimmed = text.trim_start();
    let lower = trimmed.to_lowercase();
    let found = FILLED.iter().find(|(word, _)| lower.strip_prefix(word).is_some_and(|rest| rest.starts_with(' ')));
    match found {
        Some(filled) => {
            let rest = trimmed.get(filled.0.len()..).unwrap_or(trimmed);
            let is_measure = amount::unit(rest)
                .is_some_and(|(unit, _, after)| unit != Unit::Other && !after.starts_with(char::is_alphanumeric));
            if is_measure { (Some(filled), rest) } else { (None, text) }
        }
        None => (None, text),
    }
}

/// `2 doz`, `half a dozen`: twelve times as many.
fn dozen<'t>(measure: &mut Measure, behind: &'t str) -> Option<&'t str> {
    let trimmed = behind.trim_start();
    let lower = trimmed.to_lowercase();
    let word = ["dozens", "dozen", "doz.", "doz"]
        .into_iter()
        .find(|word| lower.strip_prefix(word).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric)))?;
    let many = measure.value?.times(Number::whole(12)).ok()?.to_whole()?;
    measure.look.push(format!("a dozen is 12, so {many}"));
    measure.shown = many.to_string();
    measure.value = Some(Number::whole(many));
    measure.has_figure = true;
    trimmed.get(word.len()..)
}

/// `1 000 g`: a space between thousands.
fn thousands<'t>(mut measure: Measure, text: &'t str, behind: &'t str) -> Option<(Measure, &'t str)> {
    // `two 800 g loaves` are no thousands, and `flour 550 100 g` says the flour's type.
    let plain = measure.shown.len() <= 2
        && text.starts_with(|c: char| c.is_ascii_digit())
        && measure.shown.chars().all(|c| c.is_ascii_digit())
        && measure.shown != "0";
    let three = behind.strip_prefix([' ', '\u{A0}', '\u{2009}', '\u{202F}', '\'']).filter(|_| plain);
    let joined = three.and_then(|three| {
        let (figure, rest) = amount::figure(three)?;
        let (unit @ Unit::Known(word), written, rest) = amount::unit(rest)? else { return None };
        let pack = amount::unit(rest).is_some_and(|(_, word, _)| amount::is_container(&word.to_lowercase()));
        let fits = figure.shown.len() == 3 && figure.most.is_none() && figure.look.is_none() && word != "%" && !pack;
        let fits = fits && figure.shown.chars().all(|c| c.is_ascii_digit()) && !rest.starts_with(char::is_alphanumeric);
        let shown = format!("{}{}", measure.shown, figure.shown);
        fits.then_some((shown, unit, word, written, rest))
    });
    if let Some((digits, unit, word, written, rest)) = joined {
        measure.value = digits.parse().ok().map(Number::whole);
        measure.shown = format!("{digits} {word}");
        measure.unit = Some(unit);
        measure.word = written.to_owned();
        measure.look.push("the space is read as one between thousands".to_owned());
        return Some((measure, rest));
    }
    let starts =
        behind.is_empty() || behind.starts_with([' ', '\u{A0}', 'x', '×', '(', ',', ';', '/', ')', '|', '.', '+']);
    (starts && !text.is_empty()).then_some((measure, behind))
}

/// `1 lb 8 oz`, `1 kg 200 g`: the same weight goes on in the smaller unit.
fn more_terms<'t>(measure: &mut Measure, rest: &'t str) -> &'t str {
    if matches!(measure.known(), Some("cup" | "tbsp" | "pt" | "qt")) {
        return more_spoons(measure, rest);
    }
    let smaller = match measure.known() {
        Some("lb") => "oz",
        Some("kg") => "g",
        _ => return rest,
    };
    let next = amount::figure(rest).filter(|(figure, _)| figure.most.is_none() && figure.look.is_none());
    let Some((figure, behind)) = next.filter(|_| rest.starts_with(' ')) else { return rest };
    match amount::unit(behind) {
        Some((Unit::Known(word), _, after)) if word == smaller && !after.starts_with(char::is_alphanumeric) => {
            measure.shown = format!("{} {} {word}", measure.shown, figure.shown);
            measure.value = None;
            after
        }
        _ => rest,
    }
}

/// `1 cup plus 2 tablespoons`, `1 tbsp + 1 tsp`, `1 tbsp 1 tsp`, `1 pt 14 fl oz`: the same volume goes on in the smaller measure.
fn more_spoons<'t>(measure: &mut Measure, rest: &'t str) -> &'t str {
    let joined = ["plus ", "and ", "+ ", "+"].into_iter().find_map(|joint| rest.trim_start().strip_prefix(joint));
    let behind = joined.or_else(|| rest.strip_prefix(' '));
    let next = behind.and_then(amount::figure).filter(|(figure, _)| figure.most.is_none() && figure.look.is_none());
    let Some((figure, after)) = next.filter(|_| measure.value.is_some()) else { return rest };
    let smaller = |word: &str| match measure.known() {
        Some("cup") => matches!(word, "tbsp" | "tsp"),
        Some("qt") => matches!(word, "pt" | "cup" | "fl oz"),
        Some("pt") => word == "fl oz",
        _ => word == "tsp",
    };
    match amount::unit(after) {
        Some((Unit::Spoon(word), _, after)) if smaller(word) && !after.starts_with(char::is_alphanumeric) => {
            measure.shown = format!("{} {} {word}", measure.shown, figure.shown);
            measure.value = None;
            after
        }
        _ => rest,
    }
}

/// `600 g - 640 g`: a range that says its unit twice.
fn second_end<'t>(measure: &mut Measure, rest: &'t str) -> &'t str {
    let trimmed = rest.trim_start();
    let dash = ["-", "–", "—", "to ", "or "].into_iter().find_map(|dash| trimmed.strip_prefix(dash));
    let Some((figure, behind)) = dash.and_then(|rest| amount::figure(rest.trim_start())) else { return rest };
    match amount::unit(behind) {
        Some((unit @ (Unit::Known(_) | Unit::Spoon(_)), _, after))
            if Some(unit) == measure.unit && figure.most.is_none() && !after.starts_with(char::is_alphanumeric) =>
        {
            measure.look.push("the smaller figure is taken".to_owned());
            after
        }
        _ => rest,
    }
}
