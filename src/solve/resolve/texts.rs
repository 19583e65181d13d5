//! Notes, cautions and credits, and what they share with the prose of steps: words with amounts set in.

use super::reading::Reading;
use crate::language::syntax::{Content, Line, PictureLine, Piece};
use crate::model::published::Picture;
use crate::model::recipe::{Selection, Text, WrittenText};
use crate::model::step::{Asked, Words};
use crate::text::diagnostic::Diagnostic;

/// The texts of a head, a part or a day, line by line.
#[derive(Default)]
pub(super) struct Texts {
    all: Vec<WrittenText>,
    /// Whether prose on the next line goes on with the last of them.
    continues: bool,
    /// Whether a blank line stands before it, so that a paragraph begins.
    paragraph: bool,
}

impl Texts {
    /// Takes in a note, a caution, a credit, or a line that continues one; other lines end it.
    pub(super) fn take(&mut self, line: &Line, selection: &Selection, reading: &mut Reading) {
        let pieces = match &line.content {
            Content::Text { kind, pieces } => {
                self.continues = selection.holds(&line.only);
                if !self.continues {
                    return;
                }
                self.paragraph = false;
                self.all.push(WrittenText { kind: *kind, words: Vec::new(), span: line.said, asked: Asked::default() });
                pieces
            }
            Content::Prose(pieces) if self.continues => pieces,
            Content::Blank => {
                self.paragraph = true;
                return;
            }
            Content::Comment | Content::Prose(_) => return,
            _ => {
                self.continues = false;
                return;
            }
        };
        let Some(text) = self.all.last_mut() else { return };
        if !text.words.is_empty() {
            push_text(&mut text.words, if self.paragraph { "\n\n" } else { "\n" });
        }
        self.paragraph = false;
        mere_words(pieces, "a note", &mut text.words, reading);
    }

    /// All that were taken in.
    pub(super) fn all(self) -> Vec<Text> {
        self.all.into_iter().map(Text::from).collect()
    }
}

/// A picture with words; one without was reported.
pub(super) fn picture(line: &PictureLine) -> Option<Picture> {
    let words = line.words.as_ref()?.value.clone();
    Some(Picture { path: line.path.value.clone(), words, span: line.path.span })
}

/// Words in which nothing is taken: notes, cautions, cues.
pub(super) fn mere_words(pieces: &[Piece], place: &str, words: &mut Vec<Words>, reading: &mut Reading) {
    for piece in pieces {
        match piece {
            Piece::Text(said) => push_text(words, said),
            Piece::Measure(quantities) => words.extend(reading.chain(quantities, None).map(Words::Measure)),
            Piece::Use(_, name) => {
                let message = format!("`{name}` is taken in {place}, but only the prose of a step takes ingredients");
                let problem = Diagnostic::error("stray-line", name.span, message);
                reading.report(problem.help("write the name without braces"));
                push_text(words, &name.text);
            }
        }
    }
}

/// Adds text to the words, to the last of them where that is text too.
pub(super) fn push_text(words: &mut Vec<Words>, text: &str) {
    match words.last_mut() {
        Some(Words::Text(last)) => last.push_str(text),
        // Blank lines before the first word say nothing.
        None if text.trim().is_empty() => {}
        // Most lines end behind it.
        _ => {
            let mut own = String::with_capacity(text.len() + 1);
            own.push_str(text);
            words.push(Words::Text(own));
        }
    }
}
