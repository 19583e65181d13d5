//! Names of files that are near to one that is not there.

use super::named_by::NamedBy;
use super::walk::is_ours;
use super::{Unreadable, folder_of, reason_at};
use crate::language::parse::nearest;
use std::fs;
use std::io;
use std::path::Path;

/// A file of the folder of `from`, another one, whose name is near to what is written there.
pub(super) fn near_file(from: &Path, written: &str, by: NamedBy) -> Option<String> {
    let folder = folder_of(from);
    let written = Path::new(written);
    let is_itself =
        |name: &str| written.parent() == Some(Path::new("")) && from.file_name() == Some(std::ffi::OsStr::new(name));
    near(folder, written, |name, _| by.fits(name) && !is_itself(name))
}

/// Why a path that was named on the command line cannot be read, with the nearest name of its folder when nothing is there.
pub(super) fn unreadable(path: &Path, shown: &str, error: &io::Error) -> Unreadable {
    let near = (error.kind() == io::ErrorKind::NotFound && fs::symlink_metadata(path).is_err())
        .then(|| near(Path::new("."), path, |name, is_folder| is_folder || is_ours(Path::new(name))))
        .flatten();
    let why = match near {
        Some(near) => format!("{}; did you mean `{near}`?", reason_at(path, error)),
        None => reason_at(path, error),
    };
    Unreadable { path: shown.to_owned(), why }
}

/// The nearest name in the folder of `wanted`, which is relative to `from`, among those that `fits` takes by their name and
/// by whether they are folders.
fn near(from: &Path, wanted: &Path, fits: impl Fn(&str, bool) -> bool) -> Option<String> {
    let parent = wanted.parent().unwrap_or(Path::new(""));
    let entries = fs::read_dir(from.join(parent)).ok()?;
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let entry = entry.ok()?;
            let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
            entry.file_name().into_string().ok().filter(|name| fits(name, is_folder))
        })
        .collect();
    names.sort();
    // What all names end in makes none of them nearer.
    let stem = |name: &str| name.strip_suffix(".miche").unwrap_or(name).to_owned();
    let stems: Vec<String> = names.iter().map(|name| stem(name)).collect();
    let near = nearest(&stem(wanted.file_name()?.to_str()?), stems.iter().map(String::as_str))?;
    let name = names.iter().zip(&stems).find(|(_, stem)| *stem == near).map(|(name, _)| name)?;
    Some(parent.join(name).display().to_string())
}
