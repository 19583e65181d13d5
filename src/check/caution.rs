//! Cautions: what can hurt, said in general words with the published source, for the cards and for the checks.
//!
//! They are found from what a recipe says, so they can miss what it does not say. Each defers to local food law and
//! licensed practice.

use super::danger::{Danger, danger_in, degrees};
use super::dough::{has_flour, mass_of, mille};
use super::kept::{is_pickle, is_soured_from};
use super::statement::{self, COOLING, LONG_IN_THE_COLD, SOUR};
use super::{made_parts, poisonous};
use crate::check::{is_creamed, is_full_jam, keeps_by_itself, raw_in, stands_on_shelf};
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::model::cooking::raw_flesh::{is_flesh, is_raw};
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{
    Later, bakes, beginnings, called, chills, cooks, first_draws, has_word_beginning, is_brine, is_hot,
};
use crate::model::flow::{ends, reached};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::species::may_be_wheat;
use crate::model::spoils::{Body, body};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::Formula;

/// One caution of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// The check that is about the same thing; `miche explain` says more.
    pub check: &'static str,
    /// What it says, in whole sentences.
    pub text: String,
    /// What hurts, in a few words.
    pub hazard: &'static str,
    /// What to do about it, in the one line that a card has room for.
    pub short: String,
    /// Where the rule was published.
    pub source: &'static str,
}

/// What every caution ends with.
pub const DEFERS: &str = "General advice: local food law and licensed practice go before it.";

