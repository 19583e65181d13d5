//! What a share beside an amount is, `250 ml vinegar (5 %)`: what the thing holds, or how much of it goes in, as bakers count by the
//! flour.
//!
//! The weights tell: what fits the flour is counted by the flour. What does not fit, of a thing that is sold by what it holds, is that.
//! Of everything else it is asked.

use super::entry::Item;
use super::measure::{Measure, measure};
use super::method::AGAIN;
use super::part::Part;
use super::strength::{holds, kind};
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::model::kind::Kind;
use crate::model::larder::Larder;

/// Why a mark stands at a share of which it is not known what it is of.
const OF_WHAT: &str = "what it holds, or how much goes in?";

/// A line of the list.
struct Listed {
    name: String,
    kind: Kind,
    /// Grams; of a volume as if each millilitre weighed one.
    weight: Option<Number>,
    is_volume: bool,
    /// The share, and its figures as they were written.
    share: Option<(Number, String)>,
    /// Another share of the same line, `butter (82 %) 50 %`.
    second: Option<(Number, String)>,
    /// The amount without the share, and the words behind it with their comma.
    rest: Option<(String, String)>,
}

impl Listed {
    fn of(item: &Item) -> Option<Listed> {
        let [line] = item.lines.as_slice() else { return None };
        let (name, said) = line.split_once(" .. ").filter(|_| item.taken)?;
        let (amount, clauses) = match said.split_once(", ") {
            Some((amount, clauses)) => (amount, format!(", {clauses}")),
            None => (said, String::new()),
        };
        let terms: Vec<Measure> = amount.split(" = ").filter_map(|term| Some(measure(term)?.0)).collect();
        let mut shares = terms.iter().filter(|term| term.known() == Some("%"));
        let figures = |share: &Measure| Some((share.value?, share.shown.trim_end_matches([' ', '%']).to_owned()));
        let weighed = terms.iter().find(|term| term.is_mass()).or_else(|| terms.iter().find(|term| term.is_quantity()));
        let first = AGAIN.iter().find_map(|again| name.strip_prefix(again)?.strip_prefix(' ')).unwrap_or(name);
        let facts = Larder::new().find(&Key::new(first));
        let others: Vec<&str> = amount.split(" = ").filter(|term| !term.trim_end().ends_with('%')).collect();
        Some(Listed {
            name: first.to_owned(),
            kind: kind(first, facts.as_deref()),
            weight: weighed.and_then(size),
            is_volume: weighed.is_some_and(|one| !one.is_mass()),
            share: shares.next().and_then(figures),
            second: shares.next().and_then(figures),
            rest: weighed.is_some().then(|| (others.join(" = "), clauses)),
        })
    }

    /// Takes the second of two shares out of the amount: as what the thing holds, if one of them can be that.
    fn without_second(&mut self, item: &mut Item) {
        let Some(((first, second), (amount, clauses))) =
            self.share.clone().zip(self.second.take()).zip(self.rest.as_mut())
        else {
            return;
        };
        let may = |share: &(Number, String)| holds(&self.name, self.kind, share.0);
        let (counted, held) = if may(&second) || !may(&first) { (first, second) } else { (second, first) };
        let sure = may(&held) && !may(&counted);
        *clauses = format!(", of {} %{clauses}", held.1);
        let name = item.lines.first().and_then(|line| line.split_once(" .. ")).map(|(name, _)| name.to_owned());
        item.lines = vec![format!("{} .. {amount} = {} %{clauses}", name.unwrap_or_default(), counted.1)];
        if !sure {
            mark(item, OF_WHAT);
        }
        self.share = Some(counted);
    }

    fn is_flour(&self) -> bool {
        self.kind == Kind::Flour || self.kind == Kind::Other && self.name.to_lowercase().contains("flour")
    }

    /// Whether the share is one of a weight, within what the digits and so many hundredths leave open.
    fn fits(&self, base: Number, hundredths: i64) -> bool {
        let fit = || {
            let (share, shown) = self.share.as_ref()?;
            let weight = self.weight?;
            let by_share = base.times(*share).ok()?.over(Number::whole(100)).ok()?;
            let places = u32::try_from(shown.split_once('.').map_or(0, |(_, places)| places.len())).ok()?;
            let digit = Number::fraction(1, 200_i128.checked_mul(10_i128.checked_pow(places)?)?)?;
            let open =
                weight.times(Number::fraction(hundredths.into(), 100)?).ok()?.plus(base.times(digit).ok()?).ok()?;
            Some(weight.minus(by_share).ok()?.size() <= open)
        };
        fit().unwrap_or(false)
    }

    fn is_of(&self, bases: &[Number]) -> bool {
        bases.iter().any(|base| self.fits(*base, if self.is_volume { 10 } else { 3 }))
    }

    /// Whether the weights say that the share is none of the flour. What a millilitre weighs is not known so well.
    fn is_none_of(&self, bases: &[Number]) -> bool {
        let known = self.weight.is_some() && !bases.is_empty();
        known && !bases.iter().any(|base| self.fits(*base, if self.is_volume { 40 } else { 3 }))
    }

    /// Whether the thing is sold by what it holds, and such a share of it is usual.
    fn may_hold(&self) -> bool {
        self.share.as_ref().is_some_and(|(share, _)| holds(&self.name, self.kind, *share))
    }

