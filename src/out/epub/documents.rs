//! What is read in the book: title, contents, chapters, recipes, allergens, index.

use super::xhtml::document;
use super::{Files, Item};
use crate::figures::book::{Book, Entry, Indexed};
use crate::figures::reader::ReaderPage;
use crate::out::reader::html::article;
use crate::out::report::clean;
use maud::{Markup, html};

const ALLERGENS: &str = "Allergens";
const INDEX: &str = "Index of ingredients";

/// All documents, in the order in which they are read.
pub(super) fn all(book: &Book, pages: &[ReaderPage], pictures: &Files<'_>) -> Vec<Item> {
    let mut pages = pages.iter();
    let title = clean(&book.title);
    let mut all = vec![
        Item::document("title", "title.xhtml", document(&title, "", "frontmatter", &title_page(book))),
        Item { properties: Some("nav"), ..Item::document("nav", "nav.xhtml", contents(book)) },
    ];
    for (number, chapter) in (first_number(book)..).zip(&book.chapters) {
        if let Some(name) = &chapter.title {
            let name = clean(name);
            let body = html! {
                section epub:type="chapter" role="doc-chapter" aria-label=(name) {
                    p.number { (number) }
                    h1 { (name) }
                    ul.chapter { @for entry in &chapter.entries { li { (link(entry, "")) } } }
                }
            };
            let path = chapter_path(number);
            all.push(Item::document(format!("chapter-{number}"), path, document(&name, "", "bodymatter", &body)));
        }
        for (entry, page) in chapter.entries.iter().zip(pages.by_ref()) {
            let body = html! { (article(page, pictures)) };
            let page = document(&clean(&entry.title), "../", "bodymatter", &body);
            all.push(Item::document(format!("recipe-{}", entry.slug), recipe_path(entry), page));
        }
    }
    if has_allergens(book) {
        let page = document(ALLERGENS, "", "backmatter", &allergens(book));
        all.push(Item::document("allergens", "allergens.xhtml", page));
    }
    if !book.ingredients.is_empty() {
        let page = document(INDEX, "", "backmatter", &index(book));
        all.push(Item::document("ingredients", "ingredients.xhtml", page));
    }
    all
}

/// The number of the first chapter: what stands before all chapters has none.
fn first_number(book: &Book) -> usize {
    usize::from(book.chapters.first().is_some_and(|chapter| chapter.title.is_some()))
}

fn chapter_path(number: usize) -> String {
    format!("chapter-{number}.xhtml")
}

fn recipe_path(entry: &Entry) -> String {
    format!("recipes/{}.xhtml", entry.slug)
}

/// A recipe's name as a link; `up` leads to the folder of the recipes.
fn link(entry: &Entry, up: &str) -> Markup {
    html! { a href={ (up) (recipe_path(entry)) } { (clean(&entry.title)) } }
}

fn title_page(book: &Book) -> Markup {
    html! {
        section.titlepage epub:type="titlepage" aria-label="Title" {
            h1 { (clean(&book.title)) }
            @if let Some(by) = &book.by { p.by { (clean(by)) } }
            @if let Some(address) = &book.address { p.address { (clean(address)) } }
        }
    }
}

fn has_allergens(book: &Book) -> bool {
    !book.allergens.is_empty() || book.entries().any(|entry| !entry.told.allergens_unknown.is_empty())
}

/// The contents, which reading systems show and readers may read.
fn contents(book: &Book) -> String {
    let body = html! {
        nav epub:type="toc" role="doc-toc" aria-labelledby="contents" {
            h1 id="contents" { "Contents" }
            ol {
                @for (number, chapter) in (first_number(book)..).zip(&book.chapters) {
                    @match &chapter.title {
                        Some(name) => li {
                            a href=(chapter_path(number)) { (clean(name)) }
                            @if !chapter.entries.is_empty() {
                                ol { @for entry in &chapter.entries { li { (link(entry, "")) } } }
                            }
                        },
                        None => { @for entry in &chapter.entries { li { (link(entry, "")) } } }
                    }
                }
                @if has_allergens(book) { li { a href="allergens.xhtml" { (ALLERGENS) } } }
                @if !book.ingredients.is_empty() { li { a href="ingredients.xhtml" { (INDEX) } } }
            }
        }
        nav epub:type="landmarks" aria-labelledby="guide" hidden="hidden" {
            h2 id="guide" { "Guide" }
            ol {
                li { a epub:type="titlepage" href="title.xhtml" { "Title" } }
                li { a epub:type="toc" href="nav.xhtml" { "Contents" } }
                @if let Some(first) = first_path(book) {
                    li { a epub:type="bodymatter" href=(first) { "Recipes" } }
                }
                @if !book.ingredients.is_empty() {
                    li { a epub:type="index" href="ingredients.xhtml" { (INDEX) } }
                }
            }
        }
    };
    document("Contents", "", "frontmatter", &body)
}

/// Where the recipes begin.
fn first_path(book: &Book) -> Option<String> {
    let first = book.chapters.first()?;
    match &first.title {
        Some(_) => Some(chapter_path(1)),
        None => first.entries.first().map(recipe_path),
    }
}

/// Which recipe contains what, in words: a wide table does not fit where this is read.
fn allergens(book: &Book) -> Markup {
    html! {
        section aria-labelledby="allergens" {
            h1 id="allergens" { (ALLERGENS) }
            table.allergens {
                thead { tr { th scope="col" { "Recipe" } th scope="col" { "Contains" } th scope="col" { "Not known of" } } }
                tbody {
                    @for entry in book.entries() {
                        tr {
                            th scope="row" { (link(entry, "")) }
                            td { (words(&entry.told.allergens)) }
                            td { (words(&entry.told.allergens_unknown)) }
                        }
                    }
                }
            }
        }
    }
}

fn words(all: &[String]) -> String {
    if all.is_empty() { "–".to_owned() } else { clean(&all.join(", ")).into_owned() }
}

fn index(book: &Book) -> Markup {
    let entries: Vec<&Entry> = book.entries().collect();
    let of = |one: &Indexed| one.entries.iter().filter_map(|at| entries.get(*at).copied()).collect::<Vec<&Entry>>();
    html! {
        section epub:type="index" role="doc-index" aria-labelledby="ingredients" {
            h1 id="ingredients" { (INDEX) }
            dl.index {
                @for one in &book.ingredients {
                    div {
                        dt { (clean(&one.name)) }
                        @for entry in of(one) { dd { (link(entry, "")) } }
                    }
                }
            }
        }
    }
}
