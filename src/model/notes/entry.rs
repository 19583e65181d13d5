//! What is written into the file of what was read: lines with the words that they come from, marked where they are guessed.

use crate::language::mend;
use crate::language::parse::parse;
use crate::language::syntax::Content;
use crate::text::diagnostic::{Mend, Severity};
use crate::text::source::SourceId;

/// The mark of what a person has to look at.
pub(super) const LOOK: &str = "# look";
/// So many times a text is read again to see which of its lines the language takes.
const MOST_ROUNDS: usize = 20;
/// Where a short line's comment begins.
const COMMENT_COLUMN: usize = 56;

/// Some lines that belong together, and the words of the notes that they come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Item {
    pub(super) lines: Vec<String>,
    pub(super) origin: String,
    pub(super) look: Option<String>,
    /// Whether the language took it so far.
    pub(super) taken: bool,
}

impl Item {
    /// A line, the words that it comes from, and what was guessed.
    pub(super) fn new(line: impl Into<String>, origin: &str, look: Option<String>) -> Item {
        Item { lines: vec![line.into()], origin: origin.to_owned(), look, taken: true }
    }

    /// Words that are a comment; with a reason it is one to look at.
    pub(super) fn remark(text: &str, why: Option<&str>) -> Item {
        match why {
            Some(why) => Item { taken: false, ..Item::new("", text, Some(why.to_owned())) },
            None => Item::new(format!("# {text}"), "", None),
        }
    }

    /// The lines as they are written.
    fn written(&self) -> Vec<String> {
        let why = self.look.as_deref().map(|why| format!("{LOOK} ({why})"));
        if !self.taken {
            let why = self.look.as_deref().unwrap_or("not understood");
            return vec![format!("{LOOK} ({why}): {}", self.origin)];
        }
        match (self.lines.as_slice(), why) {
            (lines, None) => lines.to_vec(),
            ([one], Some(why)) if !one.starts_with("note ") => {
                let gap = COMMENT_COLUMN.saturating_sub(one.chars().count()).max(2);
                vec![format!("{one}{}{why}: {}", " ".repeat(gap), self.origin)]
            }
            // The words themselves stand below.
            (lines, Some(why)) => std::iter::once(why).chain(lines.iter().cloned()).collect(),
        }
    }
}

/// The items as text, of which what the language does not take is made a comment.
pub(super) fn readable(items: &mut [Item]) -> String {
    // Each round makes at least one item a comment, and comments are always taken.
    for round in 0.. {
        let mut text = String::new();
        let mut owners = Vec::new();
        for (owner, item) in items.iter().enumerate() {
            for line in item.written() {
                text.push_str(&line);
                text.push('\n');
                owners.push(owner);
            }
        }
        let (tree, problems) = parse(SourceId(0), &text);
        // Advice is for who reads the file; what it speaks of can be read.
        let problems: Vec<_> = problems.iter().filter(|problem| problem.severity != Severity::Advice).collect();
        let wrong = tree.lines.iter().zip(&owners).filter(|(line, _)| {
            matches!(line.content, Content::Stray)
                || problems.iter().any(|problem| (line.span.start..=line.span.end).contains(&problem.span.start))
        });
        let mut wrong: Vec<usize> = wrong.map(|(_, owner)| *owner).collect();
        wrong.retain(|owner| items.get(*owner).is_some_and(|item| item.taken));
        if wrong.is_empty() {
            return text;
        }
        // Where line after line depends on the one before, all that is left from there on is kept as words.
        let first = wrong.first().copied().unwrap_or(0);
        let all: Vec<usize> = if round < MOST_ROUNDS { wrong } else { (first..items.len()).collect() };
        for owner in all {
            if let Some(item) = items.get_mut(owner) {
                item.taken = item.lines.iter().all(String::is_empty);
            }
        }
    }
    String::new()
}

/// A text with its temperatures and lengths in braces, so that each reader gets them in the own units.
pub(super) fn in_braces(text: &str) -> String {
    let (_, problems) = parse(SourceId(0), text);
    let bare = problems.iter().filter(|problem| problem.check == "bare-measure");
    let mends: Vec<&Mend> = bare.filter_map(|problem| problem.mend.as_ref()).collect();
    mend::apply(text, &mends)
}

/// Whether the language takes a text for what it should be.
pub(super) fn is_read_as(text: &str, wanted: impl Fn(&Content) -> bool) -> bool {
    let (tree, problems) = parse(SourceId(0), &format!("{text}\n"));
    problems.is_empty() && tree.lines.iter().any(|line| wanted(&line.content))
}
