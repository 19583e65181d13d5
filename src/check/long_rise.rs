//! `long-rise`: a dough with so much yeast that it is over long before its time.

use super::dough::{Nearest, is_dough, lists_flour, mille, yeast_as_instant};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Proportion};
use crate::measure::show;
use crate::model::cooking::cold_words::NOT_WARM;
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{Beginnings, bakes, beginnings, called, chills, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Part, PartId};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::cell::LazyCell;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "long-rise",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a rise or prove in a warm place of more than six hours with an ordinary dose of yeast, or of more than four with a large one; \
                a dough with leaven that proves for more than seven hours at 24 °C or above",
    why: "With 0.4 % of instant yeast or more (0.5 % active dry, 1.2 % fresh) a dough at 22 °C or above has doubled within three hours \
          and has fallen after six, with 0.3 % after seven; a rest of two and a half hours in a warm room is a rise. `h` for `min` and a digit too many make such times. A dough for the night takes a tenth of the yeast, \
          or stands in the cold. Where no temperature is said, with 0.8 % of instant yeast six hours are too long in any room, and with 0.4 % twelve. A dough that a preferment with yeast alone raises is over as one with leaven is. `sums` estimates how far a dough is.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix {flour}, \
          {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 10 h, at 24 C\n    until doubled\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix {flour}, \
           {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    until doubled\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let yeast_of = |id: PartId| yeast_on_flour(subject.recipe.part(id)?, subject.formula.part(id)?);
    // Nearly every dough that rises lists its own yeast.
    let yeast = LazyCell::new(|| Nearest::inside(subject.recipe, |id, _| yeast_of(id).is_some()));
    // A dough that a biga alone raises is over as one of leaven is.
    let has_leaven = |_, part: &Part| {
        part.lines
            .iter()
            .any(|line| line.kind == Kind::Leaven || part.from.is_some() && line.kind.is_yeast() && !chills_all(part))
    };
    let leaven = LazyCell::new(|| Nearest::inside(subject.recipe, has_leaven));
    for (id, part, _) in subject.whole_parts() {
        let own = yeast_of(id);
        if let Some(share) = own {
            diagnostics.extend(before_the_oven(part).filter_map(|step| long_rest(step, share)));
        }
        diagnostics.extend(stands_too_long(subject, id, part));
        // A dough of leaven that rests is alive as one that rises is.
        let rests = |step: &&Step| step.kind == StepKind::Wait && called(step, RESTING);
        if own.is_none() && lists_flour(part) {
            let yeast_inside = || yeast.of(id).is_some();
            let over = before_the_oven(part).filter(rests).filter_map(|step| over_with_leaven(step, || leaven.has(id)));
            diagnostics.extend(over.filter(|_| !yeast_inside()));
        }
        for step in before_the_oven(part).filter(|step| is_rise(step)) {
            // Of a part that takes a dough, that of the dough.
            let Some(share) = own.or_else(|| yeast.of(id).and_then(yeast_of)) else {
                diagnostics.extend(over_with_leaven(step, || leaven.has(id)));
                continue;
            };
            let by_preferment = own.is_none()
                || subject.recipe.preferments(id).any(|(other, _)| {
                    subject.recipe.part(other).is_some_and(|part| part.lines.iter().any(|line| line.kind.is_yeast()))
                });
            if by_preferment && share < mille(3) {
                diagnostics.extend(over_with_leaven(step, || true));
                continue;
            }
            // Where nobody says how warm, it is a room, or somebody says how cold.
            let in_a_room = || {
                share >= mille(8)
                    || share >= mille(4) && step.time.0 > TWELVE_HOURS && !chills(step) && !says(step, NOT_WARM)
            };
            let warm = step.temperature.map_or_else(in_a_room, |(low, _)| low.celsius() >= Number::whole(22));
            if !warm {
                continue;
            }
            let most = if share >= mille(10) { 4 } else { 6 };
            let most = Duration::new(Number::whole(most * 3600));
            // With less yeast it takes longer, and is over as well.
            let most = if share < mille(4) { most.max(Duration::new(Number::whole(7 * 3600))) } else { most };
            if share < mille(3) || step.time.0 <= most {
                continue;
            }
            let message = format!(
                "`{}` is {} in a warm place with yeast that does as much as {} of instant yeast: such a dough is over after {}",
                step.name,
                show::duration_range(step.time.0, step.time.1),
                show::percent(share),
                show::duration(most)
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, step.time_span, message)
                    .help("look whether the unit is right, min or h, and whether a digit is one too many"),
            );
        }
    }
}

