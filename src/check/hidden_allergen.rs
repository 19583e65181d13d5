//! `hidden-allergen`: an allergen that enters through a part, or against what the recipe says of itself.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::has_word;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::model::recipe::{Recipe, Refers};
use crate::text::source::Span;
use crate::model::step::Words;
use crate::language::syntax::TextKind;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "hidden-allergen",
    severity: Severity::Warning,
    family: Family::Safety,
    looks_for: "an allergen in a recipe that calls itself free of it, and one that enters only through a part of another recipe",
    why: "Who reads only the ingredient list of the buns does not see the sesame in a paste that is made in another file. And a \
          recipe called vegan must not take in butter through its dough. Say it in a `caution` or `note` line, or change one \
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

/// What a claim rules out, as beginnings of allergen names.
const CLAIMS: &[(&str, &[&str])] = &[
    ("gluten", &["wheat", "rye", "barley", "oat", "spelt", "gluten", "cereal"]),
    ("wheat", &["wheat", "spelt"]),
    ("dairy", &["milk"]),
    ("milk", &["milk"]),
    ("lactose", &["milk"]),
    ("egg", &["egg"]),
    ("nut", &["nut", "tree", "almond", "hazelnut", "walnut", "cashew", "pecan", "brazil", "pistachio", "macadamia", "peanut"]),
    ("peanut", &["peanut"]),
    ("soy", &["soy"]),
    ("soya", &["soy"]),
    ("sesame", &["sesame"]),
    ("mustard", &["mustard"]),
    ("celery", &["celery"]),
    ("allergen", &[""]),
];
const VEGAN: &[&str] = &["milk", "egg", "fish", "crustacean", "mollusc"];

/// Words for what is made of grain.
const GRAIN: &[&str] = &[
    "dough", "bread", "flour", "pastry", "cake", "crumb", "levain", "sponge", "poolish", "biscuit", "roll", "wheat", "batter",
    "crust",
];

/// Words in a part's name that tell of an allergen.
const TELLS: &[(&str, &[&str])] = &[
    ("wheat", GRAIN),
    ("gluten", GRAIN),
    ("milk", &["milk", "cream", "butter", "cheese", "custard", "dairy", "brioche"]),
    ("egg", &["egg", "custard", "mayonnaise", "meringue", "curd", "brioche"]),
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let claims = claims(recipe);
    let mut own: Vec<String> = Vec::new();
    for (_, part, _) in subject.own_parts() {
        for line in &part.lines {
            if let Some(facts) = line.facts() {
                own.extend(facts.allergens.iter().map(|name| name.to_lowercase()));
            }
        }
    }
    for (_, part, _) in subject.own_parts() {
        for line in &part.lines {
            let (found, foreign) = match &line.refers {
                Refers::Pantry(facts) => (facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(), false),
                Refers::Part(other) => {
                    let foreign = recipe.part(*other).is_some_and(|part| part.foreign.is_some());
                    // A part of the recipe itself is looked at line by line.
                    (if foreign { crate::model::allergen::of_parts(recipe, [*other]).known } else { Vec::new() }, foreign)
                }
            };
            for allergen in &found {
                let allergen = allergen.to_lowercase();
                let broken = claims.iter().find(|claim| claim.rules_out.iter().any(|begins| allergen.starts_with(begins)));
                if let Some(claim) = broken {
                    let message = format!("`{}` contains {allergen}, but the recipe says `{}`", line.name, claim.said);
                    diagnostics.push(
                        Diagnostic::warning(CHECK.name, line.name.span, message)
                            .also(claim.span, "said here")
                            .help("use something else, or take the claim back"),
                    );
                } else if foreign && !own.contains(&allergen) && !name_tells(line.name.key.as_str(), &allergen) && !is_mentioned(recipe, &allergen) {
                    let message = format!("{allergen} enters through `{}`, and nothing in this file says so", line.name);
                    diagnostics.push(
                        Diagnostic::advice(CHECK.name, line.name.span, message)
                            .help(format!("say it for the reader: `caution Contains {allergen}, in the {}.`", line.name)),
                    );
                }
            }
        }
    }
}

/// A claim such as `vegan` or `gluten-free`.
struct Claim {
    said: String,
    rules_out: &'static [&'static str],
    span: Span,
}

/// The claims in the names and notes of a recipe. Cautions speak of allergens that are there.
fn claims(recipe: &Recipe) -> Vec<Claim> {
    let mut texts: Vec<(String, Span)> = vec![(recipe.name.key.as_str().to_owned(), recipe.name.span)];
    let own = || recipe.parts().filter(|(_, part)| part.foreign.is_none()).map(|(_, part)| part);
    texts.extend(own().map(|part| (part.name.key.as_str().to_owned(), part.name.span)));
    let notes = recipe.texts.iter().chain(own().flat_map(|part| &part.texts)).filter(|text| text.kind == TextKind::Note);
    texts.extend(notes.map(|text| (plain(&text.words), text.span)));
    let mut claims: Vec<Claim> = Vec::new();
    for (text, span) in texts {
        let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
        // `Not gluten-free` and `can be made vegan` are no claims.
        if words.iter().any(|word| ["not", "never", "no", "can", "if", "only", "instead"].contains(word)) {
            continue;
        }
        for (at, word) in words.iter().enumerate() {
            let before = at.checked_sub(1).and_then(|at| words.get(at)).copied().unwrap_or("");
            let ruled = match *word {
                "vegan" => Some(("vegan".to_owned(), VEGAN)),
                "free" => CLAIMS.iter().find(|(name, _)| before == *name || before.strip_suffix('s') == Some(name)).map(|(_, out)| (format!("{before}-free"), *out)),
                _ => None,
            };
            if let Some((said, rules_out)) = ruled
                && !claims.iter().any(|claim| claim.said == said)
            {
                claims.push(Claim { said, rules_out, span });
            }
        }
    }
    claims
}

fn plain(words: &[Words]) -> String {
    let texts = words.iter().filter_map(|word| match word {
        Words::Text(text) => Some(text.to_lowercase()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

/// Whether the name of a line tells of the allergen: `sesame paste`, or `dough` of wheat.
fn name_tells(name: &str, allergen: &str) -> bool {
    let stem = allergen.strip_suffix('s').unwrap_or(allergen);
    let told = TELLS.iter().filter(|(known, _)| allergen.starts_with(known)).any(|(_, words)| {
        name.split(' ').any(|word| words.iter().any(|told| word.starts_with(told)))
    });
    told || has_word(name, &[stem])
}

/// Whether the recipe's own notes or cautions name it.
fn is_mentioned(recipe: &Recipe, allergen: &str) -> bool {
    let stem = allergen.strip_suffix('s').unwrap_or(allergen);
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none()).flat_map(|(_, part)| &part.texts);
    recipe.texts.iter().chain(own).any(|text| has_word(&plain(&text.words), &[stem]))
}
