//! What there is too little of to work in: which equipment, one kind or several together, and how many more of it would be enough.

use super::super::problem::{self, Minute};
use super::Case;
use super::mend::Mend;
use super::offer::Offer;
use super::relax::{DAY, least};
use super::time;
use crate::measure::show;
use crate::model::kitchen::Kitchen;

/// So many more of some equipment than it needs at least are tried.
const MORE_UNITS: u32 = 3;

/// More than so many more of one kind nobody buys for a day. Common practice, no source.
const MOST_UNITS: i64 = 8;

/// So many kinds of equipment are offered together at most.
const MOST_KINDS: usize = 3;

impl Case<'_> {
    pub(super) fn more_equipment(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let busy = |number: usize| {
            let uses = |task: &&problem::Task| task.holds.is_some_and(|holds| holds.equipment == number);
            self.problem.tasks.iter().filter(uses).count() > 1
        };
        let kinds: Vec<usize> = (0..self.kitchen.equipment.len()).filter(|number| busy(*number)).collect();
        let before = ways.len();
        for number in &kinds {
            let (kitchen, said) = self.with_more_of(&[*number]);
            let mends = vec![Mend::Kitchen(Box::new(kitchen))];
            let Some(other) = Some(&mends).filter(|mends| self.holds(mends)).and_then(|mends| self.mended(mends))
            else {
                continue;
            };
            because.push(self.too_little(&other, *number));
            ways.push(Offer::said_so(format!("add another: {said}"), mends));
        }
        // Where one more is not enough, as many may be as all its loads need at once: of what things rest in. Nobody buys six ovens for a bake.
        let is_for_rests = |number: usize| {
            let mut loads =
                self.problem.tasks.iter().filter(|task| task.holds.is_some_and(|held| held.equipment == number));
            loads.all(|task| task.kind == problem::Kind::Wait)
        };
        for number in if ways.len() > before { &[] } else { kinds.as_slice() } {
            let Some((kitchen, said)) = (if is_for_rests(*number) { self.with_enough_of(*number) } else { None })
            else {
                continue;
            };
            let mends = vec![Mend::Kitchen(Box::new(kitchen))];
            let Some(other) = self.mended(&mends) else { continue };
            because.push(self.too_little(&other, *number));
            ways.push(Offer::said_so(format!("have more of it: {said}"), mends));
        }
        // Where one kind is not enough, several together may be: as few of them as are.
        if ways.len() > before || kinds.len() < 2 || !self.has_plan_with_more_of(&kinds) {
            return;
        }
        let mut needed = kinds;
        let mut at = 0;
        while let Some(number) = needed.get(at).copied() {
            let others: Vec<usize> = needed.iter().copied().filter(|other| *other != number).collect();
            if others.len() > 1 && self.has_plan_with_more_of(&others) {
                needed = others;
            } else {
                at += 1;
            }
        }
        if needed.len() > MOST_KINDS {
            return;
        }
        let (kitchen, said) = self.with_more_of(&needed);
        let mends = vec![Mend::Kitchen(Box::new(kitchen))];
        let Some(other) = self.mended(&mends) else { return };
        let little: Vec<String> = needed.iter().map(|number| self.too_little(&other, *number)).collect();
        because.push(little.join("; and "));
        ways.push(Offer::said_so(format!("add another of each: {said}"), mends));
    }

    fn has_plan_with_more_of(&self, numbers: &[usize]) -> bool {
        let (kitchen, _) = self.with_more_of(numbers);
        self.holds(&[Mend::Kitchen(Box::new(kitchen))])
    }

    /// The kitchen with one more of some kinds of equipment, and what to write there.
    fn with_more_of(&self, numbers: &[usize]) -> (Kitchen, String) {
        let count = |number: usize| self.kitchen.equipment.get(number).map_or(0, |equipment| equipment.count);
        self.with_counts(numbers.iter().map(|number| (*number, count(*number).saturating_add(1))))
    }

    /// The kitchen with the fewest of some kind of equipment that are enough, at least two more than there are, and what to write there.
    fn with_enough_of(&self, number: usize) -> Option<(Kitchen, String)> {
        let have = self.kitchen.equipment.get(number)?.count;
        let loads = || self.problem.tasks.iter().filter_map(|task| task.holds).filter(|held| held.equipment == number);
        let all = match self.problem.equipment.get(number)?.shared {
            Some(takes) => (loads().map(|held| held.size).sum::<i64>() + takes - 1) / takes.max(1),
            None => i64::try_from(loads().count()).ok()?,
        };
        let more = (all - i64::from(have)).min(MOST_UNITS);
        let with = |more: i64| self.with_counts([(number, have.saturating_add(u32::try_from(more).unwrap_or(0)))]);
        let mends = |more: i64| [Mend::Kitchen(Box::new(with(more).0))];
        if more < 2 || !self.holds(&mends(more)) {
            return None;
        }
        // One more was not enough.
        least(more - 1, |least| self.holds_quickly(&mends(least + 1))).or(Some(more - 1)).map(|least| with(least + 1))
    }

    /// The kitchen with so many of some kinds of equipment, and what to write there.
    fn with_counts(&self, counts: impl IntoIterator<Item = (usize, u32)>) -> (Kitchen, String) {
        let mut kitchen = self.kitchen.clone();
        let mut said: Vec<String> = Vec::new();
        for (number, count) in counts {
            if let Some(equipment) = kitchen.equipment.get_mut(number) {
                equipment.count = count;
                said.push(format!("`{} x {count}`", equipment.name));
            }
        }
        (kitchen, show::list(&said))
    }

    /// Equipment that is needed for longer than it can be used in one day, the busiest first.
    pub(super) fn more_than_a_day(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
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
            (alone && units > Minute::from(equipment.count)).then_some((units, needed, a_day, equipment, number))
        });
        let most = busy.max_by_key(|(units, needed, _, _, _)| (*units, *needed));
        let Some((units, needed, a_day, equipment, number)) = most else { return };
        let name = &equipment.name;
        because.push(format!("the `{name}` is needed {} in all, and a day has {}", time(needed), time(a_day)));
        let enough = u32::try_from(units).ok().and_then(|units| {
            let with = |more: u32| self.with_counts([(number, units.saturating_add(more))]);
            let offer = |(kitchen, said): (Kitchen, String)| {
                Offer::said_so(format!("have more of it: {said}"), vec![Mend::Kitchen(Box::new(kitchen))])
            };
            (0..MORE_UNITS).map(|more| offer(with(more))).find_map(|offer| self.proven(offer))
        });
        ways.extend(enough);
    }
}
