//! `not-listed`: food that the words of a step put in or on, and that no list of the recipe has.

use super::claims::{Claim, Food, claims};
use super::{Check, Family, Run, Subject};
use crate::language::syntax::Key;
use crate::measure::noun::stem;
use crate::model::cooking::put_in::put_in;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{PutIn, SaidToGoIn, Step};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::whole_words::WholeWords;
use crate::text::words::words_with_hyphens_and_apostrophes;
use std::cell::LazyCell;
use std::collections::HashSet;
use std::sync::Arc;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "not-listed",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "food that a step puts in or on by its words alone (`Brush with beaten egg and strew with sesame seeds.`), and that no list of the \
                recipe has",
    why: "What no line lists is on no card, no shopping list, in no cost, and on no label: neither the egg nor the sesame of a roll that is \
          brushed and strewn. Looked at is what stands behind `add`, `strew`, `brush with`, `fill with`, `dip in`, `fold in` and the like, where the larder \
          knows it and no line of the recipe is of it, is called after it or has its name in a part's; and whatever the verb, what brings an allergen that \
          nothing else brings (`Egg wash.`) or is against a claim. It is a warning where it brings an allergen \
          that nothing else brings, is against what the recipe says of itself (honey in what is called vegan), or where an amount stands beside it; else advice. Tins that are buttered or floured are looked at for their \
          allergens alone. Where it is meant so, `# allow not-listed: reason` above the step keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\nglaze: hands 2 min\n    Brush with \
          beaten egg.\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\negg .... as needed, aside\nmix: hands 10 min\n    Mix {flour} and {water}.\nglaze: hands 2 \
           min\n    Brush with {egg}.\n",
    sources: &[
        "Regulation (EU) 1169/2011, articles 9 and 18: a list of ingredients holds all of them, in the order of their weight as used",
    ],
    run: Run::Recipe(run),
};

/// Classes of food, by which any of them is called.
#[rustfmt::skip]
const CLASSES: &WholeWords = &WholeWords::of(&[
    "nut", "nuts", "seed", "seeds", "cheese", "herb", "herbs", "spice", "spices", "fruit", "fruits", "berries", "flour", "flours", "oil", "sugar", "fat",
    "vinegar", "chocolate", "egg", "eggs", "milk", "cream", "meat", "fish", "vegetables", "bread", "starch", "syrup",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let listed = LazyCell::new(|| Listed::of(recipe));
    let claimed = LazyCell::new(|| claims(recipe));
    let mut told: HashSet<String> = HashSet::new();
    for (_, part, _) in subject.own_parts() {
        for step in part.steps.iter() {
            for said in put_in(step, &recipe.larder).iter() {
                if let Some(problem) = not_listed((recipe, &claimed), &listed, step, said)
                    && !told.iter().any(|known| known.ends_with(&said.name) || said.name.ends_with(known))
                    && told.insert(said.name.clone())
                {
                    diagnostics.push(problem);
                }
            }
        }
    }
}

/// What the lists of a recipe have.
struct Listed<'r> {
    lines: Vec<&'r Ingredient>,
    /// Each word of the names of lines and parts, and of how they are prepared.
    words: HashSet<String>,
    allergens: HashSet<String>,
}

