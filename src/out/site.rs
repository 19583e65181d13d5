//! A book as a static site: pages that need no server, no network and no script to be read.
//!
//! Every page is a file of its own with relative links, so that the folder may stand anywhere. A script of our own adds a search,
//! boxes to tick and a screen that stays on; sizes, ways and units are pages that were written here, and no sum is done in it.

pub mod front;
pub mod indexes;
pub mod recipe;
pub mod search;

use super::report::clean;
use super::{lettering, page, typeset};
use crate::figures::book::slug::Slugs;
use crate::figures::book::{Book, Entry};
use crate::measure::show::Units;
use crate::model::published::Picture;
use maud::{Markup, PreEscaped, html};
use std::collections::BTreeMap;

const STYLE: &str = include_str!("site/site.css");
const READER: &str = include_str!("reader/reader.css");
const SCRIPT: &str = include_str!("site/site.js");

/// What all pages of a site know.
#[derive(Debug)]
pub struct Site<'b> {
    /// The book.
    pub book: &'b Book,
    /// Its pictures.
    pub pictures: Files,
    /// What git knows of its recipes, by the number of the entry; `None` where no repository is.
    pub changes: Option<Vec<Dates>>,
    /// Whether a batch card was written for every recipe.
    pub cards: bool,
    /// The files of the ingredients' pages, as [`Book::ingredients`] stands.
    ingredients: Vec<String>,
    /// The files of the allergens' pages, as [`Book::allergens`] stands.
    allergens: Vec<String>,
}

/// When a recipe was first committed and last changed, by git.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Dates {
    /// Its commits, the newest first; empty for one that was never committed.
    pub commits: Vec<Commit>,
    /// Whether there may have been others before them: the clone is shallow.
    pub is_cut: bool,
}

/// A commit that changed a recipe.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Commit {
    /// `2027-03-02`
    pub date: String,
    /// What it says.
    pub subject: String,
    /// What it changed in the formula, in sentences: none where only the text changed. `None` for the first commit of a recipe, for older
    /// ones, and where it cannot be said.
    pub words: Option<Vec<String>>,
}

impl Commit {
    /// What it changed in the formula, folded; nothing where that is not known.
    fn told(&self) -> Markup {
        html! {
            @if let Some(words) = &self.words {
                @if words.is_empty() {
                    p.told { "The formula stayed as it was." }
                } @else {
                    details.told {
                        summary { "In the formula" }
                        ul { @for sentence in words { li { (clean(sentence)) } } }
                    }
                }
            }
        }
    }
}

/// A picture of the site.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureFile {
    /// Its file, from the site's folder on.
    pub name: String,
    /// How many dots wide.
    pub width: u32,
    /// How many dots high.
    pub height: u32,
}

/// Pictures by where they are named, on pages and small.
#[derive(Debug, Clone, Default)]
pub struct Files {
    /// As large as a page shows them.
    pub whole: BTreeMap<crate::text::source::Span, PictureFile>,
    /// As the front page shows them.
    pub small: BTreeMap<crate::text::source::Span, PictureFile>,
}

impl<'b> Site<'b> {
    /// The site of a book.
    pub fn of(book: &'b Book, pictures: Files, changes: Option<Vec<Dates>>, cards: bool) -> Site<'b> {
        let files = |names: &[crate::figures::book::Indexed]| {
            let mut slugs = Slugs::default();
            names.iter().map(|indexed| slugs.take(&indexed.name)).collect()
        };
        Site {
            book,
            pictures,
            changes,
            cards,
            ingredients: files(&book.ingredients),
            allergens: files(&book.allergens),
        }
    }

    /// The files that are the same in every site but for the program's version: their names and what they hold.
    pub fn assets() -> Vec<(&'static str, Vec<u8>)> {
        let style = format!("{}{}{READER}{STYLE}", lettering::linked_faces(), lettering::FAMILY);
        let mut all = vec![("assets/site.css", style.into_bytes()), ("assets/site.js", SCRIPT.as_bytes().to_vec())];
        all.extend(lettering::files().map(|(name, bytes)| (name, bytes.to_vec())));
        all
    }

    /// The addresses of the main pages, a line each, for search engines; nothing where no address is known.
    pub fn sitemap(&self) -> Option<String> {
        let address = self.book.address.as_ref()?;
        let mut all = format!("{address}index.html\n");
        for entry in self.book.entries() {
            all.push_str(&format!("{address}recipes/{}.html\n", entry.slug));
        }
        Some(all)
    }

    /// The picture that stands for a recipe on the front page.
    fn cover<'a>(&'a self, entry: &'a Entry) -> Option<(&'a Picture, &'a PictureFile)> {
        let picture = entry.told.cover.as_ref()?;
        Some((picture, self.pictures.small.get(&picture.span)?))
    }

    /// A page; `up` leads from it to the site's folder.
    fn page(&self, up: &str, title: &str, head: &Markup, body: &Markup) -> String {
        let head = html! {
            meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; script-src 'self'; base-uri 'none'; form-action 'none'";
            meta name="color-scheme" content="light dark";
            meta name="generator" content="miche";
            (head)
            script src={ (up) "assets/site.js" } defer {}
        };
        let style = html! { link rel="stylesheet" href={ (up) "assets/site.css" }; };
        let body = html! {
            header.top { (self.ways_about(up)) }
            (body)
        };
        typeset::markup(&page::frame(title, &head, &style, &body)) + "\n"
    }

    /// What every page leads to.
    fn ways_about(&self, up: &str) -> Markup {
        html! {
            nav aria-label="Book" {
                a.home href={ (up) "index.html" } { (clean(&self.book.title)) }
                span.links {
                    a href={ (up) "ingredients.html" } { "Ingredients" }
                    a href={ (up) "allergens.html" } { "Allergens" }
                    @if self.has_changes() { a href={ (up) "changes.html" } { "What changed" } }
                }
            }
        }
    }

    /// Whether git knows anything of the recipes.
    pub fn has_changes(&self) -> bool {
        self.changes.as_ref().is_some_and(|all| all.iter().any(|dates| !dates.commits.is_empty()))
    }

    /// Links to recipes of the book by their numbers.
    fn recipes(&self, up: &str, entries: impl IntoIterator<Item = usize>, all: &[&Entry]) -> Markup {
        html! {
            ul.found {
                @for entry in entries.into_iter().filter_map(|number| all.get(number)) {
                    li { a href={ (up) "recipes/" (entry.slug) ".html" } { (clean(&entry.title)) } }
                }
            }
        }
    }

    fn title_behind(&self, title: &str) -> String {
        format!("{title} – {}", self.book.title)
    }
}

/// The folder of the pages in some units: the main ones stand in `recipes`.
fn folder_of(units: Units) -> &'static str {
    match units {
        Units::Us => "us",
        Units::Metric | Units::Both => "recipes",
    }
}

/// Data in a page's script.
fn data_script(data: &serde_json::Value) -> Markup {
    html! { script type="application/ld+json" { (PreEscaped(super::reader::data::in_script(data))) } }
}
