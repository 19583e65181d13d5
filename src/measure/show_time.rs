//! How times are written for people.

use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::shown::{Digits, Shown};

/// A time: `1 h 30 min`.
pub fn duration(time: Duration) -> Shown {
    let Some(seconds) = time.value().rounded_to(Number::ONE).ok().and_then(Number::to_whole) else {
        return Shown::new(time.value().decimal(0), "s");
    };
    let units =
        [(604_800, "week", "weeks"), (86_400, "day", "days"), (3600, "h", "h"), (60, "min", "min"), (1, "s", "s")];
    let mut rest = seconds;
    let mut terms = Vec::new();
    for (size, one, many) in units {
        // A baker says 36 h or 10 days, not 1 day 12 h or 1 week 3 days.
        let keep_whole =
            (size == 86_400 && rest % 86_400 != 0 && rest < 172_800) || (size == 604_800 && rest % 604_800 != 0);
        if keep_whole {
            continue;
        }
        let count = rest / size;
        rest %= size;
        if count > 0 {
            terms.push(Digits::new(count.to_string(), if count == 1 { one } else { many }));
        }
    }
    if terms.is_empty() { Shown::new("0", "min") } else { Shown { terms, ..Shown::default() } }
}

/// Minutes counted from a start, as a clock would show them: `0:45`, `26:10`, and `-0:23` before it.
pub fn offset(minutes: i64) -> String {
    let sign = if minutes < 0 { "-" } else { "" };
    format!("{sign}{}:{:02}", minutes.unsigned_abs() / 60, minutes.unsigned_abs() % 60)
}

/// A range of times: `14–16 min`, `10–12 h`, `7–9 days`; minutes up to two hours where one end is not a whole hour.
pub fn duration_range(low: Duration, high: Duration) -> Shown {
    if low == high {
        return duration(low);
    }
    let whole = |time: Duration, unit: i64| time.value().over(Number::whole(unit)).ok().and_then(Number::to_whole);
    let in_hours = whole(low, 3600).is_some() && whole(high, 3600).is_some();
    if let (Some(from @ 1..), Some(to @ ..=120), false) = (whole(low, 60), whole(high, 60), in_hours) {
        return Shown::new(format!("{from}–{to}"), "min");
    }
    let days = low.in_days_to(high).map(|(from, to)| Shown::new(format!("{from}–{to}"), "days"));
    days.unwrap_or_else(|| duration(low).to(duration(high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_read_as_they_are_said() {
        assert_eq!(duration(Duration::minutes(90)).to_string(), "1 h 30 min");
        assert_eq!(duration(Duration::minutes(36 * 60)).to_string(), "36 h");
        assert_eq!(duration(Duration::minutes(10 * 24 * 60)).to_string(), "10 days");
        assert_eq!(duration_range(Duration::minutes(14), Duration::minutes(16)).to_string(), "14–16 min");
        assert_eq!(duration_range(Duration::minutes(50), Duration::minutes(60)).to_string(), "50–60 min");
        assert_eq!(duration_range(Duration::minutes(100), Duration::minutes(120)).to_string(), "100–120 min");
        assert_eq!(duration_range(Duration::minutes(60), Duration::minutes(120)).to_string(), "1–2 h");
    }
}
