//! Tables out of a spreadsheet: what stands over a column is the unit of the numbers below it.

use super::amount;
use super::measure::{holds_amount, measure};
use super::pieces::is_in_pieces;

/// What was found of tables.
#[derive(Debug)]
pub(super) struct Table {
    /// The places of the lines that say the units.
    pub(super) heads: Vec<usize>,
    /// What stands below a unit and is read as pieces: `eggs 2` below `g`.
    pub(super) pieces: Vec<String>,
}

/// Writes the unit that stands over a column behind each bare number below it: `Flour`, `1000`, `100` below `Ingredient`, `g`, `%`.
///
/// A table is some lines of cells that tabs or bars part. A line above it without a unit, and every other line, stays as it is.
///
pub(super) fn with_units(lines: &mut [String]) -> Table {
    let mut found = Vec::new();
    let mut pieces = Vec::new();
    let mut units: Vec<Option<&'static str>> = Vec::new();
    let mut prices: Vec<Option<String>> = Vec::new();
    // Whether the head stands over several lists, with a name above each.
    let mut over_parts = false;
    let mut headed = false;
    let mark = if parts_by_semicolons(lines) { ';' } else { ',' };
    for line in lines.iter_mut() {
        let row = of_marks(line, mark, headed);
        headed = row.is_some() && (headed || line.split(mark).skip(1).any(|cell| unit_over(cell).is_some()));
        if let Some(row) = row {
            *line = row;
        }
    }
    for at in 0..lines.len() {
        let Some(line) = lines.get(at) else { break };
        if is_rule(line) {
            continue;
        }
        // `1x   2x`: how many batches what stands below is.
        if cells(line).is_some_and(|row| row.iter().all(|cell| counts_times(cell))) {
            found.push(at);
            continue;
        }
        let by_blanks = !line.contains(['\t', '|']);
        // `%   kg` above the numbers alone: over the names stands nothing.
        let bare_head = by_blanks
            && line.starts_with("   ")
            && cells(line).is_some_and(|row| row.iter().all(|cell| unit_over(cell).is_some()));
        let below = lines.get(at + 1..).unwrap_or_default();
        let below = below
            .iter()
            .find(|line| !is_rule(line) && (!bare_head || cells(line).is_some()))
            .cloned()
            .unwrap_or_default();
        let Some(line) = lines.get_mut(at) else { break };
        if bare_head {
            line.insert(0, '\u{2013}');
        }
        let Some(row) = cells(line) else {
            // A part's name among the rows, and a gap above it, end no table of blanks.
            let is_name =
                line.split_whitespace().count() <= 3 && !line.contains(char::is_numeric) && !line.ends_with('.');
            if over_parts && is_name {
                continue;
            }
            units.clear();
            continue;
        };
        // One line of a table says what stands below it, and holds no figure: the first, or below what the table is of, `Rolls  2026`.
        if units.is_empty() {
            let heads: Vec<Option<&'static str>> = row.iter().map(|cell| unit_over(cell)).collect();
            let over = |(unit, cell): (&Option<&'static str>, &&str)| unit.is_some() && is_bare(cell);
            // A sheet may say its units in the cells, and of its numbers alone that they are prices.
            let priced = |(head, cell): (&&str, &&str)| is_price(head) && is_bare(cell);
            let over_some = |next: &Vec<&str>| heads.iter().zip(next).any(over) || row.iter().zip(next).any(priced);
            let fits = cells(&below).is_some_and(|next| next.len() == heads.len() && over_some(&next));
            // `Batch 2 g` over a column counts the batches and weighs nothing.
            let numbered = |cell: &&str| unit_over(cell).is_some() && counts_batches(cell);
            // A batch stands beside shares; `flour  500 g  1 kg` is a row.
            let beside_shares = row.iter().any(|cell| unit_over(cell) == Some("%") && !holds_amount(cell));
            let is_head = |cell: &&str| numbered(cell) || beside_shares && is_batch(cell);
            let heads_no_unit = |cell: &&str| is_bare(cell) || (holds_amount(cell) && !is_head(cell));
            if fits && !row.iter().any(heads_no_unit) {
                over_parts = bare_head;
                units = heads;
                prices = row.iter().map(|cell| is_price(cell).then(|| (*cell).to_owned())).collect();
                found.push(at);
            } else if let Some(both) = of_two_batches(&row).filter(|_| !line.contains('|')) {
                *line = both;
            }
            continue;
        }
        if !units.is_empty() {
            *line = with_those(&row, &units, &prices, &mut pieces);
        }
    }
    Table { heads: found, pieces }
}

/// Whether a line only draws a rule below the head of a table: `|---|---|`.
fn is_rule(line: &str) -> bool {
    line.contains('-') && line.chars().all(|c| matches!(c, '-' | '|' | ':' | '+' | '=') || c.is_whitespace())
}

/// Whether a sheet was saved with semicolons between its cells, as it is wherever a comma stands before decimals: `flour;2,5;kg`.
fn parts_by_semicolons(lines: &[String]) -> bool {
    let mut rows = lines.iter().filter(|line| line.contains(';'));
    let is_row = |line: &String| of_marks(line, ';', true).is_some();
    rows.clone().count() > 1 && rows.clone().any(is_row) && rows.all(|line| !line.contains("; "))
}

/// A row out of a spreadsheet whose cells commas or semicolons part, `flour,1000,100`, with bars between them; `None` for any other line.
///
/// `headed`: a head with a unit stands above, so that a cell may hold words, or nothing.
fn of_marks(line: &str, mark: char, headed: bool) -> Option<String> {
    let cells: Vec<&str> = line.trim().split(mark).collect();
    let (name, others) = cells.split_first().filter(|(_, others)| others.len() > 1)?;
    let is_cell = |cell: &&str| {
        let digits = |c: char| c.is_ascii_digit() || c == '.' || (c == ',' && mark != ',');
        let plain = !cell.is_empty() && cell.chars().all(digits);
        plain || unit_over(cell).is_some() && !cell.contains(' ')
    };
    let is_word = |cell: &&str| !cell.contains(char::is_numeric) && cell.split_whitespace().count() <= 2;
    let is_head = || others.iter().all(is_word) && others.iter().any(|cell| unit_over(cell).is_some());
    let is_row = || {
        headed && others.iter().all(|cell| is_cell(cell) || is_word(cell)) && others.iter().any(|cell| is_bare(cell))
    };
    let fits = name.starts_with(char::is_alphabetic)
        && !line.contains(&format!("{mark} "))
        && (others.iter().all(is_cell) || is_head() || is_row());
    fits.then(|| cells.join(" | "))
}

/// A row in which a unit stands in a cell of its own behind the number: `flour | 1000 | g` is `flour | 1000 g`.
pub(super) fn joined_units(line: &str) -> String {
    let cells: Vec<&str> = line.split(" | ").collect();
    let mut joined = String::with_capacity(line.len());
    for (at, cell) in cells.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|before| cells.get(before));
        let is_unit = before.is_some_and(|before| is_bare(before)) && amount::is_unit(&cell.trim().to_lowercase());
        joined.push_str(match at {
            0 => "",
            _ if is_unit => " ",
            _ => " | ",
        });
        joined.push_str(cell);
    }
    joined
}

