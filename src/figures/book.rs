//! A book as it is shown: its recipes as readers' pages, and what is found by what: titles, ingredients, allergens.
//!
//! The main page of each recipe is worked out first, since the indexes are read off it; its other sizes and ways are worked out
//! when they are wanted ([`pages`]), so that a book of a thousand recipes stays small in memory. Of a recipe of which it is known
//! what is told of it ([`Entry::known`]) not even the main page is.

pub mod slug;
mod told;

use super::reader::{self, Asked, Planned, ReaderPage};
use crate::check::book::asked;
use crate::check::work_out;
use crate::make::batch::Batch;
use crate::make::order::Order;
use crate::make::size::{AskedBy, Size};
use crate::make::work::Work;
use crate::measure::noun::counted;
use crate::measure::number::Overflow;
use crate::measure::quantity::Count;
use crate::measure::show::{self, Units};
use crate::model::book;
use crate::model::project::Project;
use crate::model::recipe::{Choice, HeadMakes, Selection};
use crate::solve::resolve::{choices_of, selections};
use crate::text::source::SourceId;
use rayon::prelude::*;
use slug::Slugs;
use std::collections::BTreeMap;
pub use told::Told;

/// What is said of a size that cannot be worked with.
const TOO_LARGE: &str = "a batch of that size leaves the range of exact numbers";

/// With more ways than this only one option at a time is another than in the main one.
const MOST_WAYS: usize = 8;

/// A book with its recipes worked out.
#[derive(Debug, Clone)]
pub struct Book {
    /// What it is called.
    pub title: String,
    /// Whose it is.
    pub by: Option<String>,
    /// Where it will stand, with a slash at its end.
    pub address: Option<String>,
    /// Its chapters, in their order; each has entries.
    pub chapters: Vec<Chapter>,
    /// Its titles in the order of the alphabet.
    pub titles: Vec<Indexed>,
    /// What goes into its recipes, in the order of the alphabet.
    pub ingredients: Vec<Indexed>,
    /// The allergens of its recipes in the words of the law.
    pub allergens: Vec<Indexed>,
}

/// A chapter.
#[derive(Debug, Clone)]
pub struct Chapter {
    /// What it is called; `None` for pages before any chapter, and in a book without chapters.
    pub title: Option<String>,
    /// Its recipes.
    pub entries: Vec<Entry>,
}

/// A recipe of the book.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Its file.
    pub source: SourceId,
    /// What it is called. Two recipes of a book may have one title.
    pub title: String,
    /// A name for files and places in a page: `a-z`, `0-9` and hyphens, no other of the book has it.
    pub slug: String,
    /// What the front page and the indexes tell of it.
    pub told: Told,
    /// Its sizes and ways, the main one first.
    pub variants: Vec<Variant>,
}

/// A recipe at one of its sizes, by one of its ways.
#[derive(Debug, Clone)]
pub struct Variant {
    /// A name for its file; no other variant of the book has it. The main one has that of its entry.
    pub stem: String,
    /// What it makes, as printed: `20 buns`; `None` where that cannot be said.
    pub size: Option<String>,
    /// The options of the choices that the book leaves open: `hand, cold overnight`; empty where there is none.
    pub way: String,
    asked: Size,
    selection: Selection,
}

/// Something by which recipes are found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Indexed {
    /// What.
    pub name: String,
    /// The numbers of the entries, counted from 0 over all chapters, in their order.
    pub entries: Vec<usize>,
}

/// Why a book cannot be worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Impossible {
    /// The recipe.
    pub title: String,
    /// In bakers' words.
    pub why: String,
}

impl std::fmt::Display for Impossible {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.title, self.why)
    }
}