const TWELVE_HOURS: Duration = Duration::new(Number::whole(12 * 3600));

/// Whether all that a preferment stands is in the cold, where it does little.
fn chills_all(part: &Part) -> bool {
    part.steps.iter().filter(|step| step.kind == StepKind::Wait).all(chills)
}

/// The steps of a part in which its dough is alive: what was baked rises no more, however long it stands.
fn before_the_oven(part: &Part) -> impl Iterator<Item = &Step> {
    part.steps.iter().take_while(|step| !(bakes(step) && step.kind != StepKind::Wait))
}

/// Rests that are no rises by their names.
const RESTING: &Beginnings = beginnings!["rest", "bench", "stand"];

/// So long pieces wait at most in a warm room when a step is done to them: no washed roll stands longer.
const MAY_STAND: Duration = Duration::new(Number::whole(6 * 3600));

/// Pieces that are brushed and may stand for 20 hours before their oven.
fn stands_too_long(subject: &Subject<'_>, id: PartId, part: &Part) -> Option<Diagnostic> {
    let stands = |step: &Step| step.kind == StepKind::Hands && step.may_stand.is_some_and(|time| time > MAY_STAND);
    let at = part.steps.iter().position(stands)?;
    let (step, after) = (part.steps.get(at)?, part.steps.get(at + 1..)?);
    let is_baked = after.iter().any(|step| bakes(step) && step.kind != StepKind::Wait);
    let cold = chills(step) || says(step, NOT_WARM);
    if !is_baked || cold || !subject.leavened().has(id) || part.steps.iter().take(at).any(bakes) {
        return None;
    }
    let message = format!(
        "after `{}` a dough that is alive may stand {}: it is over after {} where it is warm",
        step.name,
        show::duration(step.may_stand?),
        show::duration(MAY_STAND)
    );
    Some(Diagnostic::advice(CHECK.name, step.name.span, message).help(
        "look whether the unit is right, min or h; where it stands in the cold, write a `wait` that says how cold",
    ))
}

/// So long a shaped or a mixed dough with ordinary yeast does not rest in a warm room.
const RESTS: Duration = Duration::new(Number::whole(150 * 60));

/// A rest of 200 min that was meant to be 20.
fn long_rest(step: &Step, share: Proportion) -> Option<Diagnostic> {
    let rests = step.kind == StepKind::Wait && called(step, RESTING);
    let warm = step.temperature.is_none_or(|(low, _)| low.celsius() >= Number::whole(20)) && !chills(step);
    if !rests || !warm || share < mille(4) || step.time.0 <= RESTS || step.temperature.is_none() && says(step, NOT_WARM)
    {
        return None;
    }
    let message = format!(
        "`{}` is {} for a dough that yeast raises: it rises in that time",
        step.name,
        show::duration_range(step.time.0, step.time.1)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit is one too many; where it is to rise, call it so, and where it stands in the cold, say how cold"),
    )
}

fn is_rise(step: &Step) -> bool {
    let rises = || called(step, RISES) || called(step, PROVES) || called(step, beginnings!["ferment", "overnight"]);
    step.kind == StepKind::Wait && rises()
}

/// What is shaped and proves in a warm place with leaven is over in the night. A rise in the tub may take longer.
fn over_with_leaven(step: &Step, leavened: impl Fn() -> bool) -> Option<Diagnostic> {
    let name = step.name.key.as_str();
    let most = if has_word_beginning(name, PROVES) { 7 } else { 12 };
    let most = Duration::new(Number::whole(most * 3600));
    let warm = step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(24));
    if !warm || step.time.0 <= most || has_word_beginning(name, ["ferment"]) || !leavened() {
        return None;
    }
    let message = format!(
        "`{}` is {} in a warm place: a dough with leaven is over after {}",
        step.name,
        show::duration_range(step.time.0, step.time.1),
        show::duration(most)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether the unit is right, min or h, and whether a digit is one too many"),
    )
}

/// The yeast of a dough on its flour, as instant yeast.
fn yeast_on_flour(part: &Part, solved: &SolvedPart) -> Option<Proportion> {
    if part.from.is_some() || !part.lines.iter().any(|line| line.kind.is_yeast()) || !is_dough(part, solved) {
        return None;
    }
    yeast_as_instant(part, solved)?.as_share_of(solved.composition.flour).ok()
}
