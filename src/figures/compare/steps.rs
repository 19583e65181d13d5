//! Steps before and now.

use super::figures::{exact_celsius, finely};
use super::{Change, Figure, matching, plain_words};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::recipe::{Part, Recipe};
use crate::model::step::{Loads, Step, StepRef, Take, Timing};
use crate::text::composed::reads_alike;

/// What of a step changed.
pub type StepField = Figure;

/// A step that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepChange {
    /// Its name; of a step that is gone, the old one.
    pub step: String,
    /// What it was called, when it was renamed.
    pub was: Option<String>,
    /// What happened.
    pub change: Change,
    /// Whether it stands elsewhere among the steps.
    pub moved: bool,
    /// What of it changed.
    pub fields: Vec<StepField>,
    /// Prose before and now, when the words changed.
    pub prose: Option<(String, String)>,
    /// The options under which alone this holds; empty for all.
    pub only: String,
}

/// The steps of a part that changed, in the order of the new version.
pub(super) fn changes(
    (old, old_recipe): (Option<&Part>, &Recipe),
    (new, new_recipe): (Option<&Part>, &Recipe),
    factor: Number,
) -> Vec<StepChange> {
    let none: &[Step] = &[];
    let old_steps = old.map_or(none, |part| &part.steps);
    let new_steps = new.map_or(none, |part| &part.steps);
    let same = |one: &Step, other: &Step| {
        one.kind == other.kind
            && one.time == other.time
            && plain_words(&one.words, factor) == plain_words(&other.words, Number::ONE)
    };
    let pairs = matching::pairs(old_steps, new_steps, |step| &step.name, same);
    // A step has moved when its order among the steps that both versions have is another.
    let kept: Vec<(usize, usize)> = pairs.iter().filter_map(|(old, new)| Some(((*old)?, (*new)?))).collect();
    pairs
        .iter()
        .filter_map(|(before, now)| {
            let moved = match (before, now) {
                (Some(before), Some(now)) => {
                    let others = kept.iter().filter(|(old, new)| old != before && new != now);
                    others.clone().any(|(old, new)| old > before && new < now)
                }
                _ => false,
            };
            let (before, now) = (before.and_then(|at| old_steps.get(at)), now.and_then(|at| new_steps.get(at)));
            step((before, old_recipe), (now, new_recipe), moved, factor)
        })
        .collect()
}

fn step(
    (before, old_recipe): (Option<&Step>, &Recipe),
    (now, new_recipe): (Option<&Step>, &Recipe),
    moved: bool,
    factor: Number,
) -> Option<StepChange> {
    let name = now.or(before)?.name.to_string();
    let change = match (before, now) {
        (None, _) => Change::Added,
        (_, None) => Change::Removed,
        _ => Change::Changed,
    };
    let mut found =
        StepChange { step: name, was: None, change, moved, fields: Vec::new(), prose: None, only: String::new() };
    let (Some(before), Some(now)) = (before, now) else {
        let only = now.or(before)?;
        let time = format!("{} {}", only.kind.word(), show::duration_range(only.time.0, only.time.1));
        let (old, new) = if now.is_some() { (String::new(), time) } else { (time, String::new()) };
        found.fields.extend(Figure::words("time", old, new));
        return Some(found);
    };
    found.was = (!reads_alike(&before.name.text, &now.name.text)).then(|| before.name.to_string());
    found.fields = fields(before, now, old_recipe, new_recipe);
    // Weights in the words that grew with all else are no other words; those that did not are told as they are in both.
    let (old_words, new_words) = (plain_words(&before.words, Number::ONE), plain_words(&now.words, Number::ONE));
    let grew = || factor != Number::ONE && reads_alike(&plain_words(&before.words, factor), &new_words);
    found.prose = (!reads_alike(&old_words, &new_words) && !grew()).then_some((old_words, new_words));
    let silent = !moved && found.was.is_none() && found.fields.is_empty() && found.prose.is_none();
    (!silent).then_some(found)
}

