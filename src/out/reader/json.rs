//! A recipe for readers, for programs. The keys are fixed; the structs here are the wire format and nothing else.

use super::super::json::Figure;
use crate::figures::reader::{Day, Group, OtherWay, ReaderPage, Step};
use crate::language::prose::Prose;
use crate::model::published::Picture;
use schemars::JsonSchema;
use serde::Serialize;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The recipe's title.
    recipe: &'a str,
    /// Who wrote it.
    by: Option<&'a str>,
    /// Where it is looked for.
    filed_under: &'a [String],
    /// What is told first, as plain text.
    story: Vec<String>,
    /// The pictures.
    pictures: Vec<WirePicture<'a>>,
    /// As printed: `24 buns`.
    makes: Option<String>,
    /// How many pieces.
    pieces: Option<Figure>,
    /// The options taken.
    way: &'a str,
    /// Minutes of work.
    active_minutes: i64,
    /// Minutes from the first step to the last.
    total_minutes: i64,
    /// When to begin, where `--serve` said for when.
    #[serde(skip_serializing_if = "Option::is_none")]
    begin: Option<&'a str>,
    /// What has to be done in the night, where no rest can go on through it.
    #[serde(skip_serializing_if = "Option::is_none")]
    night: Option<&'a str>,
    /// What goes in, part by part.
    ingredients: Vec<WireGroup<'a>>,
    /// What is done, day by day.
    days: Vec<WireDay<'a>>,
    /// What is otherwise under another option.
    other_ways: Vec<WireOther<'a>>,
    /// What is needed.
    tools: &'a [String],
    /// How long parts keep.
    keeps: Vec<WireKeeping<'a>>,
    /// Allergens that are known to be in it.
    allergens: &'a [String],
    /// Ingredients whose allergens are not known.
    allergens_unknown: &'a [String],
    /// As printed; null where the larder knows too little.
    energy: Option<WireEnergy<'a>>,
    /// What can hurt somebody, a line each.
    cautions: Vec<String>,
    /// Its notes.
    notes: Vec<String>,
    /// Whom it is owed to.
    credits: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct WirePicture<'a> {
    /// The path as it is written.
    path: &'a str,
    /// What is seen on it.
    words: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireGroup<'a> {
    /// The name of the part.
    part: &'a str,
    /// The ingredient lines.
    lines: Vec<WireLine<'a>>,
    /// How it is divided, and what a piece weighs.
    divided: Option<&'a str>,
    /// What may stand in.
    stand_ins: Vec<WireStandIn<'a>>,
    /// The pictures.
    pictures: Vec<WirePicture<'a>>,
    /// Its notes.
    notes: Vec<String>,
    /// What can hurt, a text each.
    cautions: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    /// The amount as it was said, the author's words first, as printed.
    amounts: Vec<String>,
    /// The name of the ingredient.
    ingredient: &'a str,
    /// How it is prepared, how warm it is, whether it may be left out.
    remarks: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireStandIn<'a> {
    /// What it stands in for.
    instead_of: &'a str,
    /// As printed.
    amount: String,
    /// The name of the ingredient.
    ingredient: &'a str,
    /// What then is otherwise.
    words: Option<&'a str>,
    /// Allergens that it has and the ingredient has not.
    brings: &'a [String],
    /// What nobody knows the allergens of: itself, or ingredients of the part that it is.
    allergens_unknown: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireDay<'a> {
    /// From 1.
    day: usize,
    /// The steps of the day.
    steps: Vec<WireStep<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireStep<'a> {
    /// The part, where there are several.
    part: Option<&'a str>,
    /// The name of the step.
    step: &'a str,
    /// `hands`, `tend` or `wait`.
    kind: &'static str,
    /// On the clock, where `--serve` said for when.
    begins: Option<&'a str>,
    /// At least so long, in minutes.
    minutes_min: i64,
    /// At most so long, in minutes.
    minutes_max: i64,
    /// What it holds and how hot.
    place: Option<&'a str>,
    /// The text.
    text: String,
    /// The cue by which it is done.
    until: String,
    /// The pictures.
    pictures: Vec<WirePicture<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireOther<'a> {
    /// The option.
    option: &'a str,
    /// Minutes of work.
    active_minutes: i64,
    /// Minutes from beginning to end.
    total_minutes: i64,
    /// When to begin, where its hours are other ones.
    begin: Option<&'a str>,
    /// Ingredients that differ.
    ingredients: Vec<WireGroup<'a>>,
    /// Ingredients that are left out.
    without: &'a [String],
    /// Steps that differ.
    steps: Vec<WireStep<'a>>,
    /// Steps that are left out.
    without_steps: &'a [String],
    /// Allergens that this way has and the way in full has not.
    allergens: &'a [String],
    /// Ingredients of this way only whose allergens are not known.
    allergens_unknown: &'a [String],
    /// Cautions of this way only.
    cautions: Vec<String>,
    /// Notes of this way only.
    notes: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireKeeping<'a> {
    /// The name of the part.
    part: &'a str,
    /// How it is kept.
    how: &'a str,
    /// Whether other parts take it, so that it can be made ahead.
    ahead: bool,
}

