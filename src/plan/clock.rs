//! Minutes of a plan to the clock on the wall and back, with time zones and daylight saving.

use super::problem::{Minute, Window};
use jiff::Timestamp;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};

/// The clock of a plan: minute 0 is midnight before the day of which the plan is made.
#[derive(Debug, Clone)]
pub struct Clock {
    zone: TimeZone,
    zero: i64,
}

/// The clocks are put forward or back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Change {
    /// When.
    pub minute: Minute,
    /// What they would show then.
    pub before: DateTime,
    /// What they show instead.
    pub after: DateTime,
}

/// Which of two moments a time on the wall is that the clocks show twice, because they are put back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Twice {
    /// The first: the clocks are still to be put back.
    Before,
    /// The second.
    After,
}

/// Why a time on the wall is none that can be planned with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoSuchTime {
    /// The clocks are put forward over it.
    Skipped,
    /// It is outside the years that are reckoned with.
    OutOfReach,
}

/// From so many days on the name of a day of the week is that of a nearer one, too.
const A_WEEK: i32 = 7;

/// What a day is called beside another: `Saturday`, and from a week on `Saturday 5 December`.
pub fn day_beside(day: Date, other: Date) -> String {
    day.strftime(if is_near(day, other) { "%A" } else { "%A %-d %B" }).to_string()
}

/// The same where there is little room: `Sat`, and from a week on `Sat 5 Dec`.
pub fn short_day_beside(day: Date, other: Date) -> String {
    day.strftime(if is_near(day, other) { "%a" } else { "%a %-d %b" }).to_string()
}

fn is_near(day: Date, other: Date) -> bool {
    (day - other).get_days().abs() < A_WEEK
}

impl Clock {
    /// A clock for plans around a day.
    ///
    /// # Errors
    /// When the day is outside the years that are reckoned with.
    pub fn around(zone: TimeZone, day: Date) -> Result<Clock, NoSuchTime> {
        let mut clock = Clock { zone, zero: 0 };
        clock.zero = clock.absolute(day.at(0, 0, 0, 0))?;
        Ok(clock)
    }

    /// The zone's name.
    pub fn zone(&self) -> &TimeZone {
        &self.zone
    }

    /// Minutes since 1970; a time that the clocks show twice is taken the first time, one that they skip just after.
    fn absolute(&self, when: DateTime) -> Result<i64, NoSuchTime> {
        let moment = self.zone.to_timestamp(when).map_err(|_| NoSuchTime::OutOfReach)?;
        Ok(moment.as_second().div_euclid(60))
    }

    /// The minute of a time on the wall.
    ///
    /// # Errors
    /// When the clocks skip it, or it is outside the years that are reckoned with.
    pub fn minute(&self, when: DateTime) -> Result<Minute, NoSuchTime> {
        if let AmbiguousOffset::Gap { .. } = self.zone.to_ambiguous_timestamp(when).offset() {
            return Err(NoSuchTime::Skipped);
        }
        Ok(self.absolute(when)? - self.zero)
    }

    /// The moment of a minute.
    pub fn timestamp(&self, minute: Minute) -> Option<Timestamp> {
        Timestamp::from_second((self.zero + minute).checked_mul(60)?).ok()
    }

    /// The time on the wall at a minute.
    pub fn at(&self, minute: Minute) -> Option<DateTime> {
        Some(self.zone.to_datetime(self.timestamp(minute)?))
    }

    /// How far the clock is from UTC at a minute: `+02:00`.
    pub fn offset(&self, minute: Minute) -> Option<String> {
        let minutes = self.zone.to_offset(self.timestamp(minute)?).seconds().div_euclid(60);
        let sign = if minutes < 0 { '-' } else { '+' };
        Some(format!("{sign}{:02}:{:02}", minutes.abs() / 60, minutes.abs() % 60))
    }

    /// Which of two moments a minute is, where the clocks show its time twice.
    pub fn twice(&self, minute: Minute) -> Option<Twice> {
        let when = self.at(minute)?;
        let AmbiguousOffset::Fold { .. } = self.zone.to_ambiguous_timestamp(when).offset() else { return None };
        let first = self.absolute(when).ok()? - self.zero;
        Some(if minute <= first { Twice::Before } else { Twice::After })
    }

    /// When between two minutes the clocks are put forward or back, and what they show just before that and just after it.
    pub fn changes(&self, from: Minute, until: Minute) -> Vec<Change> {
        let Some(first) = self.timestamp(from) else { return Vec::new() };
        let minute = |at: Timestamp| at.as_second().div_euclid(60) - self.zero;
        let moments = self.zone.following(first).map(|change| change.timestamp());
        let change = |at: Timestamp| {
            let before = self.zone.to_datetime(at.checked_sub(1.second()).ok()?).checked_add(1.second()).ok()?;
            Some(Change { minute: minute(at), before, after: self.zone.to_datetime(at) })
        };
        let near = moments.take_while(|at| minute(*at) < until);
        near.filter_map(change).filter(|change| change.before != change.after).collect()
    }

    /// The hours that begin on a day; those that end no later than they begin end on the next day. `None` where there are none,
    /// because the clocks are put forward over them.
    pub fn hours_on(&self, day: Date, from: Time, to: Time) -> Option<Window> {
        let next = day.checked_add(1.day()).ok()?;
        // The day's end is kept as its last second.
        let until_midnight = to.hour() == 23 && to.minute() == 59 && to.second() == 59;
        let end = match (until_midnight, to <= from) {
            (true, _) => next.at(0, 0, 0, 0),
            (false, true) => next.to_datetime(to),
            (false, false) => day.to_datetime(to),
        };
        let (opens, closes) = (self.absolute(day.to_datetime(from)).ok()?, self.absolute(end).ok()?);
        (opens < closes).then_some(Window { opens: opens - self.zero, closes: closes - self.zero })
    }

    /// The opening hours of every day that touches the time between two minutes, in order and apart.
    pub fn open(&self, opens: Time, closes: Time, from: Minute, until: Minute) -> Vec<Window> {
        let (Some(first), Some(last)) = (self.at(from), self.at(until)) else { return Vec::new() };
        let mut windows: Vec<Window> = Vec::new();
        let (Ok(mut day), Ok(last)) = (first.date().checked_sub(1.day()), last.date().checked_add(1.day())) else {
            return windows;
        };
        while day <= last {
            let Ok(next) = day.checked_add(1.day()) else { break };
            if let Some(hours) = self.hours_on(day, opens, closes) {
                match windows.last_mut() {
                    Some(before) if before.closes >= hours.opens => before.closes = before.closes.max(hours.closes),
                    _ => windows.push(hours),
                }
            }
            day = next;
        }
        windows
    }
}
