//! What a place of a file is in: its line, its part, the line or step of the worked-out recipe that it belongs to.

use super::scope::Current;
use super::view::View;
use crate::language::syntax::{Content, Key, Line, Tree};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::Step;
use crate::solve::formula::{Formula, SolvedLine, SolvedPart};
use crate::text::source::Span;

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
    pub formula: &'v Formula,
    pub part: &'v Part,
    pub solved: &'v SolvedPart,
    /// The line's place in the part.
    pub at: usize,
    pub line: &'v Ingredient,
    pub amount: &'v SolvedLine,
}

/// The ingredient lines of the file itself, as they are worked out.
pub(super) fn lines(view: &View) -> impl Iterator<Item = PlacedLine<'_>> {
    view.worked().into_iter().flat_map(|(recipe, formula)| {
        own_parts(recipe, formula).flat_map(move |(_, part, solved)| {
            part.lines.iter().zip(&solved.lines).enumerate().map(move |(at, (line, amount))| PlacedLine {
                formula,
                part,
                solved,
                at,
                line,
                amount,
            })
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

/// The line of a part that a name in its braces draws on.
pub(super) fn drawn_line<'v>(view: &'v View, part: &Key, name: &Key) -> Option<PlacedLine<'v>> {
    lines(view).find(|found| found.part.name.key == *part && found.line.name.key == *name)
}

/// The step whose head is at a place.
pub(super) fn step_of(view: &View, head: Span) -> Option<(PartId, usize, &Step)> {
    let (recipe, formula) = view.worked()?;
    own_parts(recipe, formula).find_map(|(id, part, _)| {
        let at = part.steps.iter().position(|step| step.span == head)?;
        Some((id, at, part.steps.get(at)?))
    })
}
