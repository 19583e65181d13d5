//! A part that goes in but for some of it: `all the sour minus 40 g for next time`, `all but 40 g of the sour`.

use super::item::{Made, Read};
use super::measure::{holds_amount, measure};
use super::words;

/// Words behind a part's name with which that begins what stays out.
const BUT: &[&str] = &[
    "minus",
    "less",
    "except",
    "except for",
    "but",
    "but for",
    "without",
    "save",
    "apart from",
    "keeping back",
    "holding back",
];
/// Words before a part's name with which all of it is meant, longest first.
const ALL: &[&str] =
    &["all of the ", "all the ", "all of ", "the rest of the ", "rest of the ", "the remaining ", "remaining "];

/// Reads a line that takes a part but for some of it.
pub(super) fn read(text: &str) -> Option<Read> {
    let lower = text.to_lowercase();
    if lower.len() != text.len() {
        return None;
    }
    let (name, but) = but_first(text, &lower).or_else(|| but_last(text, &lower))?;
    let name = words::name(name.trim_start_matches("the ").trim_end_matches([',', '(', ' ', '-', ':']));
    // One amount stays out; another is that of the next ingredient.
    let amounts = but.split([',', ';', '+']).filter(|piece| holds_amount(piece)).count();
    if name.split_whitespace().count() > 4 || amounts != 1 || text.contains(": ") {
        return None;
    }
    let mut read = Made::open("all", None).named(&name)?;
    let but = but.trim_end_matches([')', '.', ' ']);
    read.clauses.push(words::name(but));
    read.stays_out = true;
    Some(read)
}

/// `all but 40 g of the sour`: the name, and what stays out.
fn but_first<'t>(text: &'t str, lower: &str) -> Option<(&'t str, &'t str)> {
    let start = ["all but ", "all except "].into_iter().find(|words| lower.starts_with(words))?;
    let (_, behind) = measure(text.get(start.len()..)?)?;
    let name = behind.trim_start().strip_prefix("of ")?;
    Some((name, text.get(..text.len() - behind.len())?))
}

/// `all the sour minus 40 g`, `sour (all but 40 g)`, `sour less 40 g`: the name, and what stays out.
fn but_last<'t>(text: &'t str, lower: &str) -> Option<(&'t str, &'t str)> {
    let begins = ALL.iter().find(|words| lower.starts_with(**words)).map_or(0, |words| words.len());
    if lower.starts_with(char::is_numeric) {
        return None;
    }
    let places = BUT.iter().filter_map(|word| {
        // `(all but 50 g)` stays together.
        let forms = [format!("(all {word} "), format!(" all {word} "), format!(" {word} ")];
        let at = forms.iter().find_map(|form| lower.find(form))?;
        let behind = lower.get(at..)?.find(word)? + at + word.len();
        // The amount stands right behind it: `less 40 g`, `except about 40 g`.
        let (left, _) = measure(text.get(behind..)?)?;
        (left.is_quantity() || left.known() == Some("%")).then_some(at)
    });
    let at = places.min()?;
    let name = text.get(begins..at)?.trim_end_matches(" all").trim_end_matches([',', '(', ' ']);
    let but = text.get(at..)?.trim_start_matches([' ', '(']);
    (!name.contains(char::is_numeric)).then_some((name, but))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stays_out_is_said_behind_all() {
        for (text, wanted) in [
            ("all the sour minus 40 g for next time", Some(("sour", "minus 40 g for next time"))),
            ("all the sour except 40 g", Some(("sour", "except 40 g"))),
            ("all but 40 g of the sour", Some(("sour", "all but 40 g"))),
            ("sour, less about 40 g", Some(("sour", "less about 40 g"))),
            ("levain (all but 50 g)", Some(("levain", "all but 50 g"))),
            ("starter - all but 2 tbsp", Some(("starter", "all but 2 tbsp"))),
            ("200 ml milk less 2 tbsp", None),
            ("boneless chicken 200 g", None),
            ("all the sour", None),
        ] {
            let read = read(text);
            let got = read.as_ref().map(|read| (read.name.as_str(), read.clauses.first().map_or("", String::as_str)));
            assert_eq!(got, wanted, "{text}");
        }
    }
}
