//! `miche label`: ingredient list, allergens, quantities, net weight and nutrition of what is made.

use super::deliver::{PageFormat, Paged};
use super::figures::{AskedFor, Figures};
use super::output::Output;
use super::read::{date, whole};
use super::scaling::{amount, loss};
use super::stop::Ended;
use crate::figures::label;
use crate::language::syntax::FileKind;
use crate::make::batch::Batch;
use crate::make::work::Work;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Volume};
use crate::measure::value::Value;
use crate::model::allergen::Law;
use crate::model::sale::{Sale, Serving, Size};
use crate::out;
use crate::out::sticker::{LabelPaper, MOST, Sticker};
use clap::{Args, ValueEnum};
use std::cell::Cell;

/// What `label` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
    /// By whose law
    #[arg(long, value_enum, default_value_t = LawWanted::Eu)]
    law: LawWanted,
    /// What the oven takes of the weight, for example `12 %`, instead of what the recipe says
    #[arg(long, value_name = "PERCENT")]
    bake_loss: Option<String>,
    /// Say the quantity of this ingredient too; may be given several times
    #[arg(long, value_name = "NAME")]
    quantity: Vec<String>,
    /// What a serving is, for example `55 g`, `50 g, 1 slice` or `240 ml, 1 cup`, where it is not a piece (United States)
    #[arg(long, value_name = "AMOUNT")]
    serving: Option<String>,
    /// How many pieces are sold in one pack
    #[arg(long, value_name = "PIECES", value_parser = whole)]
    pack: Option<u32>,
    /// The day on which it is made, for the date of the label; a day's labels take the day for which it is ready
    #[arg(long, value_name = "YEAR-MONTH-DAY", value_parser = date)]
    made: Option<jiff::civil::Date>,
    /// On label paper, in millimetres: `3 x 8`, and after commas `sheet 210 x 297`, `margins 7 x 13`, `gaps 2.5 x 0`; into a file that ends
    /// in .pdf or .html
    #[arg(long, value_name = "COLUMNS x ROWS", conflicts_with = "report")]
    sheet: Option<String>,
    /// The largest side of the pack is under 80 cm², in the US no more than 40 square inches can bear a label, so the type may be smaller
    #[arg(long, requires = "sheet")]
    small_pack: bool,
    /// How many labels are printed of each, if not one for each pack
    #[arg(long, value_name = "N", requires = "sheet", value_parser = whole)]
    copies: Option<u32>,
    /// Behind the label, what it rests on: each ingredient with its larder entry, weight, allergens and sources
    #[arg(long)]
    report: bool,
}

/// By whose law.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum LawWanted {
    /// Regulation (EU) 1169/2011
    Eu,
    /// FALCPA, the FASTER Act and 21 CFR 101
    Us,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let bake_loss = arguments.bake_loss.as_deref().map(|text| loss("--bake-loss", text)).transpose()?;
    let law = match arguments.law {
        LawWanted::Eu => Law::Eu,
        LawWanted::Us => Law::Us,
    };
    let serving = arguments.serving.as_deref().map(serving).transpose()?;
    let wanted = label::Wanted {
        law,
        bake_loss,
        quantities: arguments.quantity.clone(),
        serving,
        pack: arguments.pack.map(|pieces| Count::new(Number::whole(i64::from(pieces)))),
        made: arguments.made,
        sale: Sale::default(),
    };
    let has_a_date = Cell::new(false);
    let of = |work: &Work, batch: &Batch, asked: &AskedFor<'_>| {
        let tree = asked.tree;
        // A day says its lot and business for all that it makes; what is made for a day is made on it.
        let of_day = if tree.kind == FileKind::Day { Sale::of_lines(&tree.lines) } else { Sale::default() };
        let made = wanted.made.or(batch.ready.map(|ready| ready.when.date()));
        let wanted = label::Wanted { sale: of_day, made, ..wanted.clone() };
        // A dough that is made for others of the day is on their labels.
        if !work.is_sold(batch) {
            return Ok(Vec::new());
        }
        let sold = work.sold(batch).map_err(|_| "a figure leaves the range of exact numbers")?;
        let labels = label::all(&batch.recipe, &sold, &wanted).map_err(|why| why.0)?;
        has_a_date.set(has_a_date.get() || labels.iter().any(|label| label.sale.good_for.is_some()));
        Ok(labels)
    };
    if arguments.serving.is_some() && law == Law::Eu {
        output.complain("--serving changes nothing here: a label of the European Union counts in 100 g, and has no serving; `--law us` has one");
    }
    if arguments.pack == Some(0) {
        return Err("--pack 0: a pack holds one piece at least".into());
    }
    if let Some(text) = &arguments.sheet {
        return stick(arguments, text, of, output);
    }
    let page = if arguments.report { out::label::report } else { out::label::page };
    let ended = arguments.figures.run(
        output,
        of,
        |labels, units| {
            let pages: Result<Vec<_>, _> = labels.iter().map(|label| page(label, units)).collect();
            pages.map(|pages| pages.into_iter().flatten().collect())
        },
        |_| Vec::new(),
        |all| out::label::json(&all.concat()),
    );
    if arguments.made.is_some() && ended.is_ok() && !has_a_date.get() {
        output.complain("--made changes nothing here: no label has a date; write `best before 5 days` or `use by 2 days` into the file");
    }
    ended
}

