//! Chance for tests, the same on every machine.

/// A small generator with a seed: splitmix64 (S. Vigna, public domain).
pub struct Dice(pub u64);

impl Dice {
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) % limit.max(1) as u64) as usize
    }
}
