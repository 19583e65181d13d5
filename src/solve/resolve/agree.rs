//! Whether two ways to say one amount agree.

mod by_the_cup;

use crate::measure::apart::{LOOSE, ROUNDED};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::show;
use crate::measure::sizes;
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};
use crate::model::larder::Facts;
use crate::text::diagnostic::{Diagnostic, Severity};

/// How far two figures may be apart for the same amount.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// Within rounding, or 1 % beyond it.
    Fine,
    /// Up to 3 % beyond it.
    Loose,
    /// Further apart.
    Broken,
}

impl Agreement {
    /// The same, where one of the figures is an average of the larder's: what lies in the bowl may be another, 3 % off and more.
    pub fn by_average(self) -> Agreement {
        if self == Agreement::Broken { Agreement::Loose } else { Agreement::Fine }
    }
}

/// How far two amounts are apart, as a baker would say it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Apart {
    /// A share of the first.
    Share(Number),
    /// Degrees Celsius. A share of a temperature says nothing: its zero is none.
    Degrees(Number),
}

impl std::fmt::Display for Apart {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Apart::Share(share) => match share.times(Number::whole(100)) {
                Ok(percent) => write!(f, "{} %", percent.decimal(1)),
                Err(Overflow) => f.write_str("far"),
            },
            Apart::Degrees(degrees) => write!(f, "{} °C", degrees.decimal(1)),
        }
    }
}

/// Compares two numbers of one unit. `slack` is what the rounding of their digits allows: only what lies beyond it counts.
/// What comes back is the whole distance.
pub fn compare(first: Number, second: Number, slack: Number) -> Result<(Agreement, Apart), Overflow> {
    let apart = first.minus(second)?.size();
    let of_first = |distance: Number| if first.is_zero() { Ok(Number::ONE) } else { distance.over(first.size()) };
    let beyond = of_first(apart.minus(slack)?)?;
    let agreement = if apart <= slack || beyond <= ROUNDED {
        Agreement::Fine
    } else if beyond <= LOOSE {
        Agreement::Loose
    } else {
        Agreement::Broken
    };
    Ok((agreement, Apart::Share(of_first(apart)?)))
}

/// What a metric figure leaves open that was written for a round one in ounces, cups or inches, as cookbooks do: 30 g = 1 oz,
/// 240 ml = 1 cup, 2 cm = 3/4 in, 1.5 cm = 1/2 in. Nothing where the other has decimals, for then somebody converted with care.
fn rounded_for_the_kitchen(metric: &Said, other: &Said) -> Number {
    let customary = other.unit.is_some_and(Unit::is_customary);
    let number = metric.value.number();
    let goes_by = |step: i64| number.over(Number::whole(step)).is_ok_and(Number::is_whole);
    // Half centimetres are written with a point, and are rounded all the same.
    // So are quarters, of which 1.25 cm stand for half an inch.
    let is_quarter = || number.times(Number::constant(2, 5)).is_ok_and(Number::is_whole);
    let halves = metric.unit == Some(Unit::Centimetre) && (goes_by(5) || is_quarter());
    if !customary || !other.slack.is_zero() || !(metric.whole || halves) {
        return Number::ZERO;
    }
    let half = |step: i64| Number::whole(step).over(Number::whole(2)).unwrap_or(Number::ZERO);
    match metric.unit {
        Some(Unit::Gram | Unit::Millilitre) if number >= Number::whole(500) && goes_by(50) => half(25),
        Some(Unit::Gram | Unit::Millilitre) if number >= Number::whole(50) && goes_by(10) => half(10),
        Some(Unit::Gram | Unit::Millilitre | Unit::Millimetre) if goes_by(5) => half(5),
        // Lengths are counted in millimetres. Small ones are rounded to the millimetre; tins to the next even centimetre, 12 cm and 5 in,
        // 22 cm and 9 in.
        Some(Unit::Millimetre) if number < Number::whole(5) => half(1),
        Some(Unit::Millimetre) if number <= Number::whole(30) => half(2),
        Some(Unit::Centimetre) if metric.whole && number >= Number::whole(180) => half(18),
        Some(Unit::Centimetre) if metric.whole && number >= Number::whole(100) => half(14),
        Some(Unit::Centimetre) if !metric.whole => half(5),
        Some(Unit::Centimetre) => half(10),
        _ => Number::ZERO,
    }
}

