//! The key words: which words begin a line, in which files, by which rule it is read, how it reads, and what an editor
//! offers. The parser, the problems of lines that cannot be read, completion and tidying all ask this table.

mod book_lines;
mod clauses;
mod lines;
mod log_lines;

use super::Rule;
use crate::language::syntax::FileKind;
use crate::text::quick::QuickMap;
pub(super) use clauses::words_of;
pub(crate) use clauses::{Begun, Clauses, begun_behind_ingredient};
pub(crate) use lines::Place;
use lines::{KeyLine, LINES, line};
use std::sync::OnceLock;

impl KeyLine {
    /// The words that can begin it in a file of this kind.
    fn words(&self, kind: FileKind) -> impl Iterator<Item = &'static str> {
        self.begins.iter().filter(move |(of, _)| *of == kind).flat_map(|(_, words)| words.iter().copied())
    }

    /// Whether it is read as such in every file, whatever stands behind the word: titles and texts.
    fn is_anywhere(&self) -> bool {
        matches!(self.rule, Rule::titled_line | Rule::text_line)
    }
}

/// All key words, those of a log of bakes and of a book among them.
fn all() -> impl Iterator<Item = &'static KeyLine> {
    LINES.iter().chain(log_lines::LINES).chain(book_lines::LINES)
}

/// The first word of a line, without a colon or comma behind it.
pub(super) fn first_word(said: &str) -> &str {
    let is_end = |c: char| c.is_whitespace() || matches!(c, ':' | ',' | '"' | '.');
    // Nearly all are of ASCII, in which bytes are characters.
    let plain = said.bytes().position(|byte| !byte.is_ascii() || is_end(byte.into()));
    let plain = plain.filter(|at| said.as_bytes().get(*at).is_some_and(u8::is_ascii));
    said.get(..plain.or_else(|| said.find(is_end)).unwrap_or(said.len())).unwrap_or("")
}

/// The rules by the words that begin their lines: every line of every file is asked for its own.
struct ByWord {
    /// Of titles and texts, which can stand in any file.
    anywhere: QuickMap<&'static str, Rule>,
    /// In files of a kind.
    of_kind: QuickMap<(FileKind, &'static str), Rule>,
}

fn by_word() -> &'static ByWord {
    static BY_WORD: OnceLock<ByWord> = OnceLock::new();
    BY_WORD.get_or_init(|| {
        let mut by_word = ByWord { anywhere: QuickMap::default(), of_kind: QuickMap::default() };
        let words = all().flat_map(|line| line.begins.iter().map(move |(kind, words)| (line, *kind, *words)));
        for (line, kind, word) in
            words.flat_map(|(line, kind, words)| words.iter().map(move |word| (line, kind, *word)))
        {
            // Of two lines that begin alike the first counts.
            by_word.of_kind.entry((kind, word)).or_insert(line.rule);
            if line.is_anywhere() {
                by_word.anywhere.entry(word).or_insert(line.rule);
            }
        }
        by_word
    })
}

/// The rule of a title or a text, which can stand in any file.
pub(super) fn rule_anywhere(word: &str) -> Option<Rule> {
    by_word().anywhere.get(word).copied()
}

/// Whether a word begins a title or a text, whatever the file.
pub(crate) fn is_key_anywhere(word: &str) -> bool {
    rule_anywhere(word).is_some()
}

/// The rule for a line that begins with a word, in a file of this kind.
pub(super) fn rule_for(kind: FileKind, word: &str) -> Option<Rule> {
    by_word().of_kind.get(&(kind, word)).copied()
}

/// Every word that can begin a line of a file of this kind.
pub(super) fn first_words(kind: FileKind) -> impl Iterator<Item = &'static str> {
    all().flat_map(move |line| line.words(kind))
}

/// The words that make a title.
pub(super) fn is_title(word: &str) -> bool {
    rule_anywhere(&word.to_ascii_lowercase()) == Some(Rule::titled_line)
}

/// What a rule is for, and how such a line reads. Three kinds of line begin with no key word.
pub(super) fn form_of(rule: Rule) -> (&'static str, &'static str) {
    match rule {
        Rule::ingredient_line => (
            "an ingredient line",
            "`NAME .... AMOUNT`, then clauses after commas, for example `butter .... 15 %, soft`",
        ),
        Rule::step_line => (
            "the head of a step",
            "`NAME: hands|tend|wait TIME`, then clauses after commas, for example `bake: tend 30 min, using oven at 220 C`",
        ),
        Rule::went_in_line => ("what went in", "`water .... 2.6 kg, at 18 C`, or `butter of filling .... 900 g`"),
        Rule::judged_line => ("a judgement", "`crumb: 4 of 5`, with words behind a comma"),
        Rule::ran_line => (
            "a step of a bake",
            "`mix: 05:34-05:47`, `rise: 05:47-` while it runs or `mix: 13 min`, with `, left at 26.5 C`, `, load 2`, \
             `, came to 98 x 88 g` or `, came to 75.5 g each` behind it; a judgement reads `crumb: 4 of 5, even`",
        ),
        Rule::equipment_line => ("equipment", "`oven x 1`, with `, holds 8 kg` or `, friction 12 C` behind it"),
        _ => all()
            .find(|line| line.rule == rule)
            .map_or(("this line", "as the reference says"), |line| (line.what, line.form)),
    }
}

/// What an editor offers at a place: the words, and what they are for.
pub(crate) fn lines_at(at: Place) -> impl Iterator<Item = (&'static str, &'static str)> {
    let all = all().flat_map(|line| line.offers);
    all.filter(move |(place, ..)| *place == at).map(|(_, words, about)| (*words, *about))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;
    use crate::language::syntax::Content;
    use crate::language::syntax::FileKind::{Bakes, Book};
    use crate::language::syntax::FileKind::{Day, Kitchen, Recipe};
    use crate::language::tidy::tidy;
    use crate::text::source::SourceId;

    const KINDS: [(FileKind, &str, &[Place]); 5] = [
        (Recipe, "recipe Loaf\n", &[Place::Title, Place::Head, Place::Part]),
        (Kitchen, "kitchen Quay\n\ningredient milk\n", &[Place::Title, Place::Pantry]),
        (Day, "day Market\n", &[Place::Title, Place::Day]),
        (Bakes, "bakes of \"loaf.miche\"\nbake 2027-03-01\n", &[Place::Title, Place::Log]),
        (Book, "book Quay\n", &[Place::Title, Place::Book]),
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
            include_str!("../../../grammar/editors/vim/syntax/miche.vim"),
            include_str!("../../../grammar/editors/miche.tmLanguage.json"),
        ];
        for (kind, title, places) in KINDS {
            for line in all() {
                for word in line.words(kind) {
                    let said = example(line, word);
                    let title = if matches!(line.rule, Rule::titled_line | Rule::bakes_of_line | Rule::book_line) {
                        ""
                    } else {
                        title
                    };
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
        for (place, words, _) in all().flat_map(|line| line.offers) {
            let kinds = KINDS.iter().filter(|(.., places)| places.contains(place));
            let known = kinds.into_iter().any(|(kind, ..)| rule_for(*kind, first_word(words)).is_some());
            assert!(known, "`{words}` is offered and cannot be read");
        }
    }
}
