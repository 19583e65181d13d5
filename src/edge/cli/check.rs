//! `miche check`: every problem in every file, at once.

mod kept;

use super::Outcome;
use super::busy::Busy;
use super::output::Output;
use super::stop::Ended;
use crate::check::{self, Checking, Found, told_once};
use crate::edge::loader::{Kept, Loader, look_through, nothing_in};
use crate::edge::past::checked::told;
use crate::edge::past::recalled::Past;
use crate::language::parse::nearest;
use crate::language::syntax::FileKind;
use crate::model::project::{File, Project};
use crate::out::report;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use clap::{Args, ValueEnum};
use std::collections::HashSet;
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
    /// Say nothing of this check; may be given several times
    #[arg(long, value_name = "CHECK")]
    allow: Vec<String>,
    /// Make all mends that are certain, and check again
    #[arg(long)]
    fix: bool,
    /// With --fix: show what would be changed, and change nothing
    #[arg(long, requires = "fix")]
    dry_run: bool,
    /// How to print the problems
    #[arg(long, value_enum, default_value_t = Format::Human)]
    format: Format,
    /// Show every problem with its lines, however many there are
    #[arg(long)]
    all: bool,
    /// Check every file anew, and read and write nothing in the cache folder
    #[arg(long)]
    no_cache: bool,
}

/// So many problems are shown with their lines; nobody reads more at once, and a folder of another program's files holds a
/// hundred thousand.
const MOST_SHOWN: usize = 200;

/// How problems are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// With the lines they are about
    Human,
    /// One a line: `file:line:column: error[check]: message`
    Short,
    /// For programs
    Json,
    /// For code-scanning services: SARIF 2.1.0
    Sarif,
    /// For workflows: annotations beside the lines
    Github,
}

/// What is checked and what came of it.
struct Checked {
    project: Project,
    files: usize,
    problems: Vec<Diagnostic>,
    /// Why files could not be read.
    unread: Vec<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    if let Some(wrong) = arguments.allow.iter().find(|name| check::find(name).is_none()) {
        let near = nearest(wrong, check::ALL.iter().map(|check| check.name));
        let hint = near.map_or("`miche explain` lists them".to_owned(), |near| format!("did you mean `{near}`?"));
        return Err(format!("--allow: there is no check `{wrong}`; {hint}").into());
    }
    let (files, mut trouble) = files_of(&arguments.paths, output);
    let mut checked = check_paths(&files, arguments);
    for why in &checked.unread {
        output.complain(why);
    }
    trouble |= !checked.unread.is_empty();
    if arguments.fix {
        match super::fix::run(&files, &checked.project, &checked.problems, arguments.dry_run, output) {
            // What is left is told of the files as they are now.
            Ok(made) if made > 0 && !arguments.dry_run => checked = check_paths(&files, arguments),
            Ok(_) => {}
            Err(()) => trouble = true,
        }
    }
    let printed = arguments.dry_run || print(&checked, arguments, trouble, output);
    let worst = if arguments.strict { Severity::Warning } else { Severity::Error };
    Ok(if trouble || !printed {
        Outcome::Trouble
    } else if checked.problems.iter().any(|problem| problem.severity <= worst) {
        Outcome::Errors
    } else {
        Outcome::Fine
    })
}

/// The files that some paths hold, and whether one could not be looked into, which is told.
pub(super) fn files_of(paths: &[PathBuf], output: &Output) -> (Vec<PathBuf>, bool) {
    let (mut files, mut trouble) = (Vec::new(), false);
    for path in paths {
        let told = match look_through(path) {
            Ok(found) if found.files.is_empty() && found.closed.is_empty() => vec![nothing_in(path)],
            Ok(found) => {
                files.extend(found.files);
                found.closed
            }
            Err(error) => vec![error],
        };
        trouble |= !told.is_empty();
        for why in &told {
            output.complain(&why.to_string());
        }
    }
    (files, trouble)
}

fn check_paths(files: &[PathBuf], arguments: &Arguments) -> Checked {
    let _word = Busy::with(match files.len() {
        1 => "checking".to_owned(),
        files => format!("checking {files} files"),
    });
    check_beside_kept(kept_about(arguments), files, arguments)
}

/// So many files are read as trees and checked before the next ones, so that ten thousand do not lie in memory at once.
const AT_ONCE: usize = 512;

