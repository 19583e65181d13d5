//! What is weighed into each bowl: the total formula is rounded first and then shared out among the dough and its preferments.

use super::Maker;
use super::load::WeighedLoad;
use super::mix_out::MixOut;
use crate::make::weigh::{self, Reading, ScaleUsed, Scales, Weighed};
use crate::measure::number::Overflow;
use crate::measure::quantity::Mass;
use crate::measure::show::Units;
use crate::model::bowl::preferment_before;
use crate::model::kitchen::Capacity;
use crate::model::recipe::{Part, PartId};
use crate::solve::formula::{Formula, SolvedPart};
use std::collections::HashMap;
use std::collections::hash_map::Entry;

/// One line of the dough or of a preferment.
#[derive(Clone, Copy)]
struct Share {
    part: PartId,
    line: usize,
    mass: Mass,
    /// The line of the total formula, by its place there.
    of: Option<usize>,
}

/// A bowl on the scale for everything.
#[derive(Clone, Copy)]
pub(super) struct Bowl {
    inside: Reading,
    /// The most that it or the scale carries.
    holds: Option<Mass>,
    step: Mass,
    /// Its step in ounces, where both systems are printed.
    ounces: Mass,
    /// Whether what is weighed finely is weighed on it too.
    takes_fine: bool,
}

impl Bowl {
    /// Puts something in and says what the scale then shows: its own steps. Nothing for what is weighed on another scale,
    /// nor beyond what the bowl holds.
    pub(super) fn add(&mut self, reading: Reading, scale: ScaleUsed) -> Result<Option<Reading>, Overflow> {
        self.inside = self.inside.plus(reading)?;
        let fits = self.holds.is_none_or(|most| self.inside.mass <= most);
        let to_step = |mass: Mass, step: Mass| mass.value().rounded_to(step.value()).map(Mass::new);
        let shows = Reading {
            mass: to_step(self.inside.mass, self.step)?,
            ounces: self.inside.ounces.map(|ounces| to_step(ounces, self.ounces)).transpose()?,
        };
        let is_here = scale == ScaleUsed::Main || (self.takes_fine && scale == ScaleUsed::Fine);
        Ok(Some(shows).filter(|_| fits && is_here && reading.mass > Mass::ZERO))
    }
}

/// What the scale shows of the preferments that are in the bowl.
pub(super) type Shows = Vec<(PartId, Option<Reading>)>;

impl Bowl {
    /// Puts the preferments of a mix in that go in before a line; those behind all lines before the line that is none.
    pub(super) fn add_before(
        &mut self,
        line: usize,
        (part, mix): (&Part, &MixOut),
        shows: &mut Shows,
    ) -> Result<(), Overflow> {
        for (id, reading) in mix.preferments.iter().filter(|(id, _)| preferment_before(part, *id) == line) {
            shows.push((*id, self.add(*reading, ScaleUsed::Main)?));
        }
        Ok(())
    }
}

