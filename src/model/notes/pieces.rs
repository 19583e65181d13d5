//! A weight beside a number of pieces, `6 eggs (59 g)`: whether it is that of one, because all of them cannot weigh so little.

use super::measure::{Measure, measure};
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::model::larder::Larder;

/// The weight of one and how many there are, of an amount in the language's words, `59 g = 6`; `None` where the weight can be that of all.
///
/// Of what the larder knows the weight of one of, half of that for each is too little.
pub(super) fn weight_of_one(amount: &str, name: &Key, larder: &Larder) -> Option<(String, String)> {
    let (weight, pieces) = amount.split_once(" = ")?;
    let whole = |text| measure(text).filter(|(_, rest): &(Measure, &str)| rest.is_empty()).map(|(one, _)| one);
    let one = whole(weight).filter(Measure::is_mass)?;
    let count = whole(pieces).filter(|count| count.unit.is_none())?.value.filter(|count| *count > Number::ONE)?;
    let usual = larder.find(name)?.one_weighs?.value();
    let said = one.value?.times(Unit::from_word(one.known()?)?.size(None)?).ok()?;
    let half = usual.times(count).ok()?.over(Number::whole(2)).ok()?;
    (said < half).then(|| (weight.to_owned(), pieces.to_owned()))
}