fn fields(before: &Step, now: &Step, old_recipe: &Recipe, new_recipe: &Recipe) -> Vec<StepField> {
    let time = |time: &(Duration, Duration)| show::duration_range(time.0, time.1);
    let exact_time = |time: &(Duration, Duration)| format!("{}-{} s", finely(time.0.value()), finely(time.1.value()));
    let at = |heat: &Option<(Temperature, Option<Temperature>)>| {
        heat.map(|(low, high)| show::temperature_range(low, high, Units::Metric)).unwrap_or_default()
    };
    let exact_heat = |heat: &Option<(Temperature, Option<Temperature>)>| {
        let both = heat.iter().flat_map(|(low, high)| [Some(*low), *high]).flatten();
        both.map(|at| exact_celsius(at.celsius())).collect::<Vec<String>>().join(" - ")
    };
    let said = |step: &Step| {
        let first = step.temperature_said.first().map(|said| show::said_plain(said).to_string());
        first.unwrap_or_default()
    };
    let falls = |step: &Step| {
        let later = step.later.iter().map(|(at, after)| {
            format!("{} after {}", show::temperature_range(*at, None, Units::Metric), show::duration(*after))
        });
        later.collect::<Vec<String>>().join(", then ")
    };
    let name =
        |name: &Option<crate::language::syntax::Name>| name.as_ref().map(ToString::to_string).unwrap_or_default();
    let loads = |step: &Step| match step.loads {
        Loads::Once => String::new(),
        Loads::Each => "each".to_owned(),
        Loads::Of(size) => format!("{} at a time", show::count_of(size)),
        Loads::EachOf(size) => format!("each, {} at a time", show::count_of(size)),
    };
    let up_to = |step: &Step| step.up_to.map(show::duration).unwrap_or_default();
    let stand = |step: &Step| step.may_stand.map(show::duration).unwrap_or_default();
    [
        Figure::words("who is busy", before.kind.word().to_owned(), now.kind.word().to_owned()),
        Figure::told("time", (before.time, now.time), time, exact_time),
        match (at(&before.temperature) == at(&now.temperature), said(before), said(now)) {
            // One figure on a dial: it was said in other words, 425 °F and 220 °C.
            (true, old, new) if before.temperature != now.temperature && old != new => {
                Figure::words("temperature", old, new)
            }
            _ => Figure::told("temperature", (before.temperature, now.temperature), at, exact_heat),
        },
        Figure::words("later temperature", falls(before), falls(now)),
        Figure::words("using", name(&before.equipment), name(&now.equipment)),
        Figure::words("load", loads(before), loads(now)),
        Figure::words("may go on up to", up_to(before), up_to(now)),
        Figure::words("order", order(before, old_recipe), order(now, new_recipe)),
        Figure::words("people", before.people.to_string(), now.people.to_string()),
        Figure::words("shared by", before.shared_by.to_string(), now.shared_by.to_string()),
        Figure::words("may stand", stand(before), stand(now)),
        Figure::words("station", name(&before.station), name(&now.station)),
        Figure::words("until", plain_words(&before.cue, Number::ONE), plain_words(&now.cue, Number::ONE)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn order(step: &Step, recipe: &Recipe) -> String {
    let name = |other: StepRef| {
        let part = recipe.part(other.part);
        let step = part.and_then(|part| part.steps.get(other.step)).map(|step| step.name.to_string());
        format!("{} of {}", step.unwrap_or_default(), part.map(|part| part.name.to_string()).unwrap_or_default())
    };
    let words = step.order.iter().map(|order| match order {
        Timing::During(other) => format!("during {}", name(*other)),
        Timing::Into(other) => format!("{} into {}", step.moments_said(), name(*other)),
        Timing::Before(other) => format!("before {}", name(*other)),
        Timing::After(other) => format!("after {}", name(*other)),
        Timing::StraightAfter(other) => format!("straight after {}", name(*other)),
        Timing::Within(time, other) => format!("within {} after {}", show::duration(*time), name(*other)),
    });
    words.collect::<Vec<String>>().join(", ")
}

/// A pair of braces as it was meant, its weight multiplied by a factor.
pub(super) fn take_words(take: &Take, name: &str, factor: Number) -> String {
    match take {
        Take::All => name.to_owned(),
        Take::Rest => format!("rest of {name}"),
        Take::Share(share) => format!("{} of {name}", show::percent(*share)),
        Take::Mass(mass) => format!("{} of {name}", show::mass_plain(mass.times(factor).unwrap_or(*mass))),
        Take::Measure(said) => {
            let value = said.value.times(factor).unwrap_or(said.value);
            format!("{} of {name}", show::said_plain(&crate::measure::value::Said { value, ..*said }))
        }
    }
}
