//! A log of bakes in an editor: what can be named in it, and the loss and the miss beside what was measured.

use super::hint::Hint;
use super::view::View;
use crate::check::bakes::{chosen, sized};
use crate::check::work_out;
use crate::figures::bakes::measure::Beside;
use crate::figures::bakes::measurement::Kind;
use crate::language::bakes::Log;
use crate::language::syntax::FileKind;
use crate::measure::number::Number;
use crate::model::baked;
use crate::model::recipe::{Recipe, Selection};
use crate::solve::formula::Formula;
use crate::solve::resolve::choices_of;
use crate::text::source::SourceId;

/// What can be named in a log.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// The steps of its recipe.
    pub steps: Vec<String>,
    /// The ingredients.
    pub ingredients: Vec<String>,
    /// What bakes in it were judged by.
    pub judged: Vec<String>,
}

/// The log that a view shows, and its recipe.
fn log_of(view: &View) -> Option<(Log, SourceId)> {
    if view.tree().kind != FileKind::Bakes {
        return None;
    }
    let log = Log::of(view.tree(), view.text());
    let recipe = view.project.target(log.of.as_ref()?.span)?;
    Some((log, recipe))
}

/// What can be named, under the default choices.
pub(super) fn names(view: &View) -> Names {
    let Some((log, source)) = log_of(view) else { return Names::default() };
    let mut names = Names::default();
    let add = |to: &mut Vec<String>, name: String| {
        if !to.contains(&name) {
            to.push(name);
        }
    };
    if let Some((recipe, _)) = work_out(&view.project, source, &Selection::new(), &mut Vec::new()) {
        for (_, part) in recipe.own_parts() {
            part.steps.iter().for_each(|step| add(&mut names.steps, step.name.to_string()));
            part.lines.iter().for_each(|line| add(&mut names.ingredients, line.name.to_string()));
        }
    }
    for judged in log.bakes.iter().flat_map(|bake| &bake.judged) {
        add(&mut names.judged, judged.name.to_string());
    }
    names
}

/// Beside each step that was measured the loss, and how far the dough missed what the recipe as it is wants.
pub(super) fn hints(view: &View, inside: impl Fn(usize) -> bool) -> Vec<Hint> {
    let Some((log, source)) = log_of(view) else { return Vec::new() };
    let choices = view.project.file(source).map_or_else(Vec::new, |file| choices_of(&file.tree));
    let mut hints = Vec::new();
    let mut known: Vec<(Selection, Option<(Recipe, Formula)>)> = Vec::new();
    for bake in &log.bakes {
        // What nobody sees is not worked out.
        if !bake.steps.iter().any(|ran| inside(ran.span().range().end)) {
            continue;
        }
        let selection = chosen(&choices, bake);
        if !known.iter().any(|(of, _)| *of == selection) {
            let worked = work_out(&view.project, source, &selection, &mut Vec::new());
            known.push((selection.clone(), worked));
        }
        let worked = known.iter().find(|(of, _)| *of == selection).and_then(|(_, worked)| worked.as_ref());
        let Some((recipe, formula)) = worked else { continue };
        let Ok(size) = sized(bake, recipe, formula) else { continue };
        let measured = Beside::of(recipe, formula).measured(bake, &size);
        for ran in &bake.steps {
            let load = ran.load.map(|load| load.value);
            let Some(at) = baked::step(recipe, ran).one() else { continue };
            let own = measured.iter().filter(|one| one.at == at && one.load == load);
            let said: Vec<String> = own.filter_map(|one| beside(one.kind, one.value, one.expected)).collect();
            let end = [
                Some(ran.span()),
                ran.left_at.map(|one| one.span),
                ran.came_to.map(|one| one.span),
                ran.load.map(|one| one.span),
            ];
            let end = end.into_iter().flatten().map(|span| span.range().end).max().unwrap_or(0);
            if !said.is_empty() && inside(end) {
                hints.push(Hint { at: end, text: said.join(", "), about: "beside the recipe as it is".to_owned() });
            }
        }
    }
    hints
}

/// `lost 15.4 % (13 %)`, `+ 0.4 °C`, `+ 2 min`
fn beside(kind: Kind, value: Number, expected: Option<Number>) -> Option<String> {
    let missed = |unit: &str| {
        let by = value.minus(expected?).ok().filter(|by| !by.is_zero())?;
        Some(format!("{} {} {unit}", if by.is_negative() { "−" } else { "+" }, by.size().decimal(1)))
    };
    match kind {
        Kind::Loss => {
            let claim = expected.map_or_else(String::new, |claim| format!(" ({} %)", claim.decimal(1)));
            Some(format!("lost {} %{claim}", value.decimal(1)))
        }
        Kind::LeftAt => missed("°C"),
        Kind::Time if value >= Number::whole(2) => missed("min"),
        _ => None,
    }
}
