//! Goals as linear forms of the amounts: each quotient as what stands above and below the line, found by working the formula out
//! with one line after the other a little larger.
//!
//! Where a formula is written in weights, or in shares of a base that stays, both are exactly linear, and so they are, counted on
//! the base, where a part is written in shares throughout and its size comes from elsewhere. That is tried with all lines larger
//! at once. Elsewhere the forms hold near the amounts at which they were taken, and are taken anew at what was found.

use super::goal::Goal;
use super::ways::{Line, Trial, Way};
use crate::measure::number::{Number, Overflow};

/// A value, and how it grows with each line as that goes from once to twice what is written.
#[derive(Debug, Clone)]
pub(super) struct Form {
    pub(super) at: Number,
    pub(super) slopes: Vec<Number>,
}

/// A goal as two forms.
#[derive(Debug, Clone)]
pub(super) struct Quotient {
    pub(super) above: Form,
    pub(super) below: Form,
    /// Whether they hold everywhere.
    pub(super) is_exact: bool,
}

/// By how much a line is made larger to see what that does.
const STEP: Number = Number::constant(1, 8);

/// What is known of a goal at some amounts: above, below, and the base.
type Seen = Option<(Number, Number, Option<Number>)>;

fn see(goals: &[Goal<'_>], ways: &[Way]) -> Vec<Seen> {
    let look = |goal: &Goal<'_>| goal.value(ways).map(|(above, below)| (above, below, goal.base(ways)));
    goals.iter().map(look).collect()
}

/// The forms of some goals at some amounts; `None` for a goal without a figure.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub(super) fn forms(
    ways: &[Way],
    lines: &[Line],
    free: &[usize],
    goals: &[Goal<'_>],
    at: &[Number],
) -> Result<Vec<Option<Quotient>>, Overflow> {
    let mut trial = Trial::of(ways);
    trial.put_all(lines, at)?;
    let here = see(goals, &trial.ways);
    let mut larger = Vec::with_capacity(free.len());
    let mut all = at.to_vec();
    for (number, index) in free.iter().enumerate() {
        let (Some(line), Some(now)) = (lines.get(*index), at.get(*index)) else { continue };
        trial.put(line, now.plus(STEP)?)?;
        trial.work_out();
        larger.push(see(goals, &trial.ways));
        trial.put(line, *now)?;
        if let Some(slot) = all.get_mut(*index) {
            // Each by another amount, so that what would balance does not.
            let step = Number::fraction(1, i128::try_from(number).unwrap_or(0) + 5).unwrap_or(STEP);
            *slot = slot.plus(step)?;
        }
    }
    trial.put_all(lines, &all)?;
    let together = see(goals, &trial.ways);
    let steps: Vec<Number> = free
        .iter()
        .map(|index| match (all.get(*index), at.get(*index)) {
            (Some(all), Some(at)) => all.minus(*at),
            _ => Ok(Number::ZERO),
        })
        .collect::<Result<_, Overflow>>()?;
    let mut found = Vec::with_capacity(goals.len());
    for (number, (here, together)) in here.iter().zip(&together).enumerate() {
        let beside: Vec<Seen> = larger.iter().map(|seen| seen.get(number).copied().flatten()).collect();
        found.push(quotient(*here, &beside, *together, &steps)?);
    }
    Ok(found)
}

/// The quotient exactly, where its forms hold everywhere; else near the amounts at which it is taken, from figures to nine places,
/// whose sums stay short.
fn quotient(here: Seen, beside: &[Seen], together: Seen, steps: &[Number]) -> Result<Option<Quotient>, Overflow> {
    if let Ok(Some(found)) = taken(here, beside, together, steps)
        && found.is_exact
    {
        return Ok(Some(found));
    }
    let beside: Vec<Seen> = beside.iter().map(|seen| rounded(*seen)).collect::<Result<_, Overflow>>()?;
    let found = taken(rounded(here)?, &beside, rounded(together)?, steps)?;
    Ok(found.map(|found| Quotient { is_exact: false, ..found }))
}

fn rounded(seen: Seen) -> Result<Seen, Overflow> {
    let Some((above, below, base)) = seen else { return Ok(None) };
    let short = |value: Number| value.rounded_to(Number::constant(1, 1_000_000_000));
    Ok(Some((short(above)?, short(below)?, base.map(short).transpose()?)))
}

fn taken(here: Seen, beside: &[Seen], together: Seen, steps: &[Number]) -> Result<Option<Quotient>, Overflow> {
    let (Some(here), Some(together)) = (here, together) else { return Ok(None) };
    let Some(beside) = beside.iter().copied().collect::<Option<Vec<_>>>() else { return Ok(None) };
    let plain = |seen: (Number, Number, Option<Number>)| Ok(Some((seen.0, seen.1)));
    let on_base = |seen: (Number, Number, Option<Number>)| -> Result<Option<(Number, Number)>, Overflow> {
        seen.2.map(|base| Ok((seen.0.over(base)?, seen.1.over(base)?))).transpose()
    };
    let mut first = None;
    for counted in [&plain as &dyn Fn(_) -> Result<Option<(Number, Number)>, Overflow>, &on_base] {
        let (Some(at), Some(all)) = (counted(here)?, counted(together)?) else { continue };
        let Some(larger) = beside.iter().map(|seen| counted(*seen)).collect::<Result<Option<Vec<_>>, _>>()? else {
            continue;
        };
        let form = |pick: fn(&(Number, Number)) -> Number| -> Result<(Form, bool), Overflow> {
            let mut slopes = Vec::with_capacity(larger.len());
            let mut foretold = pick(&at);
            for (seen, step) in larger.iter().zip(steps) {
                let slope = pick(seen).minus(pick(&at))?.over(STEP)?;
                foretold = foretold.plus(slope.times(*step)?)?;
                slopes.push(slope);
            }
            Ok((Form { at: pick(&at), slopes }, foretold == pick(&all)))
        };
        let (above, above_exact) = form(|seen| seen.0)?;
        let (below, below_exact) = form(|seen| seen.1)?;
        let found = Quotient { above, below, is_exact: above_exact && below_exact };
        if found.is_exact {
            return Ok(Some(found));
        }
        first = first.or(Some(found));
    }
    Ok(first)
}
