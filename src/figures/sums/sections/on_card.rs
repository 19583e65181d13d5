//! What a card says of the water: the sum for today, or a row of rooms to read off.

use super::mixes::{self, degrees, is_off, whole_grams};
use super::unpoured;
use crate::make::mix::cold::Cooling;
use crate::make::mix::handbook::{Verdict, verdict};
use crate::make::mix::pour::{Found, Method, Pour, advice, pour};
use crate::make::mix::{Mix, TAP, Today, mix, parts_taken};
use crate::measure::number::{Number, Overflow};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;

/// What a card says of the water of a part: in words, and as a table where it is one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnCard {
    /// In words.
    pub words: String,
    /// The rooms to read off; `None` where the day's temperatures are known.
    pub rooms: Option<Rooms>,
}

/// How warm the water is poured in rooms from cold to hot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rooms {
    /// What is poured: `water`, `water and milk`.
    pub names: String,
    /// The method to be used.
    pub by: String,
    /// The other method.
    pub other_by: String,
    /// Room by room.
    pub rows: Vec<RoomWater>,
    /// Why that method.
    pub why: String,
}

/// One room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RoomWater {
    /// How warm the room and the flour are, as printed.
    pub room: Shown,
    /// How warm the water is, by the method to be used.
    pub water: Shown,
    /// By the other method.
    pub other: Shown,
}

/// What a card says of the water of a part; `None` where there is nothing to say: no desired temperature, no known friction, or a baker
/// who wrote the temperature of every liquid and a day that is not told. Of so many loads in which it is mixed the ice is that of one, as
/// everything else on the card.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn on_card(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (day, loads): (&Today, i64),
    units: Units,
) -> Result<Option<OnCard>, Overflow> {
    let Some(mix) = mix(recipe, formula, id, day)? else {
        let words = unpoured::on_card(recipe, formula, id, day, units)?;
        return Ok(words.map(|words| OnCard { words, rooms: None }));
    };
    if mix.friction.is_none() || (mix.is_written() && day.room.is_none()) {
        return Ok(None);
    }
    let Some(room) = day.room else { return rooms(recipe, formula, &mix, day, units) };
    let flour = day.flour.unwrap_or(room);
    let Some(found) = pour(recipe, formula, &mix, room, flour, day)? else { return Ok(None) };
    let taken: String = parts_taken(recipe, formula, &mix)
        .filter(|(_, at)| *at != room)
        .map(|(name, at)| format!(", {name} {}", show::temperature(at, units)))
        .collect();
    let weather =
        format!("(room {}, flour {}{taken})", show::temperature(room, units), show::temperature(flour, units));
    let tap = day.tap.unwrap_or(TAP);
    let words = match mix.written()?.zip(found.used().as_written) {
        // One liquid has one temperature on a card, the written one; `miche sums` has the day's.
        Some((at, dough)) => {
            let (at, dough_shown) = (show::temperature(at, units), degrees(dough, units));
            let but = if is_off(dough, mix.desired) {
                let desired = show::temperature(mix.desired, units);
                format!(", and {desired} is desired: `miche sums` says how warm it should be for today")
            } else {
                String::new()
            };
            let by = found.advice.method.name();
            format!("{} at {at} as written gives a dough of {dough_shown} by {by}{but} {weather}", mix.names())
        }
        None => {
            let both = both(&found, units);
            format!("{} at {both}{} {weather}", mix.names(), cooled(&mix, found.used(), (tap, loads), units)?)
        }
    };
    Ok(Some(OnCard { words, rooms: None }))
}

/// `32 °C by the balance of heat, 38 °C by the handbook; use the balance of heat: mixed by hand …`; the one to be used first.
fn both(found: &Pour, units: Units) -> String {
    let used = found.advice.method;
    let other = if used == Method::Handbook { Method::Balance } else { Method::Handbook };
    let said = |method: Method| degrees(found.by(method).at, units);
    if said(used) == said(other) {
        return format!("{} by both sums", said(used));
    }
    format!(
        "{} by {}, {} by {}; use {}: {}",
        said(used),
        used.name(),
        said(other),
        other.name(),
        used.name(),
        found.advice.why
    )
}

