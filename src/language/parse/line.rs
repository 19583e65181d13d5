//! Pairs to nodes: the lines of a recipe.

use super::numbers::{self, AMOUNT_KINDS, chain_of, quantity_of, temperature_chain};
use super::pairs::{Pair, Pairs};
use super::reader::{Reader, string};
use super::{Rule, aim, bakes, block, book, no_comma, prose, reader_lines, stray};
use crate::language::syntax::{
    Amount, Content, FileKind, IngredientClause, IngredientLine, KeptHow, LaterHeat, Makes, Name, PanKind, PercentOf,
    Quantity, SizedPieces, StepClause, StepKind, StepLine, TextKind, WrittenPan,
};
use crate::measure::unit::{Dimension, Measures};
use crate::text::source::{Span, Spanned};

/// Builds the node of a line from the pairs of its rule; `None` when a figure in it was reported.
pub(super) fn build(reader: &mut Reader<'_>, rule: Rule, said: Span, mut pairs: Pairs<'_>) -> Option<Content> {
    match rule {
        Rule::titled_line => titled(reader, pairs),
        Rule::text_line => Some(text_line(reader, pairs)),
        Rule::picture_line | Rule::author_line | Rule::filed_line => reader_lines::build(reader, rule, said, pairs),
        Rule::use_line => used(reader, pairs),
        Rule::choose_line => {
            let name = reader.name(&pairs.next()?);
            let options = pairs.next()?.into_inner().map(|option| reader.name(&option)).collect();
            Some(Content::Choose { name, options })
        }
        Rule::measures_line => measures(reader, pairs),
        Rule::makes_line => makes(reader, pairs),
        Rule::part_line => {
            let name = reader.name(&pairs.next()?);
            let from = pairs.next().map(|pair| reader.name(&pair));
            Some(Content::Part { name, from })
        }
        Rule::percent_line => percent(reader, pairs),
        Rule::per_piece_line => {
            let of = pairs.next()?;
            Some(Content::PerPiece((of.as_rule() == Rule::sort_name).then(|| reader.name(&of))))
        }
        Rule::divide_line => divide(reader, pairs),
        Rule::aim_line => aim::read(reader, pairs),
        Rule::keeps_line => keeps(reader, pairs),
        Rule::spare_line => {
            Some(Content::Spare(chain_of(reader, pairs.next()?, &[Dimension::Mass, Dimension::Count])?))
        }
        Rule::desired_line => Some(Content::DesiredTemperature(temperature_chain(reader, pairs.next()?)?)),
        Rule::ingredient_line => ingredient(reader, pairs),
        Rule::step_line => step(reader, pairs),
        _ if reader.kind == FileKind::Bakes => bakes::build(reader, rule, pairs),
        _ if reader.kind == FileKind::Book => book::build(reader, rule, pairs),
        _ => block::build(reader, rule, said, pairs),
    }
}

fn text_line<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Content {
    let word = pairs.next().map_or_else(String::new, |pair| pair.as_str().to_ascii_lowercase());
    let kind = match word.as_str() {
        "caution" => TextKind::Caution,
        "credit" => TextKind::Credit,
        "story" => TextKind::Story,
        _ => TextKind::Note,
    };
    let pieces = pairs.next().map_or_else(Vec::new, |text| {
        let span = reader.span(&text);
        prose::read(reader, span)
    });
    Content::Text { kind, pieces }
}

