//! How figures of a nutrition table are rounded.
//!
//! United States: 21 CFR 101.9(c), paragraphs (1) calories, (2) fat, (4) sodium, (6) carbohydrate, fibre and sugars and
//! (7) protein, as FDA's A Food Labeling Guide, Appendix H, October 2009, prints them (seen); a half rounds up (NLEA
//! inspection guide, attachments 6 to 8, seen). European Union: Commission guidance on tolerances, December 2012, table 4 (as
//! nutricalc.co.uk and the wiki of nutritionix/nutrition-label print it, seen).

use crate::measure::number::{Number, Overflow};

const HALF: Number = Number::constant(1, 2);
const TENTH: Number = Number::constant(1, 10);

/// Calories: below 5 none; to 50 by fives; above by tens (101.9(c)(1)).
pub fn us_calories(amount: Number) -> Result<String, Overflow> {
    by_steps(amount, Number::whole(5), Number::whole(50), Number::whole(5), Number::whole(10))
}

/// Grams of fat: below 0.5 none; below 5 by halves; above by ones (101.9(c)(2)).
pub fn us_fat(amount: Number) -> Result<String, Overflow> {
    if amount < HALF {
        return Ok("0".to_owned());
    }
    let step = if amount < Number::whole(5) { HALF } else { Number::ONE };
    amount.rounded_to(step).map(|amount| amount.decimal(1))
}

/// Grams of a serving: below 2 by tenths, below 5 by halves, above by ones (101.9(b)(7), from memory).
pub fn us_serving_grams(grams: Number) -> Result<String, Overflow> {
    let step = match grams {
        grams if grams < Number::whole(2) => TENTH,
        grams if grams < Number::whole(5) => HALF,
        _ => Number::ONE,
    };
    grams.rounded_to(step).map(|grams| grams.decimal(1))
}

/// Milligrams of cholesterol: below 2 none; to 5 said so; above by fives (101.9(c)(3)).
pub fn us_cholesterol(amount: Number) -> Result<String, Overflow> {
    if amount < Number::whole(2) {
        return Ok("0".to_owned());
    }
    if amount <= Number::whole(5) {
        return Ok("less than 5".to_owned());
    }
    amount.rounded_to(Number::whole(5)).map(|amount| amount.decimal(0))
}

/// Micrograms of vitamin D and milligrams of iron, to a tenth (101.9(c)(8)(ii) to (iv) and FDA's small entity guide of 2020, from
/// memory).
pub fn us_tenths(amount: Number) -> Result<String, Overflow> {
    amount.rounded_to(TENTH).map(|amount| amount.decimal(1))
}

/// Milligrams of calcium and potassium, to ten (as [`us_tenths`]).
pub fn us_tens(amount: Number) -> Result<String, Overflow> {
    amount.rounded_to(Number::whole(10)).map(|amount| amount.decimal(0))
}

/// A share of the daily value of a nutrient, to the whole percent (101.9(d)(7)(ii), as the notes of a public label checker quote it, seen).
pub fn us_daily(percent: Number) -> Result<String, Overflow> {
    percent.rounded_to(Number::ONE).map(|percent| percent.decimal(0))
}

/// A share of the daily value of a vitamin or mineral: below 2 % none; to 10 % by twos, to 50 % by fives, above by tens
/// (101.9(c)(8)(iii), quoted by help.esha.com, Rounding Rules 2016, seen).
pub fn us_daily_trace(percent: Number) -> Result<String, Overflow> {
    if percent < Number::whole(2) {
        return Ok("0".to_owned());
    }
    let step = if percent <= Number::whole(10) {
        Number::whole(2)
    } else if percent <= Number::whole(50) {
        Number::whole(5)
    } else {
        Number::whole(10)
    };
    percent.rounded_to(step).map(|percent| percent.decimal(0))
}

/// Servings in a container: to 2 and from 5 on whole, between by halves (101.9(b)(8)(i), as a public label program quotes it, seen); and whether that is less than exact,
/// so that it says `about`.
pub fn us_servings(servings: Number) -> Result<(String, bool), Overflow> {
    let by_halves = servings > Number::whole(2) && servings < Number::whole(5);
    let shown = servings.rounded_to(if by_halves { HALF } else { Number::ONE })?;
    let shown = if shown < Number::ONE { Number::ONE } else { shown };
    Ok((shown.decimal(1), shown != servings))
}

/// Milligrams of sodium: below 5 none; to 140 by fives; above by tens (101.9(c)(4)).
pub fn us_sodium(amount: Number) -> Result<String, Overflow> {
    by_steps(amount, Number::whole(5), Number::whole(140), Number::whole(5), Number::whole(10))
}

/// Grams of carbohydrate, fibre, sugars or protein: below 0.5 none; below 1 said so; else by ones (101.9(c)(6), (7)).
pub fn us_grams(amount: Number) -> Result<String, Overflow> {
    if amount < HALF {
        return Ok("0".to_owned());
    }
    if amount < Number::ONE {
        return Ok("less than 1".to_owned());
    }
    amount.rounded_to(Number::ONE).map(|amount| amount.decimal(0))
}

fn by_steps(amount: Number, least: Number, to: Number, fine: Number, coarse: Number) -> Result<String, Overflow> {
    if amount < least {
        return Ok("0".to_owned());
    }
    let step = if amount <= to { fine } else { coarse };
    amount.rounded_to(step).map(|amount| amount.decimal(0))
}

/// Energy, to whole kilojoules or kilocalories.
pub fn eu_energy(amount: Number) -> Result<String, Overflow> {
    amount.rounded_to(Number::ONE).map(|amount| amount.decimal(0))
}

