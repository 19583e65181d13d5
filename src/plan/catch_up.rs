//! A day that runs late: by how little each order can be late, what would have to be left out for the rest to be in time, and
//! which limits cannot be kept.

mod last_resort;
mod short_bakes;

use super::limit::Limit;
use super::problem::{Minute, Rule};
use super::running::{FromNow, RunningLimit};
use super::shorter::Otherwise;
use super::solve::{self, Infeasible, Plan};

/// Steps of search that trying one way out may cost.
const EFFORT: u64 = 20_000;

/// So many orders are tried before that: where there is a plan, most of the time one of them leads to it.
const SHAKEN: usize = 40;

/// The same of asking whether everything can still be done on the same day.
const LITTLE_EFFORT: u64 = 6_000;

/// What is late by no more than this is still done on the same day; before it is put off to another, somebody stays longer: what has
/// risen by now is lost tomorrow. Common practice, no source.
const SAME_DAY: Minute = 480;

/// What is past a limit waits no longer than so many minutes from now, the least that goes: what has risen for too long goes into the oven
/// before anything else does.
const IN_A_HURRY: [Minute; 6] = [5, 15, 30, 60, 120, 240];

/// By so many minutes limits that cannot be kept are broken, the least that goes.
const BROKEN_BY: [Minute; 6] = [15, 45, 60, 90, 120, 360];

/// So late at least, in minutes, is tried; the first that goes is taken.
const LATER: [Minute; 17] = [5, 10, 15, 20, 30, 45, 60, 75, 90, 120, 150, 180, 240, 360, 480, 720, 1440];

/// Up to so many minutes it is told to the minute by how much something is late.
const TO_THE_MINUTE: Minute = 120;

/// By so many minutes somebody stays longer, the least that is enough.
const OVERTIME: [Minute; 4] = [15, 30, 60, 120];

/// The longest that is tried.
const LATEST: Minute = 1440;

/// So many orders that are late are each tried to be spared before all others, and so many others to rest for less time.
const MOST_SPARED: usize = 3;
const MOST_SHORTER: usize = 6;

/// What has to be left out so that nothing else is late: numbers of orders, any one of which is enough, the least work first.
pub type LeftOut = Vec<usize>;

/// A plan for the rest of a day.
#[derive(Debug, Clone)]
pub struct CaughtUp {
    /// The plan.
    pub plan: Plan,
    /// Orders any one of which would have to be left out for all others to be in time; empty where nothing is late, or where
    /// leaving out one is not enough.
    pub leave_out: LeftOut,
    /// Limits that are broken already, or that this plan cannot keep.
    pub broken: Vec<RunningLimit>,
    /// Limits that it keeps, and how many minutes are left of them when the next step begins; the first to end first.
    pub kept: Vec<(RunningLimit, Minute)>,
    /// What is tended and planned at the shorter end of its range, and what would be with the longer one.
    pub shorter: Vec<(usize, Otherwise)>,
}

/// One order that has a time, and the tasks that are done for it alone.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// Its number.
    pub order: usize,
    /// Which tasks.
    pub tasks: Vec<usize>,
    /// The minutes of work and baking in them that are still to come.
    pub left: Minute,
}

/// Plans the rest of a day; where there is no plan at all, with rests at the shorter end of their range, as before the day, then with what is
/// tended as well, and at last with a limit of what is still to come broken by a little.
///
/// # Errors
/// When there is no plan even with everything a day late.
pub fn catch_up(
    from_now: &FromNow,
    now_at: Minute,
    wanted: &[Wanted],
    limit: &Limit<'_>,
) -> Result<CaughtUp, Infeasible> {
    let found = as_written(from_now, now_at, wanted, limit);
    if matches!(found, Ok(_) | Err(Infeasible::Faults(_))) {
        return found;
    }
    let rests = from_now.with_short_rests(|_| true);
    let with_short_rests = rests.as_ref().and_then(|short| as_written(short, now_at, wanted, limit).ok());
    if let Some(found) = with_short_rests {
        return Ok(found);
    }
    let possible = |way: &FromNow| !(limit.stop)() && is_possible(way, LITTLE_EFFORT, limit);
    let rests = rests.unwrap_or_else(|| from_now.clone());
    let baked = short_bakes::as_few(&rests, &|way| possible(&way.later(|_| LATEST)));
    let way = baked.or_else(|| {
        let broken = |way: &FromNow| last_resort::with_limits_broken(way, &possible);
        let longest = OVERTIME.last().copied().unwrap_or(0);
        broken(&rests)
            .or_else(|| broken(&from_now.at_shortest()))
            .or_else(|| broken(&rests.with_overtime(now_at, longest)))
    });
    let Some(way) = way else { return found };
    let planned = as_written(&way, now_at, wanted, limit);
    let planned =
        planned.map(|caught| CaughtUp { shorter: shorter(&rests, &way, Otherwise::NoPlan, caught.shorter), ..caught });
    planned.or(found)
}

