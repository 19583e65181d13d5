//! What a change must keep to: the aims, and what would make a formula of no use whatever it aims at.

use super::ways::{Line, Way, is_share};
use crate::aims::{Place, figure, list};
use crate::make::cost;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::value::Value;
use crate::model::aim::Aim;
use crate::model::recipe::{Base, LineAmount, PartId};
use crate::solve::formula::linear::in_base;

/// What a goal is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum About {
    /// An aim, by its number among those of the way.
    Aim(usize),
    /// The lines that are 100 % come to 100 %.
    Base(PartId),
    /// A preferment takes no more out of a line than it has.
    FinalMix(PartId, usize),
    /// The other parts take no more of a part than is made.
    Left(PartId),
    /// What goes in: it agrees with what `divide` or `makes` says comes out, and is something.
    Yield(PartId),
    /// What goes into what is made.
    Total,
    /// What it costs.
    Cost,
}

/// A quotient that must lie between two bounds.
#[derive(Debug, Clone)]
pub(super) struct Goal<'w> {
    /// Under which choice.
    pub way: usize,
    /// What.
    pub about: About,
    /// The least.
    pub low: Option<Number>,
    /// The most.
    pub high: Option<Number>,
    /// By how much either may be missed where that is all that can be done.
    pub slack: Number,
    /// The aim, if it is one.
    pub aim: Option<(Place, &'w Aim)>,
}

impl<'w> Goal<'w> {
    fn of(way: usize, about: About, low: Option<Number>, high: Option<Number>) -> Goal<'w> {
        Goal { way, about, low, high, slack: Number::ZERO, aim: None }
    }

    /// What is divided, and by what; and the mass by which both are shares. `None` where there is no figure.
    pub(super) fn value(&self, ways: &[Way]) -> Option<(Number, Number)> {
        let way = ways.get(self.way)?;
        let (recipe, formula) = (&way.recipe, &way.formula);
        let alone = |above: Option<Number>| above.map(|above| (above, Number::ONE));
        match &self.about {
            About::Aim(_) => {
                let (place, aim) = self.aim?;
                let reading = figure::read(recipe, formula, place, aim).ok()?;
                Some((reading.above, reading.below))
            }
            About::Base(part) => alone(shares_of_base(recipe, *part).ok()),
            About::FinalMix(part, line) => alone(formula.part(*part)?.lines.get(*line)?.final_mix.map(Mass::value)),
            About::Left(part) => alone(formula.part(*part)?.balance.left.map(Mass::value)),
            About::Yield(part) => alone(formula.part(*part)?.stays.map(Mass::value)),
            About::Total => alone(formula.part(recipe.final_part()?)?.stays.map(Mass::value)),
            About::Cost => alone(cost::of(recipe, formula, 0, None).ok().map(|cost| cost.total)),
        }
    }

    /// Whether it holds.
    pub(super) fn is_held(&self, ways: &[Way]) -> bool {
        let value = self.value(ways).and_then(|(above, below)| above.over(below).ok());
        value.is_some_and(|value| self.low.is_none_or(|low| value >= low) && self.high.is_none_or(|high| value <= high))
    }

    /// The base of the part that it is about.
    pub(super) fn base(&self, ways: &[Way]) -> Option<Number> {
        let way = ways.get(self.way)?;
        let part = match &self.about {
            About::Aim(_) => self.aim?.0.part,
            About::Base(_) => return None,
            About::FinalMix(part, _) | About::Left(part) | About::Yield(part) => *part,
            About::Total | About::Cost => way.recipe.final_part()?,
        };
        let base = way.formula.part(part)?.base.map(Mass::value);
        base.filter(|base| base.is_positive())
    }
}

/// What the shares among the lines of a base come to.
fn shares_of_base(recipe: &crate::model::recipe::Recipe, id: PartId) -> Result<Number, Overflow> {
    let Some((part, (base, _))) = recipe.part(id).and_then(|part| Some((part, part.base.as_ref()?))) else {
        return Ok(Number::ONE);
    };
    let mut sum = Number::ZERO;
    for line in part.lines.iter().filter(|line| in_base(base, line)) {
        if let LineAmount::Said(said) = &line.amount
            && let Some(Value::Proportion(share)) = said.first().map(|said| said.value)
        {
            sum = sum.plus(share.value())?;
        }
    }
    Ok(sum)
}

