//! A part as a linear form: each line is a fixed mass plus a share of the base.

use super::SolvedPart;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::value::{Said, Value};
use crate::model::counted::is_a_few_leaves;
use crate::model::noted::NotedParts;
use crate::model::recipe::{Base, Ingredient, LineAmount, Part, Recipe, Refers};
use crate::solve::resolve::weigh;

/// One line: `fixed + share × base`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Term {
    /// A mass that is known.
    Fixed(Mass),
    /// A share of the base.
    Share(Proportion),
    /// It has no mass, or next to none: to taste, as needed, a vanilla pod.
    Massless,
    /// Its weight is not known to the larder, or it was reported.
    Unknown,
    /// It waits for another part.
    Waits,
}

/// The terms of a part's lines, given what is settled of the other parts.
pub(super) fn terms(
    recipe: &Recipe,
    part: &Part,
    solved: &NotedParts<SolvedPart>,
    pieces: Option<Count>,
) -> Result<Vec<Term>, Overflow> {
    part.lines.iter().map(|line| term(recipe, part, line, solved, pieces)).collect()
}

fn term(
    recipe: &Recipe,
    part: &Part,
    line: &Ingredient,
    solved: &NotedParts<SolvedPart>,
    pieces: Option<Count>,
) -> Result<Term, Overflow> {
    let said = match &line.amount {
        LineAmount::Said(said) => said,
        LineAmount::ToTaste | LineAmount::AsNeeded => return Ok(Term::Massless),
        LineAmount::Broken => return Ok(Term::Unknown),
        LineAmount::All => return Ok(all_of(part, line, solved)),
    };
    let Some(first) = said.first() else { return Ok(Term::Unknown) };
    if let Value::Proportion(share) = first.value {
        return Ok(Term::Share(share));
    }
    // `1 cup = 138 g`, `3 = 165 g`: a weight that somebody wrote is closer than a cup or a piece by the larder's average.
    let written = said.iter().find(|said| matches!(line.refers, Refers::Pantry(_)) && said.mass().is_some());
    let Some(mass) = written.into_iter().chain(said).find_map(|said| weigh_line(recipe, solved, part, line, said))
    else {
        return Ok(if is_a_few_leaves(line) { Term::Massless } else { Term::Unknown });
    };
    let mass = mass?;
    if !part.per_piece {
        return Ok(Term::Fixed(mass));
    }
    match pieces {
        Some(pieces) => mass.times(pieces.value()).map(Term::Fixed),
        None => Ok(Term::Unknown),
    }
}

/// All of another part; in a preferment, all of the line in the total formula.
fn all_of(part: &Part, line: &Ingredient, solved: &NotedParts<SolvedPart>) -> Term {
    if part.from.is_some() {
        // The total formula holds the line; its mass is taken over when that is settled.
        return Term::Waits;
    }
    match line.refers {
        Refers::Part(id) => solved.get(id.0).and_then(|other| other.makes).map_or(Term::Waits, Term::Fixed),
        Refers::Pantry(_) => Term::Unknown,
    }
}

/// What an absolute amount of a line weighs, pieces of another part by what one of them weighs: as it comes out of the oven, where that is
/// of another recipe.
pub(super) fn weigh_line(
    recipe: &Recipe,
    solved: &NotedParts<SolvedPart>,
    part: &Part,
    line: &Ingredient,
    said: &Said,
) -> Option<Result<Mass, Overflow>> {
    if let (Refers::Part(id), Value::Count(count)) = (&line.refers, said.value) {
        let other = recipe.part(*id)?;
        let each = match (part.sort.as_ref(), other.sorts.as_slice()) {
            (_, []) => other.divide?.each,
            // Of several sizes a piece is one of the sort that the part is for.
            (Some(sort), sorts) => sorts.iter().find(|known| known.name.same(sort))?.each,
            (None, _) => return None,
        };
        let left = solved.get(id.0).and_then(|other| other.oven).unwrap_or(Number::ONE);
        return Some(each.times(count.value()).and_then(|mass| mass.times(left)));
    }
    weigh(said.value, line.facts())
}

/// Whether a line is part of the base.
pub(crate) fn in_base(base: &Base, line: &Ingredient) -> bool {
    if line.aside {
        return false;
    }
    match base {
        Base::Flour => line.is_flour,
        Base::Total => true,
        Base::Named(name) => line.name.same(name),
    }
}

/// Fixed masses and shares of some lines, added up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Sum {
    /// The fixed masses.
    pub fixed: Mass,
    /// The shares of the base.
    pub share: Proportion,
    /// Whether the weight of some line is not known.
    pub unknown: bool,
    /// Whether some line waits for another part.
    pub waits: bool,
}

/// Adds up the lines that `wanted` picks.
pub(super) fn sum(part: &Part, terms: &[Term], wanted: impl Fn(&Ingredient) -> bool) -> Result<Sum, Overflow> {
    let mut total = Sum { fixed: Mass::ZERO, share: Proportion::ZERO, unknown: false, waits: false };
    for (line, term) in part.lines.iter().zip(terms) {
        if !wanted(line) {
            continue;
        }
        match term {
            Term::Fixed(mass) => total.fixed = total.fixed.plus(*mass)?,
            Term::Share(share) => total.share = total.share.plus(*share)?,
            Term::Massless => {}
            Term::Unknown => total.unknown = true,
            Term::Waits => total.waits = true,
        }
    }
    Ok(total)
}

impl Sum {
    /// The base that makes this sum the given mass.
    pub(super) fn base_for(&self, mass: Mass) -> Result<Mass, Overflow> {
        mass.minus(self.fixed)?.over(self.share.value())
    }

    /// The mass at a given base.
    pub(super) fn at(&self, base: Option<Mass>) -> Result<Mass, Overflow> {
        match base {
            Some(base) => self.fixed.plus(base.share(self.share)?),
            None => Ok(self.fixed),
        }
    }
}

/// The mass of one line at a given base.
pub(super) fn mass_at(term: Term, base: Option<Mass>) -> Result<Option<Mass>, Overflow> {
    Ok(match (term, base) {
        (Term::Fixed(mass), _) => Some(mass),
        (Term::Share(share), Some(base)) => Some(base.share(share)?),
        _ => None,
    })
}

/// What must go in so that `out` comes out after `loss`.
pub(super) fn before_loss(out: Mass, loss: Option<Proportion>) -> Result<Mass, Overflow> {
    match loss {
        Some(loss) => out.over(loss.rest()?.value()),
        None => Ok(out),
    }
}

/// What is lost when so much comes out of so much.
pub(super) fn loss_between(goes_in: Mass, out: Mass) -> Result<Option<Proportion>, Overflow> {
    if !goes_in.value().is_positive() {
        return Ok(None);
    }
    Number::ONE.minus(out.ratio(goes_in)?).map(|loss| Some(Proportion::new(loss)))
}
