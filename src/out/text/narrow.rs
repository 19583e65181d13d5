//! A table on a screen that is too narrow for it: its columns of words are broken into lines; where that is not enough, a row becomes a
//! paragraph of its cells, each with its head.

use super::{Style, flat, line, wrap, wrap_lines};
use crate::out::block::{Column, Phrase, Row, Side, Table};
use crate::out::report::clean;
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// What stands before the first column.
const MARGIN: usize = 2;

/// Draws a table that is wider than the screen.
pub(super) fn draw(out: &mut String, table: &Table, gap: usize, style: Style) {
    match widths(table, gap, style.width) {
        Some(widths) => in_columns(out, table, &widths, gap, style),
        None => as_paragraphs(out, table, style),
    }
}

/// How wide a table is that is drawn in one line a row.
pub(super) fn whole_width(table: &Table, gap: usize) -> usize {
    let natural: usize = table.columns.iter().enumerate().map(|(at, column)| natural(table, at, column)).sum();
    MARGIN + natural + gap * table.columns.len().saturating_sub(1)
}

fn text(row: &Row, at: usize) -> &str {
    row.cells.get(at).map_or("", |cell| cell.text.as_str())
}

fn natural(table: &Table, at: usize, column: &Column) -> usize {
    let cells = table.rows.iter().map(|row| flat(text(row, at)).width());
    cells.chain([column.head.width()]).max().unwrap_or(0)
}

/// The widest of the words of a column, figures with their units; heads of figures may be broken too.
fn narrowest(table: &Table, at: usize, column: &Column) -> usize {
    let widest = |words: &str| wrap_lines(words, 1).iter().map(|word| word.width()).max().unwrap_or(0);
    let cells = table.rows.iter().map(|row| match column.side {
        Side::Left => widest(&flat(text(row, at))),
        Side::Right => flat(text(row, at)).width(),
    });
    cells.chain([widest(&column.head)]).max().unwrap_or(0)
}

/// Widths that fit: what is too much is taken from the widest column that can give some, word by word.
fn widths(table: &Table, gap: usize, room: usize) -> Option<Vec<usize>> {
    let columns = || table.columns.iter().enumerate();
    let least: Vec<usize> = columns().map(|(at, column)| narrowest(table, at, column)).collect();
    let mut widths: Vec<usize> = columns().map(|(at, column)| natural(table, at, column)).collect();
    let between = MARGIN + gap * table.columns.len().saturating_sub(1);
    while between + widths.iter().sum::<usize>() > room {
        let can_give = widths.iter_mut().zip(&least).filter(|(width, least)| **width > **least);
        let (widest, _) = can_give.max_by_key(|(width, _)| **width)?;
        *widest -= 1;
    }
    Some(widths)
}

fn in_columns(out: &mut String, table: &Table, widths: &[usize], gap: usize, style: Style) {
    let set = |out: &mut String, cells: Vec<&str>, paint| {
        let cells: Vec<Vec<String>> =
            cells.iter().zip(widths).map(|(cell, width)| wrap_lines(&flat(cell), *width)).collect();
        let lines = cells.iter().map(Vec::len).max().unwrap_or(0);
        for at in 0..lines {
            let mut text = " ".repeat(MARGIN);
            for (number, ((cell, width), column)) in cells.iter().zip(widths).zip(&table.columns).enumerate() {
                let words = cell.get(at).map_or("", String::as_str);
                let rest = " ".repeat(width.saturating_sub(words.width()));
                let before = if number == 0 { String::new() } else { " ".repeat(gap) };
                let _ = match column.side {
                    Side::Left => write!(text, "{before}{words}{rest}"),
                    Side::Right => write!(text, "{before}{rest}{words}"),
                };
            }
            line(out, &style.paint(paint, text.trim_end()));
        }
    };
    if table.has_head() {
        set(out, table.columns.iter().map(|column| column.head.as_str()).collect(), crate::out::block::Paint::Bold);
    }
    for row in &table.rows {
        set(out, row.cells.iter().map(|cell| cell.text.as_str()).collect(), row.paint);
        instead(out, row, style);
    }
}

fn as_paragraphs(out: &mut String, table: &Table, style: Style) {
    for row in &table.rows {
        let mut cells = row.cells.iter().zip(&table.columns);
        let first: Option<&Phrase> = cells.next().map(|(cell, _)| cell);
        let name = first.map_or("", |cell| cell.text.as_str());
        line(out, &style.paint(row.paint, &wrap(&clean(&flat(name)), style.width, "  ", "    ")));
        let said = cells.filter(|(cell, _)| !cell.text.is_empty()).map(|(cell, column)| match column.head.as_str() {
            "" => flat(&cell.text).into_owned(),
            head => format!("{head} {}", flat(&cell.text)),
        });
        let said = said.collect::<Vec<String>>().join("; ");
        if !said.is_empty() {
            line(out, &wrap(&said, style.width, "    ", "    "));
        }
        instead(out, row, style);
    }
}

fn instead(out: &mut String, row: &Row, style: Style) {
    if let Some(why) = &row.instead {
        line(out, &wrap(&flat(why), style.width, "    ", "    "));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::out::block::{Block, Frame};

    fn drawn(rows: &[[&str; 3]], width: usize) -> String {
        let rows = rows.iter().map(|row| row.map(str::to_owned).to_vec()).collect();
        let head = ["what is bought", "weight", "by which larder entry"].map(str::to_owned).to_vec();
        let Block::Table(table) = Table::figures(head, rows, Frame::Read) else { return String::new() };
        let mut out = String::new();
        draw(&mut out, &table, 3, Style { width, colour: false, on_screen: true });
        out
    }

    #[test]
    fn words_are_broken_into_lines_and_figures_are_not() {
        let out = drawn(&[["strong white flour of the mill", "1350 g", "wheat"]], 44);
        assert!(out.lines().all(|line| line.width() <= 44), "{out}");
        assert!(out.contains("1350 g"), "{out}");
    }

    #[test]
    fn what_has_no_room_side_by_side_is_a_paragraph() {
        let out = drawn(&[["flour", "1350.000 000 000 kg", "an entry with a long long long name"]], 40);
        assert!(out.lines().all(|line| line.width() <= 40), "{out}");
        assert!(out.contains("weight 1350.000 000 000 kg"), "{out}");
    }
}
