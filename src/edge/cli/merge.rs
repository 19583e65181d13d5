//! `miche merge`: two changed versions of a file merged line by line; what git calls as a merge driver.

use super::Outcome;
use super::output::Output;
use crate::edge::loader::{read_text, reason, write_whole};
use crate::language::merge::merge;
use clap::Args;
use std::path::{Path, PathBuf};

/// What `merge` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The version that both came out of
    base: PathBuf,
    /// Our version; the result is written into this file
    ours: PathBuf,
    /// Their version
    theirs: PathBuf,
    /// What to call the file when there is a conflict
    #[arg(long, value_name = "PATH")]
    path: Option<PathBuf>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    match merged(arguments) {
        Ok(conflicts) => {
            let shown = arguments.path.as_ref().unwrap_or(&arguments.ours).display();
            for conflict in &conflicts {
                output.complain(&format!("{shown}: {conflict}"));
            }
            if conflicts.is_empty() { Outcome::Fine } else { Outcome::Errors }
        }
        Err(why) => {
            output.complain(&why);
            Outcome::Trouble
        }
    }
}

/// Writes the merged file and gives the conflicts in it.
fn merged(arguments: &Arguments) -> Result<Vec<String>, String> {
    let read = |path: &Path| read_text(path).map_err(|error| error.to_string());
    let merged = merge(&read(&arguments.base)?, &read(&arguments.ours)?, &read(&arguments.theirs)?);
    write_whole(&arguments.ours, merged.text.as_bytes())
        .map_err(|error| format!("{}: {}", arguments.ours.display(), reason(&error)))?;
    Ok(merged.conflicts)
}
