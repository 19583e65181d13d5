//! `miche editor`: the language server.

use super::Outcome;
use super::output::Output;
use super::stop::Ended;
use crate::edge::editor::serve;
use clap::Args;

/// What `editor` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Accepted and without effect: standard input and output is the only way
    #[arg(long)]
    stdio: bool,
}

pub(super) fn run(arguments: &Arguments, _: &mut Output) -> Ended {
    let Arguments { stdio: _ } = arguments;
    let ended = serve().map_err(|why| format!("the conversation with the editor broke off: {why}"))?;
    // The protocol: an end without `shutdown` before it is a failure.
    Ok(if ended { Outcome::Fine } else { Outcome::Errors })
}
