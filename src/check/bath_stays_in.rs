//! `bath-stays-in`: a bath in which something is dipped, boiled or fried, counted as if it were eaten.

use crate::model::lowered::Beginnings;
use super::{Check, Family, Run, Subject};
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, Target, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "bath-stays-in",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "lye, water or fat in which a dough is dipped, boiled or fried, weighed as if all of it stayed in what is made",
    why: "Two litres of lye bath weigh as much as thirty pretzels: left in, they stand in the list of ingredients, in the weight of a piece and in its \
          figures. What comes out again is `strained out`: it is listed for what it leaves behind, and weighs nothing. Fat for frying is \
          `aside`, and what a piece takes up of it is an ingredient of its own: weigh the fat before and after.",
    bad: "recipe Pretzels\nmakes 10 pretzels\n\npart dough\nstrong white flour .... 600 g\nwater .... 310 g\nsalt .... 12 g\nfresh yeast .... 12 g\n\
mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\nprove: wait 45 min, at 24 C\n\npart lye bath\n\
water .... 1 kg\nfood-grade lye .... 40 g\ncaution Goggles and gloves: lye burns.\ndissolve: hands 5 min\n    Strew {food-grade lye} into {water}.\n    until clear\n\n\
part pretzels\ndough .... all\nlye bath .... all\ndip: hands 10 min\n    Dip {dough} in {lye bath}.\nbake: tend 15 min, using oven at 225 C\n    until mahogany\n",
    good: "recipe Pretzels\nmakes 10 pretzels\n\npart dough\nstrong white flour .... 600 g\nwater .... 310 g\nsalt .... 12 g\nfresh yeast .... 12 g\n\
mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\nprove: wait 45 min, at 24 C\n\npart lye bath\n\
water .... 1 kg\nfood-grade lye .... 40 g\ncaution Goggles and gloves: lye burns.\ndissolve: hands 5 min\n    Strew {food-grade lye} into {water}.\n    until clear\n\n\
part pretzels\ndough .... all\nlye bath .... all, strained out\ndip: hands 10 min\n    Dip {dough} in {lye bath}.\nbake: tend 15 min, using oven at 225 C\n    until mahogany\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    for (_, part, _) in subject.own_parts() {
        // Without a dough beside it nothing is a bath for one.
        if !part.lines.iter().any(|line| holds_dough(recipe, line)) {
            continue;
        }
        for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| line.stays_in()) {
            let is_fat = line.kind == Kind::Fat;
            if !is_lye_bath(recipe, part, line) && !is_bath(recipe, part, at) {
                continue;
            }
            let clause = if is_fat { "aside" } else { "strained out" };
            let message = format!("`{}` counts as eaten: all of it stands in the weight, the figures and the list of ingredients", line.name);
            let help = match is_fat {
                true => "write `, aside` behind it, and what a piece takes up as an ingredient of its own",
                false => "write `, strained out` behind it: it comes out again",
            };
            diagnostics.push(
                Diagnostic::warning(CHECK.name, line.name.span, message).help(help).suggest(
                    format!("write `, {clause}` behind it"),
                    line.amount_span.after(),
                    format!(", {clause}"),
                ),
            );
        }
    }
}

/// Whether a line is a part that is lye in water, and a dough or its pieces stand beside it.
fn is_lye_bath(recipe: &Recipe, part: &Part, line: &Ingredient) -> bool {
    let Some(bath) = line.part().and_then(|id| recipe.part(id)) else { return false };
    let has_lye = bath.lines.iter().any(|line| line.kind == Kind::Lye);
    has_lye && !is_dough(bath) && part.lines.iter().any(|other| holds_dough(recipe, other))
}

/// Whether a step boils, dips or fries a dough `in` a line: water or fat, by weight.
fn is_bath(recipe: &Recipe, part: &Part, at: usize) -> bool {
    let is_liquid = part.lines.get(at).is_some_and(|line| matches!(line.kind, Kind::Water | Kind::Fat) && line.part().is_none());
    is_liquid && part.steps.iter().any(|step| takes_dough_in(recipe, part, step, at))
}

/// Beginnings of verbs that put something into a bath.
const BATHES: &Beginnings = &Beginnings::of(&["boil", "poach", "blanch", "dip", "simmer", "fry", "fried", "deep", "scald"]);

fn takes_dough_in(recipe: &Recipe, part: &Part, step: &Step, at: usize) -> bool {
    let mut has_dough = false;
    let mut verbs = step.name.has_word(BATHES);
    let mut before = "";
    for word in &step.words {
        match word {
            Words::Text(text) => {
                verbs |= has_word(&text.to_lowercase(), BATHES);
                before = text;
            }
            Words::Use { target: Some(Target::Line(found)), .. } => {
                if *found == at && has_dough && verbs && ends_in_in(before) {
                    return true;
                }
                has_dough |= part.lines.get(*found).is_some_and(|line| holds_dough(recipe, line));
                before = "";
            }
            Words::Use { .. } | Words::Measure(_) => before = "",
        }
    }
    false
}

/// `in`, also of what is said to be hot: `in simmering`.
fn ends_in_in(text: &str) -> bool {
    let mut words = text.split_whitespace().rev();
    match words.next() {
        Some("in") => true,
        Some("boiling" | "simmering" | "hot" | "deep" | "the") => words.next() == Some("in"),
        _ => false,
    }
}

/// Whether a line is a dough, or pieces of one.
fn holds_dough(recipe: &Recipe, line: &Ingredient) -> bool {
    line.part().and_then(|id| recipe.part(id)).is_some_and(is_dough)
}

fn is_dough(part: &Part) -> bool {
    part.lines.iter().any(|line| line.is_flour && line.stays_in())
}
