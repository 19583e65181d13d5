//! Aims: which figures a formula must hold, how far it is from them, and the least change that meets them.

pub mod change;
pub mod figure;
mod prefermented;
mod share;
pub mod written;

pub(crate) use change::nearest_mix;

use crate::language::syntax::AimOf;
use crate::measure::money;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::aim::{Aim, AimUnit};
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;
use figure::{NoFigure, Reading};

/// What an aim is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The part; for the whole recipe, the one that it is about.
    pub part: PartId,
    /// Whether it stands in the head.
    pub whole: bool,
}

impl Place {
    /// The parts that an aim counts: of the whole, all sorts that it makes.
    fn parts(self, recipe: &Recipe, formula: &Formula) -> Vec<PartId> {
        let sold = if self.whole { formula.sold(recipe) } else { Vec::new() };
        if sold.len() > 1 { sold } else { vec![self.part] }
    }
}

/// How it stands with an aim.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// It is met, whatever the larder does not know.
    Met,
    /// It is not.
    Missed,
    /// The larder does not say.
    Open,
    /// There is no figure, and why.
    NoFigure(NoFigure),
}

/// An aim, and the figure as it is.
#[derive(Debug, Clone)]
pub struct Held<'r> {
    /// What it is about.
    pub place: Place,
    /// The aim.
    pub aim: &'r Aim,
    /// What it is counted on, said or not.
    pub of: Option<AimOf>,
    /// The figure; `None` where there is none.
    pub reading: Option<Reading>,
    /// How it stands.
    pub verdict: Verdict,
}

/// The aims of a recipe with their places: those of the head, then part by part. In a part that could not be read nothing is
/// aimed at, and neither in the whole.
pub fn list(recipe: &Recipe) -> Vec<(Place, &Aim)> {
    let is_whole = recipe.own_parts().all(|(_, part)| !part.broken);
    let head = recipe.final_part().filter(|_| is_whole).map(|part| Place { part, whole: true });
    let head = head.into_iter().flat_map(|place| recipe.aims.iter().map(move |aim| (place, aim)));
    let own = recipe.own_parts().filter(|(_, part)| !part.broken);
    let own = own.flat_map(|(id, part)| part.aims.iter().map(move |aim| (Place { part: id, whole: false }, aim)));
    head.chain(own).collect()
}

/// How it stands with every aim of a recipe.
pub fn held<'r>(recipe: &'r Recipe, formula: &Formula) -> Vec<Held<'r>> {
    list(recipe).into_iter().map(|(place, aim)| look(recipe, formula, place, aim)).collect()
}

fn look<'r>(recipe: &Recipe, formula: &Formula, place: Place, aim: &'r Aim) -> Held<'r> {
    let makeup = formula.part(place.part).map(|part| part.composition).unwrap_or_default();
    let of = figure::counted_on(aim, &makeup);
    let (reading, verdict) = match figure::read(recipe, formula, place, aim) {
        Ok(reading) => {
            let verdict = judge(aim, &reading).unwrap_or(Verdict::NoFigure(NoFigure::Overflow));
            (Some(reading), verdict)
        }
        Err(why) => (None, Verdict::NoFigure(why)),
    };
    Held { place, aim, of, reading, verdict }
}

fn judge(aim: &Aim, reading: &Reading) -> Result<Verdict, Overflow> {
    let (least, most) = (reading.value()?.minus(reading.about)?, reading.most()?.plus(reading.about)?);
    let low = aim.low.map(|low| low.minus(aim.slack)).transpose()?;
    let high = aim.high.map(|high| high.plus(aim.slack)).transpose()?;
    let above = |value: Number| high.is_some_and(|high| value > high);
    let below = |value: Number| low.is_some_and(|low| value < low);
    Ok(if above(least) || below(most) {
        Verdict::Missed
    } else if above(most) || below(least) {
        Verdict::Open
    } else {
        Verdict::Met
    })
}

/// How far a figure is from its aim, in its unit: less than nothing when there is too little. Nothing when it is met.
///
/// # Errors
/// When it leaves the range of exact numbers.
pub fn distance(aim: &Aim, reading: &Reading) -> Result<Number, Overflow> {
    let value = reading.value()?;
    match (aim.low, aim.high) {
        (Some(low), _) if value < low => value.minus(low),
        (_, Some(high)) if value > high => value.minus(high),
        _ => Ok(Number::ZERO),
    }
}

impl Held<'_> {
    /// What brings most of the figure: names and how much, the most first.
    pub fn brings(&self, recipe: &Recipe, formula: &Formula) -> Vec<(String, Number)> {
        figure::brings(recipe, formula, self.place, self.aim)
    }

    /// What it is counted on, in words, with a space before it; empty for all of it.
    pub fn of_words(&self) -> String {
        self.of.map_or_else(String::new, |of| format!(" {}", of.words()))
    }
}

/// A figure as it is printed, in the unit of its aim.
pub fn shown(unit: &AimUnit, value: Number) -> String {
    match unit {
        AimUnit::Percent => format!("{} %", digits(value)),
        AimUnit::Grams => format!("{} g", digits(value)),
        AimUnit::Minutes => {
            let seconds = value.times(Number::whole(60)).and_then(|seconds| seconds.rounded_to(Number::ONE));
            seconds.map_or_else(
                |_| format!("{} min", digits(value)),
                |seconds| show::duration(Duration::new(seconds)).to_string(),
            )
        }
        AimUnit::Money(currency) => money::shown(value, places(value), currency.as_deref()).to_string(),
        AimUnit::Kilocalories => format!("{} kcal", value.decimal(0)),
        AimUnit::Kilojoules => format!("{} kJ", value.decimal(0)),
    }
}

/// Money has two places, and three where it is less than a tenth, or less than ten and no whole hundredths: so what a piece costs, what was
/// aimed at and how far they are apart add up.
fn places(value: Number) -> u32 {
    let in_hundredths = value.times(Number::whole(100)).is_ok_and(Number::is_whole);
    let is_fine = value.size() < Number::constant(1, 10) || !in_hundredths && value.size() < Number::whole(10);
    if is_fine && !value.is_zero() { 3 } else { 2 }
}

/// A share or a weight to two places, and finer where that would print nothing.
fn digits(value: Number) -> String {
    let size = value.size();
    let places = if size.is_zero() || size >= Number::constant(1, 10) { 2 } else { 4 };
    value.decimal(places)
}

/// What is aimed at, as it is printed: `66-68 %`, `at most 8 %`.
pub fn shown_aim(aim: &Aim) -> String {
    match (aim.low, aim.high) {
        (Some(low), Some(high)) if low == high => shown(&aim.unit, low),
        (Some(low), Some(high)) => match aim.unit {
            AimUnit::Percent | AimUnit::Grams => format!("{}-{}", digits(low), shown(&aim.unit, high)),
            _ => format!("{} to {}", shown(&aim.unit, low), shown(&aim.unit, high)),
        },
        (Some(low), None) => format!("at least {}", shown(&aim.unit, low)),
        (None, Some(high)) => format!("at most {}", shown(&aim.unit, high)),
        (None, None) => String::new(),
    }
}
