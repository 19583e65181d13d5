//! What goes into the bowl of a part, as it is printed.

use crate::make::weigh::{Reading, Weighed};
use crate::model::recipe::PartId;

/// The printed masses of a part's final mix.
pub(super) struct MixOut {
    /// One for each line; `None` for what has no mass or is set aside.
    pub(super) lines: Vec<Option<Weighed>>,
    /// One for each preferment, in the order of [`crate::model::recipe::Recipe::preferments`].
    pub(super) preferments: Vec<(PartId, Reading)>,
    /// The sum of the printed masses.
    pub(super) total: Reading,
}
