//! One load: where the equipment holds less than the batch, what is weighed out is what it holds at once.

use super::mix_out::MixOut;
use super::{LoadCard, Maker};
use crate::make::loads;
use crate::make::weigh::{self, Reading, ScaleUsed, Scales, Weighed};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, KILOGRAMS, Units, WeighedIn};
use crate::measure::shown::Shown;
use crate::model::bowl::into_the_bowl;
use crate::model::recipe::{Part, PartId};
use crate::model::step::Target;
use crate::solve::formula::{Draw, SolvedPart};

/// One of so many equal loads of a part.
pub(super) struct OneLoad {
    /// How many there are.
    pub(super) loads: i64,
    /// What the scales show of one; `None` for what goes in at once for all loads, or has no mass.
    pub(super) mix: MixOut,
    /// What one takes of each pair of braces.
    pub(super) solved: SolvedPart,
}

/// How many loads there are, and what the scales show of each line of one.
pub(super) type WeighedLoad = (Number, Vec<Option<Weighed>>);

/// Which steps of a part are done load by load, and what each takes.
struct ByTheLoad<'s> {
    in_loads: Vec<bool>,
    draws: &'s [Draw],
}

impl ByTheLoad<'_> {
    /// Whether something goes in load by load. What no step names is in the bowl with the rest.
    fn has(&self, target: Target) -> bool {
        let mut draws = self.draws.iter().filter(|draw| draw.target == target);
        draws.all(|draw| self.in_loads.get(draw.step) == Some(&true))
    }
}

