//! Whether two texts say the same.

use super::Page;
use super::clause::in_order;
use super::line::single_spaced;
use crate::language::syntax::{Content, IngredientClause, Line, Spans, Tree};
use crate::text::source::{SourceId, Span};

/// What one line says, without its place.
#[derive(Debug, PartialEq, Eq)]
struct Said {
    content: Content,
    only: Vec<String>,
    comment: String,
    continues: bool,
    /// Among the lines that continue one head, how many steps of depth stand above this one.
    depth: usize,
    /// Whether a blank line before it begins a new paragraph.
    paragraph: bool,
    /// The very bytes of a line that could not be read.
    stray: String,
}

/// Whether two trees say the same: the same lines in the same order with the same comments, wherever they stand, and
/// lines that could not be read byte for byte. Each tree comes with the text it was read from.
pub fn equal_meaning(before: (&Tree, &str), after: (&Tree, &str)) -> bool {
    first_difference(before, after).is_none()
}

/// The index of the first line of `before` that `after` does not say.
pub(super) fn first_difference(before: (&Tree, &str), after: (&Tree, &str)) -> Option<usize> {
    if before.0.kind != after.0.kind {
        return Some(0);
    }
    let (old, new) = (all_said(before), all_said(after));
    let same = old.iter().zip(&new).take_while(|((_, old), (_, new))| old == new).count();
    if same == old.len() && same == new.len() {
        return None;
    }
    Some(old.get(same).or_else(|| old.last()).map_or(0, |(at, _)| *at))
}

/// What every line but the blank ones says.
fn all_said((tree, text): (&Tree, &str)) -> Vec<(usize, Said)> {
    let page = Page { text };
    let depths = depths(&tree.lines);
    let mut after_blank = false;
    let mut all = Vec::with_capacity(tree.lines.len());
    for ((at, line), depth) in tree.lines.iter().enumerate().zip(depths) {
        if matches!(line.content, Content::Blank) {
            after_blank = true;
            continue;
        }
        let content = placeless(&line.content);
        let is_stray = matches!(content, Content::Stray);
        all.push((
            at,
            Said {
                content,
                only: line.only.iter().map(ToString::to_string).collect(),
                comment: line.comment.map_or("", |comment| page.slice(comment)).trim_end().to_owned(),
                continues: line.continues,
                depth,
                paragraph: line.continues && after_blank,
                stray: if is_stray { page.slice(line.span).to_owned() } else { String::new() },
            },
        ));
        // A comment between two paragraphs does not join them.
        after_blank &= matches!(line.content, Content::Comment);
    }
    all
}

/// A content with every place nowhere, and its clauses without the order they were written in, as far as it says nothing.
fn placeless(content: &Content) -> Content {
    let mut content = content.clone();
    match &mut content {
        Content::Ingredient(line) => {
            line.clauses = in_order(&line.clauses);
            for clause in &mut line.clauses {
                if let IngredientClause::Preparation(words) = &mut clause.value {
                    *words = single_spaced(words);
                }
            }
        }
        Content::Step(step) => step.clauses = in_order(&step.clauses),
        Content::Equipment { clauses, .. } => *clauses = in_order(clauses),
        Content::Cook { clauses, .. } => *clauses = in_order(clauses),
        Content::Make { clauses, .. } => *clauses = in_order(clauses),
        _ => {}
    }
    content.each_span(&mut |span| *span = Span::new(SourceId(0), 0, 0));
    content
}

/// The rank of each continuing line's indentation among those of its block; 0 for other lines.
fn depths(lines: &[Line]) -> Vec<usize> {
    let mut depths = vec![0; lines.len()];
    let mut block: Vec<usize> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        if line.continues {
            block.push(at);
        } else if !matches!(line.content, Content::Blank | Content::Comment) {
            rank(lines, &mut block, &mut depths);
        }
    }
    rank(lines, &mut block, &mut depths);
    depths
}

fn rank(lines: &[Line], block: &mut Vec<usize>, depths: &mut [usize]) {
    let indent = |at: usize| lines.get(at).map_or(0, |line| line.indent);
    let mut known: Vec<usize> = block.iter().map(|at| indent(*at)).collect();
    known.sort_unstable();
    known.dedup();
    for at in block.drain(..) {
        if let Some(slot) = depths.get_mut(at) {
            *slot = known.partition_point(|depth| *depth < indent(at));
        }
    }
}
