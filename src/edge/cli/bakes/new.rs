//! `miche bakes new`: begins a bake in the log of a recipe.

use super::super::Outcome;
use super::super::batches;
use super::super::output::Output;
use super::super::scaling::Scaling;
use super::super::stop::Ended;
use crate::edge::loader::{Loader, read_text, reason_to_write, write_new, write_over};
use crate::edge::past::gather::recipe_of;
use crate::edge::past::recalled::Past;
use crate::figures::bakes::blank;
use crate::language::bakes::Log;
use crate::language::merge::is_merge_mark;
use crate::language::syntax::{Content, Tree};
use crate::out::report::{clean, on_one_line};
use crate::text::line_break;
use crate::text::source::SourceId;
use clap::Args;
use jiff::civil::{Date, Time};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// What `bakes new` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe, or the log of its bakes; without a log one is begun beside the recipe
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    scaling: Scaling,
    /// When the bake begins, for example "2027-03-02 05:30"; without it now
    #[arg(long, value_name = "WHEN")]
    at: Option<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let file = &arguments.file;
    let begins = begins(arguments.at.as_deref())?;
    let recipe = recipe_of(file)?.ok_or_else(|| format!("{} is no recipe and no log of bakes", file.display()))?;
    let log = if recipe == *file { log_of(&recipe)? } else { file.clone() };
    let mut loader = Loader::new();
    let source = loader.load(&recipe)?;
    let project = loader.into_project();
    let made = batches::make(&project, &[source], &arguments.scaling, output)?;
    let Some(batch) = made.work.batches.first() else { return Err("there is nothing to bake".into()) };
    let there = log.exists().then(|| read_text(&log)).transpose()?;
    let text = there.as_deref().unwrap_or_default();
    let (tree, _) = crate::language::parse::parse(SourceId(0), text);
    let before = Log::of(&tree, text);
    if let Some(line) = merge_mark(&tree, text) {
        return Err(format!(
            "{}: line {line} is a mark of a merge that left two versions; keep one of them, take the marks out, and begin the bake \
             then",
            log.display()
        )
        .into());
    }
    // With a time said of both, two of them would be an error.
    if before.bakes.iter().any(|bake| bake.time.is_some() && bake.said(" ") == begins) {
        let log = log.display();
        return Err(
            format!("{log}: a bake of {begins} stands there already; another has another time, --at says it").into()
        );
    }
    let blank = blank::of(batch, &judged(&before));
    let block = blank::text(&blank, &begins);
    let written = match &there {
        Some(text) => {
            let line_break = line_break::usual(text);
            let gap = if text.is_empty() || text.ends_with(['\n', '\r']) { "" } else { line_break };
            let added = block.replace('\n', line_break);
            write_over(&log, text, format!("{text}{gap}{line_break}{added}"))
        }
        None => write_new(&log, first(&recipe, &block)?.as_bytes()),
    };
    written.map_err(|error| format!("{}: {}", log.display(), reason_to_write(&log, &error)))?;
    let bake = block.lines().next().unwrap_or_default().to_owned();
    output.print(&format!("{}: {}\n", clean(&log.display().to_string()), clean(&bake)));
    Ok(Outcome::Fine)
}

/// The number of the first line that a merge left as a mark. Behind it nobody knows yet which of two versions a log is.
fn merge_mark(tree: &Tree, text: &str) -> Option<usize> {
    tree.lines
        .iter()
        .position(|line| line.content == Content::Stray && is_merge_mark(text.get(line.said.range()).unwrap_or("")))
        .map(|at| at + 1)
}

/// A log that begins with a bake. What it says it is a log of is read again: not every name of a file can stand in a text.
fn first(recipe: &Path, block: &str) -> Result<String, String> {
    let name = recipe.file_name().and_then(OsStr::to_str);
    let text = name.map(|name| format!("bakes of \"{name}\"\n\n{block}"));
    let names_it = |text: &String| {
        let (tree, _) = crate::language::parse::parse(SourceId(0), text);
        Log::of(&tree, text).of.as_ref().map(|of| of.value.as_str()) == name
    };
    text.filter(names_it).ok_or_else(|| {
        let shown = on_one_line(&recipe.display().to_string());
        format!("a log cannot name {shown}: quotation marks, line breaks and what is no text cannot stand in it; give the recipe another name")
    })
}

/// The one log of a recipe, or the one that is begun beside it.
fn log_of(recipe: &Path) -> Result<PathBuf, String> {
    match Past::default().logs_of(recipe).as_slice() {
        [one] => Ok(one.clone()),
        [] => {
            let stem = recipe.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
            let log = recipe.with_file_name(format!("{stem}-bakes.miche"));
            if log.exists() {
                return Err(format!("{} is there already, and is no log of {}", log.display(), recipe.display()));
            }
            Ok(log)
        }
        several => {
            let names: Vec<String> = several.iter().map(|log| log.display().to_string()).collect();
            Err(format!("{} has several logs; name one of {}", recipe.display(), crate::measure::show::list(&names)))
        }
    }
}

/// `2027-03-02 05:30`, by the option or by the clock.
fn begins(at: Option<&str>) -> Result<String, String> {
    let Some(text) = at else { return Ok(jiff::ZonedDateTime::now().strftime("%Y-%m-%d %H:%M").to_string()) };
    let unreadable = || format!("--at {text}: write a day and a time, \"2027-03-02 05:30\"");
    let mut words = text.split_whitespace();
    let date: Date = words.next().ok_or_else(unreadable)?.parse().map_err(|_| unreadable())?;
    let time = words.next().map(|time| Time::strptime("%H:%M", time).map_err(|_| unreadable())).transpose()?;
    if words.next().is_some() {
        return Err(unreadable());
    }
    Ok(time.map_or_else(|| date.to_string(), |time| format!("{date} {}", time.strftime("%H:%M"))))
}

/// What the bakes in the log beside a recipe were judged by; nothing where there is none.
pub(in crate::edge::cli) fn judged_before(recipe: &Path) -> Vec<String> {
    let log = log_of(recipe).ok().filter(|log| log.exists());
    let Some(text) = log.and_then(|log| read_text(&log).ok()) else { return Vec::new() };
    let (tree, _) = crate::language::parse::parse(SourceId(0), &text);
    judged(&Log::of(&tree, &text))
}

/// What bakes before were judged by, in the order of the last one.
fn judged(log: &Log) -> Vec<String> {
    let last = log.bakes.iter().rev().find(|bake| !bake.judged.is_empty());
    last.map_or_else(Vec::new, |bake| bake.judged.iter().map(|judged| judged.name.to_string()).collect())
}
