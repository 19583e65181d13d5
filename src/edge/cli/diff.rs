//! `miche diff`: what changed in the formula, not in the text.

mod git;

use super::Outcome;
use super::deliver::{Delivery, PageFormat, wanted};
use super::output::Output;
use super::printing::Setting;
use super::scaling::selection;
use super::stop::Ended;
use crate::edge::loader::{Loader, look_through, must_be_there};
use crate::edge::past::checkout::Checkout;
use crate::figures::compare::{FileVersion, two_ways, versions};
use crate::out;
use crate::out::comparison::{Changes, Place};
use crate::text::source::SourceId;
use clap::Args;
use std::collections::{BTreeSet, HashMap};
use std::fs;
use std::path::{Path, PathBuf};

/// What `diff` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Two files or folders, each also as `REVISION:PATH` or `-`; with `--from`, the paths to compare
    #[arg(value_name = "PATH", required = true)]
    paths: Vec<PathBuf>,
    /// Compare these paths at this git revision …
    #[arg(long, value_name = "REVISION")]
    from: Option<String>,
    /// … with this one; without it, with the files as they are now
    #[arg(long, value_name = "REVISION", requires = "from")]
    to: Option<String>,
    /// How to print what changed; without it, what the ending of `-o` says, or text
    #[arg(long, value_enum)]
    format: Option<PageFormat>,
    #[command(flatten)]
    delivery: Delivery,
    /// Compare two ways to work one recipe: with this option …; may be given several times
    #[arg(long, value_name = "OPTION", requires = "against", conflicts_with_all = ["from", "to"])]
    choose: Vec<String>,
    /// … and with this one instead; without `--choose`, against the default
    #[arg(long, value_name = "OPTION", conflicts_with_all = ["from", "to"])]
    against: Vec<String>,
    /// Exit with 1 when something changed
    #[arg(long)]
    exit_code: bool,
    /// Be git's external diff: take its seven or nine arguments
    #[arg(long, conflicts_with_all = ["from", "output", "exit_code", "against"])]
    git: bool,
    /// Print one file as git compares it in its history: laid out, without what only layout changes
    #[arg(long, conflicts_with_all = ["from", "output", "exit_code", "against", "git"])]
    textconv: bool,
    #[command(flatten)]
    setting: Setting,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    if arguments.git {
        return git::run(&arguments.paths, output);
    }
    if arguments.textconv {
        return git::textconv(&arguments.paths, output);
    }
    let Found { changes: all, others } = all_changes(arguments)?;
    for other in &others {
        output.complain(&format!("{other} changed, and is no recipe: its lines are compared by `git diff`"));
    }
    let delivery = &arguments.delivery;
    let format = wanted(arguments.format, delivery, PageFormat::Text)?;
    let place = match format {
        PageFormat::Text | PageFormat::Json => Place::Terminal,
        PageFormat::Markdown => Place::Review,
        PageFormat::Html | PageFormat::Pdf => Place::Page,
    };
    let json = || out::comparison::json::render(&all).map_err(|error| error.to_string());
    let of = arguments.paths.last().map_or_else(|| Path::new("-"), PathBuf::as_path);
    format.deliver((&out::comparison::page(&all, place), of), json, (delivery, &arguments.setting), output)?;
    let changed = !others.is_empty() || all.iter().any(|changes| !changes.is_empty());
    Ok(if arguments.exit_code && changed { Outcome::Errors } else { Outcome::Fine })
}

/// Where one side lies on the disk, and what it is called.
struct Side {
    place: PathBuf,
    shown: String,
    /// Kept until the comparison is done.
    _checkout: Option<Checkout>,
}

impl Side {
    /// `PATH`, `-`, or `REVISION:PATH`.
    fn of(text: &Path) -> Result<Side, String> {
        let shown = text.display().to_string();
        let as_file = text == Path::new("-") || text.exists();
        match shown.split_once(':') {
            Some((revision, path)) if !as_file => {
                let checkout = Checkout::of(revision, Path::new(path))?;
                let place = checkout.path(Path::new(path));
                Ok(Side { place, shown, _checkout: Some(checkout) })
            }
            _ => {
                // A revision may lack a file that is new or was taken away; a plain path that is not there is a slip of the pen.
                if !as_file && !git::is_nothing(text) {
                    must_be_there(text).map_err(|error| error.to_string())?;
                }
                Ok(Side { place: text.to_owned(), shown, _checkout: None })
            }
        }
    }

    /// A path at a revision.
    fn at(revision: &str, path: &Path) -> Result<Side, String> {
        let checkout = Checkout::of(revision, path)?;
        let shown = format!("{revision}:{}", path.display());
        Ok(Side { place: checkout.path(path), shown, _checkout: Some(checkout) })
    }
}

