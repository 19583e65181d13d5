//! A plan as a page: a drawn timeline, then the run sheet, one line an action, by the clock, by who works, or by what is
//! used.

pub(super) mod besides;
pub mod calendar;
mod drawing;
pub(super) mod json;
mod now;
mod words;

pub use json::render as json;
pub use words::{lasts, ready_too_soon, what_if};

use super::block::{Block, Column, Frame, Heading, Look, Paint, Phrase, Row as Cells, Side, Table, Text};
use super::page::Page;
use crate::figures::card::Portion;
use crate::figures::run_sheet::{Line, RunSheet, State};
use crate::model::step::StepKind;
use crate::out::report::seen;
use crate::plan::clock::Change;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Light, Rest, Row, Schedule};
use crate::text::capital::capital;

/// A sheet of so few lines stands below the one before it, on the same page.
const SHORT: usize = 4;
/// So many lines stand on a page at most below which another sheet begins.
const A_PAGE: usize = 14;

/// How the sheet is ordered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// By the clock.
    Clock,
    /// A sheet for each person.
    Person,
    /// A sheet for each piece of equipment.
    Equipment,
}

/// The page of a plan; `changes` is what other kitchens would change, a paragraph each.
pub fn page(sheet: &RunSheet, by: By, changes: &[Vec<Phrase>]) -> Page {
    let schedule = &sheet.plan;
    let title = format!("Plan: {}", schedule.title);
    let mut facts: Vec<Vec<Phrase>> = schedule
        .made
        .iter()
        .enumerate()
        .map(|(at, made)| vec![Phrase::plain(words::of_order(sheet, at, made))])
        .collect();
    facts.push(vec![Phrase::plain(words::summary(schedule))]);
    facts.extend(sheet.shorter.iter().map(|rest| vec![Phrase::plain(words::shorter(rest))]));
    let mut blocks = vec![Heading::looking(1, &title, Look::Underlined), Block::Bullets(facts)];
    for early in &sheet.early {
        blocks.extend([Block::Gap, Block::Care(words::early(early))]);
    }
    for contact in &sheet.contacts {
        blocks.extend([Block::Gap, Block::Care(words::contact(schedule, contact))]);
    }
    blocks.extend(sheet.now.iter().flat_map(|now| now::blocks(sheet, now)));
    blocks.extend(drawing::render(schedule).into_iter().map(Block::Picture));
    let mut besides = besides::blocks(schedule);
    for sentence in &sheet.as_baked {
        besides.extend([Block::Gap, paragraph(vec![Phrase::plain(format!("{}.", capital(sentence)))])]);
    }
    besides.extend([Block::Gap, paragraph(vec![Phrase::plain(words::verdict(schedule))])]);
    besides.extend(changes.iter().flat_map(|change| [Block::Gap, paragraph(change.clone())]));
    if by != By::Clock {
        // What concerns everybody stands on the first sheet, before each one's own.
        blocks.append(&mut besides);
    }
    // How many lines stand on the page that is being filled; the first has the drawing.
    let mut on_page: Option<usize> = None;
    for Sheet { title, entries } in sheets(sheet, by) {
        let level = if title.is_some() { 3 } else { 2 };
        if let Some(title) = title {
            let so_far = on_page.filter(|lines| entries.len() <= SHORT && lines + entries.len() <= A_PAGE);
            on_page = Some(so_far.unwrap_or(0) + entries.len());
            blocks.extend(so_far.is_none().then_some(Block::Rule));
            blocks.extend([Block::Gap, Heading::looking(2, title, Look::Capitals)]);
            if entries.is_empty() {
                blocks.push(paragraph(vec![Phrase::plain("Nothing in this plan.")]));
            }
        }
        blocks.extend(days(sheet, &entries, level));
    }
    blocks.extend(besides);
    Page { title: seen(&title), below: 0, blocks }
}

fn paragraph(runs: Vec<Phrase>) -> Block {
    Block::Text(Text::wrapped(runs, "", ""))
}

/// Something that stands in the sheet.
#[derive(Clone)]
enum Entry<'a> {
    /// A load of a step, with its number and what goes in.
    Row(usize, &'a Row, &'a [Portion]),
    /// Equipment that is lit, and others of its kind that are lit with it.
    Light(&'a Light, Vec<&'a Light>),
    /// Somebody's rest.
    Rest(&'a Rest),
    /// The clocks are put forward or back.
    Clock(Change),
}

