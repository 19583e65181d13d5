//! How the words of a text begin, and whether one of them begins with `bak`, as `bake` and `baking` do.
//!
//! Where a word has to end as well, `|` stands behind it: `jam|` is in `plum jam` and in `jam-filled`, and not in `jamaican`. Of verbs, which have many endings,
//! only the beginnings are listed.
//!
//! It is asked so often that bits tell what no word begins with.

/// A bit for the first three bytes of each word of a text: others may have the same bit, so that it tells only what is not there.
pub type Begins = [u64; 16];

/// Beginnings of words that are looked for together. Which bits a text must have for one of them is worked out when miche is built.
#[derive(Debug)]
pub struct Beginnings {
    words: &'static [&'static str],
    begins: Begins,
    /// For each first letter, by five of its bits, which of the words have it: a bit for each by its number, from the 64th on those of the first again. Of forty
    /// words two or three are compared then with a word that may be one of them.
    letters: [u64; 32],
}

impl Beginnings {
    /// Beginnings of two letters at least; in lower case.
    pub const fn of(words: &'static [&'static str]) -> Beginnings {
        let (mut begins, mut letters) = ([0; 16], [0; 32]);
        let (mut rest, mut number) = (words, 1_u64);
        while let Some((word, others)) = rest.split_first() {
            if let [first, ..] = word.as_bytes() {
                set(&mut letters, (*first & 31, number));
            }
            number = number.rotate_left(1);
            match word.as_bytes() {
                [first, second] | [first, second, ENDED] => {
                    let mut third = 0;
                    while third < 32 {
                        set(&mut begins, spot(*first, *second, third));
                        third += 1;
                    }
                }
                [first, second, third, ..] => set(&mut begins, spot(*first, *second, *third)),
                // It may be the beginning of anything.
                _ => begins = [u64::MAX; 16],
            }
            rest = others;
        }
        Beginnings { words, begins, letters }
    }

    /// The beginnings.
    pub const fn words(&self) -> &'static [&'static str] {
        self.words
    }

    /// Whether one of them may begin a word of a text with these bits.
    #[inline]
    pub fn may_be_in(&self, begins: &Begins) -> bool {
        // One by one, which is some thirty instructions; a loop is a hundred.
        let ([a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p], other) = (self.begins, begins);
        let [q, r, s, t, u, v, w, x, y, z, aa, bb, cc, dd, ee, ff] = *other;
        let first = a & q | b & r | c & s | d & t | e & u | f & v | g & w | h & x;
        let rest = i & y | j & z | k & aa | l & bb | m & cc | n & dd | o & ee | p & ff;
        (first | rest) != 0
    }

    /// Whether one of them may begin a word of a name whose words begin so.
    #[inline]
    pub fn may_be_in_name(&self, name: NameBegins) -> bool {
        let [first, second, third] = name.numbers();
        name.is_any() || self.has(bit_at(first)) || self.has(bit_at(second)) || self.has(bit_at(third))
    }

    /// Whether one of them begins a word, by what stands from its beginning to the end of the text.
    #[inline]
    pub(crate) fn begin(&self, word: &[u8]) -> bool {
        self.with_first_letter_of(word).any(|beginning| begins_so(word, beginning.as_bytes()))
    }

    /// Whether one of them may begin a word of which the bit has that number; of `None` any may.
    #[inline]
    pub(crate) fn may_begin_word(&self, number: Option<u16>) -> bool {
        number.is_none_or(|number| self.has(bit_at(number)))
    }

    /// Those that may have the first letter of a word.
    #[inline]
    fn with_first_letter_of(&self, word: &[u8]) -> impl Iterator<Item = &'static str> {
        let letter = word.first().map(|first| usize::from(*first & 31));
        let mut left = letter.and_then(|letter| self.letters.get(letter)).copied().unwrap_or(0);
        let mut at = usize::MAX;
        std::iter::from_fn(move || {
            // Those behind the 64th first, then the next of the first 64.
            at = at.saturating_add(64);
            if at >= self.words.len() {
                at = usize::try_from(left.trailing_zeros()).ok().filter(|_| left != 0)?;
                left &= left.wrapping_sub(1);
            }
            self.words.get(at).copied()
        })
    }

    #[inline]
    fn has(&self, (slot, bit): (u8, u64)) -> bool {
        self.begins.get(usize::from(slot)).is_some_and(|begins| begins & bit != 0)
    }

    /// Whether a text, in capitals or not, may have a word that begins with one of them: asked before it is copied into lower case.
    pub fn may_begin_in(&self, text: &str) -> bool {
        // A letter has one bit, as a capital or not; what other scripts have for capitals is not asked for here.
        let may_begin = |rest: &[u8]| place(rest).is_none_or(|place| self.has(place));
        !text.is_ascii() || some_word(text.as_bytes(), may_begin)
    }

    /// Whether a text has a word that begins with one of them.
    pub fn begin_in(&self, text: &str) -> bool {
        let begins = |rest: &[u8]| {
            let may_be = place(rest).is_none_or(|place| self.has(place));
            may_be && self.begin(rest)
        };
        if text.is_ascii() {
            return some_word(text.as_bytes(), begins);
        }
        word_starts(text).any(|at| begins(text.as_bytes().get(at..).unwrap_or_default()))
    }
}

