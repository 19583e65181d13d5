//! Durations as data says them, `PT1H20M` by ISO 8601, in words.

/// A designator of a duration and the word for it: before the `T` and behind it `M` means another.
const DAYS: &[(char, &str, &str)] =
    &[('Y', "year", "years"), ('M', "month", "months"), ('W', "week", "weeks"), ('D', "day", "days")];
const HOURS: &[(char, &str, &str)] = &[('H', "h", "h"), ('M', "min", "min"), ('S', "s", "s")];

/// `PT1H20M` as `1 h 20 min`. Terms of nothing are left out; `None` for what is no duration, or one of nothing.
///
/// Source of the form: ISO 8601-1:2019, 5.5.2 (from memory).
pub(super) fn in_words(text: &str) -> Option<String> {
    let text = text.trim().to_uppercase().replace(',', ".");
    let (days, hours) = text.strip_prefix('P')?.split_once('T').unwrap_or((text.strip_prefix('P')?, ""));
    let mut terms = read(days, DAYS)?;
    terms.extend(read(hours, HOURS)?);
    (!terms.is_empty()).then(|| terms.join(" "))
}

/// `1H20M` as its terms that are more than nothing; each designator once, in its order.
fn read(text: &str, units: &[(char, &str, &str)]) -> Option<Vec<String>> {
    let mut terms = Vec::new();
    let (mut rest, mut from) = (text, 0);
    while !rest.is_empty() {
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
        let (figure, behind) = rest.split_at(end);
        let sign = behind.chars().next()?;
        let at = units.iter().skip(from).position(|(unit, ..)| *unit == sign)? + from;
        let (_, one, many) = units.get(at)?;
        if figure.is_empty() || figure.starts_with('.') || figure.ends_with('.') || figure.matches('.').count() > 1 {
            return None;
        }
        if figure.chars().any(|c| !matches!(c, '0' | '.')) {
            let plain = figure.trim_start_matches('0');
            let plain = if plain.is_empty() || plain.starts_with('.') { format!("0{plain}") } else { plain.to_owned() };
            terms.push(format!("{plain} {}", if plain == "1" { one } else { many }));
        }
        from = at + 1;
        rest = behind.get(sign.len_utf8()..)?;
    }
    Some(terms)
}

#[cfg(test)]
mod tests {
    use super::in_words;

    #[test]
    fn durations_are_told_as_they_are_written() {
        for (said, wanted) in [
            ("PT1H20M", Some("1 h 20 min")),
            ("PT90M", Some("90 min")),
            ("P0DT0H25M", Some("25 min")),
            ("P0Y0M1DT2H0M0S", Some("1 day 2 h")),
            ("P2D", Some("2 days")),
            ("P1W", Some("1 week")),
            ("P3M", Some("3 months")),
            ("pt1.5h", Some("1.5 h")),
            ("PT0,5H", Some("0.5 h")),
            ("PT05M", Some("5 min")),
            ("PT30S", Some("30 s")),
            ("PT0M", None),
            ("PT", None),
            ("P", None),
            ("", None),
            ("20 minutes", None),
            ("PT20", None),
            ("PTM", None),
            ("PT5M3H", None),
            ("PT5M5M", None),
            ("PT1..5H", None),
            ("-PT5M", None),
        ] {
            assert_eq!(in_words(said).as_deref(), wanted, "{said}");
        }
    }
}
