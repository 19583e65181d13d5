//! What the commands share that work out new amounts: the recipe as it is read, the file as it would be with another text, and
//! how that text is written.

use super::batches::show;
use super::output::Output;
use crate::edge::loader::{Loader, real_path, reason_to_write, write_over};
use crate::figures::compare::{FileVersion, stands};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use std::path::Path;

/// The recipe of a file; `None` when its problems hinder that amounts are worked out, which are shown.
///
/// # Errors
/// A sentence when the file cannot be read, is no recipe (`hint` stands behind that), or is to be written and is no file.
pub(super) fn recipe(
    file: &Path,
    is_written: bool,
    hint: &str,
    output: &Output,
) -> Result<Option<(FileVersion, SourceId)>, String> {
    if is_written && file == Path::new("-") {
        return Err("--write changes a file; standard input has no file to change".to_owned());
    }
    let mut loader = Loader::new();
    let source = loader.load(file).map_err(|error| error.to_string())?;
    let version = FileVersion::of(loader.into_project(), source);
    if !version.is_recipe() {
        return Err(format!("{}: this is no recipe{hint}", file.display()));
    }
    let in_the_way: Vec<&Diagnostic> = version.problems.iter().filter(|problem| hinders(problem)).collect();
    if in_the_way.is_empty() {
        return Ok(Some((version, source)));
    }
    show(&version.project, in_the_way, output);
    Ok(None)
}

/// Writes the new text over the one that was read; `old` and `new` are what is found in them.
///
/// # Errors
/// A sentence that names the file, or the error that would be in it and was not there before: then it stays as it is.
pub(super) fn write(
    file: &Path,
    (read, old): (&str, &FileVersion),
    (text, new): (&str, &FileVersion),
) -> Result<(), String> {
    let is_new = |problem: &&Diagnostic| {
        hinders(problem) || problem.severity == Severity::Error && !stands(problem, &old.problems)
    };
    if let Some(problem) = new.problems.iter().find(is_new) {
        return Err(format!(
            "{} stays as it is, since there would be an error in it then: {}; without --write the change is shown, to be made \
             by hand",
            file.display(),
            problem.said()
        ));
    }
    write_over(file, read, text).map_err(|error| format!("{}: {}", file.display(), reason_to_write(file, &error)))
}

/// Whether a problem keeps amounts from being worked out: any error but those that other amounts mend.
fn hinders(problem: &Diagnostic) -> bool {
    let mended = ["aim-missed", "yield-does-not-add-up", "part-short"].contains(&problem.check);
    problem.severity == Severity::Error && !mended
}

/// A file with another text, and what it uses.
pub(super) fn as_changed(file: &Path, text: &str) -> FileVersion {
    let place = real_path(file);
    let mut loader = Loader::new();
    let id = loader.take_text(&file.display().to_string(), text.to_owned(), &place);
    FileVersion::of(loader.into_project(), id)
}
