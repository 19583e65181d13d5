//! Bench sums as CommonMark with tables.

use crate::figures::bench::{Section, Sums};
use crate::out::markdown::{escaped, row};
use std::fmt::Write;

/// Renders the sums.
pub fn render(sums: &Sums) -> String {
    let mut out = format!("# {}: bench sums\n", escaped(&sums.recipe));
    for section in &sums.sections {
        render_section(section, &mut out);
    }
    for caution in &sums.cautions {
        let _ = writeln!(out, "\n> **Caution.** {}", escaped(caution));
    }
    out
}

fn render_section(section: &Section, out: &mut String) {
    let _ = writeln!(out, "\n## {}\n", escaped(&section.title));
    if !section.rows.is_empty() {
        row(out, &["sum".to_owned(), "figure".to_owned()]);
        out.push_str("|---|--:|\n");
        for one in &section.rows {
            row(out, &[escaped(&one.what), escaped(&one.shown)]);
        }
        out.push('\n');
    }
    if let Some(table) = &section.table {
        let cells = |cells: &[String]| -> Vec<String> { cells.iter().map(|cell| escaped(cell)).collect() };
        row(out, &cells(&table.head));
        let _ = writeln!(out, "|---|{}", "--:|".repeat(table.head.len().saturating_sub(1)));
        for one in &table.rows {
            row(out, &cells(one));
        }
        out.push('\n');
    }
    for remark in &section.remarks {
        let _ = writeln!(out, "{}\n", escaped(remark));
    }
    let _ = writeln!(out, "Formula and sources: `miche explain {}`", section.topic);
}
