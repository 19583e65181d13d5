//! `hidden-allergen`: an allergen that enters through a part, or against what the recipe says of itself.

use super::dough::inside;
use super::{Check, Family, Run, Subject, tell};
use crate::model::cooking::has_word;
use crate::language::syntax::{Key, Name, TextKind};
use crate::measure::show;
use crate::model::allergen::Law;
use crate::model::kind::Kind;
use crate::model::larder::{Facts, MOST_WORDS};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::species;
use crate::model::step::Words;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use std::collections::HashSet;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "hidden-allergen",
    severity: Severity::Warning,
    family: Family::Safety,
    looks_for: "what is against a claim of the recipe (vegan, gluten-free, without egg), an allergen that enters only through a part of \
                another recipe, and an ingredient that no larder knows though it is called after a food with allergens",
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

/// What a claim rules out.
#[derive(Debug, Clone, Copy)]
enum Rules {
    /// Allergens, in the words of the two laws.
    Out(&'static [&'static str]),
    /// Every allergen of either law.
    AllAllergens,
    /// What is of animals.
    Animals,
    /// What is of killed animals.
    Flesh,
}

const GLUTEN: Rules = Rules::Out(&["cereals containing gluten"]);
const MILK: Rules = Rules::Out(&["milk"]);
const EGG: Rules = Rules::Out(&["eggs"]);
const NUT: Rules = Rules::Out(&["nuts", "tree nuts", "peanuts"]);
const SOY: Rules = Rules::Out(&["soybeans"]);
const SULPHITE: Rules = Rules::Out(&["sulphur dioxide and sulphites"]);

/// What may stand in `…-free`, `without …` and `free from …`, in the singular.
const CLAIMS: &[(&str, Rules)] = &[
    ("gluten", GLUTEN),
    ("wheat", Rules::Out(&["wheat"])),
    ("dairy", MILK),
    ("milk", MILK),
    ("lactose", MILK),
    ("egg", EGG),
    ("fish", Rules::Out(&["fish"])),
    ("shellfish", Rules::Out(&["crustaceans", "crustacean shellfish", "molluscs"])),
    ("crustacean", Rules::Out(&["crustaceans", "crustacean shellfish"])),
    ("mollusc", Rules::Out(&["molluscs"])),
    ("nut", NUT),
    ("peanut", Rules::Out(&["peanuts"])),
    ("soy", SOY),
    ("soya", SOY),
    ("sesame", Rules::Out(&["sesame seeds"])),
    ("mustard", Rules::Out(&["mustard"])),
    ("celery", Rules::Out(&["celery"])),
    ("lupin", Rules::Out(&["lupin"])),
    ("sulphite", SULPHITE),
    ("sulfite", SULPHITE),
    ("meat", Rules::Flesh),
    ("allergen", Rules::AllAllergens),
];

/// Claims in one word.
const WORDS: &[(&str, Rules)] = &[
    ("vegan", Rules::Animals),
    ("vegetarian", Rules::Flesh),
    ("veggie", Rules::Flesh),
    ("gf", GLUTEN),
    ("eggless", EGG),
    ("meatless", Rules::Flesh),
];

/// Allergens that are of animals, in the words of the laws.
const OF_ANIMALS: &[&str] = &["milk", "eggs", "fish", "crustaceans", "crustacean shellfish", "molluscs"];
/// Allergens that are of killed animals.
const OF_FLESH: &[&str] = &["fish", "crustaceans", "crustacean shellfish", "molluscs"];

impl Rules {
    /// Whether an allergen, as a larder names it, is ruled out.
    fn out(self, allergen: &str) -> bool {
        let is = |words: &[&str]| words.iter().any(|word| Law::Eu.is(allergen, word) || Law::Us.is(allergen, word));
        match self {
            Rules::Out(words) => is(words),
            Rules::AllAllergens => true,
            Rules::Animals => is(OF_ANIMALS),
            Rules::Flesh => is(OF_FLESH),
        }
    }

    /// Whether an ingredient is ruled out by what it is.
    fn kind_out(self, line: &Ingredient) -> bool {
        let says = |of: fn(&Facts) -> bool| line.facts().is_some_and(of);
        match self {
            Rules::Out(_) | Rules::AllAllergens => false,
            Rules::Animals => {
                line.kind.is_flesh()
                    || matches!(line.kind, Kind::Egg | Kind::Milk | Kind::Dairy)
                    || says(|facts| facts.flags.not_vegan || facts.flags.not_vegetarian)
            }
            Rules::Flesh => line.kind.is_flesh() || says(|facts| facts.flags.not_vegetarian),
        }
    }
}

