//! A custard that bakes in its case or in its cup for too short, or in too cool an oven: nothing sets it, and raw pastry under it stays raw. Common
//! practice, no source.

use super::{CHECK, grams, minutes};
use crate::check::Subject;
use crate::check::dough::{has_flour, mille};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show::{self, Units};
use crate::measure::value::Said;
use crate::model::cooking::{bakes, beginnings, cooks, first_draws};
use crate::model::heat;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::spoils::body;
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::{SolvedLine, SolvedPart};
use crate::text::diagnostic::Diagnostic;

/// From so many degrees Celsius on, how many minutes a cup of custard takes at least to set, and a dish of it. The custards of Lisbon and Hong Kong bake for ten
/// minutes and more.
const SETS: &[(i64, i64, i64)] = &[(270, 6, 10), (200, 8, 15), (160, 10, 20), (120, 15, 25), (90, 25, 40), (0, 30, 45)];
/// A cup holds so much at most, and less than that is a spoonful.
const A_CUP: i64 = 150;
const A_SPOONFUL: i64 = 25;
/// In no hotter an oven raw pastry is baked in less than so long, where something moist lies in it.
const PASTRY_IS_RAW: Number = Number::whole(150);
const PASTRY_BAKES: Duration = Duration::new(Number::whole(50 * 60));

/// The bakes of a part, with how hot the hottest is and how long all take.
struct Oven<'p> {
    first: &'p Step,
    at: usize,
    heat: Number,
    time: Duration,
}

fn oven(part: &Part) -> Option<Oven<'_>> {
    let in_it = || part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step));
    let at = part.steps.iter().position(|step| step.kind != StepKind::Wait && bakes(step))?;
    let heats: Option<Vec<Number>> = in_it()
        .map(|step| {
            let said = step.temperature.map(|(low, high)| high.unwrap_or(low).celsius())?;
            Some(step.later.iter().map(|(later, _)| later.celsius()).fold(said, Number::max))
        })
        .collect();
    let heat = heats?.into_iter().max()?;
    let time = Duration::sum(in_it().map(|step| step.time.1)).ok()?;
    Some(Oven { first: part.steps.get(at)?, at, heat, time })
}

pub(super) fn problem(subject: &Subject<'_>, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let oven = oven(part)?;
    not_set(subject, part, solved, &oven).or_else(|| raw_pastry(subject, part, &oven))
}

/// Whether lines are a custard: egg that sets milk or cream, and hardly any flour.
fn is_custard<'p>(lines: impl Iterator<Item = (&'p Ingredient, &'p SolvedLine)>) -> bool {
    let (mut all, mut egg, mut milk, mut meal) = (Mass::ZERO, Mass::ZERO, Mass::ZERO, Mass::ZERO);
    for (line, amount) in lines.filter(|(line, _)| line.stays_in() && line.part().is_none()) {
        let Some(mass) = amount.mass else { return false };
        let is_milk = matches!(line.kind, Kind::Milk | Kind::Dairy)
            || line.name.has_word_beginning(beginnings!["coconut milk", "coconut cream"]);
        let into = match line.kind {
            Kind::Egg if !line.is_egg_white() => Some(&mut egg),
            _ if is_milk => Some(&mut milk),
            _ if line.is_any_flour() || matches!(line.kind, Kind::Starch | Kind::Bread) => Some(&mut meal),
            _ => None,
        };
        for sum in into.into_iter().chain([&mut all]) {
            let Ok(more) = sum.plus(mass) else { return false };
            *sum = more;
        }
    }
    let share = |of: Mass, least: i64| of.as_share_of(all).is_ok_and(|share| share >= mille(least));
    all > Mass::ZERO && share(egg, 60) && share(milk, 350) && !share(meal, 50)
}

