//! An independent check of a plan against the recipes themselves: what every baker knows, looked at from scratch. It
//! reads steps and starts and ends, and none of what the planner was told about them.

#[path = "bowls.rs"]
mod bowls;
#[path = "hot_rules.rs"]
mod hot_rules;
#[path = "people_rules.rs"]
mod people_rules;
#[path = "soon_after.rs"]
mod soon_after;
#[path = "taken_late.rs"]
mod taken_late;
#[path = "weighed_in.rs"]
mod weighed_in;

use jiff::civil::Date;
use miche::make::batch::BatchPart;
use miche::make::work::Work;
use miche::measure::number::Number;
use miche::model::kitchen::{Equipment, Kitchen};
use miche::model::recipe::{Part, Recipe, Refers};
use miche::model::step::{Loads, Step, StepKind, Target, Timing, Words};
use miche::plan::schedule::Schedule;
use miche::plan::solve::Plan;
use miche::plan::tasks::{Task, Tasks};
use people_rules::{lit, put_into_the_cold, staffed};

/// What a test knows of what was planned.
pub struct Planned<'a> {
    /// What is made.
    pub work: &'a Work,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// The tasks.
    pub tasks: &'a Tasks,
    /// The plan.
    pub plan: &'a Plan,
    /// The day whose midnight is minute 0, for a plan by the clock.
    pub day: Option<Date>,
    /// What is shown of it.
    pub schedule: &'a Schedule,
}

/// One step with all its loads.
struct Done<'a> {
    order: usize,
    part: &'a Part,
    step: &'a Step,
    /// Start and end of each load.
    loads: Vec<(i64, i64)>,
    /// From which share of all to which each load reaches.
    shares: Vec<(Number, Number)>,
    /// For which of several times each load is.
    turns: Vec<Option<usize>>,
}

impl<'a> Done<'a> {
    /// The loads for one of several times, and those for all.
    fn of(&self, turn: Option<usize>) -> Done<'a> {
        let (part, step, order) = (self.part, self.step, self.order);
        let mut of = Done { order, part, step, loads: Vec::new(), shares: Vec::new(), turns: Vec::new() };
        for at in 0..self.loads.len() {
            if turn.is_none() || self.turns[at].is_none() || self.turns[at] == turn {
                of.loads.push(self.loads[at]);
                of.shares.push(self.shares[at]);
                of.turns.push(self.turns[at]);
            }
        }
        of
    }

    /// The times for which it is done, each once.
    fn times(&self) -> Vec<Option<usize>> {
        let mut times = self.turns.clone();
        times.sort_unstable();
        times.dedup();
        times
    }

    /// Whether it is done once and what follows for each time by itself.
    fn parts_before(&self, then: &Done<'_>) -> bool {
        self.turns.iter().all(Option::is_none) && then.turns.iter().any(Option::is_some)
    }

    /// The loads that hold some of what is in a load of another step.
    fn holding(&self, share: (Number, Number)) -> impl Iterator<Item = (i64, i64)> + '_ {
        let meets = move |(_, one): &(&(i64, i64), &(Number, Number))| one.0 < share.1 && share.0 < one.1;
        self.loads.iter().zip(&self.shares).filter(meets).map(|(load, _)| *load)
    }

    fn begins(&self) -> i64 {
        self.loads.iter().map(|load| load.0).min().unwrap_or(0)
    }

    fn ends(&self) -> i64 {
        self.loads.iter().map(|load| load.1).max().unwrap_or(0)
    }

    fn is_free(&self) -> bool {
        let beside = |order: &Timing| matches!(order, Timing::During(_) | Timing::Into(_) | Timing::Before(_));
        let takes = self.step.words.iter().any(|word| matches!(word, Words::Use { .. }));
        let heats = self.step.name.text.to_lowercase().contains("heat") && !takes;
        self.step.order.iter().any(beside) || heats
    }
}

