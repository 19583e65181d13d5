//! Exact numbers.
//!
//! Every figure of a formula is a ratio of two whole numbers, so that scaling by three and then by a
//! third gives back the very same formula. Nothing here rounds except [`Number::rounded_to`], which
//! only the printing side calls, and what needs more digits than there are: cups through densities and ounces, shared out over three
//! parts, have denominators of forty digits. Such a figure goes on to the nearest [`FINEST`], since a card of a home recipe is worth
//! more than a digit that no scale and no table of contents has.

use num_rational::{BigRational, Ratio};
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, Signed, ToPrimitive, Zero};
use std::cmp::Ordering;
use std::fmt;
use std::num::NonZeroU64;
use std::ops::{Add, Div, Mul, Sub};

/// A sum left the range of exact numbers.
///
/// The caller reports it on the amount that was being worked out; nothing wraps or turns into a float.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Overflow;

/// An exact number without a unit.
#[derive(Clone, Copy)]
pub struct Number(Ratio<i128>);

/// All are in lowest terms, so that the same number has the same terms; the fractions' own comparison divides them.
impl PartialEq for Number {
    #[inline]
    fn eq(&self, other: &Number) -> bool {
        self.parts() == other.parts()
    }
}

impl Eq for Number {}

impl std::hash::Hash for Number {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.parts().hash(state);
    }
}

/// One operation on whole numbers, at the two widths: nearly every figure of a kitchen fits the narrow one, which is several times faster.
type AtHalf = fn(i64, i64) -> Option<i64>;
type Wide = fn(&Ratio<i128>, &Ratio<i128>) -> Option<Ratio<i128>>;
/// The same without any width, for what fits neither.
type Unbound = fn(BigRational, BigRational) -> BigRational;

/// What exact terms are too long for is known to one of so many parts of a gram, a minute or a share.
const FINEST: i128 = 1_000_000_000_000_000;
/// Figures of which so little is known are of a kitchen's sizes: above it, and below one of so many parts, they are told to be out of range.
const ORDINARY: i128 = 1_000_000_000_000;
const SMALLEST: i128 = 1_000_000;

/// The nearest of the finest parts to a figure whose exact terms are too long.
fn nearest(exact: &BigRational) -> Result<Number, Overflow> {
    let size = exact.abs();
    let (most, least) = (Ratio::from_integer(ORDINARY.into()), Ratio::new(1.into(), SMALLEST.into()));
    if size > most || size < least {
        return Err(Overflow);
    }
    Number::to_the_finest(exact).ok_or(Overflow)
}

/// A fraction of what is computed above and below, the lower more than nothing, brought to lowest terms once.
fn reduced(above: i64, below: i64) -> Option<Number> {
    let (size, lower) = (above.unsigned_abs(), below.unsigned_abs());
    let divisor = if lower == 1 { 1 } else { common(size, lower) };
    if divisor == 1 {
        return Some(Number(Ratio::new_raw(above.into(), below.into())));
    }
    let divisor = NonZeroU64::new(divisor)?;
    let size = i128::from(size / divisor);
    Some(Number(Ratio::new_raw(if above < 0 { -size } else { size }, (lower / divisor).into())))
}

/// The greatest common divisor. One of the two is nearly always small, a hundred or a thousand, and then three or four divisions
/// find it, where halving needs as many turns as the other has bits.
pub(super) fn common(one: u64, two: u64) -> u64 {
    let (mut more, mut less) = if one > two { (one, two) } else { (two, one) };
    while less != 0 {
        // After a division or two both are short, and a short division needs half the steps.
        if let (Ok(more), Ok(less)) = (u32::try_from(more), u32::try_from(less)) {
            return common_of_short(more, less).into();
        }
        (more, less) = (less, more % less);
    }
    more
}

fn common_of_short(mut more: u32, mut less: u32) -> u32 {
    while less != 0 {
        (more, less) = (less, more % less);
    }
    more
}

