//! A recipe that somebody wrote in one line: its name, what goes in with each amount before its thing, and what is done.
//!
//! `Ketchup. 3 kg ripe tomatoes, 350 g onions, 25 g salt. Simmer 1 h, sieve.`

use super::amount;
use super::measure::measure;
use super::{ingredient, kinds, method, words};

/// The lines that such a line stands for; `None` for any other. `alone`: the notes are nothing else, so that even `Sauce: …` names them.
pub(super) fn apart(line: &str, alone: bool) -> Option<Vec<String>> {
    let at = [". ", ": "].into_iter().filter_map(|mark| line.find(mark)).min()?;
    let (name, rest) = (line.get(..at)?.trim(), line.get(at + 2..)?.trim());
    let is_name = name.split_whitespace().count() <= 6
        && name.chars().any(char::is_alphabetic)
        && !name.contains(char::is_numeric)
        && !name.contains([',', '='])
        && (alone || !kinds::names_a_part(name))
        && !method::is_told(line)
        && !["note", "notes", "nb", "tip", "ps", "subject", "makes", "yield", "serves", "feeds", "ingredients", "for"]
            .contains(&name.to_lowercase().as_str());
    if !is_name || !(ingredient::begins_a_list(rest) || lists_shares(rest)) {
        return None;
    }
    let told = rest.match_indices(". ").map(|(at, _)| at + 1).find(|at| rest.get(*at..).is_some_and(is_work));
    let (list, told) = rest.split_at_checked(told.unwrap_or(rest.len()))?;
    let list = list.trim().trim_end_matches('.');
    let mut items: Vec<String> = Vec::new();
    for piece in words::outside_brackets(list, &[',']) {
        let begins =
            amount::figure(piece).is_some_and(|(_, rest)| rest.contains(char::is_alphabetic)) || is_share(piece);
        match items.last_mut() {
            Some(last) if !begins && !ingredient::is_known(piece) => last.push_str(&format!(", {piece}")),
            _ => items.push(piece.to_owned()),
        }
    }
    // Of less than three it is no list.
    if items.len() < 3 {
        return None;
    }
    let mut lines = vec![name.to_owned(), String::new()];
    lines.append(&mut items);
    let (pieces, told) = match told.trim().split_once(". ") {
        Some((pieces, told)) if kinds::each_weighs(pieces).is_some() => (pieces, told),
        _ => ("", told),
    };
    for words in [pieces, told].map(str::trim).into_iter().filter(|words| !words.is_empty()) {
        lines.extend([String::new(), words.to_owned()]);
    }
    Some(lines)
}

/// Whether what stands behind a full stop tells what is done.
fn is_work(text: &str) -> bool {
    let bare = text.trim_start();
    let sentence = bare.split(". ").next().unwrap_or_default();
    let is_pieces = bare.starts_with(|c: char| c.is_ascii_digit()) && kinds::each_weighs(sentence).is_some();
    is_pieces
        || bare.starts_with(char::is_uppercase)
            && (method::begins_with_verb(bare) || method::is_told(bare) || method::tells(bare))
}

/// Whether a text lists shares of the flour, each behind its thing: `bread flour 100 %, milk 68 %`.
fn lists_shares(text: &str) -> bool {
    words::outside_brackets(text, &[',']).iter().take(2).filter(|piece| is_share(piece)).count() == 2
}

/// Whether a text is a name with a share of the flour behind it.
fn is_share(text: &str) -> bool {
    let figure = text.find(|c: char| c.is_ascii_digit()).filter(|at| *at > 0);
    let said = figure.and_then(|at| measure(text.get(at..)?));
    said.is_some_and(|(share, rest)| share.known() == Some("%") && rest.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::apart;

    #[test]
    fn each_amount_stands_before_its_own_thing() {
        let lines = apart(
            "Quay relish. 3kg ripe plums, 350 g onions, 2 red peppers, 25 g salt, 6 cloves. Simmer 1hr, sieve.",
            false,
        );
        let wanted = [
            "Quay relish",
            "",
            "3kg ripe plums",
            "350 g onions",
            "2 red peppers",
            "25 g salt",
            "6 cloves",
            "",
            "Simmer 1hr, sieve.",
        ];
        assert_eq!(lines.as_deref(), Some(&wanted.map(str::to_owned)[..]));
        for line in [
            "Flour: 500 g",
            "Dough: 500 g flour, 300 g water, 10 g salt",
            "Mix 500 g flour. Bake 20 min.",
            "Note: 500 g flour, 2 eggs, 3 g salt",
        ] {
            assert_eq!(apart(line, false), None, "{line}");
        }
    }
}