fn caution(
    check: &'static str,
    text: impl AsRef<str>,
    source: &'static str,
    (hazard, short): (&'static str, String),
) -> Caution {
    Caution { check, text: format!("{} {DEFERS}", text.as_ref()), hazard, short, source }
}

/// All cautions of a recipe, for its cards. Parts of used recipes that are made count in; others do not.
pub fn for_recipe(recipe: &Recipe, formula: &Formula, units: Units) -> Vec<Caution> {
    let made: Vec<&Part> = made_parts(recipe, formula).map(|(_, part)| part).collect();
    let mut list = Vec::new();
    list.extend(allergens(recipe, formula));
    list.extend(raw(recipe, formula));
    list.extend(raw_meat(recipe, formula, units));
    list.extend(cooling(recipe, formula, units));
    list.extend(date_marking(recipe, formula, units));
    list.extend(poisonous::honey_for_babies(recipe, formula).map(|_| {
        let text =
            "Honey is not for babies under a year: it may hold spores of botulism, which no kitchen's heat kills.";
        let short = "none for babies under a year.".to_owned();
        caution(poisonous::CHECK.name, text, poisonous::ON_HONEY, ("Honey", short))
    }));
    list.extend(creamed(recipe, formula, units));
    list.extend(hot_holding(&made, units));
    list.extend(preserves(recipe, formula));
    for danger in Danger::ALL {
        if made.iter().any(|part| danger_in(part, danger).is_some()) {
            list.push(caution("hot-or-caustic", danger.text(units), danger.source(), danger.short(units)));
        }
    }
    list
}

fn allergens(recipe: &Recipe, formula: &Formula) -> Option<Caution> {
    let names = formula.allergens(recipe).known;
    let words = |law: Law| show::list(&law.words(names.iter().map(String::as_str)));
    let (mut us, eu) = (words(Law::Us), words(Law::Eu));
    if us.is_empty() && eu.is_empty() {
        return None;
    }
    // Each ingredient by itself: rye beside it does not say of what the gluten of a stock cube is.
    let is_open = made_parts(recipe, formula).any(|(id, part)| {
        let lines = part.lines.iter().enumerate().filter(|(at, _)| !formula.is_left_out(id, *at));
        lines.filter_map(|(_, line)| line.facts()).any(|facts| {
            // Of malt vinegar the larder says both, gluten and that it is of barley.
            let own: Vec<&str> = facts.allergens.iter().map(String::as_str).collect();
            may_be_wheat(Law::Us, &own)
        })
    });
    if is_open && names.iter().any(|name| may_be_wheat(Law::Us, &[name])) && !us.contains("wheat") {
        let open = "wheat, if the gluten that is in it is of wheat, which nobody says";
        us = if us.is_empty() { open.to_owned() } else { format!("{us}, and {open}") };
    }
    let none = |words: String| if words.is_empty() { "none that it lists".to_owned() } else { words };
    let text = format!(
        "Contains, in the words of US law: {}. In the words of EU law: {}. Only what the larder knows is listed; read the labels.",
        none(us.clone()),
        none(eu.clone())
    );
    let short = format!("in US law {}; in EU law {}. Read the labels.", none(us), none(eu));
    let source = "FALCPA 2004 and FASTER Act 2021 (US); Regulation (EU) 1169/2011, Annex II";
    Some(caution("hidden-allergen", text, source, ("Allergens", short)))
}

fn raw(recipe: &Recipe, formula: &Formula) -> Option<Caution> {
    let has = |what: &str| {
        made_parts(recipe, formula).any(|(id, part)| {
            let lines = part.lines.iter().enumerate().filter(|(at, _)| !formula.is_left_out(id, *at));
            // A starch, or a little flour, that is boiled thick is in no dough that anybody tastes.
            let in_pot = part.steps.iter().any(|step| cooks(step) && !bakes(step));
            let is_little = in_pot && !formula.part(id).is_some_and(|solved| has_flour(solved, 100));
            let only_binds =
                |line: &Ingredient| in_pot && line.kind == Kind::Starch || is_little && line.is_any_flour();
            lines.into_iter().any(|(_, line)| raw_in(line) == Some(what) && !only_binds(line))
        })
    };
    let (hazard, text) = match (has("flour"), has("egg")) {
        (true, true) => (
            "Raw flour, raw egg",
            "Raw flour and raw egg: do not taste dough or batter before it is baked, and wash hands, tools and boards after them.",
        ),
        (true, false) => (
            "Raw flour",
            "Raw flour is not treated to kill germs: do not taste dough or batter before it is baked, and wash hands, tools and boards after it.",
        ),
        (false, true) => {
            ("Raw egg", "Raw egg may carry Salmonella: keep it cold, and wash hands, tools and boards after it.")
        }
        (false, false) => return None,
    };
    Some(caution(
        "raw-flour-or-egg",
        text,
        "FDA and CDC on raw flour (2016, 2019); Safe Recipe Style Guide, Partnership for Food Safety Education, 2019",
        (
            hazard,
            match has("flour") {
                true => "taste nothing before it is baked; wash hands, tools and boards after it.".to_owned(),
                false => "keep it cold; wash hands, tools and boards after it.".to_owned(),
            },
        ),
    ))
}

/// How hot whole cuts and fish, minced meat, and poultry are in the middle when they are cooked, as the Food Code has it in both scales.
const LEAST_INSIDE: [(i64, i64); 3] = [(63, 145), (68, 155), (74, 165)];

fn raw_meat(recipe: &Recipe, formula: &Formula, units: Units) -> Option<Caution> {
    let mut later = Later::of(recipe);
    let mut is_cooked = |id: PartId, part: &Part, at: usize| {
        let first = first_draws(part).get(&Target::Line(at)).copied();
        first.is_none_or(|first| later.is_line_cooked(id, first, at) != Some(false))
    };
    let (mut has, mut cooked) = (false, false);
    for (id, part) in made_parts(recipe, formula) {
        let lines = part.lines.iter().enumerate().filter(|(at, _)| !formula.is_left_out(id, *at));
        for (at, _) in lines.filter(|(_, line)| is_raw(line)) {
            has = true;
            cooked = cooked || is_cooked(id, part, at) || statement::speaks_of_cooking(recipe, part);
        }
    }
    // What nobody cooks has no heat in its middle.
    if has && !cooked {
        let text = "Meat, poultry or fish that is eaten raw: keep it cold and apart, and wash hands, tools and boards after it; it is not for children, the old, \
                    the ill and who expects a child.";
        let short = "keep it cold and apart; wash hands, tools and boards; not for children, the old, the ill and who expects a child.";
        let source = "FDA Food Code 3-603.11, consumer advisory, and 3-801.11 (from memory); Safe Recipe Style Guide, Partnership for Food Safety Education, 2019";
        return Some(caution("raw-meat", text, source, ("Raw meat or fish", short.to_owned())));
    }
    // Each in the law's own figure: 68 °C turned into 154 °F would be less than the 155 °F that it wants.
    let [whole, minced, poultry] = LEAST_INSIDE.map(|(celsius, fahrenheit)| match units {
        Units::Us => format!("{fahrenheit} °F"),
        Units::Metric => format!("{celsius} °C"),
        Units::Both => format!("{celsius} °C ({fahrenheit} °F)"),
    });
    let text = format!(
        "Raw meat, poultry and fish: keep them cold and apart from what is eaten as it is, and wash hands, tools and boards after them. Cooked, \
         they have in the middle at least {whole} (fish, whole cuts), {minced} (minced meat) or {poultry} (poultry, what is stuffed)."
    );
    let short = format!(
        "keep it cold and apart; wash hands, tools and boards; in the middle {whole} (fish, whole cuts), {minced} (minced), {poultry} (poultry)."
    );
    let source = "FDA Food Code 3-401.11, as South Dakota's rule 44:02:07:28 has it; Safe Recipe Style Guide, Partnership for Food Safety Education, 2019";
    has.then(|| caution("raw-meat", text, source, ("Raw meat or fish", short)))
}

/// Whether a part holds meat or fish, itself or in a part of it.
fn holds_meat(recipe: &Recipe, part: &Part) -> bool {
    let is_flesh = |line: &Ingredient| is_flesh(line) || is_raw(line);
    let inner = part.lines.iter().filter_map(Ingredient::part).flat_map(|id| {
        reached(id, |id| {
            recipe
                .part(id)
                .into_iter()
                .flat_map(|part| part.lines.iter().filter_map(Ingredient::part))
                .collect::<Vec<PartId>>()
        })
    });
    inner.filter_map(|id| recipe.part(id)).chain([part]).any(|part| part.lines.iter().any(is_flesh))
}

/// Food that is cooked, moist and goes into the cold: what is baked with meat in it, too.
fn is_cooked_and_chilled(recipe: &Recipe, part: &Part) -> bool {
    let chilled = part.keeps.is_some_and(|keeps| keeps.how.is_cold());
    let hot = part.steps.iter().position(cooks);
    let cold_after = hot.is_some_and(|hot| part.steps.iter().skip(hot + 1).any(chills));
    let soured = hot.is_some_and(|hot| is_soured_from(part, hot + 1) || ferments_from(part, hot + 1));
    hot.is_some() && !soured && (chilled || cold_after) && (!part.steps.iter().any(bakes) || holds_meat(recipe, part))
}

/// Whether a part ferments in the warm after a step: cabbage into which a boiled paste was rubbed sours there and is not cooled before.
fn ferments_from(part: &Part, from: usize) -> bool {
    let is_rest = |step: &Step| step.kind == StepKind::Wait && called(step, FERMENTS) && !chills(step);
    part.steps.iter().skip(from).any(is_rest)
}

fn cooling(recipe: &Recipe, formula: &Formula, units: Units) -> Option<Caution> {
    let parts: Vec<String> = made_parts(recipe, formula)
        .filter(|(_, part)| is_cooked_and_chilled(recipe, part))
        // What answers the check answers the card: no sheet has two orders for one pot.
        .filter(|(_, part)| !statement::states(recipe, part, COOLING) && !statement::states(recipe, part, SOUR))
        // What sugar or salt keeps is in no hurry.
        .filter(|(id, part)| !formula.part(*id).is_some_and(|solved| keeps_by_itself(part, solved)))
        .map(|(_, part)| part.name.to_string())
        .collect();
    let all = show::list(&parts);
    let [hot, warm, cold] = [57, 21, 5].map(|celsius| degrees(celsius, units));
    let text = format!("Cool {all} from {hot} to {warm} within 2 hours, and to {cold} within 6 hours in all.");
    let short = format!("{all} from {hot} to {warm} within 2 h, to {cold} within 6 h in all.");
    (!parts.is_empty()).then(|| caution("slow-cooling", text, "FDA Food Code 3-501.14", ("Cool fast", short)))
}

/// Whether a part is mixed of what spoils, eaten as it is, and nothing in it is cooked: chicken with mayonnaise, whipped feta, cut tomatoes. What was
/// cultured or aged where it was made is opened and mixed here (FDA Food Code 3-501.17(G) spares only what is left as it was packed; from memory).
fn is_ready_mix(recipe: &Recipe, formula: &Formula, id: PartId, later: &mut Later<'_>) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let stays = || part.lines.iter().filter(|line| line.stays_in());
    let is_tomato =
        |line: &Ingredient| line.kind == Kind::Vegetable && has_word_beginning(line.name.key.as_str(), ["tomato"]);
    let is_ready = |line: &Ingredient| {
        let is_food =
            matches!(body(line), Some(Body::Flesh | Body::Milk | Body::Egg)) || body(line).is_some() && is_tomato(line);
        is_food && line.stays_in()
    };
    let share =
        |mass: Mass, least: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least));
    let keeps = || {
        share(solved.composition.sugar, 350)
            || share(solved.composition.salt, 50)
            || part.steps.iter().any(|step| called(step, FERMENTS))
    };
    !part.steps.is_empty()
        && solved.composition.flour == Mass::ZERO
        && stays().count() > 1
        && !stays().any(is_raw)
        && mass_of(part, solved, is_ready).is_some_and(|mass| share(mass, 120))
        && !keeps()
        && later.is_cooked(id, part.steps.len()) == Some(false)
}

