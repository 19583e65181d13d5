//! A printed figure as a value: digits and units, the other system's reading, a word such as `at least`. It becomes text
//! when an output writes it, and nothing takes that text apart again.

use serde::{Serialize, Serializer};
use std::fmt::{self, Display};

/// Some digits and what they count.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Digits {
    /// `24.3`, `5 1/2`, `14–16`.
    pub digits: String,
    /// `g`, `°C`; empty for a bare number.
    pub unit: &'static str,
}

impl Digits {
    /// Digits with their unit.
    pub fn new(digits: impl Into<String>, unit: &'static str) -> Digits {
        Digits { digits: digits.into(), unit }
    }

    /// How many digits stand behind the point.
    pub fn decimals(&self) -> usize {
        self.digits.split_once('.').map_or(0, |(_, fraction)| fraction.len())
    }
}

/// A printed figure.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Shown {
    /// What binds it: `at least`; mostly nothing.
    pub bound: &'static str,
    /// The figure, term by term: `2 lb`, `3 1/4 oz`.
    pub terms: Vec<Digits>,
    /// What stands in place of a figure: `to taste`.
    pub words: String,
    /// The same in the reader's second system.
    pub also: Option<Box<Shown>>,
}

impl Shown {
    /// One number and its unit.
    pub fn new(digits: impl Into<String>, unit: &'static str) -> Shown {
        Shown { terms: vec![Digits::new(digits, unit)], ..Shown::default() }
    }

    /// Words in place of a figure.
    pub fn words(words: impl Into<String>) -> Shown {
        Shown { words: words.into(), ..Shown::default() }
    }

    /// A figure with its bound before it. Of what is at least nothing, nothing is known.
    pub fn bound(self, bound: &'static str) -> Shown {
        let is_nothing = |digits: &Digits| digits.digits.chars().all(|sign| matches!(sign, '0' | '.'));
        if bound.starts_with("at least") && !self.terms.is_empty() && self.terms.iter().all(is_nothing) {
            return Shown::words("not known");
        }
        Shown { bound, ..self }
    }

    /// A figure with the other system's reading behind it.
    pub fn also(self, other: Shown) -> Shown {
        Shown { also: Some(Box::new(other)), ..self }
    }

    /// From one to another: the unit is said once where it is the same.
    pub fn to(self, high: Shown) -> Shown {
        match (self.terms.as_slice(), high.terms.as_slice()) {
            ([low], [top]) if low.unit == top.unit && self.also.is_some() == high.also.is_some() => {
                let first = Shown::new(format!("{}–{}", low.digits, top.digits), low.unit);
                match (self.also, high.also) {
                    (Some(also), Some(top)) => first.also(also.to(*top)),
                    _ => first,
                }
            }
            _ => Shown::words(format!("{self} – {high}")),
        }
    }

    /// Whether there is nothing to print.
    pub fn is_empty(&self) -> bool {
        self.terms.is_empty() && self.words.is_empty()
    }

    /// The one number that it is, where it stands by itself and so can stand under others; with its second reading.
    pub fn single(&self) -> Option<(&Digits, Option<&Shown>)> {
        match self.terms.as_slice() {
            [one] if self.bound.is_empty() && self.words.is_empty() => Some((one, self.also.as_deref())),
            _ => None,
        }
    }

    /// The same without its second reading.
    pub fn first(&self) -> Shown {
        Shown { also: None, ..self.clone() }
    }

    /// As text in which no figure breaks from its unit.
    pub fn unbroken(&self) -> String {
        self.to_string().replace(' ', "\u{A0}")
    }

    /// Whether it is counted in this unit.
    pub fn is_in(&self, unit: &str) -> bool {
        self.terms.last().is_some_and(|last| last.unit == unit)
    }
}

impl Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::from(self.bound);
        for term in &self.terms {
            for word in [term.digits.as_str(), term.unit].into_iter().filter(|word| !word.is_empty()) {
                if !text.is_empty() {
                    text.push(' ');
                }
                text.push_str(word);
            }
        }
        if !self.words.is_empty() {
            if !text.is_empty() {
                text.push(' ');
            }
            text.push_str(&self.words);
        }
        if let Some(also) = &self.also {
            text.push_str(&format!(" ({also})"));
        }
        f.pad(&text)
    }
}

impl From<String> for Shown {
    fn from(words: String) -> Shown {
        Shown::words(words)
    }
}

impl From<Shown> for String {
    fn from(shown: Shown) -> String {
        shown.to_string()
    }
}

impl Serialize for Shown {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_keeps_its_bound_and_its_second_reading() {
        let shown = Shown::new("24.3", "g").also(Shown::new("0.85", "oz")).bound("at least");
        assert_eq!(shown.to_string(), "at least 24.3 g (0.85 oz)");
        assert_eq!(format!("{:>6}|", Shown::new("5", "g")), "   5 g|");
        assert!(shown.single().is_none());
        assert!(Shown::default().is_empty());
    }

    #[test]
    fn a_range_says_its_unit_once() {
        assert_eq!(Shown::new("94", "°C").to(Shown::new("96", "°C")).to_string(), "94–96 °C");
        let pounds = Shown { terms: vec![Digits::new("1", "lb"), Digits::new("2", "oz")], ..Shown::default() };
        assert_eq!(Shown::new("15", "oz").to(pounds).to_string(), "15 oz – 1 lb 2 oz");
    }
}
