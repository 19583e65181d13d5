//! Recipes for readers and books on paper and as EPUB, read back with programs that are not ours: poppler-utils and EPUBCheck.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "book_paper/epub.rs"]
mod epub;
#[path = "reader/picture.rs"]
mod picture;

use picture::png;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

const DATE: &str = "2027-04-17";

/// Whether the readers of PDF are there; under CI it is a failure when they are not.
fn readers() -> bool {
    let programs = ["pdfinfo", "pdffonts", "pdftotext", "pdfimages", "python3"];
    let is_missing = |program: &&str| {
        let version = if *program == "python3" { "--version" } else { "-v" };
        Command::new(program).arg(version).output().is_err()
    };
    let missing: Vec<&str> = programs.into_iter().filter(is_missing).collect();
    if missing.is_empty() {
        return true;
    }
    let missing = missing.join(", ");
    assert!(std::env::var_os("CI").is_none(), "under CI the PDFs are read back, but there is no {missing}");
    println!("NOT TESTED: readers' recipes and books on paper, for want of {missing}");
    false
}

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("the program starts")
}

/// Runs the program, which must be content.
fn made(folder: &Path, arguments: &[&str]) {
    let output = run(folder, arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
}

fn read(program: &str, options: &[&str], file: &Path) -> String {
    let mut command = Command::new(program);
    command.args(options).arg(file);
    if program == "pdftotext" {
        command.arg("-");
    }
    let output = command.output().expect("the reader starts");
    assert!(output.status.success(), "{program}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("the reader's text is UTF-8")
}

fn info(file: &Path, name: &str) -> String {
    let info = read("pdfinfo", &[], file);
    let line = info.lines().find_map(|line| line.strip_prefix(&format!("{name}:")));
    line.unwrap_or_else(|| panic!("no {name} in {info}")).trim().to_owned()
}

fn pages(file: &Path) -> Vec<String> {
    let text = read("pdftotext", &["-layout"], file);
    let mut pages: Vec<String> = text.split('\u{c}').map(str::to_owned).collect();
    // Behind the last page stands nothing.
    pages.pop();
    pages
}

/// Words in their order, without how they are laid out.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<&str>>().join(" ")
}

const BUNS: &str = "\
recipe Breakwater buns
makes 12 buns
story A bun for a windy morning.
picture \"blue tray.png\", Twelve buns on a blue tray
by Mara Ness

part dough
strong white flour ............ 500 g
water ......................... 320 g
salt .......................... 9 g
instant yeast ................. 5 g

mix: hands 10 min
    Mix {strong white flour}, {water}, {salt} and {instant yeast}.
    until smooth
shape: hands 30 s, each
    Shape into rounds.
    picture \"rounds.jpg\", Rounds in a row
bake: tend 15 min, using oven at 210 C
    until gold
";

/// Notes of a camera, as they stand in a JPEG: where it was.
const NOTES: &[u8] = b"Exif\0\0MM\0*\0\0\0\x08GPS 54.1N 7.9E";

fn jpeg_with_notes() -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    let picture = image::DynamicImage::ImageRgb8(image::RgbImage::from_pixel(900, 600, image::Rgb([200, 90, 20])));
    picture.write_to(&mut bytes, image::ImageFormat::Jpeg).expect("a picture in memory");
    let mut bytes = bytes.into_inner();
    let length = u16::try_from(NOTES.len() + 2).expect("short").to_be_bytes();
    let notes = [&[0xFF, 0xE1], &length[..], NOTES].concat();
    bytes.splice(2..2, notes);
    bytes
}

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("buns.miche"), BUNS).expect("a file");
    fs::write(folder.path().join("blue tray.png"), png(2400, 1200)).expect("a file");
    fs::write(folder.path().join("rounds.jpg"), jpeg_with_notes()).expect("a file");
    folder
}

