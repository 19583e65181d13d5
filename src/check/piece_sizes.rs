//! What a piece of something commonly weighs: what `odd-amount` looks for in the weights of pieces that go by a name.

use super::Subject;
use super::dough::is_dough;
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::lowered::Beginnings;
use crate::model::made::{HeadMakes, Sort};
use crate::text::diagnostic::Diagnostic;

/// From and to how many grams a piece weighs before it is baked, by its last word: far beyond what is sold anywhere under that name. Common
/// practice, no source.
const PIECES: &[(&str, i64, i64)] = &[
    ("baguette", 60, 900),
    ("biscuit", 3, 200),
    ("cookie", 3, 250),
    ("macaroon", 3, 200),
    ("cracker", 2, 150),
    ("oatcake", 5, 200),
    ("croissant", 12, 300),
    ("bagel", 25, 300),
    ("doughnut", 10, 300),
    ("scone", 12, 350),
    ("muffin", 12, 350),
    ("cupcake", 10, 300),
    ("roll", 12, 600),
    ("bun", 12, 600),
    ("loaf", 60, 5000),
    ("loave", 60, 5000),
];

/// Words that say that a piece is not of the common size, or is a piece of several.
const OTHERWISE: &Beginnings = &Beginnings::of(&[
    "giant", "jumbo", "monster", "mega", "huge", "xxl", "mini", "micro", "tiny", "bite", "cocktail", "doll", "sheet",
    "tray", "swiss", "family", "share", "crown", "log", "slab", "double", "batch", "pair", "strip", "canap", "petit",
]);

/// From the smallest on, what sorts are called.
const SMALL_TO_LARGE: &[&str] = &["mini", "small", "medium", "large"];

/// Pieces that weigh nothing like what they are called.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str) -> Vec<Diagnostic> {
    let recipe = subject.recipe;
    let mut found = Vec::new();
    for (_, part, solved) in subject.own_parts() {
        found.extend(smaller_than_small(&part.sorts, check));
        let Some(divide) = part.divide.filter(|_| is_dough(part, solved)) else { continue };
        let Some(HeadMakes::Pieces { count, noun, .. }) = &recipe.makes else { continue };
        // Of a pair, or of rolls that are sold by the sheet, a piece is another thing.
        let others = [&recipe.name, noun, &part.name].iter().any(|name| name.has_word(OTHERWISE));
        if *count != divide.count || others {
            continue;
        }
        let each = || part.sorts.iter().map(|sort| sort.each).chain(part.sorts.is_empty().then_some(divide.each));
        let Some((low, high)) = common(noun) else { continue };
        if let Some(odd) = each().find(|each| *each < low || *each > high) {
            let message = format!(
                "{} is unusual for what is called {}: common practice is {} to {}",
                show::mass_plain(odd),
                noun.text,
                show::mass_plain(low),
                show::mass_plain(high)
            );
            found.push(
                Diagnostic::advice(check, divide.span, message).help("look whether a point or a digit has slipped"),
            );
        }
    }
    found
}

/// What a piece of such a name weighs at least and at most.
fn common(noun: &Name) -> Option<(Mass, Mass)> {
    let last = noun.key.as_str().split(' ').next_back()?;
    let (_, low, high) = PIECES.iter().find(|(name, ..)| last == *name || last.strip_suffix('s') == Some(*name))?;
    Some((Mass::new(Number::whole(*low)), Mass::new(Number::whole(*high))))
}

/// Of sorts called small and large, one of the small that weighs more than a large one, or next to nothing of it.
fn smaller_than_small(sorts: &[Sort], check: &'static str) -> Option<Diagnostic> {
    let size = |sort: &Sort| SMALL_TO_LARGE.iter().position(|name| sort.name.key.as_str() == *name);
    sorts.iter().find_map(|small| {
        let place = size(small)?;
        let large = sorts.iter().find(|large| {
            let next = size(large).is_some_and(|other| other > place);
            // Names of one size but for some grams are another slip than a point.
            let heavier = large.each.times(Number::constant(3, 2)).is_ok_and(|most| small.each >= most);
            next && (heavier || small.each.times(Number::whole(15)).is_ok_and(|many| many < large.each))
        })?;
        let message = format!(
            "one called {} weighs {}, and one called {} {}",
            small.name.text,
            show::mass_plain(small.each),
            large.name.text,
            show::mass_plain(large.each)
        );
        Some(Diagnostic::advice(check, small.name.span, message).help("look whether a point or a digit has slipped"))
    })
}
