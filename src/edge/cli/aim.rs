//! `miche aim`: amounts that meet every aim of a recipe, as near to what is written as can be, or the cheapest.

use super::Outcome;
use super::amounts::{as_changed, recipe, write};
use super::deliver::Paged;
use super::output::Output;
use super::stop::Ended;
use crate::aims::change::{Answer, Line, Outcome as Reached, Way, Wish, lines, short, with_amounts, work_out};
use crate::aims::written;
use crate::check;
use crate::figures::aimed::{self, Aimed};
use crate::figures::compare::{FileVersion, versions};
use crate::language::mend::apply;
use crate::language::near;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::project::Project;
use crate::out;
use crate::out::comparison::Changes;
use crate::solve::resolve::{choices_of, selections};
use crate::text::capital::capital;
use crate::text::diagnostic::{Diagnostic, Mend};
use crate::text::source::SourceId;
use clap::Args;
use std::path::PathBuf;

/// What `aim` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe; `-` is standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Only these lines may change, for example `water,butter`; without it all but the base
    #[arg(long, value_name = "NAME,NAME", value_delimiter = ',')]
    change: Vec<String>,
    /// These lines stay as they are
    #[arg(long, value_name = "NAME,NAME", value_delimiter = ',')]
    keep: Vec<String>,
    /// Not the least change but the cheapest amounts that meet every aim
    #[arg(long)]
    cheapest: bool,
    /// Put the new amounts into the file; layout, comments and units stay
    #[arg(long)]
    write: bool,
    #[command(flatten)]
    paged: Paged,
}

/// An amount so large that nothing is worked out.
const TOO_LARGE: &str = "the amounts leave the range of exact numbers";

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let hint = "; aims stand in a file that begins with `recipe`";
    let Some((old, source)) = recipe(&arguments.file, arguments.write, hint, output)? else {
        return Ok(Outcome::Errors);
    };
    let ways = ways(&old.project, source);
    let all = lines(&ways);
    let free = free(&all, &arguments.change, &arguments.keep)?;
    let Some(first) = ways.first() else { return Err(TOO_LARGE.into()) };
    if ways.iter().all(|way| crate::aims::list(&way.recipe).is_empty()) {
        return Err(format!(
            "{} has no aims; write lines like `aim hydration 66-68 %` into its head or its parts",
            first.recipe.name
        )
        .into());
    }
    let wish = if arguments.cheapest { Wish::Cheapest } else { Wish::LeastChange };
    let reached = work_out(&ways, &all, &free, wish).map_err(|_| TOO_LARGE)?;
    let before = |remarks: Vec<String>, met: bool| Aimed {
        recipe: first.recipe.name.to_string(),
        met,
        was_met: met,
        aims: aimed::aims(&ways, &ways, &[]),
        lines: aimed::lines(&all, &free, &ways, &ways, &ways),
        apart: Vec::new(),
        remarks,
    };
    let (answer, changes, outcome) = match reached {
        Reached::Met => (before(Vec::new(), true), None, Outcome::Fine),
        Reached::OutOfReach(why) => (before(vec![capital(&format!("{why}."))], false), None, Outcome::Errors),
        Reached::Contradiction(contradiction) => {
            let apart = aimed::apart(&ways, &contradiction);
            let stays = stays(&all, &free).filter(|_| arguments.change.is_empty());
            (Aimed { apart, ..before(stays.into_iter().collect(), false) }, None, Outcome::Errors)
        }
        Reached::Found(found) => {
            let now = with_amounts(&ways, &all, &found.rounded).map_err(|_| TOO_LARGE)?;
            let exact =
                short(&found.exact).and_then(|exact| with_amounts(&ways, &all, &exact)).map_err(|_| TOO_LARGE)?;
            let (text, new) = changed(&old, arguments, (&all, &found.rounded), &ways, &now)?;
            // Of a leaven that nobody says the food of, a figure is about so much, whatever the amounts are.
            let open: Vec<&Diagnostic> = new.problems.iter().filter(|problem| problem.check == "aim-unknown").collect();
            let met = open.is_empty();
            let unknown = open.iter().map(|problem| {
                capital(&format!("{}: {}.", problem.said(), problem.help.as_deref().unwrap_or_default()))
            });
            let answer = Aimed {
                met,
                was_met: !old.problems.iter().any(|problem| problem.check == "aim-missed"),
                aims: aimed::aims(&ways, &now, &found.binding),
                lines: aimed::lines(&all, &free, &ways, &now, &exact),
                remarks: remarks(&found).into_iter().chain(unknown).collect(),
                ..before(Vec::new(), true)
            };
            let comparison = versions(&old, &new).ok_or(TOO_LARGE)?;
            if arguments.write {
                write(&arguments.file, (old.text().unwrap_or_default(), &old), (&text, &new))?;
            }
            let file = arguments.file.display().to_string();
            let outcome = if met { Outcome::Fine } else { Outcome::Errors };
            (answer, Some(Changes { file, comparison, text_changed: true }), outcome)
        }
    };
    let page = out::aimed::page(&answer, changes.as_ref());
    let json = || out::aimed::json(&answer).map_err(|error| error.to_string());
    arguments.paged.deliver((&page, &arguments.file), json, output)?;
    Ok(outcome)
}

