//! Numbers with a comma, digits in groups, and a point with nothing behind it: which number may be meant.

use super::pairs::Pair;
use super::reader::Reader;
use crate::language::syntax::WrittenNumber;
use crate::text::diagnostic::Diagnostic;

/// A point without digits, `1. kg`. Nothing is read of it.
pub(super) fn point(reader: &mut Reader<'_>, pair: &Pair<'_>) -> Option<WrittenNumber> {
    let (span, text) = (reader.span(pair), pair.as_str());
    let whole = text.trim_end_matches('.').to_owned();
    let problem = Diagnostic::error("impossible-number", span, format!("`{text}` has a point and no digit behind it"));
    reader.report(problem.help(format!("write `{whole}`")).suggest(format!("write `{whole}`"), span, whole));
    None
}

/// `1000.5` for `1 000,5` and `1.000,5`; `None` where commas are all that stands between the digits.
pub(crate) fn ungrouped(text: &str) -> Option<String> {
    let by_marks = text.contains(|c: char| !c.is_ascii_digit() && !matches!(c, ',' | '.'));
    let by_points = text.find('.').zip(text.find(',')).is_some_and(|(point, comma)| point < comma);
    let figures = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let parts = match (by_marks, by_points) {
        (_, true) => text.rsplit_once(','),
        (true, false) => text.rsplit_once([',', '.']),
        (false, false) => return None,
    };
    Some(match parts {
        Some((whole, part)) => format!("{}.{}", figures(whole), figures(part)),
        None => figures(text),
    })
}

/// `800` for `2 400`, two tins of 400 g; `None` where no pack holds so much, as in `1 500` and `2 000`.
fn packs(text: &str) -> Option<u32> {
    let (count, each) = text.split_once(char::is_whitespace)?;
    let is_pack = |digits: &str| !digits.starts_with('0') && digits.len() == 3;
    let count: u32 = count.parse().ok().filter(|count| *count > 1)?;
    count.checked_mul(Some(each).filter(|each| is_pack(each))?.parse().ok()?)
}

/// A comma, or digits in groups. Nothing is read of it.
pub(super) fn comma(reader: &mut Reader<'_>, pair: &Pair<'_>) -> Option<WrittenNumber> {
    let span = reader.span(pair);
    let text = pair.as_str();
    let commas = text.matches(',').count();
    let last = text.rsplit(',').next().unwrap_or("");
    if let Some(whole) = ungrouped(text) {
        let problem = Diagnostic::error("decimal-comma", span, format!("`{text}` groups its digits"));
        let help = match packs(text) {
            Some(all) => {
                format!("digits are not grouped: write `{whole}`, or `{all}` where it is so many times as much")
            }
            None => format!("digits are not grouped: write `{whole}`"),
        };
        reader.report(problem.help(help).suggest(format!("write `{whole}`"), span, whole));
        return None;
    }
    let problem = Diagnostic::error("decimal-comma", span, format!("`{text}` is written with a comma"))
        .label("a comma begins a new clause here");
    // `1,500` may be fifteen hundred or one and a half: only the writer knows.
    let problem = if commas == 1 && !text.contains('.') {
        let pointed = text.replace(',', ".");
        if last.len() == 3 {
            let joined = text.replace(',', "");
            problem.help(format!("write `{joined}` or, if the comma was a decimal point, `{pointed}`")).suggest(
                "write a point",
                span,
                pointed,
            )
        } else {
            problem.help(format!("write `{pointed}`")).mend("write a point", span, pointed)
        }
    } else {
        let joined = text.replace(',', "");
        problem.help(format!("digits are not grouped: write `{joined}`")).mend("leave out the commas", span, joined)
    };
    reader.report(problem);
    None
}
