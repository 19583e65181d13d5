//! What earlier runs have found out of the recipes of a site: how many warnings they have, what is told of them, and by their digests
//! what their pages hold. The pages themselves lie in the site that is there already.

use super::changed::{Revised, Words};
use super::read::{Known, ReadBook};
use crate::edge::loader::{Digest, Digesting, Kept, Uses, uses};
use crate::figures::book::{Entry, Told};
use crate::model::book::Page;
use crate::model::published::Picture;
use crate::text::source::{SourceId, Span};
use serde::{Deserialize, Serialize};
use std::collections::HashMap;

/// The recipes of a book with what is known of them.
pub(super) struct Shelf<'r> {
    read: &'r ReadBook,
    kept: Kept,
    /// Of each page, in the order of the book.
    pages: Vec<(&'r Page, Uses)>,
}

/// What is told of a recipe, as it is kept.
#[derive(Serialize, Deserialize)]
struct WireTold {
    title: String,
    /// What it makes, at each of its sizes and ways.
    sizes: Vec<Option<String>>,
    by: Option<String>,
    filed_under: Vec<String>,
    story: Vec<String>,
    makes: Option<String>,
    minutes: (i64, i64),
    ingredients: Vec<String>,
    allergens: (Vec<String>, Vec<String>),
    cover: Option<WirePicture>,
    pictures: Vec<WirePicture>,
}

/// A picture, as it is kept.
#[derive(Serialize, Deserialize)]
struct WirePicture {
    path: String,
    words: String,
    /// The file in which it is named, by its number among those that the recipe uses; in another run it has another place.
    file: usize,
    place: (u32, u32),
}

