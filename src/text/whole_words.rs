//! Lists of whole words, and whether a word is one of them.
//!
//! Every word of many a text is asked for, so that bits tell of most of them that they are none: a word has one by how it begins and ends and
//! how long it is.

/// Whole words that are looked for together, in lower case. Their bits are worked out when miche is built.
#[derive(Debug)]
pub struct WholeWords {
    words: &'static [&'static str],
    bits: WordBits,
}

impl WholeWords {
    /// These words.
    pub const fn of(words: &'static [&'static str]) -> WholeWords {
        let (mut bits, mut rest) = ([0; 4], words);
        while let Some((word, others)) = rest.split_first() {
            bits = with_spot(bits, spot(word));
            rest = others;
        }
        WholeWords { words, bits: WordBits(bits) }
    }

    /// The words.
    pub const fn words(&self) -> &'static [&'static str] {
        self.words
    }

    /// Whether a word is one of them.
    #[inline]
    pub fn has(&self, word: &str) -> bool {
        self.bits.may_have(word) && self.words.contains(&word)
    }
}

/// The bits of the words of several lists: whether a word may be in one of them is told at once.
#[derive(Debug, Clone, Copy)]
pub struct WordBits([u64; 4]);

impl WordBits {
    /// Of all these lists.
    pub const fn of(lists: &[&WholeWords]) -> WordBits {
        let ([mut one, mut two, mut three, mut four], mut rest) = ([0; 4], lists);
        while let Some((list, others)) = rest.split_first() {
            let WordBits([first, second, third, fourth]) = list.bits;
            (one, two, three, four) = (one | first, two | second, three | third, four | fourth);
            rest = others;
        }
        WordBits([one, two, three, four])
    }

    /// Whether a word may be one of theirs; without comparing it with any.
    #[inline]
    pub fn may_have(&self, word: &str) -> bool {
        let spot = spot(word);
        self.0.get(usize::from(spot >> 6)).is_some_and(|bits| bits >> (spot & 63) & 1 == 1)
    }
}

const fn with_spot([one, two, three, four]: [u64; 4], spot: u8) -> [u64; 4] {
    let bit = 1 << (spot & 63);
    match spot >> 6 {
        0 => [one | bit, two, three, four],
        1 => [one, two | bit, three, four],
        2 => [one, two, three | bit, four],
        _ => [one, two, three, four | bit],
    }
}

const fn spot(word: &str) -> u8 {
    match word.as_bytes() {
        [first, .., last] => first.wrapping_mul(31) ^ last.wrapping_mul(7) ^ ((word.len() & 15) as u8),
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_one_of_a_list_by_all_its_letters() {
        let words = WholeWords::of(&["brush", "coat", "don’t", "a", "purée"]);
        for word in words.words {
            assert!(words.has(word), "{word}");
        }
        for word in ["", "b", "brushes", "brash", "boat", "don't", "coat with", "the", "until"] {
            assert!(!words.has(word), "{word}");
        }
        // The bits tell something.
        assert!(!["the", "until", "smooth", "minutes", "dough"].iter().any(|word| words.bits.may_have(word)));
        let both = WordBits::of(&[&words, &WholeWords::of(&["until", "tin"])]);
        assert!(["brush", "don’t", "until", "tin"].iter().all(|word| both.may_have(word)));
        assert!(!["the", "smooth", "minutes"].iter().any(|word| both.may_have(word)));
    }
}
