//! `miche book BOOK -o FOLDER`: writes a static site, whole or not at all.

use super::dates;
use super::kept::Shelf;
use super::read::{ReadBook, cannot};
use crate::edge::cli::Outcome;
use crate::edge::cli::busy::Busy;
use crate::edge::cli::output::Output;
use crate::edge::cli::stop::{Ended, Stop};
use crate::edge::loader::{Digest, Kept, NewFolder, read_picture};
use crate::edge::past::revision::CUT_OFF;
use crate::figures::book::{self, Book, Entry};
use crate::figures::card;
use crate::figures::reader::ReaderPage;
use crate::measure::noun::so_many;
use crate::measure::show::Units;
use crate::model::book::Page;
use crate::model::published::{PictureFile as PictureSource, PictureKind};
use crate::out::sheet::{By, Paper, Sheet};
use crate::out::shrink::shrink;
use crate::out::site::recipe::{UNITS, Which};
use crate::out::site::{Dates, Files, PictureFile, Site};
use crate::text::source::Span;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;

/// How wide a picture is on a page at most, in dots: twice what a desk shows, for fine screens and for paper.
const WIDE: u32 = 1600;

/// The same on the first page.
const SMALL: u32 = 640;

/// So many bytes of a picture tell its size.
const HEAD: u64 = 64 * 1024;

/// With more recipes than this, batch cards are written only when they are asked for: setting one takes as long as thirty pages.
const CARDS_UP_TO: usize = 200;

/// Writes the site. Recipes of which earlier runs have kept everything, and whose pages are there, are not worked out again.
pub(super) fn write(read: &ReadBook, kept: Kept, target: &Path, cards: bool, output: &mut Output) -> Ended {
    let shelf = Shelf::of(read, kept);
    shelf.keep_checked(&read.check(&shelf.known(), output)?);
    let (entries, main_pages) = entries(read, &shelf)?;
    let book = Book::bound(&read.model, entries);
    let busy = Busy::with(format!("writing {}", target.display()));
    let told = |why: String| Stop::from(format!("{}: {why}", target.display()));
    let folder = NewFolder::in_place_of(target).map_err(told)?;
    let entries: Vec<&Entry> = book.entries().collect();
    let has_cards = cards || entries.len() <= CARDS_UP_TO;
    let changes = dates::of(read, &shelf);
    let (changes, undated) = match changes {
        Ok(changes) => (Some(changes), None),
        Err(why) => (None, Some(why)),
    };
    let is_cut = changes.iter().flatten().any(|dates| dates.is_cut);
    let pictures = pictures((read, &shelf), &book, &folder)?;
    let site = Site::of(&book, pictures, changes, has_cards);
    for (name, bytes) in Site::assets() {
        folder.put(name, &bytes).map_err(told)?;
    }
    folder.put("index.html", site.front().as_bytes()).map_err(told)?;
    folder.put("assets/search-index.js", site.search_index()?.as_bytes()).map_err(told)?;
    for (name, page) in site.ingredients().into_iter().chain(site.allergens()) {
        folder.put(&name, page.as_bytes()).map_err(told)?;
    }
    if let Some(page) = site.changes_page() {
        folder.put("changes.html", page.as_bytes()).map_err(told)?;
    }
    if let Some(list) = site.sitemap() {
        folder.put("sitemap.txt", list.as_bytes()).map_err(told)?;
    }
    let recipes = Recipes { read, shelf: &shelf, site: &site, entries: &entries, folder: &folder };
    let written: Vec<Result<(), String>> =
        main_pages.into_par_iter().enumerate().map(|(number, pages)| recipes.write(number, pages)).collect();
    written.into_iter().collect::<Result<Vec<()>, String>>().map_err(told)?;
    let filled = folder.finish().map_err(told)?;
    shelf.close();
    drop(busy);
    if is_cut {
        output.complain(&format!("{CUT_OFF}: pages do not say when a recipe was first published"));
    }
    if let Some(why) = undated {
        output.complain(&format!("{why}: pages carry no dates, and what changed lately is left out"));
    }
    if !has_cards {
        output.complain(&format!(
            "batch cards are left out of a site of more than {CARDS_UP_TO} recipes; --cards writes them"
        ));
    }
    output.print(&format!(
        "{}: {}, {}, {} of them written\n",
        target.display(),
        so_many(entries.len(), "recipes"),
        so_many(filled.files, "files"),
        filled.written
    ));
    Ok(Outcome::Fine)
}

