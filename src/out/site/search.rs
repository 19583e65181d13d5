//! What the script searches in: of each recipe its title, the words under which it is filed, ingredients and allergens by number.

use super::Site;
use crate::figures::book::Indexed;
use serde::Serialize;
use std::collections::BTreeSet;

/// So many words of a story are searched in.
const MOST_WORDS: usize = 20;

/// The index as it is written; short names, since every page's worth of it is fetched at once.
#[derive(Serialize)]
struct WireIndex<'a> {
    /// The ingredients.
    i: Vec<&'a str>,
    /// The allergens.
    a: Vec<&'a str>,
    /// The recipes.
    r: Vec<WireEntry<'a>>,
}

#[derive(Serialize)]
struct WireEntry<'a> {
    /// Its title.
    t: &'a str,
    /// Its file, without folder and ending.
    s: &'a str,
    /// Other words.
    #[serde(skip_serializing_if = "String::is_empty")]
    w: String,
    /// Its ingredients, by number.
    i: Vec<usize>,
    /// Its allergens, by number.
    a: Vec<usize>,
    /// 1 where the allergens of something in it are not known.
    #[serde(skip_serializing_if = "is_zero")]
    u: u8,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // asked for by serde
fn is_zero(value: &u8) -> bool {
    *value == 0
}

impl Site<'_> {
    /// The index as a script, since pages that are opened from a disk may fetch nothing else.
    ///
    /// # Errors
    /// Never in practice: plain texts and numbers are always JSON.
    pub fn search_index(&self) -> Result<String, serde_json::Error> {
        let book = self.book;
        let (ingredients, allergens) = (numbers(&book.ingredients, book), numbers(&book.allergens, book));
        let entries = book.entries().zip(ingredients).zip(allergens);
        let index = WireIndex {
            i: book.ingredients.iter().map(|one| one.name.as_str()).collect(),
            a: book.allergens.iter().map(|one| one.name.as_str()).collect(),
            r: entries
                .map(|((entry, i), a)| WireEntry {
                    t: &entry.title,
                    s: &entry.slug,
                    w: words(entry),
                    i,
                    a,
                    u: u8::from(!entry.told.allergens_unknown.is_empty()),
                })
                .collect(),
        };
        Ok(format!("window.micheBook={};\n", serde_json::to_string(&index)?))
    }
}

/// For each recipe the numbers of what it has, of an index.
fn numbers(index: &[Indexed], book: &crate::figures::book::Book) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new(); book.entries().count()];
    for (number, one) in index.iter().enumerate() {
        for entry in &one.entries {
            if let Some(of) = all.get_mut(*entry) {
                of.push(number);
            }
        }
    }
    all
}

/// Where it is filed, who wrote it, and the longer words of its story, each once.
fn words(entry: &crate::figures::book::Entry) -> String {
    let told = &entry.told;
    let mut all: Vec<String> = told.filed_under.iter().map(|words| words.to_lowercase()).collect();
    all.extend(told.by.as_ref().map(|by| by.to_lowercase()));
    let story: String = told.story.iter().map(|one| one.to_lowercase() + " ").collect();
    let mut seen = BTreeSet::new();
    let long = story.split(|c: char| !c.is_alphanumeric()).filter(|word| word.chars().count() > 3);
    all.extend(long.filter(|word| seen.insert(word.to_owned())).take(MOST_WORDS).map(str::to_owned));
    all.join(" ")
}