/// What the rounding of two figures leaves open together, in the unit of their dimension.
fn both_slacks(first: &Said, other: &Said) -> Result<Number, Overflow> {
    let own = |said: &Said, beside: &Said| said.slack.max(rounded_for_the_kitchen(said, beside));
    own(first, other).plus(own(other, first))
}

/// The rounding of British cookbooks: grams, and the ounces beside them, in quarters. From memory, of the conversion tables that stand in
/// their first pages; no rule of rounding gives them.
const POUNDS: &[(i64, i64)] = &[
    (15, 2),
    (20, 3),
    (25, 4),
    (40, 6),
    (50, 8),
    (60, 10),
    (75, 12),
    (75, 10),
    (100, 16),
    (100, 14),
    (110, 16),
    (125, 18),
    (125, 16),
    (150, 20),
    (175, 24),
    (200, 28),
    (225, 32),
    (250, 36),
    (275, 40),
    (300, 44),
    (350, 48),
    (375, 52),
    (400, 56),
    (425, 60),
    (450, 64),
    (500, 72),
    (700, 96),
    (900, 128),
    (1000, 144),
    (1350, 192),
    (1800, 256),
];
/// The same of millilitres, and quarters of an imperial fluid ounce, of which twenty are a pint.
const PINTS: &[(i64, i64)] = &[
    (25, 4),
    (30, 4),
    (50, 8),
    (60, 8),
    (75, 10),
    (75, 12),
    (85, 12),
    (100, 14),
    (100, 16),
    (120, 16),
    (125, 16),
    (150, 20),
    (175, 24),
    (200, 28),
    (225, 32),
    (250, 36),
    (275, 40),
    (300, 40),
    (350, 48),
    (400, 56),
    (425, 60),
    (450, 60),
    (450, 64),
    (500, 72),
    (600, 80),
    (700, 100),
    (725, 100),
    (850, 120),
    (900, 120),
    (1000, 140),
    (1200, 160),
    (1500, 200),
    (1700, 240),
    (1750, 240),
];

/// Ovens and cores in °C and °F as they stand side by side in cookbooks, beyond what half a mark leaves open: 170 C and 325 F (163 °C).
/// Common practice, no source.
const DEGREES: &[(i64, i64)] = &[(170, 325), (210, 425), (250, 500), (130, 250), (75, 165)];

/// Whether two temperatures are such a pair.
fn are_degrees_of_cookbooks(one: &Said, other: &Said) -> bool {
    let pair = |one: &Said, other: &Said| {
        let (Value::Temperature(celsius), Value::Temperature(fahrenheit)) = (one.value, other.value) else {
            return false;
        };
        DEGREES.iter().any(|(c, f)| {
            celsius.celsius() == Number::whole(*c) && fahrenheit.fahrenheit().is_ok_and(|at| at == Number::whole(*f))
        })
    };
    pair(one, other) || pair(other, one)
}

/// Whether millilitres are written for cups or quarts by the cup of 250 ml, in a file whose cups are smaller.
fn is_by_the_metric_cup(metric: &Said, other: &Said) -> bool {
    let (Value::Volume(_), Value::Volume(_), Some(size)) = (metric.value, other.value, other.size) else {
        return false;
    };
    let is_metric = metric.unit.is_some_and(|unit| [Unit::Millilitre, Unit::Litre].contains(&unit));
    let cup = match other.unit {
        Some(Unit::Cup) => Number::whole(250),
        Some(Unit::Pint) => Number::whole(500),
        Some(Unit::Quart) => Number::whole(1000),
        _ => return false,
    };
    let by_metric = other.value.number().over(size).and_then(|cups| cups.times(cup));
    is_metric && by_metric.is_ok_and(|by_metric| by_metric == metric.value.number())
}