impl Book {
    /// The book of a model whose recipes are without errors, and the main page of each of them in these units.
    ///
    /// # Errors
    /// Of the first recipe that cannot be made in a size that was asked for.
    pub fn of(project: &Project, model: &book::Book, units: Units) -> Result<(Book, Vec<ReaderPage>), Impossible> {
        let pages: Vec<&book::Page> = model.pages().collect();
        let worked: Vec<Result<_, Impossible>> = pages.par_iter().map(|page| entry(project, page, &[units])).collect();
        let (entries, main_pages): (Vec<Entry>, Vec<Vec<ReaderPage>>) =
            worked.into_iter().collect::<Result<Vec<_>, Impossible>>()?.into_iter().unzip();
        Ok((Book::bound(model, entries), main_pages.into_iter().flatten().collect()))
    }

    /// The book of a model with these entries, one for each of its pages in their order.
    pub fn bound(model: &book::Book, entries: Vec<Entry>) -> Book {
        let mut entries = entries.into_iter();
        let chapters = model.chapters.iter().filter(|chapter| !chapter.pages.is_empty()).map(|chapter| Chapter {
            title: chapter.title.as_ref().map(|title| title.value.clone()),
            entries: entries.by_ref().take(chapter.pages.len()).collect(),
        });
        let mut book = Book {
            title: model.title.clone(),
            by: model.by.clone(),
            address: model.address.clone(),
            chapters: chapters.collect(),
            titles: Vec::new(),
            ingredients: Vec::new(),
            allergens: Vec::new(),
        };
        book.name_files();
        book.index();
        book
    }

    /// Its recipes, over all chapters.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.chapters.iter().flat_map(|chapter| &chapter.entries)
    }

    /// Gives every entry and every variant a name that no other has. Entries come first, so that a page that is added at the end
    /// moves none.
    fn name_files(&mut self) {
        let mut slugs = Slugs::default();
        for entry in self.chapters.iter_mut().flat_map(|chapter| &mut chapter.entries) {
            entry.slug = slugs.take(&entry.title);
        }
        for entry in self.chapters.iter_mut().flat_map(|chapter| &mut chapter.entries) {
            let several = Several::of(&entry.variants);
            for (at, variant) in entry.variants.iter_mut().enumerate() {
                if at == 0 {
                    variant.stem.clone_from(&entry.slug);
                    continue;
                }
                let size = variant.size.as_deref().filter(|_| several.sizes).unwrap_or("");
                let way = if several.ways { variant.way.as_str() } else { "" };
                variant.stem = slugs.take(&format!("{} {size} {way}", entry.slug));
            }
        }
    }

    fn index(&mut self) {
        let (mut titles, mut ingredients, mut allergens) = (Index::default(), Index::default(), Index::default());
        for (number, entry) in self.chapters.iter().flat_map(|chapter| &chapter.entries).enumerate() {
            titles.put(&entry.title, number);
            for name in &entry.told.ingredients {
                ingredients.put(name, number);
            }
            for name in &entry.told.allergens {
                allergens.put(name, number);
            }
        }
        (self.titles, self.ingredients, self.allergens) = (titles.sorted(), ingredients.sorted(), allergens.sorted());
    }
}

/// What differs between the variants of an entry.
struct Several {
    sizes: bool,
    ways: bool,
}

impl Several {
    fn of(variants: &[Variant]) -> Several {
        let first = variants.first();
        let differ = |of: fn(&Variant) -> Option<&str>| variants.iter().any(|one| of(one) != first.and_then(of));
        Several { sizes: differ(|one| one.size.as_deref()), ways: differ(|one| Some(one.way.as_str())) }
    }
}

/// Names and where they stand, while they are gathered.
#[derive(Default)]
struct Index(BTreeMap<String, Indexed>);

impl Index {
    /// Names that differ in capitals only are one; it is written as it was first.
    fn put(&mut self, name: &str, entry: usize) {
        let key = name.to_lowercase();
        let indexed = self.0.entry(key).or_insert_with(|| Indexed { name: name.to_owned(), entries: Vec::new() });
        if indexed.entries.last() != Some(&entry) {
            indexed.entries.push(entry);
        }
    }

