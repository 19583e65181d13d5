//! `bath-stays-in`: a bath in which something is dipped, boiled or fried, counted as if it were eaten.

use super::dough::{lists_flour, mille};
use super::{Check, Family, Run, Subject, tell};
use crate::measure::quantity::Mass;
use crate::model::cooking::{Beginnings, beginnings, has_word_beginning, some_says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, Target, Words};
use crate::solve::formula::SolvedPart;
use crate::text::clauses::last_clause;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "bath-stays-in",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "lye, water or fat in which a dough is dipped, boiled or fried, weighed as if all of it stayed in what is made; lye in a dough itself; a brine out of which meat, fish or vegetables come; and dried pulses, rice and pasta that soak or boil in water of which all is said to come out",
    why: "Two litres of lye bath weigh as much as thirty pretzels: left in, they stand in the list of ingredients, in the weight of a piece and in its \
          figures. What comes out again is `strained out`: it is listed for what it leaves behind, and weighs nothing. Fat for frying is \
          `aside`, and what a piece takes up of it is an ingredient of its own: weigh the fat before and after. Less than a quarter of the dough is no bath. \
          Lye that is mixed into a dough is eaten, and burns. What is dry takes up its own weight of water and more: that water stays in, and weights, figures and labels want it as a line of its own.",
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
    for (_, part, solved) in subject.own_parts() {
        tell(diagnostics, super::drinks_its_bath::problem(part, solved, CHECK.name));
        tell(diagnostics, super::brine_stays_in::problem(part, solved, CHECK.name));
        // Without a dough beside it nothing is a bath for one.
        if !part.lines.iter().any(|line| line.kind == Kind::Lye || holds_dough(recipe, line)) {
            continue;
        }
        for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| line.stays_in()) {
            let is_fat = line.kind == Kind::Fat;
            if is_lye_in_dough(part, solved, line) {
                let message = format!("`{}` goes into a dough and is eaten: lye burns mouth and throat", line.name);
                diagnostics.push(Diagnostic::error(CHECK.name, line.name.span, message).help(
                    "look whether salt or soda is meant; a bath is a part of its own, and `strained out` or `aside` where something is dipped in it",
                ));
                continue;
            }
            let kettle = line.part().filter(|id| is_kettle(subject.formula.part(*id)));
            if !is_lye_bath(recipe, part, line) && !is_bath(recipe, part, solved, (at, kettle.is_some())) {
                continue;
            }
            let clause = if is_fat { "aside" } else { "strained out" };
            let message = format!(
                "`{}` counts as eaten: all of it stands in the weight, the figures and the list of ingredients",
                line.name
            );
            let help = match is_fat {
                true => "write `, aside` behind it, and what a piece takes up as an ingredient of its own",
                false => "write `, strained out` behind it: it comes out again",
            };
            diagnostics.push(Diagnostic::warning(CHECK.name, line.name.span, message).help(help).suggest(
                format!("write `, {clause}` behind it"),
                line.amount_span.after(),
                format!(", {clause}"),
            ));
        }
    }
}

/// Whether a line is a part that is lye in water, and a dough or its pieces stand beside it.
fn is_lye_bath(recipe: &Recipe, part: &Part, line: &Ingredient) -> bool {
    let Some(bath) = line.part().and_then(|id| recipe.part(id)) else { return false };
    let has_lye = bath.lines.iter().any(|line| line.kind == Kind::Lye);
    has_lye && !lists_flour(bath) && part.lines.iter().any(|other| holds_dough(recipe, other))
}

/// Less lye on the flour than this is a trace of it. Common practice, no source.
const A_TRACE: i64 = 2;

/// Whether a line is lye that goes into a dough. The lye water of noodles and moon cakes is potash, and of another strength.
fn is_lye_in_dough(part: &Part, solved: &SolvedPart, line: &Ingredient) -> bool {
    let is_it = line.kind == Kind::Lye
        && line.part().is_none()
        && !has_word_beginning(line.name.key.as_str(), ["lye water", "lye solution", "alkaline"]);
    let lines = || part.lines.iter().zip(&solved.lines);
    let lye = Mass::sum(lines().filter(|(other, _)| other.name.same(&line.name)).filter_map(|(_, amount)| amount.mass));
    let share = || lye.and_then(|lye| lye.as_share_of(super::dough::all_flour(solved)));
    is_it && lists_flour(part) && share().is_ok_and(|share| share >= mille(A_TRACE))
}

/// What a bath is at least of the dough that goes through it, in thousandths: a doughnut takes up a tenth and more of fat, and a pull-apart
/// loaf is dipped in as much butter. Common practice, no source.
const LEAST: i64 = 250;
/// From here on nobody adds so much to a dough that was boiled.
const MUCH: i64 = 1000;

