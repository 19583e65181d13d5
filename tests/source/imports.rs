//! The floors of the source: what a file names stands on a floor before its own, and within a floor nothing goes round.
//!
//! Every path of the code is read, in `use` lines with their groups, in expressions and inside macros, but for comments and
//! test modules. Inside a floor the modules that stand beside each other may name each other in one direction only. A module
//! and the files in its own folder are one thing seen from outside, and a file may name what the module that holds it
//! declares; between files beside each other the same holds as between modules. The map in `DEVELOPERS.md` is written from
//! the same table.

use super::{Source, holds_word, read, root, sources, without_comment};
use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// The floors from the ground up. A file names only what stands on its own floor or on one before it.
const FLOORS: &[&str] =
    &["text", "measure", "language", "model", "solve", "make", "plan", "aims", "check", "figures", "out", "edge"];

/// Faults that still stand, as they are printed; a line whose fault is gone fails the test too.
const ALLOWED: &[&str] = &[];

/// A path of modules below the crate: `["model", "larder", "builtin"]`.
type Module = Vec<String>;

/// Where a module is named.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Edge {
    /// The module whose code names it.
    from: Module,
    /// What it names.
    to: Module,
    /// The file and the first line that holds the last name of the path.
    place: String,
}

/// The module that a file holds: `src/model/larder/builtin.rs`, `src/check/mod.rs`.
fn module_of(path: &str) -> Module {
    let inside = path.strip_prefix("src/").unwrap_or(path);
    let inside = inside.strip_suffix(".rs").unwrap_or(inside);
    let mut names: Module = inside.split('/').map(str::to_owned).collect();
    if names.last().is_some_and(|name| name == "mod" || (names.len() == 1 && (name == "lib" || name == "main"))) {
        names.pop();
    }
    names
}

/// A path as it stands in the code: `crate::text::source::Source`.
type Written = Vec<String>;

/// Every path that starts with `crate`, `self`, `super`, or with the name of a module in the file's own folder.
fn paths(code: TokenStream, children: &BTreeSet<String>) -> Vec<Written> {
    let mut found = Vec::new();
    gather(&code.into_iter().collect::<Vec<TokenTree>>(), children, &mut found);
    found
}

fn gather(tokens: &[TokenTree], children: &BTreeSet<String>, found: &mut Vec<Written>) {
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        // A module of tests is no code that runs.
        if is_test_mark(tokens, at) {
            at += 2;
            while let Some(token) = tokens.get(at) {
                at += 1;
                let ends_block = matches!(token, TokenTree::Group(group) if group.delimiter() == Delimiter::Brace);
                if ends_block || is_punct(token, ';') {
                    break;
                }
            }
            continue;
        }
        if let TokenTree::Ident(first) = token {
            let name = first.to_string();
            let before = |back: usize| at.checked_sub(back).and_then(|before| tokens.get(before));
            let is_before = |back: usize, wanted: char| before(back).is_some_and(|token| is_punct(token, wanted));
            let within_path = is_before(1, ':') && is_before(2, ':');
            let is_child = children.contains(&name) && !is_before(1, '.');
            let starts = !within_path && (is_child || matches!(name.as_str(), "crate" | "self" | "super"));
            if starts && is_colons(tokens, at + 1) {
                at = read_path(tokens, at, Vec::new(), found);
                continue;
            }
        }
        if let TokenTree::Group(group) = token {
            gather(&group.stream().into_iter().collect::<Vec<TokenTree>>(), children, found);
        }
        at += 1;
    }
}

/// Reads a path, with the branches of a group behind it; where the code goes on.
fn read_path(tokens: &[TokenTree], mut at: usize, mut names: Vec<String>, found: &mut Vec<Written>) -> usize {
    loop {
        match tokens.get(at) {
            Some(TokenTree::Ident(name)) => names.push(name.to_string()),
            Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace && !names.is_empty() => {
                let inside: Vec<TokenTree> = group.stream().into_iter().collect();
                for branch in inside.split(|token| is_punct(token, ',')) {
                    read_path(branch, 0, names.clone(), found);
                }
                return at + 1;
            }
            Some(all) if is_punct(all, '*') => {}
            _ => return at,
        }
        if is_colons(tokens, at + 1) {
            at += 3;
        } else {
            found.push(names);
            return at + 1;
        }
    }
}