/// The entries of a book in their order, and the main page of each in all units, where it was not known.
fn entries(read: &ReadBook, shelf: &Shelf<'_>) -> Result<(Vec<Entry>, Vec<Vec<ReaderPage>>), Stop> {
    let pages: Vec<(usize, &Page)> = shelf.pages().collect();
    let one = |(number, page): &(usize, &Page)| {
        if let Some(known) = shelf.entry(*number) {
            return Ok((known, Vec::new()));
        }
        let (entry, main) = book::entry(&read.project, page, &UNITS.map(|(units, _)| units))?;
        shelf.keep_entry(*number, &entry);
        Ok((entry, main))
    };
    let worked: Vec<Result<_, book::Impossible>> = pages.par_iter().map(one).collect();
    Ok(worked.into_iter().collect::<Result<Vec<_>, _>>().map_err(cannot)?.into_iter().unzip())
}

/// The recipes of a site while their files are written.
struct Recipes<'a> {
    read: &'a ReadBook,
    shelf: &'a Shelf<'a>,
    site: &'a Site<'a>,
    entries: &'a [&'a Entry],
    folder: &'a NewFolder,
}

impl Recipes<'_> {
    /// All pages of a recipe, its source and its card; those of the main page in all units may be worked out already.
    fn write(&self, number: usize, main: Vec<ReaderPage>) -> Result<(), String> {
        let Some(entry) = self.entries.get(number).copied() else { return Ok(()) };
        let source = self.read.project.sources.get(entry.source).map_or("", |source| &source.text);
        self.folder.put(&format!("sources/{}.txt", entry.slug), source.as_bytes())?;
        let (names, key) = (self.names(number, entry), self.key(number, entry));
        if let Some(known) = self.shelf.files(key).filter(|known| known.len() == names.len()) {
            let holds = |digest: [u8; 32]| move |bytes: &[u8]| Digest::of(bytes) == Digest::from_bytes(digest);
            let files: Vec<(String, _)> = names.iter().cloned().zip(known.into_iter().map(holds)).collect();
            if self.folder.keep_all(&files) {
                return Ok(());
            }
        }
        let all = self.made(number, entry, main)?;
        for (name, bytes) in names.iter().zip(&all) {
            self.folder.put(name, bytes)?;
        }
        self.shelf.keep_files(key, &all.iter().map(|bytes| Digest::of(bytes)).collect::<Vec<Digest>>());
        Ok(())
    }

    /// The files of a recipe but for its source: its pages, and its card where there are cards.
    fn names(&self, number: usize, entry: &Entry) -> Vec<String> {
        let pages = entry
            .variants
            .iter()
            .flat_map(|variant| UNITS.map(|(units, _)| Which { number, entry, variant, units }.file()));
        pages.chain(self.site.cards.then(|| format!("cards/{}.pdf", entry.slug))).collect()
    }

    /// What these files are made of.
    fn key(&self, number: usize, entry: &Entry) -> Digest {
        let mut key = self.shelf.key_of_files(number);
        self.site.around(number, entry, self.shelf.files_of(number), |value| {
            key.put(value.as_bytes());
        });
        key.digest()
    }

    /// What they hold.
    fn made(&self, number: usize, entry: &Entry, main: Vec<ReaderPage>) -> Result<Vec<Vec<u8>>, String> {
        let all_units = UNITS.map(|(units, _)| units);
        let mut main = Some(main).filter(|main| main.len() == all_units.len());
        let mut all = Vec::new();
        for variant in &entry.variants {
            let pages = match main.take() {
                Some(main) => main,
                None => book::pages(&self.read.project, entry, variant, &all_units).map_err(|why| why.to_string())?,
            };
            for (page, units) in pages.into_iter().zip(all_units) {
                all.push(self.site.recipe(Which { number, entry, variant, units }, page).into_bytes());
            }
        }
        if self.site.cards {
            let dates = self.site.changes.as_ref().and_then(|all| all.get(number));
            all.push(card_of(self.read, entry, dates)?);
        }
        Ok(all)
    }
}

