//! `step-out-of-place`: steps in an order in which no dough is made.

use super::{Check, Family, Run, Subject, tell};
use crate::model::cooking::{Beginnings, steps_called};
use crate::model::recipe::{Part, Recipe};
use crate::model::step::{Step, Words};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use around_the_heat::{
    after_the_bake, cools_before_the_bake, held_before_cooked, laid_out_after_the_bake, last_bake,
    pieces_baked_before_cut, served_before_cooked,
};
use by_hand::{cut_before_rolled, divided_before_made, rest_before_share, trimmed_after_taken};
use follows::above_what_it_follows;
use rests::{
    chilled_before_cooled, cools_what_is_cold, proved_before_shaped, rested_before, second_before_first, two_rises,
    waits_for_nothing,
};

mod around_the_heat;
mod by_hand;
mod follows;
mod rests;
mod stages;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "step-out-of-place",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a dough that rises before it is mixed, is shaped after it was baked, or is proved before it is shaped; the rest of \
                something that is taken before the first of it",
    why: "A step follows the one above it, on the card and in the plan. What was moved to the wrong place by an editor's key is \
          done there. Looked at: a wait before anything was taken; mixing, rising, shaping and proving after the last bake; a \
          prove before the shaping and none after it; two rises or rests with nothing between them; cooling after a chill; a second \
          rest above the first; an autolyse after the mix; a bench \
          rest before anything was cut; cooling before anything was hot, or right before the only bake; serving, and holding hot, before the \
          cooking; laying on trays and into tins, and cutting what was baked by the piece, after the last bake; cutting out before rolling out; what is done to each piece above the step that takes the flour; peeling and trimming what was taken already; a step that is written \
          above the one it comes after; a bake or a fry above the step that takes what is baked; filling and sugaring pieces above the step that cooks them; and `{rest of x}` above the step that takes the first of x. One table says what each act presupposes: bagels are boiled before \
          they bake, a paste is piped and a dough rolled out before the heat, leaven is in before a rise, pieces come after the bulk, an ice cream is \
          churned cold and hard after that, jars are filled when their jam is cooked, cream goes on what has cooled, white is whisked before it is folded in. Steps that say their own \
          order are left alone but where they are written on the wrong side of the step that they name.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nrise: wait 1 h\nmix: hands 10 min\n    Mix {flour} and {water}.\n    \
          until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           rise: wait 1 h\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

const MIXES: &Beginnings = &Beginnings::of(&["mix", "knead"]);
const SHAPES: &Beginnings = &Beginnings::of(&["shape", "shaping", "mould", "plait", "braid"]);
const CUTS: &Beginnings =
    &Beginnings::of(&["cut", "divide", "scale", "round", "preshape", "pre-shape", "weigh", "portion", "shape", "ball"]);
const COOLS: &Beginnings = &Beginnings::of(&["cool", "cooling"]);

/// With these a step is done with what was baked.
const OUT_OF_THE_OVEN: &Beginnings =
    &Beginnings::of(&["cool", "warm", "cold", "cream", "jam|", "jams|", "syrup", "serve", "store"]);

/// A part whose steps are looked at.
#[derive(Clone, Copy)]
struct Order<'a> {
    recipe: &'a Recipe,
    part: &'a Part,
    /// The last step in an oven, where no heat comes after it.
    baked: Option<(usize, &'a Step)>,
}

/// What two steps may have the wrong way round.
type Rule = fn(Order<'_>) -> Option<Diagnostic>;

/// One step in the wrong place breaks several of these; the first says enough.
const RULES: &[Rule] = &[
    after_the_bake,
    proved_before_shaped,
    two_rises,
    chilled_before_cooled,
    second_before_first,
    rested_before,
    cools_what_is_cold,
    served_before_cooked,
    laid_out_after_the_bake,
    cools_before_the_bake,
    trimmed_after_taken,
    cut_before_rolled,
    divided_before_made,
    pieces_baked_before_cut,
    held_before_cooked,
    |order| super::heated_empty::problem(order.recipe, CHECK.name, order.part),
    |order| stages::before_its_time(order.recipe, order.part),
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let order = Order { recipe: subject.recipe, part, baked: last_bake(part) };
        let first = waits_for_nothing(subject.recipe, id, part);
        // A second one is told where it speaks of other steps.
        let speaks_of = |problem: &Diagnostic, span: Span| {
            problem.span == span || problem.also.iter().any(|also| also.span == span)
        };
        let is_other = |problem: &Diagnostic| first.as_ref().is_none_or(|first| !speaks_of(problem, first.span));
        let problem = RULES.iter().find_map(|rule| rule(order)).filter(is_other);
        tell(diagnostics, first);
        tell(diagnostics, problem);
        tell(diagnostics, above_what_it_follows(id, part).or_else(|| stages::below_what_it_precedes(id, part)));
        tell(diagnostics, rest_before_share(part));
    }
}

/// Steps that are done where they stand.
fn in_place(part: &Part) -> impl Iterator<Item = (usize, &Step)> {
    part.steps.iter().enumerate().filter(|(_, step)| step.order.is_empty())
}

/// Those of them that are called this.
fn called_in_place<'p>(
    part: &'p Part,
    names: &'static Beginnings,
) -> impl DoubleEndedIterator<Item = (usize, &'p Step)> {
    steps_called(part, names).filter(|(_, step)| step.order.is_empty())
}

fn takes(step: &Step) -> bool {
    step.words.iter().any(|word| matches!(word, Words::Use { .. }))
}

fn problem(step: &Step, other: &Step, message: String, label: &str, help: &str) -> Diagnostic {
    Diagnostic::warning(CHECK.name, step.name.span, message).also(other.name.span, label.to_owned()).help(help)
}
