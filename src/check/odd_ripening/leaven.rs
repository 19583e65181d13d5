//! A levain or sour that ripens where its culture does not work, or for days on one feed.

use super::{CHECK, hours_at_25, never_ripens};
use crate::check::Subject;
use crate::measure::number::{Number, sum};
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Dial;
use crate::model::cold;
use crate::model::cooking::cold_words::COLD;
use crate::model::cooking::{beginnings, called, cooks, says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// The culture of a leaven hardly grows below and not above, °C: none of its bacteria from 4 down and 41 up, none of its yeast from 8 down and 35
/// up (Gänzle, Ehmann and Hammes, Appl. Environ. Microbiol. 64, 1998, by the summary of the first author). Sours stand at 35 to 37.
const TOO_COLD: Number = Number::whole(7);
const TOO_WARM: Number = Number::whole(37);

/// So long in the cold a leaven has got somewhere all the same. Common practice, no source.
const DAYS_IN_THE_COLD: Duration = Duration::new(Number::whole(48 * 3600));
/// In a warm place it has eaten all that it was fed: so many hours at 25 °C.
const EATEN: Number = Number::whole(26);
/// The same where no temperature is said.
const EATEN_ANYWHERE: Duration = Duration::new(Number::whole(36 * 3600));

/// What is kept, and what is made to be sour and hot.
const KEPT: &Beginnings = &Beginnings::of(&["keep", "store", "retard", "chill", "rest", "hold", "fridge", "cold"]);
const HOT_SOURS: &Beginnings = &Beginnings::of(&["thermophil", "scald", "zavark", "lactic", "yog", "koji", "amazake"]);

/// What is wrong with how a leaven that is built for a dough ripens.
pub(super) fn problem(subject: &Subject<'_>, (id, part): (PartId, &Part)) -> Option<Diagnostic> {
    if !builds(subject, id, part) {
        return None;
    }
    let waits: Vec<&Step> = part.steps.iter().filter(|step| step.kind == StepKind::Wait).collect();
    // What is taken out of a dough is told beside those of yeast.
    let never_stands =
        waits.is_empty() && part.from.is_none() && !part.steps.iter().any(|step| step.may_stand.is_some());
    let is_build = || part.keeps.is_none() && part.lines.iter().all(|line| line.kind != Kind::Salt);
    if never_stands && is_build() {
        return never_ripens(part);
    }
    let ripens = || waits.iter().copied().filter(|step| !called(step, KEPT));
    in_the_cold(part, &waits)
        .or_else(|| not_begun(part, &waits))
        .or_else(|| ripens().find_map(|step| too_warm(part, step).or_else(|| for_days(part, step))))
}

/// Whether a part is flour and a culture that ripen for another part: no dough that is divided, and none of yeast.
fn builds(subject: &Subject<'_>, id: PartId, part: &Part) -> bool {
    let recipe = subject.recipe;
    let has_culture =
        |line: &Ingredient| line.kind == Kind::Leaven || line.part().is_some_and(|made| subject.fermented().has(made));
    let takes_flour =
        |user: PartId| recipe.part(user).is_some_and(|user| user.lines.iter().any(|line| line.is_flour && !line.aside));
    part.divide.is_none()
        && !part.lines.iter().any(|line| line.kind.is_yeast())
        && part.lines.iter().any(|line| line.is_flour && line.stays_in())
        && part.lines.iter().any(has_culture)
        && (part.from.is_some() || recipe.users(id).any(|(user, _)| takes_flour(user)))
        && !part.steps.iter().any(cooks)
        && !part.name.has_word_beginning(HOT_SOURS)
        // The yeast of a sponge that lies in it has its own time.
        && !inside_is_yeast(subject, part)
}

fn inside_is_yeast(subject: &Subject<'_>, part: &Part) -> bool {
    let made = part.lines.iter().filter_map(|line| subject.recipe.part(line.part()?));
    made.into_iter().any(|made| made.lines.iter().any(|line| line.kind.is_yeast()))
}

/// All rests in the cold, and one of them is to ripen it; or all so short that the culture has not begun.
fn in_the_cold(part: &Part, waits: &[&Step]) -> Option<Diagnostic> {
    let high = |step: &Step| step.temperature.map(|(low, high)| high.unwrap_or(low));
    let total = Duration::sum(waits.iter().map(|step| step.time.1)).ok()?;
    let hours = sum(waits.iter().map(|step| hours_at_25(step, step.time.1).unwrap_or(Number::ZERO))).ok()?;
    let ripens = || waits.iter().copied().find(|step| !called(step, KEPT));
    let far_too_cold =
        || waits.iter().all(|step| high(step).is_some_and(|at| at.celsius() <= TOO_COLD)) && total < DAYS_IN_THE_COLD;
    let not_begun =
        || part.from.is_some() && hours < Number::ONE && waits.iter().all(|step| high(step).is_some_and(cold::is_cold));
    let first = ripens().filter(|_| far_too_cold()).or_else(|| waits.first().copied().filter(|_| not_begun()))?;
    let message = format!(
        "`{}` stands in the cold alone, for {}: a leaven that was fed does not ripen in it",
        part.name,
        show::duration(total)
    );
    Some(
        Diagnostic::advice(CHECK.name, first.time_span, message)
            .help("let it ripen first, `ripen: wait 6 h, at 24 C`, and say `retard` or `keep` of what is only kept; look whether a digit of the temperature is lacking"),
    )
}

/// Hours at 25 °C after which a leaven has begun to work. Common practice, no source: it is ripe after three at least.
const BEGUN: Number = Number::constant(3, 5);

/// A levain that is fed and used after half an hour.
fn not_begun(part: &Part, waits: &[&Step]) -> Option<Diagnostic> {
    let hours = sum(waits.iter().map(|step| hours_at_25(step, step.time.1).unwrap_or(EATEN))).ok()?;
    // What is kept goes on there, and flour that only swells is no leaven yet.
    let is_other = part.keeps.is_some() || part.name.has_word_beginning(beginnings!["autolyse", "soak", "old dough"]);
    let longest = waits.iter().max_by_key(|step| step.time.1).filter(|_| hours < BEGUN && !is_other)?;
    let message = format!(
        "`{}` ripens for {} in all: a leaven that was fed has not begun to work",
        part.name,
        show::duration(Duration::sum(waits.iter().map(|step| step.time.1)).ok()?)
    );
    Some(
        Diagnostic::advice(CHECK.name, longest.time_span, message)
            .help("look whether a digit or the unit of the time has slipped; a leaven is ripe after 3 to 16 hours"),
    )
}

/// A sour at 42 °C, where its yeast is dead and its bacteria do not grow.
fn too_warm(part: &Part, step: &Step) -> Option<Diagnostic> {
    let (low, _) = step.temperature.filter(|(low, _)| low.celsius() > TOO_WARM)?;
    let message = format!(
        "`{}` ripens at {}: the yeast of a leaven works up to 35 °C, and its bacteria up to 41",
        part.name,
        show::temperature_on(low, Units::Metric, Dial::Thermometer)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit of the temperature has slipped; sours ripen at 18 to 36 °C"),
    )
}

/// A leaven of 50 hours on one feed. Salt holds it back, and what is salted stands longer.
fn for_days(part: &Part, step: &Step) -> Option<Diagnostic> {
    let salted = part.lines.iter().any(|line| line.kind == Kind::Salt);
    let long = match step.temperature {
        Some((low, _)) if low.celsius() >= Number::whole(17) => {
            hours_at_25(step, step.time.0).is_ok_and(|hours| hours > EATEN)
        }
        Some(_) => false,
        None => step.time.0 > EATEN_ANYWHERE && !says(step, COLD),
    };
    if !long || salted || says(step, beginnings!["feed", "fed", "refresh"]) {
        return None;
    }
    let message = format!(
        "`{}` ripens for {} on one feed: a leaven is ripe after 3 to 16 hours, and spent after a day",
        part.name,
        show::duration_range(step.time.0, step.time.1)
    );
    Some(Diagnostic::advice(CHECK.name, step.time_span, message).help(
        "look whether a digit or the unit of the time has slipped; say how cold it stands where it stands in the cold",
    ))
}
