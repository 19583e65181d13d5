//! Every place that names the same thing, over all files of the folder.

use super::mentions::{self, Mention};
use super::view::View;
use super::workspace::Folder;

/// All mentions of what is named at an offset, in the order of files and places.
pub(super) fn references(view: &View, folder: &Folder, offset: usize) -> Vec<Mention> {
    let Some(mention) = mentions::at(view.mentions(), offset) else { return Vec::new() };
    let all = folder.views.iter().flat_map(|view| view.mentions());
    all.filter(|other| other.thing == mention.thing).cloned().collect()
}

/// The mentions of it in the same file, for marking them.
pub(super) fn here(view: &View, offset: usize) -> Vec<&Mention> {
    let Some(mention) = mentions::at(view.mentions(), offset) else { return Vec::new() };
    view.mentions().iter().filter(|other| other.thing == mention.thing).collect()
}
