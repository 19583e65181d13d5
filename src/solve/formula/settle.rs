//! Settles the parts one by one until none is left that can be settled.

use super::composition::Others;
use super::left_out::{self, LeftOut};
use super::linear::{self, Sum, Term};
use super::pieces_in_liquid::{Pieces, pieces_of, pieces_of_shares};
use super::{Balance, Composition, Formula, SolvedLine, SolvedPart, same_amounts};
use crate::language::evaluate::too_large;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::value::Value;
use crate::model::recipe::{HeadMakes, Ingredient, LineAmount, MakesMass, Part, PartId, Recipe, Refers};
use crate::text::diagnostic::Diagnostic;
use std::collections::BTreeSet;

/// The parts on their way to their amounts.
pub(super) struct Solver<'r, 'f, 'd> {
    pub(super) recipe: &'r Recipe,
    /// The formulas of the used recipes as they stand in their own files.
    pub(super) used: &'r [Option<&'r Formula>],
    pub(super) formula: &'f mut Formula,
    /// The same recipe under other selections.
    pub(super) others: Others<'r>,
    pub(super) settled: Vec<bool>,
    /// Which parts are as they are under another selection, how their steps draw on them included.
    pub(super) known: Vec<bool>,
    /// Which parts are made.
    pub(super) made: Vec<bool>,
    /// What is left out, as far as it is known.
    pub(super) left_out: &'r LeftOut,
    pub(super) diagnostics: &'d mut Vec<Diagnostic>,
}