/// The recipe under every choice.
fn ways(project: &Project, source: SourceId) -> Vec<Way> {
    let Some(file) = project.file(source) else { return Vec::new() };
    let selections = selections(&choices_of(&file.tree));
    let worked = selections.iter().filter_map(|selection| check::work_out(project, source, selection, &mut Vec::new()));
    worked.map(|(recipe, formula)| Way { recipe, formula }).collect()
}

/// The lines that may change, by their numbers.
///
/// # Errors
/// A sentence when a name is none of the recipe.
fn free(all: &[Line], change: &[String], keep: &[String]) -> Result<Vec<usize>, String> {
    let named = |names: &[String], option: &str| -> Result<Vec<usize>, String> {
        let mut found = Vec::new();
        for name in names {
            let key = Key::new(name);
            let here = all.iter().enumerate().filter(|(_, line)| line.is_called(&key));
            let before = found.len();
            found.extend(here.map(|(number, _)| number));
            if found.len() == before {
                let known = all.iter().map(|line| line.name.key.as_str());
                let hint = near::hint(key.as_str(), known);
                return Err(format!("{option} {name}: no line with an amount is called so{hint}"));
            }
        }
        Ok(found)
    };
    let (changed, kept) = (named(change, "--change")?, named(keep, "--keep")?);
    let may = |number: usize, line: &Line| {
        !kept.contains(&number) && if change.is_empty() { line.is_free } else { changed.contains(&number) }
    };
    Ok(all.iter().enumerate().filter(|(number, line)| may(*number, line)).map(|(number, _)| number).collect())
}

/// Which lines may not change unless somebody says so: the aims may be met with them.
fn stays(all: &[Line], free: &[usize]) -> Option<String> {
    let fixed = all.iter().enumerate().filter(|(number, _)| !free.contains(number));
    let names: Vec<String> =
        fixed.map(|(_, line)| format!("{} of {}", line.name, line.part)).take(MOST_NAMED).collect();
    let stay = if names.len() == 1 { "stays" } else { "stay" };
    (!names.is_empty()).then(|| format!("What is not named by `--change` {stay} as written: {}.", names.join(", ")))
}

/// So many lines are named that stay as they are.
const MOST_NAMED: usize = 12;

fn remarks(found: &Answer) -> Vec<String> {
    let mut remarks = Vec::new();
    if found.within_digits {
        remarks.push("A single value is met within what its digits leave open; exactly it cannot be.".to_owned());
    }
    if found.breaks_yield {
        remarks
            .push("What goes in no longer comes to what is said to come out: look at `divide` or `makes`.".to_owned());
    }
    remarks
}

/// The text with the new amounts, and what is found in it. An aim that is still missed there is no answer.
fn changed(
    old: &FileVersion,
    arguments: &Arguments,
    (all, times): (&[Line], &[Number]),
    before: &[Way],
    now: &[Way],
) -> Result<(String, FileVersion), String> {
    let file = old.project.file(old.source).ok_or(TOO_LARGE)?;
    let edits = written::edits(&file.tree, all, times, before, now).map_err(|_| TOO_LARGE.to_owned())?;
    let text = old.text().unwrap_or_default();
    let mend = Mend { title: String::new(), edits, certain: true };
    let text = apply(text, &[&mend]);
    let new = as_changed(&arguments.file, &text);
    if let Some(missed) = new.problems.iter().find(|problem| problem.check == "aim-missed") {
        return Err(format!(
            "the amounts that were found miss an aim when they are written ({}); nothing is changed",
            missed.message
        ));
    }
    Ok((text, new))
}