/// Whether a way has a plan, as far as a little search shows.
fn is_possible(way: &FromNow, steps: u64, limit: &Limit<'_>) -> bool {
    let little = Limit { stop: limit.stop, ..Limit::steps(steps) };
    solve::possible_shaken(&way.problem, SHAKEN, &little) == Some(true)
}

/// What is tended and shorter in one way than in another, beside what is so already.
fn shorter(
    long: &FromNow,
    short: &FromNow,
    otherwise: Otherwise,
    mut known: Vec<(usize, Otherwise)>,
) -> Vec<(usize, Otherwise)> {
    let still: Vec<usize> = short.long_bakes().collect();
    known.extend(long.long_bakes().filter(|task| !still.contains(task)).map(|task| (task, otherwise)));
    known
}

fn as_written(
    from_now: &FromNow,
    now_at: Minute,
    wanted: &[Wanted],
    limit: &Limit<'_>,
) -> Result<CaughtUp, Infeasible> {
    let possible_within = |steps: u64, problem: &FromNow| !(limit.stop)() && is_possible(problem, steps, limit);
    let possible = |problem: &FromNow| possible_within(EFFORT, problem);
    // As it is, and when somebody stays longer, since what has risen does not wait.
    let ways = |way: &FromNow| {
        let longer = OVERTIME.map(|by| way.with_overtime(now_at, by));
        std::iter::once(way.clone()).chain(longer)
    };
    // What needs another day by its own times alone has it, and is no reason for the others to wait for it.
    let longest = OVERTIME.last().copied().unwrap_or(0);
    let at_best = from_now.with_longer_limits(None).with_overtime(now_at, longest);
    let is_ruled_out = |by: &dyn Fn(usize) -> Minute| solve::is_ruled_out(&at_best.later(by).problem);
    let is_for_another_day = |due: usize| is_ruled_out(&|other| if other == due { SAME_DAY } else { LATEST });
    let orders = from_now.problem.dues.len();
    let soon: Vec<Minute> = match is_ruled_out(&|_| SAME_DAY) {
        false => vec![SAME_DAY; orders],
        true => (0..orders).map(|due| if is_for_another_day(due) { LATEST } else { SAME_DAY }).collect(),
    };
    let goes_on =
        |way: &FromNow| possible_within(LITTLE_EFFORT, &way.later(|due| soon.get(due).copied().unwrap_or(LATEST)));
    let hurried = || IN_A_HURRY.into_iter().map(|most| from_now.in_a_hurry(most));
    let hurried = if from_now.is_over() { hurried().find(|way| ways(way).any(|way| goes_on(&way))) } else { None };
    let from_now = hurried.as_ref().unwrap_or(from_now);
    let (mut leave_out, mut baked_shorter) = (Vec::new(), Vec::new());
    let (mut found, mut now) = (solve::plan(&from_now.problem, limit), from_now.clone());
    if let Err(why) = &found {
        if matches!(why, Infeasible::Faults(_)) {
            return Err(why.clone());
        }
        // Later on the same day, where need be with somebody who stays longer or a limit that is broken by a little; then on another day;
        // what runs goes on for as long as it takes only when nothing else is left.
        let is_soon = |(due, by): (usize, &Minute)| *by <= SAME_DAY || soon.get(due) == Some(&LATEST);
        let plain = || {
            let is_possible = possible(&from_now.later(|_| LATEST));
            let late = is_possible.then(|| least_late(from_now, &possible))?;
            late.iter().enumerate().all(is_soon).then(|| (from_now.clone(), late))
        };
        let broken = |by: &Minute| ways(&from_now.with_longer_limits(Some(*by)));
        let (little, much) = BROKEN_BY.split_at(2);
        let today = || ways(from_now).skip(1).chain(little.iter().flat_map(broken)).find(goes_on);
        let tomorrow = || ways(from_now).find(|way| possible(&way.later(|_| LATEST)));
        let broken_by_much = || much.iter().flat_map(broken).find(goes_on);
        let anew = || ways(&from_now.with_longer_limits(None)).find(|way| possible(&way.later(|_| LATEST)));
        let way_out = plain().or_else(|| {
            let way = today().or_else(tomorrow).or_else(broken_by_much).or_else(anew)?;
            let late = least_late(&way, &possible);
            Some((way, late))
        });
        let Some((way, by)) = way_out else { return Err(why.clone()) };
        let easily = |problem: &FromNow| possible_within(LITTLE_EFFORT, problem);
        let (long, by) = with_shorter_rests(way, by, wanted, &possible, &easily);
        let (way, by, otherwise) = short_bakes::in_time(long.clone(), by, &possible, &easily);
        baked_shorter = shorter(&long, &way, otherwise, Vec::new());
        now = way.later(|due| by.get(due).copied().unwrap_or(LATEST));
        found = solve::plan(&now.problem, limit);
        leave_out = to_leave_out(&way, &by, wanted, &possible);
    }
    Ok(CaughtUp { shorter: baked_shorter, ..told(found?, &now, leave_out) })
}

