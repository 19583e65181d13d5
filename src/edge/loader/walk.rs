//! Which files a folder holds.

use super::{Unreadable, root_of, unreadable};
use std::collections::HashSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The `.miche` files that a path names: the file itself, or all below a folder that git does not ignore, sorted.
///
/// A link in the folder is a file of it only if it leads to a file of the same project (see [`root_of`]): whoever checks or
/// tidies a folder means what lies in it. Of several names of one file the first counts.
///
/// # Errors
/// When there is nothing at the path, or nothing in the folder.
pub fn find_files(path: &Path) -> Result<Vec<PathBuf>, Unreadable> {
    if path == Path::new("-") {
        return Ok(vec![path.to_owned()]);
    }
    let shown = path.display().to_string();
    let metadata = fs::metadata(path).map_err(|error| unreadable(path, &shown, &error))?;
    if !metadata.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let root = root_of(&path.join("of this folder"));
    let mut files = Vec::new();
    let mut links = Vec::new();
    for entry in ignore::WalkBuilder::new(path).build().filter_map(Result::ok) {
        let Some(kind) = entry.file_type() else { continue };
        if entry.path().extension().is_none_or(|ending| ending != "miche") {
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
    if files.is_empty() {
        return Err(Unreadable { path: shown, why: "there are no .miche files in this folder".to_owned() });
    }
    Ok(files)
}
