//! Lines that are longer than a screen is wide, broken between words: a terminal breaks them within words.

use super::unbroken;
use unicode_width::UnicodeWidthStr;

/// How far what is broken off is set in behind its line's own beginning.
const SET_IN: usize = 2;

/// A text of which no line is wider than the screen, as far as its words let that be. A figure stays with its unit.
pub fn fold(text: &str, width: usize) -> String {
    let mut out = String::with_capacity(text.len());
    for (at, line) in text.split('\n').enumerate() {
        if at > 0 {
            out.push('\n');
        }
        if seen_width(line) <= width { out.push_str(line) } else { fold_line(&mut out, line, width) }
    }
    out
}

fn fold_line(out: &mut String, line: &str, width: usize) {
    let body = line.trim_start_matches(' ');
    let indent = line.len() - body.len();
    let others = (indent + SET_IN).min(width / 2);
    out.push_str(&" ".repeat(indent));
    let mut used = indent;
    let mut is_first = true;
    for word in unbroken(body) {
        let wide = seen_width(&word);
        if !is_first && used + 1 + wide > width {
            out.truncate(out.trim_end_matches(' ').len());
            out.push('\n');
            out.push_str(&" ".repeat(others));
            used = others;
            is_first = true;
            // The room that stood between two columns is not carried over.
            if word.is_empty() {
                continue;
            }
        }
        if is_first && word.is_empty() && used == others {
            continue;
        }
        if !is_first {
            out.push(' ');
            used += 1;
        }
        out.push_str(&word);
        used += wide;
        is_first = false;
    }
}

/// How wide words are on a screen, without what only colours them.
fn seen_width(text: &str) -> usize {
    let mut pieces = text.split('\u{1b}');
    let first = pieces.next().map_or(0, UnicodeWidthStr::width);
    // A colour ends with `m`.
    first + pieces.map(|piece| piece.split_once('m').map_or(piece, |(_, words)| words).width()).sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_word_is_broken_and_no_figure_from_its_unit() {
        let long = "Net weight of the batch: 4000 g. Weigh a piece before and after, and say it behind `makes`.";
        let folded = fold(long, 40);
        assert!(folded.lines().all(|line| line.width() <= 40), "{folded}");
        assert_eq!(folded.split_whitespace().collect::<Vec<_>>(), long.split_whitespace().collect::<Vec<_>>());
        assert_eq!(fold("put all of the 400 g of it", 18), "put all of the\n  400 g of it");
        assert_eq!(fold("    set in and too long", 14), "    set in and\n      too long");
    }

    #[test]
    fn what_fits_stays_and_a_long_word_stands_whole() {
        assert_eq!(fold("short\n\n  rows   kept", 20), "short\n\n  rows   kept");
        assert_eq!(
            fold("see https://example.org/a/long/address now", 12),
            "see\n  https://example.org/a/long/address\n  now"
        );
    }

    #[test]
    fn colours_take_no_room() {
        let red = "\u{1b}[31mraw egg\u{1b}[0m";
        assert_eq!(fold(red, 7), red);
    }
}
