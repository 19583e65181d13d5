//! Links on the disk.

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
