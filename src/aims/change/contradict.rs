//! Which aims contradict each other: the smallest set of which no amounts meet all, and how far each can go with the others held.

use super::form::{Quotient, forms};
use super::goal::{About, Goal};
use super::program::{Corner, Found, Prices, least};
use super::row::{Row, rows};
use super::{Outcome, Problem, widened};
use crate::measure::number::{Number, Overflow};

/// Aims of which no amounts meet all.
#[derive(Debug, Clone)]
pub struct Contradiction {
    /// Each: way, number among the aims of that way, and the nearest that it comes when the others are held, in its unit.
    pub aims: Vec<(usize, usize, Option<Number>)>,
}

/// Sets of up to so many aims are all tried; a larger one is found by leaving out one after the other.
const TRIED: usize = 3;
/// Beyond so many sets of one size none of that size is tried.
const MOST_TRIED: usize = 2000;

pub(super) fn contradiction(problem: &Problem<'_>) -> Result<Outcome, Overflow> {
    let aims: Vec<Goal<'_>> = problem.aims.iter().map(widened).collect();
    let goals: Vec<Goal<'_>> = aims.iter().chain(&problem.kept).cloned().collect();
    let times = vec![Number::ONE; problem.lines.len()];
    let taken = forms(problem.ways, problem.lines, problem.free, &goals, &times)?;
    let nowhere = vec![Number::ZERO; problem.free.len()];
    let mut all = Vec::new();
    for (number, (goal, quotient)) in goals.iter().zip(&taken).enumerate() {
        if let Some(quotient) = quotient {
            all.extend(rows(quotient, (goal.low, goal.high), &nowhere, number)?);
        }
    }
    let prices = problem.by_change()?;
    let is_kept = |row: &Row| row.goal >= aims.len();
    let fits = |set: &[usize]| {
        let given: Vec<&Row> = all.iter().filter(|row| is_kept(row) || set.contains(&row.goal)).collect();
        !matches!(least(&given, &prices), Found::Nothing)
    };
    let everything: Vec<usize> = (0..aims.len()).collect();
    if fits(&everything) {
        return Ok(Outcome::OutOfReach(
            "amounts that meet every aim exist, but none that the scale shows; use a finer scale or wider aims"
                .to_owned(),
        ));
    }
    // A set from which none can be left out, then smaller ones, as long as there are not too many.
    let mut set = everything;
    let mut at = 0;
    while at < set.len() {
        let mut fewer = set.clone();
        fewer.remove(at);
        if fits(&fewer) {
            at += 1;
        } else {
            set = fewer;
        }
    }
    for size in 1..set.len().min(TRIED + 1) {
        if how_many(aims.len(), size) > MOST_TRIED {
            break;
        }
        if let Some(found) = sets(aims.len(), size).into_iter().find(|set| !fits(set)) {
            set = found;
            break;
        }
    }
    let mut found = Vec::new();
    for number in &set {
        let (Some(goal), Some(Some(quotient))) = (aims.get(*number), taken.get(*number)) else { continue };
        let About::Aim(aim) = goal.about else { continue };
        let others: Vec<&Row> =
            all.iter().filter(|row| is_kept(row) || (set.contains(&row.goal) && row.goal != *number)).collect();
        found.push((goal.way, aim, nearest(goal, quotient, &others)?));
    }
    Ok(Outcome::Contradiction(Contradiction { aims: found }))
}

/// How many sets of so many things there are, or more than anybody tries.
fn how_many(count: usize, size: usize) -> usize {
    (0..size).fold(1, |sets: usize, taken| sets.saturating_mul(count.saturating_sub(taken)) / (taken + 1))
}

/// All sets of so many of the first `count` numbers, in order.
fn sets(count: usize, size: usize) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..size {
        let longer = found.iter().flat_map(|set| {
            let first = set.last().map_or(0, |last| last + 1);
            (first..count).map(|next| [set.as_slice(), &[next]].concat())
        });
        found = longer.collect();
    }
    found
}

/// So often the quotient is taken anew on the way to its nearest (Dinkelbach, 'On nonlinear fractional programming', 1967, from
/// memory).
const ROUNDS: usize = 12;

/// The nearest that a quotient comes to its bounds with the other rows held.
fn nearest(goal: &Goal<'_>, quotient: &Quotient, others: &[&Row]) -> Result<Option<Number>, Overflow> {
    let value = |changes: &[Number]| -> Result<Option<Number>, Overflow> {
        let form = |form: &super::form::Form| {
            let row = Row { slopes: form.slopes.clone(), constant: form.at, is_equal: false, goal: 0 };
            row.at(changes)
        };
        let (above, below) = (form(&quotient.above)?, form(&quotient.below)?);
        if below.is_positive() { above.over(below).map(Some) } else { Ok(None) }
    };
    let start = vec![Number::ZERO; quotient.above.slopes.len()];
    let Some(mut now) = value(&start)? else { return Ok(None) };
    // Some amounts that hold the others, to know from which side it comes.
    let mut grows = goal.low.is_some_and(|low| now < low);
    let free = Prices { up: start.clone(), down: start.clone(), most: Number::whole(1000) };
    if let Found::Corner(Corner { changes, .. }) = least(others, &free)
        && let Some(there) = value(&changes)?
    {
        now = there;
        grows = goal.low.is_some_and(|low| now < low);
    }
    for _ in 0..ROUNDS {
        let mut up = Vec::with_capacity(start.len());
        for (above, below) in quotient.above.slopes.iter().zip(&quotient.below.slopes) {
            let slope = above.minus(now.times(*below)?)?;
            up.push(if grows { Number::ZERO.minus(slope)? } else { slope });
        }
        let down = up.iter().map(|price| Number::ZERO.minus(*price)).collect::<Result<_, _>>()?;
        let size = up.iter().map(|price| price.size()).max().unwrap_or(Number::ONE).max(Number::constant(1, 1_000_000));
        let scale =
            |prices: Vec<Number>| prices.into_iter().map(|price| price.over(size)).collect::<Result<Vec<_>, _>>();
        let prices = Prices { up: scale(up)?, down: scale(down)?, most: Number::whole(1000) };
        let Found::Corner(corner) = least(others, &prices) else { return Ok(None) };
        let Some(next) = value(&corner.changes)? else { return Ok(None) };
        let next = next.rounded_to(Number::constant(1, 1_000_000_000))?;
        let gain = next.minus(now)?.size();
        now = next;
        if gain < Number::constant(1, 1_000_000) {
            break;
        }
    }
    Ok(Some(now))
}
