//! `miche editor`: the language server.

use super::Outcome;
use super::output::Output;
use crate::edge::editor::serve;
use clap::Args;

/// What `editor` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Accepted and without effect: standard input and output is the only way
    #[arg(long)]
    stdio: bool,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let Arguments { stdio: _ } = arguments;
    match serve() {
        Ok(true) => Outcome::Fine,
        // The protocol: an end without `shutdown` before it is a failure.
        Ok(false) => Outcome::Errors,
        Err(why) => {
            output
                .complain(&format!("the conversation with the editor broke off: {}", crate::out::report::clean(&why)));
            Outcome::Trouble
        }
    }
}
