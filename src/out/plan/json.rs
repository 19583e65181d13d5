//! A plan for programs. The keys are fixed; the structs here are the wire format and nothing else.

use crate::figures::run_sheet::RunSheet;
use crate::measure::shown::Shown;
use crate::out::json::{Busy, Figure};
use filled::Filling;
use schemars::JsonSchema;
use serde::Serialize;

mod filled;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// From the first step to the last order.
    span_minutes: i64,
    /// Whether it is proven that no plan is better.
    optimal: bool,
    /// The measures of which no plan has less, given those before them as they are.
    proven: Vec<&'static str>,
    /// Whether no plan with these measures has fewer spells.
    quietest: bool,
    /// Whether no plan is shorter, whatever stands half done in it or grows cold.
    shortest: bool,
    /// By how much a plan could be shorter at most.
    gap_minutes: i64,
    /// When the first step begins by the clock; null where no time is wanted.
    start: Option<String>,
    /// When the last order is ready by the clock.
    ready: Option<String>,
    /// Minutes of hands-on work.
    hands_minutes: i64,
    /// In how many spells the work by hand comes.
    spells: i64,
    /// What is made, order by order.
    makes: Vec<WireMade<'a>>,
    /// Every load of every step, by its start.
    tasks: Vec<WireTask<'a>>,
    /// What the people are called, by their numbers from 1; empty where they have no names.
    names: &'a [String],
    /// What is lit when, by whom.
    heating: Vec<WireLight<'a>>,
    /// Who rests when.
    rests: Vec<WireRest<'a>>,
    /// The measures that were given up before the limit, because they no longer got better.
    given_up: &'a [&'static str],
    /// Whether the clock ended the search before its steps were over: on another machine the plan may be another.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    cut_by_clock: bool,
    /// What can hurt, a text each.
    cautions: Vec<WireCaution<'a>>,
    /// Rests that are planned shorter than the longer end of their range, since with that there is no plan.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    shorter: Vec<WireShorter<'a>>,
    /// The parts that may be made ahead.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    kept: Vec<WireKept<'a>>,
    /// What comes from the store.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    from_store: Vec<WireTaken<'a>>,
    /// What is left over of what is taken.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_over: Vec<WireRemains<'a>>,
    /// What was taken from the bakes in place of what is written, a sentence each.
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    as_baked: &'a [String],
    /// The moment from which on was planned.
    #[serde(skip_serializing_if = "Option::is_none")]
    now: Option<String>,
    /// Orders that are late, and by how much.
    #[serde(skip_serializing_if = "Option::is_none")]
    late: Option<Vec<WireLate<'a>>>,
    /// Orders of which one would have to be left out for the rest to be in time.
    #[serde(skip_serializing_if = "Option::is_none")]
    leave_out: Option<Vec<&'a str>>,
    /// What cannot be finished, since what it needs is not there any more: its `ready` says nothing.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cannot: Vec<&'a str>,
    /// Limits that run, and those that come next.
    #[serde(skip_serializing_if = "Option::is_none")]
    limits: Option<Vec<WireLimit<'a>>>,
}

#[derive(Serialize, JsonSchema)]
struct WireKept<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// When it is made, in minutes.
    made_minute: i64,
    /// The earliest that it may be made, in minutes.
    earliest_minute: i64,
    /// The latest that it may be made, in minutes.
    latest_minute: i64,
    /// The earliest by the clock.
    earliest: Option<String>,
    /// The latest by the clock.
    latest: Option<String>,
    /// How it is kept.
    keeps: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireTaken<'a> {
    /// What it is.
    what: &'a str,
    /// In grams.
    grams: Option<Figure>,
    /// How many pieces that is, where it is in pieces.
    pieces: Option<Figure>,
    /// The day on which it was made, `2027-04-10`.
    made: Option<String>,
    /// The name of the recipe.
    recipe: &'a str,
    /// Which part takes it.
    into: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireRemains<'a> {
    /// What it is.
    what: &'a str,
    /// Of what it is left.
    of: &'a [String],
    /// What is taken, in grams.
    taken_g: Figure,
    /// What remains, in grams.
    remains_g: Option<Figure>,
}

/// An order that is late.
#[derive(Serialize, JsonSchema)]
struct WireLate<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// By how many minutes.
    minutes: i64,
}

/// A limit that runs.
#[derive(Serialize, JsonSchema)]
struct WireLimit<'a> {
    /// The rule: keeps, up to, within and the like.
    rule: &'static str,
    /// The name of the recipe.
    recipe: &'a str,
    /// The part of the step that is limited.
    part: &'a str,
    /// The step that is limited.
    step: &'a str,
    /// The step from which on it counts.
    after: &'a str,
    /// By when it is to begin.
    by: Option<String>,
    /// When it is planned.
    planned: Option<String>,
    /// Whether that is too late.
    broken: bool,
}

