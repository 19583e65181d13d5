//! What every part of the parser needs: the text, where a pair stands in it, and where problems go.

use super::{LineParser, Rule};
use crate::language::syntax::{FileKind, Name};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use pest::Parser;
use pest::error::InputLocation;
use pest::iterators::Pair;

/// So many problems of one line are kept; nobody reads more of them, and each is shown with the whole line.
pub(crate) const MOST_IN_LINE: usize = 20;

/// Reads lines of one file.
pub(super) struct Reader<'t, 'd> {
    source: SourceId,
    text: &'t str,
    /// What the file is about.
    pub kind: FileKind,
    diagnostics: &'d mut Vec<Diagnostic>,
    /// How many problems of the line were only counted.
    counted: usize,
    /// Where the line being read starts.
    base: usize,
}

impl<'t, 'd> Reader<'t, 'd> {
    pub(super) fn new(source: SourceId, text: &'t str, kind: FileKind, diagnostics: &'d mut Vec<Diagnostic>) -> Self {
        Reader { source, text, kind, diagnostics, counted: 0, base: 0 }
    }

    /// Reports a problem of the line; of too many the rest is counted, and an error is not lost among warnings.
    pub(super) fn report(&mut self, diagnostic: Diagnostic) {
        if self.diagnostics.len() < MOST_IN_LINE {
            self.diagnostics.push(diagnostic);
            return;
        }
        self.counted += 1;
        if let Some(last) = self.diagnostics.last_mut().filter(|last| diagnostic.severity < last.severity) {
            *last = diagnostic;
        }
    }

    /// Says of the last problem how many more there are. To be called once the line is read.
    pub(super) fn finish(self) {
        if let Some(last) = self.diagnostics.last_mut().filter(|_| self.counted > 0) {
            last.message.push_str(&format!(" (and {} more problems in this line)", self.counted));
        }
    }

    pub(super) fn slice(&self, span: Span) -> &'t str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// Parses one stretch by one rule and gives what stands inside the rule; on failure, how far reading came.
    pub(super) fn parse(
        &mut self,
        rule: Rule,
        said: Span,
    ) -> Result<impl Iterator<Item = Pair<'t, Rule>> + use<'t>, usize> {
        self.base = said.start as usize;
        match LineParser::parse(rule, self.slice(said)) {
            Ok(pairs) => Ok(pairs.flat_map(Pair::into_inner).filter(|pair| pair.as_rule() != Rule::EOI)),
            Err(error) => Err(match error.location {
                InputLocation::Pos(at) | InputLocation::Span((at, _)) => self.base + at,
            }),
        }
    }

    /// Where a pair stands in the file.
    pub(super) fn span(&self, pair: &Pair<'_, Rule>) -> Span {
        let span = pair.as_span();
        // Rules that end in optional blanks must not underline them.
        let length = span.as_str().trim_end().len();
        Span::new(self.source, self.base + span.start(), self.base + span.start() + length)
    }

    pub(super) fn name(&self, pair: &Pair<'_, Rule>) -> Name {
        Name::new(pair.as_str(), self.span(pair))
    }
}

/// Long junk is quoted by its beginning only.
pub(super) fn shortened(text: &str) -> String {
    if text.chars().count() <= 40 {
        return text.to_owned();
    }
    let start: String = text.chars().take(36).collect();
    format!("{start}…")
}

/// The text between quotation marks.
pub(super) fn string(reader: &Reader<'_, '_>, pair: Pair<'_, Rule>) -> Spanned<String> {
    let span = reader.span(&pair);
    let text = pair.into_inner().next().map_or_else(String::new, |inner| inner.as_str().to_owned());
    Spanned::new(text, span)
}
