//! What a version says for its label, its readers' servings and its aims, where the other says something else.

use super::figures::Figure;
use crate::aims::shown_aim;
use crate::measure::number::Number;
use crate::measure::quantity::Volume;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::aim::Aim;
use crate::model::recipe::Recipe;
use crate::model::sale::{Drained, Sale, Serving, Size};

/// What the head says for its label, and the aims of the whole and of its own parts.
pub(super) fn of_whole(old: &Recipe, new: &Recipe) -> Vec<Figure> {
    let (one, other) = (&old.sale, &new.sale);
    let text = |figure: &'static str, of: fn(&Sale) -> &Option<String>| {
        let words = |sale: &Sale| of(sale).clone().unwrap_or_default();
        Figure::words(figure, words(one), words(other))
    };
    [
        text("sold as", |sale| &sale.sold_as),
        Figure::words("good for", good_for(one), good_for(other)),
        text("store", |sale| &sale.store),
        text("batch", |sale| &sale.batch),
        text("business", |sale| &sale.business),
        text("may contain", |sale| &sale.may_contain),
        Figure::words("serving", serving(one), serving(other)),
        Figure::words("drained", drained(one), drained(other)),
        Figure::words("density", density(one), density(other)),
        text("origin", |sale| &sale.origin),
        text("directions", |sale| &sale.directions),
        Figure::words("aims", aims(old), aims(new)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn good_for(sale: &Sale) -> Shown {
    let Some(good_for) = &sale.good_for else { return Shown::default() };
    let time = show::duration(good_for.time);
    Shown::words(match &good_for.use_by {
        Some(why) => format!("use by, {time}: {why}"),
        None => format!("best before, {time}"),
    })
}

fn serving(sale: &Sale) -> Shown {
    let Some(Serving { size, words }) = &sale.serving else { return Shown::default() };
    let size = match size {
        Size::Mass(mass) => show::mass_plain(*mass),
        Size::Volume(volume) => show::volume(*volume),
    };
    Shown::words(words.as_ref().map_or_else(|| size.to_string(), |words| format!("{size}, {words}")))
}

fn drained(sale: &Sale) -> Shown {
    match sale.drained {
        Some(Drained::Share(share)) => show::percent(share),
        Some(Drained::AsPacked) => Shown::words("as packed"),
        None => Shown::default(),
    }
}

fn density(sale: &Sale) -> Shown {
    let litre = Volume::new(Number::whole(1000));
    let mass = sale.density.and_then(|density| litre.weight(density).ok());
    mass.map_or_else(Shown::default, |mass| Shown::words(format!("{} a litre", show::mass(mass, Units::Metric))))
}

/// `hydration 60-70 % of flour; dough: salt 2 %`.
fn aims(recipe: &Recipe) -> String {
    let one = |aim: &Aim| {
        let of = aim.of.map_or_else(String::new, |of| format!(" {}", of.words()));
        format!("{} {}{of}", aim.figure.word(), shown_aim(aim))
    };
    let whole = recipe.aims.iter().map(one);
    let parts = recipe.own_parts().flat_map(|(_, part)| part.aims.iter().map(move |aim| (part, aim)));
    let parts = parts.map(|(part, aim)| format!("{}: {}", part.name, one(aim)));
    whole.chain(parts).collect::<Vec<String>>().join("; ")
}
