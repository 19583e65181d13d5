//! Aims as they are understood: which figure, in which unit, counted on what.

use super::outline::Outline;
use super::reading::Reading;
use crate::language::evaluate::too_large;
use crate::language::syntax::{AimAmount, AimBound, AimLine, AimOf, Content, Key, Name, WrittenNumber};
use crate::measure::number::{Number, Overflow};
use crate::measure::unit::Dimension;
use crate::measure::value::Value;
use crate::model::aim::{Aim, AimUnit, Figure};
use crate::model::recipe::{Recipe, Selection};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Aims of one recipe beyond this are not looked at.
const MOST_AIMS: usize = 100;

/// The aims of the head.
pub(super) fn of_head(outline: &Outline<'_>, selection: &Selection, reading: &mut Reading) -> Vec<Aim> {
    let mut aims = Vec::new();
    for line in outline.head.iter().filter(|line| selection.holds(&line.only)) {
        if let Content::Aim(aim) = &line.content {
            aims.extend(read(aim, line.said, reading));
        }
    }
    aims
}

/// Understands an aim; `None` when it was reported.
pub(super) fn read(aim: &AimLine, span: Span, reading: &mut Reading) -> Option<Aim> {
    let figure = Figure::of(&aim.figure);
    let written = match &aim.amount {
        AimAmount::Measured(quantity) => {
            let said = reading.said(quantity)?;
            of_value(said.value, said.upper, said.slack).map(|ends| (ends, quantity.span))
        }
        AimAmount::Energy(low, high, kilojoules) => {
            let unit = if *kilojoules { AimUnit::Kilojoules } else { AimUnit::Kilocalories };
            Ok((Some((unit, bare(low, high.as_ref()))), ends_span(low, high.as_ref())))
        }
        AimAmount::Plain(low, high, money) => {
            let unit = AimUnit::Money(money.as_ref().map(|money| money.text.to_string()));
            Ok((Some((unit, bare(low, high.as_ref()))), ends_span(low, high.as_ref())))
        }
    };
    let Ok((found, amount_span)) = written else {
        reading.report(too_large(aim.figure.span));
        return None;
    };
    let of = aim.of.map(|of| of.value);
    let Some((unit, (value, upper, slack))) = found.filter(|(unit, _)| fits(&figure, unit, of)) else {
        reading.report(
            Diagnostic::error("wrong-kind", amount_span, format!("`{}` is not aimed at like this", aim.figure))
                .label(format!("of `{}`", aim.figure))
                .help(format!("write {}", how(&figure))),
        );
        return None;
    };
    if unit == AimUnit::Percent && matches!(of, Some(AimOf::Total)) && aim.bound != AimBound::AtMost {
        let all = Number::whole(100);
        if value > all {
            reading.report(
                Diagnostic::error(
                    "impossible-number",
                    amount_span,
                    format!("`{}` cannot be more than all of it", aim.figure),
                )
                .help("a share of the total is from 0 % to 100 %"),
            );
            return None;
        }
    }
    let (low, high, slack) = match (aim.bound, upper) {
        (AimBound::AtLeast, _) => (Some(value), None, Number::ZERO),
        (AimBound::AtMost, _) => (None, Some(value), Number::ZERO),
        (AimBound::Is, Some(upper)) => (Some(value), Some(upper), Number::ZERO),
        // `2 kg` claims no rounding, and no scale shows it.
        (AimBound::Is, None) => {
            let half_a_percent = value.times(Number::constant(1, 200)).unwrap_or(Number::ZERO);
            (Some(value), Some(value), if slack.is_zero() { half_a_percent } else { slack })
        }
    };
    Some(Aim { figure, low, high, slack, unit, of, amount_span, name_span: aim.figure.span, span })
}

/// A value, the other end of its range, and how far its digits leave it open.
type Ends = (Number, Option<Number>, Number);

/// A quantity in the unit of its aim; `None` for kinds that no figure has.
fn of_value(value: Value, upper: Option<Value>, slack: Number) -> Result<Option<(AimUnit, Ends)>, Overflow> {
    let (unit, factor) = match value.dimension() {
        Dimension::Proportion => (AimUnit::Percent, Number::whole(100)),
        Dimension::Mass => (AimUnit::Grams, Number::ONE),
        Dimension::Time => (AimUnit::Minutes, Number::constant(1, 60)),
        _ => return Ok(None),
    };
    let upper = upper.map(|upper| upper.number().times(factor)).transpose()?;
    Ok(Some((unit, (value.number().times(factor)?, upper, slack.times(factor)?))))
}

