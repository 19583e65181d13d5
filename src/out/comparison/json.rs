//! Changes for programs. The keys are fixed; the structs here are the wire format and nothing else.

use super::Changes;
use crate::figures::compare::{AimChange, Comparison, Figure, LineChange, PartChange, StepChange, TextChange};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::shown::Shown;
use crate::out::json::Figure as Wire;
use schemars::JsonSchema;
use serde::Serialize;

const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct WireFile<'a> {
    format: u32,
    file: &'a str,
    recipe: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// Whether the formula changed.
    changed: bool,
    /// Whether the text did.
    text_changed: bool,
    /// The factor, where every amount changed by the same.
    rescaled: Option<Wire>,
    head: Vec<WireFigure<'a>>,
    parts: Vec<WirePart<'a>>,
    allergens: WireAllergens<'a>,
    aims: WireAims<'a>,
    problems: WireProblems<'a>,
    plan: Vec<WireFigure<'a>>,
    texts: Vec<WireText<'a>>,
}

/// A note, caution or credit that came or went.
#[derive(Serialize, JsonSchema)]
struct WireText<'a> {
    kind: &'a str,
    change: &'a str,
    text: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireAllergens<'a> {
    gained: &'a [String],
    lost: &'a [String],
    unknown: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireAims<'a> {
    missed: Vec<WireAim<'a>>,
    met: Vec<WireAim<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireAim<'a> {
    part: Option<&'a str>,
    figure: &'a str,
    aim: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    old_shown: &'a Shown,
    new_shown: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireProblems<'a> {
    raised: Vec<WireProblem<'a>>,
    cleared: Vec<WireProblem<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireProblem<'a> {
    check: &'a str,
    message: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WirePart<'a> {
    name: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    change: &'a str,
    lines: Vec<WireLine<'a>>,
    figures: Vec<WireFigure<'a>>,
    steps: Vec<WireStep<'a>>,
    texts: Vec<WireText<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    ingredient: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// added, removed or changed.
    change: &'a str,
    old_percent: Option<Wire>,
    new_percent: Option<Wire>,
    old_g: Option<Wire>,
    new_g: Option<Wire>,
    old_shown: &'a Shown,
    new_shown: &'a Shown,
    clauses: Vec<WireFigure<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireFigure<'a> {
    figure: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    old: Option<Wire>,
    new: Option<Wire>,
    old_shown: &'a Shown,
    new_shown: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireStep<'a> {
    step: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    change: &'a str,
    /// Whether it stands elsewhere.
    moved: bool,
    fields: Vec<WireFigure<'a>>,
    old_text: Option<&'a str>,
    new_text: Option<&'a str>,
}

/// Changes of one file as an object, of several as an array; ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(all: &[Changes]) -> serde_json::Result<String> {
    let files: Vec<WireFile<'_>> = all.iter().map(file).collect();
    let text = match files.as_slice() {
        [one] => crate::out::report::to_json(one),
        many => crate::out::report::to_json(many),
    };
    text.map(|text| text + "\n")
}

fn file(changes: &Changes) -> WireFile<'_> {
    let first = &changes.comparison;
    WireFile {
        format: FORMAT,
        file: &changes.file,
        recipe: &first.recipe,
        renamed_from: first.was.as_deref(),
        changed: !changes.is_empty(),
        text_changed: changes.text_changed,
        rescaled: first.rescaled.map(Wire),
        head: figures(&first.head),
        parts: parts(first),
        allergens: WireAllergens {
            gained: &first.allergens_gained,
            lost: &first.allergens_lost,
            unknown: &first.allergens_unknown,
        },
        aims: WireAims { missed: aims(&first.aims, false), met: aims(&first.aims, true) },
        problems: WireProblems { raised: problems(&first.problems_raised), cleared: problems(&first.problems_cleared) },
        plan: figures(&first.plan),
        texts: texts(&first.texts),
    }
}

fn texts(list: &[TextChange]) -> Vec<WireText<'_>> {
    list.iter().map(|text| WireText { kind: text.kind.word(), change: text.change.word(), text: &text.text }).collect()
}

fn aims(list: &[AimChange], met: bool) -> Vec<WireAim<'_>> {
    let wanted = list.iter().filter(|one| one.is_met == met);
    let wire = wanted.map(|one| WireAim {
        part: one.part.as_deref(),
        figure: &one.figure,
        aim: &one.aim,
        only: &one.only,
        old_shown: &one.old,
        new_shown: &one.new,
    });
    wire.collect()
}

fn problems(list: &[(String, String)]) -> Vec<WireProblem<'_>> {
    list.iter().map(|(check, message)| WireProblem { check, message }).collect()
}

fn parts(comparison: &Comparison) -> Vec<WirePart<'_>> {
    comparison.parts.iter().map(part).collect()
}

fn part(part: &PartChange) -> WirePart<'_> {
    WirePart {
        name: &part.name,
        only: &part.only,
        renamed_from: part.was.as_deref(),
        change: part.change.word(),
        lines: part.lines.iter().map(line).collect(),
        figures: figures(&part.figures),
        steps: part.steps.iter().map(step).collect(),
        texts: texts(&part.texts),
    }
}

fn line(line: &LineChange) -> WireLine<'_> {
    let percent = |share: Option<Proportion>| share.and_then(|share| share.percent().ok()).map(Wire);
    let grams = |mass: Option<Mass>| mass.map(|mass| Wire(mass.value()));
    WireLine {
        ingredient: &line.ingredient,
        only: &line.only,
        renamed_from: line.was.as_deref(),
        change: line.change.word(),
        old_percent: percent(line.old_percent),
        new_percent: percent(line.new_percent),
        old_g: grams(line.old_mass),
        new_g: grams(line.new_mass),
        old_shown: &line.old_shown,
        new_shown: &line.new_shown,
        clauses: figures(&line.clauses),
    }
}

fn figures(figures: &[Figure]) -> Vec<WireFigure<'_>> {
    figures
        .iter()
        .map(|figure| WireFigure {
            figure: figure.figure,
            only: &figure.only,
            old: figure.old_value.map(Wire),
            new: figure.new_value.map(Wire),
            old_shown: &figure.old,
            new_shown: &figure.new,
        })
        .collect()
}

fn step(step: &StepChange) -> WireStep<'_> {
    WireStep {
        step: &step.step,
        only: &step.only,
        renamed_from: step.was.as_deref(),
        change: step.change.word(),
        moved: step.moved,
        fields: figures(&step.fields),
        old_text: step.prose.as_ref().map(|(old, _)| old.as_str()),
        new_text: step.prose.as_ref().map(|(_, new)| new.as_str()),
    }
}