fn holds(bytes: &[u8], words: &[u8]) -> bool {
    bytes.windows(words.len()).any(|window| window == words)
}

/// A title, an author and a chapter that are longer than a page each: nothing is left empty before them.
#[test]
fn titles_longer_than_a_page_leave_no_page_empty() {
    if !readers() {
        return;
    }
    let folder = folder();
    let long = |words: &str| format!("{words} ").repeat(300);
    for (title, chapter) in [(long("Harbour ovens"), long("Sweet and sour")), ("h".repeat(5000), "s".repeat(5000))] {
        let book = format!("book {title}\nby {}\nchapter {chapter}\npage \"buns.miche\"\n", long("Mara Ness"));
        fs::write(folder.path().join("book.miche"), book).expect("a file");
        for paper in ["a5", "index"] {
            made(folder.path(), &["book", "book.miche", "-o", "book.pdf", "--date", DATE, "--paper", paper]);
            let pages = pages(&folder.path().join("book.pdf"));
            let begin = title.chars().take(5).collect::<String>();
            assert!(words(&pages[0]).starts_with(&begin), "{paper}: the first page says {:?}", words(&pages[0]));
            assert!(words(&pages[0]).contains("Mara Ness"), "{paper}: {:?}", words(&pages[0]));
            assert!(words(&pages[1]).contains("Printed"), "{paper}: the back of the title says {:?}", words(&pages[1]));
            let begin = chapter.chars().take(5).collect::<String>();
            let opener = pages.iter().find(|page| words(page).starts_with(&format!("1 {begin}")));
            assert!(opener.is_some_and(|page| page.contains("Breakwater buns")), "{paper}: {opener:?}");
        }
    }
}

#[test]
fn a_readers_recipe_on_paper_has_its_pictures_with_their_words() {
    if !readers() {
        return;
    }
    let folder = folder();
    let file = folder.path().join("buns.pdf");
    for more in [&[][..], &["--paper", "a5"], &["--compact"], &["--paper", "index"]] {
        made(
            folder.path(),
            &[&["card", "buns.miche", "--for", "reader", "-o", "buns.pdf", "--date", DATE], more].concat(),
        );
        let images = read("pdfimages", &["-list"], &file);
        let listed: Vec<Vec<&str>> = images.lines().skip(2).map(|line| line.split_whitespace().collect()).collect();
        assert_eq!(listed.len(), 2, "{more:?}: {images}");
        // As wide as high as it was: nothing is cut, nothing is pressed.
        let ratio = |row: &[&str]| row[3].parse::<f64>().expect("dots") / row[4].parse::<f64>().expect("dots");
        assert!((ratio(&listed[0]) - 2.0).abs() < 0.01 && (ratio(&listed[1]) - 1.5).abs() < 0.01, "{images}");
        let dots = |row: &[&str], at: usize| row[at].parse::<f64>().expect("dots to the inch");
        assert!(listed.iter().all(|row| (dots(row, 12) - dots(row, 13)).abs() < 2.0), "pressed: {images}");
        assert_eq!(info(&file, "Tagged"), "yes");
        let bytes = fs::read(&file).expect("a file");
        // The place as it was noted: three letters of it may stand anywhere in what is compressed.
        assert!(!holds(&bytes, b"GPS 54.1N") && !holds(&bytes, b"Exif\0\0"), "{more:?}: the camera's notes are in it");
        let structure = read("pdfinfo", &["-struct-text"], &file);
        assert_eq!(structure.matches("Figure").count(), 2, "{structure}");
        for words in ["Twelve buns on a blue tray", "Rounds in a row"] {
            assert!(says(&file, words), "{more:?}: nobody who does not see it is told {words}");
        }
    }
}

