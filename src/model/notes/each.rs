//! An amount that is for one piece: what all take together, where it is known how many there are.

use super::item::{FOR_EACH, Made, Read};
use super::manner::is_figure;
use super::measure::measure;
use super::unweighed::is_known;
use super::verbs::is_verb;
use crate::language::for_each::is_for_each;
use crate::measure::number::Number;

/// Why a mark stands where so much is put on or into each piece.
pub(super) const FOR_EACH_ONE: &str =
    "so much goes onto or into each: list it `per piece` where the parts come together";

impl Read {
    /// Whether a line says what is done with each piece, of something that is listed elsewhere: `fill 35 g each`, `Glaze 10 g each`.
    pub(super) fn is_done_with_each(&self) -> bool {
        let is_verb = !self.name.contains(' ') && is_verb(&self.name.to_lowercase());
        is_verb && self.look.iter().any(|why| why == FOR_EACH)
    }

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

/// `50 g each butter and lard`, `butter and lard, 50 g each`: so much of each.
pub(super) fn of_each(text: &str) -> Option<Vec<Read>> {
    let behind = measure(text).and_then(|(amount, rest)| {
        let rest = rest.trim_start();
        let names = ["each", "ea. ", "ea "].into_iter().find_map(|word| rest.strip_prefix(word))?;
        let names = names.trim_start_matches([':', ' ', ',']);
        Some((amount, names.strip_prefix("of ").unwrap_or(names)))
    });
    let before = || {
        let whole = text.strip_suffix(" each")?;
        let (names, amount) = whole.rsplit_once(", ").or_else(|| whole.rsplit_once(": "))?;
        let (amount, rest) = measure(amount)?;
        rest.trim().is_empty().then_some((amount, names))
    };
    let (amount, names) = behind.or_else(before)?;
    let (names, manner) = without_manner_of_all(names);
    let names: Vec<&str> =
        names.split(", ").flat_map(|names| names.split(" and ")).flat_map(|names| names.split(" & ")).collect();
    if names.len() < 2 || !amount.is_quantity() || names.iter().any(|name| name.split_whitespace().any(is_figure)) {
        return None;
    }
    let last = names.last().and_then(|name| name.split_whitespace().last()).unwrap_or_default();
    let all = names.iter().map(|name| {
        // `white and brown sugar` are two sugars.
        let whole = format!("{name} {last}");
        let is_shade = || SHADES.iter().any(|shade| name.eq_ignore_ascii_case(shade)) && is_known(last);
        let is_cut = is_shade() || !is_known(name) && is_known(&whole);
        let name = if is_cut { whole.as_str() } else { name };
        let mut read = Made::of(amount.clone()).named(&format!("{name}{manner}"))?;
        read.look.push("so much of each".to_owned());
        Some(read)
    });
    all.collect()
}

/// Words that say of which kind something is, and name nothing by themselves.
const SHADES: [&str; 8] = ["white", "brown", "dark", "light", "black", "red", "green", "golden"];

/// Names, and how all that they name is prepared, with its comma: behind the last `and` a comma begins no other name, `raisins, currants and
/// peel, chopped`.
fn without_manner_of_all(names: &str) -> (&str, &str) {
    let last = [" and ", " & "].into_iter().filter_map(|joint| names.rfind(joint).map(|at| at + joint.len())).max();
    let comma = last.and_then(|from| Some(from + names.get(from..)?.find(", ")?));
    let cut = comma.and_then(|at| names.split_at_checked(at));
    cut.filter(|(_, manner)| !is_known(manner.trim_start_matches([',', ' ']))).unwrap_or((names, ""))
}
