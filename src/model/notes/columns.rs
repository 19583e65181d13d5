//! Two lists beside each other, as on a page of a book: `500 g flour          60 g butter`.

use super::ingredient::{begins_a_list, begins_with_amount};

/// So many blanks part a column from the next.
const GAP: &str = "   ";
/// So many lines with two columns are no chance.
const ENOUGH: usize = 2;

/// Parts lines of which each column is an ingredient with its amount; gives whether there are any.
pub(super) fn part(lines: &mut Vec<String>) -> bool {
    if lines.iter().filter(|line| columns(line).is_some()).count() < ENOUGH {
        return false;
    }
    let each = |line: &String| {
        columns(line).map_or_else(|| vec![line.clone()], |columns| columns.into_iter().map(str::to_owned).collect())
    };
    *lines = lines.iter().flat_map(each).collect();
    true
}

/// The columns of a line, each of them an amount and a name; `None` for any other line.
fn columns(line: &str) -> Option<Vec<&str>> {
    if line.contains('|') || !(line.contains('\t') || line.trim().contains(GAP)) {
        return None;
    }
    let cells: Vec<&str> =
        line.split('\t').flat_map(|cell| cell.split(GAP)).map(str::trim).filter(|cell| !cell.is_empty()).collect();
    (cells.len() > 1 && cells.iter().all(|cell| is_item(cell))).then_some(cells)
}

/// Whether a cell is so much, or so many, of something: `60 g butter`, `1 egg`.
fn is_item(cell: &str) -> bool {
    begins_with_amount(cell) || cell.starts_with(|c: char| c.is_ascii_digit()) && begins_a_list(cell)
}

#[cfg(test)]
mod tests {
    use super::part;

    #[test]
    fn only_amounts_with_names_are_columns() {
        let parted = |text: &str| {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            part(&mut lines);
            lines
        };
        assert_eq!(
            parted("500 g flour          60 g butter\n300 g water\t1 tsp salt"),
            ["500 g flour", "60 g butter", "300 g water", "1 tsp salt"]
        );
        for text in [
            "500 g flour    strong\n300 g water    warm",
            "flour    500 g    1000 g\nwater    300 g    600 g",
            "500 g    flour\n300 g    water",
            "500 g flour    60 g butter\nknead",
        ] {
            assert_eq!(parted(text), text.lines().collect::<Vec<&str>>(), "{text}");
        }
    }
}
