//! Which line of the files would have to allow more: how long a rest goes on, what a part keeps, the pause between two steps.

use super::super::problem::{Edge, Lag, Minute, Point, Problem, Rule};
use super::super::solve;
use super::offer::Offer;
use super::relax::DAY;
use super::standing::between;
use super::{Case, time};
use crate::plan::tasks::Task;

/// So many lines are tried, each by itself.
const MOST_LINES: usize = 24;

/// So many limits are made longer together.
const MOST_TOGETHER: usize = 3;

impl Case<'_> {
    /// What may be kept or stand longer.
    pub(super) fn longer_keeping(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let asked = self.asked();
        let lag = |at: usize| self.problem.lags.get(at);
        let of = |task: usize| self.tasks.list.get(task);
        for rule in [Rule::Keeps, Rule::UpTo, Rule::Within, Rule::StraightAfter, Rule::Overnight] {
            let is_bound = |at: &usize| lag(*at).is_some_and(|lag| lag.rule == rule && lag.most.is_some());
            let bound: Vec<usize> = (0..self.problem.lags.len()).filter(is_bound).collect();
            let without = |some: &[usize]| {
                let mut other = asked.as_ref().clone();
                let taken_up: Vec<Point> = some.iter().filter_map(|at| lag(*at)).map(|lag| lag.to).collect();
                for (at, lag) in other.lags.iter_mut().enumerate() {
                    // What a rest may go on holds of its first piece, too.
                    let of_the_first = rule == Rule::UpTo && lag.rule == Rule::FirstPiece && taken_up.contains(&lag.to);
                    if some.contains(&at) || of_the_first {
                        lag.most = None;
                    }
                }
                other
            };
            if bound.is_empty() || !self.possible(&without(&bound)) {
                continue;
            }
            let lines = self.lines(&bound);
            let one = lines.iter().take(MOST_LINES).find(|some| self.possible(&without(some.as_slice())));
            let plan = self.quickly(&without(one.map_or(bound.as_slice(), Vec::as_slice)));
            let over = |at: usize| {
                let (plan, lag) = (plan.as_ref()?, lag(at)?);
                Some(between(plan, lag)? - lag.most?).filter(|over| *over > 0)
            };
            let some = match one {
                Some(line) => line.clone(),
                None => bound.iter().copied().filter(|at| over(*at).is_some()).take(MOST_TOGETHER).collect(),
            };
            // Of several loads the one that would have to wait longest.
            let Some(at) = some.iter().copied().max_by_key(|at| (over(*at), std::cmp::Reverse(*at))) else { continue };
            let Some((limit, first, then)) = lag(at).and_then(|lag| Some((lag, of(lag.from.task)?, of(lag.to.task)?)))
            else {
                continue;
            };
            let all = some.iter().filter_map(|at| {
                let lag = lag(*at)?;
                self.longer((*at, rule), (of(lag.from.task)?, of(lag.to.task)?), lag.most?, over(*at)?)
            });
            let together = all.reduce(Offer::and);
            let wanted = together.as_ref().and_then(Offer::one_length);
            let proven = together.and_then(|offer| self.proven(offer));
            // What gives no fresh bread on its day is no reason that there is none.
            if proven.is_none() && self.fresh {
                continue;
            }
            // What nobody would let stand so long is in the way of something else, which says so.
            if proven.as_ref().is_some_and(Offer::overdoes_a_rest) {
                ways.extend(proven);
                continue;
            }
            // The least that is enough says by how much it is too long.
            let least = proven.as_ref().and_then(Offer::one_length);
            let less = wanted.zip(least).map_or(0, |(wanted, least)| wanted - least);
            let by = over(at).filter(|by| (0..*by).contains(&less));
            let by = by.map(|by| format!(": that is {} too short", time(by - less))).unwrap_or_default();
            let (one, other) = (self.named(first), self.named(then));
            because.push(match rule {
                Rule::Overnight => {
                    format!("{other} cannot come on the day of {one}, and nothing stands over night unless it is said")
                }
                _ => {
                    let closed = plan.as_ref().and_then(|plan| self.nobody_meanwhile(plan, limit)).unwrap_or_default();
                    format!("{other} cannot come within {} of {one}{by}{closed}", time(limit.most.unwrap_or(0)))
                }
            });
            ways.extend(proven);
        }
    }

    /// Limits by the line that says them: that of a rest limits all of its loads. What may not stand over night is asked of each by itself.
    fn lines(&self, bound: &[usize]) -> Vec<Vec<usize>> {
        let step = |task: usize| self.tasks.list.get(task).map(|task: &Task| (task.batch, task.step));
        let line = |at: usize| {
            let lag = self.problem.lags.get(at)?;
            Some(match lag.rule {
                Rule::Overnight => (step(lag.from.task)?, step(lag.to.task)?, at),
                // The part's own line: whoever takes it.
                Rule::Keeps | Rule::UpTo => (step(lag.from.task)?, step(lag.from.task)?, 0),
                _ => (step(lag.from.task)?, step(lag.to.task)?, 0),
            })
        };
        let mut lines: Vec<Vec<usize>> = Vec::new();
        for at in bound.iter().copied() {
            match lines.iter_mut().find(|known| known.first().is_some_and(|first| line(*first) == line(at))) {
                Some(known) => known.push(at),
                None => lines.push(vec![at]),
            }
        }
        lines
    }

    /// That for a day and more between two moments nobody is there.
    fn nobody_meanwhile(&self, plan: &solve::Plan, lag: &Lag) -> Option<String> {
        let at = |point: Point| {
            let moments = if point.edge == Edge::Start { &plan.starts } else { &plan.ends };
            moments.get(point.task).copied()
        };
        let (from, until) = (at(lag.from)?, at(lag.to)?);
        let (closes, opens) = away(self.problem)
            .into_iter()
            .filter(|(closes, opens)| from <= *closes && *opens <= until)
            .max_by_key(|(closes, opens)| opens - closes)
            .filter(|(closes, opens)| opens - closes >= DAY)?;
        Some(format!(", and nobody is there from {} to {}", self.wall(closes)?, self.wall(opens)?))
    }
}

/// The times between those in which somebody is there.
fn away(problem: &Problem) -> Vec<(Minute, Minute)> {
    let shifts = problem.people.iter().flat_map(|person| &person.shifts).map(|shift| shift.window);
    let mut there: Vec<(Minute, Minute)> = shifts.map(|window| (window.opens, window.closes)).collect();
    if there.is_empty() {
        there.extend(problem.open.iter().map(|window| (window.opens, window.closes)));
    }
    there.sort_unstable();
    let mut away = Vec::new();
    let mut until: Option<Minute> = None;
    for (opens, closes) in there {
        if let Some(until) = until.filter(|until| *until < opens) {
            away.push((until, opens));
        }
        until = Some(until.map_or(closes, |until| until.max(closes)));
    }
    away
}
