//! The formula: every amount of every part, found exactly.
//!
//! Within a part all amounts are a fixed mass plus a share of the base; between parts a line is a share of what the other
//! part makes. That system is triangular as long as no part draws on itself, so it is solved by going round the parts
//! until no more can be settled; what is left has nothing that fixes its size.

mod balance;
pub(crate) mod composition;
mod cycle;
mod dough;
pub mod fed;
pub mod heated;
pub(crate) mod leaves;
pub(crate) mod left_out;
pub(crate) mod linear;
pub mod pieces_in_liquid;
mod same_amounts;
pub mod serving;
mod settle;
mod solve;
mod spare;
mod sum;
pub mod unsettled;
mod uses;

pub use balance::Balance;
pub use composition::{Composition, Unknown};
pub use left_out::Early;
pub use uses::{Draw, Drawn};

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::value::Value;
use crate::model::contains::{self, Allergenic};
use crate::model::flow;
use crate::model::noted::{self, Noted, NotedParts};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::Target;
use crate::text::diagnostic::Diagnostic;

/// A line with its amount found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SolvedLine {
    /// Its mass in the whole batch; `None` when it has none (to taste) or its weight is not known.
    pub mass: Option<Mass>,
    /// Its share of the base.
    pub percent: Option<Proportion>,
    /// What was written when it has no mass: two eggs, a cup, scaled to the batch.
    pub natural: Option<Value>,
    /// The litres, cups or pieces that it was said in, scaled to the batch; `None` for weights and percentages.
    pub measure: Option<Value>,
    /// What is left for the final mix when preferments have taken theirs; equal to `mass` without preferments.
    pub final_mix: Option<Mass>,
    /// Its mass for one piece, in a part by the piece.
    pub each: Option<Mass>,
    /// Whether only steps that are left out would draw it: nothing of it goes in, and it has no amount.
    pub left_out: bool,
    /// Whether it is fat that is in its fryer already, filled in for an order before this one: it has no amount either.
    pub filled_before: bool,
}

/// A part with its amounts found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SolvedPart {
    /// What 100 % is.
    pub base: Option<Mass>,
    /// Its lines, in the order of [`crate::model::recipe::Part::lines`].
    pub lines: Vec<SolvedLine>,
    /// All that goes in, without what is set aside for dusting and greasing; `None` when some weight is not known.
    pub goes_in: Option<Mass>,
    /// What of that stays in what is made: without what is strained out.
    pub stays: Option<Mass>,
    /// What comes out; of a part of another recipe, of the oven there.
    pub makes: Option<Mass>,
    /// What the oven of its own recipe leaves of a part that is drawn from there, of 1, as the `bake loss` of that recipe's head says: a
    /// weight of it is one of what was baked. `None` where no oven takes of it, or the part says so by itself.
    pub oven: Option<Number>,
    /// The pieces it is divided into.
    pub pieces: Option<Count>,
    /// What one of them weighs; `None` where there are several sorts.
    pub each: Option<Mass>,
    /// What one of them weighs in its own recipe, where it is a part of a used recipe that is divided there.
    pub each_there: Option<Mass>,
    /// How many pieces of each sort, in the order of [`crate::model::recipe::Part::sorts`].
    pub sorts: Vec<Count>,
    /// How many times what is written a piece of each sort weighs, where all of an ingredient is used up; `None` where it weighs that.
    pub heavier: Option<Number>,
    /// What `divide` or `makes` needs to come out: pieces times their weight, or the mass said.
    pub needs: Option<Mass>,
    /// What is really lost between going in and coming out.
    pub loss: Option<Proportion>,
    /// What the other parts take of it.
    pub balance: Balance,
    /// How the braces in its steps draw on its lines.
    pub draws: Noted<Vec<Draw>, { noted::STEPS }>,
    /// What goes into it, counting the parts in it.
    pub composition: Composition,
    /// What comes out of it: less the water that a part with `makes` loses.
    pub comes_out: Composition,
    /// The share of its flour that is fermented before the mix.
    pub prefermented: Option<Proportion>,
    /// For a preferment: what is made of it besides what goes into its total formula, to be left over or for other parts. Nothing else here
    /// counts it; [`SolvedPart::whole`] does.
    pub extra: Option<Mass>,
    /// What of that is to be left over.
    pub spare: Option<Mass>,
    /// What is taken of it before a step, for uses for which that step and what comes after it are not done.
    pub early: Vec<Early>,
    /// The part as it would be if all its steps were done for all of it; `None` where it is so.
    pub written: Option<Box<SolvedPart>>,
    /// Whether anything of it is made: a part of a used recipe that nothing draws on is not, nor what is taken from the store.
    pub is_made: bool,
    /// Whether its size was found at all.
    pub is_settled: bool,
}

