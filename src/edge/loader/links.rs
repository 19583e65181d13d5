//! Links on the disk.

use crate::text::composed::composed;
use std::fs;
use std::path::{Path, PathBuf};

/// The path without links and detours, so that two names of one file are told; as it stands where there is no such file.
pub fn real_path(path: &Path) -> PathBuf {
    fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())
}

/// The file that a link leads to, also when there is none yet: a link stays a link.
pub(super) fn behind(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    match fs::read_link(path) {
        Ok(target) => path.parent().unwrap_or(Path::new("")).join(target),
        Err(_) => path.to_owned(),
    }
}

/// The folder in which a file lies.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// The path of the file or folder that is there under a name which reads the same, its accents typed in another way: a Mac's archive has `crème.miche`
/// with two signs for the `è`, a keyboard writes one. `None` of a name in ASCII, and where there is none.
pub(super) fn typed_otherwise(path: &Path) -> Option<PathBuf> {
    let name = path.file_name()?.to_str().filter(|name| !name.is_ascii())?;
    let folder = folder_of(path);
    let folder = if folder.exists() { folder.to_owned() } else { typed_otherwise(folder)? };
    let mut names: Vec<String> =
        fs::read_dir(&folder).ok()?.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    let there = names.into_iter().find(|there| composed(there) == composed(name))?;
    Some(folder.join(there))
}
