//! Who of several people does what, when all times are settled: a search that goes back to a choice that is to blame.

use super::dense::Dense;
use super::diary::{Diary, shift_until};
use super::problem::{Label, Minute, Person};
use std::collections::BTreeSet;

/// Some work at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// From when.
    pub start: Minute,
    /// Until when.
    pub end: Minute,
    /// How many people work at it.
    pub cooks: u32,
    /// What it is.
    pub label: Label,
}

/// How often somebody is tried for some work before it is given up to share all of it out.
const TRIES: usize = 40_000;

/// Who does what, counted from 0, so that everybody is there, rests, and has a day of no more than they may work; `None` if
/// that cannot be, or was not found. Whoever worked at a part goes on with it if they can.
pub fn people(people: &[Person], works: &[Work]) -> Option<Vec<Vec<usize>>> {
    shared_out(people, works, false)
}

/// The same; where it is `fair`, what nobody who is free worked at goes to whoever has worked least in their shift so far.
pub fn shared_out(people: &[Person], works: &[Work], fair: bool) -> Option<Vec<Vec<usize>>> {
    let mut order: Vec<usize> = Vec::new();
    for (at, work) in works.iter().enumerate().filter(|(_, work)| work.start < work.end) {
        order.extend((0..work.cooks).map(|_| at));
    }
    order.sort_by_key(|at| works.get(*at).map(|work| (work.start, work.end, *at)));
    let mut sharing =
        Sharing { people, works, fair, diaries: Dense::filled(people.len(), Diary::default()), last: Vec::new() };
    // One place after the other is given to the first who can take it. Where nobody can, the search goes back to the last place that is to blame
    // for that, and gives it to the next: what lies between has nothing to do with it.
    let mut given: Vec<Place> = Vec::with_capacity(order.len());
    let mut tries = 0;
    while let Some(at) = order.get(given.len()) {
        given.push(sharing.place(&order, given.len(), *at));
        loop {
            tries += 1;
            if tries > TRIES {
                return None;
            }
            let place = given.len() - 1;
            let last = given.last_mut()?;
            if let Some(who) = last.candidates.get(last.tried) {
                last.tried += 1;
                sharing.give(*order.get(place)?, *who);
                break;
            }
            let mut blame = given.pop()?.blame;
            // Where no place is to blame it cannot be.
            let back = blame.pop_last()?;
            for at in order.get(back..place)?.iter().rev() {
                sharing.take_back(*at);
            }
            given.truncate(back + 1);
            given.last_mut()?.blame.extend(blame);
        }
    }
    let mut who: Vec<Vec<usize>> = vec![Vec::new(); works.len()];
    for (place, person) in order.iter().zip(&sharing.last) {
        who.get_mut(*place)?.push(*person);
    }
    // What takes no time is done by whoever is there.
    for (at, work) in works.iter().enumerate().filter(|(_, work)| work.start == work.end && work.cooks > 0) {
        let there = (0..people.len()).filter(|who| {
            people.get(*who).is_some_and(|person| sharing.diaries[*who].fits(person, work.start, work.end))
        });
        let slot = who.get_mut(at)?;
        slot.extend(there.take(usize::try_from(work.cooks).unwrap_or(0)));
        if slot.len() < usize::try_from(work.cooks).unwrap_or(0) {
            return None;
        }
    }
    Some(who)
}

/// Some work that somebody is to do.
struct Place {
    /// Who could, the most fitting first.
    candidates: Vec<usize>,
    /// How many of them were tried.
    tried: usize,
    /// The places before it because of which the others, and those who were tried, cannot.
    blame: BTreeSet<usize>,
}

/// Work being shared out.
struct Sharing<'a> {
    people: &'a [Person],
    works: &'a [Work],
    fair: bool,
    diaries: Dense<Diary>,
    /// Who was given each place so far.
    last: Vec<usize>,
}