/// Whether what another part makes is hardly more than water: a kettle with malt or soda in it. Syrup is more.
fn is_kettle(made: Option<&SolvedPart>) -> bool {
    made.is_some_and(|made| {
        let all = &made.composition;
        all.flour == Mass::ZERO && all.water.as_share_of(all.total).is_ok_and(|share| share >= mille(850))
    })
}

/// Whether a step boils, dips or fries a dough in a line: water, a kettle of it, or fat, by weight.
fn is_bath(recipe: &Recipe, part: &Part, solved: &SolvedPart, (at, is_kettle): (usize, bool)) -> bool {
    let is_liquid =
        part.lines.get(at).is_some_and(|line| matches!(line.kind, Kind::Water | Kind::Fat) && line.part().is_none());
    if !is_liquid && !is_kettle {
        return false;
    }
    let lines = || part.lines.iter().zip(&solved.lines);
    let dough = Mass::sum(lines().filter(|(line, _)| holds_dough(recipe, line)).filter_map(|(_, amount)| amount.mass));
    let bath = solved.lines.get(at).and_then(|amount| amount.mass);
    let Some(share) = bath.zip(dough.ok()).and_then(|(bath, dough)| bath.as_share_of(dough).ok()) else { return false };
    // Soup stays in: what else is in the pot is eaten with it.
    let is_soup = || {
        part.lines.iter().any(|line| {
            line.stays_in()
                && (line.kind.is_flesh() || matches!(line.kind, Kind::Vegetable | Kind::Pulse | Kind::Grain))
        })
    };
    // So much fat of all that is fried is what it takes up: breaded meat a tenth, of which the bread is little. Common practice, no source.
    let taken_up = || {
        let is_fat = part.lines.get(at).is_some_and(|line| line.kind == Kind::Fat);
        let of_all = bath.zip(solved.goes_in).and_then(|(bath, all)| bath.as_share_of(all).ok());
        is_fat
            && of_all.is_some_and(|share| share <= mille(120))
            && part.lines.iter().any(|line| holds_flesh(recipe, line))
    };
    // What is boiled until it is thick is a porridge, and nothing comes out of it.
    let thickens = || some_says(part, beginnings!["thick", "paste|", "porridge", "gel|", "leaves the pan"]);
    let into = || {
        part.steps.iter().any(|step| takes_dough_in(recipe, part, step, at))
            || goes_into_it(recipe, part, at, share >= mille(MUCH))
    };
    share >= mille(LEAST) && into() && !is_soup() && !thickens() && !taken_up()
}

/// Whether a line is flesh, or a part in which some lies.
fn holds_flesh(recipe: &Recipe, line: &Ingredient) -> bool {
    let made = line.part().and_then(|id| recipe.part(id));
    line.kind.is_flesh() || made.is_some_and(|made| made.lines.iter().any(|line| line.kind.is_flesh()))
}

/// Beginnings of verbs by which something goes into what is hot there already.
const DROPS: &[&str] =
    &["drop", "lower", "slide", "slip", "ease", "put", "lay", "boil", "poach", "blanch", "fry", "dip"];

/// Whether a dough goes into a liquid that was taken before: `Bring {water} to the boil. Drop {dough} into it.`
fn goes_into_it(recipe: &Recipe, part: &Part, at: usize, is_much: bool) -> bool {
    let mut is_there = false;
    for step in &part.steps {
        let mut before = "";
        for (place, word) in step.words.iter().enumerate() {
            match word {
                Words::Text(text) => before = text,
                Words::Use { target: Some(Target::Line(found)), .. } => {
                    let is_put = is_there && part.lines.get(*found).is_some_and(|line| holds_dough(recipe, line));
                    let last = last_clause(before).to_lowercase();
                    let behind = match step.words.get(place + 1) {
                        Some(Words::Text(text)) => text.trim_start().to_lowercase(),
                        _ => String::new(),
                    };
                    let in_it =
                        ["in it", "into it", "in the ", "into the "].iter().any(|words| behind.starts_with(words));
                    let boils = || is_much && has_word_beginning(&last, ["boil", "poach", "blanch", "fry"]);
                    if is_put && (in_it && has_word_beginning(&last, DROPS) || boils()) {
                        return true;
                    }
                    is_there |= *found == at;
                    before = "";
                }
                Words::Use { .. } | Words::Measure(_) => before = "",
            }
        }
    }
    false
}

/// Beginnings of verbs that put something into a bath.
const BATHES: &Beginnings =
    &Beginnings::of(&["boil", "poach", "blanch", "dip", "simmer", "fry", "fried", "deep", "scald"]);

fn takes_dough_in(recipe: &Recipe, part: &Part, step: &Step, at: usize) -> bool {
    let mut has_dough = false;
    let mut verbs = step.name.has_word_beginning(BATHES);
    let mut before = "";
    for word in &step.words {
        match word {
            Words::Text(text) => {
                verbs |= has_word_beginning(&text.to_lowercase(), BATHES);
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
    line.part().and_then(|id| recipe.part(id)).is_some_and(lists_flour)
}
