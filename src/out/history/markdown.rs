//! A history as a Markdown table.

use super::{FIGURES, cells, counted, date, instead, parts, subject, title};
use crate::figures::history::History;
use crate::out::markdown::{escaped, row};
use std::fmt::Write;

/// Renders the history.
pub fn render(history: &History) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "## {}\n", escaped(title(history)));
    let _ = writeln!(out, "{}.", counted(history));
    let parts = parts(history);
    if !parts.is_empty() {
        let _ = writeln!(out, "Figures of {}.", escaped(&parts.join(", ")));
    }
    out.push('\n');
    let mut head = vec!["date".to_owned(), "revision".to_owned()];
    head.extend(FIGURES.iter().map(ToString::to_string));
    head.push("subject".to_owned());
    row(&mut out, &head);
    let _ = writeln!(out, "|---|---|---:|---:|---:|---:|---:|---:|---|");
    for one in &history.rows {
        let mut line = vec![escaped(date(one)), escaped(&one.short)];
        line.extend(one.figures().map(cells).unwrap_or_default().iter().map(|cell| escaped(cell)));
        let why = instead(one).map_or_else(String::new, |why| format!(" — **{}**", escaped(&why)));
        line.push(format!("{}{why}", escaped(&subject(one))));
        row(&mut out, &line);
    }
    out
}
