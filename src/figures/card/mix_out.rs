//! What goes into the bowl of a part, as it is printed.

use crate::make::weigh::{NOTICEABLE, Reading, ScaleUsed, Weighed};
use crate::measure::show;
use crate::model::recipe::{Part, PartId};

/// The printed masses of a part's final mix.
pub(super) struct MixOut {
    /// One for each line; `None` for what has no mass or is set aside.
    pub(super) lines: Vec<Option<Weighed>>,
    /// One for each preferment, in the order of [`crate::model::recipe::Recipe::preferments`].
    pub(super) preferments: Vec<(PartId, Reading)>,
    /// The sum of the printed masses.
    pub(super) total: Reading,
}

impl MixOut {
    /// Where rounding moved an ingredient noticeably, and what no scale of the kitchen shows. What goes in by the load is weighed by the
    /// load.
    pub(super) fn rounding(&self, part: &Part, load: Option<&MixOut>) -> Vec<String> {
        let mut notes = Vec::new();
        for (at, (line, weighed)) in part.lines.iter().zip(&self.lines).enumerate() {
            let of_a_load = load.and_then(|load| load.lines.get(at)).and_then(Option::as_ref);
            let Some(weighed) = of_a_load.or(weighed.as_ref()) else { continue };
            if weighed.scale == ScaleUsed::None {
                notes.push(format!("{}: finer than the kitchen's scale", line.name));
            } else if weighed.moved.value() > NOTICEABLE {
                notes.push(format!("{}: rounded by {}", line.name, show::percent(weighed.moved)));
            }
        }
        notes
    }
}
