//! A paragraph that tells several things one after the other, told apart: one step for each time that it gives.

use super::acts;
use super::amount::Unit;
use super::heat::{heat, is_of_an_oven};
use super::keeping;
use super::measure::measure;
use super::method;
use super::times;
use super::verbs::{self, is_verb};
use super::words::sentences;
use crate::text::capital::capital;

/// Words before a figure that make it a moment and no time that something takes: `after 20 min`, `at 30 and 60 min`.
const MOMENTS: [&str; 11] =
    ["after", "at", "last", "first", "within", "and", "by", "final", "until", "before", "halfway"];
/// First words of a sentence that tells another way to do what was just told.
const OTHERWISE: [&str; 6] = ["or", "alternatively", "otherwise", "else", "if", "but"];

/// A paragraph of more bytes is not told apart: each of its sentences is read again with those before it.
const LONGEST: usize = 4000;

/// A step in its own words, and its verb where that stands in the step before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Step {
    pub(super) text: String,
    pub(super) verb: Option<String>,
}

/// The steps of a paragraph, each in its own words; the whole, where its times cannot be told apart.
///
/// A sentence with a time begins a step where the one before has its time; so does a clause that begins with a verb. What gives no
/// time belongs to what stands before it, or to the first.
pub(super) fn steps(text: &str) -> Vec<Step> {
    let whole = || vec![Step { text: text.to_owned(), verb: None }];
    let several = times::durations(text) + usize::from(verbs::says_overnight(text)) > 1;
    // Words of another language have no verb that is known here, and their `Min.` ends no sentence.
    if !several || text.len() > LONGEST || is_doubtful(text) || verbs::verbs(text).is_empty() {
        return whole();
    }
    let mut told: Vec<String> = Vec::new();
    for group in grouped(sentences(text).map(|sentence| (sentence, true))) {
        // `Cool 30 min, then into the fridge overnight` is two, `for 1 h or overnight` one.
        if times::durations(&group) + usize::from(verbs::says_overnight(&group)) > 1 {
            told.extend(grouped(clauses(&group)));
        } else {
            told.push(group);
        }
    }
    let sound = |step: &String| durations(step) <= 1 && is_balanced(step);
    if told.len() < 2 || !told.iter().all(sound) {
        return whole();
    }
    let mut steps: Vec<Step> = Vec::new();
    for step in &told {
        let own = as_sentence(step);
        let verb = steps.last().and_then(|before| lent(&own, before));
        steps.push(Step { text: own, verb });
    }
    steps
}

/// The verb that a step without one takes from the step before: `Bake at 230 C for 20 min, then at 180 C for an hour`.
fn lent(own: &str, before: &Step) -> Option<String> {
    let goes_on = acts::is_more_of_it(own);
    if !goes_on && !acts::verbs_of_time(own).is_empty() {
        return None;
    }
    // `Bake at 250C for 10 min, reduce to 200C for 35 min`: the oven is set, and the bake goes on.
    let sets = acts::sets_the_oven(own);
    let bare_figure = own.starts_with(|c: char| c.is_numeric());
    let joined =
        ["At ", "For ", "An hour", "Half an hour", "Gas mark", "Another "].iter().any(|word| own.starts_with(word));
    if !(bare_figure || joined || goes_on || sets) {
        return None;
    }
    let (verb, kind) = match &before.verb {
        Some(verb) => (verb.clone(), "tend"),
        None => method::named(&before.text, &[])?,
    };
    match kind {
        _ if goes_on && !is_of_an_oven(own) => Some(verb),
        // What was boiled is not boiled in an oven.
        "tend" if is_of_an_oven(own) && !["bake", "roast", "toast"].contains(&verb.as_str()) => None,
        "tend" => Some(verb),
        // What rests goes on resting only where that is said, and not where it is hot or cold.
        "wait" if joined && heat(own).is_none() => Some(verb),
        "hands" if joined || says_how(own) => Some(verb),
        _ => None,
    }
}

/// Whether words say at which speed or by which hand a dough goes on being worked.
fn says_how(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["slow", "fast", "speed", "1st", "2nd", "first", "second", "by hand", "by machine"]
        .iter()
        .any(|word| lower.contains(word))
}

