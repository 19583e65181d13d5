//! From a file and what was asked of it to what the page shows.

use super::last_good::{Good, Read};
use super::place::Place;
use super::wire::{Choice, Entry, Problem, State};
use crate::check::{check_file, check_files, stops};
use crate::edge::cli::batches;
use crate::edge::cli::output::Output;
use crate::edge::cli::plan;
use crate::edge::cli::scaling::Scaling;
use crate::edge::cli::stop::Stop;
use crate::language::syntax::{BookLine, Content, FileKind, Tree};
use crate::measure::noun::agreeing;
use crate::measure::show;
use crate::out::html;
use crate::out::report::{clean, seen};
use crate::out::sheet::{By, Paper, Sheet};
use crate::solve::resolve::choices_of;
use crate::solve::resolve::day::day;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use clap::Parser;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What may be asked of a card, by the names of the command line.
const OPTIONS: [&str; 6] = ["pieces", "times", "total", "base", "choose", "units"];

/// What was asked for: a file, and how much of it with which choices.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Asked {
    /// The file, without links, inside the root.
    pub(super) path: PathBuf,
    /// Its name.
    pub(super) name: String,
    /// The options, as on the command line.
    options: Vec<String>,
    /// For when, for a plan.
    ready: Option<String>,
}

/// Options are read by the command line's own rules.
#[derive(Debug, Parser)]
struct Options {
    #[command(flatten)]
    scaling: Scaling,
}

impl Asked {
    /// Reads a query; `None` when it names no file that may be shown.
    pub(super) fn of(place: &Place, query: &str) -> Option<Asked> {
        let (mut name, mut options, mut ready) = (None, Vec::new(), None);
        for (key, value) in form_urlencoded::parse(query.as_bytes()).take(64) {
            let value = value.trim();
            match key.as_ref() {
                "file" => name = Some(value.to_owned()),
                "ready" if !value.is_empty() => ready = Some(value.to_owned()),
                option if OPTIONS.contains(&option) && !value.is_empty() => options.push(format!("--{option}={value}")),
                _ => {}
            }
        }
        let name = name?;
        Some(Asked { path: place.file(&name)?, name, options, ready })
    }

    fn scaling(&self) -> Result<Scaling, String> {
        let arguments = std::iter::once("preview").chain(self.options.iter().map(String::as_str));
        let read = Options::try_parse_from(arguments).map_err(|error| {
            let said = error.to_string();
            let first = said.lines().next().unwrap_or_default();
            clean(&in_a_browser(&first.strip_prefix("error: ").unwrap_or(first).replace(" <UNITS>", ""))).into_owned()
        })?;
        Ok(read.scaling)
    }
}

/// A sentence without the signs of a command line, where nobody has typed an option.
fn in_a_browser(why: &str) -> String {
    why.replace("--", "").replace('`', "")
}

/// What the page shows of one file.
#[derive(Debug)]
pub(super) struct View {
    /// For the page.
    pub(super) state: State,
    /// The card, as a page of its own.
    pub(super) card: Option<String>,
}

/// Reads a file with everything it uses.
///
/// # Errors
/// In plain words, when it cannot be read.
pub(super) fn read(place: &Place, asked: &Asked) -> Result<Read, String> {
    let mut loader = place.loader();
    let source = loader.load_as(&asked.path, &asked.name).map_err(|error| error.to_string())?;
    Ok(Read { project: Arc::new(loader.into_project()), source })
}

