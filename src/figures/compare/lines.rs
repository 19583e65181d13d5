//! Ingredient lines before and now.

use super::figures::{Figure, finely};
use super::matching;
use super::readers;
use super::{Change, LineChange, Version};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion, Volume};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::value::Value;
use crate::model::recipe::{Ingredient, LineAmount, PartId, Refers};
use crate::solve::formula::SolvedLine;
use crate::text::composed::reads_alike;

/// The factor by which every mass of every part changed, if it is one: 1 when none changed.
pub(super) fn common_factor(old: Version<'_>, new: Version<'_>) -> Option<Number> {
    common_factor_of(matching::parts(old.recipe, new.recipe), old, new)
}

/// The same of some parts only.
pub(super) fn common_factor_of(
    pairs: impl IntoIterator<Item = (Option<PartId>, Option<PartId>)>,
    old: Version<'_>,
    new: Version<'_>,
) -> Option<Number> {
    let mut factor = None;
    for (old_id, new_id) in pairs {
        let (old_id, new_id) = (old_id?, new_id?);
        let (old_part, new_part) = (old.recipe.part(old_id)?, new.recipe.part(new_id)?);
        let (old_solved, new_solved) = (old.mixed(old_id)?, new.mixed(new_id)?);
        if old_part.lines.len() != new_part.lines.len() {
            return None;
        }
        let mut taken = vec![false; old_part.lines.len()];
        for (line, amount) in new_part.lines.iter().zip(&new_solved.lines) {
            let free = |at: &usize| taken.get(*at) == Some(&false);
            let same = |at: &usize| old_part.lines.get(*at).is_some_and(|other| other.name.same(&line.name));
            let at = (0..old_part.lines.len()).filter(free).find(same)?;
            if let Some(slot) = taken.get_mut(at) {
                *slot = true;
            }
            let before = old_solved.lines.get(at)?;
            match (before.mass, amount.mass) {
                (Some(before), Some(now)) if before > Mass::ZERO => {
                    let ratio = now.ratio(before).ok()?;
                    if *factor.get_or_insert(ratio) != ratio {
                        return None;
                    }
                }
                (None, None) => {}
                (before, now) if before == now => {}
                _ => return None,
            }
        }
    }
    factor
}

/// The lines of a part that changed, in the order of the new version.
pub(super) fn changes(
    old: Version<'_>,
    new: Version<'_>,
    pair: (Option<PartId>, Option<PartId>),
    rescaled: Option<Number>,
) -> Vec<LineChange> {
    let side = |version: Version<'_>, id: Option<PartId>| -> Vec<(Ingredient, SolvedLine)> {
        let part = id.and_then(|id| version.recipe.part(id));
        let solved = id.and_then(|id| version.mixed(id));
        let amounts = solved.as_ref().map_or(&[][..], |part| &part.lines);
        part.map_or_else(Vec::new, |part| part.lines.iter().cloned().zip(amounts.iter().copied()).collect())
    };
    let (old_lines, new_lines) = (side(old, pair.0), side(new, pair.1));
    let base_changed = bases(old, new, pair);
    let same_amount = |one: &(Ingredient, SolvedLine), other: &(Ingredient, SolvedLine)| {
        one.1.mass.is_some() && one.1.mass == other.1.mass && one.1.percent == other.1.percent
    };
    let pairs = matching::pairs(&old_lines, &new_lines, |line| &line.0.name, same_amount);
    pairs
        .into_iter()
        .filter_map(|(before, now)| {
            let (before, now) = (before.and_then(|at| old_lines.get(at)), now.and_then(|at| new_lines.get(at)));
            let mut found = line(before, now, rescaled, base_changed)?;
            if let (Some(old), Some(new)) = (pieces(old, pair.0), pieces(new, pair.1)) {
                let each = |mass: Option<Mass>, pieces: Number| mass.and_then(|mass| mass.over(pieces).ok());
                let (was, is) = (each(found.old_mass, old), each(found.new_mass, new));
                found.clauses.extend(Figure::mass("for each piece", was, is).filter(|_| was.is_some() && is.is_some()));
            }
            Some(found)
        })
        .collect()
}

/// For how many pieces the amounts of a part are that are written for one.
fn pieces(version: Version<'_>, id: Option<PartId>) -> Option<Number> {
    let id = id.filter(|id| version.recipe.part(*id).is_some_and(|part| part.per_piece))?;
    let pieces = version.formula.part(id)?.pieces.or(version.formula.pieces)?.value();
    pieces.is_positive().then_some(pieces)
}

/// Whether the base of a part has another mass, so that masses move with it.
fn bases(old: Version<'_>, new: Version<'_>, pair: (Option<PartId>, Option<PartId>)) -> bool {
    let base = |version: Version<'_>, id: Option<PartId>| id.and_then(|id| version.mixed(id)?.base);
    base(old, pair.0) != base(new, pair.1)
}

