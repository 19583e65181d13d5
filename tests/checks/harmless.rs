//! What only looks like what takes a caution away. A sentence that denies, or that is of something else, takes no caution away: each is put below every step of the recipes of `tests/wrong` that can
//! hurt, and what was told of them is told still. Findings of a trial, of which the sentences are; common practice, no source.

use super::unsafe_words::{is_quiet, is_told};
use super::{problems_of, told};
use std::fs;
use std::path::Path;

/// Checks that are about what can hurt.
const SAFETY: &[&str] = &[
    "bath-stays-in",
    "held-too-cool",
    "hot-or-caustic",
    "kept-too-long",
    "left-warm",
    "raw-flour-or-egg",
    "poisonous",
    "raw-meat",
    "raw-milk-or-sprouts",
    "shelf-storage",
    "slow-cooling",
    "undercooked",
];

const SENTENCES: &[&str] = &[
    "Do not let it boil.",
    "It is not pasteurised.",
    "Never freeze it.",
    "Serve with boiled rice and roast potatoes.",
    "Do not cook it further.",
    "It will not ferment or sour.",
    "Nothing here is cured, dried or smoked.",
    "No vinegar goes in.",
    "Do not chill it.",
    "Keep the fridge closed.",
    "Bake nothing else meanwhile.",
    "Serve with salad and grilled bread.",
    "Boil the kettle for tea.",
    "Fry an egg to go with it.",
    "Toast the bread meanwhile.",
    "Bake the bread meanwhile.",
    "Freeze what is left.",
    "Keep what is left chilled.",
    "Wash your hands and roast some nuts.",
    "It may be eaten raw.",
    "Take it out of the oven gloves drawer.",
    "Chill the bowl first.",
    "Add a splash of vinegar if you like.",
    "Cool the tins first.",
];

/// A recipe with a sentence below each of its steps.
fn with(text: &str, sentence: &str) -> String {
    let is_step = |line: &str| {
        let kinds = [": hands ", ": tend ", ": wait "];
        !line.starts_with([' ', '#']) && kinds.iter().any(|kind| line.contains(kind))
    };
    let lines = text.lines().map(|line| match is_step(line) {
        true => format!("{line}\n    {sentence}\n"),
        false => format!("{line}\n"),
    });
    lines.collect()
}

#[test]
fn no_harmless_sentence_takes_a_caution_away() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wrong");
    let (mut looked_at, mut silent) = (0, Vec::new());
    for entry in fs::read_dir(folder).expect("the folder of what is wrong") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        let Some(check) = SAFETY.iter().find(|check| name.starts_with(*check)) else { continue };
        let text = fs::read_to_string(&path).expect("a recipe");
        let count = |text: &str| problems_of(text).iter().filter(|problem| problem.check == *check).count();
        let before = count(&text);
        // Other files are not there where this one is tried.
        if before == 0 {
            continue;
        }
        looked_at += 1;
        for sentence in SENTENCES {
            if count(&with(&text, sentence)) < before {
                silent.push(format!("{name}: {sentence}"));
            }
        }
    }
    assert!(looked_at > 20, "only {looked_at} recipes");
    assert!(silent.is_empty(), "{} fall silent:\n{}", silent.len(), silent.join("\n"));
}

/// Findings of a trial: a name with its accents in two signs each was another name, without its milk, and so was a file's.
#[test]
fn what_is_typed_otherwise_is_the_same_name_and_the_same_file() {
    let text = "recipe Cups\nuse \"cr\u{e8}me.miche\"\ncream .... 200 g\ncre\u{300}me .... 100 g\nmix: hands 3 min\n    Mix {cream} and {cr\u{e8}me}.\n    until even\n\
                === cre\u{300}me.miche ===\nrecipe Cr\u{e8}me\ncream .... 50 g\nmilk .... 50 g\nmix: hands 3 min\n    Mix {cream} and {milk}.\n    until even\n";
    let problems = problems_of(text);
    assert!(
        !problems.iter().any(|problem| ["missing-use", "unknown-name"].contains(&problem.check)),
        "{}",
        told(&problems)
    );
}

/// Chilli is no cold, nor is what is denied: cooked rice stands in the warm beside it. A finding of this house.
#[test]
fn chilli_and_what_is_denied_chill_nothing() {
    let rice = |more: &str| {
        format!(
            "recipe Rice\nrice .... 500 g\nwater .... 1 kg\nchilli .... 20 g\nboil: tend 15 min, using hob\n    Boil {{rice}} in {{water}}.\n    until soft\nstand: wait 10 h\n    {more}\n"
        )
    };
    is_told(&rice("Stir in {chilli}."), "left-warm", "rice");
    is_told(&rice("Stir in {chilli}; do not chill it."), "left-warm", "rice");
    is_quiet(&rice("Stir in {chilli}; leave it in the fridge."), "left-warm");
    let oil = |more: &str| {
        format!(
            "recipe Oil\nfresh chilli .... 100 g\nolive oil .... 500 g\nsteep: wait 5 days\n    Leave {{fresh chilli}} in {{olive oil}}{more}.\n"
        )
    };
    is_told(&oil(""), "shelf-storage", "botulism");
    is_quiet(&oil(", in the fridge"), "shelf-storage");
}

/// Findings of a trial: butter beans and butternut squash in oil were taken for butter.
#[test]
fn what_begins_like_butter_is_none() {
    let oil = |name: &str| {
        format!(
            "recipe Jars\n{name} .... 400 g\nolive oil .... 500 g\nkeeps 14 days, at 20 C\nmix: hands 5 min\n    Cover {{{name}}} with {{olive oil}}.\n    until covered\n"
        )
    };
    for name in ["butter beans", "butternut squash", "pumpkin", "chickpeas"] {
        is_told(&oil(name), "shelf-storage", "botulism");
    }
    for name in ["garlic salt", "ground ginger", "chilli oil"] {
        is_quiet(&oil(name), "shelf-storage");
    }
}