/// Labels on label paper.
fn stick(
    arguments: &Arguments,
    text: &str,
    of: impl Fn(&Work, &Batch, &AskedFor<'_>) -> Result<Vec<label::Label>, String>,
    output: &mut Output,
) -> Ended {
    let paper = LabelPaper::read(text)?;
    if arguments.copies == Some(0) {
        return Err("--copies 0: nothing would be printed".into());
    }
    let Paged { format, delivery, .. } = &arguments.figures.paged;
    let is_pdf = match format {
        Some(format) => *format == PageFormat::Pdf,
        None => delivery.ending().as_deref() == Some("pdf"),
    };
    let is_html = match format {
        Some(format) => *format == PageFormat::Html,
        None => matches!(delivery.ending().as_deref(), Some("html" | "htm")),
    };
    if !is_pdf && !is_html {
        return Err("labels on paper are PDF or HTML: write them with `-o labels.pdf` or `-o labels.html`".into());
    }
    let labels = arguments.figures.all(output, of)?.concat();
    if labels.iter().any(|label| label.sale.good_for.is_some() && label.made.is_none()) {
        return Err("a label that is stuck on has a date: say with `--made 2027-03-30` on which day it is made".into());
    }
    let copies = arguments.copies.and_then(|copies| usize::try_from(copies).ok());
    let stickers: Result<Vec<Sticker>, Overflow> =
        labels.iter().map(|label| out::label::sticker(label, arguments.small_pack, copies)).collect();
    let stickers = stickers.map_err(|_| "a figure leaves the range of exact numbers")?;
    let count = stickers.iter().fold(0_usize, |sum, sticker| sum.saturating_add(sticker.copies.unwrap_or(1)));
    if count > MOST {
        return Err(format!(
            "{count} labels are more than the {MOST} that are printed at once: say fewer with --copies"
        )
        .into());
    }
    let names: Vec<&str> = stickers.iter().map(|sticker| sticker.title.as_str()).collect();
    let title = format!("Labels: {}", names.join(", "));
    // What does not fit is said in its own words, and not as a PDF that could not be made.
    if let Some(why) = stickers.iter().find_map(|sticker| out::pdf::labels::fit(sticker, &paper).err()) {
        return Err(why.into());
    }
    if is_pdf {
        return delivery.deliver_pdf(out::pdf::labels::render(&stickers, &paper, &title), output);
    }
    delivery.deliver(&out::html::labels::render(&stickers, &paper, &title)?, output)
}

fn serving(text: &str) -> Result<Serving, String> {
    let (weight, words) = text.split_once(',').map_or((text, ""), |(weight, words)| (weight, words.trim()));
    let found = match amount(weight.trim()) {
        Some(Value::Mass(mass)) if mass > Mass::ZERO => Some(Size::Mass(mass)),
        Some(Value::Volume(volume)) if volume > Volume::ZERO => Some(Size::Volume(volume)),
        _ => None,
    };
    let size = found.ok_or_else(|| {
        format!("--serving {text}: this is no weight such as `55 g` or `50 g, 1 slice`, and no volume such as `240 ml, 1 cup`")
    })?;
    Ok(Serving { size, words: (!words.is_empty()).then(|| words.to_owned()) })
}