/// Everything in a plan that a baker would not do; empty when it keeps every rule.
pub fn broken(planned: &Planned<'_>) -> Vec<String> {
    let mut wrong = Vec::new();
    for order in 0..planned.work.batches.len() {
        let recipe = &*planned.work.batches[order].recipe;
        for (id, part) in recipe.parts() {
            let steps = steps(planned, order, id.0);
            if steps.is_empty() {
                continue;
            }
            takes_after(planned, order, recipe, id.0, &steps, &mut wrong);
            alive_goes_on(recipe, id.0, part, &steps, &mut wrong);
            folds(recipe, id.0, &steps, &mut wrong);
            goes_on_too_long(recipe, id.0, part, &steps, &mut wrong);
            hot_rules::taken_hot(planned, part, &steps, &mut wrong);
            hot_rules::straight_on(id.0, &steps, &mut wrong);
            hot_rules::in_its_pot(planned, order, part, &steps, &mut wrong);
            bowls::wait(recipe, id.0, part, &steps, &mut wrong);
            soon_after::each_load(planned, order, &steps, &mut wrong);
            soon_after::beside(planned, order, &steps, &mut wrong);
            bowls::pieces_are_there(part, &steps, &mut wrong);
            bowls::wait_for_others(planned, (order, id.0), (recipe, part, &steps), &mut wrong);
            kept_too_long(planned, (order, id.0), part, &steps, &mut wrong);
            let is_used = planned.work.made_in(BatchPart { batch: order, part: id }).is_some()
                && recipe.users(id).next().is_some();
            let last = steps.len() - 1;
            if is_used && part.keeps.is_some_and(|keeps| keeps.how.is_cold()) && alive(recipe, id.0, last, 0) {
                put_into_the_cold(planned, (steps[last].step, &steps[last].loads[..]), &mut wrong);
            }
        }
    }
    in_time(planned, &mut wrong);
    held(planned, &mut wrong);
    weighed_in::no_more_than_it_holds(planned, &mut wrong);
    staffed(planned, &mut wrong);
    lit(planned, &mut wrong);
    hot_rules::same_unit(planned, &mut wrong);
    wrong
}

fn time(task: usize, planned: &Planned<'_>) -> (i64, i64) {
    (planned.plan.starts[task], planned.plan.ends[task])
}

fn steps<'a>(planned: &Planned<'a>, order: usize, part_at: usize) -> Vec<Done<'a>> {
    let recipe: &'a Recipe = &planned.work.batches[order].recipe;
    let part = &recipe.parts[part_at];
    let here = |task: &Task, step: usize| task.batch == order && task.step.part.0 == part_at && task.step.step == step;
    let all = part.steps.iter().enumerate().map(|(at, step)| {
        let tasks = planned.tasks.list.iter().enumerate().filter(|(_, task)| here(task, at));
        let mut done = Done { order, part, step, loads: Vec::new(), shares: Vec::new(), turns: Vec::new() };
        let mut before = Number::ZERO;
        for (number, task) in tasks {
            let after = before.plus(task.share).unwrap();
            done.loads.push(time(number, planned));
            done.shares.push((before, after));
            done.turns.push(task.turn);
            before = after;
        }
        // At each of its moments all of it is worked on.
        if before != Number::ONE {
            done.shares = vec![(Number::ZERO, Number::ONE); done.loads.len()];
        }
        done
    });
    let all: Vec<Done<'a>> = all.collect();
    if all.iter().any(|done| done.loads.is_empty()) { Vec::new() } else { all }
}

fn draws(step: &Step, wanted: Target) -> bool {
    step.words.iter().any(|word| matches!(word, Words::Use { target: Some(target), .. } if *target == wanted))
}

