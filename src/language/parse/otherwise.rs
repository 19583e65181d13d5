//! What people write otherwise, and how it is said here: a baker's first lines come from a notebook.
//!
//! Nothing here reads a file: a line that the grammar does not know is looked at once more for what was meant, so that the
//! problem says what to write in its place.

pub(super) mod amount;
pub(super) mod heading;
pub(super) mod ingredient;
pub(super) mod step;

use crate::measure::loose::{ABOUT, ABOUT_SIGNS};

/// What to write in the place of something.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct SaidHere {
    /// What a problem says of it.
    pub help: String,
    /// What stands in its place, where that is clear.
    pub instead: Option<String>,
}

impl SaidHere {
    /// Where only the writer knows what is meant.
    fn help(help: impl Into<String>) -> SaidHere {
        SaidHere { help: help.into(), instead: None }
    }

    /// Where one thing can be written in its place.
    fn write(instead: impl Into<String>) -> SaidHere {
        let instead = instead.into();
        SaidHere { help: format!("write `{instead}`"), instead: Some(instead) }
    }
}

/// What follows a word that only says that a figure is not exact.
fn behind_about(text: &str) -> Option<&str> {
    let rest = match text.strip_prefix(ABOUT_SIGNS) {
        Some(rest) => rest.trim_start(),
        None => {
            let (word, rest) = text.split_once(' ')?;
            let word = word.to_lowercase();
            (ABOUT.contains(&word.as_str()) || word == "some").then(|| rest.trim_start())?
        }
    };
    rest.starts_with(|c: char| c.is_numeric()).then_some(rest)
}
