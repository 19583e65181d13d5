//! A day's `make` lines as orders, less what its `store` lines say is there.

use crate::make::order::{InStore, Order};
use crate::make::resize::{self, resize};
use crate::make::size::{Impossible, Size};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::model::recipe::{Part, PartId, Recipe, Sort};
use crate::model::ways;
use crate::solve::formula::Formula;
use crate::solve::resolve::day::store::DayStore;
use crate::solve::resolve::day::{Day, DayOrder, Wanted};
use jiff::civil::Date;
use std::sync::Arc;

/// The orders of a day, in its own order. `work_out` gives the recipe and formula of a line, as written; a line for which it
/// gives nothing was reported.
///
/// # Errors
/// When a line cannot be made in that size: which line, of which recipe, and why.
pub fn orders(
    day: &Day,
    work_out: impl Fn(&DayOrder) -> Option<(Recipe, Formula)>,
) -> Result<Vec<Order>, Box<NotToOrder>> {
    worked_out(day, &work_out).map(|(orders, _)| orders)
}

/// What the orders of a day do with each of its `store` lines, in their order; nothing where a line cannot be made as it asks.
pub fn uses_of_store(day: &Day, work_out: impl Fn(&DayOrder) -> Option<(Recipe, Formula)>) -> Vec<UseOfStore> {
    worked_out(day, &work_out).map(|(_, store)| store.into_iter().map(There::used).collect()).unwrap_or_default()
}

/// What the orders of a day do with a `store` line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UseOfStore {
    /// Something of it is taken, or there is enough besides.
    Taken,
    /// No order takes anything of that part.
    NotWanted,
    /// Orders take the part as it is made under other options: the one that tells theirs from those of the line, if one does.
    MadeOtherwise(String),
    /// On the first day on which some of it is wanted it is past what it keeps.
    Past(Date),
    /// It is said in pieces and what is taken of it is not: what one of them weighs is not known.
    NoWeight,
    /// It is less than one piece of what is taken in pieces.
    LessThanOne,
    /// It is handed over in several sorts, and which of them it is nobody says.
    NoSort,
}

/// The orders, and what remains of the store after them.
fn worked_out<'d>(
    day: &'d Day,
    work_out: &impl Fn(&DayOrder) -> Option<(Recipe, Formula)>,
) -> Result<(Vec<Order>, Vec<There<'d>>), Box<NotToOrder>> {
    let mut orders = Vec::with_capacity(day.orders.len());
    let mut store: Vec<There<'_>> = day.store.iter().map(There::of).collect();
    for line in &day.orders {
        let Some((mut recipe, written)) = work_out(line) else { continue };
        // The day is made in one kitchen, whatever the recipes were written for.
        if day.kitchen.span.is_some() {
            recipe.kitchen = Arc::clone(&day.kitchen);
        }
        for there in &mut store {
            there.look_at(&recipe, line, work_out);
        }
        let name = recipe.name.to_string();
        let order = order(recipe, &written, line).and_then(|order| {
            let ready = line.ready.map(|moment| moment.when.date());
            Ok(Order { ready: line.ready, span: Some(line.span), ..less(order, &mut store, ready)? })
        });
        if let Ok(order) = &order {
            store.iter_mut().for_each(|there| there.note_otherwise(order));
        }
        orders.push(order.map_err(|why| Box::new(NotToOrder { line: line.clone(), recipe: name, why }))?);
    }
    Ok((orders, store))
}

fn order(recipe: Recipe, written: &Formula, line: &DayOrder) -> Result<Order, Impossible> {
    if let Some(part) = &line.part {
        return Order::of_part(recipe, written, part, &line.wanted);
    }
    match &line.wanted {
        Wanted::Pieces(count) => Order::sized(recipe, written, &Size::Pieces(count.value())),
        Wanted::Mass(mass) => Order::sized(recipe, written, &Size::Total(*mass)),
        Wanted::Sorts(sorts) => Order::of_sorts(recipe, written, sorts),
    }
}

/// What there still is of a `store` line.
struct There<'a> {
    line: &'a DayStore,
    /// The recipe under the choices of the line, where an order has others.
    recipe: Option<Recipe>,
    /// A weight, or pieces until the first order says what one weighs.
    mass: Option<Mass>,
    pieces: Option<Count>,
    /// What the orders so far do with it.
    used: UseOfStore,
}

