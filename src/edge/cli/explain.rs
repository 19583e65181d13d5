//! `miche explain`: what a check means, why, and how to mend it.

use super::Outcome;
use super::output::Output;
use super::stop::Ended;
use crate::check::{self, explain};
use crate::figures::sums::topic;
use crate::language::parse::nearest;
use crate::model::larder::brought_entries;
use crate::out::block::spaced;
use crate::out::larder;
use crate::out::schema;
use crate::out::text;
use clap::Args;

/// The table of what the program knows of ingredients.
const LARDER: &str = "larder";

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

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    if let Some(command) = &arguments.json_schema {
        return print_schema(command, output);
    }
    let Some(name) = &arguments.check else {
        output.print_words(&explain::list());
        output.print_words(&topic::list());
        output.print("\nThe larder that the program brings, by allergen: `miche explain larder`\n");
        return Ok(Outcome::Fine);
    };
    if let Some(check) = check::find(name) {
        output.print_words(&explain::explain(check));
        return Ok(Outcome::Fine);
    }
    // `water-temperature` is a check; what is reckoned with it is the topic `water`.
    if let Some(topic) = topic::find(name) {
        output.print_words(&topic::explain(topic));
        return Ok(Outcome::Fine);
    }
    if name == LARDER {
        let entries: Vec<_> = brought_entries().collect();
        output.print(&text::render(&spaced(larder::page(&entries)), output.style()));
        return Ok(Outcome::Fine);
    }
    let topics = topic::ALL.iter().map(|topic| topic.name);
    let near = nearest(name, check::ALL.iter().map(|check| check.name).chain(topics).chain([LARDER]));
    let hint =
        near.map_or_else(|| "`miche explain` lists all of them".to_owned(), |near| format!("did you mean `{near}`?"));
    Err(format!("there is no check and no sum `{name}`; {hint}").into())
}

fn print_schema(command: &str, output: &mut Output) -> Ended {
    let document = schema::find(command).ok_or_else(|| {
        let commands: Vec<&str> = schema::ALL.iter().map(|document| document.command).collect();
        format!("`{command}` writes no JSON; those that do: {}", commands.join(", "))
    })?;
    output.print(&schema::render(document)?);
    Ok(Outcome::Fine)
}
