//! An ingredient of the notes while it is put together: its amount, its name, and how it is prepared.

mod named;
mod said_again;

use super::amount::Unit;
use super::measure::{Measure, measure};
use super::pieces;
use super::strength::kind;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::counted::{comes_in_pieces, most_pieces};
use crate::model::larder::Larder;

/// Why a mark stands there.
pub(super) const NO_WEIGHT: &str = "no weight is said";

/// Why a mark stands where a name is all that is said.
pub(super) const NO_AMOUNT: &str = "no amount is said";
/// Why a mark stands at a number that cannot be pieces.
pub(super) const NO_UNIT: &str = "no unit is said";

/// Why a mark stands where an amount is one piece's.
pub(super) const FOR_EACH: &str = "so much for each: for how many?";

/// An ingredient as it was understood.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Read {
    /// Its name.
    pub(super) name: String,
    /// The amount in the language's words.
    pub(super) amount: String,
    /// How it is prepared, with a comma before each.
    pub(super) clauses: Vec<String>,
    /// What was guessed.
    pub(super) look: Vec<String>,
    /// Whether its measure differs between countries.
    pub(super) spoons: bool,
    /// Whether all of it goes in but for something that its words say.
    pub(super) stays_out: bool,
}

impl Read {
    /// Something of which no amount is said.
    pub(super) fn open(name: String) -> Read {
        Read { name, amount: "as needed".to_owned(), ..Read::default() }
    }
}

/// An ingredient while it is put together.
#[derive(Debug, Clone, Default)]
pub(super) struct Made {
    pub(super) read: Read,
    pub(super) first: Option<Measure>,
    /// Whether the name is read, so that what is said again stands behind it.
    pub(super) is_named: bool,
}

impl Made {
    /// Begins with an amount.
    pub(super) fn of(first: Measure) -> Made {
        let mut made = Made::default();
        made.read.look.clone_from(&first.look);
        made.read.amount.clone_from(&first.shown);
        match first.unit {
            Some(Unit::Spoon(_)) => made.read.spoons = true,
            Some(Unit::Loose) => {
                let taste =
                    ["pinch", "pinches", "dash", "dashes", "little"].contains(&first.word.to_lowercase().as_str());
                made.read.amount = if taste { "to taste" } else { "as needed" }.to_owned();
                made.read.clauses.push(first.words());
                made.read.look.push(NO_WEIGHT.to_owned());
            }
            _ => {}
        }
        if let Some(filled) = first.filled.filter(|_| first.unit != Some(Unit::Loose)) {
            made.read.clauses.push(filled.to_owned());
        }
        made.first = Some(first);
        made
    }

    /// Begins with none: `to taste`, `as needed`.
    pub(super) fn open(amount: &str, look: Option<&str>) -> Made {
        let mut made = Made::default();
        made.read.amount = amount.to_owned();
        made.read.look.extend(look.map(str::to_owned));
        made
    }

    /// Marks a number without a unit that is larger than a number of such pieces.
    fn ask_unit(&mut self, value: Option<Number>, name: &str, larder: &Larder) {
        let key = Key::new(name);
        let facts = larder.find(&key);
        let most = most_pieces(&key, kind(name, facts.as_deref()), facts.as_deref());
        if value.is_none_or(|value| value > most) {
            self.read.look.push(NO_UNIT.to_owned());
        }
    }

    /// What a bare number is, and a number of cloves or slices, now that it is known of what.
    fn count(&mut self, name: &str, larder: &Larder) {
        let Some(first) = self.first.clone() else { return };
        let key = Key::new(name);
        if let Some((weight, pieces)) = pieces::weight_of_one(&self.read.amount, &key, larder) {
            self.read.amount = pieces;
            self.read.clauses.insert(0, format!("{weight} each"));
            self.read.look.push("what one weighs is said".to_owned());
            return;
        }
        match first.unit {
            Some(Unit::Counted) => {
                let piece = larder.find(&Key::new(&format!("{name} {}", first.word)));
                let own_piece = piece.is_some() && larder.find(&key).is_some_and(|facts| facts.one_weighs.is_some());
                if own_piece || comes_in_pieces(&key) || first.word.to_lowercase().starts_with("piece") {
                    self.read.clauses.insert(0, first.word.to_lowercase());
                } else {
                    self.read.amount = "as needed".to_owned();
                    self.read.clauses.insert(0, first.words());
                    self.read.look.push(NO_WEIGHT.to_owned());
                }
            }
            None if !self.read.amount.contains('=') => self.ask_unit(first.value, name, larder),
            // `100 % = 500`.
            Some(Unit::Known("%")) => {
                let other = self.read.amount.split(" = ").nth(1).and_then(measure);
                if let Some((bare, _)) = other.filter(|(bare, _)| bare.unit.is_none()) {
                    // Beside a share stand pieces only of what is known to come in them: `eggs 12 % 4`, and no `butter sheet 82 % 550`.
                    let weighs = larder.find(&key).is_some_and(|facts| facts.one_weighs.is_some());
                    match weighs {
                        true => self.ask_unit(bare.value, name, larder),
                        false => self.read.look.push(NO_UNIT.to_owned()),
                    }
                }
            }
            _ => {}
        }
    }
}
