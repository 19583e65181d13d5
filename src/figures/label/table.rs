//! The rows of a nutrition table, by each law, and what is not known in them.

use super::Label;
use super::nutrition::{Sum, Unweighed};
use super::rounding;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::model::allergen::Law;
use crate::model::nutrient::Nutrient;

/// How a figure is rounded.
pub type Round = fn(Number) -> Result<String, Overflow>;

/// What a figure lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gap {
    /// Nothing that could be read.
    None,
    /// The figures of ingredients of next to nothing, within what is tolerated anyway.
    Trace,
    /// Those of ingredients that are a small part of the whole: it is at least so much.
    Small,
    /// Those of more than a twentieth of the weight: what is left to add up says nothing.
    Large,
}

/// Which share of the weight as sold may lack figures. Common practice, no source.
const LARGE: Proportion = Proportion::new(Number::constant(1, 20));

/// Which share may lack figures without a word in the table: a gram in 100 g, of whatever it is. The EU guidance on tolerances of
/// December 2012 lets a declared fat be 1.5 g off and more, the others 2 g and more (from memory); salt is held closer.
pub const TRACE: Proportion = Proportion::new(Number::constant(1, 100));

/// One figure of a row: of the batch.
#[derive(Debug, Clone)]
pub struct Figure {
    /// Without what is not known.
    pub least: Number,
    /// With the most that it can bring.
    pub most: Number,
    /// Which ingredients lack it.
    pub missing: Vec<String>,
    /// Which fats stay in it by a weight that nobody says.
    pub fried_in: Vec<String>,
    /// Which bring some of it by no weight.
    pub unweighed: Unweighed,
    /// Whether a ferment lives on it, so that less of it is left than went in.
    pub is_eaten: bool,
    /// How it is rounded.
    pub round: Round,
    /// What stands behind it.
    pub unit: &'static str,
}

/// How much of a nutrient is enough for a day, by which a share is told.
#[derive(Debug, Clone, Copy)]
pub struct Daily {
    /// In the unit of the row.
    pub amount: Number,
    /// How the share is rounded.
    pub round: Round,
}

/// A row of the table.
#[derive(Debug, Clone)]
pub struct Row {
    /// As the law calls it.
    pub name: &'static str,
    /// How deep it stands below another.
    pub depth: usize,
    /// Its figures: energy has two.
    pub figures: Vec<Figure>,
    /// Its daily value, in the United States.
    pub daily: Option<Daily>,
}

impl Row {
    fn new(name: &'static str, depth: usize, figure: Figure) -> Row {
        Row { name, depth, figures: vec![figure], daily: None }
    }

    /// No more than another figure of which it is a part: carbohydrate is what is left of 100 and has the errors of all the others, and
    /// sugars are measured.
    fn within(mut self, whole: &Figure) -> Row {
        for figure in &mut self.figures {
            figure.least = figure.least.min(whole.least);
            figure.most = figure.most.min(whole.most);
        }
        self
    }

    fn of_the_day(self, amount: i64, round: Round) -> Row {
        Row { daily: Some(Daily { amount: Number::whole(amount), round }), ..self }
    }
}

