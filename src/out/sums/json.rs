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
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The name of the recipe.
    recipe: &'a str,
    /// The sums, each with what it is of.
    sections: Vec<WireSection<'a>>,
    /// What can hurt, a text each.
    cautions: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireSection<'a> {
    /// What it is of.
    title: &'a str,
    /// The topic that `miche explain` tells more of.
    explain: &'a str,
    /// Figures, and what they are.
    rows: Vec<WireRow<'a>>,
    /// A table, where there is one.
    table: Option<WireTable<'a>>,
    /// What there is to say of it, a sentence each.
    remarks: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireRow<'a> {
    /// What it is.
    what: &'a str,
    /// As it is printed.
    shown: &'a Shown,
    /// The figure before it was rounded.
    figure: Option<Figure>,
    /// The unit of the figures.
    unit: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireTable<'a> {
    /// The heads of the columns.
    head: &'a [String],
    /// The cells of each row.
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
