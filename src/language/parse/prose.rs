//! Prose and the braces in it.

use super::Rule;
use super::numbers;
use super::pairs::Pair;
use super::reader::{Reader, shortened};
use crate::language::syntax::{Piece, Quantity, Share};
use crate::measure::number::Number;
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// What a share of an ingredient can be measured in.
const SHARE_KINDS: &[Dimension] = &[Dimension::Mass, Dimension::Volume, Dimension::Count, Dimension::Proportion];

/// Words in front of which it is none either: `5 C or below`.
const HEAT_BEFORE: [&str; 5] = [" or below", " or under", " or above", " or over", " in the middle"];

/// Reads one line of prose.
pub(super) fn read(reader: &mut Reader<'_>, said: Span) -> Vec<Piece> {
    read_behind(reader, said, "")
}

/// Reads a line of prose, or what stands of it behind some words.
fn read_behind(reader: &mut Reader<'_>, said: Span, lead: &str) -> Vec<Piece> {
    let text = reader.slice(said);
    let bare = bare_measures(text, lead);
    for (range, braced) in bare {
        let at = |place: usize| said.start.saturating_add(u32::try_from(place).unwrap_or(u32::MAX));
        let span = Span { start: at(range.start), end: at(range.end), ..said };
        let words = text.get(range).unwrap_or("");
        reader.report(
            Diagnostic::advice(
                "bare-measure",
                span,
                format!("`{words}` stands in no braces: every reader gets it as it is"),
            )
            .help(format!("write `{braced}`, and each reader gets it in the own units"))
            .mend("set it in braces", span, braced),
        );
    }
    if memchr::memchr3(b'{', b'}', b'\\', text.as_bytes()).is_none() {
        return if text.is_empty() { Vec::new() } else { vec![Piece::Text(text.to_owned())] };
    }
    // The rule takes any line at all, so that there is nothing to report when it ends.
    let Ok(sheet) = reader.parse(Rule::prose_line, said) else { return vec![Piece::Text(text.to_owned())] };
    let mut pieces: Vec<Piece> = Vec::with_capacity(sheet.pairs().size_hint().0);
    for pair in sheet.pairs() {
        match pair.as_rule() {
            Rule::brace => {
                if let Some(piece) = pair.into_inner().next().and_then(|inner| brace(reader, inner)) {
                    pieces.push(piece);
                }
            }
            Rule::trouble_brace => trouble(reader, &pair),
            _ => push_text(&mut pieces, pair.as_str()),
        }
    }
    reader.reuse(sheet);
    pieces.shrink_to_fit();
    pieces
}

/// Words behind which a small figure with a plain C is no number of cups: `keep below 5 C`.
const OF_HEAT: [&str; 10] = ["at", "below", "under", "above", "over", "to", "than", "reaches", "until", "from"];

