//! The lines of an ingredient block: the larder that the program brings has some twenty of them for each ingredient that a recipe names.

use super::{Rule, Scanner};

/// Words before a share or another figure.
const FACTS: [&str; 14] = [
    "water",
    "fat",
    "saturates",
    "trans fat",
    "salt",
    "sugar",
    "added sugar",
    "polyols",
    "protein",
    "carbohydrate",
    "fibre",
    "acid",
    "alcohol",
    "yield",
];

const FLAGS: [&str; 11] = [
    "counts as flour",
    "not flour",
    "not vegan",
    "not vegetarian",
    "raw flour",
    "raw egg",
    "ready to eat",
    "bought by the litre",
    "bought by the piece",
    "bought by weight",
    "compound",
];

impl Scanner<'_, '_> {
    /// A line of such a block, to its end; none but a weight by the cup hangs on an option.
    pub(super) fn larder(&mut self, rule: Rule) -> Option<()> {
        match rule {
            Rule::fact_line => {
                self.one_of(Rule::fact_word, &FACTS)?;
                self.quantity()?;
            }
            Rule::trace_line if self.is_at("vitamin d") => {
                self.one_of(Rule::vitamin_word, &["vitamin d"])?;
                self.number()?;
                self.word("ug").or_else(|| self.word("mcg"))?;
            }
            Rule::trace_line => {
                self.one_of(Rule::trace_word, &["cholesterol", "calcium", "iron", "potassium"])?;
                self.number()?;
                self.word("mg")?;
            }
            Rule::energy_line => {
                self.word("energy")?;
                self.number()?;
                self.word("kcal")?;
            }
            Rule::nitrogen_line => {
                self.words(&["nitrogen", "factor"])?;
                self.number()?;
            }
            Rule::one_weighs_line => {
                self.words(&["one", "weighs"])?;
                self.quantity()?;
            }
            Rule::weighs_line => {
                self.weighs()?;
                return self.finish();
            }
            Rule::costs_line => self.costs()?,
            Rule::flag_line => self.one_of(Rule::flag, &FLAGS)?,
            Rule::is_line => {
                self.word("is")?;
                self.name(Rule::name)?;
            }
            Rule::names_line => {
                self.one_of(Rule::names_word, &["also called", "contains"])?;
                self.name(Rule::name)?;
                while self.next() == Some(b',') {
                    self.mark(b',')?;
                    self.name(Rule::name)?;
                }
            }
            Rule::free_line => {
                self.one_of(Rule::free_word, &["source", "section", "listed as", "consists of"])?;
                let length = self.rest().len();
                self.stretch(Rule::sentence, length)?;
            }
            _ => return None,
        }
        (self.at == self.bytes.len()).then_some(())
    }

    /// `weighs 145 g per cup US`.
    fn weighs(&mut self) -> Option<()> {
        self.word("weighs")?;
        self.quantity()?;
        self.word("per")?;
        self.measure()?;
        if self.next().is_some_and(|byte| byte != b'[') {
            self.name(Rule::name)?;
        }
        Some(())
    }

    /// `costs 1.20 EUR per kg, on 2026-03-01`.
    fn costs(&mut self) -> Option<()> {
        self.word("costs")?;
        self.number()?;
        if !self.is_at("per") {
            let length = self.letters().len();
            (length > 0 && self.rest().get(length) == Some(&b' ')).then_some(())?;
            self.sheet.leaf(Rule::currency, self.at, self.at + length);
            self.at += length;
            self.blanks();
        }
        self.word("per")?;
        self.measure()?;
        if self.next() == Some(b',') {
            self.mark(b',')?;
            self.word("on")?;
            self.within(Rule::date, |line| {
                line.digits()?;
                line.hyphen()?;
                line.digits()?;
                line.hyphen()?;
                line.digits()
            })?;
        }
        Some(())
    }

    /// What something is the weight or the price of: a unit, perhaps so many of it. The unit is a word by itself.
    fn measure(&mut self) -> Option<()> {
        if self.next()?.is_ascii_digit() {
            self.number()?;
        }
        let (before, length) = (self.at, self.letters().len());
        let is_word = length > 0 && self.rest().get(length).is_none_or(|behind| matches!(behind, b' ' | b','));
        is_word.then_some(())?;
        self.unit()?;
        (self.at > before).then_some(())
    }

    fn digits(&mut self) -> Option<()> {
        let start = self.at;
        self.figures()?;
        self.sheet.leaf(Rule::digits, start, self.at);
        Some(())
    }

    fn hyphen(&mut self) -> Option<()> {
        (self.next()? == b'-').then_some(())?;
        self.at += 1;
        Some(())
    }
}
