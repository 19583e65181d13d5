//! `raw-flour-or-egg`: raw flour or egg that is eaten without being cooked.

use super::dough::{mass_of, mille};
use super::from_elsewhere::told_where_it_comes_in;
use super::statement::{self, RAW_FLOUR_OR_EGG};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::told::tells_to;
use crate::model::cooking::{
    Later, beginnings, called, chills, cooks, first_draws, has_word_beginning, hottest, says, words_of,
};
use crate::model::flow::reached;
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::denied::is_denied;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_with_hyphens;
use std::cell::LazyCell;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "raw-flour-or-egg",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "raw flour or raw egg that goes into something after the last cooking, or into something that is never cooked; dried pulses, rice, pasta, hulled grain and potatoes that no step heats in what is eaten by the piece or the portion",
    why: "Flour is not treated to kill germs; raw flour made dozens of people ill in 2016 and 2019. Raw eggs may carry \
          Salmonella. Use pasteurised egg, cook the custard, dust with sugar or starch that is ready to eat, or carry a \
          `caution` line that names it. Doughs that are baked later are left alone. This is general advice: local food \
          law and licensed practice go before it.",
    bad: "recipe Lemon mousse\nmakes 8 glasses\negg .... 200 g\nsugar .... 80 g\nlemon juice .... 60 g\nbeat: hands 10 min\n    \
          Beat {egg} with {sugar} and {lemon juice}.\n    until thick\nset: wait 4 h, at 4 C\n    until firm\n",
    good: "recipe Lemon mousse\nmakes 8 glasses\npasteurised egg .... 200 g\nsugar .... 80 g\nlemon juice .... 60 g\nbeat: hands 10 min\n    \
           Beat {pasteurised egg} with {sugar} and {lemon juice}.\n    until thick\nset: wait 4 h, at 4 C\n    until firm\n",
    sources: &[
        "FDA and CDC on raw flour, as reported in 2016 and 2019; University of Wisconsin-Madison Extension, Bake before you bite, 2021",
        "Safe Recipe Style Guide, Partnership for Food Safety Education, 2019",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let mut later = Later::of(recipe);
    diagnostics.extend(super::never_cooked::problems(subject, &mut later, is_sold_to_be_cooked(recipe), CHECK.name));
    // Asked of every raw line, and the same for all of them.
    let cooked_somewhere = LazyCell::new(|| recipe.parts().any(|(_, part)| part.steps.iter().any(cooks)));
    let mut look = |(id, part, solved): (PartId, &Part, &SolvedPart), diagnostics: &mut Vec<Diagnostic>| {
        let draws = first_draws(part);
        for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| may_be_raw(line)) {
            let Some(step) = draws.get(&Target::Line(at)).copied() else { continue };
            // Most of it is cooked, so that its words are not looked at.
            if later.is_line_cooked(id, step, at) != Some(false) {
                continue;
            }
            let Some(raw) = raw(line) else { continue };
            let is_in_bath = || part.steps.get(step).is_some_and(is_heated_in_its_bath);
            if raw == "egg" && (takes_boiling_syrup(part, solved, (at, step)) || is_in_bath()) {
                continue;
            }
            if !(*cooked_somewhere || is_eaten(recipe, id, part, raw) || is_set_in_cream(recipe, (part, solved))) {
                continue;
            }
            let is_said =
                || is_sold_to_be_cooked(recipe) || statement::states_of((recipe, part), RAW_FLOUR_OR_EGG, Some(line));
            if is_said() {
                continue;
            }
            let name = part.steps.get(step).map_or("", |step| &step.name.text);
            let message = format!("`{}` is raw {raw}, and nothing cooks it after `{name}`", line.name);
            diagnostics.push(Diagnostic::advice(CHECK.name, line.name.span, message).help(format!(
                "cook it, use {}, or add a `caution` line that says it is raw; where who buys it cooks it, say how with `directions`; local food \
                 law goes before this",
                if raw == "egg" { "pasteurised egg" } else { "something that is ready to eat" }
            )));
        }
    };
    for each in subject.own_parts() {
        look(each, diagnostics);
    }
    told_where_it_comes_in(subject, diagnostics, look);
}

/// At this egg is safe at once (FDA Food Code 3-401.11, from memory: 70 °C).
const AT_ONCE: Number = Number::whole(71);
/// Joules that a gram of sugar boiled so far, and of egg, holds for each degree.
const OF_SUGAR: Number = Number::constant(23, 10);
const OF_EGG: Number = Number::constant(38, 10);
/// Egg as it goes in, °C.
const AS_IT_IS: Number = Number::whole(20);

/// Whether the words of a step heat what it takes over water until it is safe: `over a bain-marie to {71 C}`.
fn is_heated_in_its_bath(step: &Step) -> bool {
    let bath = beginnings!["bain", "double boiler", "over hot water", "simmering water", "over steam", "water bath"];
    says(step, bath) && hottest(step).is_some_and(|hottest| hottest.celsius() >= AT_ONCE)
}

