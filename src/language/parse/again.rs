//! Reads a text again after an edit: only the lines that changed, and those below whose place in a step may be another.

use super::lines::RawLine;
use super::reader::Reader;
use super::{OpenText, bakes, file_kind, lines, read_line, stray};
use crate::language::syntax::{FileKind, Line, Spans, Tree};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;
use rayon::prelude::*;
use std::sync::Arc;

/// A text as it was read, with what is needed to read the next one faster.
#[derive(Debug, Clone)]
pub struct Reading {
    /// All its lines.
    pub tree: Arc<Tree>,
    /// What was wrong, in the order of their places.
    pub problems: Vec<Diagnostic>,
    /// What the lines alone have wrong.
    line_problems: Vec<Diagnostic>,
    /// How many of those stand before the end of each line.
    counts: Vec<usize>,
    /// The step or note that was open before each line, and behind the last one.
    open: Vec<Option<OpenText>>,
}

/// Lines being read; what they hold is said at [`Reading`].
struct Lines {
    lines: Vec<Line>,
    problems: Vec<Diagnostic>,
    counts: Vec<usize>,
    open: Vec<Option<OpenText>>,
}

/// So many lines are worth a thread of their own.
const STRETCH: usize = 1_000;

impl Reading {
    /// Reads a text from its start.
    pub fn of(source: SourceId, text: &str) -> Reading {
        Reading::read(source, text, None)
    }

    /// Reads the text that `old_text`, which this reading is of, has become. The same as reading it from its start.
    #[must_use]
    pub fn again(&self, old_text: &str, text: &str) -> Reading {
        Reading::read(self.tree.source, text, Some((self, old_text)))
    }

    fn read(source: SourceId, text: &str, old: Option<(&Reading, &str)>) -> Reading {
        let mut problems = Vec::new();
        let raw_lines = lines::split(source, text, &mut problems);
        let kind = file_kind(&raw_lines, text);
        let file = (source, text, kind);
        let sheet = match old.filter(|(reading, _)| reading.tree.kind == kind) {
            Some((reading, old_text)) => Lines::again(file, &raw_lines, reading, old_text),
            None => Lines::afresh(file, &raw_lines),
        };
        let tree = Tree { source, kind, lines: sheet.lines };
        problems.extend(sheet.problems.iter().cloned());
        if kind == FileKind::Bakes {
            bakes::check_shape(&tree, text, &mut problems);
        } else {
            stray::check_head(&tree, text, &mut problems);
        }
        problems.sort_by_key(|problem| problem.span);
        Reading {
            tree: Arc::new(tree),
            problems,
            line_problems: sheet.problems,
            counts: sheet.counts,
            open: sheet.open,
        }
    }
}

/// A file whose lines are read: its number, its text, and what it is about.
type Text<'t> = (SourceId, &'t str, FileKind);

impl Lines {
    /// Reads all lines, in long files stretch by stretch on all cores.
    fn afresh(file: Text<'_>, raw_lines: &[RawLine]) -> Lines {
        let stretches = stretches(raw_lines);
        if let [_] | [] = stretches.as_slice() {
            return Lines::of_stretch(file, raw_lines);
        }
        let read: Vec<Lines> = stretches.into_par_iter().map(|stretch| Lines::of_stretch(file, stretch)).collect();
        let mut all = Lines::with_room_for(raw_lines.len());
        for mut next in read {
            let first = all.problems.len();
            all.lines.append(&mut next.lines);
            all.problems.append(&mut next.problems);
            all.counts.extend(next.counts.iter().map(|count| count + first));
            // What was open behind the last line is open before the next one.
            let skipped = usize::from(!all.open.is_empty());
            all.open.extend(next.open.into_iter().skip(skipped));
        }
        all
    }

    fn of_stretch(file: Text<'_>, raw_lines: &[RawLine]) -> Lines {
        let mut sheet = Lines::with_room_for(raw_lines.len());
        let mut reader = Reader::new(file.0, file.1, file.2);
        let mut open = None;
        for raw in raw_lines {
            sheet.read(&mut reader, raw, &mut open);
        }
        sheet.open.push(open);
        sheet
    }

