//! `miche setup man`: a manual page for each command, made from the command line's own definition.

use crate::edge::cli::output::Output;
use crate::edge::cli::stop::Ended;
use crate::edge::cli::{Outcome, command};
use crate::edge::loader::{reason_to_write, write_whole};
use clap::{Args, Command};
use clap_mangen::Man;
use std::path::{Path, PathBuf};

/// What `setup man` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The folder for the pages, such as ~/.local/share/man/man1
    #[arg(long, value_name = "DIR")]
    to: PathBuf,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let mut all = command().disable_help_subcommand(true);
    all.build();
    let pages = write(&all, &arguments.to)?;
    output.tell(&format!("{pages} pages are written to {}", arguments.to.display()));
    Ok(Outcome::Fine)
}

/// Writes the page of a command and of all below it, and says how many.
fn write(command: &Command, folder: &Path) -> Result<usize, String> {
    let page = Man::new(command.clone()).manual("miche");
    let path = folder.join(page.get_filename());
    let trouble = |error: std::io::Error| format!("{}: {}", path.display(), reason_to_write(&path, &error));
    let mut text = Vec::new();
    page.render(&mut text).map_err(trouble)?;
    std::fs::create_dir_all(folder).map_err(trouble)?;
    write_whole(&path, &text).map_err(trouble)?;
    command.get_subcommands().try_fold(1, |pages, inner| Ok(pages + write(inner, folder)?))
}