/// The orders any one of which would have to be left out for all others to be in time, the least work first.
fn to_leave_out(way: &FromNow, by: &[Minute], wanted: &[Wanted], possible: &dyn Fn(&FromNow) -> bool) -> LeftOut {
    let mut alone: Vec<&Wanted> = wanted.iter().filter(|order| !order.tasks.is_empty()).collect();
    // What nobody has begun goes first: what is kneaded and proved would be thrown away.
    let is_begun = |order: &Wanted| order.tasks.iter().any(|task| way.logged.get(*task).is_some_and(Option::is_some));
    alone.sort_by_key(|order| (is_begun(order), order.left, order.order));
    // What is late itself helps nobody by being left out, unless another that is late is in time then.
    let is_late = |order: &Wanted| wanted.iter().zip(by).any(|(one, by)| one.order == order.order && *by > 0);
    let late = wanted.iter().filter(|order| is_late(order)).count();
    if wanted.len() < 2 || late == 0 {
        return Vec::new();
    }
    let helps = |order: &Wanted| late > usize::from(is_late(order));
    let is_enough = |order: &&&Wanted| helps(order) && possible(&way.without(|task| order.tasks.contains(&task)));
    let enough: Vec<&Wanted> = alone.iter().filter(is_enough).take(3).copied().collect();
    let begun_too = enough.iter().all(|order| is_begun(order));
    enough.into_iter().filter(|order| begun_too || !is_begun(order)).map(|order| order.order).collect()
}

/// Before anything is late rests end as soon as they may: its own, and then, order by order, those of what stands in its way. `possible` asks
/// with all effort, `easily` with little.
fn with_shorter_rests(
    mut way: FromNow,
    mut by: Vec<Minute>,
    wanted: &[Wanted],
    possible: &dyn Fn(&FromNow) -> bool,
    easily: &dyn Fn(&FromNow) -> bool,
) -> (FromNow, Vec<Minute>) {
    let is_late = |by: &[Minute], at: usize| by.get(at).is_some_and(|by| *by > 0);
    let late: Vec<usize> = (0..wanted.len()).filter(|at| is_late(&by, *at)).collect();
    let others = (0..wanted.len()).filter(|at| !late.contains(at)).take(MOST_SHORTER).map(|at| vec![at]);
    for group in std::iter::once(late.clone()).chain(others) {
        let is_own = group == late;
        if !is_own && !by.iter().any(|by| (1..LATEST).contains(by)) {
            break;
        }
        let of = |task: usize| group.iter().filter_map(|at| wanted.get(*at)).any(|order| order.tasks.contains(&task));
        let Some(short) = way.with_short_rests(of) else { continue };
        // What was only told in steps is told to the minute, so that both are compared by the same measure.
        let asked = if is_own { possible } else { easily };
        by = as_little_in_all(&way, by_minutes(&way, &by, asked), easily);
        let sooner = if asked(&short) { vec![0; by.len()] } else { by_minutes(&short, &by, asked) };
        let sooner = as_little_in_all(&short, sooner, easily);
        if sooner.iter().sum::<Minute>() < by.iter().sum() {
            (way, by) = (short, sooner);
        }
    }
    let by = with_one_behind(&way, as_little_in_all(&way, by, easily), easily);
    (way, by)
}

