//! How far each line is indented: steps, notes and cautions at the margin, what continues them four columns deeper.
//!
//! Whether a line continues another is told by its indentation alone, so a block moves as a whole or not at all.

use super::Page;
use crate::language::syntax::{Content, Line, Tree};

/// How much deeper than its head the text of a step, a note or a caution stands.
const DEEPER: usize = 4;

/// What happens to the blanks before a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Indent {
    /// They stay as they are.
    AsWritten,
    /// So many.
    Columns(usize),
}

/// A line that continues no other, and everything down to the next such line.
pub(super) struct Block {
    /// Index of the first line; before the first block only blank lines and comments stand.
    first: usize,
    /// Index of the last line that continues the first one; `first` itself when none does.
    last: usize,
    /// Index of the first line of the next block, or how many lines there are.
    next: usize,
}

impl Block {
    /// The indexes of its lines, without the comments and blank lines behind the last one.
    pub(super) fn lines(&self) -> std::ops::RangeInclusive<usize> {
        self.first..=self.last
    }
}

/// The blocks of a file in their order.
pub(super) fn blocks(tree: &Tree) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for (at, line) in tree.lines.iter().enumerate() {
        if matches!(line.content, Content::Blank | Content::Comment) {
            continue;
        }
        match blocks.last_mut() {
            Some(open) if line.continues => open.last = at,
            open => {
                if let Some(open) = open {
                    open.next = at;
                }
                blocks.push(Block { first: at, last: at, next: tree.lines.len() });
            }
        }
    }
    blocks
}

/// The new indentation of every line; `kept` are the lines that must not be touched.
pub(super) fn indents(page: Page<'_>, tree: &Tree, blocks: &[Block], kept: &[bool]) -> Vec<Indent> {
    let mut indents = vec![Indent::Columns(0); tree.lines.len()];
    // How far the block below stays indented: from the last to the first, because a block may have to stay for it.
    let mut below = 0;
    for block in blocks.iter().rev() {
        let lines = tree.lines.get(block.first..block.next).unwrap_or_default();
        let is_kept = |offset: usize| kept.get(block.first + offset).copied().unwrap_or(false);
        let Some(head) = lines.first() else { continue };
        let stays = block_must_stay(lines, &is_kept, below);
        let margin = if stays || is_kept(0) { head.indent } else { 0 };
        let new = if stays { vec![Indent::AsWritten; lines.len()] } else { moved(page, lines, margin) };
        below = margin;
        for (slot, new) in indents.iter_mut().skip(block.first).zip(new) {
            *slot = new;
        }
    }
    indents
}

/// A line that is kept and continues the block fixes the depth of the others; the head of the block below, where it
/// stays indented, would continue this one if this one moved to the margin.
fn block_must_stay(lines: &[Line], is_kept: &impl Fn(usize) -> bool, below: usize) -> bool {
    let inner = lines.iter().enumerate().any(|(offset, line)| line.continues && is_kept(offset));
    let opens = lines
        .first()
        .is_some_and(|head| matches!(head.content, Content::Step(_) | Content::Text { .. } | Content::Logged(_)));
    inner || opens && below > 0
}

/// Moves a block to `margin`; deeper lines keep their depth against each other.
fn moved(page: Page<'_>, lines: &[Line], margin: usize) -> Vec<Indent> {
    let head_indent = lines.first().map_or(0, |head| head.indent);
    let continued = lines.iter().any(|line| line.continues);
    // Comments among the prose move with it.
    let inside = |line: &Line| {
        line.continues || continued && matches!(line.content, Content::Comment) && line.indent > head_indent
    };
    let shallowest = lines.iter().filter(|line| line.continues).map(|line| line.indent).min().unwrap_or(0);
    // Tabs count as one column in reading; seen on a page each is a whole step deeper.
    let tabs = lines.iter().filter(|line| inside(line)).all(|line| page.indentation(line).bytes().all(|b| b == b'\t'));
    let step = if tabs { DEEPER } else { 1 };
    let place = |(offset, line): (usize, &Line)| match offset {
        0 => Indent::Columns(margin),
        _ if inside(line) => {
            Indent::Columns(margin + DEEPER + line.indent.saturating_sub(shallowest).saturating_mul(step))
        }
        _ => Indent::Columns(0),
    };
    lines.iter().enumerate().map(place).collect()
}