impl SolvedPart {
    /// Whether it is the same as another but for how its steps draw on its lines.
    pub(crate) fn is_same_but_for_draws(&self, other: &SolvedPart) -> bool {
        // Each field is named, so that none is forgotten that is added.
        let SolvedPart {
            base,
            lines,
            goes_in,
            stays,
            makes,
            oven,
            pieces,
            each,
            each_there,
            sorts,
            heavier,
            needs,
            loss,
            balance,
            draws: _,
            composition,
            comes_out,
            prefermented,
            extra,
            spare,
            early,
            written,
            is_made,
            is_settled,
        } = self;
        *lines == other.lines
            && *base == other.base
            && *goes_in == other.goes_in
            && *stays == other.stays
            && *makes == other.makes
            && *oven == other.oven
            && *pieces == other.pieces
            && *each == other.each
            && *each_there == other.each_there
            && *sorts == other.sorts
            && *heavier == other.heavier
            && *needs == other.needs
            && *loss == other.loss
            && *balance == other.balance
            && *composition == other.composition
            && *comes_out == other.comes_out
            && *prefermented == other.prefermented
            && *extra == other.extra
            && *spare == other.spare
            && *early == other.early
            && *written == other.written
            && *is_made == other.is_made
            && *is_settled == other.is_settled
    }

    /// A share of the part's flour, as a figure that says how it was found: `on_flour(|makeup| makeup.fat, |unknown| unknown.fat)`.
    fn on_flour(&self, of: fn(&Composition) -> Option<Proportion>, unknown: fn(&Unknown) -> Mass) -> Option<OnFlour> {
        let makeup = &self.composition;
        // A line without a weight counts as nothing too, and nobody knows how much that is.
        let is_least = makeup.is_much(unknown(&makeup.unknown)) || self.goes_in.is_none();
        of(makeup).map(|share| OnFlour { share, is_least, is_about: makeup.is_much(makeup.unknown.fed) })
    }

    /// Water on flour; `None` without flour.
    pub fn hydration(&self) -> Option<OnFlour> {
        self.on_flour(Composition::hydration, |unknown| unknown.water)
    }

    /// Salt on flour; `None` without flour.
    pub fn salt_on_flour(&self) -> Option<OnFlour> {
        self.on_flour(Composition::salt_on_flour, |unknown| unknown.salt)
    }

    /// Sugar on flour; `None` without flour.
    pub fn sugar_on_flour(&self) -> Option<OnFlour> {
        self.on_flour(Composition::sugar_on_flour, |unknown| unknown.sugar)
    }

    /// Fat on flour; `None` without flour.
    pub fn fat_on_flour(&self) -> Option<OnFlour> {
        self.on_flour(Composition::fat_on_flour, |unknown| unknown.fat)
    }
}

/// A share on flour, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnFlour {
    /// The share, of what is known.
    pub share: Proportion,
    /// Whether it may be more: over 2 % of the part is of what the larder does not know it, or a line has no weight.
    pub is_least: bool,
    /// Whether over 2 % of the part is a leaven of which nobody says how it was fed: it is counted as of equal weights of flour and water,
    /// and the share may be more or less.
    pub is_about: bool,
}

impl OnFlour {
    /// The word before the figure: `at least`, `about`, or nothing.
    pub fn bound(self) -> &'static str {
        match (self.is_least, self.is_about) {
            (true, true) => "at least about",
            (true, false) => "at least",
            (false, true) => "about",
            (false, false) => "",
        }
    }
}

/// A recipe's amounts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Formula {
    /// The parts, in the order of [`Recipe::parts`].
    pub parts: NotedParts<SolvedPart>,
    /// The recipe's pieces, when it is made in pieces.
    pub pieces: Option<Count>,
}

impl Formula {
    /// Works out a recipe's amounts. What cannot be worked out is `None` there and reported.
    pub fn of(recipe: &Recipe, diagnostics: &mut Vec<Diagnostic>) -> Formula {
        Formula::beside(recipe, &[], diagnostics)
    }

