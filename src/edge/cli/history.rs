//! `miche history`: how a formula changed over its git revisions.
//!
//! A branch that was merged in is one revision, the merge: only along one line of history does a revision have one before it
//! to be compared with. What a formula uses is read as it stood at the same revision.

use super::deliver::{Delivery, PageFormat, wanted};
use super::diff::{between, read};
use super::output::Output;
use super::printing::Setting;
use super::read::count;
use super::scaling;
use super::stop::Ended;
use crate::check::bakes::chosen;
use crate::check::stops;
use crate::edge::past::checkout::{Checkout, NoTop, nearest_real, top_of};
use crate::edge::past::gather::gather as gather_bakes;
use crate::edge::past::recalled::Past;
use crate::edge::past::revision::{CUT_OFF, Revision, cut_off, revisions};
use crate::figures::compare::FileVersion;
use crate::figures::history::{Baked, History, KeyFigures, Row, State, bears_on};
use crate::language::bakes::Bake;
use crate::language::syntax::FileKind;
use crate::model::recipe::Selection;
use crate::out;
use crate::solve::resolve::normal_selection;
use crate::text::diagnostic::Diagnostic;
use clap::Args;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// What `history` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe in a git repository; renamed files are followed
    #[arg(value_name = "FILE")]
    path: PathBuf,
    /// Look only at the last so many revisions of the file
    #[arg(long, value_name = "COUNT", value_parser = count)]
    last: Option<u32>,
    /// Follow this option in place of a default: `hand` or `mixing=hand`; may be given several times
    #[arg(long, value_name = "OPTION")]
    choose: Vec<String>,
    /// How to print it; without it, what the ending of `-o` says, or text
    #[arg(long, value_enum)]
    format: Option<PageFormat>,
    #[command(flatten)]
    delivery: Delivery,
    #[command(flatten)]
    setting: Setting,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let format = wanted(arguments.format, &arguments.delivery, PageFormat::Text)?;
    let (history, is_cut) = gather(&arguments.path, arguments.last, &arguments.choose)?;
    if is_cut {
        output.complain(CUT_OFF);
    }
    let json = || out::history::json(&history).map_err(|error| error.to_string());
    let page = out::history::page(&history);
    format.deliver((&page, &arguments.path), json, (&arguments.delivery, &arguments.setting), output)
}

/// What a version of the file is.
enum Version {
    /// A recipe, right or wrong.
    Recipe(Box<FileVersion>),
    /// Something that no figures can be read off, and why.
    Unclear(String),
    Gone,
}

/// The history of a file, and whether it is cut off.
fn gather(path: &Path, last: Option<u32>, choose: &[String]) -> Result<(History, bool), String> {
    let shown = path.display().to_string();
    if path.is_dir() {
        return Err(format!("{shown} is a folder; give one file in it"));
    }
    let is_there = path.exists();
    let missing = || format!("there is no file {shown}, and git knows of none that was called so");
    let whole = std::path::absolute(path).map_err(|error| error.to_string())?;
    let real = nearest_real(&whole);
    let top = top_of(&real).map_err(|none| match none {
        NoTop::Nowhere if !is_there => missing(),
        none => format!("{}, so it has no history", none.of(&shown)),
    })?;
    let inside = real.strip_prefix(&top).ok().and_then(Path::to_str).ok_or_else(missing)?;
    let revisions = revisions(&top, inside, last, "%Y-%m-%d");
    if revisions.is_empty() {
        return Err(if is_there {
            format!("{shown} was never committed, so it has no history yet")
        } else {
            missing()
        });
    }
    let mut rows = Vec::new();
    let mut before: Option<Version> = None;
    // Which row a revision belongs to: the last that changed what the formula means.
    let mut row_of: HashMap<String, usize> = HashMap::new();
    let mut recipe = String::new();
    for revision in revisions.iter().rev() {
        let version = version_at(revision, &top);
        let then_called = (revision.name != inside).then(|| revision.name.clone());
        if let Some(state) = changed(before.as_ref(), &version, choose, &mut recipe) {
            rows.push(Row {
                commit: Some(revision.commit.clone()),
                short: revision.short.clone(),
                date: revision.date.clone(),
                subject: revision.subject.clone(),
                then_called,
                state,
                bakes: Vec::new(),
            });
        }
        row_of.insert(revision.short.clone(), rows.len().saturating_sub(1));
        before = Some(version);
    }
    let now = if is_there { version_of(read(&real, &shown)) } else { Version::Gone };
    if let Version::Recipe(read) = &now {
        let choices = read.choices();
        choose.iter().try_for_each(|text| scaling::choose(&choices, text, &mut Selection::new()))?;
    }
    let state = changed(before.as_ref(), &now, choose, &mut recipe);
    if let Some(state) = state.filter(|_| !is_as_committed(&top, inside, &now)) {
        let subject = "not yet committed".to_owned();
        let (short, date) = (String::new(), String::new());
        rows.push(Row { commit: None, short, date, subject, then_called: None, state, bakes: Vec::new() });
    }
    if recipe.is_empty() && matches!(now, Version::Unclear(_)) && is_other_kind(&real, &shown) {
        return Err(format!("{shown} is no recipe; only recipes have figures to follow"));
    }
    if is_there && matches!(now, Version::Recipe(_)) {
        note_bakes(&real, choose, &row_of, &mut rows);
    }
    rows.reverse();
    let is_cut = revisions.last().is_some_and(|first| cut_off(&top).contains(&first.commit));
    Ok((History { file: shown, recipe, rows, revisions: revisions.len() }, is_cut))
}

