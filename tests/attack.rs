//! Attacks from outside: the built program is started with texts changed by chance, through every command, and what it does is
//! held against what must hold of any text.
//!
//! Twenty seconds in a normal run, always from the same seed; `tests/attack/run.sh HOURS` goes on for hours.
//! `MICHE_ATTACK_SECONDS` and `MICHE_ATTACK_SEED` say how long and from where, `MICHE_ATTACK_ONLY` which of the seven kinds of
//! attack (5 are merges, 6 commands that write into a file), `MICHE_PROGRAM` which build is attacked. What was found is kept in `target/attack`, each finding in a
//! folder of its own with the files that made it.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "attack/commands.rs"]
mod commands;
#[path = "examples/copy.rs"]
mod copy;
mod dice;
#[path = "attack/mutate.rs"]
mod mutate;
#[path = "attack/printed.rs"]
mod printed;
#[path = "attack/written.rs"]
mod written;

use commands::COMMANDS;
use dice::Dice;
use mutate::{another_number, changed, other_lines, other_words};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// The longest that a run may take, on a busy machine and without any optimising.
const LONGEST: Duration = Duration::from_secs(60);
/// The most memory that a run may ask for, in kilobytes.
const MOST_MEMORY: u64 = 4_000_000;

struct Ran {
    code: Option<i32>,
    out: Vec<u8>,
    said: String,
    took: Duration,
    line: String,
}

impl Ran {
    fn is_fine(&self) -> bool {
        self.code == Some(0)
    }

    fn json(&self) -> Option<Value> {
        serde_json::from_slice(&self.out).ok().filter(|_| self.is_fine())
    }
}

/// A folder in which the examples lie, so that what is attacked finds what it uses.
struct Field {
    folder: tempfile::TempDir,
    seeds: Vec<String>,
    /// Published recipes: a page that the program makes itself, and the data in it.
    pages: Vec<String>,
    faults: Vec<String>,
    runs: usize,
    seed: u64,
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn texts(folder: &str) -> Vec<String> {
    let Ok(entries) = fs::read_dir(root().join(folder)) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    paths.sort();
    let formulas = paths.iter().filter(|path| path.extension().is_some_and(|ending| ending == "miche"));
    formulas.filter_map(|path| fs::read_to_string(path).ok()).filter(|text| text.len() < 8000).collect()
}

impl Field {
    fn new() -> Field {
        let folder = tempfile::tempdir().expect("a folder");
        fs::create_dir(folder.path().join(".git")).expect("made");
        copy::into(folder.path());
        let seeds = ["examples", "tests/right", "tests/wrong"].into_iter().flat_map(texts).collect();
        let mut field = Field { folder, seeds, pages: Vec::new(), faults: Vec::new(), runs: 0, seed: 0 };
        for recipe in ["rhubarb-crumb-buns.miche", "harbour-levain-loaf.miche"] {
            let page = field.run(&["card", recipe, "--for", "reader", "--format", "html"]);
            let page = String::from_utf8(page.out).expect("a page is text");
            let (_, data) = page.split_once("ld+json\">").expect("data");
            let data = data.split_once("</script>").expect("its end").0.to_owned();
            field.pages.extend([page, data]);
        }
        field
    }

    fn write(&self, name: &str, bytes: &[u8]) {
        fs::write(self.folder.path().join(name), bytes).expect("written");
    }

    fn read(&self, name: &str) -> Vec<u8> {
        fs::read(self.folder.path().join(name)).expect("read")
    }

