//! `miche label`: ingredient list, allergens, quantities, net weight and nutrition of what is made.

use super::Outcome;
use super::batches::complain;
use super::figures::Figures;
use super::output::Output;
use super::scaling::loss;
use crate::figures::label;
use crate::model::allergen::Law;
use crate::out;
use clap::{Args, ValueEnum};

/// What `label` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
    /// By whose law
    #[arg(long, value_enum, default_value_t = LawWanted::Eu)]
    law: LawWanted,
    /// What the oven takes of the weight, for example `12 %`, instead of what the recipe says
    #[arg(long, value_name = "PERCENT")]
    bake_loss: Option<String>,
    /// Say the quantity of this ingredient too; may be given several times
    #[arg(long, value_name = "NAME")]
    quantity: Vec<String>,
}

/// By whose law.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum LawWanted {
    /// Regulation (EU) 1169/2011
    Eu,
    /// FALCPA, the FASTER Act and 21 CFR 101
    Us,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let bake_loss = arguments.bake_loss.as_deref().map(|text| loss("--bake-loss", text));
    let bake_loss = match bake_loss.transpose() {
        Ok(bake_loss) => bake_loss,
        Err(why) => return complain(output, &why),
    };
    let law = match arguments.law {
        LawWanted::Eu => Law::Eu,
        LawWanted::Us => Law::Us,
    };
    let wanted = label::Wanted { law, bake_loss, quantities: arguments.quantity.clone() };
    arguments.figures.run(
        output,
        |batch| label::all(&batch.recipe, &batch.formula, &wanted).map_err(|why| why.0),
        |labels, units| {
            let pages: Result<Vec<_>, _> = labels.iter().map(|label| out::label::page(label, units)).collect();
            pages.map(|pages| pages.into_iter().flatten().collect())
        },
        |_| Vec::new(),
        |all| out::label::json(&all.concat()),
    )
}
