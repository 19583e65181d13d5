//! Orders that are ready on a day before the one on which they are wanted.

use super::time;
use crate::language::syntax::Name;
use crate::make::order::Order;
use crate::measure::show;
use crate::model::kitchen::Kitchen;
use crate::model::step::StepKind;
use crate::plan::clock::day_beside;
use crate::plan::fresh::soonest_fresh;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Made, Schedule};
use crate::plan::tasks::{Task, Tasks};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use jiff::ToSpan;
use jiff::civil::DateTime;

/// A date counts whole days: what is baked in a night is good until the end of the next.
const DAY: Minute = 1440;

/// An order that a plan has ready on an earlier day than it is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Early {
    /// The row of the plan with which it is ready.
    pub row: usize,
    /// The number of the order.
    pub order: usize,
    /// What is wrong, in a sentence without its end.
    pub said: String,
    /// What would help, the same.
    pub help: String,
    /// Whether its label says that it is not good any more when it is wanted: then it cannot be handed over.
    pub is_past: bool,
    /// Where it is ordered.
    span: Span,
}

impl Early {
    /// The warning; an error where it could not be handed over.
    pub fn problem(&self) -> Diagnostic {
        let problem = if self.is_past { Diagnostic::error } else { Diagnostic::warning };
        problem("ready-days-early", self.span, self.said.clone()).help(self.help.clone())
    }
}

/// The date on its label that is over when an order is wanted: `best before 1 day`; `None` where it is not, or none is said.
fn past_its_date(order: &Order, ready: DateTime, due: DateTime) -> Option<String> {
    let id = order.finals().first().copied()?;
    let good = order.recipe.origin(id)?.0.sale.good_for.as_ref()?;
    let last = ready.date().checked_add(good.time.whole_days()?.days()).ok()?;
    let said = if good.use_by.is_some() { "use by" } else { "best before" };
    (due.date() > last).then(|| format!("{said} {}", show::duration(good.time)))
}

/// Whether more than one thing rests in some equipment.
fn is_shared(tasks: &Tasks, name: &Name) -> bool {
    let is_in = |task: &&Task| task.equipment.as_ref().is_some_and(|there| there.same(name));
    let rests = tasks.list.iter().filter(|task| task.kind == StepKind::Wait);
    let mut here = rests.filter(is_in).map(|task| (task.batch, task.step));
    let first = here.next();
    first.is_some_and(|first| here.any(|other| other != first))
}

/// The orders that a plan has ready on an earlier day than they are wanted; `soonest` says of one of them, told all, when it could be ready on its
/// day, by the plan's clock; `kitchen` is where it is made. What is wanted in the first hours of a day is of the night before it.
pub fn ready_days_early(
    schedule: &Schedule,
    orders: &[Order],
    (tasks, kitchen): (&Tasks, &Kitchen),
    soonest: impl Fn(usize, &[usize]) -> Option<Minute>,
) -> Vec<Early> {
    let is_early = |(number, made): (usize, &Made)| {
        let (due, clock) = (made.due?, schedule.clock.as_ref()?);
        // What keeps is as good on the day after.
        let keeps = tasks.keeps.get(number).copied().flatten().is_some();
        Some(!keeps && made.ready + schedule.start < soonest_fresh(clock, due + schedule.start)?)
    };
    let all = schedule.made.iter().enumerate().filter(|one| is_early(*one) == Some(true));
    let all: Vec<usize> = all.map(|(number, _)| number).collect();
    let early = schedule.made.iter().zip(orders).enumerate().filter_map(|(number, (made, order))| {
        let (due, clock) = (made.due?, schedule.clock.as_ref()?);
        if !all.contains(&number) {
            return None;
        }
        let (ready_at, due_at) = (schedule.wall(made.ready)?, schedule.wall(due)?);
        // Worse than a day old is past what its own label says.
        let good_for = order.recipe.sale.good_for.as_ref().and_then(|good| good.time.whole_minutes());
        let is_past = good_for.is_some_and(|good| due - made.ready > good + DAY);
        let past = if is_past { ", past its `best before`" } else { "" };
        let said = format!(
            "{} of `{}` will be ready at {} on {}, {} before they are wanted at {} on {}{past}",
            made.wanted,
            made.recipe,
            ready_at.strftime("%H:%M"),
            day_beside(ready_at.date(), due_at.date()),
            time(due - made.ready),
            due_at.strftime("%H:%M"),
            day_beside(due_at.date(), ready_at.date()),
        );
        let past = past_its_date(order, ready_at, due_at);
        let is_past = past.is_some();
        let said = match past {
            Some(date) => format!("{said}: past its `{date}` by then, so it cannot be handed over"),
            None => said,
        };
        let finals = tasks.finals.get(number)?;
        let last = schedule.rows.iter().enumerate().filter(|(_, row)| finals.contains(&row.task));
        let (row, _) = last.max_by_key(|(_, row)| row.end)?;
        // From its first step to its last, as it is planned.
        let own = schedule.rows.iter().filter(|row| row.recipe == made.recipe);
        let takes = made.ready - own.map(|row| row.start).min().unwrap_or(made.ready);
        let window = schedule.open.iter().find(|window| window.closes > made.ready && window.opens <= due);
        let room = window.filter(|window| window.opens > made.ready).map(|window| {
            let there = due - window.opens;
            let why = if takes <= there {
                format!("and it takes {}: something else is in the way, or somebody's hours are", time(takes))
            } else {
                format!("and from its first step to its last it takes {}", time(takes))
            };
            let at = |minute: Minute| schedule.wall(minute).map(|at| at.strftime("%H:%M on %A").to_string());
            let opens = at(window.opens).map(|at| format!(" at {at}")).unwrap_or_default();
            format!("from opening{opens} there are {} until they are wanted, {why}", time(there))
        });
        let else_ = "open earlier, want them later, or try more equipment or people with `--what-if`";
        // How much is missing is what a baker weighs: twenty minutes are talked over with who ordered, five hours are not.
        let on_the_day = soonest(number, &all).and_then(|minute| {
            let later = minute - (due + schedule.start);
            let later = if later > 0 { format!(", {} later than wanted", time(later)) } else { String::new() };
            Some((clock.at(minute)?, later))
        });
        let alone = kitchen.equipment.iter().find(|one| one.could_hold_more() && is_shared(tasks, &one.name));
        let else_ = match alone {
            Some(one) => format!(
                "if the `{0}` has room for more than one thing, say behind it how much it `holds`, for it takes one load at a time; or {else_}",
                one.name
            ),
            None => else_.to_owned(),
        };
        let help = match (on_the_day, room) {
            (Some((at, later)), _) => format!(
                "on the day itself they can be ready at {} at the soonest{later}: want them then; or open earlier, or try more equipment \
                 or people with `--what-if`",
                at.strftime("%H:%M on %A")
            ),
            (None, Some(room)) => format!("{room}: {else_}"),
            (None, None) => else_,
        };
        Some(Early { row, order: number, said, help, is_past, span: order.span.unwrap_or(order.recipe.name.span) })
    });
    early.collect()
}