/// Whether two amounts stand side by side in the tables of cookbooks: 25 g and 1 oz, 300 ml and half a pint.
fn is_in_cookbooks(one: &Said, other: &Said) -> bool {
    let quarters_of = |said: &Said, ounce: Number| said.value.number().times(Number::whole(4)).ok()?.over(ounce).ok();
    let stands_in = |metric: &Said, other: &Said| {
        let (table, ounce, metric_units) = match (metric.value, other.value) {
            (Value::Mass(_), Value::Mass(_)) => (POUNDS, sizes::OUNCE, [Unit::Gram, Unit::Kilogram]),
            (Value::Volume(_), Value::Volume(_)) => {
                (PINTS, sizes::IMPERIAL_FLUID_OUNCE, [Unit::Millilitre, Unit::Litre])
            }
            _ => return false,
        };
        let quarters = quarters_of(other, ounce);
        let is_metric = metric.unit.is_some_and(|unit| metric_units.contains(&unit));
        is_metric
            && table.iter().any(|(grams, ounces)| {
                metric.value.number() == Number::whole(*grams) && quarters == Some(Number::whole(*ounces))
            })
    };
    stands_in(one, other) || stands_in(other, one)
}

/// The problem of two figures that do not agree; `None` when they do. `texts` tells both.
pub fn disagreement(
    (agreement, apart): (Agreement, Apart),
    (first, second): (&Said, &Said),
    texts: impl FnOnce() -> (String, String),
) -> Option<Diagnostic> {
    let severity = match agreement {
        Agreement::Fine => return None,
        Agreement::Loose => Severity::Warning,
        Agreement::Broken => Severity::Error,
    };
    let (first_text, second_text) = texts();
    let message = format!("the two amounts are {apart} apart: {first_text} and {second_text}");
    let mut problem = Diagnostic::error("two-amounts-disagree", second.span, message)
        .label(second_text)
        .also(first.span, first_text)
        .help(match (first.value, second.value) {
            (Value::Volume(_) | Value::Count(_), Value::Mass(_)) => {
                "the weight is the one computed with; correct either, or leave one out"
            }
            _ if are_swapped(first, second) => {
                "with their two units changed over they agree; the first is the one computed with"
            }
            _ => "the first is the one computed with; correct the second, or leave it out",
        });
    problem.severity = severity;
    Some(problem)
}

/// Whether two temperatures agree within four degrees once their units are changed over: `450 C = 230 F`.
fn are_swapped(first: &Said, second: &Said) -> bool {
    let in_other = |said: &Said| {
        let Value::Temperature(at) = said.value else { return None };
        let celsius = at.celsius();
        let (five, nine, offset) = (Number::whole(5), Number::whole(9), Number::whole(32));
        match said.unit? {
            Unit::Celsius => celsius.minus(offset).ok()?.times(five).ok()?.over(nine).ok(),
            Unit::Fahrenheit => celsius.times(nine).ok()?.over(five).ok()?.plus(offset).ok(),
            _ => None,
        }
    };
    let apart = in_other(first).zip(in_other(second)).and_then(|(one, other)| one.minus(other).ok());
    apart.is_some_and(|apart| (Number::whole(-4)..=Number::whole(4)).contains(&apart) && first.unit != second.unit)
}

