//! Pairs to nodes: an aim.

use super::Rule;
use super::numbers::{self, number};
use super::pairs::Pair;
use super::reader::Reader;
use crate::language::syntax::{AimAmount, AimBound, AimLine, AimOf, Content, WrittenNumber};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Spanned;

/// Reads an aim; `None` when a figure in it was reported.
pub(super) fn read<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let figure = reader.name(&pairs.next()?);
    let (mut bound, mut amount, mut of) = (AimBound::Is, None, None);
    for pair in pairs.next()?.into_inner() {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::aim_least => bound = AimBound::AtLeast,
            Rule::aim_most => bound = AimBound::AtMost,
            Rule::aim_each => of = Some(Spanned::new(AimOf::Each, span)),
            Rule::aim_per_100 => of = Some(Spanned::new(AimOf::Per100g, span)),
            Rule::aim_of => {
                let word = pair.as_str().split_whitespace().last().unwrap_or("").to_ascii_lowercase();
                let base = match word.as_str() {
                    "flour" => AimOf::Flour,
                    "water" => AimOf::Water,
                    _ => AimOf::Total,
                };
                of = Some(Spanned::new(base, span));
            }
            Rule::aim_measured => {
                amount = Some(AimAmount::Measured(numbers::quantity(reader, pair.into_inner().next()?)?));
            }
            _ => amount = Some(plain(reader, pair)?),
        }
    }
    let amount = amount?;
    let is_range = match &amount {
        AimAmount::Measured(quantity) => quantity.upper.is_some(),
        AimAmount::Energy(_, high, _) | AimAmount::Plain(_, high, _) => high.is_some(),
    };
    if is_range && bound != AimBound::Is {
        let problem =
            Diagnostic::error("wrong-kind", figure.span, format!("`{figure}` has a bound and a range as well"));
        reader.report(problem.help("write the range alone, or one number behind `at least` or `at most`"));
        return None;
    }
    Some(Content::Aim(Box::new(AimLine { figure, bound, amount, of })))
}

/// An energy, or a bare number.
fn plain(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<AimAmount> {
    let (rule, span) = (pair.as_rule(), reader.span(&pair));
    let (mut ends, mut money, mut kilojoules) = (Vec::new(), None, false);
    for inner in pair.into_inner() {
        match inner.as_rule() {
            Rule::energy_unit => kilojoules = inner.as_str().eq_ignore_ascii_case("kj"),
            Rule::aim_currency => money = Some(reader.name(&inner)),
            _ => ends.push(number(reader, inner)?),
        }
    }
    let mut ends = ends.into_iter();
    let (low, high): (WrittenNumber, Option<WrittenNumber>) = (ends.next()?, ends.next());
    let trouble = match high {
        _ if low.value.is_negative() => Some("it is less than nothing"),
        Some(high) if high.value < low.value => Some("its first end is more than its second"),
        _ => None,
    };
    if let Some(why) = trouble {
        let written = reader.slice(span);
        let problem = Diagnostic::error("impossible-number", span, format!("`{written}` cannot be aimed at: {why}"));
        reader.report(problem.help("write one number, or the smaller end of the range first"));
        return None;
    }
    Some(match rule {
        Rule::aim_energy => AimAmount::Energy(low, high, kilojoules),
        _ => AimAmount::Plain(low, high, money),
    })
}
