//! The run sheet of a plan: its rows with what goes in at each of them, what to be careful of, and how the day stands.

use crate::figures::card::{DivideCard, GoesIn, LoadShare, Portion};
use crate::make::work::Work;
use crate::measure::number::{Number, Overflow};
use crate::measure::show::{self, Units};
use crate::model::step::StepRef;
use crate::plan::explain::{Contact, Early, cools_alone, gluten_after_wheat, stands_hot, stands_out_of_the_cold};
use crate::plan::problem::{Minute, Rule};
use crate::plan::schedule::{Light, Row, Schedule, Turned};
use crate::plan::shorter::{Otherwise, Shorter};
use std::collections::{HashMap, HashSet};

/// A plan as somebody works by it.
#[derive(Debug, Clone)]
pub struct RunSheet {
    /// The plan.
    pub plan: Schedule,
    /// For each of its rows, what goes in.
    pub portions: Vec<Vec<Portion>>,
    /// For each time that something is lit, what is in it then: the fat or the water that is to be hot for the first load.
    pub filled: Vec<Vec<Portion>>,
    /// What is read, a line each: rows, and shares of one piece of work together.
    pub lines: Vec<Line>,
    /// For each of its rows that makes pieces of a part, what they weigh.
    pub divides: Vec<Option<DivideCard>>,
    /// What would bring gluten into what has none, and what would cool with nobody there.
    pub contacts: Vec<Contact>,
    /// How the day stands, where some of it is done.
    pub now: Option<Now>,
    /// What is ready on a day before it is wanted.
    pub early: Vec<Early>,
    /// Rests that are planned at the shorter end of their range.
    pub shorter: Vec<ShortRest>,
    /// What was taken from the bakes in place of what is written, a sentence each.
    pub as_baked: Vec<String>,
}

/// A rest that is planned at the shorter end of its range, or near it, since with the longer one there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShortRest {
    /// The recipe.
    pub recipe: String,
    /// The part.
    pub part: String,
    /// What tells it from others of that name; empty where all of them take as long.
    pub which: String,
    /// The step.
    pub step: String,
    /// How long it takes, in minutes.
    pub minutes: Minute,
    /// The longer end of its range, in minutes.
    pub longest: Minute,
    /// What is with that.
    pub otherwise: Otherwise,
    /// Whether that is so only with the other rests as long as they are here.
    pub beside_others: bool,
}

/// What is read as one line: a row of the plan, or the shares of several people in one piece of work.
#[derive(Debug, Clone)]
pub struct Line {
    /// The rows of the plan.
    pub rows: Vec<usize>,
    /// All of them as one.
    pub row: Row,
    /// What goes in.
    pub portions: Vec<Portion>,
    /// Who does which share from when to when, where they do not all begin and end together; mostly empty.
    pub shares: Vec<Share>,
}

/// Who does a share of one piece of work, from when to when.
pub type Share = (Vec<u32>, Minute, Minute);

/// How far a row is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Nobody has begun it.
    Ahead,
    /// It has begun and not ended.
    Running,
    /// It is over.
    Done,
}

impl State {
    /// As programs read it.
    pub fn word(self) -> &'static str {
        match self {
            State::Ahead => "ahead",
            State::Running => "running",
            State::Done => "done",
        }
    }
}

/// How the day stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Now {
    /// The moment, in minutes from the plan's start.
    pub minute: Minute,
    /// For each row, how far it is.
    pub states: Vec<State>,
    /// Orders that are late, by their number in the plan, and by how many minutes.
    pub late: Vec<(usize, Minute)>,
    /// Orders that cannot be finished, since what they need is not there any more, by their number in the plan.
    pub cannot: Vec<usize>,
    /// Orders of which one would have to be left out for the rest to be in time; the least work first.
    pub leave_out: Vec<usize>,
    /// Limits that are broken, and those that come next.
    pub limits: Vec<NextLimit>,
    /// Rows that no log names, but that must be over, at a time that nobody knows.
    pub assumed: Vec<usize>,
    /// Rests that no log names: they run, or are over, since the end of what they come after.
    pub rests: Vec<usize>,
    /// Rows that the log has running, and what has taken their unit since.
    pub taken_out: Vec<(usize, usize)>,
    /// Rows that the log has in the heat long after their time was up: they count as over since then.
    pub overdue: Vec<usize>,
    /// By how many minutes somebody stays beyond the kitchen's hours; mostly 0.
    pub overtime: Minute,
    /// What was begun for another number than is ordered, a sentence each.
    pub otherwise: Vec<String>,
}

/// A limit on how long something may go on or stand that runs now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextLimit {
    /// Why there is one.
    pub rule: Rule,
    /// The row from which it counts.
    pub from: usize,
    /// The row that has to begin by then.
    pub to: usize,
    /// The moment, in minutes from the plan's start.
    pub by: Minute,
}

impl RunSheet {
    /// What goes in at a row.
    pub fn portions_of(&self, row: usize) -> &[Portion] {
        self.portions.get(row).map_or(&[], Vec::as_slice)
    }