impl Sharing<'_> {
    /// Who could take a place.
    fn place(&self, order: &[usize], place: usize, at: usize) -> Place {
        let mut blame = BTreeSet::new();
        let candidates = self.candidates(order, (place, at), &mut blame);
        Place { candidates, tried: 0, blame }
    }

    /// Who could take a place, the most fitting first; and why the others cannot.
    fn candidates(&self, order: &[usize], (place, at): (usize, usize), blame: &mut BTreeSet<usize>) -> Vec<usize> {
        let Some(work) = self.works.get(at) else { return Vec::new() };
        let part = |at: usize| self.works.get(at).map(|work| (work.label.recipe, work.label.part));
        // Of several at one work each comes after the one before, so that nobody is tried in two orders.
        let after = place.checked_sub(1).filter(|before| order.get(*before) == Some(&at));
        let after = after.and_then(|before| self.last.get(before)).copied();
        let mut fresh: Option<&Person> = None;
        let mut candidates: Vec<usize> = Vec::new();
        for (who, person) in self.people.iter().enumerate() {
            let diary = &self.diaries[who];
            if after.is_some_and(|after| who <= after) {
                blame.extend(place.checked_sub(1));
                continue;
            }
            if !diary.fits(person, work.start, work.end) {
                self.in_the_way(order, (who, person), work, blame);
                continue;
            }
            // Of several who are alike and have done nothing yet, one is enough to try.
            if diary.is_empty() && work.cooks == 1 {
                if fresh == Some(person) {
                    continue;
                }
                fresh = Some(person);
            }
            candidates.push(who);
        }
        let latest = |who: usize| {
            let mine = self.last.iter().zip(order).rev().find(|(given, _)| **given == who);
            mine.map(|(_, at)| *at)
        };
        let worked = |who: usize| {
            let person = self.people.get(who).filter(|_| self.fair);
            person.map_or(0, |person| self.diaries[who].worked_until(person, work.end))
        };
        // Whoever worked at what somebody else takes up at the same minute stays with that.
        let begins = |at: &&usize| self.works.get(**at).is_some_and(|other| other.start == work.start);
        let others: Vec<usize> = order.iter().skip(place + 1).take_while(begins).copied().collect();
        let is_awaited = |who: usize| {
            let of = latest(who).and_then(part).filter(|of| Some(*of) != part(at));
            of.is_some() && others.iter().any(|other| part(*other) == of)
        };
        let fits = |who: &usize| (latest(*who).and_then(part) != part(at), is_awaited(*who), worked(*who), *who);
        candidates.sort_by_cached_key(fits);
        candidates
    }

    /// The places because of which somebody cannot do some work besides: one at the same time, or else those that leave no room for their rest or
    /// make their day too long.
    fn in_the_way(&self, order: &[usize], (who, person): (usize, &Person), work: &Work, blame: &mut BTreeSet<usize>) {
        let mine = self.last.iter().zip(order).enumerate().filter(|(_, (given, _))| **given == who);
        let mine: Vec<(usize, &Work)> =
            mine.filter_map(|(place, (_, at))| Some((place, self.works.get(*at)?))).collect();
        let meets = |(from, until): (Minute, Minute)| {
            mine.iter().filter(move |(_, other)| from < other.end && other.start < until)
        };
        if let Some((place, _)) = meets((work.start, work.end)).next() {
            blame.insert(*place);
            return;
        }
        let Some(shift) = shift_until(person, work.end) else {
            // Of somebody with shifts there is none so late, whatever else they do.
            let all = mine.iter().filter(|_| person.shifts.is_empty());
            blame.extend(all.map(|(place, _)| *place));
            return;
        };
        let (opens, closes) = (shift.window.opens, shift.window.closes);
        if opens > work.start {
            return;
        }
        let first = meets((opens, closes)).min_by_key(|(_, other)| other.start);
        let last = meets((opens, closes)).max_by_key(|(_, other)| other.end).filter(|(_, other)| other.end > work.end);
        let from = first.map_or(work.start, |(_, other)| work.start.min(other.start));
        let until = last.map_or(work.end, |(_, other)| other.end);
        if closes - opens > person.longest && until - from > person.longest {
            blame.extend(first.into_iter().chain(last).map(|(place, _)| *place));
            return;
        }
        let (first, last) = shift.rests_between();
        blame.extend(meets((first, last + shift.rest)).map(|(place, _)| *place));
    }

    fn give(&mut self, at: usize, who: usize) {
        if let Some(work) = self.works.get(at) {
            self.diaries[who].take(work.start, work.end);
        }
        self.last.push(who);
    }

    fn take_back(&mut self, at: usize) {
        if let (Some(who), Some(work)) = (self.last.pop(), self.works.get(at)) {
            self.diaries[who].give_back(work.start, work.end);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::problem::{Shift, Window};

    /// One who works no longer than three hours is given the first work of a night: then there is nobody for the last, which is told only there.
    /// Between them either could do either of two things, thirty times: whoever tries all of that first is never through.
    #[test]
    fn the_search_goes_back_to_the_work_that_is_to_blame() {
        let shift = Shift { window: Window { opens: 0, closes: 480 }, rest: 0 };
        let person = |longest| Person { shifts: vec![shift], longest, away: 0, nights: Vec::new() };
        let label = |part| Label { recipe: 0, part, step: 0, load: 0 };
        let work = |start, end, part| Work { start, end, cooks: 1, label: label(part) };
        let mut works = vec![work(0, 10, 0)];
        for (part, at) in (20..170).step_by(5).enumerate() {
            works.extend([work(at, at + 4, 2 * part), work(at, at + 4, 2 * part + 1)]);
        }
        works.extend([work(190, 205, 99), work(191, 205, 98)]);
        let who = people(&[person(190), person(480)], &works).unwrap();
        assert_eq!(who[0], [1]);
        assert_eq!(people(&[person(190), person(190)], &works), None);
    }
}
