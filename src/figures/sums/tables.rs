//! What sums are asked for and what they are gathered in: sections of figures, and tables to read off.

use super::topic;
use crate::make::mix::Today;
use crate::measure::number::Number;
use crate::measure::pan::Pan;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show::Units;
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

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
    /// Other temperatures for steps: the step's name likewise, and how warm.
    pub places: Vec<(String, Temperature)>,
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
    /// Options that ask this recipe for what cannot be: each a sentence that says why.
    pub asked_in_vain: Vec<String>,
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
    pub shown: Shown,
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
    /// Its rows: a name or a time, and figures.
    pub rows: Vec<Vec<Shown>>,
}

impl Table {
    /// Its rows as they are printed.
    pub fn cells(&self) -> Vec<Vec<String>> {
        self.rows.iter().map(|row| row.iter().map(Shown::to_string).collect()).collect()
    }
}

impl Section {
    pub(super) fn new(title: impl Into<String>, topic: &'static topic::Topic) -> Section {
        Section { title: title.into(), topic: topic.name, rows: Vec::new(), table: None, remarks: Vec::new() }
    }

    pub(super) fn row(&mut self, what: impl Into<String>, shown: impl Into<Shown>, figure: Number, unit: &'static str) {
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