fn date_marking(recipe: &Recipe, formula: &Formula, units: Units) -> Option<Caution> {
    let most = Duration::days(7);
    let mut later = Later::of(recipe);
    let parts: Vec<(String, Duration)> = made_parts(recipe, formula)
        // Jam and kraut keep longer, and nothing says that they do not.
        .filter(|(id, part)| !formula.part(*id).is_some_and(|solved| keeps_by_itself(part, solved)))
        .filter(|(id, _)| !is_pickle(recipe, formula, *id))
        // What is said to keep longer keeps as it is said.
        .filter(|(_, part)| {
            let is_long = part.keeps.is_some_and(|keeps| keeps.time > most);
            !is_long || !statement::states(recipe, part, LONG_IN_THE_COLD)
        })
        .filter(|(id, part)| part.steps.iter().any(cooks) || is_ready_mix(recipe, formula, *id, &mut later))
        .filter_map(|(_, part)| Some((part.name.to_string(), part.keeps.filter(|keeps| keeps.how.is_chilled())?.time)))
        .filter(|(_, time)| *time > Duration::days(1))
        // What the baker says holds where it is shorter.
        .map(|(name, time)| (name, time.min(most)))
        .collect();
    let names: Vec<&str> = parts.iter().map(|(name, _)| name.as_str()).collect();
    let each: Vec<String> = parts.iter().map(|(name, time)| format!("{name} {}", show::duration(*time))).collect();
    let (all, each, cold) = (show::list(&names), show::list(&each), degrees(5, units));
    let text = format!(
        "Write the date on {all}, the day it is made counted: {each} at most, at {cold} or below. Ready food that needs refrigeration is kept \
         for 7 days and not longer."
    );
    let short = format!("{each} at most, at {cold} or below; write the date on it.");
    (!parts.is_empty()).then(|| caution("kept-too-long", text, "FDA Food Code 3-501.17", ("Keep cold", short)))
}

