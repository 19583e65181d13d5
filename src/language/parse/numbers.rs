//! Numbers, quantities and chains of them.

use super::pairs::Pair;
use super::reader::{Reader, shortened};
use super::{Rule, commas, stray, units};
use crate::language::syntax::{Quantity, Term, WrittenNumber};
use crate::measure::number::{Number, Overflow};
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};

/// What an ingredient can be measured in.
pub(super) const AMOUNT_KINDS: &[Dimension] =
    &[Dimension::Mass, Dimension::Volume, Dimension::Count, Dimension::Proportion];
/// Digits before the point that a number may have: a million tonnes in milligrams.
const WHOLE_DIGITS: usize = 15;
/// Digits after the point that a number may have: a billionth.
const DECIMAL_DIGITS: usize = 9;

/// Reads a number; `None` when it was reported.
pub(super) fn number(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<WrittenNumber> {
    let span = reader.span(&pair);
    let negative = pair.as_str().starts_with(['-', '−']);
    let mut read = None;
    for inner in pair.into_inner() {
        match inner.as_rule() {
            Rule::trouble_comma => return commas::comma(reader, &inner),
            Rule::trouble_point => return commas::point(reader, &inner),
            Rule::trouble_power => {
                return impossible(reader, span, "powers of ten are not read", "write all the digits");
            }
            _ => {
                leading_zero(reader, &inner);
                read = Some(unsigned(&inner));
            }
        }
    }
    match read {
        Some(Ok((value, decimals))) => {
            let value = if negative { Number::ZERO.minus(value).unwrap_or(value) } else { value };
            Some(WrittenNumber { value, decimals, span })
        }
        Some(Err(Trouble::ZeroDenominator)) => {
            impossible(reader, span, "nothing can be divided by 0", "write another number below the line")
        }
        Some(Err(Trouble::TooManyDigits)) | None => impossible(
            reader,
            span,
            "it has more digits than can be kept exactly",
            "at most 15 digits before the point and 9 after it; choose a larger or smaller unit",
        ),
    }
}

/// `04` is 0.4 or 40, and only the writer knows.
fn leading_zero(reader: &mut Reader<'_>, pair: &Pair<'_>) {
    let text = pair.as_str();
    let Some(rest) = behind_zero(text) else { return };
    let span = reader.span(pair);
    let problem = Diagnostic::warning("leading-zero", span, format!("`{}` begins with a zero", shortened(text)));
    reader.report(problem.help(format!(
        "write `{}`; or was it `0.{rest}`, or the digits swapped?",
        rest.trim_start_matches('0').to_owned() + if rest.trim_start_matches('0').is_empty() { "0" } else { "" }
    )));
}

fn behind_zero(text: &str) -> Option<&str> {
    text.strip_prefix('0').filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
}

/// The value of digits about which nothing is to be reported.
pub(super) fn sound(digits: &str) -> Option<Number> {
    decimal(digits).ok().filter(|_| behind_zero(digits).is_none()).map(|(value, _)| value)
}

enum Trouble {
    ZeroDenominator,
    TooManyDigits,
}

impl From<Overflow> for Trouble {
    fn from(_: Overflow) -> Trouble {
        Trouble::TooManyDigits
    }
}

/// The value, and how many digits stand behind its point.
fn unsigned(pair: &Pair<'_>) -> Result<(Number, Option<u8>), Trouble> {
    let text = pair.as_str();
    let exact = |value: Number| (value, None);
    match pair.as_rule() {
        Rule::vulgar => vulgar(text).map(exact),
        Rule::mixed_vulgar => {
            let split = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
            let (digits, rest) = text.split_at(split);
            Ok(exact(whole(digits)?.plus(vulgar(rest.trim())?)?))
        }
        Rule::fraction => divided(text).map(exact),
        Rule::mixed => {
            let (digits, rest) = text.split_once(char::is_whitespace).ok_or(Trouble::TooManyDigits)?;
            Ok(exact(whole(digits)?.plus(divided(rest.trim())?)?))
        }
        _ => decimal(text),
    }
}

fn decimal(text: &str) -> Result<(Number, Option<u8>), Trouble> {
    let point = text.bytes().position(|byte| byte == b'.');
    let (before, after) = point.and_then(|at| Some((text.get(..at)?, text.get(at + 1..)?))).unwrap_or((text, ""));
    if before.len() > WHOLE_DIGITS || after.len() > DECIMAL_DIGITS {
        return Err(Trouble::TooManyDigits);
    }
    let number = |digits: &str| {
        let more = |value: u64, byte: u8| byte.is_ascii_digit().then(|| value * 10 + u64::from(byte - b'0'));
        digits.bytes().try_fold(0, more).map(i128::from).ok_or(Trouble::TooManyDigits)
    };
    // Both together are at most 24 digits, which is far from the end of the range.
    let scale = i128::from(after.bytes().fold(1_u64, |scale, _| scale * 10));
    let digits = number(before)? * scale + number(after)?;
    let value = Number::fraction(digits, scale).ok_or(Trouble::ZeroDenominator)?;
    Ok((value, u8::try_from(after.len()).ok()))
}

fn whole(text: &str) -> Result<Number, Trouble> {
    if text.len() > WHOLE_DIGITS {
        return Err(Trouble::TooManyDigits);
    }
    text.parse().map(Number::whole).map_err(|_| Trouble::TooManyDigits)
}

fn divided(text: &str) -> Result<Number, Trouble> {
    let (above, below) = text.split_once('/').ok_or(Trouble::TooManyDigits)?;
    let below = whole(below)?;
    if below.is_zero() {
        return Err(Trouble::ZeroDenominator);
    }
    Ok(whole(above)?.over(below)?)
}

fn vulgar(text: &str) -> Result<Number, Trouble> {
    let (above, below) = match text {
        "½" => (1, 2),
        "⅓" => (1, 3),
        "⅔" => (2, 3),
        "¼" => (1, 4),
        "¾" => (3, 4),
        "⅕" => (1, 5),
        "⅖" => (2, 5),
        "⅗" => (3, 5),
        "⅘" => (4, 5),
        "⅙" => (1, 6),
        "⅚" => (5, 6),
        "⅛" => (1, 8),
        "⅜" => (3, 8),
        "⅝" => (5, 8),
        "⅞" => (7, 8),
        _ => return Err(Trouble::TooManyDigits),
    };
    Number::fraction(above, below).ok_or(Trouble::ZeroDenominator)
}

/// A number that cannot be less than nothing; `None` when it was reported.
pub(super) fn not_negative(reader: &mut Reader<'_>, number: WrittenNumber) -> Option<WrittenNumber> {
    match number.value.is_negative() {
        true => impossible(reader, number.span, "it is less than nothing", "leave out the minus sign"),
        false => Some(number),
    }
}

/// A number of units that something is said of, which is more than nothing; `None` when it was reported.
pub(super) fn so_many(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<WrittenNumber> {
    let read = number(reader, pair)?;
    match read.value.is_zero() {
        true => impossible(reader, read.span, "nothing is said of none of it", "write `1`, or leave the number out"),
        false => not_negative(reader, read),
    }
}

fn impossible<T>(reader: &mut Reader<'_>, span: Span, why: &str, help: &str) -> Option<T> {
    let text = shortened(reader.slice(span));
    reader.report(
        Diagnostic::error(
            "impossible-number",
            span,
            format!("`{text}` is not a number that can be computed with: {why}"),
        )
        .help(help),
    );
    None
}

/// Reads a quantity; `None` when something in it was reported.
pub(super) fn quantity(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Quantity> {
    let span = reader.span(&pair);
    // Nearly always one; a vector that grows by itself would make room for four, in every figure of every file.
    let mut terms = Vec::with_capacity(1);
    let mut upper_terms = Vec::new();
    let mut upper_number = None;
    let mut whole = true;
    let mut last_end = None;
    for inner in pair.into_inner() {
        let term_span = reader.span(&inner);
        // A dash between two terms separates the ends of a range; it leaves no pair, only a gap in the text.
        let gap = last_end.map_or("", |end| reader.slice(Span { start: end, end: term_span.start, ..span }));
        let is_upper = !upper_terms.is_empty() || gap.contains(['-', '–', '—']);
        last_end = Some(term_span.end);
        match term(reader, inner) {
            Some((read, to)) => {
                upper_number = upper_number.or(to.map(|number| Term { number, unit: read.unit }));
                if is_upper { upper_terms.push(read) } else { terms.push(read) }
            }
            None => whole = false,
        }
    }
    if !whole {
        return None;
    }
    let upper = match upper_number {
        Some(term) if upper_terms.is_empty() && terms.len() == 1 => Some(vec![term]),
        Some(_) => return mixed_range(reader, span),
        None if upper_terms.is_empty() => None,
        None => Some(upper_terms),
    };
    let quantity = Quantity { terms, upper, span };
    if !is_of_one_kind(reader, &quantity) || !runs_forward(reader, &quantity) {
        return None;
    }
    Some(quantity)
}

fn mixed_range(reader: &mut Reader<'_>, span: Span) -> Option<Quantity> {
    impossible(
        reader,
        span,
        "it is not clear what ranges from where to where",
        "write both ends in full, `1 h 30 min - 2 h`",
    )
}

/// One term and, for `90-120 min`, the number at the other end.
fn term(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<(Term, Option<WrittenNumber>)> {
    let (mut first, mut second) = (None, None);
    let mut unit = None;
    let mut whole = true;
    for inner in pair.into_inner() {
        if inner.as_rule() == Rule::unit {
            let span = reader.span(&inner);
            match Unit::from_word(inner.as_str()) {
                Some(read) => unit = Some(Spanned::new(read, span)),
                None => {
                    units::unknown(reader, span, inner.as_str());
                    whole = false;
                }
            }
        } else {
            match number(reader, inner) {
                Some(read) if first.is_none() => first = Some(read),
                Some(read) => second = Some(read),
                None => whole = false,
            }
        }
    }
    let first = first?;
    if !whole {
        return None;
    }
    let is_temperature = unit.is_some_and(|unit| unit.value.dimension() == Dimension::Temperature);
    let first = if is_temperature { first } else { not_negative(reader, first)? };
    Some((Term { number: first, unit }, second))
}

/// What a term measures; a number without a unit counts pieces.
pub(super) fn dimension(quantity: &Quantity) -> Dimension {
    quantity.terms.first().and_then(|term| term.unit).map_or(Dimension::Count, |unit| unit.value.dimension())
}

/// `1 h 30 min` for `1h30`.
fn minutes_behind(written: &str) -> Option<String> {
    let (hours, minutes) = written.split_once('h')?;
    let (hours, minutes) = (hours.trim(), minutes.trim());
    let digits = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    (digits(hours) && digits(minutes) && minutes.len() == 2).then(|| format!("{hours} h {minutes} min"))
}

fn is_of_one_kind(reader: &mut Reader<'_>, quantity: &Quantity) -> bool {
    if quantity.terms.len() == 1 && quantity.upper.is_none() {
        return true;
    }
    let wanted = dimension(quantity);
    let all_terms = quantity.terms.iter().chain(quantity.upper.iter().flatten());
    for term in all_terms {
        let found = term.unit.map_or(Dimension::Count, |unit| unit.value.dimension());
        if found != wanted {
            let written = reader.slice(quantity.span);
            let problem = Diagnostic::error(
                "wrong-kind",
                quantity.span,
                format!("`{}` mixes {} with {}", shortened(written), wanted.noun(), found.noun()),
            );
            reader.report(match minutes_behind(written) {
                Some(whole) => problem.help(format!("the minutes want their word: `{whole}`")).mend(
                    format!("write `{whole}`"),
                    quantity.span,
                    whole,
                ),
                None => problem.help("write one amount; a second way to say the same amount follows after `=`"),
            });
            return false;
        }
    }
    let falls = |terms: &[Term]| terms.windows(2).all(|pair| matches!(pair, [one, next] if is_smaller(next, one)));
    if falls(&quantity.terms) && quantity.upper.as_deref().is_none_or(falls) {
        return true;
    }
    let written = shortened(reader.slice(quantity.span));
    reader.report(
        Diagnostic::error(
            "wrong-kind",
            quantity.span,
            format!("`{written}` does not go from the larger unit to the smaller"),
        )
        .help("write the larger unit first and each unit once: `1 h 30 min`, `1 lb 4 oz`"),
    );
    false
}

/// Whether a term's unit is smaller than another's; units of unknown country are left alone.
fn is_smaller(term: &Term, than: &Term) -> bool {
    match (term.unit, than.unit) {
        (Some(one), Some(other)) => match (one.value.size(None), other.value.size(None)) {
            (Some(one), Some(other)) => one < other,
            _ => one.value != other.value,
        },
        _ => false,
    }
}

/// The number of a list of terms in its dimension's own unit, where that does not depend on the country.
fn plain_value(terms: &[Term]) -> Option<Number> {
    let mut total = Number::ZERO;
    for term in terms {
        let size = match term.unit {
            None => Number::ONE,
            Some(unit) if unit.value.dimension() == Dimension::Temperature => Number::ONE,
            Some(unit) if unit.value.depends_on_country() => Number::ONE,
            Some(unit) => unit.value.size(None)?,
        };
        total = total.plus(term.number.value.times(size).ok()?).ok()?;
    }
    Some(total)
}

fn runs_forward(reader: &mut Reader<'_>, quantity: &Quantity) -> bool {
    let Some(upper) = &quantity.upper else { return true };
    let (Some(low), Some(high)) = (plain_value(&quantity.terms), plain_value(upper)) else { return true };
    if low <= high {
        return true;
    }
    let written = reader.slice(quantity.span);
    let problem = Diagnostic::error(
        "impossible-number",
        quantity.span,
        format!("`{written}` runs backward: its first end is more than its second"),
    )
    .label("the smaller end comes first");
    let ends = (quantity.terms.first(), upper.first());
    let problem = match ends {
        (Some(first), Some(last)) if quantity.terms.len() == 1 && upper.len() == 1 && first.unit == last.unit => {
            let (low_text, high_text) = (reader.slice(last.number.span), reader.slice(first.number.span));
            let span = first.number.span.to(last.number.span);
            let swapped = format!("{low_text}-{high_text}");
            problem.help(format!("write `{swapped}`")).mend("swap the ends", span, swapped)
        }
        _ => problem.help("swap the two ends"),
    };
    reader.report(problem);
    false
}

/// Reads a chain; `None` when something in it was reported.
pub(super) fn chain(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Vec<Quantity>> {
    let mut list = Vec::with_capacity(1);
    let mut whole = true;
    for inner in pair.into_inner() {
        match quantity(reader, inner) {
            Some(read) => list.push(read),
            None => whole = false,
        }
    }
    whole.then_some(list)
}

/// Reports a quantity of another kind than the place wants, and a range where one amount is computed with: only times and
/// temperatures are worked with as ranges.
pub(super) fn expect(reader: &mut Reader<'_>, quantity: Quantity, wanted: &[Dimension]) -> Option<Quantity> {
    is_expected(reader, &quantity, wanted, units_of(wanted)).then_some(quantity)
}

fn is_expected(reader: &mut Reader<'_>, quantity: &Quantity, wanted: &[Dimension], units: &[&str]) -> bool {
    let found = dimension(quantity);
    if wanted.contains(&found) {
        let is_range = quantity.upper.is_some() && !matches!(found, Dimension::Time | Dimension::Temperature);
        if is_range {
            stray::range_as_amount(reader, quantity.span);
        }
        return !is_range;
    }
    let nouns: Vec<&str> = wanted.iter().map(|kind| kind.noun()).collect();
    let written = shortened(reader.slice(quantity.span));
    let terms = || quantity.terms.iter().chain(quantity.upper.iter().flatten());
    let is_bare = terms().all(|term| term.unit.is_none());
    if is_bare && found == Dimension::Count && !units.is_empty() {
        let with_unit: Vec<String> = units.iter().map(|unit| format!("`{written} {unit}`")).collect();
        let message = format!("`{written}` has no unit, and {} is wanted here", nouns.join(" or "));
        reader.report(
            Diagnostic::error("wrong-kind", quantity.span, message)
                .label(format!("{} is wanted", nouns.join(" or ")))
                .help(format!("write {}", with_unit.join(" or "))),
        );
        return false;
    }
    let message = format!("`{written}` is {}, but {} is wanted here", found.noun(), nouns.join(" or "));
    let problem =
        Diagnostic::error("wrong-kind", quantity.span, message).label(format!("{} is wanted", nouns.join(" or ")));
    let unit = quantity.terms.first().and_then(|term| term.unit).filter(|_| quantity.terms.len() == 1);
    reader.report(
        match unit.and_then(|unit| units::meant(reader.slice(unit.span), wanted).map(|meant| (unit.span, meant))) {
            Some((span, meant)) => {
                problem.help(format!("did you mean `{meant}`?")).suggest(format!("write `{meant}`"), span, meant)
            }
            None => problem,
        },
    );
    false
}

/// The units that somebody forgets behind a number.
fn units_of(wanted: &[Dimension]) -> &'static [&'static str] {
    match wanted.first() {
        Some(Dimension::Temperature) => &["C", "F"],
        Some(Dimension::Time) => &["min", "h"],
        Some(Dimension::Mass) => &["g", "kg"],
        Some(Dimension::Length) => &["cm", "in"],
        Some(Dimension::Proportion) => &["%"],
        Some(Dimension::Volume | Dimension::Count) | None => &[],
    }
}

/// Reads times of which the last one says the unit of those that say none: `45 and 90 min`.
pub(super) fn moments_of(reader: &mut Reader<'_>, pairs: Vec<Pair<'_>>) -> Option<Vec<Quantity>> {
    let last = pairs.len().checked_sub(1)?;
    let mut times = Vec::with_capacity(pairs.len());
    for (at, pair) in pairs.into_iter().enumerate() {
        let read = quantity(reader, pair)?;
        let bare = at < last && read.upper.is_none() && read.terms.iter().all(|term| term.unit.is_none());
        times.push(if bare { read } else { expect(reader, read, &[Dimension::Time])? });
    }
    Some(times)
}

/// Reads a quantity that must be of one of these kinds.
pub(super) fn quantity_of(reader: &mut Reader<'_>, pair: Pair<'_>, wanted: &[Dimension]) -> Option<Quantity> {
    let read = quantity(reader, pair)?;
    expect(reader, read, wanted)
}

/// Reads a time for which food keeps: who says no unit means days.
pub(super) fn days_of(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Quantity> {
    let read = quantity(reader, pair)?;
    is_expected(reader, &read, &[Dimension::Time], &["days"]).then_some(read)
}

/// Reads a chain whose members must be of these kinds.
pub(super) fn chain_of(reader: &mut Reader<'_>, pair: Pair<'_>, wanted: &[Dimension]) -> Option<Vec<Quantity>> {
    let list = chain(reader, pair)?;
    list.iter().all(|quantity| is_expected(reader, quantity, wanted, units_of(wanted))).then_some(list)
}

/// Reads what a clause may say after `at`.
pub(super) fn temperature_chain(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Vec<Quantity>> {
    chain_of(reader, pair, &[Dimension::Temperature])
}
