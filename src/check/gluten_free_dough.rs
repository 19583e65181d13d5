//! Whether a dough is one without gluten: of flours and starches that have none. Common practice, no source.

use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};

/// Flours and starches without gluten, by the beginnings of words.
#[rustfmt::skip]
const FLOURS: &Beginnings = &Beginnings::of(&[
    "rice", "maize", "corn", "cornflour", "cornmeal", "polenta", "masa", "buckwheat", "sorghum", "jowar", "teff", "millet", "bajra", "tapioca", "potato", "cassava", "manioc",
    "chickpea", "gram flour", "besan", "quinoa", "amaranth", "oat", "almond", "coconut", "arrowroot", "chestnut", "lentil", "pea|", "soy", "lupin", "fonio", "tiger nut",
    "gluten-free", "gluten free", "free-from",
]);
/// What such a dough is made of.
pub(super) fn is_body(line: &Ingredient) -> bool {
    line.stays_in() && (line.is_any_flour() || line.kind == Kind::Starch)
}

/// Whether all flour and starch of a part is without gluten, and none comes in another part.
pub(super) fn is_gluten_free(part: &Part) -> bool {
    let mut body = part.lines.iter().filter(|line| is_body(line)).peekable();
    body.peek().is_some()
        && body.all(|line| line.name.has_word_beginning(FLOURS))
        && part.lines.iter().all(|line| line.part().is_none())
}
