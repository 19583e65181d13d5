//! How much water can be left in sugar that is boiled to a temperature: what `odd-amount` looks for in a loss that leaves more of it.

use super::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::cooking::{bakes, cooks, first_draws};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Refers};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// At how many degrees a syrup of sucrose boils that holds so many hundredths of sugar, at sea level (handbooks of confectionery, from memory).
const BOILS_AT: &[(i64, i64)] =
    &[(106, 70), (108, 75), (111, 80), (115, 85), (121, 90), (130, 95), (145, 98), (160, 99)];

/// A boil to a temperature at which less water is left than the part says, and where its loss is said.
pub(super) fn problem(part: &Part, solved: &SolvedPart, check: &'static str) -> Option<Diagnostic> {
    part.lines.iter().find(|line| line.kind.is_sweet())?;
    if part.per_piece || part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)) || !line.stays_in()) {
        return None;
    }
    let heat = |step: &Step| {
        // Hardly any step says a heat at which sugar boils.
        let heat = step.hottest_said().map(|at| at.celsius());
        let hot = heat.filter(|heat| BOILS_AT.first().is_some_and(|(from, _)| *heat >= Number::whole(*from)))?;
        (step.kind != StepKind::Wait && cooks(step) && !bakes(step)).then_some(hot)
    };
    let steps = part.steps.iter().enumerate().filter_map(|(at, step)| Some((at, step, heat(step)?)));
    let (at, step, heat) = steps.max_by_key(|(.., heat)| *heat)?;
    let (_, solids) = BOILS_AT.iter().rev().find(|(from, _)| heat >= Number::whole(*from))?;
    if heat > Number::whole(185) {
        return None;
    }
    let all = solved.stays?;
    let lost = all.minus(solved.makes?).ok()?;
    // What is in by then, dry and wet.
    let draws = first_draws(part);
    let (mut water, mut sugar) = (Mass::ZERO, Mass::ZERO);
    for (number, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
        if draws.get(&Target::Line(number)).is_none_or(|first| *first > at) {
            continue;
        }
        let mass = amount.mass?;
        let wet = wet(line)?;
        water = water.plus(mass.share(wet).ok()?).ok()?;
        if line.kind.is_sweet() {
            sugar = sugar.plus(mass.minus(mass.share(wet).ok()?).ok()?).ok()?;
        }
    }
    // The first figure of a table at which it boils is passed: no more can be left than that.
    let left = sugar.times(Number::whole(100 - solids)).ok()?.over(Number::whole(*solids)).ok()?;
    let said = water.minus(lost.max(Mass::ZERO)).ok()?;
    let room = left.times(Number::constant(13, 10)).ok()?.plus(all.share(mille(50)).ok()?).ok()?;
    let is_of_sugar = sugar.as_share_of(all).is_ok_and(|share| share >= mille(300));
    if said <= room || !is_of_sugar {
        return None;
    }
    let gone = water.minus(left).ok()?;
    let span =
        part.divide.map(|divide| divide.span).or_else(|| part.makes.map(|makes| makes.span)).unwrap_or(step.name.span);
    let message = format!(
        "`{}` boils to {}: of {} of water no more than {} are left then, and {} are said to be lost",
        step.name,
        show::temperature(Temperature::from_celsius(heat), Units::Metric),
        show::mass_plain(water),
        show::mass_plain(rounded(left)),
        show::mass_plain(lost.max(Mass::ZERO))
    );
    Some(Diagnostic::advice(check, span, message).also(step.name.span, "boils away here").help(format!(
        "about {} of all {} boil away, {}: look whether the loss is right, or the temperature",
        show::mass_plain(rounded(gone)),
        show::mass_plain(all),
        show::percent(gone.as_share_of(all).ok()?)
    )))
}

/// To the gram.
fn rounded(mass: Mass) -> Mass {
    mass.value().rounded_to(Number::ONE).map_or(mass, Mass::new)
}

/// How much of a line is water; `None` where nobody knows.
fn wet(line: &Ingredient) -> Option<Proportion> {
    let known = line.facts().and_then(|facts| facts.contents.water);
    known.or(match line.kind {
        Kind::Water => Some(Proportion::WHOLE),
        Kind::Sugar | Kind::Salt | Kind::Fat | Kind::Soda | Kind::Spice | Kind::Nut => Some(Proportion::ZERO),
        _ => None,
    })
}
