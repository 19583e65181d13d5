//! A text in lower case, and which words it has, told by how they begin.

/// A text in lower case, and how its words begin.
#[derive(Debug, Clone)]
pub struct Lowered {
    text: String,
    /// A bit for the first two bytes of each word: others may have the same bit, so that it tells only what is not there.
    begins: [u64; 16],
}

impl Lowered {
    /// Takes in a text that is in lower case.
    pub fn new(text: String) -> Lowered {
        let mut begins = [0; 16];
        for at in word_starts(&text) {
            let place = text.as_bytes().get(at..).and_then(Lowered::place);
            if let Some((slot, bit)) = place.and_then(|(slot, bit)| Some((begins.get_mut(slot)?, bit))) {
                *slot |= bit;
            }
        }
        Lowered { text, begins }
    }

    /// The bit of what begins with two bytes; `None` for less.
    fn place(text: &[u8]) -> Option<(usize, u64)> {
        let [first, second, ..] = text else { return None };
        Some((usize::from(first & 15), 1 << (((first >> 4) & 1) << 5 | (second & 31))))
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether a word of it begins with one of these. Fifty such questions are asked of each step, and nearly all answers are no.
    pub fn says(&self, beginnings: &[&str]) -> bool {
        beginnings.iter().any(|beginning| self.may_begin(beginning)) && has_word(&self.text, beginnings)
    }

    /// Whether a word may begin with this.
    fn may_begin(&self, beginning: &str) -> bool {
        Lowered::place(beginning.as_bytes())
            .is_none_or(|(slot, bit)| self.begins.get(slot).is_some_and(|begins| begins & bit != 0))
    }
}

/// The byte at which each word of a text begins.
fn word_starts(text: &str) -> impl Iterator<Item = usize> {
    let mut in_word = false;
    text.bytes().enumerate().filter_map(move |(at, byte)| {
        let goes_on = match byte {
            0..128 => byte.is_ascii_alphanumeric() || byte == b'-',
            // The rest of a sign that is longer than a byte.
            128..192 => return None,
            _ => text.get(at..).and_then(|rest| rest.chars().next()).is_some_and(char::is_alphanumeric),
        };
        let begins = goes_on && !in_word;
        in_word = goes_on;
        begins.then_some(at)
    })
}

/// Whether a text has a word that begins with one of these.
pub fn has_word(text: &str, beginnings: &[&str]) -> bool {
    // Most words begin with another letter, which is quicker to see than that they are another word.
    let bit = |byte: u8| 1_u64 << (byte & 63);
    let firsts = beginnings.iter().fold(0, |all, beginning| all | beginning.bytes().next().map_or(0, bit));
    word_starts(text).any(|at| {
        let rest = text.as_bytes().get(at..).unwrap_or_default();
        let is_likely = rest.first().is_some_and(|first| firsts & bit(*first) != 0);
        is_likely && beginnings.iter().any(|beginning| !beginning.is_empty() && rest.starts_with(beginning.as_bytes()))
    })
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
            ("roll in a", &["a l", "in a"], true),
            ("roll in a", &["a l", "n a"], false),
            ("bake", &[], false),
            ("bake", &[""], false),
        ] {
            assert_eq!(has_word(text, beginnings), is_there, "{text} {beginnings:?}");
            let lowered = Lowered::new(text.to_owned());
            assert_eq!(lowered.says(beginnings), is_there, "{text} {beginnings:?}");
        }
    }
}
