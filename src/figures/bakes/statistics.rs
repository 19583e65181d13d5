//! What a row of measurements says: how many, the mean, how far apart, and between which bounds the true mean lies.
//!
//! The one place of the log of bakes with floating point: a standard deviation is a root, and the distribution of Student a
//! function that no ratio holds. The middle one and the one that nine in ten keep are exact. What leaves this file is a
//! [`Number`] again, rounded to a billionth.

use crate::measure::number::Number;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Nothing is concluded from fewer measurements.
pub const FEWEST: usize = 3;

/// How sure the interval is, on its upper side: 95 % lie between both.
const UPPER: f64 = 0.975;

/// What leaves this file has so many parts of one.
const PARTS: f64 = 1e9;

/// What a row of measurements says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spread {
    /// How many there are.
    pub count: usize,
    /// Their mean.
    pub mean: Option<Number>,
    /// Their standard deviation, of a sample (n − 1); from two on.
    pub sd: Option<Number>,
    /// Between these the true mean lies in 95 of 100 such rows (Student); from two on.
    pub interval: Option<(Number, Number)>,
    /// The middle one; between the middle two where there are two.
    pub median: Option<Number>,
    /// The one that nine in ten keep: the quantile of nine tenths, between two measurements in proportion (definition 7 of Hyndman
    /// and Fan, Am. Stat. 50 (1996) 361, from memory; it is that of most spreadsheets and of numpy).
    pub nine_in_ten: Option<Number>,
}

/// Works out what measurements say.
pub fn spread(values: &[Number]) -> Spread {
    let mut sorted = values.to_vec();
    sorted.sort_unstable();
    let count = sorted.len();
    if count == 0 {
        return Spread::default();
    }
    let floats: Vec<f64> = values.iter().map(|value| value.to_f64()).collect();
    let n = count as f64;
    let mean = floats.iter().sum::<f64>() / n;
    let mut spread = Spread {
        count,
        mean: rounded(mean),
        median: quantile(&sorted, Number::constant(1, 2)),
        nine_in_ten: quantile(&sorted, Number::constant(9, 10)),
        ..Spread::default()
    };
    if count < 2 {
        return spread;
    }
    // Twice through: what the first mean is off by is taken out again.
    let (squares, off) = floats.iter().fold((0.0, 0.0), |(squares, off), value| {
        let apart = value - mean;
        (squares + apart * apart, off + apart)
    });
    let sd = ((squares - off * off / n) / (n - 1.0)).max(0.0).sqrt();
    spread.sd = rounded(sd);
    let half = student(count - 1).map(|t| t * sd / n.sqrt());
    spread.interval = half.and_then(|half| Some((rounded(mean - half)?, rounded(mean + half)?)));
    spread
}

/// By how many standard errors the interval reaches out on each side, with so many degrees of freedom.
fn student(freedom: usize) -> Option<f64> {
    let distribution = StudentsT::new(0.0, 1.0, freedom as f64).ok()?;
    // The crate's inverse is a search that ends within a millionth or so; two steps of Newton end it.
    let mut t = distribution.inverse_cdf(UPPER);
    for _ in 0..2 {
        use statrs::distribution::Continuous;
        let slope = distribution.pdf(t);
        if slope > 0.0 {
            t -= (distribution.cdf(t) - UPPER) / slope;
        }
    }
    Some(t).filter(|t| t.is_finite())
}

/// The quantile of sorted measurements, exactly; `None` where the sum leaves the range of exact numbers.
fn quantile(sorted: &[Number], share: Number) -> Option<Number> {
    let last = i64::try_from(sorted.len().checked_sub(1)?).ok()?;
    let place = share.times(Number::whole(last)).ok()?;
    let below = place.floor();
    let at = usize::try_from(below.to_whole()?).ok()?;
    let (low, high) = (*sorted.get(at)?, sorted.get(at + 1).or(sorted.get(at)).copied()?);
    let between = place.minus(below).ok()?;
    low.plus(high.minus(low).and_then(|step| step.times(between)).ok()?).ok()
}

/// The nearest billionth.
fn rounded(value: f64) -> Option<Number> {
    let parts = (value * PARTS).round();
    // Beyond this the whole numbers of a float are no longer all there.
    let fits = parts.is_finite() && parts.abs() < 9e15 * 1e9;
    fits.then(|| Number::fraction(parts as i128, PARTS as i128)).flatten()
}

/// Half an interval as it stands behind `±`, to a tenth. What is less than a twentieth is not said to be nothing: only values that are all
/// the same lie no way apart.
pub fn reach(half: Number) -> String {
    let shown = half.decimal(1);
    if shown == "0" && half > Number::ZERO { "less than 0.1".to_owned() } else { shown }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Student's table, 0.975: 12.706, 4.303, 3.182, 2.262, 1.980 (NIST/SEMATECH e-Handbook 1.3.6.7.2, from memory).
    #[test]
    fn students_table() {
        for (freedom, printed) in [(1, 12.706), (2, 4.303), (3, 3.182), (9, 2.262), (120, 1.980)] {
            let t = student(freedom).expect("a number");
            assert!((t - printed).abs() < 0.0006, "{freedom}: {t}");
        }
    }

    #[test]
    fn few_and_equal_measurements() {
        let whole = |values: &[i64]| spread(&values.iter().map(|value| Number::whole(*value)).collect::<Vec<_>>());
        assert_eq!(spread(&[]), Spread::default());
        let one = whole(&[13]);
        assert_eq!((one.count, one.mean, one.sd, one.interval), (1, Some(Number::whole(13)), None, None));
        let equal = whole(&[13, 13, 13]);
        assert_eq!(equal.sd, Some(Number::ZERO));
        assert_eq!(equal.interval, Some((Number::whole(13), Number::whole(13))));
        let three = whole(&[12, 13, 17]);
        assert_eq!(three.mean, Some(Number::whole(14)));
        assert_eq!(three.median, Some(Number::whole(13)));
        // 13 + 0.8 × 4.
        assert_eq!(three.nine_in_ten, Number::fraction(81, 5));
    }

    #[test]
    fn a_narrow_interval_is_not_said_to_be_none() {
        let of = |numerator, denominator| reach(Number::fraction(numerator, denominator).expect("a fraction"));
        assert_eq!(of(4, 10), "0.4");
        assert_eq!(of(1, 20), "0.1");
        assert_eq!(of(1, 50), "less than 0.1");
        assert_eq!(of(0, 1), "0");
    }
}