/// Makes the view; `follow` is told the folders of what it was made from.
///
/// # Errors
/// In plain words, when the file cannot be read.
pub(super) fn view(place: &Place, good: &Good, asked: &Asked, follow: &dyn Fn(Vec<PathBuf>)) -> Result<View, String> {
    let now = read(place, asked)?;
    follow(folders_of(place, &now));
    let problems = problems(&now);
    let broken = problems.iter().any(stops);
    let shown = if broken { good.last(&asked.path) } else { Some(now.clone()) };
    if !broken {
        good.keep(&asked.path, &now);
    }
    let (kind, title) = kind_of(&now, &asked.name);
    let sources = &now.project.sources;
    let mut state = State {
        file: asked.name.clone(),
        kind,
        title,
        problems: problems.iter().map(|problem| Problem::of(place, sources, problem)).collect(),
        said: None,
        stale: broken && shown.is_some(),
        card: None,
        makes: None,
        pieces: None,
        noun: None,
        choices: Vec::new(),
    };
    let Some(shown) = shown.filter(|_| matches!(kind, "recipe" | "day")) else { return Ok(View { state, card: None }) };
    let card = match asked.scaling().and_then(|scaling| card(&shown, &scaling, &mut state)) {
        Ok(card) => Some(card),
        Err(why) => {
            state.said = Some(in_a_browser(&why));
            None
        }
    };
    state.card =
        card.as_ref().map(|card| Sha256::digest(card).iter().take(12).map(|byte| format!("{byte:02x}")).collect());
    Ok(View { state, card })
}

/// The card as a page, and what it says of itself.
fn card(read: &Read, scaling: &Scaling, state: &mut State) -> Result<String, String> {
    let project = &read.project;
    if let Some(file) = project.file(read.source) {
        let chosen = scaling.selection(project, read.source).unwrap_or_default();
        state.choices = choices_of(&file.tree)
            .iter()
            .filter_map(|choice| {
                let taken = chosen.of(&choice.name.key).or_else(|| choice.options.first().map(|option| &option.key))?;
                Some(Choice {
                    name: clean(choice.name.to_string().as_str()).into_owned(),
                    options: choice.options.iter().map(|option| clean(&option.to_string()).into_owned()).collect(),
                    chosen: choice
                        .options
                        .iter()
                        .find(|option| option.key == *taken)
                        .map_or_else(String::new, |option| clean(&option.to_string()).into_owned()),
                })
            })
            .collect();
    }
    let made = batches::make(project, &[read.source], scaling, &Output::silent()).map_err(Stop::sentence)?;
    let (cards, day) = (made.cards(scaling)?, made.day);
    if let [one] = cards.as_slice()
        && day.is_none()
    {
        let makes = one.makes.as_ref();
        state.makes = makes.map(|makes| seen(&makes.shown));
        let noun = makes.and_then(|makes| Some(agreeing(makes.pieces?, makes.noun.as_deref()?)));
        state.noun = noun.map(|noun| clean(&noun).into_owned());
        let written = makes.and_then(|makes| makes.pieces?.over(one.factor).ok());
        state.pieces = written.map(show::number);
    }
    let sheet = Sheet {
        paper: Paper::A4,
        orientation: Paper::A4.usual_orientation(),
        by: By::Recipe,
        printed: jiff::ZonedDateTime::now().date().to_string(),
        compact: false,
        revision: None,
    };
    Ok(html::render(&cards, day.as_ref(), &sheet))
}

/// The plan as a page, unless it is given up.
///
/// # Errors
/// In plain words, why there is none.
pub(super) fn plan_page(
    place: &Place,
    good: &Good,
    asked: &Asked,
    given_up: &dyn Fn() -> bool,
) -> Result<String, String> {
    let mut loader = place.loader();
    let source = loader.load_as(&asked.path, &asked.name).map_err(|error| error.to_string())?;
    // A log that cannot be read at all, half written, is left for the next time.
    let logs = place.logs_beside(&asked.path).iter().filter_map(|log| loader.load_log(log).ok()).collect();
    let now = Read { project: Arc::new(loader.into_project()), source };
    let broken = problems(&now).iter().any(stops);
    let (read, logs) = if broken {
        let last = good.last(&asked.path).ok_or_else(|| "the problems have to be mended first".to_owned())?;
        (last, Vec::new())
    } else {
        (now, logs)
    };
    // The page remembers the time that a recipe was wanted for; a day says its own.
    let is_day = read.project.file(read.source).is_some_and(|file| file.tree.kind == FileKind::Day);
    let ready = asked.ready.as_deref().filter(|_| !is_day);
    let wanted = plan::OfPage { ready, logs };
    plan::page(&read.project, read.source, &asked.scaling()?, wanted, given_up).map_err(|why| in_a_browser(&why))
}

