//! Worms in fish that is eaten raw: whether something says that they are dead.

use crate::check::statement;
use crate::model::cold::is_freezer;
use crate::model::cooking::{beginnings, called, has_word_beginning};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// Fish that no law wants frozen: large tuna, eggs of fish, and what lives in shells (FDA Food Code 3-402.11(B); Regulation (EC) 853/2004, Annex III, Section
/// VIII, Chapter III D; both from memory).
const NONE: [&str; 24] = [
    "tuna",
    "roe",
    "caviar",
    "oyster",
    "clam",
    "mussel",
    "scallop",
    "cockle",
    "prawn",
    "shrimp",
    "crab",
    "lobster",
    "langoustine",
    "crayfish",
    "urchin",
    "whelk",
    "winkle",
    "farmed",
    "frozen",
    "seaweed",
    "sauce",
    "paste",
    "stock",
    "gelatin",
];

/// Whether worms may live in what a line is.
pub(super) fn may_live_in(line: &Ingredient) -> bool {
    line.kind == Kind::Fish && !has_word_beginning(line.name.key.as_str(), NONE)
}

/// Whether a line or a step of its part says that fish was frozen so that they died.
pub(super) fn is_frozen(part: &Part, line: &Ingredient) -> bool {
    let said = line.preparation.as_deref().is_some_and(statement::is_frozen_through);
    said || part.steps.iter().any(freezes_through)
}

fn freezes_through(step: &Step) -> bool {
    let coldest = step.temperature.map(|(low, _)| low);
    let freezes = called(step, beginnings!["freez"]) || coldest.is_some_and(is_freezer);
    step.kind == StepKind::Wait && freezes && statement::kills_worms(coldest, Some(step.time.0))
}

/// That nothing says so.
pub(super) fn problem(check: &'static str, line: &Ingredient) -> Diagnostic {
    let message =
        format!("`{}` is eaten raw, and nothing says that it was frozen long enough: worms in it live", line.name);
    Diagnostic::advice(check, line.name.span, message).help(
        "take fish that was frozen through at -20 °C for 24 hours (7 days in the United States), or farmed fish, and say so behind its amount or in a `caution`; \
         local food law goes before this",
    )
}