/// Words by which a food was kept: it holds salt, sugar or less water then.
const KEPT: &[&str] = &[
    "salt", "salted", "smoked", "dried", "dry", "cured", "pickled", "candied", "marinated", "tinned", "canned", "corned", "preserved",
];

/// Words for what is made of grain.
const GRAIN: &[&str] = &[
    "dough", "bread", "flour", "pastry", "cake", "crumb", "levain", "sponge", "poolish", "biscuit", "roll", "wheat", "batter",
    "crust",
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
            // Nobody asks what it contains where nothing is claimed.
            if claims.is_empty() && line.part().is_none() {
                if let Some(problem) = like_a_known_food(recipe, part, line) {
                    diagnostics.push(problem);
                }
                continue;
            }
            let (found, foreign) = match &line.refers {
                Refers::Pantry(facts) => (facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(), false),
                Refers::Part(other) => {
                    let foreign = recipe.part(*other).is_some_and(is_foreign);
                    // A part of the recipe itself is looked at line by line.
                    (if foreign { crate::model::contains::of_parts(recipe, [*other], |id, line| subject.formula.is_left_out(id, line)).known } else { Vec::new() }, foreign)
                }
            };
            let is_in_dough = line.part().is_some_and(|id| inside(recipe, id).into_iter().filter_map(|id| recipe.part(id)).any(is_dough));
            let is_of_its_dough = |allergen: &str| is_in_dough && is_of_dough(allergen);
            let mut told = false;
            for allergen in &species::most_exact(&found) {
                let allergen = allergen.to_lowercase();
                if let Some(claim) = claims.iter().find(|claim| claim.rules.out(&allergen)) {
                    diagnostics.push(broken(&line.name, &format!("contains {allergen}"), claim));
                    told = true;
                } else if foreign && !is_of_its_dough(&allergen) && !own.contains(&allergen) && !name_tells(line.name.key.as_str(), &allergen) && !is_mentioned(recipe, &allergen) {
                    let message = format!("{allergen} enters through `{}`, and nothing in this file says so", line.name);
                    diagnostics.push(
                        Diagnostic::advice(CHECK.name, line.name.span, message)
                            .help(format!("say it for the reader: `caution Contains {allergen}, in the {}.`", line.name)),
                    );
                }
            }
            if !told {
                tell(diagnostics, against_its_kind(recipe, line, &claims));
                tell(diagnostics, like_a_known_food(recipe, part, line));
            }
        }
    }
}

fn broken(name: &Name, what: &str, claim: &Claim) -> Diagnostic {
    let message = format!("`{name}` {what}, but the recipe says `{}`", claim.said);
    Diagnostic::warning(CHECK.name, name.span, message)
        .also(claim.span, "said here")
        .help("use something else, or take the claim back")
}

