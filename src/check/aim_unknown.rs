//! `aim-unknown`: a figure that is aimed at and that nobody can work out.

use super::{Check, Family, Run, Subject};
use crate::aims::figure::NoFigure;
use crate::aims::{self, Verdict, shown};
use crate::measure::show;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "aim-unknown",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "an `aim` whose figure cannot be worked out, because the larder lacks a fact or the recipe a line",
    why: "An aim that nobody can look at keeps nothing. The message names the ingredients of which a larder must say more. Where the \
          aim is met or missed whatever they hold, that is told instead: at least 10 % fat is met by the butter alone.",
    bad: "recipe Buns\nmakes 20 buns\naim fat at most 2 % of total\nstrong white flour .... 1 kg\nwater .... 600 g\nsea buckthorn spread .... 200 g\nsalt .... 20 g\ninstant yeast .... 10 g\n",
    good: "recipe Buns\nmakes 20 buns\naim fat at most 2 % of total\nuse \"larder.miche\"\nstrong white flour .... 1 kg\nwater .... 600 g\n\
           sea buckthorn spread .... 200 g\nsalt .... 20 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt}, {instant yeast} and {sea buckthorn spread}.\n    until smooth\n\
           === larder.miche ===\ningredient sea buckthorn spread\nfat 3 %\nwater 50 %\ncontains nothing\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for held in aims::held(subject.recipe, subject.formula) {
        let word = held.aim.figure.word();
        let (message, help) = match &held.verdict {
            Verdict::Open => {
                let Some(reading) = &held.reading else { continue };
                let Ok(least) = reading.value() else { continue };
                let missing = show::list(&reading.missing);
                let first = reading.missing.first().map_or("NAME", String::as_str);
                if reading.about.is_positive() {
                    let (figure, of) = (shown(&held.aim.unit, least), held.of_words());
                    let are = if reading.missing.len() > 1 { "are" } else { "is" };
                    let message = format!(
                        "{word} is about {figure}{of}, and whether that is the aim nobody knows: how {missing} {are} fed stands nowhere"
                    );
                    let help = format!(
                        "write it as a part with its formula, or into a larder: `ingredient {first}` and below it `water 57 %`, of equal weights of flour and water"
                    );
                    diagnostics.push(Diagnostic::error(CHECK.name, held.aim.span, message).help(help));
                    continue;
                }
                (
                    format!(
                        "{word} is at least {}{}, and how much more nobody knows: the larder has no figure for {missing}",
                        shown(&held.aim.unit, least),
                        held.of_words()
                    ),
                    format!("write it into a larder: `ingredient {}` with its figures below", first),
                )
            }
            Verdict::NoFigure(NoFigure::Because(why, help)) => {
                (format!("{word} cannot be worked out: {why}"), help.clone())
            }
            Verdict::NoFigure(NoFigure::Overflow) => (
                format!("{word} cannot be worked out: the sums with it leave the range of exact numbers"),
                "use amounts of ordinary size and with fewer digits".to_owned(),
            ),
            Verdict::Met | Verdict::Missed | Verdict::NoFigure(NoFigure::ToldElsewhere) => continue,
        };
        diagnostics.push(Diagnostic::error(CHECK.name, held.aim.span, message).help(help));
    }
}
