//! Letters that stand where figures do, as in words read off a photo: `6O0 ml`, `l5 min`, `I egg`.

use super::amount;
use super::unweighed::is_known;

/// No oven is hotter, in degrees of either scale.
const HOTTEST: u32 = 950;

/// Reads such letters as figures in all lines; gives what was read as what.
pub(super) fn figures(lines: &mut [String]) -> Vec<String> {
    let mut read = Vec::new();
    for line in lines {
        let words: Vec<&str> = line.split(' ').collect();
        let mut now: Vec<String> = Vec::with_capacity(words.len());
        for (at, word) in words.iter().enumerate() {
            let rest = words.get(at + 1..).unwrap_or_default();
            let is_first = words
                .get(..at)
                .is_some_and(|before| before.iter().all(|word| !word.chars().any(char::is_alphanumeric)));
            match again(word, rest, is_first) {
                Some(figure) => {
                    read.push(format!("`{word}` as `{figure}`"));
                    now.push(figure);
                }
                None => now.push((*word).to_owned()),
            }
        }
        if now.iter().zip(&words).any(|(now, was)| now != was) {
            *line = now.join(" ");
        }
    }
    read
}

/// What a word is with figures for its letters; `None` where it is a word, or figures already. `rest`: the words behind it.
fn again(word: &str, rest: &[&str], is_first: bool) -> Option<String> {
    let next = rest.first().copied().unwrap_or_default();
    let measures = |text: &str| {
        let bare = text.trim_end_matches(['.', ',', ';', ':', ')']);
        bare == "%" || bare.starts_with(['\u{b0}', '\u{ba}']) || amount::is_unit(&bare.to_lowercase())
    };
    // `l kg flour`, `I egg`.
    if matches!(word, "l" | "I") {
        let is_one = is_first && (measures(next) || word == "I" && is_known(&rest.join(" ")));
        return is_one.then(|| "1".to_owned());
    }
    let end = word.find(|c: char| !(c.is_ascii_digit() || "OolI.,/".contains(c))).unwrap_or(word.len());
    let (figure, unit) = word.split_at_checked(end)?;
    let (figure, mark) = match figure.trim_end_matches(['.', ',', '/']) {
        bare if unit.is_empty() => figure.split_at_checked(bare.len())?,
        _ => (figure, ""),
    };
    let letters = |c: char| matches!(c, 'O' | 'o' | 'l' | 'I');
    // `10l` are litres, and `5oz` ounces; `180o C` are degrees.
    let bare = figure.trim_end_matches('l');
    if figure.ends_with('o') {
        return None;
    }
    let is_mixed = |text: &str| text.contains(letters) && text.chars().any(|c| c.is_ascii_digit());
    if !is_mixed(figure) || unit.is_empty() && !bare.contains(letters) {
        return None;
    }
    let is_measured = if unit.is_empty() { measures(next) } else { measures(unit) };
    let digits: String = figure
        .chars()
        .map(|character| match character {
            'O' | 'o' => '0',
            'l' | 'I' => '1',
            other => other,
        })
        .collect();
    // Nothing is so hot: `180O C` has a sign of degrees.
    let sign = if unit.is_empty() { next } else { unit };
    let is_heat = sign.starts_with(['C', 'F', '\u{b0}', '\u{ba}']);
    let is_too_hot = is_heat && digits.parse::<u32>().is_ok_and(|degrees| degrees > HOTTEST);
    (is_measured && !is_too_hot).then(|| format!("{digits}{mark}{unit}"))
}

#[cfg(test)]
mod tests {
    use super::figures;

    #[test]
    fn letters_before_a_unit_are_figures() {
        for (line, wanted) in [
            ("l kg strong flour", "1 kg strong flour"),
            ("6O0 ml milk", "600 ml milk"),
            ("l00g butter", "100g butter"),
            ("O,5 l water", "0,5 l water"),
            ("I egg", "1 egg"),
            ("Bake l5 min at 22O C.", "Bake 15 min at 220 C."),
            ("salt 2O g", "salt 20 g"),
            ("10l water", "10l water"),
            ("5oz butter", "5oz butter"),
            ("Bake at 180o C", "Bake at 180o C"),
            ("Bake at 180O C", "Bake at 180O C"),
            ("| g | % |", "| g | % |"),
            ("I use butter", "I use butter"),
            ("H2O 500 g", "H2O 500 g"),
            ("o/n in the fridge", "o/n in the fridge"),
            ("00 flour 500 g", "00 flour 500 g"),
        ] {
            let mut lines = vec![line.to_owned()];
            let read = figures(&mut lines);
            assert_eq!(lines, [wanted]);
            assert_eq!(read.is_empty(), line == wanted, "{line}");
        }
    }
}
