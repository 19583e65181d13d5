//! Named texts, the places in them, and a problem as one plain value.

pub mod diagnostic;
pub mod source;
