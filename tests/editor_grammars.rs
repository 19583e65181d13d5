//! What editors colour by themselves, against the program's own parser: the TextMate grammar (with the library that
//! Visual Studio Code uses) and the Vim syntax; and the extension, built and started.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::language::parse::parse;
use miche::language::syntax::{Content, Piece, StepClause};
use miche::text::source::{SourceId, Span};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What a place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Is {
    Comment,
    Title,
    Part,
    Step,
    Kind,
    Ingredient,
    Drawn,
    Option,
    Path,
    On,
    Date,
}

/// From, to, and the scopes that stand there, the outermost first.
type Coloured = (usize, usize, Vec<String>);

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The examples and the files in order.
fn files() -> Vec<PathBuf> {
    let mut files = Vec::new();
    for folder in ["examples", "tests/right"] {
        let entries = fs::read_dir(root().join(folder)).expect("readable");
        files.extend(entries.map(|entry| entry.expect("readable").path()));
    }
    // Editors take a byte-order mark off when they read, and columns with it.
    let plain = |path: &PathBuf| !fs::read(path).expect("readable").starts_with("\u{FEFF}".as_bytes());
    files.retain(|path| path.extension().is_some_and(|ending| ending == "miche") && plain(path));
    files.sort();
    files
}

/// What the parser says of a text: places of bytes.
fn expected(text: &str) -> Vec<(Span, Is)> {
    let (tree, _) = parse(SourceId(0), text);
    let mut found = Vec::new();
    for line in &tree.lines {
        found.extend(line.comment.map(|span| (span, Is::Comment)));
        found.extend(line.only.iter().map(|name| (name.span, Is::Option)));
        match &line.content {
            Content::Recipe(name) | Content::Kitchen(name) | Content::Day(name) | Content::IngredientBlock(name) => {
                found.push((name.span, Is::Title));
            }
            Content::Part { name, from } => {
                found.push((name.span, Is::Part));
                found.extend(from.iter().map(|from| (from.span, Is::Part)));
            }
            Content::Ingredient(line) => found.push((line.name.span, Is::Ingredient)),
            Content::Step(step) => {
                found.push((step.name.span, Is::Step));
                found.push((step.kind.span, Is::Kind));
                assert!(step.clauses.iter().all(|clause| clause.value != StepClause::Broken));
            }
            Content::Use(path) | Content::Make { path, .. } => found.push((path.span, Is::Path)),
            Content::Costs { on: Some(on), .. } => {
                found.push((on.span, Is::Date));
                let before = text[..on.span.range().start].trim_end().len();
                found.push((Span::new(on.span.source, before - "on".len(), before), Is::On));
            }
            Content::Prose(pieces) | Content::Until(pieces) => {
                for piece in pieces {
                    if let Piece::Use(_, name) = piece {
                        found.push((name.span, Is::Drawn));
                    }
                }
            }
            _ => {}
        }
    }
    found
}

/// The folder of node modules for the tests, if it is filled; under CI it has to be.
fn modules(folder: &str, wanted: &str) -> Option<PathBuf> {
    let modules = root().join(folder).join("node_modules");
    let there = modules.join(wanted).exists() && Command::new("node").arg("--version").output().is_ok();
    if !there {
        assert!(std::env::var_os("CI").is_none(), "under CI there has to be {wanted}");
        println!("NOT TESTED, for want of node or {folder}/node_modules (npm ci --ignore-scripts --prefix {folder})");
    }
    there.then_some(modules)
}

/// Line and column (in the unit that `width` counts) of a byte.
fn place(text: &str, offset: usize, width: fn(char) -> usize) -> (usize, usize) {
    let before = &text[..offset];
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    (before.matches('\n').count(), before[start..].chars().map(width).sum())
}

