//! Numbers that look random and are the same every time.

use super::dense::Dense;
use super::problem::Minute;

/// A row of such numbers.
pub struct Noise(u64);

impl Noise {
    /// The row from its beginning.
    pub fn new() -> Noise {
        Noise(0x9E37_79B9_7F4A_7C15)
    }

    /// From 0 to less than so many.
    pub fn below(&mut self, many: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i64::try_from(self.0 >> 2).unwrap_or(0) % many.max(1)
    }

    /// An order of preference with each place moved by so much at most.
    pub fn shaken(&mut self, keys: &Dense<i64>, by: Minute) -> Dense<i64> {
        keys.iter().map(|key| key + self.below(2 * by + 1) - by).collect()
    }
}
