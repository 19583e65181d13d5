//! `miche card`: batch cards.

use super::Outcome;
use super::bakes::as_baked::AsBaked;
use super::bakes::judged_before;
use super::batches::{self, Made, complain};
use super::day_figures::DayFigures;
use super::deliver::{Delivery, wanted};
use super::output::Output;
use super::scaling::Scaling;
use super::sheet::Printing;
use crate::figures::bakes::blank::{self, Blank};
use crate::figures::card::Card;
use crate::figures::sums::sections::on_card;
use crate::make::mix::Today;
use crate::out;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `card` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe or a day; `-` is standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    scaling: Scaling,
    #[command(flatten)]
    as_baked: AsBaked,
    /// Print behind the cards a sheet of the log for each, to fill in by hand
    #[arg(long)]
    log: bool,
    #[command(flatten)]
    today: DayFigures,
    #[command(flatten)]
    printing: Printing,
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    format: Option<Format>,
    #[command(flatten)]
    delivery: Delivery,
}

/// How a card is printed.
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
    /// For programs
    Json,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let usual = if output.is_terminal() { Format::Text } else { Format::Markdown };
    let format = match wanted(arguments.format, &arguments.delivery, usual) {
        Ok(format) => format,
        Err(why) => return complain(output, &why),
    };
    if arguments.log && format == Format::Json {
        return complain(output, "--log is a sheet to fill in by hand: take --format text, markdown, html or pdf");
    }
    let mut loader = match arguments.as_baked.loader(std::slice::from_ref(&arguments.file), output) {
        Ok(loader) => loader,
        Err(why) => return complain(output, &why),
    };
    let source = match loader.load(&arguments.file) {
        Ok(source) => source,
        Err(error) => {
            output.complain(&error.to_string());
            return Outcome::Trouble;
        }
    };
    let project = loader.into_project();
    let made = batches::make(&project, &[source], &arguments.scaling, output);
    let (made, cards) = match made.and_then(|made| Ok((made.cards(&arguments.scaling, output)?, made))) {
        Ok((cards, made)) => (made, cards),
        Err(outcome) => return outcome,
    };
    let cards = match pour_today(&made, cards, arguments) {
        Ok(cards) => cards,
        Err(why) => return complain(output, &why),
    };
    let logs: Vec<Blank> = if arguments.log {
        let judged = judged_before(&arguments.file);
        made.work.batches.iter().map(|batch| blank::of(batch, &judged)).collect()
    } else {
        Vec::new()
    };
    let style = arguments.delivery.style(output);
    let day = made.day.as_ref();
    let text = match format {
        Format::Text => Ok(out::card::text(&cards, day, style) + &out::card::logs(&logs, Some(style))),
        Format::Markdown => Ok(out::card::markdown(&cards, day) + &out::card::logs(&logs, None)),
        Format::Html => match arguments.printing.sheet(&arguments.file) {
            Ok(sheet) => Ok(out::html::render_logged(&cards, day, &logs, &sheet)),
            Err(why) => return complain(output, &why),
        },
        Format::Pdf => match arguments.printing.sheet(&arguments.file) {
            Ok(sheet) => {
                return arguments.delivery.deliver_pdf(&out::pdf::render_logged(&cards, day, &logs, &sheet), output);
            }
            Err(why) => return complain(output, &why),
        },
        // A recipe is one card, a day a list of them, also when it holds only one.
        Format::Json => match cards.as_slice() {
            [card] if day.is_none() => out::json::render(card),
            cards => out::json::render_all(cards),
        },
    };
    match text {
        Ok(text) => arguments.delivery.deliver(&text, output),
        Err(error) => {
            output.complain(&error.to_string());
            Outcome::Trouble
        }
    }
}

/// Puts the water for the day's temperatures on the cards, where they were given.
fn pour_today(made: &Made, mut cards: Vec<Card>, arguments: &Arguments) -> Result<Vec<Card>, String> {
    let today = arguments.today.today()?;
    if today == Today::default() {
        return Ok(cards);
    }
    let units = arguments.scaling.units();
    for (batch, card) in made.work.batches.iter().zip(&mut cards) {
        for part in &mut card.parts {
            let water = on_card(&batch.recipe, &batch.formula, part.id, &today, units)
                .map_err(|_| "temperatures of that size leave the range of exact numbers".to_owned())?;
            part.water_shown = water.as_ref().map(|water| water.words.clone());
            part.water_rooms = water.and_then(|water| water.rooms);
        }
    }
    Ok(cards)
}
