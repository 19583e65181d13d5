//! The invariants of the source, as `DEVELOPERS.md` numbers them, kept by reading it.
//!
//! Comments and test modules (which stand last in a file) are left out, except where a rule is about them.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

#[path = "source/imports.rs"]
mod imports;

/// The longest source file.
const LONGEST: usize = 500;

/// Where files, the environment, other processes and the clock may be named.
const OUTSIDE: &[&str] = &["edge", "main"];
/// The plan engine stops at a time limit, so one object of it looks at the clock.
const TIMEKEEPER: &str = "src/plan/limit.rs";
/// What reaches outside.
const REACHES_OUT: &[&str] = &["std::fs", "std::env", "std::process", "std::net", "stdin()", "stdout()", "stderr()"];
/// What looks at the clock.
const CLOCKS: &[&str] = &["::now(", "SystemTime", "Instant"];

/// Where floating point is written: the one conversion, JSON and pages, drawings of a plan, the estimate of fermentation and
/// cooling, whose logarithms and roots no ratio holds, and the crate for linear programs, which says only where to look.
const FLOATS: &[&str] = &[
    "src/measure/number.rs",
    "src/out/",
    "src/figures/sums/estimate.rs",
    "src/figures/bakes/statistics.rs",
    "src/aims/change/program.rs",
];

/// What would let an input make the program fall.
const FALLS: &[&str] =
    &[".unwrap(", ".unwrap_err(", ".expect(", ".expect_err(", "panic!(", "todo!(", "unimplemented!(", "unreachable!("];
/// Lints that keep it from falling; switching one off needs a test module.
const GUARDS: &[&str] = &["unwrap_used", "expect_used", "clippy::panic", "indexing_slicing", "unsafe_code"];

/// The planner's tables, which are indexed by numbers that the planner gave itself and `plan/fault.rs` checks.
const TABLES: &[&str] = &["src/plan/mod.rs", "src/plan/dense.rs"];

/// Marks of unfinished work; put together here, so that this file holds none.
const MARKS: &[&str] = &[concat!("TO", "DO"), concat!("FIX", "ME"), concat!("XX", "X"), concat!("HA", "CK")];

/// What a check of parts must not look at: which part it is asked of, and what is read without being noted. All else that it reads is noted
/// where it is read (`model/noted`) or compared (`check/shared`), so that it may look at other parts, at who draws on them, and at notes.
const UNNOTED: &[&str] = &["subject.only", "unnoted"];

/// A source file.
struct Source {
    /// From the project's root, with `/`.
    path: String,
    /// All of it.
    text: String,
}

impl Source {
    /// The code that runs: without comments and without the test module at the end.
    fn code(&self) -> String {
        let tests = self.text.find("\n#[cfg(test)]\nmod ").unwrap_or(self.text.len());
        let running = self.text.get(..tests).unwrap_or("");
        running.lines().map(without_comment).collect::<Vec<&str>>().join("\n")
    }

    /// Which of some words its code holds as words of their own.
    fn names<'w>(&self, words: &[&'w str]) -> Vec<&'w str> {
        let code = self.code();
        words.iter().copied().filter(|word| holds_word(&code, word)).collect()
    }

    /// The floor that it stands on: `edge` for everything in `src/edge/`.
    fn floor(&self) -> &str {
        let inside = self.path.strip_prefix("src/").unwrap_or(&self.path);
        inside.split(['/', '.']).next().unwrap_or("")
    }
}

/// A line up to its comment. Two slashes inside a text (`https://…`) are not one.
fn without_comment(line: &str) -> &str {
    let mut quoted = false;
    let mut before = ' ';
    for (at, c) in line.char_indices() {
        match c {
            '"' if before != '\\' && before != '\'' => quoted = !quoted,
            '/' if !quoted && before == '/' => return line.get(..at - 1).unwrap_or(""),
            _ => {}
        }
        before = c;
    }
    line
}

