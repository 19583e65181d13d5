//! The water of a mix: its temperature by both methods, its ice, and a table to read off when the day's figures are missing.

use crate::figures::sums::tables::{Asked, Section, Sums, Table};
use crate::figures::sums::topic;
use crate::make::mix::cold::Cooling;
use crate::make::mix::handbook::{Verdict, verdict};
use crate::make::mix::pour::{Found, Method, Pour, advice, apart_in_other_rooms, pour};
use crate::make::mix::{Friction, Mix, TAP, parts_taken};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

/// The rooms of the table to read off, in whole degrees of those who read it, so that the sum can be done again with what is printed.
pub(super) fn rooms(units: Units) -> Result<[Temperature; 5], Overflow> {
    Ok(match units {
        Units::Us => {
            let [cold, cool, mild, warm, hot] =
                [60, 68, 75, 82, 90].map(|room| Temperature::from_fahrenheit(Number::whole(room)));
            [cold?, cool?, mild?, warm?, hot?]
        }
        Units::Metric | Units::Both => [16, 20, 24, 28, 32].map(celsius),
    })
}

/// From here on the weather is hot: dough leaves the mixer too warm unless the water is cold (common practice, no source).
const HOT: Number = Number::whole(28);
/// Up to here it is cold: the dough cools in the rise (common practice, no source).
const COLD: Number = Number::whole(17);
/// So far a dough may be from what is desired: no thermometer on a bench shows less (common practice, no source).
const NEAR: Number = Number::ONE;

/// Whether a dough that warm is not the one that is desired.
pub(super) fn is_off(dough: Temperature, desired: Temperature) -> bool {
    dough.minus(desired).is_ok_and(|by| by.celsius().size() > NEAR)
}

/// A temperature to half a degree Celsius, or to one Fahrenheit.
pub(super) fn degrees(at: Temperature, units: Units) -> Shown {
    if units == Units::Us {
        return show::temperature(at, units);
    }
    let rounded = at.celsius().rounded_to(Number::constant(1, 2)).map_or(at, Temperature::from_celsius);
    show::temperature(rounded, units)
}

/// What helps where there is no friction to count with.
pub(super) const NO_FRICTION: &str =
    "The mixer's friction is not known: write `friction 12 C` behind it in the kitchen file, or give `--friction`.";

pub(super) fn celsius(degrees: i64) -> Temperature {
    Temperature::from_celsius(Number::whole(degrees))
}

pub(super) fn section(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    asked: &Asked,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let Some(part) = recipe.part(mix.part) else { return Ok(()) };
    let mut section = Section::new(format!("Water for {}", part.name), &topic::WATER_TEMPERATURE);
    section.row("dough after mixing", show::temperature(mix.desired, asked.units), mix.desired.celsius(), "°C");
    let Some((friction, whose)) = &mix.friction else {
        section.remarks.push(NO_FRICTION.to_owned());
        all.sections.push(section);
        return Ok(());
    };
    let degrees = friction.celsius();
    section.row(format!("friction{}", whose.word()), difference(degrees, asked.units), degrees, "°C");
    match asked.today.room {
        Some(room) => {
            let flour = asked.today.flour.unwrap_or(room);
            let Some(found) = pour(recipe, formula, mix, room, flour, &asked.today)? else { return Ok(()) };
            let taken: Vec<(&str, Temperature)> = parts_taken(recipe, formula, mix).collect();
            today(mix, &part.name.to_string(), (&found, &taken), (room, flour), asked, &mut section, all)?;
        }
        None => {
            let usual = advice(mix)?;
            let (table, pours) = table(recipe, formula, mix, asked, usual.method)?;
            section.table = Some(table);
            let others =
                other_rooms(usual.method, &pours, asked.units).map_or_else(String::new, |others| format!("; {others}"));
            section.remarks.push(sentence(usual.method, &format!("{}{others}", usual.why)));
            if let Some(found) = &mix.preferment {
                let how = asked.today.preferment.or(found.place()?).map_or_else(
                    || "as warm as the room".to_owned(),
                    |at| format!("at {}", show::temperature(at, asked.units)),
                );
                section.remarks.push(format!("Reckoned with {} {how}.", found.name));
            }
            for (name, at) in parts_taken(recipe, formula, mix) {
                section.remarks.push(format!("Reckoned with {name} at {}.", show::temperature(at, asked.units)));
            }
            section
                .remarks
                .push("With `--room` and `--flour-at` the sum is for today, with ice where it needs any.".to_owned());
        }
    }
    all.sections.push(section);
    Ok(())
}

/// `Use the balance of heat: sour is 51 % of the dough, and the handbook counts it as a fourth.`
fn sentence(method: Method, why: &str) -> String {
    format!(
        "Use {}: {why}. The handbook takes the plain mean of the temperatures, the balance counts masses and heats and no loss to the \
         bowl; measure the dough and correct the friction.",
        method.name()
    )
}

