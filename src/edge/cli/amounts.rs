//! What the commands share that work out new amounts: which problems hinder that, and a file as it would be with another text.

use crate::edge::loader::Loader;
use crate::figures::compare::FileVersion;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::fs;
use std::path::Path;

/// Whether a problem keeps amounts from being worked out: any error but those that other amounts mend.
pub(super) fn hinders(problem: &Diagnostic) -> bool {
    let mended = ["aim-missed", "yield-does-not-add-up", "part-short"].contains(&problem.check);
    problem.severity == Severity::Error && !mended
}

/// A file with another text, and what it uses.
pub(super) fn as_changed(file: &Path, text: &str) -> FileVersion {
    let place = fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
    let mut loader = Loader::new();
    let id = loader.take_text(&file.display().to_string(), text.to_owned(), &place);
    FileVersion::of(loader.into_project(), id)
}
