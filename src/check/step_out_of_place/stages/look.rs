//! What the first look at a step tells, taken once for the whole table: most acts are then ruled out without asking.

use super::here::{Here, letter};
use crate::model::cooking::{bakes, chills, cooks_by_head};
use std::ops::BitOr;

/// What must be so of a step that is an act, as far as the first look tells: facts, and letters that its name may begin with.
#[derive(Clone, Copy)]
pub(super) struct Look {
    facts: u16,
    letters: u32,
}

const fn fact(number: u16) -> Look {
    Look { facts: 1 << number, letters: 0 }
}

/// Nothing is asked.
pub(super) const ANY: Look = Look { facts: 0, letters: 0 };
/// Hands do it.
pub(super) const HANDS: Look = fact(0);
/// Nobody is busy with it.
pub(super) const WAITS: Look = fact(1);
/// Somebody is.
pub(super) const BUSY: Look = fact(2);
/// It cooks by its head, and is no wait.
pub(super) const HEATS: Look = fact(3);
/// It bakes, and is no wait.
pub(super) const BAKES: Look = fact(4);
/// It stands in the cold.
pub(super) const COLD: Look = fact(5);
/// It does not.
pub(super) const NOT_COLD: Look = fact(6);
/// It takes something.
pub(super) const TAKES: Look = fact(7);
/// It takes nothing that goes into the mix.
pub(super) const TAKES_NOTHING: Look = fact(8);
/// Its part has something of which a dough is made.
pub(super) const OF_DOUGH: Look = fact(9);
/// Its part is raised.
pub(super) const RAISED: Look = fact(10);

/// Its name begins with one of some letters.
pub(super) const fn begins(letters: u32) -> Look {
    Look { facts: 0, letters }
}

impl Look {
    /// Both.
    pub(super) const fn and(self, other: Look) -> Look {
        Look { facts: self.facts | other.facts, letters: self.letters | other.letters }
    }

    /// All of some.
    pub(super) const fn all(looks: &[Look]) -> Look {
        let (mut all, mut rest) = (ANY, looks);
        while let Some((first, others)) = rest.split_first() {
            all = all.and(*first);
            rest = others;
        }
        all
    }

    /// What all steps of a part have in common.
    pub(super) fn at_part(here: Here<'_>) -> Look {
        OF_DOUGH.if_so(here.is_of_dough()) | RAISED.if_so(here.is_raised())
    }

    /// What a step shows, beside what all of its part do.
    pub(super) fn at(here: Here<'_>, part: Look) -> Look {
        let (waits, cold, takes) = (here.waits(), chills(here.step), here.takes());
        part | HANDS.if_so(here.hands())
            | if waits { WAITS } else { BUSY }
            | HEATS.if_so(!waits && cooks_by_head(here.step))
            | BAKES.if_so(!waits && bakes(here.step))
            | if cold { COLD } else { NOT_COLD }
            | if takes { TAKES } else { TAKES_NOTHING }
            | begins(letter(here.step.name.key.as_str()))
    }

    /// Whether what a step shows is what an act asks.
    #[inline]
    pub(super) fn may_be(self, act: Look) -> bool {
        self.facts & act.facts == act.facts && (act.letters == 0 || self.letters & act.letters != 0)
    }

    fn if_so(self, is_so: bool) -> Look {
        if is_so { self } else { ANY }
    }
}

impl BitOr for Look {
    type Output = Look;

    fn bitor(self, other: Look) -> Look {
        self.and(other)
    }
}
