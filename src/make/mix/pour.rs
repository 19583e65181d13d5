//! How warm the liquids of a mix must be: by the handbook, by the balance of heat, and which of the two is to be used.

use super::balance::Balance;
use super::cold::{Chillable, Cooling};
use super::handbook::{Figures, Verdict, verdict};
use super::{Friction, Mix, TAP, Today, others};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

/// A way to find the temperature of the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// The plain mean of the temperatures, with the friction that was measured by it.
    Handbook,
    /// Mass by mass.
    Balance,
}

/// Which method is to be used, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// The one to be used.
    pub method: Method,
    /// Why, as half a sentence.
    pub why: String,
}

/// What one method says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found {
    /// How warm what is looked for must be.
    pub at: Temperature,
    /// What makes it that cold.
    pub cooling: Cooling,
    /// How warm the dough becomes with the liquids as the recipe says them; `None` unless it says all of them.
    pub as_written: Option<Temperature>,
}

/// What both methods say.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pour {
    /// The handbook.
    pub handbook: Found,
    /// The balance of heat.
    pub balance: Found,
    /// Which of them is to be used.
    pub advice: Advice,
}

impl Method {
    /// Its name, as it stands behind `by`.
    pub const fn name(self) -> &'static str {
        match self {
            Method::Handbook => "the handbook",
            Method::Balance => "the balance of heat",
        }
    }
}

impl Pour {
    /// What the method says.
    pub fn by(&self, method: Method) -> &Found {
        match method {
            Method::Handbook => &self.handbook,
            Method::Balance => &self.balance,
        }
    }

    /// What the method says that is to be used.
    pub fn used(&self) -> &Found {
        self.by(self.advice.method)
    }
}

/// A share of the bowl that is less than half or more than one and a half of what the handbook's mean counts it for is far from
/// equal (our own rule; common practice is to leave small seeds out of the sum, no source).
const FAR: (Number, Number) = (Number::constant(1, 2), Number::constant(3, 2));

/// By more than this a preferment that is colder than the dough moves the handbook's water, by what it is miscounted (our own rule; where the
/// two sums lie 5 to 9 °C apart the balance is the one to use).
const FAR_IN_DEGREES: Number = Number::whole(5);

/// Further apart than this, °C, the room is not one in which a friction is measured: the handbook gives room and flour two thirds of the
/// say, where the flour has two fifths of the heat (our own rule; the balance is even by itself, whatever the room).
const TOO_FAR_APART: Number = Number::whole(10);

/// Which method is to be used for a room, by what both say: the handbook's sum runs out of what water can be in hot rooms and with cold flour.
fn advice_for(mix: &Mix, handbook: &Found, balance: &Found) -> Result<Advice, Overflow> {
    let usual = advice(mix)?;
    let apart = handbook.at.celsius().minus(balance.at.celsius())?.size();
    let can_be = |found: &Found| verdict(found.at) == Verdict::Fine;
    // Where both ask for ice, the one that lies far from the other is the wrong one still; where both are too hot, neither helps.
    let is_near = apart <= TOO_FAR_APART && (can_be(handbook) || !can_be(balance));
    let is_hot = matches!(verdict(balance.at), Verdict::KillsYeast | Verdict::Boils);
    if usual.method == Method::Balance || is_near || is_hot {
        return Ok(usual);
    }
    let settled: Vec<&str> = mix.settled().map(|liquid| liquid.name.as_str()).collect();
    let why = if settled.is_empty() {
        "room and flour are far from those in which a friction is measured, and the handbook counts them for too much"
            .to_owned()
    } else {
        let goes = if settled.len() > 1 { "go in as warm as they are" } else { "goes in as warm as it is" };
        format!(
            "{} {goes} written, and the handbook asks for too much of {} to make up for it",
            show::list(&settled),
            mix.names()
        )
    };
    Ok(Advice { method: Method::Balance, why })
}

/// How many degrees Celsius the two may lie apart where, in a row of rooms, some are to be read by the balance, though the handbook is the one to
/// use in the others; `None` where one method is good for all.
pub fn apart_in_other_rooms(usual: Method, rows: &[Pour]) -> Option<Number> {
    let others = usual == Method::Handbook && rows.iter().any(|found| found.advice.method == Method::Balance);
    others.then_some(TOO_FAR_APART)
}

