//! `miche cost`: what a batch, a part and a piece cost, by the prices in the larder.

use super::figures::Figures;
use super::output::Output;
use super::read::date;
use super::stop::Ended;
use crate::figures::cost;
use crate::figures::cost::Ageing;
use crate::measure::quantity::Duration;
use crate::out;
use clap::Args;
use jiff::civil::Date;
use std::cell::Cell;

/// From when on a price is old.
const OLD: &str = "180 days";

/// What `cost` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
    /// The day on which the prices are looked at, for example 2026-11-25, instead of today
    #[arg(long, value_name = "DATE", value_parser = date)]
    on: Option<Date>,
    /// Name the prices that are older than this, by the dates in the larder, instead of 180 days
    #[arg(long, value_name = "TIME")]
    older_than: Option<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let ageing = ageing(arguments)?;
    let is_dated = Cell::new(false);
    let ended = arguments.figures.run(
        output,
        |_, batch, asked| {
            let mut cost = cost::of(&batch.recipe, &batch.formula, asked.larder.as_deref()).map_err(|why| why.0)?;
            batch
                .from_store
                .iter()
                .filter(|taken| taken.is_part)
                .for_each(|taken| cost.note_elsewhere(&taken.what, taken.mass));
            is_dated.set(is_dated.get() || cost.lines.iter().any(|line| line.priced_on.is_some()));
            Ok(cost)
        },
        |cost, units| out::cost::page(cost, ageing, units),
        out::cost::total,
        |costs| out::cost::json(costs, ageing).map_err(|error| error.to_string()),
    );
    if ended.is_ok() && !is_dated.get() {
        let given = [("--on", arguments.on.is_some()), ("--older-than", arguments.older_than.is_some())];
        for (option, _) in given.into_iter().filter(|(_, is_given)| *is_given) {
            output.complain(&format!(
                "{option} changes nothing here: no price says of which day it is; write `costs 1.20 per kg, on 2026-11-01` in the larder"
            ));
        }
    }
    ended
}

fn ageing(arguments: &Arguments) -> Result<Ageing, String> {
    let on = arguments.on.unwrap_or_else(|| jiff::ZonedDateTime::now().date());
    let text = arguments.older_than.as_deref().unwrap_or(OLD);
    let time = super::scaling::duration(text).filter(|time| *time >= Duration::ZERO);
    let days = time.and_then(Duration::whole_days);
    let good_for_days = days.ok_or_else(|| format!("--older-than {text}: this is no time such as `180 days`"))?;
    Ok(Ageing { on, good_for_days })
}