    fn sorted(self) -> Vec<Indexed> {
        let mut all: Vec<(String, Indexed)> =
            self.0.into_iter().map(|(key, indexed)| (slug::in_order(&key), indexed)).collect();
        all.sort_by(|(one, _), (other, _)| one.cmp(other));
        all.into_iter().map(|(_, indexed)| indexed).collect()
    }
}

impl Entry {
    /// The entry of a page of which it is known what it is called, what is told of it, and what it makes at each of its sizes and
    /// ways; `None` where that is not as many as there are.
    pub fn known(
        project: &Project,
        page: &book::Page,
        (title, told): (String, Told),
        sizes: &[Option<String>],
    ) -> Option<Entry> {
        let asked = asked_of(project, page);
        if asked.len() != sizes.len() {
            return None;
        }
        let variants = asked.into_iter().zip(sizes).map(|(asked, size)| asked.called(size.clone())).collect();
        Some(Entry { source: page.recipe, title, slug: String::new(), told, variants })
    }
}

/// A size and a way of a page.
struct AskedOf {
    size: Size,
    way: String,
    selection: Selection,
}

impl AskedOf {
    fn called(self, size: Option<String>) -> Variant {
        Variant { stem: String::new(), size, way: self.way, asked: self.size, selection: self.selection }
    }
}

/// All sizes and ways of a page, the main one first.
fn asked_of(project: &Project, page: &book::Page) -> Vec<AskedOf> {
    let choices = project.file(page.recipe).map_or_else(Vec::new, |file| choices_of(&file.tree));
    let sizes: Vec<Size> = match page.sizes.as_slice() {
        [] => vec![Size::AsWritten],
        sizes => sizes.iter().map(|size| asked(size.value)).collect(),
    };
    let mut all = Vec::new();
    for selection in ways(&choices, page) {
        let way = way_name(&choices, &selection, &page.decided);
        for size in &sizes {
            all.push(AskedOf { size: size.clone(), way: way.clone(), selection: selection.clone() });
        }
    }
    all
}

/// The entry of a page of a book, and its main page in each of these units; what is otherwise in another way stands at its end.
///
/// # Errors
/// When it cannot be made in a size that was asked for.
pub fn entry(project: &Project, page: &book::Page, units: &[Units]) -> Result<(Entry, Vec<ReaderPage>), Impossible> {
    let mut title = String::new();
    let mut variants = Vec::new();
    // What the main page is made of, which is the first.
    let mut main: Option<(Order, Size)> = None;
    for asked in asked_of(project, page) {
        let (order, called) = order(project, page.recipe, &asked.selection, &asked.size)?;
        title = called;
        main.get_or_insert_with(|| (order.clone(), asked.size.clone()));
        variants.push(asked.called(size_words(&order)));
    }
    let mut pages = Vec::new();
    if let Some((order, size)) = main {
        let others = reader::others(project, page.recipe, &order.recipe, &size, &page.decided);
        let others = others.map_err(|_| Impossible { title: title.clone(), why: TOO_LARGE.to_owned() })?;
        pages = laid_out(&batch_of(order)?, units, &others)?;
    }
    let told = pages.first().map(Told::of).unwrap_or_default();
    Ok((Entry { source: page.recipe, title, slug: String::new(), told, variants }, pages))
}

/// A variant of an entry as a page by itself, in each of these units: of other ways nothing stands on it.
///
/// # Errors
/// When it cannot be made in that size.
pub fn pages(
    project: &Project,
    entry: &Entry,
    variant: &Variant,
    units: &[Units],
) -> Result<Vec<ReaderPage>, Impossible> {
    laid_out(&batch(project, (entry, variant))?, units, &[])
}

