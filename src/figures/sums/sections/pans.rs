//! Pieces against the tin they bake in, another tin, and what they weigh when they are baked.

use crate::figures::sums::tables::{Asked, Section, Sums};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::pan::{Pan, room_for};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

pub(super) fn section(recipe: &Recipe, formula: &Formula, asked: &Asked, all: &mut Sums) -> Result<(), Overflow> {
    let Some(each) = formula.piece_weight(recipe)? else { return Ok(()) };
    let mut section = Section::new("Pieces and tins", &topic::PANS);
    section.row("a piece before baking", show::mass_plain(each), each.value(), "g");
    let own = recipe.final_part().and_then(|id| recipe.part(id)).and_then(|part| part.pan);
    let pan = recipe.pan.or(own).map(|baked_in| baked_in.pan);
    if let Some(pan) = pan {
        fill(pan, each, asked.units, &mut section)?;
    }
    match (pan, asked.tin) {
        (Some(from), Some(to)) => match from.factor_to(to)? {
            Some(factor) => {
                let there = each.times(factor)?;
                let whole = there.value().rounded_to(Number::ONE)?;
                section.row(format!("a piece for {}", in_words(to, asked.units)), show::mass_plain(Mass::new(whole)), there.value(), "g");
                section.row("for as many pieces, the batch times", Shown::new(factor.decimal(3), ""), factor, "");
            }
            None => all.impossible.push(
                "the two tins cannot be compared: one has only an area and the other only a volume; give `--tin` with all its measures"
                    .to_owned(),
            ),
        },
        (None, Some(_)) => all.impossible.push(
            "the recipe does not say its own tin, so nothing can be scaled from it: write `makes 2 loaves, tin 23 cm x 13 cm x 7 cm`".to_owned(),
        ),
        (_, None) => {}
    }
    if let Some(loss) = asked.bake_loss.or(recipe.bake_loss) {
        let baked = each.share(loss.rest()?)?;
        section.row("lost in the oven", show::percent(loss), loss.percent()?, "%");
        section.row(
            "a piece when baked",
            show::mass_plain(Mass::new(baked.value().rounded_to(Number::ONE)?)),
            baked.value(),
            "g",
        );
        if let Some(pieces) = formula.pieces {
            let total = baked.times(pieces.value())?;
            section.row(
                "all of them, baked",
                show::mass_plain(Mass::new(total.value().rounded_to(Number::ONE)?)),
                total.value(),
                "g",
            );
        }
    }
    if section.rows.len() > 1 {
        all.sections.push(section);
    }
    Ok(())
}

fn fill(pan: Pan, each: Mass, units: Units, section: &mut Section) -> Result<(), Overflow> {
    let of = in_words(pan, units);
    if let Some(volume) = pan.volume()? {
        let litres = volume.over(Number::whole(1_000_000))?;
        section.row(format!("{of} holds"), Shown::new(litres.decimal(2), "l"), litres, "l");
        let per_litre = each.value().over(litres)?;
        section.row("dough for each litre of tin", Shown::new(per_litre.decimal(0), "g"), per_litre, "g/l");
        let room = room_for(each, volume)?;
        section.row("tin for each gram of dough", Shown::new(room.decimal(2), "ml"), room, "ml/g");
    } else if let Some(area) = pan.area()? {
        let square = area.over(Number::whole(100))?;
        section.row(format!("area of {of}"), Shown::new(square.decimal(0), "cm²"), square, "cm²");
        let load = each.value().over(square)?;
        section.row("dough for each square centimetre", Shown::new(load.decimal(2), "g"), load, "g/cm²");
    }
    Ok(())
}

/// `a tin of 23 cm × 13 cm × 7 cm`.
pub(crate) fn in_words(pan: Pan, units: Units) -> String {
    let length = |value| show::length(value, units);
    match pan {
        Pan::Tin(long, wide, high) => format!("a tin of {} × {} × {}", length(long), length(wide), length(high)),
        Pan::Holds(volume) => format!("a tin of {}", show::volume(volume)),
        Pan::Round(across, None) => format!("a round of {}", length(across)),
        Pan::Round(across, Some(high)) => format!("a round of {} × {}", length(across), length(high)),
        Pan::Sheet(long, wide) => format!("a sheet of {} × {}", length(long), length(wide)),
    }
}
