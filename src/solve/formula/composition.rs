//! What a part consists of, counting the parts in it: flour, and the water, fat, salt and sugar that the larder knows.

use super::fed::{IN_FLOUR, is_fed, seed_flour};
use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::running_sum::RunningSum;
use crate::model::cooking::{cooks, has_word_beginning, loses_water};
use crate::model::flow::reached;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::nutrient::{Nutrient, held};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use std::collections::VecDeque;
use std::sync::Arc;

/// How much more there may be of what the larder does not know; it counts as nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unknown {
    /// The mass of the ingredients whose water it does not know.
    pub water: Mass,
    /// The mass of leavens of which nobody says how they were fed: counted as of equal weights of flour and water.
    pub fed: Mass,
    /// The most that there may be of fat.
    pub fat: Mass,
    /// Of salt.
    pub salt: Mass,
    /// Of sugars.
    pub sugar: Mass,
}

impl Unknown {
    const NONE: Unknown =
        Unknown { water: Mass::ZERO, fed: Mass::ZERO, fat: Mass::ZERO, salt: Mass::ZERO, sugar: Mass::ZERO };

    fn times(self, factor: Number) -> Result<Unknown, Overflow> {
        Ok(Unknown {
            water: self.water.times(factor)?,
            fed: self.fed.times(factor)?,
            fat: self.fat.times(factor)?,
            salt: self.salt.times(factor)?,
            sugar: self.sugar.times(factor)?,
        })
    }

    fn plus(self, other: Unknown) -> Result<Unknown, Overflow> {
        Ok(Unknown {
            water: self.water.plus(other.water)?,
            fed: self.fed.plus(other.fed)?,
            fat: self.fat.plus(other.fat)?,
            salt: self.salt.plus(other.salt)?,
            sugar: self.sugar.plus(other.sugar)?,
        })
    }
}

/// Masses of what a part consists of. What the larder does not know counts as nothing and is told in `unknown`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Composition {
    /// Everything that counts as flour.
    pub flour: Mass,
    /// The flour in leavens that are bought or kept: `flour` has none of it, but where water, salt or fat are counted on flour it is some,
    /// for the water of the leaven is counted too.
    pub seed: Mass,
    /// Water, also that in milk, egg, butter or honey, but not the moisture of the flour itself.
    ///
    /// Bakers' hydration is water on flour as it comes; moisture of flour is never counted in it.
    pub water: Mass,
    /// The moisture of what counts as flour: it is no part of hydration, and leaves when all other water has left.
    pub moisture: Mass,
    /// Fat.
    pub fat: Mass,
    /// What bakers call salt: salt as it is weighed, and what is in salted butter, cheese and the like. The sodium of flour and
    /// of raising agents, which labels count as salt, is none of it.
    pub salt: Mass,
    /// Sugars.
    pub sugar: Mass,
    /// All of it.
    pub total: Mass,
    /// What the larder does not know.
    pub unknown: Unknown,
    /// Whether a leaven without a weight is in it: it is flour too, so that nothing that is counted on flour is even a bound.
    pub is_flour_open: bool,
}

impl Default for Composition {
    fn default() -> Composition {
        let none = Mass::ZERO;
        let unknown = Unknown::NONE;
        Composition {
            flour: none,
            seed: none,
            water: none,
            moisture: none,
            fat: none,
            salt: none,
            sugar: none,
            total: none,
            unknown,
            is_flour_open: false,
        }
    }
}

impl Composition {
    /// For so many times the batch.
    pub(super) fn times(self, factor: Number) -> Result<Composition, Overflow> {
        Ok(Composition {
            flour: self.flour.times(factor)?,
            seed: self.seed.times(factor)?,
            water: self.water.times(factor)?,
            moisture: self.moisture.times(factor)?,
            fat: self.fat.times(factor)?,
            salt: self.salt.times(factor)?,
            sugar: self.sugar.times(factor)?,
            total: self.total.times(factor)?,
            unknown: self.unknown.times(factor)?,
            is_flour_open: self.is_flour_open,
        })
    }

