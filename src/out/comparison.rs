//! A comparison of two versions in every format.

pub mod html;
pub mod json;
pub mod markdown;
pub mod text;

use crate::figures::compare::{Comparison, LineChange};
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::measure::show;
use similar::{ChangeTag, TextDiff};

/// What changed in one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changes {
    /// The file, as it was given.
    pub file: String,
    /// What changed, over all choices.
    pub comparison: Comparison,
    /// Whether the text of the file changed at all.
    pub text_changed: bool,
}

impl Changes {
    /// Whether nothing changed that a baker would notice.
    pub fn is_empty(&self) -> bool {
        self.comparison.is_empty()
    }
}

/// The options under which alone something holds, in brackets as in the file.
fn bracketed(only: &str) -> String {
    if only.is_empty() { String::new() } else { format!(" [{only}]") }
}

/// A percentage, or nothing.
fn percent(share: Option<Proportion>) -> String {
    share
        .and_then(|share| share.percent().ok())
        .map(|value| format!("{} %", show::percent_digits(value)))
        .unwrap_or_default()
}

/// An amount before or now: `1.2 % (12 g)`.
fn amount(share: Option<Proportion>, shown: &str) -> String {
    match (percent(share), shown) {
        (percent, "") => percent,
        (percent, shown) if percent.is_empty() => shown.to_owned(),
        (percent, shown) => format!("{percent} ({shown})"),
    }
}

/// By how much an amount changed, in words that say more than two figures: `halved`, `+ 12.5 %`.
fn by_how_much(line: &LineChange) -> String {
    let ratio = match (line.old_percent, line.new_percent, line.old_mass, line.new_mass) {
        (Some(old), Some(new), _, _) if old.value().is_positive() => new.value().over(old.value()).ok(),
        (_, _, Some(old), Some(new)) if old.value().is_positive() => new.ratio(old).ok(),
        _ => None,
    };
    let Some(ratio) = ratio.filter(|ratio| *ratio != Number::ONE) else { return String::new() };
    match ratio.parts() {
        (2, 1) => "doubled".to_owned(),
        (3, 1) => "tripled".to_owned(),
        (1, 2) => "halved".to_owned(),
        _ => {
            let change = ratio.minus(Number::ONE).and_then(|by| by.times(Number::whole(100)));
            change.map_or_else(
                |_| String::new(),
                |by| {
                    let sign = if by.is_negative() { "−" } else { "+" };
                    format!("{sign} {} %", by.size().decimal(1))
                },
            )
        }
    }
}

/// A run of words that stayed, went or came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Run {
    Same,
    Gone,
    New,
}

/// Prose word by word.
fn words(old: &str, new: &str) -> Vec<(Run, String)> {
    let diff = TextDiff::from_words(old, new);
    let mut runs: Vec<(Run, String)> = Vec::new();
    for change in diff.iter_all_changes() {
        let run = match change.tag() {
            ChangeTag::Equal => Run::Same,
            ChangeTag::Delete => Run::Gone,
            ChangeTag::Insert => Run::New,
        };
        let text = change.value();
        match runs.last_mut() {
            Some((last, so_far)) if *last == run => so_far.push_str(text),
            _ => runs.push((run, text.to_owned())),
        }
    }
    runs
}