/// Temperatures and metric lengths outside braces, and how they stand in them: `94 C`, `94-96 \u{b0}C`, `450F`, `2 cm`, both of `200C/180C`.
/// Small figures without a degree sign are left alone where nothing says that they are a heat, for a C may be a cup; and of `20 x 30 cm` nobody
/// wants one half in inches. `lead` is what stands before the text in its line.
fn bare_measures(text: &str, lead: &str) -> Vec<(std::ops::Range<usize>, String)> {
    let mut found = Vec::new();
    // Most prose has no figures, which is the quickest to see.
    // To the end, which is done for many bytes at once.
    let has_figures = text.bytes().fold(false, |found, byte| found | byte.is_ascii_digit());
    let may = || memchr::memchr2(b'C', b'F', text.as_bytes()).is_some() || text.contains("cm") || text.contains("mm");
    if !has_figures || !may() {
        return found;
    }
    let (mut depth, mut before, mut until) = (0_usize, ' ', 0);
    let mut rest = text.char_indices().peekable();
    while let Some((at, c)) = rest.next() {
        match c {
            '\\' => {
                rest.next();
            }
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if at < until => {}
            // `Freeze at -18 C`.
            _ if c.is_ascii_digit() && depth == 0 && before == '-' => {
                let lead = at.checked_sub(1).and_then(|start| text.get(..start)).filter(|lead| lead.ends_with(' '));
                let after = text.get(at..).unwrap_or("");
                let below =
                    lead.filter(|lead| is_of_heat(lead)).and_then(|lead| Some((lead, temperature_at(after, true)?)));
                if let Some((lead, (length, braced))) = below.filter(|(_, (_, braced))| !braced.contains('-')) {
                    until = at + length;
                    found.push((lead.len()..until, braced.replacen('{', "{-", 1)));
                }
            }
            _ if c.is_ascii_digit()
                && depth == 0
                && !before.is_alphanumeric()
                && !matches!(before, '.' | ',' | '–')
                && (before != '/' || until + 1 == at && until > 0) =>
            {
                let after = text.get(at..).unwrap_or("");
                let is_said = is_of_heat(if at == 0 { lead } else { text.get(..at).unwrap_or("") });
                let times = text.get(..at).and_then(|before| before.trim_end().strip_suffix(['x', '×']));
                let is_of_two = times.is_some_and(|first| first.trim_end().ends_with(|c: char| c.is_ascii_digit()));
                let length = || if is_of_two { None } else { length_at(after) };
                if let Some((length, braced)) = temperature_at(after, is_said).or_else(length) {
                    until = at + length;
                    found.push((at..until, braced));
                }
            }
            _ => {}
        }
        before = c;
    }
    found
}

/// Centimetres or millimetres at the beginning of a text: how long that is, and the same in braces.
fn length_at(text: &str) -> Option<(usize, String)> {
    let (digits, rest) = figures_at(text)?;
    let unit = rest.trim_start_matches([' ', '\u{a0}']);
    let word = ["cm", "mm"].into_iter().find(|word| unit.starts_with(word))?;
    let after = unit.strip_prefix(word)?;
    let is_whole = !after.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '²' | '³'));
    is_whole.then(|| (text.len() - after.len(), format!("{{{digits} {word}}}")))
}

/// A figure or a range of them at the beginning of a text, and what stands behind it; `None` where it could not stand in braces as it is.
fn figures_at(text: &str) -> Option<(String, &str)> {
    let is_figure = |c: char| c.is_ascii_digit() || c == '.';
    let figure = |text: &str| text.find(|c| !is_figure(c)).unwrap_or(text.len());
    let low = figure(text);
    let (first, rest) = text.split_at_checked(low)?;
    let least = numbers::sound(first).filter(|_| !first.ends_with('.'))?;
    let second = rest.strip_prefix(['-', '–']).filter(|after| after.starts_with(|c: char| c.is_ascii_digit()));
    let Some(after) = second else { return Some((first.to_owned(), rest)) };
    let (second, rest) = after.split_at_checked(figure(after))?;
    let most = numbers::sound(second).filter(|_| !second.ends_with('.'))?;
    (least <= most).then(|| (format!("{first}-{second}"), rest))
}

/// Whether a text ends in a word behind which a figure with a C is a heat.
fn is_of_heat(lead: &str) -> bool {
    let last = lead.trim_end().rsplit(|c: char| !c.is_ascii_alphabetic()).next().unwrap_or_default();
    lead.ends_with([' ', '\u{a0}']) && OF_HEAT.iter().any(|word| last.eq_ignore_ascii_case(word))
}

