//! What is done during a rest that may go on: it lies in it as long as that goes on, and not only in its shortest time.

use super::super::problem::{Edge, Lag, Point, Rule};
use super::Making;
use crate::model::cooking;
use crate::model::step::StepKind;

impl Making<'_> {
    /// Lets what is done during a rest that may go on be done until the rest is taken up, also where it is kept on in the cold; what is done at said
    /// moments of it stays there.
    pub(super) fn goes_on_beside(&mut self) {
        let lags = &self.tasks.lags;
        let ends_in = |lag: &Lag| lag.rule == Rule::During && (lag.from.edge, lag.to.edge) == (Edge::End, Edge::End);
        let may_go_on = |task: usize| {
            self.task(task).is_some_and(|task| task.kind == StepKind::Wait && task.most_minutes.is_some())
        };
        let has_moments = |task: usize| lags.iter().any(|lag| lag.rule == Rule::Into && lag.to.task == task);
        let is_taken_up = |rest: usize, lag: &Lag| match lag.rule {
            Rule::UpTo => lag.from == Point::start(rest),
            Rule::Keeps => lag.from == Point::end(rest) && self.step_of(rest).is_some_and(cooking::chills),
            _ => false,
        };
        let takes_up = |rest: usize| -> Vec<Point> {
            let all = lags.iter().filter(|lag| is_taken_up(rest, lag) && lag.to.edge == Edge::Start);
            all.map(|lag| lag.to).collect()
        };
        let mut all: Vec<Lag> = Vec::with_capacity(lags.len());
        for lag in lags {
            let (inner, rest) = (lag.from.task, lag.to.task);
            let is_beside = ends_in(lag) && may_go_on(rest) && !has_moments(inner);
            let takers = if is_beside { takes_up(rest) } else { Vec::new() };
            if takers.is_empty() || takers.contains(&Point::start(inner)) {
                all.push(*lag);
            } else {
                all.extend(takers.into_iter().map(|to| Lag { to, rule: Rule::After, ..*lag }));
            }
        }
        self.tasks.lags = all;
    }
}
