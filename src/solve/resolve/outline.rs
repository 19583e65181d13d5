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
    /// The options under which lines of it hold, where they are said.
    pub conditions: Vec<&'t [Name]>,
    /// The same of its steps, and of what stands below them.
    pub step_conditions: Vec<&'t [Name]>,
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
        let title = tree.lines.iter().find_map(|line| match &line.content {
            Content::Recipe(name) => Some(name.clone()),
            _ => None,
        });
        let title = title.unwrap_or_else(|| Name::new("untitled", Span::new(tree.source, 0, 0)));
        let mut outline = Outline { head: Vec::new(), parts: Vec::new() };
        // Prose below a note belongs to the note, not to the step further up.
        let mut below_step = false;
        for line in &tree.lines {
            below_step = match &line.content {
                Content::Picture(_) if line.continues => {
                    outline.go_on(line, below_step);
                    below_step
                }
                Content::Blank | Content::Prose(_) | Content::Until(_) | Content::Comment => {
                    outline.go_on(line, below_step);
                    below_step
                }
                // Prose below the head of a step that could not be read is not the step's above.
                Content::Stray => below_step & outline.cannot_read(line),
                content => {
                    outline.begin(line, content, &title);
                    matches!(content, Content::Step(_))
                }
            };
        }
        outline
    }

    /// A line that goes on with what stands above it.
    fn go_on(&mut self, line: &'t Line, below_step: bool) {
        let Some(part) = self.parts.last_mut() else { return self.head.push(line) };
        match part.steps.last_mut().filter(|_| below_step) {
            Some(step) => {
                step.below.push(line);
                part.step_conditions.extend(condition(line));
            }
            None => part.push(line),
        }
    }

    /// A line that could not be read; whether it stands below the step above it.
    fn cannot_read(&mut self, line: &Line) -> bool {
        let Some(part) = self.parts.last_mut() else { return true };
        part.broken = true;
        part.steps.last().is_some_and(|step| line.indent > step.head.indent)
    }

    /// A line that begins something: a part, a step, or what it says itself.
    fn begin(&mut self, line: &'t Line, content: &'t Content, title: &Name) {
        if let Content::Part { name, from } = content {
            return self.parts.push(PartOutline::new(name.clone(), from.as_ref(), &line.only, false));
        }
        let is_head = is_head_line(content);
        if self.parts.is_empty() {
            if is_head {
                return self.head.push(line);
            }
            self.parts.push(PartOutline::new(title.clone(), None, &[], true));
        }
        let Some(part) = self.parts.last_mut() else { return };
        if matches!(content, Content::Step(_)) {
            part.steps.push(StepOutline { head: line, below: Vec::new() });
            part.step_conditions.extend(condition(line));
        } else if part.implicit && is_head && !matches!(content, Content::Text { .. } | Content::Picture(_)) {
            // Head lines may stand anywhere before the first `part` line.
            self.head.push(line);
        } else {
            part.push(line);
        }
    }
}

/// The options under which a line holds, if it says any.
fn condition(line: &Line) -> Option<&[Name]> {
    (!line.only.is_empty()).then_some(&line.only)
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
            | Content::Aim(_)
            | Content::Sale(..)
            | Content::GoodFor { .. }
            | Content::Serving(..)
            | Content::Drained(_)
            | Content::Weighs { .. }
            | Content::Picture(_)
            | Content::By(_)
            | Content::FiledUnder(_)
            | Content::Text { .. }
    )
}

impl<'t> PartOutline<'t> {
    fn new(name: Name, from: Option<&'t Name>, only: &'t [Name], implicit: bool) -> PartOutline<'t> {
        PartOutline {
            name,
            from,
            only,
            implicit,
            lines: Vec::new(),
            steps: Vec::new(),
            broken: false,
            conditions: Vec::new(),
            step_conditions: Vec::new(),
        }
    }

    fn push(&mut self, line: &'t Line) {
        self.lines.push(line);
        self.conditions.extend(condition(line));
    }

    /// Whether it stands above the first `part` line and has neither ingredients nor steps.
    pub(super) fn holds_nothing(&self) -> bool {
        let has_ingredient = self.lines.iter().any(|line| matches!(line.content, Content::Ingredient(_)));
        self.implicit && !self.broken && self.steps.is_empty() && !has_ingredient
    }
}
