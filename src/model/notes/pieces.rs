//! Numbers of pieces beside weights: `6 eggs (59 g)` says what one weighs, and `eggs 2` among grams how many there are.

use super::measure::{Measure, measure};
use super::strength::kind;
use super::words;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::model::counted::{comes_in_pieces, most_pieces};
use crate::model::larder::Larder;

/// So many pieces are believed of what comes in them, where the numbers beside it are weights.
const FEW_PIECES: i64 = 12;

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

/// Whether a number beside weights is of pieces sooner than a weight, too: a few, whole, of what comes in them.
pub(super) fn is_in_pieces(name: &str, value: Option<Number>) -> bool {
    let (key, larder) = (Key::new(&words::name(name)), Larder::new());
    let facts = larder.find(&key);
    let counted = comes_in_pieces(&key) || facts.as_deref().is_some_and(|facts| facts.one_weighs.is_some());
    let most = most_pieces(&key, kind(name, facts.as_deref()), facts.as_deref()).min(Number::whole(FEW_PIECES));
    counted && value.is_some_and(|value| value.to_whole().is_some() && value <= most)
}
