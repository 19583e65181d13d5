//! Which files a folder holds.

use super::opened::open_file;
use super::{Unreadable, root_of, unreadable};
use crate::text::line_break;
use std::collections::HashSet;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Whether a file's ending says that it is one of ours: `.miche`, or `.bakes`, as logs may be called.
pub fn is_ours(path: &Path) -> bool {
    let ends = |own: &str| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(own));
    ends("miche") || ends("bakes")
}

/// The logs of bakes in a folder and below, sorted: the files that begin with `bakes of`. Of a file that cannot be read nothing
/// is said here.
pub fn find_logs(folder: &Path) -> Vec<PathBuf> {
    let found = look_through(folder).unwrap_or_default();
    found.files.into_iter().filter(|file| is_log(file)).collect()
}

/// Whether the first words of a file, behind comments and blank lines, are those of a log. A log may also end in `.miche`.
pub fn is_log(path: &Path) -> bool {
    log_title(path).is_some()
}

/// The first line of a log, which names its recipe; `None` for a file that is none. No more of the file is read.
pub(super) fn log_title(path: &Path) -> Option<String> {
    let mut begin = Vec::new();
    let (file, _) = open_file(path).ok()?;
    file.take(LOOKED_AT).read_to_end(&mut begin).ok()?;
    let text = String::from_utf8_lossy(&begin);
    let text = text.trim_start_matches('\u{FEFF}');
    let first = line_break::lines(text)
        .map(str::trim)
        .find(|line| !line.is_empty() && !line.starts_with("# ") && *line != "#")?;
    let mut words = first.split_whitespace();
    let is_title = words.next()?.eq_ignore_ascii_case("bakes")
        && words.next().is_some_and(|word| word.get(..2).is_some_and(|of| of.eq_ignore_ascii_case("of")));
    is_title.then(|| first.to_owned())
}

/// So many bytes of a file say whether it is a log.
const LOOKED_AT: u64 = 4096;

/// What a path holds.
#[derive(Debug, Default)]
pub struct Found {
    /// Our files, sorted.
    pub files: Vec<PathBuf>,
    /// The folders below that cannot be looked into: what lies in them is not known, and whoever says that all is well has to say so.
    pub closed: Vec<Unreadable>,
}

/// All the files that [`look_through`] finds.
///
/// # Errors
/// When there is nothing at the path, or nothing in the folder, or when it or a folder below cannot be looked into.
pub fn find_files(path: &Path) -> Result<Vec<PathBuf>, Unreadable> {
    let found = look_through(path)?;
    match found.closed.into_iter().next() {
        Some(closed) => Err(closed),
        None if found.files.is_empty() => Err(nothing_in(path)),
        None => Ok(found.files),
    }
}

/// That a folder holds no file of ours.
pub fn nothing_in(folder: &Path) -> Unreadable {
    Unreadable { path: folder.display().to_string(), why: "there are no .miche files in this folder".to_owned() }
}

/// The files of ours (`.miche`, `.bakes`) that a path names: the file itself, or all below a folder that git does not ignore, sorted.
///
/// A link in the folder is a file of it only if it leads to a file of the same project (see [`root_of`]): whoever checks or
/// tidies a folder means what lies in it. Of several names of one file the first counts.
///
/// # Errors
/// When there is nothing at the path.
pub fn look_through(path: &Path) -> Result<Found, Unreadable> {
    let itself = || Found { files: vec![path.to_owned()], closed: Vec::new() };
    if path == Path::new("-") {
        return Ok(itself());
    }
    let metadata = fs::metadata(path).map_err(|error| unreadable(path, &path.display().to_string(), &error))?;
    if !metadata.is_dir() {
        return Ok(itself());
    }
    let root = root_of(&path.join("of this folder"));
    let mut files = Vec::new();
    let mut links = Vec::new();
    let mut closed = Vec::new();
    for entry in ignore::WalkBuilder::new(path).build() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                closed.extend(not_looked_into(&error));
                continue;
            }
        };
        let Some(kind) = entry.file_type() else { continue };
        if !is_ours(entry.path()) {
            continue;
        }
        if kind.is_symlink() {
            links.push(entry.into_path());
        } else if kind.is_file() {
            files.push(entry.into_path());
        }
    }
    if !links.is_empty() {
        let mut known: HashSet<PathBuf> = files.iter().filter_map(|file| fs::canonicalize(file).ok()).collect();
        links.sort();
        for link in links {
            let Ok(real) = fs::canonicalize(&link) else { continue };
            if real.starts_with(&root) && real.is_file() && known.insert(real) {
                files.push(link);
            }
        }
    }
    files.sort();
    Ok(Found { files, closed })
}

/// What could not be looked into on the way, and why. What is gone since it was listed holds nothing any more.
fn not_looked_into(error: &ignore::Error) -> Option<Unreadable> {
    let why = error.io_error().filter(|why| why.kind() != io::ErrorKind::NotFound)?;
    let path = place_of(error)?;
    Some(unreadable(path, &path.display().to_string(), why))
}

/// The place that an error of the walk is about.
fn place_of(error: &ignore::Error) -> Option<&Path> {
    match error {
        ignore::Error::WithPath { path, .. } => Some(path),
        ignore::Error::WithDepth { err, .. } | ignore::Error::WithLineNumber { err, .. } => place_of(err),
        _ => None,
    }
}