/// The batch card of the main page. Its foot has the date of the last change, so that the same recipe gives the same bytes.
fn card_of(read: &ReadBook, entry: &Entry, dates: Option<&Dates>) -> Result<Vec<u8>, String> {
    let batch = book::main_batch(&read.project, entry).map_err(|why| why.to_string())?;
    let card = card::of_batch(&batch, Units::Metric).map_err(|_| format!("{}: its sums are too large", entry.title))?;
    let last = dates.and_then(|dates| dates.commits.first());
    let sheet = Sheet {
        paper: Paper::A4,
        orientation: Paper::A4.usual_orientation(),
        by: By::Recipe,
        compact: false,
        printed: last.map_or_else(|| "for a site".to_owned(), |commit| commit.date.clone()),
        revision: None,
    };
    let pdf = crate::out::pdf::render_logged(&[card], None, &[], &sheet);
    pdf.map(|pdf| pdf.bytes).map_err(|none| format!("{}: {none}", entry.title))
}

/// A picture that stands on pages, however many recipes show it.
struct Shown<'r> {
    file: &'r PictureSource,
    path: &'r str,
    /// Where it is named.
    places: Vec<Span>,
    /// Where it is named as what stands for its recipe on the first page.
    covers: Vec<Span>,
}

/// The pictures of the book, each made as small as it is shown. One that the old site has already is not made again.
fn pictures((read, shelf): (&ReadBook, &Shelf<'_>), book: &Book, folder: &NewFolder) -> Result<Files, Stop> {
    let mut wanted: BTreeMap<&Path, Shown<'_>> = BTreeMap::new();
    for entry in book.entries() {
        let cover = entry.told.cover.as_ref().map(|cover| cover.span);
        for picture in &entry.told.pictures {
            // One that cannot be shown was an error of the recipe, and no page is made of those.
            let Some(file) = read.project.picture(picture.span) else { continue };
            let new = || Shown { file, path: &picture.path, places: Vec::new(), covers: Vec::new() };
            let shown = wanted.entry(&file.path).or_insert_with(new);
            shown.places.push(picture.span);
            if cover == Some(picture.span) {
                shown.covers.push(picture.span);
            }
        }
    }
    let wanted: Vec<Shown<'_>> = wanted.into_values().collect();
    let made: Vec<Result<(PictureFile, Option<PictureFile>), String>> = wanted
        .par_iter()
        .map(|shown| {
            let bytes = read_picture(shown.file);
            let made = bytes.and_then(|bytes| {
                let of = |wide| fitted((folder, shelf), shown.path, (&bytes, shown.file.kind), wide);
                Ok((of(WIDE)?, (!shown.covers.is_empty()).then(|| of(SMALL)).transpose()?))
            });
            made.map_err(|why| format!("{}: {why}", shown.path))
        })
        .collect();
    let mut files = Files::default();
    for (shown, made) in wanted.iter().zip(made) {
        let (whole, small) = made?;
        files.whole.extend(shown.places.iter().map(|place| (*place, whole.clone())));
        files.small.extend(small.iter().flat_map(|small| shown.covers.iter().map(|place| (*place, small.clone()))));
    }
    Ok(files)
}

/// A picture at most so wide, under a name that says what it was made of. One that the site has is looked at; where nothing is kept of
/// what it should be its name has to do.
fn fitted(
    (folder, shelf): (&NewFolder, &Shelf<'_>),
    path: &str,
    (bytes, kind): (&[u8], PictureKind),
    wide: u32,
) -> Result<PictureFile, String> {
    let stem = Path::new(path).file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = crate::figures::book::slug::Slugs::default().take(&stem);
    let ending = match kind {
        PictureKind::Jpeg => "jpg",
        PictureKind::Png => "png",
    };
    let made_of = Digest::of(bytes);
    let begin: String = made_of.hex().chars().take(16).collect();
    let name = format!("pictures/{stem}-{begin}-{wide}.{ending}");
    if let Some((digest, width, height)) = shelf.picture(made_of, wide) {
        let holds = |there: &[u8]| Digest::of(there) == digest;
        if folder.keep_all(&[(name.clone(), holds)]) {
            return Ok(PictureFile { name, width, height });
        }
    } else if !shelf.keeps()
        && let Some(begin) = folder.keep(&name, HEAD)
        && let Ok(size) = imagesize::blob_size(&begin)
        && let (Ok(width), Ok(height)) = (u32::try_from(size.width), u32::try_from(size.height))
    {
        return Ok(PictureFile { name, width, height });
    }
    let shrunk = shrink(bytes, kind, wide)?;
    folder.put(&name, &shrunk.bytes)?;
    shelf.keep_picture(made_of, wide, (Digest::of(&shrunk.bytes), shrunk.width, shrunk.height));
    Ok(PictureFile { name, width: shrunk.width, height: shrunk.height })
}
