//! Pages by ingredient and by allergen, and what changed lately.

use super::{Commit, Site};
use crate::figures::book::Entry;
use crate::out::report::clean;
use maud::{Markup, html};

/// So many changes are told.
const MOST_CHANGES: usize = 60;

impl Site<'_> {
    /// The pages by ingredient, the list of them first: files and what they hold.
    pub fn ingredients(&self) -> Vec<(String, String)> {
        let all: Vec<&Entry> = self.book.entries().collect();
        let named = || self.book.ingredients.iter().zip(&self.ingredients);
        let list = html! {
            h1 { "Ingredients" }
            ul.names {
                @for (one, file) in named() {
                    li { a href={ "ingredients/" (file) ".html" } { (clean(&one.name)) } " " span.count { (one.entries.len()) } }
                }
            }
        };
        let mut pages = vec![("ingredients.html".to_owned(), self.plain("", "Ingredients", &list))];
        for (one, file) in named() {
            let title = format!("With {}", one.name);
            let body = html! {
                h1 { (clean(&title)) }
                (self.recipes("../", one.entries.iter().copied(), &all))
                p { a href="../ingredients.html" { "All ingredients" } }
            };
            pages.push((format!("ingredients/{file}.html"), self.plain("../", &title, &body)));
        }
        pages
    }

    /// The pages by allergen, the table first. A recipe of whose ingredients something is not known is without nothing.
    pub fn allergens(&self) -> Vec<(String, String)> {
        let all: Vec<&Entry> = self.book.entries().collect();
        let named = || self.book.allergens.iter().zip(&self.allergens);
        let table = html! {
            h1 { "Allergens" }
            p { "In the words of the law, by what each recipe takes. What a kitchen brings in besides is not told here." }
            ul.names { @for (one, file) in named() { li { a href={ "allergens/" (file) ".html" } { (clean(&one.name)) } } } }
            div.wide tabindex="0" role="region" aria-label="Allergens by recipe" {
                table {
                    thead { tr { th scope="col" { "Recipe" } th scope="col" { "Contains" } th scope="col" { "Not known of" } } }
                    tbody {
                        @for entry in &all {
                            tr {
                                th scope="row" { a href={ "recipes/" (entry.slug) ".html" } { (clean(&entry.title)) } }
                                td { (clean(&listed(&entry.told.allergens))) }
                                td { (clean(&listed(&entry.told.allergens_unknown))) }
                            }
                        }
                    }
                }
            }
        };
        let mut pages = vec![("allergens.html".to_owned(), self.plain("", "Allergens", &table))];
        for (one, file) in named() {
            let mut is_in = vec![false; all.len()];
            for number in &one.entries {
                if let Some(slot) = is_in.get_mut(*number) {
                    *slot = true;
                }
            }
            let numbers = |wanted: fn(bool, bool) -> bool| {
                let of = all.iter().zip(&is_in).enumerate();
                let kept = of.filter(|(_, (entry, has))| wanted(**has, entry.told.allergens_unknown.is_empty()));
                kept.map(|(number, _)| number).collect::<Vec<usize>>()
            };
            let (without, unknown) = (numbers(|has, known| !has && known), numbers(|has, known| !has && !known));
            let title = format!("Allergen: {}", one.name);
            let body = html! {
                h1 { (clean(&title)) }
                h2 { "Recipes with it" }
                (self.recipes("../", one.entries.iter().copied(), &all))
                @if !without.is_empty() { h2 { "Recipes without it" } (self.recipes("../", without, &all)) }
                @if !unknown.is_empty() {
                    h2 { "Recipes of which it is not known" }
                    p { "Nobody has said of all that goes into these what allergens it has." }
                    (self.recipes("../", unknown, &all))
                }
                p { a href="../allergens.html" { "All allergens" } }
            };
            pages.push((format!("allergens/{file}.html"), self.plain("../", &title, &body)));
        }
        pages
    }

    /// What changed lately, the newest first; `None` where git knows nothing.
    pub fn changes_page(&self) -> Option<String> {
        if !self.has_changes() {
            return None;
        }
        let changes = self.changes.as_ref()?;
        let mut lately: Vec<(&Commit, &Entry, bool)> = Vec::new();
        for (entry, dates) in self.book.entries().zip(changes) {
            let first = dates.commits.len().saturating_sub(1);
            let is_new = |at: usize| at == first && !dates.is_cut;
            lately.extend(dates.commits.iter().enumerate().map(|(at, commit)| (commit, entry, is_new(at))));
        }
        lately.sort_by(|(one, ..), (other, ..)| other.date.cmp(&one.date));
        lately.truncate(MOST_CHANGES);
        let body = html! {
            h1 { "What changed" }
            ol.changes {
                @for (commit, entry, is_new) in &lately {
                    li {
                        time datetime=(commit.date) { (commit.date) } " "
                        a href={ "recipes/" (entry.slug) ".html" } { (clean(&entry.title)) }
                        @if *is_new { " (new)" } ": " (clean(&commit.subject))
                        (commit.told())
                    }
                }
            }
        };
        Some(self.plain("", "What changed", &body))
    }

    fn plain(&self, up: &str, title: &str, body: &Markup) -> String {
        let body = html! { main.front { article.card { (body) } } };
        self.page(up, &self.title_behind(title), &html! {}, &body)
    }
}

fn listed(names: &[String]) -> String {
    if names.is_empty() { "–".to_owned() } else { names.join(", ") }
}
