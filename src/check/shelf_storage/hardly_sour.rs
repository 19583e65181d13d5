//! What is said to be kept by a pH at which it does not keep.

use super::CHECK;
use crate::check::{promise, statement};
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::text::diagnostic::Diagnostic;

/// Preserves, pickles and sauces that are kept for more than a day, and of which a `caution` states a pH over 4.6. Dough, cheese and sausage have their own.
pub(super) fn problem(recipe: &Recipe, id: PartId, part: &Part) -> Option<Diagnostic> {
    let is_other = |line: &Ingredient| {
        line.is_any_flour() || line.kind.is_flesh() || matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Leaven)
    };
    if part.lines.iter().any(is_other) {
        return None;
    }
    let kept = promise::kept(part).or_else(|| promise::on_label(recipe, id, part))?;
    if kept.time <= Duration::days(1) || kept.how.is_frozen() {
        return None;
    }
    // What its cautions say is read word by word.
    let (ph, span) = statement::states_high_ph(recipe, id, part)?;
    let message = format!(
        "`{}` is kept for {} and said to have a pH of {}: above 4.6 what makes botulism grows",
        part.name,
        show::duration(kept.time),
        ph.decimal(1)
    );
    Some(Diagnostic::advice(CHECK.name, span, message).help(
        "look whether a digit has slipped; make it sour by a tested recipe to a pH of 4.6 or below (21 CFR 114.3), or leave out what keeps nothing; local food \
         law goes before this",
    ))
}
