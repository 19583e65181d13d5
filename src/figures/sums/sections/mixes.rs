//! The water of a mix: its temperature, its ice, and a table to read off when the day's figures are missing.

use crate::figures::sums::ice::{self, Balance};
use crate::figures::sums::mixing::{Friction, Mix, TAP, Today, mix, others};
use crate::figures::sums::tables::{Asked, Section, Sums, Table};
use crate::figures::sums::topic;
use crate::figures::sums::water::{Figures, Verdict, verdict};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;

/// The rooms of the table to read off, °C.
const ROOMS: [i64; 5] = [16, 20, 24, 28, 32];
/// From here on the weather is hot: dough leaves the mixer too warm unless the water is cold (common practice, no source).
const HOT: Number = Number::whole(28);
/// Up to here it is cold: the dough cools in the rise (common practice, no source).
const COLD: Number = Number::whole(17);

/// What comes from the refrigerator (FDA Food Code 3-501.16: 5 °C and below; 4 °C is what its dial is set to, common practice).
const REFRIGERATOR: Temperature = Temperature::from_celsius(Number::whole(4));

fn degrees(at: Temperature, units: Units) -> String {
    let rounded = at.celsius().rounded_to(Number::constant(1, 2)).map_or(at, Temperature::from_celsius);
    show::temperature(rounded, units).to_string()
}

fn celsius(degrees: i64) -> Temperature {
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
        section.remarks.push(
            "The mixer's friction is not known: write `friction 12 C` behind it in the kitchen file, or give `--friction`."
                .to_owned(),
        );
        all.sections.push(section);
        return Ok(());
    };
    section.row(
        format!("friction{}", whose.word()),
        difference(friction.celsius(), asked.units),
        friction.celsius(),
        "°C",
    );
    match asked.today.room {
        Some(room) => {
            let flour = asked.today.flour.unwrap_or(room);
            let Some(figures) = mix.figures(room, flour, &asked.today) else { return Ok(()) };
            today(recipe, formula, mix, &figures, asked, &mut section, all)?;
        }
        None => {
            section.table = Some(table(mix, asked)?);
            if let Some((name, place)) = &mix.preferment {
                let warm = asked.today.preferment.or(*place);
                let how = warm.map_or_else(
                    || "as warm as the room".to_owned(),
                    |at| format!("at {}", show::temperature(at, asked.units)),
                );
                section.remarks.push(format!("Reckoned with {name} {how}."));
            }
            section
                .remarks
                .push("With `--room` and `--flour-at` the sum is for today, with ice where it needs any.".to_owned());
        }
    }
    all.sections.push(section);
    Ok(())
}

impl Friction {
    fn word(&self) -> String {
        match self {
            Friction::Kitchen(name) => format!(" of the {name}"),
            Friction::Hand => ", mixed by hand".to_owned(),
            Friction::Said => ", as said".to_owned(),
        }
    }
}

fn difference(celsius: Number, units: Units) -> String {
    match units {
        Units::Us => {
            celsius.times(Number::constant(9, 5)).map_or_else(|_| "?".to_owned(), |f| format!("{} °F", f.decimal(0)))
        }
        _ => format!("{} °C", celsius.decimal(1)),
    }
}