/// Whether two files that have just been read hold the same bytes.
fn same_text(old: &Path, new: &Path) -> bool {
    old == new || matches!((fs::read(old), fs::read(new)), (Ok(old), Ok(new)) if old == new)
}

/// Of two files that were named nothing must not look like no change, unless nothing did change.
fn must_tell_something(all: &[Changes], old: &Side, new: &Side) -> Result<(), String> {
    if !all.is_empty() || old.place.is_dir() || new.place.is_dir() || same_text(&old.place, &new.place) {
        return Ok(());
    }
    let by = if new.shown.contains(':') || old.shown.contains(':') { "git diff" } else { "git diff --no-index" };
    Err(format!(
        "{} and {} are not two recipes, and what changed is told of recipes; their lines are compared by `{by}`",
        old.shown, new.shown
    ))
}

/// What changed: recipes, with what is told of each, and days, kitchens, larders, books and logs, of which nothing is.
#[derive(Default)]
struct Found {
    changes: Vec<Changes>,
    others: Vec<String>,
}

fn all_changes(arguments: &Arguments) -> Result<Found, String> {
    if !arguments.against.is_empty() {
        return two_ways_of(arguments).map(|changes| Found { changes, ..Found::default() });
    }
    let mut all = Found::default();
    if let Some(from) = &arguments.from {
        for path in &arguments.paths {
            let old = Side::at(from, path)?;
            let new = match &arguments.to {
                Some(to) => Side::at(to, path)?,
                None => Side { place: path.clone(), shown: path.display().to_string(), _checkout: None },
            };
            let found = sides(&old, &new)?;
            // A path by itself is asked about as two files are; among several there may be a larder.
            if arguments.paths.len() == 1 {
                must_tell_something(&found.changes, &old, &new)?;
            }
            all.changes.extend(found.changes);
            all.others.extend(found.others);
        }
        return Ok(all);
    }
    match arguments.paths.as_slice() {
        [old, new] => {
            let (old, new) = (Side::of(old)?, Side::of(new)?);
            let all = sides(&old, &new)?;
            must_tell_something(&all.changes, &old, &new)?;
            Ok(all)
        }
        _ => Err("give two files or folders to compare, or --from REVISION and the paths".to_owned()),
    }
}

/// One recipe worked two ways.
fn two_ways_of(arguments: &Arguments) -> Result<Vec<Changes>, String> {
    let [path] = arguments.paths.as_slice() else {
        return Err("--against compares two ways to work one recipe; give one file".to_owned());
    };
    let side = Side::of(path)?;
    let shown = &side.shown;
    let file = read(&side.place, shown)?.ok_or_else(|| format!("{shown} is not there"))?;
    let choices = file.choices();
    let one = selection(&choices, &arguments.choose, "--choose")?;
    let other = selection(&choices, &arguments.against, "--against")?;
    let comparison = two_ways(&file, &one, &other).ok_or_else(|| format!("{shown} is no recipe"))?;
    Ok(vec![Changes { file: shown.clone(), comparison, text_changed: false }])
}

/// Compares two files, or the files of the same name in two folders.
fn sides(old: &Side, new: &Side) -> Result<Found, String> {
    if !old.place.is_dir() && !new.place.is_dir() {
        let changes = files((&old.place, &old.shown), (&new.place, &new.shown))?;
        let is_other = changes.is_none() && !same_text(&old.place, &new.place);
        let others = is_other.then(|| new.shown.clone()).into_iter().collect();
        return Ok(Found { changes: changes.into_iter().collect(), others });
    }
    for (one, other) in [(old, new), (new, old)] {
        if one.place.is_dir() && other.place.exists() && !other.place.is_dir() && !git::is_nothing(&other.place) {
            return Err(format!("{} is a folder and {} a file; give two of one kind", one.shown, other.shown));
        }
    }
    // A folder that cannot be looked into is no empty one: all that lies in it would be gone, or new.
    let listed = |side: &Side| -> Result<BTreeSet<PathBuf>, String> {
        if !side.place.is_dir() {
            return Ok(BTreeSet::new());
        }
        let found = look_through(&side.place).map_err(|error| error.to_string())?;
        if let Some(closed) = found.closed.first() {
            return Err(closed.to_string());
        }
        Ok(found.files.iter().filter_map(|path| path.strip_prefix(&side.place).ok()).map(Path::to_owned).collect())
    };
    let (before, after) = (listed(old)?, listed(new)?);
    let only = |one: &BTreeSet<PathBuf>, other: &BTreeSet<PathBuf>| one.difference(other).cloned().collect::<Vec<_>>();
    let moved = renamed((&old.place, &only(&before, &after)), (&new.place, &only(&after, &before)));
    let mut all = Found::default();
    for name in before.union(&after).filter(|name| !moved.iter().any(|(was, _)| was == *name)) {
        let was = moved.iter().find(|(_, is)| is == name).map(|(was, _)| was);
        let called = |side: &Side, name: &Path| format!("{}/{}", side.shown.trim_end_matches('/'), name.display());
        let (old_place, new_place) = (old.place.join(was.unwrap_or(name)), new.place.join(name));
        let shown = called(new, name);
        let shown = was.map_or_else(|| shown.clone(), |was| format!("{} → {shown}", called(old, was)));
        match files((&old_place, &called(old, was.unwrap_or(name))), (&new_place, &shown))? {
            Some(changes) => all.changes.extend((!changes.is_empty()).then_some(changes)),
            None if !same_text(&old_place, &new_place) => all.others.push(shown),
            None => {}
        }
    }
    Ok(all)
}

