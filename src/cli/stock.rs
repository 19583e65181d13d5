//! `miche stock`: the largest whole batch from what there is, what limits it, and what remains.

use super::Outcome;
use super::batches::complain;
use super::figures::Figures;
use super::output::Output;
use crate::batch::Target;
use crate::emit::figures::stock::{self, Stock};
use clap::Args;

/// What `stock` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let there_is = match arguments.figures.target() {
        Ok(Target::Have(stock)) => stock,
        Ok(_) => {
            return complain(output, "say what there is: --have \"strong white flour=2 kg\", once for each ingredient");
        }
        Err(why) => return complain(output, &why),
    };
    arguments.figures.run(
        output,
        |batch| {
            let remains = crate::stock::remains(&batch.recipe, &batch.formula, &there_is)
                .map_err(|_| "a batch of that size leaves the range of exact numbers".to_owned())?;
            Ok(Stock {
                recipe: batch.recipe.name.to_string(),
                factor: batch.factor,
                pieces: batch.formula.pieces.map(crate::quantity::Count::value),
                limit: batch.limit.as_ref().map(|limit| limit.ingredient.clone()),
                remains,
            })
        },
        |stock| Ok(stock::page(stock)),
        |stocks| stock::json(stocks).map_err(|error| error.to_string()),
    )
}
