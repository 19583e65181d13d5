//! The sums of the bench: what a baker works out on the back of a card, each by a published method.
//!
//! Linear sums are exact. Only `estimate` needs logarithms and roots; it is the one place here with floating point, and what it
//! gives is printed as an estimate.

pub mod estimate;
pub mod levain;
pub mod life;
pub mod makeup;
pub mod ripeness;
pub mod same_ferment;
pub mod sections;
pub mod tables;
pub mod topic;

pub use sections::sums;
pub use tables::{Asked, Row, Section, Sums, Table};