    /// What is filled into something before it is lit.
    pub fn filled_into(&self, light: &Light) -> &[Portion] {
        let at = self.plan.lights.iter().position(|one| one == light);
        at.and_then(|at| self.filled.get(at)).map_or(&[], Vec::as_slice)
    }

    /// How many pieces there are in a row and what one weighs, as printed: `50 pieces of 88 g`, `12 × 450 g small and 6 × 900 g
    /// large`; nothing where they are not counted.
    pub fn pieces_of(&self, row: usize) -> Option<String> {
        self.pieces_in(row, self.plan.rows.get(row)?)
    }

    /// As [`RunSheet::pieces_of`], of a line whose first row has that number.
    pub fn pieces_in(&self, first: usize, row: &Row) -> Option<String> {
        let count = row.pieces?;
        let pieces = show::pieces(count);
        let said = match self.divides.get(first).and_then(Option::as_ref) {
            Some(divide) if divide.sorts.is_empty() => format!("{pieces} of {}", divide.each_shown),
            // Which of them are in one load of several is not said.
            Some(divide) if divide.pieces == count => divide.shown(),
            _ => pieces.to_string(),
        };
        Some(match row.at_a_time {
            Some(size) => format!("{said}, {} at a time", show::count_of(size)),
            None => said,
        })
    }

    /// The run sheet of a plan for some work.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(plan: Schedule, now: Option<Now>, work: &Work, units: Units) -> Result<RunSheet, Overflow> {
        let goes_in: Vec<GoesIn<'_>> = work.batches.iter().map(|batch| GoesIn::of(batch, units)).collect();
        let (mut portions, mut divides) = (Vec::with_capacity(plan.rows.len()), Vec::with_capacity(plan.rows.len()));
        let baths = baths(&plan.rows)?;
        let filled = filled(&plan, &goes_in, &baths)?;
        let is_filled = |row: &Row| {
            let mut lit = plan.lights.iter().zip(&filled);
            lit.any(|(light, filled)| light.first == row.task && !filled.is_empty())
        };
        for (row, bath) in plan.rows.iter().zip(&baths) {
            let goes_in = goes_in.get(row.batch);
            let load = LoadShare { own: row.share, bath: *bath, is_filled: is_filled(row) };
            portions.push(goes_in.map_or(Ok(Vec::new()), |goes_in| goes_in.at(row.at, load))?);
            divides.push(goes_in.map_or(Ok(None), |goes_in| goes_in.divide(row.at, row.turn))?);
        }
        let mut lines = Vec::with_capacity(plan.rows.len());
        for rows in together(&plan.rows) {
            let Some(row) = as_one(&plan.rows, &rows)? else { continue };
            let portions = match (rows.as_slice(), goes_in.get(row.batch)) {
                ([one], _) => portions.get(*one).cloned().unwrap_or_default(),
                (several, Some(goes_in)) => {
                    let mut bath = Number::ZERO;
                    for share in several.iter().filter_map(|at| baths.get(*at)) {
                        bath = bath.plus(*share)?;
                    }
                    let is_filled = several.iter().filter_map(|at| plan.rows.get(*at)).any(is_filled);
                    goes_in.at(row.at, LoadShare { own: row.share, bath, is_filled })?
                }
                (_, None) => Vec::new(),
            };
            let shares = shares(&plan.rows, &rows);
            lines.push(Line { rows, row, portions, shares });
        }
        let mut contacts = gluten_after_wheat(&plan, work);
        contacts.extend(cools_alone(&plan, work));
        contacts.extend(stands_hot(&plan, work));
        contacts.extend(stands_out_of_the_cold(&plan, work));
        Ok(RunSheet {
            plan,
            portions,
            filled,
            lines,
            divides,
            contacts,
            now,
            early: Vec::new(),
            shorter: Vec::new(),
            as_baked: Vec::new(),
        })
    }

    /// The same with rests that are planned shorter than they might be.
    #[must_use]
    pub fn with_shorter(self, work: &Work, rests: Vec<Shorter>) -> RunSheet {
        let shorter = rests.into_iter().filter_map(|rest| {
            let recipe = &work.batches.get(rest.batch)?.recipe;
            let part = recipe.part(rest.step.part)?;
            let (origin, _) = recipe.origin(rest.step.part)?;
            let row = self.plan.rows.iter().find(|row| (row.batch, row.at) == (rest.batch, rest.step));
            Some(ShortRest {
                which: row.map(|row| row.which.clone()).unwrap_or_default(),
                recipe: origin.name.to_string(),
                part: part.name.to_string(),
                step: part.steps.get(rest.step.step)?.name.to_string(),
                minutes: rest.minutes,
                longest: rest.longest,
                otherwise: rest.otherwise,
                beside_others: rest.beside_others,
            })
        });
        // Doughs of one recipe for several times are told once.
        let mut told: Vec<ShortRest> = Vec::new();
        for rest in shorter {
            let is_alike = |known: &ShortRest| ShortRest { which: rest.which.clone(), ..known.clone() } == rest;
            match told.iter_mut().find(|known| is_alike(known)) {
                Some(known) => known.which.clear(),
                None => told.push(rest),
            }
        }
        RunSheet { shorter: told, ..self }
    }
}

