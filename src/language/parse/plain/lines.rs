//! The lines of a recipe.

use super::{Rule, Scanner};

/// Clauses of an ingredient that begin otherwise say how it is prepared.
const CLAUSE_WORDS: [&[u8]; 11] =
    [b"at", b"yield", b"counts", b"not", b"optional", b"aside", b"strained", b"from", b"leaves", b"before", b"instead"];

impl Scanner<'_, '_> {
    pub(super) fn line(&mut self, rule: Rule) -> Option<()> {
        match rule {
            Rule::ingredient_line => self.ingredient()?,
            Rule::step_line => self.step()?,
            Rule::text_line => {
                self.one_of(Rule::text_word, &["note", "caution", "credit", "story"])?;
                self.text()?;
            }
            Rule::sale_line => {
                self.one_of(Rule::sale_word, &["store", "batch", "business", "origin", "directions"])?;
                self.text()?;
            }
            Rule::titled_line => {
                self.one_of(Rule::title_word, &["recipe", "kitchen", "day", "ingredient"])?;
                self.name(Rule::name)?;
            }
            Rule::part_line => self.part()?,
            Rule::percent_line => {
                self.words(&["percent", "of"])?;
                self.name(Rule::name)?;
            }
            Rule::per_piece_line => {
                self.word("per")?;
                self.within(Rule::per_piece, |line| line.word("piece"))?;
            }
            Rule::divide_line => self.divide()?,
            Rule::makes_line => self.makes()?,
            Rule::keeps_line => self.keeps()?,
            Rule::spare_line => {
                self.word("spare")?;
                self.chain()?;
            }
            Rule::desired_line => {
                self.words(&["desired", "temperature"])?;
                self.chain()?;
            }
            Rule::best_line => {
                self.words(&["best", "before"])?;
                self.quantity()?;
            }
            Rule::serving_line => {
                self.word("serving")?;
                self.quantity()?;
            }
            Rule::use_line => {
                self.word("use")?;
                self.string()?;
            }
            Rule::picture_line => {
                self.word("picture")?;
                self.string()?;
                self.mark(b',')?;
                self.text()?;
            }
            Rule::author_line => {
                self.word("by")?;
                self.text()?;
            }
            Rule::filed_line => {
                self.words(&["filed", "under"])?;
                self.name(Rule::name)?;
                while self.next() == Some(b',') {
                    self.mark(b',')?;
                    self.name(Rule::name)?;
                }
            }
            Rule::choose_line => return self.choose(),
            _ => return self.larder(rule),
        }
        self.finish()
    }

    fn ingredient(&mut self) -> Option<()> {
        self.name(Rule::name)?;
        let dots = self.rest().iter().take_while(|byte| **byte == b'.').count();
        self.sheet.leaf(Rule::leader, self.at, self.at + dots);
        self.at += dots;
        (dots > 1).then_some(())?;
        self.blanks();
        self.within(Rule::amount, |line| match line.next()? {
            b'0'..=b'9' => line.chain(),
            b't' | b'T' => line.within(Rule::to_taste, |line| line.words(&["to", "taste"])),
            b'a' | b'A' if line.is_at("all") => line.within(Rule::all, |line| line.word("all")),
            b'a' | b'A' => line.within(Rule::as_needed, |line| line.words(&["as", "needed"])),
            _ => None,
        })?;
        self.ends()?;
        self.clauses(Rule::ingredient_clause, Self::ingredient_clause)
    }

    /// All clauses of a line.
    fn clauses(&mut self, rule: Rule, read: impl Fn(&mut Self) -> Option<()>) -> Option<()> {
        while self.next() == Some(b',') {
            self.mark(b',')?;
            self.within(rule, &read)?;
            self.ends()?;
        }
        Some(())
    }

    fn ingredient_clause(&mut self) -> Option<()> {
        let rest = self.rest();
        let begins = |word: &[u8]| rest.get(..word.len()).is_some_and(|here| here.eq_ignore_ascii_case(word));
        if !CLAUSE_WORDS.iter().any(|word| begins(word)) {
            let length = memchr::memchr2(b',', b'[', rest).unwrap_or(rest.len());
            return self.stretch(Rule::preparation, length);
        }
        match self.letters() {
            b"at" => self.at_heat(),
            b"yield" => self.within(Rule::yields, |line| {
                line.word("yield")?;
                line.quantity()
            }),
            b"optional" => self.within(Rule::optional, |line| line.word("optional")),
            b"aside" => self.within(Rule::aside, |line| line.word("aside")),
            _ => None,
        }
    }

    /// So many bytes of any text; of what may begin with a wide blank pest has to say where it begins.
    pub(super) fn stretch(&mut self, rule: Rule, length: usize) -> Option<()> {
        (length > 0 && self.next()?.is_ascii()).then_some(())?;
        self.sheet.leaf(rule, self.at, self.at + length);
        self.at += length;
        Some(())
    }

    fn at_heat(&mut self) -> Option<()> {
        self.within(Rule::at, |line| {
            line.word("at")?;
            line.chain()
        })
    }

    fn step(&mut self) -> Option<()> {
        self.name(Rule::name)?;
        self.mark(b':')?;
        self.one_of(Rule::kind, &["hands", "tend", "wait"])?;
        self.quantity()?;
        self.ends()?;
        self.clauses(Rule::step_clause, Self::step_clause)
    }

