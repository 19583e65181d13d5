//! What is weighed into each bowl: the total formula is rounded first and then shared out among the dough and its preferments.

use super::Maker;
use crate::make::weigh::{self, Weighed};
use crate::measure::number::Overflow;
use crate::measure::quantity::Mass;
use crate::model::recipe::PartId;
use crate::solve::formula::{Formula, SolvedPart};

/// One line of the dough or of a preferment.
struct Share {
    part: PartId,
    line: usize,
    mass: Mass,
    /// The line of the total formula, by its place there.
    of: Option<usize>,
}

impl Maker<'_> {
    /// What is weighed for each line of a part's own bowl; `None` for what has no mass or is set aside.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub(super) fn weighed_lines(&self, id: PartId) -> Result<Vec<Option<Weighed>>, Overflow> {
        if let Some(known) = self.weighed.borrow().get(&id) {
            return Ok(known.clone());
        }
        let mut root = id;
        // A preferment may be taken out of a preferment, but not in a ring.
        for _ in 0..self.recipe.parts.len() {
            if self.top == Some(root) {
                break;
            }
            match self.recipe.part(root).and_then(|part| part.from) {
                Some(from) => root = from,
                None => break,
            }
        }
        let mut shares = Vec::new();
        self.gather(root, None, self.recipe.parts.len(), &mut shares);
        let weighed = self.share_out(&shares)?;
        let mut bowls = self.weighed.borrow_mut();
        for (share, weighed) in shares.iter().zip(weighed) {
            let lines = self.recipe.part(share.part).map_or(0, |part| part.lines.len());
            let bowl = bowls.entry(share.part).or_insert_with(|| vec![None; lines]);
            if let Some(slot) = bowl.get_mut(share.line) {
                *slot = Some(weighed);
            }
        }
        let lines = self.recipe.part(id).map_or(0, |part| part.lines.len());
        Ok(bowls.entry(id).or_insert_with(|| vec![None; lines]).clone())
    }

    /// The formula in which a preferment has the size in which it is mixed, with what is made of it to be left over; what it is
    /// made with grows with it. `None` where nothing is left over.
    pub(super) fn with_spare(&self, id: PartId) -> Result<Option<Formula>, Overflow> {
        let solved = self.formula.part(id);
        let Some(whole) = solved.map(SolvedPart::whole).transpose()?.flatten() else { return Ok(None) };
        let (Some(all), Some(used)) = (whole.makes, solved.and_then(|part| part.makes)) else { return Ok(None) };
        let grown = self.formula.times(all.ratio(used)?)?;
        let mut formula = self.formula.clone();
        let mut left = vec![id];
        // Whatever is taken out of it, by however many steps; there are at most as many as parts.
        for _ in 0..self.recipe.parts.len() {
            let Some(next) = left.pop() else { break };
            if let (Some(slot), Some(part)) = (formula.parts.get_mut(next.0), grown.part(next)) {
                *slot = if next == id { whole.clone() } else { part.clone() };
            }
            left.extend(self.recipe.preferments(next).map(|(inner, _)| inner));
        }
        Ok(Some(formula))
    }

    /// The shares of a part and of the preferments that are taken out of it; `places` says where its lines stand in the total
    /// formula.
    fn gather(&self, id: PartId, places: Option<&[Option<usize>]>, deepest: usize, shares: &mut Vec<Share>) {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return };
        let place = |line: usize| match places {
            Some(places) => {
                let above = part.lines.get(line).and_then(|line| line.in_total)?;
                places.get(above).copied().flatten()
            }
            None => Some(line),
        };
        let here: Vec<Option<usize>> = (0..part.lines.len()).map(place).collect();
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            if let Some(mass) = amount.final_mix.filter(|_| !line.aside) {
                shares.push(Share { part: id, line: at, mass, of: here.get(at).copied().flatten() });
            }
        }
        for (preferment, _) in self.recipe.preferments(id) {
            if let Some(deeper) = deepest.checked_sub(1) {
                self.gather(preferment, Some(&here), deeper, shares);
            }
        }
    }

    /// Rounds the total formula so that its lines add up, and shares each of its lines out.
    fn share_out(&self, shares: &[Share]) -> Result<Vec<Weighed>, Overflow> {
        let mut lines: Vec<(Option<usize>, Vec<usize>)> = Vec::new();
        for (at, share) in shares.iter().enumerate() {
            match lines.iter_mut().find(|(of, _)| of.is_some() && *of == share.of) {
                Some((_, list)) => list.push(at),
                None => lines.push((share.of, vec![at])),
            }
        }
        let mass = |at: &usize| shares.get(*at).map_or(Mass::ZERO, |share| share.mass);
        let mut totals = Vec::with_capacity(lines.len());
        for (_, list) in &lines {
            totals.push(Mass::sum(list.iter().map(mass))?);
        }
        let (weighed, _) = weigh::weigh_out(&totals, &self.scales)?;
        let mut all: Vec<Option<Weighed>> = vec![None; shares.len()];
        for ((_, list), total) in lines.iter().zip(weighed) {
            let masses: Vec<Mass> = list.iter().map(mass).collect();
            let parts = match masses.as_slice() {
                [_] => vec![total],
                masses => weigh::share_out(total.mass, masses, &self.scales)?,
            };
            for (at, one) in list.iter().zip(parts) {
                if let Some(slot) = all.get_mut(*at) {
                    *slot = Some(one);
                }
            }
        }
        Ok(all.into_iter().flatten().collect())
    }
}