impl Solver<'_, '_, '_> {
    pub(super) fn run(&mut self) {
        // Round by round in the order of the parts; after the first round only those are tried again of which a neighbour was
        // settled since.
        let mut round: BTreeSet<PartId> = (0..self.recipe.parts.len()).map(PartId).collect();
        let mut next = BTreeSet::new();
        while !round.is_empty() {
            while let Some(id) = round.pop_first() {
                if self.is_settled(id) {
                    continue;
                }
                match self.settle(id) {
                    Ok(true) => {}
                    Ok(false) => continue,
                    Err(Overflow) => {
                        let span = self.recipe.part(id).map_or(self.recipe.name.span, overflowing_span);
                        self.diagnostics.push(too_large(span));
                    }
                }
                self.mark(id);
                for other in self.neighbours(id).into_iter().filter(|other| !self.is_settled(*other)) {
                    if other > id {
                        round.insert(other)
                    } else {
                        next.insert(other)
                    };
                }
            }
            std::mem::swap(&mut round, &mut next);
        }
        if self.extras().is_err() {
            self.diagnostics.push(too_large(self.recipe.name.span));
        }
    }

    /// The parts that may have waited for a part: those that draw on it or that it draws on, those taken out of it and the one
    /// that it is taken out of.
    fn neighbours(&self, id: PartId) -> Vec<PartId> {
        let recipe = self.recipe;
        let Some(part) = recipe.part(id) else { return Vec::new() };
        let drawn = part.lines.iter().filter_map(Ingredient::part);
        let users = recipe.users(id).map(|(user, _)| user);
        let taken_out = recipe.preferments(id).map(|(other, _)| other);
        drawn.chain(users).chain(taken_out).chain(part.from).collect()
    }

    fn is_settled(&self, id: PartId) -> bool {
        self.settled.get(id.0).copied().unwrap_or(true)
    }

    fn mark(&mut self, id: PartId) {
        if let Some(settled) = self.settled.get_mut(id.0) {
            *settled = true;
        }
    }

    /// Tries to find a part's amounts; `false` when it must wait for another.
    fn settle(&mut self, id: PartId) -> Result<bool, Overflow> {
        let recipe = self.recipe;
        let Some(part) = recipe.part(id) else { return Ok(true) };
        if part.foreign.is_some() {
            return self.settle_foreign(id, part);
        }
        if let Some(from) = part.from {
            return self.settle_preferment(id, part, from);
        }
        let known = self.others.iter().find_map(|other| same_amounts::of_part(recipe, self.formula, id, other));
        if let (Some(known), Some(slot)) = (known, self.formula.parts.get_mut(id.0)) {
            *slot = known;
            self.known.get_mut(id.0).into_iter().for_each(|is_known| *is_known = true);
            return Ok(true);
        }
        let mut terms = linear::terms(recipe, part, &self.formula.parts, self.pieces_for(part))?;
        for (line, term) in part.lines.iter().zip(&mut terms) {
            if *term == Term::Waits
                && let Some(once) = self.made_once(line)
            {
                *term = once;
            }
            if let (Refers::Part(other), Term::Fixed(mass)) = (&line.refers, *term)
                && left_out::takes_what_is_there(line)
            {
                let mass = mass.times(self.left_out.there(*other, line))?;
                let share = if line.is_lifted_out() && line.amount == LineAmount::All {
                    self.pieces(*other)?
                } else {
                    Number::ONE
                };
                *term = Term::Fixed(mass.times(share)?);
            }
        }
        let all = linear::sum(part, &terms, Ingredient::stays_in)?;
        if all.waits || linear::sum(part, &terms, |line| line.strained_out)?.waits {
            return Ok(false);
        }
        let base = match self.base_of(id, part, &terms, &all)? {
            BaseNow::Base(base) => base,
            BaseNow::Waits => return Ok(false),
        };
        self.store(id, part, &terms, &all, base)?;
        Ok(true)
    }

    /// `all` of a part of a used recipe: what that makes in its own file. `None` for a part of this recipe.
    fn made_once(&self, line: &Ingredient) -> Option<Term> {
        let Refers::Part(id) = line.refers else { return None };
        let foreign = self.recipe.part(id)?.foreign?;
        let makes = self.used_part(foreign)?.as_written().makes;
        let left = self.formula.part(id).and_then(|part| part.oven).unwrap_or(Number::ONE);
        Some(makes.and_then(|makes| makes.times(left).ok()).map_or(Term::Unknown, Term::Fixed))
    }

    fn base_of(&self, id: PartId, part: &Part, terms: &[Term], all: &Sum) -> Result<BaseNow, Overflow> {
        let Some((base, _)) = &part.base else { return Ok(BaseNow::Base(None)) };
        let sum = linear::sum(part, terms, |line| linear::in_base(base, line))?;
        let left = sum.share.rest()?;
        if sum.fixed > Mass::ZERO {
            // Lines of the base that are percentages of the base themselves leave less than all of it to the others.
            let possible = left.value().is_positive();
            return Ok(BaseNow::Base(if possible { Some(sum.fixed.over(left.value())?) } else { None }));
        }
        // Only percentages: the size must come from somewhere else.
        for (line, term) in part.lines.iter().zip(terms) {
            if let (Term::Share(share), Some(mass)) = (term, self.also_said_as_mass(part, line))
                && share.value().is_positive()
            {
                return Ok(BaseNow::Base(Some(mass?.over(share.value())?)));
            }
            if let (Term::Fixed(mass), Some(share)) = (term, also_said_as_share(line))
                && share.value().is_positive()
            {
                return Ok(BaseNow::Base(Some(mass.over(share.value())?)));
            }
        }
        if all.unknown || !all.share.value().is_positive() {
            return Ok(BaseNow::Base(None));
        }
        let goes_in = match self.wanted_in(id, part)? {
            Wanted::Mass(mass) => mass,
            Wanted::Nothing => return Ok(BaseNow::Waits),
        };
        let base = all.base_for(goes_in)?;
        Ok(BaseNow::Base(Some(base).filter(|base| base.value().is_positive())))
    }

    /// The pieces that a part by the piece is for.
    fn pieces_for(&self, part: &Part) -> Option<Count> {
        match &part.sort {
            Some(sort) => self.recipe.sort(sort).map(|sort| sort.count),
            None => self.formula.pieces,
        }
    }

    /// A percentage line that also says its mass.
    fn also_said_as_mass(&self, part: &Part, line: &Ingredient) -> Option<Result<Mass, Overflow>> {
        let LineAmount::Said(said) = &line.amount else { return None };
        let weighed = said.iter().skip(1).filter(|said| said.mass().is_some());
        weighed
            .chain(said.iter().skip(1))
            .find_map(|said| linear::weigh_line(self.recipe, &self.formula.parts, part, line, said))
    }

    /// What must go into a part: from `divide`, from `makes`, or from what the other parts need.
    fn wanted_in(&self, id: PartId, part: &Part) -> Result<Wanted, Overflow> {
        if let Some(divide) = part.divide {
            let out = divide.each.times(divide.count.value())?;
            return linear::before_loss(out, divide.loss).map(Wanted::Mass);
        }
        if let Some(makes) = part.makes.or(self.head_mass(id)) {
            return linear::before_loss(makes.mass, makes.loss).map(Wanted::Mass);
        }
        Ok(match self.demand(id)? {
            Some(demand) => Wanted::Mass(demand.plus(part.spare.map_or(Mass::ZERO, |(mass, _)| mass))?),
            None => Wanted::Nothing,
        })
    }

    /// What the head says that the recipe makes, where this is the part that it is about.
    fn head_mass(&self, id: PartId) -> Option<MakesMass> {
        match &self.recipe.makes {
            Some(HeadMakes::Mass(makes)) if self.recipe.final_part() == Some(id) => Some(*makes),
            _ => None,
        }
    }

    /// What the other parts take of a part; `None` while one of them is not settled, or when none takes any.
    pub(super) fn demand(&self, id: PartId) -> Result<Option<Mass>, Overflow> {
        let mut total = None;
        for (user, line) in self.recipe.users(id) {
            // A preferment takes the part out of a line of the total formula, which already counts it.
            if self.recipe.part(user).is_some_and(|part| part.from.is_some()) {
                continue;
            }
            // What comes from the store is not made here; of what is not made at all the size is what is taken of it.
            if self.is_made(id) && !self.makes_for(user, line) {
                continue;
            }
            let Some(mass) = self.line_mass(user, line)? else {
                if self.is_settled(user) {
                    continue;
                }
                return Ok(None);
            };
            total = Some(total.unwrap_or(Mass::ZERO).plus(self.taken_of(id, user, line, mass)?)?);
        }
        Ok(total)
    }

    /// What a line takes of a part, counted in as much as all its steps make: of what is not drawn nothing is taken, and before its
    /// last steps there is less of it.
    fn taken_of(&self, id: PartId, user: PartId, at: usize, mass: Mass) -> Result<Mass, Overflow> {
        let Some(line) = self.recipe.part(user).and_then(|part| part.lines.get(at)) else { return Ok(mass) };
        let goes_in = if self.is_made(id) { self.left_out.goes_in(user, at) } else { Number::ONE };
        let mass = mass.times(goes_in)?.over(self.left_out.there(id, line))?;
        // What is taken drained leaves its liquid behind: of so many pieces there is more in the pot.
        if line.is_lifted_out() { mass.over(self.pieces(id)?) } else { Ok(mass) }
    }

    /// How much of a part is its pieces, of 1, where something that is poured in lies round them.
    fn pieces(&self, id: PartId) -> Result<Number, Overflow> {
        let Some(part) = self.recipe.part(id) else { return Ok(Number::ONE) };
        let pieces = match part.foreign {
            Some(at) => match (self.recipe.used.get(at.recipe), self.used.get(at.recipe).copied().flatten()) {
                (Some(used), Some(formula)) => pieces_of(&used.recipe, formula, at.part)?,
                _ => Pieces::Unknown,
            },
            None if self.is_settled(id) => pieces_of(self.recipe, self.formula, id)?,
            None => {
                let terms = linear::terms(self.recipe, part, &self.formula.parts, self.pieces_for(part))?;
                pieces_of_shares(part, &terms)?
            }
        };
        Ok(pieces.known().value())
    }

    fn is_made(&self, id: PartId) -> bool {
        self.made.get(id.0) == Some(&true)
    }

    /// Whether something is made for a line: its part is made, and it does not take from the store.
    fn makes_for(&self, user: PartId, line: usize) -> bool {
        let is_out = self.left_out.is_out(user, line);
        let line = self.recipe.part(user).and_then(|part| part.lines.get(line));
        self.is_made(user) && line.is_some_and(|line| !line.from_store) && !is_out
    }

    fn line_mass(&self, part: PartId, line: usize) -> Result<Option<Mass>, Overflow> {
        Ok(self.formula.part(part).and_then(|part| part.lines.get(line)).and_then(|line| line.mass))
    }

    /// A preferment's percentages are of the base of the total formula.
    fn settle_preferment(&mut self, id: PartId, part: &Part, from: PartId) -> Result<bool, Overflow> {
        if !self.is_settled(from) {
            return Ok(false);
        }
        let Some(total_solved) = self.formula.part(from) else { return Ok(true) };
        let base = total_solved.base;
        let mut terms = linear::terms(self.recipe, part, &self.formula.parts, self.pieces_for(part))?;
        for (line, term) in part.lines.iter().zip(&mut terms) {
            if *term != Term::Waits {
                continue;
            }
            let mass = line.in_total.and_then(|at| total_solved.lines.get(at)).and_then(|line| line.mass);
            *term = mass.map_or(Term::Unknown, Term::Fixed);
        }
        let all = linear::sum(part, &terms, Ingredient::stays_in)?;
        self.store(id, part, &terms, &all, base)?;
        Ok(true)
    }

    /// A part of a used recipe is its own formula, at the size that this recipe needs.
    fn settle_foreign(&mut self, id: PartId, part: &Part) -> Result<bool, Overflow> {
        let Some(foreign) = part.foreign else { return Ok(true) };
        let users_settled = self.recipe.users(id).all(|(user, _)| self.is_settled(user));
        if !users_settled || part.from.is_some_and(|from| !self.is_settled(from)) {
            return Ok(false);
        }
        let original = self.used_part(foreign).map(SolvedPart::as_written).cloned();
        let Some(mut original) = original else { return Ok(true) };
        let oven = self.formula.part(id).and_then(|part| part.oven);
        original.oven = oven;
        original.makes = original.makes.map(|makes| makes.times(oven.unwrap_or(Number::ONE))).transpose()?;
        let factor = match part.from {
            // A preferment grows with the dough it is taken out of.
            Some(from) => self.growth(from)?,
            None => match (self.demand(id)?, original.makes) {
                (Some(demand), Some(makes)) if makes > Mass::ZERO => Some(demand.ratio(makes)?),
                _ => None,
            },
        };
        let Some(factor) = factor else { return Ok(true) };
        let mut scaled = original.times(factor)?;
        // Its pieces are those of its own recipe, and not of the one that takes it.
        if part.per_piece && part.sort.is_none() {
            let own = self.used.get(foreign.recipe).copied().flatten().and_then(|used| used.pieces);
            scaled.pieces = own.map(|pieces| pieces.times(factor)).transpose()?;
        }
        scaled.each_there = original.each.filter(|_| part.divide.is_some());
        scaled.whole_pieces()?;
        if let Some(slot) = self.formula.parts.get_mut(id.0) {
            let none = Composition::default();
            *slot = SolvedPart {
                balance: Balance::default(),
                composition: none,
                comes_out: none,
                early: Vec::new(),
                ..scaled
            };
        }
        Ok(true)
    }

    /// A part of a used recipe as it stands in its own file.
    fn used_part(&self, at: crate::model::recipe::Foreign) -> Option<&SolvedPart> {
        self.used.get(at.recipe).copied().flatten()?.part(at.part)
    }

    /// How many times its own size a part of a used recipe is made.
    pub(super) fn growth(&self, id: PartId) -> Result<Option<Number>, Overflow> {
        let foreign = self.recipe.part(id).and_then(|part| part.foreign);
        let original = foreign.and_then(|at| self.used_part(at)?.as_written().goes_in);
        let now = self.formula.part(id).and_then(|part| part.goes_in);
        match (original, now) {
            (Some(original), Some(now)) if original > Mass::ZERO => now.ratio(original).map(Some),
            _ => Ok(None),
        }
    }

    fn store(
        &mut self,
        id: PartId,
        part: &Part,
        terms: &[Term],
        all: &Sum,
        base: Option<Mass>,
    ) -> Result<(), Overflow> {
        let pieces = self.pieces_for(part);
        let lines = part.lines.iter().zip(terms).map(|(line, term)| solved_line(part, line, *term, base, pieces));
        let lines = lines.collect::<Result<Vec<SolvedLine>, Overflow>>()?;
        let complete = !all.unknown && (base.is_some() || !all.share.value().is_positive());
        let stays = if complete { Some(all.at(base)?) } else { None };
        // What is strained out and has no known weight, a leaf or two, does not keep the rest from being weighed.
        let out_again = linear::sum(part, terms, |line| line.strained_out && !line.aside)?.at(base)?;
        let goes_in = stays.map(|stays| stays.plus(out_again)).transpose()?;
        let makes_line = part.makes.or(self.head_mass(id));
        let divided = part.divide.map(|divide| divide.each.times(divide.count.value())).transpose()?;
        let needs = divided.or(makes_line.map(|makes| makes.mass));
        let out = needs.or(stays);
        let loss = match (stays, needs) {
            (Some(stays), Some(needs)) => linear::loss_between(stays, needs)?,
            _ => None,
        };
        if let Some(slot) = self.formula.parts.get_mut(id.0) {
            *slot = SolvedPart {
                base: base.filter(|_| part.base_or_from()),
                lines,
                goes_in,
                stays,
                makes: out,
                // A part `per SORT` is in as many pieces as there are of the sort.
                pieces: part.divide.map(|divide| divide.count).or(pieces.filter(|_| part.sort.is_some())),
                each: part.divide.map(|divide| divide.each).filter(|_| part.sorts.is_empty()),
                sorts: part.sorts.iter().map(|sort| sort.count).collect(),
                needs,
                loss,
                is_made: true,
                ..SolvedPart::default()
            };
        }
        if let Some(from) = part.from {
            self.take_out(id, from)?;
        }
        Ok(())
    }

    /// Takes a preferment's lines out of the final mix of its total formula.
    fn take_out(&mut self, preferment: PartId, from: PartId) -> Result<(), Overflow> {
        let Some(taking) = self.recipe.part(preferment) else { return Ok(()) };
        let taken: Vec<Option<Mass>> = self
            .formula
            .part(preferment)
            .map_or_else(Vec::new, |part| part.lines.iter().map(|line| line.mass).collect());
        for (line, mass) in taking.lines.iter().zip(taken) {
            let slot = line.in_total.and_then(|at| self.formula.parts.get_mut(from.0)?.lines.get_mut(at));
            if let (Some(slot), Some(mass)) = (slot, mass) {
                slot.final_mix = slot.final_mix.map(|left| left.minus(mass)).transpose()?;
            }
        }
        Ok(())
    }
}

