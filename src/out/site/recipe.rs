//! The page of a recipe: one of its sizes, by one of its ways, in one system of units.

use super::{Dates, PictureFile, Site, data_script, folder_of};
use crate::figures::book::{Entry, Variant};
use crate::figures::reader::ReaderPage;
use crate::measure::show::Units;
use crate::model::published::Picture;
use crate::out::reader::{data, html as reader};
use crate::out::report::clean;
use crate::text::source::{SourceId, Span};
use maud::{Markup, html};
use serde_json::Value;
use std::collections::BTreeMap;

/// The units in which pages are written, and what they are called.
pub const UNITS: [(Units, &str); 2] = [(Units::Metric, "grams, °C"), (Units::Us, "ounces, °F")];

/// Pictures as files, seen from a folder of the site.
struct Linked<'a>(&'a BTreeMap<Span, PictureFile>);

impl reader::Pictures for Linked<'_> {
    fn shown(&self, picture: &Picture) -> Option<(String, u32, u32)> {
        let file = self.0.get(&picture.span)?;
        Some((format!("../{}", file.name), file.width, file.height))
    }
}

/// Which page of a recipe is meant.
#[derive(Debug, Clone, Copy)]
pub struct Which<'a> {
    /// The recipe's number in the book.
    pub number: usize,
    /// The recipe.
    pub entry: &'a Entry,
    /// The size and the way.
    pub variant: &'a Variant,
    /// In whose units.
    pub units: Units,
}

impl Which<'_> {
    /// Its file, from the site's folder on.
    pub fn file(&self) -> String {
        format!("{}/{}.html", folder_of(self.units), self.variant.stem)
    }
}

