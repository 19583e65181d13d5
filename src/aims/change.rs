//! The least change of a formula that meets all its aims, or the cheapest: worked out exactly, then rounded to what is weighed.

mod contradict;
mod exact;
mod form;
mod goal;
mod nearest_mix;
mod program;
mod round;
mod row;
mod ways;

pub use contradict::Contradiction;
pub(crate) use nearest_mix::nearest_mix;
pub use ways::{Line, Way, lines, with_amounts};

use super::{Verdict, held};
use crate::measure::number::{Number, Overflow};
use crate::model::kind::Kind;
use form::{Quotient, forms};
use goal::Goal;
use program::{Found, Prices, least};
use row::{Row, rows};
use ways::Trial;

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// As little as possible changes, each line counted in times what is written.
    LeastChange,
    /// It costs as little as possible.
    Cheapest,
}

/// What came of it.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// Every aim is met as it stands.
    Met,
    /// How many times what is written each line is to be, in the order of the lines.
    Found(Answer),
    /// No amounts meet all aims.
    Contradiction(Contradiction),
    /// Amounts have no say in what is missed, or nothing that may change has.
    OutOfReach(String),
}

/// New amounts.
#[derive(Debug, Clone)]
pub struct Answer {
    /// Exactly.
    pub exact: Vec<Number>,
    /// As they are weighed and written.
    pub rounded: Vec<Number>,
    /// The aims that keep it from changing less, by their numbers among those of each way: way and number.
    pub binding: Vec<(usize, usize)>,
    /// Whether a single value is met only within what its digits leave open.
    pub within_digits: bool,
    /// Whether what goes in no longer agrees with what is said to come out.
    pub breaks_yield: bool,
}

/// Aims, each counted under every choice, beyond which nothing is worked out.
const MOST_AIMS: usize = 1000;
/// No formula that somebody weighs out has more lines that may change.
const MOST_FREE: usize = 300;
/// The forms are taken anew so often where they do not hold everywhere.
const MOST_ROUNDS: usize = 24;
/// Each line is a little dearer than the one before it, so that of equal answers the same one is taken everywhere.
const TIE: Number = Number::constant(1, 1_000_000);

/// How strictly the goals are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Terms {
    within_digits: bool,
    keeps_yield: bool,
}

/// Amounts that meet the goals exactly, and the forms of the goals where they hold everywhere, taken at what is written.
struct Settled {
    times: Vec<Number>,
    taken: Option<Vec<Option<Quotient>>>,
}

/// What is worked on.
struct Problem<'w> {
    ways: &'w [Way],
    lines: &'w [Line],
    /// The lines that may change, by their numbers.
    free: &'w [usize],
    aims: Vec<Goal<'w>>,
    kept: Vec<Goal<'w>>,
    yields: Vec<Goal<'w>>,
}

/// Works out amounts that meet all aims. `free` are the lines that may change.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn work_out(ways: &[Way], lines: &[Line], free: &[usize], wish: Wish) -> Result<Outcome, Overflow> {
    let all_met =
        ways.iter().all(|way| held(&way.recipe, &way.formula).iter().all(|held| held.verdict == Verdict::Met));
    if all_met && wish == Wish::LeastChange {
        return Ok(Outcome::Met);
    }
    let unmoved = ways
        .iter()
        .flat_map(|way| held(&way.recipe, &way.formula))
        .find(|held| held.verdict == Verdict::Missed && held.aim.figure.is_of_steps());
    if let Some(held) = unmoved {
        return Ok(Outcome::OutOfReach(format!("{} hangs on the steps and not on amounts", held.aim.figure.word())));
    }
    let (aims, kept, yields) = (goal::aims(ways), goal::kept(ways, lines), goal::yields(ways));
    let problem = Problem { ways, lines, free, aims, kept, yields };
    if problem.aims.len() > MOST_AIMS {
        return Ok(Outcome::OutOfReach(format!(
            "{} aims over all choices are more than the {MOST_AIMS} that are worked with",
            problem.aims.len()
        )));
    }
    if free.len() > MOST_FREE {
        return Ok(Outcome::OutOfReach(format!(
            "{} lines may change, and more than {MOST_FREE} are not worked with: name those that may",
            free.len()
        )));
    }
    if free.is_empty() {
        return Ok(Outcome::OutOfReach(
            "no line may change: what a part is counted on stays unless `--change` names it".to_owned(),
        ));
    }
    let mut tried = vec![
        Terms { within_digits: false, keeps_yield: true },
        Terms { within_digits: true, keeps_yield: true },
        Terms { within_digits: false, keeps_yield: false },
        Terms { within_digits: true, keeps_yield: false },
    ];
    if problem.yields.is_empty() {
        tried.truncate(2);
    }
    // What raises a dough is taken to less than half only where the aims cannot be met otherwise, and is not touched for the sake of a figure
    // that is met within its digits as well.
    for floored in [true, false] {
        for terms in &tried {
            let Some(found) = problem.solve(*terms, wish, floored)? else { continue };
            let within = Terms { within_digits: true, ..*terms };
            if wish == Wish::LeastChange && !terms.within_digits && problem.moves_what_raises(&found) {
                let other = problem.solve(within, wish, floored)?.filter(|other| !problem.moves_what_raises(other));
                return Ok(Outcome::Found(other.unwrap_or(found)));
            }
            return Ok(Outcome::Found(found));
        }
    }
    contradict::contradiction(&problem)
}