fn is_punct(token: &TokenTree, wanted: char) -> bool {
    matches!(token, TokenTree::Punct(found) if found.as_char() == wanted)
}

fn is_colons(tokens: &[TokenTree], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| is_punct(token, ':'))
        && tokens.get(at + 1).is_some_and(|token| is_punct(token, ':'))
}

fn is_test_mark(tokens: &[TokenTree], at: usize) -> bool {
    let mark = tokens.get(at + 1).map(|mark| mark.to_string().replace(' ', ""));
    tokens.get(at).is_some_and(|token| is_punct(token, '#')) && mark.is_some_and(|mark| mark == "[cfg(test)]")
}

/// What each file names of the crate's modules.
fn edges(sources: &[Source]) -> Vec<Edge> {
    let modules: BTreeSet<Module> = sources.iter().map(|source| module_of(&source.path)).collect();
    let mut edges = Vec::new();
    for source in sources {
        let from = module_of(&source.path);
        let depth = from.len() + 1;
        let below = modules.iter().filter(|module| module.len() == depth && module.starts_with(&from));
        let children: BTreeSet<String> = below.filter_map(|module| module.last().cloned()).collect();
        let code: TokenStream = source.text.parse().unwrap_or_else(|why| panic!("{}: {why}", source.path));
        let lines: Vec<&str> = source.text.lines().map(without_comment).collect();
        // Where a token stands is told only by a feature of the crate that would build half of the project's crates anew.
        let line = |names: &[String]| {
            let last = names.last().map_or("", String::as_str);
            lines.iter().position(|line| holds_word(line, last)).map_or(0, |at| at + 1)
        };
        for names in paths(code, &children) {
            let Some(to) = named_module(&from, &names, &modules) else { continue };
            if to != from {
                edges.push(Edge { from: from.clone(), to, place: format!("{}:{}", source.path, line(&names)) });
            }
        }
    }
    edges
}

/// The module that a path names: the longest beginning of it that is one.
fn named_module(from: &Module, names: &[String], modules: &BTreeSet<Module>) -> Option<Module> {
    let mut whole = from.clone();
    for (at, name) in names.iter().enumerate() {
        match name.as_str() {
            "crate" => whole.clear(),
            "self" if at == 0 => {}
            "super" => drop(whole.pop()),
            _ => whole.push(name.clone()),
        }
    }
    while !whole.is_empty() && !modules.contains(&whole) {
        whole.pop();
    }
    (!whole.is_empty()).then_some(whole)
}

/// Everything that goes up or round, a line each without its places, and where.
fn faults(edges: &[Edge]) -> BTreeMap<String, Vec<String>> {
    let mut faults: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let floor = |module: &Module| FLOORS.iter().position(|floor| module.first().is_some_and(|name| name == floor));
    // Within a folder: which of the things in it name which others.
    let mut folders: BTreeMap<&[String], BTreeMap<&str, BTreeMap<&str, &str>>> = BTreeMap::new();
    for edge in edges {
        if floor(&edge.from).is_some_and(|from| floor(&edge.to).is_none_or(|to| to > from)) {
            let fault = format!("up: {} names {}", edge.from.join("::"), edge.to.join("::"));
            faults.entry(fault).or_default().push(edge.place.clone());
        }
        let shared = edge.from.iter().zip(&edge.to).take_while(|(from, to)| from == to).count();
        let (folder, inside) = edge.from.split_at(shared);
        if let (Some(from), Some(to), false) = (inside.first(), edge.to.get(shared), folder.is_empty()) {
            let folder = folders.entry(folder).or_default();
            folder.entry(from).or_default().entry(to).or_insert(&edge.place);
        }
    }
    for (folder, names) in &folders {
        for ring in rings(names) {
            let fault =
                format!("round: {}: {}", folder.join("::"), ring.iter().copied().collect::<Vec<&str>>().join(", "));
            let within = |from: &&str| ring.contains(*from);
            for (from, tos) in names.iter().filter(|(from, _)| within(from)) {
                for (to, place) in tos.iter().filter(|(to, _)| within(to)) {
                    faults.entry(fault.clone()).or_default().push(format!("{place}: {from} names {to}"));
                }
            }
        }
    }
    faults
}

