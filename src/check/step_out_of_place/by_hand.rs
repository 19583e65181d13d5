//! Cutting, dividing and trimming above what they need.

use super::{CUTS, Order, called_in_place, in_place, problem, takes};
use crate::model::cooking::{beginnings, called, has_word_beginning, says, words_of};
use crate::model::kind::Kind;
use crate::model::recipe::{Part, Refers};
use crate::model::step::{Step, StepKind, Take, Target, Words};
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;
/// Rounds, squares and triangles that are cut before the dough is rolled out, and not after it.
pub(super) fn cut_before_rolled(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let cuts = |step: &Step| {
        says(step, beginnings!["round", "square", "triangle", "strip", "rectangle", "disc", "cutter", "bar|", "bars|"])
    };
    let rolls = |step: &Step| called(step, beginnings!["roll", "sheet", "pin|"]) && words_of(step).contains("# thick");
    let (at, cut) = called_in_place(part, beginnings!["cut", "stamp"]).find(|(_, step)| cuts(step))?;
    let (later, roll) = in_place(part).find(|(later, step)| *later > at && rolls(step))?;
    let again = part.steps.iter().skip(later + 1).any(|step| called(step, CUTS));
    if again || part.steps.iter().take(at).any(rolls) {
        return None;
    }
    let message = format!("`{}` comes before `{}`, and nothing is cut after it", cut.name, roll.name);
    Some(problem(cut, roll, message, "rolled out here", &format!("move it below `{}`", roll.name)))
}

/// Pieces that are shaped, piped or put in tins above the step that takes the flour, the nuts or the grain of which they are.
pub(super) fn divided_before_made(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    part.divide?;
    let body = |at: usize| {
        part.lines.get(at).is_some_and(|line| {
            !line.aside
                && matches!(line.kind, Kind::Flour | Kind::Nut | Kind::Grain | Kind::Starch)
                && matches!(line.refers, Refers::Pantry(_))
        })
    };
    let names = beginnings![
        "shape", "round", "mould", "scale", "divide", "portion", "pipe", "fill", "cut", "slice", "roll up", "stamp"
    ];
    let (at, early) = called_in_place(part, names).find(|(_, step)| {
        step.kind == StepKind::Hands && step.loads.is_by_piece() && step.lines_taken().next().is_none()
    })?;
    let (_, make) = in_place(part).find(|(later, step)| {
        let takes_several = || step.lines_taken().nth(1).is_some() && step.lines_taken().any(body);
        *later > at && step.kind == StepKind::Hands && takes_several()
    })?;
    let message = format!("`{}` comes before `{}`, which takes what the pieces are made of", early.name, make.name);
    Some(problem(early, make, message, "made here", &format!("move it below `{}`", make.name)))
}

/// Peeling, trimming and washing what an earlier step of the part has taken already.
pub(super) fn trimmed_after_taken(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let names = beginnings!["trim", "peel", "wash", "rinse", "scrub", "shell", "stone", "pod"];
    let (at, trim) = called_in_place(part, names).find(|(_, step)| step.kind == StepKind::Hands)?;
    if takes(trim) || called(trim, beginnings!["egg"]) {
        return None;
    }
    // Salt and brine are rinsed off again.
    let salts = |step: &Step| called(step, beginnings!["brin", "cur", "salt", "soak", "ferment", "drain", "press"]);
    if called(trim, beginnings!["rinse", "wash"]) && part.steps.iter().take(at).any(salts) {
        return None;
    }
    let words = words_of(trim);
    let taken = part.steps.iter().take(at).find(|step| {
        step.words.iter().any(|word| match word {
            Words::Use { target: Some(Target::Line(line)), .. } => {
                part.lines.get(*line).is_some_and(|line| has_word_beginning(words, [line.name.key.as_str()]))
            }
            _ => false,
        })
    })?;
    let message = format!("`{}` comes after `{}`, which takes what it prepares", trim.name, taken.name);
    Some(problem(trim, taken, message, "taken here", &format!("move it above `{}`", taken.name)))
}

/// `{rest of x}` in a step above one that takes a share of x.
pub(super) fn rest_before_share(part: &Part) -> Option<Diagnostic> {
    // For each thing the first step that takes the rest of it, and the next that does.
    let mut rests: QuickMap<Target, [Option<&Step>; 2]> = QuickMap::default();
    for step in &part.steps {
        for word in &step.words {
            let Words::Use { take, target: Some(target), name } = word else { continue };
            if *take != Take::Rest
                && let Some(rest) =
                    rests.get(target).into_iter().flatten().flatten().find(|rest| rest.span != step.span)
            {
                let message =
                    format!("`{}` takes the rest of {name} before `{}` takes the first of it", rest.name, step.name);
                return Some(problem(
                    rest,
                    step,
                    message,
                    "taken first",
                    "look whether the two steps stand in the right order",
                ));
            }
            if *take == Take::Rest {
                match rests.entry(*target).or_default() {
                    [Some(first), second @ None] if first.span != step.span => *second = Some(step),
                    [first @ None, _] => *first = Some(step),
                    _ => {}
                }
            }
        }
    }
    None
}
