//! From the files and options of a command to orders: which recipe, how much of it, for when, in which kitchen.

use super::Outcome;
use super::batches::{self, Refused, show};
use super::output::Output;
use super::scaling::Scaling;
use super::stop::Stop;
use crate::language::parse::{self, nearest};
use crate::language::syntax::{Content, Name};
use crate::make::day::NotToOrder;
use crate::make::order::Order;
use crate::make::size::AskedBy;
use crate::make::work::Work;
use crate::measure::show::Units;
use crate::model::kitchen::Kitchen;
use crate::model::project::Project;
use crate::model::step::Step;
use crate::plan::ask::Hours;
use crate::plan::clock::{Clock, NoSuchTime};
use crate::plan::problem::{Minute, Window};
use crate::plan::shifts::{self, Staff};
use crate::plan::tasks::Tasks;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
use jiff::civil::{DateTime, Time};
use jiff::tz::TimeZone;
use std::sync::Arc;

/// What is to be made, where and for when.
pub(super) struct Asked {
    /// The day's or the recipes' names.
    pub(super) title: String,
    /// What is made.
    pub(super) work: Work,
    /// The one kitchen.
    pub(super) kitchen: Arc<Kitchen>,
    /// The clock, if there is a time.
    pub(super) clock: Option<Clock>,
    /// In which units amounts are printed.
    pub(super) units: Units,
    /// For each order, when it is wanted.
    pub(super) dues: Vec<Option<Minute>>,
    from: Option<Minute>,
    /// The moment from which on the rest is planned.
    pub(super) now: Option<Minute>,
}

/// The times that were given as options.
pub(super) struct Times<'a> {
    /// For when.
    pub(super) ready: Option<&'a str>,
    /// Not before.
    pub(super) from: Option<&'a str>,
    /// Where.
    pub(super) zone: TimeZone,
}

/// A time that is wanted, and where it was said.
#[derive(Clone, Copy)]
struct Due {
    when: DateTime,
    span: Option<Span>,
}

impl Asked {
    /// When the day begins on which the last of it is to be ready: with the opening in which it is, or with the shift that goes on through
    /// that midnight; else at midnight. `None` without a clock.
    pub(super) fn last_day(&self, hours: &Hours) -> Option<Minute> {
        let clock = self.clock.as_ref()?;
        let due = self.dues.iter().flatten().copied().max()?;
        let midnight = clock.minute(clock.at(due)?.date().at(0, 0, 0, 0)).ok()?;
        let is_then = |window: &&Window| window.opens < due && window.closes > midnight && window.opens > due - 1440;
        if let Some(window) = hours.open.iter().rev().find(is_then) {
            return Some(window.opens);
        }
        let shifts = hours.people.iter().flat_map(|person| &person.shifts).map(|shift| shift.window);
        let through = shifts.filter(|window| window.opens < midnight && midnight < window.closes);
        Some(through.map(|window| window.opens).min().unwrap_or(midnight))
    }

    /// Whether a step of what is made uses equipment of that name.
    fn uses(&self, name: &Name) -> bool {
        let parts = self.work.batches.iter().flat_map(|batch| batch.recipe.parts()).map(|(_, part)| part);
        parts.flat_map(|part| &part.steps).any(|step| step.equipment.as_ref().is_some_and(|used| used.same(name)))
    }

    /// Opening hours for as long before the last due time as any sensible plan could reach.
    pub(super) fn hours(&self, tasks: &Tasks, kitchen: &Kitchen) -> Hours {
        let Some(clock) = &self.clock else {
            let Staff { open, people } = Staff::without_clock(kitchen);
            return Hours { open, people, cold: true, ..Hours::default() };
        };
        let last = self.dues.iter().flatten().copied().max().unwrap_or(0);
        if let Some(now) = self.now {
            // What is late may be so by a day.
            let Staff { open, people } = Staff::by_the_clock(kitchen, clock, now, last.max(now) + 1440);
            return Hours { open, people, cold: true, dues: self.dues.clone(), earliest: Some(now) };
        }
        let reach = shifts::reach(tasks);
        let from = self.from.map_or(last - reach, |from| from.max(last - reach));
        let Staff { open, people } = Staff::by_the_clock(kitchen, clock, from, last);
        Hours { open, people, cold: true, dues: self.dues.clone(), earliest: Some(from) }
    }
}

/// The time zone of that name, or the system's.
///
/// # Errors
/// A sentence, when there is none of that name.
pub(super) fn zone(name: Option<&str>) -> Result<TimeZone, String> {
    match name {
        None => Ok(TimeZone::system()),
        Some(name) => TimeZone::get(name).map_err(|_| {
            format!("--zone {name}: there is no such time zone; write one such as `Europe/Oslo` or `UTC`")
        }),
    }
}

