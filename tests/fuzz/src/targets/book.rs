//! Any text as a book, or as a recipe that a book shows: what has no error becomes pages, a booklet and an EPUB, and nothing in a
//! recipe becomes a tag, a script or an address of its own.

use super::super::{checks, is_clean, is_json, project_of};
use miche::figures::book::{Book, pages};
use miche::measure::show::Units;
use miche::out;
use miche::out::sheet::{By, Orientation, Paper, Sheet};
use miche::out::site::recipe::{UNITS, Which};
use miche::out::site::{Files, Site};
use miche::solve::resolve;

/// So many recipes of a book are laid out: the others come to the same code.
const MOST: usize = 2;

/// One text.
pub fn run(text: &str) {
    let begins = text.trim_start_matches('\u{feff}').trim_start().to_lowercase();
    let (project, sources) = if begins.starts_with("recipe") {
        project_of(&[("book.miche", "book Fuzzed\n\npage \"fuzzed.miche\"\n"), ("fuzzed.miche", text)])
    } else if begins.starts_with("book") {
        project_of(&[("fuzzed.miche", text)])
    } else {
        project_of(&[("fuzzed.miche", &format!("book Fuzzed\n\npage \"tide-oatcakes.miche\"\n{text}"))])
    };
    let Some(mut model) = resolve::book::book(&project, sources[0], &mut Vec::new()) else { return };
    let pages = model.pages().map(|page| page.recipe);
    let mut all: Vec<_> = sources.iter().copied().chain(pages).collect();
    all.sort_unstable();
    all.dedup();
    if !checks(&project, &all) {
        return;
    }
    let mut left = MOST;
    for chapter in &mut model.chapters {
        chapter.pages.truncate(left);
        left -= chapter.pages.len();
    }
    let Ok((book, main_pages)) = Book::of(&project, &model, Units::Metric) else { return };
    lays_out_site(&project, &book);
    if book.entries().next().is_none() {
        return;
    }
    let sheet = Sheet {
        paper: Paper::A5,
        orientation: Orientation::Portrait,
        by: By::Recipe,
        compact: false,
        printed: "2027-04-17".to_owned(),
        revision: None,
    };
    // Setting type takes as long as all else together.
    if text.len().is_multiple_of(5) {
        let pdf =
            out::pdf::render_book(&book, &main_pages, &[], &sheet).unwrap_or_else(|none| panic!("no booklet: {none}"));
        assert!(pdf.bytes.starts_with(b"%PDF-"));
    }
    let epub = out::epub::render(&book, &main_pages, &[], "2027-04-17").unwrap_or_else(|why| panic!("no EPUB: {why}"));
    assert!(epub.starts_with(b"PK"));
}

fn lays_out_site(project: &miche::model::project::Project, book: &Book) {
    let site = Site::of(book, Files::default(), None, true);
    is_linked_html(&site.front());
    is_json(
        site.search_index()
            .expect("an index")
            .trim_start_matches(|c| c != '[' && c != '{')
            .trim_end_matches([';', '\n']),
    );
    for (name, page) in site.ingredients().into_iter().chain(site.allergens()) {
        is_clean(&name);
        is_linked_html(&page);
    }
    for (number, entry) in book.entries().enumerate() {
        for variant in &entry.variants {
            for (units, _) in UNITS {
                let which = Which { number, entry, variant, units };
                let file = which.file();
                let plain = |c: char| c.is_ascii_alphanumeric() || "/-.".contains(c);
                assert!(file.chars().all(plain) && !file.contains(".."), "{file}");
                for page in pages(project, entry, variant, &[units]).into_iter().flatten() {
                    is_linked_html(&site.recipe(which, page));
                }
            }
        }
    }
}

/// A page of a site has the site's script and style, its data, and nothing else that fetches or runs.
fn is_linked_html(page: &str) {
    is_clean(page);
    let low = page.to_ascii_lowercase();
    let ours = [
        ("<script", &["<script type=\"application/ld+json\"", "<script src=\"assets/", "<script src=\"../assets/"][..]),
        ("<link", &["<link rel=\"stylesheet\" href=\"", "<link rel=\"canonical\" href=\"http"][..]),
    ];
    for (tag, allowed) in ours {
        for (at, _) in low.match_indices(tag) {
            assert!(allowed.iter().any(|begin| low[at..].starts_with(begin)), "{} in {page}", &page[at..]);
        }
    }
    for tag in ["<img", "<iframe", "<object", "<embed", "<base", "<form", "=\"javascript:"] {
        assert!(!low.contains(tag), "{tag} in {page}");
    }
}
