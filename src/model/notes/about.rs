//! Which of several parts a paragraph is about.

use super::{acts, taken};

/// First words of what is done with all parts together.
const SHAPING: [&str; 8] = ["shape", "bake", "fill", "divide", "assemble", "roll", "decorate", "serve"];

/// A part's name, and the names of its ingredients.
pub(super) type About<'p> = (Option<&'p str>, &'p [String]);

/// What a paragraph is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Subject {
    /// What the last was about.
    Same,
    /// One of the parts, by its place.
    Part(usize),
    /// The one into which most goes.
    Main,
    /// All of them.
    All,
}

/// What a paragraph is about: the part it names most of, else what the last was about, which is the part at `now`. What shapes and
/// bakes is about all of them.
pub(super) fn about(text: &str, parts: &[About], now: usize) -> Subject {
    let lower = text.to_lowercase();
    let is_said = |name: &String| {
        let stands = |end: &String| end.len() > 2 && taken::has_word(&lower, end);
        lower.contains(&name.to_lowercase()) || taken::ends(name).iter().any(stands)
    };
    // `Curd: heat …` is told of the lemon curd.
    let label = lower.split_once(": ").map(|(label, _)| label).filter(|label| label.split_whitespace().count() <= 3);
    let is_labelled =
        |name: &str| label.is_some_and(|label| name.to_lowercase().split_whitespace().next_back() == Some(label));
    let said = |(name, names): &About| {
        let labelled = name.is_some_and(is_labelled);
        let own = name.filter(|name| lower.contains(&name.to_lowercase())).map_or(0, |_| 2);
        let own = if labelled { 100 } else { own };
        own + names.iter().filter(|name| is_said(name)).count()
    };
    let scores: Vec<usize> = parts.iter().map(said).collect();
    let best = scores.iter().copied().max().unwrap_or(0);
    let single = best > 0 && scores.iter().filter(|score| **score == best).count() == 1;
    let most = scores.iter().position(|score| *score == best).filter(|_| single);
    let all_of_it = ["everything", "all the ingredients", "all ingredients"].iter().any(|words| lower.contains(words));
    let begins = lower.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty());
    // `425 degrees 20 minutes` is told of what all the parts make.
    let shapes = begins.is_some_and(|word| SHAPING.contains(&word)) || acts::is_baked_unsaid(text);
    match most {
        // Rolled out, and spread with what another part is: that is done with both.
        Some(at) if shapes && at != now && scores.get(now).is_some_and(|own| *own > 0) => Subject::All,
        Some(at) => Subject::Part(at),
        None if shapes => Subject::All,
        None if all_of_it && now == 0 => Subject::Main,
        None => Subject::Same,
    }
}