enum BaseNow {
    Base(Option<Mass>),
    Waits,
}

enum Wanted {
    Mass(Mass),
    Nothing,
}

fn also_said_as_share(line: &crate::model::recipe::Ingredient) -> Option<Proportion> {
    let LineAmount::Said(said) = &line.amount else { return None };
    said.iter().skip(1).find_map(crate::measure::value::Said::proportion)
}

/// A line once the base of its part is known.
fn solved_line(
    part: &Part,
    line: &Ingredient,
    term: Term,
    base: Option<Mass>,
    pieces: Option<Count>,
) -> Result<SolvedLine, Overflow> {
    let mass = linear::mass_at(term, base)?;
    let percent = match (term, mass, base) {
        (Term::Share(share), _, _) => Some(share),
        (_, Some(mass), Some(base)) if base > Mass::ZERO && part.base_or_from() => Some(mass.as_share_of(base)?),
        _ => None,
    };
    let each = match (part.per_piece, mass, pieces) {
        (true, Some(mass), Some(pieces)) => Some(mass.over(pieces.value())?),
        _ => None,
    };
    let said = match &line.amount {
        LineAmount::Said(said) => natural(part, said.first().map(|said| said.value), pieces)?,
        _ => None,
    };
    let natural = said.filter(|_| mass.is_none());
    let measure = said
        .filter(|said| matches!(said, Value::Volume(_) | Value::Count(_)) && matches!(line.refers, Refers::Pantry(_)));
    Ok(SolvedLine { mass, percent, natural, measure, final_mix: mass, each, left_out: false, filled_before: false })
}

/// What stands on a line, for the whole batch; nothing for a percentage.
fn natural(part: &Part, value: Option<Value>, pieces: Option<Count>) -> Result<Option<Value>, Overflow> {
    match (value, part.per_piece, pieces) {
        (Some(Value::Proportion(_)) | None, _, _) => Ok(None),
        (Some(value), true, Some(pieces)) => value.times(pieces.value()).map(Some),
        (Some(_), true, None) => Ok(None),
        (Some(value), false, _) => Ok(Some(value)),
    }
}

/// Where to put an overflow: the first amount of the part.
fn overflowing_span(part: &Part) -> crate::text::source::Span {
    part.lines.first().map_or(part.name.span, |line| line.amount_span)
}

impl Part {
    /// Whether its lines have percentages: of its own base, or of its total formula's.
    pub fn base_or_from(&self) -> bool {
        self.base.is_some() || self.from.is_some()
    }

    /// Whether a line of it draws on that part.
    pub fn draws_on(&self, id: PartId) -> bool {
        self.lines.iter().any(|line| line.refers == Refers::Part(id))
    }
}
