//! `miche label`: ingredient list, allergens, quantities, net weight and nutrition of what is made.

use super::Outcome;
use super::batches::complain;
use super::deliver::PageFormat;
use super::figures::Figures;
use super::output::Output;
use super::scaling::{loss, mass};
use crate::figures::label;
use crate::language::syntax::{FileKind, Tree};
use crate::make::batch::Batch;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::model::allergen::Law;
use crate::model::sale::Sale;
use crate::out;
use crate::out::sticker::{LabelPaper, Sticker};
use clap::{Args, ValueEnum};

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
    /// What a serving weighs, for example `55 g`, where it is not a piece (United States)
    #[arg(long, value_name = "WEIGHT")]
    serving: Option<String>,
    /// How many pieces are sold in one pack
    #[arg(long, value_name = "PIECES")]
    pack: Option<u32>,
    /// The day on which it is made, for the date of the label; a day's labels take the day for which it is ready
    #[arg(long, value_name = "YEAR-MONTH-DAY")]
    made: Option<jiff::civil::Date>,
    /// On label paper, in millimetres: `3 x 8`, and after commas `sheet 210 x 297`, `margins 7 x 13`, `gaps 2.5 x 0`; into a file that ends
    /// in .pdf or .html
    #[arg(long, value_name = "COLUMNS x ROWS", conflicts_with = "report")]
    sheet: Option<String>,
    /// The largest side of the pack is under 80 cm², so the type may be smaller
    #[arg(long, requires = "sheet")]
    small_pack: bool,
    /// How many labels are printed of each, if not one for each pack
    #[arg(long, value_name = "N", requires = "sheet")]
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

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let bake_loss = arguments.bake_loss.as_deref().map(|text| loss("--bake-loss", text));
    let bake_loss = match bake_loss.transpose() {
        Ok(bake_loss) => bake_loss,
        Err(why) => return complain(output, &why),
    };
    let law = match arguments.law {
        LawWanted::Eu => Law::Eu,
        LawWanted::Us => Law::Us,
    };
    let serving = match arguments.serving.as_deref().map(weight).transpose() {
        Ok(serving) => serving,
        Err(why) => return complain(output, &why),
    };
    if arguments.pack == Some(0) {
        return complain(output, "--pack 0: a pack holds one piece at least");
    }
    let wanted = label::Wanted {
        law,
        bake_loss,
        quantities: arguments.quantity.clone(),
        serving,
        pack: arguments.pack.map(|pieces| Count::new(Number::whole(i64::from(pieces)))),
        made: arguments.made,
        sale: Sale::default(),
    };
    let of = |batch: &Batch, tree: &Tree| {
        // A day says its lot and business for all that it makes; what is made for a day is made on it.
        let of_day = if tree.kind == FileKind::Day { Sale::of_lines(&tree.lines) } else { Sale::default() };
        let made = wanted.made.or(batch.ready.map(|ready| ready.when.date()));
        let wanted = label::Wanted { sale: of_day, made, ..wanted.clone() };
        label::all(&batch.recipe, &batch.formula, &wanted).map_err(|why| why.0)
    };
    if let Some(text) = &arguments.sheet {
        return stick(arguments, text, of, output);
    }
    let page = if arguments.report { out::label::report } else { out::label::page };
    arguments.figures.run(
        output,
        of,
        |labels, units| {
            let pages: Result<Vec<_>, _> = labels.iter().map(|label| page(label, units)).collect();
            pages.map(|pages| pages.into_iter().flatten().collect())
        },
        |_| Vec::new(),
        |all| out::label::json(&all.concat()),
    )
}

/// Labels on label paper.
fn stick(
    arguments: &Arguments,
    text: &str,
    of: impl Fn(&Batch, &Tree) -> Result<Vec<label::Label>, String>,
    output: &mut Output,
) -> Outcome {
    let paper = match LabelPaper::read(text) {
        Ok(paper) => paper,
        Err(why) => return complain(output, &why),
    };
    if arguments.copies == Some(0) {
        return complain(output, "--copies 0: nothing would be printed");
    }
    let delivery = arguments.figures.delivery();
    let is_pdf = delivery.ending().as_deref() == Some("pdf") && arguments.figures.format().is_none();
    let is_html = match arguments.figures.format() {
        Some(format) => format == PageFormat::Html,
        None => matches!(delivery.ending().as_deref(), Some("html" | "htm")),
    };
    if !is_pdf && !is_html {
        return complain(
            output,
            "labels on paper are PDF or HTML: write them with `-o labels.pdf` or `-o labels.html`",
        );
    }
    let labels = match arguments.figures.all(output, of) {
        Ok(labels) => labels.concat(),
        Err(outcome) => return outcome,
    };
    if labels.iter().any(|label| label.sale.good_for.is_some() && label.made.is_none()) {
        return complain(
            output,
            "a label that is stuck on has a date: say with `--made 2027-03-30` on which day it is made",
        );
    }
    let copies = arguments.copies.and_then(|copies| usize::try_from(copies).ok());
    let stickers: Result<Vec<Sticker>, Overflow> =
        labels.iter().map(|label| out::label::sticker(label, arguments.small_pack, copies)).collect();
    let Ok(stickers) = stickers else { return complain(output, "a figure leaves the range of exact numbers") };
    let names: Vec<&str> = stickers.iter().map(|sticker| sticker.title.as_str()).collect();
    let title = format!("Labels: {}", names.join(", "));
    // What does not fit is said in its own words, and not as a PDF that could not be made.
    if let Some(why) = stickers.iter().find_map(|sticker| out::pdf::labels::fit(sticker, &paper).err()) {
        return complain(output, &why);
    }
    if is_pdf {
        return delivery.deliver_pdf(&out::pdf::labels::render(&stickers, &paper, &title), output);
    }
    match out::html::labels::render(&stickers, &paper, &title) {
        Ok(page) => delivery.deliver(&page, output),
        Err(why) => complain(output, &why),
    }
}

fn weight(text: &str) -> Result<Mass, String> {
    let found = mass(text).filter(|mass| *mass > Mass::ZERO);
    found.ok_or_else(|| format!("--serving {text}: this is not a weight such as `55 g`"))
}
