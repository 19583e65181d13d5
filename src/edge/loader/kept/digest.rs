//! Digests: by which it is known that two runs have read the same.

use sha2::{Digest as _, Sha256};

/// A number of some bytes that no others have: SHA-256 (FIPS 180-4).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of some bytes and nothing else.
    pub fn of(bytes: &[u8]) -> Digest {
        let mut digest = Digesting::of("bytes");
        digest.put(bytes);
        digest.digest()
    }

    /// One that was written down as bytes.
    pub fn from_bytes(bytes: [u8; 32]) -> Digest {
        Digest(bytes)
    }

    /// Its bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }

    /// In words of `0-9` and `a-f`.
    pub fn hex(&self) -> String {
        let digit = |nibble: u8| char::from_digit(u32::from(nibble), 16).unwrap_or('0');
        self.0.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
    }
}

/// A digest of several things one after the other.
#[derive(Debug, Clone)]
pub struct Digesting(Sha256);

impl Digesting {
    /// Begins one; digests of different things are never the same.
    pub fn of(what: &str) -> Digesting {
        let mut begun = Digesting(Sha256::new());
        begun.put(what.as_bytes());
        begun
    }

    /// Takes something in. With its length, so that `ab`, `c` is not `a`, `bc`.
    pub fn put(&mut self, bytes: &[u8]) -> &mut Digesting {
        self.0.update((bytes.len() as u64).to_le_bytes());
        self.0.update(bytes);
        self
    }

    /// Takes a number in.
    pub fn put_number(&mut self, number: usize) -> &mut Digesting {
        self.put(&(number as u64).to_le_bytes())
    }

    /// Takes something in as this build writes it for its developers: for keys that no other build reads.
    pub fn put_value(&mut self, value: &impl std::fmt::Debug) -> &mut Digesting {
        self.put(format!("{value:?}").as_bytes())
    }

    /// Of all that was taken in.
    pub fn digest(&self) -> Digest {
        Digest(self.0.clone().finalize().into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_parted_otherwise_has_another_digest() {
        let of = |parts: &[&str]| {
            let mut digest = Digesting::of("test");
            parts.iter().for_each(|part| {
                digest.put(part.as_bytes());
            });
            digest.digest()
        };
        assert_eq!(of(&["ab", "c"]), of(&["ab", "c"]));
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_ne!(of(&["ab"]), of(&["ab", ""]));
        assert_ne!(Digesting::of("one").digest(), Digesting::of("other").digest());
        assert_eq!(of(&[]).hex().len(), 64);
        assert!(Digest::from_bytes([0x0f; 32]).hex().starts_with("0f0f"));
    }
}
