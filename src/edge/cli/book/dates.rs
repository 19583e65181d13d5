//! When the recipes of a book changed, and what in them, by git: one question for the dates of all of them.

use super::changed::{Revised, Words, tell};
use super::kept::Shelf;
use super::read::ReadBook;
use crate::edge::past::checkout::top_of;
use crate::edge::past::revision::{LOG, cut_off, quiet_git};
use crate::out::site::{Commit, Dates};
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// The dates of each recipe, in the order of the book. Renamed files are followed.
///
/// # Errors
/// Why git knows nothing of them.
pub(super) fn of(read: &ReadBook, shelf: &Shelf<'_>) -> Result<Vec<Dates>, String> {
    let files: Vec<PathBuf> = read.files();
    let folder = files.first().and_then(|file| file.parent()).ok_or("the book names no recipe")?.to_owned();
    let top = top_of(&folder).map_err(|none| none.of("the folder of the recipes"))?;
    let mut numbers: HashMap<String, usize> = HashMap::new();
    let mut dates = vec![Dates::default(); files.len()];
    // A recipe that stands in a book by two ways has two entries.
    let mut same_as: Vec<usize> = Vec::with_capacity(files.len());
    for (number, file) in files.iter().enumerate() {
        let name = file.strip_prefix(&top).ok().and_then(Path::to_str).map(|name| name.replace('\\', "/"));
        let first = name.map_or(number, |name| *numbers.entry(name).or_insert(number));
        same_as.push(first);
    }
    let mut arguments = LOG.to_vec();
    arguments.extend(["--find-renames", "--date=format:%Y-%m-%d", "--format=%x01%ad%x00%H%x00%s"]);
    let printed = quiet_git(&top, &arguments).ok_or("nothing was committed in the repository of the recipes")?;
    let cut_off = cut_off(&top);
    let mut commit = Commit { date: String::new(), subject: String::new(), words: None };
    let (mut id, mut revised) = (String::new(), Vec::new());
    let mut fields = printed.split(|byte| *byte == 0).map(|field| String::from_utf8_lossy(field).into_owned());
    while let Some(field) = fields.next() {
        let field = field.trim_start_matches('\n');
        if let Some(date) = field.strip_prefix('\u{1}') {
            let (Some(commit_id), Some(subject)) = (fields.next(), fields.next()) else { break };
            id = commit_id;
            commit = Commit { date: date.to_owned(), subject, words: None };
            continue;
        }
        if field.is_empty() {
            continue;
        }
        let Some(name) = fields.next() else { break };
        // A renamed or copied file comes with both names; before this commit it was called by the first.
        let (name, before) = if field.starts_with(['R', 'C']) {
            let Some(new) = fields.next() else { break };
            (new, Some(name))
        } else {
            (name, None)
        };
        let Some(number) = numbers.get(&name).copied() else { continue };
        if cut_off.contains(&id) {
            if let Some(of) = dates.get_mut(number) {
                of.is_cut = true;
            }
            continue;
        }
        if let Some(of) = dates.get_mut(number) {
            if !field.starts_with('A') {
                let was = before.as_ref().unwrap_or(&name).clone();
                revised.push(Revised { commit: id.clone(), was, name: name.clone(), at: (number, of.commits.len()) });
            }
            of.commits.push(commit.clone());
        }
        if let Some(before) = before {
            numbers.remove(&name);
            numbers.entry(before).or_insert(number);
        } else if field.starts_with('A') {
            // What was there before under this name was another file.
            numbers.remove(&name);
        }
    }
    let kept = (|one: &Revised| shelf.changes(one), |one: &Revised, words: &Words| shelf.keep_changes(one, words));
    for (revised, words) in tell(revised, &top, kept) {
        let (number, at) = revised.at;
        if let Some(commit) = dates.get_mut(number).and_then(|of| of.commits.get_mut(at)) {
            commit.words = Some(words);
        }
    }
    Ok(same_as.into_iter().map(|first| dates.get(first).cloned().unwrap_or_default()).collect())
}
