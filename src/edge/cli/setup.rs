//! `miche setup`: what a machine or a repository is told once, one file a thing.

mod git;
mod man;
mod shell;

use super::output::Output;
use super::stop::Ended;
use clap::{Args, Subcommand};

/// What `setup` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(subcommand)]
    what: What,
}

/// What can be set up.
#[derive(Debug, Subcommand)]
enum What {
    /// Make git show and merge formulas as formulas, in this repository
    Git(git::Arguments),
    /// Let a shell complete commands, options and files
    Shell(shell::Arguments),
    /// Write the manual pages
    Man(man::Arguments),
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    match &arguments.what {
        What::Git(arguments) => git::run(arguments, output),
        What::Shell(arguments) => shell::run(arguments, output),
        What::Man(arguments) => man::run(arguments, output),
    }
}
