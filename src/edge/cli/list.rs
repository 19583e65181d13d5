//! `miche list`: what to buy and what to weigh out, added up over recipes and days.

use super::batches;
use super::deliver::{Delivery, wanted};
use super::output::Output;
use super::printing::Printing;
use super::scaling::Scaling;
use super::stock::of_file;
use super::stop::Ended;
use crate::edge::loader::{Loader, Unreadable};
use crate::figures::list::{self, List};
use crate::language::near;
use crate::make::have::There;
use crate::make::stock::over;
use crate::measure::show::Units;
use crate::model::larder::Larder;
use crate::out;
use crate::text::source::SourceId;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `list` takes.
///
/// What stands on one sheet is asked of cards; a list is one, and who says it all the same is told so.
#[derive(Debug, Args)]
#[command(mut_arg("by", |by| by.hide(true)))]
pub(super) struct Arguments {
    /// Recipes and days; `-` is standard input
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
    #[command(flatten)]
    scaling: Scaling,
    /// A file of what there is, lines like `strong white flour .... 2 kg`; only what is lacking is bought, and what `--have` says
    /// goes before it
    #[arg(long, value_name = "FILE")]
    from: Option<PathBuf>,
    #[command(flatten)]
    printing: Printing,
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    format: Option<Format>,
    #[command(flatten)]
    delivery: Delivery,
}

/// What `--have` means for a list.
pub(super) const HAVE: &str = "So much of this is there, for example `strong white flour=2 kg`, and only what is lacking is bought; may be given several times";

/// How a list is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Plain text for a terminal
    Text,
    /// CommonMark with tables
    Markdown,
    /// One file for the browser and the printer
    Html,
    /// The same for the printer, without a browser
    Pdf,
    /// Comma-separated values for a spreadsheet
    Csv,
    /// For programs
    Json,
}

pub(super) fn run(arguments: &mut Arguments, output: &mut Output) -> Ended {
    let there_is = ThereIs { said: arguments.scaling.take_have()?, of_file: of_file(arguments.from.as_deref())? };
    let usual = if output.is_terminal() { Format::Text } else { Format::Markdown };
    let format = wanted(arguments.format, &arguments.delivery, usual)?;
    let mut loader = Loader::new();
    let sources: Result<Vec<SourceId>, Unreadable> = arguments.files.iter().map(|file| loader.load(file)).collect();
    let sources = sources?;
    let project = loader.into_project();
    let made = batches::make(&project, &sources, &arguments.scaling, output)?;
    let cards = made.cards(&arguments.scaling)?;
    let day = made.day;
    let list = list::of(&cards, arguments.scaling.units())
        .map_err(|_| "amounts of that size leave the range of exact numbers")?;
    let larders: Vec<&Larder> = made.work.batches.iter().map(|batch| &*batch.recipe.larder).collect();
    let list = less((list, &larders), &there_is, &made.stock, arguments.scaling.units())?;
    let text = match format {
        Format::Text => out::list::text(&list, arguments.delivery.style(output)),
        Format::Markdown => out::list::markdown(&list),
        Format::Html | Format::Pdf => {
            let first = arguments.files.first().map_or_else(|| PathBuf::from("-"), PathBuf::clone);
            let mut sheet = arguments.printing.sheet(&first);
            // The revision of one file would say nothing of a list over several.
            sheet.revision = sheet.revision.filter(|_| arguments.files.len() == 1);
            if format == Format::Pdf {
                return arguments.delivery.deliver_pdf(out::pdf::render_list(&list, day.as_ref(), &sheet), output);
            }
            out::html::render_list(&list, day.as_ref(), &sheet)
        }
        Format::Csv => out::list::csv(&list),
        Format::Json => out::list::json(&list)?,
    };
    arguments.delivery.deliver(&text, output)
}

/// What there is, by who says so: the command line, and the lines of a file that say something else.
struct ThereIs {
    said: Vec<There>,
    of_file: Vec<There>,
}

/// The list less what there is: as the days say it, over that the file, and over that what was said.
fn less(
    (list, larders): (List, &[&Larder]),
    there_is: &ThereIs,
    of_days: &[There],
    units: Units,
) -> Result<List, String> {
    if let Some((name, _)) = there_is.said.iter().find(|(name, _)| list.name_of(&name.key, larders).is_none()) {
        let hint = near::hint(name.key.as_str(), list.names());
        return Err(format!("--have {name}: nothing of that name is to be bought{hint}"));
    }
    let all = over(&over(of_days, &there_is.of_file), &there_is.said);
    list.less(&all, larders, units).map_err(|no_weight| no_weight.to_string())
}
