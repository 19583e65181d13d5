//! `hidden-allergen`: an allergen that enters through a part, or against what the recipe says of itself.

use super::claims::{Claim, claims};
use super::dough::{inside, lists_flour};
use super::named_food::{like_a_known_food, says_itself};
use super::{Check, Family, Run, Subject, tell};
use crate::language::syntax::Name;
use crate::model::contains::of_parts;
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::species;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::collections::HashSet;

mod meat_and_milk;
mod stated;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "hidden-allergen",
    severity: Severity::Warning,
    family: Family::Safety,
    looks_for: "what is against a claim of the recipe (vegan, gluten-free, without egg, sugar-free, halal), wherever it is said, or may be \
                against it and no larder says; an allergen that enters only through a part of another recipe, and an ingredient that no \
                larder knows though it is called after a food with allergens; a list of allergens in a note or caution that leaves one out",
    why: "Who reads only the ingredient list of the buns does not see the sesame in a paste that is made in another file. And a \
          recipe called vegan must not take in butter through its dough. A claim is read in the name, in what it is sold as and filed under, in \
          notes, story and directions; of what is claimed to be without something every ingredient is asked. Say it in a `caution` or `note` line, or change one \
          of the two. The card lists all allergens that the larder knows; what the larder does not know is not listed. This \
          is general advice: the law where the food is sold goes before it.",
    bad: "recipe Vegan rolls\nuse \"larder.miche\"\nflour .... 500 g\nspread .... 60 g\nmix: hands 10 min\n    Mix {flour} and {spread}.\n    \
          until smooth\n=== larder.miche ===\ningredient spread\ncontains milk\n",
    good: "recipe Tea rolls\nuse \"larder.miche\"\nflour .... 500 g\nspread .... 60 g\nmix: hands 10 min\n    Mix {flour} and {spread}.\n    \
           until smooth\n=== larder.miche ===\ningredient spread\ncontains milk\n",
    sources: &[
        "Food Allergy Safety, Treatment, Education, and Research Act of 2021 (US): nine major allergens",
        "Regulation (EU) 1169/2011, Annex II: fourteen",
    ],
    run: Run::Recipe(run),
};

/// Words for what is made of grain.
const GRAIN: &[&str] = &[
    "dough", "bread", "flour", "pastry", "cake", "crumb", "levain", "sponge", "poolish", "biscuit", "roll", "wheat",
    "batter", "crust",
];

/// Words in a part's name that tell of an allergen.
const TELLS: &[(&str, &[&str])] = &[
    ("wheat", GRAIN),
    ("gluten", GRAIN),
    ("rye", GRAIN),
    ("barley", GRAIN),
    ("oats", GRAIN),
    ("milk", &["milk", "cream", "butter", "cheese", "custard", "dairy", "brioche"]),
    ("egg", &["egg", "custard", "mayonnaise", "meringue", "curd", "brioche"]),
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let claims = claims(recipe);
    stated::problems(subject, diagnostics);
    tell(diagnostics, meat_and_milk::problem(recipe, &claims));
    let is_foreign = |part: &Part| part.foreign.is_some();
    // What stands in this file matters only beside what another brings.
    let mut own: Vec<String> = Vec::new();
    if recipe.parts().any(|(_, part)| is_foreign(part)) {
        let lines = subject.own_parts().flat_map(|(_, part, _)| &part.lines);
        let allergens = lines.filter_map(Ingredient::facts).flat_map(|facts| &facts.allergens);
        own.extend(allergens.map(|name| name.to_lowercase()));
    }
    for (_, part, _) in subject.own_parts() {
        for line in &part.lines {
            tell(diagnostics, stands_in_against(subject, line, &claims));
            // Nobody asks what it contains where nothing is claimed.
            if claims.is_empty() && line.part().is_none() {
                if let Some(problem) = like_a_known_food(recipe, part, line) {
                    diagnostics.push(problem);
                }
                continue;
            }
            let (found, foreign, unknown) = match &line.refers {
                Refers::Pantry(facts) => {
                    (facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(), false, Vec::new())
                }
                Refers::Part(other) if recipe.part(*other).is_some_and(is_foreign) => {
                    let all = of_parts(recipe, [*other], |id, line| subject.formula.is_left_out(id, line));
                    (all.known, true, all.unknown)
                }
                // A part of the recipe itself is looked at line by line.
                Refers::Part(_) => (Vec::new(), false, Vec::new()),
            };
            let is_in_dough = line
                .part()
                .is_some_and(|id| inside(recipe, id).into_iter().filter_map(|id| recipe.part(id)).any(lists_flour));
            let is_of_its_dough = |allergen: &str| is_in_dough && is_of_dough(allergen);
            let mut told = false;
            for allergen in &species::most_exact(&found) {
                let allergen = allergen.to_lowercase();
                if let Some(claim) = claims
                    .iter()
                    .find(|claim| claim.rules.out(&allergen) && !says_itself(line, &claim.said, claim.rules))
                {
                    diagnostics.push(broken(&line.name, &format!("contains {allergen}"), claim));
                    told = true;
                } else if foreign
                    && !is_of_its_dough(&allergen)
                    && !own.contains(&allergen)
                    && !name_tells(line.name.key.as_str(), &allergen)
                    && !is_mentioned(recipe, &allergen)
                {
                    let message =
                        format!("{allergen} enters through `{}`, and nothing in this file says so", line.name);
                    diagnostics.push(
                        Diagnostic::advice(CHECK.name, line.name.span, message).help(format!(
                            "say it for the reader: `caution Contains {allergen}, in the {}.`",
                            line.name
                        )),
                    );
                }
            }
            if !told {
                let against = against_its_kind(recipe, line, &claims);
                let known = || like_a_known_food(recipe, part, line);
                // One word of a line is enough.
                tell(diagnostics, against.or_else(known).or_else(|| nobody_knows(line, &claims, &unknown)));
            }
        }
    }
}