/// Whether words stand in a PDF as a string, its streams unpacked by Python's zlib.
fn says(file: &Path, words: &str) -> bool {
    let program = "
import re, sys, zlib
data = open(sys.argv[1], 'rb').read()
whole = data
for found in re.finditer(rb'stream\\r?\\n', data):
    try:
        whole += zlib.decompressobj().decompress(data[found.end():])
    except zlib.error:
        pass
sys.exit(0 if sys.argv[2].encode() in whole else 1)
";
    let output = Command::new("python3").arg("-c").arg(program).arg(file).arg(words).output();
    output.expect("python3 starts").status.success()
}

#[test]
fn a_picture_that_is_gone_is_told_and_writes_nothing() {
    let folder = folder();
    fs::remove_file(folder.path().join("rounds.jpg")).expect("removed");
    let output = run(folder.path(), &["card", "buns.miche", "--for", "reader", "-o", "buns.pdf"]);
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    assert!(!folder.path().join("buns.pdf").exists());
}

/// A recipe of the examples is one sheet or two, ingredients beside the steps, in lines of 60 to 70 letters, 75 at most (Bringhurst, The
/// Elements of Typographic Style, from memory).
#[test]
fn every_example_stands_on_two_sheets_in_lines_that_are_read_well() {
    if !readers() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("card.pdf");
    let out = file.to_str().expect("a plain path");
    let mut seen = 0;
    for entry in fs::read_dir(examples()).expect("a folder") {
        let path = entry.expect("an entry").path();
        let text = fs::read_to_string(&path).unwrap_or_default();
        if !text.lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        seen += 1;
        let name = path.file_name().and_then(|name| name.to_str()).expect("a name");
        made(&examples(), &["card", name, "--for", "reader", "-o", out, "--date", DATE]);
        let pages = pages(&file);
        assert!((1..=2).contains(&pages.len()), "{name}: {} sheets", pages.len());
        // What stands small behind a step's name may be longer.
        let lines = lines(&file);
        let longer = |most: usize| lines.iter().filter(|line| line.chars().count() > most).collect::<Vec<&String>>();
        assert!(longer(76).len() * 25 <= lines.len() && longer(86).is_empty(), "{name}: {:?}", longer(76));
        assert!(longer(45).len() > 3, "{name}: {lines:?}");
        assert!(pages[0].contains("Ingredients") && words(&pages.join(" ")).contains("1 "), "{name}");
    }
    assert!(seen > 10, "{seen} recipes");
}

/// The lines of the words that readers read one after the other, as poppler puts them together: what stands at the end in rows is
/// the table of tools and keeping, set in the measure of the steps too.
fn lines(file: &Path) -> Vec<String> {
    let text = read("pdftotext", &["-bbox-layout"], file);
    let mut all = Vec::new();
    for line in text.split("<line ").skip(1) {
        let line = line.split("</line>").next().expect("it ends");
        let words: Vec<&str> = line
            .split("<word ")
            .skip(1)
            .filter_map(|word| word.split_once('>').map(|(_, word)| word.split("</word>").next().unwrap_or("")))
            .collect();
        all.push(words.join(" "));
    }
    all
}

fn booklet() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("book.pdf");
    let out = file.to_str().expect("a plain path");
    made(&examples(), &["book", "harbour-ovens.miche", "-o", out, "--date", DATE]);
    (folder, file)
}

/// The lines of the contents: what they say, and the number of the page.
fn contents(pages: &[String]) -> Vec<(String, usize)> {
    let page = pages.iter().find(|page| page.contains("Contents") && page.contains(". . .")).expect("contents");
    let led =
        page.lines().filter(|line| line.contains(". .") || line.trim_end().ends_with(|c: char| c.is_ascii_digit()));
    let read = led.filter_map(|line| {
        let line = line.trim();
        let (rest, number) = line.rsplit_once([' ', '.'])?;
        Some((rest.trim_end_matches([' ', '.']).to_owned(), number.parse().ok()?))
    });
    read.filter(|(words, _)| !words.is_empty()).collect()
}