impl<'r> Listed<'r> {
    fn of(recipe: &'r Recipe) -> Listed<'r> {
        let parts = || recipe.parts().map(|(_, part): (_, &Part)| part);
        let lines: Vec<&Ingredient> = parts().flat_map(|part| &part.lines).collect();
        let mut words = HashSet::new();
        let mut take = |text: &str| words.extend(words_with_hyphens_and_apostrophes(&text.to_lowercase()).map(stem));
        parts().for_each(|part| take(part.name.key.as_str()));
        let mut allergens = HashSet::new();
        for line in &lines {
            take(line.name.key.as_str());
            line.preparation.iter().for_each(|said| take(said));
            for stand_in in &line.stand_ins {
                take(stand_in.name.key.as_str());
            }
            let known = line.facts().into_iter().flat_map(|facts| &facts.allergens);
            allergens.extend(known.map(|allergen| allergen.to_lowercase()));
        }
        Listed { lines, words, allergens }
    }

    /// Allergens of a food that nothing listed brings.
    fn lacks(&self, facts: &Facts) -> Vec<String> {
        let all = facts.allergens.iter().map(|allergen| allergen.to_lowercase());
        all.filter(|allergen| !self.allergens.contains(allergen)).collect()
    }
}

fn not_listed<'r>(
    (recipe, claimed): (&'r Recipe, &LazyCell<Vec<Claim>, impl FnOnce() -> Vec<Claim>>),
    listed: &LazyCell<Listed<'r>, impl FnOnce() -> Listed<'r>>,
    step: &Step,
    said: &PutIn,
) -> Option<Diagnostic> {
    let key = Key::new(&said.name);
    let last = said.name.rsplit(' ').next()?;
    let described = recipe.larder.describe(&key);
    let facts: Arc<Facts> = described.facts?;
    let mut lines = recipe.parts().flat_map(|(_, part)| &part.lines);
    let mut is_line = || lines.any(|line| line.facts().is_some_and(|known| known.name == facts.name));
    if matches!(described.kind, Kind::Water | Kind::Ice) || is_line() {
        return None;
    }
    let lacks = listed.lacks(&facts);
    // Bread and flour are what is made here, and made of.
    let is_verb = said.by == SaidToGoIn::ByAVerb;
    let is_spoken_of = !is_verb
        && (lacks.is_empty() || said.by == SaidToGoIn::Beside || matches!(described.kind, Kind::Bread | Kind::Flour));
    if is_spoken_of && against(claimed, &facts, (&said.name, described.kind)).is_none() {
        return None;
    }
    let is_one = said.is_one;
    let is_called = || listed.words.contains(&stem(last)) && (is_one || lacks.is_empty());
    let is_of_class = || {
        is_one && (lacks.is_empty() || CLASSES.has(last)) && listed.lines.iter().any(|line| line.kind == described.kind)
    };
    let is_of_before = is_one && said.is_known && !said.has_amount || said.is_of_tins;
    // What is claimed of all of it is against another of its class as well: oil is listed, and lard is brushed on.
    let is_named = is_called();
    let against = if is_named { None } else { against(claimed, &facts, (&said.name, described.kind)) };
    if is_named || against.is_none() && (is_of_class() || is_of_before && lacks.is_empty()) {
        return None;
    }
    let is_grave = against.is_some() || !said.is_of_tins && is_verb && (!lacks.is_empty() || said.has_amount);
    let told = if is_grave { Diagnostic::warning } else { Diagnostic::advice };
    let allergens = if lacks.is_empty() { String::new() } else { format!(" and brings {}", lacks.join(" and ")) };
    let (does, uses) = match said.by {
        _ if said.is_of_tins => ("is on what `", "` uses"),
        SaidToGoIn::ByAVerb => ("goes in by `", "`"),
        SaidToGoIn::Without | SaidToGoIn::Beside => ("is spoken of in `", "`"),
    };
    let claims = against.map_or(String::new(), |claim| format!(", and the recipe says `{}`", claim.said));
    let message = format!("`{}` {does}{}{uses}{allergens}{claims}, and no list has it", said.name, step.name);
    let problem = told(CHECK.name, step.name.span, message);
    let problem = if let Some(claim) = against { problem.also(claim.span, "said here") } else { problem };
    Some(problem.help(format!(
        "write it as a line, `{0} .... as needed`, or with its weight, and `{{{0}}}` in the step: what no line lists is on no card, list or label",
        said.name
    )))
}

/// The claim of the recipe that a food is against, by its allergens or by what it is.
fn against<'c>(
    claimed: &'c LazyCell<Vec<Claim>, impl FnOnce() -> Vec<Claim>>,
    facts: &Facts,
    (name, kind): (&str, Kind),
) -> Option<&'c Claim> {
    let food = Food { name, kind, facts: Some(facts), is_part: false };
    let holds = |claim: &Claim| facts.allergens.iter().any(|allergen| claim.rules.out(&allergen.to_lowercase()));
    claimed.iter().find(|claim| claim.rules.food_out(&food).is_some() || holds(claim))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_and_its_plural_are_one() {
        for (one, other) in
            [("egg", "eggs"), ("berry", "berries"), ("tomato", "tomatoes"), ("cheese", "cheeses"), ("oil", "oils")]
        {
            assert_eq!(stem(one), stem(other), "{one}");
        }
    }
}
