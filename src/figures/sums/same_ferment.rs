//! The same ferment in another time or at another temperature: how much leaven does it, and how long the same leaven takes.

use super::life::{Life, life};
use super::tables::{Asked, Section, Sums, Version};
use crate::language::syntax::Name;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::recipe::{Part, Recipe};

/// Times are given to five minutes: an estimate knows no less.
const STEP: Number = Number::whole(5);
/// A ferment that would take so many times as long is none.
const TOO_LONG: Number = Number::whole(20);
/// How often the span of times is halved until it is known: to a thousandth of a minute of most.
const HALVINGS: u32 = 24;

/// The leaven and the times for what was asked for otherwise than the recipe has it.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn rows(
    called: &str,
    life: &Life,
    version: &Version<'_>,
    asked: &Asked,
    section: &mut Section,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let words = changes(life, asked);
    if words.is_empty() {
        return Ok(());
    }
    let words = show::list(&words);
    let Some(other) = self::life(version.recipe, version.formula, asked)? else { return Ok(()) };
    let (before, before_rule) = life.courses();
    let (after, after_rule) = other.courses();
    if !after.hours_at_25.is_positive() || !after_rule.hours_at_25.is_positive() {
        all.asked_in_vain
            .push(format!("{called}with {words} nothing ferments, so that no amount of yeast makes up for it"));
        return Ok(());
    }
    for (name, _) in asked.places.iter().filter(|(name, _)| !asked.rests.iter().any(|(rest, _)| rest == name)) {
        // With several steps asked for, each row gives one of them, all of them longer or shorter alike.
        time_row(called, &words, name, (life, &other), asked, section)?;
    }
    let factors = (before.hours_at_25.over(after.hours_at_25)?, before_rule.hours_at_25.over(after_rule.hours_at_25)?);
    // What is twenty times as much or a twentieth is no estimate any more.
    if !(Number::ONE.over(TOO_LONG)?..=TOO_LONG).contains(&factors.0) {
        let far =
            if factors.0 < Number::ONE { "less than a twentieth of it" } else { "more than twenty times as much" };
        let what = if life.is_levain { "levain" } else { "yeast" };
        section.remarks.push(format!(
            "{called}with {words}, the {what} for as much would be {far}, and no estimate reaches so far: another time or place is wanted."
        ));
        return Ok(());
    }
    let percent = |factor: Number| life.amount.value().times(factor)?.times(Number::whole(100));
    let (by_model, by_rule) = (percent(factors.0)?, percent(factors.1)?);
    let what = if life.is_levain { "flour to ferment before" } else { "instant yeast" };
    section.row(
        format!("{called}with {words}, {what} for as much"),
        format!("{} % ({} %) instead of {}", by_model.decimal(2), by_rule.decimal(2), show::percent(life.amount)),
        by_model,
        "%",
    );
    if let Some((name, mass)) = &life.weighed {
        let weight = mass.times(factors.0)?;
        let tenth = |mass: Mass| mass.value().rounded_to(Number::constant(1, 10)).map(Mass::new);
        let shown = format!(
            "{} ({}) instead of {}",
            show::mass(tenth(weight)?, asked.units),
            show::mass(tenth(mass.times(factors.1)?)?, asked.units),
            show::mass(tenth(*mass)?, asked.units)
        );
        section.row(format!("{called}with {words}, {name} to weigh"), shown, weight.value(), "g");
    }
    Ok(())
}

/// What is asked of the steps in which this dough ferments: `rise 1 h 30 min`, `prove at 28 °C`, by their names as they are written.
fn changes(life: &Life, asked: &Asked) -> Vec<String> {
    let written = |name: &str| life.stretches.iter().map(|(step, _)| step).find(|step| names_step(step, name));
    let mut words = Vec::new();
    for (name, time) in &asked.rests {
        words.extend(written(name).map(|step| format!("{step} {}", show::duration(*time))));
    }
    for (name, place) in &asked.places {
        words.extend(written(name).map(|step| format!("{step} at {}", show::temperature(*place, asked.units))));
    }
    words
}

fn names_step(step: &str, name: &str) -> bool {
    crate::language::syntax::Key::new(step).as_str() == name
}

