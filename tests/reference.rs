//! What the documents show is true: every fenced block of them that is miche is run through the library.
//!
//! - `miche`: a whole file. It must have no errors and no warnings.
//! - `miche-part`: lines of one part. What is missing to make a recipe of them is put around them, see [`wrap`].
//! - either with `bad=check-name,check-name`: exactly these checks must speak.
//! - `text`, `json`, `sh`: not miche, not run. A fence that says nothing is a fault, so that none is forgotten.
//!
//! A block stands as if it were a file in `examples/`, so that it can use the files there.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::check_file;
use miche::edge::loader::Loader;
use miche::language::parse::parse;
use miche::language::syntax::{Content, Key, Name, Piece};
use miche::text::diagnostic::Severity;
use miche::text::source::SourceId;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

#[path = "examples/copy.rs"]
mod copy;
#[path = "reference/json_keys.rs"]
mod json_keys;

/// The documents, from the project's root.
const DOCUMENTS: &[&str] = &["grammar/LANGUAGE.md", "README.md"];

/// A fenced block.
#[derive(Debug)]
struct Block {
    /// The line of its fence, from 1.
    line: usize,
    /// What stands in the block.
    text: String,
    /// Whether it is lines of a part only.
    is_part: bool,
    /// The checks that must speak.
    bad: BTreeSet<String>,
}

#[test]
fn the_documents_are_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut faults = Vec::new();
    for document in DOCUMENTS {
        let text = fs::read_to_string(root.join(document)).unwrap_or_else(|why| panic!("{document}: {why}"));
        faults.extend(faults_of(document, &text));
    }
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

fn faults_of(document: &str, text: &str) -> Vec<String> {
    match blocks(text) {
        Err(why) => vec![format!("{document}:{why}")],
        Ok(blocks) if blocks.is_empty() => vec![format!("{document}: no block of it is miche")],
        Ok(blocks) => blocks.iter().filter_map(|block| fault(document, block)).collect(),
    }
}

/// The blocks of a document that are miche.
fn blocks(text: &str) -> Result<Vec<Block>, String> {
    let mut blocks = Vec::new();
    let mut lines = (1..).zip(text.lines());
    while let Some((number, line)) = lines.next() {
        let Some(info) = line.trim_start().strip_prefix("```") else { continue };
        let mut inside = String::new();
        loop {
            match lines.next() {
                Some((_, line)) if line.trim() == "```" => break,
                Some((_, line)) => {
                    inside.push_str(line);
                    inside.push('\n');
                }
                None => return Err(format!("{number}: the block is not closed")),
            }
        }
        let mut words = info.split_whitespace();
        let is_part = match words.next() {
            Some("miche") => false,
            Some("miche-part") => true,
            Some("text" | "json" | "sh") => continue,
            other => return Err(format!("{number}: `{}` is no kind of block", other.unwrap_or(""))),
        };
        let mut bad = BTreeSet::new();
        for word in words {
            let names = word.strip_prefix("bad=").ok_or_else(|| format!("{number}: `{word}` is not `bad=…`"))?;
            for name in names.split(',') {
                if miche::check::find(name).is_none() {
                    return Err(format!("{number}: there is no check `{name}`"));
                }
                bad.insert(name.to_owned());
            }
        }
        blocks.push(Block { line: number, text: inside, is_part, bad });
    }
    Ok(blocks)
}

fn fault(document: &str, block: &Block) -> Option<String> {
    let text = if block.is_part { wrap(&block.text) } else { block.text.clone() };
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/a block of the reference.miche");
    let mut loader = Loader::new();
    let source = loader.take_text(document, text.clone(), &place);
    let problems = check_file(loader.project(), source);
    // Advice says that nothing is wrong; it counts where the block names it.
    let counts = |name: &str, severity: Severity| severity != Severity::Advice || block.bad.contains(name);
    let spoken = problems.iter().filter(|problem| counts(problem.check, problem.severity));
    let found: BTreeSet<String> = spoken.clone().map(|problem| problem.check.to_owned()).collect();
    if found == block.bad {
        return None;
    }
    let said: Vec<String> = spoken.map(|problem| format!("    {}: {}", problem.check, problem.message)).collect();
    let wanted: Vec<&str> = block.bad.iter().map(String::as_str).collect();
    Some(format!("{document}:{}: wanted [{}], found\n{}\nin\n{text}", block.line, wanted.join(", "), said.join("\n")))
}