/// Notes at each row what was baked of it, with the options that were asked for; logs with errors are told by `bakes` and `check`.
fn note_bakes(recipe: &Path, choose: &[String], row_of: &HashMap<String, usize>, rows: &mut [Row]) {
    let Ok(gathered) = gather_bakes(recipe, &[], &mut Past::default(), jiff::ZonedDateTime::now().date()) else {
        return;
    };
    let last = rows.len().saturating_sub(1);
    let mut bakes: Vec<_> = gathered.bakes.iter().collect();
    bakes.sort_by_key(|of| of.bake.moment());
    for of in bakes {
        let version = gathered.versions.get(of.version);
        if version.is_some_and(|version| !is_asked(&version.file, &of.bake, choose)) {
            continue;
        }
        let revision = version.and_then(|version| version.revision.as_ref());
        let at = revision.map_or(last, |revision| row_of.get(revision).copied().unwrap_or(last));
        let Some(row) = rows.get_mut(at) else { continue };
        row.bakes.push(Baked {
            date: of.bake.date.value.to_string(),
            judged: of.bake.judged.iter().map(|one| (one.name.to_string(), one.mark, one.of)).collect(),
            verdict: of.bake.verdict.as_ref().map(|(verdict, _)| verdict.word()),
        });
    }
}

/// Whether a bake was made with the options that were asked for, as far as its version of the recipe has them.
fn is_asked(file: &FileVersion, bake: &Bake, choose: &[String]) -> bool {
    let made = chosen(&file.choices(), bake);
    asked(file, choose).iter().all(|(choice, option)| made.of(choice) == Some(option))
}

/// Whether a file means what it means in the last commit, with all that it uses: a used file that changed there is no change of this one.
fn is_as_committed(top: &Path, name: &str, now: &Version) -> bool {
    let head = Checkout::of("HEAD", top).and_then(|checkout| checkout.version(name));
    let Ok(Some(head)) = head else { return false };
    changed(Some(&version_of(Ok(Some(head)))), now, &[], &mut String::new()).is_none()
}

fn version_at(revision: &Revision, top: &Path) -> Version {
    if revision.removed {
        return Version::Gone;
    }
    match Checkout::of_commit(&revision.commit, top).and_then(|checkout| checkout.version(&revision.name)) {
        Ok(None) => Version::Unclear("it was no .miche file then".to_owned()),
        read => version_of(read),
    }
}

fn version_of(read: Result<Option<FileVersion>, String>) -> Version {
    match read {
        Ok(Some(read)) => match kind(&read) {
            Some(FileKind::Recipe) => Version::Recipe(Box::new(read)),
            _ => Version::Unclear("it is no recipe".to_owned()),
        },
        Ok(None) => Version::Gone,
        Err(why) => Version::Unclear(why),
    }
}

fn kind(read: &FileVersion) -> Option<FileKind> {
    read.project.file(read.source).map(|file| file.tree.kind)
}

/// Whether the file can be read and is a kitchen, a larder or a day.
fn is_other_kind(place: &Path, shown: &str) -> bool {
    matches!(read(place, shown), Ok(Some(read)) if kind(&read) != Some(FileKind::Recipe))
}

/// What the formula is now, if it means something else than before.
fn changed(before: Option<&Version>, now: &Version, choose: &[String], name: &mut String) -> Option<State> {
    match (before, now) {
        (None | Some(Version::Gone), Version::Gone) => None,
        (_, Version::Gone) => Some(State::Gone),
        (Some(Version::Unclear(old)), Version::Unclear(new)) if old == new => None,
        (_, Version::Unclear(why)) => Some(State::Unclear(why.clone())),
        (Some(Version::Recipe(old)), Version::Recipe(new)) => {
            let changes = between(Some(old), Some(new), "");
            let silent = changes.is_some_and(|changes| changes.is_empty());
            (!silent).then(|| state_of(new, choose, name))
        }
        (_, Version::Recipe(new)) => Some(state_of(new, choose, name)),
    }
}

/// The options that were asked for, as far as a version has them.
fn asked(read: &FileVersion, choose: &[String]) -> Selection {
    let choices = read.choices();
    let mut selection = Selection::new();
    for text in choose {
        // An option that came later, or is gone, is at its default where it is not there.
        drop(scaling::choose(&choices, text, &mut selection));
    }
    selection
}

/// The figures of a version. A recipe with errors in its dough has none: they could be anything, as on a card, which is not made
/// then. An error elsewhere leaves the dough its figures, but not the time of it all.
fn state_of(read: &FileVersion, choose: &[String], name: &mut String) -> State {
    let selection = normal_selection(&read.choices(), &asked(read, choose));
    let worked = read.worked(&selection);
    let is_error = |problem: &&Diagnostic| stops(problem);
    let has_errors = read.problems.iter().any(|problem| is_error(&problem));
    let matters =
        |problem: &&Diagnostic| worked.as_ref().is_none_or(|(recipe, formula)| bears_on(recipe, formula, problem.span));
    let mut errors = read.problems.iter().filter(is_error).filter(matters);
    if let Some(first) = errors.next() {
        let more = match errors.count() {
            0 => String::new(),
            more => format!(" (and {more} more)"),
        };
        return State::Unclear(format!("{}{more}", first.said()));
    }
    let Some((recipe, formula)) = worked else {
        return State::Unclear("no recipe can be read in it".to_owned());
    };
    match KeyFigures::of(&recipe, &formula) {
        Ok(figures) => {
            let minutes = figures.minutes.filter(|_| !has_errors);
            let figures = KeyFigures { minutes, ..figures };
            *name = recipe.name.to_string();
            State::Known(Box::new(figures))
        }
        Err(_) => State::Unclear("a number in it is too large to work with".to_owned()),
    }
}