#[test]
fn a_booklet_says_on_which_pages_its_recipes_stand() {
    if !readers() {
        return;
    }
    let (_folder, file) = booklet();
    assert!(info(&file, "Page size").starts_with("419.5"), "{}", info(&file, "Page size"));
    assert_eq!(info(&file, "Tagged"), "yes");
    assert_eq!(info(&file, "Title"), "From the harbour ovens");
    let fonts = read("pdffonts", &[], &file);
    assert!(fonts.lines().count() > 3);
    for line in fonts.lines().skip(2) {
        // Name, type, encoding, embedded, subset: from the right, since a name may hold spaces.
        let columns: Vec<&str> = line.split_whitespace().rev().collect();
        assert_eq!(&columns[3..5], ["yes", "yes"], "{line}");
    }
    let pages = pages(&file);
    let contents = contents(&pages);
    let said = |name: &str| contents.iter().find(|(words, _)| words == name).map(|(_, page)| *page);
    assert!(contents.len() > 20, "{contents:?}");
    for (name, number) in &contents {
        let page = words(&pages[number - 1]);
        assert!(page.contains(name.as_str()), "{name} is not on page {number}: {page}");
    }
    for chapter in ["Bread", "Sweet", "For the tin and the pot"] {
        let page = said(chapter).unwrap_or_else(|| panic!("{chapter}: {contents:?}"));
        assert_eq!(page % 2, 1, "{chapter} begins on page {page}, at the left");
    }
    // Numbers and running heads: at the left the book's title, at the right the recipe's.
    for (number, text) in
        (1..).zip(&pages).filter(|(number, _)| said("Quay baguettes").is_some_and(|first| *number >= first))
    {
        let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
        let (Some(first), Some(last)) = (lines.first(), lines.last()) else { continue };
        if *last == number.to_string() && number % 2 == 0 {
            assert_eq!(*first, "From the harbour ovens", "page {number}");
        }
    }
    let numbered = (1..).zip(&pages).filter(|(number, text)| text.trim_end().ends_with(&number.to_string())).count();
    assert!(numbered > pages.len() * 2 / 3, "{numbered} of {} pages have their number", pages.len());
    table_says_what_the_recipes_say(&pages);
    index_leads_to_its_pages(
        &pages,
        said("Index of ingredients").expect("an index"),
        said("Index of recipes").expect("another"),
    );
}

/// What the index says of an ingredient is true: it stands on the page or on the one after it.
fn index_leads_to_its_pages(pages: &[String], first: usize, after: usize) {
    let index = words(&pages[first - 1..after - 1].join(" "));
    let mut seen = 0;
    for (name, recipe) in [
        ("rhubarb", "Rhubarb crumb buns"),
        ("semolina", "Quay baguettes"),
        ("island brown meal", "Harbour levain loaf"),
    ] {
        assert!(index.contains(name) && index.contains(recipe), "{name}: {index}");
        let at = pages.iter().position(|page| words(page).contains(&format!("{recipe} By "))).expect("the recipe");
        let there = words(&pages[at..(at + 2).min(pages.len())].join(" "));
        assert!(there.contains(name), "{name} in {there}");
        let led = format!("{recipe} ");
        let numbers: Vec<&str> =
            index.split(&led).skip(1).filter_map(|rest| rest.split(['.', ' ']).find(|word| !word.is_empty())).collect();
        assert!(numbers.contains(&(at + 1).to_string().as_str()), "{recipe} on {}: {numbers:?}", at + 1);
        seen += 1;
    }
    assert_eq!(seen, 3);
}