/// Makes a recipe of lines of one part by adding what they lack: a title and the harbour bakehouse; a line of 100 g for what
/// their steps take and do not list; 1 kg of strong white flour where nothing is flour and nothing else is said to be
/// 100 %; and, where there are steps, a last step that takes what they leave untouched.
fn wrap(fragment: &str) -> String {
    let (tree, _) = parse(SourceId(0), &format!("recipe A fragment\n{fragment}"));
    let mut listed: Vec<&Name> = Vec::new();
    let mut taken: Vec<&Name> = Vec::new();
    let mut has_base = false;
    let mut has_steps = false;
    for line in &tree.lines {
        match &line.content {
            Content::Ingredient(ingredient) => listed.push(&ingredient.name),
            Content::Percent(_) => has_base = true,
            Content::Step(_) => has_steps = true,
            Content::Prose(pieces) => taken.extend(pieces.iter().filter_map(|piece| match piece {
                Piece::Use(_, name) => Some(name),
                _ => None,
            })),
            _ => {}
        }
    }
    let is_in = |list: &[&Name], name: &Name| list.iter().any(|known| known.same(name));
    let is_flour = |key: &Key| key.as_str().ends_with("flour");
    let mut text = String::from("recipe A fragment\nuse \"bakehouse.miche\"\n");
    let mut all = listed.clone();
    for name in &taken {
        if !is_in(&all, name) {
            let amount = if is_flour(&name.key) { "1 kg" } else { "100 g" };
            text.push_str(&format!("{name} .... {amount}\n"));
            all.push(name);
        }
    }
    let mut untouched: Vec<String> =
        listed.iter().filter(|name| !is_in(&taken, name)).map(|name| format!("{{{name}}}")).collect();
    if !has_base && !all.iter().any(|name| is_flour(&name.key)) {
        text.push_str("strong white flour .... 1 kg\n");
        untouched.push("{strong white flour}".to_owned());
    }
    text.push_str(fragment);
    if has_steps && !untouched.is_empty() {
        untouched.dedup();
        text.push_str(&format!("\nlast: hands 10 min\n    Take {}.\n    until all is in\n", untouched.join(", ")));
    }
    text
}

/// Whoever types the documents' recipes and days can plan them, in the kitchen that they name.
#[test]
fn what_the_documents_show_can_be_planned() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut planned = 0;
    for document in DOCUMENTS {
        let text = fs::read_to_string(root.join(document)).unwrap_or_else(|why| panic!("{document}: {why}"));
        for block in blocks(&text).expect("they are blocks") {
            let made = block.text.starts_with("recipe ") || block.text.starts_with("day ");
            if block.is_part || !block.bad.is_empty() || !made {
                continue;
            }
            let folder = tempfile::tempdir().expect("a folder");
            copy::into(folder.path());
            let file = folder.path().join("a block.miche");
            fs::write(&file, &block.text).expect("written");
            let mut plan = Command::new(env!("CARGO_BIN_EXE_miche"));
            plan.arg("plan").arg(&file).args(["--limit", "20000 steps", "--zone", "UTC", "--format", "json"]);
            let output = plan.output().expect("it starts");
            let told = String::from_utf8_lossy(&output.stderr);
            assert!(output.status.success(), "{document}:{}\n{told}", block.line);
            planned += 1;
        }
    }
    assert!(planned > 10, "{planned}");
}

/// What follows proves that the harness itself can fail.
#[test]
fn what_is_not_true_is_found() {
    let good = "recipe Rolls\nflour .... 500 g\nwater .... 300 g\n";
    let bad = "recipe Rolls\nflour .... 0,5 kg\nwater .... 300 g\n";
    let fenced = |info: &str, text: &str| faults_of("here", &format!("Words.\n\n```{info}\n{text}```\n"));
    assert!(fenced("miche", good).is_empty());
    assert!(fenced("miche bad=decimal-comma", bad).is_empty());
    assert!(fenced("miche-part", "water .... 62 %\nmix: hands 10 min\n    Add {salt}.\n    until smooth\n").is_empty());
    for (info, text) in [
        ("miche", bad),
        ("miche bad=decimal-comma", good),
        ("miche bad=no-scale", bad),
        ("miche bad=decimal-comma,no-scale", bad),
        ("miche bad=no-such-check", bad),
        ("miche good", good),
        ("mich", good),
        ("", good),
        ("text", good),
        ("miche-part", "water .... 62 %\nmix: hands 10 min\n    Add {half of water}.\n    until smooth\n"),
    ] {
        assert!(!fenced(info, text).is_empty(), "{info}\n{text}");
    }
    assert!(!faults_of("here", "Words only.\n").is_empty());
    assert!(!faults_of("here", "```miche\nrecipe Rolls\n").is_empty());
}
