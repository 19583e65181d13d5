//! What every part of the parser needs: the text, where a pair stands in it, and where problems go.

use super::pairs::{Pair, Room, Sheet};
use super::{LineParser, Rule, plain};
use crate::language::syntax::{FileKind, Name};
use crate::measure::noun::so_many;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use pest::Parser;
use pest::error::InputLocation;

/// So many problems of one line are kept; nobody reads more of them, and each is shown with the whole line.
pub(crate) const MOST_IN_LINE: usize = 20;

/// Reads lines of one file.
pub(super) struct Reader<'t> {
    source: SourceId,
    text: &'t str,
    /// What the file is about.
    pub kind: FileKind,
    /// The problems of the line that is being read.
    diagnostics: Vec<Diagnostic>,
    /// How many problems of the line were only counted.
    counted: usize,
    /// Room for what is read of the next line.
    room: Room,
}

impl<'t> Reader<'t> {
    pub(super) fn new(source: SourceId, text: &'t str, kind: FileKind) -> Self {
        Reader { source, text, kind, diagnostics: Vec::new(), counted: 0, room: Room::default() }
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

    /// Gives the problems of the line once it is read; the last of them says how many more there are.
    pub(super) fn finish(&mut self, problems: &mut Vec<Diagnostic>) {
        let counted = std::mem::take(&mut self.counted);
        if let Some(last) = self.diagnostics.last_mut().filter(|_| counted > 0) {
            last.message.push_str(&format!(" (and {} in this line)", so_many(counted, "more problems")));
        }
        problems.append(&mut self.diagnostics);
    }

    pub(super) fn slice(&self, span: Span) -> &'t str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// Parses one stretch by one rule and gives what stands inside the rule; on failure, how far reading came.
    pub(super) fn parse(&mut self, rule: Rule, said: Span) -> Result<Sheet<'t>, usize> {
        let mut sheet = Sheet::new(self.text, std::mem::take(&mut self.room));
        if plain::read(rule, self.text, said, &mut sheet) {
            debug_assert_eq!(self.parse_by_pest(rule, said).map(|by_pest| by_pest.difference(&sheet)), Ok(None));
            return Ok(sheet);
        }
        self.parse_by_pest(rule, said)
    }

    /// Takes the room of what was read and is understood, for the next line.
    pub(super) fn reuse(&mut self, sheet: Sheet<'_>) {
        self.room = sheet.into_room();
    }

