//! Cards and lists as PDF, read back with programs that are not ours: poppler's pdfinfo, pdffonts and pdftotext.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::unwrap_used)]

#[path = "pdf_cards/sheets.rs"]
mod sheets;

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const DATE: &str = "2027-04-17";

/// Whether the readers are there; under CI it is a failure when they are not.
fn readers() -> bool {
    let missing: Vec<&str> = ["pdfinfo", "pdffonts", "pdftotext"]
        .into_iter()
        .filter(|program| Command::new(program).arg("-v").output().is_err())
        .collect();
    if missing.is_empty() {
        return true;
    }
    let missing = missing.join(", ");
    assert!(std::env::var_os("CI").is_none(), "under CI the PDFs are read back, but there is no {missing}");
    println!("NOT TESTED: the PDFs, for want of {missing}");
    false
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The examples of which cards are made.
fn recipes() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(root().join("examples")).expect("there are examples");
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "miche"))
        .filter(|path| {
            let text = std::fs::read_to_string(path).expect("readable");
            text.lines().any(|line| line.starts_with("recipe ") || line.starts_with("day "))
        })
        .collect();
    paths.sort();
    assert!(paths.len() >= 8, "{} examples", paths.len());
    paths
}

fn miche<S: AsRef<OsStr>>(command: &str, file: &Path, more: &[S]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_miche"));
    program.arg(command).arg(file).args(["--date", DATE]).args(more);
    program.output().expect("the program starts")
}

fn made<S: AsRef<OsStr>>(command: &str, file: &Path, more: &[S]) -> Vec<u8> {
    let output = miche(command, file, more);
    assert!(output.status.success(), "{}: {}", file.display(), String::from_utf8_lossy(&output.stderr));
    output.stdout
}

/// A PDF in a file of its own.
struct Printed {
    folder: tempfile::TempDir,
}

impl Printed {
    fn new(command: &str, file: &Path, more: &[&str]) -> Printed {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("card.pdf");
        let mut arguments = vec!["-o", path.to_str().expect("a plain path")];
        arguments.extend(more);
        made(command, file, &arguments);
        Printed { folder }
    }

