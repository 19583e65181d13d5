//! What a caution states: whether its author says what a check wants to hear, and not only a word of it.

use crate::language::syntax::TextKind;
use crate::model::cooking::cold_words;
use crate::model::recipe::{Part, Recipe};
use crate::model::step::Words;

/// One way to state something: of each of these groups a word stands in the same sentence. Words are beginnings in lower case;
/// with a `$` behind it a word is whole. `#` is an amount that is set into the text.
pub(super) type Way = &'static [&'static [&'static str]];

/// Words by which something is kept cold, and by which it is kept at all.
const COLD: &[&str] = cold_words::COLD.words();
const KEEP: &[&str] = &["keep", "kept", "store$", "stored$"];
/// What says how long.
const LONG: &[&str] = &["hour", "h$", "minute", "min$", "day$", "days$", "week", "month", "#"];

/// It is sour, by measure or by what was added.
const IS_SOUR: Way = &[&["ph$", "acidif", "acidity$", "acidic$"]];
/// It was tested for it.
const TESTED: Way = &[&["test"], &["shel", "stor", "process", "keep", "kept", "recipe", "method", "salt", "water"]];

/// Why food may be kept on a shelf, or that it is not.
pub(super) const SHELF: &[Way] = &[
    IS_SOUR,
    TESTED,
    &[&["shelf$", "shelf-stable$"]],
    &[&["steril"], &["jar", "bottle", "retort", "pressure", "#", "h$", "min$"]],
    &[&["pressure"], &["can$", "canned$", "canner$", "canning$", "cook", "retort"]],
    &[KEEP, COLD],
];

/// How food that is canned was made safe.
pub(super) const CANNED: &[Way] = &[IS_SOUR, &[&["pressure", "retort", "autoclave"]], &[KEEP, COLD]];

/// Why food keeps in the cold for longer than a week, or when it is thrown away.
pub(super) const LONG_IN_THE_COLD: &[Way] = &[
    IS_SOUR,
    TESTED,
    &[&["shelf$", "shelf-stable$"]],
    &[KEEP, LONG],
    &[
        KEEP,
        &["under$", "itself$", "safe$", "because$", "long$", "longer$", "for$"],
        &["salt", "sugar", "acid", "vinegar", "brine", "oil$", "juice$", "fat$", "cure", "ferment", "it$"],
    ],
    &[&["discard", "throw"], &["mould", "mold", "smell", "after$"]],
];

/// How long food may stand out of the cold, or why it may.
pub(super) const OUT_OF_THE_COLD: &[Way] = &[
    IS_SOUR,
    TESTED,
    &[
        LONG,
        &[
            "discard",
            "throw",
            "within$",
            "most$",
            "after$",
            "longer$",
            "than$",
            "sell",
            "sold$",
            "serve",
            "eat",
            "out$",
            "chill",
            "refrigerat",
        ],
    ],
    &[&["cured$", "ferment", "soured$"], &["is$", "are$", "it$", "keep", "kept", "by$"]],
];

/// How food is cooled.
pub(super) const COOLING: &[Way] = &[&[
    &["cool"],
    &[
        "ice", "shallow", "within$", "fast", "quick", "blast", "bath$", "divid", "water$", "hour", "h$", "min$",
        "minute", "#",
    ],
]];

/// Whether a `caution` of the part or of the recipe's head states something in one of these ways.
pub(super) fn states(recipe: &Recipe, part: &Part, ways: &[Way]) -> bool {
    let cautions = recipe.texts.iter().chain(&part.texts).filter(|text| text.kind == TextKind::Caution);
    cautions.map(|text| plain(&text.words)).any(|text| says_one(&text, ways))
}

/// The words of a text in lower case.
fn plain(words: &[Words]) -> String {
    let each = words.iter().map(|word| match word {
        Words::Text(text) => text.to_lowercase(),
        Words::Use { name, .. } => name.key.as_str().to_owned(),
        Words::Measure(_) => " # ".to_owned(),
    });
    each.collect()
}

fn says_one(text: &str, ways: &[Way]) -> bool {
    text.split_inclusive(['.', ';', '!', '?', ' '])
        .fold(vec![String::new()], |mut sentences, piece| {
            // `4.6` ends no sentence, and what ends one stands before a space.
            if let Some(last) = sentences.last_mut() {
                last.push_str(piece);
            }
            let ends =
                piece == " " && sentences.last().is_some_and(|last| last.trim_end().ends_with(['.', ';', '!', '?']));
            if ends {
                sentences.push(String::new());
            }
            sentences
        })
        .iter()
        .any(|sentence| ways.iter().any(|way| has_all(sentence, way)))
}

fn has_all(sentence: &str, way: Way) -> bool {
    let is_sign = |c: char| !c.is_alphanumeric() && c != '-' && c != '#';
    let words: Vec<&str> = sentence.split(is_sign).filter(|word| !word.is_empty()).collect();
    let is_met = |word: &str, said: &str| match said.strip_suffix('$') {
        Some(whole) => word == whole,
        None => word.starts_with(said),
    };
    way.iter().all(|group| words.iter().any(|word| group.iter().any(|said| is_met(word, said))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_by_itself_states_nothing() {
        for (text, ways, is_stated) in [
            ("Finished pH 4.2 or below.", SHELF, true),
            ("Serve with pheasant.", SHELF, false),
            ("Chill the oil in summer.", SHELF, false),
            ("A refrigerator jam: keep it chilled, it is not tested for shelf storage.", SHELF, true),
            ("Taste it cold. Keep the lid on.", SHELF, false),
            ("Pressure canned at {116 C}.", CANNED, true),
            ("Open the cans away from children.", CANNED, false),
            ("Store bought peas may contain nuts.", LONG_IN_THE_COLD, false),
            ("Keep out of reach of children.", LONG_IN_THE_COLD, false),
            ("Keep it under its own juice; throw it away when it smells wrong.", LONG_IN_THE_COLD, true),
            ("Keeps for 3 weeks, salted as it is.", LONG_IN_THE_COLD, true),
            ("Discard the skin.", OUT_OF_THE_COLD, false),
            ("Refrigerate leftovers.", OUT_OF_THE_COLD, false),
            ("Discard after four hours.", OUT_OF_THE_COLD, true),
            ("Cool tins burn too.", COOLING, false),
            ("Cool it in ice.", COOLING, true),
        ] {
            assert_eq!(says_one(&text.to_lowercase(), ways), is_stated, "{text}");
        }
    }
}
