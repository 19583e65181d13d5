//! A formula at other sizes of its parts, when some of what is wanted is there already or other shares are wanted.
//!
//! What the parts take of each other follows.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::flow;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::left_out::users_first;
use crate::solve::formula::pieces_in_liquid::with_its_liquid;
use crate::solve::formula::{Balance, Formula, SolvedPart};

/// What decides the size of a part, besides the parts that take of it.
pub trait Wanted {
    /// How many times as much of a part as there stands is handed over; `None` for a part that only others take of.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    fn factor(&mut self, id: PartId) -> Result<Option<Number>, Overflow>;

    /// How much of a part that is needed need not be made: it is there. Of a part that comes in pieces it is whole pieces.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    fn there(&mut self, _id: PartId, _need: Mass, _each: Option<Mass>) -> Result<Mass, Overflow> {
        Ok(Mass::ZERO)
    }

    /// Whether it is known how much of a part there is, so that what is to come from the store and lacks there is made.
    fn is_counted(&self, _id: PartId) -> bool {
        false
    }
}

/// A formula at other sizes.
pub struct Resized {
    /// The amounts; parts of which nothing is needed are not made.
    pub formula: Formula,
    /// How many times as much there is of each part.
    pub factors: Vec<Number>,
}

/// The formula at the sizes that are wanted.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn resize(recipe: &Recipe, formula: &Formula, wanted: &mut impl Wanted) -> Result<Resized, Overflow> {
    let mut factors: Vec<Option<Number>> = vec![None; recipe.parts.len()];
    let mut made = vec![false; recipe.parts.len()];
    let nothing = formula.times(Number::ZERO)?;
    let mut resized = Formula { parts: nothing.parts, ..formula.clone() };
    let made_as_written = flow::made(recipe);
    for id in users_first(recipe) {
        let needed = needed(recipe, (formula, &resized), &factors, id, wanted)?;
        let factor = needed.factor;
        let scaled = formula.part(id).map(|part| part.as_written().times(factor)).transpose()?;
        if let (Some(slot), Some(scaled)) = (resized.parts.get_mut(id.0), scaled) {
            *slot = SolvedPart { is_made: factor.is_positive(), balance: needed.balance(scaled.balance)?, ..scaled };
        }
        // What only comes from the store keeps its amounts: a day that counts what is there makes what lacks of it.
        if factor.is_zero()
            && made_as_written.get(id.0) == Some(&false)
            && let (Some(slot), Some(solved)) = (resized.parts.get_mut(id.0), formula.part(id))
        {
            *slot = SolvedPart { is_made: false, ..solved.clone() };
        } else {
            besides(recipe, (formula, &mut resized), id, factor)?;
        }
        if let (Some(slot), Some(is_made)) = (factors.get_mut(id.0), made.get_mut(id.0)) {
            *slot = Some(factor);
            *is_made = factor.is_positive();
        }
        resized.leave_out(recipe, id, &made, needed.made)?;
    }
    resized.compose(recipe)?;
    let factors = factors.into_iter().map(|factor| factor.unwrap_or(Number::ZERO)).collect();
    Ok(Resized { formula: resized, factors })
}

/// What other parts take of a preferment besides its total formula goes by their sizes, and not by that of its dough; so does what is made for
/// that of the one that it goes into.
fn besides(
    recipe: &Recipe,
    (formula, resized): (&Formula, &mut Formula),
    id: PartId,
    factor: Number,
) -> Result<(), Overflow> {
    let Some(from) = recipe.part(id).and_then(|part| part.from) else { return Ok(()) };
    let (mut before, mut now) = (Mass::ZERO, Mass::ZERO);
    for (user, at) in recipe.users(id) {
        let line = recipe.part(user).filter(|user| user.from.is_none()).and_then(|part| part.lines.get(at));
        if line.is_none_or(|line| line.from_store) {
            continue;
        }
        let mass = |formula: &Formula| formula.part(user).and_then(|part| part.lines.get(at)?.mass);
        before = before.plus(mass(formula).unwrap_or(Mass::ZERO).times(factor)?)?;
        let taken = mass(resized).filter(|_| resized.is_made(user));
        now = now.plus(taken.unwrap_or(Mass::ZERO))?;
    }
    let above = |formula: &Formula| match formula.part(from) {
        Some(above) => Ok(above.extra_share()?.unwrap_or(Number::ZERO)),
        None => Ok(Number::ZERO),
    };
    let makes = resized.part(id).and_then(|part| part.makes).unwrap_or(Mass::ZERO);
    let (before, now) = (before.plus(makes.times(above(formula)?)?)?, now.plus(makes.times(above(resized)?)?)?);
    let Some(slot) = resized.parts.get_mut(id.0).filter(|_| before != now) else { return Ok(()) };
    let more = |mass: Mass| mass.plus(now)?.minus(before);
    slot.extra = Some(more(slot.extra.unwrap_or(Mass::ZERO))?).filter(|extra| *extra > Mass::ZERO);
    slot.balance.makes = slot.balance.makes.map(more).transpose()?;
    slot.balance.used = slot.balance.used.map(more).transpose()?;
    Ok(())
}

/// How much of a part is needed.
struct Needed {
    /// How many times as much of it is made.
    factor: Number,
    /// Which share of what is taken of it is made; the rest is there.
    made: Number,
    /// What is taken of what is made and how much of that is meant to be left over, where that is not what was written scaled.
    used: Option<(Mass, Mass)>,
    /// Whether it is handed over by itself, and nothing here takes of it.
    is_alone: bool,
}

