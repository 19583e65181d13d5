//! Tables out of a spreadsheet: what stands over a column is the unit of the numbers below it.

use super::amount;
use super::measure::measure;

/// Writes the unit that stands over a column behind each bare number below it: `Flour`, `1000`, `100` below `Ingredient`, `g`, `%`.
///
/// A table is some lines of cells that tabs or bars part. A line above it without a unit, and every other line, stays as it is.
pub(super) fn with_units(lines: &mut [String]) {
    let mut units: Vec<Option<&'static str>> = Vec::new();
    for line in lines {
        let Some(cells) = cells(line) else {
            units.clear();
            continue;
        };
        let heads: Vec<Option<&'static str>> = cells.iter().map(|cell| unit_over(cell)).collect();
        if heads.iter().any(Option::is_some) && !cells.iter().any(|cell| measure(cell).is_some()) {
            units = heads;
            line.clear();
            continue;
        }
        if units.is_empty() {
            continue;
        }
        let written = cells.iter().enumerate().map(|(at, cell)| {
            let unit = units.get(at).copied().flatten().filter(|_| is_bare(cell));
            unit.map_or_else(|| (*cell).to_owned(), |unit| format!("{cell} {unit}"))
        });
        *line = written.filter(|cell| !cell.is_empty()).collect::<Vec<String>>().join("  ");
    }
}

/// The cells of a line of a table; `None` for a line that is none.
fn cells(line: &str) -> Option<Vec<&str>> {
    let mark = if line.contains('\t') { '\t' } else { '|' };
    let bare = line.trim_matches(|c: char| c == ' ' || c == '|');
    let cells: Vec<&str> = bare.split(mark).map(str::trim).collect();
    (cells.len() > 1).then_some(cells)
}

/// The unit that a column's head says: `g`, `Weight (g)`, `baker's %`.
fn unit_over(head: &str) -> Option<&'static str> {
    let last = head.rsplit([' ', '(', ',', '/']).find(|word| !word.trim_matches(')').is_empty())?;
    let alone = last.trim_matches(')');
    match amount::unit(alone)? {
        (amount::Unit::Known(unit), _, "") => Some(unit),
        _ => None,
    }
}

/// Whether a cell is a number without a unit.
fn is_bare(cell: &str) -> bool {
    measure(cell).is_some_and(|(found, rest)| found.unit.is_none() && found.has_figure && rest.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_unit_over_a_column_is_that_of_its_numbers() {
        let mut lines: Vec<String> =
            ["Rye rolls", "Item\tWeight (g)\tBaker's %", "Flour\t1000\t100", "Water\t680 g\t68", "", "| salt | 20 |"]
                .map(str::to_owned)
                .to_vec();
        with_units(&mut lines);
        assert_eq!(lines, ["Rye rolls", "", "Flour  1000 g  100 %", "Water  680 g  68 %", "", "| salt | 20 |"]);
    }
}
