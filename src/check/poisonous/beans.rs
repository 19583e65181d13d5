//! Dried beans of the kidney bean's kind, which hold a poison that only boiling takes away.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::cooking::state::is_said_behind;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, beginnings, called, cooks, first_draw, says, surely_does, uses};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Refers};
use crate::model::step::{Step, StepKind, Target};
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_with_hyphens;

/// Beans of the kidney bean's kind, by words of their names.
#[rustfmt::skip]
const BEANS: &Beginnings = &Beginnings::of(&["kidney", "cannellini", "borlotti", "haricot", "pinto", "navy bean", "black bean", "white bean", "red bean", "pea bean",
    "black turtle", "turtle bean", "great northern", "lima bean", "butter bean", "flageolet", "dried bean", "dry bean", "rajma",
]);
/// Below, nothing boils.
const BOILS: Number = Number::whole(95);
const WATER_BOILS: Number = Number::whole(100);
/// Below, nothing cooks: beans soak, and dough proves.
const SOAKS: Number = Number::whole(50);

fn is_bean(line: &Ingredient) -> bool {
    let is_known = matches!(line.kind, Kind::Pulse | Kind::Other) && matches!(line.refers, Refers::Pantry(_));
    let done = beginnings!["cooked", "tinned", "canned", "boiled", "green", "flour", "paste|", "jarred"];
    is_known
        && line.name.has_word_beginning(BEANS)
        && !is_said_behind(line, State::Cooked)
        && !line.name.has_word_beginning(done)
}

fn is_slow(step: &Step) -> bool {
    step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(beginnings!["slow", "crock"]))
}

// What was boiled before it went in here says so.
fn boils(step: &Step) -> bool {
    surely_does(step, beginnings!["boil", "simmer"])
}

/// Whether the words of a step say that what it simmers is cooler than what boils: `Simmer gently at {80 C}`.
fn is_said_mild(step: &Step) -> bool {
    let hottest = step.hottest_said();
    hottest.is_some_and(|at| (SOAKS..BOILS).contains(&at.celsius())) && !surely_does(step, beginnings!["boil"])
}

/// Dried beans that only what does not boil cooks. A slow pot is just what nobody tends.
pub(super) fn never_boiled(part: &Part) -> Option<Diagnostic> {
    let (number, line) = part.lines.iter().enumerate().find(|(_, line)| is_bean(line))?;
    let from = first_draw(part, Target::Line(number))?;
    let is_warm = |step: &Step| step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() >= SOAKS);
    let is_cooking = |step: &&Step| match step.kind {
        StepKind::Wait => is_slow(step) || is_warm(step),
        _ => cooks(step) || is_slow(step) || called(step, beginnings!["cook"]),
    };
    let cooking: Vec<&Step> = part.steps.iter().skip(from).filter(is_cooking).collect();
    // A slow pot is said to have 95 °C by its maker, and in its middle it has that hours later.
    let least = |step: &Step| if is_slow(step) { WATER_BOILS } else { BOILS };
    let mild = |step: &Step| {
        is_slow(step) && step.temperature.is_none()
            || step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() < least(step))
            || is_said_mild(step)
    };
    let boils = |step: &Step| boils(step) && !is_said_mild(step);
    let is_mild = cooking.iter().all(|step| mild(step)) && !part.steps.iter().any(boils);
    let first = cooking.first().copied().filter(|_| is_mild)?;
    let message =
        format!("`{}` never boils: dried beans of this kind hold a poison that only boiling takes away", line.name);
    Some(Diagnostic::advice(CHECK.name, line.name.span, message).also(first.name.span, "too cool for it").help(HELP))
}

/// Shorter a boil takes away none of it: ten minutes at 100 °C are the least that FDA has found to do, for beans that were soaked.
const LEAST: Duration = Duration::new(Number::whole(600));

/// Dried beans that boil for so short a time that the poison stays. Under pressure it is hotter.
pub(super) fn hardly_boiled(part: &Part) -> Option<Diagnostic> {
    let (number, line) = part.lines.iter().enumerate().find(|(_, line)| is_bean(line))?;
    let from = first_draw(part, Target::Line(number))?;
    let hot =
        || part.steps.iter().skip(from).filter(|step| step.kind != StepKind::Wait && (cooks(step) || boils(step)));
    let first = hot().next()?;
    let time = Duration::sum(hot().map(|step| step.time.1)).ok()?;
    let pressed = hot().any(|step| says(step, beginnings!["pressure"]) || uses(step, beginnings!["pressure"]));
    // What is boiled elsewhere afterwards is boiled.
    if time >= LEAST
        || time == Duration::ZERO
        || pressed
        || part.steps.iter().skip(from).any(|step| step.kind == StepKind::Wait && cooks(step))
    {
        return None;
    }
    let message = format!(
        "`{}` boils for {}: dried beans of this kind hold a poison that ten minutes of boiling take away, and less does not",
        line.name,
        show::duration(time)
    );
    Some(Diagnostic::advice(CHECK.name, line.name.span, message).also(first.time_span, "too short for it").help(HELP))
}

const HELP: &str = "soak them, and boil them for half an hour in fresh water before anything slower; tinned ones are cooked: write `tinned` behind them; local food law \
                    goes before this";

/// Beans that are called raw, dried or sprouted, and that nothing cooks at all. Others in a salad are tinned.
pub(super) fn never_cooked((id, part): (PartId, &Part), later: &mut Later<'_>) -> Option<Diagnostic> {
    const RAW: &[&str] = &["raw", "dried", "dry", "sprouted", "sprouts", "soaked", "uncooked"];
    let is_raw = |line: &Ingredient| {
        let behind = line.preparation.as_deref().unwrap_or_default().to_lowercase();
        words_with_hyphens(line.name.key.as_str()).chain(words_with_hyphens(&behind)).any(|word| RAW.contains(&word))
    };
    let (number, line) = part.lines.iter().enumerate().find(|(_, line)| is_bean(line) && is_raw(line))?;
    let from = first_draw(part, Target::Line(number))?;
    if later.is_line_cooked(id, from, number) != Some(false) || part.steps.iter().any(boils) {
        return None;
    }
    let message =
        format!("`{}` is never cooked: raw beans of this kind hold a poison that only boiling takes away", line.name);
    Some(Diagnostic::advice(CHECK.name, line.name.span, message).help(HELP))
}