impl Figure {
    /// What it lacks when the batch's figure is taken so many times; a figure that rounds to the same with and without what is not known
    /// lacks nothing.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn gap(&self, label: &Label, factor: Number) -> Result<Gap, Overflow> {
        if self.unweighed.is_most || self.is_eaten || label.is_table_of_drained() {
            return Ok(Gap::Large);
        }
        let open = self.gap_of_weighed(label, factor)?;
        Ok(if open != Gap::Large && !self.unweighed.names.is_empty() { Gap::Small } else { open })
    }

    /// Whether the most that there can be is less than is told, `<0.5 g`, where not all of it is known.
    fn is_below_what_is_told(&self, most: &str) -> bool {
        let is_open = !self.missing.is_empty() || !self.fried_in.is_empty();
        is_open && self.unweighed.names.is_empty() && most.starts_with('<')
    }

    /// The same of what goes in by weight.
    fn gap_of_weighed(&self, label: &Label, factor: Number) -> Result<Gap, Overflow> {
        if self.missing.is_empty() && self.fried_in.is_empty() {
            return Ok(Gap::None);
        }
        let (least, most) = (self.least.times(factor)?, self.most.times(factor)?);
        let shown = (self.round)(most)?;
        if (self.round)(least)? == shown || self.is_below_what_is_told(&shown) {
            return Ok(Gap::None);
        }
        let lacking = label.weight_of(&self.missing)?;
        // What is known is less than two thirds of what it may be: it says nothing.
        let says_little = least.times(Number::whole(3))? < most.times(Number::whole(2))?;
        Ok(if lacking > label.net.share(LARGE)? && says_little {
            Gap::Large
        } else if self.fried_in.is_empty()
            && lacking <= label.net.share(TRACE)?
            && self.may_lack(label.law, least, most)?
        {
            Gap::Trace
        } else {
            Gap::Small
        })
    }

    /// Whether what next to nothing of the weight brings is within what is tolerated. In the United States a sum may be a fifth above what is
    /// declared: 21 CFR 101.9(g)(5), `greater than 20 percent in excess of the value declared on the label`, as public notes on labels quote it (seen).
    fn may_lack(&self, law: Law, least: Number, most: Number) -> Result<bool, Overflow> {
        Ok(match law {
            Law::Eu => self.unit != SALT,
            Law::Us => most.times(Number::whole(5))? <= least.times(Number::whole(6))?,
        })
    }

    /// The figure as it is printed, of so many times the batch's.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn shown(&self, label: &Label, factor: Number) -> Result<String, Overflow> {
        let mut figure = (self.round)(self.least.times(factor)?)?;
        // What is known to be less than is told says so, though none of it is known.
        let most = (self.round)(self.most.times(factor)?)?;
        if self.is_below_what_is_told(&most) {
            figure = most;
        }
        let unit = self.unit.trim();
        Ok(match self.gap(label, factor)? {
            Gap::Large => "not known".to_owned(),
            // At least nothing, or at least less than a half, is not to be read: what is known of it is.
            Gap::Small if says_nothing(&figure) => match little(self.least.times(factor)?)? {
                Some(least) => format!("at least {least} {unit}").trim_end().to_owned(),
                None => "not known".to_owned(),
            },
            Gap::Small => format!("at least {figure} {unit}").trim_end().to_owned(),
            Gap::None | Gap::Trace => format!("{figure} {unit}").trim_end().to_owned(),
        })
    }
}

/// A little that the law's rounding makes nothing, rounded down to its first digit; nothing where that is less than a hundredth.
fn little(least: Number) -> Result<Option<String>, Overflow> {
    for places in [0_u32, 1, 2] {
        let times = Number::whole(10_i64.pow(places));
        let shown = least.times(times)?.floor();
        if shown.is_positive() {
            return Ok(Some(shown.over(times)?.decimal(places)));
        }
    }
    Ok(None)
}

/// Whether a printed figure is nothing, or less than so much.
fn says_nothing(figure: &str) -> bool {
    figure.starts_with(['<', 'l']) || figure.chars().all(|sign| matches!(sign, '0' | '.'))
}

impl Row {
    /// The row's figures as they are printed, of so many times the batch's; `not known` once.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn shown(&self, label: &Label, factor: Number) -> Result<String, Overflow> {
        let mut shown: Vec<String> = Vec::new();
        for figure in &self.figures {
            let one = figure.shown(label, factor)?;
            if !shown.contains(&one) {
                shown.push(one);
            }
        }
        Ok(shown.join(" / "))
    }

    /// The share of the daily value as it is printed; empty where there is none or the figure is not known.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn share_of_day(&self, label: &Label, factor: Number) -> Result<String, Overflow> {
        let (Some(daily), Some(figure)) = (self.daily, self.figures.first()) else { return Ok(String::new()) };
        if figure.shown(label, factor)? == "not known" {
            return Ok(String::new());
        }
        // Of what is declared as nothing nothing is the share, which may be reckoned from either: 21 CFR 101.9(d)(7)(ii).
        if (figure.round)(figure.least.times(factor)?)? == "0" {
            return Ok("0%".to_owned());
        }
        let percent = figure.least.times(factor)?.times(Number::whole(100))?.over(daily.amount)?;
        Ok(format!("{}%", (daily.round)(percent)?))
    }
}

/// The unit of salt, by which its row is told from the other grams: salt has no tolerance for what is missing.
const SALT: &str = "g ";

/// What a ferment lives on: nobody knows how much of it is left.
fn is_eaten(nutrient: Nutrient) -> bool {
    matches!(
        nutrient,
        Nutrient::Carbohydrate | Nutrient::AvailableCarbohydrate | Nutrient::Sugars | Nutrient::AddedSugars
    )
}

fn figure(sum: &Sum, times: i64, round: Round, unit: &'static str) -> Result<Figure, Overflow> {
    let factor = Number::whole(times);
    let (missing, fried_in, unweighed) = (sum.missing.clone(), sum.fried_in.clone(), sum.unweighed.clone());
    let (least, most) = (sum.amount.times(factor)?, sum.most.times(factor)?);
    Ok(Figure { least, most, missing, fried_in, unweighed, is_eaten: false, round, unit })
}

