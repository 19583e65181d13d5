//! What was measured of one bake, beside what the formula of its day says.

use super::Otherwise;
use super::came_to::Weighing;
use super::claims::{Claims, is_bake_loss, is_end_of_mix, is_in_oven};
use super::measurement::{Kind, Measured};
use crate::language::bakes::{Bake, CameTo, Ran, WentIn};
use crate::language::syntax::HeatOf;
use crate::make::have::weigh_one;
use crate::make::loads;
use crate::make::mix::{self, Mix, Today, handbook, left_at};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;
use crate::model::baked::Names;
use crate::model::recipe::{PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::Step;
use crate::solve::formula::{Formula, SolvedPart};
use std::collections::HashMap;
use std::sync::Arc;

/// So many sizes of a recipe are kept; a bakehouse has few.
const MOST_SIZES: usize = 16;

/// A recipe beside its bakes. What is the same for years of them is worked out once.
pub struct Beside<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    names: Names,
    mixes: HashMap<PartId, Option<Mix>>,
    sizes: HashMap<Number, OfSize<'a>>,
}

/// What a formula says for a batch of one size, each of it asked once.
struct OfSize<'a> {
    claims: Claims<'a>,
    said: HashMap<(Kind, StepRef), Option<(Number, Number)>>,
    turns: HashMap<StepRef, Option<Number>>,
    pieces: HashMap<StepRef, Option<Number>>,
    shares: HashMap<(StepRef, Option<i64>), Option<Number>>,
}

impl<'a> OfSize<'a> {
    fn of(claims: Claims<'a>) -> OfSize<'a> {
        let (said, turns, pieces, shares) = Default::default();
        OfSize { claims, said, turns, pieces, shares }
    }

    fn said(&mut self, kind: Kind, at: StepRef) -> Option<(Number, Number)> {
        *self.said.entry((kind, at)).or_insert_with(|| self.claims.of(kind, at))
    }

    fn turns(&mut self, at: StepRef) -> Option<Number> {
        *self.turns.entry(at).or_insert_with(|| self.claims.turns(at))
    }

    fn share(&mut self, at: StepRef, load: Option<i64>) -> Option<Number> {
        *self.shares.entry((at, load)).or_insert_with(|| self.claims.share(at, load))
    }

    /// How many pieces a load, or all of a step, is.
    fn pieces(&mut self, at: StepRef, load: Option<i64>) -> Option<Number> {
        let share = self.share(at, load)?;
        let pieces = *self.pieces.entry(at).or_insert_with(|| self.claims.pieces(at));
        pieces?.times(share).ok()
    }

    /// What a line weighed, beside how much of the batch it is of.
    fn weighing(&mut self, at: StepRef, load: Option<i64>, came_to: CameTo) -> Weighing {
        Weighing { step: at.step, load, share: self.share(at, load), pieces: self.pieces(at, load), came_to }
    }

    /// The minutes of one load, or of one piece where the step's time is for one; none where it cannot be told whether a line means
    /// one load or all of them.
    fn time(&mut self, at: StepRef, step: &Step, ran: &Ran) -> Option<Number> {
        let minutes = ran.time?.value.minutes()?;
        if step.loads.is_by_piece() {
            // How many hands did it, no clock says.
            if step.shared_by > 1 {
                return None;
            }
            let pieces = match ran.came_to.map(|came_to| came_to.value) {
                Some(CameTo::Pieces(count, _)) => Some(count),
                _ => self.pieces(at, ran.load.map(|load| load.value)),
            };
            return minutes.over(pieces.filter(|pieces| pieces.is_positive())?).ok();
        }
        if ran.load.is_some() {
            return Some(minutes);
        }
        let turns = self.turns(at)?;
        if loads::is_of_one_load(step, minutes, turns) {
            return None;
        }
        minutes.over(turns).ok()
    }
}

/// What went in otherwise, and the line of the part that it is of.
type OfLine<'b> = (&'b WentIn, (PartId, usize));

