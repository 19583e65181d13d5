//! A history for the terminal.

use super::{FIGURES, cells, counted, date, instead, parts, subject, title};
use crate::figures::history::{History, Row};
use crate::out::report::clean;
use crate::out::text::{Style, wrap};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Renders the history.
pub fn render(history: &History, style: Style) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}", style.bold(&one_line(title(history))));
    let _ = writeln!(out, "{}", wrap(&counted(history), style.width, "  ", "  "));
    let parts = parts(history);
    if !parts.is_empty() {
        let _ = writeln!(out, "{}", wrap(&clean(&format!("figures of {}", parts.join(", "))), style.width, "  ", "  "));
    }
    out.push('\n');
    let shown: Vec<(&Row, Option<[String; 6]>)> = history
        .rows
        .iter()
        .map(|row| (row, row.figures().map(|figures| cells(figures).map(|cell| one_line(&cell)))))
        .collect();
    let widths = FIGURES.iter().enumerate().map(|(at, head)| {
        let cells = shown.iter().filter_map(|(_, cells)| cells.as_ref()?.get(at));
        cells.map(|cell| cell.width()).max().unwrap_or(0).max(head.width())
    });
    let widths: Vec<usize> = widths.collect();
    let short_width = history.rows.iter().map(|row| row.short.width()).max().unwrap_or(0).max("revision".len());
    let line = |date: &str, short: &str, cells: &[String], subject: &str| {
        let mut line = format!("  {date:<10}  {short:<short_width$}");
        for (cell, width) in cells.iter().zip(&widths) {
            let _ = write!(line, "  {}{cell}", " ".repeat(width.saturating_sub(cell.width())));
        }
        format!("{line}  {subject}").trim_end().to_owned()
    };
    let heads: Vec<String> = FIGURES.iter().map(ToString::to_string).collect();
    let _ = writeln!(out, "{}", style.bold(&line("date", "revision", &heads, "subject")));
    for (row, cells) in &shown {
        let none = [const { String::new() }; 6];
        let cells = cells.as_ref().unwrap_or(&none);
        let _ = writeln!(out, "{}", line(&one_line(date(row)), &one_line(&row.short), cells, &one_line(&subject(row))));
        if let Some(why) = instead(row) {
            let _ = writeln!(out, "{}", wrap(&one_line(&why), style.width, "              ", "              "));
        }
    }
    out
}

/// Text from a file or a commit that stays on its line.
fn one_line(text: &str) -> String {
    clean(text).replace('\n', " ")
}
