//! The list as plain text for the terminal.

use super::{place, remarks, section_title};
use crate::figures::list::List;
use crate::out::report::clean;
use crate::out::text::{Style, wrap};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Renders the list.
pub fn render(list: &List, style: Style) -> String {
    let mut out = String::new();
    let batches: Vec<String> =
        list.batches
            .iter()
            .map(|batch| {
                if batch.makes.is_empty() { batch.recipe.clone() } else { format!("{}: {}", batch.recipe, batch.makes) }
            })
            .collect();
    let _ = writeln!(out, "{}", wrap(&clean(&batches.join(" · ")), style.width, "", ""));
    let _ = writeln!(out, "\n{}", style.bold("BUY"));
    let widest = list.buy.iter().flat_map(|section| &section.items).map(|item| item.shown.width()).max().unwrap_or(0);
    for section in &list.buy {
        let _ = writeln!(out, "{}", style.bold(&clean(section_title(section.name.as_deref()))));
        for item in &section.items {
            let remarks = remarks(item);
            let remarks = if remarks.is_empty() { String::new() } else { format!(" ({})", remarks.join(", ")) };
            let indent = " ".repeat(widest + 4);
            let line = clean(&format!("{}{remarks}", item.name)).into_owned();
            let first = format!("  {}{}  ", " ".repeat(widest.saturating_sub(item.shown.width())), item.shown);
            let _ = writeln!(out, "{}", wrap(&line, style.width, &first, &indent));
        }
    }
    let _ = writeln!(out, "\n{}", style.bold("WEIGH OUT"));
    for one in &list.weigh {
        let total = if one.shown.is_empty() { String::new() } else { format!(": {}", one.shown) };
        let _ = writeln!(out, "{}", style.bold(&clean(&format!("{}{total}", one.name))));
        let widest = one.portions.iter().map(|portion| portion.shown.width()).max().unwrap_or(0);
        for portion in &one.portions {
            let how = portion.preparation.as_ref().map_or(String::new(), |how| format!(", {how}"));
            let line = clean(&format!("{}{how}", place(&portion.recipe, &portion.part))).into_owned();
            let first = format!("  {}{}  ", " ".repeat(widest.saturating_sub(portion.shown.width())), portion.shown);
            let _ = writeln!(out, "{}", wrap(&line, style.width, &first, &" ".repeat(widest + 4)));
        }
    }
    out
}
