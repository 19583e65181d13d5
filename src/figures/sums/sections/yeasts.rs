//! The yeast of a recipe in its other forms.

use crate::figures::sums::tables::{Section, Sums};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::kind::YeastForm;
use crate::model::recipe::Recipe;
use crate::model::yeast::convert;
use crate::solve::formula::Formula;

pub(super) fn section(recipe: &Recipe, formula: &Formula, units: Units, all: &mut Sums) -> Result<(), Overflow> {
    let mut section = Section::new("Yeast in other forms", &topic::YEAST);
    for (id, _) in formula.made(recipe) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let (Some(form), Some(mass)) = (line.kind.yeast_form(), amount.final_mix) else { continue };
            if mass == Mass::ZERO {
                continue;
            }
            let tenth = |mass: Mass| mass.value().rounded_to(Number::constant(1, 10)).map(Mass::new);
            for other in YeastForm::ALL.into_iter().filter(|other| *other != form) {
                let instead = convert(mass, form, other)?;
                let what = format!("{}: {} of {} =", part.name, shown(tenth(mass)?, units), form.word());
                section.row(
                    what,
                    format!("{} of {}", of_this(tenth(instead)?, instead, units), other.word()),
                    instead.value(),
                    "g",
                );
            }
        }
    }
    if section.rows.is_empty() {
        return Ok(());
    }
    section.remarks.push(
        "Fresh yeast is two thirds water: pour that much less, about 0.7 g for each gram of fresh yeast, and as much more the other way."
            .to_owned(),
    );
    all.sections.push(section);
    Ok(())
}

fn shown(mass: Mass, units: Units) -> Shown {
    show::mass(mass, units)
}

/// What is weighed instead: in ounces to a hundredth, since a quarter of an ounce is a whole packet of yeast.
fn of_this(tenth: Mass, exact: Mass, units: Units) -> Shown {
    match units {
        Units::Metric => show::mass_plain(tenth),
        Units::Us => show::mass_us_within(exact, FINE),
        Units::Both => show::mass_plain(tenth).also(show::mass_us_within(exact, FINE)),
    }
}

/// Yeast is off by no more than this.
const FINE: Number = Number::constant(1, 100);
