//! Statements that contradict each other by themselves, however the work is laid out.

use super::super::network::Cause;
use super::super::problem::{Minute, Rule};
use super::super::solve;
use super::{Case, step, time};
use crate::measure::show;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Statements of which not all can hold.
pub(super) struct Contradiction {
    /// All of them in a sentence, with by how much they miss.
    pub(super) said: String,
    /// Whether loads wait for each other in it, because of what they are made in: another kitchen may then help.
    pub(super) loads_wait: bool,
    /// Where each is said, and what it says.
    places: Vec<(Span, String)>,
}

impl Contradiction {
    /// Names all the places in a problem.
    pub(super) fn mark(self, mut problem: Diagnostic) -> Diagnostic {
        let mut marked = vec![problem.span];
        for (span, text) in self.places {
            if !marked.contains(&span) {
                marked.push(span);
                problem = problem.also(span, text);
            }
        }
        problem
    }
}

impl Case<'_> {
    /// The statements that cannot all hold, if that is what stands in the way.
    pub(super) fn contradiction(&self) -> Option<Contradiction> {
        let (causes, by) = solve::contradiction(self.problem)?;
        let (mut limits, mut orders, mut places) = (Vec::new(), Vec::new(), Vec::new());
        let (mut steps, mut minutes, mut loads_wait) = (Vec::new(), 0, false);
        for cause in causes {
            match cause {
                Cause::Duration(at) => {
                    // Behind the steps stand moments of attention, which take no time.
                    let (Some(task), Some(planned)) = (self.tasks.list.get(at), self.problem.tasks.get(at)) else {
                        continue;
                    };
                    let takes = time(planned.shortest);
                    minutes += planned.shortest;
                    let name = step(self.work, task);
                    let load = if task.loads > 1 { format!(", load {}", task.load) } else { String::new() };
                    steps.push((at, format!("`{name}`{load} ({takes})")));
                    places.push((task.span, format!("takes {takes}")));
                }
                Cause::Lag(at) => {
                    let Some(lag) = self.problem.lags.get(at) else { continue };
                    let (Some(first), Some(then)) =
                        (self.tasks.list.get(lag.from.task), self.tasks.list.get(lag.to.task))
                    else {
                        continue;
                    };
                    let (one, other) = (step(self.work, first), step(self.work, then));
                    match (limit(lag.rule, lag.most, &one, &other), lag.rule) {
                        (Some(said), _) => {
                            places.push((then.span, said.clone()));
                            limits.push(said);
                        }
                        (None, Rule::During) => limits.push(format!("`{one}` and `{other}` run together")),
                        (None, _) => orders.push(format!("`{other}` comes after `{one}`")),
                    }
                }
                Cause::Loads(..) => loads_wait = true,
                Cause::Due(at) => limits.push(self.wanted(at)?),
                Cause::Earliest => {
                    let earliest = self.problem.earliest.and_then(|minute| self.wall(minute))?;
                    limits.push(format!("nothing starts before {earliest}"));
                }
                // With due times the planner counts backward from the last of them.
                Cause::Edge => {
                    let dues = self.problem.dues.iter().enumerate();
                    if let Some((last, _)) = dues.max_by_key(|(_, due)| due.minute) {
                        limits.push(self.wanted(last)?);
                    }
                }
            }
        }
        // What only comes after each other contradicts itself alone when it goes round in a cycle.
        let mut statements = if limits.is_empty() { orders } else { limits };
        let mut said = std::collections::HashSet::new();
        statements.retain(|statement| said.insert(statement.clone()));
        if statements.is_empty() {
            return None;
        }
        // The planner may have gone round the other way.
        steps.sort();
        let steps: Vec<String> = steps.into_iter().map(|(_, step)| step).collect();
        let work = match steps.as_slice() {
            [] => String::new(),
            [one] => format!(", but {one} lies between"),
            all if all.len() <= 6 => format!(", but {} come to {}", show::list(all), time(minutes)),
            all => format!(", but the {} steps between come to {}", all.len(), time(minutes)),
        };
        let said = format!("{}{work}: {} too much", show::list(&statements), time(by));
        Some(Contradiction { said, loads_wait, places })
    }

    /// When an order is wanted; the problem numbers only orders that are wanted at a time.
    fn wanted(&self, due: usize) -> Option<String> {
        let finals = self.tasks.finals.iter().zip(&self.hours.dues).enumerate();
        let mut wanted = finals.filter(|(_, (finals, due))| due.is_some() && !finals.is_empty());
        let (order, (_, minute)) = wanted.nth(due)?;
        let recipe = &self.work.orders.get(order)?.recipe.name;
        Some(format!("`{recipe}` is wanted at {}", self.wall((*minute)?)?))
    }
}

/// What limits the time between two steps, in words; `None` for what only says which comes first.
fn limit(rule: Rule, most: Option<Minute>, one: &str, other: &str) -> Option<String> {
    let most = most?;
    let within = time(most);
    Some(match rule {
        Rule::Keeps => format!("`{other}` uses what `{one}` finishes, which keeps {within}"),
        Rule::UpTo => format!("`{other}` comes at most {within} after `{one}` begins"),
        Rule::Overnight => {
            format!("`{other}` comes on the day of `{one}`, since nothing stands over night unless it is said")
        }
        Rule::Alive => format!("`{other}` comes at most {within} after `{one}`, since what is alive does not wait"),
        Rule::FirstPiece => {
            format!("`{other}` comes at most {within} after `{one}` begins, for the first piece's sake")
        }
        Rule::Into => format!("`{other}` comes at most {within} into `{one}`"),
        Rule::Held => return None,
        _ if most == 0 => format!("`{other}` comes straight after `{one}`"),
        _ => format!("`{other}` comes at most {within} after `{one}`"),
    })
}