impl Maker<'_> {
    /// The unit of all that is weighed out of a part: kilograms where it is heavy, but grams where the kitchen's fine scale carries some of
    /// it, which is read in grams. A column that mixes both is misread by a thousand.
    pub(super) fn column_unit(&self, mix: &MixOut, load: Option<&OneLoad>) -> Result<WeighedIn, Overflow> {
        let mut in_kilograms = mix.total.mass >= KILOGRAMS && self.is_for_the_main_scale(mix);
        in_kilograms = in_kilograms && load.is_none_or(|load| self.is_for_the_main_scale(&load.mix));
        for (preferment, _) in &mix.preferments {
            in_kilograms = in_kilograms && self.is_for_the_main_scale(&self.mix_out(*preferment)?);
        }
        Ok(if in_kilograms { WeighedIn::Kilograms } else { WeighedIn::Grams })
    }

    /// Whether all of it is read off the scale for everything, in whole grams.
    fn is_for_the_main_scale(&self, mix: &MixOut) -> bool {
        let carried = self.scales.fine.and_then(|fine| fine.up_to).unwrap_or(Mass::ZERO);
        let is_for_it = |mass: Mass| (mass > carried || mass.value().is_zero()) && show::is_in_whole_grams(mass);
        let mut lines = mix.lines.iter().flatten();
        lines.all(|one| one.scale == ScaleUsed::Main && is_for_it(one.mass))
            && mix.preferments.iter().all(|(_, one)| is_for_it(one.mass))
    }

    /// How many loads a step is cut into by the weight that its equipment holds; 1 where it is not.
    pub(super) fn loads_by_weight(
        &self,
        id: PartId,
        part: &Part,
        solved: &SolvedPart,
        at: usize,
    ) -> Result<i64, Overflow> {
        let kitchen = &self.recipe.kitchen;
        let by_weight = part.steps.get(at).is_some_and(|step| !loads::is_by_pieces(step, kitchen)) && !part.per_piece;
        if by_weight { loads::count((self.recipe, id), solved, self.formula, at, kitchen) } else { Ok(1) }
    }

    /// The load by which a part is weighed out: that of the step with the most loads. `None` where everything goes in at once.
    pub(super) fn one_load(
        &self,
        id: PartId,
        part: &Part,
        solved: &SolvedPart,
        mix: &MixOut,
    ) -> Result<Option<OneLoad>, Overflow> {
        let most = self.most_loads(id, part, solved)?;
        if most > 1 { self.a_load(id, part, solved, mix, most).map(Some) } else { Ok(None) }
    }

    /// The loads of the step that has the most of them.
    fn most_loads(&self, id: PartId, part: &Part, solved: &SolvedPart) -> Result<i64, Overflow> {
        let mut most = 1;
        for at in loads::mixing_steps(part, solved) {
            most = self.loads_by_weight(id, part, solved, at)?.max(most);
        }
        Ok(most)
    }

    /// How many loads a part is weighed out in, and what these scales show of each line of one; `None` where all goes in at once.
    pub(super) fn weighed_load(&self, id: PartId, scales: &Scales) -> Result<Option<WeighedLoad>, Overflow> {
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Ok(None) };
        let most = self.most_loads(id, part, solved)?;
        if most <= 1 {
            return Ok(None);
        }
        let masses = self.masses_of_a_load(id, (part, solved), most)?;
        let known: Vec<Mass> = masses.iter().copied().flatten().collect();
        let mut weighed = weigh::weigh_out(&known, scales)?.0.into_iter();
        let lines = masses.iter().map(|mass| mass.and_then(|_| weighed.next()));
        Ok(Some((Number::whole(most), lines.collect())))
    }

    /// What one of so many loads takes of each line; `None` for what goes in at once for all of them, or has no mass.
    fn masses_of_a_load(
        &self,
        id: PartId,
        (part, solved): (&Part, &SolvedPart),
        loads: i64,
    ) -> Result<Vec<Option<Mass>>, Overflow> {
        let share = Number::ONE.over(Number::whole(loads))?;
        let by_the_load = self.by_the_load(id, part, solved)?;
        part.lines
            .iter()
            .zip(&solved.lines)
            .enumerate()
            .map(|(at, (line, amount))| amount.final_mix.filter(|_| !line.aside && by_the_load.has(Target::Line(at))))
            .map(|mass| mass.filter(|mass| mass.value().is_positive()).map(|mass| mass.times(share)).transpose())
            .collect()
    }

    /// What goes in load by load.
    fn by_the_load<'s>(&self, id: PartId, part: &Part, solved: &'s SolvedPart) -> Result<ByTheLoad<'s>, Overflow> {
        let mut in_loads = Vec::with_capacity(part.steps.len());
        for at in 0..part.steps.len() {
            in_loads.push(self.loads_by_weight(id, part, solved, at)? > 1);
        }
        Ok(ByTheLoad { in_loads, draws: &solved.draws })
    }

    /// One of so many equal loads.
    pub(super) fn a_load(
        &self,
        id: PartId,
        part: &Part,
        solved: &SolvedPart,
        mix: &MixOut,
        loads: i64,
    ) -> Result<OneLoad, Overflow> {
        let share = Number::ONE.over(Number::whole(loads))?;
        let by_the_load = self.by_the_load(id, part, solved)?;
        let masses = self.masses_of_a_load(id, (part, solved), loads)?;
        let lines = self.weigh_a_load(&masses)?;
        let mut total = Reading::ZERO;
        for weighed in lines.iter().flatten() {
            total = total.plus(weighed.reading())?;
        }
        let mut preferments = Vec::new();
        for (preferment, whole) in &mix.preferments {
            if by_the_load.has(Target::Preferment(*preferment)) {
                let one = self.reading_of(whole.mass.times(share)?)?;
                total = total.plus(one)?;
                preferments.push((*preferment, one));
            }
        }
        let draws = solved.draws.iter().map(|draw| draw.times(share)).collect::<Result<Vec<Draw>, _>>()?;
        let solved = SolvedPart { draws: draws.into(), ..solved.clone() };
        Ok(OneLoad { loads, mix: MixOut { lines, preferments, total }, solved })
    }

    /// Rounded together, so that the printed lines of a load add up; in ounces by themselves where both systems are printed.
    fn weigh_a_load(&self, masses: &[Option<Mass>]) -> Result<Vec<Option<Weighed>>, Overflow> {
        let known: Vec<Mass> = masses.iter().copied().flatten().collect();
        let (mut weighed, _) = weigh::weigh_out(&known, &self.scales)?;
        if self.units == Units::Both {
            let (in_ounces, _) = weigh::weigh_out(&known, &Scales::of(&self.recipe.kitchen, Units::Us))?;
            for (one, ounces) in weighed.iter_mut().zip(in_ounces) {
                one.ounces = Some(ounces.mass);
            }
        }
        let mut weighed = weighed.into_iter();
        Ok(masses.iter().map(|mass| mass.and_then(|_| weighed.next())).collect())
    }

    /// What the last load takes of what was made before, where as much as the scale shows for each load is more or less than there is: 5 loads
    /// of 845 g are not the 4215 g of a poolish.
    pub(super) fn last_loads(&self, part: &Part, mix: &MixOut, load: &OneLoad) -> Result<Vec<String>, Overflow> {
        let lines =
            part.lines.iter().zip(&mix.lines).zip(&load.mix.lines).filter(|((line, _), _)| line.part().is_some());
        let lines = lines.filter_map(|((line, all), one)| Some((&line.name, (*all)?.reading(), (*one)?.reading())));
        let preferments = load.mix.preferments.iter().filter_map(|(id, one)| {
            let (_, all) = mix.preferments.iter().find(|(other, _)| other == id)?;
            Some((&self.recipe.part(*id)?.name, *all, *one))
        });
        let before = Number::whole(load.loads - 1);
        let mut notes = Vec::new();
        for (name, all, one) in lines.chain(preferments) {
            let last = |all: Mass, one: Mass| all.minus(one.times(before)?);
            let ounces = all.ounces.zip(one.ounces).map(|(all, one)| last(all, one)).transpose()?;
            let last = Reading { mass: last(all.mass, one.mass)?, ounces };
            if last != one && last.mass > Mass::ZERO && last.ounces.is_none_or(|ounces| ounces > Mass::ZERO) {
                notes.push(format!("of {name} the last of the {} loads takes {}", load.loads, self.printed(last)));
            }
        }
        Ok(notes)
    }

    /// Into how much of what was mixed at once each load of a later step goes: a dough that fits the mixer without its fruit is halved for that.
    pub(super) fn parted(
        &self,
        part: &Part,
        solved: &SolvedPart,
        mix: &MixOut,
        load: &OneLoad,
    ) -> Result<Option<String>, Overflow> {
        let is_in_loads = |at: usize| load.mix.lines.get(at).is_some_and(Option::is_some);
        let step_of = |in_loads: bool| {
            solved.draws.iter().filter(move |draw| match draw.target {
                Target::Line(at) => {
                    is_in_loads(at) == in_loads && part.lines.get(at).is_some_and(|line| !line.aside && line.stays_in())
                }
                Target::Preferment(id) => load.mix.preferments.iter().any(|(one, _)| *one == id) == in_loads,
            })
        };
        let Some(first) = step_of(true).map(|draw| draw.step).min() else { return Ok(None) };
        if step_of(false).any(|draw| draw.step >= first) {
            return Ok(None);
        }
        let mut before = Reading::ZERO;
        for (at, (line, all)) in part.lines.iter().zip(&mix.lines).enumerate() {
            if let Some(all) = all.filter(|_| !line.aside && line.stays_in() && !is_in_loads(at)) {
                before = before.plus(all.reading())?;
            }
        }
        for (id, all) in &mix.preferments {
            if load.mix.preferments.iter().all(|(one, _)| one != id) {
                before = before.plus(*all)?;
            }
        }
        if before.mass <= Mass::ZERO {
            return Ok(None);
        }
        let each = self.reading_of(before.mass.over(Number::whole(load.loads))?)?;
        let name = part.steps.get(first).map(|step| step.name.to_string()).unwrap_or_default();
        Ok(Some(format!("for {name} what was mixed before is parted into {} of {}", load.loads, self.printed(each))))
    }

    /// The load as the card shows it.
    pub(super) fn load_card(&self, part: &Part, solved: &SolvedPart, load: &OneLoad) -> Result<LoadCard, Overflow> {
        let mut bowl = self.bowl(part);
        let mut lines = Vec::with_capacity(load.mix.lines.len());
        let mut running = Vec::with_capacity(load.mix.lines.len());
        let mut shown_of = Vec::new();
        for (at, (weighed, goes_in)) in load.mix.lines.iter().zip(into_the_bowl(part)).enumerate() {
            bowl.add_before(at, (part, &load.mix), &mut shown_of)?;
            let in_it = weighed.filter(|_| goes_in);
            let shows = in_it.map(|weighed| bowl.add(weighed.reading(), weighed.scale)).transpose()?.flatten();
            lines.push(weighed.map(|weighed| self.printed(weighed.reading())).unwrap_or_default());
            running.push(shows.map(|shows| self.printed(shows)).unwrap_or_default());
        }
        let mut preferments = Vec::new();
        bowl.add_before(part.lines.len(), (part, &load.mix), &mut shown_of)?;
        for (id, reading) in &load.mix.preferments {
            let shows = shown_of.iter().find(|(one, _)| one == id).and_then(|(_, shows)| *shows);
            preferments.push((*id, self.printed(*reading), shows.map(|shows| self.printed(shows)).unwrap_or_default()));
        }
        let mut measures = Vec::with_capacity(load.mix.lines.len());
        for ((line, amount), weighed) in part.lines.iter().zip(&solved.lines).zip(&load.mix.lines) {
            let goes_in = match (weighed, amount.final_mix) {
                (Some(_), Some(mix)) => Some(mix.over(Number::whole(load.loads))?),
                _ => None,
            };
            let measure = goes_in.map(|mass| self.measure_of_share(line, amount, mass, *weighed)).transpose()?;
            measures.push(measure.flatten());
        }
        Ok(LoadCard { loads: load.loads, lines, running, preferments, total: self.printed(load.mix.total), measures })
    }
}

impl LoadCard {
    /// What stands above the column: `1 of 3 loads`.
    pub fn title(&self) -> String {
        format!("1 of {} loads", self.loads)
    }

    /// Whether a load is weighed out at all: what is soaked in one tub and boiled in six pots is not.
    pub(super) fn has_figures(&self) -> bool {
        self.lines.iter().any(|shown| !shown.is_empty()) || !self.preferments.is_empty()
    }

    /// What a load takes of a preferment, and what the scale then shows.
    pub fn of_preferment(&self, id: PartId) -> (Shown, Shown) {
        let found = self.preferments.iter().find(|(one, ..)| *one == id);
        found.map(|(_, shown, running)| (shown.clone(), running.clone())).unwrap_or_default()
    }
}