#[derive(Serialize, JsonSchema)]
struct WireEnergy<'a> {
    /// In 100 g.
    per_100_g: &'a str,
    /// In one piece.
    each: Option<&'a str>,
}

fn words(all: &[Prose]) -> Vec<String> {
    all.iter().map(Prose::plain).collect()
}

fn pictures(all: &[Picture]) -> Vec<WirePicture<'_>> {
    all.iter().map(|one| WirePicture { path: &one.path, words: &one.words }).collect()
}

fn group(group: &Group) -> WireGroup<'_> {
    let line = |row: &'_ crate::figures::reader::Row| row.amounts.iter().map(ToString::to_string).collect();
    WireGroup {
        part: &group.part,
        lines: group
            .rows
            .iter()
            .map(|row| WireLine { amounts: line(row), ingredient: &row.name, remarks: &row.remarks })
            .collect(),
        divided: group.divided.as_deref(),
        stand_ins: group
            .stand_ins
            .iter()
            .map(|one| WireStandIn {
                instead_of: &one.instead_of,
                amount: one.amount.to_string(),
                ingredient: &one.name,
                words: one.words.as_deref(),
                brings: &one.brings,
                allergens_unknown: &one.allergens_unknown,
            })
            .collect(),
        pictures: pictures(&group.pictures),
        notes: words(&group.notes),
        cautions: words(&group.cautions),
    }
}

fn step(step: &Step) -> WireStep<'_> {
    WireStep {
        part: step.part.as_deref(),
        step: &step.name,
        kind: step.kind.word(),
        begins: step.begins.as_deref(),
        minutes_min: step.minutes.0,
        minutes_max: step.minutes.1,
        place: step.place.as_deref(),
        text: step.prose.plain(),
        until: step.cue.plain(),
        pictures: pictures(&step.pictures),
    }
}

fn day(day: &Day) -> WireDay<'_> {
    WireDay { day: day.number, steps: day.steps.iter().map(step).collect() }
}

fn other(other: &OtherWay) -> WireOther<'_> {
    WireOther {
        option: &other.name,
        active_minutes: other.active_minutes,
        total_minutes: other.total_minutes,
        begin: other.begin.as_deref(),
        ingredients: other.groups.iter().map(group).collect(),
        without: &other.without,
        steps: other.steps.iter().map(step).collect(),
        without_steps: &other.without_steps,
        allergens: &other.allergens,
        allergens_unknown: &other.allergens_unknown,
        cautions: words(&other.cautions),
        notes: words(&other.notes),
    }
}

fn wire(page: &ReaderPage) -> Wire<'_> {
    Wire {
        format: FORMAT,
        recipe: &page.title,
        by: page.by.as_deref(),
        filed_under: &page.filed_under,
        story: words(&page.story),
        pictures: pictures(&page.pictures),
        makes: page.makes.as_ref().map(ToString::to_string),
        pieces: page.pieces.map(Figure),
        way: &page.way.name,
        active_minutes: page.way.active_minutes,
        total_minutes: page.way.total_minutes,
        begin: page.way.begin.as_deref(),
        night: page.way.night.as_deref(),
        ingredients: page.way.groups.iter().map(group).collect(),
        days: page.way.days.iter().map(day).collect(),
        other_ways: page.others.iter().map(other).collect(),
        tools: &page.tools,
        keeps: page
            .keeps
            .iter()
            .map(|one| WireKeeping { part: &one.part, how: &one.how, ahead: one.is_taken })
            .collect(),
        allergens: &page.allergens,
        allergens_unknown: &page.allergens_unknown,
        energy: page.energy.as_ref().map(|one| WireEnergy { per_100_g: &one.per_100_g, each: one.each.as_deref() }),
        cautions: words(&page.cautions),
        notes: words(&page.notes),
        credits: words(&page.credits),
    }
}

/// Pages as JSON: one recipe is an object, those of a day are an array.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(pages: &[ReaderPage], of_day: bool) -> serde_json::Result<String> {
    let all: Vec<Wire<'_>> = pages.iter().map(wire).collect();
    let text = match all.as_slice() {
        [one] if !of_day => crate::out::report::to_json(one),
        all => crate::out::report::to_json(&all),
    };
    text.map(|text| text + "\n")
}
