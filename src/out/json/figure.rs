//! A number as it stands in JSON.

use crate::measure::number::Number;
use serde::{Serialize, Serializer};

/// A number at full precision; a whole one without a decimal point.
pub(in crate::out) struct Figure(pub Number);

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0.to_whole() {
            Some(whole) => serializer.serialize_i64(whole),
            None => serializer.serialize_f64(self.0.to_f64()),
        }
    }
}
