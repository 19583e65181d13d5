//! Cards in every format: one file each. An output only lays out; every figure was decided in [`crate::figures::card`].

pub mod calendar;
pub mod comparison;
pub(crate) mod document;
pub mod figures;
pub mod history;
pub mod html;
pub mod json;
pub mod list;
pub mod markdown;
pub mod pdf;
pub mod plan;
pub mod plan_html;
pub mod plan_json;
pub mod plan_svg;
pub mod report;
pub mod sums;
pub mod text;