impl Entry<'_> {
    fn starts(&self) -> (Minute, u8) {
        match self {
            Entry::Clock(change) => (change.minute, 0),
            Entry::Light(light, _) => (light.start, 0),
            Entry::Row(_, row, _) => (row.start, 1),
            Entry::Rest(rest) => (rest.start, 2),
        }
    }
}

/// What is lit at the same minute by the same people to the same heat is lit in one go.
fn together<'a>(sheet: &RunSheet, lights: impl Iterator<Item = &'a Light>) -> Vec<Entry<'a>> {
    let mut lit: Vec<(&Light, Vec<&Light>)> = Vec::new();
    for light in lights {
        let alike = |(one, _): &&mut (&Light, Vec<&Light>)| {
            Light { unit: light.unit, first: light.first, ..(*one).clone() } == *light
                && sheet.filled_into(one) == sheet.filled_into(light)
        };
        match lit.iter_mut().find(alike) {
            Some((_, all)) => all.push(light),
            None => lit.push((light, vec![light])),
        }
    }
    lit.into_iter().map(|(light, all)| Entry::Light(light, all)).collect()
}

/// What somebody reads as one sheet, by its start.
struct Sheet<'a> {
    /// Whose; `None` for the one that everybody reads.
    title: Option<String>,
    entries: Vec<Entry<'a>>,
}

fn sheets(sheet: &RunSheet, by: By) -> Vec<Sheet<'_>> {
    let (schedule, whole) = (&sheet.plan, sheet);
    let is_ahead = |at: usize| sheet.now.as_ref().is_none_or(|now| now.states.get(at) != Some(&State::Done));
    let since = sheet.now.as_ref().map_or(Minute::MIN, |now| now.minute);
    let sheet = |title: Option<String>,
                 row: &dyn Fn(&Row) -> bool,
                 light: &dyn Fn(&Light) -> bool,
                 rest: &dyn Fn(&Rest) -> bool| {
        // Whoever reads a sheet of their own reads their own share.
        let apart = |line: &Line| by == By::Person || !line.rows.iter().all(|at| is_ahead(*at));
        let rows = whole.lines.iter().flat_map(|line| match line.rows.first() {
            Some(first) if !apart(line) => vec![Entry::Row(*first, &line.row, &line.portions)],
            _ => {
                let rows = line.rows.iter().filter_map(|at| Some((*at, schedule.rows.get(*at)?)));
                rows.map(|(at, row)| Entry::Row(at, row, whole.portions_of(at))).collect()
            }
        });
        let rows = rows.filter(|entry| match entry {
            Entry::Row(at, one, _) => is_ahead(*at) && row(one),
            Entry::Light(..) | Entry::Rest(_) | Entry::Clock(_) => true,
        });
        let lights = together(whole, schedule.lights.iter().filter(|one| one.end >= since && light(one)));
        let rests = schedule.rests.iter().filter(|one| one.end >= since && rest(one)).map(Entry::Rest);
        let mut entries: Vec<Entry<'_>> = rows.chain(lights).chain(rests).collect();
        // Whoever reads times by the clock has to know that it changes.
        if !entries.is_empty() {
            entries.extend(schedule.clock_changes().into_iter().filter(|one| one.minute >= since).map(Entry::Clock));
        }
        // Rows of one minute stay in the order of their numbers.
        entries.sort_by_key(|entry| entry.starts());
        Sheet { title, entries }
    };
    match by {
        By::Clock => vec![sheet(None, &|_| true, &|_| true, &|_| true)],
        By::Person => {
            let nobody = |light: &Light| light.people.is_empty();
            let is_tended = |row: &Row| row.kind == StepKind::Tend;
            // Who is alone has everything on one sheet.
            let is_alone = schedule.cooks == 1;
            let people = (1..=schedule.cooks).map(|person| {
                let name = if schedule.names.is_empty() { format!("Person {person}") } else { schedule.person(person) };
                sheet(
                    Some(name),
                    &|row| {
                        let is_theirs = |row: &Row| row.people.contains(&person) || is_alone && is_tended(row);
                        is_theirs(row) || left_by(schedule, row, is_theirs)
                    },
                    &|light| light.people.contains(&person) || is_alone && nobody(light),
                    &|rest| rest.person == person,
                )
            });
            let reach = sheet(
                Some("Whoever is in reach".to_owned()),
                &|row| is_tended(row) || left_by(schedule, row, is_tended),
                &nobody,
                &|_| false,
            );
            people.chain(Some(reach).filter(|sheet| !is_alone && !sheet.entries.is_empty())).collect()
        }
        By::Equipment => words::units(schedule)
            .into_iter()
            .map(|unit| sheet(Some(unit.name.clone()), &|row| unit.holds(row), &|light| unit.is_lit(light), &|_| false))
            .collect(),
    }
}

