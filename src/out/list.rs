//! The list in every format: what to buy and what to weigh out.

pub mod csv;
pub mod json;
pub mod markdown;
pub mod text;

use crate::figures::list::Bought;

/// What stands behind the amount of something to buy: pieces, what has no weight, other names, whether it is optional.
pub(super) fn remarks(item: &Bought) -> Vec<String> {
    let mut remarks = Vec::new();
    remarks.extend(item.pieces.map(|pieces| format!("{pieces} {}", if pieces == 1 { "piece" } else { "pieces" })));
    remarks.extend(item.besides.iter().cloned());
    if !item.also.is_empty() {
        remarks.push(format!("also for {}", crate::measure::show::list(&item.also)));
    }
    if item.optional {
        remarks.push("optional".to_owned());
    }
    remarks
}

/// The heading of a section of the shop.
pub(super) fn section_title(name: Option<&str>) -> &str {
    name.unwrap_or("elsewhere")
}

/// `Harbour rolls, dough`; the part is left out where it has the recipe's name.
pub(super) fn place(recipe: &str, part: &str) -> String {
    if recipe == part { recipe.to_owned() } else { format!("{recipe}, {part}") }
}
