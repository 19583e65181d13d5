//! Further acts that the table of stages asks: turns and what is locked in, cases and what fills them, what goes on when it is baked.

use super::acts::heats;
use super::here::{Here, verbs};
use crate::model::cooking::{beginnings, called, says};
use crate::model::kind::Kind;
use crate::model::step::{Loads, StepKind};

/// A turn of a dough with butter in it, by its name: it takes nothing.
pub(super) fn turns(here: Here<'_>) -> bool {
    let first = beginnings![
        "first fold",
        "first turn",
        "fold one",
        "turn one",
        "book fold",
        "letter fold",
        "single fold",
        "double fold"
    ];
    here.hands() && !here.takes() && called(here.step, first)
}

/// Butter that is laid into a dough: another part or a block of it is taken.
pub(super) fn locks_in(here: Here<'_>) -> bool {
    here.hands() && here.takes() && here.begins(verbs!["lock", "enclose", "laminate"])
}

/// An empty case in the oven.
pub(super) fn bakes_blind(here: Here<'_>) -> bool {
    heats(here) && called(here.step, beginnings!["blind"])
}

/// Tins that are lined with the pastry of another part.
pub(super) fn lines_tins(here: Here<'_>) -> bool {
    here.hands() && here.takes() && here.begins(verbs!["line"]) && here.taken().any(|line| line.part().is_some())
}

/// A case that is filled with what runs or is strewn in.
pub(super) fn fills_case(here: Here<'_>) -> bool {
    here.hands() && here.takes() && here.begins(verbs!["fill", "pour"]) && !here.before().any(heats)
}

/// Icing that goes on.
pub(super) fn ices(here: Here<'_>) -> bool {
    let is_icing = beginnings!["icing", "frosting"];
    here.hands()
        && here.begins(verbs!["ice", "frost", "glaze", "drizzle"])
        && here.taken().any(|line| line.name.has_word_beginning(is_icing))
        && !here.before().any(heats)
}

/// What is hung up when it is baked: a tall loaf that would fall.
pub(super) fn hangs(here: Here<'_>) -> bool {
    here.waits() && here.begins(verbs!["hang"]) && here.is_of_dough() && here.is_raised()
}

/// Pieces of a raised dough in the steam, a few at a time or all.
pub(super) fn steams_pieces(here: Here<'_>) -> bool {
    let by_piece = here.step.loads != Loads::Once || here.part.per_piece;
    heats(here) && here.begins(verbs!["steam"]) && by_piece && here.is_raised_deep()
}

/// Pieces that are closed over what fills them.
pub(super) fn closes_up(here: Here<'_>) -> bool {
    here.hands()
        && here.step.loads.is_by_piece()
        && here.taken().any(|line| line.part().is_some())
        && says(here.step, beginnings!["pleat", "pinch", "tuck", "corners", "gather"])
}

/// What stands until it is sour.
pub(super) fn turns_sour(here: Here<'_>) -> bool {
    here.waits() && here.begins(verbs!["ferment", "sour"]) && !here.is_raised()
}

/// What soaked and is ground to a batter.
pub(super) fn grinds(here: Here<'_>) -> bool {
    here.step.kind != StepKind::Wait && here.begins(verbs!["grind", "blend", "mill"])
}

/// A fold of which nothing is told but its sign.
pub(super) fn folds_all(here: Here<'_>) -> bool {
    here.hands() && !here.takes() && here.begins(verbs!["fold"]) && !here.is_raised()
}

/// Whites that a machine or hands whip.
pub(super) fn whips_white(here: Here<'_>) -> bool {
    here.hands()
        && here.begins(verbs!["whip", "whisk", "beat"])
        && here.taken().any(|line| line.kind == Kind::Egg && line.is_egg_white())
}
