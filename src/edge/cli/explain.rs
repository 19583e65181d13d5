//! `miche explain`: what a check means, why, and how to mend it.

use super::Outcome;
use super::output::Output;
use crate::check::{self, explain};
use crate::figures::sums::topic;
use crate::language::parse::nearest;
use crate::out::schema;
use clap::Args;

/// What `explain` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The name of a check; without it all are listed
    #[arg(value_name = "CHECK")]
    check: Option<String>,
    /// Print the JSON Schema of what a command writes with `--format json`
    #[arg(long, value_name = "COMMAND", conflicts_with = "check")]
    json_schema: Option<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    if let Some(command) = &arguments.json_schema {
        return print_schema(command, output);
    }
    let Some(name) = &arguments.check else {
        output.print(&explain::list());
        output.print(&topic::list());
        return Outcome::Fine;
    };
    if let Some(check) = check::find(name) {
        output.print(&explain::explain(check));
        return Outcome::Fine;
    }
    // `water-temperature` is a check; what is reckoned with it is the topic `water`.
    if let Some(topic) = topic::find(name) {
        output.print(&topic::explain(topic));
        return Outcome::Fine;
    }
    let topics = topic::ALL.iter().map(|topic| topic.name);
    let near = nearest(name, check::ALL.iter().map(|check| check.name).chain(topics));
    let hint =
        near.map_or_else(|| "`miche explain` lists all of them".to_owned(), |near| format!("did you mean `{near}`?"));
    output.complain(&format!("there is no check and no sum `{name}`; {hint}"));
    Outcome::Trouble
}

fn print_schema(command: &str, output: &mut Output) -> Outcome {
    match schema::find(command).map(schema::render) {
        Some(Ok(text)) => {
            output.print(&text);
            Outcome::Fine
        }
        Some(Err(error)) => {
            output.complain(&error.to_string());
            Outcome::Trouble
        }
        None => {
            let commands: Vec<&str> = schema::ALL.iter().map(|document| document.command).collect();
            output.complain(&format!("`{command}` writes no JSON; those that do: {}", commands.join(", ")));
            Outcome::Trouble
        }
    }
}