impl AsRef<[&'static str]> for Beginnings {
    fn as_ref(&self) -> &[&'static str] {
        self.words
    }
}

/// Beginnings of words, where they are asked for: `says(step, beginnings!["bak", "boil"])`.
macro_rules! beginnings {
    ($($word:literal),+ $(,)?) => {
        const { &$crate::text::word_begins::Beginnings::of(&[$($word),+]) }
    };
}
pub(crate) use beginnings;

/// The bit of a word by what stands from its beginning to the end of the text; `None` for one byte, which may begin anything.
#[inline]
pub const fn place(text: &[u8]) -> Option<(u8, u64)> {
    match number(text) {
        Some(number) => Some(bit_at(number)),
        None => None,
    }
}

/// The number of that bit.
#[inline]
pub(crate) const fn number(text: &[u8]) -> Option<u16> {
    match text {
        [first, second, third, ..] => Some(spot_number(*first, *second, *third)),
        [first, second] => Some(spot_number(*first, *second, 0)),
        _ => None,
    }
}

/// The bit of three bytes. What begins alike with two has 32 bits, by the third.
const fn spot(first: u8, second: u8, third: u8) -> (u8, u64) {
    bit_at(spot_number(first, second, third))
}

/// Its number among all bits.
const fn spot_number(first: u8, second: u8, third: u8) -> u16 {
    let two = ((first >> 3) & 3) << 5 | (second & 31);
    let within = two.wrapping_add((third & 31).wrapping_mul(37)) & 127;
    ((first & 7) as u16) << 7 | within as u16
}

#[inline]
pub(crate) const fn bit_at(number: u16) -> (u8, u64) {
    ((number >> 6 & 15) as u8, 1 << (number & 63))
}

/// Sets a bit; written with patterns, since nothing is indexed here and a loop over a slice is not for what is worked out at building.
const fn set(slots: &mut [u64], (slot, bit): (u8, u64)) {
    let (mut left, mut at) = (slots, 0);
    while let Some((first, rest)) = left.split_first_mut() {
        if at == slot {
            *first |= bit;
        }
        left = rest;
        at += 1;
    }
}

/// How the words of a name begin: the bits of three words at most, by their numbers, and how many of them there are. Nearly all names have no more, and of
/// those it is told nearly beyond doubt whether one of their words is sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct NameBegins(u32);

/// Bits of the number of a bit.
const NUMBER: u32 = 10;
const EACH: u32 = (1 << NUMBER) - 1;
const ALL: u32 = (1 << (3 * NUMBER)) - 1;

impl NameBegins {
    /// Of no word yet, which may be any.
    pub const NONE: NameBegins = NameBegins(0);
    /// Of more words than three, or of one that may be any.
    const ANY: NameBegins = NameBegins(u32::MAX);

    /// Of the words of a name.
    pub fn of(name: &str) -> NameBegins {
        let mut begins = NameBegins::NONE;
        each_word(name, |at| begins = begins.with(name.as_bytes().get(at..).unwrap_or_default()));
        begins
    }

    /// With one word more, by what stands from its beginning to the end of the name; a last word of one letter may be any.
    #[inline]
    pub fn with(self, word: &[u8]) -> NameBegins {
        let count = self.0 >> (3 * NUMBER);
        let number = match word {
            _ if count == 3 => return NameBegins::ANY,
            [first, second, third, ..] => spot_number(*first, *second, *third),
            [first, second] => spot_number(*first, *second, 0),
            _ => return NameBegins::ANY,
        };
        let number = u32::from(number);
        // Where there are fewer than three, the first stands for the others.
        let numbers = match count {
            0 => number << (2 * NUMBER) | number << NUMBER | number,
            _ => self.0 & !(EACH << (count * NUMBER) | !ALL) | number << (count * NUMBER),
        };
        NameBegins((count + 1) << (3 * NUMBER) | numbers)
    }

    /// Whether what is sought must be looked for.
    #[inline]
    fn is_any(self) -> bool {
        self == NameBegins::NONE || self == NameBegins::ANY
    }

