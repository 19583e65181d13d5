//! Which parts are made together: what several orders need, where one draws on it, is made once for all of them.

use crate::language::syntax::{Key, Moment};
use crate::make::apart::{self, Apart, Turn};
use crate::make::batch::{Batch, BatchPart};
use crate::make::one_bath;
use crate::make::order::Order;
use crate::make::slack;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{MINUTES_A_DAY, Mass};
use crate::model::alive::Alive;
use crate::model::kitchen::Capacity;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};
use std::collections::HashMap;
use std::sync::Arc;

/// Batches, and where each order's parts are made.
pub(super) struct Shared {
    pub(super) batches: Vec<Batch>,
    pub(super) by_order: Vec<HashMap<PartId, BatchPart>>,
}

/// A part as it is written somewhere: the recipe, by its place among all, and its number there.
type Written = (usize, PartId);

/// A part of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Need {
    order: usize,
    /// Its number in the order's recipe.
    part: PartId,
}

/// Parts of one recipe that are made at one time for the same orders.
struct Together {
    recipe: usize,
    orders: Vec<usize>,
    parts: Vec<PartId>,
}

/// A moment as a number of minutes, to tell how far apart two are.
fn minute(moment: Moment) -> i64 {
    let since = moment.when.duration_since(jiff::civil::DateTime::default());
    since.as_secs() / 60
}

/// How far apart orders may be wanted for which a part that is handed over is made at once, with all that goes into it.
fn room_apart(order: &Order, id: PartId) -> i64 {
    let Some(part) = order.recipe.part(id) else { return 0 };
    let Some(parting) = apart::parting(part, id) else { return apart::kept(part).unwrap_or(0) };
    let room = slack::of_what_is_taken_late(&order.recipe, id, &parting.own)
        .map_or(parting.room, |room| room.min(parting.room));
    // What keeps as it is handed over is made in one go, whatever went into it.
    room.max(apart::kept(part).unwrap_or(0))
}

/// Puts together what is made once; orders that are `alone` share no dough with one for another time.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn share(orders: &[Order], alone: &[usize]) -> Result<Shared, Overflow> {
    let needs = Needs { alone, ..Needs::of(orders) };
    let together = needs.together(orders);
    let mut batches = Vec::with_capacity(together.len() + orders.len());
    let mut own: Vec<Batch> = orders.iter().enumerate().map(|(at, order)| Batch::of(order, at)).collect();
    let mut by_order: Vec<HashMap<PartId, BatchPart>> = vec![HashMap::new(); orders.len()];
    for (number, group) in together.iter().enumerate() {
        batches.push(needs.made_once(group, orders)?);
        for part in &group.parts {
            for need in needs.of_part((group.recipe, *part)).iter().filter(|need| group.orders.contains(&need.order)) {
                let slot = own.get_mut(need.order).and_then(|batch| batch.formula.parts.get_mut(need.part.0));
                if let Some(slot) = slot {
                    slot.is_made = false;
                }
                if let Some(made) = by_order.get_mut(need.order) {
                    made.insert(need.part, BatchPart { batch: number, part: *part });
                }
            }
        }
    }
    for (order, batch) in own.into_iter().enumerate() {
        let number = batches.len();
        let mut any = false;
        for part in batch.made_parts() {
            any = true;
            if let Some(made) = by_order.get_mut(order) {
                made.insert(part, BatchPart { batch: number, part });
            }
        }
        // An order that is made as part of others' batches has none of its own.
        if any || by_order.get(order).is_some_and(HashMap::is_empty) {
            batches.push(batch);
        }
    }
    Ok(Shared { batches, by_order })
}

/// Who needs which part that is made.
struct Needs<'a> {
    /// Every recipe whose parts are made.
    recipes: Vec<&'a Recipe>,
    /// The parts in the order in which they first appear.
    parts: Vec<Written>,
    by_part: HashMap<Written, Vec<Need>>,
    /// The orders that share no dough with one for another time.
    alone: &'a [usize],
}