/// The sets of names that reach each other both ways.
fn rings<'e>(names: &BTreeMap<&'e str, BTreeMap<&'e str, &'e str>>) -> BTreeSet<BTreeSet<&'e str>> {
    let reached = |from: &'e str| {
        let mut reached: BTreeSet<&'e str> = BTreeSet::new();
        let mut open = vec![from];
        while let Some(name) = open.pop() {
            for to in names.get(name).into_iter().flat_map(BTreeMap::keys) {
                if reached.insert(to) {
                    open.push(to);
                }
            }
        }
        reached
    };
    let all: BTreeMap<&str, BTreeSet<&str>> = names.keys().map(|name| (*name, reached(name))).collect();
    let back = |from: &str, to: &str| all.get(to).is_some_and(|reached| reached.contains(from));
    let ring = |name: &str, reached: &BTreeSet<&'e str>| reached.iter().copied().filter(|to| back(name, to)).collect();
    all.iter().map(|(name, reached)| ring(name, reached)).filter(|ring: &BTreeSet<&str>| !ring.is_empty()).collect()
}

#[test]
fn nothing_is_named_upwards_or_round() {
    let sources = sources();
    let edges = edges(&sources);
    assert!(edges.len() > 1000, "only {} paths found: are they still read?", edges.len());
    let found = faults(&edges);
    let new = found.iter().filter(|(fault, _)| !ALLOWED.contains(&fault.as_str()));
    let new: Vec<String> = new.map(|(fault, places)| format!("{fault}\n    {}", places.join("\n    "))).collect();
    assert!(new.is_empty(), "\n{}\n{} faults", new.join("\n"), new.len());
    let gone: Vec<&&str> = ALLOWED.iter().filter(|fault| !found.contains_key(**fault)).collect();
    assert!(gone.is_empty(), "these are mended, take them out of the list: {gone:#?}");
    let tops: BTreeSet<&str> =
        sources.iter().map(Source::floor).filter(|top| !matches!(*top, "lib" | "main")).collect();
    assert_eq!(tops, FLOORS.iter().copied().collect(), "each folder of `src` is a floor of the table");
}

/// The first line of a file: what it is for.
fn purpose(path: &str, sources: &[Source]) -> String {
    let source = sources.iter().find(|source| source.path == path).unwrap_or_else(|| panic!("{path} is not there"));
    source.text.lines().next().unwrap_or("").trim_start_matches("//! ").replace("[`", "`").replace("`]", "`")
}

/// The map: each floor and the modules on it, in the words of their own first lines.
fn map(sources: &[Source]) -> String {
    let mut map = String::new();
    for (number, floor) in FLOORS.iter().enumerate() {
        let own = format!("src/{floor}/mod.rs");
        map += &format!("{}. **{floor}/** {}\n", number + 1, purpose(&own, sources));
        for source in sources.iter().filter(|source| module_of(&source.path).len() == 2) {
            let module = module_of(&source.path);
            // A check is one file, and `grammar/CHECKS.md` lists them all.
            let is_check = source.code().contains("const CHECK: Check");
            if module.first().is_some_and(|first| first == floor) && !is_check {
                map += &format!("   - `{}`: {}\n", module.last().expect("a name"), purpose(&source.path, sources));
            }
        }
    }
    map
}

