//! A large order in several doughs, one after the other: each goes on at once when it is risen, and none waits for the oven.

use super::mend::{Dough, Mend};
use super::offer::Offer;
use super::relax::least;
use super::{Case, time};
use crate::make::batch::Batch;
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::alive::Alive;
use crate::model::recipe::{Part, PartId};
use crate::model::step::StepRef;
use crate::plan::problem::{FRESH, Minute};
use crate::plan::tasks::Task;

/// So many doughs are tried.
const MOST_DOUGHS: i64 = 3;

/// By so many minutes each is wanted before the next: those that somebody says.
const APART: [Minute; 10] = [15, 30, 45, 60, 75, 90, 105, 120, 180, 240];

/// The steps in which an order in several doughs is wanted later, and so many of them at most.
const QUARTER: Minute = 15;
const MOST_LATER: i64 = 24;

/// So many orders of one dough for one time are tried to be made before the others.
const MOST_SOONER: usize = 3;

/// So many of them are looked at by the last of them.
const LOOKED_AT: usize = 3;

impl Case<'_> {
    /// The order of that number in the fewest doughs that are enough, one as soon after the other as is; and where the last cannot be ready
    /// when it is wanted, as soon after that as it can; `first` is how many pieces of it can be made in time.
    pub(super) fn in_several_doughs(&self, order: usize, first: Option<i64>) -> Option<Offer> {
        let pieces = self.in_lines(order)?;
        let in_time = (2..=MOST_DOUGHS).find_map(|doughs| self.in_doughs(order, (pieces, 0), doughs, pieces));
        let the_rest_later = || self.the_rest_later(order, (first?, pieces));
        in_time.or_else(the_rest_later).or_else(|| {
            let later = |quarters: i64| self.in_doughs(order, (pieces, quarters * QUARTER), 2, pieces);
            later(MOST_LATER)?;
            later(least(MOST_LATER, |quarters| later(quarters).is_some())?)
        })
    }

    /// As many pieces of an order as can be in time, in one dough, and the others in another, as little later as is enough.
    fn the_rest_later(&self, order: usize, (one, all): (i64, i64)) -> Option<Offer> {
        // A handful of a large order is no dough of its own.
        if one >= all || one * 4 < all {
            return None;
        }
        let sizes = [one, all - one];
        let mends = |quarters: i64| -> Option<Vec<Mend>> {
            let later = quarters * QUARTER;
            let each = sizes.iter().zip([later, 0]).map(|(size, sooner)| {
                Some(Dough { share: Number::whole(*size).over(Number::whole(all)).ok()?, sooner })
            });
            Some(vec![Mend::Doughs(order, each.collect::<Option<_>>()?), Mend::Later(Some(order), later)])
        };
        let quarters = least(MOST_LATER, |quarters| mends(quarters).is_some_and(|mends| self.holds_quickly(&mends)))?;
        let asked = self.work.orders.get(order)?;
        let due = self.hours.dues.get(order).copied().flatten()?;
        let (at, then) = (self.clock?.at(due)?, self.clock?.at(due + quarters * QUARTER)?);
        let first = if at.date() == then.date() { at.strftime("%H:%M").to_string() } else { self.wall(due)? };
        let said = format!(
            "make the {} of `{}` in 2 {}, the second {} later: {} ready at {first} and {} ready at {}",
            asked.wanted(),
            asked.recipe.name,
            self.doughs(order),
            time(quarters * QUARTER),
            one + self.in_store(order)?,
            all - one,
            self.wall(due + quarters * QUARTER)?
        );
        Some(Offer::said_so(said, mends(quarters)?))
    }

    /// Of orders of one dough for one time the one that is made before the others, as little before as is enough.
    pub(super) fn one_of_them_sooner(&self) -> Option<Offer> {
        let due = |at: usize| self.hours.dues.get(at).copied().flatten();
        let together = |at: &usize| {
            let is_with = |other: usize| other != *at && due(other).is_some() && due(other) == due(*at);
            let of = |batch: &&Batch| batch.orders.contains(at) && batch.orders.iter().any(|other| is_with(*other));
            self.work.batches.iter().any(|batch| of(&batch))
        };
        let is_asked = |at: &usize| self.work.orders.get(*at).is_some_and(|order| order.ready.is_some());
        let orders = (0..self.work.orders.len()).filter(|at| self.clock.is_some() && is_asked(at) && together(at));
        let orders: Vec<usize> = orders.take(MOST_SOONER).collect();
        let mends = |order: usize, sooner: Minute| vec![Mend::Later(Some(order), -sooner), Mend::Alone(order)];
        let (order, sooner) = APART.into_iter().filter(|sooner| *sooner <= FRESH).find_map(|sooner| {
            let mut enough = orders.iter().filter(|order| self.holds_quickly(&mends(**order, sooner)));
            Some((*enough.next()?, sooner))
        })?;
        let asked = self.work.orders.get(order)?;
        let at = self.wall(due(order)? - sooner)?;
        let said = format!("want the {} of `{}` {} sooner, at {at}", asked.wanted(), asked.recipe.name, time(sooner));
        Some(Offer::said_so(said, mends(order, sooner)))
    }

    /// As many pieces of the order as can be in several doughs, where one of them is of so many.
    pub(super) fn more_in_several_doughs(&self, order: usize, one: i64) -> Option<Offer> {
        let pieces = self.in_lines(order)?;
        let all = (2..=MOST_DOUGHS).rev().map(|doughs| (doughs, doughs * one)).filter(|(_, made)| *made < pieces);
        all.into_iter().find_map(|(doughs, made)| self.in_doughs(order, (made, 0), doughs, pieces))
    }

    /// How many pieces an order is of that is wanted at a time and can be asked for in several lines.
    fn in_lines(&self, order: usize) -> Option<i64> {
        let asked = self.work.orders.get(order)?;
        let is_timed = asked.ready.is_some() && asked.span.is_some() && self.clock.is_some();
        self.divisible(order).filter(|_| is_timed)
    }

    /// So many of all pieces of an order in so many doughs, the last of them so many minutes later than it is wanted.
    fn in_doughs(&self, order: usize, (made, later): (i64, Minute), doughs: i64, all: i64) -> Option<Offer> {
        let sizes = self.sizes(order, made, doughs);
        if sizes.len() < 2 {
            return None;
        }
        let last = i64::try_from(sizes.len()).ok()? - 1;
        let mends = |apart: Minute| -> Option<Vec<Mend>> {
            let each = sizes.iter().zip(0..).map(|(size, number)| {
                let share = Number::whole(*size).over(Number::whole(all)).ok()?;
                Some(Dough { share, sooner: (last - number) * apart })
            });
            let mut mends = vec![Mend::Doughs(order, each.collect::<Option<_>>()?)];
            mends.extend((later > 0).then_some(Mend::Later(Some(order), later)));
            Some(mends)
        };
        let apart: Vec<Minute> = APART.into_iter().filter(|apart| apart * last <= FRESH).collect();
        let held = |apart: &Minute| Some((*apart, mends(*apart).filter(|mends| self.holds_quickly(mends))?));
        // Each is a plan: of three one is tried first, and only where that holds whether a shorter time would do.
        let (apart, mends) = apart.chunks(LOOKED_AT).find_map(|some| {
            let (last, shorter) = some.split_last()?;
            let longest = held(last)?;
            Some(shorter.iter().find_map(held).unwrap_or(longest))
        })?;
        let asked = self.work.orders.get(order)?;
        let due = self.hours.dues.get(order).copied().flatten()? + later;
        let in_store = self.in_store(order)?;
        // Of several times of one day the last says which.
        let each = sizes.iter().zip(0..).map(|(size, number)| {
            let minute = due - (last - number) * apart;
            let (at, day) = (self.clock?.at(minute)?, self.clock?.at(due)?);
            let is_said = number == last || at.date() != day.date();
            let at = if is_said { self.wall(minute)? } else { at.strftime("%H:%M").to_string() };
            // What is in the store goes to the first.
            let size = if number == 0 { size + in_store } else { *size };
            Some(format!("{size} ready at {at}"))
        });
        let each: Vec<String> = each.collect::<Option<_>>()?;
        let (of, recipe) = (asked.wanted(), &asked.recipe.name);
        let what = match made {
            made if made == all => format!("the {of} of `{recipe}`"),
            _ => format!("{} of the {of} of `{recipe}`", show::count_of(Number::whole(made + in_store))),
        };
        let doughs = show::count_of(Number::whole(last + 1));
        let then = if later > 0 { format!("{} later: ", time(later)) } else { String::new() };
        let of_what = self.doughs(order);
        Some(Offer::said_so(format!("make {what} in {doughs} {of_what}, {then}{}", show::list(&each)), mends))
    }

    /// What several times of making an order are called: soup is made in batches.
    fn doughs(&self, order: usize) -> &'static str {
        let recipe = self.work.orders.get(order).map(|order| &order.recipe);
        let is_dough = recipe.is_some_and(|recipe| {
            let alive = Alive::of(recipe);
            let is_called = |part: &Part| ["dough", "batter"].iter().any(|word| part.name.key.as_str().contains(word));
            let lives = |part: PartId, of: &Part| (0..of.steps.len()).any(|step| alive.after(StepRef { part, step }));
            recipe.parts().any(|(id, part)| lives(id, part) || is_called(part))
        });
        if is_dough { "doughs" } else { "batches" }
    }

    /// So many pieces in so many doughs of whole loads, as even as can be.
    fn sizes(&self, order: usize, made: i64, doughs: i64) -> Vec<i64> {
        let mut own = self.tasks.list.iter().filter(|task| {
            let batch = self.work.batches.get(task.batch);
            task.load == 1
                && task.loads > 1
                && task.equipment.is_some()
                && batch.is_some_and(|batch| batch.orders.contains(&order))
        });
        // What is done last in loads: the baking.
        // Of many loads several are one task.
        let at_a_time = |task: &Task| match (self.at_a_time(task), task.pieces) {
            (Some(size), Some(pieces)) => Some(size.min(pieces)),
            (size, pieces) => size.or(pieces),
        };
        let load = own.next_back().and_then(|task| at_a_time(task)?.ceil().to_whole()).unwrap_or(1).max(1);
        let even = (made + doughs - 1) / doughs;
        let each = ((even + load - 1) / load * load).max(1);
        let mut left = made;
        let mut sizes = Vec::new();
        while left > 0 {
            sizes.push(left.min(each));
            left -= each;
        }
        sizes
    }
}