impl Maker<'_> {
    /// The bowl that a part's mix goes into.
    pub(super) fn bowl(&self, part: &Part) -> Bowl {
        let kitchen = &self.recipe.kitchen;
        let holds = part.steps.iter().filter_map(|step| match kitchen.find(step.equipment.as_ref()?)?.holds? {
            Capacity::Mass(mass) => Some(mass),
            Capacity::Pieces(_) => None,
        });
        let holds = holds.chain(self.scales.main.up_to).min();
        // What is weighed piece by piece has no bowl.
        let holds = if part.per_piece { Some(Mass::ZERO) } else { holds };
        Bowl {
            inside: Reading::ZERO,
            holds,
            step: self.scales.step_of_a_bowl(),
            ounces: Scales::of(kitchen, Units::Us).step_of_a_bowl(),
            takes_fine: self.scales.are_one(),
        }
    }

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
        let own = self.as_authors_weigh(root, &shares, self.units == Units::Us)?;
        let mut weighed = self.share_out(&own, &self.scales)?;
        if self.units == Units::Both {
            // Each column adds up in itself, as it would where it stands alone.
            let own = self.as_authors_weigh(root, &shares, true)?;
            let in_ounces = self.share_out(&own, &Scales::of(&self.recipe.kitchen, Units::Us))?;
            for (one, ounces) in weighed.iter_mut().zip(in_ounces) {
                one.ounces = Some(ounces.mass);
            }
        }
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

    /// The shares as the author weighs them for who reads ounces, or grams: by the line of the total formula, so that its shares add up.
    fn as_authors_weigh(&self, root: PartId, shares: &[Share], ounces: bool) -> Result<Vec<Share>, Overflow> {
        let line = |part: PartId, line: usize| self.recipe.part(part)?.lines.get(line);
        let one = |share: &Share| {
            let said = share.of.and_then(|of| line(root, of)).or_else(|| line(share.part, share.line));
            let mass = said.map_or(Ok(share.mass), |line| line.as_its_author_weighs(share.mass, ounces))?;
            Ok(Share { mass, ..*share })
        };
        shares.iter().map(one).collect()
    }

    /// Rounds the total formula so that its lines add up, and shares each of its lines out.
    fn share_out(&self, shares: &[Share], scales: &Scales) -> Result<Vec<Weighed>, Overflow> {
        let mut lines: Vec<Vec<usize>> = Vec::new();
        // Which line of the total formula stands where, so that thousands of lines are not gone through for each of them.
        let mut places: HashMap<usize, usize> = HashMap::new();
        for (at, share) in shares.iter().enumerate() {
            match share.of.and_then(|of| places.get(&of)).and_then(|place| lines.get_mut(*place)) {
                Some(list) => list.push(at),
                None => {
                    places.extend(share.of.map(|of| (of, lines.len())));
                    lines.push(vec![at]);
                }
            }
        }
        let mass = |at: &usize| shares.get(*at).map_or(Mass::ZERO, |share| share.mass);
        let mut totals = Vec::with_capacity(lines.len());
        for list in &lines {
            totals.push(Mass::sum(list.iter().map(mass))?);
        }
        // What is weighed piece by piece is so many times the piece: no scale shows it at once.
        let per_piece =
            shares.first().is_some_and(|share| self.recipe.part(share.part).is_some_and(|part| part.per_piece));
        let scales = if per_piece { scales.by_the_piece() } else { *scales };
        let (weighed, _) = weigh::weigh_out(&totals, &scales)?;
        let mut all: Vec<Option<Weighed>> = vec![None; shares.len()];
        for (list, total) in lines.iter().zip(weighed) {
            let masses: Vec<Mass> = list.iter().map(mass).collect();
            let parts = match masses.as_slice() {
                [_] => vec![total],
                masses => weigh::share_out(total.mass, masses, &scales)?,
            };
            for (at, one) in list.iter().zip(parts) {
                if let Some(slot) = all.get_mut(*at) {
                    *slot = Some(one);
                }
            }
        }
        let mut all: Vec<Weighed> = all.into_iter().flatten().collect();
        self.so_many_loads(shares, &mut all, &scales)?;
        Ok(all)
    }

    /// What goes in load by load is in all so many times what the scale shows of one: 233 g would be no two times 116. What the scale shows
    /// of all of it as it is, somebody wrote.
    fn so_many_loads(&self, shares: &[Share], weighed: &mut [Weighed], scales: &Scales) -> Result<(), Overflow> {
        let mut known: HashMap<PartId, Option<WeighedLoad>> = HashMap::new();
        for (share, one) in shares.iter().zip(weighed) {
            let load = match known.entry(share.part) {
                Entry::Occupied(load) => load.into_mut(),
                Entry::Vacant(place) => place.insert(self.weighed_load(share.part, scales)?),
            };
            let Some((loads, lines)) = load else { continue };
            let Some(load) = lines.get(share.line).copied().flatten() else { continue };
            let is_finer = one.scale == ScaleUsed::Main && load.scale == ScaleUsed::Fine;
            if one.mass != share.mass || is_finer {
                *one = Weighed { mass: load.mass.times(*loads)?, ..load };
            }
        }
        Ok(())
    }
}
