//! Lines that stand above a recipe elsewhere: `serves 4`, `prep time 20 min`, `Ingredients:`, `oven 220 C`.

use super::SaidHere;
use crate::language::syntax::FileKind;

const MAKES: &str = "what comes out is written `makes 12 buns`, or `makes 4 servings`";
const NO_HEADING: &str =
    "no heading is needed: below `part NAME` stand its ingredients, one a line, and below them its steps";
const TIMES: &str = "times are added up from the steps, of which each has its own: `mix: hands 10 min`";
const HEAT: &str = "the heat belongs to the step that wants it: `bake: tend 20 min, using oven at 220 C`";
const WHEN: &str =
    "when it is to be ready is asked of the plan, `miche plan FILE --ready \"2026-12-05 15:00\"`, or stands in a day";
const KEPT: &str = "what changed when is told by git and `miche history`; other words stand behind `note`";
const CONTAINS: &str =
    "what is in an ingredient is said once, in a larder: `ingredient NAME`, and below it `contains gluten`";

/// What people call such lines, and how they are said here.
#[rustfmt::skip]
const HEADINGS: &[(FileKind, &[&str], &str)] = &[
    (FileKind::Kitchen, &["price"], "it is written `costs 1.10 per kg`"),
    (FileKind::Kitchen, &["allergen", "allergens"], "it is written `contains gluten`"),
    (FileKind::Kitchen, &["density"], "it is written `weighs 1.03 g per ml`"),
    (FileKind::Kitchen, &["weight"], "it is written `one weighs 55 g`"),
    (FileKind::Kitchen, &["trimming"], "it is written `yield 85 %`"),
    (FileKind::Book, &["author"], "it is written `by NAME`"),
    (FileKind::Book, &["base", "site", "url"], "it is written `address https://skerrow.example/bakes/`"),
    (FileKind::Book, &["make", "recipe", "use"], "it is written `page \"buns.miche\"`"),
    (FileKind::Book, &["part", "section"], "it is written `chapter NAME`"),
    (FileKind::Book, &["title"], "it is written `book NAME`"),
    (FileKind::Recipe, &["author"], "it is written `by NAME`"),
    (FileKind::Recipe, &["category", "keywords", "tags"], "it is written `filed under WORD, WORD`"),
    (FileKind::Recipe, &["description", "intro"], "it is written `story TEXT`"),
    (FileKind::Recipe, &["image", "photo"], "it is written `picture \"FILE\", WHAT IS SEEN ON IT`"),
    (FileKind::Recipe, &["source"], "it is written `credit TEXT`"),
    (FileKind::Recipe, &["title"], "it is written `recipe NAME`"),
    (FileKind::Recipe, &["serves", "servings", "portions", "yield", "yields", "quantity", "gives", "produces"], MAKES),
    (FileKind::Recipe, &["ingredients", "method", "directions", "steps", "procedure", "instructions"], NO_HEADING),
    (FileKind::Recipe, &["prep", "preparation", "cook", "cooking", "total", "time", "duration"], TIMES),
    (FileKind::Recipe, &["oven", "preheat", "temperature"], HEAT),
    (FileKind::Recipe, &["date", "version", "revision", "updated"], KEPT),
    (FileKind::Recipe, &["allergen", "allergens", "contains"], CONTAINS),
    (FileKind::Recipe, &["ready", "serve", "wanted"], WHEN),
];

/// What to write for a line that begins with this word, in small letters, in a file of this kind.
pub(in super::super) fn heading(kind: FileKind, word: &str, text: &str) -> Option<SaidHere> {
    let (_, _, help) = HEADINGS.iter().find(|(of, words, _)| *of == kind && words.contains(&word))?;
    // `total flour 830 g` and `cook the onions` tell of no time, `serve 4` of no day.
    let rest = text.get(word.len()..).unwrap_or_default();
    let is_meant = match *help {
        TIMES => {
            rest.trim_start().to_lowercase().starts_with("time")
                || rest.starts_with(':')
                || matches!(word, "time" | "duration")
        }
        HEAT => rest.contains(|c: char| c.is_ascii_digit()),
        NO_HEADING => rest.trim_matches([':', ' ', '-', '.']).is_empty(),
        WHEN => rest.contains(':') || rest.contains("20"),
        _ => true,
    };
    is_meant.then(|| SaidHere::help(*help))
}