/// A row with its units: what has none stands behind what has one, so that no two figures stand side by side.
fn with_those(
    row: &[&str],
    units: &[Option<&'static str>],
    prices: &[Option<String>],
    pieces: &mut Vec<String>,
) -> String {
    let mut names: Vec<&str> = Vec::new();
    let (mut amounts, mut others) = (Vec::new(), Vec::new());
    for (at, cell) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
        match units.get(at).copied().flatten() {
            // `all` of a part is no figure.
            Some(_) if cell.eq_ignore_ascii_case("all") => others.push((*cell).to_owned()),
            // Nobody weighs two grams of eggs.
            Some("g" | "oz") if names.first().is_some_and(|name| is_few(name, cell)) => {
                pieces.push(format!("{} {cell}", names.join(" ")));
                amounts.push((*cell).to_owned());
            }
            Some(unit) if is_bare(cell) => amounts.push(format!("{cell} {unit}")),
            Some(_) => amounts.push((*cell).to_owned()),
            None if names.is_empty() && cell.contains(char::is_alphabetic) => names.push(cell),
            // `900 g` below `Metric` says its own unit.
            None if !names.is_empty() && is_weight(cell) && !matches!(prices.get(at), Some(Some(_))) => {
                amounts.push((*cell).to_owned())
            }
            // A price is no number of pieces.
            None => others.push(match prices.get(at) {
                Some(Some(price)) => format!("{price} {cell}"),
                _ => (*cell).to_owned(),
            }),
        }
    }
    let amounts = amounts.join(" | ");
    let whole =
        names.into_iter().chain((!amounts.is_empty()).then_some(amounts.as_str())).collect::<Vec<&str>>().join("  ");
    std::iter::once(whole).chain(others).collect::<Vec<String>>().join(", ")
}

