//! Bench sums.

pub(super) mod json;

pub use json::render as json;

use super::block::{Block, Frame, Heading, Look, Phrase, Table, Text};
use super::page::{self, Page};
use super::report::seen;
use crate::figures::sums::{Section, Sums};

/// How the page looks: plain tables.
const LOOK: page::Look = page::Look {
    style: "body{font:16px/1.45 system-ui,sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color:#111;background:#fff}\
    h1{font-size:1.5rem}h2{font-size:1.1rem;margin:1.8rem 0 .4rem;border-bottom:2px solid #111}\
    table{border-collapse:collapse;width:100%}th{font-weight:400;text-align:left}td{text-align:right}\
    th,td{padding:.2rem .5rem .2rem 0;border-bottom:1px solid #bbb;vertical-align:top}thead th{font-weight:700}\
    thead th+th{text-align:right}p{margin:.5rem 0}.care{border:2px solid #111;padding:.5rem .8rem}section{break-inside:avoid}",
    is_sealed: false,
};

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
    Page { title, look: LOOK, below: 0, blocks }
}

fn section(section: &Section) -> Block {
    let rows = section.rows.iter().map(|row| (row.what.clone(), row.shown.clone()));
    let mut blocks =
        vec![Heading::looking(2, &section.title, Look::Topic(section.topic)), Block::Figures(rows.collect())];
    let table = section.table.as_ref();
    blocks.extend(table.map(|table| Table::figures(table.head.clone(), table.rows.clone(), Frame::Read)));
    let remark = |remark: &String| Block::Text(Text::wrapped(vec![Phrase::plain(remark)], "  ", "  "));
    blocks.extend(section.remarks.iter().map(remark));
    blocks.push(Block::Source(section.topic));
    Block::Section(blocks)
}