impl Friction {
    pub(super) fn word(&self) -> String {
        match self {
            Friction::Kitchen(name) => format!(" of the {name}"),
            Friction::Hand => ", mixed by hand".to_owned(),
            Friction::Said => ", as said".to_owned(),
        }
    }
}

/// What to say beside a row of rooms of which some are to be read by the balance, though the handbook is the one to use in the others.
pub(super) fn other_rooms(usual: Method, rows: &[Pour], units: Units) -> Option<String> {
    apart_in_other_rooms(usual, rows).map(|apart| {
        let apart = difference(apart, units);
        format!("where the two lie more than {apart} apart, or the handbook says what no water can be, use the balance of heat")
    })
}

pub(super) fn difference(celsius: Number, units: Units) -> String {
    let metric = format!("{} °C", celsius.decimal(1));
    let us = celsius.times(Number::constant(9, 5)).map_or_else(|_| "?".to_owned(), |f| format!("{} °F", f.decimal(0)));
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

/// The sum with the day's figures: the room, and the flour.
fn today(
    mix: &Mix,
    part: &str,
    (found, taken): (&Pour, &[(&str, Temperature)]),
    (room, flour): (Temperature, Temperature),
    asked: &Asked,
    section: &mut Section,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let units = asked.units;
    section.row("room", show::temperature(room, units), room.celsius(), "°C");
    section.row("flour", show::temperature(flour, units), flour.celsius(), "°C");
    if let Some(preferment) = &mix.preferment {
        let at = match asked.today.preferment {
            Some(at) => at,
            None => preferment.at(room)?,
        };
        section.row(preferment.name.clone(), show::temperature(at, units), at.celsius(), "°C");
    }
    for (name, at) in taken {
        section.row((*name).to_owned(), show::temperature(*at, units), at.celsius(), "°C");
    }
    for liquid in mix.settled() {
        let at = liquid.at.unwrap_or(room);
        section.row(format!("{}, as written", liquid.name), show::temperature(at, units), at.celsius(), "°C");
    }
    let liquids = mix.names();
    for method in [Method::Handbook, Method::Balance] {
        let at = found.by(method).at;
        section.row(format!("{liquids}, by {}", method.name()), degrees(at, units), at.celsius(), "°C");
    }
    let used = found.used();
    as_written(mix, found, units, section)?;
    match verdict(used.at) {
        Verdict::Boils => all.impossible.push(format!(
            "{part}: for a dough of {} the water would have to be {}, which boils; warm the flour or the room, or desire a cooler dough",
            show::temperature(mix.desired, units),
            degrees(used.at, units)
        )),
        Verdict::KillsYeast => {
            let cold: Vec<&str> = taken.iter().filter(|(_, at)| *at < room).map(|(name, _)| *name).collect();
            let warmed =
                if cold.is_empty() { String::new() } else { format!("let {} come to the room, ", show::list(&cold)) };
            section.remarks.push(format!(
                "Above 43 °C (110 °F) yeast dies: {warmed}warm the flour, add the yeast later, or desire a cooler dough."
            ));
        }
        Verdict::Frozen | Verdict::Fine => {}
    }
    cold_rows(mix, part, found, asked, section, all)?;
    weather(room.max(flour), room, section);
    section.remarks.push(sentence(found.advice.method, &found.advice.why));
    Ok(())
}

/// What the written temperatures come to, beside what is desired.
fn as_written(mix: &Mix, found: &Pour, units: Units, section: &mut Section) -> Result<(), Overflow> {
    let Some((at, dough)) = mix.written()?.zip(found.used().as_written) else { return Ok(()) };
    section.row(format!("{}, as written", mix.names()), show::temperature(at, units), at.celsius(), "°C");
    let method = found.advice.method.name();
    section.row(format!("dough as written, by {method}"), degrees(dough, units), dough.celsius(), "°C");
    if is_off(dough, mix.desired) {
        section.remarks.push(format!(
            "{} at {}, as the recipe says, gives a dough of {} today and not of {}: take {}.",
            mix.names(),
            show::temperature(at, units),
            degrees(dough, units),
            show::temperature(mix.desired, units),
            degrees(found.used().at, units)
        ));
    }
    Ok(())
}

/// What makes the liquids cold: the refrigerator, and ice.
fn cold_rows(
    mix: &Mix,
    part: &str,
    found: &Pour,
    asked: &Asked,
    section: &mut Section,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let units = asked.units;
    if [&found.handbook, &found.balance].iter().all(|found| found.cooling == Cooling::Tap) {
        return Ok(());
    }
    let tap = asked.today.tap.unwrap_or(TAP);
    section.row("tap", show::temperature(tap, units), tap.celsius(), "°C");
    let chilled = show::list(&mix.asked().filter(|one| !one.is_water).map(|one| one.name.as_str()).collect::<Vec<_>>());
    for method in [Method::Handbook, Method::Balance] {
        let said = if method == Method::Handbook { "handbook" } else { "balance of heat" };
        match found.by(method).cooling {
            Cooling::Tap => {}
            Cooling::Chilled { others } => {
                let what = format!("{chilled} from the refrigerator ({said})");
                section.row(what, degrees(others, units), others.celsius(), "°C");
            }
            Cooling::Ice { ice } => {
                let what = format!("of the water, ice ({said})");
                section.row(what, show::mass(whole_grams(ice)?, units), ice.value(), "g");
            }
            // Of milk nothing can be ice.
            Cooling::OutOfReach { .. } if mix.water()?.value().is_zero() => {}
            Cooling::OutOfReach { ice } => {
                let shown = format!("{}, more than all of it", show::mass(whole_grams(ice)?, units));
                section.row(format!("of the water, ice ({said})"), shown, ice.value(), "g");
            }
        }
    }
    match found.used().cooling {
        Cooling::Ice { ice } => {
            let rest = mix.water()?.minus(ice)?;
            section.row("water from the tap beside it", show::mass(whole_grams(rest)?, units), rest.value(), "g");
            if !chilled.is_empty() {
                section.remarks.push(format!("Take {chilled} cold, from the refrigerator."));
            }
            if ice > mix.water()?.over(Number::whole(2))? {
                section.remarks.push(
                    "More than half of the water is ice: use it crushed, and see that it melts before the mix ends."
                        .to_owned(),
                );
            }
        }
        Cooling::OutOfReach { ice } => {
            all.impossible.push(out_of_reach(mix, part, found.used(), ice, &chilled, units)?)
        }
        Cooling::Tap | Cooling::Chilled { .. } => {}
    }
    Ok(())
}

/// Why the dough cannot be that cool, and what helps.
fn out_of_reach(
    mix: &Mix,
    part: &str,
    used: &Found,
    ice: Mass,
    chilled: &str,
    units: Units,
) -> Result<String, Overflow> {
    let helps = "cool the flour and the preferment, mix less, or desire a warmer dough";
    let water = mix.water()?;
    if water.value().is_zero() {
        return Ok(format!(
            "{part}: {chilled} would have to be {}, colder than it comes from the refrigerator; {helps}",
            degrees(used.at, units)
        ));
    }
    let besides = if chilled.is_empty() { String::new() } else { format!(", with {chilled} from the refrigerator") };
    Ok(format!(
        "{part}: {} of ice would be needed, more than all its water, {}{besides}; {helps}",
        show::mass(whole_grams(ice)?, units),
        show::mass(whole_grams(water)?, units)
    ))
}

pub(super) fn whole_grams(mass: Mass) -> Result<Mass, Overflow> {
    mass.value().rounded_to(Number::ONE).map(Mass::new)
}

fn weather(warmest: Temperature, room: Temperature, section: &mut Section) {
    if warmest.celsius() >= HOT {
        section.remarks.push(
            "Hot weather: chill the flour or the water the day before, shorten the mix, and watch the dough, not the clock.".to_owned(),
        );
    }
    if room.celsius() <= COLD {
        section
            .remarks
            .push("Cold weather: warm the bowl, keep the dough covered and off stone, and give it time.".to_owned());
    }
}

/// Water for rooms from cold to hot, the flour as warm as the room or as said: the method to be used first; and what both methods say in each.
fn table(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    asked: &Asked,
    usual: Method,
) -> Result<(Table, Vec<Pour>), Overflow> {
    let flour = asked.today.flour;
    let first = match flour {
        Some(at) => format!("room, flour at {}", show::temperature(at, asked.units)),
        None => "room and flour".to_owned(),
    };
    let names = mix.names();
    let methods = match usual {
        Method::Handbook => [Method::Handbook, Method::Balance],
        Method::Balance => [Method::Balance, Method::Handbook],
    };
    let head = [first].into_iter().chain(methods.map(|method| format!("{names}, by {}", method.name()))).collect();
    let (mut rows, mut pours) = (Vec::new(), Vec::new());
    for room in rooms(asked.units)? {
        let Some(found) = pour(recipe, formula, mix, room, flour.unwrap_or(room), &asked.today)? else { continue };
        let mut row = vec![show::temperature(room, asked.units)];
        row.extend(methods.map(|method| in_table(found.by(method), asked.units)));
        rows.push(row);
        pours.push(found);
    }
    Ok((Table { head, rows }, pours))
}

fn in_table(found: &Found, units: Units) -> Shown {
    match (verdict(found.at), found.cooling) {
        (Verdict::KillsYeast, _) => Shown::words("too hot for yeast: warm the flour"),
        (Verdict::Boils, _) => Shown::words("impossible"),
        (_, Cooling::OutOfReach { .. }) => format!("{}: out of reach", degrees(found.at, units)).into(),
        (Verdict::Frozen, _) => format!("{}: with ice", degrees(found.at, units)).into(),
        (Verdict::Fine, _) => degrees(found.at, units),
    }
}