/// Whether a cell is a number of pieces sooner than of grams.
fn is_few(name: &str, cell: &str) -> bool {
    measure(cell)
        .is_some_and(|(found, rest)| found.unit.is_none() && rest.trim().is_empty() && is_in_pieces(name, found.value))
}

/// Whether a column's head says that prices stand below it.
fn is_price(head: &str) -> bool {
    let lower = head.to_lowercase();
    ["cost", "price", "value", "\u{a3}", "$", "\u{20ac}"].iter().any(|word| lower.contains(word))
}

/// The cells of a line of a table; `None` for a line that is none.
fn cells(line: &str) -> Option<Vec<&str>> {
    let bare = line.trim_matches(' ');
    // `| | g | %`: the first cell is empty.
    let bare = bare.strip_prefix('|').unwrap_or(bare);
    let bare = bare.strip_suffix('|').unwrap_or(bare);
    let cells: Vec<&str> = match (line.contains('\t'), line.contains('|')) {
        (true, _) => bare.split('\t').map(str::trim).collect(),
        (false, true) => bare.split('|').map(str::trim).collect(),
        (false, false) => bare.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect(),
    };
    (cells.len() > 1).then_some(cells)
}

/// The unit that a column's head says: `g`, `Weight (g)`, `baker's %`.
fn unit_over(head: &str) -> Option<&'static str> {
    // `price/kg`, `€ per kg`: what a kilogram costs, and no weight.
    if is_price(head) {
        return None;
    }
    let last = head.rsplit([' ', '(', ',', '/']).find(|word| !word.trim_matches(')').is_empty())?;
    let alone = last.trim_matches(')');
    match amount::unit(alone) {
        Some((amount::Unit::Known(unit), _, "")) => Some(unit),
        // `10kg`, `10 kg` over the weights of a batch of so much.
        Some(_) => None,
        None => measure(head).filter(|(_, rest)| rest.trim().is_empty()).and_then(|(batch, _)| batch.known()),
    }
}

/// Whether a column's head is what the batch weighs: `10kg` beside `%`.
fn is_batch(head: &str) -> bool {
    measure(head).is_some_and(|(batch, rest)| batch.is_mass() && rest.trim().is_empty())
}

/// What a table is of, where its head says so: the `Baguette` of `Baguette   %   10kg`.
pub(super) fn title(head: &str) -> Option<&str> {
    let row = cells(head)?;
    let first = row.first().filter(|first| first.chars().any(char::is_alphabetic) && unit_over(first).is_none())?;
    row.iter().skip(1).any(|cell| is_batch(cell)).then_some(*first)
}

/// Whether a column's head numbers what stands below it, `Batch 2 g`, and weighs nothing, as `pieces of 85 g` does.
fn counts_batches(head: &str) -> bool {
    let mut words = head.split_whitespace().rev().skip(1);
    let number = words.next().and_then(|word| word.parse::<u32>().ok());
    let named = words.next().is_some_and(|word| word.chars().all(char::is_alphabetic) && word != "of");
    number.is_some_and(|number| number <= 20) && named
}

/// `butter   600 g   1200 g`: two batches of one thing, the second behind a bar.
fn of_two_batches(row: &[&str]) -> Option<String> {
    let [name, one, other] = row else { return None };
    (!name.contains(char::is_numeric) && is_weight(one) && is_weight(other)).then(|| format!("{name}  {one} | {other}"))
}

/// Whether a cell is a weight or a volume with its unit.
fn is_weight(cell: &str) -> bool {
    measure(cell).is_some_and(|(found, rest)| found.is_quantity() && rest.trim().is_empty())
}

/// Whether a column's head says how many batches stand below it: `2x`.
fn counts_times(head: &str) -> bool {
    head.strip_suffix(['x', '\u{d7}']).is_some_and(|many| !many.is_empty() && many.chars().all(|c| c.is_ascii_digit()))
}