#[derive(Serialize, JsonSchema)]
struct WireMade<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// How much of it is wanted.
    wanted: &'a str,
    /// When it is ready, in minutes from the beginning of the plan.
    ready_minute: i64,
    /// When it is ready by the clock.
    ready: Option<String>,
    /// When it is wanted; null where it is wanted with the rest.
    due: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireTask<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// What tells it from others of that name: `for 09:00`, or the options that those do not have.
    #[serde(skip_serializing_if = "str::is_empty")]
    which: &'a str,
    /// The name of the step.
    step: &'a str,
    /// The number of the load, from 1.
    load: i64,
    /// Who is busy.
    kind: Busy,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    /// When it ends, in minutes from the beginning of the plan.
    end_minute: i64,
    /// When it begins by the clock; null where no time is wanted.
    start: Option<String>,
    /// When it ends by the clock.
    end: Option<String>,
    /// How far the clock is from UTC then, where it is put forward or back while the plan runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    /// How far the clock is from UTC at the end.
    #[serde(skip_serializing_if = "Option::is_none")]
    end_offset: Option<String>,
    /// When the last of a rest that may go on is taken up, where that is later than its end.
    #[serde(skip_serializing_if = "Option::is_none")]
    last_taken_minute: Option<i64>,
    /// For how many minutes what is eaten hot stands after it, where that is long.
    #[serde(skip_serializing_if = "Option::is_none")]
    stands_hot_minutes: Option<i64>,
    /// With what it is done.
    equipment: Option<&'a str>,
    /// Which of several, by number from 1.
    unit: Option<u32>,
    /// How many people are busy.
    cooks: u32,
    /// Who does it, by number from 1.
    people: &'a [u32],
    /// Their names, where they have any.
    names: Vec<&'a str>,
    /// How many loads the step has.
    loads: i64,
    /// How many pieces it is of.
    pieces: Option<Figure>,
    /// What goes in.
    amounts: Vec<WireAmount<'a>>,
    /// How far it is, where some of the day is done.
    #[serde(skip_serializing_if = "Option::is_none")]
    state: Option<&'static str>,
    /// Whether no log tells of it: its times are reckoned from what comes before or after it.
    #[serde(skip_serializing_if = "is_false")]
    assumed: bool,
}

fn is_false(said: &bool) -> bool {
    !*said
}

/// Equipment that is lit before it is needed.
#[derive(Serialize, JsonSchema)]
struct WireLight<'a> {
    /// What is lit.
    equipment: &'a str,
    /// Which of several, by number from 1.
    unit: Option<u32>,
    /// How hot it is to be.
    temperature: Option<&'a Shown>,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    /// When it is hot, in minutes.
    hot_minute: i64,
    /// When it begins by the clock; null where no time is wanted.
    start: Option<String>,
    /// When it is hot by the clock.
    hot: Option<String>,
    /// How far the clock is from UTC at the start.
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    /// How far the clock is from UTC then.
    #[serde(skip_serializing_if = "Option::is_none")]
    hot_offset: Option<String>,
    /// Whether it was hot before, at another temperature.
    again: bool,
    /// What is filled in before it is lit: the fat or the water that is to be hot.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    amounts: Vec<WireAmount<'a>>,
    /// Who does it, by number from 1.
    people: &'a [u32],
    /// Their names, where they have any.
    names: Vec<&'a str>,
}

/// Somebody's rest in a shift.
#[derive(Serialize, JsonSchema)]
struct WireRest<'a> {
    /// Who, by number from 1.
    person: u32,
    /// What that person is called.
    name: Option<&'a str>,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    /// When it ends, in minutes.
    end_minute: i64,
    /// When it begins by the clock; null where no time is wanted.
    start: Option<String>,
    /// When it ends by the clock.
    end: Option<String>,
    /// How far the clock is from UTC at the start.
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    /// How far the clock is from UTC at the end.
    #[serde(skip_serializing_if = "Option::is_none")]
    end_offset: Option<String>,
}

/// A rest that is planned shorter than it might be.
#[derive(Serialize, JsonSchema)]
struct WireShorter<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// The name of the step.
    step: &'a str,
    /// How long it is planned, in minutes.
    minutes: i64,
    /// The longer end of its range, in minutes.
    longest_minutes: i64,
}

/// What goes in.
#[derive(Serialize, JsonSchema)]
struct WireAmount<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<Figure>,
    /// As it is printed.
    shown: &'a Shown,
}

/// What can hurt somebody.
#[derive(Serialize, JsonSchema)]
struct WireCaution<'a> {
    /// The name of the check.
    check: &'static str,
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// The name of the step.
    step: &'a str,
    /// The number of the load, from 1.
    load: i64,
    /// What can hurt, and what to do.
    text: String,
}

/// Lays a plan out as JSON.
///
/// # Errors
/// Never in practice: every key is a string and every number finite.
pub fn render(sheet: &RunSheet) -> Result<String, serde_json::Error> {
    let mut text = crate::out::report::to_json(&Filling::of(sheet).wire())?;
    text.push('\n');
    Ok(text)
}
