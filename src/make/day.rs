//! A day's `make` lines as orders.

use crate::make::order::Order;
use crate::make::size::{Impossible, Size};
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;
use crate::solve::resolve::day::{Day, DayOrder, Wanted};
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
    let mut orders = Vec::with_capacity(day.orders.len());
    for line in &day.orders {
        let Some((mut recipe, written)) = work_out(line) else { continue };
        // The day is made in one kitchen, whatever the recipes were written for.
        if day.kitchen.span.is_some() {
            recipe.kitchen = Arc::clone(&day.kitchen);
        }
        let size = match line.wanted {
            Wanted::Pieces(count) => Size::Pieces(count.value()),
            Wanted::Mass(mass) => Size::Total(mass),
        };
        let name = recipe.name.to_string();
        let order = Order::sized(recipe, &written, &size);
        let order = order.map_err(|why| Box::new(NotToOrder { line: line.clone(), recipe: name, why }))?;
        orders.push(Order { ready: line.ready, span: Some(line.span), ..order });
    }
    Ok(orders)
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