/// Whether the words of a step pour something boiling onto what is whisked in it: `Whisk {egg white}; pour in the syrup`. What is poured into
/// pots, and a syrup that is cold, is neither.
fn pours_onto(step: &Step) -> bool {
    let words = words_of(step);
    let is_cold = ["cold", "cooled", "cool", "lukewarm", "warm"].iter().any(|state| {
        ["syrup", "sugar", "honey", "caramel"].iter().any(|sweet| words.contains(&format!("{state} {sweet}")))
    });
    let goes_in = ["pour in ", "pour on ", "pours in ", "stream", "trickle"].iter().any(|said| words.contains(said));
    let is_syrup = ["syrup", "honey", "sugar"].iter().any(|sweet| words.contains(sweet))
        && ["pour the", "pour hot", "pour boiling", "add the", "beat in the", "whisk in the"]
            .iter()
            .any(|said| words.contains(said));
    says(step, beginnings!["whisk", "beat", "whip"]) && (goes_in || is_syrup) && !is_cold
}

/// Whether sugar that was boiled right before goes onto the egg of a line and is hot and much enough to cook it: nougat, Italian meringue.
fn takes_boiling_syrup(part: &Part, solved: &SolvedPart, (line, at): (usize, usize)) -> bool {
    let found = || {
        let draws = first_draws(part);
        let pours = part.steps.get(at)?;
        let egg = solved.lines.get(line)?.mass?.value().times(OF_EGG).ok()?;
        let (mut holds, mut brings) = (egg, egg.times(AS_IT_IS).ok()?);
        for (number, sweet) in part.lines.iter().enumerate().filter(|(_, line)| line.kind.is_sweet()) {
            let Some(first) = draws.get(&Target::Line(number)).copied().filter(|first| *first < at) else { continue };
            // What stood or cooled since is not so hot any more.
            let stood = |step: &Step| {
                step.kind == StepKind::Wait || chills(step) || called(step, beginnings!["cool", "set", "rest", "stand"])
            };
            if part.steps.iter().take(at).skip(first + 1).any(stood) {
                continue;
            }
            let Some(hottest) = part.steps.get(first).and_then(hottest) else { continue };
            let mass = solved.lines.get(number)?.mass?.value().times(OF_SUGAR).ok()?;
            if sweet.stays_in() && hottest.celsius() >= Number::whole(100) {
                holds = holds.plus(mass).ok()?;
                brings = brings.plus(mass.times(hottest.celsius()).ok()?).ok()?;
            }
        }
        Some(pours_onto(pours) && brings.over(holds).ok()? >= AT_ONCE)
    };
    found().unwrap_or(false)
}

/// `flour` or `egg`, when a line is one of them and raw.
pub(crate) fn raw(line: &Ingredient) -> Option<&'static str> {
    if !may_be_raw(line) {
        return None;
    }
    if is_so(line, State::SafeFlourOrEgg) || line.facts().is_some_and(|facts| facts.flags.ready_to_eat) {
        return None;
    }
    Some(if is_egg(line) { "egg" } else { "flour" })
}

/// Whether the name or the label of a recipe says that it is eaten as it is: `edible biscuit dough`, `directions Eat with a spoon.`
pub(crate) fn is_sold_as_it_is(recipe: &Recipe) -> bool {
    let title = format!("{} {}", recipe.name, recipe.sale.sold_as.as_deref().unwrap_or_default()).to_lowercase();
    let words: Vec<&str> = words_with_hyphens(&title).collect();
    // Edible flowers lie on many things.
    let is_laid_on = |next: Option<&&str>| {
        next.is_some_and(|next| {
            has_word_beginning(next, ["flower", "glitter", "gold", "silver", "petal", "leaf", "leaves"])
        })
    };
    let edible = words.iter().enumerate().any(|(at, word)| *word == "edible" && !is_laid_on(words.get(at + 1)));
    let named = edible || has_word_beginning(&title, ["no-bake", "unbaked", "ready to eat", "ready-to-eat"]);
    match recipe.sale.directions.as_deref().map(str::to_lowercase) {
        // Who buys it bakes it, whatever it is called.
        Some(said) if tells_to_heat(&said) => false,
        Some(said) => named || is_eaten_as_said(&said),
        None => named,
    }
}

/// Whether who buys it is told to cook it.
fn is_sold_to_be_cooked(recipe: &Recipe) -> bool {
    recipe.sale.directions.as_deref().is_some_and(|said| tells_to_heat(&said.to_lowercase()))
}

