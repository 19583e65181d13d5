//! The timeline of a card for programs.

use crate::figures::card::Card;
use schemars::JsonSchema;
use serde::Serialize;

/// When each step starts and ends.
#[derive(Serialize, JsonSchema)]
pub(super) struct WireTimeline<'a> {
    span_minutes: i64,
    hands_minutes: i64,
    tend_minutes: i64,
    rows: Vec<WireRow<'a>>,
    /// Why there are no rows, and what would help.
    #[serde(skip_serializing_if = "str::is_empty")]
    why_none: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireRow<'a> {
    part: &'a str,
    step: &'a str,
    kind: &'a str,
    start_minute: i64,
    end_minute: i64,
    /// In how many loads.
    loads: i64,
    equipment: Option<&'a str>,
}

/// The timeline of a card.
pub(super) fn wire(card: &Card) -> WireTimeline<'_> {
    let timeline = &card.timeline;
    WireTimeline {
        span_minutes: timeline.span_minutes,
        hands_minutes: timeline.hands_minutes,
        tend_minutes: timeline.tend_minutes,
        rows: timeline
            .rows
            .iter()
            .map(|row| WireRow {
                part: &row.part,
                step: &row.step,
                kind: row.kind.word(),
                start_minute: row.start,
                end_minute: row.end,
                loads: row.loads,
                equipment: row.equipment.as_deref(),
            })
            .collect(),
        why_none: &card.no_timeline,
    }
}
