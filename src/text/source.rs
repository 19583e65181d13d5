//! Named texts and places in them.

use crate::text::line_break;
use std::sync::{Arc, OnceLock};

/// Which text a place is in: an index into [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(pub u32);

/// A stretch of bytes in one text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The text.
    pub source: SourceId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A stretch of `source`.
    pub fn new(source: SourceId, start: usize, end: usize) -> Span {
        // Texts are limited to 8 MiB when they are read, so their offsets always fit.
        let narrow = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
        Span { source, start: narrow(start), end: narrow(end) }
    }

    /// The empty place just after this stretch.
    pub fn after(self) -> Span {
        Span { start: self.end, ..self }
    }

    /// The empty place just before this stretch.
    pub fn before(self) -> Span {
        Span { end: self.start, ..self }
    }

    /// The stretch from the start of this one to the end of `other`.
    pub fn to(self, other: Span) -> Span {
        Span { end: other.end, ..self }
    }

    /// The bytes as a range for slicing.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// A value and where it was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Spanned<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Pairs a value with its place.
    pub fn new(value: T, span: Span) -> Spanned<T> {
        Spanned { value, span }
    }
}

/// One text with its name and an index of its lines.
#[derive(Debug, Clone)]
pub struct Source {
    /// The name shown to people: the path as it was given.
    pub name: String,
    /// The whole text.
    pub text: Arc<str>,
    /// Looked for when something is first told of a place in the text: of most texts nothing is.
    line_starts: OnceLock<Vec<u32>>,
}

/// A place as people count it: line and column from 1, columns in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl Source {
    /// A text under its name.
    pub fn new(name: impl Into<String>, text: impl Into<Arc<str>>) -> Source {
        Source { name: name.into(), text: text.into(), line_starts: OnceLock::new() }
    }

    fn line_starts(&self) -> &[u32] {
        let offset = |start| u32::try_from(start).unwrap_or(u32::MAX);
        self.line_starts.get_or_init(|| line_break::starts(&self.text).map(offset).collect())
    }

    /// In which line a byte offset is, from 1.
    pub fn line(&self, offset: u32) -> usize {
        self.line_starts().partition_point(|start| *start <= offset).max(1)
    }

    /// Where a byte offset is, as people count.
    pub fn position(&self, offset: u32) -> Position {
        let line = self.line(offset);
        let start = self.line_starts().get(line - 1).copied().unwrap_or(0) as usize;
        let end = (offset as usize).min(self.text.len());
        let column = self.text.get(start..end).map_or(0, |before| before.chars().count()) + 1;
        Position { line, column }
    }

    /// The text of a place; empty when the place is not in this text.
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(span.range()).unwrap_or("")
    }
}

/// All texts of one run of the program.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    /// Shared, because an editor takes stock of all texts at every key.
    list: Vec<Arc<Source>>,
}

impl Sources {
    /// Takes a text in and gives it its number.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) -> SourceId {
        let id = SourceId(u32::try_from(self.list.len()).unwrap_or(u32::MAX));
        self.list.push(Arc::new(Source::new(name, text)));
        id
    }

    /// Puts a newer text in the place of the one of that number, under the same name.
    pub fn replace(&mut self, id: SourceId, text: impl Into<Arc<str>>) {
        if let Some(slot) = self.list.get_mut(id.0 as usize) {
            *slot = Arc::new(Source::new(slot.name.clone(), text));
        }
    }

    /// The text of that number.
    pub fn get(&self, id: SourceId) -> Option<&Source> {
        self.list.get(id.0 as usize).map(|source| &**source)
    }

    /// The words at a place; empty when there is no such place.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.source).map_or("", |source| source.slice(span))
    }

    /// All texts in the order they were taken in.
    pub fn iter(&self) -> impl Iterator<Item = (SourceId, &Source)> {
        (0..).map(SourceId).zip(self.list.iter().map(|source| &**source))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let source = Source::new("a", "crème\n½ 🥐 x");
        let x = u32::try_from(source.text.find('x').expect("x is there")).expect("small");
        assert_eq!(source.position(x), Position { line: 2, column: 5 });
        assert_eq!(source.position(0), Position { line: 1, column: 1 });
    }
}
