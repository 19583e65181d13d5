//! A history for programs. The keys are fixed; the structs here are the wire format and nothing else.

use crate::figures::history::{History, KeyFigures, Row, State};
use crate::measure::quantity::{Mass, Proportion};
use crate::out::json::Figure;
use schemars::JsonSchema;
use serde::Serialize;

const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The file whose history it is.
    file: &'a str,
    /// The name of the recipe.
    recipe: &'a str,
    /// How many revisions of the file there are.
    revisions: usize,
    /// Those in which a figure changed, newest first.
    changes: Vec<WireRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireRow<'a> {
    /// The revision; null for the file as it is.
    commit: Option<&'a str>,
    /// The short name of the revision.
    short: Option<&'a str>,
    /// The day, `2027-04-10`.
    date: Option<&'a str>,
    /// What the revision says in its first line.
    subject: &'a str,
    /// What the file was called then, where that was otherwise.
    #[serde(skip_serializing_if = "Option::is_none")]
    then_called: Option<&'a str>,
    /// `known`, `unclear` or `gone`.
    state: &'static str,
    /// Why there are no figures of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<&'a str>,
    /// The figures of the formula in that revision; null where it has none.
    figures: Option<WireFigures<'a>>,
    /// Only where something was baked of it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    bakes: Vec<WireBaked<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireBaked<'a> {
    /// The day, `2027-04-10`.
    date: &'a str,
    /// How it was judged.
    judged: Vec<WireJudged<'a>>,
    /// What was said of it, as a mark.
    verdict: Option<&'static str>,
}

#[derive(Serialize, JsonSchema)]
struct WireJudged<'a> {
    /// What was judged.
    name: &'a str,
    /// How many points it got.
    mark: Figure,
    /// Of how many at most.
    of: Figure,
}

#[derive(Serialize, JsonSchema)]
struct WireFigures<'a> {
    /// The name of the part.
    part: &'a str,
    /// Water on flour, in percent.
    hydration_percent: Option<Figure>,
    /// Only where the larder does not know all of the water: it is at least so much.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    hydration_is_least: bool,
    /// Only where nobody says how a leaven in it was fed: it is counted as half flour and half water.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    hydration_is_about: bool,
    /// Salt on flour, in percent.
    salt_percent: Option<Figure>,
    /// What raises it.
    yeast: Vec<WireYeast<'a>>,
    /// All yeast as fresh yeast on flour, in percent.
    yeast_as_fresh_percent: Option<Figure>,
    /// What a piece weighs, in grams.
    piece_g: Option<Figure>,
    /// What all of it weighs, in grams.
    total_g: Option<Figure>,
    /// From the first step to the last.
    minutes: Option<i64>,
    /// The aims that it missed, each with its figure.
    aims_missed: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireYeast<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// On flour, in percent.
    percent: Option<Figure>,
}

/// Renders the history.
///
/// # Errors
/// When the figures cannot be written as JSON.
pub fn render(history: &History) -> Result<String, serde_json::Error> {
    let wire = Wire {
        format: FORMAT,
        file: &history.file,
        recipe: &history.recipe,
        revisions: history.revisions,
        changes: history.rows.iter().map(row).collect(),
    };
    serde_json::to_string_pretty(&wire).map(|text| text + "\n")
}

fn row(row: &Row) -> WireRow<'_> {
    let (state, why) = match &row.state {
        State::Known(_) => ("known", None),
        State::Unclear(why) => ("unclear", Some(why.as_str())),
        State::Gone => ("gone", None),
    };
    let said = |text: &str| row.commit.is_some() && !text.is_empty();
    WireRow {
        commit: row.commit.as_deref(),
        short: Some(row.short.as_str()).filter(|text| said(text)),
        date: Some(row.date.as_str()).filter(|text| said(text)),
        subject: &row.subject,
        then_called: row.then_called.as_deref(),
        state,
        why,
        figures: row.figures().map(figures),
        bakes: row
            .bakes
            .iter()
            .map(|bake| WireBaked {
                date: &bake.date,
                judged: bake
                    .judged
                    .iter()
                    .map(|(name, mark, of)| WireJudged { name, mark: Figure(*mark), of: Figure(*of) })
                    .collect(),
                verdict: bake.verdict,
            })
            .collect(),
    }
}

fn figures(figures: &KeyFigures) -> WireFigures<'_> {
    let percent = |share: Option<Proportion>| share.and_then(|share| share.percent().ok()).map(Figure);
    let grams = |mass: Option<Mass>| mass.map(|mass| Figure(mass.value()));
    WireFigures {
        part: &figures.part,
        hydration_percent: percent(figures.hydration.map(|one| one.share)),
        hydration_is_least: figures.hydration.is_some_and(|one| one.is_least),
        hydration_is_about: figures.hydration.is_some_and(|one| one.is_about),
        salt_percent: percent(figures.salt),
        yeast: figures
            .yeast
            .iter()
            .map(|(name, share)| WireYeast { ingredient: name, percent: percent(Some(*share)) })
            .collect(),
        yeast_as_fresh_percent: percent(figures.yeast_as_fresh),
        piece_g: grams(figures.piece),
        total_g: grams(figures.total),
        minutes: figures.minutes,
        aims_missed: &figures.aims_missed,
    }
}