impl There<'_> {
    fn of(line: &DayStore) -> There<'_> {
        let (mass, pieces) = match &line.amount {
            Wanted::Mass(mass) => (Some(*mass), None),
            Wanted::Pieces(count) => (None, Some(*count)),
            Wanted::Sorts(_) => (None, None),
        };
        There { line, recipe: None, mass, pieces, used: UseOfStore::NotWanted }
    }

    /// Works its recipe out where an order draws on it under other choices.
    fn look_at(&mut self, order: &Recipe, line: &DayOrder, work_out: &impl Fn(&DayOrder) -> Option<(Recipe, Formula)>) {
        let drawn = std::iter::once(order).chain(order.used.iter().map(|used| used.recipe.as_ref()));
        let mut other = drawn.filter(|one| one.source == self.line.recipe && *one.selection != self.line.selection);
        if self.recipe.is_none() && other.next().is_some() {
            let (recipe, selection) = (self.line.recipe, self.line.selection.clone());
            self.recipe = work_out(&DayOrder { recipe, selection, ..line.clone() }).map(|(recipe, _)| recipe);
        }
    }

    /// Whether it is that part of a recipe, under the same choices or others that do not touch it.
    fn is(&self, recipe: &Recipe, id: PartId) -> bool {
        let Some((origin, at)) = recipe.origin(id) else { return false };
        let alike = || self.recipe.as_ref().is_some_and(|recipe| recipe.makes_alike(origin, at).is_some());
        self.is_called(origin, at) && (*origin.selection == self.line.selection || alike())
    }

    /// Whether it is that part of the recipe in which it is written, under whatever choices.
    fn is_called(&self, origin: &Recipe, at: PartId) -> bool {
        let part = || match &self.line.part {
            Some(name) => origin.part(at).is_some_and(|part| part.name.same(name)),
            None => origin.final_part() == Some(at),
        };
        origin.source == self.line.recipe && part()
    }

    /// Notes whether an order makes the part under choices that touch it.
    fn note_otherwise(&mut self, order: &Order) {
        if self.used != UseOfStore::NotWanted {
            return;
        }
        let made = order.recipe.parts().map(|(id, _)| id).filter(|id| order.made().is_made(*id));
        let mut theirs =
            made.filter_map(|id| order.recipe.origin(id)).filter(|(origin, at)| self.is_called(origin, *at));
        let Some((theirs, _)) = theirs.next() else { return };
        let told = self.recipe.as_ref().map(|own| ways::told_from(theirs, &[own])).unwrap_or_default();
        self.used = UseOfStore::MadeOtherwise(told);
    }

    /// Notes what an order that wants some of it does.
    fn note(&mut self, used: UseOfStore) {
        // What was once taken is taken, and the first of several reasons stands.
        let is_reason = !matches!(self.used, UseOfStore::NotWanted | UseOfStore::MadeOtherwise(_));
        if self.used != UseOfStore::Taken && (used == UseOfStore::Taken || !is_reason) {
            self.used = used;
        }
    }

    fn used(self) -> UseOfStore {
        self.used
    }

    /// Takes as much as is needed and there.
    fn take(&mut self, need: Mass, each: Option<Mass>) -> Result<Mass, Overflow> {
        if let (None, Some(pieces), Some(each)) = (self.mass, self.pieces, each) {
            self.mass = Some(each.times(pieces.value())?);
        }
        let Some(there) = self.mass else { return Ok(Mass::ZERO) };
        let taken = resize::whole_pieces(there.min(need), each)?;
        self.mass = Some(there.minus(taken)?);
        Ok(taken)
    }
}

/// An order against what is in the store.
struct AgainstStore<'a, 'd> {
    order: &'a Order,
    /// What is handed over.
    finals: Vec<PartId>,
    store: &'a mut [There<'d>],
    /// The day on which it is used.
    used: Option<Date>,
    taken: Vec<(PartId, Mass, Option<Date>)>,
}

impl resize::Wanted for AgainstStore<'_, '_> {
    fn factor(&mut self, id: PartId) -> Result<Option<Number>, Overflow> {
        // A sort that nobody asked for is not made.
        let is_made = self.order.formula.part(id).is_none_or(|part| part.is_made);
        let all = if is_made { Number::ONE } else { Number::ZERO };
        Ok(self.finals.contains(&id).then_some(all))
    }

