//! Two changed versions of one file merged line by line: not by where lines stand, but by what they are about.
//!
//! Two people who change different ingredients do not disturb each other, even on neighbouring lines. Where both change
//! the same line otherwise, both stay in the text between markers, and nothing is lost.

use crate::language::parse::parse;
use crate::language::syntax::{Content, Line};
use crate::text::source::{SourceId, Span};
use similar::{Algorithm, DiffOp, capture_diff_slices};
use std::collections::HashMap;

/// What came of a merge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Merged {
    /// The merged text, with markers where there are conflicts.
    pub text: String,
    /// What both sides changed otherwise, a sentence each.
    pub conflicts: Vec<String>,
}

/// One line to be merged.
#[derive(Debug, Clone)]
struct Entry<'t> {
    /// What it is about.
    key: String,
    /// Which kind of line it is, to tell a renaming from another line.
    kind: &'static str,
    /// What it says, without its layout.
    said: String,
    /// The line as it stands, with its line break.
    raw: &'t str,
}

/// What one side made of the base.
struct Side<'s, 't> {
    /// For each base line what it is now; `None` when it is gone.
    kept: Vec<Option<&'s Entry<'t>>>,
    /// What stands newly before each base line, and at the end.
    new: Vec<Vec<&'s Entry<'t>>>,
}

/// Merges `ours` and `theirs`, which both came out of `base`.
pub fn merge(base: &str, ours: &str, theirs: &str) -> Merged {
    let (base, ours, theirs) = (entries(base), entries(ours), entries(theirs));
    let (our_side, their_side) = (side(&base, &ours), side(&base, &theirs));
    let mut merged = Merged { text: String::new(), conflicts: Vec::new() };
    for at in 0..=base.len() {
        let none = Vec::new();
        let (our_new, their_new) = (our_side.new.get(at).unwrap_or(&none), their_side.new.get(at).unwrap_or(&none));
        merged.insertions(our_new, their_new);
        if let Some(before) = base.get(at) {
            let (our, their) = (our_side.kept.get(at).copied(), their_side.kept.get(at).copied());
            merged.line(before, our.flatten(), their.flatten());
        }
    }
    merged.conflicts.extend(said_twice(&merged.text, &ours, &theirs));
    merged
}

impl Merged {
    fn put(&mut self, entry: &Entry<'_>) {
        // A last line without a line break may now stand in the middle.
        if !self.text.is_empty() && !self.text.ends_with('\n') {
            self.text.push('\n');
        }
        self.text.push_str(entry.raw);
    }

    fn line(&mut self, before: &Entry<'_>, ours: Option<&Entry<'_>>, theirs: Option<&Entry<'_>>) {
        let said = |entry: Option<&Entry<'_>>| entry.map(|entry| entry.said.clone());
        let (our_said, their_said) = (said(ours), said(theirs));
        let taken = if their_said.as_ref() == Some(&before.said) || our_said == their_said {
            ours
        } else if our_said.as_ref() == Some(&before.said) {
            theirs
        } else {
            let shown = |said: &Option<String>| said.as_ref().map_or("nothing".to_owned(), |said| format!("`{said}`"));
            let (ours_shown, theirs_shown) = (shown(&our_said), shown(&their_said));
            self.conflicts.push(format!("`{}` became {ours_shown} here and {theirs_shown} there", before.said));
            self.markers(ours.as_slice(), &[before], theirs.as_slice());
            return;
        };
        if let Some(entry) = taken {
            self.put(entry);
        }
    }

