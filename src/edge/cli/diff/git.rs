//! `miche diff --git`: git's external diff, which `git diff` calls for each changed file.
//!
//! Git hands over the old and the new text in temporary files. What a text uses (larder, kitchen, other formulas) is
//! looked for where the file itself lies, in the working tree, so that both versions are weighed with the same larder.

use super::{Read, between, worked, worked_through};
use crate::edge::cli::Outcome;
use crate::edge::cli::output::Output;
use crate::edge::loader::{Loader, read_text};
use crate::language::tidy::tidy;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::recipe::Selection;
use crate::out;
use crate::out::report::clean;
use similar::TextDiff;
use std::path::{Path, PathBuf};

pub(super) fn run(paths: &[PathBuf], output: &mut Output) -> Outcome {
    match printed(paths, output) {
        Ok(text) => {
            output.print(&text);
            Outcome::Fine
        }
        Err(why) => {
            output.complain(&why);
            Outcome::Trouble
        }
    }
}

/// Prints one file in the one layout, with the figures of its parts, so that git's own line diffs read well. Git gives it
/// in a temporary file and does not say where it lies: what it uses is looked for from the top of the working tree, the
/// same for both sides, and where water is not known of, the hydration says that it is the least.
pub(super) fn textconv(paths: &[PathBuf], output: &mut Output) -> Outcome {
    let [path] = paths else {
        output.complain("--textconv takes one file");
        return Outcome::Trouble;
    };
    match read_text(path) {
        Ok(text) => {
            let laid_out = tidy(&text, None).unwrap_or(text);
            output.print(&(laid_out.clone() + &figures(&laid_out)));
            Outcome::Fine
        }
        Err(why) => {
            output.complain(&why.to_string());
            Outcome::Trouble
        }
    }
}

/// Hydration, salt and weights of each part under the default choices.
fn figures(text: &str) -> String {
    let mut loader = Loader::new();
    let source = loader.take_text("", text.to_owned(), &absolute(Path::new("formula")));
    let read = worked_through(loader, source);
    let Some((recipe, formula)) = worked(&read, &Selection::default()) else { return String::new() };
    let mut lines = String::new();
    for (id, part) in recipe.parts() {
        // Lines that cannot be read, such as the markers of a conflict, leave no figure that means anything.
        let (Some(solved), None, false) = (formula.part(id), &part.foreign, part.broken) else { continue };
        let share =
            |name: &str, share: Option<Proportion>| share.map(|share| format!("{name} {}", show::percent(share)));
        let mass = |name: &str, mass: Option<Mass>| mass.map(|mass| format!("{name} {}", show::mass_plain(mass)));
        let hydration = if solved.composition.hydration_is_least() { "hydration at least" } else { "hydration" };
        let facts = [
            share(hydration, solved.composition.hydration()),
            share("salt on flour", solved.composition.salt_on_flour()),
            mass("total", solved.goes_in),
            mass("piece weight", solved.each),
        ];
        let facts: Vec<String> = facts.into_iter().flatten().collect();
        if !facts.is_empty() {
            lines.push_str(&format!("= {}: {}\n", clean(&part.name.text), facts.join(", ")));
        }
    }
    lines
}

/// What git shall show for `path old-file old-hex old-mode new-file new-hex new-mode [new-path what-was-renamed]`.
fn printed(paths: &[PathBuf], output: &Output) -> Result<String, String> {
    let (path, old, new, new_path) = match paths {
        [path] => return Ok(format!("{}: not merged yet\n", clean(&path.display().to_string()))),
        [path, old, _, _, new, _, _] => (path, old, new, path),
        [path, old, _, _, new, _, _, new_path, _] => (path, old, new, new_path),
        _ => return Err("git gives an external diff one, seven or nine arguments".to_owned()),
    };
    let (old_text, new_text) = (text_of(old)?, text_of(new)?);
    let (old_shown, new_shown) = (path.display().to_string(), new_path.display().to_string());
    let title = match (&old_text, &new_text) {
        (None, Some(_)) => format!("{new_shown} (new file)"),
        (Some(_), None) => format!("{old_shown} (taken away)"),
        _ if path == new_path => new_shown.clone(),
        _ => format!("{old_shown} → {new_shown}"),
    };
    let mut shown = format!("{}\n", clean(&title));
    let read = |text: &Option<String>, shown: &str, place: &Path| -> Option<Read> {
        let mut loader = Loader::new();
        let source = loader.take_text(shown, text.clone()?, &place_of(place));
        Some(worked_through(loader, source))
    };
    let (old_read, new_read) = (read(&old_text, &old_shown, path), read(&new_text, &new_shown, new_path));
    match between(old_read.as_ref(), new_read.as_ref(), &new_shown) {
        Some(changes) => {
            let style = out::text::Style { width: output.width(), colour: output.colours_out() };
            shown.push_str(&out::comparison::text::render(&[changes], style));
        }
        // A kitchen, a larder or a day: its lines are what there is to read.
        None => {
            let (old_text, new_text) = (old_text.unwrap_or_default(), new_text.unwrap_or_default());
            let lines = TextDiff::from_lines(&old_text, &new_text).unified_diff().to_string();
            lines.lines().for_each(|line| {
                shown.push_str(&clean(line));
                shown.push('\n');
            });
        }
    }
    Ok(shown)
}

/// The null device, which git gives in place of a file that is new or gone.
pub(super) fn is_nothing(path: &Path) -> bool {
    path == Path::new("/dev/null") || (cfg!(windows) && path == Path::new("nul"))
}

/// The text of a side; `None` for a file that is new or gone.
fn text_of(path: &Path) -> Result<Option<String>, String> {
    if is_nothing(path) {
        return Ok(None);
    }
    read_text(path).map(Some).map_err(|error| error.to_string())
}

/// Where a file lies that git names: from the top of the working tree, where git starts its drivers, or with `--relative`
/// from the folder in which git was started.
fn place_of(path: &Path) -> PathBuf {
    let below = std::env::var_os("GIT_PREFIX").map(|prefix| PathBuf::from(prefix).join(path));
    let relative = below.filter(|below| !path.exists() && below.exists());
    absolute(relative.as_deref().unwrap_or(path))
}

fn absolute(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}
