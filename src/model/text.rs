//! Notes, cautions, credits and stories: what a file says that is neither an ingredient nor a step.

use crate::language::syntax::TextKind;
use crate::model::step::{Asked, Words};
use crate::text::source::Span;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

/// A note, a caution, a credit or a story. It is there once where several selections have the same, so that what is found out of it is
/// found out once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Text(Arc<WrittenText>);

/// What is written of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenText {
    /// Which.
    pub kind: TextKind,
    /// What it says.
    pub words: Vec<Words>,
    /// Where.
    pub span: Span,
    /// What checks ask of it.
    pub asked: Asked<OfText>,
}

/// What is found out of a text.
#[derive(Debug, Default)]
pub struct OfText {
    lower: OnceLock<String>,
    /// Whether it may claim something of the food, such as that it is vegan.
    pub may_claim: OnceLock<bool>,
}

impl From<WrittenText> for Text {
    fn from(written: WrittenText) -> Text {
        Text(Arc::new(written))
    }
}

impl Deref for Text {
    type Target = WrittenText;

    fn deref(&self) -> &WrittenText {
        &self.0
    }
}

impl Text {
    /// Where it is the same as another, as under another choice, it is there once.
    pub(crate) fn share_with(&mut self, other: &Text) {
        if self.0 == other.0 {
            self.0 = Arc::clone(&other.0);
        }
    }

    /// Its words in lower case, without what is set into them.
    pub fn lower(&self) -> &str {
        self.asked.lower.get_or_init(|| mere_words(&self.words))
    }
}

/// Words in lower case, without what is set into them.
pub(crate) fn mere_words(words: &[Words]) -> String {
    let texts = words.iter().filter_map(|word| match word {
        Words::Text(text) => Some(text.to_lowercase()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}