    /// The numbers of the bits of its words.
    #[inline]
    const fn numbers(self) -> [u16; 3] {
        [self.number(0), self.number(1), self.number(2)]
    }

    #[inline]
    const fn number(self, at: u32) -> u16 {
        (self.0 >> (at * NUMBER) & EACH) as u16
    }

    /// Whether a word of both may begin alike.
    pub fn may_share(self, other: NameBegins) -> bool {
        self.is_any() || other.is_any() || self.numbers().iter().any(|number| other.numbers().contains(number))
    }
}

/// What a byte is to words: no part of one, part of one, the rest of a sign that is longer than a byte, the beginning of such a sign.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Byte {
    Between,
    Within,
    Rest,
    Wide,
}

const BYTES: [Byte; 256] = {
    let mut bytes = [Byte::Between; 256];
    let (mut left, mut byte) = (bytes.as_mut_slice(), 0_u8);
    while let Some((first, rest)) = left.split_first_mut() {
        *first = match byte {
            b'-' | b'0'..=b'9' | b'A'..=b'Z' | b'a'..=b'z' => Byte::Within,
            0..128 => Byte::Between,
            128..192 => Byte::Rest,
            _ => Byte::Wide,
        };
        left = rest;
        byte = byte.wrapping_add(1);
    }
    bytes
};

/// Whether a byte is part of a word, whatever stands beside it.
#[inline]
pub fn is_plain(byte: u8) -> bool {
    BYTES.get(usize::from(byte)) == Some(&Byte::Within)
}

/// The byte at which each word of a text begins.
fn word_starts(text: &str) -> impl Iterator<Item = usize> {
    let mut in_word = false;
    text.bytes().enumerate().filter_map(move |(at, byte)| {
        let goes_on = match BYTES.get(usize::from(byte)).copied().unwrap_or(Byte::Between) {
            Byte::Between => false,
            Byte::Within => true,
            Byte::Rest => return None,
            Byte::Wide => text.get(at..).and_then(|rest| rest.chars().next()).is_some_and(char::is_alphanumeric),
        };
        let begins = goes_on && !in_word;
        in_word = goes_on;
        begins.then_some(at)
    })
}

/// Hands over the byte at which each word of a text begins, from the first to the last: as [`word_starts`], in fewer steps for ASCII.
pub fn each_word(text: &str, mut begins: impl FnMut(usize)) {
    if !text.is_ascii() {
        return word_starts(text).for_each(begins);
    }
    // From what lies between two words to the next one, and through that one: two short loops, and nothing to be kept in mind.
    let bytes = text.as_bytes();
    let mut at = 0;
    while let Some(between) = bytes.get(at..) {
        let Some(begin) = between.iter().position(|byte| is_plain(*byte)) else { return };
        begins(at + begin);
        let word = between.get(begin..).unwrap_or_default();
        let Some(end) = word.iter().position(|byte| !is_plain(*byte)) else { return };
        at += begin + end;
    }
}

/// Whether four letters stand in a text, wherever in a word, in capitals or not: asked before a text is copied to be searched.
pub fn has_letters(text: &str, letters: &[u8; 4]) -> bool {
    let [first, ..] = *letters;
    let mut begins = memchr::memchr2_iter(first, first.to_ascii_uppercase(), text.as_bytes());
    let here = |at: usize| text.as_bytes().get(at..at + letters.len());
    begins.any(|at| here(at).is_some_and(|here| here.eq_ignore_ascii_case(letters)))
}

/// Whether a text has a word that begins with one of these, as `baking` does with `bak`. Where the whole word is meant,
/// [`has_whole_word`](super::words::has_whole_word).
#[inline]
pub fn has_word_beginning<'b>(text: &str, beginnings: impl AsRef<[&'b str]>) -> bool {
    has_any(text, beginnings.as_ref())
}

fn has_any(text: &str, beginnings: &[&str]) -> bool {
    if text.len() <= NAME && text.is_ascii() {
        return has_plain_word(text.as_bytes(), beginnings);
    }
    // Most words begin with another letter, which is quicker to see than that they are another word.
    let bit = |byte: u8| 1_u64 << (byte & 63);
    let firsts =
        beginnings.iter().fold(0, |all, beginning| all | beginning.as_bytes().first().map_or(0, |first| bit(*first)));
    word_starts(text).any(|at| {
        let rest = text.as_bytes().get(at..).unwrap_or_default();
        let Some(first) = rest.first().filter(|first| firsts & bit(**first) != 0) else { return false };
        beginnings.iter().any(|beginning| {
            let beginning = beginning.as_bytes();
            beginning.first() == Some(first) && begins_so(rest, beginning)
        })
    })
}

