//! Steps to tasks: one task a load, with what it holds, what must come before it, and what should not stand about.

mod apart;
mod bath;
mod beside;
mod cut;
mod ends;
mod held_hot;
mod hot_food;
mod left_over;
mod live;
mod long;
mod pairs;
mod side_by_side;
mod stands;

pub use live::IntoCold;

use super::hot_food::HotFood;
use super::problem::{Label, Lag, Minute, Point, Rule, Stand, Standing, Unbroken};
use crate::language::syntax::Name;
use crate::make::batch::BatchPart;
use crate::make::loads;
use crate::make::work::Work;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Duration, Mass};
use crate::measure::temperature::Temperature;
use crate::model::alive::{Alive, STAND};
use crate::model::cooking;
use crate::model::flow;
use crate::model::kitchen::Kitchen;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, StepRef, Timing};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::source::Span;
use pairs::is_at_once;
use stands::{HALF_DONE, MAY_WAIT, beside_other_work};
use std::collections::{HashMap, HashSet};

/// Loads of one step beyond this number are put together in equal bundles: nobody plans the three-hundredth bun by itself.
const MOST_LOADS: i64 = 24;

/// What is to follow within so many minutes is done on the same day. Common practice, no source.
const SAME_DAY: Minute = 240;

/// One load of one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The batch it belongs to.
    pub batch: usize,
    /// Which step of that batch's recipe.
    pub step: StepRef,
    /// Which load of which step, as the planner knows it.
    pub label: Label,
    /// Which load, from 1.
    pub load: i64,
    /// How many loads the step has.
    pub loads: i64,
    /// For which of the times for which its part is made, where the step is done for each by itself.
    pub turn: Option<usize>,
    /// Whether it is the first load of the step, or of those for its time.
    pub leads: bool,
    /// Of work that several share: which load of it this is a share of.
    pub bundle: Option<i64>,
    /// Who is busy.
    pub kind: StepKind,
    /// How long at least: the shorter end of a range, in whole minutes.
    pub least_minutes: Minute,
    /// How long it is planned with: the longer end of a range, in whole minutes.
    pub minutes: Minute,
    /// How long a rest may be stretched to, in whole minutes.
    pub most_minutes: Option<Minute>,
    /// Hands needed the whole time.
    pub people: u32,
    /// The equipment it holds.
    pub equipment: Option<Name>,
    /// How hot that is.
    pub temperature: Option<Temperature>,
    /// How hot that is when the task ends.
    pub leaves: Option<Temperature>,
    /// Whether it heats its equipment with nothing in it.
    pub heats: bool,
    /// Pieces in the load, where they are known.
    pub pieces: Option<Number>,
    /// Whether it is in equipment in which there is not room for all: what stays in it longer is in the way of what is to go in.
    pub takes_room: bool,
    /// How much the load weighs, where it stands in a place that holds so much by weight.
    pub weight: Option<Mass>,
    /// How many pieces fill what they are cooked in, where the step says so.
    pub full: Option<Number>,
    /// How much of all that the step works on is in the load: 1 for all of it.
    pub share: Number,
    /// Whose card it is on.
    pub station: String,
    /// The step's line.
    pub span: Span,
}