/// Whether a word stands in a text with no letter, digit or underscore beside it.
fn holds_word(text: &str, word: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(word).any(|(at, _)| {
        let before = text.get(..at).and_then(|before| before.chars().next_back());
        let after = text.get(at + word.len()..).and_then(|after| after.chars().next());
        let starts = !word.starts_with(is_part) || !before.is_some_and(is_part);
        let ends = !word.ends_with(is_part) || !after.is_some_and(is_part);
        starts && ends
    })
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All files below a folder of the project with one of these endings.
fn files(folder: &str, endings: &[&str]) -> Vec<Source> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display())) {
            let path = entry.expect("a readable folder").path();
            if path.is_dir() {
                // What a package manager fetched is not ours.
                if !path.ends_with("node_modules") {
                    folders.push(path);
                }
            } else if endings.iter().any(|ending| path.extension().is_some_and(|found| found == *ending)) {
                found.push(read(path));
            }
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn read(path: PathBuf) -> Source {
    let text = fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    let inside = path.strip_prefix(root()).expect("below the root");
    let names: Vec<String> = inside.iter().map(|name| name.to_string_lossy().into_owned()).collect();
    Source { path: names.join("/"), text }
}

fn sources() -> Vec<Source> {
    let sources = files("src", &["rs"]);
    assert!(sources.len() > 50, "there are {} source files", sources.len());
    sources
}

/// Fails with everything that a rule finds.
fn hold(rule: impl Fn(&Source) -> Option<String>, sources: &[Source]) {
    let faults: Vec<String> =
        sources.iter().filter_map(|source| Some(format!("{}: {}", source.path, rule(source)?))).collect();
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

fn reaches_out(source: &Source) -> Option<String> {
    if OUTSIDE.contains(&source.floor()) {
        return None;
    }
    let mut named = source.names(REACHES_OUT);
    if source.path != TIMEKEEPER {
        named.extend(source.names(CLOCKS));
    }
    (!named.is_empty()).then(|| format!("the core names {}", named.join(", ")))
}

fn floats(source: &Source) -> Option<String> {
    let may = FLOATS.iter().any(|place| source.path.starts_with(place));
    let named = source.names(&["f64", "f32"]);
    (!may && !named.is_empty()).then(|| format!("sums are exact, but it names {}", named.join(", ")))
}

fn falls(source: &Source) -> Option<String> {
    let mut named = source.names(FALLS);
    named.extend(
        source
            .names(GUARDS)
            .into_iter()
            .filter(|guard| !TABLES.contains(&source.path.as_str()) || *guard != "indexing_slicing"),
    );
    (!named.is_empty()).then(|| format!("input could make it fall: {}", named.join(", ")))
}

fn knows_pest(source: &Source) -> Option<String> {
    let named = source.names(&["pest", "pest_derive", "pest_parser", "parse::Rule"]);
    let parses = source.path.starts_with("src/language/parse");
    (!parses && !named.is_empty()).then(|| format!("only parse/ knows {}", named.join(", ")))
}

fn is_too_long(source: &Source) -> Option<String> {
    let lines = source.text.lines().count();
    (lines > LONGEST).then(|| format!("{lines} lines; {LONGEST} are the most"))
}

fn looks_around(source: &Source) -> Option<String> {
    let code = source.code();
    if !source.path.starts_with("src/check/") || !code.contains("run: Run::Parts(") {
        return None;
    }
    let named = source.names(UNNOTED);
    (!named.is_empty()).then(|| format!("a check of parts looks at what is not noted: {}", named.join(", ")))
}

fn says_nothing(source: &Source) -> Option<String> {
    let first = source.text.lines().next().unwrap_or("");
    let says = first.strip_prefix("//! ").is_some_and(|words| words.split_whitespace().count() > 1);
    (!says).then(|| "its first line does not say what it is for".to_owned())
}

fn is_unfinished(source: &Source) -> Option<String> {
    let marks: Vec<&str> = MARKS.iter().copied().filter(|mark| holds_word(&source.text, mark)).collect();
    (!marks.is_empty()).then(|| format!("unfinished: {}", marks.join(", ")))
}

#[test]
fn the_core_is_pure() {
    hold(reaches_out, &sources());
}

#[test]
fn sums_are_exact() {
    hold(floats, &sources());
}

#[test]
fn no_input_makes_it_fall() {
    hold(falls, &sources());
    let manifest = read(root().join("Cargo.toml"));
    assert!(manifest.text.contains("unsafe_code = \"forbid\""), "Cargo.toml forbids unsafe code");
}

#[test]
fn pest_stays_in_the_parser() {
    hold(knows_pest, &sources());
}

/// Builds without debug assertions take what a check found under one selection for all under which what it read is the same.
#[test]
fn checks_of_parts_look_at_what_is_noted() {
    let all = sources();
    let of_parts = all.iter().filter(|source| source.code().contains("run: Run::Parts(")).count();
    assert!(of_parts > 20, "only {of_parts}");
    hold(looks_around, &all);
}

#[test]
fn files_are_short_and_say_what_they_are_for() {
    let mut all = sources();
    all.extend(files("tests", &["rs"]));
    hold(is_too_long, &all);
    hold(says_nothing, &all);
}

#[test]
fn nothing_is_left_unfinished() {
    let mut all = sources();
    all.extend(files("tests", &["rs", "py"]));
    all.extend(files("grammar", &["pest", "md"]));
    all.extend(files("examples", &["miche"]));
    hold(is_unfinished, &all);
}

/// A file in `src/check/` is a check of that name, known to `miche explain` and, once it is there, to the list of checks.
#[test]
fn every_check_is_listed() {
    let checks = files("src/check", &["rs"]);
    let mut named = BTreeSet::new();
    for check in &checks {
        // A file without a check of its own helps several.
        if !check.code().contains("const CHECK: Check") {
            continue;
        }
        let stem = check.path.rsplit('/').next().and_then(|name| name.strip_suffix(".rs")).unwrap_or("");
        let name = stem.replace('_', "-");
        assert!(miche::check::find(&name).is_some(), "{}: there is no check `{name}`", check.path);
        named.insert(name);
    }
    assert_eq!(named.len(), miche::check::ALL.len(), "each check has a file of its own");
    let list = root().join("grammar/CHECKS.md");
    if list.exists() {
        let text = read(list).text;
        let missing: Vec<&String> = named.iter().filter(|name| !text.contains(&format!("`{name}`"))).collect();
        assert!(missing.is_empty(), "grammar/CHECKS.md does not name {missing:?}");
    }
}

/// What follows proves that each rule can fail.
#[test]
fn what_breaks_a_rule_is_found() {
    let source = |path: &str, text: &str| Source { path: path.to_owned(), text: text.to_owned() };
    let formula = |text: &str| source("src/solve/formula/solve.rs", text);
    assert!(reaches_out(&formula("use std::fs;")).is_some());
    assert!(reaches_out(&formula("let now = jiff::Timestamp::now();")).is_some());
    assert!(reaches_out(&source("src/edge/cli/card.rs", "use std::fs;")).is_none());
    assert!(reaches_out(&source("src/clinic.rs", "use std::fs;")).is_some());
    assert!(reaches_out(&source("src/plan/limit.rs", "Instant::now()")).is_none());
    assert!(reaches_out(&source("src/plan/limit.rs", "std::fs::read")).is_some());
    assert!(floats(&formula("fn a() -> f64 {}")).is_some());
    assert!(floats(&formula("fn to_f64() {}")).is_none());
    assert!(floats(&source("src/out/json.rs", "f64")).is_none());
    assert!(falls(&formula("x.unwrap()")).is_some());
    assert!(falls(&formula("x.unwrap_or(1); // never .unwrap()")).is_none());
    assert!(falls(&formula("\"https://a\"; x.expect(\"b\")")).is_some());
    assert!(falls(&formula("fn a() {}\n\n#[cfg(test)]\nmod tests {\n    x.unwrap()\n}")).is_none());
    assert!(falls(&formula("#[allow(clippy::indexing_slicing)]")).is_some());
    assert!(falls(&source("src/plan/dense.rs", "#[expect(clippy::indexing_slicing)]")).is_none());
    assert!(falls(&source("src/plan/dense.rs", "#[allow(clippy::unwrap_used)]")).is_some());
    assert!(knows_pest(&formula("use pest::iterators::Pair;")).is_some());
    assert!(knows_pest(&formula("use crate::language::parse::Rule;")).is_some());
    assert!(knows_pest(&formula("Event::Rule => pairs, tempest")).is_none());
    assert!(knows_pest(&source("src/language/parse/line.rs", "use pest::iterators::Pair;")).is_none());
    let check = |text: &str| source("src/check/no_sign.rs", &format!("    run: Run::Parts(run),\n{text}"));
    assert!(looks_around(&check("if subject.only.is_none() {}")).is_some());
    assert!(looks_around(&check("recipe.texts.unnoted().iter()")).is_some());
    // Who draws on a part, and what notes say, is noted when it is read.
    assert!(looks_around(&check("for (user, _) in recipe.users(id) {}")).is_none());
    assert!(looks_around(&check("recipe.texts.iter()")).is_none());
    assert!(looks_around(&source("src/check/no_sign.rs", "run: Run::Recipe(run), subject.only")).is_none());
    assert!(is_too_long(&formula(&"a\n".repeat(501))).is_some());
    assert!(is_too_long(&formula(&"a\n".repeat(500))).is_none());
    assert!(says_nothing(&formula("use a;\n")).is_some());
    assert!(says_nothing(&formula("//! Solves.\n")).is_some());
    assert!(says_nothing(&formula("//! Solves the parts.\n")).is_none());
    assert!(is_unfinished(&formula(concat!("// TO", "DO later"))).is_some());
    assert!(is_unfinished(&formula("methodos")).is_none());
}

/// Benches, scripts and fuzz targets stand under `tests/`, and what tools want at the top is a dot-file.
#[test]
fn the_top_of_the_project_holds_what_belongs_there() {
    let known = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-APACHE",
        "LICENSE-MIT",
        "grammar",
        "src",
        "tests",
        "examples",
        "target",
    ];
    for entry in std::fs::read_dir(env!("CARGO_MANIFEST_DIR")).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || known.contains(&name.as_str()), "{name} does not belong at the top");
    }
}