impl<'w> Problem<'w> {
    fn goals(&self, terms: Terms, wish: Wish) -> Vec<Goal<'w>> {
        let mut goals: Vec<Goal<'w>> = Vec::new();
        for aim in &self.aims {
            goals.push(if terms.within_digits { widened(aim) } else { aim.clone() });
        }
        goals.extend(self.kept.iter().cloned());
        if terms.keeps_yield {
            goals.extend(self.yields.iter().cloned());
        }
        if wish == Wish::Cheapest {
            goals.extend(goal::total(self.ways));
        }
        goals
    }

    fn solve(&self, terms: Terms, wish: Wish, floored: bool) -> Result<Option<Answer>, Overflow> {
        let mut goals = self.goals(terms, wish);
        let Some(Settled { times: mut exact, taken }) = self.settle_above(&mut goals, wish, floored)? else {
            return Ok(None);
        };
        let binding = self.binding(&goals, &exact)?;
        // What is rounded may be off by what the digits leave open, once.
        let mut loose = self.goals(Terms { within_digits: true, ..terms }, wish);
        loose.retain(|goal| goal.about != goal::About::Total);
        let Some(rounded) = round::to_scale(self, &loose, &exact, taken)? else { return Ok(None) };
        for (at, value) in exact.iter_mut().enumerate() {
            if !self.free.contains(&at) {
                *value = Number::ONE;
            }
        }
        Ok(Some(Answer {
            exact,
            rounded,
            binding,
            within_digits: terms.within_digits,
            breaks_yield: !terms.keeps_yield && self.yields.iter().any(|goal| goal.is_held(self.ways)),
        }))
    }

    /// As [`Problem::settle`]; nothing is left out that the dish cannot do without: for the least price of any kind, else what raises it.
    /// `floored`: so it is, whether the aims want it or not.
    fn settle_above(&self, goals: &mut Vec<Goal<'w>>, wish: Wish, floored: bool) -> Result<Option<Settled>, Overflow> {
        if wish == Wish::LeastChange {
            let floors = if floored { self.halves(Self::is_raising)? } else { Vec::new() };
            return self.settle(goals, wish, &floors);
        }
        let all = match floored {
            true => vec![self.halves(Self::is_alone)?, self.halves(Self::is_needed)?],
            false => vec![Vec::new()],
        };
        for floors in all {
            if let Some(found) = self.settle(goals, wish, &floors)? {
                return Ok(Some(found));
            }
            // The batch may have to grow for the aims to be met at all.
            let total = goals.pop();
            if let Some(found) = self.settle(goals, wish, &floors)? {
                return Ok(Some(found));
            }
            goals.extend(total);
        }
        Ok(None)
    }

    /// Rows that leave half of what is written of each line of some.
    fn halves(&self, is_some: impl Fn(&Self, usize) -> bool) -> Result<Vec<Row>, Overflow> {
        let some = self.free.iter().enumerate().filter(|(_, line)| is_some(self, **line));
        let half = |(at, _): (usize, &usize)| {
            let slopes =
                (0..self.free.len()).map(|other| if other == at { Number::ONE } else { Number::ZERO }).collect();
            Ok(Row { slopes, constant: Number::ONE.over(Number::whole(2))?, is_equal: false, goal: usize::MAX })
        };
        some.map(half).collect()
    }

    fn kind(&self, line: usize) -> Option<Kind> {
        let (way, part, at) = self.lines.get(line)?.places.first()?;
        Some(self.ways.get(*way)?.recipe.part(*part)?.lines.get(*at)?.kind)
    }

    /// Whether nothing else of its part is of its kind: what it does there nothing else would do.
    fn is_alone(&self, line: usize) -> bool {
        let Some((own, kind)) = self.lines.get(line).zip(self.kind(line)) else { return true };
        let others = self.lines.iter().enumerate().filter(|(other, one)| *other != line && one.part == own.part);
        kind == Kind::Other || !others.into_iter().any(|(other, _)| self.kind(other) == Some(kind))
    }

    /// Whether it raises or salts, of which a little does much.
    fn is_needed(&self, line: usize) -> bool {
        use Kind::{BakingPowder, Leaven, RaisingAgent, Salt, Soda, Yeast};
        matches!(self.kind(line), Some(BakingPowder | Leaven | RaisingAgent | Salt | Soda | Yeast(_)))
    }

    /// Whether it raises a dough.
    fn is_raising(&self, line: usize) -> bool {
        self.is_needed(line) && self.kind(line) != Some(Kind::Salt)
    }

    /// Whether an answer changes something that raises a dough.
    fn moves_what_raises(&self, found: &Answer) -> bool {
        let moved = |line: &usize| found.exact.get(*line).is_some_and(|times| *times != Number::ONE);
        self.free.iter().any(|line| self.is_raising(*line) && moved(line))
    }

    /// Exact amounts that meet the goals at the least price, in times what is written; `None` where there are none. `floors`: rows that
    /// hold besides.
    fn settle(&self, goals: &[Goal<'w>], wish: Wish, floors: &[Row]) -> Result<Option<Settled>, Overflow> {
        let mut times = vec![Number::ONE; self.lines.len()];
        let mut best: Option<Number> = None;
        let price = [goal::cost(), goal::total(self.ways).unwrap_or_else(goal::cost)];
        for _ in 0..MOST_ROUNDS {
            let taken = forms(self.ways, self.lines, self.free, goals, &times)?;
            let taken_at = self.changes(&times)?;
            let mut all = Vec::new();
            for (number, (goal, quotient)) in goals.iter().zip(&taken).enumerate() {
                if let Some(quotient) = quotient {
                    all.extend(rows(quotient, (goal.low, goal.high), &taken_at, number)?);
                }
            }
            let is_exact = taken.iter().flatten().all(|quotient| quotient.is_exact);
            let (prices, priced_exactly) = match wish {
                Wish::LeastChange => (self.by_change()?, true),
                Wish::Cheapest => {
                    let priced = forms(self.ways, self.lines, self.free, &price, &times)?;
                    (self.by_cost(&priced)?, false)
                }
            };
            let given: Vec<&Row> = all.iter().chain(floors).collect();
            let Found::Corner(corner) = least(&given, &prices) else { return Ok(None) };
            let changes = exact::changes(&corner, &given);
            let before = times.clone();
            for (index, change) in self.free.iter().zip(&changes) {
                if let Some(slot) = times.get_mut(*index) {
                    *slot = Number::ONE.plus(*change)?;
                }
            }
            if is_exact && priced_exactly {
                return Ok(Some(Settled { times, taken: Some(taken) }));
            }
            if !is_exact {
                // Near enough to be taken anew, and short enough to be computed with.
                for slot in &mut times {
                    *slot = slot.rounded_to(Number::constant(1, 1_000_000))?;
                }
            }
            let now = self.price(&times, wish)?;
            let no_better = best.is_some_and(|best| {
                now.is_some_and(|now| best.minus(now).is_ok_and(|gain| gain < Number::constant(1, 1_000_000_000)))
            });
            let still = before.iter().zip(&times).all(|(one, other)| {
                one.minus(*other).is_ok_and(|apart| apart.size() < Number::constant(1, 1_000_000_000))
            });
            best = now.or(best);
            if still || (is_exact && no_better) {
                break;
            }
        }
        Ok(Some(Settled { times, taken: None }))
    }

    /// What it costs by weight, at some amounts.
    fn price(&self, times: &[Number], wish: Wish) -> Result<Option<Number>, Overflow> {
        if wish == Wish::LeastChange {
            return Ok(None);
        }
        let mut trial = Trial::of(self.ways);
        trial.put_all(self.lines, times)?;
        let value = |goal: &Goal<'_>| goal.value(&trial.ways).map(|(above, _)| above);
        match (value(&goal::cost()), goal::total(&trial.ways).and_then(|total| total.low)) {
            (Some(cost), Some(total)) if total.is_positive() => cost.over(total).map(Some),
            _ => Ok(None),
        }
    }

    /// The changes of the free lines, in times what is written.
    fn changes(&self, times: &[Number]) -> Result<Vec<Number>, Overflow> {
        self.free.iter().map(|index| times.get(*index).copied().unwrap_or(Number::ONE).minus(Number::ONE)).collect()
    }

    /// Every change as dear as any other, but for what makes the answer one.
    fn by_change(&self) -> Result<Prices, Overflow> {
        let mut up = Vec::with_capacity(self.free.len());
        for number in 0..self.free.len() {
            let later = Number::whole(i64::try_from(number).unwrap_or(i64::MAX));
            up.push(Number::ONE.plus(TIE.times(later)?)?);
        }
        Ok(Prices { down: up.clone(), up, most: Number::whole(10_000) })
    }

    /// What a line costs beyond what its weight costs on average; besides, a little for every change.
    fn by_cost(&self, priced: &[Option<Quotient>]) -> Result<Prices, Overflow> {
        let tie = self.by_change()?;
        let (Some(Some(cost)), Some(Some(total))) = (priced.first(), priced.get(1)) else { return Ok(tie) };
        let average = cost.above.at.over(total.above.at)?;
        let size = cost.above.at.max(Number::constant(1, 1_000_000_000));
        let (mut up, mut down) = (Vec::new(), Vec::new());
        for ((cost, total), tie) in cost.above.slopes.iter().zip(&total.above.slopes).zip(&tie.up) {
            let dear = cost.minus(average.times(*total)?)?.over(size)?;
            let little = tie.times(TIE)?;
            up.push(dear.plus(little)?);
            down.push(Number::ZERO.minus(dear)?.plus(little)?);
        }
        Ok(Prices { up, down, most: Number::whole(1000) })
    }

    /// The aims that are met with nothing to spare.
    fn binding(&self, goals: &[Goal<'w>], times: &[Number]) -> Result<Vec<(usize, usize)>, Overflow> {
        let mut trial = Trial::of(self.ways);
        trial.put_all(self.lines, &short(times)?)?;
        let mut found = Vec::new();
        for goal in goals {
            let goal::About::Aim(number) = goal.about else { continue };
            let Some((above, below)) = goal.value(&trial.ways) else { continue };
            let near = |bound: Option<Number>| -> Result<bool, Overflow> {
                let Some(bound) = bound else { return Ok(false) };
                let off = above.over(below)?.minus(bound)?.size();
                Ok(off <= bound.size().max(Number::ONE).times(Number::constant(1, 100_000))?)
            };
            if near(goal.low)? || near(goal.high)? {
                found.push((goal.way, number));
            }
        }
        Ok(found)
    }
}

/// Exact amounts to nine places, where sums with them would leave the range of exact numbers.
///
/// # Errors
/// When a number leaves that range already.
pub fn short(times: &[Number]) -> Result<Vec<Number>, Overflow> {
    let billion = 1_000_000_000;
    let one = |times: &Number| {
        if times.parts().1 < billion { Ok(*times) } else { times.rounded_to(Number::constant(1, billion)) }
    };
    times.iter().map(one).collect()
}

/// A goal with what its digits leave open.
fn widened<'w>(goal: &Goal<'w>) -> Goal<'w> {
    let low = goal.low.map(|low| low.minus(goal.slack).unwrap_or(low));
    let high = goal.high.map(|high| high.plus(goal.slack).unwrap_or(high));
    Goal { low, high, ..goal.clone() }
}