    fn there(&mut self, id: PartId, need: Mass, each: Option<Mass>) -> Result<Mass, Overflow> {
        let mut all = Mass::ZERO;
        let is_in_sorts = self.order.recipe.part(id).is_some_and(|part| !part.sorts.is_empty());
        if is_in_sorts && self.finals.contains(&id) {
            let here = self.store.iter_mut().filter(|there| there.is(&self.order.recipe, id));
            here.for_each(|there| there.note(UseOfStore::NoSort));
            return Ok(all);
        }
        // What lies in the store came out of the oven: a recipe that bakes it itself counts its dough, and who draws it what was baked.
        let (there_already, own) = self.order.left_by_oven(id)?;
        let need = need.times(own)?;
        let each = match each {
            Some(each) => Some(each.times(own)?),
            // What one piece weighs in a part by the piece.
            None => {
                let each = self.order.formula.per_piece(&self.order.recipe, id)?;
                each.map(|each| each.times(there_already)?.times(own)).transpose()?
            }
        };
        for there in self.store.iter_mut().filter(|there| there.is(&self.order.recipe, id)) {
            let lacking = need.minus(all)?;
            if lacking <= Mass::ZERO {
                there.note(UseOfStore::Taken);
                continue;
            }
            if let Some(on) = self.used.filter(|on| there.line.is_past(*on)) {
                there.note(UseOfStore::Past(on));
                continue;
            }
            let taken = there.take(lacking, each)?;
            there.note(match taken > Mass::ZERO {
                true => UseOfStore::Taken,
                false if there.mass.is_none() => UseOfStore::NoWeight,
                false => UseOfStore::LessThanOne,
            });
            if taken > Mass::ZERO {
                self.taken.push((id, taken.over(own)?, there.line.made));
                all = all.plus(taken)?;
            }
        }
        all.over(own)
    }

    fn is_counted(&self, id: PartId) -> bool {
        self.store.iter().any(|there| there.is(&self.order.recipe, id))
    }
}

/// An order less what is in the store.
fn less(order: Order, store: &mut [There<'_>], used: Option<Date>) -> Result<Order, Overflow> {
    let counted: Vec<PartId> = order
        .recipe
        .parts()
        .map(|(id, _)| id)
        .filter(|id| store.iter().any(|there| there.is(&order.recipe, *id)))
        .collect();
    if counted.is_empty() {
        return Ok(order);
    }
    let mut against = AgainstStore { order: &order, finals: order.finals(), store, used, taken: Vec::new() };
    let resized = resize(&order.recipe, &order.formula, &mut against)?;
    let taken = against.taken;
    let of_final = order.recipe.final_part().and_then(|id| resized.factors.get(id.0).copied()).unwrap_or(Number::ONE);
    let mut making = resized.formula;
    making.pieces = making.pieces.map(|pieces| pieces.times(of_final)).transpose()?;
    lacking_of_sorts(&order, &mut making)?;
    Ok(Order { making: Some(making), in_store: InStore { counted, taken }, ..order })
}

/// Of each sort as many pieces are divided off as are lacking of that sort, whatever there was of the others.
fn lacking_of_sorts(order: &Order, making: &mut Formula) -> Result<(), Overflow> {
    let recipe = &order.recipe;
    for (id, part) in recipe.parts().filter(|(_, part)| !part.sorts.is_empty()) {
        let count = |sort: &Sort| {
            let is_of_sort = |part: &Part| part.sort.as_ref().is_some_and(|name| name.same(&sort.name));
            let (user, _) = recipe.parts().find(|(_, part)| is_of_sort(part))?;
            let user = making.part(user)?;
            if user.is_made { user.pieces } else { Some(Count::ZERO) }
        };
        let Some(counts) = part.sorts.iter().map(count).collect::<Option<Vec<Count>>>() else { continue };
        let mut all = Number::ZERO;
        for count in &counts {
            all = all.plus(count.value())?;
        }
        let all = Count::new(all);
        if let Some(solved) = making.parts.get_mut(id.0) {
            (solved.sorts, solved.pieces) = (counts, Some(all));
        }
        // All pieces of the order, if these are they.
        let asked = order.formula.part(id).and_then(|part| part.pieces);
        if asked.is_some() && asked == order.formula.pieces {
            making.pieces = Some(all);
        }
    }
    Ok(())
}

/// A line of a day that cannot be made as it asks.
#[derive(Debug, Clone)]
pub struct NotToOrder {
    /// The line.
    pub line: DayOrder,
    /// The recipe's name.
    pub recipe: String,
    /// Why not.
    pub why: Impossible,
}
