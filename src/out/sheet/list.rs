//! What stands on the sheets of a list, to be ticked off: one sheet for the shop and one for the scale.

use crate::figures::list::List;
use crate::out::block::{Group, Item};
use crate::out::list::{bins, shelves};

/// A sheet of things to tick.
pub(in crate::out) struct Ticked {
    /// What it is for: `Buy`.
    pub(in crate::out) name: &'static str,
    /// What stands over its names.
    pub(in crate::out) names: &'static str,
    /// What stands over its amounts.
    pub(in crate::out) amounts: &'static str,
    /// Whether it is for the scale: then a group is one thing, of which it is said how much there is in all.
    pub(in crate::out) is_weighed: bool,
    /// The things, group by group.
    pub(in crate::out) groups: Vec<Group>,
}

impl Ticked {
    /// Both sheets of a list.
    pub(in crate::out) fn of(list: &List) -> [Ticked; 2] {
        [
            Ticked { name: "Buy", names: "what to buy", amounts: "how much", is_weighed: false, groups: shelves(list) },
            Ticked { name: "Weigh out", names: "for", amounts: "weigh", is_weighed: true, groups: bins(list) },
        ]
    }

    /// What a box says to those who have it read out.
    pub(in crate::out) fn label(&self, group: &Group, item: &Item) -> String {
        if self.is_weighed {
            format!("{} for {}, weighed", group.name, item.name)
        } else {
            format!("{}, bought", item.name)
        }
    }
}
