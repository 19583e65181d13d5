//! Signs of a screen in notes: little pictures before and behind the words, numbers in circles and on keys.

/// What stands for a blank: pictures and their parts, which say nothing that is measured.
fn is_picture(character: char) -> bool {
    matches!(
        character,
        '\u{2600}'..='\u{2712}' | '\u{2714}'..='\u{27BF}' | '\u{2B00}'..='\u{2BFF}' | '\u{1F000}'..='\u{1FAFF}' | '\u{FE0E}' | '\u{FE0F}'
            | '\u{200D}' | '\u{20E3}'
    )
}

/// The number in a circle: `①` is 1.
fn in_circle(character: char) -> Option<u32> {
    matches!(character, '\u{2460}'..='\u{2473}').then(|| u32::from(character) - 0x245F)
}

/// A line with its words and figures alone: `👉 7 g yeast`, `1️⃣ Mix`, `② Rest`. A line of nothing but pictures stays as it is.
pub(super) fn plain(line: &str) -> String {
    let bare = line.trim_start();
    if !bare.chars().any(|character| is_picture(character) || in_circle(character).is_some()) {
        return line.to_owned();
    }
    let numbered = of_list(bare).unwrap_or_else(|| bare.to_owned());
    let plain: String = numbered.chars().map(|character| if is_picture(character) { ' ' } else { character }).collect();
    let plain = plain.split(' ').filter(|word| !word.is_empty()).collect::<Vec<&str>>().join(" ");
    if plain.chars().any(char::is_alphanumeric) { plain } else { line.to_owned() }
}

/// A line that begins with a number on a key or in a circle, as one of a list.
fn of_list(line: &str) -> Option<String> {
    if let Some(number) = line.chars().next().and_then(in_circle) {
        let rest = line.get(3..)?.trim_start_matches(['.', ')', ' ']);
        return Some(format!("{number}. {rest}"));
    }
    let (digits, rest) = line.split_at_checked(line.find(|c: char| !c.is_ascii_digit())?)?;
    let keys = rest.trim_start_matches('\u{FE0F}').strip_prefix('\u{20E3}')?;
    (!digits.is_empty()).then(|| format!("{digits}. {}", keys.trim_start_matches(['.', ')', ' '])))
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn words_and_figures_stay() {
        for (line, wanted) in [
            ("\u{1F449} 7 g yeast", "7 g yeast"),
            ("1\u{FE0F}\u{20E3} Mix 10 min", "1. Mix 10 min"),
            ("\u{2461} Rest 1 h", "2. Rest 1 h"),
            ("\u{1F35E} Saturday loaf \u{1F35E}", "Saturday loaf"),
            ("\u{2705} 500 g flour", "500 g flour"),
            ("\u{1F95A}\u{1F95A}", "\u{1F95A}\u{1F95A}"),
            ("flour \u{2192} 500 g", "flour \u{2192} 500 g"),
            ("500 g flour", "500 g flour"),
        ] {
            assert_eq!(plain(line), wanted);
        }
    }
}
