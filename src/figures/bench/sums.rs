//! All bench sums of a recipe, gathered for print.

use super::mixing::Today;
use super::{levain, makeup, mixing, ripeness, topic};
use crate::measure::number::{Number, Overflow};
use crate::measure::pan::Pan;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show::Units;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;

mod levains;
mod mixes;
mod pans;
mod preserves;
mod yeasts;

pub use mixes::on_card;
pub(crate) use pans::piece;

/// What was asked for besides the recipe.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Asked {
    /// The day's temperatures.
    pub today: Today,
    /// A levain to build: so much, from so much seed, in so many feeds, so long apart.
    pub levain: Option<LevainAsked>,
    /// Another tin to scale to.
    pub tin: Option<Pan>,
    /// The bake loss, in place of the recipe's.
    pub bake_loss: Option<Proportion>,
    /// Other times for steps: the step's name as in the recipe, and how long.
    pub rests: Vec<(String, Duration)>,
    /// Units to print in.
    pub units: Units,
}

/// A levain to build.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LevainAsked {
    /// How much; what the recipe takes when nothing is said.
    pub needed: Option<Mass>,
    /// The seed that there is.
    pub seed: Mass,
    /// How many feeds.
    pub feeds: u32,
    /// Water on flour.
    pub hydration: Proportion,
    /// When it is to be ripe.
    pub ready: Option<jiff::civil::DateTime>,
    /// How long one feed takes to ripen, in whole minutes.
    pub every_minutes: i64,
}

/// All sums of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sums {
    /// The recipe's name.
    pub recipe: String,
    /// Section after section.
    pub sections: Vec<Section>,
    /// What can hurt, and what no sum replaces.
    pub cautions: Vec<String>,
    /// Figures that cannot be: each a sentence that says what is impossible.
    pub impossible: Vec<String>,
}

/// The sums of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// What it is about: `Water for dough`.
    pub title: String,
    /// The topic that `miche explain` tells more of.
    pub topic: &'static str,
    /// Its figures.
    pub rows: Vec<Row>,
    /// A table to read off.
    pub table: Option<Table>,
    /// What is to be kept in mind.
    pub remarks: Vec<String>,
}

/// One figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// What it is.
    pub what: String,
    /// As printed.
    pub shown: String,
    /// The figure before it was rounded for print.
    pub figure: Option<Number>,
    /// Its unit: `g`, `°C`, `%`, `h`, or empty for a plain number.
    pub unit: &'static str,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Over its columns.
    pub head: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

impl Section {
    pub(super) fn new(title: impl Into<String>, topic: &'static topic::Topic) -> Section {
        Section { title: title.into(), topic: topic.name, rows: Vec::new(), table: None, remarks: Vec::new() }
    }

    pub(super) fn row(
        &mut self,
        what: impl Into<String>,
        shown: impl Into<String>,
        figure: Number,
        unit: &'static str,
    ) {
        self.rows.push(Row { what: what.into(), shown: shown.into(), figure: Some(figure), unit });
    }
}

/// Another choice of the same recipe, at the same size.
pub struct Version<'a> {
    /// Its options: `hand`.
    pub name: String,
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its amounts.
    pub formula: &'a Formula,
}

/// Works out all sums of a recipe. `versions` are all its choices, the chosen one among them.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn sums(recipe: &Recipe, formula: &Formula, versions: &[Version<'_>], asked: &Asked) -> Result<Sums, Overflow> {
    let mut all =
        Sums { recipe: recipe.name.to_string(), sections: Vec::new(), cautions: Vec::new(), impossible: Vec::new() };
    for id in made(recipe, formula) {
        if let Some(mix) = mixing::mix(recipe, formula, id, &asked.today)? {
            mixes::section(recipe, formula, &mix, asked, &mut all)?;
        }
    }
    yeasts::section(recipe, formula, asked.units, &mut all)?;
    if let Some(levain) = &asked.levain {
        levains::section(recipe, formula, levain, asked.units, &mut all)?;
    }
    ripeness::section(versions, asked, &mut all)?;
    pans::section(recipe, formula, asked, &mut all)?;
    makeup::section(recipe, formula, asked.units, &mut all)?;
    preserves::sections(recipe, formula, &mut all)?;
    Ok(all)
}

/// The parts of which something is made.
pub(super) fn made(recipe: &Recipe, formula: &Formula) -> Vec<PartId> {
    let is_made = |id: &PartId| formula.part(*id).is_some_and(|part| part.is_made);
    recipe.parts().map(|(id, _)| id).filter(is_made).collect()
}

impl From<levain::NoSchedule> for String {
    fn from(why: levain::NoSchedule) -> String {
        match why {
            levain::NoSchedule::Impossible => "a levain needs some seed, some water and from 1 to 12 feeds".to_owned(),
            levain::NoSchedule::EnoughAlready => {
                "there is as much seed as levain is needed: nothing is to be built, or say less `--seed`".to_owned()
            }
            levain::NoSchedule::TooSteep => {
                "each feed would have to multiply the levain by more than 20: say more `--feeds` or more `--seed`"
                    .to_owned()
            }
            levain::NoSchedule::TooLarge => "a levain of that size leaves the range of exact numbers".to_owned(),
        }
    }
}
