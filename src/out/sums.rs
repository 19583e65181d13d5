//! Bench sums.

pub(super) mod json;

pub use json::render as json;

use super::block::{Block, Frame, Heading, Look, Phrase, Table, Text};
use super::page::Page;
use super::report::seen;
use crate::figures::sums::{Section, Sums};

/// The page.
pub fn page(sums: &Sums) -> Page {
    let title = seen(&format!("{}: bench sums", sums.recipe));
    let mut blocks = vec![Heading::block(1, &title)];
    for one in &sums.sections {
        blocks.extend([Block::Gap, section(one)]);
    }
    for caution in &sums.cautions {
        blocks.extend([Block::Gap, Block::Care(caution.clone())]);
    }
    Page { title, below: 0, blocks }
}

fn section(section: &Section) -> Block {
    let rows = section.rows.iter().map(|row| (row.what.clone(), row.shown.clone()));
    let mut blocks =
        vec![Heading::looking(2, &section.title, Look::Topic(section.topic)), Block::Figures(rows.collect())];
    let table = section.table.as_ref();
    blocks.extend(table.map(|table| Table::figures(table.head.clone(), table.cells(), Frame::Read)));
    let remark = |remark: &String| Block::Text(Text::wrapped(vec![Phrase::plain(remark)], "  ", "  "));
    blocks.extend(section.remarks.iter().map(remark));
    blocks.push(Block::Source(section.topic));
    Block::Section(blocks)
}
