//! Exact numbers and quantities, one type a dimension, and how they are written.

pub mod number;
pub mod pan;
pub mod quantity;
pub mod show;
pub mod shown;
pub mod spoons;
pub mod temperature;
pub mod unit;
pub mod value;
