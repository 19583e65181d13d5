//! The timeline of a card for programs.

use super::Busy;
use crate::figures::card::{Card, keeps_shown};
use crate::measure::show::Units;
use schemars::JsonSchema;
use serde::Serialize;

/// When each step starts and ends.
#[derive(Serialize, JsonSchema)]
pub(super) struct WireTimeline<'a> {
    /// Minutes from the first step to the last.
    span_minutes: i64,
    /// Minutes of hands-on work.
    hands_minutes: i64,
    /// Minutes in which somebody stays in reach.
    tend_minutes: i64,
    /// The steps, by their start.
    rows: Vec<WireRow<'a>>,
    /// The parts that may be made ahead.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    ahead: Vec<WireAhead<'a>>,
    /// Why there are no rows, and what would help.
    #[serde(skip_serializing_if = "str::is_empty")]
    why_none: &'a str,
}

/// A part that may be made ahead, in minutes from the first start.
#[derive(Serialize, JsonSchema)]
struct WireAhead<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// The earliest that it may be made, in minutes.
    earliest_minute: i64,
    /// The latest that it may be made, in minutes.
    latest_minute: i64,
    /// How it is kept; null where it is its last rest that may go on.
    keeps: Option<String>,
}

/// A step on the timeline, in minutes from the first start.
#[derive(Serialize, JsonSchema)]
struct WireRow<'a> {
    /// The name of the part.
    part: &'a str,
    /// The name of the step.
    step: &'a str,
    /// Who is busy.
    kind: Busy,
    /// When it begins, in minutes.
    start_minute: i64,
    /// When it ends, in minutes.
    end_minute: i64,
    /// In how many loads.
    loads: i64,
    /// With what it is done.
    equipment: Option<&'a str>,
}

/// The timeline of a card.
pub(super) fn wire(card: &Card) -> WireTimeline<'_> {
    let timeline = &card.timeline;
    let ahead = timeline.kept.iter().map(|kept| WireAhead {
        recipe: &kept.recipe,
        part: &kept.part,
        earliest_minute: kept.earliest,
        latest_minute: kept.latest,
        keeps: kept.keeps.map(|keeps| keeps_shown(keeps, Units::Metric)),
    });
    WireTimeline {
        ahead: ahead.collect(),
        span_minutes: timeline.span_minutes,
        hands_minutes: timeline.hands_minutes,
        tend_minutes: timeline.tend_minutes,
        rows: timeline
            .rows
            .iter()
            .map(|row| WireRow {
                part: &row.part,
                step: &row.step,
                kind: row.kind.into(),
                start_minute: row.start,
                end_minute: row.end,
                loads: row.loads,
                equipment: row.equipment.as_deref(),
            })
            .collect(),
        why_none: &card.no_timeline,
    }
}
