//! Pairs to nodes: the lines of kitchens, larders and days.

use super::numbers::{self, quantity_of};
use super::pairs::Pair;
use super::reader::{Reader, string};
use super::shift::{self, clock};
use super::{Clauses, Rule, stray, units};
use crate::language::syntax::{
    Content, Drained, EquipmentClause, FactKind, Flag, Key, MakeClause, Moment, Name, Quantity, SaleField, Shift,
    StoreClause, TraceKind, WantedAmount,
};
use crate::measure::unit::{Dimension, Measures, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use jiff::civil::Date;
use std::borrow::Cow;

/// Builds the node; `None` when a figure in it was reported.
pub(super) fn build<'t>(
    reader: &mut Reader<'_>,
    rule: Rule,
    said: Span,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<Content> {
    match rule {
        Rule::equipment_line => equipment(reader, pairs),
        Rule::cooks_line => Some(Content::Cooks(small_number(reader, &pairs.next()?)?)),
        Rule::cook_line => shift::cook(reader, pairs),
        Rule::longest_line => Some(Content::Longest(quantity_of(reader, pairs.next()?, &[Dimension::Time])?)),
        Rule::open_line => {
            let Shift { from, to } = shift::hours(reader, said, pairs)?;
            Some(Content::Open { from, to })
        }
        Rule::scale_line => scale(reader, pairs),
        Rule::weighs_line => weighs(reader, pairs),
        Rule::one_weighs_line => Some(Content::OneWeighs(quantity_of(reader, pairs.next()?, &[Dimension::Mass])?)),
        Rule::fact_line => {
            let kind = FactKind::from_word(&folded(pairs.next()?.as_str()))?;
            let share = share(reader, pairs.next()?)?;
            Some(Content::Fact(kind, if kind == FactKind::Yield { what_is_left(reader, share)? } else { share }))
        }
        Rule::energy_line => {
            let energy = numbers::number(reader, pairs.next()?)?;
            Some(Content::Energy(numbers::not_negative(reader, energy)?))
        }
        Rule::nitrogen_line => Some(Content::NitrogenFactor(numbers::number(reader, pairs.next()?)?)),
        Rule::trace_line => trace(reader, pairs),
        Rule::sale_line => sale(pairs),
        Rule::serving_line => serving(reader, pairs),
        Rule::drained_line => drained(reader, pairs),
        Rule::best_line => Some(Content::GoodFor { time: numbers::days_of(reader, pairs.next()?)?, use_by: None }),
        Rule::is_line => Some(Content::Is(reader.name(&pairs.next()?))),
        Rule::flag_line => Some(Content::Flag(flag(pairs.next()?.as_str()))),
        Rule::names_line => {
            let also = pairs.next()?.as_str().get(..4).is_some_and(|word| word.eq_ignore_ascii_case("also"));
            let names: Vec<Name> = pairs.map(|pair| reader.name(&pair)).collect();
            Some(if also { Content::AlsoCalled(names) } else { Content::Contains(names) })
        }
        Rule::costs_line => costs(reader, pairs),
        Rule::free_line => free_words(pairs),
        Rule::ready_line => Some(Content::Ready(moment(reader, pairs.next()?)?)),
        Rule::make_line => make(reader, pairs),
        Rule::store_line => store(reader, pairs),
        Rule::stock_line => Some(Content::Stock(string(reader, pairs.next()?))),
        _ => None,
    }
}

/// What a scale shows, and up to which weight.
fn scale<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let fine = pairs.next()?.as_str().get(..4).is_some_and(|word| word.eq_ignore_ascii_case("fine"));
    let step = quantity_of(reader, pairs.next()?, &[Dimension::Mass])?;
    let up_to = match pairs.next() {
        Some(pair) => Some(quantity_of(reader, pair, &[Dimension::Mass])?),
        None => None,
    };
    Some(Content::Scale { fine, step, up_to })
}

/// What there is of a vitamin or a mineral.
fn trace<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let word = folded(pairs.next()?.as_str());
    let kind = TraceKind::ALL.into_iter().find(|kind| kind.word().eq_ignore_ascii_case(&word))?;
    Some(Content::Trace(kind, numbers::number(reader, pairs.next()?)?))
}

