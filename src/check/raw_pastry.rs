//! Pastry that is raw: what it is, and where it is too warm for it.

use super::dough::{has_flour, mass_of, mille};
use super::kept::is_culture;
use crate::measure::number::Number;
use crate::model::cooking::cooks;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::solve::formula::SolvedPart;

/// Cooler than this a larder was where pastry rested before there were refrigerators, °C. Common practice, no source.
pub(super) const COOL_ROOM: Number = Number::whole(16);

/// Whether pastry is raw and moist: flour with a quarter of its weight of butter and more, neither raised nor sweet as a biscuit.
pub(super) fn is_pastry(part: &Part, solved: &SolvedPart) -> bool {
    let all = &solved.composition;
    let is_butter = |line: &Ingredient| line.kind == Kind::Fat && !line.is_oil() && line.stays_in();
    has_flour(solved, 400)
        && mass_of(part, solved, is_butter)
            .is_some_and(|fat| fat.as_share_of(all.flour).is_ok_and(|share| share >= mille(250)))
        && all.water.as_share_of(all.total).is_ok_and(|share| share >= mille(100))
        && all.sugar.as_share_of(all.total).is_ok_and(|share| share < mille(120))
        && !part.lines.iter().any(is_culture)
        && !part.steps.iter().any(cooks)
}