impl Site<'_> {
    /// Everything that stands on the pages of a recipe, and on its card, and does not come from the recipe itself, which `files` make
    /// up: two runs that see the same here and read the same files write the same pages.
    pub fn around(&self, number: usize, entry: &Entry, files: &[SourceId], mut see: impl FnMut(&str)) {
        let book = self.book;
        let pictures = files.iter().enumerate().flat_map(|(at, file)| {
            let of = |start| Span { source: *file, start, end: start };
            let named = self.pictures.whole.range(of(0)..=of(u32::MAX));
            named.map(move |(place, picture)| (at, place.start, picture))
        });
        let (before, behind) = self.neighbours(number);
        let called = |entry: &Entry| (entry.slug.clone(), entry.title.clone());
        let variants = entry.variants.iter().map(|one| (&one.stem, &one.size, &one.way));
        see(&format!("{:?}", (&book.title, &book.by, &book.address, self.cards, self.has_changes())));
        see(&format!("{:?}", (called(entry), before.map(called), behind.map(called))));
        see(&format!("{:?}", variants.collect::<Vec<_>>()));
        see(&format!("{:?}", self.changes.as_ref().map(|all| all.get(number))));
        see(&format!("{:?}", pictures.collect::<Vec<_>>()));
    }

    /// The recipes before and behind one.
    fn neighbours(&self, number: usize) -> (Option<&Entry>, Option<&Entry>) {
        let at = |number: Option<usize>| number.and_then(|number| self.book.entries().nth(number));
        (at(number.checked_sub(1)), at(Some(number + 1)))
    }

    /// A page of a recipe. Other ways have pages of their own, to which it leads.
    pub fn recipe(&self, which: Which<'_>, mut page: ReaderPage) -> String {
        page.others.clear();
        let Which { number, entry, .. } = which;
        let title = self.title_behind(&page.title);
        let canonical = self.book.address.as_ref().map(|address| format!("{address}recipes/{}.html", entry.slug));
        let dates = self.changes.as_ref().and_then(|all| all.get(number));
        let head = html! {
            @if let Some(words) = page.story.first().map(crate::language::prose::Prose::plain) {
                meta name="description" content=(clean(words.lines().next().unwrap_or("")));
            }
            @if let Some(address) = &canonical { link rel="canonical" href=(address); }
        };
        let article = reader::article(&page, &Linked(&self.pictures.whole));
        let data = self.data(&mut page, canonical.as_deref(), dates);
        let body = html! {
            (variants(which))
            main.reader { (article) }
            footer.below { (self.below(number, entry, dates)) }
            (data_script(&data))
        };
        self.page("../", &title, &head, &body)
    }

    /// What search engines read: with its pictures as they are called here, its address, and the dates that git knows.
    fn data(&self, page: &mut ReaderPage, address: Option<&str>, dates: Option<&Dates>) -> Value {
        page.each_picture(|picture| {
            if let Some(file) = self.pictures.whole.get(&picture.span) {
                picture.path.clone_from(&file.name);
            }
        });
        let folder = self.book.address.clone().unwrap_or_else(|| "../".to_owned());
        let mut data = data::recipe(page, &folder);
        let Some(map) = data.as_object_mut() else { return data };
        if let Some(address) = address {
            map.insert("url".to_owned(), address.into());
        }
        if let Some(by) = self.book.by.as_ref().filter(|_| page.by.is_none()) {
            map.insert("author".to_owned(), serde_json::json!({ "@type": "Person", "name": by }));
        }
        if let Some(dates) = dates
            && let (Some(last), Some(first)) = (dates.commits.first(), dates.commits.last())
        {
            if !dates.is_cut {
                map.insert("datePublished".to_owned(), first.date.clone().into());
            }
            map.insert("dateModified".to_owned(), last.date.clone().into());
        }
        data
    }

    /// Files that belong to it, when it changed, and the recipes before and behind it.
    fn below(&self, number: usize, entry: &Entry, dates: Option<&Dates>) -> Markup {
        let (before, behind) = self.neighbours(number);
        html! {
            nav aria-label="This recipe" {
                ul {
                    @if self.cards { li { a href={ "../cards/" (entry.slug) ".pdf" } { "Batch card for the bench (PDF)" } } }
                    li { a href={ "../sources/" (entry.slug) ".txt" } { "Its source" } }
                    @if let Some(last) = dates.and_then(|dates| dates.commits.first()) {
                        li {
                            "Last changed " time datetime=(last.date) { (last.date) } ": " (clean(&last.subject))
                            (last.told())
                        }
                    }
                }
                ul.turn {
                    @if let Some(entry) = before { li { a rel="prev" href={ "../recipes/" (entry.slug) ".html" } { "← " (clean(&entry.title)) } } }
                    @if let Some(entry) = behind { li { a rel="next" href={ "../recipes/" (entry.slug) ".html" } { (clean(&entry.title)) " →" } } }
                }
            }
        }
    }
}

/// Links to the other sizes, ways and units, each with the rest as it is here.
fn variants(which: Which<'_>) -> Markup {
    let Which { entry, variant, units, .. } = which;
    let mut sizes: Vec<&Variant> = Vec::new();
    let mut ways: Vec<&Variant> = Vec::new();
    for one in &entry.variants {
        if one.way == variant.way {
            sizes.push(one);
        }
        if one.size == variant.size {
            ways.push(one);
        }
    }
    let folder = folder_of(units);
    let link = |one: &Variant, words: &str| {
        let is_here = one.stem == variant.stem;
        html! { li { a href={ "../" (folder) "/" (one.stem) ".html" } aria-current=[is_here.then_some("page")] { (clean(words)) } } }
    };
    html! {
        nav.variants aria-label="Sizes, ways and units" {
            @if sizes.len() > 1 {
                div { p { "How much" } ul { @for one in &sizes { (link(one, one.size.as_deref().unwrap_or("as written"))) } } }
            }
            @if ways.len() > 1 {
                div { p { "Which way" } ul { @for one in &ways { (link(one, &one.way)) } } }
            }
            div {
                p { "Units" }
                ul {
                    @for (other, words) in UNITS {
                        li { a href={ "../" (folder_of(other)) "/" (variant.stem) ".html" } aria-current=[(other == units).then_some("page")] { (words) } }
                    }
                }
            }
        }
    }
}