/// All tasks of some orders and how they hang together.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tasks {
    /// The tasks, batch by batch.
    pub list: Vec<Task>,
    /// What depends on what.
    pub lags: Vec<Lag>,
    /// What should stand about little, apart from what is ready; a weight of 0 only says what is taken up when.
    pub standing: Vec<Standing>,
    /// What is half done and should not stand long.
    pub long: Vec<Stand>,
    /// What is hot and goes into what keeps it hot, or into the cold.
    pub hot_food: Vec<HotFood>,
    /// For each order, the tasks that finish it.
    pub finals: Vec<Vec<usize>>,
    /// For each order, how long what it makes keeps as it is: it does not grow stale while it waits to be fetched.
    pub keeps: Vec<Option<Minute>>,
    /// For each order, whether it is handed over hot: cooked, and not left to cool after that.
    pub hot: Vec<bool>,
    /// Tasks whose start somebody has to see to although nobody works during it: the kitchen must be open.
    pub starts_attended: Vec<usize>,
    /// What is alive and kept in the cold after a warm rest.
    pub into_cold: Vec<IntoCold>,
    /// Tasks whose end somebody has to see to although nobody works during it.
    pub ends_attended: Vec<usize>,
    /// Pairs between which nothing may stand through a night: the one that ends, the one that starts.
    pub same_day: Vec<(usize, usize)>,
    /// Stretches in which a unit is held beyond one task: until what is in it is taken out, and through steps that stay
    /// in it.
    pub holds: Vec<Hold>,
    /// Rests of what is alive that may go on where it is warm: what rests there goes on changing.
    pub warm: Vec<usize>,
    /// Of rests in several units, each with the loads that what is in it goes into: the rest, and what takes of it.
    pub taken_of: Vec<(usize, usize)>,
    /// Work that is not left in its middle: not that on single pieces, between which there is a moment.
    pub unbroken: Vec<Unbroken>,
}

/// A unit of equipment that is held from the start of a task, through others that stay in it, until a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hold {
    /// The tasks in it, the first one first; they hold nothing by themselves.
    pub tasks: Vec<usize>,
    /// The moments by all of which it is free again; one alone is the moment at which it is.
    pub until: Vec<Point>,
    /// Whether the tasks are in it at the same time from its beginning, and not one after the other.
    pub side_by_side: bool,
}

/// The tasks of everything that is made.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn of(work: &Work, kitchen: &Kitchen) -> Result<Tasks, Overflow> {
    let held = held_hot::as_rests(work);
    let work = held.as_ref().unwrap_or(work);
    let made = work.made();
    let numbers = made.iter().enumerate().map(|(number, at)| (*at, number)).collect();
    let alive = work.batches.iter().map(|batch| Alive::of(&batch.recipe)).collect();
    let mut making = Making { work, kitchen, made, numbers, tasks: Tasks::default(), by_step: HashMap::new(), alive };
    for at in 0..making.made.len() {
        making.take_part(at)?;
    }
    for at in 0..making.made.len() {
        making.link_part(at);
    }
    making.link_left_over();
    making.finals();
    making.goes_on_beside();
    let rests_in_the_warm = |step: &Step| flow::has_slack(step) && !cooking::chills(step);
    let is_warm = |at: &usize| making.is_alive(*at) && making.step_of(*at).is_some_and(rests_in_the_warm);
    let warm = (0..making.tasks.list.len()).filter(is_warm).collect();
    making.tasks.warm = warm;
    making.tasks.unbroken = (0..making.tasks.list.len()).filter_map(|at| making.unbroken(at)).collect();
    // What stays in its unit ends when it is taken out, which whoever takes it sees to.
    making.bake_side_by_side();
    let Tasks { holds, ends_attended, .. } = &mut making.tasks;
    ends_attended.retain(|task| !holds.iter().any(|hold| hold.tasks.contains(task)));
    Ok(making.tasks)
}

struct Making<'a> {
    work: &'a Work,
    kitchen: &'a Kitchen,
    /// Every part that is made, in the order in which the orders need them.
    made: Vec<BatchPart>,
    /// The place of each of them in that list.
    numbers: HashMap<BatchPart, usize>,
    tasks: Tasks,
    /// The tasks of a step of a part that is made.
    by_step: HashMap<(usize, usize), Vec<usize>>,
    /// For each order, after which steps what they made is alive.
    alive: Vec<Alive>,
}

impl<'a> Making<'a> {
    fn part_of(&self, at: usize) -> Option<(BatchPart, &'a Recipe, &'a Part)> {
        let place = *self.made.get(at)?;
        let recipe = &self.work.batches.get(place.batch)?.recipe;
        Some((place, recipe, recipe.part(place.part)?))
    }

