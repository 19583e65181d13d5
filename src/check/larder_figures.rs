//! Figures of a kitchen and its larder that cannot be, or that no kitchen has: what is told under the names of other checks.

use super::{odd_amount, odd_time};
use crate::language::evaluate::{evaluate, times};
use crate::language::syntax::{Content, EquipmentClause, FactKind, FileKind, Line, Quantity, Tree};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::measure::unit::{Dimension, Unit};
use crate::measure::value::Value;
use crate::model::kitchen::MOST_FRICTION;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// By so much of the whole two figures of a pack may be apart by their rounding alone: 0.1 g in 100.
const ROUNDED: Proportion = Proportion::new(Number::constant(1, 1000));
/// A hundredth may be rounded up in each of the figures.
const ALL: Proportion = Proportion::new(Number::constant(103, 100));
/// Pure fat has 9 kcal a gram by the general factors (Regulation (EU) 1169/2011, Annex XIV), by its own 9.02.
const MOST_ENERGY: Number = Number::whole(910);
/// Nothing that works or bakes holds less. Common practice, no source.
const LEAST_HELD: Mass = Mass::new(Number::whole(100));

/// Nobody bakes bread beside meringue: two temperatures that one oven may have for both, °C. Common practice, no source.
const MOST_APART: Number = Number::whole(40);
/// A large oven of brick is fired for a night at most. Common practice, no source.
const LONGEST_HEATING: Duration = Duration::new(Number::whole(14 * 3600));

/// What is wrong with the figures of a file; a temperature is told under the given name.
pub(super) fn problems(tree: &Tree, temperature: &'static str, diagnostics: &mut Vec<Diagnostic>) {
    if tree.kind != FileKind::Kitchen {
        return;
    }
    let begins = |line: &Line| matches!(line.content, Content::IngredientBlock(_) | Content::Equipment { .. });
    for block in tree.lines.chunk_by(|_, next| !begins(next)) {
        match block.first().map(|line| &line.content) {
            Some(Content::IngredientBlock(_)) => ingredient(block, diagnostics),
            Some(Content::Equipment { clauses, .. }) => {
                diagnostics.extend(clauses.iter().filter_map(|clause| equipment(&clause.value, temperature)));
            }
            _ => {}
        }
    }
}

/// Moneys of which a hundred are much for a kilogram.
const MONEYS: &[&str] = &["EUR", "USD", "GBP", "CHF", "CAD", "AUD", "NZD"];

fn ingredient(block: &[Line], diagnostics: &mut Vec<Diagnostic>) {
    let facts: Vec<(FactKind, Proportion, Span)> = block
        .iter()
        .filter_map(|line| match &line.content {
            Content::Fact(kind, quantity) => {
                Some((*kind, evaluate(quantity, None, &mut Vec::new())?.proportion()?, line.said))
            }
            _ => None,
        })
        .collect();
    let of = |wanted: FactKind| facts.iter().find(|(kind, ..)| *kind == wanted);
    for (part, name, whole, of_what) in [
        (FactKind::Saturates, "saturates", FactKind::Fat, "fat"),
        (FactKind::TransFat, "trans fat", FactKind::Fat, "fat"),
        (FactKind::Sugar, "sugar", FactKind::Carbohydrate, "carbohydrate"),
        (FactKind::AddedSugar, "added sugar", FactKind::Sugar, "sugar"),
        (FactKind::Polyols, "polyols", FactKind::Carbohydrate, "carbohydrate"),
    ] {
        if let (Some((_, less, span)), Some((_, more, also))) = (of(part), of(whole))
            && more.plus(ROUNDED).is_ok_and(|most| *less > most)
        {
            let message = format!(
                "{name} is part of the {of_what}, and {} of {} cannot be",
                show::percent(*less),
                show::percent(*more)
            );
            diagnostics.push(impossible(*span, message).also(*also, format!("the {of_what}")));
        }
    }
    // Fibre may stand within the carbohydrate or beside it.
    let carbohydrate = of(FactKind::Carbohydrate).or_else(|| of(FactKind::Sugar));
    let all = [
        of(FactKind::Water),
        of(FactKind::Fat),
        of(FactKind::Protein),
        carbohydrate,
        of(FactKind::Salt),
        of(FactKind::Alcohol),
    ];
    let parts: Vec<&(FactKind, Proportion, Span)> = all.into_iter().flatten().collect();
    let sum = parts.iter().try_fold(Number::ZERO, |sum, (_, share, _)| sum.plus(share.value()));
    if let (Ok(sum), Some((_, _, last))) = (sum, parts.last())
        && parts.len() > 1
        && sum > ALL.value()
    {
        let message = format!("what is in it comes to {} of it", show::percent(Proportion::new(sum)));
        let problem = impossible(*last, message);
        let others = parts.iter().rev().skip(1);
        diagnostics.push(
            others.fold(problem, |problem, (_, share, span)| problem.also(*span, show::percent(*share).to_string())),
        );
    }
    for line in block {
        match &line.content {
            Content::Energy(number) if number.value > MOST_ENERGY => {
                let message = format!("{} kcal in 100 g cannot be: pure fat has 900", number.value.decimal(0));
                diagnostics.push(impossible(number.span, message));
            }
            Content::Costs { price, currency: Some(money), number, unit: Some(unit), .. }
                if unit.value.dimension() == Dimension::Mass =>
            {
                let count = number.map_or(Number::ONE, |number| number.value);
                // Flour by the gram is a slip; vanilla and saffron are bought so, and 25 g of dried raspberries are a pack.
                let small =
                    unit.value == Unit::Gram && count < Number::whole(50) && MONEYS.contains(&money.text.as_ref());
                let per_kilo = unit
                    .value
                    .size(None)
                    .and_then(|size| price.value.times(Number::whole(1000)).ok()?.over(size.times(count).ok()?).ok());
                if small && per_kilo.is_some_and(|price| price > Number::whole(250)) && !is_dear(block) {
                    let per_kilo = per_kilo.map_or_else(String::new, |price| price.decimal(0));
                    let message = format!("so dear, a kilogram of it costs {per_kilo}");
                    diagnostics.push(
                        Diagnostic::advice(odd_amount::CHECK.name, price.span, message)
                            .help("look whether the unit is right, g or kg"),
                    );
                }
            }
            _ => {}
        }
    }
}

