//! Whose hours would have to be longer, and the kitchen's with them where both are the same.

use super::Case;
use super::mend::{Apart, Mend};
use super::offer::Offer;
use super::relax::{DAY, least};
use crate::language::syntax;
use crate::measure::quantity::Duration;
use crate::model::kitchen::{Kitchen, lasts};
use jiff::ToSpan;

impl Case<'_> {
    /// Whose hours would have to be longer. What that means where the kitchen would have to be open longer for all of them, which is no reason
    /// as long as there is one that is nearer.
    pub(super) fn longer_shifts(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) -> Option<String> {
        let before = ways.len();
        let mut is_shut = true;
        let mut longer: Option<Apart> = None;
        let clock = |at: jiff::civil::Time| at.strftime("%H:%M").to_string();
        for (number, cook) in self.kitchen.named.iter().enumerate() {
            let Some(hours) = cook.hours else { continue };
            let other = |shift: syntax::Shift| {
                let mut kitchen = self.kitchen.clone();
                if let Some(cook) = kitchen.named.get_mut(number) {
                    cook.hours = Some(shift);
                    cook.longest = Some(Duration::minutes(lasts(shift)));
                }
                let opened = self.opened_for(&mut kitchen, hours, shift);
                (vec![Mend::Kitchen(Box::new(kitchen))], opened)
            };
            let halves = |half: i64| (half * 30).minutes();
            let sooner = |half| syntax::Shift { from: hours.from.wrapping_sub(halves(half)), ..hours };
            let to = if hours.to.second() > 0 { jiff::civil::Time::midnight() } else { hours.to };
            let later = |half| syntax::Shift { to: to.wrapping_add(halves(half)), ..hours };
            let name = &cook.name;
            let mut offer = |shift: syntax::Shift, said: String| {
                let (mends, opened) = other(shift);
                is_shut &= !opened.is_empty();
                longer = longer.take().or_else(|| self.mended(&mends));
                ways.push(Offer::said_so(format!("let {name} {said}{opened}"), mends));
            };
            if let Some(half) = least(8, |half| self.holds(&other(sooner(half)).0)) {
                offer(sooner(half), format!("come at {}", clock(sooner(half).from)));
            }
            if let Some(half) = least(8, |half| self.holds(&other(later(half)).0)) {
                offer(later(half), format!("stay until {}", clock(later(half).to)));
            }
        }
        if ways.len() == before || !because.is_empty() {
            return None;
        }
        let outside = longer.and_then(|longer| self.outside(&longer.problem)).unwrap_or_default();
        let said = format!("the work does not fit into the hours of those who work{outside}");
        if is_shut {
            return Some(said);
        }
        because.push(said);
        None
    }

    /// Moves the kitchen's hours with somebody's that begin or end with them: who comes before it opens finds it locked. Gives what that is
    /// called behind theirs, nothing where it is open as before.
    fn opened_for(&self, kitchen: &mut Kitchen, hours: syntax::Shift, longer: syntax::Shift) -> &'static str {
        let (opens, closes) = (self.kitchen.opens, self.kitchen.closes);
        let shut = DAY - lasts(syntax::Shift { from: opens, to: closes });
        if lasts(longer) - lasts(hours) >= shut {
            return "";
        }
        if longer.from != hours.from && hours.from == opens {
            kitchen.opens = longer.from;
            ", and open then"
        } else if longer.to != hours.to && hours.to == closes {
            kitchen.closes = longer.to;
            ", and close then"
        } else {
            ""
        }
    }
}
