//! Characters that cannot be seen: which they are, and which of them belong to how a script is written.

use std::borrow::Cow;
use unicode_script::{Script, UnicodeScript};

/// Characters that change what a reader sees, or what a name is compared as, without being seen: control characters, marks of direction,
/// joiners, and all that Unicode calls ignorable by default (DerivedCoreProperties, Default_Ignorable_Code_Point; from memory), the soft hyphen,
/// fillers, variation selectors and tags among them. A Braille cell without dots and the place of an object print as nothing too.
pub fn is_hidden(character: char) -> bool {
    (character.is_control() && character != '\t')
        || is_ignorable(character)
        || matches!(character, '\u{2028}' | '\u{2029}' | '\u{2800}' | '\u{FFF9}'..='\u{FFFC}')
}

fn is_ignorable(character: char) -> bool {
    !character.is_ascii()
        && matches!(
            character,
            '\u{AD}'
                | '\u{034F}'
                | '\u{061C}'
                | '\u{115F}'..='\u{1160}'
                | '\u{17B4}'..='\u{17B5}'
                | '\u{180B}'..='\u{180F}'
                | '\u{200B}'..='\u{200F}'
                | '\u{202A}'..='\u{202E}'
                | '\u{2060}'..='\u{206F}'
                | '\u{3164}'
                | '\u{FE00}'..='\u{FE0F}'
                | '\u{FEFF}'
                | '\u{FFA0}'
                | '\u{FFF0}'..='\u{FFF8}'
                | '\u{1BCA0}'..='\u{1BCA3}'
                | '\u{1D173}'..='\u{1D17A}'
                | '\u{E0000}'..='\u{E0FFF}'
        )
}

/// Whether nothing at all stands where such a character does, so that taking it out joins nothing that a reader sees apart: fillers and empty cells
/// are as wide as a letter.
pub fn takes_no_room(character: char) -> bool {
    is_ignorable(character) && !matches!(character, '\u{115F}'..='\u{1160}' | '\u{3164}' | '\u{FFA0}')
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
            let is_writing =
                is_joiner(character) && joins(before, character, after) || varies(before, character, after);
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

/// Whether a character chooses which form of the one before it is written: of a picture, a sign, a key of a telephone, a letter of scripts whose
/// letters have several, or the flag that tags behind a picture spell (Unicode Technical Standards 37 and 51; from memory).
fn varies(before: Option<char>, selector: char, after: Option<char>) -> bool {
    let Some(before) = before else { return false };
    match selector {
        '\u{FE00}'..='\u{FE0F}' => {
            let is_key = || matches!(before, '0'..='9' | '#' | '*') && after == Some('\u{20E3}');
            let is_sign = || !before.is_ascii() && !before.is_alphanumeric() && !before.is_whitespace();
            let has_forms = || matches!(before.script(), Script::Han | Script::Myanmar | Script::Phags_Pa);
            let is_lettered_sign = || matches!(before, '\u{2139}' | '\u{24C2}' | '\u{3297}' | '\u{3299}');
            !is_hidden(before) && (is_picture(before) || is_sign() || has_forms() || is_lettered_sign()) || is_key()
        }
        '\u{E0100}'..='\u{E01EF}' => before.script() == Script::Han,
        '\u{180B}'..='\u{180F}' => before.script() == Script::Mongolian,
        '\u{E0020}'..='\u{E007F}' => is_picture(before) || matches!(before, '\u{E0020}'..='\u{E007E}'),
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

    /// Findings of a trial: each of them made `butter` a name that no larder knows, without its milk and without a word.
    #[test]
    fn what_prints_as_nothing_is_hidden_in_a_word() {
        for hidden in [
            '\u{AD}',
            '\u{34F}',
            '\u{115F}',
            '\u{1160}',
            '\u{17B4}',
            '\u{180B}',
            '\u{180E}',
            '\u{2800}',
            '\u{3164}',
            '\u{FFA0}',
            '\u{FE00}',
            '\u{FE0F}',
            '\u{FFFC}',
            '\u{1D173}',
            '\u{E0001}',
            '\u{E0061}',
            '\u{E0100}',
            '\u{200B}',
            '\u{2060}',
            '\u{FEFF}',
            '\u{202E}',
        ] {
            assert_eq!(found(&format!("but{hidden}ter")), [(3, hidden)], "{hidden:?}");
        }
    }

    #[test]
    fn forms_of_pictures_and_of_letters_that_have_several_are_seen() {
        for text in [
            "❤\u{FE0F}",
            "™\u{FE0F}",
            "ℹ\u{FE0F}",
            "1\u{FE0F}\u{20E3}",
            "葛\u{E0100}",
            "ᠠ\u{180B}",
            "\u{1F3F4}\u{E0067}\u{E0062}\u{E007F}",
            "🌶\u{FE0F} hot",
        ] {
            assert_eq!(found(text), [], "{text}");
        }
        assert_eq!(found("❤\u{FE0F}\u{FE0F}").len(), 1);
        assert_eq!(found("1\u{FE0F}50").len(), 1);
    }

    #[test]
    fn what_is_hidden_is_replaced_and_line_breaks_stay() {
        assert_eq!(replaced("a\u{7}b\nc\u{202E}", |_| None), "ab\nc");
        assert_eq!(replaced("a\u{7}b\nc\u{202E}", |_| Some('?')), "a?b\nc?");
    }
}