/// What may stand in for an ingredient, and holds what the recipe says that it does not.
fn stands_in_against(subject: &Subject<'_>, line: &Ingredient, claims: &[Claim]) -> Option<Diagnostic> {
    if claims.is_empty() {
        return None;
    }
    line.stand_ins.iter().find_map(|one| {
        let found = match (subject.recipe.called(&one.name.key), &one.facts) {
            (Some(id), _) => of_parts(subject.recipe, [id], |id, line| subject.formula.is_left_out(id, line)).known,
            (None, facts) => facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(),
        };
        let found = species::most_exact(&found).into_iter().map(|allergen| allergen.to_lowercase());
        let against = |allergen: &String| claims.iter().find(|claim| claim.rules.out(allergen));
        let (allergen, claim) = found.filter_map(|allergen| Some((allergen.clone(), against(&allergen)?))).next()?;
        Some(broken(&one.name, &format!("may stand in, and contains {allergen}"), claim))
    })
}

fn broken(name: &Name, what: &str, claim: &Claim) -> Diagnostic {
    let message = format!("`{name}` {what}, but the recipe says `{}`", claim.said);
    Diagnostic::warning(CHECK.name, name.span, message)
        .also(claim.span, "said here")
        .help("use something else, or take the claim back")
}

/// What nobody knows of an ingredient, or of one in a part of another file, where something is claimed of all of them. What says it itself is
/// believed: `gluten-free flour`.
fn nobody_knows(line: &Ingredient, claims: &[Claim], inside: &[String]) -> Option<Diagnostic> {
    let claim =
        claims.iter().find(|claim| claim.rules.asks_for_all() && !says_itself(line, &claim.said, claim.rules))?;
    let is_unknown = match &line.refers {
        Refers::Pantry(facts) => {
            facts.as_ref().is_none_or(|facts| !facts.knows_allergens) && !matches!(line.kind, Kind::Water | Kind::Ice)
        }
        Refers::Part(_) => false,
    };
    let name = if is_unknown { line.name.to_string() } else { inside.first()?.clone() };
    let through = if is_unknown { String::new() } else { format!(", which is in `{}`", line.name) };
    let message = format!("the recipe says `{}`, and no larder says what `{name}` contains{through}", claim.said);
    let help = format!(
        "read its pack, and give `{name}` a block in a larder with a `contains` line, `contains nothing` where it holds no allergen"
    );
    Some(Diagnostic::advice(CHECK.name, line.name.span, message).also(claim.span, "said here").help(help))
}

/// Honey, lard or stock in what calls itself vegan: no allergen, and yet against what is said.
fn against_its_kind(recipe: &Recipe, line: &Ingredient, claims: &[Claim]) -> Option<Diagnostic> {
    let inner = |id: PartId| recipe.part(id).filter(|part| part.foreign.is_some());
    for claim in claims {
        if let Some(what) = claim.rules.kind_out(line).filter(|_| !says_itself(line, &claim.said, claim.rules)) {
            return Some(broken(&line.name, &format!("is {what}"), claim));
        }
        // A part of another file, and the parts in it.
        let Refers::Part(other) = line.refers else { continue };
        if inner(other).is_some()
            && let Some((inside, what)) =
                ingredients(recipe, other).into_iter().find_map(|inside| Some((inside, claim.rules.kind_out(inside)?)))
        {
            return Some(broken(&line.name, &format!("holds `{}`, which is {what}", inside.name), claim));
        }
    }
    None
}

/// All ingredients of a part and of the parts in it, each part once.
fn ingredients(recipe: &Recipe, first: PartId) -> Vec<&Ingredient> {
    let (mut all, mut seen, mut open) = (Vec::new(), HashSet::from([first]), vec![first]);
    while let Some(id) = open.pop() {
        for line in recipe.part(id).map_or(&[][..], |part| &part.lines) {
            match line.refers {
                Refers::Part(other) if seen.insert(other) => open.push(other),
                Refers::Part(_) => {}
                Refers::Pantry(_) => all.push(line),
            }
        }
    }
    all
}

/// What is in so many doughs that nobody is surprised: the card names it all the same.
fn is_of_dough(allergen: &str) -> bool {
    ["wheat", "gluten", "rye", "spelt", "milk", "egg", "eggs"].contains(&allergen)
}

/// Whether the name of a line tells of the allergen: `sesame paste`, or `dough` of wheat.
fn name_tells(name: &str, allergen: &str) -> bool {
    let stem = allergen.strip_suffix('s').unwrap_or(allergen);
    let told = TELLS
        .iter()
        .filter(|(known, _)| allergen.starts_with(known))
        .any(|(_, words)| name.split(' ').any(|word| words.iter().any(|told| word.starts_with(told))));
    told || has_word_beginning(name, [stem])
}

/// Whether the recipe's own notes or cautions name it.
fn is_mentioned(recipe: &Recipe, allergen: &str) -> bool {
    let stem = allergen.strip_suffix('s').unwrap_or(allergen);
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none()).flat_map(|(_, part)| &part.texts);
    recipe.texts.iter().chain(own).any(|text| has_word_beginning(text.lower(), [stem]))
}