/// Checks every further member of a chain against the first, percentages left to the formula.
pub(super) fn check_chain(said: &[Said], facts: Option<&Facts>, name: Option<&str>) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    let Some((first, others)) = said.split_first() else { return problems };
    for other in others {
        let same_kind = first.value.dimension() == other.value.dimension();
        if matches!((first.value, other.value), (Value::Proportion(_), _) | (_, Value::Proportion(_))) {
            continue;
        }
        if is_in_cookbooks(first, other) || are_degrees_of_cookbooks(first, other) {
            continue;
        }
        let are_degrees = matches!(first.value, Value::Temperature(_)) && same_kind;
        let weights = if same_kind { None } else { weight(first, facts).zip(weight(other, facts)) };
        if !same_kind && weights.is_none() {
            problems.push(not_known(if weight(first, facts).is_none() { first } else { other }, name));
            continue;
        }
        let outcome = match weights {
            Some((one, two)) => through_larder((first, one.0, one.1), (other, two.0, two.1), facts),
            None if are_degrees => compare_temperatures(first, other),
            None => {
                both_slacks(first, other).and_then(|slack| compare(first.value.number(), other.value.number(), slack))
            }
        };
        let texts = || match weights {
            Some((one, two)) => (show::mass_plain(one.0).to_string(), weighed(other, two.0)),
            None if are_degrees => (show::said_plain(first).to_string(), in_terms_of(other)),
            None => (show::value_plain(first.value).to_string(), in_terms_of(other)),
        };
        match outcome {
            Ok(outcome) => problems.extend(disagreement(outcome, (first, other), texts).map(|problem| {
                let (meant, instead) = (as_other_kind(first, other, facts), as_other_kind(other, first, facts));
                let by_metric = is_by_the_metric_cup(first, other) || is_by_the_metric_cup(other, first);
                let problem = match by_metric {
                    true => problem
                        .help("with `measures metric` in its head the file has cups of 250 ml, and the two agree"),
                    false => problem,
                };
                corrected(problem, (other, meant), (first, instead))
            })),
            Err(Overflow) => problems.push(crate::language::evaluate::too_large(other.span)),
        }
    }
    problems
}

/// The first of two amounts as what the other measures; `None` where the larder cannot turn one into the other.
fn as_other_kind(first: &Said, other: &Said, facts: Option<&Facts>) -> Option<Value> {
    if first.value.dimension() == other.value.dimension() {
        return Some(first.value);
    }
    let mass = weigh(first.value, facts)?.ok()?;
    match other.value {
        Value::Mass(_) => Some(Value::Mass(mass)),
        Value::Volume(_) => facts?.density?.volume(mass).ok().map(Value::Volume),
        Value::Count(_) => mass.ratio(facts?.one_weighs?).ok().map(|count| Value::Count(Count::new(count))),
        _ => None,
    }
}

/// The problem with two mends: the second amount written so that it says what the first does, and the other way round. Which of the two is
/// right only a person knows.
pub fn corrected(
    problem: Diagnostic,
    (other, meant): (&Said, Option<Value>),
    (first, instead): (&Said, Option<Value>),
) -> Diagnostic {
    let problem = match meant.and_then(|meant| in_the_unit_of(other, meant)) {
        Some(text) => problem.suggest(format!("write `{text}`, which is the first"), other.span, text),
        None => problem,
    };
    match instead.and_then(|instead| in_the_unit_of(first, instead)) {
        Some(text) => problem.or_suggest(format!("write `{text}`, which is the second"), first.span, text),
        None => problem,
    }
}

/// An amount in the unit that another was said in, with as many digits as bring it within half a hundredth; `None` for a range.
fn in_the_unit_of(other: &Said, amount: Value) -> Option<String> {
    if other.upper.is_some() {
        return None;
    }
    let (number, word) = match (amount, other.unit) {
        (Value::Temperature(at), Some(Unit::Fahrenheit)) => (at.fahrenheit().ok()?, "F"),
        (Value::Temperature(at), _) => (at.celsius(), "C"),
        (Value::Proportion(share), _) => (share.percent().ok()?, "%"),
        (amount, Some(unit)) => {
            let size = other.size.or_else(|| unit.size(None))?;
            (amount.number().over(size).ok()?, unit.word(true))
        }
        (amount, None) => (amount.number(), ""),
    };
    let close = |places: &u32| {
        let step = Number::fraction(1, 10_i128.pow(*places)).unwrap_or(Number::ONE);
        let off = number.rounded_to(step).and_then(|rounded| rounded.minus(number)?.size().times(Number::whole(200)));
        off.is_ok_and(|off| off <= number.size())
    };
    let places = (0..4).find(close)?;
    Some(format!("{} {word}", number.decimal(places)).trim_end().to_owned())
}

