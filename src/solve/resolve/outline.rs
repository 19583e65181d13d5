//! Groups the flat lines of a recipe into its head, its parts and their steps.

use crate::language::syntax::{Content, Line, Name, Tree};
use crate::text::source::Span;

/// A recipe's lines by where they belong.
pub(super) struct Outline<'t> {
    /// The lines of the head.
    pub head: Vec<&'t Line>,
    /// The parts in order.
    pub parts: Vec<PartOutline<'t>>,
}

/// A part's lines.
pub(super) struct PartOutline<'t> {
    /// Its name; for the part without a `part` line, the recipe's.
    pub name: Name,
    /// The total formula that it is taken out of.
    pub from: Option<&'t Name>,
    /// The options under which it holds.
    pub only: &'t [Name],
    /// Whether it has no `part` line.
    pub implicit: bool,
    /// Key and ingredient lines, notes and cautions.
    pub lines: Vec<&'t Line>,
    /// Step heads with the prose below them, by their place in the file.
    pub steps: Vec<StepOutline<'t>>,
    /// Whether some line in it could not be read.
    pub broken: bool,
}

/// A step's lines.
pub(super) struct StepOutline<'t> {
    /// The head line.
    pub head: &'t Line,
    /// Prose, cues and blank lines below it.
    pub below: Vec<&'t Line>,
}

impl<'t> Outline<'t> {
    pub(super) fn of(tree: &'t Tree) -> Outline<'t> {
        let mut head: Vec<&Line> = Vec::new();
        let mut parts: Vec<PartOutline<'t>> = Vec::new();
        let title = tree.lines.iter().find_map(|line| match &line.content {
            Content::Recipe(name) => Some(name.clone()),
            _ => None,
        });
        let title = title.unwrap_or_else(|| Name::new("untitled", Span::new(tree.source, 0, 0)));
        // Prose below a note belongs to the note, not to the step further up.
        let mut below_step = false;
        for line in &tree.lines {
            match &line.content {
                Content::Part { name, from } => {
                    parts.push(PartOutline::new(name.clone(), from.as_ref(), &line.only, false));
                    below_step = false;
                }
                Content::Blank | Content::Prose(_) | Content::Until(_) | Content::Comment => {
                    let part = parts.last_mut();
                    if below_step && let Some(step) = part.and_then(|part| part.steps.last_mut()) {
                        step.below.push(line);
                    } else if let Some(part) = parts.last_mut() {
                        part.lines.push(line);
                    } else {
                        head.push(line);
                    }
                }
                Content::Stray => {
                    if let Some(part) = parts.last_mut() {
                        part.broken = true;
                        // Prose below the head of a step that could not be read is not the step's above.
                        below_step &= part.steps.last().is_some_and(|step| line.indent > step.head.indent);
                    }
                }
                content => {
                    let is_head = is_head_line(content);
                    if parts.is_empty() && is_head {
                        head.push(line);
                        below_step = false;
                        continue;
                    }
                    if parts.is_empty() {
                        parts.push(PartOutline::new(title.clone(), None, &[], true));
                    }
                    let Some(part) = parts.last_mut() else { continue };
                    if matches!(content, Content::Step(_)) {
                        part.steps.push(StepOutline { head: line, below: Vec::new() });
                        below_step = true;
                    } else {
                        below_step = false;
                        // Head lines may stand anywhere before the first `part` line.
                        if part.implicit && is_head && !matches!(content, Content::Text { .. }) {
                            head.push(line);
                        } else {
                            part.lines.push(line);
                        }
                    }
                }
            }
        }
        Outline { head, parts }
    }
}

/// Whether a line belongs to the recipe as a whole, so that before the first `part` line it begins none.
pub(crate) fn is_head_line(content: &Content) -> bool {
    matches!(
        content,
        Content::Recipe(_)
            | Content::Makes { .. }
            | Content::Use(_)
            | Content::Choose { .. }
            | Content::Measures(_)
            | Content::Text { .. }
    )
}

impl<'t> PartOutline<'t> {
    fn new(name: Name, from: Option<&'t Name>, only: &'t [Name], implicit: bool) -> PartOutline<'t> {
        PartOutline { name, from, only, implicit, lines: Vec::new(), steps: Vec::new(), broken: false }
    }
}