impl<'a> Needs<'a> {
    fn of(orders: &'a [Order]) -> Needs<'a> {
        let mut needs = Needs { recipes: Vec::new(), parts: Vec::new(), by_part: HashMap::new(), alone: &[] };
        for (at, order) in orders.iter().enumerate() {
            for (id, _) in order.recipe.parts() {
                if !order.made().is_made(id) {
                    continue;
                }
                let Some((origin, there)) = order.recipe.origin(id) else { continue };
                let (place, there) = needs.written(origin, there).unwrap_or_else(|| {
                    needs.recipes.push(origin);
                    (needs.recipes.len() - 1, there)
                });
                let list = needs.by_part.entry((place, there)).or_default();
                if list.is_empty() {
                    needs.parts.push((place, there));
                }
                list.push(Need { order: at, part: id });
            }
        }
        needs
    }

    /// A part as it is known: that of the first recipe in which it is the same thing to make, whatever choices do not touch it.
    fn written(&self, origin: &Recipe, there: PartId) -> Option<Written> {
        self.recipes.iter().enumerate().find_map(|(place, known)| Some((place, known.makes_alike(origin, there)?)))
    }

    fn of_part(&self, part: Written) -> &[Need] {
        self.by_part.get(&part).map_or(&[], Vec::as_slice)
    }

    /// What is made once for several orders: what they draw on, and what is handed over of one recipe at one time.
    fn together(&self, orders: &[Order]) -> Vec<Together> {
        let mut all: Vec<Together> = Vec::new();
        for written in &self.parts {
            if self.of_part(*written).len() < 2 {
                continue;
            }
            for of in self.at_one_time(*written, orders) {
                match all.iter_mut().find(|known| known.recipe == written.0 && known.orders == of) {
                    Some(known) => known.parts.push(written.1),
                    None => all.push(Together { recipe: written.0, orders: of, parts: vec![written.1] }),
                }
            }
        }
        self.inner_first(all, orders)
    }

    /// The orders that need a part, put together as far as it can be made at one time for them: when they are wanted lies no
    /// further apart than what is made of the part may wait on its way. Orders that it cannot be made together for make it by
    /// themselves.
    fn at_one_time(&self, written: Written, orders: &[Order]) -> Vec<Vec<usize>> {
        // A preferment is made with what it is taken out of, and what goes into a part that goes on apart with that.
        let apart = self.apart_with(written, orders);
        let goes_apart = apart.is_some();
        let of = apart.unwrap_or_else(|| self.root(written));
        let with_dough = self.grouped(written, (of, goes_apart), orders);
        let part = self.recipes.get(written.0).and_then(|recipe| recipe.part(written.1));
        if part.is_none_or(|part| part.from.is_none()) {
            return with_dough;
        }
        // What ripens for several doughs that are mixed one after the other is stirred once for them, if it ripens that long.
        let together = |groups: &[Vec<usize>]| groups.iter().map(Vec::len).sum::<usize>();
        let by_itself = self.grouped(written, (written, false), orders);
        if together(&by_itself) > together(&with_dough) { by_itself } else { with_dough }
    }

    /// The orders that need a part, put together as far as it can be made at one time for them with another part, or with what it is itself;
    /// `goes_apart` says whether that other goes on apart for several times.
    fn grouped(&self, written: Written, (of, goes_apart): (Written, bool), orders: &[Order]) -> Vec<Vec<usize>> {
        let mut wanted: Vec<(usize, Option<i64>, Option<i64>)> = Vec::new();
        for need in self.of_part(written) {
            let Some(order) = orders.get(need.order) else { continue };
            let part =
                self.of_part(of).iter().find(|other| other.order == need.order).map_or(need.part, |other| other.part);
            let room = match goes_apart {
                true => Some(room_apart(order, part)),
                false if of == written => slack::of_what_ripens(&order.recipe, part),
                false => slack::after(&order.recipe, &Alive::of(&order.recipe), part),
            };
            wanted.push((need.order, order.ready.map(minute), room));
        }
        let is_dough = goes_apart || self.lives(of);
        // Without a time of its own an order is wanted with the others.
        let mut by_time: Vec<(usize, Option<i64>, Option<i64>)> = wanted.clone();
        by_time.sort_by_key(|(order, ready, _)| (*ready, *order));
        let mut groups: Vec<(Option<i64>, Vec<usize>)> = Vec::new();
        for (order, ready, room) in by_time {
            // The first of a group is when it has to be made; the later ones wait for the rest of the time.
            // What goes on apart is handed over on one day, for which its labels are.
            let fits = |first: Option<i64>| match (first, ready, room) {
                (Some(first), Some(ready), _)
                    if goes_apart && first.div_euclid(MINUTES_A_DAY) != ready.div_euclid(MINUTES_A_DAY) =>
                {
                    false
                }
                (Some(first), Some(ready), Some(room)) => ready - first <= room,
                _ => true,
            };
            let apart = |first: Option<i64>, group: &[usize]| {
                let is_alone = |order: &usize| self.alone.contains(order);
                first != ready && is_dough && (is_alone(&order) || group.iter().any(is_alone))
            };
            match groups.last_mut().filter(|(first, group)| fits(*first) && !apart(*first, group)) {
                Some((first, group)) => {
                    *first = first.or(ready);
                    group.push(order);
                }
                None => groups.push((ready, vec![order])),
            }
        }
        let several = groups.into_iter().map(|(_, group)| group).filter(|group| group.len() > 1);
        let mut all: Vec<Vec<usize>> = several.filter(|group| self.is_worth_it(of, group, orders)).collect();
        all.iter_mut().for_each(|group| group.sort_unstable());
        all.sort();
        all
    }

    /// Whether a part is alive when it is made.
    fn lives(&self, written: Written) -> bool {
        self.recipes.get(written.0).is_some_and(|recipe| Alive::of(recipe).at_end(written.1))
    }

    /// The part that may go on apart for several times and with which a part is made: that part itself, or what it goes into.
    fn apart_with(&self, written: Written, orders: &[Order]) -> Option<Written> {
        let need = self.of_part(written).first()?;
        let order = orders.get(need.order)?;
        let finals = order.finals();
        let [last] = finals.as_slice() else { return None };
        let (origin, there) = order.recipe.origin(*last)?;
        let of = self.written(origin, there)?;
        let is_same = self.of_part(of).len() == self.of_part(written).len();
        (is_same && self.goes_apart(of, orders) && self.gains_apart(of, orders)).then_some(of)
    }

    /// Whether what goes into such a part loses nothing by it: all its times lie so near to each other that one dough serves them.
    /// Else a filling that keeps is still made once for all of them, by itself.
    fn gains_apart(&self, of: Written, orders: &[Order]) -> bool {
        let needs = self.of_part(of);
        let goes_in = |order: &Order| {
            let own = |part: &Part| part.from.is_none();
            order.recipe.parts().filter(|(id, part)| own(part) && order.made().is_made(*id)).count()
        };
        let of_order = |need: &Need| orders.get(need.order);
        if needs.iter().filter_map(of_order).all(|order| goes_in(order) < 2) {
            return true;
        }
        let times = || needs.iter().filter_map(|need| of_order(need)?.ready).map(minute);
        let (Some(first), Some(last)) = (times().min(), times().max()) else { return true };
        let room = needs.iter().filter_map(|need| Some(room_apart(of_order(need)?, need.part))).min().unwrap_or(0);
        first.div_euclid(MINUTES_A_DAY) == last.div_euclid(MINUTES_A_DAY) && last - first <= room
    }

    /// Whether a part may go on apart for several times: it is handed over to all who need it, and all else that is made for them
    /// goes into it, is written in one recipe with it and is needed by nobody else. A dough of its own is none of that: it is made at
    /// once by itself, and shaped for each time.
    fn goes_apart(&self, of: Written, orders: &[Order]) -> bool {
        let needs = self.of_part(of);
        needs.iter().all(|need| {
            let Some(order) = orders.get(need.order) else { return false };
            let alive = Alive::of(&order.recipe);
            let is_alone = order.recipe.parts().all(|(id, _)| {
                let made = order.made().is_made(id);
                let Some((origin, there)) = order.recipe.origin(id) else { return false };
                let is_its_own = self
                    .written(origin, there)
                    .is_some_and(|written| written.0 == of.0 && self.of_part(written).len() == needs.len());
                let is_dough = id != need.part
                    && order.recipe.part(id).is_some_and(|part| part.from.is_none())
                    && alive.at_end(id);
                !made || (is_its_own && !is_dough)
            });
            order.finals() == [need.part] && is_alone
        })
    }

    /// Where a batch for several times goes on apart, and how much of it is for which time; nothing for one time.
    fn apart(
        &self,
        recipe: &Recipe,
        formula: &Formula,
        group: &Together,
        orders: &[Order],
    ) -> Result<Option<Apart>, Overflow> {
        // What goes into it is made with it, at once.
        let is_last = |id: &PartId| {
            recipe.part(*id).is_some_and(|part| part.from.is_none()) && recipe.users(*id).next().is_none()
        };
        let Some(id) = group.parts.iter().copied().find(is_last) else { return Ok(None) };
        // An order without a time is wanted with the last.
        let said = |at: usize| orders.get(at).and_then(|order| order.ready);
        let latest = group.orders.iter().filter_map(|at| said(*at)).max_by_key(|ready| minute(*ready));
        let ready = |at: usize| said(at).or(latest);
        let mut of = group.orders.clone();
        of.sort_by_key(|at| (ready(*at).map(minute), *at));
        let first = of.first().copied().and_then(ready);
        let is_first = |at: &usize| ready(*at).map(minute) == first.map(minute);
        if of.iter().all(is_first) || !self.goes_apart((group.recipe, id), orders) {
            return Ok(None);
        }
        // What keeps as it is handed over is made in one go.
        let last = of.last().copied().and_then(ready).map(minute);
        let apart = first.map(minute).zip(last).map_or(0, |(first, last)| last - first);
        let kept = recipe.part(id).and_then(apart::kept).is_some_and(|kept| apart <= kept);
        let parting = recipe.part(id).filter(|_| !kept).and_then(|part| apart::parting(part, id));
        let Some(parting) = parting else { return Ok(None) };
        let Some(all) = formula.part(id).and_then(|part| part.makes).filter(|all| *all > Mass::ZERO) else {
            return Ok(None);
        };
        let mut turns: Vec<Turn> = Vec::new();
        for at in of {
            let here = self.of_part((group.recipe, id)).iter().find(|need| need.order == at).map(|need| need.part);
            let Some((order, here)) = orders.get(at).zip(here) else { continue };
            let Some(solved) = made_of(order, here)? else { continue };
            let share = solved.makes.unwrap_or(Mass::ZERO).ratio(all)?;
            match turns.last_mut().filter(|turn| turn.ready.map(minute) == ready(at).map(minute)) {
                Some(turn) => {
                    turn.share = turn.share.plus(share)?;
                    turn.made = turn.made.plus(&solved)?;
                    turn.orders.push(at);
                }
                None => turns.push(Turn { ready: ready(at), orders: vec![at], share, made: solved }),
            }
        }
        Ok(Some(Apart { part: id, parting, turns }))
    }

    /// Whether orders that are wanted at different times gain by one dough: it goes into fewer mixers than a dough for each. A
    /// dough of several loads would wait for its last one.
    fn is_worth_it(&self, written: Written, group: &[usize], orders: &[Order]) -> bool {
        let ready = |at: &usize| orders.get(*at).and_then(|order| order.ready).map(minute);
        if group.iter().all(|at| ready(at) == group.first().and_then(ready)) {
            return true;
        }
        let (Some(recipe), Some(order)) = (self.recipes.get(written.0), group.first().and_then(|at| orders.get(*at)))
        else {
            return true;
        };
        let steps = recipe.part(written.1).map_or(&[][..], |part| &part.steps);
        let holds = steps.iter().find_map(|step| match order.recipe.kitchen.find(step.equipment.as_ref()?)?.holds? {
            Capacity::Mass(most) => Some(most),
            Capacity::Pieces(_) => None,
        });
        let Some(holds) = holds else { return true };
        let each = self.of_part(written).iter().filter(|need| group.contains(&need.order));
        let masses: Vec<Mass> =
            each.filter_map(|need| orders.get(need.order)?.made().part(need.part)?.goes_in).collect();
        let loads = |mass: Mass| mass.ratio(holds).map(Number::ceil).unwrap_or(Number::ONE);
        let apart = masses.iter().map(|mass| loads(*mass)).try_fold(Number::ZERO, Number::plus);
        match (Mass::sum(masses.iter().copied()), apart) {
            (Ok(all), Ok(apart)) => loads(all) < apart,
            _ => true,
        }
    }

    /// The part that a preferment is in the end taken out of; any other part itself.
    fn root(&self, written: Written) -> Written {
        let Some(recipe) = self.recipes.get(written.0) else { return written };
        let mut part = written.1;
        for _ in 0..recipe.parts.len() {
            match recipe.part(part).and_then(|part| part.from) {
                Some(from) => part = from,
                None => break,
            }
        }
        (written.0, part)
    }

    /// Before what draws on it; where nothing forbids it, in the order in which it appears.
    fn inner_first(&self, mut left: Vec<Together>, orders: &[Order]) -> Vec<Together> {
        let mut sorted = Vec::with_capacity(left.len());
        while !left.is_empty() {
            let free =
                |one: &Together| !left.iter().any(|other| !std::ptr::eq(one, other) && self.draws(one, other, orders));
            let next = left.iter().position(free).unwrap_or(0);
            sorted.push(left.remove(next));
        }
        sorted
    }

    /// Whether some part of `one` draws on some part of `other`.
    fn draws(&self, one: &Together, other: &Together, orders: &[Order]) -> bool {
        let Some(first) = one.orders.first().and_then(|at| orders.get(*at).map(|order| (*at, order))) else {
            return false;
        };
        let (at, order) = first;
        let here = |group: &Together, part: &PartId| {
            self.of_part((group.recipe, *part)).iter().find(|need| need.order == at).map(|need| need.part)
        };
        let inner: Vec<PartId> = other.parts.iter().filter_map(|part| here(other, part)).collect();
        one.parts.iter().filter_map(|part| here(one, part)).any(|user| {
            let draws = |id: &PartId| order.recipe.part(user).is_some_and(|part| part.draws_on(*id));
            let ferments = |id: &PartId| order.recipe.part(*id).is_some_and(|part| part.from == Some(user));
            inner.iter().any(|id| draws(id) || ferments(id))
        })
    }

    /// The batch that serves several orders: every part at the sum of what they need of it.
    fn made_once(&self, group: &Together, orders: &[Order]) -> Result<Batch, Overflow> {
        let origin = self.recipes.get(group.recipe).copied().ok_or(Overflow)?;
        // An order of the recipe itself brings kitchen and time; else it is the recipe as the first user sees it.
        let of_it = |at: &&usize| orders.get(**at).is_some_and(|order| order.recipe.is_same(origin));
        let own = group.orders.iter().find(of_it).and_then(|at| orders.get(*at));
        let first = own.or_else(|| orders.get(*group.orders.first()?)).ok_or(Overflow)?;
        let mut recipe = Recipe::clone(origin);
        recipe.kitchen = Arc::clone(&first.recipe.kitchen);
        // A choice that was taken otherwise for some of them touches nothing of what is made here.
        let taken = |need: &Need| orders.get(need.order)?.recipe.origin(need.part).map(|(origin, _)| &origin.selection);
        let needs = group.parts.iter().flat_map(|part| self.of_part((group.recipe, *part)));
        let needs: Vec<&Need> = needs.filter(|need| group.orders.contains(&need.order)).collect();
        let selection = recipe.selection.clone();
        let is_one =
            |key: &Key| needs.iter().filter_map(|need| taken(need)).all(|other| other.of(key) == selection.of(key));
        recipe.choices.retain(|choice| is_one(&choice.name.key));
        let written = Formula::of(&recipe, &mut Vec::new());
        let mut formula = Formula { parts: Vec::with_capacity(written.parts.len()).into(), pieces: None };
        let (mut factor, mut grown): (Option<Number>, Option<Number>) = (None, None);
        for (id, part) in recipe.parts() {
            let is_made = group.parts.contains(&id);
            let mut solved = self.sum(&recipe, id, &group.orders, orders)?.unwrap_or_default();
            solved.is_made = is_made;
            // What goes to other recipes stands elsewhere; the balance is between the recipe's own parts.
            if recipe.users(id).next().is_none() && part.from.is_none() {
                (solved.balance.used, solved.balance.left) = (None, None);
            }
            let original = written.part(id).and_then(|part| part.makes).filter(|mass| *mass > Mass::ZERO);
            if let (true, Some(makes), Some(original)) = (is_made && part.from.is_none(), solved.makes, original)
                && (factor.is_none() || recipe.final_part() == Some(id))
            {
                factor = Some(makes.ratio(original)?);
                // Pieces are counted as if all steps were done for all of it: what is taken early lacks what is brushed on later.
                grown = Some(solved.as_written().makes.unwrap_or(makes).ratio(original)?);
            }
            formula.parts.push(solved);
        }
        let factor = factor.unwrap_or(Number::ONE);
        formula.pieces = written.pieces.map(|pieces| pieces.times(grown.unwrap_or(factor))).transpose()?;
        let apart = self.apart(&recipe, &formula, group, orders)?;
        Ok(Batch {
            recipe: Arc::new(recipe),
            formula,
            factor,
            grown: factor,
            limit: None,
            by_base_of: None,
            reweighed: Vec::new(),
            ready: own.and_then(|order| order.ready),
            made_for: Vec::new(),
            orders: group.orders.clone(),
            from_store: Vec::new(),
            apart,
        })
    }

    /// What some orders need of a part together; `None` when they need nothing of it.
    fn sum(&self, recipe: &Recipe, id: PartId, of: &[usize], orders: &[Order]) -> Result<Option<SolvedPart>, Overflow> {
        let Some((origin, there)) = recipe.origin(id) else { return Ok(None) };
        let Some(written) = self.written(origin, there) else { return Ok(None) };
        let is_bath = one_bath::is_bath(origin, there);
        let mut sum: Option<SolvedPart> = None;
        for need in self.of_part(written).iter().filter(|need| of.contains(&need.order)) {
            let Some(order) = orders.get(need.order) else { continue };
            let Some(solved) = made_of(order, need.part)? else { continue };
            sum = Some(match sum {
                Some(sum) if is_bath => one_bath::larger(sum, solved),
                Some(sum) => sum.plus(&solved)?,
                None => solved,
            });
        }
        Ok(sum)
    }
}

/// What an order makes of a part, as the part's own recipe has it.
fn made_of(order: &Order, part: PartId) -> Result<Option<SolvedPart>, Overflow> {
    let there = |id: PartId| order.recipe.origin(id).map(|(_, there)| there);
    order.made().part(part).map(|solved| solved.as_in_its_recipe(&there)).transpose()
}
