//! `base-not-100`: the lines that make up 100 % do not add up to it.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::measure::number::{self, Number};
use crate::measure::show;
use crate::measure::value::Said;
use crate::model::recipe::{Base, Ingredient, LineAmount};
use crate::solve::formula::linear;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "base-not-100",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "flours (or whatever 100 % is) that are given only in percent and do not add up to 100 %",
    why: "The base is 100 % by definition. If white flour is 80 % and rye 25 %, one of the two is wrong and every other \
          percentage with it.",
    bad: "recipe Loaf\nmakes 1 loaf\nwhite flour .... 80 %\nrye flour .... 25 %\nwater .... 70 %\ndivide 1 x 900 g\n",
    good: "recipe Loaf\nmakes 1 loaf\nwhite flour .... 80 %\nrye flour .... 20 %\nwater .... 70 %\ndivide 1 x 900 g\n\
           mix: hands 10 min\n    Mix {white flour}, {rye flour} and {water}.\n    until smooth\n",
    sources: &["T. Lehmann, PMQ Pizza Magazine: the flour is always 100 %"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.whole_parts() {
        let Some((base, span)) = &part.base else { continue };
        let in_base: Vec<&Ingredient> = part.lines.iter().filter(|line| linear::in_base(base, line)).collect();
        let percentages: Vec<&Said> = in_base
            .iter()
            .filter(|line| is_percentage(line))
            .filter_map(|line| match &line.amount {
                LineAmount::Said(said) => said.first(),
                _ => None,
            })
            .collect();
        let Some(first) = percentages.first() else { continue };
        let total = number::sum(percentages.iter().map(|said| said.value.number()));
        // Digits after the point were rounded; whole percentages were not.
        let slack = number::sum(percentages.iter().filter(|said| !said.whole).map(|said| said.slack));
        let (Ok(total), Ok(slack)) = (total, slack) else { continue };
        let has_fixed = percentages.len() < in_base.len();
        let Ok(off) = total.minus(Number::ONE) else { continue };
        let wrong = if has_fixed { !off.is_negative() } else { off.size() > slack };
        if !wrong {
            continue;
        }
        let what = match base {
            Base::Flour => "the flour".to_owned(),
            Base::Total => "everything".to_owned(),
            Base::Named(name) => format!("`{name}`"),
        };
        let percent = show::percent(crate::measure::quantity::Proportion::new(total));
        let message = if has_fixed {
            format!(
                "{what} is 100 %, but its percentages alone come to {percent} and leave nothing for the lines by weight"
            )
        } else {
            format!("{what} comes to {percent}, not to 100 %")
        };
        let mut problem = Diagnostic::error(CHECK.name, first.span, message).help(if has_fixed {
            "give these lines by weight too, or lower the percentages"
        } else {
            "correct the percentages so that they add up to 100 %"
        });
        for said in percentages.iter().skip(1) {
            problem = problem.also(said.span, show::said_plain(said));
        }
        if let Some(span) = span {
            problem = problem.also(*span, "what 100 % is");
        }
        diagnostics.push(problem.label(show::said_plain(first)));
    }
}