fn makes<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let what = pairs.next()?;
    let makes = if what.as_rule() == Rule::pieces {
        let mut inner = what.into_inner();
        let count = numbers::number(reader, inner.next()?);
        let noun = reader.name(&inner.next()?);
        let noun = no_comma::name_before(reader, noun)?;
        count.map(|count| Makes::Pieces(count, noun))
    } else {
        chain_of(reader, what.into_inner().next()?, &[Dimension::Mass]).map(Makes::Mass)
    };
    let (mut losses, mut bake_loss, mut pan) = (Vec::new(), None, None);
    for pair in pairs {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::bake_loss => {
                if bake_loss.is_some() {
                    stray::said_twice(reader, span, "bake loss");
                }
                bake_loss = Some(Box::new(quantity_of(reader, pair.into_inner().next()?, &[Dimension::Proportion])?));
            }
            Rule::pan => {
                if pan.is_some() {
                    stray::said_twice(reader, span, "the tin");
                }
                if no_comma::one_unit_for_all(reader, span) {
                    continue;
                }
                pan = Some(Box::new(written_pan(reader, span, pair)?));
            }
            _ => losses.push(pair),
        }
    }
    let of_everything = |pair: &Pair<'t>| pair.into_inner().any(|part| part.as_rule() == Rule::of_everything);
    let of_everything = losses.iter().any(of_everything);
    let loss = loss(reader, losses.into_iter());
    Some(Content::Makes { makes: makes?, loss: loss.ok()?, of_everything, bake_loss, pan })
}

/// What a file or a block of a larder is called.
fn titled<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let word = pairs.next()?.as_str().to_ascii_lowercase();
    let name = reader.name(&pairs.next()?);
    Some(match word.as_str() {
        "recipe" => Content::Recipe(name),
        "kitchen" => Content::Kitchen(name),
        "day" => Content::Day(name),
        _ => Content::IngredientBlock(name),
    })
}

/// A file that is used, or until when a food is used.
fn used<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let what = pairs.next()?;
    if what.as_rule() != Rule::use_by {
        return Some(Content::Use(string(reader, what)));
    }
    let mut inner = what.into_inner();
    let time = numbers::days_of(reader, inner.next()?)?;
    Some(Content::GoodFor { time, use_by: Some(inner.next()?.as_str().trim().to_owned()) })
}

/// Whose cups and spoons are meant.
fn measures<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let name = reader.name(&pairs.next()?);
    match Measures::from_word(&name.text) {
        Some(measures) => Some(Content::Measures(Spanned::new(measures, name.span))),
        None => {
            stray::unknown_measures(reader, &name);
            None
        }
    }
}

/// What is 100 %.
fn percent<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let name = reader.name(&pairs.next()?);
    let span = name.span;
    let of = match name.key.as_str() {
        "flour" => PercentOf::Flour,
        "total" => PercentOf::Total,
        _ => PercentOf::Named(name),
    };
    Some(Content::Percent(Spanned::new(of, span)))
}

/// Into which pieces a part is divided.
fn divide<'t>(reader: &mut Reader<'_>, pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let (sized, losses): (Vec<_>, Vec<_>) = pairs.partition(|pair| pair.as_rule() == Rule::sized);
    let mut sizes = Vec::with_capacity(sized.len());
    for pair in sized {
        let mut inner = pair.into_inner();
        let count = numbers::number(reader, inner.next()?);
        let each = chain_of(reader, inner.next()?, &[Dimension::Mass]);
        let sort = inner.next().map(|pair| reader.name(&pair)).and_then(|name| no_comma::sort(reader, name));
        sizes.push(SizedPieces { count: count?, each: each?, sort });
    }
    let loss = loss(reader, losses.into_iter());
    Some(Content::Divide { sizes, loss: loss.ok()? })
}

fn written_pan(reader: &mut Reader<'_>, span: Span, pair: Pair<'_>) -> Option<WrittenPan> {
    let mut inner = pair.into_inner();
    let kind = match inner.next()?.as_str().to_ascii_lowercase().as_str() {
        "round" => PanKind::Round,
        "sheet" => PanKind::Sheet,
        _ => PanKind::Tin,
    };
    let mut measures = Vec::new();
    for pair in inner {
        measures.push(quantity_of(reader, pair, &[Dimension::Length, Dimension::Volume])?);
    }
    Some(WrittenPan { kind, measures, span })
}

/// A figure that cannot be was reported.
struct Reported;

