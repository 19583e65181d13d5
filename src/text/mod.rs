//! Named texts, the places in them, and a problem as one plain value.

pub mod capital;
pub mod clauses;
pub mod composed;
pub mod denied;
pub mod diagnostic;
pub mod hidden;
pub mod line_break;
pub mod quick;
pub mod source;
pub mod whole_words;
pub mod word_begins;
pub mod words;