/// So many bytes, of which nearly all names have fewer, are looked through without asking first how the beginnings begin.
const NAME: usize = 32;

/// As [`has_word_beginning`], of a short text in ASCII.
fn has_plain_word(text: &[u8], beginnings: &[&str]) -> bool {
    some_word(text, |word| {
        let begins = |beginning: &[u8]| beginning.first() == word.first() && begins_so(word, beginning);
        beginnings.iter().any(|beginning| begins(beginning.as_bytes()))
    })
}

/// Stands behind a word that ends there.
pub const ENDED: u8 = b'|';

/// Whether a text, from the beginning of one of its words to its end, begins so.
#[inline]
pub fn begins_so(text: &[u8], beginning: &[u8]) -> bool {
    let Some((&ENDED, word)) = beginning.split_last() else { return text.starts_with(beginning) };
    let ends = |behind: &[u8]| {
        behind.first().is_none_or(|byte| *byte == b'-' || matches!(BYTES.get(usize::from(*byte)), Some(Byte::Between)))
    };
    text.strip_prefix(word).is_some_and(ends)
}

/// Whether it is so of the text from the beginning of one of its words on; of a text in ASCII.
#[inline]
fn some_word(text: &[u8], is_so: impl Fn(&[u8]) -> bool) -> bool {
    let is_within = |byte: &u8| is_plain(*byte);
    let mut rest = text;
    loop {
        let Some(word) = rest.iter().position(is_within).and_then(|at| rest.get(at..)) else { return false };
        if is_so(word) {
            return true;
        }
        let behind = word.iter().position(|byte| !is_within(byte)).and_then(|end| word.get(end..));
        let Some(behind) = behind else { return false };
        rest = behind;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_where_it_begins() {
        for (text, beginnings, is_there) in [
            ("bake until gold", &["bak", "boil"][..], true),
            ("unbaked", &["bak"], false),
            ("deep-fry at 180", &["fry"], false),
            ("deep-fry at 180", &["deep-fry"], true),
            ("(fry)", &["fry"], true),
            ("crème brûlée", &["br"], true),
            ("sauté", &["saut", "é"], true),
            ("café é", &["é"], true),
            ("café", &["é"], false),
            ("", &["bak"], false),
            ("add a", &["a"], true),
            ("vitamin c", &["c"], true),
            ("c", &["c", "vitamin"], true),
            ("c", &["vitamin"], false),
            ("roll in a", &["a l", "in a"], true),
            ("roll in a", &["a l", "n a"], false),
            ("plum jam", &["jam|", "curd"], true),
            ("jamaican buns", &["jam|", "curd"], false),
            ("jam-filled", &["jam|"], true),
            ("jam: warm", &["jam|"], true),
            ("jambé", &["jamb|"], false),
            ("ice cream", &["ic|"], false),
            ("ic cream", &["ic|"], true),
            ("bake", &[], false),
            ("bake", &[""], false),
        ] {
            assert_eq!(has_word_beginning(text, beginnings), is_there, "{text} {beginnings:?}");
            // Longer than a name, it is looked through in the other way.
            let long = format!("{text}{}", " ".repeat(NAME));
            assert_eq!(has_word_beginning(&long, beginnings), is_there, "{long} {beginnings:?}");
            let asked = Beginnings::of(beginnings);
            let mut starts = Vec::new();
            each_word(text, |at| starts.push(at));
            assert!(word_starts(text).eq(starts), "{text}");
            assert_eq!(asked.begin_in(text), is_there, "{text} {beginnings:?}");
            assert!(!is_there || asked.may_begin_in(&text.to_uppercase()), "{text} {beginnings:?}");
            assert!(!is_there || asked.may_be_in_name(NameBegins::of(text)), "{text} {beginnings:?}");
        }
        // The bits tell something.
        for name in ["rye flour", "rye", "fine sea salt"] {
            assert!(!beginnings!["bak", "boil"].may_be_in_name(NameBegins::of(name)), "{name}");
            assert!(!NameBegins::of(name).may_share(NameBegins::of("bread, baked")), "{name}");
            assert!(NameBegins::of(name).may_share(NameBegins::of("salt of rye")), "{name}");
        }
        // Of many words, or of none, nothing is told.
        for name in ["a fine flaky sea salt", "vitamin c", "", "%"] {
            assert!(beginnings!["bak", "boil"].may_be_in_name(NameBegins::of(name)), "{name}");
        }
        assert!(!beginnings!["bak", "boil"].may_begin_in("Rye Flour"));
    }
}
