//! Where something is defined, in whichever file.

use super::mentions::{self, home, mentions};
use super::scope::{Scope, Thing};
use super::view::View;
use crate::text::source::Span;

/// The places that define what is named at an offset.
pub(super) fn definition(view: &View, offset: usize) -> Vec<Span> {
    let Some(mention) = mentions::at(view.mentions(), offset) else { return Vec::new() };
    if let Thing::File(file) = &mention.thing {
        return vec![Span::new(*file, 0, 0)];
    }
    let elsewhere = home(&mention.thing);
    let all = if elsewhere == view.source {
        view.mentions().to_vec()
    } else {
        mentions(&view.project, &Scope::of(&view.project, elsewhere))
    };
    let of_thing = all.iter().filter(|other| other.thing == mention.thing);
    let defining: Vec<Span> = of_thing.clone().filter(|other| other.defines).map(|other| other.span).collect();
    // An ingredient that no larder describes is defined by the first line that lists it.
    match (&mention.thing, defining.first()) {
        (Thing::Ingredient(..), Some(first)) => vec![*first],
        _ => defining,
    }
}
