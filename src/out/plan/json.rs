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
    start: Option<String>,
    ready: Option<String>,
    hands_minutes: i64,
    spells: i64,
    makes: Vec<WireMade<'a>>,
    tasks: Vec<WireTask<'a>>,
    /// What the people are called, by their numbers from 1; empty where they have no names.
    names: &'a [String],
    /// What is lit when, by whom.
    heating: Vec<WireLight<'a>>,
    rests: Vec<WireRest<'a>>,
    /// The measures that were given up before the limit, because they no longer got better.
    given_up: &'a [&'static str],
    cautions: Vec<WireCaution<'a>>,
    /// Rests that are planned shorter than the longer end of their range, since with that there is no plan.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    shorter: Vec<WireShorter<'a>>,
    /// The parts that may be made ahead.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    kept: Vec<WireKept<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    from_store: Vec<WireTaken<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_over: Vec<WireRemains<'a>>,
    /// What was taken from the bakes in place of what is written, a sentence each.
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    as_baked: &'a [String],
    /// The moment from which on was planned.
    #[serde(skip_serializing_if = "Option::is_none")]
    now: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    late: Option<Vec<WireLate<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    leave_out: Option<Vec<&'a str>>,
    /// What cannot be finished, since what it needs is not there any more: its `ready` says nothing.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cannot: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limits: Option<Vec<WireLimit<'a>>>,
}

#[derive(Serialize, JsonSchema)]
struct WireKept<'a> {
    recipe: &'a str,
    part: &'a str,
    made_minute: i64,
    earliest_minute: i64,
    latest_minute: i64,
    earliest: Option<String>,
    latest: Option<String>,
    keeps: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireTaken<'a> {
    what: &'a str,
    grams: Option<Figure>,
    /// How many pieces that is, where it is in pieces.
    pieces: Option<Figure>,
    made: Option<String>,
    recipe: &'a str,
    into: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireRemains<'a> {
    what: &'a str,
    of: &'a [String],
    taken_g: Figure,
    remains_g: Option<Figure>,
}

/// An order that is late.
#[derive(Serialize, JsonSchema)]
struct WireLate<'a> {
    recipe: &'a str,
    minutes: i64,
}

/// A limit that runs.
#[derive(Serialize, JsonSchema)]
struct WireLimit<'a> {
    rule: &'static str,
    recipe: &'a str,
    part: &'a str,
    step: &'a str,
    after: &'a str,
    by: Option<String>,
    planned: Option<String>,
    broken: bool,
}

#[derive(Serialize, JsonSchema)]
struct WireMade<'a> {
    recipe: &'a str,
    wanted: &'a str,
    ready_minute: i64,
    ready: Option<String>,
    due: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireTask<'a> {
    recipe: &'a str,
    part: &'a str,
    /// What tells it from others of that name: `for 09:00`, or the options that those do not have.
    #[serde(skip_serializing_if = "str::is_empty")]
    which: &'a str,
    step: &'a str,
    /// The number of the load, from 1.
    load: i64,
    /// Who is busy.
    kind: Busy,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    end_minute: i64,
    start: Option<String>,
    end: Option<String>,
    /// How far the clock is from UTC then, where it is put forward or back while the plan runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_offset: Option<String>,
    /// When the last of a rest that may go on is taken up, where that is later than its end.
    #[serde(skip_serializing_if = "Option::is_none")]
    last_taken_minute: Option<i64>,
    equipment: Option<&'a str>,
    unit: Option<u32>,
    cooks: u32,
    /// Who does it, by number from 1.
    people: &'a [u32],
    names: Vec<&'a str>,
    /// How many loads the step has.
    loads: i64,
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
    equipment: &'a str,
    unit: Option<u32>,
    temperature: Option<&'a Shown>,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    hot_minute: i64,
    start: Option<String>,
    hot: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hot_offset: Option<String>,
    /// Whether it was hot before, at another temperature.
    again: bool,
    /// Who does it, by number from 1.
    people: &'a [u32],
    names: Vec<&'a str>,
}

/// Somebody's rest in a shift.
#[derive(Serialize, JsonSchema)]
struct WireRest<'a> {
    person: u32,
    name: Option<&'a str>,
    /// Minutes from the beginning of the plan.
    start_minute: i64,
    end_minute: i64,
    start: Option<String>,
    end: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    start_offset: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_offset: Option<String>,
}

/// A rest that is planned shorter than it might be.
#[derive(Serialize, JsonSchema)]
struct WireShorter<'a> {
    recipe: &'a str,
    part: &'a str,
    step: &'a str,
    minutes: i64,
    longest_minutes: i64,
}

/// What goes in.
#[derive(Serialize, JsonSchema)]
struct WireAmount<'a> {
    ingredient: &'a str,
    grams: Option<Figure>,
    shown: &'a Shown,
}

/// What can hurt somebody.
#[derive(Serialize, JsonSchema)]
struct WireCaution<'a> {
    check: &'static str,
    recipe: &'a str,
    part: &'a str,
    step: &'a str,
    load: i64,
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