    /// As [`Formula::of`], beside the same recipe under other selections, in which nothing was wrong: of parts that are the same there
    /// not everything is worked out again.
    pub fn beside(recipe: &Recipe, others: &[(&Recipe, &Formula)], diagnostics: &mut Vec<Diagnostic>) -> Formula {
        solve::solve(recipe, others, diagnostics)
    }

    /// The part of that number.
    pub fn part(&self, id: PartId) -> Option<&SolvedPart> {
        self.parts.get(id.0)
    }

    /// Whether anything of a part is made.
    pub fn is_made(&self, id: PartId) -> bool {
        self.part(id).is_some_and(|part| part.is_made)
    }

    /// The parts of which something is made.
    pub fn made<'a>(&'a self, recipe: &'a Recipe) -> impl Iterator<Item = (PartId, &'a Part)> {
        recipe.parts().filter(|(id, _)| self.is_made(*id))
    }

    /// The parts that a batch consists of: its own, and of what another batch of the day makes that of which it takes some.
    fn drawn_parts(&self, recipe: &Recipe) -> impl Iterator<Item = PartId> {
        let draws_on = |id: PartId| self.part(id).is_some_and(|part| part.makes > Some(Mass::ZERO));
        let unwanted = self.unwanted(recipe);
        let is_wanted = move |id: PartId| unwanted.get(id.0) != Some(&true);
        let drawn = recipe.parts().filter(move |(id, part)| part.foreign.is_none() || draws_on(*id)).map(|(id, _)| id);
        drawn.filter(move |id| is_wanted(*id))
    }

    /// What one piece of the recipe weighs before baking: of the part that is made in pieces, or all that goes into one.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn piece_weight(&self, recipe: &Recipe) -> Result<Option<Mass>, Overflow> {
        let Some(id) = recipe.final_part() else { return Ok(None) };
        let Some(solved) = self.part(id) else { return Ok(None) };
        if let Some(each) = solved.each {
            return Ok(Some(each));
        }
        self.per_piece(recipe, id)
    }

    /// What one piece takes of a part that is divided among the pieces.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn per_piece(&self, recipe: &Recipe, id: PartId) -> Result<Option<Mass>, Overflow> {
        let is_by_piece = recipe.part(id).is_some_and(|part| part.per_piece);
        match (self.part(id).and_then(|part| part.stays), recipe.part(id).and_then(|part| self.pieces_for(part, id))) {
            (Some(mass), Some(pieces)) if is_by_piece && pieces.value().is_positive() => {
                mass.over(pieces.value()).map(Some)
            }
            _ => Ok(None),
        }
    }

    /// The parts that are what the recipe makes: its last, and where that is of one sort of a dough, those of the other sorts too.
    pub fn sold(&self, recipe: &Recipe) -> Vec<PartId> {
        let is_of_sort = |id: &PartId| {
            let part = recipe.part(*id).filter(|part| part.foreign.is_none() && part.sort.is_some());
            part.is_some() && self.is_made(*id)
        };
        let all: Vec<PartId> = flow::ends(recipe).filter(is_of_sort).collect();
        match recipe.final_part() {
            Some(last) if recipe.part(last).is_some_and(|part| part.sort.is_some()) && !all.is_empty() => all,
            last => last.into_iter().collect(),
        }
    }

    /// What all of that weighs; `None` where some of it has no known weight.
    pub fn makes(&self, recipe: &Recipe) -> Option<Mass> {
        let masses = self.sold(recipe).into_iter().map(|id| self.part(id)?.makes);
        Mass::sum(masses.collect::<Option<Vec<Mass>>>()?).ok()
    }

    /// Whether something that the recipe hands over is made, and not only parts for others or for the store.
    pub fn hands_over(&self, recipe: &Recipe) -> bool {
        let is_made = |id: PartId| self.is_made(id);
        flow::ends(recipe).any(is_made) || !recipe.parts().any(|(id, _)| is_made(id))
    }

    /// The pieces that a part by the piece is made for: the recipe's, or those of its sort.
    pub fn pieces_for(&self, part: &Part, id: PartId) -> Option<Count> {
        match (&part.sort, part.foreign) {
            (None, None) => self.pieces,
            _ => self.part(id)?.pieces,
        }
    }

    /// The formula for so many times the batch.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn times(&self, factor: Number) -> Result<Formula, Overflow> {
        let mut parts = Vec::with_capacity(self.parts.len());
        for part in &self.parts {
            parts.push(part.times(factor)?);
        }
        let pieces = self.pieces.map(|count| count.times(factor)).transpose()?;
        Ok(Formula { parts: parts.into(), pieces })
    }

    /// Which allergens are in what a batch consists of.
    pub fn allergens(&self, recipe: &Recipe) -> Allergenic {
        let is_out = |id, line| self.is_left_out(id, line);
        // Of a dough that is made for others nothing is in it that goes onto what they make of it.
        if !self.hands_over(recipe) {
            let made = recipe.parts().map(|(id, _)| id).filter(|id| self.is_made(*id));
            return contains::of_parts(recipe, made, is_out);
        }
        contains::of_parts(recipe, self.drawn_parts(recipe), is_out)
    }

    /// Whether only steps that are left out would draw a line, so that nothing of it goes in.
    pub fn is_left_out(&self, id: PartId, line: usize) -> bool {
        self.part(id).and_then(|part| part.lines.get(line)).is_some_and(|line| line.left_out)
    }
}

