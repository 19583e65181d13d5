//! Figures in every format. A product says what it shows as a list of [`block`]s and each format draws them; sheets for the
//! bench have a layout of their own. Nothing here rounds or computes: every figure was decided in [`crate::figures`].

pub mod aimed;
pub mod bakes;
pub mod block;
pub mod card;
pub mod comparison;
pub mod cost;
pub mod epub;
pub mod history;
pub mod html;
pub mod json;
pub mod label;
pub mod larder;
mod lettering;
pub mod list;
pub mod markdown;
pub mod page;
mod panel;
pub mod pdf;
pub mod picture;
pub mod plan;
pub mod reader;
pub mod report;
pub mod schema;
pub mod sheet;
pub mod site;
pub mod sticker;
pub mod stock;
pub mod sums;
pub mod swap;
pub mod text;
mod typeset;
