//! `miche setup shell`: lets a shell complete what is typed, made from the command line's own definition.

use crate::edge::cli::output::Output;
use crate::edge::cli::stop::Ended;
use crate::edge::cli::{Outcome, command};
use crate::edge::loader::{reason_to_write, write_whole};
use clap::Args;
use clap_complete::{Generator, Shell};
use std::path::PathBuf;

/// What `setup shell` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The shell; without it the one that $SHELL names
    #[arg(value_enum)]
    shell: Option<Shell>,
    /// The folder in which the shell looks for completions; without it they are printed
    #[arg(long, value_name = "DIR")]
    to: Option<PathBuf>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let shell = arguments.shell.or_else(Shell::from_env);
    let shell = shell.ok_or("$SHELL names no shell that is known: say which, `miche setup shell bash`")?;
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut command(), "miche", &mut script);
    let Some(folder) = &arguments.to else {
        output.print_bytes(&script);
        return Ok(Outcome::Fine);
    };
    let path = folder.join(shell.file_name("miche"));
    let written = std::fs::create_dir_all(folder).and_then(|()| write_whole(&path, &script));
    written.map_err(|error| format!("{}: {}", path.display(), reason_to_write(&path, &error)))?;
    output.tell(&format!(
        "{} is written; shells that look for completions in this folder read it from now on",
        path.display()
    ));
    Ok(Outcome::Fine)
}
