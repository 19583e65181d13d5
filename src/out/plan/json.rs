//! A plan for programs. The keys are fixed; the structs here are the wire format and nothing else.

use crate::figures::card::Portion;
use crate::figures::run_sheet::RunSheet;
use crate::measure::shown::Shown;
use crate::out::json::Figure;
use crate::plan::explain::Contact;
use crate::plan::schedule::Schedule;
use serde::Serialize;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize)]
struct Wire<'a> {
    format: u32,
    span_minutes: i64,
    optimal: bool,
    /// The measures of which no plan has less, given those before them as they are.
    proven: Vec<&'static str>,
    quietest: bool,
    gap_minutes: i64,
    start: Option<String>,
    ready: Option<String>,
    hands_minutes: i64,
    spells: i64,
    makes: Vec<WireMade<'a>>,
    tasks: Vec<WireTask<'a>>,
    cautions: Vec<WireCaution<'a>>,
}

#[derive(Serialize)]
struct WireMade<'a> {
    recipe: &'a str,
    wanted: &'a str,
    ready_minute: i64,
    ready: Option<String>,
    due: Option<String>,
}

#[derive(Serialize)]
struct WireTask<'a> {
    recipe: &'a str,
    part: &'a str,
    step: &'a str,
    load: i64,
    kind: &'a str,
    start_minute: i64,
    end_minute: i64,
    start: Option<String>,
    end: Option<String>,
    equipment: Option<&'a str>,
    unit: Option<u32>,
    cooks: u32,
    people: &'a [u32],
    loads: i64,
    pieces: Option<Figure>,
    amounts: Vec<WireAmount<'a>>,
}

/// What goes in.
#[derive(Serialize)]
struct WireAmount<'a> {
    ingredient: &'a str,
    grams: Option<Figure>,
    shown: &'a Shown,
}

/// What can hurt somebody.
#[derive(Serialize)]
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
    let schedule = &sheet.plan;
    let at = |minute: i64| schedule.wall(minute).map(|at| at.strftime("%Y-%m-%dT%H:%M").to_string());
    let wire = Wire {
        format: FORMAT,
        span_minutes: schedule.span,
        optimal: schedule.optimal,
        proven: schedule.proven.clone(),
        quietest: schedule.quietest,
        gap_minutes: schedule.gap,
        start: at(0),
        ready: at(schedule.span),
        hands_minutes: schedule.hands_minutes,
        spells: schedule.spells,
        makes: schedule
            .made
            .iter()
            .map(|made| WireMade {
                recipe: &made.recipe,
                wanted: &made.wanted,
                ready_minute: made.ready,
                ready: at(made.ready),
                due: made.due.and_then(at),
            })
            .collect(),
        tasks: schedule
            .rows
            .iter()
            .zip(&sheet.portions)
            .map(|(row, portions)| WireTask {
                recipe: &row.recipe,
                part: &row.part,
                step: &row.step,
                load: row.load,
                kind: row.kind.word(),
                start_minute: row.start,
                end_minute: row.end,
                start: at(row.start),
                end: at(row.end),
                equipment: row.equipment.as_deref(),
                unit: row.unit,
                cooks: row.cooks,
                people: &row.people,
                loads: row.loads,
                pieces: row.pieces.map(Figure),
                amounts: portions.iter().map(amount).collect(),
            })
            .collect(),
        cautions: sheet.contacts.iter().filter_map(|contact| caution(schedule, contact)).collect(),
    };
    let mut text = crate::out::report::to_json(&wire)?;
    text.push('\n');
    Ok(text)
}

fn amount(portion: &Portion) -> WireAmount<'_> {
    WireAmount {
        ingredient: &portion.ingredient,
        grams: portion.mass.map(|mass| Figure(mass.value())),
        shown: &portion.shown,
    }
}

fn caution<'a>(schedule: &'a Schedule, contact: &Contact) -> Option<WireCaution<'a>> {
    let row = schedule.rows.get(contact.row)?;
    Some(WireCaution {
        check: "gluten-after-wheat",
        recipe: &row.recipe,
        part: &row.part,
        step: &row.step,
        load: row.load,
        text: super::words::contact(schedule, contact),
    })
}
