//! A book as it is shown: its recipes as readers' pages, and what is found by what: titles, ingredients, allergens.
//!
//! The main page of each recipe is worked out here, since the indexes are read off it; its other sizes and ways are worked out
//! when they are wanted ([`page`]), so that a book of a thousand recipes stays small in memory.

pub mod slug;

use super::reader::{self, Asked, ReaderPage};
use crate::check::book::asked;
use crate::check::work_out;
use crate::make::batch::Batch;
use crate::make::order::Order;
use crate::make::size::Size;
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
    /// Its main page, in the units that the book was asked for in; what is otherwise in another way stands at its end.
    pub main: ReaderPage,
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

impl Book {
    /// The book of a model whose recipes are without errors, in these units.
    ///
    /// # Errors
    /// Of the first recipe that cannot be made in a size that was asked for.
    pub fn of(project: &Project, model: &book::Book, units: Units) -> Result<Book, Impossible> {
        let mut chapters = Vec::with_capacity(model.chapters.len());
        for chapter in model.chapters.iter().filter(|chapter| !chapter.pages.is_empty()) {
            let entries: Vec<Result<Entry, Impossible>> =
                chapter.pages.par_iter().map(|page| entry(project, page, units)).collect();
            let entries: Result<Vec<Entry>, Impossible> = entries.into_iter().collect();
            let title = chapter.title.as_ref().map(|title| title.value.clone());
            chapters.push(Chapter { title, entries: entries? });
        }
        let mut book = Book {
            title: model.title.clone(),
            by: model.by.clone(),
            address: model.address.clone(),
            chapters,
            titles: Vec::new(),
            ingredients: Vec::new(),
            allergens: Vec::new(),
        };
        book.name_files();
        book.index();
        Ok(book)
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
            for name in entry.main.ingredients() {
                ingredients.put(name, number);
            }
            for name in &entry.main.allergens {
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

impl ReaderPage {
    /// What goes in, parts left out, by this way and by the others.
    pub fn ingredients(&self) -> impl Iterator<Item = &str> {
        let groups = self.way.groups.iter().chain(self.others.iter().flat_map(|other| &other.groups));
        groups.flat_map(|group| &group.rows).filter(|row| !row.is_part).map(|row| row.name.as_str())
    }
}

fn entry(project: &Project, page: &book::Page, units: Units) -> Result<Entry, Impossible> {
    let choices = project.file(page.recipe).map_or_else(Vec::new, |file| choices_of(&file.tree));
    let sizes: Vec<Size> = match page.sizes.as_slice() {
        [] => vec![Size::AsWritten],
        sizes => sizes.iter().map(|size| asked(size.value)).collect(),
    };
    let mut entry = Entry {
        source: page.recipe,
        title: String::new(),
        slug: String::new(),
        main: ReaderPage::default(),
        variants: Vec::new(),
    };
    // What the main page is made of, which is the first.
    let mut main: Option<Order> = None;
    for selection in ways(&choices, page) {
        let way = way_name(&choices, &selection, &page.decided);
        for size in &sizes {
            let (order, title) = order(project, page.recipe, &selection, size)?;
            entry.title = title;
            entry.variants.push(Variant {
                stem: String::new(),
                size: size_words(&order),
                way: way.clone(),
                asked: size.clone(),
                selection: selection.clone(),
            });
            main.get_or_insert(order);
        }
    }
    if let (Some(order), Some(variant)) = (main, entry.variants.first()) {
        let others = reader::others(project, page.recipe, &order.recipe, &variant.asked, &page.decided);
        let others = others.map_err(|_| Impossible { title: entry.title.clone(), why: TOO_LARGE.to_owned() })?;
        entry.main = laid_out(&batch_of(order)?, units, &others)?;
    }
    Ok(entry)
}

/// A variant of an entry as a page by itself, in these units: of other ways nothing stands on it.
///
/// # Errors
/// When it cannot be made in that size.
pub fn page(project: &Project, entry: &Entry, variant: &Variant, units: Units) -> Result<ReaderPage, Impossible> {
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

fn laid_out(batch: &Batch, units: Units, others: &[(String, Batch)]) -> Result<ReaderPage, Impossible> {
    let large = |_: Overflow| Impossible { title: batch.recipe.name.to_string(), why: TOO_LARGE.to_owned() };
    reader::page(batch, others, Asked { units, serve: None }).map_err(large)
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
            Some(help) => format!("{}; {help}", impossible.why),
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
