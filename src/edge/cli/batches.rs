//! From files to what is made of them: a recipe at the size that was asked for, the orders of a day. Shared by the commands
//! that make something.

use super::Outcome;
use super::output::Output;
use super::scaling::Scaling;
use super::stop::Stop;
use crate::check::{check_file, is_asked_of_the_day, stops, work_out};
use crate::figures::card::{Card, DayHead, of_batch};
use crate::language::syntax::FileKind;
use crate::make::day::{self, NotToOrder};
use crate::make::have::There;
use crate::make::order::Order;
use crate::make::size::{AskedBy, Impossible, Size};
use crate::make::work::Work;
use crate::model::kitchen::Kitchen;
use crate::model::project::Project;
use crate::plan::doughs;
use crate::solve::resolve::day::{Day, day};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use std::sync::Arc;

/// What some files come to.
pub(super) struct Made {
    /// What is made.
    pub work: Work,
    /// For a single day: what stands above its cards.
    pub day: Option<DayHead>,
    /// The names of the recipes and days.
    pub titles: Vec<String>,
    /// The kitchen of each recipe and day.
    pub kitchens: Vec<Arc<Kitchen>>,
    /// What the days say there is.
    pub stock: Vec<There>,
}

impl Made {
    /// The cards of the batches.
    pub(super) fn cards(&self, scaling: &Scaling) -> Result<Vec<Card>, String> {
        let made: Result<Vec<Card>, _> =
            self.work.batches.iter().map(|batch| of_batch(batch, scaling.units())).collect();
        made.map_err(|_| TOO_LARGE.to_owned())
    }
}

/// What is said of a size that cannot be worked with.
pub(super) const TOO_LARGE: &str = "a batch of that size leaves the range of exact numbers";

/// Why nothing is made.
pub(super) enum Refused {
    /// Something that is not about a line of a day.
    Stop(Stop),
    /// A line of a day asks for what cannot be.
    Line(Box<NotToOrder>),
}

impl<T: Into<Stop>> From<T> for Refused {
    fn from(stop: T) -> Refused {
        Refused::Stop(stop.into())
    }
}

/// Checks and scales what the files hold. Nothing is made of files with errors.
pub(super) fn make(project: &Project, sources: &[SourceId], scaling: &Scaling, output: &Output) -> Result<Made, Stop> {
    gather(project, sources, scaling, output).map_err(|refused| match refused {
        Refused::Stop(stop) => stop,
        Refused::Line(line) => {
            let NotToOrder { recipe, why, .. } = *line;
            cannot(Impossible { why: format!("{recipe}: {}", why.why), ..why }).into()
        }
    })
}

/// As [`make`], with what a line of a day asks in vain left to the caller.
pub(super) fn gather(
    project: &Project,
    sources: &[SourceId],
    scaling: &Scaling,
    output: &Output,
) -> Result<Made, Refused> {
    let mut days: Vec<Option<Day>> = Vec::with_capacity(sources.len());
    let mut files: Vec<SourceId> = Vec::new();
    let mut note = |file: SourceId| {
        if !files.contains(&file) {
            files.push(file);
        }
    };
    let size = scaling.size()?;
    if sources.len() > 1 && scaling.is_of_one_recipe() {
        return Err("--pieces, --total, --base, --use-up, --have and --choose are about one recipe; name one, or write a day that says \
                    how much of each is made"
            .into());
    }
    for source in sources {
        note(*source);
        let is_day = project.file(*source).is_some_and(|file| file.tree.kind == FileKind::Day);
        let read = if is_day { day(project, *source, &mut Vec::new()) } else { None };
        if read.is_some() && (size != Size::AsWritten || scaling.chooses()) {
            return Err("a day says itself how much is made and with which choices: change its `make` lines".into());
        }
        if !is_day {
            scaling.selection(project, *source)?;
        }
        read.iter().flat_map(|day| &day.orders).for_each(|order| note(order.recipe));
        read.iter().flat_map(|day| &day.store).for_each(|there| note(there.recipe));
        days.push(read);
    }
    check(project, &files, output)?;
    let mut made =
        Made { work: Work::default(), day: None, titles: Vec::new(), kitchens: Vec::new(), stock: Vec::new() };
    let mut orders = Vec::new();
    for (source, day) in sources.iter().zip(&days) {
        if let Some(day) = day {
            made.titles.push(day.name.to_string());
            made.kitchens.push(Arc::clone(&day.kitchen));
            made.stock.extend(day.stocks.iter().flat_map(|place| project.stock(*place)).cloned());
            let work = |line: &crate::solve::resolve::day::DayOrder| {
                work_out(project, line.recipe, &line.selection, &mut Vec::new())
            };
            orders.extend(day::orders(day, work).map_err(Refused::Line)?);
            continue;
        }
        let selection = scaling.selection(project, *source)?;
        let Some((recipe, written)) = work_out(project, *source, &selection, &mut Vec::new()) else {
            let file = project.sources.get(*source).map_or("", |file| file.name.as_str());
            let is = match project.file(*source).map(|file| file.tree.kind) {
                Some(FileKind::Kitchen) => "this is a kitchen or a larder",
                Some(FileKind::Book) => "this is a book",
                Some(FileKind::Bakes) => "this is a log of bakes",
                _ => "this is no recipe and no day",
            };
            return Err(Refused::from(format!("{file}: {is}; give a file that begins with `recipe` or `day`")));
        };
        made.titles.push(recipe.name.to_string());
        made.kitchens.push(Arc::clone(&recipe.kitchen));
        let order = Order::sized(recipe, &written, &size);
        orders.push(order.map_err(cannot)?);
    }
    if let [Some(day)] = days.as_slice() {
        made.day = Some(DayHead::of(day, scaling.units()));
    }
    let of_day = made.kitchens.first().filter(|_| made.day.is_some());
    let work = of_day.map_or_else(|| Work::of(orders.clone()), |kitchen| doughs::work(orders.clone(), kitchen));
    made.work = work.map_err(|_| TOO_LARGE)?;
    Ok(made)
}

/// Shows the problems of the files; an error in one of them ends the run.
fn check(project: &Project, files: &[SourceId], output: &Output) -> Result<(), Outcome> {
    let mut problems: Vec<Diagnostic> = files.iter().flat_map(|source| check_file(project, *source)).collect();
    // In a day who works is asked of the day's kitchen, which its plan does; what a recipe would find by itself is another matter.
    let is_day = |source: &SourceId| project.file(*source).is_some_and(|file| file.tree.kind == FileKind::Day);
    if files.iter().any(is_day) {
        problems.retain(|problem| !is_asked_of_the_day(problem));
    }
    // Warnings are shown beside a card, errors instead of it; both where they do not mix with the card.
    show(project, problems.iter().filter(|problem| problem.severity != Severity::Advice), output);
    let any_error = problems.iter().any(stops);
    if any_error { Err(Outcome::Errors) } else { Ok(()) }
}

/// Why a size cannot be made, in a sentence.
fn cannot(impossible: Impossible) -> String {
    let help = impossible.help.map_or(String::new(), |instead| format!("; {}", instead.shown(AskedBy::Option)));
    format!("{}{help}", impossible.why)
}

/// Prints problems as a terminal shows them.
pub(super) fn show<'a>(project: &Project, problems: impl IntoIterator<Item = &'a Diagnostic>, output: &Output) {
    for problem in problems {
        output.print_problem(&project.sources, problem);
    }
}