    /// The same by the grammar, whatever the line.
    pub(super) fn parse_by_pest(&self, rule: Rule, said: Span) -> Result<Sheet<'t>, usize> {
        let base = said.start as usize;
        let mut sheet = Sheet::new(self.text, Room::default());
        match LineParser::parse(rule, self.slice(said)) {
            Ok(pairs) => pairs.flat_map(|pair| pair.into_inner()).for_each(|pair| sheet.take(pair, base)),
            Err(error) => {
                return Err(match error.location {
                    InputLocation::Pos(at) | InputLocation::Span((at, _)) => base + at,
                });
            }
        }
        Ok(sheet)
    }

    /// Where a pair stands in the file.
    pub(super) fn span(&self, pair: &Pair<'_>) -> Span {
        let (start, end) = pair.places();
        let whole = Span { source: self.source, start, end };
        let last = (end as usize).checked_sub(1).and_then(|last| self.text.as_bytes().get(last));
        if last.is_some_and(u8::is_ascii_graphic) {
            return whole;
        }
        // Rules that end in optional blanks must not underline them.
        let text = pair.as_str();
        let said = text.trim_ascii_end();
        // Other blanks than those of ASCII are rare, and take ten times as long to see.
        let said = if said.as_bytes().last().is_some_and(u8::is_ascii_graphic) { said } else { said.trim_end() };
        let blanks = text.len() - said.len();
        Span { end: end.saturating_sub(u32::try_from(blanks).unwrap_or(0)), ..whole }
    }

    pub(super) fn name(&self, pair: &Pair<'_>) -> Name {
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
pub(super) fn string(reader: &Reader<'_>, pair: Pair<'_>) -> Spanned<String> {
    let span = reader.span(&pair);
    let text = pair.into_inner().next().map_or_else(String::new, |inner| inner.as_str().to_owned());
    Spanned::new(text, span)
}

#[cfg(test)]
mod tests {
    //! A plain line is read by pest in the same way, and most lines are plain.

    use super::super::lines;
    use super::*;
    use std::path::{Path, PathBuf};

    /// Every rule that is tried, on every line: which one a line is read by is not for this test to know.
    const RULES: [Rule; 32] = [
        Rule::ingredient_line,
        Rule::step_line,
        Rule::text_line,
        Rule::sale_line,
        Rule::titled_line,
        Rule::part_line,
        Rule::percent_line,
        Rule::per_piece_line,
        Rule::divide_line,
        Rule::makes_line,
        Rule::keeps_line,
        Rule::spare_line,
        Rule::desired_line,
        Rule::best_line,
        Rule::serving_line,
        Rule::use_line,
        Rule::picture_line,
        Rule::author_line,
        Rule::filed_line,
        Rule::choose_line,
        Rule::fact_line,
        Rule::trace_line,
        Rule::energy_line,
        Rule::nitrogen_line,
        Rule::one_weighs_line,
        Rule::weighs_line,
        Rule::costs_line,
        Rule::flag_line,
        Rule::is_line,
        Rule::names_line,
        Rule::free_line,
        Rule::prose_line,
    ];

    /// All files of the language in a folder and below it.
    fn files(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(folder).expect("the folder is there") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                files(&path, found);
            } else if path.extension().is_some_and(|extension| extension == "miche") {
                found.push(path);
            }
        }
    }

    /// Every line of the examples, of the larder and of all files of the tests, without comment and indentation, each once.
    fn all_lines() -> Vec<String> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut paths = Vec::new();
        files(&root.join("examples"), &mut paths);
        files(&root.join("tests"), &mut paths);
        files(&root.join("src/model/larder"), &mut paths);
        let mut said = std::collections::BTreeSet::new();
        for path in paths {
            let Ok(text) = std::fs::read_to_string(path) else { continue };
            for line in lines::split(SourceId(0), &text, &mut Vec::new()) {
                said.insert(text.get(line.said.range()).unwrap_or("").to_owned());
            }
        }
        assert!(said.len() > 3_000, "only {} lines were found", said.len());
        said.into_iter().collect()
    }

    /// Reads a line by all rules in both ways; how many of them it is plain for.
    fn read_by_all(line: &str) -> usize {
        let said = Span::new(SourceId(0), 0, line.len());
        let reader = Reader::new(SourceId(0), line, FileKind::Recipe);
        let mut plain = 0;
        for rule in RULES {
            let mut sheet = Sheet::new(line, Room::default());
            if plain::read(rule, line, said, &mut sheet) {
                plain += 1;
                let by_pest = reader.parse_by_pest(rule, said).map(|by_pest| by_pest.difference(&sheet));
                assert_eq!(by_pest, Ok(None), "{rule:?} of `{line}`");
            } else {
                assert!(sheet.pairs().next().is_none(), "what was begun is not taken back: {rule:?} of `{line}`");
            }
        }
        plain
    }

    #[test]
    fn every_line_of_all_files_is_read_as_pest_reads_it() {
        let plain = all_lines().iter().filter(|line| read_by_all(line) > 1).count();
        assert!(plain > 1_500, "only {plain} lines are plain");
    }

    /// Pieces that mean something, put in and taken out at every place of a line.
    const PIECES: [&str; 40] = [
        "",
        " ",
        "  ",
        "\t",
        "\u{a0}",
        "\u{200b}",
        ".",
        "..",
        "…",
        ":",
        ",",
        "{",
        "}",
        "[",
        "]",
        "[a, b]",
        "#",
        "=",
        "\"",
        "\\",
        "-",
        "–",
        "−",
        "/",
        "e5",
        "1,5",
        "½",
        "7",
        "%",
        " of ",
        " at ",
        " or ",
        " and ",
        "half ",
        "rest of ",
        "é",
        "fl oz",
        "\u{0}",
        " at -18 C",
        ", using freezer at -18 C",
    ];

    #[test]
    fn changed_lines_are_read_as_pest_reads_them() {
        let mut state = 1_u64;
        let mut below = |most: usize| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(state >> 33).unwrap_or(0) % most.max(1)
        };
        let lines: Vec<String> = all_lines().into_iter().filter(|line| read_by_all(line) > 1).collect();
        let mut plain = 0;
        for line in &lines {
            for _ in 0..12 {
                let mut characters: Vec<char> = line.chars().collect();
                for _ in 0..=below(3) {
                    let at = below(characters.len() + 1);
                    let until = (at + below(3)).min(characters.len());
                    let piece = PIECES.get(below(PIECES.len())).copied().unwrap_or("");
                    characters.splice(at..until, piece.chars());
                }
                let changed: String = characters.into_iter().collect();
                plain += usize::from(read_by_all(changed.trim()) > 1);
            }
        }
        assert!(plain > 1_000, "only {plain} changed lines are plain");
    }
}
