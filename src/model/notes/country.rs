//! Whose spoons, cups and pints notes mean: told by an amount that is said twice, by words that one country has, else by its weights.

use super::amount;
use super::item::Read;
use super::measure::{Measure, measure};
use crate::measure::number::Number;
use crate::measure::unit::{Measures, Unit};

/// Words that only notes from the British Isles have. Common practice, no source.
#[rustfmt::skip]
const BRITISH: [&str; 12] = [
    "gas mark", "sr flour", "icing sugar", "golden syrup", "caster", "self-raising", "bicarb", "sultanas", "wholemeal", "treacle", "demerara", "grammes",
];

/// What is to be looked at where notes have pints and spoons: BS 1348 made spoons metric (from memory).
const OLD_SPOONS: &str = "; its spoons are 17.8 and 5.9 ml, and those in British kitchens 15 and 5: write spoons in ml, or pints, where they are those";

/// What was seen that tells it.
#[derive(Debug, Default)]
pub(super) struct Whose {
    /// The first line that uses such a measure.
    line: Option<String>,
    grams: bool,
    /// Whether a line has a measure that is larger than a spoon.
    cups: bool,
    /// Whether a tablespoon or a teaspoon stands there.
    spoons: bool,
    /// Whether a pint, a quart or a gallon stands there, which no metric kitchen has.
    pints: bool,
    /// Whether words stand there that only British notes have.
    british: Option<&'static str>,
    /// The first amount that is said in millilitres too, and whose measure it fits.
    pair: Option<(Measures, String)>,
}

impl Whose {
    /// Looks at an ingredient and the line that it comes from.
    pub(super) fn see(&mut self, read: &Read, line: &str) {
        if read.spoons && self.line.is_none() {
            self.line = Some(line.to_owned());
        }
        let has = |units: &[&str]| units.iter().any(|unit| read.amount.contains(unit));
        self.pints |= has(&[" pt", " qt", " gal", " fl oz"]);
        self.cups |= has(&[" cup"]);
        self.spoons |= has(&[" tsp", " tbsp"]);
        self.grams |= [" g", " kg", " ml", " l"].iter().any(|unit| read.amount.ends_with(unit));
        if self.pair.is_none() {
            self.pair = fitting(&read.amount).map(|whose| (whose, read.amount.clone()));
        }
        self.see_words(line);
    }

    /// Looks at words of the notes.
    pub(super) fn see_words(&mut self, text: &str) {
        let lower = text.to_lowercase();
        let stands = |word: &&&str| super::taken::has_word(&lower, word);
        // A gas grill is an American thing, an oven at gas 7 a British one.
        let gas = || super::heat::gas(&lower).map(|_| "gas");
        self.british = self.british.or_else(|| BRITISH.iter().find(stands).copied()).or_else(gas);
    }

    /// The line that says it, as the language writes it; the words of the notes; why it is marked. `None` where no such measure stands.
    pub(super) fn said(&self, not_said: &str) -> Option<(String, String, String)> {
        let line = self.line.clone()?;
        let not_said = format!("{not_said} whose spoons and cups");
        let (whose, why) = match (&self.pair, self.british) {
            // `150 ml = 5 fl oz` fits both, and every British book has it.
            (Some((Measures::Us, amount)), Some(word)) if !amount.contains("cup") => {
                (Measures::Imperial, format!("{not_said}: `{word}` is British"))
            }
            (Some((whose, amount)), _) => (*whose, format!("{not_said}: {amount} fits these")),
            (None, Some(word)) if self.pints && !self.cups => {
                (Measures::Imperial, format!("{not_said}: `{word}` is British"))
            }
            (None, Some(word)) if !self.pints => (Measures::Metric, format!("{not_said}: `{word}` is British")),
            (None, _) if self.grams && !self.cups && !self.pints => (Measures::Metric, not_said),
            (None, _) => (Measures::Us, not_said),
        };
        // The spoons of the imperial measure are those of before the metric ones.
        let spoons = if whose == Measures::Imperial && self.spoons { OLD_SPOONS } else { "" };
        Some((format!("measures {}", whose.word()), line, format!("{why}{spoons}")))
    }
}

/// Whose measure an amount fits that is said in millilitres or litres too: `150 ml = 1/4 pt`. `None` where none is within a tenth, and
/// where a spoon or a cup is near more than one.
fn fitting(amount: &str) -> Option<Measures> {
    // `1 cup 2 tbsp` is more than the cup.
    let whole = |term| measure(term).filter(|(_, rest)| rest.trim().is_empty()).map(|(one, _)| one);
    let terms: Vec<Measure> = amount.split(" = ").filter_map(whole).collect();
    let size = |one: &Measure, whose| {
        let unit = Unit::from_word(one.known()?)?;
        one.value?.times(unit.size(Some(whose))?).ok()
    };
    let is_metric = |one: &&Measure| matches!(one.known(), Some("ml" | "cl" | "dl" | "l"));
    let said = terms.iter().find(is_metric)?;
    let millilitres = size(said, Measures::Metric).filter(|millilitres| millilitres.is_positive())?;
    let other = terms.iter().find(|one| matches!(one.unit, Some(amount::Unit::Spoon(_))))?;
    // Spoons are too near to each other for print that rounds.
    if matches!(other.known(), Some("tsp" | "tbsp")) {
        return None;
    }
    // 250 ml is a metric cup and 240 ml the US one, as print rounds it: the nearer of the two.
    let off = |whose| {
        let off = size(other, whose)?.minus(millilitres).ok()?.size().over(millilitres).ok()?;
        (off <= Number::fraction(1, 10)?).then_some((off, whose))
    };
    let all = [Measures::Us, Measures::Metric, Measures::Imperial].into_iter().filter_map(off);
    all.min_by(|(one, _), (other, _)| one.cmp(other)).map(|(_, whose)| whose)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sizes of the measures as in `measure::unit`; the pairs are what cookbooks print, from memory.
    #[test]
    fn the_measure_that_fits_is_the_one() {
        use Measures::{Imperial, Metric, Us};
        for (amount, wanted) in [
            ("150 ml = 1/4 pt", Some(Imperial)),
            ("300 ml = 1/2 pt", Some(Imperial)),
            ("600 ml = 1 pt", Some(Imperial)),
            ("475 ml = 1 pt", Some(Us)),
            ("250 ml = 1 cup", Some(Metric)),
            ("240 ml = 1 cup", Some(Us)),
            ("60 ml = 1/4 cup", Some(Us)),
            ("30 ml = 2 tbsp", None),
            ("400 ml = 1 cup", None),
            ("225 g = 8 oz", None),
        ] {
            assert_eq!(fitting(amount), wanted, "{amount}");
        }
    }
}
