//! A sum of many numbers, brought to lowest terms once: the amounts of a kitchen share their denominators.

use super::number::{Number, Overflow, common};

/// A sum as far as it has come.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RunningSum {
    /// What is above the line, and below it, which is more than nothing; in any terms.
    above: i64,
    below: i64,
    /// The sum once it left half the width of exact numbers.
    wide: Option<Number>,
}

impl RunningSum {
    /// Nothing so far.
    pub(crate) const NOTHING: RunningSum = RunningSum { above: 0, below: 1, wide: None };

    /// Adds a number.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    #[inline]
    pub(crate) fn add(&mut self, number: Number) -> Result<(), Overflow> {
        if number.is_zero() { Ok(()) } else { self.add_some(number) }
    }

    fn add_some(&mut self, number: Number) -> Result<(), Overflow> {
        if self.wide.is_none()
            && let Some((above, below)) = self.with(number)
        {
            (self.above, self.below) = (above, below);
            return Ok(());
        }
        self.wide = Some(self.total()?.plus(number)?);
        Ok(())
    }

    /// The terms of the sum with a number more; `None` where one of them leaves half the width.
    fn with(&self, number: Number) -> Option<(i64, i64)> {
        let (above, below) = number.terms()?;
        if below == self.below {
            return Some((self.above.checked_add(above)?, below));
        }
        if self.below.checked_rem(below)? == 0 {
            let sum = self.above.checked_add(above.checked_mul(self.below.checked_div(below)?)?)?;
            return Some((sum, self.below));
        }
        let shared = i64::try_from(common(below.unsigned_abs(), self.below.unsigned_abs())).ok()?;
        let (times, own_times) = (self.below.checked_div(shared)?, below.checked_div(shared)?);
        let sum = self.above.checked_mul(own_times)?.checked_add(above.checked_mul(times)?)?;
        Some((sum, self.below.checked_mul(own_times)?))
    }

    /// All of it.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub(crate) fn total(&self) -> Result<Number, Overflow> {
        self.wide.map_or_else(|| Number::fraction(self.above.into(), self.below.into()).ok_or(Overflow), Ok)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the terms, the sum is what adding one after the other gives.
    #[test]
    fn a_sum_is_what_adding_gives() {
        let terms = [
            (1, 3),
            (-5, 7),
            (0, 1),
            (1350, 1),
            (48, 100),
            (i128::from(i64::MAX), 2),
            (i128::from(i64::MIN), 1),
            (i128::from(i64::MAX), 1_000_003),
            (1, 9_999_999_967),
            (3, i128::from(i64::MAX)),
            (i128::MAX, 5),
            (-i128::MAX, 7),
        ];
        let numbers = terms.map(|(above, below)| Number::fraction(above, below).expect("no denominator is nothing"));
        for start in 0..numbers.len() {
            for count in 0..numbers.len() {
                let list: Vec<Number> = numbers.iter().cycle().skip(start).take(count).copied().collect();
                let added = list.iter().try_fold(Number::ZERO, |sum, number| sum.plus(*number));
                let mut sum = RunningSum::NOTHING;
                let found = list.iter().try_for_each(|number| sum.add(*number)).and_then(|()| sum.total());
                assert_eq!(found, added, "{list:?}");
            }
        }
    }
}