/// The loss that a line says, if it says one.
fn loss<'t>(reader: &mut Reader<'_>, pairs: impl Iterator<Item = Pair<'t>>) -> Result<Option<Quantity>, Reported> {
    let mut found = None;
    for pair in pairs {
        let span = reader.span(&pair);
        if found.is_some() {
            stray::said_twice(reader, span, "loss");
        }
        let said = pair.into_inner().next().and_then(|said| quantity_of(reader, said, &[Dimension::Proportion]));
        found = Some(said.ok_or(Reported)?);
    }
    Ok(found)
}

fn keeps<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let time = numbers::days_of(reader, pairs.next()?);
    let mut how = None;
    for pair in pairs {
        let span = reader.span(&pair);
        if how.is_some() {
            stray::said_twice(reader, span, "how it is kept");
        }
        how = match pair.as_rule() {
            Rule::chilled => Some(KeptHow::Chilled),
            Rule::frozen => Some(KeptHow::Frozen),
            _ => Some(KeptHow::At(temperature_chain(reader, pair.into_inner().next()?)?)),
        };
    }
    Some(Content::Keeps { time: time?, how })
}

fn ingredient<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let name = stray::without_bullet(reader, reader.name(&pairs.next()?));
    let leader = reader.span(&pairs.next()?);
    let amount = amount(reader, pairs.next()?);
    let mut clauses = Vec::with_capacity(pairs.size_hint().0);
    for pair in pairs {
        let span = reader.span(&pair);
        if pair.as_rule() == Rule::trouble_rest {
            // `1 heaped tbsp`: what stands behind a word that is no unit was no preparation.
            if !matches!(amount, Amount::Broken(_)) {
                stray::wants_comma(reader, span, amount.span());
            }
            clauses.push(Spanned::new(IngredientClause::Preparation(pair.as_str().trim().to_owned()), span));
            continue;
        }
        let Some(inner) = pair.into_inner().next() else { continue };
        if let Some(clause) = ingredient_clause(reader, inner) {
            clauses.push(Spanned::new(clause, span));
        }
    }
    Some(Content::Ingredient(IngredientLine { name, leader, amount, clauses }))
}

fn amount(reader: &mut Reader<'_>, pair: Pair<'_>) -> Amount {
    let span = reader.span(&pair);
    let Some(inner) = pair.into_inner().next() else { return Amount::Broken(span) };
    match inner.as_rule() {
        Rule::all => Amount::All(span),
        Rule::to_taste => Amount::ToTaste(span),
        Rule::as_needed => Amount::AsNeeded(span),
        _ => chain_of(reader, inner, AMOUNT_KINDS).map_or(Amount::Broken(span), Amount::Chain),
    }
}

fn ingredient_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<IngredientClause> {
    Some(match pair.as_rule() {
        Rule::at => IngredientClause::At(temperature_chain(reader, pair.into_inner().next()?)?),
        Rule::yields => {
            IngredientClause::Yield(quantity_of(reader, pair.into_inner().next()?, &[Dimension::Proportion])?)
        }
        Rule::counts_as_flour => IngredientClause::CountsAsFlour,
        Rule::not_flour => IngredientClause::NotFlour,
        Rule::optional => IngredientClause::Optional,
        Rule::aside => IngredientClause::Aside,
        Rule::strained_out => IngredientClause::StrainedOut,
        Rule::from_store => IngredientClause::FromStore,
        Rule::leaves => {
            let mut inner = pair.into_inner();
            let name = reader.name(&inner.next()?);
            IngredientClause::Leaves(name, quantity_of(reader, inner.next()?, &[Dimension::Proportion])?)
        }
        Rule::instead => IngredientClause::Instead(reader_lines::stand_in(reader, pair)?),
        Rule::trouble_instead => {
            reader_lines::no_stand_in(reader, &pair);
            return None;
        }
        Rule::before => IngredientClause::Before(name_of(reader, pair.into_inner().next())?),
        _ => IngredientClause::Preparation(pair.as_str().trim().to_owned()),
    })
}