impl SolvedPart {
    /// What comes out of it before the oven of its own recipe takes of it.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn makes_before_oven(&self) -> Result<Option<Mass>, Overflow> {
        match (self.makes, self.oven) {
            (Some(makes), Some(oven)) => makes.over(oven).map(Some),
            (makes, _) => Ok(makes),
        }
    }

    /// The part as its own recipe has it, where a weight is that of the dough, and a preferment is the part there that `there` says.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn as_in_its_recipe(&self, there: &impl Fn(PartId) -> Option<PartId>) -> Result<SolvedPart, Overflow> {
        let written = self.written.as_ref().map(|written| written.as_in_its_recipe(there)).transpose()?.map(Box::new);
        let mut part = SolvedPart { makes: self.makes_before_oven()?, oven: None, written, ..self.clone() };
        part.early = self.early_before_oven()?;
        for draw in &mut part.draws {
            if let Target::Preferment(id) = &mut draw.target {
                *id = there(*id).unwrap_or(*id);
            }
        }
        Ok(part)
    }

    /// The part for so many times the batch.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn times(&self, factor: Number) -> Result<SolvedPart, Overflow> {
        let mass = |mass: Option<Mass>| mass.map(|mass| mass.times(factor)).transpose();
        let mut part = self.clone();
        part.base = mass(part.base)?;
        part.goes_in = mass(part.goes_in)?;
        part.stays = mass(part.stays)?;
        part.makes = mass(part.makes)?;
        part.needs = mass(part.needs)?;
        part.extra = mass(part.extra)?;
        part.spare = mass(part.spare)?;
        part.pieces = part.pieces.map(|count| count.times(factor)).transpose()?;
        for sort in &mut part.sorts {
            *sort = sort.times(factor)?;
        }
        part.balance = part.balance.times(factor)?;
        part.composition = part.composition.times(factor)?;
        part.comes_out = part.comes_out.times(factor)?;
        for line in &mut part.lines {
            line.mass = mass(line.mass)?;
            line.final_mix = mass(line.final_mix)?;
            line.natural = line.natural.map(|value| value.times(factor)).transpose()?;
            line.measure = line.measure.map(|value| value.times(factor)).transpose()?;
        }
        for early in &mut part.early {
            *early = early.times(factor)?;
        }
        for draw in &mut part.draws {
            *draw = draw.times(factor)?;
        }
        if let Some(written) = &mut part.written {
            **written = written.times(factor)?;
        }
        part.whole_pieces()?;
        Ok(part)
    }

    /// A weight that is taken of what is divided in its own recipe may be a hair more or less than whole pieces weigh, at each size of the
    /// batch another. Nobody divides into 3.99: they are as many as are nearest, and each is that hair lighter or heavier, by half a
    /// hundredth at most (common practice, no source).
    fn whole_pieces(&mut self) -> Result<(), Overflow> {
        let (Some(pieces), Some(each), Some(there)) = (self.pieces, self.each, self.each_there) else { return Ok(()) };
        if there <= Mass::ZERO {
            return Ok(());
        }
        let all = each.times(pieces.value())?;
        let pieces = all.ratio(there)?;
        let whole = pieces.rounded_to(Number::ONE)?;
        let off = whole.minus(pieces)?.size();
        let is_near = whole.is_positive() && off <= pieces.times(Number::constant(5, 1000))?;
        let pieces = if is_near { whole } else { pieces };
        self.each = Some(if is_near { all.over(whole)? } else { there });
        self.pieces = Some(Count::new(pieces));
        Ok(())
    }
}
