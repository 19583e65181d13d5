//! Texts of every kind: the tree keeps them whole, and nothing in them makes the program fall.

use miche::check::{check_file, work_out};
use miche::edge::loader::Loader;
use miche::figures::card::card;
use miche::language::parse::parse;
use miche::language::syntax::Tree;
use miche::language::tidy::tidy;
use miche::measure::number::Number;
use miche::measure::show::Units;
use miche::model::project::Project;
use miche::out;
use miche::out::report;
use miche::solve::resolve::{choices_of, selections};
use miche::text::diagnostic::{Diagnostic, Severity};
use miche::text::source::{SourceId, Sources};
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// The texts of the examples, by name.
fn examples() -> &'static [(String, String)] {
    static EXAMPLES: OnceLock<Vec<(String, String)>> = OnceLock::new();
    EXAMPLES.get_or_init(|| {
        let entries = fs::read_dir(folder()).expect("there are examples");
        let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("readable").path()).collect();
        paths.sort();
        paths.retain(|path| path.extension().is_some_and(|ending| ending == "miche"));
        assert!(paths.len() >= 8, "there are {} examples", paths.len());
        let read = |path: PathBuf| {
            let name = path.file_name().expect("a file").to_string_lossy().into_owned();
            (name, fs::read_to_string(path).expect("an example"))
        };
        paths.into_iter().map(read).collect()
    })
}

/// Pieces of the language and of what people type instead.
const WORDS: &[&str] = &[
    "recipe",
    "kitchen",
    "day",
    "ingredient",
    "makes",
    "use",
    "choose",
    "measures",
    "note",
    "caution",
    "credit",
    "part",
    "percent of",
    "per piece",
    "divide",
    "keeps",
    "spare",
    "desired temperature",
    "hands",
    "tend",
    "wait",
    "using oven",
    "at 190 C",
    "= 375 F",
    "up to 2 days",
    "each",
    "12 at a time",
    "during mix",
    "after mix",
    "straight after",
    "within 10 min after",
    "station",
    "people 2",
    "until",
    "flour",
    "water",
    "strong white flour",
    "butter for the tins",
    "....",
    "..",
    "…",
    ":",
    ",",
    "{",
    "}",
    "[",
    "]",
    "=",
    "\"",
    "#",
    "\\",
    "-",
    "–",
    "x",
    "%",
    "1",
    "0",
    "1/0",
    "1 1/2",
    "½",
    "1,5",
    "1e9",
    "999999999999999",
    "0.000000001",
    "g",
    "kg",
    "cup",
    "fl oz",
    "C",
    "°F",
    "min",
    "h",
    "all",
    "to taste",
    "as needed",
    "from dough",
    "dough",
    "loss 3 %",
    "yield 90 %",
    "aside",
    "counts as flour",
    "mix",
    "rest of water",
    "half of",
    "1/3 of",
    "24 buns",
    "x 2",
    "holds 8 kg",
    "open 07:00-21:00",
    "scale 1 g",
    "weighs 245 g per cup US",
    "contains milk",
    "costs 1.20 per kg",
    "source",
    "ready 2027-02-30 25:00",
    "make 48 of",
    "\"larder.miche\"",
    "\"mother-dough.miche\"",
    "../..",
    "\t",
    "\u{a0}",
    "\u{feff}",
    "\u{202e}",
    "\u{0}",
    "\u{1b}[31m",
    "é",
    "🥐",
    "ß",
    "İ",
    "\r",
];

/// A text of words of the language in no sensible order, over lines of any indentation.
fn babble() -> impl Strategy<Value = String> {
    let word = prop::sample::select(WORDS);
    let gap = prop::sample::select(&["", " ", " ", " ", "  "][..]);
    let line = (
        0_usize..6,
        prop::collection::vec((word, gap), 0..9),
        prop::sample::select(&["\n", "\n", "\n", "\r\n", "\r", ""][..]),
    );
    prop::collection::vec(line, 0..24).prop_map(|lines| {
        let mut text = String::new();
        for (indent, words, end) in lines {
            text.push_str(&" ".repeat(indent));
            for (word, gap) in words {
                text.push_str(word);
                text.push_str(gap);
            }
            text.push_str(end);
        }
        text
    })
}

/// Any characters at all, with line breaks among them.
fn noise() -> impl Strategy<Value = String> {
    let character = prop_oneof![6 => any::<char>(), 2 => Just('\n'), 1 => Just('\r'), 2 => Just(' '), 1 => Just('#'), 1 => Just('.')];
    prop::collection::vec(character, 0..300).prop_map(|characters| characters.into_iter().collect())
}

