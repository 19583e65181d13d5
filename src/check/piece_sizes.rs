//! What a piece of something commonly weighs: what `odd-amount` looks for in the weights of pieces that go by a name.

use super::Subject;
use super::dough::is_dough;
use crate::language::syntax::Name;
use crate::measure::noun;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::lowered::Beginnings;
use crate::model::made::{HeadMakes, Sort};
use crate::model::recipe::Recipe;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

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

/// From and to how many grams of all that goes in there are for one, where a batch is not divided, by the last word: half of what is served
/// anywhere under that name and twice of it. Common practice, no source.
const SHARES: &[(&str, i64, i64)] = &[
    ("portion", 8, 1600),
    ("serving", 8, 1600),
    ("bowl", 20, 1600),
    ("plate", 20, 1600),
    ("slice", 10, 500),
    ("wedge", 10, 500),
    ("square", 4, 400),
    ("finger", 4, 300),
    ("bar", 5, 500),
    ("pancake", 6, 350),
    ("crumpet", 15, 300),
    ("waffle", 10, 400),
    ("crepe", 10, 300),
    ("naan", 20, 400),
    ("pita", 15, 350),
    ("pitta", 15, 350),
    ("flatbread", 15, 600),
    ("tortilla", 8, 250),
    ("ramekin", 20, 600),
    ("pot", 15, 1500),
    ("pudding", 20, 3500),
    ("jar", 15, 4000),
    ("tartlet", 5, 300),
    ("tart", 10, 4000),
    ("quiche", 40, 4500),
    ("pie", 20, 5000),
    ("cake", 20, 9000),
    ("macaron", 3, 150),
    ("meringue", 2, 300),
    ("eclair", 10, 300),
    ("éclair", 10, 300),
];

/// Words that say that a piece is not of the common size, or is a piece of several.
const OTHERWISE: &Beginnings = &Beginnings::of(&[
    "giant", "jumbo", "monster", "mega", "huge", "xxl", "mini", "micro", "tiny", "bite", "cocktail", "doll", "sheet",
    "tray", "swiss", "sponge", "roulade", "family", "share", "crown", "log", "slab", "double", "batch", "pair",
    "strip", "canap", "petit",
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
        let others = [&recipe.name, noun, &part.name].iter().any(|name| name.has_word_beginning(OTHERWISE));
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
    if subject.is_of_whole() {
        found.extend(share_of_all(subject, check));
    }
    found
}

/// So many times as much as one of them weighs what is put together of several. Common practice, no source.
const TIERS: Number = Number::whole(3);

/// All that goes in, by the number of pieces, where nothing else says what a piece weighs.
fn share_of_all(subject: &Subject<'_>, check: &'static str) -> Option<Diagnostic> {
    let (noun, each, span) = undivided(subject)?;
    let (low, high) = of_name(noun, SHARES).or_else(|| common(noun))?;
    let recipe = subject.recipe;
    let (_, part) = recipe.final_part().and_then(|id| Some((id, recipe.part(id)?)))?;
    let otherwise = [&recipe.name, noun, &part.name].iter().any(|name| name.has_word_beginning(OTHERWISE));
    // What has no weight may be most of it.
    let open = || {
        recipe.final_part().and_then(|id| subject.formula.part(id)).is_none_or(|solved| {
            part.lines.iter().zip(&solved.lines).any(|(line, amount)| !line.aside && amount.mass.is_none())
        })
    };
    // Tiers are put together of counted sponges: a wedding cake of three of them weighs 8 to 14 kg.
    let is_stacked = part.lines.iter().any(|line| line.part().is_some() && line.is_in_pieces());
    let high_of_it = if is_stacked { high.times(TIERS).ok()? } else { high };
    if otherwise || (each >= low || open()) && each <= high_of_it {
        return None;
    }
    let message = format!(
        "{} of all that goes in for each of the {}: common practice is {} to {}",
        show::mass_plain(each),
        noun.text,
        show::mass_plain(low),
        show::mass_plain(high)
    );
    Some(
        Diagnostic::advice(check, span, message)
            .help("look whether the number is right, and whether a unit or a point of an amount has slipped"),
    )
}

/// What there is for one of the pieces of a recipe, where its last part is neither divided nor written by the piece: the word for a piece,
/// all that goes in and stays by their number, and where that was said.
pub(super) fn undivided<'s>(subject: &'s Subject<'_>) -> Option<(&'s Name, Mass, Span)> {
    let Some(HeadMakes::Pieces { noun, span, .. }) = &subject.recipe.makes else { return None };
    let id = subject.recipe.final_part()?;
    let (part, solved) = (subject.recipe.part(id)?, subject.formula.part(id)?);
    let all = solved.stays.or(solved.goes_in).filter(|_| part.divide.is_none() && !part.per_piece && !part.broken)?;
    let each = all.over(subject.formula.pieces?.value()).ok().filter(|each| *each > Mass::ZERO)?;
    Some((noun, each, *span))
}

/// Names of what is baked hard right through, or rolled up when it is baked: its time says nothing by its weight.
const BAKED_OTHERWISE: &Beginnings = &Beginnings::of(&[
    "hard", "ship", "rusk", "twice", "biscotti", "cantucci", "crisp", "dry", "dried", "roulade", "sponge",
]);

/// Whether what is not divided is baked by the piece, by such a name: not cut when it is baked.
pub(super) fn is_baked_alone(recipe: &Recipe, noun: &Name) -> bool {
    let otherwise = |name: &Name| {
        name.has_word_beginning(OTHERWISE)
            || name.has_word_beginning(BAKED_OTHERWISE)
            || name.key.as_str().ends_with("roll")
    };
    common(noun).is_some() && ![&recipe.name, noun].into_iter().any(otherwise)
}

/// What a piece of such a name weighs at least and at most.
fn common(noun: &Name) -> Option<(Mass, Mass)> {
    of_name(noun, PIECES)
}

fn of_name(noun: &Name, table: &[(&str, i64, i64)]) -> Option<(Mass, Mass)> {
    let last = noun.key.as_str().split(' ').next_back()?;
    let (_, low, high) = table.iter().find(|(name, ..)| noun::is_one_or_several(last, name))?;
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