/// The batch of an entry's main page, for its card.
///
/// # Errors
/// When it cannot be made in that size.
pub fn main_batch(project: &Project, entry: &Entry) -> Result<Batch, Impossible> {
    let Some(main) = entry.variants.first() else {
        return Err(Impossible { title: entry.title.clone(), why: "it has no page".to_owned() });
    };
    batch(project, (entry, main))
}

fn batch(project: &Project, (entry, variant): (&Entry, &Variant)) -> Result<Batch, Impossible> {
    batch_of(order(project, entry.source, &variant.selection, &variant.asked)?.0)
}

fn batch_of(order: Order) -> Result<Batch, Impossible> {
    let title = order.recipe.name.to_string();
    let Ok(work) = Work::of(vec![order]) else { return Err(Impossible { title, why: TOO_LARGE.to_owned() }) };
    let nothing = || Impossible { title, why: "nothing is made of it".to_owned() };
    work.batches.into_iter().next().ok_or_else(nothing)
}

fn laid_out(batch: &Batch, units: &[Units], others: &[(String, Batch)]) -> Result<Vec<ReaderPage>, Impossible> {
    let large = |_: Overflow| Impossible { title: batch.recipe.name.to_string(), why: TOO_LARGE.to_owned() };
    let planned = Planned::of(batch, others).map_err(large)?;
    units.iter().map(|units| planned.page(Asked { units: *units, serve: None }).map_err(large)).collect()
}

/// A recipe at a size, and what it is called.
fn order(
    project: &Project,
    source: SourceId,
    selection: &Selection,
    size: &Size,
) -> Result<(Order, String), Impossible> {
    let Some((recipe, written)) = work_out(project, source, selection, &mut Vec::new()) else {
        return Err(Impossible { title: "a page".to_owned(), why: "it is no recipe".to_owned() });
    };
    let title = recipe.name.to_string();
    let order = Order::sized(recipe, &written, size).map_err(|impossible| Impossible {
        title: title.clone(),
        why: match impossible.help {
            Some(instead) => format!("{}; {}", impossible.why, instead.shown(AskedBy::Page)),
            None => impossible.why,
        },
    })?;
    Ok((order, title))
}

/// Every way that the book leaves open, the main one first. Of many only those in which one option is another.
fn ways(choices: &[Choice], page: &book::Page) -> Vec<Selection> {
    let is_decided =
        |selection: &Selection| page.decided.iter().all(|choice| selection.of(choice) == page.selection.of(choice));
    let others =
        selections(choices).into_iter().filter(|selection| is_decided(selection) && *selection != page.selection);
    let mut all: Vec<Selection> = std::iter::once(page.selection.clone()).chain(others).collect();
    if all.len() > MOST_WAYS {
        let differs = |selection: &Selection| {
            choices
                .iter()
                .filter(|choice| selection.of(&choice.name.key) != page.selection.of(&choice.name.key))
                .count()
        };
        all.retain(|selection| differs(selection) <= 1);
    }
    all
}

/// The options taken, as they are written.
fn way_name(choices: &[Choice], selection: &Selection, decided: &[crate::language::syntax::Key]) -> String {
    let open = choices.iter().filter(|choice| !decided.contains(&choice.name.key));
    let taken = open.filter_map(|choice| {
        let key = selection.of(&choice.name.key)?;
        choice.options.iter().find(|option| option.key == *key).map(ToString::to_string)
    });
    taken.collect::<Vec<String>>().join(", ")
}

/// What is made, as a reader's page prints it.
fn size_words(order: &Order) -> Option<String> {
    if let Some(pieces) = order.formula.pieces.map(Count::value) {
        return Some(match &order.recipe.makes {
            Some(HeadMakes::Pieces { noun, .. }) => counted(pieces, &noun.to_string()),
            _ => show::pieces(pieces).to_string(),
        });
    }
    let part = order.recipe.final_part().and_then(|id| order.formula.part(id))?;
    part.makes.map(|mass| show::mass_plain(mass).to_string())
}
