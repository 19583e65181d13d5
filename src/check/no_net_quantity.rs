//! `no-net-quantity`: something is sold in brine or syrup, or as a drink, and the file does not say what its label has to promise.

use super::{Check, Family, Run, Subject};
use crate::model::medium::{self, Medium};
use crate::model::recipe::Part;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-net-quantity",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a recipe that says something for its label (`sold as`, `best before`, `batch` and the like) and makes solid food in brine, vinegar, syrup, \
                water or juice without a `drained` line, or a drink without a `weighs` line",
    why: "The label of solid food in a liquid says what is left without it, beside the weight with it; that of a drink says its volume. Neither \
          follows from a formula: what lies in brine takes some up or gives some off, and a litre of cordial weighs more than one of water.",
    bad: "recipe Pickled radishes\nmakes 4 jars\nbest before 30 days\nradishes .... 1 kg\nwhite vinegar .... 600 g\nwater .... 400 g\nsalt .... 40 g\n",
    good: "recipe Pickled radishes\nmakes 4 jars\nbest before 30 days\ndrained 245 g of 510 g\nradishes .... 1 kg\nwhite vinegar .... 600 g\n\
           water .... 400 g\nsalt .... 40 g\n",
    sources: &[
        "Regulation (EU) 1169/2011, Annex IX, 5 and Article 23(1)(a)",
        "FDA, A Food Labeling Guide: net content excludes liquid that is not usually consumed",
    ],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let sale = &recipe.sale;
    // A kitchen says its business for everything that is made in it, whether it is sold in jars or eaten.
    let is_sold = sale.sold_as.is_some() || sale.good_for.is_some() || sale.batch.is_some() || sale.store.is_some();
    let Some(id) = recipe.final_part().filter(|_| is_sold) else { return };
    let within: Vec<&Part> = recipe.within(id).into_iter().filter_map(|id| recipe.part(id)).collect();
    let place = recipe.name.span;
    let at_end = Span::new(place.source, place.range().end, place.range().end);
    if let Some(medium) = medium::of(recipe, &within) {
        if sale.drained.is_none() {
            let liquid = match medium {
                Medium::PouredOff => "a liquid that is poured off",
                Medium::Eaten => "syrup or juice",
            };
            diagnostics.push(
                Diagnostic::advice(
                    CHECK.name,
                    place,
                    format!("`{}` is sold in {liquid}, and nothing says what is left of it without", recipe.name),
                )
                .help(
                    "let a jar stand as long as it does until it is sold, weigh what it holds, then what is left on a sieve: `drained 320 g of 550 g`, \
                     or `drained as packed` where it neither takes up nor gives off anything",
                )
                .suggest("say that as much is left as went in solid", at_end, "\ndrained as packed"),
            );
        }
        return;
    }
    let is_poured = within.iter().flat_map(|part| &part.lines).any(|line| line.stays_in() && line.kind.is_liquid());
    let has_flour = within.iter().flat_map(|part| &part.lines).any(|line| line.is_flour && line.stays_in());
    if sale.density.is_none() && is_poured && !has_flour && medium::is_called_a_drink(recipe) {
        diagnostics.push(
            Diagnostic::advice(
                CHECK.name,
                place,
                format!("`{}` is a drink, which is sold by volume, and nothing says what a litre of it weighs", recipe.name),
            )
            .help("weigh a litre, or a bottle filled to its mark, and write `weighs 1.04 kg per l` or `weighs 520 g per 500 ml`"),
        );
    }
}
