//! What is ready hours before it is wanted proves for its written time, and does not stand before the oven.
//!
//! A minute in which it would be ready later is not bought with one in which it goes on in the warm.

use super::ask::Hours;
use super::fresh;
use super::problem::{Edge, Lag, Minute, Problem, Rule};
use super::solve::Plan;
use super::tasks::Tasks;
use crate::make::work::Work;

/// By so many minutes more than is written a rest goes on at most, and so long what is ready for the next step stands; the first that goes, since
/// what is baked in loads waits for its turn. Common practice, no source.
pub const AT_MOST: [(Minute, Minute); 5] = [(10, 10), (10, 20), (10, 30), (30, 30), (60, 60)];

/// What rests for so long is slow: some minutes of a sponge of thirteen hours are nothing to it. Common practice, no source.
const SLOW: Minute = 360;

/// What goes on or stands in a plan although all that comes of it is ready hours too soon.
pub struct Overdone {
    /// Limits of a problem, and what each would be where nothing went on beyond what is written.
    lags: Vec<(usize, Minute)>,
}

impl Overdone {
    /// What does in a plan of a problem; `None` where nothing does.
    pub fn of(problem: &Problem, tasks: &Tasks, work: &Work, hours: &Hours, plan: &Plan) -> Option<Overdone> {
        let early = fresh::too_soon(tasks, hours, plan);
        if early.is_empty() {
            return None;
        }
        let is_early = |at: usize| {
            let batch = tasks.list.get(at).and_then(|task| work.batches.get(task.batch));
            batch
                .is_some_and(|batch| !batch.orders.is_empty() && batch.orders.iter().all(|order| early.contains(order)))
        };
        let is_warm =
            |at: usize| tasks.warm.contains(&at) && tasks.list.get(at).is_some_and(|task| task.minutes < SLOW);
        let written = |lag: &Lag| match (lag.rule, lag.from.edge) {
            (Rule::UpTo, Edge::Start) if is_warm(lag.from.task) => {
                problem.tasks.get(lag.from.task).map(|task| task.shortest)
            }
            (Rule::Alive, Edge::End) => Some(0),
            _ => None,
        };
        let (least, _) = AT_MOST.first().copied().unwrap_or_default();
        let lags = problem.lags.iter().enumerate().filter_map(|(at, lag)| {
            let written = written(lag).filter(|_| lag.to.edge == Edge::Start && is_early(lag.from.task))?;
            let began = match lag.from.edge {
                Edge::Start => plan.starts.get(lag.from.task)?,
                Edge::End => plan.ends.get(lag.from.task)?,
            };
            let passed = plan.starts.get(lag.to.task)? - began;
            (lag.most? > written + least && passed > written + least).then_some((at, written))
        });
        let lags: Vec<(usize, Minute)> = lags.collect();
        (!lags.is_empty()).then_some(Overdone { lags })
    }

    /// The problem in which no rest of it goes on, and nothing stands, for more than so many minutes beyond what is written.
    pub fn within(&self, problem: &Problem, (rests, stands): (Minute, Minute)) -> Problem {
        let mut other = problem.clone();
        for (at, written) in &self.lags {
            if let Some(lag) = other.lags.get_mut(*at) {
                let most = written + if lag.rule == Rule::UpTo { rests } else { stands };
                lag.most = lag.most.map(|limit| limit.min(most));
            }
        }
        other
    }
}
