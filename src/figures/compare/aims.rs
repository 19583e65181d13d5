//! Aims that a version misses or meets and the other did not.

use super::Version;
use crate::aims::{Held, Verdict, held, shown, shown_aim};
use crate::measure::shown::Shown;

/// An aim that is newly missed, or newly met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AimChange {
    /// The part; `None` for the whole.
    pub part: Option<String>,
    /// The figure.
    pub figure: String,
    /// What is aimed at, with what it is counted on: `66 % to 68 % of flour`.
    pub aim: String,
    /// Whether it is met now; else it is missed now.
    pub is_met: bool,
    /// The figure before; empty where there was none.
    pub old: Shown,
    /// The figure now.
    pub new: Shown,
    /// The options under which alone this holds; empty for all.
    pub only: String,
}

/// The name of an aim in any version: whose, which figure, and what is aimed at.
fn key(version: Version<'_>, held: &Held<'_>) -> (Option<String>, String, String) {
    let part = version.recipe.part(held.place.part).filter(|_| !held.place.whole).map(|part| part.name.to_string());
    let aim = format!("{}{}", shown_aim(held.aim), held.of_words());
    (part, held.aim.figure.word().to_owned(), aim)
}

fn figure(held: &Held<'_>) -> Shown {
    let value = held.reading.as_ref().and_then(|reading| reading.value().ok());
    value.map(|value| Shown::words(shown(&held.aim.unit, value))).unwrap_or_default()
}

/// The aims that changed from met to missed or back; of a new aim that it is missed.
pub(super) fn changes(old: Version<'_>, new: Version<'_>) -> Vec<AimChange> {
    if new.recipe.aims.is_empty() && new.recipe.parts.iter().all(|part| part.aims.is_empty()) {
        return Vec::new();
    }
    let before = held(old.recipe, old.formula);
    let mut found = Vec::new();
    for now in held(new.recipe, new.formula) {
        let named = key(new, &now);
        let was = before.iter().find(|one| key(old, one) == named);
        // The same figure with other bounds tells what it was all the same.
        let same =
            before.iter().find(|one| one.place == now.place && one.aim.figure == now.aim.figure && one.of == now.of);
        let is_met = match (was.map(|was| &was.verdict), &now.verdict) {
            (Some(Verdict::Missed), Verdict::Met) => true,
            (None | Some(Verdict::Met | Verdict::Open), Verdict::Missed) => false,
            _ => continue,
        };
        let (part, name, aim) = named;
        let old = was.or(same).map(figure).unwrap_or_default();
        found.push(AimChange { part, figure: name, aim, is_met, old, new: figure(&now), only: String::new() });
    }
    found
}