    fn read(&self, program: &str, options: &[&str]) -> String {
        let mut command = Command::new(program);
        command.args(options).arg(self.folder.path().join("card.pdf"));
        if program == "pdftotext" {
            command.arg("-");
        }
        let output = command.output().expect("the reader starts");
        assert!(output.status.success(), "{program}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("the reader's text is UTF-8")
    }

    fn info(&self, name: &str) -> String {
        let info = self.read("pdfinfo", &[]);
        let line = info.lines().find_map(|line| line.strip_prefix(&format!("{name}:")));
        line.unwrap_or_else(|| panic!("no {name} in {info}")).trim().to_owned()
    }

    /// The text of each page.
    fn pages(&self) -> Vec<String> {
        let text = self.read("pdftotext", &["-layout"]);
        text.split('\u{c}').filter(|page| !page.trim().is_empty()).map(str::to_owned).collect()
    }

    /// Every word with its page's size and its box: left, top, right, bottom.
    fn boxes(&self) -> Vec<((f64, f64), [f64; 4], String)> {
        let text = self.read("pdftotext", &["-bbox"]);
        let number = |line: &str, name: &str| -> f64 {
            let rest = line.split_once(&format!("{name}=\"")).expect("it is said").1;
            rest.split('"').next().expect("it ends").parse().expect("a number")
        };
        let mut page = (0.0, 0.0);
        let mut all = Vec::new();
        for line in text.lines().map(str::trim) {
            if line.starts_with("<page ") {
                page = (number(line, "width"), number(line, "height"));
            } else if line.starts_with("<word ") {
                let place = ["xMin", "yMin", "xMax", "yMax"].map(|name| number(line, name));
                let word = line.split_once('>').expect("a word").1.trim_end_matches("</word>");
                all.push((page, place, word.to_owned()));
            }
        }
        assert!(!all.is_empty());
        all
    }
}

/// Runs of letters and runs of digits, and how often each occurs; a point between digits belongs to them. The reader
/// takes a narrow space between a figure and its unit for none, so what stands in one word does not count.
fn tokens(text: &str) -> BTreeMap<String, usize> {
    let characters: Vec<char> = text.chars().collect();
    let mut all = BTreeMap::new();
    let mut token = String::new();
    for (at, c) in characters.iter().enumerate() {
        let digit = |at: Option<usize>| at.and_then(|at| characters.get(at)).is_some_and(char::is_ascii_digit);
        let inside = *c == '.' && digit(at.checked_sub(1)) && digit(Some(at + 1));
        let is_digit = |c: char| c.is_ascii_digit() || c == '.';
        let goes_on = token.chars().last().is_none_or(|last| is_digit(last) == is_digit(*c));
        let counts = c.is_alphanumeric() || inside;
        if !(token.is_empty() || counts && goes_on) {
            *all.entry(std::mem::take(&mut token)).or_default() += 1;
        }
        if counts {
            token.push(*c);
        }
    }
    if !token.is_empty() {
        *all.entry(token).or_default() += 1;
    }
    all
}

/// What a reader of the HTML sees, without the foot that a browser prints in the margin.
fn seen(html: &str) -> String {
    let start = html.find("<main>").expect("it begins");
    let main = &html[start..html.rfind("</main>").expect("it ends")];
    let mut out = String::new();
    let mut rest = main;
    while let Some((before, after)) = rest.split_once('<') {
        out.push_str(before);
        out.push(' ');
        if after.starts_with("footer") {
            rest = after.split_once("</footer>").expect("it ends").1;
        } else {
            rest = after.split_once('>').expect("a tag ends").1;
        }
    }
    out.push_str(rest);
    out.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

fn html_of(command: &str, file: &Path, more: &[&str]) -> String {
    let mut arguments = vec!["--format", "html"];
    arguments.extend(more);
    String::from_utf8(made(command, file, &arguments)).expect("UTF-8")
}

/// Everything that the HTML says is in the PDF as often, and the PDF says nothing else but its head and foot.
fn says_the_same(command: &str, file: &Path, more: &[&str]) {
    // The embedded type has no thirds and eighths; the PDF writes them with a fraction bar.
    let fractions = [('⅓', "1⁄3"), ('⅔', "2⁄3"), ('⅛', "1⁄8"), ('⅜', "3⁄8"), ('⅝', "5⁄8"), ('⅞', "7⁄8")];
    let html = fractions
        .iter()
        .fold(seen(&html_of(command, file, more)), |html, (sign, written)| html.replace(*sign, &format!(" {written}")));
    let html = tokens(&html);
    let printed = Printed::new(command, file, more);
    let text = printed.pages().concat();
    let pdf = tokens(&text);
    let place = format!("{} {more:?}", file.display());
    for (token, count) in &html {
        // The head of a short table stands in the HTML for those who hear it.
        let heard = command == "list" && (token == "for" || token == "weigh");
        let there = pdf.get(token).copied().unwrap_or(0);
        assert!(there >= *count || heard, "{place}: {token} {count} times in the HTML, {there} in the PDF\n{text}");
    }
    let title = printed.info("Title");
    let foot = tokens(&format!(
        "{title} continued page of printed revision recipe all stations Buy Weigh out {DATE} the 1 {}",
        (1..=printed.pages().len()).map(|at| at.to_string()).collect::<Vec<String>>().join(" ")
    ));
    let revision = text.split("revision ").nth(1).and_then(|rest| rest.split_whitespace().next()).unwrap_or("");
    for token in pdf.keys().filter(|token| !html.contains_key(*token)) {
        assert!(
            foot.contains_key(token) || revision.contains(token.as_str()),
            "{place}: {token} is only in the PDF\n{text}"
        );
    }
}

#[test]
fn says_what_the_html_says() {
    if !readers() {
        return;
    }
    for file in recipes() {
        says_the_same("card", &file, &["--by", "station"]);
    }
    for name in ["harbour-levain-loaf", "market-day"] {
        let file = root().join(format!("examples/{name}.miche"));
        says_the_same("card", &file, &["--by", "recipe"]);
        says_the_same("card", &file, &["--by", "part"]);
        says_the_same("list", &file, &[]);
    }
    let rolls = root().join("examples/rhubarb-crumb-buns.miche");
    says_the_same("card", &rolls, &["--units", "both"]);
    says_the_same("card", &rolls, &["--units", "us", "--paper", "index"]);
}

#[test]
fn is_tagged_titled_and_embeds_its_type() {
    if !readers() {
        return;
    }
    for file in recipes().into_iter().step_by(2) {
        let printed = Printed::new("card", &file, &[]);
        assert_eq!(printed.info("Tagged"), "yes");
        let html = html_of("card", &file, &[]);
        let title = html.split_once("<title>").expect("a title").1.split_once("</title>").expect("it ends").0;
        assert_eq!(printed.info("Title"), title);
        let pages = printed.pages();
        assert_eq!(printed.info("Pages"), pages.len().to_string());
        for (at, page) in pages.iter().enumerate() {
            let foot = format!("page {} of {}", at + 1, pages.len());
            let words: Vec<&str> = page.split_whitespace().collect();
            assert!(words.join(" ").contains(&foot), "{}: no `{foot}`", file.display());
            assert!(page.contains(&format!("printed {DATE}")));
        }
        let fonts = printed.read("pdffonts", &[]);
        let rows: Vec<Vec<&str>> = fonts.lines().skip(2).map(|line| line.split_whitespace().collect()).collect();
        assert!(!rows.is_empty());
        for row in rows {
            // name, type (two words), encoding, embedded, subset, Unicode
            let [_, _, _, _, embedded, subset, unicode, ..] = row.as_slice() else { panic!("{row:?}") };
            assert_eq!([*embedded, *subset, *unicode], ["yes", "yes", "yes"], "{row:?}");
        }
    }
}

#[test]
fn has_the_structure_of_a_card() {
    if !readers() {
        return;
    }
    let printed = Printed::new("card", &root().join("examples/harbour-levain-loaf.miche"), &[]);
    let tree = printed.read("pdfinfo", &["-struct-text"]);
    let lines: Vec<&str> = tree.lines().map(str::trim).collect();
    let count = |name: &str| lines.iter().filter(|line| line.split([' ', ':']).next() == Some(name)).count();
    assert_eq!(count("H1"), 1, "{tree}");
    // Three parts and the timeline; three strips and the water; a figure; every step is an item with a heading.
    assert_eq!([count("H2"), count("Table"), count("Figure"), count("L")], [4, 4, 1, 3], "{tree}");
    assert_eq!([count("H3"), count("LI"), count("Lbl"), count("LBody")], [16; 4], "{tree}");
    // Every step has a place for when it was done, the dough one for how warm it was, the head the batch's record.
    let text = printed.pages().concat();
    assert_eq!([text.matches("done at").count(), text.matches("°C measured").count()], [16, 1], "{text}");
    assert!(["lot", "initials", "begun", "of 12"].iter().all(|blank| text.contains(blank)), "{text}");
    assert!(count("TH") > 30, "{tree}");
    let first = lines.iter().position(|line| line.split([' ', ':']).next() == Some("TH")).expect("a head");
    assert!(lines[first + 2].contains("what goes in"), "{tree}");
    let bytes = made("card", &root().join("examples/harbour-levain-loaf.miche"), &["--format", "pdf"]);
    let find = |what: &[u8]| bytes.windows(what.len()).any(|window| window == what);
    assert!(find(b"/Lang(en)") || find(b"/Lang (en)"), "the language is set");
    assert!(find(b"/Alt"), "the timeline says in words what it shows");
    assert!(find(b"pdfuaid:part"), "it says which standard it keeps");
}

#[test]
fn the_same_card_is_the_same_bytes() {
    for file in recipes().into_iter().step_by(6) {
        let one = made("card", &file, &["--format", "pdf", "--by", "station"]);
        let again = made("card", &file, &["--format", "pdf", "--by", "station"]);
        assert!(one.starts_with(b"%PDF-1.7"));
        assert!(one == again, "{}: two runs differ", file.display());
    }
}

/// Papers with the sizes that they are known by: ISO 216 for A4 and A5, ANSI for letter; points.
#[test]
fn fits_every_paper() {
    if !readers() {
        return;
    }
    let papers = [("a4", 595.3, 841.9), ("a5", 419.5, 595.3), ("letter", 612.0, 792.0), ("index", 288.0, 432.0)];
    let hostile = root().join("tests/cards/hostile.miche");
    let two = root().join("tests/published/c15-two-preferments.miche");
    let files =
        [root().join("examples/rhubarb-crumb-buns.miche"), root().join("examples/market-day.miche"), hostile, two];
    for (at, file) in files.iter().enumerate() {
        for (paper, wide, high) in papers.into_iter().skip(if at == 1 || at == 2 { 2 } else { 0 }) {
            for orientation in if at == 0 { vec!["portrait", "landscape"] } else { vec!["portrait"] } {
                let (wide, high) = if orientation == "portrait" { (wide, high) } else { (high, wide) };
                let more = ["--paper", paper, "--orientation", orientation, "--units", "both"];
                let printed = Printed::new("card", file, &more);
                for ((width, height), [left, top, right, bottom], word) in printed.boxes() {
                    let place = format!("{} {more:?}: {word}", file.display());
                    assert!((width - wide).abs() < 0.5 && (height - high).abs() < 0.5, "{place} on {width} × {height}");
                    // Printers leave some 4 mm, 11 points, of a sheet white; the narrowest margin here is 6 mm.
                    assert!(left > 11.0 && right < width - 11.0, "{place}: {left} to {right} of {width}");
                    assert!(top > 11.0 && bottom < height - 5.0, "{place}: {top} to {bottom} of {height}");
                }
            }
        }
    }
}

/// Every step's words and every row's figures stand on one page.
#[test]
fn tears_no_step_and_no_row() {
    if !readers() {
        return;
    }
    let within = |small: &BTreeMap<String, usize>, large: &BTreeMap<String, usize>| {
        small.iter().all(|(token, count)| large.get(token).is_some_and(|there| there >= count))
    };
    for name in ["rhubarb-crumb-buns", "harbour-levain-loaf"] {
        let file = root().join(format!("examples/{name}.miche"));
        for (paper, orientation) in [("a4", "portrait"), ("a5", "landscape"), ("index", "landscape")] {
            let more = ["--paper", paper, "--orientation", orientation];
            let html = html_of("card", &file, &more);
            let texts = Printed::new("card", &file, &more).pages();
            let pages: Vec<BTreeMap<String, usize>> = texts.iter().map(|page| tokens(page)).collect();
            assert!(pages.len() > 1);
            let mut seen_whole = 0;
            for (start, end) in [("<li class=\"step ", "</li>"), ("<tr>", "</tr>")] {
                for piece in html.split(start).skip(1) {
                    let piece = piece.split(end).next().expect("it ends");
                    let piece = tokens(&seen(&format!("<main><{piece}</main>")));
                    let whole = pages.iter().any(|page| within(&piece, page));
                    assert!(whole, "{name} on {paper} {orientation} is torn: {piece:?}\n{texts:?}");
                    seen_whole += 1;
                }
            }
            assert!(seen_whole > 20, "{name}: {seen_whole}");
        }
    }
}

#[test]
fn says_which_signs_its_type_does_not_have() {
    if !readers() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("signs.miche");
    let text = "recipe Île flottante → 小さい\nmakes 4 rolls\n\npart dough by flour\n\
                flour .... 400 g\nwater .... 60 %\n\nmix: hands 5 min\n  Mix {flour} and {water}; leave ⅔ of it.\n";
    std::fs::write(&file, text).expect("written");
    let pdf = folder.path().join("signs.pdf");
    let output = miche("card", &file, &[OsStr::new("-o"), pdf.as_os_str()]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("小 (U+5C0F)") && said.contains("[U+3044]"), "{said}");
    assert!(pdf.exists(), "{said}");
    let text = Command::new("pdftotext").arg(&pdf).arg("-").output().expect("the reader starts");
    let text = String::from_utf8(text.stdout).expect("UTF-8");
    assert!(text.contains("Île flottante -> [U+5C0F]"), "{text}");
    assert!(text.contains("2⁄3 of it"), "{text}");
}

/// The mixer holds 12 kg: a load of a third is weighed three times, its lines come to its total, and the prose says the same figures.
#[test]
fn what_the_mixer_does_not_hold_at_once_is_weighed_by_the_load() {
    let file = root().join("examples/rhubarb-crumb-buns.miche");
    let json = made("card", &file, &["--pieces", "360", "--format", "json"]);
    let card: serde_json::Value = serde_json::from_slice(&json).expect("JSON");
    let dough = &card["parts"][0];
    assert_eq!(dough["loads"], 3);
    let shown = |key: &str| -> Vec<String> {
        dough["lines"]
            .as_array()
            .expect("lines")
            .iter()
            .map(|line| line[key].as_str().unwrap_or("").to_owned())
            .collect()
    };
    // The fine scale carries salt, yeast and cardamom: one unit for all, that of the scale that reads the smallest.
    let loads = ["4500 g", "2160 g", "540 g", "630 g", "540 g", "81 g", "54 g", "18 g"];
    assert_eq!(shown("load_shown"), loads);
    // What is ordered stays what it is.
    assert_eq!(shown("final_mix_shown")[0].replace('\u{2009}', ""), "13500 g");
    let text = dough["steps"][0]["text"].as_str().expect("prose");
    assert!(text.starts_with("Put 4500 g strong white flour, 54 g instant yeast"), "{text}");
    // What goes in at once has no load.
    assert!(card["parts"][1].get("loads").is_none() && card["parts"][1]["lines"][0].get("load_shown").is_none());
    if readers() {
        let pages = Printed::new("card", &file, &["--pieces", "360"]).pages();
        let first = pages[0].split_whitespace().collect::<Vec<&str>>().join(" ");
        assert!(first.contains("1 of 3 loads") && first.contains("8523 g") && first.contains("all 3 loads"), "{first}");
    }
}

/// A batch of buns in four parts, and one of ten times as many, is three sheets to pin up, and two where it is set small.
#[test]
fn a_dish_of_four_parts_takes_three_sheets() {
    if !readers() {
        return;
    }
    let buns = root().join("examples/rhubarb-crumb-buns.miche");
    for (more, most) in [
        (&[][..], 3),
        (&["--pieces", "360"], 3),
        (&["--compact"], 2),
        (&["--pieces", "360", "--compact"], 2),
        (&["--paper", "a5"], 4),
    ] {
        let pages = Printed::new("card", &buns, more).pages().len();
        assert!(pages <= most, "{more:?}: {pages} pages");
    }
}

/// What is set small is read over a bowl all the same: no figure, unit or head of a column is under 5 pt on any paper.
#[test]
fn what_is_compact_can_be_read() {
    if !readers() {
        return;
    }
    let loaf = root().join("examples/harbour-levain-loaf.miche");
    for paper in ["a4", "letter", "a5", "index"] {
        let sheet = Printed::new("card", &loaf, &["--paper", paper, "--compact", "--units", "both"]);
        // Three dots a point.
        let fonts = sheet.read("pdftohtml", &["-xml", "-stdout", "-i", "-zoom", "3"]);
        let sizes: Vec<u32> = fonts
            .split("<fontspec ")
            .skip(1)
            .filter_map(|font| font.split_once("size=\"")?.1.split_once('"')?.0.parse().ok())
            .collect();
        assert!(sizes.iter().min().is_some_and(|least| *least >= 15), "{paper}: {sizes:?}");
    }
}

/// A sheet is for a place: what is done at no station and with no equipment stands on the sheet of the bench, part by part.
#[test]
fn a_part_is_no_station() {
    if !readers() {
        return;
    }
    let buns = Printed::new("card", &root().join("examples/rhubarb-crumb-buns.miche"), &["--by", "station"]);
    let text = buns.pages().concat();
    let mut stations: Vec<&str> =
        text.lines().filter_map(|line| line.split_once("Station: ")).map(|(_, name)| name.trim()).collect();
    stations.sort_unstable();
    // One thing is done at the hob, in the prover and in the oven, and nothing is weighed there: nobody reads a sheet of one line.
    assert_eq!(stations, ["bench, with hob, prover and oven", "mixer"]);
    // Two things are proved and baked in the tin bread.
    let tins = Printed::new("card", &root().join("examples/quay-tin-bread.miche"), &["--by", "station"]);
    let text = tins.pages().concat();
    assert!(
        ["bench", "mixer", "oven", "prover"].iter().all(|name| text.contains(&format!("Station: {name}\n"))),
        "{text}"
    );
}

/// A plan as PDF says what its page says: every row of its sheet, and the drawing as a figure for each day.
#[test]
fn a_plan_says_what_its_page_says() {
    if !readers() {
        return;
    }
    let day = root().join("examples/market-day.miche");
    let more = ["--limit", "20000 steps", "--zone", "UTC"];
    let html = html_of("plan", &day, &more);
    // The words of the drawing are those of the sheet once more.
    let mut sheet = String::new();
    for piece in html.split("<figure") {
        sheet.push_str(piece.split_once("</figure>").map_or(piece, |(_, after)| after));
    }
    let printed = Printed::new("plan", &day, &more);
    let text = printed.pages().concat();
    let pdf = tokens(&text);
    for (token, count) in tokens(&seen(&sheet)) {
        assert!(pdf.get(&token).is_some_and(|there| *there >= count), "{token} {count} times in the HTML\n{text}");
    }
    let tree = printed.read("pdfinfo", &["-struct"]);
    let figures = tree.lines().filter(|line| line.trim_start().starts_with("Figure")).count();
    assert_eq!(figures, html.matches("<figure").count(), "{tree}");
    assert!(figures >= 2 && printed.info("Tagged") == "yes");
    for ((width, height), [left, top, right, bottom], word) in printed.boxes() {
        assert!(left > 11.0 && right < width - 11.0 && top > 11.0 && bottom < height - 5.0, "{word}");
    }
}
