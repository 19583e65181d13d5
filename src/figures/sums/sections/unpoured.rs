//! A dough into which nothing is poured: what goes in decides how warm it becomes, and nobody can pour it right.

use super::mixes::{degrees, difference, is_off, rooms};
use crate::figures::sums::tables::{Asked, Section, Sums, Table};
use crate::figures::sums::topic;
use crate::make::mix::pour::{Method, unpoured_dough};
use crate::make::mix::{Mix, Today, parts_taken, unpoured};
use crate::measure::number::Overflow;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;

/// How warm the dough of a part becomes, beside what is desired; nothing where something is poured.
pub(super) fn section(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    asked: &Asked,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let Some((part, mix)) = recipe.part(id).zip(unpoured(recipe, formula, id, &asked.today)?) else { return Ok(()) };
    let units = asked.units;
    let mut section = Section::new(format!("Warmth of {}", part.name), &topic::WATER_TEMPERATURE);
    section.row("dough after mixing", show::temperature(mix.desired, units), mix.desired.celsius(), "°C");
    let Some((friction, whose)) = &mix.friction else {
        section.remarks.push(super::mixes::NO_FRICTION.to_owned());
        all.sections.push(section);
        return Ok(());
    };
    section.row(format!("friction{}", whose.word()), difference(friction.celsius(), units), friction.celsius(), "°C");
    match asked.today.room {
        Some(room) => {
            let flour = asked.today.flour.unwrap_or(room);
            section.row("room", show::temperature(room, units), room.celsius(), "°C");
            section.row("flour", show::temperature(flour, units), flour.celsius(), "°C");
            for (name, at) in parts_taken(recipe, formula, &mix) {
                section.row(name.to_owned(), show::temperature(at, units), at.celsius(), "°C");
            }
            if let Some(dough) = unpoured_dough(recipe, formula, &mix, (room, flour), &asked.today)? {
                let by = Method::Balance.name();
                section.row(format!("dough, by {by}"), degrees(dough, units), dough.celsius(), "°C");
                if is_off(dough, mix.desired) {
                    section.remarks.push(format!(
                        "The dough comes to {} today and not to {}: {}.",
                        degrees(dough, units),
                        show::temperature(mix.desired, units),
                        helps(dough, mix.desired)
                    ));
                }
            }
        }
        None => {
            let of_rooms = by_room(recipe, formula, &mix, &asked.today, units)?;
            let head = ["room and flour".to_owned(), format!("dough, by {}", Method::Balance.name())].to_vec();
            let rows = of_rooms
                .into_iter()
                .map(|(room, dough)| [show::temperature(room, units), degrees(dough, units)].to_vec());
            section.table = Some(Table { head, rows: rows.collect() });
        }
    }
    section.remarks.push(
        "Nothing is poured at this mix, so that its dough is as warm as what goes in and the mixing make it."
            .to_owned(),
    );
    all.sections.push(section);
    Ok(())
}

/// What makes up for it.
fn helps(dough: Temperature, desired: Temperature) -> &'static str {
    if dough < desired {
        "warm the flour or what else goes in, or let it rise for longer"
    } else {
        "cool the flour or what else goes in, or mix less"
    }
}

/// In rooms from cold to hot, with the flour as warm.
fn by_room(
    recipe: &Recipe,
    formula: &Formula,
    mix: &Mix,
    day: &Today,
    units: Units,
) -> Result<Vec<(Temperature, Temperature)>, Overflow> {
    let mut all = Vec::new();
    for room in rooms(units)? {
        let dough = unpoured_dough(recipe, formula, mix, (room, day.flour.unwrap_or(room)), day)?;
        all.extend(dough.map(|dough| (room, dough)));
    }
    Ok(all)
}

/// What a card says of it: the dough of the day, or of a row of rooms.
pub(super) fn on_card(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    day: &Today,
    units: Units,
) -> Result<Option<String>, Overflow> {
    let Some(mix) = unpoured(recipe, formula, id, day)?.filter(|mix| mix.friction.is_some()) else { return Ok(None) };
    let (by, desired) = (Method::Balance.name(), show::temperature(mix.desired, units));
    Ok(Some(match day.room {
        Some(room) => {
            let flour = day.flour.unwrap_or(room);
            let Some(dough) = unpoured_dough(recipe, formula, &mix, (room, flour), day)? else { return Ok(None) };
            format!(
                "nothing is poured: the dough comes to {} by {by}, and {desired} is desired (room {}, flour {})",
                degrees(dough, units),
                show::temperature(room, units),
                show::temperature(flour, units)
            )
        }
        None => {
            let row: Vec<String> = by_room(recipe, formula, &mix, day, units)?
                .into_iter()
                .map(|(room, dough)| format!("{} → {}", show::temperature(room, units), degrees(dough, units)))
                .collect();
            format!("nothing is poured: the dough by room and flour, by {by}: {}; {desired} is desired", row.join(", "))
        }
    }))
}