/// What stands on a label.
fn sale<'t>(mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let word = folded(pairs.next()?.as_str());
    let text = pairs.next()?.as_str().trim().to_owned();
    let field = SaleField::ALL.into_iter().find(|field| field.word() == word)?;
    // Traces are a list; the others are words as somebody wrote them.
    let text = if field == SaleField::MayContain { listed(&text) } else { text };
    Some(Content::Sale(field, text))
}

/// What somebody eats at once.
fn serving<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let weight = quantity_of(reader, pairs.next()?, &[Dimension::Mass, Dimension::Volume])?;
    let words = pairs.find(|pair| pair.as_rule() == Rule::text).map(|text| text.as_str().trim().to_owned());
    Some(Content::Serving(weight, words))
}

/// What is left on a sieve.
fn drained<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let first = pairs.next()?;
    if first.as_rule() == Rule::as_packed {
        return Some(Content::Drained(Drained::AsPacked));
    }
    match pairs.next() {
        None => Some(Content::Drained(Drained::Share(quantity_of(reader, first, &[Dimension::Proportion])?))),
        Some(of) => {
            let left = quantity_of(reader, first, &[Dimension::Mass])?;
            Some(Content::Drained(Drained::Weighed(left, quantity_of(reader, of, &[Dimension::Mass])?)))
        }
    }
}

/// Words as they are printed.
fn free_words<'t>(mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let word = pairs.next()?.as_str();
    let text = pairs.next()?.as_str().trim().to_owned();
    Some(match &*folded(word) {
        "source" => Content::Source(text),
        "section" => Content::Section(text),
        "listed as" => Content::Listed(text),
        _ => Content::Consists(text),
    })
}

fn equipment<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let name = reader.name(&pairs.next()?);
    let count = small_number(reader, &pairs.next()?)?;
    let clauses = clauses(reader, pairs, equipment_clause, || EquipmentClause::Broken);
    Some(Content::Equipment { name, count, clauses })
}

/// The clauses behind the head of a line; one that cannot be read was reported and stands as broken.
fn clauses<'t, T>(
    reader: &mut Reader<'_>,
    pairs: impl Iterator<Item = Pair<'t>>,
    read: impl Fn(&mut Reader<'_>, Pair<'t>) -> Option<T>,
    broken: impl Fn() -> T,
) -> Vec<Spanned<T>> {
    let mut clauses = Vec::new();
    for pair in pairs {
        let span = reader.span(&pair);
        let Some(inner) = pair.into_inner().next() else { continue };
        let clause = read(reader, inner).unwrap_or_else(&broken);
        clauses.push(Spanned::new(clause, span));
    }
    clauses
}

fn equipment_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<EquipmentClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::holds => {
            EquipmentClause::Holds(quantity_of(reader, inner.next()?, &[Dimension::Mass, Dimension::Count])?)
        }
        Rule::friction => EquipmentClause::Friction(quantity_of(reader, inner.next()?, &[Dimension::Temperature])?),
        Rule::heating => EquipmentClause::Heating(quantity_of(reader, inner.next()?, &[Dimension::Time])?),
        Rule::agrees => EquipmentClause::Agrees(quantity_of(reader, inner.next()?, &[Dimension::Temperature])?),
        _ => {
            stray::unknown_clause(reader, span, &Clauses::Equipment.forms());
            EquipmentClause::Broken
        }
    })
}

fn small_number(reader: &mut Reader<'_>, pair: &Pair<'_>) -> Option<Spanned<u32>> {
    let span = reader.span(pair);
    match pair.as_str().parse::<u32>() {
        Ok(count) if (1..=1000).contains(&count) => Some(Spanned::new(count, span)),
        _ => {
            let problem = Diagnostic::error("impossible-number", span, "a kitchen has from 1 to 1000 of a thing");
            reader.report(problem.help("leave the line out if there is none"));
            None
        }
    }
}

