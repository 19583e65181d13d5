//! Soda in what is to be sour: how much acid it takes up, and how much there is.

use crate::language::syntax::TextKind;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::solve::formula::SolvedPart;
use crate::text::words::words_with_hyphens;

/// A gram of bicarbonate of soda takes up so much citric acid: 192.12 of it by three of 84.01, by the weights of their molecules.
const TAKES_UP: Number = Number::constant(762, 1000);
/// What vinegar holds of which nobody says how strong it is (FDA CPG Sec. 525.825: 4 % at least).
const VINEGAR: Number = Number::constant(5, 100);

/// Soda that takes up all acid of a part of which somebody says how low its pH is.
pub(super) fn problem<'p>(recipe: &Recipe, part: &'p Part, solved: &SolvedPart) -> Option<(&'p Ingredient, String)> {
    let line = part.lines.iter().find(|line| line.kind == Kind::Soda && line.stays_in())?;
    let lines = || part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in());
    let is_open = |line: &Ingredient| {
        let is_sour = matches!(
            line.kind,
            Kind::Fruit | Kind::Juice | Kind::Liquid | Kind::Dairy | Kind::Other | Kind::Seasoning | Kind::RaisingAgent
        );
        is_sour && line.facts().and_then(|facts| facts.contents.acid).is_none()
            || matches!(line.refers, Refers::Part(_))
    };
    let says_ph = || {
        let texts = recipe.texts.iter().chain(&part.texts);
        let mut texts = texts.filter(|text| matches!(text.kind, TextKind::Caution | TextKind::Note));
        texts.any(|text| words_with_hyphens(text.lower()).any(|word| word == "ph"))
    };
    if part.lines.iter().any(Ingredient::is_any_flour) || lines().any(|(line, _)| is_open(line)) || !says_ph() {
        return None;
    }
    let mut acid = Mass::ZERO;
    let mut soda = Mass::ZERO;
    for (line, amount) in lines() {
        let known = line.facts().and_then(|facts| facts.contents.acid).map(|share| share.value());
        let share = known.or((line.kind == Kind::Vinegar).then_some(VINEGAR));
        if let Some(share) = share {
            acid = acid.plus(amount.mass?.times(share).ok()?).ok()?;
        }
        if line.kind == Kind::Soda {
            soda = soda.plus(amount.mass?).ok()?;
        }
    }
    let taken = soda.times(TAKES_UP).ok()?;
    (taken > acid).then(|| {
        let message = format!(
            "{} of {} take up {} of acid, and {} are in it: no pH below 4.6 is left",
            show::mass_plain(soda),
            line.name,
            show::mass_plain(to_a_gram(taken)),
            show::mass_plain(to_a_gram(acid))
        );
        (line, message)
    })
}

fn to_a_gram(mass: Mass) -> Mass {
    mass.value().rounded_to(Number::ONE).map_or(mass, Mass::new)
}
