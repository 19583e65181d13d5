//! Cards and lists as PDF, without a browser: the same design and the same content as the HTML, type embedded, text
//! selectable, structure tagged by PDF/UA-1 (ISO 14289-1), the same bytes for the same input.

mod blocks;
mod book;
mod by_hand;
mod canvas;
mod day;
mod face;
mod facts;
mod frame;
mod geometry;
mod head;
pub mod labels;
mod list;
mod log;
mod pages;
mod paragraph;
mod picture;
mod plates;
mod prose;
mod reader;
mod station;
mod steps;
mod strip;
mod table;
mod tags;
mod timeline;

pub use blocks::render_page;
pub use book::{cover, render_book};
pub use reader::render_reader;

use crate::figures::bakes::blank::Blank;
use crate::figures::card::{Card, DayHead, PartCard, stations};
use crate::figures::list::List;
use crate::out::report::clean;
use crate::out::sheet::facts::base_line;
use crate::out::sheet::{By, Foot, Sheet};
use face::Faces;
use frame::{Flow, Frame};
use geometry::Geometry;
use krilla::Document;
use krilla::SerializeSettings;
use krilla::annotation::{Annotation, LinkAnnotation, Target};
use krilla::configure::{Accessibility, ConfigurationBuilder, PdfVersion};
use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::metadata::{DateTime, Metadata};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use paragraph::{Setting, Words};
use std::fmt;
use tags::{Node, Role, Tags};

/// A finished PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// Signs that the embedded type does not have; they stand as their numbers in Unicode.
    pub missing: Vec<char>,
}

/// Why no PDF was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPdf(String);

impl fmt::Display for NoPdf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no PDF could be made of this ({}); write `-o card.html` and print that from a browser", self.0)
    }
}

impl std::error::Error for NoPdf {}

/// What everything is set with.
struct Press<'a> {
    faces: &'a Faces,
    tags: Tags,
    geometry: Geometry,
    /// The measure of all sizes, in points: one `rem` of the HTML's style.
    em: f32,
    /// The label of the list item that is being set.
    label_node: Option<Node>,
}

/// A sheet before it is on pages.
struct Made {
    title: String,
    /// What the foot says behind the title.
    facts: String,
    flows: Vec<Flow>,
}

impl Press<'_> {
    fn width(&self) -> f32 {
        self.geometry.width
    }

    /// Sets words as a paragraph of its own.
    fn paragraph(&mut self, words: &[Words], setting: Setting, parent: Node) -> Frame {
        self.tagged(words, setting, parent, Role::Paragraph)
    }

    fn tagged(&mut self, words: &[Words], setting: Setting, parent: Node, role: Role) -> Frame {
        let node = self.tags.add(Some(parent), role);
        paragraph::set(self.faces, words, setting, Some(node))
    }
}

/// A text of the author without what could hide in it.
fn plain(text: &str) -> String {
    clean(text).into_owned()
}

/// Renders cards, and behind them the sheets of the log to fill in by hand.
///
/// # Errors
/// When the document cannot be written by the rules of PDF/UA-1.
pub fn render_logged(cards: &[Card], day: Option<&DayHead>, logs: &[Blank], sheet: &Sheet) -> Result<Pdf, NoPdf> {
    let title = match (day, cards) {
        (Some(day), _) => plain(&day.name),
        (None, many) => many.iter().map(|card| plain(&card.title)).collect::<Vec<String>>().join(", "),
    };
    print(&title, sheet, |press| {
        let mut sheets = Vec::new();
        sheets.extend(day.map(|day| day::cover(press, day, cards, sheet)));
        for card in cards {
            match sheet.by {
                By::Recipe => sheets.push(whole(press, card, sheet)),
                By::Part => sheets.extend(by_part(press, card, sheet)),
                By::Station if stations(card).len() < 2 => sheets.push(whole(press, card, sheet)),
                By::Station => sheets.extend(station::sheets(press, card, sheet)),
            }
        }
        sheets.extend(logs.iter().map(|blank| log::sheet(press, blank, sheet)));
        sheets
    })
}

/// Renders a list.
///
/// # Errors
/// When the document cannot be written by the rules of PDF/UA-1.
pub fn render_list(list: &List, day: Option<&DayHead>, sheet: &Sheet) -> Result<Pdf, NoPdf> {
    let title = plain(day.map_or("What to buy and to weigh out", |day| day.name.as_str()));
    print(&title, sheet, |press| list::sheets(press, list, day, &title, sheet))
}

