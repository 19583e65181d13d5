//! `miche merge`: two changed versions of a file merged line by line; what git calls as a merge driver.

use super::Outcome;
use super::batches::show;
use super::output::Output;
use super::stop::Ended;
use crate::check::check_file;
use crate::edge::loader::{Loader, read_bytes, reason_to_write, write_over};
use crate::figures::compare::FileVersion;
use crate::language::merge::{merge, merge_bytes};
use crate::measure::quantity::Proportion;
use crate::measure::show::percent;
use crate::model::project::Project;
use crate::model::recipe::Selection;
use crate::text::diagnostic::{Diagnostic, Severity, without_figures};
use clap::Args;
use std::path::{Path, PathBuf};

/// What `merge` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The version that both came out of
    base: PathBuf,
    /// Our version; the result is written into this file
    ours: PathBuf,
    /// Their version
    theirs: PathBuf,
    /// What to call the file, and where what it uses is looked for
    #[arg(long, value_name = "PATH", allow_hyphen_values = true)]
    path: Option<PathBuf>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    Ok(if merged(arguments, output)? { Outcome::Fine } else { Outcome::Errors })
}

/// Writes the merged file; `false` where a person has to look at it.
fn merged(arguments: &Arguments, output: &Output) -> Result<bool, String> {
    let read = |path: &Path| read_bytes(path).map_err(|why| format!("{}: {why}", path.display()));
    let (base, ours, theirs) = (read(&arguments.base)?, read(&arguments.ours)?, read(&arguments.theirs)?);
    let place = arguments.path.as_ref().unwrap_or(&arguments.ours);
    let shown = place.display().to_string();
    let write = |bytes: &[u8]| {
        write_over(&arguments.ours, &ours, bytes)
            .map_err(|error| format!("{}: {}", arguments.ours.display(), reason_to_write(&arguments.ours, &error)))
    };
    let text = |bytes| std::str::from_utf8(bytes).ok();
    let (Some(base_text), Some(our_text), Some(their_text)) = (text(&base), text(&ours), text(&theirs)) else {
        let (bytes, conflicts) = merge_bytes(&base, &ours, &theirs);
        write(&bytes)?;
        output
            .complain(&format!("{shown}: it is not UTF-8 text and was merged as plain lines, {conflicts} in conflict"));
        return Ok(conflicts == 0);
    };
    let merged = merge(base_text, our_text, their_text);
    write(merged.text.as_bytes())?;
    for conflict in &merged.conflicts {
        output.complain(&format!("{shown}: {conflict}"));
    }
    if !merged.conflicts.is_empty() {
        return Ok(false);
    }
    tell_new_errors(place, &shown, [&merged.text, our_text, their_text], output);
    tell_new_shares(place, &shown, [&merged.text, base_text, our_text, their_text], output);
    Ok(true)
}

/// Says which errors the merged text has and neither side has by itself. They are no conflict of lines and stop no merge:
/// the check before a commit does, where it was asked for.
fn tell_new_errors(place: &Path, shown: &str, [merged, ours, theirs]: [&str; 3], output: &Output) {
    let checked = |text: &str| Checked::of(text, place, shown);
    let (result, sides) = (checked(merged), [checked(ours), checked(theirs)]);
    let new: Vec<&Diagnostic> = result.errors().filter(|error| !sides.iter().any(|side| side.has(error))).collect();
    if new.is_empty() {
        return;
    }
    output.complain(&format!("{shown}: merged without a conflict, but what is right on each side is wrong together:"));
    show(&result.project, new, output);
}

/// Says which ingredients have a share in the merged text that no side gave them: 20 g of salt beside flour that was doubled.
fn tell_new_shares(place: &Path, shown: &str, [merged, base, ours, theirs]: [&str; 4], output: &Output) {
    let [merged, base, ours, theirs] = [merged, base, ours, theirs].map(|text| shares(text, place, shown));
    let of = |shares: &[Of], one: &Of| shares.iter().find(|(at, _)| *at == one.0).map(|(_, share)| *share);
    let mut told = Vec::new();
    for one in &merged {
        let (ours, theirs) = (of(&ours, one), of(&theirs, one));
        if ![ours, theirs, of(&base, one)].contains(&Some(one.1)) {
            let sides = match (ours, theirs) {
                (None, None) => continue,
                (Some(ours), Some(theirs)) if ours == theirs => format!("{} on each side", percent(ours)),
                (Some(ours), Some(theirs)) => format!("{} in ours and {} in theirs", percent(ours), percent(theirs)),
                // Salt that one side added, beside flour that the other doubled.
                (Some(ours), None) => format!("{} in ours and not in theirs", percent(ours)),
                (None, Some(theirs)) => format!("{} in theirs and not in ours", percent(theirs)),
            };
            let (part, name) = &one.0;
            told.push(format!("`{name}` of {part} is {} now, {sides}", percent(one.1)));
        }
    }
    if !told.is_empty() {
        output.complain(&format!("{shown}: merged without a conflict; mind that {}", told.join("; ")));
    }
}

/// An ingredient of a part, and its share of the base.
type Of = ((String, String), Proportion);

/// The shares of a text under its default choices; nothing where it is no recipe.
fn shares(text: &str, place: &Path, shown: &str) -> Vec<Of> {
    let mut loader = Loader::without_pictures();
    let place = std::path::absolute(place).unwrap_or_else(|_| place.to_owned());
    let source = loader.take_text(shown, text.to_owned(), &place);
    let read = FileVersion::of(loader.into_project(), source);
    let Some((recipe, formula)) = read.worked(&Selection::default()) else { return Vec::new() };
    let parts = recipe.own_parts().filter_map(|(id, part)| Some((part, formula.part(id)?)));
    let lines = parts.flat_map(|(part, solved)| {
        let lines = part.lines.iter().zip(&solved.lines);
        lines.filter_map(|(line, amount)| Some(((part.name.to_string(), line.name.to_string()), amount.percent?)))
    });
    lines.collect()
}

/// A text and what `check` finds in it, where the file lies.
struct Checked {
    project: Project,
    problems: Vec<Diagnostic>,
}

impl Checked {
    fn of(text: &str, place: &Path, shown: &str) -> Checked {
        let mut loader = Loader::without_pictures();
        let place = std::path::absolute(place).unwrap_or_else(|_| place.to_owned());
        let source = loader.take_text(shown, text.to_owned(), &place);
        let project = loader.into_project();
        let problems = check_file(&project, source);
        Checked { project, problems }
    }

    fn errors(&self) -> impl Iterator<Item = &Diagnostic> {
        self.problems.iter().filter(|problem| problem.severity == Severity::Error)
    }

    /// Whether it has an error too, whatever the figures in it.
    fn has(&self, error: &Diagnostic) -> bool {
        let words = without_figures(&error.message);
        self.errors().any(|own| own.check == error.check && without_figures(&own.message) == words)
    }
}