impl<'a> Beside<'a> {
    /// Nothing of it is worked out yet.
    pub fn of(recipe: &'a Recipe, formula: &'a Formula) -> Beside<'a> {
        Beside { recipe, formula, names: Names::default(), mixes: HashMap::new(), sizes: HashMap::new() }
    }

    /// Everything that was measured of a bake; `times` is its size as a multiple of the formula as it is written.
    pub fn measured(&mut self, bake: &Bake, times: Number) -> Vec<Measured> {
        let (recipe, formula) = (self.recipe, self.formula);
        if self.sizes.len() >= MOST_SIZES && !self.sizes.contains_key(&times) {
            self.sizes.clear();
        }
        let fresh = || OfSize::of(Claims::at_size(recipe, formula, times));
        let mut of_size = self.sizes.remove(&times).unwrap_or_else(fresh);
        let went_in = self.lines(bake);
        let weighed = self.weighed(bake, &mut of_size);
        let mut all = Vec::with_capacity(bake.steps.len());
        for ran in &bake.steps {
            let Some(at) = self.names.step(recipe, ran).one() else { continue };
            let Some(part) = recipe.part(at.part) else { continue };
            let (Some(step), Some(solved)) = (part.steps.get(at.step), formula.part(at.part)) else { continue };
            let mut found = Vec::with_capacity(3);
            let load = ran.load.map(|load| load.value);
            let share = of_size.share(at, load);
            if let Some(minutes) = of_size.time(at, step, ran) {
                found.push((Kind::Time, minutes, minutes));
            }
            if let Some(left_at) = ran.left_at.filter(|told| !left_at::is_slip(part, at.step, told.value)) {
                let degrees = left_at.value.celsius();
                found.push((Kind::LeftAt, degrees, degrees));
                if is_end_of_mix(recipe, part, at.step)
                    && let Some(friction) = self.friction(bake, &went_in, at.part, left_at.value)
                {
                    found.push((Kind::Friction, friction, friction));
                }
            }
            if let Some(came_to) = ran.came_to {
                let one = of_size.weighing(at, load, came_to.value);
                let out = Out { claims: &of_size.claims, went_in: &went_in, at, solved, step };
                let earlier = weighed.get(&at.part).map(Vec::as_slice).unwrap_or_default();
                found.extend(out.measured(one, earlier).into_iter().flatten());
            }
            for (kind, value, comparable) in found {
                let claim = of_size.said(kind, at);
                all.push(Measured {
                    kind,
                    at,
                    part: Arc::clone(&part.name.text),
                    step: Arc::clone(&step.name.text),
                    load,
                    value,
                    expected: claim.and_then(|(_, most)| {
                        // A load is expected to come to as much as it is of the batch.
                        if matches!(kind, Kind::All | Kind::Pieces) { most.times(share?).ok() } else { Some(most) }
                    }),
                    comparable,
                });
            }
        }
        self.sizes.insert(times, of_size);
        all
    }

    /// Everything that was weighed of a bake, part by part.
    fn weighed(&mut self, bake: &Bake, of_size: &mut OfSize<'_>) -> HashMap<PartId, Vec<Weighing>> {
        let recipe = self.recipe;
        let mut all: HashMap<PartId, Vec<Weighing>> = HashMap::new();
        for (ran, came_to) in bake.steps.iter().filter_map(|ran| Some((ran, ran.came_to?.value))) {
            let Some(at) = self.names.step(recipe, ran).one() else { continue };
            let load = ran.load.map(|load| load.value);
            all.entry(at.part).or_default().push(of_size.weighing(at, load, came_to));
        }
        all
    }

    /// What went in otherwise than the formula says.
    pub fn otherwise(&mut self, bake: &Bake, times: Number) -> Vec<Otherwise> {
        let (recipe, formula) = (self.recipe, self.formula);
        let one = |(went_in, (part, at)): &OfLine<'_>| {
            let line = recipe.part(*part)?.lines.get(*at)?;
            let usual = formula.part(*part)?.lines.get(*at)?.mass.and_then(|mass| mass.times(times).ok());
            let really = went_in.amount.and_then(|value| weigh_one(&went_in.name, value, line.facts()).ok());
            let mass = match (really, usual) {
                (Some(really), Some(usual)) if really != usual => Some((really.value(), usual.value())),
                _ => None,
            };
            let celsius = went_in.at.filter(|at| Some(*at) != line.temperature).map(Temperature::celsius);
            (mass.is_some() || celsius.is_some()).then(|| Otherwise { name: went_in.name.to_string(), mass, celsius })
        };
        self.lines(bake).iter().filter_map(one).collect()
    }

    fn lines<'b>(&mut self, bake: &'b Bake) -> Vec<OfLine<'b>> {
        let recipe = self.recipe;
        let of_line = |went_in: &'b WentIn| Some((went_in, self.names.line(recipe, &went_in.name).one()?));
        bake.went_in.iter().filter_map(of_line).collect()
    }

    /// The friction by the handbook's sum turned round, from the temperatures of the day; nothing where one of them is missing.
    fn friction(&mut self, bake: &Bake, went_in: &[OfLine<'_>], part: PartId, dough: Temperature) -> Option<Number> {
        let room = bake.heat_of(HeatOf::Room)?;
        let (recipe, formula) = (self.recipe, self.formula);
        let mix = self
            .mixes
            .entry(part)
            .or_insert_with(|| mix::mix_at(recipe, formula, part, dough, &Today::default()).ok().flatten());
        let mix = mix.as_ref()?;
        let mut liquids = mix.liquids.clone();
        for (went_in, (of, line)) in went_in.iter().filter(|(_, (of, _))| *of == part) {
            let name = &recipe.part(*of)?.lines.get(*line)?.name;
            for liquid in liquids.iter_mut().filter(|liquid| *liquid.name == *name.text) {
                liquid.at = went_in.at.or(liquid.at);
            }
        }
        let water = mix::warmth(&liquids).ok()??;
        let flour = bake.heat_of(HeatOf::Flour).unwrap_or(room);
        let preferment = bake.heat_of(HeatOf::Preferment);
        let at = |found: &mix::Preferment| preferment.map_or_else(|| found.at(room), Ok);
        let preferment = mix.preferment.as_ref().map(at).transpose().ok()?;
        handbook::friction(dough, room, flour, water, preferment).ok().map(|friction| friction.celsius())
    }
}

