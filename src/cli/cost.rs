//! `miche cost`: what a batch, a part and a piece cost, by the prices in the larder.

use super::Outcome;
use super::figures::Figures;
use super::output::Output;
use crate::{cost, emit};
use clap::Args;

/// What `cost` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    arguments.figures.run(
        output,
        |batch| cost::of(&batch.recipe, &batch.formula).map_err(|why| why.0),
        emit::figures::cost::page,
        |costs| emit::figures::cost::json(costs).map_err(|error| error.to_string()),
    )
}
