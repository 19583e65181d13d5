//! The EPUB: its container, its links, and what EPUBCheck says of it.

use super::{DATE, examples, folder, holds, made};
use std::collections::BTreeMap;
use std::fs;
use std::io::{Cursor, Read};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The open checker, as `.ci/run` installs it; under CI it is a failure when it is not there.
fn checker() -> Option<PathBuf> {
    let jar = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tools/epubcheck/epubcheck/epubcheck.jar");
    if jar.exists() && Command::new("java").arg("-version").output().is_ok() {
        return Some(jar);
    }
    assert!(
        std::env::var_os("CI").is_none(),
        "under CI the EPUB is checked, but there is no java or no {}",
        jar.display()
    );
    println!("NOT TESTED: EPUBs by EPUBCheck, for want of java or {} (see tests/tools/epubcheck.txt)", jar.display());
    None
}

fn entries(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).expect("an archive");
    let mut all = Vec::new();
    for at in 0..archive.len() {
        let mut file = archive.by_index(at).expect("an entry");
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).expect("it is whole");
        all.push((file.name().to_owned(), bytes));
    }
    all
}

/// A book in a folder with what could break out of XML, and a picture with a camera's notes.
fn hostile() -> (tempfile::TempDir, PathBuf) {
    let folder = folder();
    let buns = fs::read_to_string(folder.path().join("buns.miche")).expect("a file");
    let buns = buns
        .replace("recipe Breakwater buns", "recipe Buns & <b>rolls</b></title><script>x()</script>")
        .replace("A bun for a windy morning.", "A *bun* \u{FFFF} for<br>windy [mornings](https://skerrow.example/a?b=1&c=2).\\\n    Two lines, `code` ]]> & more.");
    fs::write(folder.path().join("buns.miche"), buns).expect("a file");
    fs::write(
        folder.path().join("plain.miche"),
        "recipe Plain\nmakes 2 rolls\nflour ... 100 g\nwater ... 60 %\nbake: tend 10 min\n",
    )
    .expect("a file");
    let book = "book Buns & <b>more</b>\nby A & B\naddress https://skerrow.example/a&b/\npage \"plain.miche\"\nchapter Sweet & \"sour\"\npage \"buns.miche\"\n";
    fs::write(folder.path().join("book.miche"), book).expect("a file");
    let path = folder.path().join("book.epub");
    made(folder.path(), &["book", "book.miche", "-o", "book.epub", "--date", DATE]);
    (folder, path)
}

#[test]
fn the_example_book_is_whole_and_the_open_checker_has_nothing_to_say_of_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("book.epub");
    made(&examples(), &["book", "harbour-ovens.miche", "-o", path.to_str().expect("a path"), "--date", DATE]);
    let bytes = fs::read(&path).expect("a file");
    // EPUB 3.3, 4.2.2: the first entry, stored, without a field behind its name; its size stands before it.
    assert_eq!(&bytes[..4], b"PK\x03\x04");
    assert_eq!(&bytes[6..10], [0; 4], "no size behind the data, and nothing packed");
    assert_eq!(&bytes[18..22], 20_u32.to_le_bytes(), "its size");
    assert_eq!(&bytes[26..30], [8, 0, 0, 0], "a name of eight signs and nothing behind it");
    assert_eq!(&bytes[30..58], b"mimetypeapplication/epub+zip");
    let all: BTreeMap<String, Vec<u8>> = entries(&bytes).into_iter().collect();
    let package = String::from_utf8(all["EPUB/package.opf"].clone()).expect("UTF-8");
    assert!(package.contains("<meta property=\"dcterms:modified\">2027-04-17T00:00:00Z</meta>"), "{package}");
    for words in ["schema:accessMode", "alternativeText", "properties=\"nav\"", "<dc:creator>The Skerrow bakehouse"] {
        assert!(package.contains(words), "{words}: {package}");
    }
    // What the package lists lies in the archive, and nothing else does.
    let listed: Vec<String> = package
        .split("href=\"")
        .skip(1)
        .map(|rest| format!("EPUB/{}", rest.split('"').next().expect("an end")))
        .collect();
    let mut lies: Vec<&str> = all.keys().map(String::as_str).collect();
    lies.retain(|name| !["mimetype", "META-INF/container.xml", "EPUB/package.opf"].contains(name));
    let mut listed: Vec<&str> = listed.iter().map(String::as_str).collect();
    listed.sort_unstable();
    assert_eq!(listed, lies);
    if let Some(jar) = checker() {
        checked(&jar, &path);
    }
}

