//! `miche plan`: when to do what.

mod best;
mod rest;

use super::Outcome;
use super::bakes::as_baked::AsBaked;
use super::busy::Busy;
use super::deliver::{Delivery, wanted};
use super::orders;
use super::output::Output;
use super::printing::Setting as Printing;
use super::scaling::Scaling;
use super::stop::{Ended, Stop};
use crate::edge::loader::{ReadLog, Unreadable};
use crate::figures::run_sheet::RunSheet;
use crate::model::kitchen::Kitchen;
use crate::model::project::Project;
use crate::out;
use crate::plan::explain::{self, Contact, Early};
use crate::plan::limit::Limit;
use crate::plan::schedule::Schedule;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use best::{LaidOut, best};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Steps of the search for each millisecond of the limit: about what a small machine takes.
const STEPS_PER_MILLI: u64 = Limit::USUAL_STEPS / 10_000;

/// Without a limit that is asked for the steps end it, so that a plan and its sheets are the same however busy the machine is; the clock
/// only ends what would take far too long.
const USUALLY_OVER: Duration = Duration::from_secs(60);

/// What `plan` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Recipes, or a day; `-` is standard input
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,
    #[command(flatten)]
    scaling: Scaling,
    #[command(flatten)]
    as_baked: AsBaked,
    /// When everything is to be ready, for example "2026-12-05 15:00"; without it the plan counts from zero
    #[arg(long, value_name = "WHEN")]
    ready: Option<String>,
    /// Nothing starts before, for example "2026-12-04 07:00"
    #[arg(long, value_name = "WHEN")]
    from: Option<String>,
    /// Do on earlier days what `keeps` and `up to` allow, so that the last day has the fewest minutes of hands-on work
    #[arg(long)]
    ahead: bool,
    /// Plan what is left from this moment on, for example "05:50"
    #[arg(long, value_name = "WHEN")]
    now: Option<String>,
    /// What the log of a recipe's bakes says has ended is done, what has begun runs; may be given several times. Without
    /// --now, as of this minute
    #[arg(long, value_name = "FILE")]
    bakes: Vec<PathBuf>,
    /// The time zone of all times; without it that of the system
    #[arg(long, value_name = "ZONE")]
    zone: Option<String>,
    /// How long to look for the best plan: a time, or a number of steps such as "500000 steps", which is the same on
    /// every machine. Without it so many steps as take some ten seconds on a small machine, and no more than a minute
    #[arg(long, value_name = "TIME")]
    limit: Option<String>,
    /// Also say what another kitchen would change, for example "cooks 2" or "oven x 2"; may be given several times
    #[arg(long, value_name = "LINE")]
    what_if: Vec<String>,
    /// Order the sheet by who works or by what is used
    #[arg(long, value_enum)]
    by: Option<By>,
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    format: Option<Format>,
    #[command(flatten)]
    printing: Printing,
    #[command(flatten)]
    delivery: Delivery,
}

/// How a sheet is ordered when not by the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// A sheet for each person
    Person,
    /// A sheet for each piece of equipment
    Equipment,
}

impl By {
    fn of_sheet(self) -> out::plan::By {
        match self {
            By::Person => out::plan::By::Person,
            By::Equipment => out::plan::By::Equipment,
        }
    }
}

