//! Everything together cannot be met: what would have to give way.

use super::super::ask;
use super::super::limit::Limit;
use super::super::problem::{self, Edge, Minute, Person, Point, Problem, Rule, Shift, Window};
use super::super::solve::{self, Infeasible};
use super::{Case, place, time, with_kitchen};
use crate::language::syntax;
use crate::measure::quantity::Duration;
use crate::model::kitchen::{Kitchen, lasts};
use crate::model::step::StepKind;
use crate::plan::clock::Clock;
use crate::plan::shifts::Staff;
use crate::plan::tasks::Task;
use crate::text::diagnostic::Diagnostic;
use jiff::ToSpan;

/// Minutes in a day.
const DAY: Minute = 1440;

/// Longer than anything alive stands.
const A_WEEK: Minute = 7 * 1440;

/// Steps of search that trying one way out may cost.
const EFFORT: u64 = 60_000;

impl Case<'_> {
    /// What stands in the way of a problem of which no single task is impossible.
    pub(super) fn together(&self, why: &Infeasible) -> Diagnostic {
        let mut ways = Vec::new();
        let mut because = Vec::new();
        let contradiction = self.contradiction();
        match &contradiction {
            // More to work with changes nothing about what the files say themselves.
            Some(contradiction) if !contradiction.loads_wait => because.push(contradiction.said.clone()),
            _ => {
                self.more_equipment(&mut ways, &mut because);
                self.more_cooks(&mut ways, &mut because);
                self.longer_hours(&mut ways, &mut because);
                self.longer_shifts(&mut ways, &mut because);
            }
        }
        self.longer_keeping(&mut ways, &mut because);
        if contradiction.as_ref().is_none_or(|contradiction| contradiction.loads_wait) {
            self.alive(&mut ways, &mut because);
        }
        self.later(&mut ways);
        if because.is_empty() {
            self.more_than_a_day(&mut ways, &mut because);
        }
        if because.is_empty() {
            because.extend(contradiction.iter().map(|contradiction| contradiction.said.clone()));
        }
        let contradiction = contradiction.filter(|contradiction| because.first() == Some(&contradiction.said));
        let message = match (why, because.first()) {
            (Infeasible::Unknown, Some(because)) => format!("no plan was found within the limit: {because}"),
            (_, Some(because)) => format!("there is no plan: {because}"),
            (Infeasible::Impossible, None) => "there is no plan that keeps everything that the files say".to_owned(),
            _ => "no plan was found within the limit".to_owned(),
        };
        let mut problem = Diagnostic::error("no-plan", self.worst_place(), message);
        for order in self.work.orders.iter().filter_map(|order| order.span).take(6) {
            if order != problem.span {
                problem = problem.also(order, "this order");
            }
        }
        if let Some(contradiction) = contradiction {
            problem = contradiction.mark(problem);
            if ways.is_empty() {
                return problem.help("these cannot all hold: change one of them");
            }
            return problem.help(ways.join("; or "));
        }
        problem = with_kitchen(problem, self.kitchen);
        problem.help(if ways.is_empty() {
            "make less, make it in two days, or give it more time: no single change of the kitchen is enough".to_owned()
        } else {
            ways.join("; or ")
        })
    }
}

