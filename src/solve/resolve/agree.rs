//! Whether two ways to say one amount agree.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::{Said, Value};
use crate::model::larder::Facts;
use crate::text::diagnostic::{Diagnostic, Severity};

/// How far two figures may be apart for the same amount.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// Within rounding, or 1 %.
    Fine,
    /// Up to 3 %.
    Loose,
    /// Further apart.
    Broken,
}

/// Compares two numbers of one unit. `slack` is what the rounding of their digits allows.
pub fn compare(first: Number, second: Number, slack: Number) -> Result<(Agreement, Number), Overflow> {
    let apart = first.minus(second)?.size();
    let share = if first.is_zero() { Number::ONE } else { apart.over(first.size())? };
    let agreement = if apart <= slack || share <= Number::constant(1, 100) {
        Agreement::Fine
    } else if share <= Number::constant(3, 100) {
        Agreement::Loose
    } else {
        Agreement::Broken
    };
    Ok((agreement, share))
}

/// The problem of two figures that do not agree; `None` when they do.
pub fn disagreement(
    agreement: Agreement,
    share: Number,
    first: (&Said, String),
    second: (&Said, String),
) -> Option<Diagnostic> {
    let severity = match agreement {
        Agreement::Fine => return None,
        Agreement::Loose => Severity::Warning,
        Agreement::Broken => Severity::Error,
    };
    let percent = share.times(Number::whole(100)).map_or_else(|_| "far".to_owned(), |p| format!("{} %", p.decimal(1)));
    let message = format!("the two amounts are {percent} apart: {} and {}", first.1, second.1);
    let mut problem = Diagnostic::error("two-amounts-disagree", second.0.span, message)
        .label(second.1)
        .also(first.0.span, first.1)
        .help("the first is the one computed with; correct the second, or leave it out");
    problem.severity = severity;
    Some(problem)
}

/// Checks every further member of a chain against the first, percentages left to the formula.
pub(super) fn check_chain(said: &[Said], facts: Option<&Facts>, name: Option<&str>, diagnostics: &mut Vec<Diagnostic>) {
    let Some((first, others)) = said.split_first() else { return };
    for other in others {
        let same_kind = first.value.dimension() == other.value.dimension();
        let outcome = if matches!((first.value, other.value), (Value::Proportion(_), _) | (_, Value::Proportion(_))) {
            continue;
        } else if matches!(first.value, Value::Temperature(_)) && same_kind {
            compare_temperatures(first, other)
        } else if same_kind {
            same_dimension(first, other)
        } else {
            match (weight(first, facts), weight(other, facts)) {
                (Some((mass, slack)), Some((other_mass, other_slack))) => slack
                    .plus(other_slack)
                    .and_then(|slack| compare(mass.value(), other_mass.value(), slack))
                    .map(|outcome| (outcome, show::mass_plain(mass).to_string(), weighed(other, other_mass))),
                (one, _) => {
                    diagnostics.push(not_known(if one.is_none() { first } else { other }, name));
                    continue;
                }
            }
        };
        match outcome {
            Ok(((agreement, share), first_text, other_text)) => {
                diagnostics.extend(disagreement(agreement, share, (first, first_text), (other, other_text)));
            }
            Err(Overflow) => diagnostics.push(crate::language::evaluate::too_large(other.span)),
        }
    }
}

type Outcome = Result<((Agreement, Number), String, String), Overflow>;

fn same_dimension(first: &Said, other: &Said) -> Outcome {
    let slack = first.slack.plus(other.slack)?;
    let (a, b) = (first.value.number(), other.value.number());
    Ok((compare(a, b, slack)?, show::value_plain(first.value).to_string(), in_terms_of(other)))
}

fn in_terms_of(other: &Said) -> String {
    format!("{} ({})", show::said_plain(other), show::value_plain(other.value))
}

/// Two temperatures agree within the coarser dial, or 1 %.
fn compare_temperatures(first: &Said, other: &Said) -> Outcome {
    let slack = first.slack.max(other.slack);
    let (a, b) = (first.value.number(), other.value.number());
    Ok((compare(a, b, slack)?, show::said_plain(first).to_string(), in_terms_of(other)))
}

fn weighed(said: &Said, mass: Mass) -> String {
    match said.value {
        Value::Mass(_) => show::mass_plain(mass).to_string(),
        _ => format!("{} ({} by the larder)", show::said_plain(said), show::mass_plain(mass)),
    }
}

/// The mass of something said, and its slack in grams.
fn weight(said: &Said, facts: Option<&Facts>) -> Option<(Mass, Number)> {
    let mass = weigh(said.value, facts)?.ok()?;
    let factor =
        if said.value.number().is_zero() { Number::ZERO } else { mass.value().over(said.value.number()).ok()? };
    Some((mass, said.slack.times(factor).ok()?))
}

/// What an amount of an ingredient weighs; `None` when the larder does not know.
pub fn weigh(value: Value, facts: Option<&Facts>) -> Option<Result<Mass, Overflow>> {
    match value {
        Value::Mass(mass) => Some(Ok(mass)),
        Value::Volume(volume) => Some(volume.weight(facts?.density?)),
        Value::Count(count) => Some(facts?.one_weighs?.times(count.value())),
        _ => None,
    }
}

fn not_known(said: &Said, name: Option<&str>) -> Diagnostic {
    let (what, fact) = match said.value {
        Value::Count(_) => ("what one weighs", "one weighs 50 g"),
        _ => ("its density", "weighs 245 g per cup US"),
    };
    let name = name.unwrap_or("this");
    Diagnostic::warning(
        "no-weight",
        said.span,
        format!("the two amounts of {name} cannot be compared: {what} is not known"),
    )
    .help(format!("in a larder file, write `ingredient {name}` and below it `{fact}` with a source"))
}
