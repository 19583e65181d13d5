//! Prose with names and measures in braces.

use super::{Rule, Scanner};

impl Scanner<'_, '_> {
    pub(super) fn prose(&mut self) -> Option<()> {
        while let Some(byte) = self.next() {
            if byte == b'{' {
                self.brace()?;
                continue;
            }
            let length = memchr::memchr3(b'{', b'}', b'\\', self.rest()).unwrap_or(self.rest().len());
            // A brace that closes nothing and a backslash.
            (length > 0).then_some(())?;
            self.sheet.leaf(Rule::plain, self.at, self.at + length);
            self.at += length;
        }
        Some(())
    }

    fn brace(&mut self) -> Option<()> {
        let opened = self.sheet.open(Rule::brace, self.at);
        self.mark(b'{')?;
        match self.next()? {
            b'0'..=b'9' => self.share_or_measure()?,
            b'-' | b'.' | b'}' => return None,
            b'r' | b'R' | b'h' | b'H' if self.begins_apart() => {
                if self.is_at("half") {
                    self.within(Rule::share, |line| {
                        line.sheet.leaf(Rule::half, line.at, line.at + 4);
                        line.words(&["half", "of"])?;
                        line.name(Rule::name)
                    })?;
                } else {
                    self.within(Rule::rest, |line| {
                        line.words(&["rest", "of"])?;
                        line.name(Rule::name)
                    })?;
                }
            }
            _ => self.within(Rule::mention, |line| line.name(Rule::name))?,
        }
        (self.next()? == b'}').then_some(())?;
        self.at += 1;
        self.sheet.close(opened, self.at);
        Some(())
    }

    /// `{half …` and `{rest …`, which may be shares; other names may begin with the same letters.
    fn begins_apart(&self) -> bool {
        let here = self.rest().get(..4).unwrap_or_default();
        here.eq_ignore_ascii_case(b"half") || here.eq_ignore_ascii_case(b"rest")
    }

    /// `{300 g of flour}` and `{5 min}`.
    fn share_or_measure(&mut self) -> Option<()> {
        let begins = self.at;
        let opened = self.sheet.open(Rule::measure, begins);
        self.chain()?;
        if self.next()? == b'}' {
            self.sheet.close(opened, self.at);
            return Some(());
        }
        self.sheet.back_to(opened);
        self.at = begins;
        self.within(Rule::share, |line| {
            line.quantity()?;
            line.word("of")?;
            line.name(Rule::name)
        })
    }
}