    /// Whether nothing of this kind is sold by a share that it holds.
    fn holds_none(&self) -> bool {
        use Kind::{BakingPowder, Egg, Flour, Ice, RaisingAgent, Salt, Soda, Starch, Sugar, Water, Yeast};
        let plain = [BakingPowder, Egg, Flour, Ice, RaisingAgent, Salt, Soda, Starch, Sugar, Water];
        plain.contains(&self.kind) || matches!(self.kind, Yeast(_))
    }
}

/// Grams or millilitres of an amount of one figure.
fn size(one: &Measure) -> Option<Number> {
    let unit = Unit::from_word(one.known()?)?;
    one.value?.times(unit.size(None)?).ok()
}

/// Settles what each share beside an amount is.
pub(super) fn settle(parts: &mut [Part]) {
    let read = |part: &Part| part.ingredients.iter().map(Listed::of).collect::<Vec<_>>();
    let mut all: Vec<Vec<Option<Listed>>> = parts.iter().map(read).collect();
    // Of two shares the one that the thing may hold is what it holds, where the other is not such a one.
    for (item, line) in parts.iter_mut().flat_map(|part| &mut part.ingredients).zip(all.iter_mut().flatten()) {
        if let Some(line) = line {
            line.without_second(item);
        }
    }
    let each = || all.iter().flatten().flatten();
    let whole = flour(each());
    // Shares that cannot be what a thing holds, beside no weight or beside one.
    let alone = each().filter(|line| line.rest.is_none() && line.share.is_some() && !line.may_hold()).count();
    let are_others_weighed = each().any(|line| line.share.is_none() && line.weight.is_some());
    // Flour of which only the share is said is as good as weighed: the others tell how much it is.
    let is_flour_given = each().any(|line| line.is_flour() && line.share.is_some());
    let counts = each().any(|line| line.share.is_some() && !line.may_hold());
    for (part, lines) in parts.iter_mut().zip(&all) {
        let bases: Vec<Number> =
            [flour(lines.iter().flatten()), whole, own_base(lines)].into_iter().flatten().collect();
        let is_table = lines.iter().flatten().filter(|line| line.share.is_some() && line.is_of(&bases)).count() > 1;
        for (item, line) in part.ingredients.iter_mut().zip(lines) {
            let Some(line) = line else { continue };
            let Some((_, shown)) = &line.share else { continue };
            let Some((amount, clauses)) = &line.rest else {
                // `cream 35 %` alone, where everything else is weighed.
                if line.may_hold() && alone == 0 {
                    mark(item, OF_WHAT);
                }
                continue;
            };
            if line.is_of(&bases) {
                continue;
            }
            // `sea salt 90 g (5 %)` where no flour is weighed: of what, a person knows.
            if bases.is_empty() && are_others_weighed && !is_flour_given && line.holds_none() {
                let name = item.lines.first().and_then(|line| line.split_once(" .. ")).map(|(name, _)| name.to_owned());
                if let Some(name) = name {
                    item.lines = vec![format!("{name} .. {amount}, {shown} %{clauses}")];
                    mark(item, &format!("{shown} % of what?"));
                }
                continue;
            }
            let name = item.lines.first().and_then(|line| line.split_once(" .. ")).map(|(name, _)| name.to_owned());
            let Some(name) = name else { continue };
            let is_none_of = line.is_none_of(&bases);
            if line.may_hold() {
                item.lines = vec![format!("{name} .. {amount}, of {shown} %{clauses}")];
                if counts && !is_none_of {
                    mark(item, OF_WHAT);
                }
            } else if line.kind == Kind::Leaven && !is_table {
                item.lines = vec![format!("{name} .. {amount}, of {shown} %{clauses}")];
                mark(item, "is that how wet it is, or how much goes in?");
            } else if is_none_of && (line.holds_none() || is_table) {
                let own = bases.first().zip(line.weight).and_then(|(base, weight)| weight.over(*base).ok());
                let own = own.and_then(|share| share.times(Number::whole(100)).ok()).map(|share| share.decimal(2));
                mark(item, &format!("by the flour it is {} %", own.unwrap_or_default()));
            } else if !line.holds_none() {
                item.lines = vec![format!("{name} .. {amount}, {shown} %{clauses}")];
                mark(item, &format!("{shown} % of what? {OF_WHAT}"));
            }
        }
    }
}

/// What all flour of some lines weighs.
fn flour<'l>(lines: impl Iterator<Item = &'l Listed>) -> Option<Number> {
    let weighed: Vec<Number> = lines.filter(|line| line.is_flour()).filter_map(|line| line.weight).collect();
    crate::measure::number::sum(weighed).ok().filter(|sum| sum.is_positive())
}

/// The weight of the line that is said to be 100 %, where another line has its share of that: the milk of a custard.
fn own_base(lines: &[Option<Listed>]) -> Option<Number> {
    let whole = Number::whole(100);
    let is_whole = |line: &&Listed| line.share.as_ref().is_some_and(|(share, _)| *share == whole);
    let bases = lines.iter().flatten().filter(is_whole).filter_map(|line| line.weight);
    // `rum 40 % 30 ml` is no share of the peanut butter below it.
    let others = || lines.iter().flatten().filter(|line| !is_whole(line) && !line.may_hold());
    bases.into_iter().find(|base| others().any(|line| line.is_of(&[*base])))
}

fn mark(item: &mut Item, why: &str) {
    item.look = Some(item.look.take().map_or_else(|| why.to_owned(), |look| format!("{look}; {why}")));
}
