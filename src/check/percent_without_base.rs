//! `percent-without-base`: percentages, and nothing that says what 100 % is.

use super::{Check, Family, Run, Subject};
use crate::measure::value::Value;
use crate::model::recipe::{Base, Ingredient, LineAmount, Part};
use crate::solve::formula::linear;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "percent-without-base",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "percentages in a part where nothing says what 100 % is, also one beside a weight, which is compared with nothing",
    why: "A baker's percentage is a share of the flour. In a part without flour, say what 100 % is: `percent of plums` or \
          `percent of total`. If an ingredient is flour but its name does not end in `flour`, write `counts as flour` \
          behind it.",
    bad: "recipe Jam\nplums .... 900 g\nsugar .... 55 %\n",
    good: "recipe Jam\npercent of plums\nplums .... 900 g\nsugar .... 55 %\ncook: tend 30 min\n    Simmer {plums} with {sugar}.\n    \
           until a drop wrinkles on a cold plate\n",
    sources: &["T. Lehmann, PMQ Pizza Magazine: every amount is a percentage of the flour, which is always 100 %"],
    run: Run::Parts(run),
};

/// Whether an amount is a percentage first of all.
pub(super) fn is_percentage(line: &Ingredient) -> bool {
    matches!(&line.amount, LineAmount::Said(said)
        if said.first().is_some_and(|said| matches!(said.value, Value::Proportion(_))))
}

/// `300 g = 90 %` where nothing says of what: the weight holds, and the percentage is compared with nothing.
fn compared_with_nothing(part: &Part) -> Option<Diagnostic> {
    let says_percentage =
        |line: &&Ingredient| line.said().iter().any(|said| matches!(said.value, Value::Proportion(_)));
    let line = part.lines.iter().find(says_percentage).filter(|_| part.base.is_none() && part.from.is_none())?;
    let message = format!(
        "nothing says what 100 % is in `{}`, so the percentage of `{}` is compared with nothing",
        part.name, line.name
    );
    Some(Diagnostic::advice(CHECK.name, line.amount_span, message).label("percent of what?").help(help(part)))
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        let Some(first) = part.lines.iter().find(|line| is_percentage(line)) else {
            diagnostics.extend(compared_with_nothing(part));
            continue;
        };
        match &part.base {
            None if part.from.is_none() => {
                let message = format!("`{}` has percentages, but nothing says what 100 % is", part.name);
                diagnostics.push(
                    Diagnostic::error(CHECK.name, first.amount_span, message)
                        .label("percent of what?")
                        .help(help(part)),
                );
            }
            Some((base, Some(span))) if !part.lines.iter().any(|line| linear::in_base(base, line)) => {
                let message = match base {
                    Base::Named(name) => format!("100 % is `{name}`, but `{}` does not list it", part.name),
                    _ => format!("100 % is the flour, but `{}` lists none", part.name),
                };
                diagnostics.push(
                    Diagnostic::error(CHECK.name, *span, message)
                        .also(first.amount_span, "a percentage of it")
                        .help(help(part)),
                );
            }
            _ => {}
        }
    }
}

fn help(part: &Part) -> String {
    let heaviest = part.lines.iter().find(|line| !is_percentage(line) && !line.aside);
    match heaviest {
        Some(line) => {
            format!("write `percent of {}` or `percent of total`, or `counts as flour` behind what is flour", line.name)
        }
        None => "write `percent of total` or `percent of NAME`, or `counts as flour` behind what is flour".to_owned(),
    }
}