/// A change of a text by a slip of the hand.
#[derive(Debug, Clone)]
enum Slip {
    DropLine(usize),
    DoubleLine(usize),
    SwapLines(usize, usize),
    Indent(usize, usize),
    CutLine(usize, usize),
    PutWord(usize, usize, &'static str),
    DropCharacter(usize),
    OtherDigit(usize, u8),
}

fn slip() -> impl Strategy<Value = Slip> {
    let at = 0_usize..4000;
    prop_oneof![
        at.clone().prop_map(Slip::DropLine),
        at.clone().prop_map(Slip::DoubleLine),
        (at.clone(), at.clone()).prop_map(|(one, other)| Slip::SwapLines(one, other)),
        (at.clone(), 0_usize..9).prop_map(|(line, depth)| Slip::Indent(line, depth)),
        (at.clone(), at.clone()).prop_map(|(line, at)| Slip::CutLine(line, at)),
        (at.clone(), at.clone(), prop::sample::select(WORDS))
            .prop_map(|(line, at, word)| Slip::PutWord(line, at, word)),
        at.clone().prop_map(Slip::DropCharacter),
        (at, 0_u8..10).prop_map(|(at, digit)| Slip::OtherDigit(at, digit)),
    ]
}

fn slipped(text: &str, slip: &Slip) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() {
        return text.to_owned();
    }
    let count = lines.len();
    let boundary = |line: &str, at: usize| {
        let ends: Vec<usize> = line.char_indices().map(|(at, _)| at).chain([line.len()]).collect();
        ends[at % ends.len()]
    };
    match slip {
        Slip::DropLine(at) => {
            lines.remove(at % count);
        }
        Slip::DoubleLine(at) => lines.insert(at % count, lines[at % count].clone()),
        Slip::SwapLines(one, other) => lines.swap(one % count, other % count),
        Slip::Indent(at, depth) => {
            let line = &mut lines[at % count];
            *line = format!("{}{}", " ".repeat(*depth), line.trim_start());
        }
        Slip::CutLine(at, column) => {
            let line = &mut lines[at % count];
            let cut = boundary(line, *column);
            line.truncate(cut);
        }
        Slip::PutWord(at, column, word) => {
            let line = &mut lines[at % count];
            let place = boundary(line, *column);
            line.insert_str(place, word);
        }
        Slip::DropCharacter(at) => {
            let characters = text.chars().count();
            return text.chars().enumerate().filter(|(place, _)| *place != at % characters).map(|(_, c)| c).collect();
        }
        Slip::OtherDigit(at, digit) => {
            let digits = text.chars().filter(char::is_ascii_digit).count().max(1);
            let mut seen = 0;
            let other = |c: char| {
                seen += usize::from(c.is_ascii_digit());
                if c.is_ascii_digit() && seen - 1 == at % digits { char::from(b'0' + digit) } else { c }
            };
            return text.chars().map(other).collect();
        }
    }
    lines.join("\n") + "\n"
}

/// An example with some slips in it.
fn mutated() -> impl Strategy<Value = String> {
    (0_usize..1000, prop::collection::vec(slip(), 1..6)).prop_map(|(which, slips)| {
        let examples = examples();
        let (_, text) = &examples[which % examples.len()];
        slips.iter().fold(text.clone(), |text, slip| slipped(&text, slip))
    })
}

/// Text to tree to text: every byte is in exactly one line, or is that line's break.
fn keeps_every_line(text: &str, tree: &Tree) -> Result<(), TestCaseError> {
    let mut at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let mut again = text[..at].to_owned();
    for line in &tree.lines {
        prop_assert_eq!(line.span.start as usize, at, "a gap before {:?}", line);
        let words = &text[line.span.range()];
        prop_assert!(!words.contains(['\n', '\r']));
        again.push_str(words);
        at = line.span.end as usize;
        let line_break =
            ["\r\n", "\n", "\r"].into_iter().find(|line_break| text[at..].starts_with(line_break)).unwrap_or("");
        again.push_str(line_break);
        at += line_break.len();
        // Within the line: white space, what is said, white space, the comment.
        prop_assert!(line.span.start <= line.said.start && line.said.end <= line.span.end);
        let comment_start = line.comment.map_or(line.span.end, |comment| comment.start);
        prop_assert!(line.comment.is_none_or(|comment| comment.end == line.span.end));
        prop_assert!(line.said.end <= comment_start);
        prop_assert_eq!(text[line.span.start as usize..line.said.start as usize].trim(), "");
        prop_assert_eq!(text[line.said.end as usize..comment_start as usize].trim(), "");
    }
    prop_assert_eq!(again.as_str(), text);
    Ok(())
}

/// Every place in a value: within some text, and between its characters.
///
/// The places are read from the value's debug form, so that no field of any node can be forgotten.
fn places_are_in_the_text(sources: &Sources, value: &impl std::fmt::Debug) -> Result<(), TestCaseError> {
    let shown = format!("{value:?}");
    let mut places = 0;
    for span in shown.split("Span { source: SourceId(").skip(1) {
        let number = |name: &str| {
            let after = span.split_once(name).map_or("", |(_, after)| after);
            after.split(|c: char| !c.is_ascii_digit()).next().and_then(|digits| digits.parse::<usize>().ok())
        };
        let id = span.split(')').next().and_then(|digits| digits.parse().ok()).map(SourceId);
        let (Some(id), Some(start), Some(end)) = (id, number("start: "), number("end: ")) else { continue };
        let text = &sources.get(id).expect("a place is in a text that was read").text;
        prop_assert!(text.get(start..end).is_some(), "{start}..{end} of {} bytes in {text:?}", text.len());
        places += 1;
    }
    prop_assert!(places > 0 || !shown.contains("Span {"), "the places are not found in {shown}");
    Ok(())
}

