//! What a gram of an ingredient holds of what a swap keeps.

use super::{Comer, kind_of};
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::Ingredient;
use crate::solve::formula::fed::flour_in;

/// What is kept, in the order in which it is told. Flour is kept where a leaven or a flour goes out and flour comes in: its own moisture is in it
/// then, and no water.
pub(super) const KEPT: [&str; 6] = ["flour", "water", "fat", "sugar", "protein", "salt"];

/// What a gram holds of each of [`KEPT`].
pub(super) type Makeup = [Number; 6];

/// How much of it is water.
pub(super) fn water_in([_, water, ..]: &Makeup) -> Number {
    *water
}

/// Before it is looked up.
pub(super) const UNKNOWN: Makeup = [Number::ZERO; 6];

/// What a gram of what goes out holds; and of what comes in, which is put there.
pub(super) fn makeups(old: &Ingredient, known: &Facts, comers: &mut [Comer]) -> Result<Makeup, Overflow> {
    let mut keeps_flour = false;
    for comer in comers.iter().filter(|_| matches!(old.kind, Kind::Flour | Kind::Leaven)) {
        let kind = kind_of(&comer.name, &comer.facts);
        keeps_flour |= kind == Kind::Flour || flour_in(&Key::new(&comer.name), kind, Some(&comer.facts))?.is_some();
    }
    for comer in comers.iter_mut() {
        let kind = kind_of(&comer.name, &comer.facts);
        comer.makeup = makeup(&Key::new(&comer.name), kind, &comer.facts, keeps_flour)?;
    }
    makeup(&old.name.key, old.kind, known, keeps_flour)
}

fn makeup(name: &Key, kind: Kind, facts: &Facts, keeps_flour: bool) -> Result<Makeup, Overflow> {
    let share = |share: Option<Proportion>| share.map_or(Number::ZERO, Proportion::value);
    let contents = facts.contents;
    let salt = match kind {
        Kind::Salt => Number::ONE,
        // The sodium of a raising agent is none that a baker would take off the salt.
        kind if kind.is_chemical_raising() => Number::ZERO,
        _ => share(contents.salt),
    };
    let (flour, water) = match flour_in(name, kind, Some(facts))? {
        _ if !keeps_flour => (Number::ZERO, share(contents.water)),
        Some(flour) => (flour.value(), flour.rest()?.value()),
        None if kind == Kind::Flour => (Number::ONE, Number::ZERO),
        None => (Number::ZERO, share(contents.water)),
    };
    Ok([flour, water, share(contents.fat), share(contents.sugar), share(contents.protein), salt])
}

/// What the larder does not say of something.
pub(super) fn missing(name: &str, facts: &Facts) -> Result<Vec<&'static str>, Overflow> {
    let contents = facts.contents;
    if contents.water == Some(Proportion::WHOLE) {
        return Ok(Vec::new());
    }
    // Where nobody says how a leaven was fed, its water is what is not flour.
    let is_fed = flour_in(&Key::new(name), kind_of(name, facts), Some(facts))?.is_some();
    let said = [
        contents.water.is_some() || is_fed,
        contents.fat.is_some(),
        contents.sugar.is_some(),
        contents.protein.is_some(),
        contents.salt.is_some(),
    ];
    Ok(KEPT.iter().skip(1).zip(said).filter(|(_, said)| !said).map(|(name, _)| *name).collect())
}
