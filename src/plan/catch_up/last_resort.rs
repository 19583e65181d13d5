//! Where the rest of a day has no plan at all a limit of what is still to come is broken, by as little as goes: what is washed waits for the
//! second load, before everything is given up.

use super::super::problem::Minute;
use super::super::running::{FromNow, RunningLimit};
use super::{LATEST, first_that_fits};

/// By so many minutes at most, the least of them that goes: what is said of a day that is put off. Common practice, no source.
const BY: [Minute; 6] = [5, 10, 15, 20, 30, 45];

/// A way in which as few limits of what is still to come are broken as go, by as few minutes; `None` where that is not enough.
pub(super) fn with_limits_broken(from_now: &FromNow, possible: &dyn Fn(&FromNow) -> bool) -> Option<FromNow> {
    let all = from_now.limits_to_come();
    if all.is_empty() {
        return None;
    }
    let goes = |some: &[RunningLimit], by: Minute| possible(&from_now.breaking(some, by).later(|_| LATEST));
    let by = BY.into_iter().find(|by| goes(&all, *by))?;
    let few = as_few(&all, &|some| goes(some, by));
    let by = first_that_fits(0, by, |by| goes(&few, *by));
    Some(from_now.breaking(&few, by))
}

/// As few of some limits as are enough: halves that need not be broken are kept together.
fn as_few(all: &[RunningLimit], is_enough: &dyn Fn(&[RunningLimit]) -> bool) -> Vec<RunningLimit> {
    let mut broken = all.to_vec();
    let mut parts: Vec<Vec<RunningLimit>> = vec![all.to_vec()];
    while let Some(part) = parts.pop() {
        let others: Vec<RunningLimit> = broken.iter().filter(|limit| !part.contains(limit)).copied().collect();
        if is_enough(&others) {
            broken = others;
        } else if part.len() > 1 {
            let (one, other) = part.split_at(part.len() / 2);
            parts.extend([one.to_vec(), other.to_vec()]);
        }
    }
    broken
}
