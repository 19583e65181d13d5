//! Orders that are ready on a day before the one on which they are wanted.

use super::time;
use crate::make::order::Order;
use crate::plan::schedule::Schedule;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// A warning for each order that a plan has ready on an earlier day than it is wanted.
pub fn ready_days_early(schedule: &Schedule, orders: &[Order]) -> Vec<Diagnostic> {
    let early = schedule.made.iter().zip(orders).filter_map(|(made, order)| {
        let due = made.due?;
        let (ready_at, due_at) = (schedule.wall(made.ready)?, schedule.wall(due)?);
        if ready_at.date() >= due_at.date() {
            return None;
        }
        let span: Span = order.span.unwrap_or(order.recipe.name.span);
        let message = format!(
            "{} of `{}` will be ready at {}, {} before they are wanted at {}",
            made.wanted,
            made.recipe,
            ready_at.strftime("%H:%M on %A"),
            time(due - made.ready),
            due_at.strftime("%H:%M on %A"),
        );
        let problem = Diagnostic::warning("ready-days-early", span, message);
        // From its first step to its last, as it is planned.
        let own = schedule.rows.iter().filter(|row| row.recipe == made.recipe);
        let takes = made.ready - own.map(|row| row.start).min().unwrap_or(made.ready);
        Some(match schedule.open.iter().find(|window| window.closes > made.ready && window.opens <= due) {
            Some(window) if window.opens > made.ready => {
                let there = due - window.opens;
                let why = if takes <= there {
                    format!("and it takes {}: something else is in the way, or somebody's hours are", time(takes))
                } else {
                    format!("and it is planned over {}", time(takes))
                };
                problem.help(format!(
                    "from opening there are {} on the day itself, {why}: open earlier, want them later, or try more equipment or \
                     people with `--what-if`",
                    time(there),
                ))
            }
            _ => problem.help("open earlier, want them later, or try more equipment or people with `--what-if`"),
        })
    });
    early.collect()
}
