//! What was measured of one bake, beside what the formula of its day says.

use super::Otherwise;
use super::came_to::{Before, Weighing};
use super::claims::{Begins, Claims, LossOf, is_end_of_mix};
use super::measurement::{Kind, Measured};
use crate::check::bakes::Sized;
use crate::language::bakes::{Bake, CameTo, Ran, Size, WentIn};
use crate::language::syntax::HeatOf;
use crate::make::loads;
use crate::make::mix::{self, Mix, Today, handbook, left_at};
use crate::make::went_in::{self, OfLine};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;
use crate::model::baked::Names;
use crate::model::recipe::{Ingredient, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::Step;
use crate::solve::formula::Formula;
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
    sizes: HashMap<OfSorts, OfSize<'a>>,
}

/// The size of a bake: how many times the recipe as written, and of sorts how many of each.
type OfSorts = (Number, Vec<(Arc<str>, Number)>);

fn of_sorts(bake: &Bake, size: &Sized) -> OfSorts {
    let sorts = match &bake.size.value {
        Size::Sorts(sorts) => sorts.iter().map(|(sort, count)| (Arc::clone(&sort.text), *count)).collect(),
        _ => Vec::new(),
    };
    (size.factor, sorts)
}

/// What a formula says for a batch of one size, each of it asked once.
struct OfSize<'a> {
    claims: Claims<'a>,
    said: HashMap<(Kind, StepRef), Option<(Number, Number)>>,
    turns: HashMap<StepRef, Option<Number>>,
    pieces: HashMap<StepRef, Option<Number>>,
    shares: HashMap<(StepRef, Option<i64>), Option<Number>>,
    begins: HashMap<StepRef, Begins>,
}

impl<'a> OfSize<'a> {
    fn of(claims: Claims<'a>) -> OfSize<'a> {
        let (said, turns, pieces, shares, begins) = Default::default();
        OfSize { claims, said, turns, pieces, shares, begins }
    }

    fn said(&mut self, kind: Kind, at: StepRef) -> Option<(Number, Number)> {
        *self.said.entry((kind, at)).or_insert_with(|| self.claims.of(kind, at))
    }

    fn begins(&mut self, at: StepRef) -> Begins {
        *self.begins.entry(at).or_insert_with(|| self.claims.begins(at))
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

impl<'a> Beside<'a> {
    /// Nothing of it is worked out yet.
    pub fn of(recipe: &'a Recipe, formula: &'a Formula) -> Beside<'a> {
        Beside { recipe, formula, names: Names::default(), mixes: HashMap::new(), sizes: HashMap::new() }
    }

    /// What the formula says for bakes of one size; to be put back under the same key.
    fn take(&mut self, key: &OfSorts, size: &Sized) -> OfSize<'a> {
        if self.sizes.len() >= MOST_SIZES && !self.sizes.contains_key(key) {
            self.sizes.clear();
        }
        let fresh = || OfSize::of(Claims::at_size(self.recipe, self.formula, size));
        self.sizes.remove(key).unwrap_or_else(fresh)
    }

    /// Everything that was measured of a bake of some size.
    pub fn measured(&mut self, bake: &Bake, size: &Sized) -> Vec<Measured> {
        let recipe = self.recipe;
        let key = of_sorts(bake, size);
        let mut of_size = self.take(&key, size);
        let went_in = self.lines(bake);
        let weighed = self.weighed(bake, &mut of_size);
        let mut all = Vec::with_capacity(bake.steps.len());
        for ran in &bake.steps {
            let Some(at) = self.names.step(recipe, ran).one() else { continue };
            let Some(part) = recipe.part(at.part) else { continue };
            let Some(step) = part.steps.get(at.step) else { continue };
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
                let begins = of_size.begins(at);
                let out = Out { claims: &of_size.claims, went_in: &went_in, at, begins };
                found.extend(out.measured(one, &weighed).into_iter().flatten());
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
        self.sizes.insert(key, of_size);
        all
    }

    /// Everything that was weighed of a bake, part by part.
    fn weighed(&mut self, bake: &Bake, of_size: &mut OfSize<'_>) -> Weighed {
        let recipe = self.recipe;
        let mut all = Weighed::new();
        for (ran, came_to) in bake.steps.iter().filter_map(|ran| Some((ran, ran.came_to?.value))) {
            let Some(at) = self.names.step(recipe, ran).one() else { continue };
            let load = ran.load.map(|load| load.value);
            all.entry(at.part).or_default().push(of_size.weighing(at, load, came_to));
        }
        all
    }

    /// What went in otherwise than the formula says.
    pub fn otherwise(&mut self, bake: &Bake, size: &Sized) -> Vec<Otherwise> {
        let recipe = self.recipe;
        let lines = self.lines(bake);
        if lines.is_empty() {
            return Vec::new();
        }
        let key = of_sorts(bake, size);
        let of_size = self.take(&key, size);
        let scaled = of_size.claims.scaled();
        let one = |of: &OfLine<'_>| {
            let (went_in, (part, at)) = of;
            let line = recipe.part(*part)?.lines.get(*at);
            let weighed = scaled.and_then(|scaled| went_in::weighed(recipe, scaled, *of).ok()?);
            let weighed = weighed.map(|(really, meant)| (really.value(), meant.usual.value()));
            let mass = weighed.filter(|(really, usual)| really != usual);
            let celsius =
                went_in.at.filter(|at| Some(*at) != line.and_then(|line| line.temperature)).map(Temperature::celsius);
            (mass.is_some() || celsius.is_some()).then(|| Otherwise { name: went_in.name.to_string(), mass, celsius })
        };
        let all = lines.iter().filter_map(one).collect();
        self.sizes.insert(key, of_size);
        all
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
            // What the recipe has no line of is none of its liquids.
            let Some(name) = recipe.part(*of)?.lines.get(*line).map(|line| &line.name) else { continue };
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

/// What was weighed of a bake, part by part.
type Weighed = HashMap<PartId, Vec<Weighing>>;

/// What came out of a step.
struct Out<'a> {
    claims: &'a Claims<'a>,
    went_in: &'a [OfLine<'a>],
    at: StepRef,
    begins: Begins,
}

impl Out<'_> {
    /// The measurements of it, each with what it is for the batch as written. Of a load of which nobody knows how much of the batch it
    /// is, only what is said of a piece counts.
    fn measured(&self, one: Weighing, weighed: &Weighed) -> [Option<(Kind, Number, Number)>; 3] {
        let as_written = |value: Number| value.over(self.claims.times(self.at.part)?.times(one.share?).ok()?).ok();
        let whole = |kind: Kind, value: Number| Some((kind, value, as_written(value)?));
        let alone = |kind: Kind, value: Number| (kind, value, value);
        let before = self.before(one, weighed);
        let load = || self.went_in()?.times(one.share?).ok();
        let Begins { piece, .. } = self.begins;
        let later = || self.all()?.times(self.begins.later).ok()?.times(one.share?).ok();
        let later = if self.begins.later.is_zero() { Mass::ZERO } else { later().unwrap_or(Mass::ZERO) };
        let loss = |by_formula: (Option<Mass>, Option<Mass>), later: Mass| {
            one.loss(before, by_formula, later).map(|loss| alone(Kind::Loss, loss))
        };
        match one.came_to {
            CameTo::All(all) => [whole(Kind::All, all.value()), loss((load(), None), later), None],
            CameTo::Each(value) => [Some(alone(Kind::Each, value.value())), loss((None, piece), Mass::ZERO), None],
            CameTo::Pieces(count, None) => [whole(Kind::Pieces, count), None, None],
            CameTo::Pieces(count, Some(value)) => {
                let loss = loss((load(), piece.filter(|_| self.begins.is_by_piece)), Mass::ZERO);
                [whole(Kind::Pieces, count), Some(alone(Kind::Each, value.value())), loss]
            }
        }
    }