/// Reads, checks and scales everything that was asked for. Problems are printed.
///
/// # Errors
/// How the program ends, when something is wrong.
pub(super) fn gather(
    project: &Project,
    sources: &[SourceId],
    scaling: &Scaling,
    times: &Times<'_>,
    output: &Output,
) -> Result<Asked, Stop> {
    let ready = times.ready.map(|text| moment("--ready", text)).transpose()?;
    let from = times.from.map(|text| moment("--from", text)).transpose()?;
    let made = batches::gather(project, sources, scaling, output).map_err(|refused| match refused {
        Refused::Stop(stop) => stop,
        Refused::Line(line) => Wrong::Place(Box::new(not_to_order(*line))).shown(project, output),
    })?;
    if ready.is_some() && made.work.orders.iter().any(|order| order.ready.is_some()) {
        return Err("a day says itself when it is ready: leave --ready away, or change its `ready` line".into());
    }
    let of_option = ready.map(|when| Due { when, span: None });
    let due =
        |order: &Order| order.ready.map(|moment| Due { when: moment.when, span: Some(moment.span) }).or(of_option);
    let dues: Vec<Option<Due>> = made.work.orders.iter().map(due).collect();
    let recipes = made.work.orders.iter().map(|order| &order.recipe);
    let steps = recipes.flat_map(|recipe| recipe.parts()).flat_map(|(_, part)| &part.steps);
    let kitchen = one_kitchen(&made.kitchens)?.with_assumed(steps.filter_map(Step::held));
    let timed = with_clock(&dues, from, times).map_err(|why| why.shown(project, output))?;
    Ok(Asked {
        title: made.titles.join(", "),
        work: made.work,
        kitchen,
        clock: timed.0,
        units: scaling.units(),
        dues: timed.1,
        from: timed.2,
        now: None,
    })
}

/// A line that cannot be made, in its place.
fn not_to_order(NotToOrder { line, recipe, why }: NotToOrder) -> Diagnostic {
    let message = format!("{recipe} cannot be made to this order: {}", why.why);
    let problem = Diagnostic::error("no-plan", line.span, message);
    match why.help {
        Some(instead) => problem.help(instead.shown(AskedBy::Option)),
        None => problem,
    }
}

/// What went wrong: words for the user, or a problem with a place.
enum Wrong {
    Use(String),
    Place(Box<Diagnostic>),
}

impl Wrong {
    /// A problem with a place is shown there.
    fn shown(self, project: &Project, output: &Output) -> Stop {
        match self {
            Wrong::Use(why) => Stop::Why(why),
            Wrong::Place(problem) => {
                show(project, [&*problem], output);
                Stop::Told(Outcome::Errors)
            }
        }
    }
}

type Timed = (Option<Clock>, Vec<Option<Minute>>, Option<Minute>);

fn with_clock(dues: &[Option<Due>], from: Option<DateTime>, times: &Times<'_>) -> Result<Timed, Wrong> {
    let Some(last) = dues.iter().flatten().map(|due| due.when).max() else {
        if from.is_some() {
            return Err(Wrong::Use("--from needs a time by which things are ready: give --ready as well".to_owned()));
        }
        return Ok((None, vec![None; dues.len()], None));
    };
    let no_clock = |_| Wrong::Use(format!("{} is too far away to be planned", written(last)));
    let clock = Clock::around(times.zone.clone(), last.date()).map_err(no_clock)?;
    let minute = |due: &Due, name: &str| {
        clock.minute(due.when).map_err(|why| {
            let (message, help) = match why {
                NoSuchTime::Skipped => (
                    format!("there is no {} that day: the clocks are put forward over it", written(due.when)),
                    "name a time before or after the skipped hour",
                ),
                NoSuchTime::OutOfReach => {
                    (format!("{} is too far away to be planned", written(due.when)), "name a nearer day")
                }
            };
            match due.span {
                Some(span) => Wrong::Place(Box::new(Diagnostic::error("no-plan", span, message).help(help))),
                None => Wrong::Use(format!("{name} {}: {message}; {help}", written(due.when))),
            }
        })
    };
    let mut minutes = Vec::with_capacity(dues.len());
    for due in dues {
        minutes.push(due.as_ref().map(|due| minute(due, "--ready")).transpose()?);
    }
    let from = from.map(|when| minute(&Due { when, span: None }, "--from")).transpose()?;
    if let (Some(from), Some(first)) = (from, minutes.iter().flatten().min())
        && *first <= from
    {
        return Err(Wrong::Use("--ready is not after --from, so there is no time to make anything in".to_owned()));
    }
    // Without a time of its own an order is wanted with the others.
    let all = minutes.iter().flatten().max().copied();
    Ok((Some(clock), minutes.into_iter().map(|minute| minute.or(all)).collect(), from))
}

