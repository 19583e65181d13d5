//! `miche card`: batch cards.

use super::Outcome;
use super::output::Output;
use super::scaling::Scaling;
use super::sheet::Printing;
use crate::batch;
use crate::card::{Card, card};
use crate::check::{check_file, work_out};
use crate::diagnostic::{Diagnostic, Severity};
use crate::emit;
use crate::loader::{Loader, reason, write_whole};
use crate::project::Project;
use crate::report;
use crate::source::SourceId;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `card` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe; `-` is standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    scaling: Scaling,
    #[command(flatten)]
    printing: Printing,
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    format: Option<Format>,
    /// Write into this file, whole or not at all
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// How a card is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Plain text for a terminal
    Text,
    /// CommonMark with tables
    Markdown,
    /// One file for the browser and the printer
    Html,
    /// For programs
    Json,
}

impl Format {
    fn of_ending(ending: &str) -> Option<Format> {
        match ending.to_ascii_lowercase().as_str() {
            "md" | "markdown" => Some(Format::Markdown),
            "html" | "htm" => Some(Format::Html),
            "txt" | "text" => Some(Format::Text),
            "json" => Some(Format::Json),
            _ => None,
        }
    }
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let format = match wanted_format(arguments, output) {
        Ok(format) => format,
        Err(why) => {
            output.complain(&why);
            return Outcome::Trouble;
        }
    };
    let mut loader = Loader::new();
    let source = match loader.load(&arguments.file) {
        Ok(source) => source,
        Err(error) => {
            output.complain(&error.to_string());
            return Outcome::Trouble;
        }
    };
    let project = loader.into_project();
    let card = match make(&project, source, &arguments.scaling, output) {
        Ok(card) => card,
        Err(outcome) => return outcome,
    };
    let style = emit::text::Style { width: output.width(), colour: arguments.output.is_none() && output.colours_out() };
    let text = match format {
        Format::Text => Ok(emit::text::render(&card, style)),
        Format::Markdown => Ok(emit::markdown::render(&card)),
        Format::Html => match arguments.printing.sheet(&arguments.file) {
            Ok(sheet) => Ok(emit::html::render(std::slice::from_ref(&card), &sheet)),
            Err(why) => return complain(output, &why),
        },
        Format::Json => emit::json::render(&card),
    };
    match text {
        Ok(text) => deliver(arguments, &text, output),
        Err(error) => {
            output.complain(&error.to_string());
            Outcome::Trouble
        }
    }
}

fn wanted_format(arguments: &Arguments, output: &Output) -> Result<Format, String> {
    if let Some(format) = arguments.format {
        return Ok(format);
    }
    match &arguments.output {
        Some(path) => {
            let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or("");
            Format::of_ending(ending)
                .ok_or_else(|| format!("{}: the ending says no format; give --format", path.display()))
        }
        None if output.is_terminal() => Ok(Format::Text),
        None => Ok(Format::Markdown),
    }
}

fn deliver(arguments: &Arguments, text: &str, output: &mut Output) -> Outcome {
    let Some(path) = &arguments.output else {
        output.print(text);
        return Outcome::Fine;
    };
    match write_whole(path, text.as_bytes()) {
        Ok(()) => Outcome::Fine,
        Err(error) => {
            output.complain(&format!("{}: {}", path.display(), reason(&error)));
            Outcome::Trouble
        }
    }
}

/// Checks, scales and lays out one recipe. A card is only made of a recipe without errors.
fn make(project: &Project, source: SourceId, scaling: &Scaling, output: &mut Output) -> Result<Card, Outcome> {
    let target = scaling.target().map_err(|why| complain(output, &why))?;
    let selection = scaling.selection(project, source).map_err(|why| complain(output, &why))?;
    let problems = check_file(project, source);
    show_problems(project, &problems, output);
    if problems.iter().any(|problem| problem.severity == Severity::Error) {
        return Err(Outcome::Errors);
    }
    let Some((recipe, formula)) = work_out(project, source, &selection, &mut Vec::new()) else {
        return Err(complain(output, "this is no recipe; cards are made of files that begin with `recipe`"));
    };
    let (factor, limit) = batch::factor(&recipe, &formula, &target).map_err(|impossible| {
        let help = impossible.help.map_or(String::new(), |help| format!("; {help}"));
        complain(output, &format!("{}{help}", impossible.why))
    })?;
    let scaled = formula.times(factor);
    let made = scaled.and_then(|formula| card(&recipe, &formula, factor, limit, scaling.units()));
    made.map_err(|_| complain(output, "a batch of that size leaves the range of exact numbers"))
}

fn complain(output: &Output, why: &str) -> Outcome {
    output.complain(why);
    Outcome::Trouble
}

/// Warnings are shown beside a card, errors instead of it; both where they do not mix with the card.
fn show_problems(project: &Project, problems: &[Diagnostic], output: &Output) {
    for problem in problems.iter().filter(|problem| problem.severity != Severity::Advice) {
        let text = report::terminal::render(&project.sources, problem, output.colours_err(), output.width());
        output.print_error_text(&format!("{text}\n"));
    }
}
