//! What is wrong with a book: chapters without pages, recipes that stand in it twice, sizes that cannot be made.

use super::work_out;
use crate::make::order::Order;
use crate::make::size::{self, AskedBy};
use crate::model::book::{Book, Page, Size};
use crate::model::project::Project;
use crate::solve::resolve;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use rayon::prelude::*;
use std::collections::HashMap;
use std::collections::hash_map::Entry;

/// What is wrong with a book and its pages; what is wrong with its recipes is told with them.
pub(super) fn check(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let Some(book) = resolve::book::book(project, source, diagnostics) else { return };
    chapters(&book, source, diagnostics);
    twice(&book, diagnostics);
    let pages: Vec<&Page> = book.pages().filter(|page| !page.sizes.is_empty()).collect();
    let found: Vec<Vec<Diagnostic>> = pages.par_iter().map(|page| sizes(project, page)).collect();
    diagnostics.extend(found.into_iter().flatten());
}

/// The size as it is asked of a recipe.
pub fn asked(size: Size) -> size::Size {
    match size {
        Size::Pieces(count) => size::Size::Pieces(count),
        Size::Total(mass) => size::Size::Total(mass),
        Size::Times(times) => size::Size::Times(times),
    }
}

fn chapters(book: &Book, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let mut known: HashMap<String, Span> = HashMap::new();
    for chapter in &book.chapters {
        let Some(title) = &chapter.title else { continue };
        if chapter.pages.is_empty() && chapter.lost == 0 {
            diagnostics.push(
                Diagnostic::warning("empty-chapter", title.span, format!("no page stands in `{}`", title.value))
                    .help("write its pages below it, `page \"buns.miche\"`, or take the line out"),
            );
        }
        if let Some(first) = known.insert(title.value.to_lowercase(), title.span) {
            diagnostics.push(
                Diagnostic::warning("twice-named", title.span, format!("two chapters are called `{}`", title.value))
                    .also(first, "the other")
                    .help("give one of them another name, or put their pages together"),
            );
        }
    }
    if book.chapters.iter().all(|chapter| chapter.title.is_none() && chapter.pages.is_empty() && chapter.lost == 0) {
        diagnostics.push(
            Diagnostic::error("empty-chapter", Span::new(source, 0, 0), "the book has no page")
                .help("name a recipe for each: `page \"buns.miche\"`"),
        );
    }
}

/// A recipe by one way: its file, and the option of each choice that is decided.
type ByOneWay<'b> = (SourceId, Vec<(&'b str, &'b str)>);

/// Recipes that stand in the book twice by the same way.
fn twice(book: &Book, diagnostics: &mut Vec<Diagnostic>) {
    let mut known: HashMap<ByOneWay<'_>, Span> = HashMap::new();
    for page in book.pages().filter(|page| !page.is_unclear) {
        let Some(place) = page.place else { continue };
        let way = page.selection.iter().map(|(choice, option)| (choice.as_str(), option.as_str())).collect();
        match known.entry((page.recipe, way)) {
            Entry::Occupied(first) => diagnostics.push(
                Diagnostic::error("twice-named", place, "this recipe stands in the book already")
                    .also(*first.get(), "here")
                    .help("take one of the two lines out; several sizes stand on one line: `sizes 10 and 20`"),
            ),
            Entry::Vacant(free) => {
                free.insert(place);
            }
        }
    }
}

/// Sizes that the recipe cannot be made in, or that are said twice.
fn sizes(project: &Project, page: &Page) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut broken = Vec::new();
    let worked = work_out(project, page.recipe, &page.selection, &mut broken);
    let mut seen: Vec<Spanned<Size>> = Vec::new();
    for size in &page.sizes {
        if let Some(first) = seen.iter().find(|known| known.value == size.value) {
            found.push(
                Diagnostic::warning("twice-named", size.span, "this size is named twice")
                    .also(first.span, "the other")
                    .help("take one of the two out"),
            );
        }
        seen.push(*size);
        // What is wrong with the recipe is told there.
        if broken.iter().any(super::stops) {
            continue;
        }
        let Some((recipe, written)) = &worked else { continue };
        if let Err(impossible) = Order::sized(recipe.clone(), written, &asked(size.value)) {
            let message = format!("{} cannot be made in this size: {}", recipe.name, impossible.why);
            let help = impossible.help.map(|instead| instead.shown(AskedBy::Page));
            let help = help.unwrap_or_else(|| "name another size, or leave the clause out".to_owned());
            found.push(Diagnostic::error("size-not-made", size.span, message).help(help));
        }
    }
    found
}