/// So many files that are gone are looked for among those that are new.
const MOST_RENAMED: usize = 100;

/// Which files of the one folder have another name in the other: those with the same text, and those of which half the lines or more
/// are the same, as git has it, the most alike first.
fn renamed((old, gone): (&Path, &[PathBuf]), (new, came): (&Path, &[PathBuf])) -> Vec<(PathBuf, PathBuf)> {
    if gone.is_empty() || came.is_empty() || gone.len() > MOST_RENAMED || came.len() > MOST_RENAMED {
        return Vec::new();
    }
    let texts = |folder: &Path, names: &[PathBuf]| -> Vec<(PathBuf, String)> {
        names.iter().filter_map(|name| Some((name.clone(), fs::read_to_string(folder.join(name)).ok()?))).collect()
    };
    let (gone, came) = (texts(old, gone), texts(new, came));
    let mut alike = Vec::new();
    for (was, before) in &gone {
        for (is, after) in &came {
            let share = lines_in_common(before, after);
            if share >= HALF {
                alike.push((share, was, is));
            }
        }
    }
    alike.sort_by_key(|one| std::cmp::Reverse(one.0));
    let mut pairs: Vec<(PathBuf, PathBuf)> = Vec::new();
    for (_, was, is) in alike {
        if !pairs.iter().any(|(known, other)| known == was || other == is) {
            pairs.push((was.clone(), is.clone()));
        }
    }
    pairs
}

/// A half, in thousandths.
const HALF: usize = 500;

/// How many of a thousand lines two texts have in common, blank ones left out.
fn lines_in_common<'t>(one: &'t str, other: &'t str) -> usize {
    let counted = |text: &'t str| {
        let mut counts: HashMap<&str, usize> = HashMap::new();
        for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
            *counts.entry(line).or_default() += 1;
        }
        counts
    };
    let (one, other) = (counted(one), counted(other));
    let most = one.values().sum::<usize>().max(other.values().sum());
    let common: usize = one.iter().map(|(line, count)| other.get(line).map_or(0, |known| *count.min(known))).sum();
    (common * 1000).checked_div(most).unwrap_or(0)
}

/// Reads a side; `None` when there is no such file.
pub(super) fn read(place: &Path, shown: &str) -> Result<Option<FileVersion>, String> {
    if git::is_nothing(place) || (place != Path::new("-") && !place.exists()) {
        return Ok(None);
    }
    let mut loader = Loader::without_pictures();
    let source = loader.load_as(place, shown).map_err(|error| error.to_string())?;
    Ok(Some(worked_through(loader, source)))
}

fn worked_through(loader: Loader, source: SourceId) -> FileVersion {
    FileVersion::of(loader.into_project(), source)
}

/// Compares two files; `None` when neither is a recipe.
fn files(old: (&Path, &str), new: (&Path, &str)) -> Result<Option<Changes>, String> {
    let (old_read, new_read) = (read(old.0, old.1)?, read(new.0, new.1)?);
    if old_read.is_none() && new_read.is_none() {
        return Err(format!("neither {} nor {} is there", old.1, new.1));
    }
    // Of two files in which nothing stands it must not be said that a recipe did not change.
    let are_empty =
        [&old_read, &new_read].into_iter().flatten().all(|read| read.text().is_none_or(|text| text.trim().is_empty()));
    if are_empty {
        return Err(format!("nothing stands in {} and {}, so that there is no recipe to compare", old.1, new.1));
    }
    Ok(between(old_read.as_ref(), new_read.as_ref(), new.1))
}

/// Compares two versions of which one may not be there; `None` when they are no recipes.
pub(super) fn between(old_read: Option<&FileVersion>, new_read: Option<&FileVersion>, shown: &str) -> Option<Changes> {
    let nothing = FileVersion::nothing();
    if ![old_read, new_read].into_iter().flatten().all(FileVersion::is_recipe) {
        return None;
    }
    let text_changed = old_read.map(FileVersion::text) != new_read.map(FileVersion::text);
    let comparison = versions(old_read.unwrap_or(&nothing), new_read.unwrap_or(&nothing));
    comparison.map(|comparison| Changes { file: shown.to_owned(), comparison, text_changed })
}
