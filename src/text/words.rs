//! The words of a text. What parts them is asked in five ways, which are told apart by what becomes of a hyphen and of an apostrophe.

/// Words parted at every sign: `gluten-free` is two, and so is `don't`.
pub fn words_without_hyphens(text: &str) -> impl Iterator<Item = &str> {
    const OF_WORDS: [bool; 256] = of_words(b"");
    runs(text, &OF_WORDS, char::is_alphanumeric)
}

/// Words parted at every sign but a hyphen and an apostrophe: `deep-fry` is one, and so is `cook's`.
pub fn words_with_hyphens_and_apostrophes(text: &str) -> impl Iterator<Item = &str> {
    const OF_WORDS: [bool; 256] = of_words(b"-'");
    runs(text, &OF_WORDS, |c| c.is_alphanumeric() || matches!(c, '-' | '\'' | '’'))
}

/// Which bytes are part of a word: letters and digits of ASCII, and some more.
const fn of_words(more: &[u8]) -> [bool; 256] {
    let mut table = [false; 256];
    let (mut left, mut byte) = (table.as_mut_slice(), 0_u8);
    while let Some((first, rest)) = left.split_first_mut() {
        *first = byte.is_ascii_alphanumeric();
        let mut others = more;
        while let Some((other, behind)) = others.split_first() {
            *first |= *other == byte;
            others = behind;
        }
        left = rest;
        byte = byte.wrapping_add(1);
    }
    table
}

/// Runs of what is part of a word. Of ASCII the bytes are looked up in a table, which takes a fifth of the steps.
fn runs<'t>(
    text: &'t str,
    of_words: &'static [bool; 256],
    is_of_word: impl Fn(char) -> bool,
) -> impl Iterator<Item = &'t str> {
    let is_of_byte = |byte: &u8| of_words.get(usize::from(*byte)).is_some_and(|is_of_word| *is_of_word);
    let is_ascii = text.is_ascii();
    let mut from = 0;
    std::iter::from_fn(move || {
        let (begin, end) = if is_ascii {
            let rest = text.as_bytes().get(from..)?;
            let begin = rest.iter().position(is_of_byte)?;
            let word = rest.get(begin..)?;
            (from + begin, word.iter().position(|byte| !is_of_byte(byte)).map(|length| from + begin + length))
        } else {
            let begin = from + text.get(from..)?.find(&is_of_word)?;
            (begin, text.get(begin..)?.find(|c: char| !is_of_word(c)).map(|length| begin + length))
        };
        from = end.unwrap_or(text.len());
        text.get(begin..from)
    })
}

/// Words parted at white space alone, signs around them left off: `gluten-free` is one, and so is `cooked/cooled`.
pub fn words_with_hyphens(text: &str) -> impl Iterator<Item = &str> {
    let words = text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()));
    words.filter(|word| !word.is_empty())
}

/// As [`words_with_hyphens`], in small letters, digits around them left off as well: `500g` is `g`.
pub fn letters_with_hyphens(text: &str) -> impl Iterator<Item = String> {
    let words = text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase());
    words.filter(|word| !word.is_empty())
}

/// Words parted at every sign but an apostrophe: `deep-fry` is two, and `cook's` is one.
pub fn words_with_apostrophes(text: &str) -> impl Iterator<Item = &str> {
    let words = text.split(|c: char| !(c.is_alphanumeric() || c == '\'' || c == '’'));
    words.map(|word| word.trim_matches('\'')).filter(|word| !word.is_empty())
}

/// Whether one of the words of a text, parted at hyphens and every other sign, is one of these: with a short word others begin, `butter` and `butternut`.
pub fn has_whole_word<'w>(text: &str, sought: impl AsRef<[&'w str]>) -> bool {
    words_without_hyphens(text).any(|word| sought.as_ref().contains(&word))
}

/// Whether a text begins with these words, the last of them to its end.
pub fn begins_with_words(text: &str, words: &str) -> bool {
    text.strip_prefix(words).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_parted_at_every_sign_in_ascii_or_beyond() {
        let by_char = |text: &'static str| text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        for text in [
            "gluten-free, (no nuts)",
            "",
            "  ",
            "a",
            "…a b",
            "crème-brûlée 2",
            "x²y_z",
            "ends.",
            "naïve\u{301} é",
            "\0a",
        ] {
            assert!(words_without_hyphens(text).eq(by_char(text)), "{text}");
        }
        let is_of_word = |c: char| c.is_alphanumeric() || matches!(c, '-' | '\'' | '’');
        for text in ["", "brush with egg", " - don't (stir) in; 2.5 g half-fat milk!", "--", "crème brûlée, don’t", "a"]
        {
            let by_char = text.split(|c| !is_of_word(c)).filter(|word| !word.is_empty());
            assert!(words_with_hyphens_and_apostrophes(text).eq(by_char), "{text}");
        }
    }

    #[test]
    fn what_parts_the_words_is_told_by_the_name() {
        let text = "(Gluten-free) 500g cook's rye/spelt";
        let all = |words: &mut dyn Iterator<Item = &'static str>| words.collect::<Vec<_>>().join(" ");
        assert_eq!(all(&mut words_without_hyphens(text)), "Gluten free 500g cook s rye spelt");
        assert_eq!(all(&mut words_with_hyphens(text)), "Gluten-free 500g cook's rye/spelt");
        assert_eq!(all(&mut words_with_hyphens_and_apostrophes(text)), "Gluten-free 500g cook's rye spelt");
        assert_eq!(all(&mut words_with_apostrophes(text)), "Gluten free 500g cook's rye spelt");
        assert_eq!(letters_with_hyphens(text).collect::<Vec<_>>().join(" "), "gluten-free g cook's rye/spelt");
    }
}