/// Whether the egg of a part has been cooked before a step, or nobody says when it goes in.
fn is_cooked_before(part: &Part, until: usize) -> bool {
    let draws = first_draws(part);
    let egg = part.lines.iter().position(|line| line.kind == Kind::Egg);
    let Some(first) = egg.and_then(|at| draws.get(&Target::Line(at)).copied()) else { return true };
    part.steps.iter().take(until).skip(first).any(cooks)
}

/// A custard that is in the oven for so short that it runs when it comes out.
fn not_set(subject: &Subject<'_>, part: &Part, solved: &SolvedPart, oven: &Oven<'_>) -> Option<Diagnostic> {
    let poured = part.lines.iter().find(|line| {
        let made = line.part().and_then(|id| subject.recipe.part(id).zip(subject.formula.part(id)));
        made.is_some_and(|(made, solved)| {
            made.lines.iter().any(|line| line.kind == Kind::Egg)
                && is_custard(made.lines.iter().zip(&solved.lines))
                && !is_cooked_before(made, made.steps.len())
                && !part.steps.iter().take(oven.at).any(cooks)
        })
    });
    let is_own = || {
        part.lines.iter().any(|line| line.kind == Kind::Egg)
            && is_custard(part.lines.iter().zip(&solved.lines))
            && !is_cooked_before(part, oven.at)
    };
    if poured.is_none() && !is_own() {
        return None;
    }
    let each = poured.filter(|_| part.per_piece).and_then(|line| line.said().first().and_then(Said::mass));
    if each.is_some_and(|each| each < grams(A_SPOONFUL)) {
        return None;
    }
    let (_, cup, dish) = SETS.iter().find(|(from, ..)| oven.heat >= Number::whole(*from))?;
    let least = minutes(if each.is_some_and(|each| each > grams(A_CUP)) { *dish } else { *cup });
    if oven.time >= least {
        return None;
    }
    let message = format!(
        "what eggs set in milk or cream bakes for {} at {}: it sets in {} at least",
        show::duration(oven.time),
        heat::heat(oven.first, Units::Metric)?,
        show::duration(least)
    );
    Some(
        Diagnostic::advice(CHECK.name, oven.first.time_span, message)
            .help("look whether a digit of the time or of the temperature has slipped: what has not set is raw egg"),
    )
}

/// Raw pastry that bakes with something moist in it, in an oven in which it stays raw.
fn raw_pastry(subject: &Subject<'_>, part: &Part, oven: &Oven<'_>) -> Option<Diagnostic> {
    if oven.heat > PASTRY_IS_RAW || oven.time >= PASTRY_BAKES || part.steps.iter().take(oven.at).any(cooks) {
        return None;
    }
    let made = |line: &Ingredient| line.part().and_then(|id| subject.recipe.part(id).zip(subject.formula.part(id)));
    let is_pastry = |(made, solved): (&Part, &SolvedPart)| {
        let fat = solved.composition.fat.as_share_of(solved.composition.flour);
        has_flour(solved, 400) && fat.is_ok_and(|fat| fat >= mille(250)) && !made.steps.iter().any(cooks)
    };
    let is_raised = |line: &Ingredient| line.part().is_some_and(|id| subject.fermented().has(id));
    let pastry = part.lines.iter().find(|line| made(line).is_some_and(is_pastry) && !is_raised(line))?;
    let is_moist = |line: &Ingredient| body(line).is_some() || line.kind == Kind::Fruit;
    let is_filled = part.lines.iter().any(|line| match made(line) {
        Some((made, solved)) => !has_flour(solved, 150) && made.lines.iter().any(is_moist),
        None => is_moist(line) && line.kind != Kind::Egg,
    });
    if !is_filled {
        return None;
    }
    let message = format!(
        "`{}` goes in raw and bakes with what is in it for {} at {}: it stays raw",
        pastry.name,
        show::duration(oven.time),
        heat::heat(oven.first, Units::Metric)?
    );
    Some(
        Diagnostic::advice(CHECK.name, oven.first.time_span, message).help(
            "look whether a digit of the temperature has slipped: pastry bakes at 170 to 230 °C, or blind before what is filled into it",
        ),
    )
}
