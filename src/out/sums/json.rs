//! Bench sums for programs. The structs here are the wire format and nothing else.

use crate::figures::sums::{Section, Sums};
use crate::measure::shown::Shown;
use crate::out::json::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    format: u32,
    recipe: &'a str,
    sections: Vec<WireSection<'a>>,
    cautions: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireSection<'a> {
    title: &'a str,
    explain: &'a str,
    rows: Vec<WireRow<'a>>,
    table: Option<WireTable<'a>>,
    remarks: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireRow<'a> {
    what: &'a str,
    shown: &'a Shown,
    figure: Option<Figure>,
    unit: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireTable<'a> {
    head: &'a [String],
    rows: Vec<Vec<String>>,
}

/// The sums as JSON, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(sums: &Sums) -> serde_json::Result<String> {
    let wire = Wire {
        format: FORMAT,
        recipe: &sums.recipe,
        sections: sums.sections.iter().map(section).collect(),
        cautions: &sums.cautions,
    };
    crate::out::report::to_json(&wire).map(|text| text + "\n")
}

fn section(section: &Section) -> WireSection<'_> {
    WireSection {
        title: &section.title,
        explain: section.topic,
        rows: section
            .rows
            .iter()
            .map(|row| WireRow { what: &row.what, shown: &row.shown, figure: row.figure.map(Figure), unit: row.unit })
            .collect(),
        table: section.table.as_ref().map(|table| WireTable { head: &table.head, rows: table.cells() }),
        remarks: &section.remarks,
    }
}