    fn step_clause(&mut self) -> Option<()> {
        match self.letters() {
            b"at" => self.at_heat(),
            b"using" => self.within(Rule::using, Self::using),
            b"each" => self.within(Rule::each, |line| line.word("each")),
            b"" => self.within(Rule::at_a_time, |line| {
                line.number()?;
                line.words(&["at", "a", "time"])
            }),
            b"up" => self.within(Rule::up_to, |line| {
                line.words(&["up", "to"])?;
                line.quantity()
            }),
            b"may" => self.within(Rule::may_stand, |line| {
                line.words(&["may", "stand"])?;
                line.quantity()
            }),
            b"straight" => self.within(Rule::straight_after, |line| {
                line.words(&["straight", "after"])?;
                line.name(Rule::name)
            }),
            b"after" => self.named(Rule::after, "after"),
            b"during" => self.named(Rule::during, "during"),
            b"before" => self.named(Rule::before, "before"),
            b"station" => self.named(Rule::station, "station"),
            _ => None,
        }
    }

    /// A word and a name.
    fn named(&mut self, rule: Rule, word: &str) -> Option<()> {
        self.within(rule, |line| {
            line.word(word)?;
            line.name(Rule::name)
        })
    }

    fn using(&mut self) -> Option<()> {
        self.word("using")?;
        // `oven at 220 C`: the heat is no part of the name.
        let is_heat = |rest: &[u8]| {
            let (Some(word), Some(behind)) = (rest.get(..2), rest.get(2..)) else { return false };
            let figures = behind.trim_ascii_start();
            word.eq_ignore_ascii_case(b"at")
                && figures.len() < behind.len()
                && figures.first().is_some_and(|byte| byte.is_ascii_digit() || matches!(byte, b'-' | b'+'))
        };
        self.name_until(Rule::equipment, is_heat)?;
        if is_heat(self.rest()) {
            self.word("at")?;
            self.chain()?;
        }
        Some(())
    }

    /// One of these words, which the grammar keeps, and the blanks behind it.
    pub(super) fn one_of(&mut self, rule: Rule, words: &[&'static str]) -> Option<()> {
        let word = words.iter().find(|word| self.is_at(word))?;
        self.sheet.leaf(rule, self.at, self.at + word.len());
        self.word(word)
    }

    /// Words up to the end or to a condition that stands there.
    fn text(&mut self) -> Option<()> {
        let rest = self.rest();
        if memchr::memchr(b'\\', rest).is_some() {
            return None;
        }
        let length = memchr::memchr(b'[', rest).unwrap_or(rest.len());
        self.stretch(Rule::text, length)
    }

    fn string(&mut self) -> Option<()> {
        self.within(Rule::string, |line| {
            (line.next()? == b'"').then_some(())?;
            line.at += 1;
            let length = memchr::memchr(b'"', line.rest())?;
            line.sheet.leaf(Rule::inside, line.at, line.at + length);
            line.at += length + 1;
            Some(())
        })?;
        self.blanks();
        Some(())
    }

    fn part(&mut self) -> Option<()> {
        self.word("part")?;
        self.name(Rule::name)?;
        if self.next() == Some(b',') {
            self.mark(b',')?;
            self.word("from")?;
            self.name(Rule::name)?;
        }
        Some(())
    }

    fn divide(&mut self) -> Option<()> {
        self.word("divide")?;
        self.within(Rule::sized, |line| {
            line.number()?;
            line.word("x")?;
            line.chain()
        })?;
        self.ends()?;
        while self.next() == Some(b',') {
            self.mark(b',')?;
            self.loss(Rule::loss)?;
            self.ends()?;
        }
        Some(())
    }

    fn loss(&mut self, rule: Rule) -> Option<()> {
        self.within(rule, |line| {
            line.word("loss")?;
            line.quantity()
        })
    }

    fn makes(&mut self) -> Option<()> {
        self.word("makes")?;
        let begins = self.at;
        let opened = self.sheet.open(Rule::pieces, begins);
        self.number()?;
        let unit = self.letters();
        if ["mg", "kg", "g", "oz", "lb"].iter().any(|mass| unit.eq_ignore_ascii_case(mass.as_bytes())) {
            self.sheet.back_to(opened);
            self.at = begins;
            self.within(Rule::mass_chain, Self::chain)?;
        } else {
            (self.next()? != b'-').then_some(())?;
            self.name(Rule::name)?;
            self.sheet.close(opened, self.at);
        }
        self.ends()?;
        while self.next() == Some(b',') {
            self.mark(b',')?;
            if self.is_at("bake") {
                self.within(Rule::bake_loss, |line| {
                    line.words(&["bake", "loss"])?;
                    line.quantity()
                })?;
            } else {
                self.loss(Rule::makes_loss)?;
            }
            self.ends()?;
        }
        Some(())
    }

    fn keeps(&mut self) -> Option<()> {
        self.word("keeps")?;
        self.quantity()?;
        self.ends()?;
        while self.next() == Some(b',') {
            self.mark(b',')?;
            match self.letters() {
                b"chilled" => self.within(Rule::chilled, |line| line.word("chilled"))?,
                b"frozen" => self.within(Rule::frozen, |line| line.word("frozen"))?,
                _ => self.at_heat()?,
            }
            self.ends()?;
        }
        Some(())
    }

    fn choose(&mut self) -> Option<()> {
        self.word("choose")?;
        self.name(Rule::name)?;
        self.mark(b':')?;
        let is_or = |rest: &[u8]| matches!(rest, [o, r, b' ' | b'\t', ..] if o.eq_ignore_ascii_case(&b'o') && r.eq_ignore_ascii_case(&b'r'));
        self.within(Rule::options, |line| {
            line.name_until(Rule::option, is_or)?;
            while is_or(line.rest()) {
                line.word("or")?;
                line.name_until(Rule::option, is_or)?;
            }
            Some(())
        })?;
        (self.at == self.bytes.len()).then_some(())
    }
}
