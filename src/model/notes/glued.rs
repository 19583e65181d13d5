//! An amount to which its name is glued, or from which a sign parts it: `2eggs`, `2no. eggs`, `1Tbsp.honey`, `400ml: milk`, `1tsp—salt`.

use super::amount;
use super::unweighed::is_known;

/// Words by which buyers count pieces.
const PIECES: [&str; 5] = ["no.", "no", "nr.", "ea", "ea."];

/// A line in which the amount at its start is parted from its name by a blank.
pub(super) fn apart(line: &str) -> String {
    let digits =
        line.len() - line.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/')).len();
    let Some((figure, rest)) =
        line.split_at_checked(digits).filter(|(figure, _)| figure.starts_with(|c: char| c.is_ascii_digit()))
    else {
        return line.to_owned();
    };
    // `2no. eggs`.
    let (word, behind) = rest.trim_start().split_once(' ').unwrap_or((rest, ""));
    if PIECES.contains(&word.to_lowercase().as_str()) && is_food(behind) {
        return format!("{figure} {behind}");
    }
    // `2eggs`.
    let is_unit = amount::unit(rest).is_some_and(|(_, _, behind)| !behind.starts_with(char::is_alphanumeric));
    if rest.starts_with(char::is_alphabetic) && !is_unit && is_food(rest) {
        return format!("{figure} {rest}");
    }
    let Some((_, word, behind)) = amount::unit(rest).filter(|(unit, ..)| *unit != amount::Unit::Other) else {
        return line.to_owned();
    };
    let at = line.len() - behind.len();
    let name = behind.strip_prefix([':', '\u{2013}', '\u{2014}']).map(str::trim_start).or_else(|| {
        // `1Tbsp.honey`.
        let is_glued =
            behind.starts_with(char::is_alphabetic) && line.get(..at).is_some_and(|before| before.ends_with('.'));
        is_glued.then_some(behind)
    });
    match name.filter(|name| !word.is_empty() && name.starts_with(char::is_alphabetic) && is_food(name)) {
        Some(name) => format!("{} {name}", line.get(..at).unwrap_or_default()),
        None => line.to_owned(),
    }
}

/// Whether what a text begins with is known as something that goes in.
fn is_food(text: &str) -> bool {
    let name = text.split([',', '(', ';']).next().unwrap_or_default().trim().trim_end_matches('.');
    !name.is_empty() && is_known(name)
}

#[cfg(test)]
mod tests {
    use super::apart;

    #[test]
    fn a_name_is_parted_from_its_amount() {
        for (line, wanted) in [
            ("2eggs", "2 eggs"),
            ("2no. eggs", "2 eggs"),
            ("1ea onion", "1 onion"),
            ("1Tbsp.honey", "1Tbsp. honey"),
            ("400ml: buttermilk", "400ml buttermilk"),
            ("1tsp\u{2014}salt", "1tsp salt"),
            ("2nd stage", "2nd stage"),
            ("500g flour", "500g flour"),
            ("200C: bake 20 min", "200C: bake 20 min"),
            ("10 oz. butter", "10 oz. butter"),
        ] {
            assert_eq!(apart(line), wanted);
        }
    }
}
