//! `miche card --for reader`: a recipe for those who read it at home.

use super::batches::{Made, TOO_LARGE};
use super::deliver::Delivery;
use super::orders::time_of_day;
use super::output::Output;
use super::pictures;
use super::stop::Ended;
use super::to_make::ToMake;
use crate::figures::reader::{self, Asked, ReaderPage};
use crate::language::syntax::FileKind;
use crate::model::project::Project;
use crate::out;
use crate::out::reader::html::{Inside, Setting};
use crate::out::sheet::Sheet;
use crate::text::source::SourceId;
use jiff::civil::Time;

/// How many dots wide a picture is on a page at most: twice what a desk shows, for fine screens and for paper.
const WIDE: u32 = 1600;

/// The same where a recipe is to stand on one sheet.
const WIDE_COMPACT: u32 = 800;

/// In which format, and where to.
pub(super) enum As {
    Text,
    Markdown,
    Html(Sheet),
    Pdf(Sheet),
    Json,
}

pub(super) fn run(
    to_make: &ToMake,
    serve: Option<&str>,
    format: &As,
    delivery: &Delivery,
    output: &mut Output,
) -> Ended {
    let serve = serve.map(hour).transpose()?;
    let (project, source, made) = to_make.make(output)?;
    let pages = pages(&project, source, &made, to_make, serve)?;
    let style = delivery.style(output);
    let text = match format {
        As::Text => out::reader::page(&pages).text(style),
        As::Markdown => out::reader::page(&pages).markdown(),
        As::Pdf(sheet) => {
            let pictures = pictures::read(&project, &pages, wide(sheet))?;
            return delivery.deliver_pdf(out::pdf::render_reader(&pages, &pictures, sheet), output);
        }
        As::Html(sheet) => {
            let pictures = pictures::read(&project, &pages, wide(sheet))?;
            let setting = Setting { compact: sheet.compact, paper: sheet.paper };
            out::reader::html::render(&pages, &Inside(&pictures), setting)
        }
        As::Json => out::reader::json::render(&pages, made.day.is_some())?,
    };
    delivery.deliver(&text, output)
}

fn wide(sheet: &Sheet) -> u32 {
    if sheet.compact { WIDE_COMPACT } else { WIDE }
}

fn hour(text: &str) -> Result<Time, String> {
    time_of_day(text).ok_or_else(|| format!("--serve {text}: this is not an hour of the day such as 16:00"))
}

/// A page for each batch. Of a recipe by itself the other ways are told too, unless one was asked for.
fn pages(
    project: &Project,
    source: SourceId,
    made: &Made,
    to_make: &ToMake,
    serve: Option<Time>,
) -> Result<Vec<ReaderPage>, String> {
    let asked = Asked { units: to_make.scaling.units(), serve };
    let is_recipe = project.file(source).is_some_and(|file| file.tree.kind == FileKind::Recipe);
    let mut pages = Vec::with_capacity(made.work.batches.len());
    for batch in &made.work.batches {
        let others = if is_recipe && !to_make.scaling.chooses() {
            let size = to_make.scaling.size()?;
            reader::others(project, source, &batch.recipe, &size, &[]).map_err(|_| TOO_LARGE)?
        } else {
            Vec::new()
        };
        pages.push(reader::page(batch, &others, asked).map_err(|_| TOO_LARGE)?);
    }
    Ok(pages)
}