/// The map in the guide says what the source says. To write it anew: `UPDATE=1 cargo test --test tidy_source`.
#[test]
fn the_drawn_map_is_current() {
    let guide = read(root().join("DEVELOPERS.md")).text;
    let (before, rest) =
        guide.split_once("<!-- the map: written by tests/source/imports.rs -->\n").expect("a mark before");
    let (_, after) = rest.split_once("<!-- end of the map -->\n").expect("a mark behind");
    let marks = ["<!-- the map: written by tests/source/imports.rs -->\n", "<!-- end of the map -->\n"];
    let current = format!("{before}{}{}{}{after}", marks[0], map(&sources()), marks[1]);
    if std::env::var_os("UPDATE").is_some() {
        fs::write(root().join("DEVELOPERS.md"), &current).expect("the guide is written");
    }
    let written = read(root().join("DEVELOPERS.md")).text;
    assert!(written == current, "the map is not current: run `UPDATE=1 cargo test --test tidy_source`");
}

/// What follows proves that each rule can fail.
#[test]
fn what_goes_up_or_round_is_found() {
    let all = |files: &[(&str, &str)]| {
        let sources: Vec<Source> =
            files.iter().map(|(path, text)| Source { path: (*path).to_owned(), text: (*text).to_owned() }).collect();
        faults(&edges(&sources)).into_iter().map(|(fault, places)| format!("{fault} {}", places.join(" "))).collect()
    };
    let none: Vec<String> = Vec::new();
    let clean: Vec<String> = all(&[
        ("src/lib.rs", "pub mod text; pub mod edge;"),
        ("src/text/mod.rs", "pub mod source;"),
        ("src/text/source.rs", "// crate::edge\n#[cfg(test)]\nmod tests { use crate::edge::cli; }"),
        ("src/edge/mod.rs", "mod cli;"),
        ("src/edge/cli.rs", "mod card; use crate::text::source::Source; fn a() { card::run() }"),
        ("src/edge/cli/card.rs", "use super::Options;"),
    ]);
    assert_eq!(clean, none);
    let up = |text: &str| -> Vec<String> {
        all(&[("src/text/source.rs", text), ("src/edge/cli.rs", ""), ("src/model/larder.rs", "")])
    };
    let to_cli = ["up: text::source names edge::cli src/text/source.rs:2"];
    assert_eq!(up("\nuse crate::edge::cli::Card;"), to_cli);
    assert_eq!(up("\nuse crate::{edge::cli::{self, Card}};"), [format!("{} src/text/source.rs:2", to_cli[0])]);
    assert_eq!(up("\nfn a() { b!((crate::edge::cli::card(1))) }"), to_cli);
    assert_eq!(up("\nfn a(b: super::super::edge::cli::C) {}"), to_cli);
    assert_eq!(
        up("\nfn a() -> Vec<crate::model::larder::Entry> {}"),
        ["up: text::source names model::larder src/text/source.rs:2"]
    );
    let round: Vec<String> = all(&[
        ("src/model/a.rs", "use super::b::B;"),
        ("src/model/b.rs", "use crate::model::c;"),
        ("src/model/c/d.rs", "use crate::model::a::A;"),
        ("src/model/e.rs", "use crate::model::a::A;"),
        ("src/model/c.rs", ""),
    ]);
    let (a, b, d) = ("src/model/a.rs:1: a names b", "src/model/b.rs:1: b names c", "src/model/c/d.rs:1: c names a");
    assert_eq!(round, [format!("round: model: a, b, c {a} {b} {d}")]);
    let inside: Vec<String> = all(&[
        ("src/model/c.rs", "mod x; mod y;"),
        ("src/model/c/x.rs", "use super::y;"),
        ("src/model/c/y.rs", "fn a() { super::x::b() }"),
    ]);
    assert_eq!(inside, ["round: model::c: x, y src/model/c/x.rs:1: x names y src/model/c/y.rs:1: y names x"]);
}