/// Every aim of every way that amounts have a say in.
pub(super) fn aims(ways: &[Way]) -> Vec<Goal<'_>> {
    let mut goals = Vec::new();
    for (way, one) in ways.iter().enumerate() {
        for (number, (place, aim)) in list(&one.recipe).into_iter().enumerate() {
            if !aim.figure.is_of_steps() {
                let goal = Goal::of(way, About::Aim(number), aim.low, aim.high);
                goals.push(Goal { slack: aim.slack, aim: Some((place, aim)), ..goal });
            }
        }
    }
    goals
}

/// What holds of the formula now and must go on to hold.
pub(super) fn kept<'w>(ways: &[Way], lines: &[Line]) -> Vec<Goal<'w>> {
    let mut goals = Vec::new();
    for (way, one) in ways.iter().enumerate() {
        let (recipe, formula) = (&one.recipe, &one.formula);
        for (id, part) in recipe.own_parts() {
            let Some(solved) = formula.part(id) else { continue };
            // Nothing at all meets every share, and is no mix.
            if let Some(least) =
                solved.stays.filter(|stays| *stays > Mass::ZERO).and_then(|stays| stays.over(Number::whole(10)).ok())
            {
                goals.push(Goal::of(way, About::Yield(id), Some(least.value()), None));
            }
            let mut base_lines = lines.iter().filter(|line| {
                let here = line.places.iter().find(|(known, part, _)| *known == way && *part == id);
                here.and_then(|(_, _, at)| part.lines.get(*at))
                    .is_some_and(|line| part.base.as_ref().is_some_and(|(base, _)| in_base(base, line)))
            });
            let mut any = false;
            let all_shares = base_lines.all(|line| {
                any = true;
                is_share(&line.said)
            });
            if any
                && all_shares
                && matches!(part.base, Some((Base::Flour | Base::Total | Base::Named(_), _)))
                && part.from.is_none()
            {
                goals.push(Goal::of(way, About::Base(id), Some(Number::ONE), Some(Number::ONE)));
            }
            if recipe.preferments(id).next().is_some() {
                let taken = solved.lines.iter().enumerate().filter(|(_, line)| line.final_mix != line.mass);
                goals.extend(taken.map(|(at, _)| Goal::of(way, About::FinalMix(id, at), Some(Number::ZERO), None)));
            }
            if solved.balance.left.is_some_and(|left| left >= Mass::ZERO) && recipe.users(id).next().is_some() {
                goals.push(Goal::of(way, About::Left(id), Some(Number::ZERO), None));
            }
        }
    }
    goals
}

/// Beyond what is stated a yield may be so far off (`yield-does-not-add-up`).
const APART: Number = Number::constant(1, 100);

/// What goes in agrees with what is said to come out, where it does so now: what is not true does not have to stay so.
pub(super) fn yields<'w>(ways: &[Way]) -> Vec<Goal<'w>> {
    let mut goals = Vec::new();
    for (way, one) in ways.iter().enumerate() {
        for (id, part) in one.recipe.own_parts() {
            let Some(solved) = one.formula.part(id) else { continue };
            let stated = part.divide.map(|divide| divide.loss).or(part.makes.map(|makes| makes.loss)).flatten();
            let stated = stated.unwrap_or(Proportion::ZERO).value();
            let (Some(needs), Some(stays)) = (solved.needs, solved.stays) else { continue };
            let bound = |apart: Number| -> Result<Number, Overflow> {
                needs.value().over(Number::ONE.minus(stated)?.plus(apart)?)
            };
            let (Ok(low), Ok(high)) = (bound(APART), Number::ZERO.minus(APART).and_then(bound)) else { continue };
            let goal = Goal::of(way, About::Yield(id), Some(low), Some(high));
            if stays > Mass::ZERO && goal.is_held(ways) {
                goals.push(goal);
            }
        }
    }
    goals
}

/// What goes in, as much as now.
pub(super) fn total<'w>(ways: &[Way]) -> Option<Goal<'w>> {
    let goal = Goal::of(0, About::Total, None, None);
    let (now, _) = goal.value(ways)?;
    Some(Goal { low: Some(now), high: Some(now), ..goal })
}

/// What it costs, to be made as little as can be.
pub(super) fn cost<'w>() -> Goal<'w> {
    Goal::of(0, About::Cost, None, None)
}