    /// The place in the list of a part that the recipe of a batch knows under that number.
    fn number(&self, batch: usize, part: PartId) -> Option<usize> {
        self.numbers.get(&self.work.made_in(BatchPart { batch, part })?).copied()
    }

    fn tasks_of(&self, part: usize, step: usize) -> Vec<usize> {
        self.by_step.get(&(part, step)).cloned().unwrap_or_default()
    }

    /// The step of a task.
    fn step_of(&self, at: usize) -> Option<&'a Step> {
        let task = self.tasks.list.get(at)?;
        self.work.batches.get(task.batch)?.recipe.part(task.step.part)?.steps.get(task.step.step)
    }

    fn task(&self, at: usize) -> Option<&Task> {
        self.tasks.list.get(at)
    }

    fn take_part(&mut self, at: usize) -> Result<(), Overflow> {
        let Some((place, _, part)) = self.part_of(at) else { return Ok(()) };
        for step_at in 0..part.steps.len() {
            for task in self.step_tasks((place, at), part, step_at)? {
                self.by_step.entry((at, step_at)).or_default().push(self.tasks.list.len());
                self.tasks.list.push(task);
            }
        }
        Ok(())
    }

    /// How many times a step is done that is done at moments of another: once for each moment and load of that.
    fn moments(
        &self,
        place: BatchPart,
        (solved, formula): (&SolvedPart, &Formula),
        step: &Step,
    ) -> Result<Option<i64>, Overflow> {
        let outer = step.order.iter().find_map(|order| match order {
            Timing::Into(other) if other.part == place.part => Some(other.step),
            _ => None,
        });
        let (Some(outer), Some(batch)) = (outer, self.work.batches.get(place.batch)) else { return Ok(None) };
        let loads = loads::count((&batch.recipe, place.part), solved, formula, outer, self.kitchen)?;
        let loads = loads.min(MOST_LOADS);
        Ok(i64::try_from(step.moments.len()).ok().and_then(|moments| loads.checked_mul(moments)))
    }

    /// Links the steps of a part to each other and to the parts they take.
    fn link_part(&mut self, at: usize) {
        let Some((place, recipe, part)) = self.part_of(at) else { return };
        for (step_at, step) in part.steps.iter().enumerate() {
            let mine = self.tasks_of(at, step_at);
            if !self.flows_on(part, at, step_at, &mine) {
                for together in self.by_turn(&mine) {
                    self.stay_together(&together);
                }
            }
            self.no_more_at_once(step, &mine);
            for order in &step.order {
                let other = order.other();
                let Some(first) = self.number(place.batch, other.part) else { continue };
                let first = self.tasks_of(first, other.step);
                for (first, mine) in self.in_turns(&first, &mine) {
                    match order {
                        Timing::During(_) => self.during(&first, &mine),
                        Timing::Into(_) => self.fall_into(&first, &mine, step),
                        Timing::Before(_) => {
                            // What is gone on with by another step until then does not stand.
                            let goes_on =
                                !flow::heats_empty(step) && flow::below(part, step_at).any(|below| below != other.step);
                            self.come_after(&mine, &first, None, Rule::After);
                            if !(goes_on && other.part == place.part) {
                                self.stands_after(&mine, &first, Rule::After);
                            }
                            self.not_lit_long(&mine, &first);
                        }
                        Timing::After(_) => {
                            self.follow(&first, &mine, None, Rule::After);
                            self.not_long(&first, &mine);
                            if step.order.len() == 1 && other.part == place.part {
                                self.begins_at_once(&first, &mine);
                            }
                        }
                        Timing::StraightAfter(_) => self.follow(&first, &mine, Some(0), Rule::StraightAfter),
                        Timing::Within(time, _) => {
                            self.follow(&first, &mine, time.whole_minutes(), Rule::Within);
                        }
                    }
                }
            }
            let mut leads = !step.order.is_empty();
            if step.order.is_empty() {
                let above = flow::above(part, step_at);
                for before in above.iter().copied() {
                    leads = true;
                    let first = self.tasks_of(at, before);
                    let is_beside = flow::is_work_beside(part, place.part, before, &above);
                    for (first, mine) in self.in_turns(&first, &mine) {
                        if is_beside {
                            self.rests_on(&first, &mine);
                        } else {
                            self.next_step(&first, &mine);
                            self.not_long(&first, &mine);
                            self.since_the_first(part, (at, before), &mine);
                            if let Some(rest) = first.first() {
                                self.since_the_first_bowl(*rest, &mine, Number::ONE);
                            }
                        }
                    }
                }
            }
            let lives = |other: PartId| self.alive.get(place.batch).is_some_and(|alive| alive.at_end(other));
            for taken in flow::taken(recipe, place.part, step_at, lives) {
                let Some(other) = self.number(place.batch, taken.part) else { continue };
                let ends = self.ends_before(other, taken.before, &mut HashSet::new());
                let pots: Vec<usize> = ends.iter().map(|(end, _)| *end).collect();
                self.in_its_pot(part, taken.part, &pots, &mine);
                for (end, keeps) in ends {
                    self.use_part((end, keeps), &mine);
                    if taken.is_first && keeps.is_none() {
                        self.take_up(end, &mine);
                        self.since_the_first_bowl(end, &mine, self.share_taken(other, (at, taken.part)));
                    }
                }
            }
            if step.kind == StepKind::Wait && !leads {
                self.tasks.starts_attended.extend(mine.first());
            }
            // Nothing goes into equipment, or out of it, while nobody is there.
            if step.kind == StepKind::Wait && step.equipment.is_some() {
                self.tasks.starts_attended.extend(&mine);
                self.tasks.ends_attended.extend(&mine);
            }
        }
    }

    /// One step after the one above it.
    fn next_step(&mut self, first: &[usize], then: &[usize]) {
        let pairs = self.pairs(first, then);
        let leads = self.leading_pairs(first, then);
        for (one_at, other_at) in pairs.iter().copied() {
            let (Some(one), Some(other)) = (self.task(one_at).cloned(), self.task(other_at).cloned()) else { continue };
            let rests = one.kind == StepKind::Wait;
            if let (Some(most), true) = (one.most_minutes, rests) {
                self.tasks.lags.push(Lag::after(one_at, other_at));
                self.goes_on_until(one_at, other_at, most);
            } else if is_at_once(&one, &other, leads.contains(&(one_at, other_at))) {
                // A rest begins where it is left: the moment the work before it ends.
                self.tasks.lags.push(Lag { rule: Rule::AtOnce, ..Lag::straight_after(one_at, other_at) });
            } else {
                self.tasks.lags.push(Lag::after(one_at, other_at));
                self.tasks.same_day.push((one_at, other_at));
            }
            if rests && one.most_minutes.is_none() {
                self.tasks.ends_attended.push(one_at);
            }
            if other.kind == StepKind::Wait && rests {
                self.tasks.starts_attended.push(other_at);
            }
        }
        // A rest in several units goes on, in each of them, until the last of what it holds is taken up.
        let taken = if self.parts_here(first, then) { None } else { self.shares_taken(first, then) };
        for (rest, used) in taken.into_iter().flatten() {
            let most = self.task(rest).filter(|task| task.kind == StepKind::Wait).and_then(|task| task.most_minutes);
            let Some(most) = most else { continue };
            if !pairs.contains(&(rest, used)) {
                self.goes_on_until(rest, used, most);
            }
            self.tasks.taken_of.push((rest, used));
        }
        self.stands_between(&pairs, Rule::After);
        self.live(first, then);
    }

    /// One step after another, as the file says.
    fn follow(&mut self, first: &[usize], then: &[usize], most: Option<Minute>, rule: Rule) {
        self.come_after(first, then, most, rule);
        self.stands_after(first, then, rule);
    }

    /// What stands between them, and goes on at once.
    fn stands_after(&mut self, first: &[usize], then: &[usize], rule: Rule) {
        self.stands_between(&self.pairs(first, then), rule);
        if rule != Rule::Within {
            self.live(first, then);
        }
    }

    fn during(&mut self, first: &[usize], then: &[usize]) {
        if let (Some(begin), Some(last)) = (first.first(), first.last()) {
            for inner in then {
                self.tasks.lags.extend(Lag::during(*inner, *begin, *last));
            }
        }
    }

    /// Work at said moments within another step: one task for each load of that and each moment.
    fn fall_into(&mut self, outer: &[usize], inner: &[usize], step: &Step) {
        let slack = step.may_stand.and_then(Duration::whole_minutes).unwrap_or(STAND);
        let moments: Vec<Minute> = step.moments.iter().filter_map(|moment| moment.whole_minutes()).collect();
        let places = outer.iter().flat_map(|outer| moments.iter().map(move |moment| (*outer, *moment)));
        for ((outer, moment), inner) in places.zip(inner) {
            let lag = Lag {
                from: Point::start(outer),
                to: Point::start(*inner),
                least: moment,
                most: Some(moment + slack),
                rule: Rule::Into,
            };
            self.tasks.lags.push(lag);
            self.tasks.lags.extend(Lag::during(*inner, outer, outer));
        }
    }

    /// A part that is taken when its end has come and while it keeps.
    fn use_part(&mut self, (end, keeps): (usize, Option<Minute>), then: &[usize]) {
        for (at, one) in then.iter().enumerate() {
            // However many loads take of it, it has stood until the last does.
            let is_last = then.iter().skip(at + 1).all(|other| self.turn(*other) != self.turn(*one));
            self.use_in(end, keeps, *one, is_last);
        }
        let begins = then.first().copied();
        let rests = |at: &usize| self.task(*at).is_some_and(|task| task.kind == StepKind::Wait);
        self.tasks.starts_attended.extend(begins.filter(rests));
    }

    fn use_in(&mut self, end: usize, keeps: Option<Minute>, then: usize, is_last: bool) {
        let rest = self.task(end).filter(|task| task.kind == StepKind::Wait);
        let stretch = rest.and_then(|task| Some((task.most_minutes?, task.minutes)));
        match (stretch, keeps) {
            (Some((most, minutes)), Some(keeps)) => {
                let room = cooking::waits_kept(keeps, self.step_of(end), most - minutes);
                self.tasks.lags.push(Lag::keeps(end, then, room));
            }
            (None, Some(keeps)) => self.tasks.lags.push(Lag::keeps(end, then, keeps)),
            (Some((most, _)), None) => {
                self.tasks.lags.push(Lag::after(end, then));
                self.goes_on_until(end, then, most);
            }
            (None, None) => self.tasks.lags.push(Lag::after(end, then)),
        }
        self.goes_into_the_cold(end);
        let (weight, free) = match self.could_rest_on(end) {
            // In the cold it may, and less well than where it rested.
            true if keeps.is_some_and(|keeps| keeps >= 1440) => (MAY_WAIT + 1, 0),
            true => (HALF_DONE, 0),
            false if self.is_alive(end) => (MAY_WAIT, 0),
            false => (MAY_WAIT, beside_other_work(keeps.unwrap_or(0))),
        };
        let weight = if is_last { weight } else { 0 };
        self.tasks.standing.push(Standing { stand: Stand::Between { made: end, used: then }, weight, free });
        if keeps.is_none() {
            self.taken_hot(end, then);
        }
    }
}

fn up_to(first: usize, then: usize, most: Minute) -> Lag {
    Lag { from: Point::start(first), to: Point::start(then), least: 0, most: Some(most), rule: Rule::UpTo }
}
