//! Headings and lines about the whole recipe, told from everything else.

use super::amount;
use super::words;

/// What a line is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Kind {
    /// `Ingredients:`
    Ingredients,
    /// `Method:`
    Method,
    /// `Notes:`
    Notes,
    /// `For the filling:`
    Part(String),
    /// `Makes 12 buns`, as the language says it, and what was guessed.
    Makes(String, Option<&'static str>),
    /// Anything else.
    Words,
}

/// Tells a line's kind. `in_method`: what is done is being told, where a short line ending in a colon is often a sentence.
pub(super) fn of(line: &str, bare: &str, in_method: bool) -> Kind {
    if let Some(makes) = makes(bare) {
        return makes;
    }
    let marked = line.starts_with('#') || (line.starts_with("**") && line.ends_with("**")) || line.starts_with("__");
    let text = bare.trim_matches(|c: char| matches!(c, '#' | '*' | '_' | '=' | '-') || c.is_whitespace());
    let colon = text.ends_with(':');
    let text = text.trim_end_matches(':').trim();
    let lower = text.to_lowercase();
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    let shouted = letters >= 4 && !text.chars().any(char::is_lowercase);
    match lower.as_str() {
        "ingredients" | "you need" | "you will need" | "you'll need" | "what you need" | "shopping" => {
            return Kind::Ingredients;
        }
        "method" | "directions" | "instructions" | "preparation" | "steps" | "procedure" | "what to do" | "to make"
        | "making" | "how to make it" | "how" => return Kind::Method,
        "notes" | "note" | "tips" | "tip" | "variations" | "storage" | "ps" | "p.s." => return Kind::Notes,
        _ => {}
    }
    if text.is_empty() || text.chars().any(|c| c.is_ascii_digit()) || text.split_whitespace().count() > 6 {
        return Kind::Words;
    }
    let for_the = lower.starts_with("for the ") || (lower.starts_with("for ") && colon);
    let sentence = in_method && !for_the && text.split_whitespace().count() > 3;
    if (marked || colon || shouted || (for_the && !text.ends_with('.'))) && !sentence && !text.contains(',') {
        let name = if for_the {
            let rest = text.get(4..).unwrap_or(text).trim();
            rest.strip_prefix("the ").or_else(|| rest.strip_prefix("The ")).unwrap_or(rest)
        } else {
            text
        };
        let name = words::name(name);
        if !name.is_empty() {
            return Kind::Part(if shouted { name.to_lowercase() } else { name });
        }
    }
    Kind::Words
}

fn makes(bare: &str) -> Option<Kind> {
    let lower = bare.to_lowercase();
    let keys = ["makes", "yields", "yield", "serves", "servings", "portions"];
    let key = keys.into_iter().find(|key| {
        lower.strip_prefix(key).is_some_and(|rest| rest.starts_with([' ', ':']) && rest.chars().any(char::is_numeric))
    })?;
    let rest = bare.get(key.len()..)?.trim_start_matches([':', ' ']);
    let about = ["about ", "approx. ", "approximately ", "around ", "ca. ", "roughly "];
    let lower = rest.to_lowercase();
    let (rest, loose) = match about.into_iter().find(|word| lower.starts_with(word)) {
        Some(word) => (rest.get(word.len()..)?, true),
        None => (rest, false),
    };
    let (figure, rest) = amount::figure(rest)?;
    let look = if figure.most.is_some() {
        Some("the smaller figure is taken")
    } else if loose {
        Some("the notes say `about`")
    } else {
        figure.look
    };
    let noun = words::name(rest.split(['.', ',', ';', '(']).next().unwrap_or(""));
    let noun = match (noun.is_empty(), key) {
        (true, "serves" | "servings" | "portions") => "portions".to_owned(),
        (true, _) => "pieces".to_owned(),
        (false, _) => noun,
    };
    let lost = rest.contains(['.', ',', ';', '(']).then_some("only the number is taken");
    Some(Kind::Makes(format!("makes {} {noun}", figure.shown), look.or(lost)))
}
