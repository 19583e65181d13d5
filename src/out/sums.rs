//! Bench sums in each format.

pub mod html;
pub mod json;
pub mod markdown;
pub mod text;