/// What is bought by the gram: saffron, vanilla, truffle, leaf of gold, and spices and gelling agents at large.
fn is_dear(block: &[Line]) -> bool {
    const DEAR: &[&str] = &[
        "saffron",
        "vanilla",
        "truffle",
        "gold",
        "silver",
        "caviar",
        "cardamom",
        "spice",
        "agar",
        "yeast",
        "colour",
        "essence",
        "culture",
        "enzyme",
        "flower",
        "leaven",
        "matcha",
        "pectin",
        "petal",
        "rennet",
        "tea",
        "thickener",
        "tonka",
    ];
    block.iter().any(|line| match &line.content {
        Content::IngredientBlock(name) | Content::Is(name) => DEAR.iter().any(|dear| name.key.as_str().contains(dear)),
        _ => false,
    })
}

fn impossible(span: Span, message: String) -> Diagnostic {
    Diagnostic::error("impossible-number", span, message)
        .help("look whether a digit or a point has slipped, and whether two lines are swapped")
}

fn equipment(clause: &EquipmentClause, temperature: &'static str) -> Option<Diagnostic> {
    match clause {
        EquipmentClause::Holds(quantity) => match evaluate(quantity, None, &mut Vec::new())?.value {
            Value::Mass(mass) if mass > Mass::ZERO && mass < LEAST_HELD => {
                let message = format!(
                    "it holds no more than {}: nothing that works or bakes is so small",
                    show::mass_plain(mass)
                );
                Some(
                    Diagnostic::advice(odd_amount::CHECK.name, quantity.span, message)
                        .help("look whether the unit is right, g or kg"),
                )
            }
            _ => None,
        },
        EquipmentClause::Friction(quantity) => {
            too_many_degrees(quantity, MOST_FRICTION, "mixers warm a dough by", temperature)
        }
        EquipmentClause::Agrees(quantity) => {
            too_many_degrees(quantity, MOST_APART, "what bakes together in one oven bakes within", temperature)
        }
        EquipmentClause::Heating(quantity) => {
            let (_, longest) = times(quantity)?;
            if longest <= LONGEST_HEATING {
                return None;
            }
            let message = format!(
                "it takes {} to get hot: a cold masonry oven takes {} at most",
                show::duration(longest),
                show::duration(LONGEST_HEATING)
            );
            Some(
                Diagnostic::advice(odd_time::CHECK.name, quantity.span, message)
                    .help("look whether the unit is right, min or h"),
            )
        }
        EquipmentClause::Broken => None,
    }
}

/// A difference of temperatures that is more than so many degrees Celsius.
fn too_many_degrees(quantity: &Quantity, most: Number, what: &str, check: &'static str) -> Option<Diagnostic> {
    let [term] = quantity.terms.as_slice() else { return None };
    let fahrenheit = term.unit.is_some_and(|unit| unit.value == Unit::Fahrenheit);
    let most = if fahrenheit { most.times(Number::constant(9, 5)).ok()? } else { most };
    if term.number.value <= most {
        return None;
    }
    let scale = if fahrenheit { "F" } else { "C" };
    let message = format!("{what} {} {scale} at most", most.decimal(0));
    Some(Diagnostic::advice(check, quantity.span, message).help("look whether a digit has slipped"))
}