/// What stands for the book on a shelf: one picture, which the package says is that, and that needs no type of the reader's.
#[test]
fn the_cover_is_the_title_page_drawn() {
    let (_folder, path) = hostile();
    let all: BTreeMap<String, Vec<u8>> = entries(&fs::read(path).expect("a file")).into_iter().collect();
    let package = String::from_utf8(all["EPUB/package.opf"].clone()).expect("UTF-8");
    let items: Vec<&str> = package.split("<item ").filter(|item| item.contains("cover-image")).collect();
    let [item] = items.as_slice() else { panic!("{package}") };
    assert!(item.contains("href=\"cover.svg\"") && item.contains("media-type=\"image/svg+xml\""), "{item}");
    let cover = String::from_utf8(all["EPUB/cover.svg"].clone()).expect("UTF-8");
    assert!(cover.contains("<title>Buns &amp; &lt;b&gt;more&lt;/b&gt;</title>"), "{cover}");
    assert!(!cover.contains("<text") && !cover.contains("font") && !cover.contains("NaN"), "{cover}");
    // Two runs of letters, title and author, and the bar between them.
    assert!(cover.matches("<path ").count() >= 2 && cover.matches("<rect ").count() == 2, "{cover}");
    let inside = |words: &str| {
        let numbers = words.split(|c: char| !(c.is_ascii_digit() || c == '.')).filter(|number| !number.is_empty());
        numbers.map(|number| number.parse::<f64>().expect("a number")).all(|number| (0.0..=1600.0).contains(&number))
    };
    let paths: Vec<&str> = cover.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    assert!(paths.iter().all(|path| path.starts_with('M') && path.ends_with('Z') && inside(path)), "{paths:?}");
}

/// Titles that no page holds, and those that are nothing but one word.
#[test]
fn a_cover_holds_any_title() {
    let folder = folder();
    let long = "Everything that the harbour has baked ".repeat(400);
    for (title, by) in
        [(long.as_str(), "Mara Ness"), (&"x".repeat(9000), &*"y".repeat(5000)), ("书", "Хлеб 🍞"), ("-", "-")]
    {
        let book = format!("book {title}\nby {by}\npage \"buns.miche\"\n");
        fs::write(folder.path().join("book.miche"), book).expect("a file");
        made(folder.path(), &["book", "book.miche", "-o", "book.epub", "--date", DATE]);
        let bytes = fs::read(folder.path().join("book.epub")).expect("a file");
        let all: BTreeMap<String, Vec<u8>> = entries(&bytes).into_iter().collect();
        let cover = String::from_utf8(all["EPUB/cover.svg"].clone()).expect("UTF-8");
        let lowest = cover.split(['M', 'L', 'Q', 'Z', ' ', '"']).filter_map(|number| number.parse::<f64>().ok());
        assert!(lowest.fold(0.0, f64::max) <= 1600.0, "{}", title.chars().take(20).collect::<String>());
        assert!(cover.len() < 3_000_000, "{}", cover.len());
    }
}

#[test]
fn every_link_and_picture_leads_somewhere() {
    let (_folder, path) = hostile();
    let bytes = fs::read(path).expect("a file");
    assert!(!holds(&bytes, b"GPS") && !holds(&bytes, b"Exif"), "the camera's notes are in it");
    let all: BTreeMap<String, Vec<u8>> = entries(&bytes).into_iter().collect();
    // What stands before the first chapter is none.
    assert!(all.contains_key("EPUB/chapter-1.xhtml") && !all.contains_key("EPUB/chapter-2.xhtml"), "{:?}", all.keys());
    let mut seen = 0;
    for (name, bytes) in all.iter().filter(|(name, _)| name.ends_with(".xhtml")) {
        let text = String::from_utf8(bytes.clone()).expect("UTF-8");
        assert!(!text.contains("<script") && !text.contains('\u{FFFF}'), "{name}: {text}");
        let folder = Path::new(name).parent().expect("a folder");
        for rest in text.split("href=\"").skip(1).chain(text.split("src=\"").skip(1)) {
            let target = rest.split('"').next().expect("an end");
            if target.starts_with("https://") {
                continue;
            }
            let place = folder.join(target);
            let place = place.to_str().expect("a path").replace("recipes/../", "");
            assert!(all.contains_key(&place), "{name}: {target} leads nowhere ({place})");
            seen += 1;
        }
    }
    assert!(seen > 15, "{seen} links");
}

#[test]
fn the_open_checker_has_nothing_to_say_of_a_hostile_book() {
    let Some(jar) = checker() else { return };
    let (_folder, path) = hostile();
    checked(&jar, &path);
}

/// EPUBCheck finds nothing.
fn checked(jar: &Path, book: &Path) {
    let output = Command::new("java").arg("-jar").arg(jar).arg(book).output().expect("java starts");
    let said = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(output.status.success() && said.contains("0 fatals / 0 errors / 0 warnings"), "{said}");
}
