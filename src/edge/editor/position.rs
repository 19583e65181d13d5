//! Lines and columns, the one place where they meet byte offsets: columns count bytes or UTF-16 units from 0.

use crate::text::line_break;

/// In which units the editor counts columns, agreed on at the start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 units, what an editor counts in if it says nothing.
    Utf16,
}

/// A place as the editor counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Point {
    /// Line, from 0.
    pub line: u32,
    /// Column, from 0.
    pub column: u32,
}

/// The lines of a text.
#[derive(Debug, Clone)]
pub struct LineStarts {
    starts: Vec<usize>,
}

impl LineStarts {
    /// Finds the lines. They end where the editor ends them: at LF, at CRLF, and at a CR by itself.
    pub fn of(text: &str) -> LineStarts {
        LineStarts { starts: line_break::starts(text).collect() }
    }

    /// Where a byte offset is. One inside a character counts as its start, one behind the text as its end.
    pub fn point(&self, text: &str, offset: usize, encoding: Encoding) -> Point {
        let mut offset = offset.min(text.len());
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.starts.partition_point(|start| *start <= offset).max(1) - 1;
        let start = self.starts.get(line).copied().unwrap_or(0);
        let before = text.get(start..offset).unwrap_or("");
        let column = match encoding {
            Encoding::Utf8 => before.len(),
            Encoding::Utf16 => before.encode_utf16().count(),
        };
        Point { line: narrow(line), column: narrow(column) }
    }

    /// The byte offset of a place. A column behind the end of its line is the end, one inside a character its start.
    pub fn offset(&self, text: &str, point: Point, encoding: Encoding) -> usize {
        let line = point.line as usize;
        let Some(start) = self.starts.get(line).copied() else { return text.len() };
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        let words = text.get(start..end).unwrap_or("").trim_end_matches(['\n', '\r']);
        let mut left = point.column as usize;
        for (at, character) in words.char_indices() {
            let width = match encoding {
                Encoding::Utf8 => character.len_utf8(),
                Encoding::Utf16 => character.len_utf16(),
            };
            if left < width {
                return start + at;
            }
            left -= width;
        }
        start + words.len()
    }
}

/// Offsets and lines of any text that is read fit.
fn narrow(value: usize) -> u32 {
    u32::try_from(value).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "crème 🥐 e\u{301}x\r\n½ kg\n\nend";

    #[test]
    fn every_character_has_its_place_in_both_units() {
        let line_starts = LineStarts::of(TEXT);
        for encoding in [Encoding::Utf8, Encoding::Utf16] {
            for (offset, character) in TEXT.char_indices() {
                if character == '\r' || character == '\n' {
                    continue;
                }
                let point = line_starts.point(TEXT, offset, encoding);
                assert_eq!(line_starts.offset(TEXT, point, encoding), offset, "{character:?} {encoding:?}");
            }
        }
        let x = TEXT.find('x').expect("x is there");
        // c r è m e, blank, a pair of surrogates, blank, e and its accent: ten units in eleven places.
        assert_eq!(line_starts.point(TEXT, x, Encoding::Utf16), Point { line: 0, column: 11 });
        assert_eq!(line_starts.point(TEXT, x, Encoding::Utf8), Point { line: 0, column: 15 });
        assert_eq!(line_starts.point(TEXT, TEXT.len(), Encoding::Utf16), Point { line: 3, column: 3 });
    }

    #[test]
    fn places_that_are_none_are_brought_inside() {
        let line_starts = LineStarts::of(TEXT);
        let end_of_first = TEXT.find('\r').expect("there is one");
        assert_eq!(line_starts.offset(TEXT, Point { line: 0, column: 999 }, Encoding::Utf16), end_of_first);
        assert_eq!(line_starts.offset(TEXT, Point { line: 99, column: 0 }, Encoding::Utf16), TEXT.len());
        let croissant = TEXT.find('🥐').expect("it is there");
        assert_eq!(line_starts.offset(TEXT, Point { line: 0, column: 7 }, Encoding::Utf16), croissant);
        assert_eq!(
            line_starts.point(TEXT, croissant + 2, Encoding::Utf8),
            line_starts.point(TEXT, croissant, Encoding::Utf8)
        );
        assert_eq!(LineStarts::of("").offset("", Point { line: 0, column: 4 }, Encoding::Utf8), 0);
    }
}
