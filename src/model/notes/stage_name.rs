//! What a stage of a sour is called: `Stage 1`, `2nd build`.

/// Words with which such a heading begins, before or behind the number.
const STAGES: [&str; 4] = ["stage", "build", "feed", "refreshment"];
const ORDER: [&str; 5] = ["first", "second", "third", "fourth", "fifth"];

/// The name of a stage, and what stands behind it: `stage 2` and `, 8 h at 24 C: …`.
pub(super) fn stage(bare: &str) -> Option<(String, &str)> {
    let lower = bare.to_lowercase();
    if lower.len() != bare.len() {
        return None;
    }
    let mut tokens = lower.split(' ');
    let (first, second) = (tokens.next()?, tokens.next()?);
    if STAGES.contains(&first) {
        let end = second.find(|c: char| !c.is_ascii_digit()).unwrap_or(second.len());
        let number = second.get(..end).filter(|number| !number.is_empty() && number.len() <= 2)?;
        // `Stage 12 h` is a time, and `2.5` no number of a stage.
        let rest = bare.get(first.len() + 1 + end..)?;
        return (!rest.starts_with(['.', '%'])).then(|| (format!("{first} {number}"), rest));
    }
    let behind = second.trim_end_matches(|c: char| !c.is_alphanumeric());
    let number = ORDER.iter().position(|word| first == *word).map(|at| at + 1);
    let digit = || ["1st", "2nd", "3rd", "4th", "5th"].iter().position(|word| first == *word).map(|at| at + 1);
    let number = number.or_else(digit).filter(|_| STAGES.contains(&behind))?;
    Some((format!("{behind} {number}"), bare.get(first.len() + 1 + behind.len()..)?))
}

/// Whether a text names a stage, and no more.
pub(super) fn is_stage(text: &str) -> bool {
    stage(text).is_some_and(|(_, rest)| rest.trim().is_empty())
}
