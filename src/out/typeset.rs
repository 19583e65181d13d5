//! How words are set on a page: figures stay beside their units, apostrophes are curly, fractions look alike.
//!
//! It is done once over a finished page (HTML) or for every run of words (PDF); plain text, Markdown and JSON stay as typed.

/// Between a figure and its unit: a space at which no line is broken.
const TIED: char = '\u{A0}';
/// Between the halves of a fraction.
const OVER: char = '\u{2044}';

/// Words after which a figure is not left alone at the end of a line.
const UNITS: [&str; 33] = [
    "g", "kg", "mg", "t", "lb", "oz", "ml", "cl", "dl", "l", "L", "cm", "mm", "m", "in", "°C", "°F", "°", "%", "s",
    "sec", "min", "h", "hours", "hour", "d", "days", "day", "weeks", "week", "×", "kcal", "kJ",
];

/// The fractions that have a sign of their own.
const FRACTIONS: [(char, &str); 12] = [
    ('½', "1⁄2"),
    ('¼', "1⁄4"),
    ('¾', "3⁄4"),
    ('⅓', "1⁄3"),
    ('⅔', "2⁄3"),
    ('⅛', "1⁄8"),
    ('⅜', "3⁄8"),
    ('⅝', "5⁄8"),
    ('⅞', "7⁄8"),
    ('⅕', "1⁄5"),
    ('⅙', "1⁄6"),
    ('⅖', "2⁄5"),
];

/// Words as they stand on a page.
pub(super) fn words(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let mut out = String::with_capacity(text.len());
    for (at, sign) in signs.iter().copied().enumerate() {
        let before = at.checked_sub(1).and_then(|before| signs.get(before)).copied();
        let after = signs.get(at + 1).copied();
        match sign {
            '\'' if before.is_some_and(char::is_alphabetic) => out.push('’'),
            '\'' if before.is_none_or(char::is_whitespace) && after.is_some_and(char::is_alphabetic) => out.push('‘'),
            ' ' if before.is_some_and(ends_figure)
                && (begins_unit(&signs, at + 1) || begins_fraction(&signs, at + 1)) =>
            {
                out.push(TIED);
            }
            '/' if is_fraction(&signs, at) => out.push(OVER),
            _ => match FRACTIONS.iter().find(|(one, _)| *one == sign) {
                Some((_, halves)) => {
                    if before.is_some_and(|before| before.is_ascii_digit()) {
                        out.push(TIED);
                    }
                    out.push_str(halves);
                    if after.is_some_and(|after| after.is_ascii_digit()) {
                        out.push(' ');
                    }
                }
                None => out.push(sign),
            },
        }
    }
    out
}

/// A finished page: its words, but not its tags, and not what is typed or runs.
pub(super) fn markup(page: &str) -> String {
    let mut out = String::with_capacity(page.len() + page.len() / 16);
    let mut rest = page;
    let mut verbatim: Option<&str> = None;
    while let Some((text, tagged)) = rest.split_once('<') {
        out.push_str(&if verbatim.is_some() { text.to_owned() } else { words(text) });
        let (tag, after) = tagged.split_once('>').unwrap_or((tagged, ""));
        out.push('<');
        out.push_str(tag);
        if tagged.len() > tag.len() {
            out.push('>');
        }
        let name = tag.split([' ', '/']).find(|name| !name.is_empty()).unwrap_or("");
        match verbatim {
            Some(open) if tag.starts_with('/') && name == open => verbatim = None,
            None if !tag.starts_with('/') => {
                verbatim = ["style", "script", "code", "pre", "title"].into_iter().find(|one| *one == name);
            }
            _ => {}
        }
        rest = after;
    }
    out.push_str(&if verbatim.is_some() { rest.to_owned() } else { words(rest) });
    out
}

/// Whether no line is broken between two words of plain text: a figure and its unit.
pub(super) fn are_tied(word: &str, next: &str) -> bool {
    if !word.ends_with(ends_figure) {
        return false;
    }
    let next: Vec<char> = next.chars().take(7).collect();
    begins_unit(&next, 0) || begins_fraction(&next, 0)
}

fn ends_figure(sign: char) -> bool {
    sign.is_ascii_digit() || FRACTIONS.iter().any(|(one, _)| *one == sign)
}

fn begins_unit(signs: &[char], at: usize) -> bool {
    let word: String = signs
        .iter()
        .skip(at)
        .take(6)
        .take_while(|sign| sign.is_alphabetic() || matches!(sign, '°' | '%' | '×'))
        .collect();
    UNITS.contains(&word.as_str())
}

/// `1/2` behind a space.
fn begins_fraction(signs: &[char], at: usize) -> bool {
    signs.get(at).is_some_and(char::is_ascii_digit) && signs.get(at + 1) == Some(&'/') && is_fraction(signs, at + 1)
}

/// A stroke between two small whole numbers, neither of them part of a longer one: `3/4`, `15/16`.
fn is_fraction(signs: &[char], at: usize) -> bool {
    let digits_before = signs.get(..at).unwrap_or(&[]).iter().rev().take_while(|sign| sign.is_ascii_digit()).count();
    let digits_after = signs.iter().skip(at + 1).take_while(|sign| sign.is_ascii_digit()).count();
    let outside = |sign: Option<&char>| sign.is_none_or(|sign| !sign.is_alphanumeric() && *sign != '/' && *sign != '.');
    (1..=2).contains(&digits_before)
        && (1..=2).contains(&digits_after)
        && outside(at.checked_sub(digits_before + 1).and_then(|before| signs.get(before)))
        && outside(signs.get(at + digits_after + 1))
}

/// Names that stand between backticks, as messages have them, between quotation marks. An odd backtick is no pair: it is what it is.
pub(in crate::out) fn quoted(text: &str) -> String {
    if !text.matches('`').count().is_multiple_of(2) {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len());
    for (at, piece) in text.split('`').enumerate() {
        if at > 0 {
            out.push(if at % 2 == 1 { '“' } else { '”' });
        }
        out.push_str(piece);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_is_tied_to_its_unit_and_to_its_fraction() {
        assert_eq!(words("to 57 °C within 2 hours"), "to 57\u{A0}°C within 2\u{A0}hours");
        assert_eq!(words("3 1/4 oz, 1½ cups, ⅔ of it"), "3\u{A0}1⁄4\u{A0}oz, 1\u{A0}1⁄2 cups, 2⁄3 of it");
        assert_eq!(words("12 × 85 g"), "12\u{A0}× 85\u{A0}g");
        assert_eq!(words("2 loads of 3"), "2 loads of 3");
        assert_eq!(words("2027/04/17 and 1/2/3"), "2027/04/17 and 1/2/3");
    }

    #[test]
    fn an_apostrophe_is_curly_and_a_mark_of_feet_is_not() {
        assert_eq!(words("the baker's 5' board is 'oiled'"), "the baker’s 5' board is ‘oiled’");
    }

    #[test]
    fn tags_and_what_is_typed_stay_as_they_are() {
        let page = "<p title=\"it's 5 g\">it's 5 g <code>it's 5 g</code> 5 g</p><script>a 5 g</script>";
        let set = "<p title=\"it's 5 g\">it’s 5\u{A0}g <code>it's 5 g</code> 5\u{A0}g</p><script>a 5 g</script>";
        assert_eq!(markup(page), set);
        assert_eq!(markup("a < b"), "a < b");
    }
}
