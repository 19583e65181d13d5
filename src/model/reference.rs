//! Which part and which step: references, so that nothing is found by its name.

/// Which part of a recipe: an index into [`crate::model::recipe::Recipe::parts`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub usize);

/// Which step of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct StepRef {
    /// Its part.
    pub part: PartId,
    /// Its place among the steps of that part.
    pub step: usize,
}
