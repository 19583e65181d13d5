//! When one person works: whether something more fits in beside their shifts, their rest and the longest day.

use super::network::FAR_OFF;
use super::problem::{Minute, Person, Shift, Window};

/// What one person does, in the order in which it begins; no two at once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Diary {
    busy: Vec<(Minute, Minute)>,
}

impl Diary {
    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.busy.is_empty()
    }

    /// Writes some work in.
    pub fn take(&mut self, start: Minute, end: Minute) {
        if start < end {
            let at = self.busy.partition_point(|busy| busy.0 <= start);
            self.busy.insert(at, (start, end));
        }
    }

    /// Takes some work out.
    pub fn give_back(&mut self, start: Minute, end: Minute) {
        if let Some(at) = self.busy.iter().position(|busy| *busy == (start, end)) {
            self.busy.remove(at);
        }
    }

    /// Whether some work fits in.
    pub fn fits(&self, person: &Person, start: Minute, end: Minute) -> bool {
        self.clash(person, start, end).is_none()
    }

    /// The first moment from `from` on at which work of so many minutes fits in; [`FAR_OFF`] if there is none.
    pub fn next(&self, person: &Person, from: Minute, minutes: Minute) -> Minute {
        let mut start = from;
        while start < FAR_OFF {
            match self.clash(person, start, start + minutes) {
                None => return start,
                Some(later) => start = later.max(start + 1),
            }
        }
        FAR_OFF
    }

    /// Why some work does not fit in: the next moment at which it might. `None` if it fits.
    fn clash(&self, person: &Person, start: Minute, end: Minute) -> Option<Minute> {
        let shift = match shift_until(person, end) {
            _ if person.shifts.is_empty() => None,
            None => return Some(FAR_OFF),
            Some(shift) if shift.window.opens > start => return Some(shift.window.opens),
            shift => shift,
        };
        let near = self.busy.iter().skip(self.busy.partition_point(|busy| busy.1 <= start));
        if let Some(later) = near.take_while(|busy| busy.0 < end).map(|busy| busy.1).max() {
            return Some(later);
        }
        match shift {
            Some(shift) => self.too_long_a_shift(person, shift, start, end).or_else(|| self.no_rest(shift, start, end)),
            None => self.too_long_a_day(person, start, end),
        }
    }

    /// What is worked in a shift.
    fn within(&self, window: Window) -> impl Iterator<Item = (Minute, Minute)> + '_ {
        let first = self.busy.partition_point(|busy| busy.1 <= window.opens);
        self.busy.iter().copied().skip(first).take_while(move |busy| busy.0 < window.closes)
    }

    /// How many minutes are worked so far in the shift that lasts until a moment or longer; none of somebody without shifts.
    pub fn worked_until(&self, person: &Person, end: Minute) -> Minute {
        let Some(shift) = shift_until(person, end) else { return 0 };
        self.within(shift.window).filter(|busy| busy.1 <= end).map(|(from, until)| until - from).sum()
    }

    fn too_long_a_shift(&self, person: &Person, shift: Shift, start: Minute, end: Minute) -> Option<Minute> {
        let Window { opens, closes } = shift.window;
        if closes - opens <= person.longest {
            return None;
        }
        let first = self.within(shift.window).map(|busy| busy.0).fold(start, Minute::min);
        let last = self.within(shift.window).map(|busy| busy.1).fold(end, Minute::max);
        (last - first > person.longest).then(|| match last - person.longest {
            // Sooner work is too long ago, or later work too far off.
            later if later > start && last > end => later,
            _ => closes,
        })
    }

    /// A day of somebody without shifts is all work with no long time away in between.
    fn too_long_a_day(&self, person: &Person, start: Minute, end: Minute) -> Option<Minute> {
        let (mut first, mut last) = (start, end);
        let mut before = None;
        for busy in self.busy.iter().rev().filter(|busy| busy.1 <= start) {
            if person.is_another_day(busy.1, first) {
                break;
            }
            before = before.or(Some(busy.1));
            first = busy.0;
        }
        for busy in self.busy.iter().filter(|busy| busy.0 >= end) {
            if person.is_another_day(last, busy.0) {
                break;
            }
            last = busy.1;
        }
        if last - first <= person.longest {
            return None;
        }
        // The next day begins after a time away, or when the kitchen opens.
        let next_day = |after: Minute| {
            let opens = person.nights.iter().find(|night| night.opens >= after).map(|night| night.closes);
            opens.map_or(after + person.away, |opens| opens.min(after + person.away))
        };
        let tomorrow = before.map(next_day).filter(|tomorrow| *tomorrow > start);
        let closer = Some(last - person.longest).filter(|closer| last > end && *closer > start);
        Some(tomorrow.into_iter().chain(closer).min().unwrap_or_else(|| next_day(last)))
    }

    /// A shift in which work would leave no room for the rest: the next moment at which it might.
    fn no_rest(&self, shift: Shift, start: Minute, end: Minute) -> Option<Minute> {
        if shift.rest == 0 || self.rest(shift, Some((start, end))).is_some() {
            return None;
        }
        let (first, last) = shift.rests_between();
        // The rest may come before the work as soon as it has room.
        let room = self.gaps(shift, None).map(|gap| gap.0.max(first) + shift.rest);
        let after = room.filter(|after| *after > start).min();
        Some(after.unwrap_or(last + shift.rest).max(start + 1))
    }

    /// When somebody rests in a shift, as near to its middle as what they do leaves room; `None` if nothing does.
    pub fn rest(&self, shift: Shift, more: Option<(Minute, Minute)>) -> Option<Minute> {
        let middle = middle(shift);
        let nearest = self.room_to_rest(shift, more).map(|(from, until)| middle.clamp(from, until));
        nearest.min_by_key(|start| ((start - middle).abs(), *start))
    }

    /// When somebody rests in a shift: where least speaks against it, and as near to its middle as that leaves.
    pub fn rest_where<K: Ord>(&self, shift: Shift, against: impl Fn(Minute) -> K) -> Option<Minute> {
        let middle = middle(shift);
        let all = self.room_to_rest(shift, None).flat_map(|(from, until)| from..=until);
        all.min_by_key(|start| (against(*start), (start - middle).abs(), *start))
    }

    /// From when to when the rest in a shift may begin.
    fn room_to_rest(&self, shift: Shift, more: Option<(Minute, Minute)>) -> impl Iterator<Item = (Minute, Minute)> {
        let (first, last) = shift.rests_between();
        let room = move |(from, until): (Minute, Minute)| (from.max(first), (until - shift.rest).min(last));
        self.gaps(shift, more).map(room).filter(|(from, until)| from <= until)
    }

    /// The stretches of a shift in which nothing is done that are long enough for the rest.
    fn gaps(&self, shift: Shift, more: Option<(Minute, Minute)>) -> impl Iterator<Item = (Minute, Minute)> {
        let mut busy: Vec<(Minute, Minute)> = self.within(shift.window).chain(more).collect();
        busy.sort_unstable();
        busy.push((shift.window.closes, shift.window.closes));
        let mut free = shift.window.opens;
        let mut gaps = Vec::new();
        for (start, end) in busy {
            if start - free >= shift.rest {
                gaps.push((free, start));
            }
            free = free.max(end);
        }
        gaps.into_iter()
    }
}

