//! What egg sets, a custard or a foam, that is in the oven for far too long or too short.

use super::{CHECK, minutes};
use crate::check::Subject;
use crate::check::dough::mass_of;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{bakes, beginnings};
use crate::model::heat;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// In so hot an oven what eggs set boils, °C. Common practice, no source.
const CURDLES: Number = Number::whole(195);

/// What eggs set in milk or cream is done after an hour or two at 105 °C and more, in its bath too.
pub(super) fn custard(subject: &Subject<'_>, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    // It may be stirred in a part of its own and poured into cups in this, and nothing beside it.
    let is_strewn = |line: &&Ingredient| matches!(line.kind, Kind::Sugar | Kind::Spice | Kind::Fruit) || line.aside;
    let mut beside = part.lines.iter().filter(|line| !is_strewn(line));
    let only = beside.next().filter(|_| beside.next().is_none()).and_then(Ingredient::part);
    let poured = only.and_then(|id| subject.recipe.part(id));
    let lines = poured.map_or(&part.lines, |made| &made.lines);
    let lists = |is: &dyn Fn(&Ingredient) -> bool| lines.iter().any(is);
    let egg = |line: &Ingredient| line.kind == Kind::Egg && !line.is_egg_white();
    if solved.composition.flour > Mass::ZERO
        || !lists(&egg)
        || !lists(&|line| matches!(line.kind, Kind::Milk | Kind::Dairy))
    {
        return None;
    }
    // Egg in milk or cream alone curdles where it boils, in its bath too.
    let is_plain = lines.iter().all(|line| {
        matches!(line.kind, Kind::Egg | Kind::Milk | Kind::Sugar | Kind::Syrup | Kind::Spice | Kind::Salt)
            || line.kind == Kind::Dairy
                && line.name.has_word_beginning(beginnings!["cream|"])
                && !line.name.has_word_beginning(beginnings!["cheese"])
    });
    let boils = |step: &&Step| {
        step.kind != StepKind::Wait
            && bakes(step)
            && step.time.0 >= minutes(25)
            && step.temperature.is_some_and(|(low, _)| low.celsius() >= CURDLES)
    };
    if let Some(step) = part.steps.iter().find(boils).filter(|_| is_plain) {
        let message = format!(
            "what eggs set in milk or cream bakes for {} at {}: it curdles, in its bath too",
            show::duration(step.time.0),
            heat::heat(step, show::Units::Metric)?
        );
        return Some(
            Diagnostic::advice(CHECK.name, step.time_span, message)
                .help("look whether a digit of the temperature has slipped; custards bake at 95 to 170 °C"),
        );
    }
    let bake =
        part.steps.iter().find(|step| step.kind != StepKind::Wait && bakes(step) && step.time.0 > minutes(240))?;
    let heat = bake.temperature.map(|(low, _)| low.celsius()).filter(|heat| *heat >= Number::whole(105))?;
    let message = format!("what eggs set in milk bakes for {} at {} °C", show::duration(bake.time.0), heat.decimal(0));
    Some(Diagnostic::advice(CHECK.name, bake.time_span, message).help("look whether a digit of the time has slipped"))
}

/// Egg white with its weight of sugar and more, and little else: a foam that dries in a gentle oven. Common practice, no source.
const FOAM_IS_WET: Duration = Duration::new(Number::whole(25 * 60));
const FOAM_IS_BLACK: Duration = Duration::new(Number::whole(40 * 60));

pub(super) fn foam(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    part.lines.iter().find(|line| line.is_egg_white())?;
    let all = mass_of(part, solved, |_| true)?;
    let white = mass_of(part, solved, Ingredient::is_egg_white)?;
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet())?;
    let is_foam = white > Mass::ZERO
        && sweet >= white
        && white.plus(sweet).ok()?.times(Number::whole(10)).ok()? >= all.times(Number::whole(9)).ok()?;
    let bake = part.steps.iter().find(|step| step.kind != StepKind::Wait && bakes(step)).filter(|_| is_foam)?;
    let heat = bake.temperature.map(|(low, high)| high.unwrap_or(low).celsius())?;
    let one_heat = bake.later.is_empty()
        && part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step)).count() == 1;
    let wet = heat <= Number::whole(130) && bake.time.1 < FOAM_IS_WET && one_heat;
    let black = heat >= Number::whole(180) && bake.time.0 > FOAM_IS_BLACK && one_heat;
    let usual = "a foam of egg white and sugar dries at 80 to 130 °C for an hour and more";
    let message = format!(
        "{} in so {} an oven: {usual}",
        show::duration_range(bake.time.0, bake.time.1),
        if wet { "cool" } else { "hot" }
    );
    (wet || black).then(|| {
        Diagnostic::advice(CHECK.name, bake.time_span, message)
            .help("look whether a digit of the time or of the temperature has slipped")
    })
}
