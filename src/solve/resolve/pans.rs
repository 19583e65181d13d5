//! What `makes` says of the tin.

use super::reading::Reading;
use crate::language::syntax::{PanKind, Quantity, WrittenPan};
use crate::measure::pan::Pan;
use crate::measure::quantity::{Length, Volume};
use crate::measure::value::Value;
use crate::model::recipe::BakedIn;
use crate::text::diagnostic::Diagnostic;

/// Understands a tin, a round or a sheet.
pub(super) fn pan(written: &WrittenPan, reading: &mut Reading) -> Option<BakedIn> {
    let mut lengths: Vec<Length> = Vec::new();
    let mut volumes: Vec<Volume> = Vec::new();
    for quantity in &written.measures {
        let said = reading.said(quantity)?;
        if !said.value.number().is_positive() {
            reading.report(
                Diagnostic::error("impossible-number", quantity.span, "a tin cannot measure nothing")
                    .help("write its inner measures, `tin 23 cm x 13 cm x 7 cm`"),
            );
            return None;
        }
        match said.value {
            Value::Length(length) => lengths.push(length),
            Value::Volume(volume) => volumes.push(volume),
            _ => return None,
        }
    }
    let pan = match (written.kind, lengths.as_slice(), volumes.as_slice()) {
        (PanKind::Tin, [long, wide, high], []) => Pan::Tin(*long, *wide, *high),
        (PanKind::Tin, [], [volume]) => Pan::Holds(*volume),
        (PanKind::Round, [across], []) => Pan::Round(*across, None),
        (PanKind::Round, [across, high], []) => Pan::Round(*across, Some(*high)),
        (PanKind::Sheet, [long, wide], []) => Pan::Sheet(*long, *wide),
        _ => {
            let wants = match written.kind {
                PanKind::Tin => {
                    ("a tin has length, width and height, or a volume", "`tin 23 cm x 13 cm x 7 cm` or `tin 2 l`")
                }
                PanKind::Round => (
                    "a round has a measure across, and a height if it matters",
                    "`round 24 cm` or `round 24 cm x 5 cm`",
                ),
                PanKind::Sheet => ("a sheet has length and width", "`sheet 60 cm x 40 cm`"),
            };
            reading.report(Diagnostic::error("wrong-kind", written.span, wants.0).help(format!("write {}", wants.1)));
            return None;
        }
    };
    Some(BakedIn { pan, span: written.span })
}

/// A bake loss on a part.
pub(super) fn misplaced_bake_loss(quantity: &Quantity) -> Diagnostic {
    Diagnostic::error("stray-line", quantity.span, "what is lost in the oven is said of the recipe's pieces")
        .help("write it in the head: `makes 12 loaves, bake loss 12 %`")
}
