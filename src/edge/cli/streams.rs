//! What `-` is in the place of a file, the same for every command: standard input, which is read once, and behind `-o` standard output.

use super::called::Called;
use std::path::Path;

/// Commands that read no standard input, and why.
const NO_INPUT: &[(&str, &str)] = &[
    ("bakes new", "a bake is written into a file; give a recipe or the log of its bakes"),
    ("book", "a book names its recipes by their files; give the book's file, or the folder that they lie in"),
    ("history", "standard input has no history; give a file that lies in a git repository"),
    ("merge", "a merge is written into the file of our version; give three files"),
    ("preview", "a page follows files as they are saved; give a recipe, a day or a folder"),
];

/// Commands that write no standard output, and what they write.
const NO_OUTPUT: &[(&str, &str)] = &[
    ("book", "a book is made into a folder for a site, or into a file that ends in .pdf or .epub"),
    ("setup man", "the pages are written into a folder"),
    ("setup shell", "the completions are written into a folder; without --to they are printed"),
];

/// Arguments that name what is written.
const WRITTEN: &[&str] = &["output", "to"];

/// Whether a path stands for standard input or output.
pub(super) fn is_stream(path: &Path) -> bool {
    path == Path::new("-")
}

/// Why a `-` stands where none can be.
///
/// # Errors
/// In a sentence: the command has no such input or output, or it stands in two places.
pub(super) fn check(called: &Called<'_>) -> Result<(), String> {
    // Git names its files itself, and what is called `-` there is a file. So it is where a merge is only told a file's name.
    if called.has("git") || called.has("textconv") {
        return Ok(());
    }
    let streams = || called.paths().filter(|(_, path)| is_stream(path)).map(|(id, _)| id);
    let why =
        |list: &[(&str, &str)]| list.iter().find(|(name, _)| *name == called.name).map(|(_, why)| (*why).to_owned());
    let inputs =
        streams().filter(|id| !WRITTEN.contains(id) && (called.name.as_str(), *id) != ("merge", "path")).count();
    if let Some(why) = why(NO_INPUT).filter(|_| inputs > 0) {
        return Err(why);
    }
    if inputs > 1 {
        return Err("`-` is standard input, which can be read only once; name the other as a file".to_owned());
    }
    match why(NO_OUTPUT).filter(|_| streams().any(|id| WRITTEN.contains(&id))) {
        Some(why) => Err(format!("`-` is standard output, and {why}")),
        None => Ok(()),
    }
}
