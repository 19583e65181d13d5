//! Reads printed tables back, in both systems of units, and adds their lines up.

/// A figure as it is printed: hundred-thousandths of a gram or of an ounce, so that nothing is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Figure {
    units: i128,
    in_ounces: bool,
}

const ONE: i128 = 100_000;

/// `2.35`, `1/4` or `5 3/4`.
fn number(text: &str) -> Option<i128> {
    let mut sum = 0;
    for word in text.split(' ') {
        sum += match word.split_once('/') {
            Some((over, under)) => over.parse::<i128>().ok()? * ONE / under.parse::<i128>().ok()?,
            None => {
                let (whole, fraction) = word.split_once('.').unwrap_or((word, ""));
                let digits = format!("{fraction:0<5}");
                whole.parse::<i128>().ok()? * ONE + digits.get(..5)?.parse::<i128>().ok()?
            }
        };
    }
    Some(sum)
}

fn figure(text: &str) -> Option<Figure> {
    let text = text.trim().replace(['\u{2009}'], "").replace('\u{a0}', " ");
    if text.is_empty() {
        return None;
    }
    if let Some(grams) = text.strip_suffix(" kg") {
        return Some(Figure { units: number(grams)? * 1000, in_ounces: false });
    }
    if let Some(grams) = text.strip_suffix(" g") {
        return Some(Figure { units: number(grams)?, in_ounces: false });
    }
    let (pounds, ounces) = match text.split_once(" lb") {
        Some((pounds, rest)) => (number(pounds)?, rest.trim()),
        None => (0, text.as_str()),
    };
    let ounces = match ounces.strip_suffix(" oz") {
        Some(ounces) => number(ounces)?,
        None if ounces.is_empty() => 0,
        None => return None,
    };
    Some(Figure { units: pounds * 16 + ounces, in_ounces: true })
}

/// A cell's figure and what stands behind it in brackets.
fn readings(cell: &str) -> [Option<Figure>; 2] {
    let cell = cell.trim().trim_matches('*');
    match cell.split_once(" (") {
        Some((first, second)) => [figure(first), figure(second.trim_end_matches(')'))],
        None => [figure(cell), None],
    }
}

fn cells(row: &str) -> Vec<&str> {
    row.trim().trim_start_matches('|').trim_end_matches('|').split('|').map(str::trim).collect()
}

/// Whether a row is of what is in no mix and in no total.
fn is_set_aside(row: &[&str]) -> bool {
    row.first().is_some_and(|name| name.ends_with(", set aside"))
}

/// Every column of every table of ingredients whose lines do not come to its printed total, in either reading.
pub fn wrong_totals(markdown: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut lines = markdown.lines().peekable();
    while let Some(line) = lines.next() {
        if !line.starts_with("| ingredient") {
            continue;
        }
        let head = cells(line);
        let mut rows = Vec::new();
        while let Some(row) = lines.next_if(|row| row.starts_with('|')) {
            rows.push(cells(row));
        }
        let Some(total) = rows.iter().find(|row| row.first() == Some(&"**total**")) else { continue };
        for (at, column) in head.iter().enumerate().skip(1).filter(|(_, column)| **column != "scale shows") {
            for reading in 0..2 {
                let Some(said) = total.get(at).and_then(|cell| readings(cell)[reading]) else { continue };
                let lines = rows.iter().filter(|row| row.first() != Some(&"**total**") && !is_set_aside(row));
                let figures: Vec<Figure> = lines.filter_map(|row| readings(row.get(at)?)[reading]).collect();
                if figures.is_empty() || figures.iter().any(|figure| figure.in_ounces != said.in_ounces) {
                    continue;
                }
                let sum: i128 = figures.iter().map(|figure| figure.units).sum();
                if sum != said.units {
                    let unit = if said.in_ounces { "oz" } else { "g" };
                    let [sum, said] = [sum, said.units].map(|units| units as f64 / ONE as f64);
                    wrong.push(format!("{column}: the lines come to {sum} {unit}, {said} {unit} is printed"));
                }
            }
        }
    }
    wrong
}

#[test]
fn a_table_that_does_not_add_up_is_seen() {
    let table = |total: &str| {
        format!(
            "| ingredient | % | weigh | scale shows |\n|---|--:|--:|--:|\n| flour | 100 | 1.2 kg (2 lb 10 1/4 oz) | 1.2 kg |\n\
             | salt | 2 | 24 g (0.85 oz) | 1.224 kg |\n| **total** | 102 | **{total}** |  |\n"
        )
    };
    assert_eq!(wrong_totals(&table("1.224 kg (2 lb 11.1 oz)")), Vec::<String>::new());
    assert_eq!(wrong_totals(&table("1.225 kg (2 lb 11.1 oz)")).len(), 1);
    assert_eq!(wrong_totals(&table("1.224 kg (2 lb 11 oz)")).len(), 1);
}