    /// What was weighed before, with what went in since.
    fn before(&self, one: Weighing, weighed: &Weighed) -> Before {
        let earlier = |part: PartId| weighed.get(&part).map(Vec::as_slice).unwrap_or_default();
        let before = one.before(earlier(self.at.part));
        let Some(step) = before.step else { return Before::of_a_piece(self.as_taken_up(&earlier)) };
        let since = || {
            let (then, now) = (self.claims.present(self.at, step)?, self.claims.present(self.at, self.at.step)?);
            now.minus(then).ok().filter(|since| since.is_positive())
        };
        let Some(since) = since() else { return before };
        let all = || self.all()?.times(since).ok()?.times(one.share?).ok();
        let each = || self.claims.each(self.at.part)?.times(since).ok();
        before.with(all(), each())
    }

    /// What a piece weighs that goes in, where it was weighed in the part before: as much more or less than by the formula as it was there.
    fn as_taken_up<'w>(&self, earlier: &dyn Fn(PartId) -> &'w [Weighing]) -> Option<Mass> {
        let (recipe, formula) = (self.claims.recipe, self.claims.formula);
        let (part, solved) = (recipe.part(self.at.part).filter(|part| part.per_piece)?, formula.part(self.at.part)?);
        let pieces = loads::pieces_of(part, solved, formula)?;
        let mut whole = part.lines.iter().zip(&solved.lines).filter_map(|(line, amount)| {
            let inner = line.part()?;
            let each = amount.mass?.over(pieces).ok()?;
            (self.claims.each(inner) == Some(each)).then_some((inner, each))
        });
        let (inner, each) = whole.next().filter(|_| whole.next().is_none())?;
        let steps = recipe.part(inner)?.steps.len();
        let share = Some(Number::ONE);
        let end = Weighing { step: steps, load: None, share, pieces: None, came_to: CameTo::Each(each) };
        let before = end.before(earlier(inner));
        let (meant, _) = self.claims.of(Kind::Each, StepRef { part: inner, step: before.step? })?;
        self.begins.piece?.minus(Mass::new(meant)).ok()?.plus(before.each?).ok()
    }

    /// All that goes into the part and stays in it, what was weighed otherwise counted.
    fn all(&self) -> Option<Mass> {
        let recipe = self.claims.recipe;
        let scaled = self.claims.scaled()?;
        let more = went_in::more((recipe, self.at.part), scaled, self.went_in, Ingredient::stays_in).ok()?;
        scaled.part(self.at.part)?.stays?.plus(more).ok()
    }

    /// All that goes into the step: what went into the part and is in it by then, what was weighed otherwise counted, and of pieces that
    /// are baked what is left of it by then.
    fn went_in(&self) -> Option<Mass> {
        let recipe = self.claims.recipe;
        let scaled = self.claims.scaled()?;
        let solved = scaled.part(self.at.part)?;
        let (all, usual, into) = (self.all()?, solved.stays?, self.begins.into?);
        if usual > Mass::ZERO && (self.begins.loss_of == LossOf::Head || into != Number::ONE) {
            return all.times(solved.makes?.ratio(usual).ok()?).ok()?.times(into).ok();
        }
        let held = went_in::held(recipe, scaled, self.at).ok()?;
        if held <= Mass::ZERO {
            return Some(all);
        }
        let is_in = |line: &Ingredient| !line.aside;
        let more = went_in::more((recipe, self.at.part), scaled, self.went_in, is_in).ok()?;
        usual.plus(more).ok()?.plus(held).ok()
    }
}