    fn insertions(&mut self, ours: &[&Entry<'_>], theirs: &[&Entry<'_>]) {
        let said = |list: &[&Entry<'_>]| list.iter().map(|entry| entry.said.clone()).collect::<Vec<String>>();
        if said(ours) == said(theirs) {
            ours.iter().for_each(|entry| self.put(entry));
            return;
        }
        let clash = ours.iter().find(|our| !our.said.is_empty() && theirs.iter().any(|their| their.key == our.key));
        // Two blocks put in at one place would be shuffled into each other's steps; one-line facts are not.
        let blocks = |list: &[&Entry<'_>]| list.iter().any(|entry| !matches!(entry.kind, "ingredient" | "blank"));
        let mixed = !ours.is_empty() && !theirs.is_empty() && (blocks(ours) || blocks(theirs));
        match clash {
            Some(clash) => {
                let words = format!("both put in {}, and not the same", clash.key.rsplit('/').next().unwrap_or(""));
                self.conflicts.push(words);
                self.markers(ours, &[], theirs);
            }
            None if mixed => {
                self.conflicts.push("both put in lines at one place, in an order that is not known".to_owned());
                self.markers(ours, &[], theirs);
            }
            None => ours.iter().chain(theirs).for_each(|entry| self.put(entry)),
        }
    }

    fn markers(&mut self, ours: &[&Entry<'_>], base: &[&Entry<'_>], theirs: &[&Entry<'_>]) {
        self.mark("<<<<<<< ours");
        ours.iter().for_each(|entry| self.put(entry));
        self.mark("||||||| before");
        base.iter().for_each(|entry| self.put(entry));
        self.mark("=======");
        theirs.iter().for_each(|entry| self.put(entry));
        self.mark(">>>>>>> theirs");
    }

    fn mark(&mut self, marker: &str) {
        if !self.text.is_empty() && !self.text.ends_with('\n') {
            self.text.push('\n');
        }
        self.text.push_str(marker);
        self.text.push('\n');
    }
}

/// Names that stand more often in the merged text than on either side: each put it in at another place.
fn said_twice(text: &str, ours: &[Entry<'_>], theirs: &[Entry<'_>]) -> Vec<String> {
    let count = |list: &[Entry<'_>]| {
        let mut counts: HashMap<String, usize> = HashMap::new();
        for entry in list.iter().filter(|entry| matches!(entry.kind, "ingredient" | "step" | "part")) {
            *counts.entry(entry.key.clone()).or_default() += 1;
        }
        counts
    };
    if text.lines().any(|line| line == "=======") {
        return Vec::new();
    }
    let merged = entries(text);
    let (ours, theirs) = (count(ours), count(theirs));
    let known = |key: &String| ours.get(key).copied().unwrap_or(0).max(theirs.get(key).copied().unwrap_or(0));
    let mut twice: Vec<String> = count(&merged)
        .iter()
        .filter(|(key, times)| **times > known(key))
        .map(|(key, _)| format!("{} stands there twice now", key.rsplit('/').next().unwrap_or("")))
        .collect();
    twice.sort();
    twice
}

/// The lines of a text, each with what it is about.
fn entries(text: &str) -> Vec<Entry<'_>> {
    let (tree, _) = parse(SourceId(0), text);
    let slice = |span: Span| text.get(span.range()).unwrap_or("");
    let (mut part, mut step) = (String::new(), String::new());
    let mut all: Vec<Entry<'_>> = Vec::new();
    for (at, line) in tree.lines.iter().enumerate() {
        let end = tree.lines.get(at + 1).map_or(text.len(), |next| next.span.start as usize);
        let raw = text.get(line.span.start as usize..end).unwrap_or("");
        if raw.is_empty() {
            continue;
        }
        let said = without_layout(slice(line.span));
        if let Content::Part { name, .. } = &line.content {
            part = name.key.as_str().to_owned();
            step.clear();
        }
        if let Content::Step(head) = &line.content {
            step = head.name.key.as_str().to_owned();
        }
        let (kind, name) = about(line);
        let name = if name.is_empty() { said.clone() } else { name };
        let only: Vec<&str> = line.only.iter().map(|option| option.key.as_str()).collect();
        let owner = if line.continues { step.as_str() } else { "" };
        let only = if only.is_empty() { String::new() } else { format!(" [{}]", only.join(", ")) };
        all.push(Entry { key: format!("{part}/{owner}/{kind}/{name}{only}"), kind, said, raw });
    }
    all
}

/// The kind of a line, and the name it goes by when it has one.
fn about(line: &Line) -> (&'static str, String) {
    match &line.content {
        Content::Blank => ("blank", String::new()),
        Content::Recipe(_) => ("recipe", "the title".to_owned()),
        Content::Part { name, .. } => ("part", name.key.as_str().to_owned()),
        Content::Ingredient(ingredient) => ("ingredient", ingredient.name.key.as_str().to_owned()),
        Content::Step(step) => ("step", step.name.key.as_str().to_owned()),
        Content::Makes { .. } => ("fact", "makes".to_owned()),
        Content::Divide { .. } => ("fact", "divide".to_owned()),
        Content::Keeps { .. } => ("fact", "keeps".to_owned()),
        Content::Spare(_) => ("fact", "spare".to_owned()),
        Content::DesiredTemperature(_) => ("fact", "desired temperature".to_owned()),
        Content::Choose { name, .. } => ("choice", name.key.as_str().to_owned()),
        Content::Prose(_) | Content::Until(_) => ("prose", String::new()),
        _ => ("line", String::new()),
    }
}

/// The words of a line: runs of blanks as one, the dots of a leader as one sign.
fn without_layout(line: &str) -> String {
    let words = line.split_whitespace().map(|word| {
        let is_leader = word.len() >= 2 && word.chars().all(|c| c == '.');
        if is_leader { ".." } else { word }
    });
    words.collect::<Vec<&str>>().join(" ")
}

/// Finds the lines of the base again.
fn side<'s, 't>(base: &[Entry<'_>], now: &'s [Entry<'t>]) -> Side<'s, 't> {
    let keys = |list: &[Entry<'_>]| list.iter().map(|entry| entry.key.clone()).collect::<Vec<String>>();
    let mut found = Side { kept: vec![None; base.len()], new: vec![Vec::new(); base.len() + 1] };
    for op in capture_diff_slices(Algorithm::Myers, &keys(base), &keys(now)) {
        let (old, new) = (op.old_range(), op.new_range());
        let kinds = |list: &[Entry<'_>], range: std::ops::Range<usize>| {
            list.get(range).unwrap_or(&[]).iter().map(|entry| entry.kind).collect::<Vec<&str>>()
        };
        // As many lines of the same kinds in the same place: each was renamed or reworded.
        let renamed = matches!(op, DiffOp::Replace { .. }) && kinds(base, old.clone()) == kinds(now, new.clone());
        if renamed || matches!(op, DiffOp::Equal { .. }) {
            for (slot, entry) in found.kept.iter_mut().skip(old.start).zip(now.get(new).unwrap_or(&[])) {
                *slot = Some(entry);
            }
        } else if let Some(slot) = found.new.get_mut(old.start) {
            slot.extend(now.get(new).unwrap_or(&[]));
        }
    }
    found
}
