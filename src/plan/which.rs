//! Which of several things that are called alike: the words that tell what is made for one time, or one way, from the rest.

use crate::language::syntax::Moment;
use crate::make::batch::BatchPart;
use crate::make::work::Work;
use crate::measure::show;
use crate::model::recipe::Recipe;
use crate::model::ways;
use crate::plan::clock::short_day_beside;
use jiff::civil::Date;

/// What is made for some orders, where several batches or orders may be called alike.
pub struct Which<'a> {
    work: &'a Work,
    made: Vec<BatchPart>,
    /// The first day and the last on which something is wanted.
    days: Option<(Date, Date)>,
}

impl<'a> Which<'a> {
    /// For some work.
    pub fn of(work: &'a Work) -> Which<'a> {
        let days = || work.orders.iter().filter_map(|order| order.ready).map(|ready| ready.when.date());
        Which { work, made: work.made(), days: days().min().zip(days().max()) }
    }

    /// What tells a part of a batch, or what is done of it for one of several times, from others of that name: `for 09:00`, or the
    /// options that the others do not have; empty where there are none.
    pub fn part(&self, place: BatchPart, turn: Option<usize>) -> String {
        let Some(batch) = self.work.batches.get(place.batch) else { return String::new() };
        let turns = batch.apart.as_ref().map_or(&[][..], |apart| &apart.turns);
        if let Some(ready) = turn.and_then(|turn| turns.get(turn)?.ready).filter(|_| turns.len() > 1) {
            return self.at(&[ready]);
        }
        let Some((own, there)) = batch.recipe.origin(place.part) else { return String::new() };
        let Some(name) = own.part(there).map(|part| &part.name) else { return String::new() };
        let others = self.made.iter().filter(|other| other.batch != place.batch).filter_map(|other| {
            let batch = self.work.batches.get(other.batch)?;
            let (origin, at) = batch.recipe.origin(other.part)?;
            (origin.source == own.source && origin.part(at)?.name.same(name))
                .then(|| (origin, self.wanted(&batch.orders).first().copied()))
        });
        let others: Vec<(&Recipe, Option<Moment>)> = others.collect();
        self.told_from(own, &self.wanted(&batch.orders), &others)
    }

    /// What tells an order from others of its recipe, where that is not the time, which stands beside it.
    pub fn order(&self, at: usize) -> String {
        self.work.orders.get(at).map_or_else(String::new, |order| self.work.options_apart(&order.recipe))
    }

    /// What is made for several times says all of them: who has the sheet of the first is told why it is more.
    fn told_from(&self, own: &Recipe, wanted: &[Moment], others: &[(&Recipe, Option<Moment>)]) -> String {
        let is_then = |other: &Option<Moment>, then: Moment| other.is_some_and(|other| other.when == then.when);
        match wanted.first() {
            _ if others.is_empty() => String::new(),
            Some(first) if !others.iter().any(|(_, other)| is_then(other, *first)) => self.at(wanted),
            _ => ways::told_from(own, &others.iter().map(|(other, _)| *other).collect::<Vec<&Recipe>>()),
        }
    }

    /// When some orders are wanted, each time once, the first one first.
    fn wanted(&self, orders: &[usize]) -> Vec<Moment> {
        let mut all: Vec<Moment> = orders.iter().filter_map(|at| self.work.orders.get(*at)?.ready).collect();
        all.sort_by_key(|ready| ready.when);
        all.dedup_by_key(|ready| ready.when);
        all
    }

    fn at(&self, moments: &[Moment]) -> String {
        let mut before: Option<Date> = None;
        let each = moments.iter().map(|moment| {
            let (day, time) = (moment.when.date(), moment.when.strftime("%H:%M"));
            match self.days {
                Some((first, last)) if first != last && before.replace(day) != Some(day) => {
                    format!("{} {time}", short_day_beside(day, if day == first { last } else { first }))
                }
                _ => time.to_string(),
            }
        });
        format!("for {}", show::list(&each.collect::<Vec<String>>()))
    }
}
