//! What was measured as comma-separated values, RFC 4180, one row a measurement, for a spreadsheet.

use super::moment;
use crate::figures::bakes::Told;
use crate::measure::number::Number;
use crate::out::list::csv::{cell, line};

/// The columns.
const HEAD: [&str; 14] = [
    "recipe", "date", "revision", "choices", "pieces", "by", "figure", "part", "step", "load", "value", "expected",
    "unit", "verdict",
];

/// So many decimals are written.
const DECIMALS: u32 = 6;

/// Renders the measurements, the newest bake first.
pub fn render(all: &[Told]) -> String {
    let mut out = String::new();
    line(&mut out, &HEAD.map(str::to_owned));
    let number = |value: Option<Number>| value.map(|value| value.decimal(DECIMALS)).unwrap_or_default();
    for told in all {
        for bake in &told.rows {
            let choices: Vec<String> =
                bake.choices.iter().map(|(choice, option)| format!("{choice}={option}")).collect();
            let verdict = bake.verdict.as_ref().map_or("", |(verdict, _)| verdict.word());
            for measured in &bake.measured {
                line(
                    &mut out,
                    &[
                        cell(&told.recipe),
                        moment(bake, "T"),
                        bake.revision.as_deref().map(cell).unwrap_or_default(),
                        cell(&choices.join("; ")),
                        number(bake.pieces),
                        cell(&bake.by),
                        measured.kind.word().to_owned(),
                        cell(&measured.part),
                        cell(&measured.step),
                        measured.load.map(|load| load.to_string()).unwrap_or_default(),
                        number(Some(measured.value)),
                        number(measured.expected),
                        measured.kind.unit().to_owned(),
                        verdict.to_owned(),
                    ],
                );
            }
        }
    }
    out
}