/// When a rest in the middle of a shift begins.
fn middle(shift: Shift) -> Minute {
    shift.window.opens + (shift.window.closes - shift.window.opens - shift.rest) / 2
}

/// The first shift that lasts until a moment or longer.
pub fn shift_until(person: &Person, end: Minute) -> Option<Shift> {
    let at = person.shifts.partition_point(|shift| shift.window.closes < end);
    person.shifts.get(at).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn night() -> Person {
        let shift = |day: Minute| Shift { window: Window { opens: day, closes: day + 480 }, rest: 30 };
        Person { shifts: vec![shift(0), shift(1440)], longest: 480, away: 0, nights: Vec::new() }
    }

    #[test]
    fn work_lies_in_a_shift_and_leaves_room_for_the_rest() {
        let (mara, mut diary) = (night(), Diary::default());
        assert_eq!(diary.next(&mara, 470, 20), 1440);
        diary.take(60, 240);
        // A rest begins no later than six hours into the shift: nothing may fill what is left of them.
        assert_eq!(diary.next(&mara, 240, 200), 270);
        diary.take(270, 470);
        assert_eq!(diary.rest(mara.shifts[0], None), Some(240));
        assert!(!diary.fits(&mara, 240, 245));
        diary.give_back(60, 240);
        assert!(diary.fits(&mara, 200, 240) && diary.fits(&mara, 240, 245));
    }

    #[test]
    fn a_rest_goes_out_of_the_way() {
        let (mara, diary) = (night(), Diary::default());
        let loads_at = |moment: Minute| move |start: Minute| usize::from(start < moment && moment < start + 30);
        assert_eq!(diary.rest_where(mara.shifts[0], loads_at(400)), Some(225));
        assert_eq!(diary.rest_where(mara.shifts[0], loads_at(240)), Some(210));
        assert_eq!(diary.rest_where(mara.shifts[0], |_| 1), Some(225));
    }

    #[test]
    fn a_day_without_hours_has_an_end() {
        let anybody = Person { shifts: Vec::new(), longest: 600, away: 660, nights: Vec::new() };
        let mut diary = Diary::default();
        diary.take(0, 30);
        diary.take(560, 590);
        assert!(diary.fits(&anybody, 590, 600));
        assert_eq!(diary.next(&anybody, 590, 30), 590 + 660);
        diary.take(1300, 1330);
        assert!(!diary.fits(&anybody, 700, 710));
    }

    /// Open from 5:00 to 23:30: who works from 5:00 to 10:00 is not on another day at half past three, when the kitchen was closed for
    /// as long in the night, but is so at five the next morning.
    #[test]
    fn a_break_as_long_as_the_night_begins_no_new_day() {
        let night = |day: Minute| Window { opens: day * 1440 + 1410, closes: day * 1440 + 1740 };
        let anybody = Person { shifts: Vec::new(), longest: 600, away: 660, nights: vec![night(0), night(1)] };
        let mut diary = Diary::default();
        diary.take(300, 600);
        assert!(!diary.fits(&anybody, 930, 1200));
        assert!(diary.fits(&anybody, 840, 900));
        assert_eq!(diary.next(&anybody, 930, 270), 600 + 660, "eleven hours away begin one");
        let mut late = Diary::default();
        late.take(900, 1400);
        assert_eq!(late.next(&anybody, 1405, 200), 1740, "so does the night");
    }
}
