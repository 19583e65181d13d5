//! `not-divided`: a dough that is to be divided into pieces, and no step makes them.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::rests::WORKS;
use crate::model::cooking::{Beginnings, bakes, beginnings, called, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "not-divided",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a dough or paste that is divided into pieces by its `divide` line, with its steps written out, and none in which hands shape, cut, \
                scale or pipe anything",
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

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
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
