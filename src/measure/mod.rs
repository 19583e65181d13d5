//! Exact numbers and quantities, one type a dimension, and how they are written.

pub mod apart;
pub mod in_text;
pub mod loose;
pub mod money;
pub mod net_quantity;
pub mod noun;
pub mod number;
pub mod own_words;
pub mod pan;
pub mod plain_degrees;
pub mod quantity;
pub(crate) mod running_sum;
pub mod show;
pub mod show_time;
pub mod shown;
pub mod sizes;
mod smaller_measures;
pub mod spoons;
pub mod temperature;
pub mod to_buy;
pub mod unit;
pub mod value;
