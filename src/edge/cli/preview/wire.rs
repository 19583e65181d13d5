//! What the page is told, as JSON.

use super::place::Place;
use crate::check;
use crate::out::report::clean;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Sources, Span};
use serde::Serialize;

/// One file and how it stands.
#[derive(Debug, Serialize)]
pub(super) struct State {
    /// Its path from the root.
    pub(super) file: String,
    /// `recipe`, `day`, `kitchen` or `larder`.
    pub(super) kind: &'static str,
    /// Its name.
    pub(super) title: String,
    /// Everything that is wrong with it.
    pub(super) problems: Vec<Problem>,
    /// What was wrong with how much was asked for.
    pub(super) said: Option<String>,
    /// Whether the card is of an earlier state of the file, because there are errors now.
    pub(super) stale: bool,
    /// Tells cards apart; `None` when there is none.
    pub(super) card: Option<String>,
    /// What the card makes, as printed.
    pub(super) makes: Option<String>,
    /// Pieces as written.
    pub(super) pieces: Option<String>,
    /// Of what.
    pub(super) noun: Option<String>,
    /// What can be chosen.
    pub(super) choices: Vec<Choice>,
}

/// A choice of methods.
#[derive(Debug, Serialize)]
pub(super) struct Choice {
    pub(super) name: String,
    pub(super) options: Vec<String>,
    pub(super) chosen: String,
}

/// A problem.
#[derive(Debug, Serialize)]
pub(super) struct Problem {
    severity: &'static str,
    check: &'static str,
    message: String,
    label: String,
    help: Option<String>,
    why: &'static str,
    at: Spot,
    also: Vec<Spot>,
}

/// A place in a file, with a few words.
#[derive(Debug, Serialize)]
pub(super) struct Spot {
    file: String,
    line: usize,
    column: usize,
    words: String,
}

/// A file of the list.
#[derive(Debug, Serialize)]
pub(super) struct Entry {
    pub(super) file: String,
    pub(super) kind: &'static str,
    pub(super) title: String,
    pub(super) errors: usize,
    pub(super) warnings: usize,
}

impl Problem {
    /// A problem as the page shows it.
    pub(super) fn of(place: &Place, sources: &Sources, problem: &Diagnostic) -> Problem {
        let spot = |span: Span, words: &str| {
            let source = sources.get(span.source);
            let position = source.map(|source| source.position(span.start));
            Spot {
                file: place.name_shown(source.map_or("", |source| &source.name)),
                line: position.map_or(1, |position| position.line),
                column: position.map_or(1, |position| position.column),
                words: clean(words).into_owned(),
            }
        };
        Problem {
            severity: problem.severity.word(),
            check: problem.check,
            message: clean(&problem.said()).into_owned(),
            label: clean(&problem.label).into_owned(),
            help: problem.help.as_deref().map(|help| clean(help).into_owned()),
            why: check::find(problem.check).map_or("", |check| check.why),
            at: spot(problem.span, &problem.label),
            also: problem.also.iter().map(|label| spot(label.span, &label.text)).collect(),
        }
    }

    /// Which line of its file it is about.
    pub(super) fn line(&self) -> (&str, usize) {
        (&self.at.file, self.at.line)
    }

    /// How much it matters, and what it says.
    pub(super) fn words(&self) -> (&'static str, &str) {
        (self.severity, &self.message)
    }
}