/// Everything that can be done to a text is done; nothing may fall.
fn withstands(text: &str) -> Result<(), TestCaseError> {
    let mut loader = Loader::new();
    let source = loader.take_text("made up", text.to_owned(), &folder().join("made up.miche"));
    let project = loader.into_project();
    let problems = check_file(&project, source);
    places_are_in_the_text(&project.sources, &problems)?;
    for problem in &problems {
        let shown = report::terminal::render(&project.sources, problem, false, 80);
        prop_assert!(shown.contains(problem.check), "{shown}");
        prop_assert!(!shown.chars().any(is_control), "{shown:?}");
    }
    let json = report::json::render(&project.sources, &problems).expect("problems are JSON");
    prop_assert!(serde_json::from_str::<serde_json::Value>(&json).is_ok());
    makes_cards(&project, source, &problems)
}

/// Whether a character could steer a terminal; line breaks and tabs only set text.
fn is_control(c: char) -> bool {
    c.is_control() && c != '\n' && c != '\t'
}

fn makes_cards(project: &Project, source: SourceId, problems: &[Diagnostic]) -> Result<(), TestCaseError> {
    // What the steps leave over does not add up, and is a warning only.
    let is_wrong = |problem: &Diagnostic| problem.severity == Severity::Error || problem.check == "not-all-used";
    let is_right = !problems.iter().any(is_wrong);
    let tree = &project.file(source).expect("it was read").tree;
    for selection in selections(&choices_of(tree)).into_iter().take(4) {
        let Some((recipe, formula)) = work_out(project, source, &selection, &mut Vec::new()) else { continue };
        let third = Number::fraction(1, 3).expect("a third");
        for factor in [Number::ONE, third, Number::whole(7)] {
            let Ok(scaled) = formula.times(factor) else { continue };
            let Ok(card) = card(&recipe, &scaled, factor, None, Units::Both) else { continue };
            let style = out::text::Style::plain(80);
            let text = out::card::text(std::slice::from_ref(&card), None, style);
            let markdown = out::card::markdown(std::slice::from_ref(&card), None);
            prop_assert!(!text.is_empty() && !markdown.is_empty());
            for output in [&text, &markdown] {
                prop_assert!(!output.chars().any(is_control), "{output:?}");
            }
            let json = out::json::render(&card).expect("a card is JSON");
            prop_assert!(serde_json::from_str::<serde_json::Value>(&json).is_ok());
            if is_right {
                let metric =
                    miche::figures::card::card(&recipe, &scaled, factor, None, Units::Metric).expect("as before");
                let faults = super::figures::faults(&metric);
                prop_assert!(faults.is_empty(), "{faults:#?}");
            }
        }
    }
    Ok(())
}

/// A tidied text says the same, and there is nothing more to tidy in it.
fn is_tidied_once(text: &str) -> Result<(), TestCaseError> {
    let tidied = match tidy(text, None) {
        Ok(tidied) => tidied,
        Err(fault) => return Err(TestCaseError::fail(format!("{fault}\n{text:?}"))),
    };
    let again = tidy(&tidied, None);
    prop_assert_eq!(again.as_deref(), Ok(tidied.as_str()), "tidied twice: {:?}", text);
    Ok(())
}

fn parses(text: &str) -> Result<(), TestCaseError> {
    let mut sources = Sources::default();
    let source = sources.add("made up", text.to_owned());
    let (tree, problems) = parse(source, text);
    keeps_every_line(text, &tree)?;
    is_tidied_once(text)?;
    places_are_in_the_text(&sources, &tree)?;
    places_are_in_the_text(&sources, &problems)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any characters at all are a tree that holds all of them.
    #[test]
    fn noise_is_kept(text in noise()) {
        parses(&text)?;
    }

    /// Words of the language in any order are a tree that holds all of them.
    #[test]
    fn babble_is_kept(text in babble()) {
        parses(&text)?;
    }

    /// Words of the language in any order, under a title, are checked and laid out without falling.
    #[test]
    fn babble_is_withstood(title in prop::sample::select(&["recipe R\n", "kitchen K\n", "ingredient I\n", "day D\n", ""][..]), text in babble()) {
        withstands(&format!("{title}{text}"))?;
    }

}

proptest! {
    // Each is checked and made into a dozen cards; more are tried with PROPTEST_CASES=2000.
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// An example with slips in it is a tree that holds all of it, and is checked and laid out without falling.
    #[test]
    fn slips_are_withstood(text in mutated()) {
        parses(&text)?;
        withstands(&text)?;
    }
}

/// The examples as they stand, as trees.
#[test]
fn examples_are_kept() {
    for (name, text) in examples() {
        parses(text).unwrap_or_else(|why| panic!("{name}: {why}"));
        parses(&text.replace('\n', "\r\n")).unwrap_or_else(|why| panic!("{name}: {why}"));
        parses(&text.replace('\n', "\r")).unwrap_or_else(|why| panic!("{name}: {why}"));
    }
}
