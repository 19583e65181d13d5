//! Links on the disk.

use std::fs;
use std::path::{Path, PathBuf};

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
