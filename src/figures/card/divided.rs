//! How a part is divided on its card, or what it makes where it is not.

use super::shares::rounded_share;
use super::{DivideCard, Maker, MakesCard, SortCard};
use crate::figures::sums::sections::pans;
use crate::make::weigh;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::show::{self, Units, WeighedIn};
use crate::measure::shown::Shown;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::Loads;
use crate::solve::formula::SolvedPart;

impl Maker<'_> {
    pub(super) fn divide(
        &self,
        (id, part): (PartId, &Part),
        solved: &SolvedPart,
    ) -> Result<Option<DivideCard>, Overflow> {
        match solved.pieces.filter(|_| !self.is_taken_by_weight(id, part)) {
            Some(pieces) => self.divided_into(pieces, part, solved),
            None => Ok(None),
        }
    }

    fn divided_into(&self, pieces: Count, part: &Part, solved: &SolvedPart) -> Result<Option<DivideCard>, Overflow> {
        let Some(divide) = part.divide else { return Ok(None) };
        let mut sorts = Vec::with_capacity(part.sorts.len());
        for (sort, count) in part.sorts.iter().zip(&solved.sorts).filter(|(_, count)| count.value().is_positive()) {
            let each = solved.each_of(sort)?;
            sorts.push(SortCard {
                name: sort.name.to_string(),
                pieces: count.value(),
                each,
                each_shown: if each == sort.each { self.as_said(each)? } else { self.to_a_tenth(each)? },
            });
        }
        let each = match solved.each {
            Some(each) => each,
            // On average, as far as there are pieces.
            None if pieces.value().is_positive() => solved.of_all_sorts(part)?.over(pieces.value())?,
            None => divide.each,
        };
        Ok(Some(DivideCard {
            pieces: pieces.value(),
            each,
            each_shown: if Some(each) == solved.each && each != divide.each {
                self.to_a_tenth(each)?
            } else {
                self.as_said(each)?
            },
            sorts,
            needs: each.times(pieces.value())?,
            stated_loss: divide.loss,
            actual_loss: solved.loss,
            lost: lost(solved.loss),
        }))
    }

    /// How what is left of a dough is divided of which others take some by weight before its last steps: who cuts it is told what one weighs.
    pub(super) fn divide_left(&self, id: PartId) -> Result<Option<DivideCard>, Overflow> {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Ok(None) };
        let is_plain = !solved.early.is_empty() && part.sorts.is_empty() && self.recipe.is_final(id);
        let (Some(pieces), Some(stays)) = (self.formula.pieces.filter(|_| is_plain), self.reaches_end(id)) else {
            return Ok(None);
        };
        let left = pieces.value().times(stays)?;
        if left.is_whole() && left.is_positive() { self.divided_into(Count::new(left), part, solved) } else { Ok(None) }
    }

    pub(super) fn makes_card(
        &self,
        (id, part): (PartId, &Part),
        solved: &SolvedPart,
    ) -> Result<Option<MakesCard>, Overflow> {
        if part.divide.is_some() {
            return if self.is_taken_by_weight(id, part) { self.undivided(solved) } else { Ok(None) };
        }
        let (Some(makes), Some(mass)) = (part.makes, solved.needs) else { return Ok(None) };
        let shown = match self.used_and_left(solved, mass)? {
            Some(sum) => show::mass_weighed(sum, self.units, WeighedIn::Alone),
            None => self.as_said(mass)?,
        };
        Ok(Some(MakesCard { mass, shown, stated_loss: makes.loss, actual_loss: solved.loss, lost: lost(solved.loss) }))
    }

    /// What a part makes, as the sum of what is used of it and what is left, as both are printed: 12 oz and 1.05 oz are 13.05 oz, and not the
    /// 13 oz of a scale that steps by quarters. It is said so where it is nearer to what is made than the scale by itself. In grams what was said is
    /// printed as it is, and adds up.
    pub(super) fn used_and_left(&self, solved: &SolvedPart, makes: Mass) -> Result<Option<Mass>, Overflow> {
        let used = solved
            .balance
            .used
            .filter(|used| self.units == Units::Us && *used < makes && solved.balance.makes == Some(makes));
        let Some(used) = used else { return Ok(None) };
        let used_shown = weigh::alone(used, &self.scales.by_the_piece())?.mass;
        let sum = used_shown.plus(weigh::alone(makes.minus(used)?, &self.scales)?.mass)?;
        let off = |shown: Mass| -> Result<Number, Overflow> { Ok(shown.minus(makes)?.ratio(makes)?.size()) };
        let is_nearer = off(sum)? < off(weigh::alone(makes, &self.scales)?.mass)?;
        Ok(is_nearer.then_some(sum))
    }

    /// What a part that is divided in its own file makes here, where nobody takes its pieces.
    pub(super) fn undivided(&self, solved: &SolvedPart) -> Result<Option<MakesCard>, Overflow> {
        let Some(mass) = solved.makes else { return Ok(None) };
        // What the oven of its own recipe takes of it is lost besides.
        let loss = match (solved.stays, solved.oven) {
            (Some(stays), Some(_)) if stays > Mass::ZERO => Some(Proportion::new(mass.ratio(stays)?).rest()?),
            _ => solved.loss,
        };
        let (shown, actual_loss) = (self.by_itself(mass)?, loss);
        Ok(Some(MakesCard { mass, shown, stated_loss: None, actual_loss, lost: lost(actual_loss) }))
    }

    /// What a part is baked in, and how many of them.
    pub(super) fn tin(&self, id: PartId) -> Result<Option<String>, Overflow> {
        let tins = pans::tins(self.recipe, self.formula, id)?;
        Ok(tins.map(|(count, pan)| match count == Number::ONE {
            true => pans::named(pan, self.units),
            false => format!("{}, {} of them", pans::named(pan, self.units), count.decimal(2)),
        }))
    }

    /// Whether a part of another recipe is taken by weight, so that the pieces of that recipe are none of this one's.
    fn is_taken_by_weight(&self, id: PartId, part: &Part) -> bool {
        let is_made = |user: PartId| self.formula.is_made(user);
        let line = |(user, line): (PartId, usize)| self.recipe.part(user)?.lines.get(line);
        let by_weight = |line: &Ingredient| !line.is_in_pieces();
        // Nobody cuts what is taken before that.
        let reach = |at: usize| self.formula.part(id).and_then(|solved| solved.reach(part, id, at).ok());
        // Whole pieces are taken as they are.
        let pieces = self.formula.part(id).and_then(|solved| solved.pieces);
        let are_whole = pieces.is_none_or(|pieces| pieces.value().is_whole());
        let is_done = |at: usize| are_whole || reach(at).is_none_or(|reach| reach.is_positive());
        part.foreign.is_some()
            && !part.steps.iter().enumerate().any(|(at, step)| step.loads != Loads::Once && is_done(at))
            && self.recipe.users(id).filter(|(user, _)| is_made(*user)).filter_map(line).any(by_weight)
    }
}

fn lost(loss: Option<Proportion>) -> Option<Shown> {
    loss.filter(|loss| loss.value().is_positive()).map(rounded_share)
}