    pub(crate) fn plus(self, other: Composition) -> Result<Composition, Overflow> {
        Ok(Composition {
            flour: self.flour.plus(other.flour)?,
            seed: self.seed.plus(other.seed)?,
            water: self.water.plus(other.water)?,
            moisture: self.moisture.plus(other.moisture)?,
            fat: self.fat.plus(other.fat)?,
            salt: self.salt.plus(other.salt)?,
            sugar: self.sugar.plus(other.sugar)?,
            total: self.total.plus(other.total)?,
            unknown: self.unknown.plus(other.unknown)?,
            is_flour_open: self.is_flour_open || other.is_flour_open,
        })
    }

    /// All that may leave as water: what is poured, what ingredients hold, the flour's moisture, and what the larder does not know.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn may_dry(&self) -> Result<Mass, Overflow> {
        self.water.plus(self.moisture)?.plus(self.unknown.water)
    }

    /// Water on flour; `None` without flour.
    pub fn hydration(&self) -> Option<Proportion> {
        self.on_flour(self.water)
    }

    /// All flour, that of leavens too.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn all_flour(&self) -> Result<Mass, Overflow> {
        self.flour.plus(self.seed)
    }

    /// So much on all flour; `None` where nothing but a leaven holds any, and where a leaven has no weight.
    fn on_flour(&self, of: Mass) -> Option<Proportion> {
        if self.flour > Mass::ZERO && !self.is_flour_open { of.as_share_of(self.all_flour().ok()?).ok() } else { None }
    }

    /// Whether so much moves a figure, over 2 % of all, so that a figure that does not count it is only a lower bound.
    pub fn is_much(&self, mass: Mass) -> bool {
        mass.as_share_of(self.total).is_ok_and(|share| share.value() > Number::constant(2, 100))
    }

    /// Salt on flour; `None` without flour.
    pub fn salt_on_flour(&self) -> Option<Proportion> {
        self.on_flour(self.salt)
    }

    /// Sugar on flour; `None` without flour.
    pub fn sugar_on_flour(&self) -> Option<Proportion> {
        self.on_flour(self.sugar)
    }

    /// Fat on flour; `None` without flour.
    pub fn fat_on_flour(&self) -> Option<Proportion> {
        self.on_flour(self.fat)
    }
}

/// Works out the composition of every part.
pub(super) fn fill(recipe: &Recipe, formula: &mut Formula, others: Others<'_>) -> Result<(), Overflow> {
    let mut done: Vec<Option<InAndOut>> = vec![None; recipe.parts.len()];
    let mut waiting: VecDeque<PartId> = recipe.parts().map(|(id, _)| id).collect();
    while let Some(id) = waiting.pop_front() {
        let (Some(part), Some(None)) = (recipe.part(id), done.get(id.0)) else { continue };
        let known = others.iter().find_map(|other| as_in(other, (recipe, formula), id, &done));
        debug_assert!(known.is_none() || of(part, id, formula, &done) == Ok(known), "{} is not shared", part.name);
        let found = known.map_or_else(|| of(part, id, formula, &done), |known| Ok(Some(known)))?;
        let (Some(goes_in), Some(solved)) = (found, formula.part(id)) else { continue };
        let comes_out = comes_out(part, solved, goes_in)?;
        if let Some(slot) = done.get_mut(id.0) {
            *slot = Some(InAndOut { goes_in, comes_out });
        }
        // What waited for this one is tried again.
        waiting.extend(recipe.users(id).map(|(user, _)| user));
    }
    for (solved, done) in formula.parts.iter_mut().zip(done) {
        if let Some(InAndOut { goes_in, comes_out }) = done {
            (solved.composition, solved.comes_out) = (goes_in, comes_out);
        }
    }
    for (id, _) in recipe.parts() {
        let share = prefermented(recipe, formula, id)?;
        if let Some(solved) = formula.parts.get_mut(id.0) {
            solved.prefermented = share;
        }
    }
    Ok(())
}

/// What goes into a part, and what comes out of it.
#[derive(Clone)]
struct InAndOut {
    goes_in: Composition,
    comes_out: Composition,
}

/// What was found of a part, if it is done.
fn done_of(done: &[Option<InAndOut>], id: PartId) -> Option<&InAndOut> {
    done.get(id.0).and_then(Option::as_ref)
}

/// The same recipe under other selections, worked out.
pub(super) type Others<'a> = &'a [(&'a Recipe, &'a Formula)];