/// All problems of a file, for a day also those of the recipes it makes.
pub(super) fn problems(read: &Read) -> Vec<Diagnostic> {
    let mut found = check_file(&read.project, read.source);
    if let Some(day) = day(&read.project, read.source, &mut Vec::new()) {
        let mut seen: Vec<SourceId> = Vec::new();
        for order in &day.orders {
            if !seen.contains(&order.recipe) {
                seen.push(order.recipe);
                found.extend(check_file(&read.project, order.recipe));
            }
        }
    }
    found
}

/// Every file of the list, with how it stands; `follow` is told the folders of what they use.
pub(super) fn list(place: &Place, follow: &dyn Fn(Vec<PathBuf>)) -> Vec<Entry> {
    let (files, _) = place.listed();
    let mut loader = place.loader();
    let paths: Vec<PathBuf> = files.iter().map(|(_, real)| real.clone()).collect();
    let loaded: Vec<(String, SourceId)> = files
        .into_iter()
        .zip(loader.load_all(&paths))
        .filter_map(|((name, _), source)| Some((name, source.ok()?)))
        .collect();
    let project = Arc::new(loader.into_project());
    if let Some((_, source)) = loaded.first() {
        follow(folders_of(place, &Read { project: Arc::clone(&project), source: *source }));
    }
    let sources: Vec<SourceId> = loaded.iter().map(|(_, source)| *source).collect();
    let found = check_files(&project, &sources);
    let entries = loaded.into_iter().zip(found).map(|((file, source), problems)| {
        let (kind, title) = kind_of(&Read { project: Arc::clone(&project), source }, &file);
        let count = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
        Entry { file, kind, title, errors: count(Severity::Error), warnings: count(Severity::Warning) }
    });
    let mut entries: Vec<Entry> = entries.collect();
    // What is baked comes before what it is baked in and from.
    entries.sort_by_key(|entry| !matches!(entry.kind, "recipe" | "day"));
    entries
}

/// What a file is, and its name; the path where it has none.
fn kind_of(read: &Read, name: &str) -> (&'static str, String) {
    let Some(file) = read.project.file(read.source) else { return ("kitchen", name.to_owned()) };
    let title = title_of(&file.tree);
    let kind = match file.tree.kind {
        FileKind::Recipe => "recipe",
        FileKind::Day => "day",
        // Ingredients without a kitchen's name.
        FileKind::Kitchen if title.is_none() => {
            return ("larder", name.strip_suffix(".miche").unwrap_or(name).replace('-', " "));
        }
        FileKind::Kitchen => "kitchen",
        FileKind::Book => "book",
        FileKind::Bakes => return ("bakes", name.strip_suffix(".miche").unwrap_or(name).replace('-', " ")),
    };
    (kind, title.map_or_else(|| name.to_owned(), |title| clean(&title).into_owned()))
}

fn title_of(tree: &Tree) -> Option<String> {
    tree.lines.iter().find_map(|line| match &line.content {
        Content::Recipe(name) | Content::Day(name) | Content::Kitchen(name) => Some(name.to_string()),
        Content::OfBook(line) => match &**line {
            BookLine::Title(words) => Some(words.value.clone()),
            _ => None,
        },
        _ => None,
    })
}

/// The folders of everything a file uses, so that they are watched too.
fn folders_of(place: &Place, read: &Read) -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = read
        .project
        .sources
        .iter()
        .filter_map(|(_, source)| place.file(&place.name_shown(&source.name))?.parent().map(Path::to_owned))
        .collect();
    folders.sort();
    folders.dedup();
    folders
}
