//! What ingredients cost before and now.

use super::Version;
use super::figures::Figure;
use crate::figures::cost::{self, Cost};
use crate::measure::money;
use crate::measure::number::Number;
use crate::measure::shown::Shown;
use crate::model::recipe::Ingredient;

/// The price of an ingredient, for each kilogram, when it is another than before.
pub(super) fn of_line(old: &Ingredient, new: &Ingredient) -> Option<Figure> {
    // Another ingredient has a price of its own; the change of name is told.
    if !old.name.same(&new.name) {
        return None;
    }
    let (old, new) = (price(old), price(new));
    let is_same = match (old, new) {
        (Some(old), Some(new)) => old == new,
        (old, new) => old.is_none() && new.is_none(),
    };
    if is_same { None } else { Figure::words("price for each kg", shown(old), shown(new)) }
}

/// What a gram costs, and in which money.
fn price(line: &Ingredient) -> Option<(Number, Option<&str>)> {
    let facts = line.facts()?;
    Some((facts.price_of_a_gram()?, facts.price.as_ref()?.currency.as_deref()))
}

fn shown(price: Option<(Number, Option<&str>)>) -> Shown {
    let per_kilogram = price.and_then(|(gram, currency)| Some((gram.times(Number::whole(1000)).ok()?, currency)));
    per_kilogram.map(|(amount, currency)| money::shown(amount, 2, currency)).unwrap_or_default()
}

/// What a piece costs, or without pieces a batch, before and now; only when all that is weighed has a price in both.
///
/// Of a piece, for a batch that is only larger is not dearer.
pub(super) fn of_whole(old: Version<'_>, new: Version<'_>) -> Option<Figure> {
    let whole = |version: Version<'_>| cost::of(version.recipe, version.formula, None).ok().filter(Cost::is_known);
    let (old, new) = (whole(old)?, whole(new)?);
    let each = |cost: &Cost| cost.each().ok().flatten();
    let (figure, was, is) = match (each(&old), each(&new)) {
        (Some(was), Some(is)) => ("cost of a piece", was, is),
        _ => ("cost", old.total, new.total),
    };
    let was = money::shown(was, 3, old.currency.as_deref());
    Figure::words(figure, was, money::shown(is, 3, new.currency.as_deref()))
}