impl Needed {
    fn times(factor: Number) -> Needed {
        Needed { factor, made: Number::ONE, used: None, is_alone: false }
    }

    /// The balance of what is made, where `scaled` is the one that was written, at that size.
    fn balance(&self, scaled: Balance) -> Result<Balance, Overflow> {
        if self.is_alone {
            return Ok(Balance { makes: scaled.makes, ..Balance::default() });
        }
        let (Some((used, spare)), Some(makes), Some(_)) = (self.used, scaled.makes, scaled.used) else {
            return Ok(scaled);
        };
        let pieces_used = scaled.pieces_used.map(|pieces| pieces.times(self.made)).transpose()?;
        Ok(Balance { used: Some(used), left: Some(makes.minus(used)?.minus(spare)?), pieces_used, ..scaled })
    }
}

/// How much is made of a part, when that of all that take of it is known.
fn needed(
    recipe: &Recipe,
    (formula, resized): (&Formula, &Formula),
    factors: &[Option<Number>],
    id: PartId,
    wanted: &mut impl Wanted,
) -> Result<Needed, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else {
        return Ok(Needed::times(Number::ZERO));
    };
    let of = |id: PartId| factors.get(id.0).copied().flatten().unwrap_or(Number::ZERO);
    // A preferment is as large as what it is taken out of.
    if let Some(from) = part.from {
        return Ok(Needed::times(of(from)));
    }
    let own = wanted.factor(id)?;
    let (mut before, mut now, mut all_taken) = (Mass::ZERO, Mass::ZERO, Mass::ZERO);
    let made = flow::made(recipe);
    for (user, at) in recipe.users(id) {
        let Some(user_part) = recipe.part(user).filter(|user| user.from.is_none()) else { continue };
        let (Some(line), Some(amount)) =
            (user_part.lines.get(at), formula.part(user).and_then(|part| part.lines.get(at)))
        else {
            continue;
        };
        // What is taken drained leaves its liquid behind, also what of it is in the store.
        let in_liquid = |mass: Mass| with_its_liquid(recipe, formula, id, (line, mass));
        let mass = formula.whole_of(recipe, id, line, in_liquid(amount.mass.unwrap_or(Mass::ZERO))?)?;
        let taken = resized.part(user).filter(|user| user.is_made).and_then(|part| part.lines.get(at)?.mass);
        let taken = in_liquid(taken.unwrap_or(Mass::ZERO))?;
        let counts = !line.from_store;
        if counts && made.get(user.0) == Some(&true) {
            before = before.plus(mass)?;
        }
        if counts || wanted.is_counted(id) {
            now = now.plus(formula.whole_of(recipe, id, line, taken)?)?;
            all_taken = all_taken.plus(taken)?;
        }
    }
    let makes = solved.as_written().makes.filter(|makes| *makes > Mass::ZERO);
    let handed_over = match (own, makes) {
        (Some(own), Some(makes)) => makes.times(own)?,
        _ => Mass::ZERO,
    };
    // What is taken before the last steps of a part comes to less than what is made for it, and what is there replaces what is taken.
    let (need, taken) = (now.plus(handed_over)?, all_taken.plus(handed_over)?);
    let left = solved.oven.unwrap_or(Number::ONE);
    let each = solved.each.map(|each| each.times(left)).transpose()?;
    let there = if need > Mass::ZERO { wanted.there(id, taken, each)? } else { Mass::ZERO };
    match (own, makes) {
        // Something is there: what lacks is made, and what is meant to be left over of it, and no more.
        (_, Some(makes)) if there > Mass::ZERO || before == Mass::ZERO && now > Mass::ZERO => {
            let lacks = taken.minus(there)?.max(Mass::ZERO);
            let made = lacks.ratio(taken)?;
            let spare = if lacks > Mass::ZERO { spare(solved)? } else { Mass::ZERO };
            let factor = need.times(made)?.plus(spare)?.ratio(makes)?;
            let used = own.is_none().then_some((lacks, spare));
            Ok(Needed { factor, made, used, is_alone: false })
        }
        (Some(own), _) => Ok(Needed { is_alone: all_taken == Mass::ZERO, ..Needed::times(own) }),
        (None, _) if before > Mass::ZERO => now.ratio(before).map(Needed::times),
        (None, _) if now > Mass::ZERO => Ok(Needed::times(Number::ONE)),
        // Nothing is known of what it weighs: it is made once where something of it is taken.
        (None, _) => {
            let users = recipe.users(id).filter(|(user, at)| {
                recipe.part(*user).and_then(|part| part.lines.get(*at)).is_some_and(|line| !line.from_store)
            });
            let most = users.map(|(user, _)| of(user)).max();
            Ok(Needed::times(most.unwrap_or(Number::ZERO)))
        }
    }
}

/// What is meant to be left over of a part, at the size that it has.
fn spare(solved: &SolvedPart) -> Result<Mass, Overflow> {
    match (solved.balance.makes, solved.balance.used, solved.balance.left) {
        (Some(makes), Some(used), Some(left)) => makes.minus(used)?.minus(left).map(|spare| spare.max(Mass::ZERO)),
        _ => Ok(Mass::ZERO),
    }
}

/// Whole pieces of what there is, where it comes in pieces.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn whole_pieces(mass: Mass, each: Option<Mass>) -> Result<Mass, Overflow> {
    match each.filter(|each| *each > Mass::ZERO) {
        Some(each) => each.times(mass.ratio(each)?.floor()),
        None => Ok(mass),
    }
}
