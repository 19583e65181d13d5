//! What brings salt with it.

use super::dough::mille;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Refers};

/// Whether an ingredient brings salt, or may.
pub(super) fn is_salty(line: &Ingredient) -> bool {
    matches!(line.kind, Kind::Salt | Kind::Brine)
        || line
            .facts()
            .filter(|_| !line.kind.is_chemical_raising())
            .and_then(|facts| facts.contents.salt)
            .is_some_and(|salt| salt >= mille(8))
        || (line.kind == Kind::Other && line.refers == Refers::Pantry(None))
}
