//! `miche explain`: what a check means, why, and how to mend it.

use super::Outcome;
use super::output::Output;
use crate::check::{self, explain};
use crate::parse::nearest;
use clap::Args;

/// What `explain` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The name of a check; without it all are listed
    #[arg(value_name = "CHECK")]
    check: Option<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let Some(name) = &arguments.check else {
        output.print(&explain::list());
        return Outcome::Fine;
    };
    if let Some(check) = check::find(name) {
        output.print(&explain::explain(check));
        return Outcome::Fine;
    }
    let near = nearest(name, check::ALL.iter().map(|check| check.name));
    let hint =
        near.map_or_else(|| "`miche explain` lists all of them".to_owned(), |near| format!("did you mean `{near}`?"));
    output.complain(&format!("there is no check `{name}`; {hint}"));
    Outcome::Trouble
}
