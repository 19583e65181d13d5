//! Characters that cannot be seen: which they are, and which of them belong to how a script is written.

use std::borrow::Cow;
use unicode_script::{Script, UnicodeScript};

/// Characters that change what a reader sees without being seen: control characters, marks of direction, joiners.
pub fn is_hidden(character: char) -> bool {
    (character.is_control() && character != '\t')
        || matches!(
            character,
            '\u{061C}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}'
        )
}

/// Whether a character parts lines for a reader, though it ends none here (Unicode Standard Annex 14, class BK and NL, from
/// memory).
pub fn is_line_separator(character: char) -> bool {
    matches!(character, '\u{0B}' | '\u{0C}' | '\u{85}' | '\u{2028}' | '\u{2029}')
}

/// The joiners U+200C and U+200D have a meaning within the words of some scripts, and U+200D between pictures
/// (Unicode Standard Annex 31, section 2.3, and Unicode Technical Standard 51, both from memory).
pub fn is_joiner(character: char) -> bool {
    matches!(character, '\u{200C}' | '\u{200D}')
}

/// The characters of a text that cannot be seen, with their bytes; not those that belong to the writing around them.
pub fn hidden(text: &str) -> impl Iterator<Item = (usize, char)> + '_ {
    let mut before = None;
    let mut characters = text.char_indices().peekable();
    std::iter::from_fn(move || {
        loop {
            let (at, character) = characters.next()?;
            let after = characters.peek().map(|(_, after)| *after);
            let is_writing = is_joiner(character) && joins(before, character, after);
            before = Some(character);
            if is_hidden(character) && !is_writing {
                return Some((at, character));
            }
        }
    })
}

/// A text in which each character that cannot be seen, but line breaks, is replaced, or taken out.
pub fn replaced(text: &str, put: impl Fn(char) -> Option<char>) -> Cow<'_, str> {
    let mut new = String::new();
    let mut done = 0;
    for (at, character) in hidden(text).filter(|(_, character)| *character != '\n') {
        new.push_str(text.get(done..at).unwrap_or(""));
        new.extend(put(character));
        done = at + character.len_utf8();
    }
    if done == 0 {
        return Cow::Borrowed(text);
    }
    new.push_str(text.get(done..).unwrap_or(""));
    Cow::Owned(new)
}

/// Whether a joiner between two characters belongs to how their script is written.
fn joins(before: Option<char>, joiner: char, after: Option<char>) -> bool {
    let Some(before) = before else { return false };
    if joiner == '\u{200D}' && is_picture(before) && after.is_some_and(is_picture) {
        return true;
    }
    if before.is_numeric() || is_hidden(before) {
        return false;
    }
    match before.script() {
        // Persian parts the halves of a word with it, `می‌شود`: both sides are letters.
        script @ (Script::Arabic
        | Script::Syriac
        | Script::Mandaic
        | Script::Mongolian
        | Script::Nko
        | Script::Phags_Pa) => after.is_some_and(|after| after.script() == script && after.is_alphabetic()),
        // Behind a sign that mutes a vowel it says which form a letter takes, also at the end of a word.
        Script::Devanagari
        | Script::Bengali
        | Script::Gurmukhi
        | Script::Gujarati
        | Script::Oriya
        | Script::Tamil
        | Script::Telugu
        | Script::Kannada
        | Script::Malayalam
        | Script::Sinhala
        | Script::Khmer
        | Script::Myanmar => true,
        _ => false,
    }
}

/// Pictures, and what may stand behind one: its form and the colour of a skin.
fn is_picture(character: char) -> bool {
    matches!(character, '\u{FE0F}' | '\u{2190}'..='\u{21FF}' | '\u{2600}'..='\u{27BF}' | '\u{2B00}'..='\u{2BFF}' | '\u{1F000}'..='\u{1FAFF}')
}

/// Whether a text holds letters that are written from right to left, among which a mark of direction has a meaning.
pub fn is_written_leftward(text: &str) -> bool {
    !text.is_ascii()
        && text.chars().any(|character| {
            matches!(
                character.script(),
                Script::Arabic
                    | Script::Hebrew
                    | Script::Syriac
                    | Script::Thaana
                    | Script::Nko
                    | Script::Adlam
                    | Script::Mandaic
                    | Script::Samaritan
            )
        })
}

/// Whether letters belong to a script without blanks between its words, which U+200B may part.
pub fn is_written_without_blanks(character: char) -> bool {
    matches!(character.script(), Script::Thai | Script::Lao | Script::Khmer | Script::Myanmar | Script::Tibetan)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Vec<(usize, char)> {
        hidden(text).collect()
    }

    #[test]
    fn joiners_belong_to_the_scripts_that_are_written_with_them() {
        for text in ["می\u{200C}شود", "നന്\u{200D}", "क्\u{200C}ष", "👩\u{200D}🍳", "👩🏽\u{200D}🍳", "❤\u{FE0F}\u{200D}🔥"]
        {
            assert_eq!(found(text), [], "{text}");
            assert_eq!(replaced(text, |_| None), text);
        }
    }

    #[test]
    fn anywhere_else_they_are_hidden() {
        for text in
            ["fl\u{200C}our", "1\u{200D}50", "۱\u{200C}۵", "می\u{200C} شود", "می\u{200C}5", "a\u{200D}🍳", "\u{200C}ها"]
        {
            assert_eq!(found(text).len(), 1, "{text}");
        }
        assert_eq!(found("می\u{200C}\u{200C}شود").len(), 2);
    }

    #[test]
    fn what_is_hidden_is_replaced_and_line_breaks_stay() {
        assert_eq!(replaced("a\u{7}b\nc\u{202E}", |_| None), "ab\nc");
        assert_eq!(replaced("a\u{7}b\nc\u{202E}", |_| Some('?')), "a?b\nc?");
    }
}
