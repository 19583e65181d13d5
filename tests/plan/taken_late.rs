//! From which step on a part holds what it takes: the first, but for what a later one names.

use miche::model::recipe::{Part, Refers};
use miche::model::step::{Step, StepKind, Target, Timing, Words};

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
/// more than one thing; else the first. A rest at the beginning that names nothing is one of what the step after it names.
pub fn taken_at(part: &Part, line: usize, first: usize) -> usize {
    let is_beside = |step: &Step| {
        step.order.iter().any(|one| matches!(one, Timing::During(_) | Timing::Into(_) | Timing::Before(_)))
    };
    let is_mute = |step: &Step| step.kind == StepKind::Wait && named(step).is_empty();
    let mut from_first = part.steps.iter().enumerate().skip(first).filter(|(_, step)| !is_beside(step));
    let speaks = from_first.find(|(_, step)| !is_mute(step)).map_or(first, |(at, _)| at);
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
        Some(at) if at > speaks && part.steps.get(speaks).is_some_and(says) => at,
        _ => first,
    }
}