fn step<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let name = reader.name(&pairs.next()?);
    let kind_pair = pairs.next()?;
    let kind = match kind_pair.as_str().to_ascii_lowercase().as_str() {
        "hands" => StepKind::Hands,
        "tend" => StepKind::Tend,
        _ => StepKind::Wait,
    };
    let kind = Spanned::new(kind, reader.span(&kind_pair));
    let duration_pair = pairs.next()?;
    let duration_span = reader.span(&duration_pair);
    let mut pairs = pairs.peekable();
    let glued = pairs.peek().filter(|pair| pair.as_rule() == Rule::trouble_rest).map(|pair| reader.span(pair));
    let duration = match glued {
        Some(glued) if stray::clock_for_time(reader, duration_span, glued) => {
            pairs.next();
            None
        }
        _ => quantity_of(reader, duration_pair, &[Dimension::Time]),
    };
    let mut clauses = Vec::with_capacity(pairs.size_hint().0);
    for pair in pairs {
        let span = reader.span(&pair);
        if pair.as_rule() == Rule::trouble_rest {
            stray::behind_time(reader, span, duration_span);
            continue;
        }
        let Some(inner) = pair.into_inner().next() else { continue };
        let clause = step_clause(reader, inner).unwrap_or(StepClause::Broken);
        clauses.push(Spanned::new(clause, span));
    }
    // A step whose time was reported still owns its prose and its uses; it lasts no time for the sums that follow.
    let duration = duration.unwrap_or(Quantity { terms: Vec::new(), upper: None, span: duration_span });
    Some(Content::Step(StepLine { name, kind, duration, clauses }))
}

fn step_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<StepClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::each => StepClause::Each,
        Rule::at_a_time => StepClause::AtATime(numbers::number(reader, inner.next()?)?),
        Rule::using => {
            let name = reader.name(&inner.next()?);
            let name = no_comma::name_before(reader, name)?;
            let at = match inner.next() {
                Some(chain) => temperature_chain(reader, chain)?,
                None => Vec::new(),
            };
            let mut later = Vec::new();
            for then in inner {
                let mut then = then.into_inner();
                let at = temperature_chain(reader, then.next()?)?;
                later.push(LaterHeat { at, after: quantity_of(reader, then.next()?, &[Dimension::Time])? });
            }
            StepClause::Using(name, at, later)
        }
        Rule::at => StepClause::At(temperature_chain(reader, inner.next()?)?),
        Rule::up_to => StepClause::UpTo(quantity_of(reader, inner.next()?, &[Dimension::Time])?),
        Rule::into => {
            let mut pairs: Vec<Pair<'_>> = inner.collect();
            let name = name_of(reader, pairs.pop())?;
            StepClause::Into(numbers::moments_of(reader, pairs)?, name)
        }
        Rule::during => StepClause::During(name_of(reader, inner.next())?),
        Rule::before => StepClause::Before(name_of(reader, inner.next())?),
        Rule::may_stand => StepClause::MayStand(quantity_of(reader, inner.next()?, &[Dimension::Time])?),
        Rule::shared_by => StepClause::SharedBy(numbers::number(reader, inner.next()?)?),
        Rule::after => StepClause::After(name_of(reader, inner.next())?),
        Rule::straight_after => StepClause::StraightAfter(name_of(reader, inner.next())?),
        Rule::within_after => {
            let time = quantity_of(reader, inner.next()?, &[Dimension::Time])?;
            StepClause::Within(time, name_of(reader, inner.next())?)
        }
        Rule::station => {
            let name = name_of(reader, inner.next())?;
            StepClause::Station(no_comma::name_before(reader, name)?)
        }
        Rule::people => StepClause::People(numbers::number(reader, inner.next()?)?),
        _ => {
            stray::unknown_step_clause(reader, span);
            StepClause::Broken
        }
    })
}

fn name_of(reader: &Reader<'_>, pair: Option<Pair<'_>>) -> Option<Name> {
    pair.map(|pair| reader.name(&pair))
}
