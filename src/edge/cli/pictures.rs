//! The pictures of readers' pages: read, and made as small as they are shown.

use crate::edge::loader::read_picture;
use crate::figures::reader::ReaderPage;
use crate::model::project::Project;
use crate::model::published::Picture;
use crate::out::reader::shrink::{Shrunk, shrink};
use rayon::prelude::*;
use std::collections::HashSet;

/// The pictures of the pages in their order, each once, so many dots wide at most.
///
/// # Errors
/// In a sentence: one of them cannot be read.
pub(super) fn read<'a>(
    project: &Project,
    pages: impl IntoIterator<Item = &'a ReaderPage>,
    wide: u32,
) -> Result<Vec<(Picture, Shrunk)>, String> {
    let mut seen = HashSet::new();
    let all: Vec<&Picture> =
        pages.into_iter().flat_map(ReaderPage::all_pictures).filter(|picture| seen.insert(picture.span)).collect();
    let read: Vec<Result<Option<(Picture, Shrunk)>, String>> =
        all.into_par_iter().map(|picture| one(project, picture, wide)).collect();
    read.into_iter().filter_map(Result::transpose).collect()
}

fn one(project: &Project, picture: &Picture, wide: u32) -> Result<Option<(Picture, Shrunk)>, String> {
    // One that cannot be shown was an error of the recipe, and no page is made of those.
    let Some(file) = project.picture(picture.span) else { return Ok(None) };
    let told = |why: String| format!("{}: {why}", picture.path);
    let bytes = read_picture(file).map_err(told)?;
    let shrunk = shrink(&bytes, file.kind, wide).map_err(told)?;
    Ok(Some((picture.clone(), shrunk)))
}
