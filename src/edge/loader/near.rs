//! Names of files that are near to one that is not there.

use super::{Unreadable, folder_of, reason_at};
use crate::language::parse::nearest;
use std::fs;
use std::io;
use std::path::Path;

/// A file of the folder of `from`, another one, whose name is near to what is written there.
pub(super) fn near_file(from: &Path, written: &str, verb: &str) -> Option<String> {
    let is_picture = |name: &str| {
        let name = name.to_ascii_lowercase();
        [".jpg", ".jpeg", ".png"].iter().any(|ending| name.ends_with(ending))
    };
    let folder = folder_of(from);
    let fits = |name: &str| if verb == "picture" { is_picture(name) } else { name.ends_with(".miche") };
    let written = Path::new(written);
    let is_itself =
        |name: &str| written.parent() == Some(Path::new("")) && from.file_name() == Some(std::ffi::OsStr::new(name));
    near(folder, written, |name, _| fits(name) && !is_itself(name))
}

/// Why a path that was named on the command line cannot be read, with the nearest name of its folder when nothing is there.
pub(super) fn unreadable(path: &Path, shown: &str, error: &io::Error) -> Unreadable {
    let near = (error.kind() == io::ErrorKind::NotFound && fs::symlink_metadata(path).is_err())
        .then(|| near(Path::new("."), path, |name, is_folder| is_folder || name.ends_with(".miche")))
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