/// Honey, lard or stock in what calls itself vegan: no allergen, and yet against what is said.
fn against_its_kind(recipe: &Recipe, line: &Ingredient, claims: &[Claim]) -> Option<Diagnostic> {
    let inner = |id: PartId| recipe.part(id).filter(|part| part.foreign.is_some());
    for claim in claims {
        let of = if matches!(claim.rules, Rules::Flesh) { "a killed animal" } else { "an animal" };
        if claim.rules.kind_out(line) {
            return Some(broken(&line.name, &format!("is of {of}"), claim));
        }
        // A part of another file, and the parts in it.
        let Refers::Part(other) = line.refers else { continue };
        if inner(other).is_some()
            && let Some(inside) = ingredients(recipe, other).into_iter().find(|inside| claim.rules.kind_out(inside))
        {
            return Some(broken(&line.name, &format!("holds `{}`, which is of {of}", inside.name), claim));
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

/// Words before a food that take away what it contains: `vegan butter`, `gluten-free bread`.
const NOT_OF_IT: &[&str] = &["vegan", "free", "plant-based", "plant", "artificial", "imitation", "mock", "flavour", "flavoured"];
/// What is called after a food and is another.
const OTHERS: &[&str] = &["mushroom", "mushrooms", "lettuce", "squash", "plant", "tree", "paper", "knife", "bean", "beans", "tin", "tins"];

/// An ingredient that no larder knows, with the name of a known food in its own: what that contains would go unsaid.
fn like_a_known_food(recipe: &Recipe, own: &Part, line: &Ingredient) -> Option<Diagnostic> {
    let Refers::Pantry(None) = line.refers else { return None };
    let name = line.name.key.as_str();
    let name = name.split_once(" for ").map_or(name, |(what, _)| what);
    let words: Vec<&str> = name.split(' ').collect();
    let spoken_for = words.iter().any(|word| {
        NOT_OF_IT.contains(word) || OTHERS.contains(word) || word.ends_with("-free") || word.ends_with("-flavoured")
    });
    if spoken_for {
        return None;
    }
    let ends = (words.len().saturating_sub(MOST_WORDS).max(1)..words.len()).filter_map(|at| words.get(at..));
    let begins = (1..words.len().min(MOST_WORDS + 1)).rev().filter_map(|at| words.get(..at));
    let known = ends.chain(begins).find_map(|part| {
        let part = part.join(" ");
        let facts = recipe.larder.find(&Key::new(&part)).filter(|facts| !facts.allergens.is_empty())?;
        Some((part, facts))
    });
    let Some((part, facts)) = known else { return named_after_an_allergen(recipe, line, name) };
    // Salt cod is no cod that was salted here: what it holds its pack says.
    let is_kept = |how: &&str| how.split(' ').any(|word| KEPT.contains(&word));
    // `butter (soft)` too was done something to.
    let in_brackets = || name.strip_prefix(&part)?.trim().strip_prefix('(')?.strip_suffix(')');
    // Rye is no preparation of bread crumbs: behind the amount it would be lost, and wheat declared in its place.
    let is_of_another = |how: &&str| how.split(' ').any(|word| OF_ANOTHER.contains(&word.trim_end_matches('s')));
    let how = name.strip_suffix(&part).or_else(in_brackets).map(str::trim);
    let how = how.filter(|how| !how.is_empty() && !is_kept(how) && !is_of_another(how));
    let message = format!(
        "no larder knows `{}`; `{part}` contains {}, and nothing says whether this does",
        line.name,
        show::list(&facts.allergens)
    );
    // Beside a line of that very food it would be named twice.
    let beside = own.lines.iter().any(|other| other.name.key.as_str() == part);
    let help = match how.filter(|_| !beside) {
        // Nobody buys it: 80 g of dough a piece come out of another file.
        _ if is_made(name) => {
            let name = &line.name;
            format!("no part of this recipe and no recipe that it uses makes `{name}`: is a line `use` missing? Else give it a block of its own in a larder, with a `contains` line")
        }
        Some(how) => format!(
            "write what was done to it behind the amount, `{part} .... 100 g, {how}`, or give it a block of its own with a `contains` line"
        ),
        None => format!("give `{}` a block of its own in a larder, with a `contains` line", line.name),
    };
    Some(Diagnostic::warning(CHECK.name, line.name.span, message).help(help))
}

/// Plants and animals of which something else is made than of those that a larder has under the same name.
const OF_ANOTHER: &[&str] = &[
    "rye", "wheat", "spelt", "barley", "oat", "maize", "corn", "rice", "buckwheat", "millet", "almond", "hazelnut", "walnut", "cashew", "pistachio", "peanut",
    "soya", "soy", "coconut", "goat", "sheep", "ewe", "buffalo", "duck", "quail", "goose",
];

/// What is made in the house and rarely bought, by the last word of its name. Common practice, no source.
fn is_made(name: &str) -> bool {
    const MADE: &[&str] = &["dough", "batter", "levain", "poolish", "biga", "sponge", "filling", "ganache", "frangipane", "glaze"];
    name.rsplit(' ').next().is_some_and(|last| MADE.contains(&last))
}

/// What is in so many doughs that nobody is surprised: the card names it all the same.
fn is_of_dough(allergen: &str) -> bool {
    ["wheat", "gluten", "rye", "spelt", "milk", "egg", "eggs"].contains(&allergen)
}

fn is_dough(part: &Part) -> bool {
    part.lines.iter().any(|line| line.is_flour && line.stays_in())
}

/// An ingredient that no larder knows, with the name of an allergen in its own, `rye starter`, which nothing else in the recipe holds.
fn named_after_an_allergen(recipe: &Recipe, line: &Ingredient, name: &str) -> Option<Diagnostic> {
    let all = || recipe.parts().flat_map(|(_, part)| &part.lines).filter_map(Ingredient::facts).flat_map(|facts| &facts.allergens);
    let unsaid = |law: Law| {
        let held = law.words(all().map(String::as_str));
        law.words([name]).into_iter().filter(move |word| !held.contains(word))
    };
    let mut said: Vec<&str> = unsaid(Law::Eu).collect();
    for word in unsaid(Law::Us) {
        if !said.contains(&word) {
            said.push(word);
        }
    }
    if said.is_empty() {
        return None;
    }
    let message = format!(
        "no larder knows `{}`; its name speaks of {}, and nothing says what it contains",
        line.name,
        show::list(&said)
    );
    let help = format!("give `{}` a block of its own in a larder, with a `contains` line that says it, or `contains nothing`", line.name);
    Some(Diagnostic::warning(CHECK.name, line.name.span, message).help(help))
}

/// A claim such as `vegan` or `gluten-free`.
struct Claim {
    said: String,
    rules: Rules,
    span: Span,
}

/// The claims in the names and notes of a recipe. Cautions speak of allergens that are there.
fn claims(recipe: &Recipe) -> Vec<Claim> {
    let mut claims: Vec<Claim> = Vec::new();
    let mut add = |text: &str, span: Span, is_name: bool| {
        for (said, rules) in claimed(text, is_name) {
            if !claims.iter().any(|claim| claim.said == said) {
                claims.push(Claim { said, rules, span });
            }
        }
    };
    let own = || recipe.parts().filter(|(_, part)| part.foreign.is_none()).map(|(_, part)| part);
    add(recipe.name.key.as_str(), recipe.name.span, true);
    // What stands on the label is claimed above all.
    let sale = &recipe.sale;
    if let Some(said) = &sale.sold_as {
        add(&said.to_lowercase(), recipe.name.span, true);
    }
    // What it is served with, or poured over, claims nothing of the food itself.
    for sentence in sale.directions.iter().flat_map(|said| said.split(['.', '!', ';', ':'])) {
        let sentence = sentence.to_lowercase();
        let beside = [" with ", " over ", " on ", " onto ", " in ", " into ", " to ", " as ", " for "];
        let end = beside.iter().filter_map(|word| sentence.find(word)).min().unwrap_or(sentence.len());
        add(sentence.get(..end).unwrap_or_default(), recipe.name.span, false);
    }
    for part in own() {
        add(part.name.key.as_str(), part.name.span, true);
    }
    let notes = recipe.texts.iter().chain(own().flat_map(|part| &part.texts)).filter(|text| text.kind == TextKind::Note);
    for text in notes {
        add(&plain(&text.words), text.span, false);
    }
    claims
}

/// Without one of these, one of [`WORDS`] and one that ends in `free` a text claims nothing.
const CLAIMING: &[&str] = &["based", "without", "no", "non", "zero"];

/// What a text claims. In a note `without milk` may tell how to mix; in a name it is a claim.
fn claimed(text: &str, is_name: bool) -> Vec<(String, Rules)> {
    let words = || text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let mut found = Vec::new();
    // Nearly no text claims anything.
    let claims = |word: &str| {
        word.ends_with("free") || CLAIMING.contains(&word) || WORDS.iter().any(|(known, _)| *known == word)
    };
    if !words().any(claims) {
        return found;
    }
    let words: Vec<&str> = words().collect();
    // `Not gluten-free` and `can be made vegan` are no claims; in a name, `no egg` is one.
    let denies = |word: &&str| ["not", "never", "can", "if", "only", "instead"].contains(word) || (*word == "no" && !is_name);
    if words.iter().any(denies) {
        return found;
    }
    let named = |word: &str| CLAIMS.iter().find(|(name, _)| word == *name || word.strip_suffix('s') == Some(name)).map(|(_, rules)| *rules);
    for (at, word) in words.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| words.get(at)).copied().unwrap_or("");
        if let Some((said, rules)) = WORDS.iter().find(|(known, _)| known == word) {
            found.push(((*said).to_owned(), *rules));
        }
        if *word == "based" && before == "plant" {
            found.push(("plant-based".to_owned(), Rules::Animals));
        }
        if let Some(rules) = word.strip_suffix("free").and_then(named) {
            found.push(((*word).to_owned(), rules));
        }
        if *word == "free"
            && let Some(rules) = named(before)
        {
            found.push((format!("{before}-free"), rules));
        }
        let next = words.get(at + 1).copied().unwrap_or("");
        let lists = (["without", "no", "non", "zero"].contains(word) && is_name) || (*word == "free" && ["from", "of"].contains(&next));
        if lists {
            let listed = words.iter().skip(at + 1).skip_while(|word| ["from", "of", "any", "added", "the"].contains(word));
            for listed in listed.take_while(|word| named(word).is_some() || ["and", "or", "any"].contains(word)) {
                found.extend(named(listed).map(|rules| (format!("without {listed}"), rules)));
            }
        }
    }
    found
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
    told || has_word(name, [stem])
}

/// Whether the recipe's own notes or cautions name it.
fn is_mentioned(recipe: &Recipe, allergen: &str) -> bool {
    let stem = allergen.strip_suffix('s').unwrap_or(allergen);
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none()).flat_map(|(_, part)| &part.texts);
    recipe.texts.iter().chain(own).any(|text| has_word(&plain(&text.words), [stem]))
}
