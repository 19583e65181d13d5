//! Bench sums as plain text for the terminal.

use crate::figures::bench::{Section, Sums, Table};
use crate::out::report::clean;
use crate::out::text::{Style, wrap};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Renders the sums.
pub fn render(sums: &Sums, style: Style) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}", style.bold(&clean(&format!("{}: bench sums", sums.recipe))));
    for section in &sums.sections {
        render_section(section, style, &mut out);
    }
    for caution in &sums.cautions {
        let _ = writeln!(out, "\n{}", wrap(&clean(caution), style.width, "! ", "  "));
    }
    out
}

fn render_section(section: &Section, style: Style, out: &mut String) {
    let _ = writeln!(out, "\n{}  (miche explain {})", style.bold(&clean(&section.title)), section.topic);
    let widest = section.rows.iter().map(|row| row.what.width()).max().unwrap_or(0).min(style.width / 2);
    for row in &section.rows {
        let dots = ".".repeat(widest.saturating_sub(row.what.width()) + 3);
        let first = format!("  {} {dots} ", clean(&row.what));
        let _ = writeln!(out, "{}", wrap(&clean(&row.shown), style.width, &first, &" ".repeat(widest + 8)));
    }
    if let Some(table) = &section.table {
        render_table(table, out);
    }
    for remark in &section.remarks {
        let _ = writeln!(out, "{}", wrap(&clean(remark), style.width, "  ", "  "));
    }
}

fn render_table(table: &Table, out: &mut String) {
    let cell = |row: &Vec<String>, at: usize| row.get(at).map_or(0, |cell| cell.width());
    let widths: Vec<usize> = (0..table.head.len())
        .map(|at| table.rows.iter().map(|row| cell(row, at)).chain([cell(&table.head, at)]).max().unwrap_or(0))
        .collect();
    for row in std::iter::once(&table.head).chain(&table.rows) {
        let mut line = String::from("  ");
        for (at, (cell, width)) in row.iter().zip(&widths).enumerate() {
            let gap = " ".repeat(width.saturating_sub(cell.width()));
            if at == 0 {
                let _ = write!(line, "{}{gap}", clean(cell));
            } else {
                let _ = write!(line, "   {gap}{}", clean(cell));
            }
        }
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
