//! What a log says was made of a recipe, where the day now orders another number of it.

use super::super::clock::Clock;
use super::super::problem::Minute;
use super::super::tasks::Tasks;
use super::{Logged, REACH, is_of};
use crate::language::bakes::{Log, Size};
use crate::make::work::Work;
use crate::measure::noun::agreeing;
use crate::measure::number::{Number, Overflow};
use crate::measure::show;
use crate::model::recipe::HeadMakes;
use crate::text::source::SourceId;
use jiff::civil::Time;

/// That what has begun is not as many as are ordered, in a sentence; `None` where it is, where that is not known, or where nothing has begun.
/// Of what is made in several doughs nobody knows which of them a bake is.
pub fn otherwise(
    (work, tasks): (&Work, &Tasks),
    (log, recipe): (&Log, SourceId),
    known: &[Option<Logged>],
    (clock, now): (&Clock, Minute),
) -> Option<String> {
    let begins = |date: jiff::civil::Date, time: Option<Time>| {
        clock.minute(date.to_datetime(time.unwrap_or(Time::midnight()))).ok()
    };
    let bake = log.bakes.iter().rfind(|bake| begins(bake.date.value, bake.time).is_some_and(|at| at <= now))?;
    let Size::Pieces(made) = bake.size.value else { return None };
    if begins(bake.date.value, bake.time)? < now - REACH {
        return None;
    }
    let mut of_recipe =
        work.batches.iter().enumerate().filter(|(_, batch)| !batch.orders.is_empty() && is_of(&batch.recipe, recipe));
    let (number, batch) = of_recipe.next().filter(|_| of_recipe.next().is_none())?;
    let is_begun = tasks.list.iter().zip(known).any(|(task, known)| task.batch == number && known.is_some());
    let orders = batch.orders.iter().filter_map(|order| work.orders.get(*order));
    let each: Option<Vec<Number>> = orders.map(|order| Some(order.formula.pieces?.value())).collect();
    let wanted = sum(each?).ok()?;
    if !is_begun || made == wanted || bake.steps.is_empty() {
        return None;
    }
    let noun = match &batch.recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) => noun.text.to_string(),
        _ => "pieces".to_owned(),
    };
    let name = &batch.recipe.name;
    let begun = format!(
        "By its log {name} was begun for {} {}, and the day wants {}",
        show::number(made),
        agreeing(made, &noun),
        show::number(wanted)
    );
    Some(if made < wanted {
        let lacking = wanted.minus(made).ok()?;
        format!(
            "{begun}: what has gone in so far lacks what {} of them take, and the figures here are of {}. Make these as an order of their own.",
            show::number(lacking),
            show::number(wanted)
        )
    } else {
        let over = made.minus(wanted).ok()?;
        format!(
            "{begun}: what {} of them take remains of what has gone in so far, and the figures here are of {}.",
            show::number(over),
            show::number(wanted)
        )
    })
}

fn sum(all: Vec<Number>) -> Result<Number, Overflow> {
    all.into_iter().try_fold(Number::ZERO, Number::plus)
}