    /// Runs the program within limits; whatever comes, it ends with 0, 1 or 2.
    fn run(&mut self, arguments: &[&str]) -> Ran {
        let program = std::env::var("MICHE_PROGRAM").unwrap_or_else(|_| env!("CARGO_BIN_EXE_miche").to_owned());
        let clock = Instant::now();
        let limited = format!("ulimit -v {MOST_MEMORY}; exec \"$@\"");
        let mut child = Command::new("sh")
            .args(["-c", &limited, "sh", &program])
            .args(arguments)
            .current_dir(self.folder.path())
            .env("NO_COLOR", "1")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("it runs");
        let read = |stream: Option<Box<dyn Read + Send>>| {
            std::thread::spawn(move || {
                let mut bytes = Vec::new();
                // A stream that breaks off has said what it said.
                let _ = stream.map(|mut stream| stream.read_to_end(&mut bytes));
                bytes
            })
        };
        let out = read(child.stdout.take().map(|stream| Box::new(stream) as Box<dyn Read + Send>));
        let said = read(child.stderr.take().map(|stream| Box::new(stream) as Box<dyn Read + Send>));
        let status = loop {
            match child.try_wait().expect("a child") {
                Some(status) => break Some(status),
                None if clock.elapsed() > LONGEST => {
                    child.kill().expect("killed");
                    child.wait().expect("ended");
                    break None;
                }
                None => std::thread::sleep(Duration::from_millis(2)),
            }
        };
        let ran = Ran {
            code: status.and_then(|status| status.code()),
            out: out.join().expect("read"),
            said: String::from_utf8_lossy(&said.join().expect("read")).into_owned(),
            took: clock.elapsed(),
            line: arguments.join(" "),
        };
        self.runs += 1;
        let ends_well =
            matches!(ran.code, Some(0..=2)) && !ran.said.contains("panicked") && !ran.said.contains("overflow");
        self.hold(ends_well, || format!("{}: ended with {:?} after {:?}: {}", ran.line, ran.code, ran.took, ran.said));
        let says_why = ran.code != Some(2) || !ran.said.trim().is_empty();
        self.hold(says_why, || format!("{}: 2 without a word", ran.line));
        ran
    }

    fn hold(&mut self, holds: bool, why: impl FnOnce() -> String) {
        if holds {
            return;
        }
        let kept = root().join("target/attack").join(format!("{}-{}", self.seed, self.faults.len()));
        fs::create_dir_all(&kept).expect("made");
        for name in [
            "a.miche",
            "b.miche",
            "base.miche",
            "ours.miche",
            "theirs.miche",
            "a.before",
            "git.merged",
            "page.html",
            "page.json",
        ] {
            if let Ok(bytes) = fs::read(self.folder.path().join(name)) {
                fs::write(kept.join(name), bytes).expect("kept");
            }
        }
        self.faults.push(format!("seed {} ({}): {}", self.seed, kept.display(), why()));
        fs::write(kept.join("why"), self.faults.last().expect("one")).expect("kept");
    }
}

/// JSON with every list in one order, without what order and blanks alone decide.
fn without_order(value: &Value) -> Value {
    match value {
        Value::Array(list) => {
            let mut all: Vec<Value> = list.iter().map(without_order).collect();
            all.sort_by_key(Value::to_string);
            Value::Array(all)
        }
        Value::Object(fields) => Value::Object(
            fields
                .iter()
                .filter(|(key, _)| !matches!(key.as_str(), "running_shown" | "shown" | "final_mix_shown"))
                .map(|(key, value)| (key.clone(), without_order(value)))
                .collect(),
        ),
        // Blanks and line breaks of prose are layout.
        Value::String(text) => Value::String(text.split_whitespace().collect::<Vec<_>>().join(" ")),
        other => other.clone(),
    }
}

/// How often each run of digits stands in a text; points and commas within a number are left out, since a mend may write
/// `1,000,000` as `1000000`.
fn numbers(text: &str) -> BTreeMap<String, usize> {
    let mut found = BTreeMap::new();
    for number in text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))) {
        let digits: String = number.chars().filter(char::is_ascii_digit).collect();
        if !digits.is_empty() {
            *found.entry(digits.trim_start_matches('0').to_owned()).or_default() += 1;
        }
    }
    found
}

/// In how many ways the lines of a text end.
fn line_ends(text: &[u8]) -> usize {
    let text: Vec<char> = text.iter().map(|byte| char::from(*byte)).collect();
    let windows = text.windows(2).filter(|pair| *pair == ['\r', '\n']).count();
    let count = |sign: char| text.iter().filter(|c| **c == sign).count() - windows;
    [windows, count('\r'), count('\n')].into_iter().filter(|count| *count > 0).count()
}

