//! `water-temperature`: water that would have to be below freezing, or hotter than yeast stands.

use super::{Check, Family, Run, Subject};
use crate::model::cooking::first_draw;
use crate::model::kind::Kind;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::{Number, Overflow};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::measure::show::{self, Units};
use crate::model::step::Target;
use crate::measure::temperature::Temperature;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "water-temperature",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a desired dough temperature that water between freezing and 43 °C cannot give, and liquids that would kill the yeast",
    why: "Water = 3 × desired temperature − (room + flour + friction); with a preferment 4 ×, and the preferment taken off as \
          well. Room and flour are taken as 20 °C. Friction is that of the mixer in the kitchen file; where none is said, \
          anything from 0 to 20 °C is possible, and only what is out of reach for all of it is reported. Yeast dies above \
          43 °C (110 °F).",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\ndesired temperature 35 C\nmix: hands 10 min\n    \
          Mix {flour}, {water} and {instant yeast}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\ndesired temperature 24 C\nmix: hands 10 min\n    \
           Mix {flour}, {water} and {instant yeast}.\n    until smooth\n",
    sources: &[
        "T. Lehmann, PMQ, spring 2003, and Pizza Today, June 2018: the water temperature formula",
        "TM 10-412 (2003), card D-G-2: above 110 °F the yeast will be killed",
        "room and flour at 20 °C: assumed",
    ],
    run: Run::Recipe(run),
};

/// 110 °F.
const YEAST_DIES: Number = Number::constant(130, 3);
const ROOM: Number = Number::whole(20);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let Some((at, yeast)) = part.lines.iter().enumerate().find(|(_, line)| line.kind.ferments()) else { continue };
        for (other, line) in part.lines.iter().enumerate() {
            diagnostics.extend(kills(part, (at, yeast), (other, line)));
        }
        // An overflow here means a temperature that is reported elsewhere.
        if let Ok(Some(problem)) = out_of_reach(subject.recipe, id, part) {
            diagnostics.push(problem);
        }
    }
}

/// A liquid that goes in together with the yeast and is too hot for it.
fn kills(part: &Part, yeast: (usize, &Ingredient), other: (usize, &Ingredient)) -> Option<Diagnostic> {
    let temperature = other.1.temperature.filter(|temperature| temperature.celsius() > YEAST_DIES)?;
    let together = first_draw(part, Target::Line(yeast.0))? == first_draw(part, Target::Line(other.0))?;
    let message = format!(
        "`{}` at {} goes in together with `{}`, which dies above 43 °C",
        other.1.name,
        show::temperature(temperature, Units::Metric),
        yeast.1.name
    );
    together.then(|| {
        Diagnostic::warning(CHECK.name, other.1.span, message)
            .also(yeast.1.span, "the yeast")
            .help("let it cool to 38 °C or below first, or add the yeast in a later step")
    })
}

fn out_of_reach(recipe: &Recipe, id: PartId, part: &Part) -> Result<Option<Diagnostic>, Overflow> {
    let Some(desired) = part.desired_temperature else { return Ok(None) };
    let Some(water) = part.lines.iter().find(|line| line.kind == Kind::Water && !line.aside) else { return Ok(None) };
    // Where a temperature is said for a liquid, the baker has decided.
    if part.lines.iter().any(|line| line.temperature.is_some()) {
        return Ok(None);
    }
    let preferment = preferment_temperature(recipe, id);
    let factors = if preferment.is_some() { 4 } else { 3 };
    let taken = ROOM.plus(ROOM)?.plus(preferment.as_ref().map_or(Number::ZERO, |(_, temperature)| temperature.celsius()))?;
    let without_friction = desired.celsius().times(Number::whole(factors))?.minus(taken)?;
    let known = part.steps.iter().filter_map(|step| recipe.kitchen.find(step.equipment.as_ref()?)?.friction).next();
    let (least, most) = match known {
        Some(friction) => (friction.celsius(), friction.celsius()),
        None => (Number::ZERO, Number::whole(20)),
    };
    let (coldest, warmest) = (without_friction.minus(most)?, without_friction.minus(least)?);
    let (needed, limit) = if warmest.is_negative() {
        (warmest, "below freezing")
    } else if coldest > YEAST_DIES {
        (coldest, "hotter than yeast stands, 43 °C")
    } else {
        return Ok(None);
    };
    let friction = match known {
        Some(friction) => format!("{} °C friction", friction.celsius().decimal(1)),
        None if limit == "below freezing" => "no friction at all".to_owned(),
        None => "20 °C friction, more than any mixer gives".to_owned(),
    };
    let ferment = preferment.map_or(String::new(), |(name, temperature)| format!(", `{name}` at {}", show::temperature(temperature, Units::Metric)));
    let message = format!(
        "for a dough of {} the water would have to be {}, {limit}",
        show::temperature(desired, Units::Metric),
        show::temperature(Temperature::from_celsius(needed), Units::Metric)
    );
    let how = if limit == "below freezing" {
        "use ice, cold flour or a gentler mix, or desire a warmer dough"
    } else {
        "desire a cooler dough, or let it warm up in the rise"
    };
    Ok(Some(
        Diagnostic::warning(CHECK.name, water.span, message)
            .label(format!("reckoned with room and flour at 20 °C, {friction}{ferment}"))
            .help(how),
    ))
}

/// The name of a part that ferments before the mix, and how warm it comes to it: as warm as its last place.
fn preferment_temperature(recipe: &Recipe, id: PartId) -> Option<(String, Temperature)> {
    let (_, preferment) = recipe.preferments(id).next()?;
    let temperature = preferment.steps.iter().rev().find_map(|step| step.temperature);
    let temperature = temperature.map_or(Temperature::from_celsius(ROOM), |(low, _)| low);
    Some((preferment.name.to_string(), temperature))
}
