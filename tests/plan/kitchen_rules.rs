//! An independent check of a plan against the recipes themselves: what every baker knows, looked at from scratch. It
//! reads steps and starts and ends, and none of what the planner was told about them.

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use miche::make::batch::BatchPart;
use miche::make::work::Work;
use miche::measure::number::Number;
use miche::model::kitchen::{Cook, Kitchen};
use miche::model::recipe::{Part, Recipe, Refers};
use miche::model::step::{Step, StepKind, Target, Timing, Words};
use miche::plan::schedule::Schedule;
use miche::plan::solve::Plan;
use miche::plan::tasks::{Task, Tasks};

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
}

impl Done<'_> {
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
        }
    }
    held(planned, &mut wrong);
    staffed(planned, &mut wrong);
    lit(planned, &mut wrong);
    same_unit(planned, &mut wrong);
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
        Done { order, part, step, loads: tasks.map(|(task, _)| time(task, planned)).collect() }
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
        for done in steps.iter().skip(first).filter(|done| !done.is_free()) {
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
        if !alive(recipe, at, number, 0) || before.is_free() || !then.step.order.is_empty() {
            continue;
        }
        let stand = before.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
        let slack = before.step.kind == StepKind::Wait && before.step.up_to.is_some();
        for (load, (begins, _)) in then.loads.iter().enumerate() {
            let same = before.loads.len() == then.loads.len();
            let (began, ended) = if same { before.loads[load] } else { (before.begins(), before.ends()) };
            let most = before.step.up_to.and_then(|time| time.whole_minutes()).unwrap_or(0);
            let stands = begins - ended;
            if (slack && begins - began > most) || (!slack && stands > stand) {
                wrong.push(format!(
                    "`{}` of `{}` ends at {ended} and `{}` begins at {begins}: alive, it stands {stands} min",
                    before.step.name, part.name, then.step.name
                ));
            }
        }
        let last =
            before.loads.windows(2).all(|pair| before.step.kind != StepKind::Hands || pair[1].0 - pair[0].1 <= stand);
        if !last {
            wrong.push(format!(
                "the loads of `{}` of `{}` are not made one after the other",
                before.step.name, part.name
            ));
        }
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
    for equipment in planned.kitchen.equipment.iter().filter(|equipment| equipment.holds.is_none()) {
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
                            true => next.loads[load].0,
                            false => next.loads.iter().map(|load| load.0).max().unwrap_or(*ends),
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

/// The time on the wall at a minute.
fn wall(day: Date, minute: i64) -> DateTime {
    day.at(0, 0, 0, 0).checked_add(minute.minutes()).unwrap()
}

/// Whether hours that begin on some day hold a stretch of time whole; hours that end no later than they begin end on the next
/// day.
fn hold(from: Time, to: Time, comes: impl Fn(Date) -> bool, begin: DateTime, end: DateTime) -> bool {
    [-1, 0].into_iter().any(|back| {
        let day = begin.date().checked_add(back.days()).unwrap();
        let last = if to <= from { day.checked_add(1.day()).unwrap() } else { day };
        let until =
            if to.second() == 59 { day.checked_add(1.day()).unwrap().at(0, 0, 0, 0) } else { last.to_datetime(to) };
        comes(day) && day.to_datetime(from) <= begin && end <= until
    })
}

fn is_there(cook: &Cook, begin: DateTime, end: DateTime) -> bool {
    cook.hours.is_none_or(|hours| hold(hours.from, hours.to, |day| cook.comes_on(day.weekday()), begin, end))
}

/// Nobody works outside their hours, on a day on which they do not come, through their rest, or for a day and a half; and
/// somebody is there all the while that something runs in reach.
fn staffed(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    let kitchen = planned.kitchen;
    for (at, task) in planned.tasks.list.iter().enumerate() {
        let (begins, ends) = time(at, planned);
        let who = &planned.plan.cooks[at];
        if task.kind == StepKind::Hands && begins < ends && who.len() != task.people as usize {
            wrong.push(format!("task {at} has {who:?} of {} people", task.people));
        }
        let Some(day) = planned.day else { continue };
        for cook in who.iter().filter_map(|who| kitchen.named.get(*who as usize - 1)) {
            if !is_there(cook, wall(day, begins), wall(day, ends)) {
                wrong.push(format!("{} is not there from {begins} to {ends}", cook.name));
            }
        }
        if task.kind != StepKind::Wait && !kitchen.named.is_empty() {
            for minute in (begins..ends).step_by(5) {
                let now = (wall(day, minute), wall(day, minute + 1));
                if !kitchen.named.iter().any(|cook| is_there(cook, now.0, now.1)) {
                    wrong.push(format!("nobody is in reach of task {at} at {minute}"));
                    break;
                }
            }
        }
    }
    let people = planned.plan.cooks.iter().flatten().copied().max().unwrap_or(0);
    for who in 1..=people {
        let mine = planned.plan.cooks.iter().enumerate().filter(|(_, cooks)| cooks.contains(&who));
        let mut work: Vec<(i64, i64)> = mine.map(|(at, _)| time(at, planned)).filter(|time| time.0 < time.1).collect();
        work.sort_unstable();
        if let Some(pair) = work.windows(2).find(|pair| pair[1].0 < pair[0].1) {
            wrong.push(format!("{who} does two things at {}", pair[1].0));
        }
        for rest in planned.plan.rests.iter().filter(|rest| rest.0 == who) {
            if work.iter().any(|work| work.0 < rest.2 && rest.1 < work.1) {
                wrong.push(format!("{who} works through the rest at {}", rest.1));
            }
        }
        let cook = kitchen.named.get(who as usize - 1);
        // At home nobody has shifts; elsewhere a day of work has an end and is followed by a time away.
        let at_home = kitchen.span.is_none() && kitchen.longest.is_none();
        let most = kitchen.longest_day(cook);
        let night = nights(planned).unwrap_or(11 * 60).min(11 * 60);
        let mut first = i64::MIN;
        let mut last = i64::MIN / 2;
        for (begins, ends) in work.iter().copied().filter(|_| !at_home && cook.is_none_or(|cook| cook.hours.is_none()))
        {
            if begins - last >= night {
                first = begins;
            }
            last = last.max(ends);
            if last - first > most {
                wrong.push(format!("{who} works from {first} to {last}"));
            }
        }
        // A rest in every shift of over six hours.
        let (Some(cook), Some(day)) = (cook, planned.day) else { continue };
        let (Some(hours), Some(rest)) = (cook.hours, cook.rests.and_then(|rest| rest.whole_minutes())) else {
            continue;
        };
        let clock = |time: Time| i64::from(time.hour()) * 60 + i64::from(time.minute());
        let lasts = match (clock(hours.to) + i64::from(hours.to.second() > 0) - clock(hours.from)).rem_euclid(1440) {
            0 => 1440,
            lasts => lasts,
        };
        let through = kitchen.opens == jiff::civil::time(0, 0, 0, 0);
        for (begins, _) in work.iter().filter(|_| lasts > 360 && through) {
            let begin = wall(day, *begins);
            let today = begin.date().to_datetime(hours.from);
            let from = if today <= begin { today } else { today.checked_sub(1.day()).unwrap() };
            let from = begins - (begin.duration_since(from).as_secs() / 60);
            let rests = planned.plan.rests.iter().filter(|one| one.0 == who && one.1 >= from && one.2 <= from + lasts);
            if rests.clone().count() != 1 || rests.clone().any(|one| one.2 - one.1 != rest) {
                wrong.push(format!("{} rests {:?} in the shift from {from}", cook.name, rests.collect::<Vec<_>>()));
            }
        }
    }
}

/// The shortest time for which the kitchen is shut.
fn nights(planned: &Planned<'_>) -> Option<i64> {
    planned.day?;
    let clock = |time: Time| i64::from(time.hour()) * 60 + i64::from(time.minute()) + i64::from(time.second() > 0);
    let (opens, closes) = (clock(planned.kitchen.opens), clock(planned.kitchen.closes));
    Some((opens - closes).rem_euclid(1440)).filter(|night| *night > 0)
}

/// What must be hot was lit so long before by somebody who was there, on the same day, and after whatever was in it at another
/// heat.
fn lit(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    let first = planned.schedule.start;
    for equipment in &planned.kitchen.equipment {
        let Some(heating) =
            equipment.heating.and_then(|heating| heating.whole_minutes()).filter(|heating| *heating > 0)
        else {
            continue;
        };
        let agrees = equipment.agrees.map_or(5.0, |agrees| agrees.celsius().to_f64()).max(5.0);
        for unit in 1..=equipment.count {
            // Everything that is in this unit, or lights it, in the order of the clock.
            let mut hot: Option<f64> = None;
            let mut since = i64::MIN;
            let mut loads: Vec<(i64, i64, &Task)> = Vec::new();
            for (at, task) in planned.tasks.list.iter().enumerate() {
                let here = task.equipment.as_ref().is_some_and(|name| name.same(&equipment.name))
                    && planned.tasks.holder(at).and_then(|holder| planned.plan.units[holder]) == Some(unit);
                let (begins, ends) = time(at, planned);
                if here && begins < ends {
                    loads.push((begins, ends, task));
                }
            }
            loads.sort_by_key(|load| (load.0, load.1));
            for (begins, ends, task) in loads {
                let light = planned.schedule.lights.iter().rev().find(|light| {
                    light.equipment == *equipment.name.text
                        && light.unit.unwrap_or(1) == unit
                        && light.end + first <= begins
                        && light.start + first >= since
                });
                let wanted = task.temperature.map(|at| at.celsius().to_f64());
                if let Some(light) = light {
                    hot = wanted;
                    if light.end - light.start != heating || light.people.is_empty() {
                        wrong
                            .push(format!("{} {unit} is lit at {} by {:?}", equipment.name, light.start, light.people));
                    }
                    let at = light.start + first;
                    if let Some(day) = planned.day
                        && let Some(cook) = planned.kitchen.named.get(light.people[0] as usize - 1)
                        && !is_there(cook, wall(day, at), wall(day, at + 1))
                    {
                        wrong.push(format!("{} lights {} at {at} and is not there", cook.name, equipment.name));
                    }
                } else if since == i64::MIN && !task.heats {
                    wrong.push(format!("{} {unit} is cold at {begins}", equipment.name));
                } else if let (Some(hot), Some(wanted)) = (hot, wanted)
                    && (hot - wanted).abs() > agrees
                    && !goes_straight_on(planned, task)
                {
                    wrong.push(format!("{} {unit} has {hot} and not {wanted} at {begins}", equipment.name));
                }
                hot = task.leaves.map(|at| at.celsius().to_f64()).or(hot);
                since = since.max(ends);
            }
        }
    }
}

/// Whether a step goes on in the unit of the one before, which is turned up or down with what is in it.
fn goes_straight_on(planned: &Planned<'_>, task: &Task) -> bool {
    let part = &planned.work.batches[task.batch].recipe.parts[task.step.part.0];
    part.steps[task.step.step].order.iter().any(|order| matches!(order, Timing::StraightAfter(_)))
}

/// `straight after` with the same kind of equipment stays in the same unit.
fn same_unit(planned: &Planned<'_>, wrong: &mut Vec<String>) {
    let unit = |at: usize| planned.tasks.holder(at).and_then(|holder| planned.plan.units[holder]);
    for (at, task) in planned.tasks.list.iter().enumerate() {
        let Some(name) = &task.equipment else { continue };
        let part = &planned.work.batches[task.batch].recipe.parts[task.step.part.0];
        let before = part.steps[task.step.step].order.iter().find_map(|order| match order {
            Timing::StraightAfter(other) if other.part == task.step.part => Some(other.step),
            _ => None,
        });
        let Some(before) = before else { continue };
        let from = planned.tasks.list.iter().enumerate().find(|(_, other)| {
            (other.batch, other.step.part, other.step.step) == (task.batch, task.step.part, before)
                && other.equipment.as_ref().is_some_and(|other| other.same(name))
                && (other.load, other.loads) == (task.load, task.loads)
        });
        if let Some((from, _)) = from
            && unit(from) != unit(at)
        {
            wrong.push(format!("task {at} goes from {name} {:?} to {:?}", unit(from), unit(at)));
        }
    }
}
