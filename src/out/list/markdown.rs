//! The list as CommonMark with tables.

use super::{place, remarks, section_title};
use crate::figures::list::List;
use crate::out::markdown::{escaped, row};
use std::fmt::Write;

/// Renders the list.
pub fn render(list: &List) -> String {
    let mut out = String::from("# What to buy and to weigh out\n\n");
    for batch in &list.batches {
        let makes = if batch.makes.is_empty() { String::new() } else { format!(": **{}**", escaped(&batch.makes)) };
        let _ = writeln!(out, "- {}{makes}", escaped(&batch.recipe));
    }
    out.push_str("\n## Buy\n");
    for section in &list.buy {
        let _ = writeln!(out, "\n### {}\n", escaped(section_title(section.name.as_deref())));
        row(&mut out, &["ingredient".to_owned(), "amount".to_owned(), "and".to_owned()]);
        out.push_str("|---|--:|---|\n");
        for item in &section.items {
            row(&mut out, &[escaped(&item.name), escaped(&item.shown), escaped(&remarks(item).join(", "))]);
        }
    }
    out.push_str("\n## Weigh out\n\n");
    row(&mut out, &["ingredient".to_owned(), "in all".to_owned(), "for".to_owned(), "amount".to_owned()]);
    out.push_str("|---|--:|---|--:|\n");
    for one in &list.weigh {
        for (at, portion) in one.portions.iter().enumerate() {
            let how = portion.preparation.as_ref().map_or(String::new(), |how| format!(", {how}"));
            let first = at == 0;
            row(
                &mut out,
                &[
                    if first { escaped(&one.name) } else { String::new() },
                    if first { escaped(&one.shown) } else { String::new() },
                    escaped(&format!("{}{how}", place(&portion.recipe, &portion.part))),
                    escaped(&portion.shown),
                ],
            );
        }
    }
    out
}