/// Whether directions tell to heat it, or to put it into an oven.
fn tells_to_heat(directions: &str) -> bool {
    let words: Vec<&str> = words_with_hyphens(directions).collect();
    let has_oven =
        || words.iter().enumerate().any(|(at, word)| *word == "oven" && !is_denied(&words, at, 3, &["instead"]));
    statement::tells_to_cook(directions) || tells_to(directions, beginnings!["heat", "microwav"]) || has_oven()
}

/// Whether directions say to eat it, and nothing of heat.
pub(crate) fn is_eaten_as_said(directions: &str) -> bool {
    has_word_beginning(directions, ["eat", "serve", "enjoy", "spoon", "straight", "as it is", "as they are"])
        && !tells_to_heat(directions)
}

fn is_egg(line: &Ingredient) -> bool {
    line.kind == Kind::Egg || line.facts().is_some_and(|facts| facts.flags.raw_egg)
}

/// Whether it is flour or egg, made safe or not. Sweets are dusted with starch everywhere, and it is no flour; common practice, no source.
fn may_be_raw(line: &Ingredient) -> bool {
    let dusts = line.aside && line.kind == Kind::Starch;
    is_egg(line) || !dusts && (line.is_any_flour() || line.facts().is_some_and(|facts| facts.flags.raw_flour))
}

/// Whether what is made is eaten as it is, as far as the part tells: it is set, served or filled. The caller asks first
/// whether something in the recipe is cooked. A dough that merely ends in its tub is a dough.
fn is_eaten(recipe: &Recipe, id: PartId, part: &Part, raw: &str) -> bool {
    let in_pieces = matches!(recipe.makes, Some(HeadMakes::Pieces { .. }));
    let has_flour = part.lines.iter().any(|line| line.is_flour);
    let served = part.steps.last().is_some_and(|step| {
        says(step, beginnings!["serve", "eat", "garnish", "decorat", "pour", "ladle", "set", "freeze", "scoop"])
    });
    // Pieces that another part fills or tops are eaten from there.
    let filled = part.divide.is_some()
        && reached(id, |here| recipe.users(here).map(|(user, _)| user))
            .into_iter()
            .skip(1)
            .filter_map(|user| recipe.part(user))
            .any(|user| {
                user.steps.last().is_some_and(|step| {
                    says(
                        step,
                        beginnings!["serve", "eat", "fill", "garnish", "decorat", "top", "sandwich", "assembl", "dust"],
                    )
                })
            });
    // A cup or a bite of cookie dough is eaten with a spoon, whatever it is called after.
    let is_bite = match &recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) => {
            noun.has_word_beginning(beginnings!["cup|", "cups|", "bite", "truffle", "glass", "pot|", "pots|", "scoop"])
        }
        _ => false,
    };
    (in_pieces && (served || filled))
        || (is_bite && !is_sold_to_be_cooked(recipe))
        || (raw == "egg" && !has_flour)
        || is_sold_as_it_is(recipe)
        || (in_pieces && bakes_another_way(recipe))
}

/// Whether a batch that is only weighed is frozen, chilled or set, with a quarter and more of cream, ice cream, chocolate or honey in it: it is eaten so,
/// and is no dough for somebody else to bake.
fn is_set_in_cream(recipe: &Recipe, (part, solved): (&Part, &SolvedPart)) -> bool {
    let is_rich = |line: &Ingredient| matches!(line.kind, Kind::Dairy | Kind::Chocolate | Kind::Syrup);
    let share = |mass: Mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(250));
    let sets = |step: &Step| says(step, beginnings!["freez", "chill", "set", "churn", "harden"]);
    matches!(recipe.makes, Some(HeadMakes::Mass(_)) | None)
        && part.steps.last().is_some_and(sets)
        && !share(solved.composition.flour)
        && mass_of(part, solved, is_rich).is_some_and(share)
        && !is_sold_to_be_cooked(recipe)
}

/// Whether another option of a choice is called baked, and the one that is taken neither that nor raw: `choose kind: baked or chilled`. What is
/// sold as a dough, frozen or to be baked at home, says so.
fn bakes_another_way(recipe: &Recipe) -> bool {
    recipe.choices.iter().any(|choice| {
        // `baking spread` and `baker's flour` are no way to cook.
        const COOKED: &[&str] = &[
            "baked",
            "cooked",
            "fried",
            "boiled",
            "steamed",
            "griddled",
            "grilled",
            "toasted",
            "roasted",
            "simmered",
            "poached",
            "microwaved",
        ];
        let cooks = |text: &str| text.split(' ').any(|word| COOKED.contains(&word));
        let taken = recipe.selection.of(&choice.name.key).map_or("", |key| key.as_str());
        let is_dough = has_word_beginning(taken, ["raw", "unbak", "uncook", "frozen", "freez", "dough"]);
        !taken.is_empty()
            && !cooks(taken)
            && !is_dough
            && choice.options.iter().any(|option| cooks(option.key.as_str()))
    })
}
