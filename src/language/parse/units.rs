//! Problems of what stands behind a number where a unit is wanted.

use super::otherwise::amount;
use super::reader::{Reader, shortened};
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// A word behind a number that is no unit.
pub(super) fn unknown(reader: &mut Reader<'_>, span: Span, word: &str) {
    let problem = Diagnostic::error("unknown-unit", span, format!("`{}` is not a unit", shortened(word)));
    let problem = match Unit::meant_by(word) {
        None if word.to_lowercase().starts_with("deg") => {
            problem.help("write `C` or `F` behind the number: `180 C`, `350 F`")
        }
        Some(unit) => problem.help(format!("did you mean `{unit}`?")).mend(format!("write `{unit}`"), span, unit),
        None if ["month", "year"].iter().any(|long| word.to_lowercase().starts_with(long)) => {
            problem.help("a month has no fixed length: write days or weeks, `30 days`, `4 weeks`")
        }
        None if let Some(said_here) = amount::behind_number(word) => {
            let problem = problem.help(said_here.help);
            match said_here.instead {
                // With the blanks before it.
                Some(instead) => {
                    let before = reader.slice(Span { start: 0, end: span.start, ..span }).trim_end().len();
                    problem.mend(format!("write `{instead}`"), Span::new(span.source, before, span.range().end), instead)
                }
                None => problem,
            }
        }
        None => problem.help(
            "weights: mg g kg oz lb; volumes: ml cl dl l tsp tbsp cup fl oz pt qt gal; times: s min h days weeks; pieces: a bare number; \
             what describes the ingredient follows after a comma",
        ),
    };
    reader.report(problem.label("not a unit"));
}

/// The unit that is meant by a letter that is another: `30 m` for minutes, `2 c` for cups.
pub(super) fn meant(written: &str, wanted: &[Dimension]) -> Option<&'static str> {
    let (meant, kind) = match written {
        "m" | "M" => ("min", Dimension::Time),
        "c" | "C" => ("cups", Dimension::Volume),
        _ => return None,
    };
    wanted.contains(&kind).then_some(meant)
}

/// What a price of so many, or of what it is sold in, is written as: `costs 3.60 per dozen`, `costs 0.80 per pack`. `is_one`: no number
/// stands before the word.
pub(super) fn of_a_pack(problem: Diagnostic, span: Span, word: &str, is_one: bool) -> Diagnostic {
    let pieces = match word.to_lowercase().as_str() {
        "dozen" | "doz" | "dz" => "12 pieces",
        "score" => "20 pieces",
        "gross" => "144 pieces",
        "each" | "ea" | "unit" | "one" | "egg" => "piece",
        "hundredweight" | "stone" | "sack" | "bag" | "pack" | "packet" | "box" | "case" | "carton" | "tin" | "can"
        | "jar" | "bottle" | "tub" | "tray" | "block" | "sachet" | "bucket" | "crate" | "bunch" | "loaf" | "roll" => {
            return problem.help(format!(
                "say how much is in it, `per 500 g` or `per 750 ml`: nobody else knows what a {word} holds"
            ));
        }
        _ => {
            return problem.help(
                "a price is per weight, volume or piece: `costs 1.20 per kg`, `costs 0.90 per 500 g`, `costs 3.60 per 12 pieces`",
            );
        }
    };
    if !is_one && pieces.starts_with(|c: char| c.is_ascii_digit()) {
        return problem.help(format!("say how many pieces that is: a {word} is {pieces}"));
    }
    problem.help(format!("write `per {pieces}`")).suggest(format!("write `{pieces}`"), span, pieces)
}
