//! The list as comma-separated values, RFC 4180, for a spreadsheet.

use crate::figures::list::List;
use crate::out::report::clean;

/// The columns.
const HEAD: [&str; 9] = ["list", "section", "ingredient", "needed_g", "bought_g", "shown", "pieces", "recipe", "part"];

/// Renders the list: one row for each thing to buy, then one for each weighing.
pub fn render(list: &List) -> String {
    let mut out = String::new();
    row(&mut out, &HEAD.map(str::to_owned));
    let grams =
        |mass: Option<crate::measure::quantity::Mass>| mass.map(|mass| mass.value().decimal(3)).unwrap_or_default();
    for section in &list.buy {
        for item in &section.items {
            let shown: Vec<String> = std::iter::once(&item.shown)
                .chain(&item.besides)
                .filter(|one| !one.is_empty())
                .map(ToString::to_string)
                .collect();
            row(
                &mut out,
                &[
                    "buy".to_owned(),
                    section.name.clone().unwrap_or_default(),
                    item.name.clone(),
                    grams(item.needed),
                    grams(item.bought),
                    shown.join("; "),
                    item.pieces.map(|pieces| pieces.to_string()).unwrap_or_default(),
                    String::new(),
                    String::new(),
                ],
            );
        }
    }
    let kept = |list: &str, name: &str, mass: Option<crate::measure::quantity::Mass>, shown: &str, of: &str| {
        let none = String::new;
        [list.to_owned(), none(), name.to_owned(), grams(mass), none(), shown.to_owned(), none(), of.to_owned(), none()]
    };
    for one in &list.store {
        row(
            &mut out,
            &kept("store", &one.name, one.mass, &one.shown.to_string(), one.of.as_deref().unwrap_or_default()),
        );
    }
    for one in &list.stocked {
        row(&mut out, &kept("stock", &one.name, Some(one.taken), &one.taken_shown.to_string(), ""));
    }
    for one in &list.left {
        row(&mut out, &kept("left over", &one.of.what, one.of.remains, &one.shown.to_string(), ""));
    }
    for one in &list.weigh {
        for portion in &one.portions {
            row(
                &mut out,
                &[
                    "weigh".to_owned(),
                    String::new(),
                    one.name.clone(),
                    grams(portion.mass),
                    String::new(),
                    portion.shown.to_string(),
                    portion.pieces.map(|pieces| pieces.decimal(2)).unwrap_or_default(),
                    portion.recipe.clone(),
                    portion.part.clone(),
                ],
            );
        }
    }
    out
}

fn row(out: &mut String, cells: &[String; 9]) {
    let cells: Vec<String> = cells.iter().map(|text| cell(text)).collect();
    line(out, &cells);
}

/// A row of cells that are ready to stand in it.
pub(in crate::out) fn line(out: &mut String, cells: &[String]) {
    out.push_str(&cells.join(","));
    out.push_str("\r\n");
}

/// A cell that no spreadsheet takes for a formula, quoted where it must be.
pub(in crate::out) fn cell(text: &str) -> String {
    let clean = clean(text).replace(['\n', '\t'], " ");
    let clean = clean.trim();
    // An apostrophe in front is how spreadsheets mark text; white space before the sign would not stop them.
    let harmless =
        if clean.starts_with(['=', '+', '-', '@', '|', '%']) { format!("'{clean}") } else { clean.to_owned() };
    if harmless.contains(['"', ',']) { format!("\"{}\"", harmless.replace('"', "\"\"")) } else { harmless }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn a_cell_is_never_a_formula() {
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(cell(" @SUM(A1)"), "'@SUM(A1)");
        assert_eq!(cell("-x, \"y\""), "\"'-x, \"\"y\"\"\"");
        assert_eq!(cell("plain flour"), "plain flour");
    }
}