/// Sum or difference of two fractions at half the width, many of which have the same denominator.
fn beside(one: Number, two: Number, whole: AtHalf) -> Option<Number> {
    let ((above, below), (other_above, other_below)) = (one.terms()?, two.terms()?);
    if below == other_below {
        return reduced(whole(above, other_above)?, below);
    }
    // Denominators are mostly powers of ten and their divisors, and small beside the terms of the sum: what they have in common is all
    // that the sum can still be reduced by (D. Knuth, The Art of Computer Programming 2, 4.5.1, from memory).
    let shared = i64::try_from(common(below.unsigned_abs(), other_below.unsigned_abs())).ok()?;
    let (rest, other_rest) = (below.checked_div(shared)?, other_below.checked_div(shared)?);
    let above = whole(above.checked_mul(other_rest)?, other_above.checked_mul(rest)?)?;
    let again =
        if shared == 1 { 1 } else { i64::try_from(common(above.unsigned_abs(), shared.unsigned_abs())).ok()? };
    let below = rest.checked_mul(other_below.checked_div(again)?)?;
    Some(Number(Ratio::new_raw(above.checked_div(again)?.into(), below.into())))
}

impl Number {
    /// Nothing.
    pub const ZERO: Number = Number(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Number = Number(Ratio::new_raw(1, 1));

    /// A whole number.
    pub const fn whole(value: i64) -> Number {
        Number(Ratio::new_raw(value as i128, 1))
    }

    /// `numerator / denominator`; `None` when the denominator is nothing.
    pub fn fraction(numerator: i128, denominator: i128) -> Option<Number> {
        // `i128::MIN` has no positive twin, which the reduction inside `Ratio` would need.
        if denominator == 0 || numerator == i128::MIN || denominator == i128::MIN {
            return None;
        }
        if denominator == 1 {
            return Some(Number(Ratio::new_raw(numerator, 1)));
        }
        match Number(Ratio::new_raw(numerator, denominator)).terms().filter(|_| denominator > 0) {
            Some((above, below)) => reduced(above, below),
            None => Some(Number(Ratio::new(numerator, denominator))),
        }
    }

    /// A constant of the program, such as a unit factor, known to be in lowest terms.
    pub(crate) const fn constant(numerator: i128, denominator: i128) -> Number {
        Number(Ratio::new_raw(numerator, denominator))
    }

    /// Sum.
    #[inline]
    pub fn plus(self, other: Number) -> Result<Number, Overflow> {
        if other.is_zero() {
            return Ok(self);
        }
        if self.is_zero() { Ok(other) } else { self.sum(other) }
    }

    fn sum(self, other: Number) -> Result<Number, Overflow> {
        beside(self, other, i64::checked_add).map_or_else(|| self.beyond(other, Ratio::checked_add, Add::add), Ok)
    }

    /// Difference.
    pub fn minus(self, other: Number) -> Result<Number, Overflow> {
        if other.is_zero() {
            return Ok(self);
        }
        beside(self, other, i64::checked_sub).map_or_else(|| self.beyond(other, Ratio::checked_sub, Sub::sub), Ok)
    }

    /// Product.
    #[inline]
    pub fn times(self, other: Number) -> Result<Number, Overflow> {
        if self.is_zero() || other == Number::ONE {
            return Ok(self);
        }
        if other.is_zero() || self == Number::ONE { Ok(other) } else { self.product(other) }
    }

    fn product(self, other: Number) -> Result<Number, Overflow> {
        let narrow = || {
            let ((above, below), (other_above, other_below)) = (self.terms()?, other.terms()?);
            reduced(above.checked_mul(other_above)?, below.checked_mul(other_below)?)
        };
        narrow().map_or_else(|| self.beyond(other, Ratio::checked_mul, Mul::mul), Ok)
    }

    /// Quotient; dividing by nothing counts as leaving the range.
    pub fn over(self, other: Number) -> Result<Number, Overflow> {
        if other.is_zero() {
            return Err(Overflow);
        }
        if self.is_zero() || other == Number::ONE {
            return Ok(self);
        }
        let narrow = || {
            let ((above, below), (other_above, other_below)) = (self.terms()?, other.terms()?);
            let (times, over) = (above.checked_mul(other_below)?, below.checked_mul(other_above)?);
            // The sign stands above the line.
            if over < 0 { reduced(times.checked_neg()?, over.checked_neg()?) } else { reduced(times, over) }
        };
        narrow().map_or_else(|| self.beyond(other, Ratio::checked_div, Div::div), Ok)
    }

    /// What does not fit half the width, at the whole: the same as there, since both give lowest terms. What fits neither is found
    /// without a width and goes on as the nearest that fits.
    #[cold]
    #[inline(never)]
    fn beyond(self, other: Number, wide: Wide, unbound: Unbound) -> Result<Number, Overflow> {
        match wide(&self.0, &other.0) {
            Some(number) => Ok(Number(number)),
            None => nearest(&unbound(self.unbound(), other.unbound())),
        }
    }

    /// A number of any number of digits to the nearest of the finest parts; `None` where even so it is too large.
    pub(crate) fn to_the_finest(exact: &BigRational) -> Option<Number> {
        let parts = (exact * Ratio::from_integer(FINEST.into())).round().to_integer().to_i128()?;
        Number::fraction(parts, FINEST)
    }

    /// The same number, of which there may be any number of digits.
    pub(crate) fn unbound(self) -> BigRational {
        let (above, below) = self.parts();
        Ratio::new_raw(above.into(), below.into())
    }

    /// Its terms in half the width, if they fit.
    #[inline]
    pub(super) fn terms(self) -> Option<(i64, i64)> {
        let (above, below) = self.parts();
        // Both are cut off and compared at once, which is a few instructions, where asking whether each fits is a dozen.
        let (upper, lower) = (above as i64, below as i64);
        let is_whole = (above ^ i128::from(upper)) | (below ^ i128::from(lower)) == 0;
        is_whole.then_some((upper, lower))
    }

    /// The distance from nothing.
    pub fn size(self) -> Number {
        Number(self.0.abs())
    }

    /// Whether this is nothing.
    #[inline]
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Whether this is less than nothing.
    #[inline]
    pub fn is_negative(self) -> bool {
        self.0.is_negative()
    }

    /// Whether this is more than nothing.
    #[inline]
    pub fn is_positive(self) -> bool {
        self.0.is_positive()
    }

    /// Whether this has no fraction.
    pub fn is_whole(self) -> bool {
        self.0.is_integer()
    }

    /// The whole number below or at this one.
    pub fn floor(self) -> Number {
        Number(self.0.floor())
    }

    /// The whole number above or at this one.
    pub fn ceil(self) -> Number {
        Number(self.0.ceil())
    }

    /// The value as a whole number if it is one and fits.
    pub fn to_whole(self) -> Option<i64> {
        if self.0.is_integer() { i64::try_from(*self.0.numer()).ok() } else { None }
    }

    /// The nearest multiple of `step`, halves away from nothing.
    ///
    /// Halves round up because that is how kitchens and label rules (21 CFR 101.9) round.
    pub fn rounded_to(self, step: Number) -> Result<Number, Overflow> {
        let half = Number::constant(1, 2);
        let steps = self.size().over(step)?.plus(half)?.floor();
        let size = steps.times(step)?;
        if self.is_negative() { Number::ZERO.minus(size) } else { Ok(size) }
    }

    /// The nearest floating-point value, for JSON and drawings only.
    pub fn to_f64(self) -> f64 {
        *self.0.numer() as f64 / *self.0.denom() as f64
    }

    /// The parts of the fraction in lowest terms.
    #[inline]
    pub fn parts(self) -> (i128, i128) {
        (*self.0.numer(), *self.0.denom())
    }

    /// Decimal digits with at most `places` after the point, without trailing zeros.
    pub fn decimal(self, places: u32) -> String {
        let mut digits = self.decimal_fixed(places);
        digits.truncate(trim_zeros(&digits).len());
        digits
    }

    /// Decimal digits with exactly `places` after the point.
    pub fn decimal_fixed(self, places: u32) -> String {
        let shift = 10_u64.pow(places.min(18));
        if let Some(scaled) = self.scaled(shift) {
            return point_set(self.is_negative(), scaled / shift, scaled % shift, places);
        }
        let shift = i128::from(shift);
        let Ok(rounded) = self.rounded_to(Number::constant(1, shift)) else {
            // Beyond exact rounding the figure is astronomical; the nearest float says as much as is known.
            return format!("{:.*}", places as usize, self.to_f64());
        };
        let (numerator, denominator) = rounded.parts();
        let scaled = numerator.unsigned_abs() * (shift / denominator).unsigned_abs();
        point_set(numerator < 0, scaled / shift.unsigned_abs(), scaled % shift.unsigned_abs(), places)
    }

    /// The nearest whole number of parts of one, whatever its sign, as [`Number::rounded_to`] rounds, if all of it fits half the
    /// width; nearly every figure that is printed does.
    fn scaled(self, parts: u64) -> Option<u64> {
        let (above, below) = self.terms()?;
        let denominator = below.unsigned_abs();
        let twice = above.unsigned_abs().checked_mul(parts)?.checked_mul(2)?.checked_add(denominator)?;
        twice.checked_div(denominator.checked_mul(2)?)
    }
}

/// Digits before and behind the point; nothing is neither above nor below it.
fn point_set<T: fmt::Display + Default + PartialEq>(is_negative: bool, whole: T, rest: T, places: u32) -> String {
    let nothing = T::default();
    let sign = if is_negative && (whole != nothing || rest != nothing) { "-" } else { "" };
    match places.min(18) as usize {
        0 => format!("{sign}{whole}"),
        width => format!("{sign}{whole}.{rest:0width$}"),
    }
}

/// Removes the zeros that say nothing: `12.50` becomes `12.5`, `3.00` becomes `3`.
fn trim_zeros(digits: &str) -> &str {
    if digits.contains('.') { digits.trim_end_matches('0').trim_end_matches('.') } else { digits }
}

impl Ord for Number {
    #[inline]
    fn cmp(&self, other: &Number) -> Ordering {
        // Denominators are above nothing, so that against nothing the sign tells.
        let ((above, below), (other_above, other_below)) = (self.parts(), other.parts());
        if below == other_below || above == 0 || other_above == 0 {
            return above.cmp(&other_above);
        }
        self.compared(other)
    }
}

impl Number {
    /// How it compares with a number of another denominator.
    fn compared(&self, other: &Number) -> Ordering {
        let cross = |above: i64, below: i64| i128::from(above) * i128::from(below);
        match (self.terms(), other.terms()) {
            (Some((above, below)), Some((other_above, other_below))) => {
                cross(above, other_below).cmp(&cross(other_above, below))
            }
            _ => self.0.cmp(&other.0),
        }
    }
}

impl PartialOrd for Number {
    #[inline]
    fn partial_cmp(&self, other: &Number) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Debug for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// Adds up, stopping at the first sum that leaves the range.
pub fn sum(numbers: impl IntoIterator<Item = Number>) -> Result<Number, Overflow> {
    numbers.into_iter().try_fold(Number::ZERO, Number::plus)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn n(numerator: i128, denominator: i128) -> Number {
        Number::fraction(numerator, denominator).expect("a test writes no zero denominators")
    }

    /// Both ways to print say what [`Number::rounded_to`] makes of a number, in half the width and beyond it.
    #[test]
    fn digits_are_those_of_the_rounded_number() {
        for places in [0, 1, 2, 6] {
            let step = n(1, 10_i128.pow(places));
            for (numerator, denominator) in (-40..40).flat_map(|top| (1..9).map(move |bottom| (top * 37, bottom * 5))) {
                let number = n(numerator, denominator);
                let rounded = number.rounded_to(step).expect("in range");
                assert_eq!(number.decimal_fixed(places), rounded.decimal_fixed(places));
                let read: f64 = number.decimal_fixed(places).parse().expect("a number");
                assert!((read - rounded.to_f64()).abs() < 1e-9, "{number:?}: {read}");
                assert!(!rounded.is_zero() || !number.decimal(places).starts_with('-'), "{number:?}");
                let far = number.plus(Number::whole(i64::MAX)).expect("in range");
                assert_eq!(far.decimal_fixed(places), far.rounded_to(step).expect("in range").decimal_fixed(places));
            }
        }
        assert_eq!((n(-1, 3).decimal_fixed(1), n(-1, 30).decimal_fixed(1)), ("-0.3".to_owned(), "0.0".to_owned()));
        assert_eq!(n(12_345, 100).decimal(1), "123.5");
    }

    /// A fraction is in lowest terms and its sign above the line, however it is made.
    #[test]
    fn a_fraction_is_in_lowest_terms() {
        let long = i128::from(i64::MAX) * 6;
        for (made, parts) in [
            (n(6, 4), (3, 2)),
            (n(6, -4), (-3, 2)),
            (n(0, 7), (0, 1)),
            (n(5, 1), (5, 1)),
            (n(long, 4), (long / 2, 2)),
            (n(7, i128::from(i64::MIN)), (-7, -i128::from(i64::MIN))),
        ] {
            assert_eq!(made.parts(), parts);
        }
        assert_eq!(Number::fraction(1, 0), None);
    }

    #[test]
    fn halves_round_up() {
        let gram = Number::ONE;
        assert_eq!(n(5, 2).rounded_to(gram), Ok(Number::whole(3)));
        assert_eq!(n(-5, 2).rounded_to(gram), Ok(Number::whole(-3)));
        assert_eq!(n(249, 100).rounded_to(gram), Ok(Number::whole(2)));
    }

    #[test]
    fn digits_are_decimal_and_short() {
        assert_eq!(n(1, 3).decimal(2), "0.33");
        assert_eq!(n(25, 2).decimal(3), "12.5");
        assert_eq!(n(-1, 8).decimal(2), "-0.13");
        assert_eq!(Number::whole(100).decimal(2), "100");
        assert_eq!(n(1, 2).decimal_fixed(2), "0.50");
    }

    /// What is worked out at half the width is what is worked out at the whole, at every edge of either, and what fits neither is the
    /// nearest that fits.
    #[test]
    fn both_widths_agree() {
        let edge = i128::from(i64::MAX);
        let values = [0, 1, -1, 2, 3, 7, -60, 997, edge - 1, edge, -edge, -edge - 1, edge + 1, i128::MAX / 2];
        let numbers: Vec<Number> =
            values.iter().flat_map(|above| [1, 2, 3, 97, edge, edge + 1].map(|below| n(*above, below))).collect();
        for one in &numbers {
            for other in &numbers {
                let same = |found: Result<Number, Overflow>, wide: Option<Ratio<i128>>, unbound: Unbound| {
                    let nearest = || nearest(&unbound(one.unbound(), other.unbound())).ok();
                    assert_eq!(found.ok(), wide.map(Number).or_else(nearest), "{one:?} and {other:?}");
                };
                same(one.plus(*other), one.0.checked_add(&other.0), Add::add);
                same(one.minus(*other), one.0.checked_sub(&other.0), Sub::sub);
                same(one.times(*other), one.0.checked_mul(&other.0), Mul::mul);
                if !other.is_zero() {
                    same(one.over(*other), one.0.checked_div(&other.0), Div::div);
                }
                assert_eq!(one.cmp(other), one.0.cmp(&other.0), "{one:?} and {other:?}");
            }
        }
    }

    /// What a home recipe of cups and ounces comes to in its third part: forty digits, and still a figure.
    #[test]
    fn what_has_too_many_digits_is_the_nearest() {
        let one = n(20_669_632_655_738_233_875_939, 82_194_385_672_446_651_500);
        let other = n(196_222_586_287_889_894_241, 3_307_865_472_703_887_625);
        let sum = one.plus(other).expect("a figure of a kitchen's size");
        assert_eq!(one.0.checked_add(&other.0), None);
        // The two quotients added with forty digits by Python's decimal: 310.79256283789745049429873…
        assert_eq!(sum.decimal_fixed(15), "310.792562837897450");
    }

    #[test]
    fn leaving_the_range_is_said() {
        let large = n(i128::MAX / 2, 1);
        assert_eq!(large.times(large), Err(Overflow));
        assert_eq!(Number::ONE.over(Number::ZERO), Err(Overflow));
    }
}
