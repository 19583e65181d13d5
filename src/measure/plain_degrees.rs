//! Temperatures in plain words, told in the reader's degrees: `frozen at -18 C` is `frozen at 0 °F`.

use super::number::Number;
use super::show::{self, Units};
use super::temperature::Temperature;

/// The words with every temperature in the reader's degrees. Words that say some in these already are left as they are: whoever wrote
/// `4 C (40 F)` wrote it for both.
pub fn in_degrees(text: &str, units: Units) -> String {
    let own = if units == Units::Us { 'F' } else { 'C' };
    let (mut told, mut rest) = (String::new(), text);
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, here) = rest.split_at(at);
        let end = here.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(here.len());
        let glued = before.ends_with(|c: char| c.is_alphanumeric() || c == '.');
        match read(here).filter(|_| !glued) {
            Some(read) if read.scale == own => return text.to_owned(),
            Some(read) => {
                let minus = ['-', '\u{2212}'].iter().find_map(|minus| before.strip_suffix(*minus));
                let (before, low) = match minus.filter(|before| !before.ends_with(|c: char| c.is_alphanumeric())) {
                    Some(before) => (before, Number::ZERO.minus(read.low)),
                    None => (before, Ok(read.low)),
                };
                let degrees = |number: Number| match read.scale {
                    'F' => Temperature::from_fahrenheit(number).ok(),
                    _ => Some(Temperature::from_celsius(number)),
                };
                let Some(low) = low.ok().and_then(degrees) else { return text.to_owned() };
                told.push_str(before);
                told.push_str(&show::temperature_range(low, read.high.and_then(degrees), units).to_string());
                rest = read.rest;
            }
            None => {
                told.push_str(before);
                told.push_str(here.get(..end).unwrap_or(""));
                rest = here.get(end..).unwrap_or("");
            }
        }
    }
    told + rest
}

/// A temperature at the beginning of a text.
struct Read<'t> {
    low: Number,
    high: Option<Number>,
    scale: char,
    rest: &'t str,
}

fn read(text: &str) -> Option<Read<'_>> {
    let (low, mut rest) = figure(text)?;
    let mut high = None;
    let dash = rest.trim_start().strip_prefix(['-', '\u{2013}']).or_else(|| rest.strip_prefix(" to "));
    if let Some((figure, after)) = dash.and_then(|after| figure(after.trim_start())) {
        (high, rest) = (Some(figure), after);
    }
    let rest = rest.trim_start_matches([' ', '\u{a0}', '\u{202f}', '\u{b0}']);
    let scale = rest.chars().next().filter(|c| matches!(c, 'C' | 'F'))?;
    let rest = rest.get(1..)?;
    (!rest.starts_with(char::is_alphanumeric)).then_some(Read { low, high, scale, rest })
}

/// A number at the beginning of a text, and what stands behind it.
fn figure(text: &str) -> Option<(Number, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(end)?;
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let scale = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
    let number = format!("{whole}{part}").parse::<i128>().ok()?;
    Some((Number::fraction(number, scale)?, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    // -18 C is -0.4 F and 4 C 39.2 F by the definition of the two scales (F = 1.8 C + 32).
    #[test]
    fn each_reader_gets_own_degrees() {
        let us = |text: &str| in_degrees(text, Units::Us);
        assert_eq!(us("Keep frozen at -18 C or colder, 6 weeks."), "Keep frozen at 0 \u{b0}F or colder, 6 weeks.");
        assert_eq!(
            us("Keep at 2-8 C; below 4.0 \u{b0}C once open."),
            "Keep at 36\u{2013}46 \u{b0}F; below 39 \u{b0}F once open."
        );
        assert_eq!(us("Keep at 4 C (40 F)."), "Keep at 4 C (40 F).");
        assert_eq!(us("Vitamin C, 3 Cups, b12 C"), "Vitamin C, 3 Cups, b12 C");
        assert_eq!(in_degrees("Keep below 41 F, lot 12.", Units::Metric), "Keep below 5 \u{b0}C, lot 12.");
        assert_eq!(in_degrees("Keep below 5 C.", Units::Metric), "Keep below 5 C.");
    }
}
