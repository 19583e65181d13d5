//! The sheet of the log to fill in by hand: a blank for everything that a log can hold, in the order of the work.

use crate::figures::bakes::blank::{Blank, Line, Of};
use crate::out::block::{Block, Column, Frame, Heading, Look, Phrase, Row, Side, Table, words};

/// Room to write in, on a page.
const BLANK: &str = "________";

/// What is written behind a line, with room for it.
pub fn room(of: Of) -> String {
    match of {
        Of::By | Of::Note => BLANK.repeat(3),
        Of::Heat => format!("{BLANK} °C"),
        Of::WentIn => format!("{BLANK} g, at {BLANK} °C"),
        Of::Step { is_mix: true, .. } => "___:___ to ___:___, left at ________ °C".to_owned(),
        Of::Step { is_weighed: true, .. } => "___:___ to ___:___, came to ______ x ________ g".to_owned(),
        Of::Step { .. } => "___:___ to ___:___".to_owned(),
        Of::Judged => format!("____ of 5, {}", BLANK.repeat(2)),
        Of::Verdict => format!("keep / change / drop {}", BLANK.repeat(2)),
    }
}

/// What a line is called on the sheet: without the leader and the colon of a log.
pub fn name(line: &Line) -> String {
    line.begins.trim_end_matches([' ', '.', ':']).replace(": load", ", load")
}

/// The title of a sheet.
pub fn title(blank: &Blank) -> String {
    format!("Log of bakes: {}", blank.recipe)
}

/// What stands above the lines.
pub fn head(blank: &Blank) -> String {
    format!("bake ____-__-__  ___:___, {}", blank.size)
}

/// The sheets as blocks.
pub fn blocks(blanks: &[Blank]) -> Vec<Block> {
    let mut all = Vec::new();
    for blank in blanks {
        let left = |head: &str| Column { head: head.to_owned(), side: Side::Left };
        let rows = blank.lines.iter().map(|line| {
            Row::of([Phrase::plain(name(line)), Phrase::plain(&line.expected), Phrase::plain(room(line.of))])
        });
        all.extend([
            Block::Gap,
            Heading::looking(1, title(blank), Look::Underlined),
            words(head(blank)),
            Block::Table(Table {
                columns: vec![left("what"), left("by the formula"), left("measured")],
                rows: rows.collect(),
                frame: Frame::Read,
            }),
        ]);
    }
    all
}
