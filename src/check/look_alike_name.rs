//! `look-alike-name`: names with letters that only look like the ones they seem to be.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Name, Piece, StepClause, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickMap;
use std::borrow::Cow;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "look-alike-name",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "a word that mixes Latin letters with Greek or Cyrillic ones that look the same, and two names that cannot be told apart by eye",
    why: "A Cyrillic `о` in `flоur` looks like the Latin letter and is another one: the name is not found, not added up, not \
          known to the larder. Such letters come in by copying. Whole words in Greek or Cyrillic are read as they are.",
    bad: "recipe Rolls\nfl\u{43E}ur .... 500 g\nmix: hands 10 min\n    Mix {fl\u{43E}ur}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nмука .... 20 g\nmix: hands 10 min\n    Mix {flour} and {мука}.\n    until smooth\n",
    sources: &[
        "Unicode Technical Standard 39, Unicode Security Mechanisms: mixed scripts and confusables (from memory)",
    ],
    run: Run::Tree(run),
};

/// Letters of other scripts and the Latin letters that they look like.
const TWINS: &[(char, char)] = &[
    ('а', 'a'),
    ('е', 'e'),
    ('о', 'o'),
    ('р', 'p'),
    ('с', 'c'),
    ('у', 'y'),
    ('х', 'x'),
    ('і', 'i'),
    ('ј', 'j'),
    ('ѕ', 's'),
    ('к', 'k'),
    ('м', 'm'),
    ('т', 't'),
    ('в', 'b'),
    ('н', 'h'),
    ('ԁ', 'd'),
    ('ԛ', 'q'),
    ('ԝ', 'w'),
    ('А', 'A'),
    ('В', 'B'),
    ('Е', 'E'),
    ('К', 'K'),
    ('М', 'M'),
    ('Н', 'H'),
    ('О', 'O'),
    ('Р', 'P'),
    ('С', 'C'),
    ('Т', 'T'),
    ('У', 'Y'),
    ('Х', 'X'),
    ('І', 'I'),
    ('Ј', 'J'),
    ('Ѕ', 'S'),
    ('α', 'a'),
    ('ο', 'o'),
    ('ρ', 'p'),
    ('ν', 'v'),
    ('ι', 'i'),
    ('κ', 'k'),
    ('υ', 'u'),
    ('χ', 'x'),
    ('τ', 't'),
    ('Α', 'A'),
    ('Β', 'B'),
    ('Ε', 'E'),
    ('Ζ', 'Z'),
    ('Η', 'H'),
    ('Ι', 'I'),
    ('Κ', 'K'),
    ('Μ', 'M'),
    ('Ν', 'N'),
    ('Ο', 'O'),
    ('Ρ', 'P'),
    ('Τ', 'T'),
    ('Υ', 'Y'),
    ('Χ', 'X'),
];

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let names = names(tree);
    // Names in ASCII look like no other.
    if names.iter().all(|name| name.text.is_ascii()) {
        return;
    }
    let mut seen: QuickMap<Cow<'_, str>, &Name> =
        QuickMap::with_capacity_and_hasher(names.len() / 2, Default::default());
    for name in &names {
        if !name.text.is_ascii() && name.text.split(' ').any(is_mixed) {
            diagnostics.push(mixed(name));
            continue;
        }
        let looks = latin(name.key.as_str());
        let twin = seen.get(&looks).filter(|twin| twin.key != name.key);
        if let Some(twin) = twin {
            diagnostics.push(
                Diagnostic::warning(
                    CHECK.name,
                    name.span,
                    format!("`{name}` looks like another name here and is written with other letters"),
                )
                .also(twin.span, "looks the same")
                .help("write both with the same letters, or give one of them a name that can be told apart"),
            );
        } else {
            seen.entry(looks).or_insert(name);
        }
    }
}

fn mixed(name: &Name) -> Diagnostic {
    let strangers: Vec<String> = name
        .text
        .chars()
        .filter(|letter| script(*letter) == Some(Script::Other))
        .map(|letter| format!("`{letter}` (U+{:04X})", u32::from(letter)))
        .collect();
    let meant = latin(&name.text).into_owned();
    let problem = Diagnostic::warning(
        CHECK.name,
        name.span,
        format!("`{name}` mixes Latin letters with others that look like them: {}", strangers.join(", ")),
    );
    if meant.chars().any(|letter| script(letter) == Some(Script::Other)) {
        return problem.help("write the word in one script");
    }
    problem.help(format!("write `{meant}` with Latin letters")).mend("write it with Latin letters", name.span, meant)
}

/// The Latin word that a word looks like.
fn latin(text: &str) -> Cow<'_, str> {
    // Nearly all names; an editor asks at every key.
    if text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let latin = |letter| TWINS.iter().find(|(twin, _)| *twin == letter).map_or(letter, |(_, latin)| *latin);
    Cow::Owned(text.chars().map(latin).collect())
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Script {
    Latin,
    Other,
}

/// Latin, or one of the scripts with letters that look Latin.
fn script(letter: char) -> Option<Script> {
    match letter {
        'a'..='z' | 'A'..='Z' | '\u{C0}'..='\u{24F}' | '\u{1E00}'..='\u{1EFF}' if letter != '×' && letter != '÷' => {
            Some(Script::Latin)
        }
        '\u{370}'..='\u{3FF}' | '\u{400}'..='\u{52F}' | '\u{1F00}'..='\u{1FFF}' => Some(Script::Other),
        _ => None,
    }
}

fn is_mixed(word: &str) -> bool {
    let has = |wanted| word.chars().any(|letter| script(letter) == Some(wanted));
    has(Script::Latin) && has(Script::Other)
}

/// Every name in a file.
fn names(tree: &Tree) -> Vec<&Name> {
    let mut names: Vec<&Name> = Vec::new();
    for line in &tree.lines {
        names.extend(&line.only);
        match &line.content {
            Content::Recipe(name) | Content::Kitchen(name) | Content::Day(name) | Content::IngredientBlock(name) => {
                names.push(name)
            }
            Content::Choose { name, options } => names.extend(std::iter::once(name).chain(options)),
            Content::Part { name, from } => names.extend(std::iter::once(name).chain(from)),
            Content::Ingredient(ingredient) => names.push(&ingredient.name),
            Content::Equipment { name, .. } => names.push(name),
            Content::AlsoCalled(more) | Content::Contains(more) => names.extend(more),
            Content::Step(step) => {
                names.push(&step.name);
                names.extend(step.clauses.iter().filter_map(|clause| match &clause.value {
                    StepClause::Using(name, ..)
                    | StepClause::During(name)
                    | StepClause::Into(_, name)
                    | StepClause::Before(name)
                    | StepClause::After(name)
                    | StepClause::StraightAfter(name)
                    | StepClause::Within(_, name)
                    | StepClause::Station(name) => Some(name),
                    _ => None,
                }));
            }
            Content::Text { pieces, .. } | Content::Prose(pieces) | Content::Until(pieces) => {
                names.extend(pieces.iter().filter_map(|piece| match piece {
                    Piece::Use(_, name) => Some(name),
                    _ => None,
                }));
            }
            _ => {}
        }
    }
    names
}
