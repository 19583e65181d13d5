//! What is dry and takes up its water: pulses, rice and pasta that are soaked or boiled in water of which all is said to come out again. What
//! `bath-stays-in` looks for on the other side.

use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{beginnings, called, cooks};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// What is drier than this swells.
const DRY: Number = Number::constant(1, 5);
/// So long it soaks or boils before it has taken up much.
const SOAKS: Duration = Duration::new(Number::whole(4 * 3600));
const BOILS: Duration = Duration::new(Number::whole(8 * 60));
/// Less of it is a flavour.
const MUCH: Number = Number::constant(1, 10);

/// How much water a gram takes up at least. Common practice, no source: soaked pulses weigh twice what they weighed dry, soaked rice a third more,
/// boiled rice and pasta more than twice.
fn takes_up(line: &Ingredient, is_boiled: bool) -> Option<Number> {
    match line.kind {
        Kind::Pulse => Some(Number::constant(4, 5)),
        Kind::Grain if is_boiled => Some(Number::ONE),
        Kind::Grain => Some(Number::constant(3, 10)),
        _ => None,
    }
}

pub(super) fn problem(part: &Part, solved: &SolvedPart, check: &'static str) -> Option<Diagnostic> {
    let is_bath = |line: &&Ingredient| line.kind == Kind::Water && line.strained_out;
    let bath = part.lines.iter().find(is_bath)?;
    let is_wet = |line: &Ingredient| line.stays_in() && (line.kind.is_liquid() || line.kind == Kind::Ice);
    if part.per_piece || part.lines.iter().any(is_wet) {
        return None;
    }
    let is_dry = |line: &Ingredient| {
        let water = line.facts().and_then(|facts| facts.contents.water);
        line.stays_in() && water.is_some_and(|water| water.value() < DRY) && !is_so(line, State::Cooked)
    };
    let is_boiled = part.steps.iter().any(|step| cooks(step) && step.time.1 >= BOILS);
    let soaks =
        |step: &Step| (step.kind == StepKind::Wait || called(step, beginnings!["soak"])) && step.time.1 >= SOAKS;
    if !is_boiled && !part.steps.iter().any(soaks) {
        return None;
    }
    let lines = part.lines.iter().zip(&solved.lines);
    let (line, mass, water) = lines.filter(|(line, _)| is_dry(line)).find_map(|(line, amount)| {
        let mass = amount.mass?;
        let is_much = mass.as_share_of(solved.composition.total).is_ok_and(|share| share.value() >= MUCH);
        let water = mass.times(takes_up(line, is_boiled)?).ok()?;
        is_much.then_some((line, mass, water))
    })?;
    // It is said that more comes out than went in.
    if solved.makes.is_some_and(|makes| makes > solved.composition.total) {
        return None;
    }
    let rounded =
        water.value().rounded_to(Number::whole(if water.value() >= Number::whole(100) { 50 } else { 5 })).ok()?;
    let about = show::mass_plain(Mass::new(rounded));
    let message = format!(
        "{} of {} take up about {about} of water at least, and all of `{}` is said to come out again",
        show::mass_plain(mass),
        line.name,
        bath.name
    );
    Some(Diagnostic::advice(check, bath.span, message).also(line.name.span, "weighs as much as dry").help(format!(
        "write what it takes up as a line of its own that stays in, `water .... {about}`, and the rest strained out: weights, figures and label count it dry"
    )))
}