/// A plan with the limits that it keeps and breaks.
fn told(plan: Plan, now: &FromNow, leave_out: LeftOut) -> CaughtUp {
    let mut broken = Vec::new();
    let mut kept = Vec::new();
    // A rest begins the moment the work before it ends; how long what waits for it may stand is another limit.
    for limit in now.limits.iter().filter(|limit| limit.rule != Rule::AtOnce) {
        let Some(start) = plan.starts.get(limit.to).copied() else { continue };
        if start > limit.by {
            broken.push(*limit);
        } else {
            kept.push((*limit, limit.by - start));
        }
    }
    // What waits behind it goes on too long with it.
    for limit in &now.after {
        let Some(by) = now.counts_from(limit, &plan).map(|from| from + limit.by) else { continue };
        if plan.starts.get(limit.to).is_some_and(|start| *start > by) {
            let mut over = *limit;
            over.by = by;
            broken.push(over);
        }
    }
    CaughtUp { plan, leave_out, broken, kept, shorter: Vec::new() }
}

/// The least number of minutes of which something holds that does not hold of `low`, and does of `high`.
fn first_that_fits(mut low: Minute, mut high: Minute, fits: impl Fn(&Minute) -> bool) -> Minute {
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if fits(&middle) { high = middle } else { low = middle }
    }
    high
}

/// The same lateness with each order that is late less so, by as many minutes as can be. Of what is for another day nobody asks for minutes, and
/// to look for them would try a dozen plans.
fn by_minutes(way: &FromNow, late: &[Minute], possible: &dyn Fn(&FromNow) -> bool) -> Vec<Minute> {
    in_turn(way, late, 0..late.len(), possible)
}

/// The same, one order after the other as they are named: the first is spared most.
fn in_turn(
    way: &FromNow,
    late: &[Minute],
    orders: impl IntoIterator<Item = usize>,
    possible: &dyn Fn(&FromNow) -> bool,
) -> Vec<Minute> {
    let mut sooner = late.to_vec();
    for due in orders {
        let Some(by) = late.get(due).copied().filter(|by| (1..LATEST).contains(by)) else { continue };
        let fits = |by: &Minute| {
            possible(&way.later(|other| if other == due { *by } else { sooner.get(other).copied().unwrap_or(LATEST) }))
        };
        let least = if fits(&0) { 0 } else { first_that_fits(0, by, fits) };
        if let Some(slot) = sooner.get_mut(due) {
            *slot = least;
        }
    }
    sooner
}

/// The lateness of a plan, or where another order is spared first that of less minutes in all: six minutes of rolls are less than sixteen of
/// muffins. What is for another day stays so.
fn as_little_in_all(way: &FromNow, late: Vec<Minute>, possible: &dyn Fn(&FromNow) -> bool) -> Vec<Minute> {
    let is_today = |by: Minute| by < LATEST;
    let sum = |late: &[Minute]| late.iter().copied().filter(|by| is_today(*by)).sum::<Minute>();
    let mut spared: Vec<usize> = (0..late.len()).collect();
    spared.retain(|due| late.get(*due).is_some_and(|by| *by > 0 && is_today(*by)));
    spared.sort_by_key(|due| (std::cmp::Reverse(late.get(*due).copied()), *due));
    let mut best = late;
    for due in spared.into_iter().take(MOST_SPARED) {
        let by = best.get(due).copied().unwrap_or(0);
        // Less in all is less than that for each.
        let most = sum(&best) - 1;
        let loose: Vec<Minute> = best.iter().map(|by| if is_today(*by) { most } else { *by }).collect();
        let with = |by: Minute| {
            let mut other = loose.clone();
            if let Some(slot) = other.get_mut(due) {
                *slot = by;
            }
            other
        };
        let fits = |by: &Minute| possible(&way.later(|other| with(*by).get(other).copied().unwrap_or(LATEST)));
        if by == 0 || !fits(&(by - 1)) {
            continue;
        }
        let least = if fits(&0) { 0 } else { first_that_fits(0, by - 1, fits) };
        let other = by_minutes(way, &with(least), possible);
        if sum(&other) < sum(&best) {
            best = other;
        }
    }
    best
}