/// How much more or less than the larder says so many eggs weigh: 46 to 64 g of its 50.
const EGGS: Number = Number::constant(22, 100);

/// Two amounts of which one is a weight and the other becomes one through the larder.
fn through_larder(
    (first, mass, slack): (&Said, Mass, Number),
    (other, other_mass, other_slack): (&Said, Mass, Number),
    facts: Option<&Facts>,
) -> Result<(Agreement, Apart), Overflow> {
    let own = |said: &Said, beside: &Said, slack: Number| match said.value {
        Value::Mass(_) => slack.max(rounded_for_the_kitchen(said, beside)),
        _ => slack,
    };
    let mut slack = own(first, other, slack).plus(own(other, first, other_slack))?;
    let poured = if matches!(first.value, Value::Mass(_)) { other_mass } else { mass };
    slack = slack.plus(poured.value().times(by_the_cup::apart(facts))?)?;
    let counted = matches!((&first.value, &other.value), (Value::Count(_), _) | (_, Value::Count(_)));
    // Shelled eggs of the sizes M to L weigh 46 to 64 g (53 to 73 g in the shell: Regulation (EU) 2023/2465, of which the shell is an eighth,
    // common practice), each carton another.
    if counted && facts.is_some_and(|facts| facts.flags.raw_egg) {
        slack = slack.plus(mass.value().max(other_mass.value()).times(EGGS)?)?;
    }
    // What grows is half as large or twice: 2 leeks are 180 g or 350 g, and who wrote both weighed theirs. Eggs are sorted by weight.
    // Common practice, no source.
    if counted && facts.is_some_and(|facts| !facts.flags.raw_egg) {
        slack = slack.max(mass.value().min(other_mass.value()));
    }
    // What lies beyond the digits and the hundredth that every pair has is held against the larder's average.
    slack = slack.plus(mass.value().times(Number::constant(1, 100))?)?;
    let (agreement, apart) = compare(mass.value(), other_mass.value(), slack)?;
    Ok((agreement.by_average(), apart))
}

fn in_terms_of(other: &Said) -> String {
    let value = match other.value {
        // Where degrees are counted, to the tenth by which they are apart.
        Value::Temperature(at) if at.celsius() < Number::whole(110) => format!("{} °C", at.celsius().decimal(1)),
        value => show::value_plain(value).to_string(),
    };
    format!("{} ({value})", show::said_plain(other))
}

/// Two temperatures agree within the coarser dial, or 1 %. A mark of the dial is no rounding: beyond it the oven is set to
/// another mark, and the whole distance counts.
fn compare_temperatures(first: &Said, other: &Said) -> Result<(Agreement, Apart), Overflow> {
    let slack = first.slack.max(other.slack);
    let (a, b) = (first.value.number(), other.value.number());
    let apart = a.minus(b)?.size();
    let (by_share, _) = compare(a, b, Number::ZERO)?;
    // Below the heat of ovens a share of the degrees says nothing, since 0 °C is no zero: there the degrees count, of which 1.5 are what is
    // rounded to fives on one side, 105 °F and 40 °C. Common practice, no source.
    let is_oven = a.max(b) >= Number::whole(110);
    let goes_by_five = |at: Number| at.over(Number::whole(5)).is_ok_and(Number::is_whole);
    let in_fahrenheit = |said: &Said| match said.value {
        Value::Temperature(at) => at.fahrenheit().ok(),
        _ => None,
    };
    let is_round =
        [Some(a), Some(b), in_fahrenheit(first), in_fahrenheit(other)].into_iter().flatten().any(goes_by_five);
    let agreement = match by_share {
        _ if apart <= slack || !is_oven && is_round && apart <= Number::constant(3, 2) => Agreement::Fine,
        _ if !is_oven && apart <= Number::ONE => Agreement::Fine,
        _ if !is_oven && apart <= Number::constant(5, 2) => Agreement::Loose,
        _ if !is_oven => Agreement::Broken,
        of_percent => of_percent,
    };
    Ok((agreement, Apart::Degrees(apart)))
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
