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
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The name of the file.
    file: &'a str,
    /// The name of the recipe now.
    recipe: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// Whether the formula changed.
    changed: bool,
    /// Whether the text did.
    text_changed: bool,
    /// The factor, where every amount changed by the same.
    rescaled: Option<Wire>,
    /// What changed in the head of the file.
    head: Vec<WireFigure<'a>>,
    /// The parts.
    parts: Vec<WirePart<'a>>,
    /// The allergens.
    allergens: WireAllergens<'a>,
    /// The aims.
    aims: WireAims<'a>,
    /// Problems that came or went.
    problems: WireProblems<'a>,
    /// What changed in the plan.
    plan: Vec<WireFigure<'a>>,
    /// Notes, cautions and credits.
    texts: Vec<WireText<'a>>,
}

/// A note, caution or credit that came or went.
#[derive(Serialize, JsonSchema)]
struct WireText<'a> {
    /// note, caution or credit.
    kind: &'a str,
    /// What became of it: added, removed or changed.
    change: &'a str,
    /// The text.
    text: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireAllergens<'a> {
    /// Allergens that came.
    gained: &'a [String],
    /// Allergens that went.
    lost: &'a [String],
    /// What nobody knows.
    unknown: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireAims<'a> {
    /// Aims that are missed now.
    missed: Vec<WireAim<'a>>,
    /// Aims that are met now.
    met: Vec<WireAim<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireAim<'a> {
    /// The name of the part.
    part: Option<&'a str>,
    /// Which figure.
    figure: &'a str,
    /// The aim.
    aim: &'a str,
    /// The one ingredient that it is of, if it is of one.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was, as it is printed.
    old_shown: &'a Shown,
    /// What it is, as it is printed.
    new_shown: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireProblems<'a> {
    /// Problems that came.
    raised: Vec<WireProblem<'a>>,
    /// Problems that went.
    cleared: Vec<WireProblem<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireProblem<'a> {
    /// The name of the check.
    check: &'a str,
    /// What is wrong, in a sentence.
    message: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WirePart<'a> {
    /// The name of the part.
    name: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// What became of it: added, removed or changed.
    change: &'a str,
    /// The ingredient lines.
    lines: Vec<WireLine<'a>>,
    /// The figures.
    figures: Vec<WireFigure<'a>>,
    /// The steps.
    steps: Vec<WireStep<'a>>,
    /// Notes, cautions and credits.
    texts: Vec<WireText<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// added, removed or changed.
    change: &'a str,
    /// What it was, in percent.
    old_percent: Option<Wire>,
    /// What it is, in percent.
    new_percent: Option<Wire>,
    /// What it was, in grams.
    old_g: Option<Wire>,
    /// What it is, in grams.
    new_g: Option<Wire>,
    /// What it was, as it is printed.
    old_shown: &'a Shown,
    /// What it is, as it is printed.
    new_shown: &'a Shown,
    /// What changed behind the amount.
    clauses: Vec<WireFigure<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireFigure<'a> {
    /// Which figure.
    figure: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was.
    old: Option<Wire>,
    /// What it is.
    new: Option<Wire>,
    /// What it was, as it is printed.
    old_shown: &'a Shown,
    /// What it is, as it is printed.
    new_shown: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireStep<'a> {
    /// The name of the step.
    step: &'a str,
    /// The option under which it stands.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
    /// What it was called.
    renamed_from: Option<&'a str>,
    /// What became of it: added, removed or changed.
    change: &'a str,
    /// Whether it stands elsewhere.
    moved: bool,
    /// What changed in its head.
    fields: Vec<WireFigure<'a>>,
    /// The words that it had.
    old_text: Option<&'a str>,
    /// The words that it has.
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
