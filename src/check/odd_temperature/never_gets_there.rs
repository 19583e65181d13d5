//! What is to be hotter in the middle than the place in which it is, and what simmers for hours and is still cool there.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cooking::{called, cooks, uses};
use crate::model::lowered::beginnings;
use crate::model::recipe::Part;
use crate::model::step::{Step, StepKind, Words, temperatures};
use crate::text::diagnostic::Diagnostic;

/// The first step of a part whose sign cannot come where it is, or came long before.
pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    part.steps.iter().find_map(|step| hotter_than_its_place(step).or_else(|| cool_after_hours(step)))
}

/// The hottest that the sign of a step says.
fn sign(step: &Step) -> Option<(&Said, Temperature)> {
    let all = step.cue.iter().filter_map(Words::temperature).map(|(said, (low, _))| (said, low));
    all.max_by_key(|(_, at)| *at)
}

/// So much more no thermometer is off, and what is stirred or worked grows warm by itself.
const FAR: Number = Number::whole(5);
/// Cooler than this something only stands.
const WARM: Number = Number::whole(30);

/// `smoke: tend 60 min, using smoker at 35 C`, until {70 C} in the middle.
fn hotter_than_its_place(step: &Step) -> Option<Diagnostic> {
    let (low, high) = step.temperature?;
    let place = step.later.iter().map(|(at, _)| *at).chain(high).chain([low]).max()?;
    let (said, at) = sign(step)?;
    let is_in_it = step.kind == StepKind::Tend
        && uses(step, beginnings!["oven", "smoker", "bath", "steamer", "cabinet", "dehydrator"])
        && place.celsius() >= WARM;
    let is_more = at.celsius().minus(place.celsius()).is_ok_and(|more| more > FAR);
    // Where its words turn the heat up they say so.
    let is_said = || temperatures(&step.words).any(|(_, (low, _))| low >= at);
    if !is_in_it || !is_more || is_said() {
        return None;
    }
    Some(not_in_this_place(step, ("done at", "hotter"), said, place))
}

/// That a step is to reach a temperature which the place that it stands in does not have.
pub(super) fn not_in_this_place(
    step: &Step,
    (reaches, than): (&str, &str),
    said: &Said,
    place: Temperature,
) -> Diagnostic {
    let message = format!(
        "`{}` is {reaches} {}, and it is in {}: nothing gets {than} than where it is",
        step.name,
        show::said_plain(said),
        show::temperature(place, Units::Metric)
    );
    Diagnostic::advice(CHECK.name, said.span, message)
        .help("look whether a digit of either has slipped, or the unit, C or F")
}

/// So long what simmers is hot to its middle. Common practice, no source.
const HOURS: Duration = Duration::new(Number::whole(90 * 60));
/// It is hotter by then.
const HOT: Number = Number::whole(65);

/// `simmer: tend 3 h`, until {50 C} in the middle.
fn cool_after_hours(step: &Step) -> Option<Diagnostic> {
    let is_mild = || step.temperature.is_some_and(|(low, _)| low.celsius() < Number::whole(80));
    // What a fork goes into was hot for long.
    let is_tender = || {
        step.cue.iter().any(|word| {
            matches!(word, Words::Text(text) if ["fork goes", "knife goes", "falls apart", "fall apart", "off the bone", "tender"].iter().any(|sign| text.contains(sign)))
        })
    };
    if !called(step, beginnings!["simmer", "boil", "braise", "stew"])
        || !cooks(step)
        || step.time.0 < HOURS && !is_tender()
        || is_mild()
        || step.cue.iter().any(|word| matches!(word, Words::Text(text) if text.to_lowercase().contains("cool")))
    {
        return None;
    }
    let (said, at) = sign(step)?;
    if at.celsius() >= HOT || at.celsius() < WARM {
        return None;
    }
    let message = format!(
        "`{}` takes {} and is done at {}: what simmers until it is tender is hotter in the middle",
        step.name,
        show::duration_range(step.time.0, step.time.1),
        show::said_plain(said)
    );
    Some(
        Diagnostic::advice(CHECK.name, said.span, message)
            .help("look whether a digit has slipped: meat that is to be tender has 85 °C and more in the middle"),
    )
}