fn weighs<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let weight = quantity_of(reader, pairs.next()?, &[Dimension::Mass])?;
    let mut count = None;
    let mut unit = None;
    let mut measures = None;
    for pair in pairs {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::number => count = Some(numbers::so_many(reader, pair)?),
            Rule::unit => unit = Some(unit_of(reader, &pair, None)?),
            _ => {
                let name = reader.name(&pair);
                match Measures::from_word(&name.text) {
                    Some(read) => measures = Some(Spanned::new(read, span)),
                    None => {
                        stray::unknown_measures(reader, &name);
                        return None;
                    }
                }
            }
        }
    }
    let unit = unit?;
    if unit.value.dimension() != Dimension::Volume {
        let problem = Diagnostic::error("wrong-kind", unit.span, "a weight is given per volume here");
        reader.report(problem.help("for the weight of a piece write `one weighs 50 g`"));
        return None;
    }
    if unit.value.depends_on_country() && unit.value.size(measures.map(|m| m.value)).is_none() {
        let word = unit.value.word(true);
        let problem = Diagnostic::error("which-cup", unit.span, format!("`{word}` differs between countries"));
        reader.report(problem.help(format!("write `per {word} US`, `per {word} metric` or `per {word} imperial`")));
        return None;
    }
    Some(Content::Weighs { weight, number: count, unit, measures })
}

/// The unit behind `per`. `price`: it is one of a price, and whether no number stands before it.
fn unit_of(reader: &mut Reader<'_>, pair: &Pair<'_>, price: Option<bool>) -> Option<Spanned<Unit>> {
    let span = reader.span(pair);
    if let Some(unit) = Unit::from_word(pair.as_str()) {
        return Some(Spanned::new(unit, span));
    }
    let problem = Diagnostic::error("unknown-unit", span, format!("`{}` is not a unit", pair.as_str()));
    reader.report(match Unit::meant_by(pair.as_str()) {
        Some(unit) => problem.help(format!("did you mean `{unit}`?")).mend(format!("write `{unit}`"), span, unit),
        None => match price {
            Some(is_one) => units::of_a_pack(problem, span, pair.as_str(), is_one),
            None => problem,
        },
    });
    None
}

/// A percentage between nothing and all.
fn share(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Quantity> {
    let quantity = quantity_of(reader, pair, &[Dimension::Proportion])?;
    let hundred = crate::measure::number::Number::whole(100);
    if quantity.terms.iter().any(|term| term.number.value > hundred) {
        let written = reader.slice(quantity.span);
        let problem =
            Diagnostic::error("impossible-number", quantity.span, format!("`{written}` is more than all of it"));
        reader.report(problem.help("a share is from 0 % to 100 %"));
        return None;
    }
    Some(quantity)
}

/// The edible share of what is bought: of what is all thrown away there is nothing to eat.
fn what_is_left(reader: &mut Reader<'_>, share: Quantity) -> Option<Quantity> {
    if share.terms.iter().any(|term| !term.number.value.is_zero()) {
        return Some(share);
    }
    let written = reader.slice(share.span);
    let problem = Diagnostic::error("impossible-number", share.span, format!("of `{written}` nothing is left to eat"));
    reader.report(problem.help("write the share that is eaten, `yield 80 %`; without the line it is all of it"));
    None
}

/// Words in lower case with one space between them.
fn folded(words: &str) -> Cow<'_, str> {
    // As nearly all are written.
    let is_plain = words.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b' ');
    if is_plain && !words.contains("  ") && words.trim_ascii() == words {
        return words.into();
    }
    Key::new(words).as_str().to_owned().into()
}

fn flag(words: &str) -> Flag {
    let mut folded = words.split_whitespace().map(str::to_ascii_lowercase);
    match (folded.next().as_deref(), folded.next().as_deref()) {
        (Some("counts"), _) => Flag::CountsAsFlour,
        (Some("not"), Some("vegan")) => Flag::NotVegan,
        (Some("not"), Some("vegetarian")) => Flag::NotVegetarian,
        (Some("not"), _) => Flag::NotFlour,
        (Some("raw"), Some("egg")) => Flag::RawEgg,
        (Some("raw"), _) => Flag::RawFlour,
        (Some("compound"), _) => Flag::Compound,
        (Some("bought"), _) => match folded.next().as_deref() {
            Some("weight") => Flag::BoughtByWeight,
            _ if folded.next().as_deref() == Some("piece") => Flag::BoughtByThePiece,
            _ => Flag::BoughtByTheLitre,
        },
        _ => Flag::ReadyToEat,
    }
}

