//! `miche book BOOK -o FOLDER`: writes a static site, whole or not at all.

use super::dates;
use super::read::ReadBook;
use crate::edge::cli::Outcome;
use crate::edge::cli::busy::Busy;
use crate::edge::cli::output::Output;
use crate::edge::cli::stop::{Ended, Stop};
use crate::edge::loader::{NewFolder, read_picture};
use crate::figures::book::{self, Entry};
use crate::figures::card;
use crate::measure::show::Units;
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

pub(super) fn write(read: &ReadBook, target: &Path, cards: bool, output: &mut Output) -> Ended {
    let busy = Busy::with(format!("writing {}", target.display()));
    let told = |why: String| Stop::from(format!("{}: {why}", target.display()));
    let folder = NewFolder::in_place_of(target).map_err(told)?;
    let entries: Vec<&Entry> = read.book.entries().collect();
    let has_cards = cards || entries.len() <= CARDS_UP_TO;
    let changes = dates::of(read);
    let in_git = changes.is_some();
    let pictures = pictures(read, &folder)?;
    let site = Site::of(&read.book, pictures, changes, has_cards);
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
    let written: Vec<Result<(), String>> =
        entries.par_iter().enumerate().map(|(number, entry)| recipe(read, &site, &folder, (number, entry))).collect();
    written.into_iter().collect::<Result<Vec<()>, String>>().map_err(told)?;
    let filled = folder.finish().map_err(told)?;
    drop(busy);
    if !in_git {
        output.complain(
            "the recipes lie in no git repository: pages carry no dates, and what changed lately is left out",
        );
    }
    if !has_cards {
        output.complain(&format!(
            "batch cards are left out of a site of more than {CARDS_UP_TO} recipes; --cards writes them"
        ));
    }
    output.print(&format!(
        "{}: {} recipes, {} files, {} of them written\n",
        target.display(),
        entries.len(),
        filled.files,
        filled.written
    ));
    Ok(Outcome::Fine)
}

/// All pages of a recipe, its source and its card.
fn recipe(
    read: &ReadBook,
    site: &Site<'_>,
    folder: &NewFolder,
    (number, entry): (usize, &Entry),
) -> Result<(), String> {
    let cannot = |why: book::Impossible| format!("{}: {}", why.title, why.why);
    for (at, variant) in entry.variants.iter().enumerate() {
        for (units, _) in UNITS {
            let which = Which { number, entry, variant, units };
            let page = match units {
                Units::Metric if at == 0 => entry.main.clone(),
                _ => book::page(&read.project, entry, variant, units).map_err(cannot)?,
            };
            folder.put(&which.file(), site.recipe(which, page).as_bytes())?;
        }
    }
    let source = read.project.sources.get(entry.source).map_or("", |source| &source.text);
    folder.put(&format!("sources/{}.txt", entry.slug), source.as_bytes())?;
    if site.cards {
        let dates = site.changes.as_ref().and_then(|all| all.get(number));
        folder.put(&format!("cards/{}.pdf", entry.slug), &card_of(read, entry, dates)?)?;
    }
    Ok(())
}

/// The batch card of the main page. Its foot has the date of the last change, so that the same recipe gives the same bytes.
fn card_of(read: &ReadBook, entry: &Entry, dates: Option<&Dates>) -> Result<Vec<u8>, String> {
    let cannot = |why: book::Impossible| format!("{}: {}", why.title, why.why);
    let batch = book::main_batch(&read.project, entry).map_err(cannot)?;
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
fn pictures(read: &ReadBook, folder: &NewFolder) -> Result<Files, Stop> {
    let mut wanted: BTreeMap<&Path, Shown<'_>> = BTreeMap::new();
    for entry in read.book.entries() {
        let cover = entry.main.pictures.first().map(|cover| cover.span);
        for picture in entry.main.all_pictures() {
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
                let of = |wide| fitted(folder, shown.path, (&bytes, shown.file.kind), wide);
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

/// A picture at most so wide, under a name that says what it was made of.
fn fitted(
    folder: &NewFolder,
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
    let name = format!("pictures/{stem}-{:016x}-{wide}.{ending}", fingerprint(bytes));
    if let Some(begin) = folder.keep(&name, HEAD)
        && let Ok(size) = imagesize::blob_size(&begin)
        && let (Ok(width), Ok(height)) = (u32::try_from(size.width), u32::try_from(size.height))
    {
        return Ok(PictureFile { name, width, height });
    }
    let shrunk = shrink(bytes, kind, wide)?;
    folder.put(&name, &shrunk.bytes)?;
    Ok(PictureFile { name, width: shrunk.width, height: shrunk.height })
}

/// A number of some bytes by which they are told from others: FNV-1a with 64 bits (Fowler, Noll, Vo; RFC 9923, from memory).
fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::fingerprint;

    /// Published test values of the function (from memory).
    #[test]
    fn fingerprints_are_those_of_the_published_function() {
        assert_eq!(fingerprint(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint(b"a"), 0xaf63_dc4c_8601_ec8c);
    }
}
