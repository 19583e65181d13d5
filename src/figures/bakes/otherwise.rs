//! `bakes-say-otherwise`: where at least three bakes agree with each other and not with the formula.

use super::as_baked::{Taken, taken};
use super::measurement::Kind;
use super::statistics::{FEWEST, reach};
use super::{Says, Told};
use crate::figures::compare::FileVersion;
use crate::measure::number::Number;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// The problems, each in the recipe or its kitchen, with what would mend it.
pub fn problems(told: &Told, file: &FileVersion) -> Vec<Diagnostic> {
    // What no file says stands nowhere to be mended.
    let is_told = |one: &Taken| one.says == Some(Says::Differs) && one.at_home.is_none();
    let differ = taken(told, file).into_iter().filter(is_told);
    let mut all: Vec<Diagnostic> = differ
        .map(|one| {
            let typed = one.text.trim_start_matches([',', ' ']).to_owned();
            let place = if one.span.start == one.span.end { whole_line(file, one.span) } else { one.span };
            let also = if one.also_said.is_empty() { String::new() } else { format!(" and {}", one.also_said) };
            let mut problem =
                Diagnostic::advice("bakes-say-otherwise", place, format!("{}; {}", one.measured, one.formula))
                    .help(format!("write `{typed}`{also}, or find out what is done otherwise than it is written"))
                    .suggest(format!("write `{typed}`{also}"), one.span, one.text);
            if let Some(mend) = &mut problem.mend {
                mend.edits.extend(one.also);
            }
            problem
        })
        .collect();
    // A dough that misses its temperature is no fault of the line that wants it: nothing is written otherwise.
    for figure in told.figures.iter().filter(|figure| figure.kind == Kind::LeftAt && figure.bakes >= FEWEST) {
        let (Some(mean), Some((low, high)), Some((wanted, _))) =
            (figure.spread.mean, figure.spread.interval, figure.formula)
        else {
            continue;
        };
        let half = high.minus(low).and_then(|width| width.over(Number::whole(2)));
        let Some(span) = step_span(file, figure) else { continue };
        if let (Some(Says::Differs), Ok(half)) = (figure.says, half) {
            let message = format!(
                "the dough left `{}` of the last {} bakes at {} ± {} °C; the formula wants {} °C",
                figure.step,
                figure.bakes,
                mean.decimal(1),
                reach(half),
                wanted.decimal(1)
            );
            all.push(Diagnostic::advice("bakes-say-otherwise", span, message).help(
                "`miche sums --room TEMP --as-baked` says how warm the water must be with the friction that was measured",
            ));
        }
    }
    all
}

fn step_span(file: &FileVersion, figure: &super::Figure) -> Option<Span> {
    let (recipe, _) = file.worked(&figure.selection)?;
    let (id, at) = super::claims::find(&recipe, &figure.part, &figure.step)?;
    Some(recipe.part(id)?.steps.get(at)?.name.span)
}

/// The line in which something is missing.
fn whole_line(file: &FileVersion, at: Span) -> Span {
    let line = file.project.file(at.source).and_then(|file| file.tree.line_at(at.start).map(|line| line.said));
    line.unwrap_or(at)
}