fn check_beside_kept(kept: Kept, files: &[PathBuf], arguments: &Arguments) -> Checked {
    let mut loader = Loader::new();
    let ahead = loader.read_ahead(files);
    let mut shelf = kept::Shelf::of(kept, &loader, ahead);
    let mut known = shelf.known();
    let sound: HashSet<SourceId> =
        known.iter().filter(|(_, found)| found.is_sound).map(|(source, _)| *source).collect();
    let mut checking = Checking::default();
    let (mut sources, mut seen, mut unread) = (Vec::new(), HashSet::new(), Vec::new());
    let mut new: Vec<(SourceId, Found)> = Vec::new();
    // To a log the formulas around have a say, and logs to a recipe that is named by itself.
    let is_named = !arguments.paths.iter().all(|path| path.is_dir());
    let mut has_log = false;
    for some in files.chunks(AT_ONCE) {
        let loaded = loader.load_but(some, |source| known.contains_key(&source));
        let project = loader.project();
        // Whether a file lies too deep hangs on which were followed before.
        let is_ring = |problem: &Diagnostic| problem.check == "use-ring";
        let has_ring = |file: &File| file.diagnostics.iter().any(is_ring);
        if !known.is_empty() && project.files().any(has_ring) {
            return check_beside_kept(Kept::default(), files, arguments);
        }
        let begin = sources.len();
        for loaded in loaded {
            match loaded {
                // A file may be named twice, by itself and by its folder.
                Ok(source) if seen.insert(source) => sources.push(source),
                Ok(_) => {}
                Err(error) => unread.push(error.to_string()),
            }
        }
        let here = sources.get(begin..).unwrap_or_default();
        let others: Vec<SourceId> = here.iter().copied().filter(|source| !known.contains_key(source)).collect();
        let is_log = |source: &SourceId| project.file(*source).is_some_and(|file| file.tree.kind == FileKind::Bakes);
        has_log |= here.iter().any(is_log);
        let found = checking.look(project, &others, &sound);
        let found: Vec<(SourceId, Found)> = others.iter().copied().zip(found).collect();
        shelf.keep(&loader, &found);
        new.extend(found);
        if !is_named {
            loader.let_go(&others);
        }
    }
    if has_log {
        drop(loader.load_but(files, |_| false));
        loader.take_back(&sources);
    }
    shelf.close();
    known.extend(new);
    let mut problems = told_once(sources.iter().filter_map(|source| known.remove(source)));
    let project = loader.into_project();
    told(&project, &sources, &arguments.paths, &mut Past::default(), &mut problems);
    problems.retain(|problem| !arguments.allow.iter().any(|name| name == problem.check));
    Checked { project, files: sources.len(), problems, unread }
}

/// What earlier runs have found in the same folders. A file that is named by itself is checked anew, and so is what is to be mended.
fn kept_about(arguments: &Arguments) -> Kept {
    match arguments.paths.first() {
        Some(first) if !arguments.no_cache && !arguments.fix && arguments.paths.iter().all(|path| path.is_dir()) => {
            Kept::about("check", first)
        }
        _ => Kept::default(),
    }
}

/// Prints the problems; `false` when that failed.
fn print(checked: &Checked, arguments: &Arguments, trouble: bool, output: &mut Output) -> bool {
    let (sources, problems) = (&checked.project.sources, &checked.problems);
    let log = match arguments.format {
        Format::Human => {
            let look = (output.colours_out(), output.is_terminal());
            let most = if arguments.all { usize::MAX } else { MOST_SHOWN };
            for problem in worst_first(problems, most) {
                output.print(&format!("{}\n", output.problem(sources, problem, look)));
            }
            if problems.len() > most {
                output.print(&format!(
                    "{} more are not shown: --all shows them, --format short gives each one line\n",
                    problems.len() - most
                ));
            }
            output.print(&summary(checked));
            return true;
        }
        Format::Short => {
            for problem in problems {
                output.print(&report::short::render(sources, problem));
            }
            output.print(&summary(checked));
            return true;
        }
        Format::Github => {
            for problem in problems {
                output.print(&report::github::render(sources, problem));
            }
            return true;
        }
        Format::Json => report::json::render(sources, problems),
        Format::Sarif => report::sarif::render(sources, problems, !trouble),
    };
    match log {
        Ok(text) => {
            output.print(&format!("{text}\n"));
            true
        }
        Err(error) => {
            output.complain(&error.to_string());
            false
        }
    }
}

/// As many problems as are shown, in their order: when there are more, errors before warnings before advice.
fn worst_first(problems: &[Diagnostic], most: usize) -> Vec<&Diagnostic> {
    let mut by_weight: Vec<(usize, &Diagnostic)> = problems.iter().enumerate().collect();
    if problems.len() > most {
        by_weight.sort_by_key(|(_, problem)| problem.severity);
        by_weight.truncate(most);
        by_weight.sort_by_key(|(at, _)| *at);
    }
    by_weight.into_iter().map(|(_, problem)| problem).collect()
}

/// How many files were checked and what was found.
fn summary(checked: &Checked) -> String {
    if checked.files == 0 {
        return "0 files: nothing was checked\n".to_owned();
    }
    let count = |severity: Severity| checked.problems.iter().filter(|problem| problem.severity == severity).count();
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
    let found = if words.is_empty() { "nothing to mend".to_owned() } else { crate::measure::show::list(&words) };
    format!("{}: {found}\n", several(checked.files, "file", "files"))
}