/// What takes a part takes all the steps after it with it.
fn takes_after(
    planned: &Planned<'_>,
    order: usize,
    recipe: &Recipe,
    at: usize,
    steps: &[Done<'_>],
    wrong: &mut Vec<String>,
) {
    let part = &recipe.parts[at];
    let preferments: Vec<usize> =
        (0..recipe.parts.len()).filter(|other| recipe.parts[*other].from.is_some_and(|from| from.0 == at)).collect();
    let first = steps.iter().position(|done| !done.is_free()).unwrap_or(0);
    for (number, line) in part.lines.iter().enumerate() {
        let Refers::Part(other) = line.refers else { continue };
        // A starter that a preferment takes up goes in with the preferment.
        let taken_ahead = preferments
            .iter()
            .any(|preferment| recipe.parts[*preferment].lines.iter().any(|line| line.refers == Refers::Part(other)));
        if taken_ahead && !steps.iter().any(|done| draws(done.step, Target::Line(number))) {
            continue;
        }
        let Some(place) = planned.work.made_in(BatchPart { batch: order, part: other }) else { continue };
        let made = self::steps(planned, place.batch, place.part.0);
        let Some(ready) = made.iter().filter(|done| !done.is_free()).map(Done::ends).max() else { continue };
        let last = recipe.parts[other.0].steps.len().saturating_sub(1);
        let may_be_late = line.before.is_none() && !alive(recipe, other.0, last, 0);
        let taken_at = if may_be_late { taken_late::taken_at(part, number, first) } else { first };
        for done in steps.iter().skip(taken_at).filter(|done| !done.is_free()) {
            if done.begins() < ready {
                wrong.push(format!(
                    "`{}` of `{}` begins at {}, before `{}` is made at {ready}",
                    done.step.name,
                    done.part.name,
                    done.begins(),
                    recipe.parts[other.0].name
                ));
            }
        }
    }
}

/// Whether something alive is in a part when a step ends, by names alone.
fn alive(recipe: &Recipe, at: usize, step: usize, depth: usize) -> bool {
    let part = &recipe.parts[at];
    if depth > 20 {
        return false;
    }
    let living = |line: usize| match part.lines[line].refers {
        Refers::Part(other) => {
            let last = recipe.parts[other.0].steps.len().checked_sub(1);
            last.is_some_and(|last| alive(recipe, other.0, last, depth + 1))
        }
        Refers::Pantry(_) => {
            let name = part.lines[line].name.text.to_lowercase();
            ["yeast", "levain", "starter", "sourdough"].iter().any(|word| name.contains(word))
        }
    };
    let hot = |step: &Step| {
        let equipment = step.equipment.as_ref().map(|name| name.text.to_lowercase()).unwrap_or_default();
        let scalds = step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(60));
        scalds || equipment.contains("oven") || equipment.contains("hob") || equipment.contains("fryer")
    };
    let named_late = |line: usize| part.steps.iter().skip(step + 1).any(|later| draws(later, Target::Line(line)));
    let in_it = |line: usize| living(line) && !named_late(line);
    (0..part.lines.len()).any(in_it) && !part.steps.iter().take(step + 1).any(hot)
}

/// In a live part a step begins as the one before it ends, or as soon as what it made may stand.
fn alive_goes_on(recipe: &Recipe, at: usize, part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for (number, pair) in steps.windows(2).enumerate() {
        let [before, then] = pair else { continue };
        if !alive(recipe, at, number, 0) || before.is_free() || !then.step.order.is_empty() || before.parts_before(then)
        {
            continue;
        }
        for turn in then.times() {
            follows_alive(part, (&before.of(turn), &then.of(turn)), wrong);
        }
    }
}

/// One step of a live part after the one before it.
fn follows_alive(part: &Part, (before, then): (&Done<'_>, &Done<'_>), wrong: &mut Vec<String>) {
    let stand = before.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
    let slack = before.step.kind == StepKind::Wait && before.step.up_to.is_some();
    let same = before.loads.len() == then.loads.len() && bowls::are_alike(before, then);
    for (load, (begins, _)) in then.loads.iter().enumerate() {
        let (began, ended) = if same { before.loads[load] } else { (before.begins(), before.ends()) };
        let out_of = before.shares.iter().position(|share| share.1 > then.shares[load].0).filter(|_| !same);
        let began = out_of.map_or(began, |out_of| before.loads[out_of].0); // As young as the prover it comes out of.
        let most = before.step.up_to.and_then(|time| time.whole_minutes()).unwrap_or(0);
        // Work that several may share goes on when the share before is done, if one alone does them all.
        let is_share = then.step.shared_by > 1 && then.step.kind == StepKind::Hands && load > 0;
        let ended = if is_share { ended.max(then.loads[load - 1].1) } else { ended };
        let stands = begins - ended;
        let is_next = is_share && *begins <= ended + stand.max(10);
        if (slack && begins - began > most && !is_next) || (!slack && stands > stand) {
            wrong.push(format!(
                "`{}` of `{}` ends at {ended} and `{}` begins at {begins}: alive, it stands {stands} min",
                before.step.name, part.name, then.step.name
            ));
        }
    }
    if then.step.kind == StepKind::Hands && then.step.loads == Loads::Each && then.step.shared_by > 1 {
        let at_once = |at: i64| then.loads.iter().filter(|load| load.0 <= at && at < load.1).count();
        if then.loads.iter().any(|load| at_once(load.0) > then.step.shared_by as usize) {
            wrong.push(format!("more than {} share `{}` of `{}`", then.step.shared_by, then.step.name, part.name));
        }
    }
    // Loads that go on one by one wait in the rest before them, which says for how long.
    let is_apart = |pair: &[(i64, i64)]| before.step.kind == StepKind::Hands && pair[1].0 - pair[0].1 > stand;
    if !same && before.loads.windows(2).any(is_apart) {
        wrong.push(format!("the loads of `{}` of `{}` are not made one after the other", before.step.name, part.name));
    }
}