/// The sum with the day's figures.
fn today(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    figures: &Figures,
    asked: &Asked,
    section: &mut Section,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let units = asked.units;
    section.row("room", show::temperature(figures.room, units), figures.room.celsius(), "°C");
    section.row("flour", show::temperature(figures.flour, units), figures.flour.celsius(), "°C");
    if let (Some(at), Some((name, _))) = (figures.preferment, &mix.preferment) {
        section.row(name.clone(), show::temperature(at, units), at.celsius(), "°C");
    }
    let water = figures.water()?;
    let liquids = show::list(&mix.liquids);
    section.row(format!("{liquids}, by the handbook"), degrees(water, units), water.celsius(), "°C");
    let tap = asked.today.tap.unwrap_or(TAP);
    let others = others(recipe, formula, mix.part, figures)?;
    let balance = ice::balance(&others, mix.poured, tap, figures.desired, figures.warming()?)?;
    section.row(
        format!("{liquids}, by the balance of heat"),
        degrees(balance.water, units),
        balance.water.celsius(),
        "°C",
    );
    let name = recipe.part(mix.part).map_or_else(String::new, |part| part.name.to_string());
    match verdict(water) {
        Verdict::Boils => all.impossible.push(format!(
            "{name}: for a dough of {} the water would have to be {}, which boils; warm the flour or the room, or desire a cooler dough",
            show::temperature(figures.desired, units),
            degrees(water, units)
        )),
        Verdict::KillsYeast => section.remarks.push(
            "Above 43 °C (110 °F) yeast dies: warm the flour, add the yeast later, or desire a cooler dough.".to_owned(),
        ),
        Verdict::Frozen | Verdict::Fine => {}
    }
    if water < tap {
        ice_rows(mix, tap, water, &balance, units, section, all, &name)?;
    }
    weather(figures, section);
    section.remarks.push(
        "The handbook's is the figure to use; it takes the mean of the temperatures. The balance counts masses and heats and \
         no loss to the bowl; where the two are far apart, measure the dough and correct the friction."
            .to_owned(),
    );
    Ok(())
}

#[allow(clippy::too_many_arguments)] // the figures of one sum
fn ice_rows(
    mix: &Mix,
    tap: Temperature,
    wanted: Temperature,
    balance: &Balance,
    units: Units,
    section: &mut Section,
    all: &mut Sums,
    name: &str,
) -> Result<(), Overflow> {
    section.row("tap", show::temperature(tap, units), tap.celsius(), "°C");
    let ice = ice::handbook(mix.poured, tap, wanted)?;
    if ice > mix.water && wanted >= REFRIGERATOR {
        // Milk takes no ice, but it stands in the cold.
        section.remarks.push(format!(
            "Ice would need more water than there is: take {} cold, from the refrigerator, and let it come to {}.",
            show::list(&mix.liquids),
            degrees(wanted, units)
        ));
        return Ok(());
    }
    if ice > mix.water {
        all.impossible.push(format!(
            "{name}: {} of ice would be needed, more than all its water, {}; cool the flour and the preferment, mix less, or desire a warmer dough",
            show::mass_plain(ice),
            show::mass_plain(mix.water)
        ));
        return Ok(());
    }
    section.row("of the water, ice (handbook)", show::mass_plain(whole_grams(ice)?), ice.value(), "g");
    section.row(
        "of the water, ice (balance of heat)",
        show::mass_plain(whole_grams(balance.ice)?),
        balance.ice.value(),
        "g",
    );
    let rest = mix.water.minus(ice)?;
    section.row("water from the tap beside it", show::mass_plain(whole_grams(rest)?), rest.value(), "g");
    let half = mix.water.over(Number::whole(2))?;
    if ice > half {
        section.remarks.push(
            "More than half of the water is ice: use it crushed, and see that it melts before the mix ends.".to_owned(),
        );
    }
    Ok(())
}

fn whole_grams(mass: Mass) -> Result<Mass, Overflow> {
    mass.value().rounded_to(Number::ONE).map(Mass::new)
}

fn weather(figures: &Figures, section: &mut Section) {
    let warmest = figures.room.max(figures.flour).celsius();
    if warmest >= HOT {
        section.remarks.push(
            "Hot weather: chill the flour or the water the day before, shorten the mix, and watch the dough, not the clock.".to_owned(),
        );
    }
    if figures.room.celsius() <= COLD {
        section
            .remarks
            .push("Cold weather: warm the bowl, keep the dough covered and off stone, and give it time.".to_owned());
    }
}

