//! `not-divided`: a dough that is to be divided into pieces, and no step makes them.

use super::{Check, Family, Run, Subject};
use crate::language::syntax::Name;
use crate::model::cooking::rests::WORKS;
use crate::model::cooking::{Beginnings, bakes, beginnings, called, cooks, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "not-divided",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a dough or paste that is divided into pieces by its `divide` line, with its steps written out, and none in which hands shape, cut, \
                scale or pipe anything; and what is baked a few at a time and was never parted",
    why: "The step that makes the pieces was lost: the plan has no hands for it, and a dough that has risen goes on rising as a whole. Told \
          where two rests stand one after the other, or where the part and what takes it have five steps and more. A sheet that says no more \
          than how the dough is mixed and baked is left alone. It is advice: if it is meant so, `# allow not-divided: reason` above the \
          `divide` line keeps it quiet.",
    bad: "recipe Pier bagels\nmakes 8 bagels\nstrong white flour .... 500 g\nwater .... 290 g\nsalt .... 10 g\ninstant yeast .... 3 g\ndivide \
          8 x 99 g, loss 1.4 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until \
          smooth\nrest: wait 30 min, at 22 C\nretard: wait 12 h, at 4 C, up to 24 h\nbake: tend 18 min, using oven at 230 C\n    until brown\n",
    good: "recipe Pier bagels\nmakes 8 bagels\nstrong white flour .... 500 g\nwater .... 290 g\nsalt .... 10 g\ninstant yeast .... 3 \
           g\ndivide 8 x 99 g, loss 1.4 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until \
           smooth\nrest: wait 30 min, at 22 C\nshape: hands 45 s, each\nretard: wait 12 h, at 4 C, up to 24 h\nbake: tend 18 min, using \
           oven at 230 C\n    until brown\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// Words of a step by which a whole becomes pieces, or goes into their tins.
const MAKES_PIECES: &Beginnings = &Beginnings::of(&[
    "shap", "form", "divid", "scal", "cut", "slic", "portion", "weigh", "pip", "scoop", "drop", "spoon", "ladl",
    "pour", "fill", "tin", "mould", "mold", "roll", "round", "ball", "press", "stamp", "plait", "braid", "twist",
    "stretch", "ring", "basket", "dip", "piece", "pinch", "tear", "pull", "turn out", "tip out", "tip in", "tip on",
    "pat", "spread", "heap", "tray", "sheet", "pan", "case", "layer", "jar", "bottle", "lay", "mark", "score", "flat",
    "log", "fold", "set out", "pack", "wrap", "bag", "crumb", "strip", "disc", "square", "triangle", "break", "snap",
    "knot", "loaves", "loaf",
]);

/// Words of a step after which a dough or a batter that was one lies there in pieces.
const PARTS: &Beginnings = &Beginnings::of(&[
    "shap",
    "form",
    "divid",
    "scal",
    "cut",
    "slic",
    "portion",
    "weigh",
    "pip",
    "scoop",
    "drop",
    "spoon",
    "ladl",
    "pour",
    "fill",
    "mould",
    "mold",
    "roll",
    "round",
    "ball",
    "stamp",
    "plait",
    "braid",
    "twist",
    "stretch",
    "ring",
    "pinch",
    "tear",
    "pull",
    "pat",
    "heap",
    "case",
    "lay",
    "strip",
    "disc",
    "square",
    "triangle",
    "break",
    "knot",
    "press",
    "set",
    "place",
    "arrang",
    "each",
    "piece",
    "tin",
    "hole",
    "cup",
    "mark",
    "log",
    "spread",
    "dip",
    "moulds",
    "basket",
    "crimp",
    "fold over",
    "dollop",
    "mound",
    "split",
    "quarter",
    "halve",
    "segment",
    "wedge",
    "score",
]);

/// What is baked by the piece a few at a time and was never parted: the step that drops the cookies on their sheets was lost.
fn baked_by_the_piece(subject: &Subject<'_>) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let id = recipe.final_part()?;
    let part = recipe.part(id).filter(|part| !part.broken && !part.per_piece)?;
    let Some(HeadMakes::Pieces { noun, .. }) = &recipe.makes else { return None };
    let bake =
        part.steps.iter().find(|step| step.kind != StepKind::Wait && cooks(step) && step.loads.size().is_some())?;
    let of_dough = part.lines.iter().any(|line| line.is_flour || matches!(line.kind, Kind::Nut | Kind::Grain));
    let told = |name: &Name| {
        name.has_word_beginning(beginnings![
            "tray", "sheet", "slab", "tart", "pie", "cake", "loaf", "loaves", "quiche", "pizza"
        ])
    };
    let all = || all_steps(recipe, id, part);
    // What a step takes may be rolled oats.
    let parts = |step: &Step| {
        step.loads.is_by_piece()
            || called(step, PARTS)
            || says(step, PARTS)
                && step.words.iter().chain(&step.cue).any(
                    |word| matches!(word, Words::Text(text) if has_word_beginning(&text.to_lowercase(), PARTS.words())),
                )
    };
    if !of_dough || told(noun) || part.steps.len() < 3 || all().any(parts) {
        return None;
    }
    let message = format!("`{}` bakes by the piece, and no step makes the {}", bake.name, noun.text);
    Some(
        Diagnostic::advice(CHECK.name, bake.span, message)
            .help("write the step in which they are dropped, piped, cut or shaped, `scoop: hands 10 s, each`"),
    )
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    if let Some(problem) = baked_by_the_piece(subject) {
        diagnostics.push(problem);
        return;
    }
    for (id, part, _) in subject.whole_parts() {
        let Some(divide) = part
            .divide
            .filter(|_| !part.broken && part.lines.iter().any(|line| line.is_flour || line.kind == Kind::Nut))
        else {
            continue;
        };
        // What is done by the piece is seen at once, and most have such a step.
        let steps = || all_steps(subject.recipe, id, part);
        if steps().any(|step| step.loads.is_by_piece()) || steps().any(makes_pieces) {
            continue;
        }
        let users = || subject.recipe.users(id).filter_map(|(user, _)| subject.recipe.part(user));
        let steps = part.steps.len() + users().map(|user| user.steps.len()).sum::<usize>();
        let is_written_out = steps >= 5 && part.steps.iter().any(bakes);
        if !is_written_out && !two_rests(part) {
            continue;
        }
        let message = format!("no step makes the pieces into which `{}` is divided", part.name);
        diagnostics.push(
            Diagnostic::advice(CHECK.name, divide.span, message)
                .help("write the step in which they are shaped, `shape: hands 30 s, each`, or cut, scaled or piped"),
        );
    }
}

/// The steps of a part, of those that lie in it and of those that take it.
fn all_steps<'r>(recipe: &'r Recipe, id: PartId, part: &'r Part) -> impl Iterator<Item = &'r Step> {
    let inner = part.lines.iter().filter_map(|line| match line.refers {
        Refers::Part(other) => recipe.part(other),
        Refers::Pantry(_) => None,
    });
    let users = recipe.users(id).filter_map(|(user, _)| recipe.part(user));
    let preferments = recipe.preferments(id).map(|(_, part)| part);
    std::iter::once(part).chain(inner).chain(users).chain(preferments).flat_map(|part| &part.steps)
}

fn makes_pieces(step: &Step) -> bool {
    step.kind != StepKind::Wait && says(step, MAKES_PIECES)
}

/// Two rests one after the other, the later of which is that of pieces.
fn two_rests(part: &Part) -> bool {
    let waits = |step: &Step| step.kind == StepKind::Wait && step.order.is_empty();
    let rests = |step: &Step| waits(step) && (called(step, WORKS) || called(step, beginnings!["rest", "chill"]));
    part.steps.windows(2).any(|two| matches!(two, [one, other] if rests(one) && rests(other)))
}