/// Folds lie where they are said.
fn folds(recipe: &Recipe, at: usize, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for done in steps {
        let Some(Timing::Into(outer)) = done.step.order.iter().find(|order| matches!(order, Timing::Into(_))) else {
            continue;
        };
        if outer.part.0 != at {
            continue;
        }
        let bulk = &steps[outer.step];
        let moments: Vec<i64> = done.step.moments.iter().filter_map(|moment| moment.whole_minutes()).collect();
        let said = bulk.loads.iter().flat_map(|load| moments.iter().map(move |moment| load.0 + moment));
        let mut said: Vec<i64> = said.collect();
        said.sort_unstable();
        if said.len() != done.loads.len() {
            wrong.push(format!("`{}` is done {} times, not {}", done.step.name, done.loads.len(), said.len()));
        }
        let mut loads = done.loads.clone();
        loads.sort_unstable();
        for (moment, load) in said.iter().zip(loads) {
            if load.0 < *moment || load.0 > moment + 10 || load.1 > bulk.ends() {
                wrong.push(format!(
                    "`{}` of `{}` is at {}, not {moment}",
                    done.step.name, recipe.parts[at].name, load.0
                ));
            }
        }
    }
}

/// A unit is held as long as something is in it: from the start of a rest in it until what comes next begins. Looked at
/// minute by minute, for equipment that takes one load.
fn held(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    // A cupboard has room for all that stands in it.
    let takes_one =
        |equipment: &&Equipment| equipment.holds.is_none() && !equipment.name.to_string().contains("cupboard");
    for equipment in planned.kitchen.equipment.iter().filter(takes_one) {
        let mut stretches: Vec<(i64, i64)> = Vec::new();
        for order in 0..planned.work.batches.len() {
            for (id, _) in planned.work.batches[order].recipe.parts() {
                let steps = steps(planned, order, id.0);
                for (at, done) in steps.iter().enumerate() {
                    if !done.step.equipment.as_ref().is_some_and(|name| name.same(&equipment.name)) {
                        continue;
                    }
                    let next = steps.get(at + 1).filter(|next| next.step.order.is_empty());
                    let rests = done.step.kind == StepKind::Wait && done.step.up_to.is_some();
                    let straight = steps.get(at + 1).is_some_and(|next| {
                        next.step.order.iter().any(|order| matches!(order, Timing::StraightAfter(_)))
                    });
                    for (load, (starts, ends)) in done.loads.iter().enumerate() {
                        let until = next.filter(|_| rests).map(|next| match next.loads.len() == done.loads.len() {
                            _ if done.parts_before(next) => {
                                next.holding(done.shares[load]).map(|load| load.0).max().unwrap_or(*ends)
                            }
                            true => next.loads[load].0,
                            // Of a rest in several units each is held for what it holds.
                            false => next.holding(done.shares[load]).map(|load| load.0).max().unwrap_or(*ends),
                        });
                        if !straight {
                            stretches.push((*starts, until.unwrap_or(*ends).max(*ends)));
                        }
                    }
                    let _ = done.order;
                }
            }
        }
        for (starts, _) in &stretches {
            let inside = stretches.iter().filter(|other| other.0 <= *starts && *starts < other.1).count();
            if inside > equipment.count as usize {
                wrong.push(format!("{inside} loads in {} x {} at {starts}", equipment.name, equipment.count));
            }
        }
    }
}

/// A rest goes on no longer than it may, counted from its start and, of pieces that were shaped one by one, from the first of them.
fn goes_on_too_long(recipe: &Recipe, at: usize, part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for (number, pair) in steps.windows(2).enumerate() {
        let [rest, then] = pair else { continue };
        let most = rest.step.up_to.and_then(|time| time.whole_minutes());
        let Some(most) = most.filter(|_| rest.step.kind == StepKind::Wait && then.step.order.is_empty()) else {
            continue;
        };
        for turn in then.times() {
            let (rest, then) = (rest.of(turn), then.of(turn));
            for (load, (begins, _)) in then.loads.iter().enumerate() {
                let same = rest.loads.len() == then.loads.len();
                let began = match same && !rest.parts_before(&then) {
                    true => rest.loads[load].0,
                    // Of what several units hold some of it, it is as old as what went in first.
                    false => rest.holding(then.shares[load]).map(|load| load.0).min().unwrap_or(*begins),
                };
                // Work that several may share goes on when the share before is done, if one alone does them all.
                let is_share = then.step.shared_by > 1 && then.step.kind == StepKind::Hands && load > 0;
                let is_next = is_share && *begins <= then.loads[load - 1].1 + 10;
                if begins - began > most && !is_next {
                    wrong.push(format!(
                        "`{}` of `{}` goes on for {} min until `{}`, which may be {most}",
                        rest.step.name,
                        part.name,
                        begins - began,
                        then.step.name
                    ));
                }
            }
        }
        let Some(shaped) = number.checked_sub(1).and_then(|before| steps.get(before)) else { continue };
        let one_by_one = shaped.step.loads == Loads::Each && shaped.loads.len() == 1 && rest.loads.len() == 1;
        if !one_by_one || shaped.is_free() || !rest.step.order.is_empty() || !alive(recipe, at, number - 1, 0) {
            continue;
        }
        let stand = shaped.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
        let (began, ended) = shaped.loads[0];
        for ((begins, _), share) in then.loads.iter().zip(&then.shares) {
            // When the first piece of this load was done.
            let done = share.0.times(Number::whole(ended - began)).unwrap().ceil().to_whole().unwrap();
            if begins - began > done + most + stand {
                wrong.push(format!(
                    "the first piece of `{}` waits {} min for `{}`, {} at most",
                    part.name,
                    begins - began - done,
                    then.step.name,
                    most + stand
                ));
            }
        }
    }
}

