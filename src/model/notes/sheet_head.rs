//! The head of a sheet that names its columns, `Qty,Unit,Item`, and the rows below it put in the order of a list.

/// What the columns of a list are called.
const NAMES: [&str; 13] = [
    "item",
    "ingredient",
    "ingredients",
    "name",
    "product",
    "article",
    "material",
    "zutat",
    "zutaten",
    "artikel",
    "ingr\u{e9}dient",
    "ingrediente",
    "producto",
];
const AMOUNTS: [&str; 9] =
    ["qty", "quantity", "amount", "weight", "how much", "menge", "quantit\u{e9}", "quantit\u{e0}", "cantidad"];
const UNITS: [&str; 8] = ["unit", "units", "uom", "measure", "einheit", "unit\u{e9}", "unit\u{e0}", "unidad"];
/// What parts the cells of a row.
const MARKS: [char; 4] = ['\t', ';', '|', ','];

/// In which columns a sheet has its names, amounts and units.
struct Columns {
    mark: char,
    name: usize,
    amount: usize,
    unit: usize,
    count: usize,
}

/// Writes the rows below such a head as name, amount and unit, and takes the head away: it says nothing more. Gives its words.
pub(super) fn in_order(lines: &mut Vec<String>) -> Option<String> {
    let (head, columns) = lines.iter().enumerate().find_map(|(at, line)| Some((at, columns(line)?)))?;
    for line in lines.iter_mut().skip(head + 1) {
        if let Some(row) = row(line, &columns) {
            *line = row;
        }
    }
    Some(lines.remove(head))
}

/// The columns that a line names; `None` for any other line.
fn columns(line: &str) -> Option<Columns> {
    MARKS.into_iter().find_map(|mark| {
        let cells: Vec<String> = line.split(mark).map(|cell| cell.trim().to_lowercase()).collect();
        let of = |known: &[&str]| cells.iter().position(|cell| known.contains(&cell.as_str()));
        Some(Columns { mark, name: of(&NAMES)?, amount: of(&AMOUNTS)?, unit: of(&UNITS)?, count: cells.len() })
    })
}

/// A row with its amount and unit behind its name, and what else it has behind commas.
fn row(line: &str, columns: &Columns) -> Option<String> {
    let cells: Vec<&str> = line.split(columns.mark).map(str::trim).collect();
    let of = |at: usize| cells.get(at).copied();
    let (name, amount, unit) = (of(columns.name)?, of(columns.amount)?, of(columns.unit)?);
    if cells.len() != columns.count || name.is_empty() || !amount.starts_with(|c: char| c.is_numeric()) {
        return None;
    }
    let amount = format!("{name}  {amount} {unit}");
    let others = (0..cells.len()).filter(|at| ![columns.name, columns.amount, columns.unit].contains(at));
    let others = others.filter_map(of).filter(|cell| !cell.is_empty());
    Some(std::iter::once(amount.trim_end()).chain(others).collect::<Vec<&str>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::in_order;

    #[test]
    fn columns_may_stand_in_any_order() {
        for (sheet, wanted) in [
            ("Rolls\nQty,Unit,Item\n2.5,kg,Wheat flour\n60,g,Salt", vec!["Rolls", "Wheat flour  2.5 kg", "Salt  60 g"]),
            ("Item;Qty;Unit;From\nWheat flour;2,5;kg;mill\nEgg;4;;", vec!["Wheat flour  2,5 kg, mill", "Egg  4"]),
            ("Item\tQty\tUnit\nWater\t2.1\tl\nKnead 10 min.", vec!["Water  2.1 l", "Knead 10 min."]),
            ("Name the item, its unit, and weigh it", vec!["Name the item, its unit, and weigh it"]),
        ] {
            let mut lines: Vec<String> = sheet.lines().map(str::to_owned).collect();
            in_order(&mut lines);
            assert_eq!(lines, wanted);
        }
    }
}
