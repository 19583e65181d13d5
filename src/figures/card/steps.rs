//! The steps of a card: times, loads, and prose with amounts set in.

use super::load::OneLoad;
use super::mix_out::MixOut;
use super::spoons::in_own_measure;
use super::{Maker, StepCard, UseCard};
use crate::language::prose::{Insert, Prose};
use crate::make::loads;
use crate::make::weigh::Reading;
use crate::measure::noun::several;
use crate::measure::number::{Number, Overflow};
use crate::measure::own_words::in_own_words_on;
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::value::Value;
use crate::model::counted::as_cut;
use crate::model::heat;
use crate::model::piece_weight::{Spoken, divided, spoken};
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Loads, Step, StepRef, Target, Timing, Words};
use crate::model::words::mere_prose_on;
use crate::solve::formula::{Draw, SolvedPart};
use crate::text::quick::QuickMap;

/// How the steps of a part draw on its lines, step by step, each with its printed amount.
fn by_step<'d>(part: &Part, draws: &'d [Draw], amounts: &'d [Shown]) -> Vec<Vec<(&'d Draw, &'d Shown)>> {
    let mut steps = vec![Vec::new(); part.steps.len()];
    for (draw, shown) in draws.iter().zip(amounts) {
        if let Some(step) = steps.get_mut(draw.step) {
            step.push((draw, shown));
        }
    }
    steps
}

