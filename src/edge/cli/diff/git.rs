//! `miche diff --git`: git's external diff, which `git diff` calls for each changed file.
//!
//! Git hands over the old and the new text in temporary files. What a text uses (larder, kitchen, other formulas) is
//! looked for where the file itself lies, in the working tree, so that both versions are weighed with the same larder.

use super::{between, worked_through};
use crate::edge::cli::Outcome;
use crate::edge::cli::output::Output;
use crate::edge::cli::stop::Ended;
use crate::edge::loader::{Loader, read_bytes, read_text};
use crate::figures::compare::FileVersion;
use crate::language::tidy::tidy;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::recipe::Selection;
use crate::out;
use crate::out::comparison::Place;
use crate::out::report::clean;
use crate::solve::formula::OnFlour;
use similar::TextDiff;
use std::path::{Path, PathBuf};

pub(super) fn run(paths: &[PathBuf], output: &mut Output) -> Ended {
    let text = printed(paths, output).ok_or("git gives an external diff one, seven or nine arguments")?;
    output.print(&text);
    Ok(Outcome::Fine)
}

/// Prints one file in the one layout, with the figures of its parts, so that git's own line diffs read well. Git gives it
/// in a temporary file and does not say where it lies: what it uses is looked for from the top of the working tree, the
/// same for both sides, and where water is not known of, the hydration says that it is the least.
pub(super) fn textconv(paths: &[PathBuf], output: &mut Output) -> Ended {
    let [path] = paths else { return Err("--textconv takes one file".into()) };
    match Given::of(path) {
        Given::Text(text) => {
            let laid_out = tidy(&text, None).unwrap_or(text);
            output.print(&(laid_out.clone() + &figures(&laid_out)));
        }
        Given::Unread { lines, why } => output.print(&format!("{lines}= not read as a formula: {}\n", clean(&why))),
        Given::Nothing => {}
    }
    // Git gives up on all files when one of them fails.
    Ok(Outcome::Fine)
}

/// Hydration, salt and weights of each part under the default choices.
fn figures(text: &str) -> String {
    let mut loader = Loader::without_pictures();
    let source = loader.take_text("", text.to_owned(), &absolute(Path::new("formula")));
    let read = worked_through(loader, source);
    let Some((recipe, formula)) = read.worked(&Selection::default()) else { return String::new() };
    let mut lines = String::new();
    for (id, part) in recipe.parts() {
        // Lines that cannot be read, such as the markers of a conflict, leave no figure that means anything.
        let (Some(solved), None, false) = (formula.part(id), &part.foreign, part.broken) else { continue };
        let share = |name: &str, share: Option<OnFlour>| {
            share
                .filter(|_| formula.is_mix(&recipe, id))
                .map(|one| format!("{name} {}", show::percent(one.share).bound(one.bound())))
        };
        let mass = |name: &str, mass: Option<Mass>| mass.map(|mass| format!("{name} {}", show::mass_plain(mass)));
        let facts = [
            share("hydration", solved.hydration()),
            share("salt on flour", solved.salt_on_flour()),
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
fn printed(paths: &[PathBuf], output: &Output) -> Option<String> {
    let (path, old, new, new_path) = match paths {
        [path] => return Some(format!("{}: not merged yet\n", clean(&path.display().to_string()))),
        [path, old, _, _, new, _, _] => (path, old, new, path),
        [path, old, _, _, new, _, _, new_path, _] => (path, old, new, new_path),
        _ => return None,
    };
    let (old_given, new_given) = (Given::of(old), Given::of(new));
    let (old_shown, new_shown) = (path.display().to_string(), new_path.display().to_string());
    let title = match (&old_given, &new_given) {
        (Given::Nothing, Given::Text(_) | Given::Unread { .. }) => format!("{new_shown} (new file)"),
        (Given::Text(_) | Given::Unread { .. }, Given::Nothing) => format!("{old_shown} (taken away)"),
        _ if path == new_path => new_shown.clone(),
        _ => format!("{old_shown} → {new_shown}"),
    };
    let mut shown = format!("{}\n", clean(&title));
    for given in [&old_given, &new_given] {
        if let Given::Unread { why, .. } = given {
            shown.push_str(&format!("  not read as a formula: {}\n", clean(why)));
        }
    }
    let read = |given: &Given, shown: &str, place: &Path| -> Option<FileVersion> {
        let Given::Text(text) = given else { return None };
        let mut loader = Loader::without_pictures();
        let source = loader.take_text(shown, text.clone(), &place_of(place));
        Some(worked_through(loader, source))
    };
    let (old_read, new_read) = (read(&old_given, &old_shown, path), read(&new_given, &new_shown, new_path));
    let all_read = ![&old_given, &new_given].into_iter().any(|given| matches!(given, Given::Unread { .. }));
    match between(old_read.as_ref(), new_read.as_ref(), &new_shown).filter(|_| all_read) {
        Some(changes) => {
            let style = output.style();
            shown.push_str(&out::comparison::page(&[changes], Place::Terminal).text(style));
        }
        // A kitchen, a larder or a day, or no text at all: its lines are what there is to read.
        None => {
            let lines = TextDiff::from_lines(old_given.lines(), new_given.lines()).unified_diff().to_string();
            lines.lines().for_each(|line| {
                shown.push_str(&clean(line));
                shown.push('\n');
            });
        }
    }
    Some(shown)
}

/// The null device, which git gives in place of a file that is new or gone.
pub(super) fn is_nothing(path: &Path) -> bool {
    path == Path::new("/dev/null") || (cfg!(windows) && path == Path::new("nul"))
}

/// What git gives of a side.
enum Given {
    /// A file that is new or gone is not there on one side.
    Nothing,
    Text(String),
    /// What is no text that can be read, as lines in which each such byte stands as its number, and why.
    Unread {
        lines: String,
        why: String,
    },
}

impl Given {
    fn of(path: &Path) -> Given {
        if is_nothing(path) {
            return Given::Nothing;
        }
        match read_text(path) {
            Ok(text) => Given::Text(text),
            Err(unreadable) => Given::Unread {
                lines: read_bytes(path).map(|bytes| plain_lines(&bytes)).unwrap_or_default(),
                why: unreadable.why,
            },
        }
    }

    fn lines(&self) -> &str {
        match self {
            Given::Nothing => "",
            Given::Text(lines) | Given::Unread { lines, .. } => lines,
        }
    }
}

/// Bytes as lines of text: what is no UTF-8 stands as `\xE9`, so that two versions that differ look different.
fn plain_lines(bytes: &[u8]) -> String {
    let mut text = String::new();
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        chunk.invalid().iter().for_each(|byte| text.push_str(&format!("\\x{byte:02X}")));
    }
    text.lines().map(|line| format!("{}\n", clean(line))).collect()
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