/// The composition of a part under another selection, where it is the same part there, in the same amounts, and so are the parts in it.
fn as_in(
    (other, other_formula): &(&Recipe, &Formula),
    (recipe, formula): (&Recipe, &Formula),
    id: PartId,
    done: &[Option<InAndOut>],
) -> Option<Composition> {
    let is_same = |id: PartId| {
        let (one, two) = (recipe.parts.get(id.0)?, other.parts.get(id.0)?);
        Arc::ptr_eq(one, two).then_some((formula.part(id)?, other_formula.part(id)?))
    };
    let (solved, known) = is_same(id).filter(|(solved, known)| solved.lines == known.lines)?;
    let mut inner = recipe.part(id)?.lines.iter().filter_map(Ingredient::part);
    let is_alike = |inner: PartId| {
        is_same(inner).is_some_and(|(solved, known)| {
            solved.makes == known.makes && done_of(done, inner).is_some_and(|done| done.goes_in == known.composition)
        })
    };
    (solved.is_settled == known.is_settled && inner.all(is_alike)).then_some(known.composition)
}

/// `None` while a part in it is not done.
fn of(part: &Part, id: PartId, formula: &Formula, done: &[Option<InAndOut>]) -> Result<Option<Composition>, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(None) };
    let mut total = Sums { figures: [RunningSum::NOTHING; 13], is_flour_open: false };
    for (line, amount) in part.lines.iter().zip(&solved.lines) {
        // What salt and sugar leave behind that are strained out again, a brine's, nobody can reckon: it is as much as they at most.
        if let Some(mass) = amount.mass.filter(|_| line.strained_out) {
            let unknown = match line.kind {
                Kind::Salt => Unknown { salt: mass, ..Unknown::NONE },
                Kind::Sugar | Kind::Syrup => Unknown { sugar: mass, ..Unknown::NONE },
                _ => Unknown::NONE,
            };
            total.add(Composition { unknown, ..Composition::default() })?;
        }
        total.is_flour_open |= amount.mass.is_none() && line.stays_in() && is_fed(line);
        let Some(mass) = amount.mass.filter(|_| line.stays_in()) else { continue };
        let one = match &line.refers {
            Refers::Part(other) => {
                let Some(InAndOut { comes_out: inner, .. }) = done_of(done, *other) else { return Ok(None) };
                if inner.total > Mass::ZERO { inner.times(mass.ratio(inner.total)?)? } else { *inner }
            }
            Refers::Pantry(facts) => pantry(mass, line, facts.as_deref())?,
        };
        total.add(one)?;
    }
    total.total().map(Some)
}

/// The composition of several lines as far as they were added, figure by figure.
struct Sums {
    figures: [RunningSum; 13],
    is_flour_open: bool,
}

impl Sums {
    fn add(&mut self, one: Composition) -> Result<(), Overflow> {
        let Composition { flour, seed, water, moisture, fat, salt, sugar, total, unknown, is_flour_open } = one;
        self.is_flour_open |= is_flour_open;
        let Unknown { water: no_water, fed, fat: no_fat, salt: no_salt, sugar: no_sugar } = unknown;
        let figures = [flour, seed, water, moisture, fat, salt, sugar, total, no_water, fed, no_fat, no_salt, no_sugar];
        self.figures.iter_mut().zip(figures).try_for_each(|(sum, mass)| sum.add(mass.value()))
    }

    fn total(&self) -> Result<Composition, Overflow> {
        let [flour, seed, water, moisture, fat, salt, sugar, total, no_water, fed, no_fat, no_salt, no_sugar] =
            &self.figures;
        let all = |sum: &RunningSum| sum.total().map(Mass::new);
        Ok(Composition {
            flour: all(flour)?,
            seed: all(seed)?,
            water: all(water)?,
            moisture: all(moisture)?,
            fat: all(fat)?,
            salt: all(salt)?,
            sugar: all(sugar)?,
            total: all(total)?,
            unknown: Unknown {
                water: all(no_water)?,
                fed: all(fed)?,
                fat: all(no_fat)?,
                salt: all(no_salt)?,
                sugar: all(no_sugar)?,
            },
            is_flour_open: self.is_flour_open,
        })
    }
}

