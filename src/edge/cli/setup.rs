//! `miche setup git`: makes git show and merge formulas as formulas, in one repository.

use super::Outcome;
use super::checkout::{git, top_of};
use super::output::Output;
use crate::edge::loader::{read_text, reason, write_whole};
use clap::{Args, ValueEnum};
use std::path::Path;

/// The line that says what is done with which files. It stands among the repository's own settings and not in a
/// `.gitattributes` that all who clone it would get: they may not have this program.
const ATTRIBUTES: &str = "*.miche diff=miche merge=miche";

/// Names and values of the settings.
const SETTINGS: &[(&str, &str)] = &[
    ("diff.miche.command", "miche diff --git"),
    ("diff.miche.textconv", "miche diff --textconv"),
    ("merge.miche.name", "formulas, line by line"),
    ("merge.miche.driver", "miche merge --path %P %O %A %B"),
];

/// What `setup` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// What to set up
    #[arg(value_enum)]
    what: What,
    /// Take the settings out again
    #[arg(long)]
    undo: bool,
    /// Show what would be written and write nothing
    #[arg(long)]
    dry_run: bool,
}

/// What can be set up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum What {
    /// The repository that this folder lies in
    Git,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let What::Git = arguments.what;
    match set_up(arguments, output) {
        Ok(()) => Outcome::Fine,
        Err(why) => {
            output.complain(&why);
            Outcome::Trouble
        }
    }
}

fn set_up(arguments: &Arguments, output: &mut Output) -> Result<(), String> {
    let top = top_of(Path::new("."))?;
    let attributes = git(&top, &["rev-parse", "--git-path", "info/attributes"])?;
    let attributes = top.join(attributes.trim_end_matches('\n'));
    let verb = if arguments.undo { "takes out of" } else { "writes into" };
    output.print(&format!(
        "{verb} {}:\n    {ATTRIBUTES}\n",
        crate::out::report::clean(&attributes.display().to_string())
    ));
    output.print(&format!("{verb} the settings of this repository (git config --local):\n"));
    for (name, value) in settings() {
        output.print(&format!("    {name} = {value}\n"));
    }
    if arguments.dry_run {
        output.print("Nothing was changed.\n");
        return Ok(());
    }
    write_attributes(&attributes, arguments.undo)?;
    for (name, value) in settings() {
        if !arguments.undo {
            git(&top, &["config", "--local", "--replace-all", name, value])?;
        } else if git(&top, &["config", "--local", "--get-all", name]).is_ok() {
            git(&top, &["config", "--local", "--unset-all", name])?;
        }
    }
    Ok(())
}

fn settings() -> impl Iterator<Item = (&'static str, &'static str)> {
    SETTINGS.iter().copied()
}

/// Puts our line into the attributes or takes it out; all other lines stay.
fn write_attributes(path: &Path, undo: bool) -> Result<(), String> {
    let before = if path.exists() { read_text(path).map_err(|error| error.to_string())? } else { String::new() };
    let mut lines: Vec<&str> = before.lines().filter(|line| line.trim() != ATTRIBUTES).collect();
    if !undo {
        lines.push(ATTRIBUTES);
    }
    let mut text = lines.join("\n");
    if !text.is_empty() {
        text.push('\n');
    }
    if text == before {
        return Ok(());
    }
    let trouble = |error: std::io::Error| format!("{}: {}", path.display(), reason(&error));
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(trouble)?;
    }
    write_whole(path, text.as_bytes()).map_err(trouble)
}
