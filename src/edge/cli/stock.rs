//! `miche stock`: the largest whole batch from what there is, what limits it, and what remains.

use super::figures::Figures;
use super::output::Output;
use super::stop::Ended;
use crate::edge::loader;
use crate::language::syntax::FileKind;
use crate::make::have::{self, There};
use crate::make::size::Size;
use crate::make::stock::{over, read};
use crate::measure::quantity::Mass;
use crate::out::stock::{self, Stock};
use clap::Args;
use std::path::{Path, PathBuf};

/// What `stock` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    figures: Figures,
    /// A file of what there is, lines like `strong white flour .... 2 kg`; `-` is standard input
    #[arg(long, value_name = "FILE")]
    from: Option<PathBuf>,
}

/// Options of a size that it takes none of.
pub(super) const NOT_ASKED: &[&str] = &["pieces", "times", "total", "base", "use_up"];

pub(super) fn run(arguments: &mut Arguments, output: &mut Output) -> Ended {
    let (there_is, said) = there_is(arguments)?;
    arguments.figures.to_make.scaling.stock = there_is.clone();
    arguments.figures.run(
        output,
        |_, batch, asked| {
            // What a file holds besides stays where it is; who names one thing means this recipe.
            if asked.tree.kind == FileKind::Recipe {
                for one in have::weighed(&batch.recipe, &said).map_err(|no_weight| no_weight.to_string())? {
                    let used = crate::make::stock::used_of(&batch.recipe, &batch.formula, std::slice::from_ref(&one))
                        .map_err(|_| "a batch of that size leaves the range of exact numbers".to_owned())?;
                    if used.iter().all(|one| one.used == Mass::ZERO) {
                        return Err(format!("--have {}: the recipe takes no weighed `{}`", one.0, one.0));
                    }
                }
            }
            let there_is = have::weighed(&batch.recipe, &there_is).map_err(|no_weight| no_weight.to_string())?;
            let remains = crate::make::stock::used_of(&batch.recipe, &batch.formula, &there_is)
                .map_err(|_| "a batch of that size leaves the range of exact numbers".to_owned())?;
            Ok(Stock {
                recipe: batch.recipe.name.to_string(),
                factor: batch.factor,
                pieces: batch.formula.pieces.map(crate::measure::quantity::Count::value),
                limit: batch.limit.as_ref().map(|limit| limit.ingredient.clone()),
                remains,
            })
        },
        |stock, units| Ok(stock::page(stock, units)),
        |_| Vec::new(),
        |stocks| stock::json(stocks).map_err(|error| error.to_string()),
    )
}

/// What a file says there is; nothing where none is named.
///
/// # Errors
/// That the file cannot be read, or which of its lines.
pub(super) fn of_file(path: Option<&Path>) -> Result<Vec<There>, String> {
    let Some(path) = path else { return Ok(Vec::new()) };
    let text = loader::read_text(path).map_err(|error| error.to_string())?;
    // What is told at the end of a run stands on one line.
    read(&text).map_err(|why| format!("{}: {}", path.display(), why.join("; ")))
}

/// What there is: the lines of a file, and what --have says over them; and that by itself.
fn there_is(arguments: &Arguments) -> Result<(Vec<There>, Vec<There>), String> {
    let said = match arguments.figures.to_make.scaling.size()? {
        Size::Have(said) => said,
        Size::AsWritten => Vec::new(),
        other => {
            let option = match other {
                Size::Pieces(_) => "--pieces",
                Size::Times(_) => "--times",
                Size::Total(_) => "--total",
                Size::Base(_) => "--base",
                _ => "--use-up",
            };
            return Err(format!("miche stock finds the size of the batch itself; leave {option} away"));
        }
    };
    let all = over(&of_file(arguments.from.as_deref())?, &said);
    if all.is_empty() {
        return Err(
            "say what there is: --have \"strong white flour=2 kg\", once for each ingredient, or --from FILE with \
                    lines like `strong white flour .... 2 kg`"
                .to_owned(),
        );
    }
    Ok((all, said))
}
