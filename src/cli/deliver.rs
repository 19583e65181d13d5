//! Where a card or a list goes: to standard output, or into a file, whole or not at all.

use super::Outcome;
use super::batches::complain;
use super::output::Output;
use crate::loader::{reason, write_whole};
use clap::Args;
use std::path::PathBuf;

/// Where the result goes.
#[derive(Debug, Args)]
pub(super) struct Delivery {
    /// Write into this file, whole or not at all
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

impl Delivery {
    /// Whether the result goes to standard output.
    pub(super) fn is_screen(&self) -> bool {
        self.output.is_none()
    }

    /// Writes or prints the result.
    pub(super) fn deliver(&self, text: &str, output: &mut Output) -> Outcome {
        let Some(path) = &self.output else {
            output.print(text);
            return Outcome::Fine;
        };
        match write_whole(path, text.as_bytes()) {
            Ok(()) => Outcome::Fine,
            Err(error) => complain(output, &format!("{}: {}", path.display(), reason(&error))),
        }
    }
}

/// The format that was asked for, that the file's ending says, or that is usual.
///
/// # Errors
/// A sentence when the ending says no format.
pub(super) fn wanted<F>(
    asked: Option<F>,
    delivery: &Delivery,
    of_ending: impl Fn(&str) -> Option<F>,
    usual: F,
) -> Result<F, String> {
    match (asked, &delivery.output) {
        (Some(format), _) => Ok(format),
        (None, None) => Ok(usual),
        (None, Some(path)) => {
            let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or("").to_ascii_lowercase();
            if ending == "pdf" {
                return Err(format!(
                    "{}: no PDF is made directly; write `{}` and print that from a browser, each sheet is set for it",
                    path.display(),
                    path.with_extension("html").display()
                ));
            }
            of_ending(&ending).ok_or_else(|| format!("{}: the ending says no format; give --format", path.display()))
        }
    }
}
