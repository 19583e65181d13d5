//! Lean bread that is to be brown, in an oven that browns nothing in its time.

use super::CHECK;
use crate::check::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{beginnings, says};
use crate::model::lowered::Beginnings;
use crate::model::step::Step;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// In no hotter an oven a lean dough gets no colour in less than so long, °C. Common practice, no source.
const PALE: Number = Number::whole(160);
const BROWN_AFTER: Duration = Duration::new(Number::whole(45 * 60));
/// The same of a loaf of more than so much, up to 150 °C.
const SMALL: Mass = Mass::new(Number::whole(700));
const LOAF_IS_PALE: Number = Number::whole(150);
const LOAF_BROWN_AFTER: Duration = Duration::new(Number::whole(60 * 60));

/// No dough of yeast browns in so cool an oven in less than [`BROWN_AFTER`], however rich it is.
const NEVER_BROWN: Number = Number::whole(140);
/// Nor is anything of it spotted or gold within so short a time in one that is cooler than this: flat bread wants a fierce oven. °C.
const IN_MINUTES: Duration = Duration::new(Number::whole(10 * 60));
const FIERCE: Number = Number::whole(190);
/// Lighter pieces may be crisps.
const LIGHT: Mass = Mass::new(Number::whole(50));
/// What says that it is to have a colour.
const BROWNED: &Beginnings = beginnings!["gold", "brown", "dark", "bronze", "crust"];

/// Pieces of any dough that is raised, in an oven that gives no colour in their time: bagels at 130 °C where 230 were meant.
pub(super) fn never_browns(
    (bake, piece): (&Step, Mass),
    heat: Number,
    is_raised: impl Fn() -> bool,
) -> Option<Diagnostic> {
    let slow = heat <= NEVER_BROWN && bake.time.1 < BROWN_AFTER;
    let quick = heat < FIERCE && bake.time.1 <= IN_MINUTES && piece >= LIGHT;
    let rises = || bake.later.iter().any(|(later, _)| later.celsius() > NEVER_BROWN);
    if !(slow || quick) || rises() || !says(bake, BROWNED) || !is_raised() {
        return None;
    }
    let message = format!(
        "pieces of {} bake for {} at {} °C and are to be brown: they stay pale",
        show::mass_plain(piece),
        show::duration(bake.time.1),
        heat.decimal(0)
    );
    Some(
        Diagnostic::advice(CHECK.name, bake.time_span, message)
            .help("look whether a digit of the temperature or of the time has slipped"),
    )
}

/// Bread of flour, water and salt that is to be brown, in an oven that browns nothing in its time: 150 °C where 250 were meant.
pub(super) fn problem(
    solved: &SolvedPart,
    (bake, piece): (&Step, Mass),
    heat: Number,
    is_raised: impl Fn() -> bool,
) -> Option<Diagnostic> {
    let (most, after) = if piece > SMALL { (LOAF_IS_PALE, LOAF_BROWN_AFTER) } else { (PALE, BROWN_AFTER) };
    let rises = bake.later.iter().any(|(later, _)| later.celsius() > most);
    if heat > most || bake.time.1 >= after || rises || !says(bake, BROWNED) {
        return None;
    }
    let composition = &solved.composition;
    let below = |mass: Mass, most: i64| mass.as_share_of(composition.flour).is_ok_and(|share| share <= mille(most));
    let is_lean = below(composition.sugar, 40) && below(composition.fat, 60);
    if !is_lean || !is_raised() {
        return None;
    }
    let message = format!(
        "a lean dough bakes for {} at {} °C and is to be brown: it stays pale",
        show::duration(bake.time.1),
        heat.decimal(0)
    );
    Some(
        Diagnostic::advice(CHECK.name, bake.time_span, message)
            .help("look whether a digit of the temperature has slipped; such bread bakes at 210 to 250 °C"),
    )
}
