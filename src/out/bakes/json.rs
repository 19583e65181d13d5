//! What the bakes say for programs. The keys are fixed; the structs here are the wire format and nothing else.

use super::moment;
use crate::figures::bakes::measurement::{Kind, Measured};
use crate::figures::bakes::{Figure as Said, Judged, Row, Told};
use crate::measure::number::Number;
use crate::out::comparison::sentences;
use crate::out::json::Figure;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The name of the recipe.
    recipe: &'a str,
    /// The bakes, by their day.
    bakes: Vec<WireBake<'a>>,
    /// What the bakes say together.
    figures: Vec<WireFigure<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireBake<'a> {
    /// The day, `2027-04-10`.
    date: String,
    /// The revision of the recipe.
    revision: Option<&'a str>,
    /// What was chosen.
    choices: BTreeMap<&'a str, &'a str>,
    /// How many pieces came out.
    pieces: Option<Figure>,
    /// Who baked.
    by: Option<&'a str>,
    /// What changed in the formula since the bake before, a sentence each.
    changed: Vec<String>,
    /// What was otherwise than in the recipe.
    otherwise: Vec<WireOtherwise<'a>>,
    /// What was measured.
    measured: Vec<WireMeasured<'a>>,
    /// How it was judged.
    judged: Vec<WireJudged<'a>>,
    /// Its notes.
    notes: &'a [String],
    /// What was said of it, as a mark.
    verdict: Option<&'static str>,
    /// What was said of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    verdict_words: Option<&'a str>,
}

#[derive(Serialize, JsonSchema)]
struct WireOtherwise<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<Figure>,
    /// What the recipe says, in grams.
    formula_g: Option<Figure>,
    /// How warm it was, in degrees Celsius.
    temperature_c: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
struct WireMeasured<'a> {
    /// What is measured: a time, a loss, a temperature and the like.
    figure: &'static str,
    /// The name of the part.
    part: &'a str,
    /// The name of the step.
    step: &'a str,
    /// The number of the load, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    load: Option<i64>,
    /// What was measured.
    value: Figure,
    /// What the formula says.
    expected: Option<Figure>,
    /// The unit of the figures.
    unit: &'static str,
}

#[derive(Serialize, JsonSchema)]
struct WireJudged<'a> {
    /// What was judged.
    name: &'a str,
    /// How many points it got.
    mark: Figure,
    /// Of how many at most.
    of: Figure,
    /// What was said of it.
    words: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireFigure<'a> {
    /// What is measured: a time, a loss, a temperature and the like.
    figure: &'static str,
    /// The name of the part.
    part: &'a str,
    /// The name of the step.
    step: &'a str,
    /// Only where a step is not the same under all options.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    choices: BTreeMap<&'a str, &'a str>,
    /// Of one piece, where the step's time or what it comes to is of one.
    #[serde(skip_serializing_if = "is_false")]
    each: bool,
    /// How many there are.
    count: usize,
    /// In how many bakes; several loads of one bake count each.
    bakes: usize,
    /// How many bakes of an older version are left out, since the change since touches the figure.
    outdated: usize,
    /// The mean.
    mean: Option<Figure>,
    /// The standard deviation.
    sd: Option<Figure>,
    /// The low end of the interval of the mean.
    low: Option<Figure>,
    /// The high end of the interval of the mean.
    high: Option<Figure>,
    /// The median.
    median: Option<Figure>,
    /// What nine in ten keep to.
    nine_in_ten: Option<Figure>,
    /// What the formula says.
    formula: Option<Figure>,
    /// The shorter end, where the formula says a range.
    #[serde(skip_serializing_if = "Option::is_none")]
    formula_low: Option<Figure>,
    /// How both go together.
    says: Option<&'static str>,
    /// The unit of the figures.
    unit: &'static str,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks by reference")]
fn is_false(value: &bool) -> bool {
    !*value
}

/// Renders what the bakes say.
///
/// # Errors
/// When the figures cannot be written as JSON.
pub fn render(told: &Told) -> Result<String, serde_json::Error> {
    serde_json::to_string_pretty(&wire(told)).map(|text| text + "\n")
}

/// Renders what the bakes of several recipes say: an array.
///
/// # Errors
/// As [`render`].
pub fn render_all(all: &[Told]) -> Result<String, serde_json::Error> {
    match all {
        [one] => render(one),
        several => serde_json::to_string_pretty(&several.iter().map(wire).collect::<Vec<_>>()).map(|text| text + "\n"),
    }
}

fn wire(told: &Told) -> Wire<'_> {
    Wire {
        format: FORMAT,
        recipe: &told.recipe,
        bakes: told.rows.iter().map(bake).collect(),
        figures: told.figures.iter().map(figure).collect(),
    }
}

fn pairs(choices: &[(String, String)]) -> BTreeMap<&str, &str> {
    choices.iter().map(|(choice, option)| (choice.as_str(), option.as_str())).collect()
}

fn bake(row: &Row) -> WireBake<'_> {
    WireBake {
        date: moment(row, "T"),
        revision: row.revision.as_deref(),
        choices: pairs(&row.choices),
        pieces: row.pieces.map(Figure),
        by: Some(row.by.as_str()).filter(|by| !by.is_empty()),
        changed: row.changed.as_ref().map(sentences).unwrap_or_default(),
        otherwise: row
            .otherwise
            .iter()
            .map(|one| WireOtherwise {
                ingredient: &one.name,
                grams: one.mass.map(|(really, _)| Figure(really)),
                formula_g: one.mass.map(|(_, usual)| Figure(usual)),
                temperature_c: one.celsius.map(Figure),
            })
            .collect(),
        measured: row.measured.iter().map(measured).collect(),
        judged: row.judged.iter().map(judged).collect(),
        notes: &row.notes,
        verdict: row.verdict.as_ref().map(|(verdict, _)| verdict.word()),
        verdict_words: row.verdict.as_ref().map(|(_, words)| words.as_str()).filter(|words| !words.is_empty()),
    }
}

fn measured(one: &Measured) -> WireMeasured<'_> {
    WireMeasured {
        figure: one.kind.word(),
        part: &one.part,
        step: &one.step,
        load: one.load,
        value: Figure(one.value),
        expected: one.expected.map(Figure),
        unit: one.kind.unit(),
    }
}

fn judged(one: &Judged) -> WireJudged<'_> {
    WireJudged { name: &one.name, mark: Figure(one.mark), of: Figure(one.of), words: &one.words }
}

fn figure(one: &Said) -> WireFigure<'_> {
    let spread = &one.spread;
    let figure = |value: Option<Number>| value.map(Figure);
    WireFigure {
        figure: one.kind.word(),
        part: &one.part,
        step: &one.step,
        choices: pairs(&one.choices),
        each: one.kind == Kind::Each,
        count: spread.count,
        bakes: one.bakes,
        outdated: one.outdated,
        mean: figure(spread.mean),
        sd: figure(spread.sd),
        low: figure(spread.interval.map(|(low, _)| low)),
        high: figure(spread.interval.map(|(_, high)| high)),
        median: figure(spread.median),
        nine_in_ten: figure(spread.nine_in_ten),
        formula: figure(one.formula.map(|(_, most)| most)),
        formula_low: figure(one.formula.filter(|(least, most)| least != most).map(|(least, _)| least)),
        says: one.says.map(crate::figures::bakes::Says::word),
        unit: one.kind.unit(),
    }
}
