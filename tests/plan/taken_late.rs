//! From which step on a part holds what it takes: the first, but for what a later one names.

use miche::model::recipe::{Part, Refers};
use miche::model::step::{Step, Target, Words};

/// What a step names, each once.
fn named(step: &Step) -> Vec<Target> {
    let mut all = Vec::new();
    for word in &step.words {
        if let Words::Use { target: Some(target), .. } = word
            && !all.contains(target)
        {
            all.push(*target);
        }
    }
    all
}

/// The step that takes up a line that is not alive: the one that names it, where the first step says by name what it works on, another part or
/// more than one thing; else the first.
pub fn taken_at(part: &Part, line: usize, first: usize) -> usize {
    let says = |step: &Step| {
        let named = named(step);
        let is_part = |target: &Target| match target {
            Target::Line(at) => matches!(part.lines[*at].refers, Refers::Part(_)),
            Target::Preferment(_) => true,
        };
        named.len() > 1 || named.iter().any(is_part)
    };
    let names_it = part.steps.iter().position(|step| named(step).contains(&Target::Line(line)));
    match names_it {
        Some(at) if at > first && part.steps.get(first).is_some_and(says) => at,
        _ => first,
    }
}
