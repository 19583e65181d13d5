//! Where nothing by itself is enough: which limits between steps a plan without any of them breaks, and by how many minutes.

use super::super::problem::{Minute, Rule};
use super::standing::{LONGER, between};
use super::{Case, time};

/// So many steps are told.
const TOLD: usize = 3;

impl Case<'_> {
    /// What would have to give way together, the longest first; `None` where not even that is enough.
    pub(super) fn all_that_gives_way(&self) -> Option<String> {
        let gives_way = |rule: Rule| {
            matches!(
                rule,
                Rule::StraightAfter
                    | Rule::Within
                    | Rule::Keeps
                    | Rule::UpTo
                    | Rule::Alive
                    | Rule::FirstPiece
                    | Rule::Into
                    | Rule::Overnight
                    | Rule::Attended
            )
        };
        let plan = LONGER.iter().find_map(|longer| {
            let mut other = self.problem.clone();
            for lag in other.lags.iter_mut().filter(|lag| gives_way(lag.rule)) {
                lag.most = lag.most.map(|most| most + longer);
            }
            self.quickly(&other)
        })?;
        let broken = self.problem.lags.iter().filter_map(|lag| {
            let (most, lasts) = (lag.most?, between(&plan, lag)?);
            let (one, then) = (self.tasks.list.get(lag.from.task)?, self.tasks.list.get(lag.to.task));
            let over = lasts - most;
            let said = match then {
                _ if over <= 0 => return None,
                Some(then) => format!("{} would come {} after {}", self.named(then), time(lasts), self.named(one)),
                None => format!("{} would go on for {}", self.named(one), time(one.minutes + lasts)),
            };
            Some((over, said))
        });
        let mut broken: Vec<(Minute, String)> = broken.collect();
        broken.sort_by_key(|(over, _)| std::cmp::Reverse(*over));
        let mut told: Vec<String> = Vec::new();
        for (_, said) in broken {
            if !told.contains(&said) && told.len() < TOLD {
                told.push(said);
            }
        }
        (!told.is_empty()).then(|| format!("no single change is enough: {}, longer than is said", told.join(", and ")))
    }
}
