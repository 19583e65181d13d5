//! What is to be colder than the place in which it is: a filling that cools at 40 °C, a sign of 4 °C in a warm room, ice that hardens in it.

use super::CHECK;
use super::never_gets_there::not_in_this_place;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::cooking::{beginnings, called, cooks, says};
use crate::model::recipe::Part;
use crate::model::step::{Step, StepKind, Words};
use crate::text::diagnostic::Diagnostic;

/// No kitchen is warmer, °C. Common practice, no source.
const WARMEST_ROOM: Number = Number::whole(36);
/// What is cooled to a culture's heat is so after some minutes.
const LONG: Duration = Duration::new(Number::whole(20 * 60));

/// The first rest of a part in which nothing gets as cold as it is to be.
pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    let told = part.steps.iter().find_map(colder_than_its_place);
    told.or_else(|| ice_in_the_warm(part)).or_else(|| cools_at_40(part))
}

/// So much colder no thermometer is off.
const FAR: Number = Number::whole(3);

/// `cool: wait 1 h, at 24 C`, until {4 C}. Ice makes it colder.
fn colder_than_its_place(step: &Step) -> Option<Diagnostic> {
    let (low, _) = step.temperature.filter(|_| step.kind == StepKind::Wait)?;
    if !called(step, beginnings!["cool", "chill", "refrigerat"]) {
        return None;
    }
    let signs = step.cue.iter().filter_map(Words::temperature).map(|(said, (_, high))| (said, high));
    let (said, at) = signs.min_by_key(|(_, at)| *at)?;
    let place = step.later.iter().map(|(later, _)| *later).fold(low, Temperature::min);
    let is_less = place.celsius().minus(at.celsius()).is_ok_and(|less| less > FAR);
    if !is_less || says(step, beginnings!["ice|", "iced", "blast", "cold water"]) {
        return None;
    }
    Some(not_in_this_place(step, ("to come to", "colder"), said, place))
}

/// What is churned hardens in a freezer, and its mix stands in the cold before. Common practice, no source.
const HARDENS: Number = Number::whole(-5);
const MATURES: Number = Number::whole(12);

/// Ice cream that hardens at 18 °C, the minus gone, or whose mix matures in the warm.
fn ice_in_the_warm(part: &Part) -> Option<Diagnostic> {
    let churns = part.steps.iter().position(|step| called(step, beginnings!["churn"]))?;
    part.keeps.filter(|keeps| keeps.how.is_cold() && !keeps.how.is_chilled())?;
    let is_warm = |(at, step): &(usize, &Step)| {
        let Some((low, _)) = step.temperature.filter(|_| step.kind == StepKind::Wait) else { return false };
        let hardens = *at > churns && called(step, beginnings!["harden", "set|"]) && low.celsius() > HARDENS;
        let matures = *at < churns && called(step, beginnings!["mature", "ripen", "age|"]) && low.celsius() > MATURES;
        hardens || matures
    };
    let (at, step) = part.steps.iter().enumerate().find(is_warm)?;
    let (low, _) = step.temperature?;
    let what =
        if at > churns { "what is churned hardens in a freezer" } else { "the mix for an ice stands in the cold" };
    let message = format!("`{}` is at {}: {what}", step.name, show::temperature(low, Units::Metric));
    Some(
        Diagnostic::advice(CHECK.name, step.span, message)
            .help("look whether the minus is gone or a digit has slipped, `at -18 C` or `at 4 C`"),
    )
}

/// A rest at 40 °C in which something cooked is to cool, and goes into the cold from there.
fn cools_at_40(part: &Part) -> Option<Diagnostic> {
    part.keeps.filter(|keeps| keeps.how.is_cold())?;
    let is_warm = |step: &Step| {
        step.kind == StepKind::Wait
            && called(step, beginnings!["cool", "chill"])
            && step.time.0 >= LONG
            && step.temperature.is_some_and(|(low, _)| low.celsius() > WARMEST_ROOM)
    };
    let at = part.steps.iter().position(is_warm)?;
    let step = part.steps.get(at)?;
    let (low, _) = step.temperature?;
    // What goes on to the cold, or sours there, was only to cool so far.
    let goes_on = part.steps.iter().skip(at + 1).any(|later| later.kind == StepKind::Wait);
    if goes_on || !part.steps.iter().take(at).any(cooks) {
        return None;
    }
    let message = format!(
        "`{}` is at {}, and `{}` is kept in the cold: nothing cools there",
        step.name,
        show::temperature(low, Units::Metric),
        part.name
    );
    Some(
        Diagnostic::advice(CHECK.name, step.span, message)
            .help("look whether a digit has slipped, `at 4 C`; local food law goes before this"),
    )
}
