//! The head of a recipe.

use super::outline::Outline;
use super::said::{Seen, loss_share, makes_mass};
use super::{pans, steps};
use crate::language::syntax::{Content, Makes, Name, Quantity};
use crate::measure::quantity::{Count, Proportion};
use crate::measure::unit::Measures;
use crate::model::recipe::{BakedIn, HeadMakes, Selection, Text};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// What the head says.
pub(super) struct Head {
    pub name: Option<Name>,
    pub makes: Option<HeadMakes>,
    pub pan: Option<BakedIn>,
    pub bake_loss: Option<Proportion>,
    pub measures: Option<Measures>,
}

pub(super) fn read(outline: &Outline<'_>, selection: &Selection, diagnostics: &mut Vec<Diagnostic>) -> Head {
    let mut head = Head { name: None, makes: None, pan: None, bake_loss: None, measures: None };
    let mut seen = Seen::default();
    // The cup must be known before any amount is understood.
    for line in &outline.head {
        match &line.content {
            Content::Recipe(name) => {
                seen.once("recipe", line, diagnostics);
                head.name.get_or_insert_with(|| name.clone());
            }
            Content::Measures(measures) => {
                seen.once("measures", line, diagnostics);
                head.measures.get_or_insert(measures.value);
            }
            _ => {}
        }
    }
    for line in outline.head.iter().filter(|line| selection.holds(&line.only)) {
        if let Content::Makes { makes, loss, bake_loss, pan, .. } = &line.content {
            seen.once("makes", line, diagnostics);
            let read = makes_of(makes, loss.as_ref(), line.said, head.measures, diagnostics);
            head.makes = head.makes.take().or(read);
            head.pan = head.pan.or(pan.as_ref().and_then(|pan| pans::pan(pan, head.measures, diagnostics)));
            let loss = bake_loss.as_ref().and_then(|loss| loss_share(loss, diagnostics));
            head.bake_loss = head.bake_loss.or(loss);
        }
    }
    head
}

fn makes_of(
    makes: &Makes,
    loss: Option<&Quantity>,
    span: Span,
    measures: Option<Measures>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<HeadMakes> {
    match makes {
        Makes::Pieces(count, noun) => {
            if !count.value.is_positive() || !count.value.is_whole() {
                diagnostics.push(
                    Diagnostic::error(
                        "impossible-number",
                        count.span,
                        "a batch is a whole number of pieces, at least one",
                    )
                    .help("write a whole number, `makes 24 buns`"),
                );
                return None;
            }
            Some(HeadMakes::Pieces { count: Count::new(count.value), noun: noun.clone(), span })
        }
        Makes::Mass(chain) => makes_mass(chain, loss, span, measures, diagnostics).map(HeadMakes::Mass),
    }
}

/// Notes, cautions and credits of the head.
pub(super) fn texts(
    outline: &Outline<'_>,
    selection: &Selection,
    measures: Option<Measures>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Vec<Text> {
    let mut texts = Vec::new();
    let mut continues = false;
    for line in &outline.head {
        steps::text_line(line, selection, measures, &mut texts, &mut continues, diagnostics);
    }
    texts
}
