//! Whether the head of a step suits what it is called: who is busy with it, and with what. What `odd-method` looks for in `prove: hands 45 min`, in
//! `shape: wait 20 s`, in a bake without an oven and in a roast in the fridge: a plan believes the head. Common practice, no source.

use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::model::cooking::{beginnings, called, says, uses};
use crate::model::lowered::Beginnings;
use crate::model::recipe::Part;
use crate::model::step::{Loads, Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// Verbs that nobody is busy with, and those that somebody is, by the first word of a name.
const WAITS: &[&str] =
    &["rise", "rising", "prove", "proof", "rest", "chill", "ripen", "soak", "set", "freeze", "retard", "bulk"];
#[rustfmt::skip]
const HANDS: &Beginnings = &Beginnings::of(&["mix", "knead", "shape", "divide", "round", "mould", "fill", "cut", "pipe", "brush", "glaze", "score", "plait", "line", "spread", "scale", "weigh"]);
/// Longer nobody needs to put something where it stands.
const TO_PUT_IT_THERE: Duration = Duration::new(Number::whole(5 * 60));
/// Hotter than anything that is not made to be.
const HOT: Number = Number::whole(60);
/// From here on something bakes.
const BAKES: Number = Number::whole(100);

/// The steps of a part whose heads say another thing than their names.
pub(super) fn problems<'p>(part: &'p Part, check: &'static str) -> impl Iterator<Item = Diagnostic> + 'p {
    part.steps.iter().filter_map(move |step| problem(step, check))
}

fn problem(step: &Step, check: &'static str) -> Option<Diagnostic> {
    // Few steps are of the wrong kind for so long, or have such a word in their names.
    let is_first = |words: &[&str]| words.contains(&step.name.key.as_str().split(' ').next().unwrap_or_default());
    let advice =
        |message: String, help: &str| Some(Diagnostic::advice(check, step.name.span, message).help(help.to_owned()));
    let heat = step.temperature.map(|(low, high)| high.unwrap_or(low));
    match step.kind {
        StepKind::Hands if step.time.0 > TO_PUT_IT_THERE && step.loads == Loads::Once && is_first(WAITS) => {
            let is_worked = says(
                step,
                beginnings![
                    "fold", "stir", "turn", "knock", "shape", "shaping", "stretch", "brush", "spray", "shake", "lay",
                    "pack", "roll"
                ],
            );
            if is_worked {
                return None;
            }
            return advice(
                format!("`{}` keeps hands busy for {}: what stands waits", step.name, show::duration(step.time.0)),
                "write `wait` for `hands`; the plan has somebody stand by it else",
            );
        }
        StepKind::Wait
            if step.name.has_word_beginning(HANDS)
                && is_first(HANDS.words())
                && step
                    .equipment
                    .as_ref()
                    .is_none_or(|name| !name.has_word_beginning(beginnings!["machine", "line", "robot", "cooker"])) =>
        {
            let stands = says(step, beginnings!["stand", "leave", "rest", "wait", "overnight"])
                || step.time.0 >= Duration::minutes(60);
            if stands {
                return None;
            }
            return advice(
                format!("`{}` waits for {}, and nobody does it", step.name, show::duration(step.time.0)),
                "write `hands` for `wait`; the plan has nobody do it else",
            );
        }
        _ => {}
    }
    let heat = heat?;
    let cold = beginnings!["mixer", "fridge", "refrigerator", "retarder", "freezer", "chiller", "sheeter", "scale|"];
    if heat.celsius() >= HOT && uses(step, cold) && !uses(step, beginnings!["thermo", "cook", "prover", "heated"]) {
        let equipment = step.equipment.as_ref()?;
        return advice(
            format!(
                "`{}` is at {} in `{equipment}`, which makes nothing hot",
                step.name,
                show::temperature(heat, Units::Metric)
            ),
            "look whether another piece of equipment was meant",
        );
    }
    let is_bake = step.kind != StepKind::Wait && called(step, beginnings!["bake", "baking", "roast"]);
    if is_bake && is_first(&["bake", "baking", "roast"]) && step.equipment.is_none() && heat.celsius() >= BAKES {
        return advice(
            format!("`{}` names no oven: the plan lets any number bake at once, and heats none", step.name),
            "write `using oven at 220 C`",
        );
    }
    None
}