/// How many times a text gives that a step can take.
fn durations(text: &str) -> usize {
    let given: usize = sentences(text)
        .filter(|one| keeping::keeping(one).is_none() && !verbs::forbids(one))
        .map(times::durations)
        .sum();
    if given == 0 { usize::from(verbs::says_overnight(text)) } else { given }
}

/// Puts what follows each other together, so that each group gives a time; a piece that may not begin one goes with the one before.
fn grouped<'t>(pieces: impl Iterator<Item = (&'t str, bool)>) -> Vec<String> {
    let mut groups: Vec<String> = Vec::new();
    let mut open = String::new();
    for (piece, begins) in pieces {
        if begins && durations(&open) > 0 {
            groups.push(std::mem::take(&mut open));
        }
        open.push_str(piece);
    }
    // What is told at the end and gives no time ends the last step.
    match groups.last_mut() {
        Some(last) if durations(&open) == 0 => last.push_str(&open),
        _ => groups.push(open),
    }
    groups
}

/// The clauses of a sentence, and whether each begins with a verb or `then`.
fn clauses(sentence: &str) -> impl Iterator<Item = (&str, bool)> {
    let mut rest = sentence;
    std::iter::from_fn(move || {
        let ends = [", ", "; ", " then ", " and "].into_iter();
        let cut = |end: &str| {
            let places = rest.match_indices(end).map(|(at, _)| if end.starts_with(' ') { at } else { at + 1 });
            places.into_iter().find(|at| *at > 0 && rest.get(*at..).is_some_and(begins))
        };
        let end = ends.filter_map(cut).min().unwrap_or(rest.len());
        let (clause, after) = rest.split_at_checked(end)?;
        rest = after;
        (!clause.is_empty()).then_some((clause, begins(clause)))
    })
}

/// Whether a clause tells something of its own.
fn begins(clause: &str) -> bool {
    let bare = without_joint(clause);
    let first = bare.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    // `Prove 1 h, fridge overnight`.
    let into_the_cold = ["fridge", "freezer"].contains(&first.to_lowercase().as_str());
    is_verb(&first.to_lowercase()) || into_the_cold || clause.trim_start().starts_with("then ")
}

/// A clause without the words that join it to the one before.
fn without_joint(clause: &str) -> &str {
    let mut bare = clause.trim_start();
    while let Some(rest) = ["and ", "then "].into_iter().find_map(|joint| bare.strip_prefix(joint)) {
        bare = rest.trim_start();
    }
    bare
}

/// A step in its own words, the first letter large, nothing left of what joined it to the next.
fn as_sentence(step: &str) -> String {
    let step = without_joint(step).trim_end().trim_end_matches([',', ';']);
    // By how it looks when it is done: a line of its own, which begins with a small letter.
    if step.starts_with("until ") { step.to_owned() } else { capital(step) }
}

/// Whether it is doubtful that each time is one that something takes, once: another way to do the same, or a moment.
fn is_doubtful(text: &str) -> bool {
    let lower = times::with_figures(text).unwrap_or_else(|| text.to_owned()).to_lowercase();
    let is_heat =
        |unit: &str| unit.starts_with(['°', 'º']) || matches!(unit.trim_end_matches(['.', ',', ';', ')']), "c" | "f");
    let words: Vec<&str> = lower.split_whitespace().collect();
    let moments = words.iter().enumerate().any(|(at, word)| {
        let behind = |more: usize| words.get(at + more).copied().unwrap_or_default();
        let figure = behind(1).trim_start_matches(['(', '~']);
        let is_moment =
            MOMENTS.contains(&word.trim_matches(|c: char| !c.is_alphabetic())) && is_figure_of_no_heat(figure);
        // `350 g water and 10 g salt`.
        let weighs = || {
            let said = format!("{} {}", behind(1), behind(2));
            measure(&said).is_some_and(|(amount, _)| amount.is_quantity() || amount.unit == Some(Unit::Loose))
        };
        is_moment && !is_heat(behind(2)) && !weighs()
    });
    let first = |sentence: &str| sentence.split_whitespace().next().unwrap_or_default().trim_matches(',').to_owned();
    moments || sentences(&lower).any(|sentence| OTHERWISE.contains(&first(sentence).as_str()))
}

