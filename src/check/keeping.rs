//! What stands for days or months because something keeps it, salt, sourness, a spirit, a mould: told from the words of a file.

use crate::language::syntax::{Content, Line, Piece, StepKind, StepLine};
use crate::measure::quantity::Duration;
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{called, has_word_beginning};
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::step::Step;
use crate::text::words::has_whole_word;

/// Beginnings of words for what is kept by more than the cold.
const KEPT: &Beginnings = beginnings![
    "kraut",
    "kimchi",
    "koji",
    "brine",
    "pickl",
    "miso",
    "salted",
    "preserve",
    "cured",
    "cure",
    "curing",
    "brined",
    "olive",
    "infus",
    "steep",
    "macerat",
    "liqueur",
    "vodka",
    "brandy",
    "extract",
    "vinegar",
    "kombucha",
    "cheese",
    "chutney",
    "mincemeat",
];

/// Whole words for the same: of ginger and of rump nothing keeps.
const SPIRITS: &[&str] = &["gin", "rum"];

/// Beginnings of words in the names of steps in which such things stand, whatever else is said.
const STANDS_LONG: &Beginnings = beginnings![
    "ferment", "ripen", "culture", "incubat", "sour", "cure", "curing", "brine", "pickle", "salt", "age", "ageing",
    "mature", "steep", "infuse", "macerat",
];

/// Names that say nothing of what is done.
const STANDS: &Beginnings = beginnings!["stand", "rest", "leave", "keep", "wait", "store"];

/// Names of what is in a dough or a leaven.
const OF_DOUGH: &Beginnings = beginnings![
    "flour",
    "meal",
    "dough",
    "yeast",
    "leaven",
    "levain",
    "starter",
    "sourdough",
    "sour",
    "poolish",
    "sponge",
    "biga",
    "rye",
    "wheat",
];

/// Whether a text tells of what is kept by more than the cold.
fn tells_of_kept(text: &str) -> bool {
    has_word_beginning(text, KEPT) || has_word_beginning(text, FERMENTS) || has_whole_word(text, SPIRITS)
}

/// Whether the lines of a part list what a dough is made of, or list nothing.
pub(super) fn is_of_dough(part: &[Line]) -> bool {
    let mut lists = false;
    let found = part.iter().any(|line| match &line.content {
        Content::Ingredient(line) => {
            lists = true;
            let name = line.name.key.as_str();
            // Starch that thickens a paste of spices, and cream that is sour.
            line.name.has_word_beginning(OF_DOUGH) && !name.starts_with("sour ") && !name.starts_with("rice flour")
        }
        _ => false,
    });
    found || !lists
}

/// Whether the prose and the sign below a step, which the lines begin with, have a word that begins with one of these.
pub(super) fn says_below(lines: &[Line], words: &Beginnings) -> bool {
    tells_below(lines, |text| words.may_begin_in(text) && words.begin_in(&text.to_lowercase()))
}

/// Whether it is so of a text below a step, which the lines begin with.
pub(super) fn tells_below(lines: &[Line], is_so: impl Fn(&str) -> bool) -> bool {
    let below = |line: &&Line| matches!(line.content, Content::Prose(_) | Content::Until(_) | Content::Blank);
    lines.iter().take_while(below).any(|line| match &line.content {
        Content::Prose(pieces) | Content::Until(pieces) => {
            pieces.iter().any(|piece| matches!(piece, Piece::Text(text) if is_so(text)))
        }
        _ => false,
    })
}

/// So long something stands until it is sour by itself, without anybody's leaven.
const SOUR_AFTER: Duration = Duration::days(1);

/// Whether something ferments in a step, by its name, and for a day at least.
pub(super) fn turns_sour(step: &Step) -> bool {
    step.kind == StepKind::Wait && called(step, FERMENTS) && step.time.0 >= SOUR_AFTER
}

/// Whether a name of a file is that of something which is kept so.
pub(super) fn is_named(lines: &[Line]) -> bool {
    lines.iter().any(|line| match &line.content {
        Content::Recipe(name) | Content::Part { name, .. } => tells_of_kept(name.key.as_str()),
        _ => false,
    })
}

/// Whether a step of a part is a rest in which something other than a dough keeps itself; `below` are the lines after it, and
/// `named` whether the recipe's name tells of it.
pub(super) fn keeps_itself(step: &StepLine, part: &[Line], below: &[Line], named: &dyn Fn() -> bool) -> bool {
    let name = &step.name;
    let told = || named() || is_named(part) || tells_below(below, |text| tells_of_kept(&text.to_lowercase()));
    let stands_long = name.has_word_beginning(STANDS_LONG);
    step.kind.value == StepKind::Wait
        && (stands_long || name.has_word_beginning(STANDS))
        && !is_of_dough(part)
        && (stands_long || told())
}
