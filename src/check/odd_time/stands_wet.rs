//! What is wet or alive for too long: a soaker of grain or beans for two days where it is warm, a dough of yeast for weeks in the cold. Common practice, no
//! source.

use super::{CHECK, seconds};
use crate::check::Subject;
use crate::check::usual_times::DAY;
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::cold::is_freezer;
use crate::model::cooking::cold_words::NOT_WARM;
use crate::model::cooking::{bakes, beginnings, called, chills, cooks, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// The first such rest of a part.
pub(super) fn problem(subject: &Subject<'_>, (id, part): (PartId, &Part)) -> Option<Diagnostic> {
    soaks(part).or_else(|| lives(subject, (id, part)))
}

/// Grain and seeds in water turn sour within a day in a room. What soaks in spirits or juice is fruit.
fn soaks(part: &Part) -> Option<Diagnostic> {
    let is_grain = |line: &Ingredient| {
        matches!(line.kind, Kind::Grain | Kind::Seed | Kind::Flour | Kind::Pulse) && line.part().is_none()
    };
    let of = |is: &dyn Fn(&Ingredient) -> bool| part.lines.iter().any(is);
    let has_others =
        of(&|line| line.kind.ferments() || matches!(line.kind, Kind::Fruit | Kind::Vinegar | Kind::Liquid));
    if !of(&is_grain) || !of(&|line| line.kind == Kind::Water) || has_others {
        return None;
    }
    let warm = |step: &Step| match step.temperature {
        Some((low, _)) => low.celsius() >= Number::whole(15),
        None => !chills(step) && !says(step, NOT_WARM),
    };
    let step = part.steps.iter().find(|step| {
        step.kind == StepKind::Wait
            && called(step, beginnings!["soak", "swell", "hydrat", "steep"])
            && step.time.0 > seconds(DAY)
            && warm(step)
            && !says(step, beginnings!["change", "sprout", "rinse", "sour", "ferment", "fresh water"])
    })?;
    let message = format!(
        "what is dry soaks for {} where it is warm: it turns sour after a day",
        show::duration_range(step.time.0, step.time.1)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message).help(
            "look whether a digit or the unit of the time has slipped; where it stands in the cold, say how cold",
        ),
    )
}

/// So long a dough of yeast is good in a refrigerator.
const WEEK: i64 = 8 * DAY;

/// A dough that waits in the cold for two weeks. A leaven alone is fed when it is taken.
fn lives(subject: &Subject<'_>, (id, part): (PartId, &Part)) -> Option<Diagnostic> {
    let of_flour = part.lines.iter().any(|line| line.is_flour && line.stays_in());
    let has_yeast = part.lines.iter().any(|line| line.kind.is_yeast());
    let is_salted = part.lines.iter().any(|line| line.kind == Kind::Salt);
    if !of_flour || !subject.fermented().has(id) || !(has_yeast || is_salted) {
        return None;
    }
    let raw = part.steps.iter().take_while(|step| !(bakes(step) || cooks(step)) || step.kind == StepKind::Wait);
    let step = raw.into_iter().find(|step| {
        step.kind == StepKind::Wait
            && chills(step)
            && step.time.0 >= seconds(WEEK)
            && !called(step, beginnings!["freez"])
            && !step.temperature.is_some_and(|(low, _)| is_freezer(low))
    })?;
    let message = format!(
        "`{}` is alive and stands in the cold for {}: it is over after a week",
        part.name,
        show::duration_range(step.time.0, step.time.1)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit or the unit of the time has slipped, h or days"),
    )
}