/// A step of a batch, or as it is done for one of several times.
type StepOfATime = (usize, StepRef, Option<usize>);

/// For each row, which share goes in there of what the loads of its step go through one after the other: of each pot the first load takes what is
/// filled into it, and where there are several pots each is filled alike.
fn baths(rows: &[Row]) -> Result<Vec<Number>, Overflow> {
    let key = |row: &Row| (row.batch, row.at, row.turn);
    let mut all: HashMap<StepOfATime, (Number, Vec<Option<u32>>)> = HashMap::new();
    for row in rows {
        let (share, units) = all.entry(key(row)).or_insert((Number::ZERO, Vec::new()));
        *share = share.plus(row.share)?;
        if !units.contains(&row.unit) {
            units.push(row.unit);
        }
    }
    let mut filled: HashSet<(StepOfATime, Option<u32>)> = HashSet::new();
    let share = |row: &Row| match all.get(&key(row)) {
        Some((share, units)) if filled.insert((key(row), row.unit)) => {
            share.over(Number::whole(i64::try_from(units.len()).unwrap_or(1)))
        }
        _ => Ok(Number::ZERO),
    };
    rows.iter().map(share).collect()
}

/// For each time that something is lit, what is filled in before that.
fn filled(plan: &Schedule, goes_in: &[GoesIn<'_>], baths: &[Number]) -> Result<Vec<Vec<Portion>>, Overflow> {
    let of = |light: &Light| {
        let row = plan.rows.iter().zip(baths).find(|(row, _)| row.task == light.first && light.turned == Turned::On);
        let Some((row, bath)) = row else { return Ok(Vec::new()) };
        let load = LoadShare { own: row.share, bath: *bath, is_filled: false };
        goes_in.get(row.batch).map_or(Ok(Vec::new()), |goes_in| goes_in.before_it_is_hot(row.at, load))
    };
    plan.lights.iter().map(of).collect()
}

/// The numbers of rows that are read as one: shares of one piece of work that hang together in time. The others alone.
fn together(rows: &[Row]) -> Vec<Vec<usize>> {
    let mut all: Vec<(Vec<usize>, Minute)> = Vec::new();
    // The latest line of each piece of work.
    let mut latest: HashMap<(usize, StepRef, i64), usize> = HashMap::new();
    for (at, row) in rows.iter().enumerate() {
        let key = row.bundle.map(|bundle| (row.batch, row.at, bundle));
        let known = key.and_then(|key| latest.get(&key)).and_then(|line| all.get_mut(*line));
        match known.filter(|(_, end)| row.start <= *end) {
            Some((line, end)) => {
                line.push(at);
                *end = row.end.max(*end);
            }
            None => {
                latest.extend(key.map(|key| (key, all.len())));
                all.push((vec![at], row.end));
            }
        }
    }
    all.into_iter().map(|(line, _)| line).collect()
}

/// So many minutes apart people begin and end together: nobody reads a sheet closer than that.
const TOGETHER: Minute = 2;

/// Who does which share from when to when: one after the other what one does, together those who begin and end together. Nothing where all
/// do, but for a minute or two.
fn shares(rows: &[Row], of: &[usize]) -> Vec<Share> {
    let mut each: Vec<Share> = Vec::new();
    for row in of.iter().filter_map(|at| rows.get(*at)) {
        match each.iter_mut().find(|(people, _, end)| *people == row.people && *end == row.start) {
            Some((_, _, end)) => *end = row.end,
            None => each.push((row.people.clone(), row.start, row.end)),
        }
    }
    let mut all: Vec<Share> = Vec::new();
    for (people, start, end) in each {
        match all.iter_mut().find(|(_, from, to)| (*from, *to) == (start, end)) {
            Some((with, ..)) => with.extend(people),
            None => all.push((people, start, end)),
        }
    }
    let first = all.iter().map(|(_, from, _)| *from).min().unwrap_or_default();
    let last = all.iter().map(|(.., to)| *to).max().unwrap_or_default();
    let are_together = all.iter().all(|(_, from, to)| from - first <= TOGETHER && last - to <= TOGETHER);
    if are_together { Vec::new() } else { all }
}

/// Several shares of one piece of work as one row: from the first start to the last end, by all who do them.
fn as_one(rows: &[Row], of: &[usize]) -> Result<Option<Row>, Overflow> {
    let mut shares = of.iter().filter_map(|at| rows.get(*at));
    let Some(mut one) = shares.next().cloned() else { return Ok(None) };
    if of.len() > 1 {
        one.load = one.bundle.unwrap_or(one.load);
        one.loads = one.bundles.max(1);
    }
    for other in shares {
        one.end = one.end.max(other.end);
        one.soonest_end = one.soonest_end.max(other.soonest_end);
        one.share = one.share.plus(other.share)?;
        one.pieces = one.pieces.zip(other.pieces).map(|(here, there)| here.plus(there)).transpose()?;
        one.people.extend(&other.people);
    }
    one.people.sort_unstable();
    one.people.dedup();
    Ok(Some(one))
}