/// Sets sheets, fills pages with them, and writes the document.
fn print(title: &str, sheet: &Sheet, make: impl FnOnce(&mut Press<'_>) -> Vec<Made>) -> Result<Pdf, NoPdf> {
    let faces = Faces::new().ok_or_else(|| NoPdf("the type in the program is damaged".to_owned()))?;
    let geometry = Geometry::of(sheet);
    let em = geometry.em;
    let mut press = Press { faces: &faces, tags: Tags::default(), geometry, em, label_node: None };
    let sheets = make(&mut press);
    let mut pages = Vec::new();
    let mut outline = Outline::new();
    for one in sheets {
        let destination = XyzDestination::new(pages.len(), Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(one.title.clone(), destination));
        pages.extend(pages::fill(&press, one));
    }
    pages::number(&press, &mut pages);
    write(press, &pages, outline, title, &sheet.printed)
}

/// Writes the document; `printed` is the day on which it says it was printed.
fn write(
    mut press: Press<'_>,
    pages: &[pages::Page],
    outline: Outline,
    title: &str,
    printed: &str,
) -> Result<Pdf, NoPdf> {
    let geometry = press.geometry;
    let faces = press.faces;
    let configuration = ConfigurationBuilder::new()
        .with_version(PdfVersion::Pdf17)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| NoPdf(format!("{error:?}")))?;
    let settings = SerializeSettings { configuration, enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    for page in pages {
        let size = PageSettings::from_wh(geometry.page_width, geometry.page_height)
            .ok_or_else(|| NoPdf("the paper has no size".to_owned()))?;
        let mut drawn = document.start_page_with(size);
        let mut surface = drawn.surface();
        let leads = pages::paint(&mut press, page, &mut surface);
        surface.finish();
        for (area, to, node) in leads {
            let place = XyzDestination::new(to, Point::from_xy(0.0, 0.0));
            let link = LinkAnnotation::new(area, Target::Destination(place.into()));
            let link = Annotation::new_link(link, Some(format!("page {}", to + 1)));
            let link = drawn.add_tagged_annotation(link);
            press.tags.drawn(node, link);
        }
        drawn.finish();
    }
    document.set_tag_tree(press.tags.finish());
    document.set_outline(outline);
    document.set_metadata(metadata(title, printed));
    let bytes = document.finish().map_err(|error| NoPdf(format!("{error:?}")))?;
    Ok(Pdf { bytes, missing: faces.missing() })
}

fn metadata(title: &str, printed: &str) -> Metadata {
    let metadata = Metadata::new()
        .title(title.to_owned())
        .language("en".to_owned())
        .creator(concat!("miche ", env!("CARGO_PKG_VERSION")).to_owned())
        .producer("krilla".to_owned());
    // The day that is printed on the sheets, not the clock: the same input gives the same bytes.
    match printed.parse::<jiff::civil::Date>() {
        Ok(date) => {
            let part = |value: i8| u8::try_from(value).unwrap_or(1);
            let year = u16::try_from(date.year()).unwrap_or(0);
            metadata.creation_date(DateTime::new(year).month(part(date.month())).day(part(date.day())))
        }
        Err(_) => metadata,
    }
}

/// A sheet's title, foot and structure.
fn sheet_of(press: &mut Press<'_>, foot: &Foot, fill: impl FnOnce(&mut Press<'_>, Node) -> Vec<Flow>) -> Made {
    let article = press.tags.add(None, Role::Article);
    let flows = fill(press, article);
    let title = foot.title.clone();
    Made { facts: foot.facts.join(" · "), title, flows }
}

/// One sheet for the whole recipe.
fn whole(press: &mut Press<'_>, card: &Card, sheet: &Sheet) -> Made {
    let foot = Foot::new(card, &card.title, sheet);
    let lonely = card.parts.len() == 1 && card.parts.first().is_some_and(|part| part.name == card.title);
    sheet_of(press, &foot, |press, article| {
        let mut flows = Vec::new();
        flows.extend(head::head(press, card, None, article));
        flows.extend(head::care(press, card, &card.short_cautions, article));
        flows.extend(head::notes(press, &card.notes, article));
        for one in &card.parts {
            flows.extend(part(press, one, !lonely, article));
        }
        end(press, card, sheet, article, &mut flows);
        flows
    })
}

/// What a card ends with: its timeline, what its figures rest on, and thanks, which begin no page by themselves.
fn end(press: &mut Press<'_>, card: &Card, sheet: &Sheet, article: Node, flows: &mut Vec<Flow>) {
    flows.extend(timeline::figure(press, card, sheet, article));
    flows.extend(head::sources(press, card, article));
    if !card.credits.is_empty() {
        frame::keep_last(flows);
    }
    flows.extend(head::credits(press, &card.credits, article));
}

/// A sheet for each part.
fn by_part(press: &mut Press<'_>, card: &Card, sheet: &Sheet) -> Vec<Made> {
    let count = card.parts.len();
    let mut sheets = Vec::with_capacity(count);
    for (at, one) in card.parts.iter().enumerate() {
        let title = if one.name == card.title { card.title.clone() } else { format!("{}: {}", card.title, one.name) };
        let foot = Foot::new(card, &title, sheet);
        sheets.push(sheet_of(press, &foot, |press, article| {
            let mut flows = Vec::new();
            flows.extend(head::head(press, card, (count > 1).then_some(one.name.as_str()), article));
            flows.extend(head::care(press, card, &card.short_cautions, article));
            flows.extend(part(press, one, count > 1, article));
            if at + 1 == count {
                flows.extend(head::notes(press, &card.notes, article));
                end(press, card, sheet, article, &mut flows);
            }
            flows
        }));
    }
    sheets
}

/// A part: tab, strip, what is read off it, steps.
fn part(press: &mut Press<'_>, part: &PartCard, tab: bool, article: Node) -> Vec<Flow> {
    let section = press.tags.add(Some(article), Role::Section);
    let mut flows = Vec::new();
    let has_tab = tab || part.base.is_some();
    if has_tab {
        let name = if tab { plain(&part.name) } else { "Weigh out".to_owned() };
        flows.push(head::tab(press, &name, &base_line(part), false, section));
    }
    flows.extend(strip::strip(press, part, section));
    let facts = facts::facts(press, part, section);
    if !facts.is_empty() {
        frame::keep_last(&mut flows);
    }
    flows.extend(facts);
    flows.extend(head::part_care(press, &part.cautions, section));
    flows.extend(head::notes(press, &part.notes, section));
    let numbered: Vec<(usize, &crate::figures::card::StepCard)> =
        part.steps.iter().enumerate().map(|(at, step)| (at + 1, step)).collect();
    let set = steps::Set { level: if has_tab { 3 } else { 2 }, starts: false };
    flows.extend(steps::steps(press, &numbered, set, section));
    flows
}