fn line(
    before: Option<&(Ingredient, SolvedLine)>,
    now: Option<&(Ingredient, SolvedLine)>,
    rescaled: Option<Number>,
    base_changed: bool,
) -> Option<LineChange> {
    let name = |line: &(Ingredient, SolvedLine)| line.0.name.to_string();
    let change = match (before, now) {
        (None, Some(_)) => Change::Added,
        (Some(_), None) => Change::Removed,
        _ => Change::Changed,
    };
    let mut found = LineChange {
        ingredient: now.or(before).map(name)?,
        was: None,
        change,
        old_percent: before.and_then(|line| line.1.percent),
        new_percent: now.and_then(|line| line.1.percent),
        old_mass: before.and_then(|line| line.1.mass),
        new_mass: now.and_then(|line| line.1.mass),
        old_shown: before.map(shown).unwrap_or_default(),
        new_shown: now.map(shown).unwrap_or_default(),
        clauses: Vec::new(),
        only: String::new(),
    };
    let (Some(before), Some(now)) = (before, now) else { return Some(found) };
    // Spoons of another country are called alike and hold something else.
    if let (Some(Value::Volume(old)), Some(Value::Volume(new))) = (before.1.natural, now.1.natural)
        && old != new
        && found.old_shown == found.new_shown
    {
        found.old_shown = found.old_shown.also(to_a_tenth(old));
        found.new_shown = found.new_shown.also(to_a_tenth(new));
    }
    found.was = (!reads_alike(&before.0.name.text, &now.0.name.text)).then(|| name(before));
    found.clauses = clauses(&before.0, &now.0);
    let amount_changed = match (before.1.percent, now.1.percent) {
        // Percentages are the formula; masses that move with the base are told once, by the base.
        (Some(old), Some(new)) if base_changed || rescaled.is_some() => old != new,
        _ if rescaled.is_some() => !same_written(&before.0, &now.0) && before.1.mass.is_none(),
        _ => {
            before.1.mass != now.1.mass
                || before.1.percent != now.1.percent
                || before.1.natural != now.1.natural
                || massless(before) != massless(now)
        }
    };
    let silent = !amount_changed && found.was.is_none() && found.clauses.is_empty();
    (!silent).then_some(found)
}

/// `to taste`, `as needed`, and nothing for an amount.
fn massless(line: &(Ingredient, SolvedLine)) -> &'static str {
    match line.0.amount {
        LineAmount::ToTaste => "to taste",
        LineAmount::AsNeeded => "as needed",
        _ => "",
    }
}

fn same_written(old: &Ingredient, new: &Ingredient) -> bool {
    let value = |line: &Ingredient| match &line.amount {
        LineAmount::Said(said) => said.first().map(|said| said.value),
        _ => None,
    };
    value(old) == value(new)
}

/// An amount without a mass, as it is written.
fn shown(line: &(Ingredient, SolvedLine)) -> Shown {
    match (&line.0.amount, line.1.mass) {
        (_, Some(mass)) => show::mass_plain(mass),
        (LineAmount::Said(said), None) => match said.first() {
            Some(said) if !matches!(said.value, Value::Proportion(_)) => show::said_plain(said),
            _ => Shown::default(),
        },
        _ => Shown::words(massless(line)),
    }
}

fn to_a_tenth(volume: Volume) -> Shown {
    let tenth = volume.value().rounded_to(Number::constant(1, 10));
    show::volume(tenth.map_or(volume, Volume::new))
}

fn edible(share: &Option<Proportion>) -> Shown {
    share.map(show::percent).unwrap_or_default()
}

/// How a line says its amount.
fn measured(line: &Ingredient) -> &'static str {
    match &line.amount {
        LineAmount::Said(said) => match said.first().map(|said| said.value) {
            Some(Value::Volume(_)) => "by volume",
            Some(Value::Count(_)) => "by the piece",
            _ => "by weight",
        },
        _ => "",
    }
}

fn both_amounts(old: &Ingredient, new: &Ingredient) -> bool {
    [old, new].iter().all(|line| matches!((&line.amount, &line.refers), (LineAmount::Said(_), Refers::Pantry(_))))
}

fn leaves(line: &Ingredient) -> String {
    line.leaves.as_ref().map(|(name, share)| format!("{name} {}", show::percent(*share))).unwrap_or_default()
}

/// What stands behind the amount.
fn clauses(old: &Ingredient, new: &Ingredient) -> Vec<Figure> {
    let yes = |is: bool, word: &str| if is { word.to_owned() } else { String::new() };
    let preparation = |line: &Ingredient| line.preparation.clone().unwrap_or_default();
    [
        Figure::words("preparation", preparation(old), preparation(new)),
        // 650 g that become 650 ml are as much of water, and another figure on the card.
        Figure::words("measured", measured(old).to_owned(), measured(new).to_owned())
            .filter(|_| both_amounts(old, new)),
        Figure::heat("temperature", old.temperature, new.temperature),
        Figure::told("edible part", (old.edible, new.edible), edible, |share| {
            share.map(|share| finely(share.value())).unwrap_or_default()
        }),
        Figure::words("counts as flour", yes(old.is_flour, "yes"), yes(new.is_flour, "yes"))
            .filter(|_| old.name.same(&new.name)),
        Figure::words("optional", yes(old.optional, "yes"), yes(new.optional, "yes")),
        Figure::words("set aside", yes(old.aside, "yes"), yes(new.aside, "yes")),
        Figure::words("strained out", yes(old.strained_out, "yes"), yes(new.strained_out, "yes")),
        Figure::words("from store", yes(old.from_store, "yes"), yes(new.from_store, "yes")),
        Figure::words("leaves", leaves(old), leaves(new)),
        Figure::words("instead", readers::stand_ins(old), readers::stand_ins(new)),
        super::prices::of_line(old, new),
    ]
    .into_iter()
    .flatten()
    .collect()
}
