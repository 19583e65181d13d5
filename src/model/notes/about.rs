//! Which of several parts a paragraph is about.

use super::{acts, taken};

/// First words of what is done with all parts together.
const SHAPING: [&str; 8] = ["shape", "bake", "fill", "divide", "assemble", "roll", "decorate", "serve"];

/// Words before what goes in.
const ADDING: [&str; 8] =
    ["add", "add the", "add all the", "add all of the", "with the", "in the", "mix in", "stir in"];

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
    // `Add the levain` is told of the dough that lists it.
    let takes = |taker: &About, name: &str| taker.1.iter().any(|listed| listed.eq_ignore_ascii_case(name));
    let is_added = |name: &str| {
        let name = name.to_lowercase();
        parts.iter().any(|taker| takes(taker, &name))
            && ADDING.iter().any(|word| lower.contains(&format!("{word} {name}")))
    };
    let said = |(name, names): &About| {
        let labelled = name.is_some_and(is_labelled);
        let is_own = |name: &&str| lower.contains(&name.to_lowercase()) && !is_added(name);
        let own = name.filter(is_own).map_or(0, |_| 2);
        let own = if labelled { 100 } else { own };
        own + names.iter().filter(|name| is_said(name)).count()
    };
    let scores: Vec<usize> = parts.iter().map(said).collect();
    let best = scores.iter().copied().max().unwrap_or(0);
    let first: Vec<usize> = (0..parts.len()).filter(|at| best > 0 && scores.get(*at) == Some(&best)).collect();
    // Of two that name as much of it the one that takes the other: `autolyse flour and water` below levain and dough is of the dough.
    let taker = || {
        let takes_others = |at: &&usize| {
            let others =
                first.iter().filter(|other| other != at).map(|other| parts.get(*other).and_then(|part| part.0));
            others.into_iter().all(|name| name.zip(parts.get(**at)).is_some_and(|(name, taker)| takes(taker, name)))
        };
        first.iter().find(takes_others).copied()
    };
    let most = match first.as_slice() {
        [only] => Some(*only),
        _ => taker(),
    };
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
