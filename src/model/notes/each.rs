//! An amount that is for one piece: what all take together, where it is known how many there are.

use super::item::{FOR_EACH, Read};
use super::measure::measure;
use crate::language::for_each::is_for_each;
use crate::measure::number::Number;

impl Read {
    /// So much for each, of which there are so many: what all take together.
    pub(super) fn for_all(&mut self, pieces: Option<Number>) {
        let Some(at) = self.look.iter().position(|why| why == FOR_EACH) else { return };
        let is_each = |clause: &String| {
            let lower = clause.to_lowercase();
            ["each", "per "].iter().any(|word| lower.starts_with(word)) && !lower.contains(char::is_numeric)
        };
        let (Some(pieces), Some(clause)) = (pieces, self.clauses.iter().position(is_each)) else { return };
        let Some((one, _)) = measure(&self.amount).filter(|(_, rest)| rest.is_empty()) else { return };
        let all = one.value.and_then(|one| one.times(pieces).ok()).filter(|all| all.parts().1 <= 1000);
        let (Some(all), unit) = (all, one.known()) else { return };
        let unit = unit.map_or_else(String::new, |unit| format!(" {unit}"));
        let why = format!("{} {}, taken {} times", self.amount, self.clauses.remove(clause), pieces.decimal(3));
        self.amount = format!("{}{unit}", all.decimal(3));
        if let Some(look) = self.look.get_mut(at) {
            *look = why;
        }
    }

    /// Takes out what says only that the amount is for one piece: how many there are is asked in the mark, and no clause may say it.
    pub(super) fn drop_each(&mut self) {
        if self.clauses.iter().any(|clause| is_for_each(clause)) {
            self.clauses.retain(|clause| !is_for_each(clause));
            if !self.look.iter().any(|why| why == FOR_EACH) {
                self.look.push(FOR_EACH.to_owned());
            }
        }
    }
}