/// A temperature at the beginning of a text: how long that is, and the same in braces. `is_said`: the words before it are of a heat.
fn temperature_at(text: &str, is_said: bool) -> Option<(usize, String)> {
    let (digits, rest) = figures_at(text)?;
    let bare = rest.trim_start_matches([' ', '\u{a0}', '°']);
    let unit = bare.strip_prefix("degrees ").unwrap_or(bare);
    let letter = unit.chars().next().filter(|c| matches!(c, 'C' | 'F'))?;
    let word = ["Celsius", "Fahrenheit"].into_iter().find(|word| unit.starts_with(word));
    let has_degree =
        rest.get(..rest.len() - bare.len())?.contains('°') || unit.len() < bare.len() || word.is_some() || is_said;
    let after = unit.get(word.map_or(1, str::len)..)?;
    if after.starts_with(|c: char| c.is_alphanumeric()) {
        return None;
    }
    // By so much something is cooler than something else: in braces that would be a heat.
    let next = after.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty()).unwrap_or_default();
    if after.starts_with(' ')
        && ["less", "more", "cooler", "warmer", "hotter", "colder", "lower", "higher", "apart"].contains(&next)
    {
        return None;
    }
    let has_degree = has_degree || HEAT_BEFORE.iter().any(|words| after.starts_with(words));
    // Three digits, or two from twenty on, are no cups.
    let is_hot =
        digits.split(['-', '.']).next().is_some_and(|whole| whole.len() > 2 || (whole.len() == 2 && whole >= "20"));
    (has_degree || is_hot).then(|| (text.len() - after.len(), format!("{{{digits} {letter}}}")))
}

/// Reads a line that begins with `until `.
pub(super) fn read_cue(reader: &mut Reader<'_>, said: Span) -> Vec<Piece> {
    let after = reader.slice(said).get(6..).unwrap_or("");
    let skipped = 6 + (after.len() - after.trim_start().len());
    read_behind(reader, Span { start: said.start + u32::try_from(skipped).unwrap_or(0), ..said }, "until ")
}

fn push_text(pieces: &mut Vec<Piece>, text: &str) {
    if let Some(Piece::Text(last)) = pieces.last_mut() {
        last.push_str(text);
    } else {
        pieces.push(Piece::Text(text.to_owned()));
    }
}

