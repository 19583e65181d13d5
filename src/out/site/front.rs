//! The first page: the chapters with their recipes, pictures, and the place where the script puts the search.

use super::{Site, data_script};
use crate::figures::book::Entry;
use crate::figures::reader::time_words;
use crate::out::report::clean;
use maud::{Markup, html};
use serde_json::{Value, json};

impl Site<'_> {
    /// The first page.
    pub fn front(&self) -> String {
        let book = self.book;
        let head = html! {
            @if let Some(address) = &book.address { link rel="canonical" href={ (address) "index.html" }; }
            script src="assets/search-index.js" defer {}
        };
        let body = html! {
            main.front {
                article.card {
                    h1 { (clean(&book.title)) }
                    @if let Some(by) = &book.by { p.by { "By " (clean(by)) } }
                    (self.search_place())
                    div #chapters {
                        @for chapter in &book.chapters {
                            section.chapter {
                                @if let Some(title) = &chapter.title { h2 { (clean(title)) } }
                                ul.entries { @for entry in &chapter.entries { (self.entry(entry)) } }
                            }
                        }
                    }
                }
            }
            @if let Some(data) = self.list_data() { (data_script(&data)) }
        };
        self.page("", &book.title, &head, &body)
    }

    fn entry(&self, entry: &Entry) -> Markup {
        let told = &entry.told;
        let mut facts: Vec<String> = told.makes.iter().cloned().collect();
        if told.active_minutes > 0 {
            facts.push(format!("{} of work", time_words(told.active_minutes)));
        }
        if told.total_minutes > 0 {
            facts.push(format!("{} in all", time_words(told.total_minutes)));
        }
        html! {
            li {
                a href={ "recipes/" (entry.slug) ".html" } {
                    @if let Some((picture, file)) = self.cover(entry) {
                        img src=(file.name) width=(file.width) height=(file.height) alt=(clean(&picture.words)) loading="lazy";
                    }
                    span.title { (clean(&entry.title)) }
                }
                @if !facts.is_empty() { p.facts { @for fact in &facts { span { (fact) } " " } } }
            }
        }
    }

    /// The search; hidden until the script is there that does it.
    fn search_place(&self) -> Markup {
        html! {
            div #search role="search" hidden {
                div { label for="words" { "Words or ingredients" } input #words type="search" autocomplete="off"; }
                @if !self.book.allergens.is_empty() {
                    div {
                        label for="without" { "Without" }
                        select #without {
                            option value="" { "–" }
                            @for (number, one) in self.book.allergens.iter().enumerate() { option value=(number) { (clean(&one.name)) } }
                        }
                    }
                }
                p #told role="status" {}
                ul #found {}
            }
        }
    }

    /// The recipes in their order, for search engines. Each is named by its address, so that without one there is no list.
    fn list_data(&self) -> Option<Value> {
        let address = self.book.address.as_ref()?;
        let item = |(entry, position): (&Entry, usize)| json!({ "@type": "ListItem", "position": position, "url": format!("{address}recipes/{}.html", entry.slug) });
        let items: Vec<Value> = self.book.entries().zip(1..).map(item).collect();
        Some(
            json!({ "@context": "https://schema.org", "@type": "ItemList", "name": self.book.title, "itemListElement": items }),
        )
    }
}
