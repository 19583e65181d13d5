//! Pages of figures (labels, costs): headings, lines and tables, in text, Markdown and HTML.

pub mod cost;
pub mod label;
pub mod stock;

use super::document::document;
use super::markdown::{escaped, row};
use crate::out::report::clean;
use maud::html;
use std::fmt::Write;

/// What stands on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    /// The page's title.
    Title(String),
    /// A heading.
    Heading(String),
    /// A paragraph.
    Text(Vec<Run>),
    /// A table: its head and rows; all columns but the first are figures.
    Table(Vec<String>, Vec<Vec<String>>),
}

/// Some words of a paragraph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// The words.
    pub text: String,
    /// Whether they stand out: bold, in plain text capitals.
    pub strong: bool,
}

impl Run {
    /// Words like the rest.
    pub fn plain(text: impl Into<String>) -> Run {
        Run { text: text.into(), strong: false }
    }

    /// Words that stand out.
    pub fn strong(text: impl Into<String>) -> Run {
        Run { text: text.into(), strong: true }
    }
}

/// A paragraph of plain words.
pub(super) fn words(text: impl Into<String>) -> Block {
    Block::Text(vec![Run::plain(text)])
}

/// Whether a table's head says anything; one that does not is not printed, except where the format asks for one.
fn has_words(head: &[String]) -> bool {
    head.iter().any(|cell| !cell.is_empty())
}

/// As plain text.
pub fn text(blocks: &[Block]) -> String {
    let mut out = String::new();
    for block in blocks {
        match block {
            Block::Title(title) => {
                let _ = writeln!(out, "{}\n", clean(title));
            }
            Block::Heading(heading) => {
                let _ = writeln!(out, "{}", clean(heading));
            }
            Block::Text(runs) => {
                for run in runs {
                    let text = if run.strong { run.text.to_uppercase() } else { run.text.clone() };
                    out.push_str(&clean(&text));
                }
                out.push_str("\n\n");
            }
            Block::Table(head, rows) => {
                let wide = |at: usize| {
                    let cells = rows.iter().chain([head]).filter_map(|row| row.get(at));
                    cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
                };
                for row in [head].into_iter().filter(|head| has_words(head)).chain(rows) {
                    let mut line = String::from("  ");
                    for (at, cell) in row.iter().enumerate() {
                        let (cell, width) = (clean(cell), wide(at));
                        let _ = if at == 0 { write!(line, "{cell:<width$}") } else { write!(line, "  {cell:>width$}") };
                    }
                    let _ = writeln!(out, "{}", line.trim_end());
                }
                out.push('\n');
            }
        }
    }
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

/// As CommonMark with tables.
pub fn markdown(blocks: &[Block]) -> String {
    let mut out = String::new();
    for block in blocks {
        match block {
            Block::Title(title) => {
                let _ = writeln!(out, "# {}\n", escaped(title));
            }
            Block::Heading(heading) => {
                let _ = writeln!(out, "## {}\n", escaped(heading));
            }
            Block::Text(runs) => {
                for run in runs {
                    let text = escaped(&run.text);
                    let _ = if run.strong { write!(out, "**{text}**") } else { write!(out, "{text}") };
                }
                out.push_str("\n\n");
            }
            Block::Table(head, rows) => {
                row(&mut out, &head.iter().map(|cell| escaped(cell)).collect::<Vec<_>>());
                let _ = writeln!(out, "|---|{}", "--:|".repeat(head.len().saturating_sub(1)));
                for cells in rows {
                    row(&mut out, &cells.iter().map(|cell| escaped(cell)).collect::<Vec<_>>());
                }
                out.push('\n');
            }
        }
    }
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

const STYLE: &str = "body{font:16px/1.45 Georgia,serif;max-width:44rem;margin:2rem auto;padding:0 1rem;color:#1d1a16}\
table{border-collapse:collapse;margin:0 0 1.2rem}th,td{padding:.2rem .8rem .2rem 0;border-bottom:1px solid #bbb;text-align:left}\
th+th,td+td{text-align:right;font-variant-numeric:tabular-nums}h2{font-size:1.1rem;margin:1.4rem 0 .4rem}";

/// As one HTML file that stands by itself.
pub fn html(blocks: &[Block], title: &str) -> String {
    let body = html! {
                main {
                    @for block in blocks {
                        @match block {
                            Block::Title(text) => h1 { (clean(text)) },
                            Block::Heading(text) => h2 { (clean(text)) },
                            Block::Text(runs) => p {
                                @for run in runs {
                                    @if run.strong { strong { (clean(&run.text)) } } @else { (clean(&run.text)) }
                                }
                            },
                            Block::Table(head, rows) => table {
                                @if has_words(head) {
                                    thead { tr { @for cell in head { th scope="col" { (clean(cell)) } } } }
                                }
                                tbody { @for row in rows { tr { @for cell in row { td { (clean(cell)) } } } } }
                            },
                        }
                    }
                }
    };
    document(title, STYLE, &html! {}, &body)
}