    /// Reads the lines that changed, and takes the others from an older reading.
    fn again(file: Text<'_>, raw_lines: &[RawLine], reading: &Reading, old_text: &str) -> Lines {
        let mut sheet = Lines::with_room_for(raw_lines.len());
        let starts: Vec<usize> = raw_lines.iter().map(|raw| raw.span.range().start).collect();
        let kept = Kept::of(reading, old_text, file.1, &starts);
        sheet.take(reading, 0, kept.above, 0);
        let mut reader = Reader::new(file.0, file.1, file.2);
        let mut open = reading.open.get(kept.above).copied().flatten();
        for (at, raw) in raw_lines.iter().enumerate().skip(kept.above) {
            if at >= kept.below {
                let old_at = at + reading.tree.lines.len() - raw_lines.len();
                if reading.open.get(old_at).copied().flatten() == open {
                    sheet.take(reading, old_at, reading.tree.lines.len(), kept.moved_by);
                    open = reading.open.last().copied().flatten();
                    break;
                }
            }
            sheet.read(&mut reader, raw, &mut open);
        }
        sheet.open.push(open);
        sheet
    }

    fn read(&mut self, reader: &mut Reader<'_>, raw: &RawLine, open: &mut Option<OpenText>) {
        self.open.push(*open);
        self.lines.push(read_line(reader, raw, open));
        reader.finish(&mut self.problems);
        self.counts.push(self.problems.len());
    }

    fn with_room_for(lines: usize) -> Lines {
        Lines {
            lines: Vec::with_capacity(lines),
            problems: Vec::new(),
            counts: Vec::with_capacity(lines),
            open: Vec::with_capacity(lines + 1),
        }
    }

    /// Takes lines from an older reading, moved by so many bytes.
    fn take(&mut self, old: &Reading, from: usize, to: usize, by: i64) {
        let before = |line: usize| line.checked_sub(1).and_then(|above| old.counts.get(above)).copied().unwrap_or(0);
        let first = self.problems.len();
        let skipped = before(from);
        for line in old.tree.lines.get(from..to).unwrap_or_default() {
            let mut line = line.clone();
            if by != 0 {
                line.moved(by);
            }
            self.lines.push(line);
        }
        for problem in old.line_problems.get(skipped..before(to)).unwrap_or_default() {
            let mut problem = problem.clone();
            problem.moved(by);
            self.problems.push(problem);
        }
        self.counts.extend(old.counts.get(from..to).unwrap_or_default().iter().map(|count| count + first - skipped));
        self.open.extend(old.open.get(from..to).unwrap_or_default());
    }
}

/// Cuts lines where nothing from above goes on: before a line that is not indented and says something.
fn stretches(raw_lines: &[RawLine]) -> Vec<&[RawLine]> {
    let (mut all, mut rest) = (Vec::new(), raw_lines);
    while let Some(behind) = rest.get(STRETCH..).filter(|behind| !behind.is_empty()) {
        let begins = |raw: &RawLine| raw.indent == 0 && raw.said.start < raw.said.end;
        let (stretch, next) = rest.split_at(STRETCH + behind.iter().position(begins).unwrap_or(behind.len()));
        all.push(stretch);
        rest = next;
    }
    all.push(rest);
    all
}

/// Which lines of a new text stood in the old one.
#[derive(Debug, Clone, Copy)]
struct Kept {
    /// So many from the first on.
    above: usize,
    /// From this one to the last.
    below: usize,
    /// By how many bytes those have moved.
    moved_by: i64,
}

impl Kept {
    fn of(old: &Reading, old_text: &str, text: &str, starts: &[usize]) -> Kept {
        let same = old_text.bytes().zip(text.bytes()).take_while(|(old, new)| old == new).count();
        let most = old_text.len().min(text.len()) - same;
        let old_end = old_text.bytes().rev().zip(text.bytes().rev());
        let same_end = old_end.take(most).take_while(|(old, new)| old == new).count();
        // A line is the same when its line break is, too: when the next one begins in what is the same.
        let above = starts.iter().skip(1).take_while(|start| **start <= same).count().min(old.tree.lines.len());
        // And when the line break before it is.
        let changed_end = text.len() - same_end;
        let first_below = starts.partition_point(|start| *start <= changed_end).max(above);
        let count = (starts.len() - first_below).min(old.tree.lines.len() - above);
        let moved_by = i64::try_from(text.len()).unwrap_or(0) - i64::try_from(old_text.len()).unwrap_or(0);
        Kept { above, below: starts.len() - count, moved_by }
    }
}