impl Maker<'_> {
    pub(super) fn steps(
        &self,
        id: PartId,
        part: &Part,
        solved: &SolvedPart,
        mix: &MixOut,
        load: Option<&OneLoad>,
    ) -> Result<Vec<StepCard>, Overflow> {
        let amounts = self.draw_amounts(part, solved, mix)?;
        let of_a_load = load.map(|load| self.draw_amounts(part, &load.solved, &load.mix)).transpose()?;
        let draws = by_step(part, &solved.draws, &amounts);
        let draws_of_one =
            load.zip(of_a_load.as_ref()).map(|(load, amounts)| by_step(part, &load.solved.draws, amounts));
        let mut steps = Vec::with_capacity(part.steps.len());
        for (at, step) in part.steps.iter().enumerate() {
            let loads = loads::count((self.recipe, id), solved, self.formula, at, &self.recipe.kitchen)?;
            // Nothing of it gets so far: all is used before.
            if loads == 0 {
                continue;
            }
            let of_step = draws.get(at).map_or(&[][..], Vec::as_slice);
            // In loads the figure that the hands need is that of one load.
            let is_by_load = load.is_some_and(|load| load.loads == loads)
                && !of_step.is_empty()
                && self.loads_by_weight(id, part, solved, at)? > 1;
            let of_one = match &draws_of_one {
                Some(of_one) if is_by_load => of_one.get(at).map_or(&[][..], Vec::as_slice),
                _ => of_step,
            };
            steps.push(StepCard {
                at,
                name: step.name.to_string(),
                kind: step.kind,
                minutes: (step.time.0.in_minutes()?, step.time.1.in_minutes()?),
                time_shown: show::duration_range(step.time.0, step.time.1),
                whole_time_shown: self.whole_time((id, at), step, (solved, loads))?,
                loads,
                loads_shown: loads_shown(step, loads),
                up_to_shown: step.up_to.map(show::duration),
                order_shown: self.taken_before(solved, at)?.into_iter().chain(self.order((id, at), step)).collect(),
                equipment: step.equipment.as_ref().map(ToString::to_string),
                temperature: step.temperature.map(|(at, _)| at),
                temperature_shown: heat::heat(step, self.units),
                starts: None,
                station: self.recipe.station_of(id, step),
                people: step.people,
                uses: self.uses(part, of_step)?,
                prose: self.prose(id, (part, solved), step, of_one),
                is_by_load,
                cue: mere_prose_on(&step.cue, self.units, heat::dial(step)),
            });
        }
        Ok(steps)
    }

    /// What others take of a part before a step, where only the rest of it comes to that.
    fn taken_before(&self, solved: &SolvedPart, at: usize) -> Result<Option<String>, Overflow> {
        let taken = solved.early.iter().filter(|early| early.before == at).map(|early| early.mass);
        let taken = Mass::sum(taken)?;
        let shown = (taken > Mass::ZERO).then(|| self.weighed_alone(taken)).transpose()?;
        Ok(shown.map(|shown| format!("after {shown} are taken out")))
    }

    /// When a step of a part is done beside others, and how long what it made may stand, in the words of the file.
    ///
    /// That a step comes after the one that stands above it, straight or not, and before the one below, is what a reader takes it for anyway.
    fn order(&self, (id, at): (PartId, usize), step: &Step) -> Vec<String> {
        let name = |other: StepRef| {
            let part = self.recipe.part(other.part);
            let step = part.and_then(|part| part.steps.get(other.step)).map(|step| step.name.to_string());
            let of = part.filter(|_| other.part != id).map(|part| format!(" of {}", part.name));
            format!("{}{}", step.unwrap_or_default(), of.unwrap_or_default())
        };
        let said = |order: &Timing| match *order {
            Timing::During(other) => format!("during {}", name(other)),
            Timing::Into(other) => format!("{} into {}", step.moments_said(), name(other)),
            Timing::Before(other) => format!("before {}", name(other)),
            Timing::After(other) => format!("after {}", name(other)),
            Timing::StraightAfter(other) => format!("straight after {}", name(other)),
            Timing::Within(time, other) => format!("within {} after {}", show::duration(time), name(other)),
        };
        let stands = step.may_stand.map(|time| format!("may stand {}", show::duration(time)));
        let is_next = |one: usize, other: usize| one + 1 == other;
        let told = |order: &&Timing| match **order {
            Timing::StraightAfter(other) | Timing::After(other) if other.part == id => !is_next(other.step, at),
            Timing::Before(other) if other.part == id => !is_next(at, other.step),
            _ => true,
        };
        step.order.iter().filter(told).map(said).chain(stands).collect()
    }

    /// What all pieces take together, so that nobody has to multiply.
    fn whole_time(
        &self,
        (id, at): (PartId, usize),
        step: &Step,
        (solved, loads): (&SolvedPart, i64),
    ) -> Result<Shown, Overflow> {
        match step.loads {
            Loads::EachOf(_) => {
                let pieces = loads::pieces_at((self.recipe, id), solved, self.formula, at)?;
                together(step, pieces.unwrap_or(Number::ONE))
            }
            _ => together(step, Number::whole(loads)),
        }
    }

    /// The loads of a step that is done for several times by itself.
    pub(super) fn in_loads(&self, card: &mut StepCard, step: &Step, loads: i64) -> Result<(), Overflow> {
        card.loads = loads;
        card.loads_shown = loads_shown(step, loads);
        if step.loads == Loads::Each {
            card.whole_time_shown = together(step, Number::whole(loads))?;
        }
        Ok(())
    }

    /// What each pair of braces takes, as printed: the printed amounts of one ingredient add up to its printed line.
    fn draw_amounts(&self, part: &Part, solved: &SolvedPart, mix: &MixOut) -> Result<Vec<Shown>, Overflow> {
        let unweighed = |draw: &Draw| {
            draw.drawn.natural.map(|amount| self.in_measure(part, draw.target, amount)).unwrap_or_default()
        };
        let is_part = |draw: &Draw| match draw.target {
            Target::Line(at) => part.lines.get(at).is_some_and(|line| line.part().is_some()),
            Target::Preferment(_) => true,
        };
        let mut texts = vec![Shown::default(); solved.draws.len()];
        let mut left: QuickMap<Target, Reading> = QuickMap::default();
        for (at, draw) in solved.draws.iter().enumerate().filter(|(_, draw)| !draw.is_rest) {
            let Some(text) = texts.get_mut(at) else { continue };
            let Some(mass) = draw.drawn.mass.filter(|mass| *mass > Mass::ZERO || !is_part(draw)) else {
                *text = unweighed(draw);
                continue;
            };
            let line = printed_stock(mix, draw.target);
            let taken = match line {
                Some(line) if draw.drawn.share == Some(Number::ONE) => {
                    *text = self.printed(line);
                    line
                }
                _ => {
                    let of = match draw.target {
                        Target::Line(at) => part.lines.get(at),
                        Target::Preferment(_) => None,
                    };
                    let as_weighed = |ounces| of.map_or(Ok(mass), |line| line.as_its_author_weighs(mass, ounces));
                    let own = self.reading_of(as_weighed(self.units == Units::Us)?)?;
                    let reading = Reading { ounces: self.reading_of(as_weighed(true)?)?.ounces, ..own };
                    *text = self.printed(reading);
                    reading
                }
            };
            if let Some(line) = line {
                let rest = left.get(&draw.target).copied().unwrap_or(line).minus(taken)?;
                left.insert(draw.target, rest);
            }
        }
        for (at, draw) in solved.draws.iter().enumerate().filter(|(_, draw)| draw.is_rest) {
            let Some(text) = texts.get_mut(at) else { continue };
            let rest = left.get(&draw.target).copied();
            let whole = printed_stock(mix, draw.target);
            *text = match rest.or(whole).filter(|reading| !reading.mass.value().is_negative()) {
                Some(reading) => self.printed(reading),
                None => match draw.drawn.mass {
                    Some(mass) => self.weighed_alone(mass)?,
                    None => unweighed(draw),
                },
            };
        }
        Ok(texts)
    }

    /// An amount without a weight as its line prints it: in the line's own cups or litres, for who reads US units in cups and quarts.
    fn in_measure(&self, part: &Part, target: Target, amount: Value) -> Shown {
        match target {
            Target::Line(at) => part.lines.get(at).map(|line| in_own_measure(line, amount, self.units)),
            Target::Preferment(_) => None,
        }
        .unwrap_or_else(|| show::value_plain(amount))
    }

    /// Everything a step takes, the same ingredient added up.
    fn uses(&self, part: &Part, draws: &[(&Draw, &Shown)]) -> Result<Vec<UseCard>, Overflow> {
        let mut list: Vec<UseCard> = Vec::with_capacity(draws.len());
        let mut places: QuickMap<Target, usize> = QuickMap::default();
        for (draw, shown) in draws {
            let place = *places.entry(draw.target).or_insert(list.len());
            match list.get_mut(place) {
                Some(known) => {
                    known.mass = match (known.mass, draw.drawn.mass) {
                        (Some(one), Some(other)) => Some(one.plus(other)?),
                        _ => None,
                    };
                    known.shown = known.mass.map(|mass| self.weighed_alone(mass)).transpose()?.unwrap_or_default();
                }
                None => {
                    let of = match draw.target {
                        Target::Preferment(id) => Some(id),
                        Target::Line(at) => part.lines.get(at).and_then(Ingredient::part),
                    };
                    list.push(UseCard {
                        target: draw.target,
                        ingredient: draw.name.to_string(),
                        mass: draw.drawn.mass,
                        shown: (*shown).clone(),
                        part: of,
                    });
                }
            }
        }
        Ok(list)
    }

    fn prose(&self, id: PartId, part: (&Part, &SolvedPart), step: &Step, draws: &[(&Draw, &Shown)]) -> Prose {
        let mut prose = Prose::default();
        let reweighed = self.reweighed(id, step);
        // They stand in the order of the words.
        let mut draws = draws.iter().peekable();
        for (at, words) in step.words.iter().enumerate() {
            match words {
                Words::Text(text) => prose.push_text(text),
                Words::Measure(_) if let Some((_, now)) = reweighed.iter().find(|(word, _)| *word == at) => {
                    prose.push_insert(Insert::Measure(now.clone()));
                }
                Words::Measure(said) => {
                    prose.push_insert(Insert::Measure(in_own_words_on(said, self.units, heat::dial(step))))
                }
                Words::Use { name, .. } => {
                    while draws.next_if(|(draw, _)| draw.word < at).is_some() {}
                    let drawn = draws.next_if(|(draw, _)| draw.word == at);
                    prose.push_insert(self.insert(part, &name.text, drawn.copied(), prose.at_sentence_start()));
                }
            }
        }
        prose
    }

    /// The words of a step that say what a piece weighs, where all of an ingredient is used up and a piece weighs something else
    /// than is written.
    fn reweighed(&self, id: PartId, step: &Step) -> Vec<(usize, Shown)> {
        let now = |one: &Spoken| {
            let (of, divide) = divided(self.recipe, id)?;
            let (part, solved) = (self.recipe.part(of)?, self.formula.part(of)?);
            let sort = part.sorts.iter().find(|sort| sort.each == one.mass);
            let each = match sort {
                Some(sort) => solved.each_of(sort).ok()?,
                None => solved.each.filter(|_| divide.each == one.mass)?,
            };
            // In ounces it stands as the piece does, so that no card has two weights for one.
            let is_said_once = matches!(step.words.get(one.word), Some(Words::Measure(said)) if said.len() == 1);
            match each == one.mass {
                true if self.units == Units::Metric || !is_said_once => None,
                true => Some((one.word, self.as_said(each).ok()?)),
                false => Some((one.word, self.to_a_tenth(each).ok()?)),
            }
        };
        spoken(&step.words).iter().filter_map(now).collect()
    }

    fn insert(
        &self,
        (part, solved): (&Part, &SolvedPart),
        name: &str,
        drawn: Option<(&Draw, &Shown)>,
        capital: bool,
    ) -> Insert {
        let Some((draw, total)) = drawn else {
            return Insert::Amount { before: "", amount: Shown::default(), of: "", ingredient: name.to_owned() };
        };
        let partial = draw.drawn.share.is_some_and(|share| share != Number::ONE) && !draw.is_rest;
        let before = match (draw.is_rest, capital) {
            (true, true) => "The remaining",
            (true, false) => "the remaining",
            (false, _) => "",
        };
        // In a part by the piece the figure that the hands need is that of one piece.
        if part.per_piece
            && let Some(each) = self.for_one((part, solved), draw)
        {
            return Insert::Each { amount: each, ingredient: name.to_owned() };
        }
        let of = if partial && !total.is_empty() { "of the" } else { "" };
        let ingredient = match (draw.drawn.mass, draw.drawn.natural) {
            (None, Some(Value::Count(count))) if !total.is_empty() => several(as_cut(count.value()), name),
            _ => name.to_owned(),
        };
        Insert::Amount { before, amount: total.clone(), of, ingredient }
    }

    /// What one piece takes, as printed.
    fn for_one(&self, (part, solved): (&Part, &SolvedPart), draw: &Draw) -> Option<Shown> {
        let is_its_own = part.sort.is_some() || part.foreign.is_some();
        let pieces = if is_its_own { solved.pieces } else { self.formula.pieces }?.value();
        let Target::Line(at) = draw.target else { return None };
        // A bath is not shared out.
        let line = part.lines.get(at).filter(|line| !line.is_a_bath())?;
        if let (crate::model::recipe::Refers::Part(_), crate::model::recipe::LineAmount::Said(said)) =
            (&line.refers, &line.amount)
            && let Some(Value::Count(count)) = said.first().map(|said| said.value)
        {
            let count = count.value().times(draw.drawn.share?).ok()?;
            return Some(show::pieces(count));
        }
        // All of it is what the table has for one piece: 221 g are no 220 g here because the scale steps by five.
        let amount = solved.lines.get(at).filter(|amount| amount.mass.is_some() && amount.mass == draw.drawn.mass);
        let listed = amount.and_then(|amount| self.each_shown(part, line, amount).ok());
        if let Some(listed) = listed.filter(|listed| !listed.is_empty()) {
            return Some(listed);
        }
        match (draw.drawn.mass, draw.drawn.natural) {
            (Some(mass), _) => self.by_itself(mass.over(pieces).ok()?).ok(),
            (None, Some(value)) => {
                Some(in_own_measure(line, value.times(Number::ONE.over(pieces).ok()?).ok()?, self.units))
            }
            _ => None,
        }
    }
}

