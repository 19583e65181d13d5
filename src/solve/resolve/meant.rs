//! What was meant by braces in prose that name nothing which is listed: a share without its `of`, two measures in one pair.

use crate::language::syntax::{Key, Name};
use crate::measure::unit::Unit;

/// `{300 g water}`, `{half water}`, `{remaining water}`: a share of what is listed, without the `of` that makes it one.
pub(super) fn share_without_of(name: &Name, is_listed: impl Fn(&Key) -> bool) -> Option<String> {
    let words: Vec<&str> = name.text.split_whitespace().collect();
    (1..words.len()).find_map(|at| {
        let (share, of) = words.split_at_checked(at)?;
        let of = of.join(" ");
        is_listed(&Key::new(&of)).then_some(())?;
        let share = share.join(" ").to_lowercase();
        let share = match share.as_str() {
            "remaining" | "the remaining" | "rest" | "the rest" | "rest of the" | "the rest of" => "rest".to_owned(),
            "half" | "half the" | "half of the" => "half".to_owned(),
            _ if share.starts_with(|c: char| c.is_numeric()) => share.trim_end_matches(" of the").to_owned(),
            _ => return None,
        };
        Some(format!("{share} of {of}"))
    })
}

/// `{30 cm x 40 cm}`, `{30 x 40 cm}`: each measure in braces of its own, with the unit of the last where it says none.
pub(super) fn sizes(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let last = *words.last()?;
    let sides: Vec<(&str, &str)> = words
        .split(|word| matches!(*word, "x" | "×" | "by"))
        .map(|side| match side {
            [number] => Some((*number, last)),
            [number, unit] => Some((*number, *unit)),
            _ => None,
        })
        .collect::<Option<_>>()?;
    let is_size = |(number, unit): &(&str, &str)| {
        number.starts_with(|c: char| c.is_ascii_digit())
            && number.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/'))
            && matches!(Unit::from_word(unit), Some(Unit::Millimetre | Unit::Centimetre | Unit::Metre | Unit::Inch))
    };
    let all = || sides.iter().map(|(number, unit)| format!("{{{number} {unit}}}")).collect::<Vec<String>>().join(" x ");
    (sides.len() > 1 && sides.iter().all(is_size)).then(all)
}

#[cfg(test)]
mod tests {
    use super::sizes;

    #[test]
    fn two_measures_have_braces_each() {
        assert_eq!(sizes("30 cm x 40 cm").as_deref(), Some("{30 cm} x {40 cm}"));
        assert_eq!(sizes("30 x 40 x 5 cm").as_deref(), Some("{30 cm} x {40 cm} x {5 cm}"));
        for other in ["30 cm", "2 x dough", "x", "30 cm x", ""] {
            assert_eq!(sizes(other), None, "{other}");
        }
    }
}
