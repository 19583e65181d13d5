//! `miche new`: a first file, from a few figures or from notes.

mod ask;
mod first;

use super::Outcome;
use super::batches::show;
use super::output::Output;
use super::stop::Ended;
use super::streams::is_stream;
use crate::check::check_file;
use crate::edge::loader::{Loader, read_text, reason_to_write, write_new};
use crate::model::notes::{self, Form};
use crate::text::diagnostic::Severity;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// What `new` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The recipe's name
    #[arg(value_name = "NAME")]
    name: Option<String>,
    /// Make these notes, or the Recipe data of a page (.html, .json), into a formula; `-` is standard input
    #[arg(long, value_name = "FILE", conflicts_with_all = ["pieces", "noun", "each", "flour", "flour_name", "water", "salt", "yeast", "add", "mixing"])]
    from: Option<PathBuf>,
    /// How many pieces it makes
    #[arg(long, value_name = "N")]
    pieces: Option<String>,
    /// What the pieces are called
    #[arg(long, value_name = "NOUN")]
    noun: Option<String>,
    /// What one piece of dough weighs, for example `90 g`
    #[arg(long, value_name = "MASS")]
    each: Option<String>,
    /// How much flour, for example `1 kg`
    #[arg(long, value_name = "MASS")]
    flour: Option<String>,
    /// Which flour
    #[arg(long, value_name = "NAME")]
    flour_name: Option<String>,
    /// Water, in percent of the flour
    #[arg(long, value_name = "PERCENT")]
    water: Option<String>,
    /// Salt, in percent of the flour
    #[arg(long, value_name = "PERCENT")]
    salt: Option<String>,
    /// Instant yeast, in percent of the flour
    #[arg(long, value_name = "PERCENT")]
    yeast: Option<String>,
    /// Something else, for example `butter=10`, in percent of the flour; may be given several times
    #[arg(long, value_name = "NAME=PERCENT")]
    add: Vec<String>,
    /// How the dough is mixed
    #[arg(long, value_enum)]
    mixing: Option<Mixing>,
    /// Ask nothing: what is not given is as usual
    #[arg(long)]
    yes: bool,
    /// The file to write; without it one named after the recipe; `-` is standard output
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// How a dough is mixed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Mixing {
    /// By hand
    Hand,
    /// In a mixer
    Machine,
    /// Either, as a choice
    Both,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    match &arguments.from {
        Some(notes) => from_notes(notes, arguments, output),
        None => from_figures(arguments, output),
    }
}

fn from_figures(arguments: &Arguments, output: &mut Output) -> Ended {
    let mut given = first::Given::of(arguments);
    if !arguments.yes && ask::can_ask() {
        // Before anybody has answered everything for nothing.
        let free = |name: &str| match target(arguments, name) {
            Some(path) if path.symlink_metadata().is_ok() => {
                Err(format!("{}: there is a file of that name already", path.display()))
            }
            _ => Ok(()),
        };
        let known = given.name.as_deref().or(arguments.output.as_ref().map(|_| ""));
        known.map_or(Ok(()), &free)?;
        ask::fill(&mut given, &free, output)?;
    }
    let first = given.first()?;
    let path = target(arguments, &first.name);
    let mut loader = Loader::new();
    let place = path.clone().unwrap_or_else(|| PathBuf::from("standard output"));
    let source = loader.take_text(&place.display().to_string(), first.text.clone(), &place);
    let project = loader.into_project();
    let problems = check_file(&project, source);
    show(&project, &problems, output);
    if problems.iter().any(|problem| problem.severity == Severity::Error) {
        output.complain("these figures do not fit each other, so nothing was written");
        return Ok(Outcome::Errors);
    }
    let written = write(path.as_deref(), &first.text, output)?;
    let missing = given.missing();
    if !arguments.yes && !missing.is_empty() {
        output.tell(&format!("As usual, since they were not given: {}.", missing.join(", ")));
    }
    Ok(written)
}

fn from_notes(notes: &Path, arguments: &Arguments, output: &mut Output) -> Ended {
    let text = read_text(notes)?;
    if text.trim_matches(|c: char| c.is_whitespace() || c == '\u{FEFF}').is_empty() {
        return Err(format!("{}: there is nothing in it, so no formula is made", notes.display()).into());
    }
    let stem = notes.file_stem().and_then(|stem| stem.to_str()).filter(|stem| *stem != "-").unwrap_or("From notes");
    let form = Form::of(&text, notes.extension().and_then(|ending| ending.to_str()));
    let draft = notes::read(&text, form, arguments.name.as_deref(), stem)
        .map_err(|why| format!("{}: {why}", notes.display()))?;
    let path = target(arguments, &draft.name);
    let written = write(path.as_deref(), &draft.text, output)?;
    let shown = path.as_ref().map_or_else(|| "standard output".to_owned(), |path| path.display().to_string());
    for (line, why) in &draft.review {
        output.tell(&format!("{shown}:{line}: look {why}"));
    }
    let count = draft.review.len();
    let lines = if count == 1 { "1 line" } else { &format!("{count} lines") };
    output.tell(&format!("{lines} to look at, each marked `# look`. `miche check` says what else is missing."));
    Ok(written)
}

/// Where the file goes; `None` is standard output.
fn target(arguments: &Arguments, name: &str) -> Option<PathBuf> {
    match &arguments.output {
        Some(path) if is_stream(path) => None,
        Some(path) => Some(path.clone()),
        None => Some(PathBuf::from(format!("{}.miche", file_stem(name)))),
    }
}

fn write(path: Option<&Path>, text: &str, output: &mut Output) -> Ended {
    let Some(path) = path else {
        output.print(text);
        return Ok(Outcome::Fine);
    };
    let shown = path.display();
    write_new(path, text.as_bytes()).map_err(|error| {
        format!("{shown}: {}; nothing was written, name another with -o", reason_to_write(path, &error))
    })?;
    output.tell(&format!(
        "{shown} is written: `miche card {shown}` makes its card, `miche preview {shown}` shows it while you change it"
    ));
    Ok(Outcome::Fine)
}

/// A name as a file's: letters and figures, the rest hyphens.
fn file_stem(name: &str) -> String {
    let mut stem = String::new();
    for character in name.to_lowercase().chars() {
        if stem.chars().count() >= 60 {
            break;
        }
        if character.is_alphanumeric() {
            stem.push(character);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
    }
    let stem = stem.trim_end_matches('-');
    if stem.is_empty() { "recipe".to_owned() } else { stem.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::file_stem;

    #[test]
    fn a_name_becomes_a_file() {
        assert_eq!(file_stem("Jetty buns, Årvold's"), "jetty-buns-årvold-s");
        assert_eq!(file_stem("../../etc"), "etc");
        assert_eq!(file_stem("???"), "recipe");
    }
}
