//! `miche bakes`: what the log of bakes says beside the formula as it stood each day.

pub(super) mod as_baked;
mod new;

pub(super) use new::judged_before;

use super::Outcome;
use super::batches::show;
use super::deliver::{Delivery, wanted};
use super::output::Output;
use super::printing::Setting;
use super::read::date;
use super::stop::Ended;
use super::streams::is_stream;
use crate::edge::loader::{find_logs, read_text};
use crate::edge::past::gather::{Gathered, gather, recipe_of};
use crate::edge::past::logs::Recipes;
use crate::edge::past::recalled::Past;
use crate::figures::bakes::otherwise;
use crate::out;
use crate::out::page::Page;
use crate::text::capital::capital;
use crate::text::diagnostic::Severity;
use clap::{Args, Subcommand, ValueEnum};
use jiff::civil::Date;
use std::path::{Path, PathBuf};

/// What `bakes` takes.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    command: Option<What>,
    /// A recipe, a log of its bakes, or a folder of them; `-` is a log from standard input
    #[arg(value_name = "FILE|FOLDER", required = true)]
    path: Option<PathBuf>,
    /// The day on which it is asked, for example 2027-03-05; a bake after it is told to be still to come. Without it today
    #[arg(long, value_name = "DATE", value_parser = date)]
    on: Option<Date>,
    /// How to print it; without it, what the ending of `-o` says, or text
    #[arg(long, value_enum)]
    format: Option<Format>,
    #[command(flatten)]
    delivery: Delivery,
    #[command(flatten)]
    setting: Setting,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Begin a bake in a recipe's log, with all lines ready to fill in
    New(new::Arguments),
}

/// How the bakes are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Plain text for a terminal
    Text,
    /// CommonMark with tables
    Markdown,
    /// One file for the browser and the printer, with its drawing
    Html,
    /// The same for the printer, without a browser
    Pdf,
    /// For programs
    Json,
    /// For a spreadsheet: one row a measurement
    Csv,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    if let Some(What::New(arguments)) = &arguments.command {
        return new::run(arguments, output);
    }
    let Some(path) = &arguments.path else { return Err("give a recipe, a log or a folder".into()) };
    let format = wanted(arguments.format, &arguments.delivery, Format::Text)?;
    let today = arguments.on.unwrap_or_else(|| jiff::ZonedDateTime::now().date());
    let all = all_of(path, today)?;
    for one in &all {
        show(&one.project, &one.problems, output);
    }
    if all.iter().any(Gathered::has_errors) {
        return Ok(Outcome::Errors);
    }
    let told: Vec<_> = all.iter().map(Gathered::told).collect();
    if told.iter().all(|told| told.rows.is_empty()) && path.is_dir() {
        return Err(format!("there is no log of bakes in {}", path.display()).into());
    }
    let is_looked_at = matches!(format, Format::Html | Format::Pdf);
    let pages = all.iter().zip(&told).map(|(gathered, told)| {
        let others = gathered.file().map_or_else(Vec::new, |file| otherwise::problems(told, file));
        let others: Vec<String> = others
            .iter()
            .filter(|problem| problem.severity == Severity::Advice)
            .map(|problem| match &problem.help {
                Some(help) => format!("{}: {help}.", capital(&problem.message)),
                None => format!("{}.", capital(&problem.message)),
            })
            .collect();
        out::bakes::page(told, &gathered.remarks, &others, is_looked_at)
    });
    let style = arguments.delivery.style(output);
    let text = match format {
        Format::Json => out::bakes::json::render_all(&told)?,
        Format::Csv => out::bakes::csv::render(&told),
        Format::Text => pages.map(|page| page.text(style)).collect::<Vec<String>>().join("\n"),
        Format::Markdown => pages.map(|page| page.markdown()).collect::<Vec<String>>().join("\n"),
        Format::Html => Page::joined(pages.collect()).ok_or("there is nothing to show")?.html(),
        Format::Pdf => {
            let page = Page::joined(pages.collect()).ok_or("there is nothing to show")?;
            let made = out::pdf::render_page(&page, &arguments.setting.sheet(path));
            return arguments.delivery.deliver_pdf(made, output);
        }
    };
    let ended = arguments.delivery.deliver(&text, output);
    // The run ends here, and its memory with it: what years of bakes take of it need not be given back piece by piece.
    std::mem::forget((all, told));
    ended
}

/// The bakes of a recipe, of the recipe of a log, or of every recipe that a log in a folder names.
fn all_of(path: &Path, today: Date) -> Result<Vec<Gathered>, String> {
    if !path.is_dir() {
        let Some(recipe) = recipe_of(path)? else {
            return Err(format!("{} is no recipe and no log of bakes", path.display()));
        };
        if !is_stream(path) && read_text(path).is_ok_and(|text| text.trim().is_empty()) {
            return Err(format!("{} is no recipe and no log of bakes: nothing stands in it", path.display()));
        }
        if is_stream(&recipe) {
            return Err("no log is of a recipe from standard input; give the recipe's file, or its log".to_owned());
        }
        let named = if recipe == path { Vec::new() } else { vec![path.to_owned()] };
        return Ok(vec![gather(&recipe, &named, &mut Past::default(), today)?]);
    }
    let logs = find_logs(path);
    if logs.is_empty() {
        return Err(format!(
            "there is no log of bakes in {}; one begins with `bakes of \"rolls.miche\"`",
            path.display()
        ));
    }
    let mut recipes = Recipes::default();
    for log in logs {
        if let Some(recipe) = recipe_of(&log)? {
            recipes.note(recipe, log);
        }
    }
    let mut around = Past::default();
    recipes.list().iter().map(|(recipe, logs)| gather(recipe, logs, &mut around, today)).collect()
}
