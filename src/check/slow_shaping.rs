//! `slow-shaping`: a small piece that is shaped for minutes.

use super::odd_bake_time::piece;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{Beginnings, called, says};
use crate::model::step::StepKind;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "slow-shaping",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a roll that is rounded, moulded or rolled up for more than two minutes each, a loaf for more than four",
    why: "Whoever shapes fifty rolls does one in ten to thirty seconds; three minutes each keep a person busy for two and a half hours, and \
          the first roll is proved before the last is made. A slipped point makes 200 s of 20 s. Common practice: pieces up to 150 g take two \
          minutes at most, others four. What is plaited, filled or decorated is left alone. It is advice: if it is meant so, `# allow \
          slow-shaping: reason` above the step keeps it quiet.",
    bad: "recipe Rolls\nmakes 20 rolls\nflour .... 1 kg\nwater .... 640 g\nsalt .... 18 g\ninstant yeast .... 8 g\ndivide 20 x 82 g, loss 1.5 \
          %\nmix: hands 10 min\n    Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands \
          200 s, each\nprove: wait 50 min, at 24 C\nbake: tend 15 min, using oven at 230 C\n    until gold\n",
    good: "recipe Rolls\nmakes 20 rolls\nflour .... 1 kg\nwater .... 640 g\nsalt .... 18 g\ninstant yeast .... 8 g\ndivide 20 x 82 g, loss 1.5 \
           %\nmix: hands 10 min\n    Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands \
           20 s, each\nprove: wait 50 min, at 24 C\nbake: tend 15 min, using oven at 230 C\n    until gold\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

const SHAPES: &Beginnings = &Beginnings::of(&[
    "shape",
    "shaping",
    "round",
    "mould",
    "roll",
    "scale",
    "pre-shape",
    "preshape",
    "ball",
    "form",
    "strand",
]);
/// What takes its time.
const SLOW: &Beginnings = &Beginnings::of(&[
    "plait",
    "braid",
    "twist",
    "decorat",
    "fill",
    "knot",
    "model",
    "score",
    "roll out",
    "line the",
    "line a",
    "line each",
    "line with",
    "lid",
    "crimp",
    "wrap",
    "stuff",
]);

/// Up to so many grams a piece is a roll.
const ROLL: Mass = Mass::new(Number::whole(150));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.whole_parts() {
        let Some(piece) = piece(subject.recipe, part) else { continue };
        let minutes = if piece <= ROLL { 2 } else { 4 };
        let most = Duration::new(Number::whole(minutes * 60));
        // What is shaped for more than five minutes is `odd-time`.
        let told = Duration::new(Number::whole(5 * 60));
        for step in &part.steps {
            let each = step.kind == StepKind::Hands && step.loads.is_by_piece();
            let shapes = || called(step, SHAPES) && !says(step, SLOW);
            if !each || !shapes() || step.time.0 <= most || step.time.1 > told {
                continue;
            }
            let message = format!(
                "`{}` takes {} for a piece of {}: common practice is {} at most",
                step.name,
                show::duration_range(step.time.0, step.time.1),
                show::mass_plain(piece),
                show::duration(most)
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, step.time_span, message)
                    .help("look whether a point or a digit has slipped, and whether the time is for one piece"),
            );
        }
    }
}
