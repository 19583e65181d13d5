//! Everything together cannot be met: what would have to give way.

use super::super::ask;
use super::super::limit::Limit;
use super::super::problem::{self, Minute, Person, Problem, Shift, Window};
use super::super::solve::{self, Infeasible};
use super::cycle::{Change, Contradiction, Way};
use super::offer::{Offer, one_length_each, sentence};
use super::{Case, place, time, with_kitchen};
use crate::language::syntax;
use crate::measure::quantity::Duration;
use crate::model::kitchen::{Kitchen, lasts};
use crate::model::step::StepKind;
use crate::plan::clock::Clock;
use crate::plan::shifts::Staff;
use crate::text::diagnostic::Diagnostic;
use jiff::ToSpan;

/// Minutes in a day.
const DAY: Minute = 1440;

/// Steps of search that trying one way out may cost.
pub(super) const EFFORT: u64 = 60_000;

impl Case<'_> {
    /// What stands in the way of a problem of which no single task is impossible.
    pub(super) fn together(&self, why: &Infeasible) -> Diagnostic {
        let mut ways = Vec::new();
        let mut because = Vec::new();
        let mut is_closed = false;
        // What contradicts itself whatever the time goes before what the time is too short for.
        let contradiction = self.contradiction(&self.timeless()).or_else(|| self.contradiction(self.problem));
        let enough = contradiction.as_ref().map(|contradiction| self.enough(contradiction)).unwrap_or_default();
        match &contradiction {
            // More to work with changes nothing about what the files say themselves.
            Some(contradiction) if !contradiction.loads_wait => because.push(contradiction.said.clone()),
            _ => {
                self.longer_days(&mut ways, &mut because);
                self.ripe_at_night(&mut ways, &mut because);
                self.more_equipment(&mut ways, &mut because);
                self.more_cooks(&mut ways, &mut because);
                is_closed = self.longer_hours(&mut ways, &mut because);
                self.longer_shifts(&mut ways, &mut because);
                self.rests_go_on(&mut ways, &mut because);
            }
        }
        if enough.is_empty() {
            self.longer_keeping(&mut ways, &mut because);
            if contradiction.as_ref().is_none_or(|contradiction| contradiction.loads_wait) {
                self.alive(&mut ways, &mut because, is_closed);
            }
            self.later(&mut ways);
        }
        ways.splice(0..0, enough);
        let less = self.leave_out();
        one_length_each(&mut ways);
        if because.is_empty() {
            self.more_than_a_day(&mut ways, &mut because);
        }
        if because.is_empty() {
            because.extend(contradiction.iter().map(|contradiction| contradiction.said.clone()));
        }
        if because.is_empty() {
            because.extend(self.all_that_gives_way());
        }
        let mut seen = std::collections::HashSet::new();
        ways.retain(|way| seen.insert(way.clone()));
        let contradiction = contradiction.filter(|contradiction| because.first() == Some(&contradiction.said));
        let message = match (why, because.first()) {
            (Infeasible::Unknown, Some(because)) => format!("no plan was found within the limit: {because}"),
            (_, Some(because)) => format!("there is no plan: {because}"),
            (Infeasible::Impossible, None) => "there is no plan that keeps everything that the files say".to_owned(),
            _ => "no plan was found within the limit".to_owned(),
        };
        let mut problem = Diagnostic::error("no-plan", self.worst_place(), message);
        for order in self.work.orders.iter().filter_map(|order| order.span).take(6) {
            if order != problem.span && !less.orders.contains(&order) {
                problem = problem.also(order, "this order");
            }
        }
        for order in &less.orders {
            problem = problem.also(*order, "without this one there is a plan");
        }
        if let Some(contradiction) = contradiction {
            let first = first_steps(contradiction.ways.iter().map(|way| way.offer.said.as_str()));
            problem = contradiction.mark(problem);
            if ways.is_empty() {
                // More stands in the way than this.
                let first = match first {
                    Some(ways) => format!("that is not all, but first {ways}"),
                    None => "these cannot all hold: make less at a time, or change one of them".to_owned(),
                };
                ways.push(first.into());
            }
            ways.extend(less.offers);
            return problem.help(sentence(&ways));
        }
        problem = with_kitchen(problem, self.kitchen);
        ways.extend(less.offers);
        problem.help(if ways.is_empty() {
            "make less, make it in two days, or give it more time: no single change of the kitchen is enough".to_owned()
        } else {
            sentence(&ways)
        })
    }
}

