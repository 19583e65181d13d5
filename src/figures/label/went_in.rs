//! What the larder knows of a line as it went in: cooked, from a tin, smoked or raw, where its entry is of another state.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::model::cooking::has_word_beginning;
use crate::model::cooking::state::{is_said_behind, is_so, may_be};
use crate::model::cooking::state_words::State;
use crate::model::kind::Kind;
use crate::model::larder::{Contents, Facts};
use crate::model::recipe::{Ingredient, Recipe};
use crate::text::words::words_with_hyphens;
use std::sync::Arc;

/// States that an entry of the larder is named by: what was done to it changed what it holds.
const STATES: &[&str] = &["tinned", "smoked", "dried", "pickled", "cured", "salted", "roasted"];
/// Those of them in which it holds something else than fresh, in figures that nobody can guess from those of the fresh one.
const OTHERWISE: &[&str] = &["tinned", "smoked", "dried", "pickled", "cured"];

/// Names of powdered milk that say nothing of its cream: 0.8 g of fat in 100 g without it and 26.7 g with it (USDA SR26, 01154 and 01090).
const MILK_POWDER: &[&str] = &["milk powder", "dry milk", "powdered milk", "dried milk"];

/// Whether something is powdered milk of which nobody says whether it is skimmed; the larder has it as that.
pub(in crate::figures) fn may_be_of_cream(name: &Key, facts: &Facts) -> bool {
    MILK_POWDER.contains(&name.as_str()) && facts.name.starts_with("skimmed")
}

/// What the larder knows of a line as it goes in. Of dry grain and pulses that go in cooked, soaked or from a tin the figures of the dry
/// ones say nothing, so they are those of the tin where the larder has it, and else none; of tuna that is said to be raw those of the tin
/// say nothing, and of salmon from a tin those of the raw one.
pub(super) fn as_it_goes_in(recipe: &Recipe, line: &Ingredient, facts: Option<&Arc<Facts>>) -> Option<Arc<Facts>> {
    let facts = facts?;
    let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let is_dry = matches!(facts.kind, Some(Kind::Grain | Kind::Pulse))
        && facts.contents.water.is_some_and(|water| water < Proportion::new(Number::constant(1, 5)));
    if is_dry && may_be(&said, State::Wet) && !said.contains("not ") {
        if has_word_beginning(&said, ["tinned", "canned"])
            && let Some(tinned) = in_state(recipe, facts, "tinned")
        {
            return Some(tinned);
        }
        let mut unknown = unknown(facts);
        unknown.flags.ready_to_eat |= is_said_behind(line, State::Cooked);
        return Some(Arc::new(unknown));
    }
    if may_be_of_cream(&line.name.key, facts) {
        let mut open = unknown(facts);
        open.contents.water = facts.contents.water;
        return Some(Arc::new(open));
    }
    let name = line.name.key.as_str();
    let of_entry = words_with_hyphens(&facts.name).next().filter(|first| STATES.contains(first));
    if let Some(state) = of_entry {
        let is_its_own = words_with_hyphens(name).any(|word| word == state || (state == "tinned" && word == "canned"));
        if !is_its_own && is_so(line, State::Fresh) {
            let mut unknown = unknown(facts);
            unknown.flags.ready_to_eat = false;
            return Some(Arc::new(unknown));
        }
        return Some(facts.clone());
    }
    let Some(state) = state_said(&said) else { return Some(facts.clone()) };
    // What is dry already was dried, and so is a ground spice.
    let is_moist = facts.contents.water.is_none_or(|water| water > Proportion::new(Number::constant(3, 10)));
    if state == "dried" && !is_moist {
        return Some(facts.clone());
    }
    if let Some(found) = in_state(recipe, facts, state) {
        return Some(found);
    }
    let is_food = facts.kind.is_some_and(|kind| kind.is_flesh() || matches!(kind, Kind::Fruit | Kind::Vegetable));
    Some(if is_food && is_moist && OTHERWISE.contains(&state) { Arc::new(unknown(facts)) } else { facts.clone() })
}

/// The entry of the same food in a state: `tinned chickpeas`.
fn in_state(recipe: &Recipe, facts: &Facts, state: &str) -> Option<Arc<Facts>> {
    let found = recipe.larder.find(&Key::new(&format!("{state} {}", facts.name)))?;
    (found.name != facts.name && words_with_hyphens(&found.name).next() == Some(state)).then_some(found)
}

/// The same without any figures.
fn unknown(facts: &Facts) -> Facts {
    Facts { contents: Contents::default(), ..facts.clone() }
}

/// Words before a state that say how it was brought about: `hot smoked`, `lightly cured`. Before a hyphen any may stand, `cold-smoked`.
const HOW: &[&str] =
    &["cold", "hot", "sun", "oven", "air", "dry", "semi", "lightly", "quick", "freshly", "home", "well"];

/// The state that a clause of a preparation begins with: `dried, chopped`, `cold-smoked` and `hot smoked`, and not `washed and dried`.
fn state_said(said: &str) -> Option<&'static str> {
    said.split([',', ';', '(']).find_map(|clause| {
        let first = words_with_hyphens(clause).find(|word| !HOW.contains(word))?;
        let first = match first.rsplit_once('-') {
            Some((before, last)) if !["un", "non"].contains(&before) => last,
            _ => first,
        };
        let first = if first == "canned" { "tinned" } else { first };
        STATES.iter().find(|state| **state == first).copied()
    })
}