/// Whether a row is a rest that somebody leaves: the last who did something to it before, or to what else its recipe makes.
fn left_by(schedule: &Schedule, rest: &Row, is_theirs: impl Fn(&Row) -> bool) -> bool {
    if rest.kind != StepKind::Wait {
        return false;
    }
    let before = || {
        let work = schedule.rows.iter().filter(|row| row.kind != StepKind::Wait && row.batch == rest.batch);
        work.filter(|row| row.end <= rest.start)
    };
    let of_part = before().filter(|row| row.at.part == rest.at.part).max_by_key(|row| row.end);
    of_part.or_else(|| before().max_by_key(|row| row.end)).is_some_and(is_theirs)
}

/// A table for each day, below a heading where the plan has a clock.
fn days(sheet: &RunSheet, entries: &[Entry<'_>], level: usize) -> Vec<Block> {
    let day_of = |entry: &Entry<'_>| sheet.plan.wall(entry.starts().0).map(|at| at.date());
    let tables = entries.chunk_by(|one, next| day_of(one) == day_of(next)).flat_map(|of_day| {
        let day = of_day.first().and_then(day_of);
        let heading = day.map(|day| Heading::looking(level, day.strftime("%A %-d %B %Y"), Look::Underlined));
        let column = |head: &str| Column { head: head.to_owned(), side: Side::Left };
        let table = Table {
            columns: ["When", "Who", "What", "For", "How"].map(column).to_vec(),
            rows: of_day.iter().map(|entry| line(sheet, entry)).collect(),
            frame: Frame::Run,
        };
        [Some(Block::Gap), heading, Some(Block::Table(table))].into_iter().flatten()
    });
    tables.collect()
}

fn line(sheet: &RunSheet, entry: &Entry<'_>) -> Cells {
    let schedule = &sheet.plan;
    let (cells, paint, drawn) = match entry {
        Entry::Row(at, row, portions) => {
            let cells = [
                words::when(schedule, row.start, row.end),
                words::who_of(sheet, row),
                words::action(row),
                words::made(row),
                words::detail(sheet, *at, row, portions),
            ];
            let paint = match row.kind {
                StepKind::Hands => Paint::Bold,
                StepKind::Tend => Paint::None,
                StepKind::Wait => Paint::Dim,
            };
            (cells, paint, Some(*at + 1))
        }
        Entry::Light(light, all) => {
            let who = words::people(schedule, &light.people);
            // To light it is a moment; that it gets hot is nobody's work.
            let cells = [
                words::starts(schedule, light.start),
                if who.is_empty() { "in reach".to_owned() } else { who },
                words::lights(light).to_owned(),
                words::lit_together(light, all),
                words::heats(sheet, light),
            ];
            (cells, Paint::None, None)
        }
        Entry::Clock(change) => {
            let when = format!("{} → {}", change.before.strftime("%H:%M"), change.after.strftime("%H:%M"));
            let what = if change.after < change.before { "clocks go back" } else { "clocks go forward" };
            let nothing = String::new;
            ([when, nothing(), what.to_owned(), nothing(), nothing()], Paint::Bold, None)
        }
        Entry::Rest(rest) => {
            let when = words::when(schedule, rest.start, rest.end);
            let cells = [when, schedule.person(rest.person), "rest".to_owned(), String::new(), String::new()];
            (cells, Paint::Dim, None)
        }
    };
    Cells { paint, drawn, ..Cells::of(cells.into_iter().map(Phrase::plain)) }
}