/// The least number from 1 to `most` of which something holds that then holds for all larger ones.
fn least(most: i64, holds: impl Fn(i64) -> bool) -> Option<i64> {
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
    fn possible(&self, problem: &Problem) -> bool {
        let limit = Limit { stop: self.stop, ..Limit::steps(EFFORT) };
        !(self.stop)() && solve::possible(problem, &limit) == Some(true)
    }

    fn more_equipment(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        for (number, equipment) in self.kitchen.equipment.iter().enumerate() {
            let uses = |holds: &super::super::problem::Holding| holds.equipment == number;
            let held = self.problem.tasks.iter().filter(|task| task.holds.as_ref().is_some_and(uses));
            let needed: Minute = held.clone().map(|task| task.shortest).sum();
            if held.count() < 2 {
                continue;
            }
            let mut other = self.problem.clone();
            let Some(more) = other.equipment.get_mut(number) else { continue };
            more.count += 1;
            if !self.possible(&other) {
                continue;
            }
            let name = &equipment.name;
            because.push(match self.frame(&other, number) {
                Some(frame) => format!("the `{name}` is needed {} in all, {frame}", time(needed)),
                None => format!("the `{name}` is needed {} in all", time(needed)),
            });
            ways.push(format!("add another: `{name} x {}`", equipment.count + 1));
        }
    }

    /// Equipment that is needed for longer than it can be used in one day, the busiest first.
    fn more_than_a_day(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        let a_day = self.hours.open.iter().map(|window| window.closes - window.opens).max().unwrap_or(1440);
        let busy = self.kitchen.equipment.iter().enumerate().filter_map(|(number, equipment)| {
            // What takes several loads at a time can be used for longer than the clock says.
            let alone = self.problem.equipment.get(number).is_some_and(|equipment| equipment.shared.is_none());
            let holding = |task: &&problem::Task| task.holds.is_some_and(|holds| holds.equipment == number);
            let needed: Minute = self.problem.tasks.iter().filter(holding).map(|task| task.shortest).sum();
            let units = (needed + a_day - 1) / a_day.max(1);
            (alone && units > Minute::from(equipment.count)).then_some((units, needed, equipment))
        });
        let Some((units, needed, equipment)) = busy.max_by_key(|(units, needed, _)| (*units, *needed)) else { return };
        let name = &equipment.name;
        because.push(format!("the `{name}` is needed {} in all, and a day has {}", time(needed), time(a_day)));
        ways.push(format!("make it over several days, or in a kitchen with `{name} x {units}` at least"));
    }

    /// Between which times a roomier plan uses some equipment.
    fn frame(&self, other: &Problem, number: usize) -> Option<String> {
        let plan = solve::quickly(other).ok()?;
        let held = |at: &usize| {
            other.tasks.get(*at).is_some_and(|task| task.holds.is_some_and(|holds| holds.equipment == number))
        };
        let tasks: Vec<usize> = (0..other.tasks.len()).filter(held).collect();
        let first = tasks.iter().filter_map(|at| plan.starts.get(*at)).min()?;
        let last = tasks.iter().filter_map(|at| plan.ends.get(*at)).max()?;
        Some(format!("between {} and {}", self.wall(*first)?, self.wall(*last)?))
    }

    pub(super) fn wall(&self, minute: Minute) -> Option<String> {
        self.clock.and_then(|clock| clock.at(minute)).map(|at| at.strftime("%H:%M on %A").to_string())
    }

    fn more_cooks(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        let cooks = least(4, |more| self.possible(&self.with_cooks(more)));
        let Some(more) = cooks.and_then(|more| u32::try_from(more).ok()) else { return };
        let work: Minute = self.problem.tasks.iter().map(|task| (task.longest) * Minute::from(task.cooks)).sum();
        let have = match self.kitchen.cooks {
            1 => "one person".to_owned(),
            many => format!("{many} people"),
        };
        because.push(format!("there are {} of hands-on work for {have} in the time there is", time(work)));
        ways.push(match more {
            _ if self.kitchen.named.is_empty() => {
                let cooks = self.kitchen.cooks + more;
                format!("work with {cooks} people: `cooks {cooks}`")
            }
            1 => "have one more `cook` there".to_owned(),
            more => format!("have {more} more of `cook` there"),
        });
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

    /// Whose hours would have to be longer, and whether anybody's day would.
    fn longer_shifts(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        let before = ways.len();
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
            ways.extend(
                least(8, |half| holds(sooner(half)))
                    .map(|half| format!("let {name} come at {}", clock(sooner(half).from))),
            );
            ways.extend(
                least(8, |half| holds(later(half)))
                    .map(|half| format!("let {name} stay until {}", clock(later(half).to))),
            );
        }
        if self.problem.people.iter().any(|person| person.longest < DAY) {
            let mut other = self.problem.clone();
            for person in &mut other.people {
                person.longest = person.longest.max(DAY);
            }
            if self.possible(&other) {
                ways.push("let a day of work be longer (`longest`), where law and contracts allow it".to_owned());
            }
        }
        if ways.len() > before && because.is_empty() {
            because.push("the work does not fit into the hours of those who work".to_owned());
        }
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

    fn longer_hours(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        // Where people have hours of their own, they decide.
        if self.hours.open.is_empty() || self.kitchen.named.iter().any(|cook| cook.hours.is_some()) {
            return;
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
        if (sooner.is_some() || later.is_some()) && because.is_empty() {
            because.push(format!("the work does not fit into the opening hours, {}-{}", clock(opens), clock(closes)));
        }
        ways.extend(sooner.map(|half| format!("open at {}", clock(opens - halves(half)))));
        ways.extend(later.map(|half| format!("close at {}", clock(closes + halves(half)))));
    }

    /// What may be kept or stand longer.
    fn longer_keeping(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        let limits = [Rule::Keeps, Rule::UpTo, Rule::Within, Rule::StraightAfter, Rule::Overnight];
        for rule in limits {
            let bound: Vec<usize> = (0..self.problem.lags.len())
                .filter(|at| self.problem.lags.get(*at).is_some_and(|lag| lag.rule == rule && lag.most.is_some()))
                .collect();
            let without = |some: &[usize]| {
                let mut other = self.problem.clone();
                for at in some {
                    if let Some(lag) = other.lags.get_mut(*at) {
                        lag.most = None;
                    }
                }
                other
            };
            if bound.is_empty() || !self.possible(&without(&bound)) {
                continue;
            }
            let one = bound.iter().take(24).find(|at| self.possible(&without(&[**at])));
            let Some(at) = one else {
                ways.push(self.way(rule, None));
                continue;
            };
            let Some(lag) = self.problem.lags.get(*at) else { continue };
            let name =
                |task: usize| self.tasks.list.get(task).map(|task| super::step(self.work, task)).unwrap_or_default();
            let (first, then) = (name(lag.from.task), name(lag.to.task));
            let most = time(lag.most.unwrap_or(0));
            because.push(match rule {
                Rule::Overnight => format!(
                    "`{then}` cannot come on the day of `{first}`, and nothing stands over night unless it is said"
                ),
                _ => format!("`{then}` cannot come within {most} of `{first}`"),
            });
            ways.push(self.way(rule, Some((first, then))));
        }
    }

    /// What is alive and would have to wait: which step, how long, and what would give way.
    fn alive(&self, ways: &mut Vec<String>, because: &mut Vec<String>) {
        let rules = [Rule::Alive, Rule::FirstPiece, Rule::UpTo, Rule::Into];
        let mut other = self.problem.clone();
        for lag in other.lags.iter_mut().filter(|lag| rules.contains(&lag.rule)) {
            // Nothing stands longer than a week, so that what must stand stands as little as it can.
            lag.most = lag.most.map(|most| most.max(A_WEEK));
        }
        let Ok(plan) = solve::quickly(&other) else { return };
        let at = |point: Point| match point.edge {
            Edge::Start => plan.starts.get(point.task).copied(),
            Edge::End => plan.ends.get(point.task).copied(),
        };
        let over = self.problem.lags.iter().filter(|lag| rules.contains(&lag.rule)).filter_map(|lag| {
            let between = at(lag.to)? - at(lag.from)?;
            let over = between - lag.most?;
            (over > 0).then_some((over, between, lag))
        });
        let Some((over, between, lag)) = over.max_by_key(|(over, _, _)| *over) else { return };
        let (Some(one), Some(then)) = (self.tasks.list.get(lag.from.task), self.tasks.list.get(lag.to.task)) else {
            return;
        };
        let name = |task: &Task| match task.loads {
            1 => format!("`{}`", super::step(self.work, task)),
            loads => format!("`{}` {} of {loads}", super::step(self.work, task), task.load),
        };
        let (first, next, most) = (name(one), name(then), time(lag.most.unwrap_or(0)));
        let said = match lag.rule {
            Rule::Alive => format!(
                "{next} would begin {} after {first} ended, and what is alive stands {most} at most",
                time(between)
            ),
            Rule::FirstPiece => {
                format!(
                    "{next} would begin {} after the first piece was through {first}, {} too late",
                    time(between),
                    time(over)
                )
            }
            _ => format!("{next} would begin {} after {first} began, and that may be {most}", time(between)),
        };
        because.insert(0, said);
        let rest = one.kind == StepKind::Wait;
        let way = match lag.rule {
            Rule::Alive if rest => format!("let {first} go on: `up to {}`", time(one.minutes + between)),
            Rule::Alive | Rule::Into => format!("`may stand {}` on {first}", time(between)),
            Rule::FirstPiece => format!(
                "let two share {first} (`shared by 2`), make less at a time, or let what follows it go on longer"
            ),
            _ => format!("let {first} go on {} longer: `up to {}`", time(over), time(between)),
        };
        ways.insert(0, way);
    }

    fn way(&self, rule: Rule, between: Option<(String, String)>) -> String {
        let (first, then) = between.map_or(("a step".to_owned(), "the next".to_owned()), |(first, then)| {
            (format!("`{first}`"), format!("`{then}`"))
        });
        match rule {
            Rule::Keeps => format!("let what {first} finishes keep longer (`keeps`)"),
            Rule::UpTo => format!("let {first} go on longer (`up to`)"),
            Rule::Overnight => format!("put a rest that may go on over night (`up to`) between {first} and {then}"),
            _ => format!("leave more time between {first} and {then}"),
        }
    }

    /// Ready later, or begun sooner.
    fn later(&self, ways: &mut Vec<String>) {
        if let (Some(earliest), Some(clock)) = (self.hours.earliest, self.clock) {
            let sooner =
                [1440, 2880, 4320].into_iter().find(|sooner| self.possible(&self.from(earliest - sooner, clock)));
            ways.extend(sooner.map(|sooner| format!("begin {} sooner", time(sooner))));
        }
        let shifts = [15, 30, 60, 90, 120, 180, 240, 360, 480, 720, 1440];
        let later = shifts.into_iter().find(|shift| {
            let mut other = self.problem.clone();
            for due in &mut other.dues {
                due.minute += shift;
            }
            self.possible(&other)
        });
        ways.extend(later.map(|later| format!("be ready {} later", time(later))));
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
