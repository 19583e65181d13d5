//! A book in one file: a booklet to print, or an EPUB.

use super::read::{Known, ReadBook};
use crate::edge::cli::deliver::{self, tell_missing};
use crate::edge::cli::output::Output;
use crate::edge::cli::pictures;
use crate::edge::cli::printing::{PaperWanted, printed};
use crate::edge::cli::read::date;
use crate::edge::cli::stop::{Ended, Stop};
use crate::figures::book::Book;
use crate::figures::reader::ReaderPage;
use crate::measure::show::Units;
use crate::model::published::Picture;
use crate::out;
use crate::out::sheet::{By, Orientation, Paper, Sheet};
use crate::out::shrink::Shrunk;
use clap::Args;
use jiff::civil::Date;
use std::path::Path;

/// How many dots wide a picture is at most: on A5 that is 240 to the inch, on A4 170.
const WIDE: u32 = 1100;

/// How a booklet is printed, and when.
#[derive(Debug, Args)]
#[command(next_help_heading = "Printing")]
pub(super) struct Binding {
    /// The paper of a booklet; A5 if nothing is said
    #[arg(long, value_enum)]
    paper: Option<PaperWanted>,
    /// The date that a booklet or an EPUB says it was made on, instead of today's
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = date)]
    date: Option<Date>,
}

impl Binding {
    /// Whether its options mean anything for what is made.
    ///
    /// # Errors
    /// A sentence when one of them does not.
    pub(super) fn fits(&self, is_booklet: bool, is_site: bool) -> Result<(), String> {
        if self.paper.is_some() && !is_booklet {
            return Err("--paper is for a booklet: write it into a file that ends in .pdf".to_owned());
        }
        if self.date.is_some() && is_site {
            return Err("--date is for a booklet or an EPUB: a site says of each recipe when it changed".to_owned());
        }
        Ok(())
    }

    fn sheet(&self) -> Sheet {
        Sheet {
            paper: self.paper.map_or(Paper::A5, PaperWanted::paper),
            orientation: Orientation::Portrait,
            by: By::Recipe,
            compact: false,
            printed: printed(self.date),
            revision: None,
        }
    }
}

/// Writes a booklet.
pub(super) fn booklet(read: &ReadBook, binding: &Binding, path: &Path, output: &mut Output) -> Ended {
    let (book, pages) = worked_out(read, output)?;
    let sheet = binding.sheet();
    let pictures = pictures_of(read, &pages)?;
    let pdf = out::pdf::render_book(&book, &pages, &pictures, &sheet)?;
    tell_missing(&pdf, output);
    deliver::into(path, &pdf.bytes)
}

/// Writes an EPUB.
pub(super) fn epub(read: &ReadBook, binding: &Binding, path: &Path, output: &Output) -> Ended {
    let (book, pages) = worked_out(read, output)?;
    let date = printed(binding.date);
    let pictures = pictures_of(read, &pages)?;
    let bytes = out::epub::render(&book, &pages, &pictures, &date)?;
    deliver::into(path, &bytes)
}

/// The book and the main pages of its recipes, of which there must be one.
fn worked_out(read: &ReadBook, output: &Output) -> Result<(Book, Vec<ReaderPage>), Stop> {
    read.check(&Known::default(), output)?;
    if read.model.pages().next().is_none() {
        return Err("no recipe stands in this book; name one with `page \"buns.miche\"`".into());
    }
    read.bound(Units::Metric)
}

/// The pictures of these pages.
fn pictures_of(read: &ReadBook, pages: &[ReaderPage]) -> Result<Vec<(Picture, Shrunk)>, String> {
    pictures::read(&read.project, pages, WIDE)
}
