//! Who is there when: a kitchen's hours and its cooks' on the clock.

use super::clock::Clock;
use super::problem::{Minute, Person, Shift, Window};
use super::tasks::Tasks;
use crate::language::syntax;
use crate::measure::quantity::Duration;
use crate::model::kitchen::{AWAY, Cook, Kitchen, REST_AFTER, lasts};
use jiff::ToSpan;
use jiff::civil::Date;

/// How long before the last due time any sensible plan could begin: work is only done in opening hours; a week more than it takes
/// leaves room for closed hours in between.
pub fn reach(tasks: &Tasks) -> Minute {
    let busy: Minute = tasks.list.iter().map(|task| task.most_minutes.unwrap_or(task.minutes)).sum();
    (busy.saturating_mul(3) / 2 + 7 * 1440).min(400 * 1440)
}

/// The minutes of the shift of somebody who never comes.
pub(super) const NEVER: Minute = 1;

/// The hours of a kitchen and of its people.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Staff {
    /// When the kitchen is open and somebody is there; empty: always.
    pub open: Vec<Window>,
    /// Who works; empty: as many as there are, who are alike.
    pub people: Vec<Person>,
}

impl Staff {
    /// The hours between two minutes of a clock.
    pub fn by_the_clock(kitchen: &Kitchen, clock: &Clock, from: Minute, until: Minute) -> Staff {
        let open = clock.open(kitchen.opens, kitchen.closes, from, until);
        if kitchen.named.is_empty() {
            let people = nameless(kitchen, &open);
            return Staff { open, people };
        }
        let people: Vec<Person> =
            kitchen.named.iter().map(|cook| person(kitchen, cook, clock, &open, (from, until))).collect();
        // Somebody whose hours are not said may be there whenever the kitchen is open.
        if kitchen.named.iter().any(|cook| cook.hours.is_none()) {
            return Staff { open, people };
        }
        let shifts = people.iter().flat_map(|person| &person.shifts).map(|shift| shift.window);
        Staff { open: Window::joined(shifts.collect()), people }
    }

    /// The hours of a plan that counts from zero: no clock says when somebody comes, so everybody works for as long as one of
    /// their shifts lasts and is then away.
    pub fn without_clock(kitchen: &Kitchen) -> Staff {
        if kitchen.named.is_empty() {
            return Staff { open: Vec::new(), people: nameless(kitchen, &[]) };
        }
        let people = kitchen.named.iter().map(|cook| {
            let shift = cook.hours.map_or(Minute::MAX, lasts);
            let longest = kitchen.longest_day(Some(cook)).min(shift);
            Person { shifts: Vec::new(), longest, away: AWAY, nights: Vec::new() }
        });
        Staff { open: Vec::new(), people: people.collect() }
    }
}

/// People of whom only the number is said. Nobody has shifts at home; elsewhere nobody has too long a day, which only matters
/// where the kitchen is open for longer than that.
fn nameless(kitchen: &Kitchen, open: &[Window]) -> Vec<Person> {
    let longest = kitchen.longest_day(None);
    let short = !open.is_empty() && open.iter().all(|window| window.closes - window.opens <= longest);
    if kitchen.span.is_none() && kitchen.longest.is_none() || short {
        return Vec::new();
    }
    let count = usize::try_from(kitchen.cooks).unwrap_or(0);
    vec![Person { shifts: Vec::new(), longest, away: AWAY, nights: nights(open) }; count]
}

/// When the kitchen is closed between two days for less than somebody without shifts is away: the next day begins when it opens.
fn nights(open: &[Window]) -> Vec<Window> {
    let nights = open.windows(2).filter_map(|pair| match pair {
        [before, after] => Some(Window { opens: before.closes, closes: after.opens }),
        _ => None,
    });
    nights.filter(|night| night.closes - night.opens < AWAY).collect()
}

fn person(kitchen: &Kitchen, cook: &Cook, clock: &Clock, open: &[Window], between: (Minute, Minute)) -> Person {
    let longest = kitchen.longest_day(Some(cook));
    let Some(hours) = cook.hours else {
        return Person { shifts: Vec::new(), longest, away: AWAY, nights: nights(open) };
    };
    let rest = cook.rests.and_then(Duration::whole_minutes).unwrap_or(0);
    let mut shifts: Vec<Shift> = Vec::new();
    for window in days(cook, hours, clock, between) {
        for open in open {
            let window = Window { opens: window.opens.max(open.opens), closes: window.closes.min(open.closes) };
            // One that begins before the last has ended is the same going on.
            let opens = shifts.last().map_or(window.opens, |before| window.opens.max(before.window.closes));
            let window = Window { opens, ..window };
            let lasts = window.closes - window.opens;
            if lasts > 0 {
                let rest = if lasts > REST_AFTER && rest < lasts { rest } else { 0 };
                shifts.push(Shift { window, rest });
            }
        }
    }
    // Somebody who never comes has a shift in which nothing can be done, so as not to be there always.
    if shifts.is_empty() {
        let long_ago = between.0 - 2 * NEVER;
        shifts.push(Shift { window: Window { opens: long_ago, closes: long_ago + NEVER }, rest: 0 });
    }
    Person { shifts, longest, away: 0, nights: Vec::new() }
}

/// When somebody's hours are on the days that touch the time between two minutes.
fn days(cook: &Cook, hours: syntax::Shift, clock: &Clock, (from, until): (Minute, Minute)) -> Vec<Window> {
    let reach = |minute: Minute, by: i64| clock.at(minute).and_then(|at| at.date().checked_add(by.days()).ok());
    let (Some(mut day), Some(last)) = (reach(from, -1), reach(until, 1)) else { return Vec::new() };
    let mut windows: Vec<Window> = Vec::new();
    while day <= last {
        if cook.comes_on(day.weekday()) {
            windows.extend(clock.hours_on(day, hours.from, hours.to));
        }
        let Ok(next) = Date::checked_add(day, 1.day()) else { break };
        day = next;
    }
    windows
}
