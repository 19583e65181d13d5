//! How large the measures of the US and of the empire are: pounds in grams, gallons in millilitres, and their shares.

use super::number::Number;

/// The pound, in grams: 453.592 37 g (1959 agreement).
pub const POUND: Number = pounds(1, 1);
/// The ounce, in grams.
pub const OUNCE: Number = pounds(1, 16);
/// The US fluid ounce, in millilitres (NIST Handbook 44, Appendix C).
pub const FLUID_OUNCE: Number = us_gallons(1, 128);
/// The US quart, in millilitres.
pub const QUART: Number = us_gallons(1, 4);
/// The imperial fluid ounce, in millilitres (UK Units of Measurement Regulations 1995).
pub const IMPERIAL_FLUID_OUNCE: Number = imperial_gallons(1, 160);

/// So many of so many parts of a pound, in grams.
pub const fn pounds(parts: i128, of: i128) -> Number {
    shared(45_359_237 * parts, 100_000 * of)
}

/// So many of so many parts of the US gallon, in millilitres: it is 231 cubic inches, 3 785.411 784 ml.
pub const fn us_gallons(parts: i128, of: i128) -> Number {
    shared(473_176_473 * parts, 125_000 * of)
}

/// So many of so many parts of the imperial gallon, in millilitres: it is 4 546.09 ml.
pub const fn imperial_gallons(parts: i128, of: i128) -> Number {
    shared(454_609 * parts, 100 * of)
}

/// A fraction in lowest terms.
const fn shared(numerator: i128, denominator: i128) -> Number {
    let (mut common, mut rest) = (numerator, denominator);
    while rest != 0 {
        (common, rest) = (rest, common % rest);
    }
    Number::constant(numerator / common, denominator / common)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST Handbook 44, Appendix C: an ounce is 28.349 523 125 g, a US fluid ounce 29.573 529 562 5 ml, a US teaspoon 4.928 921 593 75 ml; an
    /// imperial fluid ounce is 28.413 062 5 ml.
    #[test]
    fn shares_are_as_published() {
        for (size, published) in [
            (OUNCE, "28.349523125"),
            (FLUID_OUNCE, "29.5735295625"),
            (QUART, "946.352946"),
            (us_gallons(1, 768), "4.92892159375"),
            (us_gallons(3, 4), "2839.058838"),
            (IMPERIAL_FLUID_OUNCE, "28.4130625"),
        ] {
            assert_eq!(size.decimal(12), published);
        }
    }
}