fn costs<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let price = numbers::number(reader, pairs.next()?)?;
    // What is given away for nothing, tap water, has a price too.
    let price = numbers::not_negative(reader, price)?;
    let (mut currency, mut count, mut unit, mut on) = (None, None, None, None);
    for pair in pairs {
        match pair.as_rule() {
            Rule::currency => currency = Some(reader.name(&pair)),
            Rule::number => count = Some(numbers::so_many(reader, pair)?),
            Rule::date => {
                let span = reader.span(&pair);
                on = Some(Spanned::new(date(reader, pair)?, span));
            }
            _ => unit = Some(unit_of(reader, &pair, Some(count.is_none()))?),
        }
    }
    Some(Content::Costs { price, currency, number: count, unit, on })
}

fn moment(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Moment> {
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    let date = date(reader, inner.next()?);
    let time = clock(reader, inner.next()?);
    Some(Moment { when: date?.to_datetime(time?), span })
}

pub(super) fn date(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Date> {
    let span = reader.span(&pair);
    let mut digits = pair.into_inner().map(|digits| digits.as_str().parse::<i16>().ok());
    let (year, month, day) = (digits.next().flatten(), digits.next().flatten(), digits.next().flatten());
    let narrow = |number: i16| i8::try_from(number).ok();
    let date = match (year, month.and_then(narrow), day.and_then(narrow)) {
        (Some(year), Some(month), Some(day)) => Date::new(year, month, day).ok(),
        _ => None,
    };
    if date.is_none() {
        let written = reader.slice(span);
        let problem = Diagnostic::error("impossible-number", span, format!("`{written}` is not a day of the calendar"));
        reader.report(problem.help("write year, month and day, `2026-12-05`"));
    }
    date
}

fn make<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let asked = pairs.next()?;
    let wanted = if asked.as_rule() == Rule::sorts {
        let mut sorts = Vec::new();
        for pair in asked.into_inner() {
            let mut inner = pair.into_inner();
            let count = numbers::number(reader, inner.next()?);
            let name = reader.name(&inner.next()?);
            sorts.push((count, name));
        }
        let read = sorts.into_iter().map(|(count, name)| Some((count?, name)));
        read.collect::<Option<Vec<_>>>().map(WantedAmount::Sorts)
    } else {
        quantity_of(reader, asked, &[Dimension::Mass, Dimension::Count]).map(WantedAmount::Quantity)
    };
    let (part, path) = part_and_path(reader, &mut pairs)?;
    let clauses = clauses(reader, pairs, make_clause, || MakeClause::Broken);
    Some(Content::Make { wanted: wanted?, part, path, clauses })
}

/// `jam of "doughnuts.miche"`, or the file alone.
fn part_and_path<'t>(
    reader: &mut Reader<'_>,
    pairs: &mut impl Iterator<Item = Pair<'t>>,
) -> Option<(Option<Name>, Spanned<String>)> {
    let first = pairs.next()?;
    if first.as_rule() != Rule::part_of {
        return Some((None, string(reader, first)));
    }
    let part = reader.name(&first);
    Some((Some(part), string(reader, pairs.next()?)))
}

fn store<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let quantity = quantity_of(reader, pairs.next()?, &[Dimension::Mass, Dimension::Count]);
    let (part, path) = part_and_path(reader, &mut pairs)?;
    let clauses = clauses(reader, pairs, store_clause, || StoreClause::Broken);
    Some(Content::Store { quantity: quantity?, part, path, clauses })
}

fn store_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<StoreClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::chosen => StoreClause::Choose(reader.name(&inner.next()?), inner.next().map(|pair| reader.name(&pair))),
        Rule::made_on => {
            let written = inner.next()?;
            let span = reader.span(&written);
            StoreClause::Made(Spanned::new(date(reader, written)?, span))
        }
        _ => {
            stray::unknown_clause(reader, span, &Clauses::Store.forms());
            StoreClause::Broken
        }
    })
}

fn make_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<MakeClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::chosen => MakeClause::Choose(reader.name(&inner.next()?), inner.next().map(|pair| reader.name(&pair))),
        Rule::ready_by => MakeClause::Ready(moment(reader, inner.next()?)?),
        _ => {
            stray::unknown_clause(reader, span, &Clauses::Make.forms());
            MakeClause::Broken
        }
    })
}

/// A list of words with one blank between words and behind each comma.
fn listed(words: &str) -> String {
    let one_spaced = |item: &str| item.split_whitespace().collect::<Vec<&str>>().join(" ");
    words.split(',').map(one_spaced).collect::<Vec<String>>().join(", ")
}