/// How a plan is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Plain text for a terminal
    Text,
    /// CommonMark with tables
    Markdown,
    /// A page with a drawn timeline
    Html,
    /// The same for the printer, without a browser
    Pdf,
    /// For programs
    Json,
    /// A calendar (iCalendar, RFC 5545) with an alarm at each start of hands-on work
    Ics,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let usual = if output.is_terminal() { Format::Text } else { Format::Markdown };
    let format = wanted(arguments.format, &arguments.delivery, usual)?;
    let limit = match &arguments.limit {
        Some(text) => {
            Search::read(text).ok_or_else(|| format!("--limit {text}: this is no time; write `10s` or `2 min`"))?
        }
        None => Search::usual(),
    };
    let longest = arguments.limit.as_deref().unwrap_or("a minute");
    let zone = orders::zone(arguments.zone.as_deref())?;
    let (mut loader, as_baked) = arguments.as_baked.loader_and_said(&arguments.files, output)?;
    let sources: Result<Vec<SourceId>, Unreadable> = arguments.files.iter().map(|file| loader.load(file)).collect();
    let sources = sources?;
    let logs = rest::read(&mut loader, &arguments.bakes)?;
    let project = loader.into_project();
    let times = orders::Times { ready: arguments.ready.as_deref(), from: arguments.from.as_deref(), zone };
    let mut asked = orders::gather(&project, &sources, &arguments.scaling, &times, output)?;
    if arguments.zone.is_some() && asked.clock.is_none() {
        output.complain("--zone changes nothing here: no time of day is said; give --ready \"2026-12-05 15:00\"");
    }
    if arguments.ahead && asked.clock.is_none() {
        return Err("--ahead is about the day on which it is ready: give --ready \"2026-12-05 15:00\"".into());
    }
    if format == Format::Ics && asked.clock.is_none() {
        return Err("a calendar needs a date: give --ready \"2026-12-05 15:00\"".into());
    }
    let show = |problems: &[Diagnostic]| super::batches::show(&project, problems, output);
    let wanted = rest::Wanted { now: arguments.now.as_deref(), from: arguments.from.as_deref(), logs };
    let logs = wanted.begin(&mut asked)?;
    show(&logs.iter().flat_map(|log| log.problems.clone()).collect::<Vec<Diagnostic>>());
    if logs.iter().flat_map(|log| &log.problems).any(|problem| problem.severity == Severity::Error) {
        return Ok(Outcome::Errors);
    }
    let search = |kitchen: &Kitchen| {
        let _word = Busy::with(format!("looking for the best plan, {longest} at most"));
        best(&asked, kitchen, &logs, &Watch { ahead: arguments.ahead, ..Watch::start(limit, &|| false) })
    };
    let unlogged = arguments.now.is_some() && arguments.bakes.is_empty();
    let others: Result<Vec<(&String, Kitchen)>, String> =
        arguments.what_if.iter().map(|line| Ok((line, orders::other_kitchen(&asked, line)?))).collect();
    let others = others?;
    let laid_out = match search(&asked.kitchen) {
        Ok(laid_out) => laid_out,
        Err(problems) => {
            let problems = if unlogged { rest::with_no_log(problems) } else { problems };
            let helps = others.iter().map(|(line, kitchen)| match search(kitchen) {
                Ok(other) => {
                    let soon = out::plan::ready_too_soon(&other.schedule, &other.early);
                    let soon = soon.map(|said| format!(" ({said})")).unwrap_or_default();
                    format!("with `{line}` there is a plan, of {}{soon}", out::plan::lasts(&other.schedule))
                }
                Err(_) => format!("with `{line}` there is no plan either"),
            });
            show(&with_help(problems, helps.collect()));
            return Ok(Outcome::Errors);
        }
    };
    show(&laid_out.warnings);
    let has_errors = laid_out.warnings.iter().any(|problem| problem.severity == Severity::Error);
    let LaidOut { schedule, now, early, shorter, .. } = laid_out;
    let has_errors = has_errors || early.iter().any(|early| early.is_past);
    show(&explain::alone_too_long(&schedule, &asked.kitchen, &asked.work));
    show(&early.iter().map(Early::problem).collect::<Vec<Diagnostic>>());
    let mut changes = Vec::new();
    for (line, kitchen) in &others {
        let other = search(kitchen);
        let other = other.as_ref().ok().map(|other| (&other.schedule, &other.early[..]));
        changes.push(out::plan::what_if(line, (&schedule, &early), other));
    }
    let units = arguments.scaling.units();
    let sheet = RunSheet::of(schedule, now, &asked.work, units).map_err(|_| super::batches::TOO_LARGE)?;
    let sheet = RunSheet { as_baked, early, ..sheet }.with_shorter(&asked.work, shorter);
    show(&sheet.contacts.iter().map(Contact::problem).collect::<Vec<Diagnostic>>());
    let by = arguments.by.map_or(out::plan::By::Clock, By::of_sheet);
    let page = || out::plan::page(&sheet, by, &changes);
    let text = match format {
        Format::Json => out::plan::json(&sheet)?,
        Format::Ics => out::plan::calendar::render(&sheet, &stamp(&sheet.plan)),
        Format::Html => page().html(),
        Format::Pdf => {
            let first = arguments.files.first().map_or_else(|| Path::new("-"), PathBuf::as_path);
            let paper = arguments.printing.sheet(first);
            let ended = arguments.delivery.deliver_pdf(out::pdf::render_page(&page(), &paper), output);
            return if has_errors { ended.and(Ok(Outcome::Errors)) } else { ended };
        }
        Format::Text => page().text(arguments.delivery.style(output)),
        Format::Markdown => page().markdown(),
    };
    let ended = arguments.delivery.deliver(&text, output);
    if has_errors { ended.and(Ok(Outcome::Errors)) } else { ended }
}

/// Problems of which the first says more of what would help, before all else.
fn with_help(mut problems: Vec<Diagnostic>, more: Vec<String>) -> Vec<Diagnostic> {
    if let Some(first) = problems.first_mut().filter(|_| !more.is_empty()) {
        let helps = more.into_iter().chain(first.help.take());
        first.help = Some(helps.collect::<Vec<String>>().join("; "));
    }
    problems
}

