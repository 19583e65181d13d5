//! `miche tidy`: one layout for all files.

use super::Outcome;
use super::check::files_of;
use super::output::Output;
use super::stop::Ended;
use crate::edge::loader::{read_text, reason_to_write, write_over};
use crate::language::tidy::{LineRange, tidy};
use crate::text::line_break;
use clap::Args;
use std::collections::HashSet;
use std::path::{Path, PathBuf};

/// What `tidy` takes.
#[derive(Debug, Args)]
#[command(
    after_help = "Exit status: 0 fine, 1 with --check when a file is not tidy, 2 wrong use or a file that cannot \
                        be read or written. Lines that cannot be read stay as they are."
)]
pub(super) struct Arguments {
    /// Files, or folders that hold `.miche` files; `-` reads standard input and prints the result
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// Change nothing; say which files are not tidy
    #[arg(long)]
    check: bool,
    /// Only these lines of one file, widened to whole steps and notes
    #[arg(long, value_name = "FIRST-LAST", value_parser = line_range)]
    range: Option<LineRange>,
}

fn line_range(text: &str) -> Result<LineRange, String> {
    let (first, last) = text.split_once('-').unwrap_or((text, text));
    let number = |digits: &str| digits.trim().parse::<usize>().ok().filter(|line| *line > 0);
    match (number(first), number(last)) {
        (Some(first), Some(last)) if first <= last => Ok(LineRange { first, last }),
        (Some(_), Some(_)) => Err("the first line comes before the last one, `3-8`".to_owned()),
        _ => Err("write two line numbers from 1 on, `3-8`".to_owned()),
    }
}

/// What became of one file.
enum Done {
    /// It was tidy.
    Tidy,
    /// It was not, first at this line.
    Untidy(usize),
    /// It could not be read or written; this was said.
    Trouble,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let (files, mut trouble) = files_of(&arguments.paths, output);
    if arguments.range.is_some() && files.len() > 1 {
        return Err("--range speaks of the lines of one file; name one file with it".into());
    }
    let mut untidy = false;
    let mut seen: HashSet<&Path> = HashSet::new();
    for path in &files {
        // A file that is named twice is tidied once.
        if !seen.insert(path) {
            continue;
        }
        match tidy_one(path, arguments, output) {
            Done::Tidy => {}
            Done::Untidy(line) => {
                untidy = true;
                report(path, line, arguments.check, output);
            }
            Done::Trouble => trouble = true,
        }
    }
    Ok(match (trouble, untidy && arguments.check) {
        (true, _) => Outcome::Trouble,
        (false, true) => Outcome::Errors,
        (false, false) => Outcome::Fine,
    })
}

fn report(path: &Path, line: usize, check: bool, output: &mut Output) {
    let is_stream = path == Path::new("-");
    let shown = if is_stream { "standard input".to_owned() } else { path.display().to_string() };
    let shown = crate::out::report::on_one_line(&shown);
    if check {
        output.print(&format!("{shown}:{line}: not tidy from this line on\n"));
    } else if !is_stream {
        output.print(&format!("tidied {shown}\n"));
    }
}

fn tidy_one(path: &Path, arguments: &Arguments, output: &mut Output) -> Done {
    let text = match read_text(path) {
        Ok(text) => text,
        Err(error) => {
            output.complain(&error.to_string());
            return Done::Trouble;
        }
    };
    let tidied = match tidy(&text, arguments.range) {
        Ok(tidied) => tidied,
        Err(fault) => {
            output.complain(&format!("{}: {fault}", path.display()));
            return Done::Trouble;
        }
    };
    let done = if tidied == text { Done::Tidy } else { Done::Untidy(first_change(&text, &tidied)) };
    if arguments.check {
        return done;
    }
    if path == Path::new("-") {
        output.print(&tidied);
        return done;
    }
    if matches!(done, Done::Untidy(_))
        && let Err(error) = write_over(path, &text, &tidied)
    {
        output.complain(&format!("{}: {}", path.display(), reason_to_write(path, &error)));
        return Done::Trouble;
    }
    done
}

/// The first line of `old` that `new` has otherwise, counted from 1.
fn first_change(old: &str, new: &str) -> usize {
    let same = old.bytes().zip(new.bytes()).take_while(|(old, new)| old == new).count();
    line_break::count_before(old, same) + 1
}
