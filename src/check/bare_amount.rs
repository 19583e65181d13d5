//! `bare-amount`: a share of an ingredient in prose that stands in no braces.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Line, Name, Piece, Tree};
use crate::measure::unit::Unit;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "bare-amount",
    severity: Severity::Advice,
    family: Family::Writing,
    looks_for: "a share or an amount of an ingredient in prose without braces, such as `half of butter` or `300 g of water`",
    why: "What stands in braces is taken off the list, grows with the batch and is printed in the reader's units. Without them the words \
          stay as they are: at twice the size `300 g of water` is still 300 g, and what the step takes is counted nowhere.",
    bad: "recipe Rolls\nflour .... 500 g\nsalt .... 9 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour}, {salt} and 200 g of water.\n    \
          until even\nloosen: hands 2 min\n    Work in {rest of water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nsalt .... 9 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour}, {salt} and {200 g of water}.\n    \
           until even\nloosen: hands 2 min\n    Work in {rest of water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let starts_part = |line: &Line| matches!(line.content, Content::Part { .. });
    for part in tree.lines.chunk_by(|_, next| !starts_part(next)) {
        let names: Vec<&Name> = part
            .iter()
            .filter_map(|line| match &line.content {
                Content::Ingredient(line) => Some(&line.name),
                _ => None,
            })
            .collect();
        // What goes on with a note, or with a sign, takes nothing.
        let mut in_step = false;
        for line in part {
            let pieces = match &line.content {
                Content::Prose(pieces) if in_step => pieces,
                Content::Prose(_) | Content::Blank | Content::Comment => continue,
                other => {
                    in_step = matches!(other, Content::Step(_));
                    continue;
                }
            };
            for piece in pieces {
                let Piece::Text(text) = piece else { continue };
                if !has_of(text) {
                    continue;
                }
                let text = text.to_lowercase();
                let amounts = amounts(&text);
                let of_name = |name: &&Name| amounts.iter().find(|(_, behind)| begins_with(behind, name.key.as_str()));
                let Some((name, (amount, _))) = names.iter().find_map(|name| Some((*name, of_name(name)?))) else {
                    continue;
                };
                let message = format!(
                    "`{amount} of {name}` stands in no braces: it is not counted, and does not grow with the batch"
                );
                let help = format!("write `{{{amount} of {name}}}`, or `some of the {name}` where no amount is meant");
                diagnostics.push(Diagnostic::advice(CHECK.name, line.span, message).help(help));
            }
        }
    }
}

/// Whether a text has ` of ` in it, in capitals or not: of most nothing else need be asked.
fn has_of(text: &str) -> bool {
    let bytes = text.as_bytes();
    memchr::memchr2_iter(b'f', b'F', bytes).any(|at| {
        let around = at.checked_sub(2).and_then(|begin| bytes.get(begin..at + 2));
        around.is_some_and(|around| around.eq_ignore_ascii_case(b" of "))
    })
}

/// The amounts of something that a text gives, `half` or `300 g`, each with what stands behind its ` of `.
fn amounts(text: &str) -> Vec<(String, &str)> {
    let of = text.match_indices(" of ");
    of.filter_map(|(at, of)| Some((amount_at_end(text.get(..at)?)?, text.get(at + of.len()..)?))).collect()
}

/// Whether a text begins with a name, and not with a longer word.
fn begins_with(text: &str, name: &str) -> bool {
    text.strip_prefix(name).is_some_and(|behind| !behind.starts_with(|c: char| c.is_alphanumeric() || c == '-'))
}

/// The amount at the end of a text.
fn amount_at_end(text: &str) -> Option<String> {
    let mut words = text.split_whitespace().rev();
    let last = words.next()?;
    let is_number = |word: &str| {
        word.starts_with(|c: char| c.is_ascii_digit()) && word.chars().all(|c| c.is_ascii_digit() || "./".contains(c))
    };
    if matches!(last, "half" | "rest") || (is_number(last) && last.contains('/')) {
        return Some(last.to_owned());
    }
    let number = words.next().filter(|word| is_number(word))?;
    (last == "%" || Unit::from_word(last).is_some()).then(|| format!("{number} {last}"))
}
