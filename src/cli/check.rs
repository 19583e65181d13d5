//! `miche check`: every problem in every file, at once.

use super::Outcome;
use super::output::Output;
use crate::check::check_file;
use crate::diagnostic::{Diagnostic, Severity};
use crate::loader::{Loader, find_files};
use crate::report;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `check` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Files, or folders that hold `.miche` files; `-` is standard input
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// Treat warnings as errors
    #[arg(long)]
    strict: bool,
    /// How to print the problems
    #[arg(long, value_enum, default_value_t = Format::Human)]
    format: Format,
}

/// How problems are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// With the lines they are about
    Human,
    /// For programs
    Json,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let mut unreadable = false;
    let mut loader = Loader::new();
    let mut files = Vec::new();
    for path in &arguments.paths {
        match find_files(path) {
            Ok(found) => files.extend(found),
            Err(error) => {
                output.complain(&error.to_string());
                unreadable = true;
            }
        }
    }
    let mut sources = Vec::new();
    for path in &files {
        match loader.load(path) {
            Ok(source) if !sources.contains(&source) => sources.push(source),
            Ok(_) => {}
            Err(error) => {
                output.complain(&error.to_string());
                unreadable = true;
            }
        }
    }
    let project = loader.into_project();
    let mut all: Vec<Diagnostic> = Vec::new();
    for source in &sources {
        all.extend(check_file(&project, *source));
    }
    match arguments.format {
        Format::Human => {
            let (colour, width) = (output.colours_out(), output.width());
            for diagnostic in &all {
                output.print(&report::terminal::render(&project.sources, diagnostic, colour, width));
                output.print("\n");
            }
            output.print(&summary(&all, sources.len()));
        }
        Format::Json => match report::json::render(&project.sources, &all) {
            Ok(text) => output.print(&format!("{text}\n")),
            Err(error) => {
                output.complain(&error.to_string());
                unreadable = true;
            }
        },
    }
    let worst = if arguments.strict { Severity::Warning } else { Severity::Error };
    if unreadable {
        Outcome::Trouble
    } else if all.iter().any(|diagnostic| diagnostic.severity <= worst) {
        Outcome::Errors
    } else {
        Outcome::Fine
    }
}

fn summary(all: &[Diagnostic], files: usize) -> String {
    let count = |severity: Severity| all.iter().filter(|diagnostic| diagnostic.severity == severity).count();
    let several = |count: usize, one: &str, many: &str| format!("{count} {}", if count == 1 { one } else { many });
    let mut words = Vec::new();
    let counts = [
        (count(Severity::Error), "error", "errors"),
        (count(Severity::Warning), "warning", "warnings"),
        (count(Severity::Advice), "piece of advice", "pieces of advice"),
    ];
    for (count, one, many) in counts {
        if count > 0 {
            words.push(several(count, one, many));
        }
    }
    let found = if words.is_empty() { "nothing to mend".to_owned() } else { crate::show::list(&words) };
    format!("{}: {found}\n", several(files, "file", "files"))
}
