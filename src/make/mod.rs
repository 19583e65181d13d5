//! From what is asked for to what is made: sizes, orders, batches, loads, what is weighed, and what is in stock.

pub mod apart;
pub mod batch;
pub mod cost;
pub mod day;
pub mod have;
pub mod loads;
pub mod mix;
mod one_bath;
pub mod order;
mod resize;
mod share;
pub mod size;
mod slack;
pub mod stock;
pub mod store;
pub mod use_up;
pub mod weigh;
pub mod went_in;
pub mod work;