/// What came out of a step.
struct Out<'a> {
    claims: &'a Claims<'a>,
    went_in: &'a [OfLine<'a>],
    at: StepRef,
    solved: &'a SolvedPart,
    step: &'a Step,
}

impl Out<'_> {
    /// The measurements of it, each with what it is for the batch as written. Of a load of which nobody knows how much of the batch it
    /// is, only what is said of a piece counts.
    fn measured(&self, one: Weighing, earlier: &[Weighing]) -> [Option<(Kind, Number, Number)>; 3] {
        let times = self.claims.times;
        let as_written = |value: Number| value.over(times.times(one.share?).ok()?).ok();
        let whole = |kind: Kind, value: Number| Some((kind, value, as_written(value)?));
        let alone = |kind: Kind, value: Number| (kind, value, value);
        let before = one.before(earlier);
        let load = || self.went_in()?.times(one.share?).ok();
        let each = self.claims.each(self.at.part);
        let loss =
            |by_formula: (Option<Mass>, Option<Mass>)| one.loss(before, by_formula).map(|loss| alone(Kind::Loss, loss));
        match one.came_to {
            CameTo::All(all) => [whole(Kind::All, all.value()), loss((load(), None)), None],
            CameTo::Each(value) => [Some(alone(Kind::Each, value.value())), loss((None, each)), None],
            CameTo::Pieces(count, None) => [whole(Kind::Pieces, count), None, None],
            CameTo::Pieces(count, Some(value)) => {
                let each = each.filter(|_| is_in_oven(self.step));
                let loss = loss((load(), each));
                [whole(Kind::Pieces, count), Some(alone(Kind::Each, value.value())), loss]
            }
        }
    }

    /// All that goes into the step: all that went into the part, what was weighed otherwise counted, and of pieces that are baked
    /// what is left of it by then.
    fn went_in(&self) -> Option<Mass> {
        let Claims { recipe, times, .. } = self.claims;
        let usual = self.solved.goes_in?;
        let mut mass = usual.times(*times).ok()?;
        for (went_in, (part, line)) in self.went_in.iter().filter(|(_, (part, _))| *part == self.at.part) {
            let usual =
                self.solved.lines.get(*line).and_then(|line| line.mass).and_then(|mass| mass.times(*times).ok());
            let facts = recipe.part(*part)?.lines.get(*line)?.facts();
            let really = went_in.amount.and_then(|value| weigh_one(&went_in.name, value, facts).ok());
            if let (Some(usual), Some(really)) = (usual, really) {
                mass = mass.plus(really).ok()?.minus(usual).ok()?;
            }
        }
        if is_bake_loss(recipe, self.at.part, self.step) && usual > Mass::ZERO {
            mass = mass.times(self.solved.makes?.ratio(usual).ok()?).ok()?;
        }
        Some(mass)
    }
}
