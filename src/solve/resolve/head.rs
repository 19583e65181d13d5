//! The head of a recipe.

use super::outline::Outline;
use super::pans;
use super::reading::{Reading, Seen};
use super::texts::{self, Texts};
use crate::language::evaluate;
use crate::language::syntax::{self, Content, Makes, Name, Quantity, SaleField};
use crate::measure::noun::dozens;
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Density, Mass, Proportion, Volume};
use crate::measure::unit::{Dimension, Unit};
use crate::measure::value::Value;
use crate::model::published::Published;
use crate::model::recipe::{BakedIn, HeadMakes, MakesMass, Recipe, Selection, Text};
use crate::model::sale::{Drained, GoodFor, Sale, Serving, Size, unknown_traces};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use std::sync::Arc;

/// Ten years: nobody says more of food.
const MOST_DAYS: i64 = 3650;

/// What the head says.
#[derive(Clone)]
pub(super) struct Head {
    pub name: Option<Name>,
    pub makes: Option<HeadMakes>,
    pub pan: Option<BakedIn>,
    pub bake_loss: Option<Proportion>,
    pub sale: Sale,
}

pub(super) fn read(outline: &Outline<'_>, selection: &Selection, reading: &mut Reading) -> Head {
    let mut head = Head { name: None, makes: None, pan: None, bake_loss: None, sale: Sale::default() };
    let mut seen = Seen::default();
    // The cup must be known before any amount is understood.
    for line in &outline.head {
        match &line.content {
            Content::Recipe(name) => {
                seen.once("recipe", line, reading);
                head.name.get_or_insert_with(|| name.clone());
            }
            Content::Measures(measures) => {
                seen.once("measures", line, reading);
                reading.measures.get_or_insert(measures.value);
            }
            _ => {}
        }
    }
    for line in outline.head.iter().filter(|line| selection.holds(&line.only)) {
        if let Content::Makes { makes, loss, of_everything, bake_loss, pan } = &line.content {
            seen.once("makes", line, reading);
            let read = makes_of(makes, loss.as_ref(), line.said, reading).map(|made| match made {
                HeadMakes::Mass(mass) => HeadMakes::Mass(MakesMass { alike: *of_everything, ..mass }),
                pieces @ HeadMakes::Pieces { .. } => pieces,
            });
            head.makes = head.makes.take().or(read);
            head.pan = head.pan.or(pan.as_ref().and_then(|pan| pans::pan(pan, reading)));
            let loss = bake_loss.as_ref().and_then(|loss| reading.loss(loss));
            head.bake_loss = head.bake_loss.or(loss);
        }
        match &line.content {
            Content::Sale(field, text) => {
                seen.once(field.word(), line, reading);
                if *field == SaleField::MayContain {
                    unknown_traces(text, line.said).into_iter().for_each(|problem| reading.report(problem));
                }
            }
            Content::Serving(weight, words) => {
                seen.once("serving", line, reading);
                let said = serving(weight, words.as_ref(), reading);
                head.sale.serving = head.sale.serving.take().or(said);
            }
            Content::Drained(said) => {
                seen.once("drained", line, reading);
                let drained = drained(said, reading);
                head.sale.drained = head.sale.drained.or(drained);
            }
            Content::Weighs { weight, number, unit, measures } => {
                seen.once("weighs", line, reading);
                let density = evaluate::density(weight, *number, *unit, *measures, &mut reading.problems);
                let density = density.filter(|density| is_poured(*density, line.said, reading));
                head.sale.density = head.sale.density.or(density);
            }
            Content::GoodFor { time, use_by } => {
                seen.once("best before", line, reading);
                let good = good_for(time, use_by.as_ref(), reading);
                head.sale.good_for = head.sale.good_for.take().or(good);
            }
            _ => {}
        }
    }
    let held = outline.head.iter().filter(|line| selection.holds(&line.only));
    head.sale = Sale {
        good_for: head.sale.good_for.take(),
        serving: head.sale.serving.take(),
        drained: head.sale.drained,
        density: head.sale.density,
        ..Sale::of_lines(held.copied())
    };
    head
}

/// What the head says that the recipe makes by weight its last part makes, where that says nothing of it: what is lost is lost there.
pub(super) fn give_what_the_head_makes(recipe: &mut Recipe) {
    let Some(HeadMakes::Mass(makes)) = recipe.makes.clone() else { return };
    let last = recipe.final_part().and_then(|id| recipe.parts.get_mut(id.0));
    if let Some(part) = last.filter(|part| part.makes.is_none() && part.divide.is_none() && !part.per_piece) {
        Arc::make_mut(part).makes = Some(makes);
    }
}

/// `serving 55 g`, `serving 50 g, 1 slice`, `serving 240 ml, 1 cup`: more than nothing.
fn serving(size: &Quantity, words: Option<&String>, reading: &mut Reading) -> Option<Serving> {
    let said = reading.said(size)?;
    let found = match said.value {
        Value::Mass(mass) if mass > Mass::ZERO => Some(Size::Mass(mass)),
        Value::Volume(volume) if volume > Volume::ZERO => Some(Size::Volume(volume)),
        _ => None,
    };
    if found.is_none() {
        let problem = Diagnostic::error("impossible-number", size.span, "a serving weighs something");
        reading.report(problem.help("write what one eats of it at once, `serving 55 g`"));
    }
    found.map(|size| Serving { size, words: words.cloned() })
}