fn bare(low: &WrittenNumber, high: Option<&WrittenNumber>) -> Ends {
    (low.value, high.map(|high| high.value), low.slack())
}

fn ends_span(low: &WrittenNumber, high: Option<&WrittenNumber>) -> Span {
    high.map_or(low.span, |high| low.span.to(high.span))
}

/// Whether a figure is given in such a unit and counted so.
fn fits(figure: &Figure, unit: &AimUnit, of: Option<AimOf>) -> bool {
    let on_something = matches!(of, Some(AimOf::Flour | AimOf::Total | AimOf::Water));
    match (figure, unit) {
        (Figure::Hydration | Figure::Prefermented, AimUnit::Percent) => matches!(of, None | Some(AimOf::Flour)),
        (Figure::Energy, AimUnit::Kilocalories | AimUnit::Kilojoules) | (Figure::Cost, AimUnit::Money(_)) => {
            !on_something
        }
        (Figure::Weight | Figure::BakedWeight, AimUnit::Grams) => matches!(of, None | Some(AimOf::Each)),
        (Figure::Time | Figure::Hands, AimUnit::Minutes) => {
            of.is_none() || (*figure == Figure::Hands && of == Some(AimOf::Each))
        }
        (
            Figure::Hydration
            | Figure::Prefermented
            | Figure::Energy
            | Figure::Cost
            | Figure::Weight
            | Figure::BakedWeight
            | Figure::Time
            | Figure::Hands,
            _,
        ) => false,
        (_, AimUnit::Percent) => of.is_none() || on_something,
        (_, AimUnit::Grams) => !on_something,
        _ => false,
    }
}

/// How such an aim is written.
fn how(figure: &Figure) -> String {
    let word = figure.word();
    match figure {
        Figure::Hydration => "`aim hydration 66-68 %`: it is always water on flour".to_owned(),
        Figure::Prefermented => "`aim prefermented 30 %`: it is always a share of the flour".to_owned(),
        Figure::Energy => "`aim energy at most 320 kcal per 100 g`, `… each`, or in kJ".to_owned(),
        Figure::Cost => {
            "`aim cost at most 0.45 each`, `… per 100 g`, or nothing behind the money for the whole batch".to_owned()
        }
        Figure::Weight | Figure::BakedWeight => {
            format!("a weight: `aim {word} at least 60 g each`, or without `each` for all of it")
        }
        Figure::Time | Figure::Hands => format!("a time: `aim {word} at most 5 h`"),
        _ => format!(
            "a share, `aim {word} 12 % of total` (or `of flour`, `of water`), or a weight, `aim {word} at most 5 g each` (or `per 100 g`)"
        ),
    }
}

/// Looks for ingredients that nobody knows and for more aims than anybody has. An ingredient that only another choice takes is known.
pub(super) fn bind(recipe: &Recipe, reading: &mut Reading) {
    let own = recipe.own_parts().flat_map(|(_, part)| &part.aims);
    let aims: Vec<&Aim> = recipe.aims.iter().chain(own).collect();
    if let Some(first) = aims.get(MOST_AIMS) {
        reading.report(
            Diagnostic::error(
                "too-much",
                first.span,
                format!("this aim is one more than the {MOST_AIMS} that a recipe can have"),
            )
            .help("aim at what matters"),
        );
    }
    for aim in aims.iter().take(MOST_AIMS) {
        let Figure::Ingredient(name) = &aim.figure else { continue };
        if is_known(recipe, name) {
            continue;
        }
        let lines = recipe.parts.iter().flat_map(|part| &part.lines);
        let message = format!("`{name}` is no figure, and nothing of that name is in the recipe");
        let known: Vec<Key> = lines.map(|line| line.name.key.clone()).collect();
        let names = Figure::words().map(|word| -> &str { word }).chain(known.iter().map(Key::as_str));
        let problem = Diagnostic::error("unknown-name", name.span, message).help(format!(
            "aim at an ingredient, or at one of these: {}",
            Figure::words().collect::<Vec<_>>().join(", ")
        ));
        reading.unknown(problem, name, names);
    }
}

/// Whether a name that is no figure is a part, an ingredient of any part, or in the larder.
pub(crate) fn is_known(recipe: &Recipe, name: &Name) -> bool {
    let mut lines = recipe.parts.iter().flat_map(|part| &part.lines);
    recipe.find(name).is_some()
        || recipe.larder.has_just(&name.key)
        || lines.any(|line| recipe.larder.is_called(&line.name.key, &name.key))
}
