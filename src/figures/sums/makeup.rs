//! What every part and the whole consist of, and the real hydration and salt beside what the formula seems to say.

use super::tables::{Section, Sums, Table};
use super::topic;
use crate::make::mix;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::kind::Kind;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::solve::formula::{Composition, Formula, OnFlour, SolvedPart, composition, fed};
use std::collections::HashMap;

/// The shares on flour as they are read off the lines: liquids as if they were all water, salt as the lines called salt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nominal {
    /// Water, milk and their like on flour.
    pub hydration: Option<Proportion>,
    /// Lines that are salt on flour.
    pub salt: Option<Proportion>,
}

/// Works out the nominal shares of a part, the parts in it counted.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn nominal(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Nominal, Overflow> {
    let (liquid, salt) = Poured { recipe, formula, known: HashMap::new() }.of(id, 0)?;
    let flour = formula.part(id).map_or(Mass::ZERO, |part| part.composition.flour);
    let on_flour = |mass: Mass, all: Mass| if flour > Mass::ZERO { mass.as_share_of(all).map(Some) } else { Ok(None) };
    // Salt is on the flour of a kept leaven too, wherever it stands; what is poured is on the flour that is, by the lines.
    let all = formula.part(id).map_or(Ok(flour), |part| part.composition.all_flour())?;
    Ok(Nominal { hydration: on_flour(liquid, flour)?, salt: on_flour(salt, all)? })
}

/// The liquid and the salt of the lines, with those of the parts in it.
struct Poured<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    /// Of parts that were asked already: of parts that share parts there are more ways down than anybody has time for.
    known: HashMap<PartId, (Mass, Mass)>,
}

impl Poured<'_> {
    /// Of a whole part.
    fn of(&mut self, id: PartId, depth: usize) -> Result<(Mass, Mass), Overflow> {
        if let Some(known) = self.known.get(&id) {
            return Ok(*known);
        }
        let found = self.look(id, depth)?;
        self.known.insert(id, found);
        Ok(found)
    }

    fn look(&mut self, id: PartId, depth: usize) -> Result<(Mass, Mass), Overflow> {
        let (mut liquid, mut salt) = (Mass::ZERO, Mass::ZERO);
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else {
            return Ok((liquid, salt));
        };
        // A ring of parts was reported and has no amounts; the depth only keeps it from hanging.
        if depth > self.recipe.parts.len() {
            return Ok((liquid, salt));
        }
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let Some(mass) = amount.mass.filter(|_| line.stays_in()) else { continue };
            match line.refers {
                Refers::Part(other) => {
                    let made = self.formula.part(other).filter(|part| part.comes_out.total > Mass::ZERO);
                    let Some(made) = made else { continue };
                    let taken = mass.ratio(made.comes_out.total)?;
                    let (more, salty) = self.of(other, depth + 1)?;
                    // What has left the part as water is not poured any more.
                    let gone = made.composition.water.minus(made.comes_out.water)?;
                    liquid = liquid.plus(more.minus(gone.min(more))?.times(taken)?)?;
                    salt = salt.plus(salty.times(taken)?)?;
                }
                Refers::Pantry(_) if mix::is_liquid(line) => liquid = liquid.plus(mass)?,
                Refers::Pantry(_) if line.kind == Kind::Salt => salt = salt.plus(mass)?,
                Refers::Pantry(_) => {}
            }
        }
        Ok((liquid, salt))
    }
}

pub(super) fn section(recipe: &Recipe, formula: &Formula, units: Units, all: &mut Sums) -> Result<(), Overflow> {
    let parts: Vec<(PartId, &Part)> = formula.made(recipe).collect();
    let mut section = Section::new("What it consists of", &topic::COMPOSITION);
    let head = ["part", "flour", "water", "fat", "salt", "sugar", "all of it"].map(str::to_owned).to_vec();
    let mut rows = Vec::new();
    let (mut unknown, mut leavens): (Vec<String>, Vec<String>) = Default::default();
    for (id, part) in &parts {
        let Some(solved) = formula.part(*id) else { continue };
        let makeup = solved.composition;
        rows.push(row(&part.name.to_string(), solved, units)?);
        let weighs = |mass: Option<Mass>| mass.is_some_and(|mass| makeup.is_much(mass));
        let open = part.lines.iter().zip(&solved.lines).filter(|(line, amount)| {
            let no_entry = matches!(line.refers, Refers::Pantry(None));
            line.stays_in() && composition::is_unknown(line) && (no_entry || weighs(amount.mass))
        });
        unknown.extend(open.map(|(line, _)| line.name.to_string()));
        let fed = part.lines.iter().zip(&solved.lines).filter(|(line, amount)| {
            line.stays_in() && fed::is_fed(line) && !fed::is_known(line) && weighs(amount.mass)
        });
        leavens.extend(fed.map(|(line, _)| line.name.to_string()));
    }
    if rows.is_empty() {
        return Ok(());
    }
    section.table = Some(Table { head, rows });
    for (id, part) in &parts {
        on_flour(recipe, formula, *id, part, &mut section)?;
    }
    section.remarks.push(
        "A part that others draw on is counted again in them. Flour is counted as it comes, its own moisture in it."
            .to_owned(),
    );
    if !leavens.is_empty() {
        leavens.sort();
        leavens.dedup();
        section.remarks.push(format!(
            "Half of {} is counted as flour and half as water, as a label takes it, so what is counted on flour is about this: how it was \
             fed nobody says. Written as a part with its formula, or with its `water` in a larder, it counts as what it is.",
            show::list(&leavens)
        ));
    }
    if !unknown.is_empty() {
        unknown.sort();
        unknown.dedup();
        let unknown = show::list(&unknown);
        section.remarks.push(format!(
            "The larder does not know what is in {unknown}: it counts as nothing, so water, fat, salt and sugar are at least this."
        ));
    }
    all.sections.push(section);
    Ok(())
}