fn written(when: DateTime) -> String {
    when.strftime("%Y-%m-%d %H:%M").to_string()
}

/// The kitchen of all files: those that name one must name the same.
fn one_kitchen(kitchens: &[Arc<Kitchen>]) -> Result<Arc<Kitchen>, String> {
    let mut named = kitchens.iter().filter(|kitchen| kitchen.span.is_some());
    let Some(first) = named.next() else {
        return kitchens.first().cloned().ok_or_else(|| "there is nothing to plan".to_owned());
    };
    match named.find(|other| other.span != first.span) {
        Some(other) => Err(format!(
            "the files are made in different kitchens, `{}` and `{}`; a plan is for one: write a day that uses one of them",
            first.name, other.name
        )),
        None => Ok(first.clone()),
    }
}

pub(super) fn moment(option: &str, text: &str) -> Result<DateTime, String> {
    let line = format!("day x\nready {}", text.trim().replace('T', " "));
    let (tree, diagnostics) = parse::parse(SourceId(u32::MAX), &line);
    match tree.lines.get(1).map(|line| &line.content) {
        Some(Content::Ready(moment)) if diagnostics.is_empty() => Ok(moment.when),
        _ => Err(format!("{option} {text}: this is no time; write day and time, \"2026-12-05 15:00\"")),
    }
}

/// An hour of the day as it is given with an option: `5:50`, `16:00`.
pub(super) fn time_of_day(text: &str) -> Option<Time> {
    let (hour, minute) = text.trim().split_once(':')?;
    let figures = |text: &str| text.len() <= 2 && !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    if !figures(hour) || !figures(minute) {
        return None;
    }
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

/// The kitchen with one line of it said otherwise.
///
/// # Errors
/// A sentence, when the line is none of a kitchen.
pub(super) fn other_kitchen(asked: &Asked, line: &str) -> Result<Kitchen, String> {
    let kitchen: &Kitchen = &asked.kitchen;
    let unreadable =
        || format!("--what-if {line}: this is no line of a kitchen; write `cooks 2`, `oven x 2` or `open 06:00-20:00`");
    let (tree, mut diagnostics) = parse::parse(SourceId(u32::MAX), &format!("kitchen x\n{line}"));
    let [_, said] = tree.lines.as_slice() else { return Err(unreadable()) };
    if !diagnostics.is_empty() {
        return Err(unreadable());
    }
    let read = crate::model::larder::pantry::kitchen(&tree, kitchen, &mut diagnostics);
    if !diagnostics.is_empty() {
        return Err(unreadable());
    }
    let mut other = kitchen.clone();
    match &said.content {
        Content::Equipment { clauses, .. } => {
            for equipment in read.equipment {
                match other.equipment.iter_mut().find(|known| known.name.same(&equipment.name)) {
                    // Only the number changes, unless the line says more.
                    Some(known) if clauses.is_empty() => known.count = equipment.count,
                    Some(known) => *known = equipment,
                    None if !asked.uses(&equipment.name) => {
                        let known: Vec<&str> = kitchen.equipment.iter().map(|one| one.name.key.as_str()).collect();
                        let near = nearest(equipment.name.key.as_str(), known.iter().copied());
                        let near = near.map(|near| format!("; did you mean `{near}`?")).unwrap_or_default();
                        return Err(format!("--what-if {line}: nothing here uses `{}`{near}", equipment.name));
                    }
                    None => other.equipment.push(equipment),
                }
            }
        }
        Content::Cooks(_) => (other.cooks, other.named) = (read.cooks, Vec::new()),
        // Another person, or one whose hours change.
        Content::Cook { .. } => {
            for cook in read.named {
                match other.named.iter_mut().find(|known| known.name.same(&cook.name)) {
                    Some(known) => *known = cook,
                    None => other.named.push(cook),
                }
            }
            other.cooks = u32::try_from(other.named.len()).unwrap_or(u32::MAX);
        }
        Content::Longest(_) => other.longest = read.longest,
        Content::Open { .. } => (other.opens, other.closes) = (read.opens, read.closes),
        _ => return Err(unreadable()),
    }
    Ok(other)
}