/// A part is used while it keeps.
fn kept_too_long(
    planned: &Planned<'_>,
    (order, at): (usize, usize),
    part: &Part,
    steps: &[Done<'_>],
    wrong: &mut Vec<String>,
) {
    let Some(keeps) = part.keeps.and_then(|keeps| keeps.time.whole_minutes()) else { return };
    let Some(last) = steps.iter().rfind(|done| !done.is_free()) else { return };
    let stretch = last.step.up_to.and_then(|most| Some(most.whole_minutes()? - last.step.time.1.whole_minutes()?));
    // A rest in the cold is keeping already; a warm one goes on first.
    let is_cold = match last.step.temperature {
        Some((low, high)) => high.unwrap_or(low).celsius() <= Number::whole(8),
        None => ["chill", "freez", "cold"].iter().any(|word| last.step.name.text.to_lowercase().contains(word)),
    };
    let most = if is_cold { keeps } else { keeps + stretch.unwrap_or(0) };
    for user in 0..planned.work.batches.len() {
        let recipe = &planned.work.batches[user].recipe;
        for (id, taker) in recipe.parts() {
            for (number, line) in taker.lines.iter().enumerate() {
                let Refers::Part(other) = line.refers else { continue };
                let place = planned.work.made_in(BatchPart { batch: user, part: other });
                let is_it = place.is_some_and(|place| (place.batch, place.part.0) == (order, at));
                if !is_it || line.before.is_some() || line.from_store {
                    continue;
                }
                let takes = self::steps(planned, user, id.0);
                let taken = takes.iter().filter(|done| draws(done.step, Target::Line(number)));
                for begins in taken.flat_map(|done| done.loads.iter().map(|load| load.0)) {
                    if begins - last.ends() > most {
                        wrong.push(format!("`{}` is taken {} min after it was made", part.name, begins - last.ends()));
                    }
                }
            }
        }
    }
}

/// Each order is ready when it is wanted, all its pieces are made, and at each time no others go on than those that are wanted then.
fn in_time(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    for (at, order) in planned.work.orders.iter().enumerate() {
        let finals = planned.tasks.finals.get(at).map_or(&[][..], Vec::as_slice);
        let ends = finals.iter().map(|task| time(*task, planned).1).max();
        let due = planned.schedule.made.get(at).and_then(|made| made.due).map(|due| due + planned.schedule.start);
        if let (Some(due), Some(ends)) = (due, ends)
            && ends > due
        {
            wrong.push(format!("order {at} is ready at {ends} and wanted at {due}"));
        }
        let Some(batch) = finals.first().and_then(|task| planned.tasks.list.get(*task)).map(|task| task.batch) else {
            continue;
        };
        let Some(apart) = &planned.work.batches[batch].apart else { continue };
        let wanted = order.made().parts.iter().filter_map(|part| part.pieces).next();
        let turn = apart.turns.iter().find(|turn| turn.orders.contains(&at));
        let pieces = finals.iter().filter_map(|task| planned.tasks.list[*task].pieces);
        let made = pieces.fold(Number::ZERO, |sum, pieces| sum.plus(pieces).unwrap());
        let alone = turn.is_some_and(|turn| turn.orders.len() == 1);
        if alone && wanted.is_some_and(|wanted| wanted.value() != made) {
            wrong.push(format!("order {at} has {made:?} pieces of {wanted:?}"));
        }
    }
}