impl<'r> Shelf<'r> {
    /// Of a book.
    pub(super) fn of(read: &'r ReadBook, kept: Kept) -> Shelf<'r> {
        let pages: Vec<&Page> = read.model.pages().collect();
        let recipes: Vec<SourceId> = pages.iter().map(|page| page.recipe).collect();
        let uses = uses(&read.project, &recipes);
        Shelf { read, kept, pages: pages.into_iter().zip(uses).collect() }
    }

    /// Its pages, in the order of the book.
    pub(super) fn pages(&self) -> impl Iterator<Item = (usize, &'r Page)> {
        self.pages.iter().enumerate().map(|(number, (page, _))| (number, *page))
    }

    /// What is known of the recipes before they are checked.
    pub(super) fn known(&self) -> Known {
        let mut known = Known::default();
        for (page, uses) in &self.pages {
            let warnings = self.kept.find(checked(uses)).and_then(|value| serde_json::from_slice(value).ok());
            if let Some(warnings) = warnings {
                known.warnings.insert(page.recipe, warnings);
                known.sound.extend(&uses.files);
            }
        }
        known
    }

    /// Keeps how many warnings recipes have that were checked.
    pub(super) fn keep_checked(&self, found: &[(SourceId, usize)]) {
        let found: HashMap<SourceId, usize> = found.iter().copied().collect();
        for (page, uses) in &self.pages {
            if let Some(warnings) = found.get(&page.recipe) {
                self.keep(checked(uses), warnings);
            }
        }
    }

    /// The entry of a page, if it is known.
    pub(super) fn entry(&self, number: usize) -> Option<Entry> {
        let (page, uses) = self.pages.get(number)?;
        let wire: WireTold = serde_json::from_slice(self.kept.find(of_page(page, uses))?).ok()?;
        let picture = |wire: WirePicture| {
            let (start, end) = wire.place;
            let span = Span { source: *uses.files.get(wire.file)?, start, end };
            Some(Picture { path: wire.path, words: wire.words, span })
        };
        let told = Told {
            by: wire.by,
            filed_under: wire.filed_under,
            story: wire.story,
            makes: wire.makes,
            active_minutes: wire.minutes.0,
            total_minutes: wire.minutes.1,
            ingredients: wire.ingredients,
            allergens: wire.allergens.0,
            allergens_unknown: wire.allergens.1,
            cover: wire.cover.and_then(picture),
            pictures: wire.pictures.into_iter().map(picture).collect::<Option<_>>()?,
        };
        Entry::known(&self.read.project, page, (wire.title, told), &wire.sizes)
    }

    /// Keeps an entry that was worked out.
    pub(super) fn keep_entry(&self, number: usize, entry: &Entry) {
        let Some((page, uses)) = self.pages.get(number) else { return };
        let picture = |picture: &Picture| {
            let file = uses.files.iter().position(|file| *file == picture.span.source)?;
            let place = (picture.span.start, picture.span.end);
            Some(WirePicture { path: picture.path.clone(), words: picture.words.clone(), file, place })
        };
        let told = &entry.told;
        let Some(pictures) = told.pictures.iter().map(picture).collect() else { return };
        let wire = WireTold {
            title: entry.title.clone(),
            sizes: entry.variants.iter().map(|variant| variant.size.clone()).collect(),
            by: told.by.clone(),
            filed_under: told.filed_under.clone(),
            story: told.story.clone(),
            makes: told.makes.clone(),
            minutes: (told.active_minutes, told.total_minutes),
            ingredients: told.ingredients.clone(),
            allergens: (told.allergens.clone(), told.allergens_unknown.clone()),
            cover: told.cover.as_ref().and_then(picture),
            pictures,
        };
        self.keep(of_page(page, uses), &wire);
    }

    /// The files that a recipe uses, itself first.
    pub(super) fn files_of(&self, number: usize) -> &[SourceId] {
        self.pages.get(number).map_or(&[], |(_, uses)| uses.files.as_slice())
    }

    /// The key of all files of a recipe; what else stands on its pages has to be put into it.
    pub(super) fn key_of_files(&self, number: usize) -> Digesting {
        let mut key = Digesting::of("files of a recipe");
        if let Some((page, uses)) = self.pages.get(number) {
            key.put(of_page(page, uses).bytes());
        }
        key
    }

    /// The digests of the files of a recipe, if they are known.
    pub(super) fn files(&self, key: Digest) -> Option<Vec<[u8; 32]>> {
        serde_json::from_slice(self.kept.find(key)?).ok()
    }

    /// Keeps the digests of the files of a recipe.
    pub(super) fn keep_files(&self, key: Digest, digests: &[Digest]) {
        self.keep(key, &digests.iter().map(Digest::bytes).collect::<Vec<_>>());
    }

    /// What a picture is when it is made so wide: its digest, how wide and how high it is then; if that is known.
    pub(super) fn picture(&self, made_of: Digest, wide: u32) -> Option<(Digest, u32, u32)> {
        let (digest, width, height) = serde_json::from_slice(self.kept.find(of_picture(made_of, wide))?).ok()?;
        Some((Digest::from_bytes(digest), width, height))
    }

    /// Keeps what a picture is when it is made so wide.
    pub(super) fn keep_picture(&self, made_of: Digest, wide: u32, (digest, width, height): (Digest, u32, u32)) {
        self.keep(of_picture(made_of, wide), &(digest.bytes(), width, height));
    }

    /// What a commit changed in a recipe, if that is known.
    pub(super) fn changes(&self, revised: &Revised) -> Option<Words> {
        serde_json::from_slice(self.kept.find(of_changes(revised))?).ok()
    }

    /// Keeps what a commit changed in a recipe.
    pub(super) fn keep_changes(&self, revised: &Revised, words: &Words) {
        self.keep(of_changes(revised), words);
    }

    /// Whether anything is kept.
    pub(super) fn keeps(&self) -> bool {
        self.kept.is_open()
    }

    fn keep(&self, key: Digest, value: &impl Serialize) {
        if let Ok(value) = serde_json::to_vec(value) {
            self.kept.put(key, value);
        }
    }

    /// Writes down what is known now.
    pub(super) fn close(self) {
        self.kept.close();
    }
}

/// The key of what was found in checking a recipe.
fn checked(uses: &Uses) -> Digest {
    let mut key = Digesting::of("checked recipe");
    key.put(uses.digest.bytes());
    key.digest()
}

/// The key of a picture made so wide.
fn of_picture(made_of: Digest, wide: u32) -> Digest {
    let mut key = Digesting::of("picture of a book");
    key.put(made_of.bytes()).put_value(&wide);
    key.digest()
}

/// The key of what a commit changed in a recipe.
fn of_changes(revised: &Revised) -> Digest {
    let mut key = Digesting::of("changes of a recipe");
    key.put_value(&(&revised.commit, &revised.was, &revised.name));
    key.digest()
}

/// The key of what is told of a recipe at the sizes and ways of a page.
fn of_page(page: &Page, uses: &Uses) -> Digest {
    let mut key = Digesting::of("recipe of a book");
    key.put(uses.digest.bytes()).put_number(page.sizes.len());
    for size in &page.sizes {
        key.put_value(&size.value);
    }
    key.put_value(&page.selection).put_value(&page.decided);
    key.digest()
}