fn brace(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Piece> {
    match pair.as_rule() {
        // `{00 flour}` is a name that begins with a figure: what stands behind it is no unit, and like none.
        Rule::measure if is_a_name(pair.as_str()) => Some(Piece::Use(Share::All, reader.name(&pair))),
        Rule::measure => {
            let chain = numbers::chain(reader, pair.into_inner().next()?)?;
            Some(Piece::Measure(chain))
        }
        Rule::rest => {
            let name = reader.name(&pair.into_inner().next()?);
            Some(Piece::Use(Share::Rest, name))
        }
        Rule::share => {
            let mut inner = pair.into_inner();
            let (how_much, of) = (inner.next()?, inner.next()?);
            let name = reader.name(&of);
            if how_much.as_rule() == Rule::half {
                return Some(Piece::Use(Share::Fraction(Number::constant(1, 2)), name));
            }
            let quantity = numbers::quantity_of(reader, how_much, SHARE_KINDS)?;
            Some(Piece::Use(share_of(quantity), name))
        }
        _ => {
            let name = reader.name(&pair.into_inner().next()?);
            Some(Piece::Use(Share::All, name))
        }
    }
}

/// Whether a figure and one word behind it are a name, such as `00 flour`: the word is no unit, and none could be meant by it. So is
/// `1/3 water`, of which a step then says what is missing.
fn is_a_name(text: &str) -> bool {
    let Some((figure, word)) = text.trim().split_once([' ', '\t']) else { return false };
    let word = word.trim_start();
    let is_word = word.chars().all(char::is_alphabetic);
    let is_known = || Unit::from_word(word).is_some() || Unit::is_nearly_one(word);
    let is_time = || ["deg", "month", "year"].iter().any(|begin| word.to_lowercase().starts_with(begin));
    figure.bytes().all(|byte| byte.is_ascii_digit() || byte == b'/') && is_word && !is_known() && !is_time()
}

/// `1/3 of x` is a share, `2 of x` are two of them.
fn share_of(quantity: Quantity) -> Share {
    let bare = matches!(quantity.terms.as_slice(), [term] if term.unit.is_none());
    match quantity.terms.first() {
        Some(term) if bare && term.number.value < Number::ONE => Share::Fraction(term.number.value),
        _ => Share::Quantity(quantity),
    }
}

fn trouble(reader: &mut Reader<'_>, pair: &Pair<'_>) {
    let span = reader.span(pair);
    let text = shortened(pair.as_str());
    let problem = match pair.as_str() {
        "{" => Diagnostic::error("stray-line", span, "a brace is opened and not closed on this line")
            .help("close it on the same line, or write `\\{` for a plain brace"),
        "}" => Diagnostic::error("stray-line", span, "a brace is closed that was not opened on this line")
            .help("open it on the same line, or write `\\}` for a plain brace"),
        // `{butter, soft}`: as it stands behind the amount of its line, and not in its name.
        braced if let Some(name) = described(braced) => {
            Diagnostic::error("stray-line", span, format!("`{text}` names no ingredient and no measure"))
                .help(format!("what describes it stands outside the braces: write `{name}`"))
                .suggest(format!("write `{name}`"), span, name)
        }
        _ => Diagnostic::error("stray-line", span, format!("`{text}` names no ingredient and no measure"))
            .help("in braces stands an ingredient, `{half of NAME}`, `{300 g of NAME}`, `{rest of NAME}` or a measure"),
    };
    reader.report(problem);
}

/// `{butter}` for `{butter, soft}`.
fn described(braced: &str) -> Option<String> {
    let (name, _) = braced.strip_prefix('{')?.strip_suffix('}')?.split_once(',')?;
    let is_name = |c: char| c.is_alphabetic() || matches!(c, ' ' | '-' | '\'');
    (!name.trim().is_empty() && name.chars().all(is_name)).then(|| format!("{{{}}}", name.trim()))
}

#[cfg(test)]
mod tests {
    fn bare_measures(text: &str) -> Vec<(std::ops::Range<usize>, String)> {
        super::bare_measures(text, "")
    }

    #[test]
    fn temperatures_outside_braces_are_seen() {
        let braced = |text: &str| bare_measures(text).into_iter().map(|(_, braced)| braced).collect::<Vec<String>>();
        assert_eq!(braced("until 94 C in the middle"), ["{94 C}"]);
        assert_eq!(braced("at 450F or 94–96 °C."), ["{450 F}", "{94-96 C}"]);
        assert_eq!(braced("{94 C} and vitamin C, 2 C of flour, 30 Cakes, type 45 F2"), Vec::<String>::new());
        assert_eq!(braced("keep at 5 °C"), ["{5 C}"]);
        assert_eq!(braced("Keep below 5 C. Freeze at -18 C"), ["{5 C}", "{-18 C}"]);
        assert_eq!(braced("Oven 200C/180C fan/gas 6"), ["{200 C}", "{180 C}"]);
        assert_eq!(braced("28 degrees C, 21 Celsius"), ["{28 C}", "{21 C}"]);
        assert_eq!(braced("it is 5 C or below"), ["{5 C}"]);
        assert_eq!(super::bare_measures("5 C", "until "), [(0..3, "{5 C}".to_owned())]);
        assert_eq!(braced("20 °C less, add 2 C flour, mix-5 C, 1/2 C"), Vec::<String>::new());
    }

    #[test]
    fn lengths_outside_braces_are_seen() {
        let braced = |text: &str| bare_measures(text).into_iter().map(|(_, braced)| braced).collect::<Vec<String>>();
        assert_eq!(braced("2 cm dice, 4-5mm thick, 3.5 cm."), ["{2 cm}", "{4-5 mm}", "{3.5 cm}"]);
        assert_eq!(
            braced("a sheet of 20 x 30 cm or 20 × 30 cm, {2 cm}, 1/2 cm, 5 cm², no. 2 cmx"),
            Vec::<String>::new()
        );
        assert_eq!(braced("a tin of 20 cm x 30 cm"), ["{20 cm}", "{30 cm}"]);
    }

    /// What would be a problem in braces is none outside them.
    #[test]
    fn what_cannot_be_read_stays_outside_braces() {
        #[rustfmt::skip]
        let unread = [
            "00 cm", "05 mm", "5-05 cm", "20-10 cm", "1.2.3 cm", "5..6 cm", "99999999999999999999 cm", "5.00000000001 cm", "0220 C",
            "020-030 °C", "300-200 C", "7-1.2.3 °C",
        ];
        for text in unread {
            assert!(bare_measures(text).is_empty(), "{text}: {:?}", bare_measures(text));
        }
    }
}