/// What makes it that cold, by the method to be used.
fn cooled(mix: &Mix, used: &Found, (tap, loads): (Temperature, i64), units: Units) -> Result<String, Overflow> {
    let others: Vec<&str> = mix.asked().filter(|one| !one.is_water).map(|one| one.name.as_str()).collect();
    let others = show::list(&others);
    let too_hot = matches!(verdict(used.at), Verdict::KillsYeast | Verdict::Boils);
    let tap = show::temperature(tap, units);
    Ok(match used.cooling {
        Cooling::Tap if too_hot => "; too hot for yeast".to_owned(),
        Cooling::Tap => String::new(),
        Cooling::Chilled { .. } if mix.water()?.value().is_zero() => "; from the refrigerator".to_owned(),
        Cooling::Chilled { others: at } => {
            format!("; {others} from the refrigerator at {}, water from the tap ({tap})", degrees(at, units))
        }
        Cooling::Ice { ice } => {
            let cold = if others.is_empty() { String::new() } else { format!("; {others} from the refrigerator") };
            let ice = show::mass(whole_grams(ice.over(Number::whole(loads.max(1)))?)?, units);
            let of_each = if loads > 1 { " of each load" } else { "" };
            format!("{cold}; {ice} of the water{of_each} as ice (tap {tap})")
        }
        Cooling::OutOfReach { .. } if mix.water()?.value().is_zero() => {
            "; colder than it comes from the refrigerator".to_owned()
        }
        Cooling::OutOfReach { .. } => "; colder than its water as ice can make it".to_owned(),
    })
}

/// A row of rooms for each method, the one to be used first.
fn rooms(recipe: &Recipe, formula: &Formula, mix: &Mix, day: &Today, units: Units) -> Result<Option<OnCard>, Overflow> {
    let advice = advice(mix)?;
    let mut table: Vec<RoomWater> = Vec::new();
    let mut pours: Vec<Pour> = Vec::new();
    let methods = match advice.method {
        Method::Handbook => [Method::Handbook, Method::Balance],
        Method::Balance => [Method::Balance, Method::Handbook],
    };
    for room in mixes::rooms(units)? {
        let Some(found) = pour(recipe, formula, mix, room, day.flour.unwrap_or(room), day)? else { return Ok(None) };
        let [water, other] = methods.map(|method| cell(found.by(method), units));
        table.push(RoomWater { room: show::temperature(room, units), water, other });
        pours.push(found);
    }
    let why = match mixes::other_rooms(advice.method, &pours, units) {
        Some(others) => format!("{}; {others}", advice.why),
        None => advice.why,
    };
    // The unit once is enough, unless there are two.
    let unit = match units {
        Units::Metric => " °C",
        Units::Us => " °F",
        Units::Both => "",
    };
    let bare = |shown: &Shown| match shown.single() {
        Some((digits, None)) => digits.digits.clone(),
        _ => shown.to_string(),
    };
    let row = |of: fn(&RoomWater) -> &Shown| {
        let cells: Vec<String> = table.iter().map(|one| format!("{} → {}", bare(&one.room), bare(of(one)))).collect();
        cells.join(", ")
    };
    let (used, other) = (row(|one| &one.water), row(|one| &one.other));
    let [by, or_by] = methods.map(Method::name);
    let comma = if unit.is_empty() { "" } else { "," };
    let names = mix.names();
    let words = if used == other {
        format!("{names} by room and flour{comma}{unit}: {used}")
    } else {
        format!("{names} by room and flour{comma}{unit}, by {by}: {used}; by {or_by}: {other}; use {by}: {why}")
    };
    let (by, other_by) = (by.to_owned(), or_by.to_owned());
    Ok(Some(OnCard { words, rooms: Some(Rooms { names, by, other_by, rows: table, why }) }))
}

fn cell(found: &Found, units: Units) -> Shown {
    match (verdict(found.at), found.cooling) {
        (Verdict::KillsYeast | Verdict::Boils, _) => Shown::words("too hot"),
        (_, Cooling::OutOfReach { .. }) => Shown::words("out of reach"),
        (Verdict::Frozen, _) => Shown::words("ice"),
        (Verdict::Fine, _) => degrees(found.at, units),
    }
}
