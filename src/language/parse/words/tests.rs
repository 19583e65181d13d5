//! Every key word is known to everybody who reads the table.

use super::*;
use crate::language::parse::parse;
use crate::language::syntax::Content;
use crate::language::tidy::tidy;
use crate::text::source::SourceId;

const KINDS: [(FileKind, &str, &[Place]); 3] = [
    (Recipe, "recipe Loaf\n", &[Place::Title, Place::Head, Place::Part]),
    (Kitchen, "kitchen Quay\n\ningredient milk\n", &[Place::Title, Place::Pantry]),
    (Day, "day Market\n", &[Place::Title, Place::Day]),
];

/// A line that begins with a word, made of how its kind of line reads.
fn example(line: &KeyLine, word: &str) -> String {
    let forms: Vec<&str> = line.form.split('`').skip(1).step_by(2).collect();
    let first = forms.first().expect("a form shows a line");
    let own = forms.iter().find(|form| first_word(form) == word);
    own.map_or_else(|| first.replacen(first_word(first), word, 1), |own| (*own).to_owned())
}

/// Every key word is read, offered, kept by tidying, and known to the problems and to the editors' colours.
#[test]
fn everybody_knows_every_key_word() {
    let colours = [
        include_str!("../../../../grammar/editors/vim/syntax/miche.vim"),
        include_str!("../../../../grammar/editors/miche.tmLanguage.json"),
    ];
    for (kind, title, places) in KINDS {
        for line in LINES {
            for word in line.words(kind) {
                let said = example(line, word);
                let title = if line.rule == Rule::titled_line { "" } else { title };
                let text = format!("{title}{said}\n");
                let (tree, problems) = parse(SourceId(0), &text);
                let read = tree.lines.last().expect("a line");
                assert!(!matches!(read.content, Content::Stray), "`{said}` is not read: {problems:#?}");
                assert_eq!(tree.kind, kind, "`{said}`");
                let untidy = format!("{title}{}   \n", said.replacen(word, &word.to_uppercase(), 1));
                let tidied = tidy(&untidy, None).expect("what was read can be tidied");
                assert!(tidied.contains(&said), "`{said}` is not tidied:\n{tidied}");
                let mut offered = places.iter().flat_map(|place| lines_at(*place));
                assert!(offered.any(|(words, _)| first_word(words) == word), "`{word}` is not offered");
                assert!(first_words(kind).any(|known| known == word));
                for colour in colours {
                    assert!(colour.contains(word), "`{word}` has no colour");
                }
            }
        }
    }
}

/// What is offered begins with a key word of a file in which it is offered.
#[test]
fn everything_that_is_offered_is_a_key_word() {
    for (place, words, _) in LINES.iter().flat_map(|line| line.offers) {
        let kinds = KINDS.iter().filter(|(.., places)| places.contains(place));
        let known = kinds.into_iter().any(|(kind, ..)| rule_for(*kind, first_word(words)).is_some());
        assert!(known, "`{words}` is offered and cannot be read");
    }
}
