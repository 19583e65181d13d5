//! How much of a part is its pieces: what is taken `drained` of it leaves the liquid behind. The one answer for sizes, balances and checks.

use super::linear::{self, Term};
use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::cooking::loses_water;
use crate::model::lifted::Lies;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};

/// What of a part is left when its liquid is poured off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pieces {
    /// All of it: nothing is poured in, or so little that it is taken up.
    All,
    /// That share of what it makes.
    Share(Proportion),
    /// Something in it takes up nobody knows how much.
    Unknown,
}

impl Pieces {
    /// The share of what a part makes that is its pieces, all of it where it is not known to be less.
    pub fn known(self) -> Proportion {
        match self {
            Pieces::Share(share) => share,
            Pieces::All | Pieces::Unknown => Proportion::WHOLE,
        }
    }
}

/// Where less than this of the weight of the pieces is poured in, they take it up. Common practice, no source.
const POURED: Number = Number::constant(1, 4);

/// Parts lie in parts at most so deep when pieces are looked for.
const DEEPEST: usize = 6;

/// What is in a part.
#[derive(Debug, Clone, Copy)]
struct Held {
    all: Mass,
    pieces: Mass,
    poured: Mass,
    /// What takes up liquid, or nobody knows.
    takes_up: Mass,
    /// Whether the weight of something is not known.
    unknown: bool,
}

impl Held {
    const NOTHING: Held =
        Held { all: Mass::ZERO, pieces: Mass::ZERO, poured: Mass::ZERO, takes_up: Mass::ZERO, unknown: false };

    fn add(&mut self, lies: Lies, mass: Mass) -> Result<(), Overflow> {
        self.all = self.all.plus(mass)?;
        let sum = match lies {
            Lies::Piece => &mut self.pieces,
            Lies::Poured => &mut self.poured,
            Lies::TakesUp => &mut self.takes_up,
            Lies::Dissolved => return Ok(()),
        };
        *sum = sum.plus(mass)?;
        Ok(())
    }

    fn add_some(&mut self, other: Held, mass: Mass) -> Result<(), Overflow> {
        self.unknown |= other.unknown;
        if other.all <= Mass::ZERO {
            return Ok(());
        }
        let times = mass.ratio(other.all)?;
        self.all = self.all.plus(mass)?;
        self.pieces = self.pieces.plus(other.pieces.times(times)?)?;
        self.poured = self.poured.plus(other.poured.times(times)?)?;
        self.takes_up = self.takes_up.plus(other.takes_up.times(times)?)?;
        Ok(())
    }

    /// The pieces of so much that it makes.
    fn of(self, part: &Part, makes: Option<Mass>) -> Result<Pieces, Overflow> {
        let solid = self.pieces.plus(self.takes_up)?;
        if solid <= Mass::ZERO || self.poured < solid.times(POURED)? {
            return Ok(Pieces::All);
        }
        let Some(makes) = makes.filter(|makes| *makes > Mass::ZERO && !self.unknown) else {
            return Ok(Pieces::Unknown);
        };
        if self.takes_up > Mass::ZERO {
            return Ok(Pieces::Unknown);
        }
        // What boils away is of the liquid; what sticks to the pot is of everything.
        let share = if loses_water(part) { self.pieces.ratio(makes)? } else { self.pieces.ratio(self.all)? };
        Ok(if share < Number::ONE { Pieces::Share(Proportion::new(share)) } else { Pieces::All })
    }
}

/// The pieces of a part whose amounts are found.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn pieces_of(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Pieces, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(Pieces::All) };
    let solved = solved.as_written();
    held(recipe, formula, id, DEEPEST)?.of(part, solved.makes_before_oven()?)
}

/// How much of a part must be made so that a line can take so much: where it takes its pieces, with their liquid.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn with_its_liquid(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (line, mass): (&Ingredient, Mass),
) -> Result<Mass, Overflow> {
    if !line.is_lifted_out() {
        return Ok(mass);
    }
    mass.over(pieces_of(recipe, formula, id)?.known().value())
}

/// The pieces of a part of which only the shares are found yet.
pub(super) fn pieces_of_shares(part: &Part, terms: &[Term]) -> Result<Pieces, Overflow> {
    let all = linear::sum(part, terms, Ingredient::stays_in)?;
    let is_lines = part.lines.iter().all(|line| line.part().is_none());
    if !is_lines || all.waits || all.unknown || all.fixed > Mass::ZERO {
        return Ok(Pieces::Unknown);
    }
    // On a base of a kilogram, since shares alone decide.
    let base = Mass::new(Number::whole(1000));
    let mut held = Held::NOTHING;
    for (line, term) in part.lines.iter().zip(terms).filter(|(line, _)| line.stays_in()) {
        if let Term::Share(share) = term {
            held.add(line.lies(), base.share(*share)?)?;
        }
    }
    let loss = part.makes.and_then(|makes| makes.loss);
    let makes = match loss {
        Some(loss) => held.all.share(loss.rest()?)?,
        None => held.all,
    };
    held.of(part, Some(makes))
}

fn held(recipe: &Recipe, formula: &Formula, id: PartId, depth: usize) -> Result<Held, Overflow> {
    let mut held = Held::NOTHING;
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(held) };
    let solved: &SolvedPart = solved.as_written();
    for (line, amount) in part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()) {
        let inner = line.part();
        // A preferment's lines already stand in the total formula.
        if amount.left_out || inner.and_then(|inner| recipe.part(inner)).is_some_and(|inner| inner.from == Some(id)) {
            continue;
        }
        let Some(mass) = amount.mass else {
            // Herbs to taste do not matter; a head of cabbage does.
            held.unknown |= matches!(line.lies(), Lies::Piece | Lies::TakesUp) && amount.natural.is_some();
            continue;
        };
        match line.refers {
            Refers::Pantry(_) => held.add(line.lies(), mass)?,
            Refers::Part(_) if depth == 0 => held.unknown = true,
            // What is lifted out brings no liquid.
            Refers::Part(_) if line.is_lifted_out() => held.add(Lies::Piece, mass)?,
            Refers::Part(inner) => held.add_some(self::held(recipe, formula, inner, depth - 1)?, mass)?,
        }
    }
    Ok(held)
}
