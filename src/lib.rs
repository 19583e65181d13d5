//! miche: a compiler for formulas that bakers write.

// Named by what pest generates without its `std` feature, of which nothing is needed here.
extern crate alloc;

pub mod aims;
pub mod check;
pub mod edge;
pub mod figures;
pub mod language;
pub mod make;
pub mod measure;
pub mod model;
pub mod out;
pub mod plan;
pub mod solve;
pub mod text;