/// Grams of fat, carbohydrate, sugars, protein or fibre: from 10 by ones; above 0.5 by tenths; else `<0.5`.
pub fn eu_grams(amount: Number) -> Result<String, Overflow> {
    if amount <= HALF {
        return Ok(if amount.is_zero() { "0" } else { "<0.5" }.to_owned());
    }
    let step = if amount >= Number::whole(10) { Number::ONE } else { TENTH };
    amount.rounded_to(step).map(|amount| amount.decimal(1))
}

/// Grams of saturates: from 10 by ones; above 0.1 by tenths; else `<0.1`.
pub fn eu_saturates(amount: Number) -> Result<String, Overflow> {
    if amount <= TENTH {
        return Ok(if amount.is_zero() { "0" } else { "<0.1" }.to_owned());
    }
    let step = if amount >= Number::whole(10) { Number::ONE } else { TENTH };
    amount.rounded_to(step).map(|amount| amount.decimal(1))
}

/// Grams of salt: from 1 by tenths; above 0.0125 by hundredths; else `<0.01`.
pub fn eu_salt(amount: Number) -> Result<String, Overflow> {
    if amount <= Number::constant(1, 80) {
        return Ok(if amount.is_zero() { "0" } else { "<0.01" }.to_owned());
    }
    let step = if amount >= Number::ONE { TENTH } else { Number::constant(1, 100) };
    amount.rounded_to(step).map(|amount| amount.decimal(2))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn n(thousandths: i128) -> Number {
        Number::fraction(thousandths, 1000).expect("not over nothing")
    }

    fn table(round: fn(Number) -> Result<String, Overflow>, rows: &[(i128, &str)]) {
        for (amount, shown) in rows {
            assert_eq!(round(n(*amount)).as_deref(), Ok(*shown), "{amount} thousandths");
        }
    }

    /// 21 CFR 101.9(c)(1) as FDA, A Food Labeling Guide, Appendix H, October 2009, prints it (seen).
    #[test]
    fn calories_at_every_boundary() {
        let rows =
            [(4_999, "0"), (5_000, "5"), (7_499, "5"), (7_500, "10"), (50_000, "50"), (50_001, "50"), (55_000, "60")];
        table(us_calories, &rows);
    }

    /// 21 CFR 101.9(c)(2) as FDA, A Food Labeling Guide, Appendix H, October 2009, prints it (seen).
    #[test]
    fn fat_at_every_boundary() {
        let rows = [(499, "0"), (500, "0.5"), (749, "0.5"), (750, "1"), (4_749, "4.5"), (4_750, "5"), (5_499, "5")];
        table(us_fat, &rows);
        table(us_fat, &[(5_500, "6")]);
    }

    /// 21 CFR 101.9(c)(4) as FDA, A Food Labeling Guide, Appendix H, October 2009, prints it (seen).
    #[test]
    fn sodium_at_every_boundary() {
        let rows = [(4_999, "0"), (5_000, "5"), (140_000, "140"), (140_001, "140"), (144_999, "140"), (145_000, "150")];
        table(us_sodium, &rows);
    }

    /// 21 CFR 101.9(c)(3) as FDA, A Food Labeling Guide, Appendix H, October 2009, prints it (seen); the others of 101.9(b)(8),
    /// (c)(8)(iii) and (d)(7)(ii) as public label programs quote them (seen).
    #[test]
    fn the_rest_of_the_american_table_at_every_boundary() {
        table(
            us_cholesterol,
            &[(1_999, "0"), (2_000, "less than 5"), (5_000, "less than 5"), (5_001, "5"), (7_500, "10")],
        );
        table(
            us_daily_trace,
            &[(1_999, "0"), (2_000, "2"), (2_999, "2"), (3_000, "4"), (10_000, "10"), (12_499, "10")],
        );
        table(us_daily_trace, &[(12_500, "15"), (50_000, "50"), (54_999, "50"), (55_000, "60")]);
        table(us_tens, &[(4_999, "0"), (5_000, "10")]);
        for (servings, shown, about) in
            [(1_000, "1", false), (1_400, "1", true), (2_300, "2.5", true), (4_500, "4.5", false), (5_500, "6", true)]
        {
            assert_eq!(us_servings(n(servings)), Ok((shown.to_owned(), about)), "{servings}");
        }
        table(eu_saturates, &[(0, "0"), (100, "<0.1"), (101, "0.1"), (9_949, "9.9"), (9_950, "10"), (12_400, "12")]);
    }

    /// 21 CFR 101.9(c)(6) and (7) as FDA, A Food Labeling Guide, Appendix H, October 2009, prints it (seen).
    #[test]
    fn carbohydrate_at_every_boundary() {
        table(us_grams, &[(499, "0"), (500, "less than 1"), (999, "less than 1"), (1_000, "1"), (1_500, "2")]);
    }

    /// European Commission, guidance on tolerances, 2012, table 4, as nutricalc.co.uk, Rounding Nutrition Values, and the wiki of
    /// nutritionix/nutrition-label print it (seen).
    #[test]
    fn european_figures_at_every_boundary() {
        let grams =
            [(0, "0"), (500, "<0.5"), (501, "0.5"), (9_949, "9.9"), (9_950, "10"), (10_000, "10"), (10_500, "11")];
        table(eu_grams, &grams);
        table(
            eu_salt,
            &[(0, "0"), (12, "<0.01"), (13, "0.01"), (994, "0.99"), (1_000, "1"), (1_049, "1"), (1_050, "1.1")],
        );
        table(eu_energy, &[(499, "0"), (500, "1")]);
    }
}
