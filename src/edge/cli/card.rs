//! `miche card`: batch cards.

use super::bakes::judged_before;
use super::batches::Made;
use super::day_figures::DayFigures;
use super::deliver::{Delivery, wanted};
use super::output::Output;
use super::printing::Printing;
use super::reader;
use super::stop::Ended;
use super::to_make::ToMake;
use crate::figures::bakes::blank::{self, Blank};
use crate::figures::card::Card;
use crate::figures::sums::sections::on_card;
use crate::make::mix::Today;
use crate::out;
use clap::{Args, ValueEnum};

/// What `card` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    to_make: ToMake,
    /// For whom: sheets for the bench, or a recipe for those who read it at home
    #[arg(long = "for", value_enum, default_value_t = Audience::Bench)]
    audience: Audience,
    /// For a reader: when it is to be served, for example 16:00; the steps then say when to begin
    #[arg(long, value_name = "HH:MM")]
    serve: Option<String>,
    /// Say of each part how long before it is taken it may be made, and how it is kept until then
    #[arg(long)]
    ahead: bool,
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

/// Whom a card is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Audience {
    /// Who stands at the bench: weights, percentages, loads
    Bench,
    /// Who reads it at home: story, pictures, the author's own words
    Reader,
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

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let usual = if output.is_terminal() { Format::Text } else { Format::Markdown };
    let format = wanted(arguments.format, &arguments.delivery, usual)?;
    if arguments.log && format == Format::Json {
        return Err("--log is a sheet to fill in by hand: take --format text, markdown, html or pdf".into());
    }
    let file = &arguments.to_make.file;
    if arguments.audience == Audience::Reader {
        return for_reader(arguments, format, output);
    }
    if arguments.serve.is_some() {
        return Err("--serve is for readers: add --for reader; a plan says when to begin with --ready".into());
    }
    let (_, _, made) = arguments.to_make.make(output)?;
    let written = made.cards(&arguments.to_make.scaling)?;
    if let Some(doubt) = arguments.today.doubt() {
        output.complain(&doubt);
    }
    let mut cards = if arguments.today.given().is_empty() {
        written
    } else {
        let poured = pour_today(&made, written.clone(), arguments)?;
        if poured == written {
            output.complain(&arguments.today.in_vain());
        }
        poured
    };
    if arguments.ahead {
        cards.iter_mut().for_each(|card| card.mark_ahead(arguments.to_make.scaling.units()));
        if cards.iter().flat_map(|card| &card.parts).all(|part| part.ahead.is_none()) {
            output.complain("--ahead changes nothing here: no part may be made ahead; `keeps 2 days, chilled` says of one how long it may stand");
        }
    }
    let logs: Vec<Blank> = if arguments.log {
        let judged = judged_before(file);
        made.work.batches.iter().map(|batch| blank::of(batch, &judged)).collect()
    } else {
        Vec::new()
    };
    let style = arguments.delivery.style(output);
    let day = made.day.as_ref();
    let sheet = || arguments.printing.sheet(file);
    let text = match format {
        Format::Text => out::card::text(&cards, day, style) + &out::card::logs(&logs, Some(style)),
        Format::Markdown => out::card::markdown(&cards, day) + &out::card::logs(&logs, None),
        Format::Html => out::html::render_logged(&cards, day, &logs, &sheet()),
        Format::Pdf => {
            return arguments.delivery.deliver_pdf(out::pdf::render_logged(&cards, day, &logs, &sheet()), output);
        }
        // A recipe is one card, a day a list of them, also when it holds only one.
        Format::Json => match cards.as_slice() {
            [card] if day.is_none() => out::json::render(card)?,
            cards => out::json::render_all(cards)?,
        },
    };
    arguments.delivery.deliver(&text, output)
}

/// The same files for those who read them at home.
fn for_reader(arguments: &Arguments, format: Format, output: &mut Output) -> Ended {
    if arguments.log {
        return Err("--log is a sheet for the bench: leave --for reader away".into());
    }
    if arguments.ahead {
        return Err(
            "--ahead marks the cards of the bench; a recipe for readers says by itself what can be made ahead".into()
        );
    }
    if arguments.today.today()? != Today::default() {
        return Err("the day's temperatures are for the bench: leave --for reader away".into());
    }
    let sheet = || arguments.printing.sheet(&arguments.to_make.file);
    let format = match format {
        Format::Text => reader::As::Text,
        Format::Markdown => reader::As::Markdown,
        Format::Html => reader::As::Html(sheet()),
        Format::Pdf => reader::As::Pdf(sheet()),
        Format::Json => reader::As::Json,
    };
    reader::run(&arguments.to_make, arguments.serve.as_deref(), &format, &arguments.delivery, output)
}

/// Puts the water for the day's temperatures on the cards, where they were given.
fn pour_today(made: &Made, mut cards: Vec<Card>, arguments: &Arguments) -> Result<Vec<Card>, String> {
    let today = arguments.today.today()?;
    if today == Today::default() {
        return Ok(cards);
    }
    let units = arguments.to_make.scaling.units();
    for (batch, card) in made.work.batches.iter().zip(&mut cards) {
        for part in &mut card.parts {
            let loads = part.load.as_ref().map_or(1, |load| load.loads);
            let water = on_card(&batch.recipe, &batch.formula, part.id, (&today, loads), units)
                .map_err(|_| "temperatures of that size leave the range of exact numbers".to_owned())?;
            part.water_shown = water.as_ref().map(|water| water.words.clone());
            part.water_rooms = water.and_then(|water| water.rooms);
        }
    }
    Ok(cards)
}