/// Grams of a millilitre of what is poured, at least and at most: spirits have 0.79 and more, honey and thick syrups 1.45. Common practice,
/// no source.
const POURED: (Number, Number) = (Number::constant(7, 10), Number::constant(8, 5));

/// Whether something poured may weigh so much; what cannot be is reported.
fn is_poured(density: Density, span: Span, reading: &mut Reading) -> bool {
    let is_likely = density.value() >= POURED.0 && density.value() <= POURED.1;
    if !is_likely {
        let message = "a litre of what is poured weighs from 700 g to 1600 g";
        reading.report(
            Diagnostic::error("impossible-number", span, message).help("look at the units, `weighs 1.04 kg per l`"),
        );
    }
    is_likely
}

/// `drained 320 g of 550 g`, `drained 58 %`, `drained as packed`: something, and less than all.
fn drained(said: &syntax::Drained, reading: &mut Reading) -> Option<Drained> {
    let (share, span) = match said {
        syntax::Drained::AsPacked => return Some(Drained::AsPacked),
        syntax::Drained::Share(quantity) => (reading.said(quantity)?.proportion()?, quantity.span),
        syntax::Drained::Weighed(left, of) => {
            let Value::Mass(whole) = reading.said(of)?.most() else { return None };
            let left_over = reading.said(left)?.mass()?;
            let share = if whole > Mass::ZERO { left_over.as_share_of(whole).ok() } else { None };
            (share.unwrap_or(Proportion::ZERO), left.span.to(of.span))
        }
    };
    if share > Proportion::ZERO && share < Proportion::WHOLE {
        return Some(Drained::Share(share));
    }
    let message = "what is left on a sieve is less than it weighed with its liquid, and more than nothing";
    reading.report(
        Diagnostic::error("impossible-number", span, message)
            .help("write what was left of how much, `drained 320 g of 550 g`, or the share, `drained 58 %`"),
    );
    None
}

/// `best before 3 days`, `use by 2 days, REASON`: whole days, one at least.
fn good_for(time: &Quantity, use_by: Option<&String>, reading: &mut Reading) -> Option<GoodFor> {
    let (time_said, _) = reading.said(time)?.times()?;
    let days = time_said.in_days().ok()?;
    if days.is_whole() && days.is_positive() && days <= Number::whole(MOST_DAYS) {
        return Some(GoodFor { time: time_said, use_by: use_by.cloned(), span: time.span });
    }
    let problem =
        Diagnostic::error("impossible-number", time.span, "a date on a label is whole days away, one at least");
    reading.report(problem.help("write `best before 3 days`; ten years are the most"));
    None
}

/// `makes 2 l`, `makes 3 kilos`: no noun of pieces. Cups and pints may be what something is sold in.
fn of_a_volume(noun: &Name, span: Span) -> Option<Diagnostic> {
    let unit = Unit::from_word(&noun.text).or_else(|| Unit::meant_by(&noun.text).and_then(Unit::from_word))?;
    let is_sold_in = matches!(unit, Unit::Cup | Unit::Pint | Unit::Quart | Unit::Gallon);
    let is_amount = matches!(unit.dimension(), Dimension::Volume | Dimension::Mass) && !is_sold_in;
    is_amount.then(|| {
        let message = format!("`{noun}` is an amount, and would be the noun of the pieces");
        Diagnostic::error("wrong-kind", span, message)
            .help("write what it weighs, `makes 2 kg`, or what it is filled into, `makes 8 bottles`")
    })
}

fn makes_of(makes: &Makes, loss: Option<&Quantity>, span: Span, reading: &mut Reading) -> Option<HeadMakes> {
    match makes {
        Makes::Pieces(count, noun) => {
            let (value, noun) = match dozens(count.value, &noun.text) {
                Some((many, of)) => (many, Name::new(of, noun.span)),
                None => (count.value, noun.clone()),
            };
            if !value.is_positive() || !value.is_whole() {
                reading.report(
                    Diagnostic::error(
                        "impossible-number",
                        count.span,
                        "a batch is a whole number of pieces, at least one",
                    )
                    .help("write a whole number, `makes 24 buns`"),
                );
                return None;
            }
            if let Some(problem) = of_a_volume(&noun, span) {
                reading.report(problem);
                return None;
            }
            Some(HeadMakes::Pieces { count: Count::new(value), noun, span })
        }
        Makes::Mass(chain) => reading.makes_mass(chain, loss, span).map(HeadMakes::Mass),
    }
}

/// Who wrote it, where it is looked for, and the pictures of the whole.
pub(super) fn published(outline: &Outline<'_>, selection: &Selection, reading: &mut Reading) -> Published {
    let mut published = Published::default();
    let mut seen = Seen::default();
    for line in outline.head.iter().filter(|line| selection.holds(&line.only)) {
        match &line.content {
            Content::Picture(picture) => published.pictures.extend(texts::picture(picture)),
            Content::By(words) => {
                seen.once("by", line, reading);
                published.by = Some(words.clone());
            }
            Content::FiledUnder(names) => {
                seen.once("filed under", line, reading);
                let new = names.iter().filter(|name| !published.filed_under.iter().any(|known| known.same(name)));
                let new: Vec<Name> = new.cloned().collect();
                published.filed_under.extend(new);
            }
            _ => {}
        }
    }
    published
}

/// Stories, notes, cautions and credits of the head.
pub(super) fn texts(outline: &Outline<'_>, selection: &Selection, reading: &mut Reading) -> Vec<Text> {
    let mut texts = Texts::default();
    for line in &outline.head {
        texts.take(line, selection, reading);
    }
    texts.all()
}
