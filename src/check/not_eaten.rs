//! What nobody eats, raw or cooked, and raw milk as a drink.

use super::Subject;
use super::statement::{self, RAW_FLOUR_OR_EGG};
use crate::model::cooking::state::words;
use crate::model::cooking::{Later, first_draws, surely_does};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Refers};
use crate::model::step::Target;
use crate::text::diagnostic::Diagnostic;

/// The check under whose name it is told.
const CHECK: &str = "undercooked";

/// Plants that are poison whatever is done to them, by beginnings of words of their names, behind what is in them. Leaves are named in full: of rhubarb
/// and tomato there is a leather. EFSA and Regulation (EU) 2017/1237 on apricot kernels, the rest as poison centres list it; all from memory.
const POISON: &[(&str, &Beginnings)] = &[
    ("oxalic acid, and what harms the kidneys", beginnings!["rhubarb leaf", "rhubarb leaves"]),
    (
        "what frees cyanide",
        beginnings!["bitter almond", "apricot kernel", "apricot stone", "peach kernel", "plum kernel", "cherry kernel",],
    ),
    (SOLANINE, beginnings!["potato sprout", "potato leaf", "potato leaves"]),
    ("tomatine", beginnings!["tomato leaf", "tomato leaves"]),
    ("taxine, which stops the heart", beginnings!["yew"]),
    ("cytisine", beginnings!["laburnum"]),
    ("digitalis, which stops the heart", beginnings!["foxglove"]),
    ("what stops the heart", beginnings!["lily of the valley", "lily-of-the-valley", "oleander"]),
    ("aconitine", beginnings!["monkshood", "aconite", "wolfsbane"]),
    ("atropine", beginnings!["nightshade", "belladonna", "thorn apple", "datura"]),
    ("colchicine", beginnings!["autumn crocus", "meadow saffron"]),
    ("lycorine", beginnings!["daffodil", "narcissus"]),
    ("coniine", beginnings!["poison hemlock"]),
    ("cicutoxin", beginnings!["water hemlock"]),
    ("ricin", beginnings!["castor bean", "castor seed"]),
    ("saponins", beginnings!["holly berr", "ivy berr"]),
    ("viscotoxins", beginnings!["mistletoe"]),
    ("amatoxins", beginnings!["death cap"]),
    ("muscimol", beginnings!["fly agaric"]),
];
/// What is in green potatoes and their sprouts.
const SOLANINE: &str = "solanine, which boiling leaves";
/// Words by which it is made of something else, or only tastes of it: sweet kernels, and what is bought as a flavour without its poison.
#[rustfmt::skip]
const HARMLESS: &[&str] = &["sweet", "sugar", "marzipan", "paper", "wafer", "icing", "fondant", "chocolate", "extract", "essence", "oil", "flavour", "flavouring", "aroma",
    "liqueur", "syrup", "jam", "colour", "free",
];

/// What of a line is poison, cooked or not.
fn poison(line: &Ingredient) -> Option<&'static str> {
    if !matches!(line.refers, Refers::Pantry(_)) {
        return None;
    }
    let name = line.name.key.as_str();
    let listed = || POISON.iter().find(|(_, plants)| line.name.has_word(plants)).map(|(holds, _)| *holds);
    let is_green = || line.name.has_word(beginnings!["potato"]) && is_green_potato(line, name);
    let found = listed().or_else(|| is_green().then_some(SOLANINE))?;
    (!words(name).any(|word| HARMLESS.contains(&word))).then_some(found)
}

/// Words by which what is green or sprouts was cut away.
const TAKEN_OFF: &[&str] = &[
    "no",
    "not",
    "never",
    "without",
    "cut",
    "off",
    "away",
    "out",
    "removed",
    "trimmed",
    "discarded",
    "none",
    "peeled",
];
/// What may stand behind `green` that is said of a potato itself.
const BEHIND: &[&str] =
    &["ones", "too", "skin", "skins", "parts", "spots", "potato", "potatoes", "and", "or", "patches"];

/// Potatoes that are green or sprout, by their name or what is said of them: not `green parts cut away`.
fn is_green_potato(line: &Ingredient, name: &str) -> bool {
    if !words(name).any(|word| ["potato", "potatoes"].contains(&word)) {
        return false;
    }
    let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let is = |text: &str| {
        let all: Vec<&str> = words(text).collect();
        let is_taken_off = all.iter().any(|word| TAKEN_OFF.contains(word));
        let is_green = |at: usize| all.get(at + 1).is_none_or(|next| BEHIND.contains(next));
        let tells = |(at, word): (usize, &&str)| match *word {
            "green" | "greened" => is_green(at),
            "sprouts" | "sprouting" | "sprouted" => true,
            _ => false,
        };
        !is_taken_off && all.iter().enumerate().any(tells)
    };
    is(name) || is(&said)
}

/// Milk that nobody heated, by its name or what is said of it.
fn is_raw_milk(line: &Ingredient) -> bool {
    let is_milk = line.kind == Kind::Milk || line.name.has_word(beginnings!["raw milk"]);
    let said = || line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let raw = |text: &str| words(text).any(|word| ["raw", "unpasteurised", "unpasteurized"].contains(&word));
    is_milk && line.part().is_none() && (raw(line.name.key.as_str()) || raw(&said()))
}

/// What of a part nobody eats, and raw milk that nothing heats and nothing turns into cheese.
pub(super) fn problems(subject: &Subject<'_>, (id, part): (PartId, &Part), later: &mut Later<'_>) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    for (at, line) in part.lines.iter().enumerate() {
        if let Some(holds) = poison(line).filter(|_| line.stays_in() || !line.aside) {
            let message = format!("`{}` is nothing to eat: it holds {holds}", line.name);
            problems.push(
                Diagnostic::advice(CHECK, line.name.span, message)
                    .help("leave it out; health authorities and local food law go before this"),
            );
        } else if is_raw_milk(line) {
            let is_cheese = || {
                let makes = beginnings!["rennet", "culture", "starter", "kefir", "yoghurt", "yogurt"];
                part.lines.iter().any(|line| line.name.has_word(makes))
                    || part
                        .steps
                        .iter()
                        .any(|step| surely_does(step, beginnings!["cultur", "ferment", "curd", "churn", "pasteuri"]))
            };
            let is_said = || statement::states_of((subject.recipe, part), RAW_FLOUR_OR_EGG, Some(line));
            let Some(step) = first_draws(part).get(&Target::Line(at)).copied() else { continue };
            if later.is_line_cooked(id, step, at) == Some(false) && !is_cheese() && !is_said() {
                let message = format!(
                    "`{}` is never heated: raw milk may carry Listeria, Salmonella, Campylobacter and E. coli",
                    line.name
                );
                problems.push(Diagnostic::advice(CHECK, line.name.span, message).help(
                    "boil it, or add a `caution` line that says it is served raw; many laws want the words `raw milk` on the label or forbid its sale (Regulation (EC) 853/2004, \
                     21 CFR 1240.61; from memory), and local food law goes before this",
                ));
            }
        }
    }
    problems
}