/// Whether a word is a figure and says no heat: `20`, and not `200C`.
fn is_figure_of_no_heat(word: &str) -> bool {
    let begins = word.starts_with(|c: char| c.is_numeric());
    let figure = word.trim_end_matches(|c: char| !c.is_numeric() && c != 'c' && c != 'f' && c != '\u{b0}');
    // A heat has three figures in most kitchens, and its sign in all others.
    let digits = figure.chars().filter(char::is_ascii_digit).count();
    begins && !figure.ends_with(['c', 'f', '\u{b0}']) && digits < 3
}

fn is_balanced(text: &str) -> bool {
    text.matches('(').count() == text.matches(')').count()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ways in which people write what they do. Common practice, no source.
    #[test]
    fn what_is_told_in_one_paragraph_is_told_apart() {
        for (text, wanted) in [
            (
                "Mix briefly (2 min by hand). Rest 30 minutes in the fridge.",
                &["Mix briefly (2 min by hand).", "Rest 30 minutes in the fridge."][..],
            ),
            (
                "Poach in the milk for 8 min, flake. Sweat leeks in butter 10 min, stir in flour, add the milk, cook 5 min till thick. Cool.",
                &[
                    "Poach in the milk for 8 min, flake.",
                    "Sweat leeks in butter 10 min",
                    "Stir in flour, add the milk, cook 5 min till thick. Cool.",
                ],
            ),
            (
                "Pour over, cool 30 min, then into the fridge overnight.",
                &["Pour over, cool 30 min", "Into the fridge overnight."],
            ),
            (
                "Fill two tins. Bake at 230C for 20 min, then at 180C for another 60 min.",
                &["Fill two tins. Bake at 230C for 20 min", "At 180C for another 60 min."],
            ),
            ("Bake 20 min at 230C, then bake 15 min at 200C.", &["Bake 20 min at 230C", "Bake 15 min at 200C."]),
            ("Rest 30 min. Dust the bench. Roll for 5 min.", &["Rest 30 min.", "Dust the bench. Roll for 5 min."]),
            // One time, or times that are no steps of their own, stay as they are.
            ("Bake for 30 min. Turn the tray after 20 min.", &["Bake for 30 min. Turn the tray after 20 min."]),
            ("Prove 2 h. Fold at 30 and 60 min.", &["Prove 2 h. Fold at 30 and 60 min."]),
            (
                "Knead 10 minutes by hand. Or 6 minutes by machine.",
                &["Knead 10 minutes by hand. Or 6 minutes by machine."],
            ),
            ("Mix 4 min slow, 6 min fast.", &["Mix 4 min slow, 6 min fast."]),
            (
                "Roll and fold 4 times, 5 minutes each, with 20 min chilling between.",
                &["Roll and fold 4 times, 5 minutes each, with 20 min chilling between."],
            ),
            ("Chill for 1 hr or overnight.", &["Chill for 1 hr or overnight."]),
            ("Bake (20 min. at least, 30 min. at most).", &["Bake (20 min. at least, 30 min. at most)."]),
        ] {
            let told: Vec<String> = steps(text).into_iter().map(|step| step.text).collect();
            assert_eq!(told, wanted, "{text}");
        }
    }

    /// Nobody rests at 200 °C: a verb goes on where the same is done, and the words stay those of the notes.
    #[test]
    fn a_verb_goes_on_only_where_the_same_is_done() {
        for (text, wanted) in [
            ("Bake at 230C for 20 min, then at 180C for another 60 min.", Some("bake")),
            ("Bake 20 min at 230C. 15 min at 200 C.", Some("bake")),
            ("Mix 4 min. 6 min fast.", Some("mix")),
            ("Rest 1 h. 200C 10 mins.", None),
            ("Prove 1 h. 220 C for 30 min until brown.", None),
            ("Chill 20 min. 12 min/180º.", None),
            ("Chill 30 min. 12 min.", None),
            ("Simmer 20 min. 200C for 10 min.", None),
        ] {
            let told = steps(text);
            assert_eq!(told.get(1).map(|step| step.verb.as_deref()), Some(wanted), "{text}");
        }
    }
}