/// Which method is to be used in a room of the usual warmth. A friction factor is good only with the method that it was measured by (T. Lehmann, PMQ, spring 2003,
/// seen, measures it by the handbook's sum); the handbook's mean knows no masses.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn advice(mix: &Mix) -> Result<Advice, Overflow> {
    let parts = if mix.preferment.is_some() { 4 } else { 3 };
    let balance = |why: String| Ok(Advice { method: Method::Balance, why });
    match &mix.friction {
        Some((friction, Friction::Hand)) if friction.celsius().is_zero() => {
            return balance("mixed by hand there is no friction that was measured by the handbook".to_owned());
        }
        Some((friction, _)) if friction.celsius().is_zero() => {
            return balance("without a friction that was measured by it the handbook is too far off".to_owned());
        }
        _ => {}
    }
    let poured = Mass::sum(mix.liquids.iter().map(|liquid| liquid.mass))?;
    let names = show::list(&mix.liquids.iter().map(|liquid| liquid.name.as_str()).collect::<Vec<_>>());
    let preferment = mix.preferment.as_ref().map(|found| (found.name.clone(), found.verb(), found.mass));
    let poured_verb = if mix.liquids.len() > 1 { "are" } else { "is" };
    for (name, verb, mass) in preferment.into_iter().chain([(names, poured_verb, poured)]) {
        let share = mass.ratio(mix.total)?;
        let equal_shares = share.times(Number::whole(parts))?;
        if equal_shares < FAR.0 || equal_shares > FAR.1 {
            let share = show::percent(Proportion::new(share.rounded_to(Number::constant(1, 100))?));
            let part = if parts == 4 { "fourth" } else { "third" };
            let it = if verb == "are" { "them" } else { "it" };
            return balance(format!("{name} {verb} {share} of the dough, and the handbook counts {it} as a {part}"));
        }
    }
    // What comes out of the cold and is not what it is counted for moves the sum by as much as it is away from the dough.
    let placed = mix.preferment.as_ref().map(|found| Ok::<_, Overflow>((found, found.place()?))).transpose()?;
    if let Some((found, Some(place))) = placed {
        let share = found.mass.ratio(mix.total)?;
        let miscounted = share.times(Number::whole(parts))?.minus(Number::ONE)?;
        let away = place.celsius().minus(mix.desired.celsius())?;
        if miscounted.times(away)?.size() > FAR_IN_DEGREES {
            let share = show::percent(Proportion::new(share.rounded_to(Number::constant(1, 100))?));
            let cold = if away.is_negative() { "cold" } else { "warm" };
            let (name, verb) = (&found.name, found.verb());
            let it = if verb == "are" { "them" } else { "it" };
            return balance(format!(
                "{name} {verb} {cold} and {share} of the dough, and the handbook counts {it} as a fourth"
            ));
        }
    }
    Ok(Advice {
        method: Method::Handbook,
        why: "the friction was measured by it, and is good only with the method it was measured by".to_owned(),
    })
}

/// How warm what is poured must be in a room, with the flour that warm; `None` when the friction is not known.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn pour(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    room: Temperature,
    flour: Temperature,
    today: &Today,
) -> Result<Option<Pour>, Overflow> {
    let Some(figures) = mix.figures(room, flour, today) else { return Ok(None) };
    let tap = today.tap.unwrap_or(TAP);
    let written = mix.written()?;
    let handbook = by_the_handbook(mix, &figures, tap, written)?;
    let balance = by_balance(recipe, formula, mix, &figures, today, written)?;
    Ok(Some(Pour { handbook, balance, advice: advice_for(mix, &handbook, &balance)? }))
}

/// As [`pour`], by one of the methods, in a room and with a flour of these temperatures.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn pour_by(
    method: Method,
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    (room, flour): (Temperature, Temperature),
    today: &Today,
) -> Result<Option<Found>, Overflow> {
    let Some(figures) = mix.figures(room, flour, today) else { return Ok(None) };
    let written = mix.written()?;
    let found = match method {
        Method::Handbook => by_the_handbook(mix, &figures, today.tap.unwrap_or(TAP), written),
        Method::Balance => by_balance(recipe, formula, mix, &figures, today, written),
    };
    found.map(Some)
}

/// How warm a dough becomes into which nothing is poured, by the balance of heat; `None` when the friction is not known.
///
/// # Errors
/// When nothing goes in, or a figure leaves the range of exact numbers.
pub fn unpoured_dough(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    (room, flour): (Temperature, Temperature),
    today: &Today,
) -> Result<Option<Temperature>, Overflow> {
    let Some(figures) = mix.figures(room, flour, today) else { return Ok(None) };
    let liquids = Chillable::by_heat(Mass::ZERO, Number::ZERO);
    let balance = Balance::of(&others(recipe, formula, mix, &figures, today)?, liquids, figures.warming()?)?;
    // No liquid has a temperature that counts.
    balance.dough(room).map(Some)
}

fn by_the_handbook(
    mix: &Mix,
    figures: &Figures,
    tap: Temperature,
    written: Option<Temperature>,
) -> Result<Found, Overflow> {
    let poured = figures.water()?;
    // Liquids that go in as they are written leave it to the others that the mean of all is right.
    let asked = Mass::sum(mix.asked().map(|liquid| liquid.mass))?;
    let mut at = poured;
    for liquid in mix.settled() {
        let colder = poured.celsius().minus(liquid.at.map_or(poured, |at| at).celsius())?;
        at = Temperature::from_celsius(at.celsius().plus(colder.times(liquid.mass.ratio(asked)?)?)?);
    }
    let water = mix.water()?;
    let cooling = Chillable::by_the_handbook(water, asked.minus(water)?).cooling(tap, at)?;
    Ok(Found { at, cooling, as_written: written.map(|written| figures.dough(written)).transpose()? })
}

fn by_balance(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    figures: &Figures,
    today: &Today,
    written: Option<Temperature>,
) -> Result<Found, Overflow> {
    let mut others_hold = Number::ZERO;
    for liquid in mix.asked().filter(|liquid| !liquid.is_water) {
        others_hold = others_hold.plus(liquid.mass.value().times(liquid.heat)?)?;
    }
    let liquids = Chillable::by_heat(mix.water()?, others_hold);
    let balance = Balance::of(&others(recipe, formula, mix, figures, today)?, liquids, figures.warming()?)?;
    let at = balance.water(mix.desired)?;
    Ok(Found {
        at,
        cooling: balance.cooling(today.tap.unwrap_or(TAP), at)?,
        as_written: written.map(|written| balance.dough(written)).transpose()?,
    })
}
