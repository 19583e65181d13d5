//! A part of a card: its weigh-out, pieces, balance.

use super::bowls::Shows;
use super::load::OneLoad;
use super::mix_out::MixOut;
use super::packed;
use super::shares::{in_pieces, percent_digits, rounded_share, share};
use super::{
    BalanceCard, FromStoreCard, LeavesCard, LineCard, LoadCard, Maker, PartCard, PrefermentColumn, keeps_shown, spoons,
    texts,
};
use crate::figures::sums::sections::on_card;
use crate::language::syntax::TextKind;
use crate::make::mix::Today;
use crate::make::store::Taken;
use crate::make::weigh::{Reading, Scales, Weighed};
use crate::measure::number::Overflow;
use crate::measure::own_words::in_own_words;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::to_buy::mass_to_buy;
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};
use crate::model::bowl::{into_the_bowl, preferment_before};
use crate::model::recipe::{Base, Ingredient, LineAmount, Part, PartId, Refers};
use crate::solve::formula::heated;
use crate::solve::formula::{SolvedLine, SolvedPart};

impl Maker<'_> {
    pub(super) fn part(&self, id: PartId) -> Result<Option<PartCard>, Overflow> {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Ok(None) };
        if let Some(whole) = self.with_spare(id)? {
            // What is used of it is one figure on both cards.
            let is_all = solved.balance.used == solved.makes;
            let goes_on = if is_all { Some(self.mix_out(id)?.total) } else { None };
            return Maker { goes_on, ..self.of_its_own(&whole, id) }.part(id);
        }
        let mix = self.mix_out(id)?;
        let load = self.one_load(id, part, solved, &mix)?;
        let unit = self.column_unit(&mix, load.as_ref())?;
        let weighed = std::rc::Rc::clone(&self.weighed);
        let mut card = Maker { unit, weighed, ..*self }.part_of(id, (part, solved), &mix, load.as_ref())?;
        card.leave_out(|line| solved.lines.get(line).is_some_and(|line| line.left_out));
        Ok(Some(card))
    }

    fn part_of(
        &self,
        id: PartId,
        (part, solved): (&Part, &SolvedPart),
        mix: &MixOut,
        load: Option<&OneLoad>,
    ) -> Result<PartCard, Overflow> {
        let mut lines = Vec::with_capacity(part.lines.len());
        let mut bowl = self.bowl(part);
        let one_load = load.map(|load| self.load_card(part, solved, load)).transpose()?;
        let into_the_bowl = into_the_bowl(part);
        let mut shown_of = Vec::new();
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            bowl.add_before(at, (part, mix), &mut shown_of)?;
            let weighed = mix.lines.get(at).copied().flatten();
            let in_it = weighed.filter(|_| into_the_bowl.get(at) != Some(&false));
            let shows = in_it.map(|weighed| bowl.add(weighed.reading(), weighed.scale)).transpose()?.flatten();
            lines.push(self.line((id, at), part, line, amount, weighed, shows)?);
        }
        bowl.add_before(part.lines.len(), (part, mix), &mut shown_of)?;
        let preferments = self.columns(id, part, mix, &shown_of)?;
        let water =
            on_card(self.recipe, self.formula, id, (&Today::default(), load.map_or(1, |load| load.loads)), self.units)?;
        // Of what is all by the piece or to taste there is no sum.
        let total = solved.goes_in.filter(|total| *total > Mass::ZERO);
        let is_mix = self.formula.is_mix(self.recipe, id);
        let hydration = solved.hydration().filter(|one| one.share.value().is_positive() && is_mix);
        // With preferments too: total formula and final mix hold the same.
        let total_shown = total.map(|_| self.printed(mix.total)).unwrap_or_default();
        // Nobody has a part as it is when it is done, of which all is taken before: a raw dough does not keep as its loaf does.
        let last = part.steps.len().checked_sub(1);
        let is_done = last.map_or(Ok(true), |last| Ok(solved.reach(part, id, last)?.is_positive()))?;
        Ok(PartCard {
            id,
            name: part.name.to_string(),
            base_name: self.base_name(part),
            base: solved.base,
            base_shown: solved.base.map(|base| self.weighed_alone(base)).transpose()?.unwrap_or_default(),
            total,
            total_shown,
            percent_total: share(total, solved.base),
            percent_total_shown: percent_digits(share(total, solved.base)),
            from: part.from.and_then(|from| self.recipe.part(from)).map(|from| from.name.to_string()),
            per_piece: part.per_piece,
            flour: Some(solved.composition.flour).filter(|mass| *mass > Mass::ZERO),
            water: Some(solved.composition.water).filter(|mass| *mass > Mass::ZERO),
            hydration,
            hydration_shown: hydration.map(|one| rounded_share(one.share).bound(one.bound())).unwrap_or_default(),
            prefermented: solved.prefermented,
            prefermented_shown: solved.prefermented.map(rounded_share).unwrap_or_default(),
            desired_temperature: part.desired_temperature.map(|_| in_own_words(&part.desired_said, self.units)),
            water_shown: water.as_ref().map(|water| water.words.clone()),
            water_rooms: water.and_then(|water| water.rooms),
            load: one_load.filter(LoadCard::has_figures),
            final_mix_shown: self.printed(mix.total),
            rounding: self.rounding(part, solved, mix, load)?,
            lines,
            preferments,
            divide: self.divide((id, part), solved)?,
            makes: self.makes_card((id, part), solved)?,
            tin_shown: self.tin(id)?,
            balance: self.balance(part, solved, mix.total)?,
            keeps: part.keeps.filter(|_| is_done).map(|keeps| keeps_shown(keeps, self.units)),
            ahead: None,
            steps: self.steps(id, part, solved, mix, load)?,
            notes: texts(&part.texts, TextKind::Note, self.units),
            cautions: texts(&part.texts, TextKind::Caution, self.units),
        })
    }

    /// What goes into the bowl, as it is printed.
    pub(super) fn mix_out(&self, id: PartId) -> Result<MixOut, Overflow> {
        let lines = self.weighed_lines(id)?;
        let mut total = Reading::ZERO;
        for weighed in lines.iter().flatten() {
            total = total.plus(weighed.reading())?;
        }
        let mut preferments = Vec::new();
        for (preferment, _) in self.recipe.preferments(id) {
            // A preferment goes into the bowl as it was weighed out: with the sum of its printed lines.
            let own = self.mix_out(preferment)?.total;
            total = total.plus(own)?;
            preferments.push((preferment, own));
        }
        Ok(MixOut { lines, preferments, total })
    }

    fn line(
        &self,
        (id, at): (PartId, usize),
        part: &Part,
        line: &Ingredient,
        amount: &SolvedLine,
        weighed: Option<Weighed>,
        shows: Option<Reading>,
    ) -> Result<LineCard, Overflow> {
        let taken_out = amount.mass != amount.final_mix;
        let in_bowl = weighed.map(|weighed| self.printed(weighed.reading()));
        let shown = match (amount.mass, &in_bowl) {
            // A sachet of leaves that weigh nothing is all taken and not weighed.
            (Some(mass), _) if line.part().is_some() && mass == Mass::ZERO => self.unweighed(line, amount),
            (Some(_), Some(shown)) if !taken_out => shown.clone(),
            // What the total formula holds is what its printed shares add up to.
            (Some(mass), _) => match self.taken_out(id, at)? {
                Some(taken) => self.printed(taken.plus(weighed.map_or(Reading::ZERO, |weighed| weighed.reading()))?),
                None => self.weighed_alone(mass)?,
            },
            (None, _) => self.unweighed(line, amount),
        };
        let buy = match (amount.mass, line.edible) {
            (Some(mass), Some(edible)) if edible < Proportion::WHOLE && edible > Proportion::ZERO => {
                Some(mass.over(edible.value())?)
            }
            _ => None,
        };
        Ok(LineCard {
            ingredient: line.name.to_string(),
            percent: amount.percent,
            percent_shown: percent_digits(amount.percent),
            mass: amount.mass,
            final_mix: amount.final_mix,
            final_mix_shown: match (&in_bowl, amount.final_mix) {
                (Some(_), Some(mass)) if mass.value().is_zero() => Shown::default(),
                _ if amount.filled_before => Shown::default(),
                (Some(shown), _) => shown.clone(),
                (None, _) => shown.clone(),
            },
            shown,
            running: shows.map(|shows| self.printed(shows)).unwrap_or_default(),
            each: amount.each,
            each_shown: self.each_shown(part, line, amount)?,
            buy,
            buy_shown: buy.map(|buy| format!("{} as bought", mass_to_buy(buy, self.units))),
            weighed_ounces: weighed.and_then(|weighed| weighed.ounces),
            weighed: match (weighed, amount.final_mix) {
                (Some(weighed), _) => Some(weighed.mass),
                (None, Some(mass)) => Some(crate::make::weigh::alone(mass, &self.scales)?.mass),
                (None, None) => None,
            },
            natural: amount.natural,
            said_in: amount.measure,
            larder: match &line.refers {
                Refers::Pantry(facts) => facts.clone(),
                Refers::Part(_) => None,
            },
            measure: self.measure(line, amount.measure, amount.mass, weighed)?,
            final_mix_measure: match amount.final_mix {
                Some(mix) if taken_out => self.measure_of_share(line, amount, mix, weighed)?,
                _ => self.measure(line, amount.measure, amount.mass, weighed)?,
            },
            preparation: packed::preparation(line, amount.mass),
            temperature: line.temperature,
            temperature_shown: line.temperature.map(|_| in_own_words(&line.temperature_said, self.units)),
            aside: line.aside,
            optional: line.optional,
            strained_out: line.strained_out,
            from_store: line.from_store,
            before: line.before.and_then(|at| {
                let step = self.recipe.part(at.part)?.steps.get(at.step)?;
                Some(step.name.to_string())
            }),
            leaves: self.leaves(line, amount)?,
            part: line.part(),
            is_baked: match line.part().filter(|_| line.before.is_none()) {
                Some(of) => heated::is_lighter(self.recipe, self.formula, of)?,
                None => false,
            },
        })
    }

    /// Something that comes from the store, with its amount as printed.
    pub(super) fn taken(&self, taken: Taken) -> Result<FromStoreCard, Overflow> {
        let shown = match (taken.mass, taken.natural) {
            (Some(mass), _) => in_pieces(taken.pieces, self.by_itself(mass)?),
            (None, Some(value)) => show::value_plain(value),
            (None, None) => Shown::words("as needed"),
        };
        Ok(FromStoreCard { taken, shown })
    }

    /// What is left when a line is taken.
    fn leaves(&self, line: &Ingredient, amount: &SolvedLine) -> Result<Option<LeavesCard>, Overflow> {
        let Some((name, share)) = &line.leaves else { return Ok(None) };
        let mass = amount.mass.map(|mass| mass.share(*share)).transpose()?;
        let shown = match mass {
            Some(mass) => format!("leaves {} {name}", self.by_itself(mass)?),
            None => format!("leaves {name}"),
        };
        Ok(Some(LeavesCard { name: name.to_string(), mass, shown }))
    }

    /// What the preferments take of a line, as they print it, with what is taken out of them again.
    fn taken_out(&self, id: PartId, line: usize) -> Result<Option<Reading>, Overflow> {
        let mut taken = None;
        for (preferment, taking) in self.recipe.preferments(id) {
            for (at, _) in taking.lines.iter().enumerate().filter(|(_, other)| other.in_total == Some(line)) {
                if let Some(mass) = self.in_all(preferment, at)? {
                    taken = Some(taken.unwrap_or(Reading::ZERO).plus(mass)?);
                }
            }
        }
        Ok(taken)
    }

    /// All of a line, as printed: what goes into the bowl, and what preferments take.
    fn in_all(&self, id: PartId, line: usize) -> Result<Option<Reading>, Overflow> {
        let own = self.weighed_lines(id)?.get(line).copied().flatten().map(|weighed| weighed.reading());
        Ok(match (own, self.taken_out(id, line)?) {
            (Some(own), Some(taken)) => Some(own.plus(taken)?),
            (own, taken) => own.or(taken),
        })
    }

    /// What stands on a line without a mass.
    fn unweighed(&self, line: &Ingredient, amount: &SolvedLine) -> Shown {
        match (&line.amount, amount.natural) {
            _ if amount.filled_before => Shown::words("filled in before"),
            (LineAmount::ToTaste, _) => Shown::words("to taste"),
            (LineAmount::AsNeeded, _) => Shown::words("as needed"),
            // A sachet of leaves, and a bath out of which all is strained again.
            (LineAmount::All, None) => Shown::words("all of it"),
            (_, Some(value)) => spoons::in_own_measure(line, value, self.units),
            _ => Shown::words("?"),
        }
    }

    /// What one piece takes of a line, as the table has it; empty where that is not told by the piece.
    pub(super) fn each_shown(&self, part: &Part, line: &Ingredient, amount: &SolvedLine) -> Result<Shown, Overflow> {
        if !part.per_piece || line.is_a_bath() {
            return Ok(Shown::default());
        }
        if let (LineAmount::Said(said), Refers::Part(_)) = (&line.amount, &line.refers)
            && let Some(Value::Count(count)) = said.first().map(|said| said.value)
        {
            return Ok(show::pieces(count.value()));
        }
        let said = |said: &[Said]| said.first().and_then(Said::mass) == amount.each;
        match (amount.each, &line.amount) {
            (Some(each), LineAmount::Said(words)) if said(words) => self.as_said(each),
            // Nobody weighs what goes onto one piece by the spoon.
            (Some(_), LineAmount::Said(words)) if words.first().is_some_and(by_the_spoon) => {
                Ok(words.first().map(show::said_plain).unwrap_or_default())
            }
            (Some(each), _) => self.by_itself(each),
            (None, LineAmount::Said(said)) => Ok(said.first().map(show::said_plain).unwrap_or_default()),
            _ => Ok(Shown::default()),
        }
    }

    fn columns(
        &self,
        id: PartId,
        part: &Part,
        mix: &MixOut,
        shown_of: &Shows,
    ) -> Result<Vec<PrefermentColumn>, Overflow> {
        let mut columns = Vec::new();
        for ((preferment, taking), (_, printed)) in self.recipe.preferments(id).zip(&mix.preferments) {
            let Some(solved) = self.formula.part(preferment) else { continue };
            let mut cells = Vec::with_capacity(part.lines.len());
            for line in 0..part.lines.len() {
                let mut taken = None;
                for (at, _) in taking.lines.iter().enumerate().filter(|(_, other)| other.in_total == Some(line)) {
                    if let Some(mass) = self.in_all(preferment, at)? {
                        taken = Some(taken.unwrap_or(Reading::ZERO).plus(mass)?);
                    }
                }
                cells.push(taken.map(|mass| self.printed(mass)).unwrap_or_default());
            }
            let shows = shown_of.iter().find(|(id, _)| *id == preferment).and_then(|(_, shows)| *shows);
            columns.push(PrefermentColumn {
                id: preferment,
                name: taking.name.to_string(),
                cells,
                total: solved.goes_in,
                total_shown: self.printed(*printed),
                spare: None,
                running: shows.map(|shows| self.printed(shows)).unwrap_or_default(),
                before: preferment_before(part, preferment),
            });
        }
        Ok(columns)
    }

    pub(super) fn base_name(&self, part: &Part) -> Option<String> {
        match &part.base {
            Some((Base::Flour, _)) => Some("flour".to_owned()),
            Some((Base::Total, _)) => Some("total".to_owned()),
            Some((Base::Named(name), _)) => Some(name.to_string()),
            None => {
                let from = self.recipe.part(part.from?)?;
                self.base_name(from)
            }
        }
    }

    fn balance(
        &self,
        part: &Part,
        solved: &SolvedPart,
        printed_total: Reading,
    ) -> Result<Option<BalanceCard>, Overflow> {
        let balance = &solved.balance;
        let (Some(makes), Some(used)) = (balance.makes.filter(|makes| *makes > Mass::ZERO), balance.used) else {
            return Ok(None);
        };
        let left = makes.minus(used)?;
        let mut words = Vec::new();
        // What a part makes stands on a line of its own where the file says it.
        let says = part.makes.is_some() || part.divide.is_some();
        let plain = !says && solved.goes_in == Some(makes);
        if plain {
            words.push(format!("makes {}", self.printed(printed_total)));
        } else if !says || solved.oven.is_some() {
            let of_oven = if solved.oven.is_some() { " out of the oven" } else { "" };
            words.push(format!("makes {}{of_oven}", self.as_in_the_column(makes)?));
        }
        // All of what it makes is said as that is.
        let (used_read, used_shown) = match (used == makes, self.goes_on) {
            (true, _) if says => (self.reading_as_said(used)?, self.as_said(used)?),
            (true, _) if plain => (printed_total, self.printed(printed_total)),
            (_, Some(goes_on)) => (goes_on, self.printed_in(goes_on, self.unit_of_sums())),
            // What others take is weighed there and not here.
            _ => {
                let read = self.reading_by(used, Scales::by_the_piece)?;
                (read, self.printed_in(read, self.unit_of_sums()))
            }
        };
        words.push(format!("{used_shown} used"));
        // What is printed adds up: what is left is the rest of what stands before it.
        let makes_read = match (plain, says && solved.oven.is_none()) {
            (true, _) => printed_total,
            (_, true) => match self.used_and_left(solved, makes)? {
                Some(mass) => Reading { mass, ounces: None },
                None => self.reading_as_said(makes)?,
            },
            _ => self.reading_of(makes)?,
        };
        let rest = |spare: Mass, besides: Mass| {
            let taken = if spare.value().is_positive() { Some(self.reading_as_said(spare)?) } else { None };
            self.rest_in_the_column(makes_read, [Some(used_read), taken], besides)
        };
        // What is meant to be left over, and what is left besides.
        let besides = balance.left.unwrap_or(left).max(Mass::ZERO);
        let spare = if part.spare.is_some() { left.minus(besides)? } else { Mass::ZERO };
        let mut kept = None;
        if spare.value().is_positive() {
            let spare = self.as_said(spare)?;
            words.push(format!("{spare} spare"));
            kept = Some(spare);
            if besides.value().is_positive() {
                words.push(format!("{} left", rest(left.minus(besides)?, besides)?));
            }
        } else if left.value().is_positive() {
            let left = rest(Mass::ZERO, left)?;
            words.push(match part.from {
                Some(_) => format!("{left} spare"),
                None => format!("{left} left"),
            });
            kept = part.from.map(|_| left);
        }
        Ok(Some(BalanceCard { makes, used, left, spare: kept, shown: words.join(", ") }))
    }

    /// Where rounding for the scale moved an ingredient noticeably, and which weights no scale here shows.
    fn rounding(
        &self,
        part: &Part,
        solved: &SolvedPart,
        mix: &MixOut,
        load: Option<&OneLoad>,
    ) -> Result<Vec<String>, Overflow> {
        let mut notes = mix.rounding(part, load.map(|load| &load.mix));
        if let (Some(_), Some(each)) = (part.divide, solved.each) {
            notes.extend(self.piece_on_the_scale(each)?);
        }
        if let Some(load) = load {
            notes.extend(self.parted(part, solved, mix, load)?);
            notes.extend(self.last_loads(part, mix, load)?);
        }
        Ok(notes)
    }
}

/// Whether an amount was said in spoons.
fn by_the_spoon(said: &Said) -> bool {
    matches!(said.unit, Some(Unit::Teaspoon | Unit::Tablespoon))
}