/// The table has as many dots in a recipe's row as its page tells allergens, and a question mark where not all is known.
fn table_says_what_the_recipes_say(pages: &[String]) {
    let table = pages.iter().find(|page| page.contains("A dot means")).expect("a table");
    let dots = |title: &str| {
        let line = table.lines().find(|line| line.trim_start().starts_with(title)).unwrap_or_else(|| panic!("{title}"));
        (line.matches('•').count(), line.contains('?'))
    };
    for (file, title) in [
        ("rhubarb-crumb-buns", "Rhubarb crumb buns"),
        ("quay-baguettes", "Quay baguettes"),
        ("yellow-pea-pot", "Yellow pea pot"),
    ] {
        let output = run(&examples(), &["card", &format!("{file}.miche"), "--for", "reader", "--format", "json"]);
        let page: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let contains = page["allergens"].as_array().map_or(0, Vec::len);
        let unknown = page["allergens_unknown"].as_array().is_some_and(|all| !all.is_empty());
        assert_eq!(dots(title), (contains, unknown), "{title}: {page:#}");
    }
}

#[test]
fn the_same_book_gives_the_same_bytes() {
    let folder = book_of_one();
    for ending in ["pdf", "epub"] {
        let [one, other] = [1, 2].map(|number| {
            let path = format!("{number}.{ending}");
            made(folder.path(), &["book", "book.miche", "-o", &path, "--date", DATE]);
            fs::read(folder.path().join(path)).expect("a file")
        });
        assert!(one == other, "{ending}");
    }
}

/// A folder with a book without chapters, of one recipe.
fn book_of_one() -> TempDir {
    let folder = folder();
    fs::write(folder.path().join("book.miche"), "book Buns\npage \"buns.miche\"\n").expect("a file");
    folder
}

#[test]
fn what_means_nothing_for_a_book_is_refused() {
    let folder = book_of_one();
    for wrong in [
        &["-o", "book.epub", "--paper", "a4"][..],
        &["-o", "site", "--paper", "a4"],
        &["-o", "book.pdf", "--date", "tomorrow"],
        &["-o", "book.epub", "--date", "2027-13-01"],
        &["-o", "book.docx"],
        &["-o", "book.pdf", "--paper", "a6"],
    ] {
        let output = run(folder.path(), &[&["book", "book.miche"], wrong].concat());
        assert_eq!(output.status.code(), Some(2), "{wrong:?}: {}", String::from_utf8_lossy(&output.stderr));
    }
    fs::write(folder.path().join("empty.miche"), "book Nothing\nchapter Bread\n").expect("a file");
    for out in ["empty.pdf", "empty.epub"] {
        let output = run(folder.path(), &["book", "empty.miche", "-o", out]);
        assert_eq!(output.status.code(), Some(2), "{out}: {output:?}");
        assert!(!folder.path().join(out).exists(), "{out}");
    }
    fs::remove_file(folder.path().join("rounds.jpg")).expect("removed");
    for out in ["book.pdf", "book.epub"] {
        assert_eq!(run(folder.path(), &["book", "book.miche", "-o", out]).status.code(), Some(1));
        assert!(!folder.path().join(out).exists(), "{out}");
    }
}

/// A book without chapters, of one recipe: no empty chapter, no empty index, the recipe at the right.
#[test]
fn a_book_of_one_recipe_is_a_book() {
    if !readers() {
        return;
    }
    let folder = book_of_one();
    let file = folder.path().join("book.pdf");
    for (paper, width) in [("a5", "419.5"), ("a4", "595.2"), ("letter", "612"), ("index", "288")] {
        made(folder.path(), &["book", "book.miche", "-o", "book.pdf", "--date", DATE, "--paper", paper]);
        assert!(info(&file, "Page size").starts_with(width), "{paper}: {}", info(&file, "Page size"));
        let pages = pages(&file);
        assert_eq!(contents_of_one(&pages), 5, "{paper}: {pages:?}");
        assert!(words(&pages[4]).contains("By Mara Ness"), "{paper}: {pages:?}");
    }
}

fn contents_of_one(pages: &[String]) -> usize {
    let found = contents(pages).into_iter().find(|(words, _)| words == "Breakwater buns");
    found.map_or(0, |(_, page)| page)
}