/// What is handed over with cream on it that nothing heated, and says of itself neither how cold it is kept nor that it is frozen.
fn creamed(recipe: &Recipe, formula: &Formula, units: Units) -> Option<Caution> {
    let says_cold = |part: &Part| part.keeps.is_some_and(|keeps| keeps.how.is_cold());
    // A dough with cream in it that is baked somewhere else, or of which no step is written.
    let is_baked_elsewhere = |id: PartId, part: &Part| {
        let has_flour = formula.part(id).is_some_and(|solved| solved.composition.flour > Mass::ZERO);
        part.steps.is_empty() || has_flour && !recipe.parts().any(|(_, part)| part.steps.iter().any(cooks))
    };
    let parts: Vec<String> = ends(recipe)
        .filter_map(|id| Some((id, recipe.part(id)?)))
        .filter(|(id, part)| formula.is_made(*id) && !says_cold(part))
        .filter(|(id, part)| !is_baked_elsewhere(*id, part))
        .filter(|(id, _)| is_creamed(recipe, formula, *id))
        .map(|(_, part)| part.name.to_string())
        .collect();
    let (all, cold) = (show::list(&parts), degrees(5, units));
    let text = format!(
        "Cream that nothing heats is in {all}: keep it at {cold} or below until it is eaten, and no longer than four hours out of the cold."
    );
    let short = format!("{all} at {cold} or below until it is eaten; no longer than 4 h out of the cold.");
    let source = "FDA Food Code 3-501.16 and 3-501.19 (from memory)";
    (!parts.is_empty()).then(|| caution("left-warm", text, source, ("Cream in the warm", short)))
}

fn hot_holding(made: &[&Part], units: Units) -> Option<Caution> {
    let holds = made
        .iter()
        .flat_map(|part| &part.steps)
        .any(|step| is_hot(step) && step.name.has_word_beginning(beginnings!["hold", "keep"]));
    holds.then(|| {
        caution(
            "held-too-cool",
            format!("Hold hot food at {} or above, measured in the middle.", degrees(57, units)),
            "FDA Food Code 3-501.16 (from memory); TM 10-412, card A No. 32",
            ("Holding too cool", format!("hot food at {} or above, measured in the middle.", degrees(57, units))),
        )
    })
}

fn preserves(recipe: &Recipe, formula: &Formula) -> Option<Caution> {
    let is_full = |id: PartId| formula.part(id).is_some_and(is_full_jam);
    let is_preserve = |(id, part): &(PartId, &Part)| {
        !is_full(*id)
            && has_word_beginning(
                part.name.key.as_str(),
                ["jam|", "jams|", "preserve", "pickl", "chutney", "relish", "curd", "compote"],
            )
            || part.lines.iter().any(is_brine)
            || stands_on_shelf(recipe, formula, *id)
    };
    let parts: Vec<String> =
        made_parts(recipe, formula).filter(is_preserve).map(|(_, part)| part.name.to_string()).collect();
    let text = format!(
        "{}: not tested for storage on a shelf. Keep it refrigerated; shelf storage needs a tested process (acidified foods: finished equilibrium pH 4.6 or below).",
        show::list(&parts)
    );
    let short = format!("{} not tested for it; keep it refrigerated.", show::list(&parts));
    (!parts.is_empty()).then(|| caution("shelf-storage", text, "21 CFR 114.3", ("Storing on a shelf", short)))
}