#[test]
fn the_textmate_grammar_colours_what_the_parser_reads() {
    let Some(modules) = modules("tests/tools", "vscode-textmate/package.json") else { return };
    let files = files();
    let output = Command::new("node")
        .arg(root().join("tests/scripts/textmate.mjs"))
        .arg(&modules)
        .arg(root().join("grammar/editors/miche.tmLanguage.json"))
        .args(&files)
        .output()
        .expect("node starts");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let coloured: Vec<Vec<Vec<Coloured>>> = serde_json::from_slice(&output.stdout).expect("JSON");
    let mut faults = Vec::new();
    for (file, lines) in files.iter().zip(&coloured) {
        let text = fs::read_to_string(file).expect("readable");
        for (span, is) in expected(&text) {
            let scope = match is {
                Is::Comment => "comment.line",
                Is::Title => "entity.name.section",
                Is::Part => "entity.name.class",
                Is::Step => "entity.name.function",
                Is::Kind => "storage.type.step",
                Is::Ingredient | Is::Drawn => "variable.other.ingredient",
                Is::Option => "variable.other.enummember",
                Is::Path => "string.quoted",
                Is::On => "keyword.other.miche",
                Is::Date => "constant.numeric.date",
            };
            let (line, start) = place(&text, span.range().start, char::len_utf16);
            let (_, end) = place(&text, span.range().end, char::len_utf16);
            let has = |scopes: &[String]| scopes.iter().any(|name| name.starts_with(scope));
            let inside = lines[line].iter().filter(|(from, to, _)| *from < end && *to > start);
            let all = inside.clone().count() > 0 && inside.clone().all(|(_, _, scopes)| has(scopes));
            // Names end where they end, but an option's place in a list may be coloured with its commas.
            let beyond = lines[line].iter().any(|(from, to, scopes)| {
                has(scopes) && ((*from < start && start < *to) || (*from < end && end < *to))
            });
            if !all || (beyond && !matches!(is, Is::Option)) {
                let name = file.file_name().expect("a name").to_string_lossy().into_owned();
                faults.push(format!("{name}:{}: `{}` is no {scope}: {:?}", line + 1, &text[span.range()], lines[line]));
            }
        }
    }
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn the_vim_syntax_colours_what_the_parser_reads() {
    let can = Command::new("vim")
        .arg("--version")
        .output()
        .is_ok_and(|output| String::from_utf8_lossy(&output.stdout).contains("+syntax"));
    if !can {
        assert!(std::env::var_os("CI").is_none(), "under CI there has to be a vim with +syntax");
        println!("NOT TESTED: the Vim syntax, for want of vim");
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut faults = Vec::new();
    for file in files() {
        let text = fs::read_to_string(&file).expect("readable");
        let colours = folder.path().join("colours");
        let output = Command::new("vim")
            .args(["-N", "-u", "NONE", "-i", "NONE", "-es", "-c", "set encoding=utf-8", "-c"])
            .arg(format!("set rtp^={}", root().join("grammar/editors/vim").display()))
            .arg("-S")
            .arg(root().join("tests/scripts/vim_colours.vim"))
            .arg("--")
            .arg(&file)
            .env("COLOURS", &colours)
            .env("LC_ALL", "C.UTF-8")
            .output()
            .expect("vim starts");
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        let coloured = fs::read_to_string(&colours).unwrap_or_else(|_| panic!("vim wrote nothing: {said}"));
        let lines: Vec<Vec<&str>> = coloured.split('\n').map(|line| line.split(',').collect()).collect();
        for (span, is) in expected(&text) {
            let group = match is {
                Is::Comment => "micheComment",
                Is::Title => "micheTitle",
                Is::Part => "michePart",
                Is::Step => "micheHead",
                Is::Kind => "micheKind",
                Is::Ingredient => "micheIngredient",
                Is::Drawn => "micheDrawn",
                Is::Option => "micheTaken",
                Is::Path => "micheString",
                Is::On => "micheOn",
                Is::Date => "micheDate",
            };
            let (line, start) = place(&text, span.range().start, char::len_utf8);
            let groups = lines[line].get(start..start + span.range().len()).unwrap_or_default();
            let beyond = lines[line].get(start + span.range().len()) == Some(&group) && is != Is::Comment;
            if groups.is_empty() || groups.iter().any(|found| *found != group) || beyond {
                let name = file.file_name().expect("a name").to_string_lossy().into_owned();
                faults.push(format!("{name}:{}: `{}` is no {group}: {groups:?}", line + 1, &text[span.range()]));
            }
        }
    }
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn the_extension_is_built_and_starts_the_server() {
    let extension = root().join("grammar/editors/vscode");
    if modules("grammar/editors/vscode", "esbuild/package.json").is_none() {
        return;
    }
    let built = Command::new("node").arg("build.mjs").current_dir(&extension).output().expect("node starts");
    assert!(built.status.success(), "{}", String::from_utf8_lossy(&built.stderr));
    let output = Command::new("node")
        .arg(root().join("tests/scripts/start_extension.cjs"))
        .arg(extension.join("dist/extension.js"))
        .arg(env!("CARGO_BIN_EXE_miche"))
        .output()
        .expect("node starts");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success() && said.contains("started and ended"),
        "{said}{}",
        String::from_utf8_lossy(&output.stderr)
    );
}