/// What a page asks of a plan.
pub(super) struct OfPage<'a> {
    /// For when.
    pub(super) ready: Option<&'a str>,
    /// The logs beside the file, of whatever recipes.
    pub(super) logs: Vec<ReadLog>,
}

/// The plan of one file as a page, the one that the command gives, looked for only until it is given up. Logs of what is made are followed: what they say is done
/// is done, and the rest is planned from the last that they tell.
///
/// # Errors
/// Why there is none, in sentences.
pub(super) fn page(
    project: &Project,
    source: SourceId,
    scaling: &Scaling,
    of_page: OfPage<'_>,
    given_up: &dyn Fn() -> bool,
) -> Result<String, String> {
    let began = Instant::now();
    let OfPage { ready, logs } = of_page;
    let zone = orders::zone(None)?;
    let times = orders::Times { ready, from: None, zone };
    let gathered = orders::gather(project, &[source], scaling, &times, &Output::silent());
    let mut asked = gathered.map_err(|stop| match stop {
        Stop::Told(_) => "the problems have to be mended first".to_owned(),
        stop @ Stop::Why(_) => stop.sentence(),
    })?;
    let in_sentences = |problems: Vec<Diagnostic>| {
        let said = problems.into_iter().map(|problem| match problem.help {
            Some(help) => format!("{}; {help}", problem.message),
            None => problem.message,
        });
        said.collect::<Vec<String>>().join("\n")
    };
    let logs = rest::follow(&mut asked, logs).map_err(in_sentences)?;
    let watch = Watch { began, search: Search::usual(), ahead: false, given_up };
    let laid_out = best(&asked, &asked.kitchen, &logs, &watch).map_err(in_sentences)?;
    let LaidOut { schedule, now, early, shorter, .. } = laid_out;
    let sheet =
        RunSheet::of(schedule, now, &asked.work, scaling.units()).map_err(|_| super::batches::TOO_LARGE.to_owned())?;
    let sheet = RunSheet { early, ..sheet }.with_shorter(&asked.work, shorter);
    Ok(out::plan::page(&sheet, out::plan::By::Clock, &[]).html())
}

/// The calendar's time stamp: the plan's own start, so that the same plan gives the same file.
fn stamp(schedule: &Schedule) -> String {
    out::plan::calendar::utc(schedule, 0).unwrap_or_default()
}

/// How long to search.
#[derive(Debug, Clone, Copy)]
struct Search {
    steps: u64,
    /// Whether just so many steps were asked for, however large what is planned.
    is_exact: bool,
    time: Option<Duration>,
}

/// A search with its clock.
struct Watch<'a> {
    began: Instant,
    search: Search,
    /// Whether the last day is to be as light as can be.
    ahead: bool,
    /// Says that nobody waits for it any more.
    given_up: &'a dyn Fn() -> bool,
}

impl<'a> Watch<'a> {
    fn start(search: Search, given_up: &'a dyn Fn() -> bool) -> Watch<'a> {
        Watch { began: Instant::now(), search, ahead: false, given_up }
    }

    /// Whether a share of the time is over.
    fn is_over(&self, parts: u32, of: u32) -> bool {
        let share = self.search.time.map(|time| time.saturating_mul(parts) / of);
        (self.given_up)() || share.is_some_and(|share| self.began.elapsed() >= share)
    }
}

impl Search {
    /// Where no limit is asked for.
    fn usual() -> Search {
        Search { time: Some(USUALLY_OVER), ..Search::lasting(Duration::from_secs(10)) }
    }

    /// The steps for a problem of so many tasks.
    fn steps_for(&self, tasks: usize) -> u64 {
        if self.is_exact { self.steps } else { Limit::steps_for(self.steps, tasks) }
    }

    /// Reads `10s` or `500000 steps`. A time is also a number of steps, about as many as a small machine takes in it: they
    /// make a plan the same everywhere, and the clock only ends what would take too long here.
    fn read(text: &str) -> Option<Search> {
        if let Some(steps) = text.trim().strip_suffix("steps") {
            return Some(Search { steps: steps.trim().parse().ok()?, is_exact: true, time: None });
        }
        let time = super::scaling::duration(text)?;
        let millis = time.value().times(crate::measure::number::Number::whole(1000)).ok()?.ceil().to_whole()?;
        let millis = u64::try_from(millis).ok().filter(|millis| *millis > 0)?;
        Some(Search::lasting(Duration::from_millis(millis)))
    }

    fn lasting(time: Duration) -> Search {
        let millis = u64::try_from(time.as_millis()).unwrap_or(u64::MAX);
        Search { steps: millis.saturating_mul(STEPS_PER_MILLI), is_exact: false, time: Some(time) }
    }
}
