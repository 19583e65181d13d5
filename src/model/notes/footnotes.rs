//! Footnotes of notes: `250 g flour*`, and below it `* or 200 g flour and 50 g almonds`. They say something of a line, and list nothing.

/// Marks of footnotes.
const MARKS: [&str; 9] = ["****", "***", "**", "*", "\u{2020}\u{2020}", "\u{2020}", "\u{2021}", "\u{b9}", "\u{b2}"];

/// A footnote: where it stands, and the line that refers to it.
pub(super) type Footnote = (usize, String);

/// The footnotes among some lines, and the lines without the marks that refer to them.
///
/// A mark of which a list makes its bullets is none: it begins several lines. A mark stands behind a word of another line.
pub(super) fn of(lines: &mut [String]) -> Vec<Footnote> {
    let mut found = Vec::new();
    for mark in MARKS {
        let begins: Vec<usize> =
            lines.iter().enumerate().filter(|(_, line)| begins_with(line, mark)).map(|(at, _)| at).collect();
        let [note] = begins.as_slice() else { continue };
        let refers: Vec<usize> = (0..lines.len())
            .filter(|at| at != note && lines.get(*at).is_some_and(|line| behind_a_word(line, mark).is_some()))
            .collect();
        let Some(first) = refers.first() else { continue };
        let of = lines.get(*first).map(|line| without(line, mark)).unwrap_or_default();
        found.push((*note, of));
        for at in refers {
            if let Some(line) = lines.get_mut(at) {
                *line = without(line, mark);
            }
        }
    }
    found
}

/// Whether a line begins with this mark and no longer one, with words behind it.
fn begins_with(line: &str, mark: &str) -> bool {
    line.trim().strip_prefix(mark).is_some_and(|rest| {
        let emphasis = mark.starts_with('*') && rest.trim_end().ends_with('*');
        rest.starts_with(|c: char| c == ' ' || c.is_alphanumeric()) && !emphasis
    })
}

/// Where in a line this mark, and no longer one, stands behind a word.
fn behind_a_word(line: &str, mark: &str) -> Option<usize> {
    line.match_indices(mark).map(|(at, _)| at).find(|at| {
        let before = line.get(..*at).and_then(|before| before.chars().next_back());
        let behind = line.get(at + mark.len()..).and_then(|behind| behind.chars().next());
        // `m²`, and `2 * 3`.
        let of_a_word = before.is_some_and(|c| c.is_alphanumeric() || matches!(c, ')' | '.' | '%'));
        let ends = behind.is_none_or(|c| matches!(c, ' ' | ',' | '.' | ';' | ':' | ')'));
        let emphasis = mark.starts_with('*') && line.get(..*at).is_some_and(|before| before.contains('*'));
        of_a_word && ends && !emphasis
    })
}

fn without(line: &str, mark: &str) -> String {
    match behind_a_word(line, mark) {
        Some(at) => {
            format!("{}{}", line.get(..at).unwrap_or_default(), line.get(at + mark.len()..).unwrap_or_default())
        }
        None => line.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::of;

    #[test]
    fn a_mark_behind_a_word_and_once_before_a_line_is_a_footnote() {
        let read = |text: &str| {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            (of(&mut lines), lines)
        };
        let (notes, lines) = read("250 g flour*\n150 g sugar**\n* or rye\n** 120 g if the apples are sweet");
        assert_eq!(notes, [(3, "150 g sugar".to_owned()), (2, "250 g flour".to_owned())]);
        assert_eq!(lines.first().map(String::as_str), Some("250 g flour"));
        for text in ["* 250 g flour*\n* 20 g salt", "*Choc chip cookies*\n200 g flour", "**Rye** bread\n** 500 g"] {
            assert!(read(text).0.is_empty(), "{text}");
        }
    }
}
