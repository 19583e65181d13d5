//! Statements that contradict each other by themselves, however the work is laid out.

use super::super::network::Cause;
use super::super::problem::{Edge, Minute, Problem, Rule};
use super::super::solve;
use super::offer::Offer;
use super::{Case, time};
use crate::measure::show;
use crate::model::step::{Loads, StepKind};
use crate::plan::tasks::Task;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Statements of which not all can hold.
pub(super) struct Contradiction {
    /// All of them in a sentence, with by how much they miss.
    pub(super) said: String,
    /// Whether loads wait for each other in it, because of what they are made in: another kitchen may then help.
    pub(super) loads_wait: bool,
    /// What could give way, each by itself, if nothing else stands in the way.
    pub(super) ways: Vec<Way>,
    /// Where each is said, and what it says.
    places: Vec<(Span, String)>,
}

/// Something that could give way.
pub(super) struct Way {
    /// What to change, with its figures.
    pub(super) offer: Offer,
    /// What that changes in the problem.
    pub(super) change: Change,
}

/// A change of a problem.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Change {
    /// A lag of that number may be so long.
    Lag(usize, Minute),
    /// What has that due time is wanted at another minute.
    Due(usize, Minute),
    /// Work may begin at another minute.
    Earliest(Minute),
    /// A task of that number lasts so much longer.
    Lasts(usize, Minute),
    /// Two share a task of that number.
    Shared(usize),
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
    /// The statements of a problem that cannot all hold, if that is what stands in the way.
    pub(super) fn contradiction(&self, problem: &Problem) -> Option<Contradiction> {
        let (causes, by) = solve::contradiction(problem)?;
        let (mut limits, mut orders, mut places) = (Vec::new(), Vec::new(), Vec::new());
        let (mut steps, mut minutes, mut loads_wait) = (Vec::new(), 0, false);
        let (mut ways, mut at_edge) = (Vec::new(), false);
        for cause in causes {
            match cause {
                Cause::Duration(at) => {
                    // Behind the steps stand moments of attention, which take no time.
                    let (Some(task), Some(planned)) = (self.tasks.list.get(at), problem.tasks.get(at)) else {
                        continue;
                    };
                    minutes += planned.shortest;
                    steps.push((at, planned.shortest));
                    ways.extend(self.shared(at, task, planned.shortest));
                    places.push((task.span, format!("takes {}", time(planned.shortest))));
                }
                Cause::Lag(at) => {
                    let Some(lag) = problem.lags.get(at) else { continue };
                    let (Some(first), Some(then)) =
                        (self.tasks.list.get(lag.from.task), self.tasks.list.get(lag.to.task))
                    else {
                        continue;
                    };
                    let (one, other) = (self.named(first), self.named(then));
                    match (limit(lag.rule, lag.most, &one, &other), lag.rule) {
                        // A rest that begins at once says no more than that it comes next.
                        (Some(said), Rule::AtOnce) => orders.push(said),
                        (Some(said), _) => {
                            places.push((then.span, said.clone()));
                            limits.push(said);
                        }
                        (None, Rule::During) => {
                            limits.push(format!("{one} and {other} run together"));
                            // The inner one ends before the outer one does.
                            if lag.to.edge == Edge::End {
                                let by_so_much = time(by);
                                let said =
                                    format!("let {other} last {by_so_much} longer; or do {one} {by_so_much} sooner");
                                ways.push(Way { offer: said.into(), change: Change::Lasts(lag.to.task, by) });
                            }
                        }
                        (None, _) => orders.push(format!("{other} comes after {one}")),
                    }
                    ways.extend(lag.most.and_then(|most| {
                        let said = self.longer(lag.rule, (first, then), most, by)?;
                        Some(Way { offer: said, change: Change::Lag(at, most + by) })
                    }));
                }
                Cause::Loads(..) => loads_wait = true,
                Cause::Due(due) => {
                    limits.push(self.wanted(due)?);
                    ways.extend(self.ready_later(problem, due, by));
                }
                Cause::Earliest => {
                    let minute = problem.earliest?;
                    limits.push(format!("nothing starts before {}", self.wall(minute)?));
                    let said = format!("begin {} sooner, at {}", time(by), self.wall(minute - by)?);
                    ways.push(Way { offer: said.into(), change: Change::Earliest(minute - by) });
                }
                Cause::Edge => at_edge = true,
            }
        }
        // With due times the planner counts backward from the last of them; of several that of the steps is told.
        if at_edge && let Some(last) = problem.dues.iter().map(|due| due.minute).max() {
            let batch = steps.last().and_then(|(at, _)| self.tasks.list.get(*at)).map(|task| task.batch);
            let is_of_steps = |due: &usize| {
                let finals = problem.dues.get(*due).map_or(&[][..], |due| &due.tasks);
                finals.iter().any(|at| self.tasks.list.get(*at).map(|task| task.batch) == batch)
            };
            let at_last =
                (0..problem.dues.len()).filter(|due| problem.dues.get(*due).is_some_and(|due| due.minute == last));
            let at_last: Vec<usize> = at_last.collect();
            if let Some(due) = at_last.iter().copied().find(is_of_steps).or(at_last.last().copied()) {
                limits.push(self.wanted(due)?);
                ways.extend(self.ready_later(problem, due, by));
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
        let steps = self.in_words(&steps);
        let work = match steps.as_slice() {
            [] => String::new(),
            [(one, 1)] => format!(", but {one} lies between"),
            all if all.len() <= 6 => {
                let all: Vec<&String> = all.iter().map(|(said, _)| said).collect();
                format!(", but {} come to {}", show::list(&all), time(minutes))
            }
            all => {
                let count: usize = all.iter().map(|(_, loads)| loads).sum();
                format!(", but the {count} steps between come to {}", time(minutes))
            }
        };
        let said = format!("{}{work}: {} too much", show::list(&statements), time(by));
        Some(Contradiction { said, loads_wait, ways, places })
    }

    /// Steps with their times, loads of one step together: `bake` (5 loads of 16 min).
    fn in_words(&self, steps: &[(usize, Minute)]) -> Vec<(String, usize)> {
        let of = |at: usize| self.tasks.list.get(at);
        let alike = |one: &(usize, Minute), next: &(usize, Minute)| {
            one.1 == next.1
                && of(one.0).map(|task| (task.batch, task.step)) == of(next.0).map(|task| (task.batch, task.step))
        };
        let said = steps.chunk_by(alike).filter_map(|loads| {
            let (first, takes) = loads.first()?;
            let task = of(*first)?;
            let takes = time(*takes);
            let said = match (loads.len(), task.loads) {
                (1, 1) => format!("{} ({takes})", self.named(task)),
                (1, _) => format!("{}, load {} ({takes})", self.named(task), task.load),
                (many, _) => format!("{} ({many} loads of {takes})", self.named(task)),
            };
            Some((said, loads.len()))
        });
        said.collect()
    }

    /// Work on pieces that two could share, where that saves enough.
    fn shared(&self, at: usize, task: &Task, takes: Minute) -> Option<Way> {
        let part = self.work.batches.get(task.batch)?.recipe.part(task.step.part)?;
        let step = part.steps.get(task.step.step)?;
        if task.kind != StepKind::Hands || step.loads != Loads::Each || step.shared_by > 1 {
            return None;
        }
        let cooks = if self.kitchen.cooks > 1 { "" } else { ", with `cooks 2` in the kitchen" };
        let said = format!("let two share {}, which takes one {}: `shared by 2`{cooks}", self.named(task), time(takes));
        Some(Way { offer: said.into(), change: Change::Shared(at) })
    }

    fn ready_later(&self, problem: &Problem, due: usize, by: Minute) -> Option<Way> {
        let minute = problem.dues.get(due)?.minute + by;
        let said = format!("be ready {} later, at {}", time(by), self.wall(minute)?);
        Some(Way { offer: said.into(), change: Change::Due(due, minute) })
    }

    /// What to write so that a limit between two steps is longer by so much; `None` for what nothing that is written limits.
    pub(super) fn longer(&self, rule: Rule, (one, then): (&Task, &Task), most: Minute, by: Minute) -> Option<Offer> {
        let (first, next) = (self.named(one), self.named(then));
        let whole = time(most + by);
        let is_rest = one.kind == StepKind::Wait;
        let said = match rule {
            Rule::Keeps => format!("let what {first} finishes keep {} longer (`keeps {whole}`)", time(by)),
            Rule::UpTo => format!("let {first} go on {} longer: `up to {whole}`", time(by)),
            Rule::Alive if is_rest => {
                format!(
                    "let {first} go on: `up to {}`",
                    time(one.minutes.max(one.most_minutes.unwrap_or(0)) + most + by)
                )
            }
            Rule::Alive => format!("let what {first} made wait: `may stand {whole}` on it"),
            Rule::Into => format!("let {next} come later: `may stand {whole}` on it"),
            Rule::Within => format!("leave more time between {first} and {next}: `within {whole}`"),
            Rule::StraightAfter => {
                format!("leave time between {first} and {next}: take `straight after` out, or write `within {whole}`")
            }
            Rule::Overnight => format!("put a rest that may go on over night (`up to`) between {first} and {next}"),
            Rule::FirstPiece => {
                format!("make less at a time: {first} takes {}, {} too long", time(one.minutes), time(by))
            }
            _ => return None,
        };
        let goes_on = rule == Rule::UpTo || rule == Rule::Alive && is_rest;
        Some(if goes_on { Offer::longer(one, said) } else { said.into() })
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

/// What limits the time between two steps, which are named in quotation marks; `None` for what only says which comes first.
fn limit(rule: Rule, most: Option<Minute>, one: &str, other: &str) -> Option<String> {
    let most = most?;
    let within = time(most);
    Some(match rule {
        Rule::Keeps => format!("{other} uses what {one} finishes, which keeps {within}"),
        Rule::UpTo => format!("{other} comes at most {within} after {one} begins"),
        Rule::Overnight => {
            format!("{other} comes on the day of {one}, since nothing stands over night unless it is said")
        }
        Rule::Alive => format!("{other} comes at most {within} after {one}, since what is alive does not wait"),
        Rule::FirstPiece => {
            format!("{other} comes at most {within} after {one} begins, for the first piece's sake")
        }
        Rule::Into => format!("{other} comes at most {within} into {one}"),
        Rule::Held => return None,
        _ if most == 0 => format!("{other} comes straight after {one}"),
        _ => format!("{other} comes at most {within} after {one}"),
    })
}