/// Whether lines that both texts have stand in another order in one of them.
fn has_moved(base: &[u8], side: &[u8]) -> bool {
    let lines = |text: &[u8]| -> Vec<Vec<u8>> { text.split(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect() };
    let (base, side) = (lines(base), lines(side));
    let common = |these: &[Vec<u8>], others: &[Vec<u8>]| -> Vec<Vec<u8>> {
        let mut left = others.to_vec();
        let mut found = Vec::new();
        for line in these {
            if let Some(at) = left.iter().position(|other| other == line) {
                found.push(left.swap_remove(at));
            }
        }
        found
    };
    common(&base, &side) != common(&side, &base)
}

#[test]
fn a_line_that_moved_is_seen() {
    assert!(has_moved(b"a\nb\nc\n", b"b\na\nc\n"));
    assert!(!has_moved(b"a\nb\nc\n", b"a\nx\nc\nd\n"));
}

impl Field {
    /// Any command on anything.
    fn any_command(&mut self, dice: &mut Dice) {
        for name in ["a.miche", "b.miche", "base.miche", "ours.miche", "theirs.miche"] {
            let (seed, other) = (dice.one(&self.seeds).clone(), dice.one(&self.seeds).clone());
            self.write(name, &changed(&seed, &other, dice));
        }
        for name in ["page.html", "page.json"] {
            let (page, other) = (dice.one(&self.pages).clone(), dice.one(&self.seeds).clone());
            self.write(name, &changed(&page, &other, dice));
        }
        for _ in 0..3 {
            let line = *dice.one(COMMANDS);
            let arguments: Vec<&str> = line.split(' ').collect();
            self.run(&arguments);
        }
    }

    /// Tidying changes no meaning and is done at once; mending loses no number.
    fn tidy_and_mend(&mut self, dice: &mut Dice) {
        let (seed, other) = (dice.one(&self.seeds).clone(), dice.one(&self.seeds).clone());
        let bytes = changed(&seed, &other, dice);
        self.write("a.miche", &bytes);
        self.write("a.before", &bytes);
        let card = ["card", "a.miche", "--format", "json"];
        let sums = ["sums", "a.miche", "--format", "json"];
        let bakes = ["bakes", "a.miche", "--on", "2026-12-24", "--format", "json"];
        let list = ["list", "a.miche", "--format", "json"];
        let log = String::from_utf8_lossy(&bytes).contains("bakes of");
        // A log has no card, and a day no sums.
        let other: &[&str] = if log { &bakes } else { &list };
        let before = [self.run(&card), self.run(&sums), self.run(other)];
        if self.run(&["tidy", "a.miche"]).is_fine() {
            let after = [self.run(&card), self.run(&sums), self.run(other)];
            // A carriage return by itself ends a line, and is an error among other line ends; tidied it is one of them.
            let was_mixed = line_ends(&bytes) > 1 && line_ends(&self.read("a.miche")) == 1;
            let same = before.iter().zip(&after).all(|(was, is)| {
                was.code == is.code && was.out == is.out || was_mixed && was.said.contains("carriage return")
            });
            self.hold(same, || "tidy changed the card, the sums, the list or what the log says".to_owned());
            let once = self.read("a.miche");
            self.run(&["tidy", "a.miche"]);
            let twice = self.read("a.miche");
            self.hold(once == twice, || "tidying twice is not tidying once".to_owned());
        }
        self.write("a.miche", &bytes);
        self.run(&["check", "--fix", "a.miche"]);
        let mended = self.read("a.miche");
        if let Ok(text) = std::str::from_utf8(&bytes) {
            let (had, has) = (numbers(text), numbers(&String::from_utf8_lossy(&mended)));
            let lost = had.iter().find(|(number, times)| has.get(*number).copied().unwrap_or(0) < **times);
            self.hold(lost.is_none(), || format!("--fix lost the number {lost:?}"));
        } else {
            self.hold(mended == bytes, || "--fix wrote over what is no text".to_owned());
        }
    }

    /// The lines of each part of a card come to its total, at any size.
    fn sums_of_cards(&mut self, dice: &mut Dice) {
        let seed = dice.one(&self.seeds).clone();
        let text = another_number(&other_words(&seed, dice), dice);
        self.write("a.miche", text.as_bytes());
        let times = *dice.one(&["1", "1/3", "2.5", "7"]);
        let Some(card) = self.run(&["card", "a.miche", "--format", "json", "--times", times]).json() else { return };
        for part in card["parts"].as_array().into_iter().flatten() {
            let Some(total) = part["total_g"].as_f64() else { continue };
            let lines = part["lines"].as_array().into_iter().flatten().filter(|line| line["aside"] != true);
            let grams: Vec<Option<f64>> = lines.map(|line| line["grams"].as_f64()).collect();
            let sum: f64 = grams.iter().flatten().sum();
            let fits = (sum - total).abs() <= 1e-6 * total.abs().max(1.0);
            self.hold(fits, || format!("{}: the lines come to {sum}, the total is {total}", part["name"]));
        }
    }

    /// What is printed adds up, whatever the units: the lines of each table come to its total, and what is in the bowl to what
    /// was put in.
    fn printed_sums(&mut self, dice: &mut Dice) {
        let seed = dice.one(&self.seeds).clone();
        let text = another_number(&another_number(&seed, dice), dice);
        self.write("a.miche", text.as_bytes());
        let times = *dice.one(&["1", "1/3", "2.5", "7", "0.1"]);
        for units in ["metric", "us", "both"] {
            let ran = self.run(&["card", "a.miche", "--format", "markdown", "--units", units, "--times", times]);
            if !ran.is_fine() {
                return;
            }
            for wrong in printed::wrong_totals(&String::from_utf8_lossy(&ran.out)) {
                self.hold(false, || format!("--units {units} --times {times}: {wrong}"));
            }
        }
    }

    /// A card differs, in anything but order, exactly when `diff` says so; and nothing differs from itself.
    fn cards_and_diffs(&mut self, dice: &mut Dice) {
        let seed = dice.one(&self.seeds).clone();
        let other = dice.one(&self.seeds).clone();
        let new = match dice.below(4) {
            0 => other_lines(&seed, &other, dice),
            1 => other_words(&seed, dice),
            _ => another_number(&seed, dice),
        };
        self.write("a.miche", seed.as_bytes());
        self.write("b.miche", new.as_bytes());
        let of_itself = self.run(&["diff", "b.miche", "b.miche", "--exit-code"]);
        let said = String::from_utf8_lossy(&of_itself.out).into_owned();
        self.hold(of_itself.code != Some(1), || format!("a file differs from itself: {said}"));
        let cards = ["a.miche", "b.miche"].map(|name| self.run(&["card", name, "--format", "json"]).json());
        let [Some(was), Some(is)] = cards else { return };
        let Some(diff) = self.run(&["diff", "a.miche", "b.miche", "--format", "json"]).json() else { return };
        let changed = diff["changed"] == true;
        if without_order(&was) != without_order(&is) {
            self.hold(changed, || "the cards differ and diff says nothing".to_owned());
        } else if was == is && changed {
            // What stands on no card in JSON: problems, another option, an order of steps that makes no difference in time.
            let named = |name: &str| diff[name].as_array().is_some_and(|list| !list.is_empty());
            let problems = ["raised", "cleared"]
                .iter()
                .any(|key| diff["problems"][key].as_array().is_some_and(|list| !list.is_empty()));
            let is_named = problems || named("head") || named("parts") || named("texts") || named("plan");
            self.hold(is_named, || format!("diff says that something changed and not what: {diff}"));
        }
    }

    /// What git merges cleanly is merged so; markers and exit status 1 go together.
    fn merges(&mut self, dice: &mut Dice) {
        let (base, other) = (dice.one(&self.seeds).clone(), dice.one(&self.seeds).clone());
        let mut side = || {
            let once = other_lines(&base, &other, dice);
            let twice = if dice.below(2) == 0 { another_number(&once, dice) } else { other_words(&once, dice) };
            if dice.below(6) == 0 { mutate::other_bytes(twice.as_bytes(), dice) } else { twice.into_bytes() }
        };
        let (ours, theirs) = (side(), side());
        for (name, bytes) in [("base.miche", base.as_bytes()), ("ours.miche", &ours), ("theirs.miche", &theirs)] {
            self.write(name, bytes);
        }
        let git = Command::new("git")
            .args(["merge-file", "-p", "ours.miche", "base.miche", "theirs.miche"])
            .current_dir(self.folder.path())
            .output()
            .expect("git");
        self.write("git.merged", &git.stdout);
        let ran = self.run(&["merge", "base.miche", "ours.miche", "theirs.miche"]);
        let merged = self.read("ours.miche");
        self.write("ours.miche", &ours);
        let lone = |bytes: &[u8]| bytes.windows(2).any(|pair| pair[0] == b'\r' && pair[1] != b'\n');
        // Git sees no line end in a lone CR and calls bytes with NUL binary.
        let comparable = git.status.success()
            && ![base.as_bytes(), &ours, &theirs].iter().any(|bytes| lone(bytes) || bytes.contains(&0));
        if comparable {
            // Of two lines that changed places git calls one moved and the other kept, as its diff happens to find them. Where
            // the other side took one of them away, a conflict is as right, and so is one blank line less.
            let moved = [&ours, &theirs].iter().any(|side| has_moved(base.as_bytes(), side));
            let words =
                |text: &[u8]| String::from_utf8_lossy(text).split_whitespace().map(str::to_owned).collect::<Vec<_>>();
            let without = |side: &[u8]| mutate::fewer(base.as_bytes(), side);
            let taken_out = [without(&ours), without(&theirs)].concat();
            // Moved by one and taken out by the other, it may be gone, and nothing else with it.
            let missing = mutate::fewer(&git.stdout, &merged);
            let only_that = mutate::fewer(&merged, &git.stdout).is_empty()
                && missing.iter().all(|line| line.trim_ascii().is_empty() || taken_out.contains(line));
            let as_right = moved && (ran.code == Some(1) || words(&merged) == words(&git.stdout) || only_that);
            self.hold(as_right || (ran.is_fine() && merged == git.stdout), || {
                format!("git's merge is clean and another: {}", ran.said)
            });
        }
        let marked = |bytes: &[u8]| {
            String::from_utf8_lossy(bytes).split(['\n', '\r']).filter(|line| *line == "<<<<<<< ours").count()
        };
        let own = [base.as_bytes(), &ours, &theirs].iter().map(|bytes| marked(bytes)).max().unwrap_or(0);
        self.hold((ran.code == Some(1)) == (marked(&merged) > own), || {
            format!("status {:?} and markers in disagreement", ran.code)
        });
    }
}

#[test]
fn what_is_counted_is_there() {
    assert_eq!(
        [line_ends(b"a\r\nb\r\n"), line_ends(b"a\rb\n"), line_ends(b"a\r\nb\rc\n"), line_ends(b"a")],
        [1, 2, 3, 0]
    );
    assert_eq!(mutate::fewer(b"a\nb\na\n", b"a\nc"), [b"b".to_vec(), b"a".to_vec()]);
}

#[test]
fn whatever_comes_the_program_answers() {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let seconds = number("MICHE_ATTACK_SECONDS").unwrap_or(20);
    let only = number("MICHE_ATTACK_ONLY");
    let from = number("MICHE_ATTACK_SEED").unwrap_or(0);
    let from = only.map_or(from, |only| from - from % 7 + only % 7);
    let clock = Instant::now();
    let mut field = Field::new();
    let mut rounds = 0;
    while clock.elapsed() < Duration::from_secs(seconds) && field.faults.len() < 40 {
        field.seed = from + rounds * only.map_or(1, |_| 7);
        let mut dice = Dice(field.seed);
        // By the seed, so that a seed alone says what was done.
        match field.seed % 7 {
            0 => field.any_command(&mut dice),
            1 => field.tidy_and_mend(&mut dice),
            2 => field.sums_of_cards(&mut dice),
            3 => field.cards_and_diffs(&mut dice),
            4 => field.printed_sums(&mut dice),
            5 => field.merges(&mut dice),
            _ => field.written(&mut dice),
        }
        rounds += 1;
    }
    println!("{} runs of the program in {rounds} rounds from seed {from}", field.runs);
    assert!(field.runs > 20, "{} runs", field.runs);
    assert!(field.faults.is_empty(), "{} found:\n{}", field.faults.len(), field.faults.join("\n"));
}
