//! The same for people and what they light: who is there, who rests when, who works how long, and that what must be hot was lit.

use super::{Planned, time};
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use miche::measure::number::Number;
use miche::model::kitchen::Cook;
use miche::model::step::{Step, StepKind, Timing};
use miche::plan::tasks::Task;

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
pub fn staffed(planned: &Planned<'_>, wrong: &mut Vec<String>) {
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
        let closed = closed(planned);
        let mut first = i64::MIN;
        let mut last = i64::MIN / 2;
        for (begins, ends) in work.iter().copied().filter(|_| !at_home && cook.is_none_or(|cook| cook.hours.is_none()))
        {
            if begins - last >= 11 * 60 || closed.iter().any(|night| last <= night.0 && night.1 <= begins) {
                first = begins;
            }
            last = last.max(ends);
            if last - first > most {
                wrong.push(format!("{who} works from {first} to {last}"));
            }
        }
        if let (Some(cook), Some(day)) = (cook, planned.day) {
            rests(planned, (who, cook), day, &work, wrong);
        }
    }
}

/// One rest in every shift of over six hours in which somebody works: with no more than six hours of work before it and after
/// it and, where there is a choice, neither in the first nor in the last hour.
fn rests(planned: &Planned<'_>, (who, cook): (u32, &Cook), day: Date, work: &[(i64, i64)], wrong: &mut Vec<String>) {
    let (Some(hours), Some(rest)) = (cook.hours, cook.rests.and_then(|rest| rest.whole_minutes())) else { return };
    let clock = |time: Time| i64::from(time.hour()) * 60 + i64::from(time.minute()) + i64::from(time.second() > 0);
    let lasts = |from: Time, to: Time| match (clock(to) - clock(from)).rem_euclid(1440) {
        0 => 1440,
        lasts => lasts,
    };
    let kitchen = planned.kitchen;
    let stretches = |from: Time, to: Time, comes: &dyn Fn(Date) -> bool| -> Vec<(i64, i64)> {
        let days = (-8..=1).filter(|back| comes(day.checked_add(back.days()).unwrap()));
        days.map(|back| (back * 1440 + clock(from), back * 1440 + clock(from) + lasts(from, to))).collect()
    };
    let open = stretches(kitchen.opens, kitchen.closes, &|_| true);
    let all_day = lasts(kitchen.opens, kitchen.closes) == 1440 || lasts(hours.from, hours.to) == 1440;
    for (from, to) in stretches(hours.from, hours.to, &|day| cook.comes_on(day.weekday())) {
        for (opens, closes) in open.iter().filter(|_| !all_day).map(|open| (from.max(open.0), to.min(open.1))) {
            let is_here = |(begins, ends): &(i64, i64)| *begins >= opens && *ends <= closes;
            if closes - opens <= 360 || rest >= closes - opens || !work.iter().any(is_here) {
                continue;
            }
            let mine = planned.plan.rests.iter().filter(|one| one.0 == who && one.1 >= opens && one.2 <= closes);
            let mine: Vec<(i64, i64)> = mine.map(|one| (one.1, one.2)).collect();
            let [(begins, ends)] = mine[..] else {
                wrong.push(format!("{} rests {mine:?} from {opens} to {closes}", cook.name));
                continue;
            };
            let (first, last) = ((closes - 360 - rest).max(opens), (opens + 360).min(closes - rest));
            let settled = (first.max(opens + 60), last.min(closes - 60 - rest));
            let (first, last) = if settled.0 <= settled.1 { settled } else { (first, last) };
            if ends - begins != rest || first <= last && !(first..=last).contains(&begins) {
                wrong.push(format!("{} rests from {begins} to {ends}, there from {opens} to {closes}", cook.name));
            }
        }
    }
}

/// The nights in which the kitchen is shut, for a week before the day and the night after it.
fn closed(planned: &Planned<'_>) -> Vec<(i64, i64)> {
    let clock = |time: Time| i64::from(time.hour()) * 60 + i64::from(time.minute()) + i64::from(time.second() > 0);
    let (opens, closes) = (clock(planned.kitchen.opens), clock(planned.kitchen.closes));
    let lasts = (opens - closes).rem_euclid(1440);
    if planned.day.is_none() || lasts == 0 {
        return Vec::new();
    }
    (-9..=2).map(|day| day * 1440 + closes).map(|begins| (begins, begins + lasts)).collect()
}

/// What must be hot was lit so long before by somebody who was there, on the same day, and after whatever was in it at another
/// heat.
pub fn lit(planned: &Planned<'_>, wrong: &mut Vec<String>) {
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
                    // Nobody lights anything before the kitchen opens, or after it closed.
                    let hours = &planned.schedule.open;
                    let is_open = hours.iter().any(|open| open.opens <= light.start && light.start < open.closes);
                    if !hours.is_empty() && !is_open {
                        wrong
                            .push(format!("{} {unit} is lit at {} while nobody is there", equipment.name, light.start));
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
                    // A step that heats is what brings it from one heat to the other.
                    && !task.heats
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

/// What is alive after a warm rest and keeps in the cold is put there by somebody, when it has risen and before it has for too long.
pub fn put_into_the_cold(planned: &Planned<'_>, rest: (&Step, &[(i64, i64)]), wrong: &mut Vec<String>) {
    let (Some(day), kitchen, (step, loads)) = (planned.day, planned.kitchen, rest) else { return };
    let is_cold = match step.temperature {
        Some((low, high)) => high.unwrap_or(low).celsius() <= Number::whole(8),
        None => {
            ["chill", "cold", "freez", "refrigerat", "retard"].iter().any(|word| step.name.to_string().contains(word))
        }
    };
    if step.kind != StepKind::Wait || is_cold || step.equipment.is_some() {
        return;
    }
    let Some(most) = step.up_to else { return };
    let most = most.whole_minutes().unwrap() - step.time.1.whole_minutes().unwrap();
    for (_, end) in loads {
        let is_there = |minute: i64| {
            let now = wall(day, minute);
            let open = hold(kitchen.opens, kitchen.closes, |_| true, now, now);
            open && (kitchen.named.is_empty() || kitchen.named.iter().any(|cook| is_there(cook, now, now)))
        };
        if !(*end..=end + most.max(10)).any(is_there) {
            wrong.push(format!("nobody puts what {} made by {end} into the cold", step.name));
        }
    }
}
