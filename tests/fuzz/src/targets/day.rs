//! Any text as a day: its orders are put together, shared parts made once, and cards and lists laid out. Nothing is planned.

use super::super::{checks, lays_out, project_of};
use miche::check::work_out;
use miche::figures::card::DayHead;
use miche::make;
use miche::make::work::Work;
use miche::measure::show::Units;
use miche::solve::resolve::day::day;

/// One text.
pub fn run(text: &str) {
    let text = if text.starts_with("day") { text.to_owned() } else { format!("day D\n{text}") };
    let (project, sources) = project_of(&[("fuzzed.miche", &text)]);
    checks(&project, &sources);
    let Some(day) = day(&project, sources[0], &mut Vec::new()) else { return };
    let work = |order: &miche::solve::resolve::day::DayOrder| {
        work_out(&project, order.recipe, &order.selection, &mut Vec::new())
    };
    let Ok(orders) = make::day::orders(&day, work) else { return };
    if let Ok(work) = Work::of(orders) {
        // A day of many orders is a long page; some of them show what all would.
        let some = &work.batches[..work.batches.len().min(3)];
        lays_out(some, Some(&DayHead::of(&day, Units::Both)), text.len());
    }
}
