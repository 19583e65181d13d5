//! What a place of a file is in: its line, its part, the line or step of the worked-out recipe that it belongs to.

use super::scope::Current;
use super::view::{View, Worked};
use crate::language::syntax::{Content, Key, Line, Name, Tree};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::Step;
use crate::solve::formula::{Formula, SolvedLine, SolvedPart};
use crate::text::source::Span;
use std::collections::HashSet;

/// The line that an offset is in, and its number.
pub(super) fn line(tree: &Tree, offset: usize) -> Option<(usize, &Line)> {
    let index = tree.lines.partition_point(|line| line.span.range().start <= offset).checked_sub(1)?;
    tree.lines.get(index).map(|line| (index, line))
}

/// The part that a line is in; nothing in the head.
pub(super) fn part(tree: &Tree, index: usize) -> Option<Key> {
    let mut current = Current::of(tree);
    for line in tree.lines.iter().take(index + 1) {
        current.enter(line);
    }
    current.part
}

/// Whether a line belongs to a step's prose: the nearest line above that stands no deeper is the step's head.
pub(super) fn step_above(tree: &Tree, index: usize) -> Option<&Line> {
    let above = tree.lines.get(..=index)?.iter().rev();
    let mut heads = above.filter(|line| !matches!(line.content, Content::Blank | Content::Comment) && !line.continues);
    heads.next().filter(|line| matches!(line.content, Content::Step(_)))
}

/// An ingredient line of the worked-out recipe.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlacedLine<'v> {
    pub recipe: &'v Recipe,
    pub formula: &'v Formula,
    pub part: &'v Part,
    pub solved: &'v SolvedPart,
    /// The line's place in the part.
    pub at: usize,
    pub line: &'v Ingredient,
    pub amount: &'v SolvedLine,
}

/// The ingredient lines of the file itself, each once, as they are worked out: with every choice at its default, or else with the options
/// that a line holds under.
pub(super) fn lines(view: &View) -> impl Iterator<Item = PlacedLine<'_>> {
    let mut seen = HashSet::new();
    view.every().flat_map(lines_of).filter(move |found| seen.insert(found.line.span))
}

fn lines_of(worked: &Worked) -> impl Iterator<Item = PlacedLine<'_>> {
    let (recipe, formula) = (&worked.made.0, worked.mixed());
    own_parts(recipe, formula).flat_map(move |(_, part, solved)| {
        part.lines.iter().zip(&solved.lines).enumerate().map(move |(at, (line, amount))| PlacedLine {
            recipe,
            formula,
            part,
            solved,
            at,
            line,
            amount,
        })
    })
}

/// The parts of the file itself.
pub(super) fn own_parts<'v>(
    recipe: &'v Recipe,
    formula: &'v Formula,
) -> impl Iterator<Item = (PartId, &'v Part, &'v SolvedPart)> {
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none());
    own.filter_map(|(id, part)| Some((id, part, formula.part(id)?)))
}

/// The ingredient line whose name stands at a place.
pub(super) fn line_of(view: &View, name: Span) -> Option<PlacedLine<'_>> {
    lines(view).find(|found| found.line.name.span.start <= name.start && name.end <= found.line.name.span.end)
}

/// The line of a part that a name in its braces draws on, in a step that holds under these options.
pub(super) fn drawn_line<'v>(view: &'v View, part: &Key, name: &Key, only: &[Name]) -> Option<PlacedLine<'v>> {
    let holds = |worked: &&Worked| only.iter().all(|option| worked.made.0.selection.has(&option.key));
    let is_it = |found: &PlacedLine<'_>| found.part.name.key == *part && found.line.name.key == *name;
    view.every().filter(holds).flat_map(lines_of).find(is_it).or_else(|| lines(view).find(is_it))
}

/// A step of the worked-out recipe.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlacedStep<'v> {
    pub worked: &'v Worked,
    /// The part's number.
    pub id: PartId,
    pub part: &'v Part,
    /// The step's place in the part.
    pub at: usize,
    pub step: &'v Step,
}

/// The step whose head is at a place.
pub(super) fn step_of(view: &View, head: Span) -> Option<PlacedStep<'_>> {
    view.every().find_map(|worked| find_step(worked, |_, step| step.span == head))
}

/// The first step of the file itself that is it.
pub(super) fn find_step<'v>(worked: &'v Worked, is_it: impl Fn(&Part, &Step) -> bool) -> Option<PlacedStep<'v>> {
    let (recipe, formula) = &worked.made;
    own_parts(recipe, formula).find_map(|(id, part, _)| {
        let at = part.steps.iter().position(|step| is_it(part, step))?;
        Some(PlacedStep { worked, id, part, at, step: part.steps.get(at)? })
    })
}

/// When a step begins and ends, in minutes after the first.
pub(super) fn clock_of(view: &View, found: &PlacedStep<'_>) -> Option<(i64, i64)> {
    let at = StepRef { part: found.id, step: found.at };
    let timeline = view.timeline(found.worked)?;
    timeline.rows.iter().find(|row| row.at == at).map(|row| (row.start, row.end))
}