/// The lateness of a plan, or where an order that is late comes behind all others that of less minutes in all: what nobody has begun does not let
/// wait what is risen.
fn with_one_behind(way: &FromNow, mut best: Vec<Minute>, possible: &dyn Fn(&FromNow) -> bool) -> Vec<Minute> {
    let is_today = |by: Minute| by < LATEST;
    let sum = |late: &[Minute]| late.iter().copied().filter(|by| is_today(*by)).sum::<Minute>();
    let late: Vec<usize> =
        (0..best.len()).filter(|due| best.get(*due).is_some_and(|by| (1..LATEST).contains(by))).collect();
    if late.len() < 2 {
        return best;
    }
    let wanted = |due: &usize| way.problem.dues.get(*due).map_or(0, |due| due.minute);
    for last in late.into_iter().take(MOST_SPARED) {
        let most = sum(&best) - 1;
        if most < 1 {
            break;
        }
        // Little is gained where the latest of the others cannot be late by half of that.
        let others = (0..best.len()).filter(|due| *due != last).filter_map(|due| Some((best.get(due).copied()?, due)));
        let Some((_, latest)) = others.filter(|(by, _)| is_today(*by)).max() else { continue };
        let half = (0..).zip(&best).map(|(due, by)| match due {
            due if due == last => most,
            due if due == latest => by / 2,
            _ => *by,
        });
        let half: Vec<Minute> = half.collect();
        if !possible(&way.later(|due| half.get(due).copied().unwrap_or(LATEST))) {
            continue;
        }
        let loose: Vec<Minute> = best.iter().map(|by| if is_today(*by) { most } else { *by }).collect();
        let mut order: Vec<usize> = (0..best.len()).filter(|due| *due != last).collect();
        order.sort_by_key(|due| (wanted(due), *due));
        order.push(last);
        let other = in_turn(way, &loose, order, possible);
        let is_possible = || possible(&way.later(|due| other.get(due).copied().unwrap_or(LATEST)));
        if sum(&other) < sum(&best) && is_possible() {
            best = other;
        }
    }
    best
}

/// By how many minutes each order is late at least, the first to be wanted spared first.
fn least_late(from_now: &FromNow, possible: &dyn Fn(&FromNow) -> bool) -> Vec<Minute> {
    let orders = from_now.problem.dues.len().saturating_sub(1);
    let all = LATER.into_iter().find(|by| possible(&from_now.later(|_| *by))).unwrap_or(LATEST);
    let mut late = vec![all; orders];
    let mut in_order: Vec<usize> = (0..orders).collect();
    in_order.sort_by_key(|due| (from_now.problem.dues.get(*due).map_or(0, |due| due.minute), *due));
    for due in in_order {
        let fits = |by: &Minute| {
            let mut other = late.clone();
            if let Some(slot) = other.get_mut(due) {
                *slot = *by;
            }
            possible(&from_now.later(|due| other.get(due).copied().unwrap_or(0)))
        };
        let tried = || std::iter::once(0).chain(LATER);
        let coarse = tried().take_while(|by| *by < all).find(fits).unwrap_or(all);
        let before = tried().take_while(|by| *by < coarse).last().filter(|_| coarse <= TO_THE_MINUTE);
        let least = before.map_or(coarse, |before| first_that_fits(before, coarse, fits));
        if let Some(slot) = late.get_mut(due) {
            *slot = least;
        }
    }
    late
}
