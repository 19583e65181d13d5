//! What one line of a book says, in the one layout.

use super::Page;
use super::amount::{quantity, written};
use super::clause::{joined, with_clauses};
use crate::language::syntax::{BookLine, PageClause, PageSize};

/// Writes what a line says; `None` for a line that must stay as it is.
pub(super) fn said(page: Page<'_>, line: &BookLine) -> Option<String> {
    Some(match line {
        BookLine::Title(words) => format!("book {}", words.value),
        BookLine::By(words) => format!("by {}", words.value),
        BookLine::Address(words) => format!("address {}", words.value),
        BookLine::Chapter(words) => format!("chapter {}", words.value),
        BookLine::Page { path, clauses } => {
            let clauses: Option<Vec<String>> = clauses.iter().map(|clause| page_clause(page, &clause.value)).collect();
            with_clauses(format!("page \"{}\"", path.value), clauses?)
        }
    })
}

fn page_clause(page: Page<'_>, clause: &PageClause) -> Option<String> {
    Some(match clause {
        PageClause::Sizes(sizes) => {
            let sizes: Vec<String> = sizes.iter().map(|size| page_size(page, &size.value)).collect();
            let word = if sizes.len() == 1 { "size" } else { "sizes" };
            format!("{word} {}", sizes.join(" and "))
        }
        PageClause::Choose(first, None) => format!("choose {first}"),
        PageClause::Choose(first, Some(second)) => {
            format!("choose {}", joined(&[first.clone(), second.clone()], " = "))
        }
        PageClause::Broken => return None,
    })
}

fn page_size(page: Page<'_>, size: &PageSize) -> String {
    match size {
        PageSize::Pieces(count, None) => written(page, count),
        PageSize::Pieces(count, Some(noun)) => format!("{} {noun}", written(page, count)),
        PageSize::Mass(mass) => quantity(page, mass),
        PageSize::Times(times) => format!("x {}", written(page, times)),
    }
}