/// Whether a cell is a number without a unit.
fn is_bare(cell: &str) -> bool {
    measure(cell).is_some_and(|(found, rest)| found.unit.is_none() && found.has_figure && rest.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tables as they are pasted: with a rule below the head, with cells parted by blanks or by commas.
    #[test]
    fn a_table_is_one_however_its_cells_are_parted() {
        for table in [
            "Ingredient | g | %\n|---|---|---|\n| flour | 1000 | 100 |\n| water | 780 | 78 |",
            "| | g | % |\n|:--|--:|--:|\n| flour | 1000 | 100 |\n| water | 780 | 78 |",
            "ingredient   g   %\nflour  1000  100\nwater  780  78",
            "ingredient,g,%\nflour,1000,100\nwater,780,78",
        ] {
            let mut lines: Vec<String> = table.lines().map(str::to_owned).collect();
            with_units(&mut lines);
            let rows: Vec<&String> = lines.iter().filter(|line| line.contains("00") || line.contains("78")).collect();
            assert_eq!(rows, ["flour  1000 g | 100 %", "water  780 g | 78 %"], "{table}");
        }
        // Without a head no cell has a unit, and two cells are no number.
        let mut lines = vec!["flour,1000,100".to_owned(), "water, 350 g, warm".to_owned()];
        with_units(&mut lines);
        assert_eq!(lines, ["flour | 1000 | 100", "water, 350 g, warm"]);
    }

    /// Heads set to the right, over nothing but the numbers, over several lists; and columns of words.
    #[test]
    fn a_head_may_stand_over_the_numbers_alone() {
        for (table, wanted) in [
            (
                "                 %        kg\nBiga\nflour     30       3.000\n\nDough\nbiga            all\nflour     70       7.000",
                vec!["flour  30 % | 3.000 kg", "flour  70 % | 7.000 kg"],
            ),
            ("              1x        2x\nflour               600 g     1200 g", vec!["flour  600 g | 1200 g"]),
            (
                "Ingredient,Weight (g),Supplier\nflour,350,Metro\nflour,300,",
                vec!["flour  350 g, Metro", "flour  300 g"],
            ),
        ] {
            let mut lines: Vec<String> = table.lines().map(str::to_owned).collect();
            assert_eq!(with_units(&mut lines).heads, [0], "{table}");
            let rows: Vec<&str> = lines.iter().map(String::as_str).filter(|line| line.starts_with("flour")).collect();
            assert_eq!(rows, wanted, "{table}");
        }
    }

    /// What a table is of may stand above its head, with a year or a number behind it.
    #[test]
    fn a_head_may_stand_below_a_title() {
        let mut lines: Vec<String> =
            ["Rolls\t2026", "Item\tBatch 1 g\tBatch 2 g", "flour\t500\t1000", "water\t300\t600"]
                .map(str::to_owned)
                .to_vec();
        assert_eq!(with_units(&mut lines).heads, [1]);
        assert_eq!(lines.get(2..), Some(&["flour  500 g | 1000 g".to_owned(), "water  300 g | 600 g".to_owned()][..]));
    }

    #[test]
    fn batches_that_are_numbered_are_columns() {
        let mut lines: Vec<String> =
            ["Item | Batch 1 g | Batch 2 g", "Rye | 500 | 1000", "Salt | 10 | 20"].map(str::to_owned).to_vec();
        assert_eq!(with_units(&mut lines).heads, [0]);
        assert_eq!(lines.get(1..), Some(&["Rye  500 g | 1000 g".to_owned(), "Salt  10 g | 20 g".to_owned()][..]));
        let mut listed: Vec<String> = ["Flour 500 g | strong", "Water | 300"].map(str::to_owned).to_vec();
        assert!(with_units(&mut listed).heads.is_empty(), "{listed:?}");
    }

    #[test]
    fn the_unit_over_a_column_is_that_of_its_numbers() {
        let mut lines: Vec<String> =
            ["Rye rolls", "Item\tWeight (g)\tBaker's %", "Flour\t1000\t100", "Water\t680 g\t68", "", "| salt | 20 |"]
                .map(str::to_owned)
                .to_vec();
        assert_eq!(with_units(&mut lines).heads, [1]);
        assert_eq!(
            lines,
            [
                "Rye rolls",
                "Item\tWeight (g)\tBaker's %",
                "Flour  1000 g | 100 %",
                "Water  680 g | 68 %",
                "",
                "| salt | 20 |"
            ]
        );
    }
}