/// The column of salt.
const SALT: usize = 3;

/// Whether the salt that may be in a part besides, that of a brine, would be seen in its figure: salt is little, and a hundredth of all is
/// half as much again.
fn salts(makeup: &Composition) -> Result<bool, Overflow> {
    Ok(makeup.unknown.salt > makeup.salt.times(Number::constant(1, 10))?
        && makeup.unknown.salt > makeup.total.times(Number::constant(1, 100))?)
}

fn row(name: &str, solved: &SolvedPart, units: Units) -> Result<Vec<Shown>, Overflow> {
    let mut cells = vec![Shown::words(name)];
    let makeup = &solved.composition;
    let (none, unknown) = (Mass::ZERO, makeup.unknown);
    let columns = [
        (makeup.all_flour()?, none),
        (makeup.water, unknown.water),
        (makeup.fat, unknown.fat),
        (makeup.salt, unknown.salt),
        (makeup.sugar, unknown.sugar),
        (makeup.total, none),
    ];
    for (at, (mass, unknown)) in columns.into_iter().enumerate() {
        // A line without a weight may be anything but flour, which its name says; a leaven is flour too.
        let is_open = solved.goes_in.is_none() && (at > 0 || makeup.is_flour_open);
        let is_least = makeup.is_much(unknown) || is_open || (at == SALT && salts(makeup)?);
        let rounded = Mass::new(mass.value().rounded_to(Number::ONE)?);
        let shown = match units {
            // Less than half a gram is nothing here, in whatever unit.
            Units::Us if rounded == Mass::ZERO => show::mass_us(Mass::ZERO),
            Units::Us => show::mass_us(mass),
            units => show::mass(rounded, units),
        };
        let is_about = at < 2 && makeup.is_much(makeup.unknown.fed);
        cells.push(shown.bound(match (is_least, is_about) {
            (true, true) => "at least about",
            (true, false) => "at least",
            (false, true) => "about",
            (false, false) => "",
        }));
    }
    Ok(cells)
}

/// Real and nominal shares on flour of a part with flour that is mixed from the larder; nothing for a part by the piece.
fn on_flour(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    part: &Part,
    section: &mut Section,
) -> Result<(), Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(()) };
    let makeup = solved.composition;
    let mixes = part.lines.iter().any(|line| line.is_flour && !line.aside);
    // As on cards: what holds some flour to bind it has no hydration to speak of.
    let is_floury = makeup.flour.times(Number::whole(20))? >= makeup.total;
    if !mixes || !is_floury || !formula.is_mix(recipe, id) {
        return Ok(());
    }
    let nominal = nominal(recipe, formula, id)?;
    let mut pair = |what: &str, real: Option<OnFlour>, said: Option<Proportion>| -> Result<(), Overflow> {
        let Some(one) = real.filter(|one| one.share.value() >= SHOWN) else { return Ok(()) };
        let real = one.share;
        let beside = match said {
            Some(said) => format!(" ({} by the lines)", one_decimal(said)?),
            None => String::new(),
        };
        section.row(
            format!("{}: {what} on flour", part.name),
            format!("{}{beside}", one_decimal(real)?.bound(one.bound())),
            real.percent()?,
            "%",
        );
        Ok(())
    };
    pair("water", solved.hydration(), nominal.hydration)?;
    pair("salt", solved.salt_on_flour(), nominal.salt)?;
    pair("fat", solved.fat_on_flour(), None)?;
    pair("sugar", solved.sugar_on_flour(), None)
}

/// Smaller shares would be printed as nothing.
const SHOWN: Number = Number::constant(1, 2000);

fn one_decimal(share: Proportion) -> Result<Shown, Overflow> {
    Ok(Shown::new(share.percent()?.rounded_to(Number::constant(1, 10))?.decimal(1), "%"))
}