/// Water for rooms from cold to hot, the flour as warm as the room or as said.
fn table(mix: &Mix, asked: &Asked) -> Result<Table, Overflow> {
    let flour = asked.today.flour;
    let head = match flour {
        Some(at) => vec!["room".to_owned(), format!("water, flour at {}", show::temperature(at, asked.units))],
        None => vec!["room and flour".to_owned(), "water".to_owned()],
    };
    let mut rows = Vec::new();
    for room in ROOMS.map(celsius) {
        let Some(figures) = mix.figures(room, flour.unwrap_or(room), &asked.today) else { continue };
        let water = figures.water()?;
        rows.push(vec![show::temperature(room, asked.units).to_string(), in_table(water, asked.units)]);
    }
    Ok(Table { head, rows })
}

fn in_table(water: Temperature, units: Units) -> String {
    match verdict(water) {
        Verdict::Fine => degrees(water, units),
        Verdict::Frozen => format!("{}: with ice", degrees(water, units)),
        Verdict::KillsYeast => "too hot for yeast: warm the flour".to_owned(),
        Verdict::Boils => "impossible".to_owned(),
    }
}

/// What a card says of the water: the sum for today, or a row of rooms to read off. `None` where there is nothing to say:
/// no desired temperature, no known friction, or a baker who wrote the temperature of every liquid.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn on_card(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    day: &Today,
    units: Units,
) -> Result<Option<String>, Overflow> {
    let Some(found) = mix(recipe, formula, id, day)? else { return Ok(None) };
    let decided = recipe.part(id).is_some_and(|part| {
        let mut liquids = part.lines.iter().filter(|line| crate::figures::sums::mixing::is_liquid(line));
        liquids.all(|line| line.temperature.is_some())
    });
    // One liquid has one temperature on a card: the written one. `miche sums` has the day's.
    if found.friction.is_none() || decided {
        return Ok(None);
    }
    let liquids = show::list(&found.liquids);
    if let Some(room) = day.room {
        let Some(figures) = found.figures(room, day.flour.unwrap_or(room), day) else { return Ok(None) };
        let water = figures.water()?;
        let tap = day.tap.unwrap_or(TAP);
        let ice = ice::handbook(found.poured, tap, water)?;
        let with_ice = match ice {
            ice if ice > found.water && water >= REFRIGERATOR => ", from the refrigerator".to_owned(),
            ice if ice > found.water => ", colder than its water as ice can make it".to_owned(),
            ice if ice > Mass::ZERO && !found.water.value().is_zero() => {
                format!(", of it {} ice (tap {})", show::mass_plain(whole_grams(ice)?), show::temperature(tap, units))
            }
            _ => String::new(),
        };
        let too_hot =
            if matches!(verdict(water), Verdict::KillsYeast | Verdict::Boils) { ", too hot for yeast" } else { "" };
        return Ok(Some(format!(
            "{liquids} at {}{with_ice}{too_hot} (room {}, flour {})",
            degrees(water, units),
            show::temperature(room, units),
            show::temperature(figures.flour, units)
        )));
    }
    let mut cells = Vec::new();
    for room in ROOMS.map(celsius) {
        let Some(figures) = found.figures(room, day.flour.unwrap_or(room), day) else { return Ok(None) };
        let water = figures.water()?;
        let cell = match verdict(water) {
            Verdict::Fine => degrees(water, units),
            Verdict::Frozen => "ice".to_owned(),
            Verdict::KillsYeast | Verdict::Boils => "too hot".to_owned(),
        };
        cells.push(format!("{} → {cell}", show::temperature(room, units)));
    }
    let row = cells.join(", ");
    // The unit once is enough, unless there are two.
    let (row, unit) = match units {
        Units::Metric => (row.replace(" °C", ""), ", °C"),
        Units::Us => (row.replace(" °F", ""), ", °F"),
        Units::Both => (row, ""),
    };
    Ok(Some(format!("{liquids} by room and flour{unit}: {row}")))
}