/// The rows that the label's law wants, in its order.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn rows(label: &Label) -> Result<Vec<Row>, Overflow> {
    let of = |nutrient, times, round, unit| -> Result<Figure, Overflow> {
        let mut figure = figure(label.nutrition.sum(nutrient).unwrap_or(&Sum::none(nutrient)), times, round, unit)?;
        figure.is_eaten = label.ferments && is_eaten(nutrient) && figure.most.is_positive();
        Ok(figure)
    };
    let row = |name, depth, nutrient, round: Round, unit| -> Result<Row, Overflow> {
        Ok(Row::new(name, depth, of(nutrient, 1, round, unit)?))
    };
    let has_polyols = label.nutrition.sum(Nutrient::Polyols).is_some_and(|sum| sum.amount.is_positive());
    if label.law == Law::Us {
        // The larder's salt is sodium x 2.5, so a gram of it is 400 mg of sodium.
        let sodium = Row::new("sodium", 0, of(Nutrient::Salt, 400, rounding::us_sodium, "mg")?);
        let (whole, trace): (Round, Round) = (rounding::us_daily, rounding::us_daily_trace);
        let grams: Round = rounding::us_grams;
        // Daily values: 101.9(c)(8)(iv) and (c)(9), as UpToDate, Daily values for nutrients, prints them (seen; of added sugars it has mg for g).
        let carbohydrate = of(Nutrient::Carbohydrate, 1, grams, "g")?;
        let mut rows = vec![
            row("calories", 0, Nutrient::Energy, rounding::us_calories, "")?,
            row("total fat", 0, Nutrient::Fat, rounding::us_fat, "g")?.of_the_day(78, whole),
            row("saturated fat", 1, Nutrient::Saturates, rounding::us_fat, "g")?.of_the_day(20, whole),
            row("trans fat", 1, Nutrient::TransFat, rounding::us_fat, "g")?,
            row("cholesterol", 0, Nutrient::Cholesterol, rounding::us_cholesterol, "mg")?.of_the_day(300, whole),
            sodium.of_the_day(2300, whole),
            row("total carbohydrate", 0, Nutrient::Carbohydrate, grams, "g")?.of_the_day(275, whole),
            row("dietary fiber", 1, Nutrient::Fibre, grams, "g")?.of_the_day(28, whole),
            row("total sugars", 1, Nutrient::Sugars, grams, "g")?.within(&carbohydrate),
            row("added sugars", 2, Nutrient::AddedSugars, grams, "g")?.within(&carbohydrate).of_the_day(50, whole),
            row("protein", 0, Nutrient::Protein, grams, "g")?,
            row("vitamin D", 0, Nutrient::VitaminD, rounding::us_tenths, "mcg")?.of_the_day(20, trace),
            row("calcium", 0, Nutrient::Calcium, rounding::us_tens, "mg")?.of_the_day(1300, trace),
            row("iron", 0, Nutrient::Iron, rounding::us_tenths, "mg")?.of_the_day(18, trace),
            row("potassium", 0, Nutrient::Potassium, rounding::us_tens, "mg")?.of_the_day(4700, trace),
        ];
        // 21 CFR 101.9(c)(6)(iv): of one's own will, and a must beside `sugar-free`.
        if has_polyols && let Some(at) = rows.iter().position(|row| row.name == "protein") {
            rows.insert(at, row("sugar alcohol", 1, Nutrient::Polyols, grams, "g")?);
        }
        return Ok(rows);
    }
    let grams: Round = rounding::eu_grams;
    let kilojoules = of(Nutrient::Kilojoules, 1, rounding::eu_energy, "kJ")?;
    let kilocalories = of(Nutrient::Kilocalories, 1, rounding::eu_energy, "kcal")?;
    let mut rows = vec![
        Row { name: "energy", depth: 0, figures: vec![kilojoules, kilocalories], daily: None },
        row("fat", 0, Nutrient::Fat, grams, "g")?,
        row("of which saturates", 1, Nutrient::Saturates, rounding::eu_saturates, "g")?,
        row("carbohydrate", 0, Nutrient::AvailableCarbohydrate, grams, "g")?,
        row("of which sugars", 1, Nutrient::Sugars, grams, "g")?,
    ];
    if has_polyols {
        rows.push(row("of which polyols", 1, Nutrient::Polyols, grams, "g")?);
    }
    rows.push(row("fibre", 0, Nutrient::Fibre, grams, "g")?);
    rows.push(row("protein", 0, Nutrient::GrossProtein, grams, "g")?);
    rows.push(row("salt", 0, Nutrient::Salt, rounding::eu_salt, SALT)?);
    Ok(rows)
}
