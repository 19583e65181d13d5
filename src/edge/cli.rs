//! The command line: one file a command.

mod aim;
mod amounts;
mod bakes;
mod batches;
mod book;
mod busy;
mod called;
mod card;
mod check;
mod cost;
mod day_figures;
mod deliver;
mod diff;
mod editor;
mod explain;
mod figures;
mod fix;
mod groups;
mod history;
mod label;
mod list;
mod merge;
mod new;
mod orders;
mod output;
mod pictures;
mod plan;
mod preview;
mod printing;
mod read;
mod reader;
mod scaling;
mod setup;
mod stock;
mod stop;
mod streams;
mod sums;
mod swap;
mod tidy;
mod to_make;
mod unused;

use crate::out::report;
use called::Called;
use clap::{CommandFactory, FromArgMatches, Parser, Subcommand, ValueEnum};
use output::Output;
use std::ffi::OsString;
use std::process::ExitCode;
use stop::Stop;

/// A compiler for formulas that bakers write.
#[derive(Debug, Parser)]
#[command(name = "miche", version, about, max_term_width = 100)]
#[command(after_help = "Exit status: 0 fine, 1 errors in a recipe, 2 wrong use or a file that cannot be read.")]
struct Arguments {
    /// When to colour what is printed
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    color: Colour,
    #[command(subcommand)]
    command: Command,
}

/// When to colour.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Colour {
    /// On a terminal, unless NO_COLOR is set
    Auto,
    /// Also into files and pipes
    Always,
    /// Nowhere
    Never,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Write a first file, from a few questions or from notes
    New(new::Arguments),
    /// Find every problem in every file, at once
    Check(check::Arguments),
    /// Make batch cards: what to weigh, what to do, scaled to any size
    Card(card::Arguments),
    /// A book for readers: a site, a booklet to print, an EPUB
    Book(book::Arguments),
    /// Say what changed in the formula, not in the text
    Diff(diff::Arguments),
    /// Show how a formula changed over its git revisions
    History(history::Arguments),
    /// What the log of bakes says, beside the formula of the day
    Bakes(bakes::Arguments),
    /// Merge two changed versions of a file, as git asks for it
    Merge(merge::Arguments),
    /// Tell git, a shell or the manual of miche
    Setup(setup::Arguments),
    /// Bring files into the one layout; never changes what they say
    Tidy(tidy::Arguments),
    /// The sums of the bench: water and ice, yeast, levain, tins
    Sums(sums::Arguments),
    /// What to buy and to weigh out, added up
    List(list::Arguments),
    /// The label: ingredients, allergens, quantities, net weight, nutrition
    Label(label::Arguments),
    /// What a batch, a part and a piece cost
    Cost(cost::Arguments),
    /// The least change of the amounts that meets every aim, or the cheapest
    Aim(aim::Arguments),
    /// One ingredient for others, the composition kept
    Swap(swap::Arguments),
    /// The largest batch from what there is, and what remains
    Stock(stock::Arguments),
    /// Say when to do what, for one recipe, several, or a day in one kitchen
    Plan(plan::Arguments),
    /// Serve an editor: the language server
    Editor(editor::Arguments),
    /// Show cards, plans and problems in a browser, live as files are saved
    Preview(preview::Arguments),
    /// Say what a check means, why, and how to mend it
    Explain(explain::Arguments),
}

/// How a run of the program ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Nothing to complain of.
    Fine,
    /// Errors in a recipe.
    Errors,
    /// Wrong use, or a file that cannot be read.
    Trouble,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> ExitCode {
        ExitCode::from(match outcome {
            Outcome::Fine => 0,
            Outcome::Errors => 1,
            Outcome::Trouble => 2,
        })
    }
}

/// Runs the program on the arguments it was started with.
pub fn run() -> ExitCode {
    run_with(std::env::args_os()).into()
}

