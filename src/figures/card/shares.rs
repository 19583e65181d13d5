//! Shares and pieces as a card prints them.

use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::shown::Shown;

/// One decimal is what a reader can use of a computed share.
pub(super) fn rounded_share(share: Proportion) -> Shown {
    let tenth_of_percent = Number::constant(1, 1000);
    show::percent(Proportion::new(share.value().rounded_to(tenth_of_percent).unwrap_or(share.value())))
}

/// A mass as a share of another; `None` without either.
pub(super) fn share(of: Option<Mass>, on: Option<Mass>) -> Option<Proportion> {
    match (of, on) {
        (Some(of), Some(on)) if on > Mass::ZERO => of.as_share_of(on).ok(),
        _ => None,
    }
}

/// A share as the column of percentages prints it, without the cue.
pub(super) fn percent_digits(share: Option<Proportion>) -> Shown {
    let percent = share.and_then(|share| share.percent().ok());
    percent.map(|value| Shown::new(show::percent_digits(value), "")).unwrap_or_default()
}

/// What is in pieces is told in pieces, with what they weigh.
pub fn in_pieces(pieces: Option<Number>, mass: Shown) -> Shown {
    match pieces {
        Some(one) if one == Number::ONE => Shown::words(format!("1 piece, {mass}")),
        Some(pieces) => Shown::words(format!("{} pieces, {mass}", show::count_of(pieces))),
        None => mass,
    }
}