/// What comes out of a part of which so much went in.
///
/// What a part that says `makes` loses has left as water, until there is none, unless it says `of everything`, and so has what boils away
/// of what is filled into jars; what a dough loses when it is divided is dough.
/// What the oven of another recipe takes is water too.
fn comes_out(part: &Part, solved: &SolvedPart, goes_in: Composition) -> Result<Composition, Overflow> {
    let is_water = loses_water(part);
    let counts = is_water || (part.makes.is_some() && part.divide.is_none());
    let made = solved.makes_before_oven()?.filter(|_| counts);
    let made = less(goes_in, made, is_water)?;
    match solved.oven {
        Some(oven) => less(made, Some(made.total.times(oven)?), true),
        None => Ok(made),
    }
}

/// What is left when so much comes out, and what is lost has left as water or of everything alike.
fn less(goes_in: Composition, makes: Option<Mass>, is_water: bool) -> Result<Composition, Overflow> {
    let makes = makes.filter(|makes| *makes > Mass::ZERO);
    let Some(makes) = makes.filter(|makes| *makes < goes_in.total) else { return Ok(goes_in) };
    if !is_water {
        return goes_in.times(makes.ratio(goes_in.total)?);
    }
    let lost = goes_in.total.minus(makes)?;
    let dried = lost.min(goes_in.water);
    // Then what may hold water that the larder does not know of, then the flour's own moisture, then everything alike.
    let unknown = lost.minus(dried)?.min(goes_in.unknown.water);
    let moisture = lost.minus(dried)?.minus(unknown)?.min(goes_in.moisture);
    let left = Composition {
        water: goes_in.water.minus(dried)?,
        moisture: goes_in.moisture.minus(moisture)?,
        unknown: Unknown { water: goes_in.unknown.water.minus(unknown)?, ..goes_in.unknown },
        total: goes_in.total.minus(dried)?.minus(unknown)?.minus(moisture)?,
        ..goes_in
    };
    if left.total > makes { left.times(makes.ratio(left.total)?) } else { Ok(left) }
}

/// What is left of everything but water when a part is made: 1 unless so much is lost that it cannot all be water, or the part
/// loses everything alike.
pub(super) fn kept(part: &Part, solved: &SolvedPart, goes_in: Composition) -> Result<Number, Overflow> {
    // Nothing that is asked on the way to the answer looks at the fat.
    let probe = Composition { fat: Mass::new(Number::ONE), ..goes_in };
    comes_out(part, solved, probe).map(|left| left.fat.value())
}

/// What a gram of an ingredient consists of.
///
/// # Errors
/// When a share leaves the range of exact numbers.
pub(crate) fn of_a_gram(line: &Ingredient) -> Result<Composition, Overflow> {
    pantry(Mass::new(Number::ONE), line, line.facts())
}

fn pantry(mass: Mass, line: &Ingredient, facts: Option<&Facts>) -> Result<Composition, Overflow> {
    let is_flour = line.is_flour;
    let share = |share: Option<Proportion>| mass.share(share.unwrap_or(Proportion::ZERO));
    let water = facts.and_then(|facts| facts.contents.water);
    let fat = facts.and_then(|facts| facts.contents.fat);
    let sugar = facts.and_then(|facts| facts.contents.sugar);
    let salt = bakers_salt(line.kind, facts);
    let open = |is_open: bool| if is_open { mass } else { Mass::ZERO };
    // Of what is not said there is no more than what the figures that are said leave.
    let left = |nutrient| mass.times(held(facts, nutrient)?.most);
    let unless = |is_known: bool, nutrient| if is_known { Ok(Mass::ZERO) } else { left(nutrient) };
    let seed = seed_flour(line)?.map(|share| mass.share(share)).transpose()?;
    let (poured, moisture) = match seed {
        Some(flour) => (mass.minus(flour)?, flour.times(IN_FLOUR)?),
        None if is_flour => (Mass::ZERO, share(water)?),
        None => (share(water)?, Mass::ZERO),
    };
    Ok(Composition {
        flour: if is_flour { mass } else { Mass::ZERO },
        seed: seed.unwrap_or(Mass::ZERO),
        water: poured,
        moisture,
        fat: share(fat)?,
        salt: if is_flour { Mass::ZERO } else { share(salt)? },
        sugar: share(sugar)?,
        total: mass,
        unknown: Unknown {
            water: open(is_unknown(line)),
            fed: open(seed.is_some() && water.is_none()),
            fat: unless(fat.is_some(), Nutrient::Fat)?,
            salt: unless(salt.is_some() || is_flour || !may_be_salted(line.kind), Nutrient::Salt)?,
            sugar: unless(sugar.is_some(), Nutrient::Sugars)?,
        },
        is_flour_open: false,
    })
}