/// How long a step takes at another temperature for as much, the leaven as it is.
fn time_row(
    called: &str,
    words: &str,
    name: &str,
    (life, other): (&Life, &Life),
    asked: &Asked,
    section: &mut Section,
) -> Result<(), Overflow> {
    let stretch = |life: &Life| {
        life.stretches
            .iter()
            .find(|(step, _)| names_step(step, name))
            .map(|(step, stretch)| (step.clone(), stretch.time))
    };
    let (Some((step, before)), Some((_, at_once))) = (stretch(life), stretch(other)) else { return Ok(()) };
    let what = format!("{called}with {words}, {step} for as much");
    let goal = life.courses();
    let by_model = factor(asked, other, |life| life.courses().0.hours_at_25 >= goal.0.hours_at_25)?;
    let by_rule = factor(asked, other, |life| life.courses().1.hours_at_25 >= goal.1.hours_at_25)?;
    let time = |factor: Number| at_once.times(factor);
    match (by_model, by_rule) {
        (Some(by_model), _) if by_model < Number::constant(1, 1000) => section
            .remarks
            .push(format!("{called}with {words}, the other steps alone ferment the dough as far: {step} may go.")),
        (Some(by_model), by_rule) => {
            let by_rule = match by_rule {
                Some(by_rule) => near(time(by_rule)?)?.to_string(),
                None => "longer than anybody waits".to_owned(),
            };
            let shown = format!("{} ({by_rule}) instead of {}", near(time(by_model)?)?, show::duration(before));
            section.row(what, shown, time(by_model)?.in_minutes()?, "min");
        }
        (None, _) => section.remarks.push(format!(
            "{called}with {words}, {step} would take more than twenty times as long: change the leaven or the place."
        )),
    }
    Ok(())
}

/// A time to five minutes.
fn near(time: Duration) -> Result<crate::measure::shown::Shown, Overflow> {
    let minutes = time.in_minutes()?;
    let step = if minutes < Number::whole(20) { Number::ONE } else { STEP };
    let rounded = minutes.rounded_to(step)?.to_whole().unwrap_or(0).max(1);
    Ok(show::duration(Duration::minutes(rounded)))
}

/// By how much the steps at another temperature must be longer, all alike, until the dough has come so far; `None` where it does not within
/// twenty times.
fn factor(asked: &Asked, other: &Life, is_far_enough: impl Fn(&Life) -> bool) -> Result<Option<Number>, Overflow> {
    // Only the steps with another temperature grow; a time that was asked for stays.
    let grown = |factor: Number| -> Result<Life, Overflow> {
        let mut life = other.clone();
        for (step, stretch) in &mut life.stretches {
            let is_asked = |(name, _): &(String, crate::measure::temperature::Temperature)| names_step(step, name);
            let is_fixed = asked.rests.iter().any(|(name, _)| names_step(step, name));
            if asked.places.iter().any(is_asked) && !is_fixed {
                stretch.time = stretch.time.times(factor)?;
            }
        }
        Ok(life)
    };
    let (mut short, mut long) = (Number::ZERO, TOO_LONG);
    if !is_far_enough(&grown(long)?) {
        return Ok(None);
    }
    for _ in 0..HALVINGS {
        let middle = short.plus(long)?.over(Number::whole(2))?;
        if is_far_enough(&grown(middle)?) {
            long = middle;
        } else {
            short = middle;
        }
    }
    Ok(Some(long))
}

/// The preferment that has a step of that name.
fn preferment_with<'r>(recipe: &'r Recipe, step: &str) -> Option<&'r Name> {
    let has = |part: &&Part| part.from.is_some() && part.steps.iter().any(|one| one.name.key.as_str() == step);
    recipe.parts().map(|(_, part)| part).find(has).map(|part| &part.name)
}

/// Steps that were asked for and are none of the recipe, or none in which it ferments: each named, with those that there are.
pub(super) fn unknown_steps(versions: &[Version<'_>], asked: &Asked, all: &mut Sums) {
    let mut ferments: Vec<String> = Vec::new();
    let as_written = Asked { rests: Vec::new(), places: Vec::new(), ..asked.clone() };
    for version in versions {
        let found = life(version.recipe, version.formula, &as_written).ok().flatten();
        for (step, _) in found.into_iter().flat_map(|life| life.stretches) {
            if !ferments.contains(&step) {
                ferments.push(step);
            }
        }
    }
    let has = |recipe: &Recipe, name: &str| {
        recipe.parts.iter().flat_map(|part| &part.steps).any(|step| step.name.key.as_str() == name)
    };
    let rests = asked.rests.iter().map(|(name, _)| ("--rest", name));
    let places = asked.places.iter().map(|(name, _)| ("--at", name));
    for (option, name) in rests.chain(places) {
        if ferments.iter().any(|step| names_step(step, name)) {
            continue;
        }
        let those = show::list(&ferments.iter().map(|step| format!("`{step}`")).collect::<Vec<_>>());
        let why = if let Some(preferment) = versions.iter().find_map(|version| preferment_with(version.recipe, name)) {
            format!(
                "{option}: `{name}` is a step of `{preferment}`, and how far a preferment has come is not reckoned, only the dough"
            )
        } else if versions.iter().any(|version| has(version.recipe, name)) {
            format!("{option}: the dough does not ferment in `{name}`")
        } else {
            format!("{option}: there is no step `{name}`")
        };
        all.asked_in_vain.push(if ferments.is_empty() {
            format!("{why}; no leaven of a form that is known goes into the dough")
        } else {
            format!("{why}; it ferments in {those}")
        });
    }
}
