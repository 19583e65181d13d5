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

/// What `cost` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
    /// The day on which the prices are looked at, for example 2026-11-25, instead of today
    #[arg(long, value_name = "DATE", value_parser = date)]
    on: Option<Date>,
    /// Name the prices that are older than this, by the dates in the larder
    #[arg(long, value_name = "TIME", default_value = "180 days")]
    older_than: String,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let ageing = ageing(arguments)?;
    arguments.figures.run(
        output,
        |_, batch, asked| {
            let mut cost = cost::of(&batch.recipe, &batch.formula, asked.larder.as_deref()).map_err(|why| why.0)?;
            batch
                .from_store
                .iter()
                .filter(|taken| taken.is_part)
                .for_each(|taken| cost.note_elsewhere(&taken.what, taken.mass));
            Ok(cost)
        },
        |cost, units| out::cost::page(cost, ageing, units),
        out::cost::total,
        |costs| out::cost::json(costs, ageing).map_err(|error| error.to_string()),
    )
}

fn ageing(arguments: &Arguments) -> Result<Ageing, String> {
    let on = arguments.on.unwrap_or_else(|| jiff::ZonedDateTime::now().date());
    let text = &arguments.older_than;
    let time = super::scaling::duration(text).filter(|time| *time >= Duration::ZERO);
    let days = time.and_then(Duration::whole_days);
    let good_for_days = days.ok_or_else(|| format!("--older-than {text}: this is no time such as `180 days`"))?;
    Ok(Ageing { on, good_for_days })
}