/// Whether the larder does not know how much water is in an ingredient; flour's own moisture is not asked for.
pub fn is_unknown(line: &Ingredient) -> bool {
    let Refers::Pantry(facts) = &line.refers else { return false };
    !line.is_flour && !is_fed(line) && facts.as_deref().is_none_or(|facts| facts.contents.water.is_none())
}

/// How much of an ingredient a baker calls salt. Larders say sodium as salt, as labels do: table salt is then 97 % salt, and
/// bicarbonate of soda 68 %.
fn bakers_salt(kind: Kind, facts: Option<&Facts>) -> Option<Proportion> {
    match (kind, facts.and_then(|facts| facts.contents.salt)) {
        // Sea salt is salt, whether a table has its sodium or not.
        (Kind::Salt, None) => Some(Proportion::WHOLE),
        (Kind::Salt, Some(salt)) if salt.value() >= NEARLY_ALL => Some(Proportion::WHOLE),
        (kind, salt) => salt.filter(|_| !kind.is_chemical_raising()),
    }
}

/// What is salted when it is made; salt is in nothing else by nature that a baker would count.
pub(crate) fn may_be_salted(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Dairy
            | Kind::Fat
            | Kind::Meat
            | Kind::Fish
            | Kind::Shellfish
            | Kind::Brine
            | Kind::Seasoning
            | Kind::Bread
            | Kind::Other
    )
}

/// From this share of sodium as salt on, a salt is all salt.
const NEARLY_ALL: Number = Number::constant(9, 10);

/// Words for a flour that is only wetted or cooked before it goes in.
const WETTED: [&str; 8] = ["soaker", "soak", "scald", "roux", "tangzhong", "yudane", "autolyse", "porridge"];

/// Whether something in a part, or in a part of it, ferments, or may: what no larder knows, and a leaven whose seed is a part of flour and
/// water, is given the benefit of the doubt; what is cooked, or called a soaker, a scald or an autolyse, is not.
fn may_ferment(recipe: &Recipe, id: PartId) -> bool {
    let drawn =
        |here| recipe.part(here).map(|part| part.lines.iter().filter_map(Ingredient::part)).into_iter().flatten();
    let is_wetted = |part: &Part| part.steps.iter().any(cooks) || has_word_beginning(part.name.key.as_str(), WETTED);
    if !recipe.part(id).is_some_and(is_wetted) {
        return true;
    }
    reached(id, drawn).into_iter().filter_map(|inner| recipe.part(inner)).any(|part| {
        let ferments = |line: &Ingredient| {
            line.kind.ferments() || (line.kind == Kind::Other && line.refers == Refers::Pantry(None))
        };
        part.lines.iter().any(ferments)
    })
}

/// The share of a part's flour that its preferments take.
///
/// A seed that is bought or kept (an ingredient without a formula) is not counted: as the Bread Bakers Guild of America
/// prints it (Formatting Guild Formulas, 2009). A seed that is a part of the recipe has a formula and is counted.
pub(super) fn prefermented(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Option<Proportion>, Overflow> {
    let mut fermented = None;
    // A flour that is scalded or soaked without a leaven is cooked or wet, and not fermented.
    for (preferment, _) in recipe.preferments(id).filter(|(preferment, _)| may_ferment(recipe, *preferment)) {
        let flour = formula.part(preferment).map_or(Mass::ZERO, |part| part.composition.flour);
        fermented = Some(fermented.unwrap_or(Mass::ZERO).plus(flour)?);
    }
    let flour = formula.part(id).map_or(Mass::ZERO, |part| part.composition.flour);
    match fermented {
        Some(fermented) if flour > Mass::ZERO => fermented.as_share_of(flour).map(Some),
        _ => Ok(None),
    }
}
