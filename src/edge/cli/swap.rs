//! `miche swap`: one ingredient for others, with amounts that keep what the part consists of as near as can be.

use super::Outcome;
use super::amounts::{as_changed, recipe, write};
use super::deliver::Paged;
use super::output::Output;
use super::scaling::selection;
use super::stop::Ended;
use crate::figures::compare::versions;
use crate::figures::swap;
use crate::language::mend::apply;
use crate::out;
use crate::out::comparison::Changes;
use crate::solve::resolve::selections;
use crate::text::diagnostic::Mend;
use clap::Args;
use std::path::PathBuf;

/// What `swap` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe; `-` is standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// What goes out
    #[arg(value_name = "INGREDIENT")]
    old: String,
    /// The word `for`
    #[arg(value_name = "for", value_parser = the_word_for)]
    word: String,
    /// What comes in, with commas between: `"skim milk powder, water, butter"`
    #[arg(value_name = "INGREDIENTS")]
    new: String,
    /// Put the new lines into the file
    #[arg(long)]
    write: bool,
    /// Swap only under this option, and not under all; may be given several times
    #[arg(long, value_name = "OPTION")]
    choose: Vec<String>,
    #[command(flatten)]
    paged: Paged,
}

/// The word between what goes out and what comes in.
fn the_word_for(text: &str) -> Result<String, String> {
    let is_it = text.eq_ignore_ascii_case("for");
    is_it.then(|| "for".to_owned()).ok_or_else(|| "write `for` between what goes out and what comes in".to_owned())
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let Some((old, source)) = recipe(&arguments.file, arguments.write, "", output)? else {
        return Ok(Outcome::Errors);
    };
    let names: Vec<String> =
        arguments.new.split(',').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect();
    if names.is_empty() {
        return Err(
            "say what comes in: `miche swap FILE \"whole milk\" for \"skimmed milk powder, water, butter\"`".into()
        );
    }
    // Without an option all lines of that name are meant, under whatever option each holds: steps are mostly shared by them.
    let every = selections(&old.choices());
    let chosen = match arguments.choose.as_slice() {
        [] => every.clone(),
        asked => vec![selection(&old.choices(), asked, "--choose")?],
    };
    let ways: Vec<_> = chosen.iter().filter_map(|chosen| old.worked(chosen)).collect();
    let (Some(file), Some(text)) = (old.project.file(source), old.text()) else {
        return Err("this is no recipe".into());
    };
    let swap = swap::of(&ways, &file.tree, text, arguments.old.trim(), &names)?;
    let mend = Mend { title: String::new(), edits: swap.edits.clone(), certain: true };
    let changed = apply(text, &[&mend]);
    let new = as_changed(&arguments.file, &changed);
    let comparison = versions(&old, &new).ok_or("this is no recipe")?;
    if arguments.write {
        write(&arguments.file, (text, &old), (&changed, &new)).map_err(|why| {
            let is_shared =
                chosen.len() < every.len() && new.problems.iter().any(|problem| problem.check == "unknown-name");
            let hint = "steps that other options share take it too: leave --choose out to swap it under all of them, or write steps \
                        for this option alone";
            if is_shared { format!("{why}; {hint}") } else { why }
        })?;
    }
    let changes = Changes { file: arguments.file.display().to_string(), comparison, text_changed: true };
    let json = || out::swap::json(&swap).map_err(|error| error.to_string());
    arguments.paged.deliver((&out::swap::page(&swap, &changes), &arguments.file), json, output)
}
