//! Small things about words: list marks, names, wrapping.

use super::amount::{DECIMAL, THOUSANDS};
pub(super) use crate::text::words::letters_with_hyphens as all_of;

/// What a name of the language cannot hold.
const MARKS: [char; 11] = [':', ',', '{', '}', '[', ']', '#', '=', '"', '…', DECIMAL];

/// A line without the bullet, number or heading mark of a list, and the number if it was one.
///
/// `1.` and `2)` are numbers of a list only one after the other; `2) eggs` alone is two eggs with a slip.
pub(super) fn without_mark(line: &str, last: usize) -> (&str, Option<usize>) {
    let line = line.trim();
    // `~600 g` is about so much.
    if line.strip_prefix('~').is_some_and(|rest| rest.trim_start().starts_with(char::is_numeric)) {
        return (line, None);
    }
    let bare = line.trim_start_matches(|c: char| "#=-*•·–—‣◦▪●○■□▢>+~☐☑✓".contains(c) || c.is_whitespace());
    let bare = bare.strip_prefix("[ ]").or_else(|| bare.strip_prefix("[x]")).unwrap_or(bare).trim_start();
    let bare = behind_letter(bare).unwrap_or(bare);
    match number_of_list(bare) {
        (length, Some(number)) if number == 1 || last.checked_add(1) == Some(number) => {
            (bare.get(length..).unwrap_or(bare).trim(), Some(number))
        }
        _ => (bare.trim_end(), None),
    }
}

/// What stands behind the letter of a list: `(a) 8 oz oats`, `b) 5 oz butter`.
fn behind_letter(text: &str) -> Option<&str> {
    let rest = text.strip_prefix('(').unwrap_or(text);
    let rest = rest.strip_prefix(|c: char| c.is_ascii_lowercase())?.strip_prefix(") ")?;
    Some(rest.trim_start())
}

/// How long a number of a list (`1.`, `2)`) at the start of a text is, and which.
pub(super) fn number_of_list(text: &str) -> (usize, Option<usize>) {
    let digits = text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let (number, rest) = text.split_at(digits);
    let after = rest.strip_prefix('.').or_else(|| rest.strip_prefix(')')).filter(|after| after.starts_with(' '));
    match (number.parse(), after.filter(|after| !after.trim().is_empty())) {
        (Ok(number), Some(_)) => (digits + 1, Some(number)),
        _ => (0, None),
    }
}

/// Words as a name: what a name cannot hold left out, white space made one.
pub(super) fn name(text: &str) -> String {
    let plain = text.replace(MARKS, " ").replace(THOUSANDS, ".").replace("..", " ");
    let plain = plain.replace("..", " ").replace("**", "");
    let joined = plain.split_whitespace().collect::<Vec<&str>>().join(" ");
    joined.trim_matches(|c: char| matches!(c, '.' | ';' | '*' | '_' | '-' | '–' | '@' | ' ')).to_owned()
}

/// A title without the word for what it is: `Slipway rolls` of `Recipe for Slipway rolls`.
pub(super) fn title(name: String) -> String {
    let behind = |text: &str, word: &str| {
        let (first, rest) = text.split_once(' ')?;
        first.eq_ignore_ascii_case(word).then(|| rest.trim_start().to_owned())
    };
    let labels = ["recipe", "formula", "product"];
    let bare =
        labels.into_iter().find_map(|label| behind(&name, label)).map(|rest| behind(&rest, "for").unwrap_or(rest));
    bare.filter(|rest| rest.starts_with(char::is_alphabetic)).unwrap_or(name)
}

/// The first letter small, unless the word is in capitals.
pub(super) fn small(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (Some(first), second) if second.is_none_or(char::is_lowercase) => {
            first.to_lowercase().chain(text.chars().skip(1)).collect()
        }
        _ => text.to_owned(),
    }
}

/// A title in small letters where each of its words but the short ones begins with a capital, else as [`small`].
pub(super) fn all_small(title: &str) -> String {
    let mut words = title.split_whitespace();
    let capital = |word: &str| word.len() <= 4 || word.chars().next().is_none_or(|c| !c.is_lowercase());
    if title.contains(' ') && words.all(capital) { title.to_lowercase() } else { small(title) }
}

/// Words as prose: braces and brackets plain, no comment inside, at most so many columns a line.
pub(super) fn prose(text: &str, columns: usize) -> Vec<String> {
    let mut plain = String::with_capacity(text.len());
    for character in text.chars() {
        if matches!(character, '{' | '}' | '[' | ']' | '\\') {
            plain.push('\\');
        }
        plain.push(character);
    }
    let mut lines: Vec<String> = vec![String::new()];
    for word in plain.split_whitespace() {
        let word = if word == "#" { "no." } else { word };
        let Some(line) = lines.last_mut() else { continue };
        // `until` at the start of a line would be a cue.
        let holds = word.eq_ignore_ascii_case("until") || line.chars().count() + word.chars().count() < columns;
        if line.is_empty() {
            line.push_str(word);
        } else if holds {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

/// A long text in pieces of whole sentences, each as long as it may be and no longer, where its sentences allow that.
pub(super) fn in_pieces(text: &str, most: usize) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for sentence in sentences(text) {
        match pieces.last_mut().filter(|last| last.len() + sentence.len() <= most) {
            Some(last) => last.push_str(sentence),
            None => pieces.push(sentence.trim_start().to_owned()),
        }
    }
    pieces
}

/// The pieces that some marks part where a blank stands behind them, and none within brackets.
pub(super) fn outside_brackets<'t>(text: &'t str, marks: &[char]) -> Vec<&'t str> {
    let (mut depth, mut start, mut pieces) = (0_usize, 0, Vec::new());
    for (at, character) in text.char_indices() {
        match character {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            mark if depth == 0
                && marks.contains(&mark)
                && text.get(at + 1..).is_some_and(|rest| rest.starts_with(' ')) =>
            {
                pieces.extend(text.get(start..at).map(str::trim));
                start = at + 1;
            }
            _ => {}
        }
    }
    pieces.extend(text.get(start..).map(str::trim));
    pieces.retain(|piece| !piece.is_empty());
    pieces
}

/// The sentences of a text, with what ends them.
pub(super) fn sentences(text: &str) -> impl Iterator<Item = &str> {
    // `1.5 h` and `approx.` are told from an end by what follows.
    let mut rest = text;
    std::iter::from_fn(move || {
        let mut ends = rest.match_indices(['.', ';', '!', ',']);
        // `cool 30 min, keeps 4 days` says two things.
        let is_end = |(at, mark): &(usize, &str)| {
            let begins = if *mark == "," { " keeps " } else { " " };
            rest.get(at + 1..).is_some_and(|after| after.starts_with(begins))
        };
        let end = ends.find(is_end).map(|(at, _)| at + 1);
        let (sentence, after) = rest.split_at_checked(end.unwrap_or(rest.len()))?;
        rest = after;
        (!sentence.is_empty()).then_some(sentence)
    })
}