/// Git calls its drivers with whatever a file is called, `--help.miche` too: what stands behind them is no option.
fn as_git_means(arguments: impl IntoIterator<Item = OsString>) -> Vec<OsString> {
    let mut all: Vec<OsString> = arguments.into_iter().collect();
    let is = |at: usize, words: &[&str]| all.get(at).is_some_and(|one| words.iter().any(|word| one == word));
    if is(1, &["diff"]) && is(2, &["--git", "--textconv"]) && !is(3, &["--"]) {
        all.insert(3, "--".into());
    }
    all
}

/// The command line as it is defined: what is read, printed as help, completed and put into the manual.
fn command() -> clap::Command {
    let command = Arguments::command()
        .mut_subcommand("list", |list| list.mut_arg("have", |have| have.help(list::HAVE)))
        .mut_subcommand("stock", |stock| {
            // It finds the size of the batch itself.
            stock::NOT_ASKED.iter().fold(stock, |stock, id| stock.mut_arg(id, |one| one.hide(true)))
        });
    groups::grouped(command)
}

fn run_with(arguments: impl IntoIterator<Item = OsString>) -> Outcome {
    let mut command = command();
    let typed = read::with_minus(&command, as_git_means(arguments));
    let read = command.try_get_matches_from_mut(&typed);
    let read = read.and_then(|matches| Ok((Arguments::from_arg_matches(&matches)?, matches)));
    let (arguments, matches) = match read {
        Ok(read) => read,
        Err(error) => {
            // clap prints help to standard output and mistakes to standard error.
            if !error.use_stderr() {
                // A reader that has gone away (`| head`) is no mistake.
                let _ = error.print();
                return Outcome::Fine;
            }
            let output = Output::new(Colour::Never);
            if let Some(why) = read::refused(&error).or_else(|| read::file_with_dash(&error, &typed)) {
                return Stop::from(why).tell(&output);
            }
            // It repeats what was typed, which may hold anything.
            output.print_error_text(&report::clean(&error.render().to_string()));
            return Outcome::Trouble;
        }
    };
    let mut output = Output::new(arguments.color);
    let called = Called::of(&command, &matches);
    if let Err(why) = streams::check(&called) {
        return Stop::from(why).tell(&output);
    }
    for sentence in unused::told(&called) {
        output.complain(&sentence);
    }
    let ended = match arguments.command {
        Command::New(arguments) => new::run(&arguments, &mut output),
        Command::Check(arguments) => check::run(&arguments, &mut output),
        Command::Card(arguments) => card::run(&arguments, &mut output),
        Command::Book(arguments) => book::run(&arguments, &mut output),
        Command::Diff(arguments) => diff::run(&arguments, &mut output),
        Command::History(arguments) => history::run(&arguments, &mut output),
        Command::Bakes(arguments) => bakes::run(&arguments, &mut output),
        Command::Merge(arguments) => merge::run(&arguments, &mut output),
        Command::Setup(arguments) => setup::run(&arguments, &mut output),
        Command::Tidy(arguments) => tidy::run(&arguments, &mut output),
        Command::Sums(arguments) => sums::run(&arguments, &mut output),
        Command::List(mut arguments) => list::run(&mut arguments, &mut output),
        Command::Label(arguments) => label::run(&arguments, &mut output),
        Command::Cost(arguments) => cost::run(&arguments, &mut output),
        Command::Aim(arguments) => aim::run(&arguments, &mut output),
        Command::Swap(arguments) => swap::run(&arguments, &mut output),
        Command::Stock(mut arguments) => stock::run(&mut arguments, &mut output),
        Command::Plan(arguments) => plan::run(&arguments, &mut output),
        Command::Editor(arguments) => editor::run(&arguments, &mut output),
        Command::Preview(arguments) => preview::run(&arguments, &mut output),
        Command::Explain(arguments) => explain::run(&arguments, &mut output),
    };
    let outcome = ended.unwrap_or_else(|stop| stop.tell(&output));
    match output.failed() {
        Some(error) => {
            output.complain(&format!("standard output: {}", crate::edge::loader::reason(error)));
            Outcome::Trouble
        }
        None => outcome,
    }
}