/// The printed mass of what is drawn on.
fn printed_stock(mix: &MixOut, target: Target) -> Option<Reading> {
    match target {
        Target::Line(at) => mix.lines.get(at).copied().flatten().map(|weighed| weighed.reading()),
        Target::Preferment(id) => mix.preferments.iter().find(|(other, _)| *other == id).map(|(_, printed)| *printed),
    }
}

/// The time of so many pieces; nothing where the time is for a load.
fn together(step: &Step, pieces: Number) -> Result<Shown, Overflow> {
    if pieces == Number::ONE || !step.loads.is_by_piece() {
        return Ok(Shown::default());
    }
    Ok(show::duration_range(step.time.0.times(pieces)?, step.time.1.times(pieces)?))
}

fn loads_shown(step: &Step, loads: i64) -> String {
    let times = |loads: i64| if loads == 1 { String::new() } else { format!("{loads} loads") };
    match step.loads {
        Loads::Once => times(loads),
        Loads::Each => format!("each, {loads} in all"),
        Loads::Of(size) | Loads::EachOf(size) => {
            let each = if step.loads.is_by_piece() { "each, " } else { "" };
            let size = show::count_of(size);
            if loads == 1 {
                format!("{each}{size} at a time")
            } else {
                format!("{each}{size} at a time, {loads} loads")
            }
        }
    }
}
