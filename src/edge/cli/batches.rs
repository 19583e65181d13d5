//! From a file to batches: one for a recipe, several for a day. Shared by the commands that make something of them.

use super::Outcome;
use super::output::Output;
use super::scaling::Scaling;
use crate::check::{check_file, work_out};
use crate::figures::card::{Card, DayHead, of_batch};
use crate::language::syntax::FileKind;
use crate::make::batch::{self, Impossible, Target};
use crate::make::day_batch::{self, Batch};
use crate::model::project::Project;
use crate::out::report;
use crate::solve::resolve::day::day;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use std::sync::Arc;

/// What a file comes to.
pub(super) struct Made {
    /// The batches.
    pub batches: Vec<Batch>,
    /// For a day: what stands above its cards.
    pub day: Option<DayHead>,
}

impl Made {
    /// The cards of the batches.
    pub(super) fn cards(&self, scaling: &Scaling, output: &Output) -> Result<Vec<Card>, Outcome> {
        let made: Result<Vec<Card>, _> = self.batches.iter().map(|batch| of_batch(batch, scaling.units())).collect();
        made.map_err(|_| complain(output, "a batch of that size leaves the range of exact numbers"))
    }
}

/// Checks and scales what a file holds. Nothing is made of a file with errors.
pub(super) fn make(project: &Project, source: SourceId, scaling: &Scaling, output: &Output) -> Result<Made, Outcome> {
    match project.file(source).map(|file| file.tree.kind) {
        Some(FileKind::Day) => make_day(project, source, scaling, output),
        _ => make_recipe(project, source, scaling, output),
    }
}

fn make_recipe(project: &Project, source: SourceId, scaling: &Scaling, output: &Output) -> Result<Made, Outcome> {
    let target = scaling.target().map_err(|why| complain(output, &why))?;
    let selection = scaling.selection(project, source).map_err(|why| complain(output, &why))?;
    check(project, &[source], output)?;
    let Some((recipe, formula)) = work_out(project, source, &selection, &mut Vec::new()) else {
        return Err(complain(
            output,
            "this is no recipe and no day; cards are made of files that begin with `recipe` or `day`",
        ));
    };
    let (factor, limit) = batch::factor(&recipe, &formula, &target).map_err(|impossible| cannot(output, impossible))?;
    let formula = formula
        .times(factor)
        .map_err(|_| complain(output, "a batch of that size leaves the range of exact numbers"))?;
    let recipe = Arc::new(recipe);
    let batch = Batch { recipe, formula, factor, limit, ready: None, made_for: Vec::new() };
    Ok(Made { batches: vec![batch], day: None })
}

fn make_day(project: &Project, source: SourceId, scaling: &Scaling, output: &Output) -> Result<Made, Outcome> {
    let target = scaling.target().map_err(|why| complain(output, &why))?;
    if target != Target::AsWritten || scaling.chooses() {
        return Err(complain(
            output,
            "a day says itself how much is made and with which choices: change its `make` lines",
        ));
    }
    let Some(day) = day(project, source, &mut Vec::new()) else {
        return Err(complain(output, "this is no day"));
    };
    let mut files = vec![source];
    for order in &day.orders {
        if !files.contains(&order.recipe) {
            files.push(order.recipe);
        }
    }
    check(project, &files, output)?;
    let work = |order: &crate::solve::resolve::day::DayOrder| {
        work_out(project, order.recipe, &order.selection, &mut Vec::new())
    };
    let batches = day_batch::batches(&day, work).map_err(|impossible| cannot(output, impossible))?;
    Ok(Made { batches, day: Some(DayHead::of(&day, scaling.units())) })
}

/// Shows the problems of the files; an error in one of them ends the run.
fn check(project: &Project, files: &[SourceId], output: &Output) -> Result<(), Outcome> {
    let problems: Vec<Diagnostic> = files.iter().flat_map(|source| check_file(project, *source)).collect();
    show_problems(project, &problems, output);
    let any_error = problems.iter().any(|problem| problem.severity == Severity::Error);
    if any_error { Err(Outcome::Errors) } else { Ok(()) }
}

fn cannot(output: &Output, impossible: Impossible) -> Outcome {
    let help = impossible.help.map_or(String::new(), |help| format!("; {help}"));
    complain(output, &format!("{}{help}", impossible.why))
}

pub(super) fn complain(output: &Output, why: &str) -> Outcome {
    output.complain(why);
    Outcome::Trouble
}

/// Warnings are shown beside a card, errors instead of it; both where they do not mix with the card.
fn show_problems(project: &Project, problems: &[Diagnostic], output: &Output) {
    for problem in problems.iter().filter(|problem| problem.severity != Severity::Advice) {
        let text = report::terminal::render(&project.sources, problem, output.colours_err(), output.width());
        output.print_error_text(&format!("{text}\n"));
    }
}
