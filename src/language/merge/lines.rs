//! The lines of a text that is merged: what each says, what it is about, and under which heads it stands.

use crate::language::parse::parse;
use crate::language::syntax::{Content, Line, Tree};
use crate::text::composed::with_whole_letters;
use crate::text::source::SourceId;
use similar::DiffableStr;
use std::collections::HashMap;

/// How a line hangs together with the lines about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    /// An ingredient line: it stands for itself wherever it stands in its part.
    Ingredient,
    /// Another line that stands for itself: a key line, equipment, a fact of a larder.
    Fact,
    /// The head of a file, a part or a larder's ingredient: what stands below belongs to it.
    PartHead,
    /// The head of a step.
    StepHead,
    /// The first line of a note, caution or credit, whose text goes on below.
    TextHead,
    /// A line that goes on with a text.
    Prose,
    /// A line of a step's cue.
    Cue,
    /// A comment on a line of its own, which speaks of the line below.
    Comment,
    /// Nothing.
    Blank,
    /// A line that could not be read.
    Unread,
}

/// One line to be merged.
pub(super) struct TextLine<'t> {
    /// As it stands, with its line break.
    pub(super) raw: &'t str,
    /// What it says, without its layout.
    pub(super) said: String,
    pub(super) sort: Sort,
    /// What it is about, to find it again in another version.
    pub(super) key: String,
    /// The line of the head of its part.
    pub(super) part: Option<usize>,
    /// The line of the head of the step or text that it goes on with.
    pub(super) head: Option<usize>,
    /// Which line of the tree it is.
    pub(super) node: Option<usize>,
}

/// A text and its lines.
pub(super) struct Text<'t> {
    pub(super) lines: Vec<TextLine<'t>>,
    pub(super) tree: Tree,
    /// How often each key stands in it.
    times: HashMap<String, usize>,
}

impl<'t> Text<'t> {
    /// Reads a text. Its lines are cut as the plain merge cuts them.
    pub(super) fn of(text: &'t str) -> Text<'t> {
        let (tree, _) = parse(SourceId(0), text);
        let mut lines: Vec<TextLine<'t>> = Vec::new();
        let (mut part, mut head) = (None, None);
        let mut start = 0;
        for raw in text.tokenize_lines() {
            let at = lines.len();
            let found = tree.lines.binary_search_by(|line| (line.span.start as usize).cmp(&start)).ok();
            start += raw.len();
            let node = found.and_then(|node| tree.lines.get(node));
            let sort = node.map_or(Sort::Unread, sort);
            match sort {
                Sort::PartHead => (part, head) = (Some(at), None),
                Sort::StepHead | Sort::TextHead => head = Some(at),
                _ => {}
            }
            let continues = node.is_some_and(|line| line.continues);
            let said = said(raw, sort);
            lines.push(TextLine {
                raw,
                key: node.map_or_else(|| said.clone(), |line| key(line, sort, &said)),
                said,
                sort,
                part: part.filter(|part| *part != at),
                head: head.filter(|_| continues),
                node: found,
            });
        }
        let mut times: HashMap<String, usize> = HashMap::new();
        for line in &lines {
            *times.entry(line.key.clone()).or_default() += 1;
        }
        Text { lines, tree, times }
    }

    /// How often a key stands in it.
    pub(super) fn times(&self, key: &str) -> usize {
        self.times.get(key).copied().unwrap_or(0)
    }

    /// The node of a line.
    pub(super) fn node(&self, at: usize) -> Option<&Line> {
        self.tree.lines.get(self.lines.get(at)?.node?)
    }
}

fn sort(line: &Line) -> Sort {
    match &line.content {
        Content::Blank => Sort::Blank,
        Content::Comment => Sort::Comment,
        Content::Stray => Sort::Unread,
        Content::Ingredient(_) => Sort::Ingredient,
        Content::Step(_) => Sort::StepHead,
        Content::Text { .. } => Sort::TextHead,
        Content::Prose(_) => Sort::Prose,
        // What belongs to a step goes with it.
        Content::Picture(_) if line.continues => Sort::Prose,
        Content::Until(_) => Sort::Cue,
        Content::Recipe(_)
        | Content::Kitchen(_)
        | Content::Day(_)
        | Content::IngredientBlock(_)
        | Content::Part { .. } => Sort::PartHead,
        _ => Sort::Fact,
    }
}

/// What a line is about: a name and the options under which it holds, or else what it says.
fn key(line: &Line, sort: Sort, said: &str) -> String {
    let name = match &line.content {
        Content::Ingredient(ingredient) => ingredient.name.key.as_str(),
        Content::Step(step) => step.name.key.as_str(),
        Content::Makes { .. } => "makes",
        Content::Divide { .. } => "divide",
        Content::Keeps { .. } => "keeps",
        Content::Spare(_) => "spare",
        Content::Aim(aim) => aim.figure.key.as_str(),
        Content::DesiredTemperature(_) => "desired temperature",
        Content::Choose { name, .. } | Content::Part { name, .. } | Content::IngredientBlock(name) => name.key.as_str(),
        _ => said,
    };
    let only: Vec<&str> = line.only.iter().map(|option| option.key.as_str()).collect();
    format!("{sort:?}/{name}/{}", only.join(", "))
}

/// The words of a line: where layout means nothing, runs of blanks as one and the dots of a leader as one sign.
fn said(raw: &str, sort: Sort) -> String {
    // White space means something in a text and in quotation marks.
    let is_free = matches!(sort, Sort::Ingredient | Sort::Fact | Sort::PartHead | Sort::StepHead) && !raw.contains('"');
    let raw = with_whole_letters(raw);
    if !is_free {
        return raw.trim_end().to_owned();
    }
    let words = raw.split_whitespace().map(|word| {
        let is_leader = word.len() >= 2 && word.chars().all(|c| c == '.');
        if is_leader { ".." } else { word }
    });
    words.collect::<Vec<&str>>().join(" ")
}
