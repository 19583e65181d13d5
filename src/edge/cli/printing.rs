//! Options that say how cards are set on paper, and what their foot says of where they come from.

use super::read::date;
use crate::edge::past::revision;
use crate::out::sheet::{By, Orientation, Paper, Sheet};
use clap::{Args, ValueEnum};
use jiff::civil::Date;
use std::path::Path;

/// How cards are set on paper.
#[derive(Debug, Args)]
#[command(next_help_heading = "Printing")]
pub(super) struct Printing {
    #[command(flatten)]
    setting: Setting,
    /// What stands on one sheet
    #[arg(long, value_enum, default_value_t = ByWanted::Recipe)]
    by: ByWanted,
}

/// The paper, and how type is set on it.
#[derive(Debug, Args)]
#[command(next_help_heading = "Printing")]
pub(super) struct Setting {
    /// The paper that a PDF is set for, and the HTML of a card or a list
    #[arg(long, value_enum, default_value_t = PaperWanted::A4)]
    paper: PaperWanted,
    /// Which way round; a sheet lies upright and a filing card across if nothing is said
    #[arg(long, value_enum)]
    orientation: Option<OrientationWanted>,
    /// Set all type smaller and draw no timeline, so that a dish stands on a sheet or two
    #[arg(long)]
    compact: bool,
    /// The date to print in the foot, instead of today's
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = date)]
    date: Option<Date>,
}

/// The paper to print on.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum PaperWanted {
    /// 210 × 297 mm
    A4,
    /// 148 × 210 mm
    A5,
    /// 8 1/2 × 11 in
    Letter,
    /// A filing card of 4 × 6 in
    Index,
}

impl PaperWanted {
    /// The paper itself.
    pub(super) fn paper(self) -> Paper {
        match self {
            PaperWanted::A4 => Paper::A4,
            PaperWanted::A5 => Paper::A5,
            PaperWanted::Letter => Paper::Letter,
            PaperWanted::Index => Paper::Index,
        }
    }
}

/// The date to print: what was said, or today's.
pub(super) fn printed(date: Option<Date>) -> String {
    date.unwrap_or_else(|| jiff::ZonedDateTime::now().date()).to_string()
}

/// Which way round the paper lies.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum OrientationWanted {
    /// Taller than wide
    Portrait,
    /// Wider than tall
    Landscape,
}

/// What stands on one sheet.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum ByWanted {
    /// Everything that one station does
    Station,
    /// One part
    Part,
    /// The whole recipe
    Recipe,
}

impl Printing {
    /// The sheet for a card of the file at `path`.
    pub(super) fn sheet(&self, path: &Path) -> Sheet {
        let by = match self.by {
            ByWanted::Station => By::Station,
            ByWanted::Part => By::Part,
            ByWanted::Recipe => By::Recipe,
        };
        Sheet { by, ..self.setting.sheet(path) }
    }
}

impl Setting {
    /// The sheet for a page of the file at `path`.
    pub(super) fn sheet(&self, path: &Path) -> Sheet {
        let printed = printed(self.date);
        let paper = self.paper.paper();
        let orientation = match self.orientation {
            None => paper.usual_orientation(),
            Some(OrientationWanted::Portrait) => Orientation::Portrait,
            Some(OrientationWanted::Landscape) => Orientation::Landscape,
        };
        Sheet { paper, orientation, by: By::Recipe, compact: self.compact, printed, revision: revision::of(path) }
    }
}