/// Ways that each mend one thing, in a sentence.
fn first_steps<'a>(ways: impl Iterator<Item = &'a str>) -> Option<String> {
    let mut told: Vec<&str> = Vec::new();
    for way in ways {
        if !told.contains(&way) && told.len() < 3 {
            told.push(way);
        }
    }
    (!told.is_empty()).then(|| told.join("; or "))
}

/// The least number from 1 to `most` of which something holds that then holds for all larger ones.
pub(super) fn least(most: i64, holds: impl Fn(i64) -> bool) -> Option<i64> {
    if most < 1 || !holds(most) {
        return None;
    }
    let (mut low, mut high) = (0, most);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if holds(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

impl Case<'_> {
    /// Whether a problem has a plan at all, as far as a little search shows.
    pub(super) fn possible(&self, problem: &Problem) -> bool {
        let limit = Limit { stop: self.stop, ..Limit::steps(EFFORT) };
        !(self.stop)() && solve::possible(problem, &limit) == Some(true)
    }

    /// The problem without due times and without a moment before which nothing starts: what is left contradicts itself.
    fn timeless(&self) -> Problem {
        let mut other = self.problem.clone();
        other.dues.clear();
        other.earliest = None;
        other.standing.retain(|standing| !matches!(standing.stand, problem::Stand::Ready { .. }));
        other.long.retain(|stand| !matches!(stand, problem::Stand::Ready { .. }));
        other
    }

    /// Those ways out of a contradiction that are enough by themselves.
    fn enough(&self, contradiction: &Contradiction) -> Vec<Offer> {
        let is_enough = |way: &&Way| {
            let mut other = self.problem.clone();
            match way.change {
                Change::Lag(at, most) => {
                    if let Some(lag) = other.lags.get_mut(at) {
                        lag.most = Some(most);
                    }
                }
                Change::Due(at, minute) => {
                    if let Some(due) = other.dues.get_mut(at) {
                        due.minute = minute;
                    }
                }
                Change::Lasts(at, by) => {
                    if let Some(task) = other.tasks.get_mut(at) {
                        task.shortest += by;
                        task.longest += by;
                    }
                }
                Change::Shared(at) => {
                    other = if other.cooks < 2 { self.with_cooks(1) } else { other };
                    if let Some(task) = other.tasks.get_mut(at) {
                        let half = (task.shortest + 1) / 2;
                        (task.shortest, task.longest, task.cooks) = (half, half, task.cooks.saturating_mul(2));
                    }
                }
                Change::Earliest(minute) => match self.clock {
                    Some(clock) => other = self.from(minute, clock),
                    None => other.earliest = Some(minute),
                },
            }
            self.possible(&other)
        };
        contradiction.ways.iter().take(6).filter(is_enough).map(|way| way.offer.clone()).collect()
    }

    fn more_equipment(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        for (number, equipment) in self.kitchen.equipment.iter().enumerate() {
            let uses = |holds: &super::super::problem::Holding| holds.equipment == number;
            if self.problem.tasks.iter().filter(|task| task.holds.as_ref().is_some_and(uses)).count() < 2 {
                continue;
            }
            let mut other = self.problem.clone();
            let Some(more) = other.equipment.get_mut(number) else { continue };
            more.count += 1;
            if !self.possible(&other) {
                continue;
            }
            let name = &equipment.name;
            because.push(self.too_little(&other, number));
            ways.push(format!("add another: `{name} x {}`", equipment.count + 1).into());
        }
    }

    /// Equipment that is needed for longer than it can be used in one day, the busiest first.
    fn more_than_a_day(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let a_day = self.hours.open.iter().map(|window| window.closes - window.opens).max().unwrap_or(1440);
        let busy = self.kitchen.equipment.iter().enumerate().filter_map(|(number, equipment)| {
            // What takes several loads at a time can be used for longer than the clock says.
            let alone = self.problem.equipment.get(number).is_some_and(|equipment| equipment.shared.is_none());
            let holding = |task: &&problem::Task| task.holds.is_some_and(|holds| holds.equipment == number);
            let needed: Minute = self.problem.tasks.iter().filter(holding).map(|task| task.shortest).sum();
            // What rests in it goes on while nobody is there.
            let rests = self.problem.tasks.iter().filter(holding).any(|task| task.kind == problem::Kind::Wait);
            let a_day = if rests { DAY } else { a_day };
            let units = (needed + a_day - 1) / a_day.max(1);
            (alone && units > Minute::from(equipment.count)).then_some((units, needed, a_day, equipment))
        });
        let most = busy.max_by_key(|(units, needed, _, _)| (*units, *needed));
        let Some((units, needed, a_day, equipment)) = most else { return };
        let name = &equipment.name;
        because.push(format!("the `{name}` is needed {} in all, and a day has {}", time(needed), time(a_day)));
        ways.push(format!("make it over several days, or in a kitchen with `{name} x {units}` at least").into());
    }

    pub(super) fn wall(&self, minute: Minute) -> Option<String> {
        self.clock.and_then(|clock| clock.at(minute)).map(|at| at.strftime("%H:%M on %A").to_string())
    }

    fn more_cooks(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let cooks = least(4, |more| self.possible(&self.with_cooks(more)));
        let Some(more) = cooks.and_then(|more| u32::try_from(more).ok()) else { return };
        let work: Minute = self.problem.tasks.iter().map(|task| (task.longest) * Minute::from(task.cooks)).sum();
        let have = match self.kitchen.cooks {
            1 => "one person".to_owned(),
            many => format!("{many} people"),
        };
        let longest =
            self.tasks.list.iter().filter(|task| task.kind == StepKind::Hands).max_by_key(|task| task.minutes);
        let longest = longest.map(|task| format!(", {} of it for {}", time(task.minutes), self.named(task)));
        because.push(format!(
            "there are {} of hands-on work for {have} in the time there is{}",
            time(work),
            longest.unwrap_or_default()
        ));
        let said = match more {
            _ if self.kitchen.named.is_empty() => {
                let cooks = self.kitchen.cooks + more;
                format!("work with {cooks} people: `cooks {cooks}`")
            }
            1 => "have one more `cook` there".to_owned(),
            more => format!("have {more} more of `cook` there"),
        };
        ways.push(said.into());
    }

    /// The problem with so many more people, who are there whenever somebody is.
    fn with_cooks(&self, more: i64) -> Problem {
        let mut other = self.problem.clone();
        for _ in 0..more {
            other.cooks = other.cooks.saturating_add(1);
            let always = |window: &Window| Shift { window: *window, rest: 0 };
            let longest = other.open.iter().map(|window| window.closes - window.opens).max();
            let more = other.people.last().map(|last| match last.shifts.is_empty() {
                true => last.clone(),
                false => Person {
                    shifts: other.open.iter().map(always).collect(),
                    longest: longest.unwrap_or(last.longest),
                    away: 0,
                },
            });
            other.people.extend(more);
        }
        other
    }

    /// Whose hours would have to be longer.
    fn longer_shifts(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let before = ways.len();
        let mut longer: Option<Problem> = None;
        let clock = |at: jiff::civil::Time| at.strftime("%H:%M").to_string();
        for (number, cook) in self.kitchen.named.iter().enumerate() {
            let Some(hours) = cook.hours else { continue };
            let other = |shift: syntax::Shift| {
                let mut kitchen = self.kitchen.clone();
                if let Some(cook) = kitchen.named.get_mut(number) {
                    cook.hours = Some(shift);
                    cook.longest = Some(Duration::minutes(lasts(shift)));
                }
                kitchen
            };
            let halves = |half: i64| (half * 30).minutes();
            let sooner = |half| syntax::Shift { from: hours.from.wrapping_sub(halves(half)), ..hours };
            let to = if hours.to.second() > 0 { jiff::civil::Time::midnight() } else { hours.to };
            let later = |half| syntax::Shift { to: to.wrapping_add(halves(half)), ..hours };
            let name = &cook.name;
            let holds = |shift| self.in_kitchen(&other(shift)).is_some_and(|problem| self.possible(&problem));
            if let Some(half) = least(8, |half| holds(sooner(half))) {
                ways.push(format!("let {name} come at {}", clock(sooner(half).from)).into());
                longer = longer.or_else(|| self.in_kitchen(&other(sooner(half))));
            }
            if let Some(half) = least(8, |half| holds(later(half))) {
                ways.push(format!("let {name} stay until {}", clock(later(half).to)).into());
                longer = longer.or_else(|| self.in_kitchen(&other(later(half))));
            }
        }
        if ways.len() > before && because.is_empty() {
            let outside = longer.and_then(|longer| self.outside(&longer)).unwrap_or_default();
            because.push(format!("the work does not fit into the hours of those who work{outside}"));
        }
    }

    /// Which step a plan with longer hours has outside of the hours that there are, and when.
    fn outside(&self, longer: &Problem) -> Option<String> {
        let plan = solve::quickly(longer).ok()?;
        let shifts = || self.problem.people.iter().flat_map(|person| person.shifts.iter().map(|shift| shift.window));
        let windows: Vec<Window> =
            if shifts().next().is_some() { shifts().collect() } else { self.problem.open.clone() };
        let times = self.tasks.list.iter().zip(plan.starts.iter().zip(&plan.ends));
        let work = times.filter(|(task, (start, end))| task.kind != StepKind::Wait && start < end);
        let is_in =
            |start: Minute, end: Minute| windows.iter().any(|window| window.opens <= start && end <= window.closes);
        let outside = work.filter(|(_, (start, end))| !is_in(**start, **end));
        let (task, (start, end)) = outside.min_by_key(|(_, (start, _))| **start)?;
        let name = self.named(task);
        let begins_in = is_in(*start, *start);
        Some(match begins_in {
            true => format!(": {name} would go on until {}", self.wall(*end)?),
            false => format!(": {name} would begin at {}", self.wall(*start)?),
        })
    }

    /// The problem in another kitchen, if there is a clock.
    fn in_kitchen(&self, kitchen: &Kitchen) -> Option<Problem> {
        let (clock, earliest) = (self.clock?, self.hours.earliest?);
        let last = self.hours.dues.iter().flatten().copied().max().unwrap_or(earliest);
        let mut hours = self.hours.clone();
        let Staff { open, people } = Staff::by_the_clock(kitchen, clock, earliest, last);
        (hours.open, hours.people) = (open, people);
        Some(ask::problem(self.tasks, kitchen, &hours))
    }

    fn with_hours(&self, change: impl Fn(&Window) -> Window) -> Problem {
        let mut hours = self.hours.clone();
        let mut open: Vec<Window> = Vec::new();
        for window in hours.open.iter().map(change) {
            match open.last_mut() {
                Some(before) if before.closes >= window.opens => before.closes = before.closes.max(window.closes),
                _ => open.push(window),
            }
        }
        hours.open = open;
        ask::problem(self.tasks, self.kitchen, &hours)
    }

    /// Longer opening hours; whether they would help.
    fn longer_hours(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) -> bool {
        // Where people have hours of their own, they decide.
        if self.hours.open.is_empty() || self.kitchen.named.iter().any(|cook| cook.hours.is_some()) {
            return false;
        }
        let minutes = |time: jiff::civil::Time| Minute::from(time.hour()) * 60 + Minute::from(time.minute());
        let (opens, closes) = (minutes(self.kitchen.opens), minutes(self.kitchen.closes));
        let halves = |minutes: Minute| minutes * 30;
        let clock = |minute: Minute| format!("{:02}:{:02}", minute.div_euclid(60), minute.rem_euclid(60));
        // Through midnight there is only what is left of the day.
        let shut = if closes <= opens { opens - closes } else { 1440 - closes };
        let sooner = least(if closes <= opens { shut } else { opens } / 30, |half| {
            self.possible(&self.with_hours(|window| Window { opens: window.opens - halves(half), ..*window }))
        });
        let later = least(shut / 30, |half| {
            self.possible(&self.with_hours(|window| Window { closes: window.closes + halves(half), ..*window }))
        });
        let helps = sooner.is_some() || later.is_some();
        if helps && because.is_empty() {
            let (sooner, later) =
                (sooner.map_or(0, halves), if sooner.is_some() { 0 } else { later.map_or(0, halves) });
            let longer =
                self.with_hours(|window| Window { opens: window.opens - sooner, closes: window.closes + later });
            because.push(format!(
                "the work does not fit into the opening hours, {}-{}{}",
                clock(opens),
                clock(closes),
                self.outside(&longer).unwrap_or_default()
            ));
        }
        ways.extend(sooner.map(|half| format!("open at {}", clock(opens - halves(half))).into()));
        ways.extend(later.map(|half| format!("close at {}", clock(closes + halves(half))).into()));
        helps
    }

    /// Ready later, or begun sooner.
    fn later(&self, ways: &mut Vec<Offer>) {
        if let (Some(earliest), Some(clock)) = (self.hours.earliest, self.clock) {
            let enough = |sooner: &Minute| self.possible(&self.from(earliest - sooner, clock));
            let days = [DAY, 2 * DAY, 3 * DAY].into_iter().find(|days| enough(days));
            // Where a day is enough, less may be.
            let less = [15, 30, 60, 120, 240, 480].into_iter();
            let sooner = if days == Some(DAY) { less.chain(days).find(|sooner| enough(sooner)) } else { days };
            ways.extend(sooner.and_then(|sooner| {
                Some(format!("begin {} sooner, at {}", time(sooner), self.wall(earliest - sooner)?).into())
            }));
        }
        let shifts = [15, 30, 60, 90, 120, 180, 240, 360, 480, 720, 1440];
        let later = shifts.into_iter().find(|shift| {
            let mut other = self.problem.clone();
            for due in &mut other.dues {
                due.minute += shift;
            }
            self.possible(&other)
        });
        let last = self.problem.dues.iter().map(|due| due.minute).max();
        ways.extend(later.map(|later| match last.and_then(|last| self.wall(last + later)) {
            Some(at) if self.problem.dues.len() == 1 => format!("be ready {} later, at {at}", time(later)).into(),
            _ => format!("be ready {} later", time(later)).into(),
        }));
    }

    fn from(&self, earliest: Minute, clock: &Clock) -> Problem {
        let last = self.hours.dues.iter().flatten().copied().max().unwrap_or(earliest);
        let mut hours = self.hours.clone();
        let Staff { open, people } = Staff::by_the_clock(self.kitchen, clock, earliest, last);
        (hours.open, hours.people) = (open, people);
        hours.earliest = Some(earliest);
        ask::problem(self.tasks, self.kitchen, &hours)
    }

    fn worst_place(&self) -> crate::text::source::Span {
        place(self.work)
    }
}
